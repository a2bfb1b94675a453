/* SPDX-License-Identifier: MIT */
/* A film opened on the Trace page, and its marks in the file beside it. */
#include "reel.h"

#include "book.h"
#include "field.h"
#include "page_trace.h"
#include "path.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool is_folder(const char *path)
{
    struct stat at;
    return stat(path, &at) == 0 && S_ISDIR(at.st_mode);
}

bool plumb_reel_is_film(const char *path)
{
    static const char *const endings[] = {".mp4", ".m4v", ".mov", ".mkv", ".webm"};
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++) {
        if (plumb_path_ends(path, endings[i])) {
            return true;
        }
    }
    return is_folder(path);
}

static PlumbStatus parse(const char *path, PlumbFilmMarks *marks, PlumbError *error)
{
    char *bytes = NULL;
    size_t length = 0;
    const PlumbMarksMap map = plumb_film_map_default();
    PlumbStatus status =
        plumb_file_read_whole(path, PLUMB_MARKS_FILE_MAX_BYTES, &bytes, &length, error);
    if (status == PLUMB_OK) {
        status = plumb_film_marks_parse(bytes, length, &map, marks, error);
        free(bytes);
    }
    return status;
}

/* Whether a file holds marks of a film. */
static bool is_marks(const char *path)
{
    PlumbFilmMarks *const marks = calloc(1, sizeof *marks);
    const bool is = marks != NULL && parse(path, marks, NULL) == PLUMB_OK;
    free(marks);
    return is;
}

/* Beside the film; a CSV of that name that holds something else is left alone. */
static bool choose_marks(const char *film, char path[PLUMB_PATH_SIZE])
{
    const char *const point = strrchr(film, '.');
    const bool ending = point != NULL && point > plumb_path_base(film) && !is_folder(film);
    const size_t stem = ending ? (size_t)(point - film) : strlen(film);
    if (!plumb_path_put(path, film, stem, ".csv")) {
        return false;
    }
    return access(path, F_OK) != 0 || is_marks(path) ||
           plumb_path_put(path, film, stem, "-marks.csv");
}

const char *plumb_reel_first_words(void)
{
    return "Mark the lifter in a few frames, start, middle and end; O follows the marks through "
           "the others.";
}

bool plumb_reel_open_film(PlumbDesk *desk, const char *path)
{
    char whole[PLUMB_PATH_SIZE];
    PlumbMarked *const marked = calloc(1, sizeof *marked);
    if (marked == NULL || !plumb_book_whole_path(path, whole)) {
        plumb_path_say(desk, true, "Not opened: ", path,
                       marked == NULL ? ": out of memory" : ": there is no such file");
        free(marked);
        return false;
    }
    const char *const name = plumb_path_base(whole);
    const bool lost = desk->now.marked.unsaved;
    if (!choose_marks(whole, marked->path) ||
        plumb_marks_picture(&marked->marks, name, strlen(name)) < 0) {
        plumb_path_say(desk, true, "Not opened: ", path, ": the path is too long");
        free(marked);
        return false;
    }
    marked->film = true;
    marked->facing[0] = 1;
    plumb_trace_put(desk, marked);
    plumb_book_stamp(desk, marked->path);
    plumb_recent_add(desk, path);
    char words[PLUMB_DESK_MESSAGE_SIZE];
    PlumbText rest = plumb_text_begin(words, sizeof words);
    plumb_text_string(&rest, ". ");
    plumb_text_string(&rest, lost ? "The marks before it were not saved: Ctrl+Z brings them back."
                                  : plumb_reel_first_words());
    plumb_path_say(desk, false, "Opened ", name, words);
    if (is_folder(whole)) {
        plumb_trace_do(desk, PLUMB_TRACE_RATE);
    }
    free(marked);
    return true;
}

/* Which way the lifter faces and from where it was filmed, by the first frame that tells. */
static void look_at(PlumbMarked *marked, PlumbLift lift)
{
    PlumbMarks one = {.still_count = 1};
    for (int i = 0; i < marked->marks.count; i++) {
        one.count = 0;
        for (int k = 0; k < marked->marks.count && one.count < PLUMB_STILL_MARKS_MAX; k++) {
            if (marked->marks.mark[k].still == marked->marks.mark[i].still) {
                one.mark[one.count] = marked->marks.mark[k];
                one.mark[one.count++].still = 0;
            }
        }
        marked->front[0] = marked->front[0] || plumb_marks_front(&one, 0);
        const int facing = marked->front[0] ? 1 : plumb_marks_facing(&one, 0, lift);
        if (facing != 0) {
            marked->facing[0] = facing;
            return;
        }
    }
}

