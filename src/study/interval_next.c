/* SPDX-License-Identifier: MIT */
/* What to measure next: how far each measure would narrow the figures.
 *
 * A figure z and what would be observed, y = w'L + e, are taken as jointly normal, so that
 * var(z | y) = var(z) - cov(z, w'L)² / var(y); cov comes from the drawn bodies, var(y) from their
 * distribution. Nothing is solved again. */
#include <plumbar/interval.h>

#include "body/tape.h"
#include "tables.h"

#include <math.h>

enum { TAPE_ROWS = sizeof plumb_table_tape / sizeof plumb_table_tape[0] };

/* Lengths between joints that a patient person can find and tape. */
static const PlumbLength reachable[] = {
    PLUMB_LEN_thigh,   PLUMB_LEN_shank,       PLUMB_LEN_trunk,        PLUMB_LEN_upper_arm,
    PLUMB_LEN_forearm, PLUMB_LEN_foot_length, PLUMB_LEN_heel_to_ankle};

enum { DRAWN = 4 };
static const int drawn[DRAWN] = {PLUMB_OUT_travel, PLUMB_OUT_hip_arm, PLUMB_OUT_back_angle,
                                 PLUMB_OUT_hip_height};
static const int drawn_press[DRAWN] = {PLUMB_PRESS_OUT_travel, PLUMB_PRESS_OUT_upper_arm,
                                       PLUMB_PRESS_OUT_front_arm, PLUMB_PRESS_OUT_elbow_arm};

static bool is_given(const PlumbMeasure *measure)
{
    return measure->kind != PLUMB_MEASURE_NONE;
}

/* A tape of the whole arm fills only what is not known; the others fix their one length. */
static bool fills_only(PlumbTape tape)
{
    return tape == PLUMB_TAPE_span || tape == PLUMB_TAPE_floor_to_fingertips;
}

/* Whether a measure of the length would collide with a tape that is given. */
static bool length_is_taped(const PlumbBodySpec *spec, PlumbLength length)
{
    for (int i = 0; i < TAPE_ROWS; i++) {
        const PlumbTapeRow *row = &plumb_table_tape[i];
        if (row->length == length && is_given(&spec->tape[row->tape]) && !fills_only(row->tape)) {
            return true;
        }
    }
    return false;
}

/* Whether the tape would collide with a measure, or say what is known. */
static bool tape_is_answered(const PlumbBodySpec *spec, PlumbTape tape)
{
    bool all = true;
    for (int i = 0; i < TAPE_ROWS; i++) {
        const PlumbTapeRow *row = &plumb_table_tape[i];
        if (row->tape == tape) {
            const bool known = is_given(&spec->measure[row->length]);
            all = all && known;
            if (known && !fills_only(tape)) {
                return true;
            }
        }
    }
    return all;
}

int plumb_measurings(const PlumbBodySpec *spec, PlumbMeasuring measuring[PLUMB_MEASURING_MAX])
{
    int count = 0;
    for (unsigned i = 0; i < sizeof reachable / sizeof reachable[0]; i++) {
        const PlumbLength length = reachable[i];
        if (!is_given(&spec->measure[length]) && !length_is_taped(spec, length)) {
            measuring[count++] =
                (PlumbMeasuring){.taped = false, .length = length, .sd_m = PLUMB_MEASURE_SD_M};
        }
    }
    for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
        const PlumbTape tape = (PlumbTape)i;
        const bool is_length = tape == PLUMB_TAPE_foot;
        if (!is_length && !is_given(&spec->tape[i]) && !tape_is_answered(spec, tape)) {
            measuring[count++] =
                (PlumbMeasuring){.taped = true, .tape = tape, .sd_m = PLUMB_MEASURE_SD_M};
        }
    }
    return count;
}

const char *plumb_measuring_name(const PlumbMeasuring *measuring)
{
    return measuring->taped ? plumb_tape_name(measuring->tape)
                            : plumb_length_name(measuring->length);
}

const char *plumb_measuring_text(const PlumbMeasuring *measuring)
{
    return measuring->taped ? plumb_tape_text(measuring->tape)
                            : plumb_length_text(measuring->length);
}

