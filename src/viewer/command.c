/* SPDX-License-Identifier: MIT */
/* The table of commands and what each does. */
#include "command.h"

#include "advise.h"
#include "book.h"
#include "daybook.h"
#include "export.h"
#include "form.h"
#include "give.h"
#include "page_trace.h"
#include "reel.h"
#include "pages.h"
#include "ruler.h"
#include "working.h"

#include <SDL.h>

#include <string.h>

static const double scales[] = {1.0, 1.25, 1.5, 2.0};
enum { SCALE_COUNT = 4 };

static void next_lift(PlumbDesk *desk, int argument)
{
    (void)argument;
    const bool unsaved = desk->now.unsaved;
    plumb_desk_keep(desk, 0);
    desk->now.unsaved = unsaved;
    desk->now.lift = (PlumbLift)((desk->now.lift + 1) % PLUMB_LIFT_COUNT);
    desk->first_ruler = 0;
    desk->body_shown = false;
    plumb_desk_touch(desk);
    plumb_desk_hint(desk);
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)plumb_ruler_first(desk->now.lift));
}

static void next_setup(PlumbDesk *desk, int argument)
{
    (void)argument;
    PlumbSheet *const now = &desk->now;
    if (now->named_count == 0) {
        plumb_desk_say(desk, false, "No set-up has a name yet: Ctrl+N keeps this one under one.");
        return;
    }
    const bool unsaved = now->unsaved;
    plumb_desk_keep(desk, 0);
    plumb_sheet_gather(now);
    plumb_sheet_pick(now,
                     (plumb_sheet_find(now, now->setup_name[now->lift]) + 1) % now->named_count);
    now->unsaved = unsaved;
    plumb_desk_touch(desk);
}

static void toggle_pencil(PlumbDesk *desk, int argument)
{
    (void)argument;
    const bool unsaved = desk->now.unsaved;
    plumb_desk_keep(desk, 0);
    PlumbSheet *const now = &desk->now;
    now->unsaved = unsaved; /* the pencil is no part of a file */
    if (plumb_desk_pencil_shown(desk)) {
        now->pencilled = false;
        plumb_desk_say(desk, false, "The pencilled set-up is gone; Ctrl+Z brings it back.");
    } else {
        now->pencilled = true;
        now->pencil_lifter = now->lifter;
        now->pencil_record = now->record;
        now->pencil = *plumb_desk_setup(desk);
        memcpy(now->pencil_name, now->setup_name[now->lift], sizeof now->pencil_name);
        plumb_desk_say(desk, false,
                       "Pencilled. Every figure now shows its difference; X swaps the two, P or "
                       "Escape removes the pencil.");
    }
    plumb_desk_touch(desk);
}

static void swap_pencil(PlumbDesk *desk, int argument)
{
    (void)argument;
    if (!plumb_desk_pencil_shown(desk)) {
        plumb_desk_say(desk, true, "Nothing is pencilled: P pencils this set-up.");
        return;
    }
    plumb_desk_keep(desk, 0);
    PlumbSheet *const now = &desk->now;
    const PlumbSheet before = *now;
    now->setup[now->lift] = before.pencil;
    now->lifter = before.pencil_lifter;
    now->pencil = before.setup[before.lift];
    now->pencil_lifter = before.lifter;
    now->record = before.pencil_record;
    now->pencil_record = before.record;
    memcpy(now->setup_name[now->lift], before.pencil_name, sizeof before.pencil_name);
    memcpy(now->pencil_name, before.setup_name[before.lift], sizeof now->pencil_name);
    plumb_desk_touch(desk);
}

static void undo(PlumbDesk *desk, int argument)
{
    (void)argument;
    if (!plumb_desk_undo(desk)) {
        plumb_desk_say(desk, false, "Nothing to undo.");
    }
}

static void redo(PlumbDesk *desk, int argument)
{
    (void)argument;
    if (!plumb_desk_redo(desk)) {
        plumb_desk_say(desk, false, "Nothing to redo.");
    }
}

