/* SPDX-License-Identifier: MIT */
/* A scene as a file of the kind that its name asks for. */
#include "picture.h"

#include <string.h>

static bool ends_in(const char *path, const char *ending)
{
    const size_t length = strlen(path);
    const size_t tail = strlen(ending);
    return length > tail && strcmp(path + length - tail, ending) == 0;
}

bool plumb_picture_find(const char *path, PlumbPictureKind *kind)
{
    static const char *const endings[PLUMB_PICTURE_COUNT] = {".svg", ".pdf", ".png"};
    for (int i = 0; i < PLUMB_PICTURE_COUNT; i++) {
        if (ends_in(path, endings[i])) {
            *kind = (PlumbPictureKind)i;
            return true;
        }
    }
    return false;
}

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
