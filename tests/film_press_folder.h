/* SPDX-License-Identifier: MIT */
/* A rendered press as a folder of PNG frames with a file of marks. Needs _XOPEN_SOURCE 700. */
#ifndef PLUMBAR_TESTS_FILM_PRESS_FOLDER_H
#define PLUMBAR_TESTS_FILM_PRESS_FOLDER_H

#include "film_press_read.h"

#include "film_folder.h" /* its names come last */

/* A scene of a press at half of the size, 15 frames a second. */
static inline FilmScene small_press(const FilmPress *press, double yaw_rad)
{
    FilmScene small = film_press_scene(press, yaw_rad);
    small.width_px = WIDTH;
    small.height_px = HEIGHT;
    small.camera.focal_px *= 0.5;
    small.camera.centre_x_px = 0.5 * (WIDTH - 1);
    small.camera.centre_y_px = 0.5 * (HEIGHT - 1);
    small.rate_per_s = 15.0;
    return small;
}

/* Renders a scene into the folder. */
static inline void put_scene(const FilmScene *of)
{
    FilmRender *const render = film_render_open(of);
    for (int i = 0; i < film_count(of); i++) {
        char name[32];
        film_render_frame(render, i, level[0]);
        snprintf(name, sizeof name, "f%d.png", i);
        put_frame(name, level[0], false);
    }
    film_render_close(render);
}

static inline void put_named(FILE *file, const FilmScene *of, int frame, const PlumbMark *mark)
{
    char name[64];
    PlumbText text = plumb_text_begin(name, sizeof name);
    plumb_mark_name_text(&text, mark->name);
    put_mark(file, of, frame, false, name, (PlumbVec2){mark->x_px, mark->y_px});
}

/* What a person marks, without an error: lockout, touch, lockout, and the post. */
static inline void put_press_marks(const FilmScene *of, const FilmPress *press, const char *path)
{
    int frame[FILM_PRESS_FRAMES];
    PlumbMark mark[FILM_PRESS_MARKS];
    FILE *const file = fopen(path, "w");
    assert_non_null(file);
    fprintf(file, "frame,landmark,x,y\n");
    film_press_frames(of, press, frame);
    for (int k = 0; k < FILM_PRESS_FRAMES; k++) {
        const int count = film_press_marks(of, frame[k], 0.0, mark);
        for (int i = 0; i < count; i++) {
            put_named(file, of, frame[k], &mark[i]);
        }
    }
    film_plumb_marks(of, mark);
    put_named(file, of, 0, &mark[0]);
    put_named(file, of, 0, &mark[1]);
    fclose(file);
}

#endif
