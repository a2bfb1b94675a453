/* SPDX-License-Identifier: MIT */
/* The working of angles: from the places of joints, which follow from lengths and the pose. */
#include "study/explain_limb.h"

#include <stddef.h>

/* An angle between a link and a line level or upright: atan2(first part, second part). */
typedef struct Turned {
    PlumbExplainKind kind;
    int angle; /* PlumbAngle, or of a press PlumbPressAngle */
    bool upper;
    PlumbExplainAxis first;
    PlumbExplainAxis second;
    bool second_less; /* the second part counts the other way round */
    const char *title;
    const char *words;
    const char *equation;
    const char *term;
    const char *symbol_words;
} Turned;

static const Turned turned[] = {
    {PLUMB_EXPLAIN_shin_angle, PLUMB_ANG_shin, false, PLUMB_EXPLAIN_AHEAD, PLUMB_EXPLAIN_UP, false,
     "Shin from upright",
     "Seen from the side: how far the knee lies ahead of the ankle against how far it lies above.",
     "A = atan2(x, y)", "shank", "shin from upright, forward positive"},
    {PLUMB_EXPLAIN_frontal_shin, PLUMB_ANG_frontal_shin, false, PLUMB_EXPLAIN_OUT, PLUMB_EXPLAIN_UP,
     false, "Shin from upright, from the front",
     "Seen from the front: how far the knee lies outside the ankle against how far it lies above.",
     "A = atan2(z, y)", "shank", "shin from upright, outwards positive"},
    {PLUMB_EXPLAIN_thigh_angle, PLUMB_ANG_thigh, true, PLUMB_EXPLAIN_UP, PLUMB_EXPLAIN_AHEAD, true,
     "Thigh above level",
     "Seen from the side: how far the hip lies above the knee against how far it lies behind it.",
     "A = atan2(v, -u)", "thigh", "thigh above level; below 0 the hip is below the knee"},
    {PLUMB_EXPLAIN_forearm_front, PLUMB_PRESS_ANG_forearm_front, true, PLUMB_EXPLAIN_OUT,
     PLUMB_EXPLAIN_UP, false, "Forearm from upright, from the head end",
     "How far the hand lies outside the elbow against how far it lies above.", "A = atan2(w, v)",
     "forearm", "forearm from upright, hand outwards positive"},
    {PLUMB_EXPLAIN_forearm_side, PLUMB_PRESS_ANG_forearm_side, true, PLUMB_EXPLAIN_AHEAD,
     PLUMB_EXPLAIN_UP, false, "Forearm from upright, from the side",
     "How far the hand lies toward the feet from the elbow against how far it lies above.",
     "A = atan2(u, v)", "forearm", "forearm from upright, hand toward the feet positive"},
    {PLUMB_EXPLAIN_shoulder_angle, PLUMB_PRESS_ANG_shoulder_flexion, false, PLUMB_EXPLAIN_UP,
     PLUMB_EXPLAIN_AHEAD, false, "Upper arm from the trunk's line, from the side",
     "How far the elbow lies above the shoulder against how far it lies toward the feet.",
     "A = atan2(y, x)", "upper arm", "upper arm from the trunk's line, upwards positive"},
};

static PlumbStatus finish(const PlumbExplainSubject *s, PlumbExplanation *e, double program_rad)
{
    plumb_explain_sum(&e->step[e->step_count - 1], "A", "rad", 4);
    plumb_explain_pose(e, s);
    e->quantity = PLUMB_Q_ANGLE;
    e->program = program_rad;
    return PLUMB_OK;
}

/* Each row of turned is of a press or of the other lifts. */
static double program_of(const PlumbExplainSubject *s, int angle)
{
    return s->press != NULL ? plumb_explain_press(s)->angle_rad[angle]
                            : plumb_explain_position(s)->angle_rad[angle];
}

PlumbStatus plumb_explain_turned(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const Turned *row = &turned[0];
    for (size_t i = 0; i < sizeof turned / sizeof turned[0]; i++) {
        row = turned[i].kind == e->question.kind ? &turned[i] : row;
    }
    const PlumbExplainLimb limb = plumb_explain_limb(s);
    plumb_explain_symbol(e, "A", row->symbol_words);
    plumb_explain_triangle(e, &limb);
    double part[2];
    plumb_explain_link_parts(e, &limb, row->upper,
                             (const PlumbExplainAxis[]){row->first, row->second}, 2, part);
    PlumbExplainStep *const step = plumb_explain_step(e, row->title, row->words, row->equation);
    plumb_explain_column(step, plumb_explain_part_symbol(row->upper, row->first), "m", 4);
    plumb_explain_column(step, plumb_explain_part_symbol(row->upper, row->second), "m", 4);
    plumb_explain_column(step, "A", "rad", 4);
    plumb_explain_figures(
        step, plumb_explain_term(step, row->term),
        (const double[]){part[0], part[1], atan2(part[0], row->second_less ? -part[1] : part[1])});
    return finish(s, e, program_of(s, row->angle));
}

