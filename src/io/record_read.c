/* SPDX-License-Identifier: MIT */
/* Sets the fields of a lifter's record from texts. */
#include "io/record_fields.h"

#include <plumbar/quantity.h>

#include <math.h>
#include <string.h>

/* "section.key" into the error, which keeps its message and column. */
static PlumbStatus named(PlumbError *error, PlumbStatus status, const FieldRow *row)
{
    if (error != NULL) {
        PlumbText text = plumb_text_begin(error->field, sizeof error->field);
        plumb_text_string(&text, row->section);
        plumb_text_char(&text, '.');
        plumb_text_string(&text, row->key);
    }
    return status;
}

static PlumbStatus refuse(PlumbError *error, const FieldRow *row, const char *value,
                          const char *what)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_quoted(&text, value, strlen(value));
    plumb_text_string(&text, ": ");
    plumb_text_string(&text, what);
    return named(error, plumb_error_set(error, PLUMB_BAD_INPUT, "", message), row);
}

/* value becomes dst[size]; control characters are refused, new lines where they are not `lines`. */
static PlumbStatus set_text(char *dst, size_t size, bool lines, const FieldRow *row,
                            const char *value, PlumbError *error)
{
    const size_t length = strlen(value);
    if (length >= size) {
        return refuse(error, row, value, "too long; shorten it");
    }
    for (size_t i = 0; i < length; i++) {
        const unsigned char c = (unsigned char)value[i];
        if ((c < 0x20u && !(lines && (c == '\n' || c == '\t'))) || c == 0x7Fu) {
            return refuse(error, row, value, "holds a control character; take it out");
        }
    }
    memcpy(dst, value, length + 1);
    return PLUMB_OK;
}

/* One of two words: writes 0 or 1. */
static PlumbStatus set_word(int *index, const char *first, const char *second, const FieldRow *row,
                            const char *value, PlumbError *error)
{
    if (strcmp(value, first) != 0 && strcmp(value, second) != 0) {
        char what[80];
        PlumbText text = plumb_text_begin(what, sizeof what);
        plumb_text_string(&text, first);
        plumb_text_string(&text, " or ");
        plumb_text_string(&text, second);
        plumb_text_string(&text, " is allowed");
        return refuse(error, row, value, what);
    }
    *index = strcmp(value, first) == 0 ? 0 : 1;
    return PLUMB_OK;
}

/* Appends a bound of a row in the reader's unit. */
static void bound(PlumbText *text, double value_si, PlumbQuantity quantity)
{
    plumb_exact_figure(text, value_si, quantity, false);
}

static PlumbStatus set_number(double *number, const FieldRow *row, const char *value,
                              PlumbError *error)
{
    double read = 0;
    const PlumbStatus status =
        plumb_quantity_read(value, strlen(value), row->quantity, &read, error);
    if (status != PLUMB_OK) {
        return named(error, status, row);
    }
    const bool bounded = row->greatest > 0;
    const double slack = 1e-12;
    if (bounded && !(read >= row->least - slack && read <= row->greatest + slack)) {
        char what[120];
        PlumbText text = plumb_text_begin(what, sizeof what);
        plumb_text_string(&text, "out of range; ");
        bound(&text, row->least, row->quantity);
        plumb_text_string(&text, " to ");
        bound(&text, row->greatest, row->quantity);
        plumb_text_string(&text, " is allowed");
        return refuse(error, row, value, what);
    }
    *number = bounded ? fmin(fmax(read, row->least), row->greatest) : read;
    return PLUMB_OK;
}

/* "34", "34 years", "34 y". */
static PlumbStatus set_age(double *age_years, const FieldRow *row, const char *value,
                           PlumbError *error)
{
    double read = 0;
    const size_t taken = plumb_number_scan(value, strlen(value), &read);
    const char *rest = value + taken;
    while (*rest == ' ') {
        rest++;
    }
    const bool unit = *rest == '\0' || strcmp(rest, "years") == 0 || strcmp(rest, "y") == 0;
    if (taken == 0 || !unit || !(read > 0)) {
        return refuse(error, row, value, "an age in years is allowed, as 34");
    }
    *age_years = read;
    return PLUMB_OK;
}

