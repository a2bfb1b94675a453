/* SPDX-License-Identifier: MIT */
/* The page of a working: the free body drawn, the equation, the numbers term by term, the sources.
 */
#ifndef PLUMBAR_WORKING_H
#define PLUMBAR_WORKING_H

#include <plumbar/explain.h>
#include <plumbar/scene.h>

/* What a page speaks of. Pointers are borrowed. */
typedef struct PlumbWorking {
    const PlumbExplainSubject *subject;
    const PlumbExplanation *explanation;
    const char *name; /* of the lifter, "" allowed */
    const char *date; /* as it shall stand, "" allowed */
    PlumbUnits units; /* of what the program shows; the working itself is in SI */
    bool letter;      /* US letter instead of A4; both upright */
    PlumbTextWidth text_width;
    void *text_user;
} PlumbWorking;

/* The free body alone: what is cut free in ink, the rest dashed; the numbers beside the arrows are
 * those of the terms. */
void plumb_compose_free_body(PlumbScene *scene, const PlumbWorking *working, PlumbRect rect);

/* The whole page: begins *scene. */
void plumb_compose_working(PlumbScene *scene, const PlumbWorking *working);

/* The same without paper, for a window: begins *scene, this wide (84 mm at least) and as long as
 * its text; returns the length, mm. A table that is wider is told in sentences; where there is room
 * the free body stands beside the text; above it it leaves room for text in a view this high. */
double plumb_compose_working_strip(PlumbScene *scene, const PlumbWorking *working, double width_mm,
                                   double view_mm);

#endif
