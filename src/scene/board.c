/* SPDX-License-Identifier: MIT */
/* Measured text: single lines, and paragraphs broken at spaces. */
#include "scene/board.h"

#include <string.h>

/* Share of the em from the top of a line to its baseline. */
static const double BASELINE = 0.98;

enum { LINE_SIZE = 512 };

double plumb_board_size(const PlumbBoard *board, double size_mm)
{
    return size_mm * board->drawing->text_scale;
}

double plumb_board_width(const PlumbBoard *board, const char *text, double size_mm)
{
    return board->drawing->text_width(board->drawing->text_user, text, strlen(text), size_mm);
}

void plumb_board_text(const PlumbBoard *board, PlumbRole role, PlumbTag tag, PlumbVec2 anchor_mm,
                      double size_mm, PlumbAlign align, const char *text)
{
    plumb_scene_text(board->scene, role, tag, anchor_mm, size_mm, align, 0.0, text,
                     plumb_board_width(board, text, size_mm));
}

/* Steps back to the start of the UTF-8 character that holds text[at]. */
static size_t character_start(const char *text, size_t at)
{
    while (at > 0 && ((unsigned char)text[at] & 0xc0) == 0x80) {
        at--;
    }
    return at;
}

/* At the end or at a space, but not between a figure and its unit. */
static bool may_break(const char *text, size_t at)
{
    const bool figure = text[at - 1] >= '0' && text[at - 1] <= '9';
    return text[at] == '\0' || (text[at] == ' ' && !figure);
}

/* Bytes of text that fit into width_mm: up to a space, or inside a word longer than a line. */
static size_t fitting(const PlumbBoard *board, const char *text, double width_mm, double size_mm)
{
    const PlumbDrawing *drawing = board->drawing;
    const size_t length = strlen(text);
    const size_t most = length < LINE_SIZE - 4 ? length : character_start(text, LINE_SIZE - 4);
    size_t best = 0;
    for (size_t end = 1; end <= most; end++) {
        if (!may_break(text, end)) {
            continue;
        }
        if (drawing->text_width(drawing->text_user, text, end, size_mm) > width_mm) {
            break;
        }
        best = end;
    }
    if (best > 0 || most == 0) {
        return best;
    }
    size_t end = most;
    while (end > 1 && drawing->text_width(drawing->text_user, text, end, size_mm) > width_mm) {
        end = character_start(text, end - 1);
    }
    return end > 0 ? end : most;
}

/* Cuts line so that it ends in an ellipsis within width_mm. */
static void end_in_ellipsis(const PlumbBoard *board, char line[LINE_SIZE], double width_mm,
                            double size_mm)
{
    size_t length = strlen(line);
    for (;;) {
        memcpy(line + length, "\xe2\x80\xa6", 4);
        if (length == 0 || plumb_board_width(board, line, size_mm) <= width_mm) {
            return;
        }
        length = character_start(line, length - 1);
    }
}

int plumb_board_wrap(const PlumbBoard *board, PlumbRole role, PlumbTag tag, double x_mm,
                     double *y_mm, double width_mm, double size_mm, int max_lines, const char *text)
{
    int set = 0;
    while (*text != '\0' && set < max_lines) {
        const size_t take = fitting(board, text, width_mm, size_mm);
        char line[LINE_SIZE];
        memcpy(line, text, take);
        line[take] = '\0';
        text += take;
        while (*text == ' ') {
            text++;
        }
        if (set + 1 == max_lines && *text != '\0') {
            end_in_ellipsis(board, line, width_mm, size_mm);
        }
        plumb_board_text(board, role, tag, (PlumbVec2){x_mm, *y_mm + BASELINE * size_mm}, size_mm,
                         PLUMB_START, line);
        *y_mm += PLUMB_LINE_PITCH * size_mm;
        set++;
    }
    return set;
}

int plumb_board_wrap_count(const PlumbBoard *board, double width_mm, double size_mm,
                           const char *text)
{
    int count = 0;
    while (*text != '\0') {
        text += fitting(board, text, width_mm, size_mm);
        while (*text == ' ') {
            text++;
        }
        count++;
    }
    return count;
}
