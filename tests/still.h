/* SPDX-License-Identifier: MIT */
/* Pictures with a known truth: lifters drawn from the tables, in a pose, before a true perspective
 * camera; what a disc hides is not marked, and marks have errors. */
#ifndef PLUMBAR_TESTS_STILL_H
#define PLUMBAR_TESTS_STILL_H

#include <plumbar/sample.h>
#include <plumbar/trace.h>

#include "base/vec.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { STILL_DEVIATES = 200, RIM_POINTS = 5 };

/* How pictures are taken. NaN: drawn as a photographer would stand. */
typedef struct Condition {
    const char *name;
    PlumbLift lift;
    double distance_m;
    double yaw_deg;
    double error_m; /* of joints; 0: error_px */
    double error_px;
    bool both_discs;
    bool entered;    /* the distance is told */
    bool front;      /* a second picture from the front */
    double height_m; /* of the lens; 0: between the bar's height and 0.3 m */
    bool post;       /* a post is in the picture */
    bool bare;       /* no disc hides anything */
    bool far_foot;   /* the far foot is marked where disc and near shoe leave it to see */
} Condition;

typedef struct Truth {
    PlumbLifter lifter;
    PlumbSetup setup;
    PlumbPosition position;
    PlumbCamera camera;
    double value[PLUMB_READING_COUNT];
    double reach_off_m;
} Truth;

typedef struct Shot {
    PlumbLifter known; /* by sex, stature and mass alone */
    PlumbSetup told;
    PlumbTraceBody body;
    Truth truth;
    PlumbMarks marks;
    PlumbTraceAsk ask;
} Shot;

static const double picture_width_px = 1920.0;
static const double picture_height_px = 1080.0;
static const double picture_focal_px = 1400.0;

/* Standard normal numbers of one lifter, taken one after the other. */
typedef struct Dice {
    double z[STILL_DEVIATES];
    int at;
} Dice;

static inline double dice(Dice *d, double sd)
{
    if (d->at == STILL_DEVIATES) {
        fprintf(stderr, "more deviates than were drawn\n");
        exit(1);
    }
    return sd * d->z[d->at++];
}

/* Evenly between low and high, by the normal distribution's share. */
static inline double dice_between(Dice *d, double low, double high)
{
    return low + (high - low) * 0.5 * erfc(-dice(d, 1.0) / sqrt(2.0));
}

static inline void shot_lifter(Shot *shot, uint64_t index, Dice *d)
{
    const PlumbSex sex = index % 2 == 0 ? PLUMB_MALE : PLUMB_FEMALE;
    const double stature = (sex == PLUMB_MALE ? 1.76 : 1.63) + dice(d, 0.065);
    const PlumbBodySpec spec = plumb_body_spec(sex, stature, 24.0 * stature * stature);
    PlumbBody body;
    PlumbError error;
    if (plumb_body_build(&spec, &body, &error) != PLUMB_OK) {
        fprintf(stderr, "%s: %s\n", error.field, error.message);
        exit(1);
    }
    shot->known = plumb_lifter_default(&body);
    PlumbBodies bodies;
    plumb_bodies_around(&spec, &body, &bodies);
    memcpy(shot->body.mean_m, bodies.mean_m, sizeof bodies.mean_m);
    memcpy(shot->body.cov_m2, bodies.cov_m2, sizeof bodies.cov_m2);
    PlumbSampler sampler;
    double off;
    plumb_sampler_begin(&shot->known, &bodies, 77, &sampler);
    plumb_sampler_draw(&sampler, index, &shot->truth.lifter, &off);
}

/* A start or a hole as wide about the model's as the fit believes people to be: they differ in
 * spine, balance, stance, turn and in how near the bar stands. */
