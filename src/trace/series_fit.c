/* SPDX-License-Identifier: MIT */
/* Body and camera from a few key frames together, then a pose in every frame with these held, each
 * begun where its neighbour ended. */
#include "trace/series.h"

#include "base/vec.h"

#include <string.h>

static const double knees_out_sd_rad = 5.0 * PLUMB_PI / 180.0;
static const double pose_sd_m = 0.3;
static const double lean_sd_rad = 30.0 * PLUMB_PI / 180.0;
static const double along_sd_m = 0.06;     /* of a press's bar, from the model's path */
static const double locked_sd_m = 0.04;    /* of the same at lockout */
static const double locked_frac = 0.05;    /* of the way down */
static const double misfit_most = 4.0;     /* above it the marks of a frame fit no lifter */
static const double straight_sd_m = 0.001; /* of 0.8 m of leg: the knee bent by 6 degrees */
static const double straight_frac = 0.97;  /* of a pull's way, from where the legs are straight */
static const double miss_most = 5.0;       /* of one mark, in its standard errors */

/* Shares of the work, as measured: body and camera, then a pose in every frame. */
static const double first_frac = 0.1;
static const double keys_frac = 0.3;

static bool go_on(const Reading *reading, double done_frac)
{
    const PlumbSeriesAsk *const ask = reading->ask;
    PlumbSeries *const series = reading->series;
    series->stopped =
        series->stopped || (ask->progress != NULL && !ask->progress(ask->user, done_frac));
    return !series->stopped;
}

/* What stays near what is believed of the lift, not near the last frame: the spine, of a squat the
 * bar's place on the back, of a press all but the bar's height. */
static bool stays(const Fit *fit, int k)
{
    const PlumbLift lift = fit->ask->setup->lift;
    return k == FIT_SPINE || (k == FIT_SLIP && lift == PLUMB_SQUAT) ||
           (k <= FIT_BAR_X && lift == PLUMB_BENCH);
}

/* Holds all but the pose and the knees' turn, and begins at those of the last frame, which the rest
 * is believed to be near. */
static void hold(Fit *single, double *theta)
{
    FitPrior *const own = single->own[0];
    for (int i = 0; i < PLUMB_TRACE_UNKNOWNS; i++) {
        single->held[i] = i != FIT_KNEES_OUT && i < PLUMB_TRACE_SHARED + FIT_HIP_X;
    }
    for (int k = FIT_HIP_X; k <= FIT_BAR_Y; k++) {
        double *const unknown = &theta[PLUMB_TRACE_SHARED + k];
        if (!stays(single, k)) {
            own[k].mean += own[k].sd * *unknown;
            own[k].sd = k == FIT_LEAN ? lean_sd_rad : pose_sd_m;
            *unknown = 0.0;
        }
    }
}

/* Share of the way to where the lift turns, by the lead; NaN where that is not seen. */
static double share_of(const Reading *reading, int frame)
{
    PlumbVec2 at;
    return plumb_series_place(reading->ask, plumb_reading_lead(reading), frame, &at)
               ? clamp((at.y - reading->lead_from_px) / reading->lead_way_px, 0.0, 1.0)
               : (double)NAN;
}

/* A lockout stands on straight legs. That is believed only where the knee is not seen: of a leg
 * whose knee the disc hides, 2 mm too much of length bend it by 7 degrees. */
static void believe_legs(Reading *reading, int frame, int still)
{
    PlumbVec2 at;
    const int knee = plumb_reading_track(reading, PLUMB_MARK_knee, PLUMB_NEAR);
    const bool seen = knee >= 0 && plumb_series_place(reading->ask, knee, frame, &at);
    const bool locked = reading->still.setup->lift == PLUMB_DEADLIFT && !seen &&
                        share_of(reading, frame) > straight_frac;
    reading->still.straight_sd_m[still] = locked ? straight_sd_m : 0.0;
}

/* A belief of a frame takes the place of the one before; the value stays. */
static void believe(FitPrior *own, double *unknown, double mean, double sd)
{
    const double value = fit_value(own, *unknown);
    *own = (FitPrior){mean, sd};
    *unknown = (value - mean) / sd;
}

/* What is believed of a frame, as on the model's path. Of the spine: a pull begins with that of the
 * set-up and ends upright, a squat the other way; without it the spine of a lockout, whose hip the
 * disc hides, would be that of the start. Of a press's bar: arms lock out above the shoulders,
 * which tells where the shoulders are to a camera beside the bench whose turn is not known; and for
 * a camera at its end, which does not see the bar's way along it, that it goes to the touch, not
 * toward the head. Where the lead is not seen it stays as it was. */
