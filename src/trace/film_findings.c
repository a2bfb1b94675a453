/* SPDX-License-Identifier: MIT */
/* Questions put to a film: figures against their thresholds, with what each rests on. */
#include "trace/film.h"

#include <plumbar/filter.h>

#include "base/vec.h"

#include <stddef.h>

static const double sure_sd = 1.96;  /* 95 %, two-sided */
static const double first_m = 0.05;  /* of the bar's rise */
static const double off_m = 0.005;   /* at lift-off the bar is up by this */
static const double bent_frac = 0.1; /* of the way up, in which the legs are as bent as they were */
/* Knees of the model's own pulls (stances 0.25 to 0.9 m, statures 1.55 to 1.83 m) stand below the
 * line from lift-off to lockout by up to 0.16 of its fall; this is half of it. */
static const double line_frac = 0.08;

static const struct {
    const char *name;
    const char *text;
    PlumbQuantity quantity;
} limits[PLUMB_FILM_LIMIT_COUNT] = {
#define X(name, text, quantity) {#name, text, quantity},
    PLUMB_FILM_LIMIT_LIST(X)
#undef X
};

const char *plumb_film_limit_name(PlumbFilmLimit limit)
{
    return limits[limit].name;
}

const char *plumb_film_limit_text(PlumbFilmLimit limit)
{
    return limits[limit].text;
}

PlumbQuantity plumb_film_limit_quantity(PlumbFilmLimit limit)
{
    return limits[limit].quantity;
}

/* common practice, no source. The model's own paths have a rise ratio of 0.9 to 1.05, a back that
 * falls by less than 1 degree and a bar that moves 4 cm to and fro; the upper arm of its presses
 * turns by less than 6 degrees in 3 cm. */
void plumb_film_limits_default(PlumbLift lift, double limit[PLUMB_FILM_LIMIT_COUNT])
{
    limit[PLUMB_FILM_hips_first_limit] = 0.02;
    limit[PLUMB_FILM_rise_ratio_limit] = 1.3;
    limit[PLUMB_FILM_back_drop_limit] = degrees(5.0);
    limit[PLUMB_FILM_bar_ahead_limit] = lift == PLUMB_DEADLIFT ? 0.025 : 0.05;
    limit[PLUMB_FILM_path_width_limit] = 0.06;
    limit[PLUMB_FILM_depth_limit] = 0.0;
    limit[PLUMB_FILM_knees_back_limit] = 0.02;
    limit[PLUMB_FILM_slip_limit] = 0.02;
    limit[PLUMB_FILM_knee_spread_limit] = 0.10;
    limit[PLUMB_FILM_shin_in_limit] = degrees(3.0);
    limit[PLUMB_FILM_touch_limit] = 0.04;
    limit[PLUMB_FILM_arm_turn_limit] = degrees(10.0);
    limit[PLUMB_FILM_elbow_off_limit] = 0.04;
    limit[PLUMB_FILM_forearm_limit] = degrees(10.0);
    limit[PLUMB_FILM_elbow_rule_limit] = 0.0;
    limit[PLUMB_FILM_lockout_off_limit] = 0.04;
}

typedef PlumbFilmFigure Figure;

static const Figure not_seen = {(double)NAN, (double)NAN, -1};

/* Spread of the difference of two heights of the hip, or of hip and bar, some frames apart: noise
 * of both and the mark's slide meanwhile. */
static double hip_sd(const PlumbSeries *s)
{
    return hypot(1.4142135623730951 * s->hip_noise_m, s->slide_m);
}

/* First and last frame of the way up; false where it is not seen. */
static bool way_up(const PlumbSeries *s, int *from, int *to)
{
    *from = s->event_frame[s->lift == PLUMB_SQUAT ? PLUMB_EVENT_turn_round : PLUMB_EVENT_lift_off];
    *to = s->event_frame[PLUMB_EVENT_lockout];
    return *from >= 0 && *to > *from;
}

/* Whether every frame of a part was seen: a rise of the hip read across frames that were filled in
 * from their neighbours would be a guess whose spread nobody knows. */
static bool seen(const PlumbSeries *s, int from, int to)
{
    bool all = true;
    for (int i = from; i <= to; i++) {
        all = all && s->frame[i].known;
    }
    return all;
}

