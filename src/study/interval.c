/* SPDX-License-Identifier: MIT */
/* The set-up solved for many bodies, and the spread of every figure over them. */
#include "study/interval.h"

#include <math.h>
#include <stdlib.h>

const char *plumb_interval_caution(void)
{
    return "± and intervals cover what is not known of the body, not whether the model's form is "
           "right, and not strength.";
}

PlumbSetup plumb_sample_begin(const PlumbSampler *sampler, const PlumbSetup *setup, uint64_t index,
                              PlumbLifter *lifter)
{
    PlumbSetup aimed = *setup;
    double off;
    plumb_sampler_draw(sampler, index, lifter, &off);
    plumb_setup_set(&aimed, PLUMB_SET_balance, setup->balance_frac + off);
    aimed.lead = setup->lead; /* setting a lead's key makes it lead */
    return aimed;
}

static void record(const PlumbLifter *lifter, const PlumbSolved *solved, PlumbSample *sample)
{
    const int outputs = plumb_lift_output_count(solved->lift);
    sample->lift = solved->lift;
    sample->outcome = plumb_solved_outcome(solved);
    sample->stature_m = lifter->body.stature_m;
    sample->mass_kg = lifter->body.mass_kg;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        sample->length_m[i] = lifter->body.length_m[i];
    }
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        sample->output[i] = i < outputs ? plumb_solved_value(solved, i) : (double)NAN;
    }
}

void plumb_sample_solve(const PlumbSampler *sampler, const PlumbSetup *setup, uint64_t index,
                        PlumbLifter *lifter, PlumbSolved *solved, PlumbSample *sample)
{
    const PlumbSetup aimed = plumb_sample_begin(sampler, setup, index, lifter);
    plumb_solved_solve(lifter, &aimed, solved);
    record(lifter, solved, sample);
}

void plumb_samples_solve(const PlumbSampler *sampler, const PlumbSetup *setup, bool quick,
                         uint64_t first, int count, PlumbSample *sample)
{
    for (int i = 0; i < count; i++) {
        PlumbLifter lifter;
        PlumbSolved solved;
        const PlumbSetup aimed = plumb_sample_begin(sampler, setup, first + (uint64_t)i, &lifter);
        if (quick || setup->lift == PLUMB_BENCH) {
            plumb_solved_quick(&lifter, &aimed, &solved);
        } else {
            plumb_solved_solve(&lifter, &aimed, &solved);
        }
        record(&lifter, &solved, &sample[i]);
    }
}

static int by_size(const void *a, const void *b)
{
    const double *const x = a;
    const double *const y = b;
    return (*x > *y) - (*x < *y);
}

/* The value below which a share lies, between order statistics: (count - 1) share. */
static double quantile(const double *sorted, int count, double share)
{
    const double place = share * (count - 1);
    const int below = (int)place;
    const int above = below + 1 < count ? below + 1 : below;
    return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
}

PlumbEstimate plumb_estimate(const double *value, int count, double *scratch)
{
    const double none = (double)NAN;
    PlumbEstimate estimate = {0, none, none, none, none, none};
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        if (isfinite(value[i])) {
            scratch[estimate.count++] = value[i];
            sum += value[i];
        }
    }
    if (estimate.count < 2) {
        return estimate;
    }
    estimate.mean = sum / estimate.count;
    double squares = 0.0;
    for (int i = 0; i < estimate.count; i++) {
        squares += (scratch[i] - estimate.mean) * (scratch[i] - estimate.mean);
    }
    estimate.sd = sqrt(squares / (estimate.count - 1));
    qsort(scratch, (size_t)estimate.count, sizeof *scratch, by_size);
    estimate.median = quantile(scratch, estimate.count, 0.5);
    estimate.low = quantile(scratch, estimate.count, 0.025);
    estimate.high = quantile(scratch, estimate.count, 0.975);
    return estimate;
}

PlumbEstimate plumb_column_estimate(const double *value, int count, int size, int column,
                                    double *scratch)
{
    for (int i = 0; i < count; i++) {
        scratch[i] = value[(size_t)i * (size_t)size + (size_t)column];
    }
    return plumb_estimate(scratch, count, scratch + count);
}

void plumb_intervals(const PlumbSample *sample, int count, double *scratch,
                     PlumbIntervals *intervals)
{
    int outcomes[3] = {0, 0, 0};
    for (int i = 0; i < count; i++) {
        outcomes[sample[i].outcome]++;
    }
    const double all = count > 0 ? (double)count : (double)NAN;
    intervals->sample_count = count;
    intervals->held_share = outcomes[PLUMB_HELD] / all;
    intervals->outside_share = outcomes[PLUMB_OUTSIDE_WINDOW] / all;
    intervals->no_pose_share = outcomes[PLUMB_NO_POSE] / all;
    for (int k = 0; k < PLUMB_OUTPUT_COUNT; k++) {
        for (int i = 0; i < count; i++) {
            scratch[i] = sample[i].output[k];
        }
        intervals->of[k] = plumb_estimate(scratch, count, scratch + count);
    }
}
