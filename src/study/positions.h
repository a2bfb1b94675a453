/* SPDX-License-Identifier: MIT */
/* The solved positions of an answer, as spots, and what links them. */
#ifndef PLUMB_STUDY_POSITIONS_H
#define PLUMB_STUDY_POSITIONS_H

#include "study/ends.h"

/* A set-up's solved positions and what links them. */
typedef struct PlumbStudy {
    PlumbCase c; /* leads resolved, turned as solved */
    const PlumbAnswer *answer;
    bool over_toes;
    PlumbSpot start;
    PlumbSmoothBase start_smooth;
    PlumbEffortBase efforts;
    bool has_end;
    PlumbSpot end;
    PlumbSmoothBase end_smooth;
    bool standing_straight; /* squat: the trunk is held upright, the bar is let go */
    bool standing_tied;     /* and just so */
    PlumbSpot leaning;      /* squat: the other way to stand */
    PlumbSmoothBase leaning_smooth;
    PlumbEnds ends;
    /* what a lead follows */
    bool follows_balance; /* a relative hip height: the start that balance leads */
    PlumbCase led_case;
    PlumbSpot led;
    bool follows_range; /* auto */
    bool settled;       /* and led by the middle of the range that is reported */
} PlumbStudy;

/* Takes the positions off an answer to `asked`. *study must not move afterwards; lifter and answer
 * outlive it. false where what the lead follows is not known. */
bool plumb_study_begin(PlumbStudy *study, const PlumbLifter *lifter, const PlumbSetup *asked,
                       const PlumbAnswer *answer);

#endif
