/* SPDX-License-Identifier: MIT */
/* Bounded text, fixed-point numbers against stdio, quantities in words, statuses and errors. */
#include "support.h"

#include <plumbar/format.h>
#include <plumbar/quantity.h>
#include <plumbar/status.h>

#include <stdlib.h>
#include <string.h>

static uint64_t random_bits(uint64_t *state)
{
    *state = *state * 6364136223846793005u + 1442695040888963407u;
    uint64_t x = *state;
    x ^= x >> 33;
    x *= 0xff51afd7ed558ccdu;
    return x ^ x >> 29;
}

static void text__cuts_at_a_character_and_says_so(void **unused)
{
    (void)unused;
    char buffer[6];
    PlumbText text = plumb_text_begin(buffer, sizeof buffer);
    plumb_text_string(&text, "ab±±");
    assert_string_equal(buffer, "ab±");
    assert_true(text.cut);
    plumb_text_string(&text, "c");
    assert_string_equal(buffer, "ab±");
    PlumbText exact = plumb_text_begin(buffer, sizeof buffer);
    plumb_text_string(&exact, "12345");
    assert_string_equal(buffer, "12345");
    assert_false(exact.cut);
    char one[1];
    PlumbText none = plumb_text_begin(one, sizeof one);
    plumb_text_char(&none, 'x');
    assert_string_equal(one, "");
    assert_true(none.cut);
}

static void text__quoted_shortens_and_hides_controls(void **unused)
{
    (void)unused;
    char buffer[80];
    PlumbText text = plumb_text_begin(buffer, sizeof buffer);
    plumb_text_quoted(&text, "a\tb\x7F", 4);
    assert_string_equal(buffer, "\"a?b?\"");
    text = plumb_text_begin(buffer, sizeof buffer);
    plumb_text_quoted(&text, "123456789012345678901234567890123456789±tail", 45);
    assert_string_equal(buffer, "\"123456789012345678901234567890123456789...\"");
}

static void text__integers(void **unused)
{
    (void)unused;
    const long long values[] = {0, 7, -7, 1234567890123, INT64_MAX, INT64_MIN};
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        char got[32];
        char want[32];
        PlumbText text = plumb_text_begin(got, sizeof got);
        plumb_text_integer(&text, values[i]);
        snprintf(want, sizeof want, "%lld", values[i]);
        assert_string_equal(got, want);
    }
}

