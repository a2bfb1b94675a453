/* SPDX-License-Identifier: MIT */
/* A lift followed with many bodies: how sure its facts and each of its steps are. */
#include "study/interval.h"

#include <math.h>

typedef struct Key {
    const char *name;
    const char *unit;
} Key;

#define X(name, unit) {#name, unit},
static const Key steps[PLUMB_STEP_COUNT] = {PLUMB_STEP_LIST(X)};
static const Key press_steps[PLUMB_PRESS_STEP_COUNT] = {PLUMB_PRESS_STEP_LIST(X)};
#undef X

#define X(name, unit) #name unit,
static const char *const facts[PLUMB_FACT_COUNT] = {PLUMB_FACT_LIST(X)};
static const char *const press_facts[PLUMB_PRESS_FACT_COUNT] = {PLUMB_PRESS_FACT_LIST(X)};
#undef X

_Static_assert((int)PLUMB_FACT_peak_shoulder_moment - (int)PLUMB_FACT_peak_ankle_moment ==
                   (int)PLUMB_JOINT_shoulder - (int)PLUMB_JOINT_ankle,
               "peaks stand in the order of the joints");
_Static_assert((int)PLUMB_PRESS_FACT_COUNT - (int)PLUMB_PRESS_FACT_peak_shoulder_adduction_moment ==
                   (int)PLUMB_PRESS_JOINT_COUNT,
               "peaks stand in the order of the joints");

int plumb_lift_step_count(PlumbLift lift)
{
    return lift == PLUMB_BENCH ? (int)PLUMB_PRESS_STEP_COUNT : (int)PLUMB_STEP_COUNT;
}

const char *plumb_lift_step_name(PlumbLift lift, int step)
{
    return (lift == PLUMB_BENCH ? press_steps : steps)[step].name;
}

const char *plumb_lift_step_unit(PlumbLift lift, int step)
{
    return (lift == PLUMB_BENCH ? press_steps : steps)[step].unit;
}

int plumb_lift_fact_count(PlumbLift lift)
{
    return lift == PLUMB_BENCH ? (int)PLUMB_PRESS_FACT_COUNT : (int)PLUMB_FACT_COUNT;
}

const char *plumb_lift_fact_key(PlumbLift lift, int fact)
{
    return (lift == PLUMB_BENCH ? press_facts : facts)[fact];
}

int plumb_path_sample_size(PlumbLift lift, int points)
{
    return plumb_path_column(lift, points, 0);
}

int plumb_path_column(PlumbLift lift, int point, int step)
{
    return plumb_lift_fact_count(lift) + point * plumb_lift_step_count(lift) + step;
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

static void record_facts(const PlumbAnswer *answer, const PlumbPathFacts *of_path,
                         double value[PLUMB_FACT_COUNT])
{
    value[PLUMB_FACT_travel] = answer->travel_m;
    value[PLUMB_FACT_back_change] = of_path->back_change_rad;
    value[PLUMB_FACT_bar_spread] = of_path->bar_spread_m;
    value[PLUMB_FACT_bar_shift_max] = of_path->bar_shift_max_m;
    value[PLUMB_FACT_knee_pass_u] = of_path->knee_pass_u;
    for (int i = 0; i <= PLUMB_FACT_peak_shoulder_moment - PLUMB_FACT_peak_ankle_moment; i++) {
        value[PLUMB_FACT_peak_ankle_moment + i] = of_path->peak_moment_n_m[i];
    }
}

static bool follow(const PlumbLifter *lifter, const PlumbSetup *setup, int points,
                   PlumbPathPoint *scratch, double *value)
{
    PlumbAnswer answer;
    PlumbPathFacts of_path;
    plumb_answer_quick(lifter, setup, &answer);
    if (answer.outcome == PLUMB_NO_POSE ||
        !plumb_path_solve(lifter, &answer, points, scratch, &of_path)) {
        return false;
    }
    record_facts(&answer, &of_path, value);
    for (int k = 0; k < points; k++) {
        record_step(&scratch[k], value + plumb_path_column(setup->lift, k, 0));
    }
    return true;
}

static void record_press_step(const PlumbPressPosition *at, double value[PLUMB_PRESS_STEP_COUNT])
{
    value[PLUMB_PRESS_STEP_bar_height] = at->point[PLUMB_PRESS_bar].y;
    value[PLUMB_PRESS_STEP_bar_x] = at->point[PLUMB_PRESS_bar].x;
    value[PLUMB_PRESS_STEP_abduction] = at->angle_rad[PLUMB_PRESS_ANG_abduction];
    value[PLUMB_PRESS_STEP_elbow_flexion] = at->angle_rad[PLUMB_PRESS_ANG_elbow_flexion];
    value[PLUMB_PRESS_STEP_forearm_front] = at->angle_rad[PLUMB_PRESS_ANG_forearm_front];
    value[PLUMB_PRESS_STEP_bar_arm_elbow] = at->bar_arm_m[PLUMB_PRESS_ARM_elbow];
    for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
        value[(int)PLUMB_PRESS_STEP_shoulder_adduction_moment + j] = at->moment_n_m[j];
    }
}

static bool follow_press(const PlumbLifter *lifter, const PlumbSetup *setup, int points,
                         double *value)
{
    PlumbPressAnswer answer;
    double *const peak = value + (int)PLUMB_PRESS_FACT_peak_shoulder_adduction_moment;
    plumb_press_quick(lifter, setup, &answer);
    if (answer.outcome == PLUMB_NO_POSE) {
        return false;
    }
    value[PLUMB_PRESS_FACT_travel] = answer.travel_m;
    value[PLUMB_PRESS_FACT_path_length] = answer.path_m;
    value[PLUMB_PRESS_FACT_bar_spread] = fabs(answer.setup.touch_m - answer.setup.lockout_over_m);
    for (int k = 0; k < points; k++) {
        PlumbPressPosition at;
        plumb_press_at(lifter, &answer, (double)k / (points - 1), &at);
        record_press_step(&at, value + plumb_path_column(PLUMB_BENCH, k, 0));
        for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
            peak[j] = k == 0 ? at.moment_n_m[j] : fmax(peak[j], at.moment_n_m[j]);
        }
    }
    return true;
}

void plumb_path_samples_solve(const PlumbSampler *sampler, const PlumbSetup *setup, int points,
                              uint64_t first, int count, PlumbPathPoint *scratch, double *value)
{
    const int size = plumb_path_sample_size(setup->lift, points);
    for (int i = 0; i < count; i++) {
        double *const own = value + (size_t)i * (size_t)size;
        PlumbLifter lifter;
        const PlumbSetup aimed = plumb_sample_begin(sampler, setup, first + (uint64_t)i, &lifter);
        const bool followed = setup->lift == PLUMB_BENCH
                                  ? follow_press(&lifter, &aimed, points, own)
                                  : follow(&lifter, &aimed, points, scratch, own);
        for (int k = 0; k < size && !followed; k++) {
            own[k] = (double)NAN;
        }
    }
}
