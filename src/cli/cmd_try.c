/* SPDX-License-Identifier: MIT */
/* plumbar try: what to try first, for an aim or a finding; options with reasons, no verdict. */
#include "command.h"
#include "csv_out.h"
#include "json_out.h"
#include "own_start.h"
#include "report.h"
#include "request.h"
#include "text_out.h"
#include "try_sure.h"

#include "base/words.h"

#include <plumbar/advice.h>
#include <plumbar/scene.h>
#include <plumbar/start.h>

#include <math.h>
#include <string.h>

enum { LINE_SIZE = 2048, KEY_SIZE = 96, SHOWN_WORTH = 5, SHOWN_REST = 4 };

typedef struct Try {
    PlumbCliRequest request;
    PlumbAnswer answer;
    PlumbUnits units;
    PlumbGoal goal;
    PlumbAdvice advice;
    PlumbOption option[PLUMB_OPTION_MAX];
    bool own_start;
    PlumbOwnStart own;
    PlumbCliTrySure sure;
} Try;

static PlumbLift lift_of(const Try *try)
{
    return try->request.lift;
}

static PlumbStatus unknown_aim(const char *name, PlumbCliFault *fault)
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
        for (int i = 0; i < PLUMB_AIM_COUNT; i++) {
            plumb_text_string(&text, i == 0 ? "" : i + 1 < PLUMB_AIM_COUNT ? ", " : " and ");
            plumb_text_string(&text, plumb_aim_name((PlumbAim)i));
        }
    }
    return plumb_fault_bad(fault, "--for", "'", name, after);
}

static PlumbStatus goal_of_finding(Try *try, PlumbFindingId id, PlumbCliFault *fault)
{
    for (int i = 0; i < try->answer.finding_count; i++) {
        if (try->answer.finding[i].id == id) {
            try->goal = plumb_goal_of_finding(&try->answer.finding[i]);
            return PLUMB_OK;
        }
    }
    return plumb_fault_bad(fault, "--for", "this set-up has no finding '", plumb_finding_name(id),
                           "'; plumbar setup lists those that it has");
}

/* Without --for: the first warning, else less bar travel. */
static PlumbStatus choose_goal(const PlumbCliArgs *args, Try *try, PlumbCliFault *fault)
{
    PlumbAim aim = PLUMB_AIM_less_travel;
    PlumbFindingId id;
    const char *const name = args->value[PLUMB_OPT_FOR];
    if (!args->given[PLUMB_OPT_FOR]) {
        for (int i = 0; i < try->answer.finding_count; i++) {
            if (try->answer.finding[i].severity == PLUMB_WARNING) {
                try->goal = plumb_goal_of_finding(&try->answer.finding[i]);
                return PLUMB_OK;
            }
        }
    } else if (plumb_finding_find(name, strlen(name), &id)) {
        return goal_of_finding(try, id, fault);
    } else if (!plumb_aim_find(name, strlen(name), &aim)) {
        return unknown_aim(name, fault);
    }
    if (!plumb_goal_of_aim(aim, lift_of(try), &try->goal)) {
        return plumb_fault_bad(fault, "--for", "'", name, "' is an aim of the deadlift");
    }
    return PLUMB_OK;
}

static void goal_line(const Try *try, PlumbCliOutput *out)
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
        plumb_text_value(&text, try->advice.amount, plumb_goal_quantity(&try->goal, lift_of(try)),
                         try->units);
        plumb_print_wrapped(out, line, 9);
    }
}

