/* SPDX-License-Identifier: MIT */
/* The films of a bench press that other tests rest on: they move by the model, their pictures show
 * each mark where the truth says, and faults come out in the size that was asked for. */
#include "support.h"

#include "film_look.h"
#include "film_press_read.h"

#include <plumbar/press_motion.h>

static const FilmPressFault none = {0};

static const PlumbMarkName disc_name = {PLUMB_MARK_disc_centre, PLUMB_NEAR, false};
static const PlumbMarkName shoulder_name = {PLUMB_MARK_shoulder, PLUMB_NEAR, false};
static const PlumbMarkName elbow_name = {PLUMB_MARK_elbow, PLUMB_NEAR, false};
static const PlumbMarkName wrist_name = {PLUMB_MARK_wrist, PLUMB_NEAR, false};

static FilmScene clean_scene(const FilmPress *press, double yaw_rad)
{
    FilmScene scene = film_press_scene(press, yaw_rad);
    scene.noise_levels = 0.0;
    scene.exposure_frac = 0.0;
    return scene;
}

static double apart(const PlumbPosition *p, PlumbPoint a, PlumbPoint b)
{
    return vec3_length(vec3_sub(p->point[a], p->point[b]));
}

static void assert_same_arm(const PlumbPosition *p, const PlumbPressPosition *at, double tolerance)
{
    for (int i = 0; i < PLUMB_PRESS_POINT_COUNT; i++) {
        const PlumbVec3 a = p->point[PLUMB_PT_shoulder + i];
        assert_near(vec3_length(vec3_sub(a, at->point[i])), 0.0, tolerance);
    }
}

static void press__moves_by_the_model(void **state)
{
    (void)state;
    const FilmPress press = film_press(&none);
    const double begin = film_press_begin_s(&press);
    PlumbPosition p;
    film_press_at(&press, 0.2, &p);
    assert_same_arm(&p, &press.answer.lockout, 1e-9);
    film_press_at(&press, begin - 0.5 * press.pause_s, &p);
    assert_same_arm(&p, &press.answer.touch, 1e-9);
    film_press_at(&press, film_press_length_s(&press), &p);
    assert_same_arm(&p, &press.answer.lockout, 1e-9);
    for (int i = 1; i < 20; i++) {
        PlumbPressMotionPoint point;
        PlumbError error;
        const double t = press.up_s * i / 20.0;
        assert_int_equal(
            plumb_press_motion_at(&press.lifter, &press.answer, press.up_s, t, &point, &error),
            PLUMB_OK);
        film_press_at(&press, begin + t, &p);
        assert_same_arm(&p, &point.position, 1e-6); /* digits lost near straight arms */
        /* Down by the same law, backwards at its own pace. */
        film_press_at(&press, press.rest_s + press.down_s * (1.0 - t / press.up_s), &p);
        assert_same_arm(&p, &point.position, 1e-6);
    }
}

static void press__keeps_the_lengths_of_its_limbs(void **state)
{
    (void)state;
    const FilmPressFault jump = {
        .jump_rad = degrees(25.0), .jump_from_m = 0.01, .jump_over_m = 0.03, .grip_m = 0.05};
    const FilmPress press = film_press(&jump);
    const PlumbBody *const body = &press.lifter.body;
    for (int i = 0; i <= 1000; i++) {
        PlumbPosition p;
        film_press_at(&press, film_press_length_s(&press) * i / 1000.0, &p);
        /* 1e-7 m: a straight arm's elbow from its distances */
        assert_near(apart(&p, PLUMB_PT_shoulder, PLUMB_PT_elbow), body->upper_arm_m, 1e-7);
        assert_near(apart(&p, PLUMB_PT_elbow, PLUMB_PT_wrist), body->forearm_m, 1e-7);
        assert_near(apart(&p, PLUMB_PT_wrist, PLUMB_PT_grip), body->wrist_to_grip_palm_m, 1e-7);
        assert_near(apart(&p, PLUMB_PT_hip, PLUMB_PT_knee), body->thigh_m, 1e-9);
        assert_near(apart(&p, PLUMB_PT_knee, PLUMB_PT_ankle), body->shank_m, 1e-9);
        assert_near(apart(&p, PLUMB_PT_heel, PLUMB_PT_toe), body->foot_length_m, 1e-9);
        assert_near(p.point[PLUMB_PT_toe].y, 0.0, 1e-9);
    }
}

