/* SPDX-License-Identifier: MIT */
/* The zero-lag low-pass against GNU Octave's filtfilt (tests/data/octave_filtfilt.m made the
 * values), its gain, its cut-off, slopes, uneven times and crossings. */
#include "support.h"

#include <plumbar/filter.h>

#include "base/vec.h"

#include <stdlib.h>
#include <string.h>

enum { SAMPLES_MAX = 2048 };

static double room[2 * SAMPLES_MAX + 4 * PLUMB_FILTER_EDGE];

typedef struct Row {
    int number;
    double rate_hz;
    double cutoff_hz;
    char kind[16];
    int i;
    double x;
    double y;
} Row;

static bool read_row(FILE *file, Row *row)
{
    return fscanf(file, "%d,%lf,%lf,%15[a-z],%d,%lf,%lf\n", &row->number, &row->rate_hz,
                  &row->cutoff_hz, row->kind, &row->i, &row->x, &row->y) == 7;
}

static void hold_case(const double *x, const double *y, int count, const PlumbFilter *filter)
{
    double mine[SAMPLES_MAX];
    memcpy(mine, x, (size_t)count * sizeof *x);
    plumb_filter_run(filter, mine, count, room);
    for (int i = 0; i < count; i++) {
        assert_near(mine[i], y[i], 1e-9); /* metres, say: the sums differ in rounding only */
    }
}

static void run__equals_filtfilt(void **state)
{
    (void)state;
    FILE *const file = fopen(PLUMB_TEST_DATA "/octave_filtfilt.csv", "r");
    assert_non_null(file);
    char head[128];
    assert_non_null(fgets(head, sizeof head, file));
    double x[SAMPLES_MAX];
    double y[SAMPLES_MAX];
    PlumbFilter filter = {.b = {0.0}};
    int count = 0;
    int cases = 0;
    for (Row row; read_row(file, &row);) {
        if (strcmp(row.kind, "coefficient") == 0) {
            if (row.i == 0 && count > 0) {
                hold_case(x, y, count, &filter);
                cases++;
                count = 0;
            }
            assert_true(plumb_filter_low_pass(row.cutoff_hz, row.rate_hz, &filter));
            assert_near(filter.b[row.i], row.x, 1e-12);
            assert_near(filter.a[row.i], row.y, 1e-12);
        } else {
            x[count] = row.x;
            y[count++] = row.y;
        }
    }
    fclose(file);
    hold_case(x, y, count, &filter);
    assert_int_equal(cases + 1, 5);
}

/* Amplitude of a sine of f_hz in the middle of a long series after filtering. */
static double gain_at(double f_hz, double cutoff_hz, double rate_hz)
{
    enum { N = 2000 };
    double x[N];
    PlumbFilter filter;
    assert_true(plumb_filter_low_pass(cutoff_hz, rate_hz, &filter));
    for (int i = 0; i < N; i++) {
        x[i] = sin(2.0 * PLUMB_PI * f_hz * i / rate_hz);
    }
    plumb_filter_run(&filter, x, N, room);
    double s = 0.0;
    double c = 0.0;
    for (int i = N / 4; i < 3 * N / 4; i++) {
        s += x[i] * sin(2.0 * PLUMB_PI * f_hz * i / rate_hz);
        c += x[i] * cos(2.0 * PLUMB_PI * f_hz * i / rate_hz);
    }
    assert_near(c, 0.0, 1e-6 * N); /* no lag: nothing out of phase */
    return s / (N / 4);
}

static void low_pass__falls_to_half_the_power_at_its_cutoff(void **state)
{
    (void)state;
    assert_near(gain_at(6.0, 6.0, 60.0), sqrt(0.5), 2e-3);
    assert_near(gain_at(0.6, 6.0, 60.0), 1.0, 1e-3);
    assert_true(gain_at(24.0, 6.0, 60.0) < 0.01);
}

static void low_pass__is_refused_beyond_half_the_rate(void **state)
{
    PlumbFilter filter;
    (void)state;
    assert_false(plumb_filter_low_pass(0.0, 60.0, &filter));
    assert_false(plumb_filter_low_pass(30.0, 60.0, &filter));
    assert_false(plumb_filter_low_pass((double)NAN, 60.0, &filter));
}

