/* SPDX-License-Identifier: MIT */
/* A scene drawn over a picture. */
#ifndef PLUMBAR_UNDERLAY_H
#define PLUMBAR_UNDERLAY_H

#include <plumbar/svg.h>

#include <stdint.h>

/* The picture: rows of 0x00RRGGBB without gaps for PNG and PDF, and its own bytes for SVG. Pointers
 * are borrowed. strength 0 to 1: how much of it shows through the paper. */
typedef struct PlumbUnderlay {
    int width_px;
    int height_px;
    const uint32_t *pixel;
    const unsigned char *file; /* a PNG or JPEG */
    size_t file_length;
    bool jpeg;
    PlumbRect at;
    double strength;
} PlumbUnderlay;

/* As plumb_draw_svg, plumb_draw_png and plumb_draw_pdf, with the picture between paper and scene.
 */
PlumbStatus plumb_underlay_svg(const PlumbScene *scene, PlumbPaper paper,
                               const PlumbUnderlay *underlay, PlumbBytes *bytes, PlumbError *error);
PlumbStatus plumb_underlay_png(const PlumbScene *scene, PlumbPaper paper,
                               const PlumbUnderlay *underlay, double px_per_mm, PlumbBytes *bytes,
                               PlumbError *error);
PlumbStatus plumb_underlay_pdf(const PlumbScene *scene, PlumbPaper paper,
                               const PlumbUnderlay *underlay, const char *date, PlumbBytes *bytes,
                               PlumbError *error);

#endif
