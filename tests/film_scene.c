/* SPDX-License-Identifier: MIT */
/* The truth of a rendered film: the lift in time, the camera with its shake, and where each
 * landmark is in every frame. */
#include "film_render.h"

#include <plumbar/dynamics.h>
#include <plumbar/sample.h>

#include "base/vec.h"

#include "film_figure.h"

#include <stdio.h>
#include <stdlib.h>

static const double post_z_m = 1.0;
static const double post_radius_m = 0.04;

static void must(bool holds, const char *what)
{
    if (!holds) {
        fprintf(stderr, "no film can be made: %s\n", what);
        exit(1);
    }
}

FilmLift film_lift(PlumbLift lift)
{
    FilmLift f = {
        .rest_s = 0.5, .down_s = lift == PLUMB_SQUAT ? 1.2 : 0.0, .up_s = 1.0, .hold_s = 0.5};
    const PlumbBodySpec spec = plumb_body_spec(PLUMB_FEMALE, 1.68, 66.0);
    PlumbBody body;
    PlumbError error;
    must(plumb_body_build(&spec, &body, &error) == PLUMB_OK, error.message);
    f.lifter = plumb_lifter_default(&body);
    const PlumbSetup setup = plumb_setup_default(lift);
    plumb_answer_quick(&f.lifter, &setup, &f.answer);
    must(f.answer.outcome != PLUMB_NO_POSE && f.answer.end_held, "the lift does not hold");
    return f;
}

double film_lift_begin_s(const FilmLift *lift)
{
    return lift->rest_s + lift->down_s;
}

double film_lift_end_s(const FilmLift *lift)
{
    return film_lift_begin_s(lift) + lift->up_s;
}

double film_lift_length_s(const FilmLift *lift)
{
    return film_lift_end_s(lift) + lift->hold_s;
}

void film_lift_at(const void *lift, double t_s, PlumbPosition *position)
{
    const FilmLift *const f = lift;
    const double begin_s = film_lift_begin_s(f);
    /* The way down is the way up in reverse, at its own pace. */
    const double up_s =
        t_s < begin_s && f->down_s > 0.0 ? (begin_s - t_s) * f->up_s / f->down_s : t_s - begin_s;
    PlumbMotionPoint point;
    PlumbError error;
    must(plumb_motion_at(&f->lifter, &f->answer, f->up_s, clamp(up_s, 0.0, f->up_s), &point,
                         &error) == PLUMB_OK,
         "its motion");
    must(point.held, "a step of its motion does not hold");
    *position = point.position;
}

FilmScene film_scene_of(FilmAt at, const void *motion, const PlumbLifter *lifter, double length_s)
{
    return (FilmScene){
        .at = at,
        .motion = motion,
        .disc_diameter_m = lifter->equipment.disc_diameter_m,
        .camera = {.focal_px = 1100.0,
                   .distance_m = 5.0,
                   .height_m = 0.9,
                   .centre_x_px = 639.5,
                   .centre_y_px = 359.5},
        .width_px = 1280,
        .height_px = 720,
        .rate_per_s = 30.0,
        .length_s = length_s,
        .noise_levels = 2.0,
        .blur_px = 0.5,
        .exposure_frac = 0.25,
        .post_x_m = (double)NAN,
        .seed = 1,
    };
}

FilmScene film_scene(const FilmLift *lift)
{
    return film_scene_of(film_lift_at, lift, &lift->lifter, film_lift_length_s(lift));
}

bool film_from_front(const FilmScene *scene)
{
    return fabs(cos(scene->camera.yaw_rad)) < 0.35;
}

int film_count(const FilmScene *scene)
{
    return (int)floor(scene->length_s * scene->rate_per_s + 1e-9) + 1;
}

double film_time_s(const FilmScene *scene, int i)
{
    return i / scene->rate_per_s;
}

/* One slow wandering number of variance 1: sines of 0.4 to 5 Hz, slow ones larger. */
static double wander(uint64_t seed, uint64_t which, double t_s)
{
    enum { SINES = 8 };
    static const double size[SINES] = {0.75, 0.7, 0.6, 0.5, 0.4, 0.35, 0.3, 0.25};
    static const double hz[SINES] = {0.4, 0.7, 1.1, 1.6, 2.2, 3.0, 3.9, 5.0};
    double z[2 * SINES];
    double sum = 0.0;
    double squares = 0.0;
    plumb_normal_deviates(seed, which, 2 * SINES, z);
    for (int i = 0; i < SINES; i++) {
        sum +=
            size[i] * sin(2.0 * PLUMB_PI * hz[i] * (1.0 + 0.1 * z[i]) * t_s + 7.0 * z[SINES + i]);
        squares += 0.5 * size[i] * size[i];
    }
    return sum / sqrt(squares);
}

FilmShake film_shake(const FilmScene *scene, double t_s)
{
    FilmShake shake = {.cos = 1.0,
                       .centre = {scene->camera.centre_x_px, scene->camera.centre_y_px}};
    if (scene->shake_px > 0.0) {
        const double roll_rad = degrees(0.02) * scene->shake_px * wander(scene->seed, 3, t_s);
        shake.shift.x = scene->shake_px * wander(scene->seed, 1, t_s);
        shake.shift.y = scene->shake_px * wander(scene->seed, 2, t_s);
        shake.cos = cos(roll_rad);
        shake.sin = sin(roll_rad);
    }
    return shake;
}

