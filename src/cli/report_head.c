/* SPDX-License-Identifier: MIT */
/* The first lines of a report: lifter, set-up, what leads, outcome. */
#include "report.h"

#include "text_out.h"

#include <math.h>

enum { LINE_SIZE = 1024, HANG = 9 };

static bool is_pull(const PlumbReport *report)
{
    return report->answer->setup.lift == PLUMB_DEADLIFT;
}

void plumb_print_lifter(const PlumbCliRequest *request, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbBody *const body = &request->lifter.body;
    const PlumbLifterRecord *const record = &request->record;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Lifter   ");
    plumb_text_string(&text, record->name);
    plumb_text_string(&text, record->name[0] != '\0' ? ", " : "");
    plumb_text_string(&text, plumb_sex_name(body->sex));
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->stature_m, PLUMB_Q_STATURE, units);
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->mass_kg, PLUMB_Q_MASS, units);
    if (body->age_years > 0.0) {
        plumb_text_string(&text, ", ");
        plumb_text_fixed(&text, body->age_years, 0);
        plumb_text_string(&text, " years");
    }
    plumb_print_wrapped(out, line, HANG);
}

static void setup_line(const PlumbReport *report, PlumbCliOutput *out)
{
    const PlumbSetup *const setup = &report->answer->setup;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Set-up   ");
    plumb_text_string(&text, plumb_lift_name(setup->lift));
    plumb_text_string(&text, ", ");
    plumb_text_string(&text, is_pull(report) ? plumb_style_name(setup->style)
                                             : plumb_seat_name(setup->seat));
    plumb_text_string(&text, is_pull(report) ? ", " : " bar, ");
    plumb_text_quantity(&text, setup->load_kg, PLUMB_Q_MASS, report->units);
    plumb_text_string(&text, "; stance ");
    plumb_text_quantity(&text, setup->stance_m, PLUMB_Q_LENGTH, report->units);
    plumb_text_string(&text, ", toes ");
    plumb_text_quantity(&text, setup->toes_rad, PLUMB_Q_ANGLE, report->units);
    plumb_text_string(&text, ", grip ");
    plumb_text_quantity(&text, setup->grip_m, PLUMB_Q_LENGTH, report->units);
    plumb_setup_rest_text(&text, setup, report->units);
    if (report->request->setup_name[0] != '\0') {
        plumb_text_string(&text, " (");
        plumb_text_string(&text, report->request->setup_name);
        plumb_text_string(&text, ")");
    }
    plumb_print_wrapped(out, line, HANG);
}

/* Appends the leading figure, as the solved pose has it. */
static void lead_value(PlumbText *text, const PlumbReport *report)
{
    const PlumbPosition *const start = &report->answer->start;
    const PlumbLead lead = report->answer->setup.lead;
    const PlumbSetup *const setup = &report->answer->setup;
    const bool height = lead == PLUMB_LEAD_HIP_HEIGHT || lead == PLUMB_LEAD_HEIGHT_AND_BALANCE ||
                        (lead == PLUMB_LEAD_AUTO && is_pull(report));
    if (lead == PLUMB_LEAD_AUTO) {
        plumb_text_string(text, report->answer->low_effort.exists
                                    ? "auto, the middle of the low-effort range: "
                                    : "auto, which has no low-effort range to go by: ");
    }
    if (lead == PLUMB_LEAD_BALANCE) {
        plumb_text_string(text, "balance ");
        plumb_text_quantity(text, setup->balance_frac, PLUMB_Q_FRACTION, report->units);
    } else if (lead == PLUMB_LEAD_BACK_ANGLE) {
        plumb_text_string(text, "back angle ");
        plumb_text_quantity(text, setup->back_angle_rad, PLUMB_Q_ANGLE, report->units);
    } else if (height) {
        plumb_text_string(text, "hip height ");
        plumb_text_quantity(
            text, lead == PLUMB_LEAD_AUTO ? start->pose.hip_height_m : setup->hip_height_m,
            PLUMB_Q_LENGTH, report->units);
    } else {
        plumb_text_string(text, "shin angle ");
        plumb_text_quantity(text,
                            lead == PLUMB_LEAD_AUTO ? start->angle_rad[PLUMB_ANG_shin]
                                                    : setup->shin_angle_rad,
                            PLUMB_Q_ANGLE, report->units);
    }
}

