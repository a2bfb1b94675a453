/* SPDX-License-Identifier: MIT */
/* The working of sagittal moments, at rest and in motion, and of the balance. */
#include "study/explain_parts.h"

#include <stddef.h>

static void masses_of(const PlumbExplainSubject *s, PlumbMassPoint mass[PLUMB_MASS_COUNT])
{
    if (s->motion != NULL) {
        for (int i = 0; i < PLUMB_MASS_COUNT; i++) {
            mass[i] = s->motion->mass[i];
        }
        return;
    }
    plumb_position_masses(s->lifter, &s->answer->setup, plumb_explain_position(s), mass);
}

static bool is_turned(PlumbJoint joint)
{
    return joint == PLUMB_JOINT_knee || joint == PLUMB_JOINT_shoulder;
}

static const char *const moment_titles[PLUMB_JOINT_COUNT] = {
    [PLUMB_JOINT_ankle] = "Cut at the ankles: all above them",
    [PLUMB_JOINT_knee] = "Cut at the knees: all above them",
    [PLUMB_JOINT_hip] = "Cut at the hips: all above them",
    [PLUMB_JOINT_back] = "Cut at the lumbar hinge: all above it",
    [PLUMB_JOINT_shoulder] = "Cut at the shoulders: arms and bar",
};

static const char *const supplied_by[PLUMB_JOINT_COUNT] = {
    [PLUMB_JOINT_ankle] =
        "net joint moment, both sides; positive: the plantar flexors (calf muscles) supply it",
    [PLUMB_JOINT_knee] = "net joint moment, both sides; positive: the knee extensors supply it",
    [PLUMB_JOINT_hip] = "net joint moment, both sides; positive: the hip extensors supply it",
    [PLUMB_JOINT_back] = "net joint moment; positive: the back extensors supply it",
    [PLUMB_JOINT_shoulder] =
        "net joint moment, both sides; positive: the shoulder extensors supply it",
};

static void moment_symbols(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbJoint joint = e->question.joint;
    plumb_explain_symbol(e, "M", supplied_by[joint]);
    plumb_explain_symbol(e, "m", "a mass that the joint carries, both sides together");
    plumb_explain_symbol(e, "g", "standard gravity, 9.80665 m/s2");
    plumb_explain_symbol(e, "x", "place of its centre, ahead of mid-foot");
    plumb_explain_symbol(e, "x0", "place of the joint, ahead of mid-foot");
    if (s->motion != NULL) {
        plumb_explain_symbol(e, "y, y0", "heights of the centre and of the joint");
        plumb_explain_symbol(e, "ax, ay", "acceleration of the centre, forward and up");
        plumb_explain_symbol(
            e, "s", "rate at which its spin grows: its angular momentum about its own centre");
    }
    plumb_explain_symbol(e, "R",
                         "force of the joint on what it carries; it has no lever about the joint");
}

/* The joint holds what it carries: the sum of the weights, in motion with what speeds them up. */
static void add_joint_force(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    PlumbMassPoint mass[PLUMB_MASS_COUNT];
    masses_of(s, mass);
    double up = 0.0;
    double forward = 0.0;
    for (int i = (int)plumb_joint_first_mass(e->question.joint); i < PLUMB_MASS_COUNT; i++) {
        up += mass[i].mass_kg *
              (PLUMB_GRAVITY + (s->motion != NULL ? mass[i].acceleration_m_s2.y : 0.0));
        forward += s->motion != NULL ? mass[i].mass_kg * mass[i].acceleration_m_s2.x : 0.0;
    }
    plumb_explain_number(e, "R, up", up, "N",
                         s->motion != NULL ? "sum of m (g + ay)" : "sum of m g", NULL, NULL);
    if (s->motion != NULL) {
        plumb_explain_number(e, "R, forward", forward, "N", "sum of m ax", NULL, NULL);
    }
}

static void still_columns(PlumbExplainStep *step, bool turned)
{
    plumb_explain_column(step, "m", "kg", 3);
    plumb_explain_column(step, "x", "m", 4);
    plumb_explain_column(step, turned ? "x0 - x" : "x - x0", "m", 4);
    plumb_explain_column(step, turned ? "m g (x0 - x)" : "m g (x - x0)", "N m", 1);
}

static void moving_columns(PlumbExplainStep *step, bool turned)
{
    plumb_explain_column(step, "m", "kg", 3);
    plumb_explain_column(step, turned ? "x0 - x" : "x - x0", "m", 4);
    plumb_explain_column(step, turned ? "y0 - y" : "y - y0", "m", 4);
    plumb_explain_column(step, "ax", "m/s2", 3);
    plumb_explain_column(step, "ay", "m/s2", 3);
    plumb_explain_column(step, "s", "N m", 2);
    plumb_explain_column(step, "term", "N m", 1);
}

