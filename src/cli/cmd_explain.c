/* SPDX-License-Identifier: MIT */
/* plumbar explain: the working of one figure, in words, as data, or as a page. */
#include "command.h"
#include "explain_out.h"
#include "json_out.h"
#include "picture.h"
#include "request.h"

#include <plumbar/quantity.h>
#include <plumbar/working.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { CELL_SIZE = 160, PEAK_POINTS = 401 };

/* Everything that the command holds; large. */
typedef struct Explain {
    PlumbCliRequest request;
    PlumbAnswer answer;
    PlumbPressAnswer press; /* of a bench press in place of answer */
    PlumbQuestion question;
    PlumbExplainSubject subject;
    PlumbExplainRoom room;
    PlumbMotionPoint instant;
    PlumbPressMotionPoint press_instant;
    PlumbExplanation explanation;
    PlumbFont *font;
    PlumbScene scene;
} Explain;

static PlumbStatus read_question(const PlumbCliArgs *args, Explain *x, PlumbCliFault *fault)
{
    if (args->word_count == 0) {
        return plumb_fault_bad(fault, "QUANTITY",
                               "which figure? for example hip_moment, knee_arm, "
                               "balance, travel, back_effort, thigh",
                               "", "");
    }
    const char *const name = args->word[0];
    if (plumb_question_find(name, strlen(name), &x->question)) {
        return PLUMB_OK;
    }
    char near[CELL_SIZE];
    PlumbText text = plumb_text_begin(near, sizeof near);
    if (plumb_question_nearest(name, strlen(name), &text)) {
        return plumb_fault_bad(fault, name, "no such figure; did you mean ", near, "?");
    }
    return plumb_fault_bad(fault, name, "no such figure; plumbar help explain lists them", "", "");
}

static PlumbStatus no_memory(PlumbCliFault *fault)
{
    return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "--at", "no memory for the motion");
}

static PlumbStatus find_press_peak(Explain *x, double *t_s, PlumbCliFault *fault)
{
    PlumbPressMotionPoint *const point = calloc(PEAK_POINTS, sizeof *point);
    if (point == NULL) {
        return no_memory(fault);
    }
    PlumbPressMotionFacts facts;
    const PlumbStatus status =
        plumb_press_motion_solve(&x->request.lifter, &x->press, x->request.setup.rep_time_s,
                                 PEAK_POINTS, point, &facts, &fault->error);
    free(point);
    *t_s = status == PLUMB_OK ? facts.peak_t_s[x->question.press] : 0.0;
    return status;
}

/* The instant at which the joint's moment is greatest, among evenly spaced ones. */
static PlumbStatus find_peak(Explain *x, double *t_s, PlumbCliFault *fault)
{
    if (x->subject.press != NULL) {
        return find_press_peak(x, t_s, fault);
    }
    PlumbMotionPoint *const point = calloc(PEAK_POINTS, sizeof *point);
    if (point == NULL) {
        return no_memory(fault);
    }
    PlumbMotionFacts facts;
    const PlumbStatus status =
        plumb_motion_solve(&x->request.lifter, &x->answer, x->request.setup.rep_time_s, PEAK_POINTS,
                           point, &facts, &fault->error);
    free(point);
    *t_s = status == PLUMB_OK ? facts.peak_t_s[x->question.joint] : 0.0;
    return status;
}

/* --at as a time of the way up, or the peak. */
static PlumbStatus read_time(const PlumbCliArgs *args, Explain *x, double *t_s,
                             PlumbCliFault *fault)
{
    if (strcmp(args->at, "peak") == 0) {
        return x->question.kind == PLUMB_EXPLAIN_moment ||
                       x->question.kind == PLUMB_EXPLAIN_press_moment
                   ? find_peak(x, t_s, fault)
                   : plumb_fault_bad(fault, "--at",
                                     "only a moment has a peak; give a time like 1.2s", "", "");
    }
    PlumbError error;
    return plumb_quantity_read(args->at, strlen(args->at), PLUMB_Q_TIME, t_s, &error) == PLUMB_OK
               ? PLUMB_OK
               : plumb_fault_bad(fault, "--at", "'", args->at,
                                 "' is neither start, end, peak nor a time like 1.2s");
}

static PlumbStatus read_instant(const PlumbCliArgs *args, Explain *x, PlumbCliFault *fault)
{
    const double rep_s = x->request.setup.rep_time_s;
    double t_s = 0.0;
    PlumbStatus status = read_time(args, x, &t_s, fault);
    if (status == PLUMB_OK && x->subject.press != NULL) {
        x->subject.press_motion = &x->press_instant;
        return plumb_press_motion_at(&x->request.lifter, &x->press, rep_s, t_s, &x->press_instant,
                                     &fault->error);
    }
    if (status == PLUMB_OK) {
        status =
            plumb_motion_at(&x->request.lifter, &x->answer, rep_s, t_s, &x->instant, &fault->error);
    }
    if (status == PLUMB_OK && !x->instant.held) {
        return plumb_fault_bad(fault, "--at", "the path has no pose at ", args->at, "");
    }
    x->subject.motion = &x->instant;
    return status;
}

static PlumbStatus solve_press(const PlumbCliArgs *args, Explain *x, PlumbCliFault *fault)
{
    const bool touch = args->at == NULL || strcmp(args->at, "start") == 0;
    plumb_press_solve(&x->request.lifter, &x->request.setup, &x->press);
    x->subject.press = &x->press;
    x->subject.at_end = !touch && strcmp(args->at, "end") == 0;
    const bool moves = !touch && !x->subject.at_end && x->press.outcome != PLUMB_NO_POSE;
    return moves ? read_instant(args, x, fault) : PLUMB_OK;
}

