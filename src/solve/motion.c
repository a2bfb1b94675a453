/* SPDX-License-Identifier: MIT */
/* Exact derivatives of a step of a path by its parameter u. */
#include "solve/motion.h"

#include "base/roots.h"

/* What the path prescribes at u, with derivatives. */
typedef struct Prescribed {
    Jet bend;
    Jet spine;
    Jet bar_x; /* squat */
    Jet bar_y; /* pull */
    Jet gap;   /* pull, beyond the knee */
} Prescribed;

static Jet linear(double a, double b, double u)
{
    return jet(a + u * (b - a), b - a, 0.0);
}

/* (1-u)^e */
static Jet falling_power(double u, double e)
{
    const double rest = 1.0 - u;
    return jet(pow(rest, e), -e * pow(rest, e - 1.0), e * (e - 1.0) * pow(rest, e - 2.0));
}

/* The cubic of plumb_way_gap: span s, t = (u - knee_u)/s, (1-t)² ((1+2t) g + t s g'). */
static Jet gap_jet(const PlumbWay *way, double u)
{
    const double span = 1.0 - way->knee_u;
    const Jet t = jet((u - way->knee_u) / span, 1.0 / span, 0.0);
    const Jet rest = jet_sub(jet_fixed(1.0), t);
    const Jet sum = jet_add(jet_fixed(way->knee_gap),
                            jet_scale(t, 2.0 * way->knee_gap + span * way->knee_gap_slope));
    return jet_mul(jet_mul(rest, rest), sum);
}

static Prescribed prescribe(const PlumbWay *way, double u)
{
    const bool pull = way->c.rig.lift == PLUMB_DEADLIFT;
    const double spine = way->c.setup.spine_rad;
    Prescribed p;
    p.bend = pull ? jet_scale(falling_power(u, way->c.setup.path_exponent), way->bend_start)
                  : linear(way->bend_start, way->bend_end, u);
    p.spine = pull ? linear(spine, 0.0, u) : linear(0.0, spine, u);
    p.bar_x = linear(way->bar_start_x, way->bar_end_x, u);
    p.bar_y = linear(way->bar_start_y, way->bar_end_y, u);
    p.gap = u > way->knee_u ? gap_jet(way, u) : jet_fixed(0.0);
    return p;
}

/* The knee from the bend, as in limb.h. */
static void place_leg(const PlumbRig *rig, const Prescribed *p, PlumbMotion *m)
{
    const double l1 = rig->shank;
    const double l2 = rig->thigh;
    const Jet3 ankle = jet3_fixed(rig->ankle);
    const Jet3 pole = jet3_fixed(rig->pole);
    m->mid_hip = jet3(m->unknown[PLUMB_X], m->unknown[PLUMB_Y], jet_fixed(0.0));
    m->hip = m->mid_hip;
    m->hip.z = jet_fixed(rig->hip_z);
    const Jet3 along = jet3_sub(m->hip, ankle);
    const Jet3 n = jet3_times(along, jet_inverse(jet3_length(along)));
    const Jet square =
        jet_add(jet_fixed(l1 * l1 + l2 * l2), jet_scale(jet_cos(p->bend), 2.0 * l1 * l2));
    const Jet span = jet_sqrt(square);
    const Jet a = jet_div(jet_add(jet_fixed(l1 * l1 - l2 * l2), square), jet_scale(span, 2.0));
    const Jet r = jet_div(jet_scale(jet_sin(p->bend), l1 * l2), span);
    const Jet3 w = jet3_sub(pole, jet3_times(n, jet3_dot(n, pole)));
    const Jet3 e = jet3_times(w, jet_inverse(jet3_length(w)));
    m->knee = jet3_add(ankle, jet3_add(jet3_times(n, a), jet3_times(e, r)));
}

/* From mid-hip (u along, v behind) in a frame leaning by `lean`. */
static Jet3 leaning_point(Jet3 from, Jet lean, Jet u, Jet v)
{
    const Jet s = jet_sin(lean);
    const Jet c = jet_cos(lean);
    return jet3(jet_add(from.x, jet_sub(jet_mul(u, s), jet_mul(v, c))),
                jet_add(from.y, jet_add(jet_mul(u, c), jet_mul(v, s))), from.z);
}

