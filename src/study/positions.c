/* SPDX-License-Identifier: MIT */
/* Takes the solved positions off an answer: start or hole, lockout or standing, ends of window and
 * range, and the start that a relative hip height is counted from. */
#include "study/positions.h"

static PlumbProblem with_toes(const PlumbProblem *problem, bool over_toes)
{
    PlumbProblem turned = *problem;
    if (over_toes) {
        turned.count = 4;
        turned.free[3] = PLUMB_PSI;
        turned.constraint[3] = (PlumbConstraint){PLUMB_CON_knees_over_toes, 0.0};
    }
    return turned;
}

static PlumbState state_of(const PlumbPosition *position)
{
    return (PlumbState){.v = {[PLUMB_X] = position->pose.hip_x_m,
                              [PLUMB_Y] = position->pose.hip_height_m,
                              [PLUMB_LEAN] = position->pose.thorax_lean_rad,
                              [PLUMB_BAR_X] = position->point[PLUMB_PT_bar].x,
                              [PLUMB_BAR_Y] = position->point[PLUMB_PT_bar].y,
                              [PLUMB_PSI] = position->knees_out_rad}};
}

static void begin_start(PlumbStudy *study)
{
    const PlumbState state = state_of(&study->answer->start);
    const PlumbProblem lead = plumb_lead_problem(&study->c.setup, study->c.setup.lead);
    const PlumbProblem problem = with_toes(&lead, study->over_toes);
    study->start = plumb_spot(&study->c, &study->c.rig, &problem, &state, false);
    plumb_spot_from_setup(&study->start);
    plumb_spot_ready(&study->start);
    plumb_smooth_begin(&study->start, PLUMB_SMOOTH_COUNT, &study->start_smooth);
    study->efforts = plumb_effort_base(&study->start);
}

static void begin_lockout(PlumbStudy *study, PlumbRig *upright, const PlumbState *state)
{
    const PlumbProblem problem = {
        .count = 4,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_BAR_X, PLUMB_BAR_Y},
        .constraint = {{PLUMB_CON_knee_bend, 0.0},
                       {PLUMB_CON_reach, 0.0},
                       {PLUMB_CON_clearance, 0.0},
                       {PLUMB_CON_balance, study->answer->start.balance_frac}},
        .knee_bend_rad = 0.0,
    };
    study->end = plumb_spot(&study->c, upright, &problem, state, true);
    plumb_spot_ready(&study->end);
    plumb_smooth_begin(&study->end, PLUMB_SMOOTH_COUNT, &study->end_smooth);
}

static void begin_standing(PlumbStudy *study, PlumbRig *upright, const PlumbState *state)
{
    PlumbProblem problem = {
        .count = 3,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN},
        .constraint = {{PLUMB_CON_knee_bend, PLUMB_STANDING_BEND_RAD},
                       {PLUMB_CON_balance, 0.0},
                       {PLUMB_CON_bar_over, 0.0}},
        .knee_bend_rad = PLUMB_STANDING_BEND_RAD,
    };
    study->leaning = plumb_spot(&study->c, upright, &problem, state, true);
    plumb_spot_from_setup(&study->leaning);
    study->leaning.equation[2].kind = PLUMB_EQ_BAR_BALANCE;
    plumb_spot_ready(&study->leaning);
    plumb_smooth_begin(&study->leaning, PLUMB_SMOOTH_COUNT, &study->leaning_smooth);
    problem.count = 2;
    study->end = plumb_spot(&study->c, upright, &problem, state, true);
    plumb_spot_from_setup(&study->end);
    plumb_spot_ready(&study->end);
    plumb_smooth_begin(&study->end, PLUMB_SMOOTH_COUNT, &study->end_smooth);
    const double lean = state->v[PLUMB_LEAN];
    const double off = study->answer->standing_bar_off_m;
    study->standing_straight = lean == 0.0;
    study->standing_tied = lean < 1e-9 && fabs(off) < 1e-9;
}

static void begin_end(PlumbStudy *study)
{
    study->has_end = study->answer->end_held;
    if (!study->has_end) {
        return;
    }
    PlumbRig upright = study->c.rig;
    plumb_rig_spine(&upright, 0.0);
    const PlumbState state = state_of(&study->answer->end);
    if (study->c.setup.lift == PLUMB_DEADLIFT) {
        begin_lockout(study, &upright, &state);
    } else {
        begin_standing(study, &upright, &state);
    }
}

