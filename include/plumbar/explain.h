/* SPDX-License-Identifier: MIT */
/* The working of one figure: the equation, this lifter's numbers put in term by term, and the rows
 * and sources that they come from. */
#ifndef PLUMBAR_EXPLAIN_H
#define PLUMBAR_EXPLAIN_H

#include <plumbar/dynamics.h>
#include <plumbar/press_motion.h>
#include <plumbar/sources.h>

/* Figures that can be explained. Those of a joint are asked for as "hip_moment", "hip_arm",
 * "hip_effort", those of a bench press by the name of its figure ("elbow_moment", "side_arm",
 * "flexion_effort"); a length by its name. */
#define PLUMB_EXPLAIN_LIST(X)                                                                      \
    X(moment, "net joint moment, both sides")                                                      \
    X(arm, "the bar's moment arm")                                                                 \
    X(effort, "relative effort")                                                                   \
    X(knee_extension, "knee moment about its own axis, each side")                                 \
    X(knee_frontal, "knee moment seen from the front, each side")                                  \
    X(ankle_along_foot, "ankle moment along the foot, each side")                                  \
    X(hip_frontal, "hip moment seen from the front, each side")                                    \
    X(balance, "balance along the foot; in motion, the centre of pressure")                        \
    X(travel, "bar travel")                                                                        \
    X(summed_effort, "summed effort")                                                              \
    X(hip_height, "hip height")                                                                    \
    X(back_angle, "back angle above level")                                                        \
    X(shin_angle, "shin from upright")                                                             \
    X(thigh_angle, "thigh above level")                                                            \
    X(knee_flexion, "knee flexion")                                                                \
    X(dorsiflexion, "ankle dorsiflexion")                                                          \
    X(hip_flexion, "hip flexion")                                                                  \
    X(hip_abduction, "hip abduction")                                                              \
    X(hip_rotation, "hip external rotation")                                                       \
    X(frontal_shin, "shin from the front")                                                         \
    X(crease_above_knee, "hip crease above the knee")                                              \
    X(shoulder_ahead, "shoulder ahead of the bar")                                                 \
    X(leg_gap, "gap between leg and bar")                                                          \
    X(toe_line, "knee outside the toe line")                                                       \
    X(knee_outside, "knee outside the ankle, from the front")                                      \
    X(bar_over, "bar ahead of mid-foot")                                                           \
    X(standing_off, "bar ahead of the balance point, standing")                                    \
    X(hip_room, "hips above the window's lower end")                                               \
    X(window_low, "low end of the window")                                                         \
    X(window_high, "high end of the window")                                                       \
    X(range_low, "low end of the low-effort range")                                                \
    X(range_high, "high end of the low-effort range")                                              \
    X(press_moment, "net moment of a press, each arm")                                             \
    X(press_arm, "the bar's moment arm in a press")                                                \
    X(press_effort, "relative effort in a press")                                                  \
    X(path_length, "length of the bar's path")                                                     \
    X(touch, "touch from the shoulders toward the feet")                                           \
    X(grip_share, "grip as a share of the shoulders")                                              \
    X(lockout_height, "bar above the shoulder at lockout")                                         \
    X(elbows_upright, "upper arm from the trunk that keeps the forearm upright, at the touch")     \
    X(abduction_step, "largest turn of the upper arm in a centimetre of rise")                     \
    X(abduction, "upper arm from the trunk")                                                       \
    X(elbow_flexion, "elbow flexion")                                                              \
    X(forearm_front, "forearm from upright, from the head end")                                    \
    X(forearm_side, "forearm from upright, from the side")                                         \
    X(shoulder_angle, "upper arm from the side, from the trunk's line")                            \
    X(shoulder_rotation, "shoulder external rotation")                                             \
    X(elbow_off_hand, "elbow outside the hand")                                                    \
    X(elbow_below_rule, "elbow's underside below the shoulder's top")                              \
    X(length, "length of the body")

typedef enum PlumbExplainKind {
#define X(name, text) PLUMB_EXPLAIN_##name,
    PLUMB_EXPLAIN_LIST(X)
#undef X
        PLUMB_EXPLAIN_KIND_COUNT
} PlumbExplainKind;

typedef struct PlumbQuestion {
    PlumbExplainKind kind;
    PlumbJoint joint;   /* moment, arm, effort */
    PlumbLength length; /* length */
    int press; /* press_moment, press_effort: a PlumbPressJoint; press_arm: PlumbPressArm */
} PlumbQuestion;

/* All questions in a fixed order, and their names. */
int plumb_question_count(void);
PlumbQuestion plumb_question(int index);
int plumb_question_index(PlumbQuestion question);
void plumb_question_name(PlumbText *text, PlumbQuestion question);
/* The question named name[length]; false where none is. */
bool plumb_question_find(const char *name, size_t length, PlumbQuestion *question);
/* The question that works a figure of a lift's own list out (solved.h); false where none does. */
bool plumb_question_of_output(PlumbLift lift, int output, PlumbQuestion *question);
/* The nearest name to a misspelt one, appended; false where none is near. */
bool plumb_question_nearest(const char *name, size_t length, PlumbText *text);

enum {
    PLUMB_EXPLAIN_STEPS = 6,
    PLUMB_EXPLAIN_COLUMNS = 8,
    PLUMB_EXPLAIN_TERMS = 12,
    PLUMB_EXPLAIN_NUMBERS = 64,
    PLUMB_EXPLAIN_SYMBOLS = 24,
    PLUMB_EXPLAIN_NOTES = 4,
    PLUMB_EXPLAIN_NAME = 56,
    PLUMB_EXPLAIN_LINE = 120,
    PLUMB_EXPLAIN_SENTENCE = 400
};

