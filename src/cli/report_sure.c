/* SPDX-License-Identifier: MIT */
/* How sure the figures are, in words and cells; what to measure next. */
#include "report.h"

#include <math.h>

enum { LINE_SIZE = 1024, NEXT_MAX = 3 };

static bool has_intervals(const PlumbReport *report)
{
    return report->samples != NULL && report->samples->count > 0;
}

bool plumb_report_is_sure(const PlumbReport *report)
{
    return has_intervals(report) && report->answer->outcome != PLUMB_NO_POSE;
}

const PlumbEstimate *plumb_samples_estimate(const PlumbCliSamples *samples, int output)
{
    static const double PRESCRIBED = 1e-9; /* what leads, or is zero by the problem's own terms */
    const PlumbEstimate *const estimate = &samples->intervals.of[output];
    return samples->count > 0 && estimate->sd > PRESCRIBED ? estimate : NULL;
}

const PlumbEstimate *plumb_report_estimate(const PlumbReport *report, PlumbOutput output)
{
    return plumb_report_is_sure(report) ? plumb_samples_estimate(report->samples, (int)output)
                                        : NULL;
}

/* A figure without its unit, for the lower end of an interval. */
static void bare(PlumbText *text, double value_si, PlumbQuantity quantity, PlumbUnits units)
{
    plumb_text_fixed(text, value_si * plumb_quantity_factor(quantity, units),
                     plumb_quantity_decimals(quantity, units));
}

void plumb_report_spread(const PlumbReport *report, PlumbOutput output, PlumbQuantity quantity,
                         PlumbCliTable *table)
{
    plumb_print_spread(plumb_report_estimate(report, output), quantity, table);
}

void plumb_print_spread(const PlumbEstimate *estimate, PlumbQuantity quantity, PlumbCliTable *table)
{
    char cell[PLUMB_CELL_SIZE] = "";
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    if (estimate == NULL) {
        plumb_table_text(table, "");
        plumb_table_text(table, "");
        return;
    }
    plumb_text_string(&text, "± ");
    plumb_text_quantity(&text, estimate->sd, quantity, table->units);
    plumb_table_text(table, cell);
    text = plumb_text_begin(cell, sizeof cell);
    bare(&text, estimate->low, quantity, table->units);
    plumb_text_string(&text, " to ");
    plumb_text_quantity(&text, estimate->high, quantity, table->units);
    plumb_table_text(table, cell);
}

/* The key, what it spans, and what the travel and the back angle gain; false where neither gains a
 * digit. */
static bool put_measuring(const PlumbCliSamples *samples, const PlumbCliRequest *request,
                          PlumbUnits units, int index, PlumbText *text)
{
    const PlumbMeasuring *const measuring = &samples->measuring[index];
    plumb_measuring_words(text, measuring);
    plumb_text_string(text, " (");
    plumb_text_string(text, plumb_measuring_text(measuring));
    plumb_text_string(text, ")");
    double after[PLUMB_GAIN_COUNT];
    plumb_measuring_gains(&request->record.spec, &samples->bodies, measuring, samples->sample,
                          samples->count, after);
    return plumb_measuring_gains_text(text, samples->intervals.of, after, request->lift, units);
}

void plumb_report_measure_first(const PlumbReport *report, PlumbCliOutput *out)
{
    if (plumb_report_is_sure(report)) {
        plumb_print_measure_first(report->samples, report->request, report->units, out);
    }
}

void plumb_print_measure_first(const PlumbCliSamples *samples, const PlumbCliRequest *request,
                               PlumbUnits units, PlumbCliOutput *out)
{
    if (!samples->bare || samples->measuring_count == 0) {
        return;
    }
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Measure  only stature and mass are known, so that this is the "
                             "median body of that size. First measure the ");
    put_measuring(samples, request, units, 0, &text);
    plumb_print_wrapped(out, line, 9);
}

static void put_share(PlumbText *text, double share, const char *words)
{
    plumb_text_fixed(text, 100.0 * share, 1);
    plumb_text_string(text, " % ");
    plumb_text_string(text, words);
}

static void print_outcomes(const PlumbReport *report, PlumbCliOutput *out)
{
    const PlumbCliSamples *const samples = report->samples;
    const bool pull = report->answer->setup.lift == PLUMB_DEADLIFT;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "  Of ");
    plumb_text_integer(&text, samples->count);
    plumb_text_string(&text, " bodies that fit what was measured ");
    put_share(&text, samples->intervals.held_share,
              pull ? "hold inside the window, " : "hold within the joint limits, ");
    put_share(&text, samples->intervals.outside_share,
              pull ? "hold outside it, " : "hold outside them, ");
    put_share(&text, samples->intervals.no_pose_share, "have no pose");
    plumb_print_wrapped(out, line, 4);
}

void plumb_print_measure_next(const PlumbCliSamples *samples, const PlumbCliRequest *request,
                              PlumbUnits units, PlumbCliOutput *out)
{
    static const double LEAST_SHARE = 0.01; /* of the variance; less is not worth the tape */
    int told = 0;
    for (int i = 0; i < samples->measuring_count && i < NEXT_MAX; i++) {
        char line[LINE_SIZE];
        PlumbText text = plumb_text_begin(line, sizeof line);
        plumb_text_string(&text, told == 0 ? "  Tape next: " : "  Then: ");
        if (samples->share[i] > LEAST_SHARE && put_measuring(samples, request, units, i, &text)) {
            plumb_print_wrapped(out, line, 4);
            told++;
        }
    }
    if (told == 0) {
        plumb_print_wrapped(out,
                            "  No further tape would narrow the figures much: what is left comes "
                            "from what no tape reaches",
                            4);
    }
}

void plumb_report_sure(const PlumbReport *report, PlumbCliOutput *out)
{
    if (!has_intervals(report)) {
        return;
    }
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_print_heading(out, "How sure");
    plumb_text_string(&text, "  ");
    plumb_text_string(&text, plumb_interval_caution());
    plumb_text_string(&text, " ± is one standard deviation; 95 % of the bodies lie in the range "
                             "beside it; joint limits are held");
    plumb_print_wrapped(out, line, 4);
    print_outcomes(report, out);
    if (plumb_report_is_sure(report)) {
        plumb_print_measure_next(report->samples, report->request, report->units, out);
    }
}
