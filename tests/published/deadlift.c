/* SPDX-License-Identifier: MIT */
/* The deadlift's rows of tests/data/published.csv. */
#include "published/published.h"

#include "base/vec.h"

static const double statures_m[3] = {1.65, 1.75, 1.85};

static double to_degrees(double rad)
{
    return rad / degrees(1.0);
}

static PlumbSetup style_setup(PlumbStyle style)
{
    PlumbSetup setup = plumb_setup_default(PLUMB_DEADLIFT);
    plumb_setup_style(&setup, style);
    return setup;
}

static PlumbAnswer pull(PlumbSex sex, double stature_m, PlumbStyle style)
{
    const PlumbLifter lifter = published_lifter(sex, stature_m);
    const PlumbSetup setup = style_setup(style);
    PlumbAnswer answer;
    plumb_answer_solve(&lifter, &setup, &answer);
    return answer;
}

static void sumo_travel(Span *span)
{
    for (int i = 0; i < 6; i++) {
        const PlumbSex sex = i < 3 ? PLUMB_MALE : PLUMB_FEMALE;
        const PlumbAnswer a = pull(sex, statures_m[i % 3], PLUMB_CONVENTIONAL);
        const PlumbAnswer b = pull(sex, statures_m[i % 3], PLUMB_SUMO);
        span_add(span, 100.0 * (a.travel_m - b.travel_m) / a.travel_m);
    }
}

static double start_angle(PlumbSex sex, PlumbStyle style, PlumbAngle angle)
{
    const PlumbAnswer answer = pull(sex, 1.75, style);
    return answer.outcome == PLUMB_NO_POSE ? (double)NAN
                                           : to_degrees(answer.start.angle_rad[angle]);
}

static void sumo_trunk(Span *span)
{
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        span_add(span, start_angle((PlumbSex)sex, PLUMB_SUMO, PLUMB_ANG_back) -
                           start_angle((PlumbSex)sex, PLUMB_CONVENTIONAL, PLUMB_ANG_back));
    }
}

static void start_knee_flexion(Span *span)
{
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        span_add(span, start_angle((PlumbSex)sex, PLUMB_CONVENTIONAL, PLUMB_ANG_knee_flexion));
    }
}

static void start_hip_flexion(Span *span)
{
    for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
        span_add(span, start_angle((PlumbSex)sex, PLUMB_CONVENTIONAL, PLUMB_ANG_hip_flexion));
    }
}

static void largest_arm_is_hip(Span *span)
{
    enum { HEIGHTS = 21 };
    for (int i = 0; i < 6; i++) {
        const PlumbStyle style = i < 3 ? PLUMB_CONVENTIONAL : PLUMB_SUMO;
        const PlumbLifter lifter = published_lifter(PLUMB_MALE, statures_m[i % 3]);
        const PlumbAnswer own = pull(PLUMB_MALE, statures_m[i % 3], style);
        for (int k = 0; k < HEIGHTS; k++) {
            PlumbSetup setup = style_setup(style);
            setup.lead = PLUMB_LEAD_HIP_HEIGHT;
            setup.hip_height_m =
                own.window.low + (own.window.high - own.window.low) * k / (HEIGHTS - 1);
            PlumbAnswer at;
            plumb_answer_quick(&lifter, &setup, &at);
            const double *arm = at.start.bar_arm_m;
            const double other = fmax(fabs(arm[PLUMB_JOINT_ankle]), fabs(arm[PLUMB_JOINT_knee]));
            const bool held = own.window.exists && at.outcome != PLUMB_NO_POSE;
            span_add(span, held ? fabs(arm[PLUMB_JOINT_hip]) - other : (double)NAN);
        }
    }
}

static void travel_share_of_stature(Span *span)
{
    for (int i = 0; i < 6; i++) {
        const PlumbSex sex = i < 3 ? PLUMB_MALE : PLUMB_FEMALE;
        span_add(span,
                 pull(sex, statures_m[i % 3], PLUMB_CONVENTIONAL).travel_m / statures_m[i % 3]);
    }
}

