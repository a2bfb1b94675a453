/* SPDX-License-Identifier: MIT */
/* plumbar trace film on a rendered bench press, from the head end and from the side: text, JSON,
 * CSV, drawing; marks that are none. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_press_folder.h"

#include <jansson.h>

enum { TEXT_SIZE = 1 << 22 };

static char text[TEXT_SIZE];
static FilmPress press;
static FilmScene head_end;
static FilmScene side;

/* Runs the command on the folder with more words; its exit code, its output in text. */
static int run(const char *words)
{
    char line[4 * PATH_SIZE];
    snprintf(line, sizeof line,
             "%s trace film %s %s bench sex=female stature=168cm mass=66kg distance=4m rate=30 "
             "%s 2>&1",
             PLUMB_PROGRAM, folder, in_folder("m.csv"), words);
    return run_line(line, text, sizeof text);
}

static void assert_has(const char *words)
{
    if (strstr(text, words) == NULL) {
        fprintf(stderr, "lacks \"%s\":\n%s\n", words, text);
        fail();
    }
}

static void read_file(const char *name)
{
    FILE *const file = fopen(in_folder(name), "r");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
}

/* What the folder holds already is not written again. */
static void hold(const FilmScene *film)
{
    static const FilmScene *held = NULL;
    if (held != film) {
        put_press_marks(film, &press, in_folder("m.csv"));
        put_scene(film);
    }
    held = film;
}

/* The press in 2.4 s, at 30 frames a second. */
static FilmScene film_of(double yaw_rad)
{
    FilmScene film = small_press(&press, yaw_rad);
    film.rate_per_s = 30.0;
    return film;
}

static int begin(void **state)
{
    const FilmPressFault none = {0};
    press = film_press(&none);
    press.rest_s = 0.3;
    press.down_s = 0.8;
    press.pause_s = 0.2;
    press.up_s = 0.8;
    press.hold_s = 0.3;
    head_end = film_of(FILM_PRESS_HEAD_RAD);
    side = film_of(FILM_PRESS_RIGHT_RAD);
    return make_folder(state);
}

static void head_end__is_told_in_words(void **state)
{
    (void)state;
    hold(&head_end);
    assert_int_equal(run(""), 0);
    unwrap(text);
    assert_has(", from the head end; bench; 73 frames of 640 x 360");
    assert_has("touch on the chest");
    assert_has("bar leaves the chest");
    assert_has("forearm lean");
    assert_has("elbow from under the bar at the touch, either way");
    assert_null(strstr(text, "mid-foot"));
    assert_null(strstr(text, "toward feet"));
    /* A threshold that no press keeps: the elbows 40 cm below the shoulders. */
    assert_int_equal(run("elbow_rule_limit=-40cm"), 0);
    unwrap(text);
    assert_has("Settings that bear on it: arch, grip, elbows, touch.");
}

/* Against the motion that was rendered: times within two frames; angles within what a mark that is
 * followed in 360 lines tells: 4 px of 150 in a metre are 6 degrees of the upper arm. */
static void head_end__is_told_as_data(void **state)
{
    json_error_t error;
    FilmPressTruth truth;
    char words[2 * PATH_SIZE + 16];
    (void)state;
    hold(&head_end);
    film_press_truth(&head_end, &press.lifter.body, FILM_PRESS_TURN_M, &truth);
    snprintf(words, sizeof words, "--json -o %s", in_folder("film.json"));
    assert_int_equal(run(words), 0);
    json_t *const root = json_load_file(in_folder("film.json"), 0, &error);
    assert_non_null(root);
    const json_t *const events = json_object_get(root, "events");
    const json_t *const touch = json_object_get(events, "turn_round");
    const json_t *const off = json_object_get(events, "lift_off");
    const json_t *const frames = json_object_get(root, "frames");
    assert_string_equal(json_string_value(json_object_get(root, "view")), "head");
    assert_near(json_number_value(json_object_get(touch, "time_s")), truth.touch_s, 0.067);
    assert_near(json_number_value(json_object_get(off, "time_s")), truth.off_s, 0.067);
    const json_t *const frame =
        json_array_get(frames, (size_t)json_number_value(json_object_get(touch, "frame")));
    assert_true(json_is_true(json_object_get(frame, "elbow_seen")));
    assert_near(json_number_value(json_object_get(frame, "upper_arm_rad")),
                truth.touch_abduction_rad, degrees(8.0));
    assert_near(json_number_value(json_object_get(frame, "forearm_front_rad")), truth.forearm_rad,
                degrees(8.0));
    assert_null(json_object_get(frame, "bar_from_shoulder_m"));
    json_decref(root);
}

