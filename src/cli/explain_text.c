/* SPDX-License-Identifier: MIT */
/* A working in words: equations, terms, symbols, and where the numbers are from. */
#include "explain_out.h"

#include "text_out.h"

#include <plumbar/scene.h>

#include <math.h>
#include <string.h>

enum { LINE_SIZE = 1024, CELL_SIZE = 160 };

void plumb_working_head(PlumbText *text, const PlumbExplainColumn *column)
{
    plumb_text_string(text, column->symbol);
    if (column->unit[0] != '\0') {
        plumb_text_string(text, " [");
        plumb_text_string(text, column->unit);
        plumb_text_string(text, "]");
    }
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

/* Number, words and figures of a term; the last row, index term_count, is the sum. */
static void print_row(const PlumbExplainStep *step, int index, PlumbCliTable *table)
{
    const bool sum = index == step->term_count;
    char number[16] = "";
    PlumbText text = plumb_text_begin(number, sizeof number);
    if (!sum && plumb_explain_has_sum(step)) {
        plumb_text_integer(&text, index + 1);
    }
    plumb_table_text(table, number);
    plumb_table_text(table, sum ? step->symbol : step->term[index].words);
    for (int k = 0; k < step->column_count; k++) {
        char cell[CELL_SIZE] = "";
        PlumbText figure = plumb_text_begin(cell, sizeof cell);
        if (!sum && isfinite(step->term[index].value[k])) {
            plumb_text_fixed(&figure, step->term[index].value[k], step->column[k].decimals);
        } else if (sum && k + 1 == step->column_count) {
            plumb_text_fixed(&figure, step->result, step->decimals);
        }
        plumb_table_text(table, cell);
    }
    plumb_table_row_end(table);
}

static void print_terms(const PlumbExplainStep *step, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("llrrrrrrrr", PLUMB_METRIC);
    plumb_table_text(&table, "");
    plumb_table_text(&table, "");
    for (int k = 0; k < step->column_count; k++) {
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_working_head(&text, &step->column[k]);
        plumb_table_text(&table, cell);
    }
    plumb_table_row_end(&table);
    for (int i = 0; i < step->term_count + (plumb_explain_has_sum(step) ? 1 : 0); i++) {
        print_row(step, i, &table);
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
        plumb_explain_put_number(&text, n);
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

static void print_head(const PlumbCliWorking *working, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbExplanation *const e = working->explanation;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, e->title);
    plumb_output_string(out, line);
    plumb_output_string(out, "\n");
    text = plumb_text_begin(line, sizeof line);
    plumb_explain_result(&text, e, units);
    if (working->moving) {
        plumb_text_string(&text, "; ");
        plumb_text_quantity(&text, working->t_s, PLUMB_Q_TIME, units);
        plumb_text_string(&text, " after the start of a way up of ");
        plumb_text_quantity(&text, working->rep_time_s, PLUMB_Q_TIME, units);
    }
    plumb_print_wrapped(out, line, 0);
}

void plumb_working_text(const PlumbCliWorking *working, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbExplanation *const e = working->explanation;
    print_head(working, units, out);
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
