/* SPDX-License-Identifier: MIT */
/* What a measure or a tape says about the lengths, as an observation with its error.
 *
 * Where the survey tells how a surface measure d and the lengths t it is taken for go together (r),
 * d is regressed on them: d = E(d) + w'(t - E(t)) + e, with w from the normal equations and e what
 * is left of the spread of d. That is the likelihood of d: a measure that goes little with the
 * length (buttock to knee with the thigh, r 0.25) then moves it little. Where only an error of the
 * conversion is known, the length is seen as k d with that error, k the ratio of the means. */
#include <plumbar/sample.h>

#include "base/roots.h"
#include "body/fraction.h"
#include "body/tape.h"
#include "tables.h"

#include <assert.h>
#include <math.h>

enum { TAPE_ROWS = sizeof plumb_table_tape / sizeof plumb_table_tape[0] };

PlumbObservation plumb_observation_length(PlumbLength length, double value_m, double sd_m)
{
    PlumbObservation seen = {.value_m = value_m, .sd_m = sd_m};
    seen.weight[length] = 1.0;
    return seen;
}

static PlumbDimension dimension_of(PlumbTape tape)
{
    switch (tape) {
    case PLUMB_TAPE_sitting_height:
        return PLUMB_DIMENSION_sitting_height;
    case PLUMB_TAPE_buttock_to_knee:
        return PLUMB_DIMENSION_buttock_to_knee;
    case PLUMB_TAPE_knee_height_sitting:
        return PLUMB_DIMENSION_knee_height_sitting;
    case PLUMB_TAPE_span:
        return PLUMB_DIMENSION_span;
    case PLUMB_TAPE_shoulder_to_elbow:
        return PLUMB_DIMENSION_shoulder_to_elbow;
    case PLUMB_TAPE_elbow_to_wrist:
        return PLUMB_DIMENSION_elbow_to_wrist;
    case PLUMB_TAPE_foot:
    case PLUMB_TAPE_heel_to_ankle_bone:
        return PLUMB_DIMENSION_foot;
    case PLUMB_TAPE_floor_to_fingertips:
    case PLUMB_TAPE_COUNT:
        break;
    }
    return PLUMB_DIMENSION_floor_to_fingertips;
}

static double mean_frac(PlumbSex sex, PlumbLength length)
{
    return plumb_fraction_of_stature(sex, length).mean;
}

/* Correlation of two lengths as shares of stature in the survey. */
static double correlation(PlumbSex sex, PlumbLength a, PlumbLength b)
{
    const int sa = plumb_fraction(sex, PLUMB_SURVEY, a).spread;
    const int sb = plumb_fraction(sex, PLUMB_SURVEY, b).spread;
    if (a == b) {
        return 1.0;
    }
    return sa == PLUMB_SPREAD_NONE || sb == PLUMB_SPREAD_NONE ? 0.0
                                                              : plumb_table_spread[sex][sa].r[sb];
}

/* The regression of the measure on its lengths; works in standard deviations. */
static PlumbObservation regressed(PlumbSex sex, double stature_m, PlumbTape tape, double value_m,
                                  double sd_m)
{
    const PlumbDimensionRow *dimension = &plumb_table_dimension[sex][dimension_of(tape)];
    const PlumbTapeRow *row[PLUMB_LINEAR_MAX];
    double matrix[PLUMB_LINEAR_MAX][PLUMB_LINEAR_MAX];
    double beta[PLUMB_LINEAR_MAX];
    int count = 0;
    for (int i = 0; i < TAPE_ROWS; i++) {
        if (plumb_table_tape[i].tape == tape) {
            assert(count < PLUMB_LINEAR_MAX);
            row[count++] = &plumb_table_tape[i];
        }
    }
    for (int i = 0; i < count; i++) {
        beta[i] = row[i]->r[sex];
        for (int j = 0; j < count; j++) {
            matrix[i][j] = correlation(sex, row[i]->length, row[j]->length);
        }
    }
    const bool solved = plumb_linear_solve(count, matrix, beta);
    assert(solved);
    (void)solved;
    PlumbObservation seen = {.value_m = value_m - dimension->ratio * stature_m};
    double explained = 0.0;
    for (int i = 0; i < count; i++) {
        const PlumbFraction length = plumb_fraction_of_stature(sex, row[i]->length);
        const double weight = beta[i] * dimension->ratio_sd / length.sd;
        seen.weight[row[i]->length] = weight;
        seen.value_m += weight * length.mean * stature_m;
        explained += beta[i] * row[i]->r[sex];
    }
    seen.sd_m = hypot(sqrt(fmax(0.0, 1.0 - explained)) * dimension->ratio_sd * stature_m, sd_m);
    return seen;
}

