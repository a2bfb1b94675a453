/* SPDX-License-Identifier: MIT */
/* The keyboard on the Trace page: landmarks chosen, marks placed, nudged and deleted. */
#include "page_trace_place.h"

#include "reel.h"

#include <SDL.h>

#include <limits.h>

#include <math.h>

static const double zoom_step = 1.25; /* of a key */
static const double pan_share = 0.1;  /* of the room */
static const unsigned nudge_key = 0x60000U;

static PlumbVec2 middle_mm(const PlumbTracing *t)
{
    return (PlumbVec2){t->room.x_mm + 0.5 * t->room.width_mm,
                       t->room.y_mm + 0.5 * t->room.height_mm};
}

/* The mark that the keys act on: the last of the chosen row. */
static int chosen_mark(const PlumbDesk *desk)
{
    const PlumbTracing *const t = desk->tracing;
    const PlumbMarks *const marks = &desk->now.marked.marks;
    const PlumbMarkName name = plumb_trace_row(desk).name;
    if (t->held >= 0 && t->held < marks->count &&
        marks->mark[t->held].still == desk->now.marked.still &&
        marks->mark[t->held].name.landmark == name.landmark &&
        marks->mark[t->held].name.near == name.near) {
        return t->held;
    }
    return plumb_marked_last(&desk->now.marked, name);
}

/* Places the chosen landmark by key: where the fit sees it, else in the middle of the view. Once
 * more goes on to the next. */
static void place_by_key(PlumbDesk *desk)
{
    PlumbTracing *const t = desk->tracing;
    const PlumbMarkRow row = plumb_trace_row(desk);
    int still;
    const PlumbStills *const seen = plumb_trace_figure(desk, &still);
    if (plumb_marked_count(&desk->now.marked, row.name) >= row.most) {
        plumb_trace_pick_row(desk, plumb_marked_next(&desk->now.marked, desk->now.lift, t->row));
        return;
    }
    PlumbVec2 pixel = plumb_picture_pixel(&t->view, middle_mm(t));
    if (seen != NULL && row.most == 1) {
        pixel = plumb_stills_pixel(seen, still, row.name);
    }
    desk->history.key = 0;
    t->held = plumb_trace_set_mark(desk, pixel);
}

static void nudge(PlumbDesk *desk, int x, int y, bool repeated)
{
    const int index = chosen_mark(desk);
    if (index < 0) {
        plumb_desk_say(desk, false,
                       "Enter places this landmark; the arrows then move it by a pixel.");
        return;
    }
    const bool mirrored = desk->tracing->view.mirror_px > 0.0;
    desk->history.key = repeated ? desk->history.key : 0;
    plumb_trace_keep(desk, nudge_key);
    const PlumbVec2 at = plumb_trace_mark_px(desk, index);
    plumb_trace_put_mark(desk, index, (PlumbVec2){at.x + (mirrored ? -x : x), at.y + y});
    desk->tracing->held = index;
}

static void delete_mark(PlumbDesk *desk)
{
    const int index = chosen_mark(desk);
    if (index < 0) {
        return;
    }
    plumb_trace_keep(desk, 0);
    plumb_marked_remove(&desk->now.marked, index);
    desk->tracing->held = -1;
    desk->tracing->magnified = false;
    plumb_desk_touch(desk);
}

static void show_still(PlumbDesk *desk, int step)
{
    PlumbMarked *const marked = &desk->now.marked;
    if (marked->film) {
        plumb_reel_step(desk, step);
        return;
    }
    const int still = marked->still + step;
    if (still < 0 || still >= marked->marks.still_count) {
        plumb_desk_say(desk, false,
                       step > 0 ? "This is the last picture; A adds one."
                                : "This is the first picture.");
        return;
    }
    marked->still = still;
    desk->tracing->row = plumb_marked_next(marked, desk->now.lift, -1);
    desk->tracing->magnified = false;
    desk->dirty = true;
}

static bool arrow_key(PlumbDesk *desk, int key, unsigned mods, bool repeated)
{
    PlumbTracing *const t = desk->tracing;
    const int x = key == SDLK_LEFT ? -1 : key == SDLK_RIGHT ? 1 : 0;
    const int y = key == SDLK_UP ? -1 : key == SDLK_DOWN ? 1 : 0;
    if (x == 0 && y == 0) {
        return false;
    }
    if ((mods & PLUMB_MOD_CTRL) != 0) {
        plumb_trace_pan_by(desk, -x * pan_share * t->room.width_mm,
                           -y * pan_share * t->room.height_mm);
    } else if (desk->focus.kind == PLUMB_WIDGET_MARKS) {
        if (y != 0) {
            plumb_trace_pick_row(desk, t->row + y);
        }
    } else {
        const int by = (mods & PLUMB_MOD_SHIFT) != 0 ? 10 : 1;
        nudge(desk, x * by, y * by, repeated);
    }
    return true;
}

