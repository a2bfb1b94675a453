/* SPDX-License-Identifier: MIT */
/* A scene over a picture: the picture's own bytes within an SVG, its pixels under cairo. */
#include <plumbar/underlay.h>

#include "draw/buffer.h"

#include <plumbar/draw.h>

#include <cairo-pdf.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double points_per_mm = 72.0 / 25.4;
static const double png_px_per_mm = 8.0;

static cairo_status_t take(void *buffer, const unsigned char *data, unsigned int length)
{
    PlumbBuffer *const out = buffer;
    plumb_buffer_add(out, data, length);
    return out->failed ? CAIRO_STATUS_NO_MEMORY : CAIRO_STATUS_SUCCESS;
}

/* Base64 (RFC 4648). */
static void put_base64(PlumbBuffer *out, const unsigned char *data, size_t length)
{
    static const char letters[] =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    for (size_t i = 0; i < length; i += 3) {
        const size_t left = length - i;
        const unsigned group = (unsigned)data[i] << 16 |
                               (left > 1 ? (unsigned)data[i + 1] << 8 : 0U) |
                               (left > 2 ? (unsigned)data[i + 2] : 0U);
        const char four[4] = {letters[group >> 18], letters[group >> 12 & 63],
                              left > 1 ? letters[group >> 6 & 63] : '=',
                              left > 2 ? letters[group & 63] : '='};
        plumb_buffer_add(out, four, sizeof four);
    }
}

static void attribute(PlumbBuffer *out, const char *name, double value)
{
    plumb_buffer_string(out, " ");
    plumb_buffer_string(out, name);
    plumb_buffer_string(out, "=\"");
    plumb_buffer_number(out, value);
    plumb_buffer_string(out, "\"");
}

/* What lies outside of an inner drawing is not shown. */
static void put_clip(PlumbBuffer *out, PlumbRect clip)
{
    plumb_buffer_string(out, "<svg");
    attribute(out, "x", clip.x_mm);
    attribute(out, "y", clip.y_mm);
    attribute(out, "width", clip.width_mm);
    attribute(out, "height", clip.height_mm);
    plumb_buffer_string(out, " viewBox=\"");
    plumb_buffer_number(out, clip.x_mm);
    plumb_buffer_string(out, " ");
    plumb_buffer_number(out, clip.y_mm);
    plumb_buffer_string(out, " ");
    plumb_buffer_number(out, clip.width_mm);
    plumb_buffer_string(out, " ");
    plumb_buffer_number(out, clip.height_mm);
    plumb_buffer_string(out, "\">\n");
}

static cairo_surface_t *surface_of(const PlumbUnderlay *underlay)
{
    /* Cairo reads pixels only. */
    /* NOLINTNEXTLINE(performance-no-int-to-ptr): takes const away, cairo's signature lacks it */
    unsigned char *const data = (unsigned char *)(uintptr_t)underlay->pixel;
    return cairo_image_surface_create_for_data(data, CAIRO_FORMAT_RGB24, underlay->width_px,
                                               underlay->height_px, underlay->width_px * 4);
}

/* The picture's own file, or its pixels as a PNG. */
static void put_file(PlumbBuffer *out, const PlumbUnderlay *underlay)
{
    if (underlay->file != NULL) {
        put_base64(out, underlay->file, underlay->file_length);
        return;
    }
    PlumbBuffer png = {0};
    cairo_surface_t *const surface = surface_of(underlay);
    if (cairo_surface_write_to_png_stream(surface, take, &png) != CAIRO_STATUS_SUCCESS) {
        out->failed = true;
    }
    cairo_surface_destroy(surface);
    put_base64(out, png.data, png.length);
    free(png.data);
}

static void put_image(PlumbBuffer *out, const PlumbUnderlay *underlay)
{
    const bool clipped = underlay->clip.width_mm > 0.0;
    if (clipped) {
        put_clip(out, underlay->clip);
    }
    plumb_buffer_string(out, "<image preserveAspectRatio=\"none\"");
    attribute(out, "x", underlay->at.x_mm);
    attribute(out, "y", underlay->at.y_mm);
    attribute(out, "width", underlay->at.width_mm);
    attribute(out, "height", underlay->at.height_mm);
    attribute(out, "opacity", underlay->strength);
    plumb_buffer_string(out, underlay->jpeg ? " href=\"data:image/jpeg;base64,"
                                            : " href=\"data:image/png;base64,");
    put_file(out, underlay);
    plumb_buffer_string(out, clipped ? "\"/>\n</svg>\n" : "\"/>\n");
}

/* The writer's first rectangle is the paper; the picture follows it. */
static size_t after_paper(const PlumbBytes *svg)
{
    static const char rect[] = "\n<rect ";
    for (size_t i = 0; i + sizeof rect < svg->length; i++) {
        if (memcmp(svg->data + i, rect, sizeof rect - 1) == 0) {
            const unsigned char *const end = memchr(svg->data + i + 1, '\n', svg->length - i - 1);
            return end != NULL ? (size_t)(end - svg->data) + 1 : 0;
        }
    }
    return 0;
}

PlumbStatus plumb_underlay_svg(const PlumbScene *scene, PlumbPaper paper,
                               const PlumbUnderlay *underlay, int count, PlumbBytes *bytes,
                               PlumbError *error)
{
    PlumbBytes plain = {.data = NULL};
    const PlumbStatus status = plumb_draw_svg(scene, paper, &plain, error);
    if (status != PLUMB_OK) {
        return status;
    }
    const size_t at = after_paper(&plain);
    PlumbBuffer out = {0};
    plumb_buffer_add(&out, plain.data, at);
    for (int i = 0; i < count; i++) {
        if (underlay[i].pixel != NULL) {
            put_image(&out, &underlay[i]);
        }
    }
    plumb_buffer_add(&out, plain.data + at, plain.length - at);
    plumb_bytes_free(&plain);
    return plumb_buffer_finish(&out, bytes, error);
}

