/* SPDX-License-Identifier: MIT */
/* Films of known motion read back: path, angles, events and findings against the truth, median and
 * 95th percentile per condition. PLUMB_LONG=1: all conditions. */
#include "support.h"

#include "film_read.h"

enum { FRAMES_MAX = 1200 };

static const double frame_rate = 30.0;

/* How a film is taken. */
typedef struct Condition {
    const char *name;
    PlumbLift lift;
    bool always; /* also without PLUMB_LONG */
    double rate_per_s;
    double noise_levels;
    double blur_px;
    double light_frac;
    double shake_px;
    double post_x_m; /* NaN: none */
    double pass_s;   /* somebody passes for so long */
    double yaw_deg;
    double mark_px; /* error of each mark */
} Condition;

#define CLEAN 30.0, 2.0, 0.5, 0.0, 0.0, (double)NAN, 0.0, 0.0, 0.0

static const Condition conditions[] = {
    {"pull, clean", PLUMB_DEADLIFT, true, CLEAN},
    {"squat, clean", PLUMB_SQUAT, false, CLEAN},
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

static const PlumbMarkName side_names[FILM_TRACKS] = {
    {PLUMB_MARK_heel, PLUMB_NEAR, false},  {PLUMB_MARK_toe, PLUMB_NEAR, false},
    {PLUMB_MARK_ankle, PLUMB_NEAR, false}, {PLUMB_MARK_knee, PLUMB_NEAR, false},
    {PLUMB_MARK_hip, PLUMB_NEAR, false},   {PLUMB_MARK_shoulder, PLUMB_NEAR, false},
    {PLUMB_MARK_elbow, PLUMB_NEAR, false}, {PLUMB_MARK_wrist, PLUMB_NEAR, false},
    {PLUMB_MARK_bar, PLUMB_NEAR, false},   {PLUMB_MARK_disc_centre, PLUMB_NEAR, false},
};

/* A lift in which the hips come up by some centimetres while the bar still stands. */
typedef struct EarlyHips {
    const FilmLift *lift;
    PlumbPosition low;
    double for_s; /* before the bar moves */
} EarlyHips;

static void early_hips_at(const void *motion, double t_s, PlumbPosition *position)
{
    const EarlyHips *const m = motion;
    film_lift_at(m->lift, t_s, position);
    const double begin = film_lift_begin_s(m->lift);
    if (t_s >= begin) {
        return;
    }
    const double u = clamp((t_s - begin + m->for_s) / m->for_s, 0.0, 1.0);
    const double share = u * u * (3.0 - 2.0 * u);
    const PlumbPosition high = *position;
    const PlumbPose pose = {m->low.pose.hip_x_m + share * (high.pose.hip_x_m - m->low.pose.hip_x_m),
                            m->low.pose.hip_height_m +
                                share * (high.pose.hip_height_m - m->low.pose.hip_height_m),
                            m->low.pose.thorax_lean_rad +
                                share * (high.pose.thorax_lean_rad - m->low.pose.thorax_lean_rad)};
    plumb_position_describe(&m->lift->lifter, &m->lift->answer.setup, pose, high.spine_rad,
                            high.knees_out_rad, high.point[PLUMB_PT_bar].x,
                            high.point[PLUMB_PT_bar].y, -1.0, position);
}

/* The start of the same lifter with the hips lower. */
static EarlyHips early_hips(const FilmLift *lift, double lower_m)
{
    EarlyHips m = {.lift = lift, .for_s = 0.3};
    PlumbSetup setup = lift->answer.setup;
    PlumbAnswer answer;
    plumb_setup_set(&setup, PLUMB_SET_hip_height, lift->answer.start.pose.hip_height_m - lower_m);
    setup.hip_height_relative = false;
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    plumb_answer_quick(&lift->lifter, &setup, &answer);
    assert_int_not_equal(answer.outcome, PLUMB_NO_POSE);
    m.low = answer.start;
    return m;
}

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

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Time at which the true bar is up by rise_m after begin_s. */
static double true_time(const FilmScene *scene, double begin_s, double rise_m)
{
    PlumbPosition p;
    scene->at(scene->motion, begin_s, &p);
    const double start = p.point[PLUMB_PT_bar].y;
    double low = begin_s;
    double high = begin_s + 0.5;
    while (high - low > 1e-5) {
        const double middle = 0.5 * (low + high);
        scene->at(scene->motion, middle, &p);
        if (p.point[PLUMB_PT_bar].y - start < rise_m) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

static double true_ratio(const FilmScene *scene, double begin_s, bool squat)
{
    PlumbPosition a;
    PlumbPosition b;
    scene->at(scene->motion, squat ? begin_s : true_time(scene, begin_s, 0.005), &a);
    scene->at(scene->motion, true_time(scene, begin_s, 0.05), &b);
    return (b.pose.hip_height_m - a.pose.hip_height_m) /
           (b.point[PLUMB_PT_bar].y - a.point[PLUMB_PT_bar].y);
}

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
        qsort(error[k], (size_t)count, sizeof error[k][0], by_size);
        result->middle[k] = error[k][count / 2];
        result->high[k] = error[k][count * 95 / 100];
    }
}

/* What the last film was asked. */
static PlumbFilmFinding finding[PLUMB_FILM_LIMIT_COUNT];
static int finding_count;

/* Renders, marks, follows and reads a motion. */
static Result read_film(const Condition *c, FilmAt at, const void *motion, const FilmLift *lift)
{
    static FilmRead read;
    FilmScene scene = film_scene(lift);
    Result result = {.lift_off = (double)NAN};
    PlumbError error;
    memset(&read, 0, sizeof read);
    scene.at = at;
    scene.motion = motion;
    scene.rate_per_s = c->rate_per_s;
    scene.noise_levels = c->noise_levels;
    scene.blur_px = c->blur_px;
    scene.light_frac = c->light_frac;
    scene.shake_px = c->shake_px;
    scene.post_x_m = c->post_x_m;
    scene.camera.yaw_rad = degrees(c->yaw_deg);
    const double begin = film_lift_begin_s(lift);
    scene.hide_from_s = begin + 0.4;
    scene.hide_to_s = begin + 0.4 + c->pass_s;
    read.scene = &scene;
    film_render_all(&read);
    const int last = film_count(&scene) - 1;
    const int middle = (int)((c->lift == PLUMB_SQUAT ? begin : begin + 0.5) * c->rate_per_s);
    const int early = (int)(begin * c->rate_per_s);
    film_mark_all(&read, side_names, FILM_TRACKS, (const int[]){0, early, middle, last},
                  FILM_MARKED_MAX, c->mark_px);
    film_follow(&read);
    const double px_per_m = scene.camera.focal_px / scene.camera.distance_m;
    const double sigma_m = fmax(c->mark_px / px_per_m, 0.005);
    if (film_fit(&read, &lift->lifter, &lift->answer.setup, sigma_m, &error) != PLUMB_OK) {
        fprintf(stderr, "%s: %s: %s\n", c->name, error.field, error.message);
        fail();
    }
    const bool squat = c->lift == PLUMB_SQUAT;
    hold(&read, &result);
    result.unknown = read.series.unknown_count;
    result.steady = read.tracks.steady;
    result.lift_off =
        squat ? (read.series.event_s[PLUMB_EVENT_turn_round] - begin) * c->rate_per_s
              : (read.series.event_s[PLUMB_EVENT_lift_off] - true_time(&scene, begin, 0.005)) *
                    c->rate_per_s;
    double limit[PLUMB_FILM_LIMIT_COUNT];
    plumb_film_limits_default(c->lift, limit);
    finding_count = plumb_film_findings(&read.series, limit, finding);
    for (int i = 0; i < finding_count; i++) {
        result.beyond += finding[i].verdict == PLUMB_FILM_BEYOND;
        if (finding[i].limit == PLUMB_FILM_rise_ratio_limit) {
            result.ratio = finding[i].what.value - true_ratio(&scene, begin, squat);
            result.ratio_sd = finding[i].sd;
        }
    }
    film_read_free(&read);
    return result;
}

static void print(const Condition *c, const Result *r)
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

/* The aims at 720p, 5 m and clean marks; where a film is worse, what it still has to meet: a mark
 * missed by 4 px is 18 mm off, and the ratio is read over 45 mm of the bar's rise, so that its miss
 * is within its spread, and silence, that is asked there. Where the hip is lost in noise the ratio
 * may be told as not seen. */
static void films__are_read(void **state)
{
    int missed = 0;
    (void)state;
    for (size_t i = 0; i < sizeof conditions / sizeof conditions[0]; i++) {
        const Condition *const c = &conditions[i];
        if (!c->always && !all_asked()) {
            continue;
        }
        const FilmLift lift = film_lift(c->lift);
        const Result r = read_film(c, film_lift_at, &lift, &lift);
        print(c, &r);
        /* What is asked of clean films, and of others: noise of 8 levels, marks missed by 4 px. */
        const bool clean = c->mark_px == 0.0 && c->yaw_deg == 0.0 && c->pass_s == 0.0 &&
                           c->noise_levels < 5.0 && c->rate_per_s >= frame_rate;
        const bool met = r.high[HELD_PATH] < (clean ? 5.0 : 15.0) && r.middle[HELD_PATH] < 5.0 &&
                         r.middle[HELD_BACK] < (clean ? 2.0 : 4.0) &&
                         fabs(r.lift_off) * frame_rate / c->rate_per_s < 1.0 &&
                         (isnan(r.ratio) ? !clean
                                         : fabs(r.ratio) < (clean ? 0.05 : 0.2) &&
                                               fabs(r.ratio) < fmax(2.0 * r.ratio_sd, 0.05)) &&
                         r.beyond == 0 &&
                         r.steady == (c->shake_px > 0.0 ? PLUMB_SHAKEN : PLUMB_STEADY);
        if (!met) {
            printf("  misses what is asked of it\n");
            missed++;
        }
    }
    assert_int_equal(missed, 0);
}

/* Hips that rise by 6 cm before the bar does are found, and nothing is said of the bar's path. */
static void early_hips__are_found(void **state)
{
    (void)state;
    if (!all_asked()) {
        skip();
    }
    const FilmLift lift = film_lift(PLUMB_DEADLIFT);
    const EarlyHips motion = early_hips(&lift, 0.06);
    const Result r = read_film(&conditions[0], early_hips_at, &motion, &lift);
    print(&conditions[0], &r);
    assert_int_equal(finding[0].what.id, PLUMB_FIND_hips_before_bar);
    assert_int_equal(finding[0].verdict, PLUMB_FILM_BEYOND);
    /* 6 cm less the 5 mm of the first motion's own rule, and what the hip does by lift-off. */
    assert_near(finding[0].what.value, 0.06, 0.012);
    for (int i = 0; i < finding_count; i++) {
        if (finding[i].limit == PLUMB_FILM_path_width_limit ||
            finding[i].limit == PLUMB_FILM_bar_ahead_limit) {
            assert_int_not_equal(finding[i].verdict, PLUMB_FILM_BEYOND);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(films__are_read),
        cmocka_unit_test(early_hips__are_found),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
