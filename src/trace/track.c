/* SPDX-License-Identifier: MIT */
/* All tracks through all frames: forward, backward, and both joined. */
#include <plumbar/track.h>

#include "base/vec.h"
#include "trace/follow.h"

#include <string.h>

static const double sure_least = 0.65;     /* correlation below which a frame is doubtful */
static const double apart_least_px = 2.0;  /* two ways that differ by less are the same */
static const double apart_frac = 0.25;     /* or by less than this of the patch's radius */
static const double cover_room_frac = 0.8; /* of a patch's radius, around the disc */
static const double edge_frac = 1.7;       /* the same: corner of the patch, and the edge's blur */
static const double steady_px = 1.0;       /* a camera that moved less stood still */
static const double unknown_frac = 0.05;   /* of the frames, without a known shift, that may be */

static const struct {
    const char *name;
    const char *text;
} doubts[PLUMB_DOUBT_COUNT] = {
#define X(name, text) {#name, text},
    PLUMB_DOUBT_LIST(X)
#undef X
};

static const struct {
    const char *name;
    const char *text;
} steadies[] = {
    [PLUMB_STEADY] = {"steady", "the camera stood still"},
    [PLUMB_SHAKEN] = {"shaken", "the camera moved; the background's movement was taken out"},
    [PLUMB_MOVED] = {"moved", "the camera moved and the background does not tell how"},
    [PLUMB_NO_GROUND] = {"no_ground", "too little of the background can be told apart to see "
                                      "whether the camera moved; it is taken to stand still"},
};

const char *plumb_doubt_name(PlumbDoubt doubt)
{
    return doubts[doubt].name;
}

const char *plumb_doubt_text(PlumbDoubt doubt)
{
    return doubts[doubt].text;
}

const char *plumb_steady_name(PlumbSteady steady)
{
    return steadies[steady].name;
}

const char *plumb_steady_text(PlumbSteady steady)
{
    return steadies[steady].text;
}

double plumb_track_meet_px(double radius_px)
{
    return fmax(apart_least_px, apart_frac * radius_px);
}

PlumbTrackAsk plumb_track_ask(int width_px, int height_px, int frame_count)
{
    return (PlumbTrackAsk){.width_px = width_px,
                           .height_px = height_px,
                           .frame_count = frame_count,
                           .background = true,
                           .cover_track = -1,
                           .to_frame = frame_count - 1,
                           .only = ~0U};
}

/* One way's place in a frame; sure below zero: not followed there. */
typedef struct Way {
    float x;
    float y;
    float sure;
    bool hidden;
} Way;

/* The caller's room, in parts. */
typedef struct Room {
    Follow *follow; /* [track_count] */
    Ground *ground;
    Way *way[2]; /* forward, backward: [track_count * frame_count] */
    uint8_t *levels;
    Pyramid frame;
} Room;

static size_t way_count(const PlumbTrackAsk *ask)
{
    return (size_t)ask->track_count * (size_t)ask->frame_count;
}

size_t plumb_track_room_bytes(const PlumbTrackAsk *ask)
{
    return (size_t)ask->track_count * sizeof(Follow) + sizeof(Ground) +
           2 * way_count(ask) * sizeof(Way) + plumb_pyramid_bytes(ask->width_px, ask->height_px);
}

static Room room_of(const PlumbTrackAsk *ask, void *memory)
{
    Room room = {.follow = memory};
    room.ground = (Ground *)(void *)(room.follow + ask->track_count);
    room.way[0] = (Way *)(void *)(room.ground + 1);
    room.way[1] = room.way[0] + way_count(ask);
    room.levels = (uint8_t *)(room.way[1] + way_count(ask));
    return room;
}

static bool asked(const PlumbTrackAsk *ask, int track)
{
    return (ask->only & (1U << track)) != 0;
}

static const PlumbAnchor *anchor_at(const PlumbTrackAsk *ask, int track, int frame)
{
    for (int i = 0; i < ask->anchor_count; i++) {
        if (ask->anchor[i].track == track && ask->anchor[i].frame == frame) {
            return &ask->anchor[i];
        }
    }
    return NULL;
}

static bool outside(const PlumbTrackAsk *ask, PlumbVec2 at)
{
    return at.x < 0.0 || at.y < 0.0 || at.x > ask->width_px - 1 || at.y > ask->height_px - 1;
}

