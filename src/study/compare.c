/* SPDX-License-Identifier: MIT */
/* Differences of two answers, with the spread that unknown lengths give them. */
#include <plumbar/compare.h>

#include <math.h>

/* Slopes of one side by every length. A length that does not matter has slope 0. */
typedef struct SideSlopes {
    bool known;
    PlumbEffectRow row[PLUMB_LENGTH_COUNT];
} SideSlopes;

static void side_slopes(const PlumbSide *side, SideSlopes *slopes)
{
    PlumbFactor factor[PLUMB_LENGTH_COUNT];
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        factor[i] = (PlumbFactor){.kind = PLUMB_FACTOR_LENGTH, .length = (PlumbLength)i};
    }
    slopes->known = plumb_effects_solve(side->lifter, side->setup, side->answer, factor,
                                        PLUMB_LENGTH_COUNT, slopes->row);
}

static double part(const PlumbSide *side, const SideSlopes *slopes, int length, PlumbOutput output)
{
    return slopes->row[length].of[output].up * side->lifter->body.length_sd_m[length];
}

static double spread(const PlumbSide *first, const SideSlopes *a, const PlumbSide *second,
                     const SideSlopes *b, bool one_lifter, PlumbOutput output)
{
    double square = 0.0;
    for (int i = 0; i < PLUMB_LENGTH_COUNT; i++) {
        const double from = part(first, a, i, output);
        const double to = part(second, b, i, output);
        square += one_lifter ? (to - from) * (to - from) : to * to + from * from;
    }
    return sqrt(square);
}

void plumb_compare(const PlumbSide *first, const PlumbSide *second, bool one_lifter,
                   PlumbDifference difference[PLUMB_OUTPUT_COUNT])
{
    SideSlopes a;
    SideSlopes b;
    side_slopes(first, &a);
    side_slopes(second, &b);
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        const PlumbOutput o = (PlumbOutput)i;
        const bool held =
            first->answer->outcome != PLUMB_NO_POSE && second->answer->outcome != PLUMB_NO_POSE;
        PlumbDifference *const d = &difference[i];
        d->first = plumb_output_value(first->answer, o);
        d->second = plumb_output_value(second->answer, o);
        d->change = held ? d->second - d->first : (double)NAN;
        d->sd = a.known && b.known ? spread(first, &a, second, &b, one_lifter, o) : (double)NAN;
    }
}
