/* SPDX-License-Identifier: MIT */
/* A plain chart: two axes with round ticks, curves, and their names at the right end. */
#ifndef PLUMBAR_VIEWER_PLOT_H
#define PLUMBAR_VIEWER_PLOT_H

#include "scene/board.h"

/* Figures as a person reads them. */
typedef struct PlumbAxis {
    double low;
    double high;
    const char *label; /* with its unit */
} PlumbAxis;

typedef struct PlumbPlot {
    const PlumbBoard *board;
    PlumbRect rect; /* of the field within the axes */
    PlumbAxis x;
    PlumbAxis y;
} PlumbPlot;

/* Widens low..high so that value lies within; an empty axis has low > high. */
void plumb_axis_widen(PlumbAxis *axis, double value);
/* The round step at which about count ticks stand, and its decimals. */
double plumb_axis_step(double span, int count, int *decimals);

/* Draws the axes in rect, with room_mm to the right for names of curves. */
PlumbPlot plumb_plot_begin(const PlumbBoard *board, PlumbRect rect, double room_mm, PlumbAxis x,
                           PlumbAxis y);
PlumbVec2 plumb_plot_place(const PlumbPlot *plot, double x, double y);
/* A curve, broken where a figure is not finite. */
void plumb_plot_curve(const PlumbPlot *plot, PlumbPen pen, PlumbTag tag, const double *x,
                      const double *y, int count);

/* The names of count curves beside the field, each behind a sample_mm long sample of its pen (0:
 * none) and as near to its y as the others leave it. */
void plumb_plot_names(const PlumbPlot *plot, const char *const *name, const PlumbPen *pen,
                      const PlumbRole *role, const PlumbTag *tag, const double *y, int count,
                      double sample_mm);

#endif
