/* SPDX-License-Identifier: MIT */
/* What may not change, or only in one way, when all lengths grow, the grip widens, the floor rises
 * or the back rounds: random set-ups with a fixed seed. */
#include "support.h"

#include "compare.h"

enum { CASES = 10000 };

#define check(condition, index) support_check((condition), (index), #condition, __LINE__)

static void support_check(bool holds, int index, const char *what, int line)
{
    if (!holds) {
        print_error("case %d: %s\n", index, what);
        _fail(__FILE__, line);
    }
}

static PlumbSetup case_of(int i, PlumbLift lift, PlumbLifter *lifter)
{
    Random random = random_begin(0x696e766172000000u + (uint64_t)i);
    *lifter = random_lifter(&random);
    return random_setup(&random, lifter, lift);
}

static void scale_lifter(PlumbLifter *lifter, double k)
{
    lifter->body.stature_m *= k;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        lifter->body.length_m[i] *= k;
    }
    lifter->equipment.shaft_diameter_m *= k;
    lifter->equipment.disc_diameter_m *= k;
    lifter->equipment.ring_spacing_m *= k;
    lifter->equipment.knurl_start_m *= k;
    lifter->equipment.knurl_stop_m *= k;
}

static void scale_setup(PlumbSetup *setup, double k)
{
    double *length[] = {&setup->stance_m,   &setup->grip_m,      &setup->depth_m,
                        &setup->bar_over_m, &setup->heel_lift_m, &setup->ball_lift_m,
                        &setup->deficit_m,  &setup->blocks_m,    &setup->hip_height_m};
    for (size_t i = 0; i < sizeof length / sizeof length[0]; i++) {
        *length[i] *= k;
    }
}

/* Angles, shares and efforts stay, lengths and moments grow: mass is held, so a moment grows with
 * its arm, and a capacity with stature. */
static void check_scaled(int i, double k, const PlumbPosition *a, const PlumbPosition *b)
{
    const double tight = 1e-8;
    for (int j = 0; j < PLUMB_ANGLE_COUNT; j++) {
        /* The sine of an angle that an arc sine or cosine gives near its end is less exact. */
        assert_near(b->angle_rad[j], a->angle_rad[j], tight);
    }
    for (int j = 0; j < PLUMB_POINT_COUNT; j++) {
        assert_near(b->point[j].x, k * a->point[j].x, tight);
        assert_near(b->point[j].y, k * a->point[j].y, tight);
        assert_near(b->point[j].z, k * a->point[j].z, tight);
    }
    for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
        assert_near(b->bar_arm_m[j], k * a->bar_arm_m[j], tight);
        check(fabs(b->moment_both_n_m[j] - k * a->moment_both_n_m[j]) < 1e-4, i);
        assert_near(b->relative_effort[j], a->relative_effort[j], 1e-7);
    }
    assert_near(b->balance_frac, a->balance_frac, tight);
}

static void all_lengths_scaled__leave_angles_alone(void **state)
{
    (void)state;
    int held = 0;
    for (int i = 0; i < cases_of(CASES); i++) {
        PlumbLifter lifter;
        PlumbSetup setup = case_of(i, i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT, &lifter);
        Random random = random_begin((uint64_t)i);
        const double k = random_between(&random, 0.7, 1.4);
        PlumbAnswer before;
        PlumbAnswer after;
        plumb_answer_quick(&lifter, &setup, &before);
        scale_lifter(&lifter, k);
        scale_setup(&setup, k);
        plumb_answer_quick(&lifter, &setup, &after);
        check(after.outcome == before.outcome, i);
        if (before.outcome == PLUMB_NO_POSE || before.setup.lead == PLUMB_LEAD_AUTO) {
            continue;
        }
        held++;
        check_scaled(i, k, &before.start, &after.start);
        check(after.end_held == before.end_held, i);
        if (before.end_held) {
            check_scaled(i, k, &before.end, &after.end);
            assert_near(after.travel_m, k * before.travel_m, 1e-8);
        }
    }
    assert_true(held > cases_of(CASES) / 3);
}

/* The way from shoulder to bar as seen from the side: arm² less the spread of the hands beyond the
 * shoulders. */
static void wider_grip__shortens_reach(void **state)
{
    (void)state;
    int count = 0;
    for (int i = 0; i < cases_of(CASES); i++) {
        PlumbLifter lifter;
        PlumbSetup setup = case_of(i, PLUMB_DEADLIFT, &lifter);
        setup.lead = PLUMB_LEAD_BALANCE;
        const PlumbBody *body = &lifter.body;
        const double square =
            body->shoulder_joint_spacing_m - 2.0 * body->forefinger_to_grip_centre_m;
        PlumbAnswer answer[2];
        double reach[2];
        for (int k = 0; k < 2; k++) {
            setup.grip_m = square + 0.02 + 0.15 * k;
            plumb_answer_quick(&lifter, &setup, &answer[k]);
            const PlumbVec3 *p = answer[k].start.point;
            reach[k] = hypot(p[PLUMB_PT_shoulder].x - p[PLUMB_PT_bar].x,
                             p[PLUMB_PT_shoulder].y - p[PLUMB_PT_bar].y);
        }
        if (answer[0].outcome == PLUMB_NO_POSE || answer[1].outcome == PLUMB_NO_POSE) {
            continue;
        }
        count++;
        const double arm = body->shoulder_drop_m + body->upper_arm_m + body->forearm_m +
                           body->wrist_to_grip_fingers_m;
        for (int k = 0; k < 2; k++) {
            const double spread = 0.5 * (0.02 + 0.15 * k);
            assert_near(reach[k], sqrt(arm * arm - spread * spread), 1e-9);
        }
        check(reach[1] < reach[0], i);
        if (answer[0].end_held && answer[1].end_held) {
            check(answer[1].end.point[PLUMB_PT_bar].y > answer[0].end.point[PLUMB_PT_bar].y, i);
        }
    }
    assert_true(count > cases_of(CASES) / 3);
}

