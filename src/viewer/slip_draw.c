/* SPDX-License-Identifier: MIT */
/* A slip on the window: title, rows, what was said last, and two buttons. */
#include "slip.h"

#include <math.h>
#include <string.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const double width_most_mm = 168.0; /* at 100 % */
static const double margin_mm = 5.0;
static const double row_pitch = 2.5; /* row to row, in ems */
static const double box_height = 1.9;
enum { ABOVE_MOST = 8, SAID_LINES = 5 };

/* Where everything stands, for one size of text. */
typedef struct Shape {
    double size;
    double label_mm;
    double said_mm;
    PlumbRect box;
} Shape;

static int above_count(const PlumbDesk *desk, char words[ABOVE_MOST][PLUMB_SLIP_WORDS])
{
    int count = 0;
    PlumbText text = plumb_text_begin(words[0], PLUMB_SLIP_WORDS);
    while (count < ABOVE_MOST && plumb_slip_form(desk)->above(desk, count, &text)) {
        count++;
        if (count < ABOVE_MOST) {
            text = plumb_text_begin(words[count], PLUMB_SLIP_WORDS);
        }
    }
    return count;
}

static Shape shape_of(const PlumbDesk *desk, const PlumbBoard *board, int above)
{
    const PlumbSlipForm *const form = plumb_slip_form(desk);
    const int rows = form->rows(desk);
    const double width =
        fmin(width_most_mm * fmin(desk->text_scale, 1.5), desk->width_mm - 2.0 * margin_mm);
    Shape shape = {.size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM)};
    for (;; shape.size *= 0.96) {
        shape.label_mm = 0.0;
        for (int i = 0; i < rows; i++) {
            PlumbSlipRow row;
            form->row(desk, i, &row);
            shape.label_mm =
                fmax(shape.label_mm, plumb_board_width(board, row.label, shape.size) + 3.0);
        }
        const int lines =
            plumb_board_wrap_count(board, width - 2.0 * margin_mm - 2.0, shape.size, desk->message);
        shape.said_mm = PLUMB_LINE_PITCH * shape.size * fmin(fmax(lines, 2), SAID_LINES);
        const double height =
            2.0 * margin_mm + 2.8 * shape.size + PLUMB_LINE_PITCH * shape.size * above +
            row_pitch * shape.size * (rows + 1) + 0.8 * shape.size + shape.said_mm;
        if (height <= desk->height_mm - 8.0 || shape.size < 1.5) {
            shape.box = (PlumbRect){0.5 * (desk->width_mm - width),
                                    0.5 * (desk->height_mm - height), width, height};
            return shape;
        }
    }
}

/* A triangle that says that there is another choice this way. */
static void turn_mark(const PlumbBoard *board, double x, double y, double s, int way)
{
    const PlumbPen solid = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_select};
    const PlumbVec2 point[3] = {{x - way * s, y - s}, {x - way * s, y + s}, {x + way * s, y}};
    plumb_scene_path(board->scene, solid, NONE, point, 3, true);
}

static void draw_row(PlumbDesk *desk, const PlumbBoard *board, const Shape *shape, int index,
                     double y)
{
    const double size = shape->size;
    const bool here = desk->slip_row == index;
    PlumbSlipRow row;
    plumb_slip_form(desk)->row(desk, index, &row);
    const double x = shape->box.x_mm + margin_mm;
    const PlumbRect box = {x + shape->label_mm, y,
                           shape->box.width_mm - 2.0 * margin_mm - shape->label_mm,
                           box_height * size};
    const double base = y + 1.3 * size;
    const PlumbPen frame = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const bool turns = !row.typed && row.count > 1;
    const double inset = row.typed ? 1.2 : 2.2 * size;
    plumb_board_text(board, here ? PLUMB_ROLE_ink : PLUMB_ROLE_quiet, NONE, (PlumbVec2){x, base},
                     size, PLUMB_START, row.label);
    plumb_desk_widget(desk, PLUMB_WIDGET_SLIP, index, box, true);
    if (here && row.typed) {
        plumb_field_draw(desk, board, box, size, base);
        return;
    }
    plumb_scene_rect(board->scene, frame, NONE, box);
    double top = base - 0.98 * size;
    const bool hinted = row.words[0] == '\0' && row.hint != NULL;
    plumb_board_wrap(board, hinted ? PLUMB_ROLE_quiet : PLUMB_ROLE_ink, NONE, box.x_mm + inset,
                     &top, box.width_mm - 2.0 * inset, size, 1, hinted ? row.hint : row.words);
    if (turns) {
        const double middle = y + 0.5 * box.height_mm;
        turn_mark(board, box.x_mm + 1.1 * size, middle, 0.36 * size, -1);
        turn_mark(board, box.x_mm + box.width_mm - 1.1 * size, middle, 0.36 * size, 1);
    }
    if (here) {
        plumb_focus_ring(board, (PlumbRect){box.x_mm - 0.6, box.y_mm - 0.6, box.width_mm + 1.2,
                                            box.height_mm + 1.2});
    }
}

