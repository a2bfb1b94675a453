/* SPDX-License-Identifier: MIT */
/* The mouse on the Trace page: marks placed and dragged; the picture zoomed and panned. */
#include "page_trace_place.h"

#include "hands.h"
#include "reel.h"

#include <math.h>

static const double click_reach_mm = 0.6; /* moved less, a press is a click */
static const double zoom_step = 1.25;     /* of a notch */
static const double closest_mm_per_px = 8.0;
static const unsigned drag_key = 0x61000U;

static void choose_row_of(PlumbDesk *desk, PlumbMarkName name)
{
    const int row = plumb_trace_row_of(desk, name);
    desk->tracing->row = row >= 0 ? row : desk->tracing->row;
}

/* Goes on once the landmark has all the marks that it may have. */
static void advance(PlumbDesk *desk)
{
    PlumbTracing *const t = desk->tracing;
    const PlumbMarkRow row = plumb_trace_row(desk);
    if (plumb_marked_count(&desk->now.marked, row.name) >= row.most) {
        t->row = plumb_marked_next(&desk->now.marked, desk->now.lift, t->row);
    }
}

static void begin_pan(PlumbDesk *desk, PlumbVec2 at_mm)
{
    PlumbTracing *const t = desk->tracing;
    t->grab = PLUMB_GRAB_PAN;
    t->pan_mm = at_mm;
}

void plumb_trace_pan_by(PlumbDesk *desk, double x_mm, double y_mm)
{
    PlumbTracing *const t = desk->tracing;
    t->whole = false;
    t->view.at_mm.x += x_mm;
    t->view.at_mm.y += y_mm;
    desk->dirty = true;
}

static void place_at(PlumbDesk *desk, PlumbVec2 pixel)
{
    PlumbTracing *const t = desk->tracing;
    const PlumbVec2 size = plumb_trace_size_px(desk);
    if (size.x > 0.0 && (pixel.x < 0.0 || pixel.y < 0.0 || pixel.x > size.x || pixel.y > size.y)) {
        return; /* beside the picture */
    }
    t->held = plumb_trace_set_mark(desk, pixel);
    t->placed = t->held >= 0;
    t->off_px = (PlumbVec2){0.0, 0.0};
    t->grab = t->placed ? PLUMB_GRAB_MARK : PLUMB_GRAB_NONE;
    desk->history.key = drag_key; /* placing and the drag that follows are one step */
}

/* On the chart of a film a press goes to the frame; true where there is no picture to mark. */
static bool press_chart(PlumbDesk *desk, PlumbVec2 at_mm)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (plumb_reel_charts(desk)) {
        const PlumbFilmChart chart =
            plumb_reel_chart_of(desk, plumb_reel_chart_scale(desk, desk->tracing->room));
        const int frame = plumb_film_chart_frame(&chart, desk->tracing->room, at_mm);
        if (frame >= 0) {
            plumb_reel_go(desk, frame);
        }
        return true;
    }
    return reel != NULL && reel->shown != desk->now.marked.still; /* the frame is on its way */
}

/* A press on a mark takes it once it is moved; a mere click there places the landmark whose turn
 * it is, since heel and disc may be a few pixels apart. */
void plumb_trace_press(PlumbDesk *desk, PlumbVec2 at_mm)
{
    PlumbTracing *const t = desk->tracing;
    plumb_desk_focus(desk, PLUMB_WIDGET_PICTURE, 0);
    t->pointer_mm = at_mm;
    t->press_mm = at_mm;
    t->placed = false;
    t->still_click = false;
    plumb_reel_halt(desk);
    if (!plumb_trace_shown(desk) || press_chart(desk, at_mm)) {
        return;
    }
    if (t->pan_key) {
        begin_pan(desk, at_mm);
        return;
    }
    const PlumbVec2 pixel = plumb_picture_pixel(&t->view, at_mm);
    const int found = plumb_trace_mark_at(desk, at_mm);
    desk->history.key = 0;
    if (found < 0) {
        place_at(desk, pixel);
        return;
    }
    const PlumbVec2 mark = plumb_trace_mark_px(desk, found);
    t->held = found;
    t->still_click = true;
    t->off_px = (PlumbVec2){mark.x - pixel.x, mark.y - pixel.y};
    t->grab = PLUMB_GRAB_MARK;
    plumb_trace_magnify(desk, mark);
}

/* Keys may have taken the mark away, or chosen another landmark, under the hand. */
static bool holds_mark(const PlumbDesk *desk)
{
    const PlumbTracing *const t = desk->tracing;
    return t->grab == PLUMB_GRAB_MARK && t->held >= 0 && t->held < desk->now.marked.marks.count;
}

/* Released where it was pressed, on a mark. */
static void click_mark(PlumbDesk *desk)
{
    PlumbTracing *const t = desk->tracing;
    const PlumbMarkRow row = plumb_trace_row(desk);
    if (plumb_marked_count(&desk->now.marked, row.name) < row.most) {
        place_at(desk, plumb_picture_pixel(&t->view, t->press_mm));
        t->grab = PLUMB_GRAB_NONE;
    } else {
        choose_row_of(desk, desk->now.marked.marks.mark[t->held].name);
    }
}

