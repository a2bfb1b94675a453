/* SPDX-License-Identifier: MIT */
/* The table of settings, and its figures in words. */
#include "model/setup_table.h"

#include "base/words.h"
#include "settings.h"
#include "tables.h"

#include <math.h>
#include <string.h>

const PlumbSetting *plumb_setting(PlumbSettingId id)
{
    return &plumb_table_setting[id];
}

const PlumbSetting *plumb_setting_find(const char *key, size_t length)
{
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        if (plumb_word_is(key, length, plumb_table_setting[i].key)) {
            return &plumb_table_setting[i];
        }
    }
    return NULL;
}

const char *plumb_setting_nearest(const char *key, size_t length, PlumbLift lift)
{
    PlumbNearest nearest = plumb_nearest_begin(key, length);
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        if (plumb_table_setting[i].lifts[lift]) {
            plumb_nearest_try(&nearest, plumb_table_setting[i].key);
        }
    }
    return plumb_nearest_word(&nearest);
}

StylePreset plumb_style_preset(PlumbStyle style)
{
    const PlumbStyleRow *const row = &plumb_table_style[style];
    return (StylePreset){row->stance_m, row->toes_rad, row->grip_m};
}

double plumb_seat_grip_m(PlumbSeat seat)
{
    return plumb_table_seat[seat].grip_m;
}

void plumb_setting_figure(PlumbText *text, const PlumbSetting *setting, double value_si)
{
    const double figure = value_si * plumb_quantity_factor(setting->quantity, PLUMB_METRIC);
    const char *const unit = plumb_quantity_unit(setting->quantity, PLUMB_METRIC);
    plumb_text_quantity(text, figure, PLUMB_Q_NUMBER, PLUMB_METRIC);
    if (unit[0] != '\0') {
        plumb_text_char(text, ' ');
        plumb_text_string(text, setting->quantity == PLUMB_Q_ANGLE ? "deg" : unit);
    }
}

void plumb_setting_range(const PlumbSetting *setting, bool relative, double *least,
                         double *greatest)
{
    *least = relative ? setting->min_si - setting->max_si : setting->min_si;
    *greatest = relative ? setting->max_si - setting->min_si : setting->max_si;
}

PlumbStatus plumb_setting_check(const PlumbSetting *setting, bool relative, double value_si,
                                PlumbError *error)
{
    double least = 0;
    double greatest = 0;
    plumb_setting_range(setting, relative, &least, &greatest);
    /* 25.4 mm and 1 in differ in the last bit; neither is out of range. */
    const double slack = 1e-12;
    if (value_si >= least - slack && value_si <= greatest + slack) {
        return PLUMB_OK;
    }
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_setting_figure(&text, setting, value_si);
    plumb_text_string(&text, " is out of range; ");
    plumb_setting_figure(&text, setting, least);
    plumb_text_string(&text, " to ");
    plumb_setting_figure(&text, setting, greatest);
    plumb_text_string(&text, " is allowed");
    return plumb_error_set(error, PLUMB_BAD_INPUT, setting->key, message);
}
