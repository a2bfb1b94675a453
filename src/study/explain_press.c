/* SPDX-License-Identifier: MIT */
/* The working of a bench press: net moments of one arm, the bar's moment arms, travel, path and
 * the upper arm's angle. */
#include "study/explain_parts.h"

#include "solve/press.h"

#include <stddef.h>

enum { MASSES = 4 }; /* bar on one hand, upper arm, forearm, hand */

/* A force on the arm: downwards and inwards. */
typedef struct Pull {
    const char *words;
    PlumbVec3 at_m;
    double down_n;
    double in_n;
} Pull;

static void pulls_of(const PlumbExplainSubject *s, Pull pull[MASSES])
{
    static const char *const words[MASSES] = {"bar, half of it", "upper arm", "forearm", "hand"};
    const PlumbSetup *const setup = plumb_explain_setup(s);
    const PlumbVec3 *const at = plumb_explain_press(s)->point;
    const PlumbArmLoad load = plumb_arm_load(s->lifter, setup->load_kg, setup->hands_push_frac);
    const PlumbPressPoint from[3] = {PLUMB_PRESS_shoulder, PLUMB_PRESS_elbow, PLUMB_PRESS_wrist};
    const PlumbPressPoint to[3] = {PLUMB_PRESS_elbow, PLUMB_PRESS_wrist, PLUMB_PRESS_grip};
    pull[0] = (Pull){words[0], at[PLUMB_PRESS_grip], -load.force_n.y, -load.force_n.z};
    for (int i = 0; i < 3; i++) {
        pull[i + 1] = (Pull){words[i + 1], vec3_between(at[from[i]], at[to[i]], load.com_frac[i]),
                             load.mass_kg[i] * PLUMB_GRAVITY, 0.0};
    }
}

static PlumbArm arm_of(const PlumbExplainSubject *s)
{
    const PlumbBody *const body = &s->lifter->body;
    const PlumbVec3 *const at = plumb_explain_press(s)->point;
    return plumb_arm(at[PLUMB_PRESS_shoulder], at[PLUMB_PRESS_grip], body->upper_arm_m,
                     body->forearm_m + body->wrist_to_grip_palm_m);
}

/* The elbow's flexion axis, as of arm_loads.c. */
static PlumbVec3 elbow_axis(const PlumbExplainSubject *s)
{
    const PlumbArm arm = arm_of(s);
    const double swivel = plumb_explain_press(s)->angle_rad[PLUMB_PRESS_ANG_swivel];
    return vec3_cross(plumb_arm_side(&arm, swivel), arm.n);
}

static PlumbVec3 axis_of(const PlumbExplainSubject *s, PlumbPressJoint joint)
{
    switch (joint) {
    case PLUMB_PRESS_JOINT_shoulder_adduction:
        return vec3(1.0, 0.0, 0.0);
    case PLUMB_PRESS_JOINT_shoulder_flexion:
        return vec3(0.0, 0.0, -1.0);
    case PLUMB_PRESS_JOINT_elbow_extension:
    case PLUMB_PRESS_JOINT_COUNT:
        break;
    }
    return elbow_axis(s);
}

static void moment_symbols(PlumbExplanation *e, PlumbPressJoint joint, bool sideways)
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
    plumb_explain_symbol(e, "F", "force on the arm straight down: a weight, or the bar's half");
    plumb_explain_symbol(e, "a", lever[joint]);
    if (sideways) {
        plumb_explain_symbol(e, "H", "force on the hand inwards, as it pushes outwards");
        plumb_explain_symbol(e, "b", "lever of a force inwards about the same axis");
    }
}

