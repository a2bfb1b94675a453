/* SPDX-License-Identifier: MIT */
/* Marks of mechanics: forces, moments, joints, levers. */
#include "scene/forces.h"

#include "scene/mark.h"

#include <math.h>
#include <stddef.h>

static const double ARROW_LEAST_MM = 5.0;
static const double TURN_MM = 7.0; /* radius of a moment's arc */

PlumbVec2 plumb_stage_paper(const PlumbStage *stage, PlumbVec3 point_m)
{
    return stage->front ? plumb_fit_front(&stage->fit, point_m)
                        : plumb_fit_side(&stage->fit, point_m);
}

/* A line with a filled head at its tip. */
void plumb_force_arrow(const PlumbStage *stage, PlumbRole role, PlumbVec2 tail, PlumbVec2 tip)
{
    const double length = hypot(tip.x - tail.x, tip.y - tail.y);
    const double dx = (tip.x - tail.x) / length;
    const double dy = (tip.y - tail.y) / length;
    const double head = 2.4;
    const double half = 0.8;
    const PlumbVec2 base = {tip.x - head * dx, tip.y - head * dy};
    const PlumbVec2 triangle[3] = {
        tip, {base.x - half * dy, base.y + half * dx}, {base.x + half * dy, base.y - half * dx}};
    plumb_scene_line(stage->board.scene,
                     (PlumbPen){role, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none}, TAG_NONE,
                     tail, base);
    plumb_scene_path(stage->board.scene, (PlumbPen){.fill = role}, TAG_NONE, triangle, 3, true);
}

/* A short word beside an arrow, where there is room. */
void plumb_force_word(const PlumbStage *stage, PlumbVec2 tail, PlumbVec2 tip, const char *words)
{
    PlumbLabel label = {.tag = TAG_NONE};
    plumb_label_line(&label, &stage->board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, words);
    const double down = tip.y > tail.y ? 1.0 : -1.0;
    const PlumbVec2 middle = {0.5 * (tail.x + tip.x), 0.5 * (tail.y + tip.y)};
    const PlumbSpot spot[] = {
        {{tip.x, tip.y + 0.6 * down}, PLUMB_MIDDLE, down > 0.0 ? 0.0 : 1.0},
        {{tip.x + 1.2, tip.y}, PLUMB_START, 0.5},
        {{tip.x - 1.2, tip.y}, PLUMB_END, 0.5},
        {{middle.x + 1.0, middle.y}, PLUMB_START, 0.5},
        {{middle.x - 1.0, middle.y}, PLUMB_END, 0.5},
        {{tail.x + 1.4, tail.y}, PLUMB_START, 1.0},
        {{tail.x - 1.4, tail.y}, PLUMB_END, 1.0},
        {{tip.x, tip.y + 4.0 * down}, PLUMB_MIDDLE, down > 0.0 ? 0.0 : 1.0},
        {{tip.x + 4.0, tip.y + 2.0 * down}, PLUMB_START, 0.5},
        {{tip.x - 4.0, tip.y + 2.0 * down}, PLUMB_END, 0.5},
    };
    const int count = sizeof spot / sizeof spot[0];
    /* Above the floor, where the levers' numbers do not stand; else wherever there is room. */
    PlumbRect above = stage->rect;
    above.height_mm = stage->fit.side_origin_mm.y - above.y_mm;
    if (plumb_label_place(&stage->board, &label, spot, count, above, -1, 60.0) < 0) {
        plumb_label_place(&stage->board, &label, spot, count, stage->rect, -1, 60.0);
    }
}

void plumb_force_number(char *out, size_t size, int number)
{
    PlumbText text = plumb_text_begin(out, size);
    plumb_text_integer(&text, number);
}

PlumbVec2 plumb_force_tip(PlumbVec2 tail, PlumbVec2 newton, double most_n)
{
    const double size = hypot(newton.x, newton.y);
    const double length = ARROW_LEAST_MM + (PLUMB_FORCE_MOST_MM - ARROW_LEAST_MM) * size / most_n;
    return (PlumbVec2){tail.x + length * newton.x / size, tail.y - length * newton.y / size};
}

