/* SPDX-License-Identifier: MIT */
/* What is trusted in a frame of a film, as the marks of a still. */
#include "trace/series.h"

#include "base/vec.h"

static void add_mark(PlumbMarks *marks, int still, PlumbMarkName name, PlumbVec2 at)
{
    if (marks->count < PLUMB_MARKS_MAX) {
        marks->mark[marks->count++] = (PlumbMark){.still = still,
                                                  .name = name,
                                                  .x_px = at.x,
                                                  .y_px = at.y,
                                                  .sigma_px = (double)NAN,
                                                  .time_s = (double)NAN};
    }
}

/* Whether a person marked the frame: what was not marked there was not seen. */
static bool by_hand(const Reading *reading, int frame)
{
    const PlumbSeriesAsk *const ask = reading->ask;
    int marked = 0;
    for (int t = 0; t < ask->track_count; t++) {
        marked += ask->point[(size_t)t * (size_t)ask->frame_count + (size_t)frame].marked;
    }
    return marked >= PLUMB_SERIES_MARKS_LEAST;
}

/* Whether a landmark tells of the pose: where a squat's elbows are held is not told by the trunk,
 * and the bar may slip under hands that stay; of a press only shoulder, arm and bar are read. */
static bool tells(const Reading *reading, PlumbLandmark landmark)
{
    const PlumbLift lift = reading->ask->still.setup->lift;
    return lift == PLUMB_SQUAT   ? landmark != PLUMB_MARK_elbow && landmark != PLUMB_MARK_wrist
           : lift == PLUMB_BENCH ? landmark > PLUMB_MARK_hip
                                 : true;
}

/* Whether a track lost its landmark where doubts do not say so: the shoulder of a press stays where
 * a person marked it, while arm and disc pass before it. */
static bool lost(const Reading *reading, int track, PlumbVec2 at)
{
    static const double moves_frac = 0.06; /* of the bar's way: some 2 cm */
    const PlumbSeriesAsk *const ask = reading->ask;
    const double most = moves_frac * fabs(reading->lead_way_px);
    double nearest = (double)INFINITY;
    if (ask->still.setup->lift != PLUMB_BENCH || !(most > 0.0) ||
        ask->track[track].name.landmark != PLUMB_MARK_shoulder) {
        return false;
    }
    for (int f = 0; f < ask->frame_count; f++) {
        PlumbVec2 there;
        if (ask->point[(size_t)track * (size_t)ask->frame_count + (size_t)f].marked &&
            plumb_series_place(ask, track, f, &there)) {
            nearest = fmin(nearest, hypot(there.x - at.x, there.y - at.y));
        }
    }
    return isfinite(nearest) && nearest > most;
}

int plumb_reading_add(const Reading *reading, int frame, int still, PlumbMarks *marks)
{
    const PlumbSeriesAsk *const ask = reading->ask;
    const bool hand = by_hand(reading, frame);
    int landmarks = 0;
    for (int t = 0; t < ask->track_count; t++) {
        const PlumbSeriesTrack *const track = &ask->track[t];
        const size_t index = (size_t)t * (size_t)ask->frame_count + (size_t)frame;
        PlumbVec2 at;
        if (!tells(reading, track->name.landmark) ||
            !plumb_series_place(reading->ask, t, frame, &at) ||
            (hand && !ask->point[index].marked) || lost(reading, t, at)) {
            continue;
        }
        landmarks++;
        if (track->rim_count == 0) {
            add_mark(marks, still, track->name, at);
            continue;
        }
        const double turned = ask->mirror_width_px > 0.0 ? -1.0 : 1.0;
        for (int i = 0; i < track->rim_count; i++) {
            const PlumbMarkName rim = {PLUMB_MARK_disc, track->name.near, false};
            add_mark(marks, still, rim,
                     (PlumbVec2){at.x + turned * track->rim_px[i].x, at.y + track->rim_px[i].y});
        }
    }
    return landmarks;
}

void plumb_reading_add_fixed(const Reading *reading, int still, PlumbMarks *marks)
{
    const PlumbSeriesAsk *const ask = reading->ask;
    for (int i = 0; i < ask->fixed_count; i++) {
        PlumbVec2 at = {ask->fixed[i].x_px, ask->fixed[i].y_px};
        at.x = ask->mirror_width_px > 0.0 ? ask->mirror_width_px - at.x : at.x;
        add_mark(marks, still, ask->fixed[i].name, at);
    }
}

int plumb_reading_one(Reading *reading, int frame)
{
    PlumbMarks *const marks = &reading->room->marks;
    marks->count = 0;
    marks->still_count = 1;
    return plumb_reading_add(reading, frame, 0, marks);
}
