/* SPDX-License-Identifier: MIT */
/* What moves what: the slope of every figure of an answer by every setting and body length. */
#ifndef PLUMBAR_EFFECTS_H
#define PLUMBAR_EFFECTS_H

#include <plumbar/solve.h>

/* The figures whose slopes are known: name in files, words, how a person reads them, and the unit
 * that ends their JSON key. Those of a position are of the start of a pull, the hole of a squat. */
#define PLUMB_OUTPUT_LIST(X)                                                                       \
    X(travel, "bar travel", LENGTH, "_m")                                                          \
    X(hip_arm, "the bar's moment arm about the hip", LENGTH, "_m")                                 \
    X(back_arm, "the bar's moment arm about the back", LENGTH, "_m")                               \
    X(knee_arm, "the bar's moment arm about the knee", LENGTH, "_m")                               \
    X(ankle_arm, "the bar's moment arm about the ankle", LENGTH, "_m")                             \
    X(shoulder_arm, "the bar's moment arm about the shoulder", LENGTH, "_m")                       \
    X(hip_moment, "net hip moment", MOMENT, "_n_m")                                                \
    X(back_moment, "net back moment", MOMENT, "_n_m")                                              \
    X(knee_moment, "net knee moment", MOMENT, "_n_m")                                              \
    X(ankle_moment, "net ankle moment", MOMENT, "_n_m")                                            \
    X(shoulder_moment, "net shoulder moment", MOMENT, "_n_m")                                      \
    X(hip_effort, "relative effort of the hip", NUMBER, "_frac")                                   \
    X(back_effort, "relative effort of the back", NUMBER, "_frac")                                 \
    X(knee_effort, "relative effort of the knee", NUMBER, "_frac")                                 \
    X(ankle_effort, "relative effort of the ankle", NUMBER, "_frac")                               \
    X(shoulder_effort, "relative effort of the shoulder", NUMBER, "_frac")                         \
    X(summed_effort, "summed effort", NUMBER, "")                                                  \
    X(balance, "balance along the foot", FRACTION, "_frac")                                        \
    X(hip_height, "hip height", LENGTH, "_m")                                                      \
    X(back_angle, "back angle above level", ANGLE, "_rad")                                         \
    X(shin_angle, "shin from upright", ANGLE, "_rad")                                              \
    X(thigh_angle, "thigh above level", ANGLE, "_rad")                                             \
    X(knee_flexion, "knee flexion", ANGLE, "_rad")                                                 \
    X(dorsiflexion, "ankle dorsiflexion", ANGLE, "_rad")                                           \
    X(hip_flexion, "hip flexion", ANGLE, "_rad")                                                   \
    X(hip_abduction, "hip abduction", ANGLE, "_rad")                                               \
    X(hip_rotation, "hip external rotation", ANGLE, "_rad")                                        \
    X(frontal_shin, "shin from the front", ANGLE, "_rad")                                          \
    X(shoulder_ahead, "shoulder ahead of the bar", LENGTH, "_m")                                   \
    X(leg_gap, "gap between leg and bar", LENGTH, "_m")                                            \
    X(toe_line, "knee outside the toe line", LENGTH, "_m")                                         \
    X(knee_outside, "knee outside the ankle, from the front", LENGTH, "_m")                        \
    X(bar_over, "bar ahead of mid-foot", LENGTH, "_m")                                             \
    X(frontal_knee_moment, "knee moment seen from the front, each side", MOMENT, "_n_m")           \
    X(frontal_hip_moment, "hip moment seen from the front, each side", MOMENT, "_n_m")             \
    X(window_low, "lower end of the window", LENGTH, "_m")                                         \
    X(window_high, "upper end of the window", LENGTH, "_m")                                        \
    X(window_width, "width of the window", LENGTH, "_m")                                           \
    X(range_low, "lower end of the low-effort range", LENGTH, "_m")                                \
    X(range_high, "upper end of the low-effort range", LENGTH, "_m")                               \
    X(hip_room, "hips above the window's lower end", LENGTH, "_m")                                 \
    X(standing_off, "bar ahead of the balance point, standing", LENGTH, "_m")

typedef enum PlumbOutput {
#define X(name, text, quantity, unit) PLUMB_OUT_##name,
    PLUMB_OUTPUT_LIST(X)
#undef X
        PLUMB_OUTPUT_COUNT
} PlumbOutput;

