/* SPDX-License-Identifier: MIT */
/* A lifter's log, each entry solved and printed. */
#include "diary.h"

#include "command.h"
#include "csv_out.h"
#include "json_out.h"
#include "picture.h"
#include "text_out.h"

#include <plumbar/advice.h>
#include <plumbar/diary.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { TITLE_SIZE = 200, LOAD = -1 };

static const struct {
    const char *key;
    const char *head;
    const char *chart;
    PlumbQuantity quantity;
    bool pose;
    bool press;
} figures[PLUMB_DIARY_FIGURE_COUNT] = {
#define X(key, head, chart, quantity, pose, press)                                                 \
    {#key, head, chart, PLUMB_Q_##quantity, pose, press},
    PLUMB_DIARY_FIGURE_LIST(X)
#undef X
};

static bool is_of(int figure, bool press)
{
    return press ? figures[figure].press : figures[figure].pose;
}

static void fill_press(const PlumbLifter *lifter, const PlumbSetup *setup, double *figure)
{
    PlumbPressAnswer answer;
    plumb_press_quick(lifter, setup, &answer);
    figure[PLUMB_DIARY_grip_m] = setup->grip_m;
    if (answer.outcome != PLUMB_NO_POSE) {
        figure[PLUMB_DIARY_travel_m] = answer.travel_m;
        figure[PLUMB_DIARY_touch_m] = answer.setup.touch_m;
        figure[PLUMB_DIARY_elbow_arm_m] = answer.touch.bar_arm_m[PLUMB_PRESS_ARM_elbow];
        figure[PLUMB_DIARY_upper_arm_rad] = answer.touch.angle_rad[PLUMB_PRESS_ANG_abduction];
    }
}

static void fill(const PlumbLifter *lifter, const PlumbLogEntry *entry, PlumbCliDiaryRow *row)
{
    row->entry = entry;
    for (int i = 0; i < PLUMB_DIARY_FIGURE_COUNT; i++) {
        row->figure[i] = (double)NAN;
    }
    if (entry->lift == PLUMB_BENCH) {
        fill_press(lifter, &entry->setup, row->figure);
        return;
    }
    PlumbAnswer answer;
    plumb_answer_quick(lifter, &entry->setup, &answer);
    if (answer.outcome != PLUMB_NO_POSE) {
        row->figure[PLUMB_DIARY_travel_m] = answer.travel_m;
        row->figure[PLUMB_DIARY_hip_height_m] = answer.start.point[PLUMB_PT_hip].y;
        row->figure[PLUMB_DIARY_hip_arm_m] = answer.start.bar_arm_m[PLUMB_JOINT_hip];
        row->figure[PLUMB_DIARY_back_angle_rad] = answer.start.angle_rad[PLUMB_ANG_back];
    }
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

/* The entries of presses, or of the other lifts, as a table. */
static void print_table(const PlumbCliArgs *args, const PlumbCliDiary *diary, bool press,
                        PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin(press ? "lllrrrrrrl" : "lllrrrrrl", args->units);
    plumb_table_text(&table, "date");
    plumb_table_text(&table, "lift");
    plumb_table_text(&table, "set-up");
    plumb_table_head(&table, "load", PLUMB_Q_MASS);
    for (int k = 0; k < PLUMB_DIARY_FIGURE_COUNT; k++) {
        if (is_of(k, press)) {
            plumb_table_head(&table, figures[k].head, figures[k].quantity);
        }
    }
    plumb_table_text(&table, "findings");
    plumb_table_row_end(&table);
    for (int i = 0; i < diary->count; i++) {
        const PlumbCliDiaryRow *const row = &diary->row[i];
        if ((row->entry->lift == PLUMB_BENCH) != press) {
            continue;
        }
        plumb_table_text(&table, row->entry->date);
        plumb_table_text(&table, plumb_lift_text(row->entry->lift));
        plumb_table_text(&table, row->entry->setup_name[0] != '\0' ? row->entry->setup_name : "-");
        plumb_table_bare(&table, row->entry->setup.load_kg, PLUMB_Q_MASS);
        for (int k = 0; k < PLUMB_DIARY_FIGURE_COUNT; k++) {
            if (is_of(k, press)) {
                plumb_table_bare(&table, row->figure[k], figures[k].quantity);
            }
        }
        char words[sizeof row->entry->findings];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_finding_names_text(&text, row->entry->findings);
        plumb_table_text(&table, words[0] != '\0' ? words : "-");
        plumb_table_row_end(&table);
    }
    plumb_table_end(&table, 0, out);
}

static int count_of_presses(const PlumbCliDiary *diary)
{
    int count = 0;
    for (int i = 0; i < diary->count; i++) {
        count += diary->row[i].entry->lift == PLUMB_BENCH ? 1 : 0;
    }
    return count;
}

static void print_text(const PlumbCliArgs *args, const PlumbCliDiary *diary, PlumbCliOutput *out)
{
    if (diary->count == 0) {
        plumb_output_string(out,
                            "The log has no entry. plumbar log FILE:set-up --add writes one.\n");
        return;
    }
    const int presses = count_of_presses(diary);
    if (presses < diary->count) {
        print_table(args, diary, false, out);
    }
    if (presses > 0) {
        plumb_output_string(out, presses < diary->count ? "\n" : "");
        print_table(args, diary, true, out);
    }
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
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out,
                        "Every day's settings, solved for this body: the start of a pull, the hole "
                        "of a squat, the touch of a press. plumbar handout LIFT FILE --since DAY "
                        "sets a day against now; -o log.pdf draws one lift over the days.",
                        0);
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
        for (int k = 0; k < PLUMB_DIARY_FIGURE_COUNT; k++) {
            if (is_of(k, row->entry->lift == PLUMB_BENCH)) {
                plumb_json_number(entry, figures[k].key, row->figure[k]);
            }
        }
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
    PlumbCsv csv = {.out = out};
    plumb_csv_text(&csv, "date");
    plumb_csv_text(&csv, "lift");
    plumb_csv_text(&csv, "setup_name");
    plumb_csv_text(&csv, "load_kg");
    for (int k = 0; k < PLUMB_DIARY_FIGURE_COUNT; k++) {
        plumb_csv_text(&csv, figures[k].key);
    }
    plumb_csv_text(&csv, "findings");
    plumb_csv_text(&csv, "note");
    plumb_csv_row_end(&csv);
    for (int i = 0; i < diary->count; i++) {
        const PlumbCliDiaryRow *const row = &diary->row[i];
        plumb_csv_text(&csv, row->entry->date);
        plumb_csv_text(&csv, plumb_lift_name(row->entry->lift));
        plumb_csv_text(&csv, row->entry->setup_name);
        plumb_csv_number(&csv, row->entry->setup.load_kg);
        for (int k = 0; k < PLUMB_DIARY_FIGURE_COUNT; k++) {
            plumb_csv_number(&csv, row->figure[k]);
        }
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

/* One more panel: a figure, or the load. */
static void add_panel(const PlumbCliArgs *args, const PlumbCliDiary *diary, int figure,
                      Chart *chart, PlumbDiary *drawn)
{
    const int at = drawn->panel_count++;
    const PlumbQuantity quantity = figure == LOAD ? PLUMB_Q_MASS : figures[figure].quantity;
    const double factor = plumb_quantity_factor(quantity, args->units);
    for (int i = 0; i < diary->count; i++) {
        const PlumbCliDiaryRow *const row = &diary->row[i];
        chart->value[at][i] =
            factor * (figure == LOAD ? row->entry->setup.load_kg : row->figure[figure]);
    }
    PlumbText label = plumb_text_begin(chart->label[at], sizeof chart->label[at]);
    plumb_text_string(&label, figure == LOAD ? "load" : figures[figure].chart);
    plumb_text_string(&label, ", ");
    plumb_text_string(&label, plumb_quantity_unit(quantity, args->units));
    drawn->panel[at] = (PlumbDiaryPanel){
        chart->label[at], plumb_quantity_decimals(quantity, args->units), chart->value[at]};
}

static void chart_compose(const PlumbCliArgs *args, const PlumbLifterFile *file,
                          const PlumbCliDiary *diary, Chart *chart)
{
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
                        .text_width = plumb_font_width,
                        .text_user = chart->font};
    for (int i = 0; i < diary->count; i++) {
        chart->day[i] = day_of(diary->row[i].entry->date);
        chart->date[i] = diary->row[i].entry->date;
    }
    add_panel(args, diary, LOAD, chart, &drawn);
    for (int k = 0; k < PLUMB_DIARY_FIGURE_COUNT; k++) {
        if (is_of(k, diary->row[0].entry->lift == PLUMB_BENCH) && figures[k].chart[0] != '\0') {
            add_panel(args, diary, k, chart, &drawn);
        }
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
