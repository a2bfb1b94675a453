/* SPDX-License-Identifier: MIT */
/* A figure of the population regressed on builds.
 *
 * Least squares on standardised traits u: with the correlations C = U'U / (n - 1) and c = U'z / (n
 * - 1) the slopes are b = C^-1 c; the residual variance is s² = (n - 1)(var z - b'c) / (n - k - 1),
 * and the standard error of b_i is s sqrt((C^-1)_ii / (n - 1)). */
#include <plumbar/population.h>

#include "base/roots.h"

#include <math.h>
#include <string.h>

enum { TRAITS = PLUMB_TRAIT_COUNT, LEAST = 10 };
_Static_assert((int)TRAITS <= (int)PLUMB_LINEAR_MAX, "the normal equations fit the solver");

static const struct {
    const char *name;
    const char *text;
    double step;
} rows[PLUMB_TRAIT_COUNT] = {
#define X(name, text, step) {#name, text, step},
    PLUMB_TRAIT_LIST(X)
#undef X
};

const char *plumb_trait_name(PlumbTrait trait)
{
    return rows[trait].name;
}

const char *plumb_trait_text(PlumbTrait trait)
{
    return rows[trait].text;
}

double plumb_trait_step(PlumbTrait trait)
{
    return rows[trait].step;
}

double plumb_trait_value(const PlumbSample *sample, PlumbTrait trait, PlumbLift lift)
{
    const double *const length = sample->length_m;
    const double hand = lift == PLUMB_DEADLIFT ? length[PLUMB_LEN_wrist_to_grip_fingers]
                                               : length[PLUMB_LEN_wrist_to_grip_palm];
    const double value[PLUMB_TRAIT_COUNT] = {
        [PLUMB_TRAIT_thigh_to_trunk] = length[PLUMB_LEN_thigh] / length[PLUMB_LEN_trunk],
        [PLUMB_TRAIT_arm_to_stature] =
            (length[PLUMB_LEN_upper_arm] + length[PLUMB_LEN_forearm] + hand) / sample->stature_m,
        [PLUMB_TRAIT_shank_to_stature] = length[PLUMB_LEN_shank] / sample->stature_m,
        [PLUMB_TRAIT_stature_m] = sample->stature_m,
        [PLUMB_TRAIT_mass_kg] = sample->mass_kg,
    };
    return value[trait];
}

/* Running means and products of traits and figure, the figure last; by Welford's updates, so that
 * nothing cancels. */
typedef struct Sums {
    int count;
    double mean[TRAITS + 1];
    double product[TRAITS + 1][TRAITS + 1];
} Sums;

static void add(Sums *sums, const PlumbSample *sample, double figure, PlumbLift lift)
{
    double step[TRAITS + 1];
    double value[TRAITS + 1];
    for (int i = 0; i < TRAITS; i++) {
        value[i] = plumb_trait_value(sample, (PlumbTrait)i, lift);
    }
    value[TRAITS] = figure;
    sums->count++;
    for (int i = 0; i <= TRAITS; i++) {
        step[i] = value[i] - sums->mean[i];
        sums->mean[i] += step[i] / sums->count;
    }
    for (int i = 0; i <= TRAITS; i++) {
        for (int j = 0; j <= TRAITS; j++) {
            sums->product[i][j] += step[i] * (value[j] - sums->mean[j]);
        }
    }
}

/* Solves C x = rhs; C is the correlations of the traits. */
static bool solve(const Sums *sums, const double sd[TRAITS], double rhs[TRAITS])
{
    double matrix[TRAITS][PLUMB_LINEAR_MAX];
    for (int i = 0; i < TRAITS; i++) {
        for (int j = 0; j < TRAITS; j++) {
            matrix[i][j] = sums->product[i][j] / (sums->count - 1) / (sd[i] * sd[j]);
        }
    }
    return plumb_linear_solve(TRAITS, matrix, rhs);
}

static PlumbRegression nothing(int count)
{
    PlumbRegression none = {.count = count, .level = (double)NAN};
    none.residual_sd = none.explained_share = (double)NAN;
    for (int i = 0; i < TRAITS; i++) {
        none.mean[i] = none.sd[i] = none.slope[i] = none.error[i] = (double)NAN;
    }
    return none;
}

static PlumbRegression finish(const Sums *sums)
{
    PlumbRegression r = {.count = sums->count, .level = sums->mean[TRAITS]};
    const double freedom = sums->count - 1;
    const double variance = sums->product[TRAITS][TRAITS] / freedom;
    double slope[TRAITS];
    for (int i = 0; i < TRAITS; i++) {
        r.mean[i] = sums->mean[i];
        r.sd[i] = sqrt(sums->product[i][i] / freedom);
        slope[i] = sums->product[i][TRAITS] / freedom / r.sd[i];
    }
    double with[TRAITS];
    memcpy(with, slope, sizeof with);
    if (!solve(sums, r.sd, slope)) {
        return nothing(sums->count);
    }
    double explained = 0.0;
    for (int i = 0; i < TRAITS; i++) {
        explained += slope[i] * with[i];
    }
    r.residual_sd = sqrt(fmax(0.0, variance - explained) * freedom / (freedom - TRAITS));
    r.explained_share = variance > 0.0 ? explained / variance : (double)NAN;
    for (int i = 0; i < TRAITS; i++) {
        double unit[TRAITS] = {0.0};
        unit[i] = 1.0;
        solve(sums, r.sd, unit);
        r.slope[i] = slope[i] / r.sd[i];
        r.error[i] = r.residual_sd * sqrt(unit[i] / freedom) / r.sd[i];
    }
    return r;
}

PlumbRegression plumb_population_regress(const PlumbPerson *person, int count, PlumbOutput output,
                                         PlumbLift lift)
{
    Sums sums = {.count = 0};
    for (int i = 0; i < count; i++) {
        const double figure = person[i].sample.output[output];
        if (isfinite(figure)) {
            add(&sums, &person[i].sample, figure, lift);
        }
    }
    return sums.count < LEAST ? nothing(sums.count) : finish(&sums);
}
