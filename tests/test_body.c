/* SPDX-License-Identifier: MIT */
/* A body from stature, mass, sex and direct measures: lengths, masses, ranges, percentiles. */
#include "support.h"

#include <plumbar/lifter.h>

#include <string.h>

/* Fractions are printed with four digits; products with stature are exact to rounding. */
static const double EXACT = 1e-12;
/* reference poses print joints in metres with ten digits. */
static const double REFERENCE_M = 2e-10;

static PlumbBody built(const PlumbBodySpec *spec)
{
    PlumbBody body;
    PlumbError error = {0};
    const PlumbStatus status = plumb_body_build(spec, &body, &error);
    if (status != PLUMB_OK) {
        print_error("%s: %s\n", error.field, error.message);
    }
    assert_int_equal(status, PLUMB_OK);
    return body;
}

static PlumbBody man(void)
{
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.5);
    return built(&spec);
}

static PlumbBody woman(void)
{
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_FEMALE, 1.628, 67.0);
    return built(&spec);
}

static PlumbBody classic_man(void)
{
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.5);
    spec.length_table = PLUMB_CLASSIC;
    spec.mass_table = PLUMB_CLASSIC;
    return built(&spec);
}

/* Distances between joints of the reference poses (man 1.756 m, woman 1.628 m), computed from
 * their printed coordinates. */
static void build__meets_the_reference_poses(void **state)
{
    (void)state;
    const PlumbBody m = man();
    assert_near(m.foot_length_m, 0.2711264, REFERENCE_M);
    assert_near(m.shank_m, 0.414416, REFERENCE_M);
    assert_near(m.thigh_m, 0.410904, REFERENCE_M);
    assert_near(m.pelvis_m, 0.1444074696, REFERENCE_M);
    assert_near(m.upper_arm_m + m.shoulder_drop_m, 0.328372, REFERENCE_M);
    assert_near(m.forearm_m, 0.270424, REFERENCE_M);
    assert_near(m.wrist_to_grip_fingers_m, 0.07902, REFERENCE_M);
    assert_near(m.wrist_to_grip_palm_m, 0.0621624, REFERENCE_M);
    assert_near(m.ankle_height_m, 0.077264, REFERENCE_M);
    assert_near(m.hip_joint_spacing_m, 2.0 * 0.09219, REFERENCE_M);
    assert_near(m.shoulder_joint_spacing_m, 2.0 * 0.17999, REFERENCE_M);
    const PlumbBody w = woman();
    assert_near(w.foot_length_m, 0.2463164, REFERENCE_M);
    assert_near(w.shank_m, 0.385836, REFERENCE_M);
    assert_near(w.thigh_m, 0.377696, REFERENCE_M);
    assert_near(w.pelvis_m, 0.1697141159, REFERENCE_M);
    assert_near(w.upper_arm_m + w.shoulder_drop_m, 0.299552, REFERENCE_M);
    assert_near(w.forearm_m, 0.2442, REFERENCE_M);
    assert_near(w.wrist_to_grip_palm_m, 0.0589336, REFERENCE_M);
    assert_near(w.ankle_height_m, 0.070004, REFERENCE_M);
}

/* ANSUR II and de Leva fractions as in lengths.csv, by hand. */
static void build__takes_shares_of_foot_and_trunk(void **state)
{
    (void)state;
    const PlumbBody m = man();
    assert_near(m.trunk_m, (0.805 - 0.514) * 1.756, EXACT);
    assert_near(m.head_neck_m, (1.0 - 0.805) * 1.756, EXACT);
    assert_near(m.ball_of_foot_m, 0.741 * 0.1544 * 1.756, EXACT);
    assert_near(m.heel_to_ankle_m, 0.22 * 0.1544 * 1.756, EXACT);
    assert_near(m.bar_front_back_m, -0.035 * 1.756, EXACT);
    assert_near(m.parts_sum_m, 1.756, EXACT);
    assert_near(m.length_m[PLUMB_LEN_thigh], m.thigh_m, 0.0);
}

static double mass_sum(const PlumbBody *body)
{
    double sum = 0.0;
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        const bool trunk = i == PLUMB_SEG_pelvis || i == PLUMB_SEG_thorax || i == PLUMB_SEG_head;
        sum += (trunk ? 1.0 : 2.0) * body->segment[i].mass_frac;
    }
    return sum;
}

