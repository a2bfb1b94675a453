/* SPDX-License-Identifier: MIT */
/* Marks followed through made frames whose truth is known: to a fraction of a pixel, through a
 * turn, behind something, with a wrong mark, and before a camera that shakes. */
#include "support.h"

#include "moving.h"

#include <string.h>

enum { WIDTH = 320, HEIGHT = 240, FRAMES = 40, RADIUS = 14 };

typedef struct Film {
    Moving frame[FRAMES];
    uint8_t level[WIDTH * HEIGHT];
    int width; /* told */
    int stop_after;
    int asked;
} Film;

/* What a parabola through correlations leaves between pixels. */
static const double fine_px = 0.3;

static Film film;
static PlumbTrackPoint point[2 * FRAMES];
static PlumbShift shift[FRAMES];

static PlumbStatus lend(void *user, int index, PlumbGray *gray, PlumbError *error)
{
    Film *const f = user;
    (void)error;
    moving_draw(&f->frame[index], WIDTH, HEIGHT, (unsigned)index + 1U, f->level);
    *gray = (PlumbGray){f->width, HEIGHT, WIDTH, f->level};
    return PLUMB_OK;
}

static bool tell(void *user, double done_frac)
{
    Film *const f = user;
    assert_true(done_frac > 0.0 && done_frac <= 1.0);
    f->asked++;
    return f->stop_after == 0 || f->asked < f->stop_after;
}

/* A body that rises 100 px as a bar does, and drifts aside a little. */
static void film_begin(void)
{
    memset(&film, 0, sizeof film);
    film.width = WIDTH;
    for (int i = 0; i < FRAMES; i++) {
        const double u = (double)i / (FRAMES - 1);
        film.frame[i] =
            (Moving){.at_px = {150.0 + 7.3 * sin(3.0 * u), 180.0 - 110.0 * u * u * (3.0 - 2.0 * u)},
                     .radius_px = 22.0,
                     .noise = 3.0};
    }
}

static PlumbTracks follow(PlumbTrackAsk *ask)
{
    PlumbTracks tracks = {.point = point, .shift = shift};
    PlumbError error;
    void *const room = malloc(plumb_track_room_bytes(ask));
    assert_non_null(room);
    assert_int_equal(plumb_track_follow(ask, room, &tracks, &error), PLUMB_OK);
    free(room);
    return tracks;
}

static PlumbTrackAsk ask_for(const PlumbAnchor *anchor, int count)
{
    PlumbTrackAsk ask = plumb_track_ask(WIDTH, HEIGHT, FRAMES);
    ask.frame = lend;
    ask.progress = tell;
    ask.user = &film;
    ask.track_count = 1;
    ask.radius_px[0] = RADIUS;
    ask.anchor = anchor;
    ask.anchor_count = count;
    return ask;
}

static double worst_miss(int first, int last)
{
    double worst = 0.0;
    for (int i = first; i <= last; i++) {
        worst = fmax(worst, hypot(point[i].at_px.x - film.frame[i].at_px.x,
                                  point[i].at_px.y - film.frame[i].at_px.y));
    }
    return worst;
}

static void follow__keeps_to_a_fraction_of_a_pixel(void **state)
{
    (void)state;
    film_begin();
    const PlumbAnchor anchor = {0, 5, film.frame[5].at_px};
    PlumbTrackAsk ask = ask_for(&anchor, 1);
    const PlumbTracks tracks = follow(&ask);
    assert_true(worst_miss(0, FRAMES - 1) < fine_px);
    assert_int_equal(tracks.steady, PLUMB_STEADY);
    assert_int_equal(film.asked, 2 * FRAMES);
    for (int i = 0; i < FRAMES; i++) {
        assert_true(point[i].known);
        assert_int_equal(point[i].doubts, 0);
        assert_int_equal(point[i].marked, i == 5);
    }
}

