/* SPDX-License-Identifier: MIT */
/* How sure each figure of an answer is: the set-up solved for many bodies that the lifter could
 * have. Intervals cover the body, not the model's form and not strength. */
#ifndef PLUMBAR_INTERVAL_H
#define PLUMBAR_INTERVAL_H

#include <plumbar/sample.h>
#include <plumbar/solved.h>

/* The words that stand wherever an interval is shown. */
const char *plumb_interval_caution(void);

/* One drawn lifter in the set-up. */
typedef struct PlumbSample {
    PlumbLift lift;
    PlumbOutcome outcome;
    double stature_m;
    double mass_kg;
    double length_m[PLUMB_LENGTH_COUNT];
    /* In the lift's own list, as of plumb_solved_value; NaN where there is none, all of them
     * without a pose. */
    double output[PLUMB_OUTPUT_COUNT];
} PlumbSample;

/* Solves the set-up for draws number first to first + count - 1 into sample[count]. The balance
 * aimed at is missed as the sampler says. quick: by plumb_answer_quick, some twenty times faster
 * for a lead that is given, without window and low-effort range (so that no outcome is outside). Of
 * a press no figure asks for these: it is always solved quickly, outcomes and all.
 * Ranges of draws may be solved in any order and on any thread: the same draw gives the same bytes.
 * Allocates nothing. */
void plumb_samples_solve(const PlumbSampler *sampler, const PlumbSetup *setup, bool quick,
                         uint64_t first, int count, PlumbSample *sample);

/* One draw with all that came of it, of any lift: the body and its whole answer. */
void plumb_sample_solve(const PlumbSampler *sampler, const PlumbSetup *setup, uint64_t index,
                        PlumbLifter *lifter, PlumbSolved *solved, PlumbSample *sample);

/* Middle and spread of a figure. low and high hold 95 %, 2.5 % beyond each. NaN where count is
 * below 2. */
typedef struct PlumbEstimate {
    int count; /* draws that have the figure */
    double mean;
    double sd;
    double median;
    double low;
    double high;
} PlumbEstimate;

/* Of value[count], in order; values that are not finite are left out. scratch[count] is written. */
PlumbEstimate plumb_estimate(const double *value, int count, double *scratch);

typedef struct PlumbIntervals {
    int sample_count;
    double held_share; /* in balance, inside the window */
    double outside_share;
    double no_pose_share;
    PlumbEstimate of[PLUMB_OUTPUT_COUNT]; /* in the lift's own list */
} PlumbIntervals;

/* Sums sample[count] up in order. scratch: 2 count doubles. */
void plumb_intervals(const PlumbSample *sample, int count, double *scratch,
                     PlumbIntervals *intervals);

/* Figures of one step of a path that have a spread: name in files, unit that ends the key. */
#define PLUMB_STEP_LIST(X)                                                                         \
    X(bar_height, "_m")                                                                            \
    X(bar_x, "_m")                                                                                 \
    X(hip_height, "_m")                                                                            \
    X(back_angle, "_rad")                                                                          \
    X(knee_flexion, "_rad")                                                                        \
    X(balance, "_frac")                                                                            \
    X(hip_moment, "_n_m")                                                                          \
    X(back_moment, "_n_m")                                                                         \
    X(knee_moment, "_n_m")                                                                         \
    X(ankle_moment, "_n_m")

typedef enum PlumbStep {
#define X(name, unit) PLUMB_STEP_##name,
    PLUMB_STEP_LIST(X)
#undef X
        PLUMB_STEP_COUNT
} PlumbStep;

/* Facts of a whole path that have a spread. */
#define PLUMB_FACT_LIST(X)                                                                         \
    X(travel, "_m")                                                                                \
    X(back_change, "_rad")                                                                         \
    X(bar_spread, "_m")                                                                            \
    X(bar_shift_max, "_m")                                                                         \
    X(knee_pass_u, "_frac")                                                                        \
    X(peak_ankle_moment, "_n_m")                                                                   \
    X(peak_knee_moment, "_n_m")                                                                    \
    X(peak_hip_moment, "_n_m")                                                                     \
    X(peak_back_moment, "_n_m")                                                                    \
    X(peak_shoulder_moment, "_n_m")

typedef enum PlumbFact {
#define X(name, unit) PLUMB_FACT_##name,
    PLUMB_FACT_LIST(X)
#undef X
        PLUMB_FACT_COUNT
} PlumbFact;

/* The same of a press, whose moments are those of each arm. */
#define PLUMB_PRESS_STEP_LIST(X)                                                                   \
    X(bar_height, "_m")                                                                            \
    X(bar_x, "_m")                                                                                 \
    X(abduction, "_rad")                                                                           \
    X(elbow_flexion, "_rad")                                                                       \
    X(forearm_front, "_rad")                                                                       \
    X(bar_arm_elbow, "_m")                                                                         \
    X(shoulder_adduction_moment, "_n_m")                                                           \
    X(shoulder_flexion_moment, "_n_m")                                                             \
    X(elbow_extension_moment, "_n_m")

typedef enum PlumbPressStep {
#define X(name, unit) PLUMB_PRESS_STEP_##name,
    PLUMB_PRESS_STEP_LIST(X)
#undef X
        PLUMB_PRESS_STEP_COUNT
} PlumbPressStep;

/* bar_spread: how far touch and lockout lie apart along the bench. Peaks: of the points followed.
 */
