/* SPDX-License-Identifier: MIT */
/* A page of a working while it is written, and its parts, each below the last. */
#ifndef PLUMBAR_SCENE_WORKING_PAGE_H
#define PLUMBAR_SCENE_WORKING_PAGE_H

#include <plumbar/working.h>

#include "scene/board.h"

enum { PLUMB_WORKING_LINE_SIZE = 2048 };

/* Of text on A4; a strip wider than it gains nothing, mm. */
#define PLUMB_WORKING_PAPER_MM 192.0

typedef struct PlumbWorkingPage {
    PlumbBoard board;
    const PlumbWorking *working;
    double x_mm;
    double y_mm;
    double width_mm;
    double bottom_mm;
    double em_mm;
    bool strip;
    double end_mm[PLUMB_EXPLAIN_COLUMNS]; /* right edges of the columns of a table */
} PlumbWorkingPage;

/* A paragraph, as far as the page reaches. */
void plumb_working_paragraph(PlumbWorkingPage *page, PlumbRole role, double size_mm,
                             const char *text);

/* The equations with their tables, and the result. */
void plumb_working_steps(PlumbWorkingPage *page);

/* What each symbol is. */
void plumb_working_legend(PlumbWorkingPage *page);

/* What was given, then what each source tells. */
void plumb_working_rests(PlumbWorkingPage *page);

#endif
