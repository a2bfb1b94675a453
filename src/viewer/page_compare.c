/* SPDX-License-Identifier: MIT */
/* The Compare page: the inked set-up beside the pencilled one, and every figure of both. */
#include "pages.h"

#include "working.h"

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const double two_views_mm = 100.0; /* one above the other */

enum { CELL_SIZE = 40 };

void plumb_against_settle(PlumbDesk *desk)
{
    PlumbAgainst *const against = &desk->against;
    if (!plumb_desk_pencil_shown(desk) || !against->stale) {
        return;
    }
    against->stale = false;
    plumb_compare(&desk->pencil.solved, &plumb_desk_inked(desk)->solved, against->of);
}

static void heading(const PlumbBoard *board, PlumbRole role, PlumbRect rect, const char *word,
                    const char *name)
{
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    double y = rect.y_mm;
    char words[PLUMB_DESK_NAME_SIZE + 16];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, word);
    if (name[0] != '\0') {
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, name);
    }
    plumb_board_wrap(board, role, NONE, rect.x_mm, &y, rect.width_mm, size, 1, words);
}

static PlumbDrawing side_of(PlumbDesk *desk, const PlumbLifter *lifter, const PlumbPosed *posed,
                            PlumbSight sight)
{
    PlumbDrawing drawing = plumb_drawing_default(lifter, NULL, plumb_font_width, desk->font);
    plumb_family_of(posed)->draw(&drawing, posed, NULL, NULL, plumb_desk_arm(desk));
    drawing.units = desk->units;
    drawing.sight = sight;
    drawing.text_scale = fmin(desk->text_scale, 1.25);
    return drawing;
}

/* The fit of the other side, which is dx_mm to the right. */
static PlumbFit shifted(PlumbFit fit, double dx_mm)
{
    fit.side_origin_mm.x += dx_mm;
    fit.side.x_mm += dx_mm;
    fit.front_origin_mm.x += dx_mm;
    fit.front.x_mm += dx_mm;
    for (int i = 0; i < PLUMB_PRESS_VIEW_COUNT; i++) {
        fit.press.origin_mm[i].x += dx_mm;
        fit.press.room[i].x_mm += dx_mm;
    }
    return fit;
}

/* Both sides in one kind of view. */
typedef struct Pair {
    PlumbDrawing side[2]; /* inked, pencilled */
    PlumbFit fit[2];
} Pair;

/* One scale and one floor line for both. */
static void fit_pair(PlumbDesk *desk, PlumbSight sight, PlumbRect left, PlumbRect right, Pair *pair)
{
    const PlumbSheet *const now = &desk->now;
    const double shift = right.x_mm - left.x_mm;
    pair->side[0] = side_of(desk, &now->lifter, plumb_desk_inked(desk), sight);
    pair->side[1] = side_of(desk, &now->pencil_lifter, &desk->pencil, sight);
    PlumbFit a = plumb_views_fit(&pair->side[0], left);
    PlumbFit b = plumb_views_fit(&pair->side[1], right);
    if (a.scale_n >= b.scale_n) {
        b = shifted(a, shift);
    } else {
        a = shifted(b, -shift);
    }
    a.decided = b.decided = false;
    pair->fit[0] = a;
    pair->fit[1] = b;
    desk->fit.scale_n = a.scale_n;
}

/* A press is seen from the head end too, where there is room. Returns how many pairs there are. */
static int fit_pairs(PlumbDesk *desk, PlumbRect left, PlumbRect right, Pair pair[2])
{
    const bool two = desk->now.lift == PLUMB_BENCH && left.height_mm >= two_views_mm;
    const double height = two ? 0.5 * left.height_mm : left.height_mm;
    left.height_mm = right.height_mm = height;
    fit_pair(desk, PLUMB_SEE_SIDE, left, right, &pair[0]);
    if (two) {
        left.y_mm = right.y_mm = left.y_mm + height;
        fit_pair(desk, PLUMB_SEE_FRONT, left, right, &pair[1]);
    }
    return two ? 2 : 1;
}

/* What is pencilled stands still while the other is dragged: it is painted by itself. */
static void begin_pencilled(PlumbDesk *desk, const PlumbBoard *board, double from_mm)
{
    if (board->scene == desk->scene) {
        PlumbRect *const left = &desk->slices.slice[desk->slices.count - 1].rect;
        PlumbRect right = *left;
        left->width_mm = from_mm - left->x_mm;
        right.x_mm = from_mm;
        right.width_mm -= left->width_mm;
        plumb_slices_next(&desk->slices, board->scene, right);
    }
}

static void say_nothing_pencilled(const PlumbBoard *board, PlumbRect rect)
{
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    double y = rect.y_mm + 0.42 * rect.height_mm;
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm + 4.0, &y, rect.width_mm - 8.0, size, 3,
                     "Nothing is pencilled for this lift. P pencils this set-up; then change a "
                     "ruler, and this page holds the two against each other.");
}

