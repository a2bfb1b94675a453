/* SPDX-License-Identifier: MIT */
/* Advice against brute force: every change solved apart, the order, what may never move, the spread
 * of a gain against answers of moved bodies; own start. */
#include "support.h"

#include <plumbar/advice.h>
#include <plumbar/start.h>

#include <stdint.h>
#include <string.h>

static uint64_t seed = UINT64_C(0x2545f4914f6cdd1d);

static double uniform(double low, double high)
{
    seed ^= seed >> 12;
    seed ^= seed << 25;
    seed ^= seed >> 27;
    const double u = (double)((seed * UINT64_C(2685821657736338717)) >> 11) * 0x1p-53;
    return low + u * (high - low);
}

static double deg(double angle)
{
    return angle * 3.14159265358979323846 / 180.0;
}

static PlumbLifter random_lifter(void)
{
    PlumbBodySpec spec = plumb_body_spec(uniform(0.0, 1.0) < 0.5 ? PLUMB_MALE : PLUMB_FEMALE,
                                         uniform(1.55, 1.92), uniform(52.0, 110.0));
    spec.measure[PLUMB_LEN_thigh] = (PlumbMeasure){PLUMB_MEASURE_SPREAD, uniform(-1.5, 1.5), 0.0};
    PlumbBody body;
    PlumbError error;
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_OK);
    return plumb_lifter_default(&body);
}

static PlumbSetup random_setup(PlumbLift lift)
{
    PlumbSetup setup = plumb_setup_default(lift);
    setup.load_kg = uniform(50.0, 220.0);
    setup.toes_rad = uniform(deg(8.0), deg(30.0));
    if (lift == PLUMB_SQUAT) {
        plumb_setup_seat(&setup, (PlumbSeat)(int)uniform(0.0, 3.0));
        setup.depth_m = uniform(-0.03, 0.04);
        setup.stance_m = uniform(0.35, 0.6);
        return setup;
    }
    if (uniform(0.0, 1.0) < 0.3) {
        plumb_setup_style(&setup, PLUMB_SUMO);
    }
    setup.bar_over_m = uniform(-0.01, 0.03);
    setup.blocks_m = uniform(0.0, 1.0) < 0.3 ? 0.05 : 0.0;
    if (uniform(0.0, 1.0) < 0.5) {
        setup.lead = PLUMB_LEAD_HIP_HEIGHT;
        setup.hip_height_relative = true;
        setup.hip_height_m = uniform(-0.12, 0.05);
    }
    return setup;
}

/* The changes that a coach asks for, written apart from the program's table. */
typedef struct Ask {
    PlumbSettingId setting;
    double delta;
} Ask;

static const Ask asks[] = {
    {PLUMB_SET_stance, 0.05},     {PLUMB_SET_stance, -0.05},     {PLUMB_SET_grip, 0.05},
    {PLUMB_SET_grip, -0.05},      {PLUMB_SET_bar_over, 0.01},    {PLUMB_SET_bar_over, -0.01},
    {PLUMB_SET_heel_lift, 0.01},  {PLUMB_SET_heel_lift, 0.02},   {PLUMB_SET_heel_lift, -0.01},
    {PLUMB_SET_hip_height, 0.02}, {PLUMB_SET_hip_height, -0.02},
};

static const PlumbOption *option_of(const PlumbOption *option, int count, const Ask *ask)
{
    for (int i = 0; i < count; i++) {
        if (option[i].setting == ask->setting &&
            fabs(option[i].to_si - option[i].from_si - ask->delta) < 1e-9) {
            return &option[i];
        }
    }
    return NULL;
}

static double amount_of(const PlumbGoal *goal, const PlumbAnswer *answer)
{
    const PlumbSolved solved = {.lift = answer->setup.lift, .pose = *answer};
    return plumb_goal_amount(goal, &solved);
}

