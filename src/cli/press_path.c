/* SPDX-License-Identifier: MIT */
/* The command path on a bench press. */
#include "command.h"
#include "path_sure.h"
#include "press_out.h"
#include "report.h"

#include <plumbar/scene.h>

#include <math.h>

static PlumbJson answer_json(const PlumbCliRequest *request, const PlumbPressAnswer *answer,
                             const PlumbPressPosition *at, bool *failed)
{
    const PlumbJson json = plumb_json_begin(failed);
    const PlumbJson body = plumb_json_begin(failed);
    const PlumbJson gym = plumb_json_begin(failed);
    plumb_json_body(body, &request->lifter.body);
    plumb_json_lifter(gym, &request->lifter);
    const PlumbJsonFrame frame = {body.object, gym.object};
    plumb_press_json(json, &request->lifter, answer, &frame, at);
    json_decref(body.object);
    json_decref(gym.object);
    return json;
}

static PlumbCliExit exit_of(const PlumbPressAnswer *answer)
{
    return answer->outcome == PLUMB_NO_POSE ? PLUMB_EXIT_NO_POSE : PLUMB_EXIT_ANSWERED;
}

/* The instant of step i out of count, from the touch to the lockout. */
static PlumbPressPosition step_at(const PlumbCliRequest *request, const PlumbPressAnswer *answer,
                                  int i, int count)
{
    PlumbPressPosition position;
    plumb_press_at(&request->lifter, answer, (double)i / (count - 1), &position);
    return position;
}

static void path_json(const PlumbCliRequest *request, const PlumbPressAnswer *answer,
                      const PlumbCliPathSure *sure, PlumbCliOutput *out)
{
    bool failed = false;
    const bool held = answer->outcome != PLUMB_NO_POSE;
    plumb_output_string(out, "[");
    for (int i = 0; held ? i < sure->points : i == 0; i++) {
        PlumbPressPosition position;
        if (held) {
            position = step_at(request, answer, i, sure->points);
        }
        const PlumbJson json = answer_json(request, answer, held ? &position : NULL, &failed);
        plumb_path_sure_json(sure, i, json);
        plumb_output_string(out, i > 0 ? ",\n" : "\n");
        plumb_json_print(json, 0, out);
    }
    plumb_output_string(out, "\n]\n");
}

static void path_csv(const PlumbCliRequest *request, const PlumbPressAnswer *answer,
                     const PlumbCliPathSure *sure, PlumbCliOutput *out)
{
    PlumbCsv csv = {.out = out};
    plumb_csv_text(&csv, "rise_frac");
    plumb_csv_text(&csv, "outcome");
    plumb_press_csv_position_head(&csv);
    plumb_path_sure_csv_head(&csv, PLUMB_BENCH);
    plumb_csv_row_end(&csv);
    for (int i = 0; i < sure->points && answer->outcome != PLUMB_NO_POSE; i++) {
        const PlumbPressPosition position = step_at(request, answer, i, sure->points);
        plumb_csv_number(&csv, position.rise_frac);
        plumb_csv_text(&csv, plumb_outcome_name(answer->outcome));
        plumb_press_csv_position(&csv, &position);
        plumb_path_sure_csv(sure, i, &csv);
        plumb_csv_row_end(&csv);
    }
}

static void print_facts(const PlumbPressAnswer *answer, const PlumbCliPathSure *sure,
                        PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbSetup *const setup = &answer->setup;
    const struct {
        const char *words;
        double value_m;
        PlumbPressFact fact;
    } row[] = {
        {"bar travel", answer->travel_m, PLUMB_PRESS_FACT_travel},
        {"length of the bar's path", answer->path_m, PLUMB_PRESS_FACT_path_length},
        {"bar moves along the bench by", fabs(setup->touch_m - setup->lockout_over_m),
         PLUMB_PRESS_FACT_bar_spread},
    };
    PlumbCliTable table = plumb_table_begin("lrr", units);
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        plumb_table_text(&table, row[i].words);
        plumb_table_value(&table, row[i].value_m, PLUMB_Q_LENGTH);
        plumb_path_sure_cell(sure, (int)row[i].fact, PLUMB_Q_LENGTH, &table);
    }
    plumb_print_heading(out, "Facts");
    plumb_table_end(&table, 2, out);
}

static void path_table(const PlumbCliRequest *request, const PlumbPressAnswer *answer, int count,
                       PlumbUnits units, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("rrrrrrrrrr", units);
    plumb_table_text(&table, "rise");
    plumb_path_sure_heads(PLUMB_BENCH, &table);
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

/* As many as the paths of the other lifts; none where there is no path. */
static int path_count(const PlumbCliArgs *args, const PlumbPressAnswer *answer)
{
    enum { DEFAULT = 400 };
    if (answer->outcome == PLUMB_NO_POSE) {
        return 0;
    }
    return args->samples < 0 ? DEFAULT : args->samples;
}

PlumbCliExit plumb_press_path_run(const PlumbCliArgs *args, const PlumbCliRequest *request,
                                  PlumbCliFault *fault)
{
    PlumbPressAnswer answer;
    PlumbCliPathSure sure;
    plumb_press_solve(&request->lifter, &request->setup, &answer);
    const PlumbStatus taken =
        plumb_path_sure_take(args, request, path_count(args, &answer), &sure, fault);
    if (taken != PLUMB_OK) {
        return plumb_fault_exit(taken);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        path_json(request, &answer, &sure, &out);
    } else if (args->csv) {
        path_csv(request, &answer, &sure, &out);
    } else {
        const PlumbPressReport report = {request, &answer, args->units, NULL};
        plumb_press_report_head(&report, &out);
        if (answer.outcome != PLUMB_NO_POSE) {
            path_table(request, &answer, args->points, args->units, &out);
            print_facts(&answer, &sure, args->units, &out);
            plumb_path_sure_print(&sure, args->units, &out);
        }
        plumb_print_findings(answer.finding, answer.finding_count, args->units, &out);
        plumb_output_string(&out, "\n");
        plumb_print_wrapped(&out, plumb_caution_line(), 0);
    }
    plumb_path_sure_drop(&sure);
    return plumb_cli_finish(&out, exit_of(&answer), fault);
}
