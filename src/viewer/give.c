/* SPDX-License-Identifier: MIT */
/* The same orders as the commands handout and share give, from what is on the desk. */
#include "give.h"

#include "export.h"
#include "page_trace.h"

#include <plumbar/file.h>
#include <plumbar/marks_file.h>
#include <plumbar/still_picture.h>

#include <stdlib.h>
#include <string.h>

enum { DRILLS_BYTES_MAX = 1 << 20 };

/* All that one handout borrows, on the heap. */
typedef struct Parcel {
    PlumbOrder order;
    PlumbDrills drills;
    PlumbStills stills;
    PlumbStillPicture picture;
    PlumbUnderlay under;
} Parcel;

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
    return order;
}

/* Looks for what to try first, for the aim that stands in the notes, once while the slip is shown.
 */
static void seek(PlumbDesk *desk)
{
    PlumbGiving *const giving = desk->giving;
    PlumbError error = {0};
    if (giving->sought) {
        return;
    }
    const PlumbGoal goal =
        desk->try_first.on ? desk->try_first.advice.goal : plumb_goal_first(&desk->answer.solved);
    giving->sought = true;
    giving->found = plumb_proposal_find(&desk->now.record, plumb_desk_setup(desk), &goal,
                                        desk->units, &giving->proposal, &error) == PLUMB_OK;
    PlumbText text = plumb_text_begin(giving->why_not, sizeof giving->why_not);
    plumb_text_string(&text,
                      giving->found ? ""
                      : error.status == PLUMB_BAD_INPUT && strcmp(error.field, "--proposed") == 0
                          ? "no single change gains what a person notices: leave it"
                          : error.message);
}

static bool check_try(PlumbDesk *desk)
{
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    seek(desk);
    plumb_text_string(&text, desk->giving->found ? "Proposes what to try first. " : "No handout: ");
    if (desk->giving->found) {
        plumb_option_text(&text, &desk->giving->proposal.option, desk->units);
        plumb_text_string(&text, ". ");
        plumb_proposal_gain_text(&text, &desk->giving->proposal, desk->units);
    } else {
        plumb_text_string(&text, desk->giving->why_not);
        plumb_text_char(&text, '.');
    }
    plumb_desk_say(desk, !desk->giving->found, words);
    return desk->giving->found;
}

static bool check_pencil(PlumbDesk *desk)
{
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbError error = {0};
    if (plumb_changes_check(&desk->pencil.solved, &desk->answer.solved, &error) == PLUMB_OK) {
        plumb_desk_say(desk, false,
                       "Handout: from the pencilled set-up to the inked one. Your own note to the "
                       "athlete, or nothing; the name of the file decides between PDF, PNG and "
                       "SVG.");
        return true;
    }
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, "No handout: ");
    plumb_text_string(&text, error.message);
    plumb_text_char(&text, '.');
    plumb_desk_say(desk, true, words);
    return false;
}

bool plumb_give_check(PlumbDesk *desk)
{
    switch (desk->giving->says) {
    case PLUMB_GIVE_PENCIL:
        return check_pencil(desk);
    case PLUMB_GIVE_TRY:
        return check_try(desk);
    case PLUMB_GIVE_SINCE:
        break;
    }
    plumb_desk_say(desk, false,
                   "Looks back: the set-up of that day in the log in pencil, the one on the "
                   "drawing in ink, and what has changed.");
    return true;
}

bool plumb_give_drills(PlumbDesk *desk, const char *path, PlumbDrills *drills)
{
    PlumbError error = {0};
    char *bytes = NULL;
    size_t length = 0;
    if (path[0] == '\0') {
        return true;
    }
    PlumbStatus status = plumb_file_read_whole(path, DRILLS_BYTES_MAX, &bytes, &length, &error);
    if (status == PLUMB_OK) {
        status = plumb_drills_read(bytes, length, drills, &error);
        free(bytes);
    }
    if (status != PLUMB_OK) {
        char words[PLUMB_DESK_MESSAGE_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, "No table of drills: ");
        plumb_text_string(&text, path);
        if (error.line > 0) {
            plumb_text_string(&text, ", line ");
            plumb_text_integer(&text, error.line);
        }
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, error.message);
        plumb_text_string(&text, ". Empty: the drills of the program.");
        plumb_desk_say(desk, true, words);
    }
    return status == PLUMB_OK;
}

