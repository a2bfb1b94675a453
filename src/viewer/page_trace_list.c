/* SPDX-License-Identifier: MIT */
/* The column of the Trace page: the guided list of landmarks, and the page's buttons. */
#include "page_trace.h"

#include "reel.h"

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const double pad_mm = 2.5;
static const double gap_mm = 1.2;

static const PlumbCommandId BUTTONS[] = {
    PLUMB_CMD_TRACE_USE,    PLUMB_CMD_TRACE_MIRROR, PLUMB_CMD_TRACE_FRONT, PLUMB_CMD_TRACE_AIR,
    PLUMB_CMD_TRACE_CAMERA, PLUMB_CMD_TRACE_LENGTH, PLUMB_CMD_TRACE_WHOLE, PLUMB_CMD_TRACE_ADD,
};
enum { BUTTON_COUNT = sizeof BUTTONS / sizeof BUTTONS[0] };

static const PlumbCommandId FILM_BUTTONS[] = {
    PLUMB_CMD_TRACE_FOLLOW, PLUMB_CMD_TRACE_DOUBT,  PLUMB_CMD_TRACE_CHART, PLUMB_CMD_TRACE_PLAY,
    PLUMB_CMD_TRACE_SLOW,   PLUMB_CMD_TRACE_MIRROR, PLUMB_CMD_TRACE_FRONT, PLUMB_CMD_TRACE_AIR,
    PLUMB_CMD_TRACE_CAMERA, PLUMB_CMD_TRACE_LENGTH, PLUMB_CMD_TRACE_RATE,  PLUMB_CMD_TRACE_USE,
};
enum { FILM_BUTTON_COUNT = sizeof FILM_BUTTONS / sizeof FILM_BUTTONS[0] };

/* The page's buttons now; returns how many. */
static int choose_buttons(const PlumbDesk *desk, const PlumbCommandId **button)
{
    const bool film = desk->now.marked.film;
    *button = film ? FILM_BUTTONS : BUTTONS;
    return film ? (int)FILM_BUTTON_COUNT : (int)BUTTON_COUNT;
}

/* A button that would change nothing of what is read. */
static bool idle(const PlumbDesk *desk, PlumbCommandId id)
{
    const PlumbMarked *const marked = &desk->now.marked;
    return (id == PLUMB_CMD_TRACE_AIR && desk->now.lift != PLUMB_DEADLIFT) ||
           (id == PLUMB_CMD_TRACE_MIRROR && marked->front[plumb_marked_view(marked)]);
}

/* Sets the buttons in lines that end at bottom, or only measures; returns their height. */
static double set_buttons(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, double top,
                          bool draw)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double height = 2.0 * size;
    double x = rect.x_mm;
    double y = top;
    const PlumbCommandId *button;
    const int count = choose_buttons(desk, &button);
    for (int i = 0; i < count; i++) {
        char words[64];
        PlumbText text = plumb_text_begin(words, sizeof words);
        if (idle(desk, button[i])) {
            continue;
        }
        plumb_command_words(desk, button[i], &text);
        const double width = fmin(plumb_board_width(board, words, size) + 2.8, rect.width_mm);
        if (x > rect.x_mm && x + width > rect.x_mm + rect.width_mm) {
            x = rect.x_mm;
            y += height + gap_mm;
        }
        if (draw) {
            plumb_button_draw(desk, board, button[i], (PlumbRect){x, y, width, height}, words);
        }
        x += width + gap_mm;
    }
    return y + height - top;
}

/* Filled: marked. Open: seen by the fit only. */
static void draw_dot(const PlumbBoard *board, PlumbVec2 at, double size, bool marked, bool seen)
{
    const PlumbPen pen = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID,
                          marked ? PLUMB_ROLE_ink : PLUMB_ROLE_none};
    if (marked || seen) {
        plumb_scene_circle(board->scene, pen, NONE, at, 0.28 * size);
    }
}

/* How a row stands, in words: how far its mark is from the fit, or how many of how many. */
static void say_row(const PlumbDesk *desk, const PlumbMarkRow *row, PlumbText *text)
{
    if (plumb_reel_say_row(desk, row->name, text)) {
        return;
    }
    const PlumbMarked *const marked = &desk->now.marked;
    const int count = plumb_marked_count(marked, row->name);
    int still;
    const PlumbStills *const seen = plumb_trace_figure(desk, &still);
    if (row->most > 1) {
        if (count > 0) {
            plumb_text_integer(text, count);
            plumb_text_string(text, " of ");
            plumb_text_integer(text, count > row->most ? count : row->most);
        }
        return;
    }
    if (count == 0 || seen == NULL) {
        return;
    }
    const PlumbMark *const mark = &marked->marks.mark[plumb_marked_last(marked, row->name)];
    const PlumbVec2 at = plumb_stills_pixel(seen, still, row->name);
    plumb_text_fixed(text, hypot(at.x - mark->x_px, at.y - mark->y_px), 0);
    plumb_text_string(text, " px off");
}

