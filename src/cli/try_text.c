/* SPDX-License-Identifier: MIT */
/* A ranking of what to try first in words. */
#include "try_out.h"

#include "own_start.h"
#include "report.h"
#include "solved_out.h"

#include <plumbar/scene.h>

#include <math.h>

enum { LINE_SIZE = 2048, SHOWN_WORTH = 5, SHOWN_REST = 4 };

static void goal_line(const PlumbCliTry *try, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    if (try->goal.aim != PLUMB_AIM_COUNT) {
        plumb_text_string(&text, "Aim      ");
        plumb_text_string(&text, plumb_aim_text(try->goal.aim));
    } else {
        plumb_text_string(&text, "Finding  ");
        plumb_finding_text(&text, &try->goal.what, try->units);
    }
    plumb_print_wrapped(out, line, 9);
    if (try->goal.form != PLUMB_GOAL_GONE) {
        text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "Now      ");
        plumb_text_string(&text, plumb_goal_text(&try->goal));
        plumb_text_string(&text, " ");
        plumb_text_value(&text, try->advice.amount, plumb_goal_quantity(&try->goal), try->units);
        plumb_print_wrapped(out, line, 9);
    }
}

/* The drawn gains of an option; NULL where none were drawn of it. */
static const PlumbHold *hold_of(const PlumbCliTry *try, const PlumbOption *option)
{
    const int index = (int)(option - try->option);
    return index < try->sure.option_count ? &try->sure.hold[index] : NULL;
}

/* A share of bodies with something to gain is told where it differs by more from that of all. */
static const double SHARE_TOLD = 0.01;

/* "bar travel 1.2 cm less (95 % of bodies: 1.0 to 1.4 cm)" */
static void gain_text(const PlumbCliTry *try, const PlumbOption *option, PlumbText *text)
{
    const PlumbHold *const hold = hold_of(try, option);
    if (try->goal.form == PLUMB_GOAL_GONE) {
        plumb_text_string(text, option->gain > 0.5 ? "the finding is gone" : "the finding stays");
        return;
    }
    plumb_text_string(text, plumb_goal_text(&try->goal));
    plumb_text_char(text, ' ');
    plumb_text_value(text, fabs(option->gain), plumb_goal_quantity(&try->goal), try->units);
    plumb_text_string(text, option->gain >= 0.0 ? " less" : " more");
    if (hold != NULL) {
        plumb_estimate_text(text, &hold->gain, "95 % of bodies", plumb_goal_quantity(&try->goal),
                            try->units);
    }
}

static void price_text(const PlumbCliTry *try, const PlumbOption *option, PlumbText *text)
{
    int count = 0;
    for (int i = 0; i < PLUMB_PRICE_COUNT; i++) {
        const int o = plumb_price_output(try->solved.lift, i);
        const double value = plumb_solved_value(&try->solved, o);
        const bool is_goal = plumb_goal_of_figure(&try->goal) && o == try->goal.output;
        if (is_goal ||
            !(fabs(option->price[i]) >= plumb_least_difference(try->solved.lift, o, value))) {
            continue;
        }
        plumb_text_string(text, count == 0 ? "" : ", ");
        plumb_text_string(text, plumb_lift_output_text(try->solved.lift, o));
        plumb_text_char(text, ' ');
        plumb_text_difference(text, option->price[i],
                              plumb_lift_output_quantity(try->solved.lift, o), try->units);
        count++;
    }
    plumb_text_string(text, count == 0 ? "nothing else that shows" : "");
}

/* "gains in 75.7 % of 300 bodies that fit what was measured (99.1 % of those with something to
 * gain), the most of these in 42.3 %" */
static void print_hold(const PlumbCliTry *try, const PlumbOption *option, PlumbCliOutput *out)
{
    const PlumbHold *const hold = hold_of(try, option);
    if (hold == NULL) {
        return;
    }
    const bool gone = try->goal.form == PLUMB_GOAL_GONE;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "     Holds: ");
    plumb_text_string(&text, gone ? "the finding goes in " : "gains in ");
    plumb_text_fixed(&text, 100.0 * hold->gains_share, 1);
    plumb_text_string(&text, " % of ");
    plumb_text_integer(&text, try->sure.count);
    plumb_text_string(&text, " bodies that fit what was measured");
    if (hold->better_share > hold->gains_share + SHARE_TOLD) {
        plumb_text_string(&text, " (");
        plumb_text_fixed(&text, 100.0 * hold->better_share, 1);
        plumb_text_string(&text, " % of those with something to gain)");
    }
    if (!gone) {
        plumb_text_string(&text, ", the most of these in ");
        plumb_text_fixed(&text, 100.0 * hold->best_share, 1);
        plumb_text_string(&text, " %");
    }
    plumb_text_char(&text, '.');
    plumb_print_wrapped(out, line, 12);
}

