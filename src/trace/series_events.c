/* SPDX-License-Identifier: MIT */
/* Events of a lift: from how high bar and hip are over time. */
#include "trace/series.h"

#include <plumbar/filter.h>

#include "base/vec.h"

static const double lift_off_m = 0.005;
static const double moving_frac = 0.1; /* of the travel: the lift is under way */
static const double rest_before_s =
    0.5;                              /* the hip's lowest place before lift-off is sought in it */
static const double turned_m = 0.05;  /* down again after the top: a turn */
static const double bottom_m = 0.002; /* above the lowest place: its noise */
static const double dip_least_m_s = 0.03; /* a slower point between two faster ones */

/* Heights over time, as arrays; from the front in pixels with a scale that makes the travel 0.5. */
typedef struct Course {
    int count;
    const double *time;
    double *bar;
    double *hip; /* NULL from the front */
} Course;

static int lowest(const double *x, int from, int to)
{
    int best = from;
    for (int i = from; i <= to; i++) {
        best = x[i] < x[best] ? i : best;
    }
    return best;
}

static int highest(const double *x, int from, int to)
{
    int best = from;
    for (int i = from; i <= to; i++) {
        best = x[i] > x[best] ? i : best;
    }
    return best;
}

static int frame_at(const Course *c, double t)
{
    int best = 0;
    for (int i = 0; i < c->count; i++) {
        best = fabs(c->time[i] - t) < fabs(c->time[best] - t) ? i : best;
    }
    return best;
}

/* The last time before `until` at which x passes level upwards. */
static double last_crossing(const Course *c, const double *x, double level, double until)
{
    double found = (double)NAN;
    for (double t = c->time[0]; !isnan(t) && t <= until;) {
        t = plumb_series_crossing(c->time, x, c->count, level, true, t);
        if (!isnan(t) && t <= until) {
            found = t;
            t += 1e-9;
        }
    }
    return found;
}

/* Mean height while the bar rests: before it is clearly under way, lower half of it. */
static double rest_height(const Course *c, int top)
{
    const int low = lowest(c->bar, 0, top);
    const double limit = c->bar[low] + 0.5 * moving_frac * (c->bar[top] - c->bar[low]);
    double sum = 0.0;
    int count = 0;
    for (int i = 0; i <= top && (i <= low || c->bar[i] < limit); i++) {
        if (c->bar[i] < c->bar[low] + lift_off_m) {
            sum += c->bar[i];
            count++;
        }
    }
    return sum / count;
}

static void pull_start(const Course *c, int top, double *event_s)
{
    const double rest = rest_height(c, top);
    const double under_way = plumb_series_crossing(
        c->time, c->bar, top + 1, rest + moving_frac * (c->bar[top] - rest), true, c->time[0]);
    event_s[PLUMB_EVENT_lift_off] = last_crossing(c, c->bar, rest + lift_off_m, under_way);
    const double off = event_s[PLUMB_EVENT_lift_off];
    if (isnan(off) || c->hip == NULL) {
        return;
    }
    const int at = frame_at(c, off);
    const int from = frame_at(c, off - rest_before_s);
    const int low = lowest(c->hip, from, at);
    event_s[PLUMB_EVENT_hip_moves] = plumb_series_crossing(
        c->time, c->hip, c->count, c->hip[low] + lift_off_m, true, c->time[low]);
}

/* The bar hardly moves about the bottom, so that its lowest frame is a matter of chance: the middle
 * between the last time above it and the first time above it again. */
static double turn_time(const Course *c, int bottom)
{
    const double level = c->bar[bottom] + bottom_m;
    const double up =
        plumb_series_crossing(c->time, c->bar, c->count, level, true, c->time[bottom]);
    int i = bottom;
    while (i > 0 && c->bar[i] < level) {
        i--;
    }
    const double down =
        plumb_series_crossing(c->time, c->bar, bottom + 1, level, false, c->time[i]);
    return isnan(up) || isnan(down) ? c->time[bottom] : 0.5 * (up + down);
}

static void squat_start(const Course *c, int bottom, double *event_s)
{
    event_s[PLUMB_EVENT_turn_round] = turn_time(c, bottom);
    if (c->hip != NULL) {
        const double level = c->hip[highest(c->hip, 0, bottom)] - lift_off_m;
        event_s[PLUMB_EVENT_hip_moves] = plumb_series_crossing(
            c->time, c->hip, bottom + 1, level, false, c->time[highest(c->hip, 0, bottom)]);
    }
}

/* The touch, and when the bar leaves the chest: it may rest there. */
static void press_start(const Course *c, int bottom, int top, double *event_s)
{
    event_s[PLUMB_EVENT_turn_round] = turn_time(c, bottom);
    event_s[PLUMB_EVENT_lift_off] = plumb_series_crossing(
        c->time, c->bar, top + 1, c->bar[bottom] + lift_off_m, true, c->time[bottom]);
}

