/* SPDX-License-Identifier: MIT */
/* This program's moments and poses against the answers that MuJoCo, ODE and GSL gave, kept as data:
 * runs where those libraries are missing. */
#include "support.h"

#include "compare.h"
#include "press_sample.h"

static double stored[MOMENT_CASES][COMPARE_COLUMNS];

static void check_moments(const char *path, int rows, double relative, double absolute_n_m)
{
    assert_int_equal(compare_read(path, rows, stored), rows);
    for (int i = 0; i < rows; i++) {
        PlumbLifter lifter;
        PlumbSetup setup;
        PlumbPosition position;
        moment_case(i, &lifter, &setup, &position);
        double largest = 0.0;
        for (int k = 0; k < PLUMB_JOINT_COUNT; k++) {
            largest = fmax(largest, fabs(position.moment_both_n_m[k]));
        }
        for (int k = 0; k < PLUMB_JOINT_COUNT; k++) {
            assert_near(position.moment_both_n_m[k], stored[i][k],
                        absolute_n_m + relative * largest);
        }
    }
}

static void moments__equal_stored_mujoco(void **state)
{
    (void)state;
    check_moments(PLUMB_TEST_DATA "/mujoco_moments.csv", MOMENT_CASES, 0.0, 1e-9);
}

static void press__equals_stored_mujoco(void **state)
{
    (void)state;
    assert_int_equal(compare_read(PLUMB_TEST_DATA "/mujoco_press.csv", MOMENT_CASES, stored),
                     MOMENT_CASES);
    for (int i = 0; i < MOMENT_CASES; i++) {
        PlumbLifter lifter;
        PlumbPressAnswer press;
        PlumbPressPosition at;
        press_case(i, &lifter, &press, &at);
        for (int k = 0; k < PLUMB_PRESS_JOINT_COUNT; k++) {
            assert_near(at.moment_n_m[k], stored[i][k], 1e-9);
        }
    }
}

static void moments__equal_stored_ode(void **state)
{
    (void)state;
    check_moments(PLUMB_TEST_DATA "/ode_moments.csv", ODE_CASES, 1e-5, 0.0);
}

static void roots__equal_stored_gsl(void **state)
{
    (void)state;
    assert_int_equal(compare_read(PLUMB_TEST_DATA "/gsl_roots.csv", ROOT_CASES, stored),
                     ROOT_CASES);
    uint64_t seed = root_seed;
    for (int i = 0; i < ROOT_CASES; i++) {
        RootCase root;
        root_case(&seed, &root);
        for (int k = 0; k < 3; k++) {
            assert_near(root.root.v[k], stored[i][k], 1e-9);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(moments__equal_stored_mujoco),
        cmocka_unit_test(press__equals_stored_mujoco),
        cmocka_unit_test(moments__equal_stored_ode),
        cmocka_unit_test(roots__equal_stored_gsl),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
