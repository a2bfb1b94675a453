/* SPDX-License-Identifier: MIT */
/* One row of a file of marks, read apart and written together. */
#ifndef PLUMBAR_IO_MARKS_ROW_H
#define PLUMBAR_IO_MARKS_ROW_H

#include <plumbar/film_marks.h>
#include <plumbar/marks_file.h>

enum { PLUMB_ROW_CELLS = 64, PLUMB_ROW_BYTES = 4096 };

/* Cells of a line, unquoted. */
typedef struct PlumbRow {
    int count;
    const char *cell[PLUMB_ROW_CELLS];
    char bytes[PLUMB_ROW_BYTES];
    size_t used;
    bool too_long;
} PlumbRow;

/* Splits line[length] (with or without its end). false where quotes stand wrong or it is too
 * long. */
bool plumb_row_split(const char *line, size_t length, PlumbRow *row);

/* Which cell holds which column, -1 where none does. */
typedef struct PlumbHead {
    int at[PLUMB_MARKS_COLUMN_COUNT];
    int count; /* cells of the head */
} PlumbHead;

PlumbStatus plumb_head_read(const PlumbRow *row, const PlumbMarksMap *map, PlumbHead *head,
                            PlumbError *error);

/* The row as a mark, its picture added to marks. */
PlumbStatus plumb_mark_read(const PlumbRow *row, const PlumbHead *head, PlumbMarks *marks,
                            PlumbMark *mark, PlumbError *error);

/* The same of a film: mark->still is the number of its frame, -1 where only the time is given. */
PlumbStatus plumb_mark_read_frame(const PlumbRow *row, const PlumbHead *head, PlumbMark *mark,
                                  PlumbError *error);
/* What a row says but for where: landmark, place, error, time. */
PlumbStatus plumb_mark_read_seen(const PlumbRow *row, const PlumbHead *head, PlumbMark *mark,
                                 PlumbError *error);
/* A row that tells something beside the marks: key in the column landmark, value in x. */
typedef struct PlumbToldRow {
    PlumbToldKey key;
    double value;
    int still; /* -1: of every picture that has no such row of its own, or of the whole film */
    int line;
} PlumbToldRow;

typedef struct PlumbToldRows {
    int count;
    PlumbToldRow row[PLUMB_TOLD_COUNT * (PLUMB_STILLS_MAX + 1)];
} PlumbToldRows;

/* Whether a row is one of these. */
bool plumb_told_row_is(const PlumbRow *row, const PlumbHead *head);
/* Takes it. marks (NULL: of a film) gets the picture that it names. */
PlumbStatus plumb_told_row_take(const PlumbRow *row, const PlumbHead *head, int line,
                                PlumbMarks *marks, PlumbToldRows *rows, PlumbError *error);
/* What the rows tell of a picture, told[PLUMB_TOLD_COUNT], 0 where they are silent. */
void plumb_told_rows_of(const PlumbToldRows *rows, int still, double *told);

/* plumb_marks_parse and plumb_film_marks_parse, with the lines of what is told. */
PlumbStatus plumb_marks_parse_rows(const char *bytes, size_t length, const PlumbMarksMap *map,
                                   PlumbMarks *marks, PlumbToldRows *rows, PlumbError *error);
PlumbStatus plumb_film_marks_parse_rows(const char *bytes, size_t length, const PlumbMarksMap *map,
                                        PlumbFilmMarks *marks, PlumbToldRows *rows,
                                        PlumbError *error);

/* A complaint about a cell: its column, what it holds (NULL: not said), what is wrong. */
PlumbStatus plumb_cell_bad(PlumbError *error, const PlumbHead *head, PlumbMarksColumn column,
                           const char *quoted, const char *what);
/* The cell of a column, "" where there is none. */
const char *plumb_cell_of(const PlumbRow *row, const PlumbHead *head, PlumbMarksColumn column);

/* Of a rim, a scale and a post there are several points. */
bool plumb_mark_may_repeat(PlumbLandmark landmark);

/* Each row of a file of marks that is no comment and not the head. */
typedef PlumbStatus (*PlumbRowTake)(const PlumbRow *row, const PlumbHead *head, int line,
                                    void *user, PlumbError *error);
PlumbStatus plumb_rows_read(const char *bytes, size_t length, const PlumbMarksMap *map,
                            PlumbRowTake take, void *user, PlumbError *error);

/* Bytes of the mark that some programs put before a text: 0 or 3. */
size_t plumb_byte_order_mark(const char *bytes, size_t length);
/* Length of the line at bytes, its end included. */
size_t plumb_line_length(const char *bytes, size_t length);
/* A line without a mark: empty or a comment. */
bool plumb_line_is_blank(const char *line, size_t length);

const char *plumb_marks_column_name(PlumbMarksColumn column);

#endif
