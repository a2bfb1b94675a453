/* SPDX-License-Identifier: MIT */
/* Drawn bodies and intervals: distributions, conditioning, coverage, and what measuring narrows. */
#include "support.h"

#include <plumbar/compare.h>

#include "body/fraction.h"
#include "tables.h"

#include <stdlib.h>
#include <string.h>

static PlumbLifter lifter_of(const PlumbBodySpec *spec)
{
    PlumbBody body;
    PlumbError error;
    if (plumb_body_build(spec, &body, &error) != PLUMB_OK) {
        fail_msg("%s: %s", error.field, error.message);
    }
    return plumb_lifter_default(&body);
}

static PlumbBodySpec man(void)
{
    return plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
}

/* Around *spec with the lengths as known from it. */
static PlumbSampler sampler_of(const PlumbBodySpec *spec, uint64_t seed, PlumbBodies *bodies)
{
    const PlumbLifter lifter = lifter_of(spec);
    PlumbSampler sampler;
    plumb_bodies_around(spec, &lifter.body, bodies);
    plumb_sampler_begin(&lifter, bodies, seed, &sampler);
    return sampler;
}

static void measure(PlumbBodySpec *spec, PlumbLength length, double value_m, double sd_m)
{
    spec->measure[length] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, value_m, sd_m};
}

/* ---- deviates ---- */

/* Moments of a standard normal within five standard errors, and no memory from one to the next. */
static void normal_deviates__are_standard_normal(void **state)
{
    enum { DRAWS = 50000, EACH = 4 };
    double sum[5] = {0.0};
    double neighbours = 0.0;
    double across = 0.0;
    double last = 0.0;
    (void)state;
    for (int i = 0; i < DRAWS; i++) {
        double z[EACH];
        plumb_normal_deviates(7, (uint64_t)i, EACH, z);
        for (int k = 0; k < EACH; k++) {
            double power = 1.0;
            for (int m = 1; m < 5; m++) {
                power *= z[k];
                sum[m] += power;
            }
        }
        neighbours += z[0] * z[1] + z[1] * z[2] + z[2] * z[3];
        across += last * z[0];
        last = z[0];
    }
    const double n = DRAWS * EACH;
    assert_near(sum[1] / n, 0.0, 5.0 / sqrt(n));
    assert_near(sum[2] / n, 1.0, 5.0 * sqrt(2.0 / n));
    assert_near(sum[3] / n, 0.0, 5.0 * sqrt(15.0 / n));
    assert_near(sum[4] / n, 3.0, 5.0 * sqrt(96.0 / n));
    assert_near(neighbours / (3.0 * DRAWS), 0.0, 5.0 / sqrt(3.0 * DRAWS));
    assert_near(across / DRAWS, 0.0, 5.0 / sqrt(DRAWS));
}

static void normal_deviates__depend_on_seed_and_number_alone(void **state)
{
    double a[3];
    double b[7];
    (void)state;
    plumb_normal_deviates(3, 11, 3, a);
    plumb_normal_deviates(3, 11, 7, b);
    assert_memory_equal(a, b, sizeof a);
    plumb_normal_deviates(4, 11, 3, b);
    assert_true(a[0] != b[0]);
    plumb_normal_deviates(3, 12, 3, b);
    assert_true(a[0] != b[0]);
}

/* ---- bodies ---- */

static void bodies__have_the_body_in_their_middle(void **state)
{
    (void)state;
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        for (int table = 0; table < PLUMB_TABLE_COUNT; table++) {
            PlumbBodySpec spec = plumb_body_spec((PlumbSex)sex, 1.68, 70.0);
            spec.length_table = (PlumbTable)table;
            const PlumbLifter lifter = lifter_of(&spec);
            PlumbBodies bodies;
            plumb_bodies_around(&spec, &lifter.body, &bodies);
            for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
                assert_near(bodies.mean_m[i], lifter.body.length_m[i], 1e-14);
                assert_near(sqrt(bodies.cov_m2[i][i]), lifter.body.length_sd_m[i], 1e-12);
            }
        }
    }
}

/* By hand: prior sd s, tape sd e, correlation r. The thigh's own sd becomes s e / sqrt(s² + e²);
 * the trunk moves by r s_trunk s / (s² + e²) times the surprise and keeps 1 - r² s² / (s² + e²) of
 * its variance. */
