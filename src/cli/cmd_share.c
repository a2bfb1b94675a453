/* SPDX-License-Identifier: MIT */
/* plumbar share: one HTML page that works offline with its rulers alive. */
#include "command.h"
#include "picture.h"
#include "request.h"

#include <plumbar/draw.h>
#include <plumbar/report.h>

#include <stdlib.h>

typedef struct Share {
    PlumbCliRequest inked;
    PlumbCliRequest pencil;
    PlumbSolved solved;
} Share;

static PlumbStatus read_share(const PlumbCliArgs *args, Share *share, PlumbCliFault *fault)
{
    const PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH,
                           &share->inked, fault);
    if (status != PLUMB_OK || args->pencil == NULL) {
        return status;
    }
    return plumb_request_read_pencil(&share->inked, args->pencil, &share->pencil, fault);
}

static PlumbStatus make_page(const PlumbCliArgs *args, const Share *share, PlumbBytes *bytes,
                             PlumbCliFault *fault)
{
    const bool pencilled = args->pencil != NULL;
    PlumbOrder order = plumb_order(&share->inked.record, pencilled ? &share->pencil.setup : NULL,
                                   &share->inked.setup);
    order.after_name = share->inked.setup_name;
    order.date = args->date;
    order.units = args->units;
    if (pencilled) {
        order.before_record = &share->pencil.record;
        const bool named = share->pencil.setup_name[0] != '\0';
        order.before_name = named ? share->pencil.setup_name : args->pencil;
    }
    return plumb_share_make(&order, bytes, &fault->error);
}

static PlumbCliExit run(const PlumbCliArgs *args, Share *share, PlumbCliFault *fault)
{
    PlumbBytes bytes = {.data = NULL};
    PlumbStatus status = plumb_picture_elsewhere(args->output, "page.html", fault);
    if (status == PLUMB_OK) {
        status = read_share(args, share, fault);
    }
    if (status == PLUMB_OK) {
        status = make_page(args, share, &bytes, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    plumb_output_bytes(&out, (const char *)bytes.data, bytes.length);
    plumb_bytes_free(&bytes);
    plumb_solved_solve(&share->inked.lifter, &share->inked.setup, &share->solved);
    const bool none = plumb_solved_outcome(&share->solved) == PLUMB_NO_POSE;
    return plumb_cli_finish(&out, none ? PLUMB_EXIT_NO_POSE : PLUMB_EXIT_ANSWERED, fault);
}

PlumbCliExit plumb_cli_share(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    Share *const share = calloc(1, sizeof *share);
    if (share == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "share", "no memory for the page"));
    }
    const PlumbCliExit code = run(args, share, fault);
    free(share);
    return code;
}
