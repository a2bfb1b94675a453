/* SPDX-License-Identifier: MIT */
/* Quantities as people write them: what reads, to which SI value, and what is refused and where. */
#include "support.h"

#include <plumbar/quantity.h>

#include <string.h>

#define DEGREE (3.14159265358979323846 / 180)

static const struct {
    const char *text;
    PlumbQuantity quantity;
    double want;
} good[] = {
    {"178 cm", PLUMB_Q_STATURE, 1.78},
    {"178cm", PLUMB_Q_STATURE, 1.78},
    {"  178  cm  ", PLUMB_Q_STATURE, 1.78},
    {"178 CM", PLUMB_Q_STATURE, 1.78},
    {"1.78 m", PLUMB_Q_STATURE, 1.78},
    {"1780 mm", PLUMB_Q_STATURE, 1.78},
    {"+3 cm", PLUMB_Q_LENGTH, 0.03},
    {"-3 cm", PLUMB_Q_LENGTH, -0.03},
    {"−3 cm", PLUMB_Q_LENGTH, -0.03},
    {".5 m", PLUMB_Q_LENGTH, 0.5},
    {"5. cm", PLUMB_Q_LENGTH, 0.05},
    {"4.4e1 cm", PLUMB_Q_LENGTH, 0.44},
    {"440E-1 cm", PLUMB_Q_LENGTH, 0.44},
    {"0 cm", PLUMB_Q_LENGTH, 0},
    {"17 in", PLUMB_Q_LENGTH, 0.4318},
    {"17 inch", PLUMB_Q_LENGTH, 0.4318},
    {"17 Inches", PLUMB_Q_LENGTH, 0.4318},
    {"17\"", PLUMB_Q_LENGTH, 0.4318},
    {"17''", PLUMB_Q_LENGTH, 0.4318},
    {"17″", PLUMB_Q_LENGTH, 0.4318},
    {"5 ft", PLUMB_Q_LENGTH, 1.524},
    {"5 feet", PLUMB_Q_LENGTH, 1.524},
    {"1 foot", PLUMB_Q_LENGTH, 0.3048},
    {"5'", PLUMB_Q_LENGTH, 1.524},
    {"5.5 ft", PLUMB_Q_LENGTH, 1.6764},
    {"5 ft 10 in", PLUMB_Q_STATURE, 1.778},
    {"5ft10in", PLUMB_Q_STATURE, 1.778},
    {"5ft10", PLUMB_Q_STATURE, 1.778},
    {"5 FT 10.5 IN", PLUMB_Q_STATURE, 1.7907},
    {"5'10\"", PLUMB_Q_STATURE, 1.778},
    {"5' 10\"", PLUMB_Q_STATURE, 1.778},
    {"5'10", PLUMB_Q_STATURE, 1.778},
    {"5′10″", PLUMB_Q_STATURE, 1.778},
    {"5’10”", PLUMB_Q_STATURE, 1.778},
    {"5 ft 0 in", PLUMB_Q_STATURE, 1.524},
    {"-1 ft 6 in", PLUMB_Q_LENGTH, -0.4572},
    {"-0 ft 6 in", PLUMB_Q_LENGTH, -0.1524},
    {"19 mm", PLUMB_Q_SMALL, 0.019},
    {"0.75 in", PLUMB_Q_SMALL, 0.01905},
    {"35 deg", PLUMB_Q_ANGLE, 35 * DEGREE},
    {"35deg", PLUMB_Q_ANGLE, 35 * DEGREE},
    {"35 degrees", PLUMB_Q_ANGLE, 35 * DEGREE},
    {"1 degree", PLUMB_Q_ANGLE, DEGREE},
    {"35°", PLUMB_Q_ANGLE, 35 * DEGREE},
    {"35 °", PLUMB_Q_ANGLE, 35 * DEGREE},
    {"0.5 rad", PLUMB_Q_ANGLE, 0.5},
    {"200 kg", PLUMB_Q_MASS, 200},
    {"440 lb", PLUMB_Q_MASS, 199.5806428},
    {"440lbs", PLUMB_Q_MASS, 199.5806428},
    {"440 pounds", PLUMB_Q_MASS, 199.5806428},
    {"1 pound", PLUMB_Q_MASS, 0.45359237},
    {"200 N m", PLUMB_Q_MOMENT, 200},
    {"200 Nm", PLUMB_Q_MOMENT, 200},
    {"200 N·m", PLUMB_Q_MOMENT, 200},
    {"100 ft lb", PLUMB_Q_MOMENT, 135.58179483314004},
    {"3.8 s", PLUMB_Q_TIME, 3.8},
    {"500 J", PLUMB_Q_ENERGY, 500},
    {"0.4", PLUMB_Q_FRACTION, 0.4},
    {"40%", PLUMB_Q_FRACTION, 0.4},
    {"5 %", PLUMB_Q_SHARE, 0.05},
    {"0.05", PLUMB_Q_SHARE, 0.05},
    {"1.5", PLUMB_Q_NUMBER, 1.5},
    {"\t1.5 ", PLUMB_Q_NUMBER, 1.5},
};

