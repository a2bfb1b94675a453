/* SPDX-License-Identifier: MIT */
/* A bench press in motion: net moments of the arm by Newton and Euler along its path. */
#include <plumbar/press_motion.h>

#include "solve/press_jet.h"

static const char *const mass_texts[PLUMB_PRESS_MASS_COUNT] = {
#define X(name, text) text,
    PLUMB_PRESS_MASS_LIST(X)
#undef X
};

const char *plumb_press_mass_text(PlumbPressMass mass)
{
    return mass_texts[mass];
}

bool plumb_press_carries(PlumbPressJoint joint, PlumbPressMass mass)
{
    return joint != PLUMB_PRESS_JOINT_elbow_extension || mass != PLUMB_PRESS_MASS_upper_arm;
}

PlumbVec3 plumb_press_joint_at(const PlumbPressPosition *position, PlumbPressJoint joint)
{
    return position->point[joint == PLUMB_PRESS_JOINT_elbow_extension ? PLUMB_PRESS_elbow
                                                                      : PLUMB_PRESS_shoulder];
}

PlumbVec3 plumb_press_elbow_axis(const PlumbPressPosition *position)
{
    const PlumbVec3 *const at = position->point;
    const PlumbVec3 upper = vec3_sub(at[PLUMB_PRESS_elbow], at[PLUMB_PRESS_shoulder]);
    const PlumbVec3 fore = vec3_sub(at[PLUMB_PRESS_grip], at[PLUMB_PRESS_elbow]);
    const PlumbArm arm = plumb_arm(at[PLUMB_PRESS_shoulder], at[PLUMB_PRESS_grip],
                                   vec3_length(upper), vec3_length(fore));
    const PlumbVec3 side = plumb_arm_side(&arm, position->angle_rad[PLUMB_PRESS_ANG_swivel]);
    return vec3_cross(side, arm.n);
}

PlumbVec3 plumb_press_axis(PlumbVec3 elbow_axis, PlumbPressJoint joint)
{
    if (joint == PLUMB_PRESS_JOINT_shoulder_adduction) {
        return vec3(1.0, 0.0, 0.0);
    }
    return joint == PLUMB_PRESS_JOINT_shoulder_flexion ? vec3(0.0, 0.0, -1.0) : elbow_axis;
}

/* Time enters by the chain rule: d/dt = u' d/du, d²/dt² = u'² d²/du² + u'' d/du. */
typedef struct Clock {
    double rate;
    double acceleration;
} Clock;

static PlumbVec3 place_of(Jet3 p)
{
    return vec3(p.x.v, p.y.v, p.z.v);
}

static PlumbVec3 velocity_of(Jet3 p, Clock clock)
{
    return vec3_scale(vec3(p.x.d, p.y.d, p.z.d), clock.rate);
}

static PlumbVec3 acceleration_of(Jet3 p, Clock clock)
{
    return vec3_add(vec3_scale(vec3(p.x.dd, p.y.dd, p.z.dd), clock.rate * clock.rate),
                    vec3_scale(vec3(p.x.d, p.y.d, p.z.d), clock.acceleration));
}

/* Energy of turning and its rate, beside the mass. */
typedef struct Spin {
    double energy;
    double power;
} Spin;

/* A slender segment of constant length, as in dynamics.c, here about all axes: angular momentum
 * m k²/|w|² (w × w'), its rate m k²/|w|² (w × w''). */
static Spin add_segment(PlumbPressMassPoint *mass, Jet3 begin, Jet3 end, double com_frac,
                        double rg_frac, Clock clock)
{
    const Jet3 centre = jet3_between(begin, end, com_frac);
    const Jet3 w = jet3_sub(end, begin);
    const PlumbVec3 v = velocity_of(w, clock);
    const PlumbVec3 a = acceleration_of(w, clock);
    const double factor = mass->mass_kg * rg_frac * rg_frac;
    mass->at_m = place_of(centre);
    mass->velocity_m_s = velocity_of(centre, clock);
    mass->acceleration_m_s2 = acceleration_of(centre, clock);
    mass->spin_rate_n_m = vec3_scale(vec3_cross(place_of(w), a), factor);
    return (Spin){0.5 * factor * vec3_dot(v, v), factor * vec3_dot(v, a)};
}

void plumb_press_masses(const PlumbLifter *lifter, const PlumbSetup *setup,
                        const PlumbPressPosition *position,
                        PlumbPressMassPoint mass[PLUMB_PRESS_MASS_COUNT])
{
    static const PlumbPressPoint end[4] = {PLUMB_PRESS_shoulder, PLUMB_PRESS_elbow,
                                           PLUMB_PRESS_wrist, PLUMB_PRESS_grip};
    const PlumbArmLoad load = plumb_arm_load(lifter, setup->load_kg, setup->hands_push_frac);
    mass[PLUMB_PRESS_MASS_bar] = (PlumbPressMassPoint){.mass_kg = 0.5 * setup->load_kg,
                                                       .at_m = position->point[PLUMB_PRESS_grip],
                                                       .push_n = vec3(0.0, 0.0, load.force_n.z)};
    for (int i = 0; i < 3; i++) {
        mass[PLUMB_PRESS_MASS_upper_arm + i] = (PlumbPressMassPoint){
            .mass_kg = load.mass_kg[i],
            .at_m = vec3_between(position->point[end[i]], position->point[end[i + 1]],
                                 load.com_frac[i])};
    }
}

