/* SPDX-License-Identifier: MIT */
/* The press of solve/press_place.c and model/arm.c with the derivative of every figure. */
#include "study/press_jets.h"

/* Below this a moment (N m) has no sign but the one its slope gives it. */
static const double no_moment = 1e-9;
/* As in arm.c: a radius that is rounding. */
static const double rounding = 4e-15;
/* How near the elbow's share is to the end of its circle where it counts as there. */
static const double just = 1e-12;

/* Inputs are linear in what a factor moves, so that a whole step gives their slope. */
static Jet input(double at, double moved)
{
    return jet(at, moved - at, 0.0);
}

PlumbPressInputs plumb_press_inputs(const PlumbLifter *lifter, const PlumbSetup *setup,
                                    const PlumbLifter *moved, const PlumbSetup *moved_setup,
                                    double direction)
{
    const PlumbBody *const b = &lifter->body;
    const PlumbBody *const m = &moved->body;
    const Jet forearm = input(b->forearm_m, m->forearm_m);
    const Jet load = input(setup->load_kg, moved_setup->load_kg);
    const Jet depth = jet_sub(input(b->chest_depth_m, m->chest_depth_m),
                              input(b->shoulder_half_depth_m, m->shoulder_half_depth_m));
    PlumbPressInputs in = {
        .lifter = lifter,
        .elbows_given = setup->elbows_given,
        .direction = direction,
        .over = input(setup->lockout_over_m, moved_setup->lockout_over_m),
        .exponent = input(setup->path_exponent, moved_setup->path_exponent),
        .elbows = input(setup->elbows_rad, moved_setup->elbows_rad),
        .flare =
            input(plumb_press_flare_rad(lifter, setup), plumb_press_flare_rad(moved, moved_setup)),
        .upper = input(b->upper_arm_m, m->upper_arm_m),
        .lower = jet_add(forearm, input(b->wrist_to_grip_palm_m, m->wrist_to_grip_palm_m)),
        .rule = jet_add(input(b->shoulder_top_above_joint_m, m->shoulder_top_above_joint_m),
                        input(b->elbow_half_thickness_m, m->elbow_half_thickness_m)),
        .mass = input(b->mass_kg, m->mass_kg),
        .half_n = jet_scale(load, 0.5 * PLUMB_GRAVITY),
    };
    in.hand_z =
        jet_sub(jet_add(jet_scale(input(setup->grip_m, moved_setup->grip_m), 0.5),
                        input(b->forefinger_to_grip_centre_m, m->forefinger_to_grip_centre_m)),
                jet_scale(input(b->shoulder_joint_spacing_m, m->shoulder_joint_spacing_m), 0.5));
    in.touch_y = jet_add(jet_add(depth, input(setup->arch_m, moved_setup->arch_m)),
                         jet_fixed(0.5 * lifter->equipment.shaft_diameter_m));
    in.wrist = jet_div(forearm, in.lower);
    in.push_n = jet_mul(in.half_n, input(setup->hands_push_frac, moved_setup->hands_push_frac));
    const Jet reach = jet_add(in.upper, in.lower);
    in.top = jet_sqrt(jet_sub(jet_mul(reach, reach),
                              jet_add(jet_mul(in.over, in.over), jet_mul(in.hand_z, in.hand_z))));
    return in;
}

/* One arm on its way: what plumb_arm has, as far as it is asked for here. */
typedef struct Arm {
    Jet3 grip;
    Jet distance;
    Jet along;
    Jet radius;
    ArmFrame frame;
} Arm;

static Arm arm_at(const PlumbPressInputs *in, Jet touch, Jet rise)
{
    const Jet left = jet_sub(jet_fixed(1.0), rise);
    const Jet share = left.v > 0.0 ? jet_power(left, in->exponent) : jet_fixed(0.0);
    Arm arm;
    arm.grip = jet3(jet_add(in->over, jet_mul(jet_sub(touch, in->over), share)),
                    jet_add(in->touch_y, jet_mul(rise, jet_sub(in->top, in->touch_y))), in->hand_z);
    const Jet square = jet3_dot(arm.grip, arm.grip);
    arm.distance = jet_sqrt(square);
    const Jet upper = jet_mul(in->upper, in->upper);
    const Jet sum = jet_add(jet_sub(upper, jet_mul(in->lower, in->lower)), square);
    arm.along = jet_scale(jet_div(sum, arm.distance), 0.5);
    const Jet bend = jet_sub(upper, jet_mul(arm.along, arm.along));
    arm.radius = bend.v > rounding * upper.v ? jet_sqrt(bend) : jet_fixed(0.0);
    arm.frame = arm_frame(arm.grip, arm.distance);
    return arm;
}

