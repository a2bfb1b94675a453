/* SPDX-License-Identifier: MIT */
/* A lift on film as a chart: the bar's path over the foot, of a press over the shoulder, and
 * heights, angles and speed over time with events marked; with a cursor it is the timeline of a
 * film that is played. From the front and from the ends of a bench there is no path. */
#ifndef PLUMBAR_FILM_CHART_H
#define PLUMBAR_FILM_CHART_H

#include <plumbar/scene.h>
#include <plumbar/series.h>

/* What is drawn. Pointers are borrowed. */
typedef struct PlumbFilmChart {
    const PlumbSeries *series;
    const PlumbFilmFinding *finding; /* as plumb_film_findings tells them */
    int finding_count;
    const char *name; /* of the film, "" allowed */
    const char *date; /* as it shall stand, "" allowed */
    PlumbUnits units;
    int cursor; /* frame that is shown; -1: none */
    double text_scale;
    PlumbTextWidth text_width;
    void *text_user;
} PlumbFilmChart;

/* Path and panels within rect. */
void plumb_compose_film_panels(PlumbScene *scene, const PlumbFilmChart *chart, PlumbRect rect);
/* The frame whose time stands at a place of the panels drawn in rect, or whose bar is nearest to a
 * place of the path, for a click; -1 beside them. */
int plumb_film_chart_frame(const PlumbFilmChart *chart, PlumbRect rect, PlumbVec2 at_mm);
/* A whole sheet: begins *scene; title, panels, findings or that nothing was found, caution. */
void plumb_compose_film(PlumbScene *scene, const PlumbFilmChart *chart, PlumbFormat format);

#endif
