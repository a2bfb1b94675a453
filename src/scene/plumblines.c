/* SPDX-License-Identifier: MIT */
/* The two plumb lines, B through the bar and C through the centre of mass, and the foot's scale. */
#include "scene/mark.h"
#include "scene/views.h"

#include <math.h>

/* Lines nearer than this on paper are one line. */
static const double ONE_LINE_MM = 1.0;

/* The stable part of the foot, where a start may have its balance. */
static const double STABLE_LOW_FRAC = 0.25;
static const double STABLE_HIGH_FRAC = 0.60;

static const double TICK_MM = 1.3;

static void plumb_line(const PlumbViews *views, PlumbRole role, PlumbDash dash, PlumbTag tag,
                       double x_mm, double top_mm, double bottom_mm)
{
    const PlumbPen pen = {role, PLUMB_FINE_MM, dash, PLUMB_ROLE_none};
    plumb_scene_line(views->board.scene, pen, tag, (PlumbVec2){x_mm, top_mm},
                     (PlumbVec2){x_mm, bottom_mm});
}

static double foot_x(const PlumbViews *views, double frac)
{
    const PlumbVec3 heel = views->at->point[PLUMB_PT_heel];
    const PlumbVec3 toe = views->at->point[PLUMB_PT_toe];
    return plumb_fit_side(views->fit, (PlumbVec3){heel.x + frac * (toe.x - heel.x), 0.0, 0.0}).x;
}

static void foot_tick(const PlumbViews *views, double frac, double y_mm)
{
    const double x = foot_x(views, frac);
    plumb_scene_line(views->board.scene, PEN_FINE, TAG_NONE, (PlumbVec2){x, y_mm - TICK_MM},
                     (PlumbVec2){x, y_mm + TICK_MM});
}

/* Heel 0 to toe 1, ticks at the ends of the stable part, which is heavy. */
static void draw_foot_scale(const PlumbViews *views, double y_mm)
{
    const PlumbBoard *board = &views->board;
    const PlumbTag tag = {PLUMB_TAG_SETTING, PLUMB_SET_balance};
    const PlumbPen stable = {PLUMB_ROLE_hold, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_line(board->scene, PEN_FINE, tag, (PlumbVec2){foot_x(views, 0.0), y_mm},
                     (PlumbVec2){foot_x(views, 1.0), y_mm});
    plumb_scene_line(board->scene, stable, tag, (PlumbVec2){foot_x(views, STABLE_LOW_FRAC), y_mm},
                     (PlumbVec2){foot_x(views, STABLE_HIGH_FRAC), y_mm});
    foot_tick(views, 0.0, y_mm);
    foot_tick(views, STABLE_LOW_FRAC, y_mm);
    foot_tick(views, STABLE_HIGH_FRAC, y_mm);
    foot_tick(views, 1.0, y_mm);
}

/* A small filled triangle whose tip touches the foot's scale where C meets it. */
static void draw_balance_tip(const PlumbViews *views, double x_mm, double y_mm)
{
    const PlumbVec2 tip[3] = {{x_mm, y_mm}, {x_mm - 0.9, y_mm - 2.0}, {x_mm + 0.9, y_mm - 2.0}};
    plumb_scene_path(views->board.scene, (PlumbPen){.fill = PLUMB_ROLE_mass},
                     (PlumbTag){PLUMB_TAG_SETTING, PLUMB_SET_balance}, tip, 3, true);
}

/* The centre of mass: a small circle with a level stroke through it. */
static void draw_mass_point(const PlumbViews *views)
{
    const PlumbPen pen = {PLUMB_ROLE_mass, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbVec2 at = plumb_fit_side(views->fit, views->at->com);
    plumb_scene_circle(views->board.scene, pen, TAG_NONE, at, 1.2);
    plumb_scene_line(views->board.scene, pen, TAG_NONE, (PlumbVec2){at.x - 2.0, at.y},
                     (PlumbVec2){at.x + 2.0, at.y});
}

void plumb_draw_plumb_lines(const PlumbViews *views)
{
    const PlumbBoard *board = &views->board;
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    const double top = views->top_mm;
    const double letters = top - 1.0;
    const double foot = views->ground_mm + plumb_foot_row_mm(board->drawing);
    const double rows = views->ground_mm +
                        plumb_dimension_row_mm(board->drawing, plumb_last_row(board->drawing)) +
                        2.0;
    const double bar = plumb_fit_side(views->fit, views->at->point[PLUMB_PT_bar]).x;
    const double mass = plumb_fit_side(views->fit, views->at->com).x;
    const PlumbTag bar_tag = {PLUMB_TAG_POINT, PLUMB_PT_bar};
    const PlumbTag mass_tag = {PLUMB_TAG_SETTING, PLUMB_SET_balance};
    plumb_line(views, PLUMB_ROLE_bar, PLUMB_CHAIN, bar_tag, bar, top, rows);
    if (fabs(bar - mass) <= ONE_LINE_MM) {
        plumb_board_text(board, PLUMB_ROLE_ink, bar_tag, (PlumbVec2){bar, letters}, size,
                         PLUMB_MIDDLE, "B = C");
    } else {
        /* Near lines push their letters apart. */
        const double apart = fabs(bar - mass) < 1.4 * size ? 0.3 * size : -0.35 * size;
        const PlumbAlign bar_side = bar < mass ? PLUMB_END : PLUMB_START;
        const double sign = bar < mass ? -1.0 : 1.0;
        plumb_line(views, PLUMB_ROLE_mass, PLUMB_CHAIN_DOUBLE, mass_tag, mass, top, foot);
        plumb_board_text(board, PLUMB_ROLE_ink, bar_tag, (PlumbVec2){bar + sign * apart, letters},
                         size, bar_side, "B");
        plumb_board_text(board, PLUMB_ROLE_ink, mass_tag, (PlumbVec2){mass - sign * apart, letters},
                         size, bar < mass ? PLUMB_START : PLUMB_END, "C");
    }
    draw_mass_point(views);
    draw_foot_scale(views, foot);
    draw_balance_tip(views, mass, foot);
}