static void masses__sum_to_one(void **state)
{
    (void)state;
    for (int i = 0; i < PLUMB_SEX_COUNT * PLUMB_TABLE_COUNT; i++) {
        PlumbBodySpec spec = plumb_body_spec((PlumbSex)(i % 2), 1.7, 70.0);
        spec.mass_table = (PlumbTable)(i / 2);
        const PlumbBody body = built(&spec);
        assert_near(mass_sum(&body), 1.0, 1e-12);
        assert_int_equal(body.has_radii, spec.mass_table == PLUMB_SURVEY);
    }
}

/* de Leva 1996, Table 4, men: middle trunk 16.33 % (centre 45.02 % of 215.5 mm below xiphion) and
 * upper trunk 15.96 % (29.99 % of 170.7 mm below suprasternale) merge into the thorax; the thorax
 * link is 515.5 mm (mid-shoulder to mid-hip) less 145.7 mm (navel to mid-hip). */
static void masses__survey_thorax_is_the_merged_scanner_trunk(void **state)
{
    (void)state;
    const PlumbBody m = man();
    const double middle_mm = 215.5 * (1.0 - 0.4502);
    const double upper_mm = 215.5 + 170.7 * (1.0 - 0.2999);
    const double com_mm = (16.33 * middle_mm + 15.96 * upper_mm) / (16.33 + 15.96);
    assert_near(m.segment[PLUMB_SEG_thorax].mass_frac, 0.1633 + 0.1596, EXACT);
    assert_near(m.segment[PLUMB_SEG_thorax].com_frac, com_mm / (515.5 - 145.7), 1e-9);
    /* Table 4, men, directly: thigh 14.16 %, centre 40.95 % from the hip, radius 32.9 %. */
    assert_near(m.segment[PLUMB_SEG_thigh].mass_frac, 0.1416, EXACT);
    assert_near(m.segment[PLUMB_SEG_thigh].com_frac, 0.4095, EXACT);
    assert_near(m.segment[PLUMB_SEG_thigh].rg_frac, 0.329, EXACT);
    /* Women: foot 1.29 % of masses that sum to 99.99 %. */
    const PlumbBody w = woman();
    assert_near(w.segment[PLUMB_SEG_foot].mass_frac, 0.0129 / 0.9999, 1e-12);
}

/* Drillis & Contini 1966 as in Winter, Fig. 4.1. */
static void classic__has_the_figures_of_its_source(void **state)
{
    (void)state;
    const PlumbBody c = classic_man();
    const struct {
        PlumbLength length;
        double fraction;
    } row[] = {
        {PLUMB_LEN_ankle_height, 0.039},    {PLUMB_LEN_shank, 0.285 - 0.039},
        {PLUMB_LEN_thigh, 0.530 - 0.285},   {PLUMB_LEN_trunk, 0.818 - 0.530},
        {PLUMB_LEN_head_neck, 1.0 - 0.818}, {PLUMB_LEN_upper_arm, 0.186},
        {PLUMB_LEN_forearm, 0.146},         {PLUMB_LEN_foot_length, 0.152},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        assert_near(c.length_m[row[i].length], row[i].fraction * 1.756, EXACT);
        assert_int_equal(c.length_basis[row[i].length], PLUMB_BASIS_CLASSIC);
        assert_non_null(strstr(plumb_length_source(row[i].length, PLUMB_CLASSIC), "Drillis"));
    }
    /* Filled from the survey: share of the classic trunk, fraction of stature. */
    assert_near(c.pelvis_m, 0.2826 * 0.288 * 1.756, EXACT);
    assert_near(c.shoulder_joint_spacing_m, 0.205 * 1.756, EXACT);
    assert_int_equal(c.length_basis[PLUMB_LEN_pelvis], PLUMB_BASIS_FILLED);
    assert_int_equal(c.length_basis[PLUMB_LEN_shoulder_joint_spacing], PLUMB_BASIS_FILLED);
}

