/* SPDX-License-Identifier: MIT */
/* The working of relative efforts: moment, what the joint can supply at its angle, and their share;
 * and of the summed effort. */
#include "study/explain_parts.h"

#include "tables.h"

#include <stddef.h>

static const PlumbAction actions[3][2] = {
    [PLUMB_JOINT_ankle] = {PLUMB_ACTION_ankle_plantarflexion, PLUMB_ACTION_ankle_dorsiflexion},
    [PLUMB_JOINT_knee] = {PLUMB_ACTION_knee_extension, PLUMB_ACTION_knee_flexion},
    [PLUMB_JOINT_hip] = {PLUMB_ACTION_hip_extension, PLUMB_ACTION_hip_flexion},
};

static const char *const action_names[] = {
#define X(name) [PLUMB_ACTION_##name] = #name,
    PLUMB_ACTION_LIST(X)
#undef X
};

static const char *const age_names[] = {
#define X(name, text) [PLUMB_AGE_##name] = text,
    PLUMB_AGE_LIST(X)
#undef X
};

static const char *const upper_names[] = {
#define X(name) [PLUMB_UPPER_##name] = #name,
    PLUMB_UPPER_ACTION_LIST(X)
#undef X
};

static const char *const upper_words[] = {
    [PLUMB_UPPER_shoulder_extension] = "shoulder extension of the person tested",
    [PLUMB_UPPER_shoulder_flexion] = "shoulder flexion of the person tested",
    [PLUMB_UPPER_lumbar_extension] = "back extension of the person tested",
    [PLUMB_UPPER_lumbar_flexion] = "back flexion of the person tested",
    [PLUMB_UPPER_shoulder_horizontal_adduction] = "shoulder adduction of the person tested",
    [PLUMB_UPPER_shoulder_horizontal_abduction] = "shoulder abduction of the person tested",
    [PLUMB_UPPER_elbow_extension] = "elbow extension of the person tested",
    [PLUMB_UPPER_elbow_flexion] = "elbow flexion of the person tested",
};

/* The share of the older of the two rows between which a capacity is interpolated by age. */
static double share_of_older(double age_years, PlumbAge *older)
{
    *older = age_years >= 65.0 ? PLUMB_AGE_OVER_65 : PLUMB_AGE_55_TO_65;
    const double share = (age_years - 25.0) / 30.0;
    return share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share;
}

static double limb_angle(const PlumbPosition *p, PlumbJoint joint)
{
    static const PlumbAngle angle[] = {[PLUMB_JOINT_ankle] = PLUMB_ANG_ankle_dorsiflexion,
                                       [PLUMB_JOINT_knee] = PLUMB_ANG_knee_flexion,
                                       [PLUMB_JOINT_hip] = PLUMB_ANG_hip_thorax_thigh};
    static const PlumbHeld held[] = {[PLUMB_JOINT_ankle] = PLUMB_HELD_ankle,
                                     [PLUMB_JOINT_knee] = PLUMB_HELD_knee,
                                     [PLUMB_JOINT_hip] = PLUMB_HELD_hip};
    const PlumbHeldRow *row = &plumb_table_held[held[joint]];
    return fmin(fmax(p->angle_rad[angle[joint]], row->least_rad), row->greatest_rad);
}

static const PlumbSourceRow *capacity_row(PlumbSex sex, PlumbAction action, PlumbAge age)
{
    char key[64];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, plumb_sex_name(sex));
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, action_names[action]);
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, age_names[age]);
    return plumb_source_find("capacities.csv", key);
}

static void limb_term(const PlumbExplainSubject *s, PlumbExplanation *e, PlumbExplainStep *step,
                      PlumbAction action, PlumbAge age, double share, double angle)
{
    const PlumbBody *body = &s->lifter->body;
    const PlumbCapacityRow *row = &plumb_table_capacity[body->sex][action][age];
    const double size = body->mass_kg * PLUMB_GRAVITY * body->stature_m;
    const double whole = size * row->c1 * cos(row->c2 * (angle - row->c3));
    char words[PLUMB_EXPLAIN_NAME];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, "adults aged ");
    plumb_text_string(&text, age_names[age]);
    plumb_explain_figures(step, plumb_explain_term(step, words),
                          (const double[]){row->c1, row->c2, row->c3, angle, share, share * whole});
    plumb_explain_number(e, words, row->c1, "", "C1, with C2 and C3",
                         capacity_row(body->sex, action, age), NULL);
}

