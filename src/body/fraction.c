/* SPDX-License-Identifier: MIT */
/* What a table says about one length: its fraction, spread, basis and source. */
#include "body/fraction.h"

#include "tables.h"

#include <assert.h>
#include <math.h>

enum { NO_ROW = -1 };

/* A length is row `plus` of lengths.csv less row `minus`; the whole stature where plus is NO_ROW.
 */
typedef struct Rule {
    int plus;
    int minus;
    int spread;
} Rule;

#define ROW(name) [PLUMB_LEN_##name] = {PLUMB_PROPORTION_##name, NO_ROW, PLUMB_SPREAD_NONE}
#define SPREAD_ROW(name) [PLUMB_LEN_##name] = {PLUMB_PROPORTION_##name, NO_ROW, PLUMB_SPREAD_##name}

static const Rule rules[PLUMB_LENGTH_COUNT] = {
    SPREAD_ROW(ankle_height),
    [PLUMB_LEN_shank] = {PLUMB_PROPORTION_knee_height, PLUMB_PROPORTION_ankle_height,
                         PLUMB_SPREAD_shank},
    [PLUMB_LEN_thigh] = {PLUMB_PROPORTION_hip_height, PLUMB_PROPORTION_knee_height,
                         PLUMB_SPREAD_thigh},
    [PLUMB_LEN_trunk] = {PLUMB_PROPORTION_shoulder_height, PLUMB_PROPORTION_hip_height,
                         PLUMB_SPREAD_trunk},
    SPREAD_ROW(upper_arm),
    SPREAD_ROW(forearm),
    [PLUMB_LEN_wrist_to_grip_palm] = {PLUMB_PROPORTION_wrist_to_grip_palm, NO_ROW,
                                      PLUMB_SPREAD_wrist_to_grip},
    ROW(wrist_to_grip_fingers),
    ROW(forefinger_to_grip_centre),
    ROW(shoulder_drop),
    SPREAD_ROW(foot_length),
    ROW(ball_of_foot),
    ROW(heel_to_ankle),
    ROW(hip_joint_spacing),
    SPREAD_ROW(shoulder_joint_spacing),
    [PLUMB_LEN_pelvis] = {PLUMB_PROPORTION_pelvis_share_of_trunk, NO_ROW, PLUMB_SPREAD_NONE},
    ROW(shin_half_thickness),
    ROW(thigh_half_thickness),
    ROW(hip_crease_above_joint),
    ROW(knee_top_above_joint),
    ROW(bar_high_up),
    ROW(bar_high_back),
    ROW(bar_low_up),
    ROW(bar_low_back),
    ROW(bar_front_up),
    ROW(bar_front_back),
    ROW(chest_depth),
    ROW(shoulder_half_depth),
    ROW(elbow_half_thickness),
    ROW(shoulder_top_above_joint),
    [PLUMB_LEN_head_neck] = {NO_ROW, PLUMB_PROPORTION_shoulder_height, PLUMB_SPREAD_NONE},
};

#undef ROW
#undef SPREAD_ROW

/* The classic row of a row of lengths.csv; NULL where the classic table has no figure. */
static const PlumbClassicLengthRow *classic_row(int proportion)
{
    static const int place[PLUMB_PROPORTION_COUNT] = {
#define X(name) [PLUMB_PROPORTION_##name] = 1 + PLUMB_CLASSIC_##name
        X(ankle_height), X(knee_height), X(hip_height),  X(shoulder_height),
        X(upper_arm),    X(forearm),     X(foot_length),
#undef X
    };
    const int row = place[proportion];
    return row == 0 ? NULL : &plumb_table_classic_length[row - 1];
}

/* A difference of two rows rests on the weaker basis of the two; the list of bases runs from
 * strong to weak as far as rows of lengths.csv use it. */
