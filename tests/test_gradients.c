/* SPDX-License-Identifier: MIT */
/* The analytic derivatives of every constraint by every unknown against central differences. */
#include "support.h"

#include "compare.h"

enum { CASES = 2000 };

static const double step = 1e-6;      /* m, rad */
static const double tolerance = 2e-6; /* of derivatives of size 1: step² and rounding / step */

/* Value at a state that differs in one unknown. */
static double value_at(const PlumbCase *c, const PlumbState *state, double bend,
                       PlumbConstraintId id, int unknown, double off)
{
    PlumbCase turned = *c;
    PlumbState moved = *state;
    moved.v[unknown] += off;
    plumb_case_turn(&turned, moved.v[PLUMB_PSI]);
    PlumbEval eval;
    plumb_eval(&turned.rig, &moved, bend, &eval);
    return plumb_constraint_value(&eval, id, NULL);
}

typedef struct Counts {
    int checked;
    int kinks;
    double worst;
} Counts;

/* A kink (corner of the knee, side of the leg) shows as one-sided slopes that differ. */
static void check_derivative(const PlumbCase *c, const PlumbState *state, double bend,
                             PlumbConstraintId id, int unknown, double analytic, Counts *counts)
{
    const double middle = value_at(c, state, bend, id, unknown, 0.0);
    const double above = value_at(c, state, bend, id, unknown, step);
    const double below = value_at(c, state, bend, id, unknown, -step);
    const double right = (above - middle) / step;
    const double left = (middle - below) / step;
    if (fabs(right - left) > 1e-3) {
        counts->kinks++;
        return;
    }
    const double difference = (above - below) / (2.0 * step);
    const double size = fmax(1.0, fabs(analytic));
    counts->worst = fmax(counts->worst, fabs(difference - analytic) / size);
    counts->checked++;
    if (!(fabs(difference - analytic) <= tolerance * size)) {
        fail_msg("%s by unknown %d: %.12g, differences give %.12g", plumb_constraint_name(id),
                 unknown, analytic, difference);
    }
}

/* A pose away from the straight leg, where the knee's place has an infinite slope. */
static void random_case(int i, PlumbLifter *lifter, PlumbCase *c, PlumbState *state)
{
    Random random = random_begin(0x6772616400000000u + (uint64_t)i);
    *lifter = random_lifter(&random);
    const PlumbSetup setup =
        random_setup(&random, lifter, i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT);
    plumb_case_begin(lifter, &setup, c);
    const PlumbPosition p = random_position(&random, lifter, &setup);
    *state = plumb_case_guess(c);
    state->v[PLUMB_X] = p.pose.hip_x_m;
    state->v[PLUMB_Y] = p.pose.hip_height_m;
    state->v[PLUMB_LEAN] = p.pose.thorax_lean_rad;
    state->v[PLUMB_BAR_X] = p.point[PLUMB_PT_bar].x;
    state->v[PLUMB_BAR_Y] = p.point[PLUMB_PT_bar].y;
    state->v[PLUMB_PSI] = random_degrees(&random, -20.0, 30.0);
    plumb_case_turn(c, state->v[PLUMB_PSI]);
}

static void check_constraint(PlumbConstraintId id, bool prescribed, Counts *counts)
{
    for (int i = 0; i < CASES; i++) {
        PlumbLifter lifter;
        PlumbCase c;
        PlumbState state;
        random_case(i, &lifter, &c, &state);
        /* A squat has neither a hanging arm nor a bar at the leg. */
        if (c.setup.lift == PLUMB_SQUAT && (id == PLUMB_CON_reach || id == PLUMB_CON_clearance)) {
            continue;
        }
        const double bend = prescribed ? degrees(0.05 * (i % 1800)) : -1.0;
        PlumbEval eval;
        plumb_eval(&c.rig, &state, bend, &eval);
        double gradient[PLUMB_UNKNOWN_COUNT];
        const double value = plumb_constraint_value(&eval, id, gradient);
        assert_true(value == plumb_constraint_value(&eval, id, NULL));
        for (int unknown = 0; unknown < PLUMB_UNKNOWN_COUNT; unknown++) {
            check_derivative(&c, &state, bend, id, unknown, gradient[unknown], counts);
        }
    }
}

static void constraint__derivatives_equal_differences(void **state)
{
    (void)state;
    for (int id = 0; id < PLUMB_CONSTRAINT_COUNT; id++) {
        Counts counts = {0, 0, 0.0};
        check_constraint((PlumbConstraintId)id, false, &counts);
        print_message("  %-16s %d derivatives, %d at kinks, worst %.1g\n",
                      plumb_constraint_name((PlumbConstraintId)id), counts.checked, counts.kinks,
                      counts.worst);
        assert_true(counts.checked > 5 * CASES / 2 && counts.kinks < CASES / 100);
    }
}

static void constraint__derivatives_equal_differences_at_a_prescribed_bend(void **state)
{
    (void)state;
    for (int id = 0; id < PLUMB_CONSTRAINT_COUNT; id++) {
        Counts counts = {0, 0, 0.0};
        check_constraint((PlumbConstraintId)id, true, &counts);
        assert_true(counts.checked > 5 * CASES / 2 && counts.kinks < CASES / 100);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(constraint__derivatives_equal_differences),
        cmocka_unit_test(constraint__derivatives_equal_differences_at_a_prescribed_bend),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