static void bodies__follow_a_measured_length(void **state)
{
    (void)state;
    PlumbBodySpec spec = man();
    const PlumbLifter plain = lifter_of(&spec);
    const double before_m = plain.body.thigh_m;
    const double s = 0.01046 * 1.78;
    const double s_trunk = 0.01552 * 1.78;
    const double r = -0.3741;
    const double e = 0.01;
    measure(&spec, PLUMB_LEN_thigh, before_m + 0.03, 0.0);
    PlumbBodies bodies;
    sampler_of(&spec, 1, &bodies);
    const double gain = s * s / (s * s + e * e);
    assert_near(bodies.mean_m[PLUMB_LEN_thigh], before_m + gain * 0.03, 1e-12);
    assert_near(sqrt(bodies.cov_m2[PLUMB_LEN_thigh][PLUMB_LEN_thigh]), e * sqrt(gain), 1e-12);
    assert_near(bodies.mean_m[PLUMB_LEN_trunk], plain.body.trunk_m + r * s_trunk / s * gain * 0.03,
                1e-12);
    assert_near(bodies.cov_m2[PLUMB_LEN_trunk][PLUMB_LEN_trunk],
                s_trunk * s_trunk * (1.0 - r * r * gain), 1e-12);
    /* The pelvis is a share of the trunk and goes with it. */
    assert_near(bodies.mean_m[PLUMB_LEN_pelvis] / bodies.mean_m[PLUMB_LEN_trunk],
                plain.body.pelvis_m / plain.body.trunk_m, 1e-9);
    /* What is independent stays. */
    assert_near(bodies.mean_m[PLUMB_LEN_shoulder_drop], plain.body.shoulder_drop_m, 1e-15);
}

static void bodies__take_a_question_of_what_if_as_exact(void **state)
{
    (void)state;
    PlumbBodySpec spec = man();
    spec.measure[PLUMB_LEN_thigh] = (PlumbMeasure){PLUMB_MEASURE_SPREAD, 1.0, 0.0};
    const PlumbLifter lifter = lifter_of(&spec);
    PlumbBodies bodies;
    const PlumbSampler sampler = sampler_of(&spec, 5, &bodies);
    assert_near(bodies.cov_m2[PLUMB_LEN_thigh][PLUMB_LEN_thigh], 0.0, 1e-18);
    for (uint64_t i = 0; i < 100; i++) {
        PlumbLifter drawn;
        double off;
        plumb_sampler_draw(&sampler, i, &drawn, &off);
        assert_near(drawn.body.thigh_m, lifter.body.thigh_m, 1e-12);
    }
}

static void bodies__do_not_mind_the_order_of_observations(void **state)
{
    (void)state;
    const PlumbObservation a = plumb_observation_length(PLUMB_LEN_thigh, 0.44, 0.01);
    const PlumbObservation b = plumb_observation_length(PLUMB_LEN_forearm, 0.27, 0.005);
    PlumbBodies one;
    PlumbBodies two;
    plumb_bodies_table(PLUMB_FEMALE, PLUMB_SURVEY, 1.7, &one);
    two = one;
    plumb_bodies_observe(&one, &a);
    plumb_bodies_observe(&one, &b);
    plumb_bodies_observe(&two, &b);
    plumb_bodies_observe(&two, &a);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        assert_near(one.mean_m[i], two.mean_m[i], 1e-14);
        for (int j = 0; j < PLUMB_LENGTH_COUNT; j++) {
            assert_near(one.cov_m2[i][j], two.cov_m2[i][j], 1e-16);
            assert_near(one.cov_m2[i][j], one.cov_m2[j][i], 1e-18);
        }
    }
}

/* An observed tape must bring back the survey: simulated over bodies, the correlation of the tape
 * with its length is that of tape.csv, and the spread of the tape that of survey.csv. */
static void observation_tape__has_the_surveys_correlation(void **state)
{
    static const struct {
        PlumbTape tape;
        PlumbLength length;
        PlumbDimension dimension;
        double r[PLUMB_SEX_COUNT]; /* as tape.csv has it */
    } rows[] = {
        {PLUMB_TAPE_sitting_height,
         PLUMB_LEN_trunk,
         PLUMB_DIMENSION_sitting_height,
         {0.4113, 0.5328}},
        {PLUMB_TAPE_buttock_to_knee,
         PLUMB_LEN_thigh,
         PLUMB_DIMENSION_buttock_to_knee,
         {0.2501, 0.2901}},
        {PLUMB_TAPE_knee_height_sitting,
         PLUMB_LEN_shank,
         PLUMB_DIMENSION_knee_height_sitting,
         {0.6792, 0.7366}},
        {PLUMB_TAPE_span, PLUMB_LEN_upper_arm, PLUMB_DIMENSION_span, {0.5779, 0.5621}},
        {PLUMB_TAPE_span, PLUMB_LEN_forearm, PLUMB_DIMENSION_span, {0.6404, 0.7267}},
    };
    (void)state;
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        PlumbBodies bodies;
        plumb_bodies_table((PlumbSex)sex, PLUMB_SURVEY, 1.7, &bodies);
        for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
            const PlumbObservation seen =
                plumb_observation_tape((PlumbSex)sex, 1.7, &bodies, rows[i].tape, 1.0, 0.0);
            const PlumbDimensionRow *row = &plumb_table_dimension[sex][rows[i].dimension];
            const double variance = plumb_bodies_variance_m2(&bodies, &seen);
            double covariance = 0.0;
            double surprise = seen.value_m;
            for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
                covariance += seen.weight[k] * bodies.cov_m2[rows[i].length][k];
                surprise -= seen.weight[k] * bodies.mean_m[k];
            }
            assert_near(sqrt(variance), row->ratio_sd * 1.7, 1e-12);
            assert_near(covariance / sqrt(variance * bodies.cov_m2[rows[i].length][rows[i].length]),
                        rows[i].r[sex], 1e-12);
            /* A tape of the mean is no surprise. */
            assert_near(surprise, 1.0 - row->ratio * 1.7, 1e-12);
        }
    }
}

