/* SPDX-License-Identifier: MIT */
/* A film under the hands: frames stepped and played, marks followed, doubtful frames visited. */
#include "reel.h"

#include "page_trace_place.h"

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

static PlumbReelBasis *basis_of(const PlumbDesk *desk)
{
    PlumbReelBasis *const basis = calloc(1, sizeof *basis);
    if (basis != NULL) {
        basis->marked = desk->now.marked;
        basis->lifter = desk->now.lifter;
        basis->spec = desk->now.record.spec;
        basis->setup = *plumb_desk_setup(desk);
    }
    return basis;
}

static bool same_marks(const PlumbMarks *a, const PlumbMarks *b)
{
    bool same = a->count == b->count;
    for (int i = 0; same && i < a->count; i++) {
        const PlumbMark *const one = &a->mark[i];
        const PlumbMark *const other = &b->mark[i];
        same = one->still == other->still && one->name.landmark == other->name.landmark &&
               one->name.near == other->name.near && one->name.front == other->name.front &&
               fabs(one->x_px - other->x_px) + fabs(one->y_px - other->y_px) < 1e-9;
    }
    return same;
}

bool plumb_reel_stale(const PlumbDesk *desk)
{
    const PlumbReel *const reel = plumb_reel_of(desk);
    const PlumbMarked *const now = &desk->now.marked;
    if (reel == NULL || reel->read == NULL) {
        return false;
    }
    const PlumbReelBasis *const basis = reel->basis;
    const PlumbMarked *const was = &basis->marked;
    /* Padding that differs costs one more reading. NOLINTBEGIN(bugprone-suspicious-memory*) */
    const bool same_lifter =
        memcmp(&basis->setup, plumb_desk_setup(desk), sizeof basis->setup) == 0 &&
        memcmp(&basis->lifter, &desk->now.lifter, sizeof basis->lifter) == 0;
    /* NOLINTEND(bugprone-suspicious-memory*) */
    bool same_told = true;
    for (int i = 0; i < PLUMB_TOLD_COUNT; i++) {
        same_told = same_told && fabs(now->marks.told[0][i] - was->marks.told[0][i]) <= 1e-9;
    }
    return !same_lifter || !same_told || !same_marks(&now->marks, &was->marks) ||
           now->facing[0] != was->facing[0];
}

void plumb_reel_follow(PlumbDesk *desk)
{
    PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL || !reel->known) {
        return;
    }
    if (reel->reading || reel->drawing) {
        plumb_reel_stop(reel);
        plumb_desk_say(desk, false,
                       reel->drawing ? "" : "Stopped. What was followed before stays.");
        return;
    }
    PlumbReelBasis *const basis = basis_of(desk);
    const bool begun = basis != NULL && plumb_reel_read(reel, basis);
    plumb_desk_say(desk, !begun, begun ? "" : "There is no memory to follow the marks.");
    free(basis);
}

int plumb_reel_doubts(const PlumbReel *reel)
{
    int count = 0;
    for (int i = 0; reel->read != NULL && i < reel->frame_count; i++) {
        count += plumb_film_doubt_at(reel->read, i) >= 0;
    }
    return count;
}

static void choose_row(PlumbDesk *desk, PlumbMarkName name)
{
    const int row = plumb_trace_row_of(desk, name);
    if (row >= 0) {
        plumb_trace_pick_row(desk, row);
    }
}

/* The first frame of each run of doubt, one run after the other, round again. */
void plumb_reel_next_doubt(PlumbDesk *desk)
{
    PlumbReel *const reel = plumb_reel_of(desk);
    if (reel == NULL || reel->read == NULL) {
        plumb_desk_say(desk, false, "Nothing is followed yet: O follows the marks.");
        return;
    }
    for (int i = 1; i <= reel->frame_count; i++) {
        const int frame = (desk->now.marked.still + i) % reel->frame_count;
        const int track = plumb_film_doubt_at(reel->read, frame);
        const int before = frame > 0 ? plumb_film_doubt_at(reel->read, frame - 1) : -1;
        if (track < 0 || track == before) {
            continue;
        }
        const PlumbTrackPoint *const point = plumb_film_point(reel->read, track, frame);
        char words[PLUMB_DESK_MESSAGE_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        int doubt = 0;
        while ((point->doubts & (1U << doubt)) == 0) {
            doubt++;
        }
        plumb_reel_halt(desk);
        plumb_reel_go(desk, frame);
        choose_row(desk, reel->read->track[track].name);
        plumb_text_string(&text, "In doubt: ");
        plumb_marked_name(&text, reel->read->track[track].name);
        plumb_text_string(&text, ", ");
        plumb_text_string(&text, plumb_doubt_text((PlumbDoubt)doubt));
        plumb_text_string(&text, ". Click where it is, then O follows again from there.");
        plumb_desk_say(desk, false, words);
        return;
    }
    plumb_desk_say(desk, false, "No frame is in doubt.");
}
