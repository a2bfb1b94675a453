/* SPDX-License-Identifier: MIT */
/* The Trace page: a picture, marks under the hand, and what the fit reads from them. */
#ifndef PLUMBAR_VIEWER_PAGE_TRACE_H
#define PLUMBAR_VIEWER_PAGE_TRACE_H

#include "compose.h"

#include <plumbar/photo.h>
#include <plumbar/still.h>
#include <plumbar/underlay.h>

enum { PLUMB_TRACE_LEVELS = 12 };

/* What was read: figures, and beside them notes; where text is large both in the latter's zone. */
enum { PLUMB_READ_FIGURES, PLUMB_READ_NOTES, PLUMB_READ_ZONES };

/* What the hand holds. */
typedef enum PlumbTraceGrab {
    PLUMB_GRAB_NONE,
    PLUMB_GRAB_MARK, /* a mark, with the magnifier beside it */
    PLUMB_GRAB_PAN
} PlumbTraceGrab;

/* A picture unpacked, and its halves: one of them is near the size that is shown. */
typedef struct PlumbPyramid {
    char path[PLUMB_PATH_SIZE];   /* that it was read from, or that could not be read */
    char why[PLUMB_MESSAGE_SIZE]; /* it could not */
    PlumbPhoto photo;
    uint32_t *half; /* all levels below the first, one after the other */
    int level_count;
    PlumbUnderlay level[PLUMB_TRACE_LEVELS];
    unsigned generation; /* of what the levels hold */
} PlumbPyramid;

/* All that the page works out or shows; nothing of it has to survive. */
typedef struct PlumbTracing {
    PlumbPyramid pyramid;
    int row; /* of the guided list: the landmark that the next click places */
    PlumbPictureFit view;
    PlumbRect room; /* of the picture in the window */
    bool whole;     /* the picture fills the room; else zoom and place were chosen */
    int view_still; /* that view, row and whole belong to */
    PlumbTraceGrab grab;
    int held;         /* index of the mark that is held */
    bool placed;      /* it was set by this press */
    bool still_click; /* pressed on a mark and not moved: may be meant for the next landmark */
    PlumbVec2 press_mm;
    PlumbVec2 off_px; /* the mark less the pointer, kept while dragged */
    PlumbVec2 pan_mm; /* where the picture was taken hold of */
    bool pan_key;     /* Space is down: the button pans */
    bool pointer_in;  /* the pointer is over the picture */
    PlumbVec2 pointer_mm;
    PlumbVec2 magnified_px; /* middle of the magnifier */
    bool magnified;         /* the magnifier is shown */
    PlumbRect glass;        /* where */
    PlumbPictureFit glass_view;
    unsigned frame;
    int first_row; /* of the list, where it is scrolled */
    int rows_fit;
    int first_item[PLUMB_READ_ZONES]; /* of figures and notes, where they are scrolled */
    int items_fit[PLUMB_READ_ZONES];  /* in view; 0: they have room and do not scroll */
    bool notes_hold_all;              /* the figures stand with the notes */

    struct PlumbReel *reel; /* of a film, owned; NULL: pictures */

    bool stale; /* marks, lifter or set-up are newer than the fit */
    bool has_fit;
    int fitted_frame;             /* of a film, that the fit is of */
    int fitted[PLUMB_STILLS_MAX]; /* index among the stills of the fit, -1: it has too few marks */
    PlumbVec2 size_px[PLUMB_STILLS_MAX];
    uint64_t sizes_of;  /* hash of the paths that size_px belongs to */
    PlumbError why_not; /* there is no fit */
    PlumbStills stills;
} PlumbTracing;

/* Files (page_trace_file.c, page_trace_pyramid.c). */
bool plumb_trace_is_file(const char *path); /* its ending is that of a picture or of marks */
/* Opens a picture, with the marks beside it, or marks with their pictures: a step of undo. */
bool plumb_trace_open(PlumbDesk *desk, const char *path);
/* A further picture of the same lifter and lift, marked and fitted together with the first. */
bool plumb_trace_add(PlumbDesk *desk, const char *path);
bool plumb_trace_save(PlumbDesk *desk);
/* Reads the picture on show where it is another than before. */
void plumb_trace_load(PlumbDesk *desk);
void plumb_pyramid_free(PlumbPyramid *pyramid);
/* Takes the pixels of a frame in place of those that it holds; they are its own from then on. */
void plumb_pyramid_put(PlumbPyramid *pyramid, const PlumbPhoto *photo);
/* Puts pictures, marks or a film on the desk: a step of undo. */
void plumb_trace_put(PlumbDesk *desk, const PlumbMarked *marked);
/* Sets each mark's line: that of the same landmark at the same place in the file, counted from the
 * top, so that whatever undo has brought back, no mark is taken for another and none is left out.
 */
void plumb_trace_match_lines(PlumbMark *mark, int count, const PlumbMark *old, int old_count);
/* The name of the picture on show, "" where there is none. */
const char *plumb_trace_picture(const PlumbDesk *desk);

/* The fit (page_trace.c). */
PlumbTracing *plumb_tracing_create(void);
void plumb_tracing_destroy(PlumbTracing *tracing);
void plumb_trace_settle(PlumbDesk *desk);
/* Fits where something has changed; false where nothing is left to do. */
bool plumb_trace_work(PlumbDesk *desk, double seconds);
/* Fits the pictures to a lifter in a set-up. fitted: which picture became which still, -1 none.
 * stills is to be on the heap. */
PlumbStatus plumb_trace_fit_to(PlumbDesk *desk, const PlumbLifter *lifter,
                               const PlumbBodySpec *spec, const PlumbSetup *setup,
                               int fitted[PLUMB_STILLS_MAX], PlumbStills *stills,
                               PlumbError *error);
