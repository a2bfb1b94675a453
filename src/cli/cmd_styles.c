/* SPDX-License-Identifier: MIT */
/* plumbar styles: one lifter at one load in every style, and what the proportions favour. */
#include "command.h"
#include "csv_out.h"
#include "json_out.h"
#include "request.h"
#include "text_out.h"

#include <plumbar/scene.h>
#include <plumbar/styles.h>

#include <math.h>

enum { LINE_SIZE = 1024, KEY_SIZE = 96 };

typedef struct Styles {
    PlumbCliRequest request;
    PlumbUnits units;
    PlumbStyleEntry entry[PLUMB_STYLE_ROWS_MAX];
    int count;
    PlumbFavour favour[PLUMB_FAVOUR_MAX];
    int favour_count;
} Styles;

static bool is_pull(const Styles *styles)
{
    return styles->request.lift == PLUMB_DEADLIFT;
}

static const char *style_name(const Styles *styles, const PlumbStyleEntry *entry)
{
    return is_pull(styles) ? plumb_style_name(entry->style) : plumb_seat_name(entry->seat);
}

static double value_of(const PlumbStyleEntry *entry, PlumbOutput output)
{
    return entry->answer.outcome == PLUMB_NO_POSE ? (double)NAN
                                                  : plumb_output_value(&entry->answer, output);
}

/* The figures of each row. */
static const PlumbOutput figures[] = {
    PLUMB_OUT_travel,        PLUMB_OUT_hip_arm,      PLUMB_OUT_back_angle,   PLUMB_OUT_hip_moment,
    PLUMB_OUT_back_moment,   PLUMB_OUT_knee_moment,  PLUMB_OUT_window_width, PLUMB_OUT_frontal_shin,
    PLUMB_OUT_hip_abduction, PLUMB_OUT_hip_rotation,
};
static const char *const heads[] = {"travel",      "hip arm",     "back",   "hip moment",
                                    "back moment", "knee moment", "window", "front shin",
                                    "abduction",   "hip rotation"};
enum { FIGURES = (int)(sizeof figures / sizeof figures[0]) };

static void style_cells(const Styles *styles, const PlumbStyleEntry *entry, PlumbCliTable *table)
{
    plumb_table_text(table, style_name(styles, entry));
    plumb_table_bare(table, entry->setup.stance_m, PLUMB_Q_LENGTH);
    plumb_table_bare(table, entry->setup.toes_rad, PLUMB_Q_ANGLE);
}

static void print_table(const Styles *styles, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("lrrrrrrrrrrrr", styles->units);
    plumb_table_text(&table, is_pull(styles) ? "style" : "bar");
    plumb_table_head(&table, "stance", PLUMB_Q_LENGTH);
    plumb_table_head(&table, "toes", PLUMB_Q_ANGLE);
    for (int i = 0; i < FIGURES; i++) {
        plumb_table_head(&table, heads[i], plumb_output_quantity(figures[i], styles->request.lift));
    }
    for (int i = 0; i < styles->count; i++) {
        const PlumbStyleEntry *const entry = &styles->entry[i];
        style_cells(styles, entry, &table);
        for (int f = 0; f < FIGURES; f++) {
            plumb_table_bare(&table, value_of(entry, figures[f]),
                             plumb_output_quantity(figures[f], styles->request.lift));
        }
    }
    plumb_table_end(&table, 0, out);
}

static void spaced(PlumbText *text, const char *name)
{
    for (const char *c = name; *c != '\0'; c++) {
        plumb_text_char(text, *c == '_' ? ' ' : *c);
    }
}

