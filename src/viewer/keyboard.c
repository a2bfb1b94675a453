/* SPDX-License-Identifier: MIT */
/* The keyboard: focus in reading order, nudging, typing, and the keys of the commands. */
#include "hands.h"

#include "advise.h"
#include "command.h"
#include "page_trace.h"
#include "reel.h"
#include "pages.h"
#include "field.h"
#include "ruler.h"
#include "slip.h"
#include "working.h"

#include <SDL.h>

static int ruler_index(const PlumbDesk *desk, PlumbSettingId wanted, PlumbSettingId *id, int *count)
{
    *count = plumb_desk_rulers(desk, id);
    for (int i = 0; i < *count; i++) {
        if (id[i] == wanted) {
            return i;
        }
    }
    return -1;
}

void plumb_hand_reveal(PlumbDesk *desk, PlumbSettingId wanted)
{
    PlumbSettingId id[PLUMB_SETTING_COUNT];
    int count = 0;
    desk->body_shown = plumb_body_is(wanted);
    const int index = ruler_index(desk, wanted, id, &count);
    if (index < 0 || desk->rulers_fit <= 0) {
        return;
    }
    if (index < desk->first_ruler) {
        desk->first_ruler = index;
    } else if (index >= desk->first_ruler + desk->rulers_fit) {
        desk->first_ruler = index - desk->rulers_fit + 1;
    }
    desk->dirty = true;
}

/* On arrival a ruler says what it is for. */
static void focus_ruler(PlumbDesk *desk, PlumbSettingId id)
{
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)id);
    plumb_hand_reveal(desk, id);
    plumb_desk_say(
        desk, false,
        id != PLUMB_SET_auto ? plumb_ruler_row(id)->meaning
        : desk->now.lift == PLUMB_BENCH
            ? "What is given and so leads. Auto touches in the middle of the low-effort "
              "range."
            : "What is given and so leads; the rest follows from the balance. Auto takes "
              "the middle of the low-effort range.");
}

/* The stops that are not rulers, in reading order. */
static int plain_stops(const PlumbDesk *desk, PlumbWidgetRef *stop)
{
    int count = 0;
    for (int i = 0; i < desk->widget_count; i++) {
        if (desk->widget[i].stop && desk->widget[i].ref.kind != PLUMB_WIDGET_RULER) {
            stop[count++] = desk->widget[i].ref;
        }
    }
    return count;
}

/* Buttons, table, then all rulers, those that are folded too; round again. */
static void walk(PlumbDesk *desk, int step)
{
    PlumbWidgetRef stop[PLUMB_WIDGETS_MAX];
    PlumbSettingId id[PLUMB_SETTING_COUNT];
    int rulers = 0;
    const int plain = plain_stops(desk, stop);
    int at = ruler_index(desk, (PlumbSettingId)desk->focus.id, id, &rulers);
    rulers = desk->page == PLUMB_PAGE_TRACE ? 0 : rulers; /* it has a list of marks instead */
    at = desk->focus.kind == PLUMB_WIDGET_RULER && at >= 0 ? plain + at : plain - (step > 0);
    for (int i = 0; i < plain; i++) {
        if (plumb_desk_has_focus(desk, stop[i].kind, stop[i].id)) {
            at = i;
        }
    }
    const int total = plain + rulers;
    if (total == 0) {
        return;
    }
    at = (at + step + total) % total;
    if (at < plain) {
        plumb_desk_focus(desk, stop[at].kind, stop[at].id);
    } else {
        focus_ruler(desk, id[at - plain]);
    }
}

static void walk_rulers(PlumbDesk *desk, int step)
{
    PlumbSettingId id[PLUMB_SETTING_COUNT];
    int count = 0;
    const int at = ruler_index(desk, (PlumbSettingId)desk->focus.id, id, &count) + step;
    if (at >= 0 && at < count) {
        focus_ruler(desk, id[at]);
    }
}

static void goto_ruler(PlumbDesk *desk, bool last)
{
    PlumbSettingId id[PLUMB_SETTING_COUNT];
    const int count = plumb_desk_rulers(desk, id);
    focus_ruler(desk, id[last ? count - 1 : 0]);
}

