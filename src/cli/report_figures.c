/* SPDX-License-Identifier: MIT */
/* The tables of a report: figures in order of importance, joints, angles. */
#include "report.h"

#include "text_out.h"

#include <math.h>

static bool is_pull(const PlumbReport *report)
{
    return report->answer->setup.lift == PLUMB_DEADLIFT;
}

static void blank(double *value, int count)
{
    for (int i = 0; i < count; i++) {
        value[i] = (double)NAN;
    }
}

/* The end as found, or without a figure where none was. */
static PlumbPosition end_position(const PlumbAnswer *answer)
{
    PlumbPosition end = answer->end;
    if (answer->end_held) {
        return end;
    }
    const double none = (double)NAN;
    end.pose = (PlumbPose){none, none, none};
    end.balance_frac = none;
    end.knee_to_toe_line_m = none;
    end.loads_3d = (PlumbLoads3d){none, none, none, none, none};
    blank(end.angle_rad, PLUMB_ANGLE_COUNT);
    blank(end.bar_arm_m, PLUMB_JOINT_COUNT);
    blank(end.moment_both_n_m, PLUMB_JOINT_COUNT);
    for (int i = 0; i < PLUMB_POINT_COUNT; i++) {
        end.point[i] = (PlumbVec3){none, none, none};
    }
    return end;
}

/* What has no estimate of its own. */
enum { NO_OUTPUT = -1 };

static void spread_cells(const PlumbReport *report, int output, PlumbQuantity quantity,
                         PlumbCliTable *table)
{
    if (output != NO_OUTPUT) {
        plumb_report_spread(report, (PlumbOutput)output, quantity, table);
    } else {
        plumb_table_text(table, "");
        plumb_table_text(table, "");
    }
}

/* One row: a figure at the start (or in the hole) and at the end, and how sure the first is. */
static void figure_row(const PlumbReport *report, PlumbCliTable *table, const char *label,
                       double start, double end, PlumbQuantity quantity, int output)
{
    plumb_table_text(table, label);
    plumb_table_value(table, start, quantity);
    plumb_table_value(table, end, quantity);
    spread_cells(report, output, quantity, table);
}

static double shoulder_ahead_m(const PlumbPosition *position)
{
    return position->point[PLUMB_PT_shoulder].x - position->point[PLUMB_PT_bar].x;
}

static void key_figures(const PlumbReport *report, const PlumbPosition *end, PlumbCliTable *table)
{
    const PlumbBody *const body = &report->lifter->body;
    const PlumbPosition *const start = &report->answer->start;
    plumb_table_text(table, "Bar travel");
    plumb_table_value(table, report->answer->travel_m, PLUMB_Q_LENGTH);
    plumb_table_text(table, "");
    spread_cells(report, PLUMB_OUT_travel, PLUMB_Q_LENGTH, table);
    figure_row(report, table, "Bar's moment arm about the hip", start->bar_arm_m[PLUMB_JOINT_hip],
               end->bar_arm_m[PLUMB_JOINT_hip], PLUMB_Q_LENGTH, PLUMB_OUT_hip_arm);
    figure_row(report, table, "Balance along the foot, 0 heel to 1 toe tip", start->balance_frac,
               end->balance_frac, PLUMB_Q_FRACTION, PLUMB_OUT_balance);
    figure_row(report, table, "Back angle above level", start->angle_rad[PLUMB_ANG_back],
               end->angle_rad[PLUMB_ANG_back], PLUMB_Q_ANGLE, PLUMB_OUT_back_angle);
    figure_row(report, table, "Hip height (joint centre)", start->pose.hip_height_m,
               end->pose.hip_height_m, PLUMB_Q_LENGTH, PLUMB_OUT_hip_height);
    figure_row(report, table, "  to be seen: hip crease above the knee",
               plumb_crease_above_knee_m(body, start), plumb_crease_above_knee_m(body, end),
               PLUMB_Q_LENGTH, NO_OUTPUT);
    figure_row(report, table, "  to be seen: shoulder ahead of the bar", shoulder_ahead_m(start),
               shoulder_ahead_m(end), PLUMB_Q_LENGTH, PLUMB_OUT_shoulder_ahead);
    figure_row(report, table, "  to be seen: shin from upright", start->angle_rad[PLUMB_ANG_shin],
               end->angle_rad[PLUMB_ANG_shin], PLUMB_Q_ANGLE, PLUMB_OUT_shin_angle);
    figure_row(report, table, "Bar height", start->point[PLUMB_PT_bar].y,
               end->point[PLUMB_PT_bar].y, PLUMB_Q_LENGTH, NO_OUTPUT);
    figure_row(report, table, "Bar ahead of mid-foot", start->point[PLUMB_PT_bar].x,
               end->point[PLUMB_PT_bar].x, PLUMB_Q_LENGTH, PLUMB_OUT_bar_over);
    figure_row(report, table, "Knee outside (+) or inside (-) the toe line",
               start->knee_to_toe_line_m, end->knee_to_toe_line_m, PLUMB_Q_LENGTH,
               PLUMB_OUT_toe_line);
}