/* Σ m g (x - x0); in motion Σ m ((x - x0)(g + ay) - (y - y0) ax) + s. Knee and shoulder the other
 * way round. */
static void moment_step(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbJoint joint = e->question.joint;
    const bool turned = is_turned(joint);
    const double sign = turned ? -1.0 : 1.0;
    const PlumbVec3 at = plumb_position_joint(plumb_explain_position(s), joint);
    PlumbMassPoint mass[PLUMB_MASS_COUNT];
    masses_of(s, mass);
    PlumbExplainStep *step;
    if (s->motion != NULL) {
        step = plumb_explain_step(
            e, moment_titles[joint],
            "The joint holds the weight of all that it carries, speeds it up, and turns it: the "
            "net moment is the sum over the masses of weight and inertia times their lever, and "
            "of what their own spin takes.",
            turned ? "M = Σ [m ((x0 - x)(g + ay) - (y0 - y) ax) - s]"
                   : "M = Σ [m ((x - x0)(g + ay) - (y - y0) ax) + s]");
        moving_columns(step, turned);
    } else {
        step = plumb_explain_step(
            e, moment_titles[joint],
            "What the joint carries would turn about it under its weight; the joint's net moment "
            "holds it: the sum over the masses of weight times lever.",
            turned ? "M = Σ m g (x0 - x)" : "M = Σ m g (x - x0)");
        still_columns(step, turned);
    }
    for (int i = (int)plumb_joint_first_mass(joint); i < PLUMB_MASS_COUNT; i++) {
        const PlumbMassPoint *m = &mass[i];
        const double lever = sign * (m->at_m.x - at.x);
        const double height = sign * (m->at_m.y - at.y);
        const PlumbVec3 a = m->acceleration_m_s2;
        PlumbExplainTerm *term = plumb_explain_term(step, plumb_mass_text((PlumbMass)i));
        if (s->motion != NULL) {
            const double part = m->mass_kg * (lever * (PLUMB_GRAVITY + a.y) - height * a.x) +
                                sign * m->spin_rate_n_m;
            plumb_explain_figures(step, term,
                                  (const double[]){m->mass_kg, lever, height, a.x, a.y,
                                                   sign * m->spin_rate_n_m, part});
        } else {
            plumb_explain_figures(
                step, term,
                (const double[]){m->mass_kg, m->at_m.x, lever, m->mass_kg * PLUMB_GRAVITY * lever});
        }
    }
    plumb_explain_sum(step, "M", "N m", 1);
}

PlumbStatus plumb_explain_moment(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbJoint joint = e->question.joint;
    moment_symbols(s, e);
    moment_step(s, e);
    plumb_explain_gravity(e);
    plumb_explain_masses(e, s->lifter, plumb_joint_first_mass(joint), PLUMB_MASS_bar);
    add_joint_force(s, e);
    plumb_explain_pose(e, s);
    if (joint == PLUMB_JOINT_shoulder && s->answer->setup.lift == PLUMB_DEADLIFT) {
        plumb_explain_note(e, "The moment is taken about the middle of the shoulders as the trunk "
                              "carries them, not about the joint that the load has pulled down.");
    }
    if (s->motion != NULL) {
        plumb_explain_note(e, "Column s counts the way the moment does.");
    }
    if (s->motion != NULL && s->answer->setup.lift == PLUMB_DEADLIFT) {
        plumb_explain_note(e, "Between the start and the end of a pull the path has corners where "
                              "the part of the leg nearest to the bar changes, and the "
                              "acceleration steps where the bar passes the knee.");
    }
    e->quantity = PLUMB_Q_MOMENT;
    e->rest = s->motion != NULL ? s->motion->position.moment_both_n_m[joint] : (double)NAN;
    e->program = s->motion != NULL ? s->motion->moment_both_n_m[joint]
                                   : plumb_explain_position(s)->moment_both_n_m[joint];
    return PLUMB_OK;
}

static void balance_symbols(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    plumb_explain_symbol(e, "f", "0 at the heel, 1 at the toe tip");
    plumb_explain_symbol(e, "m", "each mass of lifter and bar, both sides together");
    plumb_explain_symbol(e, "x", "place of its centre, ahead of mid-foot");
    plumb_explain_symbol(e, "xh", "place of the heel");
    plumb_explain_symbol(e, "L", "length of the foot in the side view, heel to toe tip");
    if (s->motion != NULL) {
        plumb_explain_symbol(e, "F", "force of the floor, both feet: Σ m (g + ay)");
        plumb_explain_symbol(e, "y", "height of its centre");
        plumb_explain_symbol(e, "ax, ay", "acceleration of the centre, forward and up");
        plumb_explain_symbol(
            e, "s", "rate at which its spin grows: its angular momentum about its own centre");
    } else {
        plumb_explain_symbol(e, "W", "all masses together");
        plumb_explain_symbol(e, "F", "force of the floor, both feet: W g; it acts at the balance");
    }
}

