/* SPDX-License-Identifier: MIT */
/* Set-ups as values: defaults, presets, reading and setting by id, and what may not be. */
#include <plumbar/setup.h>

#include "base/words.h"
#include "model/setup_table.h"

#include <math.h>
#include <string.h>

static const char *const lift_names[PLUMB_LIFT_COUNT] = {"deadlift", "squat", "bench"};
static const char *const lift_texts[PLUMB_LIFT_COUNT] = {"deadlift", "squat", "bench press"};
static const char *const style_names[PLUMB_STYLE_COUNT] = {"conventional", "sumo"};
static const char *const seat_names[PLUMB_SEAT_COUNT] = {"high", "low", "front"};

/* The setting by which each lead is given, and the lifts that know the lead. */
static const struct {
    const char *name;
    PlumbSettingId setting;
    bool lifts[PLUMB_LIFT_COUNT];
} leads[PLUMB_LEAD_COUNT] = {
    [PLUMB_LEAD_BALANCE] = {"balance", PLUMB_SET_balance, {true, false, false}},
    [PLUMB_LEAD_HIP_HEIGHT] = {"hip_height", PLUMB_SET_hip_height, {true, false, false}},
    [PLUMB_LEAD_BACK_ANGLE] = {"back_angle", PLUMB_SET_back_angle, {true, true, false}},
    [PLUMB_LEAD_SHIN_ANGLE] = {"shin_angle", PLUMB_SET_shin_angle, {false, true, false}},
    [PLUMB_LEAD_AUTO] = {"auto", PLUMB_SET_auto, {true, true, true}},
    [PLUMB_LEAD_HEIGHT_AND_BALANCE] = {"hip_height_and_balance",
                                       PLUMB_SET_hip_height,
                                       {true, false, false}},
    [PLUMB_LEAD_TOUCH] = {"touch", PLUMB_SET_touch, {false, false, true}},
};

const char *plumb_lift_name(PlumbLift lift)
{
    return lift_names[lift];
}

const char *plumb_lift_text(PlumbLift lift)
{
    return lift_texts[lift];
}

const char *plumb_style_name(PlumbStyle style)
{
    return style_names[style];
}

const char *plumb_seat_name(PlumbSeat seat)
{
    return seat_names[seat];
}

const char *plumb_lead_name(PlumbLead lead)
{
    return leads[lead].name;
}

bool plumb_lift_find(const char *word, size_t length, PlumbLift *lift)
{
    for (int i = 0; i < PLUMB_LIFT_COUNT; i++) {
        if (plumb_word_is(word, length, lift_names[i])) {
            *lift = (PlumbLift)i;
            return true;
        }
    }
    return false;
}

PlumbSettingId plumb_setup_lead_setting(const PlumbSetup *setup)
{
    return leads[setup->lead].setting;
}

PlumbLead plumb_setting_lead(PlumbSettingId id)
{
    for (int i = 0; i < PLUMB_LEAD_COUNT; i++) {
        if (leads[i].setting == id) {
            return (PlumbLead)i;
        }
    }
    return PLUMB_LEAD_COUNT;
}

double *plumb_setup_double(PlumbSetup *setup, const PlumbSetting *setting)
{
    if (setting->offset == (size_t)-1) {
        return NULL;
    }
    return (double *)(void *)((char *)setup + setting->offset);
}

/* The default of a setting in a lift; where that lift has none, of the first lift that has one, so
 * that every field holds a sensible number. NaN where no lift has. */
static double default_of(const PlumbSetting *setting, PlumbLift lift)
{
    double value = setting->default_si[lift];
    for (int i = 0; i < PLUMB_LIFT_COUNT && isnan(value); i++) {
        value = setting->default_si[i];
    }
    return value;
}

PlumbSetup plumb_setup_default(PlumbLift lift)
{
    PlumbSetup setup;
    memset(&setup, 0, sizeof setup);
    setup.lift = lift;
    setup.style = PLUMB_CONVENTIONAL;
    setup.seat = PLUMB_HIGH_BAR;
    setup.grip_by_build = lift == PLUMB_BENCH;
    setup.lead = lift == PLUMB_DEADLIFT ? PLUMB_LEAD_BALANCE : PLUMB_LEAD_AUTO;
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const setting = plumb_setting((PlumbSettingId)i);
        double *const value = plumb_setup_double(&setup, setting);
        const double sensible = default_of(setting, lift);
        if (value != NULL && !isnan(sensible)) {
            *value = sensible;
        }
    }
    return setup;
}

void plumb_setup_style(PlumbSetup *setup, PlumbStyle style)
{
    const StylePreset preset = plumb_style_preset(style);
    setup->style = style;
    setup->stance_m = preset.stance_m;
    setup->toes_rad = preset.toes_rad;
    setup->grip_m = preset.grip_m;
}

void plumb_setup_seat(PlumbSetup *setup, PlumbSeat seat)
{
    if (fabs(setup->grip_m - plumb_seat_grip_m(setup->seat)) < 1e-12) {
        setup->grip_m = plumb_seat_grip_m(seat);
    }
    setup->seat = seat;
}

double plumb_setup_get(const PlumbSetup *setup, PlumbSettingId id)
{
    PlumbSetup copy = *setup;
    const double *const value = plumb_setup_double(&copy, plumb_setting(id));
    return value == NULL ? (double)NAN : *value;
}

