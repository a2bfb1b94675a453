/* SPDX-License-Identifier: MIT */
/* The path of a request followed with the bodies that its lifter could have. */
#ifndef PLUMBAR_CLI_PATH_SURE_H
#define PLUMBAR_CLI_PATH_SURE_H

#include "csv_out.h"
#include "json_out.h"
#include "request.h"
#include "text_out.h"

#include <plumbar/interval.h>

/* count 0: intervals were not asked for; no draws are then kept. Figures are numbers in the lift's
 * own list. */
typedef struct PlumbCliPathSure {
    int count;
    PlumbLift lift;
    int points;
    uint64_t seed;
    double *value;   /* count paths */
    double *scratch; /* of estimates */
} PlumbCliPathSure;

/* Give back with plumb_path_sure_drop. PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_path_sure_take(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                 int count, PlumbCliPathSure *sure, PlumbCliFault *fault);
void plumb_path_sure_drop(PlumbCliPathSure *sure);

PlumbEstimate plumb_path_sure_fact(const PlumbCliPathSure *sure, int fact);
PlumbEstimate plumb_path_sure_step(const PlumbCliPathSure *sure, int point, int step);

/* "± 3.5 cm" in a cell; an empty one where there are no intervals or the fact does not vary. */
void plumb_path_sure_cell(const PlumbCliPathSure *sure, int fact, PlumbQuantity quantity,
                          PlumbCliTable *table);
/* The heads of the figures of a step, for a table of the figures or of their spreads. */
void plumb_path_sure_heads(PlumbLift lift, PlumbCliTable *table);
/* The standard deviations of every step as bare cells after its u, and what they cover. */
void plumb_path_sure_print(const PlumbCliPathSure *sure, PlumbUnits units, PlumbCliOutput *out);
/* The key `intervals` of the element of one point; null where there are none. */
void plumb_path_sure_json(const PlumbCliPathSure *sure, int point, PlumbJson json);

/* The bounds of every figure of a step as columns, and the cells of one point. */
void plumb_path_sure_csv_head(PlumbCsv *csv, PlumbLift lift);
void plumb_path_sure_csv(const PlumbCliPathSure *sure, int point, PlumbCsv *csv);

#endif
