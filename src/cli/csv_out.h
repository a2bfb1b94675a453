/* SPDX-License-Identifier: MIT */
/* CSV as RFC 4180 has it: SI, a unit in every column, an empty cell where there is no figure. */
#ifndef PLUMBAR_CLI_CSV_OUT_H
#define PLUMBAR_CLI_CSV_OUT_H

#include "output.h"

#include <plumbar/interval.h>

#include <stdbool.h>

/* A row under way. */
typedef struct PlumbCsv {
    PlumbCliOutput *out;
    bool begun; /* the row has a cell */
} PlumbCsv;

/* Each writes one cell. Numbers read back to the same double; -0 is 0. */
void plumb_csv_text(PlumbCsv *csv, const char *text);
void plumb_csv_number(PlumbCsv *csv, double value);
void plumb_csv_row_end(PlumbCsv *csv);

/* Four columns of an interval, and its cells; `lift` decides the unit. One cell of findings. */
void plumb_csv_interval_head(PlumbCsv *csv, const char *name, PlumbLift lift);
void plumb_csv_interval(PlumbCsv *csv, const PlumbInterval *interval_si);
void plumb_csv_findings(PlumbCsv *csv, const PlumbFinding *finding, int count);

/* Two columns, "NAME_lowUNIT" and "NAME_highUNIT", of a figure called NAMEUNIT, and their cells: 95
 * % of the drawn bodies lie between. Empty cells for NULL. */
void plumb_csv_bounds_head(PlumbCsv *csv, const char *name, const char *unit);
void plumb_csv_bounds(PlumbCsv *csv, const PlumbEstimate *estimate);
/* The bounds of every figure of the lift; intervals NULL: none were drawn. */
void plumb_csv_intervals_head(PlumbCsv *csv, PlumbLift lift);
void plumb_csv_intervals(PlumbCsv *csv, const PlumbIntervals *intervals, PlumbLift lift);

/* The columns of an answer before those of its position: outcome, travel, window, efforts ...; and
 * the cells of one row. */
void plumb_csv_answer_head(PlumbCsv *csv, PlumbLift lift);
void plumb_csv_answer(PlumbCsv *csv, const PlumbAnswer *answer);

/* The columns of a position, and the cells of one row. */
void plumb_csv_position_head(PlumbCsv *csv);
void plumb_csv_position(PlumbCsv *csv, const PlumbPosition *position, PlumbLift lift);

#endif
