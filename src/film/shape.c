/* SPDX-License-Identifier: MIT */
/* Pictures as a person sees them: turned as the film's display matrix says, pixels square, luma and
 * halved chroma in full range. */
#include "film.h"

#include <libavutil/display.h>
#include <libavutil/pixdesc.h>

#include <math.h>
#include <string.h>

enum { TILE = 16 };

static const int32_t *display_matrix(const AVStream *stream)
{
#if LIBAVCODEC_VERSION_MAJOR >= 61
    const AVPacketSideData *const side =
        av_packet_side_data_get(stream->codecpar->coded_side_data,
                                stream->codecpar->nb_coded_side_data, AV_PKT_DATA_DISPLAYMATRIX);
    return side != NULL && side->size >= 9 * sizeof(int32_t) ? (const int32_t *)side->data : NULL;
#else
    size_t size = 0;
    const uint8_t *const side = av_stream_get_side_data(stream, AV_PKT_DATA_DISPLAYMATRIX, &size);
    return side != NULL && size >= 9 * sizeof(int32_t) ? (const int32_t *)(const void *)side : NULL;
#endif
}

/* Quarter turns clockwise that bring the picture upright. */
static int quarter_turns(const AVStream *stream)
{
    const int32_t *const matrix = display_matrix(stream);
    const double turned_deg = matrix != NULL ? -av_display_rotation_get(matrix) : 0.0;
    return isnan(turned_deg) ? 0 : ((int)lround(turned_deg / 90.0) % 4 + 4) % 4;
}

int film_shape_width_px(const FilmShape *shape)
{
    return shape->turns % 2 == 0 ? shape->width_px : shape->height_px;
}

int film_shape_height_px(const FilmShape *shape)
{
    return shape->turns % 2 == 0 ? shape->height_px : shape->width_px;
}

FilmFault film_shape_begin(Film *film)
{
    FilmShape *const s = &film->shape;
    const AVRational aspect =
        av_guess_sample_aspect_ratio(film->format, film->stream, film->picture);
    const double stretch = aspect.num > 0 && aspect.den > 0 ? av_q2d(aspect) : 1.0;
    s->source_width_px = film->picture->width;
    s->source_height_px = film->picture->height;
    const double width =
        round(s->source_width_px * (stretch > 0.1 && stretch < 10.0 ? stretch : 1.0));
    if (width < 1.0 || width > FILM_SIDE_MAX || s->source_height_px < 1 ||
        s->source_height_px > FILM_SIDE_MAX || width * s->source_height_px > FILM_PIXELS_MAX) {
        return FILM_FAULT_size;
    }
    s->width_px = (int)width;
    s->height_px = s->source_height_px;
    s->turns = quarter_turns(film->stream);
    const size_t bytes = film_planes_bytes(s->width_px, s->height_px);
    s->planes = av_malloc(bytes);
    s->straight = s->turns == 0 ? s->planes : av_malloc(bytes);
    return s->planes != NULL && s->straight != NULL ? FILM_FAULT_none : FILM_FAULT_memory;
}

static bool full_range(const AVFrame *picture)
{
    return picture->color_range == AVCOL_RANGE_JPEG || picture->format == AV_PIX_FMT_YUVJ420P ||
           picture->format == AV_PIX_FMT_YUVJ422P || picture->format == AV_PIX_FMT_YUVJ444P;
}

/* One plane with its levels stretched: 16 + span become 0 to 255 (luma, span 219, low 16), or about
 * the middle (chroma, span 224). In 16384ths, exact to half a level. */
static void copy_plane(const AVFrame *picture, int p, int width, int height, bool full, uint8_t *to)
{
    const int middle = p == 0 ? 16 : 128;
    const int base = (p == 0 ? 0 : 128) * 16384 + 8192;
    const int scale = p == 0 ? 19077 : 18651; /* 255 / 219, 255 / 224 */
    for (int y = 0; y < height; y++, to += width) {
        const uint8_t *const row = picture->data[p] + (ptrdiff_t)y * picture->linesize[p];
        if (full) {
            memcpy(to, row, (size_t)width);
            continue;
        }
        for (int x = 0; x < width; x++) {
            const int v = (base + scale * (row[x] - middle)) >> 14;
            to[x] = (uint8_t)(v < 0 ? 0 : v > 255 ? 255 : v);
        }
    }
}