static bool counts(const PlumbReport *report, PlumbJoint joint)
{
    return is_pull(report) || joint != PLUMB_JOINT_shoulder;
}

static double greatest_effort(const PlumbReport *report)
{
    double greatest = 0.0;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        const double effort = report->answer->start.relative_effort[i];
        greatest = counts(report, (PlumbJoint)i) && effort > greatest ? effort : greatest;
    }
    return greatest;
}

/* An average adult's strength says nothing of this lifter's, so that without an entered strength
 * an effort is a share of the greatest one here. */
static void effort_cells(const PlumbReport *report, PlumbJoint joint, PlumbCliTable *table)
{
    const PlumbPosition *const start = &report->answer->start;
    const bool entered = report->lifter->strength_entered;
    if (!counts(report, joint)) {
        plumb_table_text(table, "-");
        plumb_table_text(table, entered ? "-" : "");
        return;
    }
    plumb_table_value(table,
                      start->relative_effort[joint] / (entered ? 1.0 : greatest_effort(report)),
                      PLUMB_Q_SHARE);
    if (entered) {
        plumb_table_bare(table, start->capacity_n_m[joint], PLUMB_Q_MOMENT);
    } else {
        plumb_table_text(table, "");
    }
}

/* The figure of the column before it, one standard deviation. */
static void sd_cell(const PlumbReport *report, PlumbOutput output, PlumbQuantity quantity,
                    PlumbCliTable *table)
{
    const PlumbEstimate *const estimate = plumb_report_estimate(report, output);
    if (estimate != NULL) {
        plumb_table_bare(table, estimate->sd, quantity);
    } else {
        plumb_table_text(table, "");
    }
}

static void joint_row(const PlumbReport *report, const PlumbPosition *end, PlumbJoint joint,
                      PlumbCliTable *table)
{
    static const PlumbOutput arm[PLUMB_JOINT_COUNT] = {
        [PLUMB_JOINT_ankle] = PLUMB_OUT_ankle_arm,       [PLUMB_JOINT_knee] = PLUMB_OUT_knee_arm,
        [PLUMB_JOINT_hip] = PLUMB_OUT_hip_arm,           [PLUMB_JOINT_back] = PLUMB_OUT_back_arm,
        [PLUMB_JOINT_shoulder] = PLUMB_OUT_shoulder_arm,
    };
    static const PlumbOutput moment[PLUMB_JOINT_COUNT] = {
        [PLUMB_JOINT_ankle] = PLUMB_OUT_ankle_moment,
        [PLUMB_JOINT_knee] = PLUMB_OUT_knee_moment,
        [PLUMB_JOINT_hip] = PLUMB_OUT_hip_moment,
        [PLUMB_JOINT_back] = PLUMB_OUT_back_moment,
        [PLUMB_JOINT_shoulder] = PLUMB_OUT_shoulder_moment,
    };
    const PlumbPosition *const start = &report->answer->start;
    plumb_table_text(table, plumb_joint_name(joint));
    plumb_table_bare(table, start->bar_arm_m[joint], PLUMB_Q_LENGTH);
    sd_cell(report, arm[joint], PLUMB_Q_LENGTH, table);
    plumb_table_bare(table, start->moment_both_n_m[joint], PLUMB_Q_MOMENT);
    sd_cell(report, moment[joint], PLUMB_Q_MOMENT, table);
    effort_cells(report, joint, table);
    plumb_table_bare(table, end->bar_arm_m[joint], PLUMB_Q_LENGTH);
    plumb_table_bare(table, end->moment_both_n_m[joint], PLUMB_Q_MOMENT);
}

static void joints_note(const PlumbReport *report, PlumbCliOutput *out)
{
    plumb_print_wrapped(out,
                        report->lifter->strength_entered
                            ? "  Net moments are of both sides together. Effort is the share of "
                              "what a joint can supply: of each side, of the back whole."
                            : "  Net moments are of both sides together. Effort is the share of "
                              "the greatest one here, since strength was not entered.",
                        2);
}

static void joints(const PlumbReport *report, const PlumbPosition *end, PlumbCliOutput *out)
{
    static const PlumbJoint order[] = {PLUMB_JOINT_hip, PLUMB_JOINT_back, PLUMB_JOINT_knee,
                                       PLUMB_JOINT_ankle, PLUMB_JOINT_shoulder};
    const bool entered = report->lifter->strength_entered;
    const char *const sd = plumb_report_is_sure(report) ? "±" : "";
    PlumbCliTable table = plumb_table_begin("lrrrrrrrr", report->units);
    plumb_table_text(&table, "joint");
    plumb_table_head(&table, "bar's arm", PLUMB_Q_LENGTH);
    plumb_table_text(&table, sd);
    plumb_table_head(&table, "net moment", PLUMB_Q_MOMENT);
    plumb_table_text(&table, sd);
    plumb_table_text(&table, "effort");
    if (entered) {
        plumb_table_head(&table, "can supply", PLUMB_Q_MOMENT);
    } else {
        plumb_table_text(&table, "");
    }
    plumb_table_head(&table, is_pull(report) ? "lockout: arm" : "standing: arm", PLUMB_Q_LENGTH);
    plumb_table_head(&table, "net moment", PLUMB_Q_MOMENT);
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++) {
        joint_row(report, end, order[i], &table);
    }
    plumb_print_heading(out, is_pull(report) ? "Joints at the start" : "Joints in the hole");
    plumb_table_end(&table, 2, out);
    joints_note(report, out);
}

