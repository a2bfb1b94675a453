/* SPDX-License-Identifier: MIT */
/* The slopes of a press against differences of whole answers, and each kink from both sides. */
#include "support.h"

#include "press_sample.h"

#include "solve/press.h"

#include <plumbar/press_effects.h>

#include <string.h>

enum { OUTPUTS = PLUMB_PRESS_OUTPUT_COUNT, STEPS = 4 };

static PlumbFactor factor[PLUMB_FACTOR_MAX];
static PlumbPressEffectRow row[PLUMB_FACTOR_MAX];

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
                    const PlumbPressEffectRow *got, Tally *tally)
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
    while (held < CASES) {
        const PlumbLifter lifter = random_lifter(&random);
        const PlumbSetup setup = random_press(&random, &lifter);
        const int count = plumb_press_factors(&setup, factor);
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
        assert_true(tally[led].compared > 10000);
        assert_true(tally[led].kinks * 100 < tally[led].compared);
    }
    assert_true(tally[0].exact * 1000 > tally[0].compared * 999);
    assert_true(tally[1].exact * 100 > tally[1].compared * 95);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slopes__equal_differences),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
