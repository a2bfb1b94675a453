/* SPDX-License-Identifier: MIT */
/* plumbar setup: one position in balance, in full. */
#include "command.h"
#include "press_out.h"
#include "report.h"
#include "samples.h"
#include "solved_out.h"

static void print_text(const PlumbCliArgs *args, const PlumbCliRequest *request,
                       const PlumbSolved *solved, const PlumbCliSamples *samples,
                       PlumbCliOutput *out)
{
    if (solved->lift == PLUMB_BENCH) {
        const PlumbPressReport press = {request, &solved->press, args->units, samples};
        plumb_press_report(&press, out);
        return;
    }
    const PlumbReport report = {request, &request->lifter, &solved->pose, args->units, samples};
    plumb_report_head(&report, out);
    plumb_report_measure_first(&report, out);
    plumb_report_figures(&report, out);
    plumb_report_ranges(&report, out);
    plumb_report_findings(&report, out);
    plumb_report_sure(&report, out);
    plumb_report_basis(&report, out);
}

static void print_json(const PlumbCliRequest *request, const PlumbSolved *solved,
                       const PlumbCliSamples *samples, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_solved_json(json, &request->lifter, solved);
    plumb_json_intervals(json, samples, &request->record.spec, solved->lift);
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

static void print_csv(const PlumbCliRequest *request, const PlumbSolved *solved,
                      const PlumbCliSamples *samples, PlumbCliOutput *out)
{
    PlumbCsv csv = {.out = out};
    plumb_solved_csv_head(&csv, solved->lift);
    plumb_csv_intervals_head(&csv, solved->lift);
    plumb_csv_row_end(&csv);
    plumb_solved_csv(&csv, &request->lifter, solved);
    plumb_csv_intervals(&csv, samples->count > 0 ? &samples->intervals : NULL, solved->lift);
    plumb_csv_row_end(&csv);
}

/* Where no pose is held only the share of bodies that
 * have one is of interest, and each takes long. */
static int sample_count(const PlumbCliArgs *args, const PlumbSolved *solved)
{
    enum { DEFAULT = 2000, DEFAULT_NO_POSE = 200 };
    if (args->samples >= 0) {
        return args->samples;
    }
    return plumb_solved_outcome(solved) == PLUMB_NO_POSE ? DEFAULT_NO_POSE : DEFAULT;
}

PlumbCliExit plumb_cli_setup(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliRequest request;
    const PlumbStatus status = plumb_request_read(
        args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH, &request, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbSolved solved;
    PlumbCliSamples samples;
    plumb_solved_solve(&request.lifter, &request.setup, &solved);
    const PlumbStatus taken =
        plumb_samples_take(args, &request, sample_count(args, &solved), &samples, fault);
    if (taken != PLUMB_OK) {
        return plumb_fault_exit(taken);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(&request, &solved, &samples, &out);
    } else if (args->csv) {
        print_csv(&request, &solved, &samples, &out);
    } else {
        print_text(args, &request, &solved, &samples, &out);
    }
    plumb_samples_drop(&samples);
    const PlumbCliExit answered =
        plumb_solved_outcome(&solved) == PLUMB_NO_POSE ? PLUMB_EXIT_NO_POSE : PLUMB_EXIT_ANSWERED;
    return plumb_cli_finish(&out, answered, fault);
}
