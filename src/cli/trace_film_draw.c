/* SPDX-License-Identifier: MIT */
/* A film as a file of the kind that the name asks for. */
#include "picture.h"
#include "trace_film.h"

#include <plumbar/film_pages.h>

#include <string.h>

PlumbStatus plumb_film_draw(const PlumbCliFilm *film, const PlumbCliArgs *args, PlumbCliOutput *out,
                            PlumbCliFault *fault)
{
    const char *const slash = strrchr(film->film_path, '/');
    const bool named = slash != NULL && slash[1] != '\0';
    const PlumbFilmPages pages = {.read = film->read,
                                  .name = named ? slash + 1 : film->film_path,
                                  .day = args->date,
                                  .units = args->units,
                                  .letter = args->letter,
                                  .paper = args->dark ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER};
    PlumbPictureKind kind = PLUMB_PICTURE_SVG;
    PlumbBytes bytes = {.data = NULL};
    fault->path[0] = '\0';
    PlumbStatus status = plumb_picture_choose(args->output, &kind, fault);
    if (status == PLUMB_OK) {
        status = plumb_film_pages_make(&pages, kind, NULL, NULL, &bytes, &fault->error);
    }
    if (status == PLUMB_OK) {
        plumb_output_bytes(out, (const char *)bytes.data, bytes.length);
    }
    plumb_bytes_free(&bytes);
    plumb_draw_finish();
    return status;
}
