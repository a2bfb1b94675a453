/* SPDX-License-Identifier: MIT */
/* Films of known motion read back: path, angles, events and findings against the truth, median and
 * 95th percentile per condition. PLUMB_LONG=1: all conditions. */
#include "support.h"

#include "film_fault.h"
#include "film_read.h"

enum { FRAMES_MAX = 1200 };

static const double frame_rate = 30.0;

static const FilmCondition conditions[] = {
    {"pull, clean", PLUMB_DEADLIFT, true, FILM_CLEAN},
    {"squat, clean", PLUMB_SQUAT, true, FILM_CLEAN},
    {"pull, 24 frames a second", PLUMB_DEADLIFT, false, 24.0, 2.0, 0.5, 0.0, 0.0, (double)NAN, 0.0,
     0.0, 0.0},
    {"pull, 60 frames a second", PLUMB_DEADLIFT, false, 60.0, 2.0, 0.5, 0.0, 0.0, (double)NAN, 0.0,
     0.0, 0.0},
    {"squat, 120 frames a second", PLUMB_SQUAT, false, 120.0, 2.0, 0.5, 0.0, 0.0, (double)NAN, 0.0,
     0.0, 0.0},
    {"pull, noise of 8 levels", PLUMB_DEADLIFT, false, 30.0, 8.0, 0.5, 0.0, 0.0, (double)NAN, 0.0,
     0.0, 0.0},
    {"pull, blur of 1.5 px", PLUMB_DEADLIFT, false, 30.0, 2.0, 1.5, 0.0, 0.0, (double)NAN, 0.0, 0.0,
     0.0},
    {"pull, uneven light", PLUMB_DEADLIFT, false, 30.0, 2.0, 0.5, 0.3, 0.0, (double)NAN, 0.0, 0.0,
     0.0},
    {"pull, hand that shakes by 3 px", PLUMB_DEADLIFT, false, 30.0, 2.0, 0.5, 0.0, 3.0, (double)NAN,
     0.0, 0.0, 0.0},
    {"squat, hand that shakes by 3 px", PLUMB_SQUAT, false, 30.0, 2.0, 0.5, 0.0, 3.0, (double)NAN,
     0.0, 0.0, 0.0},
    {"pull, a post before the hip", PLUMB_DEADLIFT, false, 30.0, 2.0, 0.5, 0.0, 0.0, -0.35, 0.0,
     0.0, 0.0},
    {"pull, somebody passes", PLUMB_DEADLIFT, false, 30.0, 2.0, 0.5, 0.0, 0.0, (double)NAN, 0.2,
     0.0, 0.0},
    {"pull, camera turned by 5°", PLUMB_DEADLIFT, false, 30.0, 2.0, 0.5, 0.0, 0.0, (double)NAN, 0.0,
     5.0, 0.0},
    {"pull, marks missed by 4 px", PLUMB_DEADLIFT, false, 30.0, 2.0, 0.5, 0.0, 0.0, (double)NAN,
     0.0, 0.0, 4.0},
    {"squat, marks missed by 4 px", PLUMB_SQUAT, false, 30.0, 2.0, 0.5, 0.0, 0.0, (double)NAN, 0.0,
     0.0, 4.0},
};

enum { HELD_PATH, HELD_BAR, HELD_BACK, HELD_SHIN, HELD_THIGH, HELD_HIP, HELD_COUNT };

static const char *const held_names[HELD_COUNT] = {"path mm", "bar mm", "back°",
                                                   "shin°",   "thigh°", "hip mm"};

typedef struct Result {
    double middle[HELD_COUNT];
    double high[HELD_COUNT]; /* 95th percentile over the frames */
    double lift_off;         /* miss in frames */
    double ratio;            /* miss, */
    double ratio_sd;         /* and the spread that is told with it */
    int beyond;              /* findings */
    int unknown;             /* frames */
    PlumbSteady steady;
} Result;

static double degrees_off(const PlumbSeriesFrame *frame, const PlumbPosition *truth,
                          PlumbAngle angle)
{
    return fabs(frame->value[angle] - truth->angle_rad[angle]) * 180.0 / PLUMB_PI;
}

static void hold(const FilmRead *read, Result *result)
{
    static double error[HELD_COUNT][FRAMES_MAX];
    const int count = read->series.frame_count;
    assert_true(count <= FRAMES_MAX);
    PlumbVec2 off = {0.0, 0.0};
    PlumbPosition truth;
    for (int i = 0; i < count; i++) {
        read->scene->at(read->scene->motion, read->time_s[i], &truth);
        off.x += (read->frame[i].bar_m.x - truth.point[PLUMB_PT_bar].x) / count;
        off.y += (read->frame[i].bar_m.y - truth.point[PLUMB_PT_bar].y) / count;
    }
    for (int i = 0; i < count; i++) {
        const PlumbSeriesFrame *const frame = &read->frame[i];
        read->scene->at(read->scene->motion, read->time_s[i], &truth);
        const double x = frame->bar_m.x - truth.point[PLUMB_PT_bar].x;
        const double y = frame->bar_m.y - truth.point[PLUMB_PT_bar].y;
        error[HELD_PATH][i] = 1000.0 * hypot(x - off.x, y - off.y);
        error[HELD_BAR][i] = 1000.0 * hypot(x, y);
        error[HELD_BACK][i] = degrees_off(frame, &truth, PLUMB_ANG_back);
        error[HELD_SHIN][i] = degrees_off(frame, &truth, PLUMB_ANG_shin);
        error[HELD_THIGH][i] = degrees_off(frame, &truth, PLUMB_ANG_thigh);
        error[HELD_HIP][i] = 1000.0 * fabs(frame->pose.hip_height_m - truth.pose.hip_height_m);
    }
    for (int k = 0; k < HELD_COUNT; k++) {
        film_sort(error[k], count);
        result->middle[k] = error[k][count / 2];
        result->high[k] = error[k][count * 95 / 100];
    }
}

