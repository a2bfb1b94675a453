/* SPDX-License-Identifier: MIT */
/* Marks on the views of a press: the bar's plumb line, dimension lines, the upper arm's angle. */
#include "scene/mark.h"
#include "scene/press.h"

#include <math.h>

static double em_of(const PlumbPressViews *views)
{
    return plumb_board_size(&views->board, PLUMB_SMALL_TEXT_MM);
}

/* Paper y of the dimension row 0 or 1 below the bench. */
static double row_mm(const PlumbPressViews *views, int row)
{
    return views->fit->press.bench_mm + (1.3 + 1.9 * row) * em_of(views);
}

static void caption(const PlumbPressViews *views, PlumbLabel *label, const char *before,
                    double value_si, PlumbQuantity quantity)
{
    char line[PLUMB_LABEL_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, before);
    plumb_text_quantity(&text, value_si, quantity, views->board.drawing->units);
    plumb_label_line(label, &views->board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, line);
}

static void draw_captions(const PlumbPressViews *views)
{
    const char *const words[PLUMB_PRESS_VIEW_COUNT] = {
        "from the side", "from the head end",
        views->board.drawing->half_above ? "from above, right half" : "from above"};
    const double em = em_of(views);
    const PlumbSight sight = views->board.drawing->sight;
    if (sight != PLUMB_SEE_BOTH && sight != PLUMB_SEE_LEVEL) {
        return;
    }
    for (int i = 0; i < PLUMB_PRESS_VIEW_COUNT; i++) {
        const PlumbRect room = views->fit->press.room[i];
        if (!plumb_press_sees(views->board.drawing, (PlumbPressView)i)) {
            continue;
        }
        plumb_board_text(&views->board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){room.x_mm + 1.0, room.y_mm + em}, em, PLUMB_START, words[i]);
    }
}

