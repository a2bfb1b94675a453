/* SPDX-License-Identifier: MIT */
/* How sure the window's figures are: the same spreads as everywhere, made in slices, none during a
 * drag, and nothing to do once they are made. */
#include "scene_bench.h"

#ifdef PLUMB_HAS_VIEWER

#include "window_bench.h"

#include "viewer/command.h"

#include <stdlib.h>
#include <string.h>

static PlumbDesk *desk_of(PlumbLift lift, PlumbPage page)
{
    const PlumbLifter lifter = lifter_of(PLUMB_MALE, 1.78, 85.0, 0.0, 0.0);
    const PlumbSetup setup = plumb_setup_default(lift);
    PlumbDesk *const desk = open_desk(&lifter, &setup, "");
    resize(desk, 1280.0, 800.0, 1.0);
    desk->page = page;
    return desk;
}

/* As the command draws them: the same bodies of the same seed. */
static void sure__has_the_spreads_of_the_command(void **state)
{
    (void)state;
    static PlumbSample sample[PLUMB_SURE_MOST];
    static double scratch[2 * PLUMB_SURE_MOST];
    PlumbDesk *const desk = desk_of(PLUMB_DEADLIFT, PLUMB_PAGE_DRAWING);
    PlumbBodies bodies;
    PlumbSampler sampler;
    PlumbIntervals intervals;
    finish(desk);
    plumb_bodies_around(&desk->now.record.spec, &desk->now.lifter.body, &bodies);
    plumb_sampler_begin(&desk->now.lifter, &bodies, 1, &sampler);
    plumb_samples_solve(&sampler, plumb_desk_setup(desk), false, 0, PLUMB_SURE_MOST, sample);
    plumb_intervals(sample, PLUMB_SURE_MOST, scratch, &intervals);
    assert_int_equal(desk->sure.shown, PLUMB_SURE_MOST);
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        const PlumbEstimate *const of = plumb_sure_of(desk, i);
        if (of != NULL) {
            assert_near(of->sd, intervals.of[i].sd, 0.0);
            assert_near(of->low, intervals.of[i].low, 0.0);
        }
    }
    assert_non_null(plumb_sure_of(desk, PLUMB_OUT_travel));
    assert_null(plumb_sure_of(desk, PLUMB_OUT_bar_over)); /* prescribed */
    assert_true(desk->sure.has_measuring);
    plumb_desk_destroy(desk);
}

/* A slice ends with the step in which its time is over; the first look comes early; a change and a
 * drag stop what was begun. */
static void sure__comes_in_slices(void **state)
{
    (void)state;
    PlumbDesk *const desk = desk_of(PLUMB_SQUAT, PLUMB_PAGE_DRAWING);
    int slices = 0;
    frame(desk);
    assert_null(plumb_sure_of(desk, PLUMB_OUT_travel));
    while (desk->sure.shown == 0) {
        assert_true(plumb_sure_work(desk, 1e-9));
        slices++;
    }
    assert_int_equal(desk->sure.shown, PLUMB_SURE_COARSE);
    assert_int_equal(slices, PLUMB_SURE_COARSE / 2 + PLUMB_OUTPUT_COUNT + 1);
    assert_non_null(plumb_sure_of(desk, PLUMB_OUT_travel));
    desk->drag.on = true;
    assert_false(plumb_sure_work(desk, 1.0));
    desk->now.setup[PLUMB_SQUAT].stance_m += 0.05;
    plumb_desk_touch(desk);
    frame(desk);
    assert_null(plumb_sure_of(desk, PLUMB_OUT_travel));
    assert_false(plumb_sure_work(desk, 1.0));
    desk->drag.on = false;
    while (plumb_sure_work(desk, 1.0)) {
    }
    assert_int_equal(desk->sure.shown, PLUMB_SURE_MOST);
    assert_false(plumb_sure_work(desk, 1.0));
    plumb_desk_destroy(desk);
}

