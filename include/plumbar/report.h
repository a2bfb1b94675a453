/* SPDX-License-Identifier: MIT */
/* Words for athletes: what changes between two set-ups, what it feels like, and what to do. */
#ifndef PLUMBAR_REPORT_H
#define PLUMBAR_REPORT_H

#include <plumbar/drills.h>
#include <plumbar/handout.h>
#include <plumbar/interval.h>
#include <plumbar/svg.h>

/* One thing that differs between two set-ups: a setting, or what leads (then `lead`, told by the
 * hips of a pull and the shins of a squat, whatever leads). */
typedef struct PlumbChange {
    PlumbSettingId id;
    bool lead;
    double before_si;
    double after_si;
} PlumbChange;

/* All that differs, in the order of the settings; a preset of style is told by what it sets.
 * Returns how many stand in change[PLUMB_SETTING_COUNT]. */
int plumb_changes_find(const PlumbAnswer *before, const PlumbAnswer *after, PlumbChange *change);

/* Whether poses hold both set-ups; PLUMB_BAD_INPUT names the one that none holds. */
PlumbStatus plumb_changes_held(const PlumbAnswer *before, const PlumbAnswer *after,
                               PlumbError *error);

/* Whether an athlete may be handed these changes: at most two things, all of them an athlete's to
 * change, both set-ups held, and never a rounder back, less depth or another load. PLUMB_BAD_INPUT
 * names what stands against it. */
PlumbStatus plumb_changes_check(const PlumbAnswer *before, const PlumbAnswer *after,
                                PlumbError *error);

/* Appends a change as a sentence to the athlete; `past` tells it as something that has happened. */
void plumb_change_text(PlumbText *text, const PlumbChange *change, const PlumbAnswer *after,
                       const PlumbBody *body, bool past, PlumbUnits units);

/* What a handout is made from. Pointers are borrowed. */
typedef struct PlumbHandoutAsk {
    const PlumbDrawing *drawing; /* answer: after; pencil: before; names and units */
    const PlumbBodySpec *spec;   /* what is known of the body, for the spread */
    const PlumbDrills *drills;
    const char *note;    /* the coach's own, "" allowed */
    const char *since;   /* "" or the day of `before`: the page then looks back */
    const char *program; /* name and version, for the small print */
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

/* What a shared page is made from. Pointers are borrowed. */
typedef struct PlumbShareAsk {
    const PlumbDrawing
        *drawing;             /* names, units, answers; text is measured by the page's own table */
    const PlumbSetup *setup;  /* as asked */
    const PlumbSetup *pencil; /* NULL: nothing pencilled */
    const char *program;      /* name and version */
} PlumbShareAsk;

/* One HTML file that works offline with its rulers alive; the same ask gives the same bytes.
 * PLUMB_UNSUPPORTED where this program was built without the module, and says what to install;
 * PLUMB_BAD_INPUT for a lift that the page does not have; PLUMB_OUT_OF_MEMORY. */
PlumbStatus plumb_share_page(const PlumbShareAsk *ask, PlumbBytes *bytes, PlumbError *error);

#endif
