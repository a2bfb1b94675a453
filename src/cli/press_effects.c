/* SPDX-License-Identifier: MIT */
/* The command effects on a bench press. */
#include "press_out.h"

#include "command.h"

#include "base/words.h"

#include <plumbar/press_effects.h>
#include <plumbar/scene.h>

#include <math.h>
#include <string.h>

enum { LINE_SIZE = 512, KEY_SIZE = 96 };

/* All that is printed. */
typedef struct Effects {
    const PlumbCliRequest *request;
    PlumbPressAnswer answer;
    PlumbUnits units;
    PlumbFactor factor[PLUMB_FACTOR_MAX];
    PlumbPressEffectRow row[PLUMB_FACTOR_MAX];
    int count;
    int order[PLUMB_FACTOR_MAX];
    bool all;
    PlumbPressOutput of;
} Effects;

static PlumbStatus choose_figure(const PlumbCliArgs *args, Effects *effects, PlumbCliFault *fault)
{
    const char *const name = args->value[PLUMB_OPT_OF];
    effects->of = PLUMB_PRESS_OUT_travel;
    effects->all = args->given[PLUMB_OPT_OF] ? strcmp(name, "all") == 0 : args->json || args->csv;
    if (!args->given[PLUMB_OPT_OF] || effects->all ||
        plumb_press_output_find(name, strlen(name), &effects->of)) {
        return PLUMB_OK;
    }
    PlumbNearest search = plumb_nearest_begin(name, strlen(name));
    for (int i = 0; i < PLUMB_PRESS_OUTPUT_COUNT; i++) {
        plumb_nearest_try(&search, plumb_press_output_name((PlumbPressOutput)i));
    }
    const char *const nearest = plumb_nearest_word(&search);
    char after[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(after, sizeof after);
    plumb_text_string(&text, "' is no figure of the bench press");
    plumb_text_string(&text, nearest != NULL ? "; did you mean " : "; all of them: --of all");
    plumb_text_string(&text, nearest != NULL ? nearest : "");
    plumb_text_string(&text, nearest != NULL ? "?" : "");
    return plumb_fault_bad(fault, "--of", "'", name, after);
}

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

static void factor_cells(PlumbCliTable *table, const PlumbFactor *factor)
{
    char cell[KEY_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    for (const char *c = plumb_factor_name(factor); *c != '\0'; c++) {
        plumb_text_char(&text, *c == '_' ? ' ' : *c);
    }
    plumb_table_text(table, cell);
    text = plumb_text_begin(cell, sizeof cell);
    plumb_text_difference(&text, factor->step_si, factor->quantity, table->units);
    plumb_table_text(table, cell);
}

static void print_list(const Effects *effects, PlumbCliOutput *out)
{
    const PlumbQuantity quantity = plumb_press_output_quantity(effects->of);
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "What moves ");
    plumb_text_string(&text, plumb_press_output_text(effects->of));
    plumb_text_string(&text, " (");
    plumb_text_value(&text, plumb_press_output_value(&effects->answer, effects->of), quantity,
                     effects->units);
    plumb_text_string(&text, "), largest first; each change alone, all else as it is. * the other "
                             "way differs");
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, line, 0);
    PlumbCliTable table = plumb_table_begin("lrr", effects->units);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "change");
    plumb_table_head(&table, "effect", quantity);
    for (int i = 0; i < effects->count; i++) {
        const int at = effects->order[i];
        factor_cells(&table, &effects->factor[at]);
        effect_cell(&table, effects->row[at].of[effects->of].up * effects->factor[at].step_si,
                    quantity, effects->row[at].of[effects->of].kink != 0);
    }
    plumb_table_end(&table, 2, out);
}

static void print_table(const Effects *effects, PlumbCliOutput *out)
{
    static const PlumbPressOutput columns[] = {
        PLUMB_PRESS_OUT_travel,         PLUMB_PRESS_OUT_front_arm,
        PLUMB_PRESS_OUT_side_arm,       PLUMB_PRESS_OUT_elbow_arm,
        PLUMB_PRESS_OUT_upper_arm,      PLUMB_PRESS_OUT_adduction_moment,
        PLUMB_PRESS_OUT_flexion_moment, PLUMB_PRESS_OUT_elbow_moment,
    };
    static const char *const words[] = {"travel",    "front arm", "side arm", "elbow arm",
                                        "upper arm", "adduction", "flexion",  "elbow"};
    plumb_output_string(out, "\nWhat each change moves; each alone, all else as it is. * the other "
                             "way differs\n");
    PlumbCliTable table = plumb_table_begin("lrrrrrrrrr", effects->units);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "change");
    for (size_t i = 0; i < sizeof columns / sizeof columns[0]; i++) {
        plumb_table_head(&table, words[i], plumb_press_output_quantity(columns[i]));
    }
    for (int i = 0; i < effects->count; i++) {
        factor_cells(&table, &effects->factor[i]);
        for (size_t c = 0; c < sizeof columns / sizeof columns[0]; c++) {
            effect_cell(&table, effects->row[i].of[columns[c]].up * effects->factor[i].step_si,
                        plumb_press_output_quantity(columns[c]),
                        effects->row[i].of[columns[c]].kink != 0);
        }
    }
    plumb_table_end(&table, 0, out);
}

