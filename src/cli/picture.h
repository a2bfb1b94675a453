/* SPDX-License-Identifier: MIT */
/* A scene as a file of the kind that its name asks for. */
#ifndef PLUMBAR_CLI_PICTURE_H
#define PLUMBAR_CLI_PICTURE_H

#include "args.h"

#include <plumbar/underlay.h>

/* plumb_picture_find; NULL is SVG. PLUMB_BAD_INPUT lists the endings. */
PlumbStatus plumb_picture_choose(const char *path, PlumbPictureKind *kind, PlumbCliFault *fault);

/* Renders with the paper and date of args. */
PlumbStatus plumb_picture_render(const PlumbScene *scene, PlumbPictureKind kind,
                                 const PlumbCliArgs *args, PlumbBytes *bytes, PlumbError *error);

#endif
