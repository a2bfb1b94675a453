/* SPDX-License-Identifier: MIT */
/* The one line of text that is being typed: opening it, editing it, taking or leaving it. */
#ifndef PLUMBAR_VIEWER_FIELD_H
#define PLUMBAR_VIEWER_FIELD_H

#include "desk.h"

/* Opens the line with all of text selected. */
void plumb_field_open(PlumbDesk *desk, PlumbFieldUse use, PlumbSettingId id, const char *text);
/* Opens a ruler's figure with its present text. */
void plumb_field_open_ruler(PlumbDesk *desk, PlumbSettingId id);
void plumb_field_type(PlumbDesk *desk, const char *utf8);
/* A key that edits; false where the line has no use for it. */
bool plumb_field_key(PlumbDesk *desk, int key, unsigned mods);
/* Uses what was typed. On failure the line stays open with its text and the notes say what is
 * allowed. */
bool plumb_field_take(PlumbDesk *desk);
void plumb_field_leave(PlumbDesk *desk);

#endif
