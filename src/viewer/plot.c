/* SPDX-License-Identifier: MIT */
/* Axes and curves. */
#include "plot.h"

#include <math.h>

static const double tick_mm = 1.4;
enum { CURVE_MAX = 160, NAMES_MAX = 8 };

void plumb_axis_widen(PlumbAxis *axis, double value)
{
    if (isfinite(value)) {
        axis->low = fmin(axis->low, value);
        axis->high = fmax(axis->high, value);
    }
}

double plumb_axis_step(double span, int count, int *decimals)
{
    const double rough = fmax(span, 1e-9) / fmax(count, 1);
    const double power = floor(log10(rough));
    const double ten = pow(10.0, power);
    const double lead = rough / ten;
    const double step = lead < 1.5 ? 1.0 : lead < 3.5 ? 2.0 : lead < 7.5 ? 5.0 : 10.0;
    *decimals = (int)fmin(fmax(0.0, step < 10.0 ? -power : -power - 1.0), 6.0);
    return step * ten;
}

PlumbVec2 plumb_plot_place(const PlumbPlot *plot, double x, double y)
{
    const PlumbRect r = plot->rect;
    return (PlumbVec2){r.x_mm + (x - plot->x.low) / (plot->x.high - plot->x.low) * r.width_mm,
                       r.y_mm + r.height_mm -
                           (y - plot->y.low) / (plot->y.high - plot->y.low) * r.height_mm};
}

static void number(char *words, size_t size, double value, int decimals)
{
    PlumbText text = plumb_text_begin(words, size);
    plumb_text_fixed(&text, value, decimals);
}

static void draw_x(const PlumbPlot *plot, double size)
{
    const PlumbBoard *const board = plot->board;
    const PlumbRect r = plot->rect;
    int decimals = 0;
    char words[32];
    const int count = (int)fmax(2.0, r.width_mm / (7.0 * size));
    const double step = plumb_axis_step(plot->x.high - plot->x.low, count, &decimals);
    const double foot = r.y_mm + r.height_mm;
    double free_from = -(double)INFINITY;
    for (double v = ceil(plot->x.low / step - 1e-6) * step; v <= plot->x.high + 1e-6 * step;
         v += step) {
        const double x = plumb_plot_place(plot, v, plot->y.low).x;
        number(words, sizeof words, v, decimals);
        plumb_scene_line(board->scene, PEN_RULE, TAG_NONE, (PlumbVec2){x, foot},
                         (PlumbVec2){x, foot + tick_mm});
        /* In a narrow field a number that would meet the last one is left out. */
        const double half = 0.5 * plumb_board_width(board, words, size);
        if (x - half >= free_from) {
            plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                             (PlumbVec2){x, foot + tick_mm + 1.15 * size}, size, PLUMB_MIDDLE,
                             words);
            free_from = x + half + 0.4 * size;
        }
    }
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                     (PlumbVec2){r.x_mm + r.width_mm, foot + tick_mm + 2.45 * size}, size,
                     PLUMB_END, plot->x.label);
}

static void draw_y(const PlumbPlot *plot, double size)
{
    const PlumbBoard *const board = plot->board;
    const PlumbRect r = plot->rect;
    int decimals = 0;
    char words[32];
    const int count = (int)fmax(2.0, r.height_mm / (3.4 * size));
    const double step = plumb_axis_step(plot->y.high - plot->y.low, count, &decimals);
    for (double v = ceil(plot->y.low / step - 1e-6) * step; v <= plot->y.high + 1e-6 * step;
         v += step) {
        const double y = plumb_plot_place(plot, plot->x.low, v).y;
        const bool zero = fabs(v) < 1e-6 * step && plot->y.low < -1e-6 * step;
        number(words, sizeof words, v, decimals);
        plumb_scene_line(board->scene, zero ? PEN_REFERENCE : PEN_RULE, TAG_NONE,
                         (PlumbVec2){r.x_mm - tick_mm, y},
                         (PlumbVec2){zero ? r.x_mm + r.width_mm : r.x_mm, y});
        plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){r.x_mm - tick_mm - 0.8, y + 0.36 * size}, size, PLUMB_END,
                         words);
    }
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                     (PlumbVec2){r.x_mm - tick_mm, r.y_mm - 0.9 * size}, size, PLUMB_START,
                     plot->y.label);
}