static FilmPressTruth truth_of(const FilmPress *press, double within_m)
{
    const FilmScene scene = film_press_scene(press, FILM_PRESS_RIGHT_RAD);
    FilmPressTruth truth;
    film_press_truth(&scene, &press->lifter.body, within_m, &truth);
    return truth;
}

static void truth__is_the_models_answer(void **state)
{
    (void)state;
    /* Elbows asked for turn evenly; under the bar they turn most off the chest. */
    const FilmPressFault faults[] = {{0}, {.elbows_rad = -degrees(12.0), .touch_m = 0.02}};
    for (int k = 0; k < 2; k++) {
        FilmPress press = film_press(&faults[k]);
        press.pause_s = 0.4 * k;
        const PlumbPressAnswer *const a = &press.answer;
        const FilmPressTruth t = truth_of(&press, 0.01);
        PlumbPosition p;
        assert_near(t.touch_m, a->setup.touch_m, 1e-9);
        assert_near(t.lockout_m, a->setup.lockout_over_m, 1e-6); /* the last of the samples */
        assert_near(t.rise_m, a->travel_m, 1e-8);
        assert_near(t.touch_abduction_rad, a->touch.angle_rad[PLUMB_PRESS_ANG_abduction], 1e-9);
        assert_near(t.lockout_abduction_rad, a->lockout.angle_rad[PLUMB_PRESS_ANG_abduction],
                    1e-4); /* near straight arms */
        assert_near(t.forearm_rad, a->touch.angle_rad[PLUMB_PRESS_ANG_forearm_front], 1e-9);
        assert_near(t.elbow_below_m, a->touch.elbow_below_rule_m, 1e-9);
        /* The model looks from 257 places on. */
        assert_near(fabs(t.turn_rad), a->abduction_step_rad, 0.002 * a->abduction_step_rad);
        assert_near(t.turn_frac, a->abduction_step_frac, 0.01);
        assert_near(t.touch_s, film_press_begin_s(&press) - 0.5 * press.pause_s, 0.002);
        film_press_at(&press, t.off_s, &p);
        assert_near(p.point[PLUMB_PT_bar].y, a->touch.point[PLUMB_PRESS_bar].y + 0.005, 1e-5);
        film_press_at(&press, t.lockout_s, &p);
        assert_near(p.point[PLUMB_PT_bar].y, a->lockout.point[PLUMB_PRESS_bar].y - 0.005, 1e-5);
        assert_true(t.touch_s < t.off_s && t.off_s < t.lockout_s);
        assert_true(t.lockout_s < film_press_end_s(&press));
    }
}

static void faults__of_the_set_up_have_their_size(void **state)
{
    (void)state;
    const FilmPressFault faults[] = {
        {.touch_m = -0.08},   {.touch_m = 0.06}, {.lockout_m = 0.05},
        {.lockout_m = -0.04}, {.grip_m = 0.16},  {.grip_m = -0.20},
    };
    const FilmPress own = film_press(&none);
    const FilmPressTruth is = truth_of(&own, FILM_PRESS_TURN_M);
    assert_near(is.forearm_rad, 0.0, degrees(0.5)); /* the grip of the build, whole cm */
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        const FilmPress press = film_press(&faults[i]);
        const FilmPressTruth t = truth_of(&press, FILM_PRESS_TURN_M);
        assert_near(t.touch_m - is.touch_m, faults[i].touch_m, 1e-9);
        assert_near(t.lockout_m - is.lockout_m, faults[i].lockout_m, 1e-6);
        const double hand_m = press.answer.touch.point[PLUMB_PRESS_grip].z -
                              own.answer.touch.point[PLUMB_PRESS_grip].z;
        assert_near(2.0 * hand_m, faults[i].grip_m, 1e-9);
        if (faults[i].grip_m != 0.0) { /* hands outside of the elbows where it is wide */
            assert_true((faults[i].grip_m > 0.0 ? t.forearm_rad : -t.forearm_rad) > degrees(10.0));
        }
    }
    const FilmPressFault out = {.elbows_rad = degrees(15.0)};
    const FilmPress flared = film_press(&out);
    assert_near(truth_of(&flared, FILM_PRESS_TURN_M).touch_abduction_rad - is.touch_abduction_rad,
                degrees(15.0), 1e-9);
}

