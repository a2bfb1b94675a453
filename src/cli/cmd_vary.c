/* SPDX-License-Identifier: MIT */
/* plumbar vary: the set-up solved over one or two settings; of a press without a range, what the
 * grip does. */
#include "command.h"
#include "press_out.h"
#include "report.h"
#include "solved_out.h"

#include <plumbar/scene.h>

#include <math.h>
#include <string.h>

enum { CELL_SIZE = 64, GRIP_POINTS = 10 };

/* A grid under way, one cell at a time: the answers are printed as they come. */
typedef struct Vary {
    const PlumbCliRequest *request;
    PlumbUnits units;
    int index[PLUMB_AXES_MAX];
    PlumbLifter lifter;
    PlumbSolved solved;
    long held_count;
} Vary;

static int axis_count(const Vary *vary, int axis)
{
    return axis < vary->request->axis_count ? vary->request->axis[axis].count : 1;
}

/* Every body and set-up of the grid is checked before the first byte is printed. */
static PlumbStatus check(Vary *vary, PlumbCliFault *fault)
{
    PlumbStatus status = PLUMB_OK;
    for (int i = 0; status == PLUMB_OK && i < axis_count(vary, 0); i++) {
        for (int j = 0; status == PLUMB_OK && j < axis_count(vary, 1); j++) {
            const int index[PLUMB_AXES_MAX] = {i, j};
            PlumbSetup setup;
            status = plumb_request_at(vary->request, index, &vary->lifter, &setup, fault);
        }
    }
    return status;
}

/* Solves the cell at row i, column j. The grid has been checked. */
static void solve(Vary *vary, int i, int j)
{
    PlumbCliFault ignored;
    PlumbSetup setup = vary->request->setup;
    vary->index[0] = i;
    vary->index[1] = j;
    plumb_request_at(vary->request, vary->index, &vary->lifter, &setup, &ignored);
    plumb_solved_solve(&vary->lifter, &setup, &vary->solved);
    vary->held_count += plumb_solved_outcome(&vary->solved) != PLUMB_NO_POSE;
}

static double axis_value(const Vary *vary, int axis)
{
    return plumb_axis_value(&vary->request->axis[axis], vary->index[axis]);
}

/* Figures of the list, in order of importance; -1 ends it. */
static const PlumbCliColumn stand_columns[] = {
    {PLUMB_OUT_travel, "bar travel"},     {PLUMB_OUT_hip_arm, "hip arm"},
    {PLUMB_OUT_balance, "balance"},       {PLUMB_OUT_back_angle, "back"},
    {PLUMB_OUT_hip_height, "hip height"}, {PLUMB_OUT_shin_angle, "shin"},
    {PLUMB_OUT_hip_moment, "hip moment"}, {-1, NULL},
};
static const PlumbCliColumn press_columns[] = {
    {PLUMB_PRESS_OUT_touch, "touch"},
    {PLUMB_PRESS_OUT_travel, "travel"},
    {PLUMB_PRESS_OUT_front_arm, "front arm"},
    {PLUMB_PRESS_OUT_side_arm, "side arm"},
    {PLUMB_PRESS_OUT_elbow_arm, "elbow arm"},
    {PLUMB_PRESS_OUT_adduction_moment, "adduction"},
    {PLUMB_PRESS_OUT_flexion_moment, "flexion"},
    {PLUMB_PRESS_OUT_elbow_moment, "elbow"},
    {PLUMB_PRESS_OUT_upper_arm, "upper arm"},
    {-1, NULL},
};

static bool is_press(const Vary *vary)
{
    return vary->request->lift == PLUMB_BENCH;
}

static const PlumbCliColumn *columns_of(const Vary *vary)
{
    return is_press(vary) ? press_columns : stand_columns;
}

static const char *outcome_word(const PlumbSolved *solved)
{
    const bool press = solved->lift == PLUMB_BENCH;
    switch (plumb_solved_outcome(solved)) {
    case PLUMB_NO_POSE:
        return "no pose";
    case PLUMB_OUTSIDE_WINDOW:
    case PLUMB_HELD:
        break;
    }
    if (press && !solved->press.grip_rule_met) {
        return "grip rule";
    }
    if (press && !solved->press.elbow_rule_met) {
        return "elbow rule";
    }
    return plumb_solved_outcome(solved) == PLUMB_HELD ? "held"
           : press                                    ? "past a limit"
                                                      : "outside window";
}

