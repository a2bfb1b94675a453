/* SPDX-License-Identifier: MIT */
/* Workings: their terms, as printed, add up to the result as printed, which is the program's. */
#include "support.h"

#include "motion.h"
#include "press_sample.h"

#include <plumbar/explain.h>

#include <stdlib.h>
#include <string.h>

enum {
    CELL = 64,
    PRESS_ONLY = 23, /* questions of the press alone */
    ENDS = 4,        /* of window and low-effort range */
    PULL_ONLY = 1, /* the room below the hips; the gap to the leg and the shoulder's effort apart */
    SQUAT_ONLY = 1 /* the bar off the balance point, standing */
};

static PlumbExplanation explanation;

/* A lifter with some lengths measured, some asked for in standard deviations, some taped. */
static void random_subject(Random *random, PlumbBodySpec *spec, PlumbLifter *lifter)
{
    for (;;) {
        const PlumbSex sex = random_one_in(random, 2) ? PLUMB_MALE : PLUMB_FEMALE;
        *spec = plumb_body_spec(sex, random_between(random, 1.5, 1.98),
                                random_between(random, 50.0, 130.0));
        spec->age_years = random_one_in(random, 2) ? random_between(random, 16.0, 80.0) : 0.0;
        spec->length_table = random_one_in(random, 5) ? PLUMB_CLASSIC : PLUMB_SURVEY;
        spec->mass_table = random_one_in(random, 5) ? PLUMB_CLASSIC : PLUMB_SURVEY;
        const double h = spec->stature_m;
        const double taped[PLUMB_TAPE_COUNT] = {[PLUMB_TAPE_sitting_height] = 0.522 * h,
                                                [PLUMB_TAPE_buttock_to_knee] = 0.350 * h,
                                                [PLUMB_TAPE_knee_height_sitting] = 0.318 * h,
                                                [PLUMB_TAPE_span] = 1.03 * h,
                                                [PLUMB_TAPE_shoulder_to_elbow] = 0.207 * h,
                                                [PLUMB_TAPE_elbow_to_wrist] = 0.156 * h,
                                                [PLUMB_TAPE_foot] = 0.153 * h,
                                                [PLUMB_TAPE_heel_to_ankle_bone] = 0.039 * h,
                                                [PLUMB_TAPE_floor_to_fingertips] = 0.375 * h};
        for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
            if (random_one_in(random, 3)) {
                spec->tape[i].kind = PLUMB_MEASURE_LENGTH;
                spec->tape[i].value = taped[i] * random_between(random, 0.98, 1.02);
            }
        }
        static const PlumbLength varied[] = {PLUMB_LEN_thigh, PLUMB_LEN_trunk, PLUMB_LEN_upper_arm,
                                             PLUMB_LEN_hip_joint_spacing};
        for (size_t i = 0; i < sizeof varied / sizeof varied[0]; i++) {
            if (random_one_in(random, 4)) {
                spec->measure[varied[i]].kind = PLUMB_MEASURE_SPREAD;
                spec->measure[varied[i]].value = random_between(random, -1.5, 1.5);
            }
        }
        if (random_one_in(random, 4)) {
            spec->measure[PLUMB_LEN_shank].kind = PLUMB_MEASURE_LENGTH;
            spec->measure[PLUMB_LEN_shank].value = 0.236 * h;
        }
        PlumbBody body;
        if (plumb_body_build(spec, &body, NULL) == PLUMB_OK) {
            *lifter = plumb_lifter_default(&body);
            for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
                lifter->strength[i] = random_between(random, 0.6, 2.0);
            }
            return;
        }
    }
}

/* The figure as it is printed, read back as a whole number of units of its last digit. */
static double printed(double value, int decimals)
{
    char cell[CELL];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_fixed(&text, value, decimals);
    assert_false(text.cut);
    return round(strtod(cell, NULL) * pow(10.0, decimals));
}

/* Terms apart are each the sum of two products. */
static void check_apart(const PlumbExplainStep *step)
{
    assert_int_equal(step->column_count, 5);
    for (int i = 0; i < step->term_count; i++) {
        const double *const v = step->term[i].value;
        assert_near(v[0] * v[1] + v[2] * v[3], v[4], 1e-12);
    }
}

