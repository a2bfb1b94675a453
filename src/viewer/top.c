/* SPDX-License-Identifier: MIT */
/* The line on top (lifter, set-up, buttons) and the page of keys, both from the table of commands.
 */
#include "compose.h"

#include "command.h"

#include <math.h>
#include <string.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const double pad_mm = 2.5;
static const double gap_mm = 1.2;
static const double title_least_mm = 30.0; /* at 100 % */
static const double keys_margin_mm = 4.0;
static const double key_gap_mm = 3.0;
static const double keys_pitch = 1.7; /* line to line, in ems */

static double button_width(const PlumbDesk *desk, const PlumbBoard *board, PlumbCommandId id,
                           char *words, size_t size)
{
    PlumbText text = plumb_text_begin(words, size);
    plumb_command_words(desk, id, &text);
    return words[0] == '\0'
               ? 0.0
               : plumb_board_width(board, words, plumb_board_size(board, PLUMB_SMALL_TEXT_MM)) +
                     2.8;
}

/* Which buttons find room: the highest ranks are left out first; their keys still work. */
static void choose_buttons(const PlumbDesk *desk, const PlumbBoard *board, double room,
                           bool shown[PLUMB_COMMAND_COUNT])
{
    char words[48];
    double left = room;
    for (int i = 0; i < PLUMB_COMMAND_COUNT; i++) {
        shown[i] = false;
    }
    for (int rank = 1; rank <= 10; rank++) {
        for (int i = 0; i < PLUMB_COMMAND_COUNT; i++) {
            const PlumbCommandId id = (PlumbCommandId)i;
            const bool wanted = id != PLUMB_CMD_SETUP || plumb_command_open(desk, id);
            if (plumb_command(id)->rank != rank || !wanted) {
                continue;
            }
            const double width = button_width(desk, board, id, words, sizeof words) + gap_mm;
            if (width > gap_mm && width <= left) {
                shown[i] = true;
                left -= width;
            }
        }
    }
}

void plumb_button_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbCommandId id, PlumbRect rect,
                       const char *words)
{
    const bool open = plumb_command_open(desk, id);
    const bool on = (id == PLUMB_CMD_BODY && desk->body_shown) ||
                    (id == PLUMB_CMD_PENCIL && plumb_desk_pencil_shown(desk)) ||
                    (id >= PLUMB_CMD_PAGE_DRAWING && id <= PLUMB_CMD_PAGE_TRACE &&
                     (int)desk->page == (int)(id - PLUMB_CMD_PAGE_DRAWING));
    const PlumbPen frame = {PLUMB_ROLE_rule, on ? PLUMB_MEDIUM_MM : PLUMB_FINE_MM,
                            open ? PLUMB_SOLID : PLUMB_DOTTED, PLUMB_ROLE_none};
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    plumb_scene_rect(board->scene, frame, NONE, rect);
    plumb_board_text(board, open ? PLUMB_ROLE_ink : PLUMB_ROLE_quiet, NONE,
                     (PlumbVec2){rect.x_mm + 0.5 * rect.width_mm,
                                 rect.y_mm + 0.5 * rect.height_mm + 0.36 * size},
                     size, PLUMB_MIDDLE, words);
    plumb_desk_widget(desk, PLUMB_WIDGET_BUTTON, (int)id, rect, true);
    if (plumb_desk_has_focus(desk, PLUMB_WIDGET_BUTTON, (int)id)) {
        plumb_focus_ring(board, (PlumbRect){rect.x_mm - 0.6, rect.y_mm - 0.6, rect.width_mm + 1.2,
                                            rect.height_mm + 1.2});
    }
}

/* As much of words as fits, with an ellipsis where it was cut. */
static double draw_cut(const PlumbBoard *board, PlumbRole role, double x, double y, double size,
                       double room, const char *words)
{
    char shown[PLUMB_DESK_NAME_SIZE + 8];
    size_t length = 0;
    while (length < PLUMB_DESK_NAME_SIZE && words[length] != '\0') {
        length++;
    }
    PlumbText text = plumb_text_begin(shown, sizeof shown);
    plumb_text_bytes(&text, words, length);
    while (length > 0 && plumb_board_width(board, shown, size) > room) {
        do {
            length--;
        } while (length > 0 && ((unsigned char)words[length] & 0xC0U) == 0x80U);
        text = plumb_text_begin(shown, sizeof shown);
        plumb_text_bytes(&text, words, length);
        plumb_text_string(&text, "…");
    }
    if (length == 0) {
        return 0.0;
    }
    plumb_board_text(board, role, NONE, (PlumbVec2){x, y}, size, PLUMB_START, shown);
    return plumb_board_width(board, shown, size);
}

