/* SPDX-License-Identifier: MIT */
/* The slip of a handout: what it sets side by side, for whom, with which picture, drills, note. */
#include "give.h"

#include "export.h"
#include "page_trace.h"

#include <stdlib.h>
#include <string.h>

typedef enum Row {
    ROW_SAYS,
    ROW_PAGE,
    ROW_PICTURE,
    ROW_PAPER,
    ROW_DRILLS,
    ROW_NOTE,
    ROW_FILE,
    ROW_COUNT
} Row;

static const char *const LABEL[ROW_COUNT] = {
    [ROW_SAYS] = "says",   [ROW_PAGE] = "page",     [ROW_PICTURE] = "picture",
    [ROW_PAPER] = "paper", [ROW_DRILLS] = "drills", [ROW_NOTE] = "your note",
    [ROW_FILE] = "file",
};

/* Without a picture there is no row for it. */
static Row row_at(const PlumbDesk *desk, int index)
{
    return (Row)(index + (index >= ROW_PICTURE && !desk->giving->can_picture ? 1 : 0));
}

static int rows(const PlumbDesk *desk)
{
    return ROW_COUNT - (desk->giving->can_picture ? 0 : 1);
}

static int says_first(const PlumbDesk *desk)
{
    return plumb_desk_pencil_shown(desk) ? PLUMB_GIVE_PENCIL : PLUMB_GIVE_TRY;
}

static void says_words(const PlumbDesk *desk, PlumbSlipRow *row, PlumbText *text)
{
    const PlumbGiving *const giving = desk->giving;
    const int first = says_first(desk);
    row->count = PLUMB_GIVE_SINCE - first + giving->day_count;
    row->chosen = (int)giving->says - first + (giving->says == PLUMB_GIVE_SINCE ? giving->day : 0);
    if (giving->says == PLUMB_GIVE_PENCIL) {
        plumb_text_string(text, "what to change, from pencil to ink");
    } else if (giving->says == PLUMB_GIVE_TRY) {
        plumb_text_string(text, "what to try first, from the ink");
    } else {
        plumb_text_string(text, "what has changed since ");
        plumb_text_string(text, giving->date[giving->day]);
    }
}

static void describe(const PlumbDesk *desk, int index, PlumbSlipRow *row)
{
    const PlumbGiving *const giving = desk->giving;
    const Row which = row_at(desk, index);
    PlumbText text = plumb_text_begin(row->words, sizeof row->words);
    *row = (PlumbSlipRow){.label = LABEL[which], .typed = which >= ROW_DRILLS, .count = 2};
    switch (which) {
    case ROW_SAYS:
        says_words(desk, row, &text);
        break;
    case ROW_PAGE:
        row->chosen = giving->student;
        plumb_text_string(&text, giving->student ? "the student's, with the free body and equation"
                                                 : "the athlete's, with drills and filming");
        break;
    case ROW_PICTURE:
        row->chosen = giving->pictured;
        plumb_text_string(&text, giving->pictured ? "the one on the Trace page, with what it shows"
                                                  : "none: the view from the front");
        break;
    case ROW_PAPER:
        row->chosen = giving->letter;
        plumb_text_string(&text, giving->letter ? "letter" : "A4");
        break;
    case ROW_DRILLS:
        row->hint = "those of the program; or a table of your own, CSV";
        plumb_text_string(&text, giving->drills);
        break;
    case ROW_NOTE:
        row->hint = "none";
        plumb_text_string(&text, giving->note);
        break;
    case ROW_FILE:
    case ROW_COUNT:
        plumb_text_string(&text, giving->file);
        break;
    }
}

static void choose_says(PlumbDesk *desk, int step)
{
    PlumbGiving *const giving = desk->giving;
    PlumbSlipRow row;
    describe(desk, ROW_SAYS, &row);
    const int chosen = (row.chosen + step + row.count) % row.count + says_first(desk);
    giving->says = chosen < PLUMB_GIVE_SINCE ? (PlumbGiveSays)chosen : PLUMB_GIVE_SINCE;
    giving->day = chosen < PLUMB_GIVE_SINCE ? 0 : chosen - PLUMB_GIVE_SINCE;
    plumb_give_check(desk);
}

static void choose(PlumbDesk *desk, int index, int step)
{
    PlumbGiving *const giving = desk->giving;
    switch (row_at(desk, index)) {
    case ROW_SAYS:
        choose_says(desk, step);
        break;
    case ROW_PAGE:
        giving->student = !giving->student;
        break;
    case ROW_PICTURE:
        giving->pictured = !giving->pictured;
        break;
    case ROW_PAPER:
        giving->letter = !giving->letter;
        break;
    case ROW_DRILLS:
    case ROW_NOTE:
    case ROW_FILE:
    case ROW_COUNT:
        break;
    }
}