/* "sumo 70.0 cm: hip abduction is past its limit by 3.0°" and the warnings of the row. */
static void print_binding(const Styles *styles, PlumbCliOutput *out)
{
    plumb_print_heading(out, "The nearest limit of each");
    for (int i = 0; i < styles->count; i++) {
        const PlumbStyleEntry *const entry = &styles->entry[i];
        const double left = entry->limit_left_rad[entry->tightest];
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "  ");
        plumb_text_string(&text, style_name(styles, entry));
        plumb_text_string(&text, ", stance ");
        plumb_text_quantity(&text, entry->setup.stance_m, PLUMB_Q_LENGTH, styles->units);
        plumb_text_string(&text, ": ");
        if (entry->answer.outcome == PLUMB_NO_POSE) {
            plumb_text_string(&text, "no pose is held");
        } else {
            spaced(&text, plumb_limit_name(entry->tightest));
            plumb_text_char(&text, ' ');
            plumb_text_quantity(&text, fabs(left), PLUMB_Q_ANGLE, styles->units);
            plumb_text_string(&text, left >= 0.0 ? " short of its limit" : " past its limit");
        }
        for (int f = 0; f < entry->answer.finding_count; f++) {
            const PlumbFinding *const finding = &entry->answer.finding[f];
            if (finding->severity == PLUMB_WARNING && finding->id != PLUMB_FIND_joint_past_limit &&
                finding->id != PLUMB_FIND_no_pose) {
                plumb_text_string(&text, ". ");
                plumb_finding_text(&text, finding, styles->units);
                text.length -= text.length > 0 && text.data[text.length - 1] == '.';
                text.data[text.length] = '\0';
            }
        }
        plumb_print_wrapped(out, line, 4);
    }
}

static void print_favours(const Styles *styles, PlumbCliOutput *out)
{
    plumb_print_heading(out, "What the proportions say");
    for (int i = 0; i < styles->favour_count; i++) {
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "  - ");
        plumb_favour_text(&text, &styles->favour[i], styles->request.lift, styles->units);
        plumb_print_wrapped(out, line, 4);
    }
    plumb_print_wrapped(out,
                        "  Proportions are one reason among several: strength, practice, comfort "
                        "and the rules decide as much. There is no score across styles; summed "
                        "efforts of different styles are not compared.",
                        2);
}

