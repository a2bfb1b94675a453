/* SPDX-License-Identifier: MIT */
/* What a command prints of an answer whatever its lift. */
#ifndef PLUMBAR_CLI_SOLVED_OUT_H
#define PLUMBAR_CLI_SOLVED_OUT_H

#include "csv_out.h"
#include "json_out.h"
#include "request.h"
#include "text_out.h"

#include <plumbar/solved.h>

enum { PLUMB_FIGURE_KEY_SIZE = 96 };

/* A column of a table: a figure of the lift and its head. */
typedef struct PlumbCliColumn {
    int output;
    const char *words;
} PlumbCliColumn;

/* Lifter, set-up, what leads, outcome; with samples (may be NULL) what to measure first. */
void plumb_solved_head(const PlumbCliRequest *request, const PlumbSolved *solved,
                       const PlumbCliSamples *samples, PlumbUnits units, PlumbCliOutput *out);
/* The keys of the whole answer, body and lifter with them. */
void plumb_solved_json(PlumbJson json, const PlumbLifter *lifter, const PlumbSolved *solved);
/* Columns of the answer and of its start, hole or touch, and the cells of one row. */
void plumb_solved_csv_head(PlumbCsv *csv, PlumbLift lift);
void plumb_solved_csv(PlumbCsv *csv, const PlumbLifter *lifter, const PlumbSolved *solved);

/* The key of a figure, "back_angle_rad", in key[]; returns it. */
const char *plumb_figure_key(PlumbLift lift, int output, char key[PLUMB_FIGURE_KEY_SIZE]);

#endif
