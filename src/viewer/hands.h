/* SPDX-License-Identifier: MIT */
/* What mouse and keyboard do to the desk. Places are in millimetres of the window's paper. */
#ifndef PLUMBAR_VIEWER_HANDS_H
#define PLUMBAR_VIEWER_HANDS_H

#include "desk.h"

void plumb_hand_press(PlumbDesk *desk, PlumbVec2 at_mm, int clicks);
void plumb_hand_move(PlumbDesk *desk, PlumbVec2 at_mm);
void plumb_hand_release(PlumbDesk *desk, PlumbVec2 at_mm);
/* notches: positive away from the hand. */
void plumb_hand_wheel(PlumbDesk *desk, PlumbVec2 at_mm, int notches);

void plumb_hand_key(PlumbDesk *desk, int key, unsigned mods, bool repeated);
void plumb_hand_key_up(PlumbDesk *desk);
void plumb_hand_text(PlumbDesk *desk, const char *utf8);

/* Scrolls the column so that the ruler is in view. */
void plumb_hand_reveal(PlumbDesk *desk, PlumbSettingId id);

#endif
