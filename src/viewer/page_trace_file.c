/* SPDX-License-Identifier: MIT */
/* Pictures and marks opened, marks saved beside their picture. */
#include "page_trace.h"

#include "book.h"
#include "journal.h"
#include "path.h"
#include "reel.h"

#include <plumbar/marks_file.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static bool is_picture(const char *path)
{
    return plumb_path_ends(path, ".png") || plumb_path_ends(path, ".jpg") ||
           plumb_path_ends(path, ".jpeg");
}

bool plumb_trace_is_file(const char *path)
{
    return is_picture(path) || plumb_path_ends(path, ".csv") || plumb_reel_is_film(path);
}

const char *plumb_trace_picture(const PlumbDesk *desk)
{
    const PlumbMarked *const marked = &desk->now.marked;
    return marked->marks.still_count > 0
               ? plumb_path_base(marked->marks.picture[plumb_marked_view(marked)])
               : "";
}

static PlumbStatus read_marks(const char *path, PlumbMarks *marks, PlumbError *error)
{
    char *bytes = NULL;
    size_t length = 0;
    const PlumbMarksMap map = plumb_marks_map_default();
    PlumbStatus status =
        plumb_file_read_whole(path, PLUMB_MARKS_FILE_MAX_BYTES, &bytes, &length, error);
    if (status == PLUMB_OK) {
        status = plumb_marks_parse(bytes, length, &map, marks, error);
        free(bytes);
    }
    return status;
}

/* Which way the lifter of a picture faces, and from where it was taken, as is told or its marks
 * tell. */
static void look_at_one(PlumbMarked *marked, int still, PlumbLift lift)
{
    const double told = marked->marks.told[still][PLUMB_TOLD_facing];
    const double facing = fabs(told) > 0.0 ? told : plumb_marks_facing(&marked->marks, still, lift);
    marked->front[still] = plumb_marks_front(&marked->marks, still);
    marked->facing[still] = !marked->front[still] && facing < 0.0 ? -1 : 1;
}

static void look_at(PlumbMarked *marked, PlumbLift lift)
{
    for (int i = 0; i < marked->marks.still_count; i++) {
        look_at_one(marked, i, lift);
    }
}

/* The marks that stand beside a picture, or none yet. A CSV of that name that holds something else
 * is left alone. */
static PlumbStatus open_picture(const char *path, PlumbMarked *marked, PlumbError *error)
{
    char *bytes = NULL;
    size_t length = 0;
    PlumbPhotoHead head;
    PlumbStatus status = plumb_file_read_whole(path, PLUMB_PHOTO_MAX_BYTES, &bytes, &length, error);
    if (status == PLUMB_OK) {
        status = plumb_photo_head(bytes, length, &head, error);
        free(bytes);
    }
    const size_t stem = (size_t)(strrchr(path, '.') - path);
    if (status != PLUMB_OK || !plumb_path_put(marked->path, path, stem, ".csv")) {
        return status != PLUMB_OK ? status
                                  : plumb_error_set(error, PLUMB_BAD_INPUT, "",
                                                    "the path is too "
                                                    "long");
    }
    PlumbError none;
    if (access(marked->path, F_OK) == 0 &&
        read_marks(marked->path, &marked->marks, &none) != PLUMB_OK) {
        plumb_path_put(marked->path, path, stem, "-marks.csv");
        if (access(marked->path, F_OK) == 0) {
            status = read_marks(marked->path, &marked->marks, error);
        }
    }
    const char *const name = plumb_path_base(path);
    const int still = plumb_marks_picture(&marked->marks, name, strlen(name));
    if (status == PLUMB_OK && still < 0) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "",
                               "the marks beside it are of six other pictures");
    }
    marked->still = still < 0 ? 0 : still;
    return status;
}

void plumb_trace_put(PlumbDesk *desk, const PlumbMarked *marked)
{
    const bool unsaved = desk->now.unsaved;
    plumb_desk_keep(desk, 0);
    desk->now.unsaved = unsaved;
    desk->now.marked = *marked;
    desk->tracing->row = plumb_marked_next(marked, desk->now.lift, -1);
    desk->tracing->view_still = -1;
    desk->page = PLUMB_PAGE_TRACE;
    desk->refit = true;
    plumb_desk_focus(desk, PLUMB_WIDGET_PICTURE, 0);
    plumb_desk_touch(desk);
}

