/* SPDX-License-Identifier: MIT */
/* A press solved for many bodies, and the spread of its figures over them. */
#include <plumbar/press_interval.h>

#include <math.h>

void plumb_press_samples_solve(const PlumbSampler *sampler, const PlumbSetup *setup, uint64_t first,
                               int count, PlumbPressSample *sample)
{
    for (int i = 0; i < count; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer answer;
        double off_balance; /* a press has none */
        plumb_sampler_draw(sampler, first + (uint64_t)i, &lifter, &off_balance);
        plumb_press_quick(&lifter, setup, &answer);
        sample[i].outcome = answer.outcome;
        for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
            sample[i].output[o] = plumb_press_output_value(&answer, (PlumbPressOutput)o);
        }
    }
}

void plumb_press_pair_solve(const PlumbPair *pair, uint64_t first, int count, double *change)
{
    for (int i = 0; i < count; i++) {
        PlumbPressSample sample[2];
        for (int side = 0; side < 2; side++) {
            plumb_press_samples_solve(&pair->sampler[side], &pair->setup[side], first + (uint64_t)i,
                                      1, &sample[side]);
        }
        for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
            change[i * PLUMB_PRESS_OUTPUT_COUNT + o] = sample[1].output[o] - sample[0].output[o];
        }
    }
}

static double share_of(const PlumbPressSample *sample, int count, PlumbOutcome outcome)
{
    int found = 0;
    for (int i = 0; i < count; i++) {
        found += sample[i].outcome == outcome ? 1 : 0;
    }
    return count > 0 ? (double)found / count : (double)NAN;
}

void plumb_press_intervals_sum(const PlumbPressSample *sample, int count, double *scratch,
                               PlumbPressIntervals *intervals)
{
    intervals->sample_count = count;
    intervals->held_share = share_of(sample, count, PLUMB_HELD);
    intervals->outside_share = share_of(sample, count, PLUMB_OUTSIDE_WINDOW);
    intervals->no_pose_share = share_of(sample, count, PLUMB_NO_POSE);
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        for (int i = 0; i < count; i++) {
            scratch[i] = sample[i].output[o];
        }
        intervals->of[o] = plumb_estimate(scratch, count, scratch + count);
    }
}
