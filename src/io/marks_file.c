/* SPDX-License-Identifier: MIT */
/* Files of marks: read whole, and written back line by line. */
#include "io/marks_row.h"

#include "base/words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

PlumbMarksMap plumb_marks_map_default(void)
{
    PlumbMarksMap map;
    memset(&map, 0, sizeof map);
    for (int i = 0; i < PLUMB_MARKS_COLUMN_COUNT; i++) {
        const char *const name = plumb_marks_column_name((PlumbMarksColumn)i);
        memcpy(map.name[i], name, strlen(name) + 1);
    }
    return map;
}

/* One "column=name". */
static PlumbStatus map_one(const char *pair, size_t length, PlumbMarksMap *map, PlumbError *error)
{
    const char *const equals = memchr(pair, '=', length);
    const size_t key = equals != NULL ? (size_t)(equals - pair) : length;
    const size_t value = length - key;
    for (int i = 0; i < PLUMB_MARKS_COLUMN_COUNT; i++) {
        if (!plumb_word_is(pair, key, plumb_marks_column_name((PlumbMarksColumn)i))) {
            continue;
        }
        if (value < 2 || value > PLUMB_MARKS_COLUMN_SIZE) {
            break;
        }
        memcpy(map->name[i], equals + 1, value - 1);
        map->name[i][value - 1] = '\0';
        return PLUMB_OK;
    }
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_quoted(&text, pair, length);
    plumb_text_string(&text, ": write COLUMN=NAME with picture, time, landmark, x, y or sigma and "
                             "what the file calls it, as in landmark=point,x=px_x");
    return plumb_error_set(error, PLUMB_BAD_INPUT, "columns", message);
}

PlumbStatus plumb_marks_map_read(const char *text, PlumbMarksMap *map, PlumbError *error)
{
    PlumbMarksMap read = plumb_marks_map_default();
    while (*text != '\0') {
        const size_t length = strcspn(text, ",");
        if (map_one(text, length, &read, error) != PLUMB_OK) {
            return PLUMB_BAD_INPUT;
        }
        text += length + (text[length] == ',');
    }
    *map = read;
    return PLUMB_OK;
}

static PlumbStatus misread(PlumbError *error, int line, const char *what)
{
    plumb_error_set(error, PLUMB_BAD_INPUT, "marks", what);
    if (error != NULL) {
        error->line = line;
        error->column = 1;
    }
    return PLUMB_BAD_INPUT;
}

static size_t byte_order_mark(const char *bytes, size_t length)
{
    return length >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
}

/* One line that is not blank: the head, or a row. */
static PlumbStatus take_line(const char *line, size_t length, int number, const PlumbMarksMap *map,
                             PlumbHead *head, PlumbRowTake take, void *user, PlumbError *error)
{
    PlumbRow row;
    if (!plumb_row_split(line, length, &row)) {
        return misread(error, number,
                       "quotes stand wrong, or the line has more than 64 cells or 4 kB");
    }
    if (head->count == 0) {
        return plumb_head_read(&row, map, head, error);
    }
    if (row.count > head->count) {
        return misread(error, number, "the line has more cells than the first row names");
    }
    return take(&row, head, number, user, error);
}

PlumbStatus plumb_rows_read(const char *bytes, size_t length, const PlumbMarksMap *map,
                            PlumbRowTake take, void *user, PlumbError *error)
{
    PlumbHead head = {.count = 0};
    PlumbStatus status = PLUMB_OK;
    int number = 0;
    for (size_t at = byte_order_mark(bytes, length); at < length && status == PLUMB_OK;) {
        const size_t line = plumb_line_length(bytes + at, length - at);
        number++;
        if (memchr(bytes + at, '\0', line) != NULL) {
            status = misread(error, number, "this is no text: it holds a zero byte");
        } else if (!plumb_line_is_blank(bytes + at, line)) {
            status = take_line(bytes + at, line, number, map, &head, take, user, error);
            if (status == PLUMB_BAD_INPUT && error != NULL) {
                error->line = number;
            }
        }
        at += line;
    }
    if (status == PLUMB_OK && head.count == 0) {
        status = misread(error, 1,
                         "the file is empty; its first row names the columns: "
                         "picture,time,landmark,x,y,sigma");
    }
    return status;
}

