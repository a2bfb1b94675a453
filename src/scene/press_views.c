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
static const double MIDDLE_MM = 1.0; /* above the middle line of a half view */

bool plumb_press_sees(const PlumbDrawing *drawing, PlumbPressView view)
{
    static const bool sees[PLUMB_SIGHT_COUNT][PLUMB_PRESS_VIEW_COUNT] = {
        [PLUMB_SEE_BOTH] = {true, true, true},    [PLUMB_SEE_SIDE] = {true, false, false},
        [PLUMB_SEE_FRONT] = {false, true, false}, [PLUMB_SEE_ABOVE] = {false, false, true},
        [PLUMB_SEE_LEVEL] = {true, true, false},
    };
    return sees[drawing->sight][view];
}

PlumbVec2 plumb_press_paper(const PlumbPressViews *views, PlumbPressView view, PlumbVec3 point_m)
{
    const double mm = MM_PER_M / views->fit->scale_n;
    const PlumbVec2 origin = views->fit->press.origin_mm[view];
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
    if (drawing->press_wish != NULL) {
        add_press(&extent, drawing->lifter, drawing->press_wish);
    }
    if (drawing->press_pencil != NULL) {
        add_press(&extent,
                  drawing->pencil_lifter != NULL ? drawing->pencil_lifter : drawing->lifter,
                  drawing->press_pencil);
    }
    return extent;
}

/* Places the views for a scale; false where they do not fit into rect. One view alone has all of
 * it. */
static bool place(PlumbFit *fit, const PlumbDrawing *drawing, const Extent *extent, PlumbRect rect)
{
    const PlumbBoard board = {NULL, drawing};
    PlumbPressFit *const press = &fit->press;
    const bool above_seen = plumb_press_sees(drawing, PLUMB_PRESS_ABOVE);
    const bool head_seen = plumb_press_sees(drawing, PLUMB_PRESS_HEAD);
    const bool side_seen = plumb_press_sees(drawing, PLUMB_PRESS_SIDE);
    const double em = plumb_board_size(&board, PLUMB_SMALL_TEXT_MM);
    const double mm = MM_PER_M / fit->scale_n;
    const double side = (extent->right - extent->left) * mm;
    const double half = (press->inner_m + PLUMB_DISC_DRAWN_M + PLUMB_SLEEVE_DRAWN_M) * mm;
    const double height = (extent->top - extent->bottom) * mm;
    const double right = rect.x_mm + rect.width_mm;
    const double left = rect.x_mm + EDGE_MM;
    const double top = rect.y_mm + TOP_EMS * em;
    const double rows = TOP_EMS * em + height + ROWS_EMS * em;
    const bool standing = side_seen || head_seen;
    const double first = !standing ? 0.0 : above_seen ? rows : rect.height_mm;
    const double over = drawing->half_above ? MIDDLE_MM : half; /* above the middle line */
    const double second = above_seen ? 1.6 * em + over + half + EDGE_MM : 0.0;
    const double side_end = left + side + TRAVEL_EMS * em;
    const double split = standing && !side_seen ? rect.x_mm : head_seen ? side_end : right;
    press->bench_mm = top + height;
    press->origin_mm[PLUMB_PRESS_SIDE] =
        (PlumbVec2){left - extent->left * mm, top + extent->top * mm};
    press->origin_mm[PLUMB_PRESS_HEAD] = (PlumbVec2){0.5 * (split + right), top + extent->top * mm};
    press->origin_mm[PLUMB_PRESS_ABOVE] =
        (PlumbVec2){press->origin_mm[PLUMB_PRESS_SIDE].x, rect.y_mm + first + 1.6 * em + over};
    press->room[PLUMB_PRESS_SIDE] =
        (PlumbRect){rect.x_mm, rect.y_mm, split - rect.x_mm - 1.0, first};
    press->room[PLUMB_PRESS_HEAD] = (PlumbRect){split, rect.y_mm, right - split, first};
    press->room[PLUMB_PRESS_ABOVE] =
        (PlumbRect){rect.x_mm, rect.y_mm + first, split - rect.x_mm - 1.0, rect.height_mm - first};
    press->rest = press->room[PLUMB_PRESS_ABOVE];
    press->rest.x_mm = split;
    press->rest.width_mm = press->room[PLUMB_PRESS_HEAD].width_mm;
    const bool wide = ((!side_seen && !above_seen) || side_end <= right) &&
                      (!head_seen || split + 2.0 * half + 2.0 * EDGE_MM <= right);
    return wide && (!standing || rows <= rect.height_mm) && first + second <= rect.height_mm;
}

PlumbFit plumb_press_fit(const PlumbDrawing *drawing, PlumbRect rect)
{
    PlumbFit fit = {.decided = true};
    const Extent extent = extent_of(drawing);
    const double true_m = 0.5 * drawing->lifter->equipment.knurl_stop_m;
    fit.press.inner_m = fmin(extent.half + 0.11, true_m);
    fit.press.broken = fit.press.inner_m < true_m;
    const size_t count = sizeof SCALE / sizeof SCALE[0];
    bool placed = false;
    for (size_t i = 0; i < count && !placed; i++) {
        fit.scale_n = SCALE[i];
        placed = place(&fit, drawing, &extent, rect);
    }
    return fit;
}

void plumb_press_compose(PlumbScene *scene, const PlumbDrawing *drawing, const PlumbFit *fit)
{
    const PlumbPressViews views = {{scene, drawing}, fit, false};
    plumb_press_figure(&views);
    plumb_press_marks(&views);
    if (drawing->sight == PLUMB_SEE_BOTH) {
        plumb_press_chart(scene, drawing, fit->press.rest);
    }
}
