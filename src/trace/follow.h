/* SPDX-License-Identifier: MIT */
/* One patch followed from frame to frame, and the background's patches together. */
#ifndef PLUMB_TRACE_FOLLOW_H
#define PLUMB_TRACE_FOLLOW_H

#include "trace/patch.h"

#include <plumbar/track.h>

/* Two sizes of one place: fine and coarse. */
typedef struct Pair {
    Patch fine;
    Patch coarse;
} Pair;

/* A patch on its way. `worth` is how alike the present patch still is to the marked one. */
typedef struct Follow {
    bool on;
    int unseen; /* frames since it was last seen, 0: in the last one */
    int level;  /* of the fine patch; the coarse one is on the next */
    PlumbVec2 at;
    PlumbVec2 speed; /* pixels a frame */
    double turn_rad; /* of what is followed, since it was marked */
    double worth;
    Cutting marked[2]; /* fine, coarse */
    Pair now;
} Follow;

/* Starts at a marked place; false where nothing can be told apart there. */
bool plumb_follow_begin(Follow *follow, const Pyramid *frame, PlumbVec2 at, double radius_px);
/* The next frame: where it is now, and how sure that is. edge: the disc's edge may lie within the
 * patch; then only what was marked counts, since what it looks like now has the edge in it. */
double plumb_follow_step(Follow *follow, const Pyramid *frame, bool edge);
/* Where it would be in the next frame. */
PlumbVec2 plumb_follow_next(const Follow *follow);
/* The next frame, in which it is hidden: it goes on for a while and comes to rest. */
void plumb_follow_hide(Follow *follow);

enum { GROUND_MAX = 16 };

/* Patches of the background, as they were in the first frame. */
typedef struct Ground {
    int count;
    PlumbVec2 first[GROUND_MAX];
    Follow patch[GROUND_MAX];
} Ground;

/* Chooses patches that can be told apart, outside the box that marks keep to. */
void plumb_ground_begin(Ground *ground, const Pyramid *frame, const PlumbTrackAsk *ask);
/* Follows them into a frame and agrees on its shift; `last` is that of the frame before. */
PlumbShift plumb_ground_step(Ground *ground, const Pyramid *frame, const PlumbShift *last);

#endif
