/* SPDX-License-Identifier: MIT */
/* Pictures in: PNG and JPEG, told by their first bytes and measured before anything is unpacked. */
#ifndef PLUMBAR_PHOTO_H
#define PLUMBAR_PHOTO_H

#include <plumbar/file.h>

#include <stdbool.h>
#include <stdint.h>

enum {
    PLUMB_PHOTO_MAX_BYTES = 64 << 20,
    PLUMB_PHOTO_SIDE_MAX = 16384,
    PLUMB_PHOTO_PIXELS_MAX = 60000000
};

typedef enum PlumbPhotoKind { PLUMB_PHOTO_PNG, PLUMB_PHOTO_JPEG } PlumbPhotoKind;

typedef struct PlumbPhotoHead {
    PlumbPhotoKind kind;
    int width_px; /* these as a person sees it: turned */
    int height_px;
    int turn; /* how what is stored is to be turned, 1 (not at all) to 8, as EXIF counts */
} PlumbPhotoHead;

/* Kind and size from the first bytes of a picture. A JPEG whose EXIF block says how the camera was
 * held is turned by it, here and wherever it is unpacked; a PNG is taken as it is.
 * PLUMB_UNSUPPORTED: neither PNG nor JPEG, or one cut short; PLUMB_TOO_LARGE: a side above 16384 px
 * or more than 60 million pixels. */
PlumbStatus plumb_photo_head(const void *bytes, size_t length, PlumbPhotoHead *head,
                             PlumbError *error);

/* A picture unpacked and turned: rows of 32 bit 0x00RRGGBB without gaps. Heap memory, freed by
 * plumb_photo_free. */
typedef struct PlumbPhoto {
    int width_px;
    int height_px;
    uint32_t *pixel;
} PlumbPhoto;

/* Whether this build unpacks pictures (SDL2_image was found). */
bool plumb_photo_supported(void);

/* Unpacks bytes with the loader of their own kind. PLUMB_UNSUPPORTED also where the build has no
 * loader or the picture is damaged; *photo is untouched on failure. */
PlumbStatus plumb_photo_unpack(const void *bytes, size_t length, PlumbPhoto *photo,
                               PlumbError *error);
void plumb_photo_free(PlumbPhoto *photo);

#endif
