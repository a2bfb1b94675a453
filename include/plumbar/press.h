/* SPDX-License-Identifier: MIT */
/* The bench press: the arm between a shoulder that stays on the bench and a bar that travels from
 * the touch on the chest to straight arms. Frame: x along the bench toward the feet, y up, z to the
 * lifter's right; origin on the floor below the line through both shoulder joints. */
#ifndef PLUMBAR_PRESS_H
#define PLUMBAR_PRESS_H

#include <plumbar/solve.h>

/* Points of the right arm; the bar's lies in the middle plane. */
#define PLUMB_PRESS_POINT_LIST(X)                                                                  \
    X(shoulder)                                                                                    \
    X(elbow)                                                                                       \
    X(wrist)                                                                                       \
    X(grip)                                                                                        \
    X(bar)

typedef enum PlumbPressPoint {
#define X(name) PLUMB_PRESS_##name,
    PLUMB_PRESS_POINT_LIST(X)
#undef X
        PLUMB_PRESS_POINT_COUNT
} PlumbPressPoint;

const char *plumb_press_point_name(PlumbPressPoint point);

/* Net moments and capacities of one arm, in the order of every array of three. */
#define PLUMB_PRESS_JOINT_LIST(X)                                                                  \
    X(shoulder_adduction, "shoulder, horizontal adduction")                                        \
    X(shoulder_flexion, "shoulder, flexion")                                                       \
    X(elbow_extension, "elbow, extension")

typedef enum PlumbPressJoint {
#define X(name, text) PLUMB_PRESS_JOINT_##name,
    PLUMB_PRESS_JOINT_LIST(X)
#undef X
        PLUMB_PRESS_JOINT_COUNT
} PlumbPressJoint;

const char *plumb_press_joint_name(PlumbPressJoint joint);
const char *plumb_press_joint_text(PlumbPressJoint joint);

/* Angles of one instant, rad. Field names are the JSON keys within `angles_rad`. */
#define PLUMB_PRESS_ANGLE_LIST(X)                                                                  \
    X(abduction, "upper arm from the trunk", "0 along it toward the feet, 90° square to it")       \
    X(elbow_flexion, "elbow flexion", "0 is straight")                                             \
    X(forearm_front, "forearm from the head end", "from upright, hand outwards positive")          \
    X(forearm_side, "forearm from the side", "from upright, hand toward the feet positive")        \
    X(horizontal, "upper arm from above", "straight outwards is 0, toward the head positive")      \
    X(shoulder_flexion, "upper arm from the side", "from the trunk's line, upwards positive")      \
    X(shoulder_external_rotation, "shoulder external rotation", "upper arm against the thorax")    \
    X(swivel, "swivel of the elbow", "about the line from shoulder to grip, 0 is outwards")

typedef enum PlumbPressAngle {
#define X(name, text, reference) PLUMB_PRESS_ANG_##name,
    PLUMB_PRESS_ANGLE_LIST(X)
#undef X
        PLUMB_PRESS_ANGLE_COUNT
} PlumbPressAngle;

const char *plumb_press_angle_name(PlumbPressAngle angle);
const char *plumb_press_angle_text(PlumbPressAngle angle);
const char *plumb_press_angle_reference(PlumbPressAngle angle);

/* Arms of the bar, m. */
#define PLUMB_PRESS_ARM_LIST(X)                                                                    \
    X(shoulder_sagittal, "about the shoulder, from the side", "bar toward the feet positive")      \
    X(shoulder_frontal, "about the shoulder, from the head end", "hand outside positive")          \
    X(elbow, "about the elbow", "where the bar bends it positive")

typedef enum PlumbPressArm {
#define X(name, text, reference) PLUMB_PRESS_ARM_##name,
    PLUMB_PRESS_ARM_LIST(X)
#undef X
        PLUMB_PRESS_ARM_COUNT
} PlumbPressArm;

const char *plumb_press_arm_name(PlumbPressArm arm);
const char *plumb_press_arm_text(PlumbPressArm arm);
const char *plumb_press_arm_reference(PlumbPressArm arm);

