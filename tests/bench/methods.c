/* SPDX-License-Identifier: MIT */
/* One pose by this program's Newton, by GSL's hybrid method and by NLopt, from the same guess and
 * on the same equations. */
#include "bench/bench.h"

#include "residuals.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_multiroots.h>
#include <gsl/gsl_vector.h>
#include <nlopt.h>

static const double met = 1e-10;

/* The mechanism and the problem, built anew for each pose as a program would. */
typedef struct Equations {
    PlumbRig rig;
    PlumbProblem problem;
    double target[3];
    PlumbState state;
} Equations;

static PlumbState guess_of(const PlumbRig *rig, const BenchProblem *problem)
{
    PlumbCase c;
    c.rig = *rig;
    c.knees_out_rad = problem->setup.knees_out_rad;
    c.bar.x = problem->setup.bar_over_m;
    c.bar.y = plumb_bar_start_height_m(&problem->lifter, &problem->setup);
    return plumb_case_guess(&c);
}

static void equations_begin(const BenchProblem *problem, Equations *e)
{
    plumb_rig_build(&problem->lifter, &problem->setup, problem->setup.spine_rad,
                    problem->setup.knees_out_rad, &e->rig);
    e->problem = plumb_lead_problem(&problem->setup, problem->setup.lead);
    e->state = guess_of(&e->rig, problem);
    for (int i = 0; i < 3; i++) {
        const PlumbConstraint *c = &e->problem.constraint[i];
        e->target[i] = c->id == PLUMB_CON_depth ? -c->target : c->target;
    }
}

static void residuals_at(const Equations *e, const PlumbState *state, double residual[3],
                         double gradient[3][PLUMB_UNKNOWN_COUNT])
{
    PlumbEval eval;
    plumb_eval(&e->rig, state, -1.0, &eval);
    for (int i = 0; i < 3; i++) {
        residual[i] = plumb_constraint_value(&eval, e->problem.constraint[i].id,
                                             gradient != NULL ? gradient[i] : NULL) -
                      e->target[i];
    }
}

bool bench_own(const BenchProblem *problem, PlumbState *state)
{
    PlumbRig rig;
    plumb_rig_build(&problem->lifter, &problem->setup, problem->setup.spine_rad,
                    problem->setup.knees_out_rad, &rig);
    const PlumbProblem pose = plumb_lead_problem(&problem->setup, problem->setup.lead);
    *state = guess_of(&rig, problem);
    return plumb_newton(&rig, &pose, state) && plumb_on_branch(&rig, state, -1.0);
}

static int gsl_equations(const gsl_vector *x, void *context, gsl_vector *f)
{
    const Equations *e = context;
    PlumbState state = e->state;
    for (size_t i = 0; i < 3; i++) {
        state.v[i] = gsl_vector_get(x, i);
    }
    double residual[3];
    residuals_at(e, &state, residual, NULL);
    for (size_t i = 0; i < 3; i++) {
        gsl_vector_set(f, i, residual[i]);
    }
    return GSL_SUCCESS;
}

static int gsl_plain_equations(const gsl_vector *x, void *context, gsl_vector *f)
{
    const BenchProblem *problem = context;
    const double q[3] = {gsl_vector_get(x, 0), gsl_vector_get(x, 1), gsl_vector_get(x, 2)};
    double residual[3];
    plain_residuals(&problem->lifter, &problem->setup, q, residual);
    for (size_t i = 0; i < 3; i++) {
        gsl_vector_set(f, i, isfinite(residual[i]) ? residual[i] : 10.0);
    }
    return GSL_SUCCESS;
}

/* With the program's equations (context the Equations), or with the plain ones (the problem). */
static bool gsl_solve(const BenchProblem *problem, bool plain, PlumbState *state)
{
    Equations e;
    equations_begin(problem, &e);
    BenchProblem copy = *problem;
    gsl_multiroot_fsolver *solver = gsl_multiroot_fsolver_alloc(gsl_multiroot_fsolver_hybrids, 3);
    gsl_vector *x = gsl_vector_alloc(3);
    for (size_t i = 0; i < 3; i++) {
        gsl_vector_set(x, i, e.state.v[i]);
    }
    gsl_multiroot_function function = {gsl_equations, 3, &e};
    if (plain) {
        function.f = gsl_plain_equations;
        function.params = &copy;
    }
    gsl_multiroot_fsolver_set(solver, &function, x);
    int status = GSL_CONTINUE;
    for (int i = 0; i < 100 && status == GSL_CONTINUE; i++) {
        if (gsl_multiroot_fsolver_iterate(solver) != GSL_SUCCESS) {
            break;
        }
        status = gsl_multiroot_test_residual(solver->f, met);
    }
    *state = e.state;
    for (size_t i = 0; i < 3; i++) {
        state->v[i] = gsl_vector_get(solver->x, i);
    }
    gsl_vector_free(x);
    gsl_multiroot_fsolver_free(solver);
    return status == GSL_SUCCESS;
}

bool bench_gsl(const BenchProblem *problem, PlumbState *state)
{
    return gsl_solve(problem, false, state);
}

bool bench_gsl_plain(const BenchProblem *problem, PlumbState *state)
{
    return gsl_solve(problem, true, state);
}

/* Half the sum of squares with its gradient. */
static double nlopt_objective(unsigned count, const double *x, double *slope, void *context)
{
    (void)count;
    const Equations *e = context;
    PlumbState state = e->state;
    for (int i = 0; i < 3; i++) {
        state.v[i] = x[i];
    }
    double residual[3];
    double gradient[3][PLUMB_UNKNOWN_COUNT];
    residuals_at(e, &state, residual, gradient);
    double sum = 0.0;
    for (int i = 0; i < 3; i++) {
        sum += 0.5 * residual[i] * residual[i];
    }
    for (int k = 0; slope != NULL && k < 3; k++) {
        slope[k] = 0.0;
        for (int i = 0; i < 3; i++) {
            slope[k] += residual[i] * gradient[i][k];
        }
    }
    return sum;
}

bool bench_nlopt(const BenchProblem *problem, PlumbState *state)
{
    Equations e;
    equations_begin(problem, &e);
    nlopt_opt opt = nlopt_create(NLOPT_LD_LBFGS, 3);
    nlopt_set_min_objective(opt, nlopt_objective, &e);
    nlopt_set_stopval(opt, 0.5 * met * met);
    nlopt_set_maxeval(opt, 500);
    double least;
    double x[3] = {e.state.v[0], e.state.v[1], e.state.v[2]};
    nlopt_optimize(opt, x, &least);
    nlopt_destroy(opt);
    *state = e.state;
    for (int i = 0; i < 3; i++) {
        state->v[i] = x[i];
    }
    /* A sum of squares cannot be driven as far as the residuals themselves. */
    return least < 0.5 * 1e-12;
}
