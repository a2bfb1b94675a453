/* SPDX-License-Identifier: MIT */
/* Pictures unpacked by SDL2_image, each kind by its own loader: the first bytes decide, never the
 * name, so that no other loader of that library is ever reached. */
#include <plumbar/photo.h>

#include "io/photo_turn.h"

#include <stdlib.h>
#include <string.h>

#ifdef PLUMB_HAS_PICTURES

#include <SDL_image.h>

bool plumb_photo_supported(void)
{
    return true;
}

static PlumbStatus copy_pixels(const SDL_Surface *plain, const PlumbPhotoHead *head,
                               PlumbPhoto *photo, PlumbError *error)
{
    const size_t count = (size_t)plain->w * (size_t)plain->h;
    uint32_t *const pixel = malloc(count * sizeof *pixel);
    if (pixel == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "picture", "no memory for its pixels");
    }
    for (int y = 0; y < plain->h; y++) {
        const char *const row = (const char *)plain->pixels + (size_t)y * (size_t)plain->pitch;
        if (head->turn == 1) {
            memcpy(pixel + (size_t)y * (size_t)plain->w, row, (size_t)plain->w * sizeof *pixel);
        } else {
            plumb_turn_row((const uint32_t *)(const void *)row, y, plain->w, plain->h, head->turn,
                           pixel);
        }
    }
    *photo = (PlumbPhoto){head->width_px, head->height_px, pixel};
    return PLUMB_OK;
}

PlumbStatus plumb_photo_unpack(const void *bytes, size_t length, PlumbPhoto *photo,
                               PlumbError *error)
{
    PlumbPhotoHead head;
    const PlumbStatus status = plumb_photo_head(bytes, length, &head, error);
    if (status != PLUMB_OK) {
        return status;
    }
    SDL_RWops *const from =
        length <= PLUMB_PHOTO_MAX_BYTES ? SDL_RWFromConstMem(bytes, (int)length) : NULL;
    SDL_Surface *loaded = NULL;
    if (from != NULL) {
        loaded = head.kind == PLUMB_PHOTO_PNG ? IMG_LoadPNG_RW(from) : IMG_LoadJPG_RW(from);
        SDL_RWclose(from);
    }
    SDL_Surface *const plain =
        loaded != NULL ? SDL_ConvertSurfaceFormat(loaded, SDL_PIXELFORMAT_RGB888, 0) : NULL;
    SDL_FreeSurface(loaded);
    const bool exchanged = plumb_turn_exchanges(head.turn);
    if (plain == NULL || plain->w != (exchanged ? head.height_px : head.width_px) ||
        plain->h != (exchanged ? head.width_px : head.height_px)) {
        SDL_FreeSurface(plain);
        return plumb_error_set(error, PLUMB_UNSUPPORTED, "picture",
                               "is damaged; export it again as PNG or JPEG");
    }
    const PlumbStatus copied = copy_pixels(plain, &head, photo, error);
    SDL_FreeSurface(plain);
    return copied;
}

#else

bool plumb_photo_supported(void)
{
    return false;
}

PlumbStatus plumb_photo_unpack(const void *bytes, size_t length, PlumbPhoto *photo,
                               PlumbError *error)
{
    PlumbPhotoHead head;
    (void)photo;
    const PlumbStatus status = plumb_photo_head(bytes, length, &head, error);
    return status != PLUMB_OK
               ? status
               : plumb_error_set(error, PLUMB_UNSUPPORTED, "picture",
                                 "this build has no SDL2_image (libsdl2-image-dev), so that marks "
                                 "are read without their picture");
}

#endif

void plumb_photo_free(PlumbPhoto *photo)
{
    free(photo->pixel);
    photo->pixel = NULL;
}
