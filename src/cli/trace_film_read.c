/* SPDX-License-Identifier: MIT */
/* plumbar trace film: words, frames and marks read; followed; fitted. */
#include "trace_film.h"

#include <plumbar/sample.h>

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { SURVEY_STEP = 60 };

/* Takes a key of a film; *known is false where it is none. */
static PlumbStatus take_key(const char *word, PlumbCliFilm *film, bool *known, PlumbCliFault *fault)
{
    char key[PLUMB_TRACE_KEY_SIZE];
    const char *const value = plumb_trace_word_split(word, key);
    *known = value != NULL;
    if (value == NULL) {
        return PLUMB_OK;
    }
    if (strcmp(key, "rate") == 0) {
        return plumb_trace_word_quantity(key, value, PLUMB_Q_NUMBER, 1.0, 1000.0,
                                         "' is not within 1 to 1000 frames a second",
                                         &film->rate_per_s, fault);
    }
    if (strcmp(key, "cutoff") == 0) {
        return plumb_trace_word_quantity(key, value, PLUMB_Q_NUMBER, 1.0, 60.0,
                                         "' is not within 1 to 60 Hz", &film->cutoff_hz, fault);
    }
    for (int i = 0; i < PLUMB_FILM_LIMIT_COUNT; i++) {
        if (strcmp(key, plumb_film_limit_name((PlumbFilmLimit)i)) == 0) {
            return plumb_trace_word_limit(key, value, plumb_film_limit_quantity((PlumbFilmLimit)i),
                                          &film->limit[i], fault);
        }
    }
    return plumb_trace_word_take(key, value, &film->words, known, fault);
}

static PlumbStatus split_words(const PlumbCliArgs *args, PlumbCliFilm *film, PlumbCliFault *fault)
{
    const char *rest[PLUMB_CLI_WORDS_MAX];
    int count = 0;
    for (int i = 0; i < PLUMB_FILM_LIMIT_COUNT; i++) {
        film->limit[i] = (double)NAN;
    }
    for (int i = 1; i < args->word_count; i++) {
        bool known = false;
        if (film->film_path == NULL) {
            film->film_path = args->word[i];
            continue;
        }
        if (film->marks_path == NULL && plumb_trace_is_marks(args->word[i])) {
            film->marks_path = args->word[i];
            continue;
        }
        const PlumbStatus status = take_key(args->word[i], film, &known, fault);
        if (status != PLUMB_OK) {
            return status;
        }
        if (!known) {
            rest[count++] = args->word[i];
        }
    }
    if (film->marks_path == NULL) {
        return plumb_fault_bad(fault, "marks",
                               "write plumbar trace film FILM MARKS.csv: a video or a folder of "
                               "frames, and a file of marks (the ending is .csv)",
                               "", "");
    }
    return plumb_request_read(rest, count,
                              PLUMB_REQUEST_SETUP | PLUMB_REQUEST_ANY_LIFT | PLUMB_REQUEST_BENCH,
                              &film->request, fault);
}

static volatile sig_atomic_t interrupted;

static void interrupt(int signal_number)
{
    (void)signal_number;
    interrupted = 1;
}

/* Progress on a terminal only, on one line that goes away. */
static void show(const char *what, double done_frac)
{
    if (isatty(STDERR_FILENO) != 0) {
        fprintf(stderr, "\r%s %3.0f %%", what, 100.0 * done_frac);
        if (done_frac >= 1.0) {
            fprintf(stderr, "\r%*s\r", (int)strlen(what) + 6, "");
        }
    }
}