static PlumbStatus check(const PlumbTrackAsk *ask, PlumbError *error)
{
    bool fine = ask->track_count >= 0 && ask->track_count <= PLUMB_TRACKS_MAX &&
                ask->cover_track < ask->track_count && ask->frame_count > 0 &&
                ask->from_frame >= 0 && ask->to_frame < ask->frame_count &&
                ask->from_frame <= ask->to_frame;
    for (int i = 0; i < ask->anchor_count && fine; i++) {
        const PlumbAnchor *const a = &ask->anchor[i];
        fine = a->track >= 0 && a->track < ask->track_count && a->frame >= 0 &&
               a->frame < ask->frame_count;
    }
    return fine ? PLUMB_OK
                : plumb_error_set(error, PLUMB_BAD_INPUT, "marks",
                                  "a mark or a frame lies outside the film");
}

static PlumbStatus fetch(const PlumbTrackAsk *ask, Room *room, int frame, PlumbError *error)
{
    PlumbGray gray;
    const PlumbStatus status = ask->frame(ask->user, frame, &gray, error);
    if (status != PLUMB_OK) {
        return status;
    }
    if (gray.width_px != ask->width_px || gray.height_px != ask->height_px) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "film", "a frame has another size");
    }
    plumb_pyramid_build(&gray, room->levels, &room->frame);
    return PLUMB_OK;
}

/* Whether the disc, followed into this frame already, comes within a share of a track's patch to
 * a place. */
static bool near_disc(const PlumbTrackAsk *ask, const Room *room, int track, PlumbVec2 at,
                      double share)
{
    if (ask->cover_track < 0 || !room->follow[ask->cover_track].on ||
        (ask->covered & (1U << track)) == 0) {
        return false;
    }
    const PlumbVec2 disc = room->follow[ask->cover_track].at;
    return hypot(at.x - disc.x, at.y - disc.y) < ask->cover_px + share * ask->radius_px[track];
}

/* Whether the disc stands before a place: a patch that it covers by half shows the disc. */
static bool covered(const PlumbTrackAsk *ask, const Room *room, int track, PlumbVec2 at)
{
    return near_disc(ask, room, track, at, cover_room_frac);
}

/* The disc comes first, so that it is known what it hides. */
static int track_in_turn(const PlumbTrackAsk *ask, int turn)
{
    const int cover = ask->cover_track;
    return cover < 0 || turn > cover ? turn : turn == 0 ? cover : turn - 1;
}

/* One track's next frame: where it is, before a mark in it is looked at. */
static Way step_track(const PlumbTrackAsk *ask, Room *room, int t)
{
    Follow *const follow = &room->follow[t];
    double sure = -1.0;
    bool hidden = false;
    if (follow->on) {
        const PlumbVec2 next = plumb_follow_next(follow);
        hidden = covered(ask, room, t, next);
        if (hidden) {
            plumb_follow_hide(follow);
        } else {
            const bool edge = near_disc(ask, room, t, next, edge_frac);
            sure = plumb_follow_step(follow, &room->frame, edge);
        }
        sure = fmax(sure, 0.0);
    }
    return (Way){(float)follow->at.x, (float)follow->at.y, (float)sure, hidden};
}

/* One frame of one way, all tracks. In a marked frame the way holds where it arrived, and begins
 * anew at the mark. */
static void step_tracks(const PlumbTrackAsk *ask, Room *room, int frame, Way *way)
{
    for (int turn = 0; turn < ask->track_count; turn++) {
        const int t = track_in_turn(ask, turn);
        Follow *const follow = &room->follow[t];
        if (!asked(ask, t)) {
            continue;
        }
        way[(size_t)t * (size_t)ask->frame_count + (size_t)frame] = step_track(ask, room, t);
        const PlumbAnchor *const anchor = anchor_at(ask, t, frame);
        if (anchor != NULL) {
            plumb_follow_begin(follow, &room->frame, anchor->at_px, ask->radius_px[t]);
            /* Beside the disc's edge it would be the edge that is followed. */
            follow->on = follow->on && !covered(ask, room, t, anchor->at_px);
        }
    }
}

static double moved_px(const PlumbTrackAsk *ask, const PlumbShift *s)
{
    double most = 0.0;
    for (unsigned corner = 0; corner < 4; corner++) {
        const PlumbVec2 p = {(corner & 1U) != 0 ? ask->width_px : 0.0,
                             (corner & 2U) != 0 ? ask->height_px : 0.0};
        const double x = s->along * p.x - s->across * p.y + s->shift_px.x - p.x;
        const double y = s->across * p.x + s->along * p.y + s->shift_px.y - p.y;
        most = fmax(most, hypot(x, y));
    }
    return most;
}

