/* SPDX-License-Identifier: MIT */
/* How often advice holds: shares from gains made by hand, and gains against plain answers. */
#include "support.h"

#include <plumbar/hold.h>

static void hold_sum__counts_gains_and_the_best(void **state)
{
    enum { BODIES = 5, OPTIONS = 3 };
    const double none = (double)NAN;
    /* Rows are bodies: whether there is something to gain, then the gains. Least gain 1: the first
     * gains in three bodies and is best in two; the second gains in two and is best in one; the
     * third never. The fourth body has nothing to gain, so that only a loss there counts. */
    const double gain[BODIES * (1 + OPTIONS)] = {
        1.0, 3.0, 2.0, 0.5, 1.0, 4.0,  none, 0.9,  1.0,  1.5,
        2.5, 1.0, 0.0, 0.0, 0.0, -0.4, 1.0,  -1.0, -2.0, -3.0,
    };
    double scratch[2 * BODIES];
    PlumbHold hold[OPTIONS];
    (void)state;
    plumb_hold_sum(gain, BODIES, OPTIONS, 1.0, scratch, hold);
    assert_near(hold[0].gains_share, 0.6, 1e-15);
    assert_near(hold[0].best_share, 0.4, 1e-15);
    assert_near(hold[0].better_share, 0.75, 1e-15);
    assert_near(hold[1].gains_share, 0.4, 1e-15);
    assert_near(hold[1].best_share, 0.2, 1e-15);
    assert_near(hold[1].better_share, 0.5, 1e-15); /* a pose that is lost is no gain */
    assert_near(hold[2].gains_share, 0.0, 1e-15);
    assert_near(hold[2].best_share, 0.0, 1e-15);
    assert_near(hold[2].better_share, 0.6, 1e-15);
    assert_int_equal(hold[1].gain.count, 3);
    assert_near(hold[0].gain.mean, (3.0 + 4.0 + 1.5 - 1.0) / 4.0, 1e-15);
}

/* What gains in fewer bodies than 97.5 % goes behind what gains in as many, whatever its size. */
static void advice_settle__puts_what_is_sure_first(void **state)
{
    enum { OPTIONS = 4 };
    static const double gains[OPTIONS] = {4.0, 3.0, 2.0, 0.5};
    static const double shares[OPTIONS] = {0.96, 0.975, 1.0, 1.0};
    PlumbOption option[OPTIONS] = {{.kept = true}};
    PlumbHold hold[OPTIONS];
    PlumbAdvice advice = {.count = OPTIONS, .least_gain = 1.0, .worth_count = 1};
    (void)state;
    for (int i = 0; i < OPTIONS; i++) {
        option[i] = (PlumbOption){.kept = true, .gain = gains[i], .worth = i == 0};
        hold[i] = (PlumbHold){.better_share = shares[i], .gain = {.sd = 0.1 * (i + 1)}};
    }
    const int candidates = plumb_advice_candidates(option, &advice);
    assert_int_equal(candidates, 3); /* the last gains less than can be seen */
    plumb_advice_settle(hold, candidates, option, &advice);
    assert_int_equal(advice.worth_count, 2);
    assert_near(option[0].gain, 3.0, 0.0);
    assert_near(option[1].gain, 2.0, 0.0);
    assert_near(option[2].gain, 4.0, 0.0);
    assert_false(option[2].worth);
    assert_near(option[2].gain_sd, 0.1, 1e-15);
    assert_near(hold[2].better_share, 0.96, 1e-15);
    assert_near(option[3].gain, 0.5, 0.0);
    advice.least_worth = 2.5; /* between the two that are sure */
    hold[2].better_share = 1.0;
    plumb_advice_settle(hold, candidates, option, &advice);
    assert_int_equal(advice.worth_count, 2);
    assert_near(option[0].gain, 4.0, 0.0);
    assert_near(option[1].gain, 3.0, 0.0);
    assert_false(option[2].worth);
    hold[0].better_share = hold[1].better_share = (double)NAN;
    plumb_advice_settle(hold, candidates, option, &advice);
    assert_int_equal(advice.worth_count, 0); /* leave it */
}

