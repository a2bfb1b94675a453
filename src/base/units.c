/* SPDX-License-Identifier: MIT */
/* The units in which a person reads each quantity, and figures written in them. */
#include <plumbar/format.h>

#include <math.h>

/* SI value times factor is the figure; decimals are what its accuracy deserves. Exact definitions:
 * 1 in = 0.0254 m, 1 lb = 0.45359237 kg, 1 lbf = 0.45359237 * 9.80665 N. */
typedef struct UnitRow {
    const char *unit;
    double factor;
    int decimals;
} UnitRow;

#define PER_INCH (1 / 0.0254)
#define PER_POUND (1 / 0.45359237)
#define PER_FOOT_POUND (1 / (0.3048 * 0.45359237 * 9.80665))
#define PER_DEGREE (180 / 3.14159265358979323846)

static const UnitRow unit_rows[PLUMB_QUANTITY_COUNT][2] = {
    [PLUMB_Q_LENGTH] = {{"cm", 100, 1}, {"in", PER_INCH, 1}},
    [PLUMB_Q_SMALL] = {{"mm", 1000, 0}, {"in", PER_INCH, 2}},
    [PLUMB_Q_STATURE] = {{"cm", 100, 1}, {"in", PER_INCH, 1}},
    [PLUMB_Q_ANGLE] = {{"°", PER_DEGREE, 1}, {"°", PER_DEGREE, 1}},
    [PLUMB_Q_MASS] = {{"kg", 1, 1}, {"lb", PER_POUND, 1}},
    [PLUMB_Q_MOMENT] = {{"N m", 1, 0}, {"ft lb", PER_FOOT_POUND, 0}},
    [PLUMB_Q_FRACTION] = {{"", 1, 2}, {"", 1, 2}},
    [PLUMB_Q_SHARE] = {{"%", 100, 0}, {"%", 100, 0}},
    [PLUMB_Q_TIME] = {{"s", 1, 2}, {"s", 1, 2}},
    [PLUMB_Q_ENERGY] = {{"J", 1, 0}, {"ft lb", PER_FOOT_POUND, 0}},
    [PLUMB_Q_NUMBER] = {{"", 1, 3}, {"", 1, 3}},
    [PLUMB_Q_WORD] = {{"", 1, 0}, {"", 1, 0}},
};

static const UnitRow *row_of(PlumbQuantity quantity, PlumbUnits units)
{
    return &unit_rows[quantity][units == PLUMB_POUNDS_INCHES ? 1 : 0];
}

const char *plumb_quantity_unit(PlumbQuantity quantity, PlumbUnits units)
{
    return row_of(quantity, units)->unit;
}

double plumb_quantity_factor(PlumbQuantity quantity, PlumbUnits units)
{
    return row_of(quantity, units)->factor;
}

int plumb_quantity_decimals(PlumbQuantity quantity, PlumbUnits units)
{
    return row_of(quantity, units)->decimals;
}

/* Takes the zeros off the end of a figure with a point, and the point with them. */
static void drop_zeros(PlumbText *text, size_t start)
{
    size_t point = start;
    while (point < text->length && text->data[point] != '.') {
        point++;
    }
    if (text->cut || point == text->length) {
        return;
    }
    while (text->data[text->length - 1] == '0') {
        text->length--;
    }
    text->length -= text->length - 1 == point ? 1 : 0;
    text->data[text->length] = '\0';
}

/* "5 ft 9.1 in": rounded to tenths of an inch before it is split, so that 12.0 in never stands. */
static void feet_and_inches(PlumbText *text, double value_m)
{
    const double tenths = round(fabs(value_m) * PER_INCH * 10);
    const double feet = floor(tenths / 120);
    if (value_m < 0 && tenths > 0) {
        plumb_text_char(text, '-');
    }
    plumb_text_fixed(text, feet, 0);
    plumb_text_string(text, " ft ");
    plumb_text_fixed(text, (tenths - feet * 120) / 10, 1);
    plumb_text_string(text, " in");
}

/* How a figure is written. */
typedef enum Manner { PLAIN, SIGNED, SAID } Manner;

static void figure(PlumbText *text, double value_si, PlumbQuantity quantity, PlumbUnits units,
                   Manner manner)
{
    const UnitRow *const row = row_of(quantity, units);
    const size_t start = text->length;
    if (manner == SIGNED) {
        plumb_text_signed(text, value_si * row->factor, row->decimals);
    } else {
        plumb_text_fixed(text, value_si * row->factor, row->decimals);
    }
    if ((quantity == PLUMB_Q_NUMBER || manner == SAID) && isfinite(value_si)) {
        drop_zeros(text, start);
    }
    if (row->unit[0] != '\0' && isfinite(value_si)) {
        plumb_text_string(text, quantity == PLUMB_Q_ANGLE ? "" : " ");
        plumb_text_string(text, row->unit);
    }
}

void plumb_text_quantity(PlumbText *text, double value_si, PlumbQuantity quantity, PlumbUnits units)
{
    if (quantity == PLUMB_Q_STATURE && units == PLUMB_POUNDS_INCHES && isfinite(value_si)) {
        feet_and_inches(text, value_si);
        return;
    }
    figure(text, value_si, quantity, units, PLAIN);
}

void plumb_text_difference(PlumbText *text, double value_si, PlumbQuantity quantity,
                           PlumbUnits units)
{
    figure(text, value_si, quantity, units, SIGNED);
}

void plumb_text_said(PlumbText *text, double value_si, PlumbQuantity quantity, PlumbUnits units)
{
    if (quantity == PLUMB_Q_STATURE) {
        plumb_text_quantity(text, value_si, quantity, units);
        return;
    }
    figure(text, value_si, quantity, units, SAID);
}
