/* SPDX-License-Identifier: MIT */
/* What the benchmarks share: problems, a clock, work on one core or two. */
#ifndef PLUMBAR_TESTS_BENCH_H
#define PLUMBAR_TESTS_BENCH_H

#include "solve/case.h"

/* One lead's pose problem of a random lifter and set-up that has a pose. */
typedef struct BenchProblem {
    PlumbLifter lifter;
    PlumbSetup setup;
    PlumbState root;
} BenchProblem;

enum { BENCH_PROBLEMS = 2000 };

/* Fills BENCH_PROBLEMS starts (deadlift) or holes (squat) led as a lifter would: balance, hip
 * height or back angle; shin or back angle. */
void bench_problems(PlumbLift lift, BenchProblem *problem);

/* Does items first..last-1 and returns how many succeeded. */
typedef int (*BenchWork)(int first, int last, void *context);

typedef struct BenchResult {
    double per_second;
    int succeeded; /* of one pass */
} BenchResult;

/* Repeats the whole list on `threads` threads for about `seconds` in ten rounds; the best round
 * counts, so that other work on the machine does least harm. */
BenchResult bench_run(BenchWork work, void *context, int items, int threads, double seconds);

/* One pose by each of the methods; true where it is met. bench_gsl has this program's equations,
 * bench_gsl_plain those of tests/residuals.h, written from the body's lengths as one would for GSL.
 */
bool bench_own(const BenchProblem *problem, PlumbState *state);
bool bench_gsl(const BenchProblem *problem, PlumbState *state);
bool bench_gsl_plain(const BenchProblem *problem, PlumbState *state);
bool bench_nlopt(const BenchProblem *problem, PlumbState *state);

#endif
