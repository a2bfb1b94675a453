/* SPDX-License-Identifier: MIT */
/* The working of the ends of a window and of a low-effort range: the figure that its requirement is
 * about in the pose of that end, what is left of the requirement there, and where that pose is. */
#include "study/explain_parts.h"

#include "base/roots.h"
#include "solve/case.h"
#include "solve/press.h"

#include <math.h>
#include <stddef.h>

/* A requirement: the figure that it is about, and whether the limit is the most or the least. */
typedef struct Requirement {
    PlumbEnd end;
    PlumbExplainKind figure;
    bool most;
    const char *file; /* of the limit, "" where the set-up or nothing at all gives it */
    const char *key;
} Requirement;

static const Requirement requirements[] = {
    {PLUMB_END_shoulder_behind, PLUMB_EXPLAIN_shoulder_ahead, false, "", ""},
    {PLUMB_END_shoulder_ahead, PLUMB_EXPLAIN_shoulder_ahead, true, "", ""},
    {PLUMB_END_back_level, PLUMB_EXPLAIN_back_angle, false, "constants.csv", "back_least"},
    {PLUMB_END_balance_heel, PLUMB_EXPLAIN_balance, false, "constants.csv", "balance_least"},
    {PLUMB_END_balance_toes, PLUMB_EXPLAIN_balance, true, "constants.csv", "balance_most"},
    {PLUMB_END_ankle_dorsiflexion, PLUMB_EXPLAIN_dorsiflexion, true, "limits.csv",
     "ankle_dorsiflexion"},
    {PLUMB_END_knee_flexion, PLUMB_EXPLAIN_knee_flexion, true, "limits.csv", "knee_flexion"},
    {PLUMB_END_hip_flexion, PLUMB_EXPLAIN_hip_flexion, true, "limits.csv", "hip_flexion"},
    {PLUMB_END_hip_extension, PLUMB_EXPLAIN_hip_flexion, false, "limits.csv", "hip_extension"},
    {PLUMB_END_hip_abduction, PLUMB_EXPLAIN_hip_abduction, true, "limits.csv", "hip_abduction"},
    {PLUMB_END_hip_external_rotation, PLUMB_EXPLAIN_hip_rotation, true, "limits.csv",
     "hip_external_rotation"},
    {PLUMB_END_hip_internal_rotation, PLUMB_EXPLAIN_hip_rotation, false, "limits.csv",
     "hip_internal_rotation"},
    {PLUMB_END_shoulder_flexion, PLUMB_EXPLAIN_shoulder_angle, true, "limits.csv",
     "shoulder_flexion"},
    {PLUMB_END_shoulder_external_rotation, PLUMB_EXPLAIN_shoulder_rotation, true, "limits.csv",
     "shoulder_external_rotation"},
    {PLUMB_END_elbow_flexion, PLUMB_EXPLAIN_elbow_flexion, true, "limits.csv", "elbow_flexion"},
    {PLUMB_END_touch_range, PLUMB_EXPLAIN_touch, true, "settings.csv", "touch"},
    {PLUMB_END_upper_arm_flared, PLUMB_EXPLAIN_abduction, true, "limits.csv", "press_abduction"},
    {PLUMB_END_effort, PLUMB_EXPLAIN_summed_effort, true, "constants.csv", "effort_allowance"},
};

static const Requirement *requirement_of(PlumbEnd end)
{
    for (size_t i = 0; i < sizeof requirements / sizeof requirements[0]; i++) {
        if (requirements[i].end == end) {
            return &requirements[i];
        }
    }
    return NULL;
}

bool plumb_explain_is_end(PlumbExplainKind kind)
{
    return kind >= PLUMB_EXPLAIN_window_low && kind <= PLUMB_EXPLAIN_range_high;
}

static const PlumbInterval *interval_of(const PlumbExplainSubject *s, PlumbExplainKind kind)
{
    const bool window = kind <= PLUMB_EXPLAIN_window_high;
    if (s->press != NULL) {
        return window ? &s->press->window : &s->press->low_effort;
    }
    return window ? &s->answer->window : &s->answer->low_effort;
}