static void draw_row(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, int index,
                     const PlumbMarkRow *row)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double y = rect.y_mm + 0.5 * rect.height_mm + 0.36 * size;
    const bool marked = plumb_marked_count(&desk->now.marked, row->name) >= row->least;
    const bool body = row->name.landmark <= PLUMB_MARK_bar;
    int still;
    char words[64];
    if (index == desk->tracing->row) {
        const PlumbPen chosen = {PLUMB_ROLE_select, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_limb};
        plumb_scene_rect(board->scene, chosen, NONE,
                         (PlumbRect){rect.x_mm + 0.3, rect.y_mm + 0.3, rect.width_mm - 0.6,
                                     rect.height_mm - 0.6});
    }
    draw_dot(board, (PlumbVec2){rect.x_mm + 0.8 * size, rect.y_mm + 0.5 * rect.height_mm}, size,
             marked, body && plumb_trace_figure(desk, &still) != NULL);
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_marked_name(&text, row->name);
    plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){rect.x_mm + 1.6 * size, y}, size,
                     PLUMB_START, words);
    text = plumb_text_begin(words, sizeof words);
    say_row(desk, row, &text);
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE,
                     (PlumbVec2){rect.x_mm + rect.width_mm - 0.6 * size, y}, size, PLUMB_END,
                     words);
    plumb_desk_widget(desk, PLUMB_WIDGET_MARK, index, rect, false);
}

static void draw_rows(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    PlumbTracing *const t = desk->tracing;
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    const int count = plumb_mark_rows(&desk->now.marked, desk->now.lift, row);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double pitch = fmax(1.6 * size, fmin(rect.height_mm / count, 2.2 * size));
    const double strip = count * pitch > rect.height_mm + 1e-6 ? 1.5 * size : 0.0;
    int fit = (int)floor((rect.height_mm - strip) / pitch + 1e-6);
    fit = fit > count ? count : fit < 1 ? 1 : fit;
    t->first_row = t->row < t->first_row ? t->row : t->first_row;
    t->first_row = t->row >= t->first_row + fit ? t->row - fit + 1 : t->first_row;
    t->first_row = t->first_row > count - fit ? count - fit : t->first_row;
    t->rows_fit = fit;
    for (int i = t->first_row; i < t->first_row + fit; i++) {
        draw_row(
            desk, board,
            (PlumbRect){rect.x_mm, rect.y_mm + (i - t->first_row) * pitch, rect.width_mm, pitch}, i,
            &row[i]);
    }
    if (strip > 0.0) {
        const PlumbRect fold = {rect.x_mm, rect.y_mm + rect.height_mm - strip, rect.width_mm,
                                strip};
        plumb_fold_draw(desk, board, fold, PLUMB_WIDGET_LEAF, 2 * PLUMB_READ_ZONES, t->first_row,
                        count - t->first_row - fit);
    }
    plumb_desk_widget(desk, PLUMB_WIDGET_MARKS, 0, rect, true);
    if (plumb_desk_has_focus(desk, PLUMB_WIDGET_MARKS, 0)) {
        plumb_focus_ring(board, (PlumbRect){rect.x_mm - 1.0, rect.y_mm - 0.5, rect.width_mm + 2.0,
                                            rect.height_mm + 1.0});
    }
}

void plumb_trace_list(PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbRect column = desk->layout.rulers;
    const PlumbRect rect = {column.x_mm + pad_mm, column.y_mm + pad_mm,
                            column.width_mm - 2.0 * pad_mm, column.height_mm - 2.0 * pad_mm};
    const double buttons = set_buttons(desk, board, rect, rect.y_mm, false);
    desk->place_count = 0;
    plumb_slices_next(&desk->slices, board->scene, column);
    const PlumbRect room = {rect.x_mm, rect.y_mm, rect.width_mm, rect.height_mm - buttons - pad_mm};
    draw_rows(desk, board, room);
    set_buttons(desk, board, rect, rect.y_mm + rect.height_mm - buttons, true);
}
