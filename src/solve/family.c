/* SPDX-License-Identifier: MIT */
/* The one-parameter families of poses: a pull's starts by hip height, a squat's holes by shin
 * angle. Newton from a near member first; where that fails, by construction. */
#include "solve/case.h"

#include "base/roots.h"

#include <stddef.h>

static PlumbProblem family_problem(const PlumbCase *c, double s)
{
    const bool pull = c->rig.lift == PLUMB_DEADLIFT;
    PlumbProblem problem =
        plumb_lead_problem(&c->setup, pull ? PLUMB_LEAD_HIP_HEIGHT : PLUMB_LEAD_SHIN_ANGLE);
    problem.constraint[2].target = s;
    return problem;
}

double plumb_family_quantity(const PlumbCase *c, const PlumbState *state)
{
    if (c->rig.lift == PLUMB_DEADLIFT) {
        return state->v[PLUMB_Y];
    }
    PlumbEval eval;
    plumb_eval(&c->rig, state, -1.0, &eval);
    return plumb_constraint_value(&eval, PLUMB_CON_shin_angle, NULL);
}

void plumb_family_range(const PlumbCase *c, double *low, double *high, double *step)
{
    const double leg = c->rig.shank + c->rig.thigh;
    if (c->rig.lift == PLUMB_DEADLIFT) {
        *low = c->rig.ankle.y + 0.1 * leg;
        *high = c->rig.ankle.y + leg;
        *step = 0.012 * leg;
    } else {
        *low = degrees(-20.0);
        *high = degrees(70.0);
        *step = degrees(1.5);
    }
}

/* Thorax lean from the shoulder's place: mid-shoulder lies at a fixed distance and angle from the
 * hip. */
static double lean_from(const PlumbRig *rig, double dx, double dy)
{
    return atan2(dx, dy) + rig->back_offset_rad;
}

/* Straight arms: mid-shoulder lies on a circle about the hip (trunk) and on one about the bar (arm
 * seen from the side); the upper crossing is the lifter's. False where they do not meet. */
static bool lean_by_reach(const PlumbRig *rig, PlumbState *state)
{
    const double spread = rig->grip_z - rig->shoulder_z;
    const double arm_square = rig->arm * rig->arm - spread * spread;
    const double trunk = hypot(rig->shoulder_u, rig->shoulder_v);
    const double dx = state->v[PLUMB_BAR_X] - state->v[PLUMB_X];
    const double dy = state->v[PLUMB_BAR_Y] - state->v[PLUMB_Y];
    const double d = hypot(dx, dy);
    const double a = (trunk * trunk - arm_square + d * d) / (2.0 * d);
    const double square = trunk * trunk - a * a;
    if (arm_square <= 0.0 || square < 0.0) {
        return false;
    }
    const double r = sqrt(square);
    const double up = dx >= 0.0 ? 1.0 : -1.0;
    state->v[PLUMB_LEAN] = lean_from(rig, (a * dx - up * r * dy) / d, (a * dy + up * r * dx) / d);
    return true;
}

typedef struct LegSearch {
    const PlumbCase *c;
    PlumbState state;
} LegSearch;

static double clearance_at_x(double x, void *context)
{
    LegSearch *search = context;
    search->state.v[PLUMB_X] = x;
    PlumbEval eval;
    plumb_eval(&search->c->rig, &search->state, -1.0, &eval);
    return eval.leg.reaches ? plumb_constraint_value(&eval, PLUMB_CON_clearance, NULL)
                            : (double)NAN;
}

/* The hip comes forward from the straight leg until the shin meets the bar. */
static bool pull_by_construction(const PlumbCase *c, double height, PlumbState *state)
{
    const PlumbRig *rig = &c->rig;
    const double leg = rig->shank + rig->thigh;
    const double dy = height - rig->ankle.y;
    const double dz = rig->hip_z - rig->ankle.z;
    const double square = leg * leg - dy * dy - dz * dz;
    if (square <= 0.0) {
        return false;
    }
    enum { STEPS = 60 };
    const double back = rig->ankle.x - sqrt(square) * (1.0 - 1e-12);
    const double step = (rig->ankle.x + 0.3 * leg - back) / STEPS;
    LegSearch search = {c, *state};
    search.state.v[PLUMB_Y] = height;
    double x = back;
    double f = clearance_at_x(x, &search);
    for (int i = 1; i <= STEPS; i++) {
        const double next_x = back + i * step;
        const double next = clearance_at_x(next_x, &search);
        if (f >= 0.0 && next < 0.0) {
            search.state.v[PLUMB_X] =
                plumb_root_bracketed(clearance_at_x, &search, x, next_x, f, next, 1e-12);
            *state = search.state;
            return lean_by_reach(rig, state);
        }
        x = next_x;
        f = next;
    }
    return false;
}

/* x_COM is A sin(lean) + B cos(lean) + the rest, so the lean that balances is closed form; the
 * smaller of two leans is the lifter's. */
static bool lean_by_balance(const PlumbCase *c, PlumbState *state)
{
    const PlumbRig *rig = &c->rig;
    PlumbLeg leg;
    plumb_leg_place(rig, state->v[PLUMB_X], state->v[PLUMB_Y], -1.0, &leg);
    const double x = rig->heel.x + c->setup.balance_frac * (rig->toe.x - rig->heel.x);
    const double rest = rig->total_mass * x - rig->moment_fixed.x - rig->moment_knee * leg.knee.x -
                        rig->moment_hip * state->v[PLUMB_X];
    const double radius = hypot(rig->moment_u, rig->moment_v);
    if (fabs(rest) > radius) {
        return false;
    }
    state->v[PLUMB_LEAN] = asin(rest / radius) + atan2(rig->moment_v, rig->moment_u);
    return true;
}

/* Depth and shin angle concern the leg alone: two unknowns by Newton from several folds. */
static bool squat_by_construction(const PlumbCase *c, double shin, PlumbState *state)
{
    const double leg = c->rig.shank + c->rig.thigh;
    PlumbProblem problem = family_problem(c, shin);
    problem.count = 2;
    problem.free[0] = PLUMB_X;
    problem.free[1] = PLUMB_Y;
    problem.constraint[1] = problem.constraint[2];
    for (int i = 0; i < 12; i++) {
        const int back = i % 4;
        const int up = i / 4;
        PlumbState trial = *state;
        trial.v[PLUMB_X] = c->rig.ankle.x - (0.35 - 0.05 * back) * leg;
        trial.v[PLUMB_Y] = c->rig.ankle.y + (0.45 + 0.12 * up) * leg;
        if (plumb_newton(&c->rig, &problem, &trial) && trial.v[PLUMB_X] < c->rig.ankle.x + leg &&
            lean_by_balance(c, &trial) && plumb_on_branch(&c->rig, &trial, -1.0)) {
            *state = trial;
            return true;
        }
    }
    return false;
}

bool plumb_family_at(const PlumbCase *c, double s, PlumbState *state)
{
    const PlumbProblem problem = family_problem(c, s);
    PlumbState trial = *state;
    if (plumb_newton(&c->rig, &problem, &trial) && plumb_on_branch(&c->rig, &trial, -1.0)) {
        *state = trial;
        return true;
    }
    trial = plumb_case_guess(c);
    const bool pull = c->rig.lift == PLUMB_DEADLIFT;
    if (pull ? pull_by_construction(c, s, &trial) : squat_by_construction(c, s, &trial)) {
        PlumbState polish = trial;
        if (plumb_newton(&c->rig, &problem, &polish) && plumb_on_branch(&c->rig, &polish, -1.0)) {
            *state = polish;
            return true;
        }
    }
    return false;
}
