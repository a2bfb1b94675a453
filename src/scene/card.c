/* SPDX-License-Identifier: MIT */
/* Sketches and their words in columns. */
#include "scene/card.h"

#include "scene/mark.h"
#include "scene/outline.h"

#include <math.h>

static const double GAP_MM = 4.0;
static const double COLUMN_LEAST_MM = 56.0;
static const double COLUMN_FULL_MM = 74.0;
static const double SKETCH_SHARE = 0.40; /* of a column's width */
static const double SKETCH_MOST_MM = 46.0;
static const double LINE_MOST_MM = 46.0; /* height of one line of the card */
static const double TEXT_LEAST_MM = 1.9;

/* From a sketch to paper. */
typedef struct Map {
    double scale;
    PlumbVec2 origin_mm;
} Map;

static PlumbVec2 place(const Map *map, PlumbVec2 at)
{
    return (PlumbVec2){map->origin_mm.x + map->scale * at.x, map->origin_mm.y - map->scale * at.y};
}

static Map map_of(const PlumbSketch *sketch, PlumbRect rect)
{
    const double width = sketch->high.x - sketch->low.x;
    const double height = sketch->high.y - sketch->low.y;
    const double scale = fmin(rect.width_mm / width, rect.height_mm / height);
    return (Map){scale,
                 {rect.x_mm + 0.5 * (rect.width_mm - scale * width) - scale * sketch->low.x,
                  rect.y_mm + 0.5 * (rect.height_mm + scale * height) + scale * sketch->low.y}};
}

static void draw_box(const PlumbBoard *board, PlumbPen pen, PlumbVec2 a, PlumbVec2 b)
{
    plumb_scene_rect(board->scene, pen, TAG_NONE,
                     (PlumbRect){fmin(a.x, b.x), fmin(a.y, b.y), fabs(b.x - a.x), fabs(b.y - a.y)});
}