/* The set-up of an ask, by plain assignment. */
static PlumbSetup brute_setup(const PlumbSetup *setup, const PlumbAnswer *answer, const Ask *ask)
{
    PlumbSetup at = *setup;
    switch ((int)ask->setting) {
    case PLUMB_SET_stance:
        at.stance_m += ask->delta;
        break;
    case PLUMB_SET_grip:
        at.grip_m += ask->delta;
        break;
    case PLUMB_SET_bar_over:
        at.bar_over_m += ask->delta;
        break;
    case PLUMB_SET_heel_lift:
        at.heel_lift_m += ask->delta;
        break;
    default:
        at.lead = PLUMB_LEAD_HIP_HEIGHT;
        at.hip_height_relative = false;
        at.hip_height_m = answer->start.pose.hip_height_m + ask->delta;
        break;
    }
    return at;
}

/* What a person notices of an aim's figure, written apart from the program's: common practice, no
 * source. */
static double notable(const PlumbAdvice *advice)
{
    const PlumbGoal *const goal = &advice->goal;
    switch ((int)plumb_lift_output_quantity(goal->lift, goal->output)) {
    case PLUMB_Q_LENGTH:
        return 0.01;
    case PLUMB_Q_ANGLE:
        return 2.0 * acos(-1.0) / 180.0;
    case PLUMB_Q_MOMENT:
        return fmax(2.0, advice->amount / 40.0);
    default:
        return 0.075 * advice->amount; /* of the aims the sum of cubed efforts alone */
    }
}

static void check_order(const PlumbOption *option, const PlumbAdvice *advice)
{
    for (int i = 1; i < advice->count; i++) {
        const PlumbOption *const a = &option[i - 1];
        const PlumbOption *const b = &option[i];
        assert_true(a->worth || !b->worth);
        if (a->worth == b->worth) {
            assert_true(a->kept || !b->kept);
        }
        if (a->worth == b->worth && a->kept == b->kept && !isnan(b->gain)) {
            assert_true(a->gain >= b->gain);
        }
    }
    int worth = 0;
    for (int i = 0; i < advice->count; i++) {
        worth += option[i].worth;
        if (option[i].worth) {
            assert_true(option[i].kept);
            assert_true(option[i].gain > advice->least_gain);
            assert_true(option[i].gain > 2.0 * option[i].gain_sd);
            assert_true(option[i].gain > notable(advice) * (1.0 - 1e-5));
        }
    }
    assert_int_equal(worth, advice->worth_count);
}

static void plumb_advice_rank__as_brute_force(void **state)
{
    (void)state;
    int checked = 0;
    int best_seen = 0;
    for (int i = 0; i < 150; i++) {
        const PlumbLift lift = i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT;
        const PlumbLifter lifter = random_lifter();
        const PlumbSetup setup = random_setup(lift);
        PlumbAnswer answer;
        PlumbGoal goal;
        plumb_answer_solve(&lifter, &setup, &answer);
        if (answer.outcome == PLUMB_NO_POSE ||
            !plumb_goal_of_aim((PlumbAim)(i % PLUMB_AIM_COUNT), lift, &goal)) {
            continue;
        }
        PlumbOption option[PLUMB_OPTION_MAX];
        PlumbAdvice advice;
        plumb_advice_rank(&lifter, &setup, &goal, PLUMB_METRIC, option, &advice);
        check_order(option, &advice);
        double best = 0.0;
        for (size_t a = 0; a < sizeof asks / sizeof asks[0]; a++) {
            const PlumbOption *const got = option_of(option, advice.count, &asks[a]);
            if (got == NULL) {
                const PlumbSetting *const row = plumb_setting(asks[a].setting);
                const double to = plumb_setup_get(&setup, asks[a].setting) + asks[a].delta;
                assert_true(!row->lifts[lift] || to < row->min_si || to > row->max_si);
                continue;
            }
            const PlumbSetup at = brute_setup(&setup, &answer, &asks[a]);
            PlumbAnswer after;
            plumb_answer_solve(&lifter, &at, &after);
            const double gain = amount_of(&goal, &answer) - amount_of(&goal, &after);
            assert_int_equal(after.outcome, got->outcome);
            if (!isnan(gain)) {
                assert_near(got->gain, gain, 1e-8 * (1.0 + fabs(gain)));
                assert_near(got->price[0], after.travel_m - answer.travel_m, 1e-8);
            }
            best = got->worth ? fmax(best, gain) : best;
            checked++;
        }
        if (best > 0.0) {
            assert_true(option[0].gain >= best - 1e-8 * (1.0 + best));
            best_seen++;
        }
    }
    assert_true(checked > 200);
    assert_true(best_seen > 10);
}

