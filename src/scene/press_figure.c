/* SPDX-License-Identifier: MIT */
/* The lying lifter as a mechanism, the bench and the bar, in the three views of a press. */
#include "scene/figure.h"
#include "scene/outline.h"
#include "scene/press.h"

#include <math.h>

static const double MM_PER_M = 1000.0;

/* Width and length of a bench as drawn, m: a picture within the federations' 29 to 32 cm. */
static const double BENCH_HALF_M = 0.15;

/* Two bars nearer than this on paper are one. */
static const double SAME_PLACE_MM = 0.4;

/* Pens of the inked figure, of a pencilled one, and of what does not hold. */
typedef struct Pens {
    PlumbPen outline;
    PlumbPen line;
    PlumbPen bar;
    PlumbTagKind tag;
} Pens;

static Pens pens_of(PlumbLook look)
{
    if (look == PLUMB_INKED) {
        return (Pens){{PLUMB_ROLE_ink, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_limb},
                      {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper},
                      {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper},
                      PLUMB_TAG_POINT};
    }
    const PlumbDash dash = look == PLUMB_WISHED ? PLUMB_DASHED : PLUMB_SOLID;
    const PlumbPen pen = {PLUMB_ROLE_pencil, PLUMB_FINE_MM, dash, PLUMB_ROLE_none};
    return (Pens){pen, pen, pen, PLUMB_TAG_PENCIL};
}

static PlumbTag tag_of(const Pens *pens, PlumbPoint point)
{
    return (PlumbTag){pens->tag, pens->tag == PLUMB_TAG_POINT ? (int)point : 0};
}

/* Only the right half is seen from above. */
static bool is_half(const PlumbPressViews *views, PlumbPressView view)
{
    return view == PLUMB_PRESS_ABOVE && views->board.drawing->half_above;
}

/* A convex ring cut at the middle line: filled, and drawn where it is not cut. */
static void draw_cut(const PlumbPressViews *views, PlumbPen pen, PlumbTag tag, PlumbVec2 *ring_mm,
                     int count)
{
    const double middle = views->fit->press.origin_mm[PLUMB_PRESS_ABOVE].y;
    int from = -1;
    for (int i = 0; i < count; i++) {
        const bool out = ring_mm[i].y < middle;
        const bool next_out = ring_mm[(i + 1) % count].y < middle;
        from = out && !next_out ? i : from;
    }
    for (int i = 0; i < count; i++) {
        ring_mm[i].y = fmax(ring_mm[i].y, middle);
    }
    if (from < 0) {
        plumb_scene_path(views->board.scene, pen, tag, ring_mm, count, true);
        return;
    }
    PlumbPen fill = pen;
    fill.stroke = PLUMB_ROLE_none;
    PlumbPen line = pen;
    line.fill = PLUMB_ROLE_none;
    PlumbVec2 arc[PLUMB_HULL_POINTS];
    int points = 0;
    bool inside = false;
    for (int i = 0; i < count; i++) {
        arc[points++] = ring_mm[(from + i) % count];
        if (inside && arc[points - 1].y <= middle) {
            break;
        }
        inside = inside || arc[points - 1].y > middle;
    }
    if (pen.fill != PLUMB_ROLE_none) {
        plumb_scene_path(views->board.scene, fill, tag, ring_mm, count, true);
    }
    plumb_scene_path(views->board.scene, line, tag, arc, points, false);
}

/* The hull around count balls. */
static void draw_hull(const PlumbPressViews *views, PlumbPressView view, const PlumbVec3 *centre_m,
                      const double *radius_m, int count, PlumbPen pen, PlumbTag tag)
{
    PlumbRound round[PLUMB_HULL_CIRCLES];
    PlumbVec2 hull_mm[PLUMB_HULL_POINTS];
    for (int i = 0; i < count; i++) {
        round[i] = (PlumbRound){plumb_press_paper(views, view, centre_m[i]),
                                radius_m[i] * MM_PER_M / views->fit->scale_n};
    }
    const int points = plumb_hull(round, count, hull_mm);
    if (is_half(views, view)) {
        draw_cut(views, pen, tag, hull_mm, points);
    } else {
        plumb_scene_path(views->board.scene, pen, tag, hull_mm, points, true);
    }
}

