/* SPDX-License-Identifier: MIT */
/* Kinds of films on the Trace page: a squat from the front and from the side with a doubt that is
 * corrected, a lifter who faces left before a camera that shakes, a camera that is refused. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_folder.h"
#include "reel_play.h"

#define OPENED "finish\nkey ctrl+A\ntype 15\nkey Return\nfinish\n"

static FilmScene scene_of(PlumbLift of)
{
    lift = film_lift(of);
    scene = small_scene(&lift);
    scene.rate_per_s = 15.0;
    return scene;
}

/* Renders the scene into the folder, a frame at a time; torn: but for the first frame nothing of
 * the wall stays. */
static void put_frames(bool mirrored, bool torn)
{
    FilmRender *const render = film_render_open(&scene);
    uint32_t seed = 1;
    for (int i = 0; i < film_count(&scene); i++) {
        char name[32];
        if (i == 0 || !torn) {
            film_render_frame(render, i, level[0]);
        }
        for (int k = 0; torn && i > 0 && k < WIDTH * HEIGHT; k++) {
            seed = 1664525U * seed + 1013904223U;
            level[0][k] = (uint8_t)(seed >> 24);
        }
        snprintf(name, sizeof name, "f%d.png", i);
        put_frame(name, level[0], mirrored);
    }
    film_render_close(render);
}

/* Knees, ankles and bar of both sides at the start, on the way and at the end. */
static void put_front_marks(void)
{
    const int last = film_count(&scene) - 1;
    const int frames[] = {0, last / 3, last / 2, last};
    FILE *const file = fopen(marks_path, "w");
    assert_non_null(file);
    fprintf(file, "frame,landmark,x,y\n");
    for (size_t k = 0; k < sizeof frames / sizeof frames[0]; k++) {
        for (int i = 0; i < FILM_FRONT_TRACKS; i++) {
            char name[64];
            PlumbText text = plumb_text_begin(name, sizeof name);
            plumb_mark_name_text(&text, film_front_names[i]);
            put_mark(file, &scene, frames[k], false, name,
                     film_mark(&scene, frames[k], film_front_names[i]));
        }
    }
    fclose(file);
}

static void squat__from_the_front_shows_the_spread_of_the_knees(void **state)
{
    (void)state;
    scene_of(PLUMB_SQUAT);
    scene.camera.yaw_rad += 0.5 * PLUMB_PI;
    put_frames(false, false);
    put_front_marks();
    play_folder("squat", OPENED "state open\nkey O\nfinish\nstate read\nkey Q\nfinish\n"
                                "click 405 180\nstate spread\nclick 405 420\nstate rise\n"
                                "key ctrl+E\nkey ctrl+A\ntype front.csv\nkey Return\nstate out\n");
    assert_state("open", "view=front");
    assert_state("read", "series=yes");
    assert_state("read", "figure=no"); /* there is no pose from the front */
    /* 0.5 s rest, 1.2 s down; a frame is 67 ms. */
    assert_near(number_in("read", "turn_round"), 25.5, 1.5);
    assert_state("spread", "chart=yes");
    const double middle = 0.5 * (number_in("read", "frames") - 1.0);
    assert_near(number_in("spread", "frame"), middle, 1.5);
    assert_near(number_in("rise", "frame"), middle, 1.5);
    char bytes[256] = {0};
    FILE *const file = fopen(in_folder("front.csv"), "r");
    assert_non_null(file);
    assert_true(fread(bytes, 1, sizeof bytes - 1, file) > 0);
    fclose(file);
    assert_non_null(strstr(bytes, "knee_spread_frac"));
}

/* Heel and ankle are in doubt in the hole; a mark for each there ends doubts of other frames. */
static void squat__is_read_and_its_doubt_corrected(void **state)
{
    (void)state;
    scene_of(PLUMB_SQUAT);
    put_frames(false, false);
    put_marks(&scene, marks_path, false, false);
    play_folder("squat", OPENED "key O\nfinish\nstate read\nkey J\nfinish\nstate doubt\n"
                                "key Return\nstate marked\nkey O\nfinish\nstate once\n"
                                "key J\nfinish\nkey Return\nkey O\nfinish\nstate again\n"
                                "key Q\nfinish\nclick 510 180\nstate clicked\n");
    assert_state("read", "series=yes");
    assert_near(number_in("read", "turn_round"), 25.5, 1.5);
    assert_true(number_in("read", "doubts") > 0.0);
    assert_state("doubt", "figure=seen"); /* over a frame that nobody marked */
    assert_non_null(strstr(state_of("doubt"), "say=\"In doubt: "));
    assert_near(number_in("marked", "marks") - number_in("doubt", "marks"), 1.0, 0.0);
    assert_state("marked", "followed=stale");
    assert_state("once", "followed=yes");
    assert_state("again", "followed=yes");
    assert_state("again", "series=yes");
    assert_true(number_in("again", "doubts") < number_in("read", "doubts"));
    assert_near(number_in("clicked", "frame"), 0.5 * (number_in("read", "frames") - 1.0), 1.5);
}

/* The shake is taken out, and the picture of a lifter who faces left is shown mirrored. */
static void shaking_camera__before_a_lifter_who_faces_left_is_made_up_for(void **state)
{
    (void)state;
    scene_of(PLUMB_DEADLIFT);
    scene.shake_px = 2.0;
    put_frames(true, false);
    put_marks(&scene, marks_path, true, false);
    play_folder("deadlift", OPENED "state open\nkey O\nfinish\nkey PageDown\nfinish\nstate read\n"
                                   "key G\nfinish\nstate used\n");
    assert_state("open", "faces=left");
    assert_state("read", "series=yes");
    assert_state("read", "camera=shaken");
    assert_state("read", "figure=seen");
    /* 5 mm after 0.1 s of the way up, which begins at 0.5 s; a frame is 67 ms. */
    assert_near(number_in("read", "lift_off"), 9.0, 1.0);
    assert_state("used", "page=Drawing");
    assert_state("used", "lead=hip_height_and_balance");
    /* The height is read within 2 cm of that of the model which was filmed. */
    assert_near(number_in("used", "hip_height_m"), lift.answer.start.pose.hip_height_m, 0.02);
}

static void camera__that_moves_without_a_wall_is_refused_by_name(void **state)
{
    (void)state;
    scene_of(PLUMB_DEADLIFT);
    scene.length_s = 1.2;
    put_frames(false, true);
    put_marks(&scene, marks_path, false, false);
    play_folder("deadlift", OPENED "key O\nfinish\nstate read\n");
    assert_state("read", "followed=no");
    assert_state("read", "series=no");
    assert_non_null(strstr(state_of("read"), "not_read=\"the camera moves"));
}

int main(void)
{
#define FILM(f) cmocka_unit_test_setup_teardown(f, make_marked, clear_marked)
    const struct CMUnitTest tests[] = {
        FILM(squat__from_the_front_shows_the_spread_of_the_knees),
        FILM(squat__is_read_and_its_doubt_corrected),
        FILM(shaking_camera__before_a_lifter_who_faces_left_is_made_up_for),
        FILM(camera__that_moves_without_a_wall_is_refused_by_name),
    };
#undef FILM
    return cmocka_run_group_tests(tests, NULL, NULL);
}
