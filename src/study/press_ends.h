/* SPDX-License-Identifier: MIT */
/* How the touch that auto means moves. */
#ifndef PLUMB_STUDY_PRESS_ENDS_H
#define PLUMB_STUDY_PRESS_ENDS_H

#include "study/press_jets.h"

/* Window and low-effort range of a press and what can be said of them without a factor. Index 0 is
 * the lower end, 1 the upper. */
typedef struct PlumbPressEnds {
    PlumbPressRange range;
    PlumbPressTouch window_by_touch[2]; /* derivatives by the touch */
    PlumbPressTouch effort_by_touch[2];
    bool by_effort[2]; /* the effort ends the range there */
    bool by_window[2]; /* the window does; both: at once */
    int least_at;      /* the end of the window at which the least effort lies; -1: inside */
    bool by_flare;     /* where the upper arm would flare is the window's lower end here */
} PlumbPressEnds;

/* fixed: the inputs without slopes. */
void plumb_press_ends_begin(const PlumbPressRange *range, const PlumbPressInputs *fixed,
                            PlumbPressEnds *ends);

/* Slope of the middle of the range in the direction of in, NaN where unknown; *kink gets why it may
 * differ in the other. */
double plumb_press_middle_slope(const PlumbPressEnds *ends, const PlumbPressInputs *in,
                                unsigned *kink);

#endif
