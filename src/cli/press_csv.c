/* SPDX-License-Identifier: MIT */
/* A bench press as CSV. */
#include "press_out.h"

#include <math.h>

enum { NAME_SIZE = 96 };

static void head(PlumbCsv *csv, const char *before, const char *name, const char *after)
{
    char cell[NAME_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_string(&text, before);
    plumb_text_string(&text, name);
    plumb_text_string(&text, after);
    plumb_csv_text(csv, cell);
}

void plumb_press_csv_answer_head(PlumbCsv *csv)
{
    static const char *const names[] = {
        "outcome",
        "touch_m",
        "grip_m",
        "grip_to_shoulders_frac",
        "travel_m",
        "path_length_m",
        "lockout_height_m",
        "abduction_change_per_cm_rad",
        "elbows_upright_rad",
        "grip_rule_met",
        "elbow_rule_met",
    };
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        plumb_csv_text(csv, names[i]);
    }
    plumb_csv_interval_head(csv, "window", PLUMB_BENCH);
    plumb_csv_interval_head(csv, "low_effort_range", PLUMB_BENCH);
    plumb_csv_text(csv, "work_bar_j");
    plumb_csv_text(csv, "findings");
}

void plumb_press_csv_answer(PlumbCsv *csv, const PlumbLifter *lifter,
                            const PlumbPressAnswer *answer)
{
    const PlumbSetup *const setup = &answer->setup;
    plumb_csv_text(csv, plumb_outcome_name(answer->outcome));
    plumb_csv_number(csv, setup->touch_m);
    plumb_csv_number(csv, setup->grip_m);
    plumb_csv_number(csv, setup->grip_m / plumb_press_shoulder_breadth_m(lifter));
    plumb_csv_number(csv, answer->travel_m);
    plumb_csv_number(csv, answer->path_m);
    plumb_csv_number(csv, answer->outcome == PLUMB_NO_POSE
                              ? (double)NAN
                              : answer->lockout.point[PLUMB_PRESS_bar].y);
    plumb_csv_number(csv, answer->abduction_step_rad);
    plumb_csv_number(csv, answer->elbows_upright_rad);
    plumb_csv_text(csv, answer->grip_rule_met ? "yes" : "no");
    plumb_csv_text(csv, answer->elbow_rule_met ? "yes" : "no");
    plumb_csv_interval(csv, &answer->window);
    plumb_csv_interval(csv, &answer->low_effort);
    plumb_csv_number(csv, answer->work_bar_j);
    plumb_csv_findings(csv, answer->finding, answer->finding_count);
}

void plumb_press_csv_position_head(PlumbCsv *csv)
{
    for (int i = 0; i < PLUMB_PRESS_ANGLE_COUNT; i++) {
        head(csv, plumb_press_angle_name((PlumbPressAngle)i), "_rad", "");
    }
    plumb_csv_text(csv, "elbow_off_bar_m");
    plumb_csv_text(csv, "elbow_off_hand_m");
    plumb_csv_text(csv, "elbow_below_rule_m");
    for (int i = 0; i < PLUMB_PRESS_ARM_COUNT; i++) {
        head(csv, "bar_arm_", plumb_press_arm_name((PlumbPressArm)i), "_m");
    }
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        head(csv, "moment_per_arm_", plumb_press_joint_name((PlumbPressJoint)i), "_n_m");
    }
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        head(csv, "relative_effort_", plumb_press_joint_name((PlumbPressJoint)i), "_frac");
    }
    plumb_csv_text(csv, "summed_effort_frac");
    for (int i = 0; i < PLUMB_PRESS_POINT_COUNT; i++) {
        const char *const name = plumb_press_point_name((PlumbPressPoint)i);
        head(csv, "point_", name, "_x_m");
        head(csv, "point_", name, "_y_m");
        head(csv, "point_", name, "_z_m");
    }
}

void plumb_press_csv_position(PlumbCsv *csv, const PlumbPressPosition *position)
{
    for (int i = 0; i < PLUMB_PRESS_ANGLE_COUNT; i++) {
        plumb_csv_number(csv, position->angle_rad[i]);
    }
    plumb_csv_number(csv, position->elbow_off_bar_m);
    plumb_csv_number(csv, position->elbow_off_hand_m);
    plumb_csv_number(csv, position->elbow_below_rule_m);
    for (int i = 0; i < PLUMB_PRESS_ARM_COUNT; i++) {
        plumb_csv_number(csv, position->bar_arm_m[i]);
    }
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        plumb_csv_number(csv, position->moment_n_m[i]);
    }
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        plumb_csv_number(csv, position->relative_effort[i]);
    }
    plumb_csv_number(csv, position->summed_effort);
    for (int i = 0; i < PLUMB_PRESS_POINT_COUNT; i++) {
        plumb_csv_number(csv, position->point[i].x);
        plumb_csv_number(csv, position->point[i].y);
        plumb_csv_number(csv, position->point[i].z);
    }
}
