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

enum { TRAITS = 5, LEAST = 10 }; /* of each lift */
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

bool plumb_trait_applies(PlumbTrait trait, PlumbLift lift)
{
    const bool of_legs =
        trait == PLUMB_TRAIT_thigh_to_trunk || trait == PLUMB_TRAIT_shank_to_stature;
    const bool of_press =
        trait == PLUMB_TRAIT_shoulders_to_grip || trait == PLUMB_TRAIT_chest_to_stature;
    return lift == PLUMB_BENCH ? !of_legs : !of_press;
}

/* The lift's traits in their order. */
static void list_traits(PlumbLift lift, PlumbTrait trait[TRAITS])
{
    int count = 0;
    for (int i = 0; i < PLUMB_TRAIT_COUNT && count < TRAITS; i++) {
        if (plumb_trait_applies((PlumbTrait)i, lift)) {
            trait[count++] = (PlumbTrait)i;
        }
    }
}

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

double plumb_trait_value(const PlumbSample *sample, PlumbTrait trait, const PlumbSetup *setup)
{
    const double *const length = sample->length_m;
    const double hand = setup->lift == PLUMB_DEADLIFT ? length[PLUMB_LEN_wrist_to_grip_fingers]
                                                      : length[PLUMB_LEN_wrist_to_grip_palm];
    const double value[PLUMB_TRAIT_COUNT] = {
        [PLUMB_TRAIT_thigh_to_trunk] = length[PLUMB_LEN_thigh] / length[PLUMB_LEN_trunk],
        [PLUMB_TRAIT_arm_to_stature] =
            (length[PLUMB_LEN_upper_arm] + length[PLUMB_LEN_forearm] + hand) / sample->stature_m,
        [PLUMB_TRAIT_shank_to_stature] = length[PLUMB_LEN_shank] / sample->stature_m,
        [PLUMB_TRAIT_shoulders_to_grip] = length[PLUMB_LEN_shoulder_joint_spacing] / setup->grip_m,
        [PLUMB_TRAIT_chest_to_stature] = length[PLUMB_LEN_chest_depth] / sample->stature_m,
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

static void add(Sums *sums, const PlumbSample *sample, double figure, const PlumbTrait *trait,
                const PlumbSetup *setup)
{
    double step[TRAITS + 1];
    double value[TRAITS + 1];
    for (int i = 0; i < TRAITS; i++) {
        value[i] = plumb_trait_value(sample, trait[i], setup);
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
    for (int i = 0; i < PLUMB_TRAIT_COUNT; i++) {
        none.mean[i] = none.sd[i] = none.slope[i] = none.error[i] = (double)NAN;
    }
    return none;
}

static PlumbRegression finish(const Sums *sums, const PlumbTrait *trait)
{
    PlumbRegression r = nothing(sums->count);
    r.level = sums->mean[TRAITS];
    const double freedom = sums->count - 1;
    const double variance = sums->product[TRAITS][TRAITS] / freedom;
    double slope[TRAITS];
    double sd[TRAITS];
    for (int i = 0; i < TRAITS; i++) {
        sd[i] = sqrt(sums->product[i][i] / freedom);
        slope[i] = sums->product[i][TRAITS] / freedom / sd[i];
        r.mean[trait[i]] = sums->mean[i];
        r.sd[trait[i]] = sd[i];
    }
    double with[TRAITS];
    memcpy(with, slope, sizeof with);
    if (!solve(sums, sd, slope)) {
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
        solve(sums, sd, unit);
        r.slope[trait[i]] = slope[i] / sd[i];
        r.error[trait[i]] = r.residual_sd * sqrt(unit[i] / freedom) / sd[i];
    }
    return r;
}

PlumbRegression plumb_population_regress(const PlumbPerson *person, int count, int output,
                                         const PlumbSetup *setup)
{
    Sums sums = {.count = 0};
    PlumbTrait trait[TRAITS] = {PLUMB_TRAIT_stature_m};
    list_traits(setup->lift, trait);
    for (int i = 0; i < count; i++) {
        const double figure = person[i].sample.output[output];
        if (isfinite(figure)) {
            add(&sums, &person[i].sample, figure, trait, setup);
        }
    }
    return sums.count < LEAST ? nothing(sums.count) : finish(&sums, trait);
}
