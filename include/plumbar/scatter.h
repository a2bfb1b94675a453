/* SPDX-License-Identifier: MIT */
/* Scatter drawings: many bodies as dots, a line through them, one lifter marked. */
#ifndef PLUMBAR_SCATTER_H
#define PLUMBAR_SCATTER_H

#include <plumbar/scene.h>

/* One pair of axes. Values are figures as a person reads them, the unit in the label. Pointers are
 * borrowed. */
typedef struct PlumbScatterPanel {
    const char *x_label;
    const char *y_label;
    const double *x; /* count of each; a pair that is not finite is left out */
    const double *y;
    int count;
    bool has_line; /* y = line_y + slope (x - line_x) */
    double line_x;
    double line_y;
    double slope;
    double mark_x; /* drawn where both are finite */
    double mark_y;
} PlumbScatterPanel;

enum { PLUMB_SCATTER_PANELS = 3, PLUMB_SCATTER_DOTS = 2400 };

typedef struct PlumbScatter {
    const char *title;
    const char *note; /* below the panels; what is drawn of how many is added */
    const char *mark; /* whose mark it is: "this lifter" */
    int panel_count;  /* 1 to PLUMB_SCATTER_PANELS */
    PlumbScatterPanel panel[PLUMB_SCATTER_PANELS];
    PlumbTextWidth text_width;
    void *text_user;
} PlumbScatter;

/* Composes a whole sheet: begins *scene. Where there are more dots than PLUMB_SCATTER_DOTS over all
 * panels, every k-th is drawn. */
void plumb_compose_scatter(PlumbScene *scene, const PlumbScatter *scatter, PlumbFormat format);

#endif