/* A value of a frame at a time between frames. */
static double hip_at(const PlumbSeries *s, double t)
{
    for (int i = 1; i < s->frame_count; i++) {
        const PlumbSeriesFrame *const a = &s->frame[i - 1];
        const PlumbSeriesFrame *const b = &s->frame[i];
        if (b->time_s >= t) {
            const double share = fmax((t - a->time_s) / (b->time_s - a->time_s), 0.0);
            return (1.0 - share) * a->pose.hip_height_m + share * b->pose.hip_height_m;
        }
    }
    return s->frame[s->frame_count - 1].pose.hip_height_m;
}

/* When the bar has risen by so much above `from_m`, from frame `from` on; NaN. */
static double bar_time(const PlumbSeries *s, int from, double height_m)
{
    for (int i = from > 0 ? from : 1; i < s->frame_count; i++) {
        const PlumbSeriesFrame *const a = &s->frame[i - 1];
        const PlumbSeriesFrame *const b = &s->frame[i];
        if (b->bar_m.y >= height_m) {
            const double rise = b->bar_m.y - a->bar_m.y;
            const double share = rise > 0.0 ? (height_m - a->bar_m.y) / rise : 1.0;
            return a->time_s + fmax(share, 0.0) * (b->time_s - a->time_s);
        }
    }
    return (double)NAN;
}

/* The first frame at or after a time; the last where there is none. */
static int frame_after(const PlumbSeries *s, double t)
{
    int i = 0;
    while (i < s->frame_count - 1 && s->frame[i].time_s < t) {
        i++;
    }
    return i;
}

static Figure hips_first(const PlumbSeries *s)
{
    const int off = s->event_frame[PLUMB_EVENT_lift_off];
    const int moves = s->event_frame[PLUMB_EVENT_hip_moves];
    if (off < 0 || moves < 0 || !seen(s, moves, off)) {
        return not_seen;
    }
    /* The hip's first motion is 5 mm above where it was. */
    const double before = hip_at(s, s->event_s[PLUMB_EVENT_hip_moves]) - off_m;
    const double rise = hip_at(s, s->event_s[PLUMB_EVENT_lift_off]) - before;
    const double late_s = 0.5 / s->rate_hz;
    return (Figure){rise, hypot(hip_sd(s), s->frame[off].hip_speed_m_s * late_s), moves};
}

static Figure rise_ratio(const PlumbSeries *s)
{
    int from;
    int to;
    if (!way_up(s, &from, &to)) {
        return not_seen;
    }
    const double start_s = s->lift == PLUMB_SQUAT ? s->event_s[PLUMB_EVENT_turn_round]
                                                  : s->event_s[PLUMB_EVENT_lift_off];
    const double base = s->frame[from].bar_m.y;
    const double rise = s->lift == PLUMB_SQUAT ? first_m : first_m - off_m;
    const double then_s = bar_time(s, from, base + rise);
    if (isnan(then_s) || !seen(s, from, frame_after(s, then_s))) {
        return not_seen;
    }
    const double hip = hip_at(s, then_s) - hip_at(s, start_s);
    const double sd = hypot(hip_sd(s), hip / rise * 1.4142135623730951 * s->bar_noise_m) / rise;
    return (Figure){hip / rise, sd, from};
}

/* How far the back's angle falls before it rises. */
static Figure back_drop(const PlumbSeries *s)
{
    int from;
    int to;
    if (!way_up(s, &from, &to)) {
        return not_seen;
    }
    const int pass = s->event_frame[PLUMB_EVENT_knee_pass];
    int least = from;
    for (int i = from; i <= (pass > from ? pass : to); i++) {
        if (s->frame[i].value[PLUMB_ANG_back] < s->frame[least].value[PLUMB_ANG_back]) {
            least = i;
        }
    }
    const double trunk_m = s->trace.lifter.body.trunk_m;
    return (Figure){s->frame[from].value[PLUMB_ANG_back] - s->frame[least].value[PLUMB_ANG_back],
                    1.4142135623730951 * hypot(s->angle_noise_rad, s->slide_m / trunk_m), least};
}

/* Of the key frames' fit, the largest spread of a figure. */
static double key_sd(const PlumbSeries *s, PlumbReading reading)
{
    double most = 0.0;
    for (int k = 0; k < s->key_count; k++) {
        most = fmax(most, s->trace.still[k].sd[reading]);
    }
    return most;
}

