/* SPDX-License-Identifier: MIT */
/* All that the window knows, apart from SDL: what is set, what is shown, and what has the focus. */
#ifndef PLUMBAR_VIEWER_DESK_H
#define PLUMBAR_VIEWER_DESK_H

#include "crowd.h"
#include "curve.h"
#include "layout.h"
#include "marked.h"
#include "page.h"
#include "ruler_body.h"
#include "slice.h"
#include "family.h"
#include "sure.h"
#include "tried.h"
#include "viewer.h"

#include <plumbar/advice.h>
#include <plumbar/draw.h>

enum {
    PLUMB_DESK_NAME_SIZE = PLUMB_LIFTER_NAME_SIZE,
    PLUMB_DESK_MESSAGE_SIZE = 600,
    PLUMB_PATH_SIZE = 512,
    PLUMB_NAMED_MAX = 24,
    PLUMB_STAMPS_MAX = 8,
    PLUMB_HISTORY_MAX = 200,
    PLUMB_WIDGETS_MAX = 160,
    PLUMB_PLACES_MAX = PLUMB_RULER_COUNT
};

/* Keys that are held with another one; bits. */
enum { PLUMB_MOD_NONE = 0, PLUMB_MOD_SHIFT = 1, PLUMB_MOD_CTRL = 2 };

/* A set-up under its name. */
typedef struct PlumbNamed {
    char name[PLUMB_DESK_NAME_SIZE];
    PlumbSetup setup;
} PlumbNamed;

/* What undo brings back. A flat value. */
typedef struct PlumbSheet {
    char path[PLUMB_PATH_SIZE]; /* of the lifter file, "" where there is none yet */
    bool unsaved;               /* something was changed since it was read or saved */
    PlumbLifterRecord record;
    PlumbLifter lifter; /* built from the record */
    PlumbNamed named[PLUMB_NAMED_MAX];
    int named_count;
    PlumbLift lift;
    PlumbSetup setup[PLUMB_LIFT_COUNT];
    char setup_name[PLUMB_LIFT_COUNT][PLUMB_DESK_NAME_SIZE];
    bool pencilled;
    PlumbLifterRecord pencil_record;
    PlumbLifter pencil_lifter;
    PlumbSetup pencil;
    char pencil_name[PLUMB_DESK_NAME_SIZE];
    PlumbMarked marked; /* of the Trace page */
} PlumbSheet;

/* Past and future sheets; changes with the same non-zero key in a row are one step. */
typedef struct PlumbHistory {
    PlumbSheet past[PLUMB_HISTORY_MAX];
    PlumbSheet future[PLUMB_HISTORY_MAX];
    int past_count;
    int future_count;
    unsigned key;
} PlumbHistory;

/* What can be pointed at. Those that are stops are reached by Tab in the order of the list. */
typedef enum PlumbWidgetKind {
    PLUMB_WIDGET_NONE,
    PLUMB_WIDGET_BUTTON, /* id: PlumbCommandId */
    PLUMB_WIDGET_TABLE,
    PLUMB_WIDGET_RULER,  /* id: PlumbSettingId */
    PLUMB_WIDGET_FIGURE, /* id: PlumbSettingId, its typed figure */
    PLUMB_WIDGET_SCRUB,  /* of the Path page, and of a film */
    PLUMB_WIDGET_MAP,
    PLUMB_WIDGET_PICTURE, /* of the Trace page */
    PLUMB_WIDGET_MARKS,   /* its list of landmarks */
    PLUMB_WIDGET_MARK,    /* a line of that list; id: which */
    PLUMB_WIDGET_FRAME,   /* words that belong to a frame of a film; id: its number */
    PLUMB_WIDGET_OPTION,  /* of what to try first; id: its place */
    PLUMB_WIDGET_READ,    /* figures (0) and notes (1) of the Trace page that scroll */
    PLUMB_WIDGET_LEAF,    /* the strip below them, or (2) the list of landmarks; id: twice which, 1
                             more: down */
    PLUMB_WIDGET_SLIP,    /* a row of the slip that is shown, then its two buttons */
    PLUMB_WIDGET_NOTES, /* where they scroll; id: 0 all, 1 and 2 the strip, back and further down */
    PLUMB_WIDGET_FOLD,  /* the strip below the rulers; id: 1 further down, 0 back */
    PLUMB_WIDGET_KIND_COUNT
} PlumbWidgetKind;

typedef struct PlumbWidgetRef {
    PlumbWidgetKind kind;
    int id;
} PlumbWidgetRef;

typedef struct PlumbWidget {
    PlumbWidgetRef ref;
    PlumbRect rect;
    bool stop;
} PlumbWidget;

