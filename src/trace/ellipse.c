/* SPDX-License-Identifier: MIT */
/* The ellipse of a disc's rim, from the few points that a person clicks.
 *
 * Points are moved to their mean and scaled to about 1, then the conic
 *   a (x² - y²) + b x y + d x + e y + f = -(x² + y²)
 * is fitted by least squares: all five with five points, without b with four, without a and b (a
 * circle) with three. Its sign is fixed, so that an ellipse is never normed away. */
#include <plumbar/marks.h>

#include "base/roots.h"
#include "base/vec.h"

enum { TERMS = 5 };

/* Columns used for a count of points: circle, upright ellipse, any. */
static const int columns_of_3[] = {2, 3, 4};
static const int columns_of_4[] = {0, 2, 3, 4};
static const int columns_of_5[] = {0, 1, 2, 3, 4};

typedef struct Frame {
    double x;
    double y;
    double scale;
} Frame;

static Frame frame_of(const PlumbVec2 *point, int count)
{
    Frame frame = {0.0, 0.0, 0.0};
    for (int i = 0; i < count; i++) {
        frame.x += point[i].x / count;
        frame.y += point[i].y / count;
    }
    for (int i = 0; i < count; i++) {
        frame.scale += hypot(point[i].x - frame.x, point[i].y - frame.y) / count;
    }
    return frame;
}

/* Normal equations of the columns; the conic's five numbers, unused ones zero. */
static bool solve_conic(const PlumbVec2 *point, int count, const Frame *frame, double conic[TERMS])
{
    const int used = count < 5 ? count : TERMS;
    const int *column = count == 3 ? columns_of_3 : count == 4 ? columns_of_4 : columns_of_5;
    double matrix[PLUMB_LINEAR_MAX][PLUMB_LINEAR_MAX] = {{0.0}};
    double rhs[PLUMB_LINEAR_MAX] = {0.0};
    for (int i = 0; i < count; i++) {
        const double x = (point[i].x - frame->x) / frame->scale;
        const double y = (point[i].y - frame->y) / frame->scale;
        const double term[TERMS] = {x * x - y * y, x * y, x, y, 1.0};
        for (int r = 0; r < used; r++) {
            rhs[r] -= term[column[r]] * (x * x + y * y);
            for (int c = 0; c < used; c++) {
                matrix[r][c] += term[column[r]] * term[column[c]];
            }
        }
    }
    if (!plumb_linear_solve(used, matrix, rhs)) {
        return false;
    }
    for (int i = 0; i < TERMS; i++) {
        conic[i] = 0.0;
    }
    for (int r = 0; r < used; r++) {
        conic[column[r]] = rhs[r];
    }
    return true;
}

bool plumb_ellipse_fit(const PlumbVec2 *point_px, int count, PlumbEllipse *ellipse)
{
    if (count < 3) {
        return false;
    }
    const Frame frame = frame_of(point_px, count);
    double conic[TERMS];
    if (!(frame.scale > 0.0) || !solve_conic(point_px, count, &frame, conic)) {
        return false;
    }
    /* Quadratic form [[p, r], [r, s]]; centre where its gradient is zero. */
    const double p = 1.0 + conic[0];
    const double s = 1.0 - conic[0];
    const double r = 0.5 * conic[1];
    const double determinant = p * s - r * r;
    if (!(determinant > 1e-4)) {
        return false;
    }
    const double cx = (-0.5 * conic[2] * s + 0.5 * conic[3] * r) / determinant;
    const double cy = (-0.5 * conic[3] * p + 0.5 * conic[2] * r) / determinant;
    const double level = -(conic[4] + 0.5 * conic[2] * cx + 0.5 * conic[3] * cy);
    const double spread = hypot(0.5 * (p - s), r);
    const double middle = 0.5 * (p + s);
    if (!(level > 0.0 && middle - spread > 0.0)) {
        return false;
    }
    *ellipse = (PlumbEllipse){
        .x_px = frame.x + frame.scale * cx,
        .y_px = frame.y + frame.scale * cy,
        .a_px = frame.scale * sqrt(level / (middle - spread)),
        .b_px = frame.scale * sqrt(level / (middle + spread)),
        .turn_rad = spread > 0.0 ? 0.5 * atan2(-2.0 * r, s - p) : 0.0,
    };
    return true;
}

PlumbVec2 plumb_ellipse_point(const PlumbEllipse *ellipse, double t)
{
    const double u = ellipse->a_px * cos(t);
    const double v = ellipse->b_px * sin(t);
    const double c = cos(ellipse->turn_rad);
    const double s = sin(ellipse->turn_rad);
    const PlumbVec2 point = {ellipse->x_px + u * c - v * s, ellipse->y_px + u * s + v * c};
    return point;
}

bool plumb_ellipse_holds(const PlumbEllipse *ellipse, double x_px, double y_px)
{
    const double c = cos(ellipse->turn_rad);
    const double s = sin(ellipse->turn_rad);
    const double dx = x_px - ellipse->x_px;
    const double dy = y_px - ellipse->y_px;
    const double u = (dx * c + dy * s) / ellipse->a_px;
    const double v = (dy * c - dx * s) / ellipse->b_px;
    return u * u + v * v <= 1.0;
}