/* Where the speed up dips deepest between two faster parts. */
static double slowest_time(const PlumbSeries *series, int from, int to)
{
    double best = dip_least_m_s;
    double found = (double)NAN;
    const PlumbSeriesFrame *const frame = series->frame;
    for (int i = from + 1; i < to; i++) {
        double before = 0.0;
        double after = 0.0;
        for (int k = from; k < i; k++) {
            before = fmax(before, frame[k].bar_speed_m_s);
        }
        for (int k = i + 1; k <= to; k++) {
            after = fmax(after, frame[k].bar_speed_m_s);
        }
        const double dip = fmin(before, after) - frame[i].bar_speed_m_s;
        if (dip > best) {
            best = dip;
            found = frame[i].time_s;
        }
    }
    return found;
}

static double knee_pass_time(const PlumbSeries *series, int from, int to)
{
    for (int i = from + 1; i <= to; i++) {
        const PlumbSeriesFrame *const a = &series->frame[i - 1];
        const PlumbSeriesFrame *const b = &series->frame[i];
        const double before = a->bar_m.y - a->knee_height_m;
        const double after = b->bar_m.y - b->knee_height_m;
        if (before < 0.0 && after >= 0.0) {
            return b->time_s - (b->time_s - a->time_s) * after / (after - before);
        }
    }
    return (double)NAN;
}

/* The way up: lockout, knee pass, slowest point. */
static void way_up(const Reading *reading, const Course *c, int from, int top)
{
    PlumbSeries *const series = reading->series;
    double *const event_s = series->event_s;
    event_s[PLUMB_EVENT_lockout] = plumb_series_crossing(
        c->time, c->bar, top + 1, c->bar[top] - lift_off_m, true, c->time[from]);
    if (series->front) {
        return;
    }
    const double locked = event_s[PLUMB_EVENT_lockout];
    const int to = isnan(locked) ? top : frame_at(c, locked);
    event_s[PLUMB_EVENT_slowest] = slowest_time(series, from, to);
    if (series->lift == PLUMB_DEADLIFT) {
        event_s[PLUMB_EVENT_knee_pass] = knee_pass_time(series, from, to);
    }
}

static Course course_of(const Reading *reading)
{
    const PlumbSeries *const series = reading->series;
    const Course c = {series->frame_count, reading->ask->time_s, reading->part[PART_BAR_Y],
                      series->front ? NULL : reading->part[PART_HIP_Y]};
    if (series->front) {
        double *const bar = reading->part[PART_BAR_Y];
        for (int i = 0; i < c.count; i++) {
            bar[i] = series->frame[i].rise_px;
        }
        const double low = bar[lowest(bar, 0, c.count - 1)];
        const double travel = bar[highest(bar, 0, c.count - 1)] - low;
        for (int i = 0; i < c.count; i++) {
            bar[i] = 0.5 * (bar[i] - low) / travel;
        }
    }
    return c;
}

void plumb_reading_events(const Reading *reading)
{
    PlumbSeries *const series = reading->series;
    const Course c = course_of(reading);
    const int last = c.count - 1;
    for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
        series->event_s[i] = (double)NAN;
    }
    if (series->lift == PLUMB_BENCH) {
        const int bottom = lowest(c.bar, 0, last);
        const int top = highest(c.bar, bottom, last);
        press_start(&c, bottom, top, series->event_s);
        way_up(reading, &c, bottom, top);
    } else if (series->lift == PLUMB_SQUAT) {
        const int bottom = lowest(c.bar, 0, last);
        squat_start(&c, bottom, series->event_s);
        way_up(reading, &c, bottom, highest(c.bar, bottom, last));
    } else {
        const int top = highest(c.bar, 0, last);
        pull_start(&c, top, series->event_s);
        const double off = series->event_s[PLUMB_EVENT_lift_off];
        way_up(reading, &c, isnan(off) ? 0 : frame_at(&c, off), top);
        if (c.bar[top] - c.bar[lowest(c.bar, top, last)] > turned_m) {
            series->event_s[PLUMB_EVENT_turn_round] = c.time[top];
        }
    }
    for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
        const int at = isnan(series->event_s[i]) ? -1 : frame_at(&c, series->event_s[i]);
        const PlumbSeriesFrame *const frame = at >= 0 ? &series->frame[at] : NULL;
        const bool seen = at >= 0 && (series->front ? frame->rise_known : frame->known);
        /* Between frames that were not seen nothing is known to have happened. */
        series->event_s[i] = seen ? series->event_s[i] : (double)NAN;
        series->event_frame[i] = seen ? at : -1;
    }
}
