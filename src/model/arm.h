/* SPDX-License-Identifier: MIT */
/* One arm in space between a shoulder and a grip that are both given: where the elbow may lie, the
 * angles of the arm against the thorax, what its joints carry and what they can supply. */
#ifndef PLUMB_MODEL_ARM_H
#define PLUMB_MODEL_ARM_H

#include <plumbar/lifter.h>
#include <plumbar/setup.h>

#include "base/vec.h"

/* The elbow's circle about the line shoulder to grip: E = S + a n + r (cos σ e1 + sin σ e2), with
 * n from shoulder to grip, e1 square to n and as near to outwards (z) as that allows, e2 square to
 * both on the side of the feet (x of a lying lifter). */
typedef struct PlumbArm {
    PlumbVec3 shoulder;
    PlumbVec3 grip;
    double upper; /* shoulder to elbow, m */
    double lower; /* elbow to grip */
    PlumbVec3 n;
    PlumbVec3 e1;
    PlumbVec3 e2;
    double distance; /* shoulder to grip */
    double along;    /* a */
    double radius;   /* r; 0 where the links cannot span the way */
    double miss_m;   /* by how much the links are too short (or, folded, too long); 0: they span */
} PlumbArm;

PlumbArm plumb_arm(PlumbVec3 shoulder, PlumbVec3 grip, double upper, double lower);

/* The swivel at which the elbow's x lies x_m ahead of the shoulder's; of two such the one further
 * outwards, which is the lower one as long as the hand is outside of and above the shoulder. *off_m
 * becomes how far the nearest place of the elbow stays from x_m, 0 where it is met. */
double plumb_arm_swivel(const PlumbArm *arm, double x_m, double *off_m);

/* Unit, square to n, from the line shoulder to grip to the elbow. */
PlumbVec3 plumb_arm_side(const PlumbArm *arm, double swivel_rad);
/* Those below take the side as it is told once for all of them. */
PlumbVec3 plumb_arm_elbow(const PlumbArm *arm, PlumbVec3 side);

/* The swivel toward the feet at which elbow and grip have the same z, NaN where none is. */
double plumb_arm_swivel_upright(const PlumbArm *arm);

/* External rotation of the right upper arm against the thorax. Zero is where the forearm points to
 * the front while the upper arm hangs down the trunk; from there the arm is swung, without turning
 * about itself, the shortest way to its direction `upper`, and what the forearm is turned beyond
 * that about the upper arm, thumb side outwards, is counted. down: from the shoulder along the
 * trunk toward the feet; front: square to it. All unit vectors; a straight arm has 0. */
double plumb_arm_external_rotation(PlumbVec3 upper, PlumbVec3 forearm, PlumbVec3 down,
                                   PlumbVec3 front);

/* What the joints of the arm carry in a press, in this order everywhere. */
enum { PLUMB_ARM_ADDUCTION, PLUMB_ARM_FLEXION, PLUMB_ARM_ELBOW, PLUMB_ARM_JOINTS };

/* Masses of one arm with the force of the bar on its hand. */
typedef struct PlumbArmLoad {
    double mass_kg[3]; /* upper arm, forearm, hand */
    double com_frac[3];
    PlumbVec3 force_n; /* of the bar on the hand */
    double wrist_frac; /* wrist along elbow to grip */
} PlumbArmLoad;

PlumbArmLoad plumb_arm_load(const PlumbLifter *lifter, double load_kg, double hands_push_frac);

/* Moments that the arm's muscles must supply, positive where pressing works: see arm_loads.c. */
void plumb_arm_moments(const PlumbArm *arm, PlumbVec3 side, const PlumbArmLoad *load,
                       double moment_n_m[PLUMB_ARM_JOINTS]);

/* Moment arm about the elbow of a force straight down at the grip, in the plane of the arm;
 * positive where it bends the elbow. */
double plumb_arm_elbow_arm_m(const PlumbArm *arm, PlumbVec3 side);

/* Angles at which strength is looked up: horizontal (upper arm from outwards, z, toward the head,
 * -x, seen from above), flexion (upper arm in the side view from the trunk's x, toward the front),
 * elbow flexion. */
void plumb_arm_strength_angles(const PlumbArm *arm, PlumbVec3 side,
                               double angle_rad[PLUMB_ARM_JOINTS]);

/* What one arm can supply in one direction: peak exp(-((angle - centre) / width)² / 2). */
typedef struct PlumbArmCurve {
    double peak_n_m;
    double centre_rad;
    double width_rad;
} PlumbArmCurve;

/* The curve of a joint that works with a moment of this sign. */
PlumbArmCurve plumb_arm_curve(const PlumbLifter *lifter, int joint, double moment_n_m);

/* What one arm can supply at these angles in the direction of each moment, N m: rows of
 * capacities_upper.csv, one person's, scaled by m g H. The record's shoulder multiplier stands for
 * the whole arm. */
void plumb_arm_capacity(const PlumbLifter *lifter, const double angle_rad[PLUMB_ARM_JOINTS],
                        const double moment_n_m[PLUMB_ARM_JOINTS],
                        double capacity_n_m[PLUMB_ARM_JOINTS]);

/* Greatest grip that the rules of the bench press allow, m. */
double plumb_bench_grip_most_m(void);

#endif
