/* SPDX-License-Identifier: MIT */
/* A press in motion: derivatives against differences, the balance of energy, moments against stored
 * answers of MuJoCo, what is refused. */
#include "press_motion.h"
#include "support.h"

#include "compare.h"

static PressMotionCase one;

/* Central differences of sixth order. */
static double first(const double f[7], double h)
{
    return (45.0 * (f[4] - f[2]) - 9.0 * (f[5] - f[1]) + (f[6] - f[0])) / (60.0 * h);
}

static PlumbVec3 first3(const PlumbVec3 p[7], double h)
{
    double x[7], y[7], z[7];
    for (int i = 0; i < 7; i++) {
        x[i] = p[i].x;
        y[i] = p[i].y;
        z[i] = p[i].z;
    }
    return vec3(first(x, h), first(y, h), first(z, h));
}

/* Speeds are those of the places, accelerations those of the speeds. */
static void derivatives__equal_differences(void **state)
{
    (void)state;
    double worst = 0.0;
    for (int c = 0; c < 60; c++) {
        press_motion_case(c, &one);
        const double h = 1e-3 * one.rep_time_s;
        for (int k = 1; k < 10; k++) {
            PlumbPressMotionPoint far[7];
            for (int i = 0; i < 7; i++) {
                assert_int_equal(plumb_press_motion_at(&one.lifter, &one.answer, one.rep_time_s,
                                                       0.1 * k * one.rep_time_s + (i - 3) * h,
                                                       &far[i], NULL),
                                 PLUMB_OK);
            }
            for (int m = 0; m < PLUMB_PRESS_MASS_COUNT; m++) {
                PlumbVec3 at[7], speed[7];
                for (int i = 0; i < 7; i++) {
                    at[i] = far[i].mass[m].at_m;
                    speed[i] = far[i].mass[m].velocity_m_s;
                }
                const PlumbPressMassPoint *const p = &far[3].mass[m];
                const double v = vec3_length(vec3_sub(first3(at, h), p->velocity_m_s));
                const double a = vec3_length(vec3_sub(first3(speed, h), p->acceleration_m_s2));
                /* Rounding of the places over h, and the seventh derivative times h^6. */
                assert_near(v, 0.0, 1e-7 * (1.0 + vec3_length(p->velocity_m_s)));
                assert_near(a, 0.0, 1e-6 * (1.0 + vec3_length(p->acceleration_m_s2)));
                worst = fmax(worst, a);
            }
        }
    }
    print_message("  accelerations within %.2g m/s2\n", worst);
}

/* Rate of turning of a slender link, without the part about its own axis. */
static PlumbVec3 turning(PlumbVec3 w, PlumbVec3 v)
{
    return vec3_scale(vec3_cross(w, v), 1.0 / vec3_dot(w, w));
}

/* What the joints' moments do: that of the shoulder on the upper arm, that of the elbow on the
 * difference of the two turnings. Whole moments, of which the program tells components. */
static double power_of_moments(const PlumbPressMotionPoint *p)
{
    const PlumbVec3 *const at = p->position.point;
    const PlumbVec3 upper = vec3_sub(at[PLUMB_PRESS_elbow], at[PLUMB_PRESS_shoulder]);
    const PlumbVec3 fore = vec3_sub(at[PLUMB_PRESS_grip], at[PLUMB_PRESS_elbow]);
    const PlumbVec3 v_grip = p->mass[PLUMB_PRESS_MASS_bar].velocity_m_s;
    const PlumbSegment *const row = one.lifter.body.segment;
    const PlumbVec3 v_elbow = vec3_scale(p->mass[PLUMB_PRESS_MASS_upper_arm].velocity_m_s,
                                         1.0 / row[PLUMB_SEG_upper_arm].com_frac);
    const PlumbVec3 rate[2] = {turning(upper, v_elbow), turning(fore, vec3_sub(v_grip, v_elbow))};
    PlumbVec3 moment[2];
    for (int j = 0; j < 2; j++) {
        const PlumbVec3 about = at[j == 0 ? PLUMB_PRESS_shoulder : PLUMB_PRESS_elbow];
        moment[j] = vec3(0.0, 0.0, 0.0);
        for (int m = 0; m < PLUMB_PRESS_MASS_COUNT; m++) {
            if (j == 1 && m == PLUMB_PRESS_MASS_upper_arm) {
                continue;
            }
            const PlumbPressMassPoint *const q = &p->mass[m];
            const PlumbVec3 force =
                vec3_sub(vec3_scale(vec3_add(q->acceleration_m_s2, vec3(0.0, PLUMB_GRAVITY, 0.0)),
                                    q->mass_kg),
                         q->push_n);
            moment[j] = vec3_add(moment[j], vec3_cross(vec3_sub(q->at_m, about), force));
            moment[j] = vec3_add(moment[j], q->spin_rate_n_m);
        }
    }
    return 2.0 * (vec3_dot(moment[0], rate[0]) + vec3_dot(moment[1], vec3_sub(rate[1], rate[0])));
}

