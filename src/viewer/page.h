/* SPDX-License-Identifier: MIT */
/* The pages beside the drawing: what each has worked out, and the zones that it draws. */
#ifndef PLUMBAR_VIEWER_PAGE_H
#define PLUMBAR_VIEWER_PAGE_H

#include <plumbar/compare.h>
#include <plumbar/dynamics.h>
#include <plumbar/press_effects.h>
#include <plumbar/solve.h>

typedef enum PlumbPage {
    PLUMB_PAGE_DRAWING,
    PLUMB_PAGE_PATH,
    PLUMB_PAGE_COMPARE,
    PLUMB_PAGE_MAP,
    PLUMB_PAGE_TRACE,
    PLUMB_PAGE_COUNT
} PlumbPage;

enum {
    PLUMB_ARMS_MAX = PLUMB_JOINT_COUNT,     /* of both families of lifts the larger count */
    PLUMB_FIGURES_MAX = PLUMB_OUTPUT_COUNT, /* likewise */
    PLUMB_WAY_POINTS = 81,                  /* of a path at rest */
    PLUMB_WAY_ROUGH = 21,                   /* while something is dragged */
    PLUMB_WAY_INSTANTS = 41,                /* of the way up in motion */
    PLUMB_MAP_COLUMNS = 65, /* powers of two and one: each finer grid holds the coarser */
    PLUMB_MAP_ROWS = 49,
    PLUMB_MAP_STEP_MOST = 8
};

/* What a chart needs of one point of a way. */
typedef struct PlumbWayPoint {
    double u; /* 0 start to 1 end */
    bool held;
    PlumbVec3 bar_m;
    double angle_rad;                  /* of the back; of a press the upper arm from the trunk */
    double moment_n_m[PLUMB_ARMS_MAX]; /* of a press each arm's */
} PlumbWayPoint;

/* The lift from start to end. */
typedef struct PlumbWay {
    bool stale;
    bool rough;
    int count; /* 0: there is none, start or end is missing */
    PlumbWayPoint step[PLUMB_WAY_POINTS];
    double spread_m; /* of the bar's path, horizontally */
    double peak_n_m[PLUMB_ARMS_MAX];
    PlumbPathPoint point[PLUMB_WAY_POINTS]; /* whole poses of a lift that stands */
    bool moved;                             /* motion holds */
    double bar_m[PLUMB_WAY_INSTANTS];
    double moving_n_m[PLUMB_JOINT_COUNT][PLUMB_WAY_INSTANTS]; /* net joint moments in motion */
    PlumbMotionPoint instant[PLUMB_WAY_INSTANTS];             /* while a motion is worked out */
    PlumbMotionFacts motion;
    double at; /* of the scrubber, 0 start to 1 end */
    bool playing;
    double begun_s;
} PlumbWay;

/* Inked against pencilled. */
typedef struct PlumbAgainst {
    bool stale;
    PlumbDifference of[PLUMB_FIGURES_MAX];
} PlumbAgainst;

/* One figure over two settings, made coarse first. */
typedef struct PlumbMap {
    PlumbLift lift; /* of x and y */
    bool chosen;
    PlumbSettingId x;
    PlumbSettingId y;
    int figure; /* of the family's map_figures */
    bool begun;
    PlumbLifter lifter; /* of the pass being made */
    PlumbSetup key;
    int step;  /* of the grid being made: 4, 2, 1; 0: all done */
    int next;  /* place within it */
    int shown; /* the finest grid that is whole; 0: none */
    bool known[PLUMB_MAP_ROWS][PLUMB_MAP_COLUMNS];
    double value[PLUMB_MAP_ROWS][PLUMB_MAP_COLUMNS]; /* SI, NaN where nothing holds */
    int reason[PLUMB_MAP_ROWS][PLUMB_MAP_COLUMNS];   /* PLUMB_REASON_COUNT where it holds */
} PlumbMap;

#endif