void plumb_underlay_paint(cairo_t *cairo, const PlumbUnderlay *underlay, double units_per_mm)
{
    if (underlay->pixel == NULL) {
        return;
    }
    cairo_surface_t *const surface = surface_of(underlay);
    cairo_save(cairo);
    cairo_scale(cairo, units_per_mm, units_per_mm);
    if (underlay->clip.width_mm > 0.0) {
        cairo_rectangle(cairo, underlay->clip.x_mm, underlay->clip.y_mm, underlay->clip.width_mm,
                        underlay->clip.height_mm);
        cairo_clip(cairo);
    }
    cairo_translate(cairo, underlay->at.x_mm, underlay->at.y_mm);
    cairo_scale(cairo, underlay->at.width_mm / underlay->width_px,
                underlay->at.height_mm / underlay->height_px);
    cairo_set_source_surface(cairo, surface, 0.0, 0.0);
    cairo_paint_with_alpha(cairo, underlay->strength);
    cairo_restore(cairo);
    cairo_surface_destroy(surface);
}

/* Paper, pictures, scene; false where cairo failed. */
static bool paint(cairo_surface_t *surface, const PlumbScene *scene, PlumbPaper paper,
                  const PlumbUnderlay *underlay, int count, double units_per_mm)
{
    PlumbFont *const font = plumb_font_create();
    cairo_t *const cairo = cairo_create(surface);
    const PlumbRgb rgb = plumb_paper_rgb(paper, PLUMB_ROLE_paper);
    bool painted = font != NULL && cairo_status(cairo) == CAIRO_STATUS_SUCCESS;
    if (painted) {
        cairo_set_source_rgb(cairo, rgb.red / 255.0, rgb.green / 255.0, rgb.blue / 255.0);
        cairo_paint(cairo);
        for (int i = 0; i < count; i++) {
            plumb_underlay_paint(cairo, &underlay[i], units_per_mm);
        }
        plumb_draw_cairo_items(cairo, scene, paper, font, units_per_mm, 0, scene->item_count);
        painted = cairo_status(cairo) == CAIRO_STATUS_SUCCESS;
    }
    cairo_destroy(cairo);
    plumb_font_destroy(font);
    return painted;
}

PlumbStatus plumb_underlay_png(const PlumbScene *scene, PlumbPaper paper,
                               const PlumbUnderlay *underlay, int count, double px_per_mm,
                               PlumbBytes *bytes, PlumbError *error)
{
    const int width = (int)ceil(scene->width_mm * px_per_mm - 1e-9);
    const int height = (int)ceil(scene->height_mm * px_per_mm - 1e-9);
    cairo_surface_t *const surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height);
    PlumbBuffer out = {0};
    out.failed = !paint(surface, scene, paper, underlay, count, px_per_mm) ||
                 cairo_surface_write_to_png_stream(surface, take, &out) != CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(surface);
    return plumb_buffer_finish(&out, bytes, error);
}

PlumbStatus plumb_underlay_pdf(const PlumbScene *const *scene, PlumbPaper paper,
                               const PlumbUnderlay *underlay, int count, const char *date,
                               PlumbBytes *bytes, PlumbError *error)
{
    PlumbBuffer out = {0};
    cairo_surface_t *const surface = cairo_pdf_surface_create_for_stream(
        take, &out, scene[0]->width_mm * points_per_mm, scene[0]->height_mm * points_per_mm);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, scene[0]->title);
    for (int i = 0; i < count && !out.failed; i++) {
        cairo_pdf_surface_set_size(surface, scene[i]->width_mm * points_per_mm,
                                   scene[i]->height_mm * points_per_mm);
        out.failed = !paint(surface, scene[i], paper, &underlay[i], 1, points_per_mm);
        cairo_surface_show_page(surface);
    }
    cairo_surface_finish(surface);
    out.failed = out.failed || cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS;
    cairo_surface_destroy(surface);
    return plumb_buffer_finish(&out, bytes, error);
}

bool plumb_picture_find(const char *path, PlumbPictureKind *kind)
{
    static const char *const endings[PLUMB_PICTURE_COUNT] = {".svg", ".pdf", ".png"};
    const size_t length = strlen(path);
    for (int i = 0; i < PLUMB_PICTURE_COUNT; i++) {
        const size_t tail = strlen(endings[i]);
        if (length > tail && strcmp(path + length - tail, endings[i]) == 0) {
            *kind = (PlumbPictureKind)i;
            return true;
        }
    }
    return false;
}

PlumbStatus plumb_underlay_file(const PlumbScene *scene, PlumbPictureKind kind, PlumbPaper paper,
                                const PlumbUnderlay *underlay, const char *day, PlumbBytes *bytes,
                                PlumbError *error)
{
    const PlumbUnderlay none = {.pixel = NULL};
    const PlumbUnderlay *const under = underlay != NULL ? underlay : &none;
    if (kind == PLUMB_PICTURE_PNG) {
        return plumb_underlay_png(scene, paper, under, 1, png_px_per_mm, bytes, error);
    }
    if (kind == PLUMB_PICTURE_SVG) {
        return plumb_underlay_svg(scene, paper, under, 1, bytes, error);
    }
    char date[32];
    PlumbText text = plumb_text_begin(date, sizeof date);
    plumb_text_string(&text, day);
    plumb_text_string(&text, "T12:00:00Z");
    return plumb_underlay_pdf(&scene, paper, under, 1, date, bytes, error);
}