static void print_text(const Styles *styles, PlumbCliOutput *out)
{
    const PlumbBody *const body = &styles->request.lifter.body;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Lifter   ");
    plumb_text_string(&text, styles->request.record.name);
    plumb_text_string(&text, styles->request.record.name[0] != '\0' ? ", " : "");
    plumb_text_string(&text, plumb_sex_name(body->sex));
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->stature_m, PLUMB_Q_STATURE, styles->units);
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->mass_kg, PLUMB_Q_MASS, styles->units);
    plumb_text_string(&text, "; ");
    plumb_text_string(&text, plumb_lift_name(styles->request.lift));
    plumb_text_string(&text, " with ");
    plumb_text_quantity(&text, styles->request.setup.load_kg, PLUMB_Q_MASS, styles->units);
    plumb_print_wrapped(out, line, 9);
    plumb_print_wrapped(out,
                        is_pull(styles)
                            ? "Every start is led by balance 0.40. Moments are net, of both sides."
                            : "Every hole is led by auto, the middle of its low-effort range. "
                              "Moments are net, of both sides; the window is of the shin angle.",
                        0);
    plumb_output_string(out, "\n");
    print_table(styles, out);
    print_binding(styles, out);
    print_favours(styles, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static void number_with_unit(PlumbJson json, PlumbOutput o, PlumbLift lift, double value)
{
    char key[KEY_SIZE];
    PlumbText text = plumb_text_begin(key, sizeof key);
    plumb_text_string(&text, plumb_output_name(o));
    plumb_text_string(&text, plumb_output_unit(o, lift));
    plumb_json_number(json, key, value);
}

static json_t *json_entry(const Styles *styles, const PlumbStyleEntry *entry, bool *failed)
{
    const PlumbJson json = plumb_json_begin(failed);
    plumb_json_string(json, is_pull(styles) ? "style" : "bar", style_name(styles, entry));
    plumb_json_string(json, "outcome", plumb_outcome_name(entry->answer.outcome));
    plumb_json_setup(plumb_json_object(json, "setup"), &entry->answer.setup);
    const PlumbJson values = plumb_json_object(json, "figures");
    for (int o = 0; o < PLUMB_OUTPUT_COUNT; o++) {
        if (plumb_output_applies((PlumbOutput)o, styles->request.lift) &&
            (PlumbOutput)o != PLUMB_OUT_summed_effort) {
            number_with_unit(values, (PlumbOutput)o, styles->request.lift,
                             value_of(entry, (PlumbOutput)o));
        }
    }
    const PlumbJson left = plumb_json_object(json, "limit_left_rad");
    for (int i = 0; i < PLUMB_LEG_LIMIT_COUNT; i++) {
        plumb_json_number(left, plumb_limit_name((PlumbLimit)i), entry->limit_left_rad[i]);
    }
    plumb_json_string(json, "tightest", plumb_limit_name(entry->tightest));
    return json.object;
}

static json_t *json_favour(const Styles *styles, const PlumbFavour *favour, bool *failed)
{
    const PlumbJson json = plumb_json_begin(failed);
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_favour_text(&text, favour, styles->request.lift, PLUMB_METRIC);
    const bool pull = is_pull(styles);
    plumb_json_string(json, "first",
                      pull ? plumb_style_name((PlumbStyle)favour->a)
                           : plumb_seat_name((PlumbSeat)favour->a));
    plumb_json_string(json, "second",
                      pull ? plumb_style_name((PlumbStyle)favour->b)
                           : plumb_seat_name((PlumbSeat)favour->b));
    plumb_json_string(json, "figure", plumb_output_name(favour->output));
    plumb_json_number(json, "difference_si", favour->difference);
    plumb_json_number(json, "average_difference_si", favour->average);
    plumb_json_number(json, "spread_si", favour->spread);
    plumb_json_string(json, "strength", plumb_favour_strength(favour));
    plumb_json_string(json, "text", line);
    return json.object;
}

static void print_json(const Styles *styles, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_string(json, "lift", plumb_lift_name(styles->request.lift));
    plumb_json_number(json, "load_kg", styles->request.setup.load_kg);
    json_t *const rows = json_array();
    for (int i = 0; i < styles->count; i++) {
        json_array_append_new(rows, json_entry(styles, &styles->entry[i], &failed));
    }
    plumb_json_put(json, "styles", rows);
    json_t *const favours = json_array();
    for (int i = 0; i < styles->favour_count; i++) {
        json_array_append_new(favours, json_favour(styles, &styles->favour[i], &failed));
    }
    plumb_json_put(json, "proportions", favours);
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

static void print_csv(const Styles *styles, PlumbCliOutput *out)
{
    PlumbCsv csv = {.out = out};
    plumb_csv_text(&csv, is_pull(styles) ? "style" : "bar");
    plumb_csv_answer_head(&csv, styles->request.lift);
    plumb_csv_position_head(&csv);
    plumb_csv_row_end(&csv);
    for (int i = 0; i < styles->count; i++) {
        plumb_csv_text(&csv, style_name(styles, &styles->entry[i]));
        plumb_csv_answer(&csv, &styles->entry[i].answer);
        plumb_csv_position(&csv, &styles->entry[i].answer.start, styles->request.lift);
        plumb_csv_row_end(&csv);
    }
}

PlumbCliExit plumb_cli_styles(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    static Styles styles;
    const PlumbStatus status = plumb_request_read(args->word, args->word_count, PLUMB_REQUEST_SETUP,
                                                  &styles.request, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    const PlumbLifter *const lifter = &styles.request.lifter;
    styles.units = args->units;
    styles.count = plumb_styles(lifter, &styles.request.setup, styles.entry);
    styles.favour_count = plumb_styles_favours(lifter, &styles.request.setup, styles.favour);
    int held = 0;
    for (int i = 0; i < styles.count; i++) {
        held += styles.entry[i].answer.outcome != PLUMB_NO_POSE;
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(&styles, &out);
    } else if (args->csv) {
        print_csv(&styles, &out);
    } else {
        print_text(&styles, &out);
    }
    return plumb_cli_finish(&out, held > 0 ? PLUMB_EXIT_ANSWERED : PLUMB_EXIT_NO_POSE, fault);
}