static Figure bar_ahead(const PlumbSeries *s)
{
    int from;
    int to;
    if (!way_up(s, &from, &to)) {
        return not_seen;
    }
    int most = from;
    for (int i = from; i <= to; i++) {
        most = s->frame[i].bar_m.x > s->frame[most].bar_m.x ? i : most;
    }
    return (Figure){s->frame[most].bar_m.x, hypot(key_sd(s, PLUMB_READ_bar_over), s->bar_noise_m),
                    most};
}

static Figure path_width(const PlumbSeries *s)
{
    int from;
    int to;
    if (!way_up(s, &from, &to)) {
        return not_seen;
    }
    int least = from;
    int most = from;
    for (int i = from; i <= to; i++) {
        least = s->frame[i].bar_m.x < s->frame[least].bar_m.x ? i : least;
        most = s->frame[i].bar_m.x > s->frame[most].bar_m.x ? i : most;
    }
    /* A camera that is turned makes a rise of the bar no wider; one that rolls does. */
    const double roll_sd_rad = degrees(0.5);
    const double rise = fabs(s->frame[most].bar_m.y - s->frame[least].bar_m.y);
    return (Figure){s->frame[most].bar_m.x - s->frame[least].bar_m.x,
                    hypot(1.4142135623730951 * s->bar_noise_m, roll_sd_rad * rise),
                    most > least ? most : least};
}

static Figure depth(const PlumbSeries *s)
{
    const int bottom = s->event_frame[PLUMB_EVENT_turn_round];
    return bottom < 0 ? not_seen
                      : (Figure){s->frame[bottom].value[PLUMB_READ_depth],
                                 hypot(key_sd(s, PLUMB_READ_depth), s->slide_m), bottom};
}

static Figure knees_back(const PlumbSeries *s)
{
    const int off = s->event_frame[PLUMB_EVENT_lift_off];
    const int moves = s->event_frame[PLUMB_EVENT_hip_moves];
    if (off < 0 || moves < 0 || moves > off || !seen(s, moves, off)) {
        return not_seen;
    }
    return (Figure){s->frame[moves].knee_x_m - s->frame[off].knee_x_m, hip_sd(s), off};
}

static Figure slip(const PlumbSeries *s)
{
    const PlumbSeriesFrame *const f = s->frame;
    int least = -1;
    int most = -1;
    double low = 1.0;
    double high = -1.0;
    for (int i = 0; i < s->frame_count; i++) {
        if (!isnan(f[i].slip_m)) {
            least = least < 0 || f[i].slip_m < f[least].slip_m ? i : least;
            most = most < 0 || f[i].slip_m > f[most].slip_m ? i : most;
            low = fmin(low, sin(f[i].pose.thorax_lean_rad));
            high = fmax(high, sin(f[i].pose.thorax_lean_rad));
        }
    }
    if (least < 0) {
        return not_seen;
    }
    /* The thorax leans on marks that slide, the disc does not; and a camera turned otherwise than
     * was thought moves the disc forward, which along a thorax that leans looks like a slip. */
    const double marks_m = 2.0 * hypot(s->slide_m, s->hip_noise_m);
    const double turned_m = key_sd(s, PLUMB_READ_bar_over) * (high - low);
    return (Figure){f[most].slip_m - f[least].slip_m, hypot(marks_m, turned_m),
                    most > least ? most : least};
}

/* What the knees' spread usually is at the height of frame i of the way up: as the leg straightens
 * it falls without any fault. Of a squat that of the way down at the same height; of a pull, which
 * has none, the straight line between the ends of the way up. NaN where those were not seen. */
static double usual_spread(const PlumbSeries *s, int from, int to, int i)
{
    const PlumbSeriesFrame *const f = s->frame;
    const double rise = f[i].rise_px;
    int low = from;
    int high = to;
    if (s->lift == PLUMB_SQUAT) {
        while (low > 0 && f[low - 1].rise_px <= rise) {
            low--;
        }
        high = low - 1;
    }
    if (high < 0 || !f[low].known || !f[high].known) {
        return (double)NAN;
    }
    const double share = (rise - f[low].rise_px) / (f[high].rise_px - f[low].rise_px);
    return f[low].spread_frac + fmax(share, 0.0) * (f[high].spread_frac - f[low].spread_frac);
}

/* Frames of the way up that do not show the knees, or have nothing to be held against, are left
 * out; where that is more than half of them nothing is known. */
