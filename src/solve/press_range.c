/* SPDX-License-Identifier: MIT */
/* The touches that keep the limits of shoulder and elbow, and among them those of low effort. */
#include "solve/press.h"

#include "base/roots.h"

#include <stddef.h>

/* The grid of touches: 2.5 mm over the range of the setting. */
enum { STEPS_MAX = 128, MARGINS = 6 };

/* What ends a window of touches, in the order of the margins. */
static const PlumbEnd margin_end[MARGINS] = {
    PLUMB_END_no_pose,          PLUMB_END_elbows_out_of_reach,
    PLUMB_END_shoulder_flexion, PLUMB_END_shoulder_external_rotation,
    PLUMB_END_elbow_flexion,    PLUMB_END_touch_range,
};

typedef struct Track {
    PlumbPress press;
    double low;
    double high;
    double flare; /* the range begins there where the window allows it */
    double less;  /* subtracted from the summed effort */
} Track;

/* The arm at a touch, with what both its margins and its effort are told from. */
typedef struct Touched {
    PlumbArm arm;
    PlumbVec3 side;
    double strength_rad[PLUMB_ARM_JOINTS];
} Touched;

static Touched touch_at(PlumbPress *press, double touch_m)
{
    Touched at;
    at.arm = plumb_press_touch(press, touch_m);
    at.side = plumb_arm_side(&at.arm, press->touch_swivel);
    plumb_arm_strength_angles(&at.arm, at.side, at.strength_rad);
    return at;
}

static double summed_effort(const PlumbPress *press, const Touched *at)
{
    PlumbPressPosition position;
    plumb_press_effort(press, &at->arm, at->side, at->strength_rad, &position);
    return position.summed_effort;
}

/* The least margin at a touch, negative where something is not met, and whose it is. Lengths in cm,
 * angles in degrees. *effort, where not NULL, becomes the summed effort where it is asked about:
 * the margins met and the arm not flared; elsewhere it is infinite. */
static double least_margin(Track *track, double touch_m, PlumbEnd *end, double *effort)
{
    PlumbPress *press = &track->press;
    const Touched at = touch_at(press, touch_m);
    const double rotation = plumb_press_rotation(&at.arm, plumb_arm_elbow(&at.arm, at.side));
    const double *limit = press->lifter->limit_rad;
    const double slack = 1e-9;
    const double margin[MARGINS] = {
        slack - press->miss_m / 0.01,
        slack - press->touch_off_m / 0.01,
        (limit[PLUMB_LIMIT_shoulder_flexion] - at.strength_rad[PLUMB_ARM_FLEXION]) / degrees(1.0),
        (limit[PLUMB_LIMIT_shoulder_external_rotation] - rotation) / degrees(1.0),
        (limit[PLUMB_LIMIT_elbow_flexion] - at.strength_rad[PLUMB_ARM_ELBOW]) / degrees(1.0),
        fmin(touch_m - track->low, track->high - touch_m) / 0.01 + slack,
    };
    int least = 0;
    for (int i = 1; i < MARGINS; i++) {
        least = margin[i] < margin[least] ? i : least;
    }
    *end = margin_end[least];
    if (effort != NULL) {
        const bool asked = margin[least] >= 0.0 && touch_m >= track->flare;
        *effort = asked ? summed_effort(press, &at) : (double)INFINITY;
    }
    return margin[least];
}

static double effort_at(double touch_m, void *context)
{
    Track *track = context;
    const Touched at = touch_at(&track->press, touch_m);
    return summed_effort(&track->press, &at) - track->less;
}

/* The end of the window between a touch inside and one outside of it. */
static double window_end(Track *track, double inside, double outside, PlumbEnd *end)
{
    least_margin(track, outside, end, NULL);
    while (fabs(outside - inside) > 1e-10) {
        const double middle = 0.5 * (inside + outside);
        PlumbEnd why;
        if (least_margin(track, middle, &why, NULL) >= 0.0) {
            inside = middle;
        } else {
            outside = middle;
            *end = why;
        }
    }
    return inside;
}

/* The grid and what was met on it. */
typedef struct Grid {
    int count;
    double touch[STEPS_MAX];
    double margin[STEPS_MAX];
    double effort[STEPS_MAX];
    int best;    /* least effort among those inside that keep the arm from flaring, else the
                    furthest from the neck; -1: none is inside */
    int nearest; /* greatest margin of all */
} Grid;

static void fill_grid(Track *track, Grid *grid)
{
    const double step = 0.0025;
    const double width = track->high - track->low;
    grid->count = (int)fmin(STEPS_MAX, floor(width / step + 0.5) + 1.0);
    grid->best = -1;
    grid->nearest = 0;
    for (int i = 0; i < grid->count; i++) {
        PlumbEnd end;
        grid->touch[i] = track->low + width * i / (grid->count - 1);
        grid->margin[i] = least_margin(track, grid->touch[i], &end, &grid->effort[i]);
        if (grid->margin[i] > grid->margin[grid->nearest]) {
            grid->nearest = i;
        }
        const bool flared = grid->best < 0 || grid->touch[grid->best] < track->flare;
        if (grid->margin[i] >= 0.0 && (flared || grid->effort[i] < grid->effort[grid->best])) {
            grid->best = i;
        }
    }
}