/* Renders, marks, follows and reads a lift. */
static Result read_film(const FilmCondition *c)
{
    static FilmRead read;
    const FilmLift lift = film_lift(c->lift);
    const FilmScene scene = film_scene_under(c, film_lift_at, &lift, &lift);
    const bool squat = c->lift == PLUMB_SQUAT;
    Result result = {.lift_off = (double)NAN};
    FilmTruth truth;
    film_read_scene(&read, &scene, &lift, c->mark_px);
    film_truth(&scene, &lift, &truth);
    hold(&read, &result);
    result.unknown = read.series.unknown_count;
    result.steady = read.tracks.steady;
    const PlumbEvent begins = squat ? PLUMB_EVENT_turn_round : PLUMB_EVENT_lift_off;
    result.lift_off = (read.series.event_s[begins] - truth.begin_s) * c->rate_per_s;
    double limit[PLUMB_FILM_LIMIT_COUNT];
    PlumbFilmFinding finding[PLUMB_FILM_LIMIT_COUNT];
    plumb_film_limits_default(c->lift, limit);
    const int count = plumb_film_findings(&read.series, limit, finding);
    for (int i = 0; i < count; i++) {
        result.beyond += finding[i].verdict == PLUMB_FILM_BEYOND;
        if (finding[i].limit == PLUMB_FILM_rise_ratio_limit) {
            result.ratio = finding[i].what.value - truth.figure[PLUMB_FILM_rise_ratio_limit];
            result.ratio_sd = finding[i].sd;
        }
    }
    film_read_free(&read);
    return result;
}

static void print(const FilmCondition *c, const Result *r)
{
    printf("%-32s", c->name);
    for (int k = 0; k < HELD_COUNT; k++) {
        printf("  %s %.1f %.1f", held_names[k], r->middle[k], r->high[k]);
    }
    printf("  %s %+.2f frames  ratio %+.3f ± %.3f  %d findings, %d frames filled in, %s\n",
           c->lift == PLUMB_SQUAT ? "turn" : "lift-off", r->lift_off, r->ratio, r->ratio_sd,
           r->beyond, r->unknown, plumb_steady_name(r->steady));
    fflush(stdout);
}

static bool all_asked(void)
{
    return getenv("PLUMB_LONG") != NULL;
}

/* The aims at 720p, 5 m and clean marks: path 5 mm, angles 2° (95th percentiles), lift-off within a
 * frame, ratio within 0.05. Where noise (8 levels) or marks (4 px, 18 mm) are worse, what is still
 * to be met: the ratio is read over 45 mm of the bar's rise, so that its miss is within its spread,
 * or it is told as not seen. Somebody who passes hides the leg for six frames: 3°. */
static bool meets(const FilmCondition *c, const Result *r)
{
    const bool clean = c->mark_px == 0.0 && c->noise_levels < 5.0;
    const double angles_deg = !clean ? 4.0 : c->pass_s > 0.0 ? 3.0 : 2.0;
    bool met = r->high[HELD_PATH] < (clean ? 5.0 : 10.0) && r->middle[HELD_PATH] < 5.0;
    for (int k = HELD_BACK; k <= HELD_THIGH; k++) {
        met = met && (clean ? r->high[k] : r->middle[k]) < angles_deg;
    }
    met = met && fabs(r->lift_off) * frame_rate / c->rate_per_s < 1.0;
    const double off = clean ? 0.05 : fmin(fmax(2.0 * r->ratio_sd, 0.05), 0.2);
    met = met && (isnan(r->ratio) ? !clean : fabs(r->ratio) < off);
    return met && r->beyond == 0 && r->steady == (c->shake_px > 0.0 ? PLUMB_SHAKEN : PLUMB_STEADY);
}

/* And nothing is remarked. */
static void films__are_read(void **state)
{
    int missed = 0;
    (void)state;
    for (size_t i = 0; i < sizeof conditions / sizeof conditions[0]; i++) {
        const FilmCondition *const c = &conditions[i];
        if (!c->always && !all_asked()) {
            continue;
        }
        const Result r = read_film(c);
        print(c, &r);
        if (!meets(c, &r)) {
            printf("  misses what is asked of it\n");
            missed++;
        }
    }
    assert_int_equal(missed, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(films__are_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