/* B through the bar's centre, lettered at the top, down to the dimension rows. */
static void draw_plumb_line(const PlumbPressViews *views)
{
    const double em = em_of(views);
    const PlumbRect room = views->fit->press.room[PLUMB_PRESS_SIDE];
    const PlumbTag tag = {PLUMB_TAG_POINT, PLUMB_PT_bar};
    const PlumbVec2 bar = plumb_press_paper(
        views, PLUMB_PRESS_SIDE, views->board.drawing->press->touch.point[PLUMB_PRESS_bar]);
    const PlumbPen pen = {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    const double top = room.y_mm + 2.7 * em;
    plumb_scene_line(views->board.scene, pen, tag, (PlumbVec2){bar.x, top},
                     (PlumbVec2){bar.x, row_mm(views, 1) + 1.0});
    plumb_board_text(&views->board, PLUMB_ROLE_ink, tag, (PlumbVec2){bar.x, top - 0.3 * em}, em,
                     PLUMB_MIDDLE, "B");
}

/* Upright dimension from the touch to the lockout's ghost, wherever between them the bar is drawn.
 */
static void draw_travel(const PlumbPressViews *views)
{
    const PlumbPressAnswer *answer = views->board.drawing->press;
    const PlumbTag tag = {PLUMB_TAG_FIGURE, PLUMB_FIG_TRAVEL};
    const PlumbRect room = views->fit->press.room[PLUMB_PRESS_SIDE];
    const PlumbVec3 top = answer->lockout.point[PLUMB_PRESS_bar];
    const PlumbVec2 from = plumb_press_paper(
        views, PLUMB_PRESS_SIDE, (PlumbVec3){answer->setup.touch_m, top.y - answer->travel_m, 0.0});
    const PlumbVec2 to =
        plumb_press_paper(views, PLUMB_PRESS_SIDE, answer->lockout.point[PLUMB_PRESS_bar]);
    const double x = room.x_mm + room.width_mm - 6.6 * em_of(views);
    const PlumbPen ghost = {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    plumb_scene_circle(views->board.scene, ghost, tag, to, 1.2);
    plumb_scene_line(views->board.scene, PEN_RULE, TAG_NONE, (PlumbVec2){from.x + 2.0, from.y},
                     (PlumbVec2){x + 1.2, from.y});
    plumb_scene_line(views->board.scene, PEN_RULE, TAG_NONE, (PlumbVec2){to.x + 1.2, to.y},
                     (PlumbVec2){x + 1.2, to.y});
    plumb_mark_dimension(&views->board, PEN_FINE, tag, (PlumbVec2){x, from.y},
                         (PlumbVec2){x, to.y});
    PlumbLabel label = {.tag = tag};
    plumb_label_line(&label, &views->board, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM, "bar travel");
    caption(views, &label, "", answer->travel_m, PLUMB_Q_LENGTH);
    const double y = 0.5 * (from.y + to.y);
    const PlumbSpot spot[2] = {{{x + 1.6, y}, PLUMB_START, 0.5},
                               {{x + 1.6, to.y}, PLUMB_START, 0.0}};
    plumb_label_place(&views->board, &label, spot, 2, room, -1, 100.0);
}

/* The bar's way from touch to lockout, dotted. */
static void draw_way(const PlumbPressViews *views)
{
    enum { STEPS = 24 };
    const PlumbPen pen = {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_DOTTED, PLUMB_ROLE_none};
    PlumbVec2 way[STEPS + 1];
    for (int i = 0; i <= STEPS; i++) {
        PlumbPressPosition at;
        plumb_press_at(views->board.drawing->lifter, views->board.drawing->press, (double)i / STEPS,
                       &at);
        way[i] = plumb_press_paper(views, PLUMB_PRESS_SIDE, at.point[PLUMB_PRESS_bar]);
    }
    plumb_scene_path(views->board.scene, pen, (PlumbTag){PLUMB_TAG_POINT, PLUMB_PT_bar}, way,
                     STEPS + 1, false);
}

/* Level dimension between two points of a view in a row below the bench, ends led down to it. */
static void draw_level(const PlumbPressViews *views, PlumbPressView view, PlumbVec3 a_m,
                       PlumbVec3 b_m, int row, const char *name, double value_m, PlumbTag tag)
{
    const double y = row_mm(views, row);
    const PlumbVec2 a = plumb_press_paper(views, view, a_m);
    const PlumbVec2 b = plumb_press_paper(views, view, b_m);
    const double left = fmin(a.x, b.x);
    const double right = fmax(a.x, b.x);
    PlumbLabel label = {.tag = tag};
    caption(views, &label, name, value_m, PLUMB_Q_LENGTH);
    const double width =
        plumb_board_width(&views->board, label.line[0].text, label.line[0].size_mm);
    const bool inside = right - left >= plumb_mark_dimension_room(width);
    const double out = right - left < 6.0 ? 5.6 : 1.6;
    const PlumbSpot spot[3] = {{{0.5 * (left + right), y}, PLUMB_MIDDLE, 0.52},
                               {{right + out, y}, PLUMB_START, 0.52},
                               {{left - out, y}, PLUMB_END, 0.52}};
    const int from = inside ? 0 : 1;
    const int set = plumb_label_place(&views->board, &label, spot + from, 3 - from,
                                      views->fit->press.room[view], -1, 100.0);
    if (set < 0) {
        return;
    }
    plumb_scene_line(views->board.scene, PEN_RULE, TAG_NONE, (PlumbVec2){a.x, a.y + 1.2},
                     (PlumbVec2){a.x, y + 1.0});
    plumb_scene_line(views->board.scene, PEN_RULE, TAG_NONE, (PlumbVec2){b.x, b.y + 1.2},
                     (PlumbVec2){b.x, y + 1.0});
    plumb_mark_dimension_gap(&views->board, PEN_FINE, tag, (PlumbVec2){left, y},
                             (PlumbVec2){right, y}, inside && set == 0 ? width + 2.0 : 0.0);
}

/* The arm that belongs to a moment. */
static PlumbTag arm_tag(PlumbPressJoint joint)
{
    return (PlumbTag){PLUMB_TAG_ARM, (int)joint};
}

static void draw_side_arm(const PlumbPressViews *views)
{
    const PlumbPressPosition *touch = &views->board.drawing->press->touch;
    draw_level(views, PLUMB_PRESS_SIDE, touch->point[PLUMB_PRESS_shoulder],
               touch->point[PLUMB_PRESS_grip], 0, "arm ",
               touch->bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal],
               arm_tag(PLUMB_PRESS_JOINT_shoulder_flexion));
}

static void draw_head_arms(const PlumbPressViews *views)
{
    const PlumbPressPosition *touch = &views->board.drawing->press->touch;
    const PlumbVec3 grip = touch->point[PLUMB_PRESS_grip];
    const double z = 0.5 * views->board.drawing->press->setup.grip_m;
    draw_level(views, PLUMB_PRESS_HEAD, touch->point[PLUMB_PRESS_shoulder], grip, 0, "arm ",
               touch->bar_arm_m[PLUMB_PRESS_ARM_shoulder_frontal],
               arm_tag(PLUMB_PRESS_JOINT_shoulder_adduction));
    /* On the other arm, how far the elbow is off the hand: what bends it. */
    const PlumbVec3 elbow = touch->point[PLUMB_PRESS_elbow];
    draw_level(views, PLUMB_PRESS_HEAD, (PlumbVec3){elbow.x, elbow.y, -elbow.z},
               (PlumbVec3){grip.x, grip.y, -grip.z}, 0,
               touch->elbow_off_hand_m < 0.0 ? "elbow in " : "elbow out ",
               fabs(touch->elbow_off_hand_m), arm_tag(PLUMB_PRESS_JOINT_elbow_extension));
    draw_level(views, PLUMB_PRESS_HEAD, (PlumbVec3){grip.x, grip.y, -z},
               (PlumbVec3){grip.x, grip.y, z}, 1, "grip ", 2.0 * z,
               (PlumbTag){PLUMB_TAG_SETTING, PLUMB_SET_grip});
}

/* The middle line of a half view. */
static void draw_middle(const PlumbPressViews *views)
{
    const PlumbPen pen = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    const PlumbRect room = views->fit->press.room[PLUMB_PRESS_SIDE];
    const double y = views->fit->press.origin_mm[PLUMB_PRESS_ABOVE].y;
    const double right = room.x_mm + room.width_mm - 7.5 * em_of(views);
    plumb_scene_line(views->board.scene, pen, TAG_NONE, (PlumbVec2){room.x_mm + 1.0, y},
                     (PlumbVec2){right, y});
}

/* The upper arm from the trunk's line, seen from above; in space, as the table has it. */
static void draw_abduction(const PlumbPressViews *views)
{
    const PlumbPressPosition *touch = &views->board.drawing->press->touch;
    const PlumbVec2 apex =
        plumb_press_paper(views, PLUMB_PRESS_ABOVE, touch->point[PLUMB_PRESS_shoulder]);
    const PlumbVec2 far =
        plumb_press_paper(views, PLUMB_PRESS_ABOVE, touch->point[PLUMB_PRESS_elbow]);
    const double length = hypot(far.x - apex.x, far.y - apex.y);
    const double line = atan2(far.y - apex.y, far.x - apex.x);
    const double radius = fmin(0.7 * length, 16.0);
    const PlumbTag tag = {PLUMB_TAG_POINT, PLUMB_PT_elbow};
    plumb_scene_line(views->board.scene, PEN_REFERENCE, tag, apex,
                     (PlumbVec2){apex.x + radius + 2.0, apex.y});
    plumb_scene_arc(views->board.scene, PEN_FINE, tag, apex, radius, fmin(0.0, line),
                    fmax(0.0, line));
    PlumbLabel label = {.tag = tag};
    caption(views, &label, "upper arm ", touch->angle_rad[PLUMB_PRESS_ANG_abduction],
            PLUMB_Q_ANGLE);
    plumb_label_line(&label, &views->board, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM,
                     "from the trunk, in space");
    const double x = apex.x + radius + 3.0;
    const PlumbSpot spot[4] = {{{x, apex.y + 0.5 * radius}, PLUMB_START, 0.0},
                               {{x + 6.0, apex.y + radius}, PLUMB_START, 0.0},
                               {{x, apex.y + 1.6 * radius}, PLUMB_START, 0.0},
                               {{apex.x - 4.0, apex.y + radius}, PLUMB_END, 0.0}};
    plumb_label_place(&views->board, &label, spot, 4, views->fit->press.room[PLUMB_PRESS_ABOVE], -1,
                      100.0);
}

static void draw_failure(const PlumbPressViews *views)
{
    const PlumbRect room = views->fit->press.room[PLUMB_PRESS_SIDE];
    PlumbLabel label = {.tag = {PLUMB_TAG_FINDING, PLUMB_FIND_press_no_pose}};
    plumb_label_line(&label, &views->board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM,
                     views->board.drawing->press->at_lockout
                         ? "no pose: the lockout is out of reach"
                         : "no pose: the touch is out of reach");
    caption(views, &label, "missed by ", views->board.drawing->press->miss_m, PLUMB_Q_LENGTH);
    const PlumbSpot spot[2] = {
        {{room.x_mm + 1.0, room.y_mm + 2.0 * em_of(views)}, PLUMB_START, 0.0},
        {{room.x_mm + room.width_mm - 1.0, room.y_mm + 2.0 * em_of(views)}, PLUMB_END, 0.0}};
    plumb_label_place(&views->board, &label, spot, 2, room, -1, 100.0);
}

void plumb_press_marks(const PlumbPressViews *views)
{
    const PlumbDrawing *drawing = views->board.drawing;
    const bool side = plumb_press_sees(drawing, PLUMB_PRESS_SIDE);
    draw_captions(views);
    if (drawing->half_above && plumb_press_sees(drawing, PLUMB_PRESS_ABOVE)) {
        draw_middle(views);
    }
    if (side) {
        draw_plumb_line(views);
    }
    if (drawing->press->outcome == PLUMB_NO_POSE) {
        if (side) {
            draw_failure(views);
        }
        return;
    }
    if (side) {
        draw_way(views);
        draw_side_arm(views);
    }
    if (plumb_press_sees(drawing, PLUMB_PRESS_HEAD)) {
        draw_head_arms(views);
    }
    if (side) {
        draw_travel(views);
    }
    if (plumb_press_sees(drawing, PLUMB_PRESS_ABOVE)) {
        draw_abduction(views);
    }
}
