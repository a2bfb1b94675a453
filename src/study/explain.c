/* SPDX-License-Identifier: MIT */
/* Questions by name, and which working answers each. */
#include "study/explain_parts.h"

#include <plumbar/solved.h>

#include "base/words.h"

#include <string.h>

enum { NAME_SIZE = 64 };

static const char *const kind_names[PLUMB_EXPLAIN_KIND_COUNT] = {
#define X(name, text) [PLUMB_EXPLAIN_##name] = #name,
    PLUMB_EXPLAIN_LIST(X)
#undef X
};

static const char *const kind_texts[PLUMB_EXPLAIN_KIND_COUNT] = {
#define X(name, text) [PLUMB_EXPLAIN_##name] = text,
    PLUMB_EXPLAIN_LIST(X)
#undef X
};

enum { JOINT_KINDS = PLUMB_EXPLAIN_effort + 1 };

/* The figures of a press in the order of its joints and arms. */
static const char *const press_names[3][PLUMB_PRESS_JOINT_COUNT] = {
    {"adduction_moment", "flexion_moment", "elbow_moment"},
    {"side_arm", "front_arm", "elbow_arm"},
    {"adduction_effort", "flexion_effort", "elbow_effort"},
};

/* How many questions a kind has. */
static int variants(PlumbExplainKind kind)
{
    if (kind < (PlumbExplainKind)JOINT_KINDS) {
        return PLUMB_JOINT_COUNT;
    }
    if (kind >= PLUMB_EXPLAIN_press_moment && kind <= PLUMB_EXPLAIN_press_effort) {
        return PLUMB_PRESS_JOINT_COUNT;
    }
    return kind == PLUMB_EXPLAIN_length ? PLUMB_LENGTH_COUNT : 1;
}

int plumb_question_count(void)
{
    int count = 0;
    for (int kind = 0; kind < PLUMB_EXPLAIN_KIND_COUNT; kind++) {
        count += variants((PlumbExplainKind)kind);
    }
    return count;
}

PlumbQuestion plumb_question(int index)
{
    PlumbQuestion question = {PLUMB_EXPLAIN_moment, PLUMB_JOINT_ankle, PLUMB_LEN_ankle_height, 0};
    while (index >= variants(question.kind)) {
        index -= variants(question.kind);
        question.kind = (PlumbExplainKind)(question.kind + 1);
    }
    if (question.kind < (PlumbExplainKind)JOINT_KINDS) {
        question.joint = (PlumbJoint)index;
    } else if (question.kind == PLUMB_EXPLAIN_length) {
        question.length = (PlumbLength)index;
    } else {
        question.press = index;
    }
    return question;
}

int plumb_question_index(PlumbQuestion question)
{
    int index = 0;
    for (int kind = 0; kind < (int)question.kind; kind++) {
        index += variants((PlumbExplainKind)kind);
    }
    return index + (question.kind < (PlumbExplainKind)JOINT_KINDS ? (int)question.joint
                    : question.kind == PLUMB_EXPLAIN_length       ? (int)question.length
                    : variants(question.kind) > 1                 ? question.press
                                                                  : 0);
}

static bool is_press(PlumbExplainKind kind)
{
    return kind >= PLUMB_EXPLAIN_press_moment && kind <= PLUMB_EXPLAIN_elbow_below_rule;
}

void plumb_question_name(PlumbText *text, PlumbQuestion question)
{
    if (question.kind == PLUMB_EXPLAIN_length) {
        plumb_text_string(text, plumb_length_name(question.length));
        return;
    }
    if (question.kind >= PLUMB_EXPLAIN_press_moment &&
        question.kind <= PLUMB_EXPLAIN_press_effort) {
        plumb_text_string(text,
                          press_names[question.kind - PLUMB_EXPLAIN_press_moment][question.press]);
        return;
    }
    if (question.kind < (PlumbExplainKind)JOINT_KINDS) {
        plumb_text_string(text, plumb_joint_name(question.joint));
        plumb_text_char(text, '_');
    }
    plumb_text_string(text, kind_names[question.kind]);
}

