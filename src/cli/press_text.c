/* SPDX-License-Identifier: MIT */
/* A bench press in words and tables. */
#include "press_out.h"

#include "report.h"

#include <plumbar/scene.h>

#include <math.h>

enum { LINE_SIZE = 1024, HANG = 9 };

static void setup_line(const PlumbPressReport *report, PlumbCliOutput *out)
{
    const PlumbSetup *const setup = &report->answer->setup;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Set-up   ");
    plumb_text_string(&text, plumb_lift_text(setup->lift));
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, setup->load_kg, PLUMB_Q_MASS, report->units);
    plumb_text_string(&text, "; grip ");
    plumb_text_quantity(&text, setup->grip_m, PLUMB_Q_LENGTH, report->units);
    plumb_text_string(&text, setup->grip_by_build ? ", by the build (" : " (");
    plumb_text_quantity(&text,
                        setup->grip_m / plumb_press_shoulder_breadth_m(&report->request->lifter),
                        PLUMB_Q_SHARE, report->units);
    plumb_text_string(&text, " of the shoulder joints' spacing), arch ");
    plumb_text_quantity(&text, setup->arch_m, PLUMB_Q_LENGTH, report->units);
    plumb_text_string(&text, ", elbows ");
    if (setup->elbows_given) {
        plumb_text_quantity(&text, setup->elbows_rad, PLUMB_Q_ANGLE, report->units);
    } else {
        plumb_text_string(&text, "under the bar");
    }
    plumb_setup_rest_text(&text, setup, report->units);
    if (report->request->setup_name[0] != '\0') {
        plumb_text_string(&text, " (");
        plumb_text_string(&text, report->request->setup_name);
        plumb_text_string(&text, ")");
    }
    plumb_print_wrapped(out, line, HANG);
}

static void lead_line(const PlumbPressReport *report, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Leads    ");
    if (report->answer->setup.lead == PLUMB_LEAD_AUTO) {
        plumb_text_string(&text, report->answer->low_effort.exists
                                     ? "auto, the middle of the low-effort range: "
                                     : "auto, which has no low-effort range to go by: ");
    }
    plumb_text_string(&text, "touch ");
    plumb_text_quantity(&text, report->answer->setup.touch_m, PLUMB_Q_LENGTH, report->units);
    plumb_text_string(&text, " from the line through the shoulders toward the feet");
    plumb_print_wrapped(out, line, HANG);
}

static void outcome_line(const PlumbPressReport *report, PlumbCliOutput *out)
{
    const PlumbPressAnswer *const answer = report->answer;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Outcome  ");
    switch (answer->outcome) {
    case PLUMB_HELD:
        plumb_text_string(&text, "held: the arms span touch and lockout within their limits");
        break;
    case PLUMB_OUTSIDE_WINDOW:
        plumb_text_string(&text, "held, but past a limit of the arm or with the elbows elsewhere "
                                 "than asked for: see the findings");
        break;
    case PLUMB_NO_POSE:
        plumb_text_string(&text, "no pose meets the request: the arms cannot span the way to the ");
        plumb_text_string(&text, answer->at_lockout ? "lockout" : "touch");
        plumb_text_string(&text, ", missed by ");
        plumb_text_value(&text, answer->miss_m, PLUMB_Q_LENGTH, report->units);
        break;
    }
    plumb_print_wrapped(out, line, HANG);
}

static bool is_sure(const PlumbPressReport *report)
{
    return report->samples != NULL && report->samples->count > 0 &&
           report->answer->outcome != PLUMB_NO_POSE;
}

void plumb_press_report_head(const PlumbPressReport *report, PlumbCliOutput *out)
{
    plumb_print_lifter(report->request, report->units, out);
    setup_line(report, out);
    lead_line(report, out);
    outcome_line(report, out);
    if (is_sure(report)) {
        plumb_print_measure_first(report->samples, report->request, report->units, out);
    }
}

/* Spread and 95 % of a figure at the touch; empty cells where it has none. */
static void spread(const PlumbPressReport *report, PlumbPressOutput output, PlumbCliTable *table)
{
    plumb_print_spread(is_sure(report) ? plumb_samples_estimate(report->samples, (int)output)
                                       : NULL,
                       plumb_press_output_quantity(output), table);
}

static void row(PlumbCliTable *table, const char *words, double touch, double lockout,
                PlumbQuantity quantity)
{
    plumb_table_text(table, words);
    plumb_table_value(table, touch, quantity);
    plumb_table_value(table, lockout, quantity);
}

static void one(PlumbCliTable *table, const char *words, double value, PlumbQuantity quantity)
{
    plumb_table_text(table, words);
    plumb_table_value(table, value, quantity);
    plumb_table_text(table, "");
}

