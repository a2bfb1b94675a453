/* SPDX-License-Identifier: MIT */
/* The lifter's log in the window: its last entries, and one more of what is on the drawing. */
#ifndef PLUMBAR_VIEWER_DAYBOOK_H
#define PLUMBAR_VIEWER_DAYBOOK_H

#include "slip.h"

enum { PLUMB_DAYBOOK_LINES = 6 };

typedef struct PlumbDaybook {
    PlumbLogEntry entry; /* that will be written */
    int count;           /* of all entries in the file */
    int line_count;      /* the last of them, newest first, in words */
    char line[PLUMB_DAYBOOK_LINES][PLUMB_SLIP_WORDS];
} PlumbDaybook;

extern const PlumbSlipForm plumb_daybook_form;

/* Shows the log of the desk's file and asks for the entry of today. */
void plumb_daybook_ask(PlumbDesk *desk);

#endif