/* The upper arm's turn of the model itself between two rises. */
static double own_turn(const FilmPress *press, double from_m, double to_m)
{
    PlumbPressPosition a;
    PlumbPressPosition b;
    plumb_press_at(&press->lifter, &press->answer, from_m / press->answer.travel_m, &a);
    plumb_press_at(&press->lifter, &press->answer, to_m / press->answer.travel_m, &b);
    return b.angle_rad[PLUMB_PRESS_ANG_abduction] - a.angle_rad[PLUMB_PRESS_ANG_abduction];
}

static void jump__has_its_size_and_place(void **state)
{
    (void)state;
    const struct {
        double deg, from_m;
    } row[] = {{5.0, 0.01}, {15.0, 0.01}, {30.0, 0.02}, {15.0, 0.10}, {-10.0, 0.01}};
    const FilmPress own = film_press(&none);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const FilmPressFault fault = {.jump_rad = degrees(row[i].deg),
                                      .jump_from_m = row[i].from_m,
                                      .jump_over_m = FILM_PRESS_TURN_M};
        const FilmPress press = film_press(&fault);
        const FilmPressTruth t = truth_of(&press, FILM_PRESS_TURN_M);
        const double own_rad = own_turn(&own, row[i].from_m, row[i].from_m + FILM_PRESS_TURN_M);
        PlumbPosition p;
        PlumbPosition q;
        /* 0.1°: a window a little off has a little more of the model's own turn. */
        assert_near(t.turn_rad, degrees(row[i].deg) + own_rad, degrees(0.1));
        assert_near(t.turn_frac * t.rise_m, row[i].from_m, 0.002);
        for (int k = 0; k <= 20; k++) { /* all of the way down, the pause, and the end */
            const double share = k / 20.0;
            film_press_at(&press, share * film_press_begin_s(&press), &p);
            film_press_at(&own, share * film_press_begin_s(&own), &q);
            assert_memory_equal(p.point, q.point, sizeof p.point);
        }
        film_press_at(&press, film_press_length_s(&press), &p);
        film_press_at(&own, film_press_length_s(&own), &q);
        assert_near(p.point[PLUMB_PT_elbow].x, q.point[PLUMB_PT_elbow].x, 1e-7);
        assert_near(p.point[PLUMB_PT_elbow].z, q.point[PLUMB_PT_elbow].z, 1e-7);
    }
}

/* ---- pictures */

static const double yaws_deg[] = {0.0, 8.0, 180.0, -90.0, -78.0, 90.0, 45.0};

enum { YAWS = sizeof yaws_deg / sizeof yaws_deg[0] };

static void assert_dot(const FilmScene *scene, const uint8_t *level, int frame, PlumbMarkName name)
{
    const PlumbVec2 at = film_mark(scene, frame, name);
    const PlumbVec2 dot = film_centre_near(scene, level, at, 5.5, 245.0);
    assert_near(dot.x, at.x, 0.3); /* px: the window cuts pixels of the ring */
    assert_near(dot.y, at.y, 0.3);
    assert_true(level[(ptrdiff_t)(at.y + 0.5) * scene->width_px + (ptrdiff_t)(at.x + 0.5)] < 60);
}