void plumb_reel_read_marks(PlumbDesk *desk)
{
    PlumbMarked *const marked = &desk->now.marked;
    const PlumbReel *const reel = desk->tracing->reel;
    PlumbFilmMarks *const marks = calloc(1, sizeof *marks);
    PlumbError error = {0};
    PlumbStatus status = PLUMB_OK;
    if (marks != NULL && access(marked->path, F_OK) == 0) {
        status = parse(marked->path, marks, &error);
        if (status == PLUMB_OK) {
            status = plumb_film_marks_place(marks, reel->time_s, reel->frame_count, &error);
        }
        if (status == PLUMB_OK && marks->count > PLUMB_MARKS_MAX) {
            status = plumb_error_set(&error, PLUMB_BAD_INPUT, "marks",
                                     "the window holds 360 marks of a film; plumbar trace film "
                                     "reads more");
        }
    }
    if (marks != NULL && status == PLUMB_OK) {
        marked->film_read = true;
        marked->marks.count = marks->count;
        memcpy(marked->marks.mark, marks->mark, (size_t)marks->count * sizeof marks->mark[0]);
        memcpy(marked->marks.told[0], marks->told, sizeof marks->told);
        look_at(marked, desk->now.lift);
        if (fabs(marks->told[PLUMB_TOLD_facing]) > 0.0) {
            marked->facing[0] = (int)marks->told[PLUMB_TOLD_facing];
        }
        marked->still = marks->count > 0 ? marks->mark[0].still : marked->still;
        desk->tracing->row = plumb_marked_next(marked, desk->now.lift, -1);
        plumb_desk_touch(desk);
    } else {
        /* Nothing may be saved over marks that could not be read. */
        char words[PLUMB_MESSAGE_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_string(&text, error.line > 0 ? ":" : "");
        if (error.line > 0) {
            plumb_text_integer(&text, error.line);
        }
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, marks == NULL ? "out of memory" : error.message);
        plumb_path_say(desk, true, "The film is closed, its marks cannot be read: ", marked->path,
                       words);
        memset(marked, 0, sizeof *marked);
    }
    free(marks);
}

/* A line without a time stays without, so that it is not written anew for nothing. */
static void keep_times(PlumbFilmMarks *marks, const PlumbFilmMarks *raw, const PlumbReel *reel)
{
    for (int i = 0; i < marks->count; i++) {
        PlumbMark *const mark = &marks->mark[i];
        mark->time_s = mark->still < reel->frame_count ? reel->time_s[mark->still] : (double)NAN;
        for (int k = 0; k < raw->count && mark->line > 0; k++) {
            if (raw->mark[k].line == mark->line && isnan(raw->mark[k].time_s)) {
                mark->time_s = (double)NAN;
            }
        }
    }
}

PlumbStatus plumb_reel_write_marks(const PlumbDesk *desk, PlumbError *error)
{
    const PlumbMarked *const marked = &desk->now.marked;
    const PlumbReel *const reel = desk->tracing->reel;
    const PlumbMarksMap map = plumb_film_map_default();
    PlumbStatus status = PLUMB_OK;
    if (reel == NULL || !reel->known || !marked->film_read) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "", "the film is not open yet");
    }
    PlumbFilmMarks *const marks = calloc(3, sizeof *marks);
    if (marks == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "", "out of memory");
    }
    PlumbFilmMarks *const raw = marks + 1;
    PlumbFilmMarks *const old = marks + 2;
    marks->count = marked->marks.count;
    memcpy(marks->mark, marked->marks.mark, (size_t)marks->count * sizeof marks->mark[0]);
    memcpy(marks->told, marked->marks.told[0], sizeof marks->told);
    if (access(marked->path, F_OK) == 0) {
        status = parse(marked->path, raw, error);
        *old = *raw;
        if (status == PLUMB_OK) {
            status = plumb_film_marks_place(old, reel->time_s, reel->frame_count, error);
        }
    }
    if (status == PLUMB_OK) {
        plumb_trace_match_lines(marks->mark, marks->count, old->mark, old->count);
        keep_times(marks, raw, reel);
        status = plumb_film_marks_save(marked->path, marks, &map, error);
    }
    free(marks);
    return status;
}
