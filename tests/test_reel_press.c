/* SPDX-License-Identifier: MIT */
/* A bench press on the Trace page: a still marked in the guided order and a film from the head end,
 * read and taken over; other lifts' marks that stay. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_press_folder.h"
#include "reel_play.h"

static FilmPress press;
static char marks_path[2 * PATH_SIZE];

#define OPENED "finish\nkey ctrl+A\ntype 15\nkey Return\nfinish\n"
#define READ OPENED "key O\nfinish\nstate read\n"

static void make_scene(const FilmPressFault *fault, double yaw_rad)
{
    press = film_press(fault);
    press.rest_s = 0.4;
    press.down_s = 0.8;
    press.up_s = 0.8;
    press.hold_s = 0.4;
    scene = small_press(&press, yaw_rad);
}

static FilmPressTruth put_press(const FilmPressFault *fault, double yaw_rad)
{
    FilmPressTruth truth;
    make_scene(fault, yaw_rad);
    put_scene(&scene);
    put_press_marks(&scene, &press, marks_path);
    film_press_truth(&scene, &press.lifter.body, FILM_PRESS_TURN_M, &truth);
    return truth;
}

/* A frame is 67 ms. */
static void assert_events(const FilmPressTruth *truth)
{
    assert_near(number_in("read", "turn_round"), truth->touch_s * 15.0, 1.5);
    assert_near(number_in("read", "lift_off"), truth->off_s * 15.0, 1.5);
    assert_near(number_in("read", "lockout"), truth->lockout_s * 15.0, 1.5);
}

static void press__from_the_head_end_tells_grip_and_elbows(void **state)
{
    const FilmPressFault fault = {.grip_m = 0.08};
    char bytes[2048] = {0};
    (void)state;
    const FilmPressTruth truth = put_press(&fault, FILM_PRESS_HEAD_RAD);
    play_folder("bench", READ "key G\nfinish\nstate used\nkey F8\nkey ctrl+E\nkey ctrl+A\n"
                              "type press.csv\nkey Return\nstate out\n");
    assert_state("read", "series=yes");
    assert_state("read", "view=end");
    assert_state("read", "figure=seen");
    assert_events(&truth);
    assert_near(number_in("used", "grip_m"), press.answer.setup.grip_m, 0.03);
    assert_near(number_in("used", "elbows_rad"), truth.touch_abduction_rad, degrees(10.0));
    assert_state("used", "lead=auto"); /* where it touches is not seen from there */
    FILE *const file = fopen(in_folder("press.csv"), "r");
    assert_non_null(file);
    assert_true(fread(bytes, 1, sizeof bytes - 1, file) > 0);
    fclose(file);
    assert_non_null(strstr(bytes, "upper_arm_rad"));
    assert_null(strstr(bytes, "hip_arm_m"));
}

static size_t append(char *script, size_t length, size_t room, PlumbMarkName name)
{
    const PlumbVec2 at = film_mark(&scene, 0, name);
    return length +
           (size_t)snprintf(script + length, room - length, "spot %.0f %.0f\n", at.x, at.y);
}

/* Disc, shoulder, elbow by click; wrist and hand are behind the disc. With another lift on the desk
 * all marks stay, and their landmarks are in its list; back, another lift's marks are in this. */
static void still__is_marked_in_the_order_of_the_lift(void **state)
{
    char script[2048];
    PlumbMark mark[FILM_PRESS_MARKS];
    (void)state;
    const FilmPressFault none = {.touch_m = 0.0};
    make_scene(&none, FILM_PRESS_RIGHT_RAD);
    scene.length_s = 0.1; /* one frame is enough */
    put_scene(&scene);
    size_t length = (size_t)snprintf(script, sizeof script, "finish\nstate open\n");
    const int count = film_press_marks(&scene, 0, 0.0, mark);
    for (int i = 0; i < count; i++) {
        if (mark[i].name.landmark == PLUMB_MARK_disc) {
            length += (size_t)snprintf(script + length, sizeof script - length, "spot %.0f %.0f\n",
                                       mark[i].x_px, mark[i].y_px);
        }
    }
    length += (size_t)snprintf(script + length, sizeof script - length, "state rim\n");
    length = append(script, length, sizeof script,
                    (PlumbMarkName){PLUMB_MARK_shoulder, PLUMB_NEAR, false});
    length =
        append(script, length, sizeof script, (PlumbMarkName){PLUMB_MARK_elbow, PLUMB_NEAR, false});
    snprintf(script + length, sizeof script - length,
             "finish\nstate fitted\nkey L\nfinish\nstate pull\nkey Home\nspot 400 300\nstate heel\n"
             "key L\nkey L\nfinish\nkey End\nstate back\nkey Delete\nstate gone\nkey ctrl+Z\n"
             "key G\nfinish\nstate used\nkey F8\nkey S\nstate end\nkey S\nkey ctrl+S\n"
             "state saved\ndrop f0.png\nfinish\nstate again\n");
    play_film("f0.png", "bench", script);
    assert_state("open", "row=disc");
    assert_state("rim", "row=shoulder");
    assert_state("fitted", "row=wrist");
    assert_state("fitted", "fit=made");
    assert_near(number_in("fitted", "marks"), 7.0, 0.0);
    assert_true(number_in("fitted", "misfit") < 1.0);
    assert_state("pull", "lift=deadlift");
    assert_near(number_in("pull", "marks"), 7.0, 0.0);
    assert_state("heel", "row=toe");
    assert_state("back", "lift=bench");
    assert_near(number_in("back", "marks"), 8.0, 0.0);
    assert_state("back", "row=heel");
    assert_near(number_in("gone", "marks"), 7.0, 0.0);
    assert_near(number_in("used", "lockout_over_m"), 0.0, 0.03);
    assert_state("used", "lead=auto");
    assert_state("end", "view=end");
    assert_near(number_in("end", "marks"), 8.0, 0.0);
    assert_state("saved", "marks_unsaved=no");
    assert_near(number_in("again", "marks"), 8.0, 0.0);
}

static int make(void **state)
{
    const int failed = make_folder(state);
    snprintf(marks_path, sizeof marks_path, "%s.csv", folder);
    return failed;
}

static int clear(void **state)
{
    remove(marks_path);
    return remove_folder(state);
}

int main(void)
{
#define FILM(f) cmocka_unit_test_setup_teardown(f, make, clear)
    const struct CMUnitTest tests[] = {
        FILM(press__from_the_head_end_tells_grip_and_elbows),
        FILM(still__is_marked_in_the_order_of_the_lift),
    };
#undef FILM
    return cmocka_run_group_tests(tests, NULL, NULL);
}
