/* SPDX-License-Identifier: MIT */
/* Raw poses smoothed over time, and every frame described from what is left. */
#include "trace/series.h"

#include <plumbar/filter.h>

#include "base/vec.h"

static const double slide_least_m = 0.003; /* a mark on clothing; common practice, no source */
static const double sudden_hz = 10.0;      /* what a swing of a few frames is made of */
static const double even_share = 0.02;     /* steps that differ by less are even */

/* A series at even steps: itself, or brought to them in `even`. */
static double *at_even_steps(const Reading *reading, double *x, bool *even)
{
    const PlumbSeriesAsk *const ask = reading->ask;
    const int count = ask->frame_count;
    *even = plumb_times_even(ask->time_s, count, even_share);
    for (int i = 0; i < count && !*even; i++) {
        reading->even[i] =
            plumb_series_at(ask->time_s, x, count, ask->time_s[0] + i / reading->series->rate_hz);
    }
    return *even ? x : reading->even;
}

double plumb_reading_smooth(const Reading *reading, double *x, double *cutoff_hz)
{
    const PlumbSeriesAsk *const ask = reading->ask;
    const int count = ask->frame_count;
    const double rate = reading->series->rate_hz;
    bool even;
    double *const y = at_even_steps(reading, x, &even);
    if (!(*cutoff_hz > 0.0)) {
        *cutoff_hz = plumb_filter_cutoff_hz(y, count, rate, reading->spare);
    }
    PlumbFilter filter;
    if (!plumb_filter_low_pass(*cutoff_hz, rate, &filter)) {
        return 0.0;
    }
    double *const before = reading->spare;
    for (int i = 0; i < count; i++) {
        before[i] = y[i];
    }
    plumb_filter_run(&filter, y, count, reading->spare + count);
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        sum += (y[i] - before[i]) * (y[i] - before[i]);
    }
    const double left = fmin(2.0 * *cutoff_hz / rate, 1.0);
    if (!even) {
        for (int i = 0; i < count; i++) {
            before[i] = (ask->time_s[i] - ask->time_s[0]) * rate;
        }
        for (int i = 0; i < count; i++) {
            const double at = fmin(fmax(before[i], 0.0), count - 1.0);
            const int k = at < count - 1.0 ? (int)at : count - 2;
            x[i] = y[k] + (at - k) * (y[k + 1] - y[k]);
        }
    }
    return sqrt(sum / count * left);
}

static int by_size(double *x, int count)
{
    /* Shell's sort: no call of a comparison, room of its own, or order to keep. */
    for (int gap = count / 2; gap > 0; gap /= 2) {
        for (int i = gap; i < count; i++) {
            const double here = x[i];
            int k = i;
            for (; k >= gap && x[k - gap] > here; k -= gap) {
                x[k] = x[k - gap];
            }
            x[k] = here;
        }
    }
    return count;
}

double plumb_reading_slide_m(const Reading *reading, double px_per_m)
{
    const PlumbSeriesAsk *const ask = reading->ask;
    double sum = 0.0;
    int tracks = 0;
    for (int t = 0; t < ask->track_count; t++) {
        int count = 0;
        for (int f = 0; f < ask->frame_count; f++) {
            const PlumbTrackPoint *const p =
                &ask->point[(size_t)t * (size_t)ask->frame_count + (size_t)f];
            if (p->known && p->doubts == 0 && p->apart_px > 0.0) {
                reading->even[count++] = p->apart_px;
            }
        }
        if (ask->track[t].name.landmark < PLUMB_MARK_bar && count > 0) {
            sum += reading->even[by_size(reading->even, count) / 2];
            tracks++;
        }
    }
    return fmax(tracks > 0 ? 0.5 * sum / tracks / px_per_m : 0.0, slide_least_m);
}

static void describe_press(const PlumbSeries *series, PlumbSeriesFrame *frame)
{
    const PlumbSetup *const setup = &series->trace.still[0].setup;
    PlumbPressPosition press;
    PlumbPosition position;
    plumb_fit_press_points(&series->trace.lifter, setup, frame->pose, frame->bar_m, &press,
                           &position);
    for (int i = 0; i < PLUMB_READING_COUNT; i++) {
        frame->value[i] = plumb_press_reading_value((PlumbReading)i, setup, &press);
    }
    frame->knee_x_m = (double)NAN;
    frame->knee_height_m = (double)NAN;
}

