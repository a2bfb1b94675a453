/* SPDX-License-Identifier: MIT */
/* Reads quantities as people write them, "178 cm", "5 ft 10 in", "35 deg", into SI. */
#ifndef PLUMBAR_QUANTITY_H
#define PLUMBAR_QUANTITY_H

#include <plumbar/format.h>
#include <plumbar/status.h>

#include <stdbool.h>
#include <stddef.h>

/* Reads all of text[length] as one quantity and writes its SI value (m, rad, kg, N m, s, ratio).
 * Lengths: m cm mm in inch inches " ft feet foot ' and feet with inches ("5 ft 10 in", "5ft10",
 * "5'10\""). Angles: deg degrees ° rad. Masses: kg lb lbs pounds. Times: s. Shares: "%" or a plain
 * number. A number without a unit is refused where the quantity has one.
 * Fails with PLUMB_BAD_INPUT and a message that quotes the text, says what is allowed and gives an
 * example; *value_si is then untouched. error->column counts characters within text from 1. */
PlumbStatus plumb_quantity_read(const char *text, size_t length, PlumbQuantity quantity,
                                double *value_si, PlumbError *error);

/* Reads a plain finite decimal number; false where text[length] is anything else. Not dependent on
 * the locale. */
bool plumb_number_read(const char *text, size_t length, double *value);

/* Reads the longest such number at the start of text[length]; returns how many bytes it takes, 0
 * (*value untouched) where none stands there or it is too great for a double. */
size_t plumb_number_scan(const char *text, size_t length, double *value);

#endif
