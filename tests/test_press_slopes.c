/* SPDX-License-Identifier: MIT */
/* The slopes of a press against differences of whole answers, and each kink from both sides. */
#include "support.h"

#include "press_sample.h"

#include "solve/press.h"

#include <plumbar/press_effects.h>

#include <stdlib.h>
#include <string.h>

enum { OUTPUTS = PLUMB_PRESS_OUTPUT_COUNT, STEPS = 4 };

static PlumbFactor factor[PLUMB_FACTOR_MAX];
static PlumbEffectRow row[PLUMB_FACTOR_MAX];

/* All that must be the same for differences to be of one smooth piece. */
typedef struct Branch {
    PlumbOutcome outcome;
    PlumbEnd end[2];
    bool negative[PLUMB_ARM_JOINTS];
    long start;
} Branch;

static void solve_moved(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbFactor *by,
                        double delta, double value[OUTPUTS], Branch *branch)
{
    PlumbLifter moved = *lifter;
    PlumbSetup at = *setup;
    PlumbPressAnswer answer;
    plumb_factor_move(by, delta, &moved, &at);
    memset(branch, 0, sizeof *branch);
    if (setup->lead == PLUMB_LEAD_AUTO) {
        plumb_press_solve(&moved, &at, &answer);
        branch->end[0] = answer.low_effort.low_end;
        branch->end[1] = answer.low_effort.high_end;
    } else {
        plumb_press_quick(&moved, &at, &answer);
    }
    branch->outcome = answer.outcome;
    for (int i = 0; i < PLUMB_ARM_JOINTS; i++) {
        branch->negative[i] = answer.touch.moment_n_m[i] < 0.0;
    }
    const double window = plumb_press_step_window(answer.travel_m);
    branch->start = lround(answer.abduction_step_frac / (1.0 - window) * PLUMB_PRESS_STEP_STARTS);
    for (int o = 0; o < OUTPUTS; o++) {
        value[o] = plumb_press_output_value(&answer, (PlumbPressOutput)o);
    }
}

static bool same_branch(const Branch *a, const Branch *b)
{
    return a->outcome == b->outcome && a->end[0] == b->end[0] && a->end[1] == b->end[1] &&
           a->start == b->start && memcmp(a->negative, b->negative, sizeof a->negative) == 0;
}

typedef struct Tally {
    long compared;
    long exact; /* within 1e-6 of itself, floor 1e-9, with nothing allowed beside */
    long kinks;
    long unknown;
} Tally;

/* 1e-6 of the slope, floor 1e-9; and what the differences know of themselves: how far two steps are
 * apart, and for a touch that follows the range the 1e-10 m (the least effort's touch: 1e-9 m) to
 * which its ends are found, over the step, times how the figure moves with the touch, at most some
 * 20 of its own size. */
static void judge(double got, double want, double apart, double of_end, const char *what,
                  const PlumbFactor *by, Tally *tally)
{
    const double tolerance = 1e-6 * fabs(want) + 1e-9;
    tally->compared++;
    tally->exact += fabs(got - want) <= tolerance;
    if (!(fabs(got - want) <= tolerance + 10.0 * apart + of_end)) {
        print_error("%s by %s (apart %g, end %g): ", what, plumb_factor_name(by), apart, of_end);
        assert_near(got, want, tolerance + 10.0 * apart + of_end);
    }
}

/* Fourth-order central differences with steps h, h/2 .., which share their places; of each output
 * the two neighbouring steps count that agree best. */
