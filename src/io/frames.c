/* SPDX-License-Identifier: MIT */
/* Frames by number over a source of either kind: their times, and a store of unpacked frames around
 * the one that is looked at. */
#include <plumbar/frames.h>

#include <plumbar/format.h>

#include "io/fail.h"
#include "io/frames_source.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum {
    SLOTS_MIN = 3, /* two lent frames and the one that is read */
    GAP = 3,
    BACK = 16, /* frames that are read together when somebody steps back */
    LOST_SIZE = 400
};

typedef struct Frame {
    double time_s;
    int slot; /* -1: not in the store */
    bool damaged;
} Frame;

typedef struct Slot {
    int frame; /* -1: empty */
    uint8_t *planes;
} Slot;

struct PlumbFrames {
    FramesSource *source;
    PlumbFramesOptions options;
    char *path;
    Frame *frame;
    int count;
    int room;
    Slot *slot;
    int slots;
    int slots_used;
    int lent[2]; /* the last two frames that were asked for */
    bool surveyed;
    double done_frac;
    char lost[LOST_SIZE];
};

PlumbFramesOptions plumb_frames_options(void)
{
    return (PlumbFramesOptions){
        .cache_bytes = (size_t)256 << 20,
        .silence_max_s = 20.0,
    };
}

static size_t frame_bytes(const PlumbFrames *f)
{
    return film_planes_bytes(f->source->width_px, f->source->height_px);
}

static PlumbStatus open_source(const char *path, const PlumbFramesOptions *options,
                               FramesSource **source, PlumbError *error)
{
    if (!isfinite(options->rate_per_s) || options->rate_per_s < 0.0 ||
        options->rate_per_s > 10000.0) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "rate",
                               "is no number of frames a second; 1 to 10000 are allowed");
    }
    struct stat about;
    if (stat(path, &about) != 0) {
        const int reason = errno;
        return plumb_file_fail(error, PLUMB_READ_FAILED, path, "could not be opened", reason);
    }
    if (S_ISDIR(about.st_mode)) {
        return plumb_frames_folder(path, options, source, error);
    }
    if (!S_ISREG(about.st_mode)) {
        return plumb_file_fail(error, PLUMB_UNSUPPORTED, path,
                               "is neither a folder of frames nor a file", 0);
    }
    return plumb_frames_video(path, options, source, error);
}

PlumbStatus plumb_frames_open(const char *path, const PlumbFramesOptions *options,
                              PlumbFrames **frames, PlumbError *error)
{
    PlumbFrames *const f = calloc(1, sizeof *f);
    if (f == NULL) {
        return plumb_file_no_memory(error, path);
    }
    f->options = options != NULL ? *options : plumb_frames_options();
    f->lent[0] = f->lent[1] = -1;
    PlumbStatus status = open_source(path, &f->options, &f->source, error);
    if (f->source != NULL) {
        const size_t slots = f->options.cache_bytes / frame_bytes(f);
        f->slots = slots < SLOTS_MIN          ? SLOTS_MIN
                   : slots > PLUMB_FRAMES_MAX ? PLUMB_FRAMES_MAX
                                              : (int)slots;
        f->slot = calloc((size_t)f->slots, sizeof *f->slot);
        f->path = strdup(path);
        if (f->slot == NULL || f->path == NULL) {
            status = plumb_file_no_memory(error, path);
        }
    }
    if (status != PLUMB_OK) {
        plumb_frames_close(f);
        return status;
    }
    *frames = f;
    return PLUMB_OK;
}

void plumb_frames_close(PlumbFrames *frames)
{
    if (frames == NULL) {
        return;
    }
    if (frames->source != NULL) {
        frames->source->kind->close(frames->source);
    }
    for (int i = 0; i < frames->slots_used; i++) {
        free(frames->slot[i].planes);
    }
    free(frames->slot);
    free(frames->frame);
    free(frames->path);
    free(frames);
}

/* A slot with memory that frame i may have: a new one while the store grows, else that of the frame
 * farthest from i which is not lent. -1: no memory, or (keep_nearer) every frame stored is nearer
 * to the beginning. */
static int slot_for(PlumbFrames *f, int i, bool keep_nearer)
{
    if (f->slots_used < f->slots) {
        Slot *const next = &f->slot[f->slots_used];
        *next = (Slot){-1, malloc(frame_bytes(f))};
        if (next->planes != NULL) {
            return f->slots_used++;
        }
    }
    int best = -1;
    int far = -1;
    for (int k = 0; k < f->slots_used && !keep_nearer; k++) {
        const int held = f->slot[k].frame;
        const bool lent = held >= 0 && (held == f->lent[0] || held == f->lent[1]);
        const int away = held < 0 ? PLUMB_FRAMES_MAX : abs(held - i);
        if (!lent && away > far) {
            far = away;
            best = k;
        }
    }
    if (best >= 0 && f->slot[best].frame >= 0) {
        f->frame[f->slot[best].frame].slot = -1;
        f->slot[best].frame = -1;
    }
    return best;
}

