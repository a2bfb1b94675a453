/* SPDX-License-Identifier: MIT */
/* The page of a working: title, free body, equations with their tables, symbols, sources. */
#include <plumbar/working.h>

#include "scene/forces.h"

#include <math.h>
#include <string.h>

static const double MARGIN_MM = 9.0;
static const double BODY_LEAST_MM = 62.0; /* height of the free body */
static const double STRIP_BODY_MM = 80.0; /* of a strip, and the most of a wide one */
static const double BODY_MOST_MM = 150.0;
static const double LEG_BODY_MM = 100.0;  /* the leg from the side and from the front */
static const double SMALL_BODY_MM = 48.0; /* of a length, which has none */
static const double TERM_MM = 44.0;       /* width of the column of words */

static const double PAPER_MM = 192.0; /* of text on A4; a strip wider than it gains nothing */
static const double BESIDE_MM = 84.0; /* a free body this wide stands beside the text of a strip */

enum { LINE_SIZE = 2048 };

/* What the page stands on. */
typedef struct Ground {
    double width_mm;
    double bottom_mm;  /* how far text may reach */
    double body_mm;    /* height of the free body */
    double caution_mm; /* baseline of the caution; 0: none */
    bool strip;
} Ground;

typedef struct Page {
    PlumbBoard board;
    const PlumbWorking *working;
    double x_mm;
    double y_mm;
    double width_mm;
    double bottom_mm;
    double em_mm;
    bool strip;
    double end_mm[PLUMB_EXPLAIN_COLUMNS]; /* right edges of the columns of a table */
} Page;

/* A paragraph, as far as the page reaches. */
static void paragraph(Page *page, PlumbRole role, double size_mm, const char *text)
{
    const int room = (int)fmin((page->bottom_mm - page->y_mm) / (PLUMB_LINE_PITCH * size_mm), 1e6);
    if (room > 0) {
        plumb_board_wrap(&page->board, role, TAG_NONE, page->x_mm, &page->y_mm, page->width_mm,
                         size_mm, room, text);
    }
}

static void cell(const Page *page, double x_mm, PlumbAlign align, PlumbRole role, const char *text)
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

static double number_width(const Page *page, double value, int decimals)
{
    char words[48];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_fixed(&text, value, decimals);
    return plumb_board_width(&page->board, words, page->em_mm);
}

/* What a column needs. */
static double column_width(const Page *page, const PlumbExplainStep *step, int column)
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
static bool place_columns(Page *page, const PlumbExplainStep *step)
{
    const bool narrow = page->strip && page->width_mm < PAPER_MM;
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

static void rule(const Page *page, const PlumbExplainStep *step)
{
    const double y = page->y_mm + 0.2 * page->em_mm;
    plumb_scene_line(page->board.scene, PEN_RULE, TAG_NONE, (PlumbVec2){page->x_mm, y},
                     (PlumbVec2){page->end_mm[step->column_count - 1], y});
}

static void table_head(Page *page, const PlumbExplainStep *step)
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

static void figure(const Page *page, int column, double value, int decimals)
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

static void table_rows(Page *page, const PlumbExplainStep *step)
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
static void table_lines(Page *page, const PlumbExplainStep *step)
{
    char line[LINE_SIZE];
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
        paragraph(page, PLUMB_ROLE_ink, page->em_mm, line);
        page->y_mm += 0.3 * page->em_mm;
    }
    if (!plumb_explain_has_sum(step)) {
        page->y_mm += 0.5 * page->em_mm;
        return;
    }
    PlumbText text = plumb_text_begin(line, sizeof line);
    result_words(step, &text);
    put_value(&text, step->result, step->decimals, step->unit);
    paragraph(page, PLUMB_ROLE_ink, page->em_mm, line);
    page->y_mm += 0.8 * page->em_mm;
}