static void check_step(const PlumbExplainStep *step)
{
    if (step->apart) {
        check_apart(step);
        return;
    }
    const int last = step->column_count - 1;
    const int digits = step->column[last].decimals;
    double sum = 0.0;
    for (int i = 0; i < step->term_count; i++) {
        sum += printed(step->term[i].value[last], digits);
    }
    const double shown = sum / pow(10.0, digits - step->decimals);
    assert_near(round(shown), printed(step->result, step->decimals), 0.0);
    assert_true(digits < 12);
    assert_true(step->words[0] != '\0' && step->symbols[0] != '\0' && step->title[0] != '\0');
}

static void check_numbers(void)
{
    assert_true(explanation.number_count > 0 && explanation.symbol_count > 0);
    for (int i = 0; i < explanation.number_count; i++) {
        const PlumbExplainNumber *number = &explanation.number[i];
        assert_true(isfinite(number->value));
        for (int k = 0; k < 2; k++) {
            if (number->row[k] != NULL) {
                assert_true(number->row[k]->citation[0] != '\0');
                assert_true(number->row[k]->basis[0] != '\0');
            }
        }
    }
}

/* Whether a number has a row wherever the lifter or the set-up did not give it. */
static void check_rows(void)
{
    static const char *const without[] = {"given",
                                          "measured",
                                          "solved pose",
                                          "body mass and load",
                                          "sum of m (g + ay)",
                                          "sum of m g",
                                          "sum of m ax",
                                          "what leaves no force over",
                                          "foot's length and toes",
                                          "this body",
                                          "lengths and settings below",
                                          "converted from tape"};
    for (int i = 0; i < explanation.number_count; i++) {
        const PlumbExplainNumber *number = &explanation.number[i];
        bool allowed = number->row[0] != NULL || number->row[1] != NULL;
        for (size_t k = 0; k < sizeof without / sizeof without[0]; k++) {
            allowed = allowed || strcmp(number->basis, without[k]) == 0;
        }
        /* A disc or bar of the lifter's own. */
        if (!allowed) {
            fail_msg("%s (%s) has no row", number->words, number->basis);
        }
    }
}

static bool is_end(PlumbExplainKind kind)
{
    return kind >= PLUMB_EXPLAIN_window_low && kind <= PLUMB_EXPLAIN_range_high;
}

/* How many of the four ends a requirement sets. flare_m: the touch at which the upper arm of a
 * press stands as far out as it may. */
static int ends_of(const PlumbInterval *window, const PlumbInterval *range, double flare_m)
{
    const PlumbInterval *const interval[2] = {window, range};
    int count = 0;
    for (int i = 0; i < ENDS; i++) {
        const PlumbInterval *const of = interval[i / 2];
        const PlumbEnd end = i % 2 == 0 ? of->low_end : of->high_end;
        const double value = i % 2 == 0 ? of->low : of->high;
        const bool none = end == PLUMB_END_none || end == PLUMB_END_no_pose ||
                          end == PLUMB_END_elbows_out_of_reach ||
                          (end == PLUMB_END_upper_arm_flared && fabs(value - flare_m) > 1e-9);
        count += of->exists && !none ? 1 : 0;
    }
    return count;
}

/* At an end nothing is left of its requirement. 1e-6 m or rad: the search for the end, 1e-9, times
 * how fast an angle may change. */
static void check_end(void)
{
    if (explanation.step_count > 1) {
        const PlumbExplainStep *const left = &explanation.step[explanation.step_count - 2];
        assert_string_equal(left->symbol, "R");
        assert_near(left->result, 0.0, 1e-6);
    }
}

