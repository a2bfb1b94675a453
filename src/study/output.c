/* SPDX-License-Identifier: MIT */
/* The figures of an answer as one list: names, words, units, values. */
#include <plumbar/effects.h>

#include "base/words.h"

#include <math.h>

typedef struct OutputRow {
    const char *name;
    const char *text;
    PlumbQuantity quantity;
    const char *unit;
} OutputRow;

static const OutputRow rows[PLUMB_OUTPUT_COUNT] = {
#define X(name, text, quantity, unit) {#name, text, PLUMB_Q_##quantity, unit},
    PLUMB_OUTPUT_LIST(X)
#undef X
};

const char *plumb_output_name(PlumbOutput output)
{
    return rows[output].name;
}

const char *plumb_output_text(PlumbOutput output)
{
    return rows[output].text;
}

/* Ends of window and range are of the free quantity: hip height, or the squat's shin angle. */
static bool of_shin(PlumbOutput output, PlumbLift lift)
{
    return lift == PLUMB_SQUAT && output >= PLUMB_OUT_window_low && output <= PLUMB_OUT_range_high;
}

PlumbQuantity plumb_output_quantity(PlumbOutput output, PlumbLift lift)
{
    return of_shin(output, lift) ? PLUMB_Q_ANGLE : rows[output].quantity;
}

const char *plumb_output_unit(PlumbOutput output, PlumbLift lift)
{
    return of_shin(output, lift) ? "_rad" : rows[output].unit;
}

bool plumb_output_applies(PlumbOutput output, PlumbLift lift)
{
    const bool of_pull = output == PLUMB_OUT_shoulder_effort || output == PLUMB_OUT_leg_gap ||
                         output == PLUMB_OUT_hip_room || output == PLUMB_OUT_shoulder_ahead;
    if (lift == PLUMB_DEADLIFT) {
        return output != PLUMB_OUT_standing_off;
    }
    return lift == PLUMB_SQUAT && !of_pull;
}

/* Joints in the order of the outputs' rows of five. */
static const PlumbJoint joint_of[PLUMB_JOINT_COUNT] = {
    PLUMB_JOINT_hip, PLUMB_JOINT_back, PLUMB_JOINT_knee, PLUMB_JOINT_ankle, PLUMB_JOINT_shoulder};

static double angle_value(const PlumbPosition *p, PlumbOutput output)
{
    static const PlumbAngle angle[] = {PLUMB_ANG_back,
                                       PLUMB_ANG_shin,
                                       PLUMB_ANG_thigh,
                                       PLUMB_ANG_knee_flexion,
                                       PLUMB_ANG_ankle_dorsiflexion,
                                       PLUMB_ANG_hip_flexion,
                                       PLUMB_ANG_hip_abduction,
                                       PLUMB_ANG_hip_external_rotation,
                                       PLUMB_ANG_frontal_shin};
    return p->angle_rad[angle[output - PLUMB_OUT_back_angle]];
}

static double place_value(const PlumbPosition *p, PlumbOutput output)
{
    const PlumbVec3 *const at = p->point;
    const double value[] = {
        [PLUMB_OUT_shoulder_ahead - PLUMB_OUT_shoulder_ahead] =
            at[PLUMB_PT_shoulder].x - at[PLUMB_PT_bar].x,
        [PLUMB_OUT_leg_gap - PLUMB_OUT_shoulder_ahead] = p->clearance_m,
        [PLUMB_OUT_toe_line - PLUMB_OUT_shoulder_ahead] = p->knee_to_toe_line_m,
        [PLUMB_OUT_knee_outside - PLUMB_OUT_shoulder_ahead] =
            at[PLUMB_PT_knee].z - at[PLUMB_PT_ankle].z,
        [PLUMB_OUT_bar_over - PLUMB_OUT_shoulder_ahead] = at[PLUMB_PT_bar].x,
        [PLUMB_OUT_frontal_knee_moment - PLUMB_OUT_shoulder_ahead] = p->loads_3d.knee_frontal_n_m,
        [PLUMB_OUT_frontal_hip_moment - PLUMB_OUT_shoulder_ahead] = p->loads_3d.hip_frontal_n_m,
    };
    return value[output - PLUMB_OUT_shoulder_ahead];
}

static double position_value(const PlumbPosition *p, PlumbOutput output)
{
    if (output < PLUMB_OUT_hip_moment) {
        return p->bar_arm_m[joint_of[output - PLUMB_OUT_hip_arm]];
    }
    if (output < PLUMB_OUT_hip_effort) {
        return p->moment_both_n_m[joint_of[output - PLUMB_OUT_hip_moment]];
    }
    if (output < PLUMB_OUT_summed_effort) {
        return p->relative_effort[joint_of[output - PLUMB_OUT_hip_effort]];
    }
    if (output == PLUMB_OUT_summed_effort) {
        return p->summed_effort;
    }
    if (output == PLUMB_OUT_balance) {
        return p->balance_frac;
    }
    if (output == PLUMB_OUT_hip_height) {
        return p->pose.hip_height_m;
    }
    return output <= PLUMB_OUT_frontal_shin ? angle_value(p, output) : place_value(p, output);
}

static double interval_value(const PlumbAnswer *answer, PlumbOutput output)
{
    const PlumbInterval *const window = &answer->window;
    const PlumbInterval *const range = &answer->low_effort;
    const double value[] = {
        [PLUMB_OUT_window_low - PLUMB_OUT_window_low] = window->low,
        [PLUMB_OUT_window_high - PLUMB_OUT_window_low] = window->high,
        [PLUMB_OUT_window_width - PLUMB_OUT_window_low] = window->high - window->low,
        [PLUMB_OUT_range_low - PLUMB_OUT_window_low] = range->low,
        [PLUMB_OUT_range_high - PLUMB_OUT_window_low] = range->high,
        [PLUMB_OUT_hip_room - PLUMB_OUT_window_low] = answer->start.pose.hip_height_m - window->low,
    };
    return window->exists ? value[output - PLUMB_OUT_window_low] : (double)NAN;
}

double plumb_output_value(const PlumbAnswer *answer, PlumbOutput output)
{
    if (!plumb_output_applies(output, answer->setup.lift)) {
        return (double)NAN;
    }
    if (output == PLUMB_OUT_travel) {
        return answer->travel_m;
    }
    if (output == PLUMB_OUT_standing_off) {
        return answer->end_held ? answer->standing_bar_off_m : (double)NAN;
    }
    return output < PLUMB_OUT_window_low ? position_value(&answer->start, output)
                                         : interval_value(answer, output);
}
