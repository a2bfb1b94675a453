/* SPDX-License-Identifier: MIT */
/* What the truth of a rendered film and its pictures share: the shake, and things in space. */
#ifndef PLUMBAR_TESTS_FILM_SHAKE_H
#define PLUMBAR_TESTS_FILM_SHAKE_H

#include "film_render.h"

/* The discs, either side of the middle. */
static const double film_disc_z_m = 0.70;

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

/* A point of the post behind the lifter. */
PlumbVec3 film_back_post(const FilmScene *scene, double height_m);
/* -1 where the camera stands at the lifter's left, 1 at the right, before the lifter or behind. */
double film_camera_side(const FilmScene *scene);
/* The post before the near disc. */
FilmStroke film_front_post(const FilmScene *scene);

#endif