/* Σ (r - joint) × (m (g + a) and what pushes) + spin, about the joint's axis: what the weights and
 * inertias do to the arm is the opposite of what moves it. */
static double moment_about(const PlumbPressMotionPoint *point, PlumbPressJoint joint)
{
    const PlumbVec3 about = plumb_press_joint_at(&point->position, joint);
    PlumbVec3 sum = vec3(0.0, 0.0, 0.0);
    for (int i = 0; i < PLUMB_PRESS_MASS_COUNT; i++) {
        if (!plumb_press_carries(joint, (PlumbPressMass)i)) {
            continue;
        }
        const PlumbPressMassPoint *const m = &point->mass[i];
        const PlumbVec3 pull =
            vec3_scale(vec3_add(m->acceleration_m_s2, vec3(0.0, PLUMB_GRAVITY, 0.0)), -m->mass_kg);
        const PlumbVec3 force = vec3_add(pull, m->push_n);
        sum = vec3_add(sum, vec3_cross(vec3_sub(m->at_m, about), force));
        sum = vec3_sub(sum, m->spin_rate_n_m);
    }
    return vec3_dot(sum, plumb_press_axis(point->elbow_axis, joint));
}

/* A motion under way. */
typedef struct Run {
    const PlumbLifter *lifter;
    PlumbPress press;
    double rep_time_s;
} Run;

static void move(const Run *run, double u, Clock clock, PlumbPressMotionPoint *point, Spin *turning)
{
    static const PlumbSegmentId segment[3] = {PLUMB_SEG_upper_arm, PLUMB_SEG_forearm,
                                              PLUMB_SEG_hand};
    const PlumbArmJet arm = plumb_press_arm_jet(&run->press, u);
    const Jet3 end[4] = {jet3_fixed(run->press.shoulder), arm.elbow, arm.wrist, arm.grip};
    PlumbPressMassPoint *const bar = &point->mass[PLUMB_PRESS_MASS_bar];
    /* Near straight arms a place of the elbow from its distances has lost digits; this one has not.
     */
    point->position.point[PLUMB_PRESS_elbow] = place_of(arm.elbow);
    point->position.point[PLUMB_PRESS_wrist] = place_of(arm.wrist);
    point->elbow_axis = arm.axis;
    bar->velocity_m_s = velocity_of(arm.grip, clock);
    bar->acceleration_m_s2 = acceleration_of(arm.grip, clock);
    bar->push_n.z *= 1.0 + bar->acceleration_m_s2.y / PLUMB_GRAVITY;
    for (int i = 0; i < 3; i++) {
        const PlumbSegment *const row = &run->lifter->body.segment[segment[i]];
        const Spin spin = add_segment(&point->mass[PLUMB_PRESS_MASS_upper_arm + i], end[i],
                                      end[i + 1], row->com_frac, row->rg_frac, clock);
        turning->energy += spin.energy;
        turning->power += spin.power;
    }
}

/* Both arms and the bar. */
static void energies(const Spin *turning, PlumbPressMotionPoint *point)
{
    double energy = turning->energy;
    double power = turning->power;
    for (int i = 0; i < PLUMB_PRESS_MASS_COUNT; i++) {
        const PlumbPressMassPoint *const m = &point->mass[i];
        const PlumbVec3 v = m->velocity_m_s;
        energy += m->mass_kg * (0.5 * vec3_dot(v, v) + PLUMB_GRAVITY * m->at_m.y);
        power += m->mass_kg * (vec3_dot(v, m->acceleration_m_s2) + PLUMB_GRAVITY * v.y);
    }
    point->energy_j = 2.0 * energy;
    point->power_w = 2.0 * power;
}

/* At both ends of the law velocity and acceleration vanish. */
static void instant(const Run *run, double s, PlumbPressMotionPoint *point)
{
    double u;
    double rate;
    double acceleration;
    plumb_minimum_jerk(s, &u, &rate, &acceleration);
    const double time = run->rep_time_s;
    const double left = 1.0 - u;
    Spin turning = {0.0, 0.0};
    point->t_s = s * time;
    plumb_press_describe(&run->press, 1.0 - left * left, &point->position);
    point->elbow_axis = plumb_press_elbow_axis(&point->position);
    plumb_press_masses(run->lifter, &run->press.setup, &point->position, point->mass);
    if (s > 0.0 && s < 1.0) {
        move(run, u, (Clock){rate / time, acceleration / (time * time)}, point, &turning);
    }
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        point->moment_n_m[i] = moment_about(point, (PlumbPressJoint)i);
    }
    point->bar_speed_m_s = point->mass[PLUMB_PRESS_MASS_bar].velocity_m_s.y;
    point->bar_acceleration_m_s2 = point->mass[PLUMB_PRESS_MASS_bar].acceleration_m_s2.y;
    energies(&turning, point);
}

