/* SPDX-License-Identifier: MIT */
/* The handout's page: heading, drawing, figures, two columns of words, cautions, small print. */
#include <plumbar/handout.h>

#include "scene/board.h"
#include "scene/describe.h"
#include "scene/handout.h"

#include <math.h>
#include <stddef.h>

static const double MARGIN_MM = 13.0;
static const double GUTTER_MM = 8.0;
static const double LEFT_SHARE = 0.53;
static const double VIEWS_WANTED_MM = 60.0; /* a long note gives way to it */
static const double VIEWS_LEAST_MM = 46.0;
static const double VIEWS_MOST_MM = 132.0;
static const double PRESS_MOST_MM = 86.0; /* a lying lifter is wide and low */
static const double AIR_MM = 3.0;
static const double FREE_BODY_MM = 74.0;
enum { NOTE_LINES = 5 };

const char *plumb_caution_long(void)
{
    return "These are estimates for teaching, computed from average adults; they are not medical "
           "advice. Stop on pain. Use spotters or safety pins. Start light whenever you try "
           "something new. Local rules, licensed practice and a qualified coach come first. Ask "
           "before you film or share other people, above all minors.";
}

/* A column of words that is measured first and drawn second. */
typedef struct Column {
    PlumbBoard board;
    double x_mm;
    double y_mm;
    double width_mm;
    int note_lines; /* at most */
    bool draw;
} Column;

/* A paragraph of at most `most` lines; y_mm moves below it. */
static void paragraph(Column *column, PlumbRole role, double size_mm, double indent_mm, int most,
                      const char *words)
{
    const double size = plumb_board_size(&column->board, size_mm);
    const double width = column->width_mm - indent_mm;
    if (column->draw) {
        plumb_board_wrap(&column->board, role, TAG_NONE, column->x_mm + indent_mm, &column->y_mm,
                         width, size, most, words);
        return;
    }
    const int lines = plumb_board_wrap_count(&column->board, width, size, words);
    column->y_mm += PLUMB_LINE_PITCH * size * (lines < most ? lines : most);
}

static void heading(Column *column, const char *words)
{
    const double size = plumb_board_size(&column->board, PLUMB_SMALL_TEXT_MM);
    paragraph(column, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM, 0.0, 2, words);
    if (column->draw) {
        const double y = column->y_mm + 0.1 * size;
        plumb_scene_line(column->board.scene, PEN_RULE, TAG_NONE, (PlumbVec2){column->x_mm, y},
                         (PlumbVec2){column->x_mm + column->width_mm, y});
    }
    column->y_mm += 0.9 * size;
}

/* Paragraphs with a mark in the margin: their number, or a dash. */
static void block(Column *column, const PlumbHandoutBlock *words, double size_mm, int most,
                  bool numbered)
{
    if (words->count == 0) {
        return;
    }
    const double size = plumb_board_size(&column->board, size_mm);
    heading(column, words->heading);
    for (int i = 0; i < words->count; i++) {
        char mark[8];
        PlumbText text = plumb_text_begin(mark, sizeof mark);
        if (numbered) {
            plumb_text_integer(&text, i + 1);
        } else {
            plumb_text_string(&text, "\xe2\x80\x93");
        }
        if (column->draw) {
            plumb_board_text(&column->board, PLUMB_ROLE_ink, TAG_NONE,
                             (PlumbVec2){column->x_mm, column->y_mm + 0.98 * size}, size,
                             PLUMB_START, mark);
        }
        paragraph(column, PLUMB_ROLE_ink, size_mm, 1.5 * size, most, words->words[i]);
        column->y_mm += 0.3 * size;
    }
    column->y_mm += AIR_MM;
}

static void left_column(Column *column, const PlumbHandout *handout)
{
    block(column, &handout->change, PLUMB_NORMAL_TEXT_MM, 5, true);
    block(column, &handout->why, PLUMB_SMALL_TEXT_MM, 4, false);
    block(column, &handout->feel, PLUMB_NORMAL_TEXT_MM, 3, false);
    if (handout->note[0] != '\0') {
        heading(column, "from your coach");
        paragraph(column, PLUMB_ROLE_ink, PLUMB_NORMAL_TEXT_MM, 0.0, column->note_lines,
                  handout->note);
        column->y_mm += AIR_MM;
    }
}

/* The free body, the equation in words, and what comes out. */
static void student_column(Column *column, const PlumbHandout *handout)
{
    const PlumbExplanation *explanation = handout->working->explanation;
    heading(column, explanation->title);
    if (column->draw) {
        plumb_compose_free_body(
            column->board.scene, handout->working,
            (PlumbRect){column->x_mm, column->y_mm, column->width_mm, FREE_BODY_MM});
    }
    column->y_mm += FREE_BODY_MM + 0.5 * AIR_MM;
    paragraph(column, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, 0.0, 5,
              explanation->step[explanation->step_count - 1].words);
    column->y_mm += 0.3 * AIR_MM;
    paragraph(column, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM, 0.0, 4, handout->terms);
    column->y_mm += 0.3 * AIR_MM;
    paragraph(column, PLUMB_ROLE_ink, PLUMB_NORMAL_TEXT_MM, 0.0, 3, handout->equation);
    column->y_mm += AIR_MM;
}