static void store(PlumbFrames *f, int i, int slot)
{
    f->slot[slot].frame = i;
    f->frame[i].slot = slot;
}

static PlumbStatus make_room(PlumbFrames *f, PlumbError *error)
{
    if (f->count < f->room) {
        return PLUMB_OK;
    }
    if (f->count == PLUMB_FRAMES_MAX) {
        return plumb_file_fail(error, PLUMB_TOO_LARGE, f->path,
                               "has 36000 frames or more; cut it to the lift", 0);
    }
    const int room = f->room == 0 ? 256 : 2 * f->room;
    Frame *const more = realloc(f->frame, (size_t)room * sizeof *more);
    if (more == NULL) {
        return plumb_file_no_memory(error, f->path);
    }
    f->frame = more;
    f->room = room;
    return PLUMB_OK;
}

static int compare_doubles(const void *a, const void *b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return x < y ? -1 : x > y ? 1 : 0;
}

/* Tells of gaps: intervals of more than GAP times the middle one. */
static void tell_gaps(const PlumbFrames *f, PlumbText *words)
{
    const int count = f->count - 1;
    double *const interval = count > 1 ? malloc((size_t)count * sizeof *interval) : NULL;
    if (interval == NULL) {
        return; /* nothing to compare with */
    }
    int longest = 0;
    for (int i = 0; i < count; i++) {
        interval[i] = plumb_frames_time_s(f, i + 1) - plumb_frames_time_s(f, i);
        longest = interval[i] > interval[longest] ? i : longest;
    }
    const double gap_s = interval[longest];
    qsort(interval, (size_t)count, sizeof *interval, compare_doubles);
    const double usual_s = interval[count / 2];
    int gaps = 0;
    for (int i = count; i > 0 && interval[i - 1] > GAP * usual_s; i--) {
        gaps++;
    }
    free(interval);
    if (gaps > 0) {
        plumb_text_string(words, words->length > 0 ? "; " : "");
        plumb_text_string(words, "frames may be missing in ");
        plumb_text_integer(words, gaps);
        plumb_text_string(words, gaps == 1 ? " gap of " : " gaps, the longest of ");
        plumb_text_fixed(words, gap_s, 2);
        plumb_text_string(words, " s at ");
        plumb_text_fixed(words, plumb_frames_time_s(f, longest), 2);
        plumb_text_string(words, " s");
    }
}

static PlumbStatus survey_end(PlumbFrames *f, PlumbError *error)
{
    f->surveyed = true;
    f->done_frac = 1.0;
    int damaged = 0;
    for (int i = 0; i < f->count; i++) {
        damaged += f->frame[i].damaged ? 1 : 0;
    }
    PlumbText words = plumb_text_begin(f->lost, sizeof f->lost);
    if (damaged > 0) {
        plumb_text_integer(&words, damaged);
        plumb_text_string(&words, damaged == 1 ? " frame comes" : " frames come");
        plumb_text_string(&words, " out of damaged data and may show what was never there");
    }
    f->source->kind->lost(f->source, &words);
    if (f->options.rate_per_s <= 0.0) { /* else nothing is known of the stream's own times */
        tell_gaps(f, &words);
    }
    if (f->count > 0) {
        return PLUMB_OK;
    }
    char what[LOST_SIZE + 64];
    PlumbText text = plumb_text_begin(what, sizeof what);
    plumb_text_string(&text, "holds not one frame that can be read");
    plumb_text_string(&text, f->lost[0] != '\0' ? ": " : "");
    plumb_text_string(&text, f->lost);
    return plumb_file_fail(error, PLUMB_UNSUPPORTED, f->path, what, 0);
}

static PlumbStatus survey_one(PlumbFrames *f, PlumbError *error)
{
    PlumbStatus status = make_room(f, error);
    if (status != PLUMB_OK) {
        return status;
    }
    const int slot = slot_for(f, f->count, true);
    if (slot < 0 && f->slots_used < SLOTS_MIN) {
        return plumb_file_no_memory(error, f->path);
    }
    FramesEntry entry = {0};
    status =
        f->source->kind->survey(f->source, slot < 0 ? NULL : f->slot[slot].planes, &entry, error);
    const bool frame = status == PLUMB_OK && !entry.end;
    if (frame) {
        f->frame[f->count++] = (Frame){entry.time_s, -1, entry.damaged};
        f->done_frac = fmin(entry.done_frac, 0.999);
    }
    if (frame && slot >= 0) {
        store(f, f->count - 1, slot);
    } else if (slot >= 0) {
        free(f->slot[--f->slots_used].planes); /* the last that was made */
    }
    return status == PLUMB_OK && entry.end ? survey_end(f, error) : status;
}

