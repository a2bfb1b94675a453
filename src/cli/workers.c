/* SPDX-License-Identifier: MIT */
/* Long work shared out over the machine's cores, with progress, that Ctrl+C stops.
 *
 * Chunks are taken in order and every chunk that was taken is finished, so that what is done is
 * always the beginning of the work, whatever the number of threads. */
#include "workers.h"

#include <pthread.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdio.h>
#include <time.h>
#include <unistd.h>

enum { THREADS_MAX = 64, CHUNK = 25 };

typedef struct Shared {
    const PlumbCliJob *job;
    atomic_int next; /* first item that nobody has taken */
} Shared;

static volatile sig_atomic_t stopped;

static void stop(int signal_number)
{
    (void)signal_number;
    stopped = 1;
}

/* One chunk; false where nothing is left or the work is stopped. */
static bool step(Shared *shared)
{
    const int count = shared->job->count;
    if (stopped) {
        return false;
    }
    const int first = atomic_fetch_add(&shared->next, CHUNK);
    if (first >= count) {
        return false;
    }
    shared->job->work(shared->job->context, first, count - first < CHUNK ? count - first : CHUNK);
    return true;
}

static void *worker(void *context)
{
    while (step(context)) {
    }
    return NULL;
}

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void show(const PlumbCliJob *job, int done)
{
    fprintf(stderr, "\r%s: %d of %d", job->words, done < job->count ? done : job->count,
            job->count);
    fflush(stderr);
}

/* The calling thread works too, and tells how far all have come. */
static void work_here(Shared *shared, bool tell)
{
    double told = seconds();
    bool any = false;
    while (step(shared)) {
        if (tell && seconds() - told > 0.2) {
            told = seconds();
            show(shared->job, atomic_load(&shared->next));
            any = true;
        }
    }
    if (any) {
        fputs("\r\033[K", stderr);
    }
}

static int thread_count(const PlumbCliJob *job)
{
    const long cores = job->threads > 0 ? job->threads : sysconf(_SC_NPROCESSORS_ONLN);
    const long most = job->count / CHUNK + 1 < THREADS_MAX ? job->count / CHUNK + 1 : THREADS_MAX;
    return (int)(cores < 1 ? 1 : cores < most ? cores : most);
}

int plumb_workers_run(const PlumbCliJob *job)
{
    Shared shared = {.job = job, .next = 0};
    pthread_t thread[THREADS_MAX];
    struct sigaction before;
    const struct sigaction during = {.sa_handler = stop};
    int started = 0;
    stopped = 0;
    if (job->stoppable) {
        sigaction(SIGINT, NULL, &before);
    }
    const bool listens = job->stoppable && before.sa_handler != SIG_IGN;
    if (listens) {
        sigaction(SIGINT, &during, NULL);
    }
    /* A thread that cannot be had is no error: the others do its share. */
    while (started < thread_count(job) - 1 &&
           pthread_create(&thread[started], NULL, worker, &shared) == 0) {
        started++;
    }
    work_here(&shared, job->words != NULL && isatty(STDERR_FILENO));
    for (int i = 0; i < started; i++) {
        pthread_join(thread[i], NULL);
    }
    if (listens) {
        sigaction(SIGINT, &before, NULL);
    }
    const int taken = atomic_load(&shared.next);
    return taken < job->count ? taken : job->count;
}
