/* SPDX-License-Identifier: MIT */
/* A scene becomes bytes: SVG by our own writer; window surface, PNG and PDF through cairo. */
#ifndef PLUMBAR_DRAW_H
#define PLUMBAR_DRAW_H

#include <plumbar/svg.h>

#include <cairo.h>

/* The typeface of every drawing (DejaVu Sans), for measuring and for painting. NULL where memory
 * is out. */
typedef struct PlumbFont PlumbFont;
PlumbFont *plumb_font_create(void);
void plumb_font_destroy(PlumbFont *font);
/* A PlumbTextWidth whose user is a PlumbFont. */
double plumb_font_width(void *font, const char *text, size_t length, double size_mm);

/* Frees what cairo and fontconfig keep for the whole process; for the end of a program, after every
 * font, surface and context is gone. */
void plumb_draw_finish(void);

/* px_per_mm 1 to 40. The same scene gives the same bytes. */
PlumbStatus plumb_draw_png(const PlumbScene *scene, PlumbPaper paper, double px_per_mm,
                           PlumbBytes *bytes, PlumbError *error);

/* One page, fonts embedded, text selectable. date: creation date "2026-01-31T12:00:00Z"; the same
 * scene and date give the same bytes. */
PlumbStatus plumb_draw_pdf(const PlumbScene *scene, PlumbPaper paper, const char *date,
                           PlumbBytes *bytes, PlumbError *error);

/* Paints the scene with its paper onto a cairo context whose unit is one px; the scene's top left
 * corner comes to the context's origin. */
void plumb_draw_cairo(cairo_t *cairo, const PlumbScene *scene, PlumbPaper paper, PlumbFont *font,
                      double px_per_mm);

/* Paints count items from the first, without the paper: for a window that repaints only what has
 * changed. */
void plumb_draw_cairo_items(cairo_t *cairo, const PlumbScene *scene, PlumbPaper paper,
                            PlumbFont *font, double px_per_mm, int first, int count);

#endif
