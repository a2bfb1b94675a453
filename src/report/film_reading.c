/* SPDX-License-Identifier: MIT */
/* A film opened, followed and fitted. */
#include <plumbar/film_reading.h>

#include <plumbar/sample.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { SURVEY_FRAMES = 20 };

const char *plumb_film_step_text(PlumbFilmStep step)
{
    static const char *const words[] = {[PLUMB_FILM_LOOKS] = "looking through the film",
                                        [PLUMB_FILM_FOLLOWS] = "following the marks",
                                        [PLUMB_FILM_FITS] = "fitting the lift",
                                        [PLUMB_FILM_DRAWS] = "drawing its pages"};
    return words[step];
}

PlumbFilmQuestion plumb_film_question(const PlumbLifter *lifter, const PlumbBodySpec *spec,
                                      const PlumbSetup *setup)
{
    PlumbFilmQuestion question = {.lifter = lifter, .spec = spec, .setup = setup};
    for (int i = 0; i < PLUMB_FILM_LIMIT_COUNT; i++) {
        question.limit[i] = (double)NAN;
    }
    return question;
}

void plumb_film_question_tell(PlumbFilmQuestion *question, const double told[PLUMB_TOLD_COUNT])
{
    const double facing = told[PLUMB_TOLD_facing];
    const double floor = told[PLUMB_TOLD_floor];
    question->facing = fabs(facing) > 0.0 ? (int)facing : question->facing;
    question->in_the_air = fabs(floor) > 0.0 ? floor < 0.0 : question->in_the_air;
    if (told[PLUMB_TOLD_distance_m] > 0.0) {
        question->distance_m = told[PLUMB_TOLD_distance_m];
    }
    if (told[PLUMB_TOLD_scale_m] > 0.0) {
        question->scale_m = told[PLUMB_TOLD_scale_m];
    }
}

static PlumbStatus out_of_memory(PlumbError *error)
{
    return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "film", "no memory for the film");
}

/* Arrays of the film's length. */
static PlumbStatus make_room(PlumbFilmReading *reading, PlumbError *error)
{
    const size_t count = (size_t)reading->frame_count;
    free(reading->time_s);
    free(reading->frame);
    free(reading->tracks.shift);
    reading->time_s = calloc(count, sizeof *reading->time_s);
    reading->frame = calloc(count, sizeof *reading->frame);
    reading->tracks.shift = calloc(count, sizeof *reading->tracks.shift);
    const bool made =
        reading->time_s != NULL && reading->frame != NULL && reading->tracks.shift != NULL;
    return made ? PLUMB_OK : out_of_memory(error);
}

PlumbStatus plumb_film_reading_open(PlumbFilmReading *reading, const char *path,
                                    const PlumbFramesOptions *options, PlumbFilmTell tell,
                                    void *user, PlumbError *error)
{
    PlumbStatus status = plumb_frames_open(path, options, &reading->frames, error);
    for (double done = 0.0; status == PLUMB_OK && done < 1.0 && !reading->stopped;) {
        status = plumb_frames_survey(reading->frames, SURVEY_FRAMES, &done, error);
        reading->stopped = tell != NULL && !tell(user, PLUMB_FILM_LOOKS, done);
    }
    if (status != PLUMB_OK || reading->stopped) {
        return status;
    }
    reading->frame_count = plumb_frames_count(reading->frames);
    plumb_frames_size_px(reading->frames, &reading->width_px, &reading->height_px);
    if (make_room(reading, error) != PLUMB_OK) {
        return PLUMB_OUT_OF_MEMORY;
    }
    for (int i = 0; i < reading->frame_count; i++) {
        reading->time_s[i] = plumb_frames_time_s(reading->frames, i);
    }
    return PLUMB_OK;
}

bool plumb_film_reading_again(PlumbFilmReading *reading, PlumbFilmReading *before)
{
    reading->frame_count = before->frame_count;
    reading->width_px = before->width_px;
    reading->height_px = before->height_px;
    if (before->frames == NULL || make_room(reading, NULL) != PLUMB_OK) {
        return false;
    }
    memcpy(reading->time_s, before->time_s, (size_t)before->frame_count * sizeof *before->time_s);
    reading->frames = before->frames;
    before->frames = NULL;
    return true;
}

