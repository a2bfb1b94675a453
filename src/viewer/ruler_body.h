/* SPDX-License-Identifier: MIT */
/* The second set of rulers: the lifter's body, each figure with its percentile. */
#ifndef PLUMBAR_VIEWER_RULER_BODY_H
#define PLUMBAR_VIEWER_RULER_BODY_H

#include <plumbar/lifter_file.h>
#include <plumbar/setup.h>

/* Rulers of the body go on counting where the settings end. */
enum {
    PLUMB_BODY_stature = PLUMB_SETTING_COUNT,
    PLUMB_BODY_mass,
    PLUMB_BODY_LENGTHS,
    PLUMB_BODY_LENGTH_COUNT = 9,
    PLUMB_RULER_COUNT = PLUMB_BODY_LENGTHS + PLUMB_BODY_LENGTH_COUNT
};

static inline bool plumb_body_is(PlumbSettingId id)
{
    return (int)id >= (int)PLUMB_SETTING_COUNT && (int)id < (int)PLUMB_RULER_COUNT;
}

/* The length of a body ruler; PLUMB_LENGTH_COUNT for stature and mass. */
PlumbLength plumb_body_length(PlumbSettingId id);
/* Its row, as a setting has one. */
const PlumbSetting *plumb_body_row(PlumbSettingId id);
double plumb_body_value(const PlumbBody *body, PlumbSettingId id);
/* Share of the survey's adults of this sex with less, 0 to 1. */
double plumb_body_percentile(const PlumbBody *body, PlumbSettingId id);
/* Sets one figure of the record and builds the lifter. PLUMB_BAD_INPUT: no body has it; both are
 * then untouched. A length that is set takes the place of the tapes that give it; NaN: it is no
 * longer measured, or where only tapes give it no longer taped. */
PlumbStatus plumb_body_change(PlumbLifterRecord *record, PlumbLifter *lifter, PlumbSettingId id,
                              double value_si, PlumbError *error);

#endif
