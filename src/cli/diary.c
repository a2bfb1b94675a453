/* SPDX-License-Identifier: MIT */
/* A lifter's log, each entry solved and printed. */
#include "diary.h"

#include "command.h"
#include "csv_out.h"
#include "json_out.h"
#include "picture.h"
#include "text_out.h"

#include <plumbar/diary.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { TITLE_SIZE = 200 };

static void fill(const PlumbLifter *lifter, const PlumbLogEntry *entry, PlumbCliDiaryRow *row)
{
    PlumbAnswer answer;
    plumb_answer_quick(lifter, &entry->setup, &answer);
    const bool held = answer.outcome != PLUMB_NO_POSE;
    *row = (PlumbCliDiaryRow){
        .entry = entry,
        .travel_m = held ? answer.travel_m : (double)NAN,
        .hip_height_m = held ? answer.start.point[PLUMB_PT_hip].y : (double)NAN,
        .hip_arm_m = held ? answer.start.bar_arm_m[PLUMB_JOINT_hip] : (double)NAN,
        .back_rad = held ? answer.start.angle_rad[PLUMB_ANG_back] : (double)NAN,
    };
}

/* Days as text sort as days; entries of one day keep their order. */
static void sort_rows(PlumbCliDiary *diary)
{
    for (int i = 1; i < diary->count; i++) {
        const PlumbCliDiaryRow row = diary->row[i];
        int at = i;
        while (at > 0 && strcmp(diary->row[at - 1].entry->date, row.entry->date) > 0) {
            diary->row[at] = diary->row[at - 1];
            at--;
        }
        diary->row[at] = row;
    }
}

PlumbStatus plumb_diary_take(const PlumbLifterFile *file, PlumbCliDiary *diary,
                             PlumbCliFault *fault)
{
    PlumbLifter lifter;
    const PlumbStatus status = plumb_lifter_file_lifter(file, &lifter, &fault->error);
    if (status != PLUMB_OK) {
        return status;
    }
    diary->row = malloc((file->log_count + 1) * sizeof *diary->row);
    if (diary->row == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "log", "no memory for the log");
    }
    diary->count = 0;
    for (size_t i = 0; i < file->log_count; i++) {
        if (!diary->one_lift || file->log[i].lift == diary->lift) {
            fill(&lifter, &file->log[i], &diary->row[diary->count++]);
        }
    }
    sort_rows(diary);
    return PLUMB_OK;
}

static void print_text(const PlumbCliArgs *args, const PlumbCliDiary *diary, PlumbCliOutput *out)
{
    if (diary->count == 0) {
        plumb_output_string(out,
                            "The log has no entry. plumbar log FILE:set-up --add writes one.\n");
        return;
    }
    PlumbCliTable table = plumb_table_begin("lllrrrrrl", args->units);
    plumb_table_text(&table, "date");
    plumb_table_text(&table, "lift");
    plumb_table_text(&table, "set-up");
    plumb_table_head(&table, "load", PLUMB_Q_MASS);
    plumb_table_head(&table, "travel", PLUMB_Q_LENGTH);
    plumb_table_head(&table, "hip height", PLUMB_Q_LENGTH);
    plumb_table_head(&table, "hip arm", PLUMB_Q_LENGTH);
    plumb_table_head(&table, "back", PLUMB_Q_ANGLE);
    plumb_table_text(&table, "findings");
    plumb_table_row_end(&table);
    for (int i = 0; i < diary->count; i++) {
        const PlumbCliDiaryRow *const row = &diary->row[i];
        plumb_table_text(&table, row->entry->date);
        plumb_table_text(&table, plumb_lift_text(row->entry->lift));
        plumb_table_text(&table, row->entry->setup_name[0] != '\0' ? row->entry->setup_name : "-");
        plumb_table_bare(&table, row->entry->setup.load_kg, PLUMB_Q_MASS);
        plumb_table_bare(&table, row->travel_m, PLUMB_Q_LENGTH);
        plumb_table_bare(&table, row->hip_height_m, PLUMB_Q_LENGTH);
        plumb_table_bare(&table, row->hip_arm_m, PLUMB_Q_LENGTH);
        plumb_table_bare(&table, row->back_rad, PLUMB_Q_ANGLE);
        plumb_table_text(&table, row->entry->findings[0] != '\0' ? row->entry->findings : "-");
        plumb_table_row_end(&table);
    }
    plumb_table_end(&table, 0, out);
    for (int i = 0; i < diary->count; i++) {
        const PlumbLogEntry *const entry = diary->row[i].entry;
        if (entry->note[0] != '\0') {
            char line[PLUMB_LIFTER_NOTE_SIZE + 32];
            PlumbText text = plumb_text_begin(line, sizeof line);
            plumb_text_string(&text, entry->date);
            plumb_text_string(&text, ": ");
            plumb_text_string(&text, entry->note);
            plumb_print_wrapped(out, line, 2);
        }
    }
}

