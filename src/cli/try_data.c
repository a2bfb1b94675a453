/* SPDX-License-Identifier: MIT */
/* A ranking of what to try first as JSON and CSV. */
#include "csv_out.h"
#include "json_out.h"
#include "own_start.h"
#include "try_out.h"

#include <math.h>

enum { LINE_SIZE = 2048, KEY_SIZE = 96 };

static void put_with_unit(PlumbJson json, const char *name, const char *unit, double value)
{
    char key[KEY_SIZE];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, name);
    plumb_text_string(&text, unit);
    plumb_json_number(json, key, value);
}

static const char *goal_unit(const PlumbCliTry *try)
{
    return try->goal.form == PLUMB_GOAL_GONE
               ? ""
               : plumb_lift_output_unit(try->solved.lift, try->goal.output);
}

static json_t *json_option(const PlumbCliTry *try, const PlumbOption *option, bool *failed)
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
        const PlumbJson toward = plumb_json_object(json, "first_step_toward");
        plumb_json_number(toward, row->json_key,
                          option->first_step ? option->place_si : (double)NAN);
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
        const int o = plumb_price_output(try->solved.lift, i);
        put_with_unit(price, plumb_lift_output_name(try->solved.lift, o),
                      plumb_lift_output_unit(try->solved.lift, o), option->price[i]);
    }
    plumb_json_string(json, "why", plumb_option_reason(option, &try->goal));
    const int index = (int)(option - try->option);
    const PlumbHold *const hold = index < try->sure.option_count ? &try->sure.hold[index] : NULL;
    put_with_unit(json, "gain_low", goal_unit(try), hold != NULL ? hold->gain.low : (double)NAN);
    put_with_unit(json, "gain_high", goal_unit(try), hold != NULL ? hold->gain.high : (double)NAN);
    plumb_json_number(json, "better_share_frac", hold != NULL ? hold->better_share : (double)NAN);
    plumb_json_number(json, "gains_share_frac", hold != NULL ? hold->gains_share : (double)NAN);
    plumb_json_number(json, "best_share_frac", hold != NULL ? hold->best_share : (double)NAN);
    return json.object;
}

void plumb_try_json(const PlumbCliTry *try, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "outcome", plumb_outcome_name(plumb_solved_outcome(&try->solved)));
    plumb_json_string(json, "lift", plumb_lift_name(try->solved.lift));
    plumb_json_setup(plumb_json_object(json, "setup"), plumb_solved_setup(&try->solved));
    if (try->own_start) {
        plumb_json_own_start(json, &try->own);
    }
    const bool aim = try->goal.aim != PLUMB_AIM_COUNT;
    plumb_json_string(json, aim ? "aim" : "finding",
                      aim ? plumb_aim_name(try->goal.aim) : plumb_finding_name(try->goal.finding));
    put_with_unit(json, "amount", goal_unit(try), try->advice.amount);
    put_with_unit(json, "least_gain", goal_unit(try), try->advice.least_gain);
    put_with_unit(json, "least_worth", goal_unit(try), try->advice.least_worth);
    plumb_json_bool(json, "leave_it", try->advice.worth_count == 0);
    json_t *const list = json_array();
    for (int i = 0; i < try->advice.count; i++) {
        json_array_append_new(list, json_option(try, &try->option[i], &failed));
    }
    plumb_json_put(json, "options", list);
    plumb_json_put(json, "samples_count", json_integer(try->sure.count));
    plumb_json_string(json, "covers", plumb_interval_caution());
    plumb_json_bool(json, "only_stature_and_mass_known",
                    plumb_spec_is_bare(&try->request.record.spec));
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

void plumb_try_csv(const PlumbCliTry *try, PlumbCliOutput *out)
{
    static const char *const head[] = {"setting",      "from_si",     "to_si",
                                       "worth_trying", "kept",        "gain_si",
                                       "gain_sd_si",   "gain_low_si", "gain_high_si"};
    PlumbCsv csv = {.out = out};
    for (size_t i = 0; i < sizeof head / sizeof head[0]; i++) {
        plumb_csv_text(&csv, head[i]);
    }
    for (int i = 0; i < PLUMB_PRICE_COUNT; i++) {
        char key[KEY_SIZE];
        PlumbText text = plumb_text_begin(key, sizeof key);
        plumb_text_string(&text, "change_of_");
        const int o = plumb_price_output(try->solved.lift, i);
        plumb_lift_output_key(&text, try->solved.lift, o);
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
        plumb_csv_bounds(&csv, i < try->sure.option_count ? &try->sure.hold[i].gain : NULL);
        for (int p = 0; p < PLUMB_PRICE_COUNT; p++) {
            plumb_csv_number(&csv, option->price[p]);
        }
        plumb_csv_row_end(&csv);
    }
}
