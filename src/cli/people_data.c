/* SPDX-License-Identifier: MIT */
/* The population as JSON and, body by body, as CSV. */
#include "people.h"
#include "solved_out.h"

#include <math.h>

enum { KEY_SIZE = PLUMB_FIGURE_KEY_SIZE };

static const char *length_key(char key[KEY_SIZE], PlumbLength length)
{
    PlumbText text = plumb_text_begin(key, KEY_SIZE);
    plumb_text_string(&text, plumb_length_name(length));
    plumb_text_string(&text, "_m");
    return key;
}

/* Ratios bear _frac; stature and mass bear their units already. */
static const char *trait_key(char key[KEY_SIZE], PlumbTrait trait)
{
    PlumbText text = plumb_text_begin(key, KEY_SIZE);
    plumb_text_string(&text, plumb_trait_name(trait));
    plumb_text_string(&text, trait < PLUMB_TRAIT_stature_m ? "_frac" : "");
    return key;
}

static const char *direction_key(char key[KEY_SIZE], PlumbDirection direction)
{
    PlumbText text = plumb_text_begin(key, KEY_SIZE);
    plumb_text_string(&text, plumb_direction_name(direction));
    plumb_text_string(&text, "_by");
    const PlumbQuantity quantity = plumb_direction_quantity(direction);
    plumb_text_string(&text, quantity == PLUMB_Q_ANGLE    ? "_rad"
                             : quantity == PLUMB_Q_MOMENT ? "_n_m"
                                                          : "_m");
    return key;
}

static void put_outputs(const PlumbCliPeople *people, PlumbJson json)
{
    const PlumbLift lift = people->request->setup.lift;
    const PlumbJson outputs = plumb_json_object(json, "outputs");
    char key[KEY_SIZE];
    for (int output = 0; output < plumb_lift_output_count(lift); output++) {
        PlumbEstimate estimate;
        if (!plumb_lift_output_applies(lift, output)) {
            continue;
        }
        plumb_people_tell(people, output, &estimate);
        const double own = plumb_solved_value(&people->own, output);
        const PlumbJson one = plumb_json_object(outputs, plumb_figure_key(lift, output, key));
        plumb_json_number(one, "own", own);
        plumb_json_number(one, "percentile_frac",
                          plumb_population_share_below(people->person, people->count, output, own));
        plumb_json_put(one, "count", json_integer(estimate.count));
        plumb_json_number(one, "mean", estimate.mean);
        plumb_json_number(one, "sd", estimate.sd);
        plumb_json_number(one, "median", estimate.median);
        plumb_json_number(one, "low", estimate.low);
        plumb_json_number(one, "high", estimate.high);
    }
}

static void put_regressions(const PlumbCliPeople *people, PlumbJson json)
{
    const PlumbLift lift = people->request->setup.lift;
    const PlumbJson all = plumb_json_object(json, "regressions");
    char key[KEY_SIZE];
    for (int k = 0; k < PLUMB_PEOPLE_REGRESSED; k++) {
        const PlumbRegression *const r = &people->regression[k];
        const PlumbJson one =
            plumb_json_object(all, plumb_figure_key(lift, plumb_people_regressed(lift, k), key));
        plumb_json_put(one, "count", json_integer(r->count));
        plumb_json_number(one, "level", r->level);
        plumb_json_number(one, "residual_sd", r->residual_sd);
        plumb_json_number(one, "explained_share_frac", r->explained_share);
        const PlumbJson traits = plumb_json_object(one, "traits");
        for (int i = 0; i < PLUMB_TRAIT_COUNT; i++) {
            if (!plumb_trait_applies((PlumbTrait)i, lift)) {
                continue;
            }
            const PlumbJson trait = plumb_json_object(traits, trait_key(key, (PlumbTrait)i));
            plumb_json_number(trait, "mean", r->mean[i]);
            plumb_json_number(trait, "sd", r->sd[i]);
            plumb_json_number(trait, "slope", r->slope[i]);
            plumb_json_number(trait, "slope_error", r->error[i]);
        }
    }
}

