/* SPDX-License-Identifier: MIT */
/* What must hold for every lifter in every set-up: 10,000 random ones with a fixed seed. */
#include "support.h"

#include "compare.h"

enum { CASES = 10000 };

static const double residual_most = 1e-10;

/* One random problem with its answer. */
typedef struct Trial {
    int index;
    PlumbLifter lifter;
    PlumbSetup setup;
    PlumbAnswer answer;
} Trial;

static void trial_begin(int i, Trial *trial)
{
    Random random = random_begin(0x70726f7000000000u + (uint64_t)i);
    trial->index = i;
    trial->lifter = random_lifter(&random);
    trial->setup = random_setup(&random, &trial->lifter, i % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT);
    PlumbError error;
    if (plumb_setup_check(&trial->setup, &error) != PLUMB_OK) {
        fail_msg("case %d: %s: %s", i, error.field, error.message);
    }
}

static void trial_solve(int i, Trial *trial)
{
    trial_begin(i, trial);
    plumb_answer_solve(&trial->lifter, &trial->setup, &trial->answer);
}

#define check(condition, trial) support_check((condition), (trial)->index, #condition, __LINE__)

static void support_check(bool holds, int index, const char *what, int line)
{
    if (!holds) {
        print_error("case %d: %s\n", index, what);
        _fail(__FILE__, line);
    }
}

static bool all_finite(const double *value, int count)
{
    bool finite = true;
    for (int i = 0; i < count; i++) {
        finite = finite && isfinite(value[i]);
    }
    return finite;
}

static bool position_finite(const PlumbPosition *p, PlumbLift lift)
{
    bool finite =
        all_finite(p->angle_rad, PLUMB_ANGLE_COUNT) &&
        all_finite(p->bar_arm_m, PLUMB_JOINT_COUNT) &&
        all_finite(p->moment_both_n_m, PLUMB_JOINT_COUNT) &&
        all_finite(p->capacity_n_m, PLUMB_JOINT_COUNT) &&
        all_finite(p->relative_effort, PLUMB_JOINT_COUNT) && isfinite(p->summed_effort) &&
        isfinite(p->balance_frac) && isfinite(p->knee_to_toe_line_m) &&
        isfinite(p->loads_3d.hip_frontal_n_m) && isfinite(p->loads_3d.knee_extension_n_m) &&
        isfinite(p->loads_3d.knee_frontal_n_m) && isfinite(p->loads_3d.ankle_along_foot_n_m);
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        finite =
            finite && isfinite(p->point[i].x) && isfinite(p->point[i].y) && isfinite(p->point[i].z);
    }
    return finite && isfinite(p->clearance_m) == (lift == PLUMB_DEADLIFT);
}

static void answer__has_no_nan_where_held(void **state)
{
    (void)state;
    int held = 0;
    for (int i = 0; i < cases_of(CASES); i++) {
        Trial t;
        trial_solve(i, &t);
        const PlumbAnswer *a = &t.answer;
        if (a->outcome == PLUMB_NO_POSE) {
            check(isnan(a->travel_m), &t);
            continue;
        }
        held++;
        check(position_finite(&a->start, t.setup.lift), &t);
        check(!a->end_held || position_finite(&a->end, t.setup.lift), &t);
        check(a->end_held == isfinite(a->travel_m), &t);
        check(a->end_held == (isfinite(a->work_bar_j) && isfinite(a->work_body_j)), &t);
        check(a->window.exists == (isfinite(a->window.low) && isfinite(a->window.high)), &t);
        check(a->outcome != PLUMB_HELD || a->window.exists, &t);
        check(isfinite(a->expected_hip_rise_m) && a->expected_hip_rise_m >= 0.0, &t);
        for (int k = 0; k < a->finding_count; k++) {
            check(isfinite(a->finding[k].value) && isfinite(a->finding[k].limit), &t);
        }
    }
    print_message("  %d of %d set-ups have a pose\n", held, cases_of(CASES));
    assert_true(held > cases_of(CASES) / 3 && held < cases_of(CASES));
}

