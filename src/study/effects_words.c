/* SPDX-License-Identifier: MIT */
/* Effects joined and ordered, and the words of their kinks. */
#include "study/effect.h"

#include <math.h>

/* Sizes this near are one, so that rounding decides no order: they stay in the table's. */
static const double same_size = 1e-9;

/* Size of a step's effect; the larger side counts. Below zero: no slope. */
static double size_of(const PlumbFactor *factor, const PlumbEffect *effect)
{
    const double size = factor->step_si * fmax(fabs(effect->up), fabs(effect->down));
    return isnan(effect->up) || isnan(effect->down) ? -1.0 : size;
}

PlumbEffect plumb_effect_join(double up, double down, unsigned kink, double value)
{
    PlumbEffect effect = {up, down, 0};
    if (!isfinite(up) || !isfinite(down)) {
        effect.up = isfinite(up) ? up : (double)NAN;
        effect.down = isfinite(down) ? down : (double)NAN;
        effect.kink = PLUMB_KINK_NO_SLOPE;
    } else if (fabs(up - down) > 1e-9 * (fabs(up) + fabs(down)) + 1e-12 * value) {
        effect.kink = kink;
    } else {
        effect.down = up;
    }
    return effect;
}

void plumb_effects_sort(const PlumbFactor *factor, const PlumbEffectRow *row, int count, int output,
                        int *order)
{
    for (int i = 0; i < count; i++) {
        const double size = size_of(&factor[i], &row[i].of[output]);
        int at = i;
        while (at > 0 && size_of(&factor[order[at - 1]], &row[order[at - 1]].of[output]) <
                             size * (1.0 - same_size)) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = i;
    }
}

const char *plumb_kink_text(unsigned kink)
{
    static const struct {
        unsigned bit;
        const char *text;
    } rows[] = {
        {PLUMB_KINK_NO_SLOPE, "not known: no pose beyond, or the answer jumps"},
        {PLUMB_KINK_LEG_CORNER, "the bar stands in the corner between shin and thigh"},
        {PLUMB_KINK_CAPACITY_EDGE, "strength is held at the last angle that was tested"},
        {PLUMB_KINK_MOMENT_SIGN, "the moment passes zero"},
        {PLUMB_KINK_RANGE_CLIPPED, "the low-effort range just reaches the end of the window"},
        {PLUMB_KINK_END_CHANGES, "two requirements end the window at once"},
        {PLUMB_KINK_ELBOWS_REACH, "the elbows just reach where they are asked for"},
        {PLUMB_KINK_QUICKEST, "the upper arm turns as quickly at another height"},
        {PLUMB_KINK_UPRIGHT, "standing, the trunk is just upright"},
    };
    for (unsigned i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if ((kink & rows[i].bit) != 0) {
            return rows[i].text;
        }
    }
    return "";
}