/* Names that a figure has elsewhere in the program. */
static const struct {
    const char *name;
    PlumbExplainKind kind;
} aliases[] = {
    {"frontal_knee_moment", PLUMB_EXPLAIN_knee_frontal},
    {"frontal_hip_moment", PLUMB_EXPLAIN_hip_frontal},
};

bool plumb_question_find(const char *name, size_t length, PlumbQuestion *question)
{
    for (size_t i = 0; i < sizeof aliases / sizeof aliases[0]; i++) {
        if (plumb_word_is(name, length, aliases[i].name)) {
            *question = (PlumbQuestion){.kind = aliases[i].kind};
            return true;
        }
    }
    for (int i = 0; i < plumb_question_count(); i++) {
        char own[NAME_SIZE];
        PlumbText text = plumb_text_begin(own, sizeof own);
        plumb_question_name(&text, plumb_question(i));
        if (plumb_word_is(name, length, own)) {
            *question = plumb_question(i);
            return true;
        }
    }
    return false;
}

bool plumb_question_of_output(PlumbLift lift, int output, PlumbQuestion *question)
{
    if (lift == PLUMB_BENCH && output == (int)PLUMB_PRESS_OUT_upper_arm) {
        *question = (PlumbQuestion){.kind = PLUMB_EXPLAIN_abduction}; /* not the length */
        return true;
    }
    const char *const name = plumb_lift_output_name(lift, output);
    return plumb_question_find(name, strlen(name), question);
}

bool plumb_question_nearest(const char *name, size_t length, PlumbText *text)
{
    /* The search keeps the words it is given, so that each needs its own room. */
    char own[JOINT_KINDS * PLUMB_JOINT_COUNT + 3 * PLUMB_PRESS_JOINT_COUNT +
             PLUMB_EXPLAIN_KIND_COUNT + PLUMB_LENGTH_COUNT][NAME_SIZE];
    PlumbNearest nearest = plumb_nearest_begin(name, length);
    for (int i = 0; i < plumb_question_count(); i++) {
        PlumbText word = plumb_text_begin(own[i], sizeof own[i]);
        plumb_question_name(&word, plumb_question(i));
        plumb_nearest_try(&nearest, own[i]);
    }
    const char *const found = plumb_nearest_word(&nearest);
    if (found == NULL) {
        return false;
    }
    plumb_text_string(text, found);
    return true;
}

const PlumbPosition *plumb_explain_position(const PlumbExplainSubject *subject)
{
    if (subject->motion != NULL) {
        return &subject->motion->position;
    }
    return subject->at_end ? &subject->answer->end : &subject->answer->start;
}

const PlumbPressPosition *plumb_explain_press(const PlumbExplainSubject *subject)
{
    if (subject->press_motion != NULL) {
        return &subject->press_motion->position;
    }
    return subject->at_end ? &subject->press->lockout : &subject->press->touch;
}

const PlumbSetup *plumb_explain_setup(const PlumbExplainSubject *subject)
{
    if (subject->press != NULL) {
        return &subject->press->setup;
    }
    return subject->answer != NULL ? &subject->answer->setup : NULL;
}

static PlumbStatus refuse(PlumbError *error, const char *why)
{
    return plumb_error_set(error, PLUMB_BAD_INPUT, "quantity", why);
}

/* Of a whole answer, not of one of its poses. */
static bool is_whole(PlumbExplainKind kind)
{
    return kind == PLUMB_EXPLAIN_travel ||
           (kind >= PLUMB_EXPLAIN_standing_off && kind <= PLUMB_EXPLAIN_range_high) ||
           (kind >= PLUMB_EXPLAIN_path_length && kind <= PLUMB_EXPLAIN_abduction_step);
}

