/* SPDX-License-Identifier: MIT */
/* A film as a file: the chart, and from the side the frame of every event with the figure over it;
 * a page each of a PDF, below the chart in SVG and PNG. */
#include "picture.h"
#include "trace_film.h"

#include <plumbar/film_chart.h>
#include <plumbar/film_frame.h>

#include <stdlib.h>
#include <string.h>

static const double strength = 0.55;
static const double px_per_mm = 8.0;
static const double margin_mm = 8.0;
static const double gap_mm = 6.0;
static const double legend_mm = 9.0;
enum { PAGES = PLUMB_EVENT_COUNT + 1, COLUMNS = 3 };

/* The pages, the first of them the chart; pictures lie on pages, or all on the first. */
typedef struct Pages {
    PlumbScene *scene[PAGES];
    PlumbPhoto photo[PAGES];
    PlumbUnderlay under[PAGES];
    int count;
} Pages;

static PlumbStatus add_page(Pages *pages, PlumbCliFault *fault)
{
    pages->scene[pages->count] = calloc(1, sizeof *pages->scene[0]);
    if (pages->scene[pages->count] == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing", "no memory for the drawing");
    }
    pages->count++;
    return PLUMB_OK;
}

static void put_chart(const PlumbCliFilm *film, const PlumbCliArgs *args, PlumbFont *font,
                      PlumbScene *scene)
{
    const char *const slash = strrchr(film->film_path, '/');
    const bool named = slash != NULL && slash[1] != '\0';
    const PlumbFilmChart chart = {.series = &film->read->series,
                                  .finding = film->read->finding,
                                  .finding_count = film->read->finding_count,
                                  .name = named ? slash + 1 : film->film_path,
                                  .date = args->date,
                                  .units = args->units,
                                  .cursor = -1,
                                  .text_scale = 1.0,
                                  .text_width = plumb_font_width,
                                  .text_user = font};
    plumb_compose_film(scene, &chart, args->letter ? PLUMB_LETTER_LANDSCAPE : PLUMB_A4_LANDSCAPE);
}

/* The next event by its time whose frame is not that of the last; -1 where there is none. */
static int next_frame(const PlumbSeries *series, int last)
{
    int event = plumb_film_next_event(series, last);
    while (event >= 0 && last >= 0 && series->event_frame[event] == series->event_frame[last]) {
        event = plumb_film_next_event(series, event);
    }
    return event;
}

/* The picture of a frame, behind the figure that was drawn over it. */
static PlumbStatus put_picture(const PlumbCliFilm *film, int frame, PlumbPhoto *photo,
                               PlumbUnderlay *under, PlumbError *error)
{
    const PlumbStatus status = plumb_frames_photo(film->read->frames, frame, photo, error);
    if (status == PLUMB_OK) {
        under->width_px = photo->width_px;
        under->height_px = photo->height_px;
        under->pixel = photo->pixel;
        under->strength = strength;
    }
    return status;
}

/* A page of its own, with the legend at its foot; *rect is what is free. */
static PlumbStatus own_page(const PlumbFilmFrames *frames, Pages *pages, double height_mm,
                            PlumbRect *rect, PlumbCliFault *fault)
{
    const PlumbStatus status = add_page(pages, fault);
    if (status == PLUMB_OK) {
        PlumbScene *const scene = pages->scene[pages->count - 1];
        const double width_mm = pages->scene[0]->width_mm;
        plumb_scene_begin(scene, width_mm, height_mm);
        *rect = (PlumbRect){margin_mm, margin_mm, width_mm - 2.0 * margin_mm,
                            height_mm - 2.0 * margin_mm - legend_mm};
        plumb_compose_film_legend(scene, frames,
                                  (PlumbVec2){margin_mm, rect->y_mm + rect->height_mm});
    }
    return status;
}

