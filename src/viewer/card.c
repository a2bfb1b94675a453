/* SPDX-License-Identifier: MIT */
/* Cards that stand in front of the window until a key is pressed. */
#include "form.h"

#include <plumbar/file.h>
#include <plumbar/handout.h>

#include <math.h>
#include <unistd.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
enum { LINES_MAX = 12 };

static const char *const WELCOME[] = {
    "1  Drag the black pointer of a ruler on the right: the drawing and every figure answer.",
    "2  Click a joint of the drawing: its moment arm is dimensioned, and its curve stands on the "
    "rulers.",
    "3  Press P to pencil this set-up, then drag on: everything shows its difference.",
    "The lifter on the drawing is an example. Ctrl+L describes another one, Ctrl+O opens a file, "
    "F1 shows all keys. Any key or click begins.",
};

/* What a card says, line by line; returns how many lines. */
static int card_lines(const PlumbDesk *desk, char line[LINES_MAX][320])
{
    int count = 0;
    if (desk->card == PLUMB_CARD_WELCOME) {
        for (int i = 0; i < 4; i++) {
            PlumbText text = plumb_text_begin(line[count++], 320);
            plumb_text_string(&text, WELCOME[i]);
        }
        PlumbText text = plumb_text_begin(line[count++], 320);
        plumb_text_string(&text, plumb_caution_long());
        return count;
    }
    for (int i = 0; i < PLUMB_TAPE_COUNT; i++) {
        PlumbText text = plumb_text_begin(line[count++], 320);
        for (const char *c = plumb_tape_name((PlumbTape)i); *c != '\0'; c++) {
            plumb_text_char(&text, *c == '_' ? ' ' : *c);
        }
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, plumb_tape_text((PlumbTape)i));
        plumb_text_char(&text, '.');
    }
    PlumbText text = plumb_text_begin(line[count++], 320);
    plumb_text_string(&text, "Tape twice and take the mean; a second person reads the tape. What "
                             "is not taped is estimated from stature.");
    return count;
}

void plumb_card_draw(const PlumbDesk *desk, const PlumbBoard *board)
{
    char line[LINES_MAX][320];
    const int count = card_lines(desk, line);
    const double width = fmin(170.0 * fmin(desk->text_scale, 1.25), desk->width_mm - 16.0);
    double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    double height = 0.0;
    for (int pass = 0; pass < 2; pass++) {
        height = 5.2 * size;
        for (int i = 0; i < count; i++) {
            height += PLUMB_LINE_PITCH * size *
                          plumb_board_wrap_count(board, width - 12.0, size, line[i]) +
                      0.5 * size;
        }
        const double room = desk->height_mm - 12.0;
        size *= height > room ? 0.96 * room / height : 1.0;
    }
    const PlumbRect box = {0.5 * (desk->width_mm - width), 0.5 * (desk->height_mm - height), width,
                           height};
    const PlumbPen frame = {PLUMB_ROLE_select, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    plumb_scene_rect(board->scene, frame, NONE, box);
    double y = box.y_mm + 1.2 * size;
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, box.x_mm + 6.0, &y, width - 12.0, 1.4 * size, 1,
                     desk->card == PLUMB_CARD_WELCOME ? "plumbar: a lifter as a mechanism"
                                                      : "Measuring card");
    y += 0.7 * size;
    for (int i = 0; i < count; i++) {
        const bool last = i == count - 1;
        plumb_board_wrap(board, last ? PLUMB_ROLE_quiet : PLUMB_ROLE_ink, NONE, box.x_mm + 6.0, &y,
                         width - 12.0, size, 5, line[i]);
        y += 0.5 * size;
    }
}

void plumb_card_welcome(PlumbDesk *desk)
{
    char path[PLUMB_PATH_SIZE];
    if (desk->options->state_folder == NULL) {
        return;
    }
    PlumbText text = plumb_text_begin(path, sizeof path);
    plumb_text_string(&text, desk->options->state_folder);
    plumb_text_string(&text, "/welcomed");
    if (access(path, F_OK) != 0 && plumb_file_write_atomic(path, "", 0, NULL) == PLUMB_OK) {
        desk->card = PLUMB_CARD_WELCOME;
        desk->dirty = true;
    }
}
