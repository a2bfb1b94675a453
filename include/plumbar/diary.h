/* SPDX-License-Identifier: MIT */
/* Charts over days: one lifter's log, figure below figure. */
#ifndef PLUMBAR_DIARY_H
#define PLUMBAR_DIARY_H

#include <plumbar/scene.h>

enum { PLUMB_DIARY_PANELS = 4 };

/* One figure over the days. Values as a person reads them, the unit in the label; one that is not
 * finite is left out. */
typedef struct PlumbDiaryPanel {
    const char *label;
    int decimals;
    const double *value; /* count of the diary */
} PlumbDiaryPanel;

/* Pointers are borrowed. */
typedef struct PlumbDiary {
    const char *title;
    const char *note;
    int count;               /* of days, in rising order */
    const double *day;       /* any count of days */
    const char *const *date; /* as each shall be written */
    int panel_count;
    PlumbDiaryPanel panel[PLUMB_DIARY_PANELS];
    PlumbTextWidth text_width;
    void *text_user;
} PlumbDiary;

/* Composes a whole sheet: begins *scene. */
void plumb_compose_diary(PlumbScene *scene, const PlumbDiary *diary, PlumbFormat format);

#endif
