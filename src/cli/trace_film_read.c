/* SPDX-License-Identifier: MIT */
/* plumbar trace film: words, frames and marks read; followed; fitted. */
#include "trace_film.h"

#include <math.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

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

static bool tell(void *user, PlumbFilmStep step, double done_frac)
{
    (void)user;
    show(plumb_film_step_text(step), done_frac);
    return interrupted == 0;
}

static PlumbStatus open_frames(PlumbCliFilm *film, PlumbCliFault *fault)
{
    PlumbFramesOptions options = plumb_frames_options();
    options.rate_per_s = film->rate_per_s;
    fault->path[0] = '\0';
    film->read = calloc(1, sizeof *film->read);
    if (film->read == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "film", "no memory for the film");
    }
    const PlumbStatus status =
        plumb_film_reading_open(film->read, film->film_path, &options, tell, NULL, &fault->error);
    if (status != PLUMB_OK && strcmp(fault->error.field, "rate") != 0) {
        plumb_fault_in_file(fault, film->film_path);
    }
    return status;
}

static PlumbFilmQuestion question_of(const PlumbCliFilm *film)
{
    const PlumbTraceWords *const words = &film->words;
    PlumbFilmQuestion question = plumb_film_question(
        &film->request.lifter, &film->request.record.spec, &film->request.setup);
    question.disc_out_m = words->disc_out_m;
    question.error_m = words->error_m;
    question.cutoff_hz = film->cutoff_hz;
    memcpy(question.limit, film->limit, sizeof question.limit);
    return question;
}

static PlumbStatus read_marks(const PlumbCliArgs *args, PlumbCliFilm *film,
                              PlumbFilmQuestion *question, PlumbCliFault *fault)
{
    PlumbFilmReading *const read = film->read;
    PlumbMarksMap map = plumb_film_map_default();
    char *bytes;
    size_t length;
    fault->path[0] = '\0';
    if (args->given[PLUMB_OPT_COLUMNS]) {
        const PlumbStatus known =
            plumb_marks_map_read(args->value[PLUMB_OPT_COLUMNS], &map, &fault->error);
        if (known != PLUMB_OK) {
            return known;
        }
    }
    PlumbStatus status = plumb_file_read_whole(film->marks_path, PLUMB_MARKS_FILE_MAX_BYTES, &bytes,
                                               &length, &fault->error);
    if (status != PLUMB_OK) {
        return status;
    }
    status = plumb_film_marks_parse(bytes, length, &map, &read->marks, &fault->error);
    free(bytes);
    if (status == PLUMB_OK) {
        plumb_trace_words_tell(&film->words, read->marks.told);
        plumb_film_question_tell(question, read->marks.told);
        status =
            plumb_film_marks_place(&read->marks, read->time_s, read->frame_count, &fault->error);
    }
    if (status == PLUMB_OK) {
        status = plumb_film_reading_tracks(read, question, &fault->error);
    }
    if (status == PLUMB_BAD_INPUT) {
        plumb_fault_in_file(fault, film->marks_path);
    }
    return status;
}

static PlumbStatus follow(PlumbCliFilm *film, PlumbCliFault *fault)
{
    fault->path[0] = '\0';
    const PlumbStatus status =
        plumb_film_reading_follow(film->read, NULL, tell, NULL, &fault->error);
    if (status == PLUMB_BAD_INPUT) {
        plumb_fault_in_file(fault, film->film_path);
    }
    return status;
}

/* Whether Ctrl+C came: half a film gives no lift, so that the work ends there and nothing is
 * written. */
static PlumbStatus go_on(PlumbStatus status, PlumbCliFilm *film, PlumbCliFault *fault)
{
    film->stopped = interrupted != 0;
    if (!film->stopped) {
        return status;
    }
    fault->path[0] = '\0';
    return plumb_error_set(&fault->error, PLUMB_BAD_INPUT, "film",
                           "stopped before the lift was read; nothing was written");
}

static PlumbStatus read_frames(const PlumbCliArgs *args, PlumbCliFilm *film,
                               PlumbFilmQuestion *question, PlumbCliFault *fault)
{
    PlumbStatus status = go_on(open_frames(film, fault), film, fault);
    status = status == PLUMB_OK ? read_marks(args, film, question, fault) : status;
    status = status == PLUMB_OK ? go_on(follow(film, fault), film, fault) : status;
    if (status == PLUMB_OK) {
        status = plumb_film_reading_fit(film->read, question, tell, NULL, &fault->error);
        status = go_on(status, film, fault);
    }
    return status;
}

PlumbStatus plumb_film_read(const PlumbCliArgs *args, PlumbCliFilm *film, PlumbCliFault *fault)
{
    struct sigaction before;
    const struct sigaction during = {.sa_handler = interrupt};
    PlumbStatus status = split_words(args, film, fault);
    PlumbFilmQuestion question = question_of(film);
    interrupted = 0;
    sigaction(SIGINT, NULL, &before);
    if (before.sa_handler != SIG_IGN) {
        sigaction(SIGINT, &during, NULL);
    }
    status = status == PLUMB_OK ? read_frames(args, film, &question, fault) : status;
    sigaction(SIGINT, &before, NULL);
    return status;
}

void plumb_film_free(PlumbCliFilm *film)
{
    plumb_film_reading_free(film->read);
    free(film);
}
