/* SPDX-License-Identifier: MIT */
/* The Path page: the pose at the scrubber with the bar's path, moments against bar height. */
#include "pages.h"

#include "plot.h"
#include "working.h"

#include <math.h>
#include <string.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};

static const double angle_least = 20.0; /* degrees; a curve flatter than this is not blown up */
static const double a_sample_mm = 7.0;  /* of a line, before its name */
static const double sample_least_ems = 22.0; /* of a narrower field nothing is left for samples */

static void say_none(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbPosed *const inked = plumb_desk_inked(desk);
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    double y = rect.y_mm + 0.4 * rect.height_mm;
    char words[160];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, "There is no path: ");
    if (inked->outcome == PLUMB_NO_POSE) {
        plumb_text_string(&text, "no pose meets ");
        plumb_text_string(&text, plumb_reason_text(inked->reason));
        plumb_text_char(&text, '.');
    } else {
        plumb_text_string(&text, "the lift has no pose at its end.");
    }
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm + 4.0, &y, rect.width_mm - 8.0, size, 3,
                     words);
}

/* Both ends have to stand in the views: the smaller scale holds for the whole way. */
static PlumbFit fit_way(PlumbDesk *desk, const PlumbDrawing *drawing, PlumbRect rect)
{
    PlumbFit fit[2];
    for (int i = 0; i < 2; i++) {
        plumb_desk_family(desk)->pose(&desk->now.lifter, &desk->way,
                                      i == 0 ? 0 : desk->way.count - 1, &desk->on_way);
        fit[i] = plumb_views_fit(drawing, rect);
    }
    return fit[0].scale_n >= fit[1].scale_n ? fit[0] : fit[1];
}

static void draw_bar_path(const PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbWay *const way = &desk->way;
    const PlumbPen pen = {PLUMB_ROLE_bar, 1.6 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    PlumbVec2 point[PLUMB_WAY_POINTS];
    int count = 0;
    for (int i = 0; i < way->count; i++) {
        if (way->step[i].held) {
            point[count++] = plumb_fit_side(&desk->fit, way->step[i].bar_m);
        }
    }
    if (count > 1) {
        plumb_scene_path(board->scene, pen, NONE, point, count, false);
    }
}

void plumb_path_views(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const int here = plumb_path_here(desk);
    if (here < 0) {
        say_none(desk, board, rect);
        return;
    }
    PlumbDrawing drawing = plumb_desk_drawing(desk);
    desk->on_way = *plumb_desk_inked(desk);
    plumb_desk_family(desk)->draw(&drawing, &desk->on_way, NULL, NULL, plumb_desk_arm(desk));
    drawing.half_above = board->drawing->half_above;
    drawing.grips = board->drawing->grips;
    if (desk->refit) {
        plumb_fit_text(desk, drawing, rect, fit_way);
    }
    plumb_path_pose(desk);
    drawing.text_scale = desk->views_text_scale;
    plumb_compose_views(board->scene, &drawing, &desk->fit);
    if (desk->now.lift != PLUMB_BENCH) { /* the drawing of a press has its way already */
        draw_bar_path(desk, board);
    }
}

/* Start to end with a pointer, like a ruler; a triangle says that it plays. */
static void draw_scrubber(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    static const char *const ENDS[PLUMB_LIFT_COUNT][2] = {
        {"floor", "lockout"}, {"standing", "hole"}, {"touch", "lockout"}};
    const char *const first = ENDS[desk->now.lift][0];
    const char *const last = ENDS[desk->now.lift][1];
    const double y = rect.y_mm + 0.62 * rect.height_mm;
    const double x0 = rect.x_mm + plumb_board_width(board, first, size) + 3.0;
    const double x1 = rect.x_mm + rect.width_mm - plumb_board_width(board, last, size) - 3.0;
    const double x = x0 + desk->way.at * (x1 - x0);
    const double s = 0.45 * rect.height_mm;
    const PlumbVec2 point[3] = {{x, y}, {x - 0.45 * s, y - s}, {x + 0.45 * s, y - s}};
    const PlumbPen solid = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_ink};
    plumb_scene_line(board->scene, PEN_OUTLINE, NONE, (PlumbVec2){x0, y}, (PlumbVec2){x1, y});
    for (int i = 0; i <= 10; i++) {
        const double at = x0 + 0.1 * i * (x1 - x0);
        plumb_scene_line(board->scene, PEN_FINE, NONE, (PlumbVec2){at, y},
                         (PlumbVec2){at, y + (i % 5 == 0 ? 2.0 : 1.1)});
    }
    plumb_scene_path(board->scene, solid, NONE, point, 3, true);
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){x0 - 1.6, y + 0.36 * size}, size,
                     PLUMB_END, first);
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){x1 + 1.6, y + 0.36 * size}, size,
                     PLUMB_START, last);
    desk->scrub_x0_mm = x0;
    desk->scrub_x1_mm = x1;
    plumb_desk_widget(desk, PLUMB_WIDGET_SCRUB, 0, rect, true);
    if (plumb_desk_has_focus(desk, PLUMB_WIDGET_SCRUB, 0)) {
        plumb_focus_ring(board, rect);
    }
}

