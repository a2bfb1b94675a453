/* SPDX-License-Identifier: MIT */
/* Files of marks, of pictures and of films, written back line by line. */
#include "io/marks_row.h"

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

/* Marks of pictures, or of a film's frames, and what is told beside them. */
typedef struct List {
    int count;
    const PlumbMark *mark;
    const PlumbMarks *pictures;             /* NULL: mark.still is a frame */
    const double (*told)[PLUMB_TOLD_COUNT]; /* of each picture, or of the film */
    int told_count;
    const PlumbToldRows *rows; /* of a list that was read, whose told is not looked at */
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

/* A line in the order of head; a cell that value leaves out (NULL) is as in row (NULL: empty). */
static void put_row(Growing *out, const char *const value[PLUMB_MARKS_COLUMN_COUNT],
                    const PlumbHead *head, const PlumbRow *row, const char *end)
{
    for (int i = 0; i < head->count; i++) {
        const char *cell = row != NULL && i < row->count ? row->cell[i] : "";
        for (int k = 0; k < PLUMB_MARKS_COLUMN_COUNT; k++) {
            cell = head->at[k] == i && value[k] != NULL ? value[k] : cell;
        }
        put(out, ",", i > 0 ? 1 : 0);
        put_cell(out, cell);
    }
    put(out, end, strlen(end));
}

static void put_mark(Growing *out, const List *list, const PlumbMark *mark, const PlumbHead *head,
                     const PlumbRow *row, const char *end)
{
    char text[PLUMB_MARKS_COLUMN_COUNT][PLUMB_PICTURE_NAME_SIZE];
    const char *value[PLUMB_MARKS_COLUMN_COUNT];
    memset(text, 0, sizeof text);
    where_text(list, mark, text[PLUMB_COLUMN_picture]);
    PlumbText name = plumb_text_begin(text[PLUMB_COLUMN_landmark], PLUMB_PICTURE_NAME_SIZE);
    plumb_mark_name_text(&name, mark->name);
    number_text(text[PLUMB_COLUMN_x], PLUMB_PICTURE_NAME_SIZE, mark->x_px);
    number_text(text[PLUMB_COLUMN_y], PLUMB_PICTURE_NAME_SIZE, mark->y_px);
    number_text(text[PLUMB_COLUMN_sigma], PLUMB_PICTURE_NAME_SIZE, mark->sigma_px);
    number_text(text[PLUMB_COLUMN_time], PLUMB_PICTURE_NAME_SIZE, mark->time_s);
    for (int i = 0; i < PLUMB_MARKS_COLUMN_COUNT; i++) {
        value[i] = text[i];
    }
    put_row(out, value, head, row, end);
}

static void put_told(Growing *out, const char *picture, PlumbToldKey key, double told,
                     const PlumbHead *head, const PlumbRow *row, const char *end)
{
    char number[32] = "";
    const char *const word = plumb_told_word(key, told);
    const char *value[PLUMB_MARKS_COLUMN_COUNT] = {
        [PLUMB_COLUMN_picture] = picture,
        [PLUMB_COLUMN_landmark] = plumb_told_name(key),
        [PLUMB_COLUMN_x] = word != NULL ? word : number,
    };
    number_text(number, sizeof number, told);
    put_row(out, value, head, row, end);
}

static const char *line_end(const char *line, size_t length)
{
    return length >= 2 && line[length - 2] == '\r' ? "\r\n" : "\n";
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

/* What is told, as the old lines are gone through. */
typedef struct Telling {
    const List *list;
    const List *old;
    bool done[PLUMB_STILLS_MAX][PLUMB_TOLD_COUNT]; /* a line says it */
} Telling;

/* Index in the new list of the picture that an old row is of, -1 where it is gone or of all. */
static int still_of(const Telling *t, const PlumbToldRow *row)
{
    const PlumbMarks *const was = t->old->pictures;
    const PlumbMarks *const is = t->list->pictures;
    for (int i = 0; row->still >= 0 && was != NULL && is != NULL && i < is->still_count; i++) {
        if (strcmp(was->picture[row->still], is->picture[i]) == 0) {
            return i;
        }
    }
    return -1;
}

/* Whether a picture has a line of its own for a key, with something to say. */
static bool stands_alone(const Telling *t, int still, PlumbToldKey key)
{
    for (int i = 0; i < t->old->rows->count; i++) {
        const PlumbToldRow *const row = &t->old->rows->row[i];
        if (row->key == key && still_of(t, row) == still) {
            return fabs(t->list->told[still][key]) > 0.0;
        }
    }
    return false;
}

/* What a row says now; 0: nothing any more. One of all pictures goes on while they agree. */
static double says_now(Telling *t, const PlumbToldRow *row)
{
    const int own = still_of(t, row);
    double common = 0.0;
    int count = 0;
    if (row->still >= 0) {
        return own >= 0 ? t->list->told[own][row->key] : 0.0;
    }
    for (int i = 0; i < t->list->told_count; i++) {
        const double told = t->list->told[i][row->key];
        if (stands_alone(t, i, row->key)) {
            continue;
        }
        if (count++ > 0 && !same_number(told, common)) {
            return 0.0;
        }
        common = told;
    }
    return count > 0 ? common : row->value;
}

static void put_old_told(Growing *out, Telling *t, const PlumbToldRow *was, const char *line,
                         size_t take, const PlumbHead *head)
{
    const double value = says_now(t, was);
    const int own = still_of(t, was);
    PlumbRow row;
    if (!(fabs(value) > 0.0)) {
        return;
    }
    if (same_number(value, was->value)) {
        put(out, line, take);
    } else if (plumb_row_split(line, take, &row)) {
        put_told(out, NULL, was->key, value, head, &row, line_end(line, take));
    }
    for (int i = 0; i < t->list->told_count; i++) {
        const bool of_all = was->still < 0 && !stands_alone(t, i, was->key);
        t->done[i][was->key] = t->done[i][was->key] || of_all || i == own;
    }
}

static void put_new_told(Growing *out, const Telling *t, const PlumbHead *head)
{
    for (int i = 0; i < t->list->told_count; i++) {
        for (int key = 0; key < PLUMB_TOLD_COUNT; key++) {
            const double value = t->list->told[i][key];
            if (fabs(value) > 0.0 && !t->done[i][key]) {
                put(out, "\n", out->length > 0 && out->data[out->length - 1] != '\n' ? 1 : 0);
                put_told(out, t->list->pictures != NULL ? t->list->pictures->picture[i] : "",
                         (PlumbToldKey)key, value, head, NULL, "\n");
            }
        }
    }
}

static const PlumbToldRow *told_of_line(const List *list, int line)
{
    for (int i = 0; i < list->rows->count; i++) {
        if (list->rows->row[i].line == line) {
            return &list->rows->row[i];
        }
    }
    return NULL;
}

/* The lines of the old text, each as it was, changed or left out. */
static void put_old(Growing *out, Telling *telling, const char *before, size_t length,
                    const PlumbMarksMap *map, PlumbHead *head)
{
    const List *const list = telling->list;
    const List *const old = telling->old;
    int number = 0;
    const size_t start = plumb_byte_order_mark(before, length);
    put(out, before, start);
    for (size_t at = start; at < length;) {
        const size_t take = plumb_line_length(before + at, length - at);
        const char *const line = before + at;
        const PlumbMark *const was = mark_of_line(old, ++number);
        const PlumbMark *const is = mark_of_line(list, number);
        const PlumbToldRow *const told = told_of_line(old, number);
        PlumbRow row;
        if (told != NULL) {
            put_old_told(out, telling, told, line, take, head);
        } else if (was == NULL) {
            put(out, line, take);
            if (!plumb_line_is_blank(line, take) && plumb_row_split(line, take, &row)) {
                plumb_head_read(&row, map, head, NULL);
            }
        } else if (is != NULL && unchanged(was, is)) {
            put(out, line, take);
        } else if (is != NULL && plumb_row_split(line, take, &row)) {
            put_mark(out, list, is, head, &row, line_end(line, take));
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
    Telling telling = {.list = list, .old = old};
    if (length == 0) {
        for (int i = 0; i < PLUMB_MARKS_COLUMN_COUNT; i++) {
            head.at[i] = i;
            put(&out, ",", i > 0 ? 1 : 0);
            put_cell(&out, map->name[i]);
        }
        head.count = PLUMB_MARKS_COLUMN_COUNT;
        put(&out, "\n", 1);
    }
    put_old(&out, &telling, before, length, map, &head);
    for (int i = 0; i < list->count; i++) {
        if (list->mark[i].line == 0) {
            put(&out, "\n", out.length > 0 && out.data[out.length - 1] != '\n' ? 1 : 0);
            put_mark(&out, list, &list->mark[i], &head, NULL, "\n");
        }
    }
    put_new_told(&out, &telling, &head);
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
    PlumbToldRows rows = {.count = 0};
    PlumbMarks *const old = calloc(1, sizeof *old);
    PlumbStatus status = PLUMB_OK;
    if (old == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "marks", "no memory for the marks");
    }
    if (before_length > 0) {
        status = plumb_marks_parse_rows(before, before_length, map, old, &rows, error);
    }
    if (status == PLUMB_OK) {
        const List list = {marks->count, marks->mark, marks, marks->told, marks->still_count, NULL};
        const List was = {old->count, old->mark, old, NULL, 0, &rows};
        status = list_text(&list, &was, before, before_length, map, text, length, error);
    }
    free(old);
    return status;
}

PlumbStatus plumb_film_marks_text(const PlumbFilmMarks *marks, const char *before,
                                  size_t before_length, const PlumbMarksMap *map, char **text,
                                  size_t *length, PlumbError *error)
{
    PlumbToldRows rows = {.count = 0};
    PlumbFilmMarks *const old = calloc(1, sizeof *old);
    PlumbStatus status = PLUMB_OK;
    if (old == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "marks", "no memory for the marks");
    }
    if (before_length > 0) {
        status = plumb_film_marks_parse_rows(before, before_length, map, old, &rows, error);
    }
    if (status == PLUMB_OK) {
        const List list = {marks->count, marks->mark, NULL, &marks->told, 1, NULL};
        const List was = {old->count, old->mark, NULL, NULL, 0, &rows};
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
