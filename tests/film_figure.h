/* SPDX-License-Identifier: MIT */
/* The figure of a rendered film as strokes and discs in space: what is drawn from far to near, and
 * what hides what. */
#ifndef PLUMBAR_TESTS_FILM_FIGURE_H
#define PLUMBAR_TESTS_FILM_FIGURE_H

#include "film_shake.h"

enum { FILM_ITEMS = 48 };

typedef struct FilmItem {
    FilmStroke stroke; /* of a disc, its centre: both ends */
    bool disc;
    double depth; /* of its middle along the optical axis */
} FilmItem;

/* From far to near. */
typedef struct FilmItems {
    FilmItem item[FILM_ITEMS];
    int count;
} FilmItems;

void film_figure(const FilmScene *scene, const PlumbPosition *position, FilmItems *items);
/* Whether something of the figure, a disc or the bench stands between a place and the lens: what is
 * further from it than the thickness of a joint's own flesh. */
bool film_figure_hides(const FilmScene *scene, const PlumbPosition *position, PlumbVec3 place);

/* From a point on, a length of `way` for one unit. */
typedef struct FilmRay {
    PlumbVec3 from;
    PlumbVec3 way;
} FilmRay;

/* From the lens through a pixel of a steady camera, one unit for a metre along the optical axis: so
 * that its way moves evenly with the pixel. */
FilmRay film_ray(const PlumbCamera *camera, PlumbVec2 pixel);

/* Where a ray comes upon a disc as thick as it is. */
typedef struct FilmMeet {
    double share; /* of the ray's way */
    bool face;    /* else the rim */
    PlumbVec2 at; /* face: from the centre, in its middle plane */
} FilmMeet;

bool film_disc_meet(FilmRay ray, PlumbVec3 centre, double radius_m, FilmMeet *meet);

#endif
