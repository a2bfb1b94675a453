/* SPDX-License-Identifier: MIT */
/* A quantity that is varied: "KEY=FROM..TO/N" read, and its values. */
#include "axis.h"

#include <plumbar/quantity.h>

#include <stddef.h>
#include <string.h>

static const char how[] = "; write FROM..TO/N, as in stance=30..60cm/7 (N from 1 to 501)";

static PlumbStatus bad(PlumbCliFault *fault, const char *key, const char *quoted, const char *what)
{
    char after[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(after, sizeof after);
    plumb_text_string(&text, "' ");
    plumb_text_string(&text, what);
    return plumb_fault_bad(fault, key, "'", quoted, after);
}

static PlumbStatus bad_range(PlumbCliFault *fault, const char *key, const char *value,
                             const char *what)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_string(&text, what);
    plumb_text_string(&text, how);
    return bad(fault, key, value, message);
}

bool plumb_range_is(const char *value)
{
    return strstr(value, "..") != NULL;
}

/* Where the unit begins in "60 cm". */
static const char *unit_of(const char *text)
{
    return text + strspn(text, "+-.0123456789 ");
}

/* Copies text[length] without the blanks around it, then unit; false where it does not fit. */
static bool join(char out[PLUMB_AXIS_TEXT_SIZE], const char *text, size_t length, const char *unit)
{
    while (length > 0 && text[length - 1] == ' ') {
        length--;
    }
    while (length > 0 && text[0] == ' ') {
        text++;
        length--;
    }
    if (length == 0 || length + strlen(unit) + 1 >= PLUMB_AXIS_TEXT_SIZE) {
        return false;
    }
    memcpy(out, text, length);
    out[length] = '\0';
    if (unit[0] != '\0') {
        out[length] = ' ';
        memcpy(out + length + 1, unit, strlen(unit) + 1);
    }
    return true;
}

static bool split(const char *value, const char *dots, const char *slash, PlumbCliRange *range)
{
    if (!join(range->from, value, (size_t)(dots - value), "") ||
        !join(range->to, dots + 2, (size_t)(slash - dots - 2), "")) {
        return false;
    }
    const char *const from_unit = unit_of(range->from);
    const char *const to_unit = unit_of(range->to);
    PlumbCliRange whole = *range;
    if (from_unit[0] == '\0' && to_unit[0] != '\0' &&
        !join(whole.from, range->from, strlen(range->from), to_unit)) {
        return false;
    }
    if (to_unit[0] == '\0' && from_unit[0] != '\0' &&
        !join(whole.to, range->to, strlen(range->to), from_unit)) {
        return false;
    }
    *range = whole;
    return true;
}

PlumbStatus plumb_range_read(const char *key, const char *value, PlumbCliRange *range,
                             PlumbCliFault *fault)
{
    const char *const dots = strstr(value, "..");
    const char *const slash = strrchr(value, '/');
    if (dots == NULL || slash == NULL || slash < dots) {
        return bad_range(fault, key, value, "is not a range");
    }
    PlumbCliRange read = {.count = 0};
    if (!split(value, dots, slash, &read)) {
        return bad_range(fault, key, value, "lacks an end");
    }
    double count = 0.0;
    if (!plumb_number_read(slash + 1, strlen(slash + 1), &count) || count < 1.0 ||
        count > (double)PLUMB_AXIS_POINTS_MAX || count != (double)(int)count) {
        return bad_range(fault, key, value, "does not end in a number of points");
    }
    read.count = (int)count;
    *range = read;
    return PLUMB_OK;
}

static void name_axis(PlumbCliAxis *axis, const char *key, const char *json_key, const char *unit)
{
    PlumbText text = plumb_text_begin(axis->key, sizeof axis->key);
    plumb_text_string(&text, key);
    PlumbText json = plumb_text_begin(axis->json_key, sizeof axis->json_key);
    plumb_text_string(&json, json_key);
    plumb_text_string(&json, unit);
}

static double read_double(const void *record, size_t offset)
{
    double value = 0.0;
    memcpy(&value, (const char *)record + offset, sizeof value);
    return value;
}

/* Reads both ends into copies of the entry. Where the first end counts from the present hip height,
 * so does the second, with or without its plus. */
static PlumbStatus read_ends(const char *key, const PlumbCliRange *range, PlumbSetupEntry *from,
                             PlumbSetupEntry *to, PlumbCliFault *fault)
{
    fault->path[0] = '\0';
    const PlumbStatus status = plumb_setup_entry_add(from, key, range->from, &fault->error);
    if (status != PLUMB_OK) {
        return status;
    }
    char end[PLUMB_AXIS_TEXT_SIZE + 1];
    PlumbText text = plumb_text_begin(end, sizeof end);
    const bool plus = from->setup.hip_height_relative && strpbrk(range->to, "+-") != range->to;
    plumb_text_string(&text, plus && strcmp(key, "hip_height") == 0 ? "+" : "");
    plumb_text_string(&text, range->to);
    return plumb_setup_entry_add(to, key, end, &fault->error);
}

