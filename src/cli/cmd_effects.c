/* SPDX-License-Identifier: MIT */
/* plumbar effects: how much each figure changes for a small change of every setting and length. */
#include "command.h"
#include "solved_out.h"

#include "base/words.h"

#include <plumbar/scene.h>

#include <math.h>
#include <string.h>

enum { LINE_SIZE = 512, KEY_SIZE = 96 };

/* All that is printed. */
typedef struct Effects {
    PlumbCliRequest request;
    PlumbSolved solved;
    PlumbUnits units;
    PlumbFactor factor[PLUMB_FACTOR_MAX];
    PlumbEffectRow row[PLUMB_FACTOR_MAX];
    int count;
    int order[PLUMB_FACTOR_MAX];
    bool all; /* every figure, in the order of the settings */
    int of;
} Effects;

static PlumbLift lift_of(const Effects *effects)
{
    return effects->request.lift;
}

static PlumbStatus unknown_figure(const char *name, PlumbLift lift, PlumbCliFault *fault)
{
    PlumbNearest search = plumb_nearest_begin(name, strlen(name));
    for (int i = 0; i < plumb_lift_output_count(lift); i++) {
        if (plumb_lift_output_applies(lift, i)) {
            plumb_nearest_try(&search, plumb_lift_output_name(lift, i));
        }
    }
    const char *const nearest = plumb_nearest_word(&search);
    char after[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(after, sizeof after);
    plumb_text_string(&text, "' is no figure of the ");
    plumb_text_string(&text, plumb_lift_text(lift));
    plumb_text_string(&text, nearest != NULL ? "; did you mean " : "; all of them: --of all");
    plumb_text_string(&text, nearest != NULL ? nearest : "");
    plumb_text_string(&text, nearest != NULL ? "?" : "");
    return plumb_fault_bad(fault, "--of", "'", name, after);
}

static PlumbStatus choose_figure(const PlumbCliArgs *args, Effects *effects, PlumbCliFault *fault)
{
    const char *const name = args->given[PLUMB_OPT_OF] ? args->value[PLUMB_OPT_OF] : "travel";
    effects->all = args->given[PLUMB_OPT_OF] ? strcmp(name, "all") == 0 : args->json || args->csv;
    if (plumb_lift_output_find(lift_of(effects), effects->all ? "travel" : name, &effects->of)) {
        return PLUMB_OK;
    }
    return unknown_figure(name, lift_of(effects), fault);
}

/* A difference with two digits more than the figure itself is shown with, signed, without unit. */
static void effect_cell(PlumbCliTable *table, double value_si, PlumbQuantity quantity, bool star)
{
    char cell[KEY_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (isfinite(value_si)) {
        const int more = quantity == PLUMB_Q_NUMBER ? 0 : 1;
        plumb_text_signed(&text, value_si * plumb_quantity_factor(quantity, table->units),
                          plumb_quantity_decimals(quantity, table->units) + more);
    } else {
        plumb_text_string(&text, "-");
    }
    plumb_text_string(&text, star ? "*" : "");
    plumb_table_text(table, cell);
}

/* Whether a step's effect is too small to be shown. */
static bool is_nothing(const Effects *effects, int at)
{
    const PlumbQuantity quantity = plumb_lift_output_quantity(lift_of(effects), effects->of);
    const PlumbEffect *const effect = &effects->row[at].of[effects->of];
    const double most = fmax(fabs(effect->up), fabs(effect->down)) * effects->factor[at].step_si *
                        plumb_quantity_factor(quantity, effects->units);
    const int more = quantity == PLUMB_Q_NUMBER ? 0 : 1;
    return most < 0.5 * pow(10.0, -plumb_quantity_decimals(quantity, effects->units) - more);
}

static void name_text(PlumbText *text, const PlumbFactor *factor)
{
    for (const char *c = plumb_factor_name(factor); *c != '\0'; c++) {
        plumb_text_char(text, *c == '_' ? ' ' : *c);
    }
}

/* What moves the figure by nothing that shows, in one sentence. */
static void print_idle(const Effects *effects, PlumbCliOutput *out)
{
    char line[4 * LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    int count = 0;
    for (int i = 0; i < effects->count; i++) {
        const int at = effects->order[i];
        if (is_nothing(effects, at)) {
            plumb_text_string(&text, count == 0 ? "  No effect that shows: " : ", ");
            name_text(&text, &effects->factor[at]);
            count++;
        }
    }
    if (count > 0) {
        plumb_print_wrapped(out, line, 4);
    }
}

static void name_cell(PlumbCliTable *table, const PlumbFactor *factor)
{
    char cell[KEY_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    name_text(&text, factor);
    plumb_table_text(table, cell);
}

static void step_cell(PlumbCliTable *table, const PlumbFactor *factor)
{
    char cell[KEY_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_char(&text, '+');
    plumb_text_said(&text, factor->step_si, factor->quantity, table->units);
    plumb_table_text(table, cell);
}

/* At a kink both directions are told. */
static void kink_cell(PlumbCliTable *table, const PlumbFactor *factor, const PlumbEffect *effect,
                      PlumbQuantity quantity)
{
    char cell[LINE_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (effect->kink != 0 && isfinite(effect->down)) {
        plumb_text_string(&text, "the other way ");
        plumb_text_signed(
            &text, -effect->down * factor->step_si * plumb_quantity_factor(quantity, table->units),
            plumb_quantity_decimals(quantity, table->units) + 1);
        plumb_text_string(&text, ": ");
    }
    plumb_text_string(&text, plumb_kink_text(effect->kink));
    plumb_table_text(table, cell);
}

static void print_list(const Effects *effects, PlumbCliOutput *out)
{
    const PlumbQuantity quantity = plumb_lift_output_quantity(lift_of(effects), effects->of);
    const double value = plumb_solved_value(&effects->solved, effects->of);
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "What moves ");
    plumb_text_string(&text, plumb_lift_output_text(lift_of(effects), effects->of));
    plumb_text_string(&text, " (");
    plumb_text_value(&text, value, quantity, effects->units);
    plumb_text_string(&text, "), largest first; each change alone, all else as it is");
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, line, 0);
    PlumbCliTable table = plumb_table_begin("lrrl", effects->units);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "change");
    plumb_table_head(&table, "effect", quantity);
    plumb_table_text(&table, "");
    for (int i = 0; i < effects->count; i++) {
        const int at = effects->order[i];
        const PlumbFactor *const factor = &effects->factor[at];
        const PlumbEffect *const effect = &effects->row[at].of[effects->of];
        if (is_nothing(effects, at)) {
            continue;
        }
        name_cell(&table, factor);
        step_cell(&table, factor);
        effect_cell(&table, effect->up * factor->step_si, quantity, false);
        kink_cell(&table, factor, effect, quantity);
    }
    plumb_table_end(&table, 2, out);
    print_idle(effects, out);
}

/* The figures of the wide table, in their order of importance; no words end it. */
static const PlumbCliColumn stand_columns[] = {
    {PLUMB_OUT_travel, "travel"},         {PLUMB_OUT_hip_arm, "hip arm"},
    {PLUMB_OUT_balance, "balance"},       {PLUMB_OUT_back_angle, "back"},
    {PLUMB_OUT_hip_height, "hips"},       {PLUMB_OUT_shin_angle, "shin"},
    {PLUMB_OUT_hip_moment, "hip moment"}, {PLUMB_OUT_back_moment, "back moment"},
    {PLUMB_OUT_summed_effort, "effort"},  {-1, NULL},
};
static const PlumbCliColumn press_columns[] = {
    {PLUMB_PRESS_OUT_travel, "travel"},          {PLUMB_PRESS_OUT_front_arm, "front arm"},
    {PLUMB_PRESS_OUT_side_arm, "side arm"},      {PLUMB_PRESS_OUT_elbow_arm, "elbow arm"},
    {PLUMB_PRESS_OUT_upper_arm, "upper arm"},    {PLUMB_PRESS_OUT_adduction_moment, "adduction"},
    {PLUMB_PRESS_OUT_flexion_moment, "flexion"}, {PLUMB_PRESS_OUT_elbow_moment, "elbow"},
    {PLUMB_PRESS_OUT_summed_effort, "effort"},   {-1, NULL},
};

static bool has_kinks(const Effects *effects, const PlumbCliColumn *first)
{
    bool any = false;
    for (int i = 0; i < effects->count; i++) {
        for (const PlumbCliColumn *c = first; c->words != NULL; c++) {
            any = any || effects->row[i].of[c->output].kink != 0;
        }
    }
    return any;
}

static void print_table(const Effects *effects, PlumbCliOutput *out)
{
    const PlumbLift lift = lift_of(effects);
    const PlumbCliColumn *const first = lift == PLUMB_BENCH ? press_columns : stand_columns;
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out,
                        has_kinks(effects, first)
                            ? "What each change moves; each alone, all else as it is. * the other "
                              "way differs, see --of FIGURE"
                            : "What each change moves; each alone, all else as it is.",
                        0);
    PlumbCliTable table = plumb_table_begin("lrrrrrrrrrr", effects->units);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "change");
    for (const PlumbCliColumn *c = first; c->words != NULL; c++) {
        plumb_table_head(&table, c->words, plumb_lift_output_quantity(lift, c->output));
    }
    for (int i = 0; i < effects->count; i++) {
        const PlumbFactor *const factor = &effects->factor[i];
        name_cell(&table, factor);
        step_cell(&table, factor);
        for (const PlumbCliColumn *c = first; c->words != NULL; c++) {
            const PlumbEffect *const effect = &effects->row[i].of[c->output];
            effect_cell(&table, effect->up * factor->step_si,
                        plumb_lift_output_quantity(lift, c->output), effect->kink != 0);
        }
    }
    plumb_table_end(&table, 0, out);
}

static void print_text(const Effects *effects, PlumbCliOutput *out)
{
    plumb_solved_head(&effects->request, &effects->solved, NULL, effects->units, out);
    if (effects->count == 0) {
        plumb_output_string(out, "\n");
        plumb_print_wrapped(out, "No pose is held, so that nothing can be said of its effects.", 0);
    } else if (effects->all) {
        print_table(effects, out);
    } else {
        print_list(effects, out);
    }
    if (effects->count > 0) {
        plumb_output_string(out, "\n");
        plumb_print_wrapped(
            out,
            lift_of(effects) == PLUMB_BENCH
                ? "A length of the body moves alone, stature and mass held. Effects "
                  "are slopes: they hold for small changes."
                : "A length of the body moves alone, stature and mass held; the "
                  "trunk takes the pelvis along. Effects are slopes: they hold for "
                  "small changes.",
            0);
    }
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static const char *unit_of(PlumbQuantity quantity)
{
    if (quantity == PLUMB_Q_ANGLE) {
        return "rad";
    }
    if (quantity == PLUMB_Q_MASS) {
        return "kg";
    }
    return quantity == PLUMB_Q_LENGTH || quantity == PLUMB_Q_SMALL ? "m" : "1";
}

static const char *kind_of(const PlumbFactor *factor)
{
    static const char *const names[] = {"setting", "length", "mass"};
    return names[factor->kind];
}

/* "travel_m_per_rad" */
static void slope_key(const Effects *effects, const PlumbFactor *factor, int output,
                      char key[KEY_SIZE])
{
    PlumbText text = plumb_text_begin(key, KEY_SIZE);
    plumb_lift_output_key(&text, lift_of(effects), output);
    plumb_text_string(&text, "_per_");
    plumb_text_string(&text, unit_of(factor->quantity));
}

static bool is_printed(const Effects *effects, int output)
{
    return plumb_lift_output_applies(lift_of(effects), output) &&
           (effects->all || output == effects->of);
}

static json_t *json_factor(const Effects *effects, int at, bool *failed)
{
    const PlumbFactor *const factor = &effects->factor[at];
    const PlumbJson json = plumb_json_begin(failed);
    char key[KEY_SIZE];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, "step_");
    plumb_text_string(&text, unit_of(factor->quantity));
    plumb_json_string(json, "factor", plumb_factor_name(factor));
    plumb_json_string(json, "kind", kind_of(factor));
    plumb_json_number(json, key, factor->step_si);
    const PlumbJson up = plumb_json_object(json, "slopes");
    const PlumbJson kinks = plumb_json_object(json, "kinks");
    for (int o = 0; o < plumb_lift_output_count(lift_of(effects)); o++) {
        if (!is_printed(effects, o)) {
            continue;
        }
        const PlumbEffect *const effect = &effects->row[at].of[o];
        slope_key(effects, factor, o, key);
        plumb_json_number(up, key, effect->up);
        if (effect->kink != 0) {
            const PlumbJson kink = plumb_json_object(kinks, key);
            plumb_json_number(kink, "down", effect->down);
            plumb_json_string(kink, "why", plumb_kink_text(effect->kink));
        }
    }
    return json.object;
}

static void print_json(const Effects *effects, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "outcome", plumb_outcome_name(plumb_solved_outcome(&effects->solved)));
    plumb_json_string(json, "lift", plumb_lift_name(lift_of(effects)));
    plumb_json_setup(plumb_json_object(json, "setup"), plumb_solved_setup(&effects->solved));
    const PlumbJson figures = plumb_json_object(json, "figures");
    for (int o = 0; o < plumb_lift_output_count(lift_of(effects)); o++) {
        if (is_printed(effects, o)) {
            char key[PLUMB_FIGURE_KEY_SIZE];
            plumb_json_number(figures, plumb_figure_key(lift_of(effects), o, key),
                              plumb_solved_value(&effects->solved, o));
        }
    }
    json_t *const list = json_array();
    for (int i = 0; i < effects->count; i++) {
        const int at = effects->all ? i : effects->order[i];
        json_array_append_new(list, json_factor(effects, at, &failed));
    }
    plumb_json_put(json, "effects", list);
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

static void print_csv(const Effects *effects, PlumbCliOutput *out)
{
    static const char *const head[] = {"factor", "kind",    "step_si", "slope",
                                       "up_si",  "down_si", "kink"};
    PlumbCsv csv = {.out = out};
    for (size_t i = 0; i < sizeof head / sizeof head[0]; i++) {
        plumb_csv_text(&csv, head[i]);
    }
    plumb_csv_row_end(&csv);
    for (int i = 0; i < effects->count; i++) {
        const int at = effects->all ? i : effects->order[i];
        for (int o = 0; o < plumb_lift_output_count(lift_of(effects)); o++) {
            if (!is_printed(effects, o)) {
                continue;
            }
            char key[KEY_SIZE];
            const PlumbEffect *const effect = &effects->row[at].of[o];
            slope_key(effects, &effects->factor[at], o, key);
            plumb_csv_text(&csv, plumb_factor_name(&effects->factor[at]));
            plumb_csv_text(&csv, kind_of(&effects->factor[at]));
            plumb_csv_number(&csv, effects->factor[at].step_si);
            plumb_csv_text(&csv, key);
            plumb_csv_number(&csv, effect->up);
            plumb_csv_number(&csv, effect->down);
            plumb_csv_text(&csv, plumb_kink_text(effect->kink));
            plumb_csv_row_end(&csv);
        }
    }
}

PlumbCliExit plumb_cli_effects(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    static Effects effects;
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH,
                           &effects.request, fault);
    if (status == PLUMB_OK) {
        status = choose_figure(args, &effects, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    const PlumbSetup *const setup = &effects.request.setup;
    effects.units = args->units;
    plumb_solved_solve(&effects.request.lifter, setup, &effects.solved);
    const int count = plumb_factors(setup, effects.factor);
    if (!args->json && !args->csv) {
        plumb_factors_count_in(args->units, effects.factor, count);
    }
    if (plumb_solved_effects(&effects.request.lifter, setup, &effects.solved, effects.factor, count,
                             effects.row)) {
        effects.count = count;
        plumb_effects_sort(effects.factor, effects.row, count, effects.of, effects.order);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(&effects, &out);
    } else if (args->csv) {
        print_csv(&effects, &out);
    } else {
        print_text(&effects, &out);
    }
    return plumb_cli_finish(&out, effects.count > 0 ? PLUMB_EXIT_ANSWERED : PLUMB_EXIT_NO_POSE,
                            fault);
}
