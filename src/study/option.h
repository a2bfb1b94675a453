/* SPDX-License-Identifier: MIT */
/* The table of changes that advice may ask for. */
#ifndef PLUMB_STUDY_OPTION_H
#define PLUMB_STUDY_OPTION_H

#include <plumbar/advice.h>

typedef enum PlumbChangeTo {
    PLUMB_TO_DELTA,     /* further by delta_si */
    PLUMB_TO_SEAT,      /* the bar to a seat */
    PLUMB_TO_GRIP_RULE, /* the widest grip that the rules allow */
    PLUMB_TO_GRIP_BACK, /* wider by delta_si with the bar on the back */
    PLUMB_TO_UPRIGHT,   /* the abduction that keeps the forearm upright from the head end */
    PLUMB_TO_UNDER_BAR  /* elbows that were asked for elsewhere */
} PlumbChangeTo;

typedef struct PlumbChange {
    PlumbSettingId setting;
    PlumbChangeTo to;
    double delta_si;   /* PLUMB_TO_DELTA, PLUMB_TO_GRIP_BACK */
    PlumbSeat seat;    /* PLUMB_TO_SEAT */
    const char *words; /* {d}: the size of the change */
    const char *place; /* what is so there, after the figure of a place; empty: it goes to none */
} PlumbChange;

/* Row of the table; NULL past the last. */
const PlumbChange *plumb_change(int index);

/* Writes setting, change, its size in the person's units, from, to and the changed set-up into
 * *option; false where the lift lacks
 * the setting, it is there already, or it would leave its range. A place further than the largest
 * change of the setting becomes a first step toward it. index: of the table. */
bool plumb_change_apply(int index, const PlumbLifter *lifter, const PlumbSetup *setup,
                        const PlumbSolved *solved, PlumbUnits units, PlumbOption *option);

/* The figure that an option makes lead where something else led before: "2 cm higher" is counted
 * from what that body's own pose was. -1: none. */
int plumb_option_new_lead(const PlumbOption *option, const PlumbSetup *setup);

/* Whether the gain is at least what makes a change worth it. */
bool plumb_option_is_notable(const PlumbOption *option, const PlumbAdvice *advice);

/* Whether a goes before b: worth trying first, then what keeps the rules; then the larger gain. */
bool plumb_option_before(const PlumbOption *a, const PlumbOption *b);

#endif
