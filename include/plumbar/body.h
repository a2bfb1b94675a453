/* SPDX-License-Identifier: MIT */
/* The lifter's body: lengths between joint centres, segment masses, and where each figure is from.
 */
#ifndef PLUMBAR_BODY_H
#define PLUMBAR_BODY_H

#include <plumbar/status.h>

#include <stdbool.h>

typedef enum PlumbSex { PLUMB_MALE, PLUMB_FEMALE, PLUMB_SEX_COUNT } PlumbSex;

/* Proportion tables: the survey (default), and the classic fractions of handbooks. */
typedef enum PlumbTable { PLUMB_SURVEY, PLUMB_CLASSIC, PLUMB_TABLE_COUNT } PlumbTable;

/* What a length rests on; the texts are the words shown to people. */
#define PLUMB_BASIS_LIST(X)                                                                        \
    X(SURVEY, "survey")                                                                            \
    X(SURVEY_SCANNER, "survey+scanner")                                                            \
    X(SCANNER, "scanner")                                                                          \
    X(DERIVED, "derived")                                                                          \
    X(MEMORY, "memory")                                                                            \
    X(CLASSIC, "classic")                                                                          \
    X(FILLED, "filled from survey")                                                                \
    X(TAPED, "converted from tape")                                                                \
    X(MEASURED, "measured")                                                                        \
    X(SPREAD, "given in sd")

typedef enum PlumbBasis {
#define X(name, text) PLUMB_BASIS_##name,
    PLUMB_BASIS_LIST(X)
#undef X
        PLUMB_BASIS_COUNT
} PlumbBasis;

/* The lengths of a body, metres: identifier, and what the length spans.
 * Names are those of anthropometry/lengths.csv and of a lifter file's `measures`. */
#define PLUMB_LENGTH_LIST(X)                                                                       \
    X(ankle_height, "ankle joint centre above the sole")                                           \
    X(shank, "ankle to knee joint centre")                                                         \
    X(thigh, "knee to hip joint centre")                                                           \
    X(trunk, "mid-hip to mid-shoulder, standing")                                                  \
    X(upper_arm, "shoulder to elbow joint centre")                                                 \
    X(forearm, "elbow to wrist joint centre")                                                      \
    X(wrist_to_grip_palm, "wrist to a bar pressed in the palm")                                    \
    X(wrist_to_grip_fingers, "wrist to a bar hanging in the fingers")                              \
    X(forefinger_to_grip_centre, "forefinger to the middle of the hand, along the bar")            \
    X(shoulder_drop, "reach gained by lowered shoulders")                                          \
    X(foot_length, "heel to toe tip")                                                              \
    X(ball_of_foot, "heel to ball of the foot")                                                    \
    X(heel_to_ankle, "heel to ankle joint centre, along the foot")                                 \
    X(hip_joint_spacing, "between the hip joint centres")                                          \
    X(shoulder_joint_spacing, "between the shoulder joint centres")                                \
    X(pelvis, "mid-hip to lumbar hinge")                                                           \
    X(shin_half_thickness, "front of the shin ahead of its joint line")                            \
    X(thigh_half_thickness, "front of the thigh ahead of its joint line")                          \
    X(hip_crease_above_joint, "hip crease above the hip joint, deep squat")                        \
    X(knee_top_above_joint, "top of the bent knee above its joint")                                \
    X(bar_high_up, "high bar above the shoulder joint, along the thorax")                          \
    X(bar_high_back, "high bar behind the shoulder joint")                                         \
    X(bar_low_up, "low bar above the shoulder joint, along the thorax")                            \
    X(bar_low_back, "low bar behind the shoulder joint")                                           \
    X(bar_front_up, "front bar above the shoulder joint, along the thorax")                        \
    X(bar_front_back, "front bar behind the shoulder joint (negative: ahead)")                     \
    X(head_neck, "mid-shoulder to the top of the head")                                            \
    X(chest_depth, "back to the front of the chest, lying")                                        \
    X(shoulder_half_depth, "bench to the shoulder joint centre, lying")                            \
    X(elbow_half_thickness, "underside of the elbow below its joint centre, lying")                \
    X(shoulder_top_above_joint, "top of the shoulder above its joint centre, lying")

