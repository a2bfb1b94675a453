/* SPDX-License-Identifier: MIT */
/* plumbar explain: the working of one figure as text, JSON, or one page with its free body. */
#include "command.h"
#include "csv_out.h"
#include "json_out.h"
#include "picture.h"
#include "request.h"
#include "text_out.h"

#include <plumbar/quantity.h>
#include <plumbar/working.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LINE_SIZE = 1024, CELL_SIZE = 160, PEAK_POINTS = 401 };

/* Everything that the command holds; large. */
typedef struct Explain {
    PlumbCliRequest request;
    PlumbAnswer answer;
    PlumbQuestion question;
    PlumbExplainSubject subject;
    PlumbMotionPoint instant;
    PlumbExplanation explanation;
    PlumbFont *font;
    PlumbScene scene;
} Explain;

static PlumbStatus read_question(const PlumbCliArgs *args, Explain *x, PlumbCliFault *fault)
{
    if (args->word_count == 0) {
        return plumb_fault_bad(fault, "QUANTITY",
                               "which figure? for example hip_moment, knee_arm, "
                               "balance, travel, back_effort, thigh",
                               "", "");
    }
    const char *const name = args->word[0];
    if (plumb_question_find(name, strlen(name), &x->question)) {
        return PLUMB_OK;
    }
    char near[CELL_SIZE];
    PlumbText text = plumb_text_begin(near, sizeof near);
    if (plumb_question_nearest(name, strlen(name), &text)) {
        return plumb_fault_bad(fault, name, "no such figure; did you mean ", near, "?");
    }
    return plumb_fault_bad(fault, name, "no such figure; plumbar help explain lists them", "", "");
}

/* The instant at which the joint's moment is greatest, among evenly spaced ones. */
static PlumbStatus find_peak(Explain *x, double *t_s, PlumbCliFault *fault)
{
    PlumbMotionPoint *const point = calloc(PEAK_POINTS, sizeof *point);
    if (point == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "--at", "no memory for the motion");
    }
    PlumbMotionFacts facts;
    const PlumbStatus status =
        plumb_motion_solve(&x->request.lifter, &x->answer, x->request.setup.rep_time_s, PEAK_POINTS,
                           point, &facts, &fault->error);
    free(point);
    *t_s = status == PLUMB_OK ? facts.peak_t_s[x->question.joint] : 0.0;
    return status;
}

static PlumbStatus read_instant(const PlumbCliArgs *args, Explain *x, PlumbCliFault *fault)
{
    double t_s = 0.0;
    PlumbStatus status = PLUMB_OK;
    if (strcmp(args->at, "peak") == 0) {
        if (x->question.kind != PLUMB_EXPLAIN_moment) {
            return plumb_fault_bad(fault, "--at", "only a moment has a peak; give a time like 1.2s",
                                   "", "");
        }
        status = find_peak(x, &t_s, fault);
    } else {
        PlumbError error;
        if (plumb_quantity_read(args->at, strlen(args->at), PLUMB_Q_TIME, &t_s, &error) !=
            PLUMB_OK) {
            return plumb_fault_bad(fault, "--at", "'", args->at,
                                   "' is neither start, end, peak nor a time like 1.2s");
        }
    }
    if (status == PLUMB_OK) {
        status = plumb_motion_at(&x->request.lifter, &x->answer, x->request.setup.rep_time_s, t_s,
                                 &x->instant, &fault->error);
    }
    if (status == PLUMB_OK && !x->instant.held) {
        return plumb_fault_bad(fault, "--at", "the path has no pose at ", args->at, "");
    }
    x->subject.motion = &x->instant;
    return status;
}

