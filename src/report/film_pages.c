/* SPDX-License-Identifier: MIT */
/* The pages of a film: the chart, then the frames of its events with the figure over each. */
#include <plumbar/film_pages.h>

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
    const PlumbFilmPages *ask;
    PlumbFilmTell tell;
    void *user;
    bool paged;
    bool stopped;
    PlumbScene *scene[PAGES];
    PlumbPhoto photo[PAGES];
    PlumbUnderlay under[PAGES];
    int count;
} Pages;

static PlumbStatus no_memory(PlumbError *error)
{
    return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "drawing", "no memory for the drawing");
}

static PlumbStatus add_page(Pages *pages, PlumbError *error)
{
    pages->scene[pages->count] = calloc(1, sizeof *pages->scene[0]);
    if (pages->scene[pages->count] == NULL) {
        return no_memory(error);
    }
    pages->count++;
    return PLUMB_OK;
}

static bool go_on(Pages *pages, double done_frac)
{
    pages->stopped = pages->tell != NULL && !pages->tell(pages->user, PLUMB_FILM_DRAWS, done_frac);
    return !pages->stopped;
}

static void put_chart(const PlumbFilmPages *ask, PlumbFont *font, PlumbScene *scene)
{
    const PlumbFilmChart chart = {.series = &ask->read->series,
                                  .finding = ask->read->finding,
                                  .finding_count = ask->read->finding_count,
                                  .name = ask->name,
                                  .date = ask->day,
                                  .units = ask->units,
                                  .cursor = -1,
                                  .text_scale = 1.0,
                                  .text_width = plumb_font_width,
                                  .text_user = font};
    plumb_compose_film(scene, &chart, ask->letter ? PLUMB_LETTER_LANDSCAPE : PLUMB_A4_LANDSCAPE);
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
static PlumbStatus put_picture(Pages *pages, int frame, int index, PlumbError *error)
{
    PlumbPhoto *const photo = &pages->photo[index];
    PlumbUnderlay *const under = &pages->under[index];
    const PlumbStatus status = plumb_frames_photo(pages->ask->read->frames, frame, photo, error);
    if (status == PLUMB_OK) {
        under->width_px = photo->width_px;
        under->height_px = photo->height_px;
        under->pixel = photo->pixel;
        under->strength = strength;
    }
    return status;
}

/* A page of its own, with the legend at its foot; *rect is what is free. */
static PlumbStatus own_page(const PlumbFilmFrames *frames, Pages *pages, PlumbRect *rect,
                            PlumbError *error)
{
    const PlumbStatus status = add_page(pages, error);
    if (status == PLUMB_OK) {
        PlumbScene *const scene = pages->scene[pages->count - 1];
        const double width_mm = pages->scene[0]->width_mm;
        const double height_mm = pages->scene[0]->height_mm;
        plumb_scene_begin(scene, width_mm, height_mm);
        *rect = (PlumbRect){margin_mm, margin_mm, width_mm - 2.0 * margin_mm,
                            height_mm - 2.0 * margin_mm - legend_mm};
        plumb_compose_film_legend(scene, frames,
                                  (PlumbVec2){margin_mm, rect->y_mm + rect->height_mm});
    }
    return status;
}

/* Every event's frame: a page each, or in cells below the chart. */
static PlumbStatus put_frames(const PlumbFilmFrames *frames, Pages *pages, PlumbError *error)
{
    const PlumbSeries *const series = frames->series;
    PlumbScene *const chart = pages->scene[0];
    const double top_mm = chart->height_mm;
    const double cell_mm = (chart->width_mm - 2.0 * margin_mm - (COLUMNS - 1) * gap_mm) / COLUMNS;
    PlumbStatus status = PLUMB_OK;
    int done = 0;
    for (int event = next_frame(series, -1);
         status == PLUMB_OK && event >= 0 && go_on(pages, (double)done / PAGES);
         event = next_frame(series, event)) {
        const int row = done / COLUMNS;
        PlumbRect rect = {margin_mm + done % COLUMNS * (cell_mm + gap_mm),
                          top_mm + row * (cell_mm + gap_mm), cell_mm, cell_mm};
        status = pages->paged ? own_page(frames, pages, &rect, error) : PLUMB_OK;
        if (status == PLUMB_OK) {
            PlumbUnderlay *const under = &pages->under[++done];
            plumb_compose_film_frame(pages->scene[pages->count - 1], frames, (PlumbEvent)event,
                                     rect, &under->clip, &under->at);
            status = put_picture(pages, series->event_frame[event], done, error);
        }
    }
    if (!pages->paged && done > 0) {
        const int rows = (done + COLUMNS - 1) / COLUMNS;
        const double foot_mm = top_mm + rows * (cell_mm + gap_mm);
        chart->height_mm = foot_mm + legend_mm + margin_mm;
        plumb_compose_film_legend(chart, frames, (PlumbVec2){margin_mm, foot_mm});
    }
    return status;
}

static PlumbStatus compose(Pages *pages, PlumbFont *font, PlumbError *error)
{
    const PlumbFilmReading *const read = pages->ask->read;
    PlumbStatus status = add_page(pages, error);
    if (status != PLUMB_OK) {
        return status;
    }
    put_chart(pages->ask, font, pages->scene[0]);
    PlumbStills *const still = malloc(sizeof *still);
    if (still == NULL) {
        return no_memory(error);
    }
    const PlumbFilmFrames frames = {.ask = &read->ask,
                                    .series = &read->series,
                                    .still = still,
                                    .units = pages->ask->units,
                                    .text_width = plumb_font_width,
                                    .text_user = font};
    if (!read->series.front) {
        status = put_frames(&frames, pages, error);
    }
    free(still);
    return status;
}

static PlumbStatus render(const Pages *pages, PlumbPictureKind kind, PlumbBytes *bytes,
                          PlumbError *error)
{
    const PlumbPaper paper = pages->ask->paper;
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
    plumb_text_string(&text, pages->ask->day);
    plumb_text_string(&text, text.length > 0 ? "T12:00:00Z" : "");
    for (int i = 0; i < pages->count; i++) {
        page[i] = pages->scene[i];
    }
    return plumb_underlay_pdf(page, paper, pages->under, pages->count, date, bytes, error);
}

PlumbStatus plumb_film_pages_make(const PlumbFilmPages *ask, PlumbPictureKind kind,
                                  PlumbFilmTell tell, void *user, PlumbBytes *bytes,
                                  PlumbError *error)
{
    Pages pages = {.ask = ask, .tell = tell, .user = user, .paged = kind == PLUMB_PICTURE_PDF};
    PlumbFont *const font = plumb_font_create();
    PlumbStatus status = font != NULL ? compose(&pages, font, error) : no_memory(error);
    if (status == PLUMB_OK && !pages.stopped && go_on(&pages, 1.0 - 1.0 / PAGES)) {
        status = render(&pages, kind, bytes, error);
    }
    for (int i = 0; i < PAGES; i++) {
        plumb_photo_free(&pages.photo[i]);
        free(pages.scene[i]);
    }
    plumb_font_destroy(font);
    return status;
}
