/* SPDX-License-Identifier: MIT */
/* Exact derivatives of a step of a path by its parameter u. */
#ifndef PLUMB_SOLVE_MOTION_H
#define PLUMB_SOLVE_MOTION_H

#include "model/jet.h"
#include "solve/way.h"

/* The figure of a step with its derivatives by u; the right side. */
typedef struct PlumbMotion {
    Jet unknown[PLUMB_UNKNOWN_COUNT];
    Jet3 hip;
    Jet3 knee;
    Jet3 mid_hip;
    Jet3 lumbar;
    Jet3 shoulder; /* mid-shoulder */
    Jet3 shoulder_joint;
    Jet3 elbow;
    Jet3 wrist;
    Jet3 grip;
    Jet3 bar;
    Jet lean; /* thorax */
    Jet pelvis_lean;
    Jet spine;
} PlumbMotion;

/* Derivatives of the met step: the unknowns follow from the implicit function theorem, order by
 * order: J v' = -F_u, then J v'' = -(what F's second derivative is with v'' = 0). u < 1 for a pull.
 * False where the constraints' Jacobian is singular. */
bool plumb_way_motion(const PlumbWay *way, const PlumbStep *step, PlumbMotion *motion);

/* The same figure at rest: all derivatives zero; also at the very end of a path. */
void plumb_way_still(const PlumbWay *way, const PlumbStep *step, PlumbMotion *motion);

#endif
