/* SPDX-License-Identifier: MIT */
/* The Map page: contours with their figures, hatching with its reason, and where we are. */
#include "pages.h"

#include "command.h"
#include "contour.h"
#include "plot.h"
#include "ruler.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const double hatch_mm = 2.4;
enum { LABELS_MAX = 48, LEVELS = 9 };

typedef struct Chart {
    PlumbDesk *desk;
    const PlumbBoard *board;
    PlumbRect field;
    int step;
    double factor;
    int decimals;
    double level; /* being drawn, as a person reads it */
    PlumbRect label[LABELS_MAX];
    int labels;
} Chart;

static double value_at(const Chart *chart, int row, int column)
{
    return chart->factor * chart->desk->map.value[row * chart->step][column * chart->step];
}

_Static_assert((int)PLUMB_MAP_COLUMNS <= (int)PLUMB_CONTOUR_SIDE_MAX &&
                   (int)PLUMB_MAP_ROWS <= (int)PLUMB_CONTOUR_SIDE_MAX,
               "the whole grid is contoured");

static double value(void *user, int row, int column)
{
    return value_at(user, row, column);
}

static PlumbVec2 place(const Chart *chart, PlumbVec2 grid)
{
    const PlumbRect f = chart->field;
    return (PlumbVec2){f.x_mm + grid.x * chart->step / (PLUMB_MAP_COLUMNS - 1) * f.width_mm,
                       f.y_mm + f.height_mm -
                           grid.y * chart->step / (PLUMB_MAP_ROWS - 1) * f.height_mm};
}

static bool is_free(const Chart *chart, PlumbRect rect)
{
    const PlumbRect f = chart->field;
    bool is = rect.x_mm > f.x_mm && rect.x_mm + rect.width_mm < f.x_mm + f.width_mm &&
              rect.y_mm > f.y_mm && rect.y_mm + rect.height_mm < f.y_mm + f.height_mm;
    for (int i = 0; is && i < chart->labels; i++) {
        const PlumbRect l = chart->label[i];
        is = rect.x_mm > l.x_mm + l.width_mm || l.x_mm > rect.x_mm + rect.width_mm ||
             rect.y_mm > l.y_mm + l.height_mm || l.y_mm > rect.y_mm + rect.height_mm;
    }
    return is;
}

/* Words on a piece of paper, where no others stand. */
static bool set_label(Chart *chart, PlumbVec2 at, const char *words, PlumbRole role)
{
    const double size = plumb_board_size(chart->board, PLUMB_SMALL_TEXT_MM);
    const double width = plumb_board_width(chart->board, words, size) + 1.2;
    const PlumbRect box = {at.x - 0.5 * width, at.y - 0.65 * size, width, 1.3 * size};
    const PlumbPen paper = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_paper};
    if (chart->labels == LABELS_MAX || !is_free(chart, box)) {
        return false;
    }
    chart->label[chart->labels++] = box;
    plumb_scene_rect(chart->board->scene, paper, NONE, box);
    plumb_board_text(chart->board, role, NONE, (PlumbVec2){at.x, at.y + 0.36 * size}, size,
                     PLUMB_MIDDLE, words);
    return true;
}

static void take_line(void *user, const PlumbVec2 *point, int count, bool closed)
{
    Chart *const chart = user;
    PlumbVec2 at[PLUMB_CONTOUR_POINTS];
    for (int i = 0; i < count; i++) {
        at[i] = place(chart, point[i]);
    }
    plumb_scene_path(chart->board->scene, PEN_FINE, NONE, at, count, closed);
    char words[32];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, chart->level, chart->decimals);
    static const double TRY[] = {0.5, 0.3, 0.7, 0.15, 0.85};
    for (int i = 0; count > 3 && i < 5; i++) {
        if (set_label(chart, at[(int)(TRY[i] * (count - 1))], words, PLUMB_ROLE_ink)) {
            return;
        }
    }
}

static bool barred(const Chart *chart, double x, double y)
{
    const PlumbRect f = chart->field;
    const int columns = (PLUMB_MAP_COLUMNS - 1) / chart->step;
    const int rows = (PLUMB_MAP_ROWS - 1) / chart->step;
    int column = (int)floor((x - f.x_mm) / f.width_mm * columns);
    int row = (int)floor((f.y_mm + f.height_mm - y) / f.height_mm * rows);
    column = column < 0 ? 0 : column >= columns ? columns - 1 : column;
    row = row < 0 ? 0 : row >= rows ? rows - 1 : row;
    return !isfinite(value_at(chart, row, column)) || !isfinite(value_at(chart, row, column + 1)) ||
           !isfinite(value_at(chart, row + 1, column)) ||
           !isfinite(value_at(chart, row + 1, column + 1));
}

