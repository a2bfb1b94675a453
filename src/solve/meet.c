/* SPDX-License-Identifier: MIT */
/* Meets a pose problem where plain Newton does not: scans one quantity and solves the other two in
 * it; and where nothing meets it, finds the nearest miss. */
#include "solve/case.h"

#include "base/roots.h"

enum { SCAN_POINTS = 72, SEEDS = 5 };

/* The quantity to scan when one constraint is let go: the first that the other two do not fix. */
static PlumbConstraintId scan_quantity(const PlumbCase *c, const PlumbProblem *problem, int dropped)
{
    static const PlumbConstraintId choice[PLUMB_LIFT_COUNT][3] = {
        [PLUMB_DEADLIFT] = {PLUMB_CON_hip_height, PLUMB_CON_back_angle, PLUMB_CON_shin_angle},
        [PLUMB_SQUAT] = {PLUMB_CON_shin_angle, PLUMB_CON_back_angle, PLUMB_CON_hip_height},
    };
    for (int i = 0; i < 2; i++) {
        const PlumbConstraintId id = choice[c->setup.lift][i];
        bool taken = false;
        for (int k = 0; k < 3; k++) {
            taken = taken || (k != dropped && problem->constraint[k].id == id);
        }
        if (!taken) {
            return id;
        }
    }
    return choice[c->setup.lift][2];
}

static void scan_range(const PlumbCase *c, PlumbConstraintId id, double *low, double *high)
{
    const double leg = c->rig.shank + c->rig.thigh;
    *low = degrees(-10.0);
    *high = degrees(100.0);
    if (id == PLUMB_CON_hip_height) {
        *low = c->rig.ankle.y + 0.08 * leg;
        *high = c->rig.ankle.y + leg;
    } else if (id == PLUMB_CON_shin_angle) {
        *low = degrees(-20.0);
        *high = degrees(70.0);
    }
}

/* One constraint let go, a scanned quantity in its place. */
typedef struct Scan {
    const PlumbCase *c;
    PlumbProblem problem; /* two kept constraints and the scanned one in place of the dropped */
    PlumbConstraint dropped;
    int index;
    PlumbState state; /* of the last point that was held */
    bool warm;
} Scan;

static Scan scan_begin(const PlumbCase *c, const PlumbProblem *problem, int dropped)
{
    Scan scan = {c, *problem, problem->constraint[dropped], dropped, plumb_case_guess(c), false};
    scan.problem.constraint[dropped].id = scan_quantity(c, problem, dropped);
    return scan;
}

/* Seeds spread over folds of the leg and leans of the trunk. */
static PlumbState seed(const PlumbCase *c, int i)
{
    PlumbState state = plumb_case_guess(c);
    const double leg = c->rig.shank + c->rig.thigh;
    state.v[PLUMB_X] += (i % 2 == 0 ? 0.08 : -0.12) * leg * (i > 0);
    state.v[PLUMB_Y] += (i - 2) * 0.12 * leg * (i > 0);
    state.v[PLUMB_LEAN] += (2 - i) * 0.3 * (i > 0);
    return state;
}

static bool solve_on_branch(const PlumbCase *c, const PlumbProblem *problem, PlumbState *state)
{
    PlumbState trial = *state;
    if (plumb_newton(&c->rig, problem, &trial) &&
        plumb_on_branch(&c->rig, &trial, problem->knee_bend_rad)) {
        *state = trial;
        return true;
    }
    return false;
}

/* Residual of the dropped constraint at the scanned value s; NaN where no pose is held there. */
static double dropped_residual(double s, void *context)
{
    Scan *scan = context;
    scan->problem.constraint[scan->index].target = s;
    bool held = scan->warm && solve_on_branch(scan->c, &scan->problem, &scan->state);
    for (int i = 0; i < SEEDS && !held; i++) {
        PlumbState trial = seed(scan->c, i);
        held = solve_on_branch(scan->c, &scan->problem, &trial);
        scan->state = held ? trial : scan->state;
    }
    scan->warm = scan->warm || held;
    if (!held) {
        return (double)NAN;
    }
    PlumbEval eval;
    plumb_eval(&scan->c->rig, &scan->state, scan->problem.knee_bend_rad, &eval);
    double target = scan->dropped.target;
    double value = plumb_constraint_value(&eval, scan->dropped.id, NULL);
    if (scan->dropped.id == PLUMB_CON_knee_bend) {
        target = plumb_leg_span(&scan->c->rig, target);
    } else if (scan->dropped.id == PLUMB_CON_depth) {
        target = -target;
    }
    return value - target;
}

