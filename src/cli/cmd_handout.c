/* SPDX-License-Identifier: MIT */
/* plumbar handout: one page for the athlete, as PDF, PNG or SVG. */
#include "command.h"
#include "picture.h"
#include "request.h"

#include <plumbar/file.h>
#include <plumbar/report.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SAMPLES_DEFAULT = 400, DRILLS_BYTES_MAX = 1 << 20 };

/* before is drawn in pencil: the present set-up against a proposed one, or, looking back, that of a
 * day of the log against the present one. */
typedef struct Page {
    PlumbCliRequest before;
    PlumbAnswer before_answer;
    PlumbCliRequest after;
    PlumbAnswer after_answer;
    PlumbDrills drills;
    PlumbExplainSubject subject; /* of the student's page */
    PlumbExplanation explanation;
    PlumbWorking working;
    PlumbHandout handout;
    PlumbFont *font;
    PlumbScene scene;
} Page;

static PlumbStatus read_drills(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    const char *const path = args->value[PLUMB_OPT_DRILLS];
    if (path == NULL) {
        return plumb_drills_default(&page->drills, &fault->error);
    }
    char *bytes = NULL;
    size_t length = 0;
    PlumbStatus status =
        plumb_file_read_whole(path, DRILLS_BYTES_MAX, &bytes, &length, &fault->error);
    if (status == PLUMB_OK) {
        status = plumb_drills_read(bytes, length, &page->drills, &fault->error);
        free(bytes);
    }
    if (status != PLUMB_OK) {
        plumb_fault_in_file(fault, path);
    }
    return status;
}

static bool same_body(const PlumbBody *a, const PlumbBody *b)
{
    bool same = a->sex == b->sex && !(fabs(a->mass_kg - b->mass_kg) > 0.0);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        same = same && !(fabs(a->length_m[i] - b->length_m[i]) > 0.0);
    }
    return same;
}

/* The proposed set-up, over the present one or of a file, but of the same lifter. */
static PlumbStatus read_proposed(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    const char *const what = args->value[PLUMB_OPT_PROPOSED];
    if (what == NULL) {
        return plumb_fault_bad(fault, "--proposed",
                               "is missing; write what shall change, \"stance=45cm\", or "
                               "FILE:set-up name",
                               "", "");
    }
    const PlumbStatus status = plumb_request_read_pencil(&page->before, what, &page->after, fault);
    if (status != PLUMB_OK) {
        if (strcmp(fault->error.field, "--pencil") == 0) {
            memcpy(fault->error.field, "--proposed", sizeof "--proposed");
        }
        return status;
    }
    if (!same_body(&page->before.lifter.body, &page->after.lifter.body)) {
        return plumb_fault_bad(fault, "--proposed",
                               "the set-up belongs to another lifter; a handout is for one", "",
                               "");
    }
    return PLUMB_OK;
}

/* The set-up of a day of the file's log, before the one that was read. */
static PlumbStatus read_since(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    const char *const since = args->value[PLUMB_OPT_SINCE];
    if (args->given[PLUMB_OPT_PROPOSED]) {
        return plumb_fault_bad(fault, "--since", "looks back, --proposed ahead; leave one out", "",
                               "");
    }
    if (page->before.path[0] == '\0') {
        return plumb_fault_bad(fault, "--since", "needs a lifter file, whose log it reads", "", "");
    }
    PlumbLifterFile *file = NULL;
    PlumbStatus status = plumb_lifter_file_read(page->before.path, &file, &fault->error);
    if (status == PLUMB_OK) {
        const PlumbLogEntry *const entry =
            plumb_lifter_file_log(file, since, page->before.lift, &fault->error);
        page->after = page->before;
        if (entry != NULL) {
            page->before.setup = entry->setup;
        } else {
            status = fault->error.status;
        }
    }
    plumb_lifter_file_free(file);
    return status;
}

