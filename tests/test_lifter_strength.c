/* SPDX-License-Identifier: MIT */
/* Best lifts and the lunge in a lifter file: what they set, what is refused and where, and that
 * they are written as they were read. */
#include "support.h"

#include <plumbar/lifter_file.h>

#include <stdlib.h>
#include <string.h>

#define HEAD                                                                                       \
    "lifter:\n"                                                                                    \
    "  sex: male\n"                                                                                \
    "  stature: 178 cm\n"                                                                          \
    "  mass: 85 kg\n"

static PlumbLifter lifter_of(const char *bytes)
{
    PlumbLifterFile *file = NULL;
    PlumbLifter lifter;
    PlumbError error;
    if (plumb_lifter_file_parse(bytes, strlen(bytes), NULL, &file, &error) != PLUMB_OK) {
        fail_msg("%d:%d: %s: %s", error.line, error.column, error.field, error.message);
    }
    assert_int_equal(plumb_lifter_file_lifter(file, &lifter, &error), PLUMB_OK);
    plumb_lifter_file_free(file);
    return lifter;
}

static double largest_effort(const PlumbLifter *lifter, PlumbLift lift, double load_kg)
{
    PlumbSetup setup = plumb_setup_default(lift);
    PlumbAnswer answer;
    setup.load_kg = load_kg;
    plumb_answer_solve(lifter, &setup, &answer);
    double largest = 0.0;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        largest = fmax(largest, answer.start.relative_effort[i]);
    }
    return largest;
}

static void plumb_lifter_file__best_lifts_set_strength(void **state)
{
    (void)state;
    const PlumbLifter one = lifter_of(HEAD "strength:\n  best:\n    squat: 160 kg x 3\n");
    assert_true(one.strength_entered);
    assert_near(largest_effort(&one, PLUMB_SQUAT, plumb_best_single_kg(160.0, 3, 0)), 1.0, 1e-9);
    const PlumbLifter two = lifter_of(HEAD "strength: {best: {squat: 160 kg x 3, deadlift: 200 kg "
                                           "x 1 @ 2}}\n");
    const double squat = largest_effort(&two, PLUMB_SQUAT, plumb_best_single_kg(160.0, 3, 0));
    const double pull = largest_effort(&two, PLUMB_DEADLIFT, plumb_best_single_kg(200.0, 1, 2));
    assert_near(fmax(squat, pull), 1.0, 1e-9);
    assert_true(fmin(squat, pull) < 1.0);
    const PlumbLifter own = lifter_of(HEAD "strength:\n  hip: 1.5\n  best:\n    squat: 160 kg\n");
    assert_near(own.strength[PLUMB_JOINT_hip], 1.5, 0);
    assert_true(fabs(own.strength[PLUMB_JOINT_knee] - 1.5) > 1e-3);
    assert_false(lifter_of(HEAD).strength_entered);
    assert_false(lifter_of(HEAD "strength:\n  best:\n").strength_entered);
}

static void plumb_lifter_file__lunge_sets_the_ankle(void **state)
{
    (void)state;
    const PlumbLimit ankle = PLUMB_LIMIT_ankle_dorsiflexion;
    const PlumbLifter plain = lifter_of(HEAD);
    const PlumbLifter taped = lifter_of(HEAD "limits: {lunge: 10 cm}\n");
    assert_near(taped.limit_rad[ankle], plumb_lunge_dorsiflexion_rad(&plain.body, 0.10), 1e-12);
    assert_true(taped.limit_entered[ankle]);
    const PlumbLifter read = lifter_of(HEAD "limits:\n  lunge: 36 deg\n");
    assert_near(read.limit_rad[ankle], 36.0 * 3.14159265358979323846 / 180.0, 1e-12);
}

static void plumb_lifter_file__refuses_with_a_place(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        int line;
        const char *field;
        const char *piece;
    } rows[] = {
        {HEAD "limits:\n  lunge: 10\n", 6, "limits.lunge", "10 cm"},
        {HEAD "limits:\n  lunge: 60 cm\n", 6, "limits.lunge", "0 cm to 30 cm"},
        {HEAD "limits:\n  lunge: 9 cm\n  ankle_dorsiflexion: 35 deg\n", 6, "limits.lunge",
         "give one of them"},
        {HEAD "strength:\n  best:\n    squat: 160\n", 7, "strength.best.squat", "160 kg x 3"},
        {HEAD "strength:\n  best:\n    squat: 160 kg x 20\n", 7, "strength.best.squat",
         "1 to 12 repetitions"},
        {HEAD "strength:\n  best:\n    sqat: 160 kg\n", 7, "strength.best.sqat",
         "did you mean squat?"},
        {HEAD "strength:\n  best: 160 kg\n", 6, "strength.best", "are allowed here"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        PlumbLifterFile *file = NULL;
        PlumbError error;
        assert_int_equal(
            plumb_lifter_file_parse(rows[i].bytes, strlen(rows[i].bytes), NULL, &file, &error),
            PLUMB_BAD_INPUT);
        assert_null(file);
        assert_string_equal(error.field, rows[i].field);
        assert_int_equal(error.line, rows[i].line);
        if (strstr(error.message, rows[i].piece) == NULL) {
            fail_msg("%s lacks %s", error.message, rows[i].piece);
        }
    }
}

static void plumb_lifter_file__writes_what_it_read(void **state)
{
    (void)state;
    static const char *const settings[][2] = {
        {"sex", "male"},
        {"stature", "178 cm"},
        {"mass", "85 kg"},
        {"lunge", "4 in"},
        {"strength.best.squat", "160 kg x 3 @ 1"},
        {"strength.best.deadlift", "440 lb"},
    };
    PlumbLifterRecord record = plumb_lifter_record();
    PlumbError error;
    char *text = NULL;
    size_t length = 0;
    for (size_t i = 0; i < sizeof settings / sizeof settings[0]; i++) {
        assert_int_equal(plumb_lifter_record_set(&record, settings[i][0], settings[i][1], &error),
                         PLUMB_OK);
    }
    assert_int_equal(plumb_lifter_file_new_text(&record, &text, &length, &error), PLUMB_OK);
    assert_non_null(strstr(text, "    squat: 160 kg x 3 @ 1\n"));
    PlumbLifterFile *file = NULL;
    assert_int_equal(plumb_lifter_file_parse(text, length, NULL, &file, &error), PLUMB_OK);
    const PlumbBest *const best = file->record.best;
    assert_near(best[PLUMB_SQUAT].load_kg, 160.0, 1e-9);
    assert_int_equal(best[PLUMB_SQUAT].repetitions, 3);
    assert_int_equal(best[PLUMB_SQUAT].reserve, 1);
    assert_near(best[PLUMB_DEADLIFT].load_kg, record.best[PLUMB_DEADLIFT].load_kg, 1e-7);
    assert_string_equal(file->record.lunge, "4 in");
    assert_int_equal(plumb_lifter_file_set(file, "strength.best", "squat", "170 kg x 2", &error),
                     PLUMB_OK);
    assert_non_null(strstr(file->bytes, "    squat: 170 kg x 2\n"));
    plumb_lifter_file_free(file);
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plumb_lifter_file__best_lifts_set_strength),
        cmocka_unit_test(plumb_lifter_file__lunge_sets_the_ankle),
        cmocka_unit_test(plumb_lifter_file__refuses_with_a_place),
        cmocka_unit_test(plumb_lifter_file__writes_what_it_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