static PlumbStatus open_frames(PlumbCliFilm *film, PlumbCliFault *fault)
{
    PlumbFramesOptions options = plumb_frames_options();
    options.rate_per_s = film->rate_per_s;
    fault->path[0] = '\0';
    PlumbStatus status = plumb_frames_open(film->film_path, &options, &film->frames, &fault->error);
    for (double done = 0.0; status == PLUMB_OK && done < 1.0 && interrupted == 0;) {
        status = plumb_frames_survey(film->frames, SURVEY_STEP, &done, &fault->error);
        show("looking through the film", done);
    }
    if (status != PLUMB_OK) {
        if (strcmp(fault->error.field, "rate") != 0) {
            plumb_fault_in_file(fault, film->film_path);
        }
        return status;
    }
    film->frame_count = plumb_frames_count(film->frames);
    plumb_frames_size_px(film->frames, &film->width_px, &film->height_px);
    const size_t count = (size_t)film->frame_count;
    film->time_s = calloc(count, sizeof *film->time_s);
    film->frame = calloc(count, sizeof *film->frame);
    film->tracks.shift = calloc(count, sizeof *film->tracks.shift);
    if (film->time_s == NULL || film->frame == NULL || film->tracks.shift == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "film", "no memory for the film");
    }
    for (int i = 0; i < film->frame_count; i++) {
        film->time_s[i] = plumb_frames_time_s(film->frames, i);
    }
    return PLUMB_OK;
}

static PlumbStatus read_marks(const PlumbCliArgs *args, PlumbCliFilm *film, PlumbCliFault *fault)
{
    PlumbMarksMap map = plumb_film_map_default();
    char *bytes;
    size_t length;
    fault->path[0] = '\0';
    if (args->given[PLUMB_OPT_COLUMNS]) {
        const PlumbStatus read =
            plumb_marks_map_read(args->value[PLUMB_OPT_COLUMNS], &map, &fault->error);
        if (read != PLUMB_OK) {
            return read;
        }
    }
    PlumbStatus status = plumb_file_read_whole(film->marks_path, PLUMB_MARKS_FILE_MAX_BYTES, &bytes,
                                               &length, &fault->error);
    if (status != PLUMB_OK) {
        return status;
    }
    status = plumb_film_marks_parse(bytes, length, &map, &film->marks, &fault->error);
    free(bytes);
    if (status == PLUMB_OK) {
        status =
            plumb_film_marks_place(&film->marks, film->time_s, film->frame_count, &fault->error);
    }
    if (status == PLUMB_OK) {
        film->follow = plumb_track_ask(film->width_px, film->height_px, film->frame_count);
        status = plumb_film_tracks(film, fault);
    }
    if (status == PLUMB_BAD_INPUT) {
        plumb_fault_in_file(fault, film->marks_path);
    }
    return status;
}

static PlumbStatus lend(void *user, int index, PlumbGray *gray, PlumbError *error)
{
    return plumb_frames_gray(((PlumbCliFilm *)user)->frames, index, gray, error);
}

static bool tell(void *user, double done_frac)
{
    (void)user;
    show("following the marks", done_frac);
    return interrupted == 0;
}

static PlumbStatus follow(PlumbCliFilm *film, PlumbCliFault *fault)
{
    PlumbTrackAsk *const ask = &film->follow;
    ask->frame = lend;
    ask->progress = tell;
    ask->user = film;
    film->tracks.point =
        calloc((size_t)ask->track_count * (size_t)ask->frame_count, sizeof *film->tracks.point);
    void *const room = malloc(plumb_track_room_bytes(ask));
    PlumbStatus status = PLUMB_OUT_OF_MEMORY;
    if (film->tracks.point == NULL || room == NULL) {
        plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "film", "no memory to follow the marks");
    } else {
        fault->path[0] = '\0';
        status = plumb_track_follow(ask, room, &film->tracks, &fault->error);
    }
    free(room);
    if (status == PLUMB_OK && film->tracks.steady == PLUMB_MOVED) {
        plumb_error_set(&fault->error, PLUMB_BAD_INPUT, "camera",
                        "the camera moves and the background does not tell how: nothing can be "
                        "measured in this film. Put the camera on something firm, and leave "
                        "enough of the wall behind the lifter in the picture");
        plumb_fault_in_file(fault, film->film_path);
        return PLUMB_BAD_INPUT;
    }
    return status;
}

