/* SPDX-License-Identifier: MIT */
/* The drawing of a bench press: from the side, from the head end, from above. */
#ifndef PLUMBAR_SCENE_PRESS_H
#define PLUMBAR_SCENE_PRESS_H

#include "scene/board.h"

typedef enum PlumbPressView {
    PLUMB_PRESS_SIDE,  /* head at the left, x to the right, y up */
    PLUMB_PRESS_HEAD,  /* beside it at the same height, lifter's right at the right */
    PLUMB_PRESS_ABOVE, /* below the side view, x to the right, lifter's right downwards */
    PLUMB_PRESS_VIEW_COUNT
} PlumbPressView;

/* Where the views stand. */
typedef struct PlumbPressViews {
    PlumbBoard board;
    const PlumbPressAnswer *answer;
    double scale_n; /* 1 : n */
    PlumbRect room[PLUMB_PRESS_VIEW_COUNT];
    PlumbRect rest; /* below the view from the head end */
    PlumbVec2 origin_mm[PLUMB_PRESS_VIEW_COUNT];
    double bench_mm; /* paper y of the bench's underside as drawn, in side and head view */
    double inner_m;  /* from the middle to the drawn discs */
    bool broken;     /* the discs truly stand further out */
    int count;       /* of the views that are drawn: all, or without the one from above */
    bool cut_free;   /* of the lifter only the right arm in ink, the rest dashed */
} PlumbPressViews;

PlumbVec2 plumb_press_paper(const PlumbPressViews *views, PlumbPressView view, PlumbVec3 point_m);

/* Fits the three views into rect at the largest round scale. */
PlumbPressViews plumb_press_views(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);
/* The same without the view from above. */
PlumbPressViews plumb_press_two_views(PlumbScene *scene, const PlumbDrawing *drawing,
                                      PlumbRect rect);
/* Lifter, bench and bar in all views, the pencilled arm under the inked one. */
void plumb_press_figure(const PlumbPressViews *views);
/* Plumb line of the bar, dimension lines, the upper arm's angle. */
void plumb_press_marks(const PlumbPressViews *views);

/* The table of figures; returns the height used in mm. */
double plumb_press_table(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);

/* Curves of what the grip does, where there is room. */
void plumb_press_chart(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);

/* Thickness of the bench as drawn, m. */
#define PLUMB_BENCH_DRAWN_M 0.06

#endif
