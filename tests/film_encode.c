/* SPDX-License-Identifier: MIT */
/* Encodes pictures into a film: what a camera does, with the truth in our hands. */
#include "film_encode.h"

#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void must(bool holds, const char *what)
{
    if (!holds) {
        fprintf(stderr, "no film could be encoded: %s\n", what);
        exit(1);
    }
}

bool film_encoder_found(const char *encoder)
{
    return avcodec_find_encoder_by_name(encoder) != NULL;
}

typedef struct Writer {
    AVFormatContext *format;
    AVCodecContext *encoder;
    AVStream *stream;
    AVFrame *frame;
    AVPacket *packet;
    uint8_t *level;
} Writer;

static void open_encoder(Writer *w, const FilmCode *code, const AVCodec *codec)
{
    AVCodecContext *const e = w->encoder = avcodec_alloc_context3(codec);
    must(e != NULL, "memory");
    const bool jpeg = strcmp(code->encoder, "mjpeg") == 0;
    e->width = code->width_px;
    e->height = code->height_px;
    e->pix_fmt = jpeg ? AV_PIX_FMT_YUVJ420P : AV_PIX_FMT_YUV420P;
    e->time_base = (AVRational){1, strcmp(code->encoder, "mpeg4") == 0 ? 24000 : 90000};
    e->framerate = av_d2q(code->rate_per_s, 100000);
    e->gop_size = code->group;
    e->max_b_frames = code->between;
    e->bit_rate = code->bits_per_s != 0 ? code->bits_per_s : 4000000;
    e->thread_count = 1;
    e->sample_aspect_ratio =
        (AVRational){code->aspect_num, code->aspect_num ? code->aspect_den : 1};
    if (jpeg || strcmp(code->encoder, "mpeg4") == 0) { /* the same quality throughout */
        e->flags |= AV_CODEC_FLAG_QSCALE;
        e->global_quality = 2 * FF_QP2LAMBDA;
    }
    if ((w->format->oformat->flags & AVFMT_GLOBALHEADER) != 0) {
        e->flags |= AV_CODEC_FLAG_GLOBAL_HEADER;
    }
    AVDictionary *options = NULL;
    if (strncmp(code->encoder, "libx26", 6) == 0) {
        av_dict_set(&options, "preset", "veryfast", 0);
        av_dict_set(&options, "x265-params", "log-level=none:pools=1", 0);
    } else if (strncmp(code->encoder, "libvpx", 6) == 0) {
        e->qmax = 20;
        av_dict_set(&options, "deadline", "realtime", 0);
        av_dict_set(&options, "cpu-used", "6", 0);
        av_dict_set(&options, "auto-alt-ref", "1", 0);
        av_dict_set(&options, "lag-in-frames", "10", 0);
    }
    must(avcodec_open2(e, codec, &options) >= 0, code->encoder);
    av_dict_free(&options);
}

static void open_file(Writer *w, const FilmCode *code)
{
    w->stream = avformat_new_stream(w->format, NULL);
    must(w->stream != NULL && avcodec_parameters_from_context(w->stream->codecpar, w->encoder) >= 0,
         "stream");
    w->stream->time_base = w->encoder->time_base;
    w->stream->avg_frame_rate = w->encoder->framerate;
    w->stream->sample_aspect_ratio = w->encoder->sample_aspect_ratio;
    if (code->turns != 0) {
        uint8_t *const side =
            av_stream_new_side_data(w->stream, AV_PKT_DATA_DISPLAYMATRIX, 9 * sizeof(int32_t));
        must(side != NULL, "memory");
        /* ISO/IEC 14496-12: (x, y, 1) times the matrix; x right, y down, in 65536ths. */
        static const int32_t cosine[4] = {65536, 0, -65536, 0};
        const int32_t c = cosine[code->turns % 4];
        const int32_t n = cosine[(code->turns + 3) % 4];
        const int32_t matrix[9] = {c, n, 0, -n, c, 0, 0, 0, 1 << 30};
        memcpy(side, matrix, sizeof matrix);
    }
    must(avio_open(&w->format->pb, code->path, AVIO_FLAG_WRITE) >= 0, code->path);
    must(avformat_write_header(w->format, NULL) >= 0, "header");
}

/* Levels in the range of television (16 to 235), or whole for JPEG. */
static void fill(Writer *w, const FilmCode *code)
{
    AVFrame *const f = w->frame;
    const bool full = f->format == AV_PIX_FMT_YUVJ420P;
    for (int y = 0; y < f->height; y++) {
        const uint8_t *const row = w->level + (ptrdiff_t)y * f->width;
        for (int x = 0; x < f->width; x++) {
            f->data[0][(ptrdiff_t)y * f->linesize[0] + x] =
                (uint8_t)(full ? row[x] : lround(16.0 + row[x] * 219.0 / 255.0));
        }
    }
    for (int y = 0; y < (f->height + 1) / 2; y++) {
        memset(f->data[1] + (ptrdiff_t)y * f->linesize[1], code->tint ? 144 : 128,
               (size_t)(f->width + 1) / 2);
        memset(f->data[2] + (ptrdiff_t)y * f->linesize[2], 128, (size_t)(f->width + 1) / 2);
    }
}

/* frame NULL: the end. */
static void push(Writer *w, const AVFrame *frame)
{
    must(avcodec_send_frame(w->encoder, frame) >= 0, "a frame");
    while (avcodec_receive_packet(w->encoder, w->packet) >= 0) {
        av_packet_rescale_ts(w->packet, w->encoder->time_base, w->stream->time_base);
        w->packet->stream_index = w->stream->index;
        must(av_interleaved_write_frame(w->format, w->packet) >= 0, "a packet");
    }
}

void film_encode(const FilmCode *code, FilmPicture picture, void *context)
{
    Writer w = {0};
    av_log_set_level(AV_LOG_ERROR);
    const AVCodec *const codec = avcodec_find_encoder_by_name(code->encoder);
    must(codec != NULL, code->encoder);
    must(avformat_alloc_output_context2(&w.format, NULL, NULL, code->path) >= 0, code->path);
    open_encoder(&w, code, codec);
    open_file(&w, code);
    w.frame = av_frame_alloc();
    w.packet = av_packet_alloc();
    w.level = malloc((size_t)code->width_px * (size_t)code->height_px);
    must(w.frame != NULL && w.packet != NULL && w.level != NULL, "memory");
    w.frame->format = w.encoder->pix_fmt;
    w.frame->width = code->width_px;
    w.frame->height = code->height_px;
    must(av_frame_get_buffer(w.frame, 0) >= 0, "memory");
    for (int i = 0; i < code->count; i++) {
        const double time_s = code->time_s != NULL ? code->time_s[i] : i / code->rate_per_s;
        must(av_frame_make_writable(w.frame) >= 0, "memory");
        picture(context, i, code->width_px, code->height_px, w.level);
        fill(&w, code);
        w.frame->pts = llround(time_s * w.encoder->time_base.den);
        w.frame->quality = w.encoder->global_quality;
        push(&w, w.frame);
    }
    push(&w, NULL);
    must(av_write_trailer(w.format) >= 0, "trailer");
    avio_closep(&w.format->pb);
    av_packet_free(&w.packet);
    av_frame_free(&w.frame);
    avcodec_free_context(&w.encoder);
    avformat_free_context(w.format);
    free(w.level);
}
