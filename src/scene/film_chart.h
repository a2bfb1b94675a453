/* SPDX-License-Identifier: MIT */
/* What the parts of a film's chart share. */
#ifndef PLUMBAR_SCENE_FILM_CHART_H
#define PLUMBAR_SCENE_FILM_CHART_H

#include <plumbar/film_chart.h>

#include "scene/board.h"

/* The bar's path over the foot at one scale for both directions, with the events on it. */
void plumb_film_path(const PlumbBoard *board, const PlumbFilmChart *chart, PlumbRect rect);

#endif
