/* SPDX-License-Identifier: MIT */
/* A slip: a small sheet in front of the window with rows to fill in, choices and lines of text. */
#ifndef PLUMBAR_VIEWER_SLIP_H
#define PLUMBAR_VIEWER_SLIP_H

#include "compose.h"

enum { PLUMB_SLIP_WORDS = PLUMB_FIELD_TEXT_SIZE };

/* A row as it is shown: a choice that arrows turn, or a line that is typed. */
typedef struct PlumbSlipRow {
    const char *label;
    bool typed;
    const char *hint; /* what stands in a line that is empty; NULL: nothing */
    int chosen;       /* of a choice */
    int count;
    char words[PLUMB_SLIP_WORDS]; /* what is chosen, or the text */
} PlumbSlipRow;

/* What one kind of slip asks. Rows are counted from 0; the last one is typed. */
typedef struct PlumbSlipForm {
    const char *name;
    const char *title;
    const char *write; /* the word on its button */
    int (*rows)(const PlumbDesk *desk);
    void (*row)(const PlumbDesk *desk, int index, PlumbSlipRow *row);
    /* Turns a choice by step, round again, and says what it means. */
    void (*choose)(PlumbDesk *desk, int index, int step);
    /* Takes a typed line; false where it is refused: the notes say why. */
    bool (*take)(PlumbDesk *desk, int index, const char *text);
    /* Does what the slip is for; false where it cannot: the notes say why, the slip stays. */
    bool (*finish)(PlumbDesk *desk);
    /* The index-th line above the rows; false past the last. */
    bool (*above)(const PlumbDesk *desk, int index, PlumbText *text);
} PlumbSlipForm;

/* Of the slip that is shown. */
const PlumbSlipForm *plumb_slip_form(const PlumbDesk *desk);
/* Shows a slip with the focus on a row. */
void plumb_slip_open(PlumbDesk *desk, PlumbSlipKind kind, int row);
void plumb_slip_close(PlumbDesk *desk);
/* All keys and presses are the slip's while it is shown. */
void plumb_slip_key(PlumbDesk *desk, int key, unsigned mods);
void plumb_slip_press(PlumbDesk *desk, PlumbVec2 at_mm);
void plumb_slip_draw(PlumbDesk *desk, const PlumbBoard *board);
void plumb_slip_state(const PlumbDesk *desk, PlumbText *text);

#endif