static void toggle_units(PlumbDesk *desk, int argument)
{
    (void)argument;
    desk->units = desk->units == PLUMB_METRIC ? PLUMB_POUNDS_INCHES : PLUMB_METRIC;
    desk->refit = true;
}

static void toggle_paper(PlumbDesk *desk, int argument)
{
    (void)argument;
    desk->paper = desk->paper == PLUMB_LIGHT_PAPER ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER;
    desk->repaint = true;
}

static int scale_index(const PlumbDesk *desk)
{
    int index = 0;
    while (index + 1 < SCALE_COUNT && scales[index + 1] <= desk->text_scale + 1e-9) {
        index++;
    }
    return index;
}

/* Larger goes round from the largest, so that its button alone reaches all. */
static void scale_text(PlumbDesk *desk, int step)
{
    const int index = scale_index(desk) + step;
    desk->text_scale = scales[index < 0 || index >= SCALE_COUNT ? 0 : index];
    desk->refit = true;
}

static void toggle_keys(PlumbDesk *desk, int argument)
{
    (void)argument;
    desk->keys_shown = !desk->keys_shown;
}

static void quit(PlumbDesk *desk, int argument)
{
    (void)argument;
    desk->quit = true;
}

static void give(PlumbDesk *desk, int use)
{
    plumb_give_ask(desk, (PlumbFieldUse)use);
}

static void show_log(PlumbDesk *desk, int argument)
{
    (void)argument;
    plumb_daybook_ask(desk);
}

static void ask_export(PlumbDesk *desk, int argument)
{
    (void)argument;
    plumb_export_ask(desk);
}

/* The places of a press are its three moments; the keys of the others do nothing there. */
static void select_arm(PlumbDesk *desk, int arm)
{
    plumb_desk_select(desk, arm);
}

static void ask(PlumbDesk *desk, int use)
{
    plumb_book_ask(desk, (PlumbFieldUse)use);
}

static void save(PlumbDesk *desk, int argument)
{
    (void)argument;
    if (desk->page == PLUMB_PAGE_TRACE || (plumb_book_save(desk) && desk->now.marked.unsaved)) {
        plumb_trace_save(desk);
    }
}

static void show_page(PlumbDesk *desk, int page)
{
    if (plumb_working_shown(desk)) {
        plumb_working_toggle(desk);
    }
    const bool other = (int)desk->page != page;
    desk->page = (PlumbPage)page;
    desk->way.playing = false;
    plumb_reel_halt(desk);
    desk->refit = true;
    desk->notes_scroll.top_mm = 0.0;
    if (other) {
        plumb_desk_page_hint(desk);
    } else {
        plumb_desk_hint(desk);
    }
    const bool picture =
        desk->focus.kind == PLUMB_WIDGET_PICTURE || desk->focus.kind == PLUMB_WIDGET_MARKS;
    if (page == PLUMB_PAGE_TRACE) {
        plumb_desk_focus(desk, PLUMB_WIDGET_PICTURE, 0);
    } else if (picture) {
        plumb_desk_focus(desk, PLUMB_WIDGET_RULER, PLUMB_SET_stance);
    }
}

/* The rulers and what to try stand beside the drawing, not beside a picture. */
static void leave_picture(PlumbDesk *desk)
{
    if (desk->page == PLUMB_PAGE_TRACE) {
        show_page(desk, PLUMB_PAGE_DRAWING);
    }
}

static void toggle_body(PlumbDesk *desk, int argument)
{
    (void)argument;
    leave_picture(desk);
    desk->body_shown = !desk->body_shown;
    desk->first_ruler = 0;
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER,
                     desk->body_shown ? (int)PLUMB_BODY_stature
                                      : (int)plumb_ruler_first(desk->now.lift));
}

static void new_lifter(PlumbDesk *desk, int argument)
{
    (void)argument;
    plumb_form_begin(desk);
}

static void toggle_card(PlumbDesk *desk, int card)
{
    desk->card = (int)desk->card == card ? PLUMB_CARD_NONE : (PlumbCard)card;
}