static void draw_title(const PlumbDesk *desk, const PlumbBoard *board, double title_from,
                       double title_end)
{
    const PlumbRect top = desk->layout.top;
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    const double y = top.y_mm + 0.5 * top.height_mm + 0.36 * size;
    char name[PLUMB_DESK_NAME_SIZE];
    PlumbText text = plumb_text_begin(name, sizeof name);
    if (desk->now.record.name[0] != '\0') {
        plumb_text_string(&text, desk->now.record.name);
    } else {
        const PlumbBody *const body = &desk->now.lifter.body;
        plumb_text_string(&text, body->sex == PLUMB_FEMALE ? "woman, " : "man, ");
        plumb_text_quantity(&text, body->stature_m, PLUMB_Q_STATURE, desk->units);
        plumb_text_string(&text, ", ");
        plumb_text_quantity(&text, body->mass_kg, PLUMB_Q_MASS, desk->units);
    }
    double at = title_from;
    at += draw_cut(board, PLUMB_ROLE_ink, at, y, size, title_end - at, name) + 2.5;
    const char *const setup_name = desk->now.setup_name[desk->now.lift];
    if (setup_name[0] != '\0' && title_end - at > 4.0) {
        draw_cut(board, PLUMB_ROLE_quiet, at, y, size, title_end - at, setup_name);
    }
}

/* The pages, first in the line and in reading order; returns where they end. */
static double draw_tabs(PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbRect top = desk->layout.top;
    char words[48];
    double x = pad_mm;
    for (int i = PLUMB_CMD_PAGE_DRAWING; i <= (int)PLUMB_CMD_PAGE_TRACE; i++) {
        const PlumbCommandId id = (PlumbCommandId)i;
        const double width = button_width(desk, board, id, words, sizeof words);
        plumb_button_draw(desk, board, id,
                          (PlumbRect){x, top.y_mm + 1.5, width, top.height_mm - 3.0}, words);
        x += width;
    }
    return x;
}

void plumb_compose_top(PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbRect top = desk->layout.top;
    const double tabs_end = draw_tabs(desk, board);
    const double room = top.width_mm - tabs_end - 2.0 * pad_mm;
    const double least = fmin(title_least_mm * desk->text_scale, 0.3 * room);
    bool shown[PLUMB_COMMAND_COUNT];
    char words[48];
    choose_buttons(desk, board, room - least, shown);
    double x = top.width_mm - pad_mm;
    for (int i = 0; i < PLUMB_COMMAND_COUNT; i++) {
        x -= shown[i] ? button_width(desk, board, (PlumbCommandId)i, words, sizeof words) + gap_mm
                      : 0.0;
    }
    const double title_end = x - 2.0;
    x += gap_mm;
    for (int i = 0; i < PLUMB_COMMAND_COUNT; i++) {
        if (shown[i]) {
            const double width = button_width(desk, board, (PlumbCommandId)i, words, sizeof words);
            plumb_button_draw(desk, board, (PlumbCommandId)i,
                              (PlumbRect){x, top.y_mm + 1.5, width, top.height_mm - 3.0}, words);
            x += width + gap_mm;
        }
    }
    draw_title(desk, board, tabs_end + pad_mm, title_end);
}

typedef struct KeyLine {
    const char *keys;
    const char *help;
} KeyLine;

/* Keys that belong to what has the focus, not to a command. */
static const KeyLine HANDS[] = {
    {"Tab, Shift+Tab", "next, previous: buttons, table, rulers"},
    {"Left, Right", "move the pointer by a step; with Shift by ten"},
    {"Up, Down", "ruler above, below; in the table another joint"},
    {"Enter, Arrows", "in the table: the working of the chosen figure; another figure"},
    {"Home, End", "first, last ruler"},
    {"Enter", "type the figure, with its unit; press a button"},
    {"Delete", "back to the default; a double click does the same"},
    {"Arrows", "trace: move the mark by a pixel, with Shift by ten, with Ctrl the picture"},
    {"Enter, Delete", "trace: place the landmark, remove its last mark"},
    {"+, -, Wheel", "trace: zoom; right button, or Space and drag: pan"},
    {"Comma, Point", "trace: landmark above, below"},
    {"Page Up, Down", "trace: the picture, or the frame; with Shift ten frames"},
    {"Wheel", "moves the ruler with focus; elsewhere scrolls the rulers"},
    {"Escape", "leave a line being typed, this list, a working, the pencil"},
};
/* The keys of one page stand together, below its name. */
static const struct KeyGroup {
    const char *name;
    const char *prefix; /* of the help of its keys */
} GROUPS[] = {{"Anywhere", ""},
              {"Pages", "page: "},
              {"Files, and what is handed over", "file: "},
              {"Map", "map: "},
              {"Trace", "trace: "}};