static bool is_high(PlumbExplainKind kind)
{
    return kind == PLUMB_EXPLAIN_window_high || kind == PLUMB_EXPLAIN_range_high;
}

static double value_of(const PlumbExplainSubject *s, PlumbExplainKind kind)
{
    const PlumbInterval *const interval = interval_of(s, kind);
    return is_high(kind) ? interval->high : interval->low;
}

PlumbEnd plumb_explain_end(const PlumbExplainSubject *s, PlumbExplainKind kind)
{
    const PlumbInterval *const interval = interval_of(s, kind);
    return is_high(kind) ? interval->high_end : interval->low_end;
}

/* The upper arm's angle that a range of touches may begin at; the touch where it has it. */
static double flare_touch(const PlumbExplainSubject *s)
{
    return s->lifter->body.upper_arm_m *
           cos(plumb_press_flare_rad(s->lifter, plumb_explain_setup(s)));
}

PlumbStatus plumb_explain_check_end(const PlumbExplainSubject *s, PlumbQuestion question,
                                    PlumbError *error)
{
    const char *why = NULL;
    if (!interval_of(s, question.kind)->exists) {
        why = "there is no window: nothing meets all requirements at once";
    } else if (requirement_of(plumb_explain_end(s, question.kind)) == NULL ||
               (plumb_explain_end(s, question.kind) == PLUMB_END_upper_arm_flared &&
                fabs(flare_touch(s) - value_of(s, question.kind)) > 1e-9)) {
        why = "beyond this end there is no pose at all, so that no requirement has an equation";
    } else if (!s->placed) {
        why = "the pose of this end was not looked for";
    } else if (s->press != NULL ? s->press->outcome == PLUMB_NO_POSE
                                : s->answer->outcome == PLUMB_NO_POSE) {
        why = "the pose of this end was not found again";
    }
    return why == NULL ? PLUMB_OK : plumb_error_set(error, PLUMB_BAD_INPUT, "quantity", why);
}

/* A set-up of the same family of poses in which the free quantity leads. */
static PlumbSetup led_by(const PlumbAnswer *answer, double value)
{
    PlumbSetup setup = answer->setup;
    setup.knees_over_toes = false; /* as turned as they are */
    setup.knees_out_rad = answer->start.knees_out_rad;
    if (setup.lift == PLUMB_DEADLIFT) {
        setup.lead = PLUMB_LEAD_HIP_HEIGHT;
        setup.hip_height_m = value;
    } else {
        setup.lead = PLUMB_LEAD_SHIN_ANGLE;
        setup.shin_angle_rad = value;
    }
    return setup;
}

PlumbExplainSubject plumb_explain_place(const PlumbExplainSubject *subject, PlumbQuestion question,
                                        PlumbExplainRoom *room)
{
    PlumbExplainSubject placed = *subject;
    const bool solved = subject->press != NULL
                            ? subject->press->outcome != PLUMB_NO_POSE
                            : subject->answer != NULL && subject->answer->outcome != PLUMB_NO_POSE;
    if (question.kind == PLUMB_EXPLAIN_standing_off) {
        placed.at_end = solved;
        return placed;
    }
    if (question.kind == PLUMB_EXPLAIN_hip_room || question.kind == PLUMB_EXPLAIN_elbows_upright) {
        placed.at_end = false;
        return placed;
    }
    if (!plumb_explain_is_end(question.kind) || !solved ||
        !interval_of(subject, question.kind)->exists) {
        return placed;
    }
    const double value = value_of(subject, question.kind);
    if (subject->press != NULL) {
        PlumbSetup setup = subject->press->setup;
        setup.lead = PLUMB_LEAD_TOUCH;
        setup.touch_m = value;
        plumb_press_quick(subject->lifter, &setup, &room->press);
        room->press.window = subject->press->window;
        room->press.low_effort = subject->press->low_effort;
        placed.press = &room->press;
    } else {
        const PlumbSetup setup = led_by(subject->answer, value);
        plumb_answer_quick(subject->lifter, &setup, &room->answer);
        room->answer.window = subject->answer->window;
        room->answer.low_effort = subject->answer->low_effort;
        placed.answer = &room->answer;
    }
    placed.motion = NULL;
    placed.press_motion = NULL;
    placed.at_end = placed.on_way = false;
    placed.placed = true;
    return placed;
}

