/* SPDX-License-Identifier: MIT */
/* The threads behind a film: one that fetches frames, one that follows and fits. */
#include "reel.h"

#include <SDL.h>

#include <stdlib.h>
#include <string.h>

enum { SURVEY_FRAMES = 10 };

/* Shared under the lock. */
typedef struct PlumbReelFetch {
    SDL_mutex *lock;
    SDL_cond *changed;
    SDL_Thread *thread;
    char path[PLUMB_PATH_SIZE];
    PlumbFramesOptions options;
    bool quit;
    bool known;
    bool failed;
    double looked_frac;
    PlumbError error;
    char lost[PLUMB_MESSAGE_SIZE];
    int frame_count;
    double *time_s;
    int wanted;
    int got; /* the last that was unpacked, or could not be */
    bool fresh;
    PlumbPhoto photo; /* of got */
} PlumbReelFetch;

typedef struct PlumbReelJob {
    SDL_mutex *lock;
    SDL_cond *changed;
    SDL_Thread *thread;
    bool stop;
    bool ended;
    PlumbFilmStep step;
    double done_frac;
    PlumbReelBasis *basis; /* what is read points into it */
    char path[PLUMB_PATH_SIZE];
    PlumbFramesOptions options;
    PlumbFilmReading *before; /* lends its frames and what it followed */
    PlumbFilmReading *read;
    bool followed;
    PlumbStatus status;
    PlumbError error;
} PlumbReelJob;

static bool begin_lock(SDL_mutex **lock, SDL_cond **changed)
{
    *lock = SDL_CreateMutex();
    *changed = SDL_CreateCond();
    return *lock != NULL && *changed != NULL;
}

/* Looks through the film; false where it ended or shall end. */
static bool look_through(PlumbReelFetch *fetch, PlumbFrames *frames)
{
    PlumbError error = {0};
    double done = 0.0;
    bool quit = false;
    PlumbStatus status = PLUMB_OK;
    while (status == PLUMB_OK && done < 1.0 && !quit) {
        status = plumb_frames_survey(frames, SURVEY_FRAMES, &done, &error);
        SDL_LockMutex(fetch->lock);
        fetch->looked_frac = done;
        quit = fetch->quit;
        SDL_CondBroadcast(fetch->changed);
        SDL_UnlockMutex(fetch->lock);
    }
    const int count = status == PLUMB_OK && !quit ? plumb_frames_count(frames) : 0;
    double *const time_s = count > 0 ? calloc((size_t)count, sizeof *time_s) : NULL;
    for (int i = 0; time_s != NULL && i < count; i++) {
        time_s[i] = plumb_frames_time_s(frames, i);
    }
    SDL_LockMutex(fetch->lock);
    fetch->known = time_s != NULL;
    fetch->failed = time_s == NULL;
    fetch->time_s = time_s;
    fetch->frame_count = time_s != NULL ? count : 0;
    fetch->error = error;
    PlumbText lost = plumb_text_begin(fetch->lost, sizeof fetch->lost);
    plumb_text_string(&lost, plumb_frames_lost(frames));
    SDL_CondBroadcast(fetch->changed);
    SDL_UnlockMutex(fetch->lock);
    return time_s != NULL;
}

/* The next frame that is wanted, waiting until one is; -1: the end. */
static int next_wanted(PlumbReelFetch *fetch)
{
    SDL_LockMutex(fetch->lock);
    while (!fetch->quit && fetch->wanted == fetch->got) {
        SDL_CondWait(fetch->changed, fetch->lock);
    }
    const int wanted = fetch->quit ? -1 : fetch->wanted;
    SDL_UnlockMutex(fetch->lock);
    return wanted;
}

static int run_fetch(void *context)
{
    PlumbReelFetch *const fetch = context;
    PlumbFrames *frames = NULL;
    PlumbError error = {0};
    if (plumb_frames_open(fetch->path, &fetch->options, &frames, &error) != PLUMB_OK) {
        SDL_LockMutex(fetch->lock);
        fetch->failed = true;
        fetch->error = error;
        SDL_CondBroadcast(fetch->changed);
        SDL_UnlockMutex(fetch->lock);
        return 0;
    }
    bool more = look_through(fetch, frames);
    for (int frame = more ? next_wanted(fetch) : -1; frame >= 0; frame = next_wanted(fetch)) {
        PlumbPhoto photo = {0};
        const PlumbStatus status = plumb_frames_photo(frames, frame, &photo, &error);
        SDL_LockMutex(fetch->lock);
        plumb_photo_free(&fetch->photo);
        fetch->photo = photo;
        fetch->fresh = true;
        fetch->got = frame;
        fetch->error.message[0] = '\0';
        if (status != PLUMB_OK) {
            fetch->error = error;
        }
        SDL_CondBroadcast(fetch->changed);
        SDL_UnlockMutex(fetch->lock);
    }
    plumb_frames_close(frames);
    return 0;
}