/* Whatever is taped, no length is known worse for it, and what it speaks of is known better. */
static void observation_tape__never_widens(void **state)
{
    (void)state;
    for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
        PlumbBodies before;
        plumb_bodies_table(PLUMB_MALE, PLUMB_SURVEY, 1.75, &before);
        const PlumbObservation seen =
            plumb_observation_tape(PLUMB_MALE, 1.75, &before, (PlumbTape)i, 0.5, 0.01);
        PlumbBodies after = before;
        plumb_bodies_observe(&after, &seen);
        int narrowed = 0;
        for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
            assert_true(after.cov_m2[k][k] <= before.cov_m2[k][k] + 1e-18);
            narrowed += after.cov_m2[k][k] < 0.99 * before.cov_m2[k][k];
        }
        assert_true(narrowed > 0);
    }
}

/* ---- draws ---- */

typedef struct Moments {
    double mean[PLUMB_LENGTH_COUNT];
    double cov[PLUMB_LENGTH_COUNT][PLUMB_LENGTH_COUNT];
} Moments;

static void moments_of(const PlumbSampler *sampler, int count, Moments *moments)
{
    double(*const length)[PLUMB_LENGTH_COUNT] = calloc((size_t)count, sizeof *length);
    assert_non_null(length);
    memset(moments, 0, sizeof *moments);
    for (int i = 0; i < count; i++) {
        PlumbLifter drawn;
        double off;
        plumb_sampler_draw(sampler, (uint64_t)i, &drawn, &off);
        for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
            length[i][k] = drawn.body.length_m[k];
            moments->mean[k] += drawn.body.length_m[k] / count;
        }
    }
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
            for (int m = 0; m < PLUMB_LENGTH_COUNT; m++) {
                moments->cov[k][m] += (length[i][k] - moments->mean[k]) *
                                      (length[i][m] - moments->mean[m]) / (count - 1);
            }
        }
    }
    free(length);
}

/* Means within four standard errors, spreads within 2 %, correlations within 0.02. */
static void check_moments(const PlumbSampler *sampler, const PlumbBodies *bodies)
{
    enum { DRAWS = 100000 };
    static Moments got;
    moments_of(sampler, DRAWS, &got);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const double sd = sqrt(bodies->cov_m2[i][i]);
        assert_near(got.mean[i], bodies->mean_m[i], 4.0 * sd / sqrt(DRAWS));
        assert_near(sqrt(got.cov[i][i]), sd, 0.02 * sd);
        for (int j = 0; j < i; j++) {
            const double r = bodies->cov_m2[i][j] / sd / sqrt(bodies->cov_m2[j][j]);
            assert_near(got.cov[i][j] / sqrt(got.cov[i][i] * got.cov[j][j]), r, 0.02);
        }
    }
}

static void sampler__draws_the_tables_means_and_correlations(void **state)
{
    (void)state;
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        const PlumbBodySpec spec = plumb_body_spec((PlumbSex)sex, 1.70, 72.0);
        PlumbBodies bodies;
        const PlumbSampler sampler = sampler_of(&spec, 1, &bodies);
        check_moments(&sampler, &bodies);
        /* The table itself, not only what was made of it. */
        const PlumbSpreadRow *row = plumb_table_spread[sex];
        assert_near(bodies.cov_m2[PLUMB_LEN_shank][PLUMB_LEN_trunk],
                    row[PLUMB_SPREAD_shank].r[PLUMB_SPREAD_trunk] * row[PLUMB_SPREAD_shank].sd *
                        row[PLUMB_SPREAD_trunk].sd * 1.70 * 1.70,
                    1e-15);
    }
}

static void sampler__draws_what_is_left_after_measuring(void **state)
{
    (void)state;
    PlumbBodySpec spec = man();
    measure(&spec, PLUMB_LEN_thigh, 0.45, 0.008);
    measure(&spec, PLUMB_LEN_foot_length, 0.27, 0.004);
    spec.tape[PLUMB_TAPE_span] = (PlumbMeasure){PLUMB_MEASURE_LENGTH, 1.86, 0.0};
    PlumbBodies bodies;
    const PlumbSampler sampler = sampler_of(&spec, 9, &bodies);
    check_moments(&sampler, &bodies);
}

