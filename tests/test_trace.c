/* SPDX-License-Identifier: MIT */
/* Marks, ellipses, the camera, and what is said of a still. */
#include "support.h"

#include "still.h"

static void ellipse__goes_through_five_points(void **state)
{
    const PlumbEllipse want = {310.0, 205.0, 120.0, 95.0, 0.3};
    PlumbVec2 rim[5];
    PlumbEllipse got;
    (void)state;
    for (int i = 0; i < 5; i++) {
        rim[i] = plumb_ellipse_point(&want, 0.4 + 1.2 * i);
    }
    assert_true(plumb_ellipse_fit(rim, 5, &got));
    assert_near(got.x_px, want.x_px, 1e-6);
    assert_near(got.y_px, want.y_px, 1e-6);
    assert_near(got.a_px, want.a_px, 1e-6);
    assert_near(got.b_px, want.b_px, 1e-6);
    assert_near(got.turn_rad, want.turn_rad, 1e-8);
}

static void ellipse__is_upright_with_four_and_a_circle_with_three(void **state)
{
    const PlumbEllipse upright = {400.0, 300.0, 150.0, 140.0, 0.5 * PLUMB_PI};
    const PlumbVec2 corner[3] = {{0.0, 10.0}, {10.0, 0.0}, {0.0, -10.0}};
    PlumbVec2 rim[4];
    PlumbEllipse got;
    (void)state;
    for (int i = 0; i < 4; i++) {
        rim[i] = plumb_ellipse_point(&upright, 0.3 + 1.5 * i);
    }
    assert_true(plumb_ellipse_fit(rim, 4, &got));
    assert_near(got.a_px, 150.0, 1e-6);
    assert_near(got.b_px, 140.0, 1e-6);
    assert_near(fabs(got.turn_rad), 0.5 * PLUMB_PI, 1e-8);
    assert_true(plumb_ellipse_fit(corner, 3, &got));
    assert_near(got.a_px, 10.0, 1e-9);
    assert_near(got.b_px, 10.0, 1e-9);
    assert_near(hypot(got.x_px, got.y_px), 0.0, 1e-9);
    assert_true(plumb_ellipse_holds(&got, 6.9, 7.0));
    assert_false(plumb_ellipse_holds(&got, 7.2, 7.2));
}

static void ellipse__is_refused_where_there_is_none(void **state)
{
    const PlumbVec2 line[3] = {{0.0, 0.0}, {10.0, 10.0}, {20.0, 20.0}};
    const PlumbVec2 same[3] = {{5.0, 5.0}, {5.0, 5.0}, {5.0, 5.0}};
    const PlumbVec2 hyperbola[5] = {{1.0, 1.0}, {2.0, 0.5}, {4.0, 0.25}, {0.5, 2.0}, {-1.0, -1.0}};
    PlumbEllipse got;
    (void)state;
    assert_false(plumb_ellipse_fit(line, 3, &got));
    assert_false(plumb_ellipse_fit(same, 3, &got));
    assert_false(plumb_ellipse_fit(hyperbola, 5, &got));
    assert_false(plumb_ellipse_fit(line, 2, &got));
}

/* By hand: 1000 px, 4 m: at the middle's plane 250 px a metre; 0.7 m nearer 1000 / 3.3. */
static void camera__projects_by_hand(void **state)
{
    const PlumbCamera level = {.focal_px = 1000.0,
                               .distance_m = 4.0,
                               .height_m = 1.0,
                               .centre_x_px = 500.0,
                               .centre_y_px = 400.0};
    double depth;
    (void)state;
    const PlumbVec2 middle = plumb_camera_project(&level, vec3(0.4, 1.2, 0.0), &depth);
    const PlumbVec2 near = plumb_camera_project(&level, vec3(0.4, 1.2, 0.7), NULL);
    assert_near(middle.x, 600.0, 1e-9);
    assert_near(middle.y, 350.0, 1e-9);
    assert_near(depth, 4.0, 1e-12);
    assert_near(near.x, 500.0 + 400.0 / 3.3, 1e-9);
    assert_near(near.y, 400.0 - 200.0 / 3.3, 1e-9);
}

