/* SPDX-License-Identifier: MIT */
/* The figure of a rendered film in space: limbs, trunk, head, bar and discs, and the bench. */
#include "film_figure.h"

#include "base/vec.h"

static const double disc_half_m = 0.0125; /* half a disc's thickness */
static const double flesh_m = 0.12;       /* what is so near to a joint is its own */

typedef struct Limb {
    PlumbPoint from;
    PlumbPoint to;
    double from_m;
    double to_m;
    double level;
    bool middle; /* in the middle plane, once */
} Limb;

static const Limb limbs[] = {
    {PLUMB_PT_heel, PLUMB_PT_toe, 0.045, 0.030, 45.0, false},
    {PLUMB_PT_heel, PLUMB_PT_ankle, 0.045, 0.045, 45.0, false},
    {PLUMB_PT_ankle, PLUMB_PT_knee, 0.045, 0.060, 190.0, false},
    {PLUMB_PT_knee, PLUMB_PT_hip, 0.062, 0.090, 70.0, false},
    {PLUMB_PT_hip, PLUMB_PT_lumbar, 0.105, 0.110, 75.0, true},
    {PLUMB_PT_lumbar, PLUMB_PT_shoulder, 0.110, 0.125, 125.0, true},
    {PLUMB_PT_shoulder, PLUMB_PT_elbow, 0.050, 0.042, 185.0, false},
    {PLUMB_PT_elbow, PLUMB_PT_wrist, 0.040, 0.028, 195.0, false},
    {PLUMB_PT_wrist, PLUMB_PT_grip, 0.035, 0.035, 185.0, false},
};

/* behind_m: drawn as if it stood so much further away. */
static void add(FilmItems *items, const FilmScene *scene, FilmStroke stroke, bool disc,
                double behind_m)
{
    double depth = 0.0;
    plumb_camera_project(&scene->camera, vec3_between(stroke.from, stroke.to, 0.5), &depth);
    depth += behind_m;
    int at = items->count++;
    for (; at > 0 && items->item[at - 1].depth < depth; at--) {
        items->item[at] = items->item[at - 1];
    }
    items->item[at] = (FilmItem){stroke, disc, depth};
}

static void add_limbs(FilmItems *items, const FilmScene *scene, const PlumbPosition *p)
{
    for (size_t i = 0; i < sizeof limbs / sizeof limbs[0]; i++) {
        const Limb *const l = &limbs[i];
        if (l->middle && scene->bench != NULL) {
            continue;
        }
        for (int side = 0; side < (l->middle ? 1 : 2); side++) {
            PlumbVec3 from = p->point[l->from];
            PlumbVec3 to = p->point[l->to];
            from.z = l->middle ? 0.0 : side == 0 ? from.z : -from.z;
            to.z = l->middle ? 0.0 : side == 0 ? to.z : -to.z;
            const double dim = side == 0 ? 1.0 : 0.85;
            add(items, scene,
                (FilmStroke){from, to, l->from_m, l->to_m, dim * l->level,
                             (uint32_t)(20 + 2 * i) + (uint32_t)side},
                false, 0.0);
        }
    }
    PlumbVec3 neck = p->point[PLUMB_PT_shoulder];
    neck.z = 0.0;
    const PlumbVec3 low = vec3_between(neck, p->head_top, 0.5);
    const PlumbVec3 high = vec3_between(neck, p->head_top, 0.75);
    add(items, scene, (FilmStroke){neck, low, 0.06, 0.06, 180.0, 50}, false, 0.0);
    add(items, scene, (FilmStroke){low, high, 0.085, 0.085, 110.0, 51}, false, 0.0);
}

static void add_bar(FilmItems *items, const FilmScene *scene, const PlumbPosition *p)
{
    const PlumbVec3 bar = p->point[PLUMB_PT_bar];
    for (int side = -1; side <= 1; side += 2) {
        const PlumbVec3 out = vec3(bar.x, bar.y, side * film_disc_z_m);
        add(items, scene, (FilmStroke){vec3(bar.x, bar.y, 0.0), out, 0.014, 0.014, 170.0, 60},
            false, 0.0);
        add(items, scene, (FilmStroke){out, out, 0.0, 0.0, 0.0, 0}, true, 0.0);
    }
}

/* The body lies on the pad, which reaches as far: so the pad comes before it. */
static void add_bench(FilmItems *items, const FilmScene *scene)
{
    const double under_m = 0.2;
    for (int i = 0; i < scene->bench->bench_count; i++) {
        add(items, scene, scene->bench->bench[i], false, under_m);
    }
    for (int i = 0; i < scene->bench->trunk_count; i++) {
        add(items, scene, scene->bench->trunk[i], false, 0.0);
    }
}

