/* SPDX-License-Identifier: MIT */
/* A frame of a rendered film, looked at. After support.h. */
#ifndef PLUMBAR_TESTS_FILM_LOOK_H
#define PLUMBAR_TESTS_FILM_LOOK_H

#include "film_render.h"

#include "base/vec.h"

#include <stdlib.h>

/* One frame; to be freed. */
static inline uint8_t *film_rendered(const FilmScene *scene, int i)
{
    uint8_t *const level = malloc((size_t)scene->width_px * (size_t)scene->height_px);
    assert_non_null(level);
    FilmRender *const render = film_render_open(scene);
    film_render_frame(render, i, level);
    film_render_close(render);
    return level;
}

/* Centre of weight of how far levels within radius of at lie from `from`. */
static inline PlumbVec2 film_centre_near(const FilmScene *scene, const uint8_t *level, PlumbVec2 at,
                                         double radius, double from)
{
    double sum = 0.0;
    PlumbVec2 centre = {0.0, 0.0};
    for (int y = (int)(at.y - radius); y <= (int)(at.y + radius) + 1; y++) {
        for (int x = (int)(at.x - radius); x <= (int)(at.x + radius) + 1; x++) {
            if (hypot(x - at.x, y - at.y) < radius) {
                const double w = fabs(level[(ptrdiff_t)y * scene->width_px + x] - from);
                sum += w;
                centre.x += w * x;
                centre.y += w * y;
            }
        }
    }
    return (PlumbVec2){centre.x / sum, centre.y / sum};
}

#endif