/* A column of figures. Static strings. */
typedef struct PlumbExplainColumn {
    const char *symbol;
    const char *unit; /* "" for a ratio */
    int decimals;     /* with which its figures are shown */
} PlumbExplainColumn;

/* A row of the sum; value[k] belongs to column k, NaN where the column does not concern it. The
 * last column is what the term adds. */
typedef struct PlumbExplainTerm {
    char words[PLUMB_EXPLAIN_NAME];
    double value[PLUMB_EXPLAIN_COLUMNS];
} PlumbExplainTerm;

/* One equation: its terms add up to the result. The last column is shown with as many digits as it
 * takes for the figures as shown to add up to the result as shown. Where terms are apart each is a
 * result of its own. */
typedef struct PlumbExplainStep {
    const char *title;
    const char *words;   /* the equation as a sentence */
    const char *symbols; /* the equation */
    int column_count;
    PlumbExplainColumn column[PLUMB_EXPLAIN_COLUMNS];
    int term_count;
    PlumbExplainTerm term[PLUMB_EXPLAIN_TERMS];
    bool apart;
    const char *symbol; /* of the result; "" where terms are apart, as unit, with no result */
    const char *unit;
    int decimals;
    double result;
} PlumbExplainStep;

/* Whether the result stands in a row of its own below several terms. */
bool plumb_explain_has_sum(const PlumbExplainStep *step);

typedef struct PlumbExplainSymbol {
    const char *symbol;
    const char *words;
} PlumbExplainSymbol;

/* A number that went in, and where it is from. row: rows of anthropometry/, NULL where the lifter
 * or the set-up gave it, or the pose was solved for it. */
typedef struct PlumbExplainNumber {
    char words[PLUMB_EXPLAIN_NAME];
    double value; /* SI */
    const char *unit;
    const char *basis; /* as held by this lifter: "measured", "survey", "given", "default" ... */
    const PlumbSourceRow *row[2];
} PlumbExplainNumber;

/* Appends "shank 0.42008 m": five decimals at most, a force with one; zeros at the end left off. */
void plumb_explain_put_number(PlumbText *text, const PlumbExplainNumber *number);

typedef struct PlumbExplanation {
    PlumbQuestion question;
    PlumbQuestion drawn; /* whose drawing stands with it: of an end, the figure that ends it */
    char title[PLUMB_EXPLAIN_LINE];
    int symbol_count;
    PlumbExplainSymbol symbol[PLUMB_EXPLAIN_SYMBOLS];
    int step_count;
    PlumbExplainStep step[PLUMB_EXPLAIN_STEPS];
    int number_count;
    PlumbExplainNumber number[PLUMB_EXPLAIN_NUMBERS];
    int note_count;
    const char *note[PLUMB_EXPLAIN_NOTES];
    double rest;    /* of a moment in motion: in the same pose at rest, SI; else NaN */
    double program; /* the same figure as the program gives it elsewhere, SI */
    PlumbQuantity quantity;
} PlumbExplanation;

/* Of what a figure is asked. Pointers are borrowed. */
typedef struct PlumbExplainSubject {
    const PlumbBodySpec *spec; /* what the body was built from */
    const PlumbLifter *lifter;
    const PlumbAnswer *answer; /* a held one; may be NULL for a length */
    bool at_end;               /* lockout or standing instead of start or hole */
    bool on_way; /* the start, or the touch, holds a pose on the way instead: words alone differ */
    const PlumbMotionPoint *motion; /* an instant in motion, or NULL: at rest */
    const PlumbPressAnswer *press;  /* of a bench press in place of answer and motion, which are
                                       then NULL */
    const PlumbPressMotionPoint *press_motion; /* an instant of the press in motion, or NULL */
    bool placed;                               /* by plumb_explain_place */
} PlumbExplainSubject;

/* Where an answer is put whose pose is that of an end. */
typedef struct PlumbExplainRoom {
    PlumbAnswer answer;
    PlumbPressAnswer press;
} PlumbExplainRoom;

/* What an end of a window or range is asked of: the subject with its answer moved to that end, in
 * room, as long as which the result lives. Of every other question the subject as it is. */
PlumbExplainSubject plumb_explain_place(const PlumbExplainSubject *subject, PlumbQuestion question,
                                        PlumbExplainRoom *room);

/* The position that a subject speaks of; of a press plumb_explain_press. */
const PlumbPosition *plumb_explain_position(const PlumbExplainSubject *subject);
const PlumbPressPosition *plumb_explain_press(const PlumbExplainSubject *subject);
/* The set-up as used, NULL where there is no answer. */
const PlumbSetup *plumb_explain_setup(const PlumbExplainSubject *subject);

/* The sentence of the result: "M = 402.1 N m, which the program shows as 402 N m", and of a moment
 * in motion what it is at rest. */
void plumb_explain_result(PlumbText *text, const PlumbExplanation *explanation, PlumbUnits units);

/* Works a question out. PLUMB_BAD_INPUT, nothing written, where the subject has no such figure: a
 * squat's shoulder effort or gap to the leg, a joint of legs or back in a press, an effort or a
 * moment in space in motion, travel without an end, an end that no requirement sets or of a subject
 * that was not placed there. */
PlumbStatus plumb_explain(const PlumbExplainSubject *subject, PlumbQuestion question,
                          PlumbExplanation *explanation, PlumbError *error);

#endif