/* The largest change that a lifter is asked for at once, written apart from the program's. */
static double largest(PlumbSettingId id)
{
    return id == PLUMB_SET_stance || id == PLUMB_SET_grip      ? 0.10
           : id == PLUMB_SET_toes || id == PLUMB_SET_knees_out ? deg(10.0)
           : id == PLUMB_SET_back_angle                        ? deg(6.0)
           : id == PLUMB_SET_hip_height                        ? 0.04
                                                               : 0.02;
}

/* Only what advice may move has moved, and no further than in one go: all other bytes of the set-up
 * are as they were. */
static void check_moved(const PlumbSetup *setup, const PlumbOption *option)
{
    PlumbSetup same = option->setup;
    assert_true(plumb_advice_may_move(option->setting));
    assert_true(same.load_kg == setup->load_kg);
    assert_true(same.depth_m == setup->depth_m);
    assert_true(same.blocks_m == setup->blocks_m);
    assert_true(same.deficit_m == setup->deficit_m);
    assert_true(same.spine_rad == setup->spine_rad);
    assert_true(option->setting == PLUMB_SET_bar ||
                fabs(option->to_si - option->from_si) <= largest(option->setting) + 1e-12);
    const size_t offset = plumb_setting(option->setting)->offset;
    if (option->setting == PLUMB_SET_bar) {
        assert_true(same.seat != setup->seat);
        same.seat = setup->seat;
        same.grip_m = setup->grip_m;
    } else {
        memcpy((char *)&same + offset, (const char *)setup + offset, sizeof(double));
    }
    if (option->setting == PLUMB_SET_hip_height || option->setting == PLUMB_SET_back_angle) {
        same.lead = setup->lead;
        same.hip_height_relative = setup->hip_height_relative;
    }
    assert_memory_equal(&same, setup, sizeof same);
}

static void plumb_advice_rank__moves_nothing_else(void **state)
{
    (void)state;
    int options = 0;
    for (int i = 0; i < 80; i++) {
        const PlumbLift lift = i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT;
        const PlumbLifter lifter = random_lifter();
        const PlumbSetup setup = random_setup(lift);
        PlumbAnswer answer;
        plumb_answer_solve(&lifter, &setup, &answer);
        PlumbGoal goal[PLUMB_FINDING_MAX + 1];
        int goals = plumb_goal_of_aim(PLUMB_AIM_less_travel, lift, &goal[0]);
        for (int f = 0; f < answer.finding_count; f++) {
            goal[goals++] = plumb_goal_of_finding(&answer.finding[f], lift);
        }
        for (int g = 0; g < goals; g++) {
            PlumbOption option[PLUMB_OPTION_MAX];
            PlumbAdvice advice;
            const PlumbLifter before = lifter;
            plumb_advice_rank(&lifter, &setup, &goal[g], PLUMB_METRIC, option, &advice);
            assert_memory_equal(&before, &lifter, sizeof lifter);
            for (int o = 0; o < advice.count; o++) {
                check_moved(&setup, &option[o]);
            }
            options += advice.count;
        }
    }
    assert_true(options > 1000);
}

