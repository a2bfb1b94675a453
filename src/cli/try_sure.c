/* SPDX-License-Identifier: MIT */
/* How often the options of a ranking hold over the bodies that the lifter could have. */
#include "try_sure.h"

#include "workers.h"

#include <stdlib.h>

typedef struct Draws {
    PlumbSampler sampler;
    const PlumbSetup *setup;
    const PlumbGoal *goal;
    const PlumbOption *option;
    int option_count;
    double *gain;
} Draws;

static void solve(void *context, int first, int count)
{
    const Draws *const draws = context;
    plumb_hold_solve(&draws->sampler, draws->setup, draws->goal, draws->option, draws->option_count,
                     (uint64_t)first, count,
                     draws->gain + (size_t)first * (size_t)(draws->option_count + 1));
}

static PlumbStatus take_holds(const PlumbCliArgs *args, const PlumbCliRequest *request,
                              PlumbAdvice *advice, PlumbOption *option, PlumbCliTrySure *sure,
                              PlumbCliFault *fault)
{
    const int count = sure->count;
    PlumbBodies bodies;
    sure->option_count = plumb_advice_candidates(option, advice);
    Draws draws = {.setup = &request->setup,
                   .goal = &advice->goal,
                   .option = option,
                   .option_count = sure->option_count};
    const size_t size = (size_t)count * (size_t)(sure->option_count + 1);
    double *const scratch = malloc(2 * (size_t)count * sizeof *scratch);
    draws.gain = malloc(size * sizeof *draws.gain);
    if (draws.gain == NULL || scratch == NULL) {
        free(draws.gain);
        free(scratch);
        return plumb_samples_no_memory(fault);
    }
    plumb_bodies_around(&request->record.spec, &request->lifter.body, &bodies);
    plumb_sampler_begin(&request->lifter, &bodies, args->seed, &draws.sampler);
    const PlumbCliJob job = {
        .work = solve, .context = &draws, .count = count, .threads = args->threads};
    plumb_workers_run(&job);
    plumb_hold_sum(draws.gain, count, sure->option_count, plumb_hold_least_gain(advice), scratch,
                   sure->hold);
    plumb_advice_settle(sure->hold, sure->option_count, option, advice);
    free(draws.gain);
    free(scratch);
    return PLUMB_OK;
}

PlumbStatus plumb_try_sure_take(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                PlumbAdvice *advice, PlumbOption *option, PlumbCliTrySure *sure,
                                PlumbCliFault *fault)
{
    const int count =
        args->samples >= 0 ? args->samples : plumb_hold_draws(&advice->goal, &request->setup);
    sure->option_count = 0;
    sure->count = count;
    PlumbStatus status = plumb_samples_take(args, request, count, &sure->samples, fault);
    if (status != PLUMB_OK || count == 0 || plumb_advice_candidates(option, advice) == 0) {
        return status;
    }
    status = take_holds(args, request, advice, option, sure, fault);
    if (status != PLUMB_OK) {
        plumb_samples_drop(&sure->samples);
    }
    return status;
}

void plumb_try_sure_drop(PlumbCliTrySure *sure)
{
    plumb_samples_drop(&sure->samples);
}
