/* SPDX-License-Identifier: MIT */
/* The lifter as a mechanism: which links there are, how thick they are drawn, in which order. */
#include "scene/figure.h"

#include "scene/outline.h"

#include <math.h>
#include <stddef.h>

static const double MM_PER_M = 1000.0;

enum { PART_ROUNDS = PLUMB_HULL_CIRCLES, PARTS_MAX = 24 };

/* A link: the hull around up to four balls, and the joint line between its first and last. */
typedef struct Part {
    int count;
    PlumbVec3 centre_m[PART_ROUNDS];
    double radius_m[PART_ROUNDS];
    bool joint_line;
    PlumbPoint joint; /* a small circle at the first ball; PLUMB_POINT_COUNT: none */
} Part;

typedef struct Parts {
    int count;
    Part part[PARTS_MAX];
} Parts;

/* Limbs: thickness at either end as a share of a half thickness of the body. These shape the
 * picture only; the shares are such that the front of shin and thigh lies where the model's
 * clearance sees it (the shin a third of its length up, the thigh two thirds). */
typedef struct LimbRow {
    PlumbPoint from;
    PlumbPoint to;
    PlumbLength thickness;
    double from_share;
    double to_share;
} LimbRow;

static const LimbRow LEG[] = {
    {PLUMB_PT_hip, PLUMB_PT_knee, PLUMB_LEN_thigh_half_thickness, 1.12, 0.72},
    {PLUMB_PT_knee, PLUMB_PT_ankle, PLUMB_LEN_shin_half_thickness, 1.30, 0.85},
};
static const LimbRow ARM[] = {
    {PLUMB_PT_shoulder, PLUMB_PT_elbow, PLUMB_LEN_shin_half_thickness, 1.25, 0.95},
    {PLUMB_PT_elbow, PLUMB_PT_wrist, PLUMB_LEN_shin_half_thickness, 0.95, 0.62},
    {PLUMB_PT_wrist, PLUMB_PT_grip, PLUMB_LEN_shin_half_thickness, 0.72, 0.80},
};

static PlumbVec3 mirrored(PlumbVec3 p, double side)
{
    return (PlumbVec3){p.x, p.y, side * p.z};
}

static PlumbVec3 middle(PlumbVec3 p)
{
    return (PlumbVec3){p.x, p.y, 0.0};
}

static PlumbVec3 between(PlumbVec3 a, PlumbVec3 b, double share)
{
    return (PlumbVec3){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y),
                       a.z + share * (b.z - a.z)};
}

static Part *next(Parts *parts)
{
    Part *part = &parts->part[parts->count++];
    *part = (Part){.joint = PLUMB_POINT_COUNT};
    return part;
}

static void ball(Part *part, PlumbVec3 centre_m, double radius_m)
{
    part->centre_m[part->count] = centre_m;
    part->radius_m[part->count] = radius_m;
    part->count++;
}

static void add_limb(Parts *parts, const PlumbBody *body, const PlumbPosition *position,
                     const LimbRow *row, double side)
{
    Part *part = next(parts);
    const double thickness = body->length_m[row->thickness];
    ball(part, mirrored(position->point[row->from], side), thickness * row->from_share);
    ball(part, mirrored(position->point[row->to], side), thickness * row->to_share);
    part->joint_line = true;
    part->joint = row->from;
}

/* Heel, ankle, ball and toe of one foot, on the shoe where there is one. */
static void add_foot(Parts *parts, const PlumbBody *body, const PlumbSetup *setup,
                     const PlumbPosition *position, double side)
{
    Part *part = next(parts);
    const double r = 0.5 * body->shin_half_thickness_m;
    const PlumbVec3 heel = position->point[PLUMB_PT_heel];
    const PlumbVec3 toe = position->point[PLUMB_PT_toe];
    const double length = body->foot_length_m;
    PlumbVec3 back = between(heel, toe, 1.6 * r / length);
    PlumbVec3 front = between(heel, toe, body->ball_of_foot_m / length);
    PlumbVec3 tip = between(heel, toe, 1.0 - 0.7 * r / length);
    back.y += 1.6 * r + setup->heel_lift_m;
    front.y += r + setup->ball_lift_m;
    tip.y += 0.7 * r + setup->ball_lift_m;
    ball(part, mirrored(position->point[PLUMB_PT_ankle], side), 1.7 * r);
    ball(part, mirrored(back, side), 1.6 * r);
    ball(part, mirrored(front, side), r);
    ball(part, mirrored(tip, side), 0.7 * r);
    part->joint = PLUMB_PT_ankle;
}

