/* SPDX-License-Identifier: MIT */
/* What was read: figures with their spread beside the model's, findings, what cannot be seen. */
#include "page_trace.h"

#include "pages.h"
#include "reel.h"

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};

static const double columns_ems = 27.0; /* name, figure and difference beside each other */

/* Where the columns of a block end. */
typedef struct Columns {
    double x;
    double width;
    double picture_end;
    double size;
    bool narrow; /* no column for the difference */
} Columns;

static void put_spread(PlumbText *text, double sd, PlumbQuantity quantity, PlumbUnits units)
{
    plumb_text_string(text, " ± ");
    plumb_text_fixed(text, sd * plumb_quantity_factor(quantity, units),
                     plumb_quantity_decimals(quantity, units));
}

static void set_row(const PlumbDesk *desk, const PlumbBoard *board, const Columns *c, double y,
                    int reading)
{
    const PlumbTracing *const t = desk->tracing;
    const int still = t->fitted[plumb_marked_view(&desk->now.marked)];
    const PlumbTraced *const traced = &t->stills.trace.still[still];
    const PlumbQuantity quantity = plumb_reading_quantity((PlumbReading)reading);
    char words[64];
    double top = y - 0.98 * c->size;
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_quantity(&text, traced->value[reading], quantity, desk->units);
    put_spread(&text, traced->sd[reading], quantity, desk->units);
    const double room = c->picture_end - plumb_board_width(board, words, c->size) - 1.5;
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, c->x, &top, room, c->size, 1,
                     plumb_trace_figure_name(reading));
    plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){c->x + c->picture_end, y}, c->size,
                     PLUMB_END, words);
    if (c->narrow) {
        return;
    }
    const double off = plumb_stills_difference(&t->stills, still, (PlumbReading)reading);
    text = plumb_text_begin(words, sizeof words);
    if (isfinite(off)) {
        plumb_text_difference(&text, off, quantity, desk->units);
    } else {
        plumb_text_string(&text, "–");
    }
    plumb_board_text(board, PLUMB_ROLE_pencil_text, NONE, (PlumbVec2){c->x + c->width, y}, c->size,
                     PLUMB_END, words);
}

/* Paragraphs of the notes: findings of a still up to FIT_WORDS. */
enum {
    FIT_WORDS = PLUMB_FINDING_MAX,
    MODEL_WORDS,
    FIRST_OPEN,
    FEET_WORDS = FIRST_OPEN + PLUMB_UNSEEN_COUNT,
    FIRST_OF_FILM,
    PARAGRAPHS_MAX = FIRST_OF_FILM + PLUMB_FILM_LIMIT_COUNT + 1
};

/* Figures, then paragraphs: what a zone shows, from the first that is in view. */
typedef struct List {
    PlumbDesk *desk;
    const PlumbBoard *board;
    int zone;
    int figure[PLUMB_TRACE_FIGURES];
    int figure_count;
    int paragraph[PARAGRAPHS_MAX]; /* as paragraph_words has them */
    int paragraph_count;
    double size;
    double pitch;
    int blocks; /* side by side */
} List;

static int still_of(const PlumbDesk *desk)
{
    return desk->tracing->fitted[plumb_marked_view(&desk->now.marked)];
}

/* Whether a press is said to touch too high while nobody has said which way the feet lie. */
static bool doubts_feet(const PlumbDesk *desk)
{
    const PlumbMarked *const marked = &desk->now.marked;
    const PlumbStills *const stills = &desk->tracing->stills;
    bool high = plumb_reel_remarks(desk, PLUMB_FIND_touch_high);
    if (plumb_reel_paragraphs(desk) == 0) {
        for (int i = 0; i < stills->finding_count[still_of(desk)]; i++) {
            high = high || stills->finding[still_of(desk)][i].what.id == PLUMB_FIND_touch_high;
        }
    }
    bool told = fabs(plumb_marked_told(marked, PLUMB_TOLD_facing)) > 0.0;
    for (int i = 0; i < marked->marks.count; i++) {
        const PlumbMark *const mark = &marked->marks.mark[i];
        told = told || (mark->name.landmark == PLUMB_MARK_hip &&
                        (marked->film || mark->still == marked->still));
    }
    return high && !told;
}

