/* SPDX-License-Identifier: MIT */
/* The whole answer to a press: touch, lockout, travel, elbow's path, intervals of the touch. */
#include "solve/press.h"

#include <assert.h>

static const char *const point_names[PLUMB_PRESS_POINT_COUNT] = {
#define X(name) #name,
    PLUMB_PRESS_POINT_LIST(X)
#undef X
};

typedef struct Row {
    const char *name;
    const char *text;
    const char *reference;
} Row;

static const Row joint_rows[PLUMB_PRESS_JOINT_COUNT] = {
#define X(name, text) {#name, text, ""},
    PLUMB_PRESS_JOINT_LIST(X)
#undef X
};

static const Row angle_rows[PLUMB_PRESS_ANGLE_COUNT] = {
#define X(name, text, reference) {#name, text, reference},
    PLUMB_PRESS_ANGLE_LIST(X)
#undef X
};

static const Row arm_rows[PLUMB_PRESS_ARM_COUNT] = {
#define X(name, text, reference) {#name, text, reference},
    PLUMB_PRESS_ARM_LIST(X)
#undef X
};

const char *plumb_press_point_name(PlumbPressPoint point)
{
    return point_names[point];
}

const char *plumb_press_joint_name(PlumbPressJoint joint)
{
    return joint_rows[joint].name;
}

const char *plumb_press_joint_text(PlumbPressJoint joint)
{
    return joint_rows[joint].text;
}

const char *plumb_press_angle_name(PlumbPressAngle angle)
{
    return angle_rows[angle].name;
}

const char *plumb_press_angle_text(PlumbPressAngle angle)
{
    return angle_rows[angle].text;
}

const char *plumb_press_angle_reference(PlumbPressAngle angle)
{
    return angle_rows[angle].reference;
}

const char *plumb_press_arm_name(PlumbPressArm arm)
{
    return arm_rows[arm].name;
}

const char *plumb_press_arm_text(PlumbPressArm arm)
{
    return arm_rows[arm].text;
}

const char *plumb_press_arm_reference(PlumbPressArm arm)
{
    return arm_rows[arm].reference;
}

double plumb_press_grip_most_m(void)
{
    return plumb_bench_grip_most_m();
}

double plumb_press_shoulder_breadth_m(const PlumbLifter *lifter)
{
    return lifter->body.shoulder_joint_spacing_m;
}

/* Panels of Simpson's rule over the whole path. */
enum { PANELS = 256 };

/* Length of x(k) = over + (touch - over) (1-k)^p, y(k) = touch_y + rise k: exact where it is
 * straight, else Simpson's rule in w with 1-k = w^4, which makes the integrand smooth at the
 * lockout for every p above 1. */
double plumb_press_path_piece(const PlumbPress *press, int piece)
{
    enum { EACH = PANELS / PLUMB_PRESS_PIECES };
    const double rise = press->lockout_y - press->touch_y;
    const double along = press->setup.touch_m - press->setup.lockout_over_m;
    const double p = press->setup.path_exponent;
    if (p <= 1.0) {
        const double from = pow((double)piece / PLUMB_PRESS_PIECES, 4.0);
        return (pow((piece + 1.0) / PLUMB_PRESS_PIECES, 4.0) - from) * hypot(rise, along);
    }
    double sum = 0.0;
    for (int i = piece * EACH; i <= (piece + 1) * EACH; i++) {
        const double w = (double)i / PANELS;
        const double slope = p * along * pow(w, 4.0 * (p - 1.0));
        const bool end = i == piece * EACH || i == (piece + 1) * EACH;
        sum += (end ? 1.0 : i % 2 == 1 ? 4.0 : 2.0) * 4.0 * w * w * w * hypot(rise, slope);
    }
    return sum / (3.0 * PANELS);
}

/* The same sum term by term; the first, w = 0, is nothing. A straight path is the shortest, so that
 * bending it adds nothing at first. */
PlumbPressPathSlope plumb_press_path_slope(const PlumbPress *press)
{
    const double rise = press->lockout_y - press->touch_y;
    const double along = press->setup.touch_m - press->setup.lockout_over_m;
    const double p = press->setup.path_exponent;
    PlumbPressPathSlope sum = {.by_rise = 0.0};
    if (p <= 1.0) {
        const double length = hypot(rise, along);
        return (PlumbPressPathSlope){.by_rise = rise / length, .by_along = along / length};
    }
    for (int i = 1; i <= PANELS; i++) {
        const double w = (double)i / PANELS;
        const double log_w = log((double)i) - log((double)PANELS);
        const double steep = pow(w, 4.0 * (p - 1.0));
        const double slope = p * along * steep;
        const double share = (i == PANELS  ? 1.0
                              : i % 2 == 1 ? 4.0
                                           : 2.0) *
                             4.0 * w * w * w / (3.0 * PANELS * hypot(rise, slope));
        sum.by_rise += share * rise;
        sum.by_along += share * slope * p * steep;
        sum.by_exponent_m += share * slope * (along * steep + 4.0 * log_w * slope);
    }
    return sum;
}

static double path_length(const PlumbPress *press)
{
    double sum = 0.0;
    for (int i = 0; i < PLUMB_PRESS_PIECES; i++) {
        sum += plumb_press_path_piece(press, i);
    }
    return sum;
}

