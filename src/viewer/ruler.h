/* SPDX-License-Identifier: MIT */
/* The rulers: which a lift has, their values and steps, and what moving one does. */
#ifndef PLUMBAR_VIEWER_RULER_H
#define PLUMBAR_VIEWER_RULER_H

#include "desk.h"

typedef enum PlumbRulerRole {
    PLUMB_RULER_SETS,       /* a plain setting */
    PLUMB_RULER_LEADS,      /* the quantity that leads */
    PLUMB_RULER_COULD_LEAD, /* follows; takes over when it is moved */
    PLUMB_RULER_FOLLOWS     /* follows by a rule of its own until it is moved: knees, elbows */
} PlumbRulerRole;

/* The rulers of a lift in their order; returns how many. */
int plumb_rulers(PlumbLift lift, PlumbSettingId id[PLUMB_SETTING_COUNT]);
/* Those in the column: of the set-up, or of the body as far as the lift depends on it. */
int plumb_desk_rulers(const PlumbDesk *desk, PlumbSettingId id[PLUMB_SETTING_COUNT]);
/* The row of a ruler, of a setting or of the body. */
const PlumbSetting *plumb_ruler_row(PlumbSettingId id);
const PlumbSetting *plumb_ruler_find(const char *key);
/* The words beside the line; PLUMB_SET_auto stands for the choice of what leads. */
void plumb_ruler_name(PlumbSettingId id, PlumbText *text);
/* The ruler that has the focus first. */
PlumbSettingId plumb_ruler_first(PlumbLift lift);

PlumbRulerRole plumb_ruler_role(const PlumbDesk *desk, PlumbSettingId id);
/* The value that the pointer shows, SI: as set, or as it follows where another quantity leads. NaN
 * for a choice. */
double plumb_ruler_value(const PlumbDesk *desk, PlumbSettingId id);
/* The same of the pencilled set-up. */
double plumb_ruler_pencil_value(const PlumbDesk *desk, PlumbSettingId id);
/* Step of arrow keys and drags, SI: round in the reader's unit. */
double plumb_ruler_step(const PlumbDesk *desk, PlumbSettingId id);

/* Choices: how many words, which, and the one that is chosen. 0 words: not a choice. */
int plumb_ruler_choices(const PlumbDesk *desk, PlumbSettingId id);
const char *plumb_ruler_choice(const PlumbDesk *desk, PlumbSettingId id, int index);
int plumb_ruler_chosen(const PlumbDesk *desk, PlumbSettingId id);

/* The lead at a place of the choice of what leads. */
PlumbLead plumb_ruler_lead_at(PlumbLift lift, int index);
/* Whether the set-up is led by this quantity. */
bool plumb_ruler_leads(const PlumbSetup *setup, PlumbSettingId id);

/* Window and low-effort range along this ruler; false where they are not drawn on it. They are
 * drawn on the ruler of the free quantity (hip height, shin angle) and on the one that leads. */
bool plumb_ruler_intervals(const PlumbDesk *desk, PlumbSettingId id, PlumbInterval *window,
                           PlumbInterval *low_effort);

/* Why nothing is held beyond an end of a ruler, in words. */
void plumb_ruler_reason(PlumbSettingId id, int reason, PlumbText *text);

/* Each changes the set-up; a step of undo with the key of plumb_desk_keep. */
void plumb_ruler_set(PlumbDesk *desk, PlumbSettingId id, double value_si, unsigned key);
void plumb_ruler_choose(PlumbDesk *desk, PlumbSettingId id, int index);
void plumb_ruler_nudge(PlumbDesk *desk, PlumbSettingId id, int steps, unsigned key);
void plumb_ruler_default(PlumbDesk *desk, PlumbSettingId id);
/* A value as a person types it. On failure *error says what is allowed and nothing changes. */
bool plumb_ruler_type(PlumbDesk *desk, PlumbSettingId id, const char *typed, PlumbError *error);

/* Value to place and back. */
double plumb_ruler_place_mm(const PlumbRulerPlace *place, double value_si);
double plumb_ruler_value_at(const PlumbRulerPlace *place, double x_mm);

#endif
