/* SPDX-License-Identifier: MIT */
/* What a change feels like, out of what the two solved poses say. */
#include "report/words.h"

#include <math.h>

/* Below these a difference is not felt: judgement, no source. */
static const double ANGLE_FELT_RAD = 0.017453292519943295; /* 1 degree */
static const double SHARE_FELT = 0.03;
static const double MOMENT_FELT_N_M = 5.0;
static const double TRAVEL_FELT_M = 0.01;

static void add(PlumbHandoutBlock *block, const char *words)
{
    if (block->count < PLUMB_HANDOUT_FEELS) {
        PlumbText text =
            plumb_text_begin(block->words[block->count], sizeof block->words[block->count]);
        plumb_text_string(&text, words);
        block->count++;
    }
}

/* 1 where the joint's moment grows so that it is felt, -1 where it shrinks, 0 else. */
static int felt(const PlumbAnswer *before, const PlumbAnswer *after, PlumbJoint joint)
{
    const double was = before->start.moment_both_n_m[joint];
    const double change = after->start.moment_both_n_m[joint] - was;
    if (fabs(change) < fmax(MOMENT_FELT_N_M, SHARE_FELT * fabs(was))) {
        return 0;
    }
    return change > 0.0 ? 1 : -1;
}

static void add_work(PlumbHandoutBlock *block, const PlumbAnswer *before, const PlumbAnswer *after)
{
    const int hip = felt(before, after, PLUMB_JOINT_hip);
    const int knee = felt(before, after, PLUMB_JOINT_knee);
    if (hip < 0 && knee > 0) {
        add(block, "The fronts of your thighs do more of the work, hips and back less.");
    } else if (hip > 0 && knee < 0) {
        add(block, "Hips and back do more of the work, the fronts of your thighs less.");
    } else if (hip < 0) {
        add(block, "Hips and back have a little less to do.");
    } else if (hip > 0) {
        add(block, "Hips and back have a little more to do.");
    } else if (knee != 0) {
        add(block, knee > 0 ? "The fronts of your thighs have a little more to do."
                            : "The fronts of your thighs have a little less to do.");
    }
}

static void add_chest(PlumbHandoutBlock *block, const PlumbAnswer *before, const PlumbAnswer *after)
{
    const bool squat = after->setup.lift == PLUMB_SQUAT;
    const double change =
        after->start.angle_rad[PLUMB_ANG_back] - before->start.angle_rad[PLUMB_ANG_back];
    if (fabs(change) < ANGLE_FELT_RAD) {
        return;
    }
    if (change > 0.0) {
        add(block, squat ? "Your chest is higher at the bottom."
                         : "Your chest is higher when the bar leaves the floor.");
    } else {
        add(block, squat ? "Your chest is lower at the bottom; hold your back just as firmly."
                         : "Your chest is lower when the bar leaves the floor; hold your back just "
                           "as firmly.");
    }
}

void plumb_feel_words(const PlumbAnswer *before, const PlumbAnswer *after, PlumbUnits units,
                      PlumbHandoutBlock *block)
{
    add_chest(block, before, after);
    add_work(block, before, after);
    const double travel = after->travel_m - before->travel_m;
    if (block->count < 2 && isfinite(travel) && fabs(travel) >= TRAVEL_FELT_M) {
        char words[PLUMB_HANDOUT_WORDS];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, "The way of the bar is ");
        plumb_text_quantity(&text, fabs(travel), PLUMB_Q_LENGTH, units);
        plumb_text_string(&text, travel < 0.0 ? " shorter." : " longer.");
        add(block, words);
    }
    if (block->count == 0) {
        add(block, "The lift itself feels much as before.");
    }
    add(block, "Your weight stays over the middle of the foot: heel and ball both pressed down.");
}
