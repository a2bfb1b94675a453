/* SPDX-License-Identifier: MIT */
/* One lifter in one set-up while it is being solved: problems of the leads, guesses, branches. */
#include "solve/case.h"

#include <assert.h>

void plumb_case_begin(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbCase *c)
{
    assert(setup->lift != PLUMB_BENCH); /* a press has its own solver */
    c->lifter = lifter;
    c->setup = *setup;
    c->knees_out_rad = setup->knees_over_toes ? 0.0 : setup->knees_out_rad;
    plumb_rig_build(lifter, setup, setup->spine_rad, c->knees_out_rad, &c->rig);
    plumb_capacity_build(lifter, setup->lift, &c->capacity);
    const bool pull = setup->lift == PLUMB_DEADLIFT;
    c->bar.x = pull ? setup->bar_over_m : 0.0;
    c->bar.y = pull ? plumb_bar_start_height_m(lifter, setup) : 0.0;
}

void plumb_case_turn(PlumbCase *c, double knees_out_rad)
{
    c->knees_out_rad = knees_out_rad;
    plumb_rig_knees_out(&c->rig, knees_out_rad);
}

/* What each lead asks of a pose, beside its own quantity. */
typedef struct LeadRow {
    PlumbConstraintId constraint[3];
} LeadRow;

static const LeadRow lead_rows[PLUMB_LIFT_COUNT][PLUMB_LEAD_COUNT] = {
    [PLUMB_DEADLIFT] =
        {
            [PLUMB_LEAD_BALANCE] = {{PLUMB_CON_reach, PLUMB_CON_clearance, PLUMB_CON_balance}},
            [PLUMB_LEAD_HIP_HEIGHT] = {{PLUMB_CON_reach, PLUMB_CON_clearance,
                                        PLUMB_CON_hip_height}},
            [PLUMB_LEAD_BACK_ANGLE] = {{PLUMB_CON_reach, PLUMB_CON_clearance,
                                        PLUMB_CON_back_angle}},
            [PLUMB_LEAD_SHIN_ANGLE] = {{PLUMB_CON_reach, PLUMB_CON_clearance,
                                        PLUMB_CON_shin_angle}},
            [PLUMB_LEAD_AUTO] = {{PLUMB_CON_reach, PLUMB_CON_clearance, PLUMB_CON_hip_height}},
            [PLUMB_LEAD_HEIGHT_AND_BALANCE] = {{PLUMB_CON_reach, PLUMB_CON_hip_height,
                                                PLUMB_CON_balance}},
        },
    [PLUMB_SQUAT] =
        {
            [PLUMB_LEAD_BALANCE] = {{PLUMB_CON_depth, PLUMB_CON_balance, PLUMB_CON_shin_angle}},
            [PLUMB_LEAD_HIP_HEIGHT] = {{PLUMB_CON_depth, PLUMB_CON_balance, PLUMB_CON_hip_height}},
            [PLUMB_LEAD_BACK_ANGLE] = {{PLUMB_CON_depth, PLUMB_CON_balance, PLUMB_CON_back_angle}},
            [PLUMB_LEAD_SHIN_ANGLE] = {{PLUMB_CON_depth, PLUMB_CON_balance, PLUMB_CON_shin_angle}},
            [PLUMB_LEAD_AUTO] = {{PLUMB_CON_depth, PLUMB_CON_balance, PLUMB_CON_shin_angle}},
            [PLUMB_LEAD_HEIGHT_AND_BALANCE] = {{PLUMB_CON_depth, PLUMB_CON_balance,
                                                PLUMB_CON_hip_height}},
        },
};

static double setup_target(const PlumbSetup *setup, PlumbConstraintId id)
{
    const double target[PLUMB_CONSTRAINT_COUNT] = {
        [PLUMB_CON_balance] = setup->balance_frac,
        [PLUMB_CON_hip_height] = setup->hip_height_m,
        [PLUMB_CON_shin_angle] = setup->shin_angle_rad,
        [PLUMB_CON_back_angle] = setup->back_angle_rad,
        [PLUMB_CON_depth] = setup->depth_m,
        [PLUMB_CON_bar_over] = setup->bar_over_m,
    };
    return target[id];
}

