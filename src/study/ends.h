/* SPDX-License-Identifier: MIT */
/* How the ends of the window and of the low-effort range move. */
#ifndef PLUMB_STUDY_ENDS_H
#define PLUMB_STUDY_ENDS_H

#include "study/figures.h"

/* One end of a window: the pose in which a requirement is just met. */
typedef struct PlumbWindowEnd {
    PlumbEnd end;
    double s;
    bool has_spot;
    PlumbSpot spot;
    PlumbSmoothBase smooth;
    bool tied; /* a second requirement is just met as well */
    PlumbSpot second;
} PlumbWindowEnd;

/* A member of the family with its efforts; the free quantity is held. */
typedef struct PlumbEffortSpot {
    PlumbSpot spot;
    PlumbSmoothBase smooth;
    PlumbEffortBase base;
    double by_s; /* d summed effort / d s */
} PlumbEffortSpot;

typedef struct PlumbRangeEnd {
    PlumbEnd end;
    bool tied; /* where the effort would end it the window ends as well */
    PlumbEffortSpot at;
} PlumbRangeEnd;

/* Window and low-effort range of a case. Index 0 the lower end, 1 the upper. */
typedef struct PlumbEnds {
    const PlumbCase *c;
    bool exists;
    PlumbWindowEnd window[2];
    PlumbRangeEnd range[2];
    PlumbEffortSpot least;
    int least_at; /* -1: inside the window; 0, 1: at that end of it */
} PlumbEnds;

typedef struct PlumbEndsSlope {
    double window[2]; /* NaN where unknown */
    double range[2];
    unsigned kink;
} PlumbEndsSlope;

/* Finds the poses at the ends. c outlives *ends, which must not move. near: a held pose. */
void plumb_ends_begin(const PlumbCase *c, const PlumbInterval *window,
                      const PlumbInterval *low_effort, const PlumbState *near, PlumbEnds *ends);

/* Slopes in the direction +1 or -1, per unit of the factor; turn: of the leg's plane. */
PlumbEndsSlope plumb_ends_slope(const PlumbEnds *ends, const PlumbVary *vary, double turn,
                                double direction);

#endif