static void put_sayings(const PlumbCliPeople *people, PlumbJson json)
{
    json_t *const list = json_array();
    char key[KEY_SIZE];
    plumb_json_put(json, "directions", list);
    for (int i = 0; i < PLUMB_DIRECTION_COUNT; i++) {
        const PlumbDirection direction = (PlumbDirection)i;
        if (!plumb_direction_applies(direction, people->request->setup.lift)) {
            continue;
        }
        const PlumbSaying saying =
            plumb_population_saying(people->person, people->count, direction, people->scratch);
        const PlumbJson one = plumb_json_begin(json.failed);
        plumb_json_string(one, "id", plumb_direction_name(direction));
        plumb_json_string(one, "text", plumb_direction_text(direction));
        plumb_json_put(one, "count", json_integer(saying.count));
        plumb_json_number(one, "holds_share_frac", saying.share);
        plumb_json_number(one, direction_key(key, direction), saying.median);
        json_array_append_new(list, one.object);
    }
}

void plumb_people_json(const PlumbCliPeople *people, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbSetup *const setup = &people->request->setup;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "lift", plumb_lift_name(setup->lift));
    plumb_json_string(json, "sex", plumb_sex_name(people->request->lifter.body.sex));
    plumb_json_setup(plumb_json_object(json, "setup"), setup);
    plumb_json_put(json, "samples_asked_count", json_integer(people->asked));
    plumb_json_put(json, "samples_count", json_integer(people->count));
    plumb_json_bool(json, "stopped", people->count < people->asked);
    plumb_json_put(json, "seed", json_integer((json_int_t)people->seed));
    plumb_json_string(json, "covers", plumb_interval_caution());
    plumb_json_number(json, "held_share_frac", (double)people->held_count / people->count);
    plumb_json_number(json, "outside_window_share_frac",
                      (double)people->outside_count / people->count);
    plumb_json_number(json, "no_pose_share_frac", (double)people->no_pose_count / people->count);
    put_outputs(people, json);
    put_regressions(people, json);
    put_sayings(people, json);
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

static void csv_head(PlumbCsv *csv, PlumbLift lift)
{
    char key[KEY_SIZE];
    plumb_csv_text(csv, "body");
    plumb_csv_text(csv, "outcome");
    for (int i = PLUMB_TRAIT_COUNT - 1; i >= 0; i--) {
        if (plumb_trait_applies((PlumbTrait)i, lift)) {
            plumb_csv_text(csv, trait_key(key, (PlumbTrait)i));
        }
    }
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        plumb_csv_text(csv, length_key(key, (PlumbLength)i));
    }
    for (int i = 0; i < plumb_lift_output_count(lift); i++) {
        if (plumb_lift_output_applies(lift, i)) {
            plumb_csv_text(csv, plumb_figure_key(lift, i, key));
        }
    }
    for (int i = 0; i < PLUMB_DIRECTION_COUNT; i++) {
        if (plumb_direction_applies((PlumbDirection)i, lift)) {
            plumb_csv_text(csv, direction_key(key, (PlumbDirection)i));
        }
    }
    plumb_csv_row_end(csv);
}

static void csv_row(PlumbCsv *csv, int number, const PlumbPerson *person, const PlumbSetup *setup)
{
    const PlumbLift lift = setup->lift;
    plumb_csv_number(csv, number);
    plumb_csv_text(csv, plumb_outcome_name(person->sample.outcome));
    for (int i = PLUMB_TRAIT_COUNT - 1; i >= 0; i--) {
        if (plumb_trait_applies((PlumbTrait)i, lift)) {
            plumb_csv_number(csv, plumb_trait_value(&person->sample, (PlumbTrait)i, setup));
        }
    }
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        plumb_csv_number(csv, person->sample.length_m[i]);
    }
    for (int i = 0; i < plumb_lift_output_count(lift); i++) {
        if (plumb_lift_output_applies(lift, i)) {
            plumb_csv_number(csv, person->sample.output[i]);
        }
    }
    for (int i = 0; i < PLUMB_DIRECTION_COUNT; i++) {
        if (plumb_direction_applies((PlumbDirection)i, lift)) {
            plumb_csv_number(csv, person->by[i]);
        }
    }
    plumb_csv_row_end(csv);
}

void plumb_people_csv(const PlumbCliPeople *people, PlumbCliOutput *out)
{
    const PlumbLift lift = people->request->setup.lift;
    PlumbCsv csv = {.out = out};
    csv_head(&csv, lift);
    for (int i = 0; i < people->count; i++) {
        csv_row(&csv, i, &people->person[i], &people->request->setup);
    }
}