static void right_column(Column *column, const PlumbHandout *handout)
{
    if (handout->working != NULL) {
        student_column(column, handout);
        return;
    }
    block(column, &handout->drill, 0.5 * (PLUMB_SMALL_TEXT_MM + PLUMB_NORMAL_TEXT_MM), 5, false);
    block(column, &handout->film, 0.5 * (PLUMB_SMALL_TEXT_MM + PLUMB_NORMAL_TEXT_MM), 5, false);
    block(column, &handout->watch, 0.5 * (PLUMB_SMALL_TEXT_MM + PLUMB_NORMAL_TEXT_MM), 3, false);
}

/* Below the picture, full width: it leads all that is asked for. */
static void seen(Column *column, const PlumbHandout *handout)
{
    block(column, &handout->seen, 0.5 * (PLUMB_SMALL_TEXT_MM + PLUMB_NORMAL_TEXT_MM), 2, false);
}

/* Cautions and small print, full width at the foot of the page. */
static void foot(Column *column, const PlumbHandout *handout)
{
    const double size = plumb_board_size(&column->board, PLUMB_SMALL_TEXT_MM);
    if (column->draw) {
        plumb_scene_line(column->board.scene, PEN_OUTLINE, TAG_NONE,
                         (PlumbVec2){column->x_mm, column->y_mm},
                         (PlumbVec2){column->x_mm + column->width_mm, column->y_mm});
    }
    column->y_mm += 0.7 * size;
    paragraph(column, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, 0.0, 4, plumb_caution_long());
    column->y_mm += 0.5 * size;
    paragraph(column, PLUMB_ROLE_quiet, PLUMB_SMALL_TEXT_MM, 0.0, 5, handout->rests_on);
}

/* Heading at the left, name and date below it; returns with y_mm below the rule. */
static void head(Column *column, const PlumbHandout *handout)
{
    const PlumbDrawing *drawing = handout->drawing;
    char line[PLUMB_HANDOUT_WORDS];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_text_string(&text, drawing->name);
    plumb_text_string(&text,
                      drawing->name[0] != '\0' && drawing->date[0] != '\0' ? "  \xc2\xb7  " : "");
    plumb_text_string(&text, drawing->date);
    paragraph(column, PLUMB_ROLE_ink, PLUMB_LARGE_TEXT_MM, 0.0, 2, handout->heading);
    paragraph(column, PLUMB_ROLE_quiet, PLUMB_NORMAL_TEXT_MM, 0.0, 1, line);
    column->y_mm += 0.5;
    if (column->draw) {
        plumb_scene_line(column->board.scene, PEN_OUTLINE, TAG_NONE,
                         (PlumbVec2){column->x_mm, column->y_mm},
                         (PlumbVec2){column->x_mm + column->width_mm, column->y_mm});
    }
    column->y_mm += 0.8 * AIR_MM;
}

typedef void (*ColumnWork)(Column *column, const PlumbHandout *handout);

static double height_of(ColumnWork work, const PlumbHandout *handout, double width_mm,
                        int note_lines)
{
    Column column = {{NULL, handout->drawing}, 0.0, 0.0, width_mm, note_lines, false};
    work(&column, handout);
    return column.y_mm;
}

static void draw_at(PlumbScene *scene, ColumnWork work, const PlumbHandout *handout, double x_mm,
                    double y_mm, double width_mm, int note_lines)
{
    Column column = {{scene, handout->drawing}, x_mm, y_mm, width_mm, note_lines, true};
    work(&column, handout);
}

/* Which line is which: a grey stroke and an inked one, each with its name. */
static void legend(PlumbScene *scene, const PlumbHandout *handout, PlumbRect rect)
{
    const PlumbBoard board = {scene, handout->drawing};
    const double size = plumb_board_size(&board, PLUMB_SMALL_TEXT_MM);
    const PlumbPen pencil = {PLUMB_ROLE_pencil, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const double y = rect.y_mm + 0.98 * size;
    const double stroke = 9.0;
    const double half = 0.5 * rect.width_mm;
    const struct {
        PlumbPen pen;
        PlumbRole role;
        const char *mark;
        const char *words;
    } entry[2] = {
        {pencil, PLUMB_ROLE_pencil_text, "thin, grey: ", handout->before_name},
        {PEN_OUTLINE, PLUMB_ROLE_ink, "bold: ", handout->after_name},
    };
    for (int i = 0; i < 2; i++) {
        const double x = rect.x_mm + i * half;
        char words[PLUMB_HANDOUT_WORDS];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, entry[i].mark);
        plumb_text_string(&text, entry[i].words);
        double top = rect.y_mm;
        plumb_scene_line(scene, entry[i].pen, TAG_NONE, (PlumbVec2){x, y - 0.3 * size},
                         (PlumbVec2){x + stroke, y - 0.3 * size});
        plumb_board_wrap(&board, entry[i].role, TAG_NONE, x + stroke + 2.0, &top,
                         half - stroke - 4.0, size, 1, words);
    }
}

