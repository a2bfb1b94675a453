/* SPDX-License-Identifier: MIT */
/* A video as frames: every byte of it is unpacked by a process of its own, whose replies are
 * trusted no more than the film. */
#include <plumbar/format.h>

#include "io/fail.h"
#include "io/film_child.h"
#include "io/frames_source.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum {
    PATH_SIZE = 4200,
    SIGNS_MAX = 600, /* "still working" before one reply; ten minutes of decoding */
    HEAD_BYTES = 33  /* what plumb_photo_head needs of a PNG */
};

static const long long film_bytes_max = 8LL << 30;

typedef struct Video {
    FramesSource source;
    FilmChild child;
    char *path;
    bool asked; /* a reply is on its way */
    FilmRequest request;
    int64_t surveyed;
    double last_s;
    FilmReply end;
    uint8_t *scratch; /* planes that nobody wanted after all */
} Video;

static const char *fault_words(uint32_t fault)
{
    static const char *const words[] = {
#define X(name, words) words,
        FILM_FAULT_LIST(X)
#undef X
    };
    return fault > FILM_FAULT_none && fault < FILM_FAULT_COUNT ? words[fault]
                                                               : words[FILM_FAULT_not_a_film];
}

static PlumbStatus fault_status(uint32_t fault)
{
    return fault == FILM_FAULT_size || fault == FILM_FAULT_too_many ? PLUMB_TOO_LARGE
           : fault == FILM_FAULT_memory                             ? PLUMB_OUT_OF_MEMORY
           : fault == FILM_FAULT_again                              ? PLUMB_READ_FAILED
                                                                    : PLUMB_UNSUPPORTED;
}

/* Ends the process for what it sent; what it sends is never believed beyond this. */
static PlumbStatus distrust(Video *v, PlumbError *error)
{
    plumb_film_child_stop(&v->child, "its reader gave an answer that makes no sense; the film is "
                                     "damaged");
    return plumb_file_fail(error, PLUMB_READ_FAILED, v->path, v->child.end, 0);
}

static PlumbStatus ended(const Video *v, PlumbError *error)
{
    return plumb_file_fail(error, PLUMB_READ_FAILED, v->path, v->child.end, 0);
}

/* The next reply that is not a mere sign of life; a fault fails. */
static PlumbStatus read_reply(Video *v, FilmReply *reply, PlumbError *error)
{
    for (int signs = 0; signs < SIGNS_MAX; signs++) {
        if (!plumb_film_child_read(&v->child, reply, sizeof *reply)) {
            return ended(v, error);
        }
        if (reply->mark != FILM_REPLY_MARK) {
            return distrust(v, error);
        }
        if (reply->say == FILM_FAIL) {
            return plumb_file_fail(error, fault_status(reply->fault), v->path,
                                   fault_words(reply->fault), 0);
        }
        if (reply->say != FILM_WORKING) {
            return PLUMB_OK;
        }
    }
    plumb_film_child_stop(&v->child, "its reader took more time than it may; cut the film to the "
                                     "lift");
    return ended(v, error);
}

static bool ask(Video *v, FilmAsk what, int64_t number, bool planes)
{
    v->request = (FilmRequest){(uint32_t)what, planes ? 1 : 0, number};
    v->asked = plumb_film_child_send(&v->child, &v->request, sizeof v->request);
    return v->asked;
}

/* The reply to what was asked, with its planes where they were. */
static PlumbStatus take(Video *v, uint8_t *planes, FilmReply *reply, PlumbError *error)
{
    v->asked = false;
    const PlumbStatus status = read_reply(v, reply, error);
    if (status != PLUMB_OK) {
        return status;
    }
    const bool survey = v->request.ask == FILM_SURVEY;
    if (survey && reply->say == FILM_END) {
        return PLUMB_OK;
    }
    if (reply->say != FILM_ENTRY || reply->planes != v->request.planes ||
        reply->number != v->request.number || !isfinite(reply->time_s) ||
        !isfinite(reply->done_frac)) {
        return distrust(v, error);
    }
    const size_t bytes = film_planes_bytes(v->source.width_px, v->source.height_px);
    if (reply->planes != 0 && !plumb_film_child_read(&v->child, planes, bytes)) {
        return ended(v, error);
    }
    return PLUMB_OK;
}

