/* SPDX-License-Identifier: MIT */
/* The equations of a working: each in words and symbols, and its terms as a table or in sentences.
 */
#include "scene/working_page.h"

#include <math.h>

static const double TERM_MM = 44.0; /* width of the column of words */

static void cell(const PlumbWorkingPage *page, double x_mm, PlumbAlign align, PlumbRole role,
                 const char *text)
{
    plumb_board_text(&page->board, role, TAG_NONE, (PlumbVec2){x_mm, page->y_mm + page->em_mm},
                     page->em_mm, align, text);
}

static void term_words(const PlumbExplainStep *step, int term, PlumbText *text)
{
    if (plumb_explain_has_sum(step)) {
        plumb_text_integer(text, term + 1);
        plumb_text_string(text, "  ");
    }
    plumb_text_string(text, step->term[term].words);
}

static double number_width(const PlumbWorkingPage *page, double value, int decimals)
{
    char words[48];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, value, decimals);
    return plumb_board_width(&page->board, words, page->em_mm);
}

/* What a column needs. */
static double column_width(const PlumbWorkingPage *page, const PlumbExplainStep *step, int column)
{
    const PlumbExplainColumn *const of = &step->column[column];
    double width = fmax(plumb_board_width(&page->board, of->symbol, page->em_mm),
                        plumb_board_width(&page->board, of->unit, page->em_mm));
    for (int i = 0; i < step->term_count; i++) {
        if (isfinite(step->term[i].value[column])) {
            width = fmax(width, number_width(page, step->term[i].value[column], of->decimals));
        }
    }
    return column == step->column_count - 1 && plumb_explain_has_sum(step)
               ? fmax(width, number_width(page, step->result, step->decimals))
               : width;
}

/* Where the columns end; false where a narrow strip has no room for them. */
static bool place_columns(PlumbWorkingPage *page, const PlumbExplainStep *step)
{
    const bool narrow = page->strip && page->width_mm < PLUMB_WORKING_PAPER_MM;
    double name = TERM_MM;
    for (int i = 0; narrow && i < step->term_count; i++) {
        char words[PLUMB_EXPLAIN_NAME + 8];
        PlumbText text = plumb_text_begin(words, sizeof words);
        term_words(step, i, &text);
        const double width = plumb_board_width(&page->board, words, page->em_mm);
        name = i == 0 ? width : fmax(name, width);
    }
    const double room = (page->width_mm - name) / step->column_count;
    double x = page->x_mm + name;
    double spare = page->width_mm - name;
    for (int i = 0; i < step->column_count; i++) {
        spare -= narrow ? column_width(page, step, i) + page->em_mm : 0.0;
    }
    for (int i = 0; i < step->column_count; i++) {
        x += narrow ? column_width(page, step, i) + page->em_mm + spare / step->column_count : room;
        page->end_mm[i] = x;
    }
    return !narrow || spare >= 0.0;
}

static void rule(const PlumbWorkingPage *page, const PlumbExplainStep *step)
{
    const double y = page->y_mm + 0.2 * page->em_mm;
    plumb_scene_line(page->board.scene, PEN_RULE, TAG_NONE, (PlumbVec2){page->x_mm, y},
                     (PlumbVec2){page->end_mm[step->column_count - 1], y});
}

static void table_head(PlumbWorkingPage *page, const PlumbExplainStep *step)
{
    for (int i = 0; i < step->column_count; i++) {
        cell(page, page->end_mm[i], PLUMB_END, PLUMB_ROLE_ink, step->column[i].symbol);
    }
    page->y_mm += 1.2 * page->em_mm;
    for (int i = 0; i < step->column_count; i++) {
        cell(page, page->end_mm[i], PLUMB_END, PLUMB_ROLE_quiet, step->column[i].unit);
    }
    page->y_mm += 1.2 * page->em_mm;
    rule(page, step);
    page->y_mm += 0.4 * page->em_mm;
}

static void figure(const PlumbWorkingPage *page, int column, double value, int decimals)
{
    char words[48];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, value, decimals);
    cell(page, page->end_mm[column], PLUMB_END, PLUMB_ROLE_ink, words);
}

