/* SPDX-License-Identifier: MIT */
/* Lifts in motion: the time law, speeds and accelerations against differences, moments against
 * stored answers of MuJoCo and against a body of point masses, and the balance of energy. */
#include "support.h"

#include "motion.h"

#include <string.h>

static MotionCase one;

static void minimum_jerk__begins_and_ends_at_rest(void **state)
{
    (void)state;
    static const struct {
        double s, share, rate, acceleration;
    } rows[] = {{0.0, 0.0, 0.0, 0.0}, {1.0, 1.0, 0.0, 0.0}, {0.5, 0.5, 1.875, 0.0}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double share, rate, acceleration;
        plumb_minimum_jerk(rows[i].s, &share, &rate, &acceleration);
        assert_near(share, rows[i].share, 1e-15);
        assert_near(rate, rows[i].rate, 1e-15);
        assert_near(acceleration, rows[i].acceleration, 1e-15);
    }
    /* 10/64 - 15/256 + 6/1024 at a quarter, by hand. */
    double share, rate, acceleration;
    plumb_minimum_jerk(0.25, &share, &rate, &acceleration);
    assert_near(share, 0.103515625, 1e-15);
    assert_near(rate, 30.0 / 16.0 * 0.5625, 1e-15);
    assert_near(acceleration, 60.0 * 0.25 * (1.0 - 0.75 + 0.125), 1e-14);
}

static void moments__equal_stored_mujoco(void **state)
{
    (void)state;
    static double stored[MOTION_ROWS][COMPARE_COLUMNS];
    assert_int_equal(compare_read(PLUMB_TEST_DATA "/mujoco_motion.csv", MOTION_ROWS, stored),
                     MOTION_ROWS);
    uint64_t seed = motion_seed;
    double inertia = 0.0;
    for (int i = 0; i < MOTION_LIFTERS; i++) {
        motion_case(&seed, true, &one);
        for (int k = 0; k < MOTION_INSTANTS; k++) {
            const PlumbMotionPoint *p = &one.point[k];
            for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
                assert_near(p->moment_both_n_m[j], stored[i * MOTION_INSTANTS + k][j], 1e-7);
                inertia =
                    fmax(inertia, fabs(p->moment_both_n_m[j] - p->position.moment_both_n_m[j]));
            }
        }
    }
    assert_true(inertia > 100.0); /* else the comparison would be one of weights alone */
}

static void ends__are_at_rest(void **state)
{
    (void)state;
    uint64_t seed = motion_seed + 5000;
    for (int i = 0; i < 40; i++) {
        motion_case(&seed, false, &one);
        for (int k = 0; k < MOTION_INSTANTS; k += MOTION_INSTANTS - 1) {
            const PlumbMotionPoint *p = &one.point[k];
            for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
                assert_near(p->moment_both_n_m[j], p->position.moment_both_n_m[j], 1e-9);
            }
            assert_near(p->pressure_frac, p->position.balance_frac, 1e-12);
            assert_near(p->bar_speed_m_s, 0.0, 0.0);
            assert_near(p->power_w, 0.0, 0.0);
        }
        const PlumbMotionPoint *end = &one.point[MOTION_INSTANTS - 1];
        /* A start with the bar through the shin (hip height and balance asked for together) is not
         * where its path begins. */
        if (one.answer.start.clearance_m < -1e-9) {
            continue;
        }
        assert_near(end->energy_j, one.answer.work_bar_j + one.answer.work_body_j, 1e-7);
    }
}

/* Whether the path has no corner among the seven instants: speeds change by the accelerations. Were
 * these wrong, too few instants would be left for the tests that ask. */
static bool smooth(const PlumbMotionPoint far[7], double h)
{
    for (int k = 0; k < 6; k++) {
        for (int i = 0; i < PLUMB_MASS_COUNT; i++) {
            const PlumbMassPoint *a = &far[k].mass[i];
            const PlumbMassPoint *b = &far[k + 1].mass[i];
            const PlumbVec3 mean =
                vec3_scale(vec3_add(a->acceleration_m_s2, b->acceleration_m_s2), 0.5);
            const PlumbVec3 change = vec3_sub(b->velocity_m_s, a->velocity_m_s);
            if (vec3_length(vec3_along(change, -h, mean)) > 1e-5) {
                return false;
            }
        }
    }
    return true;
}

