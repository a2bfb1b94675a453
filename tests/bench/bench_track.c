/* SPDX-License-Identifier: MIT */
/* How many times faster than real time marks are followed: 720p at 30 frames a second, twelve marks
 * and the background, forward and backward, on one core, frames in memory.
 * Use: bench_track [FRAMES] */
#include "moving.h"

#include <stdio.h>
#include <string.h>
#include <time.h>

enum { WIDTH = 1280, HEIGHT = 720, TRACKS = 12, KEPT = 24 };

typedef struct Film {
    uint8_t *level[KEPT];
} Film;

/* To and fro through the frames kept, so that any number can be asked for. */
static int kept_index(int frame)
{
    const int k = frame % (2 * KEPT - 2);
    return k < KEPT ? k : 2 * KEPT - 2 - k;
}

static PlumbStatus lend(void *user, int index, PlumbGray *gray, PlumbError *error)
{
    const Film *const film = user;
    (void)error;
    *gray = (PlumbGray){WIDTH, HEIGHT, WIDTH, film->level[kept_index(index)]};
    return PLUMB_OK;
}

static Moving moving_at(int k)
{
    return (Moving){.at_px = {600.0 + k, 500.0 - 8.0 * k}, .radius_px = 120.0, .noise = 3.0};
}

static double cpu_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

int main(int argc, char **argv)
{
    const int frames = argc > 1 ? atoi(argv[1]) : 300;
    Film film;
    PlumbAnchor anchor[2 * TRACKS];
    PlumbTrackAsk ask = plumb_track_ask(WIDTH, HEIGHT, frames < 2 ? 2 : frames);
    for (int k = 0; k < KEPT; k++) {
        const Moving m = moving_at(k);
        film.level[k] = malloc((size_t)WIDTH * HEIGHT);
        if (film.level[k] == NULL) {
            return 1;
        }
        moving_draw(&m, WIDTH, HEIGHT, (unsigned)k + 1U, film.level[k]);
    }
    for (int t = 0; t < 2 * TRACKS; t++) {
        const int frame = t < TRACKS ? 0 : ask.frame_count - 1;
        const Moving m = moving_at(kept_index(frame));
        anchor[t] = (PlumbAnchor){
            t % TRACKS, frame, {m.at_px.x + 25.0 * (t % 4) - 37.0, m.at_px.y + 25.0 * (t % 3)}};
        ask.radius_px[t % TRACKS] = t % TRACKS == 0 ? 45.0 : 12.0;
    }
    ask.frame = lend;
    ask.user = &film;
    ask.track_count = TRACKS;
    ask.anchor = anchor;
    ask.anchor_count = 2 * TRACKS;
    PlumbTracks tracks = {
        .point = calloc((size_t)TRACKS * (size_t)ask.frame_count, sizeof *tracks.point),
        .shift = calloc((size_t)ask.frame_count, sizeof *tracks.shift)};
    void *const room = malloc(plumb_track_room_bytes(&ask));
    PlumbError error;
    const double begin = cpu_s();
    if (tracks.point == NULL || tracks.shift == NULL || room == NULL ||
        plumb_track_follow(&ask, room, &tracks, &error) != PLUMB_OK) {
        return 1;
    }
    const double spent = cpu_s() - begin;
    printf("%d frames of %d x %d, %d marks, background: %.2f s, %.1f times real time at 30 frames "
           "a second\n",
           ask.frame_count, WIDTH, HEIGHT, TRACKS, spent, ask.frame_count / 30.0 / spent);
    free(room);
    free(tracks.point);
    free(tracks.shift);
    for (int k = 0; k < KEPT; k++) {
        free(film.level[k]);
    }
    return 0;
}