static inline void shot_pose(Shot *shot, PlumbLift lift, Dice *d)
{
    Truth *const t = &shot->truth;
    shot->told = plumb_setup_default(lift);
    shot->told.load_kg = 120.0;
    t->setup = shot->told;
    t->setup.stance_m += dice(d, 0.05);
    t->setup.toes_rad += dice(d, degrees(8.0));
    t->setup.knees_out_rad += dice(d, degrees(8.0));
    t->setup.grip_m += dice(d, 0.04);
    t->setup.spine_rad += dice(d, degrees(8.0));
    t->setup.balance_frac += dice(d, 0.10);
    t->setup.bar_over_m += dice(d, 0.02);
    if (lift == PLUMB_SQUAT) {
        t->setup.lead = PLUMB_LEAD_SHIN_ANGLE;
        t->setup.shin_angle_rad = dice_between(d, degrees(24.0), degrees(38.0));
        t->setup.depth_m += dice(d, 0.04);
    }
    PlumbAnswer answer;
    plumb_answer_quick(&t->lifter, &t->setup, &answer);
    for (int tries = 0; tries < 5 && answer.outcome == PLUMB_NO_POSE; tries++) {
        t->setup.balance_frac = 0.5 * (t->setup.balance_frac + shot->told.balance_frac);
        plumb_answer_quick(&t->lifter, &t->setup, &answer);
    }
    const PlumbPosition p = answer.start;
    const double gap_m = lift == PLUMB_DEADLIFT ? fabs(dice(d, 0.03)) : 0.0;
    PlumbPose pose = p.pose;
    const double trunk = t->lifter.body.trunk_m;
    pose.thorax_lean_rad += dice(d, lift == PLUMB_DEADLIFT ? 0.02 / trunk : 0.05);
    plumb_position_describe(&t->lifter, &t->setup, pose, t->setup.spine_rad, t->setup.knees_out_rad,
                            p.point[PLUMB_PT_bar].x + gap_m, p.point[PLUMB_PT_bar].y, -1.0,
                            &t->position);
    for (int i = 0; i < PLUMB_READING_COUNT; i++) {
        t->value[i] = plumb_reading_value((PlumbReading)i, &t->lifter, &t->setup, &t->position);
    }
}

static inline PlumbCamera shot_camera(const Condition *c, double bar_m, bool front, Dice *d)
{
    const double drawn_m = fmin(fmax(4.0 + dice(d, 1.5), 2.5), 8.0);
    const double drawn_rad = dice(d, degrees(5.0));
    const double drawn_height_m = dice_between(d, 0.3, 1.6);
    const double low_m = bar_m + (0.3 - bar_m) * (drawn_height_m - 0.3) / 1.3;
    const double height = isnan(c->height_m) ? drawn_height_m : c->height_m;
    const double distance = isnan(c->distance_m) ? drawn_m : c->distance_m;
    const double yaw = front || isnan(c->yaw_deg) ? drawn_rad : degrees(c->yaw_deg);
    PlumbCamera camera = {
        .focal_px = picture_focal_px,
        .distance_m = distance,
        .yaw_rad = yaw + (front ? 0.5 * PLUMB_PI : 0.0),
        .roll_rad = dice(d, degrees(2.0)),
        .height_m = height > 0.0 ? height : low_m,
        .centre_x_px = 0.5 * picture_width_px,
        .centre_y_px = 0.5 * picture_height_px,
    };
    camera.along_m = dice(d, front ? 0.1 : 0.2);
    camera.pitch_rad = atan((camera.height_m - 0.8) / distance) + dice(d, degrees(1.5));
    return camera;
}

static inline void shot_mark(Shot *shot, int still, PlumbMarkName name, PlumbVec2 at, double sigma,
                             Dice *d)
{
    shot->marks.mark[shot->marks.count++] = (PlumbMark){.still = still,
                                                        .name = name,
                                                        .x_px = at.x + dice(d, sigma),
                                                        .y_px = at.y + dice(d, sigma),
                                                        .sigma_px = sigma,
                                                        .time_s = (double)NAN};
}

static inline PlumbVec2 shot_rim(const Truth *t, double z_m, double turn)
{
    PlumbVec3 p = t->position.point[PLUMB_PT_bar];
    const double radius = 0.5 * t->lifter.equipment.disc_diameter_m;
    p.x += radius * sin(turn);
    p.y += radius * cos(turn);
    p.z = z_m;
    return plumb_camera_project(&t->camera, p, NULL);
}