static void camera__meets_what_it_projects(void **state)
{
    const PlumbCamera camera = {.focal_px = 1400.0,
                                .distance_m = 4.6,
                                .along_m = 0.15,
                                .height_m = 1.3,
                                .yaw_rad = 0.21,
                                .pitch_rad = 0.12,
                                .roll_rad = -0.04,
                                .centre_x_px = 960.0,
                                .centre_y_px = 540.0};
    (void)state;
    for (int i = 0; i < 27; i++) {
        const PlumbVec3 p = vec3(0.4 * (i % 3) - 0.4, 0.7 * ((i / 3) % 3), 0.7 * (i / 9) - 0.7);
        double there;
        double back;
        const PlumbVec2 pixel = plumb_camera_project(&camera, p, &there);
        const PlumbVec3 q = plumb_camera_meet(&camera, pixel, p.z, &back);
        assert_near(vec3_length(vec3_sub(p, q)), 0.0, 1e-12);
        assert_near(back, there, 1e-12);
    }
}

/* At a yaw of 90 degrees the lifter's right is on the picture's left. */
static void camera__sees_the_front(void **state)
{
    const PlumbCamera front = {
        .focal_px = 1000.0, .distance_m = 4.0, .height_m = 1.0, .yaw_rad = 0.5 * PLUMB_PI};
    (void)state;
    const PlumbVec2 knee = plumb_camera_project(&front, vec3(0.0, 0.5, 0.2), NULL);
    assert_near(knee.x, -50.0, 1e-9);
    assert_near(knee.y, 125.0, 1e-9);
}

