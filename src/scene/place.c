/* SPDX-License-Identifier: MIT */
/* Chooses the scale of the views and where they stand in their room. */
#include "scene/mark.h"
#include "scene/press.h"
#include "scene/views.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

static const double MM_PER_M = 1000.0;

/* Round scales, 1 : n. */
static const double SCALE[] = {2.0,  2.5,  3.0,  4.0,  5.0,   6.0,   7.5,  8.0,  9.0,
                               10.0, 11.0, 12.5, 15.0, 17.5,  20.0,  22.5, 25.0, 30.0,
                               40.0, 50.0, 60.0, 80.0, 100.0, 150.0, 200.0};

/* Air at the sides of the front view, mm. */
static const double FRONT_AIR_MM = 2.5;
/* And of a view that stands alone. */
static const double ALONE_AIR_MM = 3.0;

static double em(const PlumbDrawing *drawing, double size_mm)
{
    return size_mm * drawing->text_scale;
}

static double width_of(const PlumbDrawing *drawing, const char *text, double size_mm)
{
    return drawing->text_width(drawing->text_user, text, strlen(text), em(drawing, size_mm));
}

static double row_pitch(const PlumbDrawing *drawing)
{
    return 1.5 * em(drawing, PLUMB_NORMAL_TEXT_MM);
}

double plumb_foot_row_mm(const PlumbDrawing *drawing)
{
    return PLUMB_HATCH_MM + 0.6 * row_pitch(drawing);
}

double plumb_dimension_row_mm(const PlumbDrawing *drawing, int row)
{
    return plumb_foot_row_mm(drawing) + (1.1 + row) * row_pitch(drawing);
}

int plumb_last_row(const PlumbDrawing *drawing)
{
    static const int ROW[] = {
        [PLUMB_SEE_BOTH] = 2, [PLUMB_SEE_SIDE] = 0, [PLUMB_SEE_FRONT] = 2, [PLUMB_SEE_LEVEL] = 2};
    return ROW[drawing->sight];
}

double plumb_below_ground_mm(const PlumbDrawing *drawing)
{
    return plumb_dimension_row_mm(drawing, plumb_last_row(drawing)) + 0.6 * row_pitch(drawing);
}

double plumb_left_room_mm(const PlumbDrawing *drawing)
{
    if (drawing->sight != PLUMB_SEE_BOTH) {
        return ALONE_AIR_MM;
    }
    return width_of(drawing, "above the knee", PLUMB_SMALL_TEXT_MM) + 6.0;
}

double plumb_right_room_mm(const PlumbDrawing *drawing)
{
    if (drawing->sight != PLUMB_SEE_BOTH) {
        return ALONE_AIR_MM;
    }
    return width_of(drawing, "188.8 cm", PLUMB_NORMAL_TEXT_MM) + 7.0;
}

double plumb_top_room_mm(const PlumbDrawing *drawing)
{
    const double letters = em(drawing, PLUMB_NORMAL_TEXT_MM);
    if (drawing->sight != PLUMB_SEE_BOTH) {
        return 1.4 * letters + 1.0; /* a view alone needs no name */
    }
    return 1.4 * (em(drawing, PLUMB_SMALL_TEXT_MM) + letters) + 2.0;
}

bool plumb_position_drawable(const PlumbPosition *position)
{
    double sum = position->head_top.x + position->head_top.y + position->com.x + position->com.y;
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        sum += position->point[i].x + position->point[i].y + position->point[i].z;
    }
    return isfinite(sum);
}

static void extend(PlumbExtent *extent, const PlumbLifter *lifter, const PlumbAnswer *answer)
{
    if (answer == NULL || !plumb_position_drawable(&answer->start)) {
        return;
    }
    plumb_extent_add(extent, lifter, &answer->setup, &answer->start);
    if (answer->end_held && plumb_position_drawable(&answer->end)) {
        const PlumbVec3 bar = answer->end.point[PLUMB_PT_bar];
        extent->top_m = fmax(extent->top_m, bar.y + 0.03);
    }
}

static PlumbExtent extent_of(const PlumbDrawing *drawing)
{
    PlumbExtent extent = {0.0, 0.0, 0.0, 0.0, 0.0};
    extend(&extent, drawing->lifter, drawing->answer);
    extend(&extent, drawing->pencil_lifter != NULL ? drawing->pencil_lifter : drawing->lifter,
           drawing->pencil);
    extent.half_m = fmax(extent.half_m, plumb_disc_place(drawing).inner_m + PLUMB_DISC_DRAWN_M +
                                            PLUMB_SLEEVE_DRAWN_M);
    return extent;
}

