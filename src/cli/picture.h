/* SPDX-License-Identifier: MIT */
/* A scene as a file of the kind that its name asks for. */
#ifndef PLUMBAR_CLI_PICTURE_H
#define PLUMBAR_CLI_PICTURE_H

#include "args.h"

#include <plumbar/draw.h>

typedef enum PlumbCliPicture {
    PLUMB_PICTURE_SVG,
    PLUMB_PICTURE_PDF,
    PLUMB_PICTURE_PNG,
    PLUMB_PICTURE_COUNT
} PlumbCliPicture;

/* The kind that the ending of path names; false where it is none. */
bool plumb_picture_find(const char *path, PlumbCliPicture *kind);
/* The same; NULL is SVG. PLUMB_BAD_INPUT lists the endings. */
PlumbStatus plumb_picture_choose(const char *path, PlumbCliPicture *kind, PlumbCliFault *fault);

/* Renders with the paper and date of args. */
PlumbStatus plumb_picture_render(const PlumbScene *scene, PlumbCliPicture kind,
                                 const PlumbCliArgs *args, PlumbBytes *bytes, PlumbError *error);

#endif