/* Heights of what stands below the views, in the order of the page. */
typedef struct Plan {
    double width_mm;
    double head_mm;
    double legend_mm;
    double seen_mm;
    double table_mm;
    double columns_mm;
    double foot_mm;
    double left_mm; /* widths of the two columns */
    double right_mm;
    int note_lines; /* of the coach's own words, as many as leave a drawing */
} Plan;

/* What is left of a page for the views. */
static double room_mm(const Plan *plan, double height_mm)
{
    return height_mm - plan->head_mm - plan->legend_mm - plan->seen_mm - plan->table_mm -
           plan->columns_mm - plan->foot_mm;
}

static Plan plan_page(const PlumbHandout *handout, double width_mm, double height_mm)
{
    const PlumbBoard board = {NULL, handout->drawing};
    Plan plan = {.width_mm = width_mm};
    plan.left_mm = LEFT_SHARE * (width_mm - GUTTER_MM);
    plan.right_mm = width_mm - GUTTER_MM - plan.left_mm;
    plan.head_mm = height_of(head, handout, width_mm, 0);
    plan.legend_mm = 1.9 * plumb_board_size(&board, PLUMB_SMALL_TEXT_MM);
    plan.seen_mm = height_of(seen, handout, width_mm, 0);
    plan.table_mm =
        plumb_handout_table(&board, handout, (PlumbRect){0.0, 0.0, width_mm, 0.0}, false) + AIR_MM;
    plan.foot_mm = height_of(foot, handout, width_mm, 0);
    const double right = height_of(right_column, handout, plan.right_mm, 0);
    plan.note_lines = NOTE_LINES + 1;
    do {
        plan.note_lines--;
        plan.columns_mm =
            fmax(height_of(left_column, handout, plan.left_mm, plan.note_lines), right);
    } while (plan.note_lines > 1 && room_mm(&plan, height_mm) < VIEWS_WANTED_MM);
    return plan;
}

/* The drawing; beside its side view the room of a picture, which is returned. */
static PlumbRect draw_views(PlumbScene *scene, const PlumbHandout *handout, PlumbRect rect)
{
    PlumbDrawing drawing = *handout->drawing;
    PlumbRect views = rect;
    PlumbRect room = {0};
    if (drawing.press != NULL) {
        drawing.sight = PLUMB_SEE_LEVEL;
    }
    if (handout->pictured) {
        drawing.sight = PLUMB_SEE_SIDE;
        views.width_mm = 0.5 * (rect.width_mm - GUTTER_MM);
        room = views;
        room.x_mm += views.width_mm + GUTTER_MM;
    }
    PlumbFit fit = plumb_views_fit(&drawing, views);
    plumb_compose_views(scene, &drawing, &fit);
    return room;
}

PlumbRect plumb_compose_handout(PlumbScene *scene, const PlumbHandout *handout,
                                PlumbPortrait format)
{
    static const double SIZE_MM[PLUMB_PORTRAIT_COUNT][2] = {
        [PLUMB_A4_PORTRAIT] = {210.0, 297.0},
        [PLUMB_LETTER_PORTRAIT] = {215.9, 279.4},
    };
    const double width = SIZE_MM[format][0] - 2.0 * MARGIN_MM;
    const double bottom = SIZE_MM[format][1] - MARGIN_MM;
    const Plan plan = plan_page(handout, width, bottom - MARGIN_MM);
    plumb_scene_begin(scene, SIZE_MM[format][0], SIZE_MM[format][1]);
    plumb_scene_describe(scene, handout->drawing);
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, handout->heading);
    const double rest = room_mm(&plan, bottom - MARGIN_MM);
    const double most = handout->drawing->press != NULL ? PRESS_MOST_MM : VIEWS_MOST_MM;
    const double views_mm = fmin(most, fmax(VIEWS_LEAST_MM, rest));
    /* What a short page has left over goes between its parts. */
    const double slack = fmax(0.0, rest - views_mm) / 3.0;
    double y = MARGIN_MM;
    draw_at(scene, head, handout, MARGIN_MM, y, width, 0);
    y += plan.head_mm;
    const PlumbRect room = draw_views(scene, handout, (PlumbRect){MARGIN_MM, y, width, views_mm});
    y += views_mm + 0.2 * AIR_MM;
    legend(scene, handout, (PlumbRect){MARGIN_MM, y, width, plan.legend_mm});
    y += plan.legend_mm;
    draw_at(scene, seen, handout, MARGIN_MM, y, width, 0);
    y += plan.seen_mm + slack;
    const PlumbBoard board = {scene, handout->drawing};
    plumb_handout_table(&board, handout, (PlumbRect){MARGIN_MM, y, width, plan.table_mm}, true);
    y += plan.table_mm + slack;
    draw_at(scene, left_column, handout, MARGIN_MM, y, plan.left_mm, plan.note_lines);
    draw_at(scene, right_column, handout, MARGIN_MM + plan.left_mm + GUTTER_MM, y, plan.right_mm,
            0);
    draw_at(scene, foot, handout, MARGIN_MM, bottom - plan.foot_mm, width, 0);
    return room;
}
