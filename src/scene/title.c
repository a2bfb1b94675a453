/* SPDX-License-Identifier: MIT */
/* The title block: who, which lift, what leads, scale, what it rests on, and the caution. */
#include "scene/board.h"

#include <math.h>
#include <stddef.h>

static const double PAD_MM = 1.2;

enum { CELL_SIZE = 400, CELLS = 8 };

typedef struct Cell {
    const char *caption;
    char words[CELL_SIZE];
    double size_mm;
} Cell;

typedef struct Block {
    PlumbBoard board;
    PlumbRect rect;
    double y_mm;
    bool draw; /* false: only measured */
} Block;

const char *plumb_caution_line(void)
{
    return "Estimates for teaching from average adults; not medical advice. Stop on pain; start "
           "light; use spotters or safety pins.";
}

static PlumbText begin(Cell *cell, const char *caption, double size_mm)
{
    cell->caption = caption;
    cell->size_mm = size_mm;
    return plumb_text_begin(cell->words, sizeof cell->words);
}

static const PlumbSetup *setup_of(const PlumbDrawing *drawing)
{
    return drawing->press != NULL ? &drawing->press->setup : &drawing->answer->setup;
}

static void lifter_cell(Cell *cell, const PlumbDrawing *drawing)
{
    const PlumbBody *body = &drawing->lifter->body;
    PlumbText text = begin(cell, "lifter", PLUMB_NORMAL_TEXT_MM);
    if (drawing->name[0] != '\0') {
        plumb_text_string(&text, drawing->name);
        plumb_text_string(&text, ", ");
    }
    plumb_text_string(&text, plumb_sex_name(body->sex));
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->stature_m, PLUMB_Q_STATURE, drawing->units);
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, body->mass_kg, PLUMB_Q_MASS, drawing->units);
}

static void lift_cell(Cell *cell, const PlumbDrawing *drawing)
{
    const PlumbSetup *setup = setup_of(drawing);
    PlumbText text = begin(cell, "lift", PLUMB_NORMAL_TEXT_MM);
    if (setup->lift == PLUMB_SQUAT) {
        plumb_text_string(&text, plumb_seat_name(setup->seat));
        plumb_text_string(&text, "-bar ");
        if (setup->seat == PLUMB_FRONT_BAR) {
            text = plumb_text_begin(cell->words, sizeof cell->words);
            plumb_text_string(&text, "front ");
        }
    } else if (setup->lift == PLUMB_DEADLIFT) {
        plumb_text_string(&text, plumb_style_name(setup->style));
        plumb_text_char(&text, ' ');
    }
    plumb_text_string(&text, plumb_lift_text(setup->lift));
    plumb_text_string(&text, ", ");
    plumb_text_quantity(&text, setup->load_kg, PLUMB_Q_MASS, drawing->units);
    if (drawing->setup_name[0] != '\0') {
        plumb_text_string(&text, " (");
        plumb_text_string(&text, drawing->setup_name);
        plumb_text_char(&text, ')');
    }
}

/* What the views do not dimension. */
static void setup_cell(Cell *cell, const PlumbDrawing *drawing)
{
    const PlumbSetup *setup = setup_of(drawing);
    const bool press = setup->lift == PLUMB_BENCH;
    PlumbText text = begin(cell, "set-up", PLUMB_SMALL_TEXT_MM);
    plumb_text_string(&text, press ? "arch " : "toes ");
    plumb_text_quantity(&text, press ? setup->arch_m : setup->toes_rad,
                        press ? PLUMB_Q_LENGTH : PLUMB_Q_ANGLE, drawing->units);
    if (press && setup->elbows_given) {
        plumb_text_string(&text, ", elbows ");
        plumb_text_quantity(&text, setup->elbows_rad, PLUMB_Q_ANGLE, drawing->units);
    } else if (press) {
        plumb_text_string(&text, ", elbows under the bar");
    }
    plumb_setup_rest_text(&text, setup, drawing->units);
}

static void lead_cell(Cell *cell, const PlumbDrawing *drawing)
{
    const PlumbSetup *setup = setup_of(drawing);
    PlumbText text = begin(cell, "what leads", PLUMB_SMALL_TEXT_MM);
    if (setup->lead == PLUMB_LEAD_AUTO) {
        const bool ranged = drawing->press != NULL ? drawing->press->low_effort.exists
                                                   : drawing->answer->low_effort.exists;
        plumb_text_string(&text,
                          ranged ? "middle of the low-effort range" : "auto, no low-effort range");
        return;
    }
    const PlumbSetting *row = plumb_setting(plumb_setup_lead_setting(setup));
    for (const char *c = row->key; *c != '\0'; c++) {
        plumb_text_char(&text, *c == '_' ? ' ' : *c);
    }
    plumb_text_char(&text, ' ');
    plumb_text_quantity(&text, plumb_setup_get(setup, row->id), row->quantity, drawing->units);
    if (setup->lead == PLUMB_LEAD_HEIGHT_AND_BALANCE) {
        plumb_text_string(&text, ", balance ");
        plumb_text_quantity(&text, setup->balance_frac, PLUMB_Q_FRACTION, drawing->units);
    }
}

