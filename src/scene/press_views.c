/* SPDX-License-Identifier: MIT */
/* Room, scale and projections of the three views of a press. */
#include "scene/figure.h"
#include "scene/press.h"

#include <math.h>
#include <stddef.h>

static const double MM_PER_M = 1000.0;
static const double SCALE[] = {5.0,  6.0,  7.5,  8.0,  9.0,  10.0, 11.0, 12.0, 12.5, 14.0,
                               15.0, 16.0, 18.0, 20.0, 22.5, 25.0, 30.0, 35.0, 40.0, 50.0};

/* Paper beside the figure: letters above, rows of dimension lines below, bar travel at the right.
 */
static const double TOP_EMS = 3.0;
static const double ROWS_EMS = 4.2;
static const double TRAVEL_EMS = 7.5;
static const double EDGE_MM = 3.0;

PlumbVec2 plumb_press_paper(const PlumbPressViews *views, PlumbPressView view, PlumbVec3 point_m)
{
    const double mm = MM_PER_M / views->scale_n;
    const PlumbVec2 origin = views->origin_mm[view];
    const double across = view == PLUMB_PRESS_HEAD ? point_m.z : point_m.x;
    const double down = view == PLUMB_PRESS_ABOVE ? point_m.z : -point_m.y;
    return (PlumbVec2){origin.x + mm * across, origin.y + mm * down};
}

/* The box of all that is drawn, m. */
typedef struct Extent {
    double left;
    double right;
    double bottom;
    double top;
    double half;
} Extent;

static void add_press(Extent *extent, const PlumbLifter *lifter, const PlumbPressAnswer *answer)
{
    const double disc = 0.5 * lifter->equipment.disc_diameter_m;
    const PlumbPressPosition *const instants[2] = {&answer->touch, &answer->lockout};
    for (int k = 0; k < 2; k++) {
        for (int i = 0; i < PLUMB_PRESS_POINT_COUNT; i++) {
            const PlumbVec3 p = instants[k]->point[i];
            const double grow = k == 0 && i == PLUMB_PRESS_bar ? disc : 0.06;
            extent->left = fmin(extent->left, p.x - grow);
            extent->right = fmax(extent->right, p.x + grow);
            extent->top = fmax(extent->top, p.y + grow);
            extent->bottom = fmin(extent->bottom, p.y - grow);
            extent->half = fmax(extent->half, k == 0 ? fabs(p.z) : 0.0);
        }
    }
}

static Extent extent_of(const PlumbDrawing *drawing)
{
    const PlumbBody *body = &drawing->lifter->body;
    const double bench = drawing->press->setup.bench_height_m;
    Extent extent = {-1.04 * body->head_neck_m, 1.16 * body->trunk_m, bench - PLUMB_BENCH_DRAWN_M,
                     bench, 0.2};
    add_press(&extent, drawing->lifter, drawing->press);
    if (drawing->press_pencil != NULL) {
        add_press(&extent,
                  drawing->pencil_lifter != NULL ? drawing->pencil_lifter : drawing->lifter,
                  drawing->press_pencil);
    }
    return extent;
}

/* Places the views for a scale; false where they do not fit into rect. */
static bool place(PlumbPressViews *views, const Extent *extent, PlumbRect rect, double scale_n)
{
    const double em = plumb_board_size(&views->board, PLUMB_SMALL_TEXT_MM);
    const double mm = MM_PER_M / scale_n;
    const double side = (extent->right - extent->left) * mm;
    const double half = (views->inner_m + PLUMB_DISC_DRAWN_M + PLUMB_SLEEVE_DRAWN_M) * mm;
    const double height = (extent->top - extent->bottom) * mm;
    const double left = rect.x_mm + EDGE_MM;
    const double first = TOP_EMS * em + height + ROWS_EMS * em;
    const double second = 1.6 * em + 2.0 * half + EDGE_MM;
    const double split = left + side + TRAVEL_EMS * em;
    views->scale_n = scale_n;
    const double top = rect.y_mm + TOP_EMS * em;
    views->origin_mm[PLUMB_PRESS_SIDE] =
        (PlumbVec2){left - extent->left * mm, top + extent->top * mm};
    views->origin_mm[PLUMB_PRESS_HEAD] =
        (PlumbVec2){0.5 * (split + rect.x_mm + rect.width_mm), top + extent->top * mm};
    views->origin_mm[PLUMB_PRESS_ABOVE] =
        (PlumbVec2){views->origin_mm[PLUMB_PRESS_SIDE].x, rect.y_mm + first + 1.6 * em + half};
    views->bench_mm = top + height;
    views->room[PLUMB_PRESS_SIDE] =
        (PlumbRect){rect.x_mm, rect.y_mm, split - rect.x_mm - 1.0, first};
    views->room[PLUMB_PRESS_HEAD] =
        (PlumbRect){split, rect.y_mm, rect.x_mm + rect.width_mm - split, first};
    views->room[PLUMB_PRESS_ABOVE] =
        (PlumbRect){rect.x_mm, rect.y_mm + first, split - rect.x_mm - 1.0, rect.height_mm - first};
    views->rest = views->room[PLUMB_PRESS_ABOVE];
    views->rest.x_mm = split;
    views->rest.width_mm = views->room[PLUMB_PRESS_HEAD].width_mm;
    return split + 2.0 * half + 2.0 * EDGE_MM <= rect.x_mm + rect.width_mm &&
           first + (views->count == PLUMB_PRESS_VIEW_COUNT ? second : 0.0) <= rect.height_mm;
}

static PlumbPressViews fit_views(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect,
                                 int view_count)
{
    PlumbPressViews views = {
        .board = {scene, drawing}, .answer = drawing->press, .count = view_count};
    const Extent extent = extent_of(drawing);
    const double true_m = 0.5 * drawing->lifter->equipment.knurl_stop_m;
    views.inner_m = fmin(extent.half + 0.11, true_m);
    views.broken = views.inner_m < true_m;
    const size_t count = sizeof SCALE / sizeof SCALE[0];
    for (size_t i = 0; i < count && !place(&views, &extent, rect, SCALE[i]); i++) {
    }
    return views;
}

PlumbPressViews plumb_press_views(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    return fit_views(scene, drawing, rect, PLUMB_PRESS_VIEW_COUNT);
}

PlumbPressViews plumb_press_two_views(PlumbScene *scene, const PlumbDrawing *drawing,
                                      PlumbRect rect)
{
    return fit_views(scene, drawing, rect, PLUMB_PRESS_ABOVE);
}
