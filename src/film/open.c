/* SPDX-License-Identifier: MIT */
/* Opens the film that was handed over: the formats and codecs of cameras only, no other file, no
 * network, sizes checked before a decoder sees anything. */
#include "film.h"

#include <errno.h>
#include <sys/stat.h>
#include <unistd.h>

enum { IO_BYTES = 65536, STREAMS_MAX = 16 };

static const char formats[] = "mov,matroska,webm";
static const char codecs[] = "h264,hevc,vp8,vp9,av1,libdav1d,mpeg4,mjpeg";

static int read_some(void *opaque, uint8_t *bytes, int room)
{
    Film *const film = opaque;
    ssize_t got;
    do {
        got = pread(film->descriptor, bytes, (size_t)room, film->at);
    } while (got < 0 && errno == EINTR);
    if (got <= 0) {
        return got == 0 ? AVERROR_EOF : AVERROR(errno);
    }
    film->at += got;
    return (int)got;
}

static int64_t seek_to(void *opaque, int64_t offset, int whence)
{
    Film *const film = opaque;
    if (whence == AVSEEK_SIZE) {
        return film->bytes;
    }
    const int64_t from = whence == SEEK_SET ? 0 : whence == SEEK_CUR ? film->at : film->bytes;
    if (offset < -from || offset > INT64_MAX - from) {
        return AVERROR(EINVAL);
    }
    film->at = from + offset;
    return film->at;
}

/* A film may name other files; none is opened. */
static int open_nothing(AVFormatContext *format, AVIOContext **io, const char *name, int flags,
                        AVDictionary **options)
{
    (void)format;
    (void)io;
    (void)name;
    (void)flags;
    (void)options;
    return AVERROR(EPERM);
}

static FilmFault open_format(Film *film)
{
    uint8_t *const buffer = av_malloc(IO_BYTES);
    AVIOContext *const io =
        buffer != NULL ? avio_alloc_context(buffer, IO_BYTES, 0, film, read_some, NULL, seek_to)
                       : NULL;
    film->format = avformat_alloc_context();
    AVDictionary *options = NULL;
    if (io == NULL || film->format == NULL ||
        av_dict_set(&options, "format_whitelist", formats, 0) < 0 ||
        av_dict_set(&options, "codec_whitelist", codecs, 0) < 0 ||
        av_dict_set(&options, "protocol_whitelist", "file", 0) < 0 ||
        av_dict_set_int(&options, "max_streams", STREAMS_MAX, 0) < 0) {
        return FILM_FAULT_memory;
    }
    film->format->pb = io;
    film->format->io_open = open_nothing;
    const int opened = avformat_open_input(&film->format, NULL, NULL, &options);
    av_dict_free(&options);
    return opened == AVERROR(ENOMEM) ? FILM_FAULT_memory
           : opened < 0              ? FILM_FAULT_not_a_film
                                     : FILM_FAULT_none;
}

/* The moving pictures of the file; a cover picture is none. All other streams are not read. */
static FilmFault choose_stream(Film *film)
{
    for (unsigned i = 0; i < film->format->nb_streams; i++) {
        AVStream *const s = film->format->streams[i];
        const bool video = s->codecpar->codec_type == AVMEDIA_TYPE_VIDEO &&
                           (s->disposition & AV_DISPOSITION_ATTACHED_PIC) == 0;
        if (film->stream == NULL && video) {
            film->stream = s;
        } else {
            s->discard = AVDISCARD_ALL;
        }
    }
    return film->stream != NULL ? FILM_FAULT_none : FILM_FAULT_no_pictures;
}

/* Sizes that are not told yet (zero) show once the first picture is unpacked. */
static FilmFault check_size(const Film *film)
{
    const int64_t width = film->stream->codecpar->width;
    const int64_t height = film->stream->codecpar->height;
    return width > FILM_SIDE_MAX || height > FILM_SIDE_MAX || width * height > FILM_PIXELS_MAX
               ? FILM_FAULT_size
               : FILM_FAULT_none;
}

static FilmFault open_decoder(Film *film)
{
    const AVCodecParameters *const p = film->stream->codecpar;
    const AVCodec *const codec = avcodec_find_decoder(p->codec_id);
    if (codec == NULL) {
        return FILM_FAULT_codec;
    }
    film->decoder = avcodec_alloc_context3(codec);
    if (film->decoder == NULL || avcodec_parameters_to_context(film->decoder, p) < 0) {
        return FILM_FAULT_memory;
    }
    film->decoder->pkt_timebase = film->stream->time_base;
    film->decoder->thread_count = 1;
    film->decoder->max_pixels = FILM_PIXELS_MAX;
    film->decoder->err_recognition = AV_EF_CRCCHECK | AV_EF_BITSTREAM | AV_EF_BUFFER;
    AVDictionary *options = NULL;
    (void)av_dict_set(&options, "codec_whitelist", codecs, 0);
    const int opened = avcodec_open2(film->decoder, codec, &options);
    av_dict_free(&options);
    return opened == AVERROR(ENOMEM) ? FILM_FAULT_memory
           : opened < 0              ? FILM_FAULT_codec
                                     : FILM_FAULT_none;
}

FilmFault film_open(Film *film, int descriptor)
{
    struct stat about;
    film->descriptor = descriptor;
    film->at = 0;
    film->bytes = fstat(descriptor, &about) == 0 ? about.st_size : 0;
    film->packet = av_packet_alloc();
    film->picture = av_frame_alloc();
    if (film->packet == NULL || film->picture == NULL) {
        return FILM_FAULT_memory;
    }
    FilmFault fault = open_format(film);
    fault = fault == FILM_FAULT_none ? choose_stream(film) : fault;
    fault = fault == FILM_FAULT_none ? check_size(film) : fault;
    if (fault != FILM_FAULT_none) {
        return fault;
    }
    film->sign();
    /* What it cannot find out shows when pictures are unpacked. */
    (void)avformat_find_stream_info(film->format, NULL);
    fault = check_size(film);
    return fault == FILM_FAULT_none ? open_decoder(film) : fault;
}

void film_close(Film *film)
{
    avcodec_free_context(&film->decoder);
    if (film->format != NULL) {
        AVIOContext *io = film->format->pb;
        avformat_close_input(&film->format);
        if (io != NULL) {
            av_freep(&io->buffer);
            avio_context_free(&io);
        }
    }
    av_packet_free(&film->packet);
    av_frame_free(&film->picture);
    film->stream = NULL;
}
