/* SPDX-License-Identifier: MIT */
/* The touch that auto means is the middle of the range whose ends are roots: of a limit's margin
 * g(t, p) = 0, or of the effort J(t, p) = 1.05 J(t0, p) where t0 has the least. By the implicit
 * function theorem an end moves by -g_p / g_t, or by (1.05 dJ0 - J_p) / J_t; J0 moves by J_p alone
 * where t0 lies inside the window (J_t = 0), along with the window's end where it lies there. */
#include "study/press_ends.h"

#include <plumbar/setup.h>

/* What is met within these is met: the ends are found to 1e-10 m. */
static const double same_touch_m = 1e-7;
static const double same_margin = 1e-7; /* m or rad */
static const double same_effort_frac = 1e-7;

static double end_of(const PlumbInterval *interval, int side)
{
    return side == 0 ? interval->low : interval->high;
}

static PlumbEnd reason_of(const PlumbInterval *interval, int side)
{
    return side == 0 ? interval->low_end : interval->high_end;
}

static bool at_reach(const PlumbPressEnds *ends, int side)
{
    return reason_of(&ends->range.window, side) == PLUMB_END_elbows_out_of_reach &&
           !(side == 0 && ends->by_flare);
}

/* Where the range may begin or end. */
static double bound_of(const PlumbPressRange *range, int side)
{
    const PlumbInterval *const window = &range->window;
    return side == 0 ? fmax(window->low, fmin(range->flare_m, window->high)) : window->high;
}

void plumb_press_ends_begin(const PlumbPressRange *range, const PlumbPressInputs *fixed,
                            PlumbPressEnds *ends)
{
    *ends = (PlumbPressEnds){.range = *range, .least_at = -1};
    if (!range->window.exists) {
        return;
    }
    PlumbPressTouch least;
    plumb_press_touch_jets(fixed, jet_fixed(range->least_m), false, &least);
    ends->by_flare = range->flare_m > range->window.low;
    const double allowed = PLUMB_PRESS_EFFORT_ALLOWANCE * least.of[PLUMB_PRESS_OUT_summed_effort].v;
    for (int side = 0; side < 2; side++) {
        const double bound = bound_of(range, side);
        const double effort = end_of(&range->low_effort, side);
        PlumbPressTouch there;
        plumb_press_touch_jets(fixed, jet_fixed(bound), false, &there);
        plumb_press_touch_jets(fixed, jet(end_of(&range->window, side), 1.0, 0.0), false,
                               &ends->window_by_touch[side]);
        plumb_press_touch_jets(fixed, jet(effort, 1.0, 0.0), false, &ends->effort_by_touch[side]);
        const double at = there.of[PLUMB_PRESS_OUT_summed_effort].v;
        const bool tied = fabs(at - allowed) <= same_effort_frac * allowed && allowed > 0.0;
        ends->by_effort[side] = reason_of(&range->low_effort, side) == PLUMB_END_effort || tied;
        ends->by_window[side] = reason_of(&range->low_effort, side) != PLUMB_END_effort ||
                                fabs(bound - effort) <= same_touch_m;
        if (fabs(range->least_m - bound) <= same_touch_m) {
            ends->least_at = side;
        }
    }
}

/* Of two ends the one further inside counts, here on the side to which the factor goes. */
static double inner(double a, double b, int side, double direction)
{
    if (isnan(a) || isnan(b)) {
        return (double)NAN;
    }
    return (side == 0) == (direction > 0.0) ? fmax(a, b) : fmin(a, b);
}

/* The window's end moves with each requirement that is just met there. */
static double window_slope(const PlumbPressEnds *ends, const PlumbPressInputs *in, int side,
                           unsigned *kink)
{
    const PlumbSetting *const setting = plumb_setting(PLUMB_SET_touch);
    const double at = end_of(&ends->range.window, side);
    const PlumbPressTouch *const by_touch = &ends->window_by_touch[side];
    const double inwards = side == 0 ? 1.0 : -1.0;
    PlumbPressTouch by_factor;
    plumb_press_touch_jets(in, jet_fixed(at), false, &by_factor);
    double slope = 0.0;
    int met = fabs(at - (side == 0 ? setting->min_si : setting->max_si)) <= same_touch_m ? 1 : 0;
    for (int i = 0; i < PLUMB_PRESS_MARGIN_COUNT; i++) {
        const double rise = by_touch->margin[i].d;
        if (fabs(by_touch->margin[i].v) > same_margin || rise * inwards <= 0.0) {
            continue;
        }
        const double own = -by_factor.margin[i].d / rise;
        slope = met == 0 ? own : inner(slope, own, side, in->direction);
        met++;
    }
    *kink |= met > 1 ? (unsigned)PLUMB_KINK_END_CHANGES : 0U;
    return met > 0 ? slope : (double)NAN;
}

/* Where the range may begin moves with the place under the elbow at the angle wanted, as far as the
 * window allows it. */
static double bound_slope(const PlumbPressEnds *ends, const PlumbPressInputs *in, int side,
                          unsigned *kink)
{
    const PlumbInterval *const window = &ends->range.window;
    const double flare = ends->range.flare_m;
    if (side == 1 || flare < window->low - same_touch_m) {
        return window_slope(ends, in, side, kink);
    }
    const double own = jet_mul(in->upper, jet_cos(in->flare)).d;
    if (flare <= window->low + same_touch_m) {
        *kink |= PLUMB_KINK_END_CHANGES;
        return inner(own, window_slope(ends, in, 0, kink), 0, in->direction);
    }
    if (flare < window->high - same_touch_m) {
        return own;
    }
    const double high = window_slope(ends, in, 1, kink);
    if (flare > window->high + same_touch_m) {
        return high;
    }
    *kink |= PLUMB_KINK_END_CHANGES;
    return inner(own, high, 1, in->direction);
}

static double effort_by_factor(const PlumbPressInputs *in, Jet touch, bool reach)
{
    PlumbPressTouch out;
    plumb_press_touch_jets(in, touch, reach, &out);
    return out.of[PLUMB_PRESS_OUT_summed_effort].d;
}

double plumb_press_middle_slope(const PlumbPressEnds *ends, const PlumbPressInputs *in,
                                unsigned *kink)
{
    if (!ends->range.window.exists) {
        return 0.0; /* auto stays at the touch of the grid that misses least */
    }
    double window[2] = {0.0, 0.0};
    for (int side = 0; side < 2; side++) {
        if (ends->by_window[side] || ends->least_at == side) {
            window[side] = bound_slope(ends, in, side, kink);
        }
    }
    const int at = ends->least_at;
    const double least =
        at < 0 ? effort_by_factor(in, jet_fixed(ends->range.least_m), false)
               : effort_by_factor(in, jet(bound_of(&ends->range, at), window[at], 0.0),
                                  at_reach(ends, at));
    double middle = 0.0;
    for (int side = 0; side < 2; side++) {
        double slope = window[side];
        if (ends->by_effort[side]) {
            const double touch = end_of(&ends->range.low_effort, side);
            const double by_touch = ends->effort_by_touch[side].of[PLUMB_PRESS_OUT_summed_effort].d;
            const double own = (PLUMB_PRESS_EFFORT_ALLOWANCE * least -
                                effort_by_factor(in, jet_fixed(touch), false)) /
                               by_touch;
            const bool both = ends->by_window[side];
            slope = both ? inner(slope, own, side, in->direction) : own;
            *kink |= both ? (unsigned)PLUMB_KINK_RANGE_CLIPPED : 0U;
        }
        middle += 0.5 * slope;
    }
    return middle;
}
