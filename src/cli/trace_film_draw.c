/* SPDX-License-Identifier: MIT */
/* The chart of a film as a file. */
#include "picture.h"
#include "trace_film.h"

#include <plumbar/draw.h>
#include <plumbar/film_chart.h>

#include <stdlib.h>
#include <string.h>

PlumbStatus plumb_film_draw(const PlumbCliFilm *film, const PlumbCliArgs *args, PlumbCliOutput *out,
                            PlumbCliFault *fault)
{
    PlumbPictureKind kind = PLUMB_PICTURE_SVG;
    PlumbBytes bytes = {.data = NULL};
    PlumbScene *const scene = calloc(1, sizeof *scene);
    PlumbFont *const font = plumb_font_create();
    fault->path[0] = '\0';
    PlumbStatus status = plumb_picture_choose(args->output, &kind, fault);
    if (status == PLUMB_OK && (scene == NULL || font == NULL)) {
        status =
            plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing", "no memory for the drawing");
    }
    if (status == PLUMB_OK) {
        const char *const slash = strrchr(film->film_path, '/');
        const bool named = slash != NULL && slash[1] != '\0';
        const PlumbFilmChart chart = {.series = &film->series,
                                      .finding = film->finding,
                                      .finding_count = film->finding_count,
                                      .name = named ? slash + 1 : film->film_path,
                                      .date = args->date,
                                      .units = args->units,
                                      .cursor = -1,
                                      .text_scale = 1.0,
                                      .text_width = plumb_font_width,
                                      .text_user = font};
        plumb_compose_film(scene, &chart,
                           args->letter ? PLUMB_LETTER_LANDSCAPE : PLUMB_A4_LANDSCAPE);
        status = plumb_picture_render(scene, kind, args, &bytes, &fault->error);
    }
    if (status == PLUMB_OK) {
        plumb_output_bytes(out, (const char *)bytes.data, bytes.length);
    }
    plumb_bytes_free(&bytes);
    plumb_font_destroy(font);
    free(scene);
    plumb_draw_finish();
    return status;
}
