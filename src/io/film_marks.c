/* SPDX-License-Identifier: MIT */
/* Files of marks on a film: the rows of a still's, with a frame in place of a picture. */
#include <plumbar/film_marks.h>

#include "io/marks_row.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

PlumbMarksMap plumb_film_map_default(void)
{
    PlumbMarksMap map = plumb_marks_map_default();
    memcpy(map.name[PLUMB_COLUMN_picture], "frame", sizeof "frame");
    return map;
}

static PlumbStatus fault(PlumbError *error, int line, const char *field, const char *message)
{
    plumb_error_set(error, PLUMB_BAD_INPUT, field, message);
    if (error != NULL) {
        error->line = line;
        error->column = 1;
    }
    return PLUMB_BAD_INPUT;
}

typedef struct Reading {
    PlumbFilmMarks *marks;
    PlumbToldRows *told;
} Reading;

static PlumbStatus take(const PlumbRow *row, const PlumbHead *head, int line, void *user,
                        PlumbError *error)
{
    const Reading *const reading = user;
    PlumbFilmMarks *const marks = reading->marks;
    PlumbMark mark;
    if (plumb_told_row_is(row, head)) {
        return plumb_told_row_take(row, head, line, NULL, reading->told, error);
    }
    if (marks->count == PLUMB_FILM_MARKS_MAX) {
        return fault(error, line, "marks", "more than 4000 marks");
    }
    if (plumb_mark_read_frame(row, head, &mark, error) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
    mark.line = line;
    marks->mark[marks->count++] = mark;
    return PLUMB_OK;
}

PlumbStatus plumb_film_marks_parse_rows(const char *bytes, size_t length, const PlumbMarksMap *map,
                                        PlumbFilmMarks *marks, PlumbToldRows *rows,
                                        PlumbError *error)
{
    PlumbFilmMarks *const read = calloc(1, sizeof *read);
    if (read == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "marks", "no memory for the marks");
    }
    Reading reading = {read, rows};
    rows->count = 0;
    const PlumbStatus status = plumb_rows_read(bytes, length, map, take, &reading, error);
    if (status == PLUMB_OK) {
        plumb_told_rows_of(rows, -1, read->told);
        *marks = *read;
    }
    free(read);
    return status;
}

PlumbStatus plumb_film_marks_parse(const char *bytes, size_t length, const PlumbMarksMap *map,
                                   PlumbFilmMarks *marks, PlumbError *error)
{
    PlumbToldRows rows;
    return plumb_film_marks_parse_rows(bytes, length, map, marks, &rows, error);
}

/* The nearest frame to a time; -1 where it lies outside the film by more than half a step. */
static int frame_at(const double *time_s, int count, double t)
{
    const double step = count > 1 ? (time_s[count - 1] - time_s[0]) / (count - 1) : 0.04;
    int best = 0;
    for (int i = 1; i < count; i++) {
        best = fabs(time_s[i] - t) < fabs(time_s[best] - t) ? i : best;
    }
    return fabs(time_s[best] - t) <= 0.75 * step ? best : -1;
}

static bool is_twice(const PlumbFilmMarks *marks, int index)
{
    const PlumbMark *const mark = &marks->mark[index];
    for (int i = 0; i < index && !plumb_mark_may_repeat(mark->name.landmark); i++) {
        const PlumbMark *const other = &marks->mark[i];
        if (other->still == mark->still && other->name.landmark == mark->name.landmark &&
            other->name.near == mark->name.near) {
            return true;
        }
    }
    return false;
}

PlumbStatus plumb_film_marks_place(PlumbFilmMarks *marks, const double *time_s, int frame_count,
                                   PlumbError *error)
{
    for (int i = 0; i < marks->count; i++) {
        PlumbMark *const mark = &marks->mark[i];
        const bool by_time = mark->still < 0;
        mark->still = by_time ? frame_at(time_s, frame_count, mark->time_s) : mark->still;
        if (mark->still < 0 || mark->still >= frame_count) {
            char message[PLUMB_MESSAGE_SIZE];
            PlumbText text = plumb_text_begin(message, sizeof message);
            plumb_text_string(&text, by_time ? "the film has no such time; it ends at "
                                             : "the film has no such frame; its last is ");
            if (by_time) {
                plumb_text_fixed(&text, time_s[frame_count - 1], 3);
                plumb_text_string(&text, " s");
            } else {
                plumb_text_integer(&text, frame_count - 1);
            }
            return fault(error, mark->line, by_time ? "time" : "frame", message);
        }
        mark->time_s = time_s[mark->still];
        if (is_twice(marks, i)) {
            return fault(error, mark->line, "landmark",
                         "is marked twice in this frame; leave one out");
        }
    }
    return PLUMB_OK;
}
