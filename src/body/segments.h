/* SPDX-License-Identifier: MIT */
/* Masses, centres of mass and radii of a body whose lengths are known. */
#ifndef PLUMBAR_BODY_SEGMENTS_H
#define PLUMBAR_BODY_SEGMENTS_H

#include <plumbar/body.h>

/* Fills body->segment and has_radii by its mass_table; needs lengths, stature and sex. */
void plumb_body_segments(PlumbBody *body);

#endif
