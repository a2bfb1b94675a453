/* SPDX-License-Identifier: MIT */
/* Where the lifter stands among many, beside the rulers of the body: people drawn and solved in the
 * set-up on show while the window is idle. */
#ifndef PLUMBAR_VIEWER_CROWD_H
#define PLUMBAR_VIEWER_CROWD_H

#include <plumbar/population.h>

enum {
    PLUMB_CROWD_COARSE = 200, /* the first look */
    PLUMB_CROWD_MOST = 2000,
    PLUMB_CROWD_WORDS = 700
};

typedef struct PlumbCrowd {
    bool begun;
    PlumbSampler sampler;
    PlumbSetup setup;
    int done;  /* people solved */
    int shown; /* people behind the words; 0: there are none */
    char words[PLUMB_CROWD_WORDS];
    PlumbPerson person[PLUMB_CROWD_MOST];
    double scratch[2 * PLUMB_CROWD_MOST];
} PlumbCrowd;

struct PlumbDesk;

/* Nothing that was drawn holds any more. */
void plumb_crowd_touch(struct PlumbDesk *desk);
/* Draws on for about seconds; false where nothing is left to do: all are drawn, something is being
 * dragged, or the rulers of the body were put away, which stops it. */
bool plumb_crowd_work(struct PlumbDesk *desk, double seconds);
/* The words for the notes; "" where there are none. */
const char *plumb_crowd_words(const struct PlumbDesk *desk);

#endif
