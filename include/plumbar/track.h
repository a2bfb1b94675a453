/* SPDX-License-Identifier: MIT */
/* Marks followed through the frames of a film, and whether the camera stood still meanwhile. */
#ifndef PLUMBAR_TRACK_H
#define PLUMBAR_TRACK_H

#include <plumbar/gray.h>
#include <plumbar/status.h>
#include <plumbar/vec.h>

#include <stdbool.h>

enum { PLUMB_TRACKS_MAX = 32 };

/* Why a followed place is not to be trusted: identifier and words. */
#define PLUMB_DOUBT_LIST(X)                                                                        \
    X(unlike, "the picture there no longer looks like the mark")                                   \
    X(apart, "followed from the marks before and after it comes out in two places")                \
    X(edge, "it has left the picture")                                                             \
    X(hidden, "the disc stands before it")                                                         \
    X(camera, "the camera moved and the background does not tell how")

typedef enum PlumbDoubt {
#define X(name, text) PLUMB_DOUBT_##name,
    PLUMB_DOUBT_LIST(X)
#undef X
        PLUMB_DOUBT_COUNT
} PlumbDoubt;

const char *plumb_doubt_name(PlumbDoubt doubt);
const char *plumb_doubt_text(PlumbDoubt doubt);

/* A place that a person marked, pixels as in PlumbMark. */
typedef struct PlumbAnchor {
    int track;
    int frame;
    PlumbVec2 at_px;
} PlumbAnchor;

/* Where a track is in one frame. */
typedef struct PlumbTrackPoint {
    PlumbVec2 at_px;
    double sure_frac; /* correlation with what was marked or last known for sure; 1 is alike */
    double apart_px;  /* between the ways forward and backward; 0 where there is one way only; of a
                         trusted point beyond plumb_track_meet_px it is what its marks differ by */
    unsigned doubts;  /* bits 1 << PlumbDoubt; 0: trusted */
    bool marked;      /* by a person */
    bool known;       /* false: no frame of this track was marked */
} PlumbTrackPoint;

/* The camera of a frame against that of the first: what was at p then is at
 * (along p.x - across p.y + shift.x, across p.x + along p.y + shift.y). */
typedef struct PlumbShift {
    double along;
    double across;
    PlumbVec2 shift_px;
    int agreed; /* patches of the background that agree */
    bool known;
} PlumbShift;

/* What the background says of the camera. */
typedef enum PlumbSteady {
    PLUMB_STEADY,   /* it stood still */
    PLUMB_SHAKEN,   /* it moved; the background tells how, so that places can be brought back */
    PLUMB_MOVED,    /* it moved and the background does not tell how: nothing can be measured */
    PLUMB_NO_GROUND /* too little of the background can be told apart: taken to stand still */
} PlumbSteady;

const char *plumb_steady_name(PlumbSteady steady);
const char *plumb_steady_text(PlumbSteady steady);

typedef struct PlumbTrackAsk {
    int width_px;
    int height_px;
    int frame_count;
    /* Lends frame `index`; it stays until the next two are asked for. Frames are asked for one
     * after the other, forward and then backward. */
    PlumbStatus (*frame)(void *user, int index, PlumbGray *gray, PlumbError *error);
    /* NULL, or told 0 to 1 from time to time; false stops. */
    bool (*progress)(void *user, double done_frac);
    void *user;
    int track_count;
    double radius_px[PLUMB_TRACKS_MAX]; /* of the patch that is followed */
    int anchor_count;
    const PlumbAnchor *anchor;
    bool background;  /* also follow the background */
    int cover_track;  /* a disc that hides what is behind it; -1: none */
    double cover_px;  /* its radius */
    unsigned covered; /* bits 1 << track of those that it can hide */
    int from_frame;   /* only these frames are done anew: 0 and frame_count - 1 for all */
    int to_frame;
    unsigned only; /* bits 1 << track of those done anew; ~0U for all */
} PlumbTrackAsk;

/* All tracks, all frames, the background. Pointers and progress are filled in by the caller. */
PlumbTrackAsk plumb_track_ask(int width_px, int height_px, int frame_count);

/* What came out; the arrays are the caller's. */
typedef struct PlumbTracks {
    PlumbTrackPoint *point; /* [track_count * frame_count], one track after the other */
    PlumbShift *shift;      /* [frame_count]; NULL where the background is not asked for */
    PlumbSteady steady;
    double moved_px; /* the farthest that a corner of the picture moved, in known frames */
    bool stopped;    /* progress said so: the rest was not done */
} PlumbTracks;

/* Bytes of room that following needs: for the frame in smaller sizes, patches, the way back. */
size_t plumb_track_room_bytes(const PlumbTrackAsk *ask);

/* Two ways of following a patch of this radius that come out nearer to each other are the same. */
double plumb_track_meet_px(double radius_px);

/* Follows each track from every frame in which it was marked, forward and backward, by normalised
 * cross-correlation: coarse to fine, to a fraction of a pixel. Between two marked frames both ways
 * are joined, each with more weight near its own mark; where they do not meet the surer way counts
 * and the frame is doubtful. Ways that are apart all along by what their marks differ by have both
 * followed well: the marks were set on different spots, and the ways are joined none the less. A
 * patch is renewed only when it has changed, and always compared with the marked one, so that it
 * does not drift from frame to frame. Places are those in each frame, the camera's movement not
 * taken out. room: plumb_track_room_bytes, aligned as malloc aligns, nothing is kept in it.
 * PLUMB_BAD_INPUT: a frame of another size, an anchor outside the film; else what frame() returns.
 * tracks->point keeps what it held in frames that were not done. */
PlumbStatus plumb_track_follow(const PlumbTrackAsk *ask, void *room, PlumbTracks *tracks,
                               PlumbError *error);

/* After a person marked `track` in `frame` (in ask->anchor by now): the frames whose place may
 * change, from the mark before to the mark after it. Sets from_frame, to_frame, only. */
void plumb_track_mend(PlumbTrackAsk *ask, int track, int frame);

/* A place brought back to where it would be had the camera not moved since the first frame. */
PlumbVec2 plumb_track_steady(const PlumbShift *shift, PlumbVec2 at_px);

#endif
