/* SPDX-License-Identifier: MIT */
/* Random bench presses with a fixed seed. */
#ifndef PLUMBAR_TESTS_PRESS_SAMPLE_H
#define PLUMBAR_TESTS_PRESS_SAMPLE_H

#include "sample.h"

#include <plumbar/press.h>

/* Any set-up of a press that plumb_setup_check allows, from closer than the shoulders to beyond the
 * rule. */
static inline PlumbSetup random_press(Random *random, const PlumbLifter *lifter)
{
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.grip_m = random_between(random, 0.20, 1.00);
    setup.load_kg = random_between(random, 0.0, 2.0) * lifter->body.mass_kg;
    setup.arch_m = random_between(random, 0.0, 0.15);
    setup.bench_height_m = random_between(random, 0.42, 0.45);
    setup.lead = random_one_in(random, 3) ? PLUMB_LEAD_AUTO : PLUMB_LEAD_TOUCH;
    setup.touch_m = random_between(random, -0.05, 0.25);
    setup.elbows_given = random_one_in(random, 2);
    setup.elbows_rad = random_degrees(random, 20.0, 90.0);
    setup.lockout_over_m = random_one_in(random, 2) ? 0.0 : random_between(random, -0.10, 0.10);
    setup.hands_push_frac = random_one_in(random, 2) ? 0.0 : random_between(random, -0.3, 0.4);
    setup.path_exponent = random_one_in(random, 2) ? 1.0 : random_between(random, 1.0, 3.0);
    return setup;
}

/* Case number index: a press that the arms span, and an instant of it. */
static inline void press_case(int index, PlumbLifter *lifter, PlumbPressAnswer *answer,
                              PlumbPressPosition *at)
{
    Random random = random_begin(0xbe0c4u + 977u * (uint64_t)index);
    do {
        *lifter = random_lifter(&random);
        const PlumbSetup setup = random_press(&random, lifter);
        plumb_press_solve(lifter, &setup, answer);
    } while (answer->outcome == PLUMB_NO_POSE);
    plumb_press_at(lifter, answer, random_between(&random, 0.0, 1.0), at);
}

#endif
