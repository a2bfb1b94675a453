/* SPDX-License-Identifier: MIT */
/* A still in words and tables: figures with their spread, against the model, findings, what the
 * picture leaves open, and the lengths that it told of. */
#include "press_out.h"
#include "report.h"
#include "trace_still.h"

#include <math.h>

static void cell_spread(PlumbCliTable *table, double sd, PlumbQuantity quantity, PlumbUnits units)
{
    char cell[PLUMB_CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (isfinite(sd)) {
        plumb_text_string(&text, "± ");
        plumb_text_quantity(&text, sd, quantity, units);
    }
    plumb_table_text(table, cell);
}

static void cell_difference(PlumbCliTable *table, double value, PlumbQuantity quantity,
                            PlumbUnits units)
{
    char cell[PLUMB_CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (isfinite(value)) {
        plumb_text_difference(&text, value, quantity, units);
    } else {
        plumb_text_string(&text, "-");
    }
    plumb_table_text(table, cell);
}

static void print_figures(const PlumbCliStill *still, int index, PlumbUnits units,
                          PlumbCliOutput *out)
{
    const PlumbTraced *const traced = &still->all.trace.still[index];
    PlumbCliTable table = plumb_table_begin("lrrr", units);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "picture");
    plumb_table_text(&table, "");
    plumb_table_text(&table, "less the model's");
    /* Lengths and moments come first, the angles after them. */
    for (int k = 0; k < PLUMB_READING_COUNT; k++) {
        const int i = (k + PLUMB_ANGLE_COUNT) % PLUMB_READING_COUNT;
        const PlumbReading reading = (PlumbReading)i;
        const PlumbQuantity quantity = plumb_reading_quantity(reading);
        if (!plumb_stills_shows(&still->all, index, reading)) {
            continue; /* what a view does not show is no row */
        }
        plumb_table_text(&table, plumb_reading_text(reading));
        plumb_table_value(&table, traced->value[i], quantity);
        cell_spread(&table, traced->sd[i], quantity, units);
        cell_difference(&table, plumb_stills_difference(&still->all, index, reading), quantity,
                        units);
    }
    plumb_table_end(&table, 2, out);
    char line[512];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  ");
    plumb_stills_lead_text(&text, &still->all, index);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, line, 2);
}

static void print_findings(const PlumbCliStill *still, int index, PlumbUnits units,
                           PlumbCliOutput *out)
{
    plumb_print_heading(out, "Findings");
    for (int i = 0; i < still->all.finding_count[index]; i++) {
        const PlumbStillFinding *const finding = &still->all.finding[index][i];
        char line[1024];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, finding->what.severity == PLUMB_WARNING ? "  ! " : "  - ");
        plumb_stills_finding_text(&text, &still->all, index, i, units);
        plumb_print_wrapped(out, line, 4);
    }
    if (still->all.finding_count[index] == 0) {
        plumb_output_string(out, "  none that the spread does not cover\n");
    }
}

static void print_unseen(const PlumbTraced *traced, PlumbCliOutput *out)
{
    plumb_print_heading(out, "What the picture leaves open");
    for (int i = 0; i < PLUMB_UNSEEN_COUNT; i++) {
        if ((traced->unseen & (1U << i)) != 0) {
            char line[512];
            PlumbText text = plumb_text_begin(line, sizeof line);
            plumb_text_string(&text, "  - ");
            plumb_text_string(&text, plumb_unseen_text((PlumbUnseen)i));
            plumb_print_wrapped(out, line, 4);
        }
    }
    if (traced->unseen == 0) {
        plumb_output_string(out, "  nothing\n");
    }
}

static void print_camera(const PlumbCliStill *still, int index, PlumbUnits units,
                         PlumbCliOutput *out)
{
    const PlumbTraced *const traced = &still->all.trace.still[index];
    char line[512];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Camera   ");
    plumb_text_fixed(&text, traced->camera.distance_m, 1);
    plumb_text_string(&text, " m away (± ");
    plumb_text_fixed(&text, traced->distance_sd_m, 1);
    plumb_text_string(&text, " m), turned ");
    plumb_text_quantity(&text, plumb_traced_turn_rad(traced), PLUMB_Q_ANGLE, units);
    plumb_text_string(&text, " (± ");
    plumb_text_quantity(&text, traced->yaw_sd_rad, PLUMB_Q_ANGLE, units);
    plumb_text_string(&text, !still->all.mirrored[index]          ? ")"
                             : still->request.lift == PLUMB_BENCH ? "); the lifter's feet are left"
                                                                  : "); the lifter faces left");
    plumb_print_wrapped(out, line, 9);
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Fit      ");
    plumb_stills_fit_text(&text, &still->all, index);
    plumb_print_wrapped(out, line, 9);
}