double plumb_content_top_m(const PlumbDrawing *drawing)
{
    return extent_of(drawing).top_m;
}

/* The two greatest moment arms beside the selected one. */
static void choose_arms(const PlumbDrawing *drawing, PlumbJoint arm[3])
{
    arm[0] = drawing->selected;
    for (int slot = 1; slot < 3; slot++) {
        double greatest = -1.0;
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            const double length = fabs(drawing->answer->start.bar_arm_m[j]);
            const bool taken = (PlumbJoint)j == arm[0] || (slot == 2 && (PlumbJoint)j == arm[1]);
            if (!taken && length > greatest) {
                greatest = length;
                arm[slot] = (PlumbJoint)j;
            }
        }
    }
}

/* Widths that the two views need; a view that is not drawn needs none. */
static double side_width(const PlumbDrawing *drawing, const PlumbExtent *extent, double mm)
{
    const double wide = (extent->right_m - extent->left_m) * mm;
    return drawing->sight == PLUMB_SEE_FRONT
               ? 0.0
               : plumb_left_room_mm(drawing) + wide + plumb_right_room_mm(drawing);
}

static double front_width(const PlumbDrawing *drawing, const PlumbExtent *extent, double mm)
{
    return drawing->sight == PLUMB_SEE_SIDE ? 0.0 : 2.0 * (extent->half_m * mm + FRONT_AIR_MM);
}

/* Divides the room two to one where both views fit so, else as they need; centres each. */
static void stand(PlumbFit *fit, const PlumbDrawing *drawing, PlumbRect rect,
                  const PlumbExtent *extent)
{
    const double mm = MM_PER_M / fit->scale_n;
    const double left = plumb_left_room_mm(drawing);
    const double side_need = side_width(drawing, extent, mm);
    const double front_need = front_width(drawing, extent, mm);
    const double spare = rect.width_mm - side_need - front_need;
    double side = side_need + 0.5 * spare;
    if (drawing->sight != PLUMB_SEE_BOTH) {
        side = drawing->sight == PLUMB_SEE_SIDE ? rect.width_mm : 0.0;
    } else if (2.0 * rect.width_mm / 3.0 >= side_need && rect.width_mm / 3.0 >= front_need) {
        side = 2.0 * rect.width_mm / 3.0;
    }
    fit->side = (PlumbRect){rect.x_mm, rect.y_mm, side, rect.height_mm};
    fit->front = (PlumbRect){rect.x_mm + side, rect.y_mm, rect.width_mm - side, rect.height_mm};
    const double top = plumb_top_room_mm(drawing);
    const double below = plumb_below_ground_mm(drawing);
    const double tall = (extent->top_m - extent->bottom_m) * mm;
    const double slack = fmax(0.0, rect.height_mm - top - tall - below);
    const double ground = rect.y_mm + rect.height_mm - below - 0.45 * slack;
    const double origin = ground + extent->bottom_m * mm;
    fit->side_origin_mm =
        (PlumbVec2){rect.x_mm + left + 0.5 * (side - side_need) - extent->left_m * mm, origin};
    fit->front_origin_mm = (PlumbVec2){fit->front.x_mm + 0.5 * fit->front.width_mm, origin};
}

static bool fits(const PlumbDrawing *drawing, PlumbRect rect, const PlumbExtent *extent, double n)
{
    const double mm = MM_PER_M / n;
    const double width = side_width(drawing, extent, mm) + front_width(drawing, extent, mm);
    const double height = plumb_top_room_mm(drawing) + plumb_below_ground_mm(drawing) +
                          (extent->top_m - extent->bottom_m) * mm;
    return width <= rect.width_mm && height <= rect.height_mm;
}

PlumbFit plumb_views_fit(const PlumbDrawing *drawing, PlumbRect rect)
{
    if (drawing->press != NULL) {
        return plumb_press_fit(drawing, rect);
    }
    PlumbFit fit = {0};
    const PlumbExtent extent = extent_of(drawing);
    const size_t count = sizeof SCALE / sizeof SCALE[0];
    size_t at = 0;
    while (at + 1 < count && !fits(drawing, rect, &extent, SCALE[at])) {
        at++;
    }
    fit.scale_n = SCALE[at];
    stand(&fit, drawing, rect, &extent);
    choose_arms(drawing, fit.arm);
    for (int i = 0; i < PLUMB_FIGURE_COUNT; i++) {
        fit.place[i] = -1;
    }
    return fit;
}