static bool ends_with(const char *text, size_t length, const char *end)
{
    const size_t size = strlen(end);
    return length >= size && memcmp(text + length - size, end, size) == 0;
}

/* "+1 sd", "-0.5 sd". */
static PlumbStatus set_spread(PlumbMeasure *measure, const FieldRow *row, const char *value,
                              PlumbError *error)
{
    size_t length = strlen(value) - 2;
    double spread = 0;
    while (length > 0 && value[length - 1] == ' ') {
        length--;
    }
    if (row->kind == FIELD_TAPE) {
        return refuse(error, row, value, "a taped measure is a length, as 55 cm");
    }
    if (!plumb_number_read(value, length, &spread)) {
        return refuse(error, row, value,
                      "a count of standard deviations is written as +1 sd or -0.5 sd");
    }
    *measure = (PlumbMeasure){.kind = PLUMB_MEASURE_SPREAD, .value = spread};
    return PLUMB_OK;
}

/* The length of the sign that parts a length from its error, at *at; 0 where there is none. */
static size_t error_sign(const char *value, size_t *at)
{
    static const char *const signs[] = {"±", "+-", "+/-"};
    for (size_t i = 0; i < sizeof signs / sizeof signs[0]; i++) {
        const char *const found = strstr(value, signs[i]);
        if (found != NULL && found != value) {
            *at = (size_t)(found - value);
            return strlen(signs[i]);
        }
    }
    return 0;
}

/* "44 cm", "44 cm ± 0.5 cm", "+1 sd". */
static PlumbStatus set_measure(PlumbMeasure *measure, const FieldRow *row, const char *value,
                               PlumbError *error)
{
    const size_t length = strlen(value);
    PlumbMeasure read = {.kind = PLUMB_MEASURE_LENGTH};
    if (ends_with(value, length, "sd")) {
        return set_spread(measure, row, value, error);
    }
    size_t at = length;
    const size_t sign = error_sign(value, &at);
    PlumbStatus status = plumb_quantity_read(value, at, row->quantity, &read.value, error);
    if (status != PLUMB_OK) {
        return named(error, status, row);
    }
    if (sign > 0) {
        status = plumb_quantity_read(value + at + sign, length - at - sign, row->quantity,
                                     &read.sd_m, error);
        if (status != PLUMB_OK) {
            if (error != NULL) {
                error->column = 0;
            }
            return named(error, status, row);
        }
        if (!(read.sd_m > 0 && read.sd_m <= 0.1)) {
            return refuse(error, row, value, "an error of measurement is above 0, up to 10 cm");
        }
    }
    *measure = read;
    return PLUMB_OK;
}

static PlumbStatus set_lifter(PlumbLifterRecord *record, const FieldRow *row, const char *value,
                              PlumbError *error)
{
    PlumbBodySpec *const spec = &record->spec;
    int index = 0;
    PlumbStatus status = PLUMB_OK;
    if (row->kind == FIELD_SEX) {
        status = set_word(&index, "male", "female", row, value, error);
        spec->sex = index == 0 ? PLUMB_MALE : PLUMB_FEMALE;
        record->sex_given = true;
    } else if (row->kind == FIELD_STATURE) {
        status = set_number(&spec->stature_m, row, value, error);
        record->stature_given = true;
    } else if (row->kind == FIELD_MASS) {
        status = set_number(&spec->mass_kg, row, value, error);
        record->mass_given = true;
    } else if (row->kind == FIELD_AGE) {
        status = set_age(&spec->age_years, row, value, error);
    } else if (row->kind == FIELD_LENGTH_TABLE || row->kind == FIELD_MASS_TABLE) {
        status = set_word(&index, "survey", "classic", row, value, error);
        const PlumbTable table = index == 0 ? PLUMB_SURVEY : PLUMB_CLASSIC;
        *(row->kind == FIELD_MASS_TABLE ? &spec->mass_table : &spec->length_table) = table;
    } else if (row->kind == FIELD_NOTE) {
        status = set_text(record->note, sizeof record->note, true, row, value, error);
    } else {
        status = set_text(record->name, sizeof record->name, false, row, value, error);
    }
    return status;
}

