/* SPDX-License-Identifier: MIT */
/* Figures of a press, and what moves them. */
#include <plumbar/press_effects.h>

#include "base/words.h"
#include "study/effect.h"

#include <math.h>
#include <stddef.h>

typedef struct OutputRow {
    const char *name;
    const char *text;
    PlumbQuantity quantity;
    const char *unit;
} OutputRow;

static const OutputRow rows[PLUMB_PRESS_OUTPUT_COUNT] = {
#define X(name, text, quantity, unit) {#name, text, PLUMB_Q_##quantity, unit},
    PLUMB_PRESS_OUTPUT_LIST(X)
#undef X
};

const char *plumb_press_output_name(PlumbPressOutput output)
{
    return rows[output].name;
}

const char *plumb_press_output_text(PlumbPressOutput output)
{
    return rows[output].text;
}

PlumbQuantity plumb_press_output_quantity(PlumbPressOutput output)
{
    return rows[output].quantity;
}

const char *plumb_press_output_unit(PlumbPressOutput output)
{
    return rows[output].unit;
}

bool plumb_press_output_find(const char *name, size_t length, PlumbPressOutput *output)
{
    for (int i = 0; i < PLUMB_PRESS_OUTPUT_COUNT; i++) {
        if (plumb_word_is(name, length, rows[i].name)) {
            *output = (PlumbPressOutput)i;
            return true;
        }
    }
    return false;
}

double plumb_press_output_value(const PlumbPressAnswer *answer, PlumbPressOutput output)
{
    const PlumbPressPosition *touch = &answer->touch;
    const PlumbVec3 *top = answer->lockout.point;
    if (answer->outcome == PLUMB_NO_POSE) {
        return (double)NAN;
    }
    const double value[PLUMB_PRESS_OUTPUT_COUNT] = {
        [PLUMB_PRESS_OUT_travel] = answer->travel_m,
        [PLUMB_PRESS_OUT_path_length] = answer->path_m,
        [PLUMB_PRESS_OUT_lockout_height] = top[PLUMB_PRESS_bar].y - top[PLUMB_PRESS_shoulder].y,
        [PLUMB_PRESS_OUT_touch] = answer->setup.touch_m,
        [PLUMB_PRESS_OUT_side_arm] = touch->bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal],
        [PLUMB_PRESS_OUT_front_arm] = touch->bar_arm_m[PLUMB_PRESS_ARM_shoulder_frontal],
        [PLUMB_PRESS_OUT_elbow_arm] = touch->bar_arm_m[PLUMB_PRESS_ARM_elbow],
        [PLUMB_PRESS_OUT_adduction_moment] =
            touch->moment_n_m[PLUMB_PRESS_JOINT_shoulder_adduction],
        [PLUMB_PRESS_OUT_flexion_moment] = touch->moment_n_m[PLUMB_PRESS_JOINT_shoulder_flexion],
        [PLUMB_PRESS_OUT_elbow_moment] = touch->moment_n_m[PLUMB_PRESS_JOINT_elbow_extension],
        [PLUMB_PRESS_OUT_adduction_effort] =
            touch->relative_effort[PLUMB_PRESS_JOINT_shoulder_adduction],
        [PLUMB_PRESS_OUT_flexion_effort] =
            touch->relative_effort[PLUMB_PRESS_JOINT_shoulder_flexion],
        [PLUMB_PRESS_OUT_elbow_effort] = touch->relative_effort[PLUMB_PRESS_JOINT_elbow_extension],
        [PLUMB_PRESS_OUT_summed_effort] = touch->summed_effort,
        [PLUMB_PRESS_OUT_upper_arm] = touch->angle_rad[PLUMB_PRESS_ANG_abduction],
        [PLUMB_PRESS_OUT_elbow_flexion] = touch->angle_rad[PLUMB_PRESS_ANG_elbow_flexion],
        [PLUMB_PRESS_OUT_forearm_front] = touch->angle_rad[PLUMB_PRESS_ANG_forearm_front],
        [PLUMB_PRESS_OUT_elbow_off_hand] = touch->elbow_off_hand_m,
        [PLUMB_PRESS_OUT_elbow_below_rule] = touch->elbow_below_rule_m,
        [PLUMB_PRESS_OUT_elbows_upright] = answer->elbows_upright_rad,
        [PLUMB_PRESS_OUT_shoulder_angle] = touch->angle_rad[PLUMB_PRESS_ANG_shoulder_flexion],
        [PLUMB_PRESS_OUT_shoulder_rotation] =
            touch->angle_rad[PLUMB_PRESS_ANG_shoulder_external_rotation],
        [PLUMB_PRESS_OUT_abduction_step] = answer->abduction_step_rad,
    };
    return value[output];
}

/* The shoe moves nothing of a press; the lead counts where it leads, elbows where they are asked
 * for.
 */
static bool is_factor(const PlumbSetup *setup, const PlumbSetting *row)
{
    static const bool moves[PLUMB_SETTING_COUNT] = {
        [PLUMB_SET_grip] = true, [PLUMB_SET_load] = true,         [PLUMB_SET_path_exponent] = true,
        [PLUMB_SET_arch] = true, [PLUMB_SET_lockout_over] = true, [PLUMB_SET_hands_push] = true,
    };
    return moves[row->id] || (row->id == PLUMB_SET_touch && setup->lead == PLUMB_LEAD_TOUCH) ||
           (row->id == PLUMB_SET_elbows && setup->elbows_given);
}

static double step_of(PlumbQuantity quantity)
{
    static const double step[PLUMB_QUANTITY_COUNT] = {
        [PLUMB_Q_LENGTH] = 0.01, [PLUMB_Q_SMALL] = 0.01,    [PLUMB_Q_ANGLE] = 0.017453292519943295,
        [PLUMB_Q_MASS] = 10.0,   [PLUMB_Q_FRACTION] = 0.05, [PLUMB_Q_NUMBER] = 0.5,
    };
    return step[quantity];
}

int plumb_press_factors(const PlumbSetup *setup, PlumbFactor *factor)
{
    int count = 0;
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        if (is_factor(setup, row)) {
            factor[count++] = (PlumbFactor){.kind = PLUMB_FACTOR_SETTING,
                                            .setting = row->id,
                                            .quantity = row->quantity,
                                            .step_si = step_of(row->quantity)};
        }
    }
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (plumb_setup_uses_length(setup, (PlumbLength)i)) {
            factor[count++] = (PlumbFactor){.kind = PLUMB_FACTOR_LENGTH,
                                            .length = (PlumbLength)i,
                                            .quantity = PLUMB_Q_LENGTH,
                                            .step_si = step_of(PLUMB_Q_LENGTH)};
        }
    }
    factor[count++] = (PlumbFactor){
        .kind = PLUMB_FACTOR_MASS, .quantity = PLUMB_Q_MASS, .step_si = step_of(PLUMB_Q_MASS)};
    return count;
}

void plumb_press_effects_sort(const PlumbFactor *factor, const PlumbPressEffectRow *row, int count,
                              PlumbPressOutput output, int *order)
{
    plumb_effect_order(factor, &row[0].of[output], PLUMB_PRESS_OUTPUT_COUNT, count, order);
}
