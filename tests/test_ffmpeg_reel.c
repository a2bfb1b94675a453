/* SPDX-License-Identifier: MIT */
/* A video on the Trace page: opened, stepped back and forth, followed, read. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_encode.h"
#include "film_folder.h"
#include "reel_play.h"

static void picture(void *context, int i, int width_px, int height_px, uint8_t *to)
{
    (void)width_px;
    (void)height_px;
    film_render_frame(context, i, to);
}

static void video__is_stepped_followed_and_read(void **state)
{
    (void)state;
    if (!film_encoder_found("libx264")) {
        print_message("no libx264: a video in the window is not tried\n");
        skip();
    }
    lift = film_lift(PLUMB_DEADLIFT);
    scene = small_scene(&lift);
    FilmRender *const render = film_render_open(&scene);
    const FilmCode code = {.path = in_folder("pull.mp4"),
                           .encoder = "libx264",
                           .width_px = WIDTH,
                           .height_px = HEIGHT,
                           .count = film_count(&scene),
                           .rate_per_s = scene.rate_per_s,
                           .group = 12,
                           .between = 2};
    film_encode(&code, picture, render);
    film_render_close(render);
    put_marks(&scene, in_folder("pull.csv"), false, false);
    play_film("pull.mp4", "deadlift",
              "finish\nstate open\nkey shift+PageDown\nfinish\nstate ten\nkey PageUp\nfinish\n"
              "state back\nkey O\nfinish\nstate read\n");
    assert_state("open", "film=open");
    assert_state("open", "frames=61");
    assert_state("open", "shown=0");
    assert_state("ten", "shown=10");
    assert_state("back", "shown=9");
    assert_state("read", "series=yes");
    assert_state("read", "figure=seen");
    assert_state("read", "camera=steady");
    /* As of the folder of the same frames. */
    assert_near(number_in("read", "lift_off"), 18.0, 1.0);
    assert_near(number_in("read", "lockout"), 45.0, 3.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(video__is_stepped_followed_and_read)};
    return cmocka_run_group_tests(tests, make_folder, remove_folder);
}
