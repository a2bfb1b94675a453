/* SPDX-License-Identifier: MIT */
/* Files of marks: read whole. */
#include "io/marks_row.h"

#include "base/words.h"

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
    for (size_t at = plumb_byte_order_mark(bytes, length); at < length && status == PLUMB_OK;) {
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

typedef struct Reading {
    PlumbMarks *marks;
    PlumbToldRows *told;
} Reading;

static PlumbStatus take_row(const PlumbRow *row, const PlumbHead *head, int line, void *user,
                            PlumbError *error)
{
    const Reading *const reading = user;
    PlumbMarks *const marks = reading->marks;
    PlumbMark mark;
    if (plumb_told_row_is(row, head)) {
        return plumb_told_row_take(row, head, line, marks, reading->told, error);
    }
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

PlumbStatus plumb_marks_parse_rows(const char *bytes, size_t length, const PlumbMarksMap *map,
                                   PlumbMarks *marks, PlumbToldRows *rows, PlumbError *error)
{
    PlumbMarks *const read = calloc(1, sizeof *read);
    if (read == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "marks", "no memory for the marks");
    }
    Reading reading = {read, rows};
    rows->count = 0;
    const PlumbStatus status = plumb_rows_read(bytes, length, map, take_row, &reading, error);
    if (status == PLUMB_OK) {
        for (int i = 0; i < read->still_count; i++) {
            plumb_told_rows_of(rows, i, read->told[i]);
        }
        *marks = *read;
    }
    free(read);
    return status;
}

PlumbStatus plumb_marks_parse(const char *bytes, size_t length, const PlumbMarksMap *map,
                              PlumbMarks *marks, PlumbError *error)
{
    PlumbToldRows rows;
    return plumb_marks_parse_rows(bytes, length, map, marks, &rows, error);
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