static bool take(PlumbDesk *desk, int index, const char *words)
{
    PlumbGiving *const giving = desk->giving;
    const Row which = row_at(desk, index);
    char *const to = which == ROW_DRILLS ? giving->drills
                     : which == ROW_NOTE ? giving->note
                                         : giving->file;
    if (which == ROW_DRILLS && words[0] != '\0') {
        PlumbDrills *const drills = malloc(sizeof *drills);
        const bool good = drills != NULL && plumb_give_drills(desk, words, drills);
        free(drills);
        if (!good) {
            return false;
        }
    }
    PlumbText text = plumb_text_begin(to, PLUMB_FIELD_TEXT_SIZE);
    plumb_text_string(&text, words);
    return true;
}

static bool finish(PlumbDesk *desk)
{
    return plumb_give_check(desk) && plumb_give_handout(desk);
}

static bool above(const PlumbDesk *desk, int index, PlumbText *text)
{
    const char *const name = desk->now.record.name;
    if (index > 0) {
        return false;
    }
    plumb_text_string(text, name);
    plumb_text_string(text, name[0] != '\0' ? ", " : "");
    plumb_text_string(text, plumb_lift_text(desk->now.lift));
    plumb_text_string(text, ", ");
    plumb_text_said(text, plumb_desk_setup(desk)->load_kg, PLUMB_Q_MASS, desk->units);
    plumb_text_string(text, ": one page to take home");
    return true;
}

const PlumbSlipForm plumb_give_form = {.name = "handout",
                                       .title = "Handout",
                                       .write = "write",
                                       .rows = rows,
                                       .row = describe,
                                       .choose = choose,
                                       .take = take,
                                       .finish = finish,
                                       .above = above};

/* The days of the log that have this lift, newest first; of a day its last entry. */
static void read_days(PlumbDesk *desk)
{
    PlumbGiving *const giving = desk->giving;
    PlumbLifterFile *file = NULL;
    giving->day_count = 0;
    if (desk->now.path[0] == '\0' ||
        plumb_lifter_file_read(desk->now.path, &file, NULL) != PLUMB_OK) {
        return;
    }
    for (size_t i = file->log_count; i-- > 0 && giving->day_count < PLUMB_GIVE_DAYS;) {
        const PlumbLogEntry *const entry = &file->log[i];
        int at = 0;
        while (at < giving->day_count && strcmp(giving->date[at], entry->date) > 0) {
            at++;
        }
        if (entry->lift != desk->now.lift ||
            (at < giving->day_count && strcmp(giving->date[at], entry->date) == 0)) {
            continue;
        }
        const size_t after = (size_t)(giving->day_count - at);
        memmove(giving->date[at + 1], giving->date[at], after * sizeof giving->date[0]);
        memmove(&giving->then[at + 1], &giving->then[at], after * sizeof giving->then[0]);
        memcpy(giving->date[at], entry->date, sizeof giving->date[at]);
        giving->then[at] = entry->setup;
        giving->day_count++;
    }
    plumb_lifter_file_free(file);
}

static bool begin(PlumbDesk *desk)
{
    if (desk->giving == NULL) {
        desk->giving = calloc(1, sizeof *desk->giving);
    }
    PlumbGiving *const giving = desk->giving;
    if (giving == NULL) {
        return false;
    }
    plumb_desk_settle(desk);
    read_days(desk);
    plumb_trace_work(desk, 1.0); /* what was marked last is in it */
    giving->can_picture = plumb_trace_read(desk) != NULL;
    giving->pictured = giving->can_picture && desk->page == PLUMB_PAGE_TRACE;
    giving->sought = false;
    giving->says = (PlumbGiveSays)says_first(desk);
    plumb_export_name(desk, "-handout", ".pdf", giving->file);
    return true;
}

void plumb_give_ask(PlumbDesk *desk, PlumbFieldUse use)
{
    if (use == PLUMB_FIELD_SHARE) {
        plumb_export_open(desk, use, "", ".html",
                          "A page for a phone, its rulers alive: Enter writes the set-up, with the "
                          "pencilled one beside it; Escape leaves it.");
        return;
    }
    if (!begin(desk)) {
        plumb_desk_say(desk, true, "No handout: out of memory.");
        return;
    }
    const bool good = plumb_give_check(desk);
    if (!good && !plumb_desk_pencil_shown(desk) && desk->giving->day_count == 0) {
        plumb_desk_say(desk, true,
                       "A handout says what to change: P pencils the present set-up, then change "
                       "one thing or two, and hand out again. Nothing is worth trying by itself.");
        return;
    }
    const bool pencil = desk->giving->says == PLUMB_GIVE_PENCIL;
    plumb_slip_open(desk, PLUMB_SLIP_HANDOUT, good && pencil ? rows(desk) - 2 : ROW_SAYS);
}
