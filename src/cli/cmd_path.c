/* SPDX-License-Identifier: MIT */
/* plumbar path: the lift from start to end in equal steps. */
#include "command.h"
#include "csv_out.h"
#include "json_out.h"
#include "motion_out.h"
#include "path_sure.h"
#include "press_out.h"
#include "report.h"
#include "request.h"
#include "text_out.h"

#include <plumbar/scene.h>

#include <math.h>
#include <stdlib.h>

enum { LINE_SIZE = 256 };

/* A lift followed: the answer it starts from, its steps (count 0 where it has no start or no end)
 * and its facts. */
typedef struct Path {
    const PlumbCliRequest *request;
    PlumbAnswer answer;
    PlumbPathPoint *point;
    int count;
    PlumbPathFacts facts;
    PlumbCliPathSure sure;
} Path;

static void table_head(PlumbLift lift, PlumbCliTable *table)
{
    plumb_table_text(table, "u");
    plumb_path_sure_heads(lift, table);
}

static void table_row(PlumbCliTable *table, const PlumbPathPoint *point)
{
    static const PlumbJoint joint[] = {PLUMB_JOINT_hip, PLUMB_JOINT_back, PLUMB_JOINT_knee,
                                       PLUMB_JOINT_ankle};
    const PlumbPosition *const position = &point->position;
    plumb_table_bare(table, point->u, PLUMB_Q_NUMBER);
    if (!point->held) {
        plumb_table_text(table, "no pose");
        plumb_table_row_end(table);
        return;
    }
    plumb_table_bare(table, position->point[PLUMB_PT_bar].y, PLUMB_Q_LENGTH);
    plumb_table_bare(table, position->point[PLUMB_PT_bar].x, PLUMB_Q_LENGTH);
    plumb_table_bare(table, position->pose.hip_height_m, PLUMB_Q_LENGTH);
    plumb_table_bare(table, position->angle_rad[PLUMB_ANG_back], PLUMB_Q_ANGLE);
    plumb_table_bare(table, position->angle_rad[PLUMB_ANG_knee_flexion], PLUMB_Q_ANGLE);
    plumb_table_bare(table, position->balance_frac, PLUMB_Q_FRACTION);
    for (size_t i = 0; i < sizeof joint / sizeof joint[0]; i++) {
        plumb_table_bare(table, position->moment_both_n_m[joint[i]], PLUMB_Q_MOMENT);
    }
}

static void fact(const Path *path, PlumbCliTable *table, const char *words, double value,
                 PlumbQuantity quantity, int id)
{
    plumb_table_text(table, words);
    plumb_table_value(table, value, quantity);
    plumb_path_sure_cell(&path->sure, id, quantity, table);
}

static void print_facts(const Path *path, PlumbUnits units, PlumbCliOutput *out)
{
    const bool pull = path->answer.setup.lift == PLUMB_DEADLIFT;
    const PlumbPathFacts *const facts = &path->facts;
    PlumbCliTable table = plumb_table_begin("lrr", units);
    fact(path, &table, "bar travel", path->answer.travel_m, PLUMB_Q_LENGTH, PLUMB_FACT_travel);
    fact(path, &table, "back angle changes by", facts->back_change_rad, PLUMB_Q_ANGLE,
         PLUMB_FACT_back_change);
    fact(path, &table, "bar moves forward and back by", facts->bar_spread_m, PLUMB_Q_LENGTH,
         PLUMB_FACT_bar_spread);
    if (pull) {
        fact(path, &table, "bar at the knee at u", facts->knee_pass_u, PLUMB_Q_FRACTION,
             PLUMB_FACT_knee_pass_u);
        fact(path, &table, "shin pushes the bar ahead by", facts->bar_shift_max_m, PLUMB_Q_LENGTH,
             PLUMB_FACT_bar_shift_max);
    }
    plumb_print_heading(out, pull ? "Facts (back angle: until the bar passes the knee)" : "Facts");
    plumb_table_end(&table, 2, out);
    PlumbCliTable peaks = plumb_table_begin("lrrr", units);
    plumb_table_text(&peaks, "joint");
    plumb_table_text(&peaks, "greatest moment");
    plumb_table_text(&peaks, path->sure.count > 0 ? "±" : "");
    plumb_table_text(&peaks, "at u");
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        plumb_table_text(&peaks, plumb_joint_name((PlumbJoint)i));
        plumb_table_value(&peaks, facts->peak_moment_n_m[i], PLUMB_Q_MOMENT);
        plumb_path_sure_cell(&path->sure, (int)PLUMB_FACT_peak_ankle_moment + i, PLUMB_Q_MOMENT,
                             &peaks);
        plumb_table_bare(&peaks, facts->peak_u[i], PLUMB_Q_FRACTION);
    }
    plumb_output_string(out, "\n");
    plumb_table_end(&peaks, 2, out);
}

