/* SPDX-License-Identifier: MIT */
/* Reads quantities as people write them. */
#include <plumbar/quantity.h>

#include "base/words.h"

#include <math.h>
#include <string.h>

enum { UNIT_SIZE = 24 };

/* What a unit measures; quantities of one dimension take the same units. */
typedef enum Dimension { LENGTH, ANGLE, MASS, MOMENT, TIME, ENERGY, RATIO, COUNT } Dimension;

/* How a dimension is spoken of in messages; plain: a number without a unit is allowed. */
static const struct {
    const char *name;
    const char *units;
    const char *example;
    bool plain;
} dimensions[] = {
    [LENGTH] = {"a length", "m, cm, mm, in or ft", "44 cm or 17.3 in", false},
    [ANGLE] = {"an angle", "deg or rad", "35 deg", false},
    [MASS] = {"a mass", "kg or lb", "100 kg or 220 lb", false},
    [MOMENT] = {"a moment", "N m or ft lb", "200 N m", false},
    [TIME] = {"a time", "s", "2.5 s", false},
    [ENERGY] = {"an energy", "J or ft lb", "500 J", false},
    [RATIO] = {"a ratio", "% or none", "0.4 or 40%", true},
    [COUNT] = {"a plain number", "none", "1.5", true},
};

static const Dimension dimension_of[PLUMB_QUANTITY_COUNT] = {
    [PLUMB_Q_LENGTH] = LENGTH,  [PLUMB_Q_SMALL] = LENGTH, [PLUMB_Q_STATURE] = LENGTH,
    [PLUMB_Q_ANGLE] = ANGLE,    [PLUMB_Q_MASS] = MASS,    [PLUMB_Q_MOMENT] = MOMENT,
    [PLUMB_Q_FRACTION] = RATIO, [PLUMB_Q_SHARE] = RATIO,  [PLUMB_Q_TIME] = TIME,
    [PLUMB_Q_ENERGY] = ENERGY,  [PLUMB_Q_NUMBER] = COUNT, [PLUMB_Q_WORD] = COUNT,
};

#define FOOT_POUND (0.3048 * 0.45359237 * 9.80665)
#define DEGREE (3.14159265358979323846 / 180)

/* SI = number * times / per: dividing by a whole number rounds once where 0.01 would round twice.
 */
typedef struct Unit {
    const char *word;
    Dimension dimension;
    double times;
    double per;
} Unit;

static const Unit units[] = {
    {"m", LENGTH, 1, 1},
    {"cm", LENGTH, 1, 100},
    {"mm", LENGTH, 1, 1000},
    {"in", LENGTH, 0.0254, 1},
    {"inch", LENGTH, 0.0254, 1},
    {"inches", LENGTH, 0.0254, 1},
    {"\"", LENGTH, 0.0254, 1},
    {"''", LENGTH, 0.0254, 1},
    {"″", LENGTH, 0.0254, 1},
    {"”", LENGTH, 0.0254, 1},
    {"ft", LENGTH, 0.3048, 1},
    {"feet", LENGTH, 0.3048, 1},
    {"foot", LENGTH, 0.3048, 1},
    {"'", LENGTH, 0.3048, 1},
    {"′", LENGTH, 0.3048, 1},
    {"’", LENGTH, 0.3048, 1},
    {"deg", ANGLE, DEGREE, 1},
    {"degree", ANGLE, DEGREE, 1},
    {"degrees", ANGLE, DEGREE, 1},
    {"°", ANGLE, DEGREE, 1},
    {"rad", ANGLE, 1, 1},
    {"kg", MASS, 1, 1},
    {"lb", MASS, 0.45359237, 1},
    {"lbs", MASS, 0.45359237, 1},
    {"pound", MASS, 0.45359237, 1},
    {"pounds", MASS, 0.45359237, 1},
    {"n m", MOMENT, 1, 1},
    {"nm", MOMENT, 1, 1},
    {"ft lb", MOMENT, FOOT_POUND, 1},
    {"s", TIME, 1, 1},
    {"j", ENERGY, 1, 1},
    {"ft lb", ENERGY, FOOT_POUND, 1},
    {"%", RATIO, 1, 100},
};
enum { UNIT_COUNT = sizeof units / sizeof units[0], INCH = 3, FOOT = 10, FOOT_END = 16 };

/* A text being read. */
typedef struct Reading {
    const char *text;
    size_t length;
    PlumbQuantity quantity;
    PlumbError *error;
} Reading;

/* Some bytes of the text: number or unit. */
typedef struct Span {
    size_t start;
    size_t length;
} Span;

