/* SPDX-License-Identifier: MIT */
/* Films in: a folder of pictures, or a video that a process of its own unpacks; frames by number,
 * with their times, grey for following marks and in colour for the window. */
#ifndef PLUMBAR_FRAMES_H
#define PLUMBAR_FRAMES_H

#include <plumbar/gray.h>
#include <plumbar/photo.h>

enum {
    PLUMB_FRAMES_MAX = 36000, /* ten minutes at 60 frames a second */
    PLUMB_FRAMES_PIXELS_MAX = 10000000
};

typedef struct PlumbFrames PlumbFrames;

typedef struct PlumbFramesOptions {
    /* Frames a second. A folder needs it; for a video 0 takes the times of the stream, and any
     * other rate replaces them (slow motion whose times were stretched). */
    double rate_per_s;
    /* Memory for unpacked frames; three frames are kept whatever it says. */
    size_t cache_bytes;
    /* The program that unpacks video; NULL: the one that came with this program. */
    const char *film_program;
    /* A process that gives no sign for so long is ended. */
    double silence_max_s;
} PlumbFramesOptions;

/* No rate, 256 MiB, the program's own reader, 20 s. */
PlumbFramesOptions plumb_frames_options(void);

/* Opens the folder or the video at path; options may be NULL. A folder's frames are its PNG and
 * JPEG files in the order of their names, numbers in them by value ("f2.png" before "f10.png"). No
 * frame is known yet: see plumb_frames_survey. *frames is closed by the caller.
 * PLUMB_BAD_INPUT: a folder without frames, or without a rate (field "rate"); PLUMB_UNSUPPORTED: no
 * film, or no reader of video in this build; PLUMB_TOO_LARGE; PLUMB_READ_FAILED. On failure *frames
 * is untouched. */
PlumbStatus plumb_frames_open(const char *path, const PlumbFramesOptions *options,
                              PlumbFrames **frames, PlumbError *error);

/* Looks through the film once, from front to back, at most `most` frames a call, so that every
 * frame that is counted can be had and what is damaged is known. *done_frac (may be NULL) is 1
 * once all are known, else the share of the film by time; a loop over small calls can show it and
 * stop. Frames of the beginning are kept as the cache holds. Fails where not one frame can be
 * read, or memory or the reading process ends; the frames known so far stay. */
PlumbStatus plumb_frames_survey(PlumbFrames *frames, int most, double *done_frac,
                                PlumbError *error);

/* Frames known so far. */
int plumb_frames_count(const PlumbFrames *frames);

/* Size of every frame as a person sees it: turned upright, pixels square. */
void plumb_frames_size_px(const PlumbFrames *frames, int *width_px, int *height_px);

/* Time of frame i since the first, s, strictly increasing. i: 0 to count - 1. */
double plumb_frames_time_s(const PlumbFrames *frames, int i);

/* Whether frame i came out of damaged data and may show what was never there. */
bool plumb_frames_damaged(const PlumbFrames *frames, int i);

/* What of the film could not be read, in words; "" where nothing is missing. Owned by frames. */
const char *plumb_frames_lost(const PlumbFrames *frames);

/* Frame i, 0 to count - 1, in any order; one after the other is fastest, because the next is
 * unpacked ahead. *gray stays valid until two other frames have been asked for or frames is closed.
 * PLUMB_BAD_INPUT: no such frame; PLUMB_READ_FAILED: it can no longer be read. */
PlumbStatus plumb_frames_gray(PlumbFrames *frames, int i, PlumbGray *gray, PlumbError *error);

/* The same frame in colour; freed by plumb_photo_free. */
PlumbStatus plumb_frames_photo(PlumbFrames *frames, int i, PlumbPhoto *photo, PlumbError *error);

/* NULL is allowed. Ends the reading process. */
void plumb_frames_close(PlumbFrames *frames);

#endif