/* A mean and a covariance from elsewhere: two lengths that move as one, the rest known. */
static void sampler__takes_any_covariance(void **state)
{
    (void)state;
    const PlumbBodySpec spec = man();
    const PlumbLifter lifter = lifter_of(&spec);
    PlumbBodies bodies = {{0.0}, {{0.0}}};
    memcpy(bodies.mean_m, lifter.body.length_m, sizeof bodies.mean_m);
    bodies.cov_m2[PLUMB_LEN_thigh][PLUMB_LEN_thigh] = 4e-4;
    bodies.cov_m2[PLUMB_LEN_shank][PLUMB_LEN_shank] = 1e-4;
    bodies.cov_m2[PLUMB_LEN_shank][PLUMB_LEN_thigh] = -2e-4;
    bodies.cov_m2[PLUMB_LEN_thigh][PLUMB_LEN_shank] = -2e-4;
    PlumbSampler sampler;
    plumb_sampler_begin(&lifter, &bodies, 2, &sampler);
    for (uint64_t i = 0; i < 50; i++) {
        PlumbLifter drawn;
        double off;
        plumb_sampler_draw(&sampler, i, &drawn, &off);
        assert_near(drawn.body.thigh_m - lifter.body.thigh_m,
                    -2.0 * (drawn.body.shank_m - lifter.body.shank_m), 1e-12);
        assert_near(drawn.body.trunk_m, lifter.body.trunk_m, 1e-15);
    }
}

/* Stature, mass and their correlation in the survey; lengths as shares of each one's stature. */
static void sampler_population__is_the_survey(void **state)
{
    enum { DRAWS = 100000 };
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_FEMALE, 1.80, 90.0);
    const PlumbLifter lifter = lifter_of(&spec);
    PlumbSampler sampler;
    plumb_sampler_population(&lifter, 1, &sampler);
    double sum[6] = {0.0};
    for (uint64_t i = 0; i < DRAWS; i++) {
        PlumbLifter drawn;
        double off;
        plumb_sampler_draw(&sampler, i, &drawn, &off);
        const double s = (drawn.body.stature_m - 1.62847) / 0.06420;
        const double m = (drawn.body.mass_kg - 67.76) / 10.98;
        const double thigh = drawn.body.thigh_m / drawn.body.stature_m;
        const double all[6] = {s, m, s * s, m * m, s * m, thigh};
        for (int k = 0; k < 6; k++) {
            sum[k] += all[k] / DRAWS;
        }
    }
    assert_near(sum[0], 0.0, 4.0 / sqrt(DRAWS));
    assert_near(sum[1], 0.0, 4.0 / sqrt(DRAWS));
    assert_near(sum[2], 1.0, 0.02);
    assert_near(sum[3], 1.0, 0.02);
    assert_near(sum[4], 0.5335, 0.02);
    assert_near(sum[5], 0.512 - 0.280, 4.0 * 0.01332 / sqrt(DRAWS));
}

/* ---- intervals ---- */

static PlumbSetup pull(double load_kg)
{
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    setup.load_kg = load_kg;
    return setup;
}

/* All at once, or in pieces from the back: the same bytes. */
static void samples_solve__gives_the_same_bytes_in_pieces(void **state)
{
    enum { COUNT = 60, PIECE = 7 };
    static PlumbSample whole[COUNT];
    static PlumbSample pieces[COUNT];
    (void)state;
    const PlumbBodySpec spec = man();
    PlumbBodies bodies;
    const PlumbSampler sampler = sampler_of(&spec, 4, &bodies);
    const PlumbSetup setup = pull(150.0);
    memset(whole, 0, sizeof whole);
    memset(pieces, 0, sizeof pieces);
    plumb_samples_solve(&sampler, &setup, false, 0, COUNT, whole);
    for (int first = COUNT - COUNT % PIECE; first >= 0; first -= PIECE) {
        const int count = COUNT - first < PIECE ? COUNT - first : PIECE;
        plumb_samples_solve(&sampler, &setup, false, (uint64_t)first, count, &pieces[first]);
    }
    assert_memory_equal(whole, pieces, sizeof whole);
}

static void samples_solve__quick_agrees_with_the_whole_answer(void **state)
{
    enum { COUNT = 40 };
    static PlumbSample whole[COUNT];
    static PlumbSample quick[COUNT];
    (void)state;
    const PlumbBodySpec spec = man();
    PlumbBodies bodies;
    const PlumbSampler sampler = sampler_of(&spec, 4, &bodies);
    const PlumbSetup setup = pull(150.0);
    plumb_samples_solve(&sampler, &setup, false, 0, COUNT, whole);
    plumb_samples_solve(&sampler, &setup, true, 0, COUNT, quick);
    for (int i = 0; i < COUNT; i++) {
        assert_near(quick[i].output[PLUMB_OUT_travel], whole[i].output[PLUMB_OUT_travel], 1e-12);
        assert_near(quick[i].output[PLUMB_OUT_back_angle], whole[i].output[PLUMB_OUT_back_angle],
                    1e-12);
        assert_true(isnan(quick[i].output[PLUMB_OUT_window_low]) != 0);
        assert_true(isfinite(whole[i].output[PLUMB_OUT_window_low]) != 0);
    }
}

