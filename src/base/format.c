/* SPDX-License-Identifier: MIT */
/* Bounded text, and numbers with a fixed count of decimals, exact to the last digit. */
#include <plumbar/format.h>

#include "base/bignum.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { QUOTED_MAX = 40, DIGITS_MAX = 344 };

static bool is_continuation(char c)
{
    return ((unsigned char)c & 0xC0u) == 0x80u;
}

/* Drops an unfinished UTF-8 sequence from the end. */
static void drop_partial(PlumbText *text)
{
    size_t lead = text->length;
    size_t tail = 0;
    while (lead > 0 && tail < 4 && is_continuation(text->data[lead - 1])) {
        lead--;
        tail++;
    }
    if (lead == 0) {
        return;
    }
    const unsigned char first = (unsigned char)text->data[lead - 1];
    const size_t want = first >= 0xF0u ? 3 : first >= 0xE0u ? 2 : first >= 0xC0u ? 1 : 0;
    if (tail < want) {
        text->length = lead - 1;
        text->data[text->length] = '\0';
    }
}

PlumbText plumb_text_begin(char *buffer, size_t size)
{
    assert(size >= 1);
    buffer[0] = '\0';
    return (PlumbText){.data = buffer, .size = size};
}

void plumb_text_char(PlumbText *text, char c)
{
    if (text->cut) {
        return;
    }
    if (text->length + 1 >= text->size) {
        text->cut = true;
        if (is_continuation(c)) {
            drop_partial(text);
        }
        return;
    }
    text->data[text->length++] = c;
    text->data[text->length] = '\0';
}

void plumb_text_bytes(PlumbText *text, const char *bytes, size_t length)
{
    for (size_t i = 0; i < length && bytes[i] != '\0'; i++) {
        plumb_text_char(text, bytes[i]);
    }
}

void plumb_text_string(PlumbText *text, const char *string)
{
    plumb_text_bytes(text, string, strlen(string));
}

void plumb_text_quoted(PlumbText *text, const char *bytes, size_t length)
{
    size_t shown = length;
    if (shown > QUOTED_MAX) {
        shown = QUOTED_MAX;
        while (shown > 0 && is_continuation(bytes[shown])) {
            shown--;
        }
    }
    plumb_text_char(text, '"');
    for (size_t i = 0; i < shown; i++) {
        const unsigned char c = (unsigned char)bytes[i];
        plumb_text_char(text, c < 0x20u || c == 0x7Fu ? '?' : bytes[i]);
    }
    plumb_text_string(text, shown < length ? "...\"" : "\"");
}

void plumb_text_integer(PlumbText *text, long long value)
{
    char digits[24];
    int count = 0;
    unsigned long long rest = (unsigned long long)value;
    if (value < 0) {
        plumb_text_char(text, '-');
        rest = 0 - rest;
    }
    do {
        digits[count++] = (char)('0' + rest % 10);
        rest /= 10;
    } while (rest > 0);
    while (count > 0) {
        plumb_text_char(text, digits[--count]);
    }
}

/* magnitude * 10^decimals rounded half up to a whole number. A double is m 2^e with m whole, so
 * m 10^decimals is exact, and the bit below the point of that number shifted by e decides. */
static PlumbBig scaled_and_rounded(double magnitude, int decimals)
{
    int exponent = 0;
    const double fraction = frexp(magnitude, &exponent);
    exponent -= 53;
    PlumbBig big = plumb_big((uint64_t)ldexp(fraction, 53));
    plumb_big_times_ten_to(&big, decimals);
    if (exponent >= 0) {
        plumb_big_shift_left(&big, exponent);
        return big;
    }
    const bool up = plumb_big_bit(&big, -exponent - 1);
    plumb_big_shift_right(&big, -exponent);
    if (up && big.used == 0) {
        return plumb_big(1);
    }
    plumb_big_multiply_add(&big, 1, up ? 1 : 0);
    return big;
}

/* Writes the digits of a whole number, last one first; returns how many. */
static int digits_backwards(PlumbBig big, char *digits)
{
    int count = 0;
    while (big.used > 0) {
        digits[count++] = (char)('0' + plumb_big_divide(&big, 10));
    }
    return count;
}

static void append_fixed(PlumbText *text, double value, int decimals, bool plus)
{
    if (isnan(value)) {
        plumb_text_string(text, "nan");
        return;
    }
    if (isinf(value)) {
        plumb_text_string(text, value < 0 ? "-inf" : plus ? "+inf" : "inf");
        return;
    }
    const int places = decimals < 0 ? 0 : decimals > 15 ? 15 : decimals;
    char digits[DIGITS_MAX];
    int count = digits_backwards(scaled_and_rounded(fabs(value), places), digits);
    if (count > 0 && value < 0) {
        plumb_text_char(text, '-');
    } else if (count > 0 && plus) {
        plumb_text_char(text, '+');
    }
    while (count <= places) {
        digits[count++] = '0';
    }
    while (count > 0) {
        if (count == places) {
            plumb_text_char(text, '.');
        }
        plumb_text_char(text, digits[--count]);
    }
}

void plumb_text_fixed(PlumbText *text, double value, int decimals)
{
    append_fixed(text, value, decimals, false);
}

void plumb_text_signed(PlumbText *text, double value, int decimals)
{
    append_fixed(text, value, decimals, true);
}
