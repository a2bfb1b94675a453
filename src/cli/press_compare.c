/* SPDX-License-Identifier: MIT */
/* The command compare on two bench presses. */
#include "press_out.h"

#include "command.h"
#include "compare_sure.h"

#include <plumbar/press_effects.h>
#include <plumbar/scene.h>

#include <math.h>

enum { KEY_SIZE = 96 };

typedef struct Compare {
    const PlumbCliRequest *request[2];
    PlumbPressAnswer answer[2];
    PlumbEstimate spread[PLUMB_PRESS_OUTPUT_COUNT];
    bool one_lifter;
    int sample_count;
    PlumbUnits units;
} Compare;

static double figure(const Compare *compare, int side, int output)
{
    return plumb_press_output_value(&compare->answer[side], (PlumbPressOutput)output);
}

static void print_text(const Compare *compare, PlumbCliOutput *out)
{
    for (int side = 0; side < 2; side++) {
        const PlumbPressReport report = {compare->request[side], &compare->answer[side],
                                         compare->units, NULL};
        plumb_output_string(out, side == 0 ? "First (inked)\n" : "\nSecond (pencilled)\n");
        plumb_press_report_head(&report, out);
    }
    plumb_output_string(out, "\n");
    PlumbCliTable table = plumb_table_begin("lrrrrr", compare->units);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "first");
    plumb_table_text(&table, "second");
    plumb_table_text(&table, "change");
    plumb_table_text(&table, "");
    plumb_table_text(&table, "95 % of bodies");
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        const PlumbQuantity quantity = plumb_press_output_quantity((PlumbPressOutput)o);
        const double first = figure(compare, 0, o);
        const double second = figure(compare, 1, o);
        char cell[KEY_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        if (isfinite(second - first)) {
            plumb_text_difference(&text, second - first, quantity, compare->units);
        } else {
            plumb_text_string(&text, "-");
        }
        plumb_table_text(&table, plumb_press_output_text((PlumbPressOutput)o));
        plumb_table_value(&table, first, quantity);
        plumb_table_value(&table, second, quantity);
        plumb_table_text(&table, cell);
        plumb_compare_sure_cells(&compare->spread[o], quantity, &table);
    }
    plumb_table_end(&table, 0, out);
    plumb_output_string(out, "\n");
    plumb_compare_sure_print(compare->one_lifter, compare->sample_count, out);
    plumb_print_wrapped(out,
                        "Efforts rest on the strength of one published person. Efforts of two "
                        "lifters or two loads are not compared as a ranking.",
                        0);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static void figure_key(int output, char key[KEY_SIZE])
{
    PlumbText text = plumb_text_begin(key, KEY_SIZE);
    plumb_text_string(&text, plumb_press_output_name((PlumbPressOutput)output));
    plumb_text_string(&text, plumb_press_output_unit((PlumbPressOutput)output));
}

static void print_json(const Compare *compare, PlumbCliOutput *out)
{
    static const char *const sides[2] = {"first", "second"};
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "lift", plumb_lift_name(PLUMB_BENCH));
    plumb_json_bool(json, "one_lifter", compare->one_lifter);
    plumb_json_put(json, "samples_count", json_integer(compare->sample_count));
    plumb_json_number(json, "coverage_frac", 0.95);
    plumb_json_string(json, "covers", plumb_interval_caution());
    for (int side = 0; side < 2; side++) {
        const PlumbJson object = plumb_json_object(json, sides[side]);
        plumb_json_string(object, "outcome", plumb_outcome_name(compare->answer[side].outcome));
        plumb_json_setup(plumb_json_object(object, "setup"), &compare->answer[side].setup);
        plumb_json_body(plumb_json_object(object, "body"), &compare->request[side]->lifter.body);
    }
    const PlumbJson figures = plumb_json_object(json, "figures");
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        char key[KEY_SIZE];
        figure_key(o, key);
        const PlumbJson one = plumb_json_object(figures, key);
        plumb_json_number(one, "first", figure(compare, 0, o));
        plumb_json_number(one, "second", figure(compare, 1, o));
        plumb_json_number(one, "change", figure(compare, 1, o) - figure(compare, 0, o));
        plumb_json_number(one, "change_sd", compare->spread[o].sd);
        plumb_json_number(one, "change_low", compare->spread[o].low);
        plumb_json_number(one, "change_high", compare->spread[o].high);
    }
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

static void print_csv(const Compare *compare, PlumbCliOutput *out)
{
    static const char *const head[] = {"figure",        "first_si",     "second_si",
                                       "change_si",     "change_sd_si", "change_low_si",
                                       "change_high_si"};
    PlumbCsv csv = {.out = out};
    for (size_t i = 0; i < sizeof head / sizeof head[0]; i++) {
        plumb_csv_text(&csv, head[i]);
    }
    plumb_csv_row_end(&csv);
    for (int o = 0; o < PLUMB_PRESS_OUTPUT_COUNT; o++) {
        char key[KEY_SIZE];
        figure_key(o, key);
        plumb_csv_text(&csv, key);
        plumb_csv_number(&csv, figure(compare, 0, o));
        plumb_csv_number(&csv, figure(compare, 1, o));
        plumb_csv_number(&csv, figure(compare, 1, o) - figure(compare, 0, o));
        plumb_csv_number(&csv, compare->spread[o].sd);
        plumb_csv_number(&csv, compare->spread[o].low);
        plumb_csv_number(&csv, compare->spread[o].high);
        plumb_csv_row_end(&csv);
    }
}

PlumbCliExit plumb_press_compare_run(const PlumbCliArgs *args, const PlumbCliRequest *first,
                                     const PlumbCliRequest *second, PlumbCliFault *fault)
{
    Compare compare = {.request = {first, second}, .units = args->units};
    bool held = true;
    for (int side = 0; side < 2; side++) {
        const PlumbCliRequest *const request = compare.request[side];
        plumb_press_solve(&request->lifter, &request->setup, &compare.answer[side]);
        held = held && compare.answer[side].outcome != PLUMB_NO_POSE;
    }
    compare.one_lifter = plumb_compare_one_body(&first->lifter.body, &second->lifter.body);
    compare.sample_count = held ? plumb_compare_sure_count(args) : 0;
    const PlumbStatus status =
        plumb_compare_sure_take(args, first, second, compare.sample_count, compare.spread, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(&compare, &out);
    } else if (args->csv) {
        print_csv(&compare, &out);
    } else {
        print_text(&compare, &out);
    }
    return plumb_cli_finish(&out, held ? PLUMB_EXIT_ANSWERED : PLUMB_EXIT_NO_POSE, fault);
}