static void key_figures(const PlumbPressReport *report, PlumbCliOutput *out)
{
    const PlumbPressAnswer *const answer = report->answer;
    const PlumbPressPosition *const touch = &answer->touch;
    const PlumbPressPosition *const end = &answer->lockout;
    const double shoulder = touch->point[PLUMB_PRESS_shoulder].y;
    const bool sure = is_sure(report);
    PlumbCliTable table = plumb_table_begin("lrrrr", report->units);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "touch");
    plumb_table_text(&table, "lockout");
    plumb_table_text(&table, sure ? "± at the touch" : "");
    plumb_table_text(&table, sure ? "95 % of bodies" : "");
    one(&table, "Bar travel, upright", answer->travel_m, PLUMB_Q_LENGTH);
    spread(report, PLUMB_PRESS_OUT_travel, &table);
    one(&table, "Length of the bar's path", answer->path_m, PLUMB_Q_LENGTH);
    spread(report, PLUMB_PRESS_OUT_path_length, &table);
    row(&table, "Upper arm from the trunk", touch->angle_rad[PLUMB_PRESS_ANG_abduction],
        end->angle_rad[PLUMB_PRESS_ANG_abduction], PLUMB_Q_ANGLE);
    spread(report, PLUMB_PRESS_OUT_upper_arm, &table);
    row(&table, "Bar above the shoulder joint", touch->point[PLUMB_PRESS_bar].y - shoulder,
        end->point[PLUMB_PRESS_bar].y - shoulder, PLUMB_Q_LENGTH);
    plumb_table_row_end(&table);
    row(&table, "Bar from above the shoulder, toward the feet",
        touch->bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal],
        end->bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal], PLUMB_Q_LENGTH);
    spread(report, PLUMB_PRESS_OUT_side_arm, &table);
    row(&table, "Elbow outside the hand, from the head end", touch->elbow_off_hand_m,
        end->elbow_off_hand_m, PLUMB_Q_LENGTH);
    spread(report, PLUMB_PRESS_OUT_elbow_off_hand, &table);
    row(&table, "Elbow from under the bar, toward the feet", touch->elbow_off_bar_m,
        end->elbow_off_bar_m, PLUMB_Q_LENGTH);
    plumb_table_row_end(&table);
    one(&table, "Elbow's underside below the shoulder's top", touch->elbow_below_rule_m,
        PLUMB_Q_LENGTH);
    spread(report, PLUMB_PRESS_OUT_elbow_below_rule, &table);
    one(&table, "Abduction that keeps the forearm upright", answer->elbows_upright_rad,
        PLUMB_Q_ANGLE);
    spread(report, PLUMB_PRESS_OUT_elbows_upright, &table);
    plumb_output_string(out, "\n");
    plumb_table_end(&table, 0, out);
}

static void arms(const PlumbPressReport *report, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("lrrl", report->units);
    for (int i = 0; i < PLUMB_PRESS_ARM_COUNT; i++) {
        row(&table, plumb_press_arm_text((PlumbPressArm)i), report->answer->touch.bar_arm_m[i],
            report->answer->lockout.bar_arm_m[i], PLUMB_Q_LENGTH);
        plumb_table_text(&table, plumb_press_arm_reference((PlumbPressArm)i));
    }
    plumb_print_heading(out, "Moment arms of the bar, touch and lockout");
    plumb_table_end(&table, 2, out);
}

static double greatest_effort(const PlumbPressPosition *position)
{
    double greatest = 0.0;
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        greatest = fmax(greatest, position->relative_effort[i]);
    }
    return greatest;
}

/* One person's strength says nothing of this lifter's, so that without an entered strength an
 * effort is a share of the greatest one here, as in the reports of the other lifts. */
static void moments(const PlumbPressReport *report, PlumbCliOutput *out)
{
    const PlumbPressPosition *const touch = &report->answer->touch;
    const bool entered = report->request->lifter.strength_entered;
    const double whole = entered ? 1.0 : greatest_effort(touch);
    PlumbCliTable table = plumb_table_begin("lrrrr", report->units);
    plumb_table_text(&table, "joint");
    plumb_table_head(&table, "net moment", PLUMB_Q_MOMENT);
    plumb_table_text(&table, "effort");
    plumb_table_head(&table, entered ? "can supply" : "of one person", PLUMB_Q_MOMENT);
    plumb_table_head(&table, "lockout: moment", PLUMB_Q_MOMENT);
    for (int i = 0; i < PLUMB_PRESS_JOINT_COUNT; i++) {
        plumb_table_text(&table, plumb_press_joint_text((PlumbPressJoint)i));
        plumb_table_bare(&table, touch->moment_n_m[i], PLUMB_Q_MOMENT);
        plumb_table_value(&table, touch->relative_effort[i] / whole, PLUMB_Q_SHARE);
        plumb_table_bare(&table, touch->capacity_n_m[i], PLUMB_Q_MOMENT);
        plumb_table_bare(&table, report->answer->lockout.moment_n_m[i], PLUMB_Q_MOMENT);
    }
    plumb_print_heading(out, "Joints at the touch, each arm");
    plumb_table_end(&table, 2, out);
    plumb_print_wrapped(out,
                        entered ? "  Effort is the share of what a joint can supply: strength of "
                                  "one published person, scaled by mass and stature and by the "
                                  "strength entered for the shoulder."
                                : "  Effort is the share of the greatest one here, since strength "
                                  "was not entered; it rests on the strength of one published "
                                  "person, scaled by mass and stature.",
                        2);
}

