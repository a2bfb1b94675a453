/* SPDX-License-Identifier: MIT */
/* plumbar compare: two set-ups of one lifter, or one set-up for two lifters, figure by figure. */
#include "command.h"
#include "compare_sure.h"
#include "solved_out.h"

#include <plumbar/compare.h>
#include <plumbar/scene.h>

#include <math.h>
#include <string.h>

enum { LINE_SIZE = 512, KEY_SIZE = 96 };

typedef struct Compare {
    PlumbCliRequest request[2];
    PlumbSolved solved[2];
    PlumbDifference difference[PLUMB_OUTPUT_COUNT];
    bool one_lifter;
    int sample_count;
    uint64_t seed;
    PlumbUnits units;
} Compare;

static PlumbLift lift_of(const Compare *compare)
{
    return compare->request[0].lift;
}

static PlumbStatus read_second(const PlumbCliArgs *args, Compare *compare, PlumbCliFault *fault)
{
    if (args->pencil == NULL) {
        return plumb_fault_bad(fault, "--pencil",
                               "is missing; name the second set-up: ", "--pencil \"stance=60cm\"",
                               ", --pencil FILE:set-up, or --pencil FILE for another lifter");
    }
    return plumb_request_read_pencil(&compare->request[0], args->pencil, &compare->request[1],
                                     fault);
}

static void print_side(const Compare *compare, int side, PlumbCliOutput *out)
{
    plumb_output_string(out, side == 0 ? "First (inked)\n" : "\nSecond (pencilled)\n");
    plumb_solved_head(&compare->request[side], &compare->solved[side], NULL, compare->units, out);
}

static bool is_shown(const Compare *compare, int i)
{
    const PlumbDifference *const d = &compare->difference[i];
    return plumb_lift_output_applies(lift_of(compare), i) &&
           (isfinite(d->first) || isfinite(d->second));
}

/* A figure of a column: plain numbers keep their places, so that the points line up. */
static void figure(PlumbText *text, double value, PlumbQuantity quantity, PlumbUnits units)
{
    if (quantity == PLUMB_Q_NUMBER && isfinite(value)) {
        plumb_text_fixed(text, value, plumb_quantity_decimals(quantity, units));
    } else {
        plumb_text_value(text, value, quantity, units);
    }
}

