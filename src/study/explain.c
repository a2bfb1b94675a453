/* SPDX-License-Identifier: MIT */
/* Questions by name, and which working answers each. */
#include "study/explain_parts.h"

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

int plumb_question_count(void)
{
    return JOINT_KINDS * PLUMB_JOINT_COUNT + (PLUMB_EXPLAIN_length - JOINT_KINDS) +
           PLUMB_LENGTH_COUNT;
}

PlumbQuestion plumb_question(int index)
{
    const int of_joints = JOINT_KINDS * PLUMB_JOINT_COUNT;
    const int whole = PLUMB_EXPLAIN_length - JOINT_KINDS;
    PlumbQuestion question = {PLUMB_EXPLAIN_length, PLUMB_JOINT_ankle, PLUMB_LEN_ankle_height};
    if (index < of_joints) {
        question.kind = (PlumbExplainKind)(index / PLUMB_JOINT_COUNT);
        question.joint = (PlumbJoint)(index % PLUMB_JOINT_COUNT);
    } else if (index < of_joints + whole) {
        question.kind = (PlumbExplainKind)(index - of_joints + JOINT_KINDS);
    } else {
        question.length = (PlumbLength)(index - of_joints - whole);
    }
    return question;
}

void plumb_question_name(PlumbText *text, PlumbQuestion question)
{
    if (question.kind == PLUMB_EXPLAIN_length) {
        plumb_text_string(text, plumb_length_name(question.length));
        return;
    }
    if (question.kind < (PlumbExplainKind)JOINT_KINDS) {
        plumb_text_string(text, plumb_joint_name(question.joint));
        plumb_text_char(text, '_');
    }
    plumb_text_string(text, kind_names[question.kind]);
}

bool plumb_question_find(const char *name, size_t length, PlumbQuestion *question)
{
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

bool plumb_question_nearest(const char *name, size_t length, PlumbText *text)
{
    /* The search keeps the words it is given, so that each needs its own room. */
    char own[JOINT_KINDS * PLUMB_JOINT_COUNT + PLUMB_EXPLAIN_length + PLUMB_LENGTH_COUNT]
            [NAME_SIZE];
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

static PlumbStatus refuse(PlumbError *error, const char *why)
{
    return plumb_error_set(error, PLUMB_BAD_INPUT, "quantity", why);
}

/* Whether the subject has the figure. */
static PlumbStatus check(const PlumbExplainSubject *s, PlumbQuestion question, PlumbError *error)
{
    const bool joint_effort = question.kind == PLUMB_EXPLAIN_effort;
    const bool effort = joint_effort || question.kind == PLUMB_EXPLAIN_summed_effort;
    const bool space =
        question.kind >= PLUMB_EXPLAIN_knee_extension && question.kind <= PLUMB_EXPLAIN_hip_frontal;
    if (question.kind == PLUMB_EXPLAIN_length) {
        return PLUMB_OK;
    }
    if (s->answer == NULL || s->answer->outcome == PLUMB_NO_POSE) {
        return refuse(error, "there is no pose to explain");
    }
    if ((s->at_end || question.kind == PLUMB_EXPLAIN_travel) && !s->answer->end_held) {
        return refuse(error, "the lift has no lockout or standing position");
    }
    if (s->motion != NULL && (effort || space || question.kind == PLUMB_EXPLAIN_travel)) {
        return refuse(error, "this figure is of the pose at rest; in motion there are moments, "
                             "arms and the centre of pressure (balance)");
    }
    if (joint_effort && question.joint == PLUMB_JOINT_shoulder &&
        s->answer->setup.lift == PLUMB_SQUAT) {
        return refuse(error, "the shoulder's effort is not counted in a squat");
    }
    return PLUMB_OK;
}

static const char *where(const PlumbExplainSubject *s)
{
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
    plumb_text_string(&text, kind_texts[question.kind]);
    if (question.kind == PLUMB_EXPLAIN_balance) {
        text.length = 0;
        plumb_text_string(&text, s->motion != NULL ? "centre of pressure along the foot"
                                                   : "balance along the foot");
    }
    if (question.kind != PLUMB_EXPLAIN_travel) {
        plumb_text_string(&text, ", ");
        plumb_text_string(&text, where(s));
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
    write_title(subject, explanation);
    return workings[question.kind](subject, explanation);
}