static void run__keeps_a_line_and_short_series(void **state)
{
    PlumbFilter filter;
    (void)state;
    assert_true(plumb_filter_low_pass(4.0, 30.0, &filter));
    for (int count = 1; count < 40; count++) {
        double x[40];
        for (int i = 0; i < count; i++) {
            x[i] = 2.5;
        }
        plumb_filter_run(&filter, x, count, room);
        for (int i = 0; i < count; i++) {
            assert_near(x[i], 2.5, 1e-12);
        }
    }
}

/* A slow motion under noise: the cut-off lies above the motion and far below the noise's, and what
 * is left is nearer to the truth than what was given. */
static void cutoff__parts_motion_from_noise(void **state)
{
    enum { N = 240 };
    double truth[N];
    double x[N];
    unsigned seed = 1;
    (void)state;
    for (int i = 0; i < N; i++) {
        truth[i] = 0.5 * sin(2.0 * PLUMB_PI * 0.5 * i / 60.0);
        seed = seed * 1664525U + 1013904223U;
        x[i] = truth[i] + 0.004 * ((double)(seed >> 8) / 16777216.0 - 0.5);
    }
    const double cutoff = plumb_filter_cutoff_hz(x, N, 60.0, room);
    assert_true(cutoff >= 4.0 && cutoff < 10.0);
    PlumbFilter filter;
    double before = 0.0;
    double after = 0.0;
    for (int i = 0; i < N; i++) {
        before += (x[i] - truth[i]) * (x[i] - truth[i]);
    }
    assert_true(plumb_filter_low_pass(cutoff, 60.0, &filter));
    plumb_filter_run(&filter, x, N, room);
    for (int i = 0; i < N; i++) {
        after += (x[i] - truth[i]) * (x[i] - truth[i]);
    }
    assert_true(after < 0.5 * before);
}

static void slopes__are_central(void **state)
{
    const double x[] = {0.0, 1.0, 4.0, 9.0};
    double slope[4];
    (void)state;
    plumb_filter_slopes(x, 4, 10.0, slope);
    assert_near(slope[0], 10.0, 1e-12);
    assert_near(slope[1], 20.0, 1e-12);
    assert_near(slope[2], 40.0, 1e-12);
    assert_near(slope[3], 50.0, 1e-12);
}

static void series_at__meets_samples_and_parabolas(void **state)
{
    const double t[] = {0.0, 0.1, 0.15, 0.4, 0.5, 0.9};
    double x[6];
    (void)state;
    for (int i = 0; i < 6; i++) {
        x[i] = 3.0 - 2.0 * t[i] + 5.0 * t[i] * t[i];
    }
    for (int i = 0; i < 6; i++) {
        assert_near(plumb_series_at(t, x, 6, t[i]), x[i], 1e-12);
    }
    /* Between the inner samples both slopes are those of the parabola, so that it is met. */
    for (double s = 0.1; s < 0.5; s += 0.01) {
        assert_near(plumb_series_at(t, x, 6, s), 3.0 - 2.0 * s + 5.0 * s * s, 1e-12);
    }
    assert_near(plumb_series_at(t, x, 6, -1.0), x[0], 0.0);
    assert_near(plumb_series_at(t, x, 6, 2.0), x[5], 0.0);
    assert_true(plumb_times_even((const double[]){0.0, 0.0333, 0.0667, 0.1}, 4, 0.05));
    assert_false(plumb_times_even(t, 6, 0.05));
}

static void crossing__is_between_samples(void **state)
{
    const double x[] = {0.0, 0.0, 1.0, 3.0, 1.0, 0.0, 4.0};
    const double t[] = {0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6};
    (void)state;
    assert_near(plumb_series_crossing(t, x, 7, 2.0, true, 0.0), 0.25, 1e-12);
    assert_near(plumb_series_crossing(t, x, 7, 2.0, false, 0.0), 0.35, 1e-12);
    assert_near(plumb_series_crossing(t, x, 7, 2.0, true, 0.3), 0.55, 1e-12);
    assert_true(isnan(plumb_series_crossing(t, x, 7, 9.0, true, 0.0)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(run__equals_filtfilt),
        cmocka_unit_test(low_pass__falls_to_half_the_power_at_its_cutoff),
        cmocka_unit_test(low_pass__is_refused_beyond_half_the_rate),
        cmocka_unit_test(run__keeps_a_line_and_short_series),
        cmocka_unit_test(cutoff__parts_motion_from_noise),
        cmocka_unit_test(slopes__are_central),
        cmocka_unit_test(series_at__meets_samples_and_parabolas),
        cmocka_unit_test(crossing__is_between_samples),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
