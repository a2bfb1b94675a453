/* SPDX-License-Identifier: MIT */
/* Positions and whole answers as JSON. */
#include "json_out.h"

#include <math.h>
#include <stddef.h>

static void put_joints(PlumbJson json, const char *key, const double value[PLUMB_JOINT_COUNT],
                       bool shoulder_counts)
{
    const PlumbJson joints = plumb_json_object(json, key);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        const bool counts = shoulder_counts || i != PLUMB_JOINT_shoulder;
        plumb_json_number(joints, plumb_joint_name((PlumbJoint)i), counts ? value[i] : (double)NAN);
    }
}

static void put_loads_3d(PlumbJson json, const PlumbLoads3d *loads)
{
    const PlumbJson object = plumb_json_object(json, "moments_3d_per_side_n_m");
    plumb_json_number(object, "knee_extension", loads->knee_extension_n_m);
    plumb_json_number(object, "knee_minus_m_z", loads->knee_minus_m_z_n_m);
    plumb_json_number(object, "knee_frontal", loads->knee_frontal_n_m);
    plumb_json_number(object, "ankle_along_foot", loads->ankle_along_foot_n_m);
    plumb_json_number(object, "hip_frontal", loads->hip_frontal_n_m);
}

static void put_extrapolated(PlumbJson json, unsigned bits)
{
    json_t *const list = json_array();
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        if ((bits >> i & 1U) != 0) {
            json_array_append_new(list, json_string(plumb_joint_name((PlumbJoint)i)));
        }
    }
    plumb_json_put(json, "extrapolated", list);
}

static void put_pose(PlumbJson json, PlumbPose pose)
{
    const PlumbJson object = plumb_json_object(json, "pose");
    plumb_json_number(object, "hip_x_m", pose.hip_x_m);
    plumb_json_number(object, "hip_height_m", pose.hip_height_m);
    plumb_json_number(object, "thorax_lean_rad", pose.thorax_lean_rad);
}

void plumb_json_position(PlumbJson json, const PlumbPosition *position, PlumbLift lift)
{
    const bool pull = lift == PLUMB_DEADLIFT;
    put_pose(json, position->pose);
    const PlumbJson joints = plumb_json_object(json, "joints_m");
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        plumb_json_vector(joints, plumb_point_name((PlumbPoint)i), position->point[i]);
    }
    const PlumbJson angles = plumb_json_object(json, "angles_rad");
    for (int i = 0; i < PLUMB_ANGLE_COUNT; i++) {
        plumb_json_number(angles, plumb_angle_name((PlumbAngle)i), position->angle_rad[i]);
    }
    plumb_json_number(json, "spine_rad", position->spine_rad);
    plumb_json_number(json, "knees_out_rad", position->knees_out_rad);
    plumb_json_number(json, "knee_to_toe_line_m", position->knee_to_toe_line_m);
    plumb_json_number(json, "clearance_m", position->clearance_m);
    plumb_json_number(json, "balance_frac", position->balance_frac);
    plumb_json_vector(json, "com_m", position->com);
    plumb_json_bool(json, "arm_reaches", position->arm_reaches);
    put_joints(json, "bar_arms_m", position->bar_arm_m, true);
    put_joints(json, "moments_both_n_m", position->moment_both_n_m, true);
    put_loads_3d(json, &position->loads_3d);
    put_joints(json, "capacity_n_m", position->capacity_n_m, pull);
    put_joints(json, "relative_effort", position->relative_effort, pull);
    plumb_json_number(json, "summed_effort", position->summed_effort);
    put_extrapolated(json, position->extrapolated);
}

void plumb_json_interval(PlumbJson json, const char *key, const PlumbInterval *interval,
                         PlumbLift lift)
{
    const bool length = lift != PLUMB_SQUAT; /* a height or a touch, not an angle */
    const PlumbJson object = plumb_json_object(json, key);
    plumb_json_number(object, length ? "low_m" : "low_rad",
                      interval->exists ? interval->low : (double)NAN);
    plumb_json_number(object, length ? "high_m" : "high_rad",
                      interval->exists ? interval->high : (double)NAN);
    plumb_json_string(object, "low_reason", plumb_end_name(interval->low_end));
    plumb_json_string(object, "high_reason", plumb_end_name(interval->high_end));
}

/* The SI unit of a quantity, written as keys write it. */
static const char *si_unit(PlumbQuantity quantity)
{
    static const char *const unit[PLUMB_QUANTITY_COUNT] = {
        [PLUMB_Q_LENGTH] = "m",      [PLUMB_Q_SMALL] = "m",       [PLUMB_Q_STATURE] = "m",
        [PLUMB_Q_ANGLE] = "rad",     [PLUMB_Q_MASS] = "kg",       [PLUMB_Q_MOMENT] = "n_m",
        [PLUMB_Q_FRACTION] = "frac", [PLUMB_Q_SHARE] = "frac",    [PLUMB_Q_TIME] = "s",
        [PLUMB_Q_ENERGY] = "j",      [PLUMB_Q_NUMBER] = "number", [PLUMB_Q_WORD] = "word",
    };
    return unit[quantity];
}