/* A finding, how the fit is, or what the picture leaves open; of a film its own. *bar: a warning;
 * *frame: of a film where it shows, else -1. */
static PlumbRole paragraph_words(const PlumbDesk *desk, int index, PlumbText *text, bool *bar,
                                 int *frame)
{
    const PlumbStills *const stills = &desk->tracing->stills;
    *frame = -1;
    *bar = false;
    if (index >= FIRST_OF_FILM) {
        *frame = plumb_reel_paragraph(desk, index - FIRST_OF_FILM, text);
        *bar = *frame >= 0;
        return *bar ? PLUMB_ROLE_ink : PLUMB_ROLE_quiet;
    }
    if (index == FEET_WORDS) {
        plumb_text_string(text, "The feet are taken to be to the right in the picture: if they are "
                                "to the left, M says so.");
        return PLUMB_ROLE_ink;
    }
    const int still = still_of(desk);
    if (index < FIT_WORDS) {
        plumb_stills_finding_text(text, stills, still, index, desk->units);
        *bar = stills->finding[still][index].what.severity == PLUMB_WARNING;
        return PLUMB_ROLE_ink;
    }
    if (index == FIT_WORDS) {
        if (stills->finding_count[still] == 0) {
            plumb_text_string(text, "Nothing stands out beyond its spread. ");
        }
        plumb_stills_fit_text(text, stills, still);
        plumb_text_char(text, '.');
        plumb_text_string(text, plumb_trace_end_words(&stills->trace.still[still]));
        return PLUMB_ROLE_ink;
    }
    if (index == MODEL_WORDS) {
        plumb_stills_lead_text(text, stills, still);
        return PLUMB_ROLE_ink;
    }
    plumb_text_string(text, "Open: ");
    plumb_text_string(text, plumb_unseen_text((PlumbUnseen)(index - FIRST_OPEN)));
    plumb_text_char(text, '.');
    return PLUMB_ROLE_quiet;
}

static void list_figures(List *list)
{
    const PlumbDesk *const desk = list->desk;
    list->figure_count = plumb_trace_figures(&desk->tracing->stills, still_of(desk), list->figure);
}

static void list_paragraphs(List *list)
{
    const PlumbStills *const stills = &list->desk->tracing->stills;
    const int of_film = plumb_reel_paragraphs(list->desk);
    if (doubts_feet(list->desk)) {
        list->paragraph[list->paragraph_count++] = FEET_WORDS;
    }
    for (int i = 0; i < of_film; i++) {
        list->paragraph[list->paragraph_count++] = FIRST_OF_FILM + i;
    }
    if (of_film > 0) {
        return;
    }
    const int still = still_of(list->desk);
    for (int i = 0; i < stills->finding_count[still]; i++) {
        list->paragraph[list->paragraph_count++] = i;
    }
    list->paragraph[list->paragraph_count++] = FIT_WORDS;
    list->paragraph[list->paragraph_count++] = MODEL_WORDS;
    for (int i = 0; i < PLUMB_UNSEEN_COUNT; i++) {
        if ((stills->trace.still[still].unseen & (1U << i)) != 0) {
            list->paragraph[list->paragraph_count++] = FIRST_OPEN + i;
        }
    }
}

static List list_of(PlumbDesk *desk, const PlumbBoard *board, int zone)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    return (List){.desk = desk,
                  .board = board,
                  .zone = zone,
                  .size = size,
                  .pitch = PLUMB_LINE_PITCH * size,
                  .blocks = 1};
}

/* What an item takes of the height, at most room. */
static double item_height(const List *list, PlumbRect rect, int item, double room)
{
    char words[1024];
    bool bar;
    int frame;
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (item < list->figure_count) {
        return list->pitch;
    }
    paragraph_words(list->desk, list->paragraph[item - list->figure_count], &text, &bar, &frame);
    const int lines = plumb_board_wrap_count(list->board, rect.width_mm - 2.0, list->size, words);
    return fmin(lines * list->pitch, room) + 0.4 * list->size;
}

