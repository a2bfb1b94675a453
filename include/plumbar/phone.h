/* SPDX-License-Identifier: MIT */
/* The phone's format: one narrow column of drawings (views, rulers, table), composed apart so that
 * a page can put each where it belongs. */
#ifndef PLUMBAR_PHONE_H
#define PLUMBAR_PHONE_H

#include <plumbar/scene.h>

/* Paper of a page: so many px of a screen make a millimetre, and small text is 14 px high. */
#define PLUMB_PHONE_PX_PER_MM 5.6

/* From this width on both views stand side by side. */
#define PLUMB_PHONE_BOTH_MM 108.0

/* The views alone on a paper of their own. drawing->sight says which. *fit is made where it is not
 * decided, else held. */
void plumb_compose_phone_views(PlumbScene *scene, const PlumbDrawing *drawing, double width_mm,
                               double height_mm, PlumbFit *fit);

/* Figures and joints in one column, as high as they need. */
void plumb_compose_phone_table(PlumbScene *scene, const PlumbDrawing *drawing, double width_mm);
/* Notes and title block in one column, as high as they need. scale_n: of the views. */
void plumb_compose_phone_notes(PlumbScene *scene, const PlumbDrawing *drawing, double width_mm,
                               double scale_n);

enum { PLUMB_RULER_SAMPLES = 48 };

/* A setting as a graduated line. */
typedef struct PlumbRuler {
    PlumbSettingId id;
    double value_si;
    double pencil_si; /* NaN: nothing pencilled */
    bool follows;     /* could lead but does not: an open tick instead of the pointer */
    double least_si;
    double most_si;
    PlumbInterval window;     /* of the quantity on this ruler; exists only where it leads */
    PlumbInterval low_effort; /* the same */
    int held_count;           /* 0: not known; else held[i] at equal steps from least to most */
    bool held[PLUMB_RULER_SAMPLES];
    double travel_m[PLUMB_RULER_SAMPLES]; /* there; NaN where not held */
    double arm_m[PLUMB_RULER_SAMPLES];    /* of the hip */
} PlumbRuler;

/* The ruler on a paper of its own, PLUMB_RULER_MM high. Its range ends PLUMB_RULER_AIR_MM from
 * either side. */
#define PLUMB_RULER_MM 13.0
#define PLUMB_RULER_AIR_MM 4.0
/* Whether the ruler moves neither bar travel nor the arm anywhere that it is known. */
bool plumb_ruler_is_idle(const PlumbRuler *ruler);
void plumb_compose_ruler(PlumbScene *scene, const PlumbDrawing *drawing, const PlumbRuler *ruler,
                         double width_mm);

#endif