static void names__are_read_with_their_side(void **state)
{
    static const struct {
        const char *text;
        PlumbMarkName want;
        bool holds;
    } rows[] = {
        {"knee", {PLUMB_MARK_knee, PLUMB_NEAR, false}, true},
        {"far_disc", {PLUMB_MARK_disc, PLUMB_FAR, false}, true},
        {"right_ankle", {PLUMB_MARK_ankle, PLUMB_NEAR, true}, true},
        {"left_bar", {PLUMB_MARK_bar, PLUMB_FAR, true}, true},
        {"kne", {PLUMB_MARK_knee, PLUMB_NEAR, false}, false},
        {"far_", {PLUMB_MARK_knee, PLUMB_NEAR, false}, false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        PlumbMarkName got;
        const char *nearest = NULL;
        const bool holds = plumb_mark_name_read(rows[i].text, strlen(rows[i].text), &got, &nearest);
        assert_int_equal(holds, rows[i].holds);
        if (holds) {
            char back[64];
            PlumbText text = plumb_text_begin(back, sizeof back);
            assert_int_equal(got.landmark, rows[i].want.landmark);
            assert_int_equal(got.near, rows[i].want.near);
            assert_int_equal(got.front, rows[i].want.front);
            plumb_mark_name_text(&text, got);
            assert_string_equal(back, rows[i].text);
        }
    }
}

static const Condition plain = {.name = "plain",
                                .lift = PLUMB_DEADLIFT,
                                .distance_m = 5.0,
                                .yaw_deg = 4.0,
                                .error_px = 1.0,
                                .both_discs = true,
                                .entered = true,
                                .height_m = 0.3,
                                .post = true};

static Shot shot;
static PlumbTrace trace;
static PlumbTraceWork work;

static void mirror__gives_the_same_figures(void **state)
{
    PlumbError error;
    (void)state;
    shot_take(&shot, &plain, 3);
    assert_int_equal(plumb_marks_facing(&shot.marks, 0, PLUMB_DEADLIFT), 1);
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
    const PlumbTrace first = trace;
    plumb_marks_mirror(&shot.marks, 0, picture_width_px);
    assert_int_equal(plumb_marks_facing(&shot.marks, 0, PLUMB_DEADLIFT), -1);
    plumb_marks_mirror(&shot.marks, 0, picture_width_px);
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
    for (int i = 0; i < PLUMB_READING_COUNT; i++) {
        /* Rounding of a pixel's last digit, grown by a step that ends a little earlier; SI. */
        assert_true(isnan(first.still[0].value[i]) ||
                    fabs(first.still[0].value[i] - trace.still[0].value[i]) < 1e-5);
    }
}

/* Marks of a quarter of a pixel are met within four of their errors, hidden ones where the truth
 * is.
 */
static void exact_marks__are_met(void **state)
{
    Condition exact = plain;
    PlumbError error;
    (void)state;
    exact.error_px = 0.25;
    shot_take(&shot, &exact, 6); /* both discs are seen */
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
    assert_true(trace.converged);
    assert_near(trace.still[0].camera.yaw_rad, degrees(4.0), degrees(0.2));
    for (int i = 0; i < shot.marks.count; i++) {
        const PlumbMark *mark = &shot.marks.mark[i];
        if (mark->name.landmark <= PLUMB_MARK_bar) {
            const PlumbVec2 at = plumb_trace_pixel(&shot.ask, &trace.still[0], mark->name);
            assert_near(at.x, mark->x_px, 1.0);
            assert_near(at.y, mark->y_px, 1.0);
        }
    }
}

static void spread__grows_with_fewer_marks(void **state)
{
    PlumbError error;
    (void)state;
    shot_take(&shot, &plain, 5);
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
    const double all = trace.still[0].sd[PLUMB_ANG_back];
    assert_int_equal(trace.still[0].unseen & (1U << PLUMB_UNSEEN_hip), 0);
    int kept = 0;
    for (int i = 0; i < shot.marks.count; i++) {
        if (shot.marks.mark[i].name.landmark != PLUMB_MARK_hip) {
            shot.marks.mark[kept++] = shot.marks.mark[i];
        }
    }
    shot.marks.count = kept;
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
    assert_true(trace.still[0].sd[PLUMB_ANG_back] > 2.0 * all);
    assert_int_not_equal(trace.still[0].unseen & (1U << PLUMB_UNSEEN_hip), 0);
}

/* Lengths that marks speak of are known better than before, and the covariance has no negative
 * variance. */
static void body__is_narrowed(void **state)
{
    PlumbError error;
    (void)state;
    shot_take(&shot, &plain, 4);
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        assert_true(trace.body.cov_m2[i][i] >= 0.0);
        assert_true(trace.body.cov_m2[i][i] <= shot.body.cov_m2[i][i] * (1.0 + 1e-9));
    }
    assert_true(trace.body.cov_m2[PLUMB_LEN_trunk][PLUMB_LEN_trunk] <
                0.5 * shot.body.cov_m2[PLUMB_LEN_trunk][PLUMB_LEN_trunk]);
}

static void bad_marks__are_refused(void **state)
{
    PlumbError error;
    (void)state;
    shot_take(&shot, &plain, 4);
    shot.marks.count = 2;
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "marks");
    shot.marks.count = 0;
    shot.marks.still_count = 0;
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_BAD_INPUT);
    shot_take(&shot, &plain, 4);
    shot.told = plumb_setup_default(PLUMB_BENCH);
    shot.marks.count = 2;
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_BAD_INPUT);
    assert_non_null(strstr(error.message, "elbow"));
}

/* A finding speaks when the figure is beyond its threshold by more than twice its spread, and is
 * silent when the spread covers it. */