PlumbStatus plumb_explain_dorsiflexion(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbExplainLimb limb = plumb_explain_limb(s);
    const double none = (double)NAN;
    plumb_explain_symbol(e, "A", "ankle dorsiflexion: the shank over the foot, in the shoe");
    plumb_explain_triangle(e, &limb);
    double part[2];
    plumb_explain_link_parts(
        e, &limb, false, (const PlumbExplainAxis[]){PLUMB_EXPLAIN_FOOT, PLUMB_EXPLAIN_UP}, 2, part);
    const double over = atan2(part[0], part[1]);
    plumb_explain_symbol(e, "p", "pitch of the foot in the shoe, heel up");
    PlumbExplainStep *const step = plumb_explain_step(
        e, "Shank over the foot",
        "How far the knee lies ahead of the ankle along the foot against how far it lies above; a "
        "heel that is raised takes its pitch off.",
        "A = atan2(f, y) - p");
    plumb_explain_column(step, "f", "m", 4);
    plumb_explain_column(step, "y", "m", 4);
    plumb_explain_column(step, "term", "rad", 4);
    plumb_explain_figures(step, plumb_explain_term(step, "shank over the foot"),
                          (const double[]){part[0], part[1], over});
    const double pitch = over - plumb_explain_position(s)->angle_rad[PLUMB_ANG_ankle_dorsiflexion];
    plumb_explain_figures(step, plumb_explain_term(step, "less p, pitch of the shoe"),
                          (const double[]){none, none, -pitch});
    plumb_explain_seen_note(e);
    return finish(s, e, plumb_explain_position(s)->angle_rad[PLUMB_ANG_ankle_dorsiflexion]);
}

PlumbStatus plumb_explain_bend(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbExplainLimb limb = plumb_explain_limb(s);
    const double beyond = limb.distance_m - limb.along_m;
    plumb_explain_symbol(e, "A",
                         limb.arm ? "elbow flexion: 0 is straight" : "knee flexion: 0 is straight");
    plumb_explain_triangle(e, &limb);
    PlumbExplainStep *const step = plumb_explain_step(
        e, limb.arm ? "Flexion of the elbow" : "Flexion of the knee",
        "Each link stands off the line by an angle of its own; the bend between the two is the sum "
        "of both.",
        "A = atan2(r, a) + atan2(r, D - a)");
    plumb_explain_column(step, "off", "m", 4);
    plumb_explain_column(step, "along", "m", 4);
    plumb_explain_column(step, "term", "rad", 4);
    plumb_explain_figures(
        step, plumb_explain_term(step, limb.arm ? "upper arm off the line" : "shank off the line"),
        (const double[]){limb.off_m, limb.along_m, atan2(limb.off_m, limb.along_m)});
    plumb_explain_figures(
        step, plumb_explain_term(step, limb.arm ? "forearm off the line" : "thigh off the line"),
        (const double[]){limb.off_m, beyond, atan2(limb.off_m, beyond)});
    if (!limb.arm) {
        plumb_explain_seen_note(e);
    }
    return finish(s, e,
                  limb.arm ? plumb_explain_press(s)->angle_rad[PLUMB_PRESS_ANG_elbow_flexion]
                           : plumb_explain_position(s)->angle_rad[PLUMB_ANG_knee_flexion]);
}

