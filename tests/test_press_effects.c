/* SPDX-License-Identifier: MIT */
/* What moves what in a press: slopes that can be written down. */
#include "support.h"

#include "press_sample.h"

#include <plumbar/interval.h>

#include <string.h>

static PlumbFactor factor[PLUMB_FACTOR_MAX];
static PlumbEffectRow row[PLUMB_FACTOR_MAX];

static int at(int count, const char *name)
{
    for (int i = 0; i < count; i++) {
        if (strcmp(plumb_factor_name(&factor[i]), name) == 0) {
            return i;
        }
    }
    fail_msg("no factor %s", name);
    return -1;
}

static int solve_all(const PlumbLifter *lifter, const PlumbSetup *setup)
{
    const int count = plumb_factors(setup, factor);
    assert_true(plumb_press_effects_solve(lifter, setup, factor, count, row));
    return count;
}

/* Travel = sqrt(arm² - over² - off²) - (chest + arch + shaft/2 - half depth), off = grip/2 + finger
 * - spacing/2; the front arm is off; the front moment grows with it by the bar's half weight. */
static void slopes__by_formula(void **state)
{
    (void)state;
    Random random = random_begin(0xef5u);
    int cases = 0;
    while (cases < 100) {
        const PlumbLifter lifter = random_lifter(&random);
        PlumbSetup setup = random_press(&random, &lifter);
        setup.lead = PLUMB_LEAD_TOUCH;
        PlumbPressAnswer a;
        plumb_press_solve(&lifter, &setup, &a);
        if (a.outcome != PLUMB_HELD) {
            continue;
        }
        cases++;
        const int count = solve_all(&lifter, &setup);
        const PlumbBody *b = &lifter.body;
        const double arm = b->upper_arm_m + b->forearm_m + b->wrist_to_grip_palm_m;
        const double off =
            0.5 * setup.grip_m + b->forefinger_to_grip_centre_m - 0.5 * b->shoulder_joint_spacing_m;
        const double up = sqrt(arm * arm - off * off - setup.lockout_over_m * setup.lockout_over_m);
        const int travel = PLUMB_PRESS_OUT_travel;
        assert_near(row[at(count, "grip")].of[travel].up, -0.5 * off / up, 1e-6);
        assert_near(row[at(count, "grip")].of[travel].down, -0.5 * off / up, 1e-6);
        assert_near(row[at(count, "forearm")].of[travel].up, arm / up, 1e-6);
        assert_near(row[at(count, "lockout_over")].of[travel].up, -setup.lockout_over_m / up, 1e-6);
        assert_near(row[at(count, "arch")].of[travel].up, -1.0, 1e-8);
        assert_near(row[at(count, "chest_depth")].of[travel].up, -1.0, 1e-8);
        assert_near(row[at(count, "shoulder_half_depth")].of[travel].up, 1.0, 1e-8);
        assert_near(row[at(count, "load")].of[travel].up, 0.0, 1e-8);
        assert_near(row[at(count, "grip")].of[PLUMB_PRESS_OUT_front_arm].up, 0.5, 1e-8);
        assert_near(row[at(count, "touch")].of[PLUMB_PRESS_OUT_side_arm].up, 1.0, 1e-8);
        const double half_n = 0.5 * PLUMB_GRAVITY;
        const double lever = off - setup.hands_push_frac * (a.touch.point[PLUMB_PRESS_grip].y -
                                                            a.touch.point[PLUMB_PRESS_shoulder].y);
        assert_near(row[at(count, "load")].of[PLUMB_PRESS_OUT_adduction_moment].up, half_n * lever,
                    1e-6);
        assert_near(row[at(count, "elbow_half_thickness")].of[PLUMB_PRESS_OUT_elbow_below_rule].up,
                    1.0, 1e-8);
    }
}

static void factors__are_what_moves_a_press(void **state)
{
    (void)state;
    Random random = random_begin(0x77u);
    const PlumbLifter lifter = random_lifter(&random);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    int count = plumb_factors(&setup, factor);
    for (int i = 0; i < count; i++) {
        assert_string_not_equal(plumb_factor_name(&factor[i]), "touch"); /* auto leads */
        assert_string_not_equal(plumb_factor_name(&factor[i]), "elbows");
        assert_string_not_equal(plumb_factor_name(&factor[i]), "thigh");
        assert_true(factor[i].step_si > 0.0);
    }
    assert_true(at(count, "mass") == count - 1);
    setup.lead = PLUMB_LEAD_TOUCH;
    setup.touch_m = 0.10;
    setup.elbows_given = true;
    setup.elbows_rad = 1.0;
    count = solve_all(&lifter, &setup);
    assert_near(row[at(count, "elbows")].of[PLUMB_PRESS_OUT_upper_arm].up, 1.0, 1e-6);
    int order[PLUMB_FACTOR_MAX];
    plumb_effects_sort(factor, row, count, PLUMB_PRESS_OUT_upper_arm, order);
    assert_int_equal(order[0], at(count, "elbows"));
    int output;
    assert_true(plumb_lift_output_find(PLUMB_BENCH, "elbow_moment", &output));
    assert_int_equal(output, PLUMB_PRESS_OUT_elbow_moment);
    assert_false(plumb_lift_output_find(PLUMB_BENCH, "hip_arm", &output));
}

static void effects__refuse_without_a_press(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_FEMALE, 1.25, 40.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.grip_m = 1.20;
    const int count = plumb_factors(&setup, factor);
    assert_false(plumb_press_effects_solve(&lifter, &setup, factor, count, row));
}

/* Only the chest's depth is unknown: travel errs as it does, with the other sign. */
static void intervals__of_one_unknown_length(void **state)
{
    (void)state;
    enum { COUNT = 4000 };
    static PlumbSample sample[COUNT];
    static PlumbSample part[COUNT];
    static double scratch[2 * COUNT];
    const double sd = 0.015;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.lead = PLUMB_LEAD_TOUCH;
    setup.touch_m = 0.10;
    PlumbBodies bodies;
    memset(&bodies, 0, sizeof bodies);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        bodies.mean_m[i] = body.length_m[i];
    }
    bodies.cov_m2[PLUMB_LEN_chest_depth][PLUMB_LEN_chest_depth] = sd * sd;
    PlumbSampler sampler;
    plumb_sampler_begin(&lifter, &bodies, 7, &sampler);
    plumb_samples_solve(&sampler, &setup, false, 0, COUNT, sample);
    plumb_samples_solve(&sampler, &setup, false, 1000, 100, part);
    assert_memory_equal(part, sample + 1000, 100 * sizeof *part);
    PlumbIntervals intervals;
    plumb_intervals(sample, COUNT, scratch, &intervals);
    PlumbPressAnswer answer;
    plumb_press_solve(&lifter, &setup, &answer);
    const PlumbEstimate *travel = &intervals.of[PLUMB_PRESS_OUT_travel];
    /* Four standard errors of a mean and of a standard deviation from so many draws. */
    assert_near(travel->mean, answer.travel_m, 4.0 * sd / sqrt(COUNT));
    assert_near(travel->sd, sd, 4.0 * sd / sqrt(2.0 * COUNT));
    assert_near(intervals.of[PLUMB_PRESS_OUT_front_arm].sd, 0.0, 1e-12);
    assert_near(intervals.held_share + intervals.outside_share + intervals.no_pose_share, 1.0,
                1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slopes__by_formula),
        cmocka_unit_test(factors__are_what_moves_a_press),
        cmocka_unit_test(effects__refuse_without_a_press),
        cmocka_unit_test(intervals__of_one_unknown_length),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
