/* SPDX-License-Identifier: MIT */
/* The zero-lag low-pass, its cut-off, and slopes of a series.
 *
 * With W = tan(pi fc / fs) / 0.802 the second-order Butterworth section by the bilinear transform
 * is b = (1, 2, 1) W² / (1 + sqrt2 W + W²), a = (1, 2 (W² - 1) / (...), (1 - sqrt2 W + W²) /
 * (...)). Two passes of n = 2 have half of the power at the corrected cut-off: 0.802 = (sqrt2 -
 * 1)^(1/4). */
#include <plumbar/filter.h>

#include "base/vec.h"

static const double lowest_hz = 4.0; /* common practice for lifts, no source */
static const double step_hz = 0.25;
static const double line_low_frac = 0.5; /* of half the rate: where only noise is left */
static const double line_high_frac = 0.9;

bool plumb_filter_low_pass(double cutoff_hz, double rate_hz, PlumbFilter *filter)
{
    if (!(cutoff_hz > 0.0 && cutoff_hz < 0.5 * rate_hz)) {
        return false;
    }
    const double correction = sqrt(sqrt(sqrt(2.0) - 1.0));
    const double w = tan(PLUMB_PI * cutoff_hz / rate_hz) / correction;
    const double scale = 1.0 + sqrt(2.0) * w + w * w;
    const double b = w * w / scale;
    *filter = (PlumbFilter){
        .b = {b, 2.0 * b, b},
        .a = {1.0, 2.0 * (w * w - 1.0) / scale, (1.0 - sqrt(2.0) * w + w * w) / scale},
    };
    return true;
}

/* One pass over x[count] with stride 1 or -1 from its first sample, begun as if the first sample
 * had always been there: the transposed form's state after a constant c is
 * (b1 + b2 - (a1 + a2) k, b2 - a2 k) c, k the gain of a constant. */
static void pass(const PlumbFilter *f, double *x, int count, int stride)
{
    const double gain = (f->b[0] + f->b[1] + f->b[2]) / (f->a[0] + f->a[1] + f->a[2]);
    double state1 = (f->b[1] + f->b[2] - (f->a[1] + f->a[2]) * gain) * *x;
    double state2 = (f->b[2] - f->a[2] * gain) * *x;
    for (int i = 0; i < count; i++, x += stride) {
        const double in = *x;
        const double out = f->b[0] * in + state1;
        state1 = f->b[1] * in - f->a[1] * out + state2;
        state2 = f->b[2] * in - f->a[2] * out;
        *x = out;
    }
}

void plumb_filter_run(const PlumbFilter *filter, double *x, int count, double *room)
{
    if (count < 3) {
        return;
    }
    const int edge = count - 1 < PLUMB_FILTER_EDGE ? count - 1 : PLUMB_FILTER_EDGE;
    const int all = count + 2 * edge;
    for (int i = 0; i < edge; i++) {
        room[i] = 2.0 * x[0] - x[edge - i];
        room[edge + count + i] = 2.0 * x[count - 1] - x[count - 2 - i];
    }
    for (int i = 0; i < count; i++) {
        room[edge + i] = x[i];
    }
    pass(filter, room, all, 1);
    pass(filter, room + all - 1, all, -1);
    for (int i = 0; i < count; i++) {
        x[i] = room[edge + i];
    }
}

/* Root mean square of what a filter takes away; room as in plumb_filter_cutoff_hz. */
static double residual_at(const double *x, int count, double rate_hz, double cutoff_hz,
                          double *room)
{
    PlumbFilter filter;
    if (!plumb_filter_low_pass(cutoff_hz, rate_hz, &filter)) {
        return 0.0;
    }
    for (int i = 0; i < count; i++) {
        room[i] = x[i];
    }
    plumb_filter_run(&filter, room, count, room + count);
    double sum = 0.0;
    for (int i = 0; i < count; i++) {
        sum += (x[i] - room[i]) * (x[i] - room[i]);
    }
    return sqrt(sum / count);
}

