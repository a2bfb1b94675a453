/* SPDX-License-Identifier: MIT */
/* Video as a camera packs it: frames equal those that were rendered, times are the stream's,
 * pictures stand upright, and any order gives the same. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_encode.h"
#include "film_render.h"
#include "folder.h"

#include <plumbar/frames.h>

enum { WIDTH = 320, HEIGHT = 180, COUNT = 48, ASKED = 100, MOVES = 22 };

/* A deadlift at a quarter of the size, all frames rendered once. */
static uint8_t rendered[COUNT][WIDTH * HEIGHT];

static int render_all(void **unused)
{
    (void)unused;
    const FilmLift lift = film_lift(PLUMB_DEADLIFT);
    FilmScene scene = film_scene(&lift);
    scene.width_px = WIDTH;
    scene.height_px = HEIGHT;
    scene.camera.focal_px *= 0.25;
    scene.camera.centre_x_px = 0.5 * (WIDTH - 1);
    scene.camera.centre_y_px = 0.5 * (HEIGHT - 1);
    FilmRender *const render = film_render_open(&scene);
    for (int i = 0; i < COUNT; i++) {
        film_render_frame(render, i, rendered[i]);
    }
    film_render_close(render);
    return 0;
}

static void rendered_picture(void *unused, int i, int width_px, int height_px, uint8_t *level)
{
    (void)unused;
    assert_int_equal(width_px, WIDTH);
    assert_int_equal(height_px, HEIGHT);
    memcpy(level, rendered[i], sizeof rendered[i]);
}

static FilmCode code_of(const char *path, const char *encoder)
{
    return (FilmCode){.path = path,
                      .encoder = encoder,
                      .width_px = WIDTH,
                      .height_px = HEIGHT,
                      .count = COUNT,
                      .rate_per_s = 30.0,
                      .group = 12};
}

static PlumbFrames *open_film(const char *path, size_t cache_bytes)
{
    PlumbFramesOptions options = plumb_frames_options();
    options.film_program = PLUMB_FILM;
    options.cache_bytes = cache_bytes;
    PlumbFrames *frames = NULL;
    PlumbError error = {0};
    if (plumb_frames_open(path, &options, &frames, &error) != PLUMB_OK ||
        plumb_frames_survey(frames, 100000, NULL, &error) != PLUMB_OK) {
        fail_msg("%s", error.message);
    }
    return frames;
}

static PlumbGray frame_of(PlumbFrames *frames, int i)
{
    PlumbGray gray;
    PlumbError error;
    if (plumb_frames_gray(frames, i, &gray, &error) != PLUMB_OK) {
        fail_msg("frame %d: %s", i, error.message);
    }
    return gray;
}

/* Root of the mean square of the difference, levels. level: of the picture before it is turned.
 * *bias (may be NULL): the mean of the difference. */
static double distance(PlumbGray gray, int turns, const uint8_t *level, double *bias)
{
    double sum = 0.0;
    double plain = 0.0;
    for (int y = 0; y < HEIGHT; y++) {
        for (int x = 0; x < WIDTH; x++) {
            const int u = turns == 0   ? x
                          : turns == 1 ? HEIGHT - 1 - y
                          : turns == 2 ? WIDTH - 1 - x
                                       : y;
            const int v = turns == 0   ? y
                          : turns == 1 ? x
                          : turns == 2 ? HEIGHT - 1 - y
                                       : WIDTH - 1 - x;
            const double off = gray.level[v * gray.stride + u] - (double)level[y * WIDTH + x];
            plain += off;
            sum += off * off;
        }
    }
    if (bias != NULL) {
        *bias = plain / (WIDTH * HEIGHT);
    }
    return sqrt(sum / (WIDTH * HEIGHT));
}

/* What a codec may add or smooth away: the film's own noise is 2 levels, and as much again. */
static const double off_max_levels = 2.9;

/* Every codec and container in which cameras and programs pack films. */
static const struct {
    const char *name;
    const char *encoder;
    int between;
    double clock_s; /* of the container */
} codecs[] = {
    {"a.mp4", "libx264", 2, 1.0 / 90000}, {"b.mov", "libx264", 0, 1.0 / 90000},
    {"c.mkv", "libx264", 2, 1e-3},        {"d.mp4", "libx265", 2, 1.0 / 90000},
    {"e.mp4", "mpeg4", 0, 1.0 / 24000},   {"f.mov", "mjpeg", 0, 1.0 / 90000},
    {"g.webm", "libvpx", 0, 1e-3},        {"h.webm", "libvpx-vp9", 0, 1e-3},
    {"i.mkv", "libvpx-vp9", 0, 1e-3},
};

