/* SPDX-License-Identifier: MIT */
/* What every path must keep, over random set-ups with a fixed seed: its ends, balance, straight
 * arms, a knee that never bends again on the way up. */
#include "support.h"

#include "compare.h"

enum { CASES = 1000, POINTS = 41 };

static const double tight = 1e-9;

static PlumbPathPoint path[POINTS];

typedef struct Walk {
    int index;
    PlumbLifter lifter;
    PlumbAnswer answer;
    PlumbPathFacts facts;
} Walk;

static bool walk(int i, PlumbLift lift, Walk *w)
{
    Random random = random_begin(0x7061746873000000u + (uint64_t)i);
    w->index = i;
    w->lifter = random_lifter(&random);
    const PlumbSetup setup = random_setup(&random, &w->lifter, lift);
    plumb_answer_solve(&w->lifter, &setup, &w->answer);
    return plumb_path_solve(&w->lifter, &w->answer, POINTS, path, &w->facts);
}

static void same_position(const PlumbPosition *a, const PlumbPosition *b)
{
    assert_near(a->pose.hip_x_m, b->pose.hip_x_m, tight);
    assert_near(a->pose.hip_height_m, b->pose.hip_height_m, tight);
    assert_near(a->pose.thorax_lean_rad, b->pose.thorax_lean_rad, tight);
    assert_near(a->spine_rad, b->spine_rad, tight);
    for (int k = 0; k < PLUMB_POINT_COUNT; k++) {
        assert_near(a->point[k].x, b->point[k].x, tight);
        assert_near(a->point[k].y, b->point[k].y, tight);
        assert_near(a->point[k].z, b->point[k].z, tight);
    }
}

static double arm_length(const PlumbLifter *lifter)
{
    const PlumbBody *b = &lifter->body;
    return b->shoulder_drop_m + b->upper_arm_m + b->forearm_m + b->wrist_to_grip_fingers_m;
}

static void check_pull(const Walk *w)
{
    const PlumbAnswer *a = &w->answer;
    double bend = (double)INFINITY;
    for (int i = 0; i < POINTS; i++) {
        if (!path[i].held) {
            continue;
        }
        const PlumbPosition *p = &path[i].position;
        const double own = p->angle_rad[PLUMB_ANG_knee_flexion];
        assert_true(own <= bend + tight);
        bend = own;
        assert_near(p->balance_frac, a->start.balance_frac, tight);
        assert_near(vec3_length(vec3_sub(p->point[PLUMB_PT_shoulder], p->point[PLUMB_PT_grip])),
                    arm_length(&w->lifter), tight);
        assert_near(p->point[PLUMB_PT_bar].y,
                    a->start.point[PLUMB_PT_bar].y +
                        path[i].u * (a->end.point[PLUMB_PT_bar].y - a->start.point[PLUMB_PT_bar].y),
                    tight);
        if (path[i].u <= w->facts.knee_pass_u) {
            assert_true(p->clearance_m >= -1e-8);
        }
    }
    /* A start that puts the shin through the bar begins with the bar pushed ahead. */
    if (a->start.clearance_m >= -tight) {
        same_position(&path[0].position, &a->start);
    } else {
        assert_true(path[0].bar_shift_m > 0.0);
    }
    same_position(&path[POINTS - 1].position, &a->end);
}

static void pull_path__keeps_balance_and_reach_between_its_ends(void **state)
{
    (void)state;
    int whole = 0;
    int tried = 0;
    for (int i = 0; i < CASES; i++) {
        Walk w;
        if (!walk(i, PLUMB_DEADLIFT, &w)) {
            assert_true(w.answer.outcome == PLUMB_NO_POSE || !w.answer.end_held);
            continue;
        }
        tried++;
        if (w.facts.held) {
            whole++;
            check_pull(&w);
        }
    }
    print_message("  %d of %d pulls held all the way\n", whole, tried);
    assert_true(whole > tried / 2);
}

static void check_squat(const Walk *w)
{
    const PlumbAnswer *a = &w->answer;
    for (int i = 0; i < POINTS; i++) {
        const PlumbPosition *p = &path[i].position;
        const double u = path[i].u;
        assert_near(p->balance_frac, a->start.balance_frac, tight);
        assert_near(p->angle_rad[PLUMB_ANG_knee_flexion],
                    PLUMB_STANDING_BEND_RAD +
                        u * (a->start.angle_rad[PLUMB_ANG_knee_flexion] - PLUMB_STANDING_BEND_RAD),
                    tight);
        assert_near(p->spine_rad, u * a->setup.spine_rad, tight);
        const double from = a->end.point[PLUMB_PT_bar].x;
        assert_near(p->point[PLUMB_PT_bar].x, from + u * (a->start.point[PLUMB_PT_bar].x - from),
                    tight);
    }
    same_position(&path[0].position, &a->end);
    same_position(&path[POINTS - 1].position, &a->start);
}

static void squat_path__keeps_balance_between_its_ends(void **state)
{
    (void)state;
    int whole = 0;
    int tried = 0;
    for (int i = 0; i < CASES; i++) {
        Walk w;
        if (!walk(i, PLUMB_SQUAT, &w)) {
            assert_true(w.answer.outcome == PLUMB_NO_POSE || !w.answer.end_held);
            continue;
        }
        tried++;
        if (w.facts.held) {
            whole++;
            check_squat(&w);
        }
    }
    print_message("  %d of %d squats held all the way\n", whole, tried);
    assert_true(whole > tried / 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pull_path__keeps_balance_and_reach_between_its_ends),
        cmocka_unit_test(squat_path__keeps_balance_between_its_ends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
