/* SPDX-License-Identifier: MIT */
/* A lift followed with many bodies: how sure its facts and each of its steps are. */
#include "study/interval.h"

#include <math.h>

static const struct {
    const char *key;
    const char *name;
    const char *unit;
} steps[PLUMB_STEP_COUNT] = {
#define X(name, unit) {#name unit, #name, unit},
    PLUMB_STEP_LIST(X)
#undef X
};

_Static_assert((int)PLUMB_FACT_peak_shoulder_moment - (int)PLUMB_FACT_peak_ankle_moment ==
                   (int)PLUMB_JOINT_shoulder - (int)PLUMB_JOINT_ankle,
               "peaks stand in the order of the joints");

static const char *const fact_key[PLUMB_FACT_COUNT] = {
#define X(name, unit) #name unit,
    PLUMB_FACT_LIST(X)
#undef X
};

const char *plumb_step_key(PlumbStep step)
{
    return steps[step].key;
}

const char *plumb_step_name(PlumbStep step)
{
    return steps[step].name;
}

const char *plumb_step_unit(PlumbStep step)
{
    return steps[step].unit;
}

const char *plumb_fact_key(PlumbFact fact)
{
    return fact_key[fact];
}

int plumb_path_sample_size(int points)
{
    return PLUMB_FACT_COUNT + points * PLUMB_STEP_COUNT;
}

int plumb_path_column(int point, PlumbStep step)
{
    return PLUMB_FACT_COUNT + point * PLUMB_STEP_COUNT + (int)step;
}

static void record_step(const PlumbPathPoint *point, double value[PLUMB_STEP_COUNT])
{
    const PlumbPosition *const at = &point->position;
    const double moment[] = {
        at->moment_both_n_m[PLUMB_JOINT_hip], at->moment_both_n_m[PLUMB_JOINT_back],
        at->moment_both_n_m[PLUMB_JOINT_knee], at->moment_both_n_m[PLUMB_JOINT_ankle]};
    value[PLUMB_STEP_bar_height] = at->point[PLUMB_PT_bar].y;
    value[PLUMB_STEP_bar_x] = at->point[PLUMB_PT_bar].x;
    value[PLUMB_STEP_hip_height] = at->pose.hip_height_m;
    value[PLUMB_STEP_back_angle] = at->angle_rad[PLUMB_ANG_back];
    value[PLUMB_STEP_knee_flexion] = at->angle_rad[PLUMB_ANG_knee_flexion];
    value[PLUMB_STEP_balance] = at->balance_frac;
    for (int i = 0; i < 4; i++) {
        value[PLUMB_STEP_hip_moment + i] = moment[i];
    }
    for (int i = 0; i < PLUMB_STEP_COUNT && !point->held; i++) {
        value[i] = (double)NAN;
    }
}

static void record_facts(const PlumbAnswer *answer, const PlumbPathFacts *facts,
                         double value[PLUMB_FACT_COUNT])
{
    value[PLUMB_FACT_travel] = answer->travel_m;
    value[PLUMB_FACT_back_change] = facts->back_change_rad;
    value[PLUMB_FACT_bar_spread] = facts->bar_spread_m;
    value[PLUMB_FACT_bar_shift_max] = facts->bar_shift_max_m;
    value[PLUMB_FACT_knee_pass_u] = facts->knee_pass_u;
    for (int i = 0; i <= PLUMB_FACT_peak_shoulder_moment - PLUMB_FACT_peak_ankle_moment; i++) {
        value[PLUMB_FACT_peak_ankle_moment + i] = facts->peak_moment_n_m[i];
    }
}

void plumb_path_samples_solve(const PlumbSampler *sampler, const PlumbSetup *setup, int points,
                              uint64_t first, int count, PlumbPathPoint *scratch, double *value)
{
    const int size = plumb_path_sample_size(points);
    for (int i = 0; i < count; i++) {
        double *const own = value + (size_t)i * (size_t)size;
        PlumbLifter lifter;
        PlumbAnswer answer;
        PlumbPathFacts facts;
        const PlumbSetup aimed = plumb_sample_begin(sampler, setup, first + (uint64_t)i, &lifter);
        plumb_answer_quick(&lifter, &aimed, &answer);
        if (answer.outcome == PLUMB_NO_POSE ||
            !plumb_path_solve(&lifter, &answer, points, scratch, &facts)) {
            for (int k = 0; k < size; k++) {
                own[k] = (double)NAN;
            }
            continue;
        }
        record_facts(&answer, &facts, own);
        for (int k = 0; k < points; k++) {
            record_step(&scratch[k], own + plumb_path_column(k, PLUMB_STEP_bar_height));
        }
    }
}
