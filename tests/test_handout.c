/* SPDX-License-Identifier: MIT */
/* The handout: what it refuses, what it says, and that nothing on it overlaps. */
#include "scene_bench.h"

#include "report/solved_drawing.h"

#include <plumbar/report.h>

typedef struct Two {
    PlumbLifter lifter;
    PlumbSolved before;
    PlumbSolved after;
} Two;

static Two two_of(const PlumbSetup *before, const PlumbSetup *after)
{
    Two two = {.lifter = lifter_of(PLUMB_MALE, 1.80, 84.0, 1.5, -1.5)};
    plumb_solved_solve(&two.lifter, before, &two.before);
    plumb_solved_solve(&two.lifter, after, &two.after);
    return two;
}

static PlumbDrawing drawing_of_two(Bench *bench, const Two *two)
{
    PlumbDrawing drawing = plumb_drawing_solved(&two->lifter, &two->after, &two->before,
                                                plumb_font_width, bench->font);
    drawing.pencil_name = "as until now";
    drawing.name = "A. Lifter";
    drawing.date = "2026-01-31";
    return drawing;
}

static void drills_of(PlumbDrills *drills)
{
    PlumbError error;
    assert_int_equal(plumb_drills_default(drills, &error), PLUMB_OK);
}

static PlumbHandoutAsk ask_of(const PlumbDrawing *drawing, const Two *two,
                              const PlumbDrills *drills)
{
    return (PlumbHandoutAsk){
        .drawing = drawing,
        .before = &two->before,
        .after = &two->after,
        .asked = {plumb_solved_setup(&two->before), plumb_solved_setup(&two->after)},
        .drills = drills,
        .note = "",
        .since = "",
        .program = "plumbar test"};
}