static bool ruler_key(PlumbDesk *desk, int key, unsigned mods, bool repeated)
{
    const PlumbSettingId id = (PlumbSettingId)desk->focus.id;
    const int ten = (mods & PLUMB_MOD_SHIFT) != 0 ? 10 : 1;
    /* A key that is held down is one step of undo. */
    const unsigned step = 0x30000U + (unsigned)id;
    if ((mods & PLUMB_MOD_CTRL) != 0) {
        return false;
    }
    switch (key) {
    case SDLK_LEFT:
    case SDLK_RIGHT:
        desk->history.key = repeated ? desk->history.key : 0;
        desk->key_held = repeated;
        plumb_ruler_nudge(desk, id, key == SDLK_RIGHT ? ten : -ten, step);
        return true;
    case SDLK_UP:
        walk_rulers(desk, -1);
        return true;
    case SDLK_DOWN:
        walk_rulers(desk, 1);
        return true;
    case SDLK_DELETE:
    case SDLK_BACKSPACE:
        plumb_ruler_default(desk, id);
        return true;
    case SDLK_RETURN:
    case SDLK_KP_ENTER:
        plumb_field_open_ruler(desk, id);
        return true;
    default:
        return false;
    }
}

/* Up and down another joint, left and right another figure; on the Compare page row and column.
 * Enter shows its working. */
static bool table_key(PlumbDesk *desk, int key)
{
    const PlumbFamily *const family = plumb_desk_family(desk);
    if (key == SDLK_RETURN || key == SDLK_KP_ENTER) {
        plumb_working_toggle(desk);
        return true;
    }
    if (desk->page == PLUMB_PAGE_COMPARE && (key == SDLK_LEFT || key == SDLK_RIGHT)) {
        plumb_working_column(desk, key == SDLK_RIGHT);
        return true;
    }
    if (desk->page == PLUMB_PAGE_COMPARE && (key == SDLK_UP || key == SDLK_DOWN)) {
        plumb_working_row(desk, key == SDLK_DOWN ? 1 : -1);
        return true;
    }
    if (key == SDLK_LEFT || key == SDLK_RIGHT) {
        plumb_working_step(desk, key == SDLK_RIGHT ? 1 : -1);
        return true;
    }
    if (key != SDLK_UP && key != SDLK_DOWN) {
        return false;
    }
    int row = 0;
    while (family->arm_order[row] != plumb_desk_arm(desk)) {
        row++;
    }
    row += key == SDLK_DOWN ? 1 : -1;
    plumb_desk_select(desk, family->arm_order[(row + family->arm_count) % family->arm_count]);
    return true;
}

static bool option_key(PlumbDesk *desk, int key)
{
    const int last = desk->try_first.advice.worth_count - 1;
    if (key == SDLK_RETURN || key == SDLK_KP_ENTER) {
        plumb_advise_take(desk, desk->focus.id);
    } else if (key == SDLK_UP || key == SDLK_DOWN) {
        const int at = desk->focus.id + (key == SDLK_DOWN ? 1 : -1);
        plumb_desk_focus(desk, PLUMB_WIDGET_OPTION, at < 0 ? 0 : at > last ? last : at);
    } else {
        return false;
    }
    return true;
}

static bool scrub_key(PlumbDesk *desk, int key, unsigned mods)
{
    const int ten = (mods & PLUMB_MOD_SHIFT) != 0 ? 10 : 1;
    if (key != SDLK_LEFT && key != SDLK_RIGHT) {
        return false;
    }
    if (desk->page == PLUMB_PAGE_TRACE) {
        plumb_reel_step(desk, key == SDLK_RIGHT ? ten : -ten);
    } else {
        plumb_path_step(desk, key == SDLK_RIGHT ? ten : -ten);
    }
    return true;
}

/* Arrows go over the map by the steps of its rulers. */
static bool map_key(PlumbDesk *desk, int key, unsigned mods)
{
    const int ten = (mods & PLUMB_MOD_SHIFT) != 0 ? 10 : 1;
    const bool across = key == SDLK_LEFT || key == SDLK_RIGHT;
    if (!across && key != SDLK_UP && key != SDLK_DOWN) {
        return false;
    }
    const PlumbSettingId id = across ? desk->map.x : desk->map.y;
    plumb_ruler_nudge(desk, id, key == SDLK_RIGHT || key == SDLK_UP ? ten : -ten,
                      0x50000U + (unsigned)id);
    return true;
}