/* Lengths that the lift uses and that rest on memory; then what lies outside the sources. */
static void memory_cell(Cell *cell, const PlumbDrawing *drawing)
{
    const PlumbBody *body = &drawing->lifter->body;
    PlumbText text = begin(cell, "rests on memory or extrapolation", PLUMB_SMALL_TEXT_MM);
    int count = 0;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        if (body->length_basis[i] != PLUMB_BASIS_MEMORY ||
            !plumb_setup_uses_length(setup_of(drawing), (PlumbLength)i)) {
            continue;
        }
        plumb_text_string(&text, count++ > 0 ? ", " : "");
        for (const char *c = plumb_length_name((PlumbLength)i); *c != '\0'; c++) {
            plumb_text_char(&text, *c == '_' ? ' ' : *c);
        }
    }
    static const struct {
        unsigned bit;
        const char *words;
    } OUTSIDE[] = {
        {PLUMB_BODY_AGE_BELOW_18, "age below 18"},
        {PLUMB_BODY_STATURE_OUTSIDE, "stature outside the survey"},
        {PLUMB_BODY_MASS_OUTSIDE, "mass outside the survey"},
    };
    for (size_t i = 0; i < sizeof OUTSIDE / sizeof OUTSIDE[0]; i++) {
        if ((body->extrapolated & OUTSIDE[i].bit) != 0) {
            plumb_text_string(&text, count++ > 0 ? ", " : "");
            plumb_text_string(&text, OUTSIDE[i].words);
        }
    }
    plumb_text_string(&text, drawing->press == NULL && drawing->answer->start.extrapolated != 0
                                 ? (count > 0 ? ", some capacities" : "some capacities")
                                 : "");
    if (text.length == 0) {
        plumb_text_string(&text, "nothing");
    }
}

static void small_cells(Cell scale[3], const PlumbDrawing *drawing, double scale_n)
{
    PlumbText text = begin(&scale[0], "scale", PLUMB_SMALL_TEXT_MM);
    if (isfinite(scale_n)) {
        plumb_text_string(&text, "1 : ");
        plumb_text_quantity(&text, scale_n, PLUMB_Q_NUMBER, drawing->units);
    } else {
        plumb_text_string(&text, "none");
    }
    PlumbText table = begin(&scale[1], "lengths", PLUMB_SMALL_TEXT_MM);
    plumb_text_string(&table, plumb_table_name(drawing->lifter->body.length_table));
    plumb_text_string(&table, " table");
    PlumbText date = begin(&scale[2], "date", PLUMB_SMALL_TEXT_MM);
    plumb_text_string(&date, drawing->date);
}

/* Lines a cell takes, caption included, and whether its caption stands in the line. */
static double cell_height(const Block *block, const Cell *cell, double width_mm, int most)
{
    const double size = plumb_board_size(&block->board, cell->size_mm);
    const int lines =
        plumb_board_wrap_count(&block->board, width_mm - 2.0 * PAD_MM, size, cell->words);
    const double caption = plumb_board_size(&block->board, PLUMB_SMALL_TEXT_MM);
    return PLUMB_LINE_PITCH * (caption + size * fmin(fmax(1.0, lines), most)) + 0.6 * PAD_MM;
}

static void draw_cell(const Block *block, const Cell *cell, PlumbRect rect, int most)
{
    const PlumbTag tag = {PLUMB_TAG_TITLE, 0};
    const double caption = plumb_board_size(&block->board, PLUMB_SMALL_TEXT_MM);
    plumb_scene_rect(block->board.scene, PEN_RULE, tag, rect);
    double y = rect.y_mm + 0.3 * PAD_MM;
    plumb_board_text(&block->board, PLUMB_ROLE_quiet, tag,
                     (PlumbVec2){rect.x_mm + PAD_MM, y + 0.98 * caption}, caption, PLUMB_START,
                     cell->caption);
    y += PLUMB_LINE_PITCH * caption;
    plumb_board_wrap(&block->board, PLUMB_ROLE_ink, tag, rect.x_mm + PAD_MM, &y,
                     rect.width_mm - 2.0 * PAD_MM, plumb_board_size(&block->board, cell->size_mm),
                     most, cell->words);
}

