/* SPDX-License-Identifier: MIT */
/* Files of marks, of pictures and of films, written back line by line. */
#include "io/marks_row.h"

#include <plumbar/film_marks.h>

#include <math.h>
#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* Bytes that grow. */
typedef struct Growing {
    char *data;
    size_t length;
    size_t room;
    bool failed;
} Growing;

static void put(Growing *out, const char *bytes, size_t length)
{
    if (out->failed) {
        return;
    }
    if (out->data == NULL || out->length + length + 1 > out->room) {
        const size_t room = 2 * (out->length + length) + 1024;
        char *const data = realloc(out->data, room);
        if (data == NULL) {
            out->failed = true;
            return;
        }
        out->data = data;
        out->room = room;
    }
    if (length > 0) {
        memcpy(out->data + out->length, bytes, length);
    }
    out->length += length;
    out->data[out->length] = '\0';
}

/* A cell, in quotes where it needs them. */
static void put_cell(Growing *out, const char *cell)
{
    if (strpbrk(cell, ",\"\r\n") == NULL && cell[0] != ' ' && cell[0] != '#') {
        put(out, cell, strlen(cell));
        return;
    }
    put(out, "\"", 1);
    for (const char *c = cell; *c != '\0'; c++) {
        put(out, c, 1);
        if (*c == '"') {
            put(out, c, 1);
        }
    }
    put(out, "\"", 1);
}

static void number_text(char *cell, size_t size, double value)
{
    PlumbText text = plumb_text_begin(cell, size);
    if (isnan(value)) {
        return;
    }
    plumb_text_fixed(&text, value, 3);
    while (text.length > 0 && cell[text.length - 1] == '0') {
        cell[--text.length] = '\0';
    }
    if (text.length > 0 && cell[text.length - 1] == '.') {
        cell[--text.length] = '\0';
    }
}

/* Marks of pictures, or of a film's frames. */
typedef struct List {
    int count;
    const PlumbMark *mark;
    const PlumbMarks *pictures; /* NULL: mark.still is a frame */
} List;

/* Where a mark is: its picture's name, or the number of its frame. */
static void where_text(const List *list, const PlumbMark *mark, char cell[PLUMB_PICTURE_NAME_SIZE])
{
    if (list->pictures != NULL) {
        memcpy(cell, list->pictures->picture[mark->still], PLUMB_PICTURE_NAME_SIZE);
    } else {
        PlumbText text = plumb_text_begin(cell, PLUMB_PICTURE_NAME_SIZE);
        plumb_text_integer(&text, mark->still);
    }
}

/* A mark's line in the order of head; other cells as in row (NULL: empty). */
static void put_mark(Growing *out, const List *list, const PlumbMark *mark, const PlumbHead *head,
                     const PlumbRow *row, const char *end)
{
    char value[PLUMB_MARKS_COLUMN_COUNT][PLUMB_PICTURE_NAME_SIZE];
    memset(value, 0, sizeof value);
    where_text(list, mark, value[PLUMB_COLUMN_picture]);
    PlumbText name = plumb_text_begin(value[PLUMB_COLUMN_landmark], PLUMB_PICTURE_NAME_SIZE);
    plumb_mark_name_text(&name, mark->name);
    number_text(value[PLUMB_COLUMN_x], PLUMB_PICTURE_NAME_SIZE, mark->x_px);
    number_text(value[PLUMB_COLUMN_y], PLUMB_PICTURE_NAME_SIZE, mark->y_px);
    number_text(value[PLUMB_COLUMN_sigma], PLUMB_PICTURE_NAME_SIZE, mark->sigma_px);
    number_text(value[PLUMB_COLUMN_time], PLUMB_PICTURE_NAME_SIZE, mark->time_s);
    for (int i = 0; i < head->count; i++) {
        const char *cell = row != NULL && i < row->count ? row->cell[i] : "";
        for (int k = 0; k < PLUMB_MARKS_COLUMN_COUNT; k++) {
            cell = head->at[k] == i ? value[k] : cell;
        }
        put(out, ",", i > 0 ? 1 : 0);
        put_cell(out, cell);
    }
    put(out, end, strlen(end));
}

static bool same_number(double a, double b)
{
    return (isnan(a) && isnan(b)) || fabs(a - b) < 5e-4;
}

/* Whether a line still says what the mark holds. */
static bool unchanged(const PlumbMark *a, const PlumbMark *b)
{
    return a->name.landmark == b->name.landmark && a->name.near == b->name.near &&
           a->name.front == b->name.front && a->still == b->still &&
           same_number(a->x_px, b->x_px) && same_number(a->y_px, b->y_px) &&
           same_number(a->sigma_px, b->sigma_px) && same_number(a->time_s, b->time_s);
}

static const PlumbMark *mark_of_line(const List *list, int line)
{
    for (int i = 0; i < list->count; i++) {
        if (list->mark[i].line == line) {
            return &list->mark[i];
        }
    }
    return NULL;
}