/* What changes_check says to a proposal made by one assignment. */
static void assert_refused(const PlumbSetup *before, const PlumbSetup *after, const char *field,
                           const char *words)
{
    const Two two = two_of(before, after);
    PlumbError error = {.status = PLUMB_OK};
    assert_int_equal(plumb_changes_check(&two.before, &two.after, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, field);
    if (strstr(error.message, words) == NULL) {
        fail_msg("\"%s\" lacks \"%s\"", error.message, words);
    }
}

static void changes_check__refuses_what_no_athlete_may_be_asked(void **state)
{
    (void)state;
    const PlumbSetup pull = plumb_setup_default(PLUMB_DEADLIFT);
    const PlumbSetup squat = plumb_setup_default(PLUMB_SQUAT);
    PlumbSetup other = pull;
    other.load_kg = 80.0;
    assert_refused(&pull, &other, "load", "never changes the load");
    other = pull;
    other.spine_rad += 0.1;
    assert_refused(&pull, &other, "spine", "rounder back");
    other = squat;
    other.depth_m -= 0.03;
    assert_refused(&squat, &other, "depth", "never cuts the depth");
    other = pull;
    other.path_exponent = 2.0;
    assert_refused(&pull, &other, "path_exponent", "no athlete can change");
    assert_refused(&pull, &pull, "--proposed", "nothing would change");
    other = pull;
    other.lead = PLUMB_LEAD_HIP_HEIGHT;
    other.hip_height_m = 1.3;
    assert_refused(&pull, &other, "proposed", "no pose holds the proposed set-up");
}

static void changes_check__names_what_is_too_much(void **state)
{
    (void)state;
    const PlumbSetup pull = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbSetup sumo = pull;
    plumb_setup_style(&sumo, PLUMB_SUMO);
    assert_refused(&pull, &sumo, "--proposed", "changes 3 things: stance, toes and grip");
    PlumbSetup two = pull;
    two.stance_m += 0.05;
    two.toes_rad += 0.1;
    const Two held = two_of(&pull, &two);
    assert_int_equal(plumb_changes_check(&held.before, &held.after, NULL), PLUMB_OK);
    two.lead = PLUMB_LEAD_BALANCE;
    two.balance_frac = 0.45;
    assert_refused(&pull, &two, "--proposed", "stance, toes and hip height");
}

static void changes_find__what_leads_is_told_by_hips_and_shins(void **state)
{
    (void)state;
    const PlumbSetup pull = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbSetup low = pull;
    low.lead = PLUMB_LEAD_HIP_HEIGHT;
    low.hip_height_m = 0.60;
    Two two = two_of(&low, &pull);
    PlumbChange change[PLUMB_SETTING_COUNT];
    assert_int_equal(plumb_changes_find(&two.before, &two.after, change), 1);
    assert_int_equal(change[0].id, PLUMB_SET_hip_height);
    assert_true(change[0].lead);
    assert_near(change[0].before_si, 0.60, 1e-9);
    char words[PLUMB_HANDOUT_WORDS];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_change_text(&text, &change[0], &two.after, &two.lifter.body, false, PLUMB_METRIC);
    assert_non_null(strstr(words, "Start with your hips "));
    assert_non_null(strstr(words, " higher, so that the crease of the hip stands "));
    PlumbSetup squat = plumb_setup_default(PLUMB_SQUAT);
    PlumbSetup back = squat;
    back.lead = PLUMB_LEAD_SHIN_ANGLE;
    back.shin_angle_rad = 0.42;
    two = two_of(&squat, &back);
    assert_int_equal(plumb_changes_find(&two.before, &two.after, change), 1);
    assert_int_equal(change[0].id, PLUMB_SET_shin_angle);
    /* Knees over the toes are told by the turn that they have in either pose. */
    back = squat;
    back.knees_over_toes = true;
    squat.knees_out_rad = -0.1;
    two = two_of(&squat, &back);
    assert_int_equal(plumb_changes_find(&two.before, &two.after, change), 1);
    assert_int_equal(change[0].id, PLUMB_SET_knees_out);
    assert_near(change[0].before_si, -0.1, 1e-12);
    assert_near(change[0].after_si, two.after.pose.start.knees_out_rad, 1e-12);
    assert_true(change[0].after_si > 0.0);
}

static void changes_find__tells_touch_and_elbows_of_a_press(void **state)
{
    (void)state;
    PlumbSetup press = plumb_setup_default(PLUMB_BENCH);
    assert_true(plumb_setup_set(&press, PLUMB_SET_touch, 0.10));
    PlumbSetup other = press;
    PlumbChange change[PLUMB_SETTING_COUNT];
    /* A wider grip moves elbows that stay under the bar; that is no change of its own. */
    other.grip_m += 0.06;
    Two two = two_of(&press, &other);
    assert_int_equal(plumb_changes_find(&two.before, &two.after, change), 1);
    assert_int_equal(change[0].id, PLUMB_SET_grip);
    other = press;
    assert_true(plumb_setup_set(&other, PLUMB_SET_touch, 0.13));
    assert_true(plumb_setup_set(&other, PLUMB_SET_elbows, 1.0));
    two = two_of(&press, &other);
    assert_int_equal(plumb_changes_find(&two.before, &two.after, change), 2);
    assert_int_equal(change[0].id, PLUMB_SET_elbows);
    assert_near(change[0].before_si, two.before.press.touch.angle_rad[PLUMB_PRESS_ANG_abduction],
                1e-12);
    assert_near(change[0].after_si, 1.0, 1e-12);
    assert_int_equal(change[1].id, PLUMB_SET_touch);
    assert_true(change[1].lead);
    assert_int_equal(plumb_changes_check(&two.before, &two.after, NULL), PLUMB_OK);
    char words[PLUMB_HANDOUT_WORDS];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_change_text(&text, &change[1], &two.after, &two.lifter.body, false, PLUMB_METRIC);
    assert_non_null(strstr(words, "lower on your chest: 13 cm toward the feet"));
    /* The model's own settings and the load are no athlete's. */
    other = press;
    other.hands_push_frac = 0.1;
    assert_refused(&press, &other, "hands_push", "no athlete can change");
    other = press;
    other.load_kg += 5.0;
    assert_refused(&press, &other, "load", "never changes the load");
    other = press;
    other.touch_m = 0.25;
    other.arch_m = 0.15;
    other.grip_m = 0.20;
    assert_refused(&press, &other, "--proposed", "changes 3 things: grip, arch and touch");
    /* With touches of its own finding both set-ups may differ although none was asked for. */
    const PlumbSetup found = plumb_setup_default(PLUMB_BENCH);
    two = two_of(&found, &press);
    assert_int_equal(plumb_changes_find(&two.before, &two.after, change), 1);
    assert_int_equal(change[0].id, PLUMB_SET_touch);
}

/* Every setting that a proposal may change has a sentence both ways, no braces left over. */
static void change_text__is_a_whole_sentence_for_every_setting(void **state)
{
    (void)state;
    int told = 0;
    for (int lift = 0; lift < PLUMB_LIFT_COUNT; lift++) {
        const PlumbSetup setup = plumb_setup_default((PlumbLift)lift);
        const Two two = two_of(&setup, &setup);
        for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
            const PlumbSetting *row = plumb_setting((PlumbSettingId)i);
            if (!row->lifts[lift] || row->quantity == PLUMB_Q_WORD) {
                continue;
            }
            for (int way = 0; way < 4; way++) {
                const double from = way % 2 == 0 ? row->min_si : row->max_si;
                const double to = way % 2 == 0 ? row->max_si : row->min_si;
                const PlumbChange change = {row->id, false, from, to};
                char words[PLUMB_HANDOUT_WORDS];
                PlumbText text = plumb_text_begin(words, sizeof words);
                plumb_change_text(&text, &change, &two.after, &two.lifter.body, way >= 2,
                                  PLUMB_POUNDS_INCHES);
                assert_false(text.cut);
                assert_null(strchr(words, '{'));
                assert_int_equal(words[text.length - 1], '.');
                told++;
            }
        }
    }
    assert_true(told > 60);
}