static void try_first(PlumbDesk *desk, int argument)
{
    (void)argument;
    PlumbAim aim;
    const bool found = desk->page == PLUMB_PAGE_TRACE && plumb_reel_first_aim(desk, &aim);
    leave_picture(desk);
    if (found) {
        plumb_advise_aim(desk, aim);
    } else {
        plumb_advise_next(desk);
    }
}

static void show_working(PlumbDesk *desk, int argument)
{
    (void)argument;
    const bool compared = desk->page == PLUMB_PAGE_COMPARE && plumb_desk_pencil_shown(desk);
    if (desk->page != PLUMB_PAGE_DRAWING && desk->page != PLUMB_PAGE_PATH && !compared) {
        show_page(desk, PLUMB_PAGE_DRAWING);
    }
    plumb_working_toggle(desk);
}

static void play(PlumbDesk *desk, int argument)
{
    (void)argument;
    if (desk->page != PLUMB_PAGE_PATH) {
        show_page(desk, PLUMB_PAGE_PATH);
    }
    plumb_path_play(desk);
}

/* argument: 0 across, 1 up, 2 the figure; of the Map page. */
static void next_of_map(PlumbDesk *desk, int argument)
{
    show_page(desk, PLUMB_PAGE_MAP);
    plumb_map_next(desk, argument, 1);
}