static PlumbStatus check_press(const PlumbExplainSubject *s, PlumbQuestion question,
                               PlumbError *error)
{
    const bool has = is_press(question.kind) || question.kind == PLUMB_EXPLAIN_travel ||
                     question.kind == PLUMB_EXPLAIN_summed_effort ||
                     plumb_explain_is_end(question.kind);
    if (!has) {
        return refuse(error, "a figure of the deadlift and the squat; a bench press has "
                             "adduction_moment, flexion_moment, elbow_moment, side_arm, front_arm, "
                             "elbow_arm, adduction_effort and more: plumbar help explain lists "
                             "them");
    }
    const bool moves = question.kind == PLUMB_EXPLAIN_press_moment ||
                       question.kind == PLUMB_EXPLAIN_press_arm ||
                       question.kind >= PLUMB_EXPLAIN_abduction;
    if (s->press_motion != NULL && !moves) {
        return refuse(error, "this figure is of the pose at rest; of a press in motion there are "
                             "moments, arms and angles");
    }
    if (s->press->outcome == PLUMB_NO_POSE) {
        return refuse(error, "there is no pose to explain");
    }
    if (question.kind == PLUMB_EXPLAIN_elbows_upright && isnan(s->press->elbows_upright_rad)) {
        return refuse(error, "no angle of the upper arm keeps the forearm upright here");
    }
    return plumb_explain_is_end(question.kind) ? plumb_explain_check_end(s, question, error)
                                               : PLUMB_OK;
}

/* What a deadlift or a squat has and the other not. */
static PlumbStatus check_lift(const PlumbExplainSubject *s, PlumbQuestion question,
                              PlumbError *error)
{
    const bool squat = s->answer->setup.lift == PLUMB_SQUAT;
    if (question.kind == PLUMB_EXPLAIN_effort && question.joint == PLUMB_JOINT_shoulder && squat) {
        return refuse(error, "the shoulder's effort is not counted in a squat");
    }
    if (question.kind == PLUMB_EXPLAIN_leg_gap && squat) {
        return refuse(error, "in a squat the bar does not pass the legs");
    }
    if (question.kind == PLUMB_EXPLAIN_standing_off && !squat) {
        return refuse(error, "the bar hangs from the hands at a lockout; this is of a squat");
    }
    if (question.kind == PLUMB_EXPLAIN_hip_room && (squat || !s->answer->window.exists)) {
        return refuse(error, "only a deadlift with a start window has room below the hips");
    }
    return plumb_explain_is_end(question.kind) ? plumb_explain_check_end(s, question, error)
                                               : PLUMB_OK;
}

/* Whether the subject has the figure. */
static PlumbStatus check(const PlumbExplainSubject *s, PlumbQuestion question, PlumbError *error)
{
    const bool effort =
        question.kind == PLUMB_EXPLAIN_effort || question.kind == PLUMB_EXPLAIN_summed_effort;
    const bool space =
        question.kind >= PLUMB_EXPLAIN_knee_extension && question.kind <= PLUMB_EXPLAIN_hip_frontal;
    if (question.kind == PLUMB_EXPLAIN_length) {
        return PLUMB_OK;
    }
    if (s->press != NULL) {
        return check_press(s, question, error);
    }
    if (is_press(question.kind)) {
        return refuse(error, "a figure of the bench press, which a deadlift or squat has not");
    }
    if (s->answer == NULL || s->answer->outcome == PLUMB_NO_POSE) {
        return refuse(error, "there is no pose to explain");
    }
    const bool needs_end =
        question.kind == PLUMB_EXPLAIN_travel || question.kind == PLUMB_EXPLAIN_standing_off;
    if ((s->at_end || needs_end) && !s->answer->end_held) {
        return refuse(error, "the lift has no lockout or standing position");
    }
    if (s->motion != NULL && (effort || space || is_whole(question.kind))) {
        return refuse(error, "this figure is of the pose at rest; in motion there are moments, "
                             "arms, angles, heights and the centre of pressure (balance)");
    }
    return check_lift(s, question, error);
}

static const char *where(const PlumbExplainSubject *s)
{
    if (s->press_motion != NULL) {
        return "in motion, on the way up";
    }
    if (s->on_way && s->motion == NULL) {
        return "at rest, on the way";
    }
    if (s->press != NULL) {
        return s->at_end ? "at the lockout" : "at the touch";
    }
    const bool pull = s->answer->setup.lift == PLUMB_DEADLIFT;
    if (s->motion != NULL) {
        return pull ? "in motion, on the way up" : "in motion, on the way up from the hole";
    }
    if (s->at_end) {
        return pull ? "at the lockout" : "standing";
    }
    return pull ? "at the start" : "in the hole";
}

