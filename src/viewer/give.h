/* SPDX-License-Identifier: MIT */
/* What an athlete is given: the handout and the shared page, with the pencilled set-up as the
 * present one and the inked one as the proposed. */
#ifndef PLUMBAR_VIEWER_GIVE_H
#define PLUMBAR_VIEWER_GIVE_H

#include "desk.h"

/* Opens the first line that the file needs: for a handout the coach's own note, then its name. What
 * no athlete may be asked is refused before. use: PLUMB_FIELD_HANDOUT or PLUMB_FIELD_SHARE. */
void plumb_give_ask(PlumbDesk *desk, PlumbFieldUse use);
/* Takes the note and opens the line for the name. */
void plumb_give_note(PlumbDesk *desk, const char *note);
/* Writes the file, whole or not at all, and says so. false: the name stays to be changed. */
bool plumb_give_write(PlumbDesk *desk, PlumbFieldUse use, const char *path);

#endif
