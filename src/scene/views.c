/* SPDX-License-Identifier: MIT */
/* The two views: pencil first, then the inked figure, plumb lines, floor and figures. */
#include "scene/views.h"

#include "scene/mark.h"
#include "scene/press.h"

#include <math.h>
#include <stddef.h>

static bool sees_side(const PlumbViews *views)
{
    return views->board.drawing->sight != PLUMB_SEE_FRONT;
}

static bool sees_front(const PlumbViews *views)
{
    return views->board.drawing->sight != PLUMB_SEE_SIDE;
}

/* What carries lifter or discs above the ground: the lifter's platform, or blocks. */
static void draw_supports(const PlumbViews *views)
{
    const PlumbSetup *setup = &views->board.drawing->answer->setup;
    if (setup->lift != PLUMB_DEADLIFT || !sees_side(views)) {
        return;
    }
    const PlumbPosition *at = views->at;
    const double ground = plumb_ground_m(setup);
    double left = at->point[PLUMB_PT_heel].x - 0.05;
    double right = at->point[PLUMB_PT_toe].x + 0.05;
    double low = ground;
    double high = 0.0;
    PlumbTag tag = {PLUMB_TAG_SETTING, PLUMB_SET_deficit};
    if (setup->blocks_m > 0.0) {
        left = at->point[PLUMB_PT_bar].x - 0.16;
        right = at->point[PLUMB_PT_bar].x + 0.16;
        low = 0.0;
        high = setup->blocks_m;
        tag.id = PLUMB_SET_blocks;
    }
    if (high - low <= 0.0) {
        return;
    }
    const PlumbVec2 a = plumb_fit_side(views->fit, (PlumbVec3){left, high, 0.0});
    const PlumbVec2 b = plumb_fit_side(views->fit, (PlumbVec3){right, low, 0.0});
    plumb_scene_rect(views->board.scene, PEN_RULE, tag,
                     (PlumbRect){a.x, a.y, b.x - a.x, b.y - a.y});
}

static void draw_figure(const PlumbViews *views, const PlumbLifter *lifter, const PlumbSetup *setup,
                        const PlumbPosition *position, PlumbLook look)
{
    if (plumb_position_drawable(position) && sees_side(views)) {
        plumb_figure_side(&views->board, views->fit, lifter, setup, position, look);
    }
    if (plumb_position_drawable(position) && sees_front(views)) {
        plumb_figure_front(&views->board, views->fit, lifter, setup, position, look);
    }
}

/* The pencilled set-up and the wish: thin enough not to hide the inked figure. */
static void draw_others(const PlumbViews *views)
{
    const PlumbDrawing *drawing = views->board.drawing;
    const PlumbLifter *pencil_lifter =
        drawing->pencil_lifter != NULL ? drawing->pencil_lifter : drawing->lifter;
    const PlumbAnswer *other[2] = {drawing->pencil, drawing->wish};
    const PlumbLifter *lifter[2] = {pencil_lifter, drawing->lifter};
    const PlumbLook look[2] = {PLUMB_PENCILLED, PLUMB_WISHED};
    for (int i = 0; i < 2; i++) {
        if (other[i] != NULL && plumb_position_drawable(&other[i]->start)) {
            if (sees_side(views)) {
                plumb_bar_side(&views->board, views->fit, lifter[i], &other[i]->start, look[i]);
            }
            draw_figure(views, lifter[i], &other[i]->setup, &other[i]->start, look[i]);
        }
    }
}

static void draw_captions(const PlumbViews *views)
{
    const PlumbBoard *board = &views->board;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const PlumbRect side = views->fit->side;
    const PlumbRect front = views->fit->front;
    if (board->drawing->sight != PLUMB_SEE_BOTH) {
        return;
    }
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                     (PlumbVec2){side.x_mm + 1.0, side.y_mm + size}, size, PLUMB_START,
                     "from the side");
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                     (PlumbVec2){front.x_mm + front.width_mm - 1.0, front.y_mm + size}, size,
                     PLUMB_END, "from the front");
}