static void lead_line(const PlumbReport *report, PlumbCliOutput *out)
{
    static const char *const follow[PLUMB_LIFT_COUNT][PLUMB_LEAD_COUNT] = {
        [PLUMB_DEADLIFT] =
            {
                [PLUMB_LEAD_BALANCE] = "hip height and back angle follow",
                [PLUMB_LEAD_HIP_HEIGHT] = "balance and back angle follow",
                [PLUMB_LEAD_BACK_ANGLE] = "balance and hip height follow",
                [PLUMB_LEAD_SHIN_ANGLE] = "balance and hip height follow",
                [PLUMB_LEAD_AUTO] = "balance and back angle follow",
                [PLUMB_LEAD_HEIGHT_AND_BALANCE] =
                    "with it balance as given; the back follows, and the leg may leave the bar",
            },
        [PLUMB_SQUAT] =
            {
                [PLUMB_LEAD_BALANCE] = "back angle and shin follow",
                [PLUMB_LEAD_HIP_HEIGHT] = "back angle and shin follow",
                [PLUMB_LEAD_BACK_ANGLE] = "shin and hip height follow from depth and balance",
                [PLUMB_LEAD_SHIN_ANGLE] = "back and hip height follow from depth and balance",
                [PLUMB_LEAD_AUTO] = "back and hip height follow from depth and balance",
                [PLUMB_LEAD_HEIGHT_AND_BALANCE] = "back angle and shin follow",
            },
    };
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Leads    ");
    lead_value(&text, report);
    plumb_text_string(&text, "; ");
    plumb_text_string(&text, follow[report->answer->setup.lift][report->answer->setup.lead]);
    plumb_print_wrapped(out, line, HANG);
}

static PlumbQuantity miss_quantity(PlumbConstraintId id)
{
    if (id == PLUMB_CON_balance) {
        return PLUMB_Q_FRACTION;
    }
    return id == PLUMB_CON_shin_angle || id == PLUMB_CON_back_angle ? PLUMB_Q_ANGLE
                                                                    : PLUMB_Q_LENGTH;
}

/* The elbow of a squat is drawn, not solved: its limit is a finding, and no part of the outcome. */
static const char *held_words(const PlumbReport *report)
{
    if (is_pull(report)) {
        return "held: in balance, inside the start window";
    }
    for (int i = 0; i < report->answer->finding_count; i++) {
        if (report->answer->finding[i].id == PLUMB_FIND_joint_past_limit) {
            return "held: in balance, no limit of leg or trunk passed, but one of the arm";
        }
    }
    return "held: in balance, no joint past its limit";
}

static void outcome_line(const PlumbReport *report, PlumbCliOutput *out)
{
    const PlumbAnswer *const answer = report->answer;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Outcome  ");
    switch (answer->outcome) {
    case PLUMB_HELD:
        plumb_text_string(&text, held_words(report));
        break;
    case PLUMB_OUTSIDE_WINDOW:
        plumb_text_string(&text, is_pull(report)
                                     ? "held, but outside the start window"
                                     : "held in balance, but a joint is past its limit");
        break;
    case PLUMB_NO_POSE:
        plumb_text_string(&text, "no pose meets the request. What cannot be met: ");
        plumb_text_string(&text, plumb_constraint_text(answer->failed));
        if (isfinite(answer->miss)) {
            plumb_text_string(&text, ", missed by ");
            plumb_miss_text(&text, answer->miss, miss_quantity(answer->failed), report->units);
            plumb_text_string(&text, ". The figures are those of the nearest pose");
        } else {
            plumb_text_string(&text,
                              ". No pose near it was found: the figures are those of a first "
                              "guess");
        }
        break;
    }
    plumb_print_wrapped(out, line, HANG);
}

void plumb_report_head(const PlumbReport *report, PlumbCliOutput *out)
{
    plumb_print_lifter(report->request, report->units, out);
    setup_line(report, out);
    lead_line(report, out);
    outcome_line(report, out);
}