static PlumbStatus take_mark(const PlumbRow *row, const PlumbHead *head, int line, void *user,
                             PlumbError *error)
{
    PlumbMarks *const marks = user;
    PlumbMark mark;
    if (marks->count == PLUMB_MARKS_MAX) {
        return misread(error, line, "more than 360 marks");
    }
    if (plumb_mark_read(row, head, marks, &mark, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    mark.line = line;
    marks->mark[marks->count++] = mark;
    return PLUMB_OK;
}

PlumbStatus plumb_marks_parse(const char *bytes, size_t length, const PlumbMarksMap *map,
                              PlumbMarks *marks, PlumbError *error)
{
    PlumbMarks *const read = calloc(1, sizeof *read);
    if (read == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "marks", "no memory for the marks");
    }
    const PlumbStatus status = plumb_rows_read(bytes, length, map, take_mark, read, error);
    if (status == PLUMB_OK) {
        *marks = *read;
    }
    free(read);
    return status;
}

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
    if (out->length + length + 1 > out->room) {
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

/* A mark's line in the order of head; other cells as in row (NULL: empty). */
static void put_mark(Growing *out, const PlumbMarks *marks, const PlumbMark *mark,
                     const PlumbHead *head, const PlumbRow *row, const char *end)
{
    char value[PLUMB_MARKS_COLUMN_COUNT][PLUMB_PICTURE_NAME_SIZE];
    memset(value, 0, sizeof value);
    memcpy(value[PLUMB_COLUMN_picture], marks->picture[mark->still], PLUMB_PICTURE_NAME_SIZE);
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

static const PlumbMark *mark_of_line(const PlumbMarks *marks, int line)
{
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].line == line) {
            return &marks->mark[i];
        }
    }
    return NULL;
}

/* The lines of the old text, each as it was, changed or left out. */
static void put_old(Growing *out, const PlumbMarks *marks, const PlumbMarks *old,
                    const char *before, size_t length, const PlumbMarksMap *map, PlumbHead *head)
{
    int number = 0;
    const size_t start = byte_order_mark(before, length);
    put(out, before, start);
    for (size_t at = start; at < length;) {
        const size_t take = plumb_line_length(before + at, length - at);
        const char *const line = before + at;
        const PlumbMark *const was = mark_of_line(old, ++number);
        const PlumbMark *const is = mark_of_line(marks, number);
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
            put_mark(out, marks, is, head, &row, crlf ? "\r\n" : "\n");
        }
        at += take;
    }
}

PlumbStatus plumb_marks_text(const PlumbMarks *marks, const char *before, size_t before_length,
                             const PlumbMarksMap *map, char **text, size_t *length,
                             PlumbError *error)
{
    PlumbHead head = {.count = 0};
    Growing out = {.data = NULL};
    PlumbMarks *const old = calloc(1, sizeof *old);
    PlumbStatus status = PLUMB_OK;
    if (old == NULL) {
        out.failed = true;
    } else if (before_length > 0) {
        status = plumb_marks_parse(before, before_length, map, old, error);
    } else {
        for (int i = 0; i < PLUMB_MARKS_COLUMN_COUNT; i++) {
            head.at[i] = i;
            put(&out, ",", i > 0 ? 1 : 0);
            put_cell(&out, map->name[i]);
        }
        head.count = PLUMB_MARKS_COLUMN_COUNT;
        put(&out, "\n", 1);
    }
    if (status == PLUMB_OK && !out.failed) {
        put_old(&out, marks, old, before, before_length, map, &head);
        for (int i = 0; i < marks->count; i++) {
            if (marks->mark[i].line == 0) {
                put(&out, "\n", out.length > 0 && out.data[out.length - 1] != '\n' ? 1 : 0);
                put_mark(&out, marks, &marks->mark[i], &head, NULL, "\n");
            }
        }
    }
    free(old);
    if (status != PLUMB_OK || out.failed) {
        free(out.data);
        return status != PLUMB_OK ? status
                                  : plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "marks",
                                                    "no memory for the marks");
    }
    *text = out.data;
    *length = out.length;
    return PLUMB_OK;
}

PlumbStatus plumb_marks_save(const char *path, const PlumbMarks *marks, const PlumbMarksMap *map,
                             PlumbError *error)
{
    char *before = NULL;
    size_t before_length = 0;
    PlumbError absent;
    const PlumbStatus found =
        plumb_file_read_whole(path, PLUMB_MARKS_FILE_MAX_BYTES, &before, &before_length, &absent);
    char *text = NULL;
    size_t length = 0;
    PlumbStatus status =
        plumb_marks_text(marks, found == PLUMB_OK ? before : "",
                         found == PLUMB_OK ? before_length : 0, map, &text, &length, error);
    if (status == PLUMB_OK) {
        status = plumb_file_write_atomic(path, text, length, error);
    }
    free(text);
    free(before);
    return status;
}

bool plumb_marks_picture_path(const char *marks_path, const char *name, char *path, size_t size)
{
    const char *const slash = strrchr(marks_path, '/');
    PlumbText text = plumb_text_begin(path, size);
    if (slash != NULL && name[0] != '/') {
        plumb_text_bytes(&text, marks_path, (size_t)(slash - marks_path) + 1);
    }
    plumb_text_string(&text, name);
    return name[0] != '\0' && !text.cut;
}
