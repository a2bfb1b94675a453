/* SPDX-License-Identifier: MIT */
/* Lifts in motion whose figure is a chain in one plane, so that a general program for such chains
 * can answer the same question. */
#ifndef PLUMBAR_TESTS_MOTION_H
#define PLUMBAR_TESTS_MOTION_H

#include <plumbar/dynamics.h>

#include "base/vec.h"

#include "compare.h"

enum {
    MOTION_LIFTERS = 50,
    MOTION_INSTANTS = 21, /* along the way of each, both ends at rest */
    MOTION_ROWS = MOTION_LIFTERS * MOTION_INSTANTS
};

/* A lifter, what is lifted, and the instants of the way up. */
typedef struct MotionCase {
    PlumbLifter lifter;
    PlumbAnswer answer;
    double rep_time_s;
    PlumbMotionPoint point[MOTION_INSTANTS];
    PlumbMotionFacts facts;
} MotionCase;

/* planar: feet as far apart as the hip joints, pointing ahead, so that each leg moves in a plane.
 * False where no lift in motion comes out of this seed. */
static inline bool motion_try(uint64_t seed, bool planar, MotionCase *one)
{
    Random random = random_begin(seed);
    one->lifter = random_lifter(&random);
    const PlumbLift lift = seed % 2 == 0 ? PLUMB_DEADLIFT : PLUMB_SQUAT;
    PlumbSetup setup = random_setup(&random, &one->lifter, lift);
    one->rep_time_s = random_between(&random, 0.6, 4.0);
    if (planar) {
        setup.stance_m = one->lifter.body.hip_joint_spacing_m;
        setup.toes_rad = 0.0;
        setup.knees_out_rad = 0.0;
        setup.knees_over_toes = false;
    }
    if (!one->lifter.body.has_radii) {
        return false;
    }
    plumb_answer_quick(&one->lifter, &setup, &one->answer);
    PlumbError error;
    return one->answer.outcome != PLUMB_NO_POSE && one->answer.end_held &&
           plumb_motion_solve(&one->lifter, &one->answer, one->rep_time_s, MOTION_INSTANTS,
                              one->point, &one->facts, &error) == PLUMB_OK &&
           one->facts.held;
}

static const uint64_t motion_seed = 0x6d6f74696f6e0000u;

/* The next case counted from *seed onwards. */
static inline void motion_case(uint64_t *seed, bool planar, MotionCase *one)
{
    while (!motion_try((*seed)++, planar, one)) {
    }
}

/* How the links of a chain (shank, thigh, pelvis, thorax, arm) have turned since the start, rad,
 * and the rates. */
typedef struct Turns {
    double angle[PLUMB_JOINT_COUNT];
    double rate[PLUMB_JOINT_COUNT];
    double acceleration[PLUMB_JOINT_COUNT];
    PlumbVec3 v[PLUMB_JOINT_COUNT + 1]; /* of the link's lower joint */
    PlumbVec3 a[PLUMB_JOINT_COUNT + 1];
} Turns;

/* Of one link, from the line between its joint and a mass on it. A squat's arm does not move
 * against the thorax. */
static inline void motion_turn(const MotionCase *one, int link, const PlumbMotionPoint *p, Turns *t)
{
    static const PlumbMass marker[] = {PLUMB_MASS_shank, PLUMB_MASS_thigh, PLUMB_MASS_pelvis,
                                       PLUMB_MASS_thorax, PLUMB_MASS_hand};
    const bool fixed = link == PLUMB_JOINT_shoulder && one->answer.setup.lift == PLUMB_SQUAT;
    const int on = fixed ? PLUMB_JOINT_back : link;
    const PlumbMassPoint *m = &p->mass[marker[on]];
    const PlumbVec3 r = vec3_sub(m->at_m, plumb_position_joint(&p->position, (PlumbJoint)on));
    const PlumbVec3 r0 = vec3_sub(one->point[0].mass[marker[on]].at_m,
                                  plumb_position_joint(&one->point[0].position, (PlumbJoint)on));
    const PlumbVec3 dv = vec3_sub(m->velocity_m_s, t->v[on]);
    const PlumbVec3 da = vec3_sub(m->acceleration_m_s2, t->a[on]);
    const double square = r.x * r.x + r.y * r.y;
    t->angle[link] = atan2(r0.x * r.y - r0.y * r.x, r0.x * r.x + r0.y * r.y);
    t->rate[link] = (r.x * dv.y - r.y * dv.x) / square;
    t->acceleration[link] = (r.x * da.y - r.y * da.x) / square;
}

static inline void motion_turns(const MotionCase *one, const PlumbMotionPoint *p, Turns *t)
{
    t->v[0] = t->a[0] = vec3(0.0, 0.0, 0.0);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        motion_turn(one, i, p, t);
        if (i + 1 == PLUMB_JOINT_COUNT) {
            break;
        }
        const PlumbVec3 s = vec3_sub(plumb_position_joint(&p->position, (PlumbJoint)(i + 1)),
                                     plumb_position_joint(&p->position, (PlumbJoint)i));
        const double w = t->rate[i];
        const double e = t->acceleration[i];
        t->v[i + 1] = vec3_add(t->v[i], vec3(-w * s.y, w * s.x, 0.0));
        t->a[i + 1] = vec3_add(t->a[i], vec3(-e * s.y - w * w * s.x, e * s.x - w * w * s.y, 0.0));
    }
}

#endif
