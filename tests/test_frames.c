/* SPDX-License-Identifier: MIT */
/* Frames by number: folders of pictures, the store of frames, and readers of video that fail in
 * every way that a process can. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "folder.h"

#include <plumbar/file.h>
#include <plumbar/frames.h>

#include "io/film_wire.h"

#include <cairo.h>
#include <math.h>
#include <sys/stat.h>
#include <time.h>

enum { WIDTH = 32, HEIGHT = 18 };

/* A picture of one colour 0x00RRGGBB. */
static void put_picture(const char *name, uint32_t colour, int width, int height)
{
    cairo_surface_t *const s = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    cairo_t *const c = cairo_create(s);
    cairo_set_source_rgb(c, (colour >> 16 & 255) / 255.0, (colour >> 8 & 255) / 255.0,
                         (colour & 255) / 255.0);
    cairo_paint(c);
    cairo_destroy(c);
    assert_int_equal(cairo_surface_write_to_png(s, in_folder(name)), CAIRO_STATUS_SUCCESS);
    cairo_surface_destroy(s);
}

static void put_text(const char *name, const char *text)
{
    PlumbError error;
    assert_int_equal(plumb_file_write_atomic(in_folder(name), text, strlen(text), &error),
                     PLUMB_OK);
}

static uint32_t gray(int level)
{
    return (uint32_t)level * 0x010101u;
}

/* Frame i has the level 10 i, for names f0.png to f<count-1>.png. */
static void put_film(int count)
{
    for (int i = 0; i < count; i++) {
        char name[32];
        snprintf(name, sizeof name, "f%d.png", i);
        put_picture(name, gray(10 * i), WIDTH, HEIGHT);
    }
}

static PlumbFrames *open_all(const char *path, const PlumbFramesOptions *options)
{
    PlumbError error = {0};
    PlumbFrames *frames = NULL;
    if (plumb_frames_open(path, options, &frames, &error) != PLUMB_OK ||
        plumb_frames_survey(frames, 100000, NULL, &error) != PLUMB_OK) {
        fail_msg("%s: %s", error.field, error.message);
    }
    return frames;
}

static int level_of(PlumbFrames *frames, int i)
{
    PlumbGray picture;
    PlumbError error;
    assert_int_equal(plumb_frames_gray(frames, i, &picture, &error), PLUMB_OK);
    assert_int_equal(picture.width_px, WIDTH);
    assert_int_equal(picture.height_px, HEIGHT);
    const int level = picture.level[0];
    for (int y = 0; y < HEIGHT; y++) {
        for (int x = 0; x < WIDTH; x++) {
            assert_int_equal(picture.level[y * picture.stride + x], level);
        }
    }
    return level;
}

static PlumbFramesOptions at_rate(double rate_per_s)
{
    PlumbFramesOptions options = plumb_frames_options();
    options.rate_per_s = rate_per_s;
    return options;
}

static void frames_folder__are_ordered_by_the_numbers_in_their_names(void **state)
{
    (void)state;
    put_film(12); /* f10 and f11 come after f9 */
    put_text("notes.txt", "no frame");
    const PlumbFramesOptions options = at_rate(25.0);
    PlumbFrames *const frames = open_all(folder, &options);
    assert_int_equal(plumb_frames_count(frames), 12);
    for (int i = 0; i < 12; i++) {
        assert_int_equal(level_of(frames, i), 10 * i);
        assert_near(plumb_frames_time_s(frames, i), i / 25.0, 1e-12);
        assert_false(plumb_frames_damaged(frames, i));
    }
    assert_string_equal(plumb_frames_lost(frames), "");
    plumb_frames_close(frames);
}

