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
    const char *name;
    const char *reference;
} AngleRow;

static const AngleRow ROW[] = {
    {PLUMB_FIG_BACK_ANGLE, PLUMB_ANG_back, PLUMB_PT_hip, PLUMB_PT_shoulder, false, "back ",
     "above level"},
    {PLUMB_FIG_SHIN_ANGLE, PLUMB_ANG_shin, PLUMB_PT_ankle, PLUMB_PT_knee, true, "shin ",
     "from upright"},
    {PLUMB_FIG_THIGH_ANGLE, PLUMB_ANG_thigh, PLUMB_PT_knee, PLUMB_PT_hip, false, "thigh ",
     "above level"},
};

static PlumbVec2 polar(PlumbVec2 centre, double radius, double angle)
{
    return (PlumbVec2){centre.x + radius * cos(angle), centre.y + radius * sin(angle)};
}

/* Places around the middle of the arc: outside of it, then past either leg, then further out. */
static int spots_around(PlumbVec2 apex, double radius, double from, double to, PlumbSpot *spot)
{
    static const double OUT_MM[] = {1.5, 5.0, 10.0, 16.0};
    int count = 0;
    for (size_t ring = 0; ring < sizeof OUT_MM / sizeof OUT_MM[0]; ring++) {
        for (int i = 0; i < 3; i++) {
            const double share = i == 0 ? 0.5 : i == 1 ? -0.25 : 1.25;
            const double angle = from + share * (to - from);
            const PlumbVec2 at = polar(apex, radius + OUT_MM[ring], angle);
            const double c = cos(angle);
            const double s = sin(angle);
            spot[count].at_mm = at;
            spot[count].align = c > 0.35 ? PLUMB_START : c < -0.35 ? PLUMB_END : PLUMB_MIDDLE;
            spot[count].rise = 0.5 - 0.5 * s;
            count++;
        }
    }
    return count;
}

void plumb_draw_angle(const PlumbViews *views, PlumbFigure figure)
{
    const AngleRow *row = &ROW[0];
    for (size_t i = 0; i < sizeof ROW / sizeof ROW[0]; i++) {
        row = ROW[i].figure == figure ? &ROW[i] : row;
    }
    const PlumbVec2 apex = plumb_fit_side(views->fit, views->at->point[row->apex]);
    const PlumbVec2 far = plumb_fit_side(views->fit, views->at->point[row->along]);
    const double length = hypot(far.x - apex.x, far.y - apex.y);
    const double radius = fmin(0.62 * length, 20.0);
    const double line = atan2(far.y - apex.y, far.x - apex.x);
    const double level = far.x >= apex.x ? 0.0 : (line < 0.0 ? -1.0 : 1.0) * 3.14159265358979;
    const double leg = row->from_upright ? -1.57079632679490 : level;
    PlumbLabel label = {.tag = {PLUMB_TAG_ANGLE, (int)row->angle}};
    plumb_caption(views, &label, PLUMB_SMALL_TEXT_MM, row->name, views->at->angle_rad[row->angle],
                  PLUMB_Q_ANGLE);
    plumb_label_line(&label, &views->board, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM, row->reference);
    PlumbSpot spot[12];
    const int count = spots_around(apex, radius, leg, line, spot);
    if (plumb_place_figure(views, figure, &label, spot, count, views->fit->side, 1.6) < 0) {
        return;
    }
    plumb_scene_line(views->board.scene, PEN_REFERENCE, label.tag, apex,
                     polar(apex, radius + 3.0, leg));
    plumb_scene_arc(views->board.scene, PEN_FINE, label.tag, apex, radius, leg, line);
}
