/* SPDX-License-Identifier: MIT */
/* CSV as RFC 4180 has it: SI, a unit in every column, an empty cell where there is no figure. */
#include "csv_out.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NUMBER_SIZE = 32, NAME_SIZE = 96, SHORT_DIGITS = 15, FULL_DIGITS = 17 };

static void begin_cell(PlumbCsv *csv)
{
    if (csv->begun) {
        plumb_output_string(csv->out, ",");
    }
    csv->begun = true;
}

void plumb_csv_text(PlumbCsv *csv, const char *text)
{
    begin_cell(csv);
    if (strpbrk(text, ",\"\r\n") == NULL) {
        plumb_output_string(csv->out, text);
        return;
    }
    plumb_output_string(csv->out, "\"");
    for (const char *c = text; *c != '\0'; c++) {
        plumb_output_bytes(csv->out, c, 1);
        if (*c == '"') {
            plumb_output_string(csv->out, "\"");
        }
    }
    plumb_output_string(csv->out, "\"");
}

void plumb_csv_number(PlumbCsv *csv, double value)
{
    begin_cell(csv);
    if (!isfinite(value)) {
        return;
    }
    char text[NUMBER_SIZE];
    for (int digits = SHORT_DIGITS; digits <= FULL_DIGITS; digits++) {
        snprintf(text, sizeof text, "%.*g", digits, value + 0.0);
        if (strtod(text, NULL) == value) {
            break;
        }
    }
    plumb_output_string(csv->out, text);
}

void plumb_csv_row_end(PlumbCsv *csv)
{
    plumb_output_string(csv->out, "\n");
    csv->begun = false;
}

/* One column out of parts: "moment_both_" "hip" "_n_m". */
static void head(PlumbCsv *csv, const char *before, const char *name, const char *after)
{
    char cell[NAME_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_string(&text, before);
    plumb_text_string(&text, name);
    plumb_text_string(&text, after);
    plumb_csv_text(csv, cell);
}

void plumb_csv_interval_head(PlumbCsv *csv, const char *name, PlumbLift lift)
{
    const char *const unit = lift == PLUMB_SQUAT ? "_rad" : "_m";
    head(csv, name, "_low", unit);
    head(csv, name, "_high", unit);
    head(csv, name, "_low_reason", "");
    head(csv, name, "_high_reason", "");
}

void plumb_csv_answer_head(PlumbCsv *csv, PlumbLift lift)
{
    plumb_csv_text(csv, "outcome");
    plumb_csv_text(csv, "failed_constraint");
    plumb_csv_text(csv, "travel_m");
    plumb_csv_interval_head(csv, "window", lift);
    plumb_csv_interval_head(csv, "low_effort_range", lift);
    plumb_csv_text(csv, "expected_hip_rise_m");
    plumb_csv_text(csv, "work_bar_j");
    plumb_csv_text(csv, "work_body_j");
    plumb_csv_text(csv, "findings");
}

void plumb_csv_interval(PlumbCsv *csv, const PlumbInterval *interval_si)
{
    plumb_csv_number(csv, interval_si->exists ? interval_si->low : (double)NAN);
    plumb_csv_number(csv, interval_si->exists ? interval_si->high : (double)NAN);
    plumb_csv_text(csv, plumb_end_name(interval_si->low_end));
    plumb_csv_text(csv, plumb_end_name(interval_si->high_end));
}

void plumb_csv_findings(PlumbCsv *csv, const PlumbFinding *finding, int count)
{
    char names[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(names, sizeof names);
    for (int i = 0; i < count; i++) {
        plumb_text_string(&text, i > 0 ? " " : "");
        plumb_text_string(&text, plumb_finding_name(finding[i].id));
    }
    plumb_csv_text(csv, names);
}

void plumb_csv_answer(PlumbCsv *csv, const PlumbAnswer *answer)
{
    const bool none = answer->outcome == PLUMB_NO_POSE;
    plumb_csv_text(csv, plumb_outcome_name(answer->outcome));
    plumb_csv_text(csv, none ? plumb_constraint_name(answer->failed) : "");
    plumb_csv_number(csv, answer->travel_m);
    plumb_csv_interval(csv, &answer->window);
    plumb_csv_interval(csv, &answer->low_effort);
    plumb_csv_number(csv, answer->expected_hip_rise_m);
    plumb_csv_number(csv, answer->work_bar_j);
    plumb_csv_number(csv, answer->work_body_j);
    plumb_csv_findings(csv, answer->finding, answer->finding_count);
}

static void joint_heads(PlumbCsv *csv, const char *before, const char *after)
{
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        head(csv, before, plumb_joint_name((PlumbJoint)i), after);
    }
}

void plumb_csv_position_head(PlumbCsv *csv)
{
    plumb_csv_text(csv, "hip_x_m");
    plumb_csv_text(csv, "hip_height_m");
    plumb_csv_text(csv, "thorax_lean_rad");
    plumb_csv_text(csv, "balance_frac");
    plumb_csv_text(csv, "clearance_m");
    for (int i = 0; i < PLUMB_ANGLE_COUNT; i++) {
        head(csv, plumb_angle_name((PlumbAngle)i), "_rad", "");
    }
    plumb_csv_text(csv, "knee_to_toe_line_m");
    joint_heads(csv, "bar_arm_", "_m");
    joint_heads(csv, "moment_both_", "_n_m");
    plumb_csv_text(csv, "knee_extension_per_side_n_m");
    plumb_csv_text(csv, "knee_frontal_per_side_n_m");
    plumb_csv_text(csv, "ankle_along_foot_per_side_n_m");
    plumb_csv_text(csv, "hip_frontal_per_side_n_m");
    joint_heads(csv, "relative_effort_", "_frac");
    plumb_csv_text(csv, "summed_effort_frac");
    plumb_csv_text(csv, "extrapolated");
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        const char *const name = plumb_point_name((PlumbPoint)i);
        head(csv, "point_", name, "_x_m");
        head(csv, "point_", name, "_y_m");
        head(csv, "point_", name, "_z_m");
    }
    plumb_csv_text(csv, "com_x_m");
    plumb_csv_text(csv, "com_y_m");
}

