/* SPDX-License-Identifier: MIT */
/* A lifter and a set-up with one factor moved a little to both sides, as rigs: what derivatives at
 * a held pose are taken from. Nothing here is solved. */
#ifndef PLUMB_STUDY_VARY_H
#define PLUMB_STUDY_VARY_H

#include <plumbar/effects.h>

#include "solve/case.h"

/* f'(0) = (8 (f(h) - f(-h)) - (f(2h) - f(-2h))) / 12 h, exact to h^4; the functions are explicit
 * and smooth on the scale of a limb. Samples stand in the order -2h, -h, h, 2h. */
enum { PLUMB_STENCIL = 4 };
extern const double plumb_stencil_at[PLUMB_STENCIL];     /* in h */
extern const double plumb_stencil_weight[PLUMB_STENCIL]; /* times 1/h */

/* One side step. */
typedef struct PlumbVariant {
    PlumbSetup setup;
    PlumbRig rig;     /* at the set-up's spine */
    PlumbRig upright; /* spine 0 */
    PlumbVec2 bar;    /* deadlift: where it stands on the floor */
} PlumbVariant;

typedef struct PlumbVary {
    const PlumbFactor *factor;
    double h;
    PlumbVariant at[PLUMB_STENCIL];
    double capacity_slope; /* relative growth of every capacity: they scale with the mass */
} PlumbVary;

/* Moves factor around lifter and setup (leads resolved); the leg's plane stays at knees_out_rad
 * where it was solved, else follows the setting. */
void plumb_vary_begin(const PlumbLifter *lifter, const PlumbSetup *setup, double knees_out_rad,
                      const PlumbFactor *factor, PlumbVary *vary);

/* Puts the leg's plane at knees_out_rad in every side step. */
void plumb_vary_turn(PlumbVary *vary, double knees_out_rad);

/* Derivative of four samples. */
static inline double vary_slope(const PlumbVary *vary, const double sample[PLUMB_STENCIL])
{
    double sum = 0.0;
    for (int k = 0; k < PLUMB_STENCIL; k++) {
        sum += plumb_stencil_weight[k] * sample[k];
    }
    return sum / vary->h;
}

#endif
