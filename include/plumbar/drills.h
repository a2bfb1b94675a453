/* SPDX-License-Identifier: MIT */
/* Drills that go with a finding or a change: a table that a coach can replace with an own one. */
#ifndef PLUMBAR_DRILLS_H
#define PLUMBAR_DRILLS_H

#include <plumbar/solve.h>

enum { PLUMB_DRILLS_MAX = 96, PLUMB_DRILL_ABOUT = 40, PLUMB_DRILL_WORDS = 320 };

/* One row. about: the name of a finding, or the key of a setting that changes. */
typedef struct PlumbDrill {
    char about[PLUMB_DRILL_ABOUT];
    bool any_lift;
    PlumbLift lift;
    char words[PLUMB_DRILL_WORDS];
    char rests_on[PLUMB_DRILL_ABOUT]; /* "common practice" */
} PlumbDrill;

typedef struct PlumbDrills {
    int count;
    PlumbDrill drill[PLUMB_DRILLS_MAX];
} PlumbDrills;

/* Reads a table with the columns about, lift, drill, rests_on; lines that begin with # are
 * comments. PLUMB_BAD_INPUT names line and column name: an unknown finding, setting or lift, a
 * missing column, words that are too long, more rows than PLUMB_DRILLS_MAX. *drills is untouched
 * on failure. */
PlumbStatus plumb_drills_read(const char *bytes, size_t length, PlumbDrills *drills,
                              PlumbError *error);

/* The first row about this finding or setting for the lift; NULL where none is. */
const PlumbDrill *plumb_drills_find(const PlumbDrills *drills, const char *about, PlumbLift lift);

#endif