void plumb_compare_views(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbSheet *const now = &desk->now;
    if (!plumb_desk_pencil_shown(desk)) {
        say_nothing_pencilled(board, rect);
        return;
    }
    /* On whole pixels, as all zones. */
    const double middle =
        round((rect.x_mm + 0.5 * rect.width_mm) * PLUMB_WINDOW_PX_PER_MM) / PLUMB_WINDOW_PX_PER_MM;
    const double head = 1.8 * plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    const double half = middle - rect.x_mm;
    const PlumbRect left = {rect.x_mm, rect.y_mm + head, half - 1.0, rect.height_mm - head};
    const PlumbRect right = {middle + 1.0, left.y_mm, left.width_mm, left.height_mm};
    const char *const word[2] = {"Inked", "Pencilled"};
    const char *const name[2] = {now->setup_name[now->lift], now->pencil_name};
    const PlumbRole role[2] = {PLUMB_ROLE_ink, PLUMB_ROLE_pencil_text};
    Pair pair[2];
    const int pairs = fit_pairs(desk, left, right, pair);
    const double rule = middle - 0.5 * PLUMB_FINE_MM;
    plumb_scene_line(board->scene, PEN_RULE, NONE, (PlumbVec2){rule, rect.y_mm},
                     (PlumbVec2){rule, rect.y_mm + rect.height_mm});
    for (int side = 0; side < 2; side++) {
        const double x = side == 0 ? left.x_mm : right.x_mm;
        if (side == 1) {
            begin_pencilled(desk, board, middle);
        }
        heading(board, role[side], (PlumbRect){x + 1.0, rect.y_mm, half - 3.0, head}, word[side],
                name[side]);
        for (int i = 0; i < pairs; i++) {
            plumb_compose_views(board->scene, &pair[i].side[side], &pair[i].fit[side]);
        }
    }
}

/* The words of a row's figures. */
typedef enum Column { INKED, PENCILLED, CHANGE, COLUMN_COUNT } Column;

static const char *const HEADING[2][COLUMN_COUNT] = {{"inked", "pencilled", "change"},
                                                     {"inked", "pencilled", "change ± sd"}};

typedef struct Cells {
    const PlumbCompareRow *row;
    PlumbTag tag[COLUMN_COUNT]; /* of the figure's working */
    char words[COLUMN_COUNT][CELL_SIZE];
} Cells;

/* All rows that have something to say, and how wide each column has to be. */
typedef struct Table {
    bool spread; /* the changes have theirs beside them */
    double size;
    double name_mm;
    double column_mm[COLUMN_COUNT];
    int count;
    Cells row[PLUMB_COMPARE_MAX];
} Table;

static const double column_gap_mm = 2.0;
static const double blocks_gap_mm = 7.0;
static const double two_blocks_share = 0.85;
static const double text_least_share =
    0.72; /* of the size asked for, before something is left out */

static void write_cells(const PlumbDesk *desk, bool spread, Cells *cells)
{
    const PlumbLift lift = desk->now.lift;
    const int figure = cells->row->figure;
    const PlumbDifference *const of = &desk->against.of[figure];
    const PlumbQuantity quantity = plumb_lift_output_quantity(lift, figure);
    const double value[2] = {of->second, of->first};
    for (int i = 0; i < 2; i++) {
        PlumbText text = plumb_text_begin(cells->words[i], CELL_SIZE);
        if (isfinite(value[i])) {
            plumb_text_quantity(&text, value[i], quantity, desk->units);
        } else {
            plumb_text_string(&text, "–");
        }
    }
    PlumbText text = plumb_text_begin(cells->words[CHANGE], CELL_SIZE);
    const double sd = of->spread.sd * plumb_quantity_factor(quantity, desk->units);
    if (isfinite(of->change)) {
        plumb_text_difference(&text, of->change, quantity, desk->units);
        if (spread && isfinite(sd) && sd > 0.005) {
            plumb_text_string(&text, " ± ");
            plumb_text_fixed(&text, sd, plumb_quantity_decimals(quantity, desk->units));
        }
    }
}

/* Width of a block of the table, its columns as wide as their widest words. */
static double measure(const PlumbBoard *board, Table *table)
{
    double width = 0.0;
    table->name_mm = 0.0;
    for (int i = 0; i < table->count; i++) {
        table->name_mm =
            fmax(table->name_mm, plumb_board_width(board, table->row[i].row->name, table->size));
    }
    for (int c = 0; c < COLUMN_COUNT; c++) {
        double widest = plumb_board_width(board, HEADING[table->spread][c], table->size);
        for (int i = 0; i < table->count; i++) {
            widest = fmax(widest, plumb_board_width(board, table->row[i].words[c], table->size));
        }
        table->column_mm[c] = widest;
        width += column_gap_mm + widest;
    }
    return width + table->name_mm;
}