static double limb_capacity(const PlumbExplainSubject *s, PlumbExplanation *e, PlumbJoint joint,
                            bool extends)
{
    const PlumbBody *body = &s->lifter->body;
    const PlumbPosition *p = plumb_explain_position(s);
    const PlumbAction action = actions[joint][extends ? 0 : 1];
    const double angle = limb_angle(p, joint);
    PlumbAge older;
    const double share = share_of_older(body->age_years, &older);
    plumb_explain_symbol(e, "C", "capacity: what one limb of an average adult can supply");
    plumb_explain_symbol(e, "C1, C2, C3", "coefficients of the published curve of the action");
    plumb_explain_symbol(e, "a", "angle of the joint, kept within the tested range, rad");
    plumb_explain_symbol(e, "w", "weight of an age group, interpolated by age");
    plumb_explain_symbol(e, "m, H", "body mass and stature");
    PlumbExplainStep *step = plumb_explain_step(
        e, "What one limb can supply at this angle",
        "Strength grows with body mass and stature and depends on the angle of the joint by a "
        "published curve.",
        "C = Σ w m g H C1 cos(C2 (a - C3))");
    plumb_explain_column(step, "C1", "", 4);
    plumb_explain_column(step, "C2", "", 4);
    plumb_explain_column(step, "C3", "rad", 4);
    plumb_explain_column(step, "a", "rad", 4);
    plumb_explain_column(step, "w", "", 3);
    plumb_explain_column(step, "term", "N m", 1);
    limb_term(s, e, step, action, PLUMB_AGE_18_TO_25, 1.0 - share, angle);
    if (share > 0.0) {
        limb_term(s, e, step, action, older, share, angle);
    }
    plumb_explain_sum(step, "C", "N m", 1);
    plumb_explain_number(e, "a, within the tested range", angle, "rad", "solved pose",
                         plumb_source_find("capacity_ranges.csv", plumb_joint_name(joint)), NULL);
    if ((p->extrapolated >> joint & 1U) != 0) {
        plumb_explain_note(e, "The joint's angle lies outside what was tested; the curve is held "
                              "at its edge. Extrapolated.");
    }
    return step->result;
}

/* Capacity of an action of the upper body: one person's, scaled. what: the joint of the term. */
static double upper_step(const PlumbExplainSubject *s, PlumbExplanation *e, PlumbUpperAction action,
                         double angle, const char *what)
{
    const PlumbBody *body = &s->lifter->body;
    const PlumbUpperRow *row = &plumb_table_upper[action];
    const double size =
        body->mass_kg * body->stature_m / (row->person_mass_kg * row->person_stature_m);
    const double off = (angle - row->centre_rad) / row->width_rad;
    plumb_explain_symbol(e, "C", "capacity of the back, or of one shoulder or elbow");
    plumb_explain_symbol(e, "T, b, v",
                         "greatest moment of the person tested, the angle where it "
                         "lies, and the width of the curve");
    plumb_explain_symbol(e, "a", "angle of the joint, rad; for the back always the same");
    plumb_explain_symbol(e, "k", "mass times stature of this lifter over those of the person");
    PlumbExplainStep *step = plumb_explain_step(
        e, "What the joint can supply at this angle",
        "One person was measured; the figure is scaled by mass times stature and falls off to "
        "both sides of the best angle.",
        "C = k T exp(-(a - b)^2 / (2 v^2))");
    plumb_explain_column(step, "T", "N m", 2);
    plumb_explain_column(step, "b", "rad", 4);
    plumb_explain_column(step, "v", "rad", 4);
    plumb_explain_column(step, "a", "rad", 4);
    plumb_explain_column(step, "k", "", 4);
    plumb_explain_column(step, "C", "N m", 1);
    plumb_explain_figures(step, plumb_explain_term(step, what),
                          (const double[]){row->tmax_n_m, row->centre_rad, row->width_rad, angle,
                                           size, size * row->tmax_n_m * exp(-0.5 * off * off)});
    plumb_explain_sum(step, "C", "N m", 1);
    plumb_explain_number(e, upper_words[action], row->tmax_n_m, "N m", "T, with b and v",
                         plumb_source_find("capacities_upper.csv", upper_names[action]), NULL);
    plumb_explain_note(e, "It rests on one person: compare set-ups of one lifter only.");
    return step->result;
}

static double upper_capacity(const PlumbExplainSubject *s, PlumbExplanation *e, PlumbJoint joint,
                             bool extends)
{
    const bool back = joint == PLUMB_JOINT_back;
    const PlumbUpperAction action =
        back ? (extends ? PLUMB_UPPER_lumbar_extension : PLUMB_UPPER_lumbar_flexion)
             : (extends ? PLUMB_UPPER_shoulder_extension : PLUMB_UPPER_shoulder_flexion);
    const double angle = back ? plumb_table_held[PLUMB_HELD_back].least_rad
                              : plumb_explain_position(s)->angle_rad[PLUMB_ANG_shoulder_flexion];
    const double capacity = upper_step(s, e, action, angle, back ? "back" : "shoulder");
    if (back) {
        plumb_explain_number(e, "a, held for the back", angle, "rad", "judgement",
                             plumb_source_find("capacity_ranges.csv", "back"), NULL);
    }
    return capacity;
}

