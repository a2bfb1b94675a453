/* SPDX-License-Identifier: MIT */
/* Marks on a film: which landmark was seen where in which frame. */
#ifndef PLUMBAR_FILM_MARKS_H
#define PLUMBAR_FILM_MARKS_H

#include <plumbar/marks_file.h>

enum { PLUMB_FILM_MARKS_MAX = 4000 };

/* In the order of the file. mark.still is the number of its frame, from 0; -1: by its time_s. */
typedef struct PlumbFilmMarks {
    double told[PLUMB_TOLD_COUNT]; /* by PlumbToldKey; 0: not told */
    int count;
    PlumbMark mark[PLUMB_FILM_MARKS_MAX];
} PlumbFilmMarks;

/* Every column by its own name, but `frame` for the picture. */
PlumbMarksMap plumb_film_map_default(void);

/* Reads bytes[length], a CSV as of stills: columns frame (whole number from 0) or time (s),
 * landmark, x, y (px), sigma (px); rows that tell something have no frame. PLUMB_BAD_INPUT with
 * line, column and the column's name. *marks is untouched on failure. */
PlumbStatus plumb_film_marks_parse(const char *bytes, size_t length, const PlumbMarksMap *map,
                                   PlumbFilmMarks *marks, PlumbError *error);

/* Puts every mark onto its frame by the times of the frames: mark.still is then set, and time_s
 * that of the frame. PLUMB_BAD_INPUT: a frame or time that the film does not have, or a landmark
 * twice in a frame that can be there once; error->line says where. */
PlumbStatus plumb_film_marks_place(PlumbFilmMarks *marks, const double *time_s, int frame_count,
                                   PlumbError *error);

/* The marks, placed on their frames, as the text of a file, and saved: as plumb_marks_text and
 * plumb_marks_save do for pictures. */
PlumbStatus plumb_film_marks_text(const PlumbFilmMarks *marks, const char *before,
                                  size_t before_length, const PlumbMarksMap *map, char **text,
                                  size_t *length, PlumbError *error);
PlumbStatus plumb_film_marks_save(const char *path, const PlumbFilmMarks *marks,
                                  const PlumbMarksMap *map, PlumbError *error);

#endif
