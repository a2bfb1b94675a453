/* SPDX-License-Identifier: MIT */
/* Panels of a lift on film over one axis of time, and the bar's path over the foot. */
#include <plumbar/film_chart.h>

#include "scene/axis.h"
#include "scene/film_chart.h"

#include <math.h>

static const double LEFT_MM = 13.0; /* figures beside the upright axes */
static const double FOOT_MM = 10.0; /* figures and word below the axis of time */
static const double GAP_MM = 7.0;   /* between panels, with the upper one's name */
static const double HEAD_ROW_MM = 3.6;
static const double TICK_MM = 1.2;
static const double PATH_FRAC = 0.27; /* of the width */
enum { TICKS_WANTED = 4, CURVE_POINTS = 1200, PANELS = 3, HEAD_ROWS = 3, CELL_SIZE = 96 };

/* A figure of a frame that a curve shows, in the reader's unit. */
typedef double (*Figure)(const PlumbSeriesFrame *frame);

static double bar_height(const PlumbSeriesFrame *frame)
{
    return frame->bar_m.y;
}

static double hip_height(const PlumbSeriesFrame *frame)
{
    return frame->pose.hip_height_m;
}

static double back_angle(const PlumbSeriesFrame *frame)
{
    return frame->value[PLUMB_ANG_back];
}

static double bar_speed(const PlumbSeriesFrame *frame)
{
    return frame->bar_speed_m_s;
}

static double knee_spread(const PlumbSeriesFrame *frame)
{
    return frame->spread_frac;
}

static double shin_lean(const PlumbSeriesFrame *frame)
{
    return frame->shin_rad;
}

static double rise(const PlumbSeriesFrame *frame)
{
    return frame->rise_px;
}

/* A panel: one or two curves. */
typedef struct PanelRow {
    const char *words;
    PlumbQuantity quantity;
    Figure figure[2];
    const char *name[2];
    bool from_first; /* less what it was in the first frame */
} PanelRow;

static const PanelRow side_rows[PANELS] = {
    {"Heights of bar and hip", PLUMB_Q_LENGTH, {bar_height, hip_height}, {"bar", "hip"}, false},
    {"Back angle above level", PLUMB_Q_ANGLE, {back_angle, NULL}, {"", ""}, false},
    {"Speed of the bar, m/s", PLUMB_Q_NUMBER, {bar_speed, NULL}, {"", ""}, false},
};

static const PanelRow front_rows[PANELS] = {
    {"Distance of the knees over that of the ankles",
     PLUMB_Q_NUMBER,
     {knee_spread, NULL},
     {"", ""},
     false},
    {"Shins outward from upright", PLUMB_Q_ANGLE, {shin_lean, NULL}, {"", ""}, false},
    {"Rise of the bar or the hips, px", PLUMB_Q_NUMBER, {rise, NULL}, {"", ""}, true},
};

static const PlumbPen curve_pens[2] = {
    {PLUMB_ROLE_bar, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none},
    {PLUMB_ROLE_mass, PLUMB_MEDIUM_MM, PLUMB_DASHED, PLUMB_ROLE_none},
};

static double value_of(const PlumbSeries *series, const PanelRow *row, int k, int frame)
{
    const double first = row->from_first ? row->figure[k](&series->frame[0]) : 0.0;
    return row->figure[k](&series->frame[frame]) - first;
}

static PlumbRect time_rect(const PlumbFilmChart *chart, PlumbRect rect)
{
    const double path = chart->series->front ? 0.0 : PATH_FRAC * rect.width_mm;
    const double head = HEAD_ROWS * HEAD_ROW_MM * chart->text_scale;
    return (PlumbRect){rect.x_mm + path + LEFT_MM, rect.y_mm + head + GAP_MM,
                       rect.width_mm - path - LEFT_MM - 9.0,
                       rect.height_mm - head - GAP_MM - FOOT_MM};
}

static PlumbChartAxis time_axis(const PlumbFilmChart *chart, PlumbRect panels)
{
    const PlumbSeries *const s = chart->series;
    return (PlumbChartAxis){s->frame[0].time_s, s->frame[s->frame_count - 1].time_s, panels.x_mm,
                            panels.x_mm + panels.width_mm};
}

