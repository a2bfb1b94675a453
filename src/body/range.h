/* SPDX-License-Identifier: MIT */
/* Refusals of what a body cannot have, in words. */
#ifndef PLUMBAR_BODY_RANGE_H
#define PLUMBAR_BODY_RANGE_H

#include <plumbar/body.h>

/* Checks stature, mass, age, sex, tables and every measure of *spec by itself. */
PlumbStatus plumb_spec_check(const PlumbBodySpec *spec, PlumbError *error);

/* Fails where length_m, converted from a tape, is not one that this stature can have. */
PlumbStatus plumb_converted_check(const PlumbBodySpec *spec, PlumbTape tape, PlumbLength length,
                                  double length_m, PlumbError *error);

/* Fails: tape and a direct measure of length are both given. */
PlumbStatus plumb_collision(PlumbTape tape, PlumbLength length, PlumbError *error);

/* Fails where the ball of the foot lies beyond its toes: each alone may be right, not both. */
PlumbStatus plumb_foot_check(const PlumbBody *body, PlumbError *error);

#endif
