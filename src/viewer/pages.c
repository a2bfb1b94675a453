/* SPDX-License-Identifier: MIT */
/* Which page works on what. */
#include "pages.h"

#include "page_trace.h"

const char *plumb_page_name(PlumbPage page)
{
    static const char *const NAME[PLUMB_PAGE_COUNT] = {"Drawing", "Path", "Compare", "Map",
                                                       "Trace"};
    return NAME[page];
}

void plumb_pages_touch(PlumbDesk *desk)
{
    desk->way.stale = true;
    desk->against.stale = true;
    desk->tracing->stale = true;
    plumb_sure_touch(desk);
    plumb_crowd_touch(desk);
}

void plumb_pages_settle(PlumbDesk *desk)
{
    const double begun_s = plumb_clock_s();
    if (desk->page == PLUMB_PAGE_PATH) {
        plumb_path_settle(desk);
        plumb_path_tick(desk);
    } else if (desk->page == PLUMB_PAGE_COMPARE) {
        plumb_against_settle(desk);
        plumb_sure_fill(desk);
    } else if (desk->page == PLUMB_PAGE_TRACE) {
        plumb_trace_settle(desk);
    }
    plumb_sure_settle(desk);
    desk->solver_s += plumb_clock_s() - begun_s;
}

bool plumb_pages_work(PlumbDesk *desk, double seconds)
{
    if (desk->page == PLUMB_PAGE_TRACE) {
        return plumb_trace_work(desk, seconds);
    }
    const bool more = desk->page == PLUMB_PAGE_MAP && plumb_map_work(desk, seconds);
    return more || plumb_tried_work(desk, seconds) || plumb_sure_work(desk, seconds) ||
           plumb_crowd_work(desk, seconds);
}
