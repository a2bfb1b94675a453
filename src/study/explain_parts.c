/* SPDX-License-Identifier: MIT */
/* Puts an explanation together: steps, terms, and the digits with which a sum is shown. */
#include "study/explain_parts.h"

#include <plumbar/quantity.h>

#include <assert.h>
#include <string.h>

PlumbExplainStep *plumb_explain_step(PlumbExplanation *e, const char *title, const char *words,
                                     const char *symbols)
{
    assert(e->step_count < PLUMB_EXPLAIN_STEPS);
    PlumbExplainStep *step = &e->step[e->step_count++];
    step->title = title;
    step->words = words;
    step->symbols = symbols;
    return step;
}

void plumb_explain_column(PlumbExplainStep *step, const char *symbol, const char *unit,
                          int decimals)
{
    assert(step->column_count < PLUMB_EXPLAIN_COLUMNS);
    step->column[step->column_count++] = (PlumbExplainColumn){symbol, unit, decimals};
}

PlumbExplainTerm *plumb_explain_term(PlumbExplainStep *step, const char *words)
{
    assert(step->term_count < PLUMB_EXPLAIN_TERMS);
    PlumbExplainTerm *term = &step->term[step->term_count++];
    PlumbText text = plumb_text_begin(term->words, sizeof term->words);
    plumb_text_string(&text, words);
    for (int i = 0; i < PLUMB_EXPLAIN_COLUMNS; i++) {
        term->value[i] = (double)NAN;
    }
    return term;
}

void plumb_explain_figures(const PlumbExplainStep *step, PlumbExplainTerm *term,
                           const double *value)
{
    for (int i = 0; i < step->column_count; i++) {
        term->value[i] = value[i];
    }
}

void plumb_explain_product(PlumbExplainStep *step, const char *words, double length, double share)
{
    PlumbExplainTerm *const term = plumb_explain_term(step, words);
    term->value[0] = length;
    term->value[1] = share;
    term->value[2] = length * share;
}

/* The figure that stands on paper, in whole units of its last digit. Read back from its digits: a
 * tape ends in halves of them, and value * 10^digits may round the other way there. */
static double as_shown(double value, int digits)
{
    char figure[48];
    double shown = 0.0;
    PlumbText text = plumb_text_begin(figure, sizeof figure);
    plumb_text_fixed(&text, value, digits);
    plumb_number_scan(figure, text.length, &shown);
    return round(shown * pow(10.0, digits));
}

/* Whether the terms, rounded to so many digits, add up to the result as it is shown. */
static bool adds_up(const PlumbExplainStep *step, int digits)
{
    const double coarse = pow(10.0, digits - step->decimals);
    double sum = 0.0;
    for (int i = 0; i < step->term_count; i++) {
        sum += as_shown(step->term[i].value[step->column_count - 1], digits);
    }
    return round(sum / coarse) == as_shown(step->result, step->decimals);
}

void plumb_explain_sum(PlumbExplainStep *step, const char *symbol, const char *unit, int decimals)
{
    enum { DIGITS_MAX = 12 };
    PlumbExplainColumn *last = &step->column[step->column_count - 1];
    step->symbol = symbol;
    step->unit = unit;
    step->decimals = decimals;
    step->result = 0.0;
    for (int i = 0; i < step->term_count; i++) {
        step->result += step->term[i].value[step->column_count - 1];
    }
    last->decimals = decimals;
    while (last->decimals < DIGITS_MAX && !adds_up(step, last->decimals)) {
        last->decimals++;
    }
}

void plumb_explain_apart(PlumbExplainStep *step)
{
    step->apart = true;
    step->symbol = "";
    step->unit = "";
    step->result = (double)NAN;
}

bool plumb_explain_has_sum(const PlumbExplainStep *step)
{
    return !step->apart && step->term_count > 1;
}

void plumb_explain_symbol(PlumbExplanation *e, const char *symbol, const char *words)
{
    assert(e->symbol_count < PLUMB_EXPLAIN_SYMBOLS);
    e->symbol[e->symbol_count++] = (PlumbExplainSymbol){symbol, words};
}

void plumb_explain_note(PlumbExplanation *e, const char *note)
{
    assert(e->note_count < PLUMB_EXPLAIN_NOTES);
    e->note[e->note_count++] = note;
}

void plumb_explain_seen_note(PlumbExplanation *e)
{
    plumb_explain_note(e, "The drawing shows the angle as it is seen from the side; with the toes "
                          "turned out the angle in space is another.");
}

void plumb_explain_put_number(PlumbText *text, const PlumbExplainNumber *number)
{
    char figure[48];
    PlumbText digits = plumb_text_begin(figure, sizeof figure);
    plumb_text_fixed(&digits, number->value, strcmp(number->unit, "N") == 0 ? 1 : 5);
    size_t length = digits.length;
    while (figure[length - 1] == '0') {
        length--;
    }
    length -= figure[length - 1] == '.' ? 1 : 0;
    plumb_text_string(text, number->words);
    plumb_text_char(text, ' ');
    plumb_text_bytes(text, figure, length);
    plumb_text_string(text, number->unit[0] != '\0' ? " " : "");
    plumb_text_string(text, number->unit);
}

void plumb_explain_number(PlumbExplanation *e, const char *words, double value, const char *unit,
                          const char *basis, const PlumbSourceRow *first,
                          const PlumbSourceRow *second)
{
    assert(e->number_count < PLUMB_EXPLAIN_NUMBERS);
    PlumbExplainNumber *number = &e->number[e->number_count++];
    PlumbText text = plumb_text_begin(number->words, sizeof number->words);
    plumb_text_string(&text, words);
    number->value = value;
    number->unit = unit;
    number->basis = basis;
    number->row[0] = first;
    number->row[1] = second;
}