static void head_end__has_a_row_a_frame(void **state)
{
    static const char heads[] = "frame,time_s,known,misfit,elbow_seen,bar_height_m,bar_speed_m_s,"
                                "bar_above_shoulder_m,upper_arm_rad,";
    int rows = 0;
    (void)state;
    hold(&head_end);
    assert_int_equal(run("--csv"), 0);
    assert_int_equal(strncmp(text, heads, sizeof heads - 1), 0);
    for (const char *c = text; *c != '\0'; c++) {
        rows += *c == '\n';
    }
    assert_int_equal(rows, film_count(&head_end) + 1);
}

static void head_end__is_drawn_without_a_path(void **state)
{
    char words[2 * PATH_SIZE + 32];
    (void)state;
    hold(&head_end);
    snprintf(words, sizeof words, "--date 2026-01-02 -o %s", in_folder("chart.svg"));
    assert_int_equal(run(words), 0);
    read_file("chart.svg");
    assert_null(strstr(text, "The bar's path"));
    assert_has("Upper arm from the trunk, ");
    assert_has("bold: largest turn within 3 cm of rise, ");
    assert_has("Forearm from upright, hand outward");
    assert_has("<image");
    assert_has("H: hand, S: shoulder.");
    snprintf(words, sizeof words, "--date 2026-01-02 -o %s", in_folder("chart.pdf"));
    assert_int_equal(run(words), 0);
    read_file("chart.pdf");
    assert_int_equal(strncmp(text, "%PDF", 4), 0);
}

static void side__is_drawn_with_the_path_over_the_shoulder(void **state)
{
    char words[2 * PATH_SIZE + 32];
    (void)state;
    hold(&side);
    snprintf(words, sizeof words, "--units pounds --date 2026-01-02 -o %s", in_folder("chart.svg"));
    assert_int_equal(run(words), 0);
    read_file("chart.svg");
    assert_has("The bar's path over the shoulder");
    assert_has(">toward the feet<");
    assert_has("(dotted: elbow not seen)"); /* the disc stands before it */
    assert_has("Elbow from under the bar toward the feet, in");
    assert_has("B: bar, S: shoulder.");
}

static void marks_of_nothing__are_refused_in_words_of_the_lift(void **state)
{
    (void)state;
    hold(&side);
    FILE *const file = fopen(in_folder("m.csv"), "w");
    assert_non_null(file);
    fputs("frame,landmark,x,y\n0,plumb,280,200\n", file);
    fclose(file);
    assert_int_equal(run(""), 2);
    assert_has("shoulder, elbow, wrist, bar and three to five points");
    assert_null(strstr(text, "heel"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(head_end__is_told_in_words),
        cmocka_unit_test(head_end__is_told_as_data),
        cmocka_unit_test(head_end__has_a_row_a_frame),
        cmocka_unit_test(head_end__is_drawn_without_a_path),
        cmocka_unit_test(side__is_drawn_with_the_path_over_the_shoulder),
        cmocka_unit_test(marks_of_nothing__are_refused_in_words_of_the_lift),
    };
    return cmocka_run_group_tests(tests, begin, remove_folder);
}
