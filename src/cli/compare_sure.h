/* SPDX-License-Identifier: MIT */
/* How sure the differences of two requests are: bodies drawn for both sides at once. */
#ifndef PLUMBAR_CLI_COMPARE_SURE_H
#define PLUMBAR_CLI_COMPARE_SURE_H

#include "request.h"
#include "text_out.h"

#include <plumbar/compare.h>

/* --samples, or as many as a comparison draws without it. */
int plumb_compare_sure_count(const PlumbCliArgs *args);

/* The spread of every figure's change from the first request to the second, of count bodies by
 * --seed and --threads: spread[PLUMB_OUTPUT_COUNT], of a press spread[PLUMB_PRESS_OUTPUT_COUNT].
 * Estimates of count 0 where count is 0. PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_compare_sure_take(const PlumbCliArgs *args, const PlumbCliRequest *first,
                                    const PlumbCliRequest *second, int count, PlumbEstimate *spread,
                                    PlumbCliFault *fault);

/* Two cells of a table: "± 0.3 cm" and "-2.1 to -1.0 cm", signs kept, as of a change. */
void plumb_compare_sure_cells(const PlumbEstimate *spread, PlumbQuantity quantity,
                              PlumbCliTable *table);
/* What the two cells are, and that they cover the body. */
void plumb_compare_sure_print(bool one_body, int count, PlumbCliOutput *out);

#endif
