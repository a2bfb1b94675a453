/* SPDX-License-Identifier: MIT */
/* A film opened and closed, and what its threads have done taken in. */
#include "reel_thread.h"

#include <stdlib.h>

PlumbReel *plumb_reel_open(const char *path, double rate_per_s)
{
    PlumbReel *const reel = calloc(1, sizeof *reel);
    if (reel == NULL) {
        return NULL;
    }
    PlumbText text = plumb_text_begin(reel->path, sizeof reel->path);
    plumb_text_string(&text, path);
    reel->rate_per_s = rate_per_s;
    reel->shown = -1;
    reel->figure_frame = -1;
    reel->fetch = plumb_fetch_open(path, rate_per_s);
    if (reel->fetch == NULL) {
        free(reel);
        return NULL;
    }
    return reel;
}

void plumb_reel_close(PlumbReel *reel)
{
    if (reel == NULL) {
        return;
    }
    plumb_job_close(reel);
    plumb_fetch_close(reel->fetch);
    free(reel->file);
    free(reel->figure);
    plumb_film_reading_free(reel->read);
    free(reel->basis);
    free(reel->time_s);
    free(reel);
}

bool plumb_reel_take(PlumbReel *reel, double seconds, PlumbPhoto *photo)
{
    const bool news = plumb_fetch_take(reel, reel->job == NULL ? seconds : 0.0, photo);
    return plumb_job_take(reel, seconds) || news;
}

bool plumb_reel_waits(const PlumbReel *reel)
{
    return plumb_fetch_waits(reel) || reel->job != NULL;
}
