/* SPDX-License-Identifier: MIT */
/* How often advice holds: the options of a ranking solved for bodies that the lifter could have. */
#ifndef PLUMBAR_HOLD_H
#define PLUMBAR_HOLD_H

#include <plumbar/advice.h>
#include <plumbar/interval.h>

/* Solves setup and the set-up of every option for draws number first to first + count - 1 and
 * writes what each option gains, gain[count][option_count], SI, as in PlumbOption; NaN where a
 * pose is missing. In any order and on any thread, the same draw gives the same bytes. Allocates
 * nothing. */
void plumb_hold_solve(const PlumbSampler *sampler, const PlumbSetup *setup, const PlumbGoal *goal,
                      const PlumbOption *option, int option_count, uint64_t first, int count,
                      double *gain);

/* One option over all bodies. */
typedef struct PlumbHold {
    double gains_share; /* of bodies in which it gains more than least_gain */
    double best_share;  /* of bodies in which it gains the most of these options, and so much */
    PlumbEstimate gain;
} PlumbHold;

/* Sums gain[count][option_count] up into hold[option_count]. scratch: 2 count doubles. */
void plumb_hold_sum(const double *gain, int count, int option_count, double least_gain,
                    double *scratch, PlumbHold *hold);

#endif
