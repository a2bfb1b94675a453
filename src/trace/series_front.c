/* SPDX-License-Identifier: MIT */
/* A lift seen from the front: knees against ankles and the shins' lean, frame by frame.
 *
 * Knees and ankles stand at nearly the same distance, so that the ratio of their distances needs no
 * scale; knees that come 0.3 m nearer to a camera 5 m away look 6 % further apart. */
#include "trace/series.h"

#include "base/vec.h"

/* Mean height of a landmark's two sides, up; NaN where neither is trusted. */
static double height_px(const Reading *reading, PlumbLandmark landmark, int frame)
{
    double sum = 0.0;
    int count = 0;
    for (int near = PLUMB_NEAR; near <= PLUMB_FAR; near++) {
        PlumbVec2 at;
        const int track = plumb_reading_track(reading, landmark, (PlumbNear)near);
        if (track >= 0 && plumb_series_place(reading->ask, track, frame, &at)) {
            sum -= at.y;
            count++;
        }
    }
    return count > 0 ? sum / count : (double)NAN;
}

/* Spread and lean of one frame into the parts. */
static void measure(const Reading *reading, int f, PlumbLandmark lead)
{
    PlumbVec2 at[2][2]; /* knee, ankle; right, left */
    bool known = true;
    for (int near = PLUMB_NEAR; near <= PLUMB_FAR; near++) {
        const int knee = plumb_reading_track(reading, PLUMB_MARK_knee, (PlumbNear)near);
        const int ankle = plumb_reading_track(reading, PLUMB_MARK_ankle, (PlumbNear)near);
        known = plumb_series_place(reading->ask, knee, f, &at[0][near]) && known;
        known = plumb_series_place(reading->ask, ankle, f, &at[1][near]) && known;
    }
    double *const *const part = reading->part;
    part[PART_BAR_Y][f] = height_px(reading, lead, f);
    reading->series->frame[f].rise_known = !isnan(part[PART_BAR_Y][f]);
    const double knees = fabs(at[0][0].x - at[0][1].x);
    const double ankles = fabs(at[1][0].x - at[1][1].x);
    const double tall = 0.5 * (at[1][0].y + at[1][1].y - at[0][0].y - at[0][1].y);
    known = known && ankles > 1.0 && tall > 1.0;
    part[PART_BAR_X][f] = known ? ankles : (double)NAN;
    part[PART_HIP_Y][f] = known ? tall : (double)NAN;
    reading->series->frame[f].known = known;
    reading->series->unknown_count += !known;
    part[PART_HIP_X][f] = known ? knees / ankles : (double)NAN;
    part[PART_LEAN][f] = known ? atan2(0.5 * (knees - ankles), tall) : (double)NAN;
}

/* What sliding marks make of spread and lean, each mark for itself; of the lean where the shanks
 * look shortest. The shanks, upright at one end of a lift or nearly so, tell how many pixels a
 * metre has. */
static void slide(const Reading *reading)
{
    PlumbSeries *const series = reading->series;
    double *const *const part = reading->part;
    double ankles = 0.0;
    double knees = 0.0;
    double shortest = (double)INFINITY;
    double tallest = 0.0;
    int count = 0;
    for (int f = 0; f < series->frame_count; f++) {
        if (series->frame[f].known) {
            ankles += part[PART_BAR_X][f];
            knees += part[PART_BAR_X][f] * part[PART_HIP_X][f];
            shortest = fmin(shortest, part[PART_HIP_Y][f]);
            tallest = fmax(tallest, part[PART_HIP_Y][f]);
            count++;
        }
    }
    const double shank_m = reading->ask->still.lifter->body.shank_m;
    const double slide_px = plumb_reading_slide_m(reading, tallest / shank_m) * tallest / shank_m;
    series->spread_slide_frac =
        1.4142135623730951 * slide_px * count / ankles * hypot(1.0, knees / ankles);
    series->shin_slide_rad = slide_px / shortest;
}

PlumbStatus plumb_reading_front(Reading *reading, PlumbError *error)
{
    PlumbSeries *const series = reading->series;
    const int count = series->frame_count;
    const PlumbLandmark lead = reading->ask->track[plumb_reading_lead(reading)].name.landmark;
    double *const *const part = reading->part;
    const double *const time_s = reading->ask->time_s;
    for (int f = 0; f < count; f++) {
        measure(reading, f, lead);
    }
    if (!plumb_series_fill(time_s, part[PART_BAR_Y], count) ||
        !plumb_series_fill(time_s, part[PART_HIP_X], count) ||
        !plumb_series_fill(time_s, part[PART_LEAN], count)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                               "no frame shows knees, ankles and the bar so that they can be "
                               "trusted: mark more of them, or correct those in doubt");
    }
    slide(reading);
    series->cutoff_hz[0] = reading->ask->cutoff_hz;
    series->cutoff_hz[1] = reading->ask->cutoff_hz;
    series->bar_noise_m = (double)NAN;
    series->slide_m = (double)NAN;
    series->misfit = (double)NAN;
    plumb_reading_smooth(reading, part[PART_BAR_Y], &series->cutoff_hz[0]);
    series->hip_noise_m = (double)NAN;
    series->spread_noise_frac =
        plumb_reading_smooth(reading, part[PART_HIP_X], &series->cutoff_hz[1]);
    series->angle_noise_rad = plumb_reading_smooth(reading, part[PART_LEAN], &series->cutoff_hz[1]);
    for (int f = 0; f < count; f++) {
        PlumbSeriesFrame *const frame = &series->frame[f];
        frame->rise_px = part[PART_BAR_Y][f];
        frame->spread_frac = part[PART_HIP_X][f];
        frame->shin_rad = part[PART_LEAN][f];
        for (int i = 0; i < PLUMB_READING_COUNT; i++) {
            frame->value[i] = (double)NAN;
        }
    }
    return PLUMB_OK;
}