static PlumbStatus solve(const PlumbCliArgs *args, Explain *x, PlumbCliFault *fault)
{
    PlumbStatus status = read_question(args, x, fault);
    const bool body = status == PLUMB_OK && x->question.kind == PLUMB_EXPLAIN_length;
    if (status == PLUMB_OK) {
        status = plumb_request_read(args->word + 1, args->word_count - 1,
                                    PLUMB_REQUEST_SETUP | (body ? PLUMB_REQUEST_ANY_LIFT : 0U),
                                    &x->request, fault);
    }
    if (status != PLUMB_OK) {
        return status;
    }
    fault->path[0] = '\0';
    x->subject =
        (PlumbExplainSubject){.spec = &x->request.record.spec, .lifter = &x->request.lifter};
    if (!body) {
        plumb_answer_solve(&x->request.lifter, &x->request.setup, &x->answer);
        x->subject.answer = &x->answer;
        const bool start = args->at == NULL || strcmp(args->at, "start") == 0;
        x->subject.at_end = !start && strcmp(args->at, "end") == 0;
        if (!start && !x->subject.at_end && x->answer.outcome != PLUMB_NO_POSE) {
            status = read_instant(args, x, fault);
        }
    }
    return status;
}

static void write_figure(PlumbText *text, double value, int decimals, const char *unit)
{
    plumb_text_fixed(text, value, decimals);
    plumb_text_string(text, unit[0] != '\0' ? " " : "");
    plumb_text_string(text, unit);
}

static void print_symbols(const PlumbExplanation *e, PlumbCliOutput *out)
{
    plumb_print_heading(out, "Symbols");
    PlumbCliTable table = plumb_table_begin("ll", PLUMB_METRIC);
    for (int i = 0; i < e->symbol_count; i++) {
        plumb_table_text(&table, e->symbol[i].symbol);
        plumb_table_text(&table, e->symbol[i].words);
    }
    plumb_table_end(&table, 2, out);
}

/* "m [kg]" */
static void write_head(PlumbText *text, const PlumbExplainColumn *column)
{
    plumb_text_string(text, column->symbol);
    if (column->unit[0] != '\0') {
        plumb_text_string(text, " [");
        plumb_text_string(text, column->unit);
        plumb_text_string(text, "]");
    }
}

static void print_terms(const PlumbExplainStep *step, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("llrrrrrrrr", PLUMB_METRIC);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "");
    for (int k = 0; k < step->column_count; k++) {
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        write_head(&text, &step->column[k]);
        plumb_table_text(&table, cell);
    }
    plumb_table_row_end(&table);
    for (int i = 0; i <= step->term_count; i++) {
        const bool sum = i == step->term_count;
        char number[16] = "";
        PlumbText text = plumb_text_begin(number, sizeof number);
        if (!sum) {
            plumb_text_integer(&text, i + 1);
        }
        plumb_table_text(&table, number);
        plumb_table_text(&table, sum ? step->symbol : step->term[i].words);
        for (int k = 0; k < step->column_count; k++) {
            char cell[CELL_SIZE] = "";
            PlumbText figure = plumb_text_begin(cell, sizeof cell);
            if (!sum && isfinite(step->term[i].value[k])) {
                plumb_text_fixed(&figure, step->term[i].value[k], step->column[k].decimals);
            } else if (sum && k + 1 == step->column_count) {
                plumb_text_fixed(&figure, step->result, step->decimals);
            }
            plumb_table_text(&table, cell);
        }
        plumb_table_row_end(&table);
    }
    plumb_table_end(&table, 2, out);
}

static void print_steps(const PlumbExplanation *e, PlumbCliOutput *out)
{
    for (int i = 0; i < e->step_count; i++) {
        const PlumbExplainStep *const step = &e->step[i];
        plumb_print_heading(out, step->title);
        plumb_print_wrapped(out, step->words, 0);
        plumb_output_string(out, "\n  ");
        plumb_output_string(out, step->symbols);
        plumb_output_string(out, "\n\n");
        print_terms(step, out);
    }
}

