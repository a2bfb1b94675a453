/* SPDX-License-Identifier: MIT */
/* A film read: what it must show, and the order of the steps. */
#include "trace/series.h"

#include <plumbar/filter.h>

#include "base/vec.h"

#include <stddef.h>

static const struct {
    const char *name;
    const char *text;
} events[PLUMB_EVENT_COUNT] = {
#define X(name, text) {#name, text},
    PLUMB_EVENT_LIST(X)
#undef X
};

const char *plumb_event_name(PlumbEvent event)
{
    return events[event].name;
}

const char *plumb_event_text(PlumbEvent event, PlumbLift lift)
{
    if (lift == PLUMB_SQUAT && event == PLUMB_EVENT_lockout) {
        return "standing again";
    }
    if (lift == PLUMB_SQUAT && event == PLUMB_EVENT_turn_round) {
        return "turn-round at the bottom";
    }
    if (lift == PLUMB_BENCH && event == PLUMB_EVENT_turn_round) {
        return "touch on the chest";
    }
    if (lift == PLUMB_BENCH && event == PLUMB_EVENT_lift_off) {
        return "bar leaves the chest";
    }
    return events[event].text;
}

static const double short_gap_s = 0.3; /* a bar does not stop and start within it */
static const double slip_sd_m = 0.05;  /* a bar that lets go of the back moves by centimetres */

PlumbSeriesAsk plumb_series_ask(const PlumbLifter *lifter, const PlumbSetup *setup,
                                const PlumbTraceBody *body)
{
    PlumbSeriesAsk ask = {.still = plumb_trace_ask(lifter, setup, body, NULL),
                          .from_floor = setup->lift == PLUMB_DEADLIFT};
    ask.still.disc_sigma_px = 1.0;
    ask.still.slip_sd_m = slip_sd_m;
    return ask;
}

size_t plumb_series_room_bytes(int frame_count)
{
    const size_t arrays = PART_COUNT + 3;
    return sizeof(SeriesRoom) +
           (arrays * (size_t)frame_count + 2 * PLUMB_FILTER_EDGE) * sizeof(double);
}

static Reading reading_of(const PlumbSeriesAsk *ask, void *memory, PlumbSeries *series)
{
    Reading reading = {.ask = ask, .room = memory, .still = ask->still, .series = series};
    double *array = (double *)(void *)(reading.room + 1);
    for (int i = 0; i < PART_COUNT; i++) {
        reading.part[i] = array;
        array += ask->frame_count;
    }
    if (ask->still.setup->lift == PLUMB_BENCH) {
        PlumbPressAnswer answer;
        plumb_press_quick(ask->still.lifter, ask->still.setup, &answer);
        reading.touch_m = answer.setup.touch_m;
    }
    reading.even = array;
    reading.spare = array + ask->frame_count;
    return reading;
}

int plumb_reading_track(const Reading *reading, PlumbLandmark landmark, PlumbNear near)
{
    for (int t = 0; t < reading->ask->track_count; t++) {
        const PlumbMarkName name = reading->ask->track[t].name;
        if (name.landmark == landmark && name.near == near) {
            return t;
        }
    }
    return -1;
}

int plumb_reading_lead(const Reading *reading)
{
    static const PlumbLandmark order[] = {PLUMB_MARK_disc_centre, PLUMB_MARK_disc, PLUMB_MARK_bar,
                                          PLUMB_MARK_hip};
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++) {
        for (int near = PLUMB_NEAR; near <= PLUMB_FAR; near++) {
            const int track = plumb_reading_track(reading, order[i], (PlumbNear)near);
            if (track >= 0) {
                return track;
            }
        }
    }
    return -1;
}

bool plumb_series_place(const PlumbSeriesAsk *ask, int track, int frame, PlumbVec2 *at_px)
{
    const PlumbTrackPoint *const point =
        &ask->point[(size_t)track * (size_t)ask->frame_count + (size_t)frame];
    *at_px = point->at_px;
    if (ask->shift != NULL) {
        *at_px = plumb_track_steady(&ask->shift[frame], *at_px);
    }
    if (ask->mirror_width_px > 0.0) {
        at_px->x = ask->mirror_width_px - at_px->x;
    }
    return point->known && point->doubts == 0;
}

/* The known value before (step -1) or after a place; count or -1 where there is none. */
static int next_known(const double *x, int count, int from, int step)
{
    int i = from + step;
    while (i >= 0 && i < count && isnan(x[i])) {
        i += step;
    }
    return i;
}

/* Fills between two known values: along a straight line, or where the gap is short and both sides
 * go on, along the cubic with the slopes that they have there. */
static void fill_gap(const double *time_s, double *x, int count, int before, int after)
{
    const double gap_s = time_s[after] - time_s[before];
    const double rise = x[after] - x[before];
    const int first = next_known(x, count, before, -1);
    const int last = next_known(x, count, after, 1);
    const bool bent = first >= 0 && last < count && gap_s < short_gap_s;
    const double begins =
        bent ? gap_s * (x[before] - x[first]) / (time_s[before] - time_s[first]) : rise;
    const double ends = bent ? gap_s * (x[last] - x[after]) / (time_s[last] - time_s[after]) : rise;
    for (int k = before + 1; k < after; k++) {
        const double u = (time_s[k] - time_s[before]) / gap_s;
        x[k] = x[before] + u * (begins + u * (3.0 * rise - 2.0 * begins - ends +
                                              u * (begins + ends - 2.0 * rise)));
    }
}