static void frames_folder__asks_for_its_rate_by_name(void **state)
{
    (void)state;
    put_film(2);
    PlumbError error;
    PlumbFrames *frames = NULL;
    assert_int_equal(plumb_frames_open(folder, NULL, &frames, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "rate");
    assert_non_null(strstr(error.message, "frames a second"));
    assert_null(frames);
    const double wrong[] = {-1.0, (double)NAN, (double)INFINITY, 1e9};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        const PlumbFramesOptions options = at_rate(wrong[i]);
        assert_int_equal(plumb_frames_open(folder, &options, &frames, &error), PLUMB_BAD_INPUT);
        assert_string_equal(error.field, "rate");
    }
}

static void frames_folder__leaves_out_what_is_damaged_and_keeps_the_times(void **state)
{
    (void)state;
    put_film(5);
    put_text("f1.png", "\x89PNG but no more");
    put_picture("f3.png", gray(9), WIDTH + 2, HEIGHT);
    const PlumbFramesOptions options = at_rate(10.0);
    PlumbFrames *const frames = open_all(folder, &options);
    assert_int_equal(plumb_frames_count(frames), 3);
    assert_int_equal(level_of(frames, 1), 20);
    assert_near(plumb_frames_time_s(frames, 1), 0.2, 1e-12);
    assert_near(plumb_frames_time_s(frames, 2), 0.4, 1e-12);
    assert_non_null(strstr(plumb_frames_lost(frames), "2 pictures are left out, the first: "
                                                      "\"f1.png\""));
    plumb_frames_close(frames);
}

static void frames_open__tells_what_is_no_film(void **state)
{
    (void)state;
    put_picture("still.png", gray(50), WIDTH, HEIGHT);
    put_text("empty.mp4", "");
    assert_int_equal(mkdir(in_folder("none"), 0777), 0);
    const struct {
        const char *name;
        PlumbStatus status;
        const char *words;
    } rows[] = {
        {"nowhere.mp4", PLUMB_READ_FAILED, "could not be opened"},
        {"still.png", PLUMB_UNSUPPORTED, "is a single picture"},
        {"empty.mp4", PLUMB_UNSUPPORTED, "is empty"},
        {"none", PLUMB_BAD_INPUT, "holds no PNG or JPEG pictures"},
    };
    const PlumbFramesOptions options = at_rate(30.0);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        PlumbFrames *frames = NULL;
        PlumbError error = {0};
        assert_int_equal(plumb_frames_open(in_folder(rows[i].name), &options, &frames, &error),
                         rows[i].status);
        assert_non_null(strstr(error.message, rows[i].words));
        assert_null(frames);
    }
    assert_int_equal(rmdir(in_folder("none")), 0);
}

static void frames_survey__goes_in_steps_and_tells_how_far(void **state)
{
    (void)state;
    put_film(8);
    const PlumbFramesOptions options = at_rate(30.0);
    PlumbFrames *frames = NULL;
    PlumbError error;
    assert_int_equal(plumb_frames_open(folder, &options, &frames, &error), PLUMB_OK);
    double done_frac = 0.0;
    double before = 0.0;
    int steps = 0;
    while (done_frac < 1.0) {
        assert_int_equal(plumb_frames_survey(frames, 2, &done_frac, &error), PLUMB_OK);
        assert_true(done_frac > before);
        before = done_frac;
        steps++;
    }
    assert_int_equal(plumb_frames_count(frames), 8);
    assert_int_equal(steps, 5);
    plumb_frames_close(frames);
}

static void frames_gray__is_right_in_any_order_in_three_frames_of_memory(void **state)
{
    (void)state;
    enum { COUNT = 20, ASKED = 400 };
    put_film(COUNT);
    PlumbFramesOptions options = at_rate(30.0);
    options.cache_bytes = 0;
    PlumbFrames *const frames = open_all(folder, &options);
    PlumbGray before = {0};
    int number_before = -1;
    uint32_t draw = 1;
    for (int k = 0; k < ASKED; k++) {
        draw = draw * 1664525u + 1013904223u;
        const int i = k < ASKED / 2 ? (int)(draw >> 16) % COUNT : (ASKED - k) % COUNT;
        PlumbGray now;
        PlumbError error;
        assert_int_equal(plumb_frames_gray(frames, i, &now, &error), PLUMB_OK);
        assert_int_equal(now.level[0], 10 * i);
        if (number_before >= 0) { /* still lent */
            assert_int_equal(before.level[0], 10 * number_before);
        }
        before = now;
        number_before = i;
    }
    PlumbGray none = {0};
    PlumbError error;
    assert_int_equal(plumb_frames_gray(frames, COUNT, &none, &error), PLUMB_BAD_INPUT);
    assert_int_equal(plumb_frames_gray(frames, -1, &none, &error), PLUMB_BAD_INPUT);
    assert_null(none.level);
    plumb_frames_close(frames);
}

