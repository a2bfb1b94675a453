/* SPDX-License-Identifier: MIT */
/* Reads decimal numbers into the nearest double, whatever the locale says. */
#include <plumbar/quantity.h>

#include "base/bignum.h"

#include <math.h>

/* Digits beyond these only tell whether something is left over. */
enum { DIGITS_KEPT = 40, EXPONENT_MAX = 360 };

/* The number digits * 10^power, as written. */
typedef struct Decimal {
    bool negative;
    bool more; /* non-zero digits were dropped */
    int kept;
    int power;
    PlumbBig digits;
} Decimal;

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Takes one digit; after_point moves the power. */
static void take_digit(Decimal *decimal, char c, bool after_point)
{
    if (decimal->kept == 0 && c == '0') {
        decimal->power -= after_point ? 1 : 0;
        return;
    }
    if (decimal->kept < DIGITS_KEPT) {
        if (decimal->digits.used == 0) {
            decimal->digits = plumb_big((uint64_t)(c - '0'));
        } else {
            plumb_big_multiply_add(&decimal->digits, 10, (uint32_t)(c - '0'));
        }
        decimal->kept++;
        decimal->power -= after_point ? 1 : 0;
        return;
    }
    decimal->more = decimal->more || c != '0';
    decimal->power += after_point ? 0 : 1;
}

/* Reads [e|E][+|-]digits at text[*at]; leaves *at where no exponent stands. */
static void read_exponent(const char *text, size_t length, size_t *at, int *power)
{
    size_t i = *at;
    if (i >= length || (text[i] != 'e' && text[i] != 'E')) {
        return;
    }
    i++;
    const bool negative = i < length && text[i] == '-';
    if (i < length && (text[i] == '-' || text[i] == '+')) {
        i++;
    }
    if (i >= length || !is_digit(text[i])) {
        return;
    }
    int value = 0;
    for (; i < length && is_digit(text[i]); i++) {
        value = value < 10000 ? value * 10 + (text[i] - '0') : value;
    }
    *power += negative ? -value : value;
    *at = i;
}

/* Scans sign, digits, point and exponent; returns how many bytes the number takes, 0 for none. */
static size_t scan(const char *text, size_t length, Decimal *decimal)
{
    size_t at = 0;
    bool any = false;
    *decimal = (Decimal){.negative = length > 0 && text[0] == '-'};
    if (length > 0 && (text[0] == '-' || text[0] == '+')) {
        at++;
    }
    for (; at < length && is_digit(text[at]); at++) {
        take_digit(decimal, text[at], false);
        any = true;
    }
    if (at < length && text[at] == '.' && (any || (at + 1 < length && is_digit(text[at + 1])))) {
        for (at++; at < length && is_digit(text[at]); at++) {
            take_digit(decimal, text[at], true);
            any = true;
        }
    }
    if (!any) {
        return 0;
    }
    read_exponent(text, length, &at, &decimal->power);
    return at;
}

/* The double nearest to above / below, ties to even: the quotient's first 53 bits by long division
 * (fewer where it is subnormal), then one to round by, then whether anything is left. */
static double nearest_quotient(PlumbBig above, PlumbBig below, bool more)
{
    int exponent = plumb_big_bit_count(&above) - plumb_big_bit_count(&below);
    if (exponent > 0) {
        plumb_big_shift_left(&below, exponent);
    } else {
        plumb_big_shift_left(&above, -exponent);
    }
    if (plumb_big_compare(&above, &below) < 0) {
        plumb_big_shift_left(&above, 1);
        exponent--;
    }
    const int bits = exponent >= -1022 ? 53 : 53 + 1022 + exponent;
    if (bits < 0) {
        return 0;
    }
    uint64_t quotient = 0;
    for (int i = 0; i <= bits; i++) {
        quotient <<= 1;
        if (plumb_big_compare(&above, &below) >= 0) {
            plumb_big_subtract(&above, &below);
            quotient |= 1u;
        }
        plumb_big_shift_left(&above, 1);
    }
    const bool half = (quotient & 1u) != 0;
    const bool left = above.used > 0 || more;
    quotient >>= 1;
    if (half && (left || (quotient & 1u) != 0)) {
        quotient++;
    }
    return ldexp((double)quotient, exponent + 1 - bits);
}

static double decimal_value(const Decimal *decimal)
{
    if (decimal->digits.used == 0 || decimal->power < -EXPONENT_MAX - DIGITS_KEPT) {
        return 0;
    }
    if (decimal->power > EXPONENT_MAX) {
        return HUGE_VAL;
    }
    PlumbBig above = decimal->digits;
    PlumbBig below = plumb_big(1);
    if (decimal->power >= 0) {
        plumb_big_times_ten_to(&above, decimal->power);
    } else {
        plumb_big_times_ten_to(&below, -decimal->power);
    }
    return nearest_quotient(above, below, decimal->more);
}

size_t plumb_number_scan(const char *text, size_t length, double *value)
{
    Decimal decimal;
    const size_t taken = scan(text, length, &decimal);
    if (taken == 0) {
        return 0;
    }
    const double magnitude = decimal_value(&decimal);
    if (!isfinite(magnitude)) {
        return 0;
    }
    *value = decimal.negative && magnitude > 0 ? -magnitude : magnitude;
    return taken;
}

bool plumb_number_read(const char *text, size_t length, double *value)
{
    double got = 0;
    if (length == 0 || plumb_number_scan(text, length, &got) != length) {
        return false;
    }
    *value = got;
    return true;
}