double plumb_press_step_window(double travel_m)
{
    return fmin(1.0, 0.01 / travel_m);
}

static double step_start(double window, int start)
{
    return (1.0 - window) * start / PLUMB_PRESS_STEP_STARTS;
}

double plumb_press_step_turn(const PlumbPress *press, double window, int start)
{
    const double from = step_start(window, start);
    return plumb_press_abduction(press, from + window) - plumb_press_abduction(press, from);
}

/* Largest change of the upper arm's angle within one centimetre of the bar's rise. */
static void abduction_step(const PlumbPress *press, PlumbPressAnswer *answer)
{
    const double window = plumb_press_step_window(answer->travel_m);
    answer->abduction_step_rad = 0.0;
    answer->abduction_step_frac = 0.0;
    for (int i = 0; i <= PLUMB_PRESS_STEP_STARTS; i++) {
        const double change = fabs(plumb_press_step_turn(press, window, i));
        if (change > answer->abduction_step_rad) {
            answer->abduction_step_rad = change;
            answer->abduction_step_frac = step_start(window, i);
        }
    }
}

static double upright_abduction(const PlumbPress *press)
{
    const PlumbArm arm = plumb_press_arm(press, 0.0);
    const double swivel = plumb_arm_swivel_upright(&arm);
    if (isnan(swivel)) {
        return swivel;
    }
    const PlumbVec3 upper =
        vec3_sub(plumb_arm_elbow(&arm, plumb_arm_side(&arm, swivel)), arm.shoulder);
    return atan2(hypot(upper.y, upper.z), upper.x);
}

static bool past_limit(const PlumbLifter *lifter, const double *angle)
{
    const double slack = 1e-9;
    return angle[PLUMB_PRESS_ANG_shoulder_flexion] >
               lifter->limit_rad[PLUMB_LIMIT_shoulder_flexion] + slack ||
           angle[PLUMB_PRESS_ANG_shoulder_external_rotation] >
               lifter->limit_rad[PLUMB_LIMIT_shoulder_external_rotation] + slack ||
           angle[PLUMB_PRESS_ANG_elbow_flexion] >
               lifter->limit_rad[PLUMB_LIMIT_elbow_flexion] + slack;
}

/* Touch and lockout, and what lies between them where both can be spanned. */
static void solve_way(const PlumbLifter *lifter, const PlumbPress *press, PlumbPressAnswer *answer)
{
    const double slack = 1e-9;
    answer->outcome = PLUMB_HELD;
    answer->at_lockout = press->at_lockout;
    answer->miss_m = press->miss_m;
    plumb_press_describe(press, 0.0, &answer->touch);
    plumb_press_describe(press, 1.0, &answer->lockout);
    answer->elbows_upright_rad = upright_abduction(press);
    answer->grip_rule_met = press->setup.grip_m <= plumb_bench_grip_most_m() + slack;
    answer->elbow_rule_met = answer->touch.elbow_below_rule_m >= -slack;
    if (press->miss_m > 0.0) {
        answer->outcome = PLUMB_NO_POSE;
        answer->travel_m = answer->path_m = answer->work_bar_j = (double)NAN;
        answer->abduction_step_rad = answer->abduction_step_frac = (double)NAN;
        return;
    }
    if (press->touch_off_m > slack || past_limit(lifter, answer->touch.angle_rad)) {
        answer->outcome = PLUMB_OUTSIDE_WINDOW;
    }
    answer->travel_m = press->lockout_y - press->touch_y;
    answer->path_m = path_length(press);
    answer->work_bar_j = press->setup.load_kg * PLUMB_GRAVITY * answer->travel_m;
    abduction_step(press, answer);
}

static void solve(const PlumbLifter *lifter, const PlumbSetup *setup, bool intervals,
                  PlumbPressAnswer *answer)
{
    assert(setup->lift == PLUMB_BENCH);
    PlumbPress press = plumb_press_begin(lifter, setup);
    answer->window = (PlumbInterval){.low = (double)NAN,
                                     .high = (double)NAN,
                                     .low_end = PLUMB_END_no_pose,
                                     .high_end = PLUMB_END_no_pose};
    answer->low_effort = answer->window;
    answer->finding_count = 0;
    if (intervals || setup->lead == PLUMB_LEAD_AUTO) {
        PlumbPressRange range;
        plumb_press_intervals(&press, &range);
        if (setup->lead == PLUMB_LEAD_AUTO) {
            plumb_press_touch(&press, range.middle_m);
        }
        if (intervals) {
            answer->window = range.window;
            answer->low_effort = range.low_effort;
        }
    }
    answer->setup = press.setup;
    solve_way(lifter, &press, answer);
}

void plumb_press_quick(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbPressAnswer *answer)
{
    solve(lifter, setup, false, answer);
}

void plumb_press_solve(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbPressAnswer *answer)
{
    solve(lifter, setup, true, answer);
    plumb_press_findings(lifter, answer);
}

void plumb_press_at(const PlumbLifter *lifter, const PlumbPressAnswer *answer, double rise_frac,
                    PlumbPressPosition *position)
{
    const PlumbPress press = plumb_press_begin(lifter, &answer->setup);
    plumb_press_describe(&press, rise_frac, position);
}
