/* SPDX-License-Identifier: MIT */
/* Stills fitted, and the model beside each: the same feet, hands and spine, led by the same
 * quantity at the value that the picture shows. */
#include "report/still_over.h"

#include <plumbar/advice.h>
#include <plumbar/sample.h>

#include <math.h>
#include <string.h>

void plumb_stills_begin(PlumbStills *stills, const PlumbLifter *lifter, const PlumbBodySpec *spec,
                        const PlumbSetup *setup, const PlumbMarks *marks)
{
    PlumbBodies bodies;
    stills->lifter = *lifter;
    stills->setup = *setup;
    stills->marks = *marks;
    plumb_bodies_around(spec, &lifter->body, &bodies);
    memcpy(stills->body.mean_m, bodies.mean_m, sizeof bodies.mean_m);
    memcpy(stills->body.cov_m2, bodies.cov_m2, sizeof bodies.cov_m2);
    stills->bare = false;
    memset(stills->mirrored, 0, sizeof stills->mirrored);
    stills->ask = plumb_trace_ask(&stills->lifter, &stills->setup, &stills->body, &stills->marks);
    for (int i = 0; i < PLUMB_STILLS_MAX; i++) {
        const double *const told = marks->told[i];
        stills->facing[i] = (int)told[PLUMB_TOLD_facing];
        stills->ask.distance_m[i] = told[PLUMB_TOLD_distance_m];
        stills->ask.scale_length_m[i] = told[PLUMB_TOLD_scale_m];
        stills->ask.on_floor[i] = stills->ask.on_floor[i] && told[PLUMB_TOLD_floor] >= 0.0;
    }
    plumb_still_limits_default(&stills->lifter, &stills->setup, stills->limit);
}

static void mirror(PlumbStills *stills)
{
    for (int i = 0; i < stills->marks.still_count; i++) {
        const bool front = plumb_marks_front(&stills->marks, i);
        const int facing = stills->facing[i] != 0
                               ? stills->facing[i]
                               : plumb_marks_facing(&stills->marks, i, stills->setup.lift);
        stills->mirrored[i] = !front && facing < 0;
        if (stills->mirrored[i]) {
            plumb_marks_mirror(&stills->marks, i, stills->ask.size_px[i].x);
        }
    }
}

static void solve_model(PlumbStills *stills, int still)
{
    if (stills->setup.lift == PLUMB_BENCH) {
        plumb_still_press_model(stills, still);
        return;
    }
    const PlumbTraced *const traced = &stills->trace.still[still];
    PlumbAnswer *const answer = &stills->answer[still];
    PlumbSetup model = plumb_trace_model(traced, &stills->setup, !traced->front);
    plumb_answer_solve(&stills->trace.lifter, &model, answer);
    stills->led[still] = !traced->front && answer->outcome != PLUMB_NO_POSE;
    if (!stills->led[still]) {
        model = plumb_trace_model(traced, &stills->setup, false);
        plumb_answer_solve(&stills->trace.lifter, &model, answer);
    }
}

/* The start that was read, its bar where it stands: what the lifter's hips will do from there. */
static void solve_own(PlumbStills *stills, int still)
{
    const PlumbTraced *const traced = &stills->trace.still[still];
    stills->has_own[still] =
        stills->setup.lift == PLUMB_DEADLIFT && !traced->front && stills->ask.on_floor[still];
    if (stills->has_own[still]) {
        const PlumbSetup setup = plumb_trace_setup(traced);
        plumb_answer_solve(&stills->trace.lifter, &setup, &stills->own[still]);
    }
}

PlumbStatus plumb_stills_fit(PlumbStills *stills, PlumbError *error)
{
    mirror(stills);
    const PlumbStatus status =
        plumb_trace_stills(&stills->ask, &stills->work, &stills->trace, error);
    for (int i = 0; status == PLUMB_OK && i < stills->trace.still_count; i++) {
        solve_model(stills, i);
        solve_own(stills, i);
        stills->finding_count[i] =
            plumb_still_findings(&stills->trace, i, stills->has_own[i] ? &stills->own[i] : NULL,
                                 stills->limit, stills->finding[i]);
    }
    return status;
}

double plumb_stills_difference(const PlumbStills *stills, int still, PlumbReading reading)
{
    const PlumbAnswer *const answer = &stills->answer[still];
    if (answer->outcome == PLUMB_NO_POSE) {
        return (double)NAN;
    }
    const double model =
        stills->setup.lift == PLUMB_BENCH
            ? plumb_press_reading_value(reading, &answer->setup, &stills->beside[still])
            : plumb_reading_value(reading, &stills->trace.lifter, &answer->setup, &answer->start);
    return stills->trace.still[still].value[reading] - model;
}

bool plumb_stills_told_length(const PlumbStills *stills, PlumbLength length)
{
    const double left = 0.9; /* of the spread that there was before */
    const double before = stills->body.cov_m2[length][length];
    return stills->trace.body.cov_m2[length][length] < left * left * before;
}

