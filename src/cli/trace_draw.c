/* SPDX-License-Identifier: MIT */
/* Every still drawn over its picture: a page each of a PDF, one below the other in SVG and PNG. */
#include "picture.h"
#include "trace_still.h"

#include <plumbar/underlay.h>

#include <stdlib.h>
#include <string.h>

static const double px_per_mm = 8.0;
static const double side_most_px = 30000.0; /* of a PNG; cairo ends at 32767 */

/* What one still needs while the file is made. */
typedef struct Sheet {
    PlumbScene *scene; /* of its own, or NULL: it stands on the first one's */
    PlumbStillPicture picture;
} Sheet;

typedef struct Sheets {
    Sheet sheet[PLUMB_STILLS_MAX];
    PlumbUnderlay under[PLUMB_STILLS_MAX];
    int count;
} Sheets;

static PlumbStatus load_all(const PlumbCliStill *still, bool pages, Sheets *sheets,
                            PlumbCliFault *fault)
{
    sheets->count = still->all.trace.still_count;
    for (int i = 0; i < sheets->count; i++) {
        Sheet *const sheet = &sheets->sheet[i];
        if (pages || i == 0) {
            sheet->scene = calloc(1, sizeof *sheet->scene);
            if (sheet->scene == NULL) {
                return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing",
                                       "no memory for the drawing");
            }
        }
        const PlumbStatus status = plumb_still_picture(still->picture_path[i], &sheet->picture,
                                                       &sheets->under[i], &fault->error);
        if (status != PLUMB_OK) {
            if (status == PLUMB_UNSUPPORTED) {
                plumb_fault_in_file(fault, still->picture_path[i]);
            }
            return status;
        }
    }
    return PLUMB_OK;
}

static void compose_all(const PlumbCliStill *still, PlumbUnits units, PlumbFont *font,
                        Sheets *sheets)
{
    double top_mm = 0.0;
    for (int i = 0; i < sheets->count; i++) {
        PlumbScene *const own = sheets->sheet[i].scene;
        const double from_mm = own != NULL ? 0.0 : top_mm;
        PlumbRect *const picture = sheets->under[i].pixel != NULL ? &sheets->under[i].at : NULL;
        top_mm = from_mm + plumb_compose_still_page(own != NULL ? own : sheets->sheet[0].scene,
                                                    &still->all, i, from_mm, units,
                                                    plumb_font_width, font, picture);
    }
}

static PlumbStatus render(const Sheets *sheets, const PlumbCliArgs *args, PlumbPictureKind kind,
                          PlumbBytes *bytes, PlumbError *error)
{
    const PlumbPaper paper = args->dark ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER;
    const PlumbScene *const first = sheets->sheet[0].scene;
    if (first == NULL) {
        return plumb_error_set(error, PLUMB_BAD_INPUT, "marks", "there is no still to draw");
    }
    if (kind == PLUMB_PICTURE_SVG) {
        return plumb_underlay_svg(first, paper, sheets->under, sheets->count, bytes, error);
    }
    if (kind == PLUMB_PICTURE_PNG) {
        const double most = side_most_px / first->height_mm;
        return plumb_underlay_png(first, paper, sheets->under, sheets->count,
                                  most < px_per_mm ? most : px_per_mm, bytes, error);
    }
    char date[32];
    const PlumbScene *page[PLUMB_STILLS_MAX];
    PlumbText text = plumb_text_begin(date, sizeof date);
    plumb_text_string(&text, args->date);
    plumb_text_string(&text, "T12:00:00Z");
    for (int i = 0; i < sheets->count; i++) {
        page[i] = sheets->sheet[i].scene;
    }
    return plumb_underlay_pdf(page, paper, sheets->under, sheets->count, date, bytes, error);
}

PlumbStatus plumb_still_draw(const PlumbCliStill *still, const PlumbCliArgs *args,
                             PlumbCliOutput *out, PlumbCliFault *fault)
{
    PlumbPictureKind kind = PLUMB_PICTURE_SVG;
    PlumbBytes bytes = {.data = NULL};
    Sheets sheets = {.count = 0};
    fault->path[0] = '\0';
    PlumbFont *const font = plumb_font_create();
    PlumbStatus status = plumb_picture_choose(args->output, &kind, fault);
    if (status == PLUMB_OK && font == NULL) {
        status = plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing", "no memory for a font");
    }
    if (status == PLUMB_OK) {
        status = load_all(still, kind == PLUMB_PICTURE_PDF, &sheets, fault);
    }
    if (status == PLUMB_OK) {
        compose_all(still, args->units, font, &sheets);
        status = render(&sheets, args, kind, &bytes, &fault->error);
    }
    if (status == PLUMB_OK) {
        plumb_output_bytes(out, (const char *)bytes.data, bytes.length);
    }
    plumb_bytes_free(&bytes);
    for (int i = 0; i < PLUMB_STILLS_MAX; i++) {
        plumb_still_picture_free(&sheets.sheet[i].picture);
        free(sheets.sheet[i].scene);
    }
    plumb_font_destroy(font);
    plumb_draw_finish();
    return status;
}
