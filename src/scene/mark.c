/* SPDX-License-Identifier: MIT */
/* Marks of technical drawing: dimension lines with arrowheads, ground line with hatching. */
#include "scene/mark.h"

#include <math.h>

static const double ARROW_MM = 2.2;
static const double ARROW_HALF_MM = 0.42;
static const double OUTSIDE_MM = 4.5; /* tail of an arrow that stands outside */
static const double HATCH_PITCH_MM = 2.0;

/* A filled head with its tip at tip_mm that points along the unit direction (dx, dy). */
static void arrowhead(const PlumbBoard *board, PlumbPen pen, PlumbTag tag, PlumbVec2 tip_mm,
                      double dx, double dy)
{
    const PlumbVec2 base = {tip_mm.x - ARROW_MM * dx, tip_mm.y - ARROW_MM * dy};
    const PlumbVec2 head[3] = {tip_mm,
                               {base.x - ARROW_HALF_MM * dy, base.y + ARROW_HALF_MM * dx},
                               {base.x + ARROW_HALF_MM * dy, base.y - ARROW_HALF_MM * dx}};
    plumb_scene_path(board->scene, (PlumbPen){.fill = pen.stroke}, tag, head, 3, true);
}

static PlumbVec2 along(PlumbVec2 from, double dx, double dy, double mm)
{
    return (PlumbVec2){from.x + mm * dx, from.y + mm * dy};
}

void plumb_mark_dimension_gap(const PlumbBoard *board, PlumbPen pen, PlumbTag tag, PlumbVec2 a_mm,
                              PlumbVec2 b_mm, double gap_mm)
{
    const double length = hypot(b_mm.x - a_mm.x, b_mm.y - a_mm.y);
    const bool upright = fabs(b_mm.y - a_mm.y) > fabs(b_mm.x - a_mm.x);
    const double dx = length > 0.0 ? (b_mm.x - a_mm.x) / length : (upright ? 0.0 : 1.0);
    const double dy = length > 0.0 ? (b_mm.y - a_mm.y) / length : (upright ? 1.0 : 0.0);
    if (length < 2.6 * ARROW_MM) {
        plumb_scene_line(board->scene, pen, tag, along(a_mm, dx, dy, -OUTSIDE_MM),
                         along(b_mm, dx, dy, OUTSIDE_MM));
        arrowhead(board, pen, tag, a_mm, dx, dy);
        arrowhead(board, pen, tag, b_mm, -dx, -dy);
        return;
    }
    if (gap_mm > 0.0) {
        const double half = 0.5 * (length - gap_mm);
        plumb_scene_line(board->scene, pen, tag, a_mm, along(a_mm, dx, dy, half));
        plumb_scene_line(board->scene, pen, tag, along(b_mm, dx, dy, -half), b_mm);
    } else {
        plumb_scene_line(board->scene, pen, tag, a_mm, b_mm);
    }
    arrowhead(board, pen, tag, a_mm, -dx, -dy);
    arrowhead(board, pen, tag, b_mm, dx, dy);
}

void plumb_mark_dimension(const PlumbBoard *board, PlumbPen pen, PlumbTag tag, PlumbVec2 a_mm,
                          PlumbVec2 b_mm)
{
    plumb_mark_dimension_gap(board, pen, tag, a_mm, b_mm, 0.0);
}

double plumb_mark_dimension_room(double text_mm)
{
    return text_mm + 2.0 * ARROW_MM + 3.0;
}

void plumb_mark_ground(const PlumbBoard *board, double x_mm, double y_mm, double width_mm)
{
    const PlumbPen heavy = {PLUMB_ROLE_ink, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_line(board->scene, heavy, TAG_NONE, (PlumbVec2){x_mm, y_mm},
                     (PlumbVec2){x_mm + width_mm, y_mm});
    for (double x = x_mm + PLUMB_HATCH_MM; x <= x_mm + width_mm; x += HATCH_PITCH_MM) {
        plumb_scene_line(board->scene, PEN_RULE, TAG_NONE, (PlumbVec2){x, y_mm},
                         (PlumbVec2){x - PLUMB_HATCH_MM, y_mm + PLUMB_HATCH_MM});
    }
}
