/* SPDX-License-Identifier: MIT */
/* Mouse and keyboard on the Trace page: marks placed, dragged, nudged; the picture zoomed and
 * panned. */
#include "page_trace.h"

#include "hands.h"
#include "reel.h"

#include <SDL.h>

#include <math.h>

static const double reach_mm = 2.0; /* nearer than this a mark is taken instead of a new one set */
static const double click_reach_mm = 0.6; /* moved less, a press is a click */
static const double zoom_step = 1.25;
static const double closest_mm_per_px = 8.0;
static const double pan_share = 0.1; /* of the room, by a key */
static const unsigned nudge_key = 0x60000U;
static const unsigned drag_key = 0x61000U;

static bool shown(const PlumbDesk *desk)
{
    return desk->page == PLUMB_PAGE_TRACE && desk->now.marked.marks.still_count > 0;
}

static PlumbMarkRow row_now(const PlumbDesk *desk)
{
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    const int count = plumb_mark_rows(&desk->now.marked, row);
    const int at = desk->tracing->row;
    return row[at >= 0 && at < count ? at : 0];
}

static PlumbVec2 mark_px(const PlumbDesk *desk, int index)
{
    const PlumbMark *const mark = &desk->now.marked.marks.mark[index];
    return (PlumbVec2){mark->x_px, mark->y_px};
}

/* Index of the mark nearest to a place, within reach; -1 where none is. */
static int mark_at(const PlumbDesk *desk, PlumbVec2 at_mm)
{
    const PlumbMarks *const marks = &desk->now.marked.marks;
    double best = reach_mm;
    int found = -1;
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].still == desk->now.marked.still) {
            const PlumbVec2 there = plumb_picture_paper(&desk->tracing->view, mark_px(desk, i));
            const double off = hypot(there.x - at_mm.x, there.y - at_mm.y);
            if (off < best) {
                best = off;
                found = i;
            }
        }
    }
    return found;
}

static void choose_row_of(PlumbDesk *desk, PlumbMarkName name)
{
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    const int count = plumb_mark_rows(&desk->now.marked, row);
    for (int i = 0; i < count; i++) {
        if (row[i].name.landmark == name.landmark &&
            (row[i].name.near == name.near || row[i].most == 2)) {
            desk->tracing->row = i;
            return;
        }
    }
}

void plumb_trace_pick_row(PlumbDesk *desk, int row)
{
    PlumbTracing *const t = desk->tracing;
    PlumbMarkRow rows[PLUMB_MARK_ROWS_MAX];
    const int count = plumb_mark_rows(&desk->now.marked, rows);
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

static void magnify(PlumbDesk *desk, PlumbVec2 pixel)
{
    desk->tracing->magnified = true;
    desk->tracing->magnified_px = pixel;
    desk->dirty = true;
}

static void put_mark(PlumbDesk *desk, int index, PlumbVec2 pixel)
{
    const PlumbVec2 at = inside_px(desk, pixel);
    PlumbMark *const mark = &desk->now.marked.marks.mark[index];
    mark->x_px = at.x;
    mark->y_px = at.y;
    magnify(desk, at);
    plumb_desk_touch(desk);
}

/* A landmark that is there once moves; of a rim another point is set until there are enough. */
static int place(PlumbDesk *desk, PlumbVec2 pixel)
{
    PlumbMarked *const marked = &desk->now.marked;
    const PlumbMarkRow row = row_now(desk);
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
    put_mark(desk, index, at);
    return index;
}

/* Goes on once the landmark has all the marks that it may have. */
static void advance(PlumbDesk *desk)
{
    PlumbTracing *const t = desk->tracing;
    const PlumbMarkRow row = row_now(desk);
    if (plumb_marked_count(&desk->now.marked, row.name) >= row.most) {
        t->row = plumb_marked_next(&desk->now.marked, t->row);
    }
}

static void begin_pan(PlumbDesk *desk, PlumbVec2 at_mm)
{
    PlumbTracing *const t = desk->tracing;
    t->grab = PLUMB_GRAB_PAN;
    t->pan_mm = at_mm;
}

static void pan_by(PlumbDesk *desk, double x_mm, double y_mm)
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
    t->held = place(desk, pixel);
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
    if (!shown(desk) || press_chart(desk, at_mm)) {
        return;
    }
    if (t->pan_key) {
        begin_pan(desk, at_mm);
        return;
    }
    const PlumbVec2 pixel = plumb_picture_pixel(&t->view, at_mm);
    const int found = mark_at(desk, at_mm);
    desk->history.key = 0;
    if (found < 0) {
        place_at(desk, pixel);
        return;
    }
    const PlumbVec2 mark = mark_px(desk, found);
    t->held = found;
    t->still_click = true;
    t->off_px = (PlumbVec2){mark.x - pixel.x, mark.y - pixel.y};
    t->grab = PLUMB_GRAB_MARK;
    magnify(desk, mark);
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
    const PlumbMarkRow row = row_now(desk);
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
        pan_by(desk, at_mm.x - t->pan_mm.x, at_mm.y - t->pan_mm.y);
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
        put_mark(desk, t->held, (PlumbVec2){pixel.x + t->off_px.x, pixel.y + t->off_px.y});
        return true;
    }
    const bool in = shown(desk) && !plumb_reel_charts(desk) && plumb_rect_has(t->room, at_mm) &&
                    !desk->keys_shown && desk->card == PLUMB_CARD_NONE;
    if (in) {
        magnify(desk, pixel);
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
    if (down && shown(desk) && t->grab == PLUMB_GRAB_NONE && plumb_rect_has(t->room, at_mm)) {
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
    if (!shown(desk) || !plumb_rect_has(desk->tracing->room, at_mm)) {
        return false;
    }
    plumb_trace_zoom(desk, at_mm, pow(zoom_step, notches));
    return true;
}

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
    const PlumbMarkName name = row_now(desk).name;
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
    const PlumbMarkRow row = row_now(desk);
    const PlumbTraced *const traced = plumb_trace_read(desk);
    if (plumb_marked_count(&desk->now.marked, row.name) >= row.most) {
        plumb_trace_pick_row(desk, plumb_marked_next(&desk->now.marked, t->row));
        return;
    }
    PlumbVec2 pixel = plumb_picture_pixel(&t->view, middle_mm(t));
    if (traced != NULL && row.most == 1) {
        const int still = t->fitted[plumb_marked_view(&desk->now.marked)];
        PlumbMarkName name = row.name;
        pixel = plumb_trace_pixel(&t->stills.ask, traced, name);
        pixel.x = t->stills.mirrored[still] ? t->stills.ask.size_px[still].x - pixel.x : pixel.x;
    }
    desk->history.key = 0;
    t->held = place(desk, pixel);
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
    const PlumbVec2 at = mark_px(desk, index);
    put_mark(desk, index, (PlumbVec2){at.x + (mirrored ? -x : x), at.y + y});
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
    desk->tracing->row = plumb_marked_next(marked, -1);
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
        pan_by(desk, -x * pan_share * t->room.width_mm, -y * pan_share * t->room.height_mm);
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
    const int count = plumb_mark_rows(&desk->now.marked, rows);
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
    if (!shown(desk)) {
        return key == SDLK_HOME || key == SDLK_END || key == SDLK_PAGEUP || key == SDLK_PAGEDOWN;
    }
    if (desk->focus.kind == PLUMB_WIDGET_SCRUB && (key == SDLK_HOME || key == SDLK_END)) {
        plumb_reel_step(desk, (key == SDLK_HOME ? -1 : 1) * PLUMB_FRAMES_MAX);
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