typedef struct Led {
    const PlumbExplainSubject *s;
    PlumbAnswer answer;
} Led;

static double effort_at(double value, void *context)
{
    Led *const led = context;
    const PlumbSetup setup = led_by(led->s->answer, value);
    plumb_answer_quick(led->s->lifter, &setup, &led->answer);
    return led->answer.outcome == PLUMB_NO_POSE ? (double)INFINITY
                                                : led->answer.start.summed_effort;
}

/* The least summed effort, which lies within the range that reaches to 5 % above it. */
static double least_effort(const PlumbExplainSubject *s)
{
    if (s->press != NULL) {
        PlumbPress press = plumb_press_begin(s->lifter, &s->press->setup);
        PlumbPressRange range;
        plumb_press_intervals(&press, &range);
        PlumbPressPosition at;
        plumb_press_touch(&press, range.least_m);
        plumb_press_describe(&press, 0.0, &at);
        return at.summed_effort;
    }
    enum { STEPS = 16 };
    const PlumbInterval *const range = &s->answer->low_effort;
    Led led = {.s = s};
    double value[STEPS + 1];
    double effort[STEPS + 1];
    int best = 0;
    for (int i = 0; i <= STEPS; i++) {
        value[i] = range->low + (range->high - range->low) * i / STEPS;
        effort[i] = effort_at(value[i], &led);
        best = effort[i] < effort[best] ? i : best;
    }
    double least;
    plumb_least_bracketed(effort_at, &led, value[best > 0 ? best - 1 : 0],
                          value[best < STEPS ? best + 1 : STEPS], 1e-9, &least);
    return fmin(least, effort[best]);
}

/* One row of three: a, b, and what they make. */
static double made_of(PlumbExplanation *e, const char *const text[3], const char *term,
                      const char *const symbol[3], const char *const unit[3], double a, double b,
                      double made)
{
    PlumbExplainStep *const step = plumb_explain_step(e, text[0], text[1], text[2]);
    for (int i = 0; i < 3; i++) {
        plumb_explain_column(step, symbol[i], unit[i], 4);
    }
    plumb_explain_figures(step, plumb_explain_term(step, term), (const double[]){a, b, made});
    plumb_explain_sum(step, symbol[2], unit[2], 4);
    return made;
}