static double dropped_miss(double s, void *context)
{
    return fabs(dropped_residual(s, context));
}

/* Scans for a sign change of the dropped constraint's residual and closes in on it. */
static bool meet_by_scan(const PlumbCase *c, const PlumbProblem *problem, int dropped,
                         PlumbState *state)
{
    Scan scan = scan_begin(c, problem, dropped);
    double low;
    double high;
    scan_range(c, scan.problem.constraint[dropped].id, &low, &high);
    double last_s = low;
    double last = (double)NAN;
    for (int i = 0; i <= SCAN_POINTS; i++) {
        const double s = low + (high - low) * i / SCAN_POINTS;
        const double value = dropped_residual(s, &scan);
        if (!isnan(value) && !isnan(last) && (value > 0.0) != (last > 0.0)) {
            const double root =
                plumb_root_bracketed(dropped_residual, &scan, last_s, s, last, value, 1e-10);
            if (!isnan(dropped_residual(root, &scan))) {
                PlumbState polish = scan.state;
                if (solve_on_branch(c, problem, &polish)) {
                    *state = polish;
                    return true;
                }
            }
        }
        last_s = s;
        last = value;
    }
    return false;
}

bool plumb_case_meet(const PlumbCase *c, const PlumbProblem *problem, PlumbState *state)
{
    if (solve_on_branch(c, problem, state)) {
        return true;
    }
    for (int i = 0; i < SEEDS; i++) {
        PlumbState trial = seed(c, i);
        if (solve_on_branch(c, problem, &trial)) {
            *state = trial;
            return true;
        }
    }
    for (int dropped = 2; dropped >= 0; dropped--) {
        if (meet_by_scan(c, problem, dropped, state)) {
            return true;
        }
    }
    return false;
}

/* The least miss along one scan; infinite where nothing is held. */
static double least_miss(const PlumbCase *c, const PlumbProblem *problem, int dropped,
                         PlumbState *state)
{
    Scan scan = scan_begin(c, problem, dropped);
    double low;
    double high;
    scan_range(c, scan.problem.constraint[dropped].id, &low, &high);
    const double step = (high - low) / SCAN_POINTS;
    double best = (double)INFINITY;
    double best_s = low;
    for (int i = 0; i <= SCAN_POINTS; i++) {
        const double miss = dropped_miss(low + step * i, &scan);
        if (miss < best) {
            best = miss;
            best_s = low + step * i;
            *state = scan.state;
        }
    }
    if (isfinite(best)) {
        double least;
        scan.state = *state;
        const double s = plumb_least_bracketed(dropped_miss, &scan, fmax(low, best_s - step),
                                               fmin(high, best_s + step), 1e-9, &least);
        if (least < best && dropped_miss(s, &scan) < best) {
            best = dropped_miss(s, &scan);
            *state = scan.state;
        }
    }
    return best;
}

void plumb_case_nearest(const PlumbCase *c, const PlumbProblem *problem, PlumbState *state,
                        PlumbConstraintId *failed, double *miss)
{
    double best = (double)INFINITY;
    for (int dropped = 0; dropped < 3; dropped++) {
        PlumbState trial = plumb_case_guess(c);
        const PlumbConstraintId id = problem->constraint[dropped].id;
        const double found = least_miss(c, problem, dropped, &trial);
        const double units = found / plumb_constraint_unit(id);
        if (units < best || (dropped == 0 && !isfinite(best))) {
            best = units;
            *state = trial;
            *failed = id;
            *miss = found;
        }
    }
}