/* With a pencil the spreads are those of the differences, on the drawing and on Compare alike. */
static void sure__of_differences_and_paths(void **state)
{
    (void)state;
    PlumbDesk *const desk = desk_of(PLUMB_DEADLIFT, PLUMB_PAGE_DRAWING);
    frame(desk);
    plumb_command_run(desk, PLUMB_CMD_PENCIL);
    desk->now.setup[PLUMB_DEADLIFT].deficit_m += 0.03;
    plumb_desk_touch(desk);
    finish(desk);
    assert_int_equal(desk->sure.kind, PLUMB_SURE_CHANGES);
    assert_near(desk->sure.of[PLUMB_OUT_travel].low, 0.03, 1e-8); /* m; the same for everybody */
    assert_near(desk->sure.of[PLUMB_OUT_travel].high, 0.03, 1e-8);
    desk->page = PLUMB_PAGE_COMPARE;
    frame(desk);
    assert_near(desk->against.of[PLUMB_OUT_hip_arm].spread.sd, desk->sure.of[PLUMB_OUT_hip_arm].sd,
                0.0);
    desk->page = PLUMB_PAGE_PATH;
    finish(desk);
    assert_int_equal(desk->sure.kind, PLUMB_SURE_PATH);
    assert_int_equal(desk->sure.shown, PLUMB_SURE_PATHS);
    assert_true(plumb_sure_of(desk, PLUMB_FACT_travel)->sd > 0.01);
    plumb_desk_destroy(desk);
}

/* A press has them too: on the drawing, of differences, of its path. */
static void sure__of_a_press(void **state)
{
    (void)state;
    static PlumbSample sample[PLUMB_SURE_MOST];
    static double scratch[2 * PLUMB_SURE_MOST];
    PlumbDesk *const desk = desk_of(PLUMB_BENCH, PLUMB_PAGE_DRAWING);
    PlumbIntervals intervals;
    finish(desk);
    plumb_samples_solve(&desk->sure.pair.sampler[1], plumb_desk_setup(desk), false, 0,
                        PLUMB_SURE_MOST, sample);
    plumb_intervals(sample, PLUMB_SURE_MOST, scratch, &intervals);
    for (int i = 0; i < PLUMB_PRESS_OUTPUT_COUNT; i++) {
        const PlumbEstimate *const of = plumb_sure_of(desk, i);
        if (of != NULL) {
            assert_near(of->sd, intervals.of[i].sd, 0.0);
        }
    }
    assert_non_null(plumb_sure_of(desk, PLUMB_PRESS_OUT_elbow_moment));
    assert_true(desk->sure.has_measuring);
    plumb_command_run(desk, PLUMB_CMD_PENCIL);
    desk->now.setup[PLUMB_BENCH].arch_m += 0.02;
    plumb_desk_touch(desk);
    desk->page = PLUMB_PAGE_COMPARE;
    finish(desk);
    assert_int_equal(desk->sure.kind, PLUMB_SURE_CHANGES);
    assert_null(plumb_sure_of(desk, PLUMB_PRESS_OUT_lockout_height)); /* the same for everybody */
    assert_non_null(plumb_sure_of(desk, PLUMB_PRESS_OUT_elbow_arm));
    assert_near(desk->against.of[PLUMB_PRESS_OUT_elbow_arm].spread.sd,
                desk->sure.of[PLUMB_PRESS_OUT_elbow_arm].sd, 0.0);
    /* m; an arch raises everybody's chest by as much. */
    assert_near(desk->sure.of[PLUMB_PRESS_OUT_travel].median, -0.02, 1e-9);
    desk->page = PLUMB_PAGE_PATH;
    finish(desk);
    assert_int_equal(desk->sure.shown, PLUMB_SURE_PATHS);
    assert_true(plumb_sure_of(desk, PLUMB_PRESS_FACT_travel)->sd > 0.01);
    assert_true(plumb_sure_of(desk, PLUMB_PRESS_FACT_peak_elbow_extension_moment)->sd > 1.0);
    plumb_desk_destroy(desk);
}

