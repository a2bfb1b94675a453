/* SPDX-License-Identifier: MIT */
/* The typeface as cairo holds it. */
#ifndef PLUMBAR_DRAW_FONT_H
#define PLUMBAR_DRAW_FONT_H

#include <plumbar/draw.h>

struct PlumbFont {
    cairo_font_face_t *face;
    cairo_font_options_t *options; /* no hinting: widths grow in proportion to size */
    cairo_scaled_font_t *ruler;    /* at PLUMB_RULER_EM units an em, for measuring */
};

#define PLUMB_RULER_EM 100.0

#endif
