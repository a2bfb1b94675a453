/* SPDX-License-Identifier: MIT */
/* A frame in halving sizes, and round patches of it that are looked for again. */
#ifndef PLUMB_TRACE_PATCH_H
#define PLUMB_TRACE_PATCH_H

#include <plumbar/gray.h>
#include <plumbar/vec.h>

#include <stdbool.h>

enum { PYRAMID_LEVELS = 5, PATCH_RADIUS_MAX = 16, PATCH_RADIUS_MIN = 4 };

/* level[0] is the frame itself, each next one half as wide. */
typedef struct Pyramid {
    PlumbGray level[PYRAMID_LEVELS];
} Pyramid;

/* Bytes for the smaller levels of a frame. */
size_t plumb_pyramid_bytes(int width_px, int height_px);
void plumb_pyramid_build(const PlumbGray *frame, uint8_t *room, Pyramid *pyramid);

/* A place of the frame in the pixels of a level, and back. */
static inline PlumbVec2 pyramid_down(PlumbVec2 at, int level)
{
    const double scale = 1.0 / (double)(1 << level);
    return (PlumbVec2){(at.x + 0.5) * scale - 0.5, (at.y + 0.5) * scale - 0.5};
}

static inline PlumbVec2 pyramid_up(PlumbVec2 at, int level)
{
    const double scale = (double)(1 << level);
    return (PlumbVec2){(at.x + 0.5) * scale - 0.5, (at.y + 0.5) * scale - 0.5};
}

/* A disc of levels about a place, less their mean and scaled to length 1. */
typedef struct Patch {
    int radius;
    int count;
    int half[2 * PATCH_RADIUS_MAX + 1]; /* of each row */
    float weight[(2 * PATCH_RADIUS_MAX + 1) * (2 * PATCH_RADIUS_MAX + 1)];
} Patch;

/* Takes a patch about a place between pixels, as it will look when it has turned by turn_rad (from
 * x toward y); false where nothing can be told apart in it. */
bool plumb_patch_take(Patch *patch, const PlumbGray *picture, PlumbVec2 at, int radius,
                      double turn_rad);

/* A square of a picture about a place, kept for patches to be taken from. */
typedef struct Cutting {
    int radius; /* of the patches */
    uint8_t level[(2 * PATCH_RADIUS_MAX + 5) * (2 * PATCH_RADIUS_MAX + 5)];
} Cutting;

void plumb_cutting_keep(Cutting *cutting, const PlumbGray *picture, PlumbVec2 at, int radius);
/* A patch of it, turned. */
bool plumb_cutting_patch(const Cutting *cutting, double turn_rad, Patch *patch);

/* Normalised cross-correlation with the picture about a pixel, -1 to 1; outside the picture its
 * border is repeated. */
double plumb_patch_score(const Patch *patch, const PlumbGray *picture, int x, int y);

/* The best of the square within reach about a place. */
double plumb_patch_search(const Patch *patch, const PlumbGray *picture, PlumbVec2 about, int reach,
                          PlumbVec2 *found);

/* Climbs from a place to the nearest peak, at most `most` pixels; *peak to a fraction of a pixel
 * by parabolas through its neighbours. Returns the score of the peak's pixel. */
double plumb_patch_climb(const Patch *patch, const PlumbGray *picture, PlumbVec2 from, int most,
                         PlumbVec2 *peak);

#endif