/* "masses.csv, male thigh [derived]: de Leva ..." */
static void append_row(PlumbText *text, const PlumbSourceRow *row)
{
    plumb_text_string(text, "; ");
    plumb_text_string(text, row->file);
    plumb_text_string(text, ", ");
    plumb_text_string(text, row->key);
    plumb_text_string(text, " [");
    plumb_text_string(text, row->basis);
    if (row->source[0] != '\0') {
        plumb_text_string(text, "; ");
        plumb_text_string(text, row->source);
    }
    plumb_text_string(text, "]");
}

/* Each source once, spelled out. */
static void print_citations(const PlumbExplanation *e, PlumbCliOutput *out)
{
    const char *done[2 * PLUMB_EXPLAIN_NUMBERS];
    int count = 0;
    plumb_print_heading(out, "Sources");
    for (int i = 0; i < 2 * e->number_count; i++) {
        const PlumbSourceRow *const row = e->number[i / 2].row[i % 2];
        bool seen = row == NULL;
        for (int k = 0; k < count && !seen; k++) {
            seen = strcmp(done[k], row->source) == 0;
        }
        if (seen) {
            continue;
        }
        done[count++] = row->source;
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "  ");
        plumb_text_string(&text, row->source);
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, row->citation);
        plumb_print_wrapped(out, line, 4);
    }
    if (count == 0) {
        plumb_output_string(out, "  none: the lifter gave it\n");
    }
}

static void print_numbers(const PlumbExplanation *e, PlumbCliOutput *out)
{
    plumb_print_heading(out, "Where the numbers are from (file and row of anthropometry/)");
    for (int i = 0; i < e->number_count; i++) {
        const PlumbExplainNumber *const n = &e->number[i];
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, "  ");
        plumb_text_string(&text, n->words);
        plumb_text_string(&text, " ");
        write_figure(&text, n->value, 5, n->unit);
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, n->basis);
        for (int k = 0; k < 2; k++) {
            if (n->row[k] != NULL) {
                append_row(&text, n->row[k]);
            }
        }
        plumb_print_wrapped(out, line, 6);
    }
    print_citations(e, out);
}

static void print_head(const Explain *x, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbExplanation *const e = &x->explanation;
    const PlumbExplainStep *const step = &e->step[e->step_count - 1];
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, e->title);
    plumb_output_string(out, line);
    plumb_output_string(out, "\n");
    text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, step->symbol);
    plumb_text_string(&text, " = ");
    write_figure(&text, step->result, step->decimals, step->unit);
    plumb_text_string(&text, ", which the program shows as ");
    plumb_text_quantity(&text, e->program, e->quantity, units);
    if (x->subject.motion != NULL) {
        plumb_text_string(&text, "; ");
        plumb_text_quantity(&text, x->instant.t_s, PLUMB_Q_TIME, units);
        plumb_text_string(&text, " after the start of a way up of ");
        plumb_text_quantity(&text, x->request.setup.rep_time_s, PLUMB_Q_TIME, units);
        if (e->question.kind == PLUMB_EXPLAIN_moment) {
            plumb_text_string(&text, "; at rest in the same pose ");
            plumb_text_quantity(&text, x->instant.position.moment_both_n_m[e->question.joint],
                                PLUMB_Q_MOMENT, units);
        }
    }
    plumb_print_wrapped(out, line, 0);
}