static void frames_video__equals_what_was_rendered(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof codecs / sizeof codecs[0]; k++) {
        if (!film_encoder_found(codecs[k].encoder)) {
            print_message("left out: %s is not installed\n", codecs[k].encoder);
            continue;
        }
        FilmCode code = code_of(in_folder(codecs[k].name), codecs[k].encoder);
        code.between = codecs[k].between;
        film_encode(&code, rendered_picture, NULL);
        PlumbFrames *const frames = open_film(code.path, 0);
        int width;
        int height;
        plumb_frames_size_px(frames, &width, &height);
        assert_int_equal(width, WIDTH);
        assert_int_equal(height, HEIGHT);
        assert_int_equal(plumb_frames_count(frames), COUNT);
        assert_string_equal(plumb_frames_lost(frames), "");
        double worst = 0.0;
        for (int i = 0; i < COUNT; i++) {
            double bias;
            const double off = distance(frame_of(frames, i), 0, rendered[i], &bias);
            worst = fmax(worst, off);
            if (off > off_max_levels) {
                fail_msg("%s: frame %d is %.2f levels off", codecs[k].name, i, off);
            }
            assert_near(bias, 0.0, 0.5); /* levels; the range of television is taken back */
            if (i >= MOVES && i + 1 < COUNT) {
                const PlumbGray gray = frame_of(frames, i);
                assert_true(distance(gray, 0, rendered[i - 1], NULL) > off);
                assert_true(distance(gray, 0, rendered[i + 1], NULL) > off);
            }
            assert_near(plumb_frames_time_s(frames, i), i / 30.0, codecs[k].clock_s);
            assert_false(plumb_frames_damaged(frames, i));
        }
        print_message("%s by %s: at most %.2f levels off\n", codecs[k].name, codecs[k].encoder,
                      worst);
        plumb_frames_close(frames);
    }
}

static void frames_video__keeps_uneven_times(void **state)
{
    (void)state;
    double time_s[COUNT];
    for (int i = 0; i < COUNT; i++) {
        time_s[i] = 2.0 + i / 30.0 + (i % 3 == 0 ? 0.008 : 0.0) + (i > 20 ? 0.4 : 0.0);
    }
    FilmCode code = code_of(in_folder("uneven.mp4"), "libx264");
    code.time_s = time_s;
    film_encode(&code, rendered_picture, NULL);
    PlumbFrames *frames = open_film(code.path, 0);
    for (int i = 0; i < COUNT; i++) { /* ticks of 1/90000 s, rounded twice */
        assert_near(plumb_frames_time_s(frames, i), time_s[i] - time_s[0], 1.01 / 90000);
    }
    plumb_frames_close(frames);
    PlumbFramesOptions options = plumb_frames_options(); /* slow motion that says too little */
    options.film_program = PLUMB_FILM;
    options.rate_per_s = 240.0;
    PlumbError error;
    assert_int_equal(plumb_frames_open(code.path, &options, &frames, &error), PLUMB_OK);
    assert_int_equal(plumb_frames_survey(frames, COUNT, NULL, &error), PLUMB_OK);
    assert_near(plumb_frames_time_s(frames, 30), 30 / 240.0, 1e-12);
    plumb_frames_close(frames);
}

static void frames_video__stands_upright(void **state)
{
    (void)state;
    for (int turns = 0; turns < 4; turns++) {
        FilmCode code = code_of(in_folder("turned.mp4"), "libx264");
        code.turns = turns;
        code.count = 5;
        film_encode(&code, rendered_picture, NULL);
        PlumbFrames *const frames = open_film(code.path, 0);
        int width;
        int height;
        plumb_frames_size_px(frames, &width, &height);
        assert_int_equal(width, turns % 2 == 0 ? WIDTH : HEIGHT);
        assert_int_equal(height, turns % 2 == 0 ? HEIGHT : WIDTH);
        assert_near(distance(frame_of(frames, 3), turns, rendered[3], NULL), 0.0, off_max_levels);
        plumb_frames_close(frames);
    }
}

/* Level 4 at the left to 244 at the right, the same in every row and frame. */
static void slope_picture(void *unused, int i, int width_px, int height_px, uint8_t *level)
{
    (void)unused;
    (void)i;
    for (int y = 0; y < height_px; y++) {
        for (int x = 0; x < width_px; x++) {
            *level++ = (uint8_t)(4 + 240 * x / (width_px - 1));
        }
    }
}

