/* SPDX-License-Identifier: MIT */
/* The path of a request followed with the bodies that its lifter could have. */
#include "path_sure.h"

#include "samples.h"
#include "workers.h"

#include <math.h>
#include <stdatomic.h>
#include <stdlib.h>

enum { KEY_SIZE = 96 };

typedef struct Draws {
    PlumbSampler sampler;
    const PlumbSetup *setup;
    int points;
    double *value;
    atomic_bool failed;
} Draws;

static void solve(void *context, int first, int count)
{
    Draws *const draws = context;
    const size_t size = (size_t)plumb_path_sample_size(draws->setup->lift, draws->points);
    PlumbPathPoint *const scratch = malloc((size_t)draws->points * sizeof *scratch);
    if (scratch == NULL) {
        atomic_store(&draws->failed, true);
        return;
    }
    plumb_path_samples_solve(&draws->sampler, draws->setup, draws->points, (uint64_t)first, count,
                             scratch, draws->value + (size_t)first * size);
    free(scratch);
}

PlumbStatus plumb_path_sure_take(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                 int count, PlumbCliPathSure *sure, PlumbCliFault *fault)
{
    *sure = (PlumbCliPathSure){
        .lift = request->lift, .count = count, .points = args->points, .seed = args->seed};
    if (count == 0) {
        return PLUMB_OK;
    }
    const size_t size = (size_t)plumb_path_sample_size(sure->lift, args->points);
    PlumbBodies bodies;
    Draws draws = {.setup = &request->setup, .points = args->points};
    sure->value = malloc((size_t)count * size * sizeof *sure->value);
    sure->scratch = malloc(2 * (size_t)count * sizeof *sure->scratch);
    if (sure->value == NULL || sure->scratch == NULL) {
        plumb_path_sure_drop(sure);
        return plumb_samples_no_memory(fault);
    }
    draws.value = sure->value;
    plumb_bodies_around(&request->record.spec, &request->lifter.body, &bodies);
    plumb_sampler_begin(&request->lifter, &bodies, args->seed, &draws.sampler);
    const PlumbCliJob job = {
        .work = solve, .context = &draws, .count = count, .threads = args->threads};
    plumb_workers_run(&job);
    if (atomic_load(&draws.failed)) {
        plumb_path_sure_drop(sure);
        return plumb_samples_no_memory(fault);
    }
    return PLUMB_OK;
}

void plumb_path_sure_drop(PlumbCliPathSure *sure)
{
    free(sure->value);
    free(sure->scratch);
    sure->value = sure->scratch = NULL;
}

static PlumbEstimate estimate(const PlumbCliPathSure *sure, int column)
{
    return plumb_column_estimate(sure->value, sure->count,
                                 plumb_path_sample_size(sure->lift, sure->points), column,
                                 sure->scratch);
}

PlumbEstimate plumb_path_sure_fact(const PlumbCliPathSure *sure, int fact)
{
    return estimate(sure, fact);
}

PlumbEstimate plumb_path_sure_step(const PlumbCliPathSure *sure, int point, int step)
{
    return estimate(sure, plumb_path_column(sure->lift, point, step));
}

/* What is prescribed does not vary; an empty cell then says more than ± 0. */
static bool varies(double sd)
{
    return sd > 1e-9;
}

void plumb_path_sure_cell(const PlumbCliPathSure *sure, int fact, PlumbQuantity quantity,
                          PlumbCliTable *table)
{
    char cell[PLUMB_CELL_SIZE] = "";
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    const double sd = sure->count > 0 ? plumb_path_sure_fact(sure, fact).sd : 0.0;
    if (varies(sd)) {
        plumb_text_string(&text, "± ");
        plumb_text_quantity(&text, sd, quantity, table->units);
    }
    plumb_table_text(table, cell);
}

typedef struct Column {
    const char *head;
    PlumbQuantity quantity;
} Column;

static const Column columns[PLUMB_STEP_COUNT] = {
    [PLUMB_STEP_bar_height] = {"bar height", PLUMB_Q_LENGTH},
    [PLUMB_STEP_bar_x] = {"bar ahead", PLUMB_Q_LENGTH},
    [PLUMB_STEP_hip_height] = {"hip height", PLUMB_Q_LENGTH},
    [PLUMB_STEP_back_angle] = {"back", PLUMB_Q_ANGLE},
    [PLUMB_STEP_knee_flexion] = {"knee", PLUMB_Q_ANGLE},
    [PLUMB_STEP_balance] = {"balance", PLUMB_Q_FRACTION},
    [PLUMB_STEP_hip_moment] = {"hip", PLUMB_Q_MOMENT},
    [PLUMB_STEP_back_moment] = {"back", PLUMB_Q_MOMENT},
    [PLUMB_STEP_knee_moment] = {"knee", PLUMB_Q_MOMENT},
    [PLUMB_STEP_ankle_moment] = {"ankle", PLUMB_Q_MOMENT},
};