typedef enum PlumbLength {
#define X(name, text) PLUMB_LEN_##name,
    PLUMB_LENGTH_LIST(X)
#undef X
        PLUMB_LENGTH_COUNT
} PlumbLength;

/* Segments, one side for limbs. com_frac is measured as anthropometry/masses.csv says. */
#define PLUMB_SEGMENT_LIST(X)                                                                      \
    X(foot)                                                                                        \
    X(shank)                                                                                       \
    X(thigh)                                                                                       \
    X(pelvis)                                                                                      \
    X(thorax)                                                                                      \
    X(upper_arm)                                                                                   \
    X(forearm)                                                                                     \
    X(hand)                                                                                        \
    X(head)

typedef enum PlumbSegmentId {
#define X(name) PLUMB_SEG_##name,
    PLUMB_SEGMENT_LIST(X)
#undef X
        PLUMB_SEGMENT_COUNT
} PlumbSegmentId;

/* mass_frac: of body mass. com_frac, rg_frac: of the link's length (head: of the trunk's);
 * rg_frac is 0 where the table has none. */
typedef struct PlumbSegment {
    double mass_frac;
    double com_frac;
    double rg_frac;
} PlumbSegment;

/* Why a body or a capacity lies outside what its sources cover; bits. */
enum {
    PLUMB_BODY_AGE_BELOW_18 = 1,
    PLUMB_BODY_STATURE_OUTSIDE = 2, /* survey's 1st to 99th percentile */
    PLUMB_BODY_MASS_OUTSIDE = 4
};

/* A length as the lifter's record gives it. */
typedef enum PlumbMeasureKind {
    PLUMB_MEASURE_NONE,
    PLUMB_MEASURE_LENGTH, /* value in m */
    PLUMB_MEASURE_SPREAD  /* value in standard deviations of length / stature from the mean */
} PlumbMeasureKind;

typedef struct PlumbMeasure {
    PlumbMeasureKind kind;
    double value;
    double sd_m; /* error of the measurement; 0: the default, 0.01 m */
} PlumbMeasure;

/* Surface measures that a person can tape, with the words of the measuring card. */
#define PLUMB_TAPE_LIST(X)                                                                         \
    X(sitting_height, "seat to the top of the head, sitting tall")                                 \
    X(buttock_to_knee, "back of the buttock to the front of the knee, sitting")                    \
    X(knee_height_sitting, "sole to the top of the knee, sitting, no shoe")                        \
    X(span, "fingertip to fingertip, arms spread")                                                 \
    X(shoulder_to_elbow, "top of the shoulder to the underside of the bent elbow")                 \
    X(elbow_to_wrist, "outer elbow bone to the wrist bone on the thumb's side")                    \
    X(foot, "heel to the longest toe, standing, no shoe")                                          \
    X(heel_to_ankle_bone, "back of the heel to the outer ankle bone, along the foot")              \
    X(floor_to_fingertips, "floor to the middle fingertip, standing tall, arms hanging")

typedef enum PlumbTape {
#define X(name, text) PLUMB_TAPE_##name,
    PLUMB_TAPE_LIST(X)
#undef X
        PLUMB_TAPE_COUNT
} PlumbTape;

/* What a body is built from. Zero-initialise, then set; plumb_body_spec() gives the defaults. */
typedef struct PlumbBodySpec {
    PlumbSex sex;
    double stature_m; /* 1.20 to 2.30 */
    double mass_kg;   /* 30 to 250 */
    double age_years; /* 0: not given, capacities then of age 18 to 25 */
    PlumbTable length_table;
    PlumbTable mass_table;
    PlumbMeasure measure[PLUMB_LENGTH_COUNT];
    PlumbMeasure tape[PLUMB_TAPE_COUNT]; /* NONE or LENGTH */
} PlumbBodySpec;