enum {
    HAND_COUNT = sizeof HANDS / sizeof HANDS[0],
    GROUP_COUNT = sizeof GROUPS / sizeof GROUPS[0],
    ALL_COUNT = HAND_COUNT + PLUMB_COMMAND_COUNT,
    LINE_COUNT = ALL_COUNT + GROUP_COUNT
};

static int group_of(const char *help)
{
    for (int g = 1; g < GROUP_COUNT; g++) {
        if (strncmp(help, GROUPS[g].prefix, strlen(GROUPS[g].prefix)) == 0) {
            return g;
        }
    }
    return 0;
}

/* All keys, group by group; a heading has no help. */
static void list_keys(KeyLine line[LINE_COUNT])
{
    int count = 0;
    for (int g = 0; g < GROUP_COUNT; g++) {
        line[count++] = (KeyLine){GROUPS[g].name, NULL};
        for (int i = 0; i < ALL_COUNT; i++) {
            const PlumbCommand *const command =
                i < HAND_COUNT ? NULL : plumb_command((PlumbCommandId)(i - HAND_COUNT));
            const char *const help = command == NULL ? HANDS[i].help : command->help;
            if (group_of(help) == g) {
                line[count++] = (KeyLine){command == NULL ? HANDS[i].keys : command->keys,
                                          help + strlen(GROUPS[g].prefix)};
            }
        }
    }
}

static void key_line(const PlumbBoard *board, double x, double y, double keys_mm, double size,
                     KeyLine line)
{
    if (line.help == NULL) {
        plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){x, y}, size, PLUMB_START,
                         line.keys);
        const PlumbPen hairline = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
        const double rule = y + 0.35 * size;
        plumb_scene_line(board->scene, hairline, NONE, (PlumbVec2){x, rule},
                         (PlumbVec2){x + 2.0 * keys_mm, rule});
        return;
    }
    plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){x, y}, size, PLUMB_START, line.keys);
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){x + keys_mm, y}, size, PLUMB_START,
                     line.help);
}

/* How the list of keys stands: in one column, or in two where it can then be larger. */
typedef struct KeysShape {
    int rows; /* of a column */
    double shrink;
    double pitch_mm; /* from column to column, not shrunk */
    double width_mm;
    double height_mm;
} KeysShape;

static KeysShape keys_shape(const PlumbDesk *desk, double size, double line_mm, int count)
{
    KeysShape best = {.shrink = 0.0};
    for (int columns = 1; columns <= 2; columns++) {
        KeysShape shape = {.rows = (count + columns - 1) / columns};
        shape.pitch_mm = line_mm + 2.0 * keys_margin_mm;
        const double width = columns * shape.pitch_mm;
        const double height = keys_pitch * size * (shape.rows + 1) + 6.0;
        shape.shrink =
            fmin(1.0, fmin((desk->width_mm - 4.0) / width, (desk->height_mm - 4.0) / height));
        shape.width_mm = shape.shrink * width;
        shape.height_mm = shape.shrink * height;
        best = shape.shrink > best.shrink ? shape : best;
    }
    return best;
}

void plumb_compose_keys(PlumbDesk *desk, const PlumbBoard *board)
{
    KeyLine line[LINE_COUNT];
    list_keys(line);
    double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    double keys = 0.0;
    double help = 0.0;
    for (int i = 0; i < LINE_COUNT; i++) {
        const double width = plumb_board_width(board, line[i].keys, size);
        keys = line[i].help == NULL ? keys : fmax(keys, width);
        help =
            line[i].help == NULL ? help : fmax(help, plumb_board_width(board, line[i].help, size));
    }
    const KeysShape shape = keys_shape(desk, size, keys + key_gap_mm + help, LINE_COUNT);
    const double shrink = shape.shrink;
    size *= shrink;
    const PlumbRect box = {0.5 * (desk->width_mm - shape.width_mm),
                           0.5 * (desk->height_mm - shape.height_mm), shape.width_mm,
                           shape.height_mm};
    const PlumbPen frame = {PLUMB_ROLE_select, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    plumb_scene_rect(board->scene, frame, NONE, box);
    const double top = box.y_mm + 3.0 * shrink + size;
    double y = top;
    for (int i = 0; i < LINE_COUNT; i++) {
        const int column = i / shape.rows;
        y = i % shape.rows == 0 ? top : y;
        key_line(board, box.x_mm + shrink * (keys_margin_mm + column * shape.pitch_mm), y,
                 shrink * (keys + key_gap_mm), size, line[i]);
        y += keys_pitch * size;
    }
}
