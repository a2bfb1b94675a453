/* SPDX-License-Identifier: MIT */
/* A lifter in a set-up as a mechanism: every constant that a pose does not change, so that the
 * solver's inner loop is a handful of products. */
#ifndef PLUMB_MODEL_RIG_H
#define PLUMB_MODEL_RIG_H

#include <plumbar/pose.h>

#include "base/vec.h"

/* Lengths m, masses kg (both sides), first moments kg m. */
typedef struct PlumbRig {
    PlumbLift lift;
    PlumbSeat seat;
    /* foot and leg, right side */
    PlumbVec3 foot_axis; /* unit, heel to toe, level */
    PlumbVec3 heel;
    PlumbVec3 toe;
    PlumbVec3 ankle;
    double shoe_pitch_rad;
    PlumbVec3 pole; /* unit, level: the side to which the knee bends */
    double hip_z;
    double shank;
    double thigh;
    double shin_half_thickness;
    double thigh_half_thickness;
    double hip_crease;
    double knee_top;
    /* trunk */
    double pelvis;
    double thorax;
    double spine_rad;
    double spine_cos;
    double spine_sin;
    double shoulder_z;
    double shoulder_u;      /* mid-shoulder from mid-hip, along the thorax */
    double shoulder_v;      /* and behind it */
    double back_offset_rad; /* back angle above the thorax's own */
    /* arm and bar */
    double drop;
    double upper_arm;
    double forearm;
    double hand;
    double arm; /* deadlift: shoulder joint to grip centre */
    double grip_z;
    double bar_radius;
    double bar_u; /* squat: bar from mid-hip, along the thorax and behind it */
    double bar_v;
    PlumbVec3 elbow_uvz; /* squat: from mid-shoulder, in the thorax's frame (u, v, z) */
    PlumbVec3 wrist_uvz;
    bool arm_reaches;
    /* masses */
    double bar_mass;
    double body_mass;
    double total_mass;
    double segment_mass[PLUMB_SEGMENT_COUNT]; /* both sides */
    double com_frac[PLUMB_SEGMENT_COUNT];
    double trunk_length; /* pelvis + thorax, the head's unit */
    /* first moments: COM * total = fixed + knee k + hip h + (u, v) turned + bar b */
    PlumbVec2 moment_fixed;
    double moment_knee;
    double moment_hip;
    double moment_bar;
    double moment_u;
    double moment_v;
} PlumbRig;

/* Builds the rig; spine and knees_out are arguments because positions differ in them. */
void plumb_rig_build(const PlumbLifter *lifter, const PlumbSetup *setup, double spine_rad,
                     double knees_out_rad, PlumbRig *rig);

/* Changes the spine's bend alone. */
void plumb_rig_spine(PlumbRig *rig, double spine_rad);

/* Turns the leg's plane alone; knees_out is measured from the foot's direction. */
void plumb_rig_knees_out(PlumbRig *rig, double knees_out_rad);

/* Height of the bar's centre at the start of a pull, m. */
double plumb_bar_start_height_m(const PlumbLifter *lifter, const PlumbSetup *setup);

/* Point at (u along the thorax, v behind it) from mid-hip, in the sagittal plane. */
static inline PlumbVec2 rig_trunk_point(PlumbPose q, double u, double v)
{
    const double s = sin(q.thorax_lean_rad);
    const double c = cos(q.thorax_lean_rad);
    const PlumbVec2 p = {q.hip_x_m + u * s - v * c, q.hip_height_m + u * c + v * s};
    return p;
}

#endif
