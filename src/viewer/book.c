/* SPDX-License-Identifier: MIT */
/* Opening, saving and watching the lifter file. */
#include "book.h"

#include "book_edit.h"
#include "field.h"
#include "journal.h"
#include "page_trace.h"
#include "path.h"

#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const double watch_s = 1.0;

static uint64_t hash_of(const char *bytes, size_t length)
{
    uint64_t hash = 0xCBF29CE484222325U;
    for (size_t i = 0; i < length; i++) {
        hash = (hash ^ (unsigned char)bytes[i]) * 0x100000001B3U;
    }
    return hash;
}

static void copy_path(char path[PLUMB_PATH_SIZE], const char *from)
{
    PlumbText text = plumb_text_begin(path, PLUMB_PATH_SIZE);
    plumb_text_string(&text, from);
}

static bool look(const char *path, PlumbStamp *stamp)
{
    struct stat info;
    if (stat(path, &info) != 0) {
        return false;
    }
    stamp->changed_ns = (int64_t)info.st_mtim.tv_sec * 1000000000 + info.st_mtim.tv_nsec;
    stamp->size = (int64_t)info.st_size;
    return true;
}

static bool hash_file(const char *path, uint64_t *hash)
{
    char *bytes = NULL;
    size_t length = 0;
    if (plumb_file_read_whole(path, PLUMB_LIFTER_FILE_MAX_BYTES, &bytes, &length, NULL) !=
        PLUMB_OK) {
        return false;
    }
    *hash = hash_of(bytes, length);
    free(bytes);
    return true;
}

static PlumbStamp *stamp_of(PlumbDesk *desk, const char *path)
{
    for (int i = 0; i < desk->stamp_count; i++) {
        if (strcmp(desk->stamp[i].path, path) == 0) {
            return &desk->stamp[i];
        }
    }
    return NULL;
}

void plumb_book_stamp(PlumbDesk *desk, const char *path)
{
    PlumbStamp *stamp = stamp_of(desk, path);
    if (path[0] == '\0') {
        return;
    }
    if (stamp == NULL && desk->stamp_count == PLUMB_STAMPS_MAX) {
        memmove(desk->stamp, desk->stamp + 1, (PLUMB_STAMPS_MAX - 1) * sizeof *desk->stamp);
        desk->stamp_count--;
    }
    stamp = stamp != NULL ? stamp : &desk->stamp[desk->stamp_count++];
    memset(stamp, 0, sizeof *stamp);
    copy_path(stamp->path, path);
    look(path, stamp);
    hash_file(path, &stamp->hash);
    desk->asked_hash = 0;
}

/* "lifter.yaml:3:5: measures.thigh: ..." */
static void say_error(PlumbDesk *desk, const char *first, const char *path, const PlumbError *error)
{
    char words[PLUMB_MESSAGE_SIZE + PLUMB_FIELD_SIZE];
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (error->line > 0) {
        plumb_text_char(&text, ':');
        plumb_text_integer(&text, error->line);
    }
    plumb_text_string(&text, ": ");
    if (error->field[0] != '\0') {
        plumb_text_string(&text, error->field);
        plumb_text_string(&text, ": ");
    }
    plumb_text_string(&text, error->message);
    plumb_path_say(desk, true, first, path, words);
}

bool plumb_book_open(PlumbDesk *desk, const char *path)
{
    if (plumb_trace_is_file(path)) {
        return plumb_trace_open(desk, path);
    }
    PlumbLifterFile *file = NULL;
    PlumbError error = {0};
    PlumbSheet *const sheet = malloc(sizeof *sheet);
    bool opened = false;
    if (strlen(path) >= PLUMB_PATH_SIZE) {
        plumb_error_set(&error, PLUMB_BAD_INPUT, "", "the path is too long");
    } else if (sheet == NULL) {
        plumb_error_set(&error, PLUMB_OUT_OF_MEMORY, "", "out of memory");
    } else if (plumb_lifter_file_read(path, &file, &error) == PLUMB_OK) {
        *sheet = desk->now;
        opened = plumb_sheet_read(sheet, file, &error) == PLUMB_OK;
    }
    if (opened) {
        plumb_desk_keep(desk, 0);
        copy_path(sheet->path, path);
        sheet->unsaved = false;
        desk->now = *sheet;
        plumb_book_stamp(desk, path);
        plumb_recent_add(desk, path);
        plumb_desk_touch(desk);
        desk->first_ruler = 0;
        plumb_path_say(desk, false, "Opened ", path, ". Ctrl+S saves into it; Ctrl+Z goes back.");
    } else {
        say_error(desk, "Not opened: ", path, &error);
    }
    plumb_lifter_file_free(file);
    free(sheet);
    return opened;
}

/* All that undo brings back differs from the file from now on. */
static void mark_saved(PlumbDesk *desk, const char *path)
{
    PlumbHistory *const history = &desk->history;
    for (int i = 0; i < history->past_count; i++) {
        history->past[i].unsaved = true;
    }
    for (int i = 0; i < history->future_count; i++) {
        history->future[i].unsaved = true;
    }
    copy_path(desk->now.path, path);
    desk->now.unsaved = false;
    plumb_book_stamp(desk, path);
    plumb_recent_add(desk, path);
    plumb_journal_touch(desk);
    desk->dirty = true;
}

