/* SPDX-License-Identifier: MIT */
/* Events from a file, one command a line, through the same queue as hands. */
#ifndef PLUMBAR_VIEWER_SCRIPT_H
#define PLUMBAR_VIEWER_SCRIPT_H

#include "stage.h"

/* The commands, places in the window's pixels:
 *   spot X Y, carry X1 Y1 X2 Y2 (pixels of the traced picture)                  hover X Y
 *   pan X1 Y1 X2 Y2 (with the right button)
 *   size WxH                      key Tab | shift+Right | ctrl+Z [REPEATS]      type TEXT
 *   click X Y, twice X Y          drag X1 Y1 X2 Y2 STEPS, flick X1 Y1 X2 Y2     wheel X Y NOTCHES
 *   pull RULER VALUE [STEPS]      press RULER VALUE, move RULER VALUE, release
 *   set SETTING VALUE             state [NAME]                                  shot NAME.png
 *   drop PATH                     wait MILLISECONDS                             front
 *   bench RULER STEPS             finish (all curves)                           hands
 * flick sends motion and release in one batch; hands leaves the window to a person. A line that
 * starts with # says nothing. */

/* Plays bytes (terminated). On failure error->line is the line. PLUMB_BAD_INPUT: not understood. */
PlumbStatus plumb_script_play(PlumbStage *stage, const char *bytes, PlumbError *error);

/* Drags a ruler to and fro over steps events and prints how long each took to be on the screen. */
PlumbStatus plumb_bench(PlumbStage *stage, PlumbSettingId id, int steps, PlumbError *error);

#endif
