/* SPDX-License-Identifier: MIT */
/* A pose and all that it tells: joints, angles, centre of mass, balance, moments, efforts. */
#ifndef PLUMBAR_POSE_H
#define PLUMBAR_POSE_H

#include <plumbar/setup.h>
#include <plumbar/vec.h>

/* A pose is three numbers: the hip's place and the thorax's lean from vertical, forward positive.
 */
typedef struct PlumbPose {
    double hip_x_m;
    double hip_height_m;
    double thorax_lean_rad;
} PlumbPose;

/* Points of the figure, the right side; lumbar and bar lie in the middle plane, shoulder is the
 * right shoulder joint before it drops. */
#define PLUMB_POINT_LIST(X)                                                                        \
    X(heel)                                                                                        \
    X(toe)                                                                                         \
    X(ankle)                                                                                       \
    X(knee)                                                                                        \
    X(hip)                                                                                         \
    X(lumbar)                                                                                      \
    X(shoulder)                                                                                    \
    X(elbow)                                                                                       \
    X(wrist)                                                                                       \
    X(grip)                                                                                        \
    X(bar)

typedef enum PlumbPoint {
#define X(name) PLUMB_PT_##name,
    PLUMB_POINT_LIST(X)
#undef X
        PLUMB_POINT_COUNT
} PlumbPoint;

const char *plumb_point_name(PlumbPoint point);

/* Angles, rad. Field names are the JSON keys within `angles_rad`. */
#define PLUMB_ANGLE_LIST(X)                                                                        \
    X(back, "back angle", "mid-hip to mid-shoulder, above level")                                  \
    X(thorax, "thorax", "above level")                                                             \
    X(shin, "shin", "from upright, side view")                                                     \
    X(thigh, "thigh", "hip above the knee: above level")                                           \
    X(knee_flexion, "knee flexion", "0 is straight")                                               \
    X(ankle_dorsiflexion, "ankle dorsiflexion", "shank over the foot, less the shoe's pitch")      \
    X(frontal_shin, "shin from the front", "from upright, knee outwards positive")                 \
    X(hip_flexion, "hip flexion", "thigh against the pelvis, ISB")                                 \
    X(hip_abduction, "hip abduction", "thigh against the pelvis, ISB")                             \
    X(hip_external_rotation, "hip external rotation", "thigh against the pelvis, ISB")             \
    X(hip_thorax_thigh, "hip, thorax to thigh", "in space, 0 is straight")                         \
    X(shoulder_flexion, "shoulder flexion", "arm against the thorax pointing down, side view")

typedef enum PlumbAngle {
#define X(name, text, reference) PLUMB_ANG_##name,
    PLUMB_ANGLE_LIST(X)
#undef X
        PLUMB_ANGLE_COUNT
} PlumbAngle;

const char *plumb_angle_name(PlumbAngle angle);
const char *plumb_angle_text(PlumbAngle angle);
const char *plumb_angle_reference(PlumbAngle angle); /* from where it is measured */

/* Per side, extension and outward positive; see DEVELOPERS.md for the free bodies. */
typedef struct PlumbLoads3d {
    double knee_extension_n_m;   /* about the knee's flexion axis */
    double knee_minus_m_z_n_m;   /* twice this is the sagittal knee moment */
    double knee_frontal_n_m;     /* M·(ν × unit(K-A)) */
    double ankle_along_foot_n_m; /* about the ankle, in the plane of the foot's axis */
    double hip_frontal_n_m;      /* x component about the hip */
} PlumbLoads3d;

/* What a pose holds; all that a person or a file is told about one position. */
typedef struct PlumbPosition {
    PlumbPose pose;
    double spine_rad;
    double knees_out_rad; /* as used, also where solved */
    PlumbVec3 point[PLUMB_POINT_COUNT];
    PlumbVec3 head_top; /* for the drawing: stature's end of the head-and-neck line */
    PlumbVec3 com;      /* of body and bar */
    double balance_frac;
    double clearance_m; /* leg to bar; NaN in a squat */
    double angle_rad[PLUMB_ANGLE_COUNT];
    double knee_to_toe_line_m; /* knee outside (+) or inside (-) the line through the toes */
    double bar_arm_m[PLUMB_JOINT_COUNT];
    double moment_both_n_m[PLUMB_JOINT_COUNT];
    PlumbLoads3d loads_3d;
    double capacity_n_m[PLUMB_JOINT_COUNT];    /* per side; back whole; 0 for a squat's shoulder */
    double relative_effort[PLUMB_JOINT_COUNT]; /* squat: shoulder 0, not counted */
    double summed_effort;
    unsigned extrapolated; /* bit 1 << PlumbJoint: capacity held at the tested edge */
    bool arm_reaches;      /* squat: the hand reaches the bar */
} PlumbPosition;

/* Describes a pose of the lifter in a set-up, wherever q came from (solved, or read from a
 * picture). bar_x_m, bar_height_m: the bar of a deadlift; ignored for a squat, whose bar lies on
 * the thorax. knee_bend_rad >= 0 places the knee from a prescribed bend, negative from q. Total
 * function: a leg that cannot reach is drawn straight. */
void plumb_position_describe(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbPose pose,
                             double spine_rad, double knees_out_rad, double bar_x_m,
                             double bar_height_m, double knee_bend_rad, PlumbPosition *position);

/* Hip crease above the top of the knee, m: what can be seen of the hip's height. */
double plumb_crease_above_knee_m(const PlumbBody *body, const PlumbPosition *position);

/* Mass of the lifter and bar, kg. */
double plumb_total_mass_kg(const PlumbLifter *lifter, const PlumbSetup *setup);

#endif
