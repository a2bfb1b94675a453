/* SPDX-License-Identifier: MIT */
/* A scene as SVG, by a writer that needs no graphics library. */
#ifndef PLUMBAR_SVG_H
#define PLUMBAR_SVG_H

#include <plumbar/scene.h>

#include <stddef.h>

/* Bytes owned by the caller; free with plumb_bytes_free. */
typedef struct PlumbBytes {
    unsigned char *data;
    size_t length;
} PlumbBytes;

void plumb_bytes_free(PlumbBytes *bytes);

/* Writes the scene as SVG: millimetres, text stays text, title and description for readers. The
 * same scene gives the same bytes. Fails only with PLUMB_OUT_OF_MEMORY; *bytes is then untouched.
 */
PlumbStatus plumb_draw_svg(const PlumbScene *scene, PlumbPaper paper, PlumbBytes *bytes,
                           PlumbError *error);

#endif
