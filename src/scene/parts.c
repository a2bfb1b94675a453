/* SPDX-License-Identifier: MIT */
/* The lifter as a mechanism: which links there are and how thick they are drawn. */
#include "scene/parts.h"

#include <math.h>
#include <stddef.h>

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

PlumbVec3 plumb_mirrored(PlumbVec3 point_m, double side)
{
    return (PlumbVec3){point_m.x, point_m.y, side * point_m.z};
}

static PlumbVec3 middle(PlumbVec3 p)
{
    return (PlumbVec3){p.x, p.y, 0.0};
}

PlumbVec3 plumb_between(PlumbVec3 a_m, PlumbVec3 b_m, double share)
{
    return (PlumbVec3){a_m.x + share * (b_m.x - a_m.x), a_m.y + share * (b_m.y - a_m.y),
                       a_m.z + share * (b_m.z - a_m.z)};
}

static PlumbPart *next(PlumbParts *parts)
{
    PlumbPart *part = &parts->part[parts->count++];
    *part = (PlumbPart){.joint = PLUMB_POINT_COUNT, .least_depth_m = -HUGE_VAL};
    return part;
}

static void ball(PlumbPart *part, PlumbVec3 centre_m, double radius_m)
{
    part->centre_m[part->count] = centre_m;
    part->radius_m[part->count] = radius_m;
    part->count++;
}

static void add_limb(PlumbParts *parts, const PlumbBody *body, const PlumbPosition *position,
                     const LimbRow *row, double side)
{
    PlumbPart *part = next(parts);
    const double thickness = body->length_m[row->thickness];
    ball(part, plumb_mirrored(position->point[row->from], side), thickness * row->from_share);
    ball(part, plumb_mirrored(position->point[row->to], side), thickness * row->to_share);
    part->joint_line = true;
    part->joint = row->from;
    if (row->to == PLUMB_PT_grip) {
        part->least_depth_m = position->point[PLUMB_PT_bar].x + 0.001; /* it holds the bar */
    }
}

/* Heel, ankle, ball and toe of one foot, on the shoe where there is one. */
static void add_foot(PlumbParts *parts, const PlumbBody *body, const PlumbSetup *setup,
                     const PlumbPosition *position, double side)
{
    PlumbPart *part = next(parts);
    const double r = 0.5 * body->shin_half_thickness_m;
    const PlumbVec3 heel = position->point[PLUMB_PT_heel];
    const PlumbVec3 toe = position->point[PLUMB_PT_toe];
    const double length = body->foot_length_m;
    PlumbVec3 back = plumb_between(heel, toe, 1.6 * r / length);
    PlumbVec3 front = plumb_between(heel, toe, body->ball_of_foot_m / length);
    PlumbVec3 tip = plumb_between(heel, toe, 1.0 - 0.7 * r / length);
    back.y += 1.6 * r + setup->heel_lift_m;
    front.y += r + setup->ball_lift_m;
    tip.y += 0.7 * r + setup->ball_lift_m;
    ball(part, plumb_mirrored(position->point[PLUMB_PT_ankle], side), 1.7 * r);
    ball(part, plumb_mirrored(back, side), 1.6 * r);
    ball(part, plumb_mirrored(front, side), r);
    ball(part, plumb_mirrored(tip, side), 0.7 * r);
    part->joint = PLUMB_PT_ankle;
}

/* Neck and head in line with the thorax. */
static void add_head(PlumbParts *parts, const PlumbPosition *position)
{
    const PlumbVec3 base = middle(position->point[PLUMB_PT_shoulder]);
    const PlumbVec3 top = position->head_top;
    const double length = hypot(top.x - base.x, top.y - base.y);
    PlumbPart *neck = next(parts);
    ball(neck, plumb_between(base, top, 0.18), 0.15 * length);
    ball(neck, plumb_between(base, top, 0.5), 0.14 * length);
    PlumbPart *head = next(parts);
    ball(head, plumb_between(base, top, 0.56), 0.19 * length);
    ball(head, plumb_between(base, top, 0.76), 0.24 * length);
}

