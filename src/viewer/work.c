/* SPDX-License-Identifier: MIT */
/* Which curve is worked on next. */
#include "work.h"

#include "ruler.h"

static bool has_curve(const PlumbDesk *desk, PlumbSettingId id)
{
    return plumb_ruler_choices(desk, id) == 0;
}

/* Distance in rulers from the focus; those with curves in view come first. */
static int rank(const PlumbDesk *desk, int place)
{
    for (int i = 0; i < desk->place_count; i++) {
        if (plumb_desk_has_focus(desk, PLUMB_WIDGET_RULER, (int)desk->place[i].id)) {
            return place > i ? place - i : i - place;
        }
    }
    return place + 2;
}

/* The place whose curve is to be made next, -1 where all are done. */
static int next_place(PlumbDesk *desk, bool rough)
{
    int best = -1;
    for (int i = 0; i < desk->place_count; i++) {
        const PlumbSettingId id = desk->place[i].id;
        if (!has_curve(desk, id) || (rough && rank(desk, i) > 1)) {
            continue;
        }
        plumb_curve_aim(&desk->curve[id], id, plumb_desk_setup(desk));
        if (!plumb_curve_done(&desk->curve[id], rough) &&
            (best < 0 || rank(desk, i) < rank(desk, best))) {
            best = i;
        }
    }
    return best;
}

bool plumb_work(PlumbDesk *desk, double seconds, bool rough)
{
    const double begun_s = plumb_clock_s();
    double now_s = begun_s;
    for (int place = next_place(desk, rough); place >= 0; place = next_place(desk, rough)) {
        const PlumbSettingId id = desk->place[place].id;
        PlumbCurve *const curve = &desk->curve[id];
        while (!plumb_curve_done(curve, rough) && now_s - begun_s < seconds) {
            plumb_curve_step(curve, id, (PlumbCurveOf){&desk->now.lifter, &desk->now.record},
                             plumb_ruler_value(desk, id));
            now_s = plumb_clock_s();
        }
        if (!plumb_curve_done(curve, rough)) {
            desk->solver_s += now_s - begun_s;
            return true;
        }
        desk->dirty = true;
    }
    desk->solver_s += now_s - begun_s;
    return false;
}