static void draw_paragraph(const List *list, PlumbRect rect, double *y, int index)
{
    char words[1024];
    bool bar;
    int frame;
    PlumbText text = plumb_text_begin(words, sizeof words);
    const PlumbRole role = paragraph_words(list->desk, index, &text, &bar, &frame);
    const double from = *y;
    const int lines = (int)floor((rect.y_mm + rect.height_mm - *y) / list->pitch + 1e-6);
    plumb_board_wrap(list->board, role, NONE, rect.x_mm + 2.0, y, rect.width_mm - 2.0, list->size,
                     lines < 1 ? 1 : lines, words);
    if (bar) {
        const PlumbPen pen = {PLUMB_ROLE_bar, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
        plumb_scene_line(list->board->scene, pen, NONE, (PlumbVec2){rect.x_mm + 0.5, from},
                         (PlumbVec2){rect.x_mm + 0.5, *y});
    }
    if (frame >= 0) {
        plumb_desk_widget(list->desk, PLUMB_WIDGET_FRAME, frame,
                          (PlumbRect){rect.x_mm, from, rect.width_mm, *y - from}, false);
    }
    *y += 0.4 * list->size;
}

static Columns columns_of(const List *list, PlumbRect rect, int block)
{
    const double difference = plumb_board_width(list->board, "+1000 N m", list->size) + 1.5;
    const bool two = list->blocks > 1;
    Columns c = {.size = list->size, .width = rect.width_mm / list->blocks - (two ? 3.0 : 0.0)};
    c.narrow = c.width < columns_ems * list->size;
    c.picture_end = c.narrow ? c.width : c.width - difference;
    c.x = rect.x_mm + block * (rect.width_mm / list->blocks + (two ? 1.5 : 0.0));
    return c;
}

static void draw_head(const List *list, const Columns *c, double y)
{
    plumb_board_text(list->board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){c->x + c->picture_end, y},
                     list->size, PLUMB_END, "picture ± sd");
    if (!c->narrow) {
        plumb_board_text(list->board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){c->x + c->width, y},
                         list->size, PLUMB_END, "less model");
    }
}

/* Sets items from the first on, or only looks how many find room; returns the item after them. */
static int set_items(const List *list, PlumbRect rect, int first, bool draw)
{
    const int count = list->figure_count + list->paragraph_count;
    const double end = rect.y_mm + rect.height_mm + 1e-6;
    int next = first;
    for (int block = 0; block < list->blocks; block++) {
        const Columns c = columns_of(list, rect, block);
        double y = rect.y_mm;
        const bool head = next < list->figure_count;
        y += head ? list->pitch : 0.0;
        if (head && draw) {
            draw_head(list, &c, rect.y_mm + list->size);
        }
        for (int set = 0; next < count; set++, next++) {
            const double height = item_height(list, rect, next, end - rect.y_mm);
            if (y + height - 0.4 * list->size > end && (set > 0 || block > 0)) {
                break;
            }
            if (draw && next < list->figure_count) {
                set_row(list->desk, list->board, &c, y + 0.98 * list->size, list->figure[next]);
            } else if (draw) {
                double top = y;
                draw_paragraph(list, rect, &top, list->paragraph[next - list->figure_count]);
            }
            y += height;
        }
    }
    return next;
}

/* All of it where it has room; else from where it was scrolled to, with what is above and below. */
static void draw_list(const List *list, PlumbRect rect)
{
    PlumbDesk *const desk = list->desk;
    PlumbTracing *const t = desk->tracing;
    int *const first = &t->first_item[list->zone];
    const int count = list->figure_count + list->paragraph_count;
    t->items_fit[list->zone] = 0;
    if (set_items(list, rect, 0, false) == count) {
        *first = 0;
        set_items(list, rect, 0, true);
        return;
    }
    const PlumbRect whole = rect;
    const double strip = 1.5 * list->size;
    rect.height_mm -= strip;
    *first = *first < 0 ? 0 : *first >= count ? count - 1 : *first;
    while (*first > 0 && set_items(list, rect, *first - 1, false) == count) {
        --*first;
    }
    const int next = set_items(list, rect, *first, true);
    t->items_fit[list->zone] = next - *first;
    const PlumbRect fold = {rect.x_mm, rect.y_mm + rect.height_mm, rect.width_mm, strip};
    plumb_fold_draw(desk, list->board, fold, PLUMB_WIDGET_LEAF, 2 * list->zone, *first,
                    count - next);
    plumb_desk_widget(desk, PLUMB_WIDGET_READ, list->zone, whole, true);
    if (plumb_desk_has_focus(desk, PLUMB_WIDGET_READ, list->zone)) {
        plumb_focus_ring(list->board, (PlumbRect){whole.x_mm - 1.2, whole.y_mm - 1.2,
                                                  whole.width_mm + 2.4, whole.height_mm + 2.4});
    }
}

