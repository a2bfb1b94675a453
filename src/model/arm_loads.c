/* SPDX-License-Identifier: MIT */
/* What shoulder and elbow of one arm carry in a press, and what they can supply. */
#include "model/arm.h"

#include "tables.h"

/* The bar's weight W lies on both hands alike. A hand that pushes outwards with the share p of its
 * vertical force is pushed inwards by the bar: force on the right hand (0, -W/2, -p W/2). */
PlumbArmLoad plumb_arm_load(const PlumbLifter *lifter, double load_kg, double hands_push_frac)
{
    static const PlumbSegmentId segment[3] = {PLUMB_SEG_upper_arm, PLUMB_SEG_forearm,
                                              PLUMB_SEG_hand};
    const PlumbBody *body = &lifter->body;
    const double half_n = 0.5 * load_kg * PLUMB_GRAVITY;
    PlumbArmLoad load = {.force_n = {0.0, -half_n, -hands_push_frac * half_n}};
    for (int i = 0; i < 3; i++) {
        load.mass_kg[i] = body->segment[segment[i]].mass_frac * body->mass_kg;
        load.com_frac[i] = body->segment[segment[i]].com_frac;
    }
    load.wrist_frac = body->forearm_m / (body->forearm_m + body->wrist_to_grip_palm_m);
    return load;
}

static PlumbVec3 moment_of(PlumbVec3 about, PlumbVec3 at, PlumbVec3 force_n)
{
    return vec3_cross(vec3_sub(at, about), force_n);
}

static PlumbVec3 weight(double mass_kg)
{
    return vec3(0.0, -mass_kg * PLUMB_GRAVITY, 0.0);
}

/* Forearm and hand cut free at the elbow: moment about a point of the bar's force on the hand and
 * of the two weights. */
static PlumbVec3 lower_moment(const PlumbArm *arm, PlumbVec3 elbow, const PlumbArmLoad *load,
                              PlumbVec3 about)
{
    const PlumbVec3 wrist = vec3_between(elbow, arm->grip, load->wrist_frac);
    const PlumbVec3 forearm = vec3_between(elbow, wrist, load->com_frac[1]);
    const PlumbVec3 hand = vec3_between(wrist, arm->grip, load->com_frac[2]);
    PlumbVec3 sum = moment_of(about, arm->grip, load->force_n);
    sum = vec3_along(sum, 1.0, moment_of(about, forearm, weight(load->mass_kg[1])));
    return vec3_along(sum, 1.0, moment_of(about, hand, weight(load->mass_kg[2])));
}

/* The elbow's flexion axis ν = e × n, e from the line shoulder to grip to the elbow: the
 * right-handed turn about it bends the elbow further, also where the arm is straight. */
static PlumbVec3 elbow_axis(const PlumbArm *arm, PlumbVec3 side)
{
    return vec3_cross(side, arm->n);
}

/* Two free bodies, static, the right arm.
 * Shoulder: the whole arm cut free at S. M = Σ (r - S) × F of the bar's force at the grip G and the
 * weights of upper arm, forearm and hand; the muscles supply -M. About x (the trunk's length) a
 * load outside of the shoulder turns the upright arm outwards, M_x > 0: adductors work against it.
 * About z (across) a load on the feet's side of the shoulder turns it toward the feet, M_z < 0:
 * flexors work against it.
 * Elbow: forearm and hand cut free at E, M' = Σ (r - E) × F without the upper arm's weight; M'·ν >
 * 0 bends the elbow, extensors work against it. What crosses the arm's plane is carried by the
 * shoulder's rotators and the joint, and is not asked of the elbow. */
void plumb_arm_moments(const PlumbArm *arm, PlumbVec3 side, const PlumbArmLoad *load,
                       double moment_n_m[PLUMB_ARM_JOINTS])
{
    const PlumbVec3 elbow = plumb_arm_elbow(arm, side);
    const PlumbVec3 upper = vec3_between(arm->shoulder, elbow, load->com_frac[0]);
    const PlumbVec3 own = moment_of(arm->shoulder, upper, weight(load->mass_kg[0]));
    const PlumbVec3 shoulder = vec3_add(lower_moment(arm, elbow, load, arm->shoulder), own);
    const PlumbVec3 lower = lower_moment(arm, elbow, load, elbow);
    moment_n_m[PLUMB_ARM_ADDUCTION] = shoulder.x;
    moment_n_m[PLUMB_ARM_FLEXION] = -shoulder.z;
    moment_n_m[PLUMB_ARM_ELBOW] = vec3_dot(lower, elbow_axis(arm, side));
}

double plumb_arm_elbow_arm_m(const PlumbArm *arm, PlumbVec3 side)
{
    const PlumbVec3 elbow = plumb_arm_elbow(arm, side);
    const PlumbVec3 moment = moment_of(elbow, arm->grip, vec3(0.0, -1.0, 0.0));
    return vec3_dot(moment, elbow_axis(arm, side));
}

PlumbArmCurve plumb_arm_curve(const PlumbLifter *lifter, int joint, double moment_n_m)
{
    static const PlumbUpperAction action[PLUMB_ARM_JOINTS][2] = {
        {PLUMB_UPPER_shoulder_horizontal_adduction, PLUMB_UPPER_shoulder_horizontal_abduction},
        {PLUMB_UPPER_shoulder_flexion, PLUMB_UPPER_shoulder_extension},
        {PLUMB_UPPER_elbow_extension, PLUMB_UPPER_elbow_flexion},
    };
    const double size = lifter->body.mass_kg * lifter->body.stature_m;
    const PlumbUpperRow *row = &plumb_table_upper[action[joint][moment_n_m >= 0.0 ? 0 : 1]];
    return (PlumbArmCurve){
        .peak_n_m = lifter->strength[PLUMB_JOINT_shoulder] * size /
                    (row->person_mass_kg * row->person_stature_m) * row->tmax_n_m,
        .centre_rad = row->centre_rad,
        .width_rad = row->width_rad,
    };
}

void plumb_arm_capacity(const PlumbLifter *lifter, const double angle_rad[PLUMB_ARM_JOINTS],
                        const double moment_n_m[PLUMB_ARM_JOINTS],
                        double capacity_n_m[PLUMB_ARM_JOINTS])
{
    for (int i = 0; i < PLUMB_ARM_JOINTS; i++) {
        const PlumbArmCurve curve = plumb_arm_curve(lifter, i, moment_n_m[i]);
        const double off = (angle_rad[i] - curve.centre_rad) / curve.width_rad;
        capacity_n_m[i] = curve.peak_n_m * exp(-0.5 * off * off);
    }
}

double plumb_bench_grip_most_m(void)
{
    return plumb_table_item[PLUMB_ITEM_bench_grip_most].value;
}
