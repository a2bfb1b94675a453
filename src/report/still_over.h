/* SPDX-License-Identifier: MIT */
/* A still as it is drawn over its picture: what the drawing and the page of it share. */
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

#endif