/* Where a straight line through the residuals of the upper frequencies meets 0 Hz. */
static double noise_at_zero(const double *x, int count, double rate_hz, double *room)
{
    const double high = line_high_frac * 0.5 * rate_hz;
    double n = 0.0;
    double sf = 0.0;
    double sr = 0.0;
    double sff = 0.0;
    double sfr = 0.0;
    for (double f = line_low_frac * 0.5 * rate_hz; f <= high; f += step_hz) {
        const double r = residual_at(x, count, rate_hz, f, room);
        n += 1.0;
        sf += f;
        sr += r;
        sff += f * f;
        sfr += f * r;
    }
    const double bottom = n * sff - sf * sf;
    return bottom > 0.0 ? (sr * sff - sf * sfr) / bottom : 0.0;
}

double plumb_filter_cutoff_hz(const double *x, int count, double rate_hz, double *room)
{
    const double noise = noise_at_zero(x, count, rate_hz, room);
    const double highest = line_high_frac * 0.5 * rate_hz;
    double f = fmin(lowest_hz, highest);
    while (f + step_hz <= highest && residual_at(x, count, rate_hz, f, room) > noise) {
        f += step_hz;
    }
    return f;
}

void plumb_filter_slopes(const double *x, int count, double rate_hz, double *slope)
{
    for (int i = 0; i < count; i++) {
        const int low = i > 0 ? i - 1 : 0;
        const int high = i < count - 1 ? i + 1 : count - 1;
        slope[i] = (x[high] - x[low]) * rate_hz / (high - low);
    }
}

bool plumb_times_even(const double *time_s, int count, double share)
{
    const double mean = count > 1 ? (time_s[count - 1] - time_s[0]) / (count - 1) : 0.0;
    for (int i = 1; i < count; i++) {
        if (!(fabs(time_s[i] - time_s[i - 1] - mean) < share * mean)) {
            return false;
        }
    }
    return true;
}

/* Slope of the parabola through a sample and its neighbours, one-sided at the ends. */
static double slope_at(const double *time_s, const double *x, int count, int i)
{
    if (i == 0 || i == count - 1) {
        const int low = i == 0 ? 0 : count - 2;
        return (x[low + 1] - x[low]) / (time_s[low + 1] - time_s[low]);
    }
    const double before = time_s[i] - time_s[i - 1];
    const double after = time_s[i + 1] - time_s[i];
    return ((x[i] - x[i - 1]) / before * after + (x[i + 1] - x[i]) / after * before) /
           (before + after);
}

double plumb_series_at(const double *time_s, const double *x, int count, double t_s)
{
    if (count == 1 || t_s <= time_s[0]) {
        return x[0];
    }
    if (t_s >= time_s[count - 1]) {
        return x[count - 1];
    }
    int i = 0;
    for (int high = count - 1; high - i > 1;) {
        const int middle = (i + high) / 2;
        if (time_s[middle] <= t_s) {
            i = middle;
        } else {
            high = middle;
        }
    }
    const double h = time_s[i + 1] - time_s[i];
    const double u = (t_s - time_s[i]) / h;
    const double first = slope_at(time_s, x, count, i) * h;
    const double second = slope_at(time_s, x, count, i + 1) * h;
    const double rise = x[i + 1] - x[i];
    return x[i] + u * (first +
                       u * (3.0 * rise - 2.0 * first - second + u * (first + second - 2.0 * rise)));
}

double plumb_series_crossing(const double *time_s, const double *x, int count, double level,
                             bool rising, double from_s)
{
    for (int i = 1; i < count; i++) {
        const double before = rising ? x[i - 1] - level : level - x[i - 1];
        const double after = rising ? x[i] - level : level - x[i];
        if (before < 0.0 && after >= 0.0) {
            const double t = time_s[i] - (time_s[i] - time_s[i - 1]) * after / (after - before);
            if (t >= from_s) {
                return t;
            }
        }
    }
    return (double)NAN;
}
