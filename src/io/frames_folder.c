/* SPDX-License-Identifier: MIT */
/* A folder of pictures as a film: PNG and JPEG files in the order of their names, timed by a rate.
 */
#include <plumbar/file.h>
#include <plumbar/format.h>

#include "io/fail.h"
#include "io/frames_source.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

enum { WORDS_SIZE = 160 };

typedef struct Folder {
    FramesSource source;
    double rate_per_s;
    char *path;
    char **name;
    int count;
    int room;
    int *frame; /* the names of the frames that could be read, by number */
    int frames;
    int next;         /* name to look at */
    int unread_count; /* pictures left out */
    char unread[WORDS_SIZE];
} Folder;

static bool digit(char c)
{
    return c >= '0' && c <= '9';
}

/* Order of names: runs of digits by value, all else by bytes. */
static int compare_names(const char *a, const char *b)
{
    const char *const whole_a = a;
    const char *const whole_b = b;
    while (*a != '\0' && *b != '\0') {
        if (!digit(*a) || !digit(*b)) {
            if (*a != *b) {
                return (unsigned char)*a - (unsigned char)*b;
            }
            a++;
            b++;
            continue;
        }
        a += strspn(a, "0");
        b += strspn(b, "0");
        const size_t digits_a = strspn(a, "0123456789");
        const size_t digits_b = strspn(b, "0123456789");
        if (digits_a != digits_b) {
            return digits_a < digits_b ? -1 : 1;
        }
        const int order = strncmp(a, b, digits_a);
        if (order != 0) {
            return order;
        }
        a += digits_a;
        b += digits_b;
    }
    const int rest = (unsigned char)*a - (unsigned char)*b;
    return rest != 0 ? rest : strcmp(whole_a, whole_b);
}

static int compare_rows(const void *a, const void *b)
{
    return compare_names(*(char *const *)a, *(char *const *)b);
}

static bool picture_name(const char *name)
{
    const char *const ending = strrchr(name, '.');
    return name[0] != '.' && ending != NULL &&
           (strcasecmp(ending, ".png") == 0 || strcasecmp(ending, ".jpg") == 0 ||
            strcasecmp(ending, ".jpeg") == 0);
}

static void folder_close(FramesSource *source)
{
    Folder *const f = (Folder *)source;
    for (int i = 0; i < f->count; i++) {
        free(f->name[i]);
    }
    free((void *)f->name);
    free(f->frame);
    free(f->path);
    free(f);
}

static PlumbStatus add_name(Folder *f, const char *name, PlumbError *error)
{
    if (f->count == PLUMB_FRAMES_MAX) {
        return plumb_file_fail(error, PLUMB_TOO_LARGE, f->path,
                               "has more than 36000 frames; leave those of the lift", 0);
    }
    if (f->count == f->room) {
        const int room = f->room == 0 ? 256 : 2 * f->room;
        char **const more = realloc((void *)f->name, (size_t)room * sizeof *more);
        if (more == NULL) {
            return plumb_file_no_memory(error, f->path);
        }
        f->name = more;
        f->room = room;
    }
    f->name[f->count] = strdup(name);
    if (f->name[f->count] == NULL) {
        return plumb_file_no_memory(error, f->path);
    }
    f->count++;
    return PLUMB_OK;
}

static PlumbStatus list_names(Folder *f, PlumbError *error)
{
    DIR *const directory = opendir(f->path);
    if (directory == NULL) {
        const int reason = errno;
        return plumb_file_fail(error, PLUMB_READ_FAILED, f->path, "could not be opened", reason);
    }
    PlumbStatus status = PLUMB_OK;
    for (const struct dirent *entry; status == PLUMB_OK && (entry = readdir(directory)) != NULL;) {
        if (picture_name(entry->d_name)) {
            status = add_name(f, entry->d_name, error);
        }
    }
    closedir(directory);
    if (status == PLUMB_OK && f->count == 0) {
        return plumb_file_fail(error, PLUMB_BAD_INPUT, f->path,
                               "holds no PNG or JPEG pictures; a folder of frames is needed", 0);
    }
    if (status == PLUMB_OK) {
        qsort((void *)f->name, (size_t)f->count, sizeof *f->name, compare_rows);
    }
    return status;
}

/* The bytes of picture number i; the caller frees. */
static PlumbStatus read_picture(const Folder *f, int i, char **bytes, size_t *length,
                                PlumbError *error)
{
    const size_t size = strlen(f->path) + strlen(f->name[i]) + 2;
    char *const path = malloc(size);
    if (path == NULL) {
        return plumb_file_no_memory(error, f->name[i]);
    }
    PlumbText text = plumb_text_begin(path, size);
    plumb_text_string(&text, f->path);
    plumb_text_char(&text, '/');
    plumb_text_string(&text, f->name[i]);
    const PlumbStatus status =
        plumb_file_read_whole(path, PLUMB_PHOTO_MAX_BYTES, bytes, length, error);
    free(path);
    return status;
}

