/* SPDX-License-Identifier: MIT */
/* People at large: regression against known coefficients and against a plain second solution,
 * percentiles, sayings against answers solved one by one. */
#include "support.h"

#include <plumbar/population.h>

#include <stdlib.h>
#include <string.h>

static PlumbLifter lifter_of(PlumbSex sex, double stature_m, double mass_kg)
{
    const PlumbBodySpec spec = plumb_body_spec(sex, stature_m, mass_kg);
    PlumbBody body;
    PlumbError error;
    if (plumb_body_build(&spec, &body, &error) != PLUMB_OK) {
        fail_msg("%s: %s", error.field, error.message);
    }
    return plumb_lifter_default(&body);
}

static PlumbPerson *people_of(PlumbSetup setup, PlumbSex sex, int count)
{
    const PlumbLifter lifter = lifter_of(sex, 1.70, 75.0);
    PlumbPerson *const person = calloc((size_t)count, sizeof *person);
    PlumbSampler sampler;
    assert_non_null(person);
    plumb_sampler_population(&lifter, 1, &sampler);
    plumb_population_solve(&sampler, &setup, 0, count, person);
    return person;
}

/* A figure made of the traits: the slopes come back, with no error; the level is its mean. */
static void regress__finds_the_slopes_it_was_made_with(void **state)
{
    enum { COUNT = 200 };
    static const double slope[PLUMB_TRAIT_COUNT] = {-3.0, 7.0, 0.5, -0.25, 0.01};
    (void)state;
    PlumbPerson *const person = people_of(plumb_setup_default(PLUMB_DEADLIFT), PLUMB_MALE, COUNT);
    double mean = 0.0;
    for (int i = 0; i < COUNT; i++) {
        double figure = 2.0;
        for (int k = 0; k < PLUMB_TRAIT_COUNT; k++) {
            figure +=
                slope[k] * plumb_trait_value(&person[i].sample, (PlumbTrait)k, PLUMB_DEADLIFT);
        }
        person[i].sample.output[PLUMB_OUT_travel] = figure;
        mean += figure / COUNT;
    }
    const PlumbRegression r =
        plumb_population_regress(person, COUNT, PLUMB_OUT_travel, PLUMB_DEADLIFT);
    assert_int_equal(r.count, COUNT);
    assert_near(r.level, mean, 1e-12);
    assert_near(r.explained_share, 1.0, 1e-12);
    for (int k = 0; k < PLUMB_TRAIT_COUNT; k++) {
        assert_near(r.slope[k], slope[k], 1e-9);
        assert_near(r.error[k], 0.0, 1e-6);
    }
    free(person);
}

/* With noise of a known sd the slopes lie within their errors: over 300 repetitions the share of
 * slopes within 1.96 errors is 95 %, itself known to 0.6 % (1500 slopes): within 2 %. */
static void regress__tells_its_errors_right(void **state)
{
    enum { COUNT = 80, REPEATS = 300 };
    static const double slope[PLUMB_TRAIT_COUNT] = {-3.0, 7.0, 0.5, -0.25, 0.01};
    (void)state;
    PlumbPerson *const person = people_of(plumb_setup_default(PLUMB_SQUAT), PLUMB_FEMALE, COUNT);
    int within = 0;
    double noise_sd = 0.0;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
        for (int i = 0; i < COUNT; i++) {
            double noise;
            double figure = 1.0;
            plumb_normal_deviates(99, (uint64_t)(repeat * COUNT + i), 1, &noise);
            for (int k = 0; k < PLUMB_TRAIT_COUNT; k++) {
                figure +=
                    slope[k] * plumb_trait_value(&person[i].sample, (PlumbTrait)k, PLUMB_SQUAT);
            }
            person[i].sample.output[PLUMB_OUT_travel] = figure + 0.2 * noise;
        }
        const PlumbRegression r =
            plumb_population_regress(person, COUNT, PLUMB_OUT_travel, PLUMB_SQUAT);
        noise_sd += r.residual_sd / REPEATS;
        for (int k = 0; k < PLUMB_TRAIT_COUNT; k++) {
            within += fabs(r.slope[k] - slope[k]) < 1.993 * r.error[k]; /* t, 74 degrees */
        }
    }
    assert_near(noise_sd, 0.2, 0.002);
    assert_near((double)within / (REPEATS * PLUMB_TRAIT_COUNT), 0.95, 0.02);
    free(person);
}

static void regress__of_too_few_is_no_figure(void **state)
{
    enum { COUNT = 9 };
    (void)state;
    PlumbPerson *const person = people_of(plumb_setup_default(PLUMB_DEADLIFT), PLUMB_MALE, COUNT);
    const PlumbRegression r =
        plumb_population_regress(person, COUNT, PLUMB_OUT_travel, PLUMB_DEADLIFT);
    assert_int_equal(r.count, COUNT);
    assert_true(isnan(r.slope[0]) && isnan(r.error[0]) && isnan(r.explained_share));
    free(person);
}

/* The slope over bodies is near that of the one mean body whose arms alone grow by 1 % of the
 * stature. People with longer arms have shorter trunks too (r -0.12 and -0.32), which no trait
 * holds; that takes a part of the slope. */