static void angles(const PlumbPressReport *report, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("lrrl", report->units);
    for (int i = 0; i < PLUMB_PRESS_ANGLE_COUNT; i++) {
        row(&table, plumb_press_angle_text((PlumbPressAngle)i), report->answer->touch.angle_rad[i],
            report->answer->lockout.angle_rad[i], PLUMB_Q_ANGLE);
        plumb_table_text(&table, plumb_press_angle_reference((PlumbPressAngle)i));
    }
    plumb_print_heading(out, "Angles, touch and lockout");
    plumb_table_end(&table, 2, out);
}

void plumb_print_touches(const char *name, const PlumbInterval *interval, PlumbUnits units,
                         PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  ");
    plumb_text_string(&text, name);
    if (!interval->exists) {
        plumb_text_string(&text, ": none; at the nearest ");
        plumb_text_string(&text, plumb_end_text(interval->low_end));
        plumb_print_wrapped(out, line, 4);
        return;
    }
    plumb_text_string(&text, ": touch ");
    plumb_text_quantity(&text, interval->low, PLUMB_Q_LENGTH, units);
    plumb_text_string(&text, " to ");
    plumb_text_quantity(&text, interval->high, PLUMB_Q_LENGTH, units);
    plumb_text_string(&text, ". Below: ");
    plumb_text_string(&text, plumb_end_text(interval->low_end));
    plumb_text_string(&text, ". Above: ");
    plumb_text_string(&text, plumb_end_text(interval->high_end));
    plumb_print_wrapped(out, line, 4);
}

static void ranges(const PlumbPressReport *report, PlumbCliOutput *out)
{
    const PlumbPressAnswer *const answer = report->answer;
    plumb_print_heading(out, "Ranges");
    plumb_print_touches("Within the arm's limits", &answer->window, report->units, out);
    plumb_print_touches("Low-effort range", &answer->low_effort, report->units, out);
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Elbow's path: the upper arm turns by ");
    plumb_text_value(&text, answer->abduction_step_rad, PLUMB_Q_ANGLE, report->units);
    plumb_text_string(&text, " within ");
    plumb_text_said(&text, 0.01, PLUMB_Q_LENGTH, report->units);
    plumb_text_string(&text, " of the bar's rise at most, from ");
    plumb_text_value(&text, answer->abduction_step_frac, PLUMB_Q_SHARE, report->units);
    plumb_text_string(&text, " of it on");
    plumb_print_wrapped(out, line, 4);
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Work on the bar: ");
    plumb_text_value(&text, answer->work_bar_j, PLUMB_Q_ENERGY, report->units);
    plumb_print_wrapped(out, line, 4);
}

static void how_sure(const PlumbPressReport *report, PlumbCliOutput *out)
{
    if (report->samples == NULL || report->samples->count == 0) {
        return;
    }
    const PlumbIntervals *const intervals = &report->samples->intervals;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_print_heading(out, "How sure");
    plumb_text_string(&text, "  ");
    plumb_text_string(&text, plumb_interval_caution());
    plumb_print_wrapped(out, line, 4);
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Of ");
    plumb_text_integer(&text, intervals->sample_count);
    plumb_text_string(&text, " bodies that fit what was measured ");
    plumb_text_fixed(&text, 100.0 * intervals->held_share, 1);
    plumb_text_string(&text, " % hold within the arm's limits, ");
    plumb_text_fixed(&text, 100.0 * intervals->outside_share, 1);
    plumb_text_string(&text, " % beyond one, ");
    plumb_text_fixed(&text, 100.0 * intervals->no_pose_share, 1);
    plumb_text_string(&text, " % have no pose");
    plumb_print_wrapped(out, line, 4);
    if (is_sure(report)) {
        plumb_print_measure_next(report->samples, report->request, report->units, out);
    }
}

void plumb_press_report(const PlumbPressReport *report, PlumbCliOutput *out)
{
    const PlumbPressAnswer *const answer = report->answer;
    plumb_press_report_head(report, out);
    if (answer->outcome != PLUMB_NO_POSE) {
        key_figures(report, out);
        arms(report, out);
        moments(report, out);
        angles(report, out);
        ranges(report, out);
    }
    plumb_print_findings(answer->finding, answer->finding_count, report->units, out);
    how_sure(report, out);
    plumb_print_rests_on(&report->request->lifter, &answer->setup, report->units, out);
    plumb_print_wrapped(out,
                        "  Strength of shoulder and elbow: one published person's, so that "
                        "efforts compare touches of one lifter at one load and nothing else",
                        4);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}
