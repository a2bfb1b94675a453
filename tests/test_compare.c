/* SPDX-License-Identifier: MIT */
/* Differences over drawn bodies: against plain answers, one body against two, repeatable bytes. */
#include "support.h"

#include <plumbar/compare.h>
#include <plumbar/press_effects.h>

enum { BODIES = 400 };

typedef struct Case {
    PlumbBodySpec spec;
    PlumbLifter lifter;
    PlumbSetup setup[2];
} Case;

static Case make_case(PlumbLift lift)
{
    Case c = {.spec = plumb_body_spec(PLUMB_FEMALE, 1.68, 66.0)};
    PlumbBody body;
    assert_int_equal(plumb_body_build(&c.spec, &body, NULL), PLUMB_OK);
    c.lifter = plumb_lifter_default(&body);
    c.setup[0] = c.setup[1] = plumb_setup_default(lift);
    return c;
}

static PlumbPair pair_of(const Case *first, const Case *second, uint64_t seed)
{
    const PlumbSide a = {&first->spec, &first->lifter, &first->setup[0]};
    const PlumbSide b = {&second->spec, &second->lifter, &second->setup[1]};
    PlumbPair pair;
    plumb_pair_begin(&a, &b, seed, &pair);
    return pair;
}

static PlumbEstimate spread_of(const PlumbPair *pair, PlumbOutput output)
{
    static double change[BODIES * PLUMB_OUTPUT_COUNT];
    static double scratch[2 * BODIES];
    plumb_pair_solve(pair, true, 0, BODIES, change);
    return plumb_column_estimate(change, BODIES, PLUMB_OUTPUT_COUNT, (int)output, scratch);
}

static void compare__differences_of_answers(void **state)
{
    (void)state;
    Case c = make_case(PLUMB_SQUAT);
    PlumbSolved solved[2];
    const PlumbAnswer *const answer[2] = {&solved[0].pose, &solved[1].pose};
    PlumbDifference d[PLUMB_OUTPUT_COUNT];
    plumb_setup_seat(&c.setup[1], PLUMB_FRONT_BAR);
    plumb_solved_solve(&c.lifter, &c.setup[0], &solved[0]);
    plumb_solved_solve(&c.lifter, &c.setup[1], &solved[1]);
    plumb_compare(&solved[0], &solved[1], d);
    assert_near(d[PLUMB_OUT_travel].change, answer[1]->travel_m - answer[0]->travel_m, 1e-15);
    assert_near(d[PLUMB_OUT_back_angle].first, answer[0]->start.angle_rad[PLUMB_ANG_back], 1e-15);
    assert_int_equal(d[PLUMB_OUT_travel].spread.count, 0);
    assert_true(isnan(d[PLUMB_OUT_travel].spread.sd));
    solved[1].pose.outcome = PLUMB_NO_POSE;
    plumb_compare(&solved[0], &solved[1], d);
    assert_true(isnan(d[PLUMB_OUT_travel].change));
}

/* Each row is one body in both set-ups, whatever the order in which the rows are made. */
static void pair__one_body_in_both_setups(void **state)
{
    enum { FEW = 9 };
    (void)state;
    Case c = make_case(PLUMB_DEADLIFT);
    static double whole[FEW * PLUMB_OUTPUT_COUNT];
    static double pieces[FEW * PLUMB_OUTPUT_COUNT];
    plumb_setup_style(&c.setup[1], PLUMB_SUMO);
    const PlumbPair pair = pair_of(&c, &c, 3);
    plumb_pair_solve(&pair, false, 0, FEW, whole);
    plumb_pair_solve(&pair, false, 4, FEW - 4, pieces + 4 * PLUMB_OUTPUT_COUNT);
    plumb_pair_solve(&pair, false, 0, 4, pieces);
    assert_memory_equal(whole, pieces, sizeof whole);
    for (int i = 0; i < FEW; i++) {
        PlumbAnswer answer[2];
        for (int side = 0; side < 2; side++) {
            PlumbLifter lifter;
            PlumbSetup setup = c.setup[side];
            double off;
            plumb_sampler_draw(&pair.sampler[0], (uint64_t)i, &lifter, &off);
            setup.balance_frac += off;
            plumb_answer_solve(&lifter, &setup, &answer[side]);
        }
        const double *const row = whole + i * PLUMB_OUTPUT_COUNT;
        assert_near(row[PLUMB_OUT_travel], answer[1].travel_m - answer[0].travel_m, 1e-15);
        assert_near(row[PLUMB_OUT_window_low], answer[1].window.low - answer[0].window.low, 1e-15);
    }
}