PlumbPlot plumb_plot_begin(const PlumbBoard *board, PlumbRect rect, double room_mm, PlumbAxis x,
                           PlumbAxis y)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double left = plumb_board_width(board, "-0000", size) + tick_mm + 1.2;
    if (!(x.high > x.low)) {
        x.low -= 1.0;
        x.high = x.low + 2.0;
    }
    if (!(y.high > y.low)) {
        y.low -= 1.0;
        y.high = y.low + 2.0;
    }
    const PlumbRect field = {rect.x_mm + left, rect.y_mm + 2.3 * size,
                             rect.width_mm - left - room_mm,
                             rect.height_mm - 2.3 * size - tick_mm - 2.8 * size};
    const PlumbPlot plot = {board, field, x, y};
    const double foot = field.y_mm + field.height_mm;
    plumb_scene_line(board->scene, PEN_FINE, TAG_NONE, (PlumbVec2){field.x_mm, field.y_mm},
                     (PlumbVec2){field.x_mm, foot});
    plumb_scene_line(board->scene, PEN_FINE, TAG_NONE, (PlumbVec2){field.x_mm, foot},
                     (PlumbVec2){field.x_mm + field.width_mm, foot});
    draw_x(&plot, size);
    draw_y(&plot, size);
    return plot;
}

void plumb_plot_curve(const PlumbPlot *plot, PlumbPen pen, PlumbTag tag, const double *x,
                      const double *y, int count)
{
    PlumbVec2 point[CURVE_MAX];
    int length = 0;
    for (int i = 0; i <= count; i++) {
        const bool there = i < count && isfinite(x[i]) && isfinite(y[i]);
        if (there && length < CURVE_MAX) {
            point[length++] = plumb_plot_place(plot, x[i], y[i]);
        } else if (!there) {
            if (length > 1) {
                plumb_scene_path(plot->board->scene, pen, tag, point, length, false);
            }
            length = 0;
        }
    }
}

void plumb_plot_names(const PlumbPlot *plot, const char *const *name, const PlumbPen *pen,
                      const PlumbRole *role, const PlumbTag *tag, const double *y, int count,
                      double sample_mm)
{
    const double size = plumb_board_size(plot->board, PLUMB_SMALL_TEXT_MM);
    const double pitch = 1.15 * size;
    const double x = plot->rect.x_mm + plot->rect.width_mm + 1.2;
    int order[NAMES_MAX];
    double at[NAMES_MAX];
    int listed = 0;
    for (int i = 0; i < count && listed < NAMES_MAX; i++) {
        if (isfinite(y[i])) {
            int k = listed++;
            while (k > 0 && y[order[k - 1]] < y[i]) {
                order[k] = order[k - 1];
                k--;
            }
            order[k] = i;
        }
    }
    double last = plot->rect.y_mm - pitch;
    for (int i = 0; i < listed; i++) {
        at[i] = fmax(plumb_plot_place(plot, plot->x.high, y[order[i]]).y, last + pitch);
        last = at[i];
    }
    double most = plot->rect.y_mm + plot->rect.height_mm - 0.5 * size;
    for (int i = listed - 1; i >= 0; i--) {
        at[i] = fmin(at[i], most);
        most = at[i] - pitch;
        const int k = order[i];
        const double name_x = x + sample_mm;
        if (sample_mm > 0.0) {
            plumb_scene_line(plot->board->scene, pen[k], tag[k], (PlumbVec2){x, at[i]},
                             (PlumbVec2){name_x - 1.2, at[i]});
        }
        plumb_board_text(plot->board, role[k], tag[k], (PlumbVec2){name_x, at[i] + 0.36 * size},
                         size, PLUMB_START, name[k]);
    }
}