static void write_title(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbQuestion question = e->question;
    PlumbText text = plumb_text_begin(e->title, sizeof e->title);
    if (question.kind == PLUMB_EXPLAIN_length) {
        for (const char *c = plumb_length_name(question.length); *c != '\0'; c++) {
            plumb_text_char(&text, *c == '_' ? ' ' : *c);
        }
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, plumb_length_text(question.length));
        return;
    }
    if (question.kind < (PlumbExplainKind)JOINT_KINDS) {
        plumb_text_string(&text, plumb_joint_name(question.joint));
        plumb_text_string(&text, ": ");
    }
    if (question.kind == PLUMB_EXPLAIN_press_arm) {
        plumb_text_string(&text, "the bar's moment arm ");
        plumb_text_string(&text, plumb_press_arm_text((PlumbPressArm)question.press));
    } else if (question.kind == PLUMB_EXPLAIN_press_moment ||
               question.kind == PLUMB_EXPLAIN_press_effort) {
        plumb_text_string(&text, plumb_press_joint_text((PlumbPressJoint)question.press));
        plumb_text_string(&text, question.kind == PLUMB_EXPLAIN_press_moment
                                     ? ": net moment, each arm"
                                     : ": relative effort");
    } else {
        plumb_text_string(&text, question.kind == PLUMB_EXPLAIN_moment &&
                                         question.joint == PLUMB_JOINT_back
                                     ? "net joint moment" /* there is one spine */
                                     : kind_texts[question.kind]);
    }
    if (question.kind == PLUMB_EXPLAIN_balance) {
        text.length = 0;
        plumb_text_string(&text, s->motion != NULL ? "centre of pressure along the foot"
                                                   : "balance along the foot");
    }
    if (plumb_explain_is_end(question.kind)) {
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, plumb_end_text(plumb_explain_end(s, question.kind)));
    } else if (!is_whole(question.kind)) {
        plumb_text_string(&text, ", ");
        plumb_text_string(&text, where(s));
    }
}

void plumb_explain_result(PlumbText *text, const PlumbExplanation *e, PlumbUnits units)
{
    const PlumbExplainStep *const step = &e->step[e->step_count - 1];
    plumb_text_string(text, step->symbol);
    plumb_text_string(text, " = ");
    plumb_text_fixed(text, step->result, step->decimals);
    plumb_text_string(text, step->unit[0] != '\0' ? " " : "");
    plumb_text_string(text, step->unit);
    plumb_text_string(text, ", which the program shows as ");
    plumb_text_quantity(text, e->program, e->quantity, units);
    if (isfinite(e->rest)) {
        plumb_text_string(text, "; at rest in the same pose ");
        plumb_text_quantity(text, e->rest, e->quantity, units);
    }
}

typedef PlumbStatus (*Working)(const PlumbExplainSubject *s, PlumbExplanation *e);

