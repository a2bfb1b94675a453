/* SPDX-License-Identifier: MIT */
/* What a change feels like, out of what the two solved poses say. */
#include "report/words.h"

#include <math.h>

/* Below these a difference is not felt: judgement, no source. */
static const double ANGLE_FELT_RAD = 0.017453292519943295; /* 1 degree */
static const double SHARE_FELT = 0.03;
static const double SHARE_MUCH = 0.15; /* more than "a little" */
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

/* 1 where a moment of both sides grows so that it is felt, -1 where it shrinks, twice that where it
 * is more than a little, 0 else. */
static int felt(double was_n_m, double is_n_m)
{
    const double change = is_n_m - was_n_m;
    if (fabs(change) < fmax(MOMENT_FELT_N_M, SHARE_FELT * fabs(was_n_m))) {
        return 0;
    }
    const int much = fabs(change) >= SHARE_MUCH * fabs(was_n_m) ? 2 : 1;
    return change > 0.0 ? much : -much;
}

/* "Your chest has a little more to do." */
static void add_more(PlumbHandoutBlock *block, const char *who, int felt)
{
    char words[PLUMB_HANDOUT_WORDS];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, who);
    plumb_text_string(&text, felt == 1 || felt == -1 ? " a little " : " ");
    plumb_text_string(&text, felt > 0 ? "more to do." : "less to do.");
    add(block, words);
}

static int felt_joint(const PlumbAnswer *before, const PlumbAnswer *after, PlumbJoint joint)
{
    return felt(before->start.moment_both_n_m[joint], after->start.moment_both_n_m[joint]);
}

static int felt_arm(const PlumbPressAnswer *before, const PlumbPressAnswer *after,
                    PlumbPressJoint joint)
{
    return felt(2.0 * before->touch.moment_n_m[joint], 2.0 * after->touch.moment_n_m[joint]);
}

static void add_work(PlumbHandoutBlock *block, const PlumbAnswer *before, const PlumbAnswer *after)
{
    const int hip = felt_joint(before, after, PLUMB_JOINT_hip);
    const int knee = felt_joint(before, after, PLUMB_JOINT_knee);
    if (hip < 0 && knee > 0) {
        add(block, "The fronts of your thighs do more of the work, hips and back less.");
    } else if (hip > 0 && knee < 0) {
        add(block, "Hips and back do more of the work, the fronts of your thighs less.");
    } else if (hip != 0) {
        add_more(block, "Hips and back have", hip);
    } else if (knee != 0) {
        add_more(block, "The fronts of your thighs have", knee);
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

/* Chest and shoulders carry what is across the arm, the backs of the upper arms the elbow. */
static void add_press_work(PlumbHandoutBlock *block, const PlumbPressAnswer *before,
                           const PlumbPressAnswer *after)
{
    const int chest = felt_arm(before, after, PLUMB_PRESS_JOINT_shoulder_adduction);
    const int elbow = felt_arm(before, after, PLUMB_PRESS_JOINT_elbow_extension);
    const int front = felt_arm(before, after, PLUMB_PRESS_JOINT_shoulder_flexion);
    if (chest < 0 && elbow > 0) {
        add(block, "The backs of your upper arms do more of the work, your chest less.");
    } else if (chest > 0 && elbow < 0) {
        add(block, "Your chest does more of the work, the backs of your upper arms less.");
    } else if (chest != 0) {
        add_more(block, "Your chest has", chest);
    } else if (elbow != 0) {
        add_more(block, "The backs of your upper arms have", elbow);
    }
    if (front != 0) {
        add(block, front > 0 ? "The fronts of your shoulders have more to do when the bar touches."
                             : "The fronts of your shoulders have less to do when the bar "
                               "touches.");
    }
}

static void add_travel(PlumbHandoutBlock *block, double change_m, PlumbUnits units)
{
    if (block->count < 2 && isfinite(change_m) && fabs(change_m) >= TRAVEL_FELT_M) {
        char words[PLUMB_HANDOUT_WORDS];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, "The bar travels ");
        plumb_text_said(&text, fabs(change_m), PLUMB_Q_LENGTH, units);
        plumb_text_string(&text, change_m < 0.0 ? " less." : " more.");
        add(block, words);
    }
}

void plumb_feel_words(const PlumbSolved *before, const PlumbSolved *after, PlumbUnits units,
                      PlumbHandoutBlock *block)
{
    const bool press = after->lift == PLUMB_BENCH;
    if (press) {
        add_press_work(block, &before->press, &after->press);
        add_travel(block, after->press.travel_m - before->press.travel_m, units);
    } else {
        add_chest(block, &before->pose, &after->pose);
        add_work(block, &before->pose, &after->pose);
        add_travel(block, after->pose.travel_m - before->pose.travel_m, units);
    }
    if (block->count == 0) {
        add(block, "The lift itself feels much as before.");
    }
    add(block, press ? "Your shoulder blades stay together on the bench, your feet flat on the "
                       "floor."
                     : "Your weight stays over the middle of the foot: heel and ball both pressed "
                       "down.");
}
