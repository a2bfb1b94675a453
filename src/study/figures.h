/* SPDX-License-Identifier: MIT */
/* The smooth figures of a pose, and the efforts' slopes, whose kinks are taken by hand. */
#ifndef PLUMB_STUDY_FIGURES_H
#define PLUMB_STUDY_FIGURES_H

#include "study/spot.h"

/* Figures without a kink, by rows of one array so that all are differenced alike. */
enum {
    PLUMB_SMOOTH_ANGLE = 0,
    PLUMB_SMOOTH_MOMENT = PLUMB_SMOOTH_ANGLE + PLUMB_ANGLE_COUNT,
    PLUMB_SMOOTH_ARM = PLUMB_SMOOTH_MOMENT + PLUMB_JOINT_COUNT,
    PLUMB_SMOOTH_BALANCE = PLUMB_SMOOTH_ARM + PLUMB_JOINT_COUNT,
    PLUMB_SMOOTH_HIP_X,
    PLUMB_SMOOTH_HIP_Y,
    PLUMB_SMOOTH_SHOULDER_X,
    PLUMB_SMOOTH_BAR_X,
    PLUMB_SMOOTH_BAR_Y,
    PLUMB_SMOOTH_KNEE_X,
    PLUMB_SMOOTH_KNEE_Y,
    PLUMB_SMOOTH_KNEE_Z,
    PLUMB_SMOOTH_ANKLE_X,
    PLUMB_SMOOTH_ANKLE_Y,
    PLUMB_SMOOTH_ANKLE_Z,
    PLUMB_SMOOTH_TOE_LINE,
    PLUMB_SMOOTH_FRONTAL_KNEE,
    PLUMB_SMOOTH_FRONTAL_HIP,
    PLUMB_SMOOTH_SHIN_THICKNESS,
    PLUMB_SMOOTH_THIGH_THICKNESS,
    PLUMB_SMOOTH_BALANCE_POINT, /* x of the set-up's balance */
    PLUMB_SMOOTH_COUNT
};

/* What efforts need: angles and moments, the first of the array. */
enum { PLUMB_SMOOTH_EFFORT_COUNT = PLUMB_SMOOTH_ARM };

typedef struct PlumbSmooth {
    double value[PLUMB_SMOOTH_COUNT];
} PlumbSmooth;

/* count: PLUMB_SMOOTH_COUNT, or PLUMB_SMOOTH_EFFORT_COUNT for the first alone. */
void plumb_smooth(const PlumbRig *rig, const PlumbSetup *setup, const PlumbState *state,
                  double knee_bend_rad, int count, PlumbSmooth *smooth);

/* Derivatives of a spot's figures by each unknown, taken once. */
typedef struct PlumbSmoothBase {
    int count;
    PlumbSmooth by[PLUMB_UNKNOWN_COUNT];
} PlumbSmoothBase;

void plumb_smooth_begin(const PlumbSpot *spot, int count, PlumbSmoothBase *base);

/* Slopes of the figures along a motion: by the factor with the pose held, and by the pose. vary
 * NULL: no factor moves. */
PlumbSmooth plumb_smooth_slope(const PlumbSpot *spot, const PlumbSmoothBase *base,
                               const PlumbVary *vary, const PlumbMotion *motion);

/* Efforts of a pose with what their slopes need. */
typedef struct PlumbEffortBase {
    PlumbSmooth smooth;
    PlumbEffort effort;
} PlumbEffortBase;

PlumbEffortBase plumb_effort_base(const PlumbSpot *spot);

typedef struct PlumbEffortSlope {
    double relative[PLUMB_JOINT_COUNT];
    double summed;
    unsigned kink;
} PlumbEffortSlope;

/* Slopes of the efforts in the direction +1 or -1, per unit: chain rule with every held capacity
 * and every moment's sign as they are on that side. capacity_slope: relative growth of all
 * capacities. */
PlumbEffortSlope plumb_effort_slope(const PlumbCapacity *capacity, const PlumbEffortBase *base,
                                    const PlumbSmooth *slope, double capacity_slope,
                                    double direction);

#endif
