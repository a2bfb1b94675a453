/* SPDX-License-Identifier: MIT */
/* The words of a report: ranges and what ends them, findings, what the figures rest on. */
#include "report.h"

#include "text_out.h"

#include <plumbar/scene.h>

#include <string.h>

enum { LINE_SIZE = 2048 };

static bool is_pull(const PlumbReport *report)
{
    return report->answer->setup.lift == PLUMB_DEADLIFT;
}

/* " (± 2.1 cm)". */
static void put_sd(PlumbText *text, const PlumbReport *report, PlumbOutput output,
                   PlumbQuantity quantity)
{
    const PlumbEstimate *const estimate = plumb_report_estimate(report, output);
    if (estimate != NULL) {
        plumb_text_string(text, " (± ");
        plumb_text_quantity(text, estimate->sd, quantity, report->units);
        plumb_text_string(text, ")");
    }
}

/* "hip height 56.5 cm to 73.4 cm" and what ends it below and above. */
static void print_interval(const PlumbReport *report, const char *name,
                           const PlumbInterval *interval, PlumbOutput low, PlumbOutput high,
                           PlumbCliOutput *out)
{
    const PlumbQuantity quantity = is_pull(report) ? PLUMB_Q_LENGTH : PLUMB_Q_ANGLE;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  ");
    plumb_text_string(&text, name);
    if (!interval->exists) {
        const bool nowhere =
            interval->low_end == PLUMB_END_no_pose && interval->high_end == PLUMB_END_no_pose;
        plumb_text_string(&text, ": none. ");
        if (nowhere) {
            plumb_text_string(&text, "No pose holds with the other settings");
        } else {
            plumb_text_string(&text, "What collides: ");
            plumb_text_string(&text, plumb_end_text(interval->low_end));
            plumb_text_string(&text, "; ");
            plumb_text_string(&text, plumb_end_text(interval->high_end));
        }
        plumb_print_wrapped(out, line, 4);
        return;
    }
    plumb_text_string(&text, is_pull(report) ? ": hip height " : ": shin angle ");
    plumb_text_quantity(&text, interval->low, quantity, report->units);
    put_sd(&text, report, low, quantity);
    plumb_text_string(&text, " to ");
    plumb_text_quantity(&text, interval->high, quantity, report->units);
    put_sd(&text, report, high, quantity);
    plumb_text_string(&text, ". Below: ");
    plumb_text_string(&text, plumb_end_text(interval->low_end));
    plumb_text_string(&text, ". Above: ");
    plumb_text_string(&text, plumb_end_text(interval->high_end));
    plumb_print_wrapped(out, line, 4);
}

static void print_work(const PlumbReport *report, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Work from ");
    plumb_text_string(&text, is_pull(report) ? "start to lockout: " : "hole to standing: ");
    plumb_text_value(&text, report->answer->work_bar_j, PLUMB_Q_ENERGY, report->units);
    plumb_text_string(&text, " on the bar, ");
    plumb_text_value(&text, report->answer->work_body_j, PLUMB_Q_ENERGY, report->units);
    plumb_text_string(&text, " on the lifter's own body");
    plumb_print_wrapped(out, line, 4);
}

static void print_hip_rise(const PlumbReport *report, PlumbCliOutput *out)
{
    if (!is_pull(report) || !(report->answer->expected_hip_rise_m > 0.0)) {
        return;
    }
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Expect the hips to rise ");
    plumb_text_quantity(&text, report->answer->expected_hip_rise_m, PLUMB_Q_LENGTH, report->units);
    plumb_text_string(&text, " before the bar leaves the floor: from here ");
    plumb_text_string(&text, plumb_end_text(report->answer->hip_rise_end));
    plumb_print_wrapped(out, line, 4);
}

void plumb_report_ranges(const PlumbReport *report, PlumbCliOutput *out)
{
    plumb_print_heading(out, "Ranges");
    print_interval(report, is_pull(report) ? "Start window" : "Within joint limits",
                   &report->answer->window, PLUMB_OUT_window_low, PLUMB_OUT_window_high, out);
    print_interval(report, "Low-effort range", &report->answer->low_effort, PLUMB_OUT_range_low,
                   PLUMB_OUT_range_high, out);
    print_hip_rise(report, out);
    print_work(report, out);
}

void plumb_print_findings(const PlumbFinding *finding, int count, PlumbUnits units,
                          PlumbCliOutput *out)
{
    plumb_print_heading(out, "Findings");
    if (count == 0) {
        plumb_output_string(out, "  none\n");
    }
    for (int i = 0; i < count; i++) {
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, finding[i].severity == PLUMB_WARNING ? "  ! " : "  - ");
        plumb_finding_text(&text, &finding[i], units);
        plumb_print_wrapped(out, line, 4);
    }
}

