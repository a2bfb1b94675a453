/* SPDX-License-Identifier: MIT */
/* A film on the Trace page. Frames are fetched, marks followed and the lift fitted by threads, so
 * that the window never waits; their results are taken in while it is idle. */
#ifndef PLUMBAR_VIEWER_REEL_H
#define PLUMBAR_VIEWER_REEL_H

#include "compose.h"

#include <plumbar/advice.h>
#include <plumbar/film_chart.h>
#include <plumbar/film_pages.h>
#include <plumbar/still.h>

typedef enum PlumbReelPace { PLUMB_PACE_STILL, PLUMB_PACE_REAL, PLUMB_PACE_SLOW } PlumbReelPace;

/* What a reading was made of. */
typedef struct PlumbReelBasis {
    PlumbMarked marked;
    PlumbLifter lifter;
    PlumbBodySpec spec;
    PlumbSetup setup;
} PlumbReelBasis;

/* A file that is made of what was read. */
typedef struct PlumbReelFile {
    char path[PLUMB_PATH_SIZE];
    PlumbPictureKind kind;
    char name[PLUMB_PICTURE_NAME_SIZE]; /* of the film */
    char day[32];
    PlumbFilmPages pages; /* all but read, name and day, which are set to these */
    bool written;         /* what came of it; neither written nor wrong: stopped */
    bool replaced;
    PlumbStatus status;
    PlumbError error;
} PlumbReelFile;

typedef struct PlumbReel {
    char path[PLUMB_PATH_SIZE]; /* of the film */
    double rate_per_s;          /* as asked for, 0: its own */
    bool known;                 /* it is looked through */
    double looked_frac;
    int frame_count;
    double *time_s;
    char why[PLUMB_MESSAGE_SIZE];  /* it cannot be shown */
    char lost[PLUMB_MESSAGE_SIZE]; /* what of it cannot be read, "" where nothing is missing */
    int shown;                     /* frame whose pixels the picture holds, -1: none */

    PlumbReelPace pace;
    double begun_s; /* of the window's clock, when playing began */
    int begun_frame;

    bool reading; /* a thread follows or fits */
    bool drawing; /* a thread makes a file */
    PlumbFilmStep step;
    double done_frac;
    PlumbFilmReading *read; /* the last that came to an end, NULL: none; its frames are not ours */
    PlumbReelBasis *basis;  /* of it */
    bool fitted;            /* its series holds */
    char not_read[PLUMB_MESSAGE_SIZE]; /* why it does not */
    bool chart;                        /* shown in place of the picture */

    PlumbStills *figure; /* of the frame figure_frame, NULL: none was drawn yet */
    int figure_frame;    /* -1: of none */
    PlumbReelFile *file; /* that has come to an end and is to be told */

    struct PlumbReelFetch *fetch;
    struct PlumbReelJob *job;
} PlumbReel;

/* Threads (reel.c, reel_fetch.c, reel_job.c). NULL where memory is out; the film is looked through
 * from then on. */
PlumbReel *plumb_reel_open(const char *path, double rate_per_s);
void plumb_reel_close(PlumbReel *reel);
/* Wants a frame's pixels. */
void plumb_reel_want(PlumbReel *reel, int frame);
/* Takes in what the threads have done, waiting for it for up to seconds. *photo gets pixels that
 * came, else width 0; true where something has come. */
bool plumb_reel_take(PlumbReel *reel, double seconds, PlumbPhoto *photo);
/* Whether something is still to come. */
bool plumb_reel_waits(const PlumbReel *reel);
/* Begins to follow and fit; false where it is running already, or memory is out. */
bool plumb_reel_read(PlumbReel *reel, const PlumbReelBasis *basis);
/* Begins to make a file of what was read; false as above. */
bool plumb_reel_draw(PlumbReel *reel, const PlumbReelFile *order);
void plumb_reel_stop(PlumbReel *reel);

