/* SPDX-License-Identifier: MIT */
/* The squat's rows of tests/data/published.csv. */
#include "published/poses.h"
#include "published/published.h"

#include "base/roots.h"
#include "base/vec.h"
#include "sample.h"

static const double mid_foot = 0.5;

static double to_degrees(double rad)
{
    return rad / degrees(1.0);
}

static PlumbSetup back_squat(const PlumbLifter *lifter, PlumbSeat seat, double load_share)
{
    PlumbSetup setup = plumb_setup_default(PLUMB_SQUAT);
    plumb_setup_seat(&setup, seat);
    setup.load_kg = load_share * lifter->body.mass_kg;
    setup.balance_frac = mid_foot;
    return setup;
}

/* The leg in one vertical plane, as side-view studies see it. */
static void flatten_legs(const PlumbLifter *lifter, PlumbSetup *setup)
{
    setup->stance_m = lifter->body.hip_joint_spacing_m;
    setup->toes_rad = 0.0;
}

static const double barefoot_shank_deg = 59.47; /* to horizontal, Sato et al. 2013 */
static const double barefoot_thigh_deg = 20.94;
static const double shod_shank_deg = 62.75;
static const double shod_thigh_deg = 24.42;

static void angle_closure(Span *span, double less)
{
    const PlumbLifter lifter = published_lifter(PLUMB_MALE, 1.75);
    PlumbSetup setup = back_squat(&lifter, PLUMB_HIGH_BAR, 0.8);
    flatten_legs(&lifter, &setup);
    PlumbPosition position;
    const bool held = legs_given(&lifter, &setup, degrees(90.0 - barefoot_shank_deg),
                                 degrees(barefoot_thigh_deg), &position);
    const double included = 180.0 - to_degrees(position.angle_rad[PLUMB_ANG_knee_flexion]);
    span_add(span, held ? included - less : (double)NAN);
}

static void angle_closure_barefoot(Span *span)
{
    angle_closure(span, 0.0);
}

static void angle_closure_identity(Span *span)
{
    angle_closure(span, barefoot_shank_deg + barefoot_thigh_deg);
}

/* Back angle of the lifter with these legs, degrees. */
static double trunk(PlumbSex sex, double stature_m, double load_share, double shank_deg,
                    double thigh_deg)
{
    const PlumbLifter lifter = published_lifter(sex, stature_m);
    const PlumbSetup setup = back_squat(&lifter, PLUMB_HIGH_BAR, load_share);
    PlumbPosition position;
    return legs_given(&lifter, &setup, degrees(90.0 - shank_deg), degrees(thigh_deg), &position)
               ? to_degrees(position.angle_rad[PLUMB_ANG_back])
               : (double)NAN;
}

typedef enum TrunkRow { TRUNK_BAREFOOT, TRUNK_SHOD, TRUNK_CHANGE } TrunkRow;

static void trunk_rows(Span *span, TrunkRow which)
{
    for (int i = 0; i < 18; i++) {
        const PlumbSex sex = i / 9 == 0 ? PLUMB_MALE : PLUMB_FEMALE;
        const double stature = 1.70 + 0.05 * (i % 3);
        const double load = 0.6 + 0.2 * (i / 3 % 3);
        const double bare = trunk(sex, stature, load, barefoot_shank_deg, barefoot_thigh_deg);
        const double shod = trunk(sex, stature, load, shod_shank_deg, shod_thigh_deg);
        span_add(span, which == TRUNK_BAREFOOT ? bare : which == TRUNK_SHOD ? shod : shod - bare);
    }
}

static void trunk_given_legs_barefoot(Span *span)
{
    trunk_rows(span, TRUNK_BAREFOOT);
}

static void trunk_given_legs_shod(Span *span)
{
    trunk_rows(span, TRUNK_SHOD);
}

static void trunk_shod_against_barefoot(Span *span)
{
    trunk_rows(span, TRUNK_CHANGE);
}

/* Angle between the thigh and the line from hip to shoulder, seen from the side, 0 straight. */
static void restricted_squat_hip_flexion(Span *span)
{
    const PlumbLifter lifter = published_lifter(PLUMB_MALE, 1.75);
    const PlumbSetup setup = back_squat(&lifter, PLUMB_LOW_BAR, 0.5);
    const PlumbConstraint bend = {PLUMB_CON_knee_bend, degrees(86.0)};
    PlumbPosition p;
    const bool held = knee_at_toes(&lifter, &setup, bend, &p);
    const double flexion =
        180.0 - to_degrees(p.angle_rad[PLUMB_ANG_back]) - to_degrees(p.angle_rad[PLUMB_ANG_thigh]);
    span_add(span, held ? flexion : (double)NAN);
}

