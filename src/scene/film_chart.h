/* SPDX-License-Identifier: MIT */
/* What the parts of a film's chart share. */
#ifndef PLUMBAR_SCENE_FILM_CHART_H
#define PLUMBAR_SCENE_FILM_CHART_H

#include <plumbar/film_chart.h>

#include "scene/board.h"

/* The bar's path over the foot at one scale for both directions, with the events on it. */
void plumb_film_path(const PlumbBoard *board, const PlumbFilmChart *chart, PlumbRect rect);
/* The frame whose bar is nearest to a place of it; -1 where none is near. */
int plumb_film_path_frame(const PlumbFilmChart *chart, PlumbRect rect, PlumbVec2 at_mm);

#endif