static void step_ground(const PlumbTrackAsk *ask, Room *room, int frame, PlumbTracks *tracks)
{
    if (frame == 0) {
        plumb_ground_begin(room->ground, &room->frame, ask);
        tracks->shift[0] = (PlumbShift){1.0, 0.0, {0.0, 0.0}, room->ground->count, true};
        tracks->moved_px = 0.0;
        return;
    }
    tracks->shift[frame] = plumb_ground_step(room->ground, &room->frame, &tracks->shift[frame - 1]);
    if (tracks->shift[frame].known) {
        tracks->moved_px = fmax(tracks->moved_px, moved_px(ask, &tracks->shift[frame]));
    }
}

/* All frames one way; *stopped where progress said so. */
static PlumbStatus run(const PlumbTrackAsk *ask, Room *room, bool back, PlumbTracks *tracks,
                       PlumbError *error)
{
    const int count = ask->to_frame - ask->from_frame + 1;
    for (int t = 0; t < ask->track_count; t++) {
        room->follow[t].on = false;
    }
    for (int i = 0; i < count; i++) {
        const int frame = back ? ask->to_frame - i : ask->from_frame + i;
        const PlumbStatus status = fetch(ask, room, frame, error);
        if (status != PLUMB_OK) {
            return status;
        }
        step_tracks(ask, room, frame, room->way[back]);
        if (!back && ask->background && tracks->shift != NULL && ask->from_frame == 0) {
            step_ground(ask, room, frame, tracks);
        }
        const double done = 0.5 * ((double)(i + 1) / count + (back ? 1.0 : 0.0));
        if (ask->progress != NULL && !ask->progress(ask->user, done)) {
            tracks->stopped = true;
            return PLUMB_OK;
        }
    }
    return PLUMB_OK;
}

/* Between two marks: how far each way came out from the mark that it arrived at. */
typedef struct Gap {
    double share; /* of the way from the mark before to the mark after */
    bool known;   /* both ways arrived for sure */
    PlumbVec2 ahead_off;
    PlumbVec2 back_off;
} Gap;

/* Whether two ways are apart all along by what their marks differ by: then both followed well, and
 * the marks were set on different spots. That is the marks' error, which apart_px tells. */
static bool marks_differ(const Way *ahead, const Way *back, const Gap *gap, double least_px)
{
    const double x = (double)ahead->x - (double)back->x;
    const double y = (double)ahead->y - (double)back->y;
    return gap->known && hypot(x - gap->ahead_off.x, y - gap->ahead_off.y) <= least_px &&
           hypot(x + gap->back_off.x, y + gap->back_off.y) <= least_px;
}

/* Both ways joined. */
static PlumbTrackPoint join(const Way *ahead, const Way *back, const Gap *gap, double radius_px)
{
    const double share = gap->share;
    PlumbTrackPoint point = {.known = true};
    const bool both = (double)ahead->sure >= sure_least && (double)back->sure >= sure_least;
    const Way *const surer = ahead->sure >= back->sure ? ahead : back;
    point.at_px = (PlumbVec2){(double)surer->x, (double)surer->y};
    point.sure_frac = (double)surer->sure;
    if (both) {
        point.apart_px =
            hypot((double)ahead->x - (double)back->x, (double)ahead->y - (double)back->y);
        const double least = plumb_track_meet_px(radius_px);
        if (point.apart_px <= least || marks_differ(ahead, back, gap, least)) {
            point.at_px = (PlumbVec2){(1.0 - share) * (double)ahead->x + share * (double)back->x,
                                      (1.0 - share) * (double)ahead->y + share * (double)back->y};
        } else {
            point.doubts |= 1U << PLUMB_DOUBT_apart;
        }
    }
    if (point.sure_frac < sure_least) {
        point.doubts |= 1U << (surer->hidden ? PLUMB_DOUBT_hidden : PLUMB_DOUBT_unlike);
    }
    return point;
}

/* How far a way came out from an anchor; false where there is none, or it did not arrive there for
 * sure. */
static bool arrived(const PlumbAnchor *anchor, const Way *way, PlumbVec2 *off_px)
{
    if (anchor == NULL || (double)way->sure < sure_least) {
        return false;
    }
    *off_px = (PlumbVec2){(double)way->x - anchor->at_px.x, (double)way->y - anchor->at_px.y};
    return true;
}

/* The gap around frame f; before: the marked frame before it, -1 where there is none. */
static Gap gap_around(const PlumbTrackAsk *ask, const Room *room, int t, int before, int f)
{
    const size_t first = (size_t)t * (size_t)ask->frame_count;
    int after = f;
    while (after < ask->to_frame && anchor_at(ask, t, after) == NULL) {
        after++;
    }
    Gap gap = {.share = before >= 0 ? (double)(f - before) / (after - before) : 1.0};
    const PlumbAnchor *const last = anchor_at(ask, t, after);
    gap.known =
        before >= 0 && last != NULL &&
        arrived(last, &room->way[0][first + (size_t)after], &gap.ahead_off) &&
        arrived(anchor_at(ask, t, before), &room->way[1][first + (size_t)before], &gap.back_off);
    return gap;
}