/* Write and leave, at the right. */
static void draw_buttons(PlumbDesk *desk, const PlumbBoard *board, const Shape *shape, double y)
{
    const PlumbSlipForm *const form = plumb_slip_form(desk);
    const int rows = form->rows(desk);
    const char *const words[2] = {form->write, "leave"};
    double x = shape->box.x_mm + shape->box.width_mm - margin_mm;
    for (int i = 1; i >= 0; i--) {
        const double width = plumb_board_width(board, words[i], shape->size) + 6.0;
        const PlumbRect box = {x - width, y, width, box_height * shape->size};
        const PlumbPen frame = {PLUMB_ROLE_rule, i == 0 ? PLUMB_MEDIUM_MM : PLUMB_FINE_MM,
                                PLUMB_SOLID, PLUMB_ROLE_none};
        plumb_scene_rect(board->scene, frame, NONE, box);
        plumb_board_text(board, PLUMB_ROLE_ink, NONE,
                         (PlumbVec2){box.x_mm + 0.5 * width, y + 1.3 * shape->size}, shape->size,
                         PLUMB_MIDDLE, words[i]);
        plumb_desk_widget(desk, PLUMB_WIDGET_SLIP, rows + i, box, true);
        if (desk->slip_row == rows + i) {
            plumb_focus_ring(board, (PlumbRect){box.x_mm - 0.6, box.y_mm - 0.6, width + 1.2,
                                                box.height_mm + 1.2});
        }
        x -= width + 2.0;
    }
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE,
                     (PlumbVec2){shape->box.x_mm + margin_mm, y + 1.3 * shape->size},
                     0.8 * shape->size, PLUMB_START,
                     "Tab goes on, Left and Right choose, Ctrl+Enter writes");
}

static void draw_said(const PlumbDesk *desk, const PlumbBoard *board, const Shape *shape, double y)
{
    const double x = shape->box.x_mm + margin_mm;
    const double from = y;
    if (desk->message[0] == '\0') {
        return;
    }
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, x + 2.0, &y,
                     shape->box.width_mm - 2.0 * margin_mm - 2.0, shape->size, SAID_LINES,
                     desk->message);
    const PlumbPen bar = {desk->message_wrong ? PLUMB_ROLE_bar : PLUMB_ROLE_rule, PLUMB_HEAVY_MM,
                          PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_line(board->scene, bar, NONE, (PlumbVec2){x + 0.5, from}, (PlumbVec2){x + 0.5, y});
}

void plumb_slip_draw(PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbSlipForm *const form = plumb_slip_form(desk);
    char above[ABOVE_MOST][PLUMB_SLIP_WORDS];
    const int lines = above_count(desk, above);
    const Shape shape = shape_of(desk, board, lines);
    const PlumbPen frame = {PLUMB_ROLE_select, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    const double x = shape.box.x_mm + margin_mm;
    const double width = shape.box.width_mm - 2.0 * margin_mm;
    double y = shape.box.y_mm + margin_mm;
    desk->widget_count = 0; /* nothing else can be pointed at */
    plumb_scene_rect(board->scene, frame, NONE, shape.box);
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, x, &y, width, 1.3 * shape.size, 1, form->title);
    y += 0.6 * shape.size;
    for (int i = 0; i < lines; i++) {
        plumb_board_wrap(board, PLUMB_ROLE_quiet, NONE, x, &y, width, shape.size, 1, above[i]);
    }
    y += 0.4 * shape.size;
    for (int i = 0; i < form->rows(desk); i++) {
        draw_row(desk, board, &shape, i, y);
        y += row_pitch * shape.size;
    }
    draw_said(desk, board, &shape, y);
    draw_buttons(desk, board, &shape,
                 shape.box.y_mm + shape.box.height_mm - margin_mm - box_height * shape.size);
}
