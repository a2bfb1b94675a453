/* SPDX-License-Identifier: MIT */
/* What the parts of a film's chart share. */
#ifndef PLUMBAR_SCENE_FILM_CHART_H
#define PLUMBAR_SCENE_FILM_CHART_H

#include <plumbar/film_chart.h>

#include "scene/axis.h"
#include "scene/board.h"

/* Length of a tick on an axis, mm. */
#define PLUMB_FILM_TICK_MM 1.2

/* A panel over time: one or two curves. */
typedef struct PlumbFilmPanel {
    const char *words;
    PlumbQuantity quantity;
    double (*figure[2])(const PlumbSeriesFrame *frame); /* the second may be NULL */
    const char *name[2];                                /* at the curves' ends; may be NULL */
    bool from_first;                                    /* the rise: less that of the first frame */
    bool of_elbow; /* rests on the elbow: dotted where none was seen */
    bool turn;     /* the largest turn of the upper arm that was asked for is marked */
} PlumbFilmPanel;

/* Draws one between two heights over the axis of time. */
void plumb_film_panel(const PlumbBoard *board, const PlumbFilmChart *chart,
                      const PlumbFilmPanel *panel, const PlumbChartAxis *time, double top_mm,
                      double foot_mm);

/* The bar's path over the foot, of a press over the shoulder, at one scale for both directions,
 * with the events on it. */
void plumb_film_path(const PlumbBoard *board, const PlumbFilmChart *chart, PlumbRect rect);
/* The frame whose bar is nearest to a place of it; -1 where none is near. */
int plumb_film_path_frame(const PlumbFilmChart *chart, PlumbRect rect, PlumbVec2 at_mm);

#endif
