/* SPDX-License-Identifier: MIT */
/* Scatter drawings: axes with round ticks, dots thinned to what a sheet holds, line and mark. */
#include <plumbar/scatter.h>

#include "scene/axis.h"
#include "scene/board.h"

#include <math.h>

static const double MARGIN_MM = 8.0;
static const double PAD_MM = 6.0;
static const double AXIS_LEFT_MM = 13.0; /* room of the figures beside the upright axis */
static const double AXIS_FOOT_MM = 15.0; /* and of those and the label below the level one */
static const double AXIS_HEAD_MM = 4.0;  /* air above the upright axis, less its label */
static const double TICK_MM = 1.5;
static const double DOT_MM = 0.3;
static const double MARK_MM = 1.6;
static const double NOTE_MM = 24.0;
enum { NOTE_LINES = 4, LABEL_LINES = 2, TICKS_WANTED = 5, CELL_SIZE = 64, NOTE_SIZE = 1024 };

typedef struct Chart {
    PlumbBoard board;
    const PlumbScatterPanel *panel;
    int stride; /* every stride-th dot is drawn */
    PlumbChartAxis x;
    PlumbChartAxis y;
} Chart;

static void widen(PlumbChartAxis *axis, double value)
{
    axis->low = fmin(axis->low, value);
    axis->high = fmax(axis->high, value);
}

/* The figures that are drawn, with a little air; an axis on which nothing varies gets some too. */
static void fit(Chart *chart)
{
    const PlumbScatterPanel *const panel = chart->panel;
    chart->x.low = chart->y.low = (double)INFINITY;
    chart->x.high = chart->y.high = -(double)INFINITY;
    for (int i = 0; i < panel->count; i += chart->stride) {
        if (isfinite(panel->x[i]) && isfinite(panel->y[i])) {
            widen(&chart->x, panel->x[i]);
            widen(&chart->y, panel->y[i]);
        }
    }
    if (isfinite(panel->mark_x) && isfinite(panel->mark_y)) {
        widen(&chart->x, panel->mark_x);
        widen(&chart->y, panel->mark_y);
    }
    PlumbChartAxis *const axes[] = {&chart->x, &chart->y};
    for (int i = 0; i < 2; i++) {
        if (!(axes[i]->low <= axes[i]->high)) {
            axes[i]->low = axes[i]->high = 0.0;
        }
        const double span = axes[i]->high - axes[i]->low;
        const double air = span > 0.0 ? 0.04 * span : fmax(1.0, fabs(axes[i]->low)) * 0.05;
        axes[i]->low -= air;
        axes[i]->high += air;
    }
}

static void tick(const Chart *chart, const PlumbChartAxis *axis, double value, int decimals)
{
    const bool level = axis == &chart->x;
    const double at = plumb_chart_place(axis, value);
    const PlumbVec2 on =
        level ? (PlumbVec2){at, chart->y.from_mm} : (PlumbVec2){chart->x.from_mm, at};
    const PlumbVec2 off = level ? (PlumbVec2){at, on.y + TICK_MM} : (PlumbVec2){on.x - TICK_MM, at};
    const double size = PLUMB_SMALL_TEXT_MM;
    const PlumbVec2 anchor =
        level ? (PlumbVec2){at, off.y + 1.2 * size} : (PlumbVec2){off.x - 0.7, at + 0.36 * size};
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_fixed(&text, value, decimals);
    plumb_scene_line(chart->board.scene, PEN_FINE, TAG_NONE, on, off);
    plumb_board_text(&chart->board, PLUMB_ROLE_quiet, TAG_NONE, anchor, size,
                     level ? PLUMB_MIDDLE : PLUMB_END, cell);
}

static void axis_ticks(const Chart *chart, const PlumbChartAxis *axis)
{
    int decimals;
    const double step = plumb_chart_step(axis, TICKS_WANTED, &decimals);
    for (double k = ceil(axis->low / step); k * step <= axis->high; k += 1.0) {
        tick(chart, axis, k * step, decimals);
    }
}

/* Height of the upright axis's label, broken where it is wider than its panel. */
static double label_height(const PlumbBoard *board, const PlumbScatterPanel *panel, double width_mm)
{
    const int lines = plumb_board_wrap_count(board, width_mm, PLUMB_NORMAL_TEXT_MM, panel->y_label);
    return PLUMB_LINE_PITCH * PLUMB_NORMAL_TEXT_MM * fmin(lines, LABEL_LINES);
}