/* Neck and head in line with the thorax. */
static void add_head(Parts *parts, const PlumbPosition *position)
{
    const PlumbVec3 base = middle(position->point[PLUMB_PT_shoulder]);
    const PlumbVec3 top = position->head_top;
    const double length = hypot(top.x - base.x, top.y - base.y);
    Part *neck = next(parts);
    ball(neck, base, 0.17 * length);
    ball(neck, between(base, top, 0.5), 0.15 * length);
    Part *head = next(parts);
    ball(head, between(base, top, 0.56), 0.19 * length);
    ball(head, between(base, top, 0.76), 0.24 * length);
}

/* Trunk of the side view: pelvis and thorax with the hinge between them. */
static void add_trunk_side(Parts *parts, const PlumbBody *body, const PlumbPosition *position)
{
    const double thick = body->thigh_half_thickness_m;
    const PlumbVec3 hip = position->point[PLUMB_PT_hip];
    const PlumbVec3 lumbar = position->point[PLUMB_PT_lumbar];
    const PlumbVec3 shoulder = position->point[PLUMB_PT_shoulder];
    Part *thorax = next(parts);
    ball(thorax, lumbar, 1.10 * thick);
    ball(thorax, between(lumbar, shoulder, 0.68), 1.42 * thick);
    ball(thorax, shoulder, 1.0 * thick);
    thorax->joint_line = true;
    thorax->joint = PLUMB_PT_lumbar;
    Part *pelvis = next(parts);
    ball(pelvis, hip, 1.30 * thick);
    ball(pelvis, lumbar, 1.10 * thick);
    pelvis->joint_line = true;
}

/* Trunk of the front view, between both hips and both shoulders. */
static void add_trunk_front(Parts *parts, const PlumbBody *body, const PlumbPosition *position)
{
    const double thick = body->thigh_half_thickness_m;
    const PlumbVec3 hip = position->point[PLUMB_PT_hip];
    const PlumbVec3 shoulder = position->point[PLUMB_PT_shoulder];
    PlumbVec3 waist = position->point[PLUMB_PT_lumbar];
    waist.z = 0.72 * hip.z;
    Part *pelvis = next(parts);
    Part *thorax = next(parts);
    for (int i = 0; i < 2; i++) {
        const double side = i == 0 ? 1.0 : -1.0;
        ball(pelvis, mirrored(hip, side), 0.95 * thick);
        ball(pelvis, mirrored(waist, side), 0.85 * thick);
        ball(thorax, mirrored(waist, side), 0.85 * thick);
        ball(thorax, (PlumbVec3){shoulder.x, shoulder.y, 0.82 * side * shoulder.z}, 0.72 * thick);
    }
}

static PlumbRound rounded(const PlumbFit *fit, bool front, PlumbVec3 centre_m, double radius_m)
{
    return (PlumbRound){front ? plumb_fit_front(fit, centre_m) : plumb_fit_side(fit, centre_m),
                        radius_m * MM_PER_M / fit->scale_n};
}

/* Pens of one look. */
typedef struct Pens {
    PlumbPen outline;
    PlumbPen joint_line;
    PlumbPen bar;
    PlumbTagKind tag;
} Pens;

static Pens pens_of(PlumbLook look)
{
    static const Pens PENS[] = {
        [PLUMB_INKED] = {{PLUMB_ROLE_ink, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_limb},
                         {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none},
                         {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper},
                         PLUMB_TAG_POINT},
        [PLUMB_PENCILLED] = {{PLUMB_ROLE_pencil, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none},
                             {PLUMB_ROLE_pencil, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none},
                             {PLUMB_ROLE_pencil, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none},
                             PLUMB_TAG_PENCIL},
        [PLUMB_WISHED] = {{PLUMB_ROLE_pencil, PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none},
                          {PLUMB_ROLE_pencil, PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none},
                          {PLUMB_ROLE_pencil, PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none},
                          PLUMB_TAG_PENCIL},
    };
    return PENS[look];
}