static void list_head(const Vary *vary, PlumbCliTable *table)
{
    plumb_table_head(table, vary->request->axis[0].key, vary->request->axis[0].quantity);
    if (is_press(vary)) {
        plumb_table_text(table, "of shoulders");
    }
    plumb_table_text(table, "outcome");
    for (const PlumbCliColumn *c = columns_of(vary); c->words != NULL; c++) {
        plumb_table_head(table, c->words,
                         plumb_lift_output_quantity(vary->request->lift, c->output));
    }
}

static void list_row(const Vary *vary, PlumbCliTable *table)
{
    const PlumbSolved *const solved = &vary->solved;
    plumb_table_bare(table, axis_value(vary, 0), vary->request->axis[0].quantity);
    if (is_press(vary)) {
        plumb_table_value(
            table, solved->press.setup.grip_m / plumb_press_shoulder_breadth_m(&vary->lifter),
            PLUMB_Q_SHARE);
    }
    plumb_table_text(table, outcome_word(solved));
    if (plumb_solved_outcome(solved) == PLUMB_NO_POSE) {
        plumb_table_row_end(table);
        return;
    }
    for (const PlumbCliColumn *c = columns_of(vary); c->words != NULL; c++) {
        plumb_table_bare(table, plumb_solved_value(solved, c->output),
                         plumb_lift_output_quantity(solved->lift, c->output));
    }
}

static void print_list(Vary *vary, PlumbCliOutput *out)
{
    PlumbCliTable table =
        plumb_table_begin(is_press(vary) ? "rrlrrrrrrrrr" : "rlrrrrrrr", vary->units);
    list_head(vary, &table);
    for (int i = 0; i < axis_count(vary, 0); i++) {
        solve(vary, i, 0);
        list_row(vary, &table);
    }
    plumb_table_end(&table, 0, out);
    if (is_press(vary)) {
        plumb_output_string(out, "\n");
        plumb_print_wrapped(
            out,
            "At the touch, each arm. Of shoulders: grip as a share of the spacing of the shoulder "
            "joints. Arms of the bar: about the shoulder from the head end (front) and from the "
            "side, about the elbow in the arm's plane. Upper arm from the trunk.",
            0);
    }
}

static int travel_of(const Vary *vary)
{
    return is_press(vary) ? (int)PLUMB_PRESS_OUT_travel : (int)PLUMB_OUT_travel;
}

static void matrix_cell(const Vary *vary, PlumbCliTable *table)
{
    const double travel_m = plumb_solved_value(&vary->solved, travel_of(vary));
    const bool outside = plumb_solved_outcome(&vary->solved) == PLUMB_OUTSIDE_WINDOW;
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (!isfinite(travel_m)) {
        plumb_text_string(&text, "-");
    } else {
        plumb_text_string(&text, outside ? "*" : "");
        plumb_text_fixed(&text, travel_m * plumb_quantity_factor(PLUMB_Q_LENGTH, vary->units),
                         plumb_quantity_decimals(PLUMB_Q_LENGTH, vary->units));
    }
    plumb_table_text(table, cell);
}

