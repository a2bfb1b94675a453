/* SPDX-License-Identifier: MIT */
/* Net joint moments of a lift in motion, by Newton and Euler along the path. */
#include <plumbar/dynamics.h>

#include "solve/motion.h"

void plumb_minimum_jerk(double s, double *share, double *rate, double *acceleration)
{
    const double s2 = s * s;
    *share = s2 * s * (10.0 - 15.0 * s + 6.0 * s2);
    *rate = 30.0 * s2 * (1.0 - 2.0 * s + s2);
    *acceleration = 60.0 * s * (1.0 - 3.0 * s + 2.0 * s2);
}

/* One mass of the figure with the energy of its own turning and the rate of that. */
typedef struct Body {
    PlumbMassPoint p;
    double spin_energy;
    double spin_power;
} Body;

/* Time enters by the chain rule: d/dt = u' d/du, d²/dt² = u'² d²/du² + u'' d/du. */
typedef struct Clock {
    double rate;
    double acceleration;
} Clock;

static double speed_of(Jet j, Clock clock)
{
    return j.d * clock.rate;
}

static double acceleration_of(Jet j, Clock clock)
{
    return j.dd * clock.rate * clock.rate + j.d * clock.acceleration;
}

static PlumbVec3 velocity3(Jet3 p, Clock clock)
{
    return vec3(speed_of(p.x, clock), speed_of(p.y, clock), speed_of(p.z, clock));
}

static PlumbVec3 acceleration3(Jet3 p, Clock clock)
{
    return vec3(acceleration_of(p.x, clock), acceleration_of(p.y, clock),
                acceleration_of(p.z, clock));
}

static Body point_mass(double mass, Jet3 at, Clock clock)
{
    const Body body = {.p = {.mass_kg = mass,
                             .at_m = vec3(at.x.v, at.y.v, at.z.v),
                             .velocity_m_s = velocity3(at, clock),
                             .acceleration_m_s2 = acceleration3(at, clock)}};
    return body;
}

/* A slender segment with direction w = end - begin of constant length and radius of gyration k
 * about its transverse axes: angular momentum m k²/|w|² (w × w'), of which z is x y' - y x'; its
 * rate is m k²/|w|² (x y'' - y x''); energy m k²/(2|w|²) |w'|², its rate m k²/|w|² w'·w''. */
static Body segment(double mass, Jet3 begin, Jet3 end, double com_frac, double k, double length,
                    Clock clock)
{
    Body body = point_mass(mass, jet3_between(begin, end, com_frac), clock);
    const Jet3 w = jet3_sub(end, begin);
    const PlumbVec3 v = velocity3(w, clock);
    const PlumbVec3 a = acceleration3(w, clock);
    const double factor = mass * k * k / (length * length);
    body.p.spin_rate_n_m = factor * (w.x.v * a.y - w.y.v * a.x);
    body.spin_energy = 0.5 * factor * vec3_dot(v, v);
    body.spin_power = factor * vec3_dot(v, a);
    return body;
}

typedef struct Radii {
    double m[PLUMB_SEGMENT_COUNT];
} Radii;

static Radii radii_of(const PlumbBody *body, const PlumbRig *rig)
{
    const double length[PLUMB_SEGMENT_COUNT] = {
        [PLUMB_SEG_shank] = rig->shank,         [PLUMB_SEG_thigh] = rig->thigh,
        [PLUMB_SEG_pelvis] = rig->pelvis,       [PLUMB_SEG_thorax] = rig->thorax,
        [PLUMB_SEG_upper_arm] = rig->upper_arm, [PLUMB_SEG_forearm] = rig->forearm,
        [PLUMB_SEG_hand] = rig->hand,           [PLUMB_SEG_head] = rig->trunk_length,
    };
    Radii radii;
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        radii.m[i] = body->segment[i].rg_frac * length[i];
    }
    return radii;
}