/* Gain of an option on another body: what is asked is the same change. */
static double gain_on(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbGoal *goal,
                      const PlumbOption *option)
{
    PlumbAnswer before;
    PlumbAnswer after;
    PlumbSetup at = option->setup;
    plumb_answer_solve(lifter, setup, &before);
    if (option->setting == PLUMB_SET_back_angle) {
        at.back_angle_rad =
            before.start.angle_rad[PLUMB_ANG_back] + option->to_si - option->from_si;
    }
    plumb_answer_solve(lifter, &at, &after);
    return amount_of(goal, &before) - amount_of(goal, &after);
}

static void plumb_advice_rank__spread_as_moved_bodies(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    PlumbError error;
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbAnswer answer;
    PlumbGoal goal;
    PlumbOption option[PLUMB_OPTION_MAX];
    PlumbAdvice advice;
    plumb_answer_solve(&lifter, &setup, &answer);
    assert_true(plumb_goal_of_aim(PLUMB_AIM_less_back_moment, PLUMB_DEADLIFT, &goal));
    plumb_advice_rank(&lifter, &setup, &goal, PLUMB_METRIC, option, &advice);
    int checked = 0;
    for (int i = 0; i < advice.count; i++) {
        double square = 0.0;
        for (int length = 0; length < PLUMB_LENGTH_COUNT && isfinite(option[i].gain_sd); length++) {
            const PlumbFactor factor = {.kind = PLUMB_FACTOR_LENGTH, .length = (PlumbLength)length};
            const double h = 1e-4;
            double gain[2];
            for (int k = 0; k < 2; k++) {
                PlumbLifter moved = lifter;
                PlumbSetup same = setup;
                plumb_factor_move(&factor, k == 0 ? -h : h, &moved, &same);
                gain[k] = gain_on(&moved, &setup, &goal, &option[i]);
            }
            const double part = (gain[1] - gain[0]) / (2.0 * h) * body.length_sd_m[length];
            square += part * part;
        }
        if (isfinite(option[i].gain_sd)) {
            assert_near(option[i].gain_sd, sqrt(square), 1e-3 * sqrt(square) + 1e-6);
            checked++;
        }
    }
    assert_true(checked >= 3);
}

static void plumb_advice_rank__leaves_what_is_well(void **state)
{
    (void)state;
    const PlumbLifter lifter = random_lifter();
    const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbAnswer answer;
    PlumbGoal goal;
    PlumbOption option[PLUMB_OPTION_MAX];
    PlumbAdvice advice;
    plumb_answer_solve(&lifter, &setup, &answer);
    assert_true(plumb_goal_of_aim(PLUMB_AIM_bar_over_mid_foot, PLUMB_DEADLIFT, &goal));
    plumb_advice_rank(&lifter, &setup, &goal, PLUMB_METRIC, option, &advice);
    assert_true(advice.count > 5);
    assert_int_equal(advice.worth_count, 0);
    assert_false(plumb_goal_of_aim(PLUMB_AIM_level_hips, PLUMB_SQUAT, &goal));
}

static void plumb_finding_settings__only_what_may_move(void **state)
{
    (void)state;
    for (int lift = 0; lift < PLUMB_LIFT_COUNT; lift++) {
        for (int i = 0; i < PLUMB_FINDING_COUNT; i++) {
            PlumbSettingId setting[PLUMB_SETTING_COUNT];
            const int count = plumb_finding_settings((PlumbFindingId)i, (PlumbLift)lift, setting);
            for (int s = 0; s < count; s++) {
                assert_true(plumb_advice_may_move(setting[s]));
                assert_true(plumb_setting(setting[s])->lifts[lift]);
                assert_true(plumb_setting_reason(setting[s], (PlumbLift)lift, i % 2 == 0)[0] !=
                            '\0');
            }
        }
    }
    static const PlumbSettingId never[] = {PLUMB_SET_load,      PLUMB_SET_depth, PLUMB_SET_blocks,
                                           PLUMB_SET_deficit,   PLUMB_SET_spine, PLUMB_SET_balance,
                                           PLUMB_SET_shin_angle};
    for (size_t i = 0; i < sizeof never / sizeof never[0]; i++) {
        assert_false(plumb_advice_may_move(never[i]));
    }
}

