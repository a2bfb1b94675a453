/* SPDX-License-Identifier: MIT */
/* The pictures of a rendered film: wall and floor once, then strokes and discs from far to near,
 * several instants of an open shutter, the lens, the light, the noise. */
#include "film_render.h"

#include "base/vec.h"

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

/* ---- texture: smooth noise of -1 to 1 on a lattice of whole numbers */

static double lattice(int32_t x, int32_t y, uint32_t seed)
{
    uint32_t h = (uint32_t)x * 0x8da6b343u ^ (uint32_t)y * 0xd8163841u ^ seed * 0xcb1ab31fu;
    h = (h ^ h >> 15) * 0x2c1b3c6du;
    h = (h ^ h >> 12) * 0x297a2d39u;
    return (double)(h >> 8) / 8388608.0 - 1.0;
}

static double texture(double x, double y, uint32_t seed)
{
    const double fx = floor(x);
    const double fy = floor(y);
    const int32_t i = (int32_t)fx;
    const int32_t k = (int32_t)fy;
    const double u = (x - fx) * (x - fx) * (3.0 - 2.0 * (x - fx));
    const double v = (y - fy) * (y - fy) * (3.0 - 2.0 * (y - fy));
    const double top = lattice(i, k, seed) * (1.0 - u) + lattice(i + 1, k, seed) * u;
    const double low = lattice(i, k + 1, seed) * (1.0 - u) + lattice(i + 1, k + 1, seed) * u;
    return top * (1.0 - v) + low * v;
}

/* ---- canvas with shake */

typedef struct Canvas {
    const PlumbCamera *camera;
    const FilmShake *shake;
    float *level;
    int width;
    int height;
    int left; /* where the picture's first pixel lies: -MARGIN for the back, 0 for a frame */
} Canvas;

static PlumbVec2 on_canvas(const Canvas *c, PlumbVec3 point)
{
    return film_shaken(c->shake, plumb_camera_project(c->camera, point, NULL));
}

static void blend(const Canvas *c, int x, int y, double cover, double level)
{
    float *const at = &c->level[(ptrdiff_t)(y - c->left) * c->width + (x - c->left)];
    *at += (float)(clamp(cover, 0.0, 1.0) * (level - (double)*at));
}

typedef struct Box {
    int x0, y0, x1, y1;
} Box;

/* The pixels within reach of both points, cut to the canvas. */
static Box box_around(const Canvas *c, PlumbVec2 a, PlumbVec2 b, double reach)
{
    const double low = c->left;
    const double right = c->left + c->width - 1.0;
    const double bottom = c->left + c->height - 1.0;
    return (Box){(int)clamp(floor(fmin(a.x, b.x) - reach), low, right + 1.0),
                 (int)clamp(floor(fmin(a.y, b.y) - reach), low, bottom + 1.0),
                 (int)clamp(ceil(fmax(a.x, b.x) + reach), low - 1.0, right),
                 (int)clamp(ceil(fmax(a.y, b.y) + reach), low - 1.0, bottom)};
}

static double px_per_m(const Canvas *c, PlumbVec3 at)
{
    double depth = 1.0;
    plumb_camera_project(c->camera, at, &depth);
    return c->camera->focal_px / depth;
}

