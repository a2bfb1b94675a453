/* SPDX-License-Identifier: MIT */
/* What the program and the process that unpacks video say to each other, over one socket: requests
 * and replies of fixed size in the machine's own byte order, a frame's planes after its reply. */
#ifndef PLUMB_IO_FILM_WIRE_H
#define PLUMB_IO_FILM_WIRE_H

#include <stddef.h>
#include <stdint.h>

enum {
    FILM_SOCKET = 0, /* of the reading process: both ways */
    FILM_FILE = 3,   /* the film, opened by the program */
    FILM_REPLY_MARK = 0x464d4c31,
    FILM_SIDE_MAX = 8192,
};

/* Why a film cannot be read: name, words that follow the film's path. */
#define FILM_FAULT_LIST(X)                                                                         \
    X(none, "")                                                                                    \
    X(not_a_film, "is no film that can be read; mp4, mov, mkv and webm are")                       \
    X(no_pictures, "holds no pictures, only sound or data")                                        \
    X(codec, "is packed by a codec that is not read; export it as H.264")                          \
    X(size, "has frames larger than 10 million pixels or 8192 px a side; export it at 1080p")      \
    X(empty, "holds not one frame that can be unpacked; it is damaged or cut short")               \
    X(too_many, "has 36000 frames or more; cut it to the lift")                                    \
    X(memory, "needs more memory than its reader may use; export it at 1080p")                     \
    X(again, "gave another picture when this frame was unpacked a second time; it is damaged")

typedef enum FilmFault {
#define X(name, words) FILM_FAULT_##name,
    FILM_FAULT_LIST(X)
#undef X
        FILM_FAULT_COUNT
} FilmFault;

/* FILM_SURVEY: the next frame of the first way through. FILM_FRAME: a frame that was surveyed. */
typedef enum FilmAsk { FILM_SURVEY = 1, FILM_FRAME = 2 } FilmAsk;

typedef struct FilmRequest {
    uint32_t ask;
    uint32_t planes; /* 1: the frame's planes follow its reply */
    int64_t number;  /* of the frame; of no meaning in a survey */
} FilmRequest;

typedef enum FilmSay {
    FILM_HEAD = 1, /* unasked, the first: the size of all frames */
    FILM_ENTRY,    /* a frame */
    FILM_END,      /* of the survey: what was lost */
    FILM_FAIL,     /* fault */
    FILM_WORKING   /* unasked, while a reply takes long */
} FilmSay;

typedef struct FilmReply {
    uint32_t mark;
    uint32_t say;
    uint32_t fault; /* FilmFault */
    uint32_t damaged;
    int32_t width_px; /* upright */
    int32_t height_px;
    uint32_t hd;     /* 1: colours by ITU-R BT.709, 0: by BT.601 */
    uint32_t planes; /* 1: they follow */
    int64_t number;
    double time_s; /* since the first frame; FILM_END: where that one stands, 0 at the beginning */
    double done_frac;
    /* FILM_END */
    uint32_t lost_pieces; /* that could not be unpacked */
    uint32_t lost_frames; /* of another size, or whose time went back */
    double missing_s;     /* by which it is shorter than it says */
} FilmReply;

/* Luma of all pixels, then both chromas of every two by two, full range, rows without gaps. */
static inline size_t film_chroma_bytes(int width_px, int height_px)
{
    return (size_t)((width_px + 1) / 2) * (size_t)((height_px + 1) / 2);
}

static inline size_t film_planes_bytes(int width_px, int height_px)
{
    return (size_t)width_px * (size_t)height_px + 2 * film_chroma_bytes(width_px, height_px);
}

#endif
