/* SPDX-License-Identifier: MIT */
/* The picture that lies below a drawn still. */
#ifndef PLUMBAR_STILL_PICTURE_H
#define PLUMBAR_STILL_PICTURE_H

#include <plumbar/photo.h>
#include <plumbar/underlay.h>

/* How much of a picture shows through the paper below its drawing. */
#define PLUMB_STILL_STRENGTH 0.55

/* A picture unpacked; the underlay points into it. Begin with zeros. */
typedef struct PlumbStillPicture {
    char *file;
    PlumbPhoto photo;
} PlumbStillPicture;

/* Unpacks the picture at path into *under, its place left out; "" or no loader: *under stays plain.
 * Fails as plumb_file_read_whole and plumb_photo_unpack. */
PlumbStatus plumb_still_picture(const char *path, PlumbStillPicture *picture, PlumbUnderlay *under,
                                PlumbError *error);
void plumb_still_picture_free(PlumbStillPicture *picture);

#endif
