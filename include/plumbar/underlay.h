/* SPDX-License-Identifier: MIT */
/* A scene drawn over a picture. */
#ifndef PLUMBAR_UNDERLAY_H
#define PLUMBAR_UNDERLAY_H

#include <plumbar/draw.h>

#include <stdint.h>

/* The picture: rows of 0x00RRGGBB without gaps for PNG and PDF, and its own bytes for SVG, which
 * without them gets the pixels as a PNG. Pointers are borrowed; without pixels there is no picture.
 * strength 0 to 1: how much of it shows through the paper. */
typedef struct PlumbUnderlay {
    int width_px;
    int height_px;
    const uint32_t *pixel;
    const unsigned char *file; /* a PNG or JPEG */
    size_t file_length;
    bool jpeg;
    PlumbRect at;
    PlumbRect clip; /* the part of the page on which it shows; no width: all of it */
    double strength;
} PlumbUnderlay;

/* As plumb_draw_svg and plumb_draw_png, with pictures between paper and scene; underlay[count]. */
PlumbStatus plumb_underlay_svg(const PlumbScene *scene, PlumbPaper paper,
                               const PlumbUnderlay *underlay, int count, PlumbBytes *bytes,
                               PlumbError *error);
PlumbStatus plumb_underlay_png(const PlumbScene *scene, PlumbPaper paper,
                               const PlumbUnderlay *underlay, int count, double px_per_mm,
                               PlumbBytes *bytes, PlumbError *error);

/* As plumb_draw_pdf, a page for each scene; underlay[i] lies on page i, one without pixels is none.
 * The first scene's title is the document's. */
PlumbStatus plumb_underlay_pdf(const PlumbScene *const *scene, PlumbPaper paper,
                               const PlumbUnderlay *underlay, int count, const char *date,
                               PlumbBytes *bytes, PlumbError *error);

/* The kinds of file that a scene becomes. */
typedef enum PlumbPictureKind {
    PLUMB_PICTURE_SVG,
    PLUMB_PICTURE_PDF,
    PLUMB_PICTURE_PNG,
    PLUMB_PICTURE_COUNT
} PlumbPictureKind;

/* The kind that the ending of path names (.svg, .pdf, .png); false where it is none of them. */
bool plumb_picture_find(const char *path, PlumbPictureKind *kind);

/* One scene as a file; a PNG has about 200 dots an inch. underlay: NULL, or one picture. day: the
 * PDF's, "2026-01-31". */
PlumbStatus plumb_underlay_file(const PlumbScene *scene, PlumbPictureKind kind, PlumbPaper paper,
                                const PlumbUnderlay *underlay, const char *day, PlumbBytes *bytes,
                                PlumbError *error);

/* Paints pixels alone onto a context whose unit is 1 / units_per_mm mm: for a window. */
void plumb_underlay_paint(cairo_t *cairo, const PlumbUnderlay *underlay, double units_per_mm);

#endif