PlumbStatus plumb_explain_back(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbPosition *const p = plumb_explain_position(s);
    const PlumbBody *const body = &s->lifter->body;
    const double lean[2] = {p->pose.thorax_lean_rad - p->spine_rad, p->pose.thorax_lean_rad};
    const double length[2] = {body->pelvis_m, body->trunk_m - body->pelvis_m};
    plumb_explain_symbol(e, "A", "back angle: the line from hip to shoulder, above level");
    plumb_explain_symbol(e, "l1, l2", "length of pelvis and of thorax");
    plumb_explain_symbol(e, "b1, b2",
                         "lean of each from upright; the pelvis leans less by the spine's bend");
    PlumbExplainStep *step = plumb_explain_step(
        e, "Shoulder from the hip",
        "Pelvis and thorax each span their length times the share that goes this way.",
        "x = l1 sin b1 + l2 sin b2,  y = l1 cos b1 + l2 cos b2");
    plumb_explain_column(step, "l1", "m", 4);
    plumb_explain_column(step, "sin b1, cos b1", "", 4);
    plumb_explain_column(step, "l2", "m", 4);
    plumb_explain_column(step, "sin b2, cos b2", "", 4);
    plumb_explain_column(step, "part", "m", 4);
    double part[2];
    for (int i = 0; i < 2; i++) {
        const double share[2] = {i == 0 ? sin(lean[0]) : cos(lean[0]),
                                 i == 0 ? sin(lean[1]) : cos(lean[1])};
        part[i] = length[0] * share[0] + length[1] * share[1];
        plumb_explain_figures(step, plumb_explain_term(step, i == 0 ? "x, forward" : "y, up"),
                              (const double[]){length[0], share[0], length[1], share[1], part[i]});
    }
    plumb_explain_apart(step);
    step = plumb_explain_step(
        e, "Back angle",
        "Seen from the side: how far the shoulder lies above the hip against how far it lies "
        "ahead.",
        "A = atan2(y, x)");
    plumb_explain_column(step, "y", "m", 4);
    plumb_explain_column(step, "x", "m", 4);
    plumb_explain_column(step, "A", "rad", 4);
    plumb_explain_figures(step, plumb_explain_term(step, "hip to shoulder"),
                          (const double[]){part[1], part[0], atan2(part[1], part[0])});
    plumb_explain_number(e, "b1, lean of the pelvis", lean[0], "rad", "solved pose", NULL, NULL);
    plumb_explain_number(e, "b2, lean of the thorax", lean[1], "rad", "solved pose", NULL, NULL);
    return finish(s, e, plumb_explain_position(s)->angle_rad[PLUMB_ANG_back]);
}

/* Columns u, v of the thigh, then those of the angle. */
static PlumbExplainStep *hip_step(PlumbExplanation *e, const char *title, const char *words,
                                  const char *equation)
{
    PlumbExplainStep *const step = plumb_explain_step(e, title, words, equation);
    plumb_explain_column(step, "u", "m", 4);
    plumb_explain_column(step, "v", "m", 4);
    return step;
}

static PlumbStatus flexion(const PlumbExplainSubject *s, PlumbExplanation *e, double u, double v)
{
    const PlumbPosition *const p = plumb_explain_position(s);
    const double lean = p->pose.thorax_lean_rad - p->spine_rad;
    const double f = v * sin(lean) - u * cos(lean);
    const double h = u * sin(lean) + v * cos(lean);
    const double fold = atan2(f, h);
    plumb_explain_symbol(e, "p", "lean of the pelvis from upright");
    plumb_explain_symbol(e, "f, h", "the thigh seen from the pelvis: across it, and along it");
    PlumbExplainStep *const step = hip_step(
        e, "Thigh against the pelvis",
        "The thigh as the pelvis sees it: turned back by the pelvis's own lean, how far it lies "
        "across the pelvis against how far along it.",
        "f = v sin p - u cos p,  h = u sin p + v cos p,  A = atan2(f, h)");
    plumb_explain_column(step, "p", "rad", 4);
    plumb_explain_column(step, "f", "m", 4);
    plumb_explain_column(step, "h", "m", 4);
    plumb_explain_column(step, "A", "rad", 4);
    /* A fold past 180 degrees stays a flexion. */
    plumb_explain_figures(
        step, plumb_explain_term(step, "thigh"),
        (const double[]){u, v, lean, f, h, fold < -0.5 * PLUMB_PI ? fold + 2.0 * PLUMB_PI : fold});
    plumb_explain_number(e, "p, lean of the pelvis", lean, "rad", "solved pose", NULL, NULL);
    plumb_explain_seen_note(e);
    return finish(s, e, plumb_explain_position(s)->angle_rad[PLUMB_ANG_hip_flexion]);
}

static PlumbStatus rotation(const PlumbExplainSubject *s, PlumbExplanation *e, double u, double v)
{
    const PlumbVec3 axis = plumb_explain_knee_axis(s);
    const double g = (u * axis.y - v * axis.x) / s->lifter->body.thigh_m;
    plumb_explain_symbol(e, "qx, qy, qz",
                         "the knee's own axis, square to shank and thigh: forward, up, right");
    plumb_explain_symbol(e, "g", "how far the knee's axis is turned about the thigh");
    PlumbExplainStep *const step =
        hip_step(e, "Thigh turned out against the pelvis",
                 "The knee's axis shows how the thigh is turned about its own length: what of it "
                 "lies across against what lies to the side.",
                 "g = (u qy - v qx) / l2,  A = atan2(g, qz)");
    plumb_explain_column(step, "qx", "", 4);
    plumb_explain_column(step, "qy", "", 4);
    plumb_explain_column(step, "qz", "", 4);
    plumb_explain_column(step, "g", "", 4);
    plumb_explain_column(step, "A", "rad", 4);
    plumb_explain_figures(step, plumb_explain_term(step, "thigh"),
                          (const double[]){u, v, axis.x, axis.y, axis.z, g, atan2(g, axis.z)});
    return finish(s, e, plumb_explain_position(s)->angle_rad[PLUMB_ANG_hip_external_rotation]);
}

