/* SPDX-License-Identifier: MIT */
/* A lifter and a set-up with one factor moved a little to both sides, as rigs. */
#include "study/vary.h"

const double plumb_stencil_at[PLUMB_STENCIL] = {-2.0, -1.0, 1.0, 2.0};
const double plumb_stencil_weight[PLUMB_STENCIL] = {1.0 / 12.0, -8.0 / 12.0, 8.0 / 12.0,
                                                    -1.0 / 12.0};

/* Side steps: small against a limb (the fourth-order error is then below 1e-12), large against
 * rounding. */
static const double step_length = 4e-4; /* m, rad, fractions */
static const double step_mass_kg = 0.05;

/* A squat's elbow moves without bound as its arm becomes straight: steps stay well inside. */
static double arm_room(const PlumbRig *rig)
{
    if (rig->lift == PLUMB_DEADLIFT) {
        return 1.0;
    }
    const PlumbVec3 shoulder = vec3(0.0, 0.0, rig->shoulder_z);
    const PlumbVec3 grip =
        vec3(rig->bar_u - rig->shoulder_u, rig->bar_v - rig->shoulder_v, rig->grip_z);
    const double span = vec3_length(vec3_sub(grip, shoulder));
    const double lower = rig->forearm + rig->hand;
    return fmin(fabs(rig->upper_arm + lower - span), fabs(span - fabs(rig->upper_arm - lower)));
}

static void build(const PlumbLifter *lifter, const PlumbSetup *setup, double knees_out_rad,
                  PlumbVariant *variant)
{
    variant->setup = *setup;
    plumb_rig_build(lifter, setup, setup->spine_rad, knees_out_rad, &variant->rig);
    variant->upright = variant->rig;
    plumb_rig_spine(&variant->upright, 0.0);
    variant->bar.x = setup->bar_over_m;
    variant->bar.y = plumb_bar_start_height_m(lifter, setup);
}

void plumb_vary_begin(const PlumbLifter *lifter, const PlumbSetup *setup, double knees_out_rad,
                      const PlumbFactor *factor, PlumbVary *vary)
{
    PlumbRig rig;
    plumb_rig_build(lifter, setup, setup->spine_rad, knees_out_rad, &rig);
    vary->factor = factor;
    vary->h = factor->quantity == PLUMB_Q_MASS ? step_mass_kg : step_length;
    vary->h = fmax(1e-7, fmin(vary->h, 0.02 * arm_room(&rig)));
    vary->capacity_slope = factor->kind == PLUMB_FACTOR_MASS ? 1.0 / lifter->body.mass_kg : 0.0;
    const bool turns =
        factor->kind == PLUMB_FACTOR_SETTING && factor->setting == PLUMB_SET_knees_out;
    for (int k = 0; k < PLUMB_STENCIL; k++) {
        PlumbLifter moved = *lifter;
        PlumbSetup at = *setup;
        plumb_factor_move(factor, vary->h * plumb_stencil_at[k], &moved, &at);
        build(&moved, &at, turns ? at.knees_out_rad : knees_out_rad, &vary->at[k]);
    }
}

void plumb_vary_turn(PlumbVary *vary, double knees_out_rad)
{
    for (int k = 0; k < PLUMB_STENCIL; k++) {
        plumb_rig_knees_out(&vary->at[k].rig, knees_out_rad);
        plumb_rig_knees_out(&vary->at[k].upright, knees_out_rad);
    }
}