static void draw_part(const PlumbBoard *board, const PlumbFit *fit, bool front, const Part *part,
                      const Pens *pens)
{
    PlumbRound round[PART_ROUNDS];
    for (int i = 0; i < part->count; i++) {
        round[i] = rounded(fit, front, part->centre_m[i], part->radius_m[i]);
    }
    PlumbVec2 hull_mm[PLUMB_HULL_POINTS];
    const int points = plumb_hull(round, part->count, hull_mm);
    const PlumbTag tag =
        part->joint < PLUMB_POINT_COUNT && pens->tag == PLUMB_TAG_POINT
            ? (PlumbTag){PLUMB_TAG_POINT, (int)part->joint}
            : (PlumbTag){pens->tag == PLUMB_TAG_PENCIL ? PLUMB_TAG_PENCIL : PLUMB_TAG_NONE, 0};
    plumb_scene_path(board->scene, pens->outline, tag, hull_mm, points, true);
}

/* Joint lines and joints, over the outlines. */
static void draw_joints(const PlumbBoard *board, const PlumbFit *fit, bool front,
                        const Parts *parts, const Pens *pens)
{
    const bool inked = pens->tag == PLUMB_TAG_POINT;
    const double radius = inked ? fmax(0.7, 12.0 / fit->scale_n) : 0.5;
    PlumbPen joint = pens->joint_line;
    joint.dash = PLUMB_SOLID;
    joint.fill = inked ? PLUMB_ROLE_paper : PLUMB_ROLE_none;
    for (int i = 0; i < parts->count; i++) {
        const Part *part = &parts->part[i];
        if (part->joint_line) {
            plumb_scene_line(board->scene, pens->joint_line, TAG_NONE,
                             rounded(fit, front, part->centre_m[0], 0.0).centre_mm,
                             rounded(fit, front, part->centre_m[part->count - 1], 0.0).centre_mm);
        }
    }
    for (int i = 0; i < parts->count; i++) {
        const Part *part = &parts->part[i];
        if (part->joint < PLUMB_POINT_COUNT) {
            const PlumbTag tag = inked ? (PlumbTag){PLUMB_TAG_POINT, (int)part->joint} : TAG_NONE;
            plumb_scene_circle(board->scene, joint, tag,
                               rounded(fit, front, part->centre_m[0], 0.0).centre_mm, radius);
        }
    }
}

static void draw_bar_side(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                          const PlumbPosition *position, const Pens *pens)
{
    const PlumbTag tag = {pens->tag, pens->tag == PLUMB_TAG_POINT ? PLUMB_PT_bar : 0};
    const PlumbVec2 at = plumb_fit_side(fit, position->point[PLUMB_PT_bar]);
    const double mm = MM_PER_M / fit->scale_n;
    PlumbPen disc = pens->bar;
    disc.fill = PLUMB_ROLE_none;
    PlumbPen bar = pens->bar;
    bar.fill = pens->tag == PLUMB_TAG_POINT ? PLUMB_ROLE_bar : PLUMB_ROLE_none;
    plumb_scene_circle(board->scene, disc, tag, at, 0.5 * lifter->equipment.disc_diameter_m * mm);
    plumb_scene_circle(board->scene, bar, tag, at, 0.5 * lifter->equipment.shaft_diameter_m * mm);
}

/* The wedge of the shoe between floor and sole. */
static void draw_wedge(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                       const PlumbSetup *setup, const PlumbPosition *position, const Pens *pens)
{
    if (setup->heel_lift_m <= 0.0 && setup->ball_lift_m <= 0.0) {
        return;
    }
    const PlumbVec3 heel = position->point[PLUMB_PT_heel];
    const PlumbVec3 toe = position->point[PLUMB_PT_toe];
    const PlumbVec3 ball =
        between(heel, toe, lifter->body.ball_of_foot_m / lifter->body.foot_length_m);
    const PlumbVec3 sole[5] = {{heel.x, heel.y, heel.z},
                               {heel.x, heel.y + setup->heel_lift_m, heel.z},
                               {ball.x, ball.y + setup->ball_lift_m, ball.z},
                               {toe.x, toe.y + setup->ball_lift_m, toe.z},
                               {toe.x, toe.y, toe.z}};
    PlumbVec2 corner[5];
    for (int i = 0; i < 5; i++) {
        corner[i] = plumb_fit_side(fit, sole[i]);
    }
    PlumbPen pen = pens->outline;
    pen.weight_mm = PLUMB_FINE_MM;
    pen.fill = pens->tag == PLUMB_TAG_POINT ? PLUMB_ROLE_rule : PLUMB_ROLE_none;
    plumb_scene_path(board->scene, pen, (PlumbTag){PLUMB_TAG_SETTING, PLUMB_SET_heel_lift}, corner,
                     5, true);
}

