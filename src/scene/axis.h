/* SPDX-License-Identifier: MIT */
/* An axis of a chart: figures on paper, and round steps of its ticks. */
#ifndef PLUMBAR_SCENE_AXIS_H
#define PLUMBAR_SCENE_AXIS_H

/* Figures low to high on paper from_mm to to_mm. */
typedef struct PlumbChartAxis {
    double low;
    double high;
    double from_mm;
    double to_mm;
} PlumbChartAxis;

double plumb_chart_place(const PlumbChartAxis *axis, double value);
/* 1, 2 or 5 times a power of ten, so that about `wanted` steps fill the axis; *decimals that its
 * figures need. */
double plumb_chart_step(const PlumbChartAxis *axis, int wanted, int *decimals);

#endif
