/* SPDX-License-Identifier: MIT */
/* The table of changes that advice may ask for. */
#ifndef PLUMB_STUDY_OPTION_H
#define PLUMB_STUDY_OPTION_H

#include <plumbar/advice.h>

typedef struct PlumbChange {
    PlumbSettingId setting;
    double delta_si;
    PlumbSeat seat;    /* PLUMB_SET_bar: where it goes */
    const char *words; /* {d}: the size of the change */
} PlumbChange;

/* Row of the table; NULL past the last. */
const PlumbChange *plumb_change(int index);

/* Writes setting, from, to and the changed set-up into *option; false where the lift lacks the
 * setting, it is there already, or it would leave its range. */
bool plumb_change_apply(const PlumbChange *change, const PlumbSetup *setup,
                        const PlumbAnswer *answer, PlumbOption *option);

#endif