static json_t *finding_object(const PlumbFinding *finding, bool *failed)
{
    char text[PLUMB_FINDING_TEXT_SIZE];
    PlumbText words = plumb_text_begin(text, sizeof text);
    plumb_finding_text(&words, finding, PLUMB_METRIC);
    const PlumbJson json = plumb_json_begin(failed);
    plumb_json_string(json, "id", plumb_finding_name(finding->id));
    plumb_json_string(json, "severity", finding->severity == PLUMB_WARNING ? "warning" : "note");
    plumb_json_number(json, "value", finding->value);
    plumb_json_number(json, "limit", finding->limit);
    plumb_json_string(json, "unit", si_unit(finding->quantity));
    plumb_json_string(json, "text", text);
    return json.object;
}

void plumb_json_findings(PlumbJson json, const PlumbFinding *finding, int count)
{
    json_t *const list = json_array();
    plumb_json_put(json, "findings", list);
    for (int i = 0; i < count; i++) {
        json_array_append_new(list, finding_object(&finding[i], json.failed));
    }
}

/* The residual of each constraint is a length, an angle, or a share of the foot. */
static const char *miss_key(PlumbConstraintId id)
{
    if (id == PLUMB_CON_balance) {
        return "miss_frac";
    }
    return id == PLUMB_CON_shin_angle || id == PLUMB_CON_back_angle ? "miss_rad" : "miss_m";
}

static void put_outcome(PlumbJson json, const PlumbAnswer *answer, const PlumbPathPoint *at)
{
    const bool lost = at != NULL && !at->held;
    plumb_json_string(json, "outcome", plumb_outcome_name(lost ? PLUMB_NO_POSE : answer->outcome));
    if (answer->outcome != PLUMB_NO_POSE) {
        return;
    }
    plumb_json_string(json, "failed_constraint", plumb_constraint_name(answer->failed));
    const PlumbJson nearest = plumb_json_object(json, "nearest");
    plumb_json_number(nearest, miss_key(answer->failed), answer->miss);
    put_pose(nearest, answer->start.pose);
}

/* What belongs to the whole lift, not to one position. */
static void put_whole(PlumbJson json, const PlumbAnswer *answer)
{
    plumb_json_number(json, "travel_m", answer->travel_m);
    plumb_json_interval(json, "window", &answer->window, answer->setup.lift);
    plumb_json_interval(json, "low_effort_range", &answer->low_effort, answer->setup.lift);
    if (answer->setup.lift == PLUMB_DEADLIFT) {
        plumb_json_number(json, "expected_hip_rise_m", answer->expected_hip_rise_m);
        plumb_json_string(json, "hip_rise_reason", plumb_end_name(answer->hip_rise_end));
    } else {
        plumb_json_number(json, "standing_bar_off_m", answer->standing_bar_off_m);
    }
    plumb_json_number(json, "work_bar_j", answer->work_bar_j);
    plumb_json_number(json, "work_body_j", answer->work_body_j);
    plumb_json_bool(json, "knees_over_toes_met", answer->knees_over_toes_met);
    plumb_json_findings(json, answer->finding, answer->finding_count);
}

static void put_end(PlumbJson json, const PlumbAnswer *answer)
{
    if (!answer->end_held) {
        plumb_json_put(json, "end", json_null());
        return;
    }
    const PlumbLift lift = answer->setup.lift;
    const PlumbJson end = plumb_json_object(json, "end");
    plumb_json_string(end, "position", lift == PLUMB_DEADLIFT ? "lockout" : "standing");
    plumb_json_position(end, &answer->end, lift);
}

void plumb_json_answer(PlumbJson json, const PlumbAnswer *answer, const PlumbJsonFrame *frame,
                       const PlumbPathPoint *at)
{
    const PlumbLift lift = answer->setup.lift;
    put_outcome(json, answer, at);
    plumb_json_string(json, "lift", plumb_lift_name(lift));
    plumb_json_put(json, "body", json_incref(frame->body));
    plumb_json_put(json, "lifter", json_incref(frame->gym));
    plumb_json_setup(plumb_json_object(json, "setup"), &answer->setup);
    if (at != NULL) {
        plumb_json_number(json, "u", at->u);
        plumb_json_number(json, "bar_shift_m", at->bar_shift_m);
    } else {
        plumb_json_string(json, "position", lift == PLUMB_DEADLIFT ? "start" : "hole");
    }
    plumb_json_position(json, at != NULL ? &at->position : &answer->start, lift);
    put_whole(json, answer);
    if (at == NULL) {
        put_end(json, answer);
    }
}
