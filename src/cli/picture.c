/* SPDX-License-Identifier: MIT */
/* A scene as a file of the kind that its name asks for. */
#include "picture.h"

#include <unistd.h>

PlumbStatus plumb_picture_elsewhere(const char *path, const char *name, PlumbCliFault *fault)
{
    if (path != NULL || isatty(STDOUT_FILENO) == 0) {
        return PLUMB_OK;
    }
    return plumb_fault_bad(fault, "--output",
                           "is missing, and this is a terminal, which shows no picture; write -o ",
                           name, ", or send it on with > or |");
}

PlumbStatus plumb_picture_choose(const char *path, PlumbPictureKind *kind, PlumbCliFault *fault)
{
    *kind = PLUMB_PICTURE_SVG;
    if (plumb_picture_elsewhere(path, "sheet.svg", fault) != PLUMB_OK) {
        return PLUMB_BAD_INPUT;
    }
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
