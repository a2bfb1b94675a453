/* SPDX-License-Identifier: MIT */
/* A quantity that is varied: "KEY=FROM..TO/N" read, and its values. */
#ifndef PLUMBAR_CLI_AXIS_H
#define PLUMBAR_CLI_AXIS_H

#include "args.h"

#include <plumbar/lifter_file.h>

enum { PLUMB_AXIS_POINTS_MAX = 501, PLUMB_AXIS_KEY_SIZE = 64, PLUMB_AXIS_TEXT_SIZE = 64 };

/* count values from from_si to to_si, equally spaced. */
typedef struct PlumbCliAxis {
    char key[PLUMB_AXIS_KEY_SIZE];
    char json_key[PLUMB_AXIS_KEY_SIZE]; /* with the SI unit */
    PlumbQuantity quantity;
    bool of_lifter;         /* a double of PlumbLifterRecord, else a setting */
    size_t offset;          /* of that double */
    PlumbSettingId setting; /* where it is one */
    double from_si;
    double to_si;
    int count;
} PlumbCliAxis;

/* A range as text, the unit completed on both sides. */
typedef struct PlumbCliRange {
    char from[PLUMB_AXIS_TEXT_SIZE];
    char to[PLUMB_AXIS_TEXT_SIZE];
    int count;
} PlumbCliRange;

/* Whether a value is meant as a range. */
bool plumb_range_is(const char *value);
/* Splits "30..60cm/7" into "30cm", "60cm", 7. PLUMB_BAD_INPUT says how a range is written. */
PlumbStatus plumb_range_read(const char *key, const char *value, PlumbCliRange *range,
                             PlumbCliFault *fault);

/* Makes an axis of a setting and adds its first value to *entry. */
PlumbStatus plumb_axis_of_setting(const char *key, const PlumbCliRange *range,
                                  PlumbSetupEntry *entry, PlumbCliAxis *axis, PlumbCliFault *fault);
/* Makes an axis of a lifter's key (stature, mass, age, lengths, taped measures, limits) and sets
 * its first value in *record. */
PlumbStatus plumb_axis_of_lifter(const char *key, const PlumbCliRange *range,
                                 PlumbLifterRecord *record, PlumbCliAxis *axis,
                                 PlumbCliFault *fault);

/* The value at index 0 to count - 1. */
double plumb_axis_value(const PlumbCliAxis *axis, int index);

#endif