static void range_of(const PlumbSeries *series, const PanelRow *row, double factor,
                     PlumbChartAxis *axis)
{
    axis->low = (double)INFINITY;
    axis->high = -(double)INFINITY;
    for (int k = 0; k < 2 && row->figure[k] != NULL; k++) {
        for (int i = 0; i < series->frame_count; i++) {
            const double value = factor * value_of(series, row, k, i);
            axis->low = isfinite(value) ? fmin(axis->low, value) : axis->low;
            axis->high = isfinite(value) ? fmax(axis->high, value) : axis->high;
        }
    }
    if (!(axis->low <= axis->high)) {
        axis->low = 0.0;
        axis->high = 1.0;
    }
    const double air = fmax(0.08 * (axis->high - axis->low), 1e-3);
    axis->low -= air;
    axis->high += air;
}

static void upright_ticks(const PlumbBoard *board, const PlumbChartAxis *axis, double x_mm)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    int decimals;
    const double step = plumb_chart_step(axis, TICKS_WANTED, &decimals);
    for (double k = ceil(axis->low / step); k * step <= axis->high; k += 1.0) {
        const double y = plumb_chart_place(axis, k * step);
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_text_fixed(&text, k * step, decimals);
        plumb_scene_line(board->scene, PEN_FINE, TAG_NONE, (PlumbVec2){x_mm - TICK_MM, y},
                         (PlumbVec2){x_mm, y});
        plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){x_mm - TICK_MM - 0.7, y + 0.36 * size}, size, PLUMB_END, cell);
    }
}

static void time_ticks(const PlumbBoard *board, const PlumbChartAxis *axis, double y_mm)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    int decimals;
    const double step = plumb_chart_step(axis, 2 * TICKS_WANTED, &decimals);
    for (double k = ceil(axis->low / step); k * step <= axis->high; k += 1.0) {
        const double x = plumb_chart_place(axis, k * step);
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_text_fixed(&text, k * step, decimals);
        plumb_scene_line(board->scene, PEN_FINE, TAG_NONE, (PlumbVec2){x, y_mm},
                         (PlumbVec2){x, y_mm + TICK_MM});
        plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){x, y_mm + TICK_MM + 1.2 * size}, size, PLUMB_MIDDLE, cell);
    }
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                     (PlumbVec2){axis->to_mm, y_mm + TICK_MM + 2.6 * size}, size, PLUMB_END,
                     "time, s");
}

/* A curve's points within its panel; of a long film every k-th frame. */
static void curve(const PlumbBoard *board, const PlumbSeries *series, const PanelRow *row, int k,
                  double factor, const PlumbChartAxis *time, const PlumbChartAxis *axis)
{
    PlumbVec2 line[CURVE_POINTS];
    const int stride = (series->frame_count + CURVE_POINTS - 1) / CURVE_POINTS;
    int count = 0;
    for (int i = 0; i < series->frame_count; i += stride) {
        const double value = factor * value_of(series, row, k, i);
        if (isfinite(value)) {
            line[count++] = (PlumbVec2){plumb_chart_place(time, series->frame[i].time_s),
                                        plumb_chart_place(axis, value)};
        }
    }
    plumb_scene_path(board->scene, curve_pens[k], TAG_NONE, line, count, false);
}