/* A box between two corners of the model's space. */
static void draw_box(const PlumbPressViews *views, PlumbPressView view, PlumbPen pen, PlumbTag tag,
                     PlumbVec3 low_m, PlumbVec3 high_m)
{
    const PlumbVec2 a = plumb_press_paper(views, view, low_m);
    const PlumbVec2 b = plumb_press_paper(views, view, high_m);
    PlumbVec2 corner[4] = {{a.x, a.y}, {b.x, a.y}, {b.x, b.y}, {a.x, b.y}};
    if (is_half(views, view)) {
        draw_cut(views, pen, tag, corner, 4);
    } else {
        plumb_scene_path(views->board.scene, pen, tag, corner, 4, true);
    }
}

static void draw_bench(const PlumbPressViews *views, PlumbPressView view)
{
    const PlumbBody *body = &views->board.drawing->lifter->body;
    const double top = views->board.drawing->press->setup.bench_height_m;
    const PlumbTag tag = {PLUMB_TAG_SETTING, PLUMB_SET_bench_height};
    const PlumbVec3 low = {-1.0 * body->head_neck_m, top - PLUMB_BENCH_DRAWN_M, -BENCH_HALF_M};
    const PlumbVec3 high = {1.1 * body->trunk_m, top, BENCH_HALF_M};
    draw_box(views, view, PEN_RULE, tag, low, high);
}

/* Trunk and head are a picture: the chest as high as the model has it, the rest around it. */
static void draw_trunk(const PlumbPressViews *views, PlumbPressView view, const Pens *pens)
{
    const PlumbBody *body = &views->board.drawing->lifter->body;
    const PlumbSetup *setup = &views->board.drawing->press->setup;
    const double bench = setup->bench_height_m;
    const double chest = 0.5 * body->chest_depth_m;
    const double thick = body->thigh_half_thickness_m;
    const double head = body->head_neck_m;
    const double z = 0.5 * body->shoulder_joint_spacing_m;
    const double hip = 0.5 * body->hip_joint_spacing_m;
    const double at = fmax(0.10 * body->stature_m, setup->touch_m);
    const double rib = bench + setup->arch_m + chest;
    const double shoulder = body->shoulder_half_depth_m;
    const PlumbTag none = {pens->tag == PLUMB_TAG_PENCIL ? PLUMB_TAG_PENCIL : PLUMB_TAG_NONE, 0};
    /* Hulls of four balls: pelvis to ribs, ribs to shoulders. */
    const double side = view == PLUMB_PRESS_SIDE ? 0.0 : 1.0;
    const double y_hip = bench + 1.25 * thick;
    const PlumbVec3 low[4] = {{body->trunk_m, y_hip, side * hip},
                              {body->trunk_m, y_hip, -side * hip},
                              {at + 0.1 * body->stature_m, rib - 0.2 * chest, side * 0.7 * z},
                              {at + 0.1 * body->stature_m, rib - 0.2 * chest, -side * 0.7 * z}};
    const double low_r[4] = {1.2 * thick, 1.2 * thick, 0.8 * chest, 0.8 * chest};
    const PlumbVec3 up[4] = {{0.0, bench + shoulder, side * 0.8 * z},
                             {0.0, bench + shoulder, -side * 0.8 * z},
                             {at, rib, side * 0.62 * z},
                             {at, rib, -side * 0.62 * z}};
    const double up_r[4] = {shoulder, shoulder, chest, chest};
    draw_hull(views, view, low, low_r, 4, pens->outline, none);
    draw_hull(views, view, up, up_r, 4, pens->outline, none);
    const double skull = 0.25 * head;
    const PlumbVec3 skulls[3] = {{-0.52 * head, bench + 0.9 * skull, 0.0},
                                 {-0.76 * head, bench + skull, 0.0},
                                 {-0.20 * head, bench + 0.8 * skull, 0.0}};
    const double skull_r[3] = {0.8 * skull, skull, 0.6 * skull};
    draw_hull(views, view, skulls, skull_r, 3, pens->outline, none);
}