static void print_option(const PlumbCliTry *try, const PlumbOption *option, int number,
                         PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  ");
    plumb_text_integer(&text, number);
    plumb_text_string(&text, ". ");
    plumb_option_text(&text, option, try->units);
    plumb_text_string(&text, ": ");
    gain_text(try, option, &text);
    plumb_text_string(&text, ".");
    plumb_print_wrapped(out, line, 5);
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "     Why: ");
    plumb_text_string(&text, plumb_option_reason(option, &try->goal));
    plumb_print_wrapped(out, line, 10);
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "     Price: ");
    price_text(try, option, &text);
    plumb_text_string(&text, ".");
    plumb_print_wrapped(out, line, 12);
    print_hold(try, option, out);
}

/* Why there is nothing to try. */
static void print_leave(const PlumbCliTry *try, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_print_heading(out, "Leave it");
    if (!(try->advice.amount > 0.0 || isnan(try->advice.amount))) {
        plumb_print_wrapped(out, "  There is nothing to gain here.", 2);
        return;
    }
    plumb_text_string(&text,
                      "  Nothing worth trying was found: no single change of the size that a "
                      "coach asks for gains ");
    if (try->goal.aim != PLUMB_AIM_COUNT) {
        plumb_text_string(&text, "what a person notices (");
        plumb_text_value(&text, try->advice.least_worth, plumb_goal_quantity(&try->goal),
                         try->units);
        plumb_text_string(&text, " or more: common practice, no source), ");
    }
    plumb_text_string(&text, "more than its uncertainty, and keeps limits and rules.");
    plumb_print_wrapped(out, line, 2);
}

static void print_worth(const PlumbCliTry *try, PlumbCliOutput *out)
{
    const int shown = try->advice.worth_count < SHOWN_WORTH ? try->advice.worth_count : SHOWN_WORTH;
    if (shown == 0) {
        print_leave(try, out);
        return;
    }
    plumb_print_heading(out, shown == 1 ? "Worth trying" : "Worth trying, one at a time");
    for (int i = 0; i < shown; i++) {
        print_option(try, &try->option[i], i + 1, out);
    }
    if (try->advice.worth_count > shown) {
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "  and ");
        plumb_text_integer(&text, try->advice.worth_count - shown);
        plumb_text_string(&text, " more with smaller gains (--json lists all)");
        plumb_print_wrapped(out, line, 2);
    }
}

/* A line of a list of what is not worth trying. */
static void print_other(const PlumbCliTry *try, const PlumbOption *option, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  - ");
    plumb_option_text(&text, option, try->units);
    plumb_text_string(&text, ": ");
    gain_text(try, option, &text);
    plumb_text_string(&text, ".");
    if (!option->kept) {
        plumb_text_string(&text, " But: ");
        plumb_finding_text(&text, &option->broken, try->units);
    }
    plumb_print_wrapped(out, line, 4);
}

/* Changes that keep limits and rules and gain, but too little; or those that gain but break one. */
static void print_others(const PlumbCliTry *try, bool kept, PlumbCliOutput *out)
{
    int shown = 0;
    for (int i = try->advice.worth_count; i < try->advice.count && shown < SHOWN_REST; i++) {
        const PlumbOption *const option = &try->option[i];
        const bool little = option->gain < try->advice.least_worth;
        if (option->kept != kept || (kept && !little) || !(option->gain > try->advice.least_gain)) {
            continue;
        }
        if (shown++ == 0) {
            plumb_print_heading(out, kept ? "Would gain, but less than a person notices"
                                          : "Would gain, but breaks a limit or a rule");
        }
        print_other(try, option, out);
    }
}

static void print_head(const PlumbCliTry *try, PlumbCliOutput *out)
{
    plumb_solved_head(&try->request, &try->solved, &try->sure.samples, try->units, out);
    if (try->own_start) {
        plumb_print_own_start(&try->own, try->units, out);
        plumb_output_string(out, "\n");
    }
}

void plumb_try_text(const PlumbCliTry *try, PlumbCliOutput *out)
{
    print_head(try, out);
    goal_line(try, out);
    print_worth(try, out);
    print_others(try, true, out);
    print_others(try, false, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out,
                        try->solved.lift == PLUMB_BENCH
                            ? "Options, not a verdict: the lifter and the coach choose. Only grip, "
                              "touch, arch and elbows are changed here."
                            : "Options, not a verdict: the lifter and the coach choose. Load, "
                              "depth, blocks, deficit, spine and body are never changed here.",
                        0);
    if (try->sure.count > 0) {
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "Each option is tried on ");
        plumb_text_integer(&text, try->sure.count);
        plumb_text_string(&text, " bodies that fit what was measured; worth trying is what gains "
                                 "in 97.5 % of those that it matters to");
        plumb_text_string(
            &text, try->goal.aim != PLUMB_AIM_COUNT ? ", and as much as a person notices. " : ". ");
        plumb_text_string(&text, plumb_interval_caution());
        plumb_output_string(out, "\n");
        plumb_print_wrapped(out, line, 0);
    }
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}
