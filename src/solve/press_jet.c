/* SPDX-License-Identifier: MIT */
/* The pressing arm along its path with exact derivatives by the share of the way. */
#include "solve/press_jet.h"

#include "model/arm_jet.h"

/* q^e of q = 1 - u. */
static Jet left_power(double q, double e)
{
    return jet(pow(q, e), -e * pow(q, e - 1.0), e * (e - 1.0) * pow(q, e - 2.0));
}

/* From shoulder to grip, of a path x = o + c q^2p, y = Y0 - T q², q = 1 - u. */
typedef struct Reach {
    Jet x; /* grip from the shoulder */
    Jet y;
    double z;
    Jet distance;
    Jet along;
    Jet radius; /* of the elbow's circle, 0 at straight arms */
} Reach;

/* At straight arms the radius vanishes as q: R² - D² = q² B with B = T (Y0 + y) - c q^(2p-2) (x +
 * o), so that r = q sqrt(B (D² - (l1 - l2)²)) / (2 D) has all its derivatives there too. */
static Reach reach_at(const PlumbPress *press, double u)
{
    const double q = 1.0 - u;
    const double p = press->setup.path_exponent;
    const double over = press->setup.lockout_over_m;
    const double curve = press->setup.touch_m - over;
    const double rise = press->lockout_y - press->touch_y;
    const double top = press->lockout_y - press->shoulder.y;
    const double upper = press->upper;
    const double lower = press->lower;
    Reach r;
    r.x = jet_add(jet_fixed(over), jet_scale(left_power(q, 2.0 * p), curve));
    r.y = jet_sub(jet_fixed(top), jet_scale(left_power(q, 2.0), rise));
    r.z = press->hand_z - press->shoulder.z;
    const Jet square = jet_add(jet_add(jet_mul(r.x, r.x), jet_mul(r.y, r.y)), jet_fixed(r.z * r.z));
    r.distance = jet_sqrt(square);
    r.along = jet_scale(
        jet_div(jet_add(jet_fixed(upper * upper - lower * lower), square), r.distance), 0.5);
    const Jet slack = jet_sub(
        jet_scale(jet_add(jet_fixed(top), r.y), rise),
        jet_mul(jet_scale(left_power(q, 2.0 * p - 2.0), curve), jet_add(r.x, jet_fixed(over))));
    const double difference = upper - lower;
    const Jet inner = jet_sub(square, jet_fixed(difference * difference));
    r.radius = jet_scale(
        jet_div(jet_mul(jet(q, -1.0, 0.0), jet_sqrt(jet_mul(slack, inner))), r.distance), 0.5);
    return r;
}

/* cos σ and sin σ: asked for as σ_touch q², or of an elbow under the bar. */
static void swivel_at(const PlumbPress *press, const Reach *r, const ArmFrame *frame, double u,
                      Jet *cosine, Jet *sine)
{
    if (press->setup.elbows_given) {
        const Jet angle = jet_scale(left_power(1.0 - u, 2.0), press->touch_swivel);
        *cosine = jet_cos(angle);
        *sine = jet_sin(angle);
        return;
    }
    const Jet wish = jet_sub(r->x, jet_mul(r->along, frame->n.x));
    arm_swivel(frame, jet_div(wish, jet_mul(r->radius, frame->level)), cosine, sine);
}

PlumbArmJet plumb_press_arm_jet(const PlumbPress *press, double u)
{
    const Reach r = reach_at(press, u);
    const Jet3 way = jet3(r.x, r.y, jet_fixed(r.z));
    const ArmFrame frame = arm_frame(way, r.distance);
    const Jet3 n = frame.n;
    Jet cosine;
    Jet sine;
    swivel_at(press, &r, &frame, u, &cosine, &sine);
    const Jet3 shoulder = jet3_fixed(press->shoulder);
    const Jet3 off = jet3_add(jet3_times(frame.e1, cosine), jet3_times(frame.e2, sine));
    PlumbArmJet arm;
    arm.grip = jet3_add(shoulder, way);
    arm.elbow = jet3_add(shoulder, jet3_add(jet3_times(n, r.along), jet3_times(off, r.radius)));
    arm.axis = vec3_cross(vec3(off.x.v, off.y.v, off.z.v), vec3(n.x.v, n.y.v, n.z.v));
    arm.wrist = jet3_between(arm.elbow, arm.grip, press->load.wrist_frac);
    return arm;
}
