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
    plumb_compose_working_strip(bench->scene, working, width, 100.0);
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
    const int bodies = is_long() ? 24 : 12;
    for (int i = 0; i < bodies; i++) {
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
    const int bodies = is_long() ? 16 : 8;
    for (int i = 0; i < bodies; i++) {
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
    assert_true(pages > bodies * PLUMB_LENGTH_COUNT);
}

/* The number that a figure of the table shows, in units of its last digit, and those digits. */
static bool figure_of(const char *words, double *number, int *decimals)
{
    char *end = NULL;
    *number = strtod(words, &end);
    const char *const point = strchr(words, '.');
    *decimals = point != NULL && point < end ? (int)(end - point - 1) : 0;
    return end != words && (words[0] == '-' || (words[0] >= '0' && words[0] <= '9'));
}

/* What the program shows of a result, as the table of efforts, lengths or angles has it. */
static void assert_shown(const Held *held, const char *words)
{
    const PlumbExplanation *const e = &held->explanation;
    const PlumbExplainStep *const last = &e->step[e->step_count - 1];
    double number = 0.0;
    int decimals = 0;
    assert_true(figure_of(words, &number, &decimals));
    const bool share = strchr(words, '%') != NULL || e->quantity == PLUMB_Q_SHARE;
    const double factor = share ? 100.0 : plumb_quantity_factor(e->quantity, PLUMB_METRIC);
    const double digit = pow(10.0, decimals);
    /* "Crease below the knee 2.0 cm" is -2.0 of "crease above". */
    const double sign = number >= 0.0 && last->result < 0.0 ? -1.0 : 1.0;
    const double result = sign * last->result * factor * digit;
    /* Half of the last digit, and 1e-6 of it for a figure that lies on the edge of rounding. */
    if (fabs(result - number * digit) > 0.5 + 1e-6) {
        fail_msg("%s: the table shows %s, the working %.6f", e->title, words, last->result);
    }
}

/* Every number of a table has a working, which comes to that number. Returns how many there are. */
static int walk_table(Bench *bench, Held *held)
{
    int rows = 0;
    for (int i = 0; i < bench->scene->item_count; i++) {
        const PlumbItem *const item = &bench->scene->item[i];
        double number = 0.0;
        int decimals = 0;
        const char *const words = plumb_scene_item_text(bench->scene, item);
        if (!figure_of(words, &number, &decimals)) {
            continue;
        }
        if (item->tag.kind != PLUMB_TAG_WORKING) {
            fail_msg("%s has no working", words);
        }
        PlumbError error;
        if (plumb_explain(&held->subject, plumb_question(item->tag.id), &held->explanation,
                          &error) != PLUMB_OK) {
            fail_msg("%s: %s", words, error.message);
        }
        assert_shown(held, words);
        rows++;
    }
    return rows;
}

static const PlumbRect ROOM = {0.0, 0.0, 200.0, 400.0};

static void table__has_a_working_for_every_figure(void **state)
{
    Bench *bench = *state;
    static Held held;
    unsigned long seed = 20260202;
    int poses = 0;
    for (int i = 0; i < 40; i++) {
        held.spec = plumb_body_spec(i % 2 == 0 ? PLUMB_MALE : PLUMB_FEMALE,
                                    between(&seed, 1.5, 1.98), between(&seed, 50.0, 120.0));
        PlumbBody body;
        assert_int_equal(plumb_body_build(&held.spec, &body, NULL), PLUMB_OK);
        held.lifter = plumb_lifter_default(&body);
        held.lifter.strength_entered = i % 3 == 0;
        const PlumbSetup setup = random_setup(&seed);
        plumb_answer_quick(&held.lifter, &setup, &bench->answer);
        if (bench->answer.outcome == PLUMB_NO_POSE) {
            continue;
        }
        held.subject = (PlumbExplainSubject){
            .spec = &held.spec, .lifter = &held.lifter, .answer = &bench->answer};
        const PlumbDrawing drawing =
            plumb_drawing_default(&held.lifter, &bench->answer, plumb_font_width, bench->font);
        const int travel = bench->answer.end_held ? 1 : 0;
        const int joints = setup.lift == PLUMB_DEADLIFT ? 15 : 14;
        plumb_scene_begin(bench->scene, ROOM.width_mm, ROOM.height_mm);
        plumb_compose_table(bench->scene, &drawing, ROOM);
        assert_int_equal(walk_table(bench, &held), 14 + travel + joints);
        plumb_scene_begin(bench->scene, ROOM.width_mm, ROOM.height_mm);
        plumb_compose_joints(bench->scene, &drawing, ROOM);
        assert_int_equal(walk_table(bench, &held), joints);
        poses++;
    }
    assert_true(poses > 25);
}

static void table__of_a_press_has_a_working_for_every_figure(void **state)
{
    Bench *bench = *state;
    static Held held;
    unsigned long seed = 20260203;
    int presses = 0;
    for (int i = 0; i < 40; i++) {
        held.spec = plumb_body_spec(i % 2 == 0 ? PLUMB_MALE : PLUMB_FEMALE,
                                    between(&seed, 1.5, 1.98), between(&seed, 50.0, 120.0));
        PlumbBody body;
        assert_int_equal(plumb_body_build(&held.spec, &body, NULL), PLUMB_OK);
        held.lifter = plumb_lifter_default(&body);
        held.lifter.strength_entered = i % 3 == 0;
        PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
        if (i % 4 != 0) {
            plumb_setup_set(&setup, PLUMB_SET_touch, between(&seed, -0.02, 0.2));
        }
        setup.grip_m = between(&seed, 0.3, 0.81);
        setup.load_kg = between(&seed, 20.0, 200.0);
        setup.hands_push_frac = i % 2 == 0 ? 0.0 : between(&seed, -0.2, 0.3);
        setup.path_exponent = between(&seed, 1.0, 3.0);
        PlumbPressAnswer press;
        plumb_press_solve(&held.lifter, &setup, &press);
        if (press.outcome == PLUMB_NO_POSE) {
            continue;
        }
        held.subject =
            (PlumbExplainSubject){.spec = &held.spec, .lifter = &held.lifter, .press = &press};
        const PlumbDrawing drawing =
            plumb_press_drawing_default(&held.lifter, &press, plumb_font_width, bench->font);
        plumb_scene_begin(bench->scene, ROOM.width_mm, ROOM.height_mm);
        plumb_compose_table(bench->scene, &drawing, ROOM);
        assert_int_equal(walk_table(bench, &held), 7 + 6 + 5 + 3);
        plumb_scene_begin(bench->scene, ROOM.width_mm, ROOM.height_mm);
        plumb_compose_joints(bench->scene, &drawing, ROOM);
        assert_int_equal(walk_table(bench, &held), 9);
        presses++;
    }
    assert_true(presses > 20);
}

/* Whether the arc of the moment turns against the clock; the page has one. An arc is drawn from its
 * tail to its head, on paper with y down. */
static bool arc_turns_against_clock(const PlumbScene *scene)
{
    enum { ARC_POINTS = 37 };
    int found = 0;
    double turn = 0.0;
    for (int i = 0; i < scene->item_count; i++) {
        const PlumbItem *const item = &scene->item[i];
        if (item->kind != PLUMB_ITEM_PATH || item->closed || item->count != ARC_POINTS ||
            item->pen.stroke != PLUMB_ROLE_ink) {
            continue;
        }
        const PlumbVec2 *const p = &scene->point_mm[item->first];
        turn = (p[1].x - p[0].x) * (p[2].y - p[1].y) - (p[1].y - p[0].y) * (p[2].x - p[1].x);
        found++;
    }
    assert_int_equal(found, 1);
    return turn < 0.0;
}

/* The joint's moment on the part that is cut free turns against what the forces do, by levers that
 * are read off the pose. From the side the toes point right, from the front the right leg is on the
 * left, from the head end the right arm is on the right. */
static void arc__holds_against_the_forces(void **state)
{
    Bench *bench = *state;
    static Held held;
    held.spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&held.spec, &body, NULL), PLUMB_OK);
    held.lifter = plumb_lifter_default(&body);
    static const struct {
        const char *question;
        PlumbLift lift;
        bool end;
        double width_m; /* stance or grip */
        double touch_m;
        bool against_clock;
    } cases[] = {
        {"hip_moment", PLUMB_DEADLIFT, false, 0.32, 0, true},   /* the bar is ahead of the hips */
        {"knee_moment", PLUMB_DEADLIFT, false, 0.32, 0, false}, /* the mass is behind the knees */
        {"knee_moment", PLUMB_DEADLIFT, true, 0.32, 0, true},   /* and here ahead of them */
        {"shoulder_moment", PLUMB_DEADLIFT, false, 0.32, 0, false}, /* the bar is behind them */
        {"hip_frontal", PLUMB_DEADLIFT, false, 0.70, 0, true},      /* the foot is outside */
        {"knee_frontal", PLUMB_SQUAT, false, 0.45, 0, true},        /* the foot is outside */
        {"ankle_along_foot", PLUMB_SQUAT, false, 0.45, 0, false},   /* the floor lifts the toes */
        {"knee_extension", PLUMB_SQUAT, false, 0.45, 0, true}, /* the floor is behind the knee */
        {"adduction_moment", PLUMB_BENCH, false, 0.70, 0.12, true}, /* the bar is outside */
        {"flexion_moment", PLUMB_BENCH, false, 0.70, 0.12, true},   /* the bar is to the feet */
        {"flexion_moment", PLUMB_BENCH, false, 0.70, -0.04, false}, /* and here to the head */
        {"elbow_moment", PLUMB_BENCH, false, 0.45, 0.12, false},    /* the hand inside the elbow */
        {"elbow_moment", PLUMB_BENCH, false, 0.80, 0.12, true},     /* and here outside */
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        PlumbSetup setup = plumb_setup_default(cases[i].lift);
        const bool lies = cases[i].lift == PLUMB_BENCH;
        plumb_setup_set(&setup, lies ? PLUMB_SET_grip : PLUMB_SET_stance, cases[i].width_m);
        PlumbPressAnswer press;
        held.subject = (PlumbExplainSubject){
            .spec = &held.spec, .lifter = &held.lifter, .at_end = cases[i].end};
        if (lies) {
            plumb_setup_set(&setup, PLUMB_SET_touch, cases[i].touch_m);
            setup.grip_by_build = false;
            plumb_press_solve(&held.lifter, &setup, &press);
            held.subject.press = &press;
        } else {
            plumb_answer_solve(&held.lifter, &setup, &bench->answer);
            held.subject.answer = &bench->answer;
        }
        PlumbQuestion question;
        assert_true(plumb_question_find(cases[i].question, strlen(cases[i].question), &question));
        assert_int_equal(plumb_explain(&held.subject, question, &held.explanation, NULL), PLUMB_OK);
        const PlumbWorking working = working_of(bench, &held);
        plumb_compose_working(bench->scene, &working);
        if (arc_turns_against_clock(bench->scene) != cases[i].against_clock) {
            fail_msg("%zu, %s: %.1f N m, drawn the other way", i, held.explanation.title,
                     held.explanation.program);
        }
    }
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
    /* Below the table, and in the sentence beside what the program shows. */
    assert_int_equal(count_text(bench->scene, shown), 2);
    assert_true(count_text(bench->scene, "de Leva 1996") >= 1);
    assert_non_null(strstr(bench->scene->description, shown));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pages__keep_clear_in_any_case),
        cmocka_unit_test(pages__of_a_press_keep_clear),
        cmocka_unit_test(table__has_a_working_for_every_figure),
        cmocka_unit_test(table__of_a_press_has_a_working_for_every_figure),
        cmocka_unit_test(arc__holds_against_the_forces),
        cmocka_unit_test(page__says_the_result),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}
