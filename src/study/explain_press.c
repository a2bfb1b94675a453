/* SPDX-License-Identifier: MIT */
/* The working of a bench press: net moments of one arm, the bar's moment arms, travel, path and
 * the upper arm's angle. */
#include "study/explain_parts.h"

#include "solve/press.h"

#include <stddef.h>

/* What the weights, the bar and, in motion, the inertias do to the arm, mass by mass. */
static void masses_of(const PlumbExplainSubject *s,
                      PlumbPressMassPoint mass[PLUMB_PRESS_MASS_COUNT])
{
    if (s->press_motion == NULL) {
        plumb_press_masses(s->lifter, plumb_explain_setup(s), plumb_explain_press(s), mass);
        return;
    }
    for (int i = 0; i < PLUMB_PRESS_MASS_COUNT; i++) {
        mass[i] = s->press_motion->mass[i];
    }
}

static PlumbVec3 elbow_axis(const PlumbExplainSubject *s)
{
    return s->press_motion != NULL ? s->press_motion->elbow_axis
                                   : plumb_press_elbow_axis(plumb_explain_press(s));
}

/* The pieces of an equation that a working needs: a push inwards, and motion. */
typedef struct Form {
    bool sideways;
    bool moving;
} Form;

static void moment_symbols(PlumbExplanation *e, PlumbPressJoint joint, Form form)
{
    static const char *const supplied[PLUMB_PRESS_JOINT_COUNT] = {
        "net moment of one arm about the line along the bench; positive: adductors (chest) supply "
        "it",
        "net moment of one arm about the line across the bench; positive: shoulder flexors supply "
        "it",
        "net moment of one arm about the elbow's own axis; positive: elbow extensors supply it"};
    static const char *const lever[PLUMB_PRESS_JOINT_COUNT] = {
        "how far outside the shoulder the force acts, from the head end",
        "how far toward the feet from the shoulder the force acts, from the side",
        "lever of a force straight down about the elbow's axis"};
    plumb_explain_symbol(e, "M", supplied[joint]);
    plumb_explain_symbol(e, "F",
                         form.moving
                             ? "force on the arm straight down: weight and inertia, m (g + ay)"
                             : "force on the arm straight down: a weight, or the bar's half");
    plumb_explain_symbol(e, "a", lever[joint]);
    if (form.sideways) {
        plumb_explain_symbol(e, "H",
                             form.moving ? "force inwards: inertia, and the bar's as the hand "
                                           "pushes outwards"
                                         : "force on the hand inwards, as it pushes outwards");
        plumb_explain_symbol(e, "b", "lever of a force inwards about the same axis");
    }
    if (form.moving) {
        plumb_explain_symbol(e, "X", "inertia along the bench, toward the head: m ax");
        plumb_explain_symbol(e, "c", "its lever about the same axis");
        plumb_explain_symbol(e, "s", "what it takes to turn the part about its own centre");
    }
    plumb_explain_symbol(e, "R", "force of the joint on the cut part; it has no lever about it");
}

/* The joint holds what hangs on it: weights, the bar, and in motion what speeds them up. */
static void add_joint_force(PlumbExplanation *e, const PlumbPressMassPoint *mass,
                            PlumbPressJoint joint, Form form)
{
    static const char *const basis = "what leaves no force over";
    PlumbVec3 sum = vec3(0.0, 0.0, 0.0);
    for (int i = 0; i < PLUMB_PRESS_MASS_COUNT; i++) {
        if (plumb_press_carries(joint, (PlumbPressMass)i)) {
            const PlumbVec3 inertia = vec3_scale(mass[i].acceleration_m_s2, mass[i].mass_kg);
            sum = vec3_add(sum, vec3_sub(inertia, mass[i].push_n));
            sum.y += mass[i].mass_kg * PLUMB_GRAVITY;
        }
    }
    plumb_explain_number(e, "R, up", sum.y, "N", basis, NULL, NULL);
    if (sum.z != 0.0) {
        plumb_explain_number(e, "R, outwards", sum.z, "N", basis, NULL, NULL);
    }
    if (form.moving) {
        plumb_explain_number(e, "R, toward the feet", sum.x, "N", basis, NULL, NULL);
    }
}

