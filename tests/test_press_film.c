/* SPDX-License-Identifier: MIT */
/* Bench presses read from rendered films whose truth is known: the bar's way against the shoulder,
 * the upper arm's angle, events, and what is found and not found. */
#include "film_press_read.h"
#include "support.h"

/* How a film is taken; NaN: the view does not tell. */
typedef struct Take {
    const char *name;
    bool always; /* also without PLUMB_LONG */
    double yaw_rad;
    int marked; /* frames */
    double rate_per_s;
    double noise_levels;
    double shake_px;
    double mark_px;
    double path_m[2];  /* median and 95th percentile at most, of the bar from the shoulder */
    double arm_rad[2]; /* the same of the upper arm, where an elbow is seen */
} Take;

#define DEG(x) ((x)*PLUMB_PI / 180.0)

static const Take takes[] = {
    {"side, clean",
     true,
     FILM_PRESS_RIGHT_RAD,
     FILM_PRESS_FRAMES,
     30.0,
     2.0,
     0.0,
     0.5,
     {0.006, 0.013},
     {DEG(1.5), DEG(3.0)}},
    {"side, three frames marked",
     false,
     FILM_PRESS_RIGHT_RAD,
     FILM_PRESS_FEW,
     30.0,
     2.0,
     0.0,
     0.5,
     {0.008, 0.015},
     {DEG(1.5), DEG(3.5)}},
    {"side, 8 levels of noise",
     false,
     FILM_PRESS_RIGHT_RAD,
     FILM_PRESS_FRAMES,
     30.0,
     8.0,
     0.0,
     1.0,
     {0.012, 0.025},
     {DEG(3.0), DEG(5.0)}},
    {"side, a hand that shakes",
     false,
     FILM_PRESS_RIGHT_RAD,
     FILM_PRESS_FRAMES,
     30.0,
     2.0,
     2.0,
     0.5,
     {0.012, 0.025},
     {DEG(3.0), DEG(5.0)}},
    {"side, 60 a second",
     false,
     FILM_PRESS_RIGHT_RAD,
     FILM_PRESS_FRAMES,
     60.0,
     2.0,
     0.0,
     0.5,
     {0.008, 0.015},
     {DEG(1.5), DEG(3.0)}},
    {"head end, clean",
     true,
     FILM_PRESS_HEAD_RAD,
     FILM_PRESS_FRAMES,
     30.0,
     2.0,
     0.0,
     0.5,
     {0.01, 0.02},
     {DEG(2.0), DEG(5.0)}},
    {"head end, three frames marked",
     false,
     FILM_PRESS_HEAD_RAD,
     FILM_PRESS_FEW,
     30.0,
     2.0,
     0.0,
     0.5,
     {0.03, 0.06},
     {DEG(4.0), DEG(12.0)}},
    {"head end, 8 levels of noise",
     false,
     FILM_PRESS_HEAD_RAD,
     FILM_PRESS_FRAMES,
     30.0,
     8.0,
     0.0,
     1.0,
     {0.03, 0.06},
     {DEG(4.0), DEG(12.0)}},
};

static FilmRead film;

static FilmScene scene_of(const FilmPress *press, const Take *take)
{
    FilmScene scene = film_press_scene(press, take->yaw_rad);
    scene.rate_per_s = take->rate_per_s;
    scene.noise_levels = take->noise_levels;
    scene.shake_px = take->shake_px;
    return scene;
}

/* The film is read as that of a lifter known by sex, stature and mass, in the set-up of the model;
 * the caller frees `film`. */
static PlumbStatus read_film(const FilmPress *press, const FilmScene *scene, int marked,
                             double mark_px, PlumbError *error)
{
    const double px_per_m = scene->camera.focal_px / scene->camera.distance_m;
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    plumb_press_default_grip(&press->lifter, &setup);
    film_press_follow(&film, scene, press, marked, mark_px);
    return film_fit(&film, &press->lifter, &setup, fmax(mark_px / px_per_m, 0.005), error);
}

