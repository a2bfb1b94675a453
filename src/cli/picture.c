/* SPDX-License-Identifier: MIT */
/* A scene as a file of the kind that its name asks for. */
#include "picture.h"

PlumbStatus plumb_picture_choose(const char *path, PlumbPictureKind *kind, PlumbCliFault *fault)
{
    *kind = PLUMB_PICTURE_SVG;
    if (path == NULL || plumb_picture_find(path, kind)) {
        return PLUMB_OK;
    }
    return plumb_fault_bad(fault, "--output", "'", path, "' ends in none of .svg, .pdf and .png");
}

PlumbStatus plumb_picture_render(const PlumbScene *scene, PlumbPictureKind kind,
                                 const PlumbCliArgs *args, PlumbBytes *bytes, PlumbError *error)
{
    return plumb_underlay_file(scene, kind, args->dark ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER, NULL,
                               args->date, bytes, error);
}