/* The lead's residuals at the answer's start, from the case as it was solved. */
static void lead_residuals(const Trial *trial, double residual[3], PlumbConstraintId id[3])
{
    const PlumbAnswer *a = &trial->answer;
    PlumbCase c;
    plumb_case_begin(&trial->lifter, &a->setup, &c);
    plumb_case_turn(&c, a->start.knees_out_rad);
    const PlumbProblem problem = plumb_lead_problem(&a->setup, a->setup.lead);
    PlumbState at = plumb_case_guess(&c);
    at.v[PLUMB_X] = a->start.pose.hip_x_m;
    at.v[PLUMB_Y] = a->start.pose.hip_height_m;
    at.v[PLUMB_LEAN] = a->start.pose.thorax_lean_rad;
    PlumbEval eval;
    plumb_eval(&c.rig, &at, -1.0, &eval);
    for (int i = 0; i < 3; i++) {
        const PlumbConstraint *constraint = &problem.constraint[i];
        const double target =
            constraint->id == PLUMB_CON_depth ? -constraint->target : constraint->target;
        residual[i] = plumb_constraint_value(&eval, constraint->id, NULL) - target;
        id[i] = constraint->id;
    }
}

/* A refusal is honest where two of the three are met and the third is missed by what is said. */
static void answer__meets_its_constraints_or_says_by_how_much_not(void **state)
{
    (void)state;
    for (int i = 0; i < cases_of(CASES); i++) {
        Trial t;
        trial_solve(i, &t);
        const PlumbAnswer *a = &t.answer;
        double residual[3];
        PlumbConstraintId id[3];
        lead_residuals(&t, residual, id);
        int found = 0;
        for (int k = 0; k < 3; k++) {
            const bool failed = a->outcome == PLUMB_NO_POSE && id[k] == a->failed;
            found += failed ? 1 : 0;
            if (failed && isfinite(a->miss)) {
                check(a->miss > residual_most, &t);
                check(fabs(fabs(residual[k]) - a->miss) < 1e-8, &t);
            } else if (a->outcome != PLUMB_NO_POSE || isfinite(a->miss)) {
                check(fabs(residual[k]) < residual_most, &t);
            }
        }
        check(found == (a->outcome == PLUMB_NO_POSE ? 1 : 0), &t);
        check((a->outcome == PLUMB_NO_POSE) ==
                  (a->finding_count > 0 && a->finding[0].id == PLUMB_FIND_no_pose),
              &t);
    }
}

static void body__masses_sum_to_one(void **state)
{
    (void)state;
    for (int i = 0; i < cases_of(CASES); i++) {
        Trial t;
        trial_begin(i, &t);
        const PlumbSegment *s = t.lifter.body.segment;
        double sum = 0.0;
        for (int k = 0; k < PLUMB_SEGMENT_COUNT; k++) {
            const bool middle =
                k == PLUMB_SEG_pelvis || k == PLUMB_SEG_thorax || k == PLUMB_SEG_head;
            sum += (middle ? 1.0 : 2.0) * s[k].mass_frac;
        }
        assert_near(sum, 1.0, 1e-12);
    }
}

/* Free bodies of thigh and all above: the moments at both its ends differ by the weights' arms. */
static void moments__hip_and_knee_balance_the_thigh(void **state)
{
    (void)state;
    for (int i = 0; i < cases_of(CASES); i++) {
        Trial t;
        trial_begin(i, &t);
        Random random = random_begin((uint64_t)i);
        const PlumbPosition p = random_position(&random, &t.lifter, &t.setup);
        const PlumbSegment *s = t.lifter.body.segment;
        const double thigh = 2.0 * s[PLUMB_SEG_thigh].mass_frac * t.lifter.body.mass_kg;
        const double below = 2.0 * (s[PLUMB_SEG_foot].mass_frac + s[PLUMB_SEG_shank].mass_frac) *
                             t.lifter.body.mass_kg;
        const double up = t.lifter.body.mass_kg + t.setup.load_kg - below - thigh;
        const double knee_x = p.point[PLUMB_PT_knee].x;
        const double hip_x = p.point[PLUMB_PT_hip].x;
        const double thigh_x = hip_x + s[PLUMB_SEG_thigh].com_frac * (knee_x - hip_x);
        const double sum = p.moment_both_n_m[PLUMB_JOINT_hip] + p.moment_both_n_m[PLUMB_JOINT_knee];
        assert_near(sum, PLUMB_GRAVITY * (up * (knee_x - hip_x) + thigh * (knee_x - thigh_x)),
                    1e-9);
        /* In space: with the feet pushing straight down, -2 M_z is the sagittal moment where the
         * ground's force acts under the centre of mass, which every pose's does. */
        if (t.setup.feet_push_frac == 0.0) {
            assert_near(2.0 * p.loads_3d.knee_minus_m_z_n_m, p.moment_both_n_m[PLUMB_JOINT_knee],
                        1e-9);
        }
    }
}

