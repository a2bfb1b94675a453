/* SPDX-License-Identifier: MIT */
/* Parts of the handout's page. */
#ifndef PLUMBAR_SCENE_HANDOUT_H
#define PLUMBAR_SCENE_HANDOUT_H

#include "scene/board.h"

#include <plumbar/handout.h>

/* The figures before and after with their spread, from the top of rect; returns the height. draw
 * false: only measures. */
double plumb_handout_table(const PlumbBoard *board, const PlumbHandout *handout, PlumbRect rect,
                           bool draw);

#endif
