/* SPDX-License-Identifier: MIT */
/* A lift in time: a time law along its path, exact velocities and accelerations, net joint moments
 * by Newton and Euler, and the work that they do. */
#ifndef PLUMBAR_DYNAMICS_H
#define PLUMBAR_DYNAMICS_H

#include <plumbar/solve.h>

/* One instant of the way up (deadlift: floor to lockout; squat: hole to standing). */
typedef struct PlumbMotionPoint {
    double t_s;
    double u; /* path parameter at t, as in PlumbPathPoint */
    bool held;
    PlumbPosition position; /* the static answer at the same pose */
    double bar_speed_m_s;   /* vertical, upwards positive */
    double bar_acceleration_m_s2;
    double moment_both_n_m[PLUMB_JOINT_COUNT]; /* net joint moments, signs as in PlumbPosition */
    double ground_force_n;                     /* vertical, both feet */
    double pressure_frac;                      /* centre of pressure along the foot */
    double power_w;  /* rate at which the joints do work on body and bar */
    double energy_j; /* kinetic and potential, zero at the start of the way up */
} PlumbMotionPoint;

typedef struct PlumbMotionFacts {
    bool held;
    double rep_time_s;
    double mean_bar_speed_m_s;
    double peak_bar_speed_m_s;
    double peak_moment_n_m[PLUMB_JOINT_COUNT];        /* by size, with sign */
    double peak_static_moment_n_m[PLUMB_JOINT_COUNT]; /* of the same poses at rest */
    double peak_t_s[PLUMB_JOINT_COUNT];
} PlumbMotionFacts;

/* Minimum-jerk time law: the share of the way done at the share s of the time, and its first two
 * derivatives by s: 10 s³ - 15 s⁴ + 6 s⁵ (Flash & Hogan 1985, J Neurosci 5(7):1688-1703). */
void plumb_minimum_jerk(double s, double *share, double *rate, double *acceleration);

/* Fills point[count], equally spaced in time over rep_time_s (0.2 s or more), for a solved answer
 * whose start and end hold. Fails, nothing written: PLUMB_UNSUPPORTED where the body's mass table
 * has no radii of gyration, PLUMB_BAD_INPUT where there is no path or count or time is outside its
 * range. */
PlumbStatus plumb_motion_solve(const PlumbLifter *lifter, const PlumbAnswer *answer,
                               double rep_time_s, int count, PlumbMotionPoint *point,
                               PlumbMotionFacts *facts, PlumbError *error);

#endif
