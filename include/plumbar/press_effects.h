/* SPDX-License-Identifier: MIT */
/* What moves what in a bench press: the slope of its figures by every setting and body length. */
#ifndef PLUMBAR_PRESS_EFFECTS_H
#define PLUMBAR_PRESS_EFFECTS_H

#include <plumbar/effects.h>
#include <plumbar/press.h>

/* Figures of a press, at the touch unless they say otherwise: name in files, words, quantity, and
 * the unit that ends the JSON key. */
#define PLUMB_PRESS_OUTPUT_LIST(X)                                                                 \
    X(travel, "bar travel", LENGTH, "_m")                                                          \
    X(path_length, "length of the bar's path", LENGTH, "_m")                                       \
    X(lockout_height, "bar above the shoulder at lockout", LENGTH, "_m")                           \
    X(touch, "touch from the shoulders toward the feet", LENGTH, "_m")                             \
    X(side_arm, "the bar's moment arm about the shoulder, from the side", LENGTH, "_m")            \
    X(front_arm, "the bar's moment arm about the shoulder, from the head end", LENGTH, "_m")       \
    X(elbow_arm, "the bar's moment arm about the elbow", LENGTH, "_m")                             \
    X(adduction_moment, "net shoulder adduction moment, each arm", MOMENT, "_n_m")                 \
    X(flexion_moment, "net shoulder flexion moment, each arm", MOMENT, "_n_m")                     \
    X(elbow_moment, "net elbow extension moment, each arm", MOMENT, "_n_m")                        \
    X(adduction_effort, "relative effort of shoulder adduction", NUMBER, "_frac")                  \
    X(flexion_effort, "relative effort of shoulder flexion", NUMBER, "_frac")                      \
    X(elbow_effort, "relative effort of elbow extension", NUMBER, "_frac")                         \
    X(summed_effort, "summed effort", NUMBER, "")                                                  \
    X(upper_arm, "upper arm from the trunk", ANGLE, "_rad")                                        \
    X(elbow_flexion, "elbow flexion", ANGLE, "_rad")                                               \
    X(forearm_front, "forearm from upright, from the head end", ANGLE, "_rad")                     \
    X(elbow_off_hand, "elbow outside the hand", LENGTH, "_m")                                      \
    X(elbow_below_rule, "elbow's underside below the shoulder's top", LENGTH, "_m")                \
    X(elbows_upright, "abduction that keeps the forearm upright", ANGLE, "_rad")                   \
    X(shoulder_angle, "upper arm from the side, from the trunk's line", ANGLE, "_rad")             \
    X(shoulder_rotation, "shoulder external rotation", ANGLE, "_rad")                              \
    X(abduction_step, "largest turn of the upper arm in a centimetre of rise", ANGLE, "_rad")

typedef enum PlumbPressOutput {
#define X(name, text, quantity, unit) PLUMB_PRESS_OUT_##name,
    PLUMB_PRESS_OUTPUT_LIST(X)
#undef X
        PLUMB_PRESS_OUTPUT_COUNT
} PlumbPressOutput;

_Static_assert((int)PLUMB_PRESS_OUTPUT_COUNT <= (int)PLUMB_OUTPUT_COUNT,
               "what holds the figures of one lift holds those of the other");

const char *plumb_press_output_name(PlumbPressOutput output);
const char *plumb_press_output_text(PlumbPressOutput output);
PlumbQuantity plumb_press_output_quantity(PlumbPressOutput output);
const char *plumb_press_output_unit(PlumbPressOutput output);
/* The figure of an answer, SI; NaN where the answer has none. */
double plumb_press_output_value(const PlumbPressAnswer *answer, PlumbPressOutput output);

/* Slopes of all figures by factor[count] into row[count].of[PLUMB_PRESS_OUTPUT_COUNT]: the press's
 * closed form differentiated, the touch of auto by the implicit function theorem on the ends of its
 * range. setup: as asked, auto included. false, rows untouched, where no press is held. Allocates
 * nothing. */
bool plumb_press_effects_solve(const PlumbLifter *lifter, const PlumbSetup *setup,
                               const PlumbFactor *factor, int count, PlumbEffectRow *row);

#endif
