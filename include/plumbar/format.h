/* SPDX-License-Identifier: MIT */
/* Text without stdio: bounded strings, fixed-point numbers, and quantities in the reader's units.
 */
#ifndef PLUMBAR_FORMAT_H
#define PLUMBAR_FORMAT_H

#include <stdbool.h>
#include <stddef.h>

/* A string being written into a buffer of the caller. It is always terminated; what does not fit is
 * dropped at a UTF-8 boundary and `cut` is set. */
typedef struct PlumbText {
    char *data;
    size_t size;
    size_t length;
    bool cut;
} PlumbText;

/* Starts an empty text in buffer[size], size at least 1. */
PlumbText plumb_text_begin(char *buffer, size_t size);

/* Each appends to *text. */
void plumb_text_string(PlumbText *text, const char *string);
void plumb_text_char(PlumbText *text, char c);
/* bytes[length], up to a NUL if one comes first. */
void plumb_text_bytes(PlumbText *text, const char *bytes, size_t length);
/* What a person typed, in double quotes, for messages: shortened after 40 bytes with "...", control
 * characters shown as "?". */
void plumb_text_quoted(PlumbText *text, const char *bytes, size_t length);
void plumb_text_integer(PlumbText *text, long long value);
/* value with `decimals` (0 to 15) digits after the point, rounded half away from zero on the
 * decimal digits of the double; never "-0.0"; "nan", "inf" for those. */
void plumb_text_fixed(PlumbText *text, double value, int decimals);
/* The same with a leading "+" where the rounded value is above zero. */
void plumb_text_signed(PlumbText *text, double value, int decimals);

/* What a figure measures: decides the unit and the digits in which a person reads it. */
typedef enum PlumbQuantity {
    PLUMB_Q_LENGTH,   /* m: cm, or inches */
    PLUMB_Q_SMALL,    /* m: mm, or inches; shoe heels */
    PLUMB_Q_STATURE,  /* m: cm, or feet and inches */
    PLUMB_Q_ANGLE,    /* rad: degrees */
    PLUMB_Q_MASS,     /* kg: kg, or pounds */
    PLUMB_Q_MOMENT,   /* N m: N m, or foot-pounds */
    PLUMB_Q_FRACTION, /* ratio: two decimals, no unit */
    PLUMB_Q_SHARE,    /* ratio: per cent */
    PLUMB_Q_TIME,     /* s */
    PLUMB_Q_ENERGY,   /* J, or foot-pounds */
    PLUMB_Q_NUMBER,   /* plain number, three decimals at most */
    PLUMB_Q_WORD,     /* a word out of a list */
    PLUMB_QUANTITY_COUNT
} PlumbQuantity;

typedef enum PlumbUnits { PLUMB_METRIC, PLUMB_POUNDS_INCHES } PlumbUnits;

/* The unit in which a person reads quantity, "" where it has none; static string. */
const char *plumb_quantity_unit(PlumbQuantity quantity, PlumbUnits units);
/* SI value times this is the figure a person reads (feet and inches: inches). */
double plumb_quantity_factor(PlumbQuantity quantity, PlumbUnits units);
/* Digits after the point that a person is shown. */
int plumb_quantity_decimals(PlumbQuantity quantity, PlumbUnits units);
/* Appends value_si in the reader's unit, with the unit: "65.5 cm", "26.8°", "5 ft 9.1 in". */
void plumb_text_quantity(PlumbText *text, double value_si, PlumbQuantity quantity,
                         PlumbUnits units);
/* The same as it is said: without zeros after the point, "45 cm", "0.5 in", "14°". */
void plumb_text_said(PlumbText *text, double value_si, PlumbQuantity quantity, PlumbUnits units);
/* Appends a difference, always signed where not zero: "+1.2 cm". */
void plumb_text_difference(PlumbText *text, double value_si, PlumbQuantity quantity,
                           PlumbUnits units);

#endif