/* A limb turns by 70 degrees: the patch is renewed, and two marks hold the drift down. */
static void follow__goes_through_a_turn(void **state)
{
    (void)state;
    film_begin();
    for (int i = 0; i < FRAMES; i++) {
        film.frame[i].turn_rad = degrees(70.0) * i / (FRAMES - 1);
    }
    const PlumbAnchor anchor[] = {{0, 0, film.frame[0].at_px},
                                  {0, FRAMES - 1, film.frame[FRAMES - 1].at_px}};
    PlumbTrackAsk ask = ask_for(anchor, 2);
    follow(&ask);
    assert_true(worst_miss(0, FRAMES - 1) < 2.0 * fine_px);
    for (int i = 0; i < FRAMES; i++) {
        assert_int_equal(point[i].doubts, 0);
    }
}

static void follow__doubts_what_is_hidden(void **state)
{
    (void)state;
    film_begin();
    for (int i = 15; i < 22; i++) {
        film.frame[i].hidden_px = 200.0;
    }
    const PlumbAnchor anchor = {0, 0, film.frame[0].at_px};
    PlumbTrackAsk ask = ask_for(&anchor, 1);
    follow(&ask);
    for (int i = 15; i < 22; i++) {
        assert_int_not_equal(point[i].doubts & (1U << PLUMB_DOUBT_unlike), 0);
    }
    assert_true(worst_miss(0, 14) < fine_px);
    /* And it is found again when it comes out. */
    assert_true(worst_miss(22, FRAMES - 1) < fine_px);
}

/* A mark on the wall instead of on the body: its way stays there. */
static void follow__doubts_two_ways_that_do_not_meet(void **state)
{
    (void)state;
    film_begin();
    const PlumbVec2 wall = {film.frame[30].at_px.x + 70.0, film.frame[30].at_px.y};
    const PlumbAnchor anchor[] = {{0, 0, film.frame[0].at_px}, {0, 30, wall}};
    PlumbTrackAsk ask = ask_for(anchor, 2);
    follow(&ask);
    for (int i = 5; i < 30; i++) {
        assert_int_not_equal(point[i].doubts & (1U << PLUMB_DOUBT_apart), 0);
    }
    assert_true(point[15].apart_px > 60.0);
}

/* Two marks on different spots of the body: both ways follow well, and how far the marks differ is
 * told. */
static void follow__tells_marks_on_different_spots(void **state)
{
    (void)state;
    film_begin();
    const PlumbVec2 beside = {film.frame[30].at_px.x + 6.0, film.frame[30].at_px.y - 5.0};
    const PlumbAnchor anchor[] = {{0, 0, film.frame[0].at_px}, {0, 30, beside}};
    PlumbTrackAsk ask = ask_for(anchor, 2);
    follow(&ask);
    for (int i = 1; i < 30; i++) {
        assert_int_equal(point[i].doubts, 0);
        assert_near(point[i].apart_px, hypot(6.0, 5.0), 2.0 * fine_px);
        assert_near(point[i].at_px.x - film.frame[i].at_px.x, 6.0 * i / 30.0, 2.0 * fine_px);
    }
    assert_true(point[15].apart_px > plumb_track_meet_px(RADIUS));
}

/* One corrected frame: only the frames up to the neighbouring marks are done anew. */
static void mend__leaves_the_rest(void **state)
{
    (void)state;
    film_begin();
    for (int i = 15; i < 22; i++) {
        film.frame[i].hidden_px = 200.0;
    }
    PlumbAnchor anchor[] = {{0, 10, film.frame[10].at_px},
                            {0, 30, film.frame[30].at_px},
                            {0, 18, film.frame[18].at_px}};
    PlumbTrackAsk ask = ask_for(anchor, 2);
    follow(&ask);
    PlumbTrackPoint before[FRAMES];
    memcpy(before, point, sizeof before);
    ask.anchor_count = 3;
    plumb_track_mend(&ask, 0, 18);
    assert_int_equal(ask.from_frame, 10);
    assert_int_equal(ask.to_frame, 30);
    film.asked = 0;
    follow(&ask);
    assert_int_equal(film.asked, 2 * 21);
    assert_true(point[18].marked);
    assert_int_equal(point[18].doubts, 0);
    assert_memory_equal(before, point, 10 * sizeof before[0]);
    assert_memory_equal(before + 31, point + 31, (FRAMES - 31) * sizeof before[0]);
}

