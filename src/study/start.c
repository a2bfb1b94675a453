/* SPDX-License-Identifier: MIT */
/* A lifter's own start: where it lies, what to expect, and the knee as what leads. */
#include <plumbar/start.h>

#include <plumbar/quantity.h>

#include "solve/case.h"

#include <stddef.h>
#include <string.h>

const char *plumb_place_name(PlumbPlace place)
{
    static const char *const names[] = {"below", "inside", "above", "none"};
    return names[place];
}

static PlumbPlace place_in(const PlumbInterval *interval, double s, double *off)
{
    const double slack = 1e-9;
    *off = 0.0;
    if (!interval->exists) {
        return PLUMB_PLACE_NONE;
    }
    if (s < interval->low - slack) {
        *off = interval->low - s;
        return PLUMB_PLACE_BELOW;
    }
    if (s > interval->high + slack) {
        *off = s - interval->high;
        return PLUMB_PLACE_ABOVE;
    }
    return PLUMB_PLACE_INSIDE;
}

void plumb_own_start(const PlumbAnswer *answer, PlumbOwnStart *own)
{
    const PlumbPosition *const start = &answer->start;
    const bool held = answer->outcome != PLUMB_NO_POSE;
    *own = (PlumbOwnStart){.hip_height_m = held ? start->pose.hip_height_m : (double)NAN,
                           .back_angle_rad = start->angle_rad[PLUMB_ANG_back],
                           .shin_angle_rad = start->angle_rad[PLUMB_ANG_shin],
                           .balance_frac = start->balance_frac,
                           .window = PLUMB_PLACE_NONE,
                           .low_effort = PLUMB_PLACE_NONE,
                           .window_is = answer->window,
                           .low_effort_is = answer->low_effort,
                           .hip_rise_m = answer->expected_hip_rise_m,
                           .hip_rise_end = answer->hip_rise_end};
    if (held) {
        own->window = place_in(&answer->window, own->hip_height_m, &own->window_off_m);
        own->low_effort = place_in(&answer->low_effort, own->hip_height_m, &own->low_effort_off_m);
    }
}

static void place_text(PlumbText *text, const char *what, PlumbPlace place, double off,
                       const PlumbInterval *interval, PlumbUnits units)
{
    if (place == PLUMB_PLACE_INSIDE) {
        plumb_text_string(text, "inside ");
    } else {
        plumb_text_quantity(text, off, PLUMB_Q_LENGTH, units);
        plumb_text_string(text, place == PLUMB_PLACE_BELOW ? " below " : " above ");
    }
    plumb_text_string(text, what);
    plumb_text_string(text, " (");
    plumb_text_quantity(text, interval->low, PLUMB_Q_LENGTH, units);
    plumb_text_string(text, " to ");
    plumb_text_quantity(text, interval->high, PLUMB_Q_LENGTH, units);
    plumb_text_string(text, ")");
}

void plumb_own_start_text(PlumbText *text, const PlumbOwnStart *own, PlumbUnits units)
{
    if (own->window == PLUMB_PLACE_NONE) {
        plumb_text_string(text, isnan(own->hip_height_m)
                                    ? "No pose is held this way."
                                    : "No start of this set-up meets all requirements, so that "
                                      "there is no window to compare with.");
        return;
    }
    plumb_text_string(text, "The hips stand ");
    plumb_text_quantity(text, own->hip_height_m, PLUMB_Q_LENGTH, units);
    plumb_text_string(text, " above the floor: ");
    place_text(text, "the start window", own->window, own->window_off_m, &own->window_is, units);
    plumb_text_string(text, ", ");
    place_text(text, "the low-effort range", own->low_effort, own->low_effort_off_m,
               &own->low_effort_is, units);
    plumb_text_string(text, ". ");
    if (own->hip_rise_m > 0.0) {
        plumb_text_string(text, "Expect the hips to rise ");
        plumb_text_quantity(text, own->hip_rise_m, PLUMB_Q_LENGTH, units);
        plumb_text_string(text, " before the bar leaves the floor: from here ");
        plumb_text_string(text, plumb_end_text(own->hip_rise_end));
        plumb_text_string(text, ".");
    } else {
        plumb_text_string(text, "No rise of the hips before the bar is expected.");
    }
}