static void findings__are_silent_within_the_spread(void **state)
{
    static PlumbTrace made;
    double limit[PLUMB_STILL_LIMIT_COUNT];
    PlumbStillFinding finding[PLUMB_FINDING_MAX];
    PlumbError error;
    (void)state;
    shot_take(&shot, &plain, 4);
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &made, &error), PLUMB_OK);
    plumb_still_limits_default(&shot.known, &shot.told, limit);
    PlumbTraced *const still = &made.still[0];
    for (int i = 0; i < PLUMB_READING_COUNT; i++) {
        still->sd[i] = 10.0; /* nothing is sure */
    }
    still->value[PLUMB_READ_bar_over] = 0.06;
    still->value[PLUMB_READ_balance] = 0.66;
    assert_int_equal(plumb_still_findings(&made, 0, NULL, limit, finding), 0);
    still->sd[PLUMB_READ_bar_over] = 0.01;
    assert_int_equal(plumb_still_findings(&made, 0, NULL, limit, finding), 1);
    assert_int_equal(finding[0].what.id, PLUMB_FIND_bar_off_mid_foot);
    assert_int_equal(finding[0].with, -1);
    still->sd[PLUMB_READ_balance] = 0.02;
    assert_int_equal(plumb_still_findings(&made, 0, NULL, limit, finding), 2);
    assert_int_equal(finding[0].with, 1);
    assert_int_equal(finding[1].with, 0);
    limit[PLUMB_STILL_bar_off_limit] = 0.05;
    assert_int_equal(plumb_still_findings(&made, 0, NULL, limit, finding), 1);
    assert_int_equal(finding[0].what.id, PLUMB_FIND_balance_toward_toes);
}

/* The model beside a still keeps what was asked but feet, hands, spine and what leads. */
static void model__is_led_by_what_was_read(void **state)
{
    PlumbError error;
    (void)state;
    shot_take(&shot, &plain, 4);
    assert_int_equal(plumb_trace_stills(&shot.ask, &work, &trace, &error), PLUMB_OK);
    const PlumbTraced *const still = &trace.still[0];
    const PlumbSetup own = plumb_trace_model(still, &shot.told, false);
    assert_int_equal(own.lead, shot.told.lead);
    assert_near(own.balance_frac, shot.told.balance_frac, 0.0);
    assert_near(own.spine_rad, still->setup.spine_rad, 1e-12);
    assert_near(own.bar_over_m, shot.told.bar_over_m, 0.0);
    const PlumbSetup led = plumb_trace_model(still, &shot.told, true);
    assert_int_equal(led.lead, PLUMB_LEAD_HIP_HEIGHT);
    assert_near(led.hip_height_m, still->value[PLUMB_READ_hip_height], 1e-12);
    PlumbSetup asked = shot.told;
    plumb_setup_set(&asked, PLUMB_SET_back_angle, degrees(30.0));
    const PlumbSetup back = plumb_trace_model(still, &asked, true);
    assert_int_equal(back.lead, PLUMB_LEAD_BACK_ANGLE);
    assert_near(back.back_angle_rad, still->value[PLUMB_ANG_back], 1e-12);
    asked.lead = PLUMB_LEAD_HEIGHT_AND_BALANCE;
    const PlumbSetup both = plumb_trace_model(still, &asked, true);
    assert_int_equal(both.lead, PLUMB_LEAD_HEIGHT_AND_BALANCE);
    assert_near(both.balance_frac, still->value[PLUMB_READ_balance], 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ellipse__goes_through_five_points),
        cmocka_unit_test(ellipse__is_upright_with_four_and_a_circle_with_three),
        cmocka_unit_test(ellipse__is_refused_where_there_is_none),
        cmocka_unit_test(camera__projects_by_hand),
        cmocka_unit_test(camera__meets_what_it_projects),
        cmocka_unit_test(camera__sees_the_front),
        cmocka_unit_test(names__are_read_with_their_side),
        cmocka_unit_test(mirror__gives_the_same_figures),
        cmocka_unit_test(exact_marks__are_met),
        cmocka_unit_test(spread__grows_with_fewer_marks),
        cmocka_unit_test(body__is_narrowed),
        cmocka_unit_test(bad_marks__are_refused),
        cmocka_unit_test(findings__are_silent_within_the_spread),
        cmocka_unit_test(model__is_led_by_what_was_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
