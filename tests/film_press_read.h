/* SPDX-License-Identifier: MIT */
/* A rendered press as a person would mark it: which landmarks, in which frames; and followed. */
#ifndef PLUMBAR_TESTS_FILM_PRESS_READ_H
#define PLUMBAR_TESTS_FILM_PRESS_READ_H

#include "film_press.h"
#include "film_read.h"

enum {
    FILM_PRESS_FRAMES = 5,
    FILM_PRESS_FEW = 3, /* the first of them */
    FILM_PRESS_SIDE = 5,
    FILM_PRESS_END = 8,
    FILM_PRESS_RIM = 5,
    FILM_PRESS_MARKS = 16 /* of a frame, at most */
};

static const PlumbMarkName film_press_side_names[FILM_PRESS_SIDE] = {
    {PLUMB_MARK_shoulder, PLUMB_NEAR, false},    {PLUMB_MARK_elbow, PLUMB_NEAR, false},
    {PLUMB_MARK_wrist, PLUMB_NEAR, false},       {PLUMB_MARK_bar, PLUMB_NEAR, false},
    {PLUMB_MARK_disc_centre, PLUMB_NEAR, false},
};

static const PlumbMarkName film_press_end_names[FILM_PRESS_END] = {
    {PLUMB_MARK_shoulder, PLUMB_NEAR, true}, {PLUMB_MARK_elbow, PLUMB_NEAR, true},
    {PLUMB_MARK_wrist, PLUMB_NEAR, true},    {PLUMB_MARK_disc_centre, PLUMB_NEAR, true},
    {PLUMB_MARK_shoulder, PLUMB_FAR, true},  {PLUMB_MARK_elbow, PLUMB_FAR, true},
    {PLUMB_MARK_wrist, PLUMB_FAR, true},     {PLUMB_MARK_disc_centre, PLUMB_FAR, true},
};

/* What a view is marked by: from an end right and left, else the near side. */
static inline const PlumbMarkName *film_press_names(const FilmScene *scene, int *count)
{
    const bool end = film_from_front(scene);
    *count = end ? FILM_PRESS_END : FILM_PRESS_SIDE;
    return end ? film_press_end_names : film_press_side_names;
}

/* The lockout at the start, the touch, the lockout at the end; then, for who marks more, half way
 * down and half way up. */
static inline void film_press_frames(const FilmScene *scene, const FilmPress *press,
                                     int frame[FILM_PRESS_FRAMES])
{
    const double touch_s = film_press_begin_s(press) - 0.5 * press->pause_s;
    frame[0] = 0;
    frame[1] = (int)(touch_s * scene->rate_per_s + 0.5);
    frame[2] = film_count(scene) - 1;
    frame[3] = (int)((press->rest_s + 0.5 * press->down_s) * scene->rate_per_s + 0.5);
    frame[4] = (int)((film_press_end_s(press) - 0.5 * press->up_s) * scene->rate_per_s + 0.5);
}

/* Adds a mark with its error. */
static inline void film_press_add(const FilmScene *scene, int frame, PlumbMarkName name,
                                  PlumbVec2 at, const double *error_px, PlumbMark *mark)
{
    *mark = (PlumbMark){.still = frame,
                        .name = name,
                        .x_px = at.x + error_px[0],
                        .y_px = at.y + error_px[1],
                        .sigma_px = (double)NAN,
                        .time_s = film_time_s(scene, frame)};
}

/* All that a person marks in one frame, each missed by mark_px, a disc's by 0.3 of it: what is in
 * view, and from the side the rim of the near disc in five points. Returns how many; still is the
 * frame. film_plumb_marks are the two of the post. */
static inline int film_press_marks(const FilmScene *scene, int frame, double mark_px,
                                   PlumbMark mark[FILM_PRESS_MARKS])
{
    double z[2 * FILM_PRESS_MARKS];
    int names;
    int count = 0;
    const PlumbMarkName *const name = film_press_names(scene, &names);
    const double radius = 0.5 * scene->disc_diameter_m;
    plumb_normal_deviates(scene->seed, 200 + (uint64_t)frame, 2 * FILM_PRESS_MARKS, z);
    for (int i = 0; i < names; i++) {
        const bool disc = name[i].landmark == PLUMB_MARK_disc_centre;
        const double sigma = disc ? 0.3 * mark_px : mark_px;
        const double error[2] = {sigma * z[2 * count], sigma * z[2 * count + 1]};
        if (!film_hidden(scene, frame, name[i])) {
            film_press_add(scene, frame, name[i], film_mark(scene, frame, name[i]), error,
                           &mark[count]);
            count++;
        }
    }
    const PlumbMarkName rim = {PLUMB_MARK_disc, PLUMB_NEAR, false};
    const PlumbVec3 centre = film_place(scene, frame, rim);
    for (int i = 0; i < FILM_PRESS_RIM && !film_from_front(scene); i++) {
        const double turn = 2.0 * PLUMB_PI * i / FILM_PRESS_RIM;
        const PlumbVec3 place =
            vec3(centre.x + radius * sin(turn), centre.y + radius * cos(turn), centre.z);
        const double error[2] = {0.3 * mark_px * z[2 * count], 0.3 * mark_px * z[2 * count + 1]};
        film_press_add(scene, frame, rim, film_point(scene, frame, place), error, &mark[count]);
        count++;
    }
    return count;
}

/* Renders, marks in so many of these frames and follows: *read stays for who asks;
 * film_read_free. */
static inline void film_press_follow(FilmRead *read, const FilmScene *scene, const FilmPress *press,
                                     int frames, double mark_px)
{
    int frame[FILM_PRESS_FRAMES];
    int names;
    const PlumbMarkName *const name = film_press_names(scene, &names);
    film_press_frames(scene, press, frame);
    memset(read, 0, sizeof *read);
    read->scene = scene;
    film_render_all(read);
    film_mark_all(read, name, names, frame, frames, mark_px);
    film_follow(read);
}

#endif
