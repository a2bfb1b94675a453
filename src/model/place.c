/* SPDX-License-Identifier: MIT */
/* Places the figure of a pose: bar, centre of mass, clearance of the leg to the bar. */
#include "model/measure.h"

PlumbVec2 plumb_rig_bar(const PlumbRig *rig, PlumbPose q, PlumbVec2 pull_bar)
{
    return rig->lift == PLUMB_DEADLIFT ? pull_bar : rig_trunk_point(q, rig->bar_u, rig->bar_v);
}

PlumbVec2 plumb_rig_com(const PlumbRig *rig, PlumbPose q, PlumbVec3 knee, PlumbVec2 bar)
{
    const double s = sin(q.thorax_lean_rad);
    const double c = cos(q.thorax_lean_rad);
    const double inverse = 1.0 / rig->total_mass;
    const PlumbVec2 com = {
        inverse * (rig->moment_fixed.x + rig->moment_knee * knee.x + rig->moment_hip * q.hip_x_m +
                   rig->moment_u * s - rig->moment_v * c + rig->moment_bar * bar.x),
        inverse *
            (rig->moment_fixed.y + rig->moment_knee * knee.y + rig->moment_hip * q.hip_height_m +
             rig->moment_u * c + rig->moment_v * s + rig->moment_bar * bar.y)};
    return com;
}

/* The nearest point of a segment to the bar. */
typedef struct Nearest {
    double distance;
    double share;   /* 0 at the first end, 1 at the second */
    double cross;   /* positive where the bar lies ahead of the segment's line */
    PlumbVec2 away; /* unit, from the nearest point to the bar */
} Nearest;

/* from: the lower end. Ahead of a line that runs up and forward means to its right. */
static Nearest nearest_on(PlumbVec2 from, PlumbVec2 to, PlumbVec2 bar)
{
    const PlumbVec2 along = {to.x - from.x, to.y - from.y};
    const PlumbVec2 way = {bar.x - from.x, bar.y - from.y};
    const double square = along.x * along.x + along.y * along.y;
    Nearest n;
    n.share = clamp((way.x * along.x + way.y * along.y) / square, 0.0, 1.0);
    const PlumbVec2 off = {way.x - n.share * along.x, way.y - n.share * along.y};
    n.distance = sqrt(off.x * off.x + off.y * off.y);
    n.cross = way.x * along.y - way.y * along.x;
    const double inverse = n.distance > 0.0 ? 1.0 / n.distance : 0.0;
    n.away.x = off.x * inverse;
    n.away.y = off.y * inverse;
    return n;
}

PlumbClearance plumb_rig_clearance(const PlumbRig *rig, PlumbVec2 knee, PlumbVec2 hip,
                                   PlumbVec2 bar)
{
    const PlumbVec2 ankle = {rig->ankle.x, rig->ankle.y};
    const Nearest shin = nearest_on(ankle, knee, bar);
    const Nearest thigh = nearest_on(knee, hip, bar);
    /* The side is that of the polyline's nearest segment; at the knee's corner, which points
     * forward, a bar that sees only the corner is ahead. */
    const bool at_corner = shin.share >= 1.0 && thigh.share <= 0.0;
    const double nearest_cross = shin.distance <= thigh.distance ? shin.cross : thigh.cross;
    const double side = at_corner || nearest_cross >= 0.0 ? 1.0 : -1.0;
    const double shin_gap = side * shin.distance - rig->shin_half_thickness;
    const double thigh_gap = side * thigh.distance - rig->thigh_half_thickness;
    const bool shin_counts = side > 0.0 ? shin_gap <= thigh_gap : shin.distance <= thigh.distance;
    const Nearest *near = shin_counts ? &shin : &thigh;
    const double fx = side * near->away.x;
    const double fy = side * near->away.y;
    const double knee_share = shin_counts ? near->share : 1.0 - near->share;
    const double hip_share = shin_counts ? 0.0 : near->share;
    const PlumbClearance clearance = {
        (shin_counts ? shin_gap : thigh_gap) - rig->bar_radius,
        {-fx * knee_share, -fy * knee_share},
        {-fx * hip_share, -fy * hip_share},
        {fx, fy},
        !shin_counts,
        near->share,
        side,
    };
    return clearance;
}