bool plumb_series_fill(const double *time_s, double *x, int count)
{
    const int first = next_known(x, count, -1, 1);
    const int last = next_known(x, count, count, -1);
    for (int i = first; i < last;) {
        const int after = next_known(x, count, i, 1);
        fill_gap(time_s, x, count, i, after);
        i = after;
    }
    for (int i = 0; i < count && first < count; i++) {
        x[i] = i < first ? x[first] : i > last ? x[last] : x[i];
    }
    return first < count;
}

/* Whether some frame shows it so that it can be trusted. */
static bool shown(const Reading *reading, PlumbLandmark landmark)
{
    for (int t = 0; t < reading->ask->track_count; t++) {
        PlumbVec2 at;
        for (int f = 0;
             f < reading->ask->frame_count && reading->ask->track[t].name.landmark == landmark;
             f++) {
            if (plumb_series_place(reading->ask, t, f, &at)) {
                return true;
            }
        }
    }
    return false;
}

static bool has(const Reading *reading, PlumbLandmark landmark)
{
    return plumb_reading_track(reading, landmark, PLUMB_NEAR) >= 0 ||
           plumb_reading_track(reading, landmark, PLUMB_FAR) >= 0;
}

/* What moves between bench and bar must be held against the shoulder. */
static PlumbStatus check_press(const Reading *reading, bool end_view, PlumbError *error)
{
    const PlumbSeriesTrack *const lead = &reading->ask->track[plumb_reading_lead(reading)];
    if (lead->name.landmark == PLUMB_MARK_hip || !has(reading, PLUMB_MARK_shoulder)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                               "of a bench press the bar is read against the shoulder: mark the "
                               "shoulder, and the disc's rim or the bar");
    }
    for (int t = 0; t < reading->ask->track_count && end_view; t++) {
        if (reading->ask->track[t].rim_count > 0) {
            return plumb_error_set(error, PLUMB_BAD_INPUT, "landmark", plumb_disc_on_edge);
        }
    }
    if (!shown(reading, PLUMB_MARK_shoulder)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                               "no frame shows a shoulder that can be trusted: mark it where it is "
                               "seen; from the foot end chest and thighs hide it, from the head "
                               "end nothing does");
    }
    if (end_view && !has(reading, PLUMB_MARK_elbow)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                               "from the end of the bench the elbows are needed: right_elbow and "
                               "left_elbow, with right_shoulder and left_shoulder");
    }
    return PLUMB_OK;
}

static PlumbStatus check(const Reading *reading, bool front, PlumbError *error)
{
    const PlumbSeriesAsk *const ask = reading->ask;
    if (ask->frame_count < 3) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "film", "a film needs three frames or more");
    }
    if (plumb_reading_lead(reading) < 0) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                               "nothing marked shows how high the lift is: mark the disc's rim, "
                               "the bar or the hip in one frame");
    }
    if (ask->still.setup->lift == PLUMB_BENCH) {
        return check_press(reading, front, error);
    }
    if (front && (plumb_reading_track(reading, PLUMB_MARK_knee, PLUMB_NEAR) < 0 ||
                  plumb_reading_track(reading, PLUMB_MARK_knee, PLUMB_FAR) < 0 ||
                  plumb_reading_track(reading, PLUMB_MARK_ankle, PLUMB_NEAR) < 0 ||
                  plumb_reading_track(reading, PLUMB_MARK_ankle, PLUMB_FAR) < 0)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                               "from the front both knees and both ankles are needed: "
                               "right_knee, left_knee, right_ankle, left_ankle");
    }
    return PLUMB_OK;
}

PlumbStatus plumb_series_read(const PlumbSeriesAsk *ask, void *room, PlumbSeriesFrame *frame,
                              PlumbSeries *series, PlumbError *error)
{
    Reading reading = reading_of(ask, room, series);
    bool front = false;
    for (int t = 0; t < ask->track_count; t++) {
        front = front || ask->track[t].name.front;
    }
    PlumbStatus status = check(&reading, front, error);
    if (status != PLUMB_OK) {
        return status;
    }
    series->stopped = false;
    series->lift = ask->still.setup->lift;
    series->end_view = front && series->lift == PLUMB_BENCH;
    reading.end_view = series->end_view;
    front = front && !series->end_view;
    series->front = front;
    series->frame_count = ask->frame_count;
    series->frame = frame;
    series->rate_hz = (ask->frame_count - 1) / (ask->time_s[ask->frame_count - 1] - ask->time_s[0]);
    series->key_count = 0;
    series->unknown_count = 0;
    for (int i = 0; i < ask->frame_count; i++) {
        frame[i] = (PlumbSeriesFrame){.time_s = ask->time_s[i], .known = true};
    }
    status = front ? plumb_reading_front(&reading, error) : plumb_reading_fit(&reading, error);
    if (status != PLUMB_OK || series->stopped) {
        return status;
    }
    if (!front) {
        plumb_reading_describe(&reading);
    }
    plumb_reading_events(&reading);
    return PLUMB_OK;
}

void plumb_series_still(const PlumbSeries *series, int frame, PlumbTraced *still)
{
    const PlumbSeriesFrame *const f = &series->frame[frame];
    *still = series->trace.still[0];
    still->misfit = f->misfit;
    for (int i = 0; i < PLUMB_READING_COUNT; i++) {
        still->value[i] = f->value[i];
    }
    if (series->lift == PLUMB_BENCH) {
        plumb_fit_press_points(&series->trace.lifter, &still->setup, f->pose, f->bar_m,
                               &still->press, &still->position);
        return;
    }
    still->setup.spine_rad = f->spine_rad;
    still->setup.knees_out_rad = f->knees_out_rad;
    plumb_position_describe(&series->trace.lifter, &still->setup, f->pose, f->spine_rad,
                            f->knees_out_rad, f->bar_m.x, f->bar_m.y, -1.0, &still->position);
}