static bool is_space(char c)
{
    return c == ' ' || c == '\t';
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Fails at byte `at`: "<text>": <what>, and what is allowed. */
static PlumbStatus refuse(const Reading *reading, size_t at, const char *what)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    const Dimension dimension = dimension_of[reading->quantity];
    plumb_text_quoted(&text, reading->text, reading->length);
    plumb_text_string(&text, ": ");
    plumb_text_string(&text, what);
    plumb_text_string(&text, "; ");
    plumb_text_string(&text, dimensions[dimension].name);
    plumb_text_string(&text, " is allowed, unit ");
    plumb_text_string(&text, dimensions[dimension].units);
    plumb_text_string(&text, ", as ");
    plumb_text_string(&text, dimensions[dimension].example);
    plumb_error_set(reading->error, PLUMB_BAD_INPUT, "", message);
    if (reading->error != NULL) {
        int column = 1;
        for (size_t i = 0; i < at && i < reading->length; i++) {
            column += ((unsigned char)reading->text[i] & 0xC0u) != 0x80u ? 1 : 0;
        }
        reading->error->column = column;
    }
    return PLUMB_BAD_INPUT;
}

/* A decimal comma: says the number with a point. */
static PlumbStatus refuse_comma(const Reading *reading, Span number)
{
    char what[96];
    PlumbText text = plumb_text_begin(what, sizeof what);
    size_t end = number.start + number.length + 1;
    plumb_text_string(&text, "write ");
    plumb_text_bytes(&text, reading->text + number.start, number.length);
    plumb_text_char(&text, '.');
    for (; end < reading->length && is_digit(reading->text[end]); end++) {
        plumb_text_char(&text, reading->text[end]);
    }
    plumb_text_string(&text, " with a point");
    return refuse(reading, number.start + number.length, what);
}

static Span without_spaces(const Reading *reading, Span span)
{
    while (span.length > 0 && is_space(reading->text[span.start])) {
        span.start++;
        span.length--;
    }
    while (span.length > 0 && is_space(reading->text[span.start + span.length - 1])) {
        span.length--;
    }
    return span;
}

/* The unit's text runs from `at` to the next digit or sign. */
static Span unit_span(const Reading *reading, size_t at)
{
    size_t end = at;
    while (end < reading->length && strchr("0123456789+-.", reading->text[end]) == NULL) {
        end++;
    }
    return without_spaces(reading, (Span){at, end - at});
}

/* The span in small letters with single spaces, "·" and "*" as a space; false where too long. */
static bool unit_word(const Reading *reading, Span span, char word[UNIT_SIZE])
{
    const char *const from = reading->text + span.start;
    size_t count = 0;
    for (size_t i = 0; i < span.length; i++) {
        char c = from[i];
        if (c >= 'A' && c <= 'Z') {
            c = (char)(c - 'A' + 'a');
        } else if (c == '*' || is_space(c)) {
            c = ' ';
        } else if (i + 1 < span.length && memcmp(from + i, "·", 2) == 0) {
            c = ' ';
            i++;
        }
        if (c == ' ' && count > 0 && word[count - 1] == ' ') {
            continue;
        }
        if (c == '\0' || count + 1 >= UNIT_SIZE) {
            return false;
        }
        word[count++] = c;
    }
    word[count] = '\0';
    return true;
}

static const Unit *unit_find(const char *word, Dimension dimension)
{
    for (size_t i = 0; i < UNIT_COUNT; i++) {
        if (units[i].dimension == dimension && strcmp(units[i].word, word) == 0) {
            return &units[i];
        }
    }
    return NULL;
}

/* The unit is none of the quantity's: of another kind, misspelt, or unknown. */
static PlumbStatus refuse_unit(const Reading *reading, Span span, const char *word)
{
    const Dimension dimension = dimension_of[reading->quantity];
    char what[160];
    PlumbText text = plumb_text_begin(what, sizeof what);
    PlumbNearest nearest = plumb_nearest_begin(word, strlen(word));
    const Unit *other = NULL;
    for (size_t i = 0; i < UNIT_COUNT; i++) {
        if (strcmp(units[i].word, word) == 0) {
            other = &units[i];
        } else if (units[i].dimension == dimension && units[i].word[1] != '\0') {
            plumb_nearest_try(&nearest, units[i].word);
        }
    }
    if (other != NULL) {
        plumb_text_bytes(&text, reading->text + span.start, span.length);
        plumb_text_string(&text, " makes it ");
        plumb_text_string(&text, dimensions[other->dimension].name);
    } else {
        plumb_text_string(&text, "unknown unit ");
        plumb_text_quoted(&text, reading->text + span.start, span.length);
        if (plumb_nearest_word(&nearest) != NULL) {
            plumb_text_string(&text, ", did you mean ");
            plumb_text_string(&text, plumb_nearest_word(&nearest));
            plumb_text_string(&text, "?");
        }
    }
    return refuse(reading, span.start, what);
}