/* A file that is there is changed where it has to be; else a new one is made of the record. */
static PlumbStatus load_for(const PlumbSheet *sheet, PlumbLifterFile **file, PlumbError *error)
{
    if (sheet->path[0] != '\0' && access(sheet->path, F_OK) == 0) {
        return plumb_lifter_file_read(sheet->path, file, error);
    }
    char *text = NULL;
    size_t length = 0;
    PlumbStatus status = plumb_lifter_file_new_text(&sheet->record, &text, &length, error);
    if (status == PLUMB_OK) {
        status = plumb_lifter_file_parse(text, length, NULL, file, error);
    }
    free(text);
    return status;
}

static bool write_to(PlumbDesk *desk, const char *to)
{
    char path[PLUMB_PATH_SIZE]; /* `to` may be the sheet's own, which is written over */
    copy_path(path, to);
    PlumbLifterFile *file = NULL;
    PlumbError error = {0};
    PlumbSheet *const sheet = malloc(sizeof *sheet);
    PlumbStatus status = PLUMB_OUT_OF_MEMORY;
    if (sheet == NULL) {
        plumb_error_set(&error, status, "", "out of memory");
    } else {
        *sheet = desk->now;
        status = load_for(sheet, &file, &error);
        status = status == PLUMB_OK ? plumb_sheet_write(sheet, file, &error) : status;
        status = status == PLUMB_OK ? plumb_lifter_file_save(file, path, &error) : status;
    }
    if (status == PLUMB_OK) {
        desk->now = *sheet;
        mark_saved(desk, path);
        plumb_path_say(desk, false, "Saved ", path, ".");
    } else {
        say_error(desk, "Not saved: ", path, &error);
    }
    plumb_lifter_file_free(file);
    free(sheet);
    return status == PLUMB_OK;
}

bool plumb_book_changed(PlumbDesk *desk, const char *path, bool unseen, uint64_t *hash)
{
    PlumbStamp *const stamp = stamp_of(desk, path);
    PlumbStamp now = {.size = 0};
    if (stamp == NULL) {
        return unseen && hash_file(path, hash);
    }
    if (!look(path, &now) || (now.changed_ns == stamp->changed_ns && now.size == stamp->size) ||
        !hash_file(path, hash)) {
        return false;
    }
    if (*hash == stamp->hash) {
        stamp->changed_ns = now.changed_ns;
        stamp->size = now.size;
        return false;
    }
    return true;
}

bool plumb_book_save(PlumbDesk *desk)
{
    uint64_t hash = 0;
    if (desk->now.path[0] == '\0') {
        plumb_book_ask(desk, PLUMB_FIELD_SAVE);
        return false;
    }
    if (plumb_book_changed(desk, desk->now.path, false, &hash) && hash != desk->asked_hash) {
        desk->asked_hash = hash;
        plumb_path_say(
            desk, true, "Another program has changed ", desk->now.path,
            ". Ctrl+S again writes this window's changes into it as it is now, Ctrl+O reads it, "
            "Ctrl+Shift+S saves elsewhere.");
        return false;
    }
    return write_to(desk, desk->now.path);
}

bool plumb_book_save_as(PlumbDesk *desk, const char *path, bool sure)
{
    if (path[0] == '\0' || strlen(path) >= PLUMB_PATH_SIZE) {
        plumb_desk_say(desk, true, "A name for the file is wanted, up to 511 bytes.");
        return false;
    }
    if (strcmp(path, desk->now.path) == 0) {
        return plumb_book_save(desk);
    }
    if (!sure && access(path, F_OK) == 0) {
        plumb_path_say(desk, true, "", path,
                       " is there already. Enter again replaces it; another name leaves it.");
        return false;
    }
    return write_to(desk, path);
}

bool plumb_book_name(PlumbDesk *desk, const char *name)
{
    PlumbSheet *const now = &desk->now;
    const size_t length = strlen(name);
    if (length == 0 || length >= PLUMB_DESK_NAME_SIZE) {
        plumb_desk_say(desk, true, "A name of 1 to 95 bytes is wanted.");
        return false;
    }
    if (plumb_sheet_find(now, name) >= 0) {
        plumb_path_say(desk, true, "There is a set-up called \"", name,
                       "\" already; another name is wanted.");
        return false;
    }
    if (now->named_count == PLUMB_NAMED_MAX) {
        plumb_desk_say(desk, true, "The window holds 24 set-ups; more stand in the file only.");
        return false;
    }
    plumb_desk_keep(desk, 0);
    /* The one that it was made of keeps what it had in the list. */
    plumb_sheet_add(now, name, plumb_desk_setup(desk));
    memcpy(now->setup_name[now->lift], name, length + 1);
    plumb_desk_touch(desk);
    plumb_path_say(desk, false, "Kept as \"", name,
                   "\"; N goes through the set-ups, Ctrl+S saves them.");
    return true;
}

void plumb_book_watch(PlumbDesk *desk)
{
    uint64_t hash = 0;
    const double now_s = plumb_clock_s();
    if (desk->now.path[0] == '\0' || now_s - desk->watched_s < watch_s) {
        return;
    }
    desk->watched_s = now_s;
    if (plumb_book_changed(desk, desk->now.path, false, &hash)) {
        plumb_path_say(desk, true, "Another program has changed ", desk->now.path,
                       ". Ctrl+O and Enter read it again; Ctrl+S asks before it writes.");
    }
}
