/* SPDX-License-Identifier: MIT */
/* Taped surface measures: at the survey's means they give the tables' lengths; errors; collisions.
 */
#include "support.h"

#include <plumbar/body.h>

#include <string.h>

/* ANSUR II: mean stature and mean ratio of each dimension to stature (survey.csv), in the order of
 * PLUMB_TAPE_LIST; heel to ankle bone as the foot's share of lengths.csv, which is not taped
 * there; the foot as the 0.1544 and 0.1513 of lengths.csv. */
static const double mean_stature_m[PLUMB_SEX_COUNT] = {1.75621, 1.62847};
static const double mean_ratio[PLUMB_SEX_COUNT][PLUMB_TAPE_COUNT] = {
    {0.52306, 0.35186, 0.31547, 1.03302, 0.20708, 0.15252, 0.1544, 0.22 * 0.1544, 0.37245},
    {0.52624, 0.36264, 0.31388, 1.01947, 0.20526, 0.14817, 0.1513, 0.215 * 0.1513, 0.37645},
};

static PlumbBodySpec taped(PlumbSex sex, unsigned tapes)
{
    PlumbBodySpec spec = plumb_body_spec(sex, mean_stature_m[sex], 75.0);
    for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
        if (tapes & (1u << i)) {
            spec.tape[i] =
                (PlumbMeasure){PLUMB_MEASURE_LENGTH, mean_ratio[sex][i] * mean_stature_m[sex], 0.0};
        }
    }
    return spec;
}

static PlumbBody built(const PlumbBodySpec *spec)
{
    PlumbBody body;
    PlumbError error = {0};
    if (plumb_body_build(spec, &body, &error) != PLUMB_OK) {
        print_error("%s: %s\n", error.field, error.message);
        fail();
    }
    return body;
}

static void tape__of_the_mean_person_gives_the_tables_lengths(void **state)
{
    (void)state;
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        const PlumbBodySpec none = taped((PlumbSex)sex, 0);
        const PlumbBody table = built(&none);
        for (unsigned set = 1; set < 1u << PLUMB_TAPE_COUNT; set++) {
            const PlumbBodySpec spec = taped((PlumbSex)sex, set);
            const PlumbBody body = built(&spec);
            for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
                assert_near(body.length_m[i], table.length_m[i], 1e-12);
            }
        }
    }
}

/* Which lengths each tape fixes. */
static void tape__marks_what_it_fixed(void **state)
{
    (void)state;
    const struct {
        PlumbTape tape;
        PlumbLength length[4];
        int count;
    } row[] = {
        {PLUMB_TAPE_sitting_height, {PLUMB_LEN_trunk}, 1},
        {PLUMB_TAPE_buttock_to_knee, {PLUMB_LEN_thigh}, 1},
        {PLUMB_TAPE_knee_height_sitting, {PLUMB_LEN_shank}, 1},
        {PLUMB_TAPE_span,
         {PLUMB_LEN_upper_arm, PLUMB_LEN_forearm, PLUMB_LEN_wrist_to_grip_palm,
          PLUMB_LEN_wrist_to_grip_fingers},
         4},
        {PLUMB_TAPE_shoulder_to_elbow, {PLUMB_LEN_upper_arm}, 1},
        {PLUMB_TAPE_elbow_to_wrist, {PLUMB_LEN_forearm}, 1},
        {PLUMB_TAPE_foot, {PLUMB_LEN_foot_length}, 1},
        {PLUMB_TAPE_heel_to_ankle_bone, {PLUMB_LEN_heel_to_ankle}, 1},
        {PLUMB_TAPE_floor_to_fingertips,
         {PLUMB_LEN_upper_arm, PLUMB_LEN_forearm, PLUMB_LEN_wrist_to_grip_palm,
          PLUMB_LEN_wrist_to_grip_fingers},
         4},
    };
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const PlumbBodySpec spec = taped(PLUMB_MALE, 1u << row[i].tape);
        const PlumbBody body = built(&spec);
        int count = 0;
        for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
            count += body.length_basis[k] == PLUMB_BASIS_TAPED;
        }
        assert_int_equal(count, row[i].count);
        for (int k = 0; k < row[i].count; k++) {
            assert_int_equal(body.length_basis[row[i].length[k]], PLUMB_BASIS_TAPED);
        }
    }
}

