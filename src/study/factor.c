/* SPDX-License-Identifier: MIT */
/* What can be moved: settings, lengths and the mass of the body, with the step told to people. */
#include <plumbar/effects.h>

#include "base/vec.h"

#include <string.h>

static double step_of(PlumbQuantity quantity)
{
    static const double step[PLUMB_QUANTITY_COUNT] = {
        [PLUMB_Q_LENGTH] = 0.01, [PLUMB_Q_SMALL] = 0.01,    [PLUMB_Q_ANGLE] = PLUMB_PI / 180.0,
        [PLUMB_Q_MASS] = 10.0,   [PLUMB_Q_FRACTION] = 0.05, [PLUMB_Q_NUMBER] = 0.5,
    };
    return step[quantity];
}

/* The shoe moves nothing of a press; the touch counts where it leads, elbows where they are asked
 * for. */
static bool is_factor_of_press(const PlumbSetup *setup, const PlumbSetting *row)
{
    static const bool moves[PLUMB_SETTING_COUNT] = {
        [PLUMB_SET_grip] = true, [PLUMB_SET_load] = true,         [PLUMB_SET_path_exponent] = true,
        [PLUMB_SET_arch] = true, [PLUMB_SET_lockout_over] = true, [PLUMB_SET_hands_push] = true,
    };
    return moves[row->id] || (row->id == PLUMB_SET_touch && setup->lead == PLUMB_LEAD_TOUCH) ||
           (row->id == PLUMB_SET_elbows && setup->elbows_given);
}

/* A lead counts where it leads; the path's exponent and its time move no figure of a position. */
static bool is_factor(const PlumbSetup *setup, const PlumbSetting *row)
{
    if (setup->lift == PLUMB_BENCH) {
        return is_factor_of_press(setup, row);
    }
    if (row->offset == (size_t)-1 || !row->lifts[setup->lift] ||
        row->id == PLUMB_SET_path_exponent || row->id == PLUMB_SET_rep_time ||
        (row->id == PLUMB_SET_knees_out && setup->knees_over_toes)) {
        return false;
    }
    return !row->leads[setup->lift] || plumb_setup_lead_setting(setup) == row->id ||
           (row->id == PLUMB_SET_balance && setup->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE) ||
           (row->id == PLUMB_SET_balance && setup->hip_height_relative);
}

/* Lengths that no figure of the lift depends on would only fill the table with zeros. */
static bool length_counts(const PlumbSetup *setup, PlumbLength length)
{
    if (setup->lift == PLUMB_BENCH) {
        return plumb_setup_uses_length(setup, length);
    }
    if (length >= PLUMB_LEN_head_neck) {
        return false; /* the head's top, and what only a bench press meets */
    }
    const bool of_pull =
        length == PLUMB_LEN_wrist_to_grip_fingers || length == PLUMB_LEN_shoulder_drop ||
        length == PLUMB_LEN_shin_half_thickness || length == PLUMB_LEN_thigh_half_thickness;
    const bool of_hole = length == PLUMB_LEN_wrist_to_grip_palm ||
                         length == PLUMB_LEN_hip_crease_above_joint ||
                         length == PLUMB_LEN_knee_top_above_joint;
    const bool of_seat = length >= PLUMB_LEN_bar_high_up && length <= PLUMB_LEN_bar_front_back;
    if (setup->lift == PLUMB_DEADLIFT) {
        return !of_hole && !of_seat;
    }
    const int first = (int)PLUMB_LEN_bar_high_up + 2 * (int)setup->seat;
    return !of_pull && (!of_seat || ((int)length >= first && (int)length <= first + 1));
}

int plumb_factors(const PlumbSetup *setup, PlumbFactor *factor)
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
        if (length_counts(setup, (PlumbLength)i)) {
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

void plumb_factors_count_in(PlumbUnits units, PlumbFactor *factor, int count)
{
    static const double half_inch_m = 0.0127;
    static const double twenty_pounds_kg = 20.0 * 0.45359237;
    for (int i = 0; i < count && units == PLUMB_POUNDS_INCHES; i++) {
        if (factor[i].quantity == PLUMB_Q_LENGTH || factor[i].quantity == PLUMB_Q_SMALL) {
            factor[i].step_si = half_inch_m;
        } else if (factor[i].quantity == PLUMB_Q_MASS) {
            factor[i].step_si = twenty_pounds_kg;
        }
    }
}

void plumb_factor_move(const PlumbFactor *factor, double delta_si, PlumbLifter *lifter,
                       PlumbSetup *setup)
{
    if (factor->kind == PLUMB_FACTOR_MASS) {
        lifter->body.mass_kg += delta_si;
    } else if (factor->kind == PLUMB_FACTOR_LENGTH) {
        PlumbBody *const body = &lifter->body;
        if (factor->length == PLUMB_LEN_trunk) {
            body->pelvis_m *= 1.0 + delta_si / body->trunk_m;
        }
        body->length_m[factor->length] += delta_si;
    } else {
        const size_t offset = plumb_setting(factor->setting)->offset;
        double value;
        memcpy(&value, (const char *)setup + offset, sizeof value);
        value += delta_si;
        memcpy((char *)setup + offset, &value, sizeof value);
    }
}

const char *plumb_factor_name(const PlumbFactor *factor)
{
    switch (factor->kind) {
    case PLUMB_FACTOR_SETTING:
        return plumb_setting(factor->setting)->key;
    case PLUMB_FACTOR_LENGTH:
        return plumb_length_name(factor->length);
    case PLUMB_FACTOR_MASS:
        break;
    }
    return "mass";
}

const char *plumb_factor_text(const PlumbFactor *factor)
{
    switch (factor->kind) {
    case PLUMB_FACTOR_SETTING:
        return plumb_setting(factor->setting)->meaning;
    case PLUMB_FACTOR_LENGTH:
        return plumb_length_text(factor->length);
    case PLUMB_FACTOR_MASS:
        break;
    }
    return "mass of the body";
}