/* Slanted lines over the whole field, drawn only where nothing holds. */
static void draw_hatch(const Chart *chart)
{
    const PlumbRect f = chart->field;
    const double part = 0.5;
    for (double k = hatch_mm; k < f.width_mm + f.height_mm; k += hatch_mm) {
        const double from = fmax(0.0, k - f.height_mm);
        const double to = fmin(k, f.width_mm);
        double begun = -1.0;
        for (double x = from;; x += part) {
            const bool end = x >= to;
            const double at = fmin(x, to);
            const bool bar =
                !end && barred(chart, f.x_mm + at + 0.5 * part, f.y_mm + (k - at) - 0.5 * part);
            if (bar && begun < 0.0) {
                begun = at;
            } else if (!bar && begun >= 0.0) {
                plumb_scene_line(chart->board->scene, PEN_RULE, NONE,
                                 (PlumbVec2){f.x_mm + begun, f.y_mm + k - begun},
                                 (PlumbVec2){f.x_mm + at, f.y_mm + k - at});
                begun = -1.0;
            }
            if (end) {
                break;
            }
        }
    }
}

/* The longest stretch of a row in which one thing fails says so; every reason once. */
static void draw_reasons(Chart *chart)
{
    const PlumbMap *const map = &chart->desk->map;
    for (int id = 0; id < PLUMB_REASON_COUNT; id++) {
        int best = 0;
        PlumbVec2 at = {0.0, 0.0};
        for (int row = 0; row < PLUMB_MAP_ROWS; row += chart->step) {
            int run = 0;
            for (int column = 0; column < PLUMB_MAP_COLUMNS; column += chart->step) {
                const bool is = map->reason[row][column] == id;
                run = is ? run + 1 : 0;
                const bool inner = row > 0 && row < PLUMB_MAP_ROWS - 1;
                if (inner && run > best) {
                    best = run;
                    at = (PlumbVec2){(double)column / chart->step - 0.5 * (run - 1),
                                     (double)row / chart->step};
                }
            }
        }
        if (best > 1) {
            char words[96];
            PlumbText text = plumb_text_begin(words, sizeof words);
            plumb_text_string(&text, "no pose: ");
            plumb_text_string(&text, plumb_reason_text(id));
            set_label(chart, place(chart, at), words, PLUMB_ROLE_quiet);
        }
    }
}

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The values between which lines are drawn. Where a figure grows without end near a corner, as the
 * summed effort does, lines as far apart as all values ask for would leave the rest of the map
 * empty: then they stand as those of nine tenths of it do. */
static PlumbAxis range_of(const Chart *chart)
{
    static const double share = 0.05;
    static const double pole = 3.0; /* times the width of the nine tenths */
    const PlumbMap *const map = &chart->desk->map;
    double sorted[PLUMB_MAP_ROWS * PLUMB_MAP_COLUMNS];
    PlumbAxis range = {(double)INFINITY, -(double)INFINITY, ""};
    int count = 0;
    for (int row = 0; row < PLUMB_MAP_ROWS; row += chart->step) {
        for (int column = 0; column < PLUMB_MAP_COLUMNS; column += chart->step) {
            const double at = chart->factor * map->value[row][column];
            plumb_axis_widen(&range, at);
            if (isfinite(at)) {
                sorted[count++] = at;
            }
        }
    }
    if (count < 20) {
        return range;
    }
    qsort(sorted, (size_t)count, sizeof sorted[0], by_size);
    const double low = sorted[(int)(share * count)];
    const double high = sorted[count - 1 - (int)(share * count)];
    if (high > low && range.high - range.low > pole * (high - low)) {
        range.low = fmax(range.low, low - 0.5 * (high - low));
        range.high = fmin(range.high, high + 0.5 * (high - low));
    }
    return range;
}

static void draw_lines(Chart *chart)
{
    const PlumbAxis range = range_of(chart);
    if (!(range.high > range.low + 1e-9)) {
        return;
    }
    const double step = plumb_axis_step(range.high - range.low, LEVELS, &chart->decimals);
    for (double level = ceil(range.low / step) * step; level < range.high; level += step) {
        chart->level = level;
        plumb_contour((PLUMB_MAP_ROWS - 1) / chart->step + 1,
                      (PLUMB_MAP_COLUMNS - 1) / chart->step + 1, value, level, take_line, chart);
    }
}