static int check_all(const PlumbExplainSubject *asked)
{
    static PlumbExplainRoom room;
    int explained = 0;
    for (int i = 0; i < plumb_question_count(); i++) {
        PlumbError error;
        const PlumbQuestion question = plumb_question(i);
        const PlumbExplainSubject placed = plumb_explain_place(asked, question, &room);
        const PlumbExplainSubject *const subject = &placed;
        if (plumb_explain(subject, question, &explanation, &error) != PLUMB_OK) {
            continue;
        }
        const PlumbExplainStep *final = &explanation.step[explanation.step_count - 1];
        const double scale = fmax(1.0, fabs(explanation.program));
        /* rad of an angle: an arm that is nearly straight bends by the root of rounding. */
        const double rounding = explanation.quantity == PLUMB_Q_ANGLE ? 1e-8 : 1e-9;
        if (!(fabs(final->result - explanation.program) <= rounding * scale)) {
            fail_msg("%s: %.15g, the program %.15g", explanation.title, final->result,
                     explanation.program);
        }
        assert_near(printed(final->result, final->decimals),
                    printed(explanation.program, final->decimals), 0.0);
        for (int k = 0; k < explanation.step_count; k++) {
            check_step(&explanation.step[k]);
        }
        if (is_end(question.kind)) {
            check_end();
        }
        check_numbers();
        check_rows();
        explained++;
    }
    return explained;
}

static void terms__add_up_to_the_program_in_any_case(void **state)
{
    (void)state;
    Random random = random_begin(0x6578706c61696eu);
    int positions = 0;
    int motions = 0;
    int counted = 0;
    for (int i = 0; i < 120; i++) {
        PlumbBodySpec spec;
        PlumbLifter lifter;
        random_subject(&random, &spec, &lifter);
        const PlumbSetup setup =
            random_setup(&random, &lifter, i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT);
        PlumbAnswer answer;
        plumb_answer_solve(&lifter, &setup, &answer);
        PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter, .answer = &answer};
        if (answer.outcome == PLUMB_NO_POSE) {
            subject.answer = NULL;
            assert_int_equal(check_all(&subject), PLUMB_LENGTH_COUNT);
            continue;
        }
        /* The effort of a squat's shoulder, and its gap to the leg. */
        const bool pull = setup.lift == PLUMB_DEADLIFT;
        const int shoulder = pull ? 0 : 2;
        lifter.strength_entered = i % 3 == 0;
        const int ends = ends_of(&answer.window, &answer.low_effort, 0.0);
        const int room = pull && !answer.window.exists ? 1 : 0;
        const int all = plumb_question_count() - PRESS_ONLY - shoulder - (ENDS - ends) - room -
                        (pull ? SQUAT_ONLY : PULL_ONLY);
        const int missing = answer.end_held ? 0 : pull ? 1 : 2;
        assert_int_equal(check_all(&subject), all - missing);
        counted += ends;
        positions++;
        if (!answer.end_held) {
            continue;
        }
        subject.at_end = true;
        assert_int_equal(check_all(&subject), all);
        PlumbMotionPoint point;
        PlumbError error;
        if (plumb_motion_at(&lifter, &answer, 1.3, random_between(&random, 0.1, 1.2), &point,
                            &error) == PLUMB_OK &&
            point.held) {
            subject.motion = &point;
            /* Moments, arms, balance, angles and distances, and the lengths. */
            assert_int_equal(check_all(&subject),
                             11 + 16 - (pull ? 0 : 1) + ends + PLUMB_LENGTH_COUNT);
            motions++;
        }
    }
    print_message("  %d poses, %d instants in motion, %d ends\n", positions, motions, counted);
    assert_true(positions > 80 && motions > 50 && counted > 200);
}

