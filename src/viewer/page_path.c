/* SPDX-License-Identifier: MIT */
/* The Path page in numbers: the lift from start to end, at rest and in motion, and its scrubber. */
#include "pages.h"
#include "working.h"

#include <math.h>

/* A press is not looked at in motion: how long it plays is for watching only. */
static const double press_s = 2.5;

void plumb_path_settle(PlumbDesk *desk)
{
    PlumbWay *const way = &desk->way;
    const bool rough = desk->drag.on;
    if (!way->stale && !(way->rough && !rough)) {
        return;
    }
    way->stale = false;
    way->rough = rough;
    way->moved = false;
    plumb_desk_family(desk)->way(&desk->now.lifter, plumb_desk_inked(desk),
                                 rough ? PLUMB_WAY_ROUGH : PLUMB_WAY_POINTS, rough, way);
}

int plumb_path_here(const PlumbDesk *desk)
{
    const PlumbWay *const way = &desk->way;
    return way->count < 2 ? -1 : (int)lround(way->at * (way->count - 1));
}

void plumb_path_scrub(PlumbDesk *desk, double share)
{
    desk->way.playing = false;
    desk->worked->peak = false;
    desk->way.at = fmin(fmax(share, 0.0), 1.0);
    desk->dirty = true;
}

void plumb_path_step(PlumbDesk *desk, int steps)
{
    plumb_path_scrub(desk, desk->way.at + steps / (PLUMB_WAY_POINTS - 1.0));
}

void plumb_path_pose(PlumbDesk *desk)
{
    desk->on_way = *plumb_desk_inked(desk);
    plumb_desk_family(desk)->pose(&desk->now.lifter, &desk->way, plumb_path_here(desk),
                                  &desk->on_way);
}

/* A squat's way up runs its path backwards. Halved until a double holds no more. */
double plumb_path_time_s(const PlumbDesk *desk, double share)
{
    enum { HALVINGS = 52 };
    const double done = desk->now.lift == PLUMB_SQUAT ? 1.0 - share : share;
    double low = 0.0;
    double high = 1.0;
    for (int i = 0; i < HALVINGS; i++) {
        const double middle = 0.5 * (low + high);
        double at = 0.0;
        double rate = 0.0;
        double acceleration = 0.0;
        plumb_minimum_jerk(middle, &at, &rate, &acceleration);
        *(at < done ? &low : &high) = middle;
    }
    return 0.5 * (low + high) * desk->way.motion.rep_time_s;
}

/* The way up in the time that the set-up gives it: a pull goes from its start, a squat from the
 * hole, which is the end of its path, a press from the touch. */
void plumb_path_play(PlumbDesk *desk)
{
    desk->way.playing = !desk->way.playing;
    desk->way.begun_s = plumb_clock_s();
    desk->dirty = true;
}

void plumb_path_tick(PlumbDesk *desk)
{
    PlumbWay *const way = &desk->way;
    if (!way->playing) {
        return;
    }
    const double rep_s =
        desk->now.lift == PLUMB_BENCH ? press_s : fmax(0.2, plumb_desk_setup(desk)->rep_time_s);
    const double s = fmin(1.0, (plumb_clock_s() - way->begun_s) / rep_s);
    double share = 0.0;
    double rate = 0.0;
    double acceleration = 0.0;
    plumb_minimum_jerk(s, &share, &rate, &acceleration);
    way->at = desk->now.lift == PLUMB_SQUAT ? 1.0 - share : share;
    way->playing = s < 1.0;
    desk->dirty = way->playing || desk->dirty;
}
