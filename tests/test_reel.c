/* SPDX-License-Identifier: MIT */
/* A rendered folder of frames on the Trace page: opened, stepped, marked, followed, read, saved. */
#define _XOPEN_SOURCE 700
#include "support.h"

#include "film_folder.h"
#include "reel_play.h"

#include <plumbar/film_reading.h>
#include <plumbar/marks_file.h>

static void play(const char *script)
{
    play_folder("deadlift", script);
}

#define OPENED "finish\nkey Return\nfinish\n"

static void film__opens_with_its_marks_and_is_stepped(void **state)
{
    (void)state;
    put_film(false, marks_path);
    play("finish\nstate asked\n" OPENED "state open\n"
         "key PageDown\nfinish\nstate next\nkey shift+PageDown\nfinish\nstate ten\n"
         "key shift+R\nwait 500\nfinish\nwait 50\nfinish\nwait 50\nfinish\nstate end\n"
         /* With another lift on the desk its marks stay. */
         "key L\nkey L\nfinish\nkey End\nstate press\nkey PageUp\nfinish\nstate back\n");
    assert_state("asked", "film=refused"); /* until the frames' times are told */
    assert_state("asked", "typed=\"30\"");
    assert_state("open", "film=open");
    assert_state("open", "frames=61");
    assert_state("open", "marks_unsaved=no");
    assert_state("open", "frame=0");
    assert_state("open", "followed=no");
    assert_state("next", "shown=1");
    assert_state("ten", "shown=11");
    /* Played to its end, where it stops. */
    assert_state("end", "shown=60");
    assert_state("end", "play=no");
    assert_state("press", "lift=bench");
    assert_near(number_in("press", "marks"), number_in("open", "marks"), 0.0);
    assert_state("press", "row=ankle"); /* a mark of this frame that a press does not ask for */
    assert_state("back", "shown=59");
}

static void marks__are_followed_and_the_lift_is_read(void **state)
{
    (void)state;
    put_film(false, marks_path);
    play(OPENED "key O\nstate begun\nfinish\nstate read\nkey Q\nfinish\nstate chart\n"
                "click 510 200\nstate heights\nclick 510 300\nstate back\nclick 510 420\n"
                "state speed\nclick 105 164\nstate path\n");
    assert_state("begun", "followed=running");
    assert_state("read", "followed=yes");
    assert_state("read", "series=yes");
    assert_state("read", "findings=0");
    assert_state("chart", "chart=yes");
    /* The middle of each panel is that of the film; the upper end of the path is at lockout. */
    assert_near(number_in("heights", "frame"), 30.0, 1.0);
    assert_near(number_in("back", "frame"), 30.0, 1.0);
    assert_near(number_in("speed", "frame"), 30.0, 1.0);
    assert_true(number_in("path", "frame") >= number_in("read", "lockout") - 3.0);
    /* 5 mm after 0.1 s of the way up, which begins at 0.5 s; a frame is 33 ms. */
    assert_near(number_in("read", "lift_off"), 18.0, 1.0);
    assert_near(number_in("read", "lockout"), 45.0, 3.0);
}

static size_t read_file(const char *name, char *bytes, size_t room)
{
    FILE *const file = fopen(in_folder(name), "r");
    assert_non_null(file);
    const size_t length = fread(bytes, 1, room, file);
    fclose(file);
    return length;
}

/* Chart and key frames are those of the command, to the byte. */
static void film__is_exported(void **state)
{
    enum { ROOM = 1 << 21 };
    static char bytes[2][ROOM];
    char line[6 * PATH_SIZE];
    (void)state;
    put_film(false, marks_path);
    play(OPENED "key O\nfinish\nkey ctrl+E\nkey ctrl+A\ntype film.csv\nkey Return\n"
                "key ctrl+E\ntype film.svg\nkey Return\nstate begun\nfinish\nstate out\n");
    assert_state("begun", "drawing=yes");
    assert_non_null(strstr(state_of("out"), "say=\"Wrote film.svg.\""));
    assert_true(read_file("film.csv", bytes[0], ROOM) > 47);
    assert_int_equal(strncmp(bytes[0], "frame,time_s,known,misfit,bar_x_m,bar_height_m,", 47), 0);
    snprintf(line, sizeof line,
             "%s trace film %s %s deadlift sex=female stature=168cm mass=66kg rate=30 "
             "--date 2026-01-02 -o %s",
             PLUMB_PROGRAM, folder, marks_path, in_folder("command.svg"));
    assert_int_equal(system(line), 0);
    const size_t length = read_file("film.svg", bytes[0], ROOM);
    assert_int_equal(read_file("command.svg", bytes[1], ROOM), length);
    assert_memory_equal(bytes[0], bytes[1], length);
}

static void mark__that_is_moved_is_followed_again_and_saved(void **state)
{
    char bytes[4096] = {0};
    (void)state;
    put_film(false, marks_path);
    play(OPENED "key O\nfinish\nkey End\nkey PageDown\nfinish\nspot 300 100\nstate moved\n"
                "key O\nfinish\nstate again\nkey ctrl+S\nstate saved\nkey ctrl+Z\nstate undone\n");
    assert_state("moved", "followed=stale");
    assert_state("moved", "marks_unsaved=yes");
    assert_state("again", "followed=yes");
    assert_state("saved", "marks_unsaved=no");
    assert_near(number_in("saved", "marks") - number_in("undone", "marks"), 1.0, 0.0);
    FILE *const file = fopen(marks_path, "r");
    assert_non_null(file);
    const size_t length = fread(bytes, 1, sizeof bytes - 1, file);
    fclose(file);
    assert_true(length > 0);
    /* What stood in it stands as it was; the new mark has the frame that was on show. */
    assert_int_equal(strncmp(bytes, "frame,landmark,x,y\n0,knee,", 26), 0);
    assert_non_null(strstr(bytes, "\n1,"));
}

