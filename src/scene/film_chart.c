/* SPDX-License-Identifier: MIT */
/* Panels of a lift on film over one axis of time, and the bar's path over foot or shoulder. */
#include <plumbar/film_chart.h>

#include "scene/axis.h"
#include "scene/film_chart.h"

#include <math.h>

static const double LEFT_MM = 13.0; /* figures beside the upright axes */
static const double FOOT_MM = 10.0; /* figures and word below the axis of time */
static const double GAP_MM = 7.0;   /* between panels, with the upper one's name */
static const double HEAD_ROW_MM = 3.6;
static const double PATH_FRAC = 0.27; /* of the width */
enum { TICKS_WANTED = 8, HEAD_ROWS = 3, CELL_SIZE = 96 };

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

static double bar_above(const PlumbSeriesFrame *frame)
{
    return frame->value[PLUMB_READ_bar_above_shoulder];
}

static double upper_arm(const PlumbSeriesFrame *frame)
{
    return frame->value[PLUMB_READ_upper_arm];
}

static double elbow_off(const PlumbSeriesFrame *frame)
{
    return frame->value[PLUMB_READ_elbow_off_bar];
}

static double forearm_lean(const PlumbSeriesFrame *frame)
{
    return frame->value[PLUMB_READ_forearm_front];
}

static const PlumbFilmPanel side_rows[] = {
    {.words = "Heights of bar and hip",
     .quantity = PLUMB_Q_LENGTH,
     .figure = {bar_height, hip_height},
     .name = {"bar", "hip"}},
    {.words = "Back angle above level", .quantity = PLUMB_Q_ANGLE, .figure = {back_angle}},
    {.words = "Speed of the bar, m/s", .quantity = PLUMB_Q_NUMBER, .figure = {bar_speed}},
};

static const PlumbFilmPanel front_rows[] = {
    {.words = "Distance of the knees over that of the ankles",
     .quantity = PLUMB_Q_NUMBER,
     .figure = {knee_spread}},
    {.words = "Shins outward from upright", .quantity = PLUMB_Q_ANGLE, .figure = {shin_lean}},
    {.words = "Rise of the bar or the hips, px",
     .quantity = PLUMB_Q_NUMBER,
     .figure = {rise},
     .from_first = true},
};

static const PlumbFilmPanel press_rows[] = {
    {.words = "Bar above the shoulders", .quantity = PLUMB_Q_LENGTH, .figure = {bar_above}},
    {.words = "Upper arm from the trunk",
     .quantity = PLUMB_Q_ANGLE,
     .figure = {upper_arm},
     .of_elbow = true,
     .turn = true},
    {.words = "Elbow from under the bar toward the feet",
     .quantity = PLUMB_Q_LENGTH,
     .figure = {elbow_off},
     .of_elbow = true},
    {.words = "Speed of the bar, m/s", .quantity = PLUMB_Q_NUMBER, .figure = {bar_speed}},
};

/* From an end of the bench places along it are known the least. */
static const PlumbFilmPanel press_end_rows[] = {
    {.words = "Bar above the shoulders", .quantity = PLUMB_Q_LENGTH, .figure = {bar_above}},
    {.words = "Upper arm from the trunk",
     .quantity = PLUMB_Q_ANGLE,
     .figure = {upper_arm},
     .of_elbow = true,
     .turn = true},
    {.words = "Forearm from upright, hand outward",
     .quantity = PLUMB_Q_ANGLE,
     .figure = {forearm_lean},
     .of_elbow = true},
    {.words = "Speed of the bar, m/s", .quantity = PLUMB_Q_NUMBER, .figure = {bar_speed}},
};

/* The panels of a film's lift and view. */
static const PlumbFilmPanel *rows_of(const PlumbSeries *series, int *count)
{
    const bool press = series->lift == PLUMB_BENCH;
    *count = press ? (int)(sizeof press_rows / sizeof press_rows[0])
                   : (int)(sizeof side_rows / sizeof side_rows[0]);
    return press           ? (series->end_view ? press_end_rows : press_rows)
           : series->front ? front_rows
                           : side_rows;
}

/* Whether the view shows how the bar goes along the foot or the bench. */
static bool has_path(const PlumbSeries *series)
{
    return !series->front && !series->end_view;
}

static PlumbRect time_rect(const PlumbFilmChart *chart, PlumbRect rect)
{
    const double path = has_path(chart->series) ? PATH_FRAC * rect.width_mm : 0.0;
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

static void time_ticks(const PlumbBoard *board, const PlumbChartAxis *axis, double y_mm)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    int decimals;
    const double step = plumb_chart_step(axis, TICKS_WANTED, &decimals);
    for (double k = ceil(axis->low / step); k * step <= axis->high; k += 1.0) {
        const double x = plumb_chart_place(axis, k * step);
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_text_fixed(&text, k * step, decimals);
        plumb_scene_line(board->scene, PEN_FINE, TAG_NONE, (PlumbVec2){x, y_mm},
                         (PlumbVec2){x, y_mm + PLUMB_FILM_TICK_MM});
        plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){x, y_mm + PLUMB_FILM_TICK_MM + 1.2 * size}, size, PLUMB_MIDDLE,
                         cell);
    }
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                     (PlumbVec2){axis->to_mm, y_mm + PLUMB_FILM_TICK_MM + 2.6 * size}, size,
                     PLUMB_END, "time, s");
}

/* Height of each of so many panels. */
static double each_mm(int count, PlumbRect panels)
{
    return (panels.height_mm - (count - 1) * GAP_MM) / count;
}

/* An upright line through every panel, but not through their names. */
static void through(const PlumbBoard *board, const PlumbSeries *series, PlumbPen pen, double x_mm,
                    PlumbRect panels)
{
    int count;
    rows_of(series, &count);
    const double each = each_mm(count, panels);
    for (int i = 0; i < count; i++) {
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
        through(board, series, pen, x, panels);
        plumb_board_text(board, PLUMB_ROLE_ink, TAG_NONE, (PlumbVec2){middle, y}, size,
                         PLUMB_MIDDLE, words);
    }
}

static void cursor(const PlumbBoard *board, const PlumbFilmChart *chart, const PlumbChartAxis *time,
                   PlumbRect panels)
{
    if (chart->cursor >= 0 && chart->cursor < chart->series->frame_count) {
        const double x = plumb_chart_place(time, chart->series->frame[chart->cursor].time_s);
        through(board, chart->series,
                (PlumbPen){PLUMB_ROLE_select, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none}, x,
                panels);
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
    int count;
    const PlumbFilmPanel *const row = rows_of(chart->series, &count);
    const double each = each_mm(count, panels);
    events(&board, chart, &time, panels);
    for (int i = 0; i < count; i++) {
        const double top = panels.y_mm + i * (each + GAP_MM);
        plumb_film_panel(&board, chart, &row[i], &time, top, top + each);
    }
    time_ticks(&board, &time, panels.y_mm + panels.height_mm);
    cursor(&board, chart, &time, panels);
    if (has_path(chart->series)) {
        plumb_film_path(&board, chart, path_rect(rect, panels));
    }
}

int plumb_film_chart_frame(const PlumbFilmChart *chart, PlumbRect rect, PlumbVec2 at_mm)
{
    const PlumbSeries *const s = chart->series;
    const PlumbRect panels = time_rect(chart, rect);
    const PlumbChartAxis time = time_axis(chart, panels);
    const PlumbRect path = path_rect(rect, panels);
    if (has_path(s) && at_mm.x < path.x_mm + path.width_mm) {
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