/* The first picture whose head can be read gives the size of all. */
static PlumbStatus find_size(Folder *f, PlumbError *error)
{
    PlumbError last = {0};
    for (int i = 0; i < f->count; i++) {
        char *bytes = NULL;
        size_t length = 0;
        PlumbPhotoHead head = {0};
        PlumbStatus status = read_picture(f, i, &bytes, &length, &last);
        if (status == PLUMB_OK) {
            status = plumb_photo_head(bytes, length, &head, &last);
            free(bytes);
        }
        if (status != PLUMB_OK) {
            continue;
        }
        if ((long long)head.width_px * head.height_px > PLUMB_FRAMES_PIXELS_MAX) {
            return plumb_file_fail(error, PLUMB_TOO_LARGE, f->name[i],
                                   "a frame has at most 10 million pixels; scale the frames down",
                                   0);
        }
        f->source.width_px = head.width_px;
        f->source.height_px = head.height_px;
        return PLUMB_OK;
    }
    return plumb_file_fail(error, PLUMB_UNSUPPORTED, f->name[0], last.message, 0);
}

/* Unpacks picture i into planes (may be NULL). */
static PlumbStatus unpack(const Folder *f, int i, uint8_t *planes, PlumbError *error)
{
    char *bytes = NULL;
    size_t length = 0;
    PlumbStatus status = read_picture(f, i, &bytes, &length, error);
    if (status != PLUMB_OK) {
        return status;
    }
    PlumbPhotoHead head;
    PlumbPhoto photo = {0};
    status = plumb_photo_head(bytes, length, &head, error);
    if (status == PLUMB_OK &&
        (head.width_px != f->source.width_px || head.height_px != f->source.height_px)) {
        status = plumb_error_set(error, PLUMB_BAD_INPUT, "picture",
                                 "has another size than the first frame");
    }
    if (status == PLUMB_OK) {
        status = plumb_photo_unpack(bytes, length, &photo, error);
    }
    free(bytes);
    if (status == PLUMB_OK && planes != NULL) {
        plumb_planes_from_pixels(photo.pixel, photo.width_px, photo.height_px, planes);
    }
    plumb_photo_free(&photo);
    return status;
}

static void note_unread(Folder *f, int i, const PlumbError *why)
{
    if (f->unread_count++ == 0) {
        PlumbText text = plumb_text_begin(f->unread, sizeof f->unread);
        plumb_text_quoted(&text, f->name[i], strlen(f->name[i]));
        plumb_text_char(&text, ' ');
        plumb_text_string(&text, why->message);
    }
}

static PlumbStatus folder_survey(FramesSource *source, uint8_t *planes, FramesEntry *entry,
                                 PlumbError *error)
{
    Folder *const f = (Folder *)source;
    while (f->next < f->count) {
        const int i = f->next++;
        PlumbError why;
        const PlumbStatus status = unpack(f, i, planes, &why);
        if (status == PLUMB_OK) {
            f->frame[f->frames++] = i;
            *entry =
                (FramesEntry){.time_s = i / f->rate_per_s, .done_frac = (double)(i + 1) / f->count};
            return PLUMB_OK;
        }
        if (status == PLUMB_OUT_OF_MEMORY || !plumb_photo_supported()) {
            return plumb_file_fail(error, status, f->name[i], why.message, 0);
        }
        note_unread(f, i, &why);
    }
    *entry = (FramesEntry){.done_frac = 1.0, .end = true};
    return PLUMB_OK;
}

static PlumbStatus folder_frame(FramesSource *source, int i, int ahead, uint8_t *planes,
                                PlumbError *error)
{
    const Folder *const f = (const Folder *)source;
    (void)ahead;
    PlumbError why;
    const PlumbStatus status = unpack(f, f->frame[i], planes, &why);
    return status == PLUMB_OK
               ? status
               : plumb_file_fail(error, PLUMB_READ_FAILED, f->name[f->frame[i]], why.message, 0);
}

static void folder_lost(const FramesSource *source, PlumbText *words)
{
    const Folder *const f = (const Folder *)source;
    if (f->unread_count == 0) {
        return;
    }
    plumb_text_string(words, words->length > 0 ? "; " : "");
    plumb_text_integer(words, f->unread_count);
    plumb_text_string(words, f->unread_count == 1 ? " picture is left out: "
                                                  : " pictures are left out, the first: ");
    plumb_text_string(words, f->unread);
}

static const FramesKind folder_kind = {
    .survey = folder_survey,
    .frame = folder_frame,
    .lost = folder_lost,
    .close = folder_close,
    .timed_by_rate = true,
};

PlumbStatus plumb_frames_folder(const char *path, const PlumbFramesOptions *options,
                                FramesSource **source, PlumbError *error)
{
    if (options->rate_per_s <= 0.0) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "rate",
                               "is missing; a folder of frames needs its frames a second: the rate "
                               "at which it was filmed, such as 30");
    }
    Folder *const f = calloc(1, sizeof *f);
    if (f == NULL) {
        return plumb_file_no_memory(error, path);
    }
    f->source.kind = &folder_kind;
    f->rate_per_s = options->rate_per_s;
    f->path = strdup(path);
    PlumbStatus status = f->path != NULL ? list_names(f, error) : plumb_file_no_memory(error, path);
    if (status == PLUMB_OK && f->count > 0) {
        f->frame = calloc((size_t)f->count, sizeof *f->frame);
        status = f->frame != NULL ? find_size(f, error) : plumb_file_no_memory(error, path);
    }
    if (status != PLUMB_OK) {
        folder_close(&f->source);
        return status;
    }
    *source = &f->source;
    return PLUMB_OK;
}
