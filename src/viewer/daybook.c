/* SPDX-License-Identifier: MIT */
/* The slip of the log: day, what was seen, a note; written into the file at once. */
#include "daybook.h"

#include "book.h"

#include <stdlib.h>
#include <string.h>

typedef enum Row { ROW_DAY, ROW_FINDINGS, ROW_NOTE, ROW_COUNT } Row;

static int rows(const PlumbDesk *desk)
{
    (void)desk;
    return ROW_COUNT;
}

static void describe(const PlumbDesk *desk, int index, PlumbSlipRow *row)
{
    static const char *const label[ROW_COUNT] = {"day", "findings", "note"};
    const PlumbLogEntry *const entry = &desk->daybook->entry;
    PlumbText text = plumb_text_begin(row->words, sizeof row->words);
    *row = (PlumbSlipRow){.label = label[index], .typed = true};
    plumb_text_string(&text, index == ROW_DAY        ? entry->date
                             : index == ROW_FINDINGS ? entry->findings
                                                     : entry->note);
}

static void choose(PlumbDesk *desk, int index, int step)
{
    (void)desk;
    (void)index;
    (void)step;
}

static bool take(PlumbDesk *desk, int index, const char *words)
{
    PlumbLogEntry *const entry = &desk->daybook->entry;
    if (index == ROW_DAY && !plumb_date_is(words)) {
        plumb_desk_say(desk, true, "A day like 2026-01-31 is wanted.");
        return false;
    }
    if (index == ROW_FINDINGS && strlen(words) >= sizeof entry->findings) {
        plumb_desk_say(desk, true, "Findings take up to 255 bytes.");
        return false;
    }
    char *const to = index == ROW_DAY        ? entry->date
                     : index == ROW_FINDINGS ? entry->findings
                                             : entry->note;
    PlumbText text = plumb_text_begin(to, index == ROW_DAY        ? sizeof entry->date
                                          : index == ROW_FINDINGS ? sizeof entry->findings
                                                                  : sizeof entry->note);
    plumb_text_string(&text, words);
    return true;
}

/* "2026-01-31  squat, wide high-bar squat, 120 kg; depth not reached: first session." */
static void entry_words(const PlumbLogEntry *entry, PlumbUnits units, PlumbText *text)
{
    plumb_text_string(text, entry->date);
    plumb_text_string(text, "  ");
    plumb_text_string(text, plumb_lift_text(entry->lift));
    plumb_text_string(text, entry->setup_name[0] != '\0' ? ", " : "");
    plumb_text_string(text, entry->setup_name);
    plumb_text_string(text, ", ");
    plumb_text_said(text, entry->setup.load_kg, PLUMB_Q_MASS, units);
    plumb_text_string(text, entry->findings[0] != '\0' ? "; " : "");
    plumb_finding_names_text(text, entry->findings);
    plumb_text_string(text, entry->note[0] != '\0' ? ": " : "");
    plumb_text_string(text, entry->note);
}

static bool above(const PlumbDesk *desk, int index, PlumbText *text)
{
    const PlumbDaybook *const book = desk->daybook;
    if (index == 0 && book->count == 0) {
        plumb_text_string(text, "No entry yet in ");
        plumb_text_string(text, desk->now.path);
        return true;
    }
    if (index < book->line_count) {
        plumb_text_string(text, book->line[index]);
        return true;
    }
    if (index == book->line_count && book->count > book->line_count) {
        plumb_text_string(text, "and ");
        plumb_text_integer(text, book->count - book->line_count);
        plumb_text_string(text, " before; plumbar log lists all with their figures");
        return true;
    }
    return false;
}