/* The value is chosen so that nothing surprises: the observation of value 0 is off by a constant,
 * and values enter linearly. */
PlumbObservation plumb_measuring_observation(const PlumbBodySpec *spec, const PlumbBodies *bodies,
                                             const PlumbMeasuring *measuring)
{
    PlumbObservation seen = measuring->taped
                                ? plumb_observation_tape(spec->sex, spec->stature_m, bodies,
                                                         measuring->tape, 0.0, measuring->sd_m)
                                : plumb_observation_length(measuring->length, 0.0, measuring->sd_m);
    seen.value_m = 0.0;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        seen.value_m += seen.weight[i] * bodies->mean_m[i];
    }
    return seen;
}

/* Means, variance of the figure and its covariance with the observed sum, over the draws that have
 * the figure. */
static void moments(const PlumbObservation *seen, const PlumbSample *sample, int count, int output,
                    double *variance, double *covariance)
{
    double n = 0.0;
    double mean_z = 0.0;
    double mean_y = 0.0;
    *variance = 0.0;
    *covariance = 0.0;
    for (int i = 0; i < count; i++) {
        const double z = sample[i].output[output];
        if (!isfinite(z)) {
            continue;
        }
        double y = -seen->value_m;
        for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
            y += seen->weight[k] * sample[i].length_m[k];
        }
        n += 1.0;
        const double step_z = z - mean_z;
        mean_z += step_z / n;
        mean_y += (y - mean_y) / n;
        *variance += step_z * (z - mean_z);
        *covariance += step_z * (y - mean_y);
    }
    *variance /= n - 1.0;
    *covariance /= n - 1.0;
}

double plumb_measuring_sd_after(const PlumbBodySpec *spec, const PlumbBodies *bodies,
                                const PlumbMeasuring *measuring, const PlumbSample *sample,
                                int count, int output)
{
    const PlumbObservation seen = plumb_measuring_observation(spec, bodies, measuring);
    double variance;
    double covariance;
    moments(&seen, sample, count, output, &variance, &covariance);
    const double taken = covariance * covariance / plumb_bodies_variance_m2(bodies, &seen);
    return variance > 0.0 ? sqrt(fmax(0.0, variance - taken)) : (double)NAN;
}

/* Mean share of the variance of the drawn figures that the observation takes. */
static double share_taken(const PlumbObservation *seen, double seen_m2, const PlumbSample *sample,
                          int count)
{
    const bool press = count > 0 && sample[0].lift == PLUMB_BENCH;
    const int *const figure = press ? drawn_press : drawn;
    double sum = 0.0;
    int figures = 0;
    for (int i = 0; i < DRAWN; i++) {
        double variance;
        double covariance;
        moments(seen, sample, count, figure[i], &variance, &covariance);
        if (variance > 1e-12) { /* a figure that leads has none */
            sum += covariance * covariance / seen_m2 / variance;
            figures++;
        }
    }
    return figures > 0 ? sum / figures : 0.0;
}

void plumb_measurings_rank(const PlumbBodySpec *spec, const PlumbBodies *bodies,
                           PlumbMeasuring *measuring, int measuring_count,
                           const PlumbSample *sample, int count, double *share)
{
    for (int i = 0; i < measuring_count; i++) {
        const PlumbMeasuring own = measuring[i];
        const PlumbObservation seen = plumb_measuring_observation(spec, bodies, &own);
        const double taken =
            share_taken(&seen, plumb_bodies_variance_m2(bodies, &seen), sample, count);
        int at = i;
        for (; at > 0 && share[at - 1] < taken; at--) {
            measuring[at] = measuring[at - 1];
            share[at] = share[at - 1];
        }
        measuring[at] = own;
        share[at] = taken;
    }
}

bool plumb_spec_is_bare(const PlumbBodySpec *spec)
{
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (is_given(&spec->measure[i])) {
            return false;
        }
    }
    for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
        if (is_given(&spec->tape[i])) {
            return false;
        }
    }
    return true;
}