/* Seven instants around t, h apart; false near a corner of the path. */
static bool around(double t, double h, PlumbMotionPoint far[7])
{
    PlumbError error;
    for (int i = 0; i < 7; i++) {
        assert_int_equal(plumb_motion_at(&one.lifter, &one.answer, one.rep_time_s, t + (i - 3) * h,
                                         &far[i], &error),
                         PLUMB_OK);
    }
    return smooth(far, h);
}

/* Central differences of sixth order. */
static double first(const double f[7], double h)
{
    return (45.0 * (f[4] - f[2]) - 9.0 * (f[5] - f[1]) + (f[6] - f[0])) / (60.0 * h);
}

static double second(const double f[7], double h)
{
    return (270.0 * (f[4] + f[2]) - 27.0 * (f[5] + f[1]) + 2.0 * (f[6] + f[0]) - 490.0 * f[3]) /
           (180.0 * h * h);
}

static PlumbVec3 difference(const PlumbVec3 at[7], double h, double (*of)(const double *, double))
{
    double x[7], y[7], z[7];
    for (int i = 0; i < 7; i++) {
        x[i] = at[i].x;
        y[i] = at[i].y;
        z[i] = at[i].z;
    }
    return vec3(of(x, h), of(y, h), of(z, h));
}

static void masses__move_as_differences_say(void **state)
{
    (void)state;
    uint64_t seed = motion_seed + 9000;
    int compared = 0;
    double worst_v = 0.0;
    double worst_a = 0.0;
    for (int i = 0; i < 60; i++) {
        motion_case(&seed, false, &one);
        const double h = 2e-3 * one.rep_time_s;
        PlumbMotionPoint far[7];
        if (!around((0.15 + 0.7 * (i % 11) / 10.0) * one.rep_time_s, h, far)) {
            continue;
        }
        for (int m = 0; m < PLUMB_MASS_COUNT; m++) {
            PlumbVec3 at[7];
            for (int k = 0; k < 7; k++) {
                at[k] = far[k].mass[m].at_m;
            }
            const PlumbVec3 v = vec3_sub(difference(at, h, first), far[3].mass[m].velocity_m_s);
            const PlumbVec3 a =
                vec3_sub(difference(at, h, second), far[3].mass[m].acceleration_m_s2);
            worst_v = fmax(worst_v, vec3_length(v));
            worst_a = fmax(worst_a, vec3_length(a));
        }
        compared++;
    }
    print_message("  %d instants: speeds within %.2g m/s, accelerations within %.2g m/s2\n",
                  compared, worst_v, worst_a);
    assert_true(compared >= 50);
    /* Rounding of the places (1e-12 m over h) and the differences' own error. */
    assert_true(worst_v < 1e-7);
    assert_true(worst_a < 1e-4);
}

/* A segment that is slender and has the radius of gyration k about its centre is, for every motion,
 * two half masses at the distance k from it on its line. A body of such points has no spin of its
 * own: this computes the moments of any stance from places alone. */
static void dumbbells(const PlumbMotionPoint *p, int mass, PlumbVec3 point[2])
{
    static const struct {
        PlumbPoint from, to;
    } line[PLUMB_MASS_COUNT] = {
        [PLUMB_MASS_shank] = {PLUMB_PT_knee, PLUMB_PT_ankle},
        [PLUMB_MASS_thigh] = {PLUMB_PT_hip, PLUMB_PT_knee},
        [PLUMB_MASS_upper_arm] = {PLUMB_PT_shoulder, PLUMB_PT_elbow},
        [PLUMB_MASS_forearm] = {PLUMB_PT_elbow, PLUMB_PT_wrist},
        [PLUMB_MASS_hand] = {PLUMB_PT_wrist, PLUMB_PT_grip},
    };
    const PlumbBody *body = &one.lifter.body;
    const PlumbVec3 *pt = p->position.point;
    const double lean = p->position.pose.thorax_lean_rad;
    PlumbVec3 along = vec3(sin(lean), cos(lean), 0.0);
    double k = 0.0;
    if (mass == PLUMB_MASS_pelvis) {
        const PlumbVec3 hip = plumb_position_joint(&p->position, PLUMB_JOINT_hip);
        along = vec3_unit(vec3_sub(pt[PLUMB_PT_lumbar], hip));
        k = body->segment[PLUMB_SEG_pelvis].rg_frac * body->pelvis_m;
    } else if (mass == PLUMB_MASS_thorax) {
        k = body->segment[PLUMB_SEG_thorax].rg_frac * (body->trunk_m - body->pelvis_m);
    } else if (mass == PLUMB_MASS_head) {
        k = body->segment[PLUMB_SEG_head].rg_frac * body->trunk_m;
    } else if (mass != PLUMB_MASS_foot && mass != PLUMB_MASS_bar) {
        static const PlumbSegmentId segment[PLUMB_MASS_COUNT] = {
            [PLUMB_MASS_shank] = PLUMB_SEG_shank,         [PLUMB_MASS_thigh] = PLUMB_SEG_thigh,
            [PLUMB_MASS_upper_arm] = PLUMB_SEG_upper_arm, [PLUMB_MASS_forearm] = PLUMB_SEG_forearm,
            [PLUMB_MASS_hand] = PLUMB_SEG_hand,
        };
        const double length[PLUMB_MASS_COUNT] = {
            [PLUMB_MASS_shank] = body->shank_m,
            [PLUMB_MASS_thigh] = body->thigh_m,
            [PLUMB_MASS_upper_arm] = body->upper_arm_m,
            [PLUMB_MASS_forearm] = body->forearm_m,
            [PLUMB_MASS_hand] = one.answer.setup.lift == PLUMB_DEADLIFT
                                    ? body->wrist_to_grip_fingers_m
                                    : body->wrist_to_grip_palm_m,
        };
        along = vec3_unit(vec3_sub(pt[line[mass].to], pt[line[mass].from]));
        k = body->segment[segment[mass]].rg_frac * length[mass];
    }
    point[0] = vec3_along(p->mass[mass].at_m, k, along);
    point[1] = vec3_along(p->mass[mass].at_m, -k, along);
}

