/* SPDX-License-Identifier: MIT */
/* A bench press in time, with the lying lifter's body and the bench around it. */
#include "film_press.h"

#include <plumbar/dynamics.h>

#include "base/vec.h"
#include "model/arm.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void must(bool holds, const char *what)
{
    if (!holds) {
        fprintf(stderr, "no film of a press can be made: %s\n", what);
        exit(1);
    }
}

/* ---- what lies still */

static void add_bench(FilmBench *bench, PlumbVec3 from, PlumbVec3 to, double radius_m, double level)
{
    must(bench->bench_count < FILM_BENCH_STROKES, "too much of a bench");
    bench->bench[bench->bench_count] =
        (FilmStroke){from, to, radius_m, radius_m, level, 80U + (uint32_t)bench->bench_count};
    bench->bench_count++;
}

/* A pad of 29 to 32 cm, as the rules have it, on two legs with feet across. */
static void make_bench(const PlumbBody *body, double top_m, FilmBench *bench)
{
    const double half_m = 0.035; /* of the pad's thickness */
    const double foot_m = 0.03;
    const double from_x = -0.95 * body->head_neck_m;
    const double to_x = 1.05 * body->trunk_m;
    const double y = top_m - half_m;
    for (int i = 0; i < 2; i++) {
        const double x = i == 0 ? from_x + 0.15 : to_x - 0.15;
        add_bench(bench, vec3(x, foot_m, -0.25), vec3(x, foot_m, 0.25), foot_m, 55.0);
        add_bench(bench, vec3(x, foot_m, 0.0), vec3(x, y, 0.0), foot_m, 55.0);
    }
    for (int i = -2; i <= 2; i++) {
        add_bench(bench, vec3(from_x, y, 0.058 * i), vec3(to_x, y, 0.058 * i), half_m, 40.0);
    }
}

/* Balls of the chest, as high as the model has it, of shoulders and of hips, at three places
 * across. */
static void make_trunk(const PlumbBody *body, const PlumbSetup *setup, PlumbVec3 hip,
                       FilmBench *bench)
{
    const double top = setup->bench_height_m;
    const double chest = 0.5 * body->chest_depth_m;
    const double shoulder = body->shoulder_half_depth_m;
    const double half = 0.5 * body->shoulder_joint_spacing_m;
    const double thick = 1.2 * body->thigh_half_thickness_m;
    for (int side = -1; side <= 1; side++) {
        const PlumbVec3 ribs = vec3(fmax(0.1 * body->stature_m, setup->touch_m),
                                    top + setup->arch_m + chest, side * 0.62 * half);
        const PlumbVec3 up = vec3(0.0, top + shoulder, side * 0.8 * half);
        const PlumbVec3 down = vec3(hip.x, hip.y, side * hip.z);
        const uint32_t seed = 62U + 2U * (uint32_t)(side + 1);
        bench->trunk[bench->trunk_count++] = (FilmStroke){ribs, down, chest, thick, 105.0, seed};
        bench->trunk[bench->trunk_count++] =
            (FilmStroke){up, ribs, shoulder, chest, 125.0, seed + 1U};
    }
}

static PlumbVec3 hip_of(const PlumbBody *body, const PlumbSetup *setup)
{
    return vec3(body->trunk_m, setup->bench_height_m + 1.25 * body->thigh_half_thickness_m,
                0.5 * body->hip_joint_spacing_m);
}