static double simpson(const double *value, int count, int every, double step)
{
    double sum = 0.0;
    for (int i = 0; i < count; i += every) {
        const bool end = i == 0 || i == count - 1;
        sum += (end ? 1.0 : (i / every) % 2 == 1 ? 4.0 : 2.0) * value[i];
    }
    return sum * every * step / 3.0;
}

/* Power of the moments is the rate of energy; over the whole way its sum is the energy gained. */
static void energy__is_what_the_moments_give(void **state)
{
    enum { POINTS = 1001 };
    static PlumbPressMotionPoint point[POINTS];
    static double given[POINTS];
    (void)state;
    double worst = 0.0;
    for (int c = 0; c < 40; c++) {
        press_motion_case(c, &one);
        PlumbPressMotionFacts facts;
        assert_int_equal(plumb_press_motion_solve(&one.lifter, &one.answer, one.rep_time_s, POINTS,
                                                  point, &facts, NULL),
                         PLUMB_OK);
        for (int i = 0; i < POINTS; i++) {
            const double power = power_of_moments(&point[i]);
            assert_near(power, point[i].power_w, 1e-9 * (1.0 + fabs(power)));
            given[i] = power;
        }
        /* Simpson's rule over 1000 and over 500 steps, and what the two tend to. */
        const double step = one.rep_time_s / (POINTS - 1);
        const double sum =
            (16.0 * simpson(given, POINTS, 1, step) - simpson(given, POINTS, 2, step)) / 15.0;
        const double gained = point[POINTS - 1].energy_j;
        worst = fmax(worst, fabs(sum - gained) / gained);
        assert_near(sum, gained, 1e-9 * gained);
        double lifted = one.answer.work_bar_j;
        for (int m = PLUMB_PRESS_MASS_upper_arm; m < PLUMB_PRESS_MASS_COUNT; m++) {
            lifted += 2.0 * point[0].mass[m].mass_kg * PLUMB_GRAVITY *
                      (point[POINTS - 1].mass[m].at_m.y - point[0].mass[m].at_m.y);
        }
        assert_near(gained, lifted, 1e-9 * lifted);
    }
    print_message("  energy within %.2g of what is gained\n", worst);
}

static void ends__are_at_rest(void **state)
{
    (void)state;
    double most = 0.0;
    for (int c = 0; c < 40; c++) {
        press_motion_case(c, &one);
        for (int k = 0; k < PRESS_INSTANTS; k++) {
            const PlumbPressMotionPoint *const p = &one.point[k];
            for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
                const double off = p->moment_n_m[j] - p->position.moment_n_m[j];
                if (k == 0 || k == PRESS_INSTANTS - 1) {
                    assert_near(off, 0.0, 1e-9);
                }
                most = fmax(most, fabs(off));
            }
        }
        const PlumbPressMotionPoint *const last = &one.point[PRESS_INSTANTS - 1];
        assert_near(last->position.point[PLUMB_PRESS_bar].y,
                    one.answer.lockout.point[PLUMB_PRESS_bar].y, 1e-12);
    }
    assert_true(most > 1.0); /* else the motion would not show */
}

static void moments__equal_stored_mujoco(void **state)
{
    (void)state;
    static double stored[PRESS_ROWS][COMPARE_COLUMNS];
    assert_int_equal(compare_read(PLUMB_TEST_DATA "/mujoco_press_motion.csv", PRESS_ROWS, stored),
                     PRESS_ROWS);
    for (int c = 0; c < PRESS_LIFTERS; c++) {
        press_motion_case(c, &one);
        for (int k = 1; k < PRESS_INSTANTS - 1; k++) {
            for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
                assert_near(one.point[k].moment_n_m[j], stored[c * (PRESS_INSTANTS - 2) + k - 1][j],
                            1e-7);
            }
        }
    }
}

static void motion__refuses_what_jumps(void **state)
{
    (void)state;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.78, 85.0);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.lockout_over_m = 0.05;
    PlumbPressAnswer answer;
    PlumbPressMotionPoint point;
    PlumbError error;
    plumb_press_solve(&lifter, &setup, &answer);
    assert_int_equal(plumb_press_motion_at(&lifter, &answer, 3.6, 1.0, &point, &error),
                     PLUMB_UNSUPPORTED);
    assert_string_equal(error.field, "elbows");
    plumb_setup_set(&setup, PLUMB_SET_elbows, 1.0);
    plumb_press_solve(&lifter, &setup, &answer);
    assert_int_equal(plumb_press_motion_at(&lifter, &answer, 3.6, 1.0, &point, &error), PLUMB_OK);
    assert_int_equal(plumb_press_motion_at(&lifter, &answer, 0.1, 0.05, &point, &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(plumb_press_motion_at(&lifter, &answer, 3.6, 4.0, &point, &error),
                     PLUMB_BAD_INPUT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(derivatives__equal_differences),
        cmocka_unit_test(energy__is_what_the_moments_give),
        cmocka_unit_test(ends__are_at_rest),
        cmocka_unit_test(moments__equal_stored_mujoco),
        cmocka_unit_test(motion__refuses_what_jumps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