static double moment_of_points(const PlumbMotionPoint far[7], double h, PlumbJoint joint)
{
    const PlumbVec3 j = plumb_position_joint(&far[3].position, joint);
    double sum = 0.0;
    for (int m = (int)plumb_joint_first_mass(joint); m < PLUMB_MASS_COUNT; m++) {
        PlumbVec3 place[2][7];
        for (int k = 0; k < 7; k++) {
            PlumbVec3 pair[2];
            dumbbells(&far[k], m, pair);
            place[0][k] = pair[0];
            place[1][k] = pair[1];
        }
        for (int side = 0; side < 2; side++) {
            const PlumbVec3 a = difference(place[side], h, second);
            const PlumbVec3 r = vec3_sub(place[side][3], j);
            sum += 0.5 * far[3].mass[m].mass_kg * (r.x * (a.y + PLUMB_GRAVITY) - r.y * a.x);
        }
    }
    return extensor_sign((int)joint) * sum;
}

static void moments__equal_a_body_of_points_in_any_stance(void **state)
{
    (void)state;
    uint64_t seed = motion_seed + 20000;
    int compared = 0;
    double worst = 0.0;
    for (int i = 0; i < 60; i++) {
        motion_case(&seed, false, &one);
        const double h = 2e-3 * one.rep_time_s;
        PlumbMotionPoint far[7];
        if (!around((0.15 + 0.7 * (i % 7) / 6.0) * one.rep_time_s, h, far)) {
            continue;
        }
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            const double points = moment_of_points(far, h, (PlumbJoint)j);
            worst = fmax(worst, fabs(points - far[3].moment_both_n_m[j]));
        }
        compared++;
    }
    print_message("  %d instants: within %.2g N m\n", compared, worst);
    assert_true(compared >= 50);
    assert_true(worst < 2e-3); /* accelerations within 1e-5 m/s² times 200 kg m */
}

/* Power of the joints: each net moment times the rate at which the joint opens. */
static double joint_power(const PlumbMotionPoint *p)
{
    Turns turns;
    motion_turns(&one, p, &turns);
    double power = 0.0;
    for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
        const double rate = turns.rate[j] - (j > 0 ? turns.rate[j - 1] : 0.0);
        power += extensor_sign(j) * p->moment_both_n_m[j] * rate;
    }
    return power;
}

static void power__is_that_of_the_joints(void **state)
{
    (void)state;
    uint64_t seed = motion_seed;
    for (int i = 0; i < MOTION_LIFTERS; i++) {
        motion_case(&seed, true, &one);
        for (int k = 0; k < MOTION_INSTANTS; k++) {
            const double power = one.point[k].power_w;
            assert_near(joint_power(&one.point[k]), power, 1e-9 * (1.0 + fabs(power)));
        }
    }
}