/* Whom to lend frames and whom to tell. */
typedef struct Following {
    PlumbFilmReading *reading;
    PlumbFilmTell tell;
    void *user;
} Following;

static PlumbStatus lend(void *user, int index, PlumbGray *gray, PlumbError *error)
{
    return plumb_frames_gray(((Following *)user)->reading->frames, index, gray, error);
}

static bool progress(void *user, double done_frac)
{
    const Following *const f = user;
    return f->tell == NULL || f->tell(f->user, PLUMB_FILM_FOLLOWS, done_frac);
}

static bool fit_progress(void *user, double done_frac)
{
    const Following *const f = user;
    return f->tell == NULL || f->tell(f->user, PLUMB_FILM_FITS, done_frac);
}

static bool same_tracks(const PlumbFilmReading *a, const PlumbFilmReading *b)
{
    bool same = a->track_count == b->track_count && a->frame_count == b->frame_count &&
                a->follow.cover_track == b->follow.cover_track;
    for (int t = 0; same && t < a->track_count; t++) {
        const PlumbMarkName one = a->track[t].name;
        const PlumbMarkName other = b->track[t].name;
        same = one.landmark == other.landmark && one.near == other.near &&
               one.front == other.front &&
               fabs(a->follow.radius_px[t] - b->follow.radius_px[t]) < 1e-9;
    }
    return same;
}

static bool has_anchor(const PlumbFilmReading *reading, const PlumbAnchor *anchor)
{
    for (int i = 0; i < reading->follow.anchor_count; i++) {
        const PlumbAnchor *const other = &reading->anchor[i];
        if (other->track == anchor->track && other->frame == anchor->frame &&
            other->at_px.x == anchor->at_px.x && other->at_px.y == anchor->at_px.y) {
            return true;
        }
    }
    return false;
}

/* The place in which the marks of two readings differ, where it is one at most (*track -1: none);
 * else false. A mark that was taken away is a difference too. */
static bool at_most_one_apart(const PlumbFilmReading *now, const PlumbFilmReading *before,
                              int *track, int *frame)
{
    const PlumbFilmReading *const side[2] = {now, before};
    *track = -1;
    for (int k = 0; k < 2; k++) {
        for (int i = 0; i < side[k]->follow.anchor_count; i++) {
            const PlumbAnchor *const anchor = &side[k]->anchor[i];
            if (has_anchor(side[1 - k], anchor)) {
                continue;
            }
            if (*track >= 0 && (anchor->track != *track || anchor->frame != *frame)) {
                return false;
            }
            *track = anchor->track;
            *frame = anchor->frame;
        }
    }
    return true;
}

/* What was followed before stands where it does not change; true: nothing is left to follow. */
static bool take_over(PlumbFilmReading *reading, const PlumbFilmReading *before)
{
    int track;
    int frame;
    if (before == NULL || before->tracks.point == NULL || before->tracks.stopped ||
        !same_tracks(reading, before) || !at_most_one_apart(reading, before, &track, &frame)) {
        return false;
    }
    const size_t count = (size_t)reading->frame_count;
    memcpy(reading->tracks.point, before->tracks.point,
           (size_t)reading->track_count * count * sizeof *reading->tracks.point);
    memcpy(reading->tracks.shift, before->tracks.shift, count * sizeof *reading->tracks.shift);
    reading->tracks.steady = before->tracks.steady;
    reading->tracks.moved_px = before->tracks.moved_px;
    reading->follow.background = false;
    if (track >= 0) {
        plumb_track_mend(&reading->follow, track, frame);
    }
    return track < 0;
}

