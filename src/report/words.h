/* SPDX-License-Identifier: MIT */
/* Parts of a handout's words. */
#ifndef PLUMBAR_REPORT_WORDS_H
#define PLUMBAR_REPORT_WORDS_H

#include "report/solved_drawing.h"

#include <plumbar/report.h>

/* Builds the lifter of an order, and the one of its `before`; their set-ups must be of one lift and
 * one body. */
PlumbStatus plumb_order_check(const PlumbOrder *order, PlumbLifter *lifter,
                              PlumbLifter *before_lifter, PlumbError *error);
/* Name, names of the set-ups, date and units onto the drawing. */
void plumb_order_names(const PlumbOrder *order, PlumbDrawing *drawing);

/* "Bench press, 80.0 kg", the head of a page. */
void plumb_lift_heading(PlumbText *text, const PlumbSetup *setup, PlumbUnits units);

/* Up to PLUMB_HANDOUT_FEELS sentences on what an athlete notices. */
void plumb_feel_words(const PlumbSolved *before, const PlumbSolved *after, PlumbUnits units,
                      PlumbHandoutBlock *block);

/* The figures, with the spread of spec's body where bodies are drawn. PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_figure_rows(const PlumbHandoutAsk *ask, PlumbHandout *handout, PlumbError *error);

/* What the page rests on, in small print. */
void plumb_rests_on_words(const PlumbHandoutAsk *ask, const PlumbHandout *handout, PlumbText *text);

#endif
