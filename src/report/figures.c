/* SPDX-License-Identifier: MIT */
/* The handout's figures: before, after, change, and how sure each is. */
#include "report/words.h"

#include "study/interval.h"

#include <math.h>
#include <stdlib.h>

/* A figure, as of plumb_solved_value, in words that an athlete understands. */
typedef struct Figure {
    int output;
    const char *name;
} Figure;

static const Figure figures[PLUMB_LIFT_COUNT][PLUMB_HANDOUT_ROWS] = {
    [PLUMB_DEADLIFT] = {{PLUMB_OUT_travel, "bar travel, up"},
                        {PLUMB_OUT_hip_arm, "hips behind the bar"},
                        {PLUMB_OUT_back_angle, "back above level"},
                        {PLUMB_OUT_hip_height, "hip joint above the floor"},
                        {PLUMB_OUT_shoulder_ahead, "shoulders ahead of the bar"},
                        {PLUMB_OUT_balance, "weight along the foot, heel 0, toe 1"}},
    [PLUMB_SQUAT] = {{PLUMB_OUT_travel, "bar travel, down and up"},
                     {PLUMB_OUT_hip_arm, "hips behind the bar, bottom"},
                     {PLUMB_OUT_knee_arm, "knees ahead of the bar, bottom"},
                     {PLUMB_OUT_back_angle, "back above level, bottom"},
                     {PLUMB_OUT_shin_angle, "shins from upright, bottom"},
                     {PLUMB_OUT_balance, "weight along the foot, heel 0, toe 1"}},
    [PLUMB_BENCH] = {{PLUMB_PRESS_OUT_travel, "bar travel, down and up"},
                     {PLUMB_PRESS_OUT_touch, "touch, from the shoulders down"},
                     {PLUMB_PRESS_OUT_upper_arm, "upper arm from the trunk, touch"},
                     {PLUMB_PRESS_OUT_forearm_front, "forearm from upright, head end"},
                     {PLUMB_PRESS_OUT_front_arm, "hands outside the shoulders"},
                     {PLUMB_PRESS_OUT_elbow_below_rule, "elbow below the shoulder's top"}},
};

/* The same bodies in both set-ups. */
typedef struct Draws {
    int count;
    PlumbSample *before;
    PlumbSample *after;
    double *value; /* 2 count */
} Draws;

static void draws_free(Draws *draws)
{
    free(draws->before);
    free(draws->after);
    free(draws->value);
}

static bool draws_make(Draws *draws)
{
    const size_t count = (size_t)draws->count;
    draws->value = malloc(2 * count * sizeof *draws->value);
    draws->before = malloc(count * sizeof *draws->before);
    draws->after = malloc(count * sizeof *draws->after);
    return draws->value != NULL && draws->before != NULL && draws->after != NULL;
}

/* What the program proposes is counted from each body's own start, as it was when it was judged. */
static void propose(const PlumbProposal *proposal, const PlumbSampler *sampler,
                    const PlumbSetup *setup, uint64_t index, PlumbSample *after)
{
    PlumbLifter lifter;
    PlumbSolved own;
    const PlumbSetup aimed = plumb_sample_begin(sampler, setup, index, &lifter);
    plumb_solved_solve(&lifter, &aimed, &own);
    const PlumbSetup on = plumb_option_on(&proposal->option, setup, &own);
    plumb_samples_solve(sampler, &on, true, index, 1, after);
}

static PlumbStatus draws_take(const PlumbHandoutAsk *ask, Draws *draws, PlumbError *error)
{
    const PlumbSetup *const *const setup = ask->asked;
    PlumbBodies *const bodies = malloc(sizeof *bodies);
    PlumbSampler *const sampler = malloc(sizeof *sampler);
    PlumbStatus status = PLUMB_OK;
    if (!draws_make(draws) || bodies == NULL || sampler == NULL) {
        status = plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "handout",
                                 "no memory for the bodies drawn");
    } else {
        const PlumbLifter *const lifter = ask->drawing->lifter;
        plumb_bodies_around(ask->spec, &lifter->body, bodies);
        plumb_sampler_begin(lifter, bodies, 1, sampler);
        plumb_samples_solve(sampler, setup[0], true, 0, draws->count, draws->before);
        for (int i = 0; ask->proposal != NULL && i < draws->count; i++) {
            propose(ask->proposal, sampler, setup[0], (uint64_t)i, &draws->after[i]);
        }
        if (ask->proposal == NULL) {
            plumb_samples_solve(sampler, setup[1], true, 0, draws->count, draws->after);
        }
    }
    free(bodies);
    free(sampler);
    return status;
}

