/* SPDX-License-Identifier: MIT */
/* The page of a working: nothing overlaps or leaves the paper, and it says what the working says.
 */
#include "scene_bench.h"

#include <plumbar/working.h>

typedef struct Held {
    PlumbBodySpec spec;
    PlumbLifter lifter;
    PlumbExplainSubject subject;
    PlumbExplanation explanation;
    PlumbMotionPoint instant;
} Held;

static PlumbWorking working_of(const Bench *bench, Held *held)
{
    return (PlumbWorking){.subject = &held->subject,
                          .explanation = &held->explanation,
                          .name = "A. Lifter",
                          .date = "2026-01-31",
                          .text_width = plumb_font_width,
                          .text_user = bench->font};
}

/* The same in a window, one width after the other: nothing meets, leaves the strip or is cut. */
static void strip_clear(Bench *bench, const PlumbWorking *working, int which)
{
    static const double WIDTH_MM[] = {84.0, 98.0, 140.0, 230.0, 400.0};
    const bool length = working->explanation->question.kind == PLUMB_EXPLAIN_length;
    /* No figure of the table is a length, and none is drawn narrow. */
    const double width = length ? 230.0 : WIDTH_MM[which % 5];
    char what[160];
    plumb_compose_working_strip(bench->scene, working, width);
    snprintf(what, sizeof what, "%s, %.0f mm", working->explanation->title, width);
    assert_clear(bench->scene, what);
    assert_int_equal(count_text(bench->scene, "\xe2\x80\xa6"), 0);
}

/* Composes the page of every question that the subject has; how many. */
static int compose_all(Bench *bench, Held *held, bool letter)
{
    int pages = 0;
    for (int i = 0; i < plumb_question_count(); i++) {
        if (plumb_explain(&held->subject, plumb_question(i), &held->explanation, NULL) !=
            PLUMB_OK) {
            continue;
        }
        PlumbWorking working = working_of(bench, held);
        working.letter = letter;
        plumb_compose_working(bench->scene, &working);
        assert_clear(bench->scene, held->explanation.title);
        assert_string_equal(bench->scene->title, held->explanation.title);
        /* Every source is reached: the page ends in no ellipsis. */
        if (count_text(bench->scene, "\xe2\x80\xa6") != 0) {
            fail_msg("%s: the text does not fit", held->explanation.title);
        }
        strip_clear(bench, &working, pages);
        pages++;
    }
    return pages;
}

static void pages__keep_clear_in_any_case(void **state)
{
    Bench *bench = *state;
    static Held held;
    unsigned long seed = 20260131;
    int pages = 0;
    for (int i = 0; i < 24; i++) {
        held.spec = plumb_body_spec(i % 2 == 0 ? PLUMB_MALE : PLUMB_FEMALE,
                                    between(&seed, 1.5, 1.98), between(&seed, 50.0, 120.0));
        PlumbBody body;
        assert_int_equal(plumb_body_build(&held.spec, &body, NULL), PLUMB_OK);
        held.lifter = plumb_lifter_default(&body);
        const PlumbSetup setup = random_setup(&seed);
        plumb_answer_quick(&held.lifter, &setup, &bench->answer);
        held.subject = (PlumbExplainSubject){.spec = &held.spec,
                                             .lifter = &held.lifter,
                                             .answer = &bench->answer,
                                             .at_end = i % 3 == 2 && bench->answer.end_held};
        pages += compose_all(bench, &held, i % 4 == 3);
        if (bench->answer.outcome != PLUMB_NO_POSE && bench->answer.end_held &&
            plumb_motion_at(&held.lifter, &bench->answer, 1.0, 0.3, &held.instant, NULL) ==
                PLUMB_OK &&
            held.instant.held) {
            held.subject.motion = &held.instant;
            pages += compose_all(bench, &held, false);
        }
    }
    print_message("  %d pages\n", pages);
    assert_true(pages > 1000);
}

static void pages__of_a_press_keep_clear(void **state)
{
    Bench *bench = *state;
    static Held held;
    unsigned long seed = 20260201;
    int pages = 0;
    for (int i = 0; i < 16; i++) {
        held.spec = plumb_body_spec(i % 2 == 0 ? PLUMB_MALE : PLUMB_FEMALE,
                                    between(&seed, 1.5, 1.98), between(&seed, 50.0, 120.0));
        PlumbBody body;
        assert_int_equal(plumb_body_build(&held.spec, &body, NULL), PLUMB_OK);
        held.lifter = plumb_lifter_default(&body);
        PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
        plumb_setup_set(&setup, PLUMB_SET_touch, between(&seed, -0.02, 0.2));
        setup.grip_m = between(&seed, 0.3, 0.81);
        setup.load_kg = between(&seed, 20.0, 200.0);
        setup.hands_push_frac = i % 2 == 0 ? 0.0 : between(&seed, -0.2, 0.3);
        setup.path_exponent = between(&seed, 1.0, 3.0);
        PlumbPressAnswer press;
        plumb_press_solve(&held.lifter, &setup, &press);
        held.subject = (PlumbExplainSubject){
            .spec = &held.spec, .lifter = &held.lifter, .press = &press, .at_end = i % 3 == 2};
        pages += compose_all(bench, &held, i % 4 == 3);
    }
    assert_true(pages > 16 * PLUMB_LENGTH_COUNT);
}

static void page__says_the_result(void **state)
{
    Bench *bench = *state;
    static Held held;
    held.spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&held.spec, &body, NULL), PLUMB_OK);
    held.lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.load_kg = 180.0;
    plumb_answer_solve(&held.lifter, &setup, &bench->answer);
    held.subject =
        (PlumbExplainSubject){.spec = &held.spec, .lifter = &held.lifter, .answer = &bench->answer};
    PlumbQuestion question;
    assert_true(plumb_question_find("hip_moment", 10, &question));
    assert_int_equal(plumb_explain(&held.subject, question, &held.explanation, NULL), PLUMB_OK);
    const PlumbWorking working = working_of(bench, &held);
    plumb_compose_working(bench->scene, &working);
    char shown[32];
    PlumbText text = plumb_text_begin(shown, sizeof shown);
    plumb_text_fixed(&text, bench->answer.start.moment_both_n_m[PLUMB_JOINT_hip], 1);
    assert_int_equal(count_text(bench->scene, shown), 1);
    assert_true(count_text(bench->scene, "de Leva 1996") >= 1);
    assert_non_null(strstr(bench->scene->description, shown));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pages__keep_clear_in_any_case),
        cmocka_unit_test(pages__of_a_press_keep_clear),
        cmocka_unit_test(page__says_the_result),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}