static void heel_lift_moves_knee(Span *span)
{
    const double pitch_deg = 3.5;
    const PlumbLifter lifter = published_lifter(PLUMB_MALE, 1.75);
    PlumbSetup flat = back_squat(&lifter, PLUMB_HIGH_BAR, 0.6);
    flatten_legs(&lifter, &flat);
    PlumbSetup lifted = flat;
    lifted.heel_lift_m = lifter.body.ball_of_foot_m * tan(degrees(pitch_deg));
    PlumbPosition a;
    PlumbPosition b;
    const bool held = legs_given(&lifter, &flat, degrees(90.0 - barefoot_shank_deg),
                                 degrees(barefoot_thigh_deg), &a) &&
                      legs_given(&lifter, &lifted, degrees(90.0 - barefoot_shank_deg + pitch_deg),
                                 degrees(barefoot_thigh_deg), &b);
    const double ankle_change =
        a.angle_rad[PLUMB_ANG_ankle_dorsiflexion] - b.angle_rad[PLUMB_ANG_ankle_dorsiflexion];
    const bool same_ankle = held && fabs(ankle_change) < 1e-9;
    span_add(span, same_ankle ? b.point[PLUMB_PT_knee].x - a.point[PLUMB_PT_knee].x : (double)NAN);
    span_add(span, same_ankle ? b.point[PLUMB_PT_hip].x - a.point[PLUMB_PT_hip].x : (double)NAN);
}

/* The ankle is held at its height by a foot that is as much lower as the heel is higher. */
static void heel_lift_idle(Span *span)
{
    const PlumbLifter flat = published_lifter(PLUMB_MALE, 1.75);
    PlumbSetup setup = back_squat(&flat, PLUMB_HIGH_BAR, 1.0);
    setup.lead = PLUMB_LEAD_SHIN_ANGLE;
    setup.shin_angle_rad = degrees(25.0);
    PlumbAnswer before;
    plumb_answer_quick(&flat, &setup, &before);
    for (int i = 1; i <= 8; i++) {
        setup.heel_lift_m = 0.005 * i;
        PlumbLifter lifter = flat;
        const double share = flat.body.heel_to_ankle_m / flat.body.ball_of_foot_m;
        lifter.body.ankle_height_m -= setup.heel_lift_m * (1.0 - share);
        PlumbAnswer after;
        plumb_answer_quick(&lifter, &setup, &after);
        const bool held = before.outcome == PLUMB_HELD && after.outcome == PLUMB_HELD &&
                          fabs(after.start.point[PLUMB_PT_ankle].y -
                               before.start.point[PLUMB_PT_ankle].y) < 1e-12;
        span_add(span, held ? to_degrees(after.start.angle_rad[PLUMB_ANG_back] -
                                         before.start.angle_rad[PLUMB_ANG_back])
                            : (double)NAN);
    }
}

/* From positions alone: what lies above the hip weighs W_up, the thighs W_thigh. */
static void hip_plus_knee(Span *span)
{
    Random random = random_begin(0x5eedu);
    for (int i = 0; i < 400; i++) {
        const PlumbLifter lifter = random_lifter(&random);
        const PlumbSetup setup = random_setup(&random, &lifter, PLUMB_SQUAT);
        const PlumbPosition p = random_position(&random, &lifter, &setup);
        const PlumbSegment *segment = lifter.body.segment;
        double below = 0.0;
        for (int k = PLUMB_SEG_foot; k <= PLUMB_SEG_thigh; k++) {
            below += 2.0 * segment[k].mass_frac;
        }
        const double up = PLUMB_GRAVITY * ((1.0 - below) * lifter.body.mass_kg + setup.load_kg);
        const double thigh =
            PLUMB_GRAVITY * 2.0 * segment[PLUMB_SEG_thigh].mass_frac * lifter.body.mass_kg;
        const double hip_x = p.point[PLUMB_PT_hip].x;
        const double knee_x = p.point[PLUMB_PT_knee].x;
        const double thigh_x = hip_x + segment[PLUMB_SEG_thigh].com_frac * (knee_x - hip_x);
        span_add(span, p.moment_both_n_m[PLUMB_JOINT_hip] + p.moment_both_n_m[PLUMB_JOINT_knee] -
                           up * (knee_x - hip_x) - thigh * (knee_x - thigh_x));
    }
}