void plumb_trace_scroll(PlumbDesk *desk, int zone, int by)
{
    PlumbTracing *const t = desk->tracing;
    const int most = (int)PLUMB_TRACE_FIGURES + (int)PARAGRAPHS_MAX;
    if (t->items_fit[zone] > 0) {
        t->first_item[zone] += by < -most ? -most : by > most ? most : by;
        t->first_item[zone] = t->first_item[zone] < 0 ? 0 : t->first_item[zone];
        desk->dirty = true;
    }
}

void plumb_trace_leaf(PlumbDesk *desk, int zone, int by)
{
    const PlumbTracing *const t = desk->tracing;
    if (zone == PLUMB_READ_ZONES) {
        plumb_trace_pick_row(desk, t->row + by * t->rows_fit);
    } else {
        plumb_trace_scroll(desk, zone, by * (t->items_fit[zone] > 1 ? t->items_fit[zone] : 1));
    }
}

void plumb_trace_layout(PlumbDesk *desk, const PlumbBoard *board, double pad_mm)
{
    PlumbLayout *const l = &desk->layout;
    const double figures = l->table.width_mm + l->joints.width_mm;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    if (desk->now.marked.film || figures - 2.0 * pad_mm >= columns_ems * size) {
        return;
    }
    l->notes =
        (PlumbRect){l->table.x_mm, l->table.y_mm, figures + l->notes.width_mm, l->table.height_mm};
    l->table.width_mm = 0.0;
    l->joints.width_mm = 0.0;
}

static void draw_invitation(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbTracing *const t = desk->tracing;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    double y = rect.y_mm;
    plumb_board_wrap(board, PLUMB_ROLE_quiet, NONE, rect.x_mm, &y, rect.width_mm, size, 4,
                     t->why_not.message[0] != '\0' && desk->now.marked.marks.count > 0
                         ? t->why_not.message
                         : "Here stand the figures that the marks tell, each with its spread and "
                           "its difference from the model.");
    const int lines = (int)floor((rect.y_mm + rect.height_mm - y) / (PLUMB_LINE_PITCH * size)) - 1;
    if (desk->now.lift == PLUMB_BENCH && desk->now.marked.marks.still_count > 0 && lines > 0) {
        y += 0.6 * size;
        plumb_board_wrap(board, PLUMB_ROLE_quiet, NONE, rect.x_mm, &y, rect.width_mm, size, lines,
                         "Touch, path and lockout are seen from the side, with the lens as high as "
                         "the shoulders; the elbows, the forearms and the grip from the "
                         "head end, or from the foot end (S). A adds the other view: both are "
                         "fitted together.");
    }
}

void plumb_trace_table(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    desk->tracing->items_fit[PLUMB_READ_FIGURES] = 0;
    if (!(desk->layout.table.width_mm > 0.0) || plumb_reel_table(desk, board, rect)) {
        return; /* it stands with the notes */
    }
    if (plumb_trace_read(desk) == NULL) {
        draw_invitation(desk, board, rect);
        return;
    }
    List list = list_of(desk, board, PLUMB_READ_FIGURES);
    list.blocks = rect.width_mm > 2.0 * 34.0 * list.size ? 2 : 1;
    list_figures(&list);
    draw_list(&list, rect);
}

void plumb_trace_notes(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const bool all = !(desk->layout.table.width_mm > 0.0);
    desk->tracing->items_fit[PLUMB_READ_NOTES] = 0;
    List list = list_of(desk, board, PLUMB_READ_NOTES);
    if (rect.height_mm < 2.0 * list.pitch) {
        return;
    }
    if (plumb_trace_read(desk) == NULL && plumb_reel_paragraphs(desk) == 0) {
        if (all) {
            draw_invitation(desk, board, rect);
        }
        return;
    }
    if (all) {
        list_figures(&list);
    }
    if (all != desk->tracing->notes_hold_all) {
        desk->tracing->notes_hold_all = all;
        desk->tracing->first_item[PLUMB_READ_NOTES] = 0;
    }
    list_paragraphs(&list);
    draw_list(&list, rect);
}
