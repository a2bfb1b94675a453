/* SPDX-License-Identifier: MIT */
/* One panel of a film's chart: its curves over time, what of them was not seen, and the turn of the
 * upper arm that was found. */
#include "scene/film_chart.h"

#include <math.h>

enum { TICKS_WANTED = 4, CURVE_POINTS = 1200, CELL_SIZE = 128 };

static const PlumbPen curve_pens[2] = {
    {PLUMB_ROLE_bar, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none},
    {PLUMB_ROLE_mass, PLUMB_MEDIUM_MM, PLUMB_DASHED, PLUMB_ROLE_none},
};
static const PlumbPen unseen_pen = {PLUMB_ROLE_quiet, PLUMB_FINE_MM, PLUMB_DOTTED, PLUMB_ROLE_none};
static const PlumbPen turn_pen = {PLUMB_ROLE_ink, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};

/* A panel as it is drawn. */
typedef struct Panel {
    const PlumbBoard *board;
    const PlumbSeries *series;
    const PlumbFilmPanel *row;
    double factor; /* to the reader's unit */
    const PlumbChartAxis *time;
    PlumbChartAxis axis;
} Panel;

static double value_of(const Panel *panel, int k, int frame)
{
    const PlumbSeries *const s = panel->series;
    double (*const figure)(const PlumbSeriesFrame *) = panel->row->figure[k];
    if (figure == NULL) {
        return (double)NAN;
    }
    const double first = panel->row->from_first ? figure(&s->frame[0]) : 0.0;
    return panel->factor * (figure(&s->frame[frame]) - first);
}

static PlumbVec2 point_of(const Panel *panel, int k, int frame)
{
    return (PlumbVec2){plumb_chart_place(panel->time, panel->series->frame[frame].time_s),
                       plumb_chart_place(&panel->axis, value_of(panel, k, frame))};
}

/* False where a frame was filled in from its neighbours, or rests on an elbow nobody saw. */
static bool is_seen(const Panel *panel, int frame)
{
    const PlumbSeriesFrame *const f = &panel->series->frame[frame];
    const bool known = panel->row->from_first ? f->rise_known : f->known;
    return known && (!panel->row->of_elbow || f->elbow_seen);
}

static void range_of(Panel *panel)
{
    PlumbChartAxis *const axis = &panel->axis;
    axis->low = (double)INFINITY;
    axis->high = -(double)INFINITY;
    for (int k = 0; k < 2 && panel->row->figure[k] != NULL; k++) {
        for (int i = 0; i < panel->series->frame_count; i++) {
            const double value = value_of(panel, k, i);
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
        plumb_scene_line(board->scene, PEN_FINE, TAG_NONE,
                         (PlumbVec2){x_mm - PLUMB_FILM_TICK_MM, y}, (PlumbVec2){x_mm, y});
        plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){x_mm - PLUMB_FILM_TICK_MM - 0.7, y + 0.36 * size}, size,
                         PLUMB_END, cell);
    }
}

/* A curve's points within its panel, those of frames that were seen or the others; of a long film
 * every k-th frame. */
static void curve(const Panel *panel, int k, bool seen)
{
    const int count = panel->series->frame_count;
    const int stride = (count + CURVE_POINTS - 1) / CURVE_POINTS;
    const PlumbPen pen = seen ? curve_pens[k] : unseen_pen;
    PlumbVec2 line[CURVE_POINTS];
    int length = 0;
    for (int i = 0; i < count; i += stride) {
        const bool finite = isfinite(value_of(panel, k, i));
        /* What was not seen joins what was on either side. */
        const bool joins = !seen && ((i >= stride && !is_seen(panel, i - stride)) ||
                                     (i + stride < count && !is_seen(panel, i + stride)));
        const bool on = finite && (is_seen(panel, i) == seen || joins);
        if (on) {
            line[length++] = point_of(panel, k, i);
        }
        if (!on && finite && length > 0) {
            plumb_scene_path(panel->board->scene, pen, TAG_NONE, line, length, false);
            length = 0;
        }
    }
    if (length > 0) {
        plumb_scene_path(panel->board->scene, pen, TAG_NONE, line, length, false);
    }
}