void plumb_figure_side(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                       const PlumbSetup *setup, const PlumbPosition *position, PlumbLook look)
{
    const Pens pens = pens_of(look);
    Parts parts = {0};
    add_head(&parts, position);
    add_trunk_side(&parts, &lifter->body, position);
    add_foot(&parts, &lifter->body, setup, position, 1.0);
    for (size_t i = 2; i-- > 0;) {
        add_limb(&parts, &lifter->body, position, &LEG[i], 1.0);
    }
    for (size_t i = 3; i-- > 0;) {
        add_limb(&parts, &lifter->body, position, &ARM[i], 1.0);
    }
    draw_wedge(board, fit, lifter, setup, position, &pens);
    for (int i = 0; i < parts.count; i++) {
        draw_part(board, fit, false, &parts.part[i], &pens);
    }
    draw_joints(board, fit, false, &parts, &pens);
    draw_bar_side(board, fit, lifter, position, &pens);
}

PlumbDiscPlace plumb_disc_place(const PlumbDrawing *drawing)
{
    const PlumbPosition *position = &drawing->answer->start;
    const double true_m = 0.5 * drawing->lifter->equipment.knurl_stop_m;
    double widest_m = position->point[PLUMB_PT_shoulder].z + 0.08;
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        widest_m = fmax(widest_m, position->point[i].z + 0.08);
    }
    const bool broken = widest_m + 0.06 < true_m;
    return (PlumbDiscPlace){broken ? widest_m + 0.06 : true_m, broken};
}

static void draw_box_front(const PlumbBoard *board, const PlumbFit *fit, PlumbPen pen,
                           PlumbVec3 centre_m, double half_z_m, double half_y_m)
{
    const PlumbVec2 a =
        plumb_fit_front(fit, (PlumbVec3){centre_m.x, centre_m.y + half_y_m, centre_m.z + half_z_m});
    const PlumbVec2 b =
        plumb_fit_front(fit, (PlumbVec3){centre_m.x, centre_m.y - half_y_m, centre_m.z - half_z_m});
    plumb_scene_rect(board->scene, pen, (PlumbTag){PLUMB_TAG_POINT, PLUMB_PT_bar},
                     (PlumbRect){a.x, a.y, b.x - a.x, b.y - a.y});
}

/* Two short slanted strokes: the bar is longer than drawn. */
static void draw_break(const PlumbBoard *board, const PlumbFit *fit, PlumbVec3 at_m)
{
    const PlumbVec2 at = plumb_fit_front(fit, at_m);
    const PlumbVec2 gap[4] = {{at.x - 1.1, at.y + 1.9},
                              {at.x - 0.1, at.y - 1.9},
                              {at.x + 1.1, at.y - 1.9},
                              {at.x + 0.1, at.y + 1.9}};
    plumb_scene_path(board->scene, (PlumbPen){.fill = PLUMB_ROLE_paper}, TAG_NONE, gap, 4, true);
    plumb_scene_line(board->scene, PEN_BAR, TAG_NONE, gap[0], gap[1]);
    plumb_scene_line(board->scene, PEN_BAR, TAG_NONE, gap[2], gap[3]);
}

static void draw_bar_front(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                           const PlumbPosition *position, const Pens *pens)
{
    const PlumbDiscPlace place = plumb_disc_place(board->drawing);
    const PlumbVec3 bar = position->point[PLUMB_PT_bar];
    const double shaft = 0.5 * lifter->equipment.shaft_diameter_m;
    draw_box_front(board, fit, pens->bar, bar, place.inner_m + PLUMB_DISC_DRAWN_M + 0.05, shaft);
    for (int i = 0; i < 2; i++) {
        const double side = i == 0 ? 1.0 : -1.0;
        const double z = side * (place.inner_m + 0.5 * PLUMB_DISC_DRAWN_M);
        draw_box_front(board, fit, pens->bar, (PlumbVec3){bar.x, bar.y, z},
                       0.5 * PLUMB_DISC_DRAWN_M, 0.5 * lifter->equipment.disc_diameter_m);
        if (place.broken && pens->tag == PLUMB_TAG_POINT) {
            draw_break(board, fit, (PlumbVec3){bar.x, bar.y, side * (place.inner_m - 0.045)});
        }
    }
}