PlumbStatus plumb_explain_press_moment(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPressJoint joint = (PlumbPressJoint)e->question.press;
    const bool elbow = joint == PLUMB_PRESS_JOINT_elbow_extension;
    const PlumbSetup *const setup = plumb_explain_setup(s);
    const bool sideways =
        setup->hands_push_frac != 0.0 && joint != PLUMB_PRESS_JOINT_shoulder_flexion;
    const PlumbVec3 axis = axis_of(s, joint);
    const PlumbPressPosition *const p = plumb_explain_press(s);
    const PlumbVec3 about = p->point[elbow ? PLUMB_PRESS_elbow : PLUMB_PRESS_shoulder];
    Pull pull[MASSES];
    pulls_of(s, pull);
    moment_symbols(e, joint, sideways);
    PlumbExplainStep *step = plumb_explain_step(
        e,
        elbow ? "Cut at the elbow: forearm, hand and half of the bar"
              : "Cut at the shoulder: the whole arm and half of the bar",
        "What hangs on the cut would turn about the joint; the joint's net moment holds it: the "
        "sum of force times lever.",
        sideways ? "M = Σ (F a + H b)" : "M = Σ F a");
    plumb_explain_column(step, "F", "N", 2);
    plumb_explain_column(step, "a", "m", 4);
    if (sideways) {
        plumb_explain_column(step, "H", "N", 2);
        plumb_explain_column(step, "b", "m", 4);
    }
    plumb_explain_column(step, sideways ? "F a + H b" : "F a", "N m", 1);
    for (int i = 0; i < MASSES; i++) {
        if (elbow && i == 1) {
            continue;
        }
        const PlumbVec3 lever = vec3_cross(vec3_sub(pull[i].at_m, about), axis);
        const double part = pull[i].down_n * lever.y + pull[i].in_n * lever.z;
        PlumbExplainTerm *term = plumb_explain_term(step, pull[i].words);
        if (sideways) {
            plumb_explain_figures(
                step, term, (const double[]){pull[i].down_n, lever.y, pull[i].in_n, lever.z, part});
        } else {
            plumb_explain_figures(step, term, (const double[]){pull[i].down_n, lever.y, part});
        }
    }
    plumb_explain_sum(step, "M", "N m", 1);
    plumb_explain_gravity(e);
    plumb_explain_masses(e, s->lifter, elbow ? PLUMB_MASS_forearm : PLUMB_MASS_upper_arm,
                         PLUMB_MASS_hand);
    plumb_explain_pose(e, s);
    if (elbow) {
        plumb_explain_note(e, "The elbow bends about an axis square to the plane of upper arm and "
                              "forearm; what turns the arm across that plane is held by the "
                              "shoulder's rotators and is not asked of the elbow.");
    }
    e->quantity = PLUMB_Q_MOMENT;
    e->program = p->moment_n_m[joint];
    return PLUMB_OK;
}

static void difference(PlumbExplainStep *step, const char *words, double place, double sign)
{
    plumb_explain_figures(step, plumb_explain_term(step, words),
                          (const double[]){place, sign, sign * place});
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
        difference(step, "bar, from the shoulders' line", grip.x, 1.0);
        difference(step, "less shoulder", shoulder.x, -1.0);
        break;
    case PLUMB_PRESS_ARM_shoulder_frontal:
        difference(step, "hand, from the middle", grip.z, 1.0);
        difference(step, "less shoulder", shoulder.z, -1.0);
        break;
    case PLUMB_PRESS_ARM_elbow:
    case PLUMB_PRESS_ARM_COUNT: {
        const PlumbVec3 axis = elbow_axis(s);
        difference(step, "hand outside the elbow", grip.z - elbow.z, axis.x);
        difference(step, "hand toward the feet from it", grip.x - elbow.x, -axis.z);
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
static double straight_step(const PlumbExplainSubject *s, PlumbExplanation *e)
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
    const double up = straight_step(s, e);
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

PlumbStatus plumb_explain_abduction(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPressPosition *const p = plumb_explain_press(s);
    const PlumbVec3 arm = vec3_sub(p->point[PLUMB_PRESS_elbow], p->point[PLUMB_PRESS_shoulder]);
    const double across = hypot(arm.y, arm.z);
    plumb_explain_symbol(e, "A", "upper arm from the trunk: 0 along it toward the feet");
    plumb_explain_symbol(e, "x", "elbow from the shoulder toward the feet");
    plumb_explain_symbol(e, "y, z", "elbow from the shoulder up, and outwards");
    PlumbExplainStep *step = plumb_explain_step(
        e, "Where the elbow stands off the shoulder",
        "The angle between the upper arm and the line along the trunk, in space: what it reaches "
        "across against what it reaches along.",
        "A = atan2(sqrt(y^2 + z^2), x)");
    plumb_explain_column(step, "x", "m", 4);
    plumb_explain_column(step, "y", "m", 4);
    plumb_explain_column(step, "z", "m", 4);
    plumb_explain_column(step, "sqrt(y^2 + z^2)", "m", 4);
    plumb_explain_column(step, "A", "rad", 4);
    plumb_explain_figures(step, plumb_explain_term(step, "upper arm"),
                          (const double[]){arm.x, arm.y, arm.z, across, atan2(across, arm.x)});
    plumb_explain_sum(step, "A", "rad", 4);
    plumb_explain_pose(e, s);
    if (!plumb_explain_setup(s)->elbows_given) {
        plumb_explain_note(e, "With the elbow under the bar its x is the bar's: the touch decides "
                              "the angle, cos A = touch / upper arm.");
    }
    e->quantity = PLUMB_Q_ANGLE;
    e->program = p->angle_rad[PLUMB_PRESS_ANG_abduction];
    return PLUMB_OK;
}
