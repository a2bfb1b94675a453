/* SPDX-License-Identifier: MIT */
/* How long a drag's events take to be on the screen. */
#include "script.h"

#include "ruler.h"
#include "script_push.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

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

/* Wall time is what a person waits; processor time is what is left of it on a busy machine. */
typedef struct Times {
    double *wall_ms;
    double *cpu_ms;
    int steps;
    double solver_ms;
} Times;

static double cpu_s(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void print(const Times *times)
{
    const int steps = times->steps;
    double sum = 0.0;
    for (int i = 0; i < steps; i++) {
        sum += times->wall_ms[i];
    }
    qsort(times->wall_ms, (size_t)steps, sizeof *times->wall_ms, by_time);
    qsort(times->cpu_ms, (size_t)steps, sizeof *times->cpu_ms, by_time);
    printf("bench steps=%d p50_ms=%.2f p95_ms=%.2f p99_ms=%.2f max_ms=%.2f cpu_p50_ms=%.2f "
           "cpu_p99_ms=%.2f solver_ms=%.2f solver_percent=%.0f\n",
           steps, percentile(times->wall_ms, steps, 0.50), percentile(times->wall_ms, steps, 0.95),
           percentile(times->wall_ms, steps, 0.99), times->wall_ms[steps - 1],
           percentile(times->cpu_ms, steps, 0.50), percentile(times->cpu_ms, steps, 0.99),
           times->solver_ms / steps, 100.0 * times->solver_ms / sum);
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

static bool run(PlumbStage *stage, const PlumbRulerPlace *place, Times *times, PlumbError *error)
{
    const double value = plumb_ruler_value(stage->desk, place->id);
    const int y = (int)lround(stage->px_per_mm * (place->y_mm - 1.0));
    bool ok = plumb_script_press(stage, swing(stage, place, value, 0), y, 1, error);
    stage->desk->solver_s = 0.0;
    for (int i = 0; i < times->steps && ok; i++) {
        const double begun_s = plumb_clock_s();
        const double begun_cpu_s = cpu_s();
        ok = plumb_script_move(stage, swing(stage, place, value, i + 1), y, error);
        times->cpu_ms[i] = 1e3 * (cpu_s() - begun_cpu_s);
        times->wall_ms[i] = 1e3 * (plumb_clock_s() - begun_s);
    }
    times->solver_ms = 1e3 * stage->desk->solver_s;
    return ok && plumb_script_release(stage, swing(stage, place, value, times->steps), y, error);
}

PlumbStatus plumb_bench(PlumbStage *stage, PlumbSettingId id, int steps, PlumbError *error)
{
    Times times = {.steps = steps};
    times.wall_ms = calloc((size_t)steps, sizeof *times.wall_ms);
    times.cpu_ms = calloc((size_t)steps, sizeof *times.cpu_ms);
    PlumbStatus status = PLUMB_OUT_OF_MEMORY;
    if (times.wall_ms == NULL || times.cpu_ms == NULL) {
        plumb_error_set(error, status, "bench", "out of memory");
    } else if (!plumb_stage_finish(stage, error)) {
        status = error->status;
    } else {
        const PlumbRulerPlace *found = stage->desk->place;
        while (found->id != id) {
            found++;
        }
        const PlumbRulerPlace place = *found;
        const bool states = stage->states;
        stage->states = false;
        const bool ok = run(stage, &place, &times, error);
        stage->states = states;
        status = ok ? PLUMB_OK : error->status;
    }
    if (status == PLUMB_OK) {
        print(&times);
    }
    free(times.wall_ms);
    free(times.cpu_ms);
    return status;
}
