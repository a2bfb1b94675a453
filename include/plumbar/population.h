/* SPDX-License-Identifier: MIT */
/* What holds for people at large: many bodies in one set-up, what their build does to the figures,
 * and which sayings are true of how many. Like intervals, this covers bodies, not strength. */
#ifndef PLUMBAR_POPULATION_H
#define PLUMBAR_POPULATION_H

#include <plumbar/interval.h>

/* Sayings that are tried on each body by changing it or its grip a little, all else held: name, the
 * lift (-1: deadlift and squat), words, how the effect is read. */
#define PLUMB_DIRECTION_LIST(X)                                                                    \
    X(thighs_lean, -1, "Longer thighs lean more (thighs + 2 %: the back is nearer to level)",      \
      ANGLE)                                                                                       \
    X(arms_travel, PLUMB_DEADLIFT, "Longer arms travel less (arms + 2 %: the bar travels less)",   \
      LENGTH)                                                                                      \
    X(arms_upright, PLUMB_DEADLIFT,                                                                \
      "Longer arms are more upright (arms + 2 %: the back is further from level)", ANGLE)          \
    X(ankle_over_thigh, PLUMB_SQUAT,                                                               \
      "Five degrees of ankle matter more than 2 % of thigh (shins 5° more upright turn the back " \
      "further than thighs + 2 % do)",                                                             \
      ANGLE)                                                                                       \
    X(knees_forward, PLUMB_SQUAT,                                                                  \
      "A further forward knee is a more upright back (shins 5° more upright: the back is nearer " \
      "to level)",                                                                                 \
      ANGLE)                                                                                       \
    X(grip_travel, PLUMB_BENCH, "A wider grip travels less (grip + 5 cm: the bar travels less)",   \
      LENGTH)                                                                                      \
    X(grip_elbow, PLUMB_BENCH,                                                                     \
      "A wider grip asks less of the elbow (grip + 5 cm: a smaller extension moment)", MOMENT)     \
    X(arms_press, PLUMB_BENCH,                                                                     \
      "Longer arms travel more in the press (arms + 2 %: the bar travels more)", LENGTH)

typedef enum PlumbDirection {
#define X(name, lift, text, quantity) PLUMB_DIR_##name,
    PLUMB_DIRECTION_LIST(X)
#undef X
        PLUMB_DIRECTION_COUNT
} PlumbDirection;

const char *plumb_direction_name(PlumbDirection direction);
const char *plumb_direction_text(PlumbDirection direction);
PlumbQuantity plumb_direction_quantity(PlumbDirection direction);
bool plumb_direction_applies(PlumbDirection direction, PlumbLift lift);

/* One person of the population in the set-up. */
typedef struct PlumbPerson {
    PlumbSample sample;
    /* By how much each saying is true of this body, SI: above zero it is, NaN: cannot be told. A
     * change of the body keeps the balance of the start (deadlift), or shin angle, depth and
     * balance (squat), or touch (bench press), so that it is the build that speaks. */
    double by[PLUMB_DIRECTION_COUNT];
} PlumbPerson;

/* Solves the set-up for draws first to first + count - 1 of a sampler into person[count]; in any
 * order and on any thread, the same draw gives the same bytes. Allocates nothing. */
void plumb_population_solve(const PlumbSampler *sampler, const PlumbSetup *setup, uint64_t first,
                            int count, PlumbPerson *person);

/* What a figure is regressed on: name, words, the step for which its slope is told. The last two
 * are held, so that ratios speak for themselves. Each lift has five of them. */
#define PLUMB_TRAIT_LIST(X)                                                                        \
    X(thigh_to_trunk, "thigh / trunk", 0.1)                                                        \
    X(arm_to_stature, "arm / stature", 0.01)                                                       \
    X(shank_to_stature, "shank / stature", 0.01)                                                   \
    X(shoulders_to_grip, "shoulder joints' spacing / grip", 0.05)                                  \
    X(chest_to_stature, "chest depth / stature", 0.01)                                             \
    X(stature_m, "stature", 0.1)                                                                   \
    X(mass_kg, "mass", 10.0)

typedef enum PlumbTrait {
#define X(name, text, step) PLUMB_TRAIT_##name,
    PLUMB_TRAIT_LIST(X)
#undef X
        PLUMB_TRAIT_COUNT
} PlumbTrait;

const char *plumb_trait_name(PlumbTrait trait);
const char *plumb_trait_text(PlumbTrait trait);
double plumb_trait_step(PlumbTrait trait);
bool plumb_trait_applies(PlumbTrait trait, PlumbLift lift);
/* Of a body in the set-up. The arm reaches to the grip of the lift: fingers or palm. */
double plumb_trait_value(const PlumbSample *sample, PlumbTrait trait, const PlumbSetup *setup);

/* output = level + sum slope x (trait - mean) + residual, by least squares over the persons that
 * have the figure. error: standard error of the slope. NaN where fewer than ten have it, and of
 * traits that the lift has not. */
typedef struct PlumbRegression {
    int count;
    double mean[PLUMB_TRAIT_COUNT];
    double sd[PLUMB_TRAIT_COUNT];
    double level;
    double slope[PLUMB_TRAIT_COUNT];
    double error[PLUMB_TRAIT_COUNT];
    double residual_sd;
    double explained_share; /* of the figure's variance */
} PlumbRegression;

/* output: in the lift's own list, as of plumb_solved_value; setup: that of all persons. */
PlumbRegression plumb_population_regress(const PlumbPerson *person, int count, int output,
                                         const PlumbSetup *setup);

/* A figure over all persons, and the share that has less than value; NaN where value is not finite
 * or nobody has the figure. scratch[2 count] is written. */
PlumbEstimate plumb_population_estimate(const PlumbPerson *person, int count, int output,
                                        double *scratch);
double plumb_population_share_below(const PlumbPerson *person, int count, int output, double value);

/* Of how many a saying can be told, of what share of them it is true, and its median size. */
typedef struct PlumbSaying {
    int count;
    double share;
    double median;
} PlumbSaying;

PlumbSaying plumb_population_saying(const PlumbPerson *person, int count, PlumbDirection direction,
                                    double *scratch);

#endif