static void describe(const Reading *reading, int f)
{
    PlumbSeries *const series = reading->series;
    PlumbSeriesFrame *const frame = &series->frame[f];
    double *const *const part = reading->part;
    PlumbSetup setup = series->trace.still[0].setup;
    frame->pose = (PlumbPose){part[PART_HIP_X][f], part[PART_HIP_Y][f], part[PART_LEAN][f]};
    frame->spine_rad = part[PART_SPINE][f];
    frame->knees_out_rad = part[PART_KNEES_OUT][f];
    frame->bar_m = (PlumbVec2){part[PART_BAR_X][f], part[PART_BAR_Y][f]};
    frame->slip_m = part[PART_SLIP][f];
    frame->spread_frac = (double)NAN;
    frame->shin_rad = (double)NAN;
    PlumbPosition position;
    if (series->lift == PLUMB_BENCH) {
        describe_press(series, frame);
        return;
    }
    setup.spine_rad = frame->spine_rad;
    setup.knees_out_rad = frame->knees_out_rad;
    plumb_position_describe(&series->trace.lifter, &setup, frame->pose, frame->spine_rad,
                            frame->knees_out_rad, frame->bar_m.x, frame->bar_m.y, -1.0, &position);
    for (int i = 0; i < PLUMB_READING_COUNT; i++) {
        frame->value[i] =
            plumb_reading_value((PlumbReading)i, &series->trace.lifter, &setup, &position);
    }
    frame->value[PLUMB_READ_bar_over] = frame->bar_m.x;
    frame->value[PLUMB_READ_bar_height] = frame->bar_m.y;
    frame->knee_x_m = position.point[PLUMB_PT_knee].x;
    frame->knee_height_m = position.point[PLUMB_PT_knee].y;
}

/* Slopes at uneven times: over the two neighbours' time. */
static void speeds(PlumbSeries *series)
{
    const int count = series->frame_count;
    for (int i = 0; i < count; i++) {
        const PlumbSeriesFrame *const low = &series->frame[i > 0 ? i - 1 : 0];
        const PlumbSeriesFrame *const high = &series->frame[i < count - 1 ? i + 1 : count - 1];
        const double time = high->time_s - low->time_s;
        series->frame[i].bar_speed_m_s = (high->bar_m.y - low->bar_m.y) / time;
        series->frame[i].hip_speed_m_s = (high->pose.hip_height_m - low->pose.hip_height_m) / time;
    }
}

/* The cut-off of a press's body: its shoulder does not move, its upper arm does, and where an elbow
 * swings out at once more of that is kept than the residuals ask for. */
static double press_cutoff_hz(const Reading *reading)
{
    bool even;
    if (!plumb_series_fill(reading->ask->time_s, reading->part[PART_SPINE],
                           reading->ask->frame_count)) {
        return sudden_hz;
    }
    const double *const y = at_even_steps(reading, reading->part[PART_SPINE], &even);
    return fmax(plumb_filter_cutoff_hz(y, reading->ask->frame_count, reading->series->rate_hz,
                                       reading->spare),
                sudden_hz);
}

void plumb_reading_describe(Reading *reading)
{
    PlumbSeries *const series = reading->series;
    const int count = series->frame_count;
    double noise[PART_COUNT] = {0.0};
    series->cutoff_hz[0] = reading->ask->cutoff_hz;
    series->cutoff_hz[1] = reading->ask->cutoff_hz;
    if (series->lift == PLUMB_BENCH && !(series->cutoff_hz[1] > 0.0)) {
        series->cutoff_hz[1] = press_cutoff_hz(reading);
    }
    for (int k = 0; k < PART_COUNT; k++) {
        static const SeriesPart order[PART_COUNT] = {PART_BAR_Y,     PART_BAR_X, PART_HIP_Y,
                                                     PART_HIP_X,     PART_LEAN,  PART_SPINE,
                                                     PART_KNEES_OUT, PART_SLIP};
        const SeriesPart part = order[k];
        const bool press = series->lift == PLUMB_BENCH;
        const bool bar = press ? part != PART_LEAN && part != PART_SPINE
                               : part == PART_BAR_X || part == PART_BAR_Y;
        double *const cutoff = &series->cutoff_hz[bar ? 0 : 1];
        if (plumb_series_fill(reading->ask->time_s, reading->part[part], count)) {
            noise[part] = plumb_reading_smooth(reading, reading->part[part], cutoff);
        }
    }
    series->bar_noise_m = noise[PART_BAR_Y];
    series->hip_noise_m = noise[PART_HIP_Y];
    series->angle_noise_rad = noise[series->lift == PLUMB_BENCH ? PART_SPINE : PART_LEAN];
    const PlumbCamera *const camera = &series->trace.still[0].camera;
    series->slide_m = plumb_reading_slide_m(reading, camera->focal_px / camera->distance_m);
    int known = 0;
    for (int f = 0; f < count; f++) {
        describe(reading, f);
        if (series->frame[f].known) {
            reading->even[known++] = series->frame[f].misfit;
        }
    }
    series->misfit = reading->even[by_size(reading->even, known) / 2];
    speeds(series);
}
