/* SPDX-License-Identifier: MIT */
/* A window without a screen, for tests of what it draws. */
#ifndef PLUMBAR_TESTS_WINDOW_BENCH_H
#define PLUMBAR_TESTS_WINDOW_BENCH_H

#include "scene_bench.h"

#include "viewer/compose.h"
#include "viewer/hands.h"
#include "viewer/pages.h"
#include "viewer/work.h"

/* A desk with one set-up under its name ("": none). The caller destroys it. */
static inline PlumbDesk *open_desk(const PlumbLifter *lifter, const PlumbSetup *setup,
                                   const char *name)
{
    const PlumbViewerSetup shown = {name, *setup};
    PlumbViewerOptions options = plumb_viewer_options(lifter);
    options.setup = &shown;
    options.setup_count = 1;
    /* The desk keeps the pointer for what does not change. */
    static PlumbViewerOptions kept;
    kept = options;
    PlumbDesk *const desk = plumb_desk_create(&kept);
    assert_non_null(desk);
    kept.setup = NULL;
    kept.setup_count = 0;
    return desk;
}

static inline void frame(PlumbDesk *desk)
{
    plumb_desk_settle(desk);
    plumb_pages_settle(desk);
    plumb_compose_window(desk);
}

/* All that is refined over frames. */
static inline void finish(PlumbDesk *desk)
{
    frame(desk);
    while (plumb_work(desk, 1.0, false) || plumb_pages_work(desk, 1.0)) {
    }
    frame(desk);
}

static inline void resize(PlumbDesk *desk, double width_px, double height_px, double text_scale)
{
    desk->width_mm = width_px / PLUMB_WINDOW_PX_PER_MM;
    desk->height_mm = height_px / PLUMB_WINDOW_PX_PER_MM;
    desk->text_scale = text_scale;
    desk->refit = true;
}

#endif