/* Every figure of random presses, at the touch and at the lockout. */
static void terms__add_up_to_the_program_in_a_press(void **state)
{
    (void)state;
    int explained = 0;
    int motions = 0;
    for (int i = 0; i < 120; i++) {
        Random random = random_begin(0x70726573u + (uint64_t)i);
        PlumbBodySpec spec;
        PlumbLifter lifter;
        random_subject(&random, &spec, &lifter);
        const PlumbSetup setup = random_press(&random, &lifter);
        PlumbPressAnswer answer;
        plumb_press_solve(&lifter, &setup, &answer);
        PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter, .press = &answer};
        if (answer.outcome == PLUMB_NO_POSE) {
            assert_int_equal(check_all(&subject), PLUMB_LENGTH_COUNT);
            continue;
        }
        const double flare = lifter.limit_rad[PLUMB_LIMIT_press_abduction];
        const double most = answer.setup.elbows_given ? answer.setup.elbows_rad : flare;
        const int ends =
            ends_of(&answer.window, &answer.low_effort, lifter.body.upper_arm_m * cos(most));
        const int upright = isnan(answer.elbows_upright_rad) ? 1 : 0;
        for (int end = 0; end < 2; end++) {
            subject.at_end = end == 1;
            /* Its own figures, travel, summed effort, ends, and the lengths. */
            assert_int_equal(check_all(&subject),
                             PRESS_ONLY + 2 + ends - upright + PLUMB_LENGTH_COUNT);
            explained++;
        }
        PlumbPressMotionPoint point;
        if (plumb_press_motion_at(&lifter, &answer, 1.5, random_between(&random, 0.0, 1.5), &point,
                                  NULL) == PLUMB_OK) {
            subject.press_motion = &point;
            /* Moments, arms, angles and the elbow's places, and the lengths. */
            assert_int_equal(check_all(&subject), 14 + ends + PLUMB_LENGTH_COUNT);
            motions++;
        }
    }
    assert_true(explained > 120 && motions > 30);
}

