/* SPDX-License-Identifier: MIT */
/* plumbar draw: the sheet as SVG, PDF or PNG. */
#include "command.h"
#include "compare_sure.h"
#include "picture.h"
#include "request.h"
#include "samples.h"

#include <plumbar/press.h>

#include <stdlib.h>

/* What is drawn: the inked set-up and, where asked for, a pencilled one. */
typedef struct Sheet {
    PlumbCliRequest inked;
    PlumbAnswer inked_answer;
    bool has_pencil;
    PlumbCliRequest pencil;
    PlumbAnswer pencil_answer;
    PlumbPressAnswer inked_press; /* of a bench press, in the place of the answers */
    PlumbPressAnswer pencil_press;
    PlumbCliSamples samples;
    bool sure;                            /* figure_sd is told */
    double figure_sd[PLUMB_OUTPUT_COUNT]; /* in the lift's own list */
    PlumbFont *font;
    PlumbScene scene;
} Sheet;

static bool is_press(const Sheet *sheet)
{
    return sheet->inked.lift == PLUMB_BENCH;
}

static PlumbOutcome outcome_of(const Sheet *sheet, const PlumbAnswer *answer,
                               const PlumbPressAnswer *press)
{
    return is_press(sheet) ? press->outcome : answer->outcome;
}

static void solve(const PlumbCliRequest *request, PlumbAnswer *answer, PlumbPressAnswer *press)
{
    if (request->lift == PLUMB_BENCH) {
        plumb_press_solve(&request->lifter, &request->setup, press);
    } else {
        plumb_answer_solve(&request->lifter, &request->setup, answer);
    }
}

static PlumbStatus read_sheet(const PlumbCliArgs *args, Sheet *sheet, PlumbCliFault *fault)
{
    PlumbStatus status =
        plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH,
                           &sheet->inked, fault);
    if (status == PLUMB_OK && args->pencil != NULL) {
        status = plumb_request_read_pencil(&sheet->inked, args->pencil, &sheet->pencil, fault);
        sheet->has_pencil = true;
    }
    if (status != PLUMB_OK) {
        return status;
    }
    solve(&sheet->inked, &sheet->inked_answer, &sheet->inked_press);
    if (sheet->has_pencil) {
        solve(&sheet->pencil, &sheet->pencil_answer, &sheet->pencil_press);
    }
    sheet->font = plumb_font_create();
    return sheet->font != NULL ? PLUMB_OK
                               : plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing",
                                                 "no memory for the typeface");
}

/* Of the differences to what is pencilled. */
static PlumbStatus take_pair(const PlumbCliArgs *args, Sheet *sheet, PlumbCliFault *fault)
{
    PlumbEstimate spread[PLUMB_OUTPUT_COUNT];
    const bool held =
        outcome_of(sheet, &sheet->pencil_answer, &sheet->pencil_press) != PLUMB_NO_POSE;
    const int count = held ? plumb_compare_sure_count(args) : 0;
    const PlumbStatus status =
        plumb_compare_sure_take(args, &sheet->pencil, &sheet->inked, count, spread, fault);
    const int outputs = plumb_lift_output_count(sheet->inked.lift);
    for (int i = 0; status == PLUMB_OK && count > 0 && i < outputs; i++) {
        sheet->figure_sd[i] = spread[i].sd;
    }
    sheet->sure = count > 0;
    return status;
}

static PlumbStatus take_spreads(const PlumbCliArgs *args, Sheet *sheet, PlumbCliFault *fault)
{
    enum { DEFAULT = 2000 };
    if (outcome_of(sheet, &sheet->inked_answer, &sheet->inked_press) == PLUMB_NO_POSE) {
        return PLUMB_OK;
    }
    if (sheet->has_pencil) {
        return take_pair(args, sheet, fault);
    }
    const int count = args->samples < 0 ? DEFAULT : args->samples;
    const PlumbStatus status =
        plumb_samples_take(args, &sheet->inked, count, &sheet->samples, fault);
    for (int i = 0; status == PLUMB_OK && count > 0 && i < PLUMB_OUTPUT_COUNT; i++) {
        sheet->figure_sd[i] = sheet->samples.intervals.of[i].sd;
    }
    sheet->sure = count > 0;
    return status;
}

static void compose(const PlumbCliArgs *args, Sheet *sheet)
{
    const PlumbLifter *const lifter = &sheet->inked.lifter;
    PlumbDrawing drawing =
        is_press(sheet)
            ? plumb_press_drawing_default(lifter, &sheet->inked_press, plumb_font_width,
                                          sheet->font)
            : plumb_drawing_default(lifter, &sheet->inked_answer, plumb_font_width, sheet->font);
    drawing.name = sheet->inked.record.name;
    drawing.setup_name = sheet->inked.setup_name;
    drawing.date = args->date;
    drawing.units = args->units;
    drawing.figure_sd = sheet->sure ? sheet->figure_sd : NULL;
    if (sheet->has_pencil) {
        const bool named = sheet->pencil.setup_name[0] != '\0';
        drawing.pencil = is_press(sheet) ? NULL : &sheet->pencil_answer;
        drawing.press_pencil = is_press(sheet) ? &sheet->pencil_press : NULL;
        drawing.pencil_lifter = &sheet->pencil.lifter;
        drawing.pencil_name = named ? sheet->pencil.setup_name : args->pencil;
    }
    plumb_compose_sheet(&sheet->scene, &drawing,
                        args->letter ? PLUMB_LETTER_LANDSCAPE : PLUMB_A4_LANDSCAPE);
}

static PlumbCliExit draw(const PlumbCliArgs *args, Sheet *sheet, PlumbCliFault *fault)
{
    PlumbPictureKind kind = PLUMB_PICTURE_SVG;
    PlumbStatus status = plumb_picture_choose(args->output, &kind, fault);
    if (status == PLUMB_OK) {
        status = read_sheet(args, sheet, fault);
    }
    if (status == PLUMB_OK) {
        status = take_spreads(args, sheet, fault);
    }
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    compose(args, sheet);
    PlumbBytes bytes = {.data = NULL};
    status = plumb_picture_render(&sheet->scene, kind, args, &bytes, &fault->error);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    plumb_output_bytes(&out, (const char *)bytes.data, bytes.length);
    plumb_bytes_free(&bytes);
    const bool none = outcome_of(sheet, &sheet->inked_answer, &sheet->inked_press) == PLUMB_NO_POSE;
    return plumb_cli_finish(&out, none ? PLUMB_EXIT_NO_POSE : PLUMB_EXIT_ANSWERED, fault);
}

PlumbCliExit plumb_cli_draw(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    Sheet *const sheet = calloc(1, sizeof *sheet);
    if (sheet == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing", "no memory for the drawing"));
    }
    const PlumbCliExit code = draw(args, sheet, fault);
    plumb_samples_drop(&sheet->samples);
    plumb_font_destroy(sheet->font);
    free(sheet);
    plumb_draw_finish();
    return code;
}