static const PlumbCommand TABLE[PLUMB_COMMAND_COUNT] = {
    [PLUMB_CMD_PAGE_DRAWING] = {SDLK_F2, 0, "F2", "Drawing", 0, "page: Drawing, one pose",
                                show_page, PLUMB_PAGE_DRAWING},
    [PLUMB_CMD_PAGE_PATH] = {SDLK_F3, 0, "F3", "Path", 0, "page: Path, the lift from start to end",
                             show_page, PLUMB_PAGE_PATH},
    [PLUMB_CMD_PAGE_COMPARE] = {SDLK_F4, 0, "F4", "Compare", 0,
                                "page: Compare, inked against pencilled", show_page,
                                PLUMB_PAGE_COMPARE},
    [PLUMB_CMD_PAGE_MAP] = {SDLK_F5, 0, "F5", "Map", 0, "page: Map, one figure over two settings",
                            show_page, PLUMB_PAGE_MAP},
    [PLUMB_CMD_PAGE_TRACE] = {SDLK_F8, 0, "F8", "Trace", 0,
                              "page: Trace, a picture or film of a real lift, with marks",
                              show_page, PLUMB_PAGE_TRACE},
    [PLUMB_CMD_OPEN] = {SDLK_o, PLUMB_MOD_CTRL, "Ctrl+O", "open", 7,
                        "file: open a lifter file, a picture, marks or a film", ask,
                        PLUMB_FIELD_OPEN},
    [PLUMB_CMD_SAVE] = {SDLK_s, PLUMB_MOD_CTRL, "Ctrl+S", "save", 3,
                        "file: save lifter and set-ups; on the Trace page the marks", save, 0},
    [PLUMB_CMD_SAVE_AS] = {SDLK_s, PLUMB_MOD_CTRL | PLUMB_MOD_SHIFT, "Ctrl+Shift+S", "", 0,
                           "file: save under another name", ask, PLUMB_FIELD_SAVE},
    [PLUMB_CMD_NEW] = {SDLK_l, PLUMB_MOD_CTRL, "Ctrl+L", "new lifter", 9,
                       "file: describe a new lifter, line by line", new_lifter, 0},
    [PLUMB_CMD_CARD] = {SDLK_F6, 0, "F6", "", 0, "page: measuring card, what to tape, and how",
                        toggle_card, PLUMB_CARD_MEASURING},
    [PLUMB_CMD_FILMING] = {SDLK_F7, 0, "F7", "", 0, "page: filming card, where the camera stands",
                           toggle_card, PLUMB_CARD_FILMING},
    [PLUMB_CMD_LIFT] = {SDLK_l, 0, "L", "", 1, "deadlift, squat or bench press", next_lift, 0},
    [PLUMB_CMD_SETUP] = {SDLK_n, 0, "N", "next set-up", 7, "file: next set-up of the lifter's file",
                         next_setup, 0},
    [PLUMB_CMD_NAME] = {SDLK_n, PLUMB_MOD_CTRL, "Ctrl+N", "", 0,
                        "file: keep this set-up under a further name", ask, PLUMB_FIELD_NAME},
    [PLUMB_CMD_PENCIL] = {SDLK_p, 0, "P", "pencil", 2,
                          "pencil this set-up, or remove the pencilled one", toggle_pencil, 0},
    [PLUMB_CMD_SWAP] = {SDLK_x, 0, "X", "swap", 9, "swap the inked and the pencilled set-up",
                        swap_pencil, 0},
    [PLUMB_CMD_UNDO] = {SDLK_z, PLUMB_MOD_CTRL, "Ctrl+Z", "undo", 4, "undo the last change", undo,
                        0},
    [PLUMB_CMD_REDO] = {SDLK_z, PLUMB_MOD_CTRL | PLUMB_MOD_SHIFT, "Ctrl+Shift+Z", "redo", 5,
                        "do again what was undone", redo, 0},
    [PLUMB_CMD_UNITS] = {SDLK_u, 0, "U", "", 6, "metric, or inches and pounds", toggle_units, 0},
    [PLUMB_CMD_PAPER] = {SDLK_d, 0, "D", "", 10, "light or dark paper", toggle_paper, 0},
    [PLUMB_CMD_LARGER] = {SDLK_PLUS, PLUMB_MOD_CTRL, "Ctrl++", "", 8,
                          "larger text: 100, 125, 150, 200 %, and round again", scale_text, 1},
    [PLUMB_CMD_SMALLER] = {SDLK_MINUS, PLUMB_MOD_CTRL, "Ctrl+-", "", 0, "smaller text", scale_text,
                           -1},
    [PLUMB_CMD_EXPORT] = {SDLK_e, PLUMB_MOD_CTRL, "Ctrl+E", "export", 3,
                          "file: export this page as PDF, SVG, PNG or CSV", ask_export, 0},
    [PLUMB_CMD_HANDOUT] = {SDLK_h, PLUMB_MOD_CTRL, "Ctrl+H", "handout", 10,
                           "file: handout, from pencil to ink, what to try first, or since a day",
                           give, PLUMB_FIELD_HANDOUT},
    [PLUMB_CMD_SHARE] = {SDLK_h, PLUMB_MOD_CTRL | PLUMB_MOD_SHIFT, "Ctrl+Shift+H", "share", 10,
                         "file: shared page, for a phone, its rulers alive", give,
                         PLUMB_FIELD_SHARE},
    [PLUMB_CMD_LOG] = {SDLK_d, PLUMB_MOD_CTRL, "Ctrl+D", "log", 10,
                       "file: log, its dated entries, and one more of what is on the drawing",
                       show_log, 0},
    [PLUMB_CMD_KEYS] = {SDLK_F1, 0, "F1", "keys", 1, "show or hide this list", toggle_keys, 0},
    [PLUMB_CMD_QUIT] = {SDLK_q, PLUMB_MOD_CTRL, "Ctrl+Q", "", 0, "close the window", quit, 0},
    [PLUMB_CMD_TRY] = {SDLK_t, 0, "T", "try first", 5,
                       "what to try first, for the first warning; again for the next aim",
                       try_first, 0},
    [PLUMB_CMD_BODY] = {SDLK_b, 0, "B", "body", 6, "rulers of the body, or of the set-up",
                        toggle_body, 0},
    [PLUMB_CMD_WORKING] = {SDLK_e, 0, "E", "", 0,
                           "the working of the figure chosen, on Path and Compare too",
                           show_working, 0},
    [PLUMB_CMD_PLAY] = {SDLK_SPACE, 0, "Space", "", 0, "play the way up in real time, or stop",
                        play, 0},
    [PLUMB_CMD_MAP_FIGURE] = {SDLK_f, 0, "F", "", 0, "map: another figure", next_of_map, 2},
    [PLUMB_CMD_MAP_X] = {SDLK_h, 0, "H", "", 0, "map: another setting across", next_of_map, 0},
    [PLUMB_CMD_MAP_Y] = {SDLK_v, 0, "V", "", 0, "map: another setting up", next_of_map, 1},
    [PLUMB_CMD_TRACE_USE] = {SDLK_g, 0, "G", "", 0, "trace: use as my start", plumb_trace_do,
                             PLUMB_TRACE_USE},
    [PLUMB_CMD_TRACE_MIRROR] = {SDLK_m, 0, "M", "", 0,
                                "trace: the lifter faces left, or right (bench: the feet)",
                                plumb_trace_do, PLUMB_TRACE_MIRROR},
    [PLUMB_CMD_TRACE_FRONT] = {SDLK_s, 0, "S", "", 0,
                               "trace: from the side, or the front (bench: an end)", plumb_trace_do,
                               PLUMB_TRACE_FRONT},
    [PLUMB_CMD_TRACE_AIR] = {SDLK_i, 0, "I", "", 0, "trace: bar on the floor, or in the air",
                             plumb_trace_do, PLUMB_TRACE_AIR},
    [PLUMB_CMD_TRACE_CAMERA] = {SDLK_c, 0, "C", "", 0, "trace: distance of the camera",
                                plumb_trace_do, PLUMB_TRACE_DISTANCE},
    [PLUMB_CMD_TRACE_LENGTH] = {SDLK_k, 0, "K", "", 0, "trace: known length between two marks",
                                plumb_trace_do, PLUMB_TRACE_LENGTH},
    [PLUMB_CMD_TRACE_WHOLE] = {SDLK_w, 0, "W", "", 0, "trace: the whole picture in view",
                               plumb_trace_do, PLUMB_TRACE_WHOLE},
    [PLUMB_CMD_TRACE_ADD] = {SDLK_a, 0, "A", "", 0, "trace: add a picture of the same lift",
                             plumb_trace_do, PLUMB_TRACE_ADD},
    [PLUMB_CMD_TRACE_PLAY] = {SDLK_r, 0, "R", "", 0, "trace: play the film, or stop",
                              plumb_trace_do, PLUMB_TRACE_PLAY},
    [PLUMB_CMD_TRACE_SLOW] = {SDLK_r, PLUMB_MOD_SHIFT, "Shift+R", "", 0,
                              "trace: play at a quarter speed, or stop", plumb_trace_do,
                              PLUMB_TRACE_SLOW},
    [PLUMB_CMD_TRACE_FOLLOW] = {SDLK_o, 0, "O", "", 0, "trace: follow the marks, or stop",
                                plumb_trace_do, PLUMB_TRACE_FOLLOW},
    [PLUMB_CMD_TRACE_DOUBT] = {SDLK_j, 0, "J", "", 0, "trace: the next frame in doubt",
                               plumb_trace_do, PLUMB_TRACE_DOUBT},
    [PLUMB_CMD_TRACE_CHART] = {SDLK_q, 0, "Q", "", 0, "trace: the film's chart, or its picture",
                               plumb_trace_do, PLUMB_TRACE_CHART},
    [PLUMB_CMD_TRACE_RATE] = {SDLK_y, 0, "Y", "", 0, "trace: frames a second of the film",
                              plumb_trace_do, PLUMB_TRACE_RATE},
    [PLUMB_CMD_ANKLE] = {SDLK_1, 0, "1", "", 0,
                         "select the ankle's moment arm; of a press the one of adduction",
                         select_arm, PLUMB_JOINT_ankle},
    [PLUMB_CMD_KNEE] = {SDLK_2, 0, "2", "", 0,
                        "select the knee's; of a press the one of shoulder flexion", select_arm,
                        PLUMB_JOINT_knee},
    [PLUMB_CMD_HIP] = {SDLK_3, 0, "3", "", 0, "select the hip's; of a press the elbow's",
                       select_arm, PLUMB_JOINT_hip},
    [PLUMB_CMD_BACK] = {SDLK_4, 0, "4", "", 0, "select the back's", select_arm, PLUMB_JOINT_back},
    [PLUMB_CMD_SHOULDER] = {SDLK_5, 0, "5", "", 0, "select the shoulder's", select_arm,
                            PLUMB_JOINT_shoulder},
};

