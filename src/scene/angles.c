/* SPDX-License-Identifier: MIT */
/* Angles of the side view: an arc, its reference leg, and from where it is measured. */
#include "scene/figures.h"

#include <math.h>
#include <stddef.h>

/* Which line an angle is measured on, and against what. */
typedef struct AngleRow {
    PlumbFigure figure;
    PlumbAngle angle;
    PlumbPoint apex;
    PlumbPoint along;  /* the far end of the line */
    bool from_upright; /* reference leg up; else level, toward the far end */
    double middle;     /* radii to try after a small one, as shares of the line's length */
    double outer;
    double limit; /* what the label may cross: 0.6 one fine line, 0.45 none */
    const char *name;
    const char *reference;
} AngleRow;

static const AngleRow ROW[] = {
    {PLUMB_FIG_BACK_ANGLE, PLUMB_ANG_back, PLUMB_PT_hip, PLUMB_PT_shoulder, false, 1.12, 1.3, 0.6,
     "back ", "above level"},
    {PLUMB_FIG_SHIN_ANGLE, PLUMB_ANG_shin, PLUMB_PT_ankle, PLUMB_PT_knee, true, 0.4, 0.8, 0.45,
     "shin ", "from upright"},
    {PLUMB_FIG_THIGH_ANGLE, PLUMB_ANG_thigh, PLUMB_PT_knee, PLUMB_PT_hip, false, 1.12, 1.3, 0.45,
     "thigh ", "above level"},
};

static PlumbVec2 polar(PlumbVec2 centre, double radius, double angle)
{
    return (PlumbVec2){centre.x + radius * cos(angle), centre.y + radius * sin(angle)};
}

enum { RADII = 3, AROUND = 6 };

/* Smaller angles are a hair between two lines: they stay in the table. */
static const double LEAST_RAD = 0.07;

/* Places beside an arc: at its middle, and past either leg. */
static void spots_around(PlumbVec2 apex, double radius, double from, double to,
                         PlumbSpot spot[AROUND])
{
    static const double SHARE[AROUND] = {0.5, 0.5, 0.25, 0.75, -0.12, 1.12};
    static const double OUT_MM[AROUND] = {1.4, 3.2, 1.4, 1.4, 1.4, 1.4};
    for (int i = 0; i < AROUND; i++) {
        const double angle = from + SHARE[i] * (to - from);
        const double c = cos(angle);
        spot[i].at_mm = polar(apex, radius + OUT_MM[i], angle);
        spot[i].align = c > 0.35 ? PLUMB_START : c < -0.35 ? PLUMB_END : PLUMB_MIDDLE;
        spot[i].rise = 0.5 - 0.5 * sin(angle);
    }
}

/* An angle on paper: apex, the line's far end, directions of reference leg and line. */
typedef struct Wedge {
    PlumbVec2 apex;
    PlumbVec2 far;
    double length;
    double leg;
    double line;
} Wedge;

static Wedge wedge_of(const PlumbViews *views, const AngleRow *row)
{
    Wedge wedge = {plumb_fit_side(views->fit, views->at->point[row->apex]),
                   plumb_fit_side(views->fit, views->at->point[row->along]), 0.0, 0.0, 0.0};
    const double dx = wedge.far.x - wedge.apex.x;
    const double dy = wedge.far.y - wedge.apex.y;
    wedge.length = hypot(dx, dy);
    wedge.line = atan2(dy, dx);
    if (row->from_upright) {
        wedge.leg = -1.57079632679490;
    } else if (dx < 0.0) {
        wedge.leg = wedge.line < 0.0 ? -3.14159265358979 : 3.14159265358979;
    }
    return wedge;
}

static void draw_wedge(const PlumbViews *views, const Wedge *wedge, double radius, PlumbTag tag)
{
    PlumbScene *scene = views->board.scene;
    plumb_scene_line(scene, PEN_REFERENCE, tag, wedge->apex,
                     polar(wedge->apex, radius + 2.0, wedge->leg));
    if (radius > wedge->length) {
        plumb_scene_line(scene, PEN_REFERENCE, tag, wedge->far,
                         polar(wedge->apex, radius + 2.0, wedge->line));
    }
    plumb_scene_arc(scene, PEN_FINE, tag, wedge->apex, radius, wedge->leg, wedge->line);
}

/* Draws the wedge with its label at one radius, or leaves the scene as it was. */
static bool try_radius(const PlumbViews *views, PlumbFigure figure, const Wedge *wedge,
                       const PlumbLabel *label, int ring, double radius, double limit)
{
    PlumbScene *scene = views->board.scene;
    PlumbFit *fit = views->fit;
    const int items = scene->item_count;
    const int points = scene->point_count;
    const int held = fit->decided ? fit->place[figure] % AROUND : -1;
    draw_wedge(views, wedge, radius, label->tag);
    PlumbSpot spot[AROUND];
    spots_around(wedge->apex, radius, wedge->leg, wedge->line, spot);
    const int set = plumb_label_place(&views->board, label, spot, AROUND, fit->side, held, limit);
    if (set < 0) {
        scene->item_count = items;
        scene->point_count = points;
        return false;
    }
    if (!fit->decided) {
        fit->place[figure] = (signed char)(ring * AROUND + set);
    }
    return true;
}

void plumb_draw_angle(const PlumbViews *views, PlumbFigure figure)
{
    const PlumbFit *fit = views->fit;
    const AngleRow *row = &ROW[0];
    for (size_t i = 0; i < sizeof ROW / sizeof ROW[0]; i++) {
        row = ROW[i].figure == figure ? &ROW[i] : row;
    }
    const double angle = views->at->angle_rad[row->angle];
    if (fabs(angle) < LEAST_RAD || (fit->decided && fit->place[figure] < 0)) {
        return;
    }
    PlumbLabel label = {.tag = {PLUMB_TAG_ANGLE, (int)row->angle}};
    plumb_caption(views, &label, PLUMB_SMALL_TEXT_MM, row->name, angle, PLUMB_Q_ANGLE);
    plumb_label_line(&label, &views->board, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM, row->reference);
    const Wedge wedge = wedge_of(views, row);
    const double radius[RADII] = {fmin(0.62 * wedge.length, 18.0), row->middle * wedge.length,
                                  row->outer * wedge.length};
    for (int i = 0; i < RADII; i++) {
        const bool other = fit->decided && fit->place[figure] / AROUND != i;
        if (!other && try_radius(views, figure, &wedge, &label, i, radius[i], row->limit)) {
            return;
        }
    }
}
