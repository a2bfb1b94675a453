/* SPDX-License-Identifier: MIT */
/* A frame of a film with the figure that was read from it drawn over it. */
#ifndef PLUMBAR_FILM_FRAME_H
#define PLUMBAR_FILM_FRAME_H

#include <plumbar/series.h>
#include <plumbar/still.h>

/* The film; pointers are borrowed. */
typedef struct PlumbFilmFrames {
    const PlumbSeriesAsk *ask; /* as it was read, not from the front; size_px[0] given */
    const PlumbSeries *series; /* what came out */
    PlumbStills *still;        /* room to work in, on the heap */
    PlumbUnits units;
    PlumbTextWidth text_width;
    void *text_user;
} PlumbFilmFrames;

/* A frame as a still of its own, of a view that is fitted: pose, body and camera as the film has
 * them, marks that are trusted in it. It borrows ask->shift. */
void plumb_film_still(const PlumbSeriesAsk *ask, const PlumbSeries *series, int frame,
                      PlumbStills *still);

/* Draws the frame of an event that the film has into rect of a page that is begun: event and time,
 * the figure as large as fits, the marks that were trusted, a few figures in words. *room is the
 * part of the page where the picture is seen, *picture where the whole of it belongs. */
void plumb_compose_film_frame(PlumbScene *scene, const PlumbFilmFrames *film, PlumbEvent event,
                              PlumbRect rect, PlumbRect *room, PlumbRect *picture);

/* What the lines are, and the caution: two lines of small text with their top at at_mm. */
void plumb_compose_film_legend(PlumbScene *scene, const PlumbFilmFrames *film, PlumbVec2 at_mm);

#endif
