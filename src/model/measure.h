/* SPDX-License-Identifier: MIT */
/* What a placed pose tells, in the parts that the solver needs alone: angles against limits, the
 * leg's clearance to the bar, moments and efforts. */
#ifndef PLUMB_MODEL_MEASURE_H
#define PLUMB_MODEL_MEASURE_H

#include "model/limb.h"

/* Where the bar is: given in a pull, fixed on the thorax in a squat. */
PlumbVec2 plumb_rig_bar(const PlumbRig *rig, PlumbPose q, PlumbVec2 pull_bar);

/* Centre of mass of body and bar in the sagittal plane, m. */
PlumbVec2 plumb_rig_com(const PlumbRig *rig, PlumbPose q, PlumbVec3 knee, PlumbVec2 bar);

/* Share of the foot's sagittal length, heel 0 to toe tip 1, over which x lies. */
static inline double plumb_rig_balance(const PlumbRig *rig, double com_x)
{
    return (com_x - rig->heel.x) / (rig->toe.x - rig->heel.x);
}

/* Clearance of the bar to the leg's two capsules (model of the sagittal projection): the smaller
 * of distance less half-thickness less bar radius; negative where the bar is behind the line
 * ankle-knee-hip or in the flesh. gradient: by the knee's (x, y), the hip's and the bar's;
 * may be NULL. */
typedef struct PlumbClearance {
    double value;
    PlumbVec2 by_knee;
    PlumbVec2 by_hip;
    PlumbVec2 by_bar;
    bool thigh;   /* the thigh's capsule counts, else the shin's */
    double share; /* nearest point: 0 lower end, 1 upper end of that segment */
    double side;  /* 1 the bar is ahead of the leg, -1 behind it */
} PlumbClearance;

PlumbClearance plumb_rig_clearance(const PlumbRig *rig, PlumbVec2 knee, PlumbVec2 hip,
                                   PlumbVec2 bar);

/* Unit knee flexion axis, turned so that its z is positive; a straight leg takes it from the side
 * to which it would bend. */
PlumbVec3 plumb_leg_axis(const PlumbRig *rig, const PlumbLeg *leg);

/* Angles of the legs' joints that limits.csv bounds, rad, in the order of PlumbLimit. */
void plumb_limit_angles(const PlumbRig *rig, PlumbPose q, const PlumbLeg *leg,
                        double angle_rad[PLUMB_LEG_LIMIT_COUNT]);

/* All of PLUMB_ANGLE_LIST. */
void plumb_pose_angles(const PlumbRig *rig, PlumbPose q, const PlumbLeg *leg, PlumbVec2 bar,
                       double angle_rad[PLUMB_ANGLE_COUNT]);

/* Sagittal net moments and arms of the bar, both sides, extensors positive. */
void plumb_pose_moments(const PlumbRig *rig, PlumbPose q, const PlumbLeg *leg, PlumbVec2 bar,
                        double moment_n_m[PLUMB_JOINT_COUNT], double arm_m[PLUMB_JOINT_COUNT]);

/* Per side, in space; see loads3d.c for the free bodies. com_x: of body and bar. */
void plumb_pose_loads_3d(const PlumbRig *rig, const PlumbLeg *leg, double com_x,
                         double feet_push_frac, PlumbLoads3d *loads);

/* Capacities at these angles and the efforts against them. extrapolated gets its bits. */
typedef struct PlumbEffort {
    double capacity_n_m[PLUMB_JOINT_COUNT];
    double relative[PLUMB_JOINT_COUNT];
    double summed;
    unsigned extrapolated;
} PlumbEffort;

/* What does not change between poses of one lifter: capacity curves of sex and age, scaled. */
typedef struct PlumbCurve {
    double scale_n_m; /* m g H C1 */
    double c2;
    double c3;
} PlumbCurve;

typedef struct PlumbCapacity {
    /* [direction 0: positive moment, 1: antagonist][older: 0, 1]; blend of two ages */
    PlumbCurve curve[3][2][2]; /* ankle, knee, hip */
    double blend;              /* share of the older row */
    double back_n_m[2];
    double shoulder_peak_n_m[2];
    double shoulder_centre[2];
    double shoulder_width[2];
    double multiplier[PLUMB_JOINT_COUNT];
    bool counts_shoulder;
} PlumbCapacity;

void plumb_capacity_build(const PlumbLifter *lifter, PlumbLift lift, PlumbCapacity *capacity);

/* dorsiflexion, knee flexion, hip (thorax to thigh), shoulder flexion: rad. */
void plumb_pose_effort(const PlumbCapacity *capacity, const double moment_n_m[PLUMB_JOINT_COUNT],
                       double dorsiflexion, double knee_flexion, double hip_thorax_thigh,
                       double shoulder_flexion, PlumbEffort *effort);

#endif
