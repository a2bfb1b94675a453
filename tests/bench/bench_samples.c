/* SPDX-License-Identifier: MIT */
/* Drawn bodies solved per second: on one core, on two, and of squat and deadlift beside a serial
 * loop over GSL's hybrid method that solves the same start or hole for the same bodies, in the same
 * run. The work per body in each line is said there. Use: bench_samples [BODIES] */
#include <plumbar/interval.h>

#include "solve/case.h"

#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#ifdef PLUMB_HAS_GSL
#include <gsl/gsl_errno.h>
#include <gsl/gsl_multiroots.h>
#include <gsl/gsl_vector.h>
#endif

typedef struct Subject {
    PlumbSampler sampler;
    PlumbSetup setup;
    bool quick;
    int count;
    PlumbSample *sample;
} Subject;

typedef struct Half {
    const Subject *subject;
    int first;
    int count;
} Half;

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void *solve_half(void *context)
{
    const Half *half = context;
    plumb_samples_solve(&half->subject->sampler, &half->subject->setup, half->subject->quick,
                        (uint64_t)half->first, half->count, half->subject->sample + half->first);
    return NULL;
}

/* Bodies per second on 1 or 2 threads. */
static double rate(const Subject *s, int threads)
{
    pthread_t other;
    Half half[2] = {{s, 0, s->count / threads}, {s, s->count / 2, s->count - s->count / 2}};
    const double begin = now_s();
    if (threads == 2 && pthread_create(&other, NULL, solve_half, &half[1]) != 0) {
        exit(1);
    }
    solve_half(&half[0]);
    if (threads == 2) {
        pthread_join(other, NULL);
    }
    return s->count / (now_s() - begin);
}

/* The pose of the lead alone, by this program: what GSL is given to do. */
static double pose_rate(const Subject *s, double *check)
{
    const double begin = now_s();
    for (int i = 0; i < s->count; i++) {
        PlumbLifter lifter;
        PlumbSetup setup = s->setup;
        PlumbCase c;
        double off;
        plumb_sampler_draw(&s->sampler, (uint64_t)i, &lifter, &off);
        setup.balance_frac += off;
        plumb_case_begin(&lifter, &setup, &c);
        const PlumbProblem problem = plumb_lead_problem(&setup, setup.lead);
        PlumbState state = plumb_case_guess(&c);
        PlumbConstraintId failed;
        double miss;
        if (plumb_case_meet(&c, &problem, &state, &failed, &miss)) {
            *check += state.v[PLUMB_Y];
        }
    }
    return s->count / (now_s() - begin);
}

#ifdef PLUMB_HAS_GSL
typedef struct Equations {
    PlumbCase c;
    PlumbProblem problem;
} Equations;

static int residuals(const gsl_vector *x, void *context, gsl_vector *f)
{
    const Equations *equations = context;
    PlumbState state = plumb_case_guess(&equations->c);
    for (size_t i = 0; i < 3; i++) {
        state.v[equations->problem.free[i]] = gsl_vector_get(x, i);
    }
    PlumbEval eval;
    plumb_eval(&equations->c.rig, &state, -1.0, &eval);
    for (size_t i = 0; i < 3; i++) {
        const PlumbConstraint *constraint = &equations->problem.constraint[i];
        const double target =
            constraint->id == PLUMB_CON_depth ? -constraint->target : constraint->target;
        gsl_vector_set(f, i, plumb_constraint_value(&eval, constraint->id, NULL) - target);
    }
    return GSL_SUCCESS;
}

/* One body; the solver is made once, as a careful caller would. NaN where it does not converge. */
static double gsl_pose(gsl_multiroot_fsolver *solver, gsl_vector *x, Equations *equations)
{
    const PlumbState guess = plumb_case_guess(&equations->c);
    for (size_t i = 0; i < 3; i++) {
        gsl_vector_set(x, i, guess.v[equations->problem.free[i]]);
    }
    gsl_multiroot_function function = {residuals, 3, equations};
    gsl_multiroot_fsolver_set(solver, &function, x);
    for (int i = 0; i < 100; i++) {
        if (gsl_multiroot_fsolver_iterate(solver) != GSL_SUCCESS) {
            break;
        }
        if (gsl_multiroot_test_residual(solver->f, 1e-10) == GSL_SUCCESS) {
            return gsl_vector_get(solver->x, 1);
        }
    }
    return (double)NAN;
}

