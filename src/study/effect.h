/* SPDX-License-Identifier: MIT */
/* What effects of every lift share: two sides joined, factors in order. */
#ifndef PLUMB_STUDY_EFFECT_H
#define PLUMB_STUDY_EFFECT_H

#include <plumbar/effects.h>

/* Slopes of both sides as one effect: where they agree there is no kink to speak of. value: the
 * figure's size. */
PlumbEffect plumb_effect_join(double up, double down, unsigned kink, double value);

/* The order of factor[count] by the size of effect[i * stride] times step, as plumb_effects_sort
 * has it. */
void plumb_effect_order(const PlumbFactor *factor, const PlumbEffect *effect, int stride, int count,
                        int *order);

#endif
