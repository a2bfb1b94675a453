/* SPDX-License-Identifier: MIT */
/* The low-effort range: where the summed effort is within 5 % of its least inside a window. */
#include "solve/case.h"

#include "base/roots.h"

enum { RANGE_POINTS = 20 };

static const double effort_allowance = 1.05;

typedef struct EffortTrack {
    const PlumbCase *c;
    PlumbState state;
    double less; /* subtracted */
} EffortTrack;

static double effort_at(double s, void *context)
{
    EffortTrack *track = context;
    PlumbState state = track->state;
    if (!plumb_family_at(track->c, s, &state)) {
        return (double)NAN;
    }
    track->state = state;
    return plumb_case_effort(track->c, &state, NULL) - track->less;
}

/* From the least outwards, sample by sample, to where the effort passes the level. */
static double range_end(EffortTrack *track, const double *s, const double *value, int best,
                        double best_s, double best_value, int direction, PlumbEnd window_end,
                        PlumbEnd *end)
{
    double in_s = best_s;
    double in = best_value - track->less;
    const int last = direction > 0 ? RANGE_POINTS : 0;
    for (int i = best; direction > 0 ? i <= last : i >= last; i += direction) {
        if (direction > 0 ? s[i] <= best_s : s[i] >= best_s) {
            continue;
        }
        const double out = value[i] - track->less;
        if (isnan(out) || out > 0.0) {
            if (isnan(out)) {
                break;
            }
            *end = PLUMB_END_effort;
            return plumb_root_bracketed(effort_at, track, in_s, s[i], in, out, 1e-10);
        }
        in_s = s[i];
        in = out;
    }
    *end = window_end;
    return in_s;
}

PlumbInterval plumb_low_effort_find(const PlumbCase *c, const PlumbInterval *window,
                                    const PlumbState *seed)
{
    if (!window->exists) {
        return *window;
    }
    double s[RANGE_POINTS + 1];
    double value[RANGE_POINTS + 1];
    EffortTrack track = {c, *seed, 0.0};
    int best = 0;
    for (int i = 0; i <= RANGE_POINTS; i++) {
        s[i] = i == RANGE_POINTS ? window->high
                                 : window->low + (window->high - window->low) * i / RANGE_POINTS;
        value[i] = effort_at(s[i], &track);
        best = value[i] < value[best] || isnan(value[best]) ? i : best;
    }
    double least;
    double at =
        plumb_least_bracketed(effort_at, &track, s[best > 0 ? best - 1 : 0],
                              s[best < RANGE_POINTS ? best + 1 : RANGE_POINTS], 1e-9, &least);
    if (!(least < value[best])) {
        least = value[best];
        at = s[best];
    }
    PlumbInterval range = {.exists = true};
    track.less = effort_allowance * least;
    range.low = range_end(&track, s, value, best, at, least, -1, window->low_end, &range.low_end);
    range.high = range_end(&track, s, value, best, at, least, 1, window->high_end, &range.high_end);
    return range;
}
