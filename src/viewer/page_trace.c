/* SPDX-License-Identifier: MIT */
/* The fit behind the Trace page: made anew in idle time whenever marks, lifter or set-up change. */
#include "page_trace.h"

#include "pages.h"
#include "reel.h"

#include <plumbar/marks_file.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MARKS_LEAST = 3 };

static const double frame_s = 0.005; /* shorter than a fit: a frame does not wait for one */

PlumbTracing *plumb_tracing_create(void)
{
    PlumbTracing *const tracing = calloc(1, sizeof *tracing);
    if (tracing != NULL) {
        tracing->view_still = -1;
        tracing->held = -1;
    }
    return tracing;
}

void plumb_tracing_destroy(PlumbTracing *tracing)
{
    if (tracing != NULL) {
        plumb_reel_close(tracing->reel);
        plumb_pyramid_free(&tracing->pyramid);
        free(tracing);
    }
}

void plumb_trace_settle(PlumbDesk *desk)
{
    const PlumbMarked *const marked = &desk->now.marked;
    PlumbTracing *const t = desk->tracing;
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    plumb_reel_settle(desk);
    plumb_trace_load(desk);
    const int count = plumb_mark_rows(marked, desk->now.lift, row);
    t->row = t->row < 0 || t->row >= count ? 0 : t->row;
    if (t->held >= marked->marks.count) {
        t->held = -1; /* undone under the hand */
        t->grab = PLUMB_GRAB_NONE;
    }
}

/* Sizes of all pictures, read where the list of pictures is another than before. */
static void find_sizes(PlumbDesk *desk)
{
    const PlumbMarked *const marked = &desk->now.marked;
    PlumbTracing *const t = desk->tracing;
    if (marked->film) {
        t->size_px[0] = plumb_trace_size_px(desk);
        t->sizes_of = 0;
        return;
    }
    char path[PLUMB_STILLS_MAX][PLUMB_PATH_SIZE];
    uint64_t hash = 0xCBF29CE484222325U;
    for (int i = 0; i < marked->marks.still_count; i++) {
        path[i][0] = '\0';
        plumb_marks_picture_path(marked->path, marked->marks.picture[i], path[i], sizeof path[i]);
        for (const char *at = path[i]; *at != '\0'; at++) {
            hash = (hash ^ (unsigned char)*at) * 0x100000001B3U;
        }
        hash = (hash ^ '\n') * 0x100000001B3U;
    }
    if (hash == t->sizes_of) {
        return;
    }
    t->sizes_of = hash;
    for (int i = 0; i < marked->marks.still_count; i++) {
        char *bytes = NULL;
        size_t length = 0;
        PlumbPhotoHead head;
        t->size_px[i] = (PlumbVec2){0.0, 0.0};
        if (path[i][0] != '\0' && plumb_file_read_whole(path[i], PLUMB_PHOTO_MAX_BYTES, &bytes,
                                                        &length, NULL) == PLUMB_OK) {
            if (plumb_photo_head(bytes, length, &head, NULL) == PLUMB_OK) {
                t->size_px[i] = (PlumbVec2){head.width_px, head.height_px};
            }
            free(bytes);
        }
    }
}

PlumbVec2 plumb_trace_size_px(const PlumbDesk *desk)
{
    const PlumbPyramid *const pyramid = &desk->tracing->pyramid;
    return pyramid->level_count > 0 ? (PlumbVec2){pyramid->photo.width_px, pyramid->photo.height_px}
                                    : (PlumbVec2){0.0, 0.0};
}

/* The frame of a film that is on show, alone. */
static void choose_frame(const PlumbMarked *marked, int fitted[PLUMB_STILLS_MAX], PlumbMarks *marks)
{
    memset(marks, 0, sizeof *marks);
    marks->still_count = 1;
    memcpy(marks->picture[0], marked->marks.picture[0], PLUMB_PICTURE_NAME_SIZE);
    memcpy(marks->told[0], marked->marks.told[0], sizeof marks->told[0]);
    for (int i = 0; i < marked->marks.count; i++) {
        if (marked->marks.mark[i].still == marked->still) {
            marks->mark[marks->count] = marked->marks.mark[i];
            marks->mark[marks->count++].still = 0;
        }
    }
    for (int i = 0; i < PLUMB_STILLS_MAX; i++) {
        fitted[i] = i == 0 && marks->count >= MARKS_LEAST ? 0 : -1;
    }
}

