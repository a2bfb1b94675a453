/* SPDX-License-Identifier: MIT */
/* The Trace page as a file: the annotated picture on show, and its readings as CSV. */
#include "page_trace.h"

#include "path.h"
#include "reel.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double strength = 0.55;
static const double px_per_mm = 8.0;

static PlumbStatus draw(const PlumbScene *scene, const PlumbUnderlay *under, const char *path,
                        const char *date, PlumbBytes *bytes, PlumbError *error)
{
    if (plumb_path_ends(path, ".svg")) {
        return plumb_underlay_svg(scene, PLUMB_LIGHT_PAPER, under, 1, bytes, error);
    }
    if (plumb_path_ends(path, ".png")) {
        return plumb_underlay_png(scene, PLUMB_LIGHT_PAPER, under, 1, px_per_mm, bytes, error);
    }
    if (plumb_path_ends(path, ".pdf")) {
        return plumb_underlay_pdf(&scene, PLUMB_LIGHT_PAPER, under, 1, date, bytes, error);
    }
    return plumb_error_set(error, PLUMB_BAD_INPUT, "export",
                           "the name has to end in .pdf, .svg, .png or .csv");
}

PlumbStatus plumb_trace_export(PlumbDesk *desk, const char *path, const char *date,
                               PlumbBytes *bytes, PlumbError *error)
{
    const PlumbTracing *const t = desk->tracing;
    plumb_trace_work(desk, 1.0); /* what was marked last is in it */
    if (plumb_trace_read(desk) == NULL) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "export",
                               "there is no fit to draw yet; a picture needs three marks or more");
    }
    PlumbUnderlay under = {.strength = strength};
    char *file = NULL;
    PlumbPhotoHead head = {.kind = PLUMB_PHOTO_PNG};
    if (t->pyramid.level_count > 0) {
        const PlumbStatus status = plumb_file_read_whole(t->pyramid.path, PLUMB_PHOTO_MAX_BYTES,
                                                         &file, &under.file_length, error);
        if (status != PLUMB_OK ||
            plumb_photo_head(file, under.file_length, &head, error) != PLUMB_OK) {
            free(file);
            return PLUMB_UNSUPPORTED;
        }
        under.width_px = t->pyramid.photo.width_px;
        under.height_px = t->pyramid.photo.height_px;
        under.pixel = t->pyramid.photo.pixel;
        under.file = head.turn == 1 ? (const unsigned char *)file : NULL; /* not all turn it */
        under.jpeg = under.file != NULL && head.kind == PLUMB_PHOTO_JPEG;
    }
    PlumbStatus status = PLUMB_OUT_OF_MEMORY;
    PlumbScene *const scene = malloc(sizeof *scene);
    if (scene == NULL) {
        plumb_error_set(error, status, "export", "out of memory");
    } else {
        plumb_compose_still_page(scene, &t->stills, t->fitted[plumb_marked_view(&desk->now.marked)],
                                 0.0, desk->units, plumb_font_width, desk->font,
                                 under.pixel != NULL ? &under.at : NULL);
        status = draw(scene, &under, path, date, bytes, error);
    }
    free(scene);
    free(file);
    return status;
}

static void cell(PlumbText *text, double value)
{
    plumb_text_char(text, ',');
    if (isfinite(value)) {
        plumb_text_fixed(text, value, 6);
    }
}

void plumb_trace_csv(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbTracing *const t = desk->tracing;
    const PlumbTraced *const traced = plumb_trace_read(desk);
    if (plumb_reel_written(desk)) {
        plumb_reel_csv(desk, text);
        return;
    }
    plumb_text_string(text, "figure,picture,sd,less_model\n");
    for (int i = 0; traced != NULL && i < PLUMB_READING_COUNT; i++) {
        const PlumbReading reading = (PlumbReading)i;
        const int still = t->fitted[plumb_marked_view(&desk->now.marked)];
        if (plumb_stills_shows(&t->stills, still, reading)) {
            plumb_text_string(text, plumb_reading_name(reading));
            plumb_text_string(text, plumb_reading_unit(plumb_reading_quantity(reading)));
            cell(text, traced->value[i]);
            cell(text, traced->sd[i]);
            cell(text, plumb_stills_difference(&t->stills, still, reading));
            plumb_text_char(text, '\n');
        }
    }
}
