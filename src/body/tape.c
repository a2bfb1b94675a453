/* SPDX-License-Identifier: MIT */
/* Taped surface measures become joint-centre lengths, by the survey's ratios and with their error.
 *
 * A length t is taken as t = k d, d the measure, k = E(t/H) / E(d/H), H the stature. Over people of
 * one stature the error of that has the variance s_t^2 + (k s_d)^2 - 2 r s_t k s_d (s: spread of
 * the ratio to stature, r: their correlation), times H^2; it is not let above s_t, the table's own
 * spread. The tape's error enters as k times it.
 *
 * The arm is taped as a whole by `span` (less the mean breadth of the shoulders, halved) and by
 * `floor_to_fingertips` (from the shoulder's height). These fill only what is not known of upper
 * arm and forearm: the rest of the whole is shared out in proportion. The hand is filled in the
 * same proportion, or in that of the whole arm where both its bones are known. Where nothing is
 * left to fill they change nothing: a lifter may tape all that the card shows. */
#include "body/tape.h"

#include "body/fraction.h"
#include "body/range.h"
#include "tables.h"

#include <math.h>

enum { TAPE_ROWS = sizeof plumb_table_tape / sizeof plumb_table_tape[0] };

/* What a tape measures, in terms of the model. */
typedef struct Gauge {
    double whole_m;    /* the measure, less what is no part of the length */
    double mean_frac;  /* mean of that whole / stature */
    double slope_frac; /* change of the whole with the measure */
    double sd_frac;    /* spread of whole / stature */
} Gauge;

static double mean_of(const PlumbBodySpec *spec, PlumbLength length)
{
    return plumb_fraction_of_stature(spec->sex, length).mean;
}

static double tape_error_m(const PlumbMeasure *measure)
{
    return measure->sd_m > 0.0 ? measure->sd_m : PLUMB_MEASURE_SD_M;
}

/* Error of a length whose mean is mean_frac, taken from a gauge. */
static double converted_sd_m(const PlumbBodySpec *spec, const PlumbTapeRow *row, const Gauge *gauge,
                             double mean_frac)
{
    const double k = mean_frac / gauge->mean_frac;
    const double own = plumb_fraction_of_stature(spec->sex, row->length).sd;
    const double r = row->r[spec->sex];
    double conversion = row->conversion_sd;
    if (isnan(conversion)) {
        const double seen = k * gauge->sd_frac;
        conversion = sqrt(own * own + seen * seen - 2.0 * r * own * seen);
    }
    return hypot(fmin(conversion, own) * spec->stature_m,
                 k * gauge->slope_frac * tape_error_m(&spec->tape[row->tape]));
}