static void believe_path(const Reading *reading, int frame, FitPrior *own, double *unknown)
{
    const PlumbSetup *const setup = reading->still.setup;
    const double share = share_of(reading, frame);
    if (isnan(share)) {
        return;
    }
    if (setup->lift == PLUMB_BENCH) {
        const double fallen = reading->lead_way_px > 0.0 ? share : 1.0 - share;
        const double over = setup->lockout_over_m;
        const double sd = fallen < locked_frac ? locked_sd_m
                          : reading->end_view  ? along_sd_m
                                               : pose_sd_m;
        believe(&own[FIT_BAR_X], &unknown[FIT_BAR_X],
                over + (reading->touch_m - over) * pow(fallen, setup->path_exponent), sd);
        return;
    }
    believe(&own[FIT_SPINE], &unknown[FIT_SPINE],
            setup->spine_rad * (setup->lift == PLUMB_SQUAT ? share : 1.0 - share),
            own[FIT_SPINE].sd);
}

/* Root mean square of the misses at theta; *worst is the mark on the body that misses most, by
 * *worst_miss. */
static double misfit_of(const Reading *reading, int *worst, double *worst_miss)
{
    const Fit *const single = &reading->room->single;
    const PlumbMarks *const marks = &reading->room->marks;
    const double *row = single->work->residual;
    const int rows = plumb_fit_residuals(single, single->work->theta, 0, single->work->residual);
    double sum = 0.0;
    for (int i = 0; i < rows; i++) {
        sum += row[i] * row[i];
    }
    *worst = -1;
    *worst_miss = 0.0;
    for (int i = 0; i < marks->count; i++) {
        const PlumbLandmark landmark = marks->mark[i].name.landmark;
        if (landmark == PLUMB_MARK_disc) {
            row++;
            continue;
        }
        const double miss = hypot(row[0], row[1]);
        row += 2;
        if (landmark < PLUMB_MARK_bar && miss > *worst_miss) {
            *worst = i;
            *worst_miss = miss;
        }
    }
    return sqrt(sum / rows);
}

/* A pose in one frame; its misfit, NaN where too little is marked. A mark on the body that no pose
 * can meet was lost on the way: it is left out and the frame fitted again. */
static double fit_frame(Reading *reading, int frame)
{
    Fit *const single = &reading->room->single;
    PlumbMarks *const marks = &reading->room->marks;
    double *const theta = single->work->theta;
    int landmarks = plumb_reading_one(reading, frame);
    /* Of a press the disc alone tells the bar's place against a shoulder that stays. */
    const int least = reading->still.setup->lift == PLUMB_BENCH ? 1 : (int)PLUMB_SERIES_MARKS_LEAST;
    if (landmarks < least) {
        return (double)NAN;
    }
    hold(single, theta);
    believe_legs(reading, frame, 0);
    believe_path(reading, frame, single->own[0], theta + PLUMB_TRACE_SHARED);
    double start[PLUMB_TRACE_UNKNOWNS];
    memcpy(start, theta, sizeof start);
    for (;; landmarks--) {
        int steps;
        bool converged;
        int worst;
        double miss;
        plumb_fit_descend(single, &steps, &converged);
        const double misfit = misfit_of(reading, &worst, &miss);
        if (miss < miss_most || landmarks <= least) {
            if (!(misfit < misfit_most)) {
                memcpy(theta, start, sizeof start);
            }
            return misfit;
        }
        for (int i = worst + 1; i < marks->count; i++) {
            marks->mark[i - 1] = marks->mark[i];
        }
        marks->count--;
        memcpy(theta, start, sizeof start);
    }
}

/* The first key frame alone: any body, any camera. */
static void fit_first(Reading *reading)
{
    SeriesRoom *const room = reading->room;
    int steps;
    bool converged;
    plumb_reading_one(reading, reading->series->key[0]);
    plumb_reading_add_fixed(reading, 0, &room->marks);
    reading->still.marks = &room->marks;
    reading->still.on_floor[0] = reading->ask->from_floor;
    memset(&room->single, 0, sizeof room->single);
    room->single.ask = &reading->still;
    room->single.work = &room->work;
    plumb_fit_search(&room->single, &steps, &converged);
    believe_path(reading, reading->series->key[0], room->single.own[0],
                 room->work.theta + PLUMB_TRACE_SHARED);
    memcpy(room->theta, room->work.theta, sizeof room->theta);
}

/* The marks of all key frames, without those that were left out. */
static void gather_keys(Reading *reading)
{
    SeriesRoom *const room = reading->room;
    PlumbMarks *const marks = &room->marks;
    marks->count = 0;
    marks->still_count = reading->series->key_count;
    plumb_reading_add(reading, reading->series->key[0], 0, marks);
    for (int s = 1; s < reading->series->key_count; s++) {
        for (int i = 0; i < room->left[s].count; i++) {
            marks->mark[marks->count] = room->left[s].mark[i];
            marks->mark[marks->count++].still = s;
        }
    }
}

