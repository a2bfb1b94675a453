/* SPDX-License-Identifier: MIT */
/* Where a length, a ratio, a stature or a mass stands among the survey's adults of the sex. */
#include "body/fraction.h"

#include "tables.h"

#include <assert.h>
#include <math.h>

/* Share of a normal distribution below value. */
static double normal_share(double value, double mean, double sd)
{
    return 0.5 * erfc((mean - value) / (sd * sqrt(2.0)));
}

double plumb_stature_percentile(PlumbSex sex, double stature_m)
{
    const PlumbDimensionRow *row = &plumb_table_dimension[sex][PLUMB_DIMENSION_stature];
    return normal_share(stature_m, row->mean, row->sd);
}

double plumb_mass_percentile(PlumbSex sex, double mass_kg)
{
    const PlumbDimensionRow *row = &plumb_table_dimension[sex][PLUMB_DIMENSION_mass];
    return normal_share(mass_kg, row->mean, row->sd);
}

/* length = ratio x stature, the two taken as independent: first-order variance of a product. */
double plumb_length_percentile(const PlumbBody *body, PlumbLength length)
{
    const PlumbFraction ratio = plumb_fraction_of_stature(body->sex, length);
    const PlumbDimensionRow *stature = &plumb_table_dimension[body->sex][PLUMB_DIMENSION_stature];
    const double sd_m = hypot(stature->mean * ratio.sd, ratio.mean * stature->sd);
    return normal_share(body->length_m[length], ratio.mean * stature->mean, sd_m);
}

double plumb_length_ratio_percentile(const PlumbBody *body, PlumbLength length)
{
    const PlumbFraction ratio = plumb_fraction_of_stature(body->sex, length);
    return normal_share(body->length_m[length] / body->stature_m, ratio.mean, ratio.sd);
}

#define ARM                                                                                        \
    {                                                                                              \
        PLUMB_LEN_upper_arm, PLUMB_LEN_forearm, PLUMB_LEN_wrist_to_grip_fingers                    \
    }

/* A ratio: the sum of `top` over `bottom`, or over stature. */
static const struct {
    int tops;
    PlumbLength top[3];
    bool over_stature;
    PlumbLength bottom;
} rules[PLUMB_RATIO_COUNT] = {
    [PLUMB_RATIO_thigh_to_trunk] = {1, {PLUMB_LEN_thigh}, false, PLUMB_LEN_trunk},
    [PLUMB_RATIO_thigh_to_shank] = {1, {PLUMB_LEN_thigh}, false, PLUMB_LEN_shank},
    [PLUMB_RATIO_leg_to_trunk] = {2, {PLUMB_LEN_thigh, PLUMB_LEN_shank}, false, PLUMB_LEN_trunk},
    [PLUMB_RATIO_arm_to_stature] = {3, ARM, true, PLUMB_LEN_trunk},
    [PLUMB_RATIO_arm_to_trunk] = {3, ARM, false, PLUMB_LEN_trunk},
    [PLUMB_RATIO_trunk_to_stature] = {1, {PLUMB_LEN_trunk}, true, PLUMB_LEN_trunk},
};

#undef ARM

const char *plumb_ratio_name(PlumbRatio ratio)
{
    static const char *const name[PLUMB_RATIO_COUNT] = {
#define X(id, text) [PLUMB_RATIO_##id] = #id,
        PLUMB_RATIO_LIST(X)
#undef X
    };
    assert((unsigned)ratio < PLUMB_RATIO_COUNT);
    return name[ratio];
}

const char *plumb_ratio_text(PlumbRatio ratio)
{
    static const char *const text[PLUMB_RATIO_COUNT] = {
#define X(id, words) [PLUMB_RATIO_##id] = words,
        PLUMB_RATIO_LIST(X)
#undef X
    };
    assert((unsigned)ratio < PLUMB_RATIO_COUNT);
    return text[ratio];
}

double plumb_ratio_value(const PlumbBody *body, PlumbRatio ratio)
{
    double top_m = 0.0;
    for (int i = 0; i < rules[ratio].tops; i++) {
        top_m += body->length_m[rules[ratio].top[i]];
    }
    return top_m /
           (rules[ratio].over_stature ? body->stature_m : body->length_m[rules[ratio].bottom]);
}

/* Covariance of two lengths / stature in the survey. The grip in the fingers varies with the
 * others as that in the palm does. */
static double covariance(PlumbSex sex, PlumbLength a, PlumbLength b)
{
    const PlumbFraction fa = plumb_fraction(sex, PLUMB_SURVEY, a);
    const PlumbFraction fb = plumb_fraction(sex, PLUMB_SURVEY, b);
    if (a == b) {
        return fa.sd * fa.sd;
    }
    const int sa = a == PLUMB_LEN_wrist_to_grip_fingers ? PLUMB_SPREAD_wrist_to_grip : fa.spread;
    const int sb = b == PLUMB_LEN_wrist_to_grip_fingers ? PLUMB_SPREAD_wrist_to_grip : fb.spread;
    assert(sa != PLUMB_SPREAD_NONE && sb != PLUMB_SPREAD_NONE);
    return plumb_table_spread[sex][sa].r[sb] * fa.sd * fb.sd;
}

/* First-order spread of T / B: (T/B)^2 (var T / T^2 + var B / B^2 - 2 cov(T, B) / (T B)). */
double plumb_ratio_percentile(const PlumbBody *body, PlumbRatio ratio)
{
    const PlumbSex sex = body->sex;
    const PlumbLength *top = rules[ratio].top;
    const PlumbLength bottom = rules[ratio].bottom;
    const bool over_stature = rules[ratio].over_stature;
    const double b = over_stature ? 1.0 : plumb_fraction(sex, PLUMB_SURVEY, bottom).mean;
    const double var_b = over_stature ? 0.0 : covariance(sex, bottom, bottom);
    double t = 0.0;
    double var_t = 0.0;
    double cov_tb = 0.0;
    for (int i = 0; i < rules[ratio].tops; i++) {
        t += plumb_fraction(sex, PLUMB_SURVEY, top[i]).mean;
        cov_tb += over_stature ? 0.0 : covariance(sex, top[i], bottom);
        for (int j = 0; j < rules[ratio].tops; j++) {
            var_t += covariance(sex, top[i], top[j]);
        }
    }
    const double relative = var_t / (t * t) + var_b / (b * b) - 2.0 * cov_tb / (t * b);
    return normal_share(plumb_ratio_value(body, ratio), t / b, t / b * sqrt(relative));
}