/* Whose strength counts where the moment asks for the other side of the joint. */
static void note_opposite(PlumbExplanation *e, double moment, const char *note)
{
    if (moment < 0.0) {
        plumb_explain_note(e, note);
    }
}

/* Without an entered strength an effort is told against the greatest one of the pose. */
static void share_step(const PlumbExplainSubject *s, PlumbExplanation *e, const char *what,
                       const double *effort, int which, int count)
{
    double greatest = 0.0;
    for (int i = 0; i < count; i++) {
        greatest = fmax(greatest, effort[i]); /* NaN counts as nothing */
    }
    const double own = e->step[e->step_count - 1].result;
    e->program = effort[which];
    if (s->lifter->strength_entered || !(greatest > 0.0)) {
        return;
    }
    plumb_explain_symbol(e, "E1", "greatest relative effort of this pose");
    plumb_explain_symbol(e, "Q", "effort as it is shown: a share of the greatest");
    PlumbExplainStep *const step = plumb_explain_step(
        e, "Against the greatest effort of this pose",
        "Strength was not entered, so that average adults stand in for this lifter; what is left "
        "to say is how the efforts of one pose compare.",
        "Q = E / E1");
    plumb_explain_column(step, "E", "", 4);
    plumb_explain_column(step, "E1", "", 4);
    plumb_explain_column(step, "Q", "", 4);
    plumb_explain_figures(step, plumb_explain_term(step, what),
                          (const double[]){own, greatest, own / greatest});
    plumb_explain_sum(step, "Q", "", 4);
    e->quantity = PLUMB_Q_SHARE;
    e->program = effort[which] / greatest;
}

/* |M| / (N S C), and what it rests on. */
static void effort_step(const PlumbExplainSubject *s, PlumbExplanation *e, const char *what,
                        double moment, double sides, double strength, double capacity)
{
    const PlumbBody *body = &s->lifter->body;
    plumb_explain_symbol(e, "E", "relative effort");
    plumb_explain_symbol(e, "M",
                         s->press != NULL
                             ? "net moment of the joint, each arm; explained on its own"
                         : e->question.joint == PLUMB_JOINT_back
                             ? "net moment of the joint; explained on its own"
                             : "net moment of the joint, both sides; explained on its own");
    plumb_explain_symbol(e, "N", "how many joints share it");
    plumb_explain_symbol(e, "S", "strength of this lifter: 1 is an average adult");
    PlumbExplainStep *step = plumb_explain_step(
        e, "Moment over capacity",
        "The effort is the share of what the joint can supply that the pose asks of it.",
        "E = |M| / (N S C)");
    plumb_explain_column(step, "|M|", "N m", 1);
    plumb_explain_column(step, "N", "", 0);
    plumb_explain_column(step, "S", "", 3);
    plumb_explain_column(step, "C", "N m", 1);
    plumb_explain_column(step, "E", "", 4);
    plumb_explain_figures(step, plumb_explain_term(step, what),
                          (const double[]){fabs(moment), sides, strength, capacity,
                                           fabs(moment) / (sides * strength * capacity)});
    plumb_explain_sum(step, "E", "", 4);
    plumb_explain_gravity(e);
    plumb_explain_number(e, "m, body mass", body->mass_kg, "kg", "given", NULL, NULL);
    plumb_explain_number(e, "H, stature", body->stature_m, "m", "given", NULL, NULL);
    e->quantity = PLUMB_Q_FRACTION;
}

