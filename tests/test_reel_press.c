/* SPDX-License-Identifier: MIT */
/* A bench press on the Trace page: a still marked in the guided order and films, from the side and
 * from the head end, read and taken over; other lifts' marks that stay. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_press_folder.h"
#include "reel_play.h"

static FilmPress press;
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

static void press__from_the_side_tells_touch_and_lockout(void **state)
{
    /* A place at lockout that is the model's: of one disc a camera that is turned looks the same.
     */
    const FilmPressFault fault = {.touch_m = 0.06};
    (void)state;
    const FilmPressTruth truth = put_press(&fault, FILM_PRESS_RIGHT_RAD);
    play_folder("bench", READ "key PageDown\nfinish\nstate next\nkey Q\nfinish\nstate chart\n"
                              "click 510 200\nstate clicked\nkey G\nfinish\nstate used\n"
                              "key ctrl+Z\nstate back\n");
    assert_state("read", "series=yes");
    assert_state("read", "view=side");
    assert_state("next", "figure=seen"); /* over a frame that nobody marked */
    assert_events(&truth);
    assert_state("chart", "chart=yes");
    assert_near(number_in("clicked", "frame"), 0.5 * (number_in("read", "frames") - 1.0), 1.5);
    assert_state("used", "page=Drawing");
    assert_state("used", "lead=touch");
    assert_near(number_in("used", "touch_m"), truth.touch_m, 0.02);
    assert_near(number_in("used", "lockout_over_m"), truth.lockout_m, 0.02);
    /* The side tells neither grip nor elbows: they stay as they were. */
    assert_near(number_in("used", "grip_m"), number_in("read", "grip_m"), 1e-9);
    assert_state("back", "lead=auto");
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

/* A touch on the head's side: what it asks for is tried on a key. */
static void fault__is_remarked_and_tried(void **state)
{
    const FilmPressFault fault = {.touch_m = -0.20};
    (void)state;
    put_press(&fault, FILM_PRESS_RIGHT_RAD);
    play_folder("bench", READ "key T\nfinish\nstate tried\n");
    assert_true(number_in("read", "findings") >= 1.0);
    assert_state("tried", "page=Drawing");
    assert_state("tried", "try=elbows_in");
}

/* Neither hip nor person says that the feet are to the left: a touch on the chest seems to be on
 * the head's side, until somebody says so. */
static void feet__to_the_left_are_told_by_a_key(void **state)
{
    const FilmPressFault none = {.touch_m = 0.0};
    (void)state;
    const FilmPressTruth truth = put_press(&none, FILM_PRESS_LEFT_RAD);
    play_folder("bench", READ "key M\nkey O\nfinish\nstate turned\nkey G\nfinish\nstate used\n");
    assert_state("read", "faces=right");
    assert_true(number_in("read", "findings") >= 1.0);
    assert_state("turned", "faces=left");
    assert_near(number_in("turned", "findings"), 0.0, 0.0);
    assert_near(number_in("used", "touch_m"), truth.touch_m, 0.03);
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

int main(void)
{
#define FILM(f) cmocka_unit_test_setup_teardown(f, make_marked, clear_marked)
    const struct CMUnitTest tests[] = {
        FILM(press__from_the_side_tells_touch_and_lockout),
        FILM(press__from_the_head_end_tells_grip_and_elbows),
        FILM(fault__is_remarked_and_tried),
        FILM(feet__to_the_left_are_told_by_a_key),
        FILM(still__is_marked_in_the_order_of_the_lift),
    };
#undef FILM
    return cmocka_run_group_tests(tests, NULL, NULL);
}
