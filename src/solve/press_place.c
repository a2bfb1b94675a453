/* SPDX-License-Identifier: MIT */
/* Where bar and arm are at each share of the bar's rise, and what that tells. */
#include "solve/press.h"

PlumbVec3 plumb_press_grip(const PlumbPress *press, double rise_frac)
{
    const PlumbSetup *setup = &press->setup;
    const double left = pow(1.0 - rise_frac, setup->path_exponent);
    return vec3(setup->lockout_over_m + (setup->touch_m - setup->lockout_over_m) * left,
                press->touch_y + rise_frac * (press->lockout_y - press->touch_y), press->hand_z);
}

PlumbArm plumb_press_arm(const PlumbPress *press, double rise_frac)
{
    return plumb_arm(press->shoulder, plumb_press_grip(press, rise_frac), press->upper,
                     press->lower);
}

/* The lockout: straight arms, so that the bar's height over the shoulder follows from how far the
 * hand stands off it across and along the bench. Falls below the touch: the arms are straight
 * before the bar leaves the chest. */
static void place_lockout(PlumbPress *press)
{
    const double reach = press->upper + press->lower;
    const double off = hypot(press->setup.lockout_over_m, press->hand_z - press->shoulder.z);
    const double square = reach * reach - off * off;
    press->lockout_y = press->shoulder.y + sqrt(fmax(0.0, square));
    press->miss_m = fmax(0.0, off - reach);
    if (press->miss_m <= 0.0) {
        press->miss_m = fmax(0.0, press->touch_y - press->lockout_y);
    }
    press->at_lockout = press->miss_m > 0.0;
}

PlumbPress plumb_press_begin(const PlumbLifter *lifter, const PlumbSetup *setup)
{
    const PlumbBody *body = &lifter->body;
    PlumbPress press = {
        .lifter = lifter,
        .setup = *setup,
        .load = plumb_arm_load(lifter, setup->load_kg, setup->hands_push_frac),
        .shoulder = {0.0, setup->bench_height_m + body->shoulder_half_depth_m,
                     0.5 * body->shoulder_joint_spacing_m},
        .hand_z = 0.5 * setup->grip_m + body->forefinger_to_grip_centre_m,
        .upper = body->upper_arm_m,
        .lower = body->forearm_m + body->wrist_to_grip_palm_m,
        .touch_y = setup->bench_height_m + body->chest_depth_m + setup->arch_m +
                   0.5 * lifter->equipment.shaft_diameter_m,
    };
    place_lockout(&press);
    /* Between two ends that the arms span they are nowhere too short. Folded they might be too
     * long, where the bar passes closer to the shoulder than the links' difference. */
    const double near =
        hypot(fmax(0.0, press.touch_y - press.shoulder.y), press.hand_z - press.shoulder.z);
    press.may_fold = near < fabs(press.upper - press.lower);
    plumb_press_touch(&press, setup->touch_m);
    return press;
}

PlumbArm plumb_press_touch(PlumbPress *press, double touch_m)
{
    enum { CHECKS = 16 };
    press->setup.touch_m = touch_m;
    const PlumbArm arm = plumb_press_arm(press, 0.0);
    press->miss_m = press->at_lockout ? press->miss_m : arm.miss_m;
    for (int i = 1; i < CHECKS && press->may_fold && !press->at_lockout; i++) {
        const double miss = plumb_press_arm(press, (double)i / CHECKS).miss_m;
        press->miss_m = fmax(press->miss_m, miss);
    }
    const double elbow_x =
        press->setup.elbows_given ? press->upper * cos(press->setup.elbows_rad) : arm.grip.x;
    press->touch_swivel = plumb_arm_swivel(&arm, elbow_x, &press->touch_off_m);
    return arm;
}

double plumb_press_swivel(const PlumbPress *press, const PlumbArm *arm, double rise_frac,
                          double *off_m)
{
    *off_m = 0.0;
    if (press->setup.elbows_given) {
        return press->touch_swivel * (1.0 - rise_frac);
    }
    return plumb_arm_swivel(arm, arm->grip.x, off_m);
}

/* Of an elbow under the bar the angle is told by the bar's way alone, and the arm reaches it where
 * the circle of such elbows about the trunk's line meets the forearm's about the hand. Where they
 * barely do, at straight arms, digits are lost; there the place of the elbow decides. */
static bool abduction_under(const PlumbPress *press, double rise_frac, double *abduction_rad)
{
    const double sure_m = 1e-9;
    const PlumbVec3 way = vec3_sub(plumb_press_grip(press, rise_frac), press->shoulder);
    const double off_m = sqrt(fmax(0.0, (press->upper - way.x) * (press->upper + way.x)));
    const double apart_m = sqrt(way.y * way.y + way.z * way.z);
    *abduction_rad = atan2(off_m, way.x);
    return off_m > sure_m && off_m + press->lower - apart_m > sure_m &&
           apart_m - fabs(off_m - press->lower) > sure_m;
}

double plumb_press_abduction(const PlumbPress *press, double rise_frac)
{
    double under_rad;
    if (!press->setup.elbows_given && abduction_under(press, rise_frac, &under_rad)) {
        return under_rad;
    }
    const PlumbArm arm = plumb_press_arm(press, rise_frac);
    double off;
    const double swivel = plumb_press_swivel(press, &arm, rise_frac, &off);
    const PlumbVec3 elbow = plumb_arm_elbow(&arm, plumb_arm_side(&arm, swivel));
    const PlumbVec3 upper = vec3_sub(elbow, arm.shoulder);
    return atan2(hypot(upper.y, upper.z), upper.x);
}

