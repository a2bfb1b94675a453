/* SPDX-License-Identifier: MIT */
/* Dimension lines of the views: bar travel, hip height, moment arms, stance and grip. */
#include "scene/figures.h"

#include "scene/mark.h"

#include <math.h>

void plumb_caption(const PlumbViews *views, PlumbLabel *label, double size_mm, const char *before,
                   double value_si, PlumbQuantity quantity)
{
    char line[PLUMB_LABEL_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, before);
    plumb_text_quantity(&text, value_si, quantity, views->board.drawing->units);
    plumb_label_line(label, &views->board, PLUMB_ROLE_ink, size_mm, line);
}

int plumb_place_figure(const PlumbViews *views, PlumbFigure figure, const PlumbLabel *label,
                       const PlumbSpot *spot, int count, PlumbRect bounds, double limit)
{
    PlumbFit *fit = views->fit;
    if (fit->decided && fit->place[figure] < 0) {
        return -1;
    }
    const int at = plumb_label_place(&views->board, label, spot, count, bounds,
                                     fit->decided ? fit->place[figure] : -1, limit);
    if (!fit->decided) {
        fit->place[figure] = (signed char)at;
    }
    return at;
}

static void extension(const PlumbViews *views, PlumbVec2 from, PlumbVec2 to)
{
    plumb_scene_line(views->board.scene, PEN_RULE, TAG_NONE, from, to);
}

/* Without room beside the view: the figure stands at the ghost, without its dimension line. */
static void draw_travel_alone(const PlumbViews *views, PlumbVec2 ghost)
{
    PlumbLabel label = {.tag = {PLUMB_TAG_FIGURE, PLUMB_FIG_TRAVEL}};
    plumb_caption(views, &label, PLUMB_SMALL_TEXT_MM, "bar travel ",
                  views->board.drawing->answer->travel_m, PLUMB_Q_LENGTH);
    const PlumbSpot spot[3] = {{{ghost.x + 3.0, ghost.y}, PLUMB_START, 0.5},
                               {{ghost.x - 3.0, ghost.y}, PLUMB_END, 0.5},
                               {{ghost.x + 3.0, ghost.y - 3.0}, PLUMB_START, 1.0}};
    plumb_place_figure(views, PLUMB_FIG_TRAVEL, &label, spot, 3, views->fit->side, 1.0);
}

/* Upright dimension of the whole travel, wherever along it the bar is drawn, with the end's ghost.
 */