void plumb_report_findings(const PlumbReport *report, PlumbCliOutput *out)
{
    plumb_print_findings(report->answer->finding, report->answer->finding_count, report->units,
                         out);
}

static void spaced_name(PlumbText *text, const char *name)
{
    for (const char *c = name; *c != '\0'; c++) {
        plumb_text_char(text, *c == '_' ? ' ' : *c);
    }
}

/* "  Lengths measured: thigh, shank"; nothing where no length has this basis. */
static void print_basis(const PlumbBody *body, const PlumbSetup *setup, PlumbBasis basis,
                        PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Lengths ");
    plumb_text_string(&text, basis == PLUMB_BASIS_MEMORY ? "from " : "");
    plumb_text_string(&text, plumb_basis_text(basis));
    int count = 0;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (body->length_basis[i] == basis && plumb_setup_uses_length(setup, (PlumbLength)i)) {
            plumb_text_string(&text, count == 0 ? ": " : ", ");
            spaced_name(&text, plumb_length_name((PlumbLength)i));
            count++;
        }
    }
    if (count > 0) {
        plumb_print_wrapped(out, line, 4);
    }
}

static void print_tables(const PlumbBody *body, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Tables: lengths ");
    plumb_text_string(&text, plumb_table_name(body->length_table));
    plumb_text_string(&text, ", masses ");
    plumb_text_string(&text, plumb_table_name(body->mass_table));
    plumb_text_string(&text, "; what is not named below follows the table's share of stature");
    plumb_print_wrapped(out, line, 4);
}

/* Settings left at a default for which no publication was seen. */
static void print_settings(const PlumbSetup *setup, PlumbUnits units, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Defaults from memory");
    int count = 0;
    for (int i = 0; i < PLUMB_SETTING_COUNT; i++) {
        const PlumbSetting *const row = plumb_setting((PlumbSettingId)i);
        const double value = plumb_setup_get(setup, row->id);
        const PlumbSourceRow *const rests = plumb_setup_default_row(setup, row->id);
        if (rests != NULL && strcmp(rests->basis, "memory") == 0) {
            plumb_text_string(&text, count == 0 ? ": " : ", ");
            spaced_name(&text, row->key);
            plumb_text_char(&text, ' ');
            plumb_text_quantity(&text, value, row->quantity, units);
            count++;
        }
    }
    if (count > 0) {
        plumb_print_wrapped(out, line, 4);
    }
}

static void print_efforts(const PlumbReport *report, PlumbCliOutput *out)
{
    if (!report->lifter->strength_entered) {
        plumb_print_wrapped(out,
                            "  Efforts compare set-ups of this lifter only: strength was not "
                            "entered, so that average adults stand in for it",
                            4);
    }
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Extrapolated, strength at an angle that nobody tested");
    int count = 0;
    for (int i = 0; i < PLUMB_JOINT_COUNT; i++) {
        if ((report->answer->start.extrapolated >> i & 1U) != 0) {
            plumb_text_string(&text, count == 0 ? ": " : ", ");
            plumb_text_string(&text, plumb_joint_name((PlumbJoint)i));
            count++;
        }
    }
    if (count > 0) {
        plumb_print_wrapped(out, line, 4);
    }
}

static void print_body_bits(const PlumbBody *body, PlumbCliOutput *out)
{
    static const struct {
        unsigned bit;
        const char *words;
    } rows[] = {
        {PLUMB_BODY_AGE_BELOW_18, "  Extrapolated: strength, since no table covers ages under 18"},
        {PLUMB_BODY_STATURE_OUTSIDE,
         "  Extrapolated: a stature outside the survey's 1st to 99th percentile"},
        {PLUMB_BODY_MASS_OUTSIDE,
         "  Extrapolated: a mass outside the survey's 1st to 99th percentile"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if ((body->extrapolated & rows[i].bit) != 0) {
            plumb_print_wrapped(out, rows[i].words, 4);
        }
    }
}

void plumb_print_rests_on(const PlumbLifter *lifter, const PlumbSetup *setup, PlumbUnits units,
                          PlumbCliOutput *out)
{
    static const PlumbBasis named[] = {PLUMB_BASIS_MEASURED, PLUMB_BASIS_SPREAD, PLUMB_BASIS_TAPED,
                                       PLUMB_BASIS_MEMORY, PLUMB_BASIS_FILLED};
    plumb_print_heading(out, "What this rests on");
    print_tables(&lifter->body, out);
    for (size_t i = 0; i < sizeof named / sizeof named[0]; i++) {
        print_basis(&lifter->body, setup, named[i], out);
    }
    print_settings(setup, units, out);
    print_body_bits(&lifter->body, out);
}

void plumb_report_basis(const PlumbReport *report, PlumbCliOutput *out)
{
    plumb_print_rests_on(report->lifter, &report->answer->setup, report->units, out);
    print_efforts(report, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}