static void auto__lies_in_its_range(void **state)
{
    (void)state;
    int count = 0;
    int jumps = 0;
    for (int i = 0; i < cases_of(CASES); i++) {
        Trial t;
        trial_begin(i, &t);
        if (t.setup.lead != PLUMB_LEAD_AUTO) {
            continue;
        }
        plumb_answer_solve(&t.lifter, &t.setup, &t.answer);
        const PlumbAnswer *a = &t.answer;
        if (a->outcome == PLUMB_NO_POSE || !a->low_effort.exists) {
            check(a->outcome != PLUMB_HELD, &t);
            continue;
        }
        const double own = t.setup.lift == PLUMB_DEADLIFT ? a->start.pose.hip_height_m
                                                          : a->start.angle_rad[PLUMB_ANG_shin];
        const bool inside = own >= a->low_effort.low - 1e-9 && own <= a->low_effort.high + 1e-9;
        /* Where the range jumps as the knees turn, no turn has its own middle. */
        check(inside || t.setup.knees_over_toes, &t);
        jumps += inside ? 0 : 1;
        check(a->low_effort.low >= a->window.low - 1e-9, &t);
        check(a->low_effort.high <= a->window.high + 1e-9, &t);
        count++;
    }
    print_message("  %d of %d middles jump with the turn of the knees\n", jumps, count);
    assert_true(count > cases_of(CASES) / 10);
    assert_true(jumps * 200 < count);
}

/* Shoulder 0 to 10 cm ahead of the bar, shins on it, bar over mid-foot, balance 0.25 to 0.60. */
static void good_start__gets_no_hip_rise(void **state)
{
    (void)state;
    int good = 0;
    for (int i = 0; i < 2 * cases_of(CASES); i += 2) {
        Trial t;
        trial_begin(i, &t);
        t.setup.bar_over_m = 0.0;
        plumb_answer_solve(&t.lifter, &t.setup, &t.answer);
        const PlumbPosition *p = &t.answer.start;
        const double ahead = p->point[PLUMB_PT_shoulder].x - p->point[PLUMB_PT_bar].x;
        if (t.answer.outcome == PLUMB_NO_POSE || !(ahead >= 0.0 && ahead <= 0.10) ||
            fabs(p->clearance_m) > 1e-9 || p->balance_frac < 0.25 || p->balance_frac > 0.60) {
            continue;
        }
        good++;
        check(t.answer.expected_hip_rise_m == 0.0, &t);
        for (int k = 0; k < t.answer.finding_count; k++) {
            check(t.answer.finding[k].id != PLUMB_FIND_hips_rise_first, &t);
        }
    }
    print_message("  %d good starts of %d\n", good, cases_of(CASES));
    assert_true(good > cases_of(CASES) / 20);
}

static void over_toes__puts_the_knee_there(void **state)
{
    (void)state;
    int met = 0;
    for (int i = 0; i < cases_of(CASES); i++) {
        Trial t;
        trial_begin(i, &t);
        t.setup.knees_over_toes = true;
        plumb_answer_quick(&t.lifter, &t.setup, &t.answer);
        if (t.answer.outcome == PLUMB_NO_POSE) {
            continue;
        }
        check(t.answer.knees_over_toes_met ==
                  (fabs(t.answer.start.knee_to_toe_line_m) < residual_most),
              &t);
        const double turn = t.answer.start.knees_out_rad;
        check(turn >= degrees(-30.0) - 1e-12 && turn <= degrees(45.0) + 1e-12, &t);
        met += t.answer.knees_over_toes_met ? 1 : 0;
    }
    print_message("  knees over the toes in %d\n", met);
    assert_true(met > cases_of(CASES) / 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(body__masses_sum_to_one),
        cmocka_unit_test(moments__hip_and_knee_balance_the_thigh),
        cmocka_unit_test(answer__has_no_nan_where_held),
        cmocka_unit_test(answer__meets_its_constraints_or_says_by_how_much_not),
        cmocka_unit_test(auto__lies_in_its_range),
        cmocka_unit_test(good_start__gets_no_hip_rise),
        cmocka_unit_test(over_toes__puts_the_knee_there),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