bool plumb_trace_move(PlumbDesk *desk, PlumbVec2 at_mm)
{
    PlumbTracing *const t = desk->tracing;
    if (desk->page != PLUMB_PAGE_TRACE || desk->drag.on) {
        return false;
    }
    t->pointer_mm = at_mm;
    if (t->grab == PLUMB_GRAB_PAN) {
        plumb_trace_pan_by(desk, at_mm.x - t->pan_mm.x, at_mm.y - t->pan_mm.y);
        t->pan_mm = at_mm;
        return true;
    }
    const PlumbVec2 pixel = plumb_picture_pixel(&t->view, at_mm);
    if (holds_mark(desk)) {
        if (t->still_click &&
            hypot(at_mm.x - t->press_mm.x, at_mm.y - t->press_mm.y) < click_reach_mm) {
            return true;
        }
        if (t->still_click) {
            t->still_click = false;
            choose_row_of(desk, desk->now.marked.marks.mark[t->held].name);
        }
        plumb_trace_keep(desk, drag_key);
        plumb_trace_put_mark(desk, t->held,
                             (PlumbVec2){pixel.x + t->off_px.x, pixel.y + t->off_px.y});
        return true;
    }
    const bool in = plumb_trace_shown(desk) && !plumb_reel_charts(desk) &&
                    plumb_rect_has(t->room, at_mm) && !desk->keys_shown &&
                    desk->card == PLUMB_CARD_NONE;
    if (in) {
        plumb_trace_magnify(desk, pixel);
    } else if (t->pointer_in) {
        t->magnified = false;
        desk->dirty = true;
    }
    t->pointer_in = in;
    return in;
}

bool plumb_trace_release(PlumbDesk *desk, PlumbVec2 at_mm)
{
    PlumbTracing *const t = desk->tracing;
    const PlumbTraceGrab grab = t->grab;
    if (grab == PLUMB_GRAB_NONE) {
        return false;
    }
    if (grab == PLUMB_GRAB_MARK &&
        hypot(at_mm.x - t->pointer_mm.x, at_mm.y - t->pointer_mm.y) > 0.0) {
        plumb_trace_move(desk, at_mm); /* the last place of a quick hand */
    }
    const bool clicked = holds_mark(desk) && t->still_click;
    t->grab = PLUMB_GRAB_NONE;
    t->pan_key = false;
    if (clicked) {
        click_mark(desk);
    }
    if (t->placed) {
        advance(desk);
    }
    t->placed = false;
    desk->history.key = 0;
    desk->dirty = true;
    return true;
}

void plumb_trace_pan(PlumbDesk *desk, PlumbVec2 at_mm, bool down)
{
    PlumbTracing *const t = desk->tracing;
    if (down && plumb_trace_shown(desk) && t->grab == PLUMB_GRAB_NONE &&
        plumb_rect_has(t->room, at_mm)) {
        begin_pan(desk, at_mm);
    } else if (!down && t->grab == PLUMB_GRAB_PAN) {
        plumb_trace_release(desk, at_mm);
    }
}

void plumb_trace_zoom(PlumbDesk *desk, PlumbVec2 at_mm, double factor)
{
    PlumbTracing *const t = desk->tracing;
    const PlumbVec2 size = plumb_trace_size_px(desk);
    const double least =
        size.x > 0.0 ? 0.25 * fmin(t->room.width_mm / size.x, t->room.height_mm / size.y) : 0.01;
    const double scale = fmin(fmax(t->view.mm_per_px * factor, least), closest_mm_per_px);
    const double ratio = scale / t->view.mm_per_px;
    t->view.at_mm.x = at_mm.x + (t->view.at_mm.x - at_mm.x) * ratio;
    t->view.at_mm.y = at_mm.y + (t->view.at_mm.y - at_mm.y) * ratio;
    t->view.mm_per_px = scale;
    t->whole = false;
    desk->dirty = true;
}

bool plumb_trace_wheel(PlumbDesk *desk, PlumbVec2 at_mm, int notches)
{
    static const int zones[] = {PLUMB_READ_FIGURES, PLUMB_READ_NOTES};
    const PlumbRect rects[] = {desk->layout.table, desk->layout.notes};
    for (int i = 0; i < 2 && desk->page == PLUMB_PAGE_TRACE; i++) {
        if (plumb_rect_has(rects[i], at_mm)) {
            plumb_trace_scroll(desk, zones[i], -notches);
            return true;
        }
    }
    if (plumb_trace_shown(desk) && plumb_rect_has(desk->layout.rulers, at_mm)) {
        plumb_trace_pick_row(desk, desk->tracing->row - notches);
        return true;
    }
    if (!plumb_trace_shown(desk) || !plumb_rect_has(desk->tracing->room, at_mm)) {
        return false;
    }
    plumb_trace_zoom(desk, at_mm, pow(zoom_step, notches));
    return true;
}
