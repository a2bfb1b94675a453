/* SPDX-License-Identifier: MIT */
/* What a person has marked on pictures: the part of the Trace page that undo and the journal keep.
 */
#ifndef PLUMBAR_VIEWER_MARKED_H
#define PLUMBAR_VIEWER_MARKED_H

#include <plumbar/marks.h>

enum { PLUMB_MARKED_PATH_SIZE = 512 };

/* A flat value. Marks are in pixels of the pictures as they are in their files. */
typedef struct PlumbMarked {
    char path[PLUMB_MARKED_PATH_SIZE]; /* of the file of marks, "" where none is open */
    bool unsaved;
    PlumbMarks marks;
    int still;                    /* the picture that is shown; of a film the frame */
    bool film;                    /* picture[0] is one, mark.still is a frame of it */
    bool film_read;               /* the marks that stood beside it are here */
    double rate_per_s;            /* frames a second, 0: the film's own */
    bool front[PLUMB_STILLS_MAX]; /* it is marked as a view from the front */
    int facing[PLUMB_STILLS_MAX]; /* -1: the lifter faces left, the picture is shown mirrored */
} PlumbMarked;

/* Whether every count, index and number is within its range: for one read back from a disk. */
bool plumb_marked_holds(const PlumbMarked *marked);

/* Index of what is told of the view on show: all frames of a film are one view. */
int plumb_marked_view(const PlumbMarked *marked);
/* What is told of it. */
double plumb_marked_told(const PlumbMarked *marked, PlumbToldKey key);
void plumb_marked_tell(PlumbMarked *marked, PlumbToldKey key, double value);

/* A line of the guided list: which landmark, and how many marks it takes. */
typedef struct PlumbMarkRow {
    PlumbMarkName name;
    int least;
    int most;
} PlumbMarkRow;

enum { PLUMB_MARK_ROWS_MAX = 2 * PLUMB_LANDMARK_COUNT };

/* The list of a picture of a lift, in the order in which it is best marked, and at its end what
 * else is marked on it; returns how many rows. */
int plumb_mark_rows(const PlumbMarked *marked, PlumbLift lift,
                    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX]);
/* How many marks of a row the picture on show has. */
int plumb_marked_count(const PlumbMarked *marked, PlumbMarkName name);
/* Index of the last mark of a row, -1 where there is none. */
int plumb_marked_last(const PlumbMarked *marked, PlumbMarkName name);
/* The first row below `from`, round again, that still wants marks; from where none does. */
int plumb_marked_next(const PlumbMarked *marked, PlumbLift lift, int from);
/* Adds a mark to the picture on show; returns its index, -1 where there is no room. */
int plumb_marked_add(PlumbMarked *marked, PlumbMarkName name, PlumbVec2 pixel);
void plumb_marked_remove(PlumbMarked *marked, int index);
/* Appends a name as people read it: "far disc centre". */
void plumb_marked_name(PlumbText *text, PlumbMarkName name);

#endif