static void draw_stroke(const PlumbBoard *board, const Map *map, const PlumbStroke *stroke)
{
    static const PlumbPen chain = {PLUMB_ROLE_mass, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    static const PlumbPen ball = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_limb};
    static const PlumbPen bar = {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    static const PlumbPen disc = {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbVec2 a = place(map, stroke->a);
    const PlumbVec2 b = place(map, stroke->b);
    switch (stroke->kind) {
    case PLUMB_STROKE_LINE:
    case PLUMB_STROKE_CHAIN:
        plumb_scene_line(board->scene, stroke->kind == PLUMB_STROKE_LINE ? PEN_FINE : chain,
                         TAG_NONE, a, b);
        break;
    case PLUMB_STROKE_BOX:
        draw_box(board, PEN_FINE, a, b);
        break;
    case PLUMB_STROKE_BAR:
        draw_box(board, bar, a, b);
        break;
    case PLUMB_STROKE_CIRCLE:
    case PLUMB_STROKE_DISC:
        plumb_scene_circle(board->scene, stroke->kind == PLUMB_STROKE_DISC ? disc : ball, TAG_NONE,
                           a, map->scale * stroke->b.x);
        break;
    case PLUMB_STROKE_GROUND:
        plumb_mark_ground(board, a.x, a.y, b.x - a.x);
        break;
    }
}

static void draw_link(const PlumbBoard *board, const Map *map, const PlumbLink *link)
{
    static const PlumbPen outline = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_limb};
    const PlumbRound round[2] = {{place(map, link->a), map->scale * link->a_radius},
                                 {place(map, link->b), map->scale * link->b_radius}};
    PlumbVec2 hull_mm[PLUMB_HULL_POINTS];
    const int points = plumb_hull(round, 2, hull_mm);
    plumb_scene_path(board->scene, outline, TAG_NONE, hull_mm, points, true);
}

/* Dimension line, extension lines from what is spanned, and its words. */
static void draw_span(const PlumbBoard *board, const Map *map, const PlumbSpan *span,
                      PlumbRect rect, double size_mm)
{
    static const PlumbPen pen = {PLUMB_ROLE_select, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbVec2 end[2] = {span->a, span->b};
    PlumbVec2 line[2];
    for (int i = 0; i < 2; i++) {
        const PlumbVec2 from = place(map, end[i]);
        line[i] = place(map, span->upright ? (PlumbVec2){span->at, end[i].y}
                                           : (PlumbVec2){end[i].x, span->at});
        plumb_scene_line(board->scene, PEN_RULE, TAG_NONE, from, line[i]);
    }
    plumb_mark_dimension(board, pen, TAG_NONE, line[0], line[1]);
    if (span->words != NULL) {
        const double wide = plumb_board_width(board, span->words, size_mm);
        const double size = size_mm * fmin(1.0, rect.width_mm / wide);
        const double half = 0.5 * fmin(wide, rect.width_mm);
        const double x = fmax(0.5 * (line[0].x + line[1].x), rect.x_mm + half);
        plumb_board_text(board, PLUMB_ROLE_ink, TAG_NONE, (PlumbVec2){x, line[0].y - 0.5 * size},
                         size, PLUMB_MIDDLE, span->words);
    }
}

static void draw_sketch(const PlumbBoard *board, const PlumbSketch *sketch, PlumbRect rect,
                        double size_mm)
{
    const Map map = map_of(sketch, rect);
    for (int i = 0; i < sketch->behind_count; i++) {
        draw_stroke(board, &map, &sketch->behind[i]);
    }
    for (int i = 0; i < sketch->link_count; i++) {
        draw_link(board, &map, &sketch->link[i]);
    }
    for (int i = 0; i < sketch->front_count; i++) {
        draw_stroke(board, &map, &sketch->front[i]);
    }
    const PlumbSpan *const span = &sketch->span;
    if (span->a.x < span->b.x || span->a.y < span->b.y) {
        draw_span(board, &map, span, rect, size_mm);
    }
}

/* How the lines of a card are shared out. */
typedef struct Grid {
    int columns;
    int rows;
    double column_mm;
    double row_mm;
    double sketch_mm; /* width */
    double size_mm;   /* of the text */
    double last_mm;   /* height of the last sentence */
} Grid;

static double words_height(const PlumbBoard *board, const Grid *grid, const PlumbCardLine *line)
{
    const double room = grid->column_mm - grid->sketch_mm - GAP_MM;
    return PLUMB_LINE_PITCH * grid->size_mm *
           (plumb_board_wrap_count(board, room, grid->size_mm, line->heading) +
            plumb_board_wrap_count(board, room, grid->size_mm, line->words));
}

/* The largest text with which every line has room for its words. */
static Grid grid_of(const PlumbBoard *board, PlumbRect rect, const PlumbCardLine *line, int count,
                    int columns_most, const char *last)
{
    const double scale = board->drawing->text_scale;
    Grid grid = {.columns = 1};
    while (grid.columns < columns_most &&
           rect.width_mm >=
               (grid.columns + 1) * (grid.columns == 1 ? COLUMN_LEAST_MM : COLUMN_FULL_MM)) {
        grid.columns++;
    }
    grid.rows = (count + grid.columns - 1) / grid.columns;
    grid.column_mm = (rect.width_mm - (grid.columns - 1) * GAP_MM) / grid.columns;
    grid.sketch_mm = fmin(SKETCH_SHARE * grid.column_mm, SKETCH_MOST_MM * scale);
    grid.size_mm = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    for (;; grid.size_mm *= 0.96) {
        grid.last_mm = PLUMB_LINE_PITCH * grid.size_mm *
                       plumb_board_wrap_count(board, rect.width_mm, grid.size_mm, last);
        grid.row_mm = fmin((rect.height_mm - grid.last_mm - 2.0) / grid.rows, LINE_MOST_MM * scale);
        bool fits = true;
        for (int i = 0; i < count; i++) {
            fits = fits && words_height(board, &grid, &line[i]) <= grid.row_mm - 2.0;
        }
        if (fits || grid.size_mm < TEXT_LEAST_MM) {
            return grid;
        }
    }
}

double plumb_card_lines(const PlumbBoard *board, PlumbRect rect, const PlumbCardLine *line,
                        int count, int columns_most, const char *last)
{
    const Grid grid = grid_of(board, rect, line, count, columns_most, last);
    for (int i = 0; i < count; i++) {
        const double x = rect.x_mm + i % grid.columns * (grid.column_mm + GAP_MM);
        const int row = i / grid.columns;
        const double y = rect.y_mm + row * grid.row_mm;
        const double words_x = x + grid.sketch_mm + GAP_MM;
        const double room = grid.column_mm - grid.sketch_mm - GAP_MM;
        draw_sketch(board, line[i].sketch,
                    (PlumbRect){x, y + 1.0, grid.sketch_mm, grid.row_mm - 5.0}, grid.size_mm);
        double at = y + fmax(0.0, 0.5 * (grid.row_mm - 2.0 - words_height(board, &grid, &line[i])));
        plumb_board_wrap(board, PLUMB_ROLE_ink, TAG_NONE, words_x, &at, room, grid.size_mm, 3,
                         line[i].heading);
        plumb_board_wrap(board, PLUMB_ROLE_quiet, TAG_NONE, words_x, &at, room, grid.size_mm, 8,
                         line[i].words);
    }
    double at = rect.y_mm + grid.rows * grid.row_mm + 1.0;
    plumb_board_wrap(board, PLUMB_ROLE_ink, TAG_NONE, rect.x_mm, &at, rect.width_mm, grid.size_mm,
                     4, last);
    return at - rect.y_mm;
}