/* A pull's upper arm starts where the lowered joint is: the drop along the arm's line. */
static Jet3 arm_top(const PlumbRig *rig, const PlumbMotion *m)
{
    return rig->lift == PLUMB_DEADLIFT
               ? jet3_between(m->shoulder_joint, m->grip, rig->drop / rig->arm)
               : m->shoulder_joint;
}

static void list_bodies(const PlumbRig *rig, const Radii *radii, const PlumbMotion *m, Clock clock,
                        Body body[PLUMB_MASS_COUNT])
{
    const double *mass = rig->segment_mass;
    const double *com = rig->com_frac;
    const double *k = radii->m;
    const Jet3 ankle = jet3_fixed(rig->ankle);
    const Jet3 head_direction = jet3(jet_sin(m->lean), jet_cos(m->lean), jet_fixed(0.0));
    const Jet3 head_end =
        jet3_add(m->shoulder, jet3_times(head_direction, jet_fixed(rig->trunk_length)));
    PlumbVec3 foot = vec3_between(rig->heel, rig->toe, com[PLUMB_SEG_foot]);
    foot.y = 0.5 * rig->ankle.y;
    const Jet3 arm[4] = {arm_top(rig, m), m->elbow, m->wrist, m->grip};
    body[PLUMB_MASS_foot] = point_mass(mass[PLUMB_SEG_foot], jet3_fixed(foot), clock);
    body[PLUMB_MASS_shank] = segment(mass[PLUMB_SEG_shank], m->knee, ankle, com[PLUMB_SEG_shank],
                                     k[PLUMB_SEG_shank], rig->shank, clock);
    body[PLUMB_MASS_thigh] = segment(mass[PLUMB_SEG_thigh], m->hip, m->knee, com[PLUMB_SEG_thigh],
                                     k[PLUMB_SEG_thigh], rig->thigh, clock);
    body[PLUMB_MASS_pelvis] =
        segment(mass[PLUMB_SEG_pelvis], m->mid_hip, m->lumbar, com[PLUMB_SEG_pelvis],
                k[PLUMB_SEG_pelvis], rig->pelvis, clock);
    body[PLUMB_MASS_thorax] =
        segment(mass[PLUMB_SEG_thorax], m->lumbar, m->shoulder, com[PLUMB_SEG_thorax],
                k[PLUMB_SEG_thorax], rig->thorax, clock);
    body[PLUMB_MASS_head] =
        segment(mass[PLUMB_SEG_head], m->shoulder, head_end, com[PLUMB_SEG_head], k[PLUMB_SEG_head],
                rig->trunk_length, clock);
    const double length[3] = {rig->upper_arm, rig->forearm, rig->hand};
    for (int i = 0; i < 3; i++) {
        const int id = PLUMB_SEG_upper_arm + i;
        body[PLUMB_MASS_upper_arm + i] =
            segment(mass[id], arm[i], arm[i + 1], com[id], k[id], length[i], clock);
    }
    body[PLUMB_MASS_bar] = point_mass(rig->bar_mass, m->bar, clock);
}

/* Foot and floor: the resultant of all weights and inertias passes through the centre of pressure;
 * its moment about the origin is that of the floor's force. */
static void ground(const PlumbRig *rig, PlumbMotionPoint *point)
{
    double force = 0.0;
    double moment = 0.0;
    for (int i = 0; i < PLUMB_MASS_COUNT; i++) {
        const PlumbMassPoint *m = &point->mass[i];
        const double up = m->mass_kg * (m->acceleration_m_s2.y + PLUMB_GRAVITY);
        force += up;
        moment +=
            m->at_m.x * up - m->at_m.y * m->mass_kg * m->acceleration_m_s2.x + m->spin_rate_n_m;
    }
    point->ground_force_n = force;
    point->pressure_frac = plumb_rig_balance(rig, moment / force);
}

