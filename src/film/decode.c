/* SPDX-License-Identifier: MIT */
/* Pictures one after the other: the survey of the film, and again by number, from the nearest frame
 * at which unpacking can begin or, where that does not give the very same picture, from the
 * beginning of the film. */
#include "film.h"

#include "hash.h"

#include <math.h>

enum { LOST_MAX = 100000, WORK_PER_SIGN = 16 };

/* Times of a film beyond these are damage; differences within cannot overflow. */
static const int64_t pts_max = INT64_MAX / 8;

static void lose_piece(Film *film)
{
    film->lost_pieces++;
    film->doubtful = true;
}

/* Gives the decoder its next packet, or tells it that there are no more. */
static void feed(Film *film)
{
    for (;;) {
        if (++film->work % WORK_PER_SIGN == 0) {
            film->sign();
        }
        const int got = av_read_frame(film->format, film->packet);
        if (got < 0 || film->lost_pieces > LOST_MAX) {
            film->cut = film->cut || got != AVERROR_EOF;
            film->draining = true;
            (void)avcodec_send_packet(film->decoder, NULL);
            return;
        }
        const bool ours = film->packet->stream_index == film->stream->index;
        if (ours && ((film->packet->flags & AV_PKT_FLAG_CORRUPT) != 0 ||
                     avcodec_send_packet(film->decoder, film->packet) < 0)) {
            lose_piece(film);
        }
        av_packet_unref(film->packet);
        if (ours) {
            return;
        }
    }
}

static bool is_key(const AVFrame *picture)
{
#ifdef AV_FRAME_FLAG_KEY
    return (picture->flags & AV_FRAME_FLAG_KEY) != 0;
#else
    return picture->key_frame != 0;
#endif
}

/* The next picture in the order of the film; false: there is none. */
static bool next_picture(Film *film)
{
    while (film->lost_pieces <= 2 * LOST_MAX) {
        const int got = avcodec_receive_frame(film->decoder, film->picture);
        if (got >= 0) {
            return true;
        }
        if (got == AVERROR_EOF || (got == AVERROR(EAGAIN) && film->draining)) {
            return false;
        }
        if (got != AVERROR(EAGAIN)) {
            lose_piece(film);
        }
        if (!film->draining) {
            feed(film);
        }
    }
    return false;
}

static bool same_size(const Film *film)
{
    return film->picture->width == film->shape.source_width_px &&
           film->picture->height == film->shape.source_height_px;
}

/* Whether the picture continues the film: the size of the first, and a later time. */
static bool follows(const Film *film)
{
    const int64_t pts = film->picture->best_effort_timestamp;
    const int64_t last = film->count > 0 ? film->frame[film->count - 1].pts : -pts_max;
    return pts > last && pts < pts_max && same_size(film);
}

static FilmFault remember(Film *film)
{
    if (film->count == FILM_FRAMES_MAX) {
        return FILM_FAULT_too_many;
    }
    if (film->count == film->room) {
        const int room = film->room == 0 ? 256 : 2 * film->room;
        FilmFrame *const more = av_realloc_array(film->frame, (size_t)room, sizeof *more);
        if (more == NULL) {
            return FILM_FAULT_memory;
        }
        film->frame = more;
        film->room = room;
    }
    film->frame[film->count++] = (FilmFrame){film->picture->best_effort_timestamp,
                                             film_hash(film->picture), is_key(film->picture)};
    film->next = film->count;
    return FILM_FAULT_none;
}

FilmFault film_begin(Film *film, int descriptor)
{
    const FilmFault fault = film_open(film, descriptor);
    if (fault != FILM_FAULT_none) {
        return fault;
    }
    film->first = next_picture(film);
    return film->first ? film_shape_begin(film) : FILM_FAULT_empty;
}

