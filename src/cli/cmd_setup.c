/* SPDX-License-Identifier: MIT */
/* plumbar setup: one position in balance, in full. */
#include "command.h"
#include "csv_out.h"
#include "json_out.h"
#include "press_out.h"
#include "report.h"
#include "request.h"
#include "samples.h"

static void print_text(const PlumbCliArgs *args, const PlumbCliRequest *request,
                       const PlumbAnswer *answer, const PlumbCliSamples *samples,
                       PlumbCliOutput *out)
{
    const PlumbReport report = {request, &request->lifter, answer, args->units, samples};
    plumb_report_head(&report, out);
    plumb_report_measure_first(&report, out);
    plumb_report_figures(&report, out);
    plumb_report_ranges(&report, out);
    plumb_report_findings(&report, out);
    plumb_report_sure(&report, out);
    plumb_report_basis(&report, out);
}

static void print_json(const PlumbCliRequest *request, const PlumbAnswer *answer,
                       const PlumbCliSamples *samples, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    const PlumbJson body = plumb_json_begin(&failed);
    const PlumbJson gym = plumb_json_begin(&failed);
    plumb_json_body(body, &request->lifter.body);
    plumb_json_lifter(gym, &request->lifter);
    const PlumbJsonFrame frame = {body.object, gym.object};
    plumb_json_answer(json, answer, &frame, NULL);
    plumb_json_intervals(json, samples, &request->record.spec, answer->setup.lift);
    json_decref(body.object);
    json_decref(gym.object);
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

static void print_csv(const PlumbAnswer *answer, const PlumbCliSamples *samples,
                      PlumbCliOutput *out)
{
    const PlumbLift lift = answer->setup.lift;
    PlumbCsv csv = {.out = out};
    plumb_csv_answer_head(&csv, lift);
    plumb_csv_position_head(&csv);
    plumb_csv_intervals_head(&csv, lift);
    plumb_csv_row_end(&csv);
    plumb_csv_answer(&csv, answer);
    plumb_csv_position(&csv, &answer->start, lift);
    plumb_csv_intervals(&csv, samples->count > 0 ? &samples->intervals : NULL, lift);
    plumb_csv_row_end(&csv);
}

/* Where no pose is held only the share of bodies that
 * have one is of interest, and each takes long. */
static int sample_count(const PlumbCliArgs *args, const PlumbAnswer *answer)
{
    enum { DEFAULT = 2000, DEFAULT_NO_POSE = 200 };
    if (args->samples >= 0) {
        return args->samples;
    }
    return answer->outcome == PLUMB_NO_POSE ? DEFAULT_NO_POSE : DEFAULT;
}

PlumbCliExit plumb_cli_setup(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliRequest request;
    const PlumbStatus status = plumb_request_read(
        args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH, &request, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    if (request.lift == PLUMB_BENCH) {
        return plumb_press_setup_run(args, &request, fault);
    }
    PlumbAnswer answer;
    PlumbCliSamples samples;
    plumb_answer_solve(&request.lifter, &request.setup, &answer);
    const PlumbStatus taken =
        plumb_samples_take(args, &request, sample_count(args, &answer), &samples, fault);
    if (taken != PLUMB_OK) {
        return plumb_fault_exit(taken);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(&request, &answer, &samples, &out);
    } else if (args->csv) {
        print_csv(&answer, &samples, &out);
    } else {
        print_text(args, &request, &answer, &samples, &out);
    }
    plumb_samples_drop(&samples);
    const PlumbCliExit answered =
        answer.outcome == PLUMB_NO_POSE ? PLUMB_EXIT_NO_POSE : PLUMB_EXIT_ANSWERED;
    return plumb_cli_finish(&out, answered, fault);
}
