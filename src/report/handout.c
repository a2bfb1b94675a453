/* SPDX-License-Identifier: MIT */
/* Fills the words of a handout. */
#include "report/words.h"

#include "report/embedded.h"

#include <stdlib.h>
#include <string.h>

PlumbStatus plumb_drills_default(PlumbDrills *drills, PlumbError *error)
{
    return plumb_drills_read((const char *)plumb_embedded_drills, plumb_embedded_drills_size,
                             drills, error);
}

void plumb_lift_heading(PlumbText *text, const PlumbSetup *setup, PlumbUnits units)
{
    static const char *const name[PLUMB_LIFT_COUNT] = {[PLUMB_DEADLIFT] = "Deadlift, ",
                                                       [PLUMB_SQUAT] = "Squat, ",
                                                       [PLUMB_BENCH] = "Bench press, "};
    plumb_text_string(text, name[setup->lift]);
    plumb_text_said(text, setup->load_kg, PLUMB_Q_MASS, units);
}

static PlumbText line(PlumbHandoutBlock *block)
{
    return plumb_text_begin(block->words[block->count++], PLUMB_HANDOUT_WORDS);
}

static void fill_changes(const PlumbHandoutAsk *ask, PlumbHandout *handout)
{
    const PlumbDrawing *const drawing = ask->drawing;
    PlumbChange change[PLUMB_SETTING_COUNT];
    const bool past = ask->since[0] != '\0';
    const int count = plumb_changes_find(ask->before, ask->after, change);
    const int most = past ? PLUMB_HANDOUT_FEELS : PLUMB_HANDOUT_CHANGES;
    handout->change.heading = past ? "what has changed" : "what to change";
    for (int i = 0; i < count && i < most; i++) {
        PlumbText text = line(&handout->change);
        plumb_change_text(&text, &change[i], ask->after, &drawing->lifter->body, past,
                          drawing->units);
        if (i + 1 == most && count > most) {
            plumb_text_string(&text, " And ");
            plumb_text_integer(&text, count - most);
            plumb_text_string(&text, " more.");
        }
    }
    if (count == 0) {
        PlumbText text = line(&handout->change);
        plumb_text_string(&text, "Nothing in the set-up.");
    }
}

/* What nobody has asked for is said to be the program's, with its reason. */
static void fill_why(const PlumbHandoutAsk *ask, PlumbHandout *handout)
{
    const PlumbProposal *const proposal = ask->proposal;
    if (proposal == NULL) {
        return;
    }
    handout->why.heading = "why this first";
    PlumbText text = line(&handout->why);
    plumb_proposal_gain_text(&text, proposal, ask->drawing->units);
    text = line(&handout->why);
    plumb_text_string(&text, plumb_option_reason(&proposal->option, &proposal->goal));
    if (proposal->option.first_step) {
        plumb_text_string(&text, " This is ");
        plumb_option_step_text(&text, &proposal->option, ask->drawing->units);
        plumb_text_char(&text, '.');
    }
    text = line(&handout->why);
    plumb_text_string(&text, "Nobody asked for this change: it is the first of those that the "
                             "program would try. Your coach decides.");
}

/* One drill, unless the same words stand already. */
static void add_drill(const PlumbHandoutAsk *ask, const char *about, PlumbHandoutBlock *block)
{
    const PlumbDrill *const drill = plumb_drills_find(ask->drills, about, ask->after->lift);
    if (drill == NULL || block->count >= PLUMB_HANDOUT_DRILLS) {
        return;
    }
    for (int i = 0; i < block->count; i++) {
        if (strncmp(block->words[i], drill->words, strlen(drill->words)) == 0) {
            return;
        }
    }
    PlumbText text = line(block);
    plumb_text_string(&text, drill->words);
    plumb_text_string(&text, " (");
    plumb_text_string(&text, drill->rests_on);
    plumb_text_string(&text, ")");
}

