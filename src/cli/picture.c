/* SPDX-License-Identifier: MIT */
/* A scene as a file of the kind that its name asks for. */
#include "picture.h"

#include <string.h>

enum { DATE_SIZE = 32 };

/* About 200 dots an inch. */
static const double png_px_per_mm = 8.0;

static bool ends_in(const char *path, const char *ending)
{
    const size_t length = strlen(path);
    const size_t tail = strlen(ending);
    return length > tail && strcmp(path + length - tail, ending) == 0;
}

bool plumb_picture_find(const char *path, PlumbCliPicture *kind)
{
    static const char *const endings[PLUMB_PICTURE_COUNT] = {".svg", ".pdf", ".png"};
    for (int i = 0; i < PLUMB_PICTURE_COUNT; i++) {
        if (ends_in(path, endings[i])) {
            *kind = (PlumbCliPicture)i;
            return true;
        }
    }
    return false;
}

PlumbStatus plumb_picture_choose(const char *path, PlumbCliPicture *kind, PlumbCliFault *fault)
{
    *kind = PLUMB_PICTURE_SVG;
    if (path == NULL || plumb_picture_find(path, kind)) {
        return PLUMB_OK;
    }
    return plumb_fault_bad(fault, "--output", "'", path, "' ends in none of .svg, .pdf and .png");
}

PlumbStatus plumb_picture_render(const PlumbScene *scene, PlumbCliPicture kind,
                                 const PlumbCliArgs *args, PlumbBytes *bytes, PlumbError *error)
{
    const PlumbPaper paper = args->dark ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER;
    if (kind == PLUMB_PICTURE_PNG) {
        return plumb_draw_png(scene, paper, png_px_per_mm, bytes, error);
    }
    if (kind == PLUMB_PICTURE_SVG) {
        return plumb_draw_svg(scene, paper, bytes, error);
    }
    char date[DATE_SIZE];
    PlumbText text = plumb_text_begin(date, sizeof date);
    plumb_text_string(&text, args->date);
    plumb_text_string(&text, "T12:00:00Z");
    return plumb_draw_pdf(scene, paper, date, bytes, error);
}
