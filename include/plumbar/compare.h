/* SPDX-License-Identifier: MIT */
/* Two set-ups of one lifter, or one set-up for two lifters: differences, and how sure they are. */
#ifndef PLUMBAR_COMPARE_H
#define PLUMBAR_COMPARE_H

#include <plumbar/interval.h>

typedef struct PlumbDifference {
    double first;
    double second;
    double change; /* second less first; NaN where either has none */
    PlumbEstimate
        spread; /* of the change over drawn bodies; count 0 and NaN where none are drawn */
} PlumbDifference;

/* Differences of all figures of the lift of two answers, none of them with a spread. */
void plumb_compare(const PlumbSolved *first, const PlumbSolved *second,
                   PlumbDifference difference[PLUMB_OUTPUT_COUNT]);

/* Whether both are one body: what is not known of it then errs the same way on both sides. */
bool plumb_compare_one_body(const PlumbBody *a, const PlumbBody *b);

/* One side: what is known of the lifter, the lifter built from it, and the set-up. */
typedef struct PlumbSide {
    const PlumbBodySpec *spec;
    const PlumbLifter *lifter;
    const PlumbSetup *setup;
} PlumbSide;

/* Both sides with drawn bodies. Of one body the same draw is solved in both set-ups, which makes
 * the differences paired; two bodies are drawn apart. */
typedef struct PlumbPair {
    PlumbSampler sampler[2];
    PlumbSetup setup[2];
} PlumbPair;

void plumb_pair_begin(const PlumbSide *first, const PlumbSide *second, uint64_t seed,
                      PlumbPair *pair);

/* Solves draws number first to first + count - 1 on both sides and writes the changes of all
 * figures of the lift, SI, change[count][PLUMB_OUTPUT_COUNT], NaN where either side has none (sum a
 * column up with plumb_column_estimate). quick: as of plumb_samples_solve. In any order and on any
 * thread, the same draw gives the same bytes. Allocates nothing. */
void plumb_pair_solve(const PlumbPair *pair, bool quick, uint64_t first, int count, double *change);

#endif
