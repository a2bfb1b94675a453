/* SPDX-License-Identifier: MIT */
/* Differences of two answers, and their spread over bodies drawn for both sides at once. */
#include <plumbar/compare.h>

#include <math.h>

void plumb_compare(const PlumbSolved *first, const PlumbSolved *second,
                   PlumbDifference difference[PLUMB_OUTPUT_COUNT])
{
    const double none = (double)NAN;
    for (int i = 0; i < plumb_lift_output_count(first->lift); i++) {
        PlumbDifference *const d = &difference[i];
        d->first = plumb_solved_value(first, i);
        d->second = plumb_solved_value(second, i);
        d->change = d->second - d->first;
        d->spread = (PlumbEstimate){0, none, none, none, none, none};
    }
}

bool plumb_compare_one_body(const PlumbBody *a, const PlumbBody *b)
{
    bool same = a->sex == b->sex && a->mass_kg == b->mass_kg && a->stature_m == b->stature_m;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        same = same && a->length_m[i] == b->length_m[i] && a->length_sd_m[i] == b->length_sd_m[i];
    }
    return same;
}

/* Another body's draws are those of another seed: any that the first does not use. */
static uint64_t other_seed(uint64_t seed)
{
    return seed ^ 0x6A09E667F3BCC908U;
}

void plumb_pair_begin(const PlumbSide *first, const PlumbSide *second, uint64_t seed,
                      PlumbPair *pair)
{
    const PlumbSide *const side[2] = {first, second};
    const bool one = plumb_compare_one_body(&first->lifter->body, &second->lifter->body);
    for (int i = 0; i < 2; i++) {
        PlumbBodies bodies;
        plumb_bodies_around(side[i]->spec, &side[i]->lifter->body, &bodies);
        plumb_sampler_begin(side[i]->lifter, &bodies, i == 0 || one ? seed : other_seed(seed),
                            &pair->sampler[i]);
        pair->setup[i] = *side[i]->setup;
    }
}

void plumb_pair_solve(const PlumbPair *pair, bool quick, uint64_t first, int count, double *change)
{
    for (int i = 0; i < count; i++) {
        PlumbSample sample[2];
        for (int side = 0; side < 2; side++) {
            plumb_samples_solve(&pair->sampler[side], &pair->setup[side], quick,
                                first + (uint64_t)i, 1, &sample[side]);
        }
        for (int k = 0; k < PLUMB_OUTPUT_COUNT; k++) {
            change[i * PLUMB_OUTPUT_COUNT + k] = sample[1].output[k] - sample[0].output[k];
        }
    }
}