static const struct {
    const char *text;
    PlumbQuantity quantity;
    int column;
    const char *says;
} bad[] = {
    {"", PLUMB_Q_LENGTH, 1, "there is no value"},
    {"   ", PLUMB_Q_LENGTH, 1, "there is no value"},
    {"44", PLUMB_Q_LENGTH, 1, "\"44\": the unit is missing; a length is allowed"},
    {"44", PLUMB_Q_LENGTH, 1, "as 44 cm or 17.3 in"},
    {"35", PLUMB_Q_ANGLE, 1, "an angle is allowed, unit deg or rad, as 35 deg"},
    {"100", PLUMB_Q_MASS, 1, "the unit is missing; a mass is allowed"},
    {"3", PLUMB_Q_TIME, 1, "the unit is missing; a time is allowed"},
    {"5'10 cm", PLUMB_Q_LENGTH, 6, "only inches may follow the feet"},
    {"abc", PLUMB_Q_LENGTH, 1, "not a number with a unit"},
    {"cm 44", PLUMB_Q_LENGTH, 1, "not a number with a unit"},
    {"nan cm", PLUMB_Q_LENGTH, 1, "not a number with a unit"},
    {"inf", PLUMB_Q_NUMBER, 1, "not a number with a unit"},
    {"--3 cm", PLUMB_Q_LENGTH, 1, "not a number with a unit"},
    {"−-3 cm", PLUMB_Q_LENGTH, 1, "not a number with a unit"},
    {"- 3 cm", PLUMB_Q_LENGTH, 1, "not a number with a unit"},
    {".", PLUMB_Q_NUMBER, 1, "not a number with a unit"},
    {"1e999 cm", PLUMB_Q_LENGTH, 1, "not a number with a unit"},
    {"1,5 cm", PLUMB_Q_LENGTH, 2, "write 1.5 with a point"},
    {"-12,25 cm", PLUMB_Q_LENGTH, 4, "write -12.25 with a point"},
    {"44 kg", PLUMB_Q_LENGTH, 4, "kg makes it a mass"},
    {"44 deg", PLUMB_Q_LENGTH, 4, "deg makes it an angle"},
    {"44°", PLUMB_Q_LENGTH, 3, "° makes it an angle"},
    {"44 cm", PLUMB_Q_ANGLE, 4, "cm makes it a length"},
    {"44 cm", PLUMB_Q_MASS, 4, "cm makes it a length"},
    {"40%", PLUMB_Q_NUMBER, 3, "% makes it a ratio"},
    {"0.4 cm", PLUMB_Q_FRACTION, 5, "cm makes it a length"},
    {"44 cmm", PLUMB_Q_LENGTH, 4, "unknown unit \"cmm\", did you mean cm?"},
    {"35 degs", PLUMB_Q_ANGLE, 4, "did you mean deg?"},
    {"44 stones", PLUMB_Q_MASS, 4, "unknown unit \"stones\""},
    {"44 parsecs of the best kind there is", PLUMB_Q_LENGTH, 4, "unknown unit"},
    {"44 cm 3", PLUMB_Q_LENGTH, 7, "nothing may follow the unit"},
    {"44 cm - 3 cm", PLUMB_Q_LENGTH, 7, "nothing may follow the unit"},
    {"44 5", PLUMB_Q_LENGTH, 4, "unknown unit"},
    {"5 ft 12 in", PLUMB_Q_LENGTH, 6, "inches beside feet are below 12"},
    {"5.5 ft 3 in", PLUMB_Q_LENGTH, 1, "feet with inches are a whole number"},
    {"5 ft -3 in", PLUMB_Q_LENGTH, 6, "only inches may follow the feet"},
    {"5 ft 3 in 2", PLUMB_Q_LENGTH, 8, "only inches may follow the feet"},
    {"5 ft 3 ft", PLUMB_Q_LENGTH, 8, "only inches may follow the feet"},
    {"±44 cm", PLUMB_Q_LENGTH, 1, "not a number with a unit"},
};

