/* SPDX-License-Identifier: MIT */
/* The whole answer to a set-up: start or hole, end, window, low-effort range, travel. */
#include "solve/case.h"

static const double turn_least = -30.0 * PLUMB_PI / 180.0;
static const double turn_most = 45.0 * PLUMB_PI / 180.0;

/* knees_out = over_toes: the turn of the leg's plane is a fourth unknown of the named pose. Tries
 * from the present turn, none at first, then outwards, so that the smaller of two is found. */
static bool meet_over_toes(PlumbCase *c, const PlumbProblem *problem, PlumbState *state)
{
    static const double tries[] = {10.0, -10.0, 20.0, -20.0, 32.0, -28.0, 42.0};
    enum { TRIES = sizeof tries / sizeof tries[0] };
    PlumbProblem turned = *problem;
    turned.count = 4;
    turned.free[3] = PLUMB_PSI;
    turned.constraint[3].id = PLUMB_CON_knees_over_toes;
    turned.constraint[3].target = 0.0;
    const double present = c->knees_out_rad;
    for (int i = -1; i < TRIES; i++) {
        PlumbState trial = *state;
        trial.v[PLUMB_PSI] = i < 0 ? present : degrees(tries[i]);
        PlumbCase copy = *c;
        plumb_case_turn(&copy, trial.v[PLUMB_PSI]);
        if (!plumb_newton(&copy.rig, problem, &trial) ||
            !plumb_newton(&copy.rig, &turned, &trial)) {
            continue;
        }
        const double psi = trial.v[PLUMB_PSI];
        plumb_case_turn(&copy, psi);
        if (psi >= turn_least && psi <= turn_most && plumb_on_branch(&copy.rig, &trial, -1.0)) {
            *state = trial;
            plumb_case_turn(c, psi);
            return true;
        }
    }
    return false;
}

/* Meets a lead's problem, with the knees over the toes where that is asked for. */
static bool meet_lead(PlumbCase *c, const PlumbProblem *problem, PlumbState *state,
                      PlumbAnswer *answer)
{
    answer->knees_over_toes_met = true;
    if (!plumb_case_meet(c, problem, state, &answer->failed, &answer->miss)) {
        return false;
    }
    if (c->setup.knees_over_toes) {
        answer->knees_over_toes_met = meet_over_toes(c, problem, state);
    }
    return true;
}

/* The member of the family around which a window is looked for: balance 0.40 of a pull, the hole
 * itself or a middling shin angle of a squat; else any that is held, the one nearest to it. */
static bool family_seed(const PlumbCase *c, PlumbState *state)
{
    const bool pull = c->setup.lift == PLUMB_DEADLIFT;
    PlumbSetup setup = c->setup;
    setup.balance_frac = pull ? PLUMB_REFERENCE_BALANCE : setup.balance_frac;
    setup.shin_angle_rad = PLUMB_MIDDLING_SHIN_RAD;
    const PlumbProblem problem =
        plumb_lead_problem(&setup, pull ? PLUMB_LEAD_BALANCE : PLUMB_LEAD_SHIN_ANGLE);
    *state = plumb_case_guess(c);
    if (plumb_newton(&c->rig, &problem, state) && plumb_on_branch(&c->rig, state, -1.0)) {
        return true;
    }
    double low;
    double high;
    double step;
    plumb_family_range(c, &low, &high, &step);
    double best = (double)INFINITY;
    PlumbState warm = plumb_case_guess(c);
    for (double s = low; s <= high; s += step) {
        if (plumb_family_at(c, s, &warm)) {
            PlumbEval eval;
            plumb_eval(&c->rig, &warm, -1.0, &eval);
            const double off = pull ? plumb_constraint_value(&eval, PLUMB_CON_balance, NULL) -
                                          PLUMB_REFERENCE_BALANCE
                                    : s - setup.shin_angle_rad;
            if (fabs(off) < best) {
                best = fabs(off);
                *state = warm;
            }
        }
    }
    return isfinite(best);
}

/* Window and range of the case; false where the family has no member at all. */
static bool find_intervals(const PlumbCase *c, const PlumbState *around, PlumbAnswer *answer)
{
    PlumbState seed = *around;
    if (!family_seed(c, &seed) && c->setup.lift == PLUMB_DEADLIFT) {
        return false;
    }
    if (c->setup.lift == PLUMB_SQUAT && c->setup.lead != PLUMB_LEAD_AUTO) {
        seed = *around;
    }
    answer->window = plumb_window_find(c, &seed);
    answer->low_effort = plumb_low_effort_find(c, &answer->window, &seed);
    return true;
}

