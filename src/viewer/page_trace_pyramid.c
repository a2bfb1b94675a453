/* SPDX-License-Identifier: MIT */
/* The picture on show unpacked, and its halves. */
#include "page_trace.h"

#include <plumbar/marks_file.h>

#include <stdlib.h>
#include <string.h>

void plumb_pyramid_free(PlumbPyramid *pyramid)
{
    const unsigned generation = pyramid->generation;
    plumb_photo_free(&pyramid->photo);
    free(pyramid->half);
    memset(pyramid, 0, sizeof *pyramid);
    pyramid->generation = generation + 1;
}

/* Each pixel of a level is the mean of four of the level above. */
static void halve(const PlumbUnderlay *from, uint32_t *to, int width, int height)
{
    for (int y = 0; y < height; y++) {
        const uint32_t *const a = from->pixel + (size_t)(2 * y) * (size_t)from->width_px;
        const uint32_t *const b = a + from->width_px;
        for (int x = 0; x < width; x++) {
            const uint32_t p[4] = {a[2 * x], a[2 * x + 1], b[2 * x], b[2 * x + 1]};
            uint32_t sum = 0;
            for (int shift = 0; shift < 24; shift += 8) {
                const uint32_t of = (p[0] >> shift & 255U) + (p[1] >> shift & 255U) +
                                    (p[2] >> shift & 255U) + (p[3] >> shift & 255U);
                sum |= (of + 2) / 4 << shift;
            }
            to[(size_t)y * (size_t)width + (size_t)x] = sum;
        }
    }
}

/* The picture itself and its halves down to some 64 pixels. */
static void build_levels(PlumbPyramid *p)
{
    p->level[0] = (PlumbUnderlay){
        .width_px = p->photo.width_px, .height_px = p->photo.height_px, .pixel = p->photo.pixel};
    p->level_count = 1;
    const size_t room = (size_t)p->photo.width_px * (size_t)p->photo.height_px / 3 + 16;
    p->half = malloc(room * sizeof *p->half);
    uint32_t *next = p->half;
    while (next != NULL && p->level_count < PLUMB_TRACE_LEVELS) {
        const PlumbUnderlay *const last = &p->level[p->level_count - 1];
        const int width = last->width_px / 2;
        const int height = last->height_px / 2;
        if (width < 32 || height < 32) {
            return;
        }
        halve(last, next, width, height);
        p->level[p->level_count++] =
            (PlumbUnderlay){.width_px = width, .height_px = height, .pixel = next};
        next += (size_t)width * (size_t)height;
    }
}

void plumb_pyramid_put(PlumbPyramid *pyramid, const PlumbPhoto *photo)
{
    char path[PLUMB_PATH_SIZE];
    memcpy(path, pyramid->path, sizeof path);
    plumb_pyramid_free(pyramid);
    memcpy(pyramid->path, path, sizeof path);
    pyramid->photo = *photo;
    build_levels(pyramid);
}

void plumb_trace_load(PlumbDesk *desk)
{
    const PlumbMarked *const marked = &desk->now.marked;
    PlumbPyramid *const pyramid = &desk->tracing->pyramid;
    char path[PLUMB_PATH_SIZE] = "";
    if (marked->marks.still_count > 0) {
        plumb_marks_picture_path(marked->path, marked->marks.picture[plumb_marked_view(marked)],
                                 path, sizeof path);
    }
    if (strcmp(path, pyramid->path) == 0) {
        return;
    }
    plumb_pyramid_free(pyramid);
    memcpy(pyramid->path, path, sizeof path);
    if (path[0] == '\0' || marked->film) {
        return;
    }
    char *bytes = NULL;
    size_t length = 0;
    PlumbError error = {0};
    PlumbStatus status =
        plumb_file_read_whole(path, PLUMB_PHOTO_MAX_BYTES, &bytes, &length, &error);
    if (status == PLUMB_OK) {
        status = plumb_photo_unpack(bytes, length, &pyramid->photo, &error);
        free(bytes);
    }
    if (status == PLUMB_OK) {
        build_levels(pyramid);
    } else {
        memcpy(pyramid->why, error.message, sizeof pyramid->why);
    }
}