static void handout_fill__says_what_it_must(void **state)
{
    Bench *bench = *state;
    const PlumbSetup before = plumb_setup_default(PLUMB_SQUAT);
    PlumbSetup after = before;
    after.stance_m += 0.10;
    after.toes_rad += 0.17;
    const Two two = two_of(&before, &after);
    const PlumbDrawing drawing = drawing_of_two(bench, &two);
    PlumbDrills drills;
    drills_of(&drills);
    PlumbHandoutAsk ask = ask_of(&drawing, &two, &drills);
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.80, 84.0);
    ask.spec = &spec;
    ask.sample_count = 20;
    ask.note = "Film the third set.";
    PlumbHandout handout;
    assert_int_equal(plumb_handout_fill(&ask, &handout, NULL), PLUMB_OK);
    assert_int_equal(handout.change.count, 2);
    assert_in_range(handout.row_count, 3, 6);
    assert_true(handout.has_spread);
    assert_in_range(handout.feel.count, 1, 3);
    assert_in_range(handout.drill.count, 1, 2);
    assert_int_equal(handout.film.count, 2);
    plumb_compose_handout(bench->scene, &handout, PLUMB_A4_PORTRAIT);
    assert_clear(bench->scene, "handout");
    static const char *const must[] = {"Stand wider: 55 cm",  "what it should feel like",
                                       "what to film next",   "not medical",
                                       "Film the third set.", "common practice",
                                       "give or take",        "plumbar test",
                                       "as until now",        "bar travel",
                                       "A. Lifter",           "Stop on pain"};
    for (size_t i = 0; i < sizeof must / sizeof must[0]; i++) {
        if (count_text(bench->scene, must[i]) == 0) {
            fail_msg("\"%s\" does not stand on the handout", must[i]);
        }
    }
}