static void fill(const PlumbDesk *desk, bool spread, Table *table)
{
    table->spread = spread;
    table->count = 0;
    const PlumbFamily *const family = plumb_desk_family(desk);
    for (int i = 0; i < family->compare_count; i++) {
        const PlumbCompareRow *const row = &family->compare[i];
        const PlumbDifference *const of = &desk->against.of[row->figure];
        if (plumb_lift_output_applies(desk->now.lift, row->figure) &&
            (isfinite(of->first) || isfinite(of->second))) {
            table->row[table->count] =
                (Cells){.row = row,
                        .tag = {[INKED] = plumb_working_figure(desk, row->figure, false),
                                [PENCILLED] = plumb_working_figure(desk, row->figure, true)}};
            write_cells(desk, spread, &table->row[table->count++]);
        }
    }
}

/* The largest text at which a block is no wider than room, down to a share of the full size; 0
 * where there is none. */
static double fit_size(const PlumbBoard *board, double room, double least_share, Table *table)
{
    const double full = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    for (table->size = full; table->size >= least_share * full; table->size *= 0.97) {
        const double width = measure(board, table);
        if (width <= room) {
            return width;
        }
    }
    return 0.0;
}

/* Whether any change has its spread yet. */
static bool has_spread(const PlumbDesk *desk)
{
    bool has = false;
    for (int i = 0; i < plumb_lift_output_count(desk->now.lift); i++) {
        has = has || isfinite(desk->against.of[i].spread.sd);
    }
    return has;
}

/* Two blocks beside each other where hardly smaller text makes room for them. Else one, of which
 * every column stays: smaller text first, then the changes without their spread, then as small as
 * it takes. Returns the width of a block. */
static double fit_table(const PlumbDesk *desk, const PlumbBoard *board, double room, Table *table)
{
    const bool spread_known = has_spread(desk);
    fill(desk, spread_known, table);
    double width = fit_size(board, 0.5 * (room - blocks_gap_mm), two_blocks_share, table);
    for (int spread = spread_known ? 1 : 0; spread >= 0 && width <= 0.0; spread--) {
        fill(desk, spread == 1, table);
        width = fit_size(board, room, text_least_share, table);
    }
    if (width <= 0.0) {
        table->size *= room / measure(board, table);
        width = measure(board, table);
    }
    return width;
}

static void set_row(const PlumbBoard *board, const Table *table, const Cells *cells, double x,
                    double y)
{
    static const PlumbRole ROLE[COLUMN_COUNT] = {PLUMB_ROLE_ink, PLUMB_ROLE_pencil_text,
                                                 PLUMB_ROLE_ink};
    if (cells != NULL) {
        plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){x, y}, table->size, PLUMB_START,
                         cells->row->name);
    }
    double end = x + table->name_mm;
    for (int c = 0; c < COLUMN_COUNT; c++) {
        end += column_gap_mm + table->column_mm[c];
        plumb_board_text(board, cells == NULL ? PLUMB_ROLE_quiet : ROLE[c],
                         cells == NULL ? NONE : cells->tag[c], (PlumbVec2){end, y}, table->size,
                         PLUMB_END, cells == NULL ? HEADING[table->spread][c] : cells->words[c]);
    }
}

/* The table can be reached and clicked, as that of the drawing. */
static void mark_table(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, int first_item)
{
    const PlumbRect whole = {rect.x_mm - 2.5, rect.y_mm - 2.5, rect.width_mm + 5.0,
                             rect.height_mm + 5.0};
    const bool focused = plumb_desk_has_focus(desk, PLUMB_WIDGET_TABLE, 0);
    plumb_desk_widget(desk, PLUMB_WIDGET_TABLE, 0, whole, true);
    if (focused || plumb_working_shown(desk)) {
        plumb_working_mark(desk, board, first_item);
    }
    if (focused) {
        plumb_focus_ring(board, whole);
    }
}

void plumb_compare_table(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    if (!plumb_desk_pencil_shown(desk)) {
        return;
    }
    const int first_item = board->scene->item_count;
    Table table;
    const double width = fit_table(desk, board, rect.width_mm, &table);
    const double pitch = PLUMB_LINE_PITCH * table.size;
    const int blocks = rect.width_mm >= 2.0 * width + blocks_gap_mm ? 2 : 1;
    const int room = (int)floor(rect.height_mm / pitch) - 1;
    const int even = (table.count + blocks - 1) / blocks;
    const int rows = room < even ? room : even;
    for (int b = 0; b < blocks && b * rows < table.count; b++) {
        const double x = rect.x_mm + b * (width + blocks_gap_mm);
        set_row(board, &table, NULL, x, rect.y_mm + table.size);
        for (int i = 0; i < rows && b * rows + i < table.count; i++) {
            set_row(board, &table, &table.row[b * rows + i], x,
                    rect.y_mm + table.size + (i + 1) * pitch);
        }
    }
    if (board->scene == desk->scene) {
        mark_table(desk, board, rect, first_item);
    }
}