PlumbProblem plumb_lead_problem(const PlumbSetup *setup, PlumbLead lead)
{
    PlumbProblem problem = {
        .count = 3, .free = {PLUMB_X, PLUMB_Y, PLUMB_LEAN}, .knee_bend_rad = -1.0};
    for (int i = 0; i < 3; i++) {
        const PlumbConstraintId id = lead_rows[setup->lift][lead].constraint[i];
        problem.constraint[i].id = id;
        problem.constraint[i].target = setup_target(setup, id);
    }
    return problem;
}

PlumbState plumb_case_guess(const PlumbCase *c)
{
    const PlumbRig *rig = &c->rig;
    const double leg = rig->shank + rig->thigh;
    const bool pull = rig->lift == PLUMB_DEADLIFT;
    const PlumbState guess = {.v = {[PLUMB_X] = rig->ankle.x - (pull ? 0.34 : 0.22) * leg,
                                    [PLUMB_Y] = rig->ankle.y + (pull ? 0.69 : 0.42) * leg,
                                    [PLUMB_LEAN] = pull ? 1.17 : 0.72,
                                    [PLUMB_BAR_X] = c->bar.x,
                                    [PLUMB_BAR_Y] = c->bar.y,
                                    [PLUMB_PSI] = c->knees_out_rad}};
    return guess;
}

bool plumb_on_branch(const PlumbRig *rig, const PlumbState *state, double knee_bend_rad)
{
    const double lean = state->v[PLUMB_LEAN];
    if (!(lean >= degrees(-10.0) && lean <= degrees(100.0))) {
        return false;
    }
    if (knee_bend_rad >= 0.0) {
        return true;
    }
    PlumbLeg leg;
    plumb_leg_place(rig, state->v[PLUMB_X], state->v[PLUMB_Y], knee_bend_rad, &leg);
    return leg.reaches && leg.hip.x < leg.knee.x && leg.hip.y > 0.0;
}

void plumb_case_describe(const PlumbCase *c, const PlumbRig *rig, const PlumbState *state,
                         double knee_bend_rad, PlumbPosition *position)
{
    plumb_position_describe(c->lifter, &c->setup, state_pose(state), rig->spine_rad,
                            c->knees_out_rad, state->v[PLUMB_BAR_X], state->v[PLUMB_BAR_Y],
                            knee_bend_rad, position);
}

double plumb_case_effort(const PlumbCase *c, const PlumbState *state, unsigned *extrapolated)
{
    const PlumbPose q = state_pose(state);
    const PlumbVec2 pull_bar = {state->v[PLUMB_BAR_X], state->v[PLUMB_BAR_Y]};
    const PlumbVec2 bar = plumb_rig_bar(&c->rig, q, pull_bar);
    PlumbLeg leg;
    plumb_leg_place(&c->rig, q.hip_x_m, q.hip_height_m, -1.0, &leg);
    double moment[PLUMB_JOINT_COUNT];
    double arm[PLUMB_JOINT_COUNT];
    plumb_pose_moments(&c->rig, q, &leg, bar, moment, arm);
    double angle[PLUMB_ANGLE_COUNT];
    plumb_pose_angles(&c->rig, q, &leg, bar, angle);
    PlumbEffort effort;
    plumb_pose_effort(&c->capacity, moment, angle[PLUMB_ANG_ankle_dorsiflexion],
                      angle[PLUMB_ANG_knee_flexion], angle[PLUMB_ANG_hip_thorax_thigh],
                      angle[PLUMB_ANG_shoulder_flexion], &effort);
    if (extrapolated != NULL) {
        *extrapolated = effort.extrapolated;
    }
    return effort.summed;
}