static void handout_fill__tells_a_press_as_the_other_lifts(void **state)
{
    Bench *bench = *state;
    PlumbSetup before = plumb_setup_default(PLUMB_BENCH);
    assert_true(plumb_setup_set(&before, PLUMB_SET_touch, 0.08));
    PlumbSetup after = before;
    after.grip_m = 0.45;
    const Two two = two_of(&before, &after);
    const PlumbDrawing drawing = drawing_of_two(bench, &two);
    PlumbDrills drills;
    drills_of(&drills);
    PlumbHandoutAsk ask = ask_of(&drawing, &two, &drills);
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.80, 84.0);
    ask.spec = &spec;
    ask.sample_count = 20;
    PlumbHandout handout;
    assert_int_equal(plumb_handout_fill(&ask, &handout, NULL), PLUMB_OK);
    assert_int_equal(handout.change.count, 1);
    assert_int_equal(handout.row_count, 6);
    assert_in_range(handout.drill.count, 1, 2);
    plumb_compose_handout(bench->scene, &handout, PLUMB_A4_PORTRAIT);
    assert_clear(bench->scene, "handout of a press");
    /* Narrower: less for the chest, more for the elbows (Mausehund et al. 2022, Wagner et al.
     * 1992: the same directions as the moments that are told). */
    static const char *const must[] = {"Bench press, 100 kg: what to change next",
                                       "Take a narrower grip: 45 cm",
                                       "from the side",
                                       "from the head end",
                                       "The backs of your upper arms do more",
                                       "bar travel",
                                       "One picture from the head end",
                                       "Pause the bar for two seconds where it touches",
                                       "give or take",
                                       "not medical"};
    for (size_t i = 0; i < sizeof must / sizeof must[0]; i++) {
        if (count_text(bench->scene, must[i]) == 0) {
            fail_msg("\"%s\" does not stand on the handout", must[i]);
        }
    }
    /* Each figure is the solver's own. */
    char travel[PLUMB_HANDOUT_CELL];
    PlumbText text = plumb_text_begin(travel, sizeof travel);
    plumb_text_quantity(&text, two.after.press.travel_m, PLUMB_Q_LENGTH, PLUMB_METRIC);
    assert_string_equal(handout.row[0].after, travel);
}

static void handout_fill__looks_back_at_more_than_two_changes(void **state)
{
    Bench *bench = *state;
    const PlumbSetup before = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbSetup after = before;
    after.stance_m += 0.10;
    after.toes_rad += 0.17;
    after.grip_m += 0.05;
    after.load_kg += 20.0;
    const Two two = two_of(&before, &after);
    const PlumbDrawing drawing = drawing_of_two(bench, &two);
    PlumbDrills drills;
    drills_of(&drills);
    PlumbHandoutAsk ask = ask_of(&drawing, &two, &drills);
    ask.since = "2025-11-03";
    PlumbHandout handout;
    assert_int_equal(plumb_handout_fill(&ask, &handout, NULL), PLUMB_OK);
    assert_int_equal(handout.change.count, 3);
    assert_non_null(strstr(handout.change.words[2], "And 1 more."));
    assert_non_null(strstr(handout.heading, "since 2025-11-03"));
    assert_string_equal(handout.before_name, "then");
}

/* Nothing of the page reaches into the room of its picture. */
static void assert_room_is_empty(const PlumbScene *scene, PlumbRect room)
{
    for (int i = 0; i < scene->item_count; i++) {
        assert_false(boxes_meet(scene->item[i].box_mm, room));
    }
}

