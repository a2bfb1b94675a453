/* SPDX-License-Identifier: MIT */
/* The zones of the window, in millimetres of its paper. */
#ifndef PLUMBAR_VIEWER_LAYOUT_H
#define PLUMBAR_VIEWER_LAYOUT_H

#include <plumbar/scene.h>

/* Pixels to a millimetre at density 1: the finest line is one pixel wide. */
#define PLUMB_WINDOW_PX_PER_MM 4.0

typedef struct PlumbLayout {
    PlumbRect top;    /* one line: lifter, set-up, buttons */
    PlumbRect views;  /* side and front view */
    PlumbRect table;  /* figures */
    PlumbRect joints; /* beside them; no width: one table below the other */
    PlumbRect notes;  /* findings */
    PlumbRect rulers; /* column on the right */
    PlumbRect foot;   /* one line: message or caution */
} PlumbLayout;

PlumbLayout plumb_layout(double width_mm, double height_mm, double text_scale);

bool plumb_rect_has(PlumbRect rect, PlumbVec2 at_mm);

#endif
