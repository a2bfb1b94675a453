/* SPDX-License-Identifier: MIT */
/* Presets that the set-ups take from the compiled tables, and figures of settings in words. */
#ifndef PLUMBAR_MODEL_SETUP_TABLE_H
#define PLUMBAR_MODEL_SETUP_TABLE_H

#include <plumbar/setup.h>

/* The three settings that a style of deadlift stands for. */
typedef struct StylePreset {
    double stance_m;
    double toes_rad;
    double grip_m;
} StylePreset;

StylePreset plumb_style_preset(PlumbStyle style);
/* Grip that goes with a place of the bar in the squat. */
double plumb_seat_grip_m(PlumbSeat seat);

/* Where the double of a numeric setting lies within *setup; NULL for words. */
double *plumb_setup_double(PlumbSetup *setup, const PlumbSetting *setting);

/* Appends value_si in the unit in which a person writes it, three decimals at most: "32 cm". */
void plumb_setting_figure(PlumbText *text, const PlumbSetting *setting, double value_si);

/* Least and greatest value; that of a relative hip height is the width of the absolute range. */
void plumb_setting_range(const PlumbSetting *setting, bool relative, double *least,
                         double *greatest);

/* What leads where `id` is the one lead given. */
PlumbLead plumb_setting_lead(PlumbSettingId id);

/* PLUMB_BAD_INPUT with field `key` and a message that names value and range where value_si is not
 * finite or outside. */
PlumbStatus plumb_setting_check(const PlumbSetting *setting, bool relative, double value_si,
                                PlumbError *error);

#endif
