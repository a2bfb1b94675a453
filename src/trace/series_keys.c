/* SPDX-License-Identifier: MIT */
/* Which frames of a film body and camera are fitted to. */
#include "trace/series.h"

#include "base/vec.h"

static const double moves_least_frac = 0.02; /* of the picture's height */
static const double at_least_px = 3.0;       /* ways that differ by less are as long */

/* The first frame at which the lift has gone a share of its way, and enough is trusted. */
static int frame_of_share(const Reading *reading, int lead, double from_px, double way_px,
                          double share, int first)
{
    for (int f = first; f < reading->ask->frame_count; f++) {
        PlumbVec2 at;
        PlumbMarks *const marks = &reading->room->marks;
        marks->count = 0;
        if (plumb_series_place(reading->ask, lead, f, &at) && (at.y - from_px) / way_px >= share &&
            plumb_reading_add(reading, f, 0, marks) >= PLUMB_SERIES_MARKS_LEAST) {
            return f;
        }
    }
    return -1;
}

/* The lead's lowest or highest trusted frame from `first` on. */
static int turn_of(const Reading *reading, int lead, int first, bool lowest)
{
    int best = first;
    PlumbVec2 at;
    PlumbVec2 found;
    plumb_series_place(reading->ask, lead, first, &found);
    for (int f = first; f < reading->ask->frame_count; f++) {
        if (plumb_series_place(reading->ask, lead, f, &at) &&
            (lowest ? at.y > found.y : at.y < found.y)) {
            best = f;
            found = at;
        }
    }
    return best;
}

/* Where the way to the turn begins. A squat goes down from where it is first seen, a pull up; a
 * press does either: a film that begins at the chest, or shows more of the way up, is taken from
 * there. */
static int begin_of(const Reading *reading, int lead, int first, bool *down)
{
    const PlumbLift lift = reading->ask->still.setup->lift;
    *down = lift != PLUMB_DEADLIFT;
    if (lift != PLUMB_BENCH) {
        return first;
    }
    const int low = turn_of(reading, lead, first, true);
    PlumbVec2 at[3];
    plumb_series_place(reading->ask, lead, first, &at[0]);
    plumb_series_place(reading->ask, lead, low, &at[1]);
    plumb_series_place(reading->ask, lead, turn_of(reading, lead, low, false), &at[2]);
    *down = at[1].y - at[0].y >= at[1].y - at[2].y - at_least_px;
    return *down ? first : low;
}

/* Key frames: the first, and at even shares of the way to where the lift turns. */
PlumbStatus plumb_reading_keys(Reading *reading, PlumbError *error)
{
    const PlumbSeriesAsk *const ask = reading->ask;
    PlumbSeries *const series = reading->series;
    const int lead = plumb_reading_lead(reading);
    int first = frame_of_share(reading, lead, 0.0, 1.0, -(double)INFINITY, 0);
    if (first < 0) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                               "no frame shows three landmarks that can be trusted: mark more of "
                               "them, or correct those in doubt");
    }
    bool down;
    PlumbVec2 start;
    PlumbVec2 turn;
    first = begin_of(reading, lead, first, &down);
    plumb_series_place(ask, lead, first, &start);
    plumb_series_place(ask, lead, turn_of(reading, lead, first, down), &turn);
    const double way = turn.y - start.y;
    const double height = ask->still.size_px[0].y > 0.0 ? ask->still.size_px[0].y : 720.0;
    if (fabs(way) < moves_least_frac * height) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "film",
                               ask->still.setup->lift == PLUMB_BENCH
                                   ? "the bar goes neither down nor up in this film"
                               : down ? "the lifter does not go down in this film"
                                      : "the bar does not go up in this film");
    }
    reading->lead_from_px = start.y;
    reading->lead_way_px = way;
    series->key_count = 0;
    for (int k = 0; k < PLUMB_SERIES_KEYS; k++) {
        const double share = 0.999 * k / (PLUMB_SERIES_KEYS - 1);
        const int f =
            frame_of_share(reading, lead, start.y, way, k == 0 ? -(double)INFINITY : share, first);
        if (f >= 0 && (series->key_count == 0 || f > series->key[series->key_count - 1])) {
            series->key[series->key_count++] = f;
        }
    }
    return PLUMB_OK;
}