const char *plumb_output_name(PlumbOutput output);
const char *plumb_output_text(PlumbOutput output);
/* Quantity and unit ending; a squat's window and low-effort range are of an angle. */
PlumbQuantity plumb_output_quantity(PlumbOutput output, PlumbLift lift);
const char *plumb_output_unit(PlumbOutput output, PlumbLift lift);
/* Whether the lift has this figure. */
bool plumb_output_applies(PlumbOutput output, PlumbLift lift);
/* The figure of an answer, SI; NaN where the answer has none. */
double plumb_output_value(const PlumbAnswer *answer, PlumbOutput output);

typedef enum PlumbFactorKind {
    PLUMB_FACTOR_SETTING,
    PLUMB_FACTOR_LENGTH,
    PLUMB_FACTOR_MASS /* of the body */
} PlumbFactorKind;

/* What is moved: a numeric setting, a length of the body, or its mass. Each length moves alone, the
 * stature held; only `trunk` takes the pelvis along in proportion, so that the lumbar hinge keeps
 * its share of the trunk. */
typedef struct PlumbFactor {
    PlumbFactorKind kind;
    PlumbSettingId setting; /* PLUMB_FACTOR_SETTING */
    PlumbLength length;     /* PLUMB_FACTOR_LENGTH */
    PlumbQuantity quantity;
    double step_si; /* the change for which an effect is told: 1 cm, 1°, 10 kg, 0.05 of balance */
} PlumbFactor;

enum { PLUMB_FACTOR_MAX = PLUMB_SETTING_COUNT + PLUMB_LENGTH_COUNT + 1 };

const char *plumb_factor_name(const PlumbFactor *factor); /* key: "stance", "thigh", "mass" */
const char *plumb_factor_text(const PlumbFactor *factor); /* meaning */

/* Fills factor[PLUMB_FACTOR_MAX] with what can move in a set-up of this lift and lead; a lead that
 * does not lead is not a factor, nor is what no static figure depends on. Returns how many. */
int plumb_factors(const PlumbSetup *setup, PlumbFactor *factor);
/* Makes the steps of factor[count] those that a person counts in: half an inch, 20 lb. */
void plumb_factors_count_in(PlumbUnits units, PlumbFactor *factor, int count);
/* Moves a factor by delta_si, unclipped, unchecked. */
void plumb_factor_move(const PlumbFactor *factor, double delta_si, PlumbLifter *lifter,
                       PlumbSetup *setup);

/* Why a slope is not the same up and down, or not known; bits. */
enum {
    PLUMB_KINK_LEG_CORNER = 1,     /* bar between shin and thigh: the nearer one changes */
    PLUMB_KINK_CAPACITY_EDGE = 2,  /* strength is held at the tested edge of its angle */
    PLUMB_KINK_MOMENT_SIGN = 4,    /* a moment passes zero */
    PLUMB_KINK_RANGE_CLIPPED = 8,  /* the low-effort range meets the window's end */
    PLUMB_KINK_END_CHANGES = 16,   /* two requirements end the window at once */
    PLUMB_KINK_UPRIGHT = 32,       /* standing, the trunk is just upright */
    PLUMB_KINK_NO_SLOPE = 64,      /* unknown: no pose beyond, or the answer jumps */
    PLUMB_KINK_ELBOWS_REACH = 128, /* press: the elbows just reach where they are asked for */
    PLUMB_KINK_QUICKEST = 256      /* press: the arm turns as quickly at another height */
};

/* The words of the lowest bit, "" for 0. */
const char *plumb_kink_text(unsigned kink);

/* Slope of a figure by a factor, SI per SI: when the factor grows, and when it shrinks. They differ
 * only at a kink, which `kink` then names. NaN where unknown (PLUMB_KINK_NO_SLOPE). */
typedef struct PlumbEffect {
    double up;
    double down;
    unsigned kink;
} PlumbEffect;

/* One factor's row; of a press the figures of its own list. */
typedef struct PlumbEffectRow {
    PlumbEffect of[PLUMB_OUTPUT_COUNT];
} PlumbEffectRow;

/* Slopes of all figures by factor[count] into row[count], by the implicit function theorem on the
 * solved constraints: nothing is solved again. setup: as asked; answer: plumb_answer_solve of it.
 * false, rows untouched, where no pose is held. Allocates nothing. */
bool plumb_effects_solve(const PlumbLifter *lifter, const PlumbSetup *setup,
                         const PlumbAnswer *answer, const PlumbFactor *factor, int count,
                         PlumbEffectRow *row);

/* The order of factor[count] by the size of effect times step on one output, largest first, equal
 * ones as they come, those without a slope last: indices into order[count]. */
void plumb_effects_sort(const PlumbFactor *factor, const PlumbEffectRow *row, int count, int output,
                        int *order);

#endif
