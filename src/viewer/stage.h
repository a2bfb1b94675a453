/* SPDX-License-Identifier: MIT */
/* The SDL window: its pixels, its events, one frame. */
#ifndef PLUMBAR_VIEWER_STAGE_H
#define PLUMBAR_VIEWER_STAGE_H

#include "desk.h"

#include <SDL.h>

enum { PLUMB_STATE_LINE_SIZE = 4096 };

typedef struct PlumbStage {
    PlumbDesk *desk;
    SDL_Window *window;
    double px_per_mm; /* of the window's own coordinates, as events have them */
    bool motion;      /* a motion waits: only the last of a batch counts */
    PlumbVec2 motion_mm;
    bool states; /* a line on standard output for each change */
    char line[PLUMB_STATE_LINE_SIZE];
} PlumbStage;

/* Paints those slices of the desk's drawing that the surface does not show yet, and shows them. */
bool plumb_stage_paint(PlumbStage *stage, SDL_Surface *surface);

/* Opens the window. On failure *error says why: no display above all. */
PlumbStatus plumb_stage_open(PlumbStage *stage, PlumbDesk *desk, bool need_display,
                             PlumbError *error);
void plumb_stage_close(PlumbStage *stage);

/* Settles the desk and paints it where something has changed. */
bool plumb_stage_frame(PlumbStage *stage, PlumbError *error);
/* Takes the events that have come, without waiting. */
void plumb_stage_take_all(PlumbStage *stage);
/* Runs until the window is closed. */
bool plumb_stage_run(PlumbStage *stage, PlumbError *error);
/* Finishes all curves, then paints. */
bool plumb_stage_finish(PlumbStage *stage, PlumbError *error);
/* Writes what the window shows as PNG. */
PlumbStatus plumb_stage_shot(PlumbStage *stage, const char *path, PlumbError *error);

/* Prints the state where it differs from the last line, or in any case. */
void plumb_stage_print_state(PlumbStage *stage, bool always);
void plumb_state_line(const PlumbDesk *desk, char *line, size_t size);

#endif