/* What is beyond its threshold for sure, each with its spread. */
static void fill_seen(const PlumbHandoutAsk *ask, PlumbHandout *handout)
{
    if (ask->stills == NULL) {
        return;
    }
    const PlumbStillFinding *const finding = ask->stills->finding[ask->still];
    const int count = ask->stills->finding_count[ask->still];
    handout->pictured = true;
    handout->seen.heading = "what the picture shows";
    for (int i = 0; i < count && i < PLUMB_HANDOUT_WATCHES; i++) {
        PlumbText text = line(&handout->seen);
        plumb_finding_text(&text, &finding[i].what, ask->drawing->units);
        plumb_text_string(&text, " (\xc2\xb1 ");
        plumb_text_quantity(&text, finding[i].sd, finding[i].what.quantity, ask->drawing->units);
        plumb_text_char(&text, ')');
    }
    if (count == 0) {
        PlumbText text = line(&handout->seen);
        plumb_text_string(&text, "Nothing that is out of place for sure.");
    }
}

/* Findings of the picture come first, then those of the present set-up that the proposed one does
 * away with, warnings before notes, then what changes. */
static void fill_drills(const PlumbHandoutAsk *ask, PlumbHandout *handout)
{
    const bool past = ask->since[0] != '\0';
    int finding_count = 0;
    const PlumbFinding *const finding = plumb_solved_findings(ask->before, &finding_count);
    handout->drill.heading = past ? "a drill that fits" : "a drill for it";
    for (int i = 0; ask->stills != NULL && i < ask->stills->finding_count[ask->still]; i++) {
        add_drill(ask, plumb_finding_name(ask->stills->finding[ask->still][i].what.id),
                  &handout->drill);
    }
    for (int severity = PLUMB_WARNING; severity >= PLUMB_NOTE; severity--) {
        for (int i = 0; i < finding_count; i++) {
            if ((int)finding[i].severity == severity &&
                plumb_solved_finding(ask->after, finding[i].id) == NULL) {
                add_drill(ask, plumb_finding_name(finding[i].id), &handout->drill);
            }
        }
    }
    PlumbChange change[PLUMB_SETTING_COUNT];
    const int count = plumb_changes_find(ask->before, ask->after, change);
    for (int i = 0; i < count; i++) {
        add_drill(ask, plumb_setting(change[i].id)->key, &handout->drill);
    }
    if (handout->drill.count > 1) {
        handout->drill.heading = past ? "drills that fit" : "drills for it";
    }
}

/* What is still not as it should be in the proposed set-up. */
static void fill_watch(const PlumbHandoutAsk *ask, PlumbHandout *handout)
{
    int count = 0;
    const PlumbFinding *const finding = plumb_solved_findings(ask->after, &count);
    handout->watch.heading = "keep an eye on";
    for (int i = 0; i < count; i++) {
        if (finding[i].severity == PLUMB_WARNING && handout->watch.count < PLUMB_HANDOUT_WATCHES) {
            PlumbText text = line(&handout->watch);
            plumb_finding_text(&text, &finding[i], ask->drawing->units);
        }
    }
}

static void fill_film(const PlumbHandoutAsk *ask, PlumbHandout *handout)
{
    static const char *const side[PLUMB_LIFT_COUNT] = {
        [PLUMB_DEADLIFT] = "the height of your hips, square to the bar, your whole body in the "
                           "picture, both discs if you can.",
        [PLUMB_SQUAT] = "the height of your hips, square to the bar, your whole body in the "
                        "picture, both discs if you can.",
        [PLUMB_BENCH] = "the height of your shoulders on the bench, square to it, your arms and "
                        "your trunk in the picture.",
    };
    static const char *const still[PLUMB_LIFT_COUNT] = {
        [PLUMB_DEADLIFT] = "One picture from the front, just before the bar leaves the floor.",
        [PLUMB_SQUAT] = "One picture from the front, at the bottom.",
        [PLUMB_BENCH] = ("One picture from the head end, in line with the bench, when the bar "
                         "touches."),
    };
    handout->film.heading = "what to film next";
    PlumbText text = line(&handout->film);
    plumb_text_string(&text, "One set from the side: phone ");
    plumb_text_string(&text, ask->drawing->units == PLUMB_POUNDS_INCHES ? "16 ft" : "5 m");
    plumb_text_string(&text, " away or more, lens at ");
    plumb_text_string(&text, side[ask->after->lift]);
    PlumbText picture = line(&handout->film);
    plumb_text_string(&picture, still[ask->after->lift]);
}