FilmFault film_survey(Film *film, bool *more, bool *damaged)
{
    while (film->first || next_picture(film)) {
        film->first = false;
        if (!follows(film)) {
            film->lost_frames++;
            continue;
        }
        if (is_key(film->picture)) {
            film->doubtful = false;
        }
        *more = true;
        *damaged = film->doubtful || film->picture->decode_error_flags != 0 ||
                   (film->picture->flags & AV_FRAME_FLAG_CORRUPT) != 0;
        return remember(film);
    }
    film->next = -1;
    *more = false;
    return FILM_FAULT_none;
}

/* Unpacks until the time of frame i has come; whether that is the very frame. */
static bool reach(Film *film, int i)
{
    const FilmFrame *const wanted = &film->frame[i];
    film->next = -1;
    while (next_picture(film)) {
        const int64_t pts = film->picture->best_effort_timestamp;
        if (pts == AV_NOPTS_VALUE || pts < wanted->pts || !same_size(film)) {
            continue;
        }
        if (pts == wanted->pts && film_hash(film->picture) == wanted->hash) {
            film->next = i + 1;
            return true;
        }
        return false;
    }
    return false;
}

static bool reach_from_key(Film *film, int key, int i)
{
    if (av_seek_frame(film->format, film->stream->index, film->frame[key].pts,
                      AVSEEK_FLAG_BACKWARD) < 0) {
        return false;
    }
    avcodec_flush_buffers(film->decoder);
    film->draining = false;
    return reach(film, i);
}

static bool reach_from_start(Film *film, int i)
{
    const unsigned lost_pieces = film->lost_pieces;
    film_close(film);
    film->draining = false;
    const bool reached = film_open(film, film->descriptor) == FILM_FAULT_none && reach(film, i);
    film->lost_pieces = lost_pieces;
    return reached;
}

FilmFault film_again(Film *film, int i)
{
    int key = i;
    while (key > 0 && !film->frame[key].key) {
        key--;
    }
    const bool ahead = film->next >= 0 && film->next <= i && key <= film->next;
    if ((ahead && reach(film, i)) || reach_from_key(film, key, i) || reach_from_start(film, i)) {
        return FILM_FAULT_none;
    }
    return FILM_FAULT_again;
}

double film_time_s(const Film *film, int i)
{
    return (double)(film->frame[i].pts - film->frame[0].pts) * av_q2d(film->stream->time_base);
}

/* What the film says of its length, s, the least of what it says; NaN where it says nothing. */
static double told_s(const Film *film)
{
    double told = (double)NAN;
    if (film->stream->duration > 0) {
        told = fmin(told, (double)film->stream->duration * av_q2d(film->stream->time_base));
    }
    if (film->format->duration > 0) {
        told = fmin(told, (double)film->format->duration / AV_TIME_BASE);
    }
    return told;
}

double film_done_frac(const Film *film)
{
    const double told = told_s(film);
    const double share = film->count > 0 ? film_time_s(film, film->count - 1) / told : 0.0;
    return share >= 0.0 && share <= 1.0 ? share : 0.0;
}

/* From frame to frame, s. */
static double usual_s(const Film *film)
{
    const int count = film->count;
    return count > 1 ? film_time_s(film, count - 1) / (count - 1) : 0.1;
}

double film_late_s(const Film *film)
{
    if (film->count < 1) {
        return 0.0;
    }
    const double late = (double)film->frame[0].pts * av_q2d(film->stream->time_base);
    return late > fmax(0.1, 3.0 * usual_s(film)) ? late : 0.0;
}

double film_missing_s(const Film *film)
{
    if (film->count < 1) {
        return 0.0;
    }
    const double last = film_time_s(film, film->count - 1);
    const double each = usual_s(film);
    const double missing = told_s(film) - last - each;
    /* Sound may go on for a while after the last picture. */
    const bool alone = film->format->nb_streams == 1;
    return missing > fmax(alone ? 0.0 : 0.5, 1.5 * each) ? missing : 0.0;
}
