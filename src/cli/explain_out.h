/* SPDX-License-Identifier: MIT */
/* A working in words and as data. */
#ifndef PLUMBAR_CLI_EXPLAIN_OUT_H
#define PLUMBAR_CLI_EXPLAIN_OUT_H

#include "output.h"

#include <plumbar/explain.h>

/* What is printed. */
typedef struct PlumbCliWorking {
    const PlumbExplanation *explanation;
    bool moving;
    double t_s; /* of an instant in motion, NaN at rest */
    double rep_time_s;
} PlumbCliWorking;

void plumb_working_text(const PlumbCliWorking *working, PlumbUnits units, PlumbCliOutput *out);
void plumb_working_json(const PlumbCliWorking *working, PlumbCliOutput *out);
/* The terms of the last equation, its result in the last row. */
void plumb_working_csv(const PlumbCliWorking *working, PlumbCliOutput *out);

/* "m [kg]": the head of a column. */
void plumb_working_head(PlumbText *text, const PlumbExplainColumn *column);

#endif