static double reading(const PlumbDesk *desk, PlumbSettingId id, double value_si)
{
    return value_si * plumb_quantity_factor(plumb_ruler_row(id)->quantity, desk->units);
}

static void draw_mark(const PlumbDesk *desk, const PlumbPlot *plot, double x_si, double y_si,
                      PlumbRole role)
{
    const PlumbMap *const map = &desk->map;
    const PlumbPen pen = {role, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    if (!isfinite(x_si) || !isfinite(y_si)) {
        return;
    }
    const PlumbVec2 at =
        plumb_plot_place(plot, reading(desk, map->x, x_si), reading(desk, map->y, y_si));
    const double s = 2.2;
    plumb_scene_circle(plot->board->scene, pen, NONE, at, 1.3);
    plumb_scene_line(plot->board->scene, pen, NONE, (PlumbVec2){at.x - s, at.y},
                     (PlumbVec2){at.x + s, at.y});
    plumb_scene_line(plot->board->scene, pen, NONE, (PlumbVec2){at.x, at.y - s},
                     (PlumbVec2){at.x, at.y + s});
}

static void axis_label(const PlumbDesk *desk, PlumbSettingId id, PlumbText *text)
{
    const char *const unit = plumb_quantity_unit(plumb_ruler_row(id)->quantity, desk->units);
    plumb_ruler_name(id, text);
    if (unit[0] != '\0') {
        plumb_text_string(text, ", ");
        plumb_text_string(text, unit);
    }
}

static PlumbAxis axis_of(const PlumbDesk *desk, PlumbSettingId id, const char *label)
{
    const PlumbSetting *const setting = plumb_ruler_row(id);
    return (PlumbAxis){reading(desk, id, setting->min_si), reading(desk, id, setting->max_si),
                       label};
}

static double draw_choices(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    static const PlumbCommandId ID[3] = {PLUMB_CMD_MAP_FIGURE, PLUMB_CMD_MAP_X, PLUMB_CMD_MAP_Y};
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const bool paper = board->scene != desk->scene; /* nothing is pressed there */
    double x = rect.x_mm;
    for (int i = 0; i < 3; i++) {
        char words[96];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_command_words(desk, ID[i], &text);
        const double width = plumb_board_width(board, words, size) + 2.8;
        const PlumbRect box = {x, rect.y_mm, width, 2.0 * size};
        if (x + width > rect.x_mm + rect.width_mm) {
            break;
        }
        if (paper) {
            plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){x, rect.y_mm + 1.36 * size},
                             size, PLUMB_START, words);
        } else {
            plumb_button_draw(desk, board, ID[i], box, words);
        }
        x += width + 1.4;
    }
    return 2.0 * size;
}

void plumb_map_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    PlumbMap *const map = &desk->map;
    plumb_map_choose(desk);
    const double head = draw_choices(desk, board, rect) + 1.5;
    char labels[2][64];
    PlumbText text = plumb_text_begin(labels[0], sizeof labels[0]);
    axis_label(desk, map->x, &text);
    text = plumb_text_begin(labels[1], sizeof labels[1]);
    axis_label(desk, map->y, &text);
    const PlumbPlot plot = plumb_plot_begin(
        board, (PlumbRect){rect.x_mm, rect.y_mm + head, rect.width_mm, rect.height_mm - head}, 4.0,
        axis_of(desk, map->x, labels[0]), axis_of(desk, map->y, labels[1]));
    desk->map_rect = plot.rect;
    if (map->shown > 0) {
        const PlumbQuantity quantity =
            plumb_lift_output_quantity(desk->now.lift, plumb_map_figure(desk));
        Chart chart = {.desk = desk,
                       .board = board,
                       .field = plot.rect,
                       .step = map->shown,
                       .factor = plumb_quantity_factor(quantity, desk->units)};
        draw_hatch(&chart);
        draw_reasons(&chart);
        draw_lines(&chart);
    }
    draw_mark(desk, &plot, plumb_ruler_pencil_value(desk, map->x),
              plumb_ruler_pencil_value(desk, map->y), PLUMB_ROLE_pencil);
    draw_mark(desk, &plot, plumb_ruler_value(desk, map->x), plumb_ruler_value(desk, map->y),
              PLUMB_ROLE_bar);
    plumb_desk_widget(desk, PLUMB_WIDGET_MAP, 0, plot.rect, true);
    if (plumb_desk_has_focus(desk, PLUMB_WIDGET_MAP, 0)) {
        plumb_focus_ring(board, plot.rect);
    }
}