static void panel(const PlumbBoard *board, const PlumbFilmChart *chart, const PanelRow *row,
                  const PlumbChartAxis *time, double top_mm, double foot_mm)
{
    const PlumbSeries *const series = chart->series;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double factor = plumb_quantity_factor(row->quantity, chart->units);
    PlumbChartAxis axis = {.from_mm = foot_mm, .to_mm = top_mm};
    char words[CELL_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    range_of(series, row, factor, &axis);
    plumb_text_string(&text, row->words);
    if (row->quantity != PLUMB_Q_NUMBER) {
        plumb_text_string(&text, ", ");
        plumb_text_string(&text, plumb_quantity_unit(row->quantity, chart->units));
    }
    plumb_scene_rect(
        board->scene, PEN_RULE, TAG_NONE,
        (PlumbRect){time->from_mm, top_mm, time->to_mm - time->from_mm, foot_mm - top_mm});
    plumb_board_text(board, PLUMB_ROLE_ink, TAG_NONE, (PlumbVec2){time->from_mm, top_mm - 1.2},
                     size, PLUMB_START, words);
    upright_ticks(board, &axis, time->from_mm);
    for (int k = 0; k < 2 && row->figure[k] != NULL; k++) {
        const double end = factor * value_of(series, row, k, series->frame_count - 1);
        curve(board, series, row, k, factor, time, &axis);
        plumb_board_text(
            board, PLUMB_ROLE_ink, TAG_NONE,
            (PlumbVec2){time->to_mm + 1.2, plumb_chart_place(&axis, end) + 0.36 * size}, size,
            PLUMB_START, row->name[k]);
    }
}

/* An upright line through every panel, but not through their names. */
static void through(const PlumbBoard *board, PlumbPen pen, double x_mm, PlumbRect panels)
{
    const double each = (panels.height_mm - (PANELS - 1) * GAP_MM) / PANELS;
    for (int i = 0; i < PANELS; i++) {
        const double top = panels.y_mm + i * (each + GAP_MM);
        plumb_scene_line(board->scene, pen, TAG_NONE, (PlumbVec2){x_mm, top},
                         (PlumbVec2){x_mm, top + each});
    }
}

/* Events as lines through all panels, their names above in rows that do not meet. */
static void events(const PlumbBoard *board, const PlumbFilmChart *chart, const PlumbChartAxis *time,
                   PlumbRect panels)
{
    const PlumbSeries *const series = chart->series;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    double used_mm[HEAD_ROWS] = {-1e9, -1e9, -1e9};
    const PlumbPen pen = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
        if (series->event_frame[i] < 0) {
            continue;
        }
        const double x = plumb_chart_place(time, series->event_s[i]);
        char words[CELL_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, plumb_event_text((PlumbEvent)i, series->lift));
        plumb_text_string(&text, " ");
        plumb_text_fixed(&text, series->event_s[i], 2);
        const double half = 0.5 * plumb_board_width(board, words, size);
        const double middle =
            fmin(fmax(x, panels.x_mm + half), panels.x_mm + panels.width_mm + 9.0 - half);
        int row = 0;
        while (row < HEAD_ROWS - 1 && middle - half < used_mm[row] + 2.0) {
            row++;
        }
        used_mm[row] = middle + half;
        const double y = panels.y_mm - GAP_MM - row * HEAD_ROW_MM * chart->text_scale;
        through(board, pen, x, panels);
        plumb_board_text(board, PLUMB_ROLE_ink, TAG_NONE, (PlumbVec2){middle, y}, size,
                         PLUMB_MIDDLE, words);
    }
}

static void cursor(const PlumbBoard *board, const PlumbFilmChart *chart, const PlumbChartAxis *time,
                   PlumbRect panels)
{
    if (chart->cursor >= 0 && chart->cursor < chart->series->frame_count) {
        const double x = plumb_chart_place(time, chart->series->frame[chart->cursor].time_s);
        through(board, (PlumbPen){PLUMB_ROLE_select, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none},
                x, panels);
    }
}

static PlumbRect path_rect(PlumbRect rect, PlumbRect panels)
{
    return (PlumbRect){rect.x_mm, panels.y_mm, PATH_FRAC * rect.width_mm - 4.0, panels.height_mm};
}

void plumb_compose_film_panels(PlumbScene *scene, const PlumbFilmChart *chart, PlumbRect rect)
{
    const PlumbDrawing drawing = {.text_scale = chart->text_scale,
                                  .text_width = chart->text_width,
                                  .text_user = chart->text_user};
    const PlumbBoard board = {scene, &drawing};
    const PlumbRect panels = time_rect(chart, rect);
    const PlumbChartAxis time = time_axis(chart, panels);
    const double each = (panels.height_mm - (PANELS - 1) * GAP_MM) / PANELS;
    events(&board, chart, &time, panels);
    for (int i = 0; i < PANELS; i++) {
        const double top = panels.y_mm + i * (each + GAP_MM);
        panel(&board, chart, chart->series->front ? &front_rows[i] : &side_rows[i], &time, top,
              top + each);
    }
    time_ticks(&board, &time, panels.y_mm + panels.height_mm);
    cursor(&board, chart, &time, panels);
    if (!chart->series->front) {
        plumb_film_path(&board, chart, path_rect(rect, panels));
    }
}

int plumb_film_chart_frame(const PlumbFilmChart *chart, PlumbRect rect, PlumbVec2 at_mm)
{
    const PlumbSeries *const s = chart->series;
    const PlumbRect panels = time_rect(chart, rect);
    const PlumbChartAxis time = time_axis(chart, panels);
    const PlumbRect path = path_rect(rect, panels);
    if (!s->front && at_mm.x < path.x_mm + path.width_mm) {
        return plumb_film_path_frame(chart, path, at_mm);
    }
    if (at_mm.x < time.from_mm || at_mm.x > time.to_mm || at_mm.y < rect.y_mm ||
        at_mm.y > panels.y_mm + panels.height_mm) {
        return -1;
    }
    const double t =
        time.low + (at_mm.x - time.from_mm) / (time.to_mm - time.from_mm) * (time.high - time.low);
    int best = 0;
    for (int i = 1; i < s->frame_count; i++) {
        best = fabs(s->frame[i].time_s - t) < fabs(s->frame[best].time_s - t) ? i : best;
    }
    return best;
}