void film_figure(const FilmScene *scene, const PlumbPosition *position, FilmItems *items)
{
    items->count = 0;
    if (scene->bench != NULL) {
        add_bench(items, scene);
    }
    add_limbs(items, scene, position);
    add_bar(items, scene, position);
}

FilmRay film_ray(const PlumbCamera *camera, PlumbVec2 pixel)
{
    PlumbCamera square = *camera;
    square.yaw_rad = 0.0;
    square.along_m = 0.0;
    double depth = 1.0;
    const PlumbVec3 at = plumb_camera_meet(&square, pixel, 0.0, &depth);
    const double s = sin(camera->yaw_rad);
    const double c = cos(camera->yaw_rad);
    const PlumbVec3 lens =
        vec3(camera->along_m + camera->distance_m * s, camera->height_m, camera->distance_m * c);
    const PlumbVec3 turned = vec3(camera->along_m + at.x * c, at.y, -at.x * s);
    return (FilmRay){lens, vec3_scale(vec3_sub(turned, lens), 1.0 / depth)};
}

/* Cuts *from..*to down to where |a + b t| <= half. */
static bool within(double a, double b, double half, double *from, double *to)
{
    if (fabs(b) < 1e-12) {
        return fabs(a) <= half;
    }
    const double one = (-half - a) / b;
    const double other = (half - a) / b;
    *from = fmax(*from, fmin(one, other));
    *to = fmin(*to, fmax(one, other));
    return *from <= *to;
}

bool film_disc_meet(FilmRay ray, PlumbVec3 centre, double radius_m, FilmMeet *meet)
{
    const PlumbVec3 p = vec3_sub(ray.from, centre);
    const PlumbVec3 w = ray.way;
    double from = 0.0;
    double to = (double)INFINITY;
    if (!within(p.z, w.z, disc_half_m, &from, &to)) {
        return false;
    }
    /* |p + w t| = radius, seen along z. */
    const double a = fmax(w.x * w.x + w.y * w.y, 1e-12);
    const double b = (p.x * w.x + p.y * w.y) / a;
    const double square = b * b - (p.x * p.x + p.y * p.y - radius_m * radius_m) / a;
    if (square < 0.0) {
        return false;
    }
    const double first = fmax(from, -b - sqrt(square));
    meet->at = (PlumbVec2){0.0, 0.0};
    meet->share = first;
    meet->face = first <= from;
    if (meet->face && fabs(w.z) > 1e-12) {
        const double middle = -p.z / w.z;
        meet->at = (PlumbVec2){p.x + middle * w.x, p.y + middle * w.y};
    }
    return first <= fmin(to, -b + sqrt(square));
}

/* Whether a straight way from a to b passes through a stroke; a bar hides nothing that a person
 * would not mark all the same. */
static bool passes_through(PlumbVec3 a, PlumbVec3 b, const FilmStroke *s)
{
    enum { STEPS = 64 };
    const double thin_m = 0.02;
    const PlumbVec3 way = vec3_sub(b, a);
    for (int i = 0; i <= STEPS && s->from_m > thin_m; i++) {
        const double share = (double)i / STEPS;
        const PlumbVec3 at = vec3_sub(vec3_between(s->from, s->to, share), a);
        const double t = clamp(vec3_dot(at, way) / vec3_dot(way, way), 0.0, 1.0);
        const double radius = s->from_m + share * (s->to_m - s->from_m);
        if (vec3_length(vec3_along(at, -t, way)) < radius) {
            return true;
        }
    }
    return false;
}

bool film_figure_hides(const FilmScene *scene, const PlumbPosition *position, PlumbVec3 place)
{
    FilmItems items;
    film_figure(scene, position, &items);
    const PlumbVec2 pixel = plumb_camera_project(&scene->camera, place, NULL);
    const PlumbVec3 lens = film_ray(&scene->camera, pixel).from;
    const PlumbVec3 out = vec3_along(place, flesh_m, vec3_unit(vec3_sub(lens, place)));
    for (int i = 0; i < items.count; i++) {
        const FilmStroke *const s = &items.item[i].stroke;
        FilmMeet meet;
        if (!items.item[i].disc) {
            if (passes_through(out, lens, s)) {
                return true;
            }
        } else if (fabs(s->from.z - place.z) > disc_half_m &&
                   film_disc_meet((FilmRay){place, vec3_sub(lens, place)}, s->from,
                                  0.5 * scene->disc_diameter_m, &meet) &&
                   meet.share < 1.0) {
            return true;
        }
    }
    return false;
}
