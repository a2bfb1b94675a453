/* SPDX-License-Identifier: MIT */
/* Events that a script puts into SDL's queue; places are pixels of the window. */
#ifndef PLUMBAR_VIEWER_SCRIPT_PUSH_H
#define PLUMBAR_VIEWER_SCRIPT_PUSH_H

#include "stage.h"

/* Takes what is in the queue and shows it. */
bool plumb_script_show(PlumbStage *stage, PlumbError *error);

void plumb_push_button(Uint32 type, Uint8 button, int x, int y, int clicks);
void plumb_push_motion(int x, int y);
void plumb_push_key(SDL_Keycode key, Uint16 mod, Uint8 repeat, bool up);

/* Presses, moves and lets go; each is shown before the next. */
bool plumb_script_press(PlumbStage *stage, int x, int y, int clicks, PlumbError *error);
bool plumb_script_move(PlumbStage *stage, int x, int y, PlumbError *error);
bool plumb_script_release(PlumbStage *stage, int x, int y, PlumbError *error);

#endif