static void draw_travel(const PlumbViews *views)
{
    const PlumbDrawing *drawing = views->board.drawing;
    const PlumbAnswer *answer = drawing->answer;
    if (!answer->end_held || !isfinite(answer->travel_m)) {
        return;
    }
    const PlumbTag tag = {PLUMB_TAG_FIGURE, PLUMB_FIG_TRAVEL};
    const double mm = 1000.0 / views->fit->scale_n;
    const double shaft = 0.5 * drawing->lifter->equipment.shaft_diameter_m * mm;
    const PlumbVec3 top = answer->end.point[PLUMB_PT_bar];
    const PlumbVec2 to = plumb_fit_side(views->fit, top);
    const PlumbVec2 from = plumb_fit_side(
        views->fit, (PlumbVec3){views->at->point[PLUMB_PT_bar].x, top.y - answer->travel_m, 0.0});
    const PlumbPen ghost = {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    plumb_scene_circle(views->board.scene, ghost, tag, to, fmax(shaft, 1.0));
    const PlumbRect side = views->fit->side;
    if (drawing->sight != PLUMB_SEE_BOTH) {
        draw_travel_alone(views, to);
        return;
    }
    const double x = side.x_mm + side.width_mm - plumb_right_room_mm(drawing) + 3.0;
    extension(views, (PlumbVec2){from.x + shaft + 1.0, from.y}, (PlumbVec2){x + 1.2, from.y});
    extension(views, (PlumbVec2){to.x + fmax(shaft, 1.0), to.y}, (PlumbVec2){x + 1.2, to.y});
    plumb_mark_dimension(&views->board, PEN_FINE, tag, (PlumbVec2){x, from.y},
                         (PlumbVec2){x, to.y});
    PlumbLabel label = {.tag = tag};
    plumb_label_line(&label, &views->board, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM, "bar travel");
    plumb_caption(views, &label, PLUMB_NORMAL_TEXT_MM, "", answer->travel_m, PLUMB_Q_LENGTH);
    const double y = 0.5 * (from.y + to.y);
    const PlumbSpot spot[3] = {{{x + 1.6, y}, PLUMB_START, 0.5},
                               {{x + 1.6, to.y}, PLUMB_START, 0.0},
                               {{x + 1.6, from.y}, PLUMB_START, 1.0}};
    plumb_place_figure(views, PLUMB_FIG_TRAVEL, &label, spot, 3, side, 8.0);
}

/* Level dimension of one moment arm in its row below the floor, with both ends led down to it. */
static void draw_arm(const PlumbViews *views, PlumbFigure figure, int row, PlumbJoint joint)
{
    static const PlumbPoint POINT[PLUMB_JOINT_COUNT] = {
        [PLUMB_JOINT_ankle] = PLUMB_PT_ankle,       [PLUMB_JOINT_knee] = PLUMB_PT_knee,
        [PLUMB_JOINT_hip] = PLUMB_PT_hip,           [PLUMB_JOINT_back] = PLUMB_PT_lumbar,
        [PLUMB_JOINT_shoulder] = PLUMB_PT_shoulder,
    };
    const PlumbDrawing *drawing = views->board.drawing;
    const PlumbTag tag = {PLUMB_TAG_ARM, (int)joint};
    const PlumbVec2 at = plumb_fit_side(views->fit, views->at->point[POINT[joint]]);
    const PlumbVec2 bar = plumb_fit_side(views->fit, views->at->point[PLUMB_PT_bar]);
    const double y = views->ground_mm + plumb_dimension_row_mm(drawing, row);
    const bool first = figure == PLUMB_FIG_ARM_SELECTED;
    char words[PLUMB_LABEL_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, plumb_joint_name(joint));
    plumb_text_string(&text, first ? " arm " : " ");
    plumb_text_quantity(&text, views->at->bar_arm_m[joint], PLUMB_Q_LENGTH, drawing->units);
    PlumbLabel label = {.tag = tag};
    plumb_label_line(&label, &views->board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, words);
    const double width = plumb_board_width(&views->board, words, label.line[0].size_mm);
    const double length = fabs(bar.x - at.x);
    const double left = fmin(bar.x, at.x);
    const double right = fmax(bar.x, at.x);
    const double out = length < 6.0 ? 5.6 : 1.6;
    const bool inside = length >= plumb_mark_dimension_room(width);
    const PlumbSpot spot[3] = {{{0.5 * (left + right), y}, PLUMB_MIDDLE, 0.52},
                               {{left - out, y}, PLUMB_END, 0.52},
                               {{right + out, y}, PLUMB_START, 0.52}};
    const int from = inside ? 0 : 1;
    const int set =
        plumb_place_figure(views, figure, &label, spot + from, 3 - from, views->fit->side, 8.0);
    if (set < 0) {
        return;
    }
    const double gap = inside && set == 0 ? width + 2.0 : 0.0;
    extension(views, (PlumbVec2){at.x, at.y + 1.2}, (PlumbVec2){at.x, y + 1.0});
    const PlumbPen pen =
        first ? (PlumbPen){PLUMB_ROLE_ink, 1.6 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none}
              : PEN_FINE;
    plumb_mark_dimension_gap(&views->board, pen, tag, (PlumbVec2){left, y}, (PlumbVec2){right, y},
                             gap);
}

enum { STEPS = 5 };

/* Spots along a row, ever further from x_mm to one side. */
static void spots_along(PlumbSpot spot[STEPS], double x_mm, double y_mm, double sign)
{
    for (int i = 0; i < STEPS; i++) {
        spot[i].at_mm = (PlumbVec2){x_mm + sign * (1.6 + 2.0 * i), y_mm};
        spot[i].align = sign > 0.0 ? PLUMB_START : PLUMB_END;
        spot[i].rise = 0.52;
    }
}

/* A word at one end of the foot's scale; returns the x of its far end. */
static double foot_word(const PlumbViews *views, const char *word, PlumbPoint point, double y_mm,
                        double sign)
{
    PlumbLabel label = {.tag = {PLUMB_TAG_SETTING, PLUMB_SET_balance}};
    plumb_label_line(&label, &views->board, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM, word);
    const double x = plumb_fit_side(views->fit, views->at->point[point]).x;
    PlumbSpot spot[STEPS];
    spots_along(spot, x, y_mm, sign);
    const int set =
        plumb_label_place(&views->board, &label, spot, STEPS, views->fit->side, -1, 8.0);
    const double width = plumb_board_width(&views->board, word, label.line[0].size_mm);
    return set < 0 ? x : spot[set].at_mm.x + sign * width;
}

void plumb_draw_balance(const PlumbViews *views)
{
    const PlumbDrawing *drawing = views->board.drawing;
    const double y = views->ground_mm + plumb_foot_row_mm(drawing);
    const double left = foot_word(views, "heel", PLUMB_PT_heel, y, -1.0);
    const double right = foot_word(views, "toe", PLUMB_PT_toe, y, 1.0);
    PlumbLabel label = {.tag = {PLUMB_TAG_SETTING, PLUMB_SET_balance}};
    plumb_caption(views, &label, PLUMB_SMALL_TEXT_MM, "balance ", views->at->balance_frac,
                  PLUMB_Q_FRACTION);
    PlumbSpot spot[2 * STEPS];
    spots_along(spot, right + 2.0, y, 1.0);
    spots_along(spot + STEPS, left - 2.0, y, -1.0);
    plumb_place_figure(views, PLUMB_FIG_BALANCE, &label, spot, 2 * STEPS, views->fit->side, 8.0);
}

/* Upright dimension of the hip's height, with what can be seen of it. */
static void draw_hip_height(const PlumbViews *views)
{
    const PlumbDrawing *drawing = views->board.drawing;
    const PlumbTag tag = {PLUMB_TAG_FIGURE, PLUMB_FIG_HIP_HEIGHT};
    const PlumbVec3 hip = views->at->point[PLUMB_PT_hip];
    const PlumbVec2 top = plumb_fit_side(views->fit, hip);
    const PlumbVec2 floor = plumb_fit_side(views->fit, (PlumbVec3){hip.x, 0.0, 0.0});
    const double x = views->fit->side.x_mm + plumb_left_room_mm(drawing) - 3.0;
    const double crease = plumb_crease_above_knee_m(&drawing->lifter->body, views->at);
    PlumbLabel label = {.tag = tag};
    plumb_label_line(&label, &views->board, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM, "hip height");
    plumb_caption(views, &label, PLUMB_NORMAL_TEXT_MM, "", hip.y, PLUMB_Q_LENGTH);
    plumb_caption(views, &label, PLUMB_SMALL_TEXT_MM, "crease ", fabs(crease), PLUMB_Q_LENGTH);
    plumb_label_line(&label, &views->board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM,
                     crease >= 0.0 ? "above the knee" : "below the knee");
    const double y = 0.5 * (top.y + floor.y);
    const PlumbSpot spot[3] = {{{x - 1.6, y}, PLUMB_END, 0.5},
                               {{x - 1.6, top.y}, PLUMB_END, 0.0},
                               {{x - 1.6, top.y}, PLUMB_END, 1.0}};
    if (plumb_place_figure(views, PLUMB_FIG_HIP_HEIGHT, &label, spot, 3, views->fit->side, 8.0) >=
        0) {
        extension(views, (PlumbVec2){top.x - 1.2, top.y}, (PlumbVec2){x - 1.2, top.y});
        plumb_mark_dimension(&views->board, PEN_FINE, tag,
                             top.y < floor.y ? (PlumbVec2){x, top.y} : (PlumbVec2){x, floor.y},
                             (PlumbVec2){x, floor.y});
    }
}

void plumb_draw_figures(const PlumbViews *views)
{
    const PlumbJoint *arm = views->fit->arm;
    draw_travel(views);
    draw_arm(views, PLUMB_FIG_ARM_SELECTED, 0, arm[0]);
    const bool beside = views->board.drawing->sight == PLUMB_SEE_BOTH;
    if (beside) {
        /* These two have rows of their own and take no room from what goes before them. */
        draw_arm(views, PLUMB_FIG_ARM_SECOND, 1, arm[1]);
        draw_arm(views, PLUMB_FIG_ARM_THIRD, 2, arm[2]);
    }
    plumb_draw_balance(views);
    plumb_draw_angle(views, PLUMB_FIG_BACK_ANGLE);
    if (beside) {
        draw_hip_height(views);
    }
    plumb_draw_angle(views, PLUMB_FIG_SHIN_ANGLE);
    plumb_draw_angle(views, PLUMB_FIG_THIGH_ANGLE);
}

/* Name and width of a spread: on one line where the dimension holds it, else on two. */
static double spread_label(const PlumbViews *views, PlumbLabel *label, PlumbSettingId id,
                           double spread_m, double length_mm)
{
    const PlumbUnits units = views->board.drawing->units;
    const double size = plumb_board_size(&views->board, PLUMB_SMALL_TEXT_MM);
    char words[PLUMB_LABEL_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, plumb_setting(id)->key);
    plumb_text_char(&text, ' ');
    plumb_text_quantity(&text, spread_m, PLUMB_Q_LENGTH, units);
    const double width = plumb_board_width(&views->board, words, size);
    if (length_mm >= plumb_mark_dimension_room(width)) {
        plumb_label_line(label, &views->board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, words);
        return width + 2.0;
    }
    plumb_label_line(label, &views->board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM,
                     plumb_setting(id)->key);
    plumb_caption(views, label, PLUMB_SMALL_TEXT_MM, "", spread_m, PLUMB_Q_LENGTH);
    return 0.0;
}

/* A level dimension between both sides' points, in a row below the front view; false where its
 * label finds no room there. */
static bool draw_spread(const PlumbViews *views, PlumbSettingId id, PlumbVec3 point_m, int row)
{
    const PlumbTag tag = {PLUMB_TAG_SETTING, (int)id};
    const PlumbVec2 left = plumb_fit_front(views->fit, point_m);
    const PlumbVec2 right =
        plumb_fit_front(views->fit, (PlumbVec3){point_m.x, point_m.y, -point_m.z});
    const double y = views->ground_mm + plumb_dimension_row_mm(views->board.drawing, row);
    PlumbLabel label = {.tag = tag};
    const double gap = spread_label(views, &label, id, 2.0 * point_m.z, right.x - left.x);
    const PlumbSpot spot = {{0.5 * (left.x + right.x), y}, PLUMB_MIDDLE, gap > 0.0 ? 0.52 : 0.5};
    if (plumb_label_place(&views->board, &label, &spot, 1, views->fit->front, -1, 8.0) < 0) {
        return false;
    }
    extension(views, (PlumbVec2){left.x, left.y + 1.2}, (PlumbVec2){left.x, y + 1.0});
    extension(views, (PlumbVec2){right.x, right.y + 1.2}, (PlumbVec2){right.x, y + 1.0});
    plumb_mark_dimension_gap(&views->board, PEN_FINE, tag, (PlumbVec2){left.x, y},
                             (PlumbVec2){right.x, y}, gap);
    return true;
}

void plumb_draw_front_figures(const PlumbViews *views)
{
    const PlumbVec3 ankle = views->at->point[PLUMB_PT_ankle];
    PlumbVec3 finger = views->at->point[PLUMB_PT_grip];
    finger.z = 0.5 * views->board.drawing->answer->setup.grip_m;
    const bool stance_first = ankle.z <= finger.z;
    /* The narrower one stands nearer, so that no dimension line is crossed. */
    const PlumbSettingId id[2] = {stance_first ? PLUMB_SET_stance : PLUMB_SET_grip,
                                  stance_first ? PLUMB_SET_grip : PLUMB_SET_stance};
    const PlumbVec3 point_m[2] = {stance_first ? ankle : finger, stance_first ? finger : ankle};
    draw_spread(views, id[0], point_m[0], 0);
    if (!draw_spread(views, id[1], point_m[1], 1)) {
        draw_spread(views, id[1], point_m[1], 2);
    }
}
