/* SPDX-License-Identifier: MIT */
/* The draws behind the list of what to try first: as many as the command takes, one body a step. */
#include "tried.h"

#include "desk.h"

enum { SEED = 1 };

void plumb_tried_begin(PlumbDesk *desk)
{
    PlumbTry *const try = &desk->try_first;
    PlumbTried *const tried = &desk->tried;
    const PlumbSheet *const now = &desk->now;
    PlumbBodies bodies;
    plumb_bodies_around(&now->record.spec, &now->lifter.body, &bodies);
    plumb_sampler_begin(&now->lifter, &bodies, SEED, &tried->sampler);
    tried->settled = false;
    tried->done = 0;
    tried->option_count = plumb_advice_candidates(try->option, &try->advice);
    tried->count =
        tried->option_count > 0 ? plumb_hold_draws(&try->advice.goal, plumb_desk_setup(desk)) : 0;
}

/* The focus stays on its option wherever that goes; on one that is no longer worth trying it goes
 * to the first. */
static void keep_focus(PlumbDesk *desk, const PlumbOption *option)
{
    const PlumbTry *const try = &desk->try_first;
    int to = 0;
    for (int i = 0; i < try->advice.worth_count; i++) {
        if (try->option[i].setting == option->setting && try->option[i].change == option->change) {
            to = i;
        }
    }
    if (try->advice.worth_count > 0) {
        plumb_desk_focus(desk, PLUMB_WIDGET_OPTION, to);
    } else {
        plumb_desk_focus(desk, PLUMB_WIDGET_TABLE, 0);
    }
}

static void settle(PlumbDesk *desk)
{
    PlumbTry *const try = &desk->try_first;
    PlumbTried *const tried = &desk->tried;
    const PlumbWidgetRef focus = desk->focus;
    const bool none = try->advice.worth_count == 0;
    const PlumbOption focused = try->option[focus.kind == PLUMB_WIDGET_OPTION ? focus.id : 0];
    plumb_hold_sum(tried->gain, tried->count, tried->option_count,
                   plumb_hold_least_gain(&try->advice), tried->scratch, tried->hold);
    plumb_advice_settle(tried->hold, tried->option_count, try->option, &try->advice);
    tried->settled = true;
    if (focus.kind == PLUMB_WIDGET_OPTION) {
        keep_focus(desk, &focused);
    } else if (none && try->advice.worth_count > 0) {
        plumb_desk_focus(desk, PLUMB_WIDGET_OPTION, 0);
    }
    desk->dirty = true;
}

bool plumb_tried_work(PlumbDesk *desk, double seconds)
{
    const double begun_s = plumb_clock_s();
    const PlumbTry *const try = &desk->try_first;
    PlumbTried *const tried = &desk->tried;
    if (!try->on || tried->settled || tried->count == 0 || desk->changed || desk->drag.on ||
        desk->key_held) {
        return false;
    }
    while (tried->done < tried->count && plumb_clock_s() - begun_s < seconds) {
        plumb_hold_solve(&tried->sampler, plumb_desk_setup(desk), &try->advice.goal, try->option,
                         tried->option_count, (uint64_t)tried->done, 1,
                         tried->gain + tried->done * (1 + tried->option_count));
        tried->done++;
    }
    if (tried->done == tried->count) {
        settle(desk);
    }
    desk->solver_s += plumb_clock_s() - begun_s;
    return !tried->settled;
}
