/* SPDX-License-Identifier: MIT */
/* Marks beside a picture: a CSV that a person or any program can write, read strictly and written
 * back so that every line that need not change stays as it is. */
#ifndef PLUMBAR_MARKS_FILE_H
#define PLUMBAR_MARKS_FILE_H

#include <plumbar/file.h>
#include <plumbar/marks.h>

enum { PLUMB_MARKS_FILE_MAX_BYTES = 1 << 20, PLUMB_MARKS_COLUMN_SIZE = 64 };

/* Columns of the file: picture, time (s), landmark, x, y (px), sigma (px). landmark, x and y must
 * be there; all others may be left out or empty. */
#define PLUMB_MARKS_COLUMN_LIST(X)                                                                 \
    X(picture)                                                                                     \
    X(time)                                                                                        \
    X(landmark)                                                                                    \
    X(x)                                                                                           \
    X(y)                                                                                           \
    X(sigma)

typedef enum PlumbMarksColumn {
#define X(name) PLUMB_COLUMN_##name,
    PLUMB_MARKS_COLUMN_LIST(X)
#undef X
        PLUMB_MARKS_COLUMN_COUNT
} PlumbMarksColumn;

/* What each column is called in the file: for files that other programs write. */
typedef struct PlumbMarksMap {
    char name[PLUMB_MARKS_COLUMN_COUNT][PLUMB_MARKS_COLUMN_SIZE];
} PlumbMarksMap;

/* Every column by its own name. */
PlumbMarksMap plumb_marks_map_default(void);
/* Reads "landmark=point,x=px_x": the columns named, by what the file calls them. PLUMB_BAD_INPUT
 * says what is allowed. */
PlumbStatus plumb_marks_map_read(const char *text, PlumbMarksMap *map, PlumbError *error);

/* Reads bytes[length]. Lines that begin with # are comments; other columns are left alone. A row
 * whose landmark is a PlumbToldKey tells that of its picture, with the value in column x; without a
 * picture, of every picture that has no such row of its own.
 * PLUMB_BAD_INPUT with line, column (of the row's cells, from 1) and the column's name: an unknown
 * landmark (with the nearest), no number, not finite, a sigma that is not above zero, too many
 * pictures or marks, a landmark twice on one picture that can be there once, something told that is
 * not allowed or told twice. *marks is untouched on failure. */
PlumbStatus plumb_marks_parse(const char *bytes, size_t length, const PlumbMarksMap *map,
                              PlumbMarks *marks, PlumbError *error);

/* Marks as the text of a file. before[before_length], "" for a new file, is the text that they were
 * read from: lines whose mark is unchanged, comments and empty lines stay byte by byte; a changed
 * mark's line is written anew with its other columns; lines whose mark is gone are left out; new
 * marks (line 0) come at the end, then what is newly told. *text is heap memory of the caller. */
PlumbStatus plumb_marks_text(const PlumbMarks *marks, const char *before, size_t before_length,
                             const PlumbMarksMap *map, char **text, size_t *length,
                             PlumbError *error);

/* Saves to path, whole or not at all: over the file that is there, as above. */
PlumbStatus plumb_marks_save(const char *path, const PlumbMarks *marks, const PlumbMarksMap *map,
                             PlumbError *error);

/* The path of a picture that marks at marks_path name: beside them, unless the name is a whole
 * path. false: it has no name, or does not fit. */
bool plumb_marks_picture_path(const char *marks_path, const char *name, char *path, size_t size);

#endif