static void result_words(const PlumbExplainStep *step, PlumbText *text)
{
    plumb_text_string(text, step->symbol);
    plumb_text_string(text, ", sum");
}

static void table_rows(PlumbWorkingPage *page, const PlumbExplainStep *step)
{
    for (int i = 0; i < step->term_count; i++) {
        const PlumbExplainTerm *term = &step->term[i];
        char words[PLUMB_EXPLAIN_NAME + 8];
        PlumbText text = plumb_text_begin(words, sizeof words);
        term_words(step, i, &text);
        cell(page, page->x_mm, PLUMB_START, PLUMB_ROLE_ink, words);
        for (int k = 0; k < step->column_count; k++) {
            if (isfinite(term->value[k])) {
                figure(page, k, term->value[k], step->column[k].decimals);
            }
        }
        page->y_mm += PLUMB_LINE_PITCH * page->em_mm;
    }
    rule(page, step);
    page->y_mm += 0.4 * page->em_mm;
    if (!plumb_explain_has_sum(step)) {
        page->y_mm += 0.4 * page->em_mm;
        return;
    }
    char words[96];
    PlumbText text = plumb_text_begin(words, sizeof words);
    result_words(step, &text);
    cell(page, page->x_mm, PLUMB_START, PLUMB_ROLE_ink, words);
    figure(page, step->column_count - 1, step->result, step->decimals);
    page->y_mm += 1.8 * page->em_mm;
}

/* " = 12.3 kg" after a symbol. */
static void put_value(PlumbText *text, double value, int decimals, const char *unit)
{
    plumb_text_string(text, " = ");
    plumb_text_fixed(text, value, decimals);
    plumb_text_string(text, unit[0] != '\0' ? " " : "");
    plumb_text_string(text, unit);
}

/* The table in sentences: "1  thigh: m = 12.3 kg, x = 0.12 m, ...". */
static void table_lines(PlumbWorkingPage *page, const PlumbExplainStep *step)
{
    char line[PLUMB_WORKING_LINE_SIZE];
    for (int i = 0; i < step->term_count; i++) {
        PlumbText text = plumb_text_begin(line, sizeof line);
        term_words(step, i, &text);
        const char *before = ": ";
        for (int k = 0; k < step->column_count; k++) {
            if (isfinite(step->term[i].value[k])) {
                plumb_text_string(&text, before);
                plumb_text_string(&text, step->column[k].symbol);
                put_value(&text, step->term[i].value[k], step->column[k].decimals,
                          step->column[k].unit);
                before = ", ";
            }
        }
        plumb_working_paragraph(page, PLUMB_ROLE_ink, page->em_mm, line);
        page->y_mm += 0.3 * page->em_mm;
    }
    if (!plumb_explain_has_sum(step)) {
        page->y_mm += 0.5 * page->em_mm;
        return;
    }
    PlumbText text = plumb_text_begin(line, sizeof line);
    result_words(step, &text);
    put_value(&text, step->result, step->decimals, step->unit);
    plumb_working_paragraph(page, PLUMB_ROLE_ink, page->em_mm, line);
    page->y_mm += 0.8 * page->em_mm;
}

void plumb_working_steps(PlumbWorkingPage *page)
{
    const PlumbExplanation *e = page->working->explanation;
    for (int i = 0; i < e->step_count; i++) {
        const PlumbExplainStep *step = &e->step[i];
        plumb_working_paragraph(page, PLUMB_ROLE_ink, PLUMB_NORMAL_TEXT_MM, step->title);
        plumb_working_paragraph(page, PLUMB_ROLE_quiet, page->em_mm, step->words);
        page->y_mm += 0.4 * page->em_mm;
        plumb_working_paragraph(page, PLUMB_ROLE_ink, PLUMB_NORMAL_TEXT_MM, step->symbols);
        page->y_mm += 0.5 * page->em_mm;
        if (place_columns(page, step)) {
            table_head(page, step);
            table_rows(page, step);
        } else {
            table_lines(page, step);
        }
    }
    char line[160];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_explain_result(&text, e, page->working->units);
    plumb_text_char(&text, '.');
    plumb_working_paragraph(page, PLUMB_ROLE_ink, PLUMB_NORMAL_TEXT_MM, line);
    page->y_mm += 0.6 * page->em_mm;
}
