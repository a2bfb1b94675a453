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

/* Largest residual; with gradients where jacobian is not NULL. */
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
        residual[i] = plumb_constraint_value(&eval, problem->constraint[i].id,
                                             jacobian != NULL ? gradient : NULL) -
                      target[i];
        largest = fmax(largest, fabs(residual[i]));
        for (int j = 0; jacobian != NULL && j < problem->count; j++) {
            jacobian[i][j] = gradient[problem->free[j]];
        }
    }
    return largest;
}

/* Longest step taken at once: a limb's length or half a radian would leave the branch. */
static double step_limit(const PlumbRig *rig, const PlumbProblem *problem, const double *step)
{
    const double reach = 0.5 * (rig->shank + rig->thigh);
    double limit = 1.0;
    for (int i = 0; i < problem->count; i++) {
        const PlumbUnknown u = problem->free[i];
        const double most = u == PLUMB_LEAN || u == PLUMB_PSI ? 0.6 : reach;
        limit = fmin(limit, most / fmax(fabs(step[i]), 1e-300));
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
        if (!plumb_linear_solve(problem->count, jacobian, step)) {
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
