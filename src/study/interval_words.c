/* SPDX-License-Identifier: MIT */
/* What a further measure would gain, and where a gain lies, in words. */
#include <plumbar/interval.h>

#include <math.h>
#include <string.h>

enum { FIGURE_SIZE = 48 };

static const int told[PLUMB_GAIN_COUNT] = {PLUMB_OUT_travel, PLUMB_OUT_back_angle};
static const int told_press[PLUMB_GAIN_COUNT] = {PLUMB_PRESS_OUT_travel, PLUMB_PRESS_OUT_upper_arm};

static int figure_of(PlumbLift lift, int gain)
{
    return lift == PLUMB_BENCH ? told_press[gain] : told[gain];
}

void plumb_measuring_words(PlumbText *text, const PlumbMeasuring *measuring)
{
    for (const char *c = plumb_measuring_name(measuring); *c != '\0'; c++) {
        plumb_text_char(text, *c == '_' ? ' ' : *c);
    }
}

void plumb_measuring_gains(const PlumbBodySpec *spec, const PlumbBodies *bodies,
                           const PlumbMeasuring *measuring, const PlumbSample *sample, int count,
                           double after[PLUMB_GAIN_COUNT])
{
    for (int i = 0; i < PLUMB_GAIN_COUNT; i++) {
        after[i] = plumb_measuring_sd_after(spec, bodies, measuring, sample, count,
                                            figure_of(sample->lift, i));
    }
}

bool plumb_measuring_gains_text(PlumbText *text, const PlumbEstimate of[PLUMB_OUTPUT_COUNT],
                                const double after[PLUMB_GAIN_COUNT], PlumbLift lift,
                                PlumbUnits units)
{
    static const double LEADS = 1e-6; /* what leads has no spread to narrow */
    bool any = false;
    for (int i = 0; i < PLUMB_GAIN_COUNT; i++) {
        const int figure = figure_of(lift, i);
        const double now = of[figure].sd;
        const PlumbQuantity quantity = plumb_lift_output_quantity(lift, figure);
        if (!isfinite(after[i]) || !(now > LEADS)) {
            continue;
        }
        char before_words[FIGURE_SIZE];
        char after_words[FIGURE_SIZE];
        PlumbText before = plumb_text_begin(before_words, sizeof before_words);
        PlumbText then = plumb_text_begin(after_words, sizeof after_words);
        plumb_text_quantity(&before, now, quantity, units);
        plumb_text_quantity(&then, after[i], quantity, units);
        if (strcmp(before_words, after_words) == 0) {
            continue; /* the gain is below the last digit */
        }
        plumb_text_string(text, any ? ", " : ": ");
        plumb_text_string(text, plumb_lift_output_text(lift, figure));
        plumb_text_string(text, " from ± ");
        plumb_text_string(text, before_words);
        plumb_text_string(text, " to ± ");
        plumb_text_string(text, after_words);
        any = true;
    }
    return any;
}

void plumb_estimate_text(PlumbText *text, const PlumbEstimate *estimate, const char *share,
                         PlumbQuantity quantity, PlumbUnits units)
{
    static const double EXACT = 1e-9; /* SI: rounding of a difference of solved poses */
    const double factor = plumb_quantity_factor(quantity, units);
    const int decimals = plumb_quantity_decimals(quantity, units);
    char low[FIGURE_SIZE];
    char high[FIGURE_SIZE];
    PlumbText one = plumb_text_begin(low, sizeof low);
    PlumbText other = plumb_text_begin(high, sizeof high);
    plumb_text_fixed(&one, estimate->low * factor, decimals);
    plumb_text_fixed(&other, estimate->high * factor, decimals);
    if (!isfinite(estimate->low) || !isfinite(estimate->high)) {
        return;
    }
    if (estimate->high - estimate->low <= EXACT) {
        plumb_text_string(text, " (the same for every body)");
        return;
    }
    plumb_text_string(text, " (");
    plumb_text_string(text, share);
    if (strcmp(low, high) == 0) {
        plumb_text_string(text, ": the same)");
        return;
    }
    plumb_text_string(text, ": ");
    plumb_text_string(text, low);
    plumb_text_string(text, " to ");
    plumb_text_quantity(text, estimate->high, quantity, units);
    plumb_text_char(text, ')');
}