static Figure knee_spread(const PlumbSeries *s)
{
    int from;
    int to;
    if (!way_up(s, &from, &to)) {
        return not_seen;
    }
    const PlumbSeriesFrame *const f = s->frame;
    const double sd = 1.4142135623730951 * hypot(s->spread_noise_frac, s->spread_slide_frac);
    Figure figure = {-(double)INFINITY, sd, -1};
    int count = 0;
    for (int i = from; i <= to; i++) {
        const double in = usual_spread(s, from, to, i) - f[i].spread_frac;
        if (!f[i].known || isnan(in)) {
            continue;
        }
        count++;
        figure = in > figure.value ? (Figure){in, sd, i} : figure;
    }
    if (s->lift != PLUMB_SQUAT) {
        figure.sd = hypot(sd, line_frac * (f[from].spread_frac - f[to].spread_frac));
    }
    return 2 * count > to - from ? figure : not_seen;
}

/* While the legs are bent: straight ones lean inward as far as the feet stand apart. */
static Figure shin_in(const PlumbSeries *s)
{
    int from;
    int to;
    if (!way_up(s, &from, &to)) {
        return not_seen;
    }
    const PlumbSeriesFrame *const f = s->frame;
    const double bent_px = f[from].rise_px + bent_frac * (f[to].rise_px - f[from].rise_px);
    int least = -1;
    for (int i = from; i <= to && f[i].rise_px <= bent_px; i++) {
        least = f[i].known && (least < 0 || f[i].shin_rad < f[least].shin_rad) ? i : least;
    }
    return least < 0
               ? not_seen
               : (Figure){-f[least].shin_rad,
                          hypot(hypot(s->angle_noise_rad, s->shin_slide_rad), degrees(1.0)), least};
}

/* Which side of the threshold is remarked. */
typedef enum Beyond { BEYOND_ABOVE, BEYOND_BELOW, BEYOND_EITHER } Beyond;

/* Which lifts and views show it: of a press the front is the end of the bench. */
enum { PULL = 1, SQUAT = 2, PRESS = 4, SIDE = 8, FRONT = 16 };

static const struct {
    PlumbFindingId id;
    PlumbFilmLimit limit;
    Figure (*figure)(const PlumbSeries *series);
    PlumbPoint point;
    PlumbSeverity severity;
    Beyond beyond;
    unsigned shown;
} rows[] = {
    {PLUMB_FIND_hips_before_bar, PLUMB_FILM_hips_first_limit, hips_first, PLUMB_PT_hip,
     PLUMB_WARNING, BEYOND_ABOVE, PULL | SIDE},
    {PLUMB_FIND_hips_rise_faster, PLUMB_FILM_rise_ratio_limit, rise_ratio, PLUMB_PT_hip,
     PLUMB_WARNING, BEYOND_ABOVE, PULL | SQUAT | SIDE},
    {PLUMB_FIND_back_drops, PLUMB_FILM_back_drop_limit, back_drop, PLUMB_PT_lumbar, PLUMB_WARNING,
     BEYOND_ABOVE, PULL | SQUAT | SIDE},
    {PLUMB_FIND_bar_off_mid_foot, PLUMB_FILM_bar_ahead_limit, bar_ahead, PLUMB_PT_bar,
     PLUMB_WARNING, BEYOND_ABOVE, PULL | SQUAT | SIDE},
    {PLUMB_FIND_bar_path_wide, PLUMB_FILM_path_width_limit, path_width, PLUMB_PT_bar, PLUMB_NOTE,
     BEYOND_ABOVE, PULL | SQUAT | SIDE},
    {PLUMB_FIND_depth_not_reached, PLUMB_FILM_depth_limit, depth, PLUMB_PT_hip, PLUMB_NOTE,
     BEYOND_BELOW, SQUAT | SIDE},
    {PLUMB_FIND_knees_go_back, PLUMB_FILM_knees_back_limit, knees_back, PLUMB_PT_knee,
     PLUMB_WARNING, BEYOND_ABOVE, PULL | SIDE},
    {PLUMB_FIND_bar_slips, PLUMB_FILM_slip_limit, slip, PLUMB_PT_bar, PLUMB_WARNING, BEYOND_ABOVE,
     SQUAT | SIDE},
    {PLUMB_FIND_knees_come_in, PLUMB_FILM_knee_spread_limit, knee_spread, PLUMB_PT_knee,
     PLUMB_WARNING, BEYOND_ABOVE, PULL | SQUAT | FRONT},
    {PLUMB_FIND_shins_lean_in, PLUMB_FILM_shin_in_limit, shin_in, PLUMB_PT_knee, PLUMB_WARNING,
     BEYOND_ABOVE, PULL | SQUAT | FRONT},
    {PLUMB_FIND_touch_high, PLUMB_FILM_touch_limit, plumb_film_touch, PLUMB_PT_bar, PLUMB_NOTE,
     BEYOND_BELOW, PRESS | SIDE},
    {PLUMB_FIND_upper_arm_turns, PLUMB_FILM_arm_turn_limit, plumb_film_arm_turn, PLUMB_PT_elbow,
     PLUMB_WARNING, BEYOND_ABOVE, PRESS | SIDE | FRONT},
    {PLUMB_FIND_elbow_off_bar, PLUMB_FILM_elbow_off_limit, plumb_film_elbow_off, PLUMB_PT_elbow,
     PLUMB_WARNING, BEYOND_EITHER, PRESS | SIDE | FRONT},
    {PLUMB_FIND_forearm_not_upright, PLUMB_FILM_forearm_limit, plumb_film_forearm, PLUMB_PT_wrist,
     PLUMB_NOTE, BEYOND_EITHER, PRESS | FRONT},
    {PLUMB_FIND_elbow_above_rule, PLUMB_FILM_elbow_rule_limit, plumb_film_elbow_rule,
     PLUMB_PT_elbow, PLUMB_WARNING, BEYOND_ABOVE, PRESS | SIDE | FRONT},
    {PLUMB_FIND_bar_off_shoulder_lockout, PLUMB_FILM_lockout_off_limit, plumb_film_lockout_off,
     PLUMB_PT_bar, PLUMB_NOTE, BEYOND_EITHER, PRESS | SIDE},
};