static PlumbStatus read_page(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP, &page->before, fault);
    if (status == PLUMB_OK) {
        status = args->given[PLUMB_OPT_SINCE] ? read_since(args, page, fault)
                                              : read_proposed(args, page, fault);
    }
    if (status == PLUMB_OK) {
        status = read_drills(args, page, fault);
    }
    if (status == PLUMB_OK) {
        page->font = plumb_font_create();
        status = page->font != NULL ? PLUMB_OK
                                    : plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "handout",
                                                      "no memory for the typeface");
    }
    return status;
}

/* The working of the hips' moment, of which the student's page draws the free body. */
static PlumbStatus explain(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    const PlumbQuestion question = {.kind = PLUMB_EXPLAIN_moment, .joint = PLUMB_JOINT_hip};
    page->subject = (PlumbExplainSubject){.spec = &page->after.record.spec,
                                          .lifter = &page->after.lifter,
                                          .answer = &page->after_answer};
    page->working = (PlumbWorking){.subject = &page->subject,
                                   .explanation = &page->explanation,
                                   .name = page->after.record.name,
                                   .date = args->date,
                                   .letter = args->letter,
                                   .text_width = plumb_font_width,
                                   .text_user = page->font};
    return plumb_explain(&page->subject, question, &page->explanation, &fault->error);
}

static PlumbStatus compose(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    plumb_answer_solve(&page->before.lifter, &page->before.setup, &page->before_answer);
    plumb_answer_solve(&page->after.lifter, &page->after.setup, &page->after_answer);
    PlumbDrawing drawing = plumb_drawing_default(&page->after.lifter, &page->after_answer,
                                                 plumb_font_width, page->font);
    drawing.name = page->before.record.name;
    drawing.setup_name = page->after.setup_name;
    drawing.date = args->date;
    drawing.units = args->units;
    drawing.pencil = &page->before_answer;
    drawing.pencil_lifter = &page->before.lifter;
    drawing.pencil_name = page->before.setup_name;
    const char *const note = args->value[PLUMB_OPT_NOTE];
    const char *const since = args->value[PLUMB_OPT_SINCE];
    PlumbHandoutAsk ask = {
        .drawing = &drawing,
        .spec = &page->before.record.spec,
        .drills = &page->drills,
        .note = note != NULL ? note : "",
        .since = since != NULL ? since : "",
        .program = "plumbar " PLUMB_VERSION,
        .sample_count = args->samples >= 0 ? args->samples : SAMPLES_DEFAULT,
    };
    const bool student = args->given[PLUMB_OPT_STUDENT];
    PlumbStatus status =
        plumb_changes_held(&page->before_answer, &page->after_answer, &fault->error);
    if (status == PLUMB_OK && student) {
        status = explain(args, page, fault);
        ask.working = &page->working;
    }
    if (status == PLUMB_OK) {
        status = plumb_handout_fill(&ask, &page->handout, &fault->error);
    }
    if (status == PLUMB_OK) {
        plumb_compose_handout(&page->scene, &page->handout,
                              args->letter ? PLUMB_LETTER_PORTRAIT : PLUMB_A4_PORTRAIT);
    }
    return status;
}

static PlumbCliExit handout(const PlumbCliArgs *args, Page *page, PlumbCliFault *fault)
{
    PlumbCliPicture kind = PLUMB_PICTURE_SVG;
    PlumbBytes bytes = {.data = NULL};
    PlumbStatus status = plumb_picture_choose(args->output, &kind, fault);
    if (status == PLUMB_OK) {
        status = read_page(args, page, fault);
    }
    if (status == PLUMB_OK) {
        status = compose(args, page, fault);
    }
    if (status == PLUMB_OK) {
        status = plumb_picture_render(&page->scene, kind, args, &bytes, &fault->error);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    plumb_output_bytes(&out, (const char *)bytes.data, bytes.length);
    plumb_bytes_free(&bytes);
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

PlumbCliExit plumb_cli_handout(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    Page *const page = calloc(1, sizeof *page);
    if (page == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "handout", "no memory for the handout"));
    }
    const PlumbCliExit code = handout(args, page, fault);
    plumb_font_destroy(page->font);
    free(page);
    plumb_draw_finish();
    return code;
}