static void in_space(const PlumbReport *report, const PlumbPosition *end, PlumbCliOutput *out)
{
    const PlumbLoads3d *const start = &report->answer->start.loads_3d;
    const PlumbLoads3d *const last = &end->loads_3d;
    PlumbCliTable table = plumb_table_begin("lrrrr", report->units);
    figure_row(report, &table, "knee, extension", start->knee_extension_n_m,
               last->knee_extension_n_m, PLUMB_Q_MOMENT, NO_OUTPUT);
    figure_row(report, &table, "knee, seen from the front", start->knee_frontal_n_m,
               last->knee_frontal_n_m, PLUMB_Q_MOMENT, PLUMB_OUT_frontal_knee_moment);
    figure_row(report, &table, "ankle, along the foot", start->ankle_along_foot_n_m,
               last->ankle_along_foot_n_m, PLUMB_Q_MOMENT, NO_OUTPUT);
    figure_row(report, &table, "hip, seen from the front", start->hip_frontal_n_m,
               last->hip_frontal_n_m, PLUMB_Q_MOMENT, PLUMB_OUT_frontal_hip_moment);
    plumb_print_heading(out, "Net moments in three dimensions, each side");
    plumb_table_end(&table, 2, out);
    plumb_print_wrapped(out,
                        "  From the front, what the floor's force and the leg's weight do: above 0 "
                        "at the knee they turn the shank outwards; below 0 at the hip they swing "
                        "the leg outwards, and the adductors hold it.",
                        2);
}

static void angles(const PlumbReport *report, const PlumbPosition *end, PlumbCliOutput *out)
{
    static const int output[PLUMB_ANGLE_COUNT] = {
        [PLUMB_ANG_back] = PLUMB_OUT_back_angle,
        [PLUMB_ANG_thorax] = NO_OUTPUT,
        [PLUMB_ANG_shin] = PLUMB_OUT_shin_angle,
        [PLUMB_ANG_thigh] = PLUMB_OUT_thigh_angle,
        [PLUMB_ANG_knee_flexion] = PLUMB_OUT_knee_flexion,
        [PLUMB_ANG_ankle_dorsiflexion] = PLUMB_OUT_dorsiflexion,
        [PLUMB_ANG_frontal_shin] = PLUMB_OUT_frontal_shin,
        [PLUMB_ANG_hip_flexion] = PLUMB_OUT_hip_flexion,
        [PLUMB_ANG_hip_abduction] = PLUMB_OUT_hip_abduction,
        [PLUMB_ANG_hip_external_rotation] = PLUMB_OUT_hip_rotation,
        [PLUMB_ANG_hip_thorax_thigh] = NO_OUTPUT,
        [PLUMB_ANG_shoulder_flexion] = NO_OUTPUT,
    };
    PlumbCliTable table = plumb_table_begin("lrrrrl", report->units);
    for (int i = 0; i < PLUMB_ANGLE_COUNT; i++) {
        figure_row(report, &table, plumb_angle_text((PlumbAngle)i),
                   report->answer->start.angle_rad[i], end->angle_rad[i], PLUMB_Q_ANGLE, output[i]);
        plumb_table_text(&table, plumb_angle_reference((PlumbAngle)i));
    }
    plumb_print_heading(out, "Angles");
    plumb_table_end(&table, 2, out);
}

void plumb_report_figures(const PlumbReport *report, PlumbCliOutput *out)
{
    const PlumbPosition end = end_position(report->answer);
    PlumbCliTable table = plumb_table_begin("lrrrr", report->units);
    const bool sure = plumb_report_is_sure(report);
    plumb_table_text(&table, "");
    plumb_table_text(&table, is_pull(report) ? "start" : "hole");
    plumb_table_text(&table, is_pull(report) ? "lockout" : "standing");
    plumb_table_text(&table, !sure ? "" : is_pull(report) ? "± at the start" : "± in the hole");
    plumb_table_text(&table, sure ? "95 % of bodies" : "");
    key_figures(report, &end, &table);
    plumb_output_string(out, "\n");
    plumb_table_end(&table, 0, out);
    joints(report, &end, out);
    in_space(report, &end, out);
    angles(report, &end, out);
}