/* Share of its circle at which the elbow meets x. Beyond the circle's end it stays at the end; just
 * there the slope on the near side has no bound, which NaN tells. *kink gets why. */
static Jet share_of(const PlumbPressInputs *in, const Arm *arm, Jet x, bool at_reach,
                    unsigned *kink)
{
    if (arm->radius.v <= 0.0) {
        return jet_fixed(0.0);
    }
    const Jet wish = jet_sub(x, jet_mul(arm->along, arm->frame.n.x));
    const Jet share = jet_div(wish, jet_mul(arm->radius, arm->frame.level));
    const double over = fabs(share.v) - 1.0;
    const Jet end = jet_fixed(copysign(1.0, share.v));
    if (at_reach || over > just) {
        return end;
    }
    if (over < -just) {
        return share;
    }
    const double outwards = copysign(1.0, share.v) * share.d * in->direction;
    *kink |= PLUMB_KINK_ELBOWS_REACH;
    return outwards >= 0.0 ? end : jet(end.v, (double)NAN, (double)NAN);
}

static Jet3 side_of(const Arm *arm, Jet cosine, Jet sine)
{
    return jet3_add(jet3_times(arm->frame.e1, cosine), jet3_times(arm->frame.e2, sine));
}

static Jet3 elbow_of(const Arm *arm, Jet3 side)
{
    return jet3_add(jet3_times(arm->frame.n, arm->along), jet3_times(side, arm->radius));
}

static Jet abduction_of(Jet3 upper)
{
    return jet_atan2(jet_sqrt(jet_add(jet_mul(upper.y, upper.y), jet_mul(upper.z, upper.z))),
                     upper.x);
}

Jet plumb_press_abduction_jet(const PlumbPressInputs *in, Jet touch, Jet swivel, Jet rise)
{
    const Arm arm = arm_at(in, touch, rise);
    Jet cosine;
    Jet sine;
    if (in->elbows_given) {
        const Jet angle = jet_mul(swivel, jet_sub(jet_fixed(1.0), rise));
        cosine = jet_cos(angle);
        sine = jet_sin(angle);
    } else {
        unsigned kink = 0;
        arm_swivel(&arm.frame, share_of(in, &arm, arm.grip.x, false, &kink), &cosine, &sine);
    }
    return abduction_of(elbow_of(&arm, side_of(&arm, cosine, sine)));
}

/* plumb_arm_external_rotation with the trunk along x and its front y: the front swung with the
 * upper arm u is (-u_y, u_x + u_z² / (1 + u_x), -u_y u_z / (1 + u_x)). */
static Jet rotation_of(Jet3 upper, Jet3 fore)
{
    const Jet3 u = jet3_times(upper, jet_inverse(jet3_length(upper)));
    const Jet3 f = jet3_times(fore, jet_inverse(jet3_length(fore)));
    const Jet lift = jet_div(u.z, jet_add(jet_fixed(1.0), u.x));
    const Jet3 neutral = jet3(jet_scale(u.y, -1.0), jet_add(u.x, jet_mul(u.z, lift)),
                              jet_scale(jet_mul(u.y, lift), -1.0));
    const Jet3 across = jet3_sub(f, jet3_times(u, jet3_dot(u, f)));
    return jet_atan2(jet3_dot(jet3_cross(neutral, across), u), jet3_dot(neutral, across));
}

static void put_angles(Jet3 elbow, Jet3 fore, Jet *of)
{
    of[PLUMB_PRESS_OUT_upper_arm] = abduction_of(elbow);
    of[PLUMB_PRESS_OUT_elbow_flexion] =
        jet_atan2(jet3_length(jet3_cross(elbow, fore)), jet3_dot(elbow, fore));
    of[PLUMB_PRESS_OUT_forearm_front] = jet_atan2(fore.z, fore.y);
    of[PLUMB_PRESS_OUT_shoulder_angle] = jet_atan2(elbow.y, elbow.x);
    of[PLUMB_PRESS_OUT_shoulder_rotation] = rotation_of(elbow, fore);
}

