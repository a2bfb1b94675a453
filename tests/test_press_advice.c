/* SPDX-License-Identifier: MIT */
/* Advice on a bench press against every change solved apart; what may move; the abduction that
 * keeps the forearm upright; the spread of a gain against moved bodies. */
#include "press_sample.h"
#include "support.h"

#include <plumbar/hold.h>

#include <string.h>

enum { LINE = 512 };

static const double DEG = 3.14159265358979323846 / 180.0;

typedef struct Ranked {
    PlumbGoal goal;
    PlumbAdvice advice;
    PlumbOption option[PLUMB_OPTION_MAX];
} Ranked;

static void rank(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbGoal *goal,
                 Ranked *ranked)
{
    ranked->goal = *goal;
    plumb_advice_rank(lifter, setup, goal, PLUMB_METRIC, ranked->option, &ranked->advice);
}

/* The changes that a coach asks for, written apart from the program's table: the setting and by how
 * much; 0 for one that goes to a place of its own. */
typedef struct Ask {
    PlumbSettingId setting;
    double delta;
} Ask;

static const Ask asks[] = {
    {PLUMB_SET_grip, 0.05},
    {PLUMB_SET_grip, -0.05},
    {PLUMB_SET_touch, 0.02},
    {PLUMB_SET_touch, -0.02},
    {PLUMB_SET_arch, 0.02},
    {PLUMB_SET_arch, -0.02},
    {PLUMB_SET_elbows, 10.0 * 3.14159265358979323846 / 180.0},
    {PLUMB_SET_elbows, -10.0 * 3.14159265358979323846 / 180.0},
};

static const PlumbOption *option_of(const Ranked *ranked, const Ask *ask)
{
    for (int i = 0; i < ranked->advice.count; i++) {
        const PlumbOption *const o = &ranked->option[i];
        if (o->setting == ask->setting && fabs(o->to_si - o->from_si - ask->delta) < 1e-9) {
            return o;
        }
    }
    return NULL;
}

/* The set-up of an ask, by plain assignment. */
static PlumbSetup brute_setup(const PlumbSetup *setup, const PlumbPressAnswer *answer,
                              const Ask *ask)
{
    PlumbSetup at = *setup;
    if (ask->setting == PLUMB_SET_grip) {
        at.grip_m += ask->delta;
    } else if (ask->setting == PLUMB_SET_arch) {
        at.arch_m += ask->delta;
    } else if (ask->setting == PLUMB_SET_touch) {
        at.lead = PLUMB_LEAD_TOUCH;
        at.touch_m = answer->setup.touch_m + ask->delta;
    } else {
        const double own = answer->touch.angle_rad[PLUMB_PRESS_ANG_abduction];
        at.elbows_rad = (setup->elbows_given ? setup->elbows_rad : own) + ask->delta;
        at.elbows_given = true;
    }
    return at;
}

static double travel(const PlumbPressAnswer *a)
{
    return a->travel_m;
}

static double effort(const PlumbPressAnswer *a)
{
    return a->touch.summed_effort;
}

static double adduction(const PlumbPressAnswer *a)
{
    return fabs(a->touch.moment_n_m[PLUMB_PRESS_JOINT_shoulder_adduction]);
}

static double flexion(const PlumbPressAnswer *a)
{
    return fabs(a->touch.moment_n_m[PLUMB_PRESS_JOINT_shoulder_flexion]);
}

static double elbow(const PlumbPressAnswer *a)
{
    return fabs(a->touch.moment_n_m[PLUMB_PRESS_JOINT_elbow_extension]);
}

static double forearm(const PlumbPressAnswer *a)
{
    return fabs(a->touch.angle_rad[PLUMB_PRESS_ANG_forearm_front]);
}

static double upper_arm(const PlumbPressAnswer *a)
{
    return a->touch.angle_rad[PLUMB_PRESS_ANG_abduction];
}