static void energies(const Body body[PLUMB_MASS_COUNT], PlumbMotionPoint *point)
{
    point->energy_j = 0.0;
    point->power_w = 0.0;
    for (int i = 0; i < PLUMB_MASS_COUNT; i++) {
        const PlumbMassPoint *b = &body[i].p;
        const PlumbVec3 v = b->velocity_m_s;
        point->energy_j +=
            b->mass_kg * (0.5 * vec3_dot(v, v) + PLUMB_GRAVITY * b->at_m.y) + body[i].spin_energy;
        point->power_w += b->mass_kg * (vec3_dot(v, b->acceleration_m_s2) + PLUMB_GRAVITY * v.y) +
                          body[i].spin_power;
    }
}

static void fill_loads(const PlumbRig *rig, const Body body[PLUMB_MASS_COUNT],
                       PlumbMotionPoint *point)
{
    for (int i = 0; i < PLUMB_MASS_COUNT; i++) {
        point->mass[i] = body[i].p;
    }
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        const PlumbJoint joint = (PlumbJoint)i;
        point->moment_both_n_m[i] =
            plumb_masses_moment(point->mass, joint, plumb_position_joint(&point->position, joint));
    }
    point->bar_speed_m_s = point->mass[PLUMB_MASS_bar].velocity_m_s.y;
    point->bar_acceleration_m_s2 = point->mass[PLUMB_MASS_bar].acceleration_m_s2.y;
    ground(rig, point);
    energies(body, point);
}

/* A motion under way: the way, and the step last met, from which the next one is met. */
typedef struct Run {
    PlumbWay way;
    Radii radii;
    double rep_time_s;
    PlumbStep step;
} Run;

static Run run_begin(const PlumbLifter *lifter, const PlumbAnswer *answer, double rep_time_s)
{
    Run run;
    run.way = plumb_way_begin(lifter, answer, &run.step);
    run.radii = radii_of(&lifter->body, &run.way.c.rig);
    run.rep_time_s = rep_time_s;
    if (run.way.c.rig.lift == PLUMB_SQUAT) {
        run.step.state.v[PLUMB_X] = answer->start.pose.hip_x_m;
        run.step.state.v[PLUMB_Y] = answer->start.pose.hip_height_m;
        run.step.state.v[PLUMB_LEAN] = answer->start.pose.thorax_lean_rad;
    }
    return run;
}

/* One instant: the pose, its static description, and the loads of its motion. At both ends of the
 * minimum-jerk law velocity and acceleration vanish. */
static void instant(Run *run, double s, PlumbMotionPoint *point)
{
    double share;
    double rate;
    double acceleration;
    plumb_minimum_jerk(s, &share, &rate, &acceleration);
    PlumbWay *way = &run->way;
    const double time = run->rep_time_s;
    const bool pull = way->c.rig.lift == PLUMB_DEADLIFT;
    const double sign = pull ? 1.0 : -1.0; /* a squat's way up runs from the hole, u = 1, to 0 */
    const Clock clock = {sign * rate / time, sign * acceleration / (time * time)};
    const bool rest = s <= 0.0 || s >= 1.0;
    point->t_s = s * time;
    point->u = pull ? share : 1.0 - share;
    PlumbMotion motion;
    point->held = plumb_way_step(way, point->u, &run->step);
    if (rest || !point->held) {
        plumb_way_still(way, &run->step, &motion);
    } else if (!plumb_way_motion(way, &run->step, &motion)) {
        plumb_way_still(way, &run->step, &motion);
        point->held = false;
    }
    plumb_case_describe(&way->c, &way->c.rig, &run->step.state, run->step.bend, &point->position);
    Body body[PLUMB_MASS_COUNT];
    list_bodies(&way->c.rig, &run->radii, &motion, clock, body);
    fill_loads(&way->c.rig, body, point);
}

