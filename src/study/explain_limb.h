/* SPDX-License-Identifier: MIT */
/* A two-link limb in a working: leg or arm, its triangle, and where its joint stands off. */
#ifndef PLUMB_STUDY_EXPLAIN_LIMB_H
#define PLUMB_STUDY_EXPLAIN_LIMB_H

#include "study/explain_parts.h"

/* From ankle to hip with the knee between them, or from shoulder to hand with the elbow:
 * joint = from + along n + off e. */
typedef struct PlumbExplainLimb {
    bool arm;
    PlumbVec3 from;
    PlumbVec3 joint;
    PlumbVec3 to;
    double first_m; /* the link at `from` */
    double second_m;
    double distance_m; /* from `from` to `to` */
    double along_m;
    double off_m;
    PlumbVec3 n; /* unit, from `from` to `to` */
    PlumbVec3 e; /* unit, square to it to the joint's side; zero of a straight limb */
    PlumbVec3 foot_axis;
} PlumbExplainLimb;

/* The ways a part can be looked at; `foot` and `toe_line`: along the foot, and square to it. */
typedef enum PlumbExplainAxis {
    PLUMB_EXPLAIN_AHEAD, /* forward; of an arm toward the feet */
    PLUMB_EXPLAIN_UP,
    PLUMB_EXPLAIN_OUT,
    PLUMB_EXPLAIN_FOOT,
    PLUMB_EXPLAIN_TOE_LINE,
    PLUMB_EXPLAIN_AXIS_COUNT
} PlumbExplainAxis;

/* The right leg of the subject's position; of a press its right arm. */
PlumbExplainLimb plumb_explain_limb(const PlumbExplainSubject *s);

/* The step that finds how far the joint lies along and off the line, with its symbols. */
void plumb_explain_triangle(PlumbExplanation *e, const PlumbExplainLimb *limb);

/* The step that finds parts of a link, one a row, into value[count]; upper: the second link, from
 * the joint on. */
void plumb_explain_link_parts(PlumbExplanation *e, const PlumbExplainLimb *limb, bool upper,
                              const PlumbExplainAxis *axis, int count, double *value);
/* The symbol of a part. */
const char *plumb_explain_part_symbol(bool upper, PlumbExplainAxis axis);
/* Along an axis of the limb, unit. */
PlumbVec3 plumb_explain_direction(const PlumbExplainLimb *limb, PlumbExplainAxis axis);

/* Two terms of a step with columns l, c and c l: what lies along the line and what off it, of
 * joint - from, each times sign. */
void plumb_explain_limb_terms(PlumbExplainStep *step, const PlumbExplainLimb *limb, double along_m,
                              double sign, double off_sign, PlumbVec3 direction);

#endif