static void place_trunk(const PlumbRig *rig, const Prescribed *p, PlumbMotion *m)
{
    m->lean = m->unknown[PLUMB_LEAN];
    m->spine = p->spine;
    m->pelvis_lean = jet_sub(m->lean, p->spine);
    m->lumbar = leaning_point(m->mid_hip, m->pelvis_lean, jet_fixed(rig->pelvis), jet_fixed(0.0));
    m->shoulder = leaning_point(m->lumbar, m->lean, jet_fixed(rig->thorax), jet_fixed(0.0));
    m->shoulder_joint = m->shoulder;
    m->shoulder_joint.z = jet_fixed(rig->shoulder_z);
}

static Jet3 on_thorax(const PlumbMotion *m, double u, double v, double z)
{
    Jet3 p = leaning_point(m->shoulder, m->lean, jet_fixed(u), jet_fixed(v));
    p.z = jet_fixed(z);
    return p;
}

static void place_bar(const PlumbRig *rig, PlumbMotion *m)
{
    if (rig->lift == PLUMB_DEADLIFT) {
        m->bar = jet3(m->unknown[PLUMB_BAR_X], m->unknown[PLUMB_BAR_Y], jet_fixed(0.0));
        m->grip = m->bar;
        m->grip.z = jet_fixed(rig->grip_z);
        const double elbow = (rig->drop + rig->upper_arm) / rig->arm;
        m->elbow = jet3_between(m->shoulder_joint, m->grip, elbow);
        m->wrist = jet3_between(m->shoulder_joint, m->grip, 1.0 - rig->hand / rig->arm);
        return;
    }
    const double u = rig->bar_u - rig->shoulder_u;
    const double v = rig->bar_v - rig->shoulder_v;
    m->bar = on_thorax(m, u, v, 0.0);
    m->grip = on_thorax(m, u, v, rig->grip_z);
    m->elbow = on_thorax(m, rig->elbow_uvz.x, rig->elbow_uvz.y, rig->elbow_uvz.z);
    m->wrist = on_thorax(m, rig->wrist_uvz.x, rig->wrist_uvz.y, rig->wrist_uvz.z);
}

static void place(const PlumbWay *way, const Prescribed *p, PlumbMotion *m)
{
    place_leg(&way->c.rig, p, m);
    place_trunk(&way->c.rig, p, m);
    place_bar(&way->c.rig, m);
}

/* First moment of the trunk and what it carries, m_u and m_v of the rig, as the spine turns. */
static Jet balance_jet(const PlumbRig *rig, const PlumbMotion *m)
{
    const double pelvis = rig->segment_mass[PLUMB_SEG_pelvis];
    const double thigh = rig->segment_mass[PLUMB_SEG_thigh];
    const double above = rig->moment_hip - thigh * (1.0 - rig->com_frac[PLUMB_SEG_thigh]) - pelvis;
    const double lever = (pelvis * rig->com_frac[PLUMB_SEG_pelvis] + above) * rig->pelvis;
    /* The rig's moments hold the pelvis at its present spine; take it out and put it in moving. */
    const double u = rig->moment_u - lever * rig->spine_cos;
    const double v = rig->moment_v - lever * rig->spine_sin;
    Jet sum = jet_fixed(rig->moment_fixed.x);
    sum = jet_add(sum, jet_scale(m->knee.x, rig->moment_knee));
    sum = jet_add(sum, jet_scale(m->mid_hip.x, rig->moment_hip));
    sum = jet_add(sum, jet_scale(jet_sin(m->lean), u));
    sum = jet_sub(sum, jet_scale(jet_cos(m->lean), v));
    sum = jet_add(sum, jet_scale(jet_sin(m->pelvis_lean), lever));
    sum = jet_add(sum, jet_scale(m->bar.x, rig->moment_bar));
    return jet_scale(sum, 1.0 / (rig->total_mass * (rig->toe.x - rig->heel.x)));
}

/* Distance of the bar from the segment that rules the clearance, by the same choice as there. */
static Jet clearance_jet(const PlumbRig *rig, const PlumbMotion *m)
{
    const PlumbVec2 knee = {m->knee.x.v, m->knee.y.v};
    const PlumbVec2 hip = {m->hip.x.v, m->hip.y.v};
    const PlumbVec2 bar = {m->bar.x.v, m->bar.y.v};
    const PlumbClearance now = plumb_rig_clearance(rig, knee, hip, bar);
    const Jet3 from = now.thigh ? m->knee : jet3_fixed(rig->ankle);
    const Jet3 to = now.thigh ? m->hip : m->knee;
    const Jet3 nearest = now.share >= 1.0 ? to : from;
    const Jet ax = jet_sub(to.x, from.x);
    const Jet ay = jet_sub(to.y, from.y);
    const Jet wx = jet_sub(m->bar.x, nearest.x);
    const Jet wy = jet_sub(m->bar.y, nearest.y);
    if (now.share <= 0.0 || now.share >= 1.0) {
        return jet_scale(jet_sqrt(jet_add(jet_mul(wx, wx), jet_mul(wy, wy))), now.side);
    }
    const Jet cross = jet_sub(jet_mul(wx, ay), jet_mul(wy, ax));
    return jet_div(cross, jet_sqrt(jet_add(jet_mul(ax, ax), jet_mul(ay, ay))));
}