/* Every event's frame: a page each, or in cells below the chart. */
static PlumbStatus put_frames(const PlumbCliFilm *film, const PlumbFilmFrames *frames, bool paged,
                              Pages *pages, PlumbCliFault *fault)
{
    const PlumbSeries *const series = &film->read->series;
    PlumbScene *const chart = pages->scene[0];
    const double top_mm = chart->height_mm;
    const double cell_mm = (chart->width_mm - 2.0 * margin_mm - (COLUMNS - 1) * gap_mm) / COLUMNS;
    PlumbStatus status = PLUMB_OK;
    int done = 0;
    for (int event = next_frame(series, -1); status == PLUMB_OK && event >= 0;
         event = next_frame(series, event)) {
        const int row = done / COLUMNS;
        PlumbRect rect = {margin_mm + done % COLUMNS * (cell_mm + gap_mm),
                          top_mm + row * (cell_mm + gap_mm), cell_mm, cell_mm};
        status = paged ? own_page(frames, pages, top_mm, &rect, fault) : PLUMB_OK;
        if (status == PLUMB_OK) {
            PlumbUnderlay *const under = &pages->under[++done];
            plumb_compose_film_frame(pages->scene[pages->count - 1], frames, (PlumbEvent)event,
                                     rect, &under->clip, &under->at);
            status = put_picture(film, series->event_frame[event], &pages->photo[done], under,
                                 &fault->error);
        }
    }
    if (!paged && done > 0) {
        const int rows = (done + COLUMNS - 1) / COLUMNS;
        const double foot_mm = top_mm + rows * (cell_mm + gap_mm);
        chart->height_mm = foot_mm + legend_mm + margin_mm;
        plumb_compose_film_legend(chart, frames, (PlumbVec2){margin_mm, foot_mm});
    }
    return status;
}

static PlumbStatus compose(const PlumbCliFilm *film, const PlumbCliArgs *args, PlumbFont *font,
                           bool paged, Pages *pages, PlumbCliFault *fault)
{
    PlumbStatus status = add_page(pages, fault);
    if (status != PLUMB_OK) {
        return status;
    }
    put_chart(film, args, font, pages->scene[0]);
    PlumbStills *const still = malloc(sizeof *still);
    if (still == NULL) {
        return plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing", "no memory for the drawing");
    }
    const PlumbFilmFrames frames = {.ask = &film->read->ask,
                                    .series = &film->read->series,
                                    .still = still,
                                    .units = args->units,
                                    .text_width = plumb_font_width,
                                    .text_user = font};
    if (!film->read->series.front) {
        status = put_frames(film, &frames, paged, pages, fault);
    }
    free(still);
    return status;
}

static PlumbStatus render(const Pages *pages, const PlumbCliArgs *args, PlumbPictureKind kind,
                          PlumbBytes *bytes, PlumbError *error)
{
    const PlumbPaper paper = args->dark ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER;
    const PlumbScene *page[PAGES];
    char date[32];
    if (kind == PLUMB_PICTURE_SVG) {
        return plumb_underlay_svg(pages->scene[0], paper, pages->under, PAGES, bytes, error);
    }
    if (kind == PLUMB_PICTURE_PNG) {
        return plumb_underlay_png(pages->scene[0], paper, pages->under, PAGES, px_per_mm, bytes,
                                  error);
    }
    PlumbText text = plumb_text_begin(date, sizeof date);
    plumb_text_string(&text, args->date);
    plumb_text_string(&text, "T12:00:00Z");
    for (int i = 0; i < pages->count; i++) {
        page[i] = pages->scene[i];
    }
    return plumb_underlay_pdf(page, paper, pages->under, pages->count, date, bytes, error);
}

PlumbStatus plumb_film_draw(const PlumbCliFilm *film, const PlumbCliArgs *args, PlumbCliOutput *out,
                            PlumbCliFault *fault)
{
    PlumbPictureKind kind = PLUMB_PICTURE_SVG;
    PlumbBytes bytes = {.data = NULL};
    Pages pages = {.count = 0};
    PlumbFont *const font = plumb_font_create();
    fault->path[0] = '\0';
    PlumbStatus status = plumb_picture_choose(args->output, &kind, fault);
    if (status == PLUMB_OK && font == NULL) {
        status = plumb_fault_set(fault, PLUMB_OUT_OF_MEMORY, "drawing", "no memory for a font");
    }
    if (status == PLUMB_OK) {
        status = compose(film, args, font, kind == PLUMB_PICTURE_PDF, &pages, fault);
    }
    if (status == PLUMB_OK) {
        status = render(&pages, args, kind, &bytes, &fault->error);
    }
    if (status == PLUMB_OK) {
        plumb_output_bytes(out, (const char *)bytes.data, bytes.length);
    }
    plumb_bytes_free(&bytes);
    for (int i = 0; i < PAGES; i++) {
        plumb_photo_free(&pages.photo[i]);
        free(pages.scene[i]);
    }
    plumb_font_destroy(font);
    plumb_draw_finish();
    return status;
}
