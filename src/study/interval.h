/* SPDX-License-Identifier: MIT */
/* What every study of drawn lifters begins with. */
#ifndef PLUMB_STUDY_INTERVAL_H
#define PLUMB_STUDY_INTERVAL_H

#include <plumbar/interval.h>

/* The lifter of draw number index, and the set-up with the balance that this one aims at. */
PlumbSetup plumb_sample_begin(const PlumbSampler *sampler, const PlumbSetup *setup, uint64_t index,
                              PlumbLifter *lifter);

#endif
