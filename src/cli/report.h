/* SPDX-License-Identifier: MIT */
/* An answer in words and tables: what leads, the outcome, the figures in order of importance. */
#ifndef PLUMBAR_CLI_REPORT_H
#define PLUMBAR_CLI_REPORT_H

#include "output.h"
#include "request.h"
#include "samples.h"
#include "text_out.h"

#include <plumbar/solve.h>

/* What a report speaks of. */
typedef struct PlumbReport {
    const PlumbCliRequest *request;
    const PlumbLifter *lifter;
    const PlumbAnswer *answer;
    PlumbUnits units;
    const PlumbCliSamples *samples; /* NULL or count 0: no intervals */
} PlumbReport;

/* Pieces that the reports of all lifts are made of: the line of the lifter, findings in words, and
 * the tables, memory, tape and extrapolation that figures rest on, without the caution. */
void plumb_print_lifter(const PlumbCliRequest *request, PlumbUnits units, PlumbCliOutput *out);
void plumb_print_findings(const PlumbFinding *finding, int count, PlumbUnits units,
                          PlumbCliOutput *out);
void plumb_print_rests_on(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbUnits units,
                          PlumbCliOutput *out);

/* Likewise how sure they are. The estimate of a figure in the lift's own list, NULL where none was
 * drawn or it is prescribed; two cells, "± 3.5 cm" and "46.8 to 60.4 cm", empty for NULL; with
 * stature and mass alone what to measure first, else nothing; what to measure next. */
const PlumbEstimate *plumb_samples_estimate(const PlumbCliSamples *samples, int output);
void plumb_print_spread(const PlumbEstimate *estimate, PlumbQuantity quantity,
                        PlumbCliTable *table);
void plumb_print_measure_first(const PlumbCliSamples *samples, const PlumbCliRequest *request,
                               PlumbUnits units, PlumbCliOutput *out);
void plumb_print_measure_next(const PlumbCliSamples *samples, const PlumbCliRequest *request,
                              PlumbUnits units, PlumbCliOutput *out);

/* Lifter, set-up, what leads, outcome. */
void plumb_report_head(const PlumbReport *report, PlumbCliOutput *out);
/* Figures, joints and angles of start and end. */
void plumb_report_figures(const PlumbReport *report, PlumbCliOutput *out);
/* Window and low-effort range with what ends them, work, hip rise. */
void plumb_report_ranges(const PlumbReport *report, PlumbCliOutput *out);
/* With stature and mass alone: what to measure first. Nothing else where something is known. */
void plumb_report_measure_first(const PlumbReport *report, PlumbCliOutput *out);
/* What the intervals cover, how many bodies hold, what to measure next. */
void plumb_report_sure(const PlumbReport *report, PlumbCliOutput *out);
/* Whether figures have their spread: intervals were asked for and the pose holds. */
bool plumb_report_is_sure(const PlumbReport *report);
/* The estimate of a figure that is sure in this sense and varies, else NULL. */
const PlumbEstimate *plumb_report_estimate(const PlumbReport *report, PlumbOutput output);
/* Its two cells. */
void plumb_report_spread(const PlumbReport *report, PlumbOutput output, PlumbQuantity quantity,
                         PlumbCliTable *table);
/* Findings in words. */
void plumb_report_findings(const PlumbReport *report, PlumbCliOutput *out);
/* Tables, memory, tape and extrapolation that the figures rest on, and the caution. */
void plumb_report_basis(const PlumbReport *report, PlumbCliOutput *out);

#endif
