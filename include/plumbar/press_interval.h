/* SPDX-License-Identifier: MIT */
/* How sure the figures of a bench press are: the set-up solved for many bodies that the lifter
 * could have. Intervals cover the body, not the model's form and not strength. */
#ifndef PLUMBAR_PRESS_INTERVAL_H
#define PLUMBAR_PRESS_INTERVAL_H

#include <plumbar/compare.h>
#include <plumbar/press_effects.h>

/* One drawn lifter in the set-up; NaN where there is no figure, all of them without a pose. */
typedef struct PlumbPressSample {
    PlumbOutcome outcome;
    double output[PLUMB_PRESS_OUTPUT_COUNT];
} PlumbPressSample;

/* Solves the set-up for draws number first to first + count - 1 into sample[count]; the same draw
 * gives the same bytes on any thread. Allocates nothing. */
void plumb_press_samples_solve(const PlumbSampler *sampler, const PlumbSetup *setup, uint64_t first,
                               int count, PlumbPressSample *sample);

/* Two presses compared: as plumb_pair_solve, change[count][PLUMB_PRESS_OUTPUT_COUNT]. */
void plumb_press_pair_solve(const PlumbPair *pair, uint64_t first, int count, double *change);

typedef struct PlumbPressIntervals {
    int sample_count;
    double held_share; /* within the limits of the arm */
    double outside_share;
    double no_pose_share;
    PlumbEstimate of[PLUMB_PRESS_OUTPUT_COUNT];
} PlumbPressIntervals;

/* Sums sample[count] up in order. scratch: 2 count doubles. */
void plumb_press_intervals_sum(const PlumbPressSample *sample, int count, double *scratch,
                               PlumbPressIntervals *intervals);

#endif