static void axes(const Chart *chart)
{
    const PlumbVec2 corner = {chart->x.from_mm, chart->y.from_mm};
    plumb_scene_line(chart->board.scene, PEN_OUTLINE, TAG_NONE, corner,
                     (PlumbVec2){chart->x.to_mm, corner.y});
    plumb_scene_line(chart->board.scene, PEN_OUTLINE, TAG_NONE, corner,
                     (PlumbVec2){corner.x, chart->y.to_mm});
    axis_ticks(chart, &chart->x);
    axis_ticks(chart, &chart->y);
    plumb_board_text(&chart->board, PLUMB_ROLE_ink, TAG_NONE,
                     (PlumbVec2){0.5 * (chart->x.from_mm + chart->x.to_mm),
                                 corner.y + AXIS_FOOT_MM - 0.6 * PLUMB_NORMAL_TEXT_MM},
                     PLUMB_NORMAL_TEXT_MM, PLUMB_MIDDLE, chart->panel->x_label);
    const double label_width = AXIS_LEFT_MM + chart->x.to_mm - corner.x;
    double label_y_mm = chart->y.to_mm - AXIS_HEAD_MM + 1.0 -
                        label_height(&chart->board, chart->panel, label_width);
    plumb_board_wrap(&chart->board, PLUMB_ROLE_ink, TAG_NONE, corner.x - AXIS_LEFT_MM, &label_y_mm,
                     label_width, PLUMB_NORMAL_TEXT_MM, LABEL_LINES, chart->panel->y_label);
}

static void dots(const Chart *chart)
{
    const PlumbPen dot = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_rule};
    const PlumbScatterPanel *const panel = chart->panel;
    for (int i = 0; i < panel->count; i += chart->stride) {
        if (isfinite(panel->x[i]) && isfinite(panel->y[i])) {
            plumb_scene_circle(chart->board.scene, dot, TAG_NONE,
                               (PlumbVec2){plumb_chart_place(&chart->x, panel->x[i]),
                                           plumb_chart_place(&chart->y, panel->y[i])},
                               DOT_MM);
        }
    }
}

/* The part of the line that lies within the axes. */
static void line(const Chart *chart)
{
    const PlumbScatterPanel *const panel = chart->panel;
    double from = chart->x.low;
    double to = chart->x.high;
    if (!panel->has_line || !isfinite(panel->slope)) {
        return;
    }
    if (fabs(panel->slope) > 0.0) {
        const double a = panel->line_x + (chart->y.low - panel->line_y) / panel->slope;
        const double b = panel->line_x + (chart->y.high - panel->line_y) / panel->slope;
        from = fmax(from, fmin(a, b));
        to = fmin(to, fmax(a, b));
    }
    if (!(from < to)) {
        return;
    }
    const PlumbVec2 ends[2] = {
        {plumb_chart_place(&chart->x, from),
         plumb_chart_place(&chart->y, panel->line_y + panel->slope * (from - panel->line_x))},
        {plumb_chart_place(&chart->x, to),
         plumb_chart_place(&chart->y, panel->line_y + panel->slope * (to - panel->line_x))}};
    plumb_scene_line(chart->board.scene, PEN_OUTLINE, TAG_NONE, ends[0], ends[1]);
}