static void compose_handout__nothing_overlaps_in_500_random_cases(void **state)
{
    Bench *bench = *state;
    unsigned long seed = 20260301;
    PlumbDrills drills;
    drills_of(&drills);
    PlumbHandout *const handout = malloc(sizeof *handout);
    assert_non_null(handout);
    int no_pose = 0;
    for (int i = 0; i < 500; i++) {
        Two two = {.lifter = random_lifter(&seed)};
        const bool press = i % 3 == 2;
        const PlumbSetup before = press ? random_press_setup(&seed) : random_setup(&seed);
        PlumbSetup after = press ? random_press_setup(&seed) : random_setup(&seed);
        if (after.lift != before.lift) {
            after = before;
            after.stance_m = between(&seed, 0.2, 1.0);
        }
        plumb_solved_solve(&two.lifter, &before, &two.before);
        plumb_solved_solve(&two.lifter, &after, &two.after);
        no_pose += plumb_solved_outcome(&two.after) == PLUMB_NO_POSE ? 1 : 0;
        PlumbDrawing drawing = drawing_of_two(bench, &two);
        drawing.units = i % 3 == 0 ? PLUMB_POUNDS_INCHES : PLUMB_METRIC;
        PlumbHandoutAsk ask = ask_of(&drawing, &two, &drills);
        /* Looking back takes any two set-ups; every fourth asks for a change where it may. */
        ask.since = i % 4 == 0 ? "" : "2025-11-03";
        ask.note = i % 2 == 0 ? "Keep the tempo; sleep; eat. Film the third set of the day, and "
                                "the last one, from the side, and send me both before Friday. Good "
                                "work so far, and no more than that for now, please."
                              : "";
        PlumbError error;
        if (plumb_handout_fill(&ask, handout, &error) != PLUMB_OK) {
            ask.since = "2025-11-03";
            assert_int_equal(plumb_handout_fill(&ask, handout, &error), PLUMB_OK);
        }
        /* Some with a picture beside the side view, and what it shows. */
        handout->pictured = !press && i % 5 == 0;
        handout->seen =
            (PlumbHandoutBlock){"what the picture shows", handout->pictured ? 2 : 0, {""}};
        for (int k = 0; k < handout->seen.count; k++) {
            snprintf(handout->seen.words[k], sizeof handout->seen.words[k],
                     "Expect the hips to rise 7.0 cm before the bar leaves the floor: the shoulder "
                     "would be behind the bar. (\xc2\xb1 1.5 cm)");
        }
        /* Some with the reason of a change that nobody asked for, as long as they come. */
        handout->why = (PlumbHandoutBlock){"why this first", i % 7 == 0 ? 3 : 0, {""}};
        if (handout->why.count > 0 && handout->change.count > PLUMB_HANDOUT_CHANGES) {
            handout->change.count = PLUMB_HANDOUT_CHANGES; /* such a page never looks back */
        }
        for (int k = 0; k < handout->why.count; k++) {
            static const char *const why[PLUMB_HANDOUT_FEELS] = {
                ("It is against this: Expect the hips to rise 7.0 cm before the bar leaves the "
                 "floor: the shoulder would be behind the bar. The change takes 2.0 cm off that "
                 "(95 "
                 "of 100 bodies: 1.7 to 2.5 cm)."),
                ("Slanted arms reach less high: the wider the grip, the lower the bar ends and the "
                 "further out the load acts on the shoulder; the narrower, the more the elbow "
                 "bends."),
                ("Nobody asked for this change: it is the first of those that the program would "
                 "try. Your coach decides.")};
            snprintf(handout->why.words[k], sizeof handout->why.words[k], "%s", why[k]);
        }
        const PlumbRect room =
            plumb_compose_handout(bench->scene, handout, (PlumbPortrait)(i % PLUMB_PORTRAIT_COUNT));
        assert_int_equal(room.width_mm > 0.0, handout->pictured);
        assert_room_is_empty(bench->scene, room);
        char what[32];
        snprintf(what, sizeof what, "case %d", i);
        assert_clear(bench->scene, what);
    }
    free(handout);
    assert_in_range(no_pose, 10, 450);
}

