/* SPDX-License-Identifier: MIT */
/* Static net joint moments and moment arms of the bar in the sagittal plane. */
#include "model/measure.h"

/* A weight at x; the body above a joint is a list of them. */
typedef struct Weight {
    double mass;
    double x;
} Weight;

enum {
    WEIGHT_SHANK,
    WEIGHT_THIGH,
    WEIGHT_PELVIS,
    WEIGHT_THORAX,
    WEIGHT_HEAD,
    WEIGHT_UPPER_ARM,
    WEIGHT_FOREARM,
    WEIGHT_HAND,
    WEIGHT_BAR,
    WEIGHT_COUNT
};

static double share(double a, double b, double f)
{
    return a + f * (b - a);
}

/* x of elbow and wrist: along the straight arm of a pull, fixed in the thorax of a squat. */
static void arm_x(const PlumbRig *rig, PlumbPose q, double shoulder, double grip, double joint[3])
{
    if (rig->lift == PLUMB_DEADLIFT) {
        joint[0] = share(shoulder, grip, rig->drop / rig->arm);
        joint[1] = share(shoulder, grip, (rig->drop + rig->upper_arm) / rig->arm);
        joint[2] = share(shoulder, grip, 1.0 - rig->hand / rig->arm);
        return;
    }
    const double s = sin(q.thorax_lean_rad);
    const double c = cos(q.thorax_lean_rad);
    joint[0] = shoulder;
    joint[1] = shoulder + rig->elbow_uvz.x * s - rig->elbow_uvz.y * c;
    joint[2] = shoulder + rig->wrist_uvz.x * s - rig->wrist_uvz.y * c;
}

static void list_weights(const PlumbRig *rig, PlumbPose q, const PlumbLeg *leg, double lumbar,
                         double shoulder, double bar, Weight list[WEIGHT_COUNT])
{
    const double *mass = rig->segment_mass;
    const double *com = rig->com_frac;
    const double s = sin(q.thorax_lean_rad);
    double arm[3];
    arm_x(rig, q, shoulder, bar, arm);
    const Weight all[WEIGHT_COUNT] = {
        [WEIGHT_SHANK] = {mass[PLUMB_SEG_shank],
                          share(leg->knee.x, rig->ankle.x, com[PLUMB_SEG_shank])},
        [WEIGHT_THIGH] = {mass[PLUMB_SEG_thigh],
                          share(leg->hip.x, leg->knee.x, com[PLUMB_SEG_thigh])},
        [WEIGHT_PELVIS] = {mass[PLUMB_SEG_pelvis], share(q.hip_x_m, lumbar, com[PLUMB_SEG_pelvis])},
        [WEIGHT_THORAX] = {mass[PLUMB_SEG_thorax], share(lumbar, shoulder, com[PLUMB_SEG_thorax])},
        [WEIGHT_HEAD] = {mass[PLUMB_SEG_head],
                         shoulder + com[PLUMB_SEG_head] * rig->trunk_length * s},
        [WEIGHT_UPPER_ARM] = {mass[PLUMB_SEG_upper_arm],
                              share(arm[0], arm[1], com[PLUMB_SEG_upper_arm])},
        [WEIGHT_FOREARM] = {mass[PLUMB_SEG_forearm], share(arm[1], arm[2], com[PLUMB_SEG_forearm])},
        [WEIGHT_HAND] = {mass[PLUMB_SEG_hand], share(arm[2], bar, com[PLUMB_SEG_hand])},
        [WEIGHT_BAR] = {rig->bar_mass, bar},
    };
    for (int i = 0; i < WEIGHT_COUNT; i++) {
        list[i] = all[i];
    }
}

/* Sum over weights from `first` of m g (x_i - x). */
static double moment_about(const Weight list[WEIGHT_COUNT], int first, double x)
{
    double sum = 0.0;
    for (int i = first; i < WEIGHT_COUNT; i++) {
        sum += list[i].mass * (list[i].x - x);
    }
    return sum * PLUMB_GRAVITY;
}

/* Free body: all that a joint carries, weights down at their centres, the joint's net moment
 * holding them: M = ± Σ m g (x_i - x_joint), signed so that extensors (plantar flexors, shoulder
 * extensors) are positive; both sides together. The arm of the bar is the bar's term without m g.
 */
