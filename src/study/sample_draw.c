/* SPDX-License-Identifier: MIT */
/* Lifters drawn by number: a counter-based generator, normal deviates, and a body from them.
 *
 * Deviate k of draw i is a function of (seed, i, k) and of nothing else, so that threads may share
 * the draws out as they like. The bits are SplitMix64's (Steele, Lea & Flood 2014, OOPSLA) with a
 * start of its own for every draw; pairs of them become normal by Box & Muller (1958, Ann. Math.
 * Statist. 29:610). */
#include <plumbar/sample.h>

#include "body/fraction.h"
#include "body/segments.h"
#include "tables.h"

#include <math.h>

static const double TWO_PI = 6.28318530717958647692;

static uint64_t mix(uint64_t z)
{
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31);
}

/* In (0, 1], 53 bits. */
static double uniform(uint64_t start, uint64_t k)
{
    const uint64_t bits = mix(start + (k + 1) * 0x9e3779b97f4a7c15U);
    return ((double)(bits >> 11) + 1.0) * 0x1p-53;
}

void plumb_normal_deviates(uint64_t seed, uint64_t index, int count, double *deviate)
{
    const uint64_t start = mix(mix(seed + 0x9e3779b97f4a7c15U) ^ (index * 0xd1342543de82ef95U + 1));
    for (int k = 0; k < count; k += 2) {
        const double radius = sqrt(-2.0 * log(uniform(start, (uint64_t)k)));
        const double angle = TWO_PI * uniform(start, (uint64_t)k + 1);
        deviate[k] = radius * cos(angle);
        if (k + 1 < count) {
            deviate[k + 1] = radius * sin(angle);
        }
    }
}

/* Cholesky's root of a covariance that may be singular: a length without variance of its own left
 * gets a column of zeros. */
static void root_of(const double cov[PLUMB_LENGTH_COUNT][PLUMB_LENGTH_COUNT],
                    double root[PLUMB_LENGTH_COUNT][PLUMB_LENGTH_COUNT])
{
    static const double SHARE_LOST = 1e-12; /* of the variance, to rounding */
    for (int j = 0; j < PLUMB_LENGTH_COUNT; j++) {
        double pivot = cov[j][j];
        for (int k = 0; k < j; k++) {
            pivot -= root[j][k] * root[j][k];
        }
        const bool none = !(pivot > SHARE_LOST * fabs(cov[j][j]) && pivot > 1e-18);
        for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
            double value = i < j || none ? 0.0 : cov[i][j];
            for (int k = 0; k < j && i >= j && !none; k++) {
                value -= root[i][k] * root[j][k];
            }
            root[i][j] = none ? 0.0 : value / sqrt(pivot);
        }
    }
}

void plumb_sampler_begin(const PlumbLifter *lifter, const PlumbBodies *bodies, uint64_t seed,
                         PlumbSampler *sampler)
{
    *sampler = (PlumbSampler){.lifter = *lifter, .seed = seed};
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        sampler->mean_m[i] = bodies->mean_m[i];
    }
    root_of(bodies->cov_m2, sampler->root_m);
    sampler->balance_sd_frac =
        plumb_table_sampling[PLUMB_SAMPLING_balance_sd].value[lifter->body.sex];
}

void plumb_sampler_population(const PlumbLifter *lifter, uint64_t seed, PlumbSampler *sampler)
{
    const PlumbSex sex = lifter->body.sex;
    const PlumbDimensionRow *row = plumb_table_dimension[sex];
    PlumbBodies bodies;
    plumb_bodies_table(sex, lifter->body.length_table, row[PLUMB_DIMENSION_stature].mean, &bodies);
    plumb_sampler_begin(lifter, &bodies, seed, sampler);
    sampler->sizes = true;
    sampler->lifter.body.stature_m = row[PLUMB_DIMENSION_stature].mean;
    sampler->lifter.body.mass_kg = row[PLUMB_DIMENSION_mass].mean;
    sampler->stature_sd_m = row[PLUMB_DIMENSION_stature].sd;
    sampler->mass_sd_kg = row[PLUMB_DIMENSION_mass].sd;
    sampler->stature_mass_r = plumb_table_sampling[PLUMB_SAMPLING_stature_mass_r].value[sex];
}

/* Stature and mass that go together, kept within what a body may have. Returns the factor of the
 * lengths: their shares of stature are drawn independently of it. */
static double draw_size(const PlumbSampler *sampler, const double deviate[2], PlumbBody *body)
{
    const double r = sampler->stature_mass_r;
    const double mean_m = body->stature_m;
    const double together = r * deviate[0] + sqrt(1.0 - r * r) * deviate[1];
    body->stature_m = fmin(fmax(mean_m + sampler->stature_sd_m * deviate[0], 1.20), 2.30);
    body->mass_kg = fmin(fmax(body->mass_kg + sampler->mass_sd_kg * together, 30.0), 250.0);
    return body->stature_m / mean_m;
}

void plumb_sampler_draw(const PlumbSampler *sampler, uint64_t index, PlumbLifter *lifter,
                        double *balance_off_frac)
{
    /* Lengths come last, so that one more of them leaves all other deviates as they are. */
    enum { SIZE, BALANCE = SIZE + 2, LENGTHS, DEVIATES = LENGTHS + PLUMB_LENGTH_COUNT };
    static const double LEAST_M = 0.001;
    double deviate[DEVIATES];
    plumb_normal_deviates(sampler->seed, index, DEVIATES, deviate);
    *lifter = sampler->lifter;
    PlumbBody *body = &lifter->body;
    const double scale = sampler->sizes ? draw_size(sampler, &deviate[SIZE], body) : 1.0;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        double length_m = sampler->mean_m[i];
        for (int k = 0; k <= i; k++) {
            length_m += sampler->root_m[i][k] * deviate[LENGTHS + k];
        }
        const bool any = plumb_fraction(body->sex, PLUMB_SURVEY, (PlumbLength)i).may_be_negative;
        body->length_m[i] = any ? scale * length_m : fmax(scale * length_m, LEAST_M);
    }
    body->parts_sum_m =
        body->ankle_height_m + body->shank_m + body->thigh_m + body->trunk_m + body->head_neck_m;
    plumb_body_segments(body);
    *balance_off_frac = sampler->balance_sd_frac * deviate[BALANCE];
}