/* Rows of the first range, columns of the second, bar travel in the cells. */
static void print_matrix(Vary *vary, PlumbCliOutput *out)
{
    const PlumbCliAxis *const axis = vary->request->axis;
    char align[PLUMB_AXIS_POINTS_MAX + 2];
    const size_t columns = (size_t)axis_count(vary, 1) + 1;
    memset(align, 'r', columns);
    align[columns] = '\0';
    PlumbCliTable table = plumb_table_begin(align, vary->units);
    plumb_table_head(&table, axis[0].key, axis[0].quantity);
    for (int j = 0; j < axis_count(vary, 1); j++) {
        plumb_table_bare(&table, plumb_axis_value(&axis[1], j), axis[1].quantity);
    }
    for (int i = 0; i < axis_count(vary, 0); i++) {
        plumb_table_bare(&table, plumb_axis_value(&axis[0], i), axis[0].quantity);
        for (int j = 0; j < axis_count(vary, 1); j++) {
            solve(vary, i, j);
            matrix_cell(vary, &table);
        }
    }
    char line[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Bar travel [");
    plumb_text_string(&text, plumb_quantity_unit(PLUMB_Q_LENGTH, vary->units));
    plumb_text_string(&text, "]; down: ");
    plumb_text_string(&text, axis[0].key);
    plumb_text_string(&text, ", across: ");
    plumb_text_string(&text, axis[1].key);
    plumb_text_string(&text, " [");
    plumb_text_string(&text, plumb_quantity_unit(axis[1].quantity, vary->units));
    plumb_text_string(&text, is_press(vary) ? "]; * past a limit of the arm, - no pose"
                                            : "]; * outside the window, - no pose");
    plumb_print_wrapped(out, line, 0);
    plumb_output_string(out, "\n");
    plumb_table_end(&table, 0, out);
}

static void print_text(Vary *vary, PlumbCliOutput *out)
{
    if (vary->request->axis_count == 2) {
        print_matrix(vary, out);
    } else {
        print_list(vary, out);
    }
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static void json_cell(const Vary *vary, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    const PlumbJson varied = plumb_json_object(json, "varied");
    for (int i = 0; i < vary->request->axis_count; i++) {
        plumb_json_number(varied, vary->request->axis[i].json_key, axis_value(vary, i));
    }
    plumb_solved_json(json, &vary->lifter, &vary->solved);
    plumb_json_print(json, 0, out);
}

static void csv_head(const Vary *vary, PlumbCsv *csv)
{
    for (int i = 0; i < vary->request->axis_count; i++) {
        char cell[PLUMB_AXIS_KEY_SIZE + CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_text_string(&text, "varied_");
        plumb_text_string(&text, vary->request->axis[i].json_key);
        plumb_csv_text(csv, cell);
    }
    plumb_solved_csv_head(csv, vary->request->lift);
    plumb_csv_row_end(csv);
}

static void csv_cell(const Vary *vary, PlumbCsv *csv)
{
    for (int i = 0; i < vary->request->axis_count; i++) {
        plumb_csv_number(csv, axis_value(vary, i));
    }
    plumb_solved_csv(csv, &vary->lifter, &vary->solved);
    plumb_csv_row_end(csv);
}

static void print_cells(Vary *vary, bool as_json, PlumbCliOutput *out)
{
    PlumbCsv csv = {.out = out};
    if (as_json) {
        plumb_output_string(out, "[");
    } else {
        csv_head(vary, &csv);
    }
    for (int i = 0; i < axis_count(vary, 0) && out->status == PLUMB_OK; i++) {
        for (int j = 0; j < axis_count(vary, 1) && out->status == PLUMB_OK; j++) {
            solve(vary, i, j);
            if (as_json) {
                plumb_output_string(out, i + j > 0 ? ",\n" : "\n");
                json_cell(vary, out);
            } else {
                csv_cell(vary, &csv);
            }
        }
    }
    plumb_output_string(out, as_json ? "\n]\n" : "");
}

/* From the spacing of the shoulder joints to the rule's limit. */
static void vary_grip(PlumbCliRequest *request)
{
    const PlumbSetting *const grip = plumb_setting(PLUMB_SET_grip);
    PlumbCliAxis *const axis = &request->axis[request->axis_count++];
    *axis = (PlumbCliAxis){
        .quantity = grip->quantity,
        .offset = grip->offset,
        .setting = grip->id,
        .from_si = fmax(grip->min_si, plumb_press_shoulder_breadth_m(&request->lifter)),
        .to_si = plumb_press_grip_most_m(),
        .count = GRIP_POINTS,
    };
    PlumbText key = plumb_text_begin(axis->key, sizeof axis->key);
    plumb_text_string(&key, grip->key);
    PlumbText json_key = plumb_text_begin(axis->json_key, sizeof axis->json_key);
    plumb_text_string(&json_key, grip->json_key);
}

PlumbCliExit plumb_cli_vary(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliRequest request;
    PlumbStatus status = plumb_request_read(
        args->word, args->word_count,
        PLUMB_REQUEST_SETUP | PLUMB_REQUEST_AXES | PLUMB_REQUEST_BENCH, &request, fault);
    if (status == PLUMB_OK && request.lift == PLUMB_BENCH && request.axis_count == 0) {
        vary_grip(&request);
    }
    if (status == PLUMB_OK && request.axis_count == 0) {
        status = plumb_fault_bad(fault, "range", "nothing varies; write KEY=FROM..TO/N, as in ",
                                 "stance=30..60cm/7", "");
    }
    Vary vary = {.request = &request, .units = args->units};
    if (status == PLUMB_OK) {
        status = check(&vary, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json || args->csv) {
        print_cells(&vary, args->json, &out);
    } else {
        print_text(&vary, &out);
    }
    return plumb_cli_finish(&out, vary.held_count > 0 ? PLUMB_EXIT_ANSWERED : PLUMB_EXIT_NO_POSE,
                            fault);
}
