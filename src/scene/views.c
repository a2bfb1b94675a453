/* SPDX-License-Identifier: MIT */
/* The two views: pencil first, then the inked figure, plumb lines, floor and figures. */
#include "scene/views.h"

#include "scene/mark.h"

#include <math.h>

/* What carries lifter or discs above the ground: the lifter's platform, or blocks. */
static void draw_supports(const PlumbViews *views)
{
    const PlumbSetup *setup = &views->board.drawing->answer->setup;
    if (setup->lift != PLUMB_DEADLIFT) {
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
    if (plumb_position_drawable(position)) {
        plumb_figure_side(&views->board, views->fit, lifter, setup, position, look);
        plumb_figure_front(&views->board, views->fit, lifter, setup, position, look);
    }
}

static void draw_captions(const PlumbViews *views)
{
    const PlumbBoard *board = &views->board;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const PlumbRect side = views->fit->side;
    const PlumbRect front = views->fit->front;
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
    char words[160];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, "no pose: ");
    plumb_text_string(&text, plumb_constraint_text(answer->failed));
    plumb_text_string(&text, "; nearest pose dashed");
    PlumbLabel label = {.tag = {PLUMB_TAG_FINDING, PLUMB_FIND_no_pose}};
    plumb_label_line(&label, board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, words);
    const PlumbRect side = views->fit->side;
    const double top = side.y_mm + plumb_top_room_mm(board->drawing);
    const PlumbSpot spot[3] = {{{side.x_mm + 1.0, top}, PLUMB_START, 0.0},
                               {{side.x_mm + 1.0, top + 5.0}, PLUMB_START, 0.0},
                               {{side.x_mm + 1.0, top + 10.0}, PLUMB_START, 0.0}};
    plumb_label_place(board, &label, spot, 3, side, -1, 100.0);
}

static void draw_middle_line(const PlumbViews *views)
{
    const PlumbPen pen = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    const double x = views->fit->front_origin_mm.x;
    const double top = views->fit->side.y_mm + plumb_top_room_mm(views->board.drawing);
    plumb_scene_line(views->board.scene, pen, TAG_NONE, (PlumbVec2){x, top},
                     (PlumbVec2){x, views->ground_mm});
}

void plumb_compose_views(PlumbScene *scene, const PlumbDrawing *drawing, PlumbFit *fit)
{
    const PlumbAnswer *answer = drawing->answer;
    const double ground_m = plumb_ground_m(&answer->setup);
    const PlumbViews views = {
        {scene, drawing},
        fit,
        &answer->start,
        plumb_fit_side(fit, (PlumbVec3){0.0, ground_m, 0.0}).y,
    };
    fit->arm[0] = drawing->selected;
    draw_captions(&views);
    plumb_mark_ground(&views.board, fit->side.x_mm + 1.0, views.ground_mm,
                      fit->side.width_mm - 4.0);
    plumb_mark_ground(&views.board, fit->front.x_mm + 1.0, views.ground_mm,
                      fit->front.width_mm - 2.0);
    if (!plumb_position_drawable(views.at)) {
        draw_failure(&views);
        return;
    }
    draw_supports(&views);
    draw_middle_line(&views);
    const bool held = answer->outcome != PLUMB_NO_POSE;
    draw_figure(&views, drawing->lifter, &answer->setup, views.at,
                held ? PLUMB_INKED : PLUMB_WISHED);
    if (drawing->pencil != NULL) {
        draw_figure(&views,
                    drawing->pencil_lifter != NULL ? drawing->pencil_lifter : drawing->lifter,
                    &drawing->pencil->setup, &drawing->pencil->start, PLUMB_PENCILLED);
    }
    if (drawing->wish != NULL) {
        draw_figure(&views, drawing->lifter, &drawing->wish->setup, &drawing->wish->start,
                    PLUMB_WISHED);
    }
    plumb_draw_plumb_lines(&views);
    if (held) {
        plumb_draw_figures(&views);
        plumb_draw_front_figures(&views);
        fit->decided = true;
    } else {
        draw_failure(&views);
    }
}