/* Outwards from the best touch to where the margins are no longer met. */
static double side_of_window(Track *track, const Grid *grid, int direction, PlumbEnd *end)
{
    int i = grid->best;
    while (i + direction >= 0 && i + direction < grid->count &&
           grid->margin[i + direction] >= 0.0) {
        i += direction;
    }
    if (i + direction < 0 || i + direction >= grid->count) {
        *end = PLUMB_END_touch_range;
        return grid->touch[i];
    }
    return window_end(track, grid->touch[i], grid->touch[i + direction], end);
}

/* Outwards from the least effort to where it has grown by the allowance, or the window ends. */
static double side_of_range(Track *track, const Grid *grid, double from, double to, int direction,
                            PlumbEnd *end)
{
    double in = from;
    double in_value = effort_at(from, track);
    for (int i = grid->best + direction; i >= 0 && i < grid->count; i += direction) {
        const double next = direction > 0 ? fmin(grid->touch[i], to) : fmax(grid->touch[i], to);
        if ((next - from) * direction <= 0.0) {
            continue;
        }
        const double out_value = effort_at(next, track);
        if (out_value > 0.0) {
            *end = PLUMB_END_effort;
            return plumb_root_bracketed(effort_at, track, in, next, in_value, out_value, 1e-10);
        }
        in = next;
        in_value = out_value;
        if (next == to) {
            break;
        }
    }
    return to;
}

/* The touch of least effort from `from` to the window's end. */
static double least_effort(Track *track, const Grid *grid, double from, double to, double *least)
{
    const double tolerance_m = 1e-9;
    const int before = grid->best > 0 ? grid->best - 1 : 0;
    const int after = grid->best < grid->count - 1 ? grid->best + 1 : grid->best;
    const double low = fmax(grid->touch[before], from);
    const double high = fmin(grid->touch[after], to);
    double at = low;
    *least = effort_at(low, track);
    /* The effort mostly grows from the range's end on, and then the least is there. */
    const bool grows = grid->effort[grid->best] >= *least && low + tolerance_m < high &&
                       effort_at(low + tolerance_m, track) > *least;
    if (low < high && !grows) {
        double inside;
        const double found =
            plumb_least_bracketed(effort_at, track, low, high, tolerance_m, &inside);
        at = inside < *least ? found : at;
        *least = fmin(inside, *least);
    }
    if (grid->touch[grid->best] >= from && grid->effort[grid->best] <= *least) {
        *least = grid->effort[grid->best];
        at = grid->touch[grid->best];
    }
    return at;
}

double plumb_press_flare_rad(const PlumbLifter *lifter, const PlumbSetup *setup)
{
    return setup->elbows_given ? setup->elbows_rad : lifter->limit_rad[PLUMB_LIMIT_press_abduction];
}

void plumb_press_intervals(const PlumbPress *press, PlumbPressRange *range)
{
    const PlumbSetting *setting = plumb_setting(PLUMB_SET_touch);
    const double flare_rad = plumb_press_flare_rad(press->lifter, &press->setup);
    Track track = {.press = *press,
                   .low = setting->min_si,
                   .high = setting->max_si,
                   .flare = press->upper * cos(flare_rad)};
    Grid grid = {.best = -1};
    PlumbInterval *const window = &range->window;
    PlumbInterval *const low_effort = &range->low_effort;
    range->flare_m = track.flare;
    fill_grid(&track, &grid);
    *window = (PlumbInterval){.low = (double)NAN, .high = (double)NAN};
    if (grid.best < 0) {
        least_margin(&track, grid.touch[grid.nearest], &window->low_end, NULL);
        window->high_end = window->low_end;
        *low_effort = *window;
        range->least_m = (double)NAN;
        range->middle_m = grid.touch[grid.nearest];
        return;
    }
    window->exists = true;
    window->low = side_of_window(&track, &grid, -1, &window->low_end);
    window->high = side_of_window(&track, &grid, 1, &window->high_end);
    *low_effort = *window;
    double from = window->low;
    if (track.flare > from) {
        from = fmin(track.flare, window->high);
        low_effort->low_end = PLUMB_END_upper_arm_flared;
    }
    double least;
    const double at = least_effort(&track, &grid, from, window->high, &least);
    track.less = PLUMB_PRESS_EFFORT_ALLOWANCE * least;
    low_effort->low = side_of_range(&track, &grid, at, from, -1, &low_effort->low_end);
    low_effort->high = side_of_range(&track, &grid, at, window->high, 1, &low_effort->high_end);
    range->least_m = at;
    range->middle_m = 0.5 * (low_effort->low + low_effort->high);
}