PlumbStatus plumb_film_reading_follow(PlumbFilmReading *reading, const PlumbFilmReading *before,
                                      PlumbFilmTell tell, void *user, PlumbError *error)
{
    PlumbTrackAsk *const ask = &reading->follow;
    Following following = {reading, tell, user};
    ask->frame = lend;
    ask->progress = progress;
    ask->user = &following;
    free(reading->tracks.point);
    reading->tracks.point =
        calloc((size_t)ask->track_count * (size_t)ask->frame_count, sizeof *reading->tracks.point);
    void *const room = malloc(plumb_track_room_bytes(ask));
    PlumbStatus status = PLUMB_OUT_OF_MEMORY;
    if (reading->tracks.point == NULL || room == NULL) {
        out_of_memory(error);
    } else {
        const bool done = take_over(reading, before);
        const PlumbSteady steady = reading->tracks.steady;
        const double moved_px = reading->tracks.moved_px;
        status = done ? PLUMB_OK : plumb_track_follow(ask, room, &reading->tracks, error);
        if (!ask->background) {
            reading->tracks.steady = steady;
            reading->tracks.moved_px = moved_px;
        }
        reading->stopped = reading->stopped || reading->tracks.stopped;
    }
    free(room);
    ask->user = NULL;
    if (status == PLUMB_OK && !reading->stopped && reading->tracks.steady == PLUMB_MOVED) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "camera",
                               "the camera moves and the background does not tell how: nothing can "
                               "be measured in this film. Put the camera on something firm, and "
                               "leave enough of the wall behind the lifter in the picture");
    }
    return status;
}

/* What the series is fitted to. */
static void fill_ask(PlumbFilmReading *reading, const PlumbFilmQuestion *question)
{
    PlumbBodies bodies;
    PlumbSeriesAsk *const ask = &reading->ask;
    plumb_bodies_around(question->spec, &question->lifter->body, &bodies);
    memcpy(reading->body.mean_m, bodies.mean_m, sizeof bodies.mean_m);
    memcpy(reading->body.cov_m2, bodies.cov_m2, sizeof bodies.cov_m2);
    *ask = plumb_series_ask(question->lifter, question->setup, &reading->body);
    ask->mirror_width_px = reading->mirror_width_px;
    ask->fixed_count = reading->fixed_count;
    memcpy(ask->fixed, reading->fixed, sizeof ask->fixed);
    ask->still.size_px[0] = (PlumbVec2){reading->width_px, reading->height_px};
    ask->still.distance_m[0] = question->distance_m;
    ask->still.disc_z_m = question->disc_out_m > 0.0 ? question->disc_out_m : ask->still.disc_z_m;
    ask->still.scale_length_m[0] = question->scale_m;
    ask->still.joint_sigma_m =
        question->error_m > 0.0 ? question->error_m : ask->still.joint_sigma_m;
    ask->from_floor = ask->from_floor && !question->in_the_air;
    ask->frame_count = reading->frame_count;
    ask->time_s = reading->time_s;
    ask->track_count = reading->track_count;
    ask->track = reading->track;
    ask->point = reading->tracks.point;
    ask->shift = reading->tracks.shift;
    ask->cutoff_hz = question->cutoff_hz;
}

PlumbStatus plumb_film_reading_fit(PlumbFilmReading *reading, const PlumbFilmQuestion *question,
                                   PlumbFilmTell tell, void *user, PlumbError *error)
{
    Following fitting = {reading, tell, user};
    void *const room = malloc(plumb_series_room_bytes(reading->frame_count));
    double limit[PLUMB_FILM_LIMIT_COUNT];
    if (room == NULL) {
        return out_of_memory(error);
    }
    fill_ask(reading, question);
    reading->ask.progress = fit_progress;
    reading->ask.user = &fitting;
    const PlumbStatus status =
        plumb_series_read(&reading->ask, room, reading->frame, &reading->series, error);
    free(room);
    reading->ask.user = NULL;
    reading->ask.progress = NULL;
    reading->stopped = reading->stopped || (status == PLUMB_OK && reading->series.stopped);
    if (status == PLUMB_OK && !reading->stopped) {
        plumb_film_limits_default(reading->series.lift, limit);
        for (int i = 0; i < PLUMB_FILM_LIMIT_COUNT; i++) {
            limit[i] = isnan(question->limit[i]) ? limit[i] : question->limit[i];
        }
        reading->finding_count = plumb_film_findings(&reading->series, limit, reading->finding);
    }
    return status;
}

void plumb_film_reading_free(PlumbFilmReading *reading)
{
    if (reading != NULL) {
        plumb_frames_close(reading->frames);
        free(reading->time_s);
        free(reading->frame);
        free(reading->tracks.point);
        free(reading->tracks.shift);
        free(reading);
    }
}