/* The list stands at once; when its draws are done it is the command's. Then nothing is left. */
static void tried__becomes_the_list_of_the_command(void **state)
{
    (void)state;
    static PlumbOption option[PLUMB_OPTION_MAX];
    static PlumbHold hold[PLUMB_OPTION_MAX];
    PlumbAdvice advice;
    PlumbDesk *const desk = desk_of(PLUMB_DEADLIFT, PLUMB_PAGE_DRAWING);
    const PlumbTried *const tried = &desk->tried;
    finish(desk);
    plumb_command_run(desk, PLUMB_CMD_TRY);
    plumb_command_run(desk, PLUMB_CMD_TRY); /* the first aim gains too little to be noticed */
    advice = desk->try_first.advice;
    memcpy(option, desk->try_first.option, sizeof option);
    assert_true(tried->count > 0);
    assert_true(plumb_tried_work(desk, 1e-9));
    assert_false(tried->settled);
    desk->drag.on = true;
    assert_false(plumb_tried_work(desk, 1.0));
    desk->drag.on = false;
    while (plumb_tried_work(desk, 1.0)) {
    }
    assert_true(tried->settled);
    assert_false(plumb_tried_work(desk, 1.0));
    const int candidates = plumb_advice_candidates(option, &advice);
    double *const gain = calloc((size_t)(tried->count * (candidates + 1)), sizeof *gain);
    double *const scratch = calloc(2 * (size_t)tried->count, sizeof *scratch);
    assert_true(gain != NULL && scratch != NULL);
    plumb_hold_solve(&tried->sampler, plumb_desk_setup(desk), &advice.goal, option, candidates, 0,
                     tried->count, gain);
    plumb_hold_sum(gain, tried->count, candidates, plumb_hold_least_gain(&advice), scratch, hold);
    plumb_advice_settle(hold, candidates, option, &advice);
    assert_int_equal(desk->try_first.advice.worth_count, advice.worth_count);
    assert_true(advice.worth_count > 0);
    for (int i = 0; i < candidates; i++) {
        assert_int_equal(desk->try_first.option[i].setting, option[i].setting);
        assert_near(desk->try_first.option[i].gain_sd, option[i].gain_sd, 0.0);
    }
    free(gain);
    free(scratch);
    plumb_desk_touch(desk);
    assert_false(plumb_tried_work(desk, 1.0));
    plumb_desk_destroy(desk);
}

/* Beside the rulers of the body, and only there: putting them away stops what was begun. */
static void crowd__stands_beside_the_body(void **state)
{
    (void)state;
    PlumbDesk *const desk = desk_of(PLUMB_DEADLIFT, PLUMB_PAGE_DRAWING);
    finish(desk);
    assert_int_equal(desk->crowd.done, 0);
    plumb_command_run(desk, PLUMB_CMD_BODY);
    while (desk->crowd.shown == 0) {
        assert_true(plumb_crowd_work(desk, 1e-9));
    }
    assert_int_equal(desk->crowd.shown, PLUMB_CROWD_COARSE);
    assert_non_null(strstr(plumb_crowd_words(desk), "Longer arms travel less in 100 %"));
    assert_non_null(strstr(plumb_crowd_words(desk), "Of 200 men of the survey"));
    plumb_command_run(desk, PLUMB_CMD_BODY);
    assert_false(plumb_crowd_work(desk, 1.0));
    assert_string_equal(plumb_crowd_words(desk), "");
    plumb_command_run(desk, PLUMB_CMD_BODY);
    while (plumb_crowd_work(desk, 1.0)) {
    }
    assert_int_equal(desk->crowd.shown, PLUMB_CROWD_MOST);
    plumb_desk_destroy(desk);
}

static void crowd__of_a_press(void **state)
{
    (void)state;
    PlumbDesk *const desk = desk_of(PLUMB_BENCH, PLUMB_PAGE_DRAWING);
    finish(desk);
    plumb_command_run(desk, PLUMB_CMD_BODY);
    while (plumb_crowd_work(desk, 1.0)) {
    }
    assert_non_null(strstr(plumb_crowd_words(desk), "% a smaller elbow moment. "));
    assert_non_null(
        strstr(plumb_crowd_words(desk), "Longer arms travel more in the press in 100 %"));
    plumb_desk_destroy(desk);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(crowd__stands_beside_the_body),
        cmocka_unit_test(crowd__of_a_press),
        cmocka_unit_test(sure__has_the_spreads_of_the_command),
        cmocka_unit_test(sure__comes_in_slices),
        cmocka_unit_test(sure__of_differences_and_paths),
        cmocka_unit_test(sure__of_a_press),
        cmocka_unit_test(tried__becomes_the_list_of_the_command),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}

#else

int main(void)
{
    return 0;
}

#endif