static void print_text(const Explain *x, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbExplanation *const e = &x->explanation;
    print_head(x, units, out);
    print_steps(e, out);
    plumb_output_string(out,
                        "  Places and shares are rounded as shown; the terms are computed with "
                        "all digits.\n");
    print_symbols(e, out);
    for (int i = 0; i < e->note_count; i++) {
        plumb_output_string(out, i == 0 ? "\n" : "");
        plumb_print_wrapped(out, e->note[i], 0);
    }
    print_numbers(e, out);
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static json_t *step_object(const PlumbExplainStep *step, bool *failed)
{
    const PlumbJson json = plumb_json_begin(failed);
    plumb_json_string(json, "title", step->title);
    plumb_json_string(json, "words", step->words);
    plumb_json_string(json, "equation", step->symbols);
    json_t *const columns = json_array();
    plumb_json_put(json, "columns", columns);
    for (int k = 0; k < step->column_count; k++) {
        const PlumbJson column = plumb_json_begin(failed);
        plumb_json_string(column, "symbol", step->column[k].symbol);
        plumb_json_string(column, "unit", step->column[k].unit);
        json_array_append_new(columns, column.object);
    }
    json_t *const terms = json_array();
    plumb_json_put(json, "terms", terms);
    for (int i = 0; i < step->term_count; i++) {
        const PlumbJson term = plumb_json_begin(failed);
        plumb_json_string(term, "words", step->term[i].words);
        json_t *const values = json_array();
        plumb_json_put(term, "values", values);
        for (int k = 0; k < step->column_count; k++) {
            const double value = step->term[i].value[k];
            json_array_append_new(values, isfinite(value) ? json_real(value + 0.0) : json_null());
        }
        json_array_append_new(terms, term.object);
    }
    plumb_json_string(json, "symbol", step->symbol);
    plumb_json_string(json, "unit", step->unit);
    plumb_json_number(json, "result", step->result);
    return json.object;
}

static json_t *number_object(const PlumbExplainNumber *n, bool *failed)
{
    const PlumbJson json = plumb_json_begin(failed);
    plumb_json_string(json, "words", n->words);
    plumb_json_number(json, "value", n->value);
    plumb_json_string(json, "unit", n->unit);
    plumb_json_string(json, "basis", n->basis);
    json_t *const rows = json_array();
    plumb_json_put(json, "rows", rows);
    for (int k = 0; k < 2; k++) {
        if (n->row[k] == NULL) {
            continue;
        }
        const PlumbJson row = plumb_json_begin(failed);
        plumb_json_string(row, "file", n->row[k]->file);
        plumb_json_string(row, "row", n->row[k]->key);
        plumb_json_string(row, "figures", n->row[k]->figures);
        plumb_json_string(row, "basis", n->row[k]->basis);
        plumb_json_string(row, "source", n->row[k]->source);
        plumb_json_string(row, "citation", n->row[k]->citation);
        json_array_append_new(rows, row.object);
    }
    return json.object;
}

static void print_json(const Explain *x, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbExplanation *const e = &x->explanation;
    const PlumbJson json = plumb_json_begin(&failed);
    char name[CELL_SIZE];
    PlumbText text = plumb_text_begin(name, sizeof name);
    plumb_question_name(&text, e->question);
    plumb_json_string(json, "quantity", name);
    plumb_json_string(json, "title", e->title);
    plumb_json_number(json, "program", e->program);
    plumb_json_string(json, "unit", e->step[e->step_count - 1].unit);
    plumb_json_number(json, "t_s", x->subject.motion != NULL ? x->instant.t_s : (double)NAN);
    json_t *const steps = json_array();
    plumb_json_put(json, "steps", steps);
    for (int i = 0; i < e->step_count; i++) {
        json_array_append_new(steps, step_object(&e->step[i], &failed));
    }
    const PlumbJson symbols = plumb_json_object(json, "symbols");
    for (int i = 0; i < e->symbol_count; i++) {
        plumb_json_string(symbols, e->symbol[i].symbol, e->symbol[i].words);
    }
    json_t *const notes = json_array();
    plumb_json_put(json, "notes", notes);
    for (int i = 0; i < e->note_count; i++) {
        json_array_append_new(notes, json_string(e->note[i]));
    }
    json_t *const numbers = json_array();
    plumb_json_put(json, "numbers", numbers);
    for (int i = 0; i < e->number_count; i++) {
        json_array_append_new(numbers, number_object(&e->number[i], &failed));
    }
    plumb_json_print(json, 2, out);
    plumb_output_string(out, "\n");
}

/* The terms of the last equation, its result in the last row. */
static void print_csv(const Explain *x, PlumbCliOutput *out)
{
    const PlumbExplanation *const e = &x->explanation;
    const PlumbExplainStep *const step = &e->step[e->step_count - 1];
    PlumbCsv csv = {.out = out};
    plumb_csv_text(&csv, "term");
    for (int k = 0; k < step->column_count; k++) {
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        write_head(&text, &step->column[k]);
        plumb_csv_text(&csv, cell);
    }
    plumb_csv_row_end(&csv);
    for (int i = 0; i <= step->term_count; i++) {
        const bool sum = i == step->term_count;
        plumb_csv_text(&csv, sum ? step->symbol : step->term[i].words);
        for (int k = 0; k < step->column_count; k++) {
            const bool last = k + 1 == step->column_count;
            plumb_csv_number(&csv, !sum   ? step->term[i].value[k]
                                   : last ? step->result
                                          : (double)NAN);
        }
        plumb_csv_row_end(&csv);
    }
}

static PlumbCliExit draw(const PlumbCliArgs *args, Explain *x, PlumbCliPicture kind,
                         PlumbCliFault *fault)
{
    x->font = plumb_font_create();
    if (x->font == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "page", "no memory for the typeface"));
    }
    const PlumbWorking working = {.subject = &x->subject,
                                  .explanation = &x->explanation,
                                  .name = x->request.record.name,
                                  .date = args->date,
                                  .letter = args->letter,
                                  .text_width = plumb_font_width,
                                  .text_user = x->font};
    plumb_compose_working(&x->scene, &working);
    PlumbBytes bytes = {.data = NULL};
    const PlumbStatus status = plumb_picture_render(&x->scene, kind, args, &bytes, &fault->error);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    plumb_output_bytes(&out, (const char *)bytes.data, bytes.length);
    plumb_bytes_free(&bytes);
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

