/* SPDX-License-Identifier: MIT */
/* The pictures of a rendered film: wall and floor once, then strokes and discs from far to near,
 * several instants of an open shutter, the lens, the light, the noise. */
#include "film_render.h"

#include "base/vec.h"

#include "film_canvas.h"
#include "film_figure.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
    MARGIN = 64, /* of the wall and floor around the picture, for a hand that shakes */
    INSTANTS = 4 /* of an open shutter */
};

static const double wall_m = 2.5; /* behind the lifter */

struct FilmRender {
    const FilmScene *scene;
    float *back; /* with margins */
    float *canvas;
    float *sum;
};

/* ---- wall, floor and the post behind */

static double back_level(const PlumbCamera *level_camera, PlumbVec2 pixel)
{
    const PlumbVec3 wall = plumb_camera_meet(level_camera, pixel, -wall_m, NULL);
    if (wall.y >= 0.0) {
        const double board = wall.y < 0.12 ? -35.0 : 0.0;
        return 150.0 + board + 34.0 * film_texture(wall.x / 0.55, wall.y / 0.55, 11) +
               22.0 * film_texture(wall.x / 0.13, wall.y / 0.13, 12);
    }
    const double h = level_camera->height_m;
    const double share = h / (h - wall.y);
    const double x = wall.x * share;
    const double w = level_camera->distance_m - (level_camera->distance_m + wall_m) * share;
    return 95.0 + 20.0 * film_texture(x / 0.4, w / 0.4, 13) +
           14.0 * film_texture(x / 0.1, w / 0.1, 14);
}

static void paint_back(FilmRender *r)
{
    static const FilmShake still = {.cos = 1.0};
    const FilmScene *const s = r->scene;
    const FilmCanvas c = {
        &s->camera, &still, r->back, s->width_px + 2 * MARGIN, s->height_px + 2 * MARGIN, -MARGIN};
    PlumbCamera level_camera = s->camera; /* the wall is square to it */
    level_camera.yaw_rad = 0.0;
    level_camera.along_m = 0.0;
    for (int y = 0; y < c.height; y++) {
        for (int x = 0; x < c.width; x++) {
            c.level[(ptrdiff_t)y * c.width + x] =
                (float)back_level(&level_camera, (PlumbVec2){x - MARGIN, y - MARGIN});
        }
    }
    const FilmStroke post = {.from = film_back_post(s, 0.0),
                             .to = film_back_post(s, 2.3),
                             .from_m = 0.035,
                             .to_m = 0.035,
                             .level = 60.0,
                             .seed = 15};
    film_draw_stroke(&c, &post);
}

static void copy_back(const FilmRender *r, const FilmShake *shake)
{
    const FilmScene *const s = r->scene;
    const int stride = s->width_px + 2 * MARGIN;
    for (int y = 0; y < s->height_px; y++) {
        float *const to = r->canvas + (ptrdiff_t)y * s->width_px;
        if (s->shake_px <= 0.0) {
            memcpy(to, r->back + (ptrdiff_t)(y + MARGIN) * stride + MARGIN,
                   (size_t)s->width_px * sizeof *to);
            continue;
        }
        for (int x = 0; x < s->width_px; x++) {
            const PlumbVec2 p = film_unshaken(shake, (PlumbVec2){x, y});
            const double u = clamp(p.x + MARGIN, 0.0, stride - 1.001);
            const double v = clamp(p.y + MARGIN, 0.0, s->height_px + 2 * MARGIN - 1.001);
            const int i = (int)u;
            const int k = (int)v;
            const float *const at = r->back + (ptrdiff_t)k * stride + i;
            const double fu = u - i;
            const double top = (double)at[0] * (1.0 - fu) + (double)at[1] * fu;
            const double low = (double)at[stride] * (1.0 - fu) + (double)at[stride + 1] * fu;
            to[x] = (float)(top + (v - k) * (low - top));
        }
    }
}

/* ---- an instant */

static void draw_stickers(const FilmCanvas *c, const FilmScene *scene, const PlumbPosition *p)
{
    static const PlumbPoint joints[] = {PLUMB_PT_ankle,    PLUMB_PT_knee,  PLUMB_PT_hip,
                                        PLUMB_PT_shoulder, PLUMB_PT_elbow, PLUMB_PT_wrist};
    const double side = film_camera_side(scene);
    const bool both = scene->bench != NULL && film_from_front(scene);
    for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++) {
        PlumbVec3 at = p->point[joints[i]];
        at.z *= side;
        film_draw_dot(c, at, 0.03);
        at.z = -at.z;
        if (both) {
            film_draw_dot(c, at, 0.03);
        }
    }
}

/* Stickers lie on the limbs, but behind the near disc; at the ends of a bench before all. */
static double stickers_depth(const FilmScene *scene, const PlumbPosition *p)
{
    double depth = 0.0;
    if (scene->bench == NULL || !film_from_front(scene)) {
        const PlumbVec3 bar = p->point[PLUMB_PT_bar];
        plumb_camera_project(&scene->camera, vec3(bar.x, bar.y, 0.6 * film_camera_side(scene)),
                             &depth);
    }
    return depth;
}

static void draw_figure(const FilmCanvas *c, const FilmScene *s, const PlumbPosition *p)
{
    FilmItems items;
    film_figure(s, p, &items);
    const double dots_depth = stickers_depth(s, p);
    bool dotted = !s->stickers;
    for (int i = 0; i < items.count; i++) {
        if (!dotted && items.item[i].depth < dots_depth) {
            draw_stickers(c, s, p);
            dotted = true;
        }
        if (!items.item[i].disc) {
            film_draw_stroke(c, &items.item[i].stroke);
        } else {
            film_draw_disc(c, s, items.item[i].stroke.from);
        }
    }
    if (!dotted) {
        draw_stickers(c, s, p);
    }
}