/* The limit of the requirement, with the step or the row that it is from. */
static double limit_of(const PlumbExplainSubject *s, const Requirement *row, const char *unit,
                       PlumbExplanation *e)
{
    const PlumbSetup *const setup = plumb_explain_setup(s);
    const double limit = plumb_end_limit(s->lifter, setup, row->end);
    const PlumbSourceRow *source = plumb_source_find(row->file, row->key);
    if (row->end == PLUMB_END_shoulder_behind) {
        plumb_explain_note(e, "The limit is the bar itself: behind it the shoulder may not stand.");
        return limit;
    }
    if (row->end == PLUMB_END_shoulder_ahead) {
        const bool given =
            fabs(setup->shoulder_ahead_max_frac -
                 plumb_setting(PLUMB_SET_shoulder_ahead_max)->default_si[setup->lift]) > 1e-12;
        plumb_explain_number(e, "shoulder ahead max (setting)", setup->shoulder_ahead_max_frac, "",
                             given ? "given" : "default",
                             given ? NULL : plumb_source_find("settings.csv", "shoulder_ahead_max"),
                             NULL);
        return made_of(e,
                       (const char *const[]){"How far ahead it may stand",
                                             "The limit is a share of the stature.", "limit = f H"},
                       "shoulder ahead of the bar at most",
                       (const char *const[]){"f", "H", "limit"},
                       (const char *const[]){"", "m", "m"}, setup->shoulder_ahead_max_frac,
                       s->lifter->body.stature_m, limit);
    }
    if (row->end == PLUMB_END_effort) {
        const double least = least_effort(s);
        plumb_explain_number(e, "allowance over the least effort", PLUMB_PRESS_EFFORT_ALLOWANCE, "",
                             "judgement", source, NULL);
        plumb_explain_note(e,
                           "The least summed effort is looked for among the poses of the range.");
        return made_of(e,
                       (const char *const[]){"5 % above the least",
                                             "The limit is the least summed effort of all poses "
                                             "within the window, and 5 % more.",
                                             "limit = f J0"},
                       "summed effort at most", (const char *const[]){"f", "J0", "limit"},
                       (const char *const[]){"", "", ""}, PLUMB_PRESS_EFFORT_ALLOWANCE, least,
                       PLUMB_PRESS_EFFORT_ALLOWANCE * least);
    }
    if (row->end >= PLUMB_END_ankle_dorsiflexion) {
        const PlumbLifter plain = plumb_lifter_default(&s->lifter->body);
        const int joint = (int)row->end - (int)PLUMB_END_ankle_dorsiflexion;
        const bool given = fabs(plain.limit_rad[joint] - s->lifter->limit_rad[joint]) > 1e-12;
        plumb_explain_number(e, "limit of the joint", limit, unit, given ? "given" : "default",
                             given ? NULL : source, NULL);
        return limit;
    }
    plumb_explain_number(e, "limit", limit, unit, "judgement", source, NULL);
    return limit;
}

/* What is left of the requirement in this pose: nothing. */
static void margin(const PlumbExplainSubject *s, const Requirement *row, PlumbExplanation *e)
{
    const PlumbExplainStep *const figure = &e->step[e->step_count - 1];
    const char *const unit = figure->unit;
    const double value = figure->result;
    plumb_explain_symbol(e, "V, R", "the figure above; what is left of the requirement");
    const double limit = limit_of(s, row, unit, e);
    made_of(e,
            (const char *const[]){
                row->most ? "The most that is allowed" : "The least that is asked for",
                "At this end nothing is left of the requirement; beyond it R would be below 0.",
                row->most ? "R = limit - V" : "R = V - limit"},
            "what is left", (const char *const[]){"V", "limit", "R"},
            (const char *const[]){unit, unit, unit}, value, limit,
            row->most ? limit - value : value - limit);
}

/* Where the pose of the end is, in the quantity that the interval is one of. */
static void place_step(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    static const char *const words = "The free quantity is moved until R changes its sign; all "
                                     "other settings stay. Here it does:";
    if (s->press != NULL) {
        PlumbExplainStep *const step =
            plumb_explain_step(e, "The touch at which it is so", words, "R(T) = 0");
        plumb_explain_symbol(e, "T", "touch: the bar from the shoulders' line toward the feet");
        plumb_explain_column(step, "T", "m", 4);
        plumb_explain_term(step, "touch")->value[0] = s->press->touch.point[PLUMB_PRESS_bar].x;
        plumb_explain_sum(step, "T", "m", 4);
        return;
    }
    const PlumbVec3 *const at = s->answer->start.point;
    if (s->answer->setup.lift == PLUMB_SQUAT) {
        plumb_explain_symbol(e, "X, Y", "knee from the ankle: forward, up");
        plumb_explain_symbol(e, "S", "shin from upright");
        const double x = at[PLUMB_PT_knee].x - at[PLUMB_PT_ankle].x;
        const double y = at[PLUMB_PT_knee].y - at[PLUMB_PT_ankle].y;
        made_of(e,
                (const char *const[]){"The shin angle at which it is so", words,
                                      "S = atan2(X, Y),  R(S) = 0"},
                "shank", (const char *const[]){"X", "Y", "S"},
                (const char *const[]){"m", "m", "rad"}, x, y, atan2(x, y));
        return;
    }
    PlumbExplainLink link[PLUMB_LINKS];
    plumb_explain_links(s, link);
    PlumbExplainStep *const step =
        plumb_explain_step(e, "The hip height at which it is so", words, "Y = Σ r,  R(Y) = 0");
    plumb_explain_symbol(e, "Y, r", "height of the hip joint; what each link rises to it");
    plumb_explain_column(step, "r", "m", 4);
    plumb_explain_term(step, "ankle joint above the floor")->value[0] = link[PLUMB_LINK_ANKLE].up_m;
    plumb_explain_term(step, "shank")->value[0] = link[PLUMB_LINK_SHANK].up_m;
    plumb_explain_term(step, "thigh")->value[0] = link[PLUMB_LINK_THIGH].up_m;
    plumb_explain_sum(step, "Y", "m", 4);
}

