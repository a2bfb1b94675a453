/* SPDX-License-Identifier: MIT */
/* How often advice holds: the options of a ranking solved for bodies that the lifter could have. */
#include <plumbar/hold.h>

#include "study/interval.h"

#include <math.h>

static double amount(const PlumbGoal *goal, const PlumbSolved *solved)
{
    return plumb_solved_outcome(solved) == PLUMB_NO_POSE ? (double)NAN
                                                         : plumb_goal_amount(goal, solved);
}

void plumb_hold_solve(const PlumbSampler *sampler, const PlumbSetup *setup, const PlumbGoal *goal,
                      const PlumbOption *option, int option_count, uint64_t first, int count,
                      double *gain)
{
    for (int i = 0; i < count; i++) {
        const uint64_t index = first + (uint64_t)i;
        PlumbLifter lifter;
        PlumbSolved before;
        PlumbSolved after;
        const PlumbSetup aimed = plumb_sample_begin(sampler, setup, index, &lifter);
        plumb_solved_solve(&lifter, &aimed, &before);
        for (int k = 0; k < option_count; k++) {
            const PlumbSetup on = plumb_option_on(&option[k], setup, &before);
            const PlumbSetup changed = plumb_sample_begin(sampler, &on, index, &lifter);
            plumb_solved_solve(&lifter, &changed, &after);
            gain[i * option_count + k] = amount(goal, &before) - amount(goal, &after);
        }
    }
}

/* The option that gains most in one body, -1 where none gains more than least. */
static int best_of(const double *gain, int option_count, double least)
{
    int best = -1;
    double most = least;
    for (int k = 0; k < option_count; k++) {
        if (gain[k] > most) {
            most = gain[k];
            best = k;
        }
    }
    return best;
}

void plumb_hold_sum(const double *gain, int count, int option_count, double least_gain,
                    double *scratch, PlumbHold *hold)
{
    for (int k = 0; k < option_count; k++) {
        int gains = 0;
        int best = 0;
        for (int i = 0; i < count; i++) {
            const double *const own = gain + i * option_count;
            scratch[i] = own[k];
            gains += own[k] > least_gain ? 1 : 0;
            best += best_of(own, option_count, least_gain) == k ? 1 : 0;
        }
        const double all = count > 0 ? (double)count : (double)NAN;
        hold[k] =
            (PlumbHold){gains / all, best / all, plumb_estimate(scratch, count, scratch + count)};
    }
}
