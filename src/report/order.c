/* SPDX-License-Identifier: MIT */
/* A handout in one call, as commands and the window ask for it. */
#include "report/words.h"

#include <plumbar/draw.h>

#include <math.h>
#include <stdlib.h>

enum { SAMPLES = 400 };

PlumbOrder plumb_order(const PlumbLifterRecord *record, const PlumbSetup *before,
                       const PlumbSetup *after)
{
    return (PlumbOrder){
        .record = record,
        .before = before,
        .before_name = "",
        .after = after,
        .after_name = "",
        .date = "",
        .program = "plumbar " PLUMB_VERSION,
        .note = "",
        .since = "",
        .sample_count = SAMPLES,
    };
}

int plumb_handout_still(const PlumbStills *stills)
{
    for (int i = 0; i < stills->trace.still_count; i++) {
        if (!stills->trace.still[i].front) {
            return i;
        }
    }
    return 0;
}

static bool same_body(const PlumbBody *a, const PlumbBody *b)
{
    bool same = a->sex == b->sex && !(fabs(a->mass_kg - b->mass_kg) > 0.0);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        same = same && !(fabs(a->length_m[i] - b->length_m[i]) > 0.0);
    }
    return same;
}

PlumbStatus plumb_order_check(const PlumbOrder *order, PlumbLifter *lifter,
                              PlumbLifter *before_lifter, PlumbError *error)
{
    if (order->before != NULL && order->before->lift != order->after->lift) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "lift", "both set-ups must be of one lift");
    }
    PlumbStatus status = plumb_lifter_record_lifter(order->record, lifter, error);
    if (status == PLUMB_OK) {
        *before_lifter = *lifter;
    }
    if (status == PLUMB_OK && order->before_record != NULL) {
        status = plumb_lifter_record_lifter(order->before_record, before_lifter, error);
    }
    if (status == PLUMB_OK && !same_body(&lifter->body, &before_lifter->body)) {
        status = plumb_error_set(error, PLUMB_BAD_INPUT, "lifter",
                                 "the two set-ups belong to two lifters; take both of one");
    }
    return status;
}

void plumb_order_names(const PlumbOrder *order, PlumbDrawing *drawing)
{
    drawing->name = order->record->name;
    drawing->setup_name = order->after_name;
    drawing->pencil_name = order->before_name;
    drawing->date = order->date;
    drawing->units = order->units;
}

/* All that one handout needs, on the heap. */
typedef struct Making {
    PlumbLifter before_lifter;
    PlumbLifter lifter;
    PlumbSolved before;
    PlumbSolved after;
    PlumbDrills drills;
    PlumbExplainSubject subject; /* of the student's page */
    PlumbExplanation explanation;
    PlumbWorking working;
    PlumbHandout handout;
    PlumbScene scene;
} Making;

static PlumbStatus solve(const PlumbOrder *order, Making *making, PlumbError *error)
{
    const PlumbStatus status =
        plumb_order_check(order, &making->lifter, &making->before_lifter, error);
    if (status != PLUMB_OK) {
        return status;
    }
    plumb_solved_solve(&making->before_lifter, order->before, &making->before);
    plumb_solved_solve(&making->lifter, order->after, &making->after);
    if (order->stills != NULL && order->after->lift != order->stills->setup.lift) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "--still",
                               "shows another lift than the handout");
    }
    return plumb_changes_held(&making->before, &making->after, error);
}

/* The working of the hips' moment, or of a press the shoulder's across the arm, of which the
 * student's page draws the free body. */
static PlumbStatus explain(const PlumbOrder *order, const PlumbDrawing *drawing, Making *making,
                           PlumbError *error)
{
    const bool press = order->after->lift == PLUMB_BENCH;
    const PlumbQuestion hips = {.kind = PLUMB_EXPLAIN_moment, .joint = PLUMB_JOINT_hip};
    const PlumbQuestion shoulder = {.kind = PLUMB_EXPLAIN_press_moment,
                                    .press = PLUMB_PRESS_JOINT_shoulder_adduction};
    const PlumbQuestion question = press ? shoulder : hips;
    making->subject =
        (PlumbExplainSubject){.spec = &order->record->spec, .lifter = &making->lifter};
    making->subject.answer = press ? NULL : &making->after.pose;
    making->subject.press = press ? &making->after.press : NULL;
    making->working = (PlumbWorking){.subject = &making->subject,
                                     .explanation = &making->explanation,
                                     .name = order->record->name,
                                     .date = order->date,
                                     .letter = order->format == PLUMB_LETTER_PORTRAIT,
                                     .text_width = drawing->text_width,
                                     .text_user = drawing->text_user};
    return plumb_explain(&making->subject, question, &making->explanation, error);
}

static PlumbStatus fill(const PlumbOrder *order, const PlumbDrawing *drawing, Making *making,
                        PlumbError *error)
{
    PlumbHandoutAsk ask = {
        .drawing = drawing,
        .before = &making->before,
        .after = &making->after,
        .asked = {order->before, order->after},
        .spec = &order->record->spec,
        .drills = order->drills,
        .stills = order->stills,
        .still = order->stills != NULL ? plumb_handout_still(order->stills) : 0,
        .proposal = order->proposal,
        .note = order->note,
        .since = order->since,
        .program = order->program,
        .sample_count = order->sample_count,
    };
    PlumbStatus status = PLUMB_OK;
    if (ask.drills == NULL) {
        status = plumb_drills_default(&making->drills, error);
        ask.drills = &making->drills;
    }
    if (status == PLUMB_OK && order->student) {
        status = explain(order, drawing, making, error);
        ask.working = &making->working;
    }
    return status == PLUMB_OK ? plumb_handout_fill(&ask, &making->handout, error) : status;
}

static PlumbStatus draw(const PlumbOrder *order, PlumbPictureKind kind, PlumbFont *font,
                        Making *making, PlumbBytes *bytes, PlumbError *error)
{
    PlumbUnderlay under = {.pixel = NULL};
    const PlumbRect room = plumb_compose_handout(&making->scene, &making->handout, order->format);
    if (order->stills != NULL) {
        PlumbRect at;
        plumb_compose_still_in(&making->scene, order->stills, plumb_handout_still(order->stills),
                               room, plumb_font_width, font, &at);
        under = order->picture != NULL ? *order->picture : under;
        under.at = at;
        under.clip = room;
    }
    return plumb_underlay_file(&making->scene, kind, order->paper, &under, order->date, bytes,
                               error);
}

static PlumbStatus make(const PlumbOrder *order, PlumbPictureKind kind, PlumbFont *font,
                        Making *making, PlumbBytes *bytes, PlumbError *error)
{
    PlumbStatus status = solve(order, making, error);
    if (status != PLUMB_OK) {
        return status;
    }
    PlumbDrawing drawing = plumb_drawing_solved(&making->lifter, &making->after, &making->before,
                                                plumb_font_width, font);
    drawing.pencil_lifter = &making->before_lifter;
    plumb_order_names(order, &drawing);
    status = fill(order, &drawing, making, error);
    if (status == PLUMB_OK) {
        status = draw(order, kind, font, making, bytes, error);
    }
    return status;
}

PlumbStatus plumb_handout_make(const PlumbOrder *order, PlumbPictureKind kind, PlumbBytes *bytes,
                               PlumbError *error)
{
    Making *const making = calloc(1, sizeof *making);
    PlumbFont *const font = plumb_font_create();
    const PlumbStatus status =
        making != NULL && font != NULL
            ? make(order, kind, font, making, bytes, error)
            : plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "handout", "no memory for the handout");
    plumb_font_destroy(font);
    free(making);
    return status;
}
