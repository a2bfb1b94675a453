/* SPDX-License-Identifier: MIT */
/* A rendered film read back: marked in a few frames as a person would, followed, fitted. */
#ifndef PLUMBAR_TESTS_FILM_READ_H
#define PLUMBAR_TESTS_FILM_READ_H

#include "film_render.h"

#include <plumbar/sample.h>
#include <plumbar/series.h>

#include "base/vec.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { FILM_TRACKS = 10, FILM_FRONT_TRACKS = 6, FILM_MARKED_MAX = 5, FILM_RIM = 6 };

/* How a film is taken and marked. */
typedef struct FilmCondition {
    const char *name;
    PlumbLift lift;
    bool always; /* also without PLUMB_LONG */
    double rate_per_s;
    double noise_levels;
    double blur_px;
    double light_frac;
    double shake_px;
    double post_x_m; /* NaN: none */
    double pass_s;   /* somebody passes for so long */
    double yaw_deg;
    double mark_px; /* error of each mark */
} FilmCondition;

/* What follows the name, the lift and whether it is always done. */
#define FILM_CLEAN 30.0, 2.0, 0.5, 0.0, 0.0, (double)NAN, 0.0, 0.0, 0.0

static const PlumbMarkName film_side_names[FILM_TRACKS] = {
    {PLUMB_MARK_heel, PLUMB_NEAR, false},  {PLUMB_MARK_toe, PLUMB_NEAR, false},
    {PLUMB_MARK_ankle, PLUMB_NEAR, false}, {PLUMB_MARK_knee, PLUMB_NEAR, false},
    {PLUMB_MARK_hip, PLUMB_NEAR, false},   {PLUMB_MARK_shoulder, PLUMB_NEAR, false},
    {PLUMB_MARK_elbow, PLUMB_NEAR, false}, {PLUMB_MARK_wrist, PLUMB_NEAR, false},
    {PLUMB_MARK_bar, PLUMB_NEAR, false},   {PLUMB_MARK_disc_centre, PLUMB_NEAR, false},
};

static const PlumbMarkName film_front_names[FILM_FRONT_TRACKS] = {
    {PLUMB_MARK_knee, PLUMB_NEAR, true}, {PLUMB_MARK_ankle, PLUMB_NEAR, true},
    {PLUMB_MARK_bar, PLUMB_NEAR, true},  {PLUMB_MARK_knee, PLUMB_FAR, true},
    {PLUMB_MARK_ankle, PLUMB_FAR, true}, {PLUMB_MARK_bar, PLUMB_FAR, true},
};

/* A film in memory and all that was read from it. */
typedef struct FilmRead {
    const FilmScene *scene;
    uint8_t *level;
    double *time_s;
    PlumbSeriesTrack track[PLUMB_TRACKS_MAX];
    PlumbAnchor anchor[PLUMB_TRACKS_MAX * FILM_MARKED_MAX];
    PlumbTrackAsk follow;
    PlumbTracks tracks;
    PlumbTraceBody body;
    PlumbSeriesAsk ask;
    PlumbSeries series;
    PlumbSeriesFrame *frame;
} FilmRead;

static inline void *film_memory(size_t bytes)
{
    void *const memory = calloc(1, bytes);
    if (memory == NULL) {
        fprintf(stderr, "no memory for a film\n");
        exit(1);
    }
    return memory;
}