/* "bar travel 1.2 cm less (give or take 0.1 cm)" */
static void gain_text(const Try *try, const PlumbOption *option, PlumbText *text)
{
    const PlumbQuantity quantity = plumb_goal_quantity(&try->goal, lift_of(try));
    if (try->goal.form == PLUMB_GOAL_GONE) {
        plumb_text_string(text, option->gain > 0.5 ? "the finding is gone" : "the finding stays");
        return;
    }
    plumb_text_string(text, plumb_goal_text(&try->goal));
    plumb_text_char(text, ' ');
    plumb_text_value(text, fabs(option->gain), quantity, try->units);
    plumb_text_string(text, option->gain >= 0.0 ? " less" : " more");
    if (isfinite(option->gain_sd)) {
        const double unit = plumb_quantity_factor(quantity, try->units);
        const double least = pow(10.0, -plumb_quantity_decimals(quantity, try->units)) / unit;
        const bool small = 2.0 * option->gain_sd < least;
        plumb_text_string(text, small ? " (give or take less than " : " (give or take ");
        plumb_text_value(text, small ? least : 2.0 * option->gain_sd, quantity, try->units);
        plumb_text_string(text, ")");
    }
}

static void price_text(const Try *try, const PlumbOption *option, PlumbText *text)
{
    int count = 0;
    for (int i = 0; i < PLUMB_PRICE_COUNT; i++) {
        const PlumbOutput o = plumb_price_outputs[i];
        const double value = plumb_output_value(&try->answer, o);
        const bool is_goal = try->goal.form != PLUMB_GOAL_GONE && o == try->goal.output;
        if (is_goal ||
            !(fabs(option->price[i]) >= plumb_least_difference(o, lift_of(try), value))) {
            continue;
        }
        plumb_text_string(text, count == 0 ? "" : ", ");
        plumb_text_string(text, plumb_output_text(o));
        plumb_text_char(text, ' ');
        plumb_text_difference(text, option->price[i], plumb_output_quantity(o, lift_of(try)),
                              try->units);
        count++;
    }
    plumb_text_string(text, count == 0 ? "nothing else that shows" : "");
}

/* "gains in 98.2 % of 400 bodies, the best of these in 61.0 %"; only of options worth trying. */
static void print_hold(const Try *try, int index, PlumbCliOutput *out)
{
    if (index >= try->sure.option_count) {
        return;
    }
    const PlumbHold *const hold = &try->sure.hold[index];
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "     Holds: gains in ");
    plumb_text_fixed(&text, 100.0 * hold->gains_share, 1);
    plumb_text_string(&text, " % of ");
    plumb_text_integer(&text, try->sure.samples.count);
    plumb_text_string(&text, " bodies that fit what was measured, the most of these in ");
    plumb_text_fixed(&text, 100.0 * hold->best_share, 1);
    plumb_text_string(&text, " %.");
    plumb_print_wrapped(out, line, 12);
}

static void print_option(const Try *try, const PlumbOption *option, int number, PlumbCliOutput *out)
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
    print_hold(try, number - 1, out);
}