static void print_json(const PlumbCliDiary *diary, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    json_t *const list = json_array();
    for (int i = 0; i < diary->count; i++) {
        const PlumbCliDiaryRow *const row = &diary->row[i];
        const PlumbJson entry = plumb_json_begin(&failed);
        plumb_json_string(entry, "date", row->entry->date);
        plumb_json_string(entry, "lift", plumb_lift_name(row->entry->lift));
        plumb_json_string(entry, "setup_name", row->entry->setup_name);
        plumb_json_setup(plumb_json_object(entry, "setup"), &row->entry->setup);
        plumb_json_number(entry, "load_kg", row->entry->setup.load_kg);
        plumb_json_number(entry, "travel_m", row->travel_m);
        plumb_json_number(entry, "hip_height_m", row->hip_height_m);
        plumb_json_number(entry, "hip_arm_m", row->hip_arm_m);
        plumb_json_number(entry, "back_angle_rad", row->back_rad);
        plumb_json_string(entry, "findings", row->entry->findings);
        plumb_json_string(entry, "note", row->entry->note);
        failed = json_array_append_new(list, entry.object) != 0 || failed;
    }
    plumb_json_put(json, "log", list);
    plumb_json_print(json, 2, out);
    plumb_output_string(out, "\n");
}

static void print_csv(const PlumbCliDiary *diary, PlumbCliOutput *out)
{
    static const char *const head[] = {"date",     "lift",         "setup_name", "load_kg",
                                       "travel_m", "hip_height_m", "hip_arm_m",  "back_angle_rad",
                                       "findings", "note"};
    PlumbCsv csv = {.out = out};
    for (size_t i = 0; i < sizeof head / sizeof head[0]; i++) {
        plumb_csv_text(&csv, head[i]);
    }
    plumb_csv_row_end(&csv);
    for (int i = 0; i < diary->count; i++) {
        const PlumbCliDiaryRow *const row = &diary->row[i];
        plumb_csv_text(&csv, row->entry->date);
        plumb_csv_text(&csv, plumb_lift_name(row->entry->lift));
        plumb_csv_text(&csv, row->entry->setup_name);
        plumb_csv_number(&csv, row->entry->setup.load_kg);
        plumb_csv_number(&csv, row->travel_m);
        plumb_csv_number(&csv, row->hip_height_m);
        plumb_csv_number(&csv, row->hip_arm_m);
        plumb_csv_number(&csv, row->back_rad);
        plumb_csv_text(&csv, row->entry->findings);
        plumb_csv_text(&csv, row->entry->note);
        plumb_csv_row_end(&csv);
    }
}

/* Days since 1 March of the year 0, by counting months of a year that begins in March. */
static double day_of(const char *date)
{
    const int year = atoi(date);
    const int month = atoi(date + 5);
    const int day = atoi(date + 8);
    const int m = (month + 9) % 12;
    const int y = year - m / 10;
    const int leaps = y / 4 - y / 100 + y / 400;
    const int months = (m * 306 + 5) / 10;
    return 365.0 * y + leaps + months + day - 1;
}

/* What the chart is made of, on the heap. */
typedef struct Chart {
    PlumbScene scene;
    double *day;
    const char **date;
    double *value[PLUMB_DIARY_PANELS];
    char label[PLUMB_DIARY_PANELS][64];
    PlumbFont *font;
} Chart;

static void chart_free(Chart *chart)
{
    if (chart != NULL) {
        for (int i = 0; i < PLUMB_DIARY_PANELS; i++) {
            free(chart->value[i]);
        }
        free(chart->day);
        free(chart->date);
        plumb_font_destroy(chart->font);
        free(chart);
        plumb_draw_finish();
    }
}

static Chart *chart_create(int count)
{
    Chart *const chart = calloc(1, sizeof *chart);
    if (chart == NULL) {
        return NULL;
    }
    const size_t size = (size_t)count * sizeof(double);
    bool whole = true;
    for (int i = 0; i < PLUMB_DIARY_PANELS; i++) {
        chart->value[i] = malloc(size);
        whole = whole && chart->value[i] != NULL;
    }
    chart->day = malloc(size);
    chart->date = malloc((size_t)count * sizeof *chart->date);
    chart->font = plumb_font_create();
    if (!whole || chart->day == NULL || chart->date == NULL || chart->font == NULL) {
        chart_free(chart);
        return NULL;
    }
    return chart;
}