/* Where a ruler was drawn: its line runs from x0_mm (least) to x1_mm (most). */
typedef struct PlumbRulerPlace {
    PlumbSettingId id;
    PlumbRect rect;
    PlumbRect figure;
    double x0_mm;
    double x1_mm;
    double y_mm;
    double band_mm; /* height of curves and hatching above the line */
} PlumbRulerPlace;

typedef struct PlumbDrag {
    bool on;
    PlumbSettingId id;
    double grab_mm; /* pointer less the place of the value, kept while dragged */
    PlumbVec2 at_mm;
    bool moved;
} PlumbDrag;

/* A line of text being typed: into a ruler's figure, or the name of a file. */
typedef enum PlumbFieldUse {
    PLUMB_FIELD_SHUT,
    PLUMB_FIELD_RULER,
    PLUMB_FIELD_EXPORT,
    PLUMB_FIELD_OPEN,
    PLUMB_FIELD_SAVE,
    PLUMB_FIELD_LIFTER,   /* a line of the form */
    PLUMB_FIELD_PICTURE,  /* a further picture of the Trace page */
    PLUMB_FIELD_LENGTH,   /* a known length in it */
    PLUMB_FIELD_DISTANCE, /* from its camera to the lifter */
    PLUMB_FIELD_RATE,     /* frames a second of a film */
    PLUMB_FIELD_NAME,     /* of a set-up that is kept under a new name */
    PLUMB_FIELD_HANDOUT,
    PLUMB_FIELD_SHARE,
    PLUMB_FIELD_SLIP /* a line of the slip that is shown */
} PlumbFieldUse;

enum { PLUMB_FIELD_TEXT_SIZE = PLUMB_PATH_SIZE };

typedef struct PlumbField {
    PlumbFieldUse use;
    PlumbSettingId id;
    char text[PLUMB_FIELD_TEXT_SIZE];
    size_t length;
    size_t caret;
    bool all; /* all of it is selected: typing replaces it */
    bool wrong;
    bool asked; /* Enter once more does what was asked about */
    int recent; /* which of the recent files stands in it; -1: typed */
} PlumbField;

/* What stands in front of the window until a key is pressed. */
typedef enum PlumbCard {
    PLUMB_CARD_NONE,
    PLUMB_CARD_MEASURING,
    PLUMB_CARD_FILMING,
    PLUMB_CARD_WELCOME
} PlumbCard;

/* A sheet to fill in that stands in front of the window (slip.h). */
typedef enum PlumbSlipKind { PLUMB_SLIP_NONE, PLUMB_SLIP_HANDOUT, PLUMB_SLIP_LOG } PlumbSlipKind;

/* What to try first, for one goal. */
typedef struct PlumbTry {
    bool on;
    int index; /* of the goal */
    PlumbAdvice advice;
    PlumbOption option[PLUMB_OPTION_MAX];
} PlumbTry;

/* How far the notes are scrolled, where they do not fit. */
typedef struct PlumbNotesScroll {
    double top_mm;  /* scrolled away above */
    double most_mm; /* as far as it can be; 0: all is in view */
    double line_mm;
    double page_mm; /* by one key */
} PlumbNotesScroll;

/* How a file was when this window last read or wrote it. */
typedef struct PlumbStamp {
    char path[PLUMB_PATH_SIZE];
    int64_t changed_ns;
    int64_t size;
    uint64_t hash;
} PlumbStamp;

struct PlumbJournal;
struct PlumbTracing;
struct PlumbWorked;
struct PlumbGiving;
struct PlumbDaybook;

