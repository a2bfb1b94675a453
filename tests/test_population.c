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

static const PlumbSetup *setup_of(PlumbLift lift)
{
    static PlumbSetup setup;
    setup = plumb_setup_default(lift);
    return &setup;
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
    /* Traits that the lift has not stay without a slope. */
    static const double slope[PLUMB_TRAIT_COUNT] = {[PLUMB_TRAIT_thigh_to_trunk] = -3.0,
                                                    [PLUMB_TRAIT_arm_to_stature] = 7.0,
                                                    [PLUMB_TRAIT_shank_to_stature] = 0.5,
                                                    [PLUMB_TRAIT_stature_m] = -0.25,
                                                    [PLUMB_TRAIT_mass_kg] = 0.01};
    (void)state;
    PlumbPerson *const person = people_of(plumb_setup_default(PLUMB_DEADLIFT), PLUMB_MALE, COUNT);
    double mean = 0.0;
    for (int i = 0; i < COUNT; i++) {
        double figure = 2.0;
        for (int k = 0; k < PLUMB_TRAIT_COUNT; k++) {
            figure += slope[k] *
                      plumb_trait_value(&person[i].sample, (PlumbTrait)k, setup_of(PLUMB_DEADLIFT));
        }
        person[i].sample.output[PLUMB_OUT_travel] = figure;
        mean += figure / COUNT;
    }
    const PlumbRegression r =
        plumb_population_regress(person, COUNT, PLUMB_OUT_travel, setup_of(PLUMB_DEADLIFT));
    assert_int_equal(r.count, COUNT);
    assert_near(r.level, mean, 1e-12);
    assert_near(r.explained_share, 1.0, 1e-12);
    for (int k = 0; k < PLUMB_TRAIT_COUNT; k++) {
        if (plumb_trait_applies((PlumbTrait)k, PLUMB_DEADLIFT)) {
            assert_near(r.slope[k], slope[k], 1e-9);
            assert_near(r.error[k], 0.0, 1e-6);
        } else {
            assert_true(isnan(r.slope[k]) != 0);
        }
    }
    free(person);
}

/* With noise of a known sd the slopes lie within their errors: over 300 repetitions the share of
 * slopes within 1.96 errors is 95 %, itself known to 0.6 % (1500 slopes): within 2 %. */
static void regress__tells_its_errors_right(void **state)
{
    enum { COUNT = 80, REPEATS = 300, TRAITS = 5 };
    /* Traits that the lift has not stay without a slope. */
    static const double slope[PLUMB_TRAIT_COUNT] = {[PLUMB_TRAIT_thigh_to_trunk] = -3.0,
                                                    [PLUMB_TRAIT_arm_to_stature] = 7.0,
                                                    [PLUMB_TRAIT_shank_to_stature] = 0.5,
                                                    [PLUMB_TRAIT_stature_m] = -0.25,
                                                    [PLUMB_TRAIT_mass_kg] = 0.01};
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
                figure += slope[k] * plumb_trait_value(&person[i].sample, (PlumbTrait)k,
                                                       setup_of(PLUMB_SQUAT));
            }
            person[i].sample.output[PLUMB_OUT_travel] = figure + 0.2 * noise;
        }
        const PlumbRegression r =
            plumb_population_regress(person, COUNT, PLUMB_OUT_travel, setup_of(PLUMB_SQUAT));
        noise_sd += r.residual_sd / REPEATS;
        for (int k = 0; k < PLUMB_TRAIT_COUNT; k++) {
            within += fabs(r.slope[k] - slope[k]) < 1.993 * r.error[k]; /* t, 74 degrees */
        }
    }
    assert_near(noise_sd, 0.2, 0.002);
    assert_near((double)within / (REPEATS * TRAITS), 0.95, 0.02);
    free(person);
}