/* Pictures that have marks enough, in the order of the list. */
static void choose_stills(const PlumbMarked *marked, int fitted[PLUMB_STILLS_MAX],
                          PlumbMarks *marks)
{
    int count[PLUMB_STILLS_MAX] = {0};
    if (marked->film) {
        choose_frame(marked, fitted, marks);
        return;
    }
    memset(marks, 0, sizeof *marks);
    for (int i = 0; i < marked->marks.count; i++) {
        count[marked->marks.mark[i].still]++;
    }
    for (int i = 0; i < PLUMB_STILLS_MAX; i++) {
        fitted[i] = -1;
        if (i < marked->marks.still_count && count[i] >= MARKS_LEAST) {
            fitted[i] = marks->still_count++;
            memcpy(marks->picture[fitted[i]], marked->marks.picture[i], PLUMB_PICTURE_NAME_SIZE);
            memcpy(marks->told[fitted[i]], marked->marks.told[i], sizeof marks->told[0]);
        }
    }
    for (int i = 0; i < marked->marks.count; i++) {
        PlumbMark mark = marked->marks.mark[i];
        mark.still = fitted[mark.still];
        if (mark.still >= 0) {
            marks->mark[marks->count++] = mark;
        }
    }
}

static void fit(PlumbDesk *desk)
{
    const PlumbMarked *const marked = &desk->now.marked;
    PlumbTracing *const t = desk->tracing;
    t->has_fit = false;
    t->fitted_frame = marked->still;
    t->has_fit =
        plumb_trace_fit_to(desk, &desk->now.lifter, &desk->now.record.spec, plumb_desk_setup(desk),
                           t->fitted, &t->stills, &t->why_not) == PLUMB_OK;
}

PlumbStatus plumb_trace_fit_to(PlumbDesk *desk, const PlumbLifter *lifter,
                               const PlumbBodySpec *spec, const PlumbSetup *setup,
                               int fitted[PLUMB_STILLS_MAX], PlumbStills *stills, PlumbError *error)
{
    const PlumbMarked *const marked = &desk->now.marked;
    const PlumbTracing *const t = desk->tracing;
    PlumbMarks marks;
    find_sizes(desk);
    choose_stills(marked, fitted, &marks);
    plumb_stills_begin(stills, lifter, spec, setup, &marks);
    for (int i = 0; i < marked->marks.still_count; i++) {
        const int at = fitted[i];
        if (at >= 0) {
            stills->ask.size_px[at] = t->size_px[i];
            if (stills->facing[at] == 0 && marked->facing[i] < 0) {
                stills->facing[at] = -1; /* as it is shown */
            }
        }
    }
    return plumb_stills_fit(stills, error);
}

/* Of a film whose figure is read in every frame a frame needs no fit of its own. */
static bool wants_fit(PlumbDesk *desk)
{
    PlumbTracing *const t = desk->tracing;
    const PlumbReel *const reel = plumb_reel_of(desk);
    const bool plays = reel != NULL && reel->pace != PLUMB_PACE_STILL;
    if (t->stale && !plays && reel != NULL && reel->fitted && !plumb_reel_stale(desk)) {
        t->stale = false;
        t->has_fit = false;
    }
    return t->stale && !plays;
}

bool plumb_trace_work(PlumbDesk *desk, double seconds)
{
    const bool more = plumb_reel_work(desk, seconds);
    if (seconds > frame_s && wants_fit(desk)) {
        const double begun_s = plumb_clock_s();
        desk->tracing->stale = false;
        fit(desk);
        desk->solver_s += plumb_clock_s() - begun_s;
        desk->dirty = true;
    }
    return more;
}

const PlumbTraced *plumb_trace_read(const PlumbDesk *desk)
{
    const PlumbTracing *const t = desk->tracing;
    const int still = plumb_marked_view(&desk->now.marked);
    if (desk->now.marked.film && t->fitted_frame != desk->now.marked.still) {
        return NULL;
    }
    return t->has_fit && t->fitted[still] >= 0 ? &t->stills.trace.still[t->fitted[still]] : NULL;
}

const PlumbStills *plumb_trace_figure(const PlumbDesk *desk, int *still)
{
    const PlumbTracing *const t = desk->tracing;
    if (plumb_trace_read(desk) != NULL) {
        *still = t->fitted[plumb_marked_view(&desk->now.marked)];
        return &t->stills;
    }
    *still = 0;
    return plumb_reel_figure(desk);
}