/* The largest turn of the upper arm within a little of the bar's rise: bold, and told at the
 * panel's head. */
static void draw_turn(const Panel *panel, const PlumbFilmChart *chart, double top_mm)
{
    const PlumbSeries *const s = panel->series;
    const double size = plumb_board_size(panel->board, PLUMB_SMALL_TEXT_MM);
    for (int i = 0; i < chart->finding_count; i++) {
        const PlumbFilmFinding *const found = &chart->finding[i];
        if (found->what.id != PLUMB_FIND_upper_arm_turns || found->frame < 0 ||
            found->verdict == PLUMB_FILM_NOT_SEEN) {
            continue;
        }
        PlumbVec2 line[CURVE_POINTS];
        int length = 0;
        const double top_m = s->frame[found->frame].bar_m.y + PLUMB_TURN_RISE_M;
        bool up = false;
        for (int f = found->frame; f < s->frame_count && length < CURVE_POINTS && !up; f++) {
            line[length++] = point_of(panel, 0, f);
            up = s->frame[f].bar_m.y >= top_m;
        }
        plumb_scene_path(panel->board->scene, turn_pen, TAG_NONE, line, length, false);
        char words[CELL_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, "bold: largest turn within ");
        plumb_text_said(&text, PLUMB_TURN_RISE_M, PLUMB_Q_LENGTH, chart->units);
        plumb_text_string(&text, " of rise, ");
        plumb_text_quantity(&text, found->what.value, PLUMB_Q_ANGLE, chart->units);
        plumb_board_text(panel->board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){panel->time->to_mm, top_mm - 1.2}, size, PLUMB_END, words);
    }
}

/* The name, and that some of it was not seen. */
static void head(const Panel *panel, PlumbUnits units, double top_mm)
{
    char words[CELL_SIZE];
    bool all = true;
    PlumbText text = plumb_text_begin(words, sizeof words);
    for (int i = 0; i < panel->series->frame_count; i++) {
        all = all && is_seen(panel, i);
    }
    plumb_text_string(&text, panel->row->words);
    if (panel->row->quantity != PLUMB_Q_NUMBER) {
        plumb_text_string(&text, ", ");
        plumb_text_string(&text, plumb_quantity_unit(panel->row->quantity, units));
    }
    plumb_text_string(&text, all                    ? ""
                             : panel->row->of_elbow ? " (dotted: elbow not seen)"
                                                    : " (dotted: filled in)");
    plumb_board_text(panel->board, PLUMB_ROLE_ink, TAG_NONE,
                     (PlumbVec2){panel->time->from_mm, top_mm - 1.2},
                     plumb_board_size(panel->board, PLUMB_SMALL_TEXT_MM), PLUMB_START, words);
}

void plumb_film_panel(const PlumbBoard *board, const PlumbFilmChart *chart,
                      const PlumbFilmPanel *row, const PlumbChartAxis *time, double top_mm,
                      double foot_mm)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    Panel panel = {.board = board,
                   .series = chart->series,
                   .row = row,
                   .factor = plumb_quantity_factor(row->quantity, chart->units),
                   .time = time,
                   .axis = {.from_mm = foot_mm, .to_mm = top_mm}};
    range_of(&panel);
    plumb_scene_rect(
        board->scene, PEN_RULE, TAG_NONE,
        (PlumbRect){time->from_mm, top_mm, time->to_mm - time->from_mm, foot_mm - top_mm});
    head(&panel, chart->units, top_mm);
    upright_ticks(board, &panel.axis, time->from_mm);
    for (int k = 0; k < 2 && row->figure[k] != NULL; k++) {
        curve(&panel, k, true);
        curve(&panel, k, false);
        if (row->name[k] != NULL) {
            const double y = point_of(&panel, k, panel.series->frame_count - 1).y + 0.36 * size;
            plumb_board_text(board, PLUMB_ROLE_ink, TAG_NONE, (PlumbVec2){time->to_mm + 1.2, y},
                             size, PLUMB_START, row->name[k]);
        }
    }
    if (row->turn) {
        draw_turn(&panel, chart, top_mm);
    }
}
