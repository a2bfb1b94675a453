/* SPDX-License-Identifier: MIT */
/* Two set-ups of one lifter, or one set-up for two lifters: differences with their spread. */
#ifndef PLUMBAR_COMPARE_H
#define PLUMBAR_COMPARE_H

#include <plumbar/effects.h>

/* One side of a comparison; the answer is plumb_answer_solve of the other two. */
typedef struct PlumbSide {
    const PlumbLifter *lifter;
    const PlumbSetup *setup;
    const PlumbAnswer *answer;
} PlumbSide;

typedef struct PlumbDifference {
    double first;
    double second;
    double change; /* second less first; NaN where either has none */
    double sd;     /* spread of the change, first order; NaN where unknown */
} PlumbDifference;

/* Differences of all figures. one_lifter: both sides are the same body, so that a length that is
 * not known exactly errs the same way on both; else the two err independently. */
void plumb_compare(const PlumbSide *first, const PlumbSide *second, bool one_lifter,
                   PlumbDifference difference[PLUMB_OUTPUT_COUNT]);

#endif