/* Winter, Table 4.1 (after Dempster), turned into this model's links by hand: foot = middle of
 * malleolus and metatarsal (0.22 + 0.741) / 2; thorax 0.37 of hinge to C7, C7 0.046 of stature
 * above the shoulder; head at the ear canal, 0.118 of stature above the shoulder. */
static void classic__centres_are_told_on_our_links(void **state)
{
    (void)state;
    const PlumbBody c = classic_man();
    assert_near(c.segment[PLUMB_SEG_foot].com_frac, 0.4805, 1e-12);
    assert_near(c.segment[PLUMB_SEG_foot].rg_frac, 0.475 * (0.741 - 0.22), 1e-12);
    const double thorax = 0.288 * (1.0 - 0.2826);
    assert_near(c.segment[PLUMB_SEG_thorax].com_frac, 0.37 * (thorax + 0.864 - 0.818) / thorax,
                1e-12);
    assert_near(c.segment[PLUMB_SEG_head].com_frac, (0.936 - 0.818) / 0.288, 1e-12);
    assert_near(c.segment[PLUMB_SEG_pelvis].com_frac, 0.895, EXACT);
    assert_near(c.segment[PLUMB_SEG_thigh].com_frac, 0.433, EXACT);
    assert_near(c.segment[PLUMB_SEG_hand].com_frac, 0.506, EXACT);
    assert_near(c.segment[PLUMB_SEG_thigh].mass_frac, 0.100, EXACT);
    assert_near(c.segment[PLUMB_SEG_thorax].mass_frac, 0.355, EXACT);
    assert_near(c.segment[PLUMB_SEG_pelvis].rg_frac, 0.0, 0.0);
    assert_false(c.has_radii);
}

static void tables__can_be_joined_either_way(void **state)
{
    (void)state;
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.5);
    spec.mass_table = PLUMB_CLASSIC;
    const PlumbBody mixed = built(&spec);
    assert_near(mixed.thigh_m, 0.234 * 1.756, EXACT); /* survey */
    const double thorax = 0.291 * (1.0 - 0.2826);     /* survey lengths, classic centre */
    assert_near(mixed.segment[PLUMB_SEG_thorax].com_frac, 0.37 * (thorax + 0.864 - 0.805) / thorax,
                1e-12);
}

static void override__keeps_all_other_lengths(void **state)
{
    (void)state;
    const PlumbBody before = man();
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.5);
    spec.measure[PLUMB_LEN_thigh] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.45, 0.0};
    const PlumbBody body = built(&spec);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (i != PLUMB_LEN_thigh) {
            assert_near(body.length_m[i], before.length_m[i], 0.0);
        }
    }
    assert_near(body.thigh_m, 0.45, 0.0);
    assert_near(body.stature_m, 1.756, 0.0);
    assert_near(body.parts_sum_m, 1.756 + 0.45 - 0.234 * 1.756, EXACT);
    assert_near(body.length_sd_m[PLUMB_LEN_thigh], 0.01, 0.0);
    assert_int_equal(body.length_basis[PLUMB_LEN_thigh], PLUMB_BASIS_MEASURED);
}

static void override__foot_and_trunk_take_their_shares_along(void **state)
{
    (void)state;
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.5);
    spec.measure[PLUMB_LEN_foot_length] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.28, 0.004};
    spec.measure[PLUMB_LEN_trunk] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.5, 0.02};
    spec.measure[PLUMB_LEN_heel_to_ankle] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.065, 0.0};
    const PlumbBody body = built(&spec);
    assert_near(body.ball_of_foot_m, 0.741 * 0.28, EXACT);
    assert_near(body.heel_to_ankle_m, 0.065, 0.0);
    assert_near(body.pelvis_m, 0.2826 * 0.5, EXACT);
    /* Spread of a product: the share's own (0.0147) and that of the foot's measurement. */
    assert_near(body.length_sd_m[PLUMB_LEN_ball_of_foot], hypot(0.0147 * 0.28, 0.741 * 0.004),
                EXACT);
}

/* Spreads of ANSUR II (spreads.csv): thigh 0.01046, women's shank 0.01073; of lengths.csv where
 * not listed: hip joint spacing 0.006, heel to ankle 0.02 of the foot. */
