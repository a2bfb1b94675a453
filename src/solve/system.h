/* SPDX-License-Identifier: MIT */
/* Constraints with analytic derivatives, and the damped Newton method that meets them. */
#ifndef PLUMB_SOLVE_SYSTEM_H
#define PLUMB_SOLVE_SYSTEM_H

#include <plumbar/solve.h>

#include "model/measure.h"

/* What a problem may leave free, beside the pose: the bar's place and the turn of the leg's plane.
 */
typedef enum PlumbUnknown {
    PLUMB_X,     /* hip x, m */
    PLUMB_Y,     /* hip height, m */
    PLUMB_LEAN,  /* thorax lean, rad */
    PLUMB_BAR_X, /* m */
    PLUMB_BAR_Y, /* m */
    PLUMB_PSI,   /* knees_out, rad */
    PLUMB_UNKNOWN_COUNT
} PlumbUnknown;

enum { PLUMB_FREE_MAX = 5 };

/* count constraints in count free unknowns; the others keep their values. */
typedef struct PlumbProblem {
    int count;
    PlumbUnknown free[PLUMB_FREE_MAX];
    PlumbConstraint constraint[PLUMB_FREE_MAX];
    double knee_bend_rad; /* negative: the knee follows from the hip */
} PlumbProblem;

/* A point of the space of unknowns. */
typedef struct PlumbState {
    double v[PLUMB_UNKNOWN_COUNT];
} PlumbState;

static inline PlumbPose state_pose(const PlumbState *state)
{
    const PlumbPose q = {state->v[PLUMB_X], state->v[PLUMB_Y], state->v[PLUMB_LEAN]};
    return q;
}

/* The figure at a state, as far as constraints need it. */
typedef struct PlumbEval {
    const PlumbRig *rig;
    PlumbPose q;
    double lean_sin;
    double lean_cos;
    PlumbLeg leg;
    PlumbVec2 bar;
    PlumbVec2 shoulder;
    double knee_bend_rad;
    double psi;
} PlumbEval;

/* Turns rig to the state's psi where that is free; knee_bend_rad as in PlumbProblem. */
void plumb_eval(const PlumbRig *rig, const PlumbState *state, double knee_bend_rad,
                PlumbEval *eval);

/* Value of a constraint's quantity (its residual with target 0); where gradient is not NULL also
 * its derivatives by all unknowns. */
double plumb_constraint_value(const PlumbEval *eval, PlumbConstraintId id, double *gradient);

/* Target of a constraint in the unit of its value: a knee bend is met as a distance, so that it
 * stays regular at a straight leg; depth counts downwards. */
double plumb_constraint_target(const PlumbRig *rig, const PlumbConstraint *constraint);

/* One unit of miss: 1 cm = 1° = 0.01 of balance. */
double plumb_constraint_unit(PlumbConstraintId id);

/* Meets the problem's constraints from *state by damped Newton steps; true where all residuals are
 * below 1e-10, *state then the root, else *state is the best point met. */
bool plumb_newton(const PlumbRig *rig, const PlumbProblem *problem, PlumbState *state);

#endif
