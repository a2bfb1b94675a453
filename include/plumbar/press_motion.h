/* SPDX-License-Identifier: MIT */
/* A bench press in time: a time law along its path, exact velocities and accelerations, net moments
 * of the arm by Newton and Euler, and the work that they do. */
#ifndef PLUMBAR_PRESS_MOTION_H
#define PLUMBAR_PRESS_MOTION_H

#include <plumbar/dynamics.h>
#include <plumbar/press.h>

/* The masses of one arm and what lies on its hand: name, words. */
#define PLUMB_PRESS_MASS_LIST(X)                                                                   \
    X(bar, "bar, half of it")                                                                      \
    X(upper_arm, "upper arm")                                                                      \
    X(forearm, "forearm")                                                                          \
    X(hand, "hand")

typedef enum PlumbPressMass {
#define X(name, text) PLUMB_PRESS_MASS_##name,
    PLUMB_PRESS_MASS_LIST(X)
#undef X
        PLUMB_PRESS_MASS_COUNT
} PlumbPressMass;

const char *plumb_press_mass_text(PlumbPressMass mass);

/* One mass in motion. spin_rate_n_m: rate of its angular momentum about its own centre. push_n:
 * what the bar does to the hand besides (a push inwards). */
typedef struct PlumbPressMassPoint {
    double mass_kg;
    PlumbVec3 at_m;
    PlumbVec3 velocity_m_s;
    PlumbVec3 acceleration_m_s2;
    PlumbVec3 spin_rate_n_m;
    PlumbVec3 push_n;
} PlumbPressMassPoint;

/* One instant of the way up, from the touch to the lockout. */
typedef struct PlumbPressMotionPoint {
    double t_s;
    PlumbPressPosition position; /* the static answer at the same pose */
    PlumbVec3 elbow_axis;        /* unit; a right-handed turn about it bends the elbow */
    PlumbPressMassPoint mass[PLUMB_PRESS_MASS_COUNT];
    double bar_speed_m_s; /* vertical */
    double bar_acceleration_m_s2;
    double moment_n_m[PLUMB_PRESS_JOINT_COUNT]; /* of one arm, signs as in PlumbPressPosition */
    double power_w;  /* rate at which both arms do work on themselves and the bar */
    double energy_j; /* kinetic and potential of both arms and the bar, zero at the touch */
} PlumbPressMotionPoint;

typedef struct PlumbPressMotionFacts {
    double rep_time_s;
    double mean_bar_speed_m_s;
    double peak_bar_speed_m_s;
    double peak_power_w;
    double peak_moment_n_m[PLUMB_PRESS_JOINT_COUNT];        /* by size, with sign */
    double peak_static_moment_n_m[PLUMB_PRESS_JOINT_COUNT]; /* of the same poses at rest */
    double peak_t_s[PLUMB_PRESS_JOINT_COUNT];
} PlumbPressMotionFacts;

/* Axis about which each net moment is counted; the elbow's as elbow_axis has it. */
PlumbVec3 plumb_press_axis(PlumbVec3 elbow_axis, PlumbPressJoint joint);
/* The elbow's flexion axis of an instant at rest. */
PlumbVec3 plumb_press_elbow_axis(const PlumbPressPosition *position);
/* The joint that a moment is taken about. */
PlumbVec3 plumb_press_joint_at(const PlumbPressPosition *position, PlumbPressJoint joint);
/* Whether a joint carries a mass: the elbow not the upper arm. */
bool plumb_press_carries(PlumbPressJoint joint, PlumbPressMass mass);

/* Masses of an instant at rest. */
void plumb_press_masses(const PlumbLifter *lifter, const PlumbSetup *setup,
                        const PlumbPressPosition *position,
                        PlumbPressMassPoint mass[PLUMB_PRESS_MASS_COUNT]);

/* Fills point[count], equally spaced in time over rep_time_s, for an answer that is held. The share
 * of the rise is k = 1 - (1 - u)², u by minimum jerk: the elbow straightens evenly with u, while
 * under a law of minimum jerk of the rise itself it would have to stop within no time at straight
 * arms. Fails, nothing written: PLUMB_UNSUPPORTED where the body has no radii of gyration or the
 * elbow cannot stay under the bar all the way, so that its path has a jump; PLUMB_BAD_INPUT without
 * a pose or where count or time is outside its range. */
PlumbStatus plumb_press_motion_solve(const PlumbLifter *lifter, const PlumbPressAnswer *answer,
                                     double rep_time_s, int count, PlumbPressMotionPoint *point,
                                     PlumbPressMotionFacts *facts, PlumbError *error);

/* The instant at t_s, 0 to rep_time_s, of the same motion. Fails as plumb_press_motion_solve does.
 */
PlumbStatus plumb_press_motion_at(const PlumbLifter *lifter, const PlumbPressAnswer *answer,
                                  double rep_time_s, double t_s, PlumbPressMotionPoint *point,
                                  PlumbError *error);

#endif
