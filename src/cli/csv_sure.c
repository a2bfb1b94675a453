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
    for (int i = 0; i < plumb_lift_output_count(lift); i++) {
        if (plumb_lift_output_applies(lift, i)) {
            plumb_csv_bounds_head(csv, plumb_lift_output_name(lift, i),
                                  plumb_lift_output_unit(lift, i));
        }
    }
}

void plumb_csv_intervals(PlumbCsv *csv, const PlumbIntervals *intervals, PlumbLift lift)
{
    for (int i = 0; i < plumb_lift_output_count(lift); i++) {
        if (plumb_lift_output_applies(lift, i)) {
            plumb_csv_bounds(csv, intervals != NULL ? &intervals->of[i] : NULL);
        }
    }
}