/* Work of the joints over a whole squat, by Simpson's rule over an analytic path. */
static void work__of_the_joints_is_the_change_of_energy(void **state)
{
    (void)state;
    static PlumbMotionPoint point[PLUMB_PATH_MAX];
    uint64_t seed = motion_seed + 1;
    double worst = 0.0;
    for (int i = 0; i < 12; i++) {
        do {
            motion_case(&seed, true, &one);
        } while (one.answer.setup.lift != PLUMB_SQUAT);
        PlumbMotionFacts facts;
        PlumbError error;
        assert_int_equal(plumb_motion_solve(&one.lifter, &one.answer, one.rep_time_s,
                                            PLUMB_PATH_MAX, point, &facts, &error),
                         PLUMB_OK);
        double work = 0.0;
        double impulse = 0.0;
        for (int k = 0; k < PLUMB_PATH_MAX; k++) {
            const double weight = k == 0 || k == PLUMB_PATH_MAX - 1 ? 1.0 : k % 2 == 1 ? 4.0 : 2.0;
            work += weight * joint_power(&point[k]);
            impulse += weight * point[k].ground_force_n;
        }
        const double step = one.rep_time_s / (PLUMB_PATH_MAX - 1) / 3.0;
        const double want = one.answer.work_bar_j + one.answer.work_body_j;
        worst = fmax(worst, fabs(work * step - want) / want);
        assert_near(work * step, want, 1e-9 * want);
        assert_near(point[PLUMB_PATH_MAX - 1].energy_j, want, 1e-9 * want);
        /* From rest to rest the floor gives no impulse beyond that of the weight. */
        const double weight_n = plumb_total_mass_kg(&one.lifter, &one.answer.setup) * PLUMB_GRAVITY;
        assert_near(impulse * step / (weight_n * one.rep_time_s), 1.0, 1e-9);
    }
    print_message("  12 squats: work within %.2g of the change of energy\n", worst);
}

/* Between corners of the path the energy changes by the work of the joints in a pull too. */
static void work__of_a_pull_between_corners(void **state)
{
    (void)state;
    static PlumbMotionPoint point[PLUMB_PATH_MAX];
    uint64_t seed = motion_seed + 2000;
    for (int i = 0; i < 8; i++) {
        do {
            motion_case(&seed, true, &one);
        } while (one.answer.setup.lift != PLUMB_DEADLIFT);
        PlumbMotionFacts facts;
        PlumbError error;
        plumb_motion_solve(&one.lifter, &one.answer, one.rep_time_s, PLUMB_PATH_MAX, point, &facts,
                           &error);
        const double step = one.rep_time_s / (PLUMB_PATH_MAX - 1);
        const double whole = one.answer.work_bar_j + one.answer.work_body_j;
        int apart = 0;
        for (int k = 0; k + 4 < PLUMB_PATH_MAX; k += 4) {
            /* Boole's rule over four steps. */
            const double work = step * 2.0 / 45.0 *
                                (7.0 * (joint_power(&point[k]) + joint_power(&point[k + 4])) +
                                 32.0 * (joint_power(&point[k + 1]) + joint_power(&point[k + 3])) +
                                 12.0 * joint_power(&point[k + 2]));
            const double change = point[k + 4].energy_j - point[k].energy_j;
            apart += fabs(work - change) > 1e-9 * whole ? 1 : 0;
        }
        /* The knee pass, the shin that begins or ceases to push the bar, the leg's corners, and the
         * last steps, where (1 - u)^exponent has no second derivative. */
        assert_true(apart <= 8);
    }
}

static void pressure__is_where_the_floor_holds_all_masses(void **state)
{
    (void)state;
    uint64_t seed = motion_seed + 3000;
    for (int i = 0; i < 20; i++) {
        motion_case(&seed, false, &one);
        for (int k = 0; k < MOTION_INSTANTS; k++) {
            const PlumbMotionPoint *p = &one.point[k];
            assert_true(p->ground_force_n > 0.0);
            /* Moments of all masses about the point of the foot where the floor presses. */
            const PlumbVec3 *pt = p->position.point;
            const double x =
                pt[PLUMB_PT_heel].x + p->pressure_frac * (pt[PLUMB_PT_toe].x - pt[PLUMB_PT_heel].x);
            double sum = 0.0;
            for (int m = 0; m < PLUMB_MASS_COUNT; m++) {
                const PlumbMassPoint *b = &p->mass[m];
                sum += b->mass_kg * ((b->at_m.x - x) * (b->acceleration_m_s2.y + PLUMB_GRAVITY) -
                                     b->at_m.y * b->acceleration_m_s2.x) +
                       b->spin_rate_n_m;
            }
            assert_near(sum, 0.0, 1e-8);
        }
    }
}