static double gsl_rate(const Subject *s, double *check, int *lost)
{
    gsl_set_error_handler_off();
    gsl_multiroot_fsolver *solver = gsl_multiroot_fsolver_alloc(gsl_multiroot_fsolver_hybrids, 3);
    gsl_vector *x = gsl_vector_alloc(3);
    const double begin = now_s();
    for (int i = 0; i < s->count; i++) {
        PlumbLifter lifter;
        PlumbSetup setup = s->setup;
        Equations equations;
        double off;
        plumb_sampler_draw(&s->sampler, (uint64_t)i, &lifter, &off);
        setup.balance_frac += off;
        plumb_case_begin(&lifter, &setup, &equations.c);
        equations.problem = plumb_lead_problem(&setup, setup.lead);
        const double height_m = gsl_pose(solver, x, &equations);
        *lost += isnan(height_m) ? 1 : 0;
        *check += isnan(height_m) ? 0.0 : height_m;
    }
    const double spent = now_s() - begin;
    gsl_vector_free(x);
    gsl_multiroot_fsolver_free(solver);
    return s->count / spent;
}
#endif

static void print_rates(const char *what, Subject *s, bool quick)
{
    s->quick = quick;
    const double one = rate(s, 1);
    const double two = rate(s, 2);
    printf("  %-54s %9.0f/s, two cores %9.0f/s (%.2f); 2000 in %.3f s\n", what, one, two, two / one,
           2000.0 / one);
}

static void measure(const char *name, PlumbSetup setup, int count)
{
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.75, 80.0);
    PlumbBody body;
    PlumbBodies bodies;
    if (plumb_body_build(&spec, &body, NULL) != PLUMB_OK) {
        exit(1);
    }
    const PlumbLifter lifter = plumb_lifter_default(&body);
    Subject s = {.setup = setup, .count = count};
    s.sample = malloc((size_t)count * sizeof *s.sample);
    if (s.sample == NULL) {
        exit(1);
    }
    plumb_bodies_around(&spec, &body, &bodies);
    plumb_sampler_begin(&lifter, &bodies, 1, &s.sampler);
    printf("%s, %d bodies\n", name, count);
    print_rates("whole answer: window, range, both ends, all figures", &s, false);
    print_rates("quick answer: both ends, all figures", &s, true);
    if (setup.lead != PLUMB_LEAD_AUTO) {
        double own_sum = 0.0;
        const double own = pose_rate(&s, &own_sum);
        printf("  %-54s %9.0f/s\n", "body drawn, pose of the lead solved", own);
#ifdef PLUMB_HAS_GSL
        double gsl_sum = 0.0;
        int lost = 0;
        const double other = gsl_rate(&s, &gsl_sum, &lost);
        printf("  %-54s %9.0f/s, %d not found; ratio %.1f on one core\n",
               "the same by GSL's hybrid method", other, lost, own / other);
        printf("  mean hip height: %.6f m, GSL %.6f m\n", own_sum / count,
               gsl_sum / (count - lost));
#endif
    }
    free(s.sample);
}

int main(int argc, char **argv)
{
    const int count = argc > 1 ? (int)strtol(argv[1], NULL, 10) : 20000;
    PlumbSetup squat = plumb_setup_default(PLUMB_SQUAT);
    if (count < 2) {
        fprintf(stderr, "use: bench_samples [BODIES], at least 2\n");
        return 2;
    }
    measure("deadlift led by balance", plumb_setup_default(PLUMB_DEADLIFT), count);
    measure("squat led by auto", squat, count);
    plumb_setup_set(&squat, PLUMB_SET_shin_angle, 0.5);
    measure("squat led by the shin angle", squat, count);
    measure("bench press led by auto", plumb_setup_default(PLUMB_BENCH), count);
    return 0;
}
