/* SPDX-License-Identifier: MIT */
/* Slices become pixels: cairo straight into the surface that SDL shows. */
#include "page_trace.h"
#include "stage.h"

#include <cairo.h>

#include <math.h>
#include <stdlib.h>

/* cairo's RGB24 has the bytes of these two. */
static bool is_direct(const SDL_Surface *surface)
{
    return surface->format->format == SDL_PIXELFORMAT_RGB888 ||
           surface->format->format == SDL_PIXELFORMAT_ARGB8888;
}

/* The whole pixels that a slice covers. */
static SDL_Rect pixels_of(PlumbRect rect, double px_per_mm, const SDL_Surface *surface)
{
    const int x0 = (int)floor(rect.x_mm * px_per_mm + 1e-6);
    const int y0 = (int)floor(rect.y_mm * px_per_mm + 1e-6);
    const int x1 = (int)ceil((rect.x_mm + rect.width_mm) * px_per_mm - 1e-6);
    const int y1 = (int)ceil((rect.y_mm + rect.height_mm) * px_per_mm - 1e-6);
    const SDL_Rect all = {0, 0, surface->w, surface->h};
    const SDL_Rect wanted = {x0, y0, x1 - x0, y1 - y0};
    SDL_Rect pixels = {0, 0, 0, 0};
    SDL_IntersectRect(&all, &wanted, &pixels);
    return pixels;
}

/* One slice, and what of the last one lies over it. */
static void paint_slice(const PlumbDesk *desk, cairo_t *cairo, SDL_Rect pixels,
                        const PlumbSlice *slice, double px_per_mm)
{
    const PlumbSlice *const over = &desk->slices.slice[desk->slices.count - 1];
    const PlumbRgb paper = plumb_paper_rgb(desk->paper, PLUMB_ROLE_paper);
    cairo_save(cairo);
    cairo_rectangle(cairo, pixels.x, pixels.y, pixels.w, pixels.h);
    cairo_clip(cairo);
    cairo_set_source_rgb(cairo, paper.red / 255.0, paper.green / 255.0, paper.blue / 255.0);
    cairo_paint(cairo);
    plumb_trace_paint(desk, cairo, slice->pane, px_per_mm);
    plumb_draw_cairo_items(cairo, desk->scene, desk->paper, desk->font, px_per_mm, slice->first,
                           slice->count);
    plumb_draw_cairo_items(cairo, desk->scene, desk->paper, desk->font, px_per_mm, over->first,
                           over->count);
    cairo_restore(cairo);
}

/* Returns how many rectangles were painted. */
static int paint_stale(PlumbDesk *desk, const SDL_Surface *surface, unsigned char *pixels,
                       int stride, SDL_Rect rect[PLUMB_SLICES_MAX])
{
    const double px_per_mm = surface->w / desk->width_mm;
    const PlumbSlices *const slices = &desk->slices;
    const bool all = desk->repaint || plumb_slices_stale(slices, slices->count - 1);
    cairo_surface_t *const target = cairo_image_surface_create_for_data(
        pixels, CAIRO_FORMAT_RGB24, surface->w, surface->h, stride);
    cairo_t *const cairo = cairo_create(target);
    int count = 0;
    for (int i = 0; i < slices->count - 1; i++) {
        if (all || plumb_slices_stale(slices, i)) {
            rect[count] = pixels_of(slices->slice[i].rect, px_per_mm, surface);
            paint_slice(desk, cairo, rect[count], &slices->slice[i], px_per_mm);
            count += rect[count].w > 0 && rect[count].h > 0 ? 1 : 0;
        }
    }
    cairo_destroy(cairo);
    cairo_surface_finish(target);
    cairo_surface_destroy(target);
    return count;
}

/* Other pixel formats get a copy that SDL converts; it is painted whole. */
static bool paint_converted(PlumbDesk *desk, SDL_Surface *surface)
{
    SDL_Rect rect[PLUMB_SLICES_MAX];
    const int stride = surface->w * 4;
    unsigned char *const pixels = malloc((size_t)stride * (size_t)surface->h);
    if (pixels == NULL) {
        return false;
    }
    desk->repaint = true;
    paint_stale(desk, surface, pixels, stride, rect);
    const int failed =
        SDL_ConvertPixels(surface->w, surface->h, SDL_PIXELFORMAT_RGB888, pixels, stride,
                          surface->format->format, surface->pixels, surface->pitch);
    free(pixels);
    return failed == 0;
}

bool plumb_stage_paint(PlumbStage *stage, SDL_Surface *surface)
{
    PlumbDesk *const desk = stage->desk;
    SDL_Rect rect[PLUMB_SLICES_MAX];
    int count = 0;
    if (SDL_MUSTLOCK(surface) && SDL_LockSurface(surface) != 0) {
        return false;
    }
    const bool direct = is_direct(surface);
    bool painted = true;
    if (direct) {
        count = paint_stale(desk, surface, surface->pixels, surface->pitch, rect);
    } else {
        painted = paint_converted(desk, surface);
    }
    if (SDL_MUSTLOCK(surface)) {
        SDL_UnlockSurface(surface);
    }
    if (!painted) {
        return false;
    }
    plumb_slices_shown(&desk->slices);
    const bool whole = desk->repaint || !direct;
    desk->repaint = false;
    if (whole) {
        return SDL_UpdateWindowSurface(stage->window) == 0;
    }
    return count == 0 || SDL_UpdateWindowSurfaceRects(stage->window, rect, count) == 0;
}