/* Trunk of the side view: pelvis and thorax with the hinge between them. */
static void add_trunk_side(PlumbParts *parts, const PlumbBody *body, const PlumbPosition *position)
{
    const double thick = body->thigh_half_thickness_m;
    const PlumbVec3 hip = position->point[PLUMB_PT_hip];
    const PlumbVec3 lumbar = position->point[PLUMB_PT_lumbar];
    const PlumbVec3 shoulder = position->point[PLUMB_PT_shoulder];
    PlumbPart *thorax = next(parts);
    ball(thorax, lumbar, 1.10 * thick);
    ball(thorax, plumb_between(lumbar, shoulder, 0.68), 1.42 * thick);
    ball(thorax, shoulder, 1.0 * thick);
    thorax->joint_line = true;
    thorax->joint = PLUMB_PT_lumbar;
    PlumbPart *pelvis = next(parts);
    ball(pelvis, hip, 1.30 * thick);
    ball(pelvis, lumbar, 1.10 * thick);
    pelvis->joint_line = true;
}

/* Trunk of the front view, between both hips and both shoulders. */
static void add_trunk_front(PlumbParts *parts, const PlumbBody *body, const PlumbPosition *position)
{
    const double thick = body->thigh_half_thickness_m;
    const PlumbVec3 hip = position->point[PLUMB_PT_hip];
    const PlumbVec3 shoulder = position->point[PLUMB_PT_shoulder];
    PlumbVec3 waist = position->point[PLUMB_PT_lumbar];
    waist.z = 0.72 * hip.z;
    PlumbPart *pelvis = next(parts);
    PlumbPart *thorax = next(parts);
    for (int i = 0; i < 2; i++) {
        const double side = i == 0 ? 1.0 : -1.0;
        ball(pelvis, plumb_mirrored(hip, side), 0.95 * thick);
        ball(pelvis, plumb_mirrored(waist, side), 0.85 * thick);
        ball(thorax, plumb_mirrored(waist, side), 0.85 * thick);
        ball(thorax, (PlumbVec3){shoulder.x, shoulder.y, 0.82 * side * shoulder.z}, 0.72 * thick);
    }
}

double plumb_part_depth_m(const PlumbPart *part)
{
    double sum = 0.0;
    for (int i = 0; i < part->count; i++) {
        sum += part->centre_m[i].x;
    }
    return fmax(sum / part->count, part->least_depth_m);
}

/* What lies further back is drawn first. */
static void sort_by_depth(PlumbParts *parts)
{
    for (int i = 1; i < parts->count; i++) {
        const PlumbPart part = parts->part[i];
        int j = i;
        while (j > 0 && plumb_part_depth_m(&parts->part[j - 1]) > plumb_part_depth_m(&part)) {
            parts->part[j] = parts->part[j - 1];
            j--;
        }
        parts->part[j] = part;
    }
}

void plumb_parts_side(PlumbParts *parts, const PlumbBody *body, const PlumbSetup *setup,
                      const PlumbPosition *position)
{
    parts->count = 0;
    add_head(parts, position);
    add_trunk_side(parts, body, position);
    add_foot(parts, body, setup, position, 1.0);
    for (size_t i = 2; i-- > 0;) {
        add_limb(parts, body, position, &LEG[i], 1.0);
    }
    for (size_t i = 3; i-- > 0;) {
        add_limb(parts, body, position, &ARM[i], 1.0);
    }
}

void plumb_parts_front(PlumbParts *parts, const PlumbBody *body, const PlumbSetup *setup,
                       const PlumbPosition *position)
{
    parts->count = 0;
    add_trunk_front(parts, body, position);
    add_head(parts, position);
    for (int side = 0; side < 2; side++) {
        const double sign = side == 0 ? 1.0 : -1.0;
        for (size_t i = 0; i < 2; i++) {
            add_limb(parts, body, position, &LEG[i], sign);
        }
        for (size_t i = 0; i < 3; i++) {
            add_limb(parts, body, position, &ARM[i], sign);
        }
        add_foot(parts, body, setup, position, sign);
    }
    sort_by_depth(parts);
}