static void print_worth(const Try *try, PlumbCliOutput *out)
{
    const int shown = try->advice.worth_count < SHOWN_WORTH ? try->advice.worth_count : SHOWN_WORTH;
    if (shown == 0) {
        plumb_print_heading(out, "Leave it");
        plumb_print_wrapped(out,
                            try->advice.amount > 0.0 || isnan(try->advice.amount)
                                ? "  No single change of the size that a coach asks for gains more "
                                  "than its uncertainty and keeps limits and rules."
                                : "  There is nothing to gain here.",
                            2);
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

/* Changes that gain but break a limit or a rule, with what they break. */
static void print_broken(const Try *try, PlumbCliOutput *out)
{
    int shown = 0;
    for (int i = try->advice.worth_count; i < try->advice.count && shown < SHOWN_REST; i++) {
        const PlumbOption *const option = &try->option[i];
        if (option->kept || !(option->gain > try->advice.least_gain)) {
            continue;
        }
        if (shown++ == 0) {
            plumb_print_heading(out, "Would gain, but breaks a limit or a rule");
        }
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "  - ");
        plumb_option_text(&text, option, try->units);
        plumb_text_string(&text, ": ");
        gain_text(try, option, &text);
        plumb_text_string(&text, ". But: ");
        plumb_finding_text(&text, &option->broken, try->units);
        plumb_print_wrapped(out, line, 4);
    }
}

static void print_text(const Try *try, PlumbCliOutput *out)
{
    const PlumbReport report = {.request = &try->request,
                                .lifter = &try->request.lifter,
                                .answer = &try->answer,
                                .units = try->units,
                                .samples = &try->sure.samples};
    plumb_report_head(&report, out);
    plumb_report_measure_first(&report, out);
    if (try->own_start) {
        plumb_print_own_start(&try->own, try->units, out);
        plumb_output_string(out, "\n");
    }
    goal_line(try, out);
    print_worth(try, out);
    print_broken(try, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out,
                        "Options, not a verdict: the lifter and the coach choose. Load, depth, "
                        "blocks, deficit, spine and body are never changed here. \"Give or take\" "
                        "is two spreads of the gain, from lengths that are not known exactly.",
                        0);
    if (try->sure.samples.count > 0) {
        plumb_output_string(out, "\n");
        plumb_print_wrapped(out, plumb_interval_caution(), 0);
    }
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static void put_with_unit(PlumbJson json, const char *name, const char *unit, double value)
{
    char key[KEY_SIZE];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, name);
    plumb_text_string(&text, unit);
    plumb_json_number(json, key, value);
}

static const char *goal_unit(const Try *try)
{
    return try->goal.form == PLUMB_GOAL_GONE ? ""
                                             : plumb_output_unit(try->goal.output, lift_of(try));
}

static json_t *json_option(const Try *try, const PlumbOption *option, bool *failed)
{
    const PlumbJson json = plumb_json_begin(failed);
    const PlumbSetting *const row = plumb_setting(option->setting);
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_option_text(&text, option, PLUMB_METRIC);
    plumb_json_string(json, "text", line);
    plumb_json_string(json, "setting", row->key);
    if (option->setting == PLUMB_SET_bar) {
        plumb_json_string(json, "to", plumb_seat_name(option->setup.seat));
    } else {
        const PlumbJson to = plumb_json_object(json, "to");
        plumb_json_number(to, row->json_key, option->to_si);
        const PlumbJson from = plumb_json_object(json, "from");
        plumb_json_number(from, row->json_key, option->from_si);
    }
    plumb_json_string(json, "outcome", plumb_outcome_name(option->outcome));
    plumb_json_bool(json, "worth_trying", option->worth);
    plumb_json_bool(json, "keeps_limits_and_rules", option->kept);
    if (!option->kept) {
        plumb_json_string(json, "breaks", plumb_finding_name(option->broken.id));
    }
    put_with_unit(json, "gain", goal_unit(try), option->gain);
    put_with_unit(json, "gain_sd", goal_unit(try), option->gain_sd);
    const PlumbJson price = plumb_json_object(json, "price");
    for (int i = 0; i < PLUMB_PRICE_COUNT; i++) {
        const PlumbOutput o = plumb_price_outputs[i];
        put_with_unit(price, plumb_output_name(o), plumb_output_unit(o, lift_of(try)),
                      option->price[i]);
    }
    plumb_json_string(json, "why", plumb_option_reason(option, &try->goal));
    const int index = (int)(option - try->option);
    const PlumbHold *const hold = index < try->sure.option_count ? &try->sure.hold[index] : NULL;
    plumb_json_number(json, "gains_share_frac", hold != NULL ? hold->gains_share : (double)NAN);
    plumb_json_number(json, "best_share_frac", hold != NULL ? hold->best_share : (double)NAN);
    return json.object;
}

static void print_json(const Try *try, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "outcome", plumb_outcome_name(try->answer.outcome));
    plumb_json_string(json, "lift", plumb_lift_name(lift_of(try)));
    plumb_json_setup(plumb_json_object(json, "setup"), &try->answer.setup);
    if (try->own_start) {
        plumb_json_own_start(json, &try->own);
    }
    const bool aim = try->goal.aim != PLUMB_AIM_COUNT;
    plumb_json_string(json, aim ? "aim" : "finding",
                      aim ? plumb_aim_name(try->goal.aim) : plumb_finding_name(try->goal.finding));
    put_with_unit(json, "amount", goal_unit(try), try->advice.amount);
    put_with_unit(json, "least_gain", goal_unit(try), try->advice.least_gain);
    plumb_json_bool(json, "leave_it", try->advice.worth_count == 0);
    json_t *const list = json_array();
    for (int i = 0; i < try->advice.count; i++) {
        json_array_append_new(list, json_option(try, &try->option[i], &failed));
    }
    plumb_json_put(json, "options", list);
    plumb_json_put(json, "samples_count", json_integer(try->sure.samples.count));
    plumb_json_string(json, "covers", plumb_interval_caution());
    plumb_json_bool(json, "only_stature_and_mass_known",
                    plumb_spec_is_bare(&try->request.record.spec));
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

static void print_csv(const Try *try, PlumbCliOutput *out)
{
    static const char *const head[] = {"setting", "from_si", "to_si",     "worth_trying",
                                       "kept",    "gain_si", "gain_sd_si"};
    PlumbCsv csv = {.out = out};
    for (size_t i = 0; i < sizeof head / sizeof head[0]; i++) {
        plumb_csv_text(&csv, head[i]);
    }
    for (int i = 0; i < PLUMB_PRICE_COUNT; i++) {
        char key[KEY_SIZE];
        PlumbText text = plumb_text_begin(key, sizeof key);
        plumb_text_string(&text, "change_of_");
        plumb_text_string(&text, plumb_output_name(plumb_price_outputs[i]));
        plumb_text_string(&text, plumb_output_unit(plumb_price_outputs[i], lift_of(try)));
        plumb_csv_text(&csv, key);
    }
    plumb_csv_row_end(&csv);
    for (int i = 0; i < try->advice.count; i++) {
        const PlumbOption *const option = &try->option[i];
        const bool seat = option->setting == PLUMB_SET_bar;
        plumb_csv_text(&csv, plumb_setting(option->setting)->key);
        if (seat) {
            plumb_csv_text(&csv, plumb_seat_name((PlumbSeat)option->from_si));
            plumb_csv_text(&csv, plumb_seat_name(option->setup.seat));
        } else {
            plumb_csv_number(&csv, option->from_si);
            plumb_csv_number(&csv, option->to_si);
        }
        plumb_csv_text(&csv, option->worth ? "yes" : "no");
        plumb_csv_text(&csv, option->kept ? "yes" : "no");
        plumb_csv_number(&csv, option->gain);
        plumb_csv_number(&csv, option->gain_sd);
        for (int p = 0; p < PLUMB_PRICE_COUNT; p++) {
            plumb_csv_number(&csv, option->price[p]);
        }
        plumb_csv_row_end(&csv);
    }
}

/* --knee, or a lead by which a lifter describes the own start. */
static PlumbStatus read_own_start(const PlumbCliArgs *args, Try *try, PlumbCliFault *fault)
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
    static Try try;
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP, &try.request, fault);
    if (status == PLUMB_OK) {
        status = read_own_start(args, &try, fault);
    }
    if (status == PLUMB_OK) {
        try.units = args->units;
        plumb_answer_solve(&try.request.lifter, &try.request.setup, &try.answer);
        plumb_own_start(&try.answer, &try.own);
        status = choose_goal(args, &try, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    plumb_advice_rank(&try.request.lifter, &try.request.setup, &try.answer, &try.goal, try.option,
                      &try.advice);
    enum { SAMPLES = 400 };
    const int count = args->csv ? 0 : args->samples < 0 ? SAMPLES : args->samples;
    status =
        plumb_try_sure_take(args, &try.request, count, &try.advice, try.option, &try.sure, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(&try, &out);
    } else if (args->csv) {
        print_csv(&try, &out);
    } else {
        print_text(&try, &out);
    }
    plumb_try_sure_drop(&try.sure);
    return plumb_cli_finish(
        &out, try.answer.outcome == PLUMB_NO_POSE ? PLUMB_EXIT_NO_POSE : PLUMB_EXIT_ANSWERED,
        fault);
}
