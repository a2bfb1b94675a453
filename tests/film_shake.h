/* SPDX-License-Identifier: MIT */
/* What the truth of a rendered film and its pictures share: the shake, and strokes in space. */
#ifndef PLUMBAR_TESTS_FILM_SHAKE_H
#define PLUMBAR_TESTS_FILM_SHAKE_H

#include "film_render.h"

/* A turn about the picture's centre, then a shift. */
typedef struct FilmShake {
    PlumbVec2 centre;
    PlumbVec2 shift;
    double cos;
    double sin;
} FilmShake;

FilmShake film_shake(const FilmScene *scene, double t_s);
PlumbVec2 film_shaken(const FilmShake *shake, PlumbVec2 p);
PlumbVec2 film_unshaken(const FilmShake *shake, PlumbVec2 p);

/* A thick tapered line in space. */
typedef struct FilmStroke {
    PlumbVec3 from;
    PlumbVec3 to;
    double from_m; /* radius */
    double to_m;
    double level;
    uint32_t seed; /* of its texture */
} FilmStroke;

/* A point of the post behind the lifter. */
PlumbVec3 film_back_post(double height_m);
/* The post before the near disc. */
FilmStroke film_front_post(const FilmScene *scene);

#endif
