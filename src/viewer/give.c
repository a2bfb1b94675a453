/* SPDX-License-Identifier: MIT */
/* The same orders as the commands handout and share give, from what is on the desk. */
#include "give.h"

#include "export.h"
#include "field.h"

#include <plumbar/report.h>

#include <string.h>

static PlumbOrder order_of(const PlumbDesk *desk)
{
    const PlumbSheet *const now = &desk->now;
    const bool pencilled = plumb_desk_pencil_shown(desk);
    PlumbOrder order =
        plumb_order(&now->record, pencilled ? &now->pencil : NULL, plumb_desk_setup(desk));
    order.before_record = pencilled ? &now->pencil_record : NULL;
    order.before_name = pencilled ? now->pencil_name : "";
    order.after_name = now->setup_name[now->lift];
    order.date = desk->options->date;
    order.units = desk->units;
    order.note = desk->note;
    return order;
}

/* What stands in the way of a handout is said before anything is typed. */
static bool may_hand_out(PlumbDesk *desk)
{
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbError error = {0};
    if (!plumb_desk_pencil_shown(desk)) {
        plumb_desk_say(desk, true,
                       "A handout says what to change: P pencils the present set-up, then change "
                       "one thing or two, and hand out again.");
        return false;
    }
    plumb_desk_settle(desk);
    if (plumb_changes_check(&desk->pencil.solved, &desk->answer.solved, &error) == PLUMB_OK) {
        return true;
    }
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, "No handout: ");
    plumb_text_string(&text, error.message);
    plumb_text_char(&text, '.');
    plumb_desk_say(desk, true, words);
    return false;
}

void plumb_give_ask(PlumbDesk *desk, PlumbFieldUse use)
{
    if (use == PLUMB_FIELD_SHARE) {
        plumb_export_open(desk, use, "", ".html",
                          "A page for a phone, its rulers alive: Enter writes the set-up, with the "
                          "pencilled one beside it; Escape leaves it.");
    } else if (may_hand_out(desk)) {
        plumb_field_open(desk, PLUMB_FIELD_NOTE, PLUMB_SET_style, desk->note);
        plumb_desk_say(desk, false,
                       "Handout: your own note to the athlete, or nothing; Enter goes on to the "
                       "name of the file.");
    }
}

void plumb_give_note(PlumbDesk *desk, const char *note)
{
    PlumbText text = plumb_text_begin(desk->note, sizeof desk->note);
    plumb_text_string(&text, note);
    plumb_export_open(desk, PLUMB_FIELD_HANDOUT, "-handout", ".pdf",
                      "Handout, from the pencilled set-up to the inked one: Enter writes it. The "
                      "ending .pdf, .png or .svg decides the form; Escape leaves it.");
}

static PlumbStatus make(const PlumbDesk *desk, PlumbFieldUse use, const char *path,
                        PlumbBytes *bytes, PlumbError *error)
{
    const PlumbOrder order = order_of(desk);
    const size_t length = strlen(path);
    PlumbPictureKind kind = PLUMB_PICTURE_PDF;
    if (use == PLUMB_FIELD_SHARE) {
        return length > 5 && strcmp(path + length - 5, ".html") == 0
                   ? plumb_share_make(&order, bytes, error)
                   : plumb_error_set(error, PLUMB_BAD_INPUT, "share",
                                     "the name has to end in .html");
    }
    if (!plumb_picture_find(path, &kind)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "handout",
                               "the name has to end in .pdf, .png or .svg");
    }
    return order.before != NULL ? plumb_handout_make(&order, kind, bytes, error)
                                : plumb_error_set(error, PLUMB_BAD_INPUT, "handout",
                                                  "nothing is pencilled any more");
}

bool plumb_give_write(PlumbDesk *desk, PlumbFieldUse use, const char *path)
{
    PlumbBytes bytes = {NULL, 0};
    PlumbError error = {0};
    const PlumbStatus status = make(desk, use, path, &bytes, &error);
    const bool written =
        plumb_export_put(desk, path, status, (const char *)bytes.data, bytes.length, &error);
    plumb_bytes_free(&bytes);
    return written;
}
