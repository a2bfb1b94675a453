/* SPDX-License-Identifier: MIT */
/* Squats whose legs stand as a study describes them. */
#include "published/poses.h"

#include "base/roots.h"
#include "base/vec.h"

/* A squat whose shin is given and whose depth is varied until the thigh is as asked for. */
typedef struct LegsGiven {
    const PlumbLifter *lifter;
    const PlumbSetup *setup;
    double shin_rad;
    double thigh_rad;
    PlumbPosition position;
} LegsGiven;

static double thigh_off(double depth_m, void *context)
{
    LegsGiven *legs = context;
    const PlumbConstraint constraint[3] = {{PLUMB_CON_depth, depth_m},
                                           {PLUMB_CON_balance, legs->setup->balance_frac},
                                           {PLUMB_CON_shin_angle, legs->shin_rad}};
    PlumbPose pose;
    if (plumb_pose_solve(legs->lifter, legs->setup, 0.0, 0.0, constraint, NULL, &pose, NULL,
                         NULL) != PLUMB_HELD) {
        return (double)NAN;
    }
    plumb_position_describe(legs->lifter, legs->setup, pose, legs->setup->spine_rad,
                            legs->setup->knees_out_rad, 0.0, 0.0, -1.0, &legs->position);
    return legs->position.angle_rad[PLUMB_ANG_thigh] - legs->thigh_rad;
}

bool legs_given(const PlumbLifter *lifter, const PlumbSetup *setup, double shin_rad,
                double thigh_rad, PlumbPosition *position)
{
    LegsGiven legs = {
        .lifter = lifter, .setup = setup, .shin_rad = shin_rad, .thigh_rad = thigh_rad};
    const PlumbBody *body = &lifter->body;
    const double near = body->knee_top_above_joint_m - body->hip_crease_above_joint_m -
                        body->thigh_m * sin(thigh_rad);
    const double low = near - 0.06;
    const double high = near + 0.06;
    const double at_low = thigh_off(low, &legs);
    const double at_high = thigh_off(high, &legs);
    if (!(at_low * at_high < 0.0)) {
        return false;
    }
    const double root = plumb_root_bracketed(thigh_off, &legs, low, high, at_low, at_high, 1e-12);
    const bool held = fabs(thigh_off(root, &legs)) < 1e-9;
    *position = legs.position;
    return held;
}

/* A squat whose knee stands on the vertical through the toes; the third constraint is given. */
typedef struct KneeAtToes {
    const PlumbLifter *lifter;
    const PlumbSetup *setup;
    PlumbConstraint third;
    PlumbPosition position;
} KneeAtToes;

static double knee_past_toes(double shin_rad, void *context)
{
    KneeAtToes *at = context;
    const PlumbConstraint constraint[3] = {
        {PLUMB_CON_shin_angle, shin_rad}, {PLUMB_CON_balance, at->setup->balance_frac}, at->third};
    PlumbPose pose;
    if (plumb_pose_solve(at->lifter, at->setup, 0.0, 0.0, constraint, NULL, &pose, NULL, NULL) !=
        PLUMB_HELD) {
        return (double)NAN;
    }
    const double bend = at->third.id == PLUMB_CON_knee_bend ? at->third.target : -1.0;
    plumb_position_describe(at->lifter, at->setup, pose, at->setup->spine_rad,
                            at->setup->knees_out_rad, 0.0, 0.0, bend, &at->position);
    return at->position.point[PLUMB_PT_knee].x - at->position.point[PLUMB_PT_toe].x;
}

bool knee_at_toes(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbConstraint third,
                  PlumbPosition *position)
{
    KneeAtToes at = {.lifter = lifter, .setup = setup, .third = third};
    const double low = degrees(16.0);
    const double high = degrees(40.0);
    const double at_low = knee_past_toes(low, &at);
    const double at_high = knee_past_toes(high, &at);
    if (!(at_low * at_high < 0.0)) {
        return false;
    }
    const double root =
        plumb_root_bracketed(knee_past_toes, &at, low, high, at_low, at_high, 1e-12);
    const bool held = fabs(knee_past_toes(root, &at)) < 1e-9;
    *position = at.position;
    return held;
}