static void draw_stroke(const Canvas *c, const FilmStroke *s)
{
    const PlumbVec2 a = on_canvas(c, s->from);
    const PlumbVec2 b = on_canvas(c, s->to);
    const double ra = s->from_m * px_per_m(c, s->from);
    const double rb = s->to_m * px_per_m(c, s->to);
    const double length_m = vec3_length(vec3_sub(s->to, s->from));
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    const double square = fmax(dx * dx + dy * dy, 1e-9);
    const double length = sqrt(square);
    const Box box = box_around(c, a, b, fmax(ra, rb) + 1.0);
    for (int y = box.y0; y <= box.y1; y++) {
        for (int x = box.x0; x <= box.x1; x++) {
            const double along = ((x - a.x) * dx + (y - a.y) * dy) / square;
            const double u = clamp(along, 0.0, 1.0);
            const double radius = ra + u * (rb - ra);
            const double away = hypot(x - a.x - u * dx, y - a.y - u * dy);
            if (away > radius + 0.5) {
                continue;
            }
            const double across = ((y - a.y) * dx - (x - a.x) * dy) / length / radius;
            const double edge = away / radius;
            const double cloth =
                28.0 * texture(along * length_m / 0.035, across * s->from_m / 0.035, s->seed);
            blend(c, x, y, radius + 0.5 - away, s->level * (1.05 - 0.3 * edge * edge) + cloth);
        }
    }
}

static void draw_dot(const Canvas *c, PlumbVec3 at, double radius_m)
{
    const PlumbVec2 p = on_canvas(c, at);
    const double scale = px_per_m(c, at);
    const double outer = radius_m * scale;
    const Box box = box_around(c, p, p, outer + 1.0);
    for (int y = box.y0; y <= box.y1; y++) {
        for (int x = box.x0; x <= box.x1; x++) {
            const double away = hypot(x - p.x, y - p.y);
            blend(c, x, y, outer + 0.5 - away, 245.0);
            blend(c, x, y, 0.55 * outer + 0.5 - away, 12.0);
        }
    }
}

/* Rim, blotches as of letters, a ring and a hub; r_frac of the radius. */
static double disc_level(double x_m, double y_m, double r_frac)
{
    const double blotch = texture(x_m / 0.045, y_m / 0.045, 7) > 0.15 ? 75.0 : 0.0;
    const double ring = 60.0 * exp(-pow((r_frac - 0.5) / 0.05, 2.0));
    const double hub = r_frac < 0.16 ? 110.0 : 0.0;
    const double rim = r_frac > 0.92 ? 25.0 : 0.0;
    return 38.0 + fmax(fmax(hub, ring), fmax(rim, r_frac < 0.9 && r_frac > 0.2 ? blotch : 0.0));
}

static void draw_disc(const Canvas *c, const FilmScene *scene, PlumbVec3 centre)
{
    const double radius = 0.5 * scene->disc_diameter_m;
    if (film_from_front(scene)) { /* seen from its edge */
        const FilmStroke edge = {.from = vec3(centre.x, centre.y - radius + 0.03, centre.z),
                                 .to = vec3(centre.x, centre.y + radius - 0.03, centre.z),
                                 .from_m = 0.03,
                                 .to_m = 0.03,
                                 .level = 50.0,
                                 .seed = 8};
        draw_stroke(c, &edge);
        return;
    }
    const double scale = px_per_m(c, centre);
    const PlumbVec2 p = on_canvas(c, centre);
    const Box box = box_around(c, p, p, 1.15 * radius * scale + 2.0);
    for (int y = box.y0; y <= box.y1; y++) {
        for (int x = box.x0; x <= box.x1; x++) {
            const PlumbVec2 still = film_unshaken(c->shake, (PlumbVec2){x, y});
            const PlumbVec3 at = plumb_camera_meet(c->camera, still, centre.z, NULL);
            const double r = hypot(at.x - centre.x, at.y - centre.y);
            const double cover = (radius - r) * scale + 0.5;
            if (cover > 0.0) {
                blend(c, x, y, cover, disc_level(at.x - centre.x, at.y - centre.y, r / radius));
            }
        }
    }
}

/* Of a press, whose discs are seen from all around: as thick as they are, ray by ray, the edge from
 * 3 x 3 rays. */
