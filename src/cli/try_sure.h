/* SPDX-License-Identifier: MIT */
/* A ranking judged by the bodies that the lifter could have. */
#ifndef PLUMBAR_CLI_TRY_SURE_H
#define PLUMBAR_CLI_TRY_SURE_H

#include "samples.h"

#include <plumbar/hold.h>

/* count 0: intervals were not asked for; nothing else is then set. */
typedef struct PlumbCliTrySure {
    int count;
    PlumbCliSamples samples;          /* of the set-up as it is; count 0 of a bench press */
    PlumbHold hold[PLUMB_OPTION_MAX]; /* of the first options, in their order */
    int option_count;
} PlumbCliTrySure;

/* Draws --samples bodies, or as many as the goal has time for, and settles *advice and option by
 * them. Give back with plumb_try_sure_drop. PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_try_sure_take(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                PlumbAdvice *advice, PlumbOption *option, PlumbCliTrySure *sure,
                                PlumbCliFault *fault);
void plumb_try_sure_drop(PlumbCliTrySure *sure);

#endif