/* Takes the reply on its way, whatever it is, so that another can be asked for. */
static void drain(Video *v)
{
    if (v->asked) {
        FilmReply reply;
        (void)take(v, v->scratch, &reply, NULL);
    }
}

static PlumbStatus video_survey(FramesSource *source, uint8_t *planes, FramesEntry *entry,
                                PlumbError *error)
{
    Video *const v = (Video *)source;
    FilmReply reply;
    drain(v);
    if (!ask(v, FILM_SURVEY, v->surveyed, planes != NULL)) {
        return ended(v, error);
    }
    const PlumbStatus status = take(v, planes, &reply, error);
    if (status != PLUMB_OK) {
        return status;
    }
    if (reply.say == FILM_END) {
        v->end = reply;
        *entry = (FramesEntry){.done_frac = 1.0, .end = true};
        return PLUMB_OK;
    }
    if (v->surveyed > 0 && reply.time_s <= v->last_s) {
        return distrust(v, error);
    }
    v->surveyed++;
    v->last_s = reply.time_s;
    *entry = (FramesEntry){.time_s = reply.time_s,
                           .done_frac = fmin(fmax(reply.done_frac, 0.0), 1.0),
                           .damaged = reply.damaged != 0};
    return PLUMB_OK;
}

static PlumbStatus video_frame(FramesSource *source, int i, int ahead, uint8_t *planes,
                               PlumbError *error)
{
    Video *const v = (Video *)source;
    FilmReply reply;
    if (!v->asked || v->request.ask != FILM_FRAME || v->request.number != i) {
        drain(v);
        if (!ask(v, FILM_FRAME, i, true)) {
            return ended(v, error);
        }
    }
    const PlumbStatus status = take(v, planes, &reply, error);
    if (status == PLUMB_OK && ahead >= 0) {
        (void)ask(v, FILM_FRAME, ahead, true); /* where it ended, the next call tells */
    }
    return status;
}

static void part(PlumbText *words)
{
    plumb_text_string(words, words->length > 0 ? "; " : "");
}

static void counted(PlumbText *words, unsigned count, const char *one, const char *more)
{
    if (count > 0) {
        part(words);
        plumb_text_integer(words, count);
        plumb_text_string(words, count == 1 ? one : more);
    }
}

static void seconds(PlumbText *words, double time_s, const char *before, const char *after)
{
    if (time_s > 0.0 && isfinite(time_s)) {
        part(words);
        plumb_text_string(words, before);
        plumb_text_fixed(words, time_s, 1);
        plumb_text_string(words, after);
    }
}

static void video_lost(const FramesSource *source, PlumbText *words)
{
    const Video *const v = (const Video *)source;
    counted(words, v->end.lost_pieces, " piece of the film could not be unpacked",
            " pieces of the film could not be unpacked");
    counted(words, v->end.lost_frames,
            " frame is left out because its size or time does not follow from those before",
            " frames are left out because their size or time does not follow from those before");
    seconds(words, v->end.missing_s, "it is ", " s shorter than it says");
    seconds(words, v->end.time_s, "its first frame stands at ", " s");
}

static void video_close(FramesSource *source)
{
    Video *const v = (Video *)source;
    plumb_film_child_stop(&v->child, "closed");
    free(v->scratch);
    free(v->path);
    free(v);
}

static const FramesKind video_kind = {
    .survey = video_survey,
    .frame = video_frame,
    .lost = video_lost,
    .close = video_close,
};

/* Where the reader of video stands: beside the program, where installing puts it, or one folder up,
 * as for the tests of a build. */
static bool find_reader(char *path, size_t size)
{
    static const char *const places[] = {"", "../libexec/plumbar/", "../"};
    char self[PATH_SIZE];
    const ssize_t length = readlink("/proc/self/exe", self, sizeof self - 1);
    self[length > 0 ? length : 0] = '\0';
    const char *const slash = strrchr(self, '/');
    for (size_t i = 0; slash != NULL && i < sizeof places / sizeof places[0]; i++) {
        PlumbText text = plumb_text_begin(path, size);
        plumb_text_bytes(&text, self, (size_t)(slash - self) + 1);
        plumb_text_string(&text, places[i]);
        plumb_text_string(&text, "plumbar-film");
        if (!text.cut && plumb_film_child_found(path)) {
            return true;
        }
    }
    return false;
}