/* The length as k times the measure, with the error of the conversion. */
static PlumbObservation converted(PlumbSex sex, double stature_m, const PlumbTapeRow *row,
                                  double value_m, double sd_m)
{
    const bool same = row->tape == PLUMB_TAPE_foot || row->tape == PLUMB_TAPE_heel_to_ankle_bone;
    const double ratio = plumb_table_dimension[sex][dimension_of(row->tape)].ratio;
    const double k = same ? 1.0 : mean_frac(sex, row->length) / ratio;
    return plumb_observation_length(row->length, k * value_m,
                                    hypot(row->conversion_sd * stature_m, k * sd_m));
}

/* The arm hangs from the shoulder's height: what is between it and the fingertips, less the fingers
 * in the proportion of the means, is upper arm, forearm and palm together. */
static PlumbObservation hanging(PlumbSex sex, double stature_m, const PlumbBodies *bodies,
                                const PlumbTapeRow *row, double value_m, double sd_m)
{
    static const PlumbLength arm[] = {PLUMB_LEN_upper_arm, PLUMB_LEN_forearm,
                                      PLUMB_LEN_wrist_to_grip_palm};
    const double shoulder_m = bodies->mean_m[PLUMB_LEN_ankle_height] +
                              bodies->mean_m[PLUMB_LEN_shank] + bodies->mean_m[PLUMB_LEN_thigh] +
                              bodies->mean_m[PLUMB_LEN_trunk];
    const double whole = 1.0 - mean_frac(sex, PLUMB_LEN_head_neck) -
                         plumb_table_dimension[sex][dimension_of(row->tape)].ratio;
    PlumbObservation seen = {.sd_m = 0.0};
    double sum = 0.0;
    for (unsigned i = 0; i < sizeof arm / sizeof arm[0]; i++) {
        seen.weight[arm[i]] = 1.0;
        sum += mean_frac(sex, arm[i]);
    }
    const double k = sum / whole;
    seen.value_m = k * (shoulder_m - value_m);
    seen.sd_m = k * hypot(row->conversion_sd * stature_m, sd_m);
    return seen;
}

PlumbObservation plumb_observation_tape(PlumbSex sex, double stature_m, const PlumbBodies *bodies,
                                        PlumbTape tape, double value_m, double sd_m)
{
    const PlumbTapeRow *row = plumb_table_tape;
    while (row->tape != tape) {
        row++;
        assert(row < plumb_table_tape + TAPE_ROWS);
    }
    if (tape == PLUMB_TAPE_floor_to_fingertips) {
        return hanging(sex, stature_m, bodies, row, value_m, sd_m);
    }
    return isnan(row->r[sex]) ? converted(sex, stature_m, row, value_m, sd_m)
                              : regressed(sex, stature_m, tape, value_m, sd_m);
}

static double error_m(const PlumbMeasure *measure)
{
    return measure->sd_m > 0.0 ? measure->sd_m : PLUMB_MEASURE_SD_M;
}

/* Tapes come after the measures, in their order: an arm hangs from a shoulder as known by then. */
void plumb_bodies_around(const PlumbBodySpec *spec, const PlumbBody *body, PlumbBodies *bodies)
{
    plumb_bodies_table(spec->sex, spec->length_table, spec->stature_m, bodies);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const PlumbMeasure *measure = &spec->measure[i];
        if (measure->kind == PLUMB_MEASURE_NONE) {
            continue;
        }
        const double sd_m =
            measure->kind == PLUMB_MEASURE_SPREAD ? measure->sd_m : error_m(measure);
        const PlumbObservation seen =
            plumb_observation_length((PlumbLength)i, body->length_m[i], sd_m);
        plumb_bodies_observe(bodies, &seen);
    }
    for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
        const PlumbMeasure *measure = &spec->tape[i];
        if (measure->kind != PLUMB_MEASURE_NONE) {
            const PlumbObservation seen = plumb_observation_tape(
                spec->sex, spec->stature_m, bodies, (PlumbTape)i, measure->value, error_m(measure));
            plumb_bodies_observe(bodies, &seen);
        }
    }
}
