/* SPDX-License-Identifier: MIT */
/* Where the elbow lies between a given shoulder and a given grip, and the angles that follow. */
#include "model/arm.h"

/* Of a vanishing radius or grip on the shoulder no direction can be told. */
static const double tiny = 1e-12;
static const double rounding = 4e-15;

PlumbArm plumb_arm(PlumbVec3 shoulder, PlumbVec3 grip, double upper, double lower)
{
    PlumbArm arm = {.shoulder = shoulder, .grip = grip, .upper = upper, .lower = lower};
    const PlumbVec3 way = vec3_sub(grip, shoulder);
    const double d = vec3_length(way);
    arm.distance = d;
    arm.n = d > tiny ? vec3_scale(way, 1.0 / d) : vec3(0.0, 1.0, 0.0);
    const PlumbVec3 out = vec3(0.0, 0.0, 1.0);
    const PlumbVec3 side = vec3_along(out, -arm.n.z, arm.n);
    arm.e1 = vec3_length(side) > tiny ? vec3_unit(side) : vec3(0.0, -1.0, 0.0);
    arm.e2 = vec3_cross(arm.n, arm.e1);
    if (arm.e2.x < 0.0) {
        arm.e2 = vec3_scale(arm.e2, -1.0);
    }
    arm.along = d > tiny ? (upper * upper - lower * lower + d * d) / (2.0 * d) : 0.0;
    /* Of a straight arm the difference is rounding, and its root would bend it by ten nanometres.
     */
    const double square = upper * upper - arm.along * arm.along;
    arm.radius = square > rounding * upper * upper ? sqrt(square) : 0.0;
    arm.miss_m = fmax(0.0, fmax(d - upper - lower, fabs(upper - lower) - d));
    return arm;
}

/* The elbow's x is a n_x + r R cos(σ - φ) with R = hypot(e1_x, e2_x), φ = atan2(e2_x, e1_x); e2_x
 * is never negative, so φ lies in 0..π and φ - acos(..) is the solution with the greater cos σ,
 * further out because e1_z is not negative either. */
double plumb_arm_swivel(const PlumbArm *arm, double x_m, double *off_m)
{
    const double reach = arm->radius * hypot(arm->e1.x, arm->e2.x);
    const double wish = x_m - arm->along * arm->n.x;
    const double phase = atan2(arm->e2.x, arm->e1.x);
    *off_m = fmax(0.0, fabs(wish) - reach);
    if (*off_m < 1e-14) { /* also a straight arm that lies there anyhow */
        *off_m = 0.0;
    }
    const double share = reach > tiny ? clamp(wish / reach, -1.0, 1.0) : 0.0;
    return phase - acos(share);
}

PlumbVec3 plumb_arm_side(const PlumbArm *arm, double swivel_rad)
{
    return vec3_along(vec3_scale(arm->e1, cos(swivel_rad)), sin(swivel_rad), arm->e2);
}

PlumbVec3 plumb_arm_elbow(const PlumbArm *arm, PlumbVec3 side)
{
    const PlumbVec3 foot = vec3_along(arm->shoulder, arm->along, arm->n);
    return vec3_along(foot, arm->radius, side);
}

/* E_z = G_z:  r cos σ e1_z = (d - a) n_z. */
double plumb_arm_swivel_upright(const PlumbArm *arm)
{
    const double reach = arm->radius * arm->e1.z;
    const double wish = (arm->distance - arm->along) * arm->n.z;
    return reach > tiny && fabs(wish) <= reach ? acos(wish / reach) : (double)NAN;
}

/* The shortest turn that brings `from` to `to` applied to v (Rodrigues):
 *   v cos + (from × to) × v + (from × to) ((from × to)·v) / (1 + cos). */
static PlumbVec3 swing(PlumbVec3 from, PlumbVec3 to, PlumbVec3 v)
{
    const PlumbVec3 axis = vec3_cross(from, to);
    const double cosine = vec3_dot(from, to);
    if (1.0 + cosine < tiny) {
        return vec3_scale(v, -1.0); /* straight overhead: by way of the front */
    }
    const PlumbVec3 turned = vec3_along(vec3_scale(v, cosine), 1.0, vec3_cross(axis, v));
    return vec3_along(turned, vec3_dot(axis, v) / (1.0 + cosine), axis);
}

double plumb_arm_external_rotation(PlumbVec3 upper, PlumbVec3 forearm, PlumbVec3 down,
                                   PlumbVec3 front)
{
    const PlumbVec3 neutral = swing(down, upper, front);
    const PlumbVec3 across = vec3_along(forearm, -vec3_dot(upper, forearm), upper);
    if (vec3_length(across) < 1e-9) {
        return 0.0;
    }
    return atan2(vec3_dot(vec3_cross(neutral, across), upper), vec3_dot(neutral, across));
}

void plumb_arm_strength_angles(const PlumbArm *arm, PlumbVec3 side,
                               double angle_rad[PLUMB_ARM_JOINTS])
{
    const PlumbVec3 elbow = plumb_arm_elbow(arm, side);
    const PlumbVec3 upper = vec3_sub(elbow, arm->shoulder);
    const PlumbVec3 fore = vec3_sub(arm->grip, elbow);
    angle_rad[PLUMB_ARM_ADDUCTION] = atan2(-upper.x, upper.z);
    angle_rad[PLUMB_ARM_FLEXION] = atan2(upper.y, upper.x);
    angle_rad[PLUMB_ARM_ELBOW] = atan2(vec3_length(vec3_cross(upper, fore)), vec3_dot(upper, fore));
}