static PlumbFraction survey_fraction(PlumbSex sex, const Rule *rule)
{
    const PlumbProportionRow *plus =
        rule->plus == NO_ROW ? NULL : &plumb_table_proportion[rule->plus];
    const PlumbProportionRow *minus =
        rule->minus == NO_ROW ? NULL : &plumb_table_proportion[rule->minus];
    const PlumbProportionRow *weaker =
        !plus || (minus && minus->basis > plus->basis) ? minus : plus;
    assert(weaker != NULL);
    const double sd = rule->spread == PLUMB_SPREAD_NONE ? weaker->sd[sex]
                                                        : plumb_table_spread[sex][rule->spread].sd;
    return (PlumbFraction){
        .of = weaker->of,
        .mean = (plus ? plus->mean[sex] : 1.0) - (minus ? minus->mean[sex] : 0.0),
        .sd = sd,
        .spread = rule->spread,
        .may_be_negative = weaker->may_be_negative,
        .basis = weaker->basis,
        .source = weaker->source,
    };
}

PlumbFraction plumb_fraction(PlumbSex sex, PlumbTable table, PlumbLength length)
{
    const Rule *rule = &rules[length];
    PlumbFraction fraction = survey_fraction(sex, rule);
    if (table != PLUMB_CLASSIC) {
        return fraction;
    }
    const PlumbClassicLengthRow *plus = rule->plus == NO_ROW ? NULL : classic_row(rule->plus);
    const PlumbClassicLengthRow *minus = rule->minus == NO_ROW ? NULL : classic_row(rule->minus);
    if (!plus && !minus) {
        fraction.basis = PLUMB_BASIS_FILLED;
        return fraction;
    }
    /* Rows come in whole pairs: both heights of a difference are classic ones. */
    fraction.mean = (plus ? plus->fraction : 1.0) - (minus ? minus->fraction : 0.0);
    fraction.basis = PLUMB_BASIS_CLASSIC;
    fraction.source = plus ? plus->source : minus->source;
    return fraction;
}

PlumbFractionRows plumb_fraction_rows(PlumbSex sex, PlumbTable table, PlumbLength length)
{
    const Rule *rule = &rules[length];
    const PlumbClassicLengthRow *plus = rule->plus == NO_ROW ? NULL : classic_row(rule->plus);
    const PlumbClassicLengthRow *minus = rule->minus == NO_ROW ? NULL : classic_row(rule->minus);
    if (table == PLUMB_CLASSIC && (plus || minus)) {
        return (PlumbFractionRows){
            .file = "classic_lengths.csv",
            .plus = plus ? plus->key : "",
            .minus = minus ? minus->key : "",
            .plus_frac = plus ? plus->fraction : 1.0,
            .minus_frac = minus ? minus->fraction : 0.0,
        };
    }
    const PlumbProportionRow *rows = plumb_table_proportion;
    return (PlumbFractionRows){
        .file = "lengths.csv",
        .plus = rule->plus == NO_ROW ? "" : rows[rule->plus].key,
        .minus = rule->minus == NO_ROW ? "" : rows[rule->minus].key,
        .plus_frac = rule->plus == NO_ROW ? 1.0 : rows[rule->plus].mean[sex],
        .minus_frac = rule->minus == NO_ROW ? 0.0 : rows[rule->minus].mean[sex],
    };
}

PlumbFraction plumb_fraction_of_stature(PlumbSex sex, PlumbLength length)
{
    PlumbFraction share = plumb_fraction(sex, PLUMB_SURVEY, length);
    if (share.of == PLUMB_OF_STATURE) {
        return share;
    }
    const PlumbLength whole_length =
        share.of == PLUMB_OF_FOOT ? PLUMB_LEN_foot_length : PLUMB_LEN_trunk;
    const PlumbFraction whole = plumb_fraction(sex, PLUMB_SURVEY, whole_length);
    /* Spread of a product of independent factors, first order. */
    share.sd = hypot(share.sd * whole.mean, share.mean * whole.sd);
    share.mean *= whole.mean;
    share.of = PLUMB_OF_STATURE;
    return share;
}

double plumb_cervicale_fraction(PlumbSex sex)
{
    return plumb_table_proportion[PLUMB_PROPORTION_cervicale_height].mean[sex];
}

double plumb_eye_fraction(void)
{
    return plumb_table_classic_length[PLUMB_CLASSIC_eye_height].fraction;
}
