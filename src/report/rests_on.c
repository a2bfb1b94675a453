/* SPDX-License-Identifier: MIT */
/* The small print: what a handout's figures rest on. */
#include "report/words.h"

static void measured_words(PlumbText *text, const PlumbBody *body)
{
    int count = 0;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const PlumbBasis basis = body->length_basis[i];
        count += basis == PLUMB_BASIS_MEASURED || basis == PLUMB_BASIS_TAPED ||
                         basis == PLUMB_BASIS_SPREAD
                     ? 1
                     : 0;
    }
    plumb_text_string(text, "Rests on: stature and mass of the lifter, ");
    if (count == 0) {
        plumb_text_string(text, "no length measured, all lengths");
    } else {
        plumb_text_integer(text, count);
        plumb_text_string(text,
                          count == 1 ? " length given, the others" : " lengths given, the others");
    }
    plumb_text_string(text, " from the ");
    plumb_text_string(text, plumb_table_name(body->length_table));
    plumb_text_string(text, " table");
}

static void memory_words(PlumbText *text, const PlumbBody *body)
{
    int count = 0;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        count += body->length_basis[i] == PLUMB_BASIS_MEMORY ? 1 : 0;
    }
    if (count > 0) {
        plumb_text_string(text, " (");
        plumb_text_integer(text, count);
        plumb_text_string(text, " from memory, without a source)");
    }
}

void plumb_rests_on_words(const PlumbHandoutAsk *ask, const PlumbHandout *handout, PlumbText *text)
{
    const PlumbBody *const body = &ask->drawing->lifter->body;
    measured_words(text, body);
    memory_words(text, body);
    plumb_text_string(text, ask->after->lift == PLUMB_BENCH
                                ? "; poses at rest; the paths of bar and elbows are a model. "
                                : "; poses in static balance; the path of the bar is a model. ");
    if (handout->has_spread) {
        plumb_text_string(text, "\"Give or take\" holds 95 of 100 bodies with these measures, of ");
        plumb_text_integer(text, ask->sample_count);
        plumb_text_string(text, " drawn. ");
        plumb_text_string(text, plumb_interval_caution());
        plumb_text_string(text, " ");
    }
    if (ask->stills != NULL) {
        plumb_text_string(text, "On the picture: bold the figure fitted to the marks (+), grey the "
                                "model; \xc2\xb1 there is one standard deviation of the fit. ");
    }
    if (body->extrapolated != 0) {
        plumb_text_string(text, "This body lies outside what the tables cover. ");
    }
    if (handout->drill.count > 0 && handout->working == NULL) {
        plumb_text_string(text, "Drills: ");
        plumb_text_string(text, "common practice or the coach's own; no study is claimed. ");
    }
    plumb_text_string(text, ask->program);
    plumb_text_string(text, ".");
}
