/* SPDX-License-Identifier: MIT */
/* plumbar-film: unpacks one video for plumbar, which starts it. It bounds itself before it reads a
 * byte of the film, opens no file, writes none, and ends when the socket does. */
#include "film.h"

#include <libavutil/log.h>

#include <errno.h>
#include <signal.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>

#if defined(__SANITIZE_ADDRESS__)
#define ADDRESS_SANITIZER 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define ADDRESS_SANITIZER 1
#endif
#endif

enum { CPU_MAX_S = 900, DESCRIPTORS_MAX = 4, BLOCK_BYTES_MAX = 512 << 20 };

static void bound(int what, rlim_t most)
{
    struct rlimit now;
    if (getrlimit(what, &now) == 0) {
        now.rlim_cur = now.rlim_max = now.rlim_max < most ? now.rlim_max : most;
        if (setrlimit(what, &now) == 0) {
            return;
        }
    }
    _exit(1);
}

static void bound_all(void)
{
#ifndef ADDRESS_SANITIZER /* which maps terabytes for itself */
    bound(RLIMIT_AS, (rlim_t)1536 << 20);
#endif
    bound(RLIMIT_CPU, CPU_MAX_S);
    bound(RLIMIT_FSIZE, 0);
    bound(RLIMIT_CORE, 0);
    bound(RLIMIT_NOFILE, DESCRIPTORS_MAX);
    av_max_alloc(BLOCK_BYTES_MAX);
    av_log_set_level(AV_LOG_QUIET);
    signal(SIGPIPE, SIG_IGN);
}

/* Ends the process where the other end is gone. */
static void send_bytes(const void *bytes, size_t length)
{
    const char *from = bytes;
    while (length > 0) {
        const ssize_t put = write(FILM_SOCKET, from, length);
        if (put <= 0 && errno != EINTR) {
            _exit(0);
        }
        from += put > 0 ? put : 0;
        length -= put > 0 ? (size_t)put : 0;
    }
}

static void receive(void *bytes, size_t length)
{
    char *to = bytes;
    while (length > 0) {
        const ssize_t got = read(FILM_SOCKET, to, length);
        if (got == 0 || (got < 0 && errno != EINTR)) {
            _exit(0);
        }
        to += got > 0 ? got : 0;
        length -= got > 0 ? (size_t)got : 0;
    }
}

static FilmReply reply_begin(FilmSay say)
{
    FilmReply reply;
    memset(&reply, 0, sizeof reply);
    reply.mark = FILM_REPLY_MARK;
    reply.say = (uint32_t)say;
    return reply;
}

static void sign_of_life(void)
{
    const FilmReply reply = reply_begin(FILM_WORKING);
    send_bytes(&reply, sizeof reply);
}

static void fail(FilmFault fault)
{
    FilmReply reply = reply_begin(FILM_FAIL);
    reply.fault = (uint32_t)fault;
    send_bytes(&reply, sizeof reply);
}

static void greet(const Film *film)
{
    FilmReply reply = reply_begin(FILM_HEAD);
    reply.width_px = film_shape_width_px(&film->shape);
    reply.height_px = film_shape_height_px(&film->shape);
    reply.hd =
        film->picture->colorspace == AVCOL_SPC_BT709 ||
                (film->picture->colorspace == AVCOL_SPC_UNSPECIFIED && film->picture->height >= 720)
            ? 1
            : 0;
    send_bytes(&reply, sizeof reply);
}

static void end(const Film *film)
{
    FilmReply reply = reply_begin(FILM_END);
    reply.lost_pieces = film->lost_pieces;
    reply.lost_frames = film->lost_frames;
    reply.missing_s = film_missing_s(film);
    reply.time_s = film_late_s(film);
    send_bytes(&reply, sizeof reply);
}

static void answer(Film *film, const FilmRequest *request)
{
    bool more = true;
    bool damaged = false;
    int number = (int)request->number;
    FilmFault fault;
    if (request->ask == FILM_SURVEY) {
        number = film->count;
        fault = film_survey(film, &more, &damaged);
    } else {
        fault = film_again(film, number);
    }
    if (fault == FILM_FAULT_none && more && request->planes != 0) {
        fault = film_shape_make(film);
    }
    if (fault != FILM_FAULT_none) {
        fail(fault);
        return;
    }
    if (!more) {
        end(film);
        return;
    }
    FilmReply reply = reply_begin(FILM_ENTRY);
    reply.damaged = damaged ? 1 : 0;
    reply.planes = request->planes;
    reply.number = number;
    reply.time_s = film_time_s(film, number);
    reply.done_frac = film_done_frac(film);
    send_bytes(&reply, sizeof reply);
    if (request->planes != 0) {
        const FilmShape *const s = &film->shape;
        send_bytes(s->planes, film_planes_bytes(s->width_px, s->height_px));
    }
}

int main(void)
{
    bound_all();
    Film film = {.sign = sign_of_life, .next = -1};
    const FilmFault fault = film_begin(&film, FILM_FILE);
    if (fault != FILM_FAULT_none) {
        fail(fault);
        _exit(0);
    }
    greet(&film);
    for (;;) {
        FilmRequest request;
        receive(&request, sizeof request);
        const bool known = request.number >= 0 && request.number < film.count;
        if (request.planes > 1 ||
            (request.ask != FILM_SURVEY && (request.ask != FILM_FRAME || !known))) {
            _exit(1);
        }
        answer(&film, &request);
    }
}
