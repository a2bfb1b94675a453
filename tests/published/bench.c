/* SPDX-License-Identifier: MIT */
/* The bench press's rows of tests/data/published.csv. */
#include "published/published.h"

#include <plumbar/press.h>

static const double statures_m[] = {1.60, 1.70, 1.80, 1.90};
enum { STATURES = sizeof statures_m / sizeof statures_m[0] };

static const double narrow_m = 0.45;
static const double wide_m = 0.75;

static PlumbSetup press(double grip_m)
{
    PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
    setup.grip_m = grip_m;
    return setup;
}

static PlumbPressAnswer solved(const PlumbLifter *lifter, const PlumbSetup *setup)
{
    PlumbPressAnswer answer;
    plumb_press_solve(lifter, setup, &answer);
    return answer;
}

/* The arm's length, and how far the hand stands outside the shoulder, m. */
static double lockout_height_m(const PlumbLifter *lifter, double grip_m)
{
    const PlumbBody *body = &lifter->body;
    const double arm = body->upper_arm_m + body->forearm_m + body->wrist_to_grip_palm_m;
    const double off =
        0.5 * grip_m + body->forefinger_to_grip_centre_m - 0.5 * body->shoulder_joint_spacing_m;
    return sqrt(arm * arm - off * off);
}

static void bench_grip_lockout(Span *span)
{
    for (int i = 0; i < STATURES; i++) {
        const PlumbLifter lifter =
            published_lifter(i % 2 == 0 ? PLUMB_MALE : PLUMB_FEMALE, statures_m[i]);
        for (double grip = 0.30; grip <= 0.95; grip += 0.05) {
            const PlumbSetup setup = press(grip);
            const PlumbPressAnswer a = solved(&lifter, &setup);
            const double height =
                a.lockout.point[PLUMB_PRESS_bar].y - a.lockout.point[PLUMB_PRESS_shoulder].y;
            span_add(span, height - lockout_height_m(&lifter, grip));
        }
    }
}

static void bench_arch(Span *span)
{
    for (int i = 0; i < STATURES; i++) {
        const PlumbLifter lifter = published_lifter(PLUMB_MALE, statures_m[i]);
        PlumbSetup setup = press(0.60);
        setup.lead = PLUMB_LEAD_TOUCH;
        setup.touch_m = 0.08;
        setup.arch_m = 0.0;
        const double flat = solved(&lifter, &setup).travel_m;
        for (double arch = 0.01; arch <= 0.12; arch += 0.01) {
            setup.arch_m = arch;
            span_add(span, flat - solved(&lifter, &setup).travel_m - arch);
        }
    }
}

static void bench_grip_rule(Span *span)
{
    span_add(span, plumb_press_grip_most_m());
}

/* The rule as a coach sees it, against the answer: 0 where both say the same. */
static void bench_elbow_rule(Span *span)
{
    for (int i = 0; i < STATURES; i++) {
        const PlumbLifter lifter = published_lifter(PLUMB_FEMALE, statures_m[i]);
        for (double arch = 0.0; arch <= 0.15; arch += 0.01) {
            PlumbSetup setup = press(0.81);
            setup.arch_m = arch;
            setup.lead = PLUMB_LEAD_TOUCH;
            setup.touch_m = 0.10;
            const PlumbPressAnswer a = solved(&lifter, &setup);
            const double elbow =
                a.touch.point[PLUMB_PRESS_elbow].y - lifter.body.elbow_half_thickness_m;
            const double shoulder =
                a.touch.point[PLUMB_PRESS_shoulder].y + lifter.body.shoulder_top_above_joint_m;
            span_add(span, (elbow <= shoulder) == a.elbow_rule_met ? 0.0 : 1.0);
        }
    }
}

/* Each figure: at the wide grip less at the narrow one. */
typedef double (*Figure)(const PlumbPressAnswer *answer);