static void print_text(const Effects *effects, PlumbCliOutput *out)
{
    const PlumbPressReport report = {effects->request, &effects->answer, effects->units, NULL};
    plumb_press_report_head(&report, out);
    if (effects->count == 0) {
        plumb_output_string(out, "\nNo pose is held, so that nothing can be said of its "
                                 "effects.\n");
    } else if (effects->all) {
        print_table(effects, out);
    } else {
        print_list(effects, out);
    }
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out,
                        "A length of the body moves alone, stature and mass held. Effects are "
                        "slopes: they hold for small changes.",
                        0);
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
    return quantity == PLUMB_Q_LENGTH ? "m" : "1";
}

/* "travel_m_per_rad" */
static void slope_key(const PlumbFactor *factor, int output, char key[KEY_SIZE])
{
    PlumbText text = plumb_text_begin(key, KEY_SIZE);
    plumb_text_string(&text, plumb_press_output_name((PlumbPressOutput)output));
    plumb_text_string(&text, plumb_press_output_unit((PlumbPressOutput)output));
    plumb_text_string(&text, "_per_");
    plumb_text_string(&text, unit_of(factor->quantity));
}

static bool is_printed(const Effects *effects, int output)
{
    return effects->all || (PlumbPressOutput)output == effects->of;
}

static json_t *json_factor(const Effects *effects, int at, bool *failed)
{
    const PlumbFactor *const factor = &effects->factor[at];
    const PlumbPressEffectRow *const row = &effects->row[at];
    const PlumbJson json = plumb_json_begin(failed);
    char key[KEY_SIZE];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, "step_");
    plumb_text_string(&text, unit_of(factor->quantity));
    plumb_json_string(json, "factor", plumb_factor_name(factor));
    plumb_json_number(json, key, factor->step_si);
    const PlumbJson up = plumb_json_object(json, "slopes");
    const PlumbJson kinks = plumb_json_object(json, "kinks");
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        slope_key(factor, o, key);
        if (is_printed(effects, o)) {
            plumb_json_number(up, key, row->of[o].up);
        }
        if (is_printed(effects, o) && row->of[o].kink != 0) {
            const PlumbJson kink = plumb_json_object(kinks, key);
            plumb_json_number(kink, "down", row->of[o].down);
            plumb_json_string(kink, "why", plumb_kink_text(row->of[o].kink));
        }
    }
    return json.object;
}

static void print_json(const Effects *effects, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "outcome", plumb_outcome_name(effects->answer.outcome));
    plumb_json_string(json, "lift", plumb_lift_name(PLUMB_BENCH));
    plumb_json_setup(plumb_json_object(json, "setup"), &effects->answer.setup);
    const PlumbJson figures = plumb_json_object(json, "figures");
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        char key[KEY_SIZE];
        PlumbText text = plumb_text_begin(key, sizeof key);
        plumb_text_string(&text, plumb_press_output_name((PlumbPressOutput)o));
        plumb_text_string(&text, plumb_press_output_unit((PlumbPressOutput)o));
        if (is_printed(effects, o)) {
            plumb_json_number(figures, key,
                              plumb_press_output_value(&effects->answer, (PlumbPressOutput)o));
        }
    }
    json_t *const list = json_array();
    for (int i = 0; i < effects->count; i++) {
        json_array_append_new(list,
                              json_factor(effects, effects->all ? i : effects->order[i], &failed));
    }
    plumb_json_put(json, "effects", list);
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

static void print_csv(const Effects *effects, PlumbCliOutput *out)
{
    static const char *const head[] = {"factor", "step_si", "slope", "up_si", "down_si"};
    PlumbCsv csv = {.out = out};
    for (size_t i = 0; i < sizeof head / sizeof head[0]; i++) {
        plumb_csv_text(&csv, head[i]);
    }
    plumb_csv_row_end(&csv);
    for (int i = 0; i < effects->count; i++) {
        const int at = effects->all ? i : effects->order[i];
        for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
            if (!is_printed(effects, o)) {
                continue;
            }
            char key[KEY_SIZE];
            slope_key(&effects->factor[at], o, key);
            plumb_csv_text(&csv, plumb_factor_name(&effects->factor[at]));
            plumb_csv_number(&csv, effects->factor[at].step_si);
            plumb_csv_text(&csv, key);
            plumb_csv_number(&csv, effects->row[at].of[o].up);
            plumb_csv_number(&csv, effects->row[at].of[o].down);
            plumb_csv_row_end(&csv);
        }
    }
}

PlumbCliExit plumb_press_effects_run(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                     PlumbCliFault *fault)
{
    static Effects effects;
    effects = (Effects){.request = request, .units = args->units};
    const PlumbStatus status = choose_figure(args, &effects, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    plumb_press_solve(&request->lifter, &request->setup, &effects.answer);
    const int count = plumb_press_factors(&request->setup, effects.factor);
    if (plumb_press_effects_solve(&request->lifter, &request->setup, effects.factor, count,
                                  effects.row)) {
        effects.count = count;
        plumb_press_effects_sort(effects.factor, effects.row, count, effects.of, effects.order);
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