static double hip_to_knee(const PlumbPosition *p)
{
    return p->moment_both_n_m[PLUMB_JOINT_hip] / p->moment_both_n_m[PLUMB_JOINT_knee];
}

static void hip_knee_ratio(Span *span)
{
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        const PlumbLifter lifter = published_lifter((PlumbSex)sex, 1.75);
        const PlumbSetup setup = back_squat(&lifter, PLUMB_HIGH_BAR, 1.0);
        PlumbPosition p;
        const bool held = legs_given(&lifter, &setup, degrees(33.0), 0.0, &p);
        span_add(span, held ? hip_to_knee(&p) : (double)NAN);
    }
}

/* Three figures of two squats that are compared. */
typedef struct Change {
    double knee_n_m;
    double hip_n_m;
    double back_deg;
    double ratio;
} Change;

static Change change_between(const PlumbPosition *from, const PlumbPosition *to, bool held)
{
    const double none = (double)NAN;
    const Change missing = {none, none, none, none};
    const Change change = {
        to->moment_both_n_m[PLUMB_JOINT_knee] - from->moment_both_n_m[PLUMB_JOINT_knee],
        to->moment_both_n_m[PLUMB_JOINT_hip] - from->moment_both_n_m[PLUMB_JOINT_hip],
        to_degrees(to->angle_rad[PLUMB_ANG_back] - from->angle_rad[PLUMB_ANG_back]),
        hip_to_knee(to) - hip_to_knee(from),
    };
    return held ? change : missing;
}

static Change restriction(double stature_m)
{
    const PlumbLifter lifter = published_lifter(PLUMB_MALE, stature_m);
    const PlumbSetup setup = back_squat(&lifter, PLUMB_HIGH_BAR, 1.0);
    PlumbAnswer open;
    plumb_answer_solve(&lifter, &setup, &open);
    const PlumbConstraint depth = {PLUMB_CON_depth, setup.depth_m};
    PlumbPosition stopped;
    const bool held = knee_at_toes(&lifter, &setup, depth, &stopped) && open.outcome == PLUMB_HELD;
    return change_between(&open.start, &stopped, held);
}

static const double statures_m[3] = {1.70, 1.75, 1.80};

static void restricted_knee_moment(Span *span)
{
    for (int i = 0; i < 3; i++) {
        span_add(span, restriction(statures_m[i]).knee_n_m);
    }
}

static void restricted_hip_moment(Span *span)
{
    for (int i = 0; i < 3; i++) {
        span_add(span, restriction(statures_m[i]).hip_n_m);
    }
}

static void restricted_back(Span *span)
{
    for (int i = 0; i < 3; i++) {
        span_add(span, restriction(statures_m[i]).back_deg);
    }
}

static Change low_bar(double stature_m, PlumbLead lead)
{
    const PlumbLifter lifter = published_lifter(PLUMB_MALE, stature_m);
    PlumbAnswer answer[2];
    for (int i = 0; i < 2; i++) {
        PlumbSetup setup = back_squat(&lifter, i == 0 ? PLUMB_HIGH_BAR : PLUMB_LOW_BAR, 1.0);
        setup.lead = lead;
        setup.shin_angle_rad = degrees(30.0);
        plumb_answer_solve(&lifter, &setup, &answer[i]);
    }
    const bool held = answer[0].outcome == PLUMB_HELD && answer[1].outcome == PLUMB_HELD;
    return change_between(&answer[0].start, &answer[1].start, held);
}

static void low_bar_back(Span *span)
{
    for (int i = 0; i < 3; i++) {
        span_add(span, low_bar(statures_m[i], PLUMB_LEAD_AUTO).back_deg);
    }
}

static void low_bar_ratio(Span *span)
{
    for (int i = 0; i < 3; i++) {
        span_add(span, low_bar(statures_m[i], PLUMB_LEAD_AUTO).ratio);
    }
}

static void low_bar_legs_held(Span *span)
{
    for (int i = 0; i < 3; i++) {
        span_add(span, low_bar(statures_m[i], PLUMB_LEAD_SHIN_ANGLE).back_deg);
    }
}