static double depth_of(const Part *part)
{
    double sum = 0.0;
    for (int i = 0; i < part->count; i++) {
        sum += part->centre_m[i].x;
    }
    return sum / part->count;
}

/* What lies further back is drawn first. */
static void sort_by_depth(Parts *parts)
{
    for (int i = 1; i < parts->count; i++) {
        const Part part = parts->part[i];
        int j = i;
        while (j > 0 && depth_of(&parts->part[j - 1]) > depth_of(&part)) {
            parts->part[j] = parts->part[j - 1];
            j--;
        }
        parts->part[j] = part;
    }
}

void plumb_figure_front(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                        const PlumbSetup *setup, const PlumbPosition *position, PlumbLook look)
{
    const Pens pens = pens_of(look);
    Parts parts = {0};
    add_trunk_front(&parts, &lifter->body, position);
    add_head(&parts, position);
    for (int side = 0; side < 2; side++) {
        const double sign = side == 0 ? 1.0 : -1.0;
        for (size_t i = 0; i < 2; i++) {
            add_limb(&parts, &lifter->body, position, &LEG[i], sign);
        }
        for (size_t i = 0; i < 3; i++) {
            add_limb(&parts, &lifter->body, position, &ARM[i], sign);
        }
        add_foot(&parts, &lifter->body, setup, position, sign);
    }
    sort_by_depth(&parts);
    /* The bar comes before whatever lies ahead of it or holds it. */
    const double bar_x = position->point[PLUMB_PT_bar].x - 0.03;
    bool bar_drawn = false;
    for (int i = 0; i < parts.count; i++) {
        if (!bar_drawn && depth_of(&parts.part[i]) > bar_x) {
            draw_bar_front(board, fit, lifter, position, &pens);
            bar_drawn = true;
        }
        draw_part(board, fit, true, &parts.part[i], &pens);
    }
    if (!bar_drawn) {
        draw_bar_front(board, fit, lifter, position, &pens);
    }
    const PlumbVec3 hip = position->point[PLUMB_PT_hip];
    const PlumbVec3 shoulder = position->point[PLUMB_PT_shoulder];
    const PlumbVec3 lumbar = position->point[PLUMB_PT_lumbar];
    const PlumbVec3 line[3][2] = {
        {hip, mirrored(hip, -1.0)}, {middle(hip), lumbar}, {lumbar, middle(shoulder)}};
    for (int i = 0; i < 3; i++) {
        plumb_scene_line(board->scene, pens.joint_line, TAG_NONE, plumb_fit_front(fit, line[i][0]),
                         plumb_fit_front(fit, line[i][1]));
    }
    draw_joints(board, fit, true, &parts, &pens);
}

double plumb_ground_m(const PlumbSetup *setup)
{
    return setup->lift == PLUMB_DEADLIFT ? -setup->deficit_m : 0.0;
}

void plumb_extent_add(PlumbExtent *extent, const PlumbLifter *lifter, const PlumbSetup *setup,
                      const PlumbPosition *position)
{
    const double thick = 1.42 * lifter->body.thigh_half_thickness_m;
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        const PlumbVec3 p = position->point[i];
        const bool trunk = i == PLUMB_PT_hip || i == PLUMB_PT_lumbar || i == PLUMB_PT_shoulder;
        const double grow = trunk ? thick : 0.5 * thick;
        extent->left_m = fmin(extent->left_m, p.x - (i == PLUMB_PT_heel ? 0.0 : grow));
        extent->right_m = fmax(extent->right_m, p.x + (i == PLUMB_PT_toe ? 0.0 : grow));
        extent->top_m = fmax(extent->top_m, p.y + grow);
        extent->half_m = fmax(extent->half_m, fabs(p.z) + 0.04);
    }
    const double head = 0.25 * lifter->body.head_neck_m;
    const double disc = 0.5 * lifter->equipment.disc_diameter_m;
    const PlumbVec3 bar = position->point[PLUMB_PT_bar];
    extent->left_m = fmin(extent->left_m, fmin(position->head_top.x - head, bar.x - disc));
    extent->right_m = fmax(extent->right_m, fmax(position->head_top.x + head, bar.x + disc));
    extent->top_m = fmax(extent->top_m, fmax(position->head_top.y + 0.02, bar.y + disc));
    extent->bottom_m = fmin(extent->bottom_m, fmin(plumb_ground_m(setup), bar.y - disc));
}