static void compare(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbFactor *by,
                    const PlumbEffectRow *got, Tally *tally)
{
    const double unit = by->quantity == PLUMB_Q_MASS ? 100.0 : 1.0;
    double at[STEPS + 1][2][OUTPUTS];
    bool smooth[STEPS + 1];
    double here_value[OUTPUTS];
    Branch here;
    solve_moved(lifter, setup, by, 0.0, here_value, &here);
    for (int k = 0; k <= STEPS; k++) {
        Branch low;
        Branch high;
        const double h = unit * ldexp(2e-3, -k);
        solve_moved(lifter, setup, by, -h, at[k][0], &low);
        solve_moved(lifter, setup, by, h, at[k][1], &high);
        smooth[k] = same_branch(&here, &low) && same_branch(&here, &high);
    }
    for (int o = 0; o < OUTPUTS; o++) {
        double best = (double)INFINITY;
        double want = (double)NAN;
        double before = (double)NAN;
        double step = 0.0;
        for (int k = 1; k <= STEPS; k++) {
            const double h = unit * ldexp(2e-3, -k);
            const double slope =
                smooth[k] && smooth[k - 1]
                    ? (8.0 * (at[k][1][o] - at[k][0][o]) - (at[k - 1][1][o] - at[k - 1][0][o])) /
                          (12.0 * h)
                    : (double)NAN;
            if (fabs(slope - before) < best) {
                best = fabs(slope - before);
                want = slope;
                step = h;
            }
            before = slope;
        }
        if (!isfinite(want)) {
            continue;
        }
        const PlumbEffect *const effect = &got->of[o];
        tally->kinks += effect->kink != 0;
        tally->unknown += !isfinite(effect->up);
        if (effect->kink == 0) {
            const double of_end = setup->lead == PLUMB_LEAD_AUTO
                                      ? 4e-10 / step * fmax(1.0, 20.0 * fabs(here_value[o]))
                                      : 0.0;
            judge(effect->up, want, best, of_end, plumb_press_output_name((PlumbPressOutput)o), by,
                  tally);
        }
    }
}

/* Every second factor of each press, so that all have their turn. */
static void slopes__equal_differences(void **state)
{
    (void)state;
    enum { CASES = 300 };
    Random random = random_begin(0x510e5u);
    Tally tally[2] = {{0}, {0}};
    int held = 0;
    while (held < cases_of(CASES)) {
        const PlumbLifter lifter = random_lifter(&random);
        const PlumbSetup setup = random_press(&random, &lifter);
        const int count = plumb_factors(&setup, factor);
        if (!plumb_press_effects_solve(&lifter, &setup, factor, count, row)) {
            continue;
        }
        held++;
        for (int i = held % 2; i < count; i += 2) {
            if (factor[i].kind != PLUMB_FACTOR_SETTING ||
                factor[i].setting != PLUMB_SET_path_exponent || setup.path_exponent > 1.01) {
                compare(&lifter, &setup, &factor[i], &row[i],
                        &tally[setup.lead == PLUMB_LEAD_AUTO]);
            }
        }
    }
    for (int led = 0; led < 2; led++) {
        print_message("%s: %ld slopes, %ld exact, %ld kinks, %ld unknown\n",
                      led == 1 ? "auto" : "touch", tally[led].compared, tally[led].exact,
                      tally[led].kinks, tally[led].unknown);
        assert_true(tally[led].compared > cases_of(10000));
        assert_true(tally[led].kinks * 100 < tally[led].compared);
    }
    assert_true(tally[0].exact * 1000 > tally[0].compared * 999);
    assert_true(tally[1].exact * 100 > tally[1].compared * 95);
}

/* One-sided difference of fourth order of one figure. */
static double one_sided(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbFactor *by,
                        double h, int output)
{
    static const double weight[5] = {-25.0 / 12.0, 4.0, -3.0, 4.0 / 3.0, -0.25};
    double sum = 0.0;
    for (int k = 0; k < 5; k++) {
        double value[OUTPUTS];
        Branch branch;
        solve_moved(lifter, setup, by, k * h, value, &branch);
        sum += weight[k] * value[output];
    }
    return sum / h;
}

/* Solves all slopes; the row of the factor of this name. */
static int solve_row(const PlumbLifter *lifter, const PlumbSetup *setup, const char *name)
{
    const int count = plumb_factors(setup, factor);
    assert_true(plumb_press_effects_solve(lifter, setup, factor, count, row));
    int at = 0;
    while (at < count && strcmp(plumb_factor_name(&factor[at]), name) != 0) {
        at++;
    }
    assert_true(at < count);
    return at;
}

/* The factor's slopes of one figure: a kink of this bit, both sides as differences have them. The
 * tolerance is of differences of ends known to 1e-10 m over 1e-5, and of their own curvature. */