static PlumbExplainStep *moment_step(PlumbExplanation *e, bool elbow, Form form)
{
    const char *const equation = form.moving     ? "M = Σ (F a + H b + X c + s)"
                                 : form.sideways ? "M = Σ (F a + H b)"
                                                 : "M = Σ F a";
    PlumbExplainStep *const step = plumb_explain_step(
        e,
        elbow ? "Cut at the elbow: forearm, hand and half of the bar"
              : "Cut at the shoulder: the whole arm and half of the bar",
        form.moving ? "What hangs on the cut has weight and is sped up and turned; the joint's net "
                      "moment does it: the sum of force times lever."
                    : "What hangs on the cut would turn about the joint; the joint's net moment "
                      "holds it: the sum of force times lever.",
        equation);
    plumb_explain_column(step, "F", "N", 2);
    plumb_explain_column(step, "a", "m", 4);
    if (form.sideways) {
        plumb_explain_column(step, "H", "N", 2);
        plumb_explain_column(step, "b", "m", 4);
    }
    if (form.moving) {
        plumb_explain_column(step, "X", "N", 2);
        plumb_explain_column(step, "c", "m", 4);
        plumb_explain_column(step, "s", "N m", 3);
    }
    plumb_explain_column(step,
                         form.moving     ? "term"
                         : form.sideways ? "F a + H b"
                                         : "F a",
                         "N m", 1);
    return step;
}

/* M = (r × f)·w = -f·(r × w), less what the part's own spin takes. */
static void moment_term(PlumbExplainStep *step, PlumbPressMass id, const PlumbPressMassPoint *m,
                        PlumbVec3 about, PlumbVec3 axis, Form form)
{
    const PlumbVec3 lever = vec3_cross(vec3_sub(m->at_m, about), axis);
    const PlumbVec3 inertia = vec3_scale(m->acceleration_m_s2, m->mass_kg);
    const double down = inertia.y + m->mass_kg * PLUMB_GRAVITY;
    const double in = inertia.z - m->push_n.z;
    const double spin = -vec3_dot(m->spin_rate_n_m, axis);
    const double part = down * lever.y + in * lever.z + inertia.x * lever.x + spin;
    PlumbExplainTerm *const term = plumb_explain_term(step, plumb_press_mass_text(id));
    if (form.moving) {
        plumb_explain_figures(
            step, term,
            (const double[]){down, lever.y, in, lever.z, inertia.x, lever.x, spin, part});
    } else if (form.sideways) {
        plumb_explain_figures(step, term, (const double[]){down, lever.y, in, lever.z, part});
    } else {
        plumb_explain_figures(step, term, (const double[]){down, lever.y, part});
    }
}

PlumbStatus plumb_explain_press_moment(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPressJoint joint = (PlumbPressJoint)e->question.press;
    const bool elbow = joint == PLUMB_PRESS_JOINT_elbow_extension;
    const bool moving = s->press_motion != NULL;
    const Form form = {moving || (plumb_explain_setup(s)->hands_push_frac != 0.0 &&
                                  joint != PLUMB_PRESS_JOINT_shoulder_flexion),
                       moving};
    const PlumbPressPosition *const p = plumb_explain_press(s);
    const PlumbVec3 axis = plumb_press_axis(elbow_axis(s), joint);
    const PlumbVec3 about = plumb_press_joint_at(p, joint);
    PlumbPressMassPoint mass[PLUMB_PRESS_MASS_COUNT];
    masses_of(s, mass);
    moment_symbols(e, joint, form);
    PlumbExplainStep *const step = moment_step(e, elbow, form);
    for (int i = 0; i < PLUMB_PRESS_MASS_COUNT; i++) {
        if (plumb_press_carries(joint, (PlumbPressMass)i)) {
            moment_term(step, (PlumbPressMass)i, &mass[i], about, axis, form);
        }
    }
    plumb_explain_sum(step, "M", "N m", 1);
    plumb_explain_gravity(e);
    plumb_explain_masses(e, s->lifter, elbow ? PLUMB_MASS_forearm : PLUMB_MASS_upper_arm,
                         PLUMB_MASS_hand);
    add_joint_force(e, mass, joint, form);
    plumb_explain_pose(e, s);
    if (elbow) {
        plumb_explain_note(e, "The elbow bends about an axis square to the plane of upper arm and "
                              "forearm; what turns the arm across that plane is held by the "
                              "shoulder's rotators and is not asked of the elbow.");
    }
    e->quantity = PLUMB_Q_MOMENT;
    e->rest = moving ? p->moment_n_m[joint] : (double)NAN;
    e->program = moving ? s->press_motion->moment_n_m[joint] : p->moment_n_m[joint];
    return PLUMB_OK;
}