static PlumbStatus refuse(PlumbError *error, const char *quoted, const char *what)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_quoted(&text, quoted, strlen(quoted));
    plumb_text_string(&text, what);
    return plumb_error_set(error, PLUMB_BAD_INPUT, "knee", message);
}

/* The start whose shin leans this much. A bar against the shin fixes its lean, whatever the hips
 * do, so that the bar is let go here: the knee pushes it or leaves a gap, and the answer says so.
 */
static bool start_by_shin(const PlumbCase *c, double shin_rad, PlumbState *state)
{
    const bool own_height = c->setup.lead == PLUMB_LEAD_HIP_HEIGHT && !c->setup.hip_height_relative;
    const PlumbConstraint third = {own_height ? PLUMB_CON_hip_height : PLUMB_CON_balance,
                                   own_height ? c->setup.hip_height_m : c->setup.balance_frac};
    const PlumbProblem problem = {
        .count = 3,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN},
        .constraint = {{PLUMB_CON_reach, 0.0}, {PLUMB_CON_shin_angle, shin_rad}, third},
        .knee_bend_rad = -1.0,
    };
    PlumbConstraintId failed;
    double miss;
    return plumb_case_meet(c, &problem, state, &failed, &miss);
}

/* The start whose knee stands this far ahead of the toe tips in the side view: the lean is mended
 * until it does. The flesh over the knee is taken as thick as that over the shin. */
static bool start_by_knee(const PlumbCase *c, double ahead_m, PlumbState *state)
{
    enum { ROUNDS = 30 };
    const double want = c->rig.toe.x + ahead_m - c->rig.shin_half_thickness;
    double shin = asin(clamp((want - c->rig.ankle.x) / c->rig.shank, -0.9, 0.9));
    for (int i = 0; i < ROUNDS; i++) {
        if (!start_by_shin(c, shin, state)) {
            return false;
        }
        PlumbEval eval;
        plumb_eval(&c->rig, state, -1.0, &eval);
        const double off = want - eval.leg.knee.x;
        if (fabs(off) < 1e-10) {
            return true;
        }
        shin += off / (eval.leg.knee.y - c->rig.ankle.y);
    }
    return false;
}

PlumbStatus plumb_own_knee(const PlumbLifter *lifter, PlumbSetup *setup, const char *text,
                           PlumbError *error)
{
    if (setup->lift != PLUMB_DEADLIFT) {
        return refuse(error, text, ": the own start is one of the deadlift");
    }
    double value;
    PlumbCase c;
    plumb_case_begin(lifter, setup, &c);
    PlumbState state = plumb_case_guess(&c);
    bool held;
    if (plumb_quantity_read(text, strlen(text), PLUMB_Q_ANGLE, &value, NULL) == PLUMB_OK) {
        held = start_by_shin(&c, value, &state);
    } else if (plumb_quantity_read(text, strlen(text), PLUMB_Q_LENGTH, &value, NULL) == PLUMB_OK) {
        held = start_by_knee(&c, value, &state);
    } else {
        return refuse(
            error, text,
            ": give the shin's lean (\"12 deg\") or how far the knee is ahead of the toes "
            "(\"-3 cm\")");
    }
    if (!held) {
        return refuse(error, text, ": no start of this lifter has the knee there");
    }
    PlumbEval eval;
    plumb_eval(&c.rig, &state, -1.0, &eval);
    PlumbSetup own = *setup;
    own.hip_height_relative = false;
    own.hip_height_m = state.v[PLUMB_Y];
    own.balance_frac = plumb_constraint_value(&eval, PLUMB_CON_balance, NULL);
    own.lead = PLUMB_LEAD_HEIGHT_AND_BALANCE;
    if (plumb_setup_check(&own, NULL) != PLUMB_OK) {
        return refuse(error, text, ": with the knee there the balance would leave the foot");
    }
    *setup = own;
    return PLUMB_OK;
}
