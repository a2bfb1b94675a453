/* SPDX-License-Identifier: MIT */
/* What each joint can supply at its angle, and the share of it that a pose asks for. */
#include "model/measure.h"

#include "tables.h"

/* Published capacities T = m g H C1 cos(C2 (angle - C3)) of one limb (Anderson, Madigan & Nussbaum
 * 2007); extension where the net moment is positive, else the antagonist's row. */
static const PlumbAction action_of[3][2] = {
    [PLUMB_JOINT_ankle] = {PLUMB_ACTION_ankle_plantarflexion, PLUMB_ACTION_ankle_dorsiflexion},
    [PLUMB_JOINT_knee] = {PLUMB_ACTION_knee_extension, PLUMB_ACTION_knee_flexion},
    [PLUMB_JOINT_hip] = {PLUMB_ACTION_hip_extension, PLUMB_ACTION_hip_flexion},
};

static const PlumbHeld held_of[3] = {
    [PLUMB_JOINT_ankle] = PLUMB_HELD_ankle,
    [PLUMB_JOINT_knee] = PLUMB_HELD_knee,
    [PLUMB_JOINT_hip] = PLUMB_HELD_hip,
};

/* The two age rows between which a capacity is interpolated: its value, not its coefficients. Age
 * 18 to 25 up to 25, 55 to 65 from 55, over 65 from 65; no age given counts as young. */
static void age_rows(double age_years, PlumbAge *younger, PlumbAge *older, double *blend)
{
    *younger = PLUMB_AGE_18_TO_25;
    *older = PLUMB_AGE_55_TO_65;
    *blend = clamp((age_years - 25.0) / 30.0, 0.0, 1.0);
    if (age_years >= 65.0) {
        *older = PLUMB_AGE_OVER_65;
    }
}

static void build_limbs(const PlumbBody *body, PlumbCapacity *capacity)
{
    const double size = body->mass_kg * PLUMB_GRAVITY * body->stature_m;
    PlumbAge age[2];
    age_rows(body->age_years, &age[0], &age[1], &capacity->blend);
    for (int joint = 0; joint < 3; joint++) {
        for (int direction = 0; direction < 2; direction++) {
            for (int i = 0; i < 2; i++) {
                const PlumbCapacityRow *row =
                    &plumb_table_capacity[body->sex][action_of[joint][direction]][age[i]];
                const PlumbCurve curve = {size * row->c1, row->c2, row->c3};
                capacity->curve[joint][direction][i] = curve;
            }
        }
    }
}

/* Back and shoulder rest on one published person, scaled by m g H. The back is taken at one angle
 * whatever the spine does, so that rounding it never earns capacity. */
static void build_upper(const PlumbBody *body, PlumbCapacity *capacity)
{
    static const PlumbUpperAction back[2] = {PLUMB_UPPER_lumbar_extension,
                                             PLUMB_UPPER_lumbar_flexion};
    static const PlumbUpperAction shoulder[2] = {PLUMB_UPPER_shoulder_extension,
                                                 PLUMB_UPPER_shoulder_flexion};
    const double back_angle = plumb_table_held[PLUMB_HELD_back].least_rad;
    for (int direction = 0; direction < 2; direction++) {
        const PlumbUpperRow *b = &plumb_table_upper[back[direction]];
        const PlumbUpperRow *s = &plumb_table_upper[shoulder[direction]];
        const double size = body->mass_kg * body->stature_m;
        const double off = (back_angle - b->centre_rad) / b->width_rad;
        capacity->back_n_m[direction] =
            size / (b->person_mass_kg * b->person_stature_m) * b->tmax_n_m * exp(-0.5 * off * off);
        capacity->shoulder_peak_n_m[direction] =
            size / (s->person_mass_kg * s->person_stature_m) * s->tmax_n_m;
        capacity->shoulder_centre[direction] = s->centre_rad;
        capacity->shoulder_width[direction] = s->width_rad;
    }
}

void plumb_capacity_build(const PlumbLifter *lifter, PlumbLift lift, PlumbCapacity *capacity)
{
    build_limbs(&lifter->body, capacity);
    build_upper(&lifter->body, capacity);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        capacity->multiplier[i] = lifter->strength[i];
    }
    capacity->counts_shoulder = lift == PLUMB_DEADLIFT;
}

static double curve_value(const PlumbCurve *curve, double angle)
{
    return curve->scale_n_m * cos(curve->c2 * (angle - curve->c3));
}

static double limb_capacity(const PlumbCapacity *capacity, int joint, int direction, double angle,
                            unsigned *extrapolated)
{
    const PlumbHeldRow *held = &plumb_table_held[held_of[joint]];
    const double at = clamp(angle, held->least_rad, held->greatest_rad);
    if (at != angle) {
        *extrapolated |= 1U << joint;
    }
    const PlumbCurve *curve = capacity->curve[joint][direction];
    const double young = curve_value(&curve[0], at);
    if (capacity->blend <= 0.0) {
        return young;
    }
    return young + capacity->blend * (curve_value(&curve[1], at) - young);
}

void plumb_pose_effort(const PlumbCapacity *capacity, const double moment_n_m[PLUMB_JOINT_COUNT],
                       double dorsiflexion, double knee_flexion, double hip_thorax_thigh,
                       double shoulder_flexion, PlumbEffort *effort)
{
    const double angle[3] = {dorsiflexion, knee_flexion, hip_thorax_thigh};
    effort->extrapolated = 0;
    for (int joint = 0; joint < 3; joint++) {
        const int direction = moment_n_m[joint] >= 0.0 ? 0 : 1;
        effort->capacity_n_m[joint] =
            capacity->multiplier[joint] *
            limb_capacity(capacity, joint, direction, angle[joint], &effort->extrapolated);
        effort->relative[joint] = 0.5 * fabs(moment_n_m[joint]) / effort->capacity_n_m[joint];
    }
    const double back = moment_n_m[PLUMB_JOINT_back];
    effort->capacity_n_m[PLUMB_JOINT_back] =
        capacity->multiplier[PLUMB_JOINT_back] * capacity->back_n_m[back >= 0.0 ? 0 : 1];
    effort->relative[PLUMB_JOINT_back] = fabs(back) / effort->capacity_n_m[PLUMB_JOINT_back];
    effort->capacity_n_m[PLUMB_JOINT_shoulder] = 0.0;
    effort->relative[PLUMB_JOINT_shoulder] = 0.0;
    if (capacity->counts_shoulder) {
        const double shoulder = moment_n_m[PLUMB_JOINT_shoulder];
        const int direction = shoulder >= 0.0 ? 0 : 1;
        const double off = (shoulder_flexion - capacity->shoulder_centre[direction]) /
                           capacity->shoulder_width[direction];
        effort->capacity_n_m[PLUMB_JOINT_shoulder] = capacity->multiplier[PLUMB_JOINT_shoulder] *
                                                     capacity->shoulder_peak_n_m[direction] *
                                                     exp(-0.5 * off * off);
        effort->relative[PLUMB_JOINT_shoulder] =
            0.5 * fabs(shoulder) / effort->capacity_n_m[PLUMB_JOINT_shoulder];
    }
    /* Summed cubes rank poses of one lifter at one load (form of the criterion of Crowninshield &
     * Brand 1981, J Biomech 14(11):793-801, citation from memory, borrowed for joint moments). */
    effort->summed = 0.0;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        effort->summed += effort->relative[i] * effort->relative[i] * effort->relative[i];
    }
}
