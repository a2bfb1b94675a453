/* SPDX-License-Identifier: MIT */
/* Meets a pose problem where plain Newton does not: scans one quantity and solves the other two in
 * it; and where nothing meets it, finds the nearest miss. */
#include "solve/case.h"

#include "base/roots.h"

enum { SCAN_POINTS = 48, SEEDS = 5 };

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
    double low;
    double high;
    PlumbState state; /* of the last point that was held */
    bool warm;
    int tried; /* seeds are tried in turn while nothing is held */
    double best;
    double best_s;
    PlumbState best_state;
} Scan;

static Scan scan_begin(const PlumbCase *c, const PlumbProblem *problem, int dropped)
{
    Scan scan = {.c = c,
                 .problem = *problem,
                 .dropped = problem->constraint[dropped],
                 .index = dropped,
                 .state = plumb_case_guess(c),
                 .best = (double)INFINITY};
    const PlumbConstraintId id = scan_quantity(c, problem, dropped);
    scan.problem.constraint[dropped].id = id;
    scan_range(c, id, &scan.low, &scan.high);
    scan.best_s = scan.low;
    scan.best_state = scan.state;
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

/* Two seeds a point, so that a scan outside the poses' domain stays cheap. */
static bool solve_from_seeds(Scan *scan)
{
    for (int i = 0; i < 2; i++) {
        PlumbState trial = seed(scan->c, scan->tried++ % SEEDS);
        if (solve_on_branch(scan->c, &scan->problem, &trial)) {
            scan->state = trial;
            scan->warm = true;
            return true;
        }
    }
    return false;
}

/* Residual of the dropped constraint at the scanned value s; NaN where no pose is held there. */
static double dropped_residual(double s, void *context)
{
    Scan *scan = context;
    scan->problem.constraint[scan->index].target = s;
    const bool held = (scan->warm && solve_on_branch(scan->c, &scan->problem, &scan->state)) ||
                      solve_from_seeds(scan);
    if (!held) {
        return (double)NAN;
    }
    PlumbEval eval;
    plumb_eval(&scan->c->rig, &scan->state, scan->problem.knee_bend_rad, &eval);
    return plumb_constraint_value(&eval, scan->dropped.id, NULL) -
           plumb_constraint_target(&scan->c->rig, &scan->dropped);
}

static double dropped_miss(double s, void *context)
{
    return fabs(dropped_residual(s, context));
}

/* Closes in on a sign change of the residual and polishes; the step may also be a jump. */
static bool close_in(const PlumbCase *c, const PlumbProblem *problem, Scan *scan, double from,
                     double to, double at_from, double at_to, PlumbState *state)
{
    Scan inner = *scan;
    const double root =
        plumb_root_bracketed(dropped_residual, &inner, from, to, at_from, at_to, 1e-10);
    if (isnan(dropped_residual(root, &inner)) || !solve_on_branch(c, problem, &inner.state)) {
        return false;
    }
    *state = inner.state;
    return true;
}

/* Scans for a sign change of the dropped constraint's residual; keeps the least miss. */
static bool meet_by_scan(const PlumbCase *c, const PlumbProblem *problem, Scan *scan,
                         PlumbState *state)
{
    double last_s = scan->low;
    double last = (double)NAN;
    for (int i = 0; i <= SCAN_POINTS; i++) {
        const double s = scan->low + (scan->high - scan->low) * i / SCAN_POINTS;
        const double value = dropped_residual(s, scan);
        if (fabs(value) < scan->best) {
            scan->best = fabs(value);
            scan->best_s = s;
            scan->best_state = scan->state;
        }
        if (!isnan(value) && !isnan(last) && (value > 0.0) != (last > 0.0) &&
            close_in(c, problem, scan, last_s, s, last, value, state)) {
            return true;
        }
        last_s = s;
        last = value;
    }
    return false;
}

/* The least miss along a scan, from its best point. */
static void refine_miss(Scan *scan)
{
    const double step = (scan->high - scan->low) / SCAN_POINTS;
    double least;
    scan->state = scan->best_state;
    scan->warm = true;
    const double s = plumb_least_bracketed(dropped_miss, scan, fmax(scan->low, scan->best_s - step),
                                           fmin(scan->high, scan->best_s + step), 1e-9, &least);
    const double found = dropped_miss(s, scan);
    if (found < scan->best) {
        scan->best = found;
        scan->best_state = scan->state;
    }
}

static bool meet_from_seeds(const PlumbCase *c, const PlumbProblem *problem, PlumbState *state)
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
    return false;
}

bool plumb_case_meet(const PlumbCase *c, const PlumbProblem *problem, PlumbState *state,
                     PlumbConstraintId *failed, double *miss)
{
    if (meet_from_seeds(c, problem, state)) {
        return true;
    }
    double least = (double)INFINITY;
    *failed = problem->constraint[2].id;
    *miss = least;
    PlumbState nearest = plumb_case_guess(c);
    for (int dropped = 2; dropped >= 0; dropped--) {
        Scan scan = scan_begin(c, problem, dropped);
        if (meet_by_scan(c, problem, &scan, state)) {
            return true;
        }
        if (!isfinite(scan.best)) {
            continue;
        }
        refine_miss(&scan);
        const double units = scan.best / plumb_constraint_unit(scan.dropped.id);
        if (units < least) {
            least = units;
            nearest = scan.best_state;
            *failed = scan.dropped.id;
            *miss = scan.best;
        }
    }
    *state = nearest;
    return false;
}
