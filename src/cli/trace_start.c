/* SPDX-License-Identifier: MIT */
/* The start of a pull that a picture shows: against window and range, and what would help most. */
#include "own_start.h"
#include "text_out.h"
#include "trace_still.h"

bool plumb_still_start(const PlumbCliStill *still, int index, PlumbUnits units,
                       PlumbStillStart *start)
{
    const PlumbTraced *const traced = &still->all.trace.still[index];
    if (!still->all.has_own[index]) {
        return false;
    }
    const PlumbSetup setup = plumb_trace_setup(traced);
    plumb_own_start(&still->all.own[index], &start->own);
    start->hip_height_sd_m = traced->sd[PLUMB_READ_hip_height];
    start->advised = false;
    PlumbGoal goal;
    if (start->own.hip_rise_m > 0.0 && plumb_goal_of_aim(PLUMB_AIM_level_hips, setup.lift, &goal)) {
        PlumbOption option[PLUMB_OPTION_MAX];
        PlumbAdvice advice;
        plumb_advice_rank(&still->all.trace.lifter, &setup, &goal, units, option, &advice);
        start->advised = advice.worth_count > 0;
        start->option = option[0];
    }
    return true;
}

void plumb_still_start_text(const PlumbStillStart *start, PlumbUnits units, PlumbCliOutput *out)
{
    plumb_print_own_start(&start->own, units, out);
    char line[320];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text,
                      "  This is with the bar where it stands, and the hips are read within ");
    plumb_text_quantity(&text, start->hip_height_sd_m, PLUMB_Q_LENGTH, units);
    plumb_text_string(&text, ": a rise of less than twice that is no finding.");
    plumb_print_wrapped(out, line, 2);
    if (!start->advised) {
        return;
    }
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Of single changes this removes most of the rise: ");
    plumb_option_text(&text, &start->option, units);
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, start->option.gain, PLUMB_Q_LENGTH, units);
    plumb_text_string(&text, " of it. The others: plumbar try, with the words above.");
    plumb_print_wrapped(out, line, 2);
}
