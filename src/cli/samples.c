/* SPDX-License-Identifier: MIT */
/* The bodies that the lifter of a request could have, solved in its set-up. */
#include "samples.h"

#include "workers.h"

#include <stdlib.h>

typedef struct Draws {
    const PlumbSampler *sampler;
    const PlumbSetup *setup;
    PlumbSample *sample;
} Draws;

static void solve(void *context, int first, int count)
{
    const Draws *const draws = context;
    plumb_samples_solve(draws->sampler, draws->setup, false, (uint64_t)first, count,
                        draws->sample + first);
}

PlumbStatus plumb_samples_no_memory(PlumbCliFault *fault)
{
    return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "--samples",
                           "so many bodies do not fit into memory; ask for fewer");
}

static PlumbStatus sum_up(const PlumbSample *sample, int count, PlumbIntervals *intervals,
                          PlumbCliFault *fault)
{
    double *const scratch = malloc(2 * (size_t)count * sizeof *scratch);
    if (scratch == NULL) {
        return plumb_samples_no_memory(fault);
    }
    plumb_intervals(sample, count, scratch, intervals);
    free(scratch);
    return PLUMB_OK;
}

PlumbStatus plumb_samples_take(const PlumbCliArgs *args, const PlumbCliRequest *request, int count,
                               PlumbCliSamples *samples, PlumbCliFault *fault)
{
    const PlumbBodySpec *const spec = &request->record.spec;
    *samples = (PlumbCliSamples){.count = count, .seed = args->seed};
    if (count == 0) {
        return PLUMB_OK;
    }
    samples->bare = plumb_spec_is_bare(spec);
    samples->sample = malloc((size_t)count * sizeof *samples->sample);
    if (samples->sample == NULL) {
        return plumb_samples_no_memory(fault);
    }
    PlumbSampler sampler;
    plumb_bodies_around(spec, &request->lifter.body, &samples->bodies);
    plumb_sampler_begin(&request->lifter, &samples->bodies, args->seed, &sampler);
    Draws draws = {&sampler, &request->setup, samples->sample};
    const PlumbCliJob job = {
        .work = solve, .context = &draws, .count = count, .threads = args->threads};
    plumb_workers_run(&job);
    const PlumbStatus status = sum_up(samples->sample, count, &samples->intervals, fault);
    if (status != PLUMB_OK) {
        plumb_samples_drop(samples);
        return status;
    }
    samples->measuring_count = plumb_measurings(spec, samples->measuring);
    plumb_measurings_rank(spec, &samples->bodies, samples->measuring, samples->measuring_count,
                          samples->sample, count, samples->share);
    return PLUMB_OK;
}

void plumb_samples_drop(PlumbCliSamples *samples)
{
    free(samples->sample);
    samples->sample = NULL;
}