/* The student's page: the free body of the hips in place of drills and filming. */
static void compose_handout__student_s_page_has_a_free_body(void **state)
{
    Bench *bench = *state;
    unsigned long seed = 20260302;
    PlumbDrills drills;
    drills_of(&drills);
    PlumbHandout *const handout = malloc(sizeof *handout);
    PlumbExplanation *const explanation = malloc(sizeof *explanation);
    assert_non_null(handout);
    assert_non_null(explanation);
    const PlumbQuestion hips = {.kind = PLUMB_EXPLAIN_moment, .joint = PLUMB_JOINT_hip};
    const PlumbQuestion shoulder = {.kind = PLUMB_EXPLAIN_press_moment,
                                    .press = PLUMB_PRESS_JOINT_shoulder_adduction};
    int drawn[2] = {0, 0};
    for (int i = 0; i < 200; i++) {
        const bool press = i % 4 == 3;
        const PlumbQuestion question = press ? shoulder : hips;
        Two two = {.lifter = random_lifter(&seed)};
        const PlumbSetup before = press ? random_press_setup(&seed) : random_setup(&seed);
        PlumbSetup after = before;
        after.stance_m = press ? after.stance_m : between(&seed, 0.2, 1.0);
        after.arch_m = press ? between(&seed, 0.0, 0.15) : after.arch_m;
        plumb_solved_solve(&two.lifter, &before, &two.before);
        plumb_solved_solve(&two.lifter, &after, &two.after);
        const PlumbDrawing drawing = drawing_of_two(bench, &two);
        const PlumbBodySpec spec = plumb_body_spec(two.lifter.body.sex, two.lifter.body.stature_m,
                                                   two.lifter.body.mass_kg);
        PlumbExplainSubject subject = {.spec = &spec, .lifter = &two.lifter};
        subject.answer = press ? NULL : &two.after.pose;
        subject.press = press ? &two.after.press : NULL;
        if (plumb_changes_check(&two.before, &two.after, NULL) != PLUMB_OK ||
            plumb_explain(&subject, question, explanation, NULL) != PLUMB_OK) {
            continue;
        }
        const PlumbWorking working = {.subject = &subject,
                                      .explanation = explanation,
                                      .name = "",
                                      .date = "",
                                      .text_width = plumb_font_width,
                                      .text_user = bench->font};
        PlumbHandoutAsk ask = ask_of(&drawing, &two, &drills);
        ask.working = &working;
        assert_int_equal(plumb_handout_fill(&ask, handout, NULL), PLUMB_OK);
        plumb_compose_handout(bench->scene, handout, (PlumbPortrait)(i % PLUMB_PORTRAIT_COUNT));
        char what[32];
        snprintf(what, sizeof what, "student, case %d", i);
        assert_clear(bench->scene, what);
        assert_int_equal(count_text(bench->scene, "what to film next"), 0);
        assert_true(count_text(bench->scene, press ? "M = \xce\xa3" : "\xce\xa3 m g") > 0);
        drawn[press]++;
    }
    free(explanation);
    free(handout);
    assert_true(drawn[0] > 40);
    assert_true(drawn[1] > 10);
}

/* Texts as nobody should write them: markup, quotes, right to left, emoji, endless, broken. */
static void compose_handout__hostile_text_is_cut_and_escaped(void **state)
{
    Bench *bench = *state;
    static const char *const piece[] = {"<script>alert(1)</script>",
                                        "\"'&amp;\"",
                                        "\xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d",
                                        "\xd9\x85\xd8\xb1\xd8\xad\xd8\xa8\xd8\xa7",
                                        "\xf0\x9f\x8f\x8b\xf0\x9f\x8f\xbf",
                                        "wwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwwww",
                                        "\xff\xfe\x80",
                                        "a b "};
    PlumbSetup after = plumb_setup_default(PLUMB_DEADLIFT);
    const PlumbSetup before = after;
    after.stance_m += 0.06;
    const Two two = two_of(&before, &after);
    PlumbDrills drills;
    drills_of(&drills);
    char *const endless = malloc(10001);
    PlumbHandout *const handout = malloc(sizeof *handout);
    assert_non_null(endless);
    assert_non_null(handout);
    for (size_t p = 0; p < sizeof piece / sizeof piece[0]; p++) {
        size_t length = 0;
        while (length + strlen(piece[p]) <= 10000) {
            memcpy(endless + length, piece[p], strlen(piece[p]));
            length += strlen(piece[p]);
        }
        endless[length] = '\0';
        PlumbDrawing drawing = drawing_of_two(bench, &two);
        drawing.name = endless;
        drawing.pencil_name = endless;
        drawing.setup_name = endless;
        PlumbHandoutAsk ask = ask_of(&drawing, &two, &drills);
        ask.note = endless;
        assert_int_equal(plumb_handout_fill(&ask, handout, NULL), PLUMB_OK);
        plumb_compose_handout(bench->scene, handout, PLUMB_LETTER_PORTRAIT);
        assert_clear(bench->scene, piece[p]);
        assert_true(count_text(bench->scene, "\xe2\x80\xa6") > 0);
        PlumbBytes bytes = {.data = NULL};
        assert_int_equal(plumb_draw_svg(bench->scene, PLUMB_LIGHT_PAPER, &bytes, NULL), PLUMB_OK);
        char *const svg = calloc(bytes.length + 1, 1);
        memcpy(svg, bytes.data, bytes.length);
        assert_null(strstr(svg, "<script"));
        free(svg);
        plumb_bytes_free(&bytes);
        assert_int_equal(
            plumb_draw_pdf(bench->scene, PLUMB_LIGHT_PAPER, "2026-01-31T12:00:00Z", &bytes, NULL),
            PLUMB_OK);
        plumb_bytes_free(&bytes);
    }
    free(handout);
    free(endless);
}

