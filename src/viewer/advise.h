/* SPDX-License-Identifier: MIT */
/* "Try first" in the notes: options for a warning or an aim, each a press away. */
#ifndef PLUMBAR_VIEWER_ADVISE_H
#define PLUMBAR_VIEWER_ADVISE_H

#include "compose.h"

/* Ranks options for the first warning, then at every call for the next goal: further findings, then
 * the aims of the lift. */
void plumb_advise_next(PlumbDesk *desk);
/* Ranks options for an aim of the lift; the next call of plumb_advise_next goes on from there. */
void plumb_advise_aim(PlumbDesk *desk, PlumbAim aim);
/* Pencils the present set-up and takes the index-th option. */
void plumb_advise_take(PlumbDesk *desk, int index);
/* Goes to what the first finding of this kind speaks of: a joint on the drawing, or the first
 * ruler that bears on it. */
void plumb_advise_show(PlumbDesk *desk, PlumbFindingId id);
/* Draws the options; returns the height used. */
double plumb_advise_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);

#endif
