/* SPDX-License-Identifier: MIT */
/* How the ends of the window and of the low-effort range move: a window's end is the pose in which
 * a requirement is just met; a range's end has J(s) = 1.05 J_least, whose least moves only with the
 * factor itself (envelope theorem) unless the window holds it. */
#include "study/ends.h"

#include "base/roots.h"

#include <stddef.h>

static const double tie_m = 1e-8;      /* two margins this near are met at once; m or rad */
static const double allowance = 1.05;  /* of the least summed effort, as the range is defined */
static const double tie_effort = 1e-9; /* share of the summed effort */
static const double same_s = 1e-9;     /* m or rad */

/* The family's member at s as a spot with s held. */
static bool family_spot(const PlumbCase *c, double s, const PlumbState *near, PlumbSpot *spot)
{
    const bool pull = c->setup.lift == PLUMB_DEADLIFT;
    PlumbState state = *near;
    if (!plumb_family_at(c, s, &state)) {
        return false;
    }
    PlumbProblem problem =
        plumb_lead_problem(&c->setup, pull ? PLUMB_LEAD_HIP_HEIGHT : PLUMB_LEAD_SHIN_ANGLE);
    problem.constraint[2].target = s;
    *spot = plumb_spot(c, &c->rig, &problem, &state, false);
    plumb_spot_from_setup(spot);
    spot->equation[2].from_setup = false;
    plumb_spot_ready(spot);
    return true;
}

/* The same pose, held by a requirement in place of s. */
static void hold_by(const PlumbSpot *family, PlumbEnd end, PlumbSpot *spot)
{
    *spot = *family;
    spot->equation[2].kind = PLUMB_EQ_MARGIN;
    spot->equation[2].end = end;
    plumb_spot_ready(spot);
}

static bool is_requirement(const PlumbCase *c, PlumbEnd end)
{
    const PlumbEnd first =
        c->setup.lift == PLUMB_DEADLIFT ? PLUMB_END_shoulder_behind : PLUMB_END_ankle_dorsiflexion;
    return end >= first && end <= PLUMB_END_hip_internal_rotation;
}

static void window_end(const PlumbCase *c, double s, PlumbEnd end, const PlumbState *near,
                       PlumbWindowEnd *at)
{
    PlumbSpot family;
    at->end = end;
    at->s = s;
    at->tied = false;
    at->has_spot = is_requirement(c, end) && family_spot(c, s, near, &family);
    if (!at->has_spot) {
        return;
    }
    hold_by(&family, end, &at->spot);
    plumb_smooth_begin(&at->spot, PLUMB_SMOOTH_EFFORT_COUNT, &at->smooth);
    const double most = c->setup.shoulder_ahead_max_frac * c->lifter->body.stature_m;
    for (int i = PLUMB_END_shoulder_behind; i <= PLUMB_END_hip_internal_rotation; i++) {
        const PlumbEnd other = (PlumbEnd)i;
        if (other != end && is_requirement(c, other) && !at->tied &&
            fabs(plumb_margin_value(&c->rig, &at->spot.eval, most, c->lifter->limit_rad, other)) <
                tie_m) {
            at->tied = true;
            hold_by(&family, other, &at->second);
        }
    }
}

static bool effort_spot(const PlumbCase *c, double s, const PlumbState *near, PlumbEffortSpot *at)
{
    if (!family_spot(c, s, near, &at->spot)) {
        return false;
    }
    at->base = plumb_effort_base(&at->spot);
    const PlumbMotion push = plumb_spot_push(&at->spot, 2);
    plumb_smooth_begin(&at->spot, PLUMB_SMOOTH_EFFORT_COUNT, &at->smooth);
    const PlumbSmooth slope = plumb_smooth_slope(&at->spot, &at->smooth, NULL, &push);
    at->by_s = plumb_effort_slope(&c->capacity, &at->base, &slope, 0.0, 1.0).summed;
    return push.known;
}

typedef struct Least {
    const PlumbCase *c;
    PlumbState state;
} Least;

static double effort_at(double s, void *context)
{
    Least *const least = context;
    PlumbState state = least->state;
    if (!plumb_family_at(least->c, s, &state)) {
        return (double)NAN;
    }
    least->state = state;
    return plumb_case_effort(least->c, &state, NULL);
}

/* The least lies within the range that was found around it. */
static bool find_least(const PlumbCase *c, const PlumbInterval *window, const PlumbInterval *range,
                       const PlumbState *near, PlumbEnds *ends)
{
    Least least = {c, *near};
    double value;
    double s = plumb_least_bracketed(effort_at, &least, range->low, range->high, 1e-10, &value);
    const double edge[2] = {window->low, window->high};
    ends->least_at = -1;
    for (int i = 0; i < 2; i++) {
        const double at_edge = effort_at(edge[i], &least);
        if (at_edge <= value) {
            value = at_edge;
            s = edge[i];
            ends->least_at = i;
        }
    }
    return effort_spot(c, s, &least.state, &ends->least);
}