/* The lines of the old text, each as it was, changed or left out. */
static void put_old(Growing *out, const List *list, const List *old, const char *before,
                    size_t length, const PlumbMarksMap *map, PlumbHead *head)
{
    int number = 0;
    const size_t start = plumb_byte_order_mark(before, length);
    put(out, before, start);
    for (size_t at = start; at < length;) {
        const size_t take = plumb_line_length(before + at, length - at);
        const char *const line = before + at;
        const PlumbMark *const was = mark_of_line(old, ++number);
        const PlumbMark *const is = mark_of_line(list, number);
        PlumbRow row;
        if (was == NULL) {
            put(out, line, take);
            if (!plumb_line_is_blank(line, take) && plumb_row_split(line, take, &row)) {
                plumb_head_read(&row, map, head, NULL);
            }
        } else if (is != NULL && unchanged(was, is)) {
            put(out, line, take);
        } else if (is != NULL && plumb_row_split(line, take, &row)) {
            const bool crlf = take >= 2 && line[take - 2] == '\r';
            put_mark(out, list, is, head, &row, crlf ? "\r\n" : "\n");
        }
        at += take;
    }
}

/* The whole text; old is what before[length] says. */
static PlumbStatus list_text(const List *list, const List *old, const char *before, size_t length,
                             const PlumbMarksMap *map, char **text, size_t *text_length,
                             PlumbError *error)
{
    PlumbHead head = {.count = 0};
    Growing out = {.data = NULL};
    if (length == 0) {
        for (int i = 0; i < PLUMB_MARKS_COLUMN_COUNT; i++) {
            head.at[i] = i;
            put(&out, ",", i > 0 ? 1 : 0);
            put_cell(&out, map->name[i]);
        }
        head.count = PLUMB_MARKS_COLUMN_COUNT;
        put(&out, "\n", 1);
    }
    put_old(&out, list, old, before, length, map, &head);
    for (int i = 0; i < list->count; i++) {
        if (list->mark[i].line == 0) {
            put(&out, "\n", out.length > 0 && out.data[out.length - 1] != '\n' ? 1 : 0);
            put_mark(&out, list, &list->mark[i], &head, NULL, "\n");
        }
    }
    if (out.failed) {
        free(out.data);
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "marks", "no memory for the marks");
    }
    *text = out.data;
    *text_length = out.length;
    return PLUMB_OK;
}

PlumbStatus plumb_marks_text(const PlumbMarks *marks, const char *before, size_t before_length,
                             const PlumbMarksMap *map, char **text, size_t *length,
                             PlumbError *error)
{
    PlumbMarks *const old = calloc(1, sizeof *old);
    PlumbStatus status = PLUMB_OK;
    if (old == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "marks", "no memory for the marks");
    }
    if (before_length > 0) {
        status = plumb_marks_parse(before, before_length, map, old, error);
    }
    if (status == PLUMB_OK) {
        const List list = {marks->count, marks->mark, marks};
        const List was = {old->count, old->mark, old};
        status = list_text(&list, &was, before, before_length, map, text, length, error);
    }
    free(old);
    return status;
}

PlumbStatus plumb_film_marks_text(const PlumbFilmMarks *marks, const char *before,
                                  size_t before_length, const PlumbMarksMap *map, char **text,
                                  size_t *length, PlumbError *error)
{
    PlumbFilmMarks *const old = calloc(1, sizeof *old);
    PlumbStatus status = PLUMB_OK;
    if (old == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "marks", "no memory for the marks");
    }
    if (before_length > 0) {
        status = plumb_film_marks_parse(before, before_length, map, old, error);
    }
    if (status == PLUMB_OK) {
        const List list = {marks->count, marks->mark, NULL};
        const List was = {old->count, old->mark, NULL};
        status = list_text(&list, &was, before, before_length, map, text, length, error);
    }
    free(old);
    return status;
}

/* One of both; the other is NULL. */
static PlumbStatus save(const char *path, const PlumbMarks *stills, const PlumbFilmMarks *film,
                        const PlumbMarksMap *map, PlumbError *error)
{
    assert(stills != NULL || film != NULL);
    char *before = NULL;
    size_t before_length = 0;
    PlumbError absent;
    if (plumb_file_read_whole(path, PLUMB_MARKS_FILE_MAX_BYTES, &before, &before_length, &absent) !=
        PLUMB_OK) {
        before_length = 0;
    }
    const char *const old = before_length > 0 ? before : "";
    char *text = NULL;
    size_t length = 0;
    PlumbStatus status =
        stills != NULL
            ? plumb_marks_text(stills, old, before_length, map, &text, &length, error)
            : plumb_film_marks_text(film, old, before_length, map, &text, &length, error);
    if (status == PLUMB_OK) {
        status = plumb_file_write_atomic(path, text, length, error);
    }
    free(text);
    free(before);
    return status;
}

PlumbStatus plumb_marks_save(const char *path, const PlumbMarks *marks, const PlumbMarksMap *map,
                             PlumbError *error)
{
    return save(path, marks, NULL, map, error);
}

PlumbStatus plumb_film_marks_save(const char *path, const PlumbFilmMarks *marks,
                                  const PlumbMarksMap *map, PlumbError *error)
{
    return save(path, NULL, marks, map, error);
}