/* The near disc as it hides what is behind it. */
static inline PlumbEllipse shot_disc(const Truth *t, double z_m)
{
    PlumbVec2 rim[12];
    PlumbEllipse ellipse = {0};
    for (int i = 0; i < 12; i++) {
        rim[i] = shot_rim(t, z_m, i * PLUMB_PI / 6.0);
    }
    if (!plumb_ellipse_fit(rim, 12, &ellipse)) {
        fprintf(stderr, "a disc that is no ellipse\n");
        exit(1);
    }
    return ellipse;
}

/* Whether a point of the picture lies in the outline of the near shoe, 10 cm high at the heel and 5
 * at the toe: what is behind it is not seen. */
static inline bool shot_shoe_hides(const Truth *t, PlumbVec2 at)
{
    const double half_shoe_m = 0.05;
    PlumbVec3 corner[4] = {t->position.point[PLUMB_PT_heel], t->position.point[PLUMB_PT_toe],
                           t->position.point[PLUMB_PT_toe], t->position.point[PLUMB_PT_heel]};
    corner[2].y += 0.05;
    corner[3].y += 0.10;
    for (int i = 0; i < 4; i++) {
        PlumbVec3 a = corner[i];
        PlumbVec3 b = corner[(i + 1) % 4];
        a.z += half_shoe_m;
        b.z += half_shoe_m;
        const PlumbVec2 p = plumb_camera_project(&t->camera, a, NULL);
        const PlumbVec2 q = plumb_camera_project(&t->camera, b, NULL);
        /* Corners run to the right, up and back: inside is on their left, y being down. */
        if ((q.x - p.x) * (at.y - p.y) - (q.y - p.y) * (at.x - p.x) > 0.0) {
            return false;
        }
    }
    return true;
}

static inline void shot_far_foot(Shot *shot, const Condition *c, const PlumbEllipse *disc,
                                 double sigma_px, Dice *d)
{
    static const PlumbLandmark landmark[] = {PLUMB_MARK_heel, PLUMB_MARK_toe, PLUMB_MARK_ankle};
    static const PlumbPoint point[] = {PLUMB_PT_heel, PLUMB_PT_toe, PLUMB_PT_ankle};
    for (int i = 0; i < 3; i++) {
        PlumbVec3 p = shot->truth.position.point[point[i]];
        p.z = -p.z;
        const PlumbVec2 at = plumb_camera_project(&shot->truth.camera, p, NULL);
        const bool hidden = plumb_ellipse_holds(disc, at.x, at.y) && !c->bare;
        if (!hidden && !shot_shoe_hides(&shot->truth, at)) {
            shot_mark(shot, 0, (PlumbMarkName){landmark[i], PLUMB_FAR, false}, at, sigma_px, d);
        }
    }
}