/* auto: the middle of the low-effort range; where there is none, what it was looked for around.
 * Range and turn of the knees depend on each other where the knees are asked over the toes; a few
 * rounds settle both. */
static void resolve_auto(PlumbCase *c, PlumbAnswer *answer)
{
    enum { ROUNDS = 40 };
    PlumbSetup *setup = &answer->setup;
    double *led = setup->lift == PLUMB_DEADLIFT ? &setup->hip_height_m : &setup->shin_angle_rad;
    PlumbState seed = plumb_case_guess(c);
    setup->hip_height_m = seed.v[PLUMB_Y];
    setup->shin_angle_rad = PLUMB_MIDDLING_SHIN_RAD;
    if (!family_seed(c, &seed)) {
        return;
    }
    const double middling = plumb_family_quantity(c, &seed);
    for (int i = 0; i < ROUNDS; i++) {
        find_intervals(c, &seed, answer);
        *led = answer->low_effort.exists ? 0.5 * (answer->low_effort.low + answer->low_effort.high)
                                         : middling;
        const double before = c->knees_out_rad;
        const PlumbProblem problem = plumb_lead_problem(setup, PLUMB_LEAD_AUTO);
        if (!setup->knees_over_toes || !meet_over_toes(c, &problem, &seed) ||
            fabs(c->knees_out_rad - before) < 1e-10) {
            break;
        }
    }
}

/* Leads that need another pose first: a relative hip height needs the balance-led start, auto the
 * low-effort range. Leaves the quantity in answer->setup. */
static void resolve_lead(PlumbCase *c, PlumbAnswer *answer)
{
    PlumbSetup *setup = &answer->setup;
    if (setup->hip_height_relative) {
        PlumbState state = plumb_case_guess(c);
        PlumbCase led = *c;
        const PlumbProblem problem = plumb_lead_problem(setup, PLUMB_LEAD_BALANCE);
        if (meet_lead(&led, &problem, &state, answer)) {
            setup->hip_height_m += state.v[PLUMB_Y];
        } else {
            setup->lead = PLUMB_LEAD_BALANCE; /* the answer then says why that start fails */
        }
        setup->hip_height_relative = false;
    } else if (setup->lead == PLUMB_LEAD_AUTO) {
        resolve_auto(c, answer);
    }
    c->setup = *setup;
}

static double body_height(const PlumbPosition *position, double total_kg, double bar_kg)
{
    return (position->com.y * total_kg - position->point[PLUMB_PT_bar].y * bar_kg) /
           (total_kg - bar_kg);
}

/* Lockout or standing, then travel and work between the two. */
static void solve_end(const PlumbCase *c, PlumbAnswer *answer)
{
    PlumbRig rig;
    PlumbState state;
    answer->standing_bar_off_m = 0.0;
    const bool pull = c->setup.lift == PLUMB_DEADLIFT;
    answer->end_held = pull ? plumb_lockout_solve(c, answer->start.balance_frac, &rig, &state)
                            : plumb_standing_solve(c, &rig, &state, &answer->standing_bar_off_m);
    plumb_case_describe(c, &rig, &state, pull ? 0.0 : PLUMB_STANDING_BEND_RAD, &answer->end);
    if (answer->outcome == PLUMB_NO_POSE || !answer->end_held) {
        answer->travel_m = answer->work_bar_j = answer->work_body_j = (double)NAN;
        return;
    }
    const double total = rig.total_mass;
    answer->travel_m =
        fabs(answer->end.point[PLUMB_PT_bar].y - answer->start.point[PLUMB_PT_bar].y);
    answer->work_bar_j = rig.bar_mass * PLUMB_GRAVITY * answer->travel_m;
    answer->work_body_j = rig.body_mass * PLUMB_GRAVITY *
                          (body_height(&answer->end, total, rig.bar_mass) -
                           body_height(&answer->start, total, rig.bar_mass));
}

/* Only the lifter's own start below the window, ended there by the shoulder or the heel, is
 * expected to let the hips rise first. */
