/* SPDX-License-Identifier: MIT */
/* Effects per second by the implicit function theorem, a press's by its closed form, against
 * differences of answers solved again (central, two answers a factor), in the same run. Use:
 * bench_effects [SECONDS] */
#include <plumbar/effects.h>
#include <plumbar/press_effects.h>

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

static void press_by_formula(const Subject *s)
{
    static PlumbEffectRow row[PLUMB_FACTOR_MAX];
    plumb_press_effects_solve(&s->lifter, &s->setup, s->factor, s->count, row);
    sink += row[0].of[PLUMB_PRESS_OUT_travel].up;
}

static void press_by_differences(const Subject *s)
{
    const double h = 1e-5;
    for (int i = 0; i < s->count; i++) {
        PlumbPressAnswer answer[2];
        for (int k = 0; k < 2; k++) {
            PlumbLifter lifter = s->lifter;
            PlumbSetup setup = s->setup;
            plumb_factor_move(&s->factor[i], k == 0 ? -h : h, &lifter, &setup);
            plumb_press_quick(&lifter, &setup, &answer[k]);
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

typedef void (*Work)(const Subject *s);

static void measure(const char *name, const Subject *s, Work exact, Work differing, int outputs,
                    double seconds)
{
    const double theorem = rate(exact, s, seconds);
    const double differences = rate(differing, s, seconds);
    const double figures = (double)s->count * outputs;
    printf(
        "%s: %d factors x %d figures; %.3g effects/s, by differences %.3g effects/s, ratio %.1f\n",
        name, s->count, outputs, theorem * figures, differences * figures, theorem / differences);
}

int main(int argc, char **argv)
{
    static const struct {
        const char *name;
        PlumbLift lift;
        PlumbLead lead; /* of a press */
    } rows[] = {
        {"deadlift", PLUMB_DEADLIFT, PLUMB_LEAD_AUTO},
        {"squat", PLUMB_SQUAT, PLUMB_LEAD_AUTO},
        {"press, auto", PLUMB_BENCH, PLUMB_LEAD_AUTO},
        {"press, touch", PLUMB_BENCH, PLUMB_LEAD_TOUCH},
    };
    static Subject s;
    const double seconds = argc > 1 ? strtod(argv[1], NULL) : 1.0;
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.75, 80.0);
    PlumbBody body;
    PlumbError error;
    if (plumb_body_build(&spec, &body, &error) != PLUMB_OK) {
        exit(1);
    }
    s.lifter = plumb_lifter_default(&body);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        s.setup = plumb_setup_default(rows[i].lift);
        if (rows[i].lift == PLUMB_BENCH) {
            s.setup.lead = rows[i].lead;
            s.setup.touch_m = 0.10;
            s.count = plumb_factors(&s.setup, s.factor);
            measure(rows[i].name, &s, press_by_formula, press_by_differences,
                    PLUMB_PRESS_OUTPUT_COUNT, seconds);
        } else {
            plumb_answer_solve(&s.lifter, &s.setup, &s.answer);
            s.count = plumb_factors(&s.setup, s.factor);
            measure(rows[i].name, &s, by_theorem, by_differences, PLUMB_OUTPUT_COUNT, seconds);
        }
    }
    return sink == sink ? 0 : 1;
}
