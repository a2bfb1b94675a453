/* SPDX-License-Identifier: MIT */
/* What the parts of the views share: the drawing board, the fit, and the rows below the floor. */
#ifndef PLUMBAR_SCENE_VIEWS_H
#define PLUMBAR_SCENE_VIEWS_H

#include "scene/figure.h"

typedef struct PlumbViews {
    PlumbBoard board;
    PlumbFit *fit;
    const PlumbPosition *at; /* the pose that is drawn */
    double ground_mm;        /* paper y of the ground line */
    double top_mm;           /* where plumb lines begin, a little above all that is drawn */
} PlumbViews;

/* Paper heights, mm, from the ground line down: the foot's scale, and dimension row 0, 1, 2. */
double plumb_foot_row_mm(const PlumbDrawing *drawing);
double plumb_dimension_row_mm(const PlumbDrawing *drawing, int row);
/* The last row that a sight has: 2, the side view alone has one row. */
int plumb_last_row(const PlumbDrawing *drawing);
/* All that stands below the ground line. */
double plumb_below_ground_mm(const PlumbDrawing *drawing);

/* Room beside the side view for hip height (left) and bar travel (right), and above it. */
double plumb_left_room_mm(const PlumbDrawing *drawing);
double plumb_right_room_mm(const PlumbDrawing *drawing);
double plumb_top_room_mm(const PlumbDrawing *drawing);

/* Height of the highest thing drawn, m. */
double plumb_content_top_m(const PlumbDrawing *drawing);

/* Whether the pose is made of finite numbers and can be drawn. */
bool plumb_position_drawable(const PlumbPosition *position);

/* The plumb lines and the foot's scale that C meets. */
void plumb_draw_plumb_lines(const PlumbViews *views);
/* The words of the foot's scale, and balance as a figure beside it. */
void plumb_draw_balance(const PlumbViews *views);
/* Dimension lines and angles in the fixed order of importance. */
void plumb_draw_figures(const PlumbViews *views);
/* Stance and grip below the front view. */
void plumb_draw_front_figures(const PlumbViews *views);

#endif
