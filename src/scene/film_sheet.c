/* SPDX-License-Identifier: MIT */
/* The sheet of a film: its chart, its findings. */
#include "scene/film_chart.h"

static const double MARGIN_MM = 8.0;
static const double PAD_MM = 6.0;
static const double NOTE_MM = 16.0;   /* the caution */
static const double REMARK_MM = 10.0; /* each of what is remarked */
enum { NOTE_SIZE = 1024 };

/* What is remarked, or that nothing is. */
static void findings(const PlumbBoard *board, const PlumbFilmChart *chart, PlumbRect rect)
{
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    double y_mm = rect.y_mm;
    int remarked = 0;
    for (int i = 0; i < chart->finding_count; i++) {
        const PlumbFilmFinding *const f = &chart->finding[i];
        if (f->verdict != PLUMB_FILM_BEYOND) {
            continue;
        }
        char words[NOTE_SIZE];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_finding_text(&text, &f->what, chart->units);
        plumb_text_string(&text, " (± ");
        plumb_text_quantity(&text, f->sd, f->what.quantity, chart->units);
        plumb_text_string(&text, ", at ");
        plumb_text_fixed(&text, chart->series->frame[f->frame].time_s, 2);
        plumb_text_string(&text, " s)");
        plumb_board_wrap(board, PLUMB_ROLE_ink, (PlumbTag){PLUMB_TAG_FINDING, (int)f->what.id},
                         rect.x_mm, &y_mm, rect.width_mm, size, 2, words);
        remarked++;
    }
    if (remarked == 0) {
        plumb_board_wrap(board, PLUMB_ROLE_ink, TAG_NONE, rect.x_mm, &y_mm, rect.width_mm, size, 1,
                         "Nothing found that the spread does not cover.");
    }
    plumb_board_wrap(board, PLUMB_ROLE_quiet, TAG_NONE, rect.x_mm, &y_mm, rect.width_mm,
                     plumb_board_size(board, PLUMB_SMALL_TEXT_MM), 2, plumb_caution_line());
}

void plumb_compose_film(PlumbScene *scene, const PlumbFilmChart *chart, PlumbFormat format)
{
    double width;
    double height;
    plumb_format_size(format, &width, &height);
    plumb_scene_begin(scene, width, height);
    const PlumbDrawing drawing = {.text_scale = chart->text_scale,
                                  .text_width = chart->text_width,
                                  .text_user = chart->text_user};
    const PlumbBoard board = {scene, &drawing};
    const PlumbPen heavy = {PLUMB_ROLE_ink, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbRect frame = {MARGIN_MM, MARGIN_MM, width - 2.0 * MARGIN_MM,
                             height - 2.0 * MARGIN_MM};
    const double inner = frame.width_mm - 2.0 * PAD_MM;
    const double x = frame.x_mm + PAD_MM;
    double y_mm = frame.y_mm + PAD_MM;
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, "A lift on film: ");
    plumb_text_string(&title, plumb_lift_name(chart->series->lift));
    if (chart->name[0] != '\0') {
        plumb_text_string(&title, ", ");
        plumb_text_string(&title, chart->name);
    }
    if (chart->date[0] != '\0') {
        plumb_text_string(&title, ", ");
        plumb_text_string(&title, chart->date);
    }
    plumb_scene_rect(scene, heavy, TAG_NONE, frame);
    plumb_board_wrap(&board, PLUMB_ROLE_ink, TAG_NONE, x, &y_mm, inner, PLUMB_LARGE_TEXT_MM, 1,
                     scene->title);
    double note_mm = NOTE_MM;
    for (int i = 0; i < chart->finding_count; i++) {
        note_mm += chart->finding[i].verdict == PLUMB_FILM_BEYOND ? REMARK_MM : 0.0;
    }
    const double foot_mm = frame.y_mm + frame.height_mm - note_mm;
    plumb_compose_film_panels(scene, chart, (PlumbRect){x, y_mm, inner, foot_mm - y_mm});
    findings(&board, chart, (PlumbRect){x, foot_mm + 2.0, inner, note_mm - PAD_MM});
}
