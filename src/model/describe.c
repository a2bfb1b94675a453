/* SPDX-License-Identifier: MIT */
/* Describes a pose in full: joints, centre of mass, angles, loads, efforts. */
#include "model/measure.h"

static const char *const point_names[PLUMB_POINT_COUNT] = {
#define X(name) #name,
    PLUMB_POINT_LIST(X)
#undef X
};

typedef struct AngleRow {
    const char *name;
    const char *text;
    const char *reference;
} AngleRow;

static const AngleRow angle_rows[PLUMB_ANGLE_COUNT] = {
#define X(name, text, reference) {#name, text, reference},
    PLUMB_ANGLE_LIST(X)
#undef X
};

const char *plumb_point_name(PlumbPoint point)
{
    return point_names[point];
}

const char *plumb_angle_name(PlumbAngle angle)
{
    return angle_rows[angle].name;
}

const char *plumb_angle_text(PlumbAngle angle)
{
    return angle_rows[angle].text;
}

const char *plumb_angle_reference(PlumbAngle angle)
{
    return angle_rows[angle].reference;
}

static PlumbVec3 lift(PlumbVec2 p, double z)
{
    return vec3(p.x, p.y, z);
}

/* A pull's arm hangs straight from shoulder to grip, its joint lowered by the drop. */
static void hanging_arm(const PlumbRig *rig, PlumbVec3 *point)
{
    const PlumbVec3 shoulder = point[PLUMB_PT_shoulder];
    const PlumbVec3 grip = point[PLUMB_PT_grip];
    point[PLUMB_PT_elbow] = vec3_between(shoulder, grip, (rig->drop + rig->upper_arm) / rig->arm);
    point[PLUMB_PT_wrist] = vec3_between(shoulder, grip, 1.0 - rig->hand / rig->arm);
}

static void place_points(const PlumbRig *rig, PlumbPose q, const PlumbLeg *leg, PlumbVec2 bar,
                         PlumbVec3 *point)
{
    const double u = rig->shoulder_u;
    const double v = rig->shoulder_v;
    point[PLUMB_PT_heel] = rig->heel;
    point[PLUMB_PT_toe] = rig->toe;
    point[PLUMB_PT_ankle] = rig->ankle;
    point[PLUMB_PT_knee] = leg->knee;
    point[PLUMB_PT_hip] = leg->hip;
    point[PLUMB_PT_lumbar] =
        lift(rig_trunk_point(q, rig->pelvis * rig->spine_cos, rig->pelvis * rig->spine_sin), 0.0);
    point[PLUMB_PT_shoulder] = lift(rig_trunk_point(q, u, v), rig->shoulder_z);
    point[PLUMB_PT_grip] = lift(bar, rig->grip_z);
    point[PLUMB_PT_bar] = lift(bar, 0.0);
    if (rig->lift == PLUMB_DEADLIFT) {
        hanging_arm(rig, point);
        return;
    }
    point[PLUMB_PT_elbow] =
        lift(rig_trunk_point(q, u + rig->elbow_uvz.x, v + rig->elbow_uvz.y), rig->elbow_uvz.z);
    point[PLUMB_PT_wrist] =
        lift(rig_trunk_point(q, u + rig->wrist_uvz.x, v + rig->wrist_uvz.y), rig->wrist_uvz.z);
}

static void copy_effort(const PlumbEffort *effort, PlumbPosition *position)
{
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        position->capacity_n_m[i] = effort->capacity_n_m[i];
        position->relative_effort[i] = effort->relative[i];
    }
    position->summed_effort = effort->summed;
    position->extrapolated = effort->extrapolated;
}

static void describe_loads(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbRig *rig,
                           const PlumbLeg *leg, PlumbVec2 bar, PlumbPosition *position)
{
    plumb_pose_moments(rig, position->pose, leg, bar, position->moment_both_n_m,
                       position->bar_arm_m);
    plumb_pose_loads_3d(rig, leg, position->com.x, setup->feet_push_frac, &position->loads_3d);
    PlumbCapacity capacity;
    plumb_capacity_build(lifter, setup->lift, &capacity);
    PlumbEffort effort;
    const double *angle = position->angle_rad;
    plumb_pose_effort(&capacity, position->moment_both_n_m, angle[PLUMB_ANG_ankle_dorsiflexion],
                      angle[PLUMB_ANG_knee_flexion], angle[PLUMB_ANG_hip_thorax_thigh],
                      angle[PLUMB_ANG_shoulder_flexion], &effort);
    copy_effort(&effort, position);
}

void plumb_position_describe(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbPose pose,
                             double spine_rad, double knees_out_rad, double bar_x_m,
                             double bar_height_m, double knee_bend_rad, PlumbPosition *position)
{
    PlumbRig rig;
    plumb_rig_build(lifter, setup, spine_rad, knees_out_rad, &rig);
    PlumbLeg leg;
    plumb_leg_place(&rig, pose.hip_x_m, pose.hip_height_m, knee_bend_rad, &leg);
    const PlumbVec2 pull_bar = {bar_x_m, bar_height_m};
    const PlumbVec2 bar = plumb_rig_bar(&rig, pose, pull_bar);
    position->pose = pose;
    position->spine_rad = spine_rad;
    position->knees_out_rad = knees_out_rad;
    position->arm_reaches = rig.arm_reaches;
    place_points(&rig, pose, &leg, bar, position->point);
    position->head_top =
        lift(rig_trunk_point(pose, rig.shoulder_u + lifter->body.head_neck_m, rig.shoulder_v), 0.0);
    position->com = lift(plumb_rig_com(&rig, pose, leg.knee, bar), 0.0);
    position->balance_frac = plumb_rig_balance(&rig, position->com.x);
    position->clearance_m = (double)NAN;
    if (setup->lift == PLUMB_DEADLIFT) {
        const PlumbVec2 knee = {leg.knee.x, leg.knee.y};
        const PlumbVec2 hip = {leg.hip.x, leg.hip.y};
        position->clearance_m = plumb_rig_clearance(&rig, knee, hip, bar).value;
    }
    plumb_pose_angles(&rig, pose, &leg, bar, position->angle_rad);
    position->knee_to_toe_line_m =
        (leg.knee.z - rig.ankle.z) * rig.foot_axis.x - (leg.knee.x - rig.ankle.x) * rig.foot_axis.z;
    describe_loads(lifter, setup, &rig, &leg, bar, position);
}

double plumb_crease_above_knee_m(const PlumbBody *body, const PlumbPosition *position)
{
    return position->point[PLUMB_PT_hip].y + body->hip_crease_above_joint_m -
           position->point[PLUMB_PT_knee].y - body->knee_top_above_joint_m;
}