/* Whether the elbow can stay under the bar from the touch to straight arms. */
static bool stays_under(const PlumbPress *press)
{
    enum { CHECKS = 256 };
    for (int i = 0; i <= CHECKS && !press->setup.elbows_given; i++) {
        const double k = (double)i / CHECKS;
        const PlumbArm arm = plumb_press_arm(press, k);
        double off;
        plumb_press_swivel(press, &arm, k, &off);
        if (off > 1e-9) {
            return false;
        }
    }
    return true;
}

static PlumbStatus begin(const PlumbLifter *lifter, const PlumbPressAnswer *answer,
                         double rep_time_s, int count, Run *run, PlumbError *error)
{
    if (!lifter->body.has_radii) {
        return plumb_error_set(error, PLUMB_UNSUPPORTED, "mass_table",
                               "the classic mass table has no radii of gyration for the trunk; a "
                               "lift in motion needs mass_table=survey");
    }
    if (answer->outcome == PLUMB_NO_POSE) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "set-up",
                               "there is no path without a held touch and lockout");
    }
    if (!(rep_time_s >= 0.2 && rep_time_s <= 60.0)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "rep_time",
                               "a repetition takes 0.2 s to 60 s");
    }
    if (count < 2 || count > PLUMB_PATH_MAX) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "points", "from 2 to 1001 points");
    }
    *run = (Run){lifter, plumb_press_begin(lifter, &answer->setup), rep_time_s};
    if (!stays_under(&run->press)) {
        return plumb_error_set(error, PLUMB_UNSUPPORTED, "elbows",
                               "the elbow cannot stay under the bar up to straight arms, so that "
                               "its path jumps; ask for elbows at an angle, like elbows=60deg, or "
                               "for lockout_over=0cm");
    }
    return PLUMB_OK;
}

static void collect_facts(const PlumbPressMotionPoint *point, int count, double rep_time_s,
                          PlumbPressMotionFacts *facts)
{
    *facts = (PlumbPressMotionFacts){.rep_time_s = rep_time_s};
    const PlumbPressPosition *const last = &point[count - 1].position;
    facts->mean_bar_speed_m_s =
        (last->point[PLUMB_PRESS_bar].y - point[0].position.point[PLUMB_PRESS_bar].y) / rep_time_s;
    for (int i = 0; i < count; i++) {
        const PlumbPressMotionPoint *const p = &point[i];
        facts->peak_bar_speed_m_s = fmax(facts->peak_bar_speed_m_s, p->bar_speed_m_s);
        facts->peak_power_w = fmax(facts->peak_power_w, p->power_w);
        for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
            const double still = p->position.moment_n_m[j];
            if (fabs(p->moment_n_m[j]) > fabs(facts->peak_moment_n_m[j])) {
                facts->peak_moment_n_m[j] = p->moment_n_m[j];
                facts->peak_t_s[j] = p->t_s;
            }
            if (fabs(still) > fabs(facts->peak_static_moment_n_m[j])) {
                facts->peak_static_moment_n_m[j] = still;
            }
        }
    }
}

PlumbStatus plumb_press_motion_solve(const PlumbLifter *lifter, const PlumbPressAnswer *answer,
                                     double rep_time_s, int count, PlumbPressMotionPoint *point,
                                     PlumbPressMotionFacts *facts, PlumbError *error)
{
    Run run = {.lifter = lifter};
    const PlumbStatus status = begin(lifter, answer, rep_time_s, count, &run, error);
    if (status != PLUMB_OK) {
        return status;
    }
    double zero = 0.0;
    for (int i = 0; i < count; i++) {
        instant(&run, (double)i / (count - 1), &point[i]);
        zero = i == 0 ? point[0].energy_j : zero;
        point[i].energy_j -= zero;
    }
    collect_facts(point, count, rep_time_s, facts);
    return PLUMB_OK;
}

PlumbStatus plumb_press_motion_at(const PlumbLifter *lifter, const PlumbPressAnswer *answer,
                                  double rep_time_s, double t_s, PlumbPressMotionPoint *point,
                                  PlumbError *error)
{
    Run run = {.lifter = lifter};
    const PlumbStatus status = begin(lifter, answer, rep_time_s, 2, &run, error);
    if (status != PLUMB_OK) {
        return status;
    }
    if (!(t_s >= 0.0 && t_s <= rep_time_s)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "time",
                               "an instant lies between 0 and the time of the repetition");
    }
    instant(&run, 0.0, point);
    const double zero = point->energy_j;
    instant(&run, t_s / rep_time_s, point);
    point->energy_j -= zero;
    return PLUMB_OK;
}