const PlumbCommand *plumb_command(PlumbCommandId id)
{
    return &TABLE[id];
}

void plumb_command_words(const PlumbDesk *desk, PlumbCommandId id, PlumbText *text)
{
    if (id == PLUMB_CMD_LIFT) {
        plumb_text_string(text, plumb_lift_name(desk->now.lift));
    } else if (id == PLUMB_CMD_UNITS) {
        plumb_text_string(text, desk->units == PLUMB_METRIC ? "cm, kg" : "in, lb");
    } else if (id == PLUMB_CMD_PAPER) {
        plumb_text_string(text, desk->paper == PLUMB_LIGHT_PAPER ? "light" : "dark");
    } else if (id == PLUMB_CMD_MAP_FIGURE) {
        const int figure = plumb_map_figure(desk);
        const char *const unit =
            plumb_quantity_unit(plumb_lift_output_quantity(desk->now.lift, figure), desk->units);
        plumb_text_string(text, plumb_lift_output_text(desk->now.lift, figure));
        plumb_text_string(text, unit[0] != '\0' ? ", " : "");
        plumb_text_string(text, unit);
    } else if (id == PLUMB_CMD_MAP_X || id == PLUMB_CMD_MAP_Y) {
        plumb_text_string(text, id == PLUMB_CMD_MAP_X ? "across: " : "up: ");
        plumb_ruler_name(id == PLUMB_CMD_MAP_X ? desk->map.x : desk->map.y, text);
    } else if (TABLE[id].run == plumb_trace_do) {
        plumb_trace_words(desk, (PlumbTraceDeed)TABLE[id].argument, text);
    } else if (id == PLUMB_CMD_LARGER) {
        plumb_text_string(text, "text ");
        plumb_text_fixed(text, 100.0 * desk->text_scale, 0);
        plumb_text_string(text, " %");
    } else {
        plumb_text_string(text, TABLE[id].button);
    }
}

