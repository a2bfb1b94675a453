/* SPDX-License-Identifier: MIT */
/* Shapes of the tables that are compiled in from anthropometry/; the data stand in the generated
 * tables.h. Numbers are SI. Each list is also what the generator holds a table's rows against. */
#ifndef PLUMBAR_BODY_ROWS_H
#define PLUMBAR_BODY_ROWS_H

#include <plumbar/format.h>
#include <plumbar/lifter.h>

/* lengths.csv */
#define PLUMB_PROPORTION_LIST(X)                                                                   \
    X(ankle_height)                                                                                \
    X(knee_height)                                                                                 \
    X(hip_height)                                                                                  \
    X(shoulder_height)                                                                             \
    X(cervicale_height)                                                                            \
    X(upper_arm)                                                                                   \
    X(forearm)                                                                                     \
    X(wrist_to_grip_palm)                                                                          \
    X(wrist_to_grip_fingers)                                                                       \
    X(forefinger_to_grip_centre)                                                                   \
    X(shoulder_drop)                                                                               \
    X(foot_length)                                                                                 \
    X(ball_of_foot)                                                                                \
    X(heel_to_ankle)                                                                               \
    X(hip_joint_spacing)                                                                           \
    X(shoulder_joint_spacing)                                                                      \
    X(pelvis_share_of_trunk)                                                                       \
    X(shin_half_thickness)                                                                         \
    X(thigh_half_thickness)                                                                        \
    X(hip_crease_above_joint)                                                                      \
    X(knee_top_above_joint)                                                                        \
    X(bar_high_up)                                                                                 \
    X(bar_high_back)                                                                               \
    X(bar_low_up)                                                                                  \
    X(bar_low_back)                                                                                \
    X(bar_front_up)                                                                                \
    X(bar_front_back)                                                                              \
    X(chest_depth)                                                                                 \
    X(shoulder_half_depth)                                                                         \
    X(elbow_half_thickness)                                                                        \
    X(shoulder_top_above_joint)

/* classic_lengths.csv */
#define PLUMB_CLASSIC_LENGTH_LIST(X)                                                               \
    X(eye_height)                                                                                  \
    X(shoulder_height)                                                                             \
    X(hip_height)                                                                                  \
    X(knee_height)                                                                                 \
    X(ankle_height)                                                                                \
    X(upper_arm)                                                                                   \
    X(forearm)                                                                                     \
    X(foot_length)

/* spreads.csv; wrist_to_grip is that of the palm */
#define PLUMB_SPREAD_LIST(X)                                                                       \
    X(ankle_height)                                                                                \
    X(shank)                                                                                       \
    X(thigh)                                                                                       \
    X(trunk)                                                                                       \
    X(upper_arm)                                                                                   \
    X(forearm)                                                                                     \
    X(wrist_to_grip)                                                                               \
    X(foot_length)                                                                                 \
    X(shoulder_joint_spacing)

/* survey.csv */
#define PLUMB_DIMENSION_LIST(X)                                                                    \
    X(stature)                                                                                     \
    X(mass)                                                                                        \
    X(sitting_height)                                                                              \
    X(buttock_to_knee)                                                                             \
    X(knee_height_sitting)                                                                         \
    X(span)                                                                                        \
    X(shoulder_to_elbow)                                                                           \
    X(elbow_to_wrist)                                                                              \
    X(foot)                                                                                        \
    X(biacromial_breadth)                                                                          \
    X(floor_to_fingertips)

/* capacities.csv: signs as there */
#define PLUMB_ACTION_LIST(X)                                                                       \
    X(hip_extension)                                                                               \
    X(hip_flexion)                                                                                 \
    X(knee_extension)                                                                              \
    X(knee_flexion)                                                                                \
    X(ankle_plantarflexion)                                                                        \
    X(ankle_dorsiflexion)

/* capacities.csv: groups of age, years */
#define PLUMB_AGE_LIST(X)                                                                          \
    X(18_TO_25, "18-25")                                                                           \
    X(55_TO_65, "55-65")                                                                           \
    X(OVER_65, ">65")

/* capacities_upper.csv */
#define PLUMB_UPPER_ACTION_LIST(X)                                                                 \
    X(shoulder_extension)                                                                          \
    X(shoulder_flexion)                                                                            \
    X(shoulder_horizontal_adduction)                                                               \
    X(shoulder_horizontal_abduction)                                                               \
    X(elbow_extension)                                                                             \
    X(elbow_flexion)                                                                               \
    X(lumbar_extension)                                                                            \
    X(lumbar_flexion)

/* capacity_ranges.csv */
#define PLUMB_HELD_LIST(X)                                                                         \
    X(ankle)                                                                                       \
    X(knee)                                                                                        \
    X(hip)                                                                                         \
    X(back)

/* equipment.csv */
#define PLUMB_ITEM_LIST(X)                                                                         \
    X(bar_mass)                                                                                    \
    X(shaft_diameter)                                                                              \
    X(ring_spacing)                                                                                \
    X(knurl_start)                                                                                 \
    X(knurl_stop)                                                                                  \
    X(disc_diameter)                                                                               \
    X(bench_grip_most)

/* sampling.csv */
#define PLUMB_SAMPLING_LIST(X)                                                                     \
    X(balance_sd)                                                                                  \
    X(stature_mass_r)

