/* SPDX-License-Identifier: MIT */
/* PNG and PDF into memory through cairo's stream writers. */
#include "draw/buffer.h"

#include <plumbar/draw.h>

#include <cairo-pdf.h>

#include <math.h>
#include <string.h>

static const double POINTS_PER_MM = 72.0 / 25.4;
static const double PX_PER_MM_LEAST = 1.0;
static const double PX_PER_MM_MOST = 40.0;

static cairo_status_t take(void *buffer, const unsigned char *data, unsigned int length)
{
    PlumbBuffer *out = buffer;
    plumb_buffer_add(out, data, length);
    return out->failed ? CAIRO_STATUS_NO_MEMORY : CAIRO_STATUS_SUCCESS;
}

/* Paints onto a surface with a typeface of its own; false where cairo failed. */
static bool paint_surface(cairo_surface_t *surface, const PlumbScene *scene, PlumbPaper paper,
                          double units_per_mm)
{
    PlumbFont *font = plumb_font_create();
    cairo_t *cairo = cairo_create(surface);
    bool painted = font != NULL && cairo_status(cairo) == CAIRO_STATUS_SUCCESS;
    if (painted) {
        plumb_draw_cairo(cairo, scene, paper, font, units_per_mm);
        painted = cairo_status(cairo) == CAIRO_STATUS_SUCCESS;
    }
    cairo_destroy(cairo);
    plumb_font_destroy(font);
    return painted;
}

PlumbStatus plumb_draw_png(const PlumbScene *scene, PlumbPaper paper, double px_per_mm,
                           PlumbBytes *bytes, PlumbError *error)
{
    if (!(px_per_mm >= PX_PER_MM_LEAST && px_per_mm <= PX_PER_MM_MOST)) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "px_per_mm",
                               "pixels per millimetre: 1 to 40 (4 is a screen, 12 is print)");
    }
    const int width = (int)ceil(scene->width_mm * px_per_mm - 1e-9);
    const int height = (int)ceil(scene->height_mm * px_per_mm - 1e-9);
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    PlumbBuffer out = {0};
    out.failed = !paint_surface(surface, scene, paper, px_per_mm) ||
                 cairo_surface_write_to_png_stream(surface, take, &out) != CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(surface);
    return plumb_buffer_finish(&out, bytes, error);
}

static void set_words(cairo_surface_t *surface, cairo_pdf_metadata_t which, const char *words)
{
    char clean[PLUMB_CLEAN_SIZE];
    plumb_utf8_clean(clean, words, strlen(words));
    cairo_pdf_surface_set_metadata(surface, which, clean);
}

PlumbStatus plumb_draw_pdf(const PlumbScene *scene, PlumbPaper paper, const char *date,
                           PlumbBytes *bytes, PlumbError *error)
{
    PlumbBuffer out = {0};
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(
        take, &out, scene->width_mm * POINTS_PER_MM, scene->height_mm * POINTS_PER_MM);
    set_words(surface, CAIRO_PDF_METADATA_TITLE, scene->title);
    set_words(surface, CAIRO_PDF_METADATA_SUBJECT, scene->description);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
    const bool painted = paint_surface(surface, scene, paper, POINTS_PER_MM);
    cairo_surface_finish(surface);
    if (!painted || cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS) {
        out.failed = true;
    }
    cairo_surface_destroy(surface);
    return plumb_buffer_finish(&out, bytes, error);
}