static void drills_read__says_where_what_is_wrong_stands(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        int line;
        const char *field;
        const char *words;
    } row[] = {
        {"", 0, "about", "the first row names the columns"},
        {"about,lift,drill\n", 1, "about", "four cells"},
        {"about,lift,words,rests_on\n", 1, "drill", "the first row names the columns"},
        {"about,lift,drill,rests_on\nstanse,any,Do.,mine\n", 2, "about", "did you mean stance?"},
        {"about,lift,drill,rests_on\n# a note, with \"quotes\n\nstance,row,Do.,mine\n", 4, "lift",
         "deadlift, squat, bench or any"},
        {"about,lift,drill,rests_on\nstance,any,,mine\n", 2, "drill", "1 to 319 bytes"},
        {"about,lift,drill,rests_on\nstance,any,Do.,\n", 2, "rests_on", "common practice"},
        {"about,lift,drill,rests_on\nstance,any,\"Do.\n", 2, "about", "opened and not closed"},
    };
    PlumbDrills drills = {.count = 7};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        PlumbError error = {.line = 0};
        assert_int_equal(plumb_drills_read(row[i].bytes, strlen(row[i].bytes), &drills, &error),
                         PLUMB_BAD_INPUT);
        assert_int_equal(error.line, row[i].line);
        assert_string_equal(error.field, row[i].field);
        if (strstr(error.message, row[i].words) == NULL) {
            fail_msg("row %zu: \"%s\" lacks \"%s\"", i, error.message, row[i].words);
        }
        assert_int_equal(drills.count, 7);
    }
    static const char good[] =
        "\xef\xbb\xbf"
        "about,lift,drill,rests_on\r\nstance,squat,\"Sit, \"\"tall\"\".\",mine";
    assert_int_equal(plumb_drills_read(good, sizeof good - 1, &drills, NULL), PLUMB_OK);
    assert_int_equal(drills.count, 1);
    assert_string_equal(drills.drill[0].words, "Sit, \"tall\".");
    assert_null(plumb_drills_find(&drills, "stance", PLUMB_DEADLIFT));
    assert_non_null(plumb_drills_find(&drills, "stance", PLUMB_SQUAT));
}

/* The handout never asks for these, so no drill may either. */
static void drills_default__never_ask_for_what_is_forbidden(void **state)
{
    (void)state;
    static const char *const never[] = {"round", "lighter", "heavier", "half", "shallow", "kg"};
    PlumbDrills drills;
    drills_of(&drills);
    assert_true(drills.count >= 20);
    for (int i = 0; i < drills.count; i++) {
        for (size_t k = 0; k < sizeof never / sizeof never[0]; k++) {
            assert_null(strstr(drills.drill[i].words, never[k]));
        }
        assert_string_equal(drills.drill[i].rests_on, "common practice");
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(changes_check__refuses_what_no_athlete_may_be_asked),
        cmocka_unit_test(changes_check__names_what_is_too_much),
        cmocka_unit_test(changes_find__what_leads_is_told_by_hips_and_shins),
        cmocka_unit_test(changes_find__tells_touch_and_elbows_of_a_press),
        cmocka_unit_test(change_text__is_a_whole_sentence_for_every_setting),
        cmocka_unit_test(handout_fill__says_what_it_must),
        cmocka_unit_test(handout_fill__tells_a_press_as_the_other_lifts),
        cmocka_unit_test(handout_fill__looks_back_at_more_than_two_changes),
        cmocka_unit_test(compose_handout__nothing_overlaps_in_500_random_cases),
        cmocka_unit_test(compose_handout__student_s_page_has_a_free_body),
        cmocka_unit_test(compose_handout__hostile_text_is_cut_and_escaped),
        cmocka_unit_test(drills_read__says_where_what_is_wrong_stands),
        cmocka_unit_test(drills_default__never_ask_for_what_is_forbidden),
    };
    return cmocka_run_group_tests(tests, bench_open, bench_close);
}
