/* SPDX-License-Identifier: MIT */
/* What the value of a setting rests on. */
#include "model/setup_table.h"

#include <math.h>

/* A default is taken over digit by digit; a value that was typed may differ in the last bit. */
static bool is_same(double value, double other)
{
    return fabs(value - other) < 1e-12;
}

static const PlumbSourceRow *of_lift(const PlumbSetup *setup, const PlumbSetting *setting)
{
    char key[48];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, plumb_lift_name(setup->lift));
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, setting->key);
    const PlumbSourceRow *const own = plumb_source_find("defaults.csv", key);
    return own != NULL ? own : plumb_source_find("settings.csv", setting->key);
}

/* Stance, toes and grip of a pull's style; NULL where the value is not the style's. */
static const PlumbSourceRow *of_style(const PlumbSetup *setup, PlumbSettingId id, double value)
{
    const StylePreset preset = plumb_style_preset(setup->style);
    const bool kept = (id == PLUMB_SET_stance && is_same(value, preset.stance_m)) ||
                      (id == PLUMB_SET_toes && is_same(value, preset.toes_rad)) ||
                      (id == PLUMB_SET_grip && is_same(value, preset.grip_m));
    return kept ? plumb_source_find("styles.csv", plumb_style_name(setup->style)) : NULL;
}

const PlumbSourceRow *plumb_setup_default_row(const PlumbSetup *setup, PlumbSettingId id)
{
    const PlumbSetting *const setting = plumb_setting(id);
    const double value = plumb_setup_get(setup, id);
    if (!setting->lifts[setup->lift] || isnan(value)) {
        return NULL;
    }
    if (id == PLUMB_SET_grip && setup->lift == PLUMB_BENCH) {
        return setup->grip_by_build ? of_lift(setup, setting) : NULL;
    }
    if (id == PLUMB_SET_grip && setup->lift == PLUMB_SQUAT) {
        return is_same(value, plumb_seat_grip_m(setup->seat))
                   ? plumb_source_find("seats.csv", plumb_seat_name(setup->seat))
                   : NULL;
    }
    if (setup->lift == PLUMB_DEADLIFT &&
        (id == PLUMB_SET_stance || id == PLUMB_SET_toes || id == PLUMB_SET_grip)) {
        return of_style(setup, id, value);
    }
    return is_same(value, setting->default_si[setup->lift]) ? of_lift(setup, setting) : NULL;
}
