/* SPDX-License-Identifier: MIT */
/* The bodies that the lifter of a request could have, solved in its set-up. */
#ifndef PLUMBAR_CLI_SAMPLES_H
#define PLUMBAR_CLI_SAMPLES_H

#include "request.h"

#include <plumbar/interval.h>

/* count 0: intervals were not asked for; nothing else is then set. */
typedef struct PlumbCliSamples {
    int count;
    uint64_t seed;
    bool bare; /* nothing but stature and mass is known */
    PlumbBodies bodies;
    PlumbSample *sample;
    PlumbIntervals intervals;
    int measuring_count;
    PlumbMeasuring measuring[PLUMB_MEASURING_MAX]; /* what shrinks the figures most comes first */
    double share[PLUMB_MEASURING_MAX];             /* of their variance */
} PlumbCliSamples;

/* Draws and solves count bodies by --seed and --threads. Give back with plumb_samples_drop.
 * PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_samples_take(const PlumbCliArgs *args, const PlumbCliRequest *request, int count,
                               PlumbCliSamples *samples, PlumbCliFault *fault);
void plumb_samples_drop(PlumbCliSamples *samples);

/* The error that there is no memory for count bodies. */
PlumbStatus plumb_samples_no_memory(PlumbCliFault *fault);

#endif
