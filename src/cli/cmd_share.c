/* SPDX-License-Identifier: MIT */
/* plumbar share: one HTML page that works offline with its rulers alive. */
#include "command.h"
#include "request.h"

#include <plumbar/draw.h>
#include <plumbar/report.h>

#include <stdlib.h>

typedef struct Share {
    PlumbCliRequest inked;
    PlumbAnswer inked_answer;
    PlumbCliRequest pencil;
    PlumbAnswer pencil_answer;
    PlumbFont *font;
} Share;

static PlumbStatus read_share(const PlumbCliArgs *args, Share *share, PlumbCliFault *fault)
{
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP, &share->inked, fault);
    if (status == PLUMB_OK && args->pencil != NULL) {
        status = plumb_request_read_pencil(&share->inked, args->pencil, &share->pencil, fault);
    }
    if (status != PLUMB_OK) {
        return status;
    }
    plumb_answer_solve(&share->inked.lifter, &share->inked.setup, &share->inked_answer);
    if (args->pencil != NULL) {
        plumb_answer_solve(&share->inked.lifter, &share->pencil.setup, &share->pencil_answer);
    }
    share->font = plumb_font_create();
    return share->font != NULL ? PLUMB_OK
                               : plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing",
                                                 "no memory for the typeface");
}

static PlumbStatus make_page(const PlumbCliArgs *args, const Share *share, PlumbBytes *bytes,
                             PlumbCliFault *fault)
{
    PlumbDrawing drawing = plumb_drawing_default(&share->inked.lifter, &share->inked_answer,
                                                 plumb_font_width, share->font);
    drawing.name = share->inked.record.name;
    drawing.setup_name = share->inked.setup_name;
    drawing.date = args->date;
    drawing.units = args->units;
    PlumbShareAsk ask = {
        .drawing = &drawing, .setup = &share->inked.setup, .program = "plumbar " PLUMB_VERSION};
    if (args->pencil != NULL) {
        const bool named = share->pencil.setup_name[0] != '\0';
        drawing.pencil = &share->pencil_answer;
        drawing.pencil_name = named ? share->pencil.setup_name : args->pencil;
        ask.pencil = &share->pencil.setup;
    }
    return plumb_share_page(&ask, bytes, &fault->error);
}

static PlumbCliExit run(const PlumbCliArgs *args, Share *share, PlumbCliFault *fault)
{
    PlumbBytes bytes = {.data = NULL};
    PlumbStatus status = read_share(args, share, fault);
    if (status == PLUMB_OK) {
        status = make_page(args, share, &bytes, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    plumb_output_bytes(&out, (const char *)bytes.data, bytes.length);
    plumb_bytes_free(&bytes);
    const bool none = share->inked_answer.outcome == PLUMB_NO_POSE;
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
    plumb_font_destroy(share->font);
    free(share);
    plumb_draw_finish();
    return code;
}
