/* SPDX-License-Identifier: MIT */
/* Marks under the hand, shared by mouse and keyboard of the Trace page. */
#ifndef PLUMBAR_VIEWER_PAGE_TRACE_PLACE_H
#define PLUMBAR_VIEWER_PAGE_TRACE_PLACE_H

#include "page_trace.h"

/* Whether the page is on show with something to mark. */
bool plumb_trace_shown(const PlumbDesk *desk);
/* The row of the guided list whose turn it is, and the first one of a landmark, -1: none. */
PlumbMarkRow plumb_trace_row(const PlumbDesk *desk);
int plumb_trace_row_of(const PlumbDesk *desk, PlumbMarkName name);

PlumbVec2 plumb_trace_mark_px(const PlumbDesk *desk, int index);
/* Index of the mark nearest to a place of the window, within reach; -1 where none is. */
int plumb_trace_mark_at(const PlumbDesk *desk, PlumbVec2 at_mm);
/* Shows the magnifier there. */
void plumb_trace_magnify(PlumbDesk *desk, PlumbVec2 pixel);
/* Moves a mark, within the picture. */
void plumb_trace_put_mark(PlumbDesk *desk, int index, PlumbVec2 pixel);
/* Sets a mark of the row whose turn it is, a step of undo; its index, -1 where there are too many.
 */
int plumb_trace_set_mark(PlumbDesk *desk, PlumbVec2 pixel);

void plumb_trace_pan_by(PlumbDesk *desk, double x_mm, double y_mm);

#endif