static void spread__is_told_in_sd_of_the_ratio(void **state)
{
    (void)state;
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.5);
    spec.measure[PLUMB_LEN_thigh] = (PlumbMeasure){PLUMB_MEASURE_SPREAD, 1.0, 0.0};
    spec.measure[PLUMB_LEN_hip_joint_spacing] = (PlumbMeasure){PLUMB_MEASURE_SPREAD, -2.0, 0.0};
    spec.measure[PLUMB_LEN_heel_to_ankle] = (PlumbMeasure){PLUMB_MEASURE_SPREAD, 0.5, 0.0};
    const PlumbBody body = built(&spec);
    assert_near(body.thigh_m, (0.234 + 0.01046) * 1.756, EXACT);
    assert_near(body.hip_joint_spacing_m, (0.105 - 0.012) * 1.756, EXACT);
    assert_near(body.heel_to_ankle_m, (0.22 + 0.01) * 0.1544 * 1.756, EXACT);
    assert_int_equal(body.length_basis[PLUMB_LEN_thigh], PLUMB_BASIS_SPREAD);
    assert_near(plumb_length_ratio_percentile(&body, PLUMB_LEN_thigh), 0.841344746068543, 1e-9);
    PlumbBodySpec female = plumb_body_spec(PLUMB_FEMALE, 1.6, 60.0);
    female.measure[PLUMB_LEN_shank] = (PlumbMeasure){PLUMB_MEASURE_SPREAD, -1.0, 0.0};
    assert_near(built(&female).shank_m, (0.237 - 0.01073) * 1.6, EXACT);
}

static void basis__says_what_each_length_rests_on(void **state)
{
    (void)state;
    const PlumbBody m = man();
    const struct {
        PlumbLength length;
        const char *text;
    } row[] = {
        {PLUMB_LEN_foot_length, "survey"},   {PLUMB_LEN_thigh, "survey+scanner"},
        {PLUMB_LEN_upper_arm, "scanner"},    {PLUMB_LEN_shank, "derived"},
        {PLUMB_LEN_shoulder_drop, "memory"}, {PLUMB_LEN_bar_high_up, "memory"},
        {PLUMB_LEN_pelvis, "scanner"},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        assert_string_equal(plumb_basis_text(m.length_basis[row[i].length]), row[i].text);
    }
    assert_non_null(strstr(plumb_length_source(PLUMB_LEN_upper_arm, PLUMB_SURVEY), "de Leva"));
    assert_non_null(strstr(plumb_length_source(PLUMB_LEN_foot_length, PLUMB_SURVEY), "ANSUR II"));
    assert_string_equal(plumb_length_name(PLUMB_LEN_shoulder_drop), "shoulder_drop");
    assert_string_equal(plumb_tape_name(PLUMB_TAPE_span), "span");
    assert_string_equal(plumb_segment_name(PLUMB_SEG_head), "head");
}

/* ANSUR II: stature 1756.21 (68.55) and 1628.47 (64.20) mm, mass 85.52 (14.22) and 67.76 (10.98)
 * kg. Expected shares by Python's statistics.NormalDist. */
static void percentile__is_half_at_the_mean_and_normal_elsewhere(void **state)
{
    (void)state;
    assert_near(plumb_stature_percentile(PLUMB_MALE, 1.75621), 0.5, 1e-12);
    assert_near(plumb_mass_percentile(PLUMB_FEMALE, 67.76), 0.5, 1e-12);
    assert_near(plumb_stature_percentile(PLUMB_MALE, 1.85), 0.9143750081154509, 1e-12);
    assert_near(plumb_mass_percentile(PLUMB_FEMALE, 80.0), 0.8675220942901949, 1e-12);
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        const PlumbBodySpec spec =
            plumb_body_spec((PlumbSex)sex, sex == PLUMB_MALE ? 1.75621 : 1.62847, 70.0);
        const PlumbBody mean = built(&spec);
        for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
            assert_near(plumb_length_percentile(&mean, (PlumbLength)i), 0.5, 1e-9);
            assert_near(plumb_length_ratio_percentile(&mean, (PlumbLength)i), 0.5, 1e-9);
        }
        for (int i = 0; i < PLUMB_RATIO_COUNT; i++) {
            assert_near(plumb_ratio_percentile(&mean, (PlumbRatio)i), 0.5, 1e-9);
        }
    }
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.5);
    spec.measure[PLUMB_LEN_thigh] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.45, 0.0};
    const PlumbBody body = built(&spec);
    assert_near(plumb_length_percentile(&body, PLUMB_LEN_thigh), 0.9453213951035596, 1e-12);
    assert_near(plumb_length_ratio_percentile(&body, PLUMB_LEN_thigh), 0.9833526774266286, 1e-12);
}

