/* SPDX-License-Identifier: MIT */
/* Joins the rows of tests/data/published.csv with what the model gives, and writes the table. */
#include "published/published.h"

#include "../anthropometry/table.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

PlumbLifter published_lifter(PlumbSex sex, double stature_m)
{
    const PlumbBodySpec spec = plumb_body_spec(sex, stature_m, 26.0 * stature_m * stature_m);
    PlumbBody body;
    PlumbError error;
    if (plumb_body_build(&spec, &body, &error) != PLUMB_OK) {
        fprintf(stderr, "%s: %s\n", error.field, error.message);
        exit(1);
    }
    return plumb_lifter_default(&body);
}

static const char *cell_text(const Table *table, int row, const char *column)
{
    return table->cell[row][table_column(table, column)].text;
}

static double cell_number(const Table *table, int row, const char *column)
{
    const Cell *cell = &table->cell[row][table_column(table, column)];
    if (cell->text[0] == '\0') {
        return (double)NAN;
    }
    char *end;
    const double value = strtod(cell->text, &end);
    if (*end != '\0') {
        table_fail(table, cell, "not a number");
    }
    return value;
}

static PublishedFunction find(const PublishedCase *list, size_t count, const char *id)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(list[i].id, id) == 0) {
            return list[i].function;
        }
    }
    return NULL;
}

static PublishedFunction function_of(const char *id)
{
    PublishedFunction function = find(published_squat, published_squat_count, id);
    if (function == NULL) {
        function = find(published_deadlift, published_deadlift_count, id);
    }
    return function != NULL ? function : find(published_bench, published_bench_count, id);
}

/* Inside: every figure of ours lies in the published range. One published figure (no range) is met
 * where ours rounds to it or lies on both sides of it, else it is near; a sign or an identity is
 * met where the hard bounds hold. */
static PublishedVerdict judge(const PublishedRow *row)
{
    if (!(row->ours.low >= row->hard.low && row->ours.high <= row->hard.high)) {
        return PUBLISHED_FAILED;
    }
    const double slack = 0.5 * pow(10.0, -row->decimals);
    const bool single = row->published.high <= row->published.low;
    const bool covers = row->ours.low <= row->published.low + slack &&
                        row->ours.high >= row->published.high - slack;
    const bool within =
        row->ours.low >= row->published.low && row->ours.high <= row->published.high;
    const bool none = isnan(row->published.low);
    if (none || (single ? covers : within)) {
        return PUBLISHED_INSIDE;
    }
    return single ? PUBLISHED_NEAR : PUBLISHED_MISSED;
}

static void read_row(const Table *table, int line, PublishedRow *row)
{
    strcpy(row->id, cell_text(table, line, "id"));
    strcpy(row->lift, cell_text(table, line, "lift"));
    strcpy(row->quantity, cell_text(table, line, "quantity"));
    strcpy(row->unit, cell_text(table, line, "unit"));
    strcpy(row->conditions, cell_text(table, line, "conditions"));
    strcpy(row->source, cell_text(table, line, "source"));
    strcpy(row->status, cell_text(table, line, "status"));
    row->decimals = (int)cell_number(table, line, "decimals");
    row->published.low = cell_number(table, line, "published_low");
    row->published.high = cell_number(table, line, "published_high");
    row->hard.low = cell_number(table, line, "hard_low");
    row->hard.high = cell_number(table, line, "hard_high");
}

int published_compute(const char *directory, PublishedRow row[PUBLISHED_MAX])
{
    static Table table;
    table_read(&table, directory, "published.csv");
    const int count = table.rows - 1;
    const size_t functions =
        published_squat_count + published_deadlift_count + published_bench_count;
    if (count > PUBLISHED_MAX || count != (int)functions) {
        fprintf(stderr, "published.csv has %d rows, the program %zu functions\n", count, functions);
        exit(1);
    }
    for (int i = 0; i < count; i++) {
        read_row(&table, i + 1, &row[i]);
        const PublishedFunction function = function_of(row[i].id);
        if (function == NULL) {
            table_fail(&table, &table.cell[i + 1][0], "no function computes this row");
        }
        const Span empty = {(double)INFINITY, -(double)INFINITY};
        row[i].ours = empty;
        function(&row[i].ours);
        row[i].verdict = judge(&row[i]);
    }
    return count;
}

/* Below the digits that are shown an identity is zero up to rounding. */
static void write_span(PlumbText *text, Span span, int decimals)
{
    const double size = fmax(fabs(span.low), fabs(span.high));
    if (decimals >= 10) {
        plumb_text_string(text, size < 1e-9 ? "0 within 1e-9" : "above 1e-9");
        return;
    }
    char low[64];
    char high[64];
    PlumbText a = plumb_text_begin(low, sizeof low);
    PlumbText b = plumb_text_begin(high, sizeof high);
    plumb_text_fixed(&a, span.low, decimals);
    plumb_text_fixed(&b, span.high, decimals);
    plumb_text_string(text, low);
    if (strcmp(low, high) != 0) {
        plumb_text_string(text, " to ");
        plumb_text_string(text, high);
    }
}

static void write_published(PlumbText *text, const PublishedRow *row)
{
    if (!isnan(row->published.low)) {
        write_span(text, row->published, row->decimals);
    } else if (row->decimals >= 10) {
        plumb_text_string(text, "0");
    } else {
        plumb_text_string(text, row->hard.low > 0.0 ? "above 0" : "below 0");
    }
}

void published_write(const PublishedRow *row, int count, PlumbText *text)
{
    static const char *const verdicts[] = {"yes", "one figure, near: within ", "**missed**",
                                           "**fails**"};
    plumb_text_string(text,
                      "| lift | quantity | published | ours | inside | conditions | source |\n"
                      "|---|---|---|---|---|---|---|\n");
    for (int i = 0; i < count; i++) {
        const PublishedRow *r = &row[i];
        const char *unit = r->unit;
        plumb_text_string(text, "| ");
        plumb_text_string(text, r->lift);
        plumb_text_string(text, " | ");
        plumb_text_string(text, r->quantity);
        if (unit[0] != '\0') {
            plumb_text_string(text, ", ");
            plumb_text_string(text, unit);
        }
        plumb_text_string(text, " | ");
        write_published(text, r);
        plumb_text_string(text, " | ");
        write_span(text, r->ours, r->decimals);
        plumb_text_string(text, " | ");
        plumb_text_string(text, verdicts[r->verdict]);
        if (r->verdict == PUBLISHED_NEAR) {
            write_span(text, r->hard, r->decimals);
        }
        plumb_text_string(text, " | ");
        plumb_text_string(text, r->conditions);
        plumb_text_string(text, " | ");
        plumb_text_string(text, r->source);
        plumb_text_string(text, " (");
        plumb_text_string(text, r->status);
        plumb_text_string(text, ") |\n");
    }
}