/* Ends of a press that have an equation of their own. */
static bool explain_touch_end(const PlumbExplainSubject *s, PlumbEnd end, double value,
                              PlumbExplanation *e)
{
    const PlumbSetup *const setup = plumb_explain_setup(s);
    if (end == PLUMB_END_touch_range) {
        PlumbExplainStep *const step = plumb_explain_step(
            e, "The end of the setting",
            "Further the bar would leave the chest: a touch can be set no further.", "T = limit");
        plumb_explain_symbol(e, "T", "touch: the bar from the shoulders' line toward the feet");
        plumb_explain_column(step, "T", "m", 4);
        const PlumbSetting *const setting = plumb_setting(PLUMB_SET_touch);
        plumb_explain_term(step, "touch")->value[0] =
            is_high(e->question.kind) ? setting->max_si : setting->min_si;
        plumb_explain_sum(step, "T", "m", 4);
        plumb_explain_pose(e, s);
        return true;
    }
    if (end != PLUMB_END_upper_arm_flared) {
        return false;
    }
    const double flare = plumb_press_flare_rad(s->lifter, setup);
    plumb_explain_symbol(e, "T", "touch: the bar from the shoulders' line toward the feet");
    plumb_explain_symbol(e, "l1, F", "upper arm, and how far from the trunk it may stand");
    made_of(e,
            (const char *const[]){"The elbow under the bar, the upper arm as far out as it may be",
                                  "With the elbow under the bar its place along the trunk is the "
                                  "bar's; nearer to the neck the upper arm would stand further off "
                                  "the trunk.",
                                  "T = l1 cos F"},
            "upper arm", (const char *const[]){"l1", "F", "T"},
            (const char *const[]){"m", "rad", "m"}, s->lifter->body.upper_arm_m, flare, value);
    plumb_explain_number(
        e, "F, upper arm from the trunk at most", flare, "rad",
        setup->elbows_given ? "given" : "default",
        setup->elbows_given ? NULL : plumb_source_find("limits.csv", "press_abduction"), NULL);
    plumb_explain_pose(e, s);
    return true;
}

PlumbStatus plumb_explain_interval_end(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbQuestion question = e->question;
    const PlumbEnd end = plumb_explain_end(s, question.kind);
    const Requirement *const row = requirement_of(end);
    const double value = value_of(s, question.kind);
    e->drawn = (PlumbQuestion){.kind = row->figure};
    if (!explain_touch_end(s, end, value, e)) {
        e->question = e->drawn;
        const PlumbStatus status = plumb_explain_figure(s, e);
        e->question = question;
        if (status != PLUMB_OK) {
            return status;
        }
        if (row->figure == PLUMB_EXPLAIN_summed_effort) { /* which stands without its pose */
            plumb_explain_pose(e, s);
        }
        margin(s, row, e);
        place_step(s, e);
    }
    e->quantity =
        s->press == NULL && s->answer->setup.lift == PLUMB_SQUAT ? PLUMB_Q_ANGLE : PLUMB_Q_LENGTH;
    e->program = value;
    return PLUMB_OK;
}