static void draw_solid_disc(const Canvas *c, const FilmScene *scene, PlumbVec3 centre)
{
    enum { FINE = 3 };
    const double radius = 0.5 * scene->disc_diameter_m;
    const PlumbVec2 p = on_canvas(c, centre);
    const Box box = box_around(c, p, p, 1.15 * radius * px_per_m(c, centre) + 2.0);
    for (int y = box.y0; y <= box.y1; y++) {
        for (int x = box.x0; x <= box.x1; x++) {
            double sum = 0.0;
            int met = 0;
            for (int k = 0; k < FINE * FINE; k++) {
                const PlumbVec2 at = {x + (k % FINE + 0.5) / FINE - 0.5,
                                      y + ((double)(k / FINE) + 0.5) / FINE - 0.5};
                const FilmRay ray = film_ray(c->camera, film_unshaken(c->shake, at));
                FilmMeet meet;
                if (film_disc_meet(ray, centre, radius, &meet)) {
                    const double r = hypot(meet.at.x, meet.at.y) / radius;
                    sum += meet.face ? disc_level(meet.at.x, meet.at.y, r) : 50.0;
                    met++;
                }
            }
            if (met > 0) {
                blend(c, x, y, (double)met / (FINE * FINE), sum / met);
            }
        }
    }
}

/* ---- wall, floor and the post behind */

static double back_level(const PlumbCamera *level_camera, PlumbVec2 pixel)
{
    const PlumbVec3 wall = plumb_camera_meet(level_camera, pixel, -wall_m, NULL);
    if (wall.y >= 0.0) {
        const double board = wall.y < 0.12 ? -35.0 : 0.0;
        return 150.0 + board + 34.0 * texture(wall.x / 0.55, wall.y / 0.55, 11) +
               22.0 * texture(wall.x / 0.13, wall.y / 0.13, 12);
    }
    const double h = level_camera->height_m;
    const double share = h / (h - wall.y);
    const double x = wall.x * share;
    const double w = level_camera->distance_m - (level_camera->distance_m + wall_m) * share;
    return 95.0 + 20.0 * texture(x / 0.4, w / 0.4, 13) + 14.0 * texture(x / 0.1, w / 0.1, 14);
}

static void paint_back(FilmRender *r)
{
    static const FilmShake still = {.cos = 1.0};
    const FilmScene *const s = r->scene;
    const Canvas c = {
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
    draw_stroke(&c, &post);
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

static void draw_stickers(const Canvas *c, const FilmScene *scene, const PlumbPosition *p)
{
    static const PlumbPoint joints[] = {PLUMB_PT_ankle,    PLUMB_PT_knee,  PLUMB_PT_hip,
                                        PLUMB_PT_shoulder, PLUMB_PT_elbow, PLUMB_PT_wrist};
    const double side = film_camera_side(scene);
    const bool both = scene->bench != NULL && film_from_front(scene);
    for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++) {
        PlumbVec3 at = p->point[joints[i]];
        at.z *= side;
        draw_dot(c, at, 0.03);
        at.z = -at.z;
        if (both) {
            draw_dot(c, at, 0.03);
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

static void draw_figure(const Canvas *c, const FilmScene *s, const PlumbPosition *p)
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
            draw_stroke(c, &items.item[i].stroke);
        } else if (s->bench != NULL) {
            draw_solid_disc(c, s, items.item[i].stroke.from);
        } else {
            draw_disc(c, s, items.item[i].stroke.from);
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
    const Canvas c = {&s->camera, &shake, r->canvas, s->width_px, s->height_px, 0};
    PlumbPosition p;
    s->at(s->motion, t_s, &p);
    copy_back(r, &shake);
    draw_figure(&c, s, &p);
    if (!isnan(s->post_x_m)) {
        const FilmStroke post = film_front_post(s);
        draw_stroke(&c, &post);
    }
    if (t_s >= s->hide_from_s && t_s < s->hide_to_s) {
        const PlumbVec3 bar = p.point[PLUMB_PT_bar];
        const double z = 0.95 * film_camera_side(s);
        const FilmStroke body = {
            vec3(bar.x, bar.y - 0.2, z), vec3(bar.x, bar.y + 0.2, z), 0.24, 0.24, 105.0, 70};
        draw_stroke(&c, &body);
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