PlumbReel *plumb_reel_open(const char *path, double rate_per_s)
{
    PlumbReel *const reel = calloc(1, sizeof *reel);
    PlumbReelFetch *const fetch = calloc(1, sizeof *fetch);
    if (reel == NULL || fetch == NULL || !begin_lock(&fetch->lock, &fetch->changed)) {
        free(reel);
        free(fetch);
        return NULL;
    }
    PlumbText text = plumb_text_begin(reel->path, sizeof reel->path);
    plumb_text_string(&text, path);
    memcpy(fetch->path, reel->path, sizeof fetch->path);
    fetch->options = plumb_frames_options();
    fetch->options.rate_per_s = rate_per_s;
    fetch->got = -1;
    reel->rate_per_s = rate_per_s;
    reel->shown = -1;
    reel->fetch = fetch;
    fetch->thread = SDL_CreateThread(run_fetch, "film", fetch);
    if (fetch->thread == NULL) {
        fetch->failed = true; /* else it is the thread's to say */
    }
    return reel;
}

static void close_fetch(PlumbReelFetch *fetch)
{
    SDL_LockMutex(fetch->lock);
    fetch->quit = true;
    SDL_CondBroadcast(fetch->changed);
    SDL_UnlockMutex(fetch->lock);
    if (fetch->thread != NULL) {
        SDL_WaitThread(fetch->thread, NULL);
    }
    plumb_photo_free(&fetch->photo);
    SDL_DestroyCond(fetch->changed);
    SDL_DestroyMutex(fetch->lock);
    free(fetch->time_s);
    free(fetch);
}

static void free_job(PlumbReelJob *job)
{
    SDL_DestroyCond(job->changed);
    SDL_DestroyMutex(job->lock);
    free(job);
}

void plumb_reel_close(PlumbReel *reel)
{
    if (reel == NULL) {
        return;
    }
    if (reel->job != NULL) {
        plumb_reel_stop(reel);
        SDL_WaitThread(reel->job->thread, NULL);
        plumb_film_reading_free(reel->job->read);
        free(reel->job->basis);
        free_job(reel->job);
    }
    close_fetch(reel->fetch);
    plumb_film_reading_free(reel->read);
    free(reel->basis);
    free(reel->time_s);
    free(reel);
}

void plumb_reel_want(PlumbReel *reel, int frame)
{
    PlumbReelFetch *const fetch = reel->fetch;
    SDL_LockMutex(fetch->lock);
    if (fetch->wanted != frame) {
        fetch->wanted = frame;
        SDL_CondBroadcast(fetch->changed);
    }
    SDL_UnlockMutex(fetch->lock);
}

/* Told by the thread that follows. */
static bool tell(void *user, PlumbFilmStep step, double done_frac)
{
    PlumbReelJob *const job = user;
    SDL_LockMutex(job->lock);
    job->step = step;
    job->done_frac = done_frac;
    const bool go_on = !job->stop;
    SDL_UnlockMutex(job->lock);
    return go_on;
}

/* Frames and times of the reading before, or the film opened anew. */
static PlumbStatus open_read(PlumbReelJob *job)
{
    PlumbFilmReading *const before = job->before;
    if (before != NULL && plumb_film_reading_again(job->read, before)) {
        return PLUMB_OK;
    }
    return plumb_film_reading_open(job->read, job->path, &job->options, tell, job, &job->error);
}

static PlumbFilmQuestion question_of(const PlumbReelBasis *basis)
{
    PlumbFilmQuestion question = plumb_film_question(&basis->lifter, &basis->spec, &basis->setup);
    question.facing = basis->marked.facing[0];
    question.distance_m = basis->marked.distance_m[0];
    question.scale_m = basis->marked.scale_m;
    question.in_the_air = basis->marked.in_the_air;
    return question;
}

static int run_job(void *context)
{
    PlumbReelJob *const job = context;
    PlumbFilmReading *const read = job->read;
    const PlumbFilmQuestion question = question_of(job->basis);
    read->marks.count = job->basis->marked.marks.count;
    memcpy(read->marks.mark, job->basis->marked.marks.mark,
           (size_t)read->marks.count * sizeof read->marks.mark[0]);
    PlumbStatus status = open_read(job);
    if (status == PLUMB_OK && !read->stopped) {
        status = plumb_film_marks_place(&read->marks, read->time_s, read->frame_count, &job->error);
    }
    if (status == PLUMB_OK && !read->stopped) {
        status = plumb_film_reading_tracks(read, &question, &job->error);
    }
    if (status == PLUMB_OK && !read->stopped) {
        status = plumb_film_reading_follow(read, job->before, tell, job, &job->error);
    }
    job->followed = status == PLUMB_OK && !read->stopped;
    if (job->followed && tell(job, PLUMB_FILM_FITS, 0.0)) {
        status = plumb_film_reading_fit(read, &question, &job->error);
    }
    SDL_LockMutex(job->lock);
    job->status = status;
    job->ended = true;
    SDL_CondBroadcast(job->changed);
    SDL_UnlockMutex(job->lock);
    return 0;
}