bool plumb_stills_shows(const PlumbStills *stills, int still, PlumbReading reading)
{
    const PlumbTraced *const traced = &stills->trace.still[still];
    const int i = (int)reading;
    if (stills->setup.lift == PLUMB_BENCH) {
        return plumb_still_press_shows(traced, reading);
    }
    const bool from_front = i == (int)PLUMB_READ_stance || i == (int)PLUMB_READ_grip ||
                            i == (int)PLUMB_READ_knee_outside || i == (int)PLUMB_ANG_frontal_shin;
    const bool of_side = i != (int)PLUMB_READ_stance && i != (int)PLUMB_READ_toes &&
                         i != (int)PLUMB_READ_knees_out && i != (int)PLUMB_READ_grip;
    return isfinite(traced->value[i]) && (traced->front ? from_front : of_side);
}

void plumb_stills_view_text(PlumbText *text, const PlumbTraced *traced)
{
    plumb_text_string(text, "from the ");
    plumb_text_string(text, plumb_traced_view(traced));
    plumb_text_string(text, traced->front && traced->setup.lift == PLUMB_BENCH ? " end" : "");
}

void plumb_stills_fit_text(PlumbText *text, const PlumbStills *stills, int still)
{
    static const double misfit_most = 2.0; /* beyond chance */
    const PlumbTraced *const traced = &stills->trace.still[still];
    plumb_text_integer(text, traced->mark_count);
    plumb_text_string(text, " marks, missed by ");
    plumb_text_fixed(text, traced->misfit, 2);
    plumb_text_string(text, " of their error in the mean");
    if (traced->misfit > misfit_most) {
        plumb_text_string(text, ": too much for chance. Look for a mark on the wrong side or the "
                                "wrong joint, ");
        plumb_text_string(text, stills->setup.lift == PLUMB_BENCH
                                    ? "which way the lifter's feet are (facing=), the bench's "
                                      "height (bench_height=), the grip, and the discs' size"
                                    : "which way the lifter faces (facing=), a bar in the air "
                                      "(floor=no), and the discs' size");
    } else if (!stills->trace.converged) {
        plumb_text_string(text, ". The search did not settle, so that the spreads may be too "
                                "small: more marks settle it");
    }
}

void plumb_stills_lead_text(PlumbText *text, const PlumbStills *stills, int still)
{
    const PlumbAnswer *const answer = &stills->answer[still];
    if (stills->setup.lift == PLUMB_BENCH) {
        plumb_still_press_lead_text(text, stills, still);
        return;
    }
    plumb_text_string(text, "The model has the same feet, hands and spine");
    if (answer->outcome == PLUMB_NO_POSE) {
        plumb_text_string(text, "; no pose of it meets them: ");
        plumb_text_string(text, plumb_constraint_text(answer->failed));
    } else if (stills->led[still] && answer->setup.lead == PLUMB_LEAD_HEIGHT_AND_BALANCE) {
        plumb_text_string(text, " and is led by hip height and balance as read");
    } else {
        plumb_text_string(text, " and is led by ");
        plumb_text_string(text, plumb_setting(plumb_setup_lead_setting(&answer->setup))->key);
        plumb_text_string(text, stills->led[still] ? " as read" : " of the set-up");
        if (!stills->led[still] && !stills->trace.still[still].front) {
            plumb_text_string(text, ", since no pose of it has the one that was read");
        }
    }
    plumb_text_string(text, ".");
}

static void add_settings(PlumbText *text, PlumbFindingId id, PlumbLift lift)
{
    PlumbSettingId setting[PLUMB_SETTING_COUNT];
    const int count = plumb_finding_settings(id, lift, setting);
    for (int i = 0; i < count; i++) {
        plumb_text_string(text, i == 0 ? " Settings that bear on it: " : ", ");
        plumb_text_string(text, plumb_setting(setting[i])->key);
    }
    plumb_text_string(text, count > 0 ? "." : "");
}

void plumb_stills_finding_text(PlumbText *text, const PlumbStills *stills, int still, int finding,
                               PlumbUnits units)
{
    const PlumbStillFinding *const one = &stills->finding[still][finding];
    plumb_finding_text(text, &one->what, units);
    plumb_text_string(text, " (± ");
    plumb_text_quantity(text, one->sd, one->what.quantity, units);
    plumb_text_string(text, ".)");
    add_settings(text, one->what.id, stills->setup.lift);
    if (one->with >= 0) {
        plumb_text_string(text, " It goes together with ");
        const size_t from = text->length;
        plumb_text_string(text, plumb_finding_name(stills->finding[still][one->with].what.id));
        for (size_t i = from; i < text->length; i++) {
            text->data[i] = text->data[i] == '_' ? ' ' : text->data[i];
        }
        plumb_text_string(text, ": either may cause the other, so change one and look again.");
    }
}