/* Keys of picture and list, whichever has the focus. */
static bool page_key(PlumbDesk *desk, int key, unsigned mods)
{
    PlumbTracing *const t = desk->tracing;
    PlumbMarkRow rows[PLUMB_MARK_ROWS_MAX];
    const int count = plumb_mark_rows(&desk->now.marked, desk->now.lift, rows);
    switch (key) {
    case SDLK_PLUS:
    case SDLK_EQUALS:
    case SDLK_KP_PLUS:
        plumb_trace_zoom(desk, middle_mm(t), zoom_step);
        return true;
    case SDLK_MINUS:
    case SDLK_KP_MINUS:
        plumb_trace_zoom(desk, middle_mm(t), 1.0 / zoom_step);
        return true;
    case SDLK_HOME:
    case SDLK_END:
        plumb_trace_pick_row(desk, key == SDLK_HOME ? 0 : count - 1);
        return true;
    case SDLK_PAGEUP:
    case SDLK_PAGEDOWN:
        show_still(desk, (key == SDLK_PAGEDOWN ? 1 : -1) *
                             (desk->now.marked.film && (mods & PLUMB_MOD_SHIFT) != 0 ? 10 : 1));
        return true;
    case SDLK_DELETE:
    case SDLK_BACKSPACE:
        delete_mark(desk);
        return true;
    case SDLK_COMMA:
    case SDLK_PERIOD:
        plumb_trace_pick_row(desk, t->row + (key == SDLK_PERIOD ? 1 : -1));
        return true;
    case SDLK_RETURN:
    case SDLK_KP_ENTER:
        if (mods == 0) {
            place_by_key(desk);
        }
        return true;
    case SDLK_SPACE:
        t->pan_key = true;
        return true;
    case SDLK_ESCAPE:
        if (!t->magnified) {
            return false;
        }
        t->magnified = false;
        desk->dirty = true;
        return true;
    default:
        return false;
    }
}

/* Figures or notes with the focus are scrolled. */
static bool read_key(PlumbDesk *desk, int key)
{
    const int zone = desk->focus.id;
    switch (key) {
    case SDLK_UP:
    case SDLK_DOWN:
        plumb_trace_scroll(desk, zone, key == SDLK_DOWN ? 1 : -1);
        return true;
    case SDLK_PAGEUP:
    case SDLK_PAGEDOWN:
        plumb_trace_leaf(desk, zone, key == SDLK_PAGEDOWN ? 1 : -1);
        return true;
    case SDLK_HOME:
    case SDLK_END:
        plumb_trace_scroll(desk, zone, key == SDLK_END ? INT_MAX : -INT_MAX);
        return true;
    default:
        return false;
    }
}

bool plumb_trace_key(PlumbDesk *desk, int key, unsigned mods, bool repeated)
{
    PlumbTracing *const t = desk->tracing;
    if (desk->page != PLUMB_PAGE_TRACE) {
        return false;
    }
    if (t->grab != PLUMB_GRAB_NONE) {
        return true; /* one hand at a time */
    }
    if (desk->focus.kind == PLUMB_WIDGET_RULER) {
        plumb_desk_focus(desk, PLUMB_WIDGET_PICTURE, 0); /* there are no rulers here */
    }
    const bool zone =
        desk->focus.kind == PLUMB_WIDGET_PICTURE || desk->focus.kind == PLUMB_WIDGET_MARKS;
    if (!plumb_trace_shown(desk)) {
        return key == SDLK_HOME || key == SDLK_END || key == SDLK_PAGEUP || key == SDLK_PAGEDOWN;
    }
    if (desk->focus.kind == PLUMB_WIDGET_SCRUB && (key == SDLK_HOME || key == SDLK_END)) {
        plumb_reel_step(desk, (key == SDLK_HOME ? -1 : 1) * PLUMB_FRAMES_MAX);
        return true;
    }
    if (desk->focus.kind == PLUMB_WIDGET_READ && read_key(desk, key)) {
        return true;
    }
    const bool on_button = key == SDLK_RETURN || key == SDLK_KP_ENTER || key == SDLK_SPACE;
    if (zone && arrow_key(desk, key, mods, repeated)) {
        return true;
    }
    return (mods & PLUMB_MOD_CTRL) == 0 && (zone || !on_button) && page_key(desk, key, mods);
}

void plumb_trace_key_up(PlumbDesk *desk)
{
    desk->tracing->pan_key = false;
}