/* First-order spread with the correlations of spreads.csv, computed in Python: man's thigh / trunk
 * 0.80412 (0.06546), woman's leg / trunk 1.63986 (0.12422), man's arm / stature 0.361 (0.01112). */
static void ratio__percentile_uses_the_correlations(void **state)
{
    (void)state;
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.5);
    spec.measure[PLUMB_LEN_thigh] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.45, 0.0};
    spec.measure[PLUMB_LEN_trunk] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.5, 0.0};
    const PlumbBody m = built(&spec);
    assert_near(plumb_ratio_value(&m, PLUMB_RATIO_thigh_to_trunk), 0.9, EXACT);
    assert_near(plumb_ratio_percentile(&m, PLUMB_RATIO_thigh_to_trunk), 0.9284996916437906, 1e-9);

    PlumbBodySpec female = plumb_body_spec(PLUMB_FEMALE, 1.6, 60.0);
    female.measure[PLUMB_LEN_thigh] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.40, 0.0};
    female.measure[PLUMB_LEN_shank] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.365, 0.0};
    female.measure[PLUMB_LEN_trunk] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.45, 0.0};
    const PlumbBody w = built(&female);
    assert_near(plumb_ratio_value(&w, PLUMB_RATIO_leg_to_trunk), 1.7, EXACT);
    assert_near(plumb_ratio_percentile(&w, PLUMB_RATIO_leg_to_trunk), 0.6858599794894851, 1e-9);

    PlumbBodySpec long_arm = plumb_body_spec(PLUMB_MALE, 2.0, 90.0);
    long_arm.measure[PLUMB_LEN_upper_arm] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.352, 0.0};
    const PlumbBody a = built(&long_arm);
    assert_near(plumb_ratio_value(&a, PLUMB_RATIO_arm_to_stature), 0.375, EXACT);
    assert_near(plumb_ratio_percentile(&a, PLUMB_RATIO_arm_to_stature), 0.8959040459890568, 1e-9);
}

/* 1st and 99th percentile: mean -+ 2.326 sd: men 1.5967 to 1.9157 m, 52.44 to 118.60 kg. */
static void extrapolated__marks_what_lies_outside_the_sources(void **state)
{
    (void)state;
    const struct {
        double stature_m;
        double mass_kg;
        double age_years;
        unsigned bits;
    } row[] = {
        {1.756, 85.5, 0.0, 0},
        {1.756, 85.5, 17.9, PLUMB_BODY_AGE_BELOW_18},
        {1.756, 85.5, 18.0, 0},
        {1.5967, 85.5, 0.0, PLUMB_BODY_STATURE_OUTSIDE},
        {1.5968, 85.5, 0.0, 0},
        {1.9157, 85.5, 0.0, PLUMB_BODY_STATURE_OUTSIDE},
        {1.756, 118.61, 0.0, PLUMB_BODY_MASS_OUTSIDE},
        {1.756, 118.59, 0.0, 0},
        {1.50, 45.0, 15.0, 7},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, row[i].stature_m, row[i].mass_kg);
        spec.age_years = row[i].age_years;
        assert_int_equal(built(&spec).extrapolated, row[i].bits);
    }
}

