/* SPDX-License-Identifier: MIT */
/* The command vary on a bench press; without a range it shows what the grip does. */
#include "command.h"
#include "press_out.h"

#include <plumbar/scene.h>

#include <math.h>
#include <string.h>

enum { CELL_SIZE = 64, GRIP_POINTS = 10 };

/* A grid under way, one cell at a time. */
typedef struct Vary {
    const PlumbCliRequest *request;
    PlumbUnits units;
    int index[PLUMB_AXES_MAX];
    PlumbLifter lifter;
    PlumbPressAnswer answer;
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

static void solve(Vary *vary, int i, int j)
{
    PlumbCliFault ignored;
    PlumbSetup setup = vary->request->setup;
    vary->index[0] = i;
    vary->index[1] = j;
    plumb_request_at(vary->request, vary->index, &vary->lifter, &setup, &ignored);
    plumb_press_solve(&vary->lifter, &setup, &vary->answer);
    vary->held_count += vary->answer.outcome != PLUMB_NO_POSE;
}

static double axis_value(const Vary *vary, int axis)
{
    return plumb_axis_value(&vary->request->axis[axis], vary->index[axis]);
}

static const char *outcome_word(const PlumbPressAnswer *answer)
{
    if (answer->outcome == PLUMB_NO_POSE) {
        return "no pose";
    }
    if (!answer->grip_rule_met || !answer->elbow_rule_met) {
        return answer->grip_rule_met ? "elbow rule" : "grip rule";
    }
    return answer->outcome == PLUMB_HELD ? "held" : "past a limit";
}

static void list_head(const Vary *vary, PlumbCliTable *table)
{
    plumb_table_head(table, vary->request->axis[0].key, vary->request->axis[0].quantity);
    plumb_table_text(table, "of shoulders");
    plumb_table_text(table, "outcome");
    plumb_table_head(table, "touch", PLUMB_Q_LENGTH);
    plumb_table_head(table, "travel", PLUMB_Q_LENGTH);
    plumb_table_head(table, "front arm", PLUMB_Q_LENGTH);
    plumb_table_head(table, "side arm", PLUMB_Q_LENGTH);
    plumb_table_head(table, "elbow arm", PLUMB_Q_LENGTH);
    plumb_table_head(table, "adduction", PLUMB_Q_MOMENT);
    plumb_table_head(table, "flexion", PLUMB_Q_MOMENT);
    plumb_table_head(table, "elbow", PLUMB_Q_MOMENT);
    plumb_table_head(table, "upper arm", PLUMB_Q_ANGLE);
}

static void list_row(const Vary *vary, PlumbCliTable *table)
{
    const PlumbPressAnswer *const answer = &vary->answer;
    const PlumbPressPosition *const touch = &answer->touch;
    plumb_table_bare(table, axis_value(vary, 0), vary->request->axis[0].quantity);
    plumb_table_value(table, answer->setup.grip_m / plumb_press_shoulder_breadth_m(&vary->lifter),
                      PLUMB_Q_SHARE);
    plumb_table_text(table, outcome_word(answer));
    if (answer->outcome == PLUMB_NO_POSE) {
        plumb_table_row_end(table);
        return;
    }
    plumb_table_bare(table, answer->setup.touch_m, PLUMB_Q_LENGTH);
    plumb_table_bare(table, answer->travel_m, PLUMB_Q_LENGTH);
    plumb_table_bare(table, touch->bar_arm_m[PLUMB_PRESS_ARM_shoulder_frontal], PLUMB_Q_LENGTH);
    plumb_table_bare(table, touch->bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal], PLUMB_Q_LENGTH);
    plumb_table_bare(table, touch->bar_arm_m[PLUMB_PRESS_ARM_elbow], PLUMB_Q_LENGTH);
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        plumb_table_bare(table, touch->moment_n_m[i], PLUMB_Q_MOMENT);
    }
    plumb_table_bare(table, touch->angle_rad[PLUMB_PRESS_ANG_abduction], PLUMB_Q_ANGLE);
}

static void print_list(Vary *vary, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("rrlrrrrrrrrr", vary->units);
    list_head(vary, &table);
    for (int i = 0; i < axis_count(vary, 0); i++) {
        solve(vary, i, 0);
        list_row(vary, &table);
    }
    plumb_table_end(&table, 0, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out,
                        "At the touch, each arm. Of shoulders: grip as a share of the spacing of "
                        "the shoulder joints. Arms of the bar: about the shoulder from the head "
                        "end (front) and from the side, about the elbow in the arm's plane. Upper "
                        "arm from the trunk.",
                        0);
}

static void matrix_cell(const Vary *vary, PlumbCliTable *table)
{
    const PlumbPressAnswer *const answer = &vary->answer;
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (answer->outcome == PLUMB_NO_POSE) {
        plumb_text_string(&text, "-");
    } else {
        plumb_text_string(&text, answer->outcome == PLUMB_OUTSIDE_WINDOW ? "*" : "");
        plumb_text_fixed(&text,
                         answer->travel_m * plumb_quantity_factor(PLUMB_Q_LENGTH, vary->units),
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
    plumb_text_string(&text, "; * past a limit of the arm, - no pose");
    plumb_print_wrapped(out, line, 0);
    plumb_output_string(out, "\n");
    plumb_table_end(&table, 0, out);
}

static void json_cell(const Vary *vary, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson body = plumb_json_begin(&failed);
    const PlumbJson gym = plumb_json_begin(&failed);
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_body(body, &vary->lifter.body);
    plumb_json_lifter(gym, &vary->lifter);
    const PlumbJsonFrame frame = {body.object, gym.object};
    const PlumbJson varied = plumb_json_object(json, "varied");
    for (int i = 0; i < vary->request->axis_count; i++) {
        plumb_json_number(varied, vary->request->axis[i].json_key, axis_value(vary, i));
    }
    plumb_press_json(json, &vary->lifter, &vary->answer, &frame, NULL);
    json_decref(body.object);
    json_decref(gym.object);
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
    plumb_press_csv_answer_head(csv);
    plumb_press_csv_position_head(csv);
    plumb_csv_row_end(csv);
}

static void csv_cell(const Vary *vary, PlumbCsv *csv)
{
    for (int i = 0; i < vary->request->axis_count; i++) {
        plumb_csv_number(csv, axis_value(vary, i));
    }
    plumb_press_csv_answer(csv, &vary->lifter, &vary->answer);
    plumb_press_csv_position(csv, &vary->answer.touch);
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

PlumbCliExit plumb_press_vary_run(const PlumbCliArgs *args, PlumbCliRequest *request,
                                  PlumbCliFault *fault)
{
    if (request->axis_count == 0) {
        vary_grip(request);
    }
    Vary vary = {.request = request, .units = args->units};
    const PlumbStatus status = check(&vary, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json || args->csv) {
        print_cells(&vary, args->json, &out);
    } else {
        if (request->axis_count == 2) {
            print_matrix(&vary, &out);
        } else {
            print_list(&vary, &out);
        }
        plumb_output_string(&out, "\n");
        plumb_print_wrapped(&out, plumb_caution_line(), 0);
    }
    return plumb_cli_finish(&out, vary.held_count > 0 ? PLUMB_EXIT_ANSWERED : PLUMB_EXIT_NO_POSE,
                            fault);
}