/* Files (reel_file.c). */
bool plumb_reel_is_film(const char *path); /* a folder, or the ending of a video */
const char *plumb_reel_first_words(void);  /* what to do with a film */
/* A step of undo. */
bool plumb_reel_open_film(PlumbDesk *desk, const char *path);
/* Marks of the file beside the film, once its frames are known. */
void plumb_reel_read_marks(PlumbDesk *desk);
PlumbStatus plumb_reel_write_marks(const PlumbDesk *desk, PlumbError *error);

/* Hands and time (reel_do.c, reel_follow.c). Each does nothing where there is no film. */
PlumbReel *plumb_reel_of(const PlumbDesk *desk); /* NULL where the page shows none */
/* Opens or closes it as the marks say, and moves on what is playing. */
void plumb_reel_settle(PlumbDesk *desk);
bool plumb_reel_work(PlumbDesk *desk, double seconds);
void plumb_reel_go(PlumbDesk *desk, int frame);
void plumb_reel_step(PlumbDesk *desk, int frames);
/* share of the timeline, 0 to 1. */
void plumb_reel_scrub(PlumbDesk *desk, double share);
void plumb_reel_play(PlumbDesk *desk, PlumbReelPace pace);
void plumb_reel_halt(PlumbDesk *desk);
void plumb_reel_follow(PlumbDesk *desk);
void plumb_reel_next_doubt(PlumbDesk *desk);
/* What the first remark that has something to try behind it asks for; false: none has. */
bool plumb_reel_first_aim(const PlumbDesk *desk, PlumbAim *aim);
/* The word on a button: deed is a PlumbTraceDeed. */
void plumb_reel_words(const PlumbDesk *desk, int deed, PlumbText *text);
/* Whether marks or questions are other than those of the last reading. */
bool plumb_reel_stale(const PlumbDesk *desk);
/* Frames with a doubt that a mark would end. */
int plumb_reel_doubts(const PlumbReel *reel);

/* Files out (reel_export.c). Whether the page's file is that of the whole film. */
bool plumb_reel_written(const PlumbDesk *desk);
/* Begins to write it; false: the name stays to be changed, the notes say why. */
bool plumb_reel_export(PlumbDesk *desk, const char *path);
/* Tells what came of it. */
void plumb_reel_tell_export(PlumbDesk *desk);
/* The series, a row a frame. */
void plumb_reel_csv(const PlumbDesk *desk, PlumbText *text);

/* Zones (reel_draw.c, reel_table.c), and words for them (reel_words.c). */
/* Its height below a picture, both within height_mm. */
double plumb_reel_timeline_mm(const PlumbBoard *board, double height_mm);
void plumb_reel_timeline(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
/* The figure that was read from the frame on show; NULL where there is none. */
const PlumbStills *plumb_reel_figure(const PlumbDesk *desk);
/* Where the marks were followed to in the frame on show. */
void plumb_reel_places(const PlumbDesk *desk, const PlumbBoard *board, const PlumbPictureFit *fit);
void plumb_reel_chart(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
/* Text of the chart grows only as long as its panels keep room in rect. */
double plumb_reel_chart_scale(const PlumbDesk *desk, PlumbRect rect);
/* Whether the chart stands in place of the picture. */
bool plumb_reel_charts(const PlumbDesk *desk);
PlumbFilmChart plumb_reel_chart_of(const PlumbDesk *desk, double text_scale);
/* Appends how a landmark that is not marked in the frame on show was followed there; false: no. */
bool plumb_reel_say_row(const PlumbDesk *desk, PlumbMarkName name, PlumbText *text);
/* Appends what is shown and what is being done. */
void plumb_reel_say(const PlumbDesk *desk, PlumbText *text);
/* false where there is nothing of the film to say. */
bool plumb_reel_table(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
/* How many paragraphs the notes have: remarks, and how sure the reading is; 0: no film was read. */
int plumb_reel_paragraphs(const PlumbDesk *desk);
/* Whether a finding is among the remarks. */
bool plumb_reel_remarks(const PlumbDesk *desk, PlumbFindingId id);
/* Appends one; returns the frame that a remark shows in, else -1. */
int plumb_reel_paragraph(const PlumbDesk *desk, int index, PlumbText *text);
void plumb_reel_state(const PlumbDesk *desk, PlumbText *text);

#endif
