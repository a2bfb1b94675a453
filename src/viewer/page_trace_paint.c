/* SPDX-License-Identifier: MIT */
/* The picture's pixels: of its halves the one nearest to the size that is shown. */
#include "page_trace.h"

#include <string.h>

static const double strength = 0.7; /* of the picture: lines over it stay readable */

/* The smallest level that still has a pixel for each of the screen. */
static const PlumbUnderlay *level_of(const PlumbPyramid *pyramid, double screen_per_px)
{
    int level = 0;
    while (level + 1 < pyramid->level_count && screen_per_px * (2 << level) <= 1.0) {
        level++;
    }
    return &pyramid->level[level];
}

static void paint(const PlumbDesk *desk, cairo_t *cairo, const PlumbPictureFit *fit, PlumbRect room,
                  double share, double px_per_mm)
{
    const PlumbPyramid *const pyramid = &desk->tracing->pyramid;
    if (pyramid->level_count == 0) {
        return;
    }
    const double width = fit->mm_per_px * pyramid->photo.width_px;
    const double height = fit->mm_per_px * pyramid->photo.height_px;
    const bool mirrored = fit->mirror_px > 0.0;
    PlumbUnderlay under = *level_of(pyramid, fit->mm_per_px * px_per_mm);
    under.strength = share;
    under.at = (PlumbRect){mirrored ? fit->at_mm.x + width : fit->at_mm.x, fit->at_mm.y,
                           mirrored ? -width : width, height};
    cairo_save(cairo);
    cairo_rectangle(cairo, room.x_mm * px_per_mm, room.y_mm * px_per_mm, room.width_mm * px_per_mm,
                    room.height_mm * px_per_mm);
    cairo_clip(cairo);
    plumb_underlay_paint(cairo, &under, px_per_mm);
    cairo_restore(cairo);
}

void plumb_trace_paint(const PlumbDesk *desk, cairo_t *cairo, int pane, double px_per_mm)
{
    const PlumbTracing *const t = desk->tracing;
    if (pane == PLUMB_PANE_PICTURE) {
        paint(desk, cairo, &t->view, t->room, strength, px_per_mm);
    } else if (pane == PLUMB_PANE_GLASS) {
        paint(desk, cairo, &t->glass_view, t->glass, 1.0, px_per_mm);
    }
}

static uint64_t mix(uint64_t hash, const void *bytes, size_t size)
{
    const unsigned char *const byte = bytes;
    for (size_t i = 0; i < size; i++) {
        hash = (hash ^ byte[i]) * 0x100000001B3U;
    }
    return hash;
}

uint64_t plumb_trace_stamp(const PlumbDesk *desk, int pane)
{
    const PlumbTracing *const t = desk->tracing;
    uint64_t hash = mix(0xCBF29CE484222325U, &t->pyramid.generation, sizeof t->pyramid.generation);
    if (pane == PLUMB_PANE_GLASS) {
        /* It lies over the picture, and has to be painted whenever that is. */
        return mix(hash, &t->frame, sizeof t->frame);
    }
    const double number[] = {t->view.at_mm.x, t->view.at_mm.y, t->view.mm_per_px,
                             t->view.mirror_px};
    hash = mix(hash, number, sizeof number);
    if (t->magnified) {
        hash = mix(hash, &t->magnified_px, sizeof t->magnified_px);
    }
    return hash;
}
