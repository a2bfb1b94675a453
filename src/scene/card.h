/* SPDX-License-Identifier: MIT */
/* What the cards are made of: sketches of people and things, in shares of stature. */
#ifndef PLUMBAR_SCENE_CARD_H
#define PLUMBAR_SCENE_CARD_H

#include "scene/board.h"

/* A tapered link between two balls. */
typedef struct PlumbLink {
    PlumbVec2 a;
    double a_radius;
    PlumbVec2 b;
    double b_radius;
} PlumbLink;

typedef enum PlumbStrokeKind {
    PLUMB_STROKE_LINE,   /* from a to b */
    PLUMB_STROKE_CHAIN,  /* a line of sight or an axis */
    PLUMB_STROKE_BOX,    /* corners a and b */
    PLUMB_STROKE_CIRCLE, /* centre a, radius b.x */
    PLUMB_STROKE_BAR,    /* a thin box of the bar's colour */
    PLUMB_STROKE_DISC,   /* a circle of the bar's colour */
    PLUMB_STROKE_GROUND  /* from a to b, hatched below */
} PlumbStrokeKind;

typedef struct PlumbStroke {
    PlumbStrokeKind kind;
    PlumbVec2 a;
    PlumbVec2 b;
} PlumbStroke;

/* What the tape spans: from a to b, its dimension line at `at` (x of an upright one, y of a level
 * one). */
typedef struct PlumbSpan {
    bool upright;
    PlumbVec2 a;
    PlumbVec2 b;
    double at;
    const char *words; /* beside it, NULL: none */
} PlumbSpan;

/* A drawing within low to high; x to the right, y up. Strokes behind come before the links. */
typedef struct PlumbSketch {
    PlumbVec2 low;
    PlumbVec2 high;
    const PlumbLink *link;
    int link_count;
    const PlumbStroke *behind;
    int behind_count;
    const PlumbStroke *front;
    int front_count;
    PlumbSpan span; /* a and b the same: none */
} PlumbSketch;

typedef struct PlumbCardLine {
    const PlumbSketch *sketch;
    const char *heading;
    const char *words;
} PlumbCardLine;

/* Lines in columns, each with its sketch left of its words; the last sentence below all. */
double plumb_card_lines(const PlumbBoard *board, PlumbRect rect, const PlumbCardLine *line,
                        int count, int columns_most, const char *last);

/* The filming card of a bench press. */
double plumb_card_press(const PlumbBoard *board, PlumbRect rect);

#endif
