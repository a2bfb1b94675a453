/* SPDX-License-Identifier: MIT */
/* How sure a figure is, as two columns of a table. */
#include "csv_out.h"

#include <math.h>

enum { NAME_SIZE = 96 };

static void head(PlumbCsv *csv, const char *name, const char *end, const char *unit)
{
    char cell[NAME_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    plumb_text_string(&text, name);
    plumb_text_string(&text, end);
    plumb_text_string(&text, unit);
    plumb_csv_text(csv, cell);
}

void plumb_csv_bounds_head(PlumbCsv *csv, const char *name, const char *unit)
{
    head(csv, name, "_low", unit);
    head(csv, name, "_high", unit);
}

void plumb_csv_bounds(PlumbCsv *csv, const PlumbEstimate *estimate)
{
    plumb_csv_number(csv, estimate != NULL ? estimate->low : (double)NAN);
    plumb_csv_number(csv, estimate != NULL ? estimate->high : (double)NAN);
}

void plumb_csv_intervals_head(PlumbCsv *csv, PlumbLift lift)
{
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        const PlumbOutput o = (PlumbOutput)i;
        if (plumb_output_applies(o, lift)) {
            plumb_csv_bounds_head(csv, plumb_output_name(o), plumb_output_unit(o, lift));
        }
    }
}

void plumb_csv_intervals(PlumbCsv *csv, const PlumbIntervals *intervals, PlumbLift lift)
{
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        if (plumb_output_applies((PlumbOutput)i, lift)) {
            plumb_csv_bounds(csv, intervals != NULL ? &intervals->of[i] : NULL);
        }
    }
}
