/* SPDX-License-Identifier: MIT */
/* The handout's figures: before, after, difference, each with its spread. */
#include "scene/handout.h"

#include <stddef.h>

enum { COLUMNS = 5 };

/* Right edges of the columns as shares of the width: before, after, its spread, change, its spread.
 */
static const double END[COLUMNS] = {0.55, 0.68, 0.79, 0.90, 1.0};

static double cell_left(double width_mm, int column)
{
    return width_mm * (column == 0 ? 0.42 : END[column - 1]) + 0.8;
}

/* One line, cut to its cell, ending at the cell's right edge. */
static void cell(const PlumbBoard *board, PlumbRect rect, int column, double y_mm, PlumbRole role,
                 const char *words)
{
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    const double small = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double left = cell_left(rect.width_mm, column);
    const double room = END[column] * rect.width_mm - left;
    const bool fits = plumb_board_width(board, words, size) <= room;
    plumb_board_text(board, role, TAG_NONE,
                     (PlumbVec2){rect.x_mm + END[column] * rect.width_mm, y_mm},
                     fits && column != 2 && column != 4 ? size : small, PLUMB_END, words);
}

/* Heads of the columns, small; a name too long ends in an ellipsis. */
static void head_cell(const PlumbBoard *board, PlumbRect rect, double from, double to,
                      const char *words)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double room = (to - from) * rect.width_mm - 1.0;
    const double width = plumb_board_width(board, words, size);
    double y = rect.y_mm;
    const double x = rect.x_mm + to * rect.width_mm - (width < room ? width : room);
    plumb_board_wrap(board, PLUMB_ROLE_quiet, TAG_NONE, x, &y, room, size, 1, words);
}

double plumb_handout_table(const PlumbBoard *board, const PlumbHandout *handout, PlumbRect rect,
                           bool draw)
{
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    const double small = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double head = 1.75 * small;
    const double pitch = 1.5 * size;
    if (!draw) {
        return head + pitch * handout->row_count;
    }
    double y = rect.y_mm;
    plumb_board_wrap(board, PLUMB_ROLE_quiet, TAG_NONE, rect.x_mm, &y, 0.38 * rect.width_mm, small,
                     1, "figures");
    head_cell(board, rect, 0.40, END[0], handout->before_name);
    head_cell(board, rect, END[0], END[1], handout->after_name);
    head_cell(board, rect, END[2], END[3], "change");
    if (handout->has_spread) {
        head_cell(board, rect, END[1], END[2], "give or take");
        head_cell(board, rect, END[3], END[4], "give or take");
    }
    y = rect.y_mm + 1.5 * small;
    for (int i = 0; i < handout->row_count; i++) {
        const PlumbHandoutRow *row = &handout->row[i];
        plumb_scene_line(board->scene, PEN_RULE, TAG_NONE, (PlumbVec2){rect.x_mm, y},
                         (PlumbVec2){rect.x_mm + rect.width_mm, y});
        double top = y + 0.2 * size;
        const double baseline = top + 0.98 * size;
        plumb_board_wrap(board, PLUMB_ROLE_ink, TAG_NONE, rect.x_mm, &top, 0.41 * rect.width_mm,
                         size, 1, row->name);
        cell(board, rect, 0, baseline, PLUMB_ROLE_pencil_text, row->before);
        cell(board, rect, 1, baseline, PLUMB_ROLE_ink, row->after);
        cell(board, rect, 2, baseline, PLUMB_ROLE_quiet, row->after_spread);
        cell(board, rect, 3, baseline, PLUMB_ROLE_ink, row->change);
        cell(board, rect, 4, baseline, PLUMB_ROLE_quiet, row->change_spread);
        y += pitch;
    }
    return head + pitch * handout->row_count;
}
