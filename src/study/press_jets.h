/* SPDX-License-Identifier: MIT */
/* A press whose figures carry their derivative by one factor. */
#ifndef PLUMB_STUDY_PRESS_JETS_H
#define PLUMB_STUDY_PRESS_JETS_H

#include <plumbar/press_effects.h>

#include "model/arm_jet.h"
#include "solve/press.h"

/* What a press is made of, each with its slope by the factor; places are seen from the shoulder. */
typedef struct PlumbPressInputs {
    const PlumbLifter *lifter;
    bool elbows_given;
    double direction; /* of the factor, +1 or -1: which side counts at a kink */
    Jet over;
    Jet exponent;
    Jet elbows;
    Jet flare; /* as far from the trunk as auto lets the upper arm go */
    Jet touch_y;
    Jet top; /* the bar's height at lockout */
    Jet hand_z;
    Jet upper;
    Jet lower;
    Jet wrist; /* share of lower */
    Jet rule;  /* top of the shoulder above its joint, and of the elbow's joint above its underside
                */
    Jet mass;  /* of the body */
    Jet half_n;
    Jet push_n;
} PlumbPressInputs;

/* The inputs of lifter and setup, in the direction of moved ones, the factor moved by one. */
PlumbPressInputs plumb_press_inputs(const PlumbLifter *lifter, const PlumbSetup *setup,
                                    const PlumbLifter *moved, const PlumbSetup *moved_setup,
                                    double direction);

/* What ends a window of touches, each positive where met: lengths m, angles rad. */
typedef enum PlumbPressMargin {
    PLUMB_PRESS_MARGIN_reach,
    PLUMB_PRESS_MARGIN_elbows,
    PLUMB_PRESS_MARGIN_flexion,
    PLUMB_PRESS_MARGIN_rotation,
    PLUMB_PRESS_MARGIN_elbow_flexion,
    PLUMB_PRESS_MARGIN_COUNT
} PlumbPressMargin;

/* The figures of the position at the touch; those of the whole press are left zero. */
typedef struct PlumbPressTouch {
    Jet of[PLUMB_PRESS_OUTPUT_COUNT];
    Jet margin[PLUMB_PRESS_MARGIN_COUNT];
    Jet swivel;
    unsigned kink;
} PlumbPressTouch;

/* at_reach: the touch moves so that the elbow goes on just reaching where it is asked for. */
void plumb_press_touch_jets(const PlumbPressInputs *in, Jet touch, bool at_reach,
                            PlumbPressTouch *out);

/* The upper arm's angle from the trunk at a share of the rise, rad. */
Jet plumb_press_abduction_jet(const PlumbPressInputs *in, Jet touch, Jet swivel, Jet rise);

#endif
