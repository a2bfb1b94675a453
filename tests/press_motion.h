/* SPDX-License-Identifier: MIT */
/* Presses in motion with a fixed seed, the same for MuJoCo and for its stored answers. */
#ifndef PLUMBAR_TESTS_PRESS_MOTION_H
#define PLUMBAR_TESTS_PRESS_MOTION_H

#include "press_sample.h"

#include <plumbar/press_motion.h>

#include "base/vec.h"

enum {
    PRESS_LIFTERS = 50,
    PRESS_INSTANTS = 21, /* along the way of each, both ends at rest */
    PRESS_ROWS = PRESS_LIFTERS * (PRESS_INSTANTS - 2)
};

typedef struct PressMotionCase {
    PlumbLifter lifter;
    PlumbPressAnswer answer;
    double rep_time_s;
    PlumbPressMotionPoint point[PRESS_INSTANTS];
} PressMotionCase;

/* Case number index: a press that the arms span and whose elbow has no jump, without a sideways
 * push, fast enough that the motion shows. */
static inline void press_motion_case(int index, PressMotionCase *one)
{
    Random random = random_begin(0x6d6f7665u + 131u * (uint64_t)index);
    PlumbPressMotionFacts facts;
    PlumbStatus status;
    do {
        one->lifter = random_lifter(&random);
        PlumbSetup setup = random_press(&random, &one->lifter);
        setup.hands_push_frac = 0.0;
        one->rep_time_s = random_between(&random, 0.5, 1.5);
        plumb_press_solve(&one->lifter, &setup, &one->answer);
        status = plumb_press_motion_solve(&one->lifter, &one->answer, one->rep_time_s,
                                          PRESS_INSTANTS, one->point, &facts, NULL);
    } while (status != PLUMB_OK);
}

#endif
