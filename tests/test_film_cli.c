/* SPDX-License-Identifier: MIT */
/* plumbar trace film on a rendered folder of frames: text, JSON, CSV and chart, a lifter who faces
 * left, a corrected mark, marks that stand wrong. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_folder.h"

#include <jansson.h>

enum { TEXT_SIZE = 1 << 22 };

static char text[TEXT_SIZE];

/* Runs the command on the folder with more words; its exit code, its output in text. */
static int run(const char *words)
{
    char line[4 * PATH_SIZE];
    snprintf(line, sizeof line,
             "%s trace film %s %s deadlift sex=female stature=168cm mass=66kg distance=5m rate=30 "
             "%s 2>&1",
             PLUMB_PROGRAM, folder, in_folder("m.csv"), words);
    return run_line(line, text, sizeof text);
}

static double number_at(const json_t *root, const char *object, const char *key, const char *what)
{
    const json_t *const value =
        json_object_get(json_object_get(json_object_get(root, object), key), what);
    assert_true(json_is_number(value));
    return json_number_value(value);
}

static void film__is_told_in_words(void **state)
{
    (void)state;
    put_film(false, in_folder("m.csv"));
    assert_int_equal(run(""), 0);
    assert_non_null(strstr(text, "61 frames of 640 x"));
    assert_non_null(strstr(text, "the camera stood still"));
    assert_non_null(strstr(text, "nothing found that the spread does not cover"));
    assert_non_null(strstr(text, "the disc stands before it"));
    assert_non_null(strstr(text, "lift-off"));
    /* A threshold that no lift keeps. */
    assert_int_equal(run("rise_ratio_limit=0.1"), 0);
    unwrap(text);
    assert_non_null(strstr(text, "times as far as the bar"));
    assert_non_null(strstr(text, "Settings that bear on it: hip_height"));
    assert_non_null(strstr(text, "--for hips_rise_faster"));
}

static void film__is_told_as_data(void **state)
{
    (void)state;
    double off_s[2];
    for (int mirrored = 0; mirrored < 2; mirrored++) {
        json_error_t error;
        char path[2 * PATH_SIZE + 16];
        put_film(mirrored != 0, in_folder("m.csv"));
        snprintf(path, sizeof path, "--json -o %s", in_folder("film.json"));
        assert_int_equal(run(path), 0);
        json_t *const root = json_load_file(in_folder("film.json"), 0, &error);
        assert_non_null(root);
        off_s[mirrored] = number_at(root, "events", "lift_off", "time_s");
        assert_int_equal(json_array_size(json_object_get(root, "frames")), 61);
        assert_string_equal(json_string_value(json_object_get(root, "view")), "side");
        json_decref(root);
    }
    /* 5 mm after 0.1 s of the way up, which begins at 0.5 s; 360 lines, a frame is 33 ms. */
    assert_near(off_s[0], 0.6, 0.033);
    assert_near(off_s[1], off_s[0], 0.01);
}

static void film__has_a_row_a_frame(void **state)
{
    int rows = 0;
    (void)state;
    put_film(false, in_folder("m.csv"));
    assert_int_equal(run("--csv"), 0);
    assert_int_equal(strncmp(text, "frame,time_s,known,misfit,bar_x_m,bar_height_m,", 47), 0);
    for (const char *c = text; *c != '\0'; c++) {
        rows += *c == '\n';
    }
    assert_int_equal(rows, 62);
}

static void film__is_drawn(void **state)
{
    char words[2 * PATH_SIZE + 16];
    (void)state;
    put_film(false, in_folder("m.csv"));
    snprintf(words, sizeof words, "--date 2026-01-02 -o %s", in_folder("chart.svg"));
    assert_int_equal(run(words), 0);
    FILE *const file = fopen(in_folder("chart.svg"), "r");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    assert_non_null(strstr(text, "The bar's path over the foot"));
    assert_non_null(strstr(text, "Heights of bar and hip, cm"));
    assert_non_null(strstr(text, "Nothing found"));
    /* Below it the frames of the events, with the figure over them. */
    assert_non_null(strstr(text, "<image"));
    assert_non_null(strstr(text, "bar passes the knee, 1.0"));
    assert_non_null(strstr(text, "Ink: the figure read from the film."));
}

/* Ctrl+C while it works: exit code 130, and no file. */
static void film__is_stopped(void **state)
{
    char line[6 * PATH_SIZE];
    (void)state;
    put_film(false, in_folder("m.csv"));
    snprintf(line, sizeof line,
             "timeout --preserve-status -s INT 0.1 %s trace film %s %s deadlift sex=female "
             "stature=168cm mass=66kg distance=5m rate=30 -o %s",
             PLUMB_PROGRAM, folder, in_folder("m.csv"), folder);
    strcat(line, "/stopped.png");
    assert_int_equal(system(line) >> 8, 130);
    assert_null(fopen(in_folder("stopped.png"), "r"));
}

static void put_text(const char *words)
{
    FILE *const file = fopen(in_folder("m.csv"), "w");
    assert_non_null(file);
    fputs(words, file);
    fclose(file);
}

static void wrong_marks__are_refused_with_their_line(void **state)
{
    (void)state;
    put_film(false, in_folder("m.csv"));
    put_text("frame,landmark,x,y\n0,hip,280,200\n99,knee,300,220\n");
    assert_int_equal(run(""), 2);
    assert_non_null(strstr(text, "m.csv:3:1: frame: the film has no such frame; its last is 60"));
    put_text("time,landmark,x,y\n0,hip,280,200\n7.5,knee,300,220\n");
    assert_int_equal(run(""), 2);
    assert_non_null(strstr(text, "m.csv:3:1: time: the film has no such time; it ends at 2.000 s"));
    put_text("frame,landmark,x,y\n1.5,hip,280,200\n");
    assert_int_equal(run(""), 2);
    assert_non_null(strstr(text, "frames are counted from 0"));
    put_text("frame,landmark,x,y\n0,disc,280,200\n0,disc,281,200\n");
    assert_int_equal(run(""), 2);
    assert_non_null(strstr(text, "lie on no ellipse"));
    put_text("frame,landmark,x,y\n0,hip,280,200\n0,hip,281,200\n");
    assert_int_equal(run(""), 2);
    assert_non_null(strstr(text, "is marked twice in this frame"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(film__is_told_in_words),
        cmocka_unit_test(film__is_told_as_data),
        cmocka_unit_test(film__has_a_row_a_frame),
        cmocka_unit_test(film__is_drawn),
        cmocka_unit_test(film__is_stopped),
        cmocka_unit_test(wrong_marks__are_refused_with_their_line),
    };
    return cmocka_run_group_tests(tests, make_film, remove_folder);
}