/* What the window would take over, as words for a command line. */
static void print_start(const PlumbCliStill *still, int index, PlumbUnits units,
                        PlumbCliOutput *out)
{
    enum { MOST = 4 };
    static const PlumbSettingId none = PLUMB_SETTING_COUNT;
    static const PlumbSettingId standing[2][MOST] = {
        {PLUMB_SET_hip_height, PLUMB_SET_balance, PLUMB_SET_bar_over, PLUMB_SET_spine},
        {PLUMB_SET_shin_angle, PLUMB_SET_balance, PLUMB_SET_depth, PLUMB_SET_spine}};
    static const PlumbSettingId press[2][2][MOST] = {
        {{PLUMB_SET_touch, none}, {PLUMB_SET_lockout_over, none}},
        {{PLUMB_SET_grip, none}, {PLUMB_SET_grip, PLUMB_SET_elbows, none}}};
    const PlumbTraced *const traced = &still->all.trace.still[index];
    const PlumbPressStage stage = still->all.stage[index];
    const PlumbLift lift = still->request.lift;
    const bool of_press = lift == PLUMB_BENCH;
    const bool told = traced->front || plumb_trace_press_placed(traced);
    if (of_press ? stage == PLUMB_PRESS_ON_THE_WAY || !told : traced->front) {
        return;
    }
    const PlumbSetup setup = plumb_trace_setup(traced);
    const bool second = !of_press       ? lift == PLUMB_SQUAT
                        : traced->front ? setup.elbows_given
                                        : stage == PLUMB_PRESS_AT_LOCKOUT;
    const PlumbSettingId *const set = of_press ? press[traced->front][second] : standing[second];
    char line[512];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "As a set-up of your own:");
    for (int i = 0; i < MOST && set[i] != none; i++) {
        plumb_text_string(&text, " ");
        plumb_text_string(&text, plumb_setting(set[i])->key);
        plumb_text_string(&text, "=\"");
        plumb_text_quantity(&text, plumb_setup_get(&setup, set[i]), plumb_setting(set[i])->quantity,
                            units);
        plumb_text_string(&text, "\"");
    }
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, line, 2);
}

/* "within the arm's limits", "2.0 cm below the low-effort range". */
static void put_place(PlumbText *text, double touch_m, const PlumbInterval *interval,
                      const char *name, PlumbUnits units)
{
    const double below = interval->low - touch_m;
    const double above = touch_m - interval->high;
    if (below <= 0.0 && above <= 0.0) {
        plumb_text_string(text, "within ");
    } else {
        plumb_text_quantity(text, below > 0.0 ? below : above, PLUMB_Q_LENGTH, units);
        plumb_text_string(text, below > 0.0 ? " below " : " above ");
    }
    plumb_text_string(text, name);
}

/* The touch that was read among those of the model with this grip. */
static void print_touches(const PlumbCliStill *still, int index, PlumbUnits units,
                          PlumbCliOutput *out)
{
    const PlumbPressAnswer *const press = &still->all.press[index];
    const double touch = press->setup.touch_m;
    if (still->request.lift != PLUMB_BENCH || !still->all.led[index] ||
        still->all.stage[index] != PLUMB_PRESS_AT_TOUCH) {
        return;
    }
    char line[256];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_print_heading(out, "The touch as read, in the model with this grip");
    plumb_text_string(&text, "  Touch ");
    plumb_text_quantity(&text, touch, PLUMB_Q_LENGTH, units);
    if (press->window.exists) {
        plumb_text_string(&text, ": ");
        put_place(&text, touch, &press->window, "the arm's limits", units);
    }
    if (press->low_effort.exists) {
        plumb_text_string(&text, ", ");
        put_place(&text, touch, &press->low_effort, "the low-effort range", units);
    }
    plumb_print_wrapped(out, line, 4);
    plumb_print_touches("Within the arm's limits", &press->window, units, out);
    plumb_print_touches("Low-effort range", &press->low_effort, units, out);
}

static void print_lengths(const PlumbCliStill *still, PlumbUnits units, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("lrrrr", units);
    int count = 0;
    plumb_table_text(&table, "");
    plumb_table_text(&table, "before");
    plumb_table_text(&table, "");
    plumb_table_text(&table, "now");
    plumb_table_text(&table, "");
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const PlumbLength length = (PlumbLength)i;
        if (!plumb_stills_told_length(&still->all, length)) {
            continue;
        }
        plumb_table_text(&table, plumb_length_text(length));
        plumb_table_value(&table, still->all.body.mean_m[i], PLUMB_Q_LENGTH);
        cell_spread(&table, sqrt(still->all.body.cov_m2[i][i]), PLUMB_Q_LENGTH, units);
        plumb_table_value(&table, still->all.trace.body.mean_m[i], PLUMB_Q_LENGTH);
        cell_spread(&table, sqrt(still->all.trace.body.cov_m2[i][i]), PLUMB_Q_LENGTH, units);
        count++;
    }
    plumb_print_heading(out, "Lengths that the pictures tell of");
    if (count == 0) {
        plumb_output_string(out, "  none better than before\n");
        table.count = 0;
    }
    plumb_table_end(&table, 2, out);
}

void plumb_still_text(const PlumbCliStill *still, PlumbUnits units, PlumbCliOutput *out)
{
    plumb_print_lifter(&still->request, units, out);
    for (int i = 0; i < still->all.trace.still_count; i++) {
        char line[512];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, i > 0 ? "\nPicture  " : "Picture  ");
        plumb_text_string(&text, still->all.marks.picture[i][0] != '\0'
                                     ? still->all.marks.picture[i]
                                     : "(no name)");
        plumb_text_string(&text, ", ");
        plumb_stills_view_text(&text, &still->all.trace.still[i]);
        plumb_text_string(&text, "; ");
        plumb_text_string(&text, plumb_lift_name(still->request.lift));
        plumb_text_string(&text, "\n");
        plumb_output_string(out, line);
        print_camera(still, i, units, out);
        plumb_output_string(out, "\n");
        print_figures(still, i, units, out);
        print_start(still, i, units, out);
        print_touches(still, i, units, out);
        PlumbStillStart start;
        if (plumb_still_start(still, i, units, &start)) {
            plumb_still_start_text(&start, units, out);
        }
        print_findings(still, i, units, out);
        print_unseen(&still->all.trace.still[i], out);
    }
    print_lengths(still, units, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out,
                        "± is one standard deviation: of the marks, the camera and what is not "
                        "known of the body. Ask before you film or share other people, above all "
                        "minors.",
                        0);
}
