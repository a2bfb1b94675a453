/* SPDX-License-Identifier: MIT */
/* Deadlift and squat: lifts that stand on the floor. */
#include "family.h"

#include <math.h>
#include <string.h>

static const int ORDER[PLUMB_JOINT_COUNT] = {PLUMB_JOINT_hip, PLUMB_JOINT_back, PLUMB_JOINT_knee,
                                             PLUMB_JOINT_shoulder, PLUMB_JOINT_ankle};

static const int MAP[] = {
    PLUMB_OUT_travel,     PLUMB_OUT_hip_arm,     PLUMB_OUT_back_arm,    PLUMB_OUT_knee_arm,
    PLUMB_OUT_hip_moment, PLUMB_OUT_back_moment, PLUMB_OUT_knee_moment, PLUMB_OUT_summed_effort,
    PLUMB_OUT_back_angle, PLUMB_OUT_shin_angle,  PLUMB_OUT_hip_height,  PLUMB_OUT_balance,
};

/* In the order of importance that every table has. */
static const PlumbCompareRow COMPARE[] = {
    {PLUMB_OUT_travel, "bar travel"},
    {PLUMB_OUT_hip_arm, "hip arm"},
    {PLUMB_OUT_back_arm, "back arm"},
    {PLUMB_OUT_knee_arm, "knee arm"},
    {PLUMB_OUT_balance, "balance"},
    {PLUMB_OUT_back_angle, "back angle"},
    {PLUMB_OUT_hip_height, "hip height"},
    {PLUMB_OUT_hip_moment, "hip moment"},
    {PLUMB_OUT_back_moment, "back moment"},
    {PLUMB_OUT_knee_moment, "knee moment"},
    {PLUMB_OUT_summed_effort, "summed effort"},
    {PLUMB_OUT_shin_angle, "shin angle"},
    {PLUMB_OUT_thigh_angle, "thigh angle"},
    {PLUMB_OUT_ankle_moment, "ankle moment"},
    {PLUMB_OUT_shoulder_ahead, "shoulder ahead"},
    {PLUMB_OUT_hip_abduction, "hip abduction"},
    {PLUMB_OUT_frontal_hip_moment, "hip from the front"},
    {PLUMB_OUT_knee_flexion, "knee flexion"},
    {PLUMB_OUT_hip_flexion, "hip flexion"},
    {PLUMB_OUT_dorsiflexion, "dorsiflexion"},
};

static void solve(const PlumbLifter *lifter, const PlumbSetup *setup, bool quick, PlumbPosed *posed)
{
    PlumbAnswer *const answer = &posed->solved.pose;
    if (quick) {
        plumb_answer_quick(lifter, setup, answer);
    } else {
        plumb_answer_solve(lifter, setup, answer);
    }
    posed->solved.lift = setup->lift;
    posed->setup = answer->setup;
    posed->outcome = answer->outcome;
    posed->reason = (int)answer->failed;
    posed->travel_m = answer->travel_m;
    memcpy(posed->arm_m, answer->start.bar_arm_m, sizeof answer->start.bar_arm_m);
}

static const char *arm_name(int arm)
{
    return plumb_joint_name((PlumbJoint)arm);
}

static int arm_at(PlumbPoint point)
{
    return point == PLUMB_PT_ankle      ? (int)PLUMB_JOINT_ankle
           : point == PLUMB_PT_knee     ? (int)PLUMB_JOINT_knee
           : point == PLUMB_PT_hip      ? (int)PLUMB_JOINT_hip
           : point == PLUMB_PT_lumbar   ? (int)PLUMB_JOINT_back
           : point == PLUMB_PT_shoulder ? (int)PLUMB_JOINT_shoulder
                                        : -1;
}

static PlumbSettingId intervals(const PlumbPosed *posed, PlumbInterval *window,
                                PlumbInterval *low_effort)
{
    *window = posed->solved.pose.window;
    *low_effort = posed->solved.pose.low_effort;
    return posed->setup.lift == PLUMB_DEADLIFT ? PLUMB_SET_hip_height : PLUMB_SET_shin_angle;
}