void plumb_force_draw(const PlumbStage *stage, PlumbVec3 at_m, PlumbVec2 newton, double most_n,
                      PlumbRole role)
{
    const PlumbVec2 tail = plumb_stage_paper(stage, at_m);
    PlumbPen dot = {.fill = role};
    plumb_scene_circle(stage->board.scene, dot, TAG_NONE, tail, 0.7);
    plumb_force_arrow(stage, role, tail, plumb_force_tip(tail, newton, most_n));
}

void plumb_force_name(const PlumbStage *stage, PlumbVec3 at_m, PlumbVec2 newton, double most_n,
                      int number)
{
    const PlumbVec2 tail = plumb_stage_paper(stage, at_m);
    char words[16];
    plumb_force_number(words, sizeof words, number);
    plumb_force_word(stage, tail, plumb_force_tip(tail, newton, most_n), words);
}

/* Circular arrow about a joint; turns against the clock where it is positive. */
void plumb_force_turn(const PlumbStage *stage, PlumbVec2 centre, bool against_clock)
{
    enum { POINTS = 40 };
    PlumbVec2 arc[POINTS];
    const double from = against_clock ? -0.6 : 3.74;
    const double to = against_clock ? 3.5 : -0.36;
    for (int i = 0; i < POINTS; i++) {
        const double a = from + (to - from) * i / (POINTS - 1);
        arc[i] = (PlumbVec2){centre.x + TURN_MM * cos(a), centre.y - TURN_MM * sin(a)};
    }
    const PlumbPen pen = {PLUMB_ROLE_ink, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_path(stage->board.scene, pen, TAG_NONE, arc, POINTS - 3, false);
    plumb_force_arrow(stage, PLUMB_ROLE_ink, arc[POINTS - 6], arc[POINTS - 1]);
    plumb_force_word(stage, arc[POINTS / 2], arc[POINTS / 2], "M");
}

void plumb_force_joint(const PlumbStage *stage, PlumbVec2 at)
{
    PlumbPen pen = PEN_OUTLINE;
    pen.fill = PLUMB_ROLE_paper;
    plumb_scene_circle(stage->board.scene, pen, TAG_NONE, at, 1.3);
}

/* Level distance between two places, in its own row below the floor, numbered. */
void plumb_force_lever(const PlumbStage *stage, double from_m, double to_m, int row,
                       const char *words)
{
    const PlumbVec2 floor = plumb_fit_side(&stage->fit, (PlumbVec3){0.0, 0.0, 0.0});
    const double y = floor.y + PLUMB_HATCH_MM + 4.0 + PLUMB_LEVER_PITCH_MM * row;
    const PlumbVec2 a = {plumb_fit_side(&stage->fit, (PlumbVec3){from_m, 0.0, 0.0}).x, y};
    const PlumbVec2 b = {plumb_fit_side(&stage->fit, (PlumbVec3){to_m, 0.0, 0.0}).x, y};
    plumb_mark_dimension(&stage->board, PEN_FINE, TAG_NONE, a, b);
    const double size = plumb_board_size(&stage->board, PLUMB_SMALL_TEXT_MM);
    const bool ahead = b.x >= a.x;
    const double out = fabs(b.x - a.x) < 6.0 ? 6.0 : 1.5;
    plumb_board_text(&stage->board, PLUMB_ROLE_ink, TAG_NONE,
                     (PlumbVec2){b.x + (ahead ? out : -out), y + 0.35 * size}, size,
                     ahead ? PLUMB_START : PLUMB_END, words);
}

void plumb_force_line(const PlumbStage *stage, PlumbVec3 from_m, int rows, PlumbRole role)
{
    const PlumbVec2 top = plumb_stage_paper(stage, from_m);
    const PlumbVec2 floor = plumb_fit_side(&stage->fit, (PlumbVec3){0.0, 0.0, 0.0});
    const PlumbPen pen = {role, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    plumb_scene_line(
        stage->board.scene, pen, TAG_NONE, top,
        (PlumbVec2){top.x, floor.y + PLUMB_HATCH_MM + 4.0 + PLUMB_LEVER_PITCH_MM * rows});
}
