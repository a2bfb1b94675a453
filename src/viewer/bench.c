/* SPDX-License-Identifier: MIT */
/* How long a drag's events take to be on the screen. */
#include "script.h"

#include "ruler.h"
#include "script_push.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static int by_time(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

static double percentile(const double *sorted, int count, double share)
{
    const int index = (int)ceil(share * count) - 1;
    return sorted[index < 0 ? 0 : index];
}

static void print(double *frame_ms, int steps, double solver_ms)
{
    double sum = 0.0;
    for (int i = 0; i < steps; i++) {
        sum += frame_ms[i];
    }
    qsort(frame_ms, (size_t)steps, sizeof *frame_ms, by_time);
    printf("bench steps=%d p50_ms=%.2f p95_ms=%.2f p99_ms=%.2f max_ms=%.2f solver_ms=%.2f "
           "solver_percent=%.0f\n",
           steps, percentile(frame_ms, steps, 0.50), percentile(frame_ms, steps, 0.95),
           percentile(frame_ms, steps, 0.99), frame_ms[steps - 1], solver_ms / steps,
           100.0 * solver_ms / sum);
    fflush(stdout);
}

/* Where the pointer is at a step: a slow swing over what holds around the present value. */
static int swing(const PlumbStage *stage, const PlumbRulerPlace *place, double value, int step)
{
    const PlumbCurvePass *const pass = &stage->desk->curve[place->id].pass;
    const double reach = 0.9 * fmin(value - pass->low, pass->high - value);
    const double at = value + reach * sin(0.05 * step);
    return (int)lround(stage->px_per_mm * plumb_ruler_place_mm(place, at));
}

PlumbStatus plumb_bench(PlumbStage *stage, PlumbSettingId id, int steps, PlumbError *error)
{
    double *const frame_ms = calloc((size_t)steps, sizeof *frame_ms);
    if (frame_ms == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "bench", "out of memory");
    }
    bool ok = plumb_stage_finish(stage, error);
    const PlumbRulerPlace *found = stage->desk->place;
    while (found->id != id) {
        found++;
    }
    const PlumbRulerPlace place = *found;
    const double value = plumb_ruler_value(stage->desk, id);
    const int y = (int)lround(stage->px_per_mm * (place.y_mm - 1.0));
    const bool states = stage->states;
    stage->states = false;
    ok = ok && plumb_script_press(stage, swing(stage, &place, value, 0), y, 1, error);
    stage->desk->solver_s = 0.0;
    for (int i = 0; i < steps && ok; i++) {
        const double begun_s = plumb_clock_s();
        ok = plumb_script_move(stage, swing(stage, &place, value, i + 1), y, error);
        frame_ms[i] = 1e3 * (plumb_clock_s() - begun_s);
    }
    const double solver_ms = 1e3 * stage->desk->solver_s;
    ok = ok && plumb_script_release(stage, swing(stage, &place, value, steps), y, error);
    stage->states = states;
    if (ok) {
        print(frame_ms, steps, solver_ms);
    }
    free(frame_ms);
    return ok ? PLUMB_OK : error->status;
}
