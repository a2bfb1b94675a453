/* SPDX-License-Identifier: MIT */
/* The commands setup and path on a bench press. */
#include "command.h"
#include "press_out.h"
#include "report.h"

#include <plumbar/scene.h>

static void print_json(const PlumbCliRequest *request, const PlumbPressAnswer *answer,
                       const PlumbPressPosition *at, const PlumbPressIntervals *intervals,
                       size_t indent, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    const PlumbJson body = plumb_json_begin(&failed);
    const PlumbJson gym = plumb_json_begin(&failed);
    plumb_json_body(body, &request->lifter.body);
    plumb_json_lifter(gym, &request->lifter);
    const PlumbJsonFrame frame = {body.object, gym.object};
    plumb_press_json(json, &request->lifter, answer, &frame, at);
    if (at == NULL) {
        plumb_press_json_intervals(json, intervals);
    }
    json_decref(body.object);
    json_decref(gym.object);
    plumb_json_print(json, indent, out);
}

static PlumbCliExit exit_of(const PlumbPressAnswer *answer)
{
    return answer->outcome == PLUMB_NO_POSE ? PLUMB_EXIT_NO_POSE : PLUMB_EXIT_ANSWERED;
}

/* As many as the other lifts draw. */
static int sample_count(const PlumbCliArgs *args)
{
    enum { DEFAULT = 2000 };
    return args->samples < 0 ? DEFAULT : args->samples;
}

PlumbCliExit plumb_press_setup_run(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                   PlumbCliFault *fault)
{
    PlumbPressAnswer answer;
    PlumbPressIntervals intervals;
    plumb_press_solve(&request->lifter, &request->setup, &answer);
    const int count = sample_count(args);
    if (count > 0 && !plumb_press_intervals_take(args, request, count, &intervals)) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "--samples", "no memory for so many"));
    }
    const PlumbPressIntervals *const sure = count > 0 ? &intervals : NULL;
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(request, &answer, NULL, sure, 1, &out);
        plumb_output_string(&out, "\n");
    } else if (args->csv) {
        PlumbCsv csv = {.out = &out};
        plumb_press_csv_answer_head(&csv);
        plumb_press_csv_position_head(&csv);
        plumb_press_csv_intervals_head(&csv);
        plumb_csv_row_end(&csv);
        plumb_press_csv_answer(&csv, &request->lifter, &answer);
        plumb_press_csv_position(&csv, &answer.touch);
        plumb_press_csv_intervals(&csv, sure);
        plumb_csv_row_end(&csv);
    } else {
        const PlumbPressReport report = {request, &answer, args->units, sure};
        plumb_press_report(&report, &out);
    }
    return plumb_cli_finish(&out, exit_of(&answer), fault);
}

/* The instant of step i out of count, from the touch to the lockout. */
static PlumbPressPosition step_at(const PlumbCliRequest *request, const PlumbPressAnswer *answer,
                                  int i, int count)
{
    PlumbPressPosition position;
    plumb_press_at(&request->lifter, answer, (double)i / (count - 1), &position);
    return position;
}

static void path_json(const PlumbCliRequest *request, const PlumbPressAnswer *answer, int count,
                      PlumbCliOutput *out)
{
    plumb_output_string(out, "[");
    if (answer->outcome == PLUMB_NO_POSE) {
        plumb_output_string(out, "\n");
        print_json(request, answer, NULL, NULL, 0, out);
    }
    for (int i = 0; i < count && answer->outcome != PLUMB_NO_POSE; i++) {
        const PlumbPressPosition position = step_at(request, answer, i, count);
        plumb_output_string(out, i > 0 ? ",\n" : "\n");
        print_json(request, answer, &position, NULL, 0, out);
    }
    plumb_output_string(out, "\n]\n");
}

