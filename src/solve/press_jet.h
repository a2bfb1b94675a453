/* SPDX-License-Identifier: MIT */
/* The pressing arm along its path with exact derivatives by the share of the way. */
#ifndef PLUMB_SOLVE_PRESS_JET_H
#define PLUMB_SOLVE_PRESS_JET_H

#include "model/jet.h"
#include "solve/press.h"

typedef struct PlumbArmJet {
    Jet3 elbow;
    Jet3 wrist;
    Jet3 grip;
    PlumbVec3 axis; /* of the elbow, as in arm_loads.c */
} PlumbArmJet;

/* The right arm at u, 0 at the touch and below 1 at the lockout, where the share of the bar's rise
 * is k = 1 - (1-u)²; derivatives by u. The elbow must be where it is asked for at every height. */
PlumbArmJet plumb_press_arm_jet(const PlumbPress *press, double u);

#endif
