/* SPDX-License-Identifier: MIT */
/* Made frames: a patterned body that moves and turns before a patterned wall, to any fraction of a
 * pixel, with noise, something that hides it, and a camera that shakes. */
#ifndef PLUMBAR_TESTS_MOVING_H
#define PLUMBAR_TESTS_MOVING_H

#include <plumbar/track.h>

#include "base/vec.h"

#include <stdlib.h>

/* Where things are in one frame, and what is on it. */
typedef struct Moving {
    PlumbVec2 at_px; /* of the body's middle, in the picture */
    double turn_rad; /* of the body */
    double radius_px;
    PlumbVec2 camera_px; /* the wall's shift */
    double camera_rad;   /* and turn about the picture's corner */
    bool torn;           /* the wall falls apart in four */
    double hidden_px;    /* a grey bar from x = 0 to here; 0: none */
    double noise;        /* levels, evenly spread either way */
} Moving;

/* A pattern without a direction, about -1 to 1: waves a few pixels to some tens of pixels long. */
static inline double pattern(double x, double y, double seed)
{
    return 0.30 * sin(0.31 * x + 0.17 * y + seed) + 0.25 * sin(-0.13 * x + 0.29 * y + 2.0 * seed) +
           0.20 * sin(0.07 * x - 0.11 * y + 3.0 * seed) * sin(0.053 * x + 0.019 * y) +
           0.25 * sin(0.61 * x - 0.43 * y + 5.0 * seed) * sin(0.091 * y + seed);
}

static inline double wall(const Moving *m, double x, double y, int width, int height)
{
    const double c = cos(m->camera_rad);
    const double s = sin(m->camera_rad);
    double dx = x - m->camera_px.x;
    double dy = y - m->camera_px.y;
    if (m->torn) {
        dx += (x < 0.5 * width ? 3.0 : -2.0) * m->camera_px.x;
        dy += (y < 0.5 * height ? -2.0 : 4.0) * m->camera_px.x;
    }
    return 120.0 + 60.0 * pattern(c * dx + s * dy, c * dy - s * dx, 1.0);
}

/* Draws a frame into level[width * height]. */
static inline void moving_draw(const Moving *m, int width, int height, unsigned seed,
                               uint8_t *level)
{
    const double c = cos(m->turn_rad);
    const double s = sin(m->turn_rad);
    for (int y = 0; y < height; y++) {
        for (int x = 0; x < width; x++) {
            const double dx = x - m->at_px.x;
            const double dy = y - m->at_px.y;
            double value;
            if (x < m->hidden_px) {
                value = 90.0 + 5.0 * sin(0.2 * y);
            } else if (dx * dx + dy * dy < m->radius_px * m->radius_px) {
                value = 130.0 + 90.0 * pattern(c * dx + s * dy, c * dy - s * dx, 4.0);
            } else {
                value = wall(m, x, y, width, height);
            }
            seed = seed * 1664525U + 1013904223U;
            value += m->noise * ((double)(seed >> 8) / 8388608.0 - 1.0);
            level[y * width + x] = (uint8_t)fmin(fmax(value + 0.5, 0.0), 255.0);
        }
    }
}

#endif
