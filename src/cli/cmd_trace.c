/* SPDX-License-Identifier: MIT */
/* plumbar trace: a lift read from a picture and held against the model. */
#include "command.h"
#include "picture.h"
#include "trace_film.h"
#include "trace_still.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Puts the lengths that the pictures told of into the lifter file, each with its spread. */
static PlumbStatus save_body(const PlumbCliStill *still, PlumbCliFault *fault)
{
    const char *const path = still->request.path;
    PlumbLifterFile *file = NULL;
    if (path[0] == '\0') {
        return plumb_fault_bad(fault, "--save-body", "no lifter file is named to save into", "",
                               "");
    }
    fault->path[0] = '\0';
    PlumbStatus status = plumb_lifter_file_read(path, &file, &fault->error);
    for (int i = 0; status == PLUMB_OK && i < PLUMB_LENGTH_COUNT; i++) {
        if (!plumb_stills_told_length(&still->all, (PlumbLength)i)) {
            continue;
        }
        char value[64];
        PlumbText text = plumb_text_begin(value, sizeof value);
        plumb_text_fixed(&text, 100.0 * still->all.trace.body.mean_m[i], 1);
        plumb_text_string(&text, " cm ± ");
        plumb_text_fixed(&text, fmax(100.0 * sqrt(still->all.trace.body.cov_m2[i][i]), 0.1), 1);
        plumb_text_string(&text, " cm");
        status = plumb_lifter_file_set(file, "measures", plumb_length_name((PlumbLength)i), value,
                                       &fault->error);
    }
    if (status == PLUMB_OK) {
        status = plumb_lifter_file_save(file, NULL, &fault->error);
    } else {
        plumb_fault_in_file(fault, path);
    }
    plumb_lifter_file_free(file);
    return status;
}

static PlumbCliExit answer(const PlumbCliArgs *args, const PlumbCliStill *still,
                           PlumbCliFault *fault)
{
    PlumbPictureKind kind;
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        plumb_still_json(still, &out);
    } else if (args->output != NULL && plumb_picture_find(args->output, &kind)) {
        const PlumbStatus status = plumb_still_draw(still, args, &out, fault);
        if (status != PLUMB_OK) {
            plumb_output_drop(&out);
            return plumb_fault_exit(status);
        }
    } else {
        plumb_still_text(still, args->units, &out);
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

/* Text, data or drawing of a film. */
static PlumbCliExit answer_film(const PlumbCliArgs *args, const PlumbCliFilm *film,
                                PlumbCliFault *fault)
{
    PlumbPictureKind kind;
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        plumb_film_json(film, &out);
    } else if (args->csv) {
        plumb_film_csv(film, &out);
    } else if (args->output != NULL && plumb_picture_find(args->output, &kind)) {
        const PlumbStatus status = plumb_film_draw(film, args, &out, fault);
        if (status != PLUMB_OK) {
            plumb_output_drop(&out);
            return plumb_fault_exit(status);
        }
    } else {
        plumb_film_text(film, args->units, &out);
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

static PlumbCliExit trace_film(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliFilm *const film = calloc(1, sizeof *film);
    if (film == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "trace", "no memory for the film"));
    }
    const PlumbStatus status = plumb_film_read(args, film, fault);
    const PlumbCliExit code =
        status == PLUMB_OK ? answer_film(args, film, fault) : plumb_fault_exit(status);
    const bool stopped = film->stopped;
    if (stopped) {
        plumb_fault_print(fault);
    }
    plumb_film_free(film);
    return stopped ? PLUMB_EXIT_STOPPED : code;
}

PlumbCliExit plumb_cli_trace(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    if (args->word_count > 0 && strcmp(args->word[0], "film") == 0) {
        return trace_film(args, fault);
    }
    if (args->csv) {
        return plumb_fault_exit(plumb_fault_bad(fault, "--csv",
                                                "a still has no series; --json "
                                                "writes its figures",
                                                "", ""));
    }
    PlumbCliStill *const still = calloc(1, sizeof *still);
    if (still == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "trace", "no memory for the fit"));
    }
    PlumbStatus status = plumb_still_read(args, still, fault);
    if (status == PLUMB_OK && args->given[PLUMB_OPT_SAVE_BODY]) {
        status = save_body(still, fault);
    }
    const PlumbCliExit code =
        status == PLUMB_OK ? answer(args, still, fault) : plumb_fault_exit(status);
    free(still);
    return code;
}
