/* SPDX-License-Identifier: MIT */
/* The bench press. */
#include "family.h"

#include "scene/press.h"

#include <math.h>

static const int ORDER[PLUMB_PRESS_JOINT_COUNT] = {PLUMB_PRESS_JOINT_shoulder_flexion,
                                                   PLUMB_PRESS_JOINT_shoulder_adduction,
                                                   PLUMB_PRESS_JOINT_elbow_extension};

static const int MAP[] = {
    PLUMB_PRESS_OUT_summed_effort,  PLUMB_PRESS_OUT_travel,
    PLUMB_PRESS_OUT_flexion_moment, PLUMB_PRESS_OUT_adduction_moment,
    PLUMB_PRESS_OUT_elbow_moment,   PLUMB_PRESS_OUT_side_arm,
    PLUMB_PRESS_OUT_front_arm,      PLUMB_PRESS_OUT_elbow_arm,
    PLUMB_PRESS_OUT_upper_arm,      PLUMB_PRESS_OUT_elbow_off_hand,
    PLUMB_PRESS_OUT_forearm_front,  PLUMB_PRESS_OUT_elbow_below_rule,
};

/* In the order of importance that the table has. */
static const PlumbCompareRow COMPARE[] = {
    {PLUMB_PRESS_OUT_travel, "bar travel"},
    {PLUMB_PRESS_OUT_side_arm, "shoulder arm, side"},
    {PLUMB_PRESS_OUT_front_arm, "shoulder arm, head end"},
    {PLUMB_PRESS_OUT_elbow_arm, "elbow arm"},
    {PLUMB_PRESS_OUT_touch, "touch"},
    {PLUMB_PRESS_OUT_upper_arm, "upper arm to trunk"},
    {PLUMB_PRESS_OUT_flexion_moment, "flexion moment"},
    {PLUMB_PRESS_OUT_adduction_moment, "adduction moment"},
    {PLUMB_PRESS_OUT_elbow_moment, "elbow moment"},
    {PLUMB_PRESS_OUT_elbow_off_hand, "elbow outside hand"},
    {PLUMB_PRESS_OUT_forearm_front, "forearm, head end"},
    {PLUMB_PRESS_OUT_elbow_below_rule, "elbow below rule"},
    {PLUMB_PRESS_OUT_lockout_height, "lockout height"},
    {PLUMB_PRESS_OUT_path_length, "bar's path"},
    {PLUMB_PRESS_OUT_elbow_flexion, "elbow flexion"},
    {PLUMB_PRESS_OUT_elbows_upright, "forearm upright at"},
    {PLUMB_PRESS_OUT_summed_effort, "summed effort"},
};

static void solve(const PlumbLifter *lifter, const PlumbSetup *setup, bool quick, PlumbPosed *posed)
{
    PlumbPressAnswer *const answer = &posed->solved.press;
    if (quick) {
        plumb_press_quick(lifter, setup, answer);
    } else {
        plumb_press_solve(lifter, setup, answer);
    }
    posed->solved.lift = setup->lift;
    posed->setup = answer->setup;
    posed->outcome = answer->outcome;
    posed->reason = answer->at_lockout ? PLUMB_REASON_LOCKOUT : PLUMB_REASON_TOUCH;
    posed->travel_m = answer->travel_m;
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        posed->arm_m[i] = answer->touch.bar_arm_m[plumb_press_arm_of((PlumbPressJoint)i)];
    }
}

static const char *arm_name(int arm)
{
    static const char *const NAME[PLUMB_PRESS_JOINT_COUNT] = {"adduction", "flexion", "elbow"};
    return NAME[arm];
}

static int arm_at(PlumbPoint point)
{
    return point == PLUMB_PT_elbow      ? (int)PLUMB_PRESS_JOINT_elbow_extension
           : point == PLUMB_PT_shoulder ? (int)PLUMB_PRESS_JOINT_shoulder_adduction
                                        : -1;
}

static PlumbSettingId intervals(const PlumbPosed *posed, PlumbInterval *window,
                                PlumbInterval *low_effort)
{
    *window = posed->solved.press.window;
    *low_effort = posed->solved.press.low_effort;
    return PLUMB_SET_touch;
}

static double followed(const PlumbPosed *posed, PlumbSettingId id)
{
    return id == PLUMB_SET_touch    ? posed->solved.press.setup.touch_m
           : id == PLUMB_SET_elbows ? posed->solved.press.touch.angle_rad[PLUMB_PRESS_ANG_abduction]
                                    : (double)NAN;
}

static void draw(PlumbDrawing *drawing, const PlumbPosed *inked, const PlumbPosed *pencil,
                 const PlumbPosed *wish, int arm)
{
    (void)arm; /* the drawing dimensions what lies in its views, whichever is selected */
    drawing->press = &inked->solved.press;
    drawing->press_pencil = pencil != NULL ? &pencil->solved.press : NULL;
    drawing->press_wish = wish != NULL ? &wish->solved.press : NULL;
}

static void find_way(const PlumbLifter *lifter, const PlumbPosed *posed, int count, bool rough,
                     PlumbWay *way)
{
    (void)rough;
    way->count = posed->outcome != PLUMB_NO_POSE ? count : 0;
    way->moved = false;
    way->spread_m = fabs(posed->setup.touch_m - posed->setup.lockout_over_m);
    for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
        way->peak_n_m[j] = -(double)INFINITY;
    }
    for (int i = 0; i < way->count; i++) {
        PlumbWayPoint *const to = &way->step[i];
        PlumbPressPosition at;
        to->u = (double)i / (count - 1);
        plumb_press_at(lifter, &posed->solved.press, to->u, &at);
        to->held = true;
        to->bar_m = at.point[PLUMB_PRESS_bar];
        to->angle_rad = at.angle_rad[PLUMB_PRESS_ANG_abduction];
        for (int j = 0; j < PLUMB_PRESS_JOINT_COUNT; j++) {
            to->moment_n_m[j] = at.moment_n_m[j];
            way->peak_n_m[j] = fmax(way->peak_n_m[j], at.moment_n_m[j]);
        }
    }
}

static void pose(const PlumbLifter *lifter, const PlumbWay *way, int index, PlumbPosed *posed)
{
    plumb_press_at(lifter, &posed->solved.press, way->step[index].u, &posed->solved.press.touch);
}

const PlumbFamily plumb_family_press = {
    .arm_count = PLUMB_PRESS_JOINT_COUNT,
    .arm_order = ORDER,
    .map_figures = MAP,
    .map_count = sizeof MAP / sizeof MAP[0],
    .compare = COMPARE,
    .compare_count = sizeof COMPARE / sizeof COMPARE[0],
    .angle_words = "upper arm",
    .angle_after = "from the trunk",
    .angle_name = "upper_arm_rad",
    .fact_travel = PLUMB_PRESS_FACT_travel,
    .fact_spread = PLUMB_PRESS_FACT_bar_spread,
    .fact_peak = PLUMB_PRESS_FACT_peak_shoulder_adduction_moment,
    .solve = solve,
    .arm_name = arm_name,
    .arm_at = arm_at,
    .intervals = intervals,
    .followed = followed,
    .draw = draw,
    .way = find_way,
    .pose = pose,
};
