/* SPDX-License-Identifier: MIT */
/* The masses of a figure, and the moment by which a joint holds and moves what it carries. */
#include <plumbar/dynamics.h>

#include "base/vec.h"

static const struct {
    const char *name;
    const char *text;
    int count;
} rows[PLUMB_MASS_COUNT] = {
#define X(name, text, count) [PLUMB_MASS_##name] = {#name, text, count},
    PLUMB_MASS_LIST(X)
#undef X
};

const char *plumb_mass_name(PlumbMass mass)
{
    return rows[mass].name;
}

const char *plumb_mass_text(PlumbMass mass)
{
    return rows[mass].text;
}

int plumb_mass_count(PlumbMass mass)
{
    return rows[mass].count;
}

PlumbMass plumb_joint_first_mass(PlumbJoint joint)
{
    static const PlumbMass first[PLUMB_JOINT_COUNT] = {
        [PLUMB_JOINT_ankle] = PLUMB_MASS_shank,        [PLUMB_JOINT_knee] = PLUMB_MASS_thigh,
        [PLUMB_JOINT_hip] = PLUMB_MASS_pelvis,         [PLUMB_JOINT_back] = PLUMB_MASS_thorax,
        [PLUMB_JOINT_shoulder] = PLUMB_MASS_upper_arm,
    };
    return first[joint];
}

PlumbVec3 plumb_position_joint(const PlumbPosition *position, PlumbJoint joint)
{
    static const PlumbPoint point[PLUMB_JOINT_COUNT] = {
        [PLUMB_JOINT_ankle] = PLUMB_PT_ankle,       [PLUMB_JOINT_knee] = PLUMB_PT_knee,
        [PLUMB_JOINT_hip] = PLUMB_PT_hip,           [PLUMB_JOINT_back] = PLUMB_PT_lumbar,
        [PLUMB_JOINT_shoulder] = PLUMB_PT_shoulder,
    };
    const PlumbVec3 p = position->point[point[joint]];
    return vec3(p.x, p.y, 0.0);
}

static void put(const PlumbLifter *lifter, PlumbMass id, PlumbSegmentId segment, PlumbVec3 from,
                PlumbVec3 to, PlumbMassPoint mass[PLUMB_MASS_COUNT])
{
    const PlumbSegment *row = &lifter->body.segment[segment];
    const PlumbMassPoint at = {.mass_kg =
                                   plumb_mass_count(id) * row->mass_frac * lifter->body.mass_kg,
                               .at_m = vec3_between(from, to, row->com_frac)};
    mass[id] = at;
}

/* Centres lie along their links as anthropometry/masses.csv counts them; a hanging arm begins where
 * the dropped shoulder joint is. */
void plumb_position_masses(const PlumbLifter *lifter, const PlumbSetup *setup,
                           const PlumbPosition *position, PlumbMassPoint mass[PLUMB_MASS_COUNT])
{
    const PlumbVec3 *pt = position->point;
    const PlumbVec3 mid_hip = vec3(pt[PLUMB_PT_hip].x, pt[PLUMB_PT_hip].y, 0.0);
    const PlumbVec3 mid_shoulder = vec3(pt[PLUMB_PT_shoulder].x, pt[PLUMB_PT_shoulder].y, 0.0);
    const double lean = position->pose.thorax_lean_rad;
    const PlumbVec3 head_end =
        vec3_along(mid_shoulder, lifter->body.trunk_m, vec3(sin(lean), cos(lean), 0.0));
    const double drop = setup->lift == PLUMB_DEADLIFT ? lifter->body.shoulder_drop_m : 0.0;
    const PlumbVec3 arm = vec3_between(pt[PLUMB_PT_shoulder], pt[PLUMB_PT_elbow],
                                       drop / (drop + lifter->body.upper_arm_m));
    put(lifter, PLUMB_MASS_foot, PLUMB_SEG_foot, pt[PLUMB_PT_heel], pt[PLUMB_PT_toe], mass);
    mass[PLUMB_MASS_foot].at_m.y = 0.5 * pt[PLUMB_PT_ankle].y;
    put(lifter, PLUMB_MASS_shank, PLUMB_SEG_shank, pt[PLUMB_PT_knee], pt[PLUMB_PT_ankle], mass);
    put(lifter, PLUMB_MASS_thigh, PLUMB_SEG_thigh, pt[PLUMB_PT_hip], pt[PLUMB_PT_knee], mass);
    put(lifter, PLUMB_MASS_pelvis, PLUMB_SEG_pelvis, mid_hip, pt[PLUMB_PT_lumbar], mass);
    put(lifter, PLUMB_MASS_thorax, PLUMB_SEG_thorax, pt[PLUMB_PT_lumbar], mid_shoulder, mass);
    put(lifter, PLUMB_MASS_head, PLUMB_SEG_head, mid_shoulder, head_end, mass);
    put(lifter, PLUMB_MASS_upper_arm, PLUMB_SEG_upper_arm, arm, pt[PLUMB_PT_elbow], mass);
    put(lifter, PLUMB_MASS_forearm, PLUMB_SEG_forearm, pt[PLUMB_PT_elbow], pt[PLUMB_PT_wrist],
        mass);
    put(lifter, PLUMB_MASS_hand, PLUMB_SEG_hand, pt[PLUMB_PT_wrist], pt[PLUMB_PT_grip], mass);
    mass[PLUMB_MASS_bar] = (PlumbMassPoint){.mass_kg = setup->load_kg, .at_m = pt[PLUMB_PT_bar]};
}

/* Free body: all that a joint carries. The joint's net moment about z makes good weight, inertia
 * and spin: M = Σ [(r_i - r) × m_i (a_i + g up)]_z + Σ spin rates; knee and shoulder extend the
 * other way round. At rest it is Σ m_i g (x_i - x). */
double plumb_masses_moment(const PlumbMassPoint mass[PLUMB_MASS_COUNT], PlumbJoint joint,
                           PlumbVec3 joint_m)
{
    double sum = 0.0;
    for (int i = (int)plumb_joint_first_mass(joint); i < PLUMB_MASS_COUNT; i++) {
        const PlumbMassPoint *m = &mass[i];
        sum += m->mass_kg * ((m->at_m.x - joint_m.x) * (m->acceleration_m_s2.y + PLUMB_GRAVITY) -
                             (m->at_m.y - joint_m.y) * m->acceleration_m_s2.x) +
               m->spin_rate_n_m;
    }
    return joint == PLUMB_JOINT_knee || joint == PLUMB_JOINT_shoulder ? -sum : sum;
}
