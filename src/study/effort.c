/* SPDX-License-Identifier: MIT */
/* Slopes of the relative and summed efforts: d(|M| / T) with the capacity's curve by its angle. */
#include "study/figures.h"

#include "tables.h"

static const double edge_rad = 1e-9;
static const double zero_n_m = 1e-9;

/* The angle at which each joint's capacity is read. */
static const PlumbAngle angle_of[PLUMB_JOINT_COUNT] = {
    [PLUMB_JOINT_ankle] = PLUMB_ANG_ankle_dorsiflexion,
    [PLUMB_JOINT_knee] = PLUMB_ANG_knee_flexion,
    [PLUMB_JOINT_hip] = PLUMB_ANG_hip_thorax_thigh,
    [PLUMB_JOINT_back] = PLUMB_ANG_back, /* not read: the back has one capacity */
    [PLUMB_JOINT_shoulder] = PLUMB_ANG_shoulder_flexion,
};

static const PlumbHeld held_of[3] = {
    [PLUMB_JOINT_ankle] = PLUMB_HELD_ankle,
    [PLUMB_JOINT_knee] = PLUMB_HELD_knee,
    [PLUMB_JOINT_hip] = PLUMB_HELD_hip,
};

PlumbEffortBase plumb_effort_base(const PlumbSpot *spot)
{
    PlumbEffortBase base;
    plumb_smooth(&spot->rig, &spot->c->setup, &spot->state, spot->knee_bend_rad,
                 PLUMB_SMOOTH_EFFORT_COUNT, &base.smooth);
    const double *const angle = base.smooth.value + PLUMB_SMOOTH_ANGLE;
    plumb_pose_effort(&spot->c->capacity, base.smooth.value + PLUMB_SMOOTH_MOMENT,
                      angle[PLUMB_ANG_ankle_dorsiflexion], angle[PLUMB_ANG_knee_flexion],
                      angle[PLUMB_ANG_hip_thorax_thigh], angle[PLUMB_ANG_shoulder_flexion],
                      &base.effort);
    return base;
}

/* Whether the capacity is held at an edge for an angle that moves at this rate. */
static bool is_held(int joint, double angle, double rate, unsigned *kink)
{
    const PlumbHeldRow *const row = &plumb_table_held[held_of[joint]];
    const bool low_edge = fabs(angle - row->least_rad) < edge_rad;
    const bool high_edge = fabs(angle - row->greatest_rad) < edge_rad;
    if (low_edge || high_edge) {
        *kink |= PLUMB_KINK_CAPACITY_EDGE;
        return low_edge ? rate < 0.0 : rate > 0.0;
    }
    return angle < row->least_rad || angle > row->greatest_rad;
}

/* T = scale cos(c2 (angle - c3)), two ages blended: dT/dangle. */
static double curve_slope(const PlumbCapacity *capacity, int joint, int direction, double angle)
{
    double slope[2];
    for (int i = 0; i < 2; i++) {
        const PlumbCurve *const curve = &capacity->curve[joint][direction][i];
        slope[i] = -curve->scale_n_m * curve->c2 * sin(curve->c2 * (angle - curve->c3));
    }
    const double blend = fmax(0.0, capacity->blend);
    return capacity->multiplier[joint] * (slope[0] + blend * (slope[1] - slope[0]));
}

static double capacity_by_angle(const PlumbCapacity *capacity, const PlumbEffortBase *base,
                                int joint, double rate, double direction, unsigned *kink)
{
    const double angle = base->smooth.value[PLUMB_SMOOTH_ANGLE + angle_of[joint]];
    const int sense = base->smooth.value[PLUMB_SMOOTH_MOMENT + joint] >= 0.0 ? 0 : 1;
    if (joint == PLUMB_JOINT_back) {
        return 0.0;
    }
    if (joint == PLUMB_JOINT_shoulder) {
        const double width = capacity->shoulder_width[sense];
        const double off = (angle - capacity->shoulder_centre[sense]) / width;
        return -off / width * base->effort.capacity_n_m[joint];
    }
    return is_held(joint, angle, direction * rate, kink)
               ? 0.0
               : curve_slope(capacity, joint, sense, angle);
}

/* The capacity that a moment meets which leaves zero towards its antagonist or its own side. */
static double capacity_on_side(const PlumbCapacity *capacity, const PlumbEffortBase *base,
                               int joint, bool positive)
{
    double moment[PLUMB_JOINT_COUNT];
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        moment[i] = positive ? 1.0 : -1.0;
    }
    const double *const angle = base->smooth.value + PLUMB_SMOOTH_ANGLE;
    PlumbEffort effort;
    plumb_pose_effort(capacity, moment, angle[PLUMB_ANG_ankle_dorsiflexion],
                      angle[PLUMB_ANG_knee_flexion], angle[PLUMB_ANG_hip_thorax_thigh],
                      angle[PLUMB_ANG_shoulder_flexion], &effort);
    return effort.capacity_n_m[joint];
}

PlumbEffortSlope plumb_effort_slope(const PlumbCapacity *capacity, const PlumbEffortBase *base,
                                    const PlumbSmooth *slope, double capacity_slope,
                                    double direction)
{
    PlumbEffortSlope result = {.summed = 0.0};
    for (int joint = 0; joint < PLUMB_JOINT_COUNT; joint++) {
        if (joint == PLUMB_JOINT_shoulder && !capacity->counts_shoulder) {
            continue;
        }
        const double share = joint == PLUMB_JOINT_back ? 1.0 : 0.5;
        const double moment = base->smooth.value[PLUMB_SMOOTH_MOMENT + joint];
        const double by_moment = slope->value[PLUMB_SMOOTH_MOMENT + joint];
        const double relative = base->effort.relative[joint];
        if (fabs(moment) < zero_n_m) {
            const bool positive = direction * by_moment >= 0.0;
            result.relative[joint] = direction * fabs(by_moment) * share /
                                     capacity_on_side(capacity, base, joint, positive);
            result.kink |= PLUMB_KINK_MOMENT_SIGN;
            continue;
        }
        const double rate = slope->value[PLUMB_SMOOTH_ANGLE + angle_of[joint]];
        const double strength = base->effort.capacity_n_m[joint];
        const double by_angle =
            capacity_by_angle(capacity, base, joint, rate, direction, &result.kink);
        result.relative[joint] = (moment > 0.0 ? by_moment : -by_moment) * share / strength -
                                 relative * (by_angle * rate / strength + capacity_slope);
        result.summed += 3.0 * relative * relative * result.relative[joint];
    }
    return result;
}
