/* SPDX-License-Identifier: MIT */
/* How often advice holds: the options of a ranking solved for bodies that the lifter could have. */
#ifndef PLUMBAR_HOLD_H
#define PLUMBAR_HOLD_H

#include <plumbar/advice.h>
#include <plumbar/interval.h>

enum { PLUMB_HOLD_DRAWS_MAX = 1000 };

/* So many draws that judging a ranking takes a third of a second on one core. A goal whose figure
 * is had without window, range and findings takes the most where the lead is given: its draws cost
 * a twentieth. */
int plumb_hold_draws(const PlumbGoal *goal, const PlumbSetup *setup);

/* Solves setup and the set-up of every option for draws number first to first + count - 1. Row i of
 * gain[count][1 + option_count] begins with 1 where this body has something to gain (what is to
 * become less, or a finding that is there), 0 where it has not, NaN where it has no pose; then
 * stands what each option gains, SI, as in PlumbOption, NaN where a pose is missing. In any order
 * and on any thread, the same draw gives the same bytes. Allocates nothing. */
void plumb_hold_solve(const PlumbSampler *sampler, const PlumbSetup *setup, const PlumbGoal *goal,
                      const PlumbOption *option, int option_count, uint64_t first, int count,
                      double *gain);

/* One option over all bodies. */
typedef struct PlumbHold {
    double gains_share;  /* of bodies in which it gains more than least_gain */
    double best_share;   /* of bodies in which it gains the most of these options, and so much */
    double better_share; /* of bodies that it matters to (something to gain there, or a loss) the
                            share in which it gains at all */
    PlumbEstimate gain;  /* over the bodies that it matters to */
} PlumbHold;

/* What a gain has to be more than: what can be seen; a finding is gone or there. */
double plumb_hold_least_gain(const PlumbAdvice *advice);

/* Sums gain[count][1 + option_count] up into hold[option_count]. scratch: 2 count doubles. */
void plumb_hold_sum(const double *gain, int count, int option_count, double least_gain,
                    double *scratch, PlumbHold *hold);

/* How many of the first options of a ranking are to be drawn: all that gain and keep the rules. */
int plumb_advice_candidates(const PlumbOption *option, const PlumbAdvice *advice);

/* Judges the first hold_count options anew, by their gains over drawn bodies in the place of the
 * first order: worth trying is what gains in 97.5 % of the bodies that it matters to, so that the
 * 95 % interval of its gain is above zero. Writes gain_sd and worth, and sorts option and hold. */
void plumb_advice_settle(PlumbHold *hold, int hold_count, PlumbOption *option, PlumbAdvice *advice);

#endif
