/* SPDX-License-Identifier: MIT */
/* What the shared page's module holds between two calls of its script. */
#ifndef PLUMBAR_REPORT_PAGE_H
#define PLUMBAR_REPORT_PAGE_H

#include "report/pack.h"

#include <plumbar/phone.h>
#include <plumbar/solved.h>
#include <plumbar/svg.h>

enum { PAGE_RULERS_MAX = 5, PAGE_TEXT_SIZE = 2048 };

typedef struct PageState {
    bool open;
    PlumbShared shared; /* as sent */
    PlumbSetup setup;   /* as it stands now */
    PlumbSolved answer; /* of setup */
    PlumbSolved shown;  /* the last that held */
    PlumbSolved pencil;
    PlumbUnits units;
    PlumbPaper paper;
    bool holding;                    /* a ruler is being dragged: the fit stays */
    PlumbFit fit[PLUMB_SIGHT_COUNT]; /* by sight */
    int ruler_count;
    PlumbRuler ruler[PAGE_RULERS_MAX];
} PageState;

extern PageState page;

/* Makes the rulers of the lift. */
void page_rulers_begin(void);
/* Brings values, ranges and pencilled values of the rulers up to date. */
void page_rulers_follow(void);
/* Moves a setting and solves; where the script puts bytes. Exported too. */
void page_set(int ruler, double value_si);
unsigned char *page_input(void);
/* The drawing of the state. */
PlumbDrawing page_drawing(void);

#endif
