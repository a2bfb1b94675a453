/* SPDX-License-Identifier: MIT */
/* What effects of every lift share. */
#ifndef PLUMB_STUDY_EFFECT_H
#define PLUMB_STUDY_EFFECT_H

#include <plumbar/effects.h>

/* Slopes of both sides as one effect: where they agree there is no kink to speak of. value: the
 * figure's size. */
PlumbEffect plumb_effect_join(double up, double down, unsigned kink, double value);

#endif