static void marks__that_cannot_be_read_close_the_film(void **state)
{
    (void)state;
    put_film(false, marks_path);
    FILE *const file = fopen(marks_path, "w");
    assert_non_null(file);
    fputs("frame,landmark,x,y\n0,hip,280,200\n99,knee,300,220\n", file);
    fclose(file);
    play(OPENED "state shut\n");
    assert_state("shut", "pictures=0");
    assert_non_null(strstr(state_of("shut"), "the film has no such frame; its last is 60"));
}

/* What a fit has told, and when it shall stop. */
typedef struct Told {
    double stop_frac; /* above 1: never */
    double last_frac;
    int steps;
    int followed; /* calls while marks were followed */
} Told;

static bool hear(void *user, PlumbFilmStep step, double done_frac)
{
    Told *const told = user;
    if (step == PLUMB_FILM_FITS) {
        assert_true(done_frac >= told->last_frac && done_frac <= 1.0);
        told->last_frac = done_frac;
        told->steps++;
    }
    told->followed += step == PLUMB_FILM_FOLLOWS;
    return step != PLUMB_FILM_FITS || done_frac < told->stop_frac;
}

/* The film in the folder, followed; the caller frees. */
static PlumbFilmReading *follow_film(PlumbFilmQuestion *question)
{
    const PlumbMarksMap map = plumb_film_map_default();
    PlumbFramesOptions options = plumb_frames_options();
    PlumbFilmReading *const read = calloc(1, sizeof *read);
    char *bytes = NULL;
    size_t length = 0;
    options.rate_per_s = 30.0;
    assert_non_null(read);
    put_film(false, marks_path);
    assert_int_equal(plumb_film_reading_open(read, folder, &options, NULL, NULL, NULL), PLUMB_OK);
    assert_int_equal(
        plumb_file_read_whole(marks_path, PLUMB_MARKS_FILE_MAX_BYTES, &bytes, &length, NULL),
        PLUMB_OK);
    assert_int_equal(plumb_film_marks_parse(bytes, length, &map, &read->marks, NULL), PLUMB_OK);
    free(bytes);
    assert_int_equal(plumb_film_marks_place(&read->marks, read->time_s, read->frame_count, NULL),
                     PLUMB_OK);
    assert_int_equal(plumb_film_reading_tracks(read, question, NULL), PLUMB_OK);
    assert_int_equal(plumb_film_reading_follow(read, NULL, NULL, NULL, NULL), PLUMB_OK);
    return read;
}

/* Another lifter or threshold needs no frame of the film. */
static void marks__that_stand_as_they_did_are_not_followed_again(void **state)
{
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_FEMALE, 1.68, 66.0);
    PlumbFilmQuestion question = plumb_film_question(&lift.lifter, &spec, &lift.answer.setup);
    Told told = {.stop_frac = 2.0};
    (void)state;
    if (!plumb_photo_supported()) {
        skip();
    }
    PlumbFilmReading *const before = follow_film(&question);
    PlumbFilmReading *const again = calloc(1, sizeof *again);
    assert_non_null(again);
    assert_true(plumb_film_reading_again(again, before));
    again->marks = before->marks;
    assert_int_equal(plumb_film_reading_tracks(again, &question, NULL), PLUMB_OK);
    assert_int_equal(plumb_film_reading_follow(again, before, hear, &told, NULL), PLUMB_OK);
    assert_int_equal(told.followed, 0);
    for (int t = 0; t < again->track_count; t++) {
        assert_memory_equal(plumb_film_point(again, t, 40), plumb_film_point(before, t, 40),
                            sizeof(PlumbTrackPoint));
    }
    assert_int_equal(plumb_film_reading_fit(again, &question, NULL, NULL, NULL), PLUMB_OK);
    plumb_film_reading_free(again);
    plumb_film_reading_free(before);
}

static void fit__tells_how_far_it_is_and_stops_when_told(void **state)
{
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_FEMALE, 1.68, 66.0);
    PlumbFilmQuestion question = plumb_film_question(&lift.lifter, &spec, &lift.answer.setup);
    Told all = {.stop_frac = 2.0};
    Told half = {.stop_frac = 0.5};
    (void)state;
    if (!plumb_photo_supported()) {
        skip();
    }
    PlumbFilmReading *const read = follow_film(&question);
    assert_int_equal(plumb_film_reading_fit(read, &question, hear, &half, NULL), PLUMB_OK);
    assert_true(read->stopped);
    /* A share for each frame: the next one after the half is the last that is told. */
    assert_near(half.last_frac, 0.5, 0.02);
    read->stopped = false;
    assert_int_equal(plumb_film_reading_fit(read, &question, hear, &all, NULL), PLUMB_OK);
    assert_false(read->stopped);
    assert_true(all.steps > read->frame_count);
    assert_true(read->series.event_frame[PLUMB_EVENT_lockout] > 0);
    plumb_film_reading_free(read);
}

static int make(void **state)
{
    return mark_beside(make_film(state));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(film__opens_with_its_marks_and_is_stepped),
        cmocka_unit_test(marks__are_followed_and_the_lift_is_read),
        cmocka_unit_test(film__is_exported),
        cmocka_unit_test(mark__that_is_moved_is_followed_again_and_saved),
        cmocka_unit_test(marks__that_cannot_be_read_close_the_film),
        cmocka_unit_test(marks__that_stand_as_they_did_are_not_followed_again),
        cmocka_unit_test(fit__tells_how_far_it_is_and_stops_when_told),
    };
    return cmocka_run_group_tests(tests, make, clear_marked);
}