bool plumb_reel_read(PlumbReel *reel, const PlumbReelBasis *basis)
{
    if (reel->job != NULL) {
        return false;
    }
    PlumbReelJob *const job = calloc(1, sizeof *job);
    PlumbFilmReading *const read = calloc(1, sizeof *read);
    PlumbReelBasis *const own = malloc(sizeof *own);
    if (job == NULL || read == NULL || own == NULL || !begin_lock(&job->lock, &job->changed)) {
        free(job);
        free(read);
        free(own);
        return false;
    }
    *own = *basis;
    job->basis = own;
    job->read = read;
    job->before = reel->read;
    memcpy(job->path, reel->path, sizeof job->path);
    job->options = plumb_frames_options();
    job->options.rate_per_s = reel->rate_per_s;
    job->thread = SDL_CreateThread(run_job, "follow", job);
    if (job->thread == NULL) {
        plumb_film_reading_free(read);
        free(own);
        free_job(job);
        return false;
    }
    reel->job = job;
    reel->reading = true;
    reel->step = PLUMB_FILM_LOOKS;
    reel->done_frac = 0.0;
    return true;
}

void plumb_reel_stop(PlumbReel *reel)
{
    if (reel->job != NULL) {
        SDL_LockMutex(reel->job->lock);
        reel->job->stop = true;
        SDL_UnlockMutex(reel->job->lock);
    }
}

/* The end of a job: what was followed counts though the fit failed; what was stopped does not. */
static void end_job(PlumbReel *reel)
{
    PlumbReelJob *const job = reel->job;
    SDL_WaitThread(job->thread, NULL);
    const bool stopped = job->stop;
    reel->job = NULL;
    reel->reading = false;
    reel->not_read[0] = '\0';
    if (!stopped && job->status != PLUMB_OK) {
        memcpy(reel->not_read, job->error.message, sizeof reel->not_read);
    }
    if (stopped || !job->followed) {
        plumb_film_reading_free(job->read);
        free(job->basis);
    } else {
        plumb_film_reading_free(reel->read);
        free(reel->basis);
        reel->read = job->read;
        reel->basis = job->basis;
        reel->fitted = job->status == PLUMB_OK;
    }
    free_job(job);
}

static bool take_job(PlumbReel *reel, double seconds)
{
    PlumbReelJob *const job = reel->job;
    SDL_LockMutex(job->lock);
    if (!job->ended && seconds > 0.0) {
        SDL_CondWaitTimeout(job->changed, job->lock, (Uint32)(1e3 * seconds) + 1);
    }
    /* Whole per cents, so that not every frame of the film is a frame of the window. */
    const double done = (double)(int)(100.0 * job->done_frac) / 100.0;
    const bool ended = job->ended;
    const bool moved =
        ended || job->step != reel->step || done > reel->done_frac || done < reel->done_frac;
    reel->step = job->step;
    reel->done_frac = done;
    SDL_UnlockMutex(job->lock);
    if (ended) {
        end_job(reel);
    }
    return moved;
}

static bool take_film(PlumbReel *reel)
{
    PlumbReelFetch *const fetch = reel->fetch;
    const bool news = (fetch->known && !reel->known) || (fetch->failed && reel->why[0] == '\0') ||
                      (int)(100.0 * fetch->looked_frac) != (int)(100.0 * reel->looked_frac);
    reel->looked_frac = fetch->looked_frac;
    if (fetch->known && !reel->known) {
        reel->known = true;
        reel->frame_count = fetch->frame_count;
        reel->time_s = fetch->time_s;
        fetch->time_s = NULL;
        memcpy(reel->lost, fetch->lost, sizeof reel->lost);
    }
    if (fetch->failed && reel->why[0] == '\0') {
        PlumbText why = plumb_text_begin(reel->why, sizeof reel->why);
        plumb_text_string(&why, fetch->error.message[0] != '\0' ? fetch->error.message
                                                                : "there is no memory for it");
    }
    return news;
}

bool plumb_reel_take(PlumbReel *reel, double seconds, PlumbPhoto *photo)
{
    PlumbReelFetch *const fetch = reel->fetch;
    memset(photo, 0, sizeof *photo);
    SDL_LockMutex(fetch->lock);
    const bool awaited = !fetch->failed && (!fetch->known || fetch->wanted != fetch->got);
    if (awaited && !fetch->fresh && reel->job == NULL && seconds > 0.0) {
        SDL_CondWaitTimeout(fetch->changed, fetch->lock, (Uint32)(1e3 * seconds) + 1);
    }
    bool news = take_film(reel);
    if (fetch->fresh) {
        *photo = fetch->photo;
        memset(&fetch->photo, 0, sizeof fetch->photo);
        fetch->fresh = false;
        reel->shown = fetch->got;
        news = true;
    }
    SDL_UnlockMutex(fetch->lock);
    return (reel->job != NULL && take_job(reel, seconds)) || news;
}

bool plumb_reel_waits(const PlumbReel *reel)
{
    PlumbReelFetch *const fetch = reel->fetch;
    SDL_LockMutex(fetch->lock);
    const bool waits = !fetch->failed && (!fetch->known || fetch->wanted != fetch->got ||
                                          fetch->fresh || !reel->known);
    SDL_UnlockMutex(fetch->lock);
    return waits || reel->job != NULL;
}