typedef struct Case {
    PlumbSampler sampler;
    PlumbSetup setup;
    PlumbAdvice advice;
    PlumbOption option[PLUMB_OPTION_MAX];
} Case;

static void make_case(Case *c)
{
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    PlumbBodies bodies;
    PlumbAnswer answer;
    PlumbGoal goal;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    c->setup = plumb_setup_default(PLUMB_DEADLIFT);
    plumb_answer_solve(&lifter, &c->setup, &answer);
    assert_true(plumb_goal_of_aim(PLUMB_AIM_less_travel, PLUMB_DEADLIFT, &goal));
    plumb_advice_rank(&lifter, &c->setup, &goal, PLUMB_METRIC, c->option, &c->advice);
    assert_true(plumb_advice_candidates(c->option, &c->advice) >= 2);
    plumb_bodies_around(&spec, &body, &bodies);
    plumb_sampler_begin(&lifter, &bodies, 3, &c->sampler);
}

static void hold_solve__gains_what_plain_answers_gain(void **state)
{
    enum { BODIES = 8 };
    static Case c;
    double gain[BODIES * (1 + PLUMB_OPTION_MAX)];
    double piece[BODIES * (1 + PLUMB_OPTION_MAX)];
    (void)state;
    make_case(&c);
    const int options = plumb_advice_candidates(c.option, &c.advice);
    plumb_hold_solve(&c.sampler, &c.setup, &c.advice.goal, c.option, options, 0, BODIES, gain);
    plumb_hold_solve(&c.sampler, &c.setup, &c.advice.goal, c.option, options, 5, BODIES - 5,
                     piece + 5 * (1 + options));
    plumb_hold_solve(&c.sampler, &c.setup, &c.advice.goal, c.option, options, 0, 5, piece);
    assert_memory_equal(gain, piece, (size_t)(BODIES * (1 + options)) * sizeof *gain);
    for (int i = 0; i < BODIES; i++) {
        PlumbLifter lifter;
        PlumbAnswer before;
        double off;
        PlumbSetup base = c.setup;
        plumb_sampler_draw(&c.sampler, (uint64_t)i, &lifter, &off);
        base.balance_frac += off;
        plumb_answer_solve(&lifter, &base, &before);
        for (int k = 0; k < options; k++) {
            PlumbAnswer after;
            PlumbSetup changed = c.option[k].setup;
            changed.balance_frac += off;
            plumb_answer_solve(&lifter, &changed, &after);
            assert_near(gain[i * (1 + options) + 1 + k], before.travel_m - after.travel_m, 1e-12);
        }
    }
}

/* A narrower grip shortens the travel of everybody: the arms hang straighter. */
static void hold_solve__narrow_grip_holds_in_all_bodies(void **state)
{
    enum { BODIES = 100 };
    static Case c;
    static double gain[BODIES * (1 + PLUMB_OPTION_MAX)];
    static double scratch[2 * BODIES];
    PlumbHold hold[PLUMB_OPTION_MAX];
    (void)state;
    make_case(&c);
    const int options = plumb_advice_candidates(c.option, &c.advice);
    int grips = 0;
    plumb_hold_solve(&c.sampler, &c.setup, &c.advice.goal, c.option, options, 0, BODIES, gain);
    plumb_hold_sum(gain, BODIES, options, c.advice.least_gain, scratch, hold);
    for (int k = 0; k < options; k++) {
        if (c.option[k].setting == PLUMB_SET_grip) {
            grips++;
            assert_near(hold[k].gains_share, 1.0, 1e-15);
            assert_true(hold[k].gain.sd > 0.0);
        }
        assert_true(hold[k].best_share <= hold[k].gains_share);
    }
    assert_int_equal(grips, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hold_sum__counts_gains_and_the_best),
        cmocka_unit_test(advice_settle__puts_what_is_sure_first),
        cmocka_unit_test(hold_solve__gains_what_plain_answers_gain),
        cmocka_unit_test(hold_solve__narrow_grip_holds_in_all_bodies),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
