/* SPDX-License-Identifier: MIT */
/* The thread that looks through a film and fetches the frames that are wanted. */
#include "reel_thread.h"

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

PlumbReelFetch *plumb_fetch_open(const char *path, double rate_per_s)
{
    PlumbReelFetch *const fetch = calloc(1, sizeof *fetch);
    if (fetch == NULL || !plumb_lock_begin(&fetch->lock, &fetch->changed)) {
        free(fetch);
        return NULL;
    }
    PlumbText text = plumb_text_begin(fetch->path, sizeof fetch->path);
    plumb_text_string(&text, path);
    fetch->options = plumb_frames_options();
    fetch->options.rate_per_s = rate_per_s;
    fetch->got = -1;
    fetch->thread = SDL_CreateThread(run_fetch, "film", fetch);
    if (fetch->thread == NULL) {
        fetch->failed = true; /* else it is the thread's to say */
    }
    return fetch;
}

void plumb_fetch_close(PlumbReelFetch *fetch)
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

static bool take_survey(PlumbReel *reel)
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

bool plumb_fetch_take(PlumbReel *reel, double seconds, PlumbPhoto *photo)
{
    PlumbReelFetch *const fetch = reel->fetch;
    memset(photo, 0, sizeof *photo);
    SDL_LockMutex(fetch->lock);
    const bool awaited = !fetch->failed && (!fetch->known || fetch->wanted != fetch->got);
    if (awaited && !fetch->fresh && seconds > 0.0) {
        SDL_CondWaitTimeout(fetch->changed, fetch->lock, (Uint32)(1e3 * seconds) + 1);
    }
    bool news = take_survey(reel);
    if (fetch->fresh) {
        *photo = fetch->photo;
        memset(&fetch->photo, 0, sizeof fetch->photo);
        fetch->fresh = false;
        reel->shown = fetch->got;
        news = true;
    }
    SDL_UnlockMutex(fetch->lock);
    return news;
}

bool plumb_fetch_waits(const PlumbReel *reel)
{
    PlumbReelFetch *const fetch = reel->fetch;
    SDL_LockMutex(fetch->lock);
    const bool waits = !fetch->failed && (!fetch->known || fetch->wanted != fetch->got ||
                                          fetch->fresh || !reel->known);
    SDL_UnlockMutex(fetch->lock);
    return waits;
}
