/* SPDX-License-Identifier: MIT */
/* Outlines of links: the hull around a few circles. */
#ifndef PLUMBAR_SCENE_OUTLINE_H
#define PLUMBAR_SCENE_OUTLINE_H

#include <plumbar/vec.h>

enum { PLUMB_HULL_CIRCLES = 4, PLUMB_HULL_POINTS = PLUMB_HULL_CIRCLES * 48 };

/* A circle on paper, mm. */
typedef struct PlumbRound {
    PlumbVec2 centre_mm;
    double radius_mm;
} PlumbRound;

/* The polygon of the hull around count (1 to PLUMB_HULL_CIRCLES) circles; returns its points. */
int plumb_hull(const PlumbRound *round, int count, PlumbVec2 hull_mm[PLUMB_HULL_POINTS]);

#endif