static void chart_compose(const PlumbCliArgs *args, const PlumbLifterFile *file,
                          const PlumbCliDiary *diary, Chart *chart)
{
    static const struct {
        const char *words;
        PlumbQuantity quantity;
    } figure[PLUMB_DIARY_PANELS] = {{"load", PLUMB_Q_MASS},
                                    {"hip height", PLUMB_Q_LENGTH},
                                    {"hips behind the bar", PLUMB_Q_LENGTH},
                                    {"back above level", PLUMB_Q_ANGLE}};
    char title[TITLE_SIZE];
    PlumbText text = plumb_text_begin(title, sizeof title);
    plumb_text_string(&text, file->record.name);
    plumb_text_string(&text, file->record.name[0] != '\0' ? ", " : "");
    plumb_text_string(&text, plumb_lift_text(diary->row[0].entry->lift));
    PlumbDiary drawn = {.title = title,
                        .note = "Each dot is an entry of the lifter's log: the set-up of that day, "
                                "solved for this body. Estimates for teaching; not medical advice.",
                        .count = diary->count,
                        .day = chart->day,
                        .date = chart->date,
                        .panel_count = PLUMB_DIARY_PANELS,
                        .text_width = plumb_font_width,
                        .text_user = chart->font};
    for (int i = 0; i < diary->count; i++) {
        const PlumbCliDiaryRow *const row = &diary->row[i];
        const double value[PLUMB_DIARY_PANELS] = {row->entry->setup.load_kg, row->hip_height_m,
                                                  row->hip_arm_m, row->back_rad};
        chart->day[i] = day_of(row->entry->date);
        chart->date[i] = row->entry->date;
        for (int k = 0; k < PLUMB_DIARY_PANELS; k++) {
            chart->value[k][i] = value[k] * plumb_quantity_factor(figure[k].quantity, args->units);
        }
    }
    for (int k = 0; k < PLUMB_DIARY_PANELS; k++) {
        PlumbText label = plumb_text_begin(chart->label[k], sizeof chart->label[k]);
        plumb_text_string(&label, figure[k].words);
        plumb_text_string(&label, ", ");
        plumb_text_string(&label, plumb_quantity_unit(figure[k].quantity, args->units));
        drawn.panel[k] = (PlumbDiaryPanel){chart->label[k],
                                           plumb_quantity_decimals(figure[k].quantity, args->units),
                                           chart->value[k]};
    }
    plumb_compose_diary(&chart->scene, &drawn,
                        args->letter ? PLUMB_LETTER_LANDSCAPE : PLUMB_A4_LANDSCAPE);
}

static PlumbStatus draw(const PlumbCliArgs *args, PlumbPictureKind kind,
                        const PlumbLifterFile *file, const PlumbCliDiary *diary, PlumbBytes *bytes,
                        PlumbCliFault *fault)
{
    if (diary->count == 0) {
        return plumb_fault_bad(fault, "log", "has no entry to draw", "", "");
    }
    for (int i = 1; i < diary->count; i++) {
        if (diary->row[i].entry->lift != diary->row[0].entry->lift) {
            return plumb_fault_bad(fault, "log",
                                   "has more than one lift; write which is to be drawn: ",
                                   "plumbar log deadlift FILE", "");
        }
    }
    Chart *const chart = chart_create(diary->count);
    if (chart == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "log", "no memory for the chart");
    }
    chart_compose(args, file, diary, chart);
    const PlumbStatus status =
        plumb_picture_render(&chart->scene, kind, args, bytes, &fault->error);
    chart_free(chart);
    return status;
}

PlumbCliExit plumb_diary_print(const PlumbCliArgs *args, const PlumbLifterFile *file,
                               const PlumbCliDiary *diary, PlumbCliFault *fault)
{
    PlumbPictureKind kind = PLUMB_PICTURE_SVG;
    PlumbBytes bytes = {.data = NULL};
    const bool drawn = args->output != NULL && plumb_picture_find(args->output, &kind);
    if (drawn) {
        const PlumbStatus status = draw(args, kind, file, diary, &bytes, fault);
        if (status != PLUMB_OK) {
            return plumb_fault_exit(status);
        }
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (drawn) {
        plumb_output_bytes(&out, (const char *)bytes.data, bytes.length);
        plumb_bytes_free(&bytes);
    } else if (args->json) {
        print_json(diary, &out);
    } else if (args->csv) {
        print_csv(diary, &out);
    } else {
        print_text(args, diary, &out);
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}
