/* SPDX-License-Identifier: MIT */
/* The working of a figure of the table, in the place of the views: which, and how far it is
 * scrolled. It follows the set-up, on the Path page the scrubber. */
#ifndef PLUMBAR_VIEWER_WORKING_H
#define PLUMBAR_VIEWER_WORKING_H

#include "desk.h"

#include "scene/board.h"

#include <plumbar/working.h>

typedef struct PlumbWorked {
    bool on;
    PlumbExplainKind kind; /* that was chosen, of the family at that time */
    bool peak;      /* on the Path page: the moment's greatest in motion, not the scrubber's */
    bool pencilled; /* on the Compare page: of the pencilled set-up */
    char name[PLUMB_DESK_NAME_SIZE + 16]; /* of the lifter; there with which set-up it is */
    PlumbMotionPoint instant;
    double top_mm;  /* scrolled away above */
    double most_mm; /* as far as it can be */
    double page_mm; /* by one key */
    PlumbExplanation explanation;
    PlumbExplainSubject subject;
    PlumbExplainRoom room; /* of an end of the window or range */
    PlumbScene scene;      /* as long as it is */
} PlumbWorked;

/* NULL where memory is out. */
struct PlumbWorked *plumb_worked_create(void);
void plumb_worked_destroy(struct PlumbWorked *worked);

/* Whether it stands in the place of the views now. */
bool plumb_working_shown(const PlumbDesk *desk);
/* The figure that is chosen in the table: of a joint, that of the one that is selected. */
PlumbQuestion plumb_working_question(const PlumbDesk *desk);
/* Shows the working of the chosen figure, or the views again. */
void plumb_working_toggle(PlumbDesk *desk);
/* A click on the figure plumb_question(index): shows its working, or the views again. An index from
 * plumb_question_count() on is the same figure where it is greatest in motion, one from twice that
 * count on the figure of the pencilled set-up. */
void plumb_working_press(PlumbDesk *desk, int index);
/* The tag of a line of the Path page's notes: 0 the moment here, 1 the angle, 3 the moment's
 * greatest in motion; without one the others. */
PlumbTag plumb_working_tag(const PlumbDesk *desk, int line);
/* The tag of a figure of the Compare page in the column of the inked or the pencilled set-up. */
PlumbTag plumb_working_figure(const PlumbDesk *desk, int figure, bool pencilled);
/* Another figure of the table. */
void plumb_working_step(PlumbDesk *desk, int step);
/* On the Compare page: the next row, or the other column. */
void plumb_working_row(PlumbDesk *desk, int step);
void plumb_working_column(PlumbDesk *desk, bool pencilled);
/* Scrolls; false where no working is shown. */
bool plumb_working_scroll(PlumbDesk *desk, double by_mm);
bool plumb_working_turn(PlumbDesk *desk, int pages);

void plumb_working_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
/* A frame about the chosen figure of the table, whose items begin at first_item. */
void plumb_working_mark(const PlumbDesk *desk, const PlumbBoard *board, int first_item);

/* The page of it as a file, by the ending of its name: the same as plumbar explain makes. */
PlumbStatus plumb_working_file(PlumbDesk *desk, const char *path, PlumbBytes *bytes,
                               PlumbError *error);

#endif
