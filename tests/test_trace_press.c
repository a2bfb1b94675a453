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
    double
        most[3]; /* medians of what misses: bar from the shoulder and above it, m; upper arm, rad */
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
    {"side, lockout, 1 px", VIEW_SIDE, 1.0, 0.0, 1.0, 0.45, {0.018, 0.018, 0.035}},
    {"side, half way, 1 px", VIEW_SIDE, 0.5, 0.0, 1.0, 0.45, {0.030, 0.018, 0.080}},
    {"side, touch, 1 px", VIEW_SIDE, 0.0, 0.0, 1.0, 0.45, {0.090, 0.070, 0.320}},
    {"side, touch, small disc", VIEW_SIDE, 0.0, 0.0, 1.0, 0.23, {0.036, 0.020, 0.070}},
    {"side, half way, 2.5 cm", VIEW_SIDE, 0.5, 0.025, 0.0, 0.45, {0.042, 0.035, 0.130}},
    {"head end, touch, 1 px", VIEW_HEAD, 0.0, 0.0, 1.0, 0.45, {0.027, 0.0055, 0.055}},
    {"head end, half way, 1 px", VIEW_HEAD, 0.5, 0.0, 1.0, 0.45, {0.028, 0.0050, 0.090}},
    {"head end, half way, 2.5 cm", VIEW_HEAD, 0.5, 0.025, 0.0, 0.45, {0.038, 0.018, 0.160}},
    {"foot end, touch, 1 px", VIEW_FOOT, 0.0, 0.0, 1.0, 0.45, {0.032, 0.0055, 0.070}},
};

/* One line of the table; false where a median is more than is asked for. Counts into held[] and
 * told[] how often the 95 % interval holds the truth. */
static bool judge(const Take *take, int lifters, int held[FIGURES], int told[FIGURES])
{
    enum { MOST = 1000 };
    static double miss[FIGURES][MOST];
    int here[FIGURES] = {0};
    bool right = true;
    for (int n = 0; n < lifters; n++) {
        PlumbError error;
        take_picture(take, (uint64_t)n);
        assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
        const PlumbTraced *const still = &trace.still[0];
        for (int i = 0; i < FIGURES; i++) {
            const double want = plumb_press_reading_value(figures[i], &shot.truth.setup, &truth);
            miss[i][n] = fabs(still->value[figures[i]] - want);
            here[i] += miss[i][n] <= 1.96 * still->sd[figures[i]];
        }
    }
    printf("%-28s", take->name);
    for (int i = 0; i < FIGURES; i++) {
        const bool angle = plumb_reading_quantity(figures[i]) == PLUMB_Q_ANGLE;
        const double unit = angle ? 180.0 / PLUMB_PI : 1000.0;
        qsort(miss[i], (size_t)lifters, sizeof miss[i][0], by_size);
        const double median = miss[i][lifters / 2];
        printf(" %5.1f %5.1f %3.0f%%", unit * median, unit * miss[i][lifters * 95 / 100],
               100.0 * here[i] / lifters);
        right = right && (i >= 3 || median < take->most[i]) && here[i] >= 0.8 * lifters;
        held[i] += here[i];
        told[i] += lifters;
    }
    printf("\n");
    fflush(stdout);
    return right;
}

/* One disc from the side leaves the camera's turn within 5 degrees, of which 0.5 m between disc and
 * shoulder make 4 cm; at the touch it hides the rest of the arm as well. Columns: median, 95th
 * percentile (mm, degrees) and how often the interval holds the truth. */