static PlumbStatus set_strength(PlumbLifterRecord *record, const FieldRow *row, const char *value,
                                PlumbError *error)
{
    double number = 1;
    const PlumbStatus status = set_number(&number, row, value, error);
    for (int i = 0; status == PLUMB_OK && i < PLUMB_JOINT_COUNT; i++) {
        if (row->kind == FIELD_STRENGTH_ALL || i == row->index) {
            record->strength[i] = number;
            record->strength_given[i] = true;
        }
    }
    return status;
}

/* "160 kg x 3 @ 2". */
static PlumbStatus set_best(PlumbLifterRecord *record, const FieldRow *row, const char *value,
                            PlumbError *error)
{
    const PlumbStatus status =
        plumb_best_read(value, (PlumbLift)row->index, &record->best[row->index], error);
    record->best_given[row->index] = true;
    return named(error, status, row);
}

/* Kept as written: a distance becomes an angle only with the body. */
static PlumbStatus set_lunge(PlumbLifterRecord *record, const FieldRow *row, const char *value,
                             PlumbError *error)
{
    double ignored;
    const size_t length = strlen(value);
    if (plumb_quantity_read(value, length, PLUMB_Q_ANGLE, &ignored, NULL) != PLUMB_OK &&
        plumb_quantity_read(value, length, PLUMB_Q_LENGTH, &ignored, NULL) != PLUMB_OK) {
        return refuse(error, row, value,
                      "a distance from the wall (10 cm) or the shank's lean (38 deg) is allowed");
    }
    return set_text(record->lunge, sizeof record->lunge, false, row, value, error);
}

static PlumbStatus set_field(PlumbLifterRecord *record, const FieldRow *row, const char *value,
                             PlumbError *error)
{
    switch (row->kind) {
    case FIELD_LENGTH:
        return set_measure(&record->spec.measure[row->index], row, value, error);
    case FIELD_TAPE:
        return set_measure(&record->spec.tape[row->index], row, value, error);
    case FIELD_SHOE:
        return set_number(row->index == 0 ? &record->heel_m : &record->ball_m, row, value, error);
    case FIELD_LIMIT:
        record->limit_given[row->index] = true;
        return set_number(&record->limit_rad[row->index], row, value, error);
    case FIELD_LUNGE:
        return set_lunge(record, row, value, error);
    case FIELD_BEST:
        return set_best(record, row, value, error);
    case FIELD_STRENGTH:
    case FIELD_STRENGTH_ALL:
        return set_strength(record, row, value, error);
    case FIELD_EQUIPMENT:
        record->equipment_given[row->index] = true;
        return set_number(&record->equipment[row->index], row, value, error);
    case FIELD_NAME:
    case FIELD_NOTE:
    case FIELD_SEX:
    case FIELD_STATURE:
    case FIELD_MASS:
    case FIELD_AGE:
    case FIELD_LENGTH_TABLE:
    case FIELD_MASS_TABLE:
        break;
    }
    return set_lifter(record, row, value, error);
}

PlumbStatus plumb_field_set(PlumbLifterRecord *record, const FieldRow *row, const char *value,
                            PlumbError *error)
{
    PlumbLifterRecord next = *record;
    const PlumbStatus status = set_field(&next, row, value, error);
    if (status == PLUMB_OK) {
        *record = next;
    }
    return status;
}
