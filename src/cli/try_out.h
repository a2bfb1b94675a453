/* SPDX-License-Identifier: MIT */
/* A ranking of what to try first: in words, as JSON, as CSV. */
#ifndef PLUMBAR_CLI_TRY_OUT_H
#define PLUMBAR_CLI_TRY_OUT_H

#include "output.h"
#include "request.h"
#include "try_sure.h"

#include <plumbar/start.h>

typedef struct PlumbCliTry {
    PlumbCliRequest request;
    PlumbSolved solved;
    PlumbUnits units;
    PlumbGoal goal;
    PlumbAdvice advice;
    PlumbOption option[PLUMB_OPTION_MAX];
    bool own_start; /* a deadlift whose start the lifter describes */
    PlumbOwnStart own;
    PlumbCliTrySure sure;
} PlumbCliTry;

/* What --for asks for; without it plumb_goal_first. */
PlumbStatus plumb_cli_goal(const PlumbCliArgs *args, const PlumbSolved *solved, PlumbGoal *goal,
                           PlumbCliFault *fault);
void plumb_try_text(const PlumbCliTry *try, PlumbCliOutput *out);
void plumb_try_json(const PlumbCliTry *try, PlumbCliOutput *out);
void plumb_try_csv(const PlumbCliTry *try, PlumbCliOutput *out);

#endif