static double drawn(const Draws *draws, bool after, int body, int output)
{
    return (after ? draws->after : draws->before)[body].output[output];
}

/* Half of the interval that holds 95 of 100, "± 1.2 cm"; what is below the last digit shown is said
 * so. */
static void spread_words(char cell[PLUMB_HANDOUT_CELL], const PlumbEstimate *estimate,
                         PlumbQuantity quantity, PlumbUnits units)
{
    PlumbText text = plumb_text_begin(cell, PLUMB_HANDOUT_CELL);
    const double half = 0.5 * (estimate->high - estimate->low);
    if (!isfinite(half)) {
        return;
    }
    double digit = 1.0 / plumb_quantity_factor(quantity, units);
    for (int i = 0; i < plumb_quantity_decimals(quantity, units); i++) {
        digit *= 0.1;
    }
    plumb_text_string(&text, half < 0.5 * digit ? "below " : "\xc2\xb1 ");
    plumb_text_quantity(&text, fmax(half, digit), quantity, units);
}

static void spreads(const Draws *draws, int output, PlumbQuantity quantity, PlumbUnits units,
                    PlumbHandoutRow *row)
{
    double *const value = draws->value;
    double *const scratch = draws->value + draws->count;
    for (int i = 0; i < draws->count; i++) {
        value[i] = drawn(draws, true, i, output);
    }
    const PlumbEstimate after = plumb_estimate(value, draws->count, scratch);
    spread_words(row->after_spread, &after, quantity, units);
    for (int i = 0; i < draws->count; i++) {
        value[i] = drawn(draws, true, i, output) - drawn(draws, false, i, output);
    }
    const PlumbEstimate change = plumb_estimate(value, draws->count, scratch);
    spread_words(row->change_spread, &change, quantity, units);
}

static void fill_row(const PlumbHandoutAsk *ask, const Figure *figure, const Draws *draws,
                     PlumbHandoutRow *row)
{
    const PlumbUnits units = ask->drawing->units;
    const PlumbLift lift = ask->after->lift;
    const PlumbQuantity quantity = plumb_lift_output_quantity(lift, figure->output);
    const double before = plumb_solved_value(ask->before, figure->output);
    const double after = plumb_solved_value(ask->after, figure->output);
    *row = (PlumbHandoutRow){.name = ""};
    PlumbText name = plumb_text_begin(row->name, sizeof row->name);
    PlumbText was = plumb_text_begin(row->before, sizeof row->before);
    PlumbText is = plumb_text_begin(row->after, sizeof row->after);
    PlumbText change = plumb_text_begin(row->change, sizeof row->change);
    plumb_text_string(&name, figure->name);
    plumb_text_quantity(&was, before, quantity, units);
    plumb_text_quantity(&is, after, quantity, units);
    plumb_text_difference(&change, after - before, quantity, units);
    if (draws->count > 0) {
        spreads(draws, figure->output, quantity, units, row);
    }
}

PlumbStatus plumb_figure_rows(const PlumbHandoutAsk *ask, PlumbHandout *handout, PlumbError *error)
{
    Draws draws = {.count = ask->sample_count};
    const PlumbStatus status = draws.count > 0 ? draws_take(ask, &draws, error) : PLUMB_OK;
    for (int i = 0; i < PLUMB_HANDOUT_ROWS && status == PLUMB_OK; i++) {
        const Figure *const figure = &figures[ask->after->lift][i];
        if (isfinite(plumb_solved_value(ask->before, figure->output)) &&
            isfinite(plumb_solved_value(ask->after, figure->output))) {
            fill_row(ask, figure, &draws, &handout->row[handout->row_count++]);
        }
    }
    handout->has_spread = draws.count > 0;
    draws_free(&draws);
    return status;
}
