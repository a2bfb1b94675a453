/* SPDX-License-Identifier: MIT */
/* Bench presses read from pictures whose truth is known: lifters drawn from the tables, an arm
 * between shoulder and bar anywhere on its way, a true perspective camera beside the bench or at
 * its ends, a disc that hides what is behind it, marks with errors. */
#include "support.h"

#include "still.h"

typedef enum View { VIEW_SIDE, VIEW_HEAD, VIEW_FOOT } View;

/* How a picture is taken. */
typedef struct Take {
    const char *name;
    View view;
    double rise_frac;
    double error_m; /* of joints; 0: error_px */
    double error_px;
    double disc_m; /* diameter */
    /* Medians of what misses at most: bar from the shoulder and above it, m; upper arm, rad; NaN:
     * the picture does not tell. */
    double least[3];
} Take;

enum { FIGURES = 7 };

static const PlumbReading figures[FIGURES] = {
    PLUMB_READ_bar_from_shoulder, PLUMB_READ_bar_above_shoulder, PLUMB_READ_upper_arm,
    PLUMB_READ_elbow_off_bar,     PLUMB_READ_forearm_front,      PLUMB_READ_elbow_flexion,
    PLUMB_READ_elbow_arm};

static Shot shot;
static PlumbPressPosition truth;
static PlumbTrace trace;
static PlumbTraceWork work;

/* As wide about the model's as the fit believes: bar anywhere, the elbow swung from under it. */
static void place(const Take *take, Dice *d)
{
    Truth *const t = &shot.truth;
    shot.told = plumb_setup_default(PLUMB_BENCH);
    shot.told.load_kg = 80.0;
    plumb_press_default_grip(&shot.known, &shot.told);
    t->setup = shot.told;
    t->setup.grip_m += dice(d, 0.04);
    t->lifter.equipment.disc_diameter_m = take->disc_m;
    shot.known.equipment.disc_diameter_m = take->disc_m;
    const PlumbVec2 shoulder = {dice(d, 0.01), t->setup.bench_height_m +
                                                   t->lifter.body.shoulder_half_depth_m +
                                                   dice(d, 0.01)};
    PlumbPressAnswer answer;
    plumb_press_quick(&t->lifter, &t->setup, &answer);
    PlumbPressPosition model;
    plumb_press_at(&t->lifter, &answer, take->rise_frac, &model);
    const PlumbVec2 bar = {shoulder.x + model.bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal] +
                               dice(d, 0.02),
                           model.point[PLUMB_PRESS_bar].y - fabs(dice(d, 0.01))};
    plumb_press_place(&t->lifter, &t->setup, shoulder, bar, dice(d, degrees(15.0)), &truth);
}

static PlumbCamera camera_of(const Take *take, Dice *d)
{
    PlumbCamera camera = {
        .focal_px = picture_focal_px,
        .distance_m = fmin(fmax(4.0 + dice(d, 1.0), 2.5), 7.0),
        .along_m = dice(d, 0.2),
        .height_m = dice_between(d, 0.6, 1.5),
        .yaw_rad = dice(d, degrees(5.0)) + (take->view == VIEW_HEAD   ? -0.5 * PLUMB_PI
                                            : take->view == VIEW_FOOT ? 0.5 * PLUMB_PI
                                                                      : 0.0),
        .roll_rad = dice(d, degrees(2.0)),
        .centre_x_px = 0.5 * picture_width_px,
        .centre_y_px = 0.5 * picture_height_px,
    };
    camera.pitch_rad = atan((camera.height_m - 0.8) / camera.distance_m) + dice(d, degrees(1.5));
    return camera;
}

static void mark(const Take *take, Dice *d)
{
    static const struct {
        PlumbLandmark landmark;
        PlumbPressPoint point;
    } joints[] = {{PLUMB_MARK_shoulder, PLUMB_PRESS_shoulder},
                  {PLUMB_MARK_elbow, PLUMB_PRESS_elbow},
                  {PLUMB_MARK_wrist, PLUMB_PRESS_wrist},
                  {PLUMB_MARK_bar, PLUMB_PRESS_grip},
                  {PLUMB_MARK_disc_centre, PLUMB_PRESS_bar}};
    Truth *const t = &shot.truth;
    t->position.point[PLUMB_PT_bar] = truth.point[PLUMB_PRESS_bar];
    const bool side = take->view == VIEW_SIDE;
    const PlumbEllipse disc = side ? shot_disc(t, 0.70) : (PlumbEllipse){.a_px = 0.0};
    const double joint_px = take->error_m > 0.0
                                ? take->error_m * t->camera.focal_px / t->camera.distance_m
                                : take->error_px;
    const double disc_px = take->error_m > 0.0 ? 3.0 : take->error_px;
    for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++) {
        const bool centre = joints[i].landmark == PLUMB_MARK_disc_centre;
        for (int near = 0; near < (side ? 1 : 2); near++) {
            PlumbVec3 p = truth.point[joints[i].point];
            p.z = (near == 0 ? 1.0 : -1.0) * (centre ? 0.70 : p.z);
            const PlumbVec2 at = plumb_camera_project(&t->camera, p, NULL);
            if (!side || (!centre && !plumb_ellipse_holds(&disc, at.x, at.y))) {
                shot_mark(&shot, 0, (PlumbMarkName){joints[i].landmark, (PlumbNear)near, !side}, at,
                          centre ? disc_px : joint_px, d);
            }
        }
    }
    for (int i = 0; i < RIM_POINTS && side; i++) {
        shot_mark(&shot, 0, (PlumbMarkName){PLUMB_MARK_disc, PLUMB_NEAR, false},
                  shot_rim(t, 0.70, 2.0 * PLUMB_PI * i / RIM_POINTS), disc_px, d);
    }
    for (int i = 0; i < 2; i++) {
        const PlumbVec3 post =
            side ? vec3(0.9, 0.2 + 1.6 * i, -0.6) : vec3(0.0, 0.2 + 1.6 * i, 0.9);
        shot_mark(&shot, 0, (PlumbMarkName){PLUMB_MARK_plumb, PLUMB_NEAR, false},
                  plumb_camera_project(&t->camera, post, NULL), disc_px, d);
    }
}

