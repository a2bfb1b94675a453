/* SPDX-License-Identifier: MIT */
/* The links of which the figure consists, in the model's space. */
#ifndef PLUMBAR_SCENE_PARTS_H
#define PLUMBAR_SCENE_PARTS_H

#include "scene/outline.h"

#include <plumbar/pose.h>

enum { PLUMB_PART_BALLS = PLUMB_HULL_CIRCLES, PLUMB_PARTS_MAX = 24 };

/* A link: the hull around up to four balls, and the joint line between its first and last. */
typedef struct PlumbPart {
    int count;
    PlumbVec3 centre_m[PLUMB_PART_BALLS];
    double radius_m[PLUMB_PART_BALLS];
    bool joint_line;
    double least_depth_m; /* never drawn as if further back than this */
    PlumbPoint joint;     /* a small circle at the first ball; PLUMB_POINT_COUNT: none */
} PlumbPart;

typedef struct PlumbParts {
    int count;
    PlumbPart part[PLUMB_PARTS_MAX];
} PlumbParts;

/* Links of the side view, in the order in which they are drawn. */
void plumb_parts_side(PlumbParts *parts, const PlumbBody *body, const PlumbSetup *setup,
                      const PlumbPosition *position);
/* Links of the front view, what lies further back first. */
void plumb_parts_front(PlumbParts *parts, const PlumbBody *body, const PlumbSetup *setup,
                       const PlumbPosition *position);
/* How far ahead the middle of a link lies, m. */
double plumb_part_depth_m(const PlumbPart *part);

/* The mirror image across the middle plane for side -1, the point itself for 1. */
PlumbVec3 plumb_mirrored(PlumbVec3 point_m, double side);
PlumbVec3 plumb_between(PlumbVec3 a_m, PlumbVec3 b_m, double share);

#endif