/* A row of cells with shares of the width; drawn only where block->draw. */
static void add_row(Block *block, const Cell *cell, const double *share, int count, int most)
{
    double height = 0.0;
    for (int i = 0; i < count; i++) {
        height = fmax(height, cell_height(block, &cell[i], share[i] * block->rect.width_mm, most));
    }
    const double left = block->rect.y_mm + block->rect.height_mm - block->y_mm;
    if (block->draw && height > left + 1e-6) {
        return;
    }
    double x = block->rect.x_mm;
    for (int i = 0; block->draw && i < count; i++) {
        const double width = share[i] * block->rect.width_mm;
        draw_cell(block, &cell[i], (PlumbRect){x, block->y_mm, width, height}, most);
        x += width;
    }
    block->y_mm += height;
}

/* Narrow: lifter, lift, set-up, leads and scale, lengths and date, memory. Wide: two rows of cells
 * and the set-up. */
static void add_cells(Block *block, const Cell cell[CELLS])
{
    static const double HALF[2] = {0.64, 0.36};
    static const double ONE[1] = {1.0};
    static const double FIRST[3] = {0.38, 0.34, 0.28};
    static const double SECOND[4] = {0.14, 0.17, 0.19, 0.5};
    if (block->rect.width_mm < 62.0 * plumb_board_size(&block->board, PLUMB_SMALL_TEXT_MM)) {
        add_row(block, &cell[0], ONE, 1, 2);
        add_row(block, &cell[1], ONE, 1, 2);
        add_row(block, &cell[7], ONE, 1, 3);
        const Cell lead[2] = {cell[2], cell[3]};
        add_row(block, lead, HALF, 2, 2);
        const Cell table[2] = {cell[4], cell[5]};
        add_row(block, table, HALF, 2, 2);
        add_row(block, &cell[6], ONE, 1, 5);
        return;
    }
    add_row(block, cell, FIRST, 3, 2);
    add_row(block, &cell[3], SECOND, 4, 3);
    add_row(block, &cell[7], ONE, 1, 2);
}

static void fill_cells(Cell cell[CELLS], const PlumbDrawing *drawing, double scale_n)
{
    lifter_cell(&cell[0], drawing);
    lift_cell(&cell[1], drawing);
    lead_cell(&cell[2], drawing);
    small_cells(&cell[3], drawing, scale_n);
    memory_cell(&cell[6], drawing);
    setup_cell(&cell[7], drawing);
}

static int caution_lines(const Block *block)
{
    return plumb_board_wrap_count(&block->board, block->rect.width_mm - 2.0 * PAD_MM,
                                  plumb_board_size(&block->board, PLUMB_SMALL_TEXT_MM),
                                  plumb_caution_line());
}

static double caution_height(const Block *block)
{
    return PLUMB_LINE_PITCH * plumb_board_size(&block->board, PLUMB_SMALL_TEXT_MM) *
               caution_lines(block) +
           PAD_MM;
}

double plumb_title_height_mm(const PlumbDrawing *drawing, double width_mm, double scale_n)
{
    Block block = {{NULL, drawing}, {0.0, 0.0, width_mm, HUGE_VAL}, 0.0, false};
    Cell cell[CELLS];
    fill_cells(cell, drawing, scale_n);
    add_cells(&block, cell);
    return block.y_mm + caution_height(&block);
}

void plumb_compose_title(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect,
                         double scale_n)
{
    Block block = {{scene, drawing}, rect, rect.y_mm, true};
    Cell cell[CELLS];
    fill_cells(cell, drawing, scale_n);
    /* The caution first: it has its room whatever else is left out. */
    const double height = caution_height(&block);
    double y = rect.y_mm + rect.height_mm - height + 0.4 * PAD_MM;
    plumb_board_wrap(&block.board, PLUMB_ROLE_ink, (PlumbTag){PLUMB_TAG_TITLE, 0},
                     rect.x_mm + PAD_MM, &y, rect.width_mm - 2.0 * PAD_MM,
                     plumb_board_size(&block.board, PLUMB_SMALL_TEXT_MM), caution_lines(&block),
                     plumb_caution_line());
    plumb_scene_rect(scene, PEN_OUTLINE, (PlumbTag){PLUMB_TAG_TITLE, 0}, rect);
    block.rect.height_mm -= height;
    add_cells(&block, cell);
}