static void pictures__show_marks_where_the_truth_says(void **state)
{
    (void)state;
    const FilmPress press = film_press(&none);
    for (int k = 0; k < YAWS; k++) {
        FilmScene scene = clean_scene(&press, degrees(yaws_deg[k]));
        scene.stickers = true;
        scene.shake_px = k % 2 == 0 ? 0.0 : 4.0;
        scene.camera.roll_rad = degrees(1.0);
        scene.camera.pitch_rad = degrees(k % 3);
        const bool end = film_from_front(&scene);
        for (int i = 4; i < film_count(&scene); i += 25) {
            uint8_t *const level = film_rendered(&scene, i);
            for (int near = PLUMB_NEAR; near <= (end ? PLUMB_FAR : PLUMB_NEAR); near++) {
                const PlumbMarkName elbow = {PLUMB_MARK_elbow, (PlumbNear)near, end};
                const PlumbMarkName shoulder = {PLUMB_MARK_shoulder, (PlumbNear)near, end};
                if (end || !film_hidden(&scene, i, elbow)) {
                    assert_dot(&scene, level, i, elbow);
                }
                if (yaws_deg[k] == 0.0 && !film_hidden(&scene, i, shoulder)) {
                    assert_dot(&scene, level, i, shoulder);
                }
            }
            if (fabs(cos(scene.camera.yaw_rad)) > 0.9) {
                const PlumbVec2 disc = film_mark(&scene, i, disc_name);
                const PlumbVec2 hub = film_centre_near(&scene, level, disc, 9.0, 38.0);
                assert_near(hub.x, disc.x, 0.3);
                assert_near(hub.y, disc.y, 0.3);
            }
            free(level);
        }
    }
}

typedef struct Bounds {
    double left, top, right, bottom;
} Bounds;

static void widen(Bounds *b, double x, double y)
{
    *b = (Bounds){fmin(b->left, x), fmin(b->top, y), fmax(b->right, x), fmax(b->bottom, y)};
}

static const Bounds nothing = {1e9, 1e9, -1e9, -1e9};

/* Where both discs reach to by their rims, 2.5 cm thick. */
static Bounds rims_of(const FilmScene *scene, int frame)
{
    Bounds b = nothing;
    const PlumbVec3 centre = film_place(scene, frame, disc_name);
    for (int i = 0; i < 4 * 360; i++) {
        const double turn = degrees(i / 4);
        const double z = (i % 2 == 0 ? 1.0 : -1.0) * (0.70 + (i % 4 < 2 ? 0.0125 : -0.0125));
        const PlumbVec2 at =
            film_point(scene, frame,
                       vec3(centre.x + 0.5 * scene->disc_diameter_m * cos(turn),
                            centre.y + 0.5 * scene->disc_diameter_m * sin(turn), z));
        widen(&b, at.x, at.y);
    }
    return b;
}

static void discs__reach_as_far_as_their_rims(void **state)
{
    (void)state;
    const FilmPress press = film_press(&none);
    for (int k = 0; k < YAWS; k++) {
        FilmScene scene = clean_scene(&press, degrees(yaws_deg[k]));
        scene.blur_px = 0.0;
        FilmScene bare = scene;
        bare.disc_diameter_m = 1e-6;
        const int frame = 10 * k;
        uint8_t *const with = film_rendered(&scene, frame);
        uint8_t *const without = film_rendered(&bare, frame);
        const Bounds rims = rims_of(&scene, frame);
        Bounds seen = nothing;
        for (int i = 0; i < scene.width_px * scene.height_px; i++) {
            if (abs(with[i] - without[i]) > 2) {
                widen(&seen, i % scene.width_px, floor((double)i / scene.width_px));
            }
        }
        assert_near(seen.left, rims.left, 1.0); /* px */
        assert_near(seen.right, rims.right, 1.0);
        assert_near(seen.top, rims.top, 1.0);
        assert_near(seen.bottom, rims.bottom, 1.0);
        free(with);
        free(without);
    }
}

