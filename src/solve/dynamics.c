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

/* One body of the chain in motion: mass of both sides, place, velocity, acceleration in the
 * sagittal plane and across it, and the rate of its spin. */
typedef struct Body {
    double mass;
    PlumbVec3 at;
    PlumbVec3 velocity;
    PlumbVec3 acceleration;
    double spin_rate;   /* d/dt of the angular momentum about z through its centre */
    double spin_energy; /* rotational kinetic energy */
    double spin_power;  /* its rate */
} Body;

enum {
    BODY_SHANK,
    BODY_THIGH,
    BODY_PELVIS,
    BODY_THORAX,
    BODY_HEAD,
    BODY_UPPER_ARM,
    BODY_FOREARM,
    BODY_HAND,
    BODY_BAR,
    BODY_COUNT
};

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
    const Body body = {.mass = mass,
                       .at = vec3(at.x.v, at.y.v, at.z.v),
                       .velocity = velocity3(at, clock),
                       .acceleration = acceleration3(at, clock)};
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
    body.spin_rate = factor * (w.x.v * a.y - w.y.v * a.x);
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
                        Body body[BODY_COUNT])
{
    const double *mass = rig->segment_mass;
    const double *com = rig->com_frac;
    const double *k = radii->m;
    const Jet3 ankle = jet3_fixed(rig->ankle);
    const Jet3 head_direction = jet3(jet_sin(m->lean), jet_cos(m->lean), jet_fixed(0.0));
    const Jet3 head_end =
        jet3_add(m->shoulder, jet3_times(head_direction, jet_fixed(rig->trunk_length)));
    const Jet3 shoulder = arm_top(rig, m);
    const Jet3 arm[4] = {shoulder, m->elbow, m->wrist, m->grip};
    body[BODY_SHANK] = segment(mass[PLUMB_SEG_shank], m->knee, ankle, com[PLUMB_SEG_shank],
                               k[PLUMB_SEG_shank], rig->shank, clock);
    body[BODY_THIGH] = segment(mass[PLUMB_SEG_thigh], m->hip, m->knee, com[PLUMB_SEG_thigh],
                               k[PLUMB_SEG_thigh], rig->thigh, clock);
    body[BODY_PELVIS] = segment(mass[PLUMB_SEG_pelvis], m->mid_hip, m->lumbar,
                                com[PLUMB_SEG_pelvis], k[PLUMB_SEG_pelvis], rig->pelvis, clock);
    body[BODY_THORAX] = segment(mass[PLUMB_SEG_thorax], m->lumbar, m->shoulder,
                                com[PLUMB_SEG_thorax], k[PLUMB_SEG_thorax], rig->thorax, clock);
    body[BODY_HEAD] = segment(mass[PLUMB_SEG_head], m->shoulder, head_end, com[PLUMB_SEG_head],
                              k[PLUMB_SEG_head], rig->trunk_length, clock);
    const double length[3] = {rig->upper_arm, rig->forearm, rig->hand};
    for (int i = 0; i < 3; i++) {
        const int id = PLUMB_SEG_upper_arm + i;
        body[BODY_UPPER_ARM + i] =
            segment(mass[id], arm[i], arm[i + 1], com[id], k[id], length[i], clock);
    }
    body[BODY_BAR] = point_mass(rig->bar_mass, m->bar, clock);
}

/* Free body: all that a joint carries. The joint's net moment about z makes good weight, inertia
 * and spin: M = Σ [(r_i - r) × m_i (a_i + g up)]_z + Σ spin rates. */
static double moment_about(const Body body[BODY_COUNT], int first, Jet3 joint)
{
    double sum = 0.0;
    for (int i = first; i < BODY_COUNT; i++) {
        const Body *b = &body[i];
        sum += b->mass * ((b->at.x - joint.x.v) * (b->acceleration.y + PLUMB_GRAVITY) -
                          (b->at.y - joint.y.v) * b->acceleration.x) +
               b->spin_rate;
    }
    return sum;
}

/* Foot and floor: the resultant of all weights and inertias passes through the centre of
 * pressure. */
static void ground(const PlumbRig *rig, const Body body[BODY_COUNT], PlumbMotionPoint *point)
{
    const double foot = rig->segment_mass[PLUMB_SEG_foot] * PLUMB_GRAVITY;
    const double foot_x = rig->heel.x + rig->com_frac[PLUMB_SEG_foot] * (rig->toe.x - rig->heel.x);
    const Jet3 origin = jet3_fixed(vec3(0.0, 0.0, 0.0));
    double force = foot;
    for (int i = 0; i < BODY_COUNT; i++) {
        force += body[i].mass * (body[i].acceleration.y + PLUMB_GRAVITY);
    }
    const double moment = moment_about(body, BODY_SHANK, origin) + foot * foot_x;
    point->ground_force_n = force;
    point->pressure_frac = plumb_rig_balance(rig, moment / force);
}