static void copy_planes(const AVFrame *picture, int width, int height, uint8_t *to)
{
    const bool full = full_range(picture);
    const int half = (width + 1) / 2;
    const int rows = (height + 1) / 2;
    const size_t luma = (size_t)width * (size_t)height;
    copy_plane(picture, 0, width, height, full, to);
    copy_plane(picture, 1, half, rows, full, to + luma);
    copy_plane(picture, 2, half, rows, full, to + luma + film_chroma_bytes(width, height));
}

/* The scaler for the picture's own format and range. */
static FilmFault ready_scaler(FilmShape *s, const AVFrame *picture)
{
    const bool full = full_range(picture);
    if (s->scaler != NULL && s->scaler_format == picture->format && s->scaler_full == full) {
        return FILM_FAULT_none;
    }
    sws_freeContext(s->scaler);
    s->scaler = sws_getContext(s->source_width_px, s->source_height_px,
                               (enum AVPixelFormat)picture->format, s->width_px, s->height_px,
                               AV_PIX_FMT_YUV420P, SWS_BICUBIC, NULL, NULL, NULL);
    if (s->scaler == NULL) {
        return FILM_FAULT_codec;
    }
    const int *const same = sws_getCoefficients(SWS_CS_DEFAULT);
    (void)sws_setColorspaceDetails(s->scaler, same, full, same, 1, 0, 1 << 16, 1 << 16);
    s->scaler_format = picture->format;
    s->scaler_full = full;
    return FILM_FAULT_none;
}

static FilmFault scale(FilmShape *s, const AVFrame *picture)
{
    const FilmFault fault = ready_scaler(s, picture);
    if (fault != FILM_FAULT_none) {
        return fault;
    }
    const int half = (s->width_px + 1) / 2;
    uint8_t *const cb = s->straight + (size_t)s->width_px * (size_t)s->height_px;
    uint8_t *const to[4] = {s->straight, cb, cb + film_chroma_bytes(s->width_px, s->height_px),
                            NULL};
    const int stride[4] = {s->width_px, half, half, 0};
    const int rows = sws_scale(s->scaler, (const uint8_t *const *)picture->data, picture->linesize,
                               0, picture->height, to, stride);
    return rows == s->height_px ? FILM_FAULT_none : FILM_FAULT_codec;
}

/* Turns a plane of width x height clockwise by quarters, in tiles that the cache holds. */
static void turn_plane(const uint8_t *from, int width, int height, int turns, uint8_t *to)
{
    const ptrdiff_t out = turns % 2 == 0 ? width : height; /* width of what is made */
    /* Where the pixel at the top left goes, and a step along x and y. */
    const ptrdiff_t origin = turns == 1   ? height - 1
                             : turns == 2 ? out * height - 1
                                          : out * (width - 1);
    const ptrdiff_t along_x = turns == 1 ? out : turns == 2 ? -1 : -out;
    const ptrdiff_t along_y = turns == 1 ? -1 : turns == 2 ? -out : 1;
    for (int y0 = 0; y0 < height; y0 += TILE) {
        for (int x0 = 0; x0 < width; x0 += TILE) {
            for (int y = y0; y < y0 + TILE && y < height; y++) {
                for (int x = x0; x < x0 + TILE && x < width; x++) {
                    to[origin + x * along_x + y * along_y] = from[(ptrdiff_t)y * width + x];
                }
            }
        }
    }
}

static void turn(FilmShape *s)
{
    const int half = (s->width_px + 1) / 2;
    const int rows = (s->height_px + 1) / 2;
    const size_t luma = (size_t)s->width_px * (size_t)s->height_px;
    const size_t chroma = film_chroma_bytes(s->width_px, s->height_px);
    turn_plane(s->straight, s->width_px, s->height_px, s->turns, s->planes);
    for (size_t at = luma; at < luma + 2 * chroma; at += chroma) {
        turn_plane(s->straight + at, half, rows, s->turns, s->planes + at);
    }
}

FilmFault film_shape_make(Film *film)
{
    FilmShape *const s = &film->shape;
    const AVFrame *const p = film->picture;
    const bool plain = (p->format == AV_PIX_FMT_YUV420P || p->format == AV_PIX_FMT_YUVJ420P) &&
                       s->width_px == s->source_width_px;
    FilmFault fault = FILM_FAULT_none;
    if (plain) {
        copy_planes(p, s->width_px, s->height_px, s->straight);
    } else {
        fault = scale(s, p);
    }
    if (fault == FILM_FAULT_none && s->turns != 0) {
        turn(s);
    }
    return fault;
}