/* Of a press: the figures of the instants, and peaks that are the greatest of them. */
static void path_samples__of_a_press(void **state)
{
    enum { COUNT = 4, POINTS = 5 };
    (void)state;
    const int size = plumb_path_sample_size(PLUMB_BENCH, POINTS);
    const PlumbBodySpec spec = man();
    PlumbBodies bodies;
    const PlumbSampler sampler = sampler_of(&spec, 4, &bodies);
    const PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    double *const value = calloc((size_t)(COUNT * size), sizeof *value);
    assert_non_null(value);
    plumb_path_samples_solve(&sampler, &setup, POINTS, 0, COUNT, NULL, value);
    for (int i = 0; i < COUNT; i++) {
        PlumbLifter lifter;
        PlumbSolved solved;
        PlumbSample sample;
        plumb_sample_solve(&sampler, &setup, (uint64_t)i, &lifter, &solved, &sample);
        const double *const own = value + i * size;
        double peak = 0.0;
        for (int k = 0; k < POINTS; k++) {
            PlumbPressPosition at;
            plumb_press_at(&lifter, &solved.press, 0.25 * k, &at);
            peak = fmax(peak, at.moment_n_m[PLUMB_PRESS_JOINT_elbow_extension]);
            assert_near(own[plumb_path_column(PLUMB_BENCH, k, PLUMB_PRESS_STEP_bar_height)],
                        at.point[PLUMB_PRESS_bar].y, 1e-12);
        }
        assert_near(own[PLUMB_PRESS_FACT_travel], sample.output[PLUMB_PRESS_OUT_travel], 1e-12);
        assert_near(own[PLUMB_PRESS_FACT_peak_elbow_extension_moment], peak, 1e-9);
    }
    free(value);
}

/* Facts and steps of a drawn path are those of the path solved by itself. */
static void path_samples__are_the_paths_of_the_draws(void **state)
{
    enum { COUNT = 6, POINTS = 5 };
    (void)state;
    const int size = plumb_path_sample_size(PLUMB_DEADLIFT, POINTS);
    const PlumbBodySpec spec = man();
    PlumbBodies bodies;
    const PlumbSampler sampler = sampler_of(&spec, 4, &bodies);
    const PlumbSetup setup = pull(150.0);
    PlumbPathPoint point[POINTS];
    double *const value = calloc((size_t)(COUNT * size), sizeof *value);
    double *const piece = calloc((size_t)(COUNT * size), sizeof *piece);
    assert_true(value != NULL && piece != NULL);
    plumb_path_samples_solve(&sampler, &setup, POINTS, 0, COUNT, point, value);
    plumb_path_samples_solve(&sampler, &setup, POINTS, 2, COUNT - 2, point, piece + 2 * size);
    plumb_path_samples_solve(&sampler, &setup, POINTS, 0, 2, point, piece);
    assert_memory_equal(value, piece, (size_t)(COUNT * size) * sizeof *value);
    for (int i = 0; i < COUNT; i++) {
        PlumbLifter lifter;
        PlumbSolved solved;
        PlumbSample sample;
        PlumbPathFacts facts;
        plumb_sample_solve(&sampler, &setup, (uint64_t)i, &lifter, &solved, &sample);
        assert_true(plumb_path_solve(&lifter, &solved.pose, POINTS, point, &facts));
        const double *const own = value + i * size;
        assert_near(own[PLUMB_FACT_travel], sample.output[PLUMB_OUT_travel], 1e-12);
        assert_near(own[PLUMB_FACT_back_change], facts.back_change_rad, 1e-12);
        assert_near(own[PLUMB_FACT_peak_back_moment], facts.peak_moment_n_m[PLUMB_JOINT_back],
                    1e-9);
        assert_near(own[plumb_path_column(PLUMB_DEADLIFT, 3, PLUMB_STEP_hip_height)],
                    point[3].position.pose.hip_height_m, 1e-12);
        assert_near(own[plumb_path_column(PLUMB_DEADLIFT, 0, PLUMB_STEP_knee_moment)],
                    point[0].position.moment_both_n_m[PLUMB_JOINT_knee], 1e-9);
    }
    double scratch[2 * COUNT];
    const PlumbEstimate end = plumb_column_estimate(
        value, COUNT, size, plumb_path_column(PLUMB_DEADLIFT, POINTS - 1, PLUMB_STEP_knee_flexion),
        scratch);
    assert_int_equal(end.count, COUNT);
    assert_near(end.mean, 0.0, 1e-9); /* a lockout is straight in everybody */
    free(value);
    free(piece);
}

