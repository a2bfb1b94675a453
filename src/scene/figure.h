/* SPDX-License-Identifier: MIT */
/* The lifter as a mechanism: tapered links between joints, from the side and from the front. */
#ifndef PLUMBAR_SCENE_FIGURE_H
#define PLUMBAR_SCENE_FIGURE_H

#include "scene/board.h"

typedef enum PlumbLook {
    PLUMB_INKED,
    PLUMB_PENCILLED, /* thin and grey, under the inked one */
    PLUMB_WISHED     /* dashed: what does not hold */
} PlumbLook;

/* Where the front view's discs stand: from the middle to their inner face, m, and whether the bar
 * is drawn broken because they truly stand further out. */
typedef struct PlumbDiscPlace {
    double inner_m;
    bool broken;
} PlumbDiscPlace;

PlumbDiscPlace plumb_disc_place(const PlumbDrawing *drawing);

/* The bar end-on with its disc; over everything else. */
void plumb_bar_side(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                    const PlumbPosition *position, PlumbLook look);
/* Links and joints, without the bar. */
void plumb_figure_side(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                       const PlumbSetup *setup, const PlumbPosition *position, PlumbLook look);
/* Links, joints and bar. */
void plumb_figure_front(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                        const PlumbSetup *setup, const PlumbPosition *position, PlumbLook look);

/* The box of all of the figure, bar and discs: side (x, y) and half the width of the front (z). */
typedef struct PlumbExtent {
    double left_m;
    double right_m;
    double bottom_m;
    double top_m;
    double half_m;
} PlumbExtent;

void plumb_extent_add(PlumbExtent *extent, const PlumbLifter *lifter, const PlumbSetup *setup,
                      const PlumbPosition *position);

/* Height of the ground that carries discs or blocks: 0, or below the lifter's platform. */
double plumb_ground_m(const PlumbSetup *setup);

/* Thickness of the drawn disc, m; a picture, not a measure. */
#define PLUMB_DISC_DRAWN_M 0.05
/* End of the bar that is drawn beyond the disc, m. */
#define PLUMB_SLEEVE_DRAWN_M 0.03

#endif
