/* SPDX-License-Identifier: MIT */
/* plumbar try: what to try first, for an aim or a finding; options with reasons, no verdict. */
#include "command.h"
#include "try_out.h"

/* --knee, or a lead by which a lifter describes the own start. */
static PlumbStatus read_own_start(const PlumbCliArgs *args, PlumbCliTry *try, PlumbCliFault *fault)
{
    PlumbSetup *const setup = &try->request.setup;
    if (args->given[PLUMB_OPT_KNEE]) {
        fault->path[0] = '\0';
        const PlumbStatus status =
            plumb_own_knee(&try->request.lifter, setup, args->value[PLUMB_OPT_KNEE], &fault->error);
        if (status != PLUMB_OK) {
            PlumbText field = plumb_text_begin(fault->error.field, sizeof fault->error.field);
            plumb_text_string(&field, "--knee");
            return status;
        }
    }
    try->own_start =
        setup->lift == PLUMB_DEADLIFT &&
        (setup->lead == PLUMB_LEAD_HIP_HEIGHT || setup->lead == PLUMB_LEAD_BACK_ANGLE ||
         setup->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE);
    return PLUMB_OK;
}

PlumbCliExit plumb_cli_try(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    static PlumbCliTry try;
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH,
                           &try.request, fault);
    if (status == PLUMB_OK) {
        status = read_own_start(args, &try, fault);
    }
    if (status == PLUMB_OK) {
        try.units = args->units;
        plumb_solved_solve(&try.request.lifter, &try.request.setup, &try.solved);
        if (try.own_start) {
            plumb_own_start(&try.solved.pose, &try.own);
        }
        status = plumb_cli_goal(args, &try.solved, &try.goal, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    plumb_advice_rank(&try.request.lifter, &try.request.setup, &try.goal, try.units, try.option,
                      &try.advice);
    status = plumb_try_sure_take(args, &try.request, &try.advice, try.option, &try.sure, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        plumb_try_json(&try, &out);
    } else if (args->csv) {
        plumb_try_csv(&try, &out);
    } else {
        plumb_try_text(&try, &out);
    }
    plumb_try_sure_drop(&try.sure);
    const bool none = plumb_solved_outcome(&try.solved) == PLUMB_NO_POSE;
    return plumb_cli_finish(&out, none ? PLUMB_EXIT_NO_POSE : PLUMB_EXIT_ANSWERED, fault);
}