static const PlumbPen ARM_PEN[PLUMB_ARMS_MAX] = {
    [PLUMB_JOINT_ankle] = {PLUMB_ROLE_quiet, PLUMB_FINE_MM, PLUMB_DOTTED, PLUMB_ROLE_none},
    [PLUMB_JOINT_knee] = {PLUMB_ROLE_mass, 1.4 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none},
    [PLUMB_JOINT_hip] = {PLUMB_ROLE_ink, 1.4 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none},
    [PLUMB_JOINT_back] = {PLUMB_ROLE_bar, 1.4 * PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none},
    [PLUMB_JOINT_shoulder] = {PLUMB_ROLE_hold, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none},
};

typedef struct Curves {
    double bar[PLUMB_WAY_POINTS];
    double moment[PLUMB_ARMS_MAX][PLUMB_WAY_POINTS];
    double angle[PLUMB_WAY_POINTS];
} Curves;

static void collect(const PlumbDesk *desk, Curves *curves, PlumbAxis *x, PlumbAxis *y,
                    PlumbAxis *angle)
{
    const double cm = plumb_quantity_factor(PLUMB_Q_LENGTH, desk->units);
    const double nm = plumb_quantity_factor(PLUMB_Q_MOMENT, desk->units);
    const double degrees = plumb_quantity_factor(PLUMB_Q_ANGLE, desk->units);
    const PlumbWay *const way = &desk->way;
    for (int i = 0; i < way->count; i++) {
        const PlumbWayPoint *const step = &way->step[i];
        curves->bar[i] = step->held ? cm * step->bar_m.y : (double)NAN;
        curves->angle[i] = step->held ? degrees * step->angle_rad : (double)NAN;
        plumb_axis_widen(x, curves->bar[i]);
        plumb_axis_widen(angle, curves->angle[i]);
        for (int j = 0; j < plumb_desk_family(desk)->arm_count; j++) {
            curves->moment[j][i] = nm * step->moment_n_m[j];
            plumb_axis_widen(y, curves->moment[j][i]);
        }
    }
    for (int i = 0; way->moved && i < PLUMB_WAY_INSTANTS; i++) {
        plumb_axis_widen(y, nm * way->moving_n_m[desk->selected][i]);
    }
}