static void frames_video__has_square_pixels_and_colours(void **state)
{
    (void)state;
    FilmCode code = code_of(in_folder("wide.mp4"), "libx264");
    code.aspect_num = 4;
    code.aspect_den = 3;
    code.count = 3;
    code.tint = true;
    film_encode(&code, slope_picture, NULL);
    PlumbFrames *const frames = open_film(code.path, 0);
    int width;
    int height;
    plumb_frames_size_px(frames, &width, &height);
    assert_int_equal(width, 427); /* 320 x 4/3 */
    assert_int_equal(height, HEIGHT);
    const PlumbGray gray = frame_of(frames, 1);
    for (int x = 10; x < width - 10; x++) { /* scaled and packed: 2 levels */
        assert_near(gray.level[90 * gray.stride + x], 4.0 + 240.0 * (x + 0.5) / width, 2.5);
    }
    PlumbPhoto photo;
    PlumbError error;
    assert_int_equal(plumb_frames_photo(frames, 1, &photo, &error), PLUMB_OK);
    const uint32_t pixel = photo.pixel[90 * width + width / 2];
    /* ITU-R BT.601: blue lies 1.772 x 16 x 255/224 above luma, red at it; 3 levels of packing */
    const double luma = gray.level[90 * gray.stride + width / 2];
    assert_near((double)(pixel & 255), luma + 32.3, 3.0);
    assert_near((double)(pixel >> 16 & 255), luma, 3.0);
    plumb_photo_free(&photo);
    plumb_frames_close(frames);
}

static void frames_video__is_the_same_in_any_order(void **state)
{
    (void)state;
    static uint8_t all[COUNT][WIDTH * HEIGHT];
    const struct {
        const char *name;
        const char *encoder;
        int between;
    } rows[] = {{"o.mp4", "libx264", 3}, {"o.webm", "libvpx", 0}, {"o.mov", "libx265", 3}};
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        if (!film_encoder_found(rows[k].encoder)) {
            continue;
        }
        FilmCode code = code_of(in_folder(rows[k].name), rows[k].encoder);
        code.between = rows[k].between;
        film_encode(&code, rendered_picture, NULL);
        /* The survey keeps all where there is memory; three frames where there is none. */
        PlumbFrames *const kept = open_film(code.path, (size_t)64 << 20);
        PlumbFrames *const frames = open_film(code.path, 0);
        for (int i = 0; i < COUNT; i++) {
            memcpy(all[i], frame_of(kept, i).level, sizeof all[i]);
        }
        uint32_t draw = 7;
        for (int n = 0; n < ASKED; n++) {
            draw = draw * 1664525u + 1013904223u;
            const int i = n < ASKED / 2 ? (int)(draw >> 16) % COUNT : (ASKED - n) % COUNT;
            assert_memory_equal(frame_of(frames, i).level, all[i], sizeof all[i]);
        }
        plumb_frames_close(kept);
        plumb_frames_close(frames);
    }
}

static void frames_video__refuses_what_is_too_large(void **state)
{
    (void)state;
    FilmCode code = code_of(in_folder("huge.mov"), "mjpeg");
    code.width_px = 4096;
    code.height_px = 2560;
    code.count = 1;
    film_encode(&code, slope_picture, NULL);
    PlumbFramesOptions options = plumb_frames_options();
    options.film_program = PLUMB_FILM;
    PlumbFrames *frames = NULL;
    PlumbError error = {0};
    assert_int_equal(plumb_frames_open(code.path, &options, &frames, &error), PLUMB_TOO_LARGE);
    assert_non_null(strstr(error.message, "export it at 1080p"));
    assert_null(frames);
}

static void frames_video__finds_its_reader_in_a_build(void **state)
{
    (void)state;
    FilmCode code = code_of(in_folder("found.mp4"), "mpeg4");
    code.count = 2;
    film_encode(&code, slope_picture, NULL);
    PlumbFrames *frames = NULL;
    PlumbError error = {0};
    if (plumb_frames_open(code.path, NULL, &frames, &error) != PLUMB_OK) {
        fail_msg("%s", error.message);
    }
    plumb_frames_close(frames);
}

#define in_own_folder(test) cmocka_unit_test_setup_teardown(test, make_folder, remove_folder)

int main(void)
{
    const struct CMUnitTest tests[] = {
        in_own_folder(frames_video__equals_what_was_rendered),
        in_own_folder(frames_video__keeps_uneven_times),
        in_own_folder(frames_video__stands_upright),
        in_own_folder(frames_video__has_square_pixels_and_colours),
        in_own_folder(frames_video__is_the_same_in_any_order),
        in_own_folder(frames_video__refuses_what_is_too_large),
        in_own_folder(frames_video__finds_its_reader_in_a_build),
    };
    return cmocka_run_group_tests(tests, render_all, NULL);
}
