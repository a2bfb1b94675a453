/* SPDX-License-Identifier: MIT */
/* A lift in time: a time law along its path, exact velocities and accelerations, net joint moments
 * by Newton and Euler, and the work that they do. */
#ifndef PLUMBAR_DYNAMICS_H
#define PLUMBAR_DYNAMICS_H

#include <plumbar/solve.h>

/* The masses of the mechanism from the floor up, both sides of a limb counted together: name, words
 * and how many of it there are. A joint carries all from its own first mass on. */
#define PLUMB_MASS_LIST(X)                                                                         \
    X(foot, "feet", 2)                                                                             \
    X(shank, "shanks", 2)                                                                          \
    X(thigh, "thighs", 2)                                                                          \
    X(pelvis, "pelvis", 1)                                                                         \
    X(thorax, "thorax and abdomen", 1)                                                             \
    X(head, "head and neck", 1)                                                                    \
    X(upper_arm, "upper arms", 2)                                                                  \
    X(forearm, "forearms", 2)                                                                      \
    X(hand, "hands", 2)                                                                            \
    X(bar, "bar", 1)

typedef enum PlumbMass {
#define X(name, text, count) PLUMB_MASS_##name,
    PLUMB_MASS_LIST(X)
#undef X
        PLUMB_MASS_COUNT
} PlumbMass;

const char *plumb_mass_name(PlumbMass mass);
const char *plumb_mass_text(PlumbMass mass);
int plumb_mass_count(PlumbMass mass); /* 2 for limbs */

/* The lowest of the masses that a joint carries. */
PlumbMass plumb_joint_first_mass(PlumbJoint joint);

/* One mass in motion, the right side's place. spin_rate_n_m: rate of its angular momentum about z
 * through its own centre, both sides. At rest all but mass and place are zero. */
typedef struct PlumbMassPoint {
    double mass_kg;
    PlumbVec3 at_m;
    PlumbVec3 velocity_m_s;
    PlumbVec3 acceleration_m_s2;
    double spin_rate_n_m;
} PlumbMassPoint;

/* Masses of a position at rest, from its points and the body's table. */
void plumb_position_masses(const PlumbLifter *lifter, const PlumbSetup *setup,
                           const PlumbPosition *position, PlumbMassPoint mass[PLUMB_MASS_COUNT]);

/* Net moment that a joint supplies to hold and move what it carries, N m, both sides, signed as in
 * PlumbPosition. joint_m: its place. */
double plumb_masses_moment(const PlumbMassPoint mass[PLUMB_MASS_COUNT], PlumbJoint joint,
                           PlumbVec3 joint_m);

/* Place of a joint in a position: the middle of both sides, where the sagittal moments are taken.
 */
PlumbVec3 plumb_position_joint(const PlumbPosition *position, PlumbJoint joint);

/* One instant of the way up (deadlift: floor to lockout; squat: hole to standing). */
typedef struct PlumbMotionPoint {
    double t_s;
    double u; /* path parameter at t, as in PlumbPathPoint */
    bool held;
    PlumbPosition position; /* the static answer at the same pose */
    PlumbMassPoint mass[PLUMB_MASS_COUNT];
    double bar_speed_m_s; /* vertical, upwards positive */
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
    double peak_power_w;
    double pressure_low_frac; /* range of the centre of pressure */
    double pressure_high_frac;
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
 * range. A pull's path has a corner where the part of the leg nearest to the bar changes, and its
 * acceleration steps where the bar passes the knee: derivatives there are those of the side that
 * the instant lies on. */
PlumbStatus plumb_motion_solve(const PlumbLifter *lifter, const PlumbAnswer *answer,
                               double rep_time_s, int count, PlumbMotionPoint *point,
                               PlumbMotionFacts *facts, PlumbError *error);

/* The instant at t_s, 0 to rep_time_s, of the same motion. Fails as plumb_motion_solve does. */
PlumbStatus plumb_motion_at(const PlumbLifter *lifter, const PlumbAnswer *answer, double rep_time_s,
                            double t_s, PlumbMotionPoint *point, PlumbError *error);

#endif
