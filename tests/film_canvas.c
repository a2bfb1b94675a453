/* SPDX-License-Identifier: MIT */
/* Strokes, dots and discs of a rendered film on a picture, with their textures. */
#include "film_canvas.h"

#include "base/vec.h"

#include "film_figure.h"

#include <stddef.h>

static double lattice(int32_t x, int32_t y, uint32_t seed)
{
    uint32_t h = (uint32_t)x * 0x8da6b343u ^ (uint32_t)y * 0xd8163841u ^ seed * 0xcb1ab31fu;
    h = (h ^ h >> 15) * 0x2c1b3c6du;
    h = (h ^ h >> 12) * 0x297a2d39u;
    return (double)(h >> 8) / 8388608.0 - 1.0;
}

double film_texture(double x, double y, uint32_t seed)
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

static PlumbVec2 on_canvas(const FilmCanvas *c, PlumbVec3 point)
{
    return film_shaken(c->shake, plumb_camera_project(c->camera, point, NULL));
}

static void blend(const FilmCanvas *c, int x, int y, double cover, double level)
{
    float *const at = &c->level[(ptrdiff_t)(y - c->left) * c->width + (x - c->left)];
    *at += (float)(clamp(cover, 0.0, 1.0) * (level - (double)*at));
}

typedef struct Box {
    int x0, y0, x1, y1;
} Box;

/* The pixels within reach of both points, cut to the canvas. */
static Box box_around(const FilmCanvas *c, PlumbVec2 a, PlumbVec2 b, double reach)
{
    const double low = c->left;
    const double right = c->left + c->width - 1.0;
    const double bottom = c->left + c->height - 1.0;
    return (Box){(int)clamp(floor(fmin(a.x, b.x) - reach), low, right + 1.0),
                 (int)clamp(floor(fmin(a.y, b.y) - reach), low, bottom + 1.0),
                 (int)clamp(ceil(fmax(a.x, b.x) + reach), low - 1.0, right),
                 (int)clamp(ceil(fmax(a.y, b.y) + reach), low - 1.0, bottom)};
}

static double px_per_m(const FilmCanvas *c, PlumbVec3 at)
{
    double depth = 1.0;
    plumb_camera_project(c->camera, at, &depth);
    return c->camera->focal_px / depth;
}

void film_draw_stroke(const FilmCanvas *c, const FilmStroke *s)
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
                28.0 * film_texture(along * length_m / 0.035, across * s->from_m / 0.035, s->seed);
            blend(c, x, y, radius + 0.5 - away, s->level * (1.05 - 0.3 * edge * edge) + cloth);
        }
    }
}

void film_draw_dot(const FilmCanvas *c, PlumbVec3 at, double radius_m)
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
    const double blotch = film_texture(x_m / 0.045, y_m / 0.045, 7) > 0.15 ? 75.0 : 0.0;
    const double ring = 60.0 * exp(-pow((r_frac - 0.5) / 0.05, 2.0));
    const double hub = r_frac < 0.16 ? 110.0 : 0.0;
    const double rim = r_frac > 0.92 ? 25.0 : 0.0;
    return 38.0 + fmax(fmax(hub, ring), fmax(rim, r_frac < 0.9 && r_frac > 0.2 ? blotch : 0.0));
}

static void draw_flat(const FilmCanvas *c, const FilmScene *scene, PlumbVec3 centre)
{
    const double radius = 0.5 * scene->disc_diameter_m;
    if (film_from_front(scene)) { /* seen from its edge */
        const FilmStroke edge = {.from = vec3(centre.x, centre.y - radius + 0.03, centre.z),
                                 .to = vec3(centre.x, centre.y + radius - 0.03, centre.z),
                                 .from_m = 0.03,
                                 .to_m = 0.03,
                                 .level = 50.0,
                                 .seed = 8};
        film_draw_stroke(c, &edge);
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

/* The ray of a pixel that shakes. */
static FilmRay ray_of(const FilmCanvas *c, double x, double y)
{
    return film_ray(c->camera, film_unshaken(c->shake, (PlumbVec2){x, y}));
}

/* What the rays of a part of a pixel come upon. */
typedef struct Shares {
    int rays;
    int faces;
    int rims;
    PlumbVec2 sum; /* of where they meet the face */
} Shares;

static void add_ray(Shares *shares, FilmRay ray, PlumbVec3 centre, double radius_m)
{
    FilmMeet meet;
    shares->rays++;
    if (film_disc_meet(ray, centre, radius_m, &meet)) {
        shares->faces += meet.face;
        shares->rims += !meet.face;
        shares->sum = (PlumbVec2){shares->sum.x + meet.at.x, shares->sum.y + meet.at.y};
    }
}

/* Of a press, whose discs are seen from all around: as thick as they are. Four rays a pixel, nine
 * where these do not agree. */
static void draw_solid(const FilmCanvas *c, const FilmScene *scene, PlumbVec3 centre)
{
    static const double off[9][2] = {{-1.0, -1.0}, {1.0, -1.0}, {-1.0, 1.0}, {1.0, 1.0}, {0.0, 0.0},
                                     {0.0, -1.0},  {0.0, 1.0},  {-1.0, 0.0}, {1.0, 0.0}};
    const double radius = 0.5 * scene->disc_diameter_m;
    const PlumbVec2 p = on_canvas(c, centre);
    const Box box = box_around(c, p, p, 1.15 * radius * px_per_m(c, centre) + 2.0);
    const FilmRay first = ray_of(c, box.x0, box.y0);
    const PlumbVec3 right = vec3_sub(ray_of(c, box.x0 + 1.0, box.y0).way, first.way);
    const PlumbVec3 down = vec3_sub(ray_of(c, box.x0, box.y0 + 1.0).way, first.way);
    for (int y = box.y0; y <= box.y1; y++) {
        for (int x = box.x0; x <= box.x1; x++) {
            Shares s = {0};
            for (int k = 0; k < 9; k++) {
                const double u = x - box.x0 + off[k][0] / 3.0;
                const double v = y - box.y0 + off[k][1] / 3.0;
                add_ray(&s,
                        (FilmRay){first.from, vec3_along(vec3_along(first.way, u, right), v, down)},
                        centre, radius);
                if (k == 3 && (s.faces == 4 || s.rims == 4 || s.faces + s.rims == 0)) {
                    break;
                }
            }
            if (s.faces > 0) {
                const PlumbVec2 at = {s.sum.x / s.faces, s.sum.y / s.faces};
                blend(c, x, y, (double)s.faces / (s.rays - s.rims),
                      disc_level(at.x, at.y, hypot(at.x, at.y) / radius));
            }
            blend(c, x, y, (double)s.rims / s.rays, 50.0);
        }
    }
}

void film_draw_disc(const FilmCanvas *c, const FilmScene *scene, PlumbVec3 centre)
{
    if (scene->bench != NULL) {
        draw_solid(c, scene, centre);
    } else {
        draw_flat(c, scene, centre);
    }
}