static void camera__is_brought_back(void **state)
{
    (void)state;
    film_begin();
    PlumbVec2 truth[FRAMES];
    for (int i = 0; i < FRAMES; i++) {
        Moving *const m = &film.frame[i];
        truth[i] = m->at_px;
        m->camera_px = (PlumbVec2){4.0 * sin(0.4 * i), 3.0 * sin(0.3 * i)};
        m->camera_rad = 0.01 * sin(0.2 * i);
        const double c = cos(m->camera_rad);
        const double s = sin(m->camera_rad);
        m->at_px = (PlumbVec2){c * truth[i].x - s * truth[i].y + m->camera_px.x,
                               s * truth[i].x + c * truth[i].y + m->camera_px.y};
    }
    const PlumbAnchor anchor = {0, 0, film.frame[0].at_px};
    PlumbTrackAsk ask = ask_for(&anchor, 1);
    const PlumbTracks tracks = follow(&ask);
    assert_int_equal(tracks.steady, PLUMB_SHAKEN);
    assert_true(tracks.moved_px > 3.0);
    for (int i = 0; i < FRAMES; i++) {
        const PlumbVec2 back = plumb_track_steady(&shift[i], point[i].at_px);
        assert_true(shift[i].known);
        assert_near(back.x, truth[i].x, 0.4);
        assert_near(back.y, truth[i].y, 0.4);
    }
}

static void camera__is_refused_where_the_wall_falls_apart(void **state)
{
    (void)state;
    film_begin();
    for (int i = 0; i < FRAMES; i++) {
        film.frame[i].camera_px.x = 0.4 * i;
        film.frame[i].torn = true;
    }
    const PlumbAnchor anchor = {0, 0, film.frame[0].at_px};
    PlumbTrackAsk ask = ask_for(&anchor, 1);
    const PlumbTracks tracks = follow(&ask);
    assert_int_equal(tracks.steady, PLUMB_MOVED);
    assert_int_not_equal(point[FRAMES - 1].doubts & (1U << PLUMB_DOUBT_camera), 0);
}

static void follow__stops_when_told(void **state)
{
    (void)state;
    film_begin();
    film.stop_after = 7;
    const PlumbAnchor anchor = {0, 0, film.frame[0].at_px};
    PlumbTrackAsk ask = ask_for(&anchor, 1);
    memset(point, 0x5a, sizeof point);
    PlumbTrackPoint before[FRAMES];
    memcpy(before, point, sizeof before);
    assert_true(follow(&ask).stopped);
    assert_int_equal(film.asked, 7);
    assert_memory_equal(before, point, sizeof before);
}

static void bad_films__are_refused(void **state)
{
    PlumbError error;
    (void)state;
    film_begin();
    PlumbAnchor anchor = {0, FRAMES, {10.0, 10.0}};
    PlumbTrackAsk ask = ask_for(&anchor, 1);
    PlumbTracks tracks = {.point = point, .shift = shift};
    void *const room = malloc(plumb_track_room_bytes(&ask));
    assert_int_equal(plumb_track_follow(&ask, room, &tracks, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "marks");
    anchor.frame = 0;
    film.width = WIDTH / 2;
    assert_int_equal(plumb_track_follow(&ask, room, &tracks, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "film");
    free(room);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(follow__keeps_to_a_fraction_of_a_pixel),
        cmocka_unit_test(follow__goes_through_a_turn),
        cmocka_unit_test(follow__doubts_what_is_hidden),
        cmocka_unit_test(follow__doubts_two_ways_that_do_not_meet),
        cmocka_unit_test(follow__tells_marks_on_different_spots),
        cmocka_unit_test(mend__leaves_the_rest),
        cmocka_unit_test(camera__is_brought_back),
        cmocka_unit_test(camera__is_refused_where_the_wall_falls_apart),
        cmocka_unit_test(follow__stops_when_told),
        cmocka_unit_test(bad_films__are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