static void quantity__good_ones_read(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        PlumbError error = {.status = PLUMB_OK};
        double got = (double)NAN;
        if (plumb_quantity_read(good[i].text, strlen(good[i].text), good[i].quantity, &got,
                                &error) != PLUMB_OK) {
            fail_msg("%s: %s", good[i].text, error.message);
        }
        /* Two roundings of a double of this size. */
        assert_near(got, good[i].want, 4e-16 * fmax(1, fabs(good[i].want)));
    }
}

static void quantity__bad_ones_are_refused(void **unused)
{
    (void)unused;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        PlumbError error = {.status = PLUMB_OK};
        double got = 7;
        assert_int_equal(
            plumb_quantity_read(bad[i].text, strlen(bad[i].text), bad[i].quantity, &got, &error),
            PLUMB_BAD_INPUT);
        assert_near(got, 7, 0);
        if (error.column != bad[i].column || strstr(error.message, bad[i].says) == NULL) {
            fail_msg("%s: column %d: %s", bad[i].text, error.column, error.message);
        }
        assert_int_equal(
            plumb_quantity_read(bad[i].text, strlen(bad[i].text), bad[i].quantity, &got, NULL),
            PLUMB_BAD_INPUT);
    }
}

/* The text need not be terminated, and a NUL within it is no end. */
static void quantity__reads_length_bytes(void **unused)
{
    (void)unused;
    double got = 0;
    assert_int_equal(plumb_quantity_read("44 cmXYZ", 5, PLUMB_Q_LENGTH, &got, NULL), PLUMB_OK);
    assert_near(got, 0.44, 0);
    assert_int_equal(plumb_quantity_read("44 cm\0 3", 8, PLUMB_Q_LENGTH, &got, NULL),
                     PLUMB_BAD_INPUT);
    assert_int_equal(plumb_quantity_read("44\0cm", 5, PLUMB_Q_LENGTH, &got, NULL), PLUMB_BAD_INPUT);
}

static void quantity__no_byte_string_upsets_it(void **unused)
{
    (void)unused;
    static const char alphabet[] = "0123456789+-.,eE '\"cmfting°%\xE2\x88\x92\0kgdr";
    uint64_t state = 99;
    for (int i = 0; i < 200000; i++) {
        char text[12];
        size_t length = 0;
        for (; length < sizeof text; length++) {
            state = state * 6364136223846793005u + 1442695040888963407u;
            text[length] = alphabet[(state >> 33) % (sizeof alphabet - 1)];
        }
        double got = 0;
        const PlumbQuantity quantity = (PlumbQuantity)(i % PLUMB_Q_WORD);
        if (plumb_quantity_read(text, (size_t)(state >> 40) % (length + 1), quantity, &got, NULL) ==
            PLUMB_OK) {
            assert_true(isfinite(got));
        }
    }
}

static void number__plain_decimals_only(void **unused)
{
    (void)unused;
    static const char *const wrong[] = {"",    " 1",  "1 ",  "1,5", "0x10", "1e",   "e5",   "+",
                                        "1-2", "nan", "inf", "1f",  "--1",  "1.5.", "1e400"};
    static const struct {
        const char *text;
        double want;
    } right[] = {{"1", 1},
                 {"-1.5", -1.5},
                 {"+.25", 0.25},
                 {"1e3", 1000},
                 {"1E-3", 1e-3},
                 {"007", 7},
                 {"1e-400", 0},
                 {"0e999", 0},
                 {"0.1", 0.1},
                 {"9007199254740993", 9007199254740992.0},
                 {"0.30000000000000000000000000000000000000000001", 0.3},
                 {"2.2250738585072011e-308", 2.2250738585072011e-308},
                 {"4.9406564584124654e-324", 4.9406564584124654e-324}};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        double got = 7;
        assert_false(plumb_number_read(wrong[i], strlen(wrong[i]), &got));
        assert_near(got, 7, 0);
    }
    for (size_t i = 0; i < sizeof right / sizeof right[0]; i++) {
        double got = 7;
        assert_true(plumb_number_read(right[i].text, strlen(right[i].text), &got));
        assert_near(got, right[i].want, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quantity__good_ones_read),
        cmocka_unit_test(quantity__bad_ones_are_refused),
        cmocka_unit_test(quantity__reads_length_bytes),
        cmocka_unit_test(quantity__no_byte_string_upsets_it),
        cmocka_unit_test(number__plain_decimals_only),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
