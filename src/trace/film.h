/* SPDX-License-Identifier: MIT */
/* What the questions put to a film share: figures of a lift, those of a press apart. */
#ifndef PLUMB_TRACE_FILM_H
#define PLUMB_TRACE_FILM_H

#include <plumbar/series.h>

/* A figure of the film. frame -1: not seen. */
typedef struct PlumbFilmFigure {
    double value;
    double sd;
    int frame;
} PlumbFilmFigure;

/* Of a press: the bar from the shoulders at the touch and at lockout, toward the feet positive; the
 * largest turn of the upper arm in 3 cm of the bar's rise, at the frame where it begins; at the
 * touch the elbow from under the bar, the forearm from upright, the elbow above the rule. */
PlumbFilmFigure plumb_film_touch(const PlumbSeries *series);
PlumbFilmFigure plumb_film_lockout_off(const PlumbSeries *series);
PlumbFilmFigure plumb_film_arm_turn(const PlumbSeries *series);
PlumbFilmFigure plumb_film_elbow_off(const PlumbSeries *series);
PlumbFilmFigure plumb_film_forearm(const PlumbSeries *series);
PlumbFilmFigure plumb_film_elbow_rule(const PlumbSeries *series);
/* Where on the way up a frame is: 0 off the chest, 1 on the way, 2 before the lockout. */
int plumb_film_turn_where(const PlumbSeries *series, int frame);
/* Whether an elbow was seen nearly all the way up. */
bool plumb_film_elbow_followed(const PlumbSeries *series);

#endif
