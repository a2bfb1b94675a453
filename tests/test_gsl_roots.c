/* SPDX-License-Identifier: MIT */
/* The solver's poses against GSL's hybrid method for several equations, on the program's own
 * equations and on ones written apart from it. With --write FILE the roots are stored. */
#include "support.h"

#include "compare.h"
#include "residuals.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_multiroots.h>
#include <gsl/gsl_vector.h>

static const double tolerance = 1e-9; /* m, rad */

static double answer[ROOT_CASES][COMPARE_COLUMNS];

static double target_value(const RootCase *root, int i)
{
    const PlumbConstraint *constraint = &root->problem.constraint[i];
    return constraint->id == PLUMB_CON_depth ? -constraint->target : constraint->target;
}

static int own_equations(const gsl_vector *x, void *context, gsl_vector *f)
{
    const RootCase *root = context;
    PlumbState state = root->root;
    for (size_t i = 0; i < 3; i++) {
        state.v[root->problem.free[i]] = gsl_vector_get(x, i);
    }
    PlumbEval eval;
    plumb_eval(&root->c.rig, &state, -1.0, &eval);
    for (int i = 0; i < 3; i++) {
        const double value = plumb_constraint_value(&eval, root->problem.constraint[i].id, NULL);
        gsl_vector_set(f, (size_t)i, value - target_value(root, i));
    }
    return GSL_SUCCESS;
}

static int plain_equations(const gsl_vector *x, void *context, gsl_vector *f)
{
    const RootCase *root = context;
    const double q[3] = {gsl_vector_get(x, 0), gsl_vector_get(x, 1), gsl_vector_get(x, 2)};
    double residual[3];
    plain_residuals(&root->lifter, &root->c.setup, q, residual);
    for (size_t i = 0; i < 3; i++) {
        gsl_vector_set(f, i, isfinite(residual[i]) ? residual[i] : 10.0);
    }
    return GSL_SUCCESS;
}

typedef int (*Equations)(const gsl_vector *x, void *context, gsl_vector *f);

/* From a start that differs from the root by up to 3 cm and 3 degrees; the closest GSL comes. */
static bool gsl_solve(Equations equations, RootCase *root, const double start[3], double q[3])
{
    gsl_multiroot_fsolver *solver = gsl_multiroot_fsolver_alloc(gsl_multiroot_fsolver_hybrids, 3);
    gsl_vector *x = gsl_vector_alloc(3);
    for (size_t i = 0; i < 3; i++) {
        gsl_vector_set(x, i, start[i]);
    }
    gsl_multiroot_function function = {equations, 3, root};
    gsl_multiroot_fsolver_set(solver, &function, x);
    int status = GSL_CONTINUE;
    for (int i = 0; i < 200 && status == GSL_CONTINUE; i++) {
        if (gsl_multiroot_fsolver_iterate(solver) != GSL_SUCCESS) {
            break;
        }
        status = gsl_multiroot_test_residual(solver->f, 1e-12);
    }
    double worst = 0.0;
    for (size_t i = 0; i < 3; i++) {
        q[i] = gsl_vector_get(solver->x, i);
        worst = fmax(worst, fabs(gsl_vector_get(solver->f, i)));
    }
    gsl_vector_free(x);
    gsl_multiroot_fsolver_free(solver);
    return worst < 1e-11;
}

/* A root counts as GSL's where it found one from near by; a singular pose (folded limb, corner of
 * the knee) may need other starts. */
static bool gsl_root(Equations equations, RootCase *root, int i, double q[3])
{
    Random random = random_begin(0x67736cu + (uint64_t)i);
    for (int attempt = 0; attempt < 12; attempt++) {
        const double size = attempt < 6 ? 0.03 : 0.003;
        double start[3];
        for (int k = 0; k < 3; k++) {
            start[k] = root->root.v[k] + random_between(&random, -size, size);
        }
        double far = 0.0;
        if (gsl_solve(equations, root, start, q)) {
            for (int k = 0; k < 3; k++) {
                far = fmax(far, fabs(q[k] - root->root.v[k]));
            }
            /* Another root of the same equations is not a disagreement. */
            if (far < 1e-3) {
                return true;
            }
        }
    }
    return false;
}

static void solve_all(void)
{
    uint64_t seed = root_seed;
    for (int i = 0; i < ROOT_CASES; i++) {
        RootCase root;
        root_case(&seed, &root);
        double q[3] = {(double)NAN, (double)NAN, (double)NAN};
        const bool found = gsl_root(own_equations, &root, i, q);
        for (int k = 0; k < 3; k++) {
            answer[i][k] = found ? q[k] : (double)NAN;
        }
    }
}

static void roots__equal_gsl_hybrid(void **state)
{
    (void)state;
    uint64_t seed = root_seed;
    double worst = 0.0;
    for (int i = 0; i < ROOT_CASES; i++) {
        RootCase root;
        root_case(&seed, &root);
        for (int k = 0; k < 3; k++) {
            assert_near(root.root.v[k], answer[i][k], tolerance);
            worst = fmax(worst, fabs(root.root.v[k] - answer[i][k]));
        }
    }
    print_message("  largest difference of %d roots: %.2g\n", ROOT_CASES, worst);
}

static void roots__equal_gsl_on_equations_written_apart(void **state)
{
    (void)state;
    uint64_t seed = root_seed;
    double worst = 0.0;
    int lifts[PLUMB_LIFT_COUNT] = {0, 0};
    for (int i = 0; i < ROOT_CASES; i++) {
        RootCase root;
        root_case(&seed, &root);
        lifts[root.c.setup.lift]++;
        double q[3];
        if (!gsl_root(plain_equations, &root, i, q)) {
            fail_msg("case %d: no root of the equations written apart near (%.6f %.6f %.6f)", i,
                     root.root.v[0], root.root.v[1], root.root.v[2]);
        }
        for (int k = 0; k < 3; k++) {
            assert_near(root.root.v[k], q[k], tolerance);
            worst = fmax(worst, fabs(root.root.v[k] - q[k]));
        }
    }
    assert_true(lifts[PLUMB_DEADLIFT] > 20 && lifts[PLUMB_SQUAT] > 20);
    print_message("  largest difference of %d pulls and %d squats: %.2g\n", lifts[PLUMB_DEADLIFT],
                  lifts[PLUMB_SQUAT], worst);
}

static void stored__equal_live(void **state)
{
    (void)state;
    static double stored[ROOT_CASES][COMPARE_COLUMNS];
    assert_int_equal(compare_read(PLUMB_TEST_DATA "/gsl_roots.csv", ROOT_CASES, stored),
                     ROOT_CASES);
    for (int i = 0; i < ROOT_CASES; i++) {
        for (int k = 0; k < 3; k++) {
            assert_near(stored[i][k], answer[i][k], tolerance);
        }
    }
}

int main(int argc, char **argv)
{
    gsl_set_error_handler_off();
    solve_all();
    if (argc == 3 && strcmp(argv[1], "--write") == 0) {
        return compare_write(argv[2],
                             "# roots of GSL's hybrid method: hip x m, hip height m, thorax lean "
                             "rad, two unused columns; cases of tests/compare.h",
                             ROOT_CASES, answer);
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(roots__equal_gsl_hybrid),
        cmocka_unit_test(roots__equal_gsl_on_equations_written_apart),
        cmocka_unit_test(stored__equal_live),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
