/* SPDX-License-Identifier: MIT */
/* plumbar try: what to try first, for an aim or a finding; options with reasons, no verdict. */
#include "command.h"
#include "try_out.h"

#include "base/words.h"

#include <string.h>

/* "less_travel, lower_effort and elbows_in": the aims that the lift knows. */
static void list_aims(PlumbText *text, PlumbLift lift)
{
    PlumbGoal goal;
    int left = 0;
    for (int i = 0; i < PLUMB_AIM_COUNT; i++) {
        left += plumb_goal_of_aim((PlumbAim)i, lift, &goal);
    }
    for (int i = 0; i < PLUMB_AIM_COUNT; i++) {
        if (plumb_goal_of_aim((PlumbAim)i, lift, &goal)) {
            plumb_text_string(text, plumb_aim_name((PlumbAim)i));
            left--;
            plumb_text_string(text, left > 1 ? ", " : left == 1 ? " and " : "");
        }
    }
}

static PlumbStatus unknown_aim(const char *name, PlumbLift lift, PlumbCliFault *fault)
{
    PlumbNearest search = plumb_nearest_begin(name, strlen(name));
    char after[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(after, sizeof after);
    plumb_text_string(&text, "' is neither an aim nor a finding; ");
    for (int i = 0; i < PLUMB_AIM_COUNT; i++) {
        plumb_nearest_try(&search, plumb_aim_name((PlumbAim)i));
    }
    for (int i = 0; i < PLUMB_FINDING_COUNT; i++) {
        plumb_nearest_try(&search, plumb_finding_name((PlumbFindingId)i));
    }
    if (plumb_nearest_word(&search) != NULL) {
        plumb_text_string(&text, "did you mean ");
        plumb_text_string(&text, plumb_nearest_word(&search));
        plumb_text_string(&text, "?");
    } else {
        plumb_text_string(&text, "aims are ");
        list_aims(&text, lift);
    }
    return plumb_fault_bad(fault, "--for", "'", name, after);
}

static PlumbStatus goal_of_finding(PlumbCliTry *try, PlumbFindingId id, PlumbCliFault *fault)
{
    const PlumbFinding *const finding = plumb_solved_finding(&try->solved, id);
    if (finding != NULL) {
        try->goal = plumb_goal_of_finding(finding, try->solved.lift);
        return PLUMB_OK;
    }
    PlumbAim aim;
    if (plumb_finding_aim(id, try->solved.lift, &aim) &&
        plumb_goal_of_aim(aim, try->solved.lift, &try->goal)) {
        return PLUMB_OK;
    }
    return plumb_fault_bad(fault, "--for", "this set-up has no finding '", plumb_finding_name(id),
                           "'; plumbar setup lists those that it has");
}

static PlumbStatus other_lifts_aim(PlumbAim aim, PlumbLift lift, PlumbCliFault *fault)
{
    char after[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(after, sizeof after);
    plumb_text_string(&text, "' is no aim of the ");
    plumb_text_string(&text, plumb_lift_text(lift));
    plumb_text_string(&text, "; its aims are ");
    list_aims(&text, lift);
    return plumb_fault_bad(fault, "--for", "'", plumb_aim_name(aim), after);
}

/* Without --for: the first warning, else less bar travel. */
static PlumbStatus choose_goal(const PlumbCliArgs *args, PlumbCliTry *try, PlumbCliFault *fault)
{
    PlumbAim aim = PLUMB_AIM_less_travel;
    PlumbFindingId id;
    const char *const name = args->value[PLUMB_OPT_FOR];
    if (!args->given[PLUMB_OPT_FOR]) {
        int count;
        const PlumbFinding *const finding = plumb_solved_findings(&try->solved, &count);
        for (int i = 0; i < count; i++) {
            if (finding[i].severity == PLUMB_WARNING) {
                try->goal = plumb_goal_of_finding(&finding[i], try->solved.lift);
                return PLUMB_OK;
            }
        }
    } else if (plumb_finding_find(name, strlen(name), &id)) {
        return goal_of_finding(try, id, fault);
    } else if (!plumb_aim_find(name, strlen(name), &aim)) {
        return unknown_aim(name, try->solved.lift, fault);
    }
    return plumb_goal_of_aim(aim, try->solved.lift, &try->goal)
               ? PLUMB_OK
               : other_lifts_aim(aim, try->solved.lift, fault);
}

/* --knee, or a lead by which a lifter describes the own start. */
static PlumbStatus read_own_start(const PlumbCliArgs *args, PlumbCliTry *try, PlumbCliFault *fault)
{
    PlumbSetup *const setup = &try->request.setup;
    if (args->given[PLUMB_OPT_KNEE]) {
        fault->path[0] = '\0';
        const PlumbStatus status =
            plumb_own_knee(&try->request.lifter, setup, args->value[PLUMB_OPT_KNEE], &fault->error);
        if (status != PLUMB_OK) {
            PlumbText field = plumb_text_begin(fault->error.field, sizeof fault->error.field);
            plumb_text_string(&field, "--knee");
            return status;
        }
    }
    try->own_start =
        setup->lift == PLUMB_DEADLIFT &&
        (setup->lead == PLUMB_LEAD_HIP_HEIGHT || setup->lead == PLUMB_LEAD_BACK_ANGLE ||
         setup->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE);
    return PLUMB_OK;
}

PlumbCliExit plumb_cli_try(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    static PlumbCliTry try;
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH,
                           &try.request, fault);
    if (status == PLUMB_OK) {
        status = read_own_start(args, &try, fault);
    }
    if (status == PLUMB_OK) {
        try.units = args->units;
        plumb_solved_solve(&try.request.lifter, &try.request.setup, &try.solved);
        if (try.own_start) {
            plumb_own_start(&try.solved.pose, &try.own);
        }
        status = choose_goal(args, &try, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    plumb_advice_rank(&try.request.lifter, &try.request.setup, &try.goal, try.option, &try.advice);
    status = plumb_try_sure_take(args, &try.request, &try.advice, try.option, &try.sure, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        plumb_try_json(&try, &out);
    } else if (args->csv) {
        plumb_try_csv(&try, &out);
    } else {
        plumb_try_text(&try, &out);
    }
    plumb_try_sure_drop(&try.sure);
    const bool none = plumb_solved_outcome(&try.solved) == PLUMB_NO_POSE;
    return plumb_cli_finish(&out, none ? PLUMB_EXIT_NO_POSE : PLUMB_EXIT_ANSWERED, fault);
}
