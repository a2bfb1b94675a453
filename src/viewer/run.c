/* SPDX-License-Identifier: MIT */
/* One run of the window, from its options to an exit code. */
#include "viewer.h"

#include "book.h"
#include "form.h"
#include "journal.h"
#include "page_trace.h"
#include "script.h"
#include "stage.h"

#include <plumbar/file.h>

#include <cairo.h>
#include <fontconfig/fontconfig.h>

#include <stdio.h>
#include <stdlib.h>

enum { EXIT_CLOSED = 0, EXIT_BAD_INPUT = 2, EXIT_NOT_DONE = 3, SCRIPT_MAX_BYTES = 1 << 20 };

static int fail(const PlumbViewerOptions *options, const PlumbError *error)
{
    if (error->line > 0) {
        fprintf(stderr, "plumbar view: %s:%d: %s: %s\n", options->script_path, error->line,
                error->field, error->message);
    } else {
        fprintf(stderr, "plumbar view: %s\n", error->message);
    }
    return error->status == PLUMB_BAD_INPUT ? EXIT_BAD_INPUT : EXIT_NOT_DONE;
}

static int run_on(PlumbDesk *desk, const char *script)
{
    PlumbError error = {0};
    PlumbStage stage;
    if (plumb_stage_open(&stage, desk, script == NULL, &error) != PLUMB_OK) {
        return fail(desk->options, &error);
    }
    stage.states = script != NULL;
    plumb_book_stamp(desk, desk->now.path);
    if (desk->now.path[0] != '\0') {
        plumb_recent_add(desk, desk->now.path);
    }
    plumb_journal_open(desk);
    plumb_card_welcome(desk);
    if (desk->options->picture != NULL) {
        plumb_trace_open(desk, desk->options->picture);
    }
    const bool ok = script != NULL ? plumb_script_play(&stage, script, &error) == PLUMB_OK
                                   : plumb_stage_run(&stage, &error);
    plumb_journal_close(desk);
    plumb_stage_close(&stage);
    return ok ? EXIT_CLOSED : fail(desk->options, &error);
}

bool plumb_viewer_traces(const char *path)
{
    return plumb_trace_is_file(path);
}

int plumb_viewer_run(const PlumbViewerOptions *options)
{
    PlumbError error = {0};
    char *script = NULL;
    size_t length = 0;
    if (options->script_path != NULL &&
        plumb_file_read_whole(options->script_path, SCRIPT_MAX_BYTES, &script, &length, &error) !=
            PLUMB_OK) {
        fprintf(stderr, "plumbar view: %s: %s\n", options->script_path, error.message);
        return EXIT_NOT_DONE;
    }
    PlumbDesk *const desk = plumb_desk_create(options);
    int code = EXIT_NOT_DONE;
    if (desk == NULL) {
        fputs("plumbar view: out of memory\n", stderr);
    } else {
        code = run_on(desk, script);
    }
    plumb_desk_destroy(desk);
    free(script);
    /* What cairo and fontconfig keep for later is given back, so that nothing counts as leaked. */
    cairo_debug_reset_static_data();
    FcFini();
    return code;
}