/* Of a press again from where bar and elbow are believed to be, and the better is kept: an elbow on
 * the head's side of the bar shows the end of the bench nearly the same. */
static double descend_again(Reading *reading, double sum)
{
    SeriesRoom *const room = reading->room;
    double *const theta = room->work.theta;
    int steps;
    bool converged;
    memcpy(room->theta, theta, sizeof room->theta);
    for (int k = 0; k < FIT_STANCE; k++) {
        theta[k] = 0.0;
    }
    for (int s = 0; s < room->joint.still_count; s++) {
        double *const own = theta + PLUMB_TRACE_SHARED + s * PLUMB_TRACE_OWN;
        own[FIT_SWING] = 0.0;
        own[FIT_BAR_X] = 0.0;
    }
    const double again = plumb_fit_descend(&room->joint, &steps, &converged);
    if (!(again < sum)) {
        memcpy(theta, room->theta, sizeof room->theta);
        return sum;
    }
    reading->series->trace.converged = converged;
    return again;
}

/* All key frames together, each from its neighbour's pose. */
static void fit_keys(Reading *reading)
{
    SeriesRoom *const room = reading->room;
    PlumbSeries *const series = reading->series;
    double *const theta = room->work.theta;
    room->joint = room->single;
    room->joint.one_camera = true;
    reading->still.stand_sd_frac = 0.0;
    for (int s = 1; s < series->key_count; s++) {
        if (!(fit_frame(reading, series->key[s]) < misfit_most)) {
            for (int k = s + 1; k < series->key_count; k++) {
                series->key[k - 1] = series->key[k];
            }
            series->key_count--;
            s--;
            continue;
        }
        room->left[s] = room->marks;
        memcpy(room->joint.own[s], room->joint.own[0], sizeof room->joint.own[0]);
        for (int k = FIT_HIP_X; k <= FIT_BAR_Y; k++) {
            const FitPrior own = room->single.own[0][k];
            FitPrior *const joint = &room->joint.own[s][k];
            const double value = own.mean + own.sd * theta[PLUMB_TRACE_SHARED + k];
            joint->mean = stays(&room->joint, k) ? own.mean : value;
            joint->sd = own.sd;
            room->theta[PLUMB_TRACE_SHARED + s * PLUMB_TRACE_OWN + k] =
                (value - joint->mean) / joint->sd;
        }
        for (int k = 0; k < FIT_HIP_X; k++) {
            room->theta[PLUMB_TRACE_SHARED + s * PLUMB_TRACE_OWN + k] = 0.0;
        }
    }
    gather_keys(reading);
    PlumbMarks *const marks = &room->marks;
    for (int s = 0; s < series->key_count; s++) {
        reading->still.size_px[s] = reading->ask->still.size_px[0];
        reading->still.distance_m[s] = reading->ask->still.distance_m[0];
        believe_legs(reading, series->key[s], s);
        reading->still.scale_length_m[s] = reading->ask->still.scale_length_m[0];
    }
    room->joint.still_count = series->key_count;
    plumb_reading_add_fixed(reading, 0, marks);
    reading->still.stand_sd_frac = reading->ask->still.stand_sd_frac;
    memcpy(theta, room->theta, sizeof room->theta);
    series->trace.step_count = 0;
    const double sum =
        plumb_fit_descend(&room->joint, &series->trace.step_count, &series->trace.converged);
    if (series->lift == PLUMB_BENCH) {
        descend_again(reading, sum);
    }
    memcpy(room->theta, theta, sizeof room->theta);
    plumb_fit_covariance(&room->joint);
    plumb_fit_tell(&room->joint, &series->trace);
}

/* The fit of one frame at the body and camera of the key frames, at the pose of the first. */
static void begin_frames(Reading *reading)
{
    SeriesRoom *const room = reading->room;
    room->single = room->joint;
    room->single.still_count = 1;
    memcpy(room->work.theta, room->theta, sizeof room->theta);
    FitPrior *const knees = &room->single.shared[FIT_KNEES_OUT - FIT_STANCE];
    knees->mean += knees->sd * room->work.theta[FIT_KNEES_OUT];
    knees->sd = knees_out_sd_rad;
    room->work.theta[FIT_KNEES_OUT] = 0.0;
    reading->still.stand_sd_frac = 0.0;
}

