/* SPDX-License-Identifier: MIT */
/* Solved starts and holes per second, on one core and two, beside GSL's hybrid method and NLopt on
 * the same problems. */
#include "bench/bench.h"

#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef bool (*Method)(const BenchProblem *problem, PlumbState *state);

typedef struct Job {
    const BenchProblem *problem;
    Method method;
} Job;

static int solve_share(int first, int last, void *context)
{
    const Job *job = context;
    int succeeded = 0;
    for (int i = first; i < last; i++) {
        PlumbState state;
        succeeded += job->method(&job->problem[i], &state) ? 1 : 0;
    }
    return succeeded;
}

static const struct {
    const char *name;
    Method method;
} methods[] = {{"plumbar", bench_own},
               {"GSL hybrids", bench_gsl},
               {"GSL hybrids, plain equations", bench_gsl_plain},
               {"NLopt L-BFGS", bench_nlopt}};

static void compare(const char *what, const BenchProblem *problem, double seconds)
{
    double own[2] = {0.0, 0.0};
    for (size_t m = 0; m < sizeof methods / sizeof methods[0]; m++) {
        Job job = {problem, methods[m].method};
        for (int threads = 1; threads <= 2; threads++) {
            const BenchResult r = bench_run(solve_share, &job, BENCH_PROBLEMS, threads, seconds);
            if (m == 0) {
                own[threads - 1] = r.per_second;
            }
            printf("| %s | %s | %d | %.0f | %.1f | %d of %d |\n", what, methods[m].name, threads,
                   r.per_second, own[threads - 1] / r.per_second, r.succeeded, BENCH_PROBLEMS);
        }
    }
}

/* With a lift's name and a count it only solves, for callgrind. */
static int solve_only(const BenchProblem *problem, int count)
{
    Job job = {problem, bench_own};
    int done = 0;
    while (done < count) {
        solve_share(0, BENCH_PROBLEMS, &job);
        done += BENCH_PROBLEMS;
    }
    printf("%d\n", done);
    return 0;
}

int main(int argc, char **argv)
{
    static BenchProblem problem[BENCH_PROBLEMS];
    gsl_set_error_handler_off();
    if (argc == 3) {
        bench_problems(strcmp(argv[1], "squat") == 0 ? PLUMB_SQUAT : PLUMB_DEADLIFT, problem);
        return solve_only(problem, atoi(argv[2]));
    }
    const double seconds = argc == 2 ? atof(argv[1]) : 1.0;
    puts("| pose | method | cores | solved per second | plumbar is faster by | met |");
    puts("|---|---|---|---|---|---|");
    bench_problems(PLUMB_DEADLIFT, problem);
    compare("start", problem, seconds);
    bench_problems(PLUMB_SQUAT, problem);
    compare("hole", problem, seconds);
    return 0;
}
