/* SPDX-License-Identifier: MIT */
/* Builds a body: the table's lengths for a stature, then what was measured or taped. */
#include "body/fraction.h"
#include "body/range.h"
#include "body/segments.h"
#include "body/tape.h"
#include "tables.h"

#include <math.h>

PlumbBodySpec plumb_body_spec(PlumbSex sex, double stature_m, double mass_kg)
{
    return (PlumbBodySpec){
        .sex = sex,
        .stature_m = stature_m,
        .mass_kg = mass_kg,
        .length_table = PLUMB_SURVEY,
        .mass_table = PLUMB_SURVEY,
    };
}

/* What a fraction is multiplied with, and how unsure that is. */
static void whole_of(const PlumbBody *body, PlumbOf of, double *whole_m, double *whole_sd_m)
{
    static const PlumbLength length[] = {
        [PLUMB_OF_FOOT] = PLUMB_LEN_foot_length,
        [PLUMB_OF_TRUNK] = PLUMB_LEN_trunk,
    };
    *whole_m = of == PLUMB_OF_STATURE ? body->stature_m : body->length_m[length[of]];
    *whole_sd_m = of == PLUMB_OF_STATURE ? 0.0 : body->length_sd_m[length[of]];
}

/* Sets one length from its measure, or from the table where there is none. */
static void set_length(PlumbDraft *draft, const PlumbBodySpec *spec, PlumbLength length,
                       const PlumbFraction *fraction)
{
    const PlumbMeasure *measure = &spec->measure[length];
    PlumbBody *body = &draft->body;
    double whole_m;
    double whole_sd_m;
    whole_of(body, fraction->of, &whole_m, &whole_sd_m);
    draft->known[length] = measure->kind != PLUMB_MEASURE_NONE;
    if (measure->kind == PLUMB_MEASURE_LENGTH) {
        body->length_m[length] = measure->value;
        body->length_sd_m[length] = measure->sd_m > 0.0 ? measure->sd_m : PLUMB_MEASURE_SD_M;
        body->length_basis[length] = PLUMB_BASIS_MEASURED;
    } else if (measure->kind == PLUMB_MEASURE_SPREAD) {
        /* A question of what if: known as exactly as it was asked. */
        body->length_m[length] = whole_m * (fraction->mean + measure->value * fraction->sd);
        body->length_sd_m[length] = measure->sd_m;
        body->length_basis[length] = PLUMB_BASIS_SPREAD;
    } else {
        body->length_m[length] = whole_m * fraction->mean;
        body->length_sd_m[length] = hypot(whole_m * fraction->sd, whole_sd_m * fraction->mean);
        body->length_basis[length] = fraction->basis;
    }
}

/* Shares of foot and trunk come last: they follow what was measured of these. */
static void set_lengths(PlumbDraft *draft, const PlumbBodySpec *spec, bool shares)
{
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const PlumbLength length = (PlumbLength)i;
        const PlumbFraction fraction = plumb_fraction(spec->sex, spec->length_table, length);
        const bool is_share = fraction.of != PLUMB_OF_STATURE;
        if (is_share == shares && !draft->known[length]) {
            set_length(draft, spec, length, &fraction);
        }
    }
}

/* The survey's 1st and 99th percentile of a normal distribution lie this many sd from its mean. */
static bool beyond_survey(PlumbSex sex, PlumbDimension dimension, double value)
{
    static const double SD_OF_1_PERCENT = 2.3263478740408408;
    const PlumbDimensionRow *row = &plumb_table_dimension[sex][dimension];
    return fabs(value - row->mean) > SD_OF_1_PERCENT * row->sd;
}

static unsigned extrapolated(const PlumbBody *body)
{
    unsigned bits = 0;
    if (body->age_years > 0.0 && body->age_years < 18.0) {
        bits |= PLUMB_BODY_AGE_BELOW_18;
    }
    if (beyond_survey(body->sex, PLUMB_DIMENSION_stature, body->stature_m)) {
        bits |= PLUMB_BODY_STATURE_OUTSIDE;
    }
    if (beyond_survey(body->sex, PLUMB_DIMENSION_mass, body->mass_kg)) {
        bits |= PLUMB_BODY_MASS_OUTSIDE;
    }
    return bits;
}

PlumbStatus plumb_body_build(const PlumbBodySpec *spec, PlumbBody *body, PlumbError *error)
{
    if (plumb_spec_check(spec, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    PlumbDraft draft = {.body = {
                            .sex = spec->sex,
                            .stature_m = spec->stature_m,
                            .mass_kg = spec->mass_kg,
                            .age_years = spec->age_years,
                            .length_table = spec->length_table,
                            .mass_table = spec->mass_table,
                        }};
    set_lengths(&draft, spec, false);
    if (plumb_draft_tapes(&draft, spec, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    set_lengths(&draft, spec, true);
    if (plumb_foot_check(&draft.body, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    PlumbBody *done = &draft.body;
    done->parts_sum_m =
        done->ankle_height_m + done->shank_m + done->thigh_m + done->trunk_m + done->head_neck_m;
    done->extrapolated = extrapolated(done);
    plumb_body_segments(done);
    *body = *done;
    return PLUMB_OK;
}
