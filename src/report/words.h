/* SPDX-License-Identifier: MIT */
/* Parts of a handout's words. */
#ifndef PLUMBAR_REPORT_WORDS_H
#define PLUMBAR_REPORT_WORDS_H

#include <plumbar/report.h>

/* Up to PLUMB_HANDOUT_FEELS sentences on what an athlete notices. */
void plumb_feel_words(const PlumbAnswer *before, const PlumbAnswer *after, PlumbUnits units,
                      PlumbHandoutBlock *block);

/* The figures, with the spread of spec's body where bodies are drawn. PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_figure_rows(const PlumbHandoutAsk *ask, PlumbHandout *handout, PlumbError *error);

/* What the page rests on, in small print. */
void plumb_rests_on_words(const PlumbHandoutAsk *ask, const PlumbHandout *handout, PlumbText *text);

#endif