static double lockout_above_shoulder(const PlumbPressAnswer *a)
{
    return a->lockout.point[PLUMB_PRESS_bar].y - a->lockout.point[PLUMB_PRESS_shoulder].y;
}

static double travel(const PlumbPressAnswer *a)
{
    return a->travel_m;
}

static double elbow_moment(const PlumbPressAnswer *a)
{
    return a->touch.moment_n_m[PLUMB_PRESS_JOINT_elbow_extension];
}

static double adduction_moment(const PlumbPressAnswer *a)
{
    return a->touch.moment_n_m[PLUMB_PRESS_JOINT_shoulder_adduction];
}

static void wide_less_narrow(Span *span, Figure figure)
{
    for (int i = 0; i < STATURES; i++) {
        for (int sex = 0; sex < PLUMB_SEX_COUNT; sex++) {
            const PlumbLifter lifter = published_lifter((PlumbSex)sex, statures_m[i]);
            for (int lead = 0; lead < 2; lead++) {
                PlumbSetup narrow = press(narrow_m);
                PlumbSetup wide = press(wide_m);
                if (lead == 1) {
                    narrow.lead = wide.lead = PLUMB_LEAD_TOUCH;
                    narrow.touch_m = wide.touch_m = 0.10;
                }
                const PlumbPressAnswer a = solved(&lifter, &narrow);
                const PlumbPressAnswer b = solved(&lifter, &wide);
                span_add(span, figure(&b) - figure(&a));
            }
        }
    }
}

static void bench_direction_lockout(Span *span)
{
    wide_less_narrow(span, lockout_above_shoulder);
}

static void bench_direction_travel(Span *span)
{
    wide_less_narrow(span, travel);
}

static void bench_moment_elbow(Span *span)
{
    wide_less_narrow(span, elbow_moment);
}

static void bench_moment_shoulder(Span *span)
{
    wide_less_narrow(span, adduction_moment);
}

/* Largest change of the bar's arm about the shoulder from one step of the ascent to the next. */
static void bench_ascent(Span *span)
{
    enum { STEPS = 50 };
    for (int i = 0; i < STATURES; i++) {
        const PlumbLifter lifter = published_lifter(PLUMB_MALE, statures_m[i]);
        for (double touch = 0.04; touch <= 0.20; touch += 0.04) {
            PlumbSetup setup = press(0.65);
            setup.lead = PLUMB_LEAD_TOUCH;
            setup.touch_m = touch;
            const PlumbPressAnswer a = solved(&lifter, &setup);
            double before = a.touch.bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal];
            for (int k = 1; k <= STEPS; k++) {
                PlumbPressPosition at;
                plumb_press_at(&lifter, &a, (double)k / STEPS, &at);
                const double arm = at.bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal];
                span_add(span, arm - before);
                before = arm;
            }
        }
    }
}

/* Where auto touches, below the shoulder joints as a share of stature. */
static void bench_auto_touch(Span *span)
{
    for (int i = 0; i < STATURES; i++) {
        const PlumbLifter lifter = published_lifter(PLUMB_MALE, statures_m[i]);
        const PlumbSetup setup = plumb_setup_default(PLUMB_BENCH);
        const PlumbPressAnswer a = solved(&lifter, &setup);
        span_add(span, a.setup.touch_m / statures_m[i]);
    }
}

const PublishedCase published_bench[] = {
    {"bench_grip_lockout", bench_grip_lockout},
    {"bench_arch", bench_arch},
    {"bench_grip_rule", bench_grip_rule},
    {"bench_elbow_rule", bench_elbow_rule},
    {"bench_direction_lockout", bench_direction_lockout},
    {"bench_direction_travel", bench_direction_travel},
    {"bench_moment_elbow", bench_moment_elbow},
    {"bench_moment_shoulder", bench_moment_shoulder},
    {"bench_ascent", bench_ascent},
    {"bench_auto_touch", bench_auto_touch},
};
const size_t published_bench_count = sizeof published_bench / sizeof published_bench[0];
