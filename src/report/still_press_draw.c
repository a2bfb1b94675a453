/* SPDX-License-Identifier: MIT */
/* A still of a bench press drawn: bench, plumb lines through the bar in the hand and through the
 * shoulder, from an end of both sides, and the arms. */
#include "report/still_over.h"

#include <math.h>

static const PlumbTag no_tag = {PLUMB_TAG_NONE, 0};
static const double bench_half_m = 0.15; /* drawn; within the federations' 29 to 32 cm */
static const double bench_trunk_frac = 1.1;
static const double upright_top_m = 1.6;
static const double below_bench_m = 0.12;

/* The arm from the shoulder to the hand. */
static const PlumbPoint arm[] = {PLUMB_PT_shoulder, PLUMB_PT_elbow, PLUMB_PT_wrist, PLUMB_PT_grip};
enum { ARM = sizeof arm / sizeof arm[0] };

static void draw_arm(const PlumbStillOver *over, const PlumbPosition *position, double side,
                     PlumbPen pen)
{
    PlumbVec2 line[ARM];
    for (int i = 0; i < ARM; i++) {
        PlumbVec3 point = position->point[arm[i]];
        point.z *= side;
        line[i] = plumb_still_project(over, point);
    }
    plumb_scene_path(over->scene, pen, no_tag, line, ARM, false);
}

/* A line between a point of each side. */
static void draw_across(const PlumbStillOver *over, PlumbVec3 right, PlumbPen pen)
{
    PlumbVec3 left = right;
    left.z = -right.z;
    plumb_scene_line(over->scene, pen, no_tag, plumb_still_project(over, right),
                     plumb_still_project(over, left));
}

/* What lies on the bench is a picture: the fit knows where the shoulder is and how long the trunk.
 */
static void draw_trunk(const PlumbStillOver *over, const PlumbPosition *position)
{
    const PlumbPen pen = {
        .stroke = PLUMB_ROLE_ink, .weight_mm = PLUMB_FINE_MM, .dash = PLUMB_DASHED};
    const PlumbVec3 shoulder = position->point[PLUMB_PT_shoulder];
    if (over->traced->front) {
        draw_across(over, shoulder, pen);
        return;
    }
    plumb_scene_line(over->scene, pen, no_tag, plumb_still_project(over, shoulder),
                     plumb_still_project(over, position->point[PLUMB_PT_hip]));
}

void plumb_still_press_figure(const PlumbStillOver *over, const PlumbPosition *position,
                              PlumbPen pen)
{
    if (position == &over->traced->position) {
        draw_trunk(over, position);
    }
    draw_arm(over, position, 1.0, pen);
    if (over->traced->front) {
        PlumbVec3 end = position->point[PLUMB_PT_bar];
        end.z = over->stills->ask.disc_z_m;
        draw_arm(over, position, -1.0, pen);
        draw_across(
            over, end,
            (PlumbPen){.stroke = pen.stroke == PLUMB_ROLE_pencil ? pen.stroke : PLUMB_ROLE_bar,
                       .weight_mm = PLUMB_MEDIUM_MM});
    }
}

int plumb_still_press_points(const PlumbStillOver *over, const PlumbPosition *position,
                             PlumbVec3 point[PLUMB_STILL_PRESS_POINTS])
{
    const bool end = over->traced->front;
    int count = 0;
    for (int i = 0; i < ARM; i++) {
        PlumbVec3 at = position->point[arm[i]];
        point[count++] = at;
        at.z = -at.z;
        if (end) {
            point[count++] = at;
        }
    }
    PlumbVec3 bench = position->point[PLUMB_PT_shoulder];
    bench.y = over->stills->setup.bench_height_m - below_bench_m;
    point[count++] = bench;
    if (!end) {
        const PlumbBody *const body = &over->stills->trace.lifter.body;
        bench.x -= body->head_neck_m;
        point[count++] = bench;
        bench.x += body->head_neck_m + bench_trunk_frac * body->trunk_m;
        point[count++] = bench;
    }
    return count;
}

/* The padded surface: along the bench from the side, across it at the shoulders from an end. */
static void draw_bench(const PlumbStillOver *over)
{
    const PlumbBody *const body = &over->stills->trace.lifter.body;
    const PlumbPen pen = {.stroke = PLUMB_ROLE_quiet, .weight_mm = PLUMB_MEDIUM_MM};
    const double top = over->stills->setup.bench_height_m;
    const double x = over->traced->position.point[PLUMB_PT_shoulder].x;
    const bool end = over->traced->front;
    const PlumbVec3 from = {end ? x : x - body->head_neck_m, top, end ? -bench_half_m : 0.0};
    const PlumbVec3 to = {end ? x : x + bench_trunk_frac * body->trunk_m, top,
                          end ? bench_half_m : 0.0};
    plumb_scene_line(over->scene, pen, no_tag, plumb_still_project(over, from),
                     plumb_still_project(over, to));
}

/* An upright line through a place, from below the bench; its top end. */
static PlumbVec2 draw_upright(const PlumbStillOver *over, PlumbVec3 at, PlumbPen pen)
{
    PlumbVec2 end[2];
    at.y = over->stills->setup.bench_height_m - below_bench_m;
    plumb_still_upright(over, at, upright_top_m, end);
    plumb_scene_line(over->scene, pen, no_tag, end[0], end[1]);
    return end[1];
}

void plumb_still_press_behind(const PlumbStillOver *over)
{
    const PlumbPen bar = {
        .stroke = PLUMB_ROLE_bar, .weight_mm = PLUMB_MEDIUM_MM, .dash = PLUMB_CHAIN};
    const PlumbPen shoulder = {
        .stroke = PLUMB_ROLE_mass, .weight_mm = PLUMB_MEDIUM_MM, .dash = PLUMB_CHAIN_DOUBLE};
    const PlumbVec3 *const point = over->traced->position.point;
    const int sides = over->traced->front ? 2 : 1;
    draw_bench(over);
    for (int i = 0; i < sides; i++) {
        PlumbVec3 hand = point[PLUMB_PT_grip];
        PlumbVec3 joint = point[PLUMB_PT_shoulder];
        hand.z *= i == 0 ? 1.0 : -1.0;
        joint.z *= i == 0 ? 1.0 : -1.0;
        const PlumbVec2 head[2] = {draw_upright(over, hand, bar),
                                   draw_upright(over, joint, shoulder)};
        if (fabs(head[0].x - head[1].x) < 1.0) {
            plumb_still_letter(over, head[0], PLUMB_MIDDLE, sides == 2 ? "H = S" : "B = S");
            continue;
        }
        const bool left = head[0].x < head[1].x;
        plumb_still_letter(over, head[0], left ? PLUMB_END : PLUMB_START, sides == 2 ? "H" : "B");
        plumb_still_letter(over, head[1], left ? PLUMB_START : PLUMB_END, "S");
    }
}
