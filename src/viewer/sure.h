/* SPDX-License-Identifier: MIT */
/* How sure the figures on show are: bodies drawn and solved while the window is idle. */
#ifndef PLUMBAR_VIEWER_SURE_H
#define PLUMBAR_VIEWER_SURE_H

#include <plumbar/compare.h>

enum {
    PLUMB_SURE_COARSE = 100, /* the first look */
    PLUMB_SURE_MOST = 2000,
    PLUMB_SURE_PATHS = 400, /* a path costs as much as many poses */
    PLUMB_SURE_POINTS = 21,
    PLUMB_SURE_PATH_SIZE = PLUMB_FACT_COUNT + PLUMB_SURE_POINTS * PLUMB_STEP_COUNT,
    PLUMB_SURE_WORDS = 400
};

/* What is drawn: the figures of the set-up, their differences to what is pencilled, or the path. */
typedef enum PlumbSureKind {
    PLUMB_SURE_NONE,
    PLUMB_SURE_FIGURES,
    PLUMB_SURE_CHANGES,
    PLUMB_SURE_PATH
} PlumbSureKind;

typedef struct PlumbSure {
    PlumbSureKind kind; /* of the draws; NONE: to be begun anew */
    PlumbBodies bodies;
    PlumbPair pair;                         /* of figures and path only the second side */
    int done;                               /* bodies solved */
    int summed;                             /* figures summed up of the round that is being made */
    int shown;                              /* bodies behind what is shown; 0: nothing is */
    PlumbEstimate next[PLUMB_OUTPUT_COUNT]; /* of the round that is being made */
    PlumbEstimate of[PLUMB_OUTPUT_COUNT];   /* shown: by the lift's figures, of a path its facts */
    double sd[PLUMB_OUTPUT_COUNT];          /* shown, NaN where nothing is */
    bool has_measuring;                     /* something to measure next is known */
    PlumbMeasuring measuring;
    double after[PLUMB_GAIN_COUNT];    /* what it would leave of the spreads that are told of it */
    char next_words[PLUMB_SURE_WORDS]; /* of it; "" for nothing */
    PlumbSample sample[PLUMB_SURE_MOST];
    double change[PLUMB_SURE_MOST * PLUMB_OUTPUT_COUNT];
    double path[PLUMB_SURE_PATHS * PLUMB_SURE_PATH_SIZE];
    PlumbPathPoint point[PLUMB_SURE_POINTS];
    double value[PLUMB_SURE_MOST];
    double scratch[2 * PLUMB_SURE_MOST];
} PlumbSure;

struct PlumbDesk;

/* Nothing that was drawn holds any more. */
void plumb_sure_touch(struct PlumbDesk *desk);
/* Begins anew where the page on show asks for other draws; puts what is known into words. */
void plumb_sure_settle(struct PlumbDesk *desk);
/* Draws on for about seconds; false where nothing is left to do, or something is being dragged. */
bool plumb_sure_work(struct PlumbDesk *desk, double seconds);
/* The spread that is shown: by the lift's own list of figures, of the Path page of facts; NULL
 * where there is none (yet), or the figure is prescribed. */
const PlumbEstimate *plumb_sure_of(const struct PlumbDesk *desk, int index);
/* Puts the spreads that are known beside the differences of the Compare page. */
void plumb_sure_fill(struct PlumbDesk *desk);

#endif