static void expect_hip_rise(PlumbAnswer *answer)
{
    const PlumbEnd end = answer->window.low_end;
    const double own = answer->start.pose.hip_height_m;
    answer->expected_hip_rise_m = 0.0;
    answer->hip_rise_end = PLUMB_END_none;
    if (answer->setup.lift == PLUMB_DEADLIFT && answer->window.exists &&
        own < answer->window.low - 1e-9 &&
        (end == PLUMB_END_shoulder_behind || end == PLUMB_END_balance_heel)) {
        answer->expected_hip_rise_m = answer->window.low - own;
        answer->hip_rise_end = end;
    }
}

static void judge_outcome(const PlumbCase *c, const PlumbState *state, PlumbAnswer *answer)
{
    const double s = plumb_family_quantity(c, state);
    const PlumbInterval *window = &answer->window;
    const double slack = 1e-9;
    const bool inside = window->exists && s >= window->low - slack && s <= window->high + slack;
    if (answer->outcome == PLUMB_HELD && !inside) {
        answer->outcome = PLUMB_OUTSIDE_WINDOW;
    }
}

static void answer_clear(const PlumbSetup *setup, PlumbAnswer *answer)
{
    const PlumbInterval none = {.low = (double)NAN,
                                .high = (double)NAN,
                                .low_end = PLUMB_END_no_pose,
                                .high_end = PLUMB_END_no_pose};
    answer->setup = *setup;
    answer->outcome = PLUMB_HELD;
    answer->failed = PLUMB_CON_balance;
    answer->miss = 0.0;
    answer->window = none;
    answer->low_effort = none;
    answer->expected_hip_rise_m = 0.0;
    answer->hip_rise_end = PLUMB_END_none;
    answer->finding_count = 0;
}

/* Start or hole; the case is left turned as solved and *state is the pose. */
static void solve_start(PlumbCase *c, PlumbAnswer *answer, PlumbState *state)
{
    resolve_lead(c, answer);
    *state = plumb_case_guess(c);
    const PlumbProblem problem = plumb_lead_problem(&c->setup, c->setup.lead);
    if (!meet_lead(c, &problem, state, answer)) {
        answer->outcome = PLUMB_NO_POSE;
    }
    plumb_case_describe(c, &c->rig, state, -1.0, &answer->start);
}

void plumb_answer_quick(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbAnswer *answer)
{
    PlumbCase c;
    PlumbState state;
    answer_clear(setup, answer);
    plumb_case_begin(lifter, setup, &c);
    solve_start(&c, answer, &state);
    solve_end(&c, answer);
}

void plumb_answer_solve(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbAnswer *answer)
{
    PlumbCase c;
    PlumbState state;
    answer_clear(setup, answer);
    plumb_case_begin(lifter, setup, &c);
    solve_start(&c, answer, &state);
    if (c.setup.lead != PLUMB_LEAD_AUTO || c.setup.knees_over_toes) {
        find_intervals(&c, &state, answer);
    }
    judge_outcome(&c, &state, answer);
    solve_end(&c, answer);
    expect_hip_rise(answer);
    plumb_findings(&c, answer);
}

PlumbOutcome plumb_pose_solve(const PlumbLifter *lifter, const PlumbSetup *setup, double bar_x_m,
                              double bar_height_m, const PlumbConstraint constraint[3],
                              const PlumbPose *start, PlumbPose *pose, PlumbConstraintId *failed,
                              double *miss)
{
    PlumbCase c;
    plumb_case_begin(lifter, setup, &c);
    PlumbProblem problem = {
        .count = 3, .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN}, .knee_bend_rad = -1.0};
    for (int i = 0; i < 3; i++) {
        problem.constraint[i] = constraint[i];
        if (constraint[i].id == PLUMB_CON_knee_bend) {
            problem.knee_bend_rad = constraint[i].target;
        }
    }
    c.bar.x = bar_x_m;
    c.bar.y = bar_height_m;
    PlumbState state = plumb_case_guess(&c);
    if (start != NULL) {
        state.v[PLUMB_X] = start->hip_x_m;
        state.v[PLUMB_Y] = start->hip_height_m;
        state.v[PLUMB_LEAN] = start->thorax_lean_rad;
    }
    PlumbOutcome outcome = PLUMB_HELD;
    PlumbConstraintId id = PLUMB_CON_balance;
    double off = 0.0;
    if (!plumb_case_meet(&c, &problem, &state, &id, &off)) {
        outcome = PLUMB_NO_POSE;
    }
    *pose = state_pose(&state);
    if (failed != NULL) {
        *failed = id;
    }
    if (miss != NULL) {
        *miss = off;
    }
    return outcome;
}
