/* SPDX-License-Identifier: MIT */
/* A film from its frames and marks to its findings: opened, followed, fitted, judged. Command and
 * window read films by this alone. */
#ifndef PLUMBAR_FILM_READING_H
#define PLUMBAR_FILM_READING_H

#include <plumbar/film_marks.h>
#include <plumbar/frames.h>
#include <plumbar/series.h>

/* What is being done, for whoever waits. */
typedef enum PlumbFilmStep {
    PLUMB_FILM_LOOKS,
    PLUMB_FILM_FOLLOWS,
    PLUMB_FILM_FITS,
    PLUMB_FILM_DRAWS
} PlumbFilmStep;

const char *plumb_film_step_text(PlumbFilmStep step);

/* Told how far a step has come, 0 to 1; false stops. */
typedef bool (*PlumbFilmTell)(void *user, PlumbFilmStep step, double done_frac);

/* What is asked beside the marks; pointers are borrowed. */
typedef struct PlumbFilmQuestion {
    const PlumbLifter *lifter;
    const PlumbBodySpec *spec; /* that the lifter's body was built from */
    const PlumbSetup *setup;
    int facing;        /* 1 right, -1 left, 0 by the marks */
    double distance_m; /* these: 0 not told */
    double disc_out_m;
    double scale_m;
    double error_m; /* of a joint */
    double cutoff_hz;
    bool in_the_air;                      /* a pull that does not begin on the floor */
    double limit[PLUMB_FILM_LIMIT_COUNT]; /* NaN: the default */
} PlumbFilmQuestion;

/* A lifter and set-up, nothing else told, every threshold at its default. */
PlumbFilmQuestion plumb_film_question(const PlumbLifter *lifter, const PlumbBodySpec *spec,
                                      const PlumbSetup *setup);
/* Puts in what is told beside marks; what is not stays. */
void plumb_film_question_tell(PlumbFilmQuestion *question, const double told[PLUMB_TOLD_COUNT]);

/* One block for the heap; arrays are its own. Begin with all bytes 0. */
typedef struct PlumbFilmReading {
    PlumbFrames *frames;
    int width_px;
    int height_px;
    int frame_count;
    double *time_s;
    PlumbFilmMarks marks; /* placed on their frames */
    int track_count;
    PlumbSeriesTrack track[PLUMB_TRACKS_MAX];
    PlumbAnchor anchor[PLUMB_FILM_MARKS_MAX];
    PlumbTrackAsk follow;
    PlumbTracks tracks;
    int fixed_count;
    PlumbMark fixed[PLUMB_SERIES_FIXED];
    double mirror_width_px;
    PlumbTraceBody body;
    PlumbSeriesAsk ask;
    PlumbSeriesFrame *frame;
    PlumbSeries series;
    int finding_count;
    PlumbFilmFinding finding[PLUMB_FILM_LIMIT_COUNT];
    bool stopped; /* tell() said so */
} PlumbFilmReading;

/* Opens the film and looks through it. tell may be NULL. Fails as plumb_frames_open and
 * plumb_frames_survey do, and where memory is out. */
PlumbStatus plumb_film_reading_open(PlumbFilmReading *reading, const char *path,
                                    const PlumbFramesOptions *options, PlumbFilmTell tell,
                                    void *user, PlumbError *error);

/* The same film once more: frames and times come from *before, which is left without them. false
 * where it has none. */
bool plumb_film_reading_again(PlumbFilmReading *reading, PlumbFilmReading *before);

/* Makes tracks, anchors and fixed marks out of reading->marks, and finds which way the lifter
 * faces. PLUMB_BAD_INPUT: nothing of the lifter is marked, a rim that is no ellipse (error->line of
 * its mark), too many landmarks. */
PlumbStatus plumb_film_reading_tracks(PlumbFilmReading *reading, const PlumbFilmQuestion *question,
                                      PlumbError *error);

/* Follows the tracks through all frames, or, where `before` (may be NULL) is a reading of the same
 * film that differs in the marks of one track in one frame, those frames only that this changes;
 * nothing where it does not differ.
 * PLUMB_BAD_INPUT, field "camera": it moves and the background does not tell how. */
PlumbStatus plumb_film_reading_follow(PlumbFilmReading *reading, const PlumbFilmReading *before,
                                      PlumbFilmTell tell, void *user, PlumbError *error);

/* Fits the series, finds what there is to remark. Fails as plumb_series_read. */
PlumbStatus plumb_film_reading_fit(PlumbFilmReading *reading, const PlumbFilmQuestion *question,
                                   PlumbFilmTell tell, void *user, PlumbError *error);

void plumb_film_reading_free(PlumbFilmReading *reading);

/* A track in a frame. */
const PlumbTrackPoint *plumb_film_point(const PlumbFilmReading *reading, int track, int frame);
/* How many of a track's frames are in doubt; the longest run begins at *from, ends at *to. */
int plumb_film_doubtful(const PlumbFilmReading *reading, int track, int *from, int *to);
/* A track that is in doubt in a frame and can be corrected there by a mark; -1 where none is: a
 * disc that stands before a joint is no doubt that a mark would end. */
int plumb_film_doubt_at(const PlumbFilmReading *reading, int frame);
/* Events by their time: the one after `last` (-1: the first); -1 where there is none. */
int plumb_film_next_event(const PlumbSeries *series, int last);
/* Appends a remark: value, spread, time, frame, and the settings that bear on it. */
void plumb_film_finding_text(PlumbText *text, const PlumbFilmReading *reading, int finding,
                             PlumbUnits units);

/* "side", "front", of a press from its ends "head" or "foot". */
const char *plumb_film_view(const PlumbSeries *series);

/* Columns of a film's series beside frame and time, as files call them: SI, a unit in each name.
 * From the front there are others than from the side, and of a press others again. */
int plumb_film_columns(const PlumbSeries *series);
const char *plumb_film_column_name(const PlumbSeries *series, int column);
/* The figure of a frame; NaN where there is none. */
double plumb_film_column_value(const PlumbSeries *series, int column, int frame);

#endif