void plumb_ends_begin(const PlumbCase *c, const PlumbInterval *window,
                      const PlumbInterval *low_effort, const PlumbState *near, PlumbEnds *ends)
{
    ends->c = c;
    ends->exists = window->exists;
    if (!window->exists) {
        return;
    }
    window_end(c, window->low, window->low_end, near, &ends->window[0]);
    window_end(c, window->high, window->high_end, near, &ends->window[1]);
    ends->exists = find_least(c, window, low_effort, near, ends);
    const double s[2] = {low_effort->low, low_effort->high};
    const PlumbEnd end[2] = {low_effort->low_end, low_effort->high_end};
    for (int i = 0; i < 2 && ends->exists; i++) {
        PlumbRangeEnd *const at = &ends->range[i];
        at->end = end[i];
        ends->exists = effort_spot(c, s[i], near, &at->at);
        const double level = allowance * ends->least.base.effort.summed;
        const double over = at->at.base.effort.summed - level;
        at->tied = end[i] == PLUMB_END_effort ? fabs(s[i] - ends->window[i].s) < same_s
                                              : fabs(over) < tie_effort * level;
    }
}

/* What every slope of this file is taken by. */
typedef struct Way {
    const PlumbVary *vary;
    PlumbDrive drive;
    double direction;
} Way;

/* smooth: of the same pose, whatever holds it. */
static double spot_s_slope(const PlumbSpot *spot, const PlumbSmoothBase *smooth, const Way *way,
                           unsigned *kink)
{
    const PlumbMotion motion = plumb_spot_motion(spot, way->vary, &way->drive, way->direction);
    if (!motion.known) {
        return (double)NAN;
    }
    *kink |= motion.kink;
    if (spot->rig.lift == PLUMB_DEADLIFT) {
        return motion.dv[PLUMB_Y];
    }
    return plumb_smooth_slope(spot, smooth, way->vary, &motion)
        .value[PLUMB_SMOOTH_ANGLE + PLUMB_ANG_shin];
}

/* The end of the scan for a family, a share of the leg: reached where nothing else ends it. */
static double scan_slope(const PlumbEnds *ends, const PlumbVary *vary, int side)
{
    double sample[PLUMB_STENCIL];
    for (int k = 0; k < PLUMB_STENCIL; k++) {
        PlumbCase at = *ends->c;
        double end[2];
        double step;
        at.rig = vary->at[k].rig;
        plumb_family_range(&at, &end[0], &end[1], &step);
        sample[k] = end[side];
    }
    return vary_slope(vary, sample);
}

/* A requirement that comes first ends it: of two met at once, the one that moves inwards more. */
static double inner(int side, double direction, double a, double b)
{
    const bool take_a = side == 0 ? direction * a >= direction * b : direction * a <= direction * b;
    return take_a ? a : b;
}

static double window_slope(const PlumbEnds *ends, const Way *way, int side, unsigned *kink)
{
    const PlumbWindowEnd *const at = &ends->window[side];
    if (at->end == PLUMB_END_none) {
        return scan_slope(ends, way->vary, side);
    }
    if (!at->has_spot) {
        *kink |= PLUMB_KINK_NO_SLOPE;
        return (double)NAN;
    }
    const double first = spot_s_slope(&at->spot, &at->smooth, way, kink);
    if (!at->tied) {
        return first;
    }
    *kink |= PLUMB_KINK_END_CHANGES;
    return inner(side, way->direction, first, spot_s_slope(&at->second, &at->smooth, way, kink));
}

/* dJ at held s. */
static double effort_slope(const PlumbEnds *ends, const PlumbEffortSpot *at, const Way *way,
                           unsigned *kink)
{
    const PlumbMotion motion = plumb_spot_motion(&at->spot, way->vary, &way->drive, way->direction);
    const PlumbSmooth slope = plumb_smooth_slope(&at->spot, &at->smooth, way->vary, &motion);
    const PlumbEffortSlope effort = plumb_effort_slope(&ends->c->capacity, &at->base, &slope,
                                                       way->vary->capacity_slope, way->direction);
    *kink |= motion.kink | effort.kink;
    return motion.known ? effort.summed : (double)NAN;
}

static double range_slope(const PlumbEnds *ends, const Way *way, int side, double window,
                          double least, unsigned *kink)
{
    const PlumbRangeEnd *const at = &ends->range[side];
    if (at->end != PLUMB_END_effort && !at->tied) {
        return window;
    }
    const double own = effort_slope(ends, &at->at, way, kink);
    const double by_effort = (allowance * least - own) / at->at.by_s;
    if (!at->tied) {
        return by_effort;
    }
    *kink |= PLUMB_KINK_RANGE_CLIPPED;
    return inner(side, way->direction, window, by_effort);
}

PlumbEndsSlope plumb_ends_slope(const PlumbEnds *ends, const PlumbVary *vary, double turn,
                                double direction)
{
    const double unknown = (double)NAN;
    PlumbEndsSlope slope = {{unknown, unknown}, {unknown, unknown}, 0};
    const Way way = {vary, {.turn = turn}, direction};
    if (!ends->exists) {
        return slope;
    }
    for (int i = 0; i < 2; i++) {
        slope.window[i] = window_slope(ends, &way, i, &slope.kink);
    }
    double least = effort_slope(ends, &ends->least, &way, &slope.kink);
    if (ends->least_at >= 0) {
        least += ends->least.by_s * slope.window[ends->least_at];
    }
    for (int i = 0; i < 2; i++) {
        slope.range[i] = range_slope(ends, &way, i, slope.window[i], least, &slope.kink);
    }
    return slope;
}
