/* SPDX-License-Identifier: MIT */
/* The two-link limb in space: where the joint between two links lies, and how it moves. */
#ifndef PLUMB_MODEL_LIMB_H
#define PLUMB_MODEL_LIMB_H

#include "model/rig.h"

/* Whether links of these lengths span the way from p to q. */
static inline bool limb_reaches(PlumbVec3 p, PlumbVec3 q, double first, double second)
{
    const double d = vec3_length(vec3_sub(q, p));
    return d <= first + second && d >= fabs(first - second);
}

/* Joint of a limb from p (link first) to q (link second), bent towards pole:
 *   n = (q - p)/d,  a = (first² - second² + d²)/(2d),  r = sqrt(max(0, first² - a²)),
 *   e = unit(pole - n (n·pole)),  joint = p + a n + r e. */
static inline PlumbVec3 limb_joint(PlumbVec3 p, PlumbVec3 q, double first, double second,
                                   PlumbVec3 pole)
{
    const PlumbVec3 along = vec3_sub(q, p);
    const double d = vec3_length(along);
    const PlumbVec3 n = vec3_scale(along, 1.0 / d);
    const double a = (first * first - second * second + d * d) / (2.0 * d);
    const double r = sqrt(fmax(0.0, first * first - a * a));
    const PlumbVec3 e = vec3_unit(vec3_along(pole, -vec3_dot(n, pole), n));
    return vec3_along(vec3_along(p, a, n), r, e);
}

/* The leg of a pose with its derivatives: the hip moves in x and y only. */
typedef struct PlumbLeg {
    PlumbVec3 hip;
    PlumbVec3 knee;
    PlumbVec3 bend_side; /* e: unit, square to the line ankle-hip, to the knee's side */
    double distance;     /* ankle to hip */
    double distance_dx;  /* by hip x and y */
    double distance_dy;
    PlumbVec3 knee_dx; /* d knee / d hip x */
    PlumbVec3 knee_dy;
    PlumbVec3 knee_dpsi; /* by a turn of the leg's plane */
    bool reaches;        /* false: the links cannot span it, the joint is put on the line */
} PlumbLeg;

/* knee_bend_rad < 0: the knee follows from the hip's place. Otherwise it is placed from the bend
 * kappa, regular at 0:  D = sqrt(l1² + l2² + 2 l1 l2 cos kappa),
 *   K = A + (l1² - l2² + D²)/(2D) n + (l1 l2 sin kappa / D) e. */
void plumb_leg_place(const PlumbRig *rig, double hip_x, double hip_y, double knee_bend_rad,
                     PlumbLeg *leg);

/* Distance of ankle and hip at a knee bend, m. */
double plumb_leg_span(const PlumbRig *rig, double knee_bend_rad);

#endif
