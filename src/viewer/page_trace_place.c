/* SPDX-License-Identifier: MIT */
/* Marks of the Trace page found under the hand, placed and moved. */
#include "page_trace_place.h"

#include <math.h>

static const double reach_mm = 2.0; /* nearer than this a mark is taken instead of a new one set */

bool plumb_trace_shown(const PlumbDesk *desk)
{
    return desk->page == PLUMB_PAGE_TRACE && desk->now.marked.marks.still_count > 0;
}

PlumbMarkRow plumb_trace_row(const PlumbDesk *desk)
{
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    const int count = plumb_mark_rows(&desk->now.marked, desk->now.lift, row);
    const int at = desk->tracing->row;
    return row[at >= 0 && at < count ? at : 0];
}

int plumb_trace_row_of(const PlumbDesk *desk, PlumbMarkName name)
{
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    const int count = plumb_mark_rows(&desk->now.marked, desk->now.lift, row);
    for (int i = 0; i < count; i++) {
        if (row[i].name.landmark == name.landmark &&
            (row[i].name.near == name.near || row[i].most == 2)) {
            return i;
        }
    }
    return -1;
}

PlumbVec2 plumb_trace_mark_px(const PlumbDesk *desk, int index)
{
    const PlumbMark *const mark = &desk->now.marked.marks.mark[index];
    return (PlumbVec2){mark->x_px, mark->y_px};
}

/* Index of the mark nearest to a place, within reach; -1 where none is. */
int plumb_trace_mark_at(const PlumbDesk *desk, PlumbVec2 at_mm)
{
    const PlumbMarks *const marks = &desk->now.marked.marks;
    double best = reach_mm;
    int found = -1;
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].still == desk->now.marked.still) {
            const PlumbVec2 there =
                plumb_picture_paper(&desk->tracing->view, plumb_trace_mark_px(desk, i));
            const double off = hypot(there.x - at_mm.x, there.y - at_mm.y);
            if (off < best) {
                best = off;
                found = i;
            }
        }
    }
    return found;
}

void plumb_trace_pick_row(PlumbDesk *desk, int row)
{
    PlumbTracing *const t = desk->tracing;
    PlumbMarkRow rows[PLUMB_MARK_ROWS_MAX];
    const int count = plumb_mark_rows(&desk->now.marked, desk->now.lift, rows);
    t->row = row < 0 ? 0 : row >= count ? count - 1 : row;
    t->magnified = false;
    t->held = plumb_marked_last(&desk->now.marked, rows[t->row].name);
    desk->dirty = true;
}

/* Within the picture, so that no mark is lost beyond its edge. */
static PlumbVec2 inside_px(const PlumbDesk *desk, PlumbVec2 pixel)
{
    const PlumbVec2 size = plumb_trace_size_px(desk);
    if (!(size.x > 0.0)) {
        return pixel;
    }
    return (PlumbVec2){fmin(fmax(pixel.x, 0.0), size.x), fmin(fmax(pixel.y, 0.0), size.y)};
}

void plumb_trace_magnify(PlumbDesk *desk, PlumbVec2 pixel)
{
    desk->tracing->magnified = true;
    desk->tracing->magnified_px = pixel;
    desk->dirty = true;
}

void plumb_trace_put_mark(PlumbDesk *desk, int index, PlumbVec2 pixel)
{
    const PlumbVec2 at = inside_px(desk, pixel);
    PlumbMark *const mark = &desk->now.marked.marks.mark[index];
    mark->x_px = at.x;
    mark->y_px = at.y;
    plumb_trace_magnify(desk, at);
    plumb_desk_touch(desk);
}

/* A landmark that is there once moves; of a rim another point is set until there are enough. */
int plumb_trace_set_mark(PlumbDesk *desk, PlumbVec2 pixel)
{
    PlumbMarked *const marked = &desk->now.marked;
    const PlumbMarkRow row = plumb_trace_row(desk);
    const PlumbVec2 at = inside_px(desk, pixel);
    plumb_trace_keep(desk, 0);
    int index = plumb_marked_last(marked, row.name);
    if (index < 0 || plumb_marked_count(marked, row.name) < row.most) {
        index = plumb_marked_add(marked, row.name, at);
    }
    if (index < 0) {
        plumb_desk_say(desk, true, "60 marks on a picture are enough: delete one first.");
        return -1;
    }
    plumb_trace_put_mark(desk, index, at);
    return index;
}
