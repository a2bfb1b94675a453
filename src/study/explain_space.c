/* SPDX-License-Identifier: MIT */
/* The working of the moments in space, one side: the leg below a joint cut free. */
#include "study/explain_parts.h"

#include "model/measure.h"

#include <stddef.h>

/* A force on the cut part, N, and where it acts. */
typedef struct Force {
    const char *words;
    PlumbVec3 at;
    PlumbVec3 newton;
} Force;

enum { FORCE_FLOOR, FORCE_FOOT, FORCE_SHANK, FORCE_THIGH, FORCES };

static void list_forces(const PlumbExplainSubject *s, Force force[FORCES])
{
    const PlumbSetup *setup = &s->answer->setup;
    const PlumbPosition *p = plumb_explain_position(s);
    PlumbMassPoint mass[PLUMB_MASS_COUNT];
    plumb_position_masses(s->lifter, setup, p, mass);
    const double half = 0.5 * plumb_total_mass_kg(s->lifter, setup) * PLUMB_GRAVITY;
    force[FORCE_FLOOR] =
        (Force){"floor on the foot",
                vec3_between(p->point[PLUMB_PT_heel], p->point[PLUMB_PT_toe], p->balance_frac),
                vec3(0.0, half, -setup->feet_push_frac * half)};
    static const PlumbMass weighed[] = {[FORCE_FOOT] = PLUMB_MASS_foot,
                                        [FORCE_SHANK] = PLUMB_MASS_shank,
                                        [FORCE_THIGH] = PLUMB_MASS_thigh};
    static const char *const words[] = {[FORCE_FOOT] = "weight of the foot",
                                        [FORCE_SHANK] = "weight of the shank",
                                        [FORCE_THIGH] = "weight of the thigh"};
    for (int i = FORCE_FOOT; i < FORCES; i++) {
        const PlumbMassPoint *m = &mass[weighed[i]];
        force[i] = (Force){words[i], m->at_m, vec3(0.0, -0.5 * m->mass_kg * PLUMB_GRAVITY, 0.0)};
    }
}

PlumbVec3 plumb_explain_knee_axis(const PlumbExplainSubject *s)
{
    const PlumbPosition *p = plumb_explain_position(s);
    PlumbRig rig;
    PlumbLeg leg;
    plumb_rig_build(s->lifter, &s->answer->setup, p->spine_rad, p->knees_out_rad, &rig);
    plumb_leg_place(&rig, p->pose.hip_x_m, p->pose.hip_height_m,
                    p->angle_rad[PLUMB_ANG_knee_flexion], &leg);
    return plumb_leg_axis(&rig, &leg);
}

/* What each of the four is about: the cut, the axis, and the last force on the cut part. */
typedef struct Cut {
    PlumbPoint joint;
    int last;
    const char *title;
    const char *words;
    const char *symbols;
    const char *axis;
    const char *moment; /* and which way it counts */
} Cut;

static Cut cut_of(PlumbExplainKind kind)
{
    if (kind == PLUMB_EXPLAIN_knee_extension) {
        return (Cut){PLUMB_PT_knee,
                     FORCE_SHANK,
                     "Shank and foot cut free at the knee",
                     "Each force turns the cut part about the knee by r × F; the part of it along "
                     "the knee's own axis is what the extensors must answer, with the opposite "
                     "sign.",
                     "M = -Σ (r × F) · n",
                     "the knee's flexion axis: square to shank and thigh, to the right",
                     "net moment of one side; positive: the knee extensors supply it"};
    }
    if (kind == PLUMB_EXPLAIN_knee_frontal) {
        return (Cut){PLUMB_PT_knee,
                     FORCE_SHANK,
                     "Shank and foot cut free at the knee",
                     "Each force turns the cut part about the knee by r × F; the part of it about "
                     "the axis that points back, square to the knee's own axis and the shank, is "
                     "seen from the front.",
                     "M = Σ (r × F) · n",
                     "the axis back: the knee's flexion axis × the shank's direction upwards",
                     "what the forces do to the shank of one side; positive: they turn it outwards "
                     "below the knee, which the knee's inner side and the muscles over it hold; "
                     "negative: inwards"};
    }
    if (kind == PLUMB_EXPLAIN_ankle_along_foot) {
        return (Cut){PLUMB_PT_ankle,
                     FORCE_FOOT,
                     "The foot cut free at the ankle",
                     "Each force has its lever along the foot about the ankle; what lifts the "
                     "forefoot is held by the plantar flexors.",
                     "M = Σ Fy (r · n)",
                     "the direction of the foot, heel to toe",
                     "net moment of one side; positive: the plantar flexors (calf muscles) supply "
                     "it"};
    }
    return (Cut){PLUMB_PT_hip,
                 FORCE_THIGH,
                 "The leg cut free at the hip",
                 "Each force turns the leg about the hip by r × F; the part of it about the axis "
                 "that points forward is seen from the front.",
                 "M = Σ (r × F) · n",
                 "the axis forward",
                 "what the forces do to the leg of one side; negative: they swing it outwards, and "
                 "the adductors hold it; positive: inwards, and the abductors hold it"};
}