/* The entry after the file as it is now; nothing else of the window is saved with it. */
static bool finish(PlumbDesk *desk)
{
    PlumbLifterFile *file = NULL;
    PlumbError error = {0};
    uint64_t hash = 0;
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbLogEntry *const entry = &desk->daybook->entry;
    const bool changed = plumb_book_changed(desk, desk->now.path, false, &hash);
    PlumbStatus status = plumb_lifter_file_read(desk->now.path, &file, &error);
    if (status == PLUMB_OK && plumb_lifter_file_setup(file, entry->setup_name, NULL) == NULL) {
        entry->setup_name[0] = '\0'; /* the file does not know it, or not yet */
    }
    if (status == PLUMB_OK) {
        status = plumb_lifter_file_add_log(file, entry, &error);
    }
    if (status == PLUMB_OK) {
        status = plumb_lifter_file_save(file, NULL, &error);
    }
    plumb_lifter_file_free(file);
    if (status == PLUMB_OK && !changed) {
        plumb_book_stamp(desk, desk->now.path);
    }
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, status == PLUMB_OK ? "Logged in " : "Not logged: ");
    plumb_text_string(&text, status == PLUMB_OK ? desk->now.path : error.message);
    plumb_text_string(&text, ": ");
    if (status == PLUMB_OK) {
        entry_words(entry, desk->units, &text);
        plumb_text_string(&text, ". Ctrl+H hands out what has changed since a day.");
    }
    plumb_desk_say(desk, status != PLUMB_OK, words);
    return status == PLUMB_OK;
}

const PlumbSlipForm plumb_daybook_form = {.name = "log",
                                          .title = "Log",
                                          .write = "add",
                                          .rows = rows,
                                          .row = describe,
                                          .choose = choose,
                                          .take = take,
                                          .finish = finish,
                                          .above = above};

/* The last entries of the file, newest first: by day, then by their order. */
static bool read_entries(PlumbDesk *desk)
{
    PlumbDaybook *const book = desk->daybook;
    PlumbLifterFile *file = NULL;
    PlumbError error = {0};
    if (plumb_lifter_file_read(desk->now.path, &file, &error) != PLUMB_OK) {
        plumb_desk_say(desk, true, error.message);
        return false;
    }
    book->count = (int)file->log_count;
    const PlumbLogEntry *last = NULL;
    for (book->line_count = 0; book->line_count < PLUMB_DAYBOOK_LINES; book->line_count++) {
        const PlumbLogEntry *next = NULL;
        for (size_t i = 0; i < file->log_count; i++) {
            const PlumbLogEntry *const one = &file->log[i];
            const int before = last == NULL ? -1 : strcmp(one->date, last->date);
            const bool left = before < 0 || (before == 0 && one < last);
            if (left && (next == NULL || strcmp(one->date, next->date) >= 0)) {
                next = one;
            }
        }
        if (next == NULL) {
            break;
        }
        PlumbText text = plumb_text_begin(book->line[book->line_count], PLUMB_SLIP_WORDS);
        entry_words(next, desk->units, &text);
        last = next;
    }
    plumb_lifter_file_free(file);
    return true;
}

void plumb_daybook_ask(PlumbDesk *desk)
{
    const PlumbSheet *const now = &desk->now;
    if (now->path[0] == '\0') {
        plumb_desk_say(desk, true, "The log stands in the lifter's file: Ctrl+S saves one first.");
        return;
    }
    if (desk->daybook == NULL) {
        desk->daybook = calloc(1, sizeof *desk->daybook);
    }
    PlumbDaybook *const book = desk->daybook;
    if (book == NULL || !read_entries(desk)) {
        return;
    }
    plumb_desk_settle(desk);
    book->entry = (PlumbLogEntry){.lift = now->lift, .setup = *plumb_desk_setup(desk)};
    PlumbText date = plumb_text_begin(book->entry.date, sizeof book->entry.date);
    plumb_text_string(&date, desk->options->date);
    memcpy(book->entry.setup_name, now->setup_name[now->lift], sizeof book->entry.setup_name);
    PlumbText names = plumb_text_begin(book->entry.findings, sizeof book->entry.findings);
    plumb_solved_finding_names(&names, &desk->answer.solved);
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, "Adds what is on the drawing: ");
    plumb_text_string(&text, plumb_lift_text(now->lift));
    plumb_text_string(&text, ", ");
    plumb_text_said(&text, book->entry.setup.load_kg, PLUMB_Q_MASS, desk->units);
    plumb_text_string(&text, ". Findings: what the set-up has, or what you have seen.");
    plumb_desk_say(desk, false, words);
    plumb_slip_open(desk, PLUMB_SLIP_LOG, ROW_NOTE);
}
