/* SPDX-License-Identifier: MIT */
/* plumbar body: lengths, ratios, masses and percentiles of a lifter. */
#include "command.h"
#include "csv_out.h"
#include "json_out.h"
#include "request.h"
#include "text_out.h"

#include <plumbar/scene.h>

#include <math.h>
#include <string.h>

enum { LINE_SIZE = 512, CELL_SIZE = 64 };

/* 0.5 becomes "50"; the tails say that they are tails. */
static void percentile(PlumbCliTable *table, double share)
{
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (!isfinite(share)) {
        plumb_text_string(&text, "-");
    } else if (share < 0.005) {
        plumb_text_string(&text, "< 1");
    } else if (share > 0.995) {
        plumb_text_string(&text, "> 99");
    } else {
        plumb_text_fixed(&text, share * 100.0, 0);
    }
    plumb_table_text(table, cell);
}

static void spaced(PlumbCliTable *table, const char *name)
{
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    for (const char *c = name; *c != '\0'; c++) {
        plumb_text_char(&text, *c == '_' ? ' ' : *c);
    }
    plumb_table_text(table, cell);
}

static void print_head(const PlumbCliRequest *request, PlumbUnits units, PlumbCliOutput *out)
{
    const PlumbBody *const body = &request->lifter.body;
    PlumbCliTable table = plumb_table_begin("lrrl", units);
    if (request->record.name[0] != '\0') {
        plumb_output_string(out, request->record.name);
        plumb_output_string(out, "\n\n");
    }
    plumb_table_text(&table, plumb_sex_name(body->sex));
    plumb_table_text(&table, "");
    plumb_table_text(&table, "percentile");
    plumb_table_row_end(&table);
    plumb_table_text(&table, "stature");
    plumb_table_value(&table, body->stature_m, PLUMB_Q_STATURE);
    percentile(&table, plumb_stature_percentile(body->sex, body->stature_m));
    plumb_table_row_end(&table);
    plumb_table_text(&table, "mass");
    plumb_table_value(&table, body->mass_kg, PLUMB_Q_MASS);
    percentile(&table, plumb_mass_percentile(body->sex, body->mass_kg));
    plumb_table_end(&table, 0, out);
}

/* Stature is held when a length is overridden, so that the parts may no longer add up to it. */
static void print_sum(const PlumbBody *body, PlumbUnits units, PlumbCliOutput *out)
{
    const double excess_m = body->parts_sum_m - body->stature_m;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Ankle height, shank, thigh, trunk, head and neck add up to ");
    plumb_text_quantity(&text, body->parts_sum_m, PLUMB_Q_STATURE, units);
    plumb_text_string(&text, ", ");
    if (fabs(excess_m) < 0.0005) {
        plumb_text_string(&text, "the stature");
    } else {
        plumb_text_quantity(&text, fabs(excess_m), PLUMB_Q_LENGTH, units);
        plumb_text_string(&text, excess_m > 0.0 ? " more than the stature: these parts belong to a "
                                                  "taller lifter, or one of them is too long"
                                                : " less than the stature: these parts belong to a "
                                                  "shorter lifter, or one of them is too short");
    }
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, line, 0);
}

static void print_lengths(const PlumbBody *body, PlumbUnits units, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("lrrrrll", units);
    plumb_table_text(&table, "length");
    plumb_table_head(&table, "", PLUMB_Q_LENGTH);
    plumb_table_head(&table, "sd", PLUMB_Q_LENGTH);
    plumb_table_text(&table, "percentile");
    plumb_table_text(&table, "of its ratio");
    plumb_table_text(&table, "rests on");
    plumb_table_text(&table, "spans");
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const PlumbLength id = (PlumbLength)i;
        spaced(&table, plumb_length_name(id));
        plumb_table_bare(&table, body->length_m[i], PLUMB_Q_LENGTH);
        plumb_table_bare(&table, body->length_sd_m[i], PLUMB_Q_LENGTH);
        percentile(&table, plumb_length_percentile(body, id));
        percentile(&table, plumb_length_ratio_percentile(body, id));
        plumb_table_text(&table, plumb_basis_text(body->length_basis[i]));
        plumb_table_text(&table, plumb_length_text(id));
    }
    plumb_print_heading(out, "Lengths (sd: spread of what is not known, or error of the tape)");
    plumb_table_end(&table, 2, out);
}

