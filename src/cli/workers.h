/* SPDX-License-Identifier: MIT */
/* Long work shared out over the machine's cores, with progress, that Ctrl+C stops. */
#ifndef PLUMBAR_CLI_WORKERS_H
#define PLUMBAR_CLI_WORKERS_H

#include <stdbool.h>

/* Does items first to first + count - 1. Called from several threads, never twice for one item. */
typedef void (*PlumbCliWork)(void *context, int first, int count);

typedef struct PlumbCliJob {
    PlumbCliWork work;
    void *context;
    int count;
    int threads;       /* 0: as many as the machine has */
    bool stoppable;    /* Ctrl+C ends the work, not the program */
    const char *words; /* of the progress line, shown where standard error is a terminal; NULL: none
                        */
} PlumbCliJob;

/* Does the work; returns how many items are done: all, or, where it was stopped, all from 0 to that
 * number. */
int plumb_workers_run(const PlumbCliJob *job);

#endif
