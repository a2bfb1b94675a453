/* SPDX-License-Identifier: MIT */
/* What to propose where nobody has proposed anything: the first change that is worth trying. */
#include <plumbar/hold.h>
#include <plumbar/report.h>

#include <stdlib.h>

enum { SEED = 1 };

/* All that one ranking needs, on the heap. */
typedef struct Ranking {
    PlumbLifter lifter;
    PlumbSolved before;
    PlumbAdvice advice;
    PlumbOption option[PLUMB_OPTION_MAX];
    PlumbBodies bodies;
    PlumbSampler sampler;
    PlumbHold hold[PLUMB_OPTION_MAX];
    double gain[PLUMB_HOLD_DRAWS_MAX * (1 + PLUMB_OPTION_MAX)];
    double scratch[2 * PLUMB_HOLD_DRAWS_MAX];
} Ranking;

/* Tries the options that gain on the bodies that the lifter could have; returns how many bodies. */
static int draw(const PlumbLifterRecord *record, const PlumbSetup *setup, Ranking *ranking)
{
    const int options = plumb_advice_candidates(ranking->option, &ranking->advice);
    const int count = plumb_hold_draws(&ranking->advice.goal, setup);
    if (options == 0) {
        return 0;
    }
    plumb_bodies_around(&record->spec, &ranking->lifter.body, &ranking->bodies);
    plumb_sampler_begin(&ranking->lifter, &ranking->bodies, SEED, &ranking->sampler);
    plumb_hold_solve(&ranking->sampler, setup, &ranking->advice.goal, ranking->option, options, 0,
                     count, ranking->gain);
    plumb_hold_sum(ranking->gain, count, options, plumb_hold_least_gain(&ranking->advice),
                   ranking->scratch, ranking->hold);
    plumb_advice_settle(ranking->hold, options, ranking->option, &ranking->advice);
    return count;
}

/* The first worth trying that may be asked for; false where there is none. */
static bool choose(Ranking *ranking, int samples, PlumbProposal *proposal)
{
    for (int i = 0; i < ranking->advice.worth_count; i++) {
        PlumbSolved after;
        plumb_solved_solve(&ranking->lifter, &ranking->option[i].setup, &after);
        if (plumb_changes_check(&ranking->before, &after, NULL) == PLUMB_OK) {
            *proposal = (PlumbProposal){.goal = ranking->advice.goal,
                                        .option = ranking->option[i],
                                        .amount = ranking->advice.amount,
                                        .gain = ranking->hold[i].gain,
                                        .sample_count = samples};
            return true;
        }
    }
    return false;
}

PlumbStatus plumb_proposal_find(const PlumbLifterRecord *record, const PlumbSetup *setup,
                                const PlumbGoal *goal, PlumbUnits units, PlumbProposal *proposal,
                                PlumbError *error)
{
    Ranking *const ranking = calloc(1, sizeof *ranking);
    if (ranking == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "--proposed", "no memory for a ranking");
    }
    PlumbStatus status = plumb_lifter_record_lifter(record, &ranking->lifter, error);
    if (status == PLUMB_OK) {
        plumb_solved_solve(&ranking->lifter, setup, &ranking->before);
        status = plumb_changes_held(&ranking->before, &ranking->before, error);
    }
    if (status == PLUMB_OK) {
        plumb_advice_rank(&ranking->lifter, setup, goal, units, ranking->option, &ranking->advice);
        const int samples = draw(record, setup, ranking);
        if (!choose(ranking, samples, proposal)) {
            status = plumb_error_set(error, PLUMB_BAD_INPUT, "--proposed",
                                     "is missing, and no single change gains what a person "
                                     "notices, and more than its uncertainty: leave the set-up, or "
                                     "propose one, as \"stance=45cm\" or FILE:set-up name");
        }
    }
    free(ranking);
    return status;
}

/* " (95 of 100 bodies: 1.0 to 1.4 cm)" */
static void interval(PlumbText *text, const PlumbProposal *proposal, PlumbUnits units)
{
    plumb_estimate_text(text, &proposal->gain, "95 of 100 bodies",
                        plumb_goal_quantity(&proposal->goal), units);
}

/* The finding as it is, and how much of it the change takes away. */
static void against(PlumbText *text, const PlumbProposal *proposal, PlumbUnits units)
{
    const PlumbGoal *const goal = &proposal->goal;
    plumb_text_string(text, "It is against this: ");
    plumb_finding_text(text, &goal->what, units);
    if (goal->form == PLUMB_GOAL_GONE || proposal->option.gain >= proposal->amount - 1e-9) {
        plumb_text_string(text, " With the change that is gone.");
        return;
    }
    plumb_text_string(text, " The change takes ");
    plumb_text_quantity(text, proposal->option.gain, plumb_goal_quantity(goal), units);
    plumb_text_string(text, " off that");
    interval(text, proposal, units);
    plumb_text_char(text, '.');
}

void plumb_proposal_gain_text(PlumbText *text, const PlumbProposal *proposal, PlumbUnits units)
{
    const PlumbGoal *const goal = &proposal->goal;
    if (goal->aim == PLUMB_AIM_COUNT) {
        against(text, proposal, units);
        return;
    }
    const char *const words = plumb_goal_text(goal);
    const bool small = words[0] >= 'a' && words[0] <= 'z';
    plumb_text_char(text, small ? (char)(words[0] - 'a' + 'A') : words[0]);
    plumb_text_string(text, words[0] != '\0' ? words + 1 : "");
    plumb_text_string(text, " becomes ");
    plumb_text_quantity(text, proposal->option.gain, plumb_goal_quantity(goal), units);
    plumb_text_string(text, " less");
    interval(text, proposal, units);
    plumb_text_char(text, '.');
}