/* One instant of the press. Moments of one arm, positive where the pressing muscles must work. */
typedef struct PlumbPressPosition {
    double rise_frac; /* share of the bar's rise: 0 touch, 1 lockout */
    PlumbVec3 point[PLUMB_PRESS_POINT_COUNT];
    double angle_rad[PLUMB_PRESS_ANGLE_COUNT];
    double elbow_off_bar_m;    /* side view: elbow from under the bar, toward the feet positive */
    double elbow_off_hand_m;   /* head-end view: elbow outside the hand positive */
    double elbow_below_rule_m; /* top of the shoulder above the underside of the elbow */
    double bar_arm_m[PLUMB_PRESS_ARM_COUNT];
    double moment_n_m[PLUMB_PRESS_JOINT_COUNT];
    double capacity_n_m[PLUMB_PRESS_JOINT_COUNT];
    double relative_effort[PLUMB_PRESS_JOINT_COUNT];
    double summed_effort;
} PlumbPressPosition;

/* The whole answer to a set-up of the press. */
typedef struct PlumbPressAnswer {
    PlumbSetup setup; /* as used: an auto lead resolved into touch_m */
    /* PLUMB_NO_POSE: the arm cannot span the touch or the lockout; PLUMB_OUTSIDE_WINDOW: a limit of
     * shoulder or elbow is passed, or the elbows cannot be where they are asked for. */
    PlumbOutcome outcome;
    bool at_lockout;            /* PLUMB_NO_POSE: it is the lockout that fails */
    double miss_m;              /* PLUMB_NO_POSE: by how much the arm is too short, or long */
    PlumbPressPosition touch;   /* PLUMB_NO_POSE: the arm stretched or folded toward it */
    PlumbPressPosition lockout; /* figures only where the press is held */
    double travel_m;            /* vertical; NaN without a pose, as the next three */
    double path_m;              /* along the bar's path */
    double work_bar_j;          /* m g travel */
    double abduction_step_rad;  /* largest change of abduction within one centimetre of rise */
    double abduction_step_frac; /* share of the rise at which that centimetre begins */
    double elbows_upright_rad;  /* abduction that keeps the forearm upright from the head end at the
                                   touch; NaN where none does */
    PlumbInterval window;       /* of the touch, m: limits kept, elbows where they are asked for */
    PlumbInterval low_effort;
    bool grip_rule_met;  /* forefingers not further apart than the rules allow */
    bool elbow_rule_met; /* at the touch: undersides of the elbows not above the shoulders' tops */
    int finding_count;
    PlumbFinding finding[PLUMB_FINDING_MAX];
} PlumbPressAnswer;

/* Solves a set-up of PLUMB_BENCH that passed plumb_setup_check. Total: a touch or lockout out of
 * reach is an answer. Allocates nothing; deterministic. */
void plumb_press_solve(const PlumbLifter *lifter, const PlumbSetup *setup,
                       PlumbPressAnswer *answer);
/* Without window, low-effort range and findings (window.exists is false); an auto lead is solved
 * all the same. */
void plumb_press_quick(const PlumbLifter *lifter, const PlumbSetup *setup,
                       PlumbPressAnswer *answer);

/* The instant at a share of the bar's rise, 0 to 1, of an answer that is held. */
void plumb_press_at(const PlumbLifter *lifter, const PlumbPressAnswer *answer, double rise_frac,
                    PlumbPressPosition *position);

/* One instant of the arm wherever shoulder and bar are, as on a picture: the elbow turned by
 * swing_rad about the line from shoulder to grip, from where it stands under the bar or as near to
 * that as the arm allows. rise_frac becomes NaN. Returns by how much the arm is too short, or too
 * long; it is then stretched or folded toward the bar. */
double plumb_press_place(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbVec2 shoulder_m,
                         PlumbVec2 bar_m, double swing_rad, PlumbPressPosition *position);

/* The grip, whole cm, in which the forearms stand upright from the side and from the head end at
 * the touch of upper arms press_abduction from the trunk on the default arch, not wider than the
 * rules allow: what a build wants before anything else is asked for. */
double plumb_press_grip_of_build_m(const PlumbLifter *lifter);
/* Gives a bench press without a grip of its own that of the build; other set-ups stay as they are.
 */
void plumb_press_default_grip(const PlumbLifter *lifter, PlumbSetup *setup);

/* Greatest distance between the forefingers that the rules allow, m. */
double plumb_press_grip_most_m(void);
/* Distance between the shoulder joint centres as a grip: what a grip is a share of. */
double plumb_press_shoulder_breadth_m(const PlumbLifter *lifter);

#endif
