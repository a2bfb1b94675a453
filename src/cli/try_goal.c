/* SPDX-License-Identifier: MIT */
/* What is to be gained, as --for names it. */
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

static PlumbStatus goal_of_finding(const PlumbSolved *solved, PlumbFindingId id, PlumbGoal *goal,
                                   PlumbCliFault *fault)
{
    const PlumbFinding *const finding = plumb_solved_finding(solved, id);
    if (finding != NULL) {
        *goal = plumb_goal_of_finding(finding, solved->lift);
        return PLUMB_OK;
    }
    PlumbAim aim;
    if (plumb_finding_aim(id, solved->lift, &aim) && plumb_goal_of_aim(aim, solved->lift, goal)) {
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

PlumbStatus plumb_cli_goal(const PlumbCliArgs *args, const PlumbSolved *solved, PlumbGoal *goal,
                           PlumbCliFault *fault)
{
    PlumbAim aim;
    PlumbFindingId id;
    const char *const name = args->value[PLUMB_OPT_FOR];
    if (!args->given[PLUMB_OPT_FOR]) {
        *goal = plumb_goal_first(solved);
        return PLUMB_OK;
    }
    if (plumb_finding_find(name, strlen(name), &id)) {
        return goal_of_finding(solved, id, goal, fault);
    }
    if (!plumb_aim_find(name, strlen(name), &aim)) {
        return unknown_aim(name, solved->lift, fault);
    }
    return plumb_goal_of_aim(aim, solved->lift, goal) ? PLUMB_OK
                                                      : other_lifts_aim(aim, solved->lift, fault);
}