/* The depth at which auto bends the knee by a right angle. */
typedef struct RightAngle {
    const PlumbLifter *lifter;
    PlumbSetup setup;
    PlumbAnswer answer;
} RightAngle;

static double knee_from_right_angle(double depth_m, void *context)
{
    RightAngle *at = context;
    at->setup.depth_m = depth_m;
    plumb_answer_solve(at->lifter, &at->setup, &at->answer);
    return at->answer.outcome == PLUMB_NO_POSE
               ? (double)NAN
               : at->answer.start.angle_rad[PLUMB_ANG_knee_flexion] - degrees(90.0);
}

static double shin_at_right_angle(const PlumbLifter *lifter, double stance_m, double toes_rad)
{
    RightAngle at = {.lifter = lifter, .setup = back_squat(lifter, PLUMB_HIGH_BAR, 1.0)};
    at.setup.stance_m = stance_m;
    at.setup.toes_rad = toes_rad;
    const double low = -0.30;
    const double high = 0.0;
    const double at_low = knee_from_right_angle(low, &at);
    const double at_high = knee_from_right_angle(high, &at);
    if (!(at_low * at_high < 0.0)) {
        return (double)NAN;
    }
    const double root =
        plumb_root_bracketed(knee_from_right_angle, &at, low, high, at_low, at_high, 1e-9);
    const bool held = fabs(knee_from_right_angle(root, &at)) < 1e-4;
    return held ? to_degrees(at.answer.start.angle_rad[PLUMB_ANG_shin]) : (double)NAN;
}

/* Turn-out that goes with a stance among lifters: the line through the two styles of the deadlift
 * (Escamilla et al. 2000), since the squat's study gives none. */
static double toes_of_stance(double stance_m)
{
    PlumbSetup narrow = plumb_setup_default(PLUMB_DEADLIFT);
    PlumbSetup wide = narrow;
    plumb_setup_style(&narrow, PLUMB_CONVENTIONAL);
    plumb_setup_style(&wide, PLUMB_SUMO);
    const double share = (stance_m - narrow.stance_m) / (wide.stance_m - narrow.stance_m);
    return narrow.toes_rad + share * (wide.toes_rad - narrow.toes_rad);
}

static void wide_against_narrow(bool toes_follow, Span *span)
{
    const double between_acromia = 0.2368; /* of stature, men, ANSUR II */
    for (int i = 0; i < 3; i++) {
        const PlumbLifter lifter = published_lifter(PLUMB_MALE, statures_m[i]);
        const double narrow = 1.07 * between_acromia * statures_m[i];
        const double wide = 1.69 * between_acromia * statures_m[i];
        const double held = degrees(20.0);
        span_add(span,
                 shin_at_right_angle(&lifter, narrow, toes_follow ? toes_of_stance(narrow) : held) -
                     shin_at_right_angle(&lifter, wide, toes_follow ? toes_of_stance(wide) : held));
    }
}

static void wide_shank_more_vertical(Span *span)
{
    wide_against_narrow(true, span);
}

static void wide_shank_toes_held(Span *span)
{
    wide_against_narrow(false, span);
}

const PublishedCase published_squat[] = {
    {"angle_closure_barefoot", angle_closure_barefoot},
    {"angle_closure_identity", angle_closure_identity},
    {"trunk_given_legs_barefoot", trunk_given_legs_barefoot},
    {"trunk_given_legs_shod", trunk_given_legs_shod},
    {"trunk_shod_against_barefoot", trunk_shod_against_barefoot},
    {"restricted_squat_hip_flexion", restricted_squat_hip_flexion},
    {"heel_lift_moves_knee", heel_lift_moves_knee},
    {"heel_lift_idle", heel_lift_idle},
    {"hip_plus_knee", hip_plus_knee},
    {"hip_knee_ratio", hip_knee_ratio},
    {"restricted_knee_moment", restricted_knee_moment},
    {"restricted_hip_moment", restricted_hip_moment},
    {"restricted_back", restricted_back},
    {"low_bar_back", low_bar_back},
    {"low_bar_ratio", low_bar_ratio},
    {"low_bar_legs_held", low_bar_legs_held},
    {"wide_shank_more_vertical", wide_shank_more_vertical},
    {"wide_shank_toes_held", wide_shank_toes_held},
};
const size_t published_squat_count = sizeof published_squat / sizeof published_squat[0];
