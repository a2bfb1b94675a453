/* SPDX-License-Identifier: MIT */
/* The window's drawing in slices, one to a zone or ruler, so that only those that have changed are
 * painted again. */
#ifndef PLUMBAR_VIEWER_SLICE_H
#define PLUMBAR_VIEWER_SLICE_H

#include <plumbar/scene.h>

#include <stdint.h>

enum { PLUMB_SLICES_MAX = 64 };

typedef struct PlumbSlice {
    PlumbRect rect; /* nothing of the slice is painted outside */
    int first;      /* items of the scene */
    int count;
    int pane;      /* 0, or pixels that are painted below the items */
    uint64_t hash; /* of all that decides its pixels, its place too */
} PlumbSlice;

typedef struct PlumbSlices {
    PlumbSlice slice[PLUMB_SLICES_MAX];
    int count;
    uint64_t shown[PLUMB_SLICES_MAX]; /* what the window shows */
    int shown_count;
} PlumbSlices;

void plumb_slices_begin(PlumbSlices *slices);
/* Starts a slice at the scene's next item; it goes on to the next slice or the end. */
void plumb_slices_next(PlumbSlices *slices, const PlumbScene *scene, PlumbRect rect);
/* Says that pixels lie below the items of the slice that was started last; stamp changes with them.
 */
void plumb_slices_pane(PlumbSlices *slices, int pane, uint64_t stamp);
void plumb_slices_end(PlumbSlices *slices, const PlumbScene *scene);
/* Whether the window shows something else there. */
bool plumb_slices_stale(const PlumbSlices *slices, int index);
/* Says that the window now shows these. */
void plumb_slices_shown(PlumbSlices *slices);

#endif