PlumbVec2 film_shaken(const FilmShake *shake, PlumbVec2 p)
{
    const double x = p.x - shake->centre.x;
    const double y = p.y - shake->centre.y;
    return (PlumbVec2){shake->centre.x + shake->cos * x - shake->sin * y + shake->shift.x,
                       shake->centre.y + shake->sin * x + shake->cos * y + shake->shift.y};
}

PlumbVec2 film_unshaken(const FilmShake *shake, PlumbVec2 p)
{
    const double x = p.x - shake->centre.x - shake->shift.x;
    const double y = p.y - shake->centre.y - shake->shift.y;
    return (PlumbVec2){shake->centre.x + shake->cos * x + shake->sin * y,
                       shake->centre.y - shake->sin * x + shake->cos * y};
}

PlumbVec2 film_point(const FilmScene *scene, int i, PlumbVec3 point_m)
{
    const FilmShake shake = film_shake(scene, film_time_s(scene, i));
    return film_shaken(&shake, plumb_camera_project(&scene->camera, point_m, NULL));
}

PlumbVec3 film_place(const FilmScene *scene, int i, PlumbMarkName name)
{
    static const PlumbPoint points[PLUMB_LANDMARK_COUNT] = {
        [PLUMB_MARK_heel] = PLUMB_PT_heel,       [PLUMB_MARK_toe] = PLUMB_PT_toe,
        [PLUMB_MARK_ankle] = PLUMB_PT_ankle,     [PLUMB_MARK_knee] = PLUMB_PT_knee,
        [PLUMB_MARK_hip] = PLUMB_PT_hip,         [PLUMB_MARK_shoulder] = PLUMB_PT_shoulder,
        [PLUMB_MARK_elbow] = PLUMB_PT_elbow,     [PLUMB_MARK_wrist] = PLUMB_PT_wrist,
        [PLUMB_MARK_bar] = PLUMB_PT_grip,        [PLUMB_MARK_disc] = PLUMB_PT_bar,
        [PLUMB_MARK_disc_centre] = PLUMB_PT_bar, [PLUMB_MARK_scale] = PLUMB_PT_bar,
    };
    if (name.landmark == PLUMB_MARK_plumb) {
        return film_back_post(scene, name.near == PLUMB_NEAR ? 0.2 : 1.8);
    }
    PlumbPosition position;
    scene->at(scene->motion, film_time_s(scene, i), &position);
    PlumbVec3 p = position.point[points[name.landmark]];
    if (points[name.landmark] == PLUMB_PT_bar) {
        p.z = film_disc_z_m;
    }
    const double side = name.front ? 1.0 : film_camera_side(scene);
    p.z *= name.near == PLUMB_NEAR ? side : -side;
    return p;
}

PlumbVec2 film_mark(const FilmScene *scene, int i, PlumbMarkName name)
{
    return film_point(scene, i, film_place(scene, i, name));
}

double film_camera_side(const FilmScene *scene)
{
    return !film_from_front(scene) && cos(scene->camera.yaw_rad) < 0.0 ? -1.0 : 1.0;
}

PlumbVec3 film_back_post(const FilmScene *scene, double height_m)
{
    if (scene->bench == NULL) {
        return vec3(0.9, height_m, -0.6);
    }
    /* Behind the lifter from wherever the camera stands. */
    const double right_m = 1.2;
    const double behind_m = 1.4;
    const double s = sin(scene->camera.yaw_rad);
    const double c = cos(scene->camera.yaw_rad);
    return vec3(scene->camera.along_m + right_m * c - behind_m * s, height_m,
                -right_m * s - behind_m * c);
}

FilmStroke film_front_post(const FilmScene *scene)
{
    const double z = film_camera_side(scene) * post_z_m;
    return (FilmStroke){.from = {scene->post_x_m, -0.2, z},
                        .to = {scene->post_x_m, 2.6, z},
                        .from_m = post_radius_m,
                        .to_m = post_radius_m,
                        .level = 70.0,
                        .seed = 91};
}

/* Where the way from a point to the lens passes a plane of constant z. */
static PlumbVec2 passes(const FilmScene *scene, PlumbVec3 place, double z_m)
{
    const PlumbVec2 pixel = plumb_camera_project(&scene->camera, place, NULL);
    const PlumbVec3 at = plumb_camera_meet(&scene->camera, pixel, z_m, NULL);
    return (PlumbVec2){at.x, at.y};
}

bool film_hidden(const FilmScene *scene, int i, PlumbMarkName name)
{
    const PlumbVec3 place = film_place(scene, i, name);
    if (scene->bench != NULL) {
        PlumbPosition position;
        scene->at(scene->motion, film_time_s(scene, i), &position);
        if (film_figure_hides(scene, &position, place)) {
            return true;
        }
    }
    if (film_from_front(scene)) {
        return false;
    }
    const double side = film_camera_side(scene);
    const double post_x = passes(scene, place, side * post_z_m).x;
    if (!isnan(scene->post_x_m) && fabs(post_x - scene->post_x_m) < post_radius_m) {
        return true;
    }
    const PlumbMarkName disc_name = {PLUMB_MARK_disc_centre, PLUMB_NEAR, false};
    const PlumbVec3 disc = film_place(scene, i, disc_name);
    const PlumbVec2 at = passes(scene, place, disc.z);
    const double away = hypot(at.x - disc.x, at.y - disc.y);
    const double time_s = film_time_s(scene, i);
    const bool passed = time_s >= scene->hide_from_s && time_s < scene->hide_to_s;
    return (side * place.z < film_disc_z_m - 0.01 && away < 0.5 * scene->disc_diameter_m) ||
           (passed && away < 0.3);
}