/* The picture below the fit: a frame of a film as it is unpacked, else the file. */
static PlumbStatus put_picture(const PlumbDesk *desk, const int *fitted, Parcel *parcel,
                               PlumbError *error)
{
    const PlumbMarked *const marked = &desk->now.marked;
    const PlumbPhoto *const frame = &desk->tracing->pyramid.photo;
    char path[PLUMB_PATH_SIZE] = "";
    if (marked->film && desk->tracing->pyramid.level_count > 0) {
        parcel->under = (PlumbUnderlay){.width_px = frame->width_px,
                                        .height_px = frame->height_px,
                                        .pixel = frame->pixel,
                                        .strength = PLUMB_STILL_STRENGTH};
        return PLUMB_OK;
    }
    const int shown = plumb_handout_still(&parcel->stills);
    for (int i = 0; i < PLUMB_STILLS_MAX; i++) {
        if (fitted[i] == shown) {
            plumb_marks_picture_path(marked->path, marked->marks.picture[i], path, sizeof path);
        }
    }
    return plumb_still_picture(path, &parcel->picture, &parcel->under, error);
}

/* What the picture shows of the present lift, fitted anew to that set-up. */
static PlumbStatus put_stills(PlumbDesk *desk, Parcel *parcel, PlumbError *error)
{
    PlumbOrder *const order = &parcel->order;
    const PlumbLifterRecord *const record =
        order->before_record != NULL ? order->before_record : order->record;
    PlumbLifter lifter;
    int fitted[PLUMB_STILLS_MAX];
    PlumbStatus status = plumb_lifter_record_lifter(record, &lifter, error);
    if (status == PLUMB_OK) {
        status = plumb_trace_fit_to(desk, &lifter, &record->spec, order->before, fitted,
                                    &parcel->stills, error);
    }
    if (status == PLUMB_OK) {
        status = put_picture(desk, fitted, parcel, error);
    }
    order->stills = &parcel->stills;
    order->picture = parcel->under.pixel != NULL ? &parcel->under : NULL;
    return status;
}

static PlumbStatus fill_order(PlumbDesk *desk, Parcel *parcel, PlumbError *error)
{
    const PlumbGiving *const giving = desk->giving;
    PlumbOrder *const order = &parcel->order;
    const char *const name = desk->now.setup_name[desk->now.lift];
    *order = order_of(desk);
    order->note = giving->note;
    order->student = giving->student;
    order->format = giving->letter ? PLUMB_LETTER_PORTRAIT : PLUMB_A4_PORTRAIT;
    order->drills = giving->drills[0] != '\0' ? &parcel->drills : NULL;
    if (giving->says != PLUMB_GIVE_PENCIL) {
        order->before_record = NULL;
        order->before_name = name;
    }
    if (giving->says == PLUMB_GIVE_TRY) {
        order->before = plumb_desk_setup(desk);
        order->after = &giving->proposal.option.setup;
        order->after_name = "";
        order->proposal = &giving->proposal;
    } else if (giving->says == PLUMB_GIVE_SINCE) {
        order->before = &giving->then[giving->day];
        order->since = giving->date[giving->day];
    } else if (order->before == NULL) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "handout", "nothing is pencilled any more");
    }
    return giving->pictured && giving->can_picture ? put_stills(desk, parcel, error) : PLUMB_OK;
}

bool plumb_give_handout(PlumbDesk *desk)
{
    const char *const path = desk->giving->file;
    PlumbPictureKind kind = PLUMB_PICTURE_PDF;
    PlumbBytes bytes = {NULL, 0};
    PlumbError error = {0};
    Parcel *const parcel = calloc(1, sizeof *parcel);
    if (parcel != NULL && !plumb_give_drills(desk, desk->giving->drills, &parcel->drills)) {
        free(parcel);
        return false;
    }
    PlumbStatus status = parcel == NULL ? plumb_error_set(&error, PLUMB_OUT_OF_MEMORY, "handout",
                                                          "no memory for the handout")
                         : plumb_picture_find(path, &kind)
                             ? fill_order(desk, parcel, &error)
                             : plumb_error_set(&error, PLUMB_BAD_INPUT, "handout",
                                               "the name has to end in .pdf, .png or .svg");
    if (status == PLUMB_OK) {
        status = plumb_handout_make(&parcel->order, kind, &bytes, &error);
    }
    const bool written =
        plumb_export_put(desk, path, status, (const char *)bytes.data, bytes.length, &error);
    plumb_bytes_free(&bytes);
    if (parcel != NULL) {
        plumb_still_picture_free(&parcel->picture);
    }
    free(parcel);
    return written;
}

bool plumb_give_share(PlumbDesk *desk, const char *path)
{
    PlumbBytes bytes = {NULL, 0};
    PlumbError error = {0};
    const PlumbOrder order = order_of(desk);
    const size_t length = strlen(path);
    const PlumbStatus status =
        length > 5 && strcmp(path + length - 5, ".html") == 0
            ? plumb_share_make(&order, &bytes, &error)
            : plumb_error_set(&error, PLUMB_BAD_INPUT, "share", "the name has to end in .html");
    const bool written =
        plumb_export_put(desk, path, status, (const char *)bytes.data, bytes.length, &error);
    plumb_bytes_free(&bytes);
    return written;
}