void plumb_pose_moments(const PlumbRig *rig, PlumbPose q, const PlumbLeg *leg, PlumbVec2 bar,
                        double moment_n_m[PLUMB_JOINT_COUNT], double arm_m[PLUMB_JOINT_COUNT])
{
    const PlumbVec2 lumbar =
        rig_trunk_point(q, rig->pelvis * rig->spine_cos, rig->pelvis * rig->spine_sin);
    const PlumbVec2 shoulder = rig_trunk_point(q, rig->shoulder_u, rig->shoulder_v);
    Weight list[WEIGHT_COUNT];
    list_weights(rig, q, leg, lumbar.x, shoulder.x, bar.x, list);
    moment_n_m[PLUMB_JOINT_ankle] = moment_about(list, WEIGHT_SHANK, rig->ankle.x);
    moment_n_m[PLUMB_JOINT_knee] = -moment_about(list, WEIGHT_THIGH, leg->knee.x);
    moment_n_m[PLUMB_JOINT_hip] = moment_about(list, WEIGHT_PELVIS, q.hip_x_m);
    moment_n_m[PLUMB_JOINT_back] = moment_about(list, WEIGHT_THORAX, lumbar.x);
    moment_n_m[PLUMB_JOINT_shoulder] = -moment_about(list, WEIGHT_UPPER_ARM, shoulder.x);
    arm_m[PLUMB_JOINT_ankle] = bar.x - rig->ankle.x;
    arm_m[PLUMB_JOINT_knee] = leg->knee.x - bar.x;
    arm_m[PLUMB_JOINT_hip] = bar.x - q.hip_x_m;
    arm_m[PLUMB_JOINT_back] = bar.x - lumbar.x;
    arm_m[PLUMB_JOINT_shoulder] = shoulder.x - bar.x;
}

/* Free body of shank and foot, per side, cut at the knee. Ground force F = (0, W/2, ±push W/2) acts
 * at the point C of the foot's axis with the balance's share f (W: weight of body and bar). About
 * the knee, M = (C - K) × F + (weights of shank and foot at their centres - K) ×; the extensors
 * supply -M·ν about the flexion axis ν, the frontal part is M·(ν × unit(K - A)). With F vertical
 * -2 M_z is the sagittal knee moment. */
void plumb_pose_loads_3d(const PlumbRig *rig, const PlumbLeg *leg, double com_x,
                         double feet_push_frac, PlumbLoads3d *loads)
{
    const double f = plumb_rig_balance(rig, com_x);
    const double weight = 0.5 * rig->total_mass * PLUMB_GRAVITY;
    const PlumbVec3 centre = vec3_between(rig->heel, rig->toe, f);
    /* The foot pushes outwards, so the ground pushes it inwards, towards -z. */
    const PlumbVec3 force = vec3(0.0, weight, -feet_push_frac * weight);
    const double shank_w = 0.5 * rig->segment_mass[PLUMB_SEG_shank] * PLUMB_GRAVITY;
    const double foot_w = 0.5 * rig->segment_mass[PLUMB_SEG_foot] * PLUMB_GRAVITY;
    const double thigh_w = 0.5 * rig->segment_mass[PLUMB_SEG_thigh] * PLUMB_GRAVITY;
    const PlumbVec3 shank_com = vec3_between(leg->knee, rig->ankle, rig->com_frac[PLUMB_SEG_shank]);
    const PlumbVec3 thigh_com = vec3_between(leg->hip, leg->knee, rig->com_frac[PLUMB_SEG_thigh]);
    PlumbVec3 foot_com = vec3_between(rig->heel, rig->toe, rig->com_frac[PLUMB_SEG_foot]);
    foot_com.y = 0.5 * rig->ankle.y;
    const PlumbVec3 knee = leg->knee;
    PlumbVec3 m = vec3_cross(vec3_sub(centre, knee), force);
    m = vec3_add(m, vec3_cross(vec3_sub(shank_com, knee), vec3(0.0, -shank_w, 0.0)));
    m = vec3_add(m, vec3_cross(vec3_sub(foot_com, knee), vec3(0.0, -foot_w, 0.0)));
    const PlumbVec3 axis = plumb_leg_axis(rig, leg);
    loads->knee_extension_n_m = -vec3_dot(m, axis);
    loads->knee_minus_m_z_n_m = -m.z;
    loads->knee_frontal_n_m = vec3_dot(m, vec3_cross(axis, vec3_unit(vec3_sub(knee, rig->ankle))));
    /* Along the foot: distances from the ankle on the foot's axis, plantar flexors positive. */
    const PlumbVec3 from_ankle = vec3_sub(centre, rig->ankle);
    const PlumbVec3 foot_from_ankle = vec3_sub(foot_com, rig->ankle);
    loads->ankle_along_foot_n_m = weight * vec3_dot(from_ankle, rig->foot_axis) -
                                  foot_w * vec3_dot(foot_from_ankle, rig->foot_axis);
    PlumbVec3 h = vec3_cross(vec3_sub(centre, leg->hip), force);
    h = vec3_add(h, vec3_cross(vec3_sub(thigh_com, leg->hip), vec3(0.0, -thigh_w, 0.0)));
    h = vec3_add(h, vec3_cross(vec3_sub(shank_com, leg->hip), vec3(0.0, -shank_w, 0.0)));
    h = vec3_add(h, vec3_cross(vec3_sub(foot_com, leg->hip), vec3(0.0, -foot_w, 0.0)));
    loads->hip_frontal_n_m = h.x;
}