/* The free bodies of arm_loads.c: weights and the bar's force at places seen from a joint. */
static Jet3 moment_of(const PlumbPressInputs *in, Jet3 grip, const Jet3 *com, int count)
{
    static const PlumbSegmentId segment[3] = {PLUMB_SEG_hand, PLUMB_SEG_forearm,
                                              PLUMB_SEG_upper_arm};
    const Jet3 force =
        jet3(jet_fixed(0.0), jet_scale(in->half_n, -1.0), jet_scale(in->push_n, -1.0));
    Jet3 sum = jet3_cross(grip, force);
    for (int i = 0; i < count; i++) {
        const double frac = in->lifter->body.segment[segment[i]].mass_frac;
        const Jet weight = jet_scale(in->mass, -frac * PLUMB_GRAVITY);
        sum = jet3_add(sum, jet3_cross(com[i], jet3(jet_fixed(0.0), weight, jet_fixed(0.0))));
    }
    return sum;
}

static void put_moments(const PlumbPressInputs *in, const Arm *arm, Jet3 elbow, Jet3 axis, Jet *of)
{
    const PlumbSegment *const segment = in->lifter->body.segment;
    const Jet3 fore = jet3_sub(arm->grip, elbow);
    const Jet3 wrist = jet3_times(fore, in->wrist);
    const Jet3 com[2] = {
        jet3_between(wrist, fore, segment[PLUMB_SEG_hand].com_frac),
        jet3_times(wrist, jet_fixed(segment[PLUMB_SEG_forearm].com_frac)),
    };
    const Jet3 whole[3] = {
        jet3_add(elbow, com[0]),
        jet3_add(elbow, com[1]),
        jet3_times(elbow, jet_fixed(segment[PLUMB_SEG_upper_arm].com_frac)),
    };
    const Jet3 shoulder = moment_of(in, arm->grip, whole, 3);
    of[PLUMB_PRESS_OUT_adduction_moment] = shoulder.x;
    of[PLUMB_PRESS_OUT_flexion_moment] = jet_scale(shoulder.z, -1.0);
    of[PLUMB_PRESS_OUT_elbow_moment] = jet3_dot(moment_of(in, fore, com, 2), axis);
    of[PLUMB_PRESS_OUT_elbow_arm] = jet_sub(jet_mul(fore.z, axis.x), jet_mul(fore.x, axis.z));
}

/* |moment| over what the joint can supply at its angle; where the moment is zero the side to which
 * the factor drives it counts. */
static Jet effort_of(const PlumbPressInputs *in, int joint, Jet moment, Jet angle, unsigned *kink)
{
    const bool none = fabs(moment.v) <= no_moment;
    const double sign = copysign(1.0, none ? moment.d * in->direction : moment.v);
    const PlumbArmCurve curve = plumb_arm_curve(in->lifter, joint, sign);
    const Jet off = jet_scale(jet_sub(angle, jet_fixed(curve.centre_rad)), 1.0 / curve.width_rad);
    const Jet peak = jet_scale(in->mass, curve.peak_n_m / in->mass.v);
    const Jet capacity = jet_mul(peak, jet_exp(jet_scale(jet_mul(off, off), -0.5)));
    *kink |= none && moment.d != 0.0 ? (unsigned)PLUMB_KINK_MOMENT_SIGN : 0U;
    return jet_div(jet_scale(moment, sign), capacity);
}

static void put_efforts(const PlumbPressInputs *in, Jet3 elbow, PlumbPressTouch *out)
{
    const Jet angle[PLUMB_ARM_JOINTS] = {
        jet_atan2(jet_scale(elbow.x, -1.0), elbow.z),
        out->of[PLUMB_PRESS_OUT_shoulder_angle],
        out->of[PLUMB_PRESS_OUT_elbow_flexion],
    };
    Jet sum = jet_fixed(0.0);
    for (int i = 0; i < PLUMB_ARM_JOINTS; i++) {
        const Jet effort =
            effort_of(in, i, out->of[PLUMB_PRESS_OUT_adduction_moment + i], angle[i], &out->kink);
        out->of[PLUMB_PRESS_OUT_adduction_effort + i] = effort;
        sum = jet_add(sum, jet_mul(effort, jet_mul(effort, effort)));
    }
    out->of[PLUMB_PRESS_OUT_summed_effort] = sum;
}