static void energies(const Body body[BODY_COUNT], PlumbMotionPoint *point)
{
    point->energy_j = 0.0;
    point->power_w = 0.0;
    for (int i = 0; i < BODY_COUNT; i++) {
        const Body *b = &body[i];
        point->energy_j +=
            b->mass * (0.5 * vec3_dot(b->velocity, b->velocity) + PLUMB_GRAVITY * b->at.y) +
            b->spin_energy;
        point->power_w +=
            b->mass * (vec3_dot(b->velocity, b->acceleration) + PLUMB_GRAVITY * b->velocity.y) +
            b->spin_power;
    }
}

static void fill_loads(const PlumbRig *rig, const Body body[BODY_COUNT], const PlumbMotion *m,
                       PlumbMotionPoint *point)
{
    double *moment = point->moment_both_n_m;
    moment[PLUMB_JOINT_ankle] = moment_about(body, BODY_SHANK, jet3_fixed(rig->ankle));
    moment[PLUMB_JOINT_knee] = -moment_about(body, BODY_THIGH, m->knee);
    moment[PLUMB_JOINT_hip] = moment_about(body, BODY_PELVIS, m->mid_hip);
    moment[PLUMB_JOINT_back] = moment_about(body, BODY_THORAX, m->lumbar);
    moment[PLUMB_JOINT_shoulder] = -moment_about(body, BODY_UPPER_ARM, m->shoulder);
    point->bar_speed_m_s = body[BODY_BAR].velocity.y;
    point->bar_acceleration_m_s2 = body[BODY_BAR].acceleration.y;
    ground(rig, body, point);
    energies(body, point);
}

/* One instant: the pose, its static description, and the loads of its motion. At both ends of the
 * minimum-jerk law velocity and acceleration vanish. */
static void instant(PlumbWay *way, const Radii *radii, double s, double rep_time_s, PlumbStep *step,
                    PlumbMotionPoint *point)
{
    double share;
    double rate;
    double acceleration;
    plumb_minimum_jerk(s, &share, &rate, &acceleration);
    const bool pull = way->c.rig.lift == PLUMB_DEADLIFT;
    const double sign = pull ? 1.0 : -1.0; /* a squat's way up runs from the hole, u = 1, to 0 */
    const Clock clock = {sign * rate / rep_time_s, sign * acceleration / (rep_time_s * rep_time_s)};
    const bool rest = s <= 0.0 || s >= 1.0;
    point->t_s = s * rep_time_s;
    point->u = pull ? share : 1.0 - share;
    PlumbMotion motion;
    bool held = plumb_way_step(way, point->u, step);
    if (rest || !held) {
        plumb_way_still(way, step, &motion);
    } else if (!plumb_way_motion(way, step, &motion)) {
        plumb_way_still(way, step, &motion);
        held = false;
    }
    point->held = held;
    plumb_case_describe(&way->c, &way->c.rig, &step->state, step->bend, &point->position);
    Body body[BODY_COUNT];
    list_bodies(&way->c.rig, radii, &motion, clock, body);
    fill_loads(&way->c.rig, body, &motion, point);
}

static void collect_facts(const PlumbMotionPoint *point, int count, double rep_time_s,
                          PlumbMotionFacts *facts)
{
    const PlumbMotionFacts none = {.held = true, .rep_time_s = rep_time_s};
    *facts = none;
    const double rise =
        point[count - 1].position.point[PLUMB_PT_bar].y - point[0].position.point[PLUMB_PT_bar].y;
    facts->mean_bar_speed_m_s = rise / rep_time_s;
    for (int i = 0; i < count; i++) {
        const PlumbMotionPoint *p = &point[i];
        facts->held = facts->held && p->held;
        facts->peak_bar_speed_m_s = fmax(facts->peak_bar_speed_m_s, p->bar_speed_m_s);
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
    PlumbStep step;
    PlumbWay way = plumb_way_begin(lifter, answer, &step);
    const Radii radii = radii_of(&lifter->body, &way.c.rig);
    if (way.c.rig.lift == PLUMB_SQUAT) {
        step.state.v[PLUMB_X] = answer->start.pose.hip_x_m;
        step.state.v[PLUMB_Y] = answer->start.pose.hip_height_m;
        step.state.v[PLUMB_LEAN] = answer->start.pose.thorax_lean_rad;
    }
    double zero = 0.0;
    for (int i = 0; i < count; i++) {
        instant(&way, &radii, (double)i / (count - 1), rep_time_s, &step, &point[i]);
        zero = i == 0 ? point[0].energy_j : zero;
        point[i].energy_j -= zero;
    }
    collect_facts(point, count, rep_time_s, facts);
    return PLUMB_OK;
}