/* Ratio -+ 5 sd: thigh (0.234 -+ 0.0523) x 1.756 = 0.3191 to 0.5027 m. */
static void range__is_five_sd_and_never_below_a_millimetre(void **state)
{
    (void)state;
    double low_m;
    double high_m;
    plumb_length_range(PLUMB_MALE, 1.756, PLUMB_LEN_thigh, &low_m, &high_m);
    assert_near(low_m, 0.3190652, EXACT);
    assert_near(high_m, 0.5027428, EXACT);
    plumb_length_range(PLUMB_MALE, 1.756, PLUMB_LEN_bar_low_up, &low_m, &high_m);
    assert_near(low_m, (-0.005 - 0.03) * 1.756, EXACT);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        plumb_length_range(PLUMB_FEMALE, 1.5, (PlumbLength)i, &low_m, &high_m);
        assert_true(low_m < high_m);
        const bool bar = i >= PLUMB_LEN_bar_high_up && i <= PLUMB_LEN_bar_front_back;
        assert_true(bar || i == PLUMB_LEN_shoulder_drop || low_m >= 0.001);
    }
}

/* A spec with one fault, and the words the refusal must hold. */
typedef struct Refused {
    double stature_m;
    double mass_kg;
    double age_years;
    int length; /* -1: none */
    PlumbMeasure measure;
    const char *field;
    const char *message;
} Refused;

static const Refused refused[] = {
    {1.10,
     85.0,
     0.0,
     -1,
     {0},
     "stature",
     "110.0 cm is no stature that this model covers; allowed is 120.0 cm to 230.0 cm"},
    {2.31, 85.0, 0.0, -1, {0}, "stature", "231.0 cm is no stature"},
    {(double)NAN, 85.0, 0.0, -1, {0}, "stature", "allowed is 120.0 cm to 230.0 cm"},
    {1.756,
     29.0,
     0.0,
     -1,
     {0},
     "mass",
     "29.0 kg is no body mass that this model covers; allowed is 30.0 kg to 250.0 kg"},
    {1.756, (double)INFINITY, 0.0, -1, {0}, "mass", "allowed is 30.0 kg to 250.0 kg"},
    {1.756,
     85.0,
     9.0,
     -1,
     {0},
     "age",
     "9.0 years is no age that this model covers; allowed is 10 to 100 years; leave it out where "
     "it is not known"},
    {1.756, 85.0, (double)NAN, -1, {0}, "age", "allowed is 10 to 100 years"},
    {1.756,
     85.0,
     0.0,
     PLUMB_LEN_thigh,
     {PLUMB_MEASURE_LENGTH, 0.95, 0.0},
     "thigh",
     "95.0 cm cannot be right for a stature of 175.6 cm; allowed is 31.9 cm to 50.3 cm; measure "
     "it again: knee to hip joint centre"},
    {1.756,
     85.0,
     0.0,
     PLUMB_LEN_thigh,
     {PLUMB_MEASURE_LENGTH, (double)NAN, 0.0},
     "thigh",
     "allowed is 31.9 cm to 50.3 cm"},
    {1.756,
     85.0,
     0.0,
     PLUMB_LEN_shank,
     {PLUMB_MEASURE_SPREAD, 5.5, 0.0},
     "shank",
     "+5.50 sd is beyond any adult; allowed is -5 to +5 sd"},
    {1.756,
     85.0,
     0.0,
     PLUMB_LEN_trunk,
     {PLUMB_MEASURE_LENGTH, 0.5, -0.01},
     "trunk",
     "an error of -1.0 cm tells nothing; allowed is 0.0 cm to 10.0 cm"},
};

static void build__refuses_in_words_and_leaves_the_body_alone(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        const Refused *row = &refused[i];
        PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, row->stature_m, row->mass_kg);
        spec.age_years = row->age_years;
        if (row->length >= 0) {
            spec.measure[row->length] = row->measure;
        }
        PlumbBody body;
        memset(&body, 0x5a, sizeof body);
        PlumbBody before;
        memcpy(&before, &body, sizeof body);
        PlumbError error = {0};
        assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_BAD_INPUT);
        assert_memory_equal(&body, &before, sizeof body);
        assert_string_equal(error.field, row->field);
        if (!strstr(error.message, row->message)) {
            print_error("row %zu: \"%s\"\n", i, error.message);
            fail();
        }
    }
}

static void build__refuses_a_ball_beyond_the_toes(void **state)
{
    (void)state;
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.0);
    spec.measure[PLUMB_LEN_foot_length] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.23, 0.0};
    spec.measure[PLUMB_LEN_ball_of_foot] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.235, 0.0};
    PlumbBody body;
    PlumbError error = {0};
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "ball_of_foot");
    assert_string_equal(error.message,
                        "23.5 cm lies beyond the toes of a foot of 23.0 cm; allowed is less than "
                        "the foot's length; measure both again");
}

