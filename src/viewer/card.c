/* SPDX-License-Identifier: MIT */
/* Cards that stand in front of the window until a key is pressed. */
#include "form.h"

#include <plumbar/card.h>
#include <plumbar/file.h>
#include <plumbar/handout.h>

#include <math.h>
#include <unistd.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};

static const char *const WELCOME[] = {
    "1  Drag the black pointer of a ruler on the right: the drawing and every figure answer.",
    "2  Click a joint of the drawing: its moment arm is dimensioned, and its curve stands on the "
    "rulers.",
    "3  Press P to pencil this set-up, then drag on: everything shows its difference.",
    "The lifter on the drawing is an example. Ctrl+L describes another one, Ctrl+O opens a file, "
    "F1 shows all keys. Any key or click begins.",
};

enum { WELCOME_COUNT = sizeof WELCOME / sizeof WELCOME[0], LINES = WELCOME_COUNT + 1 };

static const char *welcome_line(int index)
{
    return index < WELCOME_COUNT ? WELCOME[index] : plumb_caution_long();
}

static PlumbRect draw_frame(const PlumbDesk *desk, const PlumbBoard *board, double width,
                            double height)
{
    const PlumbRect box = {0.5 * (desk->width_mm - width), 0.5 * (desk->height_mm - height), width,
                           height};
    const PlumbPen frame = {PLUMB_ROLE_select, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    plumb_scene_rect(board->scene, frame, NONE, box);
    return box;
}

static void draw_welcome(const PlumbDesk *desk, const PlumbBoard *board)
{
    const double width = fmin(170.0 * fmin(desk->text_scale, 1.25), desk->width_mm - 16.0);
    const double room = desk->height_mm - 12.0;
    double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    double height = 0.0;
    for (;; size *= 0.96) {
        height = 5.2 * size;
        for (int i = 0; i < LINES; i++) {
            height += PLUMB_LINE_PITCH * size *
                          plumb_board_wrap_count(board, width - 12.0, size, welcome_line(i)) +
                      0.5 * size;
        }
        if (height <= room) {
            break;
        }
    }
    const PlumbRect box = draw_frame(desk, board, width, height);
    double y = box.y_mm + 1.2 * size;
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, box.x_mm + 6.0, &y, width - 12.0, 1.4 * size, 1,
                     "plumbar: a lifter as a mechanism");
    y += 0.7 * size;
    for (int i = 0; i < LINES; i++) {
        plumb_board_wrap(board, i == LINES - 1 ? PLUMB_ROLE_quiet : PLUMB_ROLE_ink, NONE,
                         box.x_mm + 6.0, &y, width - 12.0, size, 9, welcome_line(i));
        y += 0.5 * size;
    }
}

/* Heading left, what the keys do right; the card below them. */
static void draw_sketched(const PlumbDesk *desk, const PlumbBoard *board)
{
    const bool measuring = desk->card == PLUMB_CARD_MEASURING;
    const double width =
        fmin((measuring ? 260.0 : 210.0) * desk->text_scale, desk->width_mm - 12.0);
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    const double head = 2.2 * size;
    const double height =
        fmin(head + (measuring ? 150.0 : 108.0) * desk->text_scale, desk->height_mm - 8.0);
    const PlumbRect box = draw_frame(desk, board, width, height);
    const char *const keys = measuring ? "F7: filming card. Any other key closes."
                                       : "F6: measuring card. Any other key closes.";
    const double small = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double y = box.y_mm + 1.4 * size;
    plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){box.x_mm + 6.0, y}, size, PLUMB_START,
                     measuring ? "Measuring card" : "Filming card");
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){box.x_mm + width - 6.0, y}, small,
                     PLUMB_END, keys);
    const PlumbRect room = {box.x_mm + 6.0, box.y_mm + head, width - 12.0, height - head - 3.0};
    if (measuring) {
        plumb_compose_measuring_card(board->scene, board->drawing, room);
    } else {
        plumb_compose_filming_card(board->scene, board->drawing, desk->now.lift, room);
    }
}

void plumb_card_draw(const PlumbDesk *desk, const PlumbBoard *board)
{
    if (desk->card == PLUMB_CARD_WELCOME) {
        draw_welcome(desk, board);
    } else {
        draw_sketched(desk, board);
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