/* A body, a flat record. The named lengths and length_m[] are the same numbers. */
typedef struct PlumbBody {
    PlumbSex sex;
    double stature_m;
    double mass_kg;
    double age_years;
    PlumbTable length_table;
    PlumbTable mass_table;
    union {
        struct {
#define X(name, text) double name##_m;
            PLUMB_LENGTH_LIST(X)
#undef X
        };
        double length_m[PLUMB_LENGTH_COUNT];
    };
    double length_sd_m[PLUMB_LENGTH_COUNT]; /* spread of what is not known, or error of the tape */
    PlumbBasis length_basis[PLUMB_LENGTH_COUNT];
    PlumbSegment segment[PLUMB_SEGMENT_COUNT];
    double parts_sum_m;    /* ankle height + shank + thigh + trunk + head and neck */
    unsigned extrapolated; /* PLUMB_BODY_ bits */
    bool has_radii;        /* false: dynamics refuses this body */
} PlumbBody;

/* A spec with both tables the survey, nothing measured, no age. */
PlumbBodySpec plumb_body_spec(PlumbSex sex, double stature_m, double mass_kg);

/* Builds a body. Fails with PLUMB_BAD_INPUT, naming the field and the allowed range, where stature,
 * mass, age or a measure is not finite or is outside what a body can have, or two entries fix the
 * same length; *body is then untouched. */
PlumbStatus plumb_body_build(const PlumbBodySpec *spec, PlumbBody *body, PlumbError *error);

/* Names and texts; static strings. */
const char *plumb_length_name(PlumbLength length);
const char *plumb_length_text(PlumbLength length);
const char *plumb_length_source(PlumbLength length, PlumbTable table); /* of the table's row */
const char *plumb_basis_text(PlumbBasis basis);
const char *plumb_segment_name(PlumbSegmentId segment);
const char *plumb_tape_name(PlumbTape tape);
const char *plumb_tape_text(PlumbTape tape);
const char *plumb_sex_name(PlumbSex sex);
const char *plumb_table_name(PlumbTable table);

/* Least and greatest value a length may take, m, for a lifter of this stature: five standard
 * deviations of the survey's ratio, never below 1 mm where the length cannot be negative. */
void plumb_length_range(PlumbSex sex, double stature_m, PlumbLength length, double *low_m,
                        double *high_m);
/* The same for a taped measure. */
void plumb_tape_range(PlumbSex sex, double stature_m, PlumbTape tape, double *low_m,
                      double *high_m);

/* Share of the survey's adults of this sex, 0 to 1, whose length is smaller: as a length in metres,
 * and as a share of stature. Normal model of the survey's means and spreads. */
double plumb_length_percentile(const PlumbBody *body, PlumbLength length);
double plumb_length_ratio_percentile(const PlumbBody *body, PlumbLength length);

/* Ratios that coaches argue from. */
#define PLUMB_RATIO_LIST(X)                                                                        \
    X(thigh_to_trunk, "thigh / trunk")                                                             \
    X(thigh_to_shank, "thigh / shank")                                                             \
    X(leg_to_trunk, "thigh and shank / trunk")                                                     \
    X(arm_to_stature, "arm to the grip / stature")                                                 \
    X(arm_to_trunk, "arm to the grip / trunk")                                                     \
    X(trunk_to_stature, "trunk / stature")

typedef enum PlumbRatio {
#define X(name, text) PLUMB_RATIO_##name,
    PLUMB_RATIO_LIST(X)
#undef X
        PLUMB_RATIO_COUNT
} PlumbRatio;

const char *plumb_ratio_name(PlumbRatio ratio);
const char *plumb_ratio_text(PlumbRatio ratio);
double plumb_ratio_value(const PlumbBody *body, PlumbRatio ratio);
/* Share of the survey's adults with a smaller ratio, 0 to 1; first-order spread with the sampling
 * correlations. */
double plumb_ratio_percentile(const PlumbBody *body, PlumbRatio ratio);
/* Percentiles of stature and mass within the survey, 0 to 1. */
double plumb_stature_percentile(PlumbSex sex, double stature_m);
double plumb_mass_percentile(PlumbSex sex, double mass_kg);

#endif
