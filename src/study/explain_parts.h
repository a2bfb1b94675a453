/* SPDX-License-Identifier: MIT */
/* How an explanation is put together: steps, terms, symbols, and numbers with their rows. */
#ifndef PLUMB_STUDY_EXPLAIN_PARTS_H
#define PLUMB_STUDY_EXPLAIN_PARTS_H

#include <plumbar/explain.h>

#include "base/vec.h"

/* Begins a step; columns and terms follow. Strings are static. */
PlumbExplainStep *plumb_explain_step(PlumbExplanation *e, const char *title, const char *words,
                                     const char *symbols);
void plumb_explain_column(PlumbExplainStep *step, const char *symbol, const char *unit,
                          int decimals);
/* A new term with no figures yet. */
PlumbExplainTerm *plumb_explain_term(PlumbExplainStep *step, const char *words);
/* Sets the figures of a term, one a column. */
void plumb_explain_figures(const PlumbExplainStep *step, PlumbExplainTerm *term,
                           const double *value);
/* A term of columns l, c and c l. */
void plumb_explain_product(PlumbExplainStep *step, const char *words, double length, double share);
/* Adds the terms up and finds the digits with which they are shown. */
void plumb_explain_sum(PlumbExplainStep *step, const char *symbol, const char *unit, int decimals);
/* Or leaves them apart. */
void plumb_explain_apart(PlumbExplainStep *step);

void plumb_explain_symbol(PlumbExplanation *e, const char *symbol, const char *words);
void plumb_explain_note(PlumbExplanation *e, const char *note);
/* That an angle in space is drawn as it is seen from the side. */
void plumb_explain_seen_note(PlumbExplanation *e);

/* Numbers and their rows. */
void plumb_explain_number(PlumbExplanation *e, const char *words, double value, const char *unit,
                          const char *basis, const PlumbSourceRow *first,
                          const PlumbSourceRow *second);
void plumb_explain_gravity(PlumbExplanation *e);
/* Share of body mass and centre of the masses from `first` to `last`. */
void plumb_explain_masses(PlumbExplanation *e, const PlumbLifter *lifter, PlumbMass first,
                          PlumbMass last);
void plumb_explain_length(PlumbExplanation *e, const PlumbLifter *lifter, PlumbLength length);
/* The lengths and settings on which the pose and so every place rests. */
void plumb_explain_pose(PlumbExplanation *e, const PlumbExplainSubject *subject);

/* A stretch of the way from mid-foot to the bar. */
typedef struct PlumbExplainLink {
    const char *words;
    double length_m;
    double forward; /* share of the length that lies along x */
    double up_m;    /* and what it rises */
} PlumbExplainLink;

enum {
    PLUMB_LINK_ANKLE,
    PLUMB_LINK_FOOT,
    PLUMB_LINK_SHANK,
    PLUMB_LINK_THIGH,
    PLUMB_LINK_PELVIS,
    PLUMB_LINK_THORAX,
    PLUMB_LINK_SEAT_UP, /* of a squat */
    PLUMB_LINK_SEAT_BACK,
    PLUMB_LINKS
};

/* The links of a position that stands. */
void plumb_explain_links(const PlumbExplainSubject *s, PlumbExplainLink link[PLUMB_LINKS]);
/* The knee's own axis, square to shank and thigh, to the right. */
PlumbVec3 plumb_explain_knee_axis(const PlumbExplainSubject *s);
/* The step that finds how high straight arms reach over the shoulder at the lockout; returns it. */
double plumb_explain_straight_arm(const PlumbExplainSubject *s, PlumbExplanation *e);

/* Whether a kind is an end of a window or range. */
bool plumb_explain_is_end(PlumbExplainKind kind);
/* What sets that end. */
PlumbEnd plumb_explain_end(const PlumbExplainSubject *s, PlumbExplainKind kind);
PlumbStatus plumb_explain_check_end(const PlumbExplainSubject *s, PlumbQuestion question,
                                    PlumbError *error);
/* Works e->question out into e, after what stands there already. */
PlumbStatus plumb_explain_figure(const PlumbExplainSubject *s, PlumbExplanation *e);

/* The kinds of question, each in its file. */
PlumbStatus plumb_explain_interval_end(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_hip_room(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_standing_off(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_elbows_upright(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_moment(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_arm(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_balance(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_travel(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_space(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_effort(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_summed(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_press_moment(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_press_arm(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_press_effort(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_press_travel(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_path_length(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_abduction(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_turned(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_dorsiflexion(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_bend(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_back(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_hip(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_hip_height(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_crease(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_shoulder_ahead(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_bar_over(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_beside(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_leg_gap(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_touch(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_grip_share(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_lockout_height(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_elbow_off_hand(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_elbow_below_rule(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_abduction_step(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_rotation(const PlumbExplainSubject *s, PlumbExplanation *e);
PlumbStatus plumb_explain_body_length(const PlumbExplainSubject *s, PlumbExplanation *e);

#endif
