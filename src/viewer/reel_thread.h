/* SPDX-License-Identifier: MIT */
/* The two threads behind a film, for reel.c alone. */
#ifndef PLUMBAR_VIEWER_REEL_THREAD_H
#define PLUMBAR_VIEWER_REEL_THREAD_H

#include "reel.h"

#include <SDL.h>

/* false where one of them is not to be had; both are to be destroyed in either case. */
static inline bool plumb_lock_begin(SDL_mutex **lock, SDL_cond **changed)
{
    *lock = SDL_CreateMutex();
    *changed = SDL_CreateCond();
    return *lock != NULL && *changed != NULL;
}

/* The thread that fetches frames (reel_fetch.c). NULL where memory is out. */
struct PlumbReelFetch *plumb_fetch_open(const char *path, double rate_per_s);
void plumb_fetch_close(struct PlumbReelFetch *fetch);
/* As plumb_reel_take, of the film and its pixels alone. */
bool plumb_fetch_take(PlumbReel *reel, double seconds, PlumbPhoto *photo);
bool plumb_fetch_waits(const PlumbReel *reel);

/* The thread that follows and fits, or makes a file (reel_job.c): takes in what it has done; true:
 * there was news. */
bool plumb_job_take(PlumbReel *reel, double seconds);
/* Waits for its end; following is stopped, a file is written first. */
void plumb_job_close(PlumbReel *reel);

#endif