static void take_picture(const Take *take, uint64_t index)
{
    Dice d = {.at = 0};
    plumb_normal_deviates(815, index, STILL_DEVIATES, d.z);
    memset(&shot, 0, sizeof shot);
    shot_lifter(&shot, index, &d);
    place(take, &d);
    shot.truth.camera = camera_of(take, &d);
    plumb_marks_picture(&shot.marks, "press.jpg", 9);
    mark(take, &d);
    shot.ask = plumb_trace_ask(&shot.known, &shot.told, &shot.body, &shot.marks);
    shot.ask.size_px[0] = (PlumbVec2){picture_width_px, picture_height_px};
    shot.ask.distance_m[0] = shot.truth.camera.distance_m;
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

static const Take takes[] = {
    {"side, lockout, 1 px", VIEW_SIDE, 1.0, 0.0, 1.0, 0.45, {0.008, 0.006, 0.07}},
    {"side, half way, 1 px", VIEW_SIDE, 0.5, 0.0, 1.0, 0.45, {0.008, 0.006, 0.05}},
    {"side, touch, 1 px", VIEW_SIDE, 0.0, 0.0, 1.0, 0.45, {0.02, 0.02, 0.3}},
    {"side, touch, small disc", VIEW_SIDE, 0.0, 0.0, 1.0, 0.23, {0.008, 0.006, 0.05}},
    {"side, half way, 2.5 cm", VIEW_SIDE, 0.5, 0.025, 0.0, 0.45, {0.02, 0.02, 0.1}},
    {"head end, touch, 1 px", VIEW_HEAD, 0.0, 0.0, 1.0, 0.45, {0.03, 0.01, 0.06}},
    {"head end, half way, 1 px", VIEW_HEAD, 0.5, 0.0, 1.0, 0.45, {0.03, 0.01, 0.06}},
    {"head end, half way, 2.5 cm", VIEW_HEAD, 0.5, 0.025, 0.0, 0.45, {0.03, 0.02, 0.1}},
    {"foot end, touch, 1 px", VIEW_FOOT, 0.0, 0.0, 1.0, 0.45, {0.03, 0.01, 0.06}},
};

static void pictures__tell_the_arm_with_its_spread(void **state)
{
    enum { MOST = 1000 };
    static double miss[FIGURES][MOST];
    const int lifters = getenv("PLUMB_LONG") != NULL ? MOST : 60;
    (void)state;
    for (size_t k = 0; k < sizeof takes / sizeof takes[0]; k++) {
        int held[FIGURES] = {0};
        for (int n = 0; n < lifters; n++) {
            PlumbError error;
            take_picture(&takes[k], (uint64_t)n);
            assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
            const PlumbTraced *const still = &trace.still[0];
            for (int i = 0; i < FIGURES; i++) {
                const double want =
                    plumb_press_reading_value(figures[i], &shot.truth.setup, &truth);
                const double off = still->value[figures[i]] - want;
                miss[i][n] = fabs(off);
                held[i] += fabs(off) <= 1.96 * still->sd[figures[i]];
            }
        }
        printf("%-28s", takes[k].name);
        for (int i = 0; i < FIGURES; i++) {
            const double unit =
                plumb_reading_quantity(figures[i]) == PLUMB_Q_ANGLE ? 180.0 / PLUMB_PI : 1000.0;
            qsort(miss[i], (size_t)lifters, sizeof miss[i][0], by_size);
            printf(" %6.1f %6.1f %3.0f%%", unit * miss[i][lifters / 2],
                   unit * miss[i][lifters * 95 / 100], 100.0 * held[i] / lifters);
        }
        printf("\n");
        fflush(stdout);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pictures__tell_the_arm_with_its_spread),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
