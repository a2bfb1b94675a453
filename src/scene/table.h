/* SPDX-License-Identifier: MIT */
/* The pen that goes down the table of figures. */
#ifndef PLUMBAR_SCENE_TABLE_H
#define PLUMBAR_SCENE_TABLE_H

#include "scene/views.h"

#include <plumbar/effects.h>
#include <plumbar/explain.h>

typedef struct PlumbTableau {
    PlumbBoard board;
    PlumbRect rect;
    double y_mm;
    double em_mm;
    const PlumbAnswer *ink;
    const PlumbAnswer *pencil; /* NULL: no differences */
    bool differences;          /* each row has its difference to what is pencilled */
    bool spread;               /* figures, or their differences, have theirs */
    bool full;
    char heading[96]; /* waits for its first row, so that none stands alone at the foot */
} PlumbTableau;

enum { PLUMB_NO_OUTPUT = -1 };

/* One figure of the list. */
typedef struct PlumbTableRow {
    const char *name;
    double value_si;
    double pencil_si; /* NaN: no difference */
    PlumbQuantity quantity;
    const char *after; /* from where it is measured, "" for nothing */
    bool seen;         /* what can be seen of the figure above: set in */
    PlumbTag tag;
    int output;       /* in the lift's own list, its spread is told; or PLUMB_NO_OUTPUT */
    PlumbTag working; /* plumb_table_working of the figure */
} PlumbTableRow;

/* The tag of a figure whose working can be shown. */
PlumbTag plumb_table_working(PlumbQuestion question);

/* Name, figure, difference, reference. */
void plumb_table_add(PlumbTableau *table, const PlumbTableRow *row);
/* Stands above the next row, where both find room. */
void plumb_table_heading(PlumbTableau *table, const char *words);
/* The head of the table, with what it is compared with where it has differences. */
void plumb_table_first_heading(PlumbTableau *table, const char *words);

/* Whether the heading that waits, rows more and some air find room; full is set where they do not.
 */
bool plumb_table_has_room(PlumbTableau *table, int rows, double air_ems);
/* The baseline of the next row; full is set, and 0 returned, where it would leave the room. */
double plumb_table_row(PlumbTableau *table);
/* Spread of a figure, where something is pencilled of its difference, SI; NaN where it is not told
 * or does not vary. */
double plumb_table_sd(const PlumbTableau *table, int output);
/* Appends "±1.2"; nothing for NaN. */
void plumb_table_put_spread(PlumbText *text, double sd_si, PlumbQuantity quantity,
                            PlumbUnits units);
/* Text of the table's size; x_mm from the table's left edge. */
void plumb_table_put(const PlumbTableau *table, PlumbRole role, PlumbTag tag, double x_mm,
                     double y_mm, PlumbAlign align, const char *text);
/* A fine rule below the last row. */
void plumb_table_rule(PlumbTableau *table);

enum { PLUMB_JOINT_COLUMNS = 3 };

/* Moment arm, net moment and relative effort of one joint, SI. */
typedef struct PlumbJointRow {
    const char *name;
    PlumbTag tag;
    double value_si[PLUMB_JOINT_COLUMNS];  /* NaN: none */
    double pencil_si[PLUMB_JOINT_COLUMNS]; /* NaN: no difference */
    double sd_si[PLUMB_JOINT_COLUMNS];     /* NaN: not told */
    bool held;                             /* capacity held at the tested edge */
    PlumbTag working[PLUMB_JOINT_COLUMNS];
} PlumbJointRow;

/* Rows of joints, as many columns as find room; efforts against the greatest one here unless the
 * strength was entered. */
void plumb_table_matrix(PlumbTableau *table, const PlumbJointRow *row, int count);
/* What the columns mean, where that is not plain and there is room. */
void plumb_table_remark(PlumbTableau *table, const char *words);
/* The five joints of a lift that stands. */
void plumb_table_joints(PlumbTableau *table);

#define PLUMB_NO_FIGURE ((double)NAN)

#endif
