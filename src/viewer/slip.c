/* SPDX-License-Identifier: MIT */
/* Walking over a slip, turning its choices, typing into its lines. */
#include "slip.h"

#include "daybook.h"
#include "field.h"
#include "give.h"

#include <SDL.h>

#include <string.h>

const PlumbSlipForm *plumb_slip_form(const PlumbDesk *desk)
{
    return desk->slip == PLUMB_SLIP_LOG ? &plumb_daybook_form : &plumb_give_form;
}

static PlumbSlipRow row_of(const PlumbDesk *desk, int index)
{
    PlumbSlipRow row = {.label = ""};
    if (index < plumb_slip_form(desk)->rows(desk)) {
        plumb_slip_form(desk)->row(desk, index, &row);
    }
    return row;
}

/* Behind the rows stand two buttons: write, leave. */
static void stand_on(PlumbDesk *desk, int index)
{
    const PlumbSlipRow row = row_of(desk, index);
    desk->slip_row = index;
    desk->dirty = true;
    if (row.typed) {
        plumb_field_open(desk, PLUMB_FIELD_SLIP, PLUMB_SET_style, row.words);
    } else {
        desk->field.use = PLUMB_FIELD_SHUT;
    }
}

void plumb_slip_open(PlumbDesk *desk, PlumbSlipKind kind, int row)
{
    desk->slip = kind;
    desk->keys_shown = false;
    stand_on(desk, row);
}

void plumb_slip_close(PlumbDesk *desk)
{
    desk->slip = PLUMB_SLIP_NONE;
    desk->field.use = PLUMB_FIELD_SHUT;
    desk->dirty = true;
}

/* Takes the line that is being typed; false where it is refused and stays. */
static bool take(PlumbDesk *desk)
{
    if (desk->field.use != PLUMB_FIELD_SLIP) {
        return true;
    }
    const bool taken = plumb_slip_form(desk)->take(desk, desk->slip_row, desk->field.text);
    desk->field.wrong = !taken;
    desk->dirty = true;
    return taken;
}

static void go(PlumbDesk *desk, int step)
{
    const int stops = plumb_slip_form(desk)->rows(desk) + 2;
    if (take(desk)) {
        stand_on(desk, (desk->slip_row + step + stops) % stops);
    }
}

static void leave(PlumbDesk *desk)
{
    plumb_slip_close(desk);
    plumb_desk_say(desk, false, "");
}

static void finish(PlumbDesk *desk)
{
    if (!take(desk)) {
        return;
    }
    if (plumb_slip_form(desk)->finish(desk)) {
        plumb_slip_close(desk);
    } else {
        desk->field.wrong = desk->field.use == PLUMB_FIELD_SLIP;
    }
    desk->dirty = true;
}

/* Enter goes on from row to row; on the last it does what the slip is for. */
static void enter(PlumbDesk *desk, unsigned mods)
{
    const int rows = plumb_slip_form(desk)->rows(desk);
    if (desk->slip_row == rows + 1) {
        leave(desk);
    } else if (desk->slip_row >= rows - 1 || (mods & PLUMB_MOD_CTRL) != 0) {
        finish(desk);
    } else {
        go(desk, 1);
    }
}

void plumb_slip_key(PlumbDesk *desk, int key, unsigned mods)
{
    const bool typed = desk->field.use == PLUMB_FIELD_SLIP;
    switch (key) {
    case SDLK_ESCAPE:
        leave(desk);
        return;
    case SDLK_TAB:
        go(desk, (mods & PLUMB_MOD_SHIFT) != 0 ? -1 : 1);
        return;
    case SDLK_UP:
    case SDLK_DOWN:
        go(desk, key == SDLK_DOWN ? 1 : -1);
        return;
    case SDLK_RETURN:
    case SDLK_KP_ENTER:
        enter(desk, mods);
        return;
    case SDLK_q:
        desk->quit = desk->quit || mods == PLUMB_MOD_CTRL;
        return;
    default:
        break;
    }
    if (typed) {
        plumb_field_key(desk, key, mods);
    } else if (desk->slip_row >= plumb_slip_form(desk)->rows(desk)) {
        if (key == SDLK_SPACE) {
            enter(desk, PLUMB_MOD_NONE);
        } else if (key == SDLK_LEFT || key == SDLK_RIGHT) {
            go(desk, key == SDLK_RIGHT ? 1 : -1);
        }
    } else if (key == SDLK_LEFT || key == SDLK_RIGHT || key == SDLK_SPACE) {
        plumb_slip_form(desk)->choose(desk, desk->slip_row, key == SDLK_LEFT ? -1 : 1);
        desk->dirty = true;
    }
}

void plumb_slip_press(PlumbDesk *desk, PlumbVec2 at_mm)
{
    const int rows = plumb_slip_form(desk)->rows(desk);
    for (int i = 0; i < desk->widget_count; i++) {
        const PlumbWidget *const widget = &desk->widget[i];
        const int index = widget->ref.id;
        if (widget->ref.kind != PLUMB_WIDGET_SLIP || !plumb_rect_has(widget->rect, at_mm) ||
            (index <= rows && !take(desk))) {
            continue;
        }
        if (index == rows + 1) {
            leave(desk);
            return;
        }
        stand_on(desk, index);
        if (index == rows) {
            finish(desk);
        } else if (!row_of(desk, index).typed) {
            const bool back = at_mm.x < widget->rect.x_mm + 0.3 * widget->rect.width_mm;
            plumb_slip_form(desk)->choose(desk, index, back ? -1 : 1);
        }
        return;
    }
}

void plumb_slip_state(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbSlipForm *const form = plumb_slip_form(desk);
    if (desk->slip == PLUMB_SLIP_NONE) {
        return;
    }
    const PlumbSlipRow row = row_of(desk, desk->slip_row);
    const int rows = form->rows(desk);
    plumb_text_string(text, " slip=");
    plumb_text_string(text, form->name);
    plumb_text_string(text, " row=\"");
    plumb_text_string(text, desk->slip_row == rows       ? "write"
                            : desk->slip_row == rows + 1 ? "leave"
                                                         : row.label);
    plumb_text_char(text, '"');
    if (!row.typed && desk->slip_row < rows) {
        plumb_text_string(text, " chosen=\"");
        plumb_text_string(text, row.words);
        plumb_text_char(text, '"');
    }
}