static void draw_moving(const PlumbDesk *desk, const PlumbPlot *plot)
{
    const PlumbWay *const way = &desk->way;
    const PlumbPen pen = {PLUMB_ROLE_pencil, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    double x[PLUMB_WAY_INSTANTS];
    double y[PLUMB_WAY_INSTANTS];
    for (int i = 0; i < PLUMB_WAY_INSTANTS; i++) {
        x[i] = way->bar_m[i] * plumb_quantity_factor(PLUMB_Q_LENGTH, desk->units);
        y[i] =
            way->moving_n_m[desk->selected][i] * plumb_quantity_factor(PLUMB_Q_MOMENT, desk->units);
    }
    plumb_plot_curve(plot, pen, NONE, x, y, PLUMB_WAY_INSTANTS);
}

static void draw_curves(PlumbDesk *desk, const PlumbPlot *plot, const Curves *curves,
                        double sample_mm)
{
    const PlumbWay *const way = &desk->way;
    const PlumbFamily *const family = plumb_desk_family(desk);
    const int right = desk->now.lift == PLUMB_SQUAT ? 0 : way->count - 1;
    const char *name[PLUMB_ARMS_MAX];
    PlumbPen pen[PLUMB_ARMS_MAX];
    PlumbRole role[PLUMB_ARMS_MAX];
    PlumbTag tag[PLUMB_ARMS_MAX];
    double end[PLUMB_ARMS_MAX];
    for (int j = 0; j < family->arm_count; j++) {
        const bool selected = j == plumb_desk_arm(desk);
        pen[j] = ARM_PEN[j];
        pen[j].weight_mm = selected ? PLUMB_MEDIUM_MM : pen[j].weight_mm;
        tag[j] = (PlumbTag){PLUMB_TAG_ARM, j};
        name[j] = family->arm_name(j);
        role[j] = selected ? PLUMB_ROLE_ink : PLUMB_ROLE_quiet;
        end[j] = curves->moment[j][right];
        plumb_plot_curve(plot, pen[j], tag[j], curves->bar, curves->moment[j], way->count);
    }
    plumb_plot_names(plot, name, pen, role, tag, end, family->arm_count, sample_mm);
}

/* Beside text of that size the zone still has room for the curves: their five names set the least.
 */
static double chart_text_scale(const PlumbBoard *board, PlumbRect rect)
{
    static const double least_ems = 13.4;
    return fmin(board->drawing->text_scale, rect.height_mm / (least_ems * PLUMB_SMALL_TEXT_MM));
}

static void label(char *words, size_t size, const char *what, PlumbQuantity quantity,
                  PlumbUnits units)
{
    PlumbText text = plumb_text_begin(words, size);
    plumb_text_string(&text, what);
    plumb_text_string(&text, ", ");
    plumb_text_string(&text, plumb_quantity_unit(quantity, units));
}

/* Where the scrubber stands. */
static void draw_here(const PlumbPlot *plot, double at)
{
    plumb_scene_line(plot->board->scene, PEN_FINE, NONE, plumb_plot_place(plot, at, plot->y.low),
                     plumb_plot_place(plot, at, plot->y.high));
}

/* Moments of all arms; of a press the upper arm's angle stands beside them. */
static void draw_plots(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, double at)
{
    const bool press = desk->now.lift == PLUMB_BENCH;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    char words[3][64];
    label(words[0], sizeof words[0], "bar height", PLUMB_Q_LENGTH, desk->units);
    label(words[1], sizeof words[1], press ? "net moments" : "net joint moments", PLUMB_Q_MOMENT,
          desk->units);
    label(words[2], sizeof words[2], "upper arm", PLUMB_Q_ANGLE, desk->units);
    PlumbAxis x = {(double)INFINITY, -(double)INFINITY, words[0]};
    PlumbAxis y = {0.0, 0.0, words[1]};
    PlumbAxis angle = {(double)INFINITY, -(double)INFINITY, words[2]};
    Curves curves = {0};
    collect(desk, &curves, &x, &y, &angle);
    const double names = plumb_board_width(board, press ? "adduction" : "shoulder", size) + 2.0;
    const double share = press ? 0.58 : 1.0;
    const double sample =
        share * rect.width_mm - names > sample_least_ems * size ? a_sample_mm : 0.0;
    const PlumbPlot plot = plumb_plot_begin(
        board, (PlumbRect){rect.x_mm, rect.y_mm, share * rect.width_mm, rect.height_mm},
        names + sample, x, y);
    if (desk->way.moved) {
        draw_moving(desk, &plot);
    }
    draw_curves(desk, &plot, &curves, sample);
    draw_here(&plot, at);
    if (press) {
        const double spare = fmax(0.0, 0.5 * (angle_least - (angle.high - angle.low)));
        angle.low -= spare;
        angle.high += spare;
        const PlumbPen pen = {PLUMB_ROLE_ink, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
        const PlumbPlot beside =
            plumb_plot_begin(board,
                             (PlumbRect){rect.x_mm + share * rect.width_mm, rect.y_mm,
                                         (1.0 - share) * rect.width_mm, rect.height_mm},
                             2.0, x, angle);
        plumb_plot_curve(&beside, pen, (PlumbTag){PLUMB_TAG_POINT, PLUMB_PT_elbow}, curves.bar,
                         curves.angle, desk->way.count);
        draw_here(&beside, at);
    }
}

void plumb_path_chart(PlumbDesk *desk, const PlumbBoard *window, PlumbRect rect)
{
    PlumbDrawing drawing = *window->drawing;
    drawing.text_scale = chart_text_scale(window, rect);
    const PlumbBoard chart = {window->scene, &drawing};
    const PlumbBoard *const board = &chart;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double strip = fmax(6.0, 2.4 * size);
    const int here = plumb_path_here(desk);
    draw_scrubber(desk, board, (PlumbRect){rect.x_mm, rect.y_mm, rect.width_mm, strip});
    if (here >= 0) {
        draw_plots(desk, board,
                   (PlumbRect){rect.x_mm, rect.y_mm + strip, rect.width_mm, rect.height_mm - strip},
                   desk->way.step[here].bar_m.y *
                       plumb_quantity_factor(PLUMB_Q_LENGTH, desk->units));
    }
}

static void add(PlumbText *text, const char *words, double value, PlumbQuantity quantity,
                PlumbUnits units)
{
    plumb_text_string(text, words);
    plumb_text_quantity(text, value, quantity, units);
}

/* " ± 25 N m", of a fact of the path; nothing while it is not known. */
static void add_spread(const PlumbDesk *desk, PlumbText *text, int fact, PlumbQuantity quantity)
{
    const PlumbEstimate *const spread = plumb_sure_of(desk, fact);
    if (spread != NULL) {
        add(text, " ± ", spread->sd, quantity, desk->units);
    }
}

double plumb_path_notes(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbWay *const way = &desk->way;
    const PlumbFamily *const family = plumb_desk_family(desk);
    const int at = plumb_path_here(desk);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const int arm = plumb_desk_arm(desk);
    double y = rect.y_mm;
    if (at < 0) {
        return 0.0;
    }
    const PlumbWayPoint *const here = &way->step[at];
    char line[5][320];
    PlumbText text = plumb_text_begin(line[0], sizeof line[0]);
    add(&text, "Here: bar ", here->bar_m.y, PLUMB_Q_LENGTH, desk->units);
    plumb_text_string(&text, " up, ");
    plumb_text_string(&text, family->arm_name(arm));
    add(&text, " ", here->moment_n_m[arm], PLUMB_Q_MOMENT, desk->units);
    plumb_text_char(&text, '.');
    text = plumb_text_begin(line[1], sizeof line[1]);
    plumb_text_string(&text, "Angle: ");
    plumb_text_string(&text, family->angle_words);
    add(&text, " ", here->angle_rad, PLUMB_Q_ANGLE, desk->units);
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, family->angle_after);
    plumb_text_char(&text, '.');
    text = plumb_text_begin(line[2], sizeof line[2]);
    plumb_text_string(&text, "Greatest at rest: ");
    plumb_text_string(&text, family->arm_name(arm));
    add(&text, " ", way->peak_n_m[arm], PLUMB_Q_MOMENT, desk->units);
    add_spread(desk, &text, family->fact_peak + arm, PLUMB_Q_MOMENT);
    add(&text, "; bar travel ", plumb_desk_inked(desk)->travel_m, PLUMB_Q_LENGTH, desk->units);
    add_spread(desk, &text, family->fact_travel, PLUMB_Q_LENGTH);
    add(&text, "; the bar's path is ", way->spread_m, PLUMB_Q_LENGTH, desk->units);
    add_spread(desk, &text, family->fact_spread, PLUMB_Q_LENGTH);
    plumb_text_string(&text, " wide.");
    if (plumb_sure_of(desk, family->fact_travel) != NULL) {
        plumb_text_char(&text, ' ');
        plumb_text_string(&text, plumb_interval_caution());
    }
    text = plumb_text_begin(line[3], sizeof line[3]);
    if (way->moved) {
        add(&text, "Way up in ", way->motion.rep_time_s, PLUMB_Q_TIME, desk->units);
        plumb_text_string(&text, ": bar at most ");
        plumb_text_fixed(&text, way->motion.peak_bar_speed_m_s, 2);
        plumb_text_string(&text, " m/s, ");
        plumb_text_string(&text, family->arm_name(arm));
        add(&text, " at most ", way->motion.peak_moment_n_m[arm], PLUMB_Q_MOMENT, desk->units);
        plumb_text_string(&text, " (thin grey).");
    }
    text = plumb_text_begin(line[4], sizeof line[4]);
    plumb_text_string(&text, way->playing ? "Playing. Space stops it."
                                          : "Space plays the way up. E: the working here.");
    const bool paper = /* nothing plays there */
        board->scene != desk->scene && board->scene != &desk->worked->scene;
    for (int i = 0; i < (paper ? 4 : 5); i++) {
        const int most = (int)floor((rect.y_mm + rect.height_mm - y) / (PLUMB_LINE_PITCH * size));
        if (line[i][0] != '\0' && most > 0) {
            plumb_board_wrap(board, i == 4 ? PLUMB_ROLE_quiet : PLUMB_ROLE_ink,
                             plumb_working_tag(desk, i), rect.x_mm, &y, rect.width_mm, size, most,
                             line[i]);
            y += 0.4 * size;
        }
    }
    return y - rect.y_mm;
}