static PlumbStatus abduction(const PlumbExplainSubject *s, PlumbExplanation *e, double w)
{
    const double thigh = s->lifter->body.thigh_m;
    PlumbExplainStep *const step = plumb_explain_step(
        e, "Thigh out from the pelvis's plane",
        "How far the thigh leads outwards from hip to knee, as a share of its length, is the sine "
        "of the angle.",
        "A = asin(-w / l2)");
    plumb_explain_column(step, "w", "m", 4);
    plumb_explain_column(step, "l2", "m", 4);
    plumb_explain_column(step, "A", "rad", 4);
    plumb_explain_figures(step, plumb_explain_term(step, "thigh"),
                          (const double[]){w, thigh, -asin(fmin(1.0, fmax(-1.0, w / thigh)))});
    return finish(s, e, plumb_explain_position(s)->angle_rad[PLUMB_ANG_hip_abduction]);
}

/* Cardan angles of the thigh against the pelvis (Wu et al. 2002, J Biomech 35(4):543-548). */
PlumbStatus plumb_explain_hip(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbExplainKind kind = e->question.kind;
    const PlumbExplainLimb limb = plumb_explain_limb(s);
    plumb_explain_symbol(e, "A",
                         kind == PLUMB_EXPLAIN_hip_flexion
                             ? "hip flexion: the thigh against the pelvis, 0 in line with it"
                         : kind == PLUMB_EXPLAIN_hip_abduction
                             ? "hip abduction: the thigh out from the pelvis's middle plane"
                             : "hip external rotation: the thigh turned out about its length");
    plumb_explain_triangle(e, &limb);
    plumb_explain_note(e, "Flexion, abduction and rotation in this order, by the recommendation "
                          "of the International Society of Biomechanics (Wu et al. 2002, J "
                          "Biomech 35(4):543-548).");
    double part[2];
    if (kind == PLUMB_EXPLAIN_hip_abduction) {
        plumb_explain_link_parts(e, &limb, true, (const PlumbExplainAxis[]){PLUMB_EXPLAIN_OUT}, 1,
                                 part);
        return abduction(s, e, part[0]);
    }
    plumb_explain_link_parts(
        e, &limb, true, (const PlumbExplainAxis[]){PLUMB_EXPLAIN_AHEAD, PLUMB_EXPLAIN_UP}, 2, part);
    return kind == PLUMB_EXPLAIN_hip_flexion ? flexion(s, e, part[0], part[1])
                                             : rotation(s, e, part[0], part[1]);
}

PlumbStatus plumb_explain_abduction(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbExplainLimb limb = plumb_explain_limb(s);
    plumb_explain_symbol(e, "A", "upper arm from the trunk: 0 along it toward the feet");
    plumb_explain_triangle(e, &limb);
    double part[3];
    plumb_explain_link_parts(
        e, &limb, false,
        (const PlumbExplainAxis[]){PLUMB_EXPLAIN_AHEAD, PLUMB_EXPLAIN_UP, PLUMB_EXPLAIN_OUT}, 3,
        part);
    const double across = hypot(part[1], part[2]);
    plumb_explain_symbol(e, "k", "what the upper arm reaches across the trunk's line");
    PlumbExplainStep *const step = plumb_explain_step(
        e, "Where the elbow stands off the shoulder",
        "The angle between the upper arm and the line along the trunk, in space: what it reaches "
        "across against what it reaches along.",
        "k = sqrt(y^2 + z^2),  A = atan2(k, x)");
    plumb_explain_column(step, "x", "m", 4);
    plumb_explain_column(step, "y", "m", 4);
    plumb_explain_column(step, "z", "m", 4);
    plumb_explain_column(step, "k", "m", 4);
    plumb_explain_column(step, "A", "rad", 4);
    plumb_explain_figures(
        step, plumb_explain_term(step, "upper arm"),
        (const double[]){part[0], part[1], part[2], across, atan2(across, part[0])});
    if (!plumb_explain_setup(s)->elbows_given) {
        plumb_explain_note(e, "With the elbow under the bar its x is the bar's: at the touch that "
                              "decides the angle, cos A = touch / upper arm.");
    }
    return finish(s, e, plumb_explain_press(s)->angle_rad[PLUMB_PRESS_ANG_abduction]);
}