static bool within(const char *what, double unit, double *miss, int count, const double most[2])
{
    film_sort(miss, count);
    const double median = miss[count / 2];
    const double high = miss[count * 95 / 100];
    printf("  %s %5.2f, 95 %% %5.2f", what, unit * median, unit * high);
    return median < most[0] && high < most[1];
}

/* Way of the bar and upper arm in every frame, times of the events. */
static bool judge_way(const FilmPress *press, const FilmScene *scene, const Take *take)
{
    const PlumbSeries *const s = &film.series;
    double *const path = film_memory((size_t)s->frame_count * sizeof *path);
    double *const arm = film_memory((size_t)s->frame_count * sizeof *arm);
    int arms = 0;
    FilmPressTruth truth;
    film_press_truth(scene, &press->lifter.body, FILM_PRESS_TURN_M, &truth);
    for (int i = 0; i < s->frame_count; i++) {
        const PlumbSeriesFrame *const f = &s->frame[i];
        PlumbPosition p;
        film_press_at(press, f->time_s, &p);
        const PlumbVec3 bar = vec3_sub(p.point[PLUMB_PT_bar], p.point[PLUMB_PT_shoulder]);
        path[i] = hypot(f->value[PLUMB_READ_bar_from_shoulder] - bar.x,
                        f->value[PLUMB_READ_bar_above_shoulder] - bar.y);
        if (f->elbow_seen) {
            arm[arms++] = fabs(f->value[PLUMB_READ_upper_arm] - film_press_abduction(&p));
        }
    }
    printf("%-30s", take->name);
    bool right = within("path mm", 1000.0, path, s->frame_count, take->path_m);
    right = within("arm deg", 180.0 / PLUMB_PI, arm, arms, take->arm_rad) && right;
    const double off = s->event_s[PLUMB_EVENT_lift_off] - truth.off_s;
    const double touch = s->event_s[PLUMB_EVENT_turn_round] - truth.touch_s;
    const double lockout = s->event_s[PLUMB_EVENT_lockout] - truth.lockout_s;
    printf("  touch %+.3f off %+.3f lockout %+.3f s, unknown %d of %d\n", touch, off, lockout,
           s->unknown_count, s->frame_count);
    fflush(stdout);
    free(path);
    free(arm);
    return right && fabs(off) < 1.0 / 30.0 && fabs(touch) < 1.0 / 30.0 && fabs(lockout) < 0.05;
}

/* What is remarked, as bits of PlumbFilmLimit; prints all that was asked. */
static unsigned remarked(void)
{
    static const char *const verdicts[] = {"clear", "unsure", "found", "not seen"};
    double limit[PLUMB_FILM_LIMIT_COUNT];
    PlumbFilmFinding finding[PLUMB_FILM_LIMIT_COUNT];
    unsigned bits = 0;
    plumb_film_limits_default(PLUMB_BENCH, limit);
    const int count = plumb_film_findings(&film.series, limit, finding);
    for (int i = 0; i < count; i++) {
        const PlumbFilmFinding *const f = &finding[i];
        bits |= f->verdict == PLUMB_FILM_BEYOND ? 1U << f->limit : 0U;
        printf("    %-20s %8.4f ± %.4f  %s\n", plumb_film_limit_name(f->limit), f->what.value,
               f->sd, verdicts[f->verdict]);
    }
    fflush(stdout);
    return bits;
}

