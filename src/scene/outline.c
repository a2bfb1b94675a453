/* SPDX-License-Identifier: MIT */
/* The hull around circles, by Andrew's monotone chain over points of their rims. */
#include "scene/outline.h"

#include <math.h>

enum { RIM_POINTS = 48 };

static int rim_points(const PlumbRound *round, int count, PlumbVec2 *point)
{
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < RIM_POINTS; j++) {
            const double a = 6.283185307179586 * j / RIM_POINTS;
            point[i * RIM_POINTS + j] =
                (PlumbVec2){round[i].centre_mm.x + round[i].radius_mm * cos(a),
                            round[i].centre_mm.y + round[i].radius_mm * sin(a)};
        }
    }
    return count * RIM_POINTS;
}

/* Shell sort by x, then y: few points, no recursion, no allocation. */
static void sort_points(PlumbVec2 *point, int count)
{
    for (int gap = count / 2; gap > 0; gap /= 2) {
        for (int i = gap; i < count; i++) {
            const PlumbVec2 p = point[i];
            int j = i;
            while (j >= gap && (point[j - gap].x > p.x ||
                                (point[j - gap].x >= p.x && point[j - gap].y > p.y))) {
                point[j] = point[j - gap];
                j -= gap;
            }
            point[j] = p;
        }
    }
}

static double turn(PlumbVec2 a, PlumbVec2 b, PlumbVec2 c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/* Adds p to the chain hull[floor..count) and drops what it makes concave. */
static int extend(PlumbVec2 *hull, int floor, int count, PlumbVec2 p)
{
    while (count >= floor + 2 && turn(hull[count - 2], hull[count - 1], p) <= 0.0) {
        count--;
    }
    hull[count] = p;
    return count + 1;
}

int plumb_hull(const PlumbRound *round, int count, PlumbVec2 hull_mm[PLUMB_HULL_POINTS])
{
    if (count <= 0) {
        return 0;
    }
    PlumbVec2 point[PLUMB_HULL_POINTS];
    PlumbVec2 chain[PLUMB_HULL_POINTS + 2] = {{0.0, 0.0}};
    const int points = rim_points(round, count, point);
    sort_points(point, points);
    int used = 0;
    for (int i = 0; i < points; i++) {
        used = extend(chain, 0, used, point[i]);
    }
    const int upper = used - 1;
    for (int i = points - 2; i >= 0; i--) {
        used = extend(chain, upper, used, point[i]);
    }
    for (int i = 0; i < used - 1; i++) {
        hull_mm[i] = chain[i];
    }
    return used - 1;
}