static void platform__adds_its_height_to_travel(void **state)
{
    (void)state;
    int count = 0;
    for (int i = 0; i < cases_of(CASES); i++) {
        PlumbLifter lifter;
        PlumbSetup setup = case_of(i, PLUMB_DEADLIFT, &lifter);
        setup.lead = PLUMB_LEAD_BALANCE;
        setup.knees_over_toes = false;
        setup.blocks_m = 0.0;
        setup.deficit_m = 0.0;
        PlumbAnswer floor;
        PlumbAnswer raised;
        plumb_answer_quick(&lifter, &setup, &floor);
        Random random = random_begin((uint64_t)i);
        setup.deficit_m = random_between(&random, 0.001, 0.15);
        plumb_answer_quick(&lifter, &setup, &raised);
        if (isnan(floor.travel_m) || isnan(raised.travel_m)) {
            continue;
        }
        count++;
        assert_near(raised.travel_m - floor.travel_m, setup.deficit_m, 1e-9);
    }
    assert_true(count > cases_of(CASES) / 3);
}

/* The back's capacity is that of its direction, whatever the spine does. */
static void rounding_the_back__never_earns_capacity(void **state)
{
    (void)state;
    int count = 0;
    for (int i = 0; i < cases_of(CASES); i++) {
        PlumbLifter lifter;
        PlumbSetup setup = case_of(i, i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT, &lifter);
        double capacity[2] = {(double)NAN, (double)NAN};
        for (int k = -2; k <= 9; k++) {
            setup.spine_rad = degrees(5.0 * k);
            Random random = random_begin((uint64_t)i);
            const PlumbPosition p = random_position(&random, &lifter, &setup);
            const int direction = p.moment_both_n_m[PLUMB_JOINT_back] >= 0.0 ? 0 : 1;
            const double own = p.capacity_n_m[PLUMB_JOINT_back];
            count += isnan(capacity[direction]) ? 0 : 1;
            check(isnan(capacity[direction]) || own == capacity[direction], i);
            capacity[direction] = own;
        }
    }
    assert_true(count > 10 * cases_of(CASES));
}

/* Largest change of a pull's summed effort between spines of 0 and 45 degrees, the hip held at the
 * height of the preset's own start. */
static double effort_change(PlumbSex sex, PlumbStyle style, double stature_m, double load_share)
{
    const PlumbBodySpec spec = plumb_body_spec(sex, stature_m, 26.0 * stature_m * stature_m);
    PlumbBody body;
    assert_int_equal(plumb_body_build(&spec, &body, NULL), PLUMB_OK);
    const PlumbLifter lifter = plumb_lifter_default(&body);
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    plumb_setup_style(&setup, style);
    setup.load_kg = load_share * body.mass_kg;
    PlumbAnswer answer;
    plumb_answer_quick(&lifter, &setup, &answer);
    setup.hip_height_m = answer.start.pose.hip_height_m;
    setup.lead = PLUMB_LEAD_HIP_HEIGHT;
    double least = (double)INFINITY;
    double most = 0.0;
    for (int k = 0; k <= 9; k++) {
        setup.spine_rad = degrees(5.0 * k);
        plumb_answer_quick(&lifter, &setup, &answer);
        assert_int_not_equal(answer.outcome, PLUMB_NO_POSE);
        least = fmin(least, answer.start.summed_effort);
        most = fmax(most, answer.start.summed_effort);
    }
    return most / least - 1.0;
}

/* A rounder back brings the bar's shoulder nearer and the lumbar hinge further back: the two nearly
 * cancel at a man's working load, less so at others, which is printed and not hidden. */
static void rounding_the_back__changes_effort_little_at_working_loads(void **state)
{
    (void)state;
    double worst = 0.0;
    double anywhere = 0.0;
    for (int i = 0; i < 2 * 2 * 5 * 6; i++) {
        const PlumbSex sex = i % 2 == 0 ? PLUMB_MALE : PLUMB_FEMALE;
        const PlumbStyle style = i / 2 % 2 == 0 ? PLUMB_CONVENTIONAL : PLUMB_SUMO;
        const double stature = 1.55 + 0.1 * (i / 4 % 5);
        const double load = 0.5 + 0.5 * (i / 20);
        const double change = effort_change(sex, style, stature, load);
        anywhere = fmax(anywhere, change);
        if (sex == PLUMB_MALE && style == PLUMB_CONVENTIONAL && load >= 1.5 && load <= 2.0) {
            worst = fmax(worst, change);
        }
    }
    print_message(
        "  men, conventional, 1.5 to 2 body masses: to %.1f %%; both sexes and styles, 0.5 "
        "to 3: to %.1f %%\n",
        100.0 * worst, 100.0 * anywhere);
    assert_true(worst < 0.05);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_lengths_scaled__leave_angles_alone),
        cmocka_unit_test(wider_grip__shortens_reach),
        cmocka_unit_test(platform__adds_its_height_to_travel),
        cmocka_unit_test(rounding_the_back__never_earns_capacity),
        cmocka_unit_test(rounding_the_back__changes_effort_little_at_working_loads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