#define PLUMB_PRESS_FACT_LIST(X)                                                                   \
    X(travel, "_m")                                                                                \
    X(path_length, "_m")                                                                           \
    X(bar_spread, "_m")                                                                            \
    X(peak_shoulder_adduction_moment, "_n_m")                                                      \
    X(peak_shoulder_flexion_moment, "_n_m")                                                        \
    X(peak_elbow_extension_moment, "_n_m")

typedef enum PlumbPressFact {
#define X(name, unit) PLUMB_PRESS_FACT_##name,
    PLUMB_PRESS_FACT_LIST(X)
#undef X
        PLUMB_PRESS_FACT_COUNT
} PlumbPressFact;

/* Figures of a path are numbers in the lift's own list: a PlumbStep or PlumbFact, or a
 * PlumbPressStep or PlumbPressFact. How many, and their keys: "back_angle" and "_rad"; static
 * strings. */
int plumb_lift_step_count(PlumbLift lift);
const char *plumb_lift_step_name(PlumbLift lift, int step);
const char *plumb_lift_step_unit(PlumbLift lift, int step);
int plumb_lift_fact_count(PlumbLift lift);
const char *plumb_lift_fact_key(PlumbLift lift, int fact); /* "travel_m" */
/* Doubles of one drawn path of so many points: its facts, then the figures of each point. */
int plumb_path_sample_size(PlumbLift lift, int points);
/* Where a figure stands among them. */
int plumb_path_column(PlumbLift lift, int point, int step);
/* Follows the lift with draws number first to first + count - 1: value[count][sample size], NaN
 * where a body has no path. scratch[points] is written, of a press it may be NULL. In any order and
 * on any thread, the same draw gives the same bytes. Allocates nothing. */
void plumb_path_samples_solve(const PlumbSampler *sampler, const PlumbSetup *setup, int points,
                              uint64_t first, int count, PlumbPathPoint *scratch, double *value);

/* The spread of one column over value[count][size]. scratch[2 count] is written. */
PlumbEstimate plumb_column_estimate(const double *value, int count, int size, int column,
                                    double *scratch);

/* Something a person could measure next. */
typedef struct PlumbMeasuring {
    bool taped;         /* a surface measure, else a length between joint centres */
    PlumbLength length; /* not taped */
    PlumbTape tape;     /* taped */
    double sd_m;        /* error of the measurement */
} PlumbMeasuring;

enum { PLUMB_MEASURING_MAX = PLUMB_LENGTH_COUNT + PLUMB_TAPE_COUNT };

/* What *spec may still be given; each with the default error of a tape. Returns how many. */
int plumb_measurings(const PlumbBodySpec *spec, PlumbMeasuring measuring[PLUMB_MEASURING_MAX]);
const char *plumb_measuring_name(const PlumbMeasuring *measuring); /* the key of a lifter file */
const char *plumb_measuring_text(const PlumbMeasuring *measuring); /* what it spans */

/* The observation that measuring would make if it showed what is expected. */
PlumbObservation plumb_measuring_observation(const PlumbBodySpec *spec, const PlumbBodies *bodies,
                                             const PlumbMeasuring *measuring);
/* The sd of a figure once measuring is done, expected from sample[count] drawn from bodies: linear
 * regression of the figure on what would be observed. output: in the lift's own list. NaN where the
 * figure has no spread. */
double plumb_measuring_sd_after(const PlumbBodySpec *spec, const PlumbBodies *bodies,
                                const PlumbMeasuring *measuring, const PlumbSample *sample,
                                int count, int output);
/* Sorts measuring[measuring_count] by what shrinks the figures of the drawing (travel, hip arm,
 * back angle, hip height; of a press travel, upper arm, arms of the bar about shoulder and elbow)
 * most: share[i] is the mean of the shares of their variance that it takes, largest first. */
void plumb_measurings_rank(const PlumbBodySpec *spec, const PlumbBodies *bodies,
                           PlumbMeasuring *measuring, int measuring_count,
                           const PlumbSample *sample, int count, double *share);

/* Appends the key in words: "thigh", "knee height sitting". */
void plumb_measuring_words(PlumbText *text, const PlumbMeasuring *measuring);

/* Appends where a gain or a change lies: " (95 % of bodies: 1.0 to 1.4 cm)", share being the words
 * for those bodies; " (the same for every body)" of one without a spread, and " (95 % of bodies:
 * the same)" where both ends are alike as printed. Nothing where it was not drawn. */
void plumb_estimate_text(PlumbText *text, const PlumbEstimate *estimate, const char *share,
                         PlumbQuantity quantity, PlumbUnits units);

/* What a measure would leave of the spreads of bar travel and back angle, of a press of travel and
 * upper arm, and those spreads before and after in words, ": bar travel from ± 3.5 cm to ± 3.0 cm,
 * ..."; of: of the same draws. Nothing is said of a figure that leads. */
enum { PLUMB_GAIN_COUNT = 2 };
void plumb_measuring_gains(const PlumbBodySpec *spec, const PlumbBodies *bodies,
                           const PlumbMeasuring *measuring, const PlumbSample *sample, int count,
                           double after[PLUMB_GAIN_COUNT]);
/* false where no figure gains a digit, nothing then said. */
bool plumb_measuring_gains_text(PlumbText *text, const PlumbEstimate of[PLUMB_OUTPUT_COUNT],
                                const double after[PLUMB_GAIN_COUNT], PlumbLift lift,
                                PlumbUnits units);

/* Whether nothing but sex, stature, mass and age is given. */
bool plumb_spec_is_bare(const PlumbBodySpec *spec);

#endif