static void build__refuses_unknown_words(void **state)
{
    (void)state;
    PlumbBody body;
    PlumbError error = {0};
    PlumbBodySpec spec = plumb_body_spec(PLUMB_SEX_COUNT, 1.7, 70.0);
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "sex");
    spec = plumb_body_spec(PLUMB_FEMALE, 1.7, 70.0);
    spec.mass_table = PLUMB_TABLE_COUNT;
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.message, "allowed is survey or classic");
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_BAD_INPUT);
}

/* Limits: Calatayud 2015, 40.6 deg; Soucie 2011, knee 137.7 and 141.9 deg; Fan 2014. Equipment:
 * rules of IPF and IWF. */
static void lifter__starts_with_the_tables(void **state)
{
    (void)state;
    const double deg = 3.14159265358979323846 / 180.0;
    const PlumbBody w = woman();
    const PlumbLifter lifter = plumb_lifter_default(&w);
    assert_memory_equal(&lifter.body, &w, sizeof w);
    assert_near(lifter.limit_rad[PLUMB_LIMIT_ankle_dorsiflexion], 40.6 * deg, EXACT);
    assert_near(lifter.limit_rad[PLUMB_LIMIT_knee_flexion], 141.9 * deg, EXACT);
    assert_near(lifter.limit_rad[PLUMB_LIMIT_hip_internal_rotation], 42.7 * deg, EXACT);
    for (int i = 0; i < PLUMB_LIMIT_COUNT; i++) {
        assert_false(lifter.limit_entered[i]);
    }
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        assert_near(lifter.strength[i], 1.0, 0.0);
    }
    assert_false(lifter.strength_entered);
    assert_near(lifter.equipment.bar_mass_kg, 20.0, 0.0);
    assert_near(lifter.equipment.shaft_diameter_m, 0.028, EXACT);
    assert_near(lifter.equipment.ring_spacing_m, 0.810, EXACT);
    assert_near(lifter.equipment.knurl_start_m, 0.42, EXACT);
    assert_near(lifter.equipment.knurl_stop_m, 1.31, EXACT);
    assert_near(lifter.equipment.disc_diameter_m, 0.450, EXACT);
    assert_non_null(strstr(plumb_limit_source(PLUMB_LIMIT_knee_flexion), "Soucie"));
    assert_non_null(strstr(plumb_limit_source(PLUMB_LIMIT_hip_flexion), "from memory"));
    assert_string_equal(plumb_limit_name(PLUMB_LIMIT_hip_abduction), "hip_abduction");
    assert_string_equal(plumb_joint_name(PLUMB_JOINT_shoulder), "shoulder");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(build__meets_the_reference_poses),
        cmocka_unit_test(build__takes_shares_of_foot_and_trunk),
        cmocka_unit_test(masses__sum_to_one),
        cmocka_unit_test(masses__survey_thorax_is_the_merged_scanner_trunk),
        cmocka_unit_test(classic__has_the_figures_of_its_source),
        cmocka_unit_test(classic__centres_are_told_on_our_links),
        cmocka_unit_test(tables__can_be_joined_either_way),
        cmocka_unit_test(override__keeps_all_other_lengths),
        cmocka_unit_test(override__foot_and_trunk_take_their_shares_along),
        cmocka_unit_test(spread__is_told_in_sd_of_the_ratio),
        cmocka_unit_test(basis__says_what_each_length_rests_on),
        cmocka_unit_test(percentile__is_half_at_the_mean_and_normal_elsewhere),
        cmocka_unit_test(ratio__percentile_uses_the_correlations),
        cmocka_unit_test(extrapolated__marks_what_lies_outside_the_sources),
        cmocka_unit_test(range__is_five_sd_and_never_below_a_millimetre),
        cmocka_unit_test(build__refuses_in_words_and_leaves_the_body_alone),
        cmocka_unit_test(build__refuses_a_ball_beyond_the_toes),
        cmocka_unit_test(build__refuses_unknown_words),
        cmocka_unit_test(lifter__starts_with_the_tables),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