/* By hand: trunk = 0.291 / 0.52306 of the sitting height; shank = 0.28 / 0.31547 of the knee
 * height less the ankle's; ankle measured at 8 cm. */
static void tape__scales_by_the_ratio_of_means(void **state)
{
    (void)state;
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.80, 80.0);
    spec.tape[PLUMB_TAPE_sitting_height] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.90, 0.0};
    spec.tape[PLUMB_TAPE_knee_height_sitting] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.59, 0.0};
    spec.measure[PLUMB_LEN_ankle_height] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.08, 0.0};
    const PlumbBody body = built(&spec);
    assert_near(body.trunk_m, 0.90 * 0.291 / 0.52306, 1e-12);
    assert_near(body.shank_m, 0.59 * 0.28 / 0.31547 - 0.08, 1e-12);
    assert_near(body.pelvis_m, 0.2826 * body.trunk_m, 1e-12);
}

/* Half the span less the mean breadth of the shoulders (0.23682) is the arm, 0.3981 of stature;
 * what is left beside a known upper arm is shared by forearm (0.154) and grip. */
static void span__fills_only_the_rest_of_the_arm(void **state)
{
    (void)state;
    const double h = 1.80;
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, h, 80.0);
    spec.tape[PLUMB_TAPE_span] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 1.90, 0.0};
    const double whole_m = 0.5 * (1.90 - 0.23682 * h);
    const double mean = 0.5 * (1.03302 - 0.23682);
    PlumbBody body = built(&spec);
    assert_near(body.upper_arm_m, whole_m * 0.162 / mean, 1e-12);
    assert_near(body.forearm_m, whole_m * 0.154 / mean, 1e-12);

    spec.tape[PLUMB_TAPE_shoulder_to_elbow] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.38, 0.0};
    body = built(&spec);
    const double upper_m = 0.38 * 0.162 / 0.20708;
    assert_near(body.upper_arm_m, upper_m, 1e-12);
    assert_near(body.forearm_m, (whole_m - upper_m) * 0.154 / (mean - 0.162), 1e-12);
    assert_near(body.wrist_to_grip_palm_m, (whole_m - upper_m) * 0.0354 / (mean - 0.162), 1e-12);

    spec.measure[PLUMB_LEN_forearm] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.29, 0.0};
    body = built(&spec);
    assert_near(body.forearm_m, 0.29, 0.0);
    assert_near(body.wrist_to_grip_fingers_m, whole_m * 0.045 / mean, 1e-12);
}

/* The hand hangs from the shoulder's height as measured: a trunk 2 cm longer lifts the shoulder,
 * and the same fingertips then tell of a longer arm. */
static void fingertips__count_from_the_shoulder_as_known(void **state)
{
    (void)state;
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.80, 80.0);
    spec.tape[PLUMB_TAPE_floor_to_fingertips] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.66, 0.0};
    spec.measure[PLUMB_LEN_trunk] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 0.291 * 1.80 + 0.02, 0.0};
    const PlumbBody body = built(&spec);
    const double hang_m = 0.805 * 1.80 + 0.02 - 0.66;
    assert_near(body.upper_arm_m, hang_m * 0.162 / (0.805 - 0.37245), 1e-12);
}

/* Variance of a ratio's error, s_t^2 + (k s_d)^2 - 2 r s_t k s_d, with spreads and correlations of
 * ANSUR II, men; computed in Python: trunk from sitting height 0.02554 m, thigh from buttock to
 * knee 0.01954 m (held at the table's own spread 0.01046), shank 0.01399 m, upper arm from span
 * 0.00962 m, tape 1 cm. */
