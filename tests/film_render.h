/* SPDX-License-Identifier: MIT */
/* Films whose truth is known: our own figure with bar and discs before a wall and on a floor, in a
 * known motion, through a true perspective camera, with what real films have: noise, blur, uneven
 * light, things in the way, a hand that shakes. */
#ifndef PLUMBAR_TESTS_FILM_RENDER_H
#define PLUMBAR_TESTS_FILM_RENDER_H

#include <plumbar/camera.h>
#include <plumbar/gray.h>
#include <plumbar/marks.h>
#include <plumbar/solve.h>

#include <stdbool.h>
#include <stdint.h>

/* Where the figure is at t_s, s. */
typedef void (*FilmAt)(const void *motion, double t_s, PlumbPosition *position);

/* A lift as the model has it: rest, a squat's way down, the way up by the minimum-jerk law, rest.
 */
typedef struct FilmLift {
    PlumbLifter lifter;
    PlumbAnswer answer;
    double rest_s;
    double down_s; /* squat only; 0 for a pull */
    double up_s;
    double hold_s;
} FilmLift;

/* The default lifter's default set-up: 0.5 s rest, 1.2 s down, 1.0 s up, 0.5 s rest. Ends the test
 * where it does not hold. */
FilmLift film_lift(PlumbLift lift);
double film_lift_length_s(const FilmLift *lift);
/* When the way up begins and ends, s. */
double film_lift_begin_s(const FilmLift *lift);
double film_lift_end_s(const FilmLift *lift);
/* A FilmAt. */
void film_lift_at(const void *lift, double t_s, PlumbPosition *position);

/* A thick tapered line in space. */
typedef struct FilmStroke {
    PlumbVec3 from;
    PlumbVec3 to;
    double from_m; /* radius */
    double to_m;
    double level;
    uint32_t seed; /* of its texture */
} FilmStroke;

enum { FILM_BENCH_STROKES = 12, FILM_TRUNK_STROKES = 6 };

/* What lies still in a press: the bench, and the trunk on it. */
typedef struct FilmBench {
    FilmStroke bench[FILM_BENCH_STROKES];
    FilmStroke trunk[FILM_TRUNK_STROKES];
    int bench_count;
    int trunk_count;
} FilmBench;

typedef struct FilmScene {
    FilmAt at;
    const void *motion;
    const FilmBench *bench; /* NULL: the lifter stands */
    double disc_diameter_m;
    PlumbCamera camera; /* steady; shake comes on top */
    int width_px;
    int height_px;
    double rate_per_s;
    double length_s;
    double noise_levels;  /* standard deviation of each pixel */
    double blur_px;       /* standard deviation of the lens's blur */
    double exposure_frac; /* share of the time between frames that the shutter is open */
    double light_frac;    /* how much brighter the right edge is than the middle, the left darker */
    double shake_px;      /* standard deviation of the picture's place, each way; rolls a little */
    double post_x_m;      /* an upright post 30 cm before the near disc; NaN: none */
    double hide_from_s;   /* somebody passes before the disc; from = to: nobody */
    double hide_to_s;
    bool stickers; /* dark dots in a light ring on the near side's joints */
    uint64_t seed;
} FilmScene;

/* 720p, 30 frames a second, 5 m away at hip height, square to the bar; clean but for 2 levels of
 * noise, half a pixel of blur and a shutter of a quarter. */
FilmScene film_scene(const FilmLift *lift);
/* The same of any motion, which is borrowed. */
FilmScene film_scene_of(FilmAt at, const void *motion, const PlumbLifter *lifter, double length_s);

/* Whether the camera stands before the lifter, or at an end of the bench: discs are then seen from
 * their edge. */
bool film_from_front(const FilmScene *scene);
int film_count(const FilmScene *scene);
/* Middle of the exposure of frame i. */
double film_time_s(const FilmScene *scene, int i);
/* Where a point of space falls in frame i, shake and all; pixel centres have whole numbers. */
PlumbVec2 film_point(const FilmScene *scene, int i, PlumbVec3 point_m);
/* The place of a landmark at the time of frame i, m. Of a disc, its centre; of plumb, the foot
 * (near) or head (far) of the post behind the lifter. Near is the lifter's right, also from the
 * front, but where the camera stands at the lifter's left. */
PlumbVec3 film_place(const FilmScene *scene, int i, PlumbMarkName name);
/* The same in the picture. */
PlumbVec2 film_mark(const FilmScene *scene, int i, PlumbMarkName name);
/* Whether the disc, the post or somebody hides it; from the front nothing does. In a press: also
 * the lifter and the bench, from all around. */
bool film_hidden(const FilmScene *scene, int i, PlumbMarkName name);

typedef struct FilmRender FilmRender;

/* The scene must stay as it is while it is rendered. */
FilmRender *film_render_open(const FilmScene *scene);
/* Frame i into level[height_px * width_px]; any order gives the same. */
void film_render_frame(FilmRender *render, int i, uint8_t *level);
void film_render_close(FilmRender *render);

#endif