static void steps(Page *page)
{
    const PlumbExplanation *e = page->working->explanation;
    for (int i = 0; i < e->step_count; i++) {
        const PlumbExplainStep *step = &e->step[i];
        paragraph(page, PLUMB_ROLE_ink, PLUMB_NORMAL_TEXT_MM, step->title);
        paragraph(page, PLUMB_ROLE_quiet, page->em_mm, step->words);
        page->y_mm += 0.4 * page->em_mm;
        paragraph(page, PLUMB_ROLE_ink, PLUMB_NORMAL_TEXT_MM, step->symbols);
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
    paragraph(page, PLUMB_ROLE_ink, PLUMB_NORMAL_TEXT_MM, line);
    page->y_mm += 0.6 * page->em_mm;
}

/* "M: what it is; m: ..." in one paragraph. */
static void legend(Page *page)
{
    const PlumbExplanation *e = page->working->explanation;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Symbols: ");
    for (int i = 0; i < e->symbol_count; i++) {
        plumb_text_string(&text, i > 0 ? "; " : "");
        plumb_text_string(&text, e->symbol[i].symbol);
        plumb_text_string(&text, " ");
        plumb_text_string(&text, e->symbol[i].words);
    }
    const PlumbExplainKind kind = e->question.kind;
    plumb_text_string(&text, kind == PLUMB_EXPLAIN_moment || kind == PLUMB_EXPLAIN_effort
                                 ? "; R force of the joint, which has no lever about it"
                                 : "");
    paragraph(page, PLUMB_ROLE_ink, page->em_mm, line);
    page->y_mm += 0.5 * page->em_mm;
}

/* "shank 0.4203 m" */
static void put_number(PlumbText *text, const PlumbExplainNumber *n)
{
    plumb_text_string(text, n->words);
    plumb_text_char(text, ' ');
    plumb_text_fixed(text, n->value, 4);
    plumb_text_string(text, n->unit[0] != '\0' ? " " : "");
    plumb_text_string(text, n->unit);
}

/* Numbers that the lifter or the set-up gave. */
static void givens(Page *page)
{
    const PlumbExplanation *e = page->working->explanation;
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, "Given or solved: ");
    bool begun = false;
    for (int i = 0; i < e->number_count; i++) {
        const PlumbExplainNumber *n = &e->number[i];
        if (n->row[0] != NULL || n->row[1] != NULL) {
            continue;
        }
        plumb_text_string(&text, begun ? "; " : "");
        put_number(&text, n);
        begun = true;
    }
    if (begun) {
        paragraph(page, PLUMB_ROLE_ink, page->em_mm, line);
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
static void source_paragraph(Page *page, const PlumbSourceRow *row)
{
    const PlumbExplanation *e = page->working->explanation;
    char line[LINE_SIZE];
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
        put_number(&text, n);
        begun = true;
    }
    paragraph(page, PLUMB_ROLE_quiet, page->em_mm, line);
}

static void sources(Page *page)
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

static void describe(PlumbScene *scene, const PlumbWorking *working)
{
    const PlumbExplanation *e = working->explanation;
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, e->title);
    PlumbText text = plumb_text_begin(scene->description, sizeof scene->description);
    const PlumbExplainStep *step = &e->step[e->step_count - 1];
    plumb_text_string(&text, step->words);
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, step->symbol);
    plumb_text_string(&text, " = ");
    plumb_text_fixed(&text, step->result, step->decimals);
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, step->unit);
    plumb_text_string(&text, ". ");
    plumb_text_string(&text, plumb_caution_line());
}

static void head(Page *page)
{
    const PlumbWorking *w = page->working;
    paragraph(page, PLUMB_ROLE_ink, PLUMB_LARGE_TEXT_MM, w->explanation->title);
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    const PlumbBody *body = &w->subject->lifter->body;
    plumb_text_string(&text, w->name);
    plumb_text_string(&text, w->name[0] != '\0' ? ", " : "");
    plumb_text_string(&text, plumb_sex_name(body->sex));
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->stature_m, PLUMB_Q_STATURE, PLUMB_METRIC);
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->mass_kg, PLUMB_Q_MASS, PLUMB_METRIC);
    const PlumbSetup *const setup = plumb_explain_setup(w->subject);
    if (setup != NULL) {
        plumb_text_string(&text, "; ");
        plumb_text_string(&text, plumb_lift_text(setup->lift));
        plumb_text_string(&text, ", ");
        plumb_text_quantity(&text, setup->load_kg, PLUMB_Q_MASS, PLUMB_METRIC);
    }
    if (w->subject->motion != NULL || w->subject->press_motion != NULL) {
        plumb_text_string(&text, "; ");
        plumb_text_quantity(&text,
                            w->subject->motion != NULL ? w->subject->motion->t_s
                                                       : w->subject->press_motion->t_s,
                            PLUMB_Q_TIME, PLUMB_METRIC);
        plumb_text_string(&text, " after the start of the way up");
    }
    plumb_text_string(&text, w->date[0] != '\0' ? "; " : "");
    plumb_text_string(&text, w->date);
    paragraph(page, PLUMB_ROLE_quiet, page->em_mm, line);
}