static PlumbVec3 axis_of(const PlumbExplainSubject *s, PlumbExplainKind kind)
{
    const PlumbVec3 *pt = plumb_explain_position(s)->point;
    if (kind == PLUMB_EXPLAIN_hip_frontal) {
        return vec3(1.0, 0.0, 0.0);
    }
    if (kind == PLUMB_EXPLAIN_ankle_along_foot) {
        return vec3_unit(vec3_sub(pt[PLUMB_PT_toe], pt[PLUMB_PT_heel]));
    }
    const PlumbVec3 axis = plumb_explain_knee_axis(s);
    return kind == PLUMB_EXPLAIN_knee_extension
               ? axis
               : vec3_cross(axis, vec3_unit(vec3_sub(pt[PLUMB_PT_knee], pt[PLUMB_PT_ankle])));
}

static double part_of(PlumbExplainKind kind, PlumbVec3 r, PlumbVec3 force, PlumbVec3 axis)
{
    if (kind == PLUMB_EXPLAIN_ankle_along_foot) {
        return force.y * vec3_dot(r, axis);
    }
    const double part = vec3_dot(vec3_cross(r, force), axis);
    return kind == PLUMB_EXPLAIN_knee_extension ? -part : part;
}

static void symbols(PlumbExplanation *e, const Cut *cut)
{
    plumb_explain_symbol(e, "M", cut->moment);
    plumb_explain_symbol(e, "r", "from the joint to where the force acts: forward, up, right");
    plumb_explain_symbol(e, "F", "force on the cut part: up, and to the right");
    plumb_explain_symbol(e, "n", cut->axis);
    plumb_explain_symbol(e, "×, ·", "vector product and scalar product");
    plumb_explain_symbol(e, "R", "force of the joint on the cut part; it has no lever about it");
}

static double program_of(const PlumbLoads3d *loads, PlumbExplainKind kind)
{
    return kind == PLUMB_EXPLAIN_knee_extension     ? loads->knee_extension_n_m
           : kind == PLUMB_EXPLAIN_knee_frontal     ? loads->knee_frontal_n_m
           : kind == PLUMB_EXPLAIN_ankle_along_foot ? loads->ankle_along_foot_n_m
                                                    : loads->hip_frontal_n_m;
}

/* The joint holds what the other forces leave over, so that the cut part stands. */
static void add_joint_force(PlumbExplanation *e, const Force *force, int last)
{
    PlumbVec3 sum = vec3(0.0, 0.0, 0.0);
    for (int i = 0; i <= last; i++) {
        sum = vec3_add(sum, force[i].newton);
    }
    static const char *const basis = "what leaves no force over";
    plumb_explain_number(e, "R, up", -sum.y, "N", basis, NULL, NULL);
    if (sum.z != 0.0) {
        plumb_explain_number(e, "R, to the right", -sum.z, "N", basis, NULL, NULL);
    }
}

PlumbStatus plumb_explain_space(const PlumbExplainSubject *s, PlumbExplanation *e)
{
    const PlumbExplainKind kind = e->question.kind;
    const PlumbPosition *p = plumb_explain_position(s);
    const Cut cut = cut_of(kind);
    const PlumbVec3 joint = p->point[cut.joint];
    const PlumbVec3 axis = axis_of(s, kind);
    Force force[FORCES];
    list_forces(s, force);
    symbols(e, &cut);
    PlumbExplainStep *step = plumb_explain_step(e, cut.title, cut.words, cut.symbols);
    plumb_explain_column(step, "Fy", "N", 1);
    plumb_explain_column(step, "Fz", "N", 1);
    plumb_explain_column(step, "rx", "m", 4);
    plumb_explain_column(step, "ry", "m", 4);
    plumb_explain_column(step, "rz", "m", 4);
    plumb_explain_column(step, "term", "N m", 1);
    for (int i = 0; i <= cut.last; i++) {
        const PlumbVec3 r = vec3_sub(force[i].at, joint);
        plumb_explain_figures(step, plumb_explain_term(step, force[i].words),
                              (const double[]){force[i].newton.y, force[i].newton.z, r.x, r.y, r.z,
                                               part_of(kind, r, force[i].newton, axis)});
    }
    plumb_explain_sum(step, "M", "N m", 1);
    plumb_explain_number(e, "n, forward", axis.x, "", "solved pose", NULL, NULL);
    plumb_explain_number(e, "n, up", axis.y, "", "solved pose", NULL, NULL);
    plumb_explain_number(e, "n, to the right", axis.z, "", "solved pose", NULL, NULL);
    plumb_explain_gravity(e);
    plumb_explain_masses(e, s->lifter, PLUMB_MASS_foot,
                         cut.last == FORCE_THIGH   ? PLUMB_MASS_thigh
                         : cut.last == FORCE_SHANK ? PLUMB_MASS_shank
                                                   : PLUMB_MASS_foot);
    add_joint_force(e, force, cut.last);
    plumb_explain_pose(e, s);
    plumb_explain_note(e, "Half of the weight of body and bar presses on each foot, at the balance "
                          "along it. The sideways push of the feet is a setting.");
    e->quantity = PLUMB_Q_MOMENT;
    e->program = program_of(&p->loads_3d, kind);
    return PLUMB_OK;
}