/* A ring with its leaders to both axes, and words on a patch of paper on the side that has room. */
static void mark(const Chart *chart, const char *words)
{
    const PlumbScatterPanel *const panel = chart->panel;
    const PlumbPen leader = {PLUMB_ROLE_mass, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    const PlumbPen ring = {PLUMB_ROLE_mass, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    const PlumbPen patch = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_paper};
    if (!isfinite(panel->mark_x) || !isfinite(panel->mark_y)) {
        return;
    }
    PlumbScene *const scene = chart->board.scene;
    const PlumbVec2 at = {plumb_chart_place(&chart->x, panel->mark_x),
                          plumb_chart_place(&chart->y, panel->mark_y)};
    const double size = PLUMB_SMALL_TEXT_MM;
    const double width = plumb_board_width(&chart->board, words, size);
    const bool left = at.x + MARK_MM + 2.0 + width > chart->x.to_mm;
    const PlumbVec2 anchor = {left ? at.x - MARK_MM - 1.0 - width : at.x + MARK_MM + 1.0,
                              at.y - MARK_MM - 0.5};
    plumb_scene_line(scene, leader, TAG_NONE, (PlumbVec2){at.x, chart->y.from_mm}, at);
    plumb_scene_line(scene, leader, TAG_NONE, (PlumbVec2){chart->x.from_mm, at.y}, at);
    plumb_scene_circle(scene, ring, TAG_NONE, at, MARK_MM);
    plumb_scene_rect(scene, patch, TAG_NONE,
                     (PlumbRect){anchor.x - 0.4, anchor.y - 0.85 * size, width + 0.8, 1.15 * size});
    plumb_board_text(&chart->board, PLUMB_ROLE_ink, TAG_NONE, anchor, size, PLUMB_START, words);
}

static void compose_panel(const PlumbBoard *board, const PlumbScatter *scatter, int index,
                          int stride, PlumbRect rect)
{
    double head = 0.0; /* the axes of all panels begin at one height */
    for (int i = 0; i < scatter->panel_count; i++) {
        head = fmax(head, label_height(board, &scatter->panel[i], rect.width_mm));
    }
    Chart chart = {.board = *board, .panel = &scatter->panel[index], .stride = stride};
    fit(&chart);
    chart.x.from_mm = rect.x_mm + AXIS_LEFT_MM;
    chart.x.to_mm = rect.x_mm + rect.width_mm;
    chart.y.from_mm = rect.y_mm + rect.height_mm - AXIS_FOOT_MM;
    chart.y.to_mm = rect.y_mm + AXIS_HEAD_MM + head;
    dots(&chart);
    line(&chart);
    axes(&chart);
    mark(&chart, scatter->mark);
}

/* "Every 4th body is drawn." belongs to the note, since a thinned cloud looks thinner. */
static void compose_note(const PlumbBoard *board, const PlumbScatter *scatter, int stride,
                         PlumbRect rect)
{
    char words[NOTE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, scatter->note);
    if (stride > 1) {
        plumb_text_string(&text, " One dot in ");
        plumb_text_integer(&text, stride);
        plumb_text_string(&text, " is drawn.");
    }
    plumb_text_string(&text, " ");
    plumb_text_string(&text, plumb_caution_line());
    double y_mm = rect.y_mm;
    plumb_board_wrap(board, PLUMB_ROLE_ink, TAG_NONE, rect.x_mm, &y_mm, rect.width_mm,
                     PLUMB_NORMAL_TEXT_MM, NOTE_LINES, words);
    PlumbText description =
        plumb_text_begin(board->scene->description, sizeof board->scene->description);
    plumb_text_string(&description, words);
}

void plumb_compose_scatter(PlumbScene *scene, const PlumbScatter *scatter, PlumbFormat format)
{
    double width;
    double height;
    int most = 0;
    plumb_format_size(format, &width, &height);
    plumb_scene_begin(scene, width, height);
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, scatter->title);
    const PlumbDrawing drawing = {
        .text_scale = 1.0, .text_width = scatter->text_width, .text_user = scatter->text_user};
    const PlumbBoard board = {scene, &drawing};
    const PlumbPen heavy = {PLUMB_ROLE_ink, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbRect frame = {MARGIN_MM, MARGIN_MM, width - 2.0 * MARGIN_MM,
                             height - 2.0 * MARGIN_MM};
    const double inner = frame.width_mm - 2.0 * PAD_MM;
    double y_mm = frame.y_mm + PAD_MM;
    plumb_scene_rect(scene, heavy, TAG_NONE, frame);
    plumb_board_wrap(&board, PLUMB_ROLE_ink, TAG_NONE, frame.x_mm + PAD_MM, &y_mm, inner,
                     PLUMB_LARGE_TEXT_MM, 2, scatter->title);
    for (int i = 0; i < scatter->panel_count; i++) {
        most = scatter->panel[i].count > most ? scatter->panel[i].count : most;
    }
    const int each = PLUMB_SCATTER_DOTS / scatter->panel_count;
    const int stride = most > each ? (most + each - 1) / each : 1;
    const double column = (inner - PAD_MM * (scatter->panel_count - 1)) / scatter->panel_count;
    const double foot = frame.y_mm + frame.height_mm - NOTE_MM;
    for (int i = 0; i < scatter->panel_count; i++) {
        const PlumbRect rect = {frame.x_mm + PAD_MM + i * (column + PAD_MM), y_mm + 2.0, column,
                                foot - y_mm - 6.0};
        compose_panel(&board, scatter, i, stride, rect);
    }
    compose_note(&board, scatter, stride,
                 (PlumbRect){frame.x_mm + PAD_MM, foot, inner, NOTE_MM - PAD_MM});
}