static PlumbStatus no_reader(const char *path, PlumbError *error)
{
#ifdef PLUMB_HAS_FILM
    return plumb_file_fail(error, PLUMB_UNSUPPORTED, path,
                           "the program plumbar-film, which reads video, is not beside this one; "
                           "install both, or give a folder of frames",
                           0);
#else
    return plumb_file_fail(error, PLUMB_UNSUPPORTED, path,
                           "this build reads folders of frames; to read video, install "
                           "libavformat-dev, libavcodec-dev, libswscale-dev and libavutil-dev and "
                           "build it again",
                           0);
#endif
}

/* Opens path for reading and refuses what is no film at a glance. */
static PlumbStatus open_film(const char *path, int *film, PlumbError *error)
{
    const int from = open(path, O_RDONLY | O_CLOEXEC);
    struct stat about;
    if (from < 0 || fstat(from, &about) != 0) {
        const int reason = errno;
        return plumb_file_fail(error, PLUMB_READ_FAILED, path, "could not be opened", reason);
    }
    unsigned char head[HEAD_BYTES];
    PlumbPhotoHead picture;
    const ssize_t got = pread(from, head, sizeof head, 0);
    PlumbStatus status = PLUMB_OK;
    if (got <= 0) {
        status = plumb_file_fail(error, PLUMB_UNSUPPORTED, path, "is empty", 0);
    } else if (about.st_size > film_bytes_max) {
        status = plumb_file_fail(error, PLUMB_TOO_LARGE, path,
                                 "is larger than 8 GiB; cut it to the lift", 0);
    } else if ((got > 2 && head[0] == 0xff && head[1] == 0xd8) ||
               plumb_photo_head(head, (size_t)got, &picture, NULL) == PLUMB_OK) {
        status = plumb_file_fail(error, PLUMB_UNSUPPORTED, path,
                                 "is a single picture; a film is a video or a folder of frames", 0);
    }
    if (status != PLUMB_OK) {
        close(from);
        return status;
    }
    *film = from;
    return PLUMB_OK;
}

/* The first reply: the size of all frames. */
static PlumbStatus greet(Video *v, PlumbError *error)
{
    FilmReply reply;
    const PlumbStatus status = read_reply(v, &reply, error);
    if (status != PLUMB_OK) {
        return status;
    }
    const int width = reply.width_px;
    const int height = reply.height_px;
    if (reply.say != FILM_HEAD || width < 1 || height < 1 || width > FILM_SIDE_MAX ||
        height > FILM_SIDE_MAX || (long long)width * height > PLUMB_FRAMES_PIXELS_MAX) {
        return distrust(v, error);
    }
    v->source.width_px = width;
    v->source.height_px = height;
    v->source.hd = reply.hd != 0;
    v->scratch = malloc(film_planes_bytes(width, height));
    return v->scratch != NULL ? PLUMB_OK : plumb_file_no_memory(error, v->path);
}

/* Starts reader on the open film, which is closed here. */
static PlumbStatus start(Video *v, const char *reader, int film, double silence_max_s,
                         PlumbError *error)
{
    const int reason = plumb_film_child_start(reader, film, silence_max_s, &v->child);
    close(film);
    if (reason != 0) {
        return plumb_file_fail(error, PLUMB_READ_FAILED, reader,
                               "the reader of video could not be started", reason);
    }
    return greet(v, error);
}

PlumbStatus plumb_frames_video(const char *path, const PlumbFramesOptions *options,
                               FramesSource **source, PlumbError *error)
{
    int film = -1;
    PlumbStatus status = open_film(path, &film, error);
    if (status != PLUMB_OK) {
        return status;
    }
    char found[PATH_SIZE];
    const bool given = options->film_program != NULL;
    Video *const v = calloc(1, sizeof *v);
    char *const name = strdup(path);
    if (v == NULL || name == NULL) {
        status = plumb_file_no_memory(error, path);
    } else if (!given && !find_reader(found, sizeof found)) {
        status = no_reader(path, error);
    }
    if (status != PLUMB_OK || v == NULL) {
        close(film);
        free(name);
        free(v);
        return status;
    }
    *v = (Video){.source.kind = &video_kind, .child.socket = -1, .path = name};
    status = start(v, given ? options->film_program : found, film, options->silence_max_s, error);
    if (status != PLUMB_OK) {
        video_close(&v->source);
        return status;
    }
    *source = &v->source;
    return PLUMB_OK;
}