static void draw_instant(const FilmRender *r, double t_s)
{
    const FilmScene *const s = r->scene;
    const FilmShake shake = film_shake(s, t_s);
    const FilmCanvas c = {&s->camera, &shake, r->canvas, s->width_px, s->height_px, 0};
    PlumbPosition p;
    s->at(s->motion, t_s, &p);
    copy_back(r, &shake);
    draw_figure(&c, s, &p);
    if (!isnan(s->post_x_m)) {
        const FilmStroke post = film_front_post(s);
        film_draw_stroke(&c, &post);
    }
    if (t_s >= s->hide_from_s && t_s < s->hide_to_s) {
        const PlumbVec3 bar = p.point[PLUMB_PT_bar];
        const double z = 0.95 * film_camera_side(s);
        const FilmStroke body = {
            vec3(bar.x, bar.y - 0.2, z), vec3(bar.x, bar.y + 0.2, z), 0.24, 0.24, 105.0, 70};
        film_draw_stroke(&c, &body);
    }
}

/* ---- lens, light, noise */

static void blur_line(const float *from, ptrdiff_t step, int count, const double *weight, int reach,
                      float *to)
{
    for (int i = 0; i < count; i++) {
        double sum = weight[0] * (double)from[i * step];
        for (int k = 1; k <= reach; k++) {
            const int low = i - k < 0 ? 0 : i - k;
            const int high = i + k >= count ? count - 1 : i + k;
            sum += weight[k] * ((double)from[low * step] + (double)from[high * step]);
        }
        to[i] = (float)sum;
    }
}

static void blur(FilmRender *r, float *picture)
{
    enum { REACH_MAX = 16 };
    const FilmScene *const s = r->scene;
    const int reach = (int)fmin(ceil(3.0 * s->blur_px), REACH_MAX);
    double weight[REACH_MAX + 1];
    double sum = 0.0;
    for (int k = 0; k <= reach; k++) {
        weight[k] = exp(-0.5 * k * k / (s->blur_px * s->blur_px));
        sum += k == 0 ? weight[k] : 2.0 * weight[k];
    }
    for (int k = 0; k <= reach; k++) {
        weight[k] /= sum;
    }
    float *const line = r->canvas; /* no longer needed */
    for (int y = 0; y < s->height_px; y++) {
        float *const row = picture + (ptrdiff_t)y * s->width_px;
        blur_line(row, 1, s->width_px, weight, reach, line);
        memcpy(row, line, (size_t)s->width_px * sizeof *row);
    }
    for (int x = 0; x < s->width_px; x++) {
        blur_line(picture + x, s->width_px, s->height_px, weight, reach, line);
        for (int y = 0; y < s->height_px; y++) {
            picture[(ptrdiff_t)y * s->width_px + x] = line[y];
        }
    }
}

/* About normal, variance 1: four even numbers added. */
static double noise(uint64_t *state)
{
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    const uint64_t n = *state;
    const double sum = (double)((n & 0xffff) + (n >> 16 & 0xffff) + (n >> 32 & 0xffff) + (n >> 48));
    return (sum / 65535.0 - 2.0) * sqrt(3.0);
}

static void expose(const FilmRender *r, int i, uint8_t *level)
{
    const FilmScene *const s = r->scene;
    uint64_t state = (s->seed * 1000003u + (uint64_t)i + 1u) * 0x9e3779b97f4a7c15u;
    for (int y = 0; y < s->height_px; y++) {
        for (int x = 0; x < s->width_px; x++) {
            const ptrdiff_t at = (ptrdiff_t)y * s->width_px + x;
            const double light = 1.0 + s->light_frac * (2.0 * x / s->width_px - 1.0);
            const double v = (double)r->sum[at] * light + s->noise_levels * noise(&state);
            level[at] = (uint8_t)(clamp(v, 0.0, 255.0) + 0.5);
        }
    }
}

void film_render_frame(FilmRender *render, int i, uint8_t *level)
{
    const FilmScene *const s = render->scene;
    const size_t count = (size_t)s->width_px * (size_t)s->height_px;
    const int instants = s->exposure_frac > 0.0 ? INSTANTS : 1;
    memset(render->sum, 0, count * sizeof *render->sum);
    for (int k = 0; k < instants; k++) {
        const double off = ((k + 0.5) / instants - 0.5) * s->exposure_frac / s->rate_per_s;
        draw_instant(render, film_time_s(s, i) + off);
        for (size_t at = 0; at < count; at++) {
            render->sum[at] += render->canvas[at] / (float)instants;
        }
    }
    if (s->blur_px > 0.0) {
        blur(render, render->sum);
    }
    expose(render, i, level);
}

FilmRender *film_render_open(const FilmScene *scene)
{
    const size_t count = (size_t)scene->width_px * (size_t)scene->height_px;
    const size_t wide =
        (size_t)(scene->width_px + 2 * MARGIN) * (size_t)(scene->height_px + 2 * MARGIN);
    FilmRender *const r = calloc(1, sizeof *r);
    if (r != NULL) {
        *r = (FilmRender){scene, calloc(wide, sizeof(float)), calloc(count, sizeof(float)),
                          calloc(count, sizeof(float))};
    }
    if (r == NULL || r->back == NULL || r->canvas == NULL || r->sum == NULL) {
        fprintf(stderr, "no memory for a film\n");
        exit(1);
    }
    paint_back(r);
    return r;
}

void film_render_close(FilmRender *render)
{
    free(render->back);
    free(render->canvas);
    free(render->sum);
    free(render);
}