static void estimate__of_a_short_list(void **state)
{
    static const double value[] = {5.0, (double)NAN, 1.0, 2.0, 4.0, 3.0};
    double scratch[6];
    (void)state;
    const PlumbEstimate estimate = plumb_estimate(value, 6, scratch);
    assert_int_equal(estimate.count, 5);
    assert_near(estimate.mean, 3.0, 1e-15);
    assert_near(estimate.median, 3.0, 1e-15);
    assert_near(estimate.sd, sqrt(2.5), 1e-15);
    assert_near(estimate.low, 1.1, 1e-15); /* 2.5 % of the way along four steps */
    assert_near(estimate.high, 4.9, 1e-15);
    const PlumbEstimate none = plumb_estimate(value, 1, scratch);
    assert_int_equal(none.count, 1);
    assert_true(isnan(none.sd) && isnan(none.low));
}

static void intervals__share_outcomes_out(void **state)
{
    enum { COUNT = 400 };
    static PlumbSample sample[COUNT];
    static double scratch[2 * COUNT];
    (void)state;
    const PlumbBodySpec spec = man();
    PlumbBodies bodies;
    const PlumbSampler sampler = sampler_of(&spec, 4, &bodies);
    PlumbSetup setup = pull(150.0);
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    setup.hip_height_m = 0.56;
    PlumbIntervals intervals;
    plumb_samples_solve(&sampler, &setup, false, 0, COUNT, sample);
    plumb_intervals(sample, COUNT, scratch, &intervals);
    assert_near(intervals.held_share + intervals.outside_share + intervals.no_pose_share, 1.0,
                1e-12);
    assert_true(intervals.held_share > 0.2 && intervals.outside_share > 0.2);
    const int posed = (int)lround(COUNT * (1.0 - intervals.no_pose_share));
    assert_int_equal(intervals.of[PLUMB_OUT_back_angle].count, posed);
    assert_near(intervals.of[PLUMB_OUT_hip_height].sd, 0.0, 1e-9);
}

/* ---- coverage ---- */

enum { LIFTERS = 1000, LIFTERS_LONG = 2000, DRAWS_EACH = 800 };

typedef struct Coverage {
    int covered[3];
    int changes_covered[3]; /* of the change to a sumo pull, the same bodies in both set-ups */
    PlumbSetup other;
    PlumbSample *sample;
    double *change;
    double *scratch;
} Coverage;

static const PlumbOutput covered_outputs[3] = {PLUMB_OUT_travel, PLUMB_OUT_back_angle,
                                               PLUMB_OUT_hip_arm};

/* A tape of the true lengths as the survey's regression makes it, with a deviate for its error. */
static double taped_value(const PlumbBodies *bodies, const PlumbBody *truth, PlumbTape tape,
                          double deviate)
{
    const PlumbObservation at_zero =
        plumb_observation_tape(truth->sex, truth->stature_m, bodies, tape, 0.0, 0.01);
    double value = at_zero.sd_m * deviate - at_zero.value_m;
    for (int k = 0; k < PLUMB_LENGTH_COUNT; k++) {
        value += at_zero.weight[k] * truth->length_m[k];
    }
    return value;
}

/* One lifter out of the population, some lengths taped with error; does the interval hold what is
 * true of that lifter? */
static void cover_one(int number, const PlumbSampler *people, const PlumbBodies *bodies,
                      const PlumbSetup *setup, const PlumbBodySpec *bare, Coverage *coverage)
{
    double error[4];
    PlumbSample truth;
    PlumbLifter lifter;
    double off;
    PlumbBodySpec spec = *bare;
    plumb_samples_solve(people, setup, true, (uint64_t)number, 1, &truth);
    plumb_sampler_draw(people, (uint64_t)number, &lifter, &off);
    plumb_normal_deviates(1234, (uint64_t)number, 4, error);
    measure(&spec, PLUMB_LEN_thigh, lifter.body.thigh_m + 0.01 * error[0], 0.0);
    measure(&spec, PLUMB_LEN_upper_arm, lifter.body.upper_arm_m + 0.006 * error[1], 0.006);
    spec.tape[PLUMB_TAPE_sitting_height] =
        (PlumbMeasure){PLUMB_MEASURE_LENGTH,
                       taped_value(bodies, &lifter.body, PLUMB_TAPE_sitting_height, error[2]), 0.0};
    PlumbBodies known;
    const PlumbSampler sampler = sampler_of(&spec, 100 + (uint64_t)number, &known);
    plumb_samples_solve(&sampler, setup, true, 0, DRAWS_EACH, coverage->sample);
    for (int k = 0; k < 3; k++) {
        for (int i = 0; i < DRAWS_EACH; i++) {
            coverage->scratch[i] = coverage->sample[i].output[covered_outputs[k]];
        }
        const PlumbEstimate estimate =
            plumb_estimate(coverage->scratch, DRAWS_EACH, coverage->scratch + DRAWS_EACH);
        const double value = truth.output[covered_outputs[k]];
        coverage->covered[k] += value >= estimate.low && value <= estimate.high;
    }
    const PlumbPair true_pair = {{*people, *people}, {*setup, coverage->other}};
    const PlumbPair pair = {{sampler, sampler}, {*setup, coverage->other}};
    double change[PLUMB_OUTPUT_COUNT];
    plumb_pair_solve(&true_pair, true, (uint64_t)number, 1, change);
    plumb_pair_solve(&pair, true, 0, DRAWS_EACH, coverage->change);
    for (int k = 0; k < 3; k++) {
        const PlumbOutput o = covered_outputs[k];
        const PlumbEstimate estimate = plumb_column_estimate(
            coverage->change, DRAWS_EACH, PLUMB_OUTPUT_COUNT, (int)o, coverage->scratch);
        coverage->changes_covered[k] += change[o] >= estimate.low && change[o] <= estimate.high;
    }
}

