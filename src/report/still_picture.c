/* SPDX-License-Identifier: MIT */
/* Unpacks the picture of a still for the page that it is drawn on. */
#include <plumbar/still_picture.h>

#include <plumbar/file.h>

#include <stdlib.h>

PlumbStatus plumb_still_picture(const char *path, PlumbStillPicture *picture, PlumbUnderlay *under,
                                PlumbError *error)
{
    PlumbPhotoHead head = {.kind = PLUMB_PHOTO_PNG};
    size_t length = 0;
    if (path[0] == '\0' || !plumb_photo_supported()) {
        return PLUMB_OK;
    }
    PlumbStatus status =
        plumb_file_read_whole(path, PLUMB_PHOTO_MAX_BYTES, &picture->file, &length, error);
    status = status == PLUMB_OK ? plumb_photo_head(picture->file, length, &head, error) : status;
    status = status == PLUMB_OK ? plumb_photo_unpack(picture->file, length, &picture->photo, error)
                                : status;
    if (status == PLUMB_OK) {
        *under =
            (PlumbUnderlay){.width_px = picture->photo.width_px,
                            .height_px = picture->photo.height_px,
                            .pixel = picture->photo.pixel,
                            /* Not everything that shows an SVG turns it. */
                            .file = head.turn == 1 ? (const unsigned char *)picture->file : NULL,
                            .file_length = length,
                            .jpeg = head.turn == 1 && head.kind == PLUMB_PHOTO_JPEG,
                            .strength = PLUMB_STILL_STRENGTH};
    }
    return status;
}

void plumb_still_picture_free(PlumbStillPicture *picture)
{
    plumb_photo_free(&picture->photo);
    free(picture->file);
}