/* Why nothing holds, at the head of the side view. */
static void draw_failure(const PlumbViews *views)
{
    const PlumbBoard *board = &views->board;
    const PlumbAnswer *answer = board->drawing->answer;
    PlumbLabel label = {.tag = {PLUMB_TAG_FINDING, PLUMB_FIND_no_pose}};
    plumb_label_line(&label, board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, "no pose; not met:");
    plumb_label_line(&label, board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM,
                     plumb_constraint_text(answer->failed));
    plumb_label_line(&label, board, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM,
                     isfinite(answer->miss) ? "dashed: the nearest pose" : "dashed: a first guess");
    const PlumbRect side = sees_side(views) ? views->fit->side : views->fit->front;
    const double left = side.x_mm + 1.0;
    const double right = side.x_mm + side.width_mm - 4.0;
    const double top = side.y_mm + plumb_top_room_mm(board->drawing);
    const double row = views->ground_mm + plumb_dimension_row_mm(board->drawing, 0);
    const PlumbSpot spot[5] = {{{left, top}, PLUMB_START, 0.0},
                               {{right, top}, PLUMB_END, 0.0},
                               {{right, row}, PLUMB_END, 0.0},
                               {{left, row}, PLUMB_START, 0.0},
                               {{left, top + 12.0}, PLUMB_START, 0.0}};
    plumb_label_place(board, &label, spot, 5, side, -1, 100.0);
}

static void draw_middle_line(const PlumbViews *views)
{
    const PlumbPen pen = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    const double x = views->fit->front_origin_mm.x;
    plumb_scene_line(views->board.scene, pen, TAG_NONE, (PlumbVec2){x, views->top_mm},
                     (PlumbVec2){x, views->ground_mm});
}

/* Figures where the pose holds, else why it does not. */
static void draw_words(const PlumbViews *views, bool held)
{
    if (held && sees_side(views)) {
        plumb_draw_figures(views);
    } else if (sees_side(views)) {
        plumb_draw_balance(views);
    }
    if (held && sees_front(views)) {
        plumb_draw_front_figures(views);
    }
    if (!held) {
        draw_failure(views);
    }
}

void plumb_compose_views(PlumbScene *scene, const PlumbDrawing *drawing, PlumbFit *fit)
{
    if (drawing->press != NULL) {
        plumb_press_compose(scene, drawing, fit);
        return;
    }
    const PlumbAnswer *answer = drawing->answer;
    const double ground_m = plumb_ground_m(&answer->setup);
    const PlumbViews views = {
        {scene, drawing},
        fit,
        &answer->start,
        plumb_fit_side(fit, (PlumbVec3){0.0, ground_m, 0.0}).y,
        fmax(fit->side.y_mm + plumb_top_room_mm(drawing) - 1.0,
             plumb_fit_side(fit, (PlumbVec3){0.0, plumb_content_top_m(drawing), 0.0}).y - 6.0),
    };
    fit->arm[0] = drawing->selected;
    draw_captions(&views);
    if (sees_side(&views)) {
        plumb_mark_ground(&views.board, fit->side.x_mm + 1.0, views.ground_mm,
                          fit->side.width_mm - (sees_front(&views) ? 4.0 : 2.0));
    }
    if (sees_front(&views)) {
        plumb_mark_ground(&views.board, fit->front.x_mm + 1.0, views.ground_mm,
                          fit->front.width_mm - 2.0);
    }
    if (!plumb_position_drawable(views.at)) {
        draw_failure(&views);
        return;
    }
    draw_supports(&views);
    if (sees_front(&views)) {
        draw_middle_line(&views);
    }
    const bool held = answer->outcome != PLUMB_NO_POSE;
    const PlumbLook look = held ? PLUMB_INKED : PLUMB_WISHED;
    draw_figure(&views, drawing->lifter, &answer->setup, views.at, look);
    draw_others(&views);
    if (sees_side(&views)) {
        plumb_bar_side(&views.board, fit, drawing->lifter, views.at, look);
        plumb_draw_plumb_lines(&views);
    }
    draw_words(&views, held);
    fit->decided = fit->decided || held;
}