static void regress__is_near_the_slope_of_the_mean_body(void **state)
{
    enum { COUNT = 4000 };
    (void)state;
    const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.75621, 85.52);
    PlumbPerson *const person = people_of(setup, PLUMB_MALE, COUNT);
    const PlumbRegression r =
        plumb_population_regress(person, COUNT, PLUMB_OUT_travel, PLUMB_DEADLIFT);
    PlumbLifter longer = lifter;
    PlumbAnswer answer[2];
    longer.body.upper_arm_m += 0.01 * 1.75621;
    plumb_answer_quick(&lifter, &setup, &answer[0]);
    plumb_answer_quick(&longer, &setup, &answer[1]);
    const double own = answer[1].travel_m - answer[0].travel_m;
    assert_true(own < -0.01);
    assert_near(0.01 * r.slope[PLUMB_TRAIT_arm_to_stature], own, 0.25 * fabs(own));
    free(person);
}

static void share_below__counts(void **state)
{
    enum { COUNT = 5 };
    static PlumbPerson person[COUNT];
    static const double travel[COUNT] = {0.5, 0.4, (double)NAN, 0.6, 0.7};
    (void)state;
    for (int i = 0; i < COUNT; i++) {
        person[i].sample.output[PLUMB_OUT_travel] = travel[i];
    }
    assert_near(plumb_population_share_below(person, COUNT, PLUMB_OUT_travel, 0.55), 0.5, 1e-15);
    assert_near(plumb_population_share_below(person, COUNT, PLUMB_OUT_travel, 0.1), 0.0, 1e-15);
    assert_near(plumb_population_share_below(person, COUNT, PLUMB_OUT_travel, 0.9), 1.0, 1e-15);
    assert_true(isnan(plumb_population_share_below(person, COUNT, PLUMB_OUT_travel, (double)NAN)) !=
                0);
}

/* The paired change of one body, solved here again by the plain way. */
static void population_solve__changes_one_thing(void **state)
{
    enum { COUNT = 12 };
    (void)state;
    const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    const PlumbLifter lifter = lifter_of(PLUMB_FEMALE, 1.70, 75.0);
    PlumbPerson person[COUNT];
    PlumbSampler sampler;
    plumb_sampler_population(&lifter, 1, &sampler);
    plumb_population_solve(&sampler, &setup, 0, COUNT, person);
    for (int i = 0; i < COUNT; i++) {
        PlumbLifter drawn;
        double off;
        PlumbAnswer answer[3];
        PlumbSetup aimed = setup;
        plumb_sampler_draw(&sampler, (uint64_t)i, &drawn, &off);
        aimed.balance_frac += off;
        plumb_answer_solve(&drawn, &aimed, &answer[0]);
        PlumbLifter thighs = drawn;
        thighs.body.thigh_m *= 1.02;
        plumb_answer_solve(&thighs, &aimed, &answer[1]);
        PlumbLifter arms = drawn;
        arms.body.upper_arm_m *= 1.02;
        arms.body.forearm_m *= 1.02;
        arms.body.wrist_to_grip_fingers_m *= 1.02;
        plumb_answer_solve(&arms, &aimed, &answer[2]);
        assert_near(person[i].by[PLUMB_DIR_thighs_lean],
                    answer[0].start.angle_rad[PLUMB_ANG_back] -
                        answer[1].start.angle_rad[PLUMB_ANG_back],
                    1e-9);
        assert_near(person[i].by[PLUMB_DIR_arms_travel], answer[0].travel_m - answer[2].travel_m,
                    1e-9);
        assert_true(isnan(person[i].by[PLUMB_DIR_ankle_over_thigh]) != 0);
    }
}

/* What every coach says, in both sexes. */
static void sayings__hold_in_almost_all_bodies(void **state)
{
    enum { COUNT = 500 };
    static double scratch[2 * COUNT];
    (void)state;
    for (int lift = 0; lift < 2; lift++) {
        for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
            PlumbPerson *const person =
                people_of(plumb_setup_default((PlumbLift)lift), (PlumbSex)sex, COUNT);
            for (int i = 0; i < PLUMB_DIRECTION_COUNT; i++) {
                if (plumb_direction_applies((PlumbDirection)i, (PlumbLift)lift)) {
                    const PlumbSaying saying =
                        plumb_population_saying(person, COUNT, (PlumbDirection)i, scratch);
                    assert_true(saying.count > 0.95 * COUNT);
                    assert_true(saying.share > 0.98);
                    assert_true(saying.median > 0.0);
                }
            }
            free(person);
        }
    }
}

static void population_solve__gives_the_same_bytes_in_pieces(void **state)
{
    enum { COUNT = 40, SPLIT = 17 };
    static PlumbPerson whole[COUNT];
    static PlumbPerson pieces[COUNT];
    (void)state;
    const PlumbSetup setup = plumb_setup_default(PLUMB_SQUAT);
    const PlumbLifter lifter = lifter_of(PLUMB_FEMALE, 1.70, 75.0);
    PlumbSampler sampler;
    plumb_sampler_population(&lifter, 8, &sampler);
    plumb_population_solve(&sampler, &setup, 0, COUNT, whole);
    plumb_population_solve(&sampler, &setup, SPLIT, COUNT - SPLIT, &pieces[SPLIT]);
    plumb_population_solve(&sampler, &setup, 0, SPLIT, pieces);
    assert_memory_equal(whole, pieces, sizeof whole);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(regress__finds_the_slopes_it_was_made_with),
        cmocka_unit_test(regress__tells_its_errors_right),
        cmocka_unit_test(regress__of_too_few_is_no_figure),
        cmocka_unit_test(regress__is_near_the_slope_of_the_mean_body),
        cmocka_unit_test(share_below__counts),
        cmocka_unit_test(population_solve__changes_one_thing),
        cmocka_unit_test(sayings__hold_in_almost_all_bodies),
        cmocka_unit_test(population_solve__gives_the_same_bytes_in_pieces),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
