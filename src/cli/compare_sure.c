/* SPDX-License-Identifier: MIT */
/* How sure the differences of two requests are: bodies drawn for both sides at once. */
#include "compare_sure.h"

#include "samples.h"
#include "workers.h"

#include <stdlib.h>

enum { LINE_SIZE = 640 };

typedef struct Draws {
    PlumbPair pair;
    double *change;
} Draws;

static void solve(void *context, int first, int count)
{
    const Draws *const draws = context;
    plumb_pair_solve(&draws->pair, false, (uint64_t)first, count,
                     draws->change + (size_t)first * PLUMB_OUTPUT_COUNT);
}

int plumb_compare_sure_count(const PlumbCliArgs *args)
{
    enum { DEFAULT = 1000 };
    return args->samples < 0 ? DEFAULT : args->samples;
}

static PlumbSide side_of(const PlumbCliRequest *request)
{
    return (PlumbSide){&request->record.spec, &request->lifter, &request->setup};
}

PlumbStatus plumb_compare_sure_take(const PlumbCliArgs *args, const PlumbCliRequest *first,
                                    const PlumbCliRequest *second, int count, PlumbEstimate *spread,
                                    PlumbCliFault *fault)
{
    const PlumbSide side[2] = {side_of(first), side_of(second)};
    Draws draws;
    double *const scratch = malloc((2 * (size_t)count + 1) * sizeof *scratch);
    draws.change = malloc(((size_t)count * PLUMB_OUTPUT_COUNT + 1) * sizeof *draws.change);
    if (scratch == NULL || draws.change == NULL) {
        free(scratch);
        free(draws.change);
        return plumb_samples_no_memory(fault);
    }
    plumb_pair_begin(&side[0], &side[1], args->seed, &draws.pair);
    const PlumbCliJob job = {
        .work = solve, .context = &draws, .count = count, .threads = args->threads};
    plumb_workers_run(&job);
    for (int i = 0; i < plumb_lift_output_count(first->lift); i++) {
        spread[i] = plumb_column_estimate(draws.change, count, PLUMB_OUTPUT_COUNT, i, scratch);
    }
    free(scratch);
    free(draws.change);
    return PLUMB_OK;
}

/* What is asked for on both sides changes by as much on every body; an empty cell then says more
 * than ± 0. */
static const double PRESCRIBED = 1e-9;

/* One end of the range, its sign kept. */
static void put_end(PlumbText *text, double value_si, PlumbQuantity quantity, PlumbUnits units)
{
    plumb_text_signed(text, value_si * plumb_quantity_factor(quantity, units),
                      plumb_quantity_decimals(quantity, units));
}

void plumb_compare_sure_cells(const PlumbEstimate *spread, PlumbQuantity quantity,
                              PlumbCliTable *table)
{
    char cell[PLUMB_CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (!(spread->sd > PRESCRIBED)) {
        plumb_table_text(table, "");
        plumb_table_text(table, "");
        return;
    }
    plumb_text_string(&text, "± ");
    if (quantity == PLUMB_Q_NUMBER) { /* keeps its places, so that the points line up */
        plumb_text_fixed(&text, spread->sd, plumb_quantity_decimals(quantity, table->units));
    } else {
        plumb_text_quantity(&text, spread->sd, quantity, table->units);
    }
    plumb_table_text(table, cell);
    text = plumb_text_begin(cell, sizeof cell);
    put_end(&text, spread->low, quantity, table->units);
    plumb_text_string(&text, " to ");
    put_end(&text, spread->high, quantity, table->units);
    plumb_table_text(table, cell);
}

void plumb_compare_sure_print(bool one_body, int count, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    if (count == 0) {
        return;
    }
    plumb_text_string(&text, "± is one standard deviation of the change, beside it where the "
                             "change of 95 % of ");
    plumb_text_integer(&text, count);
    plumb_text_string(&text, one_body ? " bodies lies, each of which fits what was measured and is "
                                        "solved in both set-ups. "
                                      : " pairs of bodies lies, drawn apart by what is measured of "
                                        "each lifter. ");
    plumb_text_string(&text, plumb_interval_caution());
    plumb_print_wrapped(out, line, 0);
    plumb_output_string(out, "\n");
}