static void figure_cell(PlumbCliTable *table, double value, PlumbQuantity quantity)
{
    char cell[KEY_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    figure(&text, value, quantity, table->units);
    plumb_table_text(table, cell);
}

static void difference_cell(PlumbCliTable *table, const PlumbDifference *d, PlumbQuantity quantity)
{
    char cell[KEY_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (isfinite(d->change) && quantity == PLUMB_Q_NUMBER) {
        plumb_text_signed(&text, d->change, plumb_quantity_decimals(quantity, table->units));
    } else if (isfinite(d->change)) {
        plumb_text_difference(&text, d->change, quantity, table->units);
    } else {
        plumb_text_string(&text, "-");
    }
    plumb_table_text(table, cell);
}

/* What efforts are no ranking of. */
static void print_efforts(const Compare *compare, PlumbCliOutput *out)
{
    const bool press = lift_of(compare) == PLUMB_BENCH;
    if (!press && compare->one_lifter) {
        return;
    }
    plumb_print_wrapped(out,
                        press ? "Efforts rest on the strength of one published person. Efforts of "
                                "two lifters or two loads are not compared as a ranking."
                              : "Efforts of two lifters are not compared as a ranking.",
                        0);
    plumb_output_string(out, "\n");
}

static void print_text(const Compare *compare, PlumbCliOutput *out)
{
    print_side(compare, 0, out);
    print_side(compare, 1, out);
    plumb_output_string(out, "\n");
    PlumbCliTable table = plumb_table_begin("lrrrrr", compare->units);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "first");
    plumb_table_text(&table, "second");
    plumb_table_text(&table, "change");
    plumb_table_text(&table, "");
    plumb_table_text(&table, "95 % of bodies");
    for (int i = 0; i < plumb_lift_output_count(lift_of(compare)); i++) {
        if (!is_shown(compare, i)) {
            continue;
        }
        const PlumbQuantity quantity = plumb_lift_output_quantity(lift_of(compare), i);
        plumb_table_text(&table, plumb_lift_output_text(lift_of(compare), i));
        figure_cell(&table, compare->difference[i].first, quantity);
        figure_cell(&table, compare->difference[i].second, quantity);
        difference_cell(&table, &compare->difference[i], quantity);
        plumb_compare_sure_cells(&compare->difference[i].spread, quantity, &table);
    }
    plumb_table_end(&table, 0, out);
    plumb_output_string(out, "\n");
    plumb_compare_sure_print(compare->one_lifter, compare->sample_count, out);
    print_efforts(compare, out);
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static void json_side(const Compare *compare, int side, PlumbJson json)
{
    plumb_json_string(json, "outcome",
                      plumb_outcome_name(plumb_solved_outcome(&compare->solved[side])));
    plumb_json_setup(plumb_json_object(json, "setup"), plumb_solved_setup(&compare->solved[side]));
    plumb_json_body(plumb_json_object(json, "body"), &compare->request[side].lifter.body);
}

static void print_json(const Compare *compare, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "lift", plumb_lift_name(lift_of(compare)));
    plumb_json_bool(json, "one_lifter", compare->one_lifter);
    plumb_json_put(json, "samples_count", json_integer(compare->sample_count));
    plumb_json_put(json, "seed", json_integer((json_int_t)compare->seed));
    plumb_json_number(json, "coverage_frac", 0.95);
    plumb_json_string(json, "covers", plumb_interval_caution());
    json_side(compare, 0, plumb_json_object(json, "first"));
    json_side(compare, 1, plumb_json_object(json, "second"));
    const PlumbJson figures = plumb_json_object(json, "figures");
    for (int i = 0; i < plumb_lift_output_count(lift_of(compare)); i++) {
        if (is_shown(compare, i)) {
            char key[PLUMB_FIGURE_KEY_SIZE];
            const PlumbJson one =
                plumb_json_object(figures, plumb_figure_key(lift_of(compare), i, key));
            plumb_json_number(one, "first", compare->difference[i].first);
            plumb_json_number(one, "second", compare->difference[i].second);
            plumb_json_number(one, "change", compare->difference[i].change);
            plumb_json_number(one, "change_sd", compare->difference[i].spread.sd);
            plumb_json_number(one, "change_low", compare->difference[i].spread.low);
            plumb_json_number(one, "change_high", compare->difference[i].spread.high);
        }
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
    for (int i = 0; i < plumb_lift_output_count(lift_of(compare)); i++) {
        if (is_shown(compare, i)) {
            char key[PLUMB_FIGURE_KEY_SIZE];
            plumb_csv_text(&csv, plumb_figure_key(lift_of(compare), i, key));
            plumb_csv_number(&csv, compare->difference[i].first);
            plumb_csv_number(&csv, compare->difference[i].second);
            plumb_csv_number(&csv, compare->difference[i].change);
            plumb_csv_number(&csv, compare->difference[i].spread.sd);
            plumb_csv_number(&csv, compare->difference[i].spread.low);
            plumb_csv_number(&csv, compare->difference[i].spread.high);
            plumb_csv_row_end(&csv);
        }
    }
}

/* Whether both sides hold. */
static bool solve(const PlumbCliArgs *args, Compare *compare)
{
    bool held = true;
    for (int i = 0; i < 2; i++) {
        const PlumbCliRequest *const request = &compare->request[i];
        plumb_solved_solve(&request->lifter, &request->setup, &compare->solved[i]);
        held = held && plumb_solved_outcome(&compare->solved[i]) != PLUMB_NO_POSE;
    }
    compare->units = args->units;
    compare->one_lifter =
        plumb_compare_one_body(&compare->request[0].lifter.body, &compare->request[1].lifter.body);
    compare->seed = args->seed;
    compare->sample_count = held ? plumb_compare_sure_count(args) : 0;
    plumb_compare(&compare->solved[0], &compare->solved[1], compare->difference);
    return held;
}

static PlumbStatus take_spreads(const PlumbCliArgs *args, Compare *compare, PlumbCliFault *fault)
{
    PlumbEstimate spread[PLUMB_OUTPUT_COUNT];
    const PlumbStatus status = plumb_compare_sure_take(
        args, &compare->request[0], &compare->request[1], compare->sample_count, spread, fault);
    for (int i = 0; status == PLUMB_OK && i < plumb_lift_output_count(lift_of(compare)); i++) {
        compare->difference[i].spread = spread[i];
    }
    return status;
}

PlumbCliExit plumb_cli_compare(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    static Compare compare;
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH,
                           &compare.request[0], fault);
    if (status == PLUMB_OK) {
        status = read_second(args, &compare, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    const bool held = solve(args, &compare);
    status = take_spreads(args, &compare, fault);
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
