/* SPDX-License-Identifier: MIT */
/* Problems, a clock, and work shared between threads, for the benchmarks. */
#include "bench/bench.h"

#include "sample.h"

#include <pthread.h>
#include <time.h>

enum { THREADS_MAX = 8, ROUNDS = 10 };

void bench_problems(PlumbLift lift, BenchProblem *problem)
{
    Random random = random_begin(0x62656e63680000u);
    for (int count = 0; count < BENCH_PROBLEMS;) {
        BenchProblem *p = &problem[count];
        p->lifter = random_lifter(&random);
        p->setup = random_setup(&random, &p->lifter, lift);
        p->setup.knees_over_toes = false;
        if (p->setup.lead == PLUMB_LEAD_AUTO) {
            p->setup.lead = lift == PLUMB_DEADLIFT ? PLUMB_LEAD_BALANCE : PLUMB_LEAD_SHIN_ANGLE;
        }
        count += bench_own(p, &p->root) ? 1 : 0;
    }
}

/* On one core the thread's own time, so that other work on the machine counts less; on two the
 * clock on the wall. */
static double now(int threads)
{
    struct timespec t;
    clock_gettime(threads == 1 ? CLOCK_THREAD_CPUTIME_ID : CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

typedef struct Share {
    BenchWork work;
    void *context;
    int first;
    int last;
    int passes;
    int succeeded;
} Share;

static void *run_share(void *context)
{
    Share *share = context;
    for (int i = 0; i < share->passes; i++) {
        share->succeeded = share->work(share->first, share->last, share->context);
    }
    return NULL;
}

static double run_once(BenchWork work, void *context, int items, int threads, int passes,
                       int *succeeded)
{
    pthread_t thread[THREADS_MAX];
    Share share[THREADS_MAX];
    const double begin = now(threads);
    for (int i = 0; i < threads; i++) {
        const Share part = {work,   context, items * i / threads, items * (i + 1) / threads,
                            passes, 0};
        share[i] = part;
        if (i > 0) {
            pthread_create(&thread[i], NULL, run_share, &share[i]);
        }
    }
    run_share(&share[0]);
    for (int i = 1; i < threads; i++) {
        pthread_join(thread[i], NULL);
    }
    const double seconds = now(threads) - begin;
    *succeeded = 0;
    for (int i = 0; i < threads; i++) {
        *succeeded += share[i].succeeded;
    }
    return seconds;
}

BenchResult bench_run(BenchWork work, void *context, int items, int threads, double seconds)
{
    BenchResult result = {0.0, 0};
    const double once = run_once(work, context, items, threads, 1, &result.succeeded);
    int passes = (int)(seconds / ROUNDS / (once > 1e-9 ? once : 1e-9));
    passes = passes < 1 ? 1 : passes;
    for (int i = 0; i < ROUNDS; i++) {
        const double took = run_once(work, context, items, threads, passes, &result.succeeded);
        const double rate = (double)items * passes / took;
        result.per_second = rate > result.per_second ? rate : result.per_second;
    }
    return result;
}
