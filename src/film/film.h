/* SPDX-License-Identifier: MIT */
/* A film being unpacked, within the process that does nothing else. */
#ifndef PLUMB_FILM_FILM_H
#define PLUMB_FILM_FILM_H

#include "io/film_wire.h"

#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libswscale/swscale.h>

#include <stdbool.h>

enum { FILM_PIXELS_MAX = 10000000, FILM_FRAMES_MAX = 36000 };

/* A frame of the survey, in the order of the film. */
typedef struct FilmFrame {
    int64_t pts;
    uint64_t hash; /* of what was unpacked: unpacking it again must give the same */
    bool key;      /* unpacking can begin here */
} FilmFrame;

/* How pictures become upright, with square pixels, full range. */
typedef struct FilmShape {
    int source_width_px; /* as unpacked; the first picture's holds for all */
    int source_height_px;
    int width_px; /* before turning */
    int height_px;
    int turns; /* quarters, clockwise */
    struct SwsContext *scaler;
    int scaler_format;
    bool scaler_full;
    uint8_t *straight; /* planes before turning */
    uint8_t *planes;   /* planes as they are sent */
} FilmShape;

typedef struct Film {
    int descriptor;
    int64_t at; /* where the next byte is read */
    int64_t bytes;
    AVFormatContext *format;
    AVCodecContext *decoder;
    AVStream *stream;
    AVPacket *packet;
    AVFrame *picture; /* the last that was unpacked */
    bool first;       /* it is the first, unpacked on opening, and still to be surveyed */
    bool draining;    /* no more packets */
    bool cut;         /* reading ended with an error */
    bool doubtful;    /* data was lost since the last key frame */
    unsigned lost_pieces;
    unsigned lost_frames;
    FilmFrame *frame;
    int count;
    int room;
    int next; /* frame that the decoder gives next; -1: not known */
    FilmShape shape;
    void (*sign)(void); /* called now and then while work takes long */
    unsigned work;
} Film;

/* Opens the film behind descriptor, and its decoder. What was opened is left to film_close also
 * after a fault. */
FilmFault film_open(Film *film, int descriptor);
void film_close(Film *film);

/* Opens the film and unpacks its first picture, from which the shape of all follows. */
FilmFault film_begin(Film *film, int descriptor);
/* The next frame of the survey is in film->picture; *more false: there are no more. */
FilmFault film_survey(Film *film, bool *more, bool *damaged);
/* Frame i of the survey is in film->picture again. */
FilmFault film_again(Film *film, int i);
double film_time_s(const Film *film, int i);
/* Share of the survey that is done. */
double film_done_frac(const Film *film);
/* When the first frame stands, 0 where that is nothing to speak of. */
double film_late_s(const Film *film);
/* By how much the film is shorter than it says, 0 where that is nothing to speak of. */
double film_missing_s(const Film *film);

/* The shape of film->picture, and memory for it. */
FilmFault film_shape_begin(Film *film);
/* Size as sent, upright. */
int film_shape_width_px(const FilmShape *shape);
int film_shape_height_px(const FilmShape *shape);
/* Makes film->picture planes of film_wire.h, in film->shape.planes. */
FilmFault film_shape_make(Film *film);

#endif