static void fill_heading(const PlumbHandoutAsk *ask, PlumbHandout *handout)
{
    const PlumbDrawing *const drawing = ask->drawing;
    PlumbText text = plumb_text_begin(handout->heading, sizeof handout->heading);
    plumb_lift_heading(&text, plumb_solved_setup(ask->after), drawing->units);
    const bool past = ask->since[0] != '\0';
    plumb_text_string(&text, past ? ": what has changed since " : ": what to change next");
    plumb_text_string(&text, ask->since);
    PlumbText before = plumb_text_begin(handout->before_name, sizeof handout->before_name);
    plumb_text_string(&before, past ? "then" : "now");
    plumb_text_string(&before, drawing->pencil_name[0] != '\0' && !past ? ", " : "");
    plumb_text_string(&before, past ? "" : drawing->pencil_name);
    PlumbText after = plumb_text_begin(handout->after_name, sizeof handout->after_name);
    plumb_text_string(&after, past ? "now" : "proposed");
}

/* "M = Σ m g (x - x0) = 435 N m; before: 453 N m" */
static void fill_equation(const PlumbHandoutAsk *ask, PlumbHandout *handout)
{
    if (ask->working == NULL) {
        return;
    }
    const PlumbExplanation *const explanation = ask->working->explanation;
    const PlumbExplainStep *const step = &explanation->step[explanation->step_count - 1];
    const PlumbQuestion question = explanation->question;
    const double was = ask->before->lift == PLUMB_BENCH
                           ? ask->before->press.touch.moment_n_m[question.press]
                           : ask->before->pose.start.moment_both_n_m[question.joint];
    PlumbText terms = plumb_text_begin(handout->terms, sizeof handout->terms);
    for (int i = 0; i < step->term_count; i++) {
        plumb_text_string(&terms, i > 0 ? ", " : "");
        plumb_text_integer(&terms, i + 1);
        plumb_text_char(&terms, ' ');
        plumb_text_string(&terms, step->term[i].words);
        plumb_text_string(&terms, ": ");
        plumb_text_quantity(&terms, step->term[i].value[step->column_count - 1],
                            explanation->quantity, ask->drawing->units);
    }
    plumb_text_char(&terms, '.');
    PlumbText text = plumb_text_begin(handout->equation, sizeof handout->equation);
    plumb_text_string(&text, step->symbols);
    plumb_text_string(&text, " = ");
    plumb_text_quantity(&text, explanation->program, explanation->quantity, ask->drawing->units);
    plumb_text_string(&text, ask->since[0] != '\0' ? "; then: " : "; now: ");
    plumb_text_quantity(&text, was, explanation->quantity, ask->drawing->units);
    handout->working = ask->working;
}

PlumbStatus plumb_handout_fill(const PlumbHandoutAsk *ask, PlumbHandout *handout, PlumbError *error)
{
    const PlumbDrawing *const drawing = ask->drawing;
    const bool past = ask->since[0] != '\0';
    PlumbStatus status = past ? PLUMB_OK : plumb_changes_check(ask->before, ask->after, error);
    if (status != PLUMB_OK) {
        return status;
    }
    PlumbHandout *const made = calloc(1, sizeof *made);
    if (made == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "handout", "no memory for the handout");
    }
    made->drawing = drawing;
    status = plumb_figure_rows(ask, made, error);
    if (status == PLUMB_OK) {
        fill_heading(ask, made);
        fill_seen(ask, made);
        fill_changes(ask, made);
        fill_why(ask, made);
        made->feel.heading = past ? "what it does" : "what it should feel like";
        plumb_feel_words(ask->before, ask->after, drawing->units, &made->feel);
        fill_drills(ask, made);
        fill_film(ask, made);
        fill_watch(ask, made);
        fill_equation(ask, made);
        PlumbText note = plumb_text_begin(made->note, sizeof made->note);
        plumb_text_string(&note, ask->note);
        PlumbText rests = plumb_text_begin(made->rests_on, sizeof made->rests_on);
        plumb_rests_on_words(ask, made, &rests);
        *handout = *made;
    }
    free(made);
    return status;
}
