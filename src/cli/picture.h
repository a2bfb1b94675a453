/* SPDX-License-Identifier: MIT */
/* A scene as a file of the kind that its name asks for. */
#ifndef PLUMBAR_CLI_PICTURE_H
#define PLUMBAR_CLI_PICTURE_H

#include "args.h"

#include <plumbar/underlay.h>

/* PLUMB_BAD_INPUT where no file is named and standard output is a terminal; name: a file that could
 * be. */
PlumbStatus plumb_picture_elsewhere(const char *path, const char *name, PlumbCliFault *fault);

/* plumb_picture_find; NULL is SVG, though not on a terminal. PLUMB_BAD_INPUT lists the endings. */
PlumbStatus plumb_picture_choose(const char *path, PlumbPictureKind *kind, PlumbCliFault *fault);

/* Renders with the paper and date of args. */
PlumbStatus plumb_picture_render(const PlumbScene *scene, PlumbPictureKind kind,
                                 const PlumbCliArgs *args, PlumbBytes *bytes, PlumbError *error);

#endif