/* Feet on the floor beside the bench, knees bent. */
static void place_body(const PlumbBody *body, const PlumbSetup *setup, PlumbPosition *p)
{
    const PlumbVec3 hip = hip_of(body, setup);
    const PlumbVec3 ankle = vec3(hip.x + 0.75 * body->thigh_m, body->ankle_height_m, hip.z + 0.15);
    const PlumbArm leg = plumb_arm(hip, ankle, body->thigh_m, body->shank_m);
    const PlumbVec3 up = vec3_unit(vec3_along(vec3(0.0, 1.0, 0.0), -leg.n.y, leg.n));
    const PlumbVec3 foot = vec3(cos(degrees(25.0)), 0.0, sin(degrees(25.0)));
    const PlumbVec3 heel = vec3_along(vec3(ankle.x, 0.0, ankle.z), -body->heel_to_ankle_m, foot);
    p->point[PLUMB_PT_hip] = hip;
    p->point[PLUMB_PT_knee] = plumb_arm_elbow(&leg, up);
    p->point[PLUMB_PT_ankle] = ankle;
    p->point[PLUMB_PT_heel] = heel;
    p->point[PLUMB_PT_toe] = vec3_along(heel, body->foot_length_m, foot);
    p->point[PLUMB_PT_lumbar] = vec3(hip.x - body->pelvis_m, hip.y, 0.0);
    p->head_top = vec3(-body->head_neck_m, setup->bench_height_m + 0.09, 0.0);
    p->pose = (PlumbPose){hip.x, hip.y, -0.5 * PLUMB_PI};
}

/* ---- the press */

static PlumbArm arm_of(const PlumbPressPosition *at)
{
    const PlumbVec3 *const p = at->point;
    return plumb_arm(p[PLUMB_PRESS_shoulder], p[PLUMB_PRESS_grip],
                     vec3_length(vec3_sub(p[PLUMB_PRESS_elbow], p[PLUMB_PRESS_shoulder])),
                     vec3_length(vec3_sub(p[PLUMB_PRESS_grip], p[PLUMB_PRESS_elbow])));
}

/* The turn about the line from shoulder to grip that makes the jump where it ends. */
static double jump_swivel(const FilmPress *press)
{
    const FilmPressFault *const f = &press->fault;
    if (f->jump_rad == 0.0) {
        return 0.0;
    }
    PlumbPressPosition at;
    const double end_frac = (f->jump_from_m + f->jump_over_m) / press->answer.travel_m;
    plumb_press_at(&press->lifter, &press->answer, end_frac, &at);
    const PlumbArm arm = arm_of(&at);
    const double abduction = at.angle_rad[PLUMB_PRESS_ANG_abduction] + f->jump_rad;
    double off_m;
    const double swivel = plumb_arm_swivel(&arm, arm.upper * cos(abduction), &off_m);
    must(off_m == 0.0, "the elbow cannot swing so far out");
    return swivel - at.angle_rad[PLUMB_PRESS_ANG_swivel];
}

FilmPress film_press(const FilmPressFault *fault)
{
    FilmPress f = {
        .fault = *fault, .rest_s = 0.5, .down_s = 1.2, .pause_s = 0.3, .up_s = 1.0, .hold_s = 0.5};
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_FEMALE, 1.68, 66.0);
    PlumbBody body;
    PlumbError error;
    must(plumb_body_build(&spec, &body, &error) == PLUMB_OK, error.message);
    f.lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    plumb_press_default_grip(&f.lifter, &setup);
    plumb_press_quick(&f.lifter, &setup, &f.answer);
    must(f.answer.outcome == PLUMB_HELD, "the press does not hold");
    setup = f.answer.setup; /* what led is now told, so that a fault moves nothing else */
    setup.lead = PLUMB_LEAD_TOUCH;
    setup.touch_m += fault->touch_m;
    setup.lockout_over_m += fault->lockout_m;
    setup.grip_m += fault->grip_m;
    if (fault->elbows_rad != 0.0) {
        setup.elbows_given = true;
        setup.elbows_rad = f.answer.touch.angle_rad[PLUMB_PRESS_ANG_abduction] + fault->elbows_rad;
    }
    plumb_press_quick(&f.lifter, &setup, &f.answer);
    must(f.answer.outcome != PLUMB_NO_POSE, "the arms do not span the fault");
    f.jump_swivel_rad = jump_swivel(&f);
    make_bench(&body, setup.bench_height_m, &f.bench);
    make_trunk(&body, &setup, hip_of(&body, &setup), &f.bench);
    return f;
}

double film_press_begin_s(const FilmPress *press)
{
    return press->rest_s + press->down_s + press->pause_s;
}

double film_press_end_s(const FilmPress *press)
{
    return film_press_begin_s(press) + press->up_s;
}