static double followed(const PlumbPosed *posed, PlumbSettingId id)
{
    const PlumbPosition *const at = &posed->solved.pose.start;
    return id == PLUMB_SET_balance      ? at->balance_frac
           : id == PLUMB_SET_hip_height ? at->pose.hip_height_m
           : id == PLUMB_SET_back_angle ? at->angle_rad[PLUMB_ANG_back]
           : id == PLUMB_SET_shin_angle ? at->angle_rad[PLUMB_ANG_shin]
           : id == PLUMB_SET_knees_out  ? at->knees_out_rad
                                        : (double)NAN;
}

static void draw(PlumbDrawing *drawing, const PlumbPosed *inked, const PlumbPosed *pencil,
                 const PlumbPosed *wish, int arm)
{
    drawing->answer = &inked->solved.pose;
    drawing->pencil = pencil != NULL ? &pencil->solved.pose : NULL;
    drawing->wish = wish != NULL ? &wish->solved.pose : NULL;
    drawing->selected = (PlumbJoint)arm;
}

static void move(const PlumbLifter *lifter, const PlumbAnswer *answer, PlumbWay *way)
{
    PlumbMotionPoint *const point = way->instant;
    const double rep_s = fmax(0.2, answer->setup.rep_time_s);
    way->moved = plumb_motion_solve(lifter, answer, rep_s, PLUMB_WAY_INSTANTS, point, &way->motion,
                                    NULL) == PLUMB_OK;
    for (int i = 0; way->moved && i < PLUMB_WAY_INSTANTS; i++) {
        way->bar_m[i] = point[i].held ? point[i].position.point[PLUMB_PT_bar].y : (double)NAN;
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            way->moving_n_m[j][i] = point[i].moment_both_n_m[j];
        }
    }
}

static void find_way(const PlumbLifter *lifter, const PlumbPosed *posed, int count, bool rough,
                     PlumbWay *way)
{
    PlumbPathFacts facts;
    way->count =
        plumb_path_solve(lifter, &posed->solved.pose, count, way->point, &facts) ? count : 0;
    for (int i = 0; i < way->count; i++) {
        const PlumbPathPoint *const from = &way->point[i];
        PlumbWayPoint *const to = &way->step[i];
        to->u = from->u;
        to->held = from->held;
        to->bar_m = from->position.point[PLUMB_PT_bar];
        to->angle_rad = from->position.angle_rad[PLUMB_ANG_back];
        memcpy(to->moment_n_m, from->position.moment_both_n_m, sizeof to->moment_n_m);
    }
    if (way->count > 0) {
        way->spread_m = facts.bar_spread_m;
        memcpy(way->peak_n_m, facts.peak_moment_n_m, sizeof way->peak_n_m);
        if (!rough) {
            move(lifter, &posed->solved.pose, way);
        }
    }
}

static void pose(const PlumbLifter *lifter, const PlumbWay *way, int index, PlumbPosed *posed)
{
    (void)lifter;
    posed->solved.pose.start = way->point[index].position;
}

const PlumbFamily plumb_family_stand = {
    .arm_count = PLUMB_JOINT_COUNT,
    .arm_order = ORDER,
    .map_figures = MAP,
    .map_count = sizeof MAP / sizeof MAP[0],
    .compare = COMPARE,
    .compare_count = sizeof COMPARE / sizeof COMPARE[0],
    .angle_words = "back",
    .angle_after = "above level",
    .angle_name = "back_angle_rad",
    .fact_travel = PLUMB_FACT_travel,
    .fact_spread = PLUMB_FACT_bar_spread,
    .fact_peak = PLUMB_FACT_peak_ankle_moment,
    .solve = solve,
    .arm_name = arm_name,
    .arm_at = arm_at,
    .intervals = intervals,
    .followed = followed,
    .draw = draw,
    .way = find_way,
    .pose = pose,
};
