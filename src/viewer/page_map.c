/* SPDX-License-Identifier: MIT */
/* The Map page in numbers: one figure over two settings, a coarse grid first, then finer ones. */
#include "pages.h"

#include "ruler.h"

#include <math.h>
#include <string.h>

int plumb_map_figure(const PlumbDesk *desk)
{
    const PlumbFamily *const family = plumb_desk_family(desk);
    return family->map_figures[desk->map.figure % family->map_count];
}

/* Each lift begins with what a coach asks about first. */
void plumb_map_choose(PlumbDesk *desk)
{
    PlumbMap *const map = &desk->map;
    if (!map->chosen || map->lift != desk->now.lift) {
        map->lift = desk->now.lift;
        map->x = plumb_ruler_first(map->lift);
        map->y = map->lift == PLUMB_SQUAT      ? PLUMB_SET_toes
                 : map->lift == PLUMB_DEADLIFT ? PLUMB_SET_grip
                                               : PLUMB_SET_touch;
        map->figure = 0;
        map->shown = 0;
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
        const int count = plumb_desk_family(desk)->map_count;
        map->figure = (map->figure + step + count) % count;
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
                a->knees_over_toes == b->knees_over_toes && a->elbows_given == b->elbows_given &&
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

static void solve_place(PlumbMap *map, int figure, int row, int column)
{
    const PlumbFamily *const family = plumb_family(map->lift);
    PlumbSetup setup = map->key;
    PlumbPosed answer;
    PlumbError error;
    plumb_setup_set(&setup, map->x, value_at(map->x, column, PLUMB_MAP_COLUMNS));
    plumb_setup_set(&setup, map->y, value_at(map->y, row, PLUMB_MAP_ROWS));
    map->known[row][column] = true;
    map->value[row][column] = (double)NAN;
    map->reason[row][column] = PLUMB_REASON_COUNT;
    if (plumb_setup_check(&setup, &error) != PLUMB_OK) {
        return;
    }
    family->solve(&map->lifter, &setup, true, &answer);
    if (answer.outcome == PLUMB_NO_POSE) {
        map->reason[row][column] = answer.reason;
    } else {
        map->value[row][column] = plumb_solved_value(&answer.solved, figure);
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
            solve_place(map, plumb_map_figure(desk), row, column);
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
