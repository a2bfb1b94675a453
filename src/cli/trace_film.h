/* SPDX-License-Identifier: MIT */
/* A film that a command reads: frames, marks, what was followed, and the lift that it shows. */
#ifndef PLUMBAR_CLI_TRACE_FILM_H
#define PLUMBAR_CLI_TRACE_FILM_H

#include "output.h"
#include "request.h"
#include "trace_words.h"

#include <plumbar/film_reading.h>

/* One block for the heap. */
typedef struct PlumbCliFilm {
    PlumbCliRequest request;
    const char *film_path;
    const char *marks_path;
    PlumbTraceWords words;
    double rate_per_s; /* 0: the film's own */
    double cutoff_hz;  /* 0: by residual analysis */
    double limit[PLUMB_FILM_LIMIT_COUNT];
    PlumbFilmReading *read; /* owned */
    bool stopped;           /* by Ctrl+C */
} PlumbCliFilm;

/* Reads words, frames and marks, follows and fits. PLUMB_BAD_INPUT, PLUMB_READ_FAILED ... with the
 * place in *fault. */
PlumbStatus plumb_film_read(const PlumbCliArgs *args, PlumbCliFilm *film, PlumbCliFault *fault);
void plumb_film_free(PlumbCliFilm *film);

void plumb_film_text(const PlumbCliFilm *film, PlumbUnits units, PlumbCliOutput *out);
/* The table of events, part of that text. */
void plumb_film_events(const PlumbCliFilm *film, PlumbUnits units, PlumbCliOutput *out);
void plumb_film_json(const PlumbCliFilm *film, PlumbCliOutput *out);
/* A row a frame. */
void plumb_film_csv(const PlumbCliFilm *film, PlumbCliOutput *out);
/* The chart and the frames of the events, as the ending of args->output asks. */
PlumbStatus plumb_film_draw(const PlumbCliFilm *film, const PlumbCliArgs *args, PlumbCliOutput *out,
                            PlumbCliFault *fault);

#endif