static void regress__of_too_few_is_no_figure(void **state)
{
    enum { COUNT = 9 };
    (void)state;
    PlumbPerson *const person = people_of(plumb_setup_default(PLUMB_DEADLIFT), PLUMB_MALE, COUNT);
    const PlumbRegression r =
        plumb_population_regress(person, COUNT, PLUMB_OUT_travel, setup_of(PLUMB_DEADLIFT));
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
        plumb_population_regress(person, COUNT, PLUMB_OUT_travel, setup_of(PLUMB_DEADLIFT));
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

/* A press: figures and sayings of a body as plain answers have them. */
static void population_solve__changes_one_thing_of_a_press(void **state)
{
    enum { COUNT = 12 };
    (void)state;
    const PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    const PlumbLifter lifter = lifter_of(PLUMB_FEMALE, 1.70, 75.0);
    PlumbPerson person[COUNT];
    PlumbSampler sampler;
    plumb_sampler_population(&lifter, 1, &sampler);
    plumb_population_solve(&sampler, &setup, 0, COUNT, person);
    for (int i = 0; i < COUNT; i++) {
        PlumbLifter drawn;
        double off;
        PlumbPressAnswer own;
        PlumbPressAnswer changed;
        plumb_sampler_draw(&sampler, (uint64_t)i, &drawn, &off);
        plumb_press_solve(&drawn, &setup, &own);
        for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
            const double figure = plumb_press_output_value(&own, (PlumbPressOutput)o);
            assert_true(person[i].sample.output[o] == figure || isnan(figure));
        }
        PlumbSetup held = setup;
        held.lead = PLUMB_LEAD_TOUCH;
        held.touch_m = own.setup.touch_m;
        held.grip_m += 0.05;
        plumb_press_solve(&drawn, &held, &changed);
        assert_near(person[i].by[PLUMB_DIR_grip_travel], own.travel_m - changed.travel_m, 1e-12);
        assert_true(person[i].by[PLUMB_DIR_grip_travel] > 0.0);
        held.grip_m -= 0.05;
        drawn.body.upper_arm_m *= 1.02;
        drawn.body.forearm_m *= 1.02;
        drawn.body.wrist_to_grip_palm_m *= 1.02;
        plumb_press_solve(&drawn, &held, &changed);
        assert_near(person[i].by[PLUMB_DIR_arms_press], changed.travel_m - own.travel_m, 1e-12);
        assert_true(isnan(person[i].by[PLUMB_DIR_thighs_lean]) != 0);
    }
}

/* Longer arms travel more, a deeper chest less: travel = sqrt(arm² - off²) - chest + ...; the
 * hand's distance from the middle is the same for all, so that the lever falls with the shoulders'
 * spacing by half: d = hand - spacing / 2, and spacing = grip x trait. */
static void regress__a_press_by_its_formula(void **state)
{
    enum { COUNT = 3000 };
    (void)state;
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    plumb_setup_set(&setup, PLUMB_SET_touch, 0.08);
    PlumbPerson *const person = people_of(setup, PLUMB_MALE, COUNT);
    const PlumbRegression travel =
        plumb_population_regress(person, COUNT, PLUMB_PRESS_OUT_travel, &setup);
    assert_true(travel.slope[PLUMB_TRAIT_arm_to_stature] > 1.0); /* m for a whole stature of arm */
    assert_true(travel.slope[PLUMB_TRAIT_chest_to_stature] < -1.0);
    assert_true(travel.explained_share > 0.8);
    assert_true(isnan(travel.slope[PLUMB_TRAIT_thigh_to_trunk]) != 0);
    const PlumbRegression lever =
        plumb_population_regress(person, COUNT, PLUMB_PRESS_OUT_front_arm, &setup);
    assert_near(lever.slope[PLUMB_TRAIT_shoulders_to_grip], -0.5 * setup.grip_m,
                3.0 * lever.error[PLUMB_TRAIT_shoulders_to_grip] + 1e-6);
    free(person);
}

/* What every coach says, in both sexes. */
static void sayings__hold_in_almost_all_bodies(void **state)
{
    enum { COUNT = 500 };
    static double scratch[2 * COUNT];
    (void)state;
    for (int lift = 0; lift < PLUMB_LIFT_COUNT; lift++) {
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
        cmocka_unit_test(population_solve__changes_one_thing_of_a_press),
        cmocka_unit_test(regress__a_press_by_its_formula),
        cmocka_unit_test(sayings__hold_in_almost_all_bodies),
        cmocka_unit_test(population_solve__gives_the_same_bytes_in_pieces),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
