/* SPDX-License-Identifier: MIT */
/* Marks of technical drawing: dimension lines, angles, hatching, graduated foot. */
#ifndef PLUMBAR_SCENE_MARK_H
#define PLUMBAR_SCENE_MARK_H

#include "scene/board.h"

/* Dimension line between a and b (level or upright) with arrowheads, outside of it where it is
 * short. */
void plumb_mark_dimension(const PlumbBoard *board, PlumbPen pen, PlumbTag tag, PlumbVec2 a_mm,
                          PlumbVec2 b_mm);
/* The same level, with a gap for a text of gap_mm in its middle. */
void plumb_mark_dimension_gap(const PlumbBoard *board, PlumbPen pen, PlumbTag tag, PlumbVec2 a_mm,
                              PlumbVec2 b_mm, double gap_mm);

/* Shortest level dimension that holds a text of this width between its arrowheads, mm. */
double plumb_mark_dimension_room(double text_mm);

/* Ground line with its hatch band of 3 mm below, from x_mm over width_mm. */
void plumb_mark_ground(const PlumbBoard *board, double x_mm, double y_mm, double width_mm);

#define PLUMB_HATCH_MM 3.0

#endif