/* A start found again by the solver, for the leads that follow one: its pose is not part of the
 * answer. false where the solver has none. */
static bool begin_other(const PlumbStudy *study, const PlumbLifter *lifter, const PlumbSetup *setup,
                        PlumbCase *c, PlumbSpot *spot)
{
    PlumbAnswer other;
    plumb_answer_quick(lifter, setup, &other);
    if (other.outcome == PLUMB_NO_POSE) {
        return false;
    }
    plumb_case_begin(lifter, &other.setup, c);
    plumb_case_turn(c, other.start.knees_out_rad);
    const PlumbState state = state_of(&other.start);
    const PlumbProblem lead = plumb_lead_problem(&other.setup, other.setup.lead);
    const PlumbProblem problem = with_toes(&lead, study->over_toes && other.knees_over_toes_met);
    *spot = plumb_spot(c, &c->rig, &problem, &state, false);
    plumb_spot_from_setup(spot);
    plumb_spot_ready(spot);
    return true;
}

/* Where the range jumps as the knees turn, auto finds no middle that agrees with its own range: the
 * answer then hangs on where the search gave up, and has no slope. */
static bool is_settled(const PlumbAnswer *answer)
{
    const PlumbSetup *const setup = &answer->setup;
    const double led = setup->lift == PLUMB_DEADLIFT ? setup->hip_height_m : setup->shin_angle_rad;
    const PlumbInterval *const range = &answer->low_effort;
    return range->exists && fabs(0.5 * (range->low + range->high) - led) < 1e-8;
}

static bool begin_balance_led(PlumbStudy *study, const PlumbLifter *lifter, PlumbSetup setup)
{
    setup.lead = PLUMB_LEAD_BALANCE;
    setup.hip_height_relative = false;
    study->follows_balance = true;
    return begin_other(study, lifter, &setup, &study->led_case, &study->led);
}

/* auto without a range stands where the window was looked for: a squat keeps that lean of the
 * shin, a pull follows the start of that balance. false where it stands elsewhere, which hangs on
 * the steps of a scan. */
static bool begin_rangeless(PlumbStudy *study, const PlumbLifter *lifter, const PlumbSetup *asked)
{
    static const double same = 1e-8; /* m or rad */
    const PlumbSetup *const led = &study->answer->setup;
    if (asked->lift == PLUMB_SQUAT) {
        return fabs(led->shin_angle_rad - PLUMB_MIDDLING_SHIN_RAD) < same;
    }
    PlumbSetup setup = *asked;
    setup.balance_frac = PLUMB_REFERENCE_BALANCE;
    return begin_balance_led(study, lifter, setup) &&
           fabs(study->led.state.v[PLUMB_Y] - led->hip_height_m) < same;
}

/* What the lead's own quantity follows; false where that is not known. */
static bool begin_lead(PlumbStudy *study, const PlumbLifter *lifter, const PlumbSetup *asked)
{
    if (asked->hip_height_relative) {
        return begin_balance_led(study, lifter, *asked);
    }
    if (asked->lead == PLUMB_LEAD_AUTO && !study->answer->low_effort.exists &&
        begin_rangeless(study, lifter, asked)) {
        return true;
    }
    study->follows_balance = false;
    study->follows_range = asked->lead == PLUMB_LEAD_AUTO;
    study->settled = is_settled(study->answer);
    return true;
}

bool plumb_study_begin(PlumbStudy *study, const PlumbLifter *lifter, const PlumbSetup *asked,
                       const PlumbAnswer *answer)
{
    study->answer = answer;
    study->over_toes = asked->knees_over_toes && answer->knees_over_toes_met;
    study->follows_balance = false;
    study->follows_range = false;
    study->standing_straight = false;
    study->standing_tied = false;
    plumb_case_begin(lifter, &answer->setup, &study->c);
    plumb_case_turn(&study->c, answer->start.knees_out_rad);
    begin_start(study);
    begin_end(study);
    plumb_ends_begin(&study->c, &answer->window, &answer->low_effort, &study->start.state,
                     &study->ends);
    return begin_lead(study, lifter, asked);
}
