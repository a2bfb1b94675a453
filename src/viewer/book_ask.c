/* SPDX-License-Identifier: MIT */
/* Paths and names that a person is asked for, and the list of recent files. */
#define _XOPEN_SOURCE 700 /* realpath */

#include "book.h"

#include "field.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { RECENT_MAX = 9, RECENT_BYTES = RECENT_MAX * (PLUMB_PATH_SIZE + 1) };

static bool recent_path(const PlumbDesk *desk, char *path, size_t size)
{
    if (desk->options->state_folder == NULL) {
        return false;
    }
    PlumbText text = plumb_text_begin(path, size);
    plumb_text_string(&text, desk->options->state_folder);
    plumb_text_string(&text, "/recent");
    return true;
}

bool plumb_recent_get(const PlumbDesk *desk, int index, char path[PLUMB_PATH_SIZE])
{
    char list[PLUMB_PATH_SIZE];
    char *bytes = NULL;
    size_t length = 0;
    bool found = false;
    if (index < 0 || !recent_path(desk, list, sizeof list) ||
        plumb_file_read_whole(list, RECENT_BYTES, &bytes, &length, NULL) != PLUMB_OK) {
        return false;
    }
    const char *at = bytes;
    for (int i = 0; i < index && *at != '\0'; i++) {
        at += strcspn(at, "\n");
        at += *at == '\n' ? 1 : 0;
    }
    const size_t count = strcspn(at, "\n");
    if (count > 0 && count < PLUMB_PATH_SIZE) {
        memcpy(path, at, count);
        path[count] = '\0';
        found = true;
    }
    free(bytes);
    return found;
}

/* A path is kept whole, so that it opens from any folder. */
bool plumb_book_whole_path(const char *path, char whole[PLUMB_PATH_SIZE])
{
    char *const real = realpath(path, NULL);
    const bool fits = real != NULL && strlen(real) < PLUMB_PATH_SIZE && strchr(real, '\n') == NULL;
    if (fits) {
        memcpy(whole, real, strlen(real) + 1);
    }
    free(real);
    return fits;
}

void plumb_recent_add(const PlumbDesk *desk, const char *path)
{
    char list[PLUMB_PATH_SIZE];
    char whole[PLUMB_PATH_SIZE];
    char other[PLUMB_PATH_SIZE];
    char *const bytes = malloc(RECENT_BYTES);
    if (bytes != NULL && recent_path(desk, list, sizeof list) &&
        plumb_book_whole_path(path, whole)) {
        PlumbText text = plumb_text_begin(bytes, RECENT_BYTES);
        plumb_text_string(&text, whole);
        plumb_text_char(&text, '\n');
        int kept = 1;
        for (int i = 0; kept < RECENT_MAX && plumb_recent_get(desk, i, other); i++) {
            if (strcmp(other, whole) != 0) {
                plumb_text_string(&text, other);
                plumb_text_char(&text, '\n');
                kept++;
            }
        }
        /* A list that cannot be written costs nothing else. */
        plumb_file_write_atomic(list, bytes, text.length, NULL);
    }
    free(bytes);
}

void plumb_book_recent(PlumbDesk *desk, int step)
{
    PlumbField *const field = &desk->field;
    char path[PLUMB_PATH_SIZE];
    const int wanted = field->recent + step;
    if (plumb_recent_get(desk, wanted, path)) {
        plumb_field_open(desk, PLUMB_FIELD_OPEN, PLUMB_SET_style, path);
        field->recent = wanted;
    }
}

static void propose_file(const PlumbDesk *desk, char *name, size_t size)
{
    const char *const lifter = desk->now.record.name;
    for (int i = 1; i < 1000; i++) {
        PlumbText text = plumb_text_begin(name, size);
        plumb_text_string(&text,
                          lifter[0] != '\0' && strchr(lifter, '/') == NULL ? lifter : "lifter");
        if (i > 1) {
            plumb_text_char(&text, '-');
            plumb_text_integer(&text, i);
        }
        plumb_text_string(&text, ".yaml");
        if (access(name, F_OK) != 0) {
            return;
        }
    }
}

void plumb_book_ask(PlumbDesk *desk, PlumbFieldUse use)
{
    char path[PLUMB_PATH_SIZE] = "";
    if (use == PLUMB_FIELD_OPEN) {
        if (desk->now.path[0] != '\0') {
            memcpy(path, desk->now.path, sizeof path);
        } else {
            plumb_recent_get(desk, 0, path);
        }
        plumb_desk_say(desk, false,
                       "Open a lifter file, a picture or a file of marks: type its path, or Up and "
                       "Down for recent ones; Enter opens it. A file can also be dropped on the "
                       "window.");
    } else if (use == PLUMB_FIELD_SAVE) {
        propose_file(desk, path, sizeof path);
        plumb_desk_say(desk, false, "Save as: Enter writes the lifter and all set-ups there.");
    } else {
        plumb_desk_say(desk, false, "Keep this set-up under a name: Enter keeps it.");
    }
    plumb_field_open(desk, use, PLUMB_SET_style, path);
    desk->field.recent = use == PLUMB_FIELD_OPEN ? 0 : -1;
}
