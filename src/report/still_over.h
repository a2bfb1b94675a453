/* SPDX-License-Identifier: MIT */
/* Stills as they are held against the model and drawn over their pictures: what fit, drawing and
 * page share. */
#ifndef PLUMB_REPORT_STILL_OVER_H
#define PLUMB_REPORT_STILL_OVER_H

#include <plumbar/still.h>

typedef struct PlumbStillOver {
    PlumbScene *scene;
    const PlumbStills *stills;
    const PlumbTraced *traced;
    int still;
    const PlumbPictureFit *fit;
    PlumbTextWidth text_width;
    void *text_user;
} PlumbStillOver;

/* Where a pixel of the fit, which saw a lifter who faces left mirrored, comes to lie. */
PlumbVec2 plumb_still_paper(const PlumbStillOver *over, PlumbVec2 pixel);
/* The same of a point in space. */
PlumbVec2 plumb_still_project(const PlumbStillOver *over, PlumbVec3 point);
/* Where an upright of the lifter's space begins and ends on paper, its top within the room. */
void plumb_still_upright(const PlumbStillOver *over, PlumbVec3 foot, double top_m,
                         PlumbVec2 end_mm[2]);
/* A letter above a line's upper end. */
void plumb_still_letter(const PlumbStillOver *over, PlumbVec2 at, PlumbAlign align,
                        const char *letter);

/* What the plumb lines' letters are. */
const char *plumb_still_lines(PlumbLift lift, bool front);

/* The press beside a still: with its grip, where it is at the touch or at lockout with the bar's
 * place too, at the share of its rise where the bar is as high above the shoulders. */
void plumb_still_press_model(PlumbStills *stills, int still);
/* Whether a view of a press shows a figure. */
bool plumb_still_press_shows(const PlumbTraced *traced, PlumbReading reading);
void plumb_still_press_lead_text(PlumbText *text, const PlumbStills *stills, int still);

/* Points of a press that are drawn, of a figure; returns how many. */
enum { PLUMB_STILL_PRESS_POINTS = 11 };
int plumb_still_press_points(const PlumbStillOver *over, const PlumbPosition *position,
                             PlumbVec3 point[PLUMB_STILL_PRESS_POINTS]);
/* Bench and plumb lines of a press, what lies behind. */
void plumb_still_press_behind(const PlumbStillOver *over);
/* The arms, and of the fit's own figure the trunk. */
void plumb_still_press_figure(const PlumbStillOver *over, const PlumbPosition *position,
                              PlumbPen pen);

#endif
