/* SPDX-License-Identifier: MIT */
/* One lifter at one load in every style: conventional and sumo, high, low and front, with several
 * stances and toes; and what this body's proportions favour. There is no score across styles. */
#ifndef PLUMBAR_STYLES_H
#define PLUMBAR_STYLES_H

#include <plumbar/compare.h>

enum { PLUMB_STYLE_ROWS_MAX = 12, PLUMB_FAVOUR_MAX = 8, PLUMB_BINDING_MAX = 3 };

typedef struct PlumbStyleEntry {
    PlumbStyle style; /* deadlift */
    PlumbSeat seat;   /* squat */
    bool preset;      /* the style's own stance, by which styles are compared */
    PlumbSetup setup;
    PlumbAnswer answer;
    double limit_left_rad[PLUMB_LEG_LIMIT_COUNT]; /* limit less the angle; negative: past it */
    PlumbLimit tightest;                          /* the one with least left */
} PlumbStyleEntry;

/* Solves every style for a lifter. base gives load, spine, depth, shoes and the like; styles,
 * stances and leads are the rows' own: balance leads a pull, auto a squat. Returns how many rows.
 */
int plumb_styles(const PlumbLifter *lifter, const PlumbSetup *base,
                 PlumbStyleEntry entry[PLUMB_STYLE_ROWS_MAX]);

/* What the proportions say on one figure and two styles: the difference b less a on this body,
 * against the same on an average build of this sex, stature and mass. */
typedef struct PlumbFavour {
    int a; /* PlumbStyle or PlumbSeat */
    int b;
    PlumbOutput output;
    double difference;
    double average;
    double spread;   /* of that difference between people of this stature and mass, drawn */
    double strength; /* (difference - average) / spread */
    bool same;       /* the body is the average one: nothing was measured */
} PlumbFavour;

int plumb_styles_favours(const PlumbLifter *lifter, const PlumbSetup *base,
                         PlumbFavour favour[PLUMB_FAVOUR_MAX]);

/* One sentence: what is favoured, by how much, how weakly or strongly. */
void plumb_favour_text(PlumbText *text, const PlumbFavour *favour, PlumbLift lift,
                       PlumbUnits units);
/* "hardly", "weakly", "clearly", "strongly". */
const char *plumb_favour_strength(const PlumbFavour *favour);

#endif