static void balance_still(const PlumbMassPoint mass[PLUMB_MASS_COUNT], double heel, double foot,
                          double total, PlumbExplanation *e)
{
    PlumbExplainStep *step = plumb_explain_step(
        e, "All masses over the foot",
        "The common centre of mass lies at the mean of the places of all masses, each counted by "
        "its weight; its distance from the heel as a share of the foot is the balance.",
        "f = Σ m (x - xh) / (W L)");
    plumb_explain_column(step, "m", "kg", 3);
    plumb_explain_column(step, "x", "m", 4);
    plumb_explain_column(step, "x - xh", "m", 4);
    plumb_explain_column(step, "m (x - xh)", "kg m", 3);
    plumb_explain_column(step, "m (x - xh)/(W L)", "", 4);
    for (int i = 0; i < PLUMB_MASS_COUNT; i++) {
        const double lever = mass[i].at_m.x - heel;
        const double first = mass[i].mass_kg * lever;
        plumb_explain_figures(step, plumb_explain_term(step, plumb_mass_text((PlumbMass)i)),
                              (const double[]){mass[i].mass_kg, mass[i].at_m.x, lever, first,
                                               first / (total * foot)});
    }
    plumb_explain_sum(step, "f", "", 4);
}

static void balance_moving(const PlumbMassPoint mass[PLUMB_MASS_COUNT], double heel, double foot,
                           double force, PlumbExplanation *e)
{
    PlumbExplainStep *step = plumb_explain_step(
        e, "All masses over the foot, in motion",
        "The floor's force balances weight and inertia of all masses; where along the foot it "
        "must act is the centre of pressure.",
        "f = Σ [m ((x - xh)(g + ay) - y ax) + s] / (F L)");
    plumb_explain_column(step, "m", "kg", 3);
    plumb_explain_column(step, "x - xh", "m", 4);
    plumb_explain_column(step, "y", "m", 4);
    plumb_explain_column(step, "ax", "m/s2", 3);
    plumb_explain_column(step, "ay", "m/s2", 3);
    plumb_explain_column(step, "s", "N m", 2);
    plumb_explain_column(step, "term", "", 4);
    for (int i = 0; i < PLUMB_MASS_COUNT; i++) {
        const PlumbMassPoint *m = &mass[i];
        const double lever = m->at_m.x - heel;
        const PlumbVec3 a = m->acceleration_m_s2;
        const double moment =
            m->mass_kg * (lever * (PLUMB_GRAVITY + a.y) - m->at_m.y * a.x) + m->spin_rate_n_m;
        plumb_explain_figures(step, plumb_explain_term(step, plumb_mass_text((PlumbMass)i)),
                              (const double[]){m->mass_kg, lever, m->at_m.y, a.x, a.y,
                                               m->spin_rate_n_m, moment / (force * foot)});
    }
    plumb_explain_sum(step, "f", "", 4);
}

PlumbStatus plumb_explain_balance(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPosition *p = plumb_explain_position(s);
    const double heel = p->point[PLUMB_PT_heel].x;
    const double foot = p->point[PLUMB_PT_toe].x - heel;
    PlumbMassPoint mass[PLUMB_MASS_COUNT];
    masses_of(s, mass);
    balance_symbols(s, e);
    plumb_explain_number(e, "xh, place of the heel", heel, "m", "foot's length and toes", NULL,
                         NULL);
    plumb_explain_number(e, "L, foot in the side view", foot, "m", "foot's length and toes", NULL,
                         NULL);
    if (s->motion != NULL) {
        plumb_explain_number(e, "F, force of the floor", s->motion->ground_force_n, "N",
                             "sum of m (g + ay)", NULL, NULL);
        balance_moving(mass, heel, foot, s->motion->ground_force_n, e);
    } else {
        const double total = plumb_total_mass_kg(s->lifter, &s->answer->setup);
        plumb_explain_number(e, "W, all masses together", total, "kg", "body mass and load", NULL,
                             NULL);
        plumb_explain_number(e, "F, force of the floor", total * PLUMB_GRAVITY, "N", "sum of m g",
                             NULL, NULL);
        balance_still(mass, heel, foot, total, e);
    }
    plumb_explain_gravity(e);
    plumb_explain_masses(e, s->lifter, PLUMB_MASS_foot, PLUMB_MASS_bar);
    plumb_explain_pose(e, s);
    e->quantity = PLUMB_Q_FRACTION;
    e->program = s->motion != NULL ? s->motion->pressure_frac : p->balance_frac;
    return PLUMB_OK;
}