static const Working workings[PLUMB_EXPLAIN_KIND_COUNT] = {
    [PLUMB_EXPLAIN_moment] = plumb_explain_moment,
    [PLUMB_EXPLAIN_arm] = plumb_explain_arm,
    [PLUMB_EXPLAIN_effort] = plumb_explain_effort,
    [PLUMB_EXPLAIN_knee_extension] = plumb_explain_space,
    [PLUMB_EXPLAIN_knee_frontal] = plumb_explain_space,
    [PLUMB_EXPLAIN_ankle_along_foot] = plumb_explain_space,
    [PLUMB_EXPLAIN_hip_frontal] = plumb_explain_space,
    [PLUMB_EXPLAIN_balance] = plumb_explain_balance,
    [PLUMB_EXPLAIN_travel] = plumb_explain_travel,
    [PLUMB_EXPLAIN_summed_effort] = plumb_explain_summed,
    [PLUMB_EXPLAIN_hip_height] = plumb_explain_hip_height,
    [PLUMB_EXPLAIN_back_angle] = plumb_explain_back,
    [PLUMB_EXPLAIN_shin_angle] = plumb_explain_turned,
    [PLUMB_EXPLAIN_thigh_angle] = plumb_explain_turned,
    [PLUMB_EXPLAIN_knee_flexion] = plumb_explain_bend,
    [PLUMB_EXPLAIN_dorsiflexion] = plumb_explain_dorsiflexion,
    [PLUMB_EXPLAIN_hip_flexion] = plumb_explain_hip,
    [PLUMB_EXPLAIN_hip_abduction] = plumb_explain_hip,
    [PLUMB_EXPLAIN_hip_rotation] = plumb_explain_hip,
    [PLUMB_EXPLAIN_frontal_shin] = plumb_explain_turned,
    [PLUMB_EXPLAIN_crease_above_knee] = plumb_explain_crease,
    [PLUMB_EXPLAIN_shoulder_ahead] = plumb_explain_shoulder_ahead,
    [PLUMB_EXPLAIN_leg_gap] = plumb_explain_leg_gap,
    [PLUMB_EXPLAIN_toe_line] = plumb_explain_beside,
    [PLUMB_EXPLAIN_knee_outside] = plumb_explain_beside,
    [PLUMB_EXPLAIN_bar_over] = plumb_explain_bar_over,
    [PLUMB_EXPLAIN_standing_off] = plumb_explain_standing_off,
    [PLUMB_EXPLAIN_hip_room] = plumb_explain_hip_room,
    [PLUMB_EXPLAIN_window_low] = plumb_explain_interval_end,
    [PLUMB_EXPLAIN_window_high] = plumb_explain_interval_end,
    [PLUMB_EXPLAIN_range_low] = plumb_explain_interval_end,
    [PLUMB_EXPLAIN_range_high] = plumb_explain_interval_end,
    [PLUMB_EXPLAIN_press_moment] = plumb_explain_press_moment,
    [PLUMB_EXPLAIN_press_arm] = plumb_explain_press_arm,
    [PLUMB_EXPLAIN_press_effort] = plumb_explain_press_effort,
    [PLUMB_EXPLAIN_path_length] = plumb_explain_path_length,
    [PLUMB_EXPLAIN_touch] = plumb_explain_touch,
    [PLUMB_EXPLAIN_grip_share] = plumb_explain_grip_share,
    [PLUMB_EXPLAIN_lockout_height] = plumb_explain_lockout_height,
    [PLUMB_EXPLAIN_elbows_upright] = plumb_explain_elbows_upright,
    [PLUMB_EXPLAIN_abduction_step] = plumb_explain_abduction_step,
    [PLUMB_EXPLAIN_abduction] = plumb_explain_abduction,
    [PLUMB_EXPLAIN_elbow_flexion] = plumb_explain_bend,
    [PLUMB_EXPLAIN_forearm_front] = plumb_explain_turned,
    [PLUMB_EXPLAIN_forearm_side] = plumb_explain_turned,
    [PLUMB_EXPLAIN_shoulder_angle] = plumb_explain_turned,
    [PLUMB_EXPLAIN_shoulder_rotation] = plumb_explain_rotation,
    [PLUMB_EXPLAIN_elbow_off_hand] = plumb_explain_elbow_off_hand,
    [PLUMB_EXPLAIN_elbow_below_rule] = plumb_explain_elbow_below_rule,
    [PLUMB_EXPLAIN_length] = plumb_explain_body_length,
};

PlumbStatus plumb_explain(const PlumbExplainSubject *subject, PlumbQuestion question,
                          PlumbExplanation *explanation, PlumbError *error)
{
    const PlumbStatus status = check(subject, question, error);
    if (status != PLUMB_OK) {
        return status;
    }
    memset(explanation, 0, sizeof *explanation);
    explanation->question = question;
    explanation->drawn = question;
    explanation->rest = (double)NAN;
    write_title(subject, explanation);
    if (subject->press != NULL && question.kind == PLUMB_EXPLAIN_travel) {
        return plumb_explain_press_travel(subject, explanation);
    }
    return plumb_explain_figure(subject, explanation);
}

PlumbStatus plumb_explain_figure(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    return workings[e->question.kind](s, e);
}
