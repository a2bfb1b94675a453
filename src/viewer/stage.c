/* SPDX-License-Identifier: MIT */
/* The window's pixels: cairo paints into the surface that SDL shows. */
#include "stage.h"

#include "compose.h"
#include "journal.h"
#include "pages.h"
#include "work.h"

#include <plumbar/file.h>

#include <cairo.h>

#include <stdlib.h>
#include <string.h>

enum { LEAST_WIDTH_PX = 1024, LEAST_HEIGHT_PX = 640 };

static const double drag_work_s = 0.0015;
static const double map_work_s = 0.004;

static PlumbStatus fail(PlumbError *error, const char *what, const char *why)
{
    char message[PLUMB_MESSAGE_SIZE];
    PlumbText text = plumb_text_begin(message, sizeof message);
    plumb_text_string(&text, what);
    plumb_text_string(&text, why);
    return plumb_error_set(error, PLUMB_UNSUPPORTED, "window", message);
}

/* Without a display SDL quietly takes a driver that shows nothing. */
static bool shows_nothing(const char *driver)
{
    return driver == NULL || strcmp(driver, "offscreen") == 0 || strcmp(driver, "dummy") == 0;
}

PlumbStatus plumb_stage_open(PlumbStage *stage, PlumbDesk *desk, bool need_display,
                             PlumbError *error)
{
    static const char *const NO_DISPLAY =
        "there is no display to open a window on. Start it in a desktop session (DISPLAY or "
        "WAYLAND_DISPLAY is then set), or use plumbar draw for a file. ";
    memset(stage, 0, sizeof *stage);
    stage->desk = desk;
    SDL_SetMainReady();
    /* Plain shared memory: a renderer in between only costs threads and copies. */
    SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
    if (SDL_Init(SDL_INIT_VIDEO) != 0) {
        return fail(error, NO_DISPLAY, SDL_GetError());
    }
    if (need_display && shows_nothing(SDL_GetCurrentVideoDriver())) {
        SDL_Quit();
        return fail(error, NO_DISPLAY, "");
    }
    stage->window = SDL_CreateWindow("plumbar", SDL_WINDOWPOS_UNDEFINED, SDL_WINDOWPOS_UNDEFINED,
                                     desk->options->width_px, desk->options->height_px,
                                     SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
    if (stage->window == NULL) {
        const PlumbStatus status = fail(error, "the window did not open: ", SDL_GetError());
        SDL_Quit();
        return status;
    }
    SDL_SetWindowMinimumSize(stage->window, LEAST_WIDTH_PX, LEAST_HEIGHT_PX);
    stage->px_per_mm = PLUMB_WINDOW_PX_PER_MM;
    SDL_StartTextInput();
    desk->dirty = true;
    return PLUMB_OK;
}

void plumb_stage_close(PlumbStage *stage)
{
    SDL_DestroyWindow(stage->window);
    SDL_Quit();
}

/* The window's own size decides the millimetres, the surface's the pixels: a dense display gets
 * more pixels for the same paper. */
static void measure(PlumbStage *stage)
{
    PlumbDesk *const desk = stage->desk;
    int width = 0;
    int height = 0;
    SDL_GetWindowSize(stage->window, &width, &height);
    const double width_mm = width / PLUMB_WINDOW_PX_PER_MM;
    const double height_mm = height / PLUMB_WINDOW_PX_PER_MM;
    if (width_mm < desk->width_mm || width_mm > desk->width_mm || height_mm < desk->height_mm ||
        height_mm > desk->height_mm) {
        desk->width_mm = width_mm;
        desk->height_mm = height_mm;
        desk->refit = true;
        desk->repaint = true;
    }
}

bool plumb_stage_frame(PlumbStage *stage, PlumbError *error)
{
    PlumbDesk *const desk = stage->desk;
    if (!desk->dirty) {
        return true;
    }
    plumb_desk_settle(desk);
    plumb_work(desk, drag_work_s, true);
    desk->dirty = false;
    plumb_pages_settle(desk);
    plumb_pages_work(desk, map_work_s);
    /* Afresh each time: a resized window has another surface. */
    SDL_Surface *const surface = SDL_GetWindowSurface(stage->window);
    if (surface == NULL) {
        fail(error, "the window has no pixels: ", SDL_GetError());
        return false;
    }
    measure(stage);
    plumb_compose_window(desk);
    if (!plumb_stage_paint(stage, surface)) {
        fail(error, "the window could not be painted: ", SDL_GetError());
        return false;
    }
    plumb_stage_print_state(stage, false);
    plumb_journal_tend(desk);
    return true;
}

bool plumb_stage_finish(PlumbStage *stage, PlumbError *error)
{
    if (!plumb_stage_frame(stage, error)) {
        return false;
    }
    while (plumb_work(stage->desk, 1.0, false) || plumb_pages_work(stage->desk, 1.0)) {
    }
    stage->desk->dirty = true;
    return plumb_stage_frame(stage, error);
}

typedef struct Png {
    unsigned char *data;
    size_t length;
    size_t room;
} Png;

static cairo_status_t collect(void *closure, const unsigned char *data, unsigned length)
{
    Png *const png = closure;
    if (png->length + length > png->room) {
        const size_t room = 2 * (png->length + length);
        unsigned char *const grown = realloc(png->data, room);
        if (grown == NULL) {
            return CAIRO_STATUS_NO_MEMORY;
        }
        png->data = grown;
        png->room = room;
    }
    memcpy(png->data + png->length, data, length);
    png->length += length;
    return CAIRO_STATUS_SUCCESS;
}

PlumbStatus plumb_stage_shot(PlumbStage *stage, const char *path, PlumbError *error)
{
    SDL_Surface *const window = SDL_GetWindowSurface(stage->window);
    SDL_Surface *const copy =
        window != NULL ? SDL_ConvertSurfaceFormat(window, SDL_PIXELFORMAT_RGB888, 0) : NULL;
    if (copy == NULL) {
        return fail(error, "no picture of the window: ", SDL_GetError());
    }
    Png png = {NULL, 0, 0};
    cairo_surface_t *const target = cairo_image_surface_create_for_data(
        copy->pixels, CAIRO_FORMAT_RGB24, copy->w, copy->h, copy->pitch);
    const cairo_status_t made = cairo_surface_write_to_png_stream(target, collect, &png);
    cairo_surface_destroy(target);
    SDL_FreeSurface(copy);
    PlumbStatus status = PLUMB_OK;
    if (made != CAIRO_STATUS_SUCCESS) {
        status = fail(error, "no picture of the window: ", cairo_status_to_string(made));
    } else {
        status = plumb_file_write_atomic(path, (const char *)png.data, png.length, error);
    }
    free(png.data);
    return status;
}
