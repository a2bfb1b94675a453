/* SPDX-License-Identifier: MIT */
/* The handout: one portrait page that an athlete takes home. Its words are filled in by whoever
 * knows them; here they are laid out beside the drawing. */
#ifndef PLUMBAR_HANDOUT_H
#define PLUMBAR_HANDOUT_H

#include <plumbar/working.h>

enum {
    PLUMB_HANDOUT_CHANGES = 2, /* never more: an athlete works on two things at most */
    PLUMB_HANDOUT_FEELS = 3,
    PLUMB_HANDOUT_DRILLS = 2,
    PLUMB_HANDOUT_WATCHES = 2,
    PLUMB_HANDOUT_ROWS = 6,
    PLUMB_HANDOUT_WORDS = 400,
    PLUMB_HANDOUT_NOTE = 1024,
    PLUMB_HANDOUT_CELL = 64
};

/* One figure: before, after and the difference, as they shall be read. spreads are "" where none is
 * known. */
typedef struct PlumbHandoutRow {
    char name[PLUMB_HANDOUT_CELL];
    char before[PLUMB_HANDOUT_CELL];
    char after[PLUMB_HANDOUT_CELL];
    char after_spread[PLUMB_HANDOUT_CELL];
    char change[PLUMB_HANDOUT_CELL];
    char change_spread[PLUMB_HANDOUT_CELL];
} PlumbHandoutRow;

/* A few paragraphs below a heading; left out where count is 0. */
typedef struct PlumbHandoutBlock {
    const char *heading;
    int count;
    char words[PLUMB_HANDOUT_FEELS][PLUMB_HANDOUT_WORDS];
} PlumbHandoutBlock;

/* The whole page. The drawing's answer is the proposed set-up, its pencil the present one. */
typedef struct PlumbHandout {
    const PlumbDrawing *drawing;
    char heading[PLUMB_HANDOUT_WORDS];
    char before_name[PLUMB_HANDOUT_CELL]; /* head of the column, and the pencil's legend */
    char after_name[PLUMB_HANDOUT_CELL];
    int row_count;
    PlumbHandoutRow row[PLUMB_HANDOUT_ROWS];
    bool has_spread;
    bool pictured;            /* a picture takes the place of the front view */
    PlumbHandoutBlock seen;   /* what the picture shows; leads what to change */
    PlumbHandoutBlock change; /* numbered */
    PlumbHandoutBlock why;    /* what the program has chosen by itself */
    PlumbHandoutBlock feel;
    PlumbHandoutBlock drill;
    PlumbHandoutBlock film;
    PlumbHandoutBlock watch;
    /* NULL, or the working whose free body and equation stand in place of drills, filming and what
     * to watch: the student's page. */
    const PlumbWorking *working;
    char terms[PLUMB_HANDOUT_WORDS];    /* the numbers beside the arrows, and what each adds */
    char equation[PLUMB_HANDOUT_WORDS]; /* with its result, before and after */
    char note[PLUMB_HANDOUT_NOTE];      /* the coach's own, "" where there is none */
    char rests_on[PLUMB_HANDOUT_NOTE];
} PlumbHandout;

typedef enum PlumbPortrait {
    PLUMB_A4_PORTRAIT,
    PLUMB_LETTER_PORTRAIT,
    PLUMB_PORTRAIT_COUNT
} PlumbPortrait;

/* Composes the page: begins *scene. Words that find no room end in an ellipsis. Returns the room of
 * the picture, empty where it has none. */
PlumbRect plumb_compose_handout(PlumbScene *scene, const PlumbHandout *handout,
                                PlumbPortrait format);

/* The long form of the caution. */
const char *plumb_caution_long(void);

#endif
