/* SPDX-License-Identifier: MIT */
/* A solved position as a root of equations F(v, p) = 0, and how it moves when p does:
 * dv/dp = -(dF/dv)^-1 dF/dp. */
#ifndef PLUMB_STUDY_SPOT_H
#define PLUMB_STUDY_SPOT_H

#include "study/vary.h"

typedef enum PlumbEquationKind {
    PLUMB_EQ_CONSTRAINT, /* of the menu */
    PLUMB_EQ_MARGIN,     /* a requirement of the window, just met */
    PLUMB_EQ_BAR_BALANCE /* bar over the balance point, standing */
} PlumbEquationKind;

typedef struct PlumbEquation {
    PlumbEquationKind kind;
    PlumbConstraint constraint;
    bool from_setup; /* the target is the set-up's, so that it moves with the setting */
    PlumbEnd end;    /* PLUMB_EQ_MARGIN */
} PlumbEquation;

/* Which capsule the bar lies against. */
typedef enum PlumbCapsule {
    PLUMB_CAPSULE_NEARER,
    PLUMB_CAPSULE_SHIN,
    PLUMB_CAPSULE_THIGH
} PlumbCapsule;

typedef struct PlumbSpot {
    const PlumbCase *c;
    PlumbRig rig; /* as solved: turned, spine of the position */
    int count;
    PlumbUnknown free[PLUMB_FREE_MAX];
    PlumbEquation equation[PLUMB_FREE_MAX];
    double knee_bend_rad; /* negative: the knee follows from the hip */
    bool upright;
    PlumbState state;
    PlumbEval eval;
    bool at_corner; /* the bar lies against shin and thigh at once */
    double jacobian[PLUMB_FREE_MAX][PLUMB_FREE_MAX]; /* against the nearer capsule */
    double by_turn[PLUMB_FREE_MAX]; /* of each equation, by the leg's plane; clearance: 0 */
} PlumbSpot;

/* Side step of an unknown, m or rad. */
#define PLUMB_STEP_V 4e-4

/* How a spot moves by one factor. */
typedef struct PlumbMotion {
    bool known;
    double dv[PLUMB_UNKNOWN_COUNT]; /* all: those that are not free follow the factor or the turn */
    unsigned kink;                  /* bits that were met on the way */
} PlumbMotion;

/* The position of a problem, solved at state. rig: turned and bent as solved. */
PlumbSpot plumb_spot(const PlumbCase *c, const PlumbRig *rig, const PlumbProblem *problem,
                     const PlumbState *state, bool upright);
/* Marks the targets that are those of the set-up. */
void plumb_spot_from_setup(PlumbSpot *spot);
/* Prepares for motion once the equations stand: the eval and the corner. */
void plumb_spot_ready(PlumbSpot *spot);

/* What else moves a spot beside the factor itself, per unit of the factor. */
typedef struct PlumbDrive {
    double target[PLUMB_FREE_MAX]; /* of each equation */
    double turn;                   /* of the leg's plane, where another position solved it */
} PlumbDrive;

/* Motion by a factor in the direction +1 or -1, per unit of the factor. */
PlumbMotion plumb_spot_motion(const PlumbSpot *spot, const PlumbVary *vary, const PlumbDrive *drive,
                              double direction);

/* Motion when the target of equation i alone grows by one. */
PlumbMotion plumb_spot_push(const PlumbSpot *spot, int i);

/* The state at side step k with the unknowns held; the bar of a start follows its setting. */
PlumbState plumb_spot_held(const PlumbSpot *spot, const PlumbVary *vary, int k);
bool plumb_spot_is_free(const PlumbSpot *spot, PlumbUnknown unknown);
/* The state and rig at k steps of one unknown, nothing else moving. */
PlumbState plumb_spot_step(const PlumbSpot *spot, PlumbUnknown unknown, int k, PlumbRig *rig);
const PlumbRig *plumb_spot_rig(const PlumbSpot *spot, const PlumbVary *vary, int k);

/* Margin of a window's requirement, SI, negative where it is not met. */
double plumb_margin_value(const PlumbRig *rig, const PlumbEval *eval, double shoulder_most_m,
                          const double limit_rad[PLUMB_LIMIT_COUNT], PlumbEnd end);

/* Derivative of the clearance along the moves of the leg's points and the bar. */
typedef struct PlumbLegMove {
    PlumbVec2 ankle;
    PlumbVec2 knee;
    PlumbVec2 hip;
    PlumbVec2 bar;
    double shin_half_thickness;
    double thigh_half_thickness;
} PlumbLegMove;

double plumb_clearance_slope(const PlumbRig *rig, const PlumbEval *eval, PlumbCapsule capsule,
                             const PlumbLegMove *move);

#endif
