/* SPDX-License-Identifier: MIT */
/* Marks of a film followed, a reading that is no longer up to date, doubtful frames visited. */
#include "reel.h"

#include "page_trace_place.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

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
