/* SPDX-License-Identifier: MIT */
/* Editing one line of UTF-8. */
#include "field.h"

#include "book.h"
#include "compose.h"
#include "form.h"
#include "page_trace.h"
#include "export.h"
#include "give.h"
#include "ruler.h"

#include <SDL.h>

#include <math.h>
#include <string.h>

void plumb_field_open(PlumbDesk *desk, PlumbFieldUse use, PlumbSettingId id, const char *text)
{
    PlumbField *const field = &desk->field;
    PlumbText line = plumb_text_begin(field->text, sizeof field->text);
    plumb_text_string(&line, text);
    field->use = use;
    field->id = id;
    field->length = line.length;
    field->caret = line.length;
    field->all = true;
    field->wrong = false;
    field->asked = false;
    field->recent = -1;
    desk->dirty = true;
}

void plumb_field_open_ruler(PlumbDesk *desk, PlumbSettingId id)
{
    char words[PLUMB_FIELD_TEXT_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    const double value = plumb_ruler_value(desk, id);
    if (plumb_ruler_choices(desk, id) > 0 || !isfinite(value)) {
        return;
    }
    plumb_text_quantity(&text, value, plumb_ruler_row(id)->quantity, desk->units);
    plumb_desk_focus(desk, PLUMB_WIDGET_RULER, (int)id);
    plumb_field_open(desk, PLUMB_FIELD_RULER, id, words);
}

static void erase(PlumbField *field, size_t from, size_t to)
{
    memmove(field->text + from, field->text + to, field->length - to + 1);
    field->length -= to - from;
    field->caret = from;
}

static size_t before(const PlumbField *field, size_t at)
{
    while (at > 0 && ((unsigned char)field->text[--at] & 0xC0U) == 0x80U) {
    }
    return at;
}

static size_t after(const PlumbField *field, size_t at)
{
    if (at < field->length) {
        at++;
    }
    while (at < field->length && ((unsigned char)field->text[at] & 0xC0U) == 0x80U) {
        at++;
    }
    return at;
}

void plumb_field_type(PlumbDesk *desk, const char *utf8)
{
    PlumbField *const field = &desk->field;
    const size_t length = strlen(utf8);
    if (field->use == PLUMB_FIELD_SHUT) {
        return;
    }
    if (field->all) {
        erase(field, 0, field->length);
        field->all = false;
    }
    if (field->length + length < sizeof field->text) {
        memmove(field->text + field->caret + length, field->text + field->caret,
                field->length - field->caret + 1);
        memcpy(field->text + field->caret, utf8, length);
        field->caret += length;
        field->length += length;
    }
    field->wrong = false;
    field->asked = false;
    desk->dirty = true;
}

static bool edit(PlumbField *field, int key)
{
    switch (key) {
    case SDLK_BACKSPACE:
    case SDLK_DELETE:
        if (field->all) {
            erase(field, 0, field->length);
        } else if (key == SDLK_BACKSPACE) {
            erase(field, before(field, field->caret), field->caret);
        } else {
            erase(field, field->caret, after(field, field->caret));
        }
        field->wrong = false;
        field->asked = false;
        return true;
    case SDLK_LEFT:
        field->caret = field->all ? 0 : before(field, field->caret);
        return true;
    case SDLK_RIGHT:
        field->caret = field->all ? field->length : after(field, field->caret);
        return true;
    case SDLK_HOME:
    case SDLK_UP:
        field->caret = 0;
        return true;
    case SDLK_END:
    case SDLK_DOWN:
        field->caret = field->length;
        return true;
    default:
        return false;
    }
}

bool plumb_field_key(PlumbDesk *desk, int key, unsigned mods)
{
    PlumbField *const field = &desk->field;
    desk->dirty = true;
    if (key == SDLK_RETURN || key == SDLK_KP_ENTER) {
        plumb_field_take(desk);
        return true;
    }
    if (key == SDLK_ESCAPE) {
        plumb_field_leave(desk);
        return true;
    }
    if (key == SDLK_a && mods == PLUMB_MOD_CTRL) {
        field->all = true;
        return true;
    }
    if (field->use == PLUMB_FIELD_OPEN && (key == SDLK_UP || key == SDLK_DOWN)) {
        plumb_book_recent(desk, key == SDLK_DOWN ? 1 : -1);
        return true;
    }
    if (field->use == PLUMB_FIELD_LIFTER && key == SDLK_UP) {
        plumb_form_back(desk);
        return true;
    }
    if (mods == PLUMB_MOD_NONE && edit(field, key)) {
        field->all = false;
        return true;
    }
    /* Letters come as text; commands with Ctrl and the function keys go on. */
    return mods != PLUMB_MOD_CTRL && (unsigned)key < 0x110000U && key >= ' ';
}

void plumb_field_leave(PlumbDesk *desk)
{
    /* What was asked is no longer asked. */
    const bool asked = desk->field.use != PLUMB_FIELD_RULER && desk->field.use != PLUMB_FIELD_SHUT;
    desk->field.use = PLUMB_FIELD_SHUT;
    if (asked || desk->message_wrong || desk->field.wrong) {
        plumb_desk_say(desk, false, "");
    }
    desk->dirty = true;
}

/* Names of files and set-ups. A text that is refused stays; Enter once more answers a question. */
static bool take_name(PlumbDesk *desk)
{
    PlumbField *const field = &desk->field;
    const bool sure = field->asked;
    bool done = false;
    if (field->use == PLUMB_FIELD_LIFTER) {
        done = plumb_form_take(desk);
        field->wrong = !done;
        return done;
    }
    if (field->use == PLUMB_FIELD_SHARE) {
        done = plumb_give_share(desk, field->text);
    } else if (field->use == PLUMB_FIELD_EXPORT) {
        done = plumb_export_write(desk, field->text);
    } else if (field->use == PLUMB_FIELD_OPEN) {
        done = plumb_book_open(desk, field->text);
    } else if (field->use == PLUMB_FIELD_SAVE) {
        done = plumb_book_save_as(desk, field->text, sure);
        field->asked = !done;
    } else if (field->use == PLUMB_FIELD_PICTURE || field->use == PLUMB_FIELD_LENGTH ||
               field->use == PLUMB_FIELD_DISTANCE || field->use == PLUMB_FIELD_RATE) {
        done = plumb_trace_take_field(desk, field->use, field->text);
    } else {
        done = plumb_book_name(desk, field->text);
    }
    field->wrong = !done;
    field->use = done ? PLUMB_FIELD_SHUT : field->use;
    return done;
}

bool plumb_field_take(PlumbDesk *desk)
{
    PlumbField *const field = &desk->field;
    if (field->use != PLUMB_FIELD_RULER) {
        return take_name(desk);
    }
    PlumbError error = {0};
    if (!plumb_ruler_type(desk, field->id, field->text, &error)) {
        char words[PLUMB_DESK_MESSAGE_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_ruler_name(field->id, &text);
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, error.message);
        plumb_desk_say(desk, true, words);
        field->wrong = true;
        return false;
    }
    field->use = PLUMB_FIELD_SHUT;
    plumb_desk_say(desk, false, "");
    return true;
}

void plumb_field_draw(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect box, double size_mm,
                      double base_mm)
{
    const PlumbField *const field = &desk->field;
    const PlumbPen frame = {field->wrong ? PLUMB_ROLE_bar : PLUMB_ROLE_select, PLUMB_MEDIUM_MM,
                            field->wrong ? PLUMB_DASHED : PLUMB_SOLID, PLUMB_ROLE_paper};
    const PlumbPen caret = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbPen chosen = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_limb};
    const PlumbTag none = {PLUMB_TAG_NONE, 0};
    plumb_scene_rect(board->scene, frame, none, box);
    const char *shown = field->text;
    const char *const end = field->text + field->caret;
    const double room = box.width_mm - 2.4;
    while (shown < end && plumb_font_width(desk->font, shown, strlen(shown), size_mm) > room) {
        shown += after(field, (size_t)(shown - field->text)) - (size_t)(shown - field->text);
    }
    size_t length = strlen(shown);
    while (length > 0 && plumb_font_width(desk->font, shown, length, size_mm) > room) {
        length =
            before(field, (size_t)(shown - field->text) + length) - (size_t)(shown - field->text);
    }
    char words[PLUMB_FIELD_TEXT_SIZE];
    memcpy(words, shown, length);
    words[length] = '\0';
    const double x = box.x_mm + 1.2;
    const double width = plumb_board_width(board, words, size_mm);
    if (field->all) {
        plumb_scene_rect(board->scene, chosen, none,
                         (PlumbRect){x - 0.3, box.y_mm + 0.5, width + 0.6, box.height_mm - 1.0});
    }
    plumb_board_text(board, PLUMB_ROLE_ink, none, (PlumbVec2){x, base_mm}, size_mm, PLUMB_START,
                     words);
    const double at = x + plumb_font_width(desk->font, shown, (size_t)(end - shown), size_mm);
    plumb_scene_line(board->scene, caret, none, (PlumbVec2){at, box.y_mm + 0.7},
                     (PlumbVec2){at, box.y_mm + box.height_mm - 0.7});
}