static void joints(PlumbCsv *csv, const double value[PLUMB_JOINT_COUNT], bool shoulder_counts)
{
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        const bool counts = shoulder_counts || i != PLUMB_JOINT_shoulder;
        plumb_csv_number(csv, counts ? value[i] : (double)NAN);
    }
}

static void extrapolated(PlumbCsv *csv, unsigned bits)
{
    char names[NAME_SIZE];
    PlumbText text = plumb_text_begin(names, sizeof names);
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        if ((bits >> i & 1U) != 0) {
            plumb_text_string(&text, text.length > 0 ? " " : "");
            plumb_text_string(&text, plumb_joint_name((PlumbJoint)i));
        }
    }
    plumb_csv_text(csv, names);
}

static void point(PlumbCsv *csv, PlumbVec3 place)
{
    plumb_csv_number(csv, place.x);
    plumb_csv_number(csv, place.y);
    plumb_csv_number(csv, place.z);
}

void plumb_csv_position(PlumbCsv *csv, const PlumbPosition *position, PlumbLift lift)
{
    const bool pull = lift == PLUMB_DEADLIFT;
    plumb_csv_number(csv, position->pose.hip_x_m);
    plumb_csv_number(csv, position->pose.hip_height_m);
    plumb_csv_number(csv, position->pose.thorax_lean_rad);
    plumb_csv_number(csv, position->balance_frac);
    plumb_csv_number(csv, position->clearance_m);
    for (int i = 0; i < PLUMB_ANGLE_COUNT; i++) {
        plumb_csv_number(csv, position->angle_rad[i]);
    }
    plumb_csv_number(csv, position->knee_to_toe_line_m);
    joints(csv, position->bar_arm_m, true);
    joints(csv, position->moment_both_n_m, true);
    plumb_csv_number(csv, position->loads_3d.knee_extension_n_m);
    plumb_csv_number(csv, position->loads_3d.knee_frontal_n_m);
    plumb_csv_number(csv, position->loads_3d.ankle_along_foot_n_m);
    plumb_csv_number(csv, position->loads_3d.hip_frontal_n_m);
    joints(csv, position->relative_effort, pull);
    plumb_csv_number(csv, position->summed_effort);
    extrapolated(csv, position->extrapolated);
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        point(csv, position->point[i]);
    }
    plumb_csv_number(csv, position->com.x);
    plumb_csv_number(csv, position->com.y);
}