static void print_ratios(const PlumbBody *body, PlumbUnits units, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("lrr", units);
    plumb_table_text(&table, "ratio");
    plumb_table_text(&table, "");
    plumb_table_text(&table, "percentile");
    for (int i = 0; i < PLUMB_RATIO_COUNT; i++) {
        const PlumbRatio id = (PlumbRatio)i;
        plumb_table_text(&table, plumb_ratio_text(id));
        plumb_table_value(&table, plumb_ratio_value(body, id), PLUMB_Q_NUMBER);
        percentile(&table, plumb_ratio_percentile(body, id));
    }
    plumb_print_heading(out, "Ratios");
    plumb_table_end(&table, 2, out);
}

static void print_masses(const PlumbBody *body, PlumbUnits units, PlumbCliOutput *out)
{
    PlumbCliTable table = plumb_table_begin("lrr", units);
    plumb_table_text(&table, "segment (limbs: one side)");
    plumb_table_text(&table, "mass");
    plumb_table_text(&table, "share");
    for (int i = 0; i < PLUMB_SEGMENT_COUNT; i++) {
        const double share = body->segment[i].mass_frac;
        spaced(&table, plumb_segment_name((PlumbSegmentId)i));
        plumb_table_value(&table, share * body->mass_kg, PLUMB_Q_MASS);
        char cell[CELL_SIZE];
        PlumbText text = plumb_text_begin(cell, sizeof cell);
        plumb_text_fixed(&text, share * 100.0, 1);
        plumb_text_string(&text, " %");
        plumb_table_text(&table, cell);
    }
    plumb_print_heading(out, "Masses");
    plumb_table_end(&table, 2, out);
}

/* Each source once, in the order in which the lengths first name it. */
static void print_sources(const PlumbBody *body, PlumbCliOutput *out)
{
    plumb_print_heading(out, "Sources");
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const char *const source = plumb_length_source((PlumbLength)i, body->length_table);
        const bool memory = body->length_basis[i] == PLUMB_BASIS_MEMORY;
        bool seen = false;
        for (int j = 0; j < i && !seen; j++) {
            seen = strcmp(source, plumb_length_source((PlumbLength)j, body->length_table)) == 0;
        }
        if (!seen && source[0] != '\0') {
            char line[LINE_SIZE];
            PlumbText text = plumb_text_begin(line, sizeof line);
            plumb_text_string(&text, memory ? "  memory: " : "  ");
            plumb_text_string(&text, source);
            plumb_print_wrapped(out, line, 4);
        }
    }
    plumb_output_string(out, "\n");
    plumb_print_wrapped(out, plumb_caution_line(), 0);
}

static void print_csv(const PlumbBody *body, PlumbCliOutput *out)
{
    static const char *const heads[] = {"length", "length_m",        "sd_m",
                                        "basis",  "percentile_frac", "ratio_percentile_frac"};
    PlumbCsv csv = {.out = out};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        plumb_csv_text(&csv, heads[i]);
    }
    plumb_csv_row_end(&csv);
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const PlumbLength id = (PlumbLength)i;
        plumb_csv_text(&csv, plumb_length_name(id));
        plumb_csv_number(&csv, body->length_m[i]);
        plumb_csv_number(&csv, body->length_sd_m[i]);
        plumb_csv_text(&csv, plumb_basis_text(body->length_basis[i]));
        plumb_csv_number(&csv, plumb_length_percentile(body, id));
        plumb_csv_number(&csv, plumb_length_ratio_percentile(body, id));
        plumb_csv_row_end(&csv);
    }
}

static void print_json(const PlumbLifter *lifter, PlumbCliOutput *out)
{
    bool failed = false;
    const PlumbJson json = plumb_json_begin(&failed);
    plumb_json_body(plumb_json_object(json, "body"), &lifter->body);
    plumb_json_lifter(plumb_json_object(json, "lifter"), lifter);
    plumb_json_print(json, 1, out);
    plumb_output_string(out, "\n");
}

PlumbCliExit plumb_cli_body(const PlumbCliArgs *args, PlumbCliFault *fault)
{
    PlumbCliRequest request;
    const PlumbStatus status = plumb_request_read(args->word, args->word_count, 0, &request, fault);
    if (status != PLUMB_OK) {
        return plumb_fault_exit(status);
    }
    const PlumbBody *const body = &request.lifter.body;
    PlumbCliOutput out = plumb_output_begin(args->output);
    if (args->json) {
        print_json(&request.lifter, &out);
    } else if (args->csv) {
        print_csv(body, &out);
    } else {
        print_head(&request, args->units, &out);
        print_sum(body, args->units, &out);
        print_lengths(body, args->units, &out);
        print_ratios(body, args->units, &out);
        print_masses(body, args->units, &out);
        print_sources(body, &out);
    }
    return plumb_cli_finish(&out, PLUMB_EXIT_ANSWERED, fault);
}