static void platform_identity(Span *span)
{
    const PlumbLifter lifter = published_lifter(PLUMB_MALE, 1.75);
    const PlumbAnswer floor = pull(PLUMB_MALE, 1.75, PLUMB_CONVENTIONAL);
    for (int cm = 1; cm <= 15; cm++) {
        PlumbSetup setup = style_setup(PLUMB_CONVENTIONAL);
        setup.deficit_m = 0.01 * cm;
        PlumbAnswer higher;
        plumb_answer_quick(&lifter, &setup, &higher);
        span_add(span, higher.travel_m - floor.travel_m - setup.deficit_m);
    }
}

static PlumbLifter longer(double stature_m, PlumbLength first, PlumbLength second)
{
    const PlumbLifter mean = published_lifter(PLUMB_MALE, stature_m);
    PlumbBodySpec spec = plumb_body_spec(PLUMB_MALE, stature_m, mean.body.mass_kg);
    spec.measure[first].kind = spec.measure[second].kind = PLUMB_MEASURE_SPREAD;
    spec.measure[first].value = spec.measure[second].value = 1.0;
    PlumbBody body = mean.body;
    const PlumbStatus status = plumb_body_build(&spec, &body, NULL);
    body.thigh_m = status == PLUMB_OK ? body.thigh_m : (double)NAN;
    return plumb_lifter_default(&body);
}

static void longer_arms_travel(Span *span)
{
    const PlumbSetup setup = style_setup(PLUMB_CONVENTIONAL);
    for (int i = 0; i < 3; i++) {
        const PlumbLifter lifter = longer(statures_m[i], PLUMB_LEN_upper_arm, PLUMB_LEN_forearm);
        PlumbAnswer after;
        plumb_answer_quick(&lifter, &setup, &after);
        span_add(span,
                 after.travel_m - pull(PLUMB_MALE, statures_m[i], PLUMB_CONVENTIONAL).travel_m);
    }
}

static void longer_thighs_back(Span *span)
{
    const PlumbSetup setup = style_setup(PLUMB_CONVENTIONAL);
    for (int i = 0; i < 3; i++) {
        const PlumbLifter lifter = longer(statures_m[i], PLUMB_LEN_thigh, PLUMB_LEN_thigh);
        const PlumbAnswer before = pull(PLUMB_MALE, statures_m[i], PLUMB_CONVENTIONAL);
        PlumbAnswer after;
        plumb_answer_quick(&lifter, &setup, &after);
        const bool held = after.outcome != PLUMB_NO_POSE && before.outcome != PLUMB_NO_POSE;
        span_add(span, held ? to_degrees(after.start.angle_rad[PLUMB_ANG_back] -
                                         before.start.angle_rad[PLUMB_ANG_back])
                            : (double)NAN);
    }
}

static void lockout_height(PlumbSex sex, Span *span)
{
    for (int i = 0; i < 3; i++) {
        const PlumbLifter lifter = published_lifter(sex, statures_m[i]);
        const PlumbBody *body = &lifter.body;
        const PlumbAnswer answer = pull(sex, statures_m[i], PLUMB_CONVENTIONAL);
        const double arm = body->upper_arm_m + body->forearm_m + body->wrist_to_grip_palm_m;
        span_add(span, answer.end_held
                           ? (answer.end.point[PLUMB_PT_shoulder].y - arm) / statures_m[i]
                           : (double)NAN);
    }
}

static void lockout_height_men(Span *span)
{
    lockout_height(PLUMB_MALE, span);
}

static void lockout_height_women(Span *span)
{
    lockout_height(PLUMB_FEMALE, span);
}

const PublishedCase published_deadlift[] = {
    {"sumo_travel", sumo_travel},
    {"sumo_trunk", sumo_trunk},
    {"start_knee_flexion", start_knee_flexion},
    {"start_hip_flexion", start_hip_flexion},
    {"largest_arm_is_hip", largest_arm_is_hip},
    {"travel_share_of_stature", travel_share_of_stature},
    {"platform_identity", platform_identity},
    {"longer_arms_travel", longer_arms_travel},
    {"longer_thighs_back", longer_thighs_back},
    {"lockout_height_men", lockout_height_men},
    {"lockout_height_women", lockout_height_women},
};
const size_t published_deadlift_count = sizeof published_deadlift / sizeof published_deadlift[0];
