/* SPDX-License-Identifier: MIT */
/* A still that a command reads: what is asked, what the marks told, and the model's own answer. */
#ifndef PLUMBAR_CLI_TRACE_STILL_H
#define PLUMBAR_CLI_TRACE_STILL_H

#include "output.h"
#include "request.h"

#include <plumbar/marks_file.h>
#include <plumbar/photo.h>
#include <plumbar/advice.h>
#include <plumbar/start.h>
#include <plumbar/still.h>
#include <plumbar/still_picture.h>

/* One block for the heap. */
typedef struct PlumbCliStill {
    PlumbCliRequest request;
    const char *marks_path;
    PlumbMarksMap map;
    char picture_path[PLUMB_STILLS_MAX][PLUMB_CLI_PATH_SIZE]; /* "" where it was not found */
    PlumbStills all;
} PlumbCliStill;

/* Reads words and files and fits. PLUMB_BAD_INPUT or PLUMB_READ_FAILED with the place in *fault. */
PlumbStatus plumb_still_read(const PlumbCliArgs *args, PlumbCliStill *still, PlumbCliFault *fault);

/* The start that the picture shows, solved as a set-up of the lifter's own. */
typedef struct PlumbStillStart {
    PlumbOwnStart own;
    double hip_height_sd_m;
    bool advised;       /* a single change removes some of the rise expected */
    PlumbOption option; /* the one that removes most */
} PlumbStillStart;

/* units: in which the change is counted. False where the picture shows no start of a pull: another
 * lift or view, or a bar in the air. */
bool plumb_still_start(const PlumbCliStill *still, int index, PlumbUnits units,
                       PlumbStillStart *start);
void plumb_still_start_text(const PlumbStillStart *start, PlumbUnits units, PlumbCliOutput *out);

void plumb_still_text(const PlumbCliStill *still, PlumbUnits units, PlumbCliOutput *out);
void plumb_still_json(const PlumbCliStill *still, PlumbCliOutput *out);
/* All stills, each over its picture where there is one, into out: a page each of a PDF, one below
 * the other in SVG and PNG. */
PlumbStatus plumb_still_draw(const PlumbCliStill *still, const PlumbCliArgs *args,
                             PlumbCliOutput *out, PlumbCliFault *fault);

#endif