PlumbStatus plumb_explain_effort(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    static const char *const opposite[PLUMB_JOINT_COUNT] = {
        [PLUMB_JOINT_ankle] = "The net moment is below 0: the muscles that lift the forefoot "
                              "supply it, and their strength counts.",
        [PLUMB_JOINT_knee] = "The net moment is below 0: the knee flexors supply it, and their "
                             "strength counts.",
        [PLUMB_JOINT_hip] = "The net moment is below 0: the hip flexors supply it, and their "
                            "strength counts.",
        [PLUMB_JOINT_back] = "The net moment is below 0: the muscles that bend the trunk supply "
                             "it, and their strength counts.",
        [PLUMB_JOINT_shoulder] = "The net moment is below 0: the shoulder flexors supply it, and "
                                 "their strength counts."};
    const PlumbJoint joint = e->question.joint;
    const PlumbPosition *p = plumb_explain_position(s);
    const double moment = p->moment_both_n_m[joint];
    note_opposite(e, moment, opposite[joint]);
    const double capacity = joint <= PLUMB_JOINT_hip ? limb_capacity(s, e, joint, moment >= 0.0)
                                                     : upper_capacity(s, e, joint, moment >= 0.0);
    effort_step(s, e, plumb_joint_name(joint), moment, joint == PLUMB_JOINT_back ? 1.0 : 2.0,
                s->lifter->strength[joint], capacity);
    share_step(s, e, plumb_joint_name(joint), p->relative_effort, (int)joint, PLUMB_JOINT_COUNT);
    return PLUMB_OK;
}

PlumbStatus plumb_explain_press_effort(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    static const PlumbUpperAction action[PLUMB_PRESS_JOINT_COUNT][2] = {
        {PLUMB_UPPER_shoulder_horizontal_adduction, PLUMB_UPPER_shoulder_horizontal_abduction},
        {PLUMB_UPPER_shoulder_flexion, PLUMB_UPPER_shoulder_extension},
        {PLUMB_UPPER_elbow_extension, PLUMB_UPPER_elbow_flexion},
    };
    static const PlumbPressAngle angle[PLUMB_PRESS_JOINT_COUNT] = {PLUMB_PRESS_ANG_horizontal,
                                                                   PLUMB_PRESS_ANG_shoulder_flexion,
                                                                   PLUMB_PRESS_ANG_elbow_flexion};
    static const char *const opposite[PLUMB_PRESS_JOINT_COUNT] = {
        ("The net moment is below 0: the horizontal abductors of the shoulder supply it, and their "
         "strength counts."),
        "The net moment is below 0: the shoulder extensors supply it, and their strength counts.",
        "The net moment is below 0: the elbow flexors supply it, and their strength counts."};
    const int joint = e->question.press;
    const PlumbPressPosition *p = plumb_explain_press(s);
    const double moment = p->moment_n_m[joint];
    note_opposite(e, moment, opposite[joint]);
    const char *const what = joint == PLUMB_PRESS_JOINT_elbow_extension ? "elbow" : "shoulder";
    const double capacity =
        upper_step(s, e, action[joint][moment >= 0.0 ? 0 : 1], p->angle_rad[angle[joint]], what);
    effort_step(s, e, what, moment, 1.0, s->lifter->strength[PLUMB_JOINT_shoulder], capacity);
    share_step(s, e, what, p->relative_effort, joint, PLUMB_PRESS_JOINT_COUNT);
    return PLUMB_OK;
}

static void cube(PlumbExplainStep *step, const char *what, double effort)
{
    plumb_explain_figures(step, plumb_explain_term(step, what),
                          (const double[]){effort, effort * effort * effort});
}

/* The terms of each lift; returns the program's sum. */
static double pose_cubes(const PlumbExplainSubject *s, PlumbExplainStep *step)
{
    const PlumbPosition *p = plumb_explain_position(s);
    const bool pull = s->answer->setup.lift == PLUMB_DEADLIFT;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        if (i != PLUMB_JOINT_shoulder || pull) {
            cube(step, plumb_joint_name((PlumbJoint)i), p->relative_effort[i]);
        }
    }
    return p->summed_effort;
}

static double press_cubes(const PlumbPressPosition *p, PlumbExplainStep *step)
{
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        cube(step, plumb_press_joint_text((PlumbPressJoint)i), p->relative_effort[i]);
    }
    return p->summed_effort;
}

PlumbStatus plumb_explain_summed(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    plumb_explain_symbol(e, "J", "summed effort");
    plumb_explain_symbol(e, "E", "relative effort of a joint; each is explained on its own");
    PlumbExplainStep *step = plumb_explain_step(
        e, "Cubes of the efforts",
        "Cubes make the greatest efforts count most. The sum ranks poses of one lifter at one "
        "load, never lifters, loads, depths or styles.",
        "J = Σ E^3");
    plumb_explain_column(step, "E", "", 4);
    plumb_explain_column(step, "E^3", "", 4);
    if (s->press != NULL) {
        e->program = press_cubes(plumb_explain_press(s), step);
    } else {
        e->program = pose_cubes(s, step);
    }
    plumb_explain_sum(step, "J", "", 4);
    plumb_explain_number(e, "power of the efforts", 3.0, "", "memory",
                         plumb_source_find("constants.csv", "summed_effort_power"), NULL);
    e->quantity = PLUMB_Q_NUMBER;
    return PLUMB_OK;
}