bool plumb_command_open(const PlumbDesk *desk, PlumbCommandId id)
{
    if (id == PLUMB_CMD_SETUP) {
        return desk->now.named_count > 1;
    }
    if (id == PLUMB_CMD_SWAP) {
        return plumb_desk_pencil_shown(desk);
    }
    if (TABLE[id].run == plumb_trace_do) {
        return plumb_trace_can(desk, (PlumbTraceDeed)TABLE[id].argument);
    }
    if (id == PLUMB_CMD_UNDO) {
        return desk->history.past_count > 0;
    }
    return id != PLUMB_CMD_REDO || desk->history.future_count > 0;
}

void plumb_command_run(PlumbDesk *desk, PlumbCommandId id)
{
    desk->dirty = true;
    TABLE[id].run(desk, TABLE[id].argument);
}

PlumbCommandId plumb_command_of_key(int key, unsigned mods)
{
    /* Plus is typed with Shift on many keyboards, and beside digits without. */
    if ((key == SDLK_EQUALS || key == SDLK_PLUS || key == SDLK_KP_PLUS) &&
        (mods & PLUMB_MOD_CTRL) != 0) {
        return PLUMB_CMD_LARGER;
    }
    if (key == SDLK_KP_MINUS && mods == PLUMB_MOD_CTRL) {
        return PLUMB_CMD_SMALLER;
    }
    for (int i = 0; i < PLUMB_COMMAND_COUNT; i++) {
        if (TABLE[i].key == key && TABLE[i].mods == mods) {
            return (PlumbCommandId)i;
        }
    }
    return PLUMB_COMMAND_COUNT;
}