/* Of a thousand lifters the share that is covered is known to 0.7 points (one sd of a binomial):
 * 1.5 points let pass what is right and stop intervals of 93 in 100. */
static void intervals__cover_95_of_100_true_lifters(void **state)
{
    (void)state;
    const int lifters = is_long() ? LIFTERS_LONG : cases_of(LIFTERS);
    const double tolerance = 2.2 * sqrt(0.95 * 0.05 / lifters);
    const PlumbBodySpec bare = man();
    PlumbBodies bodies;
    const PlumbSampler people = sampler_of(&bare, 77, &bodies);
    const PlumbSetup setup = pull(140.0);
    Coverage coverage = {.other = setup,
                         .sample = calloc(DRAWS_EACH, sizeof(PlumbSample)),
                         .change = calloc(DRAWS_EACH * PLUMB_OUTPUT_COUNT, sizeof(double)),
                         .scratch = calloc(2 * DRAWS_EACH, sizeof(double))};
    assert_true(coverage.sample != NULL && coverage.change != NULL && coverage.scratch != NULL);
    plumb_setup_style(&coverage.other, PLUMB_SUMO);
    for (int i = 0; i < lifters; i++) {
        cover_one(i, &people, &bodies, &setup, &bare, &coverage);
    }
    for (int k = 0; k < 3; k++) {
        print_message("%s: %.2f %% of %d lifters\n", plumb_output_name(covered_outputs[k]),
                      100.0 * coverage.covered[k] / lifters, lifters);
        assert_near((double)coverage.covered[k] / lifters, 0.95, tolerance);
        print_message("change of %s: %.2f %%\n", plumb_output_name(covered_outputs[k]),
                      100.0 * coverage.changes_covered[k] / lifters);
        assert_near((double)coverage.changes_covered[k] / lifters, 0.95, tolerance);
    }
    free(coverage.sample);
    free(coverage.change);
    free(coverage.scratch);
}

/* ---- what to measure ---- */

enum { NEXT_DRAWS = 6000 };

typedef struct Next {
    PlumbBodies bodies;
    PlumbSample *sample;
    double *scratch;
} Next;

static double sd_of(const PlumbBodies *bodies, const PlumbBodySpec *spec, const PlumbSetup *setup,
                    PlumbOutput output, Next *next)
{
    const PlumbLifter lifter = lifter_of(spec);
    PlumbSampler sampler;
    plumb_sampler_begin(&lifter, bodies, 21, &sampler);
    plumb_samples_solve(&sampler, setup, true, 0, NEXT_DRAWS, next->sample);
    for (int i = 0; i < NEXT_DRAWS; i++) {
        next->scratch[i] = next->sample[i].output[output];
    }
    return plumb_estimate(next->scratch, NEXT_DRAWS, next->scratch + NEXT_DRAWS).sd;
}

/* What is foretold against drawing again with the measure taken at its expected value. The figures
 * are not quite linear in the lengths, and 6000 draws know an sd to 1 %: 4 %. */