double film_press_length_s(const FilmPress *press)
{
    return film_press_end_s(press) + press->hold_s;
}

/* The share of the bar's rise by the law of press_motion.h; down it is the same law in reverse. */
static double rise_frac(const FilmPress *press, double t_s)
{
    const double begin_s = film_press_begin_s(press);
    const double s = t_s < begin_s ? (press->rest_s + press->down_s - t_s) / press->down_s
                                   : (t_s - begin_s) / press->up_s;
    double u;
    double rate;
    double acceleration;
    plumb_minimum_jerk(clamp(s, 0.0, 1.0), &u, &rate, &acceleration);
    return 1.0 - (1.0 - u) * (1.0 - u);
}

/* 0 before, 1 after, smooth between. */
static double step(double u)
{
    const double v = clamp(u, 0.0, 1.0);
    return v * v * (3.0 - 2.0 * v);
}

/* The elbow swings about the line from shoulder to grip: both links keep their lengths. */
static void jump(const FilmPress *press, PlumbPressPosition *at)
{
    const double rise_m = at->rise_frac * press->answer.travel_m - press->fault.jump_from_m;
    const double swivel =
        at->angle_rad[PLUMB_PRESS_ANG_swivel] +
        press->jump_swivel_rad * step(rise_m / fmax(press->fault.jump_over_m, 1e-6));
    const PlumbArm arm = arm_of(at);
    PlumbVec3 *const p = at->point;
    const double wrist_frac =
        vec3_length(vec3_sub(p[PLUMB_PRESS_wrist], p[PLUMB_PRESS_elbow])) / arm.lower;
    p[PLUMB_PRESS_elbow] = plumb_arm_elbow(&arm, plumb_arm_side(&arm, swivel));
    p[PLUMB_PRESS_wrist] = vec3_between(p[PLUMB_PRESS_elbow], p[PLUMB_PRESS_grip], wrist_frac);
}

void film_press_at(const void *press, double t_s, PlumbPosition *position)
{
    static const PlumbPoint point[PLUMB_PRESS_POINT_COUNT] = {
        [PLUMB_PRESS_shoulder] = PLUMB_PT_shoulder, [PLUMB_PRESS_elbow] = PLUMB_PT_elbow,
        [PLUMB_PRESS_wrist] = PLUMB_PT_wrist,       [PLUMB_PRESS_grip] = PLUMB_PT_grip,
        [PLUMB_PRESS_bar] = PLUMB_PT_bar,
    };
    const FilmPress *const f = press;
    PlumbPressPosition at;
    plumb_press_at(&f->lifter, &f->answer, rise_frac(f, t_s), &at);
    if (f->jump_swivel_rad != 0.0 && t_s > film_press_begin_s(f)) {
        jump(f, &at);
    }
    memset(position, 0, sizeof *position);
    place_body(&f->lifter.body, &f->answer.setup, position);
    for (int i = 0; i < PLUMB_PRESS_POINT_COUNT; i++) {
        position->point[point[i]] = at.point[i];
    }
    for (int i = 0; i < PLUMB_ANGLE_COUNT; i++) {
        position->angle_rad[i] = (double)NAN;
    }
}

double film_press_abduction(const PlumbPosition *position)
{
    const PlumbVec3 upper =
        vec3_sub(position->point[PLUMB_PT_elbow], position->point[PLUMB_PT_shoulder]);
    return atan2(hypot(upper.y, upper.z), upper.x);
}

FilmScene film_press_scene(const FilmPress *press, double yaw_rad)
{
    const bool end = fabs(cos(yaw_rad)) < 0.5;
    FilmScene scene =
        film_scene_of(film_press_at, press, &press->lifter, film_press_length_s(press));
    scene.bench = &press->bench;
    scene.camera.distance_m = end && sin(yaw_rad) > 0.0 ? 5.0 : 4.0;
    scene.camera.along_m = end ? 0.0 : 0.2;
    scene.camera.height_m = end ? 1.1 : 0.9;
    scene.camera.yaw_rad = yaw_rad;
    return scene;
}