/* The still as read, NULL where there is no fit. */
const PlumbTraced *plumb_trace_read(const PlumbDesk *desk);
/* The figure over the picture on show, still *still of what is returned: of the picture's own
 * marks, else as the film was read. NULL where there is none. */
const PlumbStills *plumb_trace_figure(const PlumbDesk *desk, int *still);
/* Pixels of the picture on show, x 0 where they are not known. */
PlumbVec2 plumb_trace_size_px(const PlumbDesk *desk);

/* What buttons do (page_trace_do.c); each is a step of undo where it changes something. */
typedef enum PlumbTraceDeed {
    PLUMB_TRACE_MIRROR,
    PLUMB_TRACE_FRONT,
    PLUMB_TRACE_AIR,
    PLUMB_TRACE_WHOLE,
    PLUMB_TRACE_ADD,
    PLUMB_TRACE_LENGTH,
    PLUMB_TRACE_DISTANCE,
    PLUMB_TRACE_USE,
    PLUMB_TRACE_PLAY, /* these of a film */
    PLUMB_TRACE_SLOW,
    PLUMB_TRACE_FOLLOW,
    PLUMB_TRACE_DOUBT,
    PLUMB_TRACE_CHART,
    PLUMB_TRACE_RATE
} PlumbTraceDeed;
void plumb_trace_do(PlumbDesk *desk, int deed);
/* The word on the button of a deed. */
void plumb_trace_words(const PlumbDesk *desk, PlumbTraceDeed deed, PlumbText *text);
/* The set-up that starts as the film or the picture does, and words for it: from the side, of a
 * film that was read at lift-off or a squat's turn-round; of a press what turn-round and lockout,
 * or the pictures, tell. false where there is none (page_trace_start.c). */
bool plumb_trace_start(const PlumbDesk *desk, PlumbSetup *setup, PlumbText *text);
void plumb_trace_use_start(PlumbDesk *desk);
bool plumb_trace_can(const PlumbDesk *desk, PlumbTraceDeed deed);
/* Takes the line typed for a length, a distance or a further picture; false where it is refused. */
bool plumb_trace_take_field(PlumbDesk *desk, PlumbFieldUse use, const char *text);
/* Called before every change of marks. */
void plumb_trace_keep(PlumbDesk *desk, unsigned key);

/* Hands (page_trace_hands.c, page_trace_keys.c, page_trace_place.c); true: the event was the
 * page's. */
void plumb_trace_press(PlumbDesk *desk, PlumbVec2 at_mm);
bool plumb_trace_move(PlumbDesk *desk, PlumbVec2 at_mm);
bool plumb_trace_release(PlumbDesk *desk, PlumbVec2 at_mm);
/* Another button than the left. */
void plumb_trace_pan(PlumbDesk *desk, PlumbVec2 at_mm, bool down);
bool plumb_trace_wheel(PlumbDesk *desk, PlumbVec2 at_mm, int notches);
bool plumb_trace_key(PlumbDesk *desk, int key, unsigned mods, bool repeated);
void plumb_trace_key_up(PlumbDesk *desk);
void plumb_trace_pick_row(PlumbDesk *desk, int row);
/* A factor about a place of the window. */
void plumb_trace_zoom(PlumbDesk *desk, PlumbVec2 at_mm, double factor);

/* Zones (page_trace_draw.c, page_trace_list.c, page_trace_table.c). */
void plumb_trace_views(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
void plumb_trace_glass(PlumbDesk *desk, const PlumbBoard *board);
void plumb_trace_list(PlumbDesk *desk, const PlumbBoard *board);
void plumb_trace_table(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
void plumb_trace_notes(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect);
/* The figures of a still that its view shows, as PlumbReading, the most important first; returns
 * how many (page_trace_figures.c). */
enum { PLUMB_TRACE_FIGURES = 42 };
int plumb_trace_figures(const PlumbStills *stills, int still, int reading[PLUMB_TRACE_FIGURES]);
const char *plumb_trace_figure_name(int reading);
/* From which end of the bench a press is seen, a sentence after a space; "" from the side. */
const char *plumb_trace_end_words(const PlumbTraced *traced);
/* Moves figures or notes on by items, where they have no room for all. */
void plumb_trace_scroll(PlumbDesk *desk, int zone, int by);
/* By as many as are in view; zone PLUMB_READ_ZONES is the list of landmarks, its choice moves. */
void plumb_trace_leaf(PlumbDesk *desk, int zone, int by);
/* Where large text leaves figures no room beside notes both get the whole width, with the notes
 * below the figures. */
void plumb_trace_layout(PlumbDesk *desk, const PlumbBoard *board, double pad_mm);
/* Words for scripts (page_trace_state.c). */
void plumb_trace_state(const PlumbDesk *desk, PlumbText *text);

/* Pixels (page_trace_paint.c): pane 1 the picture, 2 the magnifier. */
enum { PLUMB_PANE_NONE, PLUMB_PANE_PICTURE, PLUMB_PANE_GLASS };
void plumb_trace_paint(const PlumbDesk *desk, cairo_t *cairo, int pane, double px_per_mm);
/* What decides the pixels of a pane. */
uint64_t plumb_trace_stamp(const PlumbDesk *desk, int pane);

/* Files out (page_trace_export.c): the annotated picture, and its readings as CSV. */
PlumbStatus plumb_trace_export(PlumbDesk *desk, const char *path, const char *date,
                               PlumbBytes *bytes, PlumbError *error);
void plumb_trace_csv(const PlumbDesk *desk, PlumbText *text);

#endif