/* As plumb_arm_swivel_upright: cos σ = (d - a) n_z / (r e1_z), E_z = G_z. */
static Jet upright_of(const Arm *arm)
{
    const Jet share = jet_div(jet_mul(jet_sub(arm->distance, arm->along), arm->frame.n.z),
                              jet_mul(arm->radius, arm->frame.e1.z));
    if (!(fabs(share.v) < 1.0)) {
        return jet_fixed((double)NAN);
    }
    const Jet sine = jet_sqrt(jet_sub(jet_fixed(1.0), jet_mul(share, share)));
    return abduction_of(elbow_of(arm, side_of(arm, share, sine)));
}

static void put_margins(const PlumbPressInputs *in, const Arm *arm, Jet wish, PlumbPressTouch *out)
{
    const double *const limit = in->lifter->limit_rad;
    const Jet bent = jet_sub(in->upper, in->lower);
    const bool too_long = arm->distance.v < 0.5 * (in->upper.v + in->lower.v);
    const Jet shortest = jet_scale(bent, copysign(1.0, bent.v));
    const Jet reach = jet_mul(arm->radius, arm->frame.level);
    Jet *const margin = out->margin;
    margin[PLUMB_PRESS_MARGIN_reach] = too_long
                                           ? jet_sub(arm->distance, shortest)
                                           : jet_sub(jet_add(in->upper, in->lower), arm->distance);
    margin[PLUMB_PRESS_MARGIN_elbows] = jet_sub(reach, jet_scale(wish, copysign(1.0, wish.v)));
    margin[PLUMB_PRESS_MARGIN_flexion] = jet_sub(jet_fixed(limit[PLUMB_LIMIT_shoulder_flexion]),
                                                 out->of[PLUMB_PRESS_OUT_shoulder_angle]);
    margin[PLUMB_PRESS_MARGIN_rotation] =
        jet_sub(jet_fixed(limit[PLUMB_LIMIT_shoulder_external_rotation]),
                out->of[PLUMB_PRESS_OUT_shoulder_rotation]);
    margin[PLUMB_PRESS_MARGIN_elbow_flexion] = jet_sub(jet_fixed(limit[PLUMB_LIMIT_elbow_flexion]),
                                                       out->of[PLUMB_PRESS_OUT_elbow_flexion]);
}

void plumb_press_touch_jets(const PlumbPressInputs *in, Jet touch, bool at_reach,
                            PlumbPressTouch *out)
{
    *out = (PlumbPressTouch){.kink = 0};
    const Arm arm = arm_at(in, touch, jet_fixed(0.0));
    const Jet x = in->elbows_given ? jet_mul(in->upper, jet_cos(in->elbows)) : touch;
    Jet cosine;
    Jet sine;
    arm_swivel(&arm.frame, share_of(in, &arm, x, at_reach, &out->kink), &cosine, &sine);
    const Jet3 side = side_of(&arm, cosine, sine);
    const Jet3 elbow = elbow_of(&arm, side);
    const Jet3 fore = jet3_sub(arm.grip, elbow);
    Jet *const of = out->of;
    out->swivel = jet_atan2(sine, cosine);
    of[PLUMB_PRESS_OUT_touch] = touch;
    of[PLUMB_PRESS_OUT_side_arm] = arm.grip.x;
    of[PLUMB_PRESS_OUT_front_arm] = arm.grip.z;
    of[PLUMB_PRESS_OUT_elbow_off_hand] = jet_sub(elbow.z, arm.grip.z);
    of[PLUMB_PRESS_OUT_elbow_below_rule] = jet_sub(in->rule, elbow.y);
    of[PLUMB_PRESS_OUT_elbows_upright] = upright_of(&arm);
    put_angles(elbow, fore, of);
    put_moments(in, &arm, elbow, jet3_cross(side, arm.frame.n), of);
    put_efforts(in, elbow, out);
    put_margins(in, &arm, jet_sub(x, jet_mul(arm.along, arm.frame.n.x)), out);
}