static PlumbStatus fix(PlumbDraft *draft, const PlumbBodySpec *spec, const PlumbTapeRow *row,
                       double length_m, double sd_m, PlumbError *error)
{
    if (plumb_converted_check(spec, row->tape, row->length, length_m, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    draft->body.length_m[row->length] = length_m;
    draft->body.length_sd_m[row->length] = sd_m;
    draft->body.length_basis[row->length] = PLUMB_BASIS_TAPED;
    draft->known[row->length] = true;
    return PLUMB_OK;
}

/* The survey's gauge of a dimension. */
static Gauge gauge_of(const PlumbBodySpec *spec, PlumbTape tape, PlumbDimension dimension)
{
    const PlumbDimensionRow *row = &plumb_table_dimension[spec->sex][dimension];
    return (Gauge){spec->tape[tape].value, row->ratio, 1.0, row->ratio_sd};
}

/* A measure of one length, in the survey's proportion; knee height holds the ankle's height too. */
static PlumbStatus fix_one(PlumbDraft *draft, const PlumbBodySpec *spec, const PlumbTapeRow *row,
                           PlumbDimension dimension, PlumbError *error)
{
    if (spec->measure[row->length].kind != PLUMB_MEASURE_NONE) {
        return plumb_collision(row->tape, row->length, error);
    }
    const Gauge gauge = gauge_of(spec, row->tape, dimension);
    const bool holds_ankle = row->tape == PLUMB_TAPE_knee_height_sitting;
    const double mean =
        mean_of(spec, row->length) + (holds_ankle ? mean_of(spec, PLUMB_LEN_ankle_height) : 0.0);
    const double length_m =
        gauge.whole_m * mean / gauge.mean_frac - (holds_ankle ? draft->body.ankle_height_m : 0.0);
    return fix(draft, spec, row, length_m, converted_sd_m(spec, row, &gauge, mean), error);
}

/* A measure that is the length itself. */
static PlumbStatus fix_same(PlumbDraft *draft, const PlumbBodySpec *spec, const PlumbTapeRow *row,
                            PlumbError *error)
{
    if (spec->measure[row->length].kind != PLUMB_MEASURE_NONE) {
        return plumb_collision(row->tape, row->length, error);
    }
    const double mean = mean_of(spec, row->length);
    const Gauge gauge = {spec->tape[row->tape].value, mean, 1.0, 0.0};
    return fix(draft, spec, row, gauge.whole_m, converted_sd_m(spec, row, &gauge, mean), error);
}

/* Shares a whole arm out over what is not known of it. */
static PlumbStatus fix_arm(PlumbDraft *draft, const PlumbBodySpec *spec, PlumbTape tape,
                           const Gauge *gauge, PlumbError *error)
{
    static const PlumbLength bones[] = {PLUMB_LEN_upper_arm, PLUMB_LEN_forearm};
    double rest_m = gauge->whole_m;
    double rest_frac = gauge->mean_frac;
    if (!draft->known[bones[0]] || !draft->known[bones[1]]) {
        for (int i = 0; i < 2; i++) {
            if (draft->known[bones[i]]) {
                rest_m -= draft->body.length_m[bones[i]];
                rest_frac -= mean_of(spec, bones[i]);
            }
        }
    }
    for (int i = 0; i < TAPE_ROWS; i++) {
        const PlumbTapeRow *row = &plumb_table_tape[i];
        if (row->tape != tape || draft->known[row->length]) {
            continue;
        }
        const double mean = mean_of(spec, row->length);
        const double sd_m = converted_sd_m(spec, row, gauge, mean);
        if (fix(draft, spec, row, rest_m * mean / rest_frac, sd_m, error) != PLUMB_OK) {
            return PLUMB_BAD_INPUT;
        }
    }
    return PLUMB_OK;
}

static PlumbStatus fix_span(PlumbDraft *draft, const PlumbBodySpec *spec, PlumbError *error)
{
    const PlumbDimensionRow *row = plumb_table_dimension[spec->sex];
    const double breadth = row[PLUMB_DIMENSION_biacromial_breadth].ratio;
    const Gauge gauge = {
        .whole_m = 0.5 * (spec->tape[PLUMB_TAPE_span].value - breadth * spec->stature_m),
        .mean_frac = 0.5 * (row[PLUMB_DIMENSION_span].ratio - breadth),
        .slope_frac = 0.5,
        .sd_frac = 0.5 * row[PLUMB_DIMENSION_span].ratio_sd,
    };
    return fix_arm(draft, spec, PLUMB_TAPE_span, &gauge, error);
}

/* The arm hangs from the shoulder's height, which is that of the legs and trunk as known so far. */
static PlumbStatus fix_hanging(PlumbDraft *draft, const PlumbBodySpec *spec, PlumbError *error)
{
    const PlumbBody *body = &draft->body;
    const PlumbDimensionRow *row =
        &plumb_table_dimension[spec->sex][PLUMB_DIMENSION_floor_to_fingertips];
    const double shoulder_m = body->ankle_height_m + body->shank_m + body->thigh_m + body->trunk_m;
    const double shoulder_frac = 1.0 - mean_of(spec, PLUMB_LEN_head_neck);
    const Gauge gauge = {
        .whole_m = shoulder_m - spec->tape[PLUMB_TAPE_floor_to_fingertips].value,
        .mean_frac = shoulder_frac - row->ratio,
        .slope_frac = 1.0,
        .sd_frac = row->ratio_sd,
    };
    return fix_arm(draft, spec, PLUMB_TAPE_floor_to_fingertips, &gauge, error);
}

static PlumbStatus fix_row(PlumbDraft *draft, const PlumbBodySpec *spec, const PlumbTapeRow *row,
                           PlumbError *error)
{
    switch (row->tape) {
    case PLUMB_TAPE_sitting_height:
        return fix_one(draft, spec, row, PLUMB_DIMENSION_sitting_height, error);
    case PLUMB_TAPE_buttock_to_knee:
        return fix_one(draft, spec, row, PLUMB_DIMENSION_buttock_to_knee, error);
    case PLUMB_TAPE_knee_height_sitting:
        return fix_one(draft, spec, row, PLUMB_DIMENSION_knee_height_sitting, error);
    case PLUMB_TAPE_shoulder_to_elbow:
        return fix_one(draft, spec, row, PLUMB_DIMENSION_shoulder_to_elbow, error);
    case PLUMB_TAPE_elbow_to_wrist:
        return fix_one(draft, spec, row, PLUMB_DIMENSION_elbow_to_wrist, error);
    case PLUMB_TAPE_foot:
    case PLUMB_TAPE_heel_to_ankle_bone:
        return fix_same(draft, spec, row, error);
    case PLUMB_TAPE_span:
    case PLUMB_TAPE_floor_to_fingertips:
    case PLUMB_TAPE_COUNT:
        break;
    }
    return PLUMB_OK; /* the whole arm comes after its parts */
}

static bool given(const PlumbBodySpec *spec, PlumbTape tape)
{
    return spec->tape[tape].kind != PLUMB_MEASURE_NONE;
}

PlumbStatus plumb_draft_tapes(PlumbDraft *draft, const PlumbBodySpec *spec, PlumbError *error)
{
    for (int i = 0; i < TAPE_ROWS; i++) {
        const PlumbTapeRow *row = &plumb_table_tape[i];
        if (given(spec, row->tape) && fix_row(draft, spec, row, error) != PLUMB_OK) {
            return PLUMB_BAD_INPUT;
        }
    }
    if (given(spec, PLUMB_TAPE_span) && fix_span(draft, spec, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    if (given(spec, PLUMB_TAPE_floor_to_fingertips)) {
        return fix_hanging(draft, spec, error);
    }
    return PLUMB_OK;
}
