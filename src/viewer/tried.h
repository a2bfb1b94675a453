/* SPDX-License-Identifier: MIT */
/* What to try first, judged by drawn bodies while the window is idle: the list stands at once to
 * first order, and is put right by the draws once. */
#ifndef PLUMBAR_VIEWER_TRIED_H
#define PLUMBAR_VIEWER_TRIED_H

#include <plumbar/hold.h>

typedef struct PlumbTried {
    bool settled; /* the list is judged by draws */
    int count;    /* draws that it takes; 0: nothing to draw */
    int done;
    int option_count; /* the first options of the list, those that gain */
    PlumbSampler sampler;
    PlumbHold hold[PLUMB_OPTION_MAX];
    double gain[PLUMB_HOLD_DRAWS_MAX * (1 + PLUMB_OPTION_MAX)];
    double scratch[2 * PLUMB_HOLD_DRAWS_MAX];
} PlumbTried;

struct PlumbDesk;

/* A list was ranked: its draws begin anew. */
void plumb_tried_begin(struct PlumbDesk *desk);
/* Draws on for about seconds; false where nothing is left to do: no list is on, it is settled, or
 * something is being dragged. */
bool plumb_tried_work(struct PlumbDesk *desk, double seconds);

#endif