/* Plates under the feet lengthen everybody's pull by their height: no spread at all. */
static void pair__a_deficit_is_the_same_for_all(void **state)
{
    (void)state;
    Case c = make_case(PLUMB_DEADLIFT);
    c.setup[1].deficit_m = 0.03;
    const PlumbPair pair = pair_of(&c, &c, 1);
    const PlumbEstimate travel = spread_of(&pair, PLUMB_OUT_travel);
    assert_int_equal(travel.count, BODIES);
    assert_near(travel.low, 0.03, 1e-8); /* m; what Newton leaves of both answers */
    assert_near(travel.high, 0.03, 1e-8);
}

/* Two people of whom the same is known err apart: the variances add. An sd of 400 draws is known to
 * 4 %; of the root of a sum of two, three times that is 10 %. */
static void pair__two_bodies_err_apart(void **state)
{
    (void)state;
    Case first = make_case(PLUMB_DEADLIFT);
    Case second = first;
    second.lifter.body.mass_kg += 1e-9; /* another body, of the same lengths */
    plumb_setup_style(&second.setup[1], PLUMB_SUMO);
    first.setup[1] = second.setup[1];
    const PlumbPair one = pair_of(&first, &first, 5);
    const PlumbPair two = pair_of(&first, &second, 5);
    assert_true(plumb_compare_one_body(&first.lifter.body, &first.lifter.body));
    assert_false(plumb_compare_one_body(&first.lifter.body, &second.lifter.body));
    PlumbPair still = one;
    double own[2];
    for (int side = 0; side < 2; side++) {
        /* Against a body of which everything is known, only one side has a spread. */
        still = one;
        for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
            for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
                still.sampler[side].root_m[i][k] = 0.0;
            }
        }
        still.sampler[side].balance_sd_frac = 0.0;
        own[side] = spread_of(&still, PLUMB_OUT_back_angle).sd;
    }
    const double apart = spread_of(&two, PLUMB_OUT_back_angle).sd;
    const double together = spread_of(&one, PLUMB_OUT_back_angle).sd;
    assert_near(apart / hypot(own[0], own[1]), 1.0, 0.10);
    assert_true(together < 0.5 * apart);
}

/* A press: the same change of grip on one body, in pieces and whole. */
static void press_pair__one_body_in_both_setups(void **state)
{
    enum { FEW = 6 };
    (void)state;
    Case c = make_case(PLUMB_BENCH);
    static double whole[FEW * PLUMB_OUTPUT_COUNT];
    static double pieces[FEW * PLUMB_OUTPUT_COUNT];
    c.setup[1].grip_m += 0.10;
    const PlumbPair pair = pair_of(&c, &c, 2);
    plumb_pair_solve(&pair, false, 0, FEW, whole);
    plumb_pair_solve(&pair, false, 2, FEW - 2, pieces + 2 * PLUMB_OUTPUT_COUNT);
    plumb_pair_solve(&pair, false, 0, 2, pieces);
    assert_memory_equal(whole, pieces, sizeof whole);
    for (int i = 0; i < FEW; i++) {
        PlumbPressAnswer answer[2];
        PlumbLifter lifter;
        double off;
        plumb_sampler_draw(&pair.sampler[0], (uint64_t)i, &lifter, &off);
        plumb_press_quick(&lifter, &c.setup[0], &answer[0]);
        plumb_press_quick(&lifter, &c.setup[1], &answer[1]);
        const double *const row = whole + i * PLUMB_OUTPUT_COUNT;
        assert_near(row[PLUMB_PRESS_OUT_travel],
                    plumb_press_output_value(&answer[1], PLUMB_PRESS_OUT_travel) -
                        plumb_press_output_value(&answer[0], PLUMB_PRESS_OUT_travel),
                    1e-15);
        assert_true(row[PLUMB_PRESS_OUT_travel] < 0.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(compare__differences_of_answers),
        cmocka_unit_test(pair__one_body_in_both_setups),
        cmocka_unit_test(pair__a_deficit_is_the_same_for_all),
        cmocka_unit_test(pair__two_bodies_err_apart),
        cmocka_unit_test(press_pair__one_body_in_both_setups),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