static void views__hide_what_lies_behind(void **state)
{
    (void)state;
    const FilmPress press = film_press(&none);
    for (int k = 0; k < 2; k++) {
        const FilmScene scene =
            film_press_scene(&press, k == 0 ? FILM_PRESS_RIGHT_RAD : FILM_PRESS_LEFT_RAD);
        const int touch = (int)(1.85 * scene.rate_per_s);
        const PlumbMarkName far_shoulder = {PLUMB_MARK_shoulder, PLUMB_FAR, false};
        assert_true(film_hidden(&scene, 0, wrist_name)); /* by the disc */
        assert_false(film_hidden(&scene, 0, shoulder_name));
        assert_false(film_hidden(&scene, 0, elbow_name));
        assert_true(film_hidden(&scene, touch, shoulder_name));
        assert_true(film_hidden(&scene, 0, far_shoulder)); /* by the trunk */
        assert_false(film_hidden(&scene, touch, disc_name));
    }
    for (int k = 0; k < 2; k++) {
        const bool head = k == 0;
        const FilmScene scene =
            film_press_scene(&press, head ? FILM_PRESS_HEAD_RAD : FILM_PRESS_FEET_RAD);
        for (int i = 0; i < FILM_PRESS_END; i++) {
            const PlumbMarkName name = film_press_end_names[i];
            const bool shoulder = name.landmark == PLUMB_MARK_shoulder;
            assert_int_equal(film_hidden(&scene, 0, name), shoulder && !head); /* by the chest */
        }
    }
}

static void views__have_the_lifters_right_where_it_is(void **state)
{
    (void)state;
    const FilmPress press = film_press(&none);
    const FilmScene right = film_press_scene(&press, FILM_PRESS_RIGHT_RAD);
    const FilmScene head = film_press_scene(&press, FILM_PRESS_HEAD_RAD);
    const FilmScene feet = film_press_scene(&press, FILM_PRESS_FEET_RAD);
    FilmScene left = film_press_scene(&press, FILM_PRESS_LEFT_RAD);
    left.camera.along_m = 0.0;
    FilmScene mirror = right;
    mirror.camera.along_m = 0.0;
    const PlumbMarkName toe = {PLUMB_MARK_toe, PLUMB_NEAR, false};
    const PlumbMarkName right_elbow = {PLUMB_MARK_elbow, PLUMB_NEAR, true};
    assert_true(film_mark(&right, 0, toe).x > film_mark(&right, 0, shoulder_name).x);
    assert_true(film_mark(&head, 50, right_elbow).x > head.camera.centre_x_px + 50.0);
    assert_true(film_mark(&feet, 50, right_elbow).x < feet.camera.centre_x_px - 50.0);
    for (int i = 0; i < FILM_PRESS_SIDE; i++) {
        const PlumbVec2 a = film_mark(&mirror, 50, film_press_side_names[i]);
        const PlumbVec2 b = film_mark(&left, 50, film_press_side_names[i]);
        assert_near(a.x - left.camera.centre_x_px, left.camera.centre_x_px - b.x, 1e-9);
        assert_near(a.y, b.y, 1e-9);
    }
}

/* ---- marks */

static void marks__are_what_a_person_would_set(void **state)
{
    (void)state;
    const FilmPress press = film_press(&none);
    const FilmScene side = film_press_scene(&press, FILM_PRESS_RIGHT_RAD);
    const FilmScene head = film_press_scene(&press, FILM_PRESS_HEAD_RAD);
    PlumbMark mark[FILM_PRESS_MARKS];
    PlumbVec2 rim[FILM_PRESS_RIM];
    PlumbEllipse ellipse;
    int frame[FILM_PRESS_FRAMES];
    film_press_frames(&side, &press, frame);
    /* shoulder, elbow, disc and rim; the shoulder is hidden at the touch */
    assert_int_equal(film_press_marks(&side, frame[0], 0.0, mark), 3 + FILM_PRESS_RIM);
    assert_int_equal(film_press_marks(&side, frame[1], 0.0, mark), 2 + FILM_PRESS_RIM);
    assert_int_equal(film_press_marks(&head, frame[1], 0.0, mark), FILM_PRESS_END);
    const int count = film_press_marks(&side, frame[2], 0.0, mark);
    const PlumbVec2 centre = film_mark(&side, frame[2], disc_name);
    for (int i = 0; i < FILM_PRESS_RIM; i++) {
        const PlumbMark *const m = &mark[count - FILM_PRESS_RIM + i];
        assert_int_equal(m->name.landmark, PLUMB_MARK_disc);
        rim[i] = (PlumbVec2){m->x_px, m->y_px};
    }
    assert_true(plumb_ellipse_fit(rim, FILM_PRESS_RIM, &ellipse));
    assert_near(ellipse.x_px, centre.x, 0.5); /* px: perspective moves an ellipse's middle */
    assert_near(ellipse.y_px, centre.y, 0.5);
    PlumbMark missed[FILM_PRESS_MARKS];
    double away = 0.0;
    film_press_marks(&side, frame[2], 4.0, missed);
    for (int i = 0; i < count; i++) {
        away = fmax(away, hypot(missed[i].x_px - mark[i].x_px, missed[i].y_px - mark[i].y_px));
    }
    assert_true(away > 1.0 && away < 16.0); /* px: normal errors of 4 */
}

