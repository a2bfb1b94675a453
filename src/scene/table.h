/* SPDX-License-Identifier: MIT */
/* The pen that goes down the table of figures. */
#ifndef PLUMBAR_SCENE_TABLE_H
#define PLUMBAR_SCENE_TABLE_H

#include "scene/views.h"

typedef struct PlumbTableau {
    PlumbBoard board;
    PlumbRect rect;
    double y_mm;
    double em_mm;
    const PlumbAnswer *ink;
    const PlumbAnswer *pencil; /* NULL: no differences */
    bool full;
} PlumbTableau;

/* The baseline of the next row; full is set, and 0 returned, where it would leave the room. */
double plumb_table_row(PlumbTableau *table);
/* Text of the table's size; x_mm from the table's left edge. */
void plumb_table_put(const PlumbTableau *table, PlumbRole role, PlumbTag tag, double x_mm,
                     double y_mm, PlumbAlign align, const char *text);
/* A fine rule below the last row. */
void plumb_table_rule(PlumbTableau *table);
/* Moment arms, net moments and relative efforts of the five joints. */
void plumb_table_joints(PlumbTableau *table);

#define PLUMB_NO_FIGURE ((double)NAN)

#endif
