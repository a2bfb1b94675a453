/* SPDX-License-Identifier: MIT */
/* Figures on the views: labels that keep their place while a fit is held, and angles. */
#ifndef PLUMBAR_SCENE_FIGURES_H
#define PLUMBAR_SCENE_FIGURES_H

#include "scene/views.h"

/* Adds a line "before value" to a label. */
void plumb_caption(const PlumbViews *views, PlumbLabel *label, double size_mm, const char *before,
                   double value_si, PlumbQuantity quantity);

/* Places a figure's label where the fit holds it, or decides; -1 where it is not shown. */
int plumb_place_figure(const PlumbViews *views, PlumbFigure figure, const PlumbLabel *label,
                       const PlumbSpot *spot, int count, PlumbRect bounds, double limit);

/* Arc with its reference leg and what it is measured from; only where its label finds room. */
void plumb_draw_angle(const PlumbViews *views, PlumbFigure figure);

#endif