double plumb_press_rotation(const PlumbArm *arm, PlumbVec3 elbow)
{
    return plumb_arm_external_rotation(vec3_unit(vec3_sub(elbow, arm->shoulder)),
                                       vec3_unit(vec3_sub(arm->grip, elbow)), vec3(1.0, 0.0, 0.0),
                                       vec3(0.0, 1.0, 0.0));
}

static void describe_angles(const PlumbArm *arm, PlumbVec3 elbow, const double *strength,
                            double *angle)
{
    const PlumbVec3 upper = vec3_sub(elbow, arm->shoulder);
    const PlumbVec3 fore = vec3_sub(arm->grip, elbow);
    angle[PLUMB_PRESS_ANG_abduction] = atan2(hypot(upper.y, upper.z), upper.x);
    angle[PLUMB_PRESS_ANG_elbow_flexion] = strength[PLUMB_ARM_ELBOW];
    angle[PLUMB_PRESS_ANG_forearm_front] = atan2(fore.z, fore.y);
    angle[PLUMB_PRESS_ANG_forearm_side] = atan2(fore.x, fore.y);
    angle[PLUMB_PRESS_ANG_horizontal] = strength[PLUMB_ARM_ADDUCTION];
    angle[PLUMB_PRESS_ANG_shoulder_flexion] = strength[PLUMB_ARM_FLEXION];
    angle[PLUMB_PRESS_ANG_shoulder_external_rotation] = plumb_press_rotation(arm, elbow);
}

void plumb_press_effort(const PlumbPress *press, const PlumbArm *arm, PlumbVec3 side,
                        const double strength_rad[PLUMB_ARM_JOINTS], PlumbPressPosition *position)
{
    plumb_arm_moments(arm, side, &press->load, position->moment_n_m);
    plumb_arm_capacity(press->lifter, strength_rad, position->moment_n_m, position->capacity_n_m);
    /* Summed cubes rank touches of one lifter at one load, as the other lifts' do for poses. */
    position->summed_effort = 0.0;
    for (int i = 0; i < PLUMB_ARM_JOINTS; i++) {
        const double effort = fabs(position->moment_n_m[i]) / position->capacity_n_m[i];
        position->relative_effort[i] = effort;
        position->summed_effort += effort * effort * effort;
    }
}

static void describe(const PlumbPress *press, const PlumbArm *arm, double swivel,
                     PlumbPressPosition *position)
{
    const PlumbBody *body = &press->lifter->body;
    const PlumbVec3 side = plumb_arm_side(arm, swivel);
    const PlumbVec3 elbow = plumb_arm_elbow(arm, side);
    double strength_rad[PLUMB_ARM_JOINTS];
    plumb_arm_strength_angles(arm, side, strength_rad);
    position->point[PLUMB_PRESS_shoulder] = arm->shoulder;
    position->point[PLUMB_PRESS_elbow] = elbow;
    position->point[PLUMB_PRESS_wrist] = vec3_between(elbow, arm->grip, press->load.wrist_frac);
    position->point[PLUMB_PRESS_grip] = arm->grip;
    position->point[PLUMB_PRESS_bar] = vec3(arm->grip.x, arm->grip.y, 0.0);
    describe_angles(arm, elbow, strength_rad, position->angle_rad);
    position->angle_rad[PLUMB_PRESS_ANG_swivel] = swivel;
    position->elbow_off_bar_m = elbow.x - arm->grip.x;
    position->elbow_off_hand_m = elbow.z - arm->grip.z;
    position->elbow_below_rule_m =
        arm->shoulder.y + body->shoulder_top_above_joint_m - elbow.y + body->elbow_half_thickness_m;
    position->bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal] = arm->grip.x - arm->shoulder.x;
    position->bar_arm_m[PLUMB_PRESS_ARM_shoulder_frontal] = arm->grip.z - arm->shoulder.z;
    position->bar_arm_m[PLUMB_PRESS_ARM_elbow] = plumb_arm_elbow_arm_m(arm, side);
    plumb_press_effort(press, arm, side, strength_rad, position);
}

void plumb_press_describe(const PlumbPress *press, double rise_frac, PlumbPressPosition *position)
{
    const PlumbArm arm = plumb_press_arm(press, rise_frac);
    double off;
    position->rise_frac = rise_frac;
    describe(press, &arm, plumb_press_swivel(press, &arm, rise_frac, &off), position);
}

double plumb_press_place(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbVec2 shoulder_m,
                         PlumbVec2 bar_m, double swing_rad, PlumbPressPosition *position)
{
    const PlumbBody *const body = &lifter->body;
    const PlumbPress press = {
        .lifter = lifter,
        .setup = *setup,
        .load = plumb_arm_load(lifter, setup->load_kg, setup->hands_push_frac),
    };
    const PlumbVec3 shoulder = {shoulder_m.x, shoulder_m.y, 0.5 * body->shoulder_joint_spacing_m};
    const PlumbVec3 grip = {bar_m.x, bar_m.y,
                            0.5 * setup->grip_m + body->forefinger_to_grip_centre_m};
    const PlumbArm arm =
        plumb_arm(shoulder, grip, body->upper_arm_m, body->forearm_m + body->wrist_to_grip_palm_m);
    double off;
    position->rise_frac = (double)NAN;
    describe(&press, &arm, plumb_arm_swivel(&arm, bar_m.x - shoulder_m.x, &off) + swing_rad,
             position);
    return arm.miss_m;
}