static void path_csv(const PlumbCliRequest *request, const PlumbPressAnswer *answer, int count,
                     PlumbCliOutput *out)
{
    PlumbCsv csv = {.out = out};
    plumb_csv_text(&csv, "rise_frac");
    plumb_csv_text(&csv, "outcome");
    plumb_press_csv_position_head(&csv);
    plumb_csv_row_end(&csv);
    for (int i = 0; i < count && answer->outcome != PLUMB_NO_POSE; i++) {
        const PlumbPressPosition position = step_at(request, answer, i, count);
        plumb_csv_number(&csv, position.rise_frac);
        plumb_csv_text(&csv, plumb_outcome_name(answer->outcome));
        plumb_press_csv_position(&csv, &position);
        plumb_csv_row_end(&csv);
    }
}

static void path_table(const PlumbCliRequest *request, const PlumbPressAnswer *answer, int count,
                       PlumbUnits units, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("rrrrrrrrrr", units);
    plumb_table_text(&table, "rise");
    plumb_table_head(&table, "bar height", PLUMB_Q_LENGTH);
    plumb_table_head(&table, "to the feet", PLUMB_Q_LENGTH);
    plumb_table_head(&table, "upper arm", PLUMB_Q_ANGLE);
    plumb_table_head(&table, "elbow", PLUMB_Q_ANGLE);
    plumb_table_head(&table, "forearm", PLUMB_Q_ANGLE);
    plumb_table_head(&table, "elbow arm", PLUMB_Q_LENGTH);
    plumb_table_head(&table, "adduction", PLUMB_Q_MOMENT);
    plumb_table_head(&table, "flexion", PLUMB_Q_MOMENT);
    plumb_table_head(&table, "elbow", PLUMB_Q_MOMENT);
    for (int i = 0; i < count; i++) {
        const PlumbPressPosition at = step_at(request, answer, i, count);
        plumb_table_bare(&table, at.rise_frac, PLUMB_Q_NUMBER);
        plumb_table_bare(&table, at.point[PLUMB_PRESS_bar].y, PLUMB_Q_LENGTH);
        plumb_table_bare(&table, at.point[PLUMB_PRESS_bar].x, PLUMB_Q_LENGTH);
        plumb_table_bare(&table, at.angle_rad[PLUMB_PRESS_ANG_abduction], PLUMB_Q_ANGLE);
        plumb_table_bare(&table, at.angle_rad[PLUMB_PRESS_ANG_elbow_flexion], PLUMB_Q_ANGLE);
        plumb_table_bare(&table, at.angle_rad[PLUMB_PRESS_ANG_forearm_front], PLUMB_Q_ANGLE);
        plumb_table_bare(&table, at.bar_arm_m[PLUMB_PRESS_ARM_elbow], PLUMB_Q_LENGTH);
        for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
            plumb_table_bare(&table, at.moment_n_m[j], PLUMB_Q_MOMENT);
        }
    }
    plumb_print_heading(out, "From the touch (rise 0) to the lockout (rise 1)");
    plumb_table_end(&table, 2, out);
    plumb_print_wrapped(out,
                        "  Upper arm from the trunk; forearm from upright seen from the head end; "
                        "net moments of each arm. The path is a model, not a measurement.",
                        2);
}

PlumbCliExit plumb_press_path_run(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                  PlumbCliFault *fault)
{
    PlumbPressAnswer answer;
    plumb_press_solve(&request->lifter, &request->setup, &answer);
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        path_json(request, &answer, args->points, &out);
    } else if (args->csv) {
        path_csv(request, &answer, args->points, &out);
    } else {
        const PlumbPressReport report = {request, &answer, args->units, NULL};
        plumb_press_report_head(&report, &out);
        if (answer.outcome != PLUMB_NO_POSE) {
            path_table(request, &answer, args->points, args->units, &out);
        }
        plumb_print_findings(answer.finding, answer.finding_count, args->units, &out);
        plumb_output_string(&out, "\n");
        plumb_print_wrapped(&out, plumb_caution_line(), 0);
    }
    return plumb_cli_finish(&out, exit_of(&answer), fault);
}