static void pictures__tell_the_arm_with_its_spread(void **state)
{
    enum { TAKES = sizeof takes / sizeof takes[0] };
    const int lifters = getenv("PLUMB_LONG") != NULL ? 1000 : 60;
    int held[FIGURES] = {0};
    int told[FIGURES] = {0};
    bool right = true;
    (void)state;
    printf("%-28s", "");
    for (int i = 0; i < FIGURES; i++) {
        printf(" %-16.16s", plumb_reading_name(figures[i]));
    }
    printf("\n");
    for (int k = 0; k < TAKES; k++) {
        if (!case_asked(k, TAKES)) {
            continue;
        }
        right = judge(&takes[k], lifters, held, told) && right;
    }
    for (int i = 0; i < FIGURES; i++) {
        assert_in_range(1000 * held[i] / told[i], 880, 1000);
    }
    assert_true(right);
}

/* What is said of a picture that shows no elbow, and of one from the end of the bench. */
static void pictures__say_what_they_leave_open(void **state)
{
    PlumbError error;
    (void)state;
    int hidden = 0;
    for (int n = 0; n < 20; n++) {
        bool elbow = false;
        take_picture(&takes[2], (uint64_t)n);
        for (int i = 0; i < shot.marks.count; i++) {
            elbow = elbow || shot.marks.mark[i].name.landmark == PLUMB_MARK_elbow;
        }
        hidden += !elbow;
        assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
        assert_int_equal((trace.still[0].unseen >> PLUMB_UNSEEN_elbow) & 1U, !elbow);
        assert_true((trace.still[0].unseen & 1U << PLUMB_UNSEEN_grip) != 0U);
        assert_true((trace.still[0].unseen & 1U << PLUMB_UNSEEN_foot) == 0U);
    }
    assert_true(hidden > 0 && hidden < 20);
    take_picture(&takes[5], 3);
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
    assert_true(trace.still[0].front);
    assert_true((trace.still[0].unseen & 1U << PLUMB_UNSEEN_along) != 0U);
    assert_true((trace.still[0].unseen & 1U << PLUMB_UNSEEN_elbow) == 0U);
}

/* What lies on the bench tells nothing of the arms; a disc on edge has no rim to mark. */
static void marks__that_tell_nothing_are_refused(void **state)
{
    PlumbError error;
    (void)state;
    take_picture(&takes[0], 3);
    for (int i = 0; i < shot.marks.count; i++) {
        shot.marks.mark[i].name =
            (PlumbMarkName){(PlumbLandmark)(i % PLUMB_MARK_shoulder), PLUMB_NEAR, false};
    }
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "of arm and bar"));
    take_picture(&takes[5], 3);
    shot.marks.mark[2].name = (PlumbMarkName){PLUMB_MARK_disc, PLUMB_NEAR, true};
    shot.marks.mark[2].line = 7;
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "on edge"));
    assert_int_equal(error.line, 7);
}

/* By hand: feet lie where the hip is, else where a bar on its way to the chest is. */
static void facing__is_told_by_hip_or_bar(void **state)
{
    PlumbMarks marks = {.still_count = 1, .count = 2};
    marks.mark[0] =
        (PlumbMark){.name = {PLUMB_MARK_shoulder, PLUMB_NEAR, false}, .x_px = 400.0, .y_px = 500.0};
    marks.mark[1] = (PlumbMark){
        .name = {PLUMB_MARK_disc_centre, PLUMB_NEAR, false}, .x_px = 410.0, .y_px = 350.0};
    (void)state;
    assert_int_equal(plumb_marks_facing(&marks, 0, PLUMB_BENCH), 0);
    marks.mark[1].y_px = 480.0;
    assert_int_equal(plumb_marks_facing(&marks, 0, PLUMB_BENCH), 1);
    marks.mark[1].name.landmark = PLUMB_MARK_hip;
    marks.mark[1].x_px = 250.0;
    assert_int_equal(plumb_marks_facing(&marks, 0, PLUMB_BENCH), -1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pictures__tell_the_arm_with_its_spread),
        cmocka_unit_test(pictures__say_what_they_leave_open),
        cmocka_unit_test(marks__that_tell_nothing_are_refused),
        cmocka_unit_test(facing__is_told_by_hip_or_bar),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
