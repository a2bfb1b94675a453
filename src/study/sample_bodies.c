/* SPDX-License-Identifier: MIT */
/* The normal distribution of a body's lengths: from the tables, and conditioned on observations.
 *
 * Lengths are fractions of stature H with the covariance s_i s_j r_ij H². A length that is a share
 * p of a whole W (pelvis of the trunk, ball and ankle of the foot) follows it to first order:
 * dL = p dW + W dp, so that cov(L, X) = p cov(W, X) and var(L) = p² var(W) + (W s_p)². */
#include <plumbar/sample.h>

#include "body/fraction.h"
#include "tables.h"

#include <math.h>
#include <string.h>

static PlumbLength whole_of(PlumbOf of)
{
    return of == PLUMB_OF_FOOT ? PLUMB_LEN_foot_length : PLUMB_LEN_trunk;
}

static double covariance_m2(PlumbSex sex, const PlumbFraction *a, const PlumbFraction *b, bool same,
                            double stature_m)
{
    if (same) {
        return a->sd * a->sd * stature_m * stature_m;
    }
    if (a->spread == PLUMB_SPREAD_NONE || b->spread == PLUMB_SPREAD_NONE) {
        return 0.0;
    }
    return plumb_table_spread[sex][a->spread].r[b->spread] * a->sd * b->sd * stature_m * stature_m;
}

/* Row and column of a share, once its whole stands. */
static void add_share(PlumbBodies *bodies, PlumbLength length, const PlumbFraction *share)
{
    const PlumbLength whole = whole_of(share->of);
    const double own_m = bodies->mean_m[whole] * share->sd;
    bodies->mean_m[length] = share->mean * bodies->mean_m[whole];
    for (int j = 0; j < PLUMB_LENGTH_COUNT; j++) {
        const double value = share->mean * bodies->cov_m2[whole][j];
        bodies->cov_m2[length][j] = value;
        bodies->cov_m2[j][length] = value;
    }
    bodies->cov_m2[length][length] =
        share->mean * share->mean * bodies->cov_m2[whole][whole] + own_m * own_m;
}

void plumb_bodies_table(PlumbSex sex, PlumbTable length_table, double stature_m,
                        PlumbBodies *bodies)
{
    PlumbFraction fraction[PLUMB_LENGTH_COUNT];
    memset(bodies, 0, sizeof *bodies);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        fraction[i] = plumb_fraction(sex, length_table, (PlumbLength)i);
    }
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (fraction[i].of != PLUMB_OF_STATURE) {
            continue;
        }
        bodies->mean_m[i] = fraction[i].mean * stature_m;
        for (int j = 0; j < PLUMB_LENGTH_COUNT; j++) {
            if (fraction[j].of == PLUMB_OF_STATURE) {
                bodies->cov_m2[i][j] =
                    covariance_m2(sex, &fraction[i], &fraction[j], i == j, stature_m);
            }
        }
    }
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (fraction[i].of != PLUMB_OF_STATURE) {
            add_share(bodies, (PlumbLength)i, &fraction[i]);
        }
    }
}

/* cov w and w' cov w. */
static double project(const PlumbBodies *bodies, const PlumbObservation *observation,
                      double along[PLUMB_LENGTH_COUNT])
{
    double variance = 0.0;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        along[i] = 0.0;
        for (int j = 0; j < PLUMB_LENGTH_COUNT; j++) {
            along[i] += bodies->cov_m2[i][j] * observation->weight[j];
        }
        variance += observation->weight[i] * along[i];
    }
    return variance;
}

double plumb_bodies_variance_m2(const PlumbBodies *bodies, const PlumbObservation *observation)
{
    double along[PLUMB_LENGTH_COUNT];
    return project(bodies, observation, along) + observation->sd_m * observation->sd_m;
}

/* Conditional normal distribution: with k = cov w / (w' cov w + sd²) the mean moves by k times the
 * surprise, the covariance loses k (cov w)'. */
void plumb_bodies_observe(PlumbBodies *bodies, const PlumbObservation *observation)
{
    static const double NOTHING_M2 = 1e-16;
    double along[PLUMB_LENGTH_COUNT];
    const double own = project(bodies, observation, along);
    const double variance = own + observation->sd_m * observation->sd_m;
    if (!(own > NOTHING_M2)) {
        return;
    }
    double surprise_m = observation->value_m;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        surprise_m -= observation->weight[i] * bodies->mean_m[i];
    }
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        bodies->mean_m[i] += along[i] / variance * surprise_m;
        for (int j = 0; j < PLUMB_LENGTH_COUNT; j++) {
            bodies->cov_m2[i][j] -= along[i] * along[j] / variance;
        }
    }
}
