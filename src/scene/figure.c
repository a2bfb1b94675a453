/* SPDX-License-Identifier: MIT */
/* Draws the figure: links from the side and from the front, bar and discs. */
#include "scene/figure.h"

#include "scene/parts.h"

#include <math.h>
#include <stddef.h>

static const double MM_PER_M = 1000.0;

/* Two bars nearer than this on paper are one. */
static const double SAME_PLACE_MM = 0.4;

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

static void draw_part(const PlumbBoard *board, const PlumbFit *fit, bool front,
                      const PlumbPart *part, const Pens *pens)
{
    PlumbRound round[PLUMB_PART_BALLS];
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
                        const PlumbParts *parts, const Pens *pens)
{
    const bool inked = pens->tag == PLUMB_TAG_POINT;
    const double radius = inked ? fmax(0.7, 12.0 / fit->scale_n) : 0.5;
    PlumbPen joint = pens->joint_line;
    joint.dash = PLUMB_SOLID;
    joint.fill = inked ? PLUMB_ROLE_paper : PLUMB_ROLE_none;
    for (int i = 0; i < parts->count; i++) {
        const PlumbPart *part = &parts->part[i];
        if (part->joint_line) {
            plumb_scene_line(board->scene, pens->joint_line, TAG_NONE,
                             rounded(fit, front, part->centre_m[0], 0.0).centre_mm,
                             rounded(fit, front, part->centre_m[part->count - 1], 0.0).centre_mm);
        }
    }
    for (int i = 0; i < parts->count; i++) {
        const PlumbPart *part = &parts->part[i];
        if (part->joint < PLUMB_POINT_COUNT) {
            const PlumbTag tag = inked ? (PlumbTag){PLUMB_TAG_POINT, (int)part->joint} : TAG_NONE;
            plumb_scene_circle(board->scene, joint, tag,
                               rounded(fit, front, part->centre_m[0], 0.0).centre_mm, radius);
        }
    }
}

void plumb_bar_side(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                    const PlumbPosition *position, PlumbLook look)
{
    const Pens pens = pens_of(look);
    const PlumbTag tag = {pens.tag, pens.tag == PLUMB_TAG_POINT ? PLUMB_PT_bar : 0};
    const PlumbVec2 at = plumb_fit_side(fit, position->point[PLUMB_PT_bar]);
    const double mm = MM_PER_M / fit->scale_n;
    PlumbPen disc = pens.bar;
    disc.fill = PLUMB_ROLE_none;
    PlumbPen bar = pens.bar;
    bar.fill = pens.tag == PLUMB_TAG_POINT ? PLUMB_ROLE_bar : PLUMB_ROLE_none;
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
        plumb_between(heel, toe, lifter->body.ball_of_foot_m / lifter->body.foot_length_m);
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
    PlumbParts parts;
    plumb_parts_side(&parts, &lifter->body, setup, position);
    draw_wedge(board, fit, lifter, setup, position, &pens);
    for (int i = 0; i < parts.count; i++) {
        draw_part(board, fit, false, &parts.part[i], &pens);
    }
    draw_joints(board, fit, false, &parts, &pens);
}

PlumbDiscPlace plumb_disc_place(const PlumbDrawing *drawing)
{
    const PlumbPosition *position = &drawing->answer->start;
    const double true_m = 0.5 * drawing->lifter->equipment.knurl_stop_m;
    double widest_m = 0.0;
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        widest_m = fmax(widest_m, position->point[i].z);
    }
    const double inner_m = widest_m + 0.11; /* room for hand, foot and the break */
    const bool broken = inner_m < true_m;
    return (PlumbDiscPlace){broken ? inner_m : true_m, broken};
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
    const PlumbVec3 inked = board->drawing->answer->start.point[PLUMB_PT_bar];
    if (pens->tag == PLUMB_TAG_PENCIL && board->drawing->answer->outcome != PLUMB_NO_POSE &&
        fabs(bar.y - inked.y) * MM_PER_M < SAME_PLACE_MM * fit->scale_n) {
        return; /* the inked bar covers it */
    }
    const double shaft = 0.5 * lifter->equipment.shaft_diameter_m;
    draw_box_front(board, fit, pens->bar, bar,
                   place.inner_m + PLUMB_DISC_DRAWN_M + PLUMB_SLEEVE_DRAWN_M, shaft);
    for (int i = 0; i < 2; i++) {
        const double side = i == 0 ? 1.0 : -1.0;
        const double z = side * (place.inner_m + 0.5 * PLUMB_DISC_DRAWN_M);
        draw_box_front(board, fit, pens->bar, (PlumbVec3){bar.x, bar.y, z},
                       0.5 * PLUMB_DISC_DRAWN_M, 0.5 * lifter->equipment.disc_diameter_m);
        if (place.broken && pens->tag == PLUMB_TAG_POINT) {
            draw_break(board, fit, (PlumbVec3){bar.x, bar.y, side * (place.inner_m - 0.04)});
        }
    }
}

void plumb_figure_front(const PlumbBoard *board, const PlumbFit *fit, const PlumbLifter *lifter,
                        const PlumbSetup *setup, const PlumbPosition *position, PlumbLook look)
{
    const Pens pens = pens_of(look);
    PlumbParts parts;
    plumb_parts_front(&parts, &lifter->body, setup, position);
    /* The bar comes before whatever lies ahead of it or holds it. */
    const double bar_x = position->point[PLUMB_PT_bar].x;
    bool bar_drawn = false;
    for (int i = 0; i < parts.count; i++) {
        if (!bar_drawn && plumb_part_depth_m(&parts.part[i]) > bar_x) {
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
    const PlumbVec3 line[3][2] = {{hip, plumb_mirrored(hip, -1.0)},
                                  {(PlumbVec3){hip.x, hip.y, 0.0}, lumbar},
                                  {lumbar, (PlumbVec3){shoulder.x, shoulder.y, 0.0}}};
    for (int i = 0; i < 3; i++) {
        plumb_scene_line(board->scene, pens.joint_line, TAG_NONE, plumb_fit_front(fit, line[i][0]),
                         plumb_fit_front(fit, line[i][1]));
    }
    draw_joints(board, fit, true, &parts, &pens);
}