static PlumbVec3 mirrored(PlumbVec3 point_m, double side)
{
    return (PlumbVec3){point_m.x, point_m.y, side * point_m.z};
}

static void draw_arm(const PlumbPressViews *views, PlumbPressView view,
                     const PlumbPressPosition *at, double side, const Pens *pens)
{
    static const struct {
        PlumbPressPoint from;
        PlumbPressPoint to;
        double from_share;
        double to_share;
        PlumbPoint joint;
    } limb[3] = {
        {PLUMB_PRESS_wrist, PLUMB_PRESS_grip, 0.72, 0.80, PLUMB_PT_wrist},
        {PLUMB_PRESS_elbow, PLUMB_PRESS_wrist, 0.95, 0.62, PLUMB_PT_elbow},
        {PLUMB_PRESS_shoulder, PLUMB_PRESS_elbow, 1.25, 0.95, PLUMB_PT_shoulder},
    };
    const double thick = views->board.drawing->lifter->body.shin_half_thickness_m;
    PlumbPen joint = pens->line;
    joint.dash = PLUMB_SOLID;
    for (int i = 0; i < 3; i++) {
        const PlumbVec3 centre[2] = {mirrored(at->point[limb[i].from], side),
                                     mirrored(at->point[limb[i].to], side)};
        const double radius[2] = {thick * limb[i].from_share, thick * limb[i].to_share};
        draw_hull(views, view, centre, radius, 2, pens->outline, tag_of(pens, limb[i].joint));
    }
    for (int i = 0; i < 3; i++) {
        const PlumbVec2 from =
            plumb_press_paper(views, view, mirrored(at->point[limb[i].from], side));
        plumb_scene_line(views->board.scene, pens->line, TAG_NONE, from,
                         plumb_press_paper(views, view, mirrored(at->point[limb[i].to], side)));
        plumb_scene_circle(views->board.scene, joint, tag_of(pens, limb[i].joint), from, 0.8);
    }
}

/* End-on with its disc from the side, else a rod with discs, broken where they stand further out.
 */
static void draw_bar(const PlumbPressViews *views, PlumbPressView view,
                     const PlumbPressPosition *at, const Pens *pens)
{
    const PlumbEquipment *gym = &views->board.drawing->lifter->equipment;
    const PlumbVec3 bar = at->point[PLUMB_PRESS_bar];
    const double shaft = 0.5 * gym->shaft_diameter_m;
    const double disc = 0.5 * gym->disc_diameter_m;
    const PlumbTag tag = tag_of(pens, PLUMB_PT_bar);
    if (view == PLUMB_PRESS_SIDE) {
        const PlumbVec2 centre = plumb_press_paper(views, view, bar);
        const double mm = MM_PER_M / views->fit->scale_n;
        PlumbPen rim = pens->bar;
        rim.fill = PLUMB_ROLE_none;
        PlumbPen rod = pens->bar;
        rod.fill = pens->tag == PLUMB_TAG_POINT ? PLUMB_ROLE_bar : PLUMB_ROLE_none;
        plumb_scene_circle(views->board.scene, rim, tag, centre, disc * mm);
        plumb_scene_circle(views->board.scene, rod, tag, centre, shaft * mm);
        return;
    }
    const double end = views->fit->press.inner_m + PLUMB_DISC_DRAWN_M + PLUMB_SLEEVE_DRAWN_M;
    draw_box(views, view, pens->bar, tag, (PlumbVec3){bar.x - shaft, bar.y - shaft, -end},
             (PlumbVec3){bar.x + shaft, bar.y + shaft, end});
    for (int i = 0; i < (is_half(views, view) ? 1 : 2); i++) {
        const double side = i == 0 ? 1.0 : -1.0;
        const double inner = side * views->fit->press.inner_m;
        draw_box(views, view, pens->bar, tag, (PlumbVec3){bar.x - disc, bar.y - disc, inner},
                 (PlumbVec3){bar.x + disc, bar.y + disc, inner + side * PLUMB_DISC_DRAWN_M});
        const PlumbVec2 gap = plumb_press_paper(
            views, view, (PlumbVec3){bar.x, bar.y, side * (views->fit->press.inner_m - 0.04)});
        if (views->fit->press.broken && pens->tag == PLUMB_TAG_POINT) {
            const bool upright = view == PLUMB_PRESS_ABOVE;
            const double a = upright ? 1.9 : 0.5;
            const double b = upright ? 0.5 : 1.9;
            plumb_scene_line(views->board.scene, PEN_BAR, TAG_NONE,
                             (PlumbVec2){gap.x - a, gap.y + b}, (PlumbVec2){gap.x + a, gap.y - b});
        }
    }
}

