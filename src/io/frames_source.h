/* SPDX-License-Identifier: MIT */
/* Where frames come from: a folder or a video, each behind the same few calls. */
#ifndef PLUMB_IO_FRAMES_SOURCE_H
#define PLUMB_IO_FRAMES_SOURCE_H

#include <plumbar/format.h>
#include <plumbar/frames.h>

#include "io/film_wire.h"

/* A frame of the first way through. */
typedef struct FramesEntry {
    double time_s; /* increasing */
    double done_frac;
    bool damaged;
    bool end; /* no frame: there are no more */
} FramesEntry;

typedef struct FramesSource FramesSource;

/* The functions of one kind of source. */
typedef struct FramesKind {
    /* The next frame of the first way through; planes (may be NULL) receives it. */
    PlumbStatus (*survey)(FramesSource *source, uint8_t *planes, FramesEntry *entry,
                          PlumbError *error);
    /* Frame i of those surveyed. ahead: the frame that will be asked for next, -1: not known. */
    PlumbStatus (*frame)(FramesSource *source, int i, int ahead, uint8_t *planes,
                         PlumbError *error);
    /* Once the survey has ended: what was lost, "" for nothing. */
    void (*lost)(const FramesSource *source, PlumbText *words);
    void (*close)(FramesSource *source);
    bool timed_by_rate; /* the source's own times already come from the rate */
} FramesKind;

/* The beginning of every source. */
struct FramesSource {
    const FramesKind *kind;
    int width_px;
    int height_px;
    bool hd; /* colours by ITU-R BT.709, else BT.601 */
};

/* Each opens path, or leaves *source as it was. */
PlumbStatus plumb_frames_folder(const char *path, const PlumbFramesOptions *options,
                                FramesSource **source, PlumbError *error);
PlumbStatus plumb_frames_video(const char *path, const PlumbFramesOptions *options,
                               FramesSource **source, PlumbError *error);

/* Between the planes of film_wire.h and pixels 0x00RRGGBB without gaps. */
void plumb_planes_from_pixels(const uint32_t *pixel, int width_px, int height_px, uint8_t *planes);
void plumb_planes_to_pixels(const uint8_t *planes, int width_px, int height_px, bool hd,
                            uint32_t *pixel);

#endif
