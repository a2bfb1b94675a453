/* SPDX-License-Identifier: MIT */
/* The drawing of a bench press: from the side, from the head end, from above. */
#ifndef PLUMBAR_SCENE_PRESS_H
#define PLUMBAR_SCENE_PRESS_H

#include "scene/board.h"

/* One drawing in its fit. */
typedef struct PlumbPressViews {
    PlumbBoard board;
    const PlumbFit *fit;
    bool cut_free; /* of the lifter only the right arm in ink, the rest dashed */
} PlumbPressViews;

/* Whether the drawing's sight leaves the view. */
bool plumb_press_sees(const PlumbDrawing *drawing, PlumbPressView view);

PlumbVec2 plumb_press_paper(const PlumbPressViews *views, PlumbPressView view, PlumbVec3 point_m);

/* Fits the views into rect at the largest round scale. */
PlumbFit plumb_press_fit(const PlumbDrawing *drawing, PlumbRect rect);
/* Figure, marks and chart. */
void plumb_press_compose(PlumbScene *scene, const PlumbDrawing *drawing, const PlumbFit *fit);
/* Lifter, bench and bar in all views, the pencilled and the wished arm over the inked one. */
void plumb_press_figure(const PlumbPressViews *views);
/* Plumb line of the bar, dimension lines, the upper arm's angle. */
void plumb_press_marks(const PlumbPressViews *views);

/* The table of figures; returns the height used in mm. */
double plumb_press_table(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);
/* Its two parts: figures and angles; moment arms, moments and efforts. */
double plumb_press_figures(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);
double plumb_press_joints(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);

/* Curves of what the grip does, where there is room: two panels below or beside one another. */
void plumb_press_chart(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect);

/* The arm of the bar that belongs to a moment. */
static inline PlumbPressArm plumb_press_arm_of(PlumbPressJoint joint)
{
    return joint == PLUMB_PRESS_JOINT_shoulder_adduction ? PLUMB_PRESS_ARM_shoulder_frontal
           : joint == PLUMB_PRESS_JOINT_shoulder_flexion ? PLUMB_PRESS_ARM_shoulder_sagittal
                                                         : PLUMB_PRESS_ARM_elbow;
}

/* Thickness of the bench as drawn, m. */
#define PLUMB_BENCH_DRAWN_M 0.06

#endif