PlumbStatus plumb_frames_survey(PlumbFrames *frames, int most, double *done_frac, PlumbError *error)
{
    PlumbStatus status = PLUMB_OK;
    for (int i = 0; i < most && !frames->surveyed && status == PLUMB_OK; i++) {
        status = survey_one(frames, error);
    }
    if (done_frac != NULL) {
        *done_frac = frames->done_frac;
    }
    return status;
}

int plumb_frames_count(const PlumbFrames *frames)
{
    return frames->count;
}

void plumb_frames_size_px(const PlumbFrames *frames, int *width_px, int *height_px)
{
    *width_px = frames->source->width_px;
    *height_px = frames->source->height_px;
}

double plumb_frames_time_s(const PlumbFrames *frames, int i)
{
    const double rate = frames->options.rate_per_s;
    const bool folder = frames->source->kind->timed_by_rate;
    return rate > 0.0 && !folder ? i / rate : frames->frame[i].time_s - frames->frame[0].time_s;
}

bool plumb_frames_damaged(const PlumbFrames *frames, int i)
{
    return frames->frame[i].damaged;
}

const char *plumb_frames_lost(const PlumbFrames *frames)
{
    return frames->lost;
}

/* Reads frame i into the store. */
static PlumbStatus fetch(PlumbFrames *f, int i, PlumbError *error)
{
    if (f->frame[i].slot >= 0) {
        return PLUMB_OK;
    }
    const int slot = slot_for(f, i, false);
    if (slot < 0) {
        return plumb_file_no_memory(error, f->path);
    }
    const bool forward = i > 0 && (f->lent[0] == i - 1 || f->frame[i - 1].slot >= 0);
    const bool ahead = forward && i + 1 < f->count && f->frame[i + 1].slot < 0;
    const PlumbStatus status =
        f->source->kind->frame(f->source, i, ahead ? i + 1 : -1, f->slot[slot].planes, error);
    if (status == PLUMB_OK) {
        store(f, i, slot);
    }
    return status;
}

/* Frame i in the store and lent. A step back brings the frames before it along, because a video is
 * unpacked forwards only. */
static PlumbStatus lend(PlumbFrames *f, int i, const uint8_t **planes, PlumbError *error)
{
    if (i < 0 || i >= f->count) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "frame", "there is no frame of that number");
    }
    if (f->frame[i].slot < 0 && i + 1 == f->lent[0]) {
        const int back = f->slots - 2 < BACK ? f->slots - 2 : BACK;
        for (int k = i - back + 1 < 0 ? 0 : i - back + 1; k < i; k++) {
            (void)fetch(f, k, NULL); /* a frame that fails is told when it is asked for */
        }
    }
    const PlumbStatus status = fetch(f, i, error);
    if (status == PLUMB_OK) {
        if (f->lent[0] != i) {
            f->lent[1] = f->lent[0];
            f->lent[0] = i;
        }
        *planes = f->slot[f->frame[i].slot].planes;
    }
    return status;
}

PlumbStatus plumb_frames_gray(PlumbFrames *frames, int i, PlumbGray *gray, PlumbError *error)
{
    const uint8_t *planes = NULL;
    const PlumbStatus status = lend(frames, i, &planes, error);
    if (status == PLUMB_OK) {
        const int width = frames->source->width_px;
        *gray = (PlumbGray){width, frames->source->height_px, width, planes};
    }
    return status;
}

PlumbStatus plumb_frames_photo(PlumbFrames *frames, int i, PlumbPhoto *photo, PlumbError *error)
{
    const uint8_t *planes = NULL;
    const PlumbStatus status = lend(frames, i, &planes, error);
    if (status != PLUMB_OK) {
        return status;
    }
    const FramesSource *const s = frames->source;
    uint32_t *const pixel = malloc((size_t)s->width_px * (size_t)s->height_px * sizeof *pixel);
    if (pixel == NULL) {
        return plumb_file_no_memory(error, frames->path);
    }
    plumb_planes_to_pixels(planes, s->width_px, s->height_px, s->hd, pixel);
    *photo = (PlumbPhoto){s->width_px, s->height_px, pixel};
    return PLUMB_OK;
}
