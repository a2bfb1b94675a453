/* SPDX-License-Identifier: MIT */
/* Words for athletes: what changes between two set-ups, what it feels like, and what to do. */
#ifndef PLUMBAR_REPORT_H
#define PLUMBAR_REPORT_H

#include <plumbar/advice.h>
#include <plumbar/drills.h>
#include <plumbar/handout.h>
#include <plumbar/interval.h>
#include <plumbar/lifter_file.h>
#include <plumbar/solved.h>
#include <plumbar/still.h>
#include <plumbar/underlay.h>

/* One thing that differs between two set-ups: a setting, or what leads (then `lead`, told by the
 * hips of a pull, the shins of a squat and the touch of a press, whatever leads). Elbows that are
 * not asked for are told by where they are. */
typedef struct PlumbChange {
    PlumbSettingId id;
    bool lead;
    double before_si;
    double after_si;
} PlumbChange;

/* All that differs, in the order of the settings; a preset of style is told by what it sets.
 * Returns how many stand in change[PLUMB_SETTING_COUNT]. */
int plumb_changes_find(const PlumbSolved *before, const PlumbSolved *after, PlumbChange *change);

/* Whether poses hold both set-ups; PLUMB_BAD_INPUT names the one that none holds. */
PlumbStatus plumb_changes_held(const PlumbSolved *before, const PlumbSolved *after,
                               PlumbError *error);

/* Whether an athlete may be handed these changes: at most two things, all of them an athlete's to
 * change, both set-ups held, and never a rounder back, less depth or another load. PLUMB_BAD_INPUT
 * names what stands against it. */
PlumbStatus plumb_changes_check(const PlumbSolved *before, const PlumbSolved *after,
                                PlumbError *error);

/* Appends a change as a sentence to the athlete; `past` tells it as something that has happened. */
void plumb_change_text(PlumbText *text, const PlumbChange *change, const PlumbSolved *after,
                       const PlumbBody *body, bool past, PlumbUnits units);

/* What the program proposes where nobody else does: the first change that is worth trying. */
typedef struct PlumbProposal {
    PlumbGoal goal;
    PlumbOption option;
    double amount;      /* of the goal before the change; SI */
    PlumbEstimate gain; /* over the bodies drawn that it matters to; SI */
    int sample_count;
} PlumbProposal;

/* Ranks single changes for the goal as `plumbar try` does, over its bodies, and takes the first
 * that gains what a person notices, more than its uncertainty, and that an athlete may be asked
 * for. PLUMB_BAD_INPUT where there is none: leave it; PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_proposal_find(const PlumbLifterRecord *record, const PlumbSetup *setup,
                                const PlumbGoal *goal, PlumbUnits units, PlumbProposal *proposal,
                                PlumbError *error);

/* Appends what is to be gained and by how much: "Bar travel becomes 1.2 cm less (95 of 100 bodies:
 * 1.0 to 1.4 cm).", or the finding that it is against and how much of it goes. */
void plumb_proposal_gain_text(PlumbText *text, const PlumbProposal *proposal, PlumbUnits units);

/* What a handout is made from. Pointers are borrowed. */
typedef struct PlumbHandoutAsk {
    const PlumbDrawing *drawing; /* plumb_drawing_solved of both; names and units */
    const PlumbSolved *before;
    const PlumbSolved *after;
    const PlumbSetup *asked[2]; /* of before and after: hips that are asked for 3 cm higher are so
                                   against each body's own start */
    const PlumbBodySpec *spec;  /* what is known of the body, for the spread */
    const PlumbDrills *drills;
    const PlumbStills *stills;     /* NULL, or what a picture of the present lift told */
    int still;                     /* the one that is shown */
    const PlumbProposal *proposal; /* NULL: what is proposed was asked for */
    const char *note;              /* the coach's own, "" allowed */
    const char *since;             /* "" or the day of `before`: the page then looks back */
    const char *program;           /* name and version, for the small print */
    const PlumbWorking
        *working;     /* NULL, or what makes it a student's page: a working of the answer */
    int sample_count; /* bodies drawn for the spread; 0: none */
} PlumbHandoutAsk;

/* Fills the page's words. Unless it looks back, what plumb_changes_check refuses is refused.
 * PLUMB_OUT_OF_MEMORY. *handout is untouched on failure. */
PlumbStatus plumb_handout_fill(const PlumbHandoutAsk *ask, PlumbHandout *handout,
                               PlumbError *error);

/* The drills that the program brings along. */
PlumbStatus plumb_drills_default(PlumbDrills *drills, PlumbError *error);

/* What an athlete is given, by a command or by the window: two set-ups of one lifter. Pointers are
 * borrowed. Begin with plumb_order. */
typedef struct PlumbOrder {
    const PlumbLifterRecord *record;
    const PlumbLifterRecord *before_record; /* NULL: the same; else of the same body, with gear or
                                               limits of its own */
    const PlumbSetup *before; /* in pencil: the present set-up, or that of a day of the log; of a
                                 page NULL for none */
    const char *before_name;
    const PlumbSetup *after; /* in ink: the proposed set-up, or the present one */
    const char *after_name;
    const char *date; /* "2026-01-31" */
    const char *program;
    PlumbUnits units;
    PlumbPaper paper; /* of a handout, as all that follows */
    PlumbPortrait format;
    const PlumbDrills *drills; /* NULL: those of the program */
    const PlumbStills *stills; /* NULL, or marks on pictures of the present lift, fitted: the first
                                  from the side is drawn, and its findings lead the page */
    const PlumbUnderlay *picture;  /* of that still, its place left out; NULL: plain paper */
    const PlumbProposal *proposal; /* NULL, or what `after` was taken from, which the page says */
    const char *note;              /* the coach's own, "" allowed */
    const char *since;             /* "" or the day of `before`: the page then looks back */
    bool student;
    int sample_count;
} PlumbOrder;

/* The still that a handout shows: the first from the side, else the first. */
int plumb_handout_still(const PlumbStills *stills);

/* Both set-ups of one record; no names, metric, A4, light paper, 400 bodies, this program. */
PlumbOrder plumb_order(const PlumbLifterRecord *record, const PlumbSetup *before,
                       const PlumbSetup *after);

/* The handout as a file. PLUMB_BAD_INPUT where the record has no sex, stature or mass, where both
 * set-ups are not of one lift and one body, or where an athlete may not be asked for this change
 * (plumb_changes_check); PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_handout_make(const PlumbOrder *order, PlumbPictureKind kind, PlumbBytes *bytes,
                               PlumbError *error);

/* One HTML file that works offline with its rulers alive; the same order gives the same bytes.
 * PLUMB_UNSUPPORTED where this program was built without the module, and says what to install;
 * PLUMB_BAD_INPUT as above; PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_share_make(const PlumbOrder *order, PlumbBytes *bytes, PlumbError *error);

#endif