PlumbStatus plumb_explain_press_arm(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPressArm which = (PlumbPressArm)e->question.press;
    const PlumbPressPosition *const p = plumb_explain_press(s);
    const PlumbVec3 grip = p->point[PLUMB_PRESS_grip];
    const PlumbVec3 elbow = p->point[PLUMB_PRESS_elbow];
    const PlumbVec3 shoulder = p->point[PLUMB_PRESS_shoulder];
    plumb_explain_symbol(e, "d", "moment arm of the bar's weight");
    plumb_explain_symbol(e, "l", "a place, or a distance from the elbow");
    plumb_explain_symbol(e, "c", "how it counts");
    PlumbExplainStep *step = plumb_explain_step(
        e, "From the joint to the bar's weight",
        which == PLUMB_PRESS_ARM_elbow
            ? "The weight on the hand acts straight down; its lever about the elbow's axis is what "
              "the hand stands off the elbow outwards and along the bench, each as far as it lies "
              "square to that axis."
            : "The weight on the hand acts straight down, so its lever about the shoulder is the "
              "level distance between the two in this view.",
        "d = Σ c l");
    plumb_explain_column(step, "l", "m", 4);
    plumb_explain_column(step, "c", "", 4);
    plumb_explain_column(step, "c l", "m", 4);
    switch (which) {
    case PLUMB_PRESS_ARM_shoulder_sagittal:
        plumb_explain_product(step, "bar, from the shoulders' line", grip.x, 1.0);
        plumb_explain_product(step, "less shoulder", shoulder.x, -1.0);
        break;
    case PLUMB_PRESS_ARM_shoulder_frontal:
        plumb_explain_product(step, "hand, from the middle", grip.z, 1.0);
        plumb_explain_product(step, "less shoulder", shoulder.z, -1.0);
        break;
    case PLUMB_PRESS_ARM_elbow:
    case PLUMB_PRESS_ARM_COUNT: {
        const PlumbVec3 axis = elbow_axis(s);
        plumb_explain_product(step, "hand outside the elbow", grip.z - elbow.z, axis.x);
        plumb_explain_product(step, "hand toward the feet from it", grip.x - elbow.x, -axis.z);
        break;
    }
    }
    plumb_explain_sum(step, "d", "m", 4);
    plumb_explain_pose(e, s);
    plumb_explain_note(e, "The moment arm is that of the bar alone; the net moment also holds the "
                          "arm's own weight.");
    e->quantity = PLUMB_Q_LENGTH;
    e->program = p->bar_arm_m[which];
    return PLUMB_OK;
}

/* How high straight arms reach over the shoulder at the lockout. */
double plumb_explain_straight_arm(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPress press = plumb_press_begin(s->lifter, plumb_explain_setup(s));
    const double reach = press.upper + press.lower;
    const double out = press.hand_z - press.shoulder.z;
    const double over = press.setup.lockout_over_m;
    PlumbExplainStep *step = plumb_explain_step(
        e, "Straight arms at the lockout",
        "The hand stands off the shoulder outwards and along the bench; what is left of the arm's "
        "length is its height.",
        "h = sqrt(R^2 - w^2 - o^2)");
    plumb_explain_symbol(e, "h", "height of the hand over the shoulder joint at the lockout");
    plumb_explain_symbol(e, "R", "arm: upper arm, forearm and wrist to palm");
    plumb_explain_symbol(e, "w",
                         "hand outside the shoulder: half the grip and the forefinger's distance "
                         "less half the shoulders' spacing");
    plumb_explain_symbol(e, "o", "bar from above the shoulders at the lockout");
    plumb_explain_column(step, "R", "m", 4);
    plumb_explain_column(step, "w", "m", 4);
    plumb_explain_column(step, "o", "m", 4);
    plumb_explain_column(step, "h", "m", 4);
    const double h = sqrt(reach * reach - out * out - over * over);
    plumb_explain_figures(step, plumb_explain_term(step, "straight arm"),
                          (const double[]){reach, out, over, h});
    plumb_explain_sum(step, "h", "m", 4);
    return h;
}