static void text__fixed_by_hand(void **unused)
{
    (void)unused;
    static const struct {
        double value;
        int decimals;
        const char *fixed;
        const char *with_sign;
    } rows[] = {
        {0, 0, "0", "0"},
        {0, 2, "0.00", "0.00"},
        {-0.0, 1, "0.0", "0.0"},
        {-0.04, 1, "0.0", "0.0"},
        {-0.06, 1, "-0.1", "-0.1"},
        {0.5, 0, "1", "+1"},
        {1.5, 0, "2", "+2"},
        {2.5, 0, "3", "+3"},
        {-2.5, 0, "-3", "-3"},
        {0.125, 2, "0.13", "+0.13"},
        {1.005, 2, "1.00", "+1.00"}, /* the double is below 1.005 */
        {2.675, 2, "2.67", "+2.67"},
        {9.995, 2, "9.99", "+9.99"},
        {9.996, 2, "10.00", "+10.00"},
        {0.999, 0, "1", "+1"},
        {1e-300, 3, "0.000", "0.000"},
        {123456789.987654321, 6, "123456789.987654", "+123456789.987654"},
        {1e22, 1, "10000000000000000000000.0", "+10000000000000000000000.0"},
        {(double)NAN, 2, "nan", "nan"},
        {(double)INFINITY, 2, "inf", "+inf"},
        {-(double)INFINITY, 2, "-inf", "-inf"},
        {1.25, -3, "1", "+1"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char got[64];
        PlumbText text = plumb_text_begin(got, sizeof got);
        plumb_text_fixed(&text, rows[i].value, rows[i].decimals);
        assert_string_equal(got, rows[i].fixed);
        text = plumb_text_begin(got, sizeof got);
        plumb_text_signed(&text, rows[i].value, rows[i].decimals);
        assert_string_equal(got, rows[i].with_sign);
    }
}

/* Whether value * 10^decimals lies exactly between two whole numbers, seen in its digits: stdio
 * prints every double exactly when asked for 1100 decimals. */
static bool is_tie(double value, int decimals)
{
    static char digits[1500];
    snprintf(digits, sizeof digits, "%.1100f", value);
    const char *const after = strchr(digits, '.') + 1 + decimals;
    return after[0] == '5' && strspn(after + 1, "0") == strlen(after + 1);
}

/* stdio rounds exact ties to even, the library away from zero; all else must agree to the digit. */
static void text__fixed_agrees_with_stdio(void **unused)
{
    (void)unused;
    uint64_t state = 11;
    int ties = 0;
    for (int i = 0; i < 200000; i++) {
        const uint64_t bits = random_bits(&state);
        const int decimals = (int)(bits % 16);
        double value = (double)(int64_t)(random_bits(&state) % 2000000) - 1e6;
        value /= (double)(1 + random_bits(&state) % 100000);
        if (i % 4 == 0) {
            value = ldexp(value, (int)(bits >> 8 & 63u) - 40);
        }
        char got[400];
        char want[400];
        PlumbText text = plumb_text_begin(got, sizeof got);
        plumb_text_fixed(&text, value, decimals);
        snprintf(want, sizeof want, "%.*f", decimals, value);
        if (want[0] == '-' && strspn(want, "-0.") == strlen(want)) {
            memmove(want, want + 1, strlen(want));
        }
        if (strcmp(got, want) != 0) {
            assert_true(is_tie(value, decimals));
            ties++;
        }
    }
    assert_true(ties < 20000);
}

static void number__reads_back_every_double(void **unused)
{
    (void)unused;
    uint64_t state = 5;
    for (int i = 0; i < 100000; i++) {
        const uint64_t bits = random_bits(&state);
        double value;
        memcpy(&value, &bits, sizeof value);
        if (!isfinite(value)) {
            continue;
        }
        char text[64];
        snprintf(text, sizeof text, i % 2 == 0 ? "%.17g" : "%.16e", value);
        double got = 0;
        assert_true(plumb_number_read(text, strlen(text), &got));
        assert_memory_equal(&got, &value, sizeof got);
    }
}

static void quantity_text__rows(void **unused)
{
    (void)unused;
    const double degree = 3.14159265358979323846 / 180;
    const struct {
        double value;
        PlumbQuantity quantity;
        const char *metric;
        const char *imperial;
        const char *difference;
    } rows[] = {
        {0.655, PLUMB_Q_LENGTH, "65.5 cm", "25.8 in", "+65.5 cm"},
        {-0.012, PLUMB_Q_LENGTH, "-1.2 cm", "-0.5 in", "-1.2 cm"},
        {0.00001, PLUMB_Q_LENGTH, "0.0 cm", "0.0 in", "0.0 cm"},
        {0.019, PLUMB_Q_SMALL, "19 mm", "0.75 in", "+19 mm"},
        {1.755, PLUMB_Q_STATURE, "175.5 cm", "5 ft 9.1 in", "+175.5 cm"},
        {1.8287, PLUMB_Q_STATURE, "182.9 cm", "6 ft 0.0 in", "+182.9 cm"},
        {26.8 * degree, PLUMB_Q_ANGLE, "26.8°", "26.8°", "+26.8°"},
        {102.5, PLUMB_Q_MASS, "102.5 kg", "226.0 lb", "+102.5 kg"},
        {311.6, PLUMB_Q_MOMENT, "312 N m", "230 ft lb", "+312 N m"},
        {0.4, PLUMB_Q_FRACTION, "0.40", "0.40", "+0.40"},
        {0.05, PLUMB_Q_SHARE, "5 %", "5 %", "+5 %"},
        {3.8, PLUMB_Q_TIME, "3.80 s", "3.80 s", "+3.80 s"},
        {517, PLUMB_Q_ENERGY, "517 J", "381 ft lb", "+517 J"},
        {1.5, PLUMB_Q_NUMBER, "1.5", "1.5", "+1.5"},
        {2, PLUMB_Q_NUMBER, "2", "2", "+2"},
        {1.23456, PLUMB_Q_NUMBER, "1.235", "1.235", "+1.235"},
        {100, PLUMB_Q_NUMBER, "100", "100", "+100"},
        {(double)NAN, PLUMB_Q_LENGTH, "nan", "nan", "nan"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char got[64];
        PlumbText text = plumb_text_begin(got, sizeof got);
        plumb_text_quantity(&text, rows[i].value, rows[i].quantity, PLUMB_METRIC);
        assert_string_equal(got, rows[i].metric);
        text = plumb_text_begin(got, sizeof got);
        plumb_text_quantity(&text, rows[i].value, rows[i].quantity, PLUMB_POUNDS_INCHES);
        assert_string_equal(got, rows[i].imperial);
        text = plumb_text_begin(got, sizeof got);
        plumb_text_difference(&text, rows[i].value, rows[i].quantity, PLUMB_METRIC);
        assert_string_equal(got, rows[i].difference);
    }
}

static void status__texts(void **unused)
{
    (void)unused;
    assert_string_equal(plumb_status_text(PLUMB_OK), "ok");
    assert_string_equal(plumb_status_text(PLUMB_TOO_LARGE), "too large");
    assert_string_equal(plumb_status_text(PLUMB_STATUS_COUNT), "unknown status");
    assert_string_equal(plumb_status_text((PlumbStatus)-1), "unknown status");
}

static void error__keeps_what_fits(void **unused)
{
    (void)unused;
    PlumbError error = {.line = 4, .column = 5};
    char longer[700];
    memset(longer, 'x', sizeof longer);
    longer[sizeof longer - 1] = '\0';
    assert_int_equal(plumb_error_set(&error, PLUMB_BAD_INPUT, "thigh", "too long"),
                     PLUMB_BAD_INPUT);
    assert_int_equal(error.status, PLUMB_BAD_INPUT);
    assert_int_equal(error.line, 0);
    assert_int_equal(error.column, 0);
    assert_string_equal(error.field, "thigh");
    assert_string_equal(error.message, "too long");
    plumb_error_set(&error, PLUMB_READ_FAILED, longer, error.message);
    assert_int_equal(strlen(error.field), PLUMB_FIELD_SIZE - 1);
    assert_string_equal(error.message, "too long");
    assert_int_equal(plumb_error_set(NULL, PLUMB_TOO_LARGE, "", ""), PLUMB_TOO_LARGE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text__cuts_at_a_character_and_says_so),
        cmocka_unit_test(text__quoted_shortens_and_hides_controls),
        cmocka_unit_test(text__integers),
        cmocka_unit_test(text__fixed_by_hand),
        cmocka_unit_test(text__fixed_agrees_with_stdio),
        cmocka_unit_test(number__reads_back_every_double),
        cmocka_unit_test(quantity_text__rows),
        cmocka_unit_test(status__texts),
        cmocka_unit_test(error__keeps_what_fits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