static void films__tell_path_arm_and_events(void **state)
{
    const FilmPressFault none = {0};
    enum { ALWAYS = 2 };
    const bool all = getenv("PLUMB_LONG") != NULL;
    int nth = 0;
    bool right = true;
    (void)state;
    for (size_t i = 0; i < sizeof takes / sizeof takes[0]; i++) {
        if (!all && !(takes[i].always && case_asked(nth++, ALWAYS))) {
            continue;
        }
        const FilmPress press = film_press(&none);
        const FilmScene scene = scene_of(&press, &takes[i]);
        PlumbError error;
        assert_int_equal(read_film(&press, &scene, takes[i].marked, takes[i].mark_px, &error),
                         PLUMB_OK);
        right = judge_way(&press, &scene, &takes[i]) && right;
        assert_int_equal(remarked(), 0U); /* nothing is wrong with it */
        film_read_free(&film);
    }
    assert_true(right);
}

#define BIT(name) (1U << PLUMB_FILM_##name##_limit)

/* A fault, which view shows it, what must be found and what may be beside it. */
static const struct {
    const char *name;
    bool always;
    double rate_per_s; /* what shows in one frame needs few of them */
    double yaw_rad;
    FilmPressFault fault;
    unsigned found;
    unsigned allowed;
} faults[] = {
    {"elbows jump",
     true,
     30.0,
     FILM_PRESS_HEAD_RAD,
     {.jump_rad = DEG(22.0), .jump_from_m = 0.01, .jump_over_m = 0.03},
     BIT(arm_turn),
     0U},
    {"touch near the neck", true, 15.0, FILM_PRESS_RIGHT_RAD, {.touch_m = -0.20}, BIT(touch), 0U},
    {"bar off the shoulders",
     false,
     15.0,
     FILM_PRESS_RIGHT_RAD,
     {.lockout_m = 0.16},
     BIT(lockout_off),
     0U},
    {"hands too far apart",
     false,
     15.0,
     FILM_PRESS_HEAD_RAD,
     {.grip_m = 0.2},
     BIT(forearm),
     BIT(arm_turn)},
    {"elbows flared",
     false,
     15.0,
     FILM_PRESS_RIGHT_RAD,
     {.elbows_rad = DEG(25.0)},
     BIT(elbow_off),
     0U},
};

static void faults__are_found_and_nothing_else(void **state)
{
    enum { ALWAYS = 2 };
    const bool all = getenv("PLUMB_LONG") != NULL;
    int nth = 0;
    int wrong = 0;
    (void)state;
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        if (!all && !(faults[i].always && case_asked(nth++, ALWAYS))) {
            continue;
        }
        const FilmPress press = film_press(&faults[i].fault);
        FilmScene scene = film_press_scene(&press, faults[i].yaw_rad);
        scene.rate_per_s = faults[i].rate_per_s;
        FilmPressTruth truth;
        PlumbError error;
        film_press_truth(&scene, &press.lifter.body, FILM_PRESS_TURN_M, &truth);
        printf("%s: touch %.4f lockout %.4f turn %.4f forearm %.4f\n", faults[i].name,
               truth.touch_m, truth.lockout_m, truth.turn_rad, truth.forearm_rad);
        assert_int_equal(read_film(&press, &scene, FILM_PRESS_FRAMES, 0.5, &error), PLUMB_OK);
        const unsigned found = remarked();
        wrong += (found & faults[i].found) != faults[i].found ||
                 (found & ~(faults[i].found | faults[i].allowed)) != 0U;
        film_read_free(&film);
    }
    assert_int_equal(wrong, 0);
}

/* From the foot end chest and thighs hide the shoulders all the time. */
static void foot_end__is_refused_by_name(void **state)
{
    const FilmPressFault none = {0};
    const FilmPress press = film_press(&none);
    FilmScene scene = film_press_scene(&press, FILM_PRESS_FEET_RAD);
    scene.rate_per_s = 5.0;
    PlumbError error;
    (void)state;
    assert_int_equal(read_film(&press, &scene, FILM_PRESS_FEW, 0.5, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "shoulder"));
    film_read_free(&film);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(films__tell_path_arm_and_events),
        cmocka_unit_test(faults__are_found_and_nothing_else),
        cmocka_unit_test(foot_end__is_refused_by_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
