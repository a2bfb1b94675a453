/* SPDX-License-Identifier: MIT */
/* The picture that a rendered film draws on, with its shake. */
#ifndef PLUMBAR_TESTS_FILM_CANVAS_H
#define PLUMBAR_TESTS_FILM_CANVAS_H

#include "film_shake.h"

typedef struct FilmCanvas {
    const PlumbCamera *camera;
    const FilmShake *shake;
    float *level;
    int width;
    int height;
    int left; /* where the picture's first pixel lies: less than 0 for one with margins */
} FilmCanvas;

/* Smooth noise of -1 to 1 on a lattice of whole numbers. */
double film_texture(double x, double y, uint32_t seed);
void film_draw_stroke(const FilmCanvas *c, const FilmStroke *s);
/* A sticker. */
void film_draw_dot(const FilmCanvas *c, PlumbVec3 at, double radius_m);
/* A disc: of a press as thick as it is, else a plane one, or its edge from the front. */
void film_draw_disc(const FilmCanvas *c, const FilmScene *scene, PlumbVec3 centre);

#endif
