/* SPDX-License-Identifier: MIT */
/* What an athlete is given: the handout and the shared page, with the pencilled set-up as the
 * present one and the inked one as the proposed. */
#ifndef PLUMBAR_VIEWER_GIVE_H
#define PLUMBAR_VIEWER_GIVE_H

#include "slip.h"

#include <plumbar/report.h>

enum { PLUMB_GIVE_DAYS = 32 };

/* Which two set-ups a handout sets side by side. */
typedef enum PlumbGiveSays {
    PLUMB_GIVE_PENCIL, /* the pencilled one and the inked one */
    PLUMB_GIVE_TRY,    /* the inked one and the first that is worth trying */
    PLUMB_GIVE_SINCE   /* that of a day of the file's log and the inked one */
} PlumbGiveSays;

/* What the slip of a handout holds; student, drills and note stay for the next one. */
typedef struct PlumbGiving {
    PlumbGiveSays says;
    int day; /* PLUMB_GIVE_SINCE */
    int day_count;
    char date[PLUMB_GIVE_DAYS][PLUMB_LOG_DATE_SIZE]; /* newest first, one of a day */
    PlumbSetup then[PLUMB_GIVE_DAYS];
    bool sought; /* what to try first was looked for */
    bool found;
    PlumbProposal proposal;
    char why_not[PLUMB_MESSAGE_SIZE];
    bool can_picture; /* the Trace page has a fit */
    bool pictured;
    bool student;
    bool letter;
    char drills[PLUMB_FIELD_TEXT_SIZE];
    char note[PLUMB_FIELD_TEXT_SIZE];
    char file[PLUMB_FIELD_TEXT_SIZE];
} PlumbGiving;

extern const PlumbSlipForm plumb_give_form;

/* Opens what the file needs: for a handout its slip, for a shared page the line of its name. use:
 * PLUMB_FIELD_HANDOUT or PLUMB_FIELD_SHARE. */
void plumb_give_ask(PlumbDesk *desk, PlumbFieldUse use);
/* Whether the choice of set-ups can be handed out; says what it means, or what stands against it.
 */
bool plumb_give_check(PlumbDesk *desk);
/* Reads a table of drills; false, and said why, where it cannot be used. "": the program's. */
bool plumb_give_drills(PlumbDesk *desk, const char *path, PlumbDrills *drills);
/* Writes the handout that the slip describes, whole or not at all, and says so. */
bool plumb_give_handout(PlumbDesk *desk);
/* Writes the shared page. false: the name stays to be changed. */
bool plumb_give_share(PlumbDesk *desk, const char *path);

#endif
