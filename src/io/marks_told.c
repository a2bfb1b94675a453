/* SPDX-License-Identifier: MIT */
/* Rows of a file of marks that tell something of a picture: camera, known length, facing, floor. */
#include "io/marks_row.h"

#include <string.h>

static bool read_key(const PlumbRow *row, const PlumbHead *head, PlumbToldKey *key)
{
    const char *const cell = plumb_cell_of(row, head, PLUMB_COLUMN_landmark);
    return plumb_told_name_read(cell, strlen(cell), key);
}

bool plumb_told_row_is(const PlumbRow *row, const PlumbHead *head)
{
    PlumbToldKey key;
    return read_key(row, head, &key);
}

/* The picture that a row is of, -1 for all; false where it cannot be. */
static bool read_still(const char *picture, PlumbMarks *marks, int *still)
{
    *still = -1;
    if (picture[0] == '\0') {
        return true;
    }
    *still = marks != NULL ? plumb_marks_picture(marks, picture, strlen(picture)) : -1;
    return *still >= 0;
}

PlumbStatus plumb_told_row_take(const PlumbRow *row, const PlumbHead *head, int line,
                                PlumbMarks *marks, PlumbToldRows *rows, PlumbError *error)
{
    const char *const picture = plumb_cell_of(row, head, PLUMB_COLUMN_picture);
    const char *const value = plumb_cell_of(row, head, PLUMB_COLUMN_x);
    PlumbToldRow told = {.line = line};
    read_key(row, head, &told.key);
    if (!plumb_told_read(told.key, value, strlen(value), &told.value)) {
        char what[128];
        PlumbText text = plumb_text_begin(what, sizeof what);
        plumb_text_string(&text, plumb_told_name(told.key));
        plumb_text_string(&text, " takes ");
        plumb_text_string(&text, plumb_told_allowed(told.key));
        return plumb_cell_bad(error, head, PLUMB_COLUMN_x, value, what);
    }
    if (!read_still(picture, marks, &told.still)) {
        return plumb_cell_bad(error, head, PLUMB_COLUMN_picture, picture,
                              marks == NULL ? "is told of the whole film: leave the frame empty"
                                            : "at most 6 pictures, with names of up to 255 bytes");
    }
    for (int i = 0; i < rows->count; i++) {
        if (rows->row[i].key == told.key && rows->row[i].still == told.still) {
            return plumb_cell_bad(error, head, PLUMB_COLUMN_landmark, plumb_told_name(told.key),
                                  "is told twice of the same picture; leave one out");
        }
    }
    rows->row[rows->count++] = told;
    return PLUMB_OK;
}

void plumb_told_rows_of(const PlumbToldRows *rows, int still, double *told)
{
    memset(told, 0, PLUMB_TOLD_COUNT * sizeof *told);
    for (int own = 0; own < 2; own++) {
        for (int i = 0; i < rows->count; i++) {
            const PlumbToldRow *const row = &rows->row[i];
            if (row->still == (own != 0 ? still : -1)) {
                told[row->key] = row->value;
            }
        }
    }
}
