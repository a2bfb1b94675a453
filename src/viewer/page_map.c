/* SPDX-License-Identifier: MIT */
/* The Map page in numbers: one figure over two settings, a coarse grid first, then finer ones. */
#include "pages.h"

#include "ruler.h"

#include <math.h>
#include <string.h>

static const PlumbOutput FIGURES[PLUMB_MAP_FIGURES] = {
    PLUMB_OUT_travel,     PLUMB_OUT_hip_arm,     PLUMB_OUT_back_arm,    PLUMB_OUT_knee_arm,
    PLUMB_OUT_hip_moment, PLUMB_OUT_back_moment, PLUMB_OUT_knee_moment, PLUMB_OUT_summed_effort,
    PLUMB_OUT_back_angle, PLUMB_OUT_shin_angle,  PLUMB_OUT_hip_height,  PLUMB_OUT_balance,
};

PlumbOutput plumb_map_output(const PlumbDesk *desk)
{
    return FIGURES[desk->map.figure];
}

/* Each lift begins with what a coach asks about first. */
void plumb_map_choose(PlumbDesk *desk)
{
    PlumbMap *const map = &desk->map;
    if (!map->chosen || map->lift != desk->now.lift) {
        map->lift = desk->now.lift;
        map->x = PLUMB_SET_stance;
        map->y = map->lift == PLUMB_SQUAT ? PLUMB_SET_heel_lift : PLUMB_SET_grip;
        map->chosen = true;
        map->begun = false;
    }
}

static PlumbSettingId next_setting(const PlumbDesk *desk, PlumbSettingId from, PlumbSettingId other,
                                   int step)
{
    PlumbSettingId id[PLUMB_SETTING_COUNT];
    const int count = plumb_rulers(desk->now.lift, id);
    int at = 0;
    while (at < count - 1 && id[at] != from) {
        at++;
    }
    do {
        at = (at + step + count) % count;
    } while (plumb_ruler_choices(desk, id[at]) > 0 || id[at] == other);
    return id[at];
}

void plumb_map_next(PlumbDesk *desk, int which, int step)
{
    PlumbMap *const map = &desk->map;
    plumb_map_choose(desk);
    if (which == 0) {
        map->x = next_setting(desk, map->x, map->y, step);
    } else if (which == 1) {
        map->y = next_setting(desk, map->y, map->x, step);
    } else {
        map->figure = (map->figure + step + PLUMB_MAP_FIGURES) % PLUMB_MAP_FIGURES;
    }
    map->begun = false;
    map->shown = 0;
    desk->dirty = true;
}

static double value_at(PlumbSettingId id, int index, int count)
{
    const PlumbSetting *const setting = plumb_ruler_row(id);
    return setting->min_si + (setting->max_si - setting->min_si) * index / (count - 1);
}

static bool same_key(const PlumbSetup *a, const PlumbSetup *b)
{
    bool same = a->lift == b->lift && a->seat == b->seat && a->lead == b->lead &&
                a->knees_over_toes == b->knees_over_toes &&
                a->hip_height_relative == b->hip_height_relative;
    for (int i = 0; same && i < PLUMB_SETTING_COUNT; i++) {
        const double x = plumb_setup_get(a, (PlumbSettingId)i);
        const double y = plumb_setup_get(b, (PlumbSettingId)i);
        same = (isnan(x) && isnan(y)) || fabs(x - y) <= 0.0;
    }
    return same;
}

/* Begins anew where anything but the two settings has changed. */
static void aim(PlumbDesk *desk)
{
    PlumbMap *const map = &desk->map;
    plumb_map_choose(desk);
    PlumbSetup key = *plumb_desk_setup(desk);
    plumb_setup_set(&key, map->x, plumb_ruler_row(map->x)->min_si);
    plumb_setup_set(&key, map->y, plumb_ruler_row(map->y)->min_si);
    /* Padding that differs costs one more pass. NOLINTNEXTLINE(bugprone-suspicious-memory*) */
    const bool lifter = memcmp(&map->lifter, &desk->now.lifter, sizeof map->lifter) == 0;
    if (map->begun && lifter && same_key(&key, &map->key)) {
        return;
    }
    map->begun = true;
    map->key = key;
    map->lifter = desk->now.lifter;
    map->step = PLUMB_MAP_STEP_MOST;
    map->next = 0;
    memset(map->known, 0, sizeof map->known);
}

static void solve_place(PlumbMap *map, PlumbOutput output, int row, int column)
{
    PlumbSetup setup = map->key;
    PlumbAnswer answer;
    PlumbError error;
    plumb_setup_set(&setup, map->x, value_at(map->x, column, PLUMB_MAP_COLUMNS));
    plumb_setup_set(&setup, map->y, value_at(map->y, row, PLUMB_MAP_ROWS));
    map->known[row][column] = true;
    map->value[row][column] = (double)NAN;
    map->failed[row][column] = PLUMB_CONSTRAINT_COUNT;
    if (plumb_setup_check(&setup, &error) != PLUMB_OK) {
        return;
    }
    plumb_answer_quick(&map->lifter, &setup, &answer);
    if (answer.outcome == PLUMB_NO_POSE) {
        map->failed[row][column] = answer.failed;
    } else {
        map->value[row][column] = plumb_output_value(&answer, output);
    }
}

bool plumb_map_work(PlumbDesk *desk, double seconds)
{
    PlumbMap *const map = &desk->map;
    const double begun_s = plumb_clock_s();
    const int finest = desk->drag.on ? PLUMB_MAP_STEP_MOST : 1;
    aim(desk);
    while (map->step >= finest && map->step > 0) {
        const int columns = (PLUMB_MAP_COLUMNS - 1) / map->step + 1;
        const int rows = (PLUMB_MAP_ROWS - 1) / map->step + 1;
        for (; map->next < rows * columns; map->next++) {
            const int row = map->next / columns * map->step;
            const int column = map->next % columns * map->step;
            if (map->known[row][column]) {
                continue;
            }
            solve_place(map, plumb_map_output(desk), row, column);
            if (plumb_clock_s() - begun_s > seconds) {
                map->next++;
                desk->solver_s += plumb_clock_s() - begun_s;
                return true;
            }
        }
        map->shown = map->step;
        map->step = map->step / 2;
        map->next = 0;
        desk->dirty = true;
    }
    desk->solver_s += plumb_clock_s() - begun_s;
    return false;
}

static double stepped(const PlumbDesk *desk, PlumbSettingId id, double share)
{
    const PlumbSetting *const setting = plumb_ruler_row(id);
    const double held = fmin(fmax(share, 0.0), 1.0);
    const double step = plumb_ruler_step(desk, id);
    return step * round((setting->min_si + held * (setting->max_si - setting->min_si)) / step);
}

void plumb_map_go(PlumbDesk *desk, PlumbVec2 at_mm)
{
    const PlumbRect r = desk->map_rect;
    const PlumbMap *const map = &desk->map;
    if (r.width_mm <= 0.0 || r.height_mm <= 0.0) {
        return;
    }
    const double x = stepped(desk, map->x, (at_mm.x - r.x_mm) / r.width_mm);
    const double y = stepped(desk, map->y, 1.0 - (at_mm.y - r.y_mm) / r.height_mm);
    desk->history.key = 0;
    plumb_ruler_set(desk, map->x, x, 0x40000U);
    plumb_ruler_set(desk, map->y, y, 0x40000U);
    desk->history.key = 0;
}
