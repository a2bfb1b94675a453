/* SPDX-License-Identifier: MIT */
/* Films for tests, packed by the FFmpeg encoders that are installed. */
#ifndef PLUMBAR_TESTS_FILM_ENCODE_H
#define PLUMBAR_TESTS_FILM_ENCODE_H

#include <stdbool.h>
#include <stdint.h>

/* Fills level, width x height, 0 to 255, with frame i. */
typedef void (*FilmPicture)(void *context, int i, int width_px, int height_px, uint8_t *level);

typedef struct FilmCode {
    const char *path;    /* its ending chooses the container */
    const char *encoder; /* libx264, mpeg4, mjpeg, libvpx, libvpx-vp9, libx265 */
    int width_px;
    int height_px;
    int count;
    double rate_per_s;
    const double *time_s; /* of each frame; NULL: by the rate */
    int group;            /* frames between key frames */
    int between;          /* frames told from both sides (B frames) */
    int turns;            /* quarters clockwise that a player turns it by */
    int aspect_num;       /* of a pixel; 0: square */
    int aspect_den;
    long long bits_per_s; /* 0: 4 Mbit/s */
    bool tint;            /* blueish grey instead of grey, to see colours through */
} FilmCode;

/* Whether the encoder is installed. */
bool film_encoder_found(const char *encoder);

/* Writes the film, or ends the test program with a word on what failed. */
void film_encode(const FilmCode *code, FilmPicture picture, void *context);

#endif