#define X(name) PLUMB_PROPORTION_##name,
typedef enum PlumbProportion { PLUMB_PROPORTION_LIST(X) PLUMB_PROPORTION_COUNT } PlumbProportion;
#undef X
#define X(name) PLUMB_CLASSIC_##name,
typedef enum PlumbClassicLength {
    PLUMB_CLASSIC_LENGTH_LIST(X) PLUMB_CLASSIC_LENGTH_COUNT
} PlumbClassicLength;
#undef X
#define X(name) PLUMB_SPREAD_##name,
typedef enum PlumbSpread { PLUMB_SPREAD_LIST(X) PLUMB_SPREAD_COUNT } PlumbSpread;
#undef X
#define X(name) PLUMB_DIMENSION_##name,
typedef enum PlumbDimension { PLUMB_DIMENSION_LIST(X) PLUMB_DIMENSION_COUNT } PlumbDimension;
#undef X
#define X(name) PLUMB_ACTION_##name,
typedef enum PlumbAction { PLUMB_ACTION_LIST(X) PLUMB_ACTION_COUNT } PlumbAction;
#undef X
#define X(name, text) PLUMB_AGE_##name,
typedef enum PlumbAge { PLUMB_AGE_LIST(X) PLUMB_AGE_COUNT } PlumbAge;
#undef X
#define X(name) PLUMB_UPPER_##name,
typedef enum PlumbUpperAction { PLUMB_UPPER_ACTION_LIST(X) PLUMB_UPPER_COUNT } PlumbUpperAction;
#undef X
#define X(name) PLUMB_HELD_##name,
typedef enum PlumbHeld { PLUMB_HELD_LIST(X) PLUMB_HELD_COUNT } PlumbHeld;
#undef X
#define X(name) PLUMB_ITEM_##name,
typedef enum PlumbItem { PLUMB_ITEM_LIST(X) PLUMB_ITEM_COUNT } PlumbItem;
#undef X
#define X(name) PLUMB_SAMPLING_##name,
typedef enum PlumbSampling { PLUMB_SAMPLING_LIST(X) PLUMB_SAMPLING_COUNT } PlumbSampling;
#undef X

/* How a figure other than a length is known. */
typedef enum PlumbStanding {
    PLUMB_STANDING_PUBLISHED, /* seen in a publication */
    PLUMB_STANDING_RULE,      /* a competition rule */
    PLUMB_STANDING_MEMORY,    /* no text seen */
    PLUMB_STANDING_JUDGEMENT  /* a choice of this model */
} PlumbStanding;

/* What a fraction of lengths.csv is multiplied with. */
typedef enum PlumbOf { PLUMB_OF_STATURE, PLUMB_OF_FOOT, PLUMB_OF_TRUNK } PlumbOf;

typedef struct PlumbProportionRow {
    const char *key;
    PlumbOf of;
    double mean[PLUMB_SEX_COUNT];
    double sd[PLUMB_SEX_COUNT];
    bool may_be_negative;
    PlumbBasis basis;
    const char *source;
    const char *note;
} PlumbProportionRow;

typedef struct PlumbClassicLengthRow {
    const char *key;
    double fraction; /* of stature */
    const char *source;
} PlumbClassicLengthRow;

/* com_from_distal: 1 - com_from_proximal. rg_frac: NaN where the source has none. */
typedef struct PlumbClassicMassRow {
    double mass_frac;
    double com_from_proximal_frac;
    double com_from_distal_frac;
    double rg_frac;
} PlumbClassicMassRow;

typedef struct PlumbMassRow {
    double mass_frac;
    double com_frac;
    double rg_frac;
} PlumbMassRow;

typedef struct PlumbSpreadRow {
    double sd; /* of length / stature */
    double r[PLUMB_SPREAD_COUNT];
} PlumbSpreadRow;

/* mean, sd: m or kg, NaN where unknown. ratio: dimension / stature, NaN for stature and mass. */
typedef struct PlumbDimensionRow {
    double mean;
    double sd;
    double ratio;
    double ratio_sd;
} PlumbDimensionRow;

/* r, conversion_sd (fraction of stature): one of the two is NaN. */
typedef struct PlumbTapeRow {
    PlumbTape tape;
    PlumbLength length;
    double r[PLUMB_SEX_COUNT];
    double conversion_sd;
} PlumbTapeRow;

/* T = m g H c1 cos(c2 (angle - c3)), N m of one limb; c4 to c6: velocity factor. */
typedef struct PlumbCapacityRow {
    double c1;
    double c2;
    double c3;
    double c4;
    double c5;
    double c6;
    double c1_sd;
    double c2_sd;
    double c3_sd;
} PlumbCapacityRow;

/* T = tmax exp(-(angle - centre)^2 / (2 width^2)) for the person named. */
typedef struct PlumbUpperRow {
    double tmax_n_m;
    double centre_rad;
    double width_rad;
    double person_mass_kg;
    double person_stature_m;
} PlumbUpperRow;

typedef struct PlumbHeldRow {
    double least_rad;
    double greatest_rad;
} PlumbHeldRow;

typedef struct PlumbLimitRow {
    double limit_rad[PLUMB_SEX_COUNT];
    double sd_rad;
    PlumbStanding standing;
    const char *source;
} PlumbLimitRow;

typedef struct PlumbItemRow {
    double value; /* kg or m */
    PlumbStanding standing;
    const char *source;
} PlumbItemRow;

typedef struct PlumbSamplingRow {
    double value[PLUMB_SEX_COUNT]; /* ratio */
    PlumbStanding standing;
    const char *source;
} PlumbSamplingRow;

/* styles.csv: conventional, sumo. */
typedef struct PlumbStyleRow {
    const char *key;
    double stance_m;
    double toes_rad;
    double grip_m;
    const char *source;
} PlumbStyleRow;

/* seats.csv: high, low, front. */
typedef struct PlumbSeatRow {
    const char *key;
    double grip_m;
} PlumbSeatRow;

#endif
