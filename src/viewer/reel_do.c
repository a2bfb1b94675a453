/* SPDX-License-Identifier: MIT */
/* A film under the hands: opened as the marks say, its frames stepped and played. */
#include "reel.h"

#include "page_trace.h"

#include <plumbar/film_frame.h>

#include <plumbar/marks_file.h>

#include <SDL.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double slow_frac = 0.25;

PlumbReel *plumb_reel_of(const PlumbDesk *desk)
{
    return desk->now.marked.film ? desk->tracing->reel : NULL;
}

/* The film of the marks, opened where it is another than before. */
static void open_reel(PlumbDesk *desk)
{
    const PlumbMarked *const marked = &desk->now.marked;
    PlumbTracing *const t = desk->tracing;
    char path[PLUMB_PATH_SIZE] = "";
    if (marked->film) {
        plumb_marks_picture_path(marked->path, marked->marks.picture[0], path, sizeof path);
    }
    const bool same = t->reel != NULL && strcmp(t->reel->path, path) == 0 &&
                      fabs(t->reel->rate_per_s - marked->rate_per_s) < 1e-9;
    if (same || (t->reel == NULL && !marked->film)) {
        return;
    }
    plumb_reel_close(t->reel);
    t->reel = marked->film ? plumb_reel_open(path, marked->rate_per_s) : NULL;
    plumb_pyramid_free(&t->pyramid);
    desk->dirty = true;
}

/* Frame of a time since the first. */
static int frame_at(const PlumbReel *reel, double t_s)
{
    int low = 0;
    int high = reel->frame_count - 1;
    while (low < high) {
        const int middle = (low + high + 1) / 2;
        if (reel->time_s[middle] <= t_s) {
            low = middle;
        } else {
            high = middle - 1;
        }
    }
    return low;
}

static void tick(PlumbDesk *desk, PlumbReel *reel)
{
    if (reel->pace == PLUMB_PACE_STILL || !reel->known) {
        return;
    }
    const double rate = reel->pace == PLUMB_PACE_SLOW ? slow_frac : 1.0;
    const double t_s = reel->time_s[reel->begun_frame] + rate * (plumb_clock_s() - reel->begun_s);
    const int frame = frame_at(reel, t_s);
    if (frame != desk->now.marked.still) {
        desk->now.marked.still = frame;
        desk->tracing->magnified = false;
        desk->dirty = true;
    }
    if (frame == reel->frame_count - 1) {
        reel->pace = PLUMB_PACE_STILL;
        desk->tracing->stale = true;
        desk->dirty = true;
    }
}

/* The figure of the frame whose pixels are shown, from the side. */
static void make_figure(PlumbReel *reel)
{
    if (!reel->fitted || reel->read->series.front || reel->shown < 0 ||
        reel->shown >= reel->read->frame_count || reel->shown == reel->figure_frame) {
        return;
    }
    reel->figure = reel->figure != NULL ? reel->figure : malloc(sizeof *reel->figure);
    if (reel->figure != NULL) {
        plumb_film_still(&reel->read->ask, &reel->read->series, reel->shown, reel->figure);
        reel->figure_frame = reel->shown;
    }
}

const PlumbStills *plumb_reel_figure(const PlumbDesk *desk)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    return reel != NULL && reel->fitted && reel->figure_frame >= 0 &&
                   reel->figure_frame == reel->shown
               ? reel->figure
               : NULL;
}

void plumb_reel_settle(PlumbDesk *desk)
{
    open_reel(desk);
    PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL) {
        return;
    }
    if (reel->known) {
        int *const still = &desk->now.marked.still;
        *still = *still < reel->frame_count ? *still : reel->frame_count - 1;
        tick(desk, reel);
        plumb_reel_want(reel, *still);
    }
    make_figure(reel);
}

bool plumb_reel_work(PlumbDesk *desk, double seconds)
{
    PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL) {
        return false;
    }
    PlumbPhoto photo;
    const bool worked = reel->reading;
    if (plumb_reel_take(reel, seconds, &photo)) {
        desk->dirty = true;
    }
    desk->tracing->stale = desk->tracing->stale || (worked && !reel->reading);
    plumb_reel_tell_export(desk);
    if (photo.width_px > 0) {
        plumb_pyramid_put(&desk->tracing->pyramid, &photo);
    }
    if (reel->known && !desk->now.marked.film_read) {
        plumb_reel_read_marks(desk);
        desk->dirty = true;
        return true;
    }
    const bool plays = reel->pace != PLUMB_PACE_STILL;
    tick(desk, reel);
    if (plays && !desk->dirty && !plumb_reel_waits(reel)) {
        SDL_Delay((Uint32)(1e3 * fmin(seconds, 0.004)));
    }
    return plays || plumb_reel_waits(reel);
}

void plumb_reel_go(PlumbDesk *desk, int frame)
{
    PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL || !reel->known) {
        return;
    }
    frame = frame < 0 ? 0 : frame >= reel->frame_count ? reel->frame_count - 1 : frame;
    desk->now.marked.still = frame;
    desk->tracing->magnified = false;
    desk->tracing->held = -1;
    desk->tracing->stale = true;
    reel->begun_frame = frame;
    reel->begun_s = plumb_clock_s();
    plumb_reel_want(reel, frame);
    desk->dirty = true;
}

void plumb_reel_step(PlumbDesk *desk, int frames)
{
    plumb_reel_halt(desk);
    plumb_reel_go(desk, desk->now.marked.still + frames);
}

void plumb_reel_scrub(PlumbDesk *desk, double share)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    if (reel != NULL && reel->known) {
        const double t_s = share * reel->time_s[reel->frame_count - 1];
        int frame = frame_at(reel, t_s);
        if (frame + 1 < reel->frame_count &&
            reel->time_s[frame + 1] - t_s < t_s - reel->time_s[frame]) {
            frame++;
        }
        plumb_reel_halt(desk);
        plumb_reel_go(desk, frame);
    }
}

void plumb_reel_halt(PlumbDesk *desk)
{
    PlumbReel *const reel = plumb_reel_of(desk);
    if (reel != NULL && reel->pace != PLUMB_PACE_STILL) {
        reel->pace = PLUMB_PACE_STILL;
        desk->tracing->stale = true;
        desk->dirty = true;
    }
}

void plumb_reel_play(PlumbDesk *desk, PlumbReelPace pace)
{
    PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL || !reel->known) {
        return;
    }
    if (reel->pace == pace) {
        plumb_reel_halt(desk);
        return;
    }
    const bool at_end = desk->now.marked.still == reel->frame_count - 1;
    plumb_reel_go(desk, at_end ? 0 : desk->now.marked.still);
    reel->chart = false;
    reel->pace = pace;
}
