/* SPDX-License-Identifier: MIT */
/* A lifter's own start of a pull: where it lies against window and low-effort range, and what to
 * expect of the hips. Which change helps most: plumb_advice_rank for PLUMB_AIM_level_hips. */
#ifndef PLUMBAR_START_H
#define PLUMBAR_START_H

#include <plumbar/solve.h>

typedef enum PlumbPlace {
    PLUMB_PLACE_BELOW,
    PLUMB_PLACE_INSIDE,
    PLUMB_PLACE_ABOVE,
    PLUMB_PLACE_NONE /* there is no window, or no pose */
} PlumbPlace;

const char *plumb_place_name(PlumbPlace place);

typedef struct PlumbOwnStart {
    double hip_height_m;
    double back_angle_rad;
    double shin_angle_rad;
    double balance_frac;
    PlumbPlace window;
    double window_off_m; /* distance from the nearer end where outside, 0 inside */
    PlumbPlace low_effort;
    double low_effort_off_m;
    PlumbInterval window_is;
    PlumbInterval low_effort_is;
    double hip_rise_m; /* expected, 0 where none is */
    PlumbEnd hip_rise_end;
} PlumbOwnStart;

/* Reads the own start off a solved pull whose lead is the lifter's own hip height, back angle or
 * the place of the knee (plumb_own_knee). */
void plumb_own_start(const PlumbAnswer *answer, PlumbOwnStart *own);

/* One or two sentences. */
void plumb_own_start_text(PlumbText *text, const PlumbOwnStart *own, PlumbUnits units);

/* Makes the place of the knee lead a pull: text is the lean of the shin ("12 deg") or how far the
 * front of the knee is ahead of the toe tips in the side view ("-3 cm"). With the lifter's own hip
 * height leading, the balance follows; else the balance of the set-up stays. Either way hip height
 * and balance lead afterwards and the bar is not asked to touch the leg. PLUMB_BAD_INPUT, *setup
 * untouched: no place, or no start of this lifter has the knee there. */
PlumbStatus plumb_own_knee(const PlumbLifter *lifter, PlumbSetup *setup, const char *text,
                           PlumbError *error);

#endif
