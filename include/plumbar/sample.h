/* SPDX-License-Identifier: MIT */
/* Bodies that the lifter could have: a normal distribution of the lengths, given what was measured,
 * and lifters drawn from it. */
#ifndef PLUMBAR_SAMPLE_H
#define PLUMBAR_SAMPLE_H

#include <plumbar/lifter.h>
#include <plumbar/setup.h>

#include <stdint.h>

/* What is known of the lengths of one body: their means and covariances. Made below from tables and
 * tape, or by whoever knows better (lengths fitted to pictures): cov_m2 must be symmetric and have
 * no negative eigenvalue; a length known exactly has a row of zeros. */
typedef struct PlumbBodies {
    double mean_m[PLUMB_LENGTH_COUNT];
    double cov_m2[PLUMB_LENGTH_COUNT][PLUMB_LENGTH_COUNT];
} PlumbBodies;

/* People of this sex and stature of whom nothing is measured: means of the length table,
 * correlated spreads of anthropometry/spreads.csv, all other rows of lengths.csv independent. */
void plumb_bodies_table(PlumbSex sex, PlumbTable length_table, double stature_m,
                        PlumbBodies *bodies);

/* One observation: sum of weight x length, seen as value_m with a normal error of sd_m. */
typedef struct PlumbObservation {
    double weight[PLUMB_LENGTH_COUNT];
    double value_m;
    double sd_m;
} PlumbObservation;

/* A length measured itself. sd_m 0: exactly. */
PlumbObservation plumb_observation_length(PlumbLength length, double value_m, double sd_m);
/* A surface measure taped at value_m: what it says about the lengths, by the survey's correlation
 * of the two (anthropometry/tape.csv). bodies gives the shoulder's height that an arm hangs from.
 * sd_m: error of the tape. */
PlumbObservation plumb_observation_tape(PlumbSex sex, double stature_m, const PlumbBodies *bodies,
                                        PlumbTape tape, double value_m, double sd_m);
/* Conditions bodies on one observation (they may come in any order). One that nothing in bodies can
 * explain (no variance left along it) changes nothing. */
void plumb_bodies_observe(PlumbBodies *bodies, const PlumbObservation *observation);
/* Variance of what the observation would show, error included, m². */
double plumb_bodies_variance_m2(const PlumbBodies *bodies, const PlumbObservation *observation);

/* The lifter whose body was built from *spec: the tables' bodies, conditioned on every measure and
 * tape of it. Where nothing is measured the means are the body's lengths. */
void plumb_bodies_around(const PlumbBodySpec *spec, const PlumbBody *body, PlumbBodies *bodies);

/* Draws lifters. Number i depends on seed and i alone, on no other draw and no thread. */
typedef struct PlumbSampler {
    PlumbLifter lifter; /* what is not drawn: limits, strength, equipment, masses' table */
    double mean_m[PLUMB_LENGTH_COUNT];
    double root_m[PLUMB_LENGTH_COUNT][PLUMB_LENGTH_COUNT]; /* lower triangle: root root' = cov */
    double balance_sd_frac; /* how exactly the balance is aimed at, anthropometry/sampling.csv */
    uint64_t seed;
    bool sizes;          /* stature and mass are drawn too */
    double stature_sd_m; /* where they are */
    double mass_sd_kg;
    double stature_mass_r;
} PlumbSampler;

/* Around one lifter: stature and mass are his. */
void plumb_sampler_begin(const PlumbLifter *lifter, const PlumbBodies *bodies, uint64_t seed,
                         PlumbSampler *sampler);
/* The survey's adults of the lifter's sex: stature and mass drawn, lengths as shares of stature.
 * Age, limits, strength, equipment and tables are the lifter's. */
void plumb_sampler_population(const PlumbLifter *lifter, uint64_t seed, PlumbSampler *sampler);

/* The lifter number index. balance_off_frac: by how much that lifter misses the balance aimed at.
 * A length that cannot be negative is never below 1 mm. */
void plumb_sampler_draw(const PlumbSampler *sampler, uint64_t index, PlumbLifter *lifter,
                        double *balance_off_frac);

/* Independent standard normal deviates number 0 to count - 1 of draw number index. */
void plumb_normal_deviates(uint64_t seed, uint64_t index, int count, double *deviate);

#endif