/* Residual of a constraint of the path as a function of u; its value does not matter, it is zero
 * at a met step. */
static Jet residual_jet(const PlumbWay *way, const Prescribed *p, const PlumbMotion *m,
                        PlumbConstraintId id)
{
    const PlumbRig *rig = &way->c.rig;
    switch (id) {
    case PLUMB_CON_balance:
        return balance_jet(rig, m);
    case PLUMB_CON_reach:
        return jet3_length(jet3_sub(m->shoulder_joint, m->grip));
    case PLUMB_CON_clearance:
        return jet_sub(clearance_jet(rig, m), p->gap);
    case PLUMB_CON_knee_bend: {
        const Jet square = jet_add(jet_fixed(rig->shank * rig->shank + rig->thigh * rig->thigh),
                                   jet_scale(jet_cos(p->bend), 2.0 * rig->shank * rig->thigh));
        return jet_sub(jet3_length(jet3_sub(m->hip, jet3_fixed(rig->ankle))), jet_sqrt(square));
    }
    case PLUMB_CON_bar_over:
        return jet_sub(m->bar.x, p->bar_x);
    case PLUMB_CON_hip_height:
    case PLUMB_CON_shin_angle:
    case PLUMB_CON_back_angle:
    case PLUMB_CON_depth:
    case PLUMB_CON_knees_over_toes:
    case PLUMB_CONSTRAINT_COUNT:
        break;
    }
    return jet_fixed(0.0); /* no path prescribes these */
}

/* Analytic Jacobian of the step's problem. */
static void jacobian_at(const PlumbWay *way, const PlumbStep *step,
                        double matrix[][PLUMB_LINEAR_MAX])
{
    PlumbEval eval;
    plumb_eval(&way->c.rig, &step->state, step->bend, &eval);
    for (int i = 0; i < step->problem.count; i++) {
        double gradient[PLUMB_UNKNOWN_COUNT];
        plumb_constraint_value(&eval, step->problem.constraint[i].id, gradient);
        for (int j = 0; j < step->problem.count; j++) {
            matrix[i][j] = gradient[step->problem.free[j]];
        }
    }
}

bool plumb_way_motion(const PlumbWay *way, const PlumbStep *step, PlumbMotion *motion)
{
    const Prescribed p = prescribe(way, step->u);
    const int count = step->problem.count;
    for (int i = 0; i < PLUMB_UNKNOWN_COUNT; i++) {
        motion->unknown[i] = jet_fixed(step->state.v[i]);
    }
    if (way->c.rig.lift == PLUMB_DEADLIFT) {
        motion->unknown[PLUMB_BAR_Y] = p.bar_y;
    }
    for (int order = 1; order <= 2; order++) {
        double matrix[PLUMB_LINEAR_MAX][PLUMB_LINEAR_MAX];
        double rhs[PLUMB_FREE_MAX];
        place(way, &p, motion);
        jacobian_at(way, step, matrix);
        for (int i = 0; i < count; i++) {
            const Jet f = residual_jet(way, &p, motion, step->problem.constraint[i].id);
            rhs[i] = order == 1 ? -f.d : -f.dd;
        }
        if (!plumb_linear_solve(count, matrix, rhs)) {
            return false;
        }
        for (int i = 0; i < count; i++) {
            Jet *unknown = &motion->unknown[step->problem.free[i]];
            *(order == 1 ? &unknown->d : &unknown->dd) = rhs[i];
        }
    }
    place(way, &p, motion);
    return true;
}

void plumb_way_still(const PlumbWay *way, const PlumbStep *step, PlumbMotion *motion)
{
    Prescribed p = prescribe(way, step->u);
    Jet *prescribed[] = {&p.bend, &p.spine, &p.bar_x, &p.bar_y, &p.gap};
    for (unsigned i = 0; i < sizeof prescribed / sizeof prescribed[0]; i++) {
        *prescribed[i] = jet_fixed(prescribed[i]->v);
    }
    for (int i = 0; i < PLUMB_UNKNOWN_COUNT; i++) {
        motion->unknown[i] = jet_fixed(step->state.v[i]);
    }
    place(way, &p, motion);
}
