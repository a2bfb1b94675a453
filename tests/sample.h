/* SPDX-License-Identifier: MIT */
/* Random lifters, set-ups and poses with a fixed seed, for property tests and comparisons. */
#ifndef PLUMBAR_TESTS_SAMPLE_H
#define PLUMBAR_TESTS_SAMPLE_H

#include <plumbar/plumbar.h>

#include "model/rig.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

/* SplitMix64 (Steele, Lea & Flood 2014): the same numbers everywhere, unlike rand(). */
typedef struct Random {
    uint64_t state;
} Random;

static inline Random random_begin(uint64_t seed)
{
    const Random random = {seed};
    return random;
}

static inline uint64_t random_bits(Random *random)
{
    random->state += 0x9e3779b97f4a7c15u;
    uint64_t z = random->state;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

/* Between low and high, evenly. */
static inline double random_between(Random *random, double low, double high)
{
    return low + (high - low) * (double)(random_bits(random) >> 11) * 0x1p-53;
}

/* 0 to count - 1. */
static inline int random_below(Random *random, int count)
{
    return (int)(random_bits(random) % (uint64_t)count);
}

static inline bool random_one_in(Random *random, int count)
{
    return random_below(random, count) == 0;
}

/* Statures and masses of the survey's tails and beyond; half of the main lengths up to 2 standard
 * deviations off; any table, age, strength and disc. */
static inline PlumbLifter random_lifter(Random *random)
{
    static const PlumbLength varied[] = {PLUMB_LEN_thigh, PLUMB_LEN_shank, PLUMB_LEN_trunk,
                                         PLUMB_LEN_upper_arm, PLUMB_LEN_forearm};
    const PlumbSex sex = random_one_in(random, 2) ? PLUMB_MALE : PLUMB_FEMALE;
    const double stature = random_between(random, 1.42, 2.08);
    const double mass = random_between(random, 18.0, 38.0) * stature * stature;
    PlumbBodySpec spec = plumb_body_spec(sex, stature, fmin(fmax(mass, 40.0), 160.0));
    spec.age_years = random_one_in(random, 3) ? random_between(random, 16.0, 80.0) : 0.0;
    spec.length_table = random_one_in(random, 5) ? PLUMB_CLASSIC : PLUMB_SURVEY;
    spec.mass_table = random_one_in(random, 5) ? PLUMB_CLASSIC : PLUMB_SURVEY;
    for (size_t i = 0; i < sizeof varied / sizeof varied[0]; i++) {
        if (random_one_in(random, 2)) {
            spec.measure[varied[i]].kind = PLUMB_MEASURE_SPREAD;
            spec.measure[varied[i]].value = random_between(random, -2.0, 2.0);
        }
    }
    PlumbBody body;
    PlumbError error;
    if (plumb_body_build(&spec, &body, &error) != PLUMB_OK) {
        fprintf(stderr, "%s: %s\n", error.field, error.message);
        exit(1);
    }
    PlumbLifter lifter = plumb_lifter_default(&body);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        lifter.strength[i] = random_between(random, 0.6, 2.0);
    }
    lifter.equipment.disc_diameter_m = random_one_in(random, 4) ? 0.40 : 0.45;
    return lifter;
}

static inline double random_degrees(Random *random, double low, double high)
{
    return degrees(random_between(random, low, high));
}