typedef struct PlumbDesk {
    const PlumbViewerOptions *options;
    PlumbSheet now;
    PlumbHistory history;

    /* Answers to `now`; made by plumb_desk_settle. */
    bool changed;      /* `now` is newer than the answers */
    PlumbPosed answer; /* to what is asked for */
    PlumbPosed inked;  /* the last that held, of this lift; valid where has_inked */
    bool has_inked;
    PlumbPosed pencil;
    PlumbLifter solved; /* the lifter of inked and curves */
    PlumbCurve curve[PLUMB_RULER_COUNT];
    double solver_s; /* spent in the solver since the last reading */

    /* How it is shown. */
    PlumbUnits units;
    PlumbPaper paper;
    double text_scale;
    PlumbJoint selected; /* of lifts that stand */
    PlumbPressJoint press_selected;
    PlumbFit fit;
    PlumbGripCurves grips;   /* of a press */
    double views_text_scale; /* of the fit */
    bool refit;              /* before the next frame */
    bool keys_shown;
    PlumbCard card;
    PlumbLifterRecord form_record; /* of the new lifter that is being asked for */
    int form_step;
    bool body_shown; /* rulers of the body in place of those of the set-up */
    int first_ruler; /* of the column, where it is scrolled */
    char message[PLUMB_DESK_MESSAGE_SIZE];
    bool message_wrong;
    PlumbNotesScroll notes_scroll;
    bool hinted;           /* the message is a hint, not an answer */
    unsigned pages_hinted; /* a bit a page that has had its hint */

    /* Pages. */
    PlumbPage page;
    PlumbWay way;
    PlumbPosed on_way; /* the answer with its pose moved to the scrubber */
    PlumbAgainst against;
    PlumbSure sure;
    PlumbCrowd crowd;
    PlumbMap map;
    bool scrubbing; /* the scrubber is dragged */
    double scrub_x0_mm;
    double scrub_x1_mm;
    PlumbRect map_rect;           /* of its field */
    struct PlumbTracing *tracing; /* of the Trace page, owned */
    struct PlumbWorked *worked;   /* the working of a figure, owned */

    PlumbTry try_first;
    PlumbTried tried; /* the draws behind it */

    /* Files. */
    PlumbStamp stamp[PLUMB_STAMPS_MAX];
    int stamp_count;
    uint64_t asked_hash; /* of a file changed by another program, after the question; 0 none */
    double watched_s;
    struct PlumbJournal *journal; /* NULL: no state is kept */

    /* Hands. */
    PlumbWidgetRef focus;
    PlumbDrag drag;
    PlumbField field;
    PlumbSlipKind slip;
    int slip_row;                 /* with the focus */
    struct PlumbGiving *giving;   /* what the slip of a handout holds, owned */
    struct PlumbDaybook *daybook; /* what the slip of the log holds, owned */
    bool key_held;                /* a nudge is being repeated */
    bool quit;

    /* The last frame. */
    bool dirty;
    double width_mm;
    double height_mm;
    PlumbLayout layout;
    PlumbFont *font;
    PlumbScene *scene;
    PlumbSlices slices;
    bool repaint; /* all of it: the window lost its pixels, or all colours change */
    PlumbWidget widget[PLUMB_WIDGETS_MAX];
    int widget_count;
    PlumbRulerPlace place[PLUMB_PLACES_MAX];
    int place_count;
    int rulers_fit; /* how many the column has room for */
} PlumbDesk;

/* An empty sheet of a lifter: every lift at its defaults, no names. path, lift, pencil stay. */
void plumb_sheet_begin(PlumbSheet *sheet, const PlumbLifterRecord *record,
                       const PlumbLifter *lifter);
/* Index of a named set-up, -1 where none is. */
int plumb_sheet_find(const PlumbSheet *sheet, const char *name);
/* Adds or replaces one; false where there is no room. */
bool plumb_sheet_add(PlumbSheet *sheet, const char *name, const PlumbSetup *setup);
/* Puts one on the drawing. What is on it must be gathered before. */
void plumb_sheet_pick(PlumbSheet *sheet, int index);
/* Puts what was changed on the drawing back under its name. */
void plumb_sheet_gather(PlumbSheet *sheet);

/* NULL where memory is out. */
PlumbDesk *plumb_desk_create(const PlumbViewerOptions *options);
void plumb_desk_destroy(PlumbDesk *desk);

/* The set-up on the drawing. */
const PlumbSetup *plumb_desk_setup(const PlumbDesk *desk);
/* Keeps `now` for undo. Call it before a change; key 0 always makes a step of its own. */
void plumb_desk_keep(PlumbDesk *desk, unsigned key);
bool plumb_desk_undo(PlumbDesk *desk);
bool plumb_desk_redo(PlumbDesk *desk);
/* Says that `now` was changed. */
void plumb_desk_touch(PlumbDesk *desk);
/* Solves what was changed. */
void plumb_desk_settle(PlumbDesk *desk);
/* The answer that is inked, and the wish beside it, NULL where what is asked for holds. */
const PlumbPosed *plumb_desk_inked(const PlumbDesk *desk);
const PlumbPosed *plumb_desk_wish(const PlumbDesk *desk);
/* The family of the lift on the drawing, and the arm that is selected in it. */
const PlumbFamily *plumb_desk_family(const PlumbDesk *desk);
int plumb_desk_arm(const PlumbDesk *desk);
void plumb_desk_select(PlumbDesk *desk, int arm);
/* Whether something pencilled belongs to the lift that is shown. */
bool plumb_desk_pencil_shown(const PlumbDesk *desk);

/* One line for the notes; wrong: something has to be done about it. */
void plumb_desk_say(PlumbDesk *desk, bool wrong, const char *message);
/* Says how the page on show is worked, at first and as long as nothing else was said. */
void plumb_desk_hint(PlumbDesk *desk);
/* After a change of page: what was said on the other one is over; a page's first visit has its
 * hint. */
void plumb_desk_page_hint(PlumbDesk *desk);
void plumb_desk_focus(PlumbDesk *desk, PlumbWidgetKind kind, int id);
bool plumb_desk_has_focus(const PlumbDesk *desk, PlumbWidgetKind kind, int id);

/* Seconds of a clock that only runs forward. */
double plumb_clock_s(void);

#endif
