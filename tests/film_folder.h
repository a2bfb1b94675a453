/* SPDX-License-Identifier: MIT */
/* A rendered deadlift as a folder of PNG frames with a file of marks, for the command and the
 * window. Needs _XOPEN_SOURCE 700. */
#ifndef PLUMBAR_TESTS_FILM_FOLDER_H
#define PLUMBAR_TESTS_FILM_FOLDER_H

#include "folder.h"

#include "film_read.h"

#include <cairo.h>

enum { WIDTH = 640, HEIGHT = 360 };

/* Sentences are wrapped: one blank for each break. */
static inline void unwrap(char *text)
{
    char *to = text;
    for (const char *from = text; *from != '\0'; from++) {
        const bool blank = *from == ' ' || *from == '\n';
        if (!blank || to == text || to[-1] != ' ') {
            *to++ = blank ? ' ' : *from;
        }
    }
    *to = '\0';
}

/* A frame as PNG; mirrored for a lifter who faces left. */
static inline void put_frame(const char *name, const uint8_t *grey_level, bool mirrored)
{
    cairo_surface_t *const s = cairo_image_surface_create(CAIRO_FORMAT_RGB24, WIDTH, HEIGHT);
    uint8_t *const data = cairo_image_surface_get_data(s);
    const int stride = cairo_image_surface_get_stride(s);
    for (int y = 0; y < HEIGHT; y++) {
        for (int x = 0; x < WIDTH; x++) {
            const uint32_t grey = grey_level[y * WIDTH + (mirrored ? WIDTH - 1 - x : x)];
            const uint32_t pixel = grey * 0x010101U;
            memcpy(data + y * stride + 4 * x, &pixel, sizeof pixel);
        }
    }
    cairo_surface_mark_dirty(s);
    assert_int_equal(cairo_surface_write_to_png(s, in_folder(name)), CAIRO_STATUS_SUCCESS);
    cairo_surface_destroy(s);
}

/* A row of a file of marks; by_time: that column instead of frame. */
static inline void put_mark(FILE *file, const FilmScene *film, int frame, bool by_time,
                            const char *name, PlumbVec2 at)
{
    if (by_time) {
        fprintf(file, "%.6f", film_time_s(film, frame));
    } else {
        fprintf(file, "%d", frame);
    }
    fprintf(file, ",%s,%.2f,%.2f\n", name, at.x, at.y);
}

/* A place of a frame as the file has it. */
static inline PlumbVec2 put_place(const FilmScene *film, bool mirrored, PlumbVec2 at)
{
    return (PlumbVec2){mirrored ? film->width_px - 1.0 - at.x : at.x, at.y};
}

/* Marks of the frames at the start, on the way (0.5 and 1 s) and at the end. */
static inline void put_marks(const FilmScene *film, const char *path, bool mirrored, bool by_time)
{
    static const PlumbLandmark joints[] = {PLUMB_MARK_heel, PLUMB_MARK_toe, PLUMB_MARK_ankle,
                                           PLUMB_MARK_knee, PLUMB_MARK_hip, PLUMB_MARK_shoulder};
    const int frames[] = {0, (int)(0.5 * film->rate_per_s), (int)film->rate_per_s,
                          film_count(film) - 1};
    FILE *const file = fopen(path, "w");
    assert_non_null(file);
    fprintf(file, "%s,landmark,x,y\n", by_time ? "time" : "frame");
    for (size_t k = 0; k < sizeof frames / sizeof frames[0]; k++) {
        for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++) {
            const PlumbMarkName mark = {joints[i], PLUMB_NEAR, false};
            if (!film_hidden(film, frames[k], mark)) {
                put_mark(file, film, frames[k], by_time, plumb_landmark_name(joints[i]),
                         put_place(film, mirrored, film_mark(film, frames[k], mark)));
            }
        }
        PlumbSeriesTrack disc = {.name = {PLUMB_MARK_disc_centre, PLUMB_NEAR, false}};
        const PlumbVec2 middle = film_rim(film, frames[k], &disc);
        for (int i = 0; i < disc.rim_count; i++) {
            put_mark(
                file, film, frames[k], by_time, "disc",
                put_place(film, mirrored,
                          (PlumbVec2){middle.x + disc.rim_px[i].x, middle.y + disc.rim_px[i].y}));
        }
    }
    for (int near = PLUMB_NEAR; near <= PLUMB_FAR; near++) {
        const PlumbMarkName post = {PLUMB_MARK_plumb, (PlumbNear)near, false};
        put_mark(file, film, 0, by_time, "plumb",
                 put_place(film, mirrored, film_mark(film, 0, post)));
    }
    fclose(file);
}

/* A scene at half of the size. */
static inline FilmScene small_scene(const FilmLift *of)
{
    FilmScene small = film_scene(of);
    small.width_px = WIDTH;
    small.height_px = HEIGHT;
    small.camera.focal_px *= 0.5;
    small.camera.centre_x_px = 0.5 * (WIDTH - 1);
    small.camera.centre_y_px = 0.5 * (HEIGHT - 1);
    return small;
}

static FilmLift lift;
static FilmScene scene;
static uint8_t level[64][WIDTH * HEIGHT];

/* Renders once; the folder then holds it as it is or mirrored. */
static inline int make_film(void **state)
{
    lift = film_lift(PLUMB_DEADLIFT);
    scene = small_scene(&lift);
    FilmRender *const render = film_render_open(&scene);
    for (int i = 0; i < film_count(&scene); i++) {
        film_render_frame(render, i, level[i]);
    }
    film_render_close(render);
    return make_folder(state);
}

/* Frames and marks; what the folder holds already is not written again. */
static inline void put_film(bool mirrored, const char *marks)
{
    static int held = -1;
    put_marks(&scene, marks, mirrored, false); /* first: the path may be one of in_folder */
    for (int i = 0; i < film_count(&scene) && held != (int)mirrored; i++) {
        char name[32];
        snprintf(name, sizeof name, "f%d.png", i);
        put_frame(name, level[i], mirrored);
    }
    held = mirrored;
}

#endif
