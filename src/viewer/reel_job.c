/* SPDX-License-Identifier: MIT */
/* The thread that follows the marks of a film and fits the lift, or makes a file of it. */
#include "reel_thread.h"

#include <plumbar/file.h>

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* A job reads, or where file is given writes. */
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
    PlumbReelFile *file; /* owned */
    PlumbStatus status;
    PlumbError error;
} PlumbReelJob;

static PlumbReelJob *new_job(void)
{
    PlumbReelJob *const job = calloc(1, sizeof *job);
    if (job != NULL && !plumb_lock_begin(&job->lock, &job->changed)) {
        free(job);
        return NULL;
    }
    return job;
}

static void free_job(PlumbReelJob *job)
{
    if (job == NULL) {
        return;
    }
    SDL_DestroyCond(job->changed);
    SDL_DestroyMutex(job->lock);
    free(job);
}

/* Told by the thread. */
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
    question.facing = basis->marked.facing[0] < 0 ? -1 : 0; /* as it is shown, else by the marks */
    plumb_film_question_tell(&question, basis->marked.marks.told[0]);
    return question;
}

static int end_run(PlumbReelJob *job, PlumbStatus status)
{
    SDL_LockMutex(job->lock);
    job->status = status;
    job->ended = true;
    SDL_CondBroadcast(job->changed);
    SDL_UnlockMutex(job->lock);
    return 0;
}

static int run_reading(void *context)
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
    if (job->followed) {
        status = plumb_film_reading_fit(read, &question, tell, job, &job->error);
    }
    return end_run(job, status);
}

static int run_drawing(void *context)
{
    PlumbReelJob *const job = context;
    PlumbReelFile *const file = job->file;
    PlumbBytes bytes = {.data = NULL};
    PlumbStatus status =
        plumb_film_pages_make(&file->pages, file->kind, tell, job, &bytes, &job->error);
    if (status == PLUMB_OK && bytes.data != NULL) {
        file->replaced = access(file->path, F_OK) == 0;
        status = plumb_file_write_atomic(file->path, (const char *)bytes.data, bytes.length,
                                         &job->error);
        file->written = status == PLUMB_OK;
    }
    plumb_bytes_free(&bytes);
    return end_run(job, status);
}

/* Begins the thread; without one the job is freed and false returned. */
static bool begin(PlumbReel *reel, PlumbReelJob *job, SDL_ThreadFunction run)
{
    job->thread = SDL_CreateThread(run, "film work", job);
    if (job->thread == NULL) {
        free_job(job);
        return false;
    }
    reel->job = job;
    reel->reading = job->file == NULL;
    reel->drawing = job->file != NULL;
    reel->step = reel->drawing ? PLUMB_FILM_DRAWS : PLUMB_FILM_LOOKS;
    reel->done_frac = 0.0;
    return true;
}

bool plumb_reel_read(PlumbReel *reel, const PlumbReelBasis *basis)
{
    PlumbReelJob *const job = reel->job == NULL ? new_job() : NULL;
    PlumbFilmReading *const read = calloc(1, sizeof *read);
    PlumbReelBasis *const own = malloc(sizeof *own);
    if (job == NULL || read == NULL || own == NULL) {
        free_job(job);
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
    return begin(reel, job, run_reading);
}

bool plumb_reel_draw(PlumbReel *reel, const PlumbReelFile *order)
{
    PlumbReelJob *const job = reel->job == NULL && reel->read != NULL ? new_job() : NULL;
    PlumbReelFile *const file = malloc(sizeof *file);
    if (job == NULL || file == NULL) {
        free_job(job);
        free(file);
        return false;
    }
    *file = *order;
    file->pages.read = reel->read;
    file->pages.name = file->name;
    file->pages.day = file->day;
    job->file = file;
    return begin(reel, job, run_drawing);
}

void plumb_reel_stop(PlumbReel *reel)
{
    if (reel->job != NULL) {
        SDL_LockMutex(reel->job->lock);
        reel->job->stop = true;
        SDL_UnlockMutex(reel->job->lock);
    }
}

/* What was followed counts though the fit failed; what was stopped only where nothing was known
 * before. */
static void end_reading(PlumbReel *reel, PlumbReelJob *job)
{
    const bool stopped = job->stop;
    reel->not_read[0] = '\0';
    if (!stopped && job->status != PLUMB_OK) {
        memcpy(reel->not_read, job->error.message, sizeof reel->not_read);
    }
    if (!job->followed || (stopped && reel->fitted)) {
        if (reel->read != NULL && reel->read->frames == NULL) {
            reel->read->frames = job->read->frames; /* they were lent */
            job->read->frames = NULL;
        }
        plumb_film_reading_free(job->read);
        free(job->basis);
        return;
    }
    plumb_film_reading_free(reel->read);
    free(reel->basis);
    reel->read = job->read;
    reel->basis = job->basis;
    reel->fitted = job->status == PLUMB_OK && !job->read->stopped;
    reel->figure_frame = -1;
}

static void end_job(PlumbReel *reel)
{
    PlumbReelJob *const job = reel->job;
    SDL_WaitThread(job->thread, NULL);
    reel->job = NULL;
    if (job->file == NULL) {
        end_reading(reel, job);
    } else {
        job->file->status = job->status;
        job->file->error = job->error;
        free(reel->file);
        reel->file = job->file;
    }
    reel->reading = false;
    reel->drawing = false;
    free_job(job);
}

bool plumb_job_take(PlumbReel *reel, double seconds)
{
    PlumbReelJob *const job = reel->job;
    if (job == NULL) {
        return false;
    }
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

void plumb_job_close(PlumbReel *reel)
{
    if (reel->job != NULL) {
        if (reel->reading) { /* a file that was asked for is written */
            plumb_reel_stop(reel);
        }
        end_job(reel);
    }
}
