/* SPDX-License-Identifier: MIT */
/* The Path page: the pose at the scrubber with the bar's path, moments against bar height. */
#include "pages.h"

#include "plot.h"

#include <math.h>
#include <string.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};

static void say_none(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbAnswer *const inked = plumb_desk_inked(desk);
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    double y = rect.y_mm + 0.4 * rect.height_mm;
    char words[160];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, "There is no path: ");
    if (inked->outcome == PLUMB_NO_POSE) {
        plumb_text_string(&text, "no pose meets ");
        plumb_text_string(&text, plumb_constraint_text(inked->failed));
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
    PlumbAnswer *const shown = &desk->way.shown; /* drawing->answer */
    PlumbFit fit[2];
    for (int i = 0; i < 2; i++) {
        shown->start = desk->way.point[i == 0 ? 0 : desk->way.count - 1].position;
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
        if (way->point[i].held) {
            point[count++] = plumb_fit_side(&desk->fit, way->point[i].position.point[PLUMB_PT_bar]);
        }
    }
    if (count > 1) {
        plumb_scene_path(board->scene, pen, NONE, point, count, false);
    }
}

void plumb_path_views(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbPathPoint *const here = plumb_path_here(desk);
    if (here == NULL) {
        say_none(desk, board, rect);
        return;
    }
    PlumbAnswer *const shown = &desk->way.shown;
    *shown = *plumb_desk_inked(desk);
    shown->finding_count = 0;
    PlumbDrawing drawing = plumb_desk_drawing(desk);
    drawing.answer = shown;
    drawing.wish = NULL;
    drawing.pencil = NULL;
    if (desk->refit) {
        plumb_fit_text(desk, drawing, rect, fit_way);
    }
    shown->start = here->position;
    drawing.text_scale = desk->views_text_scale;
    plumb_compose_views(board->scene, &drawing, &desk->fit);
    draw_bar_path(desk, board);
}