static void collect_facts(const PlumbMotionPoint *point, int count, double rep_time_s,
                          PlumbMotionFacts *facts)
{
    const PlumbMotionFacts none = {.held = true,
                                   .rep_time_s = rep_time_s,
                                   .pressure_low_frac = point[0].pressure_frac,
                                   .pressure_high_frac = point[0].pressure_frac};
    *facts = none;
    const double rise =
        point[count - 1].position.point[PLUMB_PT_bar].y - point[0].position.point[PLUMB_PT_bar].y;
    facts->mean_bar_speed_m_s = rise / rep_time_s;
    for (int i = 0; i < count; i++) {
        const PlumbMotionPoint *p = &point[i];
        facts->held = facts->held && p->held;
        facts->peak_bar_speed_m_s = fmax(facts->peak_bar_speed_m_s, p->bar_speed_m_s);
        facts->peak_power_w = fmax(facts->peak_power_w, p->power_w);
        facts->pressure_low_frac = fmin(facts->pressure_low_frac, p->pressure_frac);
        facts->pressure_high_frac = fmax(facts->pressure_high_frac, p->pressure_frac);
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            if (fabs(p->moment_both_n_m[j]) > fabs(facts->peak_moment_n_m[j])) {
                facts->peak_moment_n_m[j] = p->moment_both_n_m[j];
                facts->peak_t_s[j] = p->t_s;
            }
            const double still = p->position.moment_both_n_m[j];
            if (fabs(still) > fabs(facts->peak_static_moment_n_m[j])) {
                facts->peak_static_moment_n_m[j] = still;
            }
        }
    }
}

static PlumbStatus check_request(const PlumbLifter *lifter, const PlumbAnswer *answer,
                                 double rep_time_s, int count, PlumbError *error)
{
    if (!lifter->body.has_radii) {
        return plumb_error_set(error, PLUMB_UNSUPPORTED, "mass_table",
                               "the classic mass table has no radii of gyration for the trunk; a "
                               "lift in motion needs mass_table=survey");
    }
    if (answer->outcome == PLUMB_NO_POSE || !answer->end_held) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "set-up",
                               "there is no path without a held start and end");
    }
    if (!(rep_time_s >= 0.2 && rep_time_s <= 60.0)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "rep_time",
                               "a repetition takes 0.2 s to 60 s");
    }
    if (count < 2 || count > PLUMB_PATH_MAX) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "points", "from 2 to 1001 points");
    }
    return PLUMB_OK;
}

PlumbStatus plumb_motion_solve(const PlumbLifter *lifter, const PlumbAnswer *answer,
                               double rep_time_s, int count, PlumbMotionPoint *point,
                               PlumbMotionFacts *facts, PlumbError *error)
{
    const PlumbStatus status = check_request(lifter, answer, rep_time_s, count, error);
    if (status != PLUMB_OK) {
        return status;
    }
    Run run = run_begin(lifter, answer, rep_time_s);
    double zero = 0.0;
    for (int i = 0; i < count; i++) {
        instant(&run, (double)i / (count - 1), &point[i]);
        zero = i == 0 ? point[0].energy_j : zero;
        point[i].energy_j -= zero;
    }
    collect_facts(point, count, rep_time_s, facts);
    return PLUMB_OK;
}

/* The instant is reached in small steps, each met from the one before. */
PlumbStatus plumb_motion_at(const PlumbLifter *lifter, const PlumbAnswer *answer, double rep_time_s,
                            double t_s, PlumbMotionPoint *point, PlumbError *error)
{
    enum { STEPS = 40 };
    const PlumbStatus status = check_request(lifter, answer, rep_time_s, 2, error);
    if (status != PLUMB_OK) {
        return status;
    }
    if (!(t_s >= 0.0 && t_s <= rep_time_s)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "time",
                               "an instant lies between 0 and the time of the repetition");
    }
    Run run = run_begin(lifter, answer, rep_time_s);
    const double end = t_s / rep_time_s;
    double zero = 0.0;
    for (int i = 0; i <= STEPS; i++) {
        instant(&run, end * i / STEPS, point);
        zero = i == 0 ? point->energy_j : zero;
    }
    point->energy_j -= zero;
    return PLUMB_OK;
}