/* Whether a frame shows an elbow. */
static bool elbow_seen(const Reading *reading, int frame)
{
    bool seen = false;
    for (int near = PLUMB_NEAR; near <= PLUMB_FAR; near++) {
        PlumbVec2 at;
        const int track = plumb_reading_track(reading, PLUMB_MARK_elbow, (PlumbNear)near);
        seen = seen || (track >= 0 && plumb_series_place(reading->ask, track, frame, &at));
    }
    return seen;
}

/* The bar as the disc shows it: the place followed is the middle of the rim's ellipse. */
static bool disc_place(const Reading *reading, int frame, PlumbVec2 *bar_m)
{
    const int track = plumb_reading_track(reading, PLUMB_MARK_disc_centre, PLUMB_NEAR);
    PlumbVec2 at;
    if (track < 0 || !plumb_series_place(reading->ask, track, frame, &at)) {
        return false;
    }
    const PlumbVec3 p = plumb_camera_meet(&reading->series->trace.still[0].camera, at,
                                          reading->still.disc_z_m, NULL);
    *bar_m = (PlumbVec2){p.x, p.y};
    return true;
}

/* Whether a frame shows the bar at all, where the film has marks of it. Straight arms tell its
 * place within centimetres only: what lies between frames that show it is nearer. */
static bool bar_seen(const Reading *reading, int frame)
{
    static const PlumbLandmark bars[] = {PLUMB_MARK_disc_centre, PLUMB_MARK_disc, PLUMB_MARK_bar};
    bool marked = false;
    for (size_t i = 0; i < sizeof bars / sizeof bars[0]; i++) {
        for (int near = PLUMB_NEAR; near <= PLUMB_FAR; near++) {
            PlumbVec2 at;
            const int track = plumb_reading_track(reading, bars[i], (PlumbNear)near);
            if (track >= 0 && plumb_series_place(reading->ask, track, frame, &at)) {
                return true;
            }
            marked = marked || track >= 0;
        }
    }
    return !marked;
}

static void keep_frame(Reading *reading, int frame, double misfit)
{
    PlumbSeriesFrame *const out = &reading->series->frame[frame];
    FitFigure figure;
    out->misfit = misfit;
    out->known = misfit < misfit_most && bar_seen(reading, frame);
    out->elbow_seen = elbow_seen(reading, frame);
    plumb_fit_figure(&reading->room->single, reading->room->work.theta, 0, false, &figure);
    const PlumbPosition *const p = &figure.position;
    PlumbVec2 bar = {p->point[PLUMB_PT_bar].x, p->point[PLUMB_PT_bar].y};
    const bool squat = reading->ask->still.setup->lift == PLUMB_SQUAT;
    const bool press = reading->ask->still.setup->lift == PLUMB_BENCH;
    const bool seen = squat && disc_place(reading, frame, &bar);
    const double value[PART_COUNT] = {p->pose.hip_x_m,
                                      p->pose.hip_height_m,
                                      p->pose.thorax_lean_rad,
                                      press ? figure.press.angle_rad[PLUMB_PRESS_ANG_abduction]
                                            : p->spine_rad,
                                      p->knees_out_rad,
                                      bar.x,
                                      bar.y,
                                      seen ? figure.slip_m : (double)NAN};
    for (int i = 0; i < PART_COUNT; i++) {
        reading->part[i][frame] = out->known ? value[i] : (double)NAN;
    }
}

/* From the first key frame to the end, then from there to the beginning. */
static void fit_frames(Reading *reading)
{
    const int first = reading->series->key[0];
    int done = 0;
    for (int way = 0; way < 2; way++) {
        begin_frames(reading);
        const int step = way == 0 ? 1 : -1;
        for (int f = way == 0 ? first : first - 1; f >= 0 && f < reading->ask->frame_count;
             f += step, done++) {
            if (!go_on(reading, keys_frac + (1.0 - keys_frac) * done / reading->ask->frame_count)) {
                return;
            }
            const double misfit = fit_frame(reading, f);
            keep_frame(reading, f, misfit);
            reading->series->unknown_count += !reading->series->frame[f].known;
        }
    }
}

PlumbStatus plumb_reading_fit(Reading *reading, PlumbError *error)
{
    const PlumbStatus status = plumb_reading_keys(reading, error);
    if (status != PLUMB_OK) {
        return status;
    }
    if (go_on(reading, 0.0)) {
        fit_first(reading);
    }
    if (go_on(reading, first_frac)) {
        fit_keys(reading);
    }
    fit_frames(reading);
    return reading->series->stopped || reading->series->unknown_count < reading->ask->frame_count
               ? PLUMB_OK
               : plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                                 "the marks of no frame fit a lifter: look for a mark on the wrong "
                                 "joint or side, and the disc's size");
}