/* Inches after feet: "10 in", "10", at byte `at`. Adds them to *value_m, a whole count of feet. */
static PlumbStatus read_inches(const Reading *reading, size_t at, double feet, bool negative,
                               double *value_m)
{
    double inches = 0;
    const size_t taken = plumb_number_scan(reading->text + at, reading->length - at, &inches);
    const Span span = unit_span(reading, at + taken);
    char word[UNIT_SIZE];
    if (taken == 0 || !is_digit(reading->text[at])) {
        return refuse(reading, at, "only inches may follow the feet");
    }
    if (!unit_word(reading, span, word)) {
        return refuse(reading, span.start, "only inches may follow the feet");
    }
    const Unit *const unit = span.length == 0 ? &units[INCH] : unit_find(word, LENGTH);
    if (unit == NULL || unit < &units[INCH] || unit >= &units[FOOT] ||
        span.start + span.length != reading->length) {
        return refuse(reading, span.start, "only inches may follow the feet");
    }
    if (inches >= 12) {
        return refuse(reading, at, "inches beside feet are below 12");
    }
    if (feet != floor(feet)) {
        return refuse(reading, 0, "feet with inches are a whole number");
    }
    const double sum = (fabs(feet) * 12 + inches) * 0.0254;
    *value_m = negative ? -sum : sum;
    return PLUMB_OK;
}

/* What follows the number, from byte `at`: a unit, none, or feet and inches. */
static PlumbStatus read_unit(const Reading *reading, size_t at, double number, bool negative,
                             double *value_si)
{
    const Dimension dimension = dimension_of[reading->quantity];
    const Span span = unit_span(reading, at);
    char word[UNIT_SIZE];
    size_t rest = span.start + span.length;
    while (rest < reading->length && is_space(reading->text[rest])) {
        rest++;
    }
    if (!unit_word(reading, span, word)) {
        return refuse(reading, span.start, "unknown unit");
    }
    if (span.length == 0 && rest == reading->length) {
        if (!dimensions[dimension].plain) {
            return refuse(reading, 0, "the unit is missing");
        }
        *value_si = number;
        return PLUMB_OK;
    }
    const Unit *const unit = unit_find(word, dimension);
    if (unit == NULL) {
        return refuse_unit(reading, span, word);
    }
    if (rest < reading->length) {
        if (unit < &units[FOOT] || unit >= &units[FOOT_END]) {
            return refuse(reading, rest, "nothing may follow the unit");
        }
        return read_inches(reading, rest, number, negative, value_si);
    }
    *value_si = number * unit->times / unit->per;
    return PLUMB_OK;
}

PlumbStatus plumb_quantity_read(const char *text, size_t length, PlumbQuantity quantity,
                                double *value_si, PlumbError *error)
{
    Reading reading = {text, length, quantity, error};
    const Span all = without_spaces(&reading, (Span){0, length});
    double number = 0;
    double value = 0;
    reading.text = text + all.start;
    reading.length = all.length;
    if (all.length == 0) {
        return refuse(&reading, 0, "there is no value");
    }
    /* A typographic minus counts as one. */
    const bool long_minus = all.length > 3 && memcmp(reading.text, "\xE2\x88\x92", 3) == 0;
    const size_t skip = long_minus ? 3 : 0;
    const size_t taken = plumb_number_scan(reading.text + skip, all.length - skip, &number);
    if (taken == 0 || (long_minus && !is_digit(reading.text[skip]) && reading.text[skip] != '.')) {
        return refuse(&reading, 0, "not a number with a unit");
    }
    const Span span = {0, skip + taken};
    if (span.length < reading.length && reading.text[span.length] == ',') {
        return refuse_comma(&reading, span);
    }
    const bool negative = long_minus || reading.text[0] == '-';
    number = long_minus ? -number : number;
    const PlumbStatus status = read_unit(&reading, span.length, number, negative, &value);
    if (status != PLUMB_OK) {
        return status;
    }
    if (!isfinite(value)) {
        return refuse(&reading, 0, "the number is too great");
    }
    *value_si = value;
    return PLUMB_OK;
}