/* Elbow under the bar: the bar's term of the flexion moment is half its weight times the touch. */
static void press_moment__bar_by_hand(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    plumb_setup_set(&setup, PLUMB_SET_touch, 0.12);
    setup.load_kg = 140.0;
    PlumbPressAnswer answer;
    plumb_press_solve(&lifter, &setup, &answer);
    const PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter, .press = &answer};
    PlumbQuestion question;
    assert_true(plumb_question_find("flexion_moment", 14, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
    const PlumbExplainStep *step = &explanation.step[0];
    assert_int_equal(step->term_count, 4);
    assert_near(step->term[0].value[2], 0.5 * 140.0 * 9.80665 * 0.12, 1e-9);
    PlumbError error;
    assert_true(plumb_question_find("hip_moment", 10, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "flexion_moment"));
}

/* 85 kg man, hip at rest: the bar's term alone is 180 kg × g × its lever. */
static void moment__bar_by_hand(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.load_kg = 180.0;
    PlumbAnswer answer;
    plumb_answer_solve(&lifter, &setup, &answer);
    const PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter, .answer = &answer};
    PlumbQuestion question;
    assert_true(plumb_question_find("hip_moment", 10, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
    const PlumbExplainStep *step = &explanation.step[0];
    assert_int_equal(step->term_count, 7);
    assert_string_equal(step->term[6].words, "bar");
    const double lever = answer.start.bar_arm_m[PLUMB_JOINT_hip];
    assert_near(step->term[6].value[3], 180.0 * 9.80665 * lever, 1e-9);
    assert_near(step->result, answer.start.moment_both_n_m[PLUMB_JOINT_hip], 1e-9);
}

/* Lengths that end in half of the last digit shown, as those of statures in half centimetres do. */
static void terms__add_up_at_halves_of_a_digit(void **state)
{
    (void)state;
    PlumbQuestion question;
    assert_true(plumb_question_find("crease_above_knee", 17, &question));
    int held = 0;
    for (int i = 0; i < 200; i++) {
        const PlumbBodySpec spec =
            plumb_body_spec(i % 2 == 0 ? PLUMB_MALE : PLUMB_FEMALE, (1500.0 + 2.5 * i) / 1000, 75);
        PlumbBody body;
        assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
        const PlumbLifter lifter = plumb_lifter_default(&body);
        const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
        PlumbAnswer answer;
        plumb_answer_quick(&lifter, &setup, &answer);
        const PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter, .answer = &answer};
        if (plumb_explain(&subject, question, &explanation, NULL) == PLUMB_OK) {
            check_step(&explanation.step[0]);
            held++;
        }
    }
    assert_true(held > 150);
}

/* The figure of the number named so; 0 where none is. */
static double number_of(const char *words)
{
    for (int i = 0; i < explanation.number_count; i++) {
        if (strcmp(explanation.number[i].words, words) == 0) {
            return explanation.number[i].value;
        }
    }
    return 0.0;
}

static double column_sum(int column)
{
    const PlumbExplainStep *const step = &explanation.step[0];
    double sum = 0.0;
    for (int i = 0; i < step->term_count; i++) {
        sum += step->term[i].value[column];
    }
    return sum;
}

static bool notes_hold(const char *words)
{
    for (int i = 0; i < explanation.note_count; i++) {
        if (strstr(explanation.note[i], words) != NULL) {
            return true;
        }
    }
    return false;
}

/* The part cut free stands: the forces of its terms and the joint's leave none over. */
static void joint_force__leaves_none_over(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_FEMALE, 1.68, 64.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.feet_push_frac = 0.12;
    PlumbAnswer answer;
    plumb_answer_solve(&lifter, &setup, &answer);
    PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter, .answer = &answer};
    static const char *const sagittal[] = {"hip_moment", "back_moment", "knee_moment",
                                           "ankle_moment", "shoulder_moment"};
    PlumbQuestion question;
    for (size_t i = 0; i < 5; i++) {
        assert_true(plumb_question_find(sagittal[i], strlen(sagittal[i]), &question));
        assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
        assert_near(number_of("R, up"), column_sum(0) * 9.80665, 1e-9);
    }
    assert_true(plumb_question_find("balance", 7, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
    assert_near(number_of("F, force of the floor"), column_sum(0) * 9.80665, 1e-9);
    static const char *const space[] = {"knee_extension", "knee_frontal", "ankle_along_foot",
                                        "hip_frontal"};
    for (size_t i = 0; i < 4; i++) {
        assert_true(plumb_question_find(space[i], strlen(space[i]), &question));
        assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
        assert_near(number_of("R, up") + column_sum(0), 0.0, 1e-9);
        assert_near(number_of("R, to the right") + column_sum(1), 0.0, 1e-9);
        assert_true(number_of("R, to the right") > 10.0);
    }
    PlumbSetup press_setup = plumb_setup_default(PLUMB_BENCH);
    press_setup.hands_push_frac = 0.2;
    PlumbPressAnswer press;
    plumb_press_solve(&lifter, &press_setup, &press);
    subject = (PlumbExplainSubject){.spec = &spec, .lifter = &lifter, .press = &press};
    assert_true(plumb_question_find("adduction_moment", 16, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
    assert_near(number_of("R, up"), column_sum(0), 1e-9);
    assert_near(number_of("R, outwards"), 0.2 * 0.5 * press_setup.load_kg * 9.80665, 1e-9);
}

/* At the lockout the knees are held by their flexors, at the start by their extensors; the leg is
 * swung outwards where the floor's force acts outside the hip, and the words say so. */
static void words__say_who_supplies_the_moment(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    const PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbAnswer answer;
    plumb_answer_solve(&lifter, &setup, &answer);
    PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter, .answer = &answer};
    PlumbQuestion question;
    assert_true(plumb_question_find("knee_effort", 11, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
    assert_true(answer.start.moment_both_n_m[PLUMB_JOINT_knee] > 0.0);
    assert_false(notes_hold("knee flexors"));
    subject.at_end = true;
    assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
    assert_true(answer.end.moment_both_n_m[PLUMB_JOINT_knee] < 0.0);
    assert_true(notes_hold("knee flexors"));
    assert_true(plumb_question_find("hip_frontal", 11, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
    assert_true(explanation.step[0].term[0].value[4] > 0.0); /* the floor's force, outside */
    assert_true(explanation.program < 0.0);
    assert_non_null(strstr(explanation.symbol[0].words, "negative: they swing it outwards"));
}

/* What a person reads: five decimals at most and no zeros at the end, a force to a tenth. */
static void number__is_as_long_as_it_must(void **state)
{
    (void)state;
    static const struct {
        PlumbExplainNumber number;
        const char *words;
    } cases[] = {
        {{.words = "g", .value = 9.80665, .unit = "m/s2"}, "g 9.80665 m/s2"},
        {{.words = "load", .value = 140.0, .unit = "kg"}, "load 140 kg"},
        {{.words = "toes", .value = 0.0, .unit = "rad"}, "toes 0 rad"},
        {{.words = "n, up", .value = -0.5, .unit = ""}, "n, up -0.5"},
        {{.words = "spine", .value = 0.2617993878, .unit = "rad"}, "spine 0.2618 rad"},
        {{.words = "R, up", .value = 1875.6149, .unit = "N"}, "R, up 1875.6 N"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        char words[CELL];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_explain_put_number(&text, &cases[i].number);
        assert_string_equal(words, cases[i].words);
    }
}

/* The factor of a tape can be worked out from the numbers that are listed. */
static void tape__lists_what_its_factor_is_made_of(void **state)
{
    (void)state;
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    spec.tape[PLUMB_TAPE_buttock_to_knee] =
        (PlumbMeasure){.kind = PLUMB_MEASURE_LENGTH, .value = 0.64};
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    const PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter};
    PlumbQuestion question;
    assert_true(plumb_question_find("thigh", 5, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
    const double length = number_of("mean of the length / stature");
    const double measure = number_of("mean of the measure / stature");
    assert_near(measure, 0.35186, 1e-9); /* ANSUR II, men: survey.csv */
    assert_near(explanation.step[0].term[0].value[1], length / measure, 1e-12);
}

static bool lists_length(PlumbLength length)
{
    for (int i = 0; i < explanation.number_count; i++) {
        const char *words = explanation.number[i].words;
        const char *name = plumb_length_name(length);
        while (*words != '\0' && (*words == *name || (*words == ' ' && *name == '_'))) {
            words++;
            name++;
        }
        if (*words == '\0' && *name == '\0') {
            return true;
        }
    }
    return false;
}

/* The figure of a lifter whose lengths are as they are, or one of them a millimetre longer. */
static double figure_with(const PlumbSetup *setup, int longer, double shaft_m, double disc_m,
                          const char *name)
{
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    if (longer >= 0) {
        spec.measure[longer] =
            (PlumbMeasure){.kind = PLUMB_MEASURE_LENGTH, .value = body.length_m[longer] + 0.001};
        assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    }
    PlumbLifter lifter = plumb_lifter_default(&body);
    lifter.equipment.shaft_diameter_m += shaft_m;
    lifter.equipment.disc_diameter_m += disc_m;
    PlumbAnswer answer;
    PlumbPressAnswer press;
    PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter};
    if (setup->lift == PLUMB_BENCH) {
        plumb_press_solve(&lifter, setup, &press);
        subject.press = &press;
    } else {
        plumb_answer_quick(&lifter, setup, &answer);
        subject.answer = &answer;
    }
    PlumbQuestion question;
    assert_true(plumb_question_find(name, strlen(name), &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, NULL), PLUMB_OK);
    return explanation.program;
}

/* What moves a figure stands among its numbers: each length of the body, bar and disc. */
static void numbers__name_all_that_moves_the_figure(void **state)
{
    (void)state;
    static const struct {
        PlumbLift lift;
        PlumbSeat seat;
        const char *question;
    } cases[] = {
        {PLUMB_DEADLIFT, PLUMB_HIGH_BAR, "hip_moment"},
        {PLUMB_DEADLIFT, PLUMB_HIGH_BAR, "travel"},
        {PLUMB_DEADLIFT, PLUMB_HIGH_BAR, "hip_frontal"},
        {PLUMB_DEADLIFT, PLUMB_HIGH_BAR, "hip_flexion"},
        {PLUMB_SQUAT, PLUMB_HIGH_BAR, "hip_moment"},
        {PLUMB_SQUAT, PLUMB_LOW_BAR, "travel"},
        {PLUMB_SQUAT, PLUMB_FRONT_BAR, "back_angle"},
        {PLUMB_BENCH, PLUMB_HIGH_BAR, "flexion_moment"},
        {PLUMB_BENCH, PLUMB_HIGH_BAR, "elbow_moment"},
        {PLUMB_BENCH, PLUMB_HIGH_BAR, "travel"},
    };
    int moved = 0;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        PlumbSetup setup = plumb_setup_default(cases[i].lift);
        plumb_setup_seat(&setup, cases[i].seat);
        if (cases[i].lift == PLUMB_BENCH) {
            plumb_setup_set(&setup, PLUMB_SET_grip, 0.6);
            setup.grip_by_build = false;
            plumb_setup_set(&setup, PLUMB_SET_touch, 0.11);
        } else {
            setup.heel_lift_m = 0.015;
        }
        if (cases[i].lift == PLUMB_SQUAT) {
            plumb_setup_set(&setup, PLUMB_SET_shin_angle, 0.5);
        }
        const double was = figure_with(&setup, -1, 0.0, 0.0, cases[i].question);
        for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
            const double is = figure_with(&setup, k, 0.0, 0.0, cases[i].question);
            if (fabs(is - was) > 1e-7) {
                moved++;
                if (!lists_length((PlumbLength)k)) {
                    fail_msg("%s of case %zu: %s moves it and is not listed", cases[i].question, i,
                             plumb_length_name((PlumbLength)k));
                }
            }
        }
        if (fabs(figure_with(&setup, -1, 0.001, 0.0, cases[i].question) - was) > 1e-7) {
            assert_true(number_of("bar diameter") > 0.0);
        }
        if (fabs(figure_with(&setup, -1, 0.0, 0.001, cases[i].question) - was) > 1e-7) {
            assert_true(number_of("disc diameter") > 0.0);
        }
    }
    assert_true(moved > 60);
    /* The rules' bar has a row, another is the lifter's own. */
    const PlumbSetup pull = plumb_setup_default(PLUMB_DEADLIFT);
    for (int own = 0; own < 2; own++) {
        figure_with(&pull, -1, own == 1 ? 0.001 : 0.0, 0.0, "hip_moment");
        for (int i = 0; i < explanation.number_count; i++) {
            if (strcmp(explanation.number[i].words, "bar diameter") == 0) {
                assert_int_equal(explanation.number[i].row[0] == NULL, own == 1);
            }
        }
    }
}

static void questions__have_names_that_find_them(void **state)
{
    (void)state;
    for (int i = 0; i < plumb_question_count(); i++) {
        char name[CELL];
        PlumbText text = plumb_text_begin(name, sizeof name);
        plumb_question_name(&text, plumb_question(i));
        PlumbQuestion found;
        assert_true(plumb_question_find(name, strlen(name), &found));
        char again[CELL];
        text = plumb_text_begin(again, sizeof again);
        plumb_question_name(&text, found);
        assert_string_equal(name, again);
    }
    PlumbQuestion none;
    assert_false(plumb_question_find("hip_moments", 11, &none));
    char near[CELL];
    PlumbText text = plumb_text_begin(near, sizeof near);
    assert_true(plumb_question_nearest("hip_momnt", 9, &text));
    assert_string_equal(near, "hip_moment");
    text = plumb_text_begin(near, sizeof near);
    assert_false(plumb_question_nearest("zzzzzzzz", 8, &text));
}

/* Whether the README names it; joints' figures and lengths stand there as kinds. */
static void questions__stand_in_the_readme(void **state)
{
    (void)state;
    static char readme[1 << 19];
    FILE *const file = fopen(PLUMB_SOURCE_DIR "/README.md", "rb");
    assert_non_null(file);
    const size_t length = fread(readme, 1, sizeof readme - 1, file);
    fclose(file);
    assert_true(length > 0 && length < sizeof readme - 1);
    for (int i = 0; i < plumb_question_count(); i++) {
        const PlumbQuestion question = plumb_question(i);
        if (question.kind <= PLUMB_EXPLAIN_effort || question.kind == PLUMB_EXPLAIN_length) {
            continue;
        }
        char name[CELL];
        PlumbText text = plumb_text_begin(name, sizeof name);
        plumb_text_char(&text, '`');
        plumb_question_name(&text, question);
        plumb_text_char(&text, '`');
        if (strstr(readme, name) == NULL) {
            fail_msg("the README does not name %s", name);
        }
    }
}

static void explain__refuses_what_there_is_not(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_SQUAT);
    plumb_setup_set(&setup, PLUMB_SET_shin_angle, 0.5);
    PlumbAnswer answer;
    plumb_answer_quick(&lifter, &setup, &answer);
    PlumbExplainSubject subject = {.spec = &spec, .lifter = &lifter, .answer = &answer};
    PlumbError error;
    PlumbQuestion question;
    assert_true(plumb_question_find("shoulder_effort", 15, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "shoulder"));
    assert_true(plumb_question_find("window_low", 10, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "no window"));
    plumb_answer_solve(&lifter, &setup, &answer);
    assert_int_equal(plumb_explain(&subject, question, &explanation, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "not looked for"));
    assert_true(plumb_question_find("hip_room", 8, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, &error), PLUMB_BAD_INPUT);
    answer.outcome = PLUMB_NO_POSE;
    assert_true(plumb_question_find("balance", 7, &question));
    assert_int_equal(plumb_explain(&subject, question, &explanation, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "no pose"));
}

/* Each row of constants.csv stands in the file that it names; the value of gravity is the code's.
 */
static void constants__stand_in_the_code(void **state)
{
    (void)state;
    int checked = 0;
    for (int i = 0; i < plumb_source_row_count(); i++) {
        const PlumbSourceRow *row = plumb_source_row(i);
        if (strcmp(row->file, "constants.csv") != 0) {
            continue;
        }
        char path[512];
        char wanted[256];
        assert_int_equal(sscanf(strstr(row->figures, "file "), "file %250[^,]", wanted), 1);
        snprintf(path, sizeof path, "%s/%s", PLUMB_SOURCE_DIR, wanted);
        const char *text = strstr(row->figures, ", text ") + strlen(", text ");
        FILE *file = fopen(path, "rb");
        if (file == NULL) {
            fail_msg("%s: no such file", path);
        }
        static char source[1 << 17];
        source[fread(source, 1, sizeof source - 1, file)] = '\0';
        fclose(file);
        if (strstr(source, text) == NULL) {
            fail_msg("%s does not hold \"%s\"", wanted, text);
        }
        checked++;
    }
    assert_true(checked >= 10);
    assert_non_null(strstr(plumb_source_find("constants.csv", "gravity")->figures, "9.80665"));
    assert_near(PLUMB_GRAVITY, 9.80665, 0.0);
}

static void sources__every_row_has_basis_and_citation(void **state)
{
    (void)state;
    assert_true(plumb_source_row_count() > 200);
    for (int i = 0; i < plumb_source_row_count(); i++) {
        const PlumbSourceRow *row = plumb_source_row(i);
        if (row->basis[0] == '\0' || row->citation[0] == '\0' || row->figures[0] == '\0') {
            fail_msg("%s, %s: basis, citation or figures are missing", row->file, row->key);
        }
        assert_ptr_equal(plumb_source_find(row->file, row->key), row);
    }
    assert_null(plumb_source_find("masses.csv", "male tail"));
    assert_string_equal(plumb_source_find("masses.csv", "male thorax")->source, "deleva1996");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(terms__add_up_to_the_program_in_any_case),
        cmocka_unit_test(terms__add_up_to_the_program_in_a_press),
        cmocka_unit_test(moment__bar_by_hand),
        cmocka_unit_test(press_moment__bar_by_hand),
        cmocka_unit_test(terms__add_up_at_halves_of_a_digit),
        cmocka_unit_test(joint_force__leaves_none_over),
        cmocka_unit_test(words__say_who_supplies_the_moment),
        cmocka_unit_test(number__is_as_long_as_it_must),
        cmocka_unit_test(tape__lists_what_its_factor_is_made_of),
        cmocka_unit_test(numbers__name_all_that_moves_the_figure),
        cmocka_unit_test(questions__have_names_that_find_them),
        cmocka_unit_test(questions__stand_in_the_readme),
        cmocka_unit_test(explain__refuses_what_there_is_not),
        cmocka_unit_test(constants__stand_in_the_code),
        cmocka_unit_test(sources__every_row_has_basis_and_citation),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