static void frames_photo__keeps_colours(void **state)
{
    (void)state;
    const uint32_t colours[] = {0xd55e00, 0x0072b2, 0x009e73, 0xffffff, 0x000000, 0xff0000};
    enum { COUNT = sizeof colours / sizeof colours[0] };
    for (int i = 0; i < COUNT; i++) {
        char name[32];
        snprintf(name, sizeof name, "c%d.png", i);
        put_picture(name, colours[i], WIDTH - 1, HEIGHT - 1); /* odd sides */
    }
    const PlumbFramesOptions options = at_rate(30.0);
    PlumbFrames *const frames = open_all(folder, &options);
    for (int i = 0; i < COUNT; i++) {
        PlumbPhoto photo;
        PlumbError error;
        assert_int_equal(plumb_frames_photo(frames, i, &photo, &error), PLUMB_OK);
        assert_int_equal(photo.width_px, WIDTH - 1);
        for (int k = 0; k < 3; k++) {
            const int got =
                (int)(photo.pixel[(HEIGHT - 2) * (WIDTH - 1) + WIDTH - 2] >> 8 * k & 255);
            /* two levels: luma and chroma are whole numbers */
            assert_near(got, (double)(colours[i] >> 8 * k & 255), 2.0);
        }
        plumb_photo_free(&photo);
    }
    plumb_frames_close(frames);
}

static void frames_open__tells_what_this_build_cannot_read(void **state)
{
    (void)state;
    const bool built = PLUMB_FILM[0] != '\0';
    put_text("film.mp4", "words under a film's name");
    PlumbFrames *frames = NULL;
    PlumbError error = {0};
    assert_int_equal(plumb_frames_open(in_folder("film.mp4"), NULL, &frames, &error),
                     PLUMB_UNSUPPORTED);
    assert_non_null(strstr(error.message, built ? "is no film that can be read"
                                                : "this build reads folders of frames"));
    assert_null(frames);
}

/* A reader of video that is a script, and what opening a film with it tells. */
static void assert_reader_fails(const char *script, const char *words, double most_s)
{
    put_text("film.mp4", "no film, which no reader looks at");
    put_text("reader", script);
    assert_int_equal(chmod(in_folder("reader"), 0777), 0);
    PlumbFramesOptions options = plumb_frames_options();
    const char *const reader = in_folder("reader");
    options.film_program = reader;
    /* One that speaks may be slow to start on a busy machine. */
    options.silence_max_s = strstr(words, "gave no sign") != NULL ? 0.5 : 15.0;
    PlumbFrames *frames = NULL;
    PlumbError error = {0};
    struct timespec from;
    struct timespec to;
    clock_gettime(CLOCK_MONOTONIC, &from);
    assert_int_equal(plumb_frames_open(in_folder("film.mp4"), &options, &frames, &error),
                     PLUMB_READ_FAILED);
    clock_gettime(CLOCK_MONOTONIC, &to);
    if (strstr(error.message, words) == NULL) {
        fail_msg("%s: not told: %s", error.message, words);
    }
    assert_true((double)(to.tv_sec - from.tv_sec) < most_s);
    assert_null(frames);
}

