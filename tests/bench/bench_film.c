/* SPDX-License-Identifier: MIT */
/* How fast a video of 720p comes in: frames a second through the reading process against those a
 * second of the film, and a step back, far from any frame that is kept.
 * Use: bench_film [FRAMES] */
#include "film_encode.h"
#include "film_render.h"

#include <plumbar/frames.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>

enum { RENDERED = 30, STEPS = 20 };

static const char *const codecs[][2] = {
    {"libx264", "mp4"}, {"libx265", "mp4"}, {"mpeg4", "mp4"}, {"libvpx-vp9", "webm"}};

static uint8_t *pictures[RENDERED];

/* To and fro, so that a long film needs few pictures. */
static void to_and_fro(void *unused, int i, int width_px, int height_px, uint8_t *level)
{
    (void)unused;
    const int at = i % (2 * RENDERED - 2);
    memcpy(level, pictures[at < RENDERED ? at : 2 * RENDERED - 2 - at],
           (size_t)width_px * (size_t)height_px);
}

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void frame_of(PlumbFrames *frames, int i)
{
    PlumbGray gray;
    PlumbError error;
    if (plumb_frames_gray(frames, i, &gray, &error) != PLUMB_OK) {
        fprintf(stderr, "%s\n", error.message);
        exit(1);
    }
}

/* CPU time of this process and of those that it started and saw end, s. */
static double cpu_s(void)
{
    double sum_s = 0.0;
    for (int k = 0; k < 2; k++) {
        struct rusage used;
        getrusage(k == 0 ? RUSAGE_SELF : RUSAGE_CHILDREN, &used);
        sum_s += (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
                 1e-6 * (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
    }
    return sum_s;
}

typedef struct Cost {
    double wall_s;
    double cpu_s;
    int count;
} Cost;

/* Opens and surveys; reads frame after frame; then steps about. */
static Cost run(const char *path, bool read, bool step)
{
    PlumbFramesOptions options = plumb_frames_options();
    options.film_program = PLUMB_FILM;
    options.cache_bytes = 0;
    PlumbFrames *frames = NULL;
    PlumbError error;
    Cost cost = {now_s(), cpu_s(), 0};
    if (plumb_frames_open(path, &options, &frames, &error) != PLUMB_OK ||
        plumb_frames_survey(frames, PLUMB_FRAMES_MAX, NULL, &error) != PLUMB_OK) {
        fprintf(stderr, "%s\n", error.message);
        exit(1);
    }
    cost.count = plumb_frames_count(frames);
    for (int i = 0; read && i < cost.count; i++) {
        frame_of(frames, i);
    }
    for (int k = 0; step && k < STEPS; k++) {
        frame_of(frames, k * 7919 % cost.count);
    }
    plumb_frames_close(frames);
    cost.wall_s = now_s() - cost.wall_s;
    cost.cpu_s = cpu_s() - cost.cpu_s;
    return cost;
}

static void measure(const char *path, const char *encoder)
{
    const Cost survey = run(path, false, false);
    const Cost read = run(path, true, false);
    const Cost step = run(path, false, true);
    const int n = survey.count;
    const double per_second = n / (read.wall_s - survey.wall_s);
    printf("%-11s survey %5.0f frames a second, %4.2f ms of CPU each; reading %5.0f, %4.2f ms: "
           "%4.1f times real time at 30, %4.1f by CPU; any frame %3.0f ms of CPU\n",
           encoder, n / survey.wall_s, 1e3 * survey.cpu_s / n, per_second,
           1e3 * (read.cpu_s - survey.cpu_s) / n, per_second / 30.0,
           n / (read.cpu_s - survey.cpu_s) / 30.0, 1e3 * (step.cpu_s - survey.cpu_s) / STEPS);
}

int main(int argc, char **argv)
{
    const int count = argc > 1 ? atoi(argv[1]) : 300;
    const FilmLift lift = film_lift(PLUMB_DEADLIFT);
    const FilmScene scene = film_scene(&lift);
    FilmRender *const render = film_render_open(&scene);
    for (int i = 0; i < RENDERED; i++) {
        pictures[i] = malloc((size_t)scene.width_px * (size_t)scene.height_px);
        if (pictures[i] == NULL) {
            return 1;
        }
        film_render_frame(render, 15 + i, pictures[i]);
    }
    film_render_close(render);
    char folder[] = "/tmp/plumbar-bench-XXXXXX";
    if (mkdtemp(folder) == NULL) {
        return 1;
    }
    for (size_t k = 0; k < sizeof codecs / sizeof codecs[0]; k++) {
        char path[64];
        snprintf(path, sizeof path, "%s/film.%s", folder, codecs[k][1]);
        if (film_encoder_found(codecs[k][0])) {
            const FilmCode code = {.path = path,
                                   .encoder = codecs[k][0],
                                   .width_px = scene.width_px,
                                   .height_px = scene.height_px,
                                   .count = count,
                                   .rate_per_s = 30.0,
                                   .group = 60,
                                   .between = k < 2 ? 2 : 0};
            film_encode(&code, to_and_fro, NULL);
            measure(path, codecs[k][0]);
        }
        remove(path);
    }
    rmdir(folder);
    for (int i = 0; i < RENDERED; i++) {
        free(pictures[i]);
    }
    return 0;
}
