/* SPDX-License-Identifier: MIT */
/* The table of what a lifter's record holds: one row a key, from which files are read and written.
 */
#ifndef PLUMBAR_IO_RECORD_FIELDS_H
#define PLUMBAR_IO_RECORD_FIELDS_H

#include <plumbar/lifter_file.h>

typedef enum FieldKind {
    FIELD_NAME,
    FIELD_NOTE,
    FIELD_SEX,
    FIELD_STATURE,
    FIELD_MASS,
    FIELD_AGE,
    FIELD_LENGTH_TABLE,
    FIELD_MASS_TABLE,
    FIELD_LENGTH, /* index: PlumbLength */
    FIELD_TAPE,   /* PlumbTape */
    FIELD_SHOE,   /* 0 heel, 1 ball */
    FIELD_LIMIT,  /* PlumbLimit */
    FIELD_LUNGE,
    FIELD_STRENGTH,
    FIELD_STRENGTH_ALL,
    FIELD_BEST,     /* PlumbLift */
    FIELD_EQUIPMENT /* PlumbEquipmentId */
} FieldKind;

/* least and greatest are SI, both 0 where the body's own checks decide. */
typedef struct FieldRow {
    const char *section;
    const char *key;
    const char *meaning;
    const char *example;
    FieldKind kind;
    int index;
    PlumbQuantity quantity;
    double least;
    double greatest;
} FieldRow;

/* Row number i, NULL past the last. */
const FieldRow *plumb_field_row(size_t i);
/* The row of section and key[length]; NULL where there is none. */
const FieldRow *plumb_field_in(const char *section, const char *key, size_t length);
/* The row of a dotted key, or of a bare key of `lifter`, `measures`, `limits` and `shoes`. */
const FieldRow *plumb_field_named(const char *key);
/* The key of a section nearest to a misspelt one; section NULL: of all that may stand bare. */
const char *plumb_field_nearest(const char *section, const char *key, size_t length);

/* Sets one field from text. Errors have the dotted key as field, and column as
 * plumb_quantity_read. */
PlumbStatus plumb_field_set(PlumbLifterRecord *record, const FieldRow *row, const char *value,
                            PlumbError *error);
/* Appends the text that sets the field to what it is; false, nothing appended, where the record
 * does not give it. */
bool plumb_field_text(const PlumbLifterRecord *record, const FieldRow *row, PlumbText *text);

/* Appends value_si as the shortest figure with unit that reads back to within a billionth; in
 * inches or pounds where it is round there, to a hundredth, and not in millimetres or 100 grams. */
void plumb_exact_figure(PlumbText *text, double value_si, PlumbQuantity quantity, bool sign);

#endif
