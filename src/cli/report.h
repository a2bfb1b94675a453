/* SPDX-License-Identifier: MIT */
/* An answer in words and tables: what leads, the outcome, the figures in order of importance. */
#ifndef PLUMBAR_CLI_REPORT_H
#define PLUMBAR_CLI_REPORT_H

#include "output.h"
#include "request.h"

#include <plumbar/solve.h>

/* What a report speaks of. */
typedef struct PlumbReport {
    const PlumbCliRequest *request;
    const PlumbLifter *lifter;
    const PlumbAnswer *answer;
    PlumbUnits units;
} PlumbReport;

/* Lifter, set-up, what leads, outcome. */
void plumb_report_head(const PlumbReport *report, PlumbCliOutput *out);
/* Figures, joints and angles of start and end. */
void plumb_report_figures(const PlumbReport *report, PlumbCliOutput *out);
/* Window and low-effort range with what ends them, work, hip rise. */
void plumb_report_ranges(const PlumbReport *report, PlumbCliOutput *out);
/* Findings in words. */
void plumb_report_findings(const PlumbReport *report, PlumbCliOutput *out);
/* Tables, memory, tape and extrapolation that the figures rest on, and the caution. */
void plumb_report_basis(const PlumbReport *report, PlumbCliOutput *out);

#endif