/* Whether another bar is not covered by the inked one. */
static bool bars_apart(const PlumbPressViews *views, PlumbPressView view,
                       const PlumbPressAnswer *other)
{
    const PlumbPressAnswer *ink = views->board.drawing->press;
    const PlumbVec2 a = plumb_press_paper(views, view, other->touch.point[PLUMB_PRESS_bar]);
    const PlumbVec2 b = plumb_press_paper(views, view, ink->touch.point[PLUMB_PRESS_bar]);
    return hypot(a.x - b.x, a.y - b.y) >= SAME_PLACE_MM;
}

static void draw_arms(const PlumbPressViews *views, PlumbPressView view,
                      const PlumbPressAnswer *answer, const Pens *pens, const Pens *left)
{
    const bool one = view == PLUMB_PRESS_SIDE || is_half(views, view);
    for (int k = 0; k < (one ? 1 : 2); k++) {
        draw_arm(views, view, &answer->touch, k == 0 ? 1.0 : -1.0, k == 0 ? pens : left);
    }
}

static void draw_view(const PlumbPressViews *views, PlumbPressView view)
{
    const PlumbDrawing *drawing = views->board.drawing;
    const PlumbPressAnswer *const other[2] = {drawing->press_pencil, drawing->press_wish};
    const PlumbLook look[2] = {PLUMB_PENCILLED, PLUMB_WISHED};
    const bool held = drawing->press->outcome != PLUMB_NO_POSE;
    const Pens inked = pens_of(PLUMB_INKED);
    const Pens arm = pens_of(held ? PLUMB_INKED : PLUMB_WISHED);
    const Pens rest =
        views->cut_free ? (Pens){PEN_REFERENCE, PEN_REFERENCE, PEN_REFERENCE, PLUMB_TAG_NONE} : arm;
    draw_bench(views, view);
    draw_trunk(views, view, views->cut_free ? &rest : &inked);
    if (view == PLUMB_PRESS_HEAD) {
        draw_bar(views, view, &drawing->press->touch, &arm);
    }
    draw_arms(views, view, drawing->press, &arm, &rest);
    for (int i = 0; i < 2; i++) {
        if (other[i] != NULL) {
            const Pens pens = pens_of(look[i]);
            draw_arms(views, view, other[i], &pens, &pens);
            if (bars_apart(views, view, other[i])) {
                draw_bar(views, view, &other[i]->touch, &pens);
            }
        }
    }
    if (view != PLUMB_PRESS_HEAD) {
        draw_bar(views, view, &drawing->press->touch, &arm);
    }
}

void plumb_press_figure(const PlumbPressViews *views)
{
    for (int i = 0; i < PLUMB_PRESS_VIEW_COUNT; i++) {
        if (plumb_press_sees(views->board.drawing, (PlumbPressView)i)) {
            draw_view(views, (PlumbPressView)i);
        }
    }
}