static inline void shot_side(Shot *shot, const Condition *c, Dice *d)
{
    static const struct {
        PlumbLandmark landmark;
        PlumbPoint point;
    } joints[] = {{PLUMB_MARK_heel, PLUMB_PT_heel},   {PLUMB_MARK_toe, PLUMB_PT_toe},
                  {PLUMB_MARK_ankle, PLUMB_PT_ankle}, {PLUMB_MARK_knee, PLUMB_PT_knee},
                  {PLUMB_MARK_hip, PLUMB_PT_hip},     {PLUMB_MARK_shoulder, PLUMB_PT_shoulder},
                  {PLUMB_MARK_elbow, PLUMB_PT_elbow}, {PLUMB_MARK_wrist, PLUMB_PT_wrist},
                  {PLUMB_MARK_bar, PLUMB_PT_grip}};
    const Truth *const t = &shot->truth;
    const double disc_z = 0.70;
    const PlumbEllipse disc = shot_disc(t, disc_z);
    const double px_per_m = t->camera.focal_px / t->camera.distance_m;
    const double joint_px = c->error_m > 0.0 ? c->error_m * px_per_m : c->error_px;
    const double disc_px = c->error_m > 0.0 ? 3.0 : c->error_px;
    for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++) {
        const PlumbVec2 at =
            plumb_camera_project(&t->camera, t->position.point[joints[i].point], NULL);
        if (c->bare || !plumb_ellipse_holds(&disc, at.x, at.y)) {
            shot_mark(shot, 0, (PlumbMarkName){joints[i].landmark, PLUMB_NEAR, false}, at, joint_px,
                      d);
        }
    }
    for (int i = 0; i < RIM_POINTS; i++) {
        const double turn = 2.0 * PLUMB_PI * i / RIM_POINTS;
        shot_mark(shot, 0, (PlumbMarkName){PLUMB_MARK_disc, PLUMB_NEAR, false},
                  shot_rim(t, disc_z, turn), disc_px, d);
    }
    for (int i = 0; i < 2 * RIM_POINTS && c->both_discs; i++) {
        const PlumbVec2 at = shot_rim(t, -disc_z, PLUMB_PI * i / RIM_POINTS);
        if (!plumb_ellipse_holds(&disc, at.x, at.y)) {
            shot_mark(shot, 0, (PlumbMarkName){PLUMB_MARK_disc, PLUMB_FAR, false}, at, disc_px, d);
        }
    }
    for (int i = 0; i < 2 && c->post; i++) {
        const PlumbVec3 post = vec3(0.9, 0.2 + 1.6 * i, -0.6);
        shot_mark(shot, 0, (PlumbMarkName){PLUMB_MARK_plumb, PLUMB_NEAR, false},
                  plumb_camera_project(&t->camera, post, NULL), disc_px, d);
    }
    if (c->far_foot) {
        shot_far_foot(shot, c, &disc, joint_px, d);
    }
}

static inline void shot_front(Shot *shot, const Condition *c, const PlumbCamera *camera, Dice *d)
{
    static const struct {
        PlumbLandmark landmark;
        PlumbPoint point;
    } joints[] = {{PLUMB_MARK_ankle, PLUMB_PT_ankle},
                  {PLUMB_MARK_toe, PLUMB_PT_toe},
                  {PLUMB_MARK_knee, PLUMB_PT_knee},
                  {PLUMB_MARK_bar, PLUMB_PT_grip}};
    const double px_per_m = camera->focal_px / camera->distance_m;
    const double sigma = c->error_m > 0.0 ? c->error_m * px_per_m : c->error_px;
    for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++) {
        for (int side = 0; side < 2; side++) {
            PlumbVec3 p = shot->truth.position.point[joints[i].point];
            p.z = side == 0 ? p.z : -p.z;
            shot_mark(shot, 1, (PlumbMarkName){joints[i].landmark, (PlumbNear)side, true},
                      plumb_camera_project(camera, p, NULL), sigma, d);
        }
    }
}

/* Lifter number index under a condition. *shot must stay where it is while ask is used. */
static inline void shot_take(Shot *shot, const Condition *c, uint64_t index)
{
    Dice d = {.at = 0};
    plumb_normal_deviates(4711, index, STILL_DEVIATES, d.z);
    memset(shot, 0, sizeof *shot);
    shot_lifter(shot, index, &d);
    shot_pose(shot, c->lift, &d);
    const double bar_m = shot->truth.position.point[PLUMB_PT_bar].y;
    shot->truth.camera = shot_camera(c, bar_m, false, &d);
    plumb_marks_picture(&shot->marks, "side.jpg", 8);
    shot_side(shot, c, &d);
    if (c->front) {
        const PlumbCamera camera = shot_camera(c, bar_m, true, &d);
        plumb_marks_picture(&shot->marks, "front.jpg", 9);
        shot_front(shot, c, &camera, &d);
    }
    shot->ask = plumb_trace_ask(&shot->known, &shot->told, &shot->body, &shot->marks);
    for (int i = 0; i < shot->marks.still_count; i++) {
        shot->ask.size_px[i] = (PlumbVec2){picture_width_px, picture_height_px};
        if (c->entered && i == 0) {
            shot->ask.distance_m[i] = shot->truth.camera.distance_m;
        }
    }
}

#endif