static void height(PlumbExplainStep *step, const char *words, double value, double sign)
{
    plumb_explain_figures(step, plumb_explain_term(step, words), (const double[]){sign * value});
}

PlumbStatus plumb_explain_press_travel(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbBody *const body = &s->lifter->body;
    const double up = plumb_explain_straight_arm(s, e);
    PlumbExplainStep *step = plumb_explain_step(
        e, "Bar at the lockout less bar at the touch, above the bench",
        "At the lockout the bar stands a straight arm above the shoulder, at the touch on the "
        "chest: the more chest and arch, the less travel.",
        "T = s + h - c - r - b");
    plumb_explain_symbol(e, "T", "rise of the bar from the touch to the lockout");
    plumb_explain_symbol(e, "s, c, r, b",
                         "shoulder joint and chest above the bench, arch, half of the bar");
    plumb_explain_column(step, "height", "m", 4);
    height(step, "s, shoulder joint", body->shoulder_half_depth_m, 1.0);
    height(step, "h, straight arm", up, 1.0);
    height(step, "less c, chest", body->chest_depth_m, -1.0);
    height(step, "less r, arch", plumb_explain_setup(s)->arch_m, -1.0);
    height(step, "less b, half of the bar", 0.5 * s->lifter->equipment.shaft_diameter_m, -1.0);
    plumb_explain_sum(step, "T", "m", 4);
    plumb_explain_pose(e, s);
    e->quantity = PLUMB_Q_LENGTH;
    e->program = s->press->travel_m;
    return PLUMB_OK;
}

PlumbStatus plumb_explain_path_length(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbSetup *const setup = plumb_explain_setup(s);
    const PlumbPress press = plumb_press_begin(s->lifter, setup);
    const double rise = s->press->travel_m;
    const double along = setup->touch_m - setup->lockout_over_m;
    PlumbExplainStep *step = plumb_explain_step(
        e, "Along the path, piece by piece from the lockout down",
        "The bar goes from the touch to over the shoulders by a power of the rise that is left; "
        "each piece of that curve adds its length (a straight one that of its chord, a bent one "
        "by Simpson's rule).",
        "L = Σ l,  x = o + (t - o) (1 - k)^p,  y = T k");
    plumb_explain_symbol(e, "L", "length of the bar's path");
    plumb_explain_symbol(e, "T", "rise of the bar, explained on its own as travel");
    plumb_explain_symbol(e, "o", "bar from above the shoulders at the lockout");
    plumb_explain_symbol(e, "k", "share of the rise; k1 and k0 at the ends of a piece");
    plumb_explain_symbol(e, "t", "touch, from the shoulders' line toward the feet");
    plumb_explain_symbol(e, "p", "path_exponent: 1 is a straight path");
    plumb_explain_column(step, "k1", "", 4);
    plumb_explain_column(step, "k0", "", 4);
    plumb_explain_column(step, "T (k1 - k0)", "m", 4);
    plumb_explain_column(step, "x0 - x1", "m", 4);
    plumb_explain_column(step, "l", "m", 4);
    for (int i = 0; i < PLUMB_PRESS_PIECES; i++) {
        const double above = pow((double)i / PLUMB_PRESS_PIECES, 4.0);
        const double below = pow((i + 1.0) / PLUMB_PRESS_PIECES, 4.0);
        const double p = setup->path_exponent;
        plumb_explain_figures(step, plumb_explain_term(step, "piece"),
                              (const double[]){1.0 - above, 1.0 - below, rise * (below - above),
                                               along * (pow(below, p) - pow(above, p)),
                                               plumb_press_path_piece(&press, i)});
    }
    plumb_explain_sum(step, "L", "m", 4);
    plumb_explain_number(e, "T, travel", rise, "m", "solved pose", NULL, NULL);
    plumb_explain_pose(e, s);
    e->quantity = PLUMB_Q_LENGTH;
    e->program = s->press->path_m;
    return PLUMB_OK;
}
