/* SPDX-License-Identifier: MIT */
/* plumbar population: the set-up for people at large, and where this lifter stands among them. */
#include "command.h"
#include "people.h"
#include "picture.h"
#include "samples.h"
#include "workers.h"

#include <stdlib.h>

int plumb_people_regressed(PlumbLift lift, int index)
{
    static const int of_legs[PLUMB_PEOPLE_REGRESSED] = {PLUMB_OUT_back_angle, PLUMB_OUT_travel,
                                                        PLUMB_OUT_window_width};
    static const int of_press[PLUMB_PEOPLE_REGRESSED] = {
        PLUMB_PRESS_OUT_travel, PLUMB_PRESS_OUT_front_arm, PLUMB_PRESS_OUT_elbow_arm};
    return lift == PLUMB_BENCH ? of_press[index] : of_legs[index];
}

PlumbTrait plumb_people_trait(PlumbLift lift, int index)
{
    static const PlumbTrait of_legs[PLUMB_PEOPLE_REGRESSED] = {
        PLUMB_TRAIT_thigh_to_trunk, PLUMB_TRAIT_arm_to_stature, PLUMB_TRAIT_shank_to_stature};
    static const PlumbTrait of_press[PLUMB_PEOPLE_REGRESSED] = {
        PLUMB_TRAIT_arm_to_stature, PLUMB_TRAIT_shoulders_to_grip, PLUMB_TRAIT_arm_to_stature};
    return lift == PLUMB_BENCH ? of_press[index] : of_legs[index];
}

typedef struct Draws {
    PlumbSampler sampler;
    const PlumbSetup *setup;
    PlumbPerson *person;
} Draws;

static void solve(void *context, int first, int count)
{
    const Draws *const draws = context;
    plumb_population_solve(&draws->sampler, draws->setup, (uint64_t)first, count,
                           draws->person + first);
}

bool plumb_people_tell(const PlumbCliPeople *people, int output, PlumbEstimate *estimate)
{
    static const double SAME = 1e-9;
    *estimate = plumb_population_estimate(people->person, people->count, output, people->scratch);
    return estimate->sd > SAME;
}

void plumb_people_words(const PlumbCliPeople *people, PlumbText *text)
{
    const bool man = people->request->lifter.body.sex == PLUMB_MALE;
    plumb_text_integer(text, people->count);
    if (people->count < people->asked) {
        plumb_text_string(text, " of ");
        plumb_text_integer(text, people->asked);
    }
    plumb_text_string(text, man ? " men" : " women");
    plumb_text_string(text, people->count < people->asked ? " (stopped)" : "");
    plumb_text_string(text, ", drawn around the survey's means: stature, mass and build");
}

static void sum_up(PlumbCliPeople *people)
{
    int outcomes[3] = {0, 0, 0};
    for (int i = 0; i < people->count; i++) {
        outcomes[people->person[i].sample.outcome]++;
    }
    people->held_count = outcomes[PLUMB_HELD];
    people->outside_count = outcomes[PLUMB_OUTSIDE_WINDOW];
    people->no_pose_count = outcomes[PLUMB_NO_POSE];
    for (int i = 0; i < PLUMB_PEOPLE_REGRESSED; i++) {
        people->regression[i] = plumb_population_regress(
            people->person, people->count, plumb_people_regressed(people->request->setup.lift, i),
            &people->request->setup);
    }
}

static PlumbStatus run(const PlumbCliArgs *args, const PlumbCliRequest *request,
                       PlumbCliPeople *people, PlumbCliFault *fault)
{
    enum { DEFAULT = 10000 };
    *people = (PlumbCliPeople){.request = request, .seed = args->seed};
    people->asked = args->samples < 0 ? DEFAULT : args->samples;
    if (people->asked == 0) {
        return plumb_fault_bad(fault, "--samples", "a population has bodies; give 2 or more", "",
                               "");
    }
    people->person = malloc((size_t)people->asked * sizeof *people->person);
    people->scratch = malloc(2 * (size_t)people->asked * sizeof *people->scratch);
    if (people->person == NULL || people->scratch == NULL) {
        return plumb_samples_no_memory(fault);
    }
    Draws draws = {.setup = &request->setup, .person = people->person};
    plumb_sampler_population(&request->lifter, args->seed, &draws.sampler);
    const PlumbCliJob job = {.work = solve,
                             .context = &draws,
                             .count = people->asked,
                             .threads = args->threads,
                             .stoppable = true,
                             .words = "bodies"};
    plumb_solved_solve(&request->lifter, &request->setup, &people->own);
    people->count = plumb_workers_run(&job);
    sum_up(people);
    return PLUMB_OK;
}

static PlumbCliExit tell(const PlumbCliArgs *args, const PlumbCliPeople *people,
                         PlumbCliFault *fault)
{
    enum { LEAST = 2 };
    PlumbPictureKind kind;
    if (people->count < LEAST) {
        return PLUMB_EXIT_STOPPED; /* too early for any figure */
    }
    const bool drawn = !args->json && !args->csv && args->output != NULL &&
                       plumb_picture_find(args->output, &kind);
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (drawn) {
        const PlumbStatus status = plumb_people_draw(people, args, &out, fault);
        if (status != PLUMB_OK) {
            plumb_output_drop(&out);
            return plumb_fault_exit(status);
        }
    } else if (args->json) {
        plumb_people_json(people, &out);
    } else if (args->csv) {
        plumb_people_csv(people, &out);
    } else {
        plumb_people_text(people, args->units, &out);
    }
    const bool stopped = people->count < people->asked;
    const bool none = people->no_pose_count == people->count;
    return plumb_cli_finish(&out,
                            stopped ? PLUMB_EXIT_STOPPED
                            : none  ? PLUMB_EXIT_NO_POSE
                                    : PLUMB_EXIT_ANSWERED,
                            fault);
}

PlumbCliExit plumb_cli_population(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliRequest request;
    PlumbStatus status = plumb_request_read(
        args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH, &request, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliPeople people;
    status = run(args, &request, &people, fault);
    const PlumbCliExit code =
        status == PLUMB_OK ? tell(args, &people, fault) : plumb_fault_exit(status);
    free(people.person);
    free(people.scratch);
    return code;
}
