/* SPDX-License-Identifier: MIT */
/* Marching squares: every cell links edges of the grid that the line crosses; chains of links are
 * the lines. */
#include "contour.h"

#include <math.h>
#include <string.h>

enum { SIDE = PLUMB_CONTOUR_SIDE_MAX, EDGES = 2 * SIDE * SIDE, NONE = -1 };

typedef struct Links {
    short next[EDGES][2]; /* the edges that a cell joins with this one */
    PlumbVec2 at[EDGES];
} Links;

/* Level edges first, then upright ones. */
static int level_edge(int row, int column)
{
    return row * SIDE + column;
}

static int upright_edge(int row, int column)
{
    return SIDE * SIDE + row * SIDE + column;
}

static void join(Links *links, int a, int b)
{
    links->next[a][links->next[a][0] == NONE ? 0 : 1] = (short)b;
    links->next[b][links->next[b][0] == NONE ? 0 : 1] = (short)a;
}

static double share(double a, double b, double level)
{
    return (level - a) / (b - a);
}

static void cell(Links *links, int row, int column, const double v[4], double level)
{
    /* Corners counter-clockwise from the lower left; edge k runs from corner k to k + 1. */
    const int edge[4] = {level_edge(row, column), upright_edge(row, column + 1),
                         level_edge(row + 1, column), upright_edge(row, column)};
    const double x = column;
    const double y = row;
    int crossed[4];
    int count = 0;
    for (int k = 0; k < 4; k++) {
        const double a = v[k];
        const double b = v[(k + 1) % 4];
        if ((a < level) == (b < level)) {
            continue;
        }
        const double s = share(a, b, level);
        links->at[edge[k]] = k == 0   ? (PlumbVec2){x + s, y}
                             : k == 1 ? (PlumbVec2){x + 1.0, y + s}
                             : k == 2 ? (PlumbVec2){x + 1.0 - s, y + 1.0}
                                      : (PlumbVec2){x, y + 1.0 - s};
        crossed[count++] = edge[k];
    }
    if (count == 2) {
        join(links, crossed[0], crossed[1]);
    } else if (count == 4) {
        /* A saddle: the mean says which corners are together. */
        const bool low = 0.25 * (v[0] + v[1] + v[2] + v[3]) < level;
        const bool turn = (v[0] < level) == low;
        join(links, crossed[0], crossed[turn ? 1 : 3]);
        join(links, crossed[2], crossed[turn ? 3 : 1]);
    }
}

static void unlink_from(Links *links, int a, int b)
{
    short *const next = links->next[a];
    if (next[0] == b) {
        next[0] = next[1];
    }
    next[1] = NONE;
}

static void follow(Links *links, int first, PlumbContourTake take, void *user)
{
    PlumbVec2 point[PLUMB_CONTOUR_POINTS];
    int count = 0;
    int at = first;
    point[count++] = links->at[at];
    while (links->next[at][0] != NONE && count < PLUMB_CONTOUR_POINTS) {
        const int next = links->next[at][0];
        unlink_from(links, at, next);
        unlink_from(links, next, at);
        at = next;
        point[count++] = links->at[at];
    }
    take(user, point, count, at == first && count > 2);
}

void plumb_contour(int rows, int columns, double (*value)(void *user, int row, int column),
                   double level, PlumbContourTake take, void *user)
{
    Links links;
    memset(links.next, 0xFF, sizeof links.next);
    for (int row = 0; row + 1 < rows; row++) {
        for (int column = 0; column + 1 < columns; column++) {
            const double v[4] = {value(user, row, column), value(user, row, column + 1),
                                 value(user, row + 1, column + 1), value(user, row + 1, column)};
            if (isfinite(v[0]) && isfinite(v[1]) && isfinite(v[2]) && isfinite(v[3])) {
                cell(&links, row, column, v, level);
            }
        }
    }
    /* Open lines from their ends first, then those that close. */
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i < EDGES; i++) {
            const bool end = links.next[i][0] != NONE && links.next[i][1] == NONE;
            if (end || (pass == 1 && links.next[i][0] != NONE)) {
                follow(&links, i, take, user);
            }
        }
    }
}
