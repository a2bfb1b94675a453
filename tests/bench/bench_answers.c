/* SPDX-License-Identifier: MIT */
/* Whole answers per second (start or hole, end, window, low-effort range, findings) and a grid of
 * 200 x 200 set-ups, on one core and two, beside what GSL and NLopt need for the bare poses of the
 * same problems. Use: bench_answers [SECONDS] */
#include "bench/bench.h"

#include "base/vec.h"

#include <gsl/gsl_errno.h>
#include <stdio.h>
#include <stdlib.h>

enum { SIDE = 200, MEMBERS = 40, ANSWERS = 400 };

typedef bool (*Method)(const BenchProblem *problem, PlumbState *state);

typedef struct Job {
    const BenchProblem *problem;
    Method method;
} Job;

static int answer_share(int first, int last, void *context)
{
    const Job *job = context;
    int held = 0;
    for (int i = first; i < last; i++) {
        PlumbAnswer answer;
        plumb_answer_solve(&job->problem[i].lifter, &job->problem[i].setup, &answer);
        held += answer.outcome != PLUMB_NO_POSE ? 1 : 0;
    }
    return held;
}

/* One set-up again and again. */
static int default_share(int first, int last, void *context)
{
    const Job *job = context;
    int held = 0;
    for (int i = first; i < last; i++) {
        PlumbAnswer answer;
        plumb_answer_solve(&job->problem->lifter, &job->problem->setup, &answer);
        held += answer.outcome != PLUMB_NO_POSE ? 1 : 0;
    }
    return held;
}

/* The lead's pose and as many members of its family as a window and a range look at. */
static int members_share(int first, int last, void *context)
{
    const Job *job = context;
    int met = 0;
    for (int i = first; i < last; i++) {
        BenchProblem member = job->problem[i];
        PlumbState state;
        bool all = job->method(&member, &state);
        const bool pull = member.setup.lift == PLUMB_DEADLIFT;
        member.setup.lead = pull ? PLUMB_LEAD_HIP_HEIGHT : PLUMB_LEAD_SHIN_ANGLE;
        const double root_y = job->problem[i].root.v[PLUMB_Y];
        for (int k = 0; k < MEMBERS; k++) {
            const double off = (double)(k - MEMBERS / 2) / MEMBERS;
            member.setup.hip_height_m = root_y + 0.1 * off;
            member.setup.shin_angle_rad = degrees(25.0 + 20.0 * off);
            all = job->method(&member, &state) && all;
        }
        met += all ? 1 : 0;
    }
    return met;
}

/* Point i of the grid: stance across, toes down. */
static void grid_point(const Job *job, int i, BenchProblem *point)
{
    *point = *job->problem;
    point->setup.stance_m = 0.2 + 0.5 * (i % SIDE) / (SIDE - 1);
    point->setup.toes_rad = degrees(40.0 * (i / SIDE) / (SIDE - 1));
}

static int grid_answers_share(int first, int last, void *context)
{
    const Job *job = context;
    int held = 0;
    for (int i = first; i < last; i++) {
        BenchProblem point;
        grid_point(job, i, &point);
        PlumbAnswer answer;
        plumb_answer_quick(&point.lifter, &point.setup, &answer);
        held += answer.outcome != PLUMB_NO_POSE ? 1 : 0;
    }
    return held;
}

static int grid_poses_share(int first, int last, void *context)
{
    const Job *job = context;
    int met = 0;
    for (int i = first; i < last; i++) {
        BenchProblem point;
        grid_point(job, i, &point);
        PlumbState state;
        met += job->method(&point, &state) ? 1 : 0;
    }
    return met;
}

typedef struct Row {
    const char *what;
    const char *method;
    BenchWork work;
    Method pose;
    int items;
} Row;

/* The first row of a group is what the others are held against. */
static void print_group(const Row *row, int rows, const BenchProblem *problem, double seconds)
{
    double own[2] = {0.0, 0.0};
    for (int i = 0; i < rows; i++) {
        Job job = {problem, row[i].pose};
        for (int threads = 1; threads <= 2; threads++) {
            const BenchResult r = bench_run(row[i].work, &job, row[i].items, threads, seconds);
            own[threads - 1] = i == 0 ? r.per_second : own[threads - 1];
            printf("| %s | %s | %d | %.2f | %.2f | %d of %d |\n", row[i].what, row[i].method,
                   threads, 1e6 / r.per_second, own[threads - 1] / r.per_second, r.succeeded,
                   row[i].items);
        }
    }
}

/* A lifter of the survey in the default set-up. */
static BenchProblem default_problem(PlumbLift lift)
{
    BenchProblem problem = {.setup = plumb_setup_default(lift)};
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, 1.75, 80.0);
    PlumbBody body;
    if (plumb_body_build(&spec, &body, NULL) != PLUMB_OK) {
        fputs("the default body cannot be built\n", stderr);
        exit(1);
    }
    problem.lifter = plumb_lifter_default(&body);
    return problem;
}

static void measure(PlumbLift lift, double seconds)
{
    static BenchProblem problem[BENCH_PROBLEMS];
    bench_problems(lift, problem);
    const bool pull = lift == PLUMB_DEADLIFT;
    const char *bare = pull ? "pull: 41 bare poses" : "squat: 41 bare poses";
    const Row answers[] = {{pull ? "pull: whole answer" : "squat: whole answer", "plumbar",
                            answer_share, NULL, ANSWERS},
                           {bare, "plumbar", members_share, bench_own, ANSWERS},
                           {bare, "GSL hybrids", members_share, bench_gsl, ANSWERS},
                           {bare, "NLopt L-BFGS", members_share, bench_nlopt, ANSWERS}};
    print_group(answers, 4, problem, seconds);
    BenchProblem usual = default_problem(lift);
    const Row whole = {pull ? "pull: default set-up, whole answer"
                            : "squat: default set-up, whole answer",
                       "plumbar", default_share, NULL, ANSWERS};
    print_group(&whole, 1, &usual, seconds);
    usual.setup.lead = pull ? PLUMB_LEAD_BALANCE : PLUMB_LEAD_SHIN_ANGLE;
    usual.setup.shin_angle_rad = degrees(30.0);
    const char *pose = pull ? "pull: grid point, bare pose" : "squat: grid point, bare pose";
    const Row grids[] = {{pull ? "pull: grid point, figures" : "squat: grid point, figures",
                          "plumbar", grid_answers_share, NULL, SIDE * SIDE},
                         {pose, "plumbar", grid_poses_share, bench_own, SIDE * SIDE},
                         {pose, "GSL hybrids", grid_poses_share, bench_gsl, SIDE * SIDE},
                         {pose, "NLopt L-BFGS", grid_poses_share, bench_nlopt, SIDE * SIDE}};
    print_group(grids, 4, &usual, seconds);
}

int main(int argc, char **argv)
{
    const double seconds = argc == 2 ? atof(argv[1]) : 1.0;
    gsl_set_error_handler_off();
    puts("| work | method | cores | us each | times plumbar's whole | met |\n"
         "|---|---|---|---|---|---|");
    measure(PLUMB_DEADLIFT, seconds);
    measure(PLUMB_SQUAT, seconds);
    return 0;
}
