/* SPDX-License-Identifier: MIT */
/* What is solved for a set-up, and the two families of lifts as tables of functions: those that
 * stand on the floor, and the press on the bench. The rest of the window asks through these. */
#ifndef PLUMBAR_VIEWER_FAMILY_H
#define PLUMBAR_VIEWER_FAMILY_H

#include "page.h"

#include <plumbar/scene.h>
#include <plumbar/solved.h>

/* Why nothing holds: a PlumbConstraintId, or one of these. */
enum {
    PLUMB_REASON_NO_BODY = PLUMB_CONSTRAINT_COUNT,
    PLUMB_REASON_TOUCH,
    PLUMB_REASON_LOCKOUT,
    PLUMB_REASON_COUNT
};

/* "balance", "touch": for states; and in words. */
const char *plumb_reason_name(int reason);
const char *plumb_reason_text(int reason);

/* An answer of either family with what the window asks of every one. */
typedef struct PlumbPosed {
    PlumbSetup setup; /* as used */
    PlumbOutcome outcome;
    int reason; /* PLUMB_NO_POSE */
    double travel_m;
    double arm_m[PLUMB_ARMS_MAX]; /* of the bar about each joint of the family */
    PlumbSolved solved;
} PlumbPosed;

/* Figures of an answer are numbers in the lift's own list, as in solved.h. */
enum { PLUMB_COMPARE_MAX = 24 };

/* A row of the Compare page, its name as short as a column wants. */
typedef struct PlumbCompareRow {
    int figure;
    const char *name;
} PlumbCompareRow;

typedef struct PlumbFamily {
    int arm_count;          /* joints whose moment arm can be selected */
    const int *arm_order;   /* [arm_count], as the table has them */
    const int *map_figures; /* those of the Map page */
    int map_count;
    const PlumbCompareRow *compare; /* [compare_count], in order of importance */
    int compare_count;
    const char *angle_words; /* of a point of the way: what, from where */
    const char *angle_after;
    const char *angle_name; /* in files */
    int fact_travel;        /* facts of the way that are told: as of plumb_lift_fact_key */
    int fact_spread;
    int fact_peak; /* of the first arm; those of the others follow */

    void (*solve)(const PlumbLifter *lifter, const PlumbSetup *setup, bool quick,
                  PlumbPosed *posed);
    const char *(*arm_name)(int arm); /* "hip" */
    /* The arm that belongs to a point of the drawing, -1 where none does. */
    int (*arm_at)(PlumbPoint point);
    /* Window and low-effort range of the quantity that is free, and which that is. */
    PlumbSettingId (*intervals)(const PlumbPosed *posed, PlumbInterval *window,
                                PlumbInterval *low_effort);
    /* The value that a setting follows with where it is not given; NaN where it never does. */
    double (*followed)(const PlumbPosed *posed, PlumbSettingId id);
    /* Puts the answers on a drawing; pencil and wish may be NULL. */
    void (*draw)(PlumbDrawing *drawing, const PlumbPosed *inked, const PlumbPosed *pencil,
                 const PlumbPosed *wish, int arm);
    /* The way of the bar; count as asked for, rough: without its motion. */
    void (*way)(const PlumbLifter *lifter, const PlumbPosed *posed, int count, bool rough,
                PlumbWay *way);
    /* Moves the pose of an answer to a point of the way. */
    void (*pose)(const PlumbLifter *lifter, const PlumbWay *way, int index, PlumbPosed *posed);
} PlumbFamily;

const PlumbFamily *plumb_family(PlumbLift lift);

static inline const PlumbFamily *plumb_family_of(const PlumbPosed *posed)
{
    return plumb_family(posed->setup.lift);
}

extern const PlumbFamily plumb_family_stand;
extern const PlumbFamily plumb_family_press;

#endif