static void frames_video__survives_its_reader(void **state)
{
    (void)state;
    assert_reader_fails("#!/bin/sh\nexit 0\n", "its reader ended early", 20.0);
    assert_reader_fails("#!/bin/sh\nkill -SEGV $$\n", "its reader broke off", 20.0);
    assert_reader_fails("#!/bin/sh\nkill -XCPU $$\n", "took more time than it may", 20.0);
    assert_reader_fails("#!/nowhere/sh\n", "could not be started", 20.0);
    /* hangs: without a word, and with signs of life cut off in their midst */
    assert_reader_fails("#!/bin/sh\nexec /bin/sleep 600\n", "gave no sign for too long", 60.0);
    assert_reader_fails("#!/bin/sh\nprintf 1LMF >&0\nexec /bin/sleep 600\n",
                        "gave no sign for too long", 60.0);
    assert_reader_fails("#!/bin/sh\nexec /bin/cat /dev/zero >&0\n", "makes no sense", 20.0);
}

/* Writes a reply by hand as a script's printf. */
static void reply_script(const FilmReply *reply, char *script, size_t size)
{
    int length = snprintf(script, size, "#!/bin/sh\nprintf '");
    const unsigned char *const byte = (const unsigned char *)reply;
    for (size_t i = 0; i < sizeof *reply; i++) {
        length += snprintf(script + length, size - (size_t)length, "\\%03o", byte[i]);
    }
    snprintf(script + length, size - (size_t)length, "' >&0\nexec /bin/sleep 600\n");
}

static void frames_video__believes_no_size_beyond_its_limits(void **state)
{
    (void)state;
    const int32_t sizes[][2] = {
        {0, 10}, {10, -1}, {8193, 10}, {INT32_MAX, INT32_MAX}, {8000, 8000}};
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        FilmReply reply;
        memset(&reply, 0, sizeof reply);
        reply.mark = FILM_REPLY_MARK;
        reply.say = FILM_HEAD;
        reply.width_px = sizes[i][0];
        reply.height_px = sizes[i][1];
        char script[1024];
        reply_script(&reply, script, sizeof script);
        assert_reader_fails(script, "makes no sense", 20.0);
    }
}

static void frames_video__tells_each_fault_in_words(void **state)
{
    (void)state;
    for (uint32_t fault = FILM_FAULT_not_a_film; fault <= FILM_FAULT_COUNT; fault++) {
        FilmReply reply;
        memset(&reply, 0, sizeof reply);
        reply.mark = FILM_REPLY_MARK;
        reply.say = FILM_FAIL;
        reply.fault = fault; /* the last is none of them */
        char script[1024];
        reply_script(&reply, script, sizeof script);
        put_text("film.mp4", "no film");
        put_text("reader", script);
        assert_int_equal(chmod(in_folder("reader"), 0777), 0);
        PlumbFramesOptions options = plumb_frames_options();
        const char *const reader = in_folder("reader");
        options.film_program = reader;
        PlumbFrames *frames = NULL;
        PlumbError error = {0};
        assert_true(plumb_frames_open(in_folder("film.mp4"), &options, &frames, &error) !=
                    PLUMB_OK);
        assert_string_equal(error.field, "file");
        const char *const words = strstr(error.message, "\": ");
        assert_non_null(words);
        assert_true(strlen(words) > 20);
    }
}

#define in_own_folder(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)

int main(void)
{
    const struct CMUnitTest tests[] = {
        in_own_folder(frames_folder__are_ordered_by_the_numbers_in_their_names),
        in_own_folder(frames_folder__asks_for_its_rate_by_name),
        in_own_folder(frames_folder__leaves_out_what_is_damaged_and_keeps_the_times),
        in_own_folder(frames_open__tells_what_is_no_film),
        in_own_folder(frames_open__tells_what_this_build_cannot_read),
        in_own_folder(frames_survey__goes_in_steps_and_tells_how_far),
        in_own_folder(frames_gray__is_right_in_any_order_in_three_frames_of_memory),
        in_own_folder(frames_photo__keeps_colours),
        in_own_folder(frames_video__survives_its_reader),
        in_own_folder(frames_video__believes_no_size_beyond_its_limits),
        in_own_folder(frames_video__tells_each_fault_in_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