/* Low hips: the one change that removes most of the expected rise is higher hips. */
static void plumb_own_start__below_the_window(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    PlumbError error;
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    setup.hip_height_m = 0.52;
    PlumbAnswer answer;
    PlumbOwnStart own;
    plumb_answer_solve(&lifter, &setup, &answer);
    plumb_own_start(&answer, &own);
    assert_int_equal(own.window, PLUMB_PLACE_BELOW);
    assert_near(own.window_off_m, answer.window.low - 0.52, 1e-12);
    assert_near(own.hip_rise_m, own.window_off_m, 1e-12);
    assert_int_equal(own.hip_rise_end, PLUMB_END_shoulder_behind);
    char words[512];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_own_start_text(&text, &own, PLUMB_METRIC);
    assert_non_null(strstr(words, "below the start window"));
    assert_non_null(strstr(words, "Expect the hips to rise"));
    PlumbGoal goal;
    PlumbOption option[PLUMB_OPTION_MAX];
    PlumbAdvice advice;
    assert_true(plumb_goal_of_aim(PLUMB_AIM_level_hips, PLUMB_DEADLIFT, &goal));
    plumb_advice_rank(&lifter, &setup, &goal, PLUMB_METRIC, option, &advice);
    assert_true(advice.worth_count > 0);
    const Ask higher = {PLUMB_SET_hip_height, 0.02};
    const PlumbOption *const hips = option_of(option, advice.count, &higher);
    if (hips == NULL) {
        fail_msg("higher hips are not among the options");
        return;
    }
    assert_true(hips->worth);
    assert_near(hips->gain, 0.02, 1e-9);
    assert_true(hips - option < 3);
}

static void plumb_own_knee__stands_where_it_is_said(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_FEMALE, 1.66, 64.0);
    PlumbBody body;
    PlumbError error;
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbAnswer answer;
    assert_int_equal(plumb_own_knee(&lifter, &setup, "15 deg", &error), PLUMB_OK);
    plumb_answer_solve(&lifter, &setup, &answer);
    assert_near(answer.start.angle_rad[PLUMB_ANG_shin], deg(15.0), 1e-8);
    assert_int_equal(plumb_own_knee(&lifter, &setup, "-4 cm", &error), PLUMB_OK);
    plumb_answer_solve(&lifter, &setup, &answer);
    const double front = answer.start.point[PLUMB_PT_knee].x + body.shin_half_thickness_m;
    assert_near(front - answer.start.point[PLUMB_PT_toe].x, -0.04, 1e-8);
    setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    setup.hip_height_m = 0.56;
    assert_int_equal(plumb_own_knee(&lifter, &setup, "11 deg", &error), PLUMB_OK);
    plumb_answer_solve(&lifter, &setup, &answer);
    assert_near(answer.start.pose.hip_height_m, 0.56, 1e-9);
    assert_near(answer.start.angle_rad[PLUMB_ANG_shin], deg(11.0), 1e-8);
    const PlumbSetup before = setup;
    assert_int_equal(plumb_own_knee(&lifter, &setup, "far", &error), PLUMB_BAD_INPUT);
    assert_int_equal(plumb_own_knee(&lifter, &setup, "60 cm", &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "knee");
    assert_memory_equal(&before, &setup, sizeof setup);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plumb_advice_rank__as_brute_force),
        cmocka_unit_test(plumb_advice_rank__moves_nothing_else),
        cmocka_unit_test(plumb_advice_rank__spread_as_moved_bodies),
        cmocka_unit_test(plumb_advice_rank__leaves_what_is_well),
        cmocka_unit_test(plumb_finding_settings__only_what_may_move),
        cmocka_unit_test(plumb_own_start__below_the_window),
        cmocka_unit_test(plumb_own_knee__stands_where_it_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
