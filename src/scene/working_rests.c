/* SPDX-License-Identifier: MIT */
/* What a working rests on: its symbols, what was given, and the sources of its numbers. */
#include "scene/forces.h"
#include "scene/working_page.h"

#include <string.h>

/* "M: what it is; m: ..." in one paragraph. */
void plumb_working_legend(PlumbWorkingPage *page)
{
    const PlumbExplanation *e = page->working->explanation;
    char line[PLUMB_WORKING_LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Symbols: ");
    for (int i = 0; i < e->symbol_count; i++) {
        plumb_text_string(&text, i > 0 ? "; " : "");
        plumb_text_string(&text, e->symbol[i].symbol);
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, e->symbol[i].words);
    }
    const PlumbExplainKind kind = e->question.kind;
    const bool effort = kind == PLUMB_EXPLAIN_effort || kind == PLUMB_EXPLAIN_press_effort;
    plumb_text_string(&text, effort ? "; R: force of the joint, which has no lever about it" : "");
    plumb_working_paragraph(page, PLUMB_ROLE_ink, page->em_mm, line);
    if (plumb_cuts_free(kind)) {
        plumb_working_paragraph(page, PLUMB_ROLE_ink, page->em_mm,
                                "Drawn: the arc M and R are what the joint does to the part that "
                                "is cut free; an arrow grows with its force, not to scale.");
    }
    page->y_mm += 0.5 * page->em_mm;
}

/* Numbers that the lifter or the set-up gave. */
static void givens(PlumbWorkingPage *page)
{
    const PlumbExplanation *e = page->working->explanation;
    char line[PLUMB_WORKING_LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Given or solved: ");
    bool begun = false;
    for (int i = 0; i < e->number_count; i++) {
        const PlumbExplainNumber *n = &e->number[i];
        if (n->row[0] != NULL || n->row[1] != NULL) {
            continue;
        }
        plumb_text_string(&text, begun ? "; " : "");
        plumb_explain_put_number(&text, n);
        begun = true;
    }
    if (begun) {
        plumb_working_paragraph(page, PLUMB_ROLE_ink, page->em_mm, line);
    }
}

static bool rests_on(const PlumbExplainNumber *n, const PlumbSourceRow *row)
{
    for (int k = 0; k < 2; k++) {
        if (n->row[k] != NULL && strcmp(n->row[k]->citation, row->citation) == 0 &&
            strcmp(n->row[k]->basis, row->basis) == 0) {
            return true;
        }
    }
    return false;
}

/* All numbers of one source in one paragraph: "survey, ANSUR II ...: shank 0.4203 m; ...". */
static void source_paragraph(PlumbWorkingPage *page, const PlumbSourceRow *row)
{
    const PlumbExplanation *e = page->working->explanation;
    char line[PLUMB_WORKING_LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, row->basis);
    plumb_text_string(&text, ", ");
    plumb_text_string(&text, row->citation);
    plumb_text_string(&text, ": ");
    bool begun = false;
    for (int i = 0; i < e->number_count; i++) {
        const PlumbExplainNumber *n = &e->number[i];
        if (!rests_on(n, row)) {
            continue;
        }
        plumb_text_string(&text, begun ? "; " : "");
        plumb_explain_put_number(&text, n);
        begun = true;
    }
    plumb_working_paragraph(page, PLUMB_ROLE_quiet, page->em_mm, line);
}

static void sources(PlumbWorkingPage *page)
{
    const PlumbExplanation *e = page->working->explanation;
    const PlumbSourceRow *done[2 * PLUMB_EXPLAIN_NUMBERS];
    int count = 0;
    for (int i = 0; i < 2 * e->number_count; i++) {
        const PlumbSourceRow *row = e->number[i / 2].row[i % 2];
        bool seen = row == NULL;
        for (int k = 0; k < count && !seen; k++) {
            seen = strcmp(done[k]->citation, row->citation) == 0 &&
                   strcmp(done[k]->basis, row->basis) == 0;
        }
        if (!seen) {
            done[count++] = row;
            source_paragraph(page, row);
        }
    }
}

void plumb_working_rests(PlumbWorkingPage *page)
{
    givens(page);
    sources(page);
}