static void assert_kink(const PlumbLifter *lifter, const PlumbSetup *setup, const char *name,
                        PlumbPressOutput output, unsigned bit)
{
    const int at = solve_row(lifter, setup, name);
    const PlumbEffect *const effect = &row[at].of[output];
    assert_int_equal(effect->kink & bit, bit);
    assert_true(plumb_kink_text(bit)[0] != '\0');
    const double tolerance = 2e-4 * (fabs(effect->up) + fabs(effect->down)) + 1e-4;
    const double h = 1e-5; /* short of the next kink */
    assert_near(effect->up, one_sided(lifter, setup, &factor[at], h, (int)output), tolerance);
    assert_near(effect->down, one_sided(lifter, setup, &factor[at], -h, (int)output), tolerance);
    assert_true(fabs(effect->up - effect->down) > 4.0 * tolerance);
}

static void kink__a_moment_passes_zero(void **state)
{
    (void)state;
    Random random = random_begin(0x51u);
    PlumbLifter lifter = random_lifter(&random);
    for (int i = 0; i < 3; i++) {
        lifter.body.segment[PLUMB_SEG_upper_arm + i].mass_frac = 0.0;
    }
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.lead = PLUMB_LEAD_TOUCH;
    setup.touch_m = 0.0;
    assert_kink(&lifter, &setup, "touch", PLUMB_PRESS_OUT_flexion_effort, PLUMB_KINK_MOMENT_SIGN);
    const PlumbEffectRow *const touch = &row[solve_row(&lifter, &setup, "touch")];
    assert_true(touch->of[PLUMB_PRESS_OUT_flexion_effort].up > 0.0);
    assert_true(touch->of[PLUMB_PRESS_OUT_flexion_effort].down < 0.0);
    assert_int_equal(touch->of[PLUMB_PRESS_OUT_flexion_moment].kink, 0);
    assert_int_equal(touch->of[PLUMB_PRESS_OUT_travel].kink, 0);
}

/* A press of auto whose range the effort ends on both sides. */
static PlumbSetup free_range(Random *random, PlumbLifter *lifter, PlumbPressAnswer *answer)
{
    PlumbSetup setup;
    do {
        *lifter = random_lifter(random);
        setup = random_press(random, lifter);
        setup.lead = PLUMB_LEAD_AUTO;
        plumb_press_solve(lifter, &setup, answer);
    } while (answer->outcome != PLUMB_HELD || answer->low_effort.high_end != PLUMB_END_effort ||
             answer->low_effort.low_end != PLUMB_END_effort);
    return setup;
}

/* The limit that a press just keeps at a touch, put into the lifter: of the angle that grows with
 * the touch's way outwards. */
static void put_limit(PlumbLifter *lifter, const PlumbSetup *setup, double touch_m,
                      PlumbLimit limit, PlumbPressAngle angle)
{
    PlumbSetup at = *setup;
    PlumbPressAnswer answer;
    at.lead = PLUMB_LEAD_TOUCH;
    at.touch_m = touch_m;
    plumb_press_quick(lifter, &at, &answer);
    lifter->limit_rad[limit] = answer.touch.angle_rad[angle];
}

/* The shoulder's flexion grows toward the head, so that its limit is put on the range's lower end.
 */
static void kink__the_range_just_reaches_the_window(void **state)
{
    (void)state;
    Random random = random_begin(0xc11u);
    int met = 0;
    for (int tries = 0; tries < 200 && met < 5; tries++) {
        PlumbLifter lifter;
        PlumbPressAnswer answer;
        const PlumbSetup setup = free_range(&random, &lifter, &answer);
        put_limit(&lifter, &setup, answer.low_effort.low, PLUMB_LIMIT_shoulder_flexion,
                  PLUMB_PRESS_ANG_shoulder_flexion);
        const double low = answer.low_effort.low;
        plumb_press_solve(&lifter, &setup, &answer);
        if (fabs(answer.window.low - low) > 1e-8) {
            continue; /* the angle does not end the window there */
        }
        met++;
        assert_kink(&lifter, &setup, "arch", PLUMB_PRESS_OUT_touch, PLUMB_KINK_RANGE_CLIPPED);
    }
    assert_int_equal(met, 5);
}

