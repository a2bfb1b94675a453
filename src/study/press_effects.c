/* SPDX-License-Identifier: MIT */
/* Figures of a press. */
#include <plumbar/press_effects.h>

#include <math.h>

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