bool plumb_setup_set(PlumbSetup *setup, PlumbSettingId id, double value_si)
{
    const PlumbSetting *const setting = plumb_setting(id);
    double *const value = plumb_setup_double(setup, setting);
    if (value == NULL || !isfinite(value_si) || !setting->lifts[setup->lift]) {
        return false;
    }
    *value = fmin(fmax(value_si, setting->min_si), setting->max_si);
    if (id == PLUMB_SET_knees_out) {
        setup->knees_over_toes = false;
    }
    if (id == PLUMB_SET_hip_height) {
        setup->hip_height_relative = false;
    }
    if (id == PLUMB_SET_elbows) {
        setup->elbows_given = true;
    }
    if (id == PLUMB_SET_grip) {
        setup->grip_by_build = false;
    }
    /* Of a pair that leads together, either may be moved alone. */
    const bool of_pair = setup->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE &&
                         (id == PLUMB_SET_hip_height || id == PLUMB_SET_balance);
    if (setting->leads[setup->lift] && !of_pair) {
        setup->lead = plumb_setting_lead(id);
    }
    return true;
}

static bool enums_valid(const PlumbSetup *setup)
{
    return (unsigned)setup->lift < PLUMB_LIFT_COUNT && (unsigned)setup->style < PLUMB_STYLE_COUNT &&
           (unsigned)setup->seat < PLUMB_SEAT_COUNT && (unsigned)setup->lead < PLUMB_LEAD_COUNT;
}

/* Whether the number of a setting is used: it belongs to the lift, and if it has no default it is
 * used only where it leads, or where elbows are asked for. */
static bool is_used(const PlumbSetup *setup, const PlumbSetting *setting)
{
    return setting->lifts[setup->lift] &&
           (!isnan(setting->default_si[setup->lift]) ||
            plumb_setup_lead_setting(setup) == setting->id ||
            (setting->id == PLUMB_SET_elbows && setup->elbows_given));
}

static PlumbStatus refuse_lead(const PlumbSetup *setup, PlumbError *error)
{
    static const char *const choice[PLUMB_LIFT_COUNT] = {
        "in a deadlift balance, hip_height, back_angle or auto leads; give one",
        "in a squat shin_angle, back_angle or auto leads; give one",
        "in a bench press touch or auto leads; give one"};
    return plumb_error_set(error, PLUMB_BAD_INPUT,
                           setup->lift == PLUMB_DEADLIFT ? leads[setup->lead].name : "auto",
                           choice[setup->lift]);
}

PlumbStatus plumb_setup_check(const PlumbSetup *setup, PlumbError *error)
{
    if (!enums_valid(setup)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "lift",
                               "lift, style, bar and lead must be values of their lists");
    }
    if (!leads[setup->lead].lifts[setup->lift]) {
        return refuse_lead(setup, error);
    }
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const setting = plumb_setting((PlumbSettingId)i);
        if (setting->offset == (size_t)-1 || !is_used(setup, setting)) {
            continue;
        }
        const bool relative = setting->id == PLUMB_SET_hip_height && setup->hip_height_relative;
        const double value = plumb_setup_get(setup, setting->id);
        const PlumbStatus status = plumb_setting_check(setting, relative, value, error);
        if (status != PLUMB_OK) {
            return status;
        }
    }
    if (setup->lift == PLUMB_DEADLIFT && setup->deficit_m > 0 && setup->blocks_m > 0) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "blocks",
                               "blocks and a deficit together are not possible; give one of them");
    }
    return PLUMB_OK;
}

bool plumb_setup_uses_length(const PlumbSetup *setup, PlumbLength length)
{
    static const struct {
        PlumbLength length;
        bool lifts[PLUMB_LIFT_COUNT];
    } some[] = {
        {PLUMB_LEN_wrist_to_grip_palm, {false, true, true}},
        {PLUMB_LEN_wrist_to_grip_fingers, {true, false, false}},
        {PLUMB_LEN_shoulder_drop, {true, false, false}},
        {PLUMB_LEN_upper_arm, {true, true, true}},
        {PLUMB_LEN_forearm, {true, true, true}},
        {PLUMB_LEN_forefinger_to_grip_centre, {true, true, true}},
        {PLUMB_LEN_shoulder_joint_spacing, {true, true, true}},
        {PLUMB_LEN_chest_depth, {false, false, true}},
        {PLUMB_LEN_shoulder_half_depth, {false, false, true}},
        {PLUMB_LEN_elbow_half_thickness, {false, false, true}},
        {PLUMB_LEN_shoulder_top_above_joint, {false, false, true}},
    };
    for (size_t i = 0; i < sizeof some / sizeof some[0]; i++) {
        if (some[i].length == length) {
            return some[i].lifts[setup->lift];
        }
    }
    if (length >= PLUMB_LEN_bar_high_up && length <= PLUMB_LEN_bar_front_back) {
        const int seat = ((int)length - (int)PLUMB_LEN_bar_high_up) / 2;
        return setup->lift == PLUMB_SQUAT && seat == (int)setup->seat;
    }
    return setup->lift != PLUMB_BENCH;
}