bool plumb_trace_open(PlumbDesk *desk, const char *path)
{
    if (plumb_reel_is_film(path)) {
        return plumb_reel_open_film(desk, path);
    }
    char whole[PLUMB_PATH_SIZE];
    PlumbError error = {0};
    PlumbMarked *const marked = calloc(1, sizeof *marked);
    const bool lost = desk->now.marked.unsaved;
    bool opened = false;
    if (marked == NULL) {
        plumb_error_set(&error, PLUMB_OUT_OF_MEMORY, "", "out of memory");
    } else if (!plumb_book_whole_path(path, whole)) {
        plumb_error_set(&error, PLUMB_BAD_INPUT, "", "there is no such file");
    } else if (is_picture(whole)) {
        opened = open_picture(whole, marked, &error) == PLUMB_OK;
    } else {
        plumb_path_put(marked->path, whole, strlen(whole), "");
        opened = read_marks(whole, &marked->marks, &error) == PLUMB_OK;
    }
    if (opened) {
        look_at(marked, desk->now.lift);
        plumb_trace_put(desk, marked);
        plumb_book_stamp(desk, marked->path);
        plumb_recent_add(desk, path);
        plumb_path_say(
            desk, false, "Opened ", plumb_path_base(path),
            lost ? ". The marks before it were not saved: Ctrl+Z brings them back."
                 : ". Click where the list says; every mark may be left out. Ctrl+S saves the "
                   "marks beside the picture.");
    } else {
        plumb_path_say_error(desk, "Not opened: ", path, &error);
    }
    free(marked);
    return opened;
}

/* Takes what stands beside a picture that was added over to it; returns how many marks. */
static int take_over(PlumbMarked *now, int still, const PlumbMarked *other, PlumbLift lift)
{
    int count = 0;
    memcpy(now->marks.told[still], other->marks.told[other->still], sizeof now->marks.told[still]);
    for (int i = 0; i < other->marks.count && now->marks.count < PLUMB_MARKS_MAX; i++) {
        PlumbMark mark = other->marks.mark[i];
        if (mark.still == other->still) {
            mark.still = still;
            mark.line = 0;
            now->marks.mark[now->marks.count++] = mark;
            count++;
        }
    }
    look_at_one(now, still, lift);
    return count;
}

/* Puts a further picture at the end; *marks is how many came with it. False where it is refused. */
static bool append(PlumbDesk *desk, const char *path, int *marks, PlumbError *error)
{
    char whole[PLUMB_PATH_SIZE];
    PlumbMarked *const now = &desk->now.marked;
    PlumbMarked *const other = calloc(1, sizeof *other);
    const int had = now->marks.still_count;
    if (other == NULL || !is_picture(path) || !plumb_book_whole_path(path, whole) ||
        open_picture(whole, other, error) != PLUMB_OK) {
        free(other);
        return false;
    }
    /* A picture from another folder is named by its whole path. */
    const size_t folder = (size_t)(plumb_path_base(now->path) - now->path);
    const bool beside =
        strncmp(whole, now->path, folder) == 0 && strchr(whole + folder, '/') == NULL;
    const char *const name = beside ? whole + folder : whole;
    if (had == PLUMB_STILLS_MAX || strlen(name) >= PLUMB_PICTURE_NAME_SIZE) {
        plumb_error_set(error, PLUMB_BAD_INPUT, "",
                        had == PLUMB_STILLS_MAX ? "six pictures are read together at most"
                                                : "the path is too long");
        free(other);
        return false;
    }
    plumb_trace_keep(desk, 0);
    now->still = plumb_marks_picture(&now->marks, name, strlen(name));
    *marks = now->marks.still_count > had ? take_over(now, now->still, other, desk->now.lift) : 0;
    free(other);
    return true;
}

