/* SPDX-License-Identifier: MIT */
/* A working as data: JSON with all digits, and the last equation's terms as CSV. */
#include "explain_out.h"

#include "csv_out.h"
#include "json_out.h"

#include <math.h>

enum { CELL_SIZE = 160 };

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
    if (!step->apart) {
        plumb_json_string(json, "symbol", step->symbol);
        plumb_json_string(json, "unit", step->unit);
        plumb_json_number(json, "result", step->result);
    }
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

void plumb_working_json(const PlumbCliWorking *working, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbExplanation *const e = working->explanation;
    const PlumbJson json = plumb_json_begin(&failed);
    char name[CELL_SIZE];
    PlumbText text = plumb_text_begin(name, sizeof name);
    plumb_question_name(&text, e->question);
    plumb_json_string(json, "quantity", name);
    plumb_json_string(json, "title", e->title);
    plumb_json_number(json, "program", e->program);
    plumb_json_string(json, "unit", e->step[e->step_count - 1].unit);
    plumb_json_number(json, "t_s", working->t_s);
    plumb_json_number(json, "rest_n_m", e->rest);
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

void plumb_working_csv(const PlumbCliWorking *working, PlumbCliOutput *out)
{
    const PlumbExplanation *const e = working->explanation;
    const PlumbExplainStep *const step = &e->step[e->step_count - 1];
    PlumbCsv csv = {.out = out};
    plumb_csv_text(&csv, "term");
    for (int k = 0; k < step->column_count; k++) {
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_working_head(&text, &step->column[k]);
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