/* Up and down by lines, Page Up and Page Down by pages. */
static bool notes_key(PlumbDesk *desk, int key)
{
    switch (key) {
    case SDLK_UP:
    case SDLK_DOWN:
        return plumb_notes_scroll(desk, key == SDLK_DOWN ? 1.0 : -1.0);
    case SDLK_PAGEUP:
    case SDLK_PAGEDOWN:
        return plumb_notes_turn(desk, key == SDLK_PAGEDOWN ? 1 : -1);
    default:
        return false;
    }
}

static void escape(PlumbDesk *desk)
{
    if (desk->keys_shown) {
        desk->keys_shown = false;
    } else if (plumb_working_shown(desk)) {
        plumb_working_toggle(desk);
    } else if (desk->try_first.on) {
        desk->try_first.on = false;
        plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)plumb_ruler_first(desk->now.lift));
    } else if (plumb_desk_pencil_shown(desk)) {
        plumb_command_run(desk, PLUMB_CMD_PENCIL);
    } else {
        plumb_desk_say(desk, false, "");
    }
    desk->dirty = true;
}

/* Keys that walk or leave, whatever has the focus. */
static bool walking_key(PlumbDesk *desk, int key, unsigned mods)
{
    switch (key) {
    case SDLK_TAB:
        walk(desk, (mods & PLUMB_MOD_SHIFT) != 0 ? -1 : 1);
        return true;
    case SDLK_HOME:
    case SDLK_END:
        goto_ruler(desk, key == SDLK_END);
        return true;
    case SDLK_PAGEUP:
    case SDLK_PAGEDOWN:
        if (plumb_working_turn(desk, key == SDLK_PAGEDOWN ? 1 : -1)) {
            return true;
        }
        desk->first_ruler += key == SDLK_PAGEDOWN ? desk->rulers_fit : -desk->rulers_fit;
        desk->first_ruler = desk->first_ruler < 0 ? 0 : desk->first_ruler;
        desk->dirty = true;
        return true;
    case SDLK_ESCAPE:
        escape(desk);
        return true;
    default:
        return false;
    }
}

void plumb_hand_key(PlumbDesk *desk, int key, unsigned mods, bool repeated)
{
    if (desk->drag.on) {
        return; /* one hand at a time: the drag ends first */
    }
    if (desk->card != PLUMB_CARD_NONE) {
        /* The key that closes a card does nothing else; that of another card shows it. */
        const PlumbCommandId id = plumb_command_of_key(key, mods);
        if (id == PLUMB_CMD_CARD || id == PLUMB_CMD_FILMING) {
            plumb_command_run(desk, id);
        } else {
            desk->card = PLUMB_CARD_NONE;
        }
        desk->dirty = true;
        return;
    }
    if (desk->slip != PLUMB_SLIP_NONE) {
        plumb_slip_key(desk, key, mods);
        return;
    }
    if (desk->field.use != PLUMB_FIELD_SHUT) {
        if (key == SDLK_TAB && !plumb_field_take(desk)) {
            return;
        }
        if (key != SDLK_TAB && plumb_field_key(desk, key, mods)) {
            return;
        }
    }
    if (plumb_trace_key(desk, key, mods, repeated)) {
        return;
    }
    const PlumbWidgetKind kind = desk->focus.kind;
    if ((kind == PLUMB_WIDGET_NOTES && notes_key(desk, key)) || walking_key(desk, key, mods) ||
        (kind == PLUMB_WIDGET_RULER && ruler_key(desk, key, mods, repeated)) ||
        (kind == PLUMB_WIDGET_TABLE && table_key(desk, key)) ||
        (kind == PLUMB_WIDGET_SCRUB && scrub_key(desk, key, mods)) ||
        (kind == PLUMB_WIDGET_MAP && map_key(desk, key, mods))) {
        return;
    }
    if (kind == PLUMB_WIDGET_BUTTON && (key == SDLK_RETURN || key == SDLK_SPACE)) {
        plumb_command_run(desk, (PlumbCommandId)desk->focus.id);
        return;
    }
    if (kind == PLUMB_WIDGET_OPTION && option_key(desk, key)) {
        return;
    }
    const PlumbCommandId id = plumb_command_of_key(key, mods);
    if (id != PLUMB_COMMAND_COUNT) {
        plumb_command_run(desk, id);
    }
}

void plumb_hand_key_up(PlumbDesk *desk)
{
    plumb_trace_key_up(desk);
    if (desk->key_held) {
        desk->key_held = false;
        desk->refit = true;
        desk->dirty = true;
    }
}

void plumb_hand_text(PlumbDesk *desk, const char *utf8)
{
    plumb_field_type(desk, utf8);
}
