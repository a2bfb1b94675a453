/* SPDX-License-Identifier: MIT */
/* Series of numbers over time: smoothed without lag, brought to even steps, differentiated. */
#ifndef PLUMBAR_FILTER_H
#define PLUMBAR_FILTER_H

#include <stdbool.h>

/* Samples that are mirrored beyond each end while a series is filtered. */
enum { PLUMB_FILTER_EDGE = 6 };

/* A second-order section: y_n = b0 x_n + b1 x_n-1 + b2 x_n-2 - a1 y_n-1 - a2 y_n-2. */
typedef struct PlumbFilter {
    double b[3];
    double a[3]; /* a[0] is 1 */
} PlumbFilter;

/* A second-order Butterworth low-pass for a pass forward and one backward, together of fourth order
 * and without lag. The section's own cut-off is raised by 1/0.802, so that both passes together
 * fall to 0.707 at cutoff_hz (Winter 2009, Biomechanics and Motor Control of Human Movement, 2.2;
 * read from memory). false where cutoff_hz is not within 0 and half of rate_hz. */
bool plumb_filter_low_pass(double cutoff_hz, double rate_hz, PlumbFilter *filter);

/* Filters x[count] forward and backward in place. The series is continued at both ends by its
 * point mirror image (PLUMB_FILTER_EDGE samples, fewer where it is shorter), and each pass begins
 * in the state that a constant would have left. room[count + 2 PLUMB_FILTER_EDGE]. A series of
 * fewer than 3 samples stays as it is. */
void plumb_filter_run(const PlumbFilter *filter, double *x, int count, double *room);

/* Cut-off by residual analysis (Winter's convention): what a filter takes away, as a root mean
 * square, falls along a line where only noise is taken away; the cut-off is where as much is taken
 * away as that line says at 0 Hz. The line is laid through the upper half of the frequencies;
 * searched in steps of 0.25 Hz from 4 Hz. room[2 count + 2 PLUMB_FILTER_EDGE]. */
double plumb_filter_cutoff_hz(const double *x, int count, double rate_hz, double *room);

/* Slopes of x[count] by central differences, one-sided at the ends, per second. count 2 or more. */
void plumb_filter_slopes(const double *x, int count, double rate_hz, double *slope);

/* Whether times rise in steps that differ from their mean by less than share of it. */
bool plumb_times_even(const double *time_s, int count, double share);

/* Values of (time_s, x)[count], times rising, at time t_s: a cubic through the two neighbours with
 * the slopes of their own neighbours; beyond the ends the last value. */
double plumb_series_at(const double *time_s, const double *x, int count, double t_s);

/* First time from from_s on at which (time_s, x)[count] passes level upwards (rising) or downwards,
 * by linear interpolation; NaN where it does not. */
double plumb_series_crossing(const double *time_s, const double *x, int count, double level,
                             bool rising, double from_s);

#endif