PlumbStatus plumb_axis_of_setting(const char *key, const PlumbCliRange *range,
                                  PlumbSetupEntry *entry, PlumbCliAxis *axis, PlumbCliFault *fault)
{
    const PlumbSetting *const row = plumb_setting_find(key, strlen(key));
    if (row == NULL || row->offset == (size_t)-1) {
        return bad(fault, key, key, "is a word; only numbers can be varied");
    }
    PlumbSetupEntry from = *entry;
    PlumbSetupEntry to = *entry;
    const PlumbStatus status = read_ends(key, range, &from, &to, fault);
    if (status != PLUMB_OK) {
        return status;
    }
    if (from.setup.hip_height_relative != to.setup.hip_height_relative) {
        return bad(fault, key, range->to, "and the other end differ: give both a sign, or neither");
    }
    if (from.setup.knees_over_toes != to.setup.knees_over_toes) {
        return bad(fault, key, range->to, "is a word; only numbers can be varied");
    }
    *axis = (PlumbCliAxis){.quantity = row->quantity,
                           .setting = row->id,
                           .offset = row->offset,
                           .from_si = read_double(&from.setup, row->offset),
                           .to_si = read_double(&to.setup, row->offset),
                           .count = range->count};
    name_axis(axis, key, row->json_key, "");
    *entry = from;
    return PLUMB_OK;
}

/* One double of a record that can be varied. */
typedef struct Place {
    size_t offset;
    PlumbQuantity quantity;
    const char *unit;
} Place;

static bool find_number(const char *key, Place *place)
{
    static const struct {
        const char *key;
        Place place;
    } rows[] = {
        {"stature", {offsetof(PlumbLifterRecord, spec.stature_m), PLUMB_Q_STATURE, "_m"}},
        {"mass", {offsetof(PlumbLifterRecord, spec.mass_kg), PLUMB_Q_MASS, "_kg"}},
        {"age", {offsetof(PlumbLifterRecord, spec.age_years), PLUMB_Q_NUMBER, "_years"}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if (strcmp(rows[i].key, key) == 0) {
            *place = rows[i].place;
            return true;
        }
    }
    return false;
}

static Place measure_place(size_t offset, PlumbMeasureKind kind)
{
    const bool spread = kind == PLUMB_MEASURE_SPREAD;
    return (Place){offset + offsetof(PlumbMeasure, value), spread ? PLUMB_Q_NUMBER : PLUMB_Q_LENGTH,
                   spread ? "_sd" : "_m"};
}

/* record holds the key's first value, so that the kind of a measure is known. */
static bool find_place(const char *key, const PlumbLifterRecord *record, Place *place)
{
    for (size_t i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (strcmp(plumb_length_name((PlumbLength)i), key) == 0) {
            *place =
                measure_place(offsetof(PlumbLifterRecord, spec.measure) + i * sizeof(PlumbMeasure),
                              record->spec.measure[i].kind);
            return true;
        }
    }
    for (size_t i = 0; i < PLUMB_TAPE_COUNT; i++) {
        if (strcmp(plumb_tape_name((PlumbTape)i), key) == 0) {
            *place =
                measure_place(offsetof(PlumbLifterRecord, spec.tape) + i * sizeof(PlumbMeasure),
                              record->spec.tape[i].kind);
            return true;
        }
    }
    for (size_t i = 0; i < PLUMB_LIMIT_COUNT; i++) {
        if (strcmp(plumb_limit_name((PlumbLimit)i), key) == 0) {
            *place = (Place){offsetof(PlumbLifterRecord, limit_rad) + i * sizeof(double),
                             PLUMB_Q_ANGLE, "_rad"};
            return true;
        }
    }
    return find_number(key, place);
}

PlumbStatus plumb_axis_of_lifter(const char *key, const PlumbCliRange *range,
                                 PlumbLifterRecord *record, PlumbCliAxis *axis,
                                 PlumbCliFault *fault)
{
    PlumbLifterRecord from = *record;
    PlumbLifterRecord to = *record;
    Place place;
    Place other;
    if (!find_place(key, &from, &place)) {
        return bad(fault, key, key,
                   "cannot be varied; settings, lengths, stature, mass, age and limits can");
    }
    fault->path[0] = '\0';
    PlumbStatus status = plumb_lifter_record_set(&from, key, range->from, &fault->error);
    if (status == PLUMB_OK) {
        status = plumb_lifter_record_set(&to, key, range->to, &fault->error);
    }
    if (status != PLUMB_OK) {
        return status;
    }
    if (!find_place(key, &from, &place) || !find_place(key, &to, &other) ||
        place.quantity != other.quantity) {
        return bad(fault, key, range->to, "and the other end differ in kind");
    }
    *axis = (PlumbCliAxis){.quantity = place.quantity,
                           .of_lifter = true,
                           .offset = place.offset,
                           .from_si = read_double(&from, place.offset),
                           .to_si = read_double(&to, place.offset),
                           .count = range->count};
    name_axis(axis, key, key, place.unit);
    *record = from;
    return PLUMB_OK;
}

double plumb_axis_value(const PlumbCliAxis *axis, int index)
{
    if (axis->count < 2) {
        return axis->from_si;
    }
    if (index == axis->count - 1) {
        return axis->to_si;
    }
    const double last = (double)(axis->count - 1);
    return (axis->from_si * (last - (double)index) + axis->to_si * (double)index) / last;
}