/* Of a track the largest miss over all frames, px. */
static double miss_of(const FilmRead *read, int track)
{
    double miss = 0.0;
    for (int i = 0; i < read->follow.frame_count; i++) {
        const PlumbTrackPoint *const point =
            &read->tracks.point[track * read->follow.frame_count + i];
        const PlumbVec2 is = film_mark(read->scene, i, read->track[track].name);
        assert_true(point->known);
        miss = fmax(miss, hypot(point->at_px.x - is.x, point->at_px.y - is.y));
    }
    return miss;
}

static void films__can_be_followed(void **state)
{
    static const FilmCondition conditions[] = {
        {"side, clean", PLUMB_BENCH, true, FILM_CLEAN},
        {"head end, in a hand", PLUMB_BENCH, true, 30.0, 3.0, 0.5, 0.1, 1.0, (double)NAN, 0.0, 0.0,
         0.0},
    };
    static FilmRead read;
    (void)state;
    FilmPress press = film_press(&none);
    press.rest_s = 0.2;
    press.hold_s = 0.2;
    for (int k = 0; k < 2; k++) {
        FilmScene scene =
            film_press_scene(&press, k == 0 ? FILM_PRESS_RIGHT_RAD : FILM_PRESS_HEAD_RAD);
        film_put_under(&conditions[k], film_press_begin_s(&press), &scene);
        scene.width_px /= 2;
        scene.height_px /= 2;
        scene.camera.focal_px *= 0.5;
        scene.camera.centre_x_px = 0.5 * (scene.width_px - 1);
        scene.camera.centre_y_px = 0.5 * (scene.height_px - 1);
        film_press_follow(&read, &scene, &press, k == 0 ? FILM_PRESS_FEW : FILM_PRESS_FRAMES, 0.0);
        for (int t = 0; t < read.follow.track_count; t++) {
            const PlumbLandmark what = read.track[t].name.landmark;
            const bool followed =
                k == 0 ? what == PLUMB_MARK_disc_centre
                       : what == PLUMB_MARK_disc_centre || what == PLUMB_MARK_shoulder;
            if (followed) { /* 1 % of the picture's height: discs seen on edge turn a little */
                assert_true(miss_of(&read, t) < 3.6);
            }
        }
        film_read_free(&read);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(press__moves_by_the_model),
        cmocka_unit_test(press__keeps_the_lengths_of_its_limbs),
        cmocka_unit_test(truth__is_the_models_answer),
        cmocka_unit_test(faults__of_the_set_up_have_their_size),
        cmocka_unit_test(jump__has_its_size_and_place),
        cmocka_unit_test(pictures__show_marks_where_the_truth_says),
        cmocka_unit_test(discs__reach_as_far_as_their_rims),
        cmocka_unit_test(views__hide_what_lies_behind),
        cmocka_unit_test(views__have_the_lifters_right_where_it_is),
        cmocka_unit_test(marks__are_what_a_person_would_set),
        cmocka_unit_test(films__can_be_followed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