static const struct {
    PlumbAim aim;
    double (*amount)(const PlumbPressAnswer *);
} aims[] = {
    {PLUMB_AIM_less_travel, travel},
    {PLUMB_AIM_lower_effort, effort},
    {PLUMB_AIM_less_shoulder_adduction, adduction},
    {PLUMB_AIM_less_shoulder_flexion, flexion},
    {PLUMB_AIM_less_elbow_moment, elbow},
    {PLUMB_AIM_upright_forearms, forearm},
    {PLUMB_AIM_elbows_in, upper_arm},
};
enum { AIMS = sizeof aims / sizeof aims[0], ASKS = sizeof asks / sizeof asks[0] };

static void check_order(const Ranked *ranked)
{
    int worth = 0;
    for (int i = 0; i < ranked->advice.count; i++) {
        const PlumbOption *const o = &ranked->option[i];
        worth += o->worth;
        assert_false(o->worth && !(o->kept && o->gain > ranked->advice.least_gain &&
                                   o->gain > 2.0 * o->gain_sd));
        if (i > 0) {
            const PlumbOption *const before = &ranked->option[i - 1];
            assert_true(before->worth || !o->worth);
            assert_false(before->worth == o->worth && before->kept == o->kept &&
                         o->gain > before->gain);
        }
    }
    assert_int_equal(worth, ranked->advice.worth_count);
}

static void press_advice__as_brute_force(void **state)
{
    (void)state;
    int checked = 0;
    for (int i = 0; i < 70; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer found;
        PlumbPressPosition at;
        press_case(i, &lifter, &found, &at);
        PlumbSetup setup = found.setup;
        setup.lead = i % 3 == 0 ? PLUMB_LEAD_AUTO : PLUMB_LEAD_TOUCH;
        PlumbPressAnswer before;
        PlumbGoal goal;
        Ranked ranked;
        plumb_press_solve(&lifter, &setup, &before);
        assert_true(plumb_goal_of_aim(aims[i % AIMS].aim, PLUMB_BENCH, &goal));
        rank(&lifter, &setup, &goal, &ranked);
        check_order(&ranked);
        for (int k = 0; k < ASKS; k++) {
            const PlumbOption *const got = option_of(&ranked, &asks[k]);
            PlumbSetup moved = brute_setup(&setup, &before, &asks[k]);
            PlumbError error;
            if (got == NULL) { /* only where the change would leave its range */
                assert_int_equal(plumb_setup_check(&moved, &error), PLUMB_BAD_INPUT);
                continue;
            }
            PlumbPressAnswer after;
            plumb_press_solve(&lifter, &moved, &after);
            assert_int_equal(after.outcome, got->outcome);
            if (after.outcome != PLUMB_NO_POSE) {
                const double gain = aims[i % AIMS].amount(&before) - aims[i % AIMS].amount(&after);
                assert_near(got->gain, gain, 1e-9 * (1.0 + fabs(gain)));
                assert_near(got->price[0], after.travel_m - before.travel_m, 1e-12);
                checked++;
            }
        }
    }
    assert_true(checked > 300);
}

/* Only grip, touch, arch and elbows move, and of them one; the rest stays to the byte. */
static void press_advice__moves_nothing_else(void **state)
{
    (void)state;
    int options = 0;
    for (int i = 0; i < 40; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer answer;
        PlumbPressPosition at;
        press_case(1000 + i, &lifter, &answer, &at);
        const PlumbSetup setup = answer.setup;
        PlumbGoal goal[PLUMB_FINDING_MAX + 1];
        int goals = plumb_goal_of_aim(PLUMB_AIM_lower_effort, PLUMB_BENCH, &goal[0]);
        for (int f = 0; f < answer.finding_count; f++) {
            goal[goals++] = plumb_goal_of_finding(&answer.finding[f], PLUMB_BENCH);
        }
        for (int g = 0; g < goals; g++) {
            Ranked ranked;
            rank(&lifter, &setup, &goal[g], &ranked);
            assert_true(ranked.advice.amount > 0.0);
            for (int o = 0; o < ranked.advice.count; o++) {
                const PlumbSettingId id = ranked.option[o].setting;
                PlumbSetup same = ranked.option[o].setup;
                assert_true(id == PLUMB_SET_grip || id == PLUMB_SET_touch || id == PLUMB_SET_arch ||
                            id == PLUMB_SET_elbows);
                same.lead = setup.lead;
                same.elbows_given = setup.elbows_given;
                same.grip_by_build = setup.grip_by_build;
                memcpy((char *)&same + plumb_setting(id)->offset,
                       (const char *)&setup + plumb_setting(id)->offset, sizeof(double));
                assert_memory_equal(&same, &setup, sizeof same);
                assert_true(plumb_option_reason(&ranked.option[o], &goal[g])[0] != '\0');
                options++;
            }
        }
    }
    assert_true(options > 400);
}