/* Flexion and elbow flexion just met at one touch inside the range. */
static void kink__two_limits_end_the_window(void **state)
{
    (void)state;
    Random random = random_begin(0x2e4du);
    int met = 0;
    for (int tries = 0; tries < 400 && met < 5; tries++) {
        PlumbLifter lifter;
        PlumbPressAnswer answer;
        const PlumbSetup setup = free_range(&random, &lifter, &answer);
        const double at = 0.7 * answer.low_effort.low + 0.3 * answer.low_effort.high;
        put_limit(&lifter, &setup, at, PLUMB_LIMIT_shoulder_flexion,
                  PLUMB_PRESS_ANG_shoulder_flexion);
        put_limit(&lifter, &setup, at, PLUMB_LIMIT_elbow_flexion, PLUMB_PRESS_ANG_elbow_flexion);
        plumb_press_solve(&lifter, &setup, &answer);
        if (!answer.window.exists || fabs(answer.window.low - at) > 1e-8) {
            continue;
        }
        const PlumbEffect e = row[solve_row(&lifter, &setup, "arch")].of[PLUMB_PRESS_OUT_touch];
        if (e.kink != 0 && fabs(e.up - e.down) > 0.01) {
            met++;
            assert_kink(&lifter, &setup, "arch", PLUMB_PRESS_OUT_touch, PLUMB_KINK_END_CHANGES);
        }
    }
    assert_int_equal(met, 5);
}

/* Asked further toward the feet than the elbow's circle reaches, nothing moves; on the near side
 * the slope has no bound. */
static void kink__the_elbows_just_reach(void **state)
{
    (void)state;
    Random random = random_begin(0xe1b0u);
    const PlumbLifter lifter = random_lifter(&random);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.lead = PLUMB_LEAD_TOUCH;
    setup.touch_m = 0.10;
    setup.elbows_given = true;
    const PlumbPress press = plumb_press_begin(&lifter, &setup);
    const PlumbArm arm = plumb_press_arm(&press, 0.0);
    const double x = arm.along * arm.n.x + arm.radius * hypot(arm.e1.x, arm.e2.x);
    setup.elbows_rad = acos(x / press.upper);
    const int at = solve_row(&lifter, &setup, "elbows");
    const PlumbEffect *const effect = &row[at].of[PLUMB_PRESS_OUT_elbow_moment];
    assert_int_equal(effect->kink, PLUMB_KINK_NO_SLOPE);
    assert_true(isnan(effect->up));
    assert_near(effect->down, 0.0, 0.0);
}

static long start_at(const PlumbLifter *lifter, const PlumbSetup *setup, const PlumbFactor *by,
                     double delta)
{
    double value[OUTPUTS];
    Branch branch;
    solve_moved(lifter, setup, by, delta, value, &branch);
    return branch.start;
}

/* Between two presses whose quickest centimetre begins elsewhere one has two as quick. */
static void kink__two_heights_are_as_quick(void **state)
{
    (void)state;
    Random random = random_begin(0x91u);
    const PlumbFactor touch = {
        .kind = PLUMB_FACTOR_SETTING, .setting = PLUMB_SET_touch, .quantity = PLUMB_Q_LENGTH};
    int met = 0;
    for (int tries = 0; tries < 2000 && met < 3; tries++) {
        const PlumbLifter lifter = random_lifter(&random);
        PlumbSetup setup = random_press(&random, &lifter);
        setup.lead = PLUMB_LEAD_TOUCH;
        double low = 0.0;
        double high = 0.03;
        const long begin = start_at(&lifter, &setup, &touch, low);
        const long end = start_at(&lifter, &setup, &touch, high);
        if (labs(end - begin) < 100) {
            continue; /* a near neighbour is a kink too small for differences */
        }
        while (high - low > 1e-15) {
            const double middle = 0.5 * (low + high);
            if (start_at(&lifter, &setup, &touch, middle) == begin) {
                low = middle;
            } else {
                high = middle;
            }
        }
        setup.touch_m += low;
        PlumbPressAnswer answer;
        plumb_press_quick(&lifter, &setup, &answer);
        if (answer.outcome != PLUMB_HELD ||
            labs(start_at(&lifter, &setup, &touch, 1e-9) - begin) < 100) {
            continue;
        }
        met++;
        assert_kink(&lifter, &setup, "touch", PLUMB_PRESS_OUT_abduction_step, PLUMB_KINK_QUICKEST);
    }
    assert_int_equal(met, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slopes__equal_differences),
        cmocka_unit_test(kink__a_moment_passes_zero),
        cmocka_unit_test(kink__the_range_just_reaches_the_window),
        cmocka_unit_test(kink__two_limits_end_the_window),
        cmocka_unit_test(kink__the_elbows_just_reach),
        cmocka_unit_test(kink__two_heights_are_as_quick),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