static void measuring__narrows_as_foretold(void **state)
{
    static const PlumbOutput outputs[] = {PLUMB_OUT_travel, PLUMB_OUT_back_angle,
                                          PLUMB_OUT_hip_height};
    (void)state;
    const PlumbBodySpec spec = man();
    const PlumbSetup setups[2] = {pull(140.0), plumb_setup_default(PLUMB_SQUAT)};
    PlumbMeasuring measuring[PLUMB_MEASURING_MAX];
    const int count = plumb_measurings(&spec, measuring);
    Next next = {.sample = calloc(NEXT_DRAWS, sizeof *next.sample),
                 .scratch = calloc(2 * NEXT_DRAWS, sizeof *next.scratch)};
    PlumbSample *const before = calloc(NEXT_DRAWS, sizeof *before);
    assert_true(count >= 12 && next.sample && next.scratch && before);
    for (int lift = 0; lift < 2; lift++) {
        PlumbSetup setup = setups[lift];
        setup.lead = lift == 0 ? PLUMB_LEAD_BALANCE : PLUMB_LEAD_SHIN_ANGLE;
        setup.shin_angle_rad = 0.5;
        sampler_of(&spec, 21, &next.bodies);
        const double now = sd_of(&next.bodies, &spec, &setup, PLUMB_OUT_travel, &next);
        memcpy(before, next.sample, NEXT_DRAWS * sizeof *before);
        for (int i = 0; i < count; i++) {
            const PlumbObservation seen =
                plumb_measuring_observation(&spec, &next.bodies, &measuring[i]);
            PlumbBodies after = next.bodies;
            plumb_bodies_observe(&after, &seen);
            for (size_t k = 0; k < sizeof outputs / sizeof outputs[0]; k++) {
                const double told = plumb_measuring_sd_after(&spec, &next.bodies, &measuring[i],
                                                             before, NEXT_DRAWS, (int)outputs[k]);
                const double got = sd_of(&after, &spec, &setup, outputs[k], &next);
                assert_near(told / got, 1.0, 0.04);
            }
        }
        assert_true(now > 0.02);
    }
    free(before);
    free(next.sample);
    free(next.scratch);
}

static void measuring__ranks_the_thigh_first_for_a_squat(void **state)
{
    enum { COUNT = 1000 };
    static PlumbSample sample[COUNT];
    (void)state;
    PlumbBodySpec spec = man();
    PlumbBodies bodies;
    PlumbSampler sampler = sampler_of(&spec, 3, &bodies);
    const PlumbSetup setup = plumb_setup_default(PLUMB_SQUAT);
    PlumbMeasuring measuring[PLUMB_MEASURING_MAX];
    double share[PLUMB_MEASURING_MAX];
    int count = plumb_measurings(&spec, measuring);
    plumb_samples_solve(&sampler, &setup, false, 0, COUNT, sample);
    plumb_measurings_rank(&spec, &bodies, measuring, count, sample, COUNT, share);
    assert_string_equal(plumb_measuring_name(&measuring[0]), "thigh");
    for (int i = 1; i < count; i++) {
        assert_true(share[i] <= share[i - 1]);
    }
    /* Once measured it is asked for no more, nor is the tape that would collide with it, and the
     * travel is narrower. */
    const double before = plumb_measuring_sd_after(&spec, &bodies, &measuring[count - 1], sample,
                                                   COUNT, PLUMB_OUT_travel);
    assert_true(plumb_spec_is_bare(&spec));
    measure(&spec, PLUMB_LEN_thigh, 0.42, 0.0);
    assert_false(plumb_spec_is_bare(&spec));
    const int less = plumb_measurings(&spec, measuring);
    assert_int_equal(less, count - 2);
    for (int i = 0; i < less; i++) {
        assert_string_not_equal(plumb_measuring_name(&measuring[i]), "thigh");
        assert_string_not_equal(plumb_measuring_name(&measuring[i]), "buttock_to_knee");
    }
    static double scratch[2 * COUNT];
    PlumbIntervals intervals;
    sampler = sampler_of(&spec, 3, &bodies);
    plumb_samples_solve(&sampler, &setup, false, 0, COUNT, sample);
    plumb_intervals(sample, COUNT, scratch, &intervals);
    assert_true(intervals.of[PLUMB_OUT_travel].sd < 0.7 * before);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(normal_deviates__are_standard_normal),
        cmocka_unit_test(normal_deviates__depend_on_seed_and_number_alone),
        cmocka_unit_test(bodies__have_the_body_in_their_middle),
        cmocka_unit_test(bodies__follow_a_measured_length),
        cmocka_unit_test(bodies__take_a_question_of_what_if_as_exact),
        cmocka_unit_test(bodies__do_not_mind_the_order_of_observations),
        cmocka_unit_test(observation_tape__has_the_surveys_correlation),
        cmocka_unit_test(observation_tape__never_widens),
        cmocka_unit_test(sampler__draws_the_tables_means_and_correlations),
        cmocka_unit_test(sampler__draws_what_is_left_after_measuring),
        cmocka_unit_test(sampler__takes_any_covariance),
        cmocka_unit_test(sampler_population__is_the_survey),
        cmocka_unit_test(samples_solve__gives_the_same_bytes_in_pieces),
        cmocka_unit_test(samples_solve__quick_agrees_with_the_whole_answer),
        cmocka_unit_test(path_samples__are_the_paths_of_the_draws),
        cmocka_unit_test(path_samples__of_a_press),
        cmocka_unit_test(estimate__of_a_short_list),
        cmocka_unit_test(intervals__share_outcomes_out),
        cmocka_unit_test(intervals__cover_95_of_100_true_lifters),
        cmocka_unit_test(measuring__narrows_as_foretold),
        cmocka_unit_test(measuring__ranks_the_thigh_first_for_a_squat),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