static void tape__carries_its_error(void **state)
{
    (void)state;
    const PlumbBodySpec spec =
        taped(PLUMB_MALE, (1u << PLUMB_TAPE_sitting_height) | (1u << PLUMB_TAPE_buttock_to_knee) |
                              (1u << PLUMB_TAPE_knee_height_sitting) | (1u << PLUMB_TAPE_span) |
                              (1u << PLUMB_TAPE_foot));
    const PlumbBody body = built(&spec);
    assert_near(body.length_sd_m[PLUMB_LEN_trunk], 0.02553939536894535, 1e-12);
    assert_near(body.length_sd_m[PLUMB_LEN_thigh], 0.019536702825958777, 1e-12);
    assert_near(body.length_sd_m[PLUMB_LEN_shank], 0.013989221021236255, 1e-12);
    assert_near(body.length_sd_m[PLUMB_LEN_upper_arm], 0.009621765757918701, 1e-12);
    assert_near(body.length_sd_m[PLUMB_LEN_foot_length], 0.01, 1e-12);
    PlumbBodySpec fine = spec;
    fine.tape[PLUMB_TAPE_foot].sd_m = 0.003;
    assert_near(built(&fine).length_sd_m[PLUMB_LEN_foot_length], 0.003, 1e-12);
}

typedef struct Refused {
    PlumbTape tape;
    PlumbMeasure value;
    int length; /* measured too; -1: none */
    double length_m;
    const char *field;
    const char *message;
} Refused;

/* Stature 1.756 m, man. Sitting height 0.52306 -+ 0.0677 of it: 79.96 to 103.74 cm. */
static const Refused refused[] = {
    {PLUMB_TAPE_sitting_height,
     {PLUMB_MEASURE_LENGTH, 1.30, 0.0},
     -1,
     0.0,
     "sitting_height",
     "130.0 cm cannot be right for a stature of 175.6 cm; allowed is 80.0 cm to 103.7 cm; measure "
     "it again: seat to the top of the head, sitting tall"},
    {PLUMB_TAPE_span,
     {PLUMB_MEASURE_LENGTH, (double)NAN, 0.0},
     -1,
     0.0,
     "span",
     "allowed is 157.4 cm to"},
    {PLUMB_TAPE_span,
     {PLUMB_MEASURE_SPREAD, 1.0, 0.0},
     -1,
     0.0,
     "span",
     "a taped measure is a length"},
    {PLUMB_TAPE_foot,
     {PLUMB_MEASURE_LENGTH, 0.27, 0.5},
     -1,
     0.0,
     "foot",
     "an error of 50.0 cm tells nothing; allowed is 0.0 cm to 10.0 cm"},
    {PLUMB_TAPE_buttock_to_knee,
     {PLUMB_MEASURE_LENGTH, 0.62, 0.0},
     PLUMB_LEN_thigh,
     0.42,
     "buttock_to_knee",
     "buttock_to_knee and thigh both fix the same length; give one of the two"},
    {PLUMB_TAPE_heel_to_ankle_bone,
     {PLUMB_MEASURE_LENGTH, 0.06, 0.0},
     PLUMB_LEN_heel_to_ankle,
     0.06,
     "heel_to_ankle_bone",
     "heel_to_ankle_bone and heel_to_ankle both fix the same length; give one of the two"},
    {PLUMB_TAPE_foot,
     {PLUMB_MEASURE_LENGTH, 0.27, 0.0},
     PLUMB_LEN_foot_length,
     0.27,
     "foot",
     "foot and foot_length both fix the same length"},
    {PLUMB_TAPE_span,
     {PLUMB_MEASURE_LENGTH, 1.60, 0.0},
     PLUMB_LEN_upper_arm,
     0.33,
     "span",
     "160.0 cm does not fit the other measures: forearm would be"},
};

static void tape__refuses_in_words(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        const Refused *row = &refused[i];
        PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.756, 85.0);
        spec.tape[row->tape] = row->value;
        if (row->length >= 0) {
            spec.measure[row->length] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, row->length_m, 0.0};
        }
        PlumbBody body;
        PlumbError error = {0};
        assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_BAD_INPUT);
        assert_string_equal(error.field, row->field);
        if (!strstr(error.message, row->message)) {
            print_error("row %zu: \"%s\"\n", i, error.message);
            fail();
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tape__of_the_mean_person_gives_the_tables_lengths),
        cmocka_unit_test(tape__marks_what_it_fixed),
        cmocka_unit_test(tape__scales_by_the_ratio_of_means),
        cmocka_unit_test(span__fills_only_the_rest_of_the_arm),
        cmocka_unit_test(fingertips__count_from_the_shoulder_as_known),
        cmocka_unit_test(tape__carries_its_error),
        cmocka_unit_test(tape__refuses_in_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