static void print_text(const Path *path, PlumbUnits units, PlumbCliOutput *out)
{
    const bool pull = path->answer.setup.lift == PLUMB_DEADLIFT;
    const PlumbReport report = {path->request, &path->request->lifter, &path->answer, units, NULL};
    plumb_report_head(&report, out);
    if (path->count == 0) {
        plumb_output_string(out, "\nThere is no path: ");
        plumb_output_string(out, path->answer.outcome == PLUMB_NO_POSE ? "nothing to start from\n"
                                                                       : "nowhere to end\n");
        plumb_report_findings(&report, out);
        return;
    }
    PlumbCliTable table = plumb_table_begin("rrrrrrrrrrr", units);
    table_head(path->answer.setup.lift, &table);
    for (int i = 0; i < path->count; i++) {
        table_row(&table, &path->point[i]);
    }
    plumb_print_heading(out, pull ? "From the floor (u 0) to the lockout (u 1)"
                                  : "From standing (u 0) to the hole (u 1)");
    plumb_table_end(&table, 2, out);
    plumb_output_string(out, "  Net moments of both sides together. The path is a model, not a "
                             "measurement.\n");
    print_facts(path, units, out);
    plumb_path_sure_print(&path->sure, units, out);
    plumb_report_findings(&report, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static void put_facts(PlumbJson json, const PlumbPathFacts *facts)
{
    const PlumbJson object = plumb_json_object(json, "path_facts");
    plumb_json_bool(object, "held", facts->held);
    plumb_json_number(object, "knee_pass_u_frac", facts->knee_pass_u);
    plumb_json_number(object, "back_change_rad", facts->back_change_rad);
    plumb_json_number(object, "bar_spread_m", facts->bar_spread_m);
    plumb_json_number(object, "bar_shift_max_m", facts->bar_shift_max_m);
    const PlumbJson peak = plumb_json_object(object, "peak_moments_both_n_m");
    const PlumbJson peak_u = plumb_json_object(object, "peak_u_frac");
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        plumb_json_number(peak, plumb_joint_name((PlumbJoint)i), facts->peak_moment_n_m[i]);
        plumb_json_number(peak_u, plumb_joint_name((PlumbJoint)i), facts->peak_u[i]);
    }
}

/* Every element is a full answer. Without a path the one element is the set-up's own. */
static void print_json(const Path *path, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson body = plumb_json_begin(&failed);
    const PlumbJson gym = plumb_json_begin(&failed);
    plumb_json_body(body, &path->request->lifter.body);
    plumb_json_lifter(gym, &path->request->lifter);
    const PlumbJsonFrame frame = {body.object, gym.object};
    plumb_output_string(out, "[");
    for (int i = 0; i < path->count || i == 0; i++) {
        const PlumbJson json = plumb_json_begin(&failed);
        plumb_json_answer(json, &path->answer, &frame, path->count > 0 ? &path->point[i] : NULL);
        if (path->count > 0) {
            put_facts(json, &path->facts);
            plumb_path_sure_json(&path->sure, i, json);
        }
        plumb_output_string(out, i > 0 ? ",\n" : "\n");
        plumb_json_print(json, 0, out);
    }
    plumb_output_string(out, "\n]\n");
    json_decref(body.object);
    json_decref(gym.object);
}

static void print_csv(const Path *path, PlumbCliOutput *out)
{
    const PlumbLift lift = path->answer.setup.lift;
    PlumbCsv csv = {.out = out};
    plumb_csv_text(&csv, "u_frac");
    plumb_csv_text(&csv, "outcome");
    plumb_csv_text(&csv, "bar_height_m");
    plumb_csv_text(&csv, "bar_x_m");
    plumb_csv_text(&csv, "bar_shift_m");
    plumb_csv_position_head(&csv);
    plumb_path_sure_csv_head(&csv, lift);
    plumb_csv_row_end(&csv);
    for (int i = 0; i < path->count; i++) {
        const PlumbPathPoint *const point = &path->point[i];
        const PlumbOutcome outcome = point->held ? path->answer.outcome : PLUMB_NO_POSE;
        plumb_csv_number(&csv, point->u);
        plumb_csv_text(&csv, plumb_outcome_name(outcome));
        plumb_csv_number(&csv, point->position.point[PLUMB_PT_bar].y);
        plumb_csv_number(&csv, point->position.point[PLUMB_PT_bar].x);
        plumb_csv_number(&csv, point->bar_shift_m);
        plumb_csv_position(&csv, &point->position, lift);
        plumb_path_sure_csv(&path->sure, i, &csv);
        plumb_csv_row_end(&csv);
    }
}

static PlumbCliExit print(const PlumbCliArgs *args, const Path *path, PlumbCliFault *fault)
{
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(path, &out);
    } else if (args->csv) {
        print_csv(path, &out);
    } else {
        print_text(path, args->units, &out);
    }
    const bool held = path->count > 0 && path->facts.held;
    return plumb_cli_finish(&out, held ? PLUMB_EXIT_ANSWERED : PLUMB_EXIT_NO_POSE, fault);
}

/* Where there is no path no bodies are drawn. */
static int sample_count(const PlumbCliArgs *args, const Path *path)
{
    enum { DEFAULT = 400 };
    if (path->count == 0) {
        return 0;
    }
    return args->samples < 0 ? DEFAULT : args->samples;
}

PlumbCliExit plumb_cli_path(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliRequest request;
    const PlumbStatus status = plumb_request_read(
        args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH, &request, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    if (request.lift == PLUMB_BENCH) {
        return args->given[PLUMB_OPT_TIME] ? plumb_press_motion_run(args, &request, fault)
                                           : plumb_press_path_run(args, &request, fault);
    }
    if (args->given[PLUMB_OPT_TIME]) {
        return plumb_cli_motion(args, &request, fault);
    }
    Path path = {.request = &request};
    path.point = calloc((size_t)args->points, sizeof *path.point);
    if (path.point == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "path", "no memory for so many points"));
    }
    plumb_answer_solve(&request.lifter, &request.setup, &path.answer);
    if (path.answer.outcome != PLUMB_NO_POSE &&
        plumb_path_solve(&request.lifter, &path.answer, args->points, path.point, &path.facts)) {
        path.count = args->points;
    }
    const PlumbStatus taken =
        plumb_path_sure_take(args, &request, sample_count(args, &path), &path.sure, fault);
    const PlumbCliExit code =
        taken == PLUMB_OK ? print(args, &path, fault) : plumb_fault_exit(taken);
    plumb_path_sure_drop(&path.sure);
    free(path.point);
    return code;
}