static void join_track(const PlumbTrackAsk *ask, const Room *room, int t, PlumbTracks *tracks)
{
    const size_t first = (size_t)t * (size_t)ask->frame_count;
    int before = -1;
    for (int f = ask->from_frame; f <= ask->to_frame; f++) {
        PlumbTrackPoint *const point = &tracks->point[first + (size_t)f];
        const Way *const ahead = &room->way[0][first + (size_t)f];
        const Way *const back = &room->way[1][first + (size_t)f];
        const PlumbAnchor *const anchor = anchor_at(ask, t, f);
        if (anchor != NULL) {
            before = f;
            *point = (PlumbTrackPoint){anchor->at_px, 1.0, 0.0, 0U, true, true};
        } else if (ahead->sure < 0.0F && back->sure < 0.0F) {
            *point = (PlumbTrackPoint){.known = false};
        } else {
            const Gap gap = gap_around(ask, room, t, before, f);
            *point = join(ahead, back, &gap, ask->radius_px[t]);
        }
        if (point->known && outside(ask, point->at_px)) {
            point->doubts |= 1U << PLUMB_DOUBT_edge;
        }
    }
}

/* What all shifts together say; places in frames whose shift is not known are doubtful. */
static void judge_camera(const PlumbTrackAsk *ask, PlumbTracks *tracks)
{
    int unknown = 0;
    for (int f = 0; f < ask->frame_count; f++) {
        unknown += !tracks->shift[f].known;
    }
    tracks->steady = tracks->moved_px < steady_px ? PLUMB_STEADY : PLUMB_SHAKEN;
    if (tracks->shift[0].agreed < 4) {
        tracks->steady = PLUMB_NO_GROUND;
    } else if (unknown > unknown_frac * ask->frame_count) {
        tracks->steady = PLUMB_MOVED;
    }
    for (int f = 0; f < ask->frame_count; f++) {
        PlumbShift *const s = &tracks->shift[f];
        if (tracks->steady == PLUMB_STEADY || tracks->steady == PLUMB_NO_GROUND) {
            *s = (PlumbShift){1.0, 0.0, {0.0, 0.0}, s->agreed, true};
        }
        for (int t = 0; t < ask->track_count && !s->known; t++) {
            PlumbTrackPoint *const point =
                &tracks->point[(size_t)t * (size_t)ask->frame_count + (size_t)f];
            point->doubts |= 1U << PLUMB_DOUBT_camera;
        }
    }
}

PlumbStatus plumb_track_follow(const PlumbTrackAsk *ask, void *room, PlumbTracks *tracks,
                               PlumbError *error)
{
    PlumbStatus status = check(ask, error);
    if (status != PLUMB_OK) {
        return status;
    }
    Room parts = room_of(ask, room);
    tracks->stopped = false;
    for (int back = 0; back < 2; back++) {
        status = run(ask, &parts, back != 0, tracks, error);
        if (status != PLUMB_OK || tracks->stopped) {
            return status;
        }
    }
    for (int t = 0; t < ask->track_count; t++) {
        if (asked(ask, t)) {
            join_track(ask, &parts, t, tracks);
        }
    }
    if (ask->background && tracks->shift != NULL && ask->from_frame == 0 &&
        ask->to_frame == ask->frame_count - 1) {
        judge_camera(ask, tracks);
    }
    return PLUMB_OK;
}

void plumb_track_mend(PlumbTrackAsk *ask, int track, int frame)
{
    ask->only = 1U << track;
    ask->background = false;
    ask->from_frame = 0;
    ask->to_frame = ask->frame_count - 1;
    for (int i = 0; i < ask->anchor_count; i++) {
        const PlumbAnchor *const a = &ask->anchor[i];
        if (a->track == track && a->frame < frame && a->frame > ask->from_frame) {
            ask->from_frame = a->frame;
        }
        if (a->track == track && a->frame > frame && a->frame < ask->to_frame) {
            ask->to_frame = a->frame;
        }
    }
}

PlumbVec2 plumb_track_steady(const PlumbShift *shift, PlumbVec2 at_px)
{
    const double scale = shift->along * shift->along + shift->across * shift->across;
    const double x = at_px.x - shift->shift_px.x;
    const double y = at_px.y - shift->shift_px.y;
    return (PlumbVec2){(shift->along * x + shift->across * y) / scale,
                       (shift->along * y - shift->across * x) / scale};
}