static PlumbLifter average(void)
{
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    PlumbError error;
    assert_int_equal(plumb_body_build(&spec, &body, &error), PLUMB_OK);
    return plumb_lifter_default(&body);
}

/* The largest changes that a lifter is asked for at once, written apart from the program's. */
static double largest(PlumbSettingId id)
{
    return id == PLUMB_SET_grip ? 0.10 : id == PLUMB_SET_elbows ? 15.0 * DEG : 0.04;
}

/* What a first step says of itself: a whole largest change toward a place beyond it, and no two
 * alike. */
static void check_first_step(const Ranked *ranked, int index)
{
    const PlumbOption *const o = &ranked->option[index];
    const double size = o->to_si - o->from_si;
    char line[LINE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_option_text(&text, o, PLUMB_METRIC);
    assert_true((strstr(line, ", a first step toward ") != NULL) == o->first_step);
    if (!o->first_step) {
        return;
    }
    assert_near(fabs(size), largest(o->setting), 1e-12);
    assert_true((o->place_si - o->from_si) * size > size * size);
    assert_near(plumb_setup_get(&o->setup, o->setting), o->to_si, 1e-12);
    for (int i = 0; i < index; i++) {
        assert_false(ranked->option[i].first_step && ranked->option[i].setting == o->setting &&
                     ranked->option[i].to_si == o->to_si);
    }
}

/* Whatever the body, the grip and the elbows, no option asks for more than is done in one go; what
 * is shown to a tenth of a degree or millimetre may hide half of that. */
static void press_advice__asks_no_more_than_one_go(void **state)
{
    (void)state;
    int steps[2] = {0, 0};
    int whole = 0;
    for (int i = 0; i < 120; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer answer;
        PlumbPressPosition at;
        press_case(3000 + i, &lifter, &answer, &at);
        PlumbSetup setup = answer.setup;
        setup.grip_m = i % 4 == 0 ? 0.82 + 0.003 * i : setup.grip_m;
        if (i % 3 == 0) {
            plumb_setup_set(&setup, PLUMB_SET_elbows, (22.0 + i % 67) * DEG);
        }
        PlumbGoal goal;
        Ranked ranked;
        assert_true(plumb_goal_of_aim(aims[i % AIMS].aim, PLUMB_BENCH, &goal));
        rank(&lifter, &setup, &goal, &ranked);
        for (int o = 0; o < ranked.advice.count; o++) {
            const PlumbOption *const option = &ranked.option[o];
            const double slack = option->setting == PLUMB_SET_elbows ? 0.05 * DEG : 0.0005;
            assert_true(fabs(option->to_si - option->from_si) <=
                        largest(option->setting) + slack + 1e-12);
            check_first_step(&ranked, o);
            steps[option->setting == PLUMB_SET_grip] += option->first_step;
            whole += !option->first_step;
        }
    }
    assert_true(steps[0] > 20 && steps[1] > 10 && whole > 400);
}

/* A close grip with the elbows under the bar: they flare far outside the hands, which is said. The
 * abduction that keeps the forearm upright is further than one change: a first step leads there,
 * judged by what it gains itself; from near by the place is the option. */
static void press_advice__offers_the_upright_forearm(void **state)
{
    (void)state;
    const PlumbLifter lifter = average();
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    plumb_setup_set(&setup, PLUMB_SET_touch, 0.10);
    setup.grip_m = 0.35;
    PlumbSolved solved;
    plumb_solved_solve(&lifter, &setup, &solved);
    const PlumbFinding *const flare =
        plumb_solved_finding(&solved, PLUMB_FIND_elbows_flare_outside);
    if (flare == NULL) {
        fail_msg("the flare is not said");
        return;
    }
    assert_true(flare->value < -20.0 * DEG);
    const PlumbGoal goal = plumb_goal_of_finding(flare, PLUMB_BENCH);
    Ranked ranked;
    rank(&lifter, &setup, &goal, &ranked);
    const PlumbOption *const best = &ranked.option[0];
    PlumbPressAnswer after;
    assert_true(best->worth && best->first_step);
    assert_int_equal(best->setting, PLUMB_SET_elbows);
    assert_near(best->place_si, solved.press.elbows_upright_rad, 1e-12);
    plumb_press_solve(&lifter, &best->setup, &after);
    assert_near(best->gain,
                forearm(&solved.press) - fabs(after.touch.angle_rad[PLUMB_PRESS_ANG_forearm_front]),
                1e-9);
    plumb_setup_set(&setup, PLUMB_SET_elbows, solved.press.elbows_upright_rad + 13.0 * DEG);
    rank(&lifter, &setup, &goal, &ranked);
    assert_true(best->worth && !best->first_step);
    assert_near(best->to_si, solved.press.elbows_upright_rad, 1e-9);
    plumb_press_solve(&lifter, &best->setup, &after);
    assert_near(after.touch.angle_rad[PLUMB_PRESS_ANG_forearm_front], 0.0, 1e-9);
    char line[LINE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_option_text(&text, best, PLUMB_METRIC);
    assert_non_null(strstr(line, "forearm stays upright"));
}

/* Beyond the rule the one change that removes the finding is the rule's own width; it goes first,
 * and where it is too far a first step toward it. */
static void press_advice__grip_to_the_rule(void **state)
{
    (void)state;
    const PlumbLifter lifter = average();
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.grip_m = 0.90;
    PlumbSolved solved;
    plumb_solved_solve(&lifter, &setup, &solved);
    const PlumbFinding *const over = plumb_solved_finding(&solved, PLUMB_FIND_grip_over_rule);
    if (over == NULL) {
        fail_msg("a grip of 90 cm is not found");
        return;
    }
    const PlumbGoal goal = plumb_goal_of_finding(over, PLUMB_BENCH);
    Ranked ranked;
    rank(&lifter, &setup, &goal, &ranked);
    assert_true(ranked.advice.worth_count > 0);
    assert_near(ranked.option[0].setup.grip_m, 0.81, 1e-12);
    assert_near(ranked.option[0].gain, 0.09, 1e-12);
    setup.grip_m = 0.95;
    rank(&lifter, &setup, &goal, &ranked);
    assert_true(ranked.option[0].worth && ranked.option[0].first_step);
    assert_near(ranked.option[0].setup.grip_m, 0.85, 1e-12);
    assert_near(ranked.option[0].gain, 0.10, 1e-12);
}

/* At the rule's grip with a set touch nothing shortens the forearm's lean of nothing. */
static void press_advice__leaves_what_is_well(void **state)
{
    (void)state;
    const PlumbLifter lifter = average();
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    plumb_setup_set(&setup, PLUMB_SET_touch, 0.10);
    PlumbPressAnswer answer;
    plumb_press_solve(&lifter, &setup, &answer);
    plumb_setup_set(&setup, PLUMB_SET_elbows, answer.elbows_upright_rad);
    PlumbGoal goal;
    Ranked ranked;
    assert_true(plumb_goal_of_aim(PLUMB_AIM_upright_forearms, PLUMB_BENCH, &goal));
    rank(&lifter, &setup, &goal, &ranked);
    assert_true(ranked.advice.count > 5);
    assert_int_equal(ranked.advice.worth_count, 0);
    assert_false(plumb_goal_of_aim(PLUMB_AIM_knees_back, PLUMB_BENCH, &goal));
    assert_false(plumb_goal_of_aim(PLUMB_AIM_elbows_in, PLUMB_SQUAT, &goal));
}

/* The spread of a gain is that of moved bodies; an option counted from the lifter's own pose is
 * counted from the moved body's. */
static void press_advice__spread_as_moved_bodies(void **state)
{
    (void)state;
    const PlumbLifter lifter = average();
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    plumb_setup_set(&setup, PLUMB_SET_touch, 0.08);
    setup.grip_m = 0.5;
    PlumbGoal goal;
    Ranked ranked;
    assert_true(plumb_goal_of_aim(PLUMB_AIM_less_elbow_moment, PLUMB_BENCH, &goal));
    rank(&lifter, &setup, &goal, &ranked);
    int checked = 0;
    for (int i = 0; i < ranked.advice.count; i++) {
        const PlumbOption *const o = &ranked.option[i];
        double square = 0.0;
        for (int length = 0; length < PLUMB_LENGTH_COUNT && isfinite(o->gain_sd); length++) {
            const PlumbFactor factor = {.kind = PLUMB_FACTOR_LENGTH, .length = (PlumbLength)length};
            const double h = 1e-4;
            double gain[2];
            for (int k = 0; k < 2; k++) {
                PlumbLifter moved = lifter;
                PlumbSetup same = setup;
                PlumbSolved own;
                PlumbSolved after;
                plumb_factor_move(&factor, k == 0 ? -h : h, &moved, &same);
                plumb_solved_solve(&moved, &setup, &own);
                const PlumbSetup on = plumb_option_on(o, &setup, &own);
                plumb_solved_solve(&moved, &on, &after);
                gain[k] = plumb_goal_amount(&goal, &own) - plumb_goal_amount(&goal, &after);
            }
            const double part = (gain[1] - gain[0]) / (2.0 * h) * lifter.body.length_sd_m[length];
            square += part * part;
        }
        if (isfinite(o->gain_sd)) {
            assert_near(o->gain_sd, sqrt(square), 1e-3 * sqrt(square) + 1e-6);
            checked++;
        }
    }
    assert_true(checked >= 3);
}

/* Over drawn bodies an option gains what plain answers gain, in any order of the draws. */
static void press_advice__holds_over_bodies(void **state)
{
    enum { BODIES = 8 };
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    const PlumbLifter lifter = average();
    const PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    PlumbBodies bodies;
    PlumbSampler sampler;
    PlumbGoal goal;
    Ranked ranked;
    double gain[BODIES * (1 + PLUMB_OPTION_MAX)];
    double last[1 + PLUMB_OPTION_MAX];
    plumb_bodies_around(&spec, &lifter.body, &bodies);
    plumb_sampler_begin(&lifter, &bodies, 3, &sampler);
    assert_true(plumb_goal_of_aim(PLUMB_AIM_less_elbow_moment, PLUMB_BENCH, &goal));
    rank(&lifter, &setup, &goal, &ranked);
    const int options = ranked.advice.worth_count;
    assert_true(options >= 2);
    plumb_hold_solve(&sampler, &setup, &goal, ranked.option, options, 0, BODIES, gain);
    plumb_hold_solve(&sampler, &setup, &goal, ranked.option, options, BODIES - 1, 1, last);
    const int row = 1 + options;
    int grip = 0;
    while (ranked.option[grip].setting != PLUMB_SET_grip) {
        grip++;
        assert_true(grip < options);
    }
    assert_memory_equal(last, gain + (BODIES - 1) * row, (size_t)row * sizeof *last);
    for (int i = 0; i < BODIES; i++) {
        PlumbLifter body;
        double off;
        PlumbPressAnswer own;
        PlumbPressAnswer after;
        plumb_sampler_draw(&sampler, (uint64_t)i, &body, &off);
        plumb_press_solve(&body, &setup, &own);
        PlumbSetup at = ranked.option[grip].setup;
        plumb_press_solve(&body, &at, &after);
        assert_near(gain[i * row + 1 + grip], elbow(&own) - elbow(&after), 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(press_advice__as_brute_force),
        cmocka_unit_test(press_advice__moves_nothing_else),
        cmocka_unit_test(press_advice__asks_no_more_than_one_go),
        cmocka_unit_test(press_advice__offers_the_upright_forearm),
        cmocka_unit_test(press_advice__grip_to_the_rule),
        cmocka_unit_test(press_advice__leaves_what_is_well),
        cmocka_unit_test(press_advice__spread_as_moved_bodies),
        cmocka_unit_test(press_advice__holds_over_bodies),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
