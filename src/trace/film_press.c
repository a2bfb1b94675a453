/* SPDX-License-Identifier: MIT */
/* Questions put to a film of a bench press: touch and lockout against the shoulder, the elbow's
 * way. */
#include "trace/film.h"

#include "base/vec.h"

static const double followed_frac = 0.9; /* of the frames of the way up */
static const double near_s = 0.1;        /* of the touch: the elbow seen within it counts */
static const double least_share = 0.2;   /* of a sine or cosine that divides */

static const PlumbFilmFigure not_seen = {(double)NAN, (double)NAN, -1};

static double bar_x(const PlumbSeries *s, int frame)
{
    return s->frame[frame].value[PLUMB_READ_bar_from_shoulder];
}

/* Of the key frames' fit, the spread of a figure in the one whose bar stands nearest to as high as
 * in a frame: arms that are nearly straight tell less of an elbow than bent ones. */
static double key_sd(const PlumbSeries *s, PlumbReading reading, int frame)
{
    int best = 0;
    for (int k = 1; k < s->key_count; k++) {
        const double height = s->frame[frame].bar_m.y;
        best = fabs(s->frame[s->key[k]].bar_m.y - height) <
                       fabs(s->frame[s->key[best]].bar_m.y - height)
                   ? k
                   : best;
    }
    return s->trace.still[best].sd[reading];
}

static PlumbFilmFigure bar_at(const PlumbSeries *s, int frame)
{
    if (frame < 0) {
        return not_seen;
    }
    const double sd =
        hypot(key_sd(s, PLUMB_READ_bar_from_shoulder, frame), hypot(s->bar_noise_m, s->slide_m));
    return (PlumbFilmFigure){bar_x(s, frame), sd, frame};
}

PlumbFilmFigure plumb_film_touch(const PlumbSeries *s)
{
    return bar_at(s, s->event_frame[PLUMB_EVENT_turn_round]);
}

PlumbFilmFigure plumb_film_lockout_off(const PlumbSeries *s)
{
    return bar_at(s, s->event_frame[PLUMB_EVENT_lockout]);
}

/* First and last frame of the way up; false where it is not seen. */
static bool way_up(const PlumbSeries *s, int *from, int *to)
{
    *from = s->event_frame[PLUMB_EVENT_lift_off];
    *to = s->event_frame[PLUMB_EVENT_lockout];
    return *from >= 0 && *to > *from;
}

/* How far marks that slide turn the upper arm: what is seen of it from the side is its cosine to
 * the trunk, from the end of the bench its sine. */
static double slide_rad(const PlumbSeries *s, int frame)
{
    const double angle = s->frame[frame].value[PLUMB_READ_upper_arm];
    const double share = fmax(s->end_view ? fabs(cos(angle)) : sin(angle), least_share);
    return s->slide_m / (s->trace.lifter.body.upper_arm_m * share);
}

/* The upper arm's angle when the bar stands at a height, between two frames. */
static double arm_between(const PlumbSeries *s, int after, double height_m)
{
    const PlumbSeriesFrame *const a = &s->frame[after - 1];
    const PlumbSeriesFrame *const b = &s->frame[after];
    const double rise = b->bar_m.y - a->bar_m.y;
    const double share = rise > 0.0 ? clamp((height_m - a->bar_m.y) / rise, 0.0, 1.0) : 1.0;
    return (1.0 - share) * a->value[PLUMB_READ_upper_arm] + share * b->value[PLUMB_READ_upper_arm];
}

PlumbFilmFigure plumb_film_arm_turn(const PlumbSeries *s)
{
    int from;
    int to;
    if (!way_up(s, &from, &to)) {
        return not_seen;
    }
    PlumbFilmFigure most = not_seen;
    for (int i = from; i < to; i++) {
        const double top = s->frame[i].bar_m.y + PLUMB_TURN_RISE_M;
        bool seen = s->frame[i].known && s->frame[i].elbow_seen;
        for (int k = i + 1; k <= to && seen; k++) {
            const bool last = s->frame[k].bar_m.y >= top;
            seen = s->frame[k].known && s->frame[k].elbow_seen;
            const double angle =
                last ? arm_between(s, k, top) : s->frame[k].value[PLUMB_READ_upper_arm];
            const double turn = fabs(angle - s->frame[i].value[PLUMB_READ_upper_arm]);
            if (seen && !(turn <= most.value)) {
                const double sd = 1.4142135623730951 * hypot(s->angle_noise_rad, slide_rad(s, i));
                most = (PlumbFilmFigure){turn, sd, i};
            }
            if (last) {
                break;
            }
        }
    }
    return most;
}

int plumb_film_turn_where(const PlumbSeries *s, int frame)
{
    int from;
    int to;
    if (!way_up(s, &from, &to)) {
        return 1;
    }
    const double low = s->frame[from].bar_m.y;
    const double share = (s->frame[frame].bar_m.y - low) / (s->frame[to].bar_m.y - low);
    return share < 0.1 ? 0 : share < 0.85 ? 1 : 2;
}

bool plumb_film_elbow_followed(const PlumbSeries *s)
{
    int from;
    int to;
    int seen = 0;
    if (!way_up(s, &from, &to)) {
        return false;
    }
    for (int i = from; i <= to; i++) {
        seen += s->frame[i].known && s->frame[i].elbow_seen;
    }
    return seen >= followed_frac * (to - from + 1);
}

/* A figure of the touch that rests on the elbow. */
static PlumbFilmFigure elbow_figure(const PlumbSeries *s, PlumbReading reading, double sign,
                                    double slide)
{
    const int touch = s->event_frame[PLUMB_EVENT_turn_round];
    bool seen = false;
    for (int i = 0; i < s->frame_count && touch >= 0; i++) {
        const PlumbSeriesFrame *const f = &s->frame[i];
        seen = seen || (f->elbow_seen && f->known &&
                        fabs(f->time_s - s->event_s[PLUMB_EVENT_turn_round]) < near_s);
    }
    if (!seen) {
        return not_seen;
    }
    return (PlumbFilmFigure){sign * s->frame[touch].value[reading],
                             hypot(key_sd(s, reading, touch), slide), touch};
}

PlumbFilmFigure plumb_film_elbow_off(const PlumbSeries *s)
{
    return elbow_figure(s, PLUMB_READ_elbow_off_bar, 1.0, s->slide_m);
}

PlumbFilmFigure plumb_film_forearm(const PlumbSeries *s)
{
    return elbow_figure(s, PLUMB_READ_forearm_front, 1.0,
                        s->slide_m / s->trace.lifter.body.forearm_m);
}

PlumbFilmFigure plumb_film_elbow_rule(const PlumbSeries *s)
{
    return elbow_figure(s, PLUMB_READ_elbow_below_rule, -1.0, s->slide_m);
}
