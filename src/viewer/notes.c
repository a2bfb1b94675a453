/* SPDX-License-Identifier: MIT */
/* The notes: the line being typed, the message, what to try, and below them what scrolls where it
 * does not fit. */
#include "compose.h"

#include "advise.h"
#include "page_trace.h"
#include "pages.h"
#include "working.h"

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const double pad_mm = 2.5;
static const double tall_mm = 2000.0; /* longer than notes ever are */
static const double strip_ems = 1.5;
static const double least_ems = 3.4;    /* room for a line and the strip */
static const double columns_ems = 56.0; /* as wide they stand in two columns, which do not scroll */

/* What is asked for and does not hold comes first: the figures are those of the last that held. */
static void wish_words(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbPosed *const wish = plumb_desk_wish(desk);
    if (wish != NULL) {
        plumb_text_string(text, "No pose meets this: ");
        plumb_text_string(text, plumb_reason_text(wish->reason));
        plumb_text_string(text, ". Inked, and in the figures, is the last that held.");
    }
}

/* The line being typed and what was said last; returns where they end. */
static double draw_message(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    double y = rect.y_mm;
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    wish_words(desk, &text);
    if (desk->field.use != PLUMB_FIELD_SHUT && desk->field.use != PLUMB_FIELD_RULER &&
        desk->field.use != PLUMB_FIELD_SLIP) {
        const PlumbRect box = {rect.x_mm, y, rect.width_mm, 2.0 * size};
        plumb_field_draw(desk, board, box, size, y + 1.36 * size);
        y += 2.6 * size;
    }
    const int most = (int)floor(rect.height_mm / (PLUMB_LINE_PITCH * size)) - 1;
    const char *const lines[2] = {words, desk->message};
    for (int i = 0; i < 2; i++) {
        if (lines[i][0] != '\0') {
            const double from = y;
            plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm + 2.0, &y, rect.width_mm - 2.0,
                             size, most < 1 ? 1 : most, lines[i]);
            const bool wrong = i == 0 || desk->message_wrong;
            const PlumbPen bar = {wrong ? PLUMB_ROLE_bar : PLUMB_ROLE_rule, PLUMB_HEAVY_MM,
                                  PLUMB_SOLID, PLUMB_ROLE_none};
            plumb_scene_line(board->scene, bar, NONE, (PlumbVec2){rect.x_mm + 0.5, from},
                             (PlumbVec2){rect.x_mm + 0.5, y});
            y += 0.6 * size;
        }
    }
    return y;
}

/* What scrolls: of the Path page its own words, else the crowd, window, range and findings. Returns
 * how high it is. */
static double draw_words(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    if (desk->page == PLUMB_PAGE_PATH) {
        return plumb_path_notes(desk, board, rect);
    }
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const int room = (int)floor(rect.height_mm / (PLUMB_LINE_PITCH * size));
    double y = rect.y_mm;
    if (plumb_crowd_words(desk)[0] != '\0' && room > 0) {
        plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm, &y, rect.width_mm, size, room,
                         plumb_crowd_words(desk));
        y += 0.6 * size;
    }
    const PlumbRect rest = {rect.x_mm, y, rect.width_mm, rect.y_mm + rect.height_mm - y};
    if (rest.height_mm > PLUMB_LINE_PITCH * size) {
        y += plumb_compose_notes(board->scene, board->drawing, rest);
    }
    return y - rect.y_mm;
}

/* The part of them that is scrolled to, over a strip that says how many lines are beyond. */
static void draw_part(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, double length_mm)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double pitch = PLUMB_LINE_PITCH * size;
    const PlumbRect strip = {rect.x_mm, rect.y_mm + rect.height_mm - strip_ems * size,
                             rect.width_mm, strip_ems * size};
    PlumbRect room = rect;
    room.height_mm -= strip.height_mm;
    PlumbNotesScroll *const scroll = &desk->notes_scroll;
    scroll->line_mm = pitch;
    scroll->page_mm = pitch * fmax(1.0, floor(room.height_mm / pitch) - 1.0);
    scroll->most_mm = length_mm - room.height_mm;
    scroll->top_mm = fmax(0.0, fmin(scroll->top_mm, scroll->most_mm));
    plumb_scene_append(board->scene, &desk->worked->scene, 1.0, (PlumbVec2){0.0, -scroll->top_mm},
                       room);
    plumb_fold_draw(desk, board, strip, PLUMB_WIDGET_NOTES, 1,
                    (int)ceil(scroll->top_mm / pitch - 0.01),
                    (int)ceil((scroll->most_mm - scroll->top_mm) / pitch - 0.01));
    plumb_desk_widget(desk, PLUMB_WIDGET_NOTES, 0, rect, true);
    if (plumb_desk_has_focus(desk, PLUMB_WIDGET_NOTES, 0)) {
        plumb_focus_ring(board, (PlumbRect){rect.x_mm - 1.2, rect.y_mm - 1.2, rect.width_mm + 2.4,
                                            rect.height_mm + 2.4});
    }
}

void plumb_notes_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect zone)
{
    PlumbRect rect = {zone.x_mm + pad_mm, zone.y_mm + pad_mm, zone.width_mm - 2.0 * pad_mm,
                      zone.height_mm - 2.0 * pad_mm};
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    desk->notes_scroll.most_mm = 0.0;
    double y = draw_message(desk, board, rect);
    rect.height_mm -= y - rect.y_mm;
    rect.y_mm = y;
    if (desk->page == PLUMB_PAGE_TRACE) {
        plumb_trace_notes(desk, board, rect);
        return;
    }
    if (desk->page != PLUMB_PAGE_PATH) {
        const double used = plumb_advise_draw(desk, board, rect);
        rect.height_mm -= used;
        rect.y_mm += used;
    }
    PlumbScene *const whole = &desk->worked->scene;
    const PlumbBoard scratch = {whole, board->drawing};
    plumb_scene_begin(whole, desk->width_mm, tall_mm);
    const double length =
        draw_words(desk, &scratch, (PlumbRect){rect.x_mm, rect.y_mm, rect.width_mm, tall_mm});
    if (length <= rect.height_mm || rect.width_mm > columns_ems * size ||
        rect.height_mm < least_ems * size) {
        desk->notes_scroll.top_mm = 0.0;
        draw_words(desk, board, rect);
        return;
    }
    draw_part(desk, board, rect, length);
}

bool plumb_notes_scroll(PlumbDesk *desk, double lines)
{
    PlumbNotesScroll *const scroll = &desk->notes_scroll;
    if (scroll->most_mm <= 0.0) {
        return false;
    }
    scroll->top_mm = fmax(0.0, fmin(scroll->top_mm + lines * scroll->line_mm, scroll->most_mm));
    desk->dirty = true;
    return true;
}

bool plumb_notes_turn(PlumbDesk *desk, int pages)
{
    const PlumbNotesScroll *const scroll = &desk->notes_scroll;
    return scroll->most_mm > 0.0 &&
           plumb_notes_scroll(desk, pages * scroll->page_mm / scroll->line_mm);
}
