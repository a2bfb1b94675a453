/* SPDX-License-Identifier: MIT */
/* An axis of a chart: figures on paper, and round steps of its ticks. */
#ifndef PLUMBAR_SCENE_AXIS_H
#define PLUMBAR_SCENE_AXIS_H

/* Figures low to high on paper from_mm to to_mm. */
typedef struct PlumbAxis {
    double low;
    double high;
    double from_mm;
    double to_mm;
} PlumbAxis;

double plumb_axis_place(const PlumbAxis *axis, double value);
/* 1, 2 or 5 times a power of ten, so that about `wanted` steps fill the axis; *decimals that its
 * figures need. */
double plumb_axis_step(const PlumbAxis *axis, int wanted, int *decimals);

#endif