/* Any set-up that plumb_setup_check allows and that a person could try. */
static inline PlumbSetup random_setup(Random *random, const PlumbLifter *lifter, PlumbLift lift)
{
    static const PlumbLead leads[PLUMB_LIFT_COUNT][6] = {
        {PLUMB_LEAD_BALANCE, PLUMB_LEAD_BALANCE, PLUMB_LEAD_HIP_HEIGHT, PLUMB_LEAD_BACK_ANGLE,
         PLUMB_LEAD_AUTO, PLUMB_LEAD_HEIGHT_AND_BALANCE},
        {PLUMB_LEAD_SHIN_ANGLE, PLUMB_LEAD_SHIN_ANGLE, PLUMB_LEAD_AUTO, PLUMB_LEAD_AUTO,
         PLUMB_LEAD_BACK_ANGLE, PLUMB_LEAD_BACK_ANGLE},
    };
    PlumbSetup setup = plumb_setup_default(lift);
    const bool pull = lift == PLUMB_DEADLIFT;
    const double size = lifter->body.stature_m;
    setup.lead = leads[lift][random_below(random, 6)];
    setup.stance_m = size * random_between(random, 0.12, 0.48);
    setup.toes_rad = random_degrees(random, 0.0, 45.0);
    setup.knees_out_rad = random_one_in(random, 2) ? 0.0 : random_degrees(random, -10.0, 20.0);
    setup.knees_over_toes = random_one_in(random, 8);
    setup.load_kg = random_between(random, 0.0, 3.0) * lifter->body.mass_kg;
    setup.heel_lift_m = random_one_in(random, 2) ? 0.0 : random_between(random, 0.0, 0.03);
    setup.ball_lift_m = random_one_in(random, 2) ? 0.0 : random_between(random, 0.0, 0.02);
    setup.spine_rad = random_degrees(random, -10.0, 45.0);
    setup.balance_frac = random_between(random, 0.25, 0.60);
    setup.back_angle_rad =
        pull ? random_degrees(random, 5.0, 50.0) : random_degrees(random, 25.0, 75.0);
    setup.feet_push_frac = random_one_in(random, 2) ? 0.0 : random_between(random, -0.1, 0.3);
    if (pull) {
        setup.grip_m = size * random_between(random, 0.2, 0.5);
        setup.bar_over_m = random_one_in(random, 2) ? 0.0 : random_between(random, -0.03, 0.06);
        setup.deficit_m = random_one_in(random, 4) ? random_between(random, 0.0, 0.08) : 0.0;
        setup.blocks_m = setup.deficit_m > 0.0 || !random_one_in(random, 4)
                             ? 0.0
                             : random_between(random, 0.0, 0.15);
        setup.hip_height_m = size * random_between(random, 0.26, 0.46);
        setup.path_exponent = random_between(random, 1.0, 3.0);
    } else {
        plumb_setup_seat(&setup, (PlumbSeat)random_below(random, PLUMB_SEAT_COUNT));
        setup.grip_m = size * random_between(random, 0.3, 0.55);
        setup.depth_m = random_between(random, -0.20, 0.10);
        setup.shin_angle_rad = random_degrees(random, 5.0, 45.0);
    }
    return setup;
}

/* A pose whose leg reaches, in balance or not; the bar of a pull anywhere before the lifter. */
static inline PlumbPosition random_position(Random *random, const PlumbLifter *lifter,
                                            const PlumbSetup *setup)
{
    PlumbRig rig;
    plumb_rig_build(lifter, setup, setup->spine_rad, setup->knees_out_rad, &rig);
    const double leg = rig.shank + rig.thigh;
    const double dz = rig.hip_z - rig.ankle.z;
    const double d = leg * random_between(random, 0.65, 0.99);
    const double radius = sqrt(d * d - dz * dz);
    const double slope = random_between(random, 0.0, 1.1);
    const PlumbPose pose = {rig.ankle.x - radius * sin(slope), rig.ankle.y + radius * cos(slope),
                            random_between(random, 0.0, 1.5)};
    /* Drawn one after the other: the order of arguments is the compiler's. */
    const double bar_height = random_between(random, 0.1, 0.9);
    const double bar_x = random_between(random, -0.05, 0.25);
    PlumbPosition position;
    plumb_position_describe(lifter, setup, pose, setup->spine_rad, setup->knees_out_rad, bar_x,
                            bar_height, -1.0, &position);
    return position;
}

#endif