static const Column press_columns[PLUMB_PRESS_STEP_COUNT] = {
    [PLUMB_PRESS_STEP_bar_height] = {"bar height", PLUMB_Q_LENGTH},
    [PLUMB_PRESS_STEP_bar_x] = {"to the feet", PLUMB_Q_LENGTH},
    [PLUMB_PRESS_STEP_abduction] = {"upper arm", PLUMB_Q_ANGLE},
    [PLUMB_PRESS_STEP_elbow_flexion] = {"elbow", PLUMB_Q_ANGLE},
    [PLUMB_PRESS_STEP_forearm_front] = {"forearm", PLUMB_Q_ANGLE},
    [PLUMB_PRESS_STEP_bar_arm_elbow] = {"elbow arm", PLUMB_Q_LENGTH},
    [PLUMB_PRESS_STEP_shoulder_adduction_moment] = {"adduction", PLUMB_Q_MOMENT},
    [PLUMB_PRESS_STEP_shoulder_flexion_moment] = {"flexion", PLUMB_Q_MOMENT},
    [PLUMB_PRESS_STEP_elbow_extension_moment] = {"elbow", PLUMB_Q_MOMENT},
};

void plumb_path_sure_heads(PlumbLift lift, PlumbCliTable *table)
{
    const Column *const column = lift == PLUMB_BENCH ? press_columns : columns;
    for (int k = 0; k < plumb_lift_step_count(lift); k++) {
        plumb_table_head(table, column[k].head, column[k].quantity);
    }
}

void plumb_path_sure_print(const PlumbCliPathSure *sure, PlumbUnits units, PlumbCliOutput *out)
{
    const Column *const column = sure->lift == PLUMB_BENCH ? press_columns : columns;
    const int steps = plumb_lift_step_count(sure->lift);
    if (sure->count == 0) {
        return;
    }
    static const char align[] = "rrrrrrrrrrr"; /* u, and as many as a lift has */
    PlumbCliTable table = plumb_table_begin(align + ((int)PLUMB_STEP_COUNT - steps), units);
    plumb_table_text(&table, sure->lift == PLUMB_BENCH ? "rise" : "u");
    plumb_path_sure_heads(sure->lift, &table);
    for (int i = 0; i < sure->points; i++) {
        plumb_table_bare(&table, (double)i / (sure->points - 1), PLUMB_Q_NUMBER);
        for (int k = 0; k < steps; k++) {
            const double sd = plumb_path_sure_step(sure, i, k).sd;
            if (varies(sd)) {
                plumb_table_bare(&table, sd, column[k].quantity);
            } else {
                plumb_table_text(&table, "");
            }
        }
    }
    char line[PLUMB_CELL_SIZE * 2];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_print_heading(out, "How sure: ± of each figure above, one standard deviation");
    plumb_table_end(&table, 2, out);
    plumb_text_string(&text, "  ");
    plumb_text_string(&text, plumb_interval_caution());
    plumb_text_string(&text, " From ");
    plumb_text_integer(&text, sure->count);
    plumb_text_string(&text, " bodies that fit what was measured.");
    plumb_print_wrapped(out, line, 2);
}

void plumb_path_sure_json(const PlumbCliPathSure *sure, int point, PlumbJson json)
{
    if (sure->count == 0) {
        plumb_json_put(json, "intervals", json_null());
        return;
    }
    const PlumbJson object = plumb_json_object(json, "intervals");
    plumb_json_put(object, "samples_count", json_integer(sure->count));
    plumb_json_put(object, "seed", json_integer((json_int_t)sure->seed));
    plumb_json_number(object, "coverage_frac", 0.95);
    plumb_json_string(object, "covers", plumb_interval_caution());
    const PlumbJson outputs = plumb_json_object(object, "outputs");
    for (int k = 0; k < plumb_lift_step_count(sure->lift); k++) {
        char key[KEY_SIZE];
        PlumbText text = plumb_text_begin(key, sizeof key);
        plumb_text_string(&text, plumb_lift_step_name(sure->lift, k));
        plumb_text_string(&text, plumb_lift_step_unit(sure->lift, k));
        const PlumbEstimate step = plumb_path_sure_step(sure, point, k);
        plumb_json_estimate(outputs, key, &step);
    }
    const PlumbJson facts = plumb_json_object(object, "path_facts");
    for (int k = 0; k < plumb_lift_fact_count(sure->lift); k++) {
        const PlumbEstimate fact = plumb_path_sure_fact(sure, k);
        plumb_json_estimate(facts, plumb_lift_fact_key(sure->lift, k), &fact);
    }
}

void plumb_path_sure_csv_head(PlumbCsv *csv, PlumbLift lift)
{
    for (int k = 0; k < plumb_lift_step_count(lift); k++) {
        plumb_csv_bounds_head(csv, plumb_lift_step_name(lift, k), plumb_lift_step_unit(lift, k));
    }
}

void plumb_path_sure_csv(const PlumbCliPathSure *sure, int point, PlumbCsv *csv)
{
    for (int k = 0; k < plumb_lift_step_count(sure->lift); k++) {
        PlumbEstimate step;
        if (sure->count > 0) {
            step = plumb_path_sure_step(sure, point, k);
        }
        plumb_csv_bounds(csv, sure->count > 0 ? &step : NULL);
    }
}
