/* SPDX-License-Identifier: MIT */
/* A set-up in words: what differs from the defaults. */
#include <plumbar/setup.h>

#include <math.h>
#include <string.h>

/* Named in every line of a set-up, in that of what leads, or told by the figures. */
static bool is_told(const PlumbSetting *setting, PlumbLift lift)
{
    const bool press = lift == PLUMB_BENCH;
    switch ((int)setting->id) {
    case PLUMB_SET_load:
    case PLUMB_SET_grip:
        return true;
    case PLUMB_SET_stance:
    case PLUMB_SET_toes:
        return !press;
    case PLUMB_SET_arch:
    case PLUMB_SET_elbows:
        return press;
    default:
        return setting->leads[lift];
    }
}

static void name(PlumbText *text, const char *key)
{
    plumb_text_string(text, ", ");
    for (const char *c = key; *c != '\0'; c++) {
        plumb_text_char(text, *c == '_' ? ' ' : *c);
    }
    plumb_text_char(text, ' ');
}

void plumb_setup_rest_text(PlumbText *text, const PlumbSetup *setup, PlumbUnits units)
{
    static const double SAME = 1e-9;
    const PlumbLift lift = setup->lift;
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const setting = plumb_setting((PlumbSettingId)i);
        if (!setting->lifts[lift] || is_told(setting, lift) || setting->offset == (size_t)-1) {
            continue;
        }
        if (setting->id == PLUMB_SET_knees_out && setup->knees_over_toes) {
            plumb_text_string(text, ", knees over the toes");
            continue;
        }
        double value_si;
        memcpy(&value_si, (const char *)setup + setting->offset, sizeof value_si);
        if (fabs(value_si - setting->default_si[lift]) > SAME) {
            name(text, setting->key);
            plumb_text_quantity(text, value_si, setting->quantity, units);
        }
    }
}