static PlumbStatus solve(const PlumbCliArgs *args, Explain *x, PlumbCliFault *fault)
{
    PlumbStatus status = read_question(args, x, fault);
    const bool body = status == PLUMB_OK && x->question.kind == PLUMB_EXPLAIN_length;
    if (status == PLUMB_OK) {
        status = plumb_request_read(args->word + 1, args->word_count - 1,
                                    PLUMB_REQUEST_SETUP | PLUMB_REQUEST_BENCH |
                                        (body ? PLUMB_REQUEST_ANY_LIFT : 0U),
                                    &x->request, fault);
    }
    if (status != PLUMB_OK) {
        return status;
    }
    fault->path[0] = '\0';
    x->subject =
        (PlumbExplainSubject){.spec = &x->request.record.spec, .lifter = &x->request.lifter};
    if (!body && x->request.lift == PLUMB_BENCH) {
        return solve_press(args, x, fault);
    }
    if (!body) {
        plumb_answer_solve(&x->request.lifter, &x->request.setup, &x->answer);
        x->subject.answer = &x->answer;
        const bool start = args->at == NULL || strcmp(args->at, "start") == 0;
        x->subject.at_end = !start && strcmp(args->at, "end") == 0;
        if (!start && !x->subject.at_end && x->answer.outcome != PLUMB_NO_POSE) {
            status = read_instant(args, x, fault);
        }
    }
    return status;
}

static PlumbCliExit draw(const PlumbCliArgs *args, Explain *x, PlumbPictureKind kind,
                         PlumbCliFault *fault)
{
    x->font = plumb_font_create();
    if (x->font == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "page", "no memory for the typeface"));
    }
    const PlumbWorking working = {.subject = &x->subject,
                                  .explanation = &x->explanation,
                                  .name = x->request.record.name,
                                  .date = args->date,
                                  .units = args->units,
                                  .letter = args->letter,
                                  .text_width = plumb_font_width,
                                  .text_user = x->font};
    plumb_compose_working(&x->scene, &working);
    PlumbBytes bytes = {.data = NULL};
    const PlumbStatus status = plumb_picture_render(&x->scene, kind, args, &bytes, &fault->error);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    plumb_output_bytes(&out, (const char *)bytes.data, bytes.length);
    plumb_bytes_free(&bytes);
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

static const char *what_fails(const Explain *x, bool name)
{
    if (x->subject.press == NULL) {
        return name ? plumb_constraint_name(x->answer.failed)
                    : plumb_constraint_text(x->answer.failed);
    }
    return name ? (x->press.at_lockout ? "lockout" : "touch")
                : (x->press.at_lockout ? "the arms cannot span the way to the lockout"
                                       : "the arms cannot span the way to the touch");
}

/* Without a pose there is nothing to work out: the answer is that, and exit code 1. */
static PlumbCliExit print_no_pose(const PlumbCliArgs *args, const Explain *x, PlumbCliFault *fault)
{
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        bool failed = false;
        const PlumbJson json = plumb_json_begin(&failed);
        plumb_json_string(json, "outcome", plumb_outcome_name(PLUMB_NO_POSE));
        plumb_json_string(json, x->subject.press != NULL ? "fails_at" : "failed_constraint",
                          what_fails(x, true));
        plumb_json_print(json, 2, &out);
        plumb_output_string(&out, "\n");
    } else {
        plumb_output_string(&out, "No pose meets the request, so there is nothing to work out: ");
        plumb_output_string(&out, what_fails(x, false));
        plumb_output_string(&out, "\n");
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_NO_POSE, fault);
}

static PlumbCliWorking words_of(const Explain *x)
{
    const PlumbExplainSubject *const s = &x->subject;
    PlumbCliWorking words = {.explanation = &x->explanation,
                             .t_s = (double)NAN,
                             .rep_time_s = x->request.setup.rep_time_s};
    if (s->motion != NULL) {
        words.t_s = s->motion->t_s;
    } else if (s->press_motion != NULL) {
        words.t_s = s->press_motion->t_s;
    }
    words.moving = s->motion != NULL || s->press_motion != NULL;
    return words;
}

static PlumbCliExit explain(const PlumbCliArgs *args, Explain *x, PlumbCliFault *fault)
{
    PlumbStatus status = solve(args, x, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbPictureKind kind;
    const bool picture = args->output != NULL && plumb_picture_find(args->output, &kind);
    const bool none = (x->subject.answer != NULL && x->answer.outcome == PLUMB_NO_POSE) ||
                      (x->subject.press != NULL && x->press.outcome == PLUMB_NO_POSE);
    if (none && !picture) {
        return print_no_pose(args, x, fault);
    }
    x->subject = plumb_explain_place(&x->subject, x->question, &x->room);
    status = plumb_explain(&x->subject, x->question, &x->explanation, &fault->error);
    if (status != PLUMB_OK) {
        return none ? PLUMB_EXIT_NO_POSE : plumb_fault_exit(status);
    }
    if (picture) {
        return draw(args, x, kind, fault);
    }
    const PlumbCliWorking words = words_of(x);
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        plumb_working_json(&words, &out);
    } else if (args->csv) {
        plumb_working_csv(&words, &out);
    } else {
        plumb_working_text(&words, args->units, &out);
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

PlumbCliExit plumb_cli_explain(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    Explain *const x = calloc(1, sizeof *x);
    if (x == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "explain", "no memory for the working"));
    }
    const PlumbCliExit code = explain(args, x, fault);
    plumb_font_destroy(x->font);
    free(x);
    plumb_draw_finish();
    return code;
}
