/* SPDX-License-Identifier: MIT */
/* A bench press told: in words and tables, as JSON, as CSV; and the commands on it. */
#ifndef PLUMBAR_CLI_PRESS_OUT_H
#define PLUMBAR_CLI_PRESS_OUT_H

#include "csv_out.h"
#include "json_out.h"
#include "request.h"
#include "samples.h"
#include "text_out.h"

#include <plumbar/press.h>

/* What a report of a press speaks of. */
typedef struct PlumbPressReport {
    const PlumbCliRequest *request;
    const PlumbPressAnswer *answer;
    PlumbUnits units;
    const PlumbCliSamples *samples; /* NULL or count 0: no intervals */
} PlumbPressReport;

/* Lifter, set-up, what leads, outcome; with stature and mass alone what to measure first. */
void plumb_press_report_head(const PlumbPressReport *report, PlumbCliOutput *out);
/* The whole set-up. */
void plumb_press_report(const PlumbPressReport *report, PlumbCliOutput *out);

/* The whole answer. at: the step of a path whose instant stands in place of the touch; NULL for the
 * set-up itself, which also has `end`. */
void plumb_press_json(PlumbJson json, const PlumbLifter *lifter, const PlumbPressAnswer *answer,
                      const PlumbJsonFrame *frame, const PlumbPressPosition *at);

/* Columns of an answer and of an instant, and the cells of one row. */
void plumb_press_csv_answer_head(PlumbCsv *csv);
void plumb_press_csv_answer(PlumbCsv *csv, const PlumbLifter *lifter,
                            const PlumbPressAnswer *answer);
void plumb_press_csv_position_head(PlumbCsv *csv);
void plumb_press_csv_position(PlumbCsv *csv, const PlumbPressPosition *position);

/* The command path for a request whose lift is a bench press; with --time the way up in motion. */
PlumbCliExit plumb_press_path_run(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                  PlumbCliFault *fault);
PlumbCliExit plumb_press_motion_run(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                    PlumbCliFault *fault);

/* A range of touches with what ends it below and above. */
void plumb_print_touches(const char *name, const PlumbInterval *interval, PlumbUnits units,
                         PlumbCliOutput *out);

#endif