static PlumbFilmVerdict verdict_of(const Figure *figure, double limit, Beyond side)
{
    if (figure->frame < 0 || isnan(figure->value)) {
        return PLUMB_FILM_NOT_SEEN;
    }
    const double beyond = side == BEYOND_BELOW    ? limit - figure->value
                          : side == BEYOND_EITHER ? fabs(figure->value) - limit
                                                  : figure->value - limit;
    return beyond <= 0.0                   ? PLUMB_FILM_CLEAR
           : beyond > sure_sd * figure->sd ? PLUMB_FILM_BEYOND
                                           : PLUMB_FILM_UNSURE;
}

int plumb_film_findings(const PlumbSeries *series, const double limit[PLUMB_FILM_LIMIT_COUNT],
                        PlumbFilmFinding finding[PLUMB_FILM_LIMIT_COUNT])
{
    const unsigned lift = series->lift == PLUMB_BENCH   ? PRESS
                          : series->lift == PLUMB_SQUAT ? SQUAT
                                                        : PULL;
    const unsigned view = series->front || series->end_view ? FRONT : SIDE;
    int count = 0;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        if ((rows[i].shown & lift) == 0 || (rows[i].shown & view) == 0) {
            continue;
        }
        const double at = limit[rows[i].limit];
        Figure figure = rows[i].figure(series);
        /* Marks that are missed by more than chance make all that rests on them less sure. */
        figure.sd *= series->misfit > 1.0 ? series->misfit : 1.0;
        PlumbFilmFinding *const found = &finding[count++];
        *found = (PlumbFilmFinding){
            .what = {rows[i].id, rows[i].severity, figure.value, at,
                     plumb_film_limit_quantity(rows[i].limit), rows[i].point, 0},
            .limit = rows[i].limit,
            .verdict = verdict_of(&figure, at, rows[i].beyond),
            .sd = figure.sd,
            .frame = figure.frame,
        };
        if (rows[i].id == PLUMB_FIND_upper_arm_turns && figure.frame >= 0) {
            found->what.detail = plumb_film_turn_where(series, figure.frame);
            /* A turn that was found counts; where some of the way was hidden, none is no answer. */
            if (found->verdict == PLUMB_FILM_CLEAR && !plumb_film_elbow_followed(series)) {
                found->verdict = PLUMB_FILM_NOT_SEEN;
            }
        }
    }
    return count;
}
