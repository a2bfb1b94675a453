/* SPDX-License-Identifier: MIT */
/* A film that a command reads: frames, marks, what was followed, and the lift that it shows. */
#ifndef PLUMBAR_CLI_TRACE_FILM_H
#define PLUMBAR_CLI_TRACE_FILM_H

#include "output.h"
#include "request.h"
#include "trace_words.h"

#include <plumbar/film_marks.h>
#include <plumbar/frames.h>
#include <plumbar/series.h>

/* One block for the heap; arrays are its own. */
typedef struct PlumbCliFilm {
    PlumbCliRequest request;
    const char *film_path;
    const char *marks_path;
    PlumbTraceWords words;
    double rate_per_s; /* 0: the film's own */
    double cutoff_hz;  /* 0: by residual analysis */
    PlumbFrames *frames;
    int width_px;
    int height_px;
    int frame_count;
    double *time_s;
    PlumbFilmMarks marks;
    PlumbSeriesTrack track[PLUMB_TRACKS_MAX];
    int track_count;
    PlumbAnchor anchor[PLUMB_FILM_MARKS_MAX];
    PlumbTrackAsk follow;
    PlumbTracks tracks;
    PlumbTraceBody body;
    PlumbSeriesAsk ask;
    PlumbSeries series;
    PlumbSeriesFrame *frame;
    double limit[PLUMB_FILM_LIMIT_COUNT];
    PlumbFilmFinding finding[PLUMB_FILM_LIMIT_COUNT];
    int finding_count;
    bool stopped; /* by Ctrl+C */
} PlumbCliFilm;

/* Reads words, frames and marks, follows and fits. PLUMB_BAD_INPUT, PLUMB_READ_FAILED ... with the
 * place in *fault. */
PlumbStatus plumb_film_read(const PlumbCliArgs *args, PlumbCliFilm *film, PlumbCliFault *fault);
void plumb_film_free(PlumbCliFilm *film);

/* Tracks, anchors and fixed marks out of the marks; facing is found. */
PlumbStatus plumb_film_tracks(PlumbCliFilm *film, PlumbCliFault *fault);

/* How many of a track's frames are in doubt; the longest run begins at *from, ends at *to. */
int plumb_film_doubtful(const PlumbCliFilm *film, int track, int *from, int *to);

void plumb_film_text(const PlumbCliFilm *film, PlumbUnits units, PlumbCliOutput *out);
void plumb_film_json(const PlumbCliFilm *film, PlumbCliOutput *out);
/* A row a frame. */
void plumb_film_csv(const PlumbCliFilm *film, PlumbCliOutput *out);
/* Events by their time: the one after `last` (-1: the first); -1 where there is none. */
int plumb_film_next_event(const PlumbSeries *series, int last);
/* The chart and the frames of the events, as the ending of args->output asks. */
PlumbStatus plumb_film_draw(const PlumbCliFilm *film, const PlumbCliArgs *args, PlumbCliOutput *out,
                            PlumbCliFault *fault);

#endif