static PlumbStatus fit(PlumbCliFilm *film, PlumbCliFault *fault)
{
    PlumbCliRequest *const request = &film->request;
    const PlumbTraceWords *const words = &film->words;
    PlumbBodies bodies;
    plumb_bodies_around(&request->record.spec, &request->lifter.body, &bodies);
    memcpy(film->body.mean_m, bodies.mean_m, sizeof bodies.mean_m);
    memcpy(film->body.cov_m2, bodies.cov_m2, sizeof bodies.cov_m2);
    const PlumbSeriesAsk made = film->ask; /* mirrored, fixed marks */
    PlumbSeriesAsk *const ask = &film->ask;
    *ask = plumb_series_ask(&request->lifter, &request->setup, &film->body);
    ask->mirror_width_px = made.mirror_width_px;
    ask->fixed_count = made.fixed_count;
    memcpy(ask->fixed, made.fixed, sizeof ask->fixed);
    ask->still.size_px[0] = (PlumbVec2){film->width_px, film->height_px};
    ask->still.distance_m[0] = words->distance_m;
    ask->still.disc_z_m = words->disc_out_m > 0.0 ? words->disc_out_m : ask->still.disc_z_m;
    ask->still.scale_length_m = words->scale_m;
    ask->still.joint_sigma_m = words->error_m > 0.0 ? words->error_m : ask->still.joint_sigma_m;
    ask->from_floor = ask->from_floor && !words->in_the_air;
    ask->frame_count = film->frame_count;
    ask->time_s = film->time_s;
    ask->track_count = film->track_count;
    ask->track = film->track;
    ask->point = film->tracks.point;
    ask->shift = film->tracks.shift;
    ask->cutoff_hz = film->cutoff_hz;
    void *const room = malloc(plumb_series_room_bytes(film->frame_count));
    if (room == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "film", "no memory for the fit");
    }
    fault->path[0] = '\0';
    const PlumbStatus status =
        plumb_series_read(ask, room, film->frame, &film->series, &fault->error);
    free(room);
    return status;
}

static void judge(PlumbCliFilm *film)
{
    double limit[PLUMB_FILM_LIMIT_COUNT];
    plumb_film_limits_default(film->request.lift, limit);
    for (int i = 0; i < PLUMB_FILM_LIMIT_COUNT; i++) {
        film->limit[i] = isnan(film->limit[i]) ? limit[i] : film->limit[i];
    }
    film->finding_count = plumb_film_findings(&film->series, film->limit, film->finding);
}

/* Whether Ctrl+C came: half a film gives no pose, so that the work ends there and nothing is
 * written. */
static PlumbStatus go_on(PlumbStatus status, PlumbCliFilm *film, PlumbCliFault *fault)
{
    film->stopped = interrupted != 0;
    if (!film->stopped) {
        return status;
    }
    fault->path[0] = '\0';
    return plumb_error_set(&fault->error, PLUMB_BAD_INPUT, "film",
                           "stopped before the marks were followed to the end; nothing was "
                           "written");
}

static PlumbStatus read_frames(const PlumbCliArgs *args, PlumbCliFilm *film, PlumbCliFault *fault)
{
    PlumbStatus status = go_on(open_frames(film, fault), film, fault);
    status = status == PLUMB_OK ? read_marks(args, film, fault) : status;
    return status == PLUMB_OK ? go_on(follow(film, fault), film, fault) : status;
}

PlumbStatus plumb_film_read(const PlumbCliArgs *args, PlumbCliFilm *film, PlumbCliFault *fault)
{
    struct sigaction before;
    const struct sigaction during = {.sa_handler = interrupt};
    PlumbStatus status = split_words(args, film, fault);
    if (status == PLUMB_OK && film->request.lift == PLUMB_BENCH) {
        status = plumb_fault_bad(fault, "lift",
                                 "deadlifts and squats are read from films; of a bench press the "
                                 "elbows, which decide, cannot be read from one camera",
                                 "", "");
    }
    interrupted = 0;
    sigaction(SIGINT, NULL, &before);
    if (before.sa_handler != SIG_IGN) {
        sigaction(SIGINT, &during, NULL);
    }
    status = status == PLUMB_OK ? read_frames(args, film, fault) : status;
    sigaction(SIGINT, &before, NULL);
    status = status == PLUMB_OK ? fit(film, fault) : status;
    if (status == PLUMB_OK) {
        judge(film);
    }
    return status;
}

void plumb_film_free(PlumbCliFilm *film)
{
    plumb_frames_close(film->frames);
    free(film->time_s);
    free(film->frame);
    free(film->tracks.point);
    free(film->tracks.shift);
    free(film);
}
