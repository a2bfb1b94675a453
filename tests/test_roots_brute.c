/* SPDX-License-Identifier: MIT */
/* Poses against brute force on equations written apart from the program: every hip height of a fine
 * grid, every hip place and lean at it, and the sign of what is left over. */
#include "support.h"

#include "compare.h"
#include "residuals.h"

enum { CASES = 600, OUTER = 200, PLACES = 160, LEANS = 60 };

typedef struct Search {
    PlumbLifter lifter;
    PlumbSetup setup;
    int index; /* residual that is looked at */
    double q[3];
} Search;

static double residual_at(Search *search, int unknown, double value)
{
    search->q[unknown] = value;
    double residual[3];
    plain_residuals(&search->lifter, &search->setup, search->q, residual);
    return residual[search->index];
}

/* Root of one residual in one unknown between two values of opposite sign. */
static double bisect(Search *search, int unknown, double a, double b)
{
    const bool rises = residual_at(search, unknown, b) > 0.0;
    for (int i = 0; i < 60; i++) {
        const double middle = 0.5 * (a + b);
        *((residual_at(search, unknown, middle) > 0.0) == rises ? &b : &a) = middle;
    }
    return 0.5 * (a + b);
}

/* The first root of residual `index` in `unknown`, scanned from `from` to `to`; NaN where none. */
static double first_root(Search *search, int index, int unknown, double from, double to, int steps)
{
    search->index = index;
    double last = (double)NAN;
    for (int i = 0; i <= steps; i++) {
        const double value = from + (to - from) * i / steps;
        const double f = residual_at(search, unknown, value);
        if (isfinite(f) && isfinite(last) && (f > 0.0) != (last > 0.0)) {
            return bisect(search, unknown, value - (to - from) / steps, value);
        }
        last = f;
    }
    return (double)NAN;
}

/* What is left over once two residuals are met; NaN where they cannot be. A pull, at a hip height:
 * the hip comes forward until the shin meets the bar, and the shoulder is on the upper side of the
 * arm's circle. A squat, at a hip place: the hip rises to the depth, and the smaller lean balances.
 */
static double left_over(Search *search, double outer)
{
    const PlumbBody *b = &search->lifter.body;
    const double leg = b->shank_m + b->thigh_m;
    const bool pull = search->setup.lift == PLUMB_DEADLIFT;
    const int inner = pull ? 0 : 1;
    search->q[1 - inner] = outer;
    search->q[2] = 1.0;
    search->q[inner] = pull ? first_root(search, 1, 0, -1.05 * leg, 0.3 * leg, PLACES)
                            : first_root(search, 0, 1, 0.1 * leg, 1.3 * leg, PLACES);
    if (isnan(search->q[inner])) {
        return (double)NAN;
    }
    search->q[2] = first_root(search, pull ? 0 : 1, 2, degrees(-10.0), degrees(100.0), LEANS);
    if (isnan(search->q[2])) {
        return (double)NAN;
    }
    double residual[3];
    plain_residuals(&search->lifter, &search->setup, search->q, residual);
    return residual[2];
}

/* Whether what is left over changes sign anywhere on the grid. */
static bool brute_force(Search *search)
{
    const PlumbBody *b = &search->lifter.body;
    const double leg = b->shank_m + b->thigh_m;
    const bool pull = search->setup.lift == PLUMB_DEADLIFT;
    const double low = pull ? b->ankle_height_m + 0.1 * leg : -leg;
    const double high =
        pull ? b->ankle_height_m + 1.02 * leg + search->setup.heel_lift_m : 0.3 * leg;
    double last = (double)NAN;
    for (int i = 0; i <= OUTER; i++) {
        const double f = left_over(search, low + (high - low) * i / OUTER);
        /* A jump from one branch of an inner root to another is no root. */
        if (!isnan(f) && !isnan(last) && (f > 0.0) != (last > 0.0) && fabs(f - last) < 0.25) {
            return true;
        }
        last = f;
    }
    return false;
}

static bool is_root(const Search *search, const PlumbPose *pose)
{
    const double q[3] = {pose->hip_x_m, pose->hip_height_m, pose->thorax_lean_rad};
    double residual[3];
    plain_residuals(&search->lifter, &search->setup, q, residual);
    return fabs(residual[0]) < 1e-9 && fabs(residual[1]) < 1e-9 && fabs(residual[2]) < 1e-9;
}

static void start_or_hole__is_found_where_brute_force_finds_one(void **state)
{
    (void)state;
    int held = 0;
    int refused = 0;
    int seen = 0;
    for (int i = 0; i < CASES; i++) {
        Random random = random_begin(0x6272757465000000u + (uint64_t)i);
        Search search;
        search.lifter = random_lifter(&random);
        const bool pull = i % 2 == 0;
        search.setup = random_setup(&random, &search.lifter, pull ? PLUMB_DEADLIFT : PLUMB_SQUAT);
        search.setup.knees_over_toes = false;
        search.setup.lead = pull         ? PLUMB_LEAD_BALANCE
                            : i % 4 == 1 ? PLUMB_LEAD_SHIN_ANGLE
                                         : PLUMB_LEAD_BACK_ANGLE;
        PlumbAnswer answer;
        plumb_answer_quick(&search.lifter, &search.setup, &answer);
        const bool found = brute_force(&search);
        if (answer.outcome != PLUMB_NO_POSE) {
            held++;
            seen += found ? 1 : 0;
            assert_true(is_root(&search, &answer.start.pose));
            continue;
        }
        refused++;
        if (found) {
            fail_msg("case %d: brute force finds a pose near (%.4f %.4f %.4f), the solver none", i,
                     search.q[0], search.q[1], search.q[2]);
        }
    }
    print_message("  %d held, %d of them seen on the grid; %d refused\n", held, seen, refused);
    /* The grid must be able to see: it misses only poses folded at its edges. */
    assert_true(seen > held - held / 10);
    assert_true(refused > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(start_or_hole__is_found_where_brute_force_finds_one)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
