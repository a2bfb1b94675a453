/* SPDX-License-Identifier: MIT */
/* How often advice holds: the options of a ranking solved for bodies that the lifter could have. */
#include <plumbar/hold.h>

#include "study/interval.h"
#include "study/option.h"

#include <math.h>

static double amount(const PlumbGoal *goal, const PlumbSolved *solved)
{
    return plumb_solved_outcome(solved) == PLUMB_NO_POSE ? (double)NAN
                                                         : plumb_goal_amount(goal, solved);
}

static bool is_quick(const PlumbGoal *goal)
{
    const bool press = goal->lift == PLUMB_BENCH;
    const int output = goal->output;
    return plumb_goal_of_figure(goal) &&
           (press || output < (int)PLUMB_OUT_window_low || output > (int)PLUMB_OUT_hip_room);
}

int plumb_hold_draws(const PlumbGoal *goal, const PlumbSetup *setup)
{
    enum { WHOLE = 300 };
    return is_quick(goal) && setup->lead != PLUMB_LEAD_AUTO ? (int)PLUMB_HOLD_DRAWS_MAX : WHOLE;
}

double plumb_hold_least_gain(const PlumbAdvice *advice)
{
    return advice->goal.form == PLUMB_GOAL_GONE ? 0.5 : advice->least_gain;
}

static void solve(const PlumbLifter *lifter, const PlumbSetup *setup, bool quick,
                  PlumbSolved *solved)
{
    if (quick) {
        plumb_solved_quick(lifter, setup, solved);
    } else {
        plumb_solved_solve(lifter, setup, solved);
    }
}

/* 1 or 0: whether there is something to gain; NaN without a pose. */
static double matters(const PlumbGoal *goal, double before)
{
    return isnan(before) || goal->form == PLUMB_GOAL_LESS ? before - before + 1.0
           : before > 0.0                                 ? 1.0
                                                          : 0.0;
}

void plumb_hold_solve(const PlumbSampler *sampler, const PlumbSetup *setup, const PlumbGoal *goal,
                      const PlumbOption *option, int option_count, uint64_t first, int count,
                      double *gain)
{
    const bool quick = is_quick(goal);
    for (int i = 0; i < count; i++) {
        const uint64_t index = first + (uint64_t)i;
        double *const row = gain + i * (option_count + 1);
        PlumbLifter lifter;
        PlumbSolved before;
        PlumbSolved after;
        const PlumbSetup aimed = plumb_sample_begin(sampler, setup, index, &lifter);
        solve(&lifter, &aimed, quick, &before);
        row[0] = matters(goal, amount(goal, &before));
        for (int k = 0; k < option_count; k++) {
            const PlumbSetup on = plumb_option_on(&option[k], setup, &before);
            const PlumbSetup changed = plumb_sample_begin(sampler, &on, index, &lifter);
            solve(&lifter, &changed, quick, &after);
            row[1 + k] = amount(goal, &before) - amount(goal, &after);
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
    const double all = count > 0 ? (double)count : (double)NAN;
    for (int k = 0; k < option_count; k++) {
        int gains = 0;
        int best = 0;
        int touched = 0;
        int better = 0;
        for (int i = 0; i < count; i++) {
            const double *const own = gain + i * (option_count + 1) + 1;
            const bool matter = own[-1] > 0.0 || own[k] < 0.0;
            scratch[i] = matter ? own[k] : (double)NAN;
            gains += own[k] > least_gain ? 1 : 0;
            best += best_of(own, option_count, least_gain) == k ? 1 : 0;
            touched += matter ? 1 : 0;
            better += matter && own[k] > 0.0 ? 1 : 0;
        }
        hold[k] = (PlumbHold){gains / all, best / all,
                              touched > 0 ? (double)better / touched : (double)NAN,
                              plumb_estimate(scratch, count, scratch + count)};
    }
}

int plumb_advice_candidates(const PlumbOption *option, const PlumbAdvice *advice)
{
    int count = 0;
    while (count < advice->count && option[count].kept && option[count].gain > advice->least_gain) {
        count++;
    }
    return count;
}

/* Insertion, so that equals stay as they came. */
static void sort(PlumbHold *hold, int count, PlumbOption *option)
{
    for (int i = 1; i < count; i++) {
        const PlumbOption one = option[i];
        const PlumbHold its = hold[i];
        int at = i;
        for (; at > 0 && plumb_option_before(&one, &option[at - 1]); at--) {
            option[at] = option[at - 1];
            hold[at] = hold[at - 1];
        }
        option[at] = one;
        hold[at] = its;
    }
}

void plumb_advice_settle(PlumbHold *hold, int hold_count, PlumbOption *option, PlumbAdvice *advice)
{
    static const double SURE_SHARE = 0.975;
    advice->worth_count = 0;
    for (int i = 0; i < hold_count; i++) {
        option[i].gain_sd = hold[i].gain.sd;
        option[i].worth =
            hold[i].better_share >= SURE_SHARE && plumb_option_is_notable(&option[i], advice);
        advice->worth_count += option[i].worth;
    }
    sort(hold, hold_count, option);
}
