/* SPDX-License-Identifier: MIT */
/* Lines of one value over a grid, as few long lines as there are. */
#ifndef PLUMBAR_VIEWER_CONTOUR_H
#define PLUMBAR_VIEWER_CONTOUR_H

#include <plumbar/vec.h>

#include <stdbool.h>

enum { PLUMB_CONTOUR_SIDE_MAX = 66, PLUMB_CONTOUR_POINTS = 512 };

/* Takes one line; x and y count columns and rows from 0. */
typedef void (*PlumbContourTake)(void *user, const PlumbVec2 *point, int count, bool closed);

/* value(user, row, column): NaN where there is none; cells with such a corner have no line.
 * Rows and columns at most PLUMB_CONTOUR_SIDE_MAX. */
void plumb_contour(int rows, int columns, double (*value)(void *user, int row, int column),
                   double level, PlumbContourTake take, void *user);

#endif
