/* SPDX-License-Identifier: MIT */
/* The upright ends of both lifts: lockout of a pull, standing with the bar of a squat. */
#include "solve/case.h"

/* Straight leg, upright trunk, straight arms, bar against the thigh, balance of the start. The
 * bar's place is unknown, the lean is not. */
bool plumb_lockout_solve(const PlumbCase *c, double balance_frac, PlumbRig *rig, PlumbState *state)
{
    *rig = c->rig;
    plumb_rig_spine(rig, 0.0);
    const PlumbProblem problem = {
        .count = 4,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_BAR_X, PLUMB_BAR_Y},
        .constraint = {{PLUMB_CON_knee_bend, 0.0},
                       {PLUMB_CON_reach, 0.0},
                       {PLUMB_CON_clearance, 0.0},
                       {PLUMB_CON_balance, balance_frac}},
        .knee_bend_rad = 0.0,
    };
    const double leg = rig->shank + rig->thigh;
    const double spread = rig->hip_z - rig->ankle.z;
    const double height = sqrt(fmax(0.01 * leg * leg, leg * leg - spread * spread));
    const double hands = rig->grip_z - rig->shoulder_z;
    const double hang = sqrt(fmax(0.01 * rig->arm * rig->arm, rig->arm * rig->arm - hands * hands));
    PlumbState guess = plumb_case_guess(c);
    guess.v[PLUMB_X] = rig->ankle.x - 0.02 * leg;
    guess.v[PLUMB_Y] = rig->ankle.y + height;
    guess.v[PLUMB_LEAN] = 0.0;
    guess.v[PLUMB_BAR_X] = guess.v[PLUMB_X] + rig->thigh_half_thickness + rig->bar_radius;
    guess.v[PLUMB_BAR_Y] = guess.v[PLUMB_Y] + rig->shoulder_u - hang;
    *state = guess;
    return leg > fabs(spread) && rig->arm > fabs(hands) && plumb_newton(rig, &problem, state) &&
           plumb_on_branch(rig, state, 0.0);
}

/* Knee bend 1°, balance, bar over the balance point, straight spine; where that asks for a trunk
 * leaning back it stands upright instead and the bar's distance is reported. */
bool plumb_standing_solve(const PlumbCase *c, PlumbRig *rig, PlumbState *state, double *bar_off_m)
{
    *rig = c->rig;
    plumb_rig_spine(rig, 0.0);
    const double x = rig->heel.x + c->setup.balance_frac * (rig->toe.x - rig->heel.x);
    PlumbProblem problem = {
        .count = 3,
        .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN},
        .constraint = {{PLUMB_CON_knee_bend, PLUMB_STANDING_BEND_RAD},
                       {PLUMB_CON_balance, c->setup.balance_frac},
                       {PLUMB_CON_bar_over, x}},
        .knee_bend_rad = PLUMB_STANDING_BEND_RAD,
    };
    const double leg = rig->shank + rig->thigh;
    const double spread = rig->hip_z - rig->ankle.z;
    PlumbState guess = plumb_case_guess(c);
    guess.v[PLUMB_X] = x - 0.02 * leg;
    guess.v[PLUMB_Y] = rig->ankle.y + sqrt(fmax(0.01 * leg * leg, leg * leg - spread * spread));
    guess.v[PLUMB_LEAN] = 0.1;
    *state = guess;
    const bool leaning = plumb_newton(rig, &problem, state) && state->v[PLUMB_LEAN] >= 0.0;
    bool held = leaning && plumb_on_branch(rig, state, PLUMB_STANDING_BEND_RAD);
    if (!leaning) {
        *state = guess;
        state->v[PLUMB_LEAN] = 0.0;
        problem.count = 2;
        held = plumb_newton(rig, &problem, state) &&
               plumb_on_branch(rig, state, PLUMB_STANDING_BEND_RAD);
    }
    PlumbEval eval;
    plumb_eval(rig, state, PLUMB_STANDING_BEND_RAD, &eval);
    *bar_off_m = eval.bar.x - x;
    return held;
}
