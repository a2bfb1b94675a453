/* SPDX-License-Identifier: MIT */
/* Taped surface measures become joint-centre lengths. */
#ifndef PLUMBAR_BODY_TAPE_H
#define PLUMBAR_BODY_TAPE_H

#include <plumbar/body.h>

/* A body under way: `known` marks lengths that a measure or a tape has fixed. */
typedef struct PlumbDraft {
    PlumbBody body;
    bool known[PLUMB_LENGTH_COUNT];
} PlumbDraft;

/* Error of a measurement where the entry gives none, m. */
#define PLUMB_MEASURE_SD_M 0.01

/* Fixes the lengths that spec->tape tells of. The draft holds the tables' lengths and the direct
 * measures. */
PlumbStatus plumb_draft_tapes(PlumbDraft *draft, const PlumbBodySpec *spec, PlumbError *error);

#endif