static inline int film_by_size(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Misses by their size, for medians and percentiles. */
static inline void film_sort(double *x, int count)
{
    qsort(x, (size_t)count, sizeof x[0], film_by_size);
}

static inline PlumbStatus film_lend(void *user, int index, PlumbGray *gray, PlumbError *error)
{
    const FilmRead *const read = user;
    const FilmScene *const scene = read->scene;
    (void)error;
    *gray = (PlumbGray){scene->width_px, scene->height_px, scene->width_px,
                        read->level +
                            (size_t)index * (size_t)scene->width_px * (size_t)scene->height_px};
    return PLUMB_OK;
}

static inline void film_render_all(FilmRead *read)
{
    const FilmScene *const scene = read->scene;
    const size_t bytes = (size_t)scene->width_px * (size_t)scene->height_px;
    const int count = film_count(scene);
    FilmRender *const render = film_render_open(scene);
    read->level = film_memory(bytes * (size_t)count);
    read->time_s = film_memory((size_t)count * sizeof *read->time_s);
    for (int i = 0; i < count; i++) {
        film_render_frame(render, i, read->level + bytes * (size_t)i);
        read->time_s[i] = film_time_s(scene, i);
    }
    film_render_close(render);
}

/* The rim about the middle of its ellipse, in one frame. */
static inline PlumbVec2 film_rim(const FilmScene *scene, int frame, PlumbSeriesTrack *track)
{
    PlumbVec2 rim[FILM_RIM];
    PlumbEllipse ellipse = {0};
    const PlumbVec3 centre = film_place(scene, frame, track->name);
    for (int i = 0; i < FILM_RIM; i++) {
        const double turn = 2.0 * PLUMB_PI * i / FILM_RIM;
        const double radius = 0.5 * scene->disc_diameter_m;
        rim[i] = film_point(
            scene, frame,
            vec3(centre.x + radius * sin(turn), centre.y + radius * cos(turn), centre.z));
    }
    if (!plumb_ellipse_fit(rim, FILM_RIM, &ellipse)) {
        fprintf(stderr, "a disc that is no ellipse\n");
        exit(1);
    }
    const PlumbVec2 middle = {ellipse.x_px, ellipse.y_px};
    track->rim_count = FILM_RIM;
    for (int i = 0; i < FILM_RIM; i++) {
        track->rim_px[i] = (PlumbVec2){rim[i].x - middle.x, rim[i].y - middle.y};
    }
    return middle;
}

/* Marks the landmarks in view in some frames, each missed by mark_px. */
static inline void film_mark_all(FilmRead *read, const PlumbMarkName *name, int names,
                                 const int *frame, int frames, double mark_px)
{
    const FilmScene *const scene = read->scene;
    PlumbTrackAsk *const ask = &read->follow;
    double z[2 * PLUMB_TRACKS_MAX * FILM_MARKED_MAX];
    plumb_normal_deviates(scene->seed, 99, 2 * PLUMB_TRACKS_MAX * FILM_MARKED_MAX, z);
    *ask = plumb_track_ask(scene->width_px, scene->height_px, film_count(scene));
    ask->frame = film_lend;
    ask->user = read;
    ask->anchor = read->anchor;
    ask->track_count = names;
    const double px_per_m = scene->camera.focal_px / scene->camera.distance_m;
    for (int t = 0; t < names; t++) {
        const bool disc = name[t].landmark == PLUMB_MARK_disc_centre;
        read->track[t].name = name[t];
        read->track[t].rim_count = 0;
        if (disc && !name[t].front) {
            ask->cover_track = t;
            ask->cover_px = 0.5 * scene->disc_diameter_m * px_per_m;
        } else {
            ask->covered |= 1U << t;
        }
        ask->radius_px[t] =
            (disc && !name[t].front ? 0.8 * 0.5 * scene->disc_diameter_m : 0.06) * px_per_m;
        for (int k = 0; k < frames; k++) {
            if (film_hidden(scene, frame[k], name[t])) {
                continue;
            }
            PlumbVec2 at = disc && !name[t].front ? film_rim(scene, frame[k], &read->track[t])
                                                  : film_mark(scene, frame[k], name[t]);
            const double sigma = disc ? 0.3 * mark_px : mark_px;
            const int i = ask->anchor_count++;
            at = (PlumbVec2){at.x + sigma * z[2 * i], at.y + sigma * z[2 * i + 1]};
            read->anchor[i] = (PlumbAnchor){t, frame[k], at};
        }
    }
}

/* Follows the marks; ends the test where that fails. */
static inline void film_follow(FilmRead *read)
{
    PlumbTrackAsk *const ask = &read->follow;
    PlumbError error;
    const size_t count = (size_t)ask->track_count * (size_t)ask->frame_count;
    read->tracks.point = film_memory(count * sizeof *read->tracks.point);
    read->tracks.shift = film_memory((size_t)ask->frame_count * sizeof *read->tracks.shift);
    void *const room = film_memory(plumb_track_room_bytes(ask));
    if (plumb_track_follow(ask, room, &read->tracks, &error) != PLUMB_OK) {
        fprintf(stderr, "%s: %s\n", error.field, error.message);
        exit(1);
    }
    free(room);
}

/* Both ends of the post behind the lifter, in the first frame. */
static inline void film_plumb_marks(const FilmScene *scene, PlumbMark mark[2])
{
    for (int near = PLUMB_NEAR; near <= PLUMB_FAR; near++) {
        const PlumbMarkName post = {PLUMB_MARK_plumb, (PlumbNear)near, false};
        const PlumbVec2 at = film_mark(scene, 0, post);
        mark[near] = (PlumbMark){
            .name = post, .x_px = at.x, .y_px = at.y, .sigma_px = 1.0, .time_s = (double)NAN};
    }
}

/* Reads the film as that of a lifter known by sex, stature and mass. */
static inline PlumbStatus film_fit(FilmRead *read, const PlumbLifter *lifter,
                                   const PlumbSetup *setup, double joint_sigma_m, PlumbError *error)
{
    const FilmScene *const scene = read->scene;
    const PlumbBody *const body = &lifter->body;
    const PlumbBodySpec spec = plumb_body_spec(body->sex, body->stature_m, body->mass_kg);
    PlumbBodies bodies;
    plumb_bodies_around(&spec, body, &bodies);
    memcpy(read->body.mean_m, bodies.mean_m, sizeof bodies.mean_m);
    memcpy(read->body.cov_m2, bodies.cov_m2, sizeof bodies.cov_m2);
    read->ask = plumb_series_ask(lifter, setup, &read->body);
    read->ask.still.joint_sigma_m = joint_sigma_m;
    read->ask.still.size_px[0] = (PlumbVec2){scene->width_px, scene->height_px};
    read->ask.still.distance_m[0] = scene->camera.distance_m;
    read->ask.frame_count = read->follow.frame_count;
    read->ask.time_s = read->time_s;
    read->ask.track_count = read->follow.track_count;
    read->ask.track = read->track;
    read->ask.point = read->tracks.point;
    read->ask.shift = read->tracks.shift;
    read->ask.fixed_count = 2;
    film_plumb_marks(scene, read->ask.fixed);
    read->frame = film_memory((size_t)read->ask.frame_count * sizeof *read->frame);
    void *const room = film_memory(plumb_series_room_bytes(read->ask.frame_count));
    const PlumbStatus status =
        plumb_series_read(&read->ask, room, read->frame, &read->series, error);
    free(room);
    return status;
}

/* Puts a scene under a condition, turned by its yaw beyond its own; who passes does so from
 * pass_from_s on. */
static inline void film_put_under(const FilmCondition *c, double pass_from_s, FilmScene *scene)
{
    scene->rate_per_s = c->rate_per_s;
    scene->noise_levels = c->noise_levels;
    scene->blur_px = c->blur_px;
    scene->light_frac = c->light_frac;
    scene->shake_px = c->shake_px;
    scene->post_x_m = c->post_x_m;
    scene->camera.yaw_rad += degrees(c->yaw_deg);
    scene->hide_from_s = pass_from_s;
    scene->hide_to_s = pass_from_s + c->pass_s;
}

/* The scene of a motion, from the side, under a condition. */
static inline FilmScene film_scene_under(const FilmCondition *c, FilmAt at, const void *motion,
                                         const FilmLift *lift)
{
    FilmScene scene = film_scene(lift);
    scene.at = at;
    scene.motion = motion;
    film_put_under(c, film_lift_begin_s(lift) + 0.4, &scene);
    return scene;
}

/* Renders, marks in four frames, follows and fits: *read stays for who asks. Ends the test where
 * the film cannot be read. */
static inline void film_read_scene(FilmRead *read, const FilmScene *scene, const FilmLift *lift,
                                   double mark_px)
{
    PlumbError error;
    const bool front = film_from_front(scene);
    const bool squat = lift->answer.setup.lift == PLUMB_SQUAT;
    /* The start, half way down or as the bar moves, the bottom or the knees passed, the end. */
    const double begin = film_lift_begin_s(lift);
    const double early = squat ? begin - 0.5 * lift->down_s : begin;
    const double middle = squat ? begin : begin + 0.5;
    const int frame[] = {0, (int)(early * scene->rate_per_s), (int)(middle * scene->rate_per_s),
                         film_count(scene) - 1};
    memset(read, 0, sizeof *read);
    read->scene = scene;
    film_render_all(read);
    film_mark_all(read, front ? film_front_names : film_side_names,
                  front ? FILM_FRONT_TRACKS : FILM_TRACKS, frame, sizeof frame / sizeof frame[0],
                  mark_px);
    film_follow(read);
    const double px_per_m = scene->camera.focal_px / scene->camera.distance_m;
    if (film_fit(read, &lift->lifter, &lift->answer.setup, fmax(mark_px / px_per_m, 0.005),
                 &error) != PLUMB_OK) {
        fprintf(stderr, "no film could be read: %s: %s\n", error.field, error.message);
        exit(1);
    }
}

static inline void film_read_free(FilmRead *read)
{
    free(read->level);
    free(read->time_s);
    free(read->tracks.point);
    free(read->tracks.shift);
    free(read->frame);
}

#endif
