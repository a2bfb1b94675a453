/* SPDX-License-Identifier: MIT */
/* The smooth figures of a pose as one array, and their slopes along a motion. */
#include "study/figures.h"

void plumb_smooth(const PlumbRig *rig, const PlumbSetup *setup, const PlumbState *state,
                  double knee_bend_rad, int count, PlumbSmooth *smooth)
{
    const PlumbPose q = state_pose(state);
    const PlumbVec2 pull_bar = {state->v[PLUMB_BAR_X], state->v[PLUMB_BAR_Y]};
    const PlumbVec2 bar = plumb_rig_bar(rig, q, pull_bar);
    double *const value = smooth->value;
    PlumbLeg leg;
    plumb_leg_place(rig, q.hip_x_m, q.hip_height_m, knee_bend_rad, &leg);
    double arm[PLUMB_JOINT_COUNT];
    plumb_pose_angles(rig, q, &leg, bar, value + PLUMB_SMOOTH_ANGLE);
    plumb_pose_moments(rig, q, &leg, bar, value + PLUMB_SMOOTH_MOMENT, arm);
    if (count <= PLUMB_SMOOTH_EFFORT_COUNT) {
        return;
    }
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        value[PLUMB_SMOOTH_ARM + i] = arm[i];
    }
    const PlumbVec2 com = plumb_rig_com(rig, q, leg.knee, bar);
    PlumbLoads3d loads;
    plumb_pose_loads_3d(rig, &leg, com.x, setup->feet_push_frac, &loads);
    value[PLUMB_SMOOTH_BALANCE] = plumb_rig_balance(rig, com.x);
    value[PLUMB_SMOOTH_HIP_X] = q.hip_x_m;
    value[PLUMB_SMOOTH_HIP_Y] = q.hip_height_m;
    value[PLUMB_SMOOTH_SHOULDER_X] = rig_trunk_point(q, rig->shoulder_u, rig->shoulder_v).x;
    value[PLUMB_SMOOTH_BAR_X] = bar.x;
    value[PLUMB_SMOOTH_BAR_Y] = bar.y;
    value[PLUMB_SMOOTH_KNEE_X] = leg.knee.x;
    value[PLUMB_SMOOTH_KNEE_Y] = leg.knee.y;
    value[PLUMB_SMOOTH_KNEE_Z] = leg.knee.z;
    value[PLUMB_SMOOTH_ANKLE_X] = rig->ankle.x;
    value[PLUMB_SMOOTH_ANKLE_Y] = rig->ankle.y;
    value[PLUMB_SMOOTH_ANKLE_Z] = rig->ankle.z;
    value[PLUMB_SMOOTH_TOE_LINE] = (leg.knee.z - rig->ankle.z) * rig->foot_axis.x -
                                   (leg.knee.x - rig->ankle.x) * rig->foot_axis.z;
    value[PLUMB_SMOOTH_FRONTAL_KNEE] = loads.knee_frontal_n_m;
    value[PLUMB_SMOOTH_FRONTAL_HIP] = loads.hip_frontal_n_m;
    value[PLUMB_SMOOTH_SHIN_THICKNESS] = rig->shin_half_thickness;
    value[PLUMB_SMOOTH_THIGH_THICKNESS] = rig->thigh_half_thickness;
    value[PLUMB_SMOOTH_BALANCE_POINT] =
        rig->heel.x + setup->balance_frac * (rig->toe.x - rig->heel.x);
}

/* Adds weight times from to *to. */
static void add(double weight, const PlumbSmooth *from, int count, PlumbSmooth *to)
{
    for (int i = 0; i < count; i++) {
        to->value[i] += weight * from->value[i];
    }
}

/* The turn of the leg's plane moves a position only where it is solved. */
static bool moves(const PlumbSpot *spot, int unknown)
{
    return plumb_spot_is_free(spot, (PlumbUnknown)unknown) ||
           (unknown == PLUMB_PSI && spot->c->setup.knees_over_toes);
}

void plumb_smooth_begin(const PlumbSpot *spot, int count, PlumbSmoothBase *base)
{
    *base = (PlumbSmoothBase){.count = count};
    for (int u = 0; u < PLUMB_UNKNOWN_COUNT; u++) {
        for (int k = 0; k < PLUMB_STENCIL && moves(spot, u); k++) {
            PlumbRig rig;
            PlumbSmooth at;
            const PlumbState state = plumb_spot_step(spot, (PlumbUnknown)u, k, &rig);
            plumb_smooth(&rig, &spot->c->setup, &state, spot->knee_bend_rad, count, &at);
            add(plumb_stencil_weight[k] / PLUMB_STEP_V, &at, count, &base->by[u]);
        }
    }
}

PlumbSmooth plumb_smooth_slope(const PlumbSpot *spot, const PlumbSmoothBase *base,
                               const PlumbVary *vary, const PlumbMotion *motion)
{
    PlumbSmooth slope = {{0.0}};
    for (int k = 0; vary != NULL && k < PLUMB_STENCIL; k++) {
        PlumbSmooth at;
        const PlumbState state = plumb_spot_held(spot, vary, k);
        plumb_smooth(plumb_spot_rig(spot, vary, k), &vary->at[k].setup, &state, spot->knee_bend_rad,
                     base->count, &at);
        add(plumb_stencil_weight[k] / vary->h, &at, base->count, &slope);
    }
    for (int u = 0; u < PLUMB_UNKNOWN_COUNT; u++) {
        if (moves(spot, u)) {
            add(motion->dv[u], &base->by[u], base->count, &slope);
        }
    }
    return slope;
}