static void masses__at_rest_give_the_position(void **state)
{
    (void)state;
    Random random = random_begin(0x6d617373u);
    for (int i = 0; i < 500; i++) {
        const PlumbLifter lifter = random_lifter(&random);
        const PlumbSetup setup =
            random_setup(&random, &lifter, i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT);
        const PlumbPosition p = random_position(&random, &lifter, &setup);
        PlumbMassPoint mass[PLUMB_MASS_COUNT];
        plumb_position_masses(&lifter, &setup, &p, mass);
        double total = 0.0;
        PlumbVec3 com = vec3(0.0, 0.0, 0.0);
        for (int m = 0; m < PLUMB_MASS_COUNT; m++) {
            total += mass[m].mass_kg;
            com = vec3_along(com, mass[m].mass_kg, mass[m].at_m);
        }
        assert_near(total, plumb_total_mass_kg(&lifter, &setup), 1e-9);
        assert_near(com.x / total, p.com.x, 1e-12);
        assert_near(com.y / total, p.com.y, 1e-12);
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            const PlumbVec3 joint = plumb_position_joint(&p, (PlumbJoint)j);
            assert_near(plumb_masses_moment(mass, (PlumbJoint)j, joint), p.moment_both_n_m[j],
                        1e-9);
        }
    }
}

static void motion__refuses_what_it_cannot_answer(void **state)
{
    (void)state;
    uint64_t seed = motion_seed;
    motion_case(&seed, true, &one);
    PlumbMotionPoint point[2];
    PlumbMotionFacts facts;
    PlumbError error;
    PlumbLifter classic = one.lifter;
    classic.body.has_radii = false;
    assert_int_equal(plumb_motion_solve(&classic, &one.answer, 2.0, 2, point, &facts, &error),
                     PLUMB_UNSUPPORTED);
    assert_string_equal(error.field, "mass_table");
    assert_non_null(strstr(error.message, "classic"));
    assert_int_equal(plumb_motion_solve(&one.lifter, &one.answer, 0.1, 2, point, &facts, &error),
                     PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "rep_time");
    assert_int_equal(plumb_motion_solve(&one.lifter, &one.answer, 2.0, 1, point, &facts, &error),
                     PLUMB_BAD_INPUT);
    assert_int_equal(plumb_motion_at(&one.lifter, &one.answer, 2.0, 2.5, point, &error),
                     PLUMB_BAD_INPUT);
    assert_string_equal(error.field, "time");
    PlumbAnswer none = one.answer;
    none.end_held = false;
    assert_int_equal(plumb_motion_solve(&one.lifter, &none, 2.0, 2, point, &facts, &error),
                     PLUMB_BAD_INPUT);
}

/* Twice the time: a quarter of what inertia adds, and half of the speed. */
static void inertia__falls_with_the_square_of_time(void **state)
{
    (void)state;
    uint64_t seed = motion_seed + 70;
    motion_case(&seed, false, &one);
    static PlumbMotionPoint slow[MOTION_INSTANTS];
    PlumbMotionFacts facts;
    PlumbError error;
    assert_int_equal(plumb_motion_solve(&one.lifter, &one.answer, 2.0 * one.rep_time_s,
                                        MOTION_INSTANTS, slow, &facts, &error),
                     PLUMB_OK);
    for (int k = 0; k < MOTION_INSTANTS; k++) {
        assert_near(slow[k].bar_speed_m_s, 0.5 * one.point[k].bar_speed_m_s, 1e-12);
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            const double still = slow[k].position.moment_both_n_m[j];
            assert_near(slow[k].moment_both_n_m[j] - still,
                        0.25 * (one.point[k].moment_both_n_m[j] - still), 1e-8);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(minimum_jerk__begins_and_ends_at_rest),
        cmocka_unit_test(moments__equal_stored_mujoco),
        cmocka_unit_test(ends__are_at_rest),
        cmocka_unit_test(masses__move_as_differences_say),
        cmocka_unit_test(moments__equal_a_body_of_points_in_any_stance),
        cmocka_unit_test(power__is_that_of_the_joints),
        cmocka_unit_test(work__of_the_joints_is_the_change_of_energy),
        cmocka_unit_test(work__of_a_pull_between_corners),
        cmocka_unit_test(pressure__is_where_the_floor_holds_all_masses),
        cmocka_unit_test(masses__at_rest_give_the_position),
        cmocka_unit_test(motion__refuses_what_it_cannot_answer),
        cmocka_unit_test(inertia__falls_with_the_square_of_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