/* Start to end with a pointer, like a ruler; a triangle says that it plays. */
static void draw_scrubber(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const bool squat = desk->now.lift == PLUMB_SQUAT;
    const char *const first = squat ? "standing" : "floor";
    const char *const last = squat ? "hole" : "lockout";
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

static const PlumbPen JOINT_PEN[PLUMB_JOINT_COUNT] = {
    [PLUMB_JOINT_ankle] = {PLUMB_ROLE_quiet, PLUMB_FINE_MM, PLUMB_DOTTED, PLUMB_ROLE_none},
    [PLUMB_JOINT_knee] = {PLUMB_ROLE_mass, 1.4 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none},
    [PLUMB_JOINT_hip] = {PLUMB_ROLE_ink, 1.4 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none},
    [PLUMB_JOINT_back] = {PLUMB_ROLE_bar, 1.4 * PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none},
    [PLUMB_JOINT_shoulder] = {PLUMB_ROLE_hold, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none},
};

typedef struct Curves {
    double bar[PLUMB_WAY_POINTS];
    double moment[PLUMB_JOINT_COUNT][PLUMB_WAY_POINTS];
} Curves;

static void collect(const PlumbDesk *desk, Curves *curves, PlumbAxis *x, PlumbAxis *y)
{
    const double cm = plumb_quantity_factor(PLUMB_Q_LENGTH, desk->units);
    const double nm = plumb_quantity_factor(PLUMB_Q_MOMENT, desk->units);
    const PlumbWay *const way = &desk->way;
    for (int i = 0; i < way->count; i++) {
        const PlumbPathPoint *const point = &way->point[i];
        curves->bar[i] = point->held ? cm * point->position.point[PLUMB_PT_bar].y : (double)NAN;
        plumb_axis_widen(x, curves->bar[i]);
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            curves->moment[j][i] = nm * point->position.moment_both_n_m[j];
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

static void draw_curves(PlumbDesk *desk, const PlumbPlot *plot, const Curves *curves)
{
    const PlumbWay *const way = &desk->way;
    const int right = desk->now.lift == PLUMB_SQUAT ? 0 : way->count - 1;
    const char *name[PLUMB_JOINT_COUNT];
    PlumbRole role[PLUMB_JOINT_COUNT];
    PlumbTag tag[PLUMB_JOINT_COUNT];
    double end[PLUMB_JOINT_COUNT];
    for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
        PlumbPen pen = JOINT_PEN[j];
        const bool selected = j == (int)desk->selected;
        pen.weight_mm = selected ? PLUMB_MEDIUM_MM : pen.weight_mm;
        tag[j] = (PlumbTag){PLUMB_TAG_ARM, j};
        name[j] = plumb_joint_name((PlumbJoint)j);
        role[j] = selected ? PLUMB_ROLE_ink : PLUMB_ROLE_quiet;
        end[j] = curves->moment[j][right];
        plumb_plot_curve(plot, pen, tag[j], curves->bar, curves->moment[j], way->count);
    }
    plumb_plot_names(plot, name, role, tag, end, PLUMB_JOINT_COUNT);
}

/* Beside text of that size the zone still has room for the curves: their five names set the least.
 */
static double chart_text_scale(const PlumbBoard *board, PlumbRect rect)
{
    static const double least_ems = 13.4;
    return fmin(board->drawing->text_scale, rect.height_mm / (least_ems * PLUMB_SMALL_TEXT_MM));
}

void plumb_path_chart(PlumbDesk *desk, const PlumbBoard *window, PlumbRect rect)
{
    PlumbDrawing drawing = *window->drawing;
    drawing.text_scale = chart_text_scale(window, rect);
    const PlumbBoard chart = {window->scene, &drawing};
    const PlumbBoard *const board = &chart;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double strip = fmax(6.0, 2.4 * size);
    const PlumbPathPoint *const here = plumb_path_here(desk);
    draw_scrubber(desk, board, (PlumbRect){rect.x_mm, rect.y_mm, rect.width_mm, strip});
    if (here == NULL) {
        return;
    }
    char labels[2][64];
    PlumbText x_label = plumb_text_begin(labels[0], sizeof labels[0]);
    plumb_text_string(&x_label, "bar height, ");
    plumb_text_string(&x_label, plumb_quantity_unit(PLUMB_Q_LENGTH, desk->units));
    PlumbText y_label = plumb_text_begin(labels[1], sizeof labels[1]);
    plumb_text_string(&y_label, "net joint moments, ");
    plumb_text_string(&y_label, plumb_quantity_unit(PLUMB_Q_MOMENT, desk->units));
    PlumbAxis x = {(double)INFINITY, -(double)INFINITY, labels[0]};
    PlumbAxis y = {0.0, 0.0, labels[1]};
    Curves curves = {0};
    collect(desk, &curves, &x, &y);
    const double names = plumb_board_width(board, "shoulder", size) + 2.0;
    const PlumbPlot plot = plumb_plot_begin(
        board, (PlumbRect){rect.x_mm, rect.y_mm + strip, rect.width_mm, rect.height_mm - strip},
        names, x, y);
    if (desk->way.moved) {
        draw_moving(desk, &plot);
    }
    draw_curves(desk, &plot, &curves);
    const double at =
        here->position.point[PLUMB_PT_bar].y * plumb_quantity_factor(PLUMB_Q_LENGTH, desk->units);
    plumb_scene_line(board->scene, PEN_FINE, NONE, plumb_plot_place(&plot, at, plot.y.low),
                     plumb_plot_place(&plot, at, plot.y.high));
}

static void add(PlumbText *text, const char *words, double value, PlumbQuantity quantity,
                PlumbUnits units)
{
    plumb_text_string(text, words);
    plumb_text_quantity(text, value, quantity, units);
}

double plumb_path_notes(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbWay *const way = &desk->way;
    const PlumbPathPoint *const here = plumb_path_here(desk);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const PlumbJoint joint = desk->selected;
    double y = rect.y_mm;
    if (here == NULL) {
        return 0.0;
    }
    char line[4][160];
    PlumbText text = plumb_text_begin(line[0], sizeof line[0]);
    add(&text, "Here: bar ", here->position.point[PLUMB_PT_bar].y, PLUMB_Q_LENGTH, desk->units);
    plumb_text_string(&text, " up, ");
    plumb_text_string(&text, plumb_joint_name(joint));
    add(&text, " ", here->position.moment_both_n_m[joint], PLUMB_Q_MOMENT, desk->units);
    add(&text, ", back ", here->position.angle_rad[PLUMB_ANG_back], PLUMB_Q_ANGLE, desk->units);
    plumb_text_string(&text, " above level.");
    text = plumb_text_begin(line[1], sizeof line[1]);
    plumb_text_string(&text, "Greatest at rest: ");
    plumb_text_string(&text, plumb_joint_name(joint));
    add(&text, " ", way->facts.peak_moment_n_m[joint], PLUMB_Q_MOMENT, desk->units);
    add(&text, "; the bar's path is ", way->facts.bar_spread_m, PLUMB_Q_LENGTH, desk->units);
    plumb_text_string(&text, " wide.");
    text = plumb_text_begin(line[2], sizeof line[2]);
    if (way->moved) {
        add(&text, "Way up in ", way->motion.rep_time_s, PLUMB_Q_TIME, desk->units);
        plumb_text_string(&text, ": bar at most ");
        plumb_text_fixed(&text, way->motion.peak_bar_speed_m_s, 2);
        plumb_text_string(&text, " m/s, ");
        plumb_text_string(&text, plumb_joint_name(joint));
        add(&text, " at most ", way->motion.peak_moment_n_m[joint], PLUMB_Q_MOMENT, desk->units);
        plumb_text_string(&text, " (thin grey).");
    }
    text = plumb_text_begin(line[3], sizeof line[3]);
    plumb_text_string(&text, way->playing ? "Playing. Space stops it."
                                          : "Space plays the way up; drag the scrubber.");
    const bool paper = board->scene != desk->scene; /* nothing plays there */
    for (int i = 0; i < (paper ? 3 : 4); i++) {
        const int most = (int)floor((rect.y_mm + rect.height_mm - y) / (PLUMB_LINE_PITCH * size));
        if (line[i][0] != '\0' && most > 0) {
            plumb_board_wrap(board, i == 3 ? PLUMB_ROLE_quiet : PLUMB_ROLE_ink, NONE, rect.x_mm, &y,
                             rect.width_mm, size, most, line[i]);
            y += 0.4 * size;
        }
    }
    return y - rect.y_mm;
}
