/* SPDX-License-Identifier: MIT */
/* The damped Newton method of the pose problems. */
#include "solve/system.h"

#include "base/roots.h"

enum { STEPS_MAX = 16, HALVINGS_MAX = 6 };

static const double converged = 1e-10; /* what a root promises */
static const double polished = 1e-13;  /* where further steps change nothing */

/* The rig at hand, turned where the leg's plane is free. */
static const PlumbRig *turned(const PlumbRig *rig, const PlumbProblem *problem,
                              const PlumbState *state, PlumbRig *copy)
{
    if (problem->free[problem->count - 1] != PLUMB_PSI) {
        return rig;
    }
    *copy = *rig;
    plumb_rig_knees_out(copy, state->v[PLUMB_PSI]);
    return copy;
}

/* The larger of the two; a value that cannot be computed counts as infinite, never as met. */
static double larger(double largest, double value)
{
    if (value <= largest) {
        return largest;
    }
    return isnan(value) ? (double)INFINITY : value;
}

/* Largest residual, with the derivatives by the free unknowns. */
static double residuals(const PlumbRig *rig, const PlumbProblem *problem, const double *target,
                        const PlumbState *state, double residual[PLUMB_FREE_MAX],
                        double jacobian[][PLUMB_LINEAR_MAX])
{
    PlumbRig copy;
    PlumbEval eval;
    plumb_eval(turned(rig, problem, state, &copy), state, problem->knee_bend_rad, &eval);
    double largest = eval.leg.reaches ? 0.0 : 1e3;
    for (int i = 0; i < problem->count; i++) {
        double gradient[PLUMB_UNKNOWN_COUNT];
        residual[i] =
            plumb_constraint_value(&eval, problem->constraint[i].id, gradient) - target[i];
        largest = larger(largest, fabs(residual[i]));
        for (int j = 0; j < problem->count; j++) {
            jacobian[i][j] = gradient[problem->free[j]];
        }
    }
    return largest;
}

/* Three equations by cofactors, a third of the work of elimination; elimination decides where the
 * determinant is small. */
static bool solve_step(int count, double m[][PLUMB_LINEAR_MAX], double *rhs)
{
    if (count != 3) {
        return plumb_linear_solve(count, m, rhs);
    }
    const double c0 = m[1][1] * m[2][2] - m[1][2] * m[2][1];
    const double c1 = m[1][2] * m[2][0] - m[1][0] * m[2][2];
    const double c2 = m[1][0] * m[2][1] - m[1][1] * m[2][0];
    const double determinant = m[0][0] * c0 + m[0][1] * c1 + m[0][2] * c2;
    if (!(fabs(determinant) > 1e-6)) {
        return plumb_linear_solve(count, m, rhs);
    }
    const double inverse = 1.0 / determinant;
    const double a = rhs[0];
    const double b = rhs[1];
    const double c = rhs[2];
    rhs[0] = inverse * (c0 * a + (m[0][2] * m[2][1] - m[0][1] * m[2][2]) * b +
                        (m[0][1] * m[1][2] - m[0][2] * m[1][1]) * c);
    rhs[1] = inverse * (c1 * a + (m[0][0] * m[2][2] - m[0][2] * m[2][0]) * b +
                        (m[0][2] * m[1][0] - m[0][0] * m[1][2]) * c);
    rhs[2] = inverse * (c2 * a + (m[0][1] * m[2][0] - m[0][0] * m[2][1]) * b +
                        (m[0][0] * m[1][1] - m[0][1] * m[1][0]) * c);
    return true;
}

/* Longest step taken at once: a limb's length or half a radian would leave the branch. */
static double step_limit(const PlumbRig *rig, const PlumbProblem *problem, const double *step)
{
    const double reach = 0.5 * (rig->shank + rig->thigh);
    double limit = 1.0;
    for (int i = 0; i < problem->count; i++) {
        const PlumbUnknown u = problem->free[i];
        const double most = u == PLUMB_LEAN || u == PLUMB_PSI ? 0.6 : reach;
        if (fabs(step[i]) * limit > most) {
            limit = most / fabs(step[i]);
        }
    }
    return limit;
}

bool plumb_newton(const PlumbRig *rig, const PlumbProblem *problem, PlumbState *state)
{
    double target[PLUMB_FREE_MAX];
    for (int i = 0; i < problem->count; i++) {
        target[i] = plumb_constraint_target(rig, &problem->constraint[i]);
    }
    double step[PLUMB_FREE_MAX];
    double jacobian[PLUMB_LINEAR_MAX][PLUMB_LINEAR_MAX];
    double largest = residuals(rig, problem, target, state, step, jacobian);
    for (int k = 0; k < STEPS_MAX && largest > polished; k++) {
        if (!solve_step(problem->count, jacobian, step)) {
            break;
        }
        double factor = step_limit(rig, problem, step);
        PlumbState next = *state;
        double next_step[PLUMB_FREE_MAX];
        double value = 0.0;
        int halvings = 0;
        for (;; halvings++) {
            for (int i = 0; i < problem->count; i++) {
                next.v[problem->free[i]] = state->v[problem->free[i]] - factor * step[i];
            }
            value = residuals(rig, problem, target, &next, next_step, jacobian);
            if (value < largest || largest < converged || halvings == HALVINGS_MAX) {
                break;
            }
            factor *= 0.5;
        }
        if (!(value < largest)) {
            break;
        }
        *state = next;
        largest = value;
        for (int i = 0; i < problem->count; i++) {
            step[i] = next_step[i];
        }
    }
    return largest < converged;
}