/* Room of the free body, below the head or, in a wide strip, beside the text. */
static PlumbRect place_body(Page *page, const Ground *ground)
{
    const double beside = page->width_mm - PAPER_MM - MARGIN_MM;
    if (ground->strip && page->width_mm > PAPER_MM) {
        page->width_mm = PAPER_MM;
    }
    PlumbRect body = {page->x_mm, page->y_mm + 2.0, page->width_mm, ground->body_mm};
    if (ground->strip && beside >= BESIDE_MM) {
        body.width_mm = fmin(beside, PAPER_MM);
        page->x_mm += body.width_mm + MARGIN_MM;
        page->y_mm += 2.0;
    } else {
        page->y_mm = body.y_mm + body.height_mm + 3.0;
    }
    return body;
}

/* Returns where all of it ends, beyond the page or not, as far as the ground's bottom reaches. */
static double compose(PlumbScene *scene, const PlumbWorking *working, const Ground *ground)
{
    describe(scene, working);
    const PlumbDrawing drawing =
        plumb_drawing_default(working->subject->lifter, working->subject->answer,
                              working->text_width, working->text_user);
    const double margin = ground->strip ? 2.0 : MARGIN_MM;
    Page page = {.board = {scene, &drawing},
                 .working = working,
                 .x_mm = margin,
                 .y_mm = margin,
                 .width_mm = ground->width_mm - 2.0 * margin,
                 .bottom_mm = ground->bottom_mm,
                 .em_mm = PLUMB_SMALL_TEXT_MM,
                 .strip = ground->strip};
    head(&page);
    const PlumbRect body = place_body(&page, ground);
    plumb_compose_free_body(scene, working, body);
    steps(&page);
    legend(&page);
    for (int i = 0; i < working->explanation->note_count; i++) {
        paragraph(&page, PLUMB_ROLE_ink, page.em_mm, working->explanation->note[i]);
    }
    page.y_mm += 0.5 * page.em_mm;
    givens(&page);
    sources(&page);
    if (ground->caution_mm > 0.0) {
        plumb_board_text(&page.board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){MARGIN_MM, ground->caution_mm}, PLUMB_SMALL_TEXT_MM,
                         PLUMB_START, plumb_caution_line());
    }
    return fmax(page.y_mm, body.y_mm + body.height_mm);
}

static bool has_small_body(const PlumbWorking *working)
{
    return working->explanation->question.kind == PLUMB_EXPLAIN_length;
}

/* Views beside one another are as wide as the paper before they are as high as the room. */
static double body_most(const PlumbWorking *working)
{
    const PlumbExplainKind kind = working->explanation->question.kind;
    const bool above = kind == PLUMB_EXPLAIN_abduction || kind == PLUMB_EXPLAIN_abduction_step ||
                       kind == PLUMB_EXPLAIN_shoulder_rotation;
    return working->subject->press != NULL ? (above ? BODY_LEAST_MM : STRIP_BODY_MM)
           : plumb_leg_alone(kind)         ? LEG_BODY_MM
                                           : BODY_MOST_MM;
}

/* The text takes what it needs, the free body the rest of the page. */
void plumb_compose_working(PlumbScene *scene, const PlumbWorking *working)
{
    const double width = working->letter ? 215.9 : 210.0;
    const double height = working->letter ? 279.4 : 297.0;
    const double bottom = height - MARGIN_MM - 5.0;
    Ground ground = {.width_mm = width,
                     .bottom_mm = 10.0 * bottom,
                     .body_mm = BODY_LEAST_MM,
                     .caution_mm = height - MARGIN_MM};
    plumb_scene_begin(scene, width, height);
    const double end = compose(scene, working, &ground);
    const double room = BODY_LEAST_MM + bottom - end;
    const double most = body_most(working);
    ground.body_mm =
        has_small_body(working) ? SMALL_BODY_MM : fmin(fmax(room, BODY_LEAST_MM), most);
    ground.bottom_mm = bottom;
    plumb_scene_begin(scene, width, height);
    compose(scene, working, &ground);
}

double plumb_compose_working_strip(PlumbScene *scene, const PlumbWorking *working, double width_mm)
{
    const Ground ground = {.width_mm = width_mm,
                           .bottom_mm = HUGE_VAL,
                           .body_mm = has_small_body(working) ? SMALL_BODY_MM : STRIP_BODY_MM,
                           .strip = true};
    plumb_scene_begin(scene, width_mm, 0.0);
    scene->height_mm = compose(scene, working, &ground);
    return scene->height_mm;
}