/* Without a pose there is nothing to work out: the answer is that, and exit code 1. */
static PlumbCliExit print_no_pose(const PlumbCliArgs *args, const Explain *x, PlumbCliFault *fault)
{
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        bool failed = false;
        const PlumbJson json = plumb_json_begin(&failed);
        plumb_json_string(json, "outcome", plumb_outcome_name(x->answer.outcome));
        plumb_json_string(json, "failed_constraint", plumb_constraint_name(x->answer.failed));
        plumb_json_print(json, 2, &out);
        plumb_output_string(&out, "\n");
    } else {
        plumb_output_string(&out, "No pose meets the request, so there is nothing to work out: ");
        plumb_output_string(&out, plumb_constraint_text(x->answer.failed));
        plumb_output_string(&out, "\n");
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_NO_POSE, fault);
}

static PlumbCliExit explain(const PlumbCliArgs *args, Explain *x, PlumbCliFault *fault)
{
    PlumbStatus status = solve(args, x, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    PlumbCliPicture kind;
    const bool picture = args->output != NULL && plumb_picture_find(args->output, &kind);
    const bool none = x->subject.answer != NULL && x->answer.outcome == PLUMB_NO_POSE;
    if (none && !picture) {
        return print_no_pose(args, x, fault);
    }
    status = plumb_explain(&x->subject, x->question, &x->explanation, &fault->error);
    if (status != PLUMB_OK) {
        return none ? PLUMB_EXIT_NO_POSE : plumb_fault_exit(status);
    }
    if (picture) {
        return draw(args, x, kind, fault);
    }
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(x, &out);
    } else if (args->csv) {
        print_csv(x, &out);
    } else {
        print_text(x, args->units, &out);
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}

PlumbCliExit plumb_cli_explain(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    Explain *const x = calloc(1, sizeof *x);
    if (x == NULL) {
        return plumb_fault_exit(
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "explain", "no memory for the working"));
    }
    const PlumbCliExit code = explain(args, x, fault);
    plumb_font_destroy(x->font);
    free(x);
    plumb_draw_finish();
    return code;
}
