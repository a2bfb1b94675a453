/* SPDX-License-Identifier: MIT */
/* A bench press as JSON. */
#include "press_out.h"

#include <math.h>

static void put_position(PlumbJson json, const PlumbPressPosition *position)
{
    const PlumbJson joints = plumb_json_object(json, "joints_m");
    for (int i = 0; i < PLUMB_PRESS_POINT_COUNT; i++) {
        plumb_json_vector(joints, plumb_press_point_name((PlumbPressPoint)i), position->point[i]);
    }
    const PlumbJson angles = plumb_json_object(json, "angles_rad");
    for (int i = 0; i < PLUMB_PRESS_ANGLE_COUNT; i++) {
        plumb_json_number(angles, plumb_press_angle_name((PlumbPressAngle)i),
                          position->angle_rad[i]);
    }
    plumb_json_number(json, "elbow_off_bar_m", position->elbow_off_bar_m);
    plumb_json_number(json, "elbow_off_hand_m", position->elbow_off_hand_m);
    plumb_json_number(json, "elbow_below_rule_m", position->elbow_below_rule_m);
    const PlumbJson arms = plumb_json_object(json, "bar_arms_m");
    for (int i = 0; i < PLUMB_PRESS_ARM_COUNT; i++) {
        plumb_json_number(arms, plumb_press_arm_name((PlumbPressArm)i), position->bar_arm_m[i]);
    }
    const PlumbJson moments = plumb_json_object(json, "moments_per_arm_n_m");
    const PlumbJson capacity = plumb_json_object(json, "capacity_n_m");
    const PlumbJson effort = plumb_json_object(json, "relative_effort");
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        const char *const name = plumb_press_joint_name((PlumbPressJoint)i);
        plumb_json_number(moments, name, position->moment_n_m[i]);
        plumb_json_number(capacity, name, position->capacity_n_m[i]);
        plumb_json_number(effort, name, position->relative_effort[i]);
    }
    plumb_json_number(json, "summed_effort", position->summed_effort);
    plumb_json_string(json, "capacity_basis", "one_person");
}

static void put_outcome(PlumbJson json, const PlumbPressAnswer *answer)
{
    plumb_json_string(json, "outcome", plumb_outcome_name(answer->outcome));
    if (answer->outcome == PLUMB_NO_POSE) {
        plumb_json_string(json, "failed_constraint", plumb_constraint_name(PLUMB_CON_reach));
        const PlumbJson nearest = plumb_json_object(json, "nearest");
        plumb_json_number(nearest, "miss_m", answer->miss_m);
        plumb_json_string(nearest, "position", answer->at_lockout ? "lockout" : "touch");
    }
}

static void put_whole(PlumbJson json, const PlumbLifter *lifter, const PlumbPressAnswer *answer)
{
    plumb_json_number(json, "grip_to_shoulders_frac",
                      answer->setup.grip_m / plumb_press_shoulder_breadth_m(lifter));
    plumb_json_bool(json, "grip_rule_met", answer->grip_rule_met);
    plumb_json_bool(json, "elbow_rule_met", answer->elbow_rule_met);
    plumb_json_number(json, "travel_m", answer->travel_m);
    plumb_json_number(json, "path_length_m", answer->path_m);
    plumb_json_number(json, "abduction_change_per_cm_rad", answer->abduction_step_rad);
    plumb_json_number(json, "abduction_change_rise_frac", answer->abduction_step_frac);
    plumb_json_number(json, "elbows_upright_rad", answer->elbows_upright_rad);
    plumb_json_interval(json, "window", &answer->window, PLUMB_BENCH);
    plumb_json_interval(json, "low_effort_range", &answer->low_effort, PLUMB_BENCH);
    plumb_json_number(json, "work_bar_j", answer->work_bar_j);
    plumb_json_findings(json, answer->finding, answer->finding_count);
}

void plumb_press_json(PlumbJson json, const PlumbLifter *lifter, const PlumbPressAnswer *answer,
                      const PlumbJsonFrame *frame, const PlumbPressPosition *at)
{
    put_outcome(json, answer);
    plumb_json_string(json, "lift", plumb_lift_name(PLUMB_BENCH));
    plumb_json_put(json, "body", json_incref(frame->body));
    plumb_json_put(json, "lifter", json_incref(frame->gym));
    plumb_json_setup(plumb_json_object(json, "setup"), &answer->setup);
    if (at != NULL) {
        plumb_json_number(json, "rise_frac", at->rise_frac);
    } else {
        plumb_json_string(json, "position", "touch");
    }
    put_position(json, at != NULL ? at : &answer->touch);
    put_whole(json, lifter, answer);
    if (at == NULL && answer->outcome == PLUMB_NO_POSE) {
        plumb_json_put(json, "end", json_null());
    } else if (at == NULL) {
        const PlumbJson end = plumb_json_object(json, "end");
        plumb_json_string(end, "position", "lockout");
        put_position(end, &answer->lockout);
    }
}