bool plumb_trace_add(PlumbDesk *desk, const char *path)
{
    PlumbError error = {0};
    PlumbMarked *const now = &desk->now.marked;
    int marks = 0;
    if (now->marks.still_count == 0 || now->film) {
        return plumb_trace_open(desk, path);
    }
    if (!append(desk, path, &marks, &error)) {
        if (error.message[0] == '\0') {
            plumb_error_set(&error, PLUMB_BAD_INPUT, "", "is no PNG or JPEG that can be read");
        }
        plumb_path_say_error(desk, "Not added: ", path, &error);
        return false;
    }
    desk->tracing->row = plumb_marked_next(now, desk->now.lift, -1);
    desk->tracing->view_still = -1;
    plumb_desk_focus(desk, PLUMB_WIDGET_PICTURE, 0);
    plumb_desk_touch(desk);
    plumb_path_say(desk, false, "Added ", plumb_path_base(path),
                   marks > 0 ? " with the marks beside it. Page Up and Page Down change the "
                               "picture; all are fitted together and saved in one file."
                             : ". Page Up and Page Down change the picture; all are fitted "
                               "together.");
    return true;
}

void plumb_trace_match_lines(PlumbMark *mark, int count, const PlumbMark *old, int old_count)
{
    bool taken[PLUMB_FILM_MARKS_MAX] = {false};
    for (int i = 0; i < count; i++) {
        mark[i].line = 0;
        for (int k = 0; k < old_count && mark[i].line == 0; k++) {
            if (!taken[k] && old[k].name.landmark == mark[i].name.landmark &&
                old[k].name.near == mark[i].name.near && old[k].name.front == mark[i].name.front &&
                old[k].still == mark[i].still) {
                taken[k] = true;
                mark[i].line = old[k].line;
            }
        }
    }
}

/* Marks of a file by the pictures of another list; those of pictures that it lacks match none. */
static void by_pictures_of(const PlumbMarks *marks, PlumbMarks *old)
{
    for (int k = 0; k < old->count; k++) {
        int still = -1;
        for (int i = 0; i < marks->still_count; i++) {
            still = strcmp(old->picture[old->mark[k].still], marks->picture[i]) == 0 ? i : still;
        }
        old->mark[k].still = still;
    }
}

static PlumbStatus write_marks(const PlumbMarked *marked, PlumbError *error)
{
    const PlumbMarksMap map = plumb_marks_map_default();
    PlumbMarks *const marks = malloc(2 * sizeof *marks);
    if (marks == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "", "out of memory");
    }
    PlumbMarks *const old = marks + 1;
    PlumbStatus status = PLUMB_OK;
    memset(old, 0, sizeof *old);
    *marks = marked->marks;
    if (access(marked->path, F_OK) == 0) {
        status = read_marks(marked->path, old, error);
    }
    if (status == PLUMB_OK) {
        by_pictures_of(marks, old);
        plumb_trace_match_lines(marks->mark, marks->count, old->mark, old->count);
        status = plumb_marks_save(marked->path, marks, &map, error);
    }
    free(marks);
    return status;
}

static void mark_saved(PlumbDesk *desk)
{
    PlumbHistory *const history = &desk->history;
    for (int i = 0; i < history->past_count; i++) {
        history->past[i].marked.unsaved = true;
    }
    for (int i = 0; i < history->future_count; i++) {
        history->future[i].marked.unsaved = true;
    }
    desk->now.marked.unsaved = false;
    plumb_book_stamp(desk, desk->now.marked.path);
    plumb_journal_touch(desk);
    desk->dirty = true;
}

bool plumb_trace_save(PlumbDesk *desk)
{
    const PlumbMarked *const marked = &desk->now.marked;
    uint64_t hash = 0;
    PlumbError error = {0};
    if (marked->path[0] == '\0') {
        plumb_desk_say(desk, true, "There are no marks yet: Ctrl+O opens a picture.");
        return false;
    }
    if (plumb_book_changed(desk, marked->path, true, &hash) && hash != desk->asked_hash) {
        desk->asked_hash = hash;
        plumb_path_say(
            desk, true, "Another program has written ", plumb_path_base(marked->path),
            ". Ctrl+S again puts this window's marks in place of those in it; Ctrl+O reads it.");
        return false;
    }
    if ((marked->film ? plumb_reel_write_marks(desk, &error) : write_marks(marked, &error)) !=
        PLUMB_OK) {
        plumb_path_say_error(desk, "Not saved: ", plumb_path_base(marked->path), &error);
        return false;
    }
    mark_saved(desk);
    plumb_path_say(desk, false, "Saved ", plumb_path_base(marked->path), ".");
    return true;
}
