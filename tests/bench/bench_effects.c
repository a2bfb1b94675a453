/* SPDX-License-Identifier: MIT */
/* Effects per second by the implicit function theorem, against differences of answers solved again
 * (central, two answers a factor), in the same run. Use: bench_effects [SECONDS] */
#include <plumbar/effects.h>

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

typedef struct Subject {
    PlumbLifter lifter;
    PlumbSetup setup;
    PlumbAnswer answer;
    PlumbFactor factor[PLUMB_FACTOR_MAX];
    int count;
} Subject;

static double sink; /* keeps the work from being left out */

static void by_theorem(const Subject *s)
{
    static PlumbEffectRow row[PLUMB_FACTOR_MAX];
    plumb_effects_solve(&s->lifter, &s->setup, &s->answer, s->factor, s->count, row);
    sink += row[0].of[PLUMB_OUT_travel].up;
}

static void by_differences(const Subject *s)
{
    const double h = 1e-5;
    for (int i = 0; i < s->count; i++) {
        PlumbAnswer answer[2];
        for (int k = 0; k < 2; k++) {
            PlumbLifter lifter = s->lifter;
            PlumbSetup setup = s->setup;
            plumb_factor_move(&s->factor[i], k == 0 ? -h : h, &lifter, &setup);
            plumb_answer_solve(&lifter, &setup, &answer[k]);
        }
        sink += (answer[1].travel_m - answer[0].travel_m) / (2.0 * h);
    }
}

/* Tables of effects per second. */
static double rate(void (*work)(const Subject *), const Subject *s, double seconds)
{
    long runs = 0;
    const double begin = now_s();
    double spent = 0.0;
    while (spent < seconds) {
        work(s);
        runs++;
        spent = now_s() - begin;
    }
    return (double)runs / spent;
}

static void measure(const char *name, PlumbSetup setup, double seconds)
{
    static Subject s;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.75, 80.0);
    PlumbBody body;
    PlumbError error;
    if (plumb_body_build(&spec, &body, &error) != PLUMB_OK) {
        exit(1);
    }
    s.lifter = plumb_lifter_default(&body);
    s.setup = setup;
    plumb_answer_solve(&s.lifter, &s.setup, &s.answer);
    s.count = plumb_factors(&s.setup, s.factor);
    const double theorem = rate(by_theorem, &s, seconds);
    const double differences = rate(by_differences, &s, seconds);
    const double figures = (double)s.count * PLUMB_OUTPUT_COUNT;
    printf(
        "%s: %d factors x %d figures; %.3g effects/s, by differences %.3g effects/s, ratio %.1f\n",
        name, s.count, (int)PLUMB_OUTPUT_COUNT, theorem * figures, differences * figures,
        theorem / differences);
}

int main(int argc, char **argv)
{
    const double seconds = argc > 1 ? strtod(argv[1], NULL) : 1.0;
    measure("deadlift", plumb_setup_default(PLUMB_DEADLIFT), seconds);
    measure("squat", plumb_setup_default(PLUMB_SQUAT), seconds);
    return sink == sink ? 0 : 1;
}
