/* SPDX-License-Identifier: MIT */
/* The column of rulers: as many as fit, the rest folded behind a strip that says how many. */
#include "compose.h"
#include "ruler.h"

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const double pad_mm = 4.0;
static const double least_above_mm = 2.4; /* from one ruler to the next */

/* Grows with the text that stands in it, less than the text itself. */
static double band_height(const PlumbDesk *desk)
{
    return 5.4 + 2.6 * (desk->text_scale - 1.0);
}

/* Name and figure, band of curves, ticks, numbers. */
static double ruler_height(const PlumbDesk *desk, const PlumbBoard *board)
{
    return least_above_mm + 1.35 * plumb_board_size(board, PLUMB_NORMAL_TEXT_MM) +
           band_height(desk) + 0.4 + 2.0 + 1.1 * plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
}

static PlumbRulerPlace place_ruler(const PlumbDesk *desk, const PlumbBoard *board,
                                   PlumbSettingId id, double y, double height)
{
    const PlumbRect column = desk->layout.rulers;
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    PlumbRulerPlace place;
    place.id = id;
    place.rect = (PlumbRect){column.x_mm + 0.5, y, column.width_mm - 1.0, height};
    place.x0_mm = column.x_mm + pad_mm;
    place.x1_mm = column.x_mm + column.width_mm - pad_mm;
    const double figure = fmin(9.0 * size, 0.45 * (place.x1_mm - place.x0_mm));
    place.figure =
        (PlumbRect){place.x1_mm - figure + 1.2, y + 0.6 * least_above_mm, figure, 1.35 * size};
    place.band_mm = band_height(desk);
    place.y_mm = y + least_above_mm + 1.35 * size + place.band_mm + 0.4;
    return place;
}

void plumb_fold_draw(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect, PlumbWidgetKind kind,
                     int first_id, int above, int below)
{
    char words[96];
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (above > 0) {
        plumb_text_integer(&text, above);
        plumb_text_string(&text, " above");
    }
    if (above > 0 && below > 0) {
        plumb_text_string(&text, ", ");
    }
    if (below > 0) {
        plumb_text_integer(&text, below);
        plumb_text_string(&text, " more below");
    }
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double x = rect.x_mm + 0.5 * rect.width_mm;
    const double y = rect.y_mm + 0.5 * rect.height_mm;
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){x, y + 0.36 * size}, size,
                     PLUMB_MIDDLE, words);
    const PlumbPen solid = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_quiet};
    const double s = 0.36 * size;
    const double right = rect.x_mm + rect.width_mm - pad_mm - s;
    const double left = rect.x_mm + pad_mm + s;
    const PlumbVec2 down[3] = {{right - s, y - s}, {right + s, y - s}, {right, y + s}};
    const PlumbVec2 up[3] = {{left - s, y + s}, {left + s, y + s}, {left, y - s}};
    const double half = 0.5 * rect.width_mm;
    if (below > 0) {
        plumb_scene_path(board->scene, solid, NONE, down, 3, true);
    }
    if (above > 0) {
        plumb_scene_path(board->scene, solid, NONE, up, 3, true);
    }
    plumb_desk_widget(desk, kind, first_id + (above > 0 ? 0 : 1),
                      (PlumbRect){rect.x_mm, rect.y_mm, half, rect.height_mm}, false);
    plumb_desk_widget(desk, kind, first_id + (below > 0 ? 1 : 0),
                      (PlumbRect){rect.x_mm + half, rect.y_mm, half, rect.height_mm}, false);
}

static void draw_rulers(PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbRect column = desk->layout.rulers;
    for (int i = 0; i < desk->place_count; i++) {
        const PlumbRulerPlace *const place = &desk->place[i];
        PlumbRect rect = place->rect;
        rect.x_mm = column.x_mm;
        rect.width_mm = column.width_mm;
        plumb_slices_next(&desk->slices, board->scene, rect);
        plumb_ruler_draw(desk, board, place);
        if (plumb_desk_has_focus(desk, PLUMB_WIDGET_RULER, (int)place->id)) {
            plumb_focus_ring(board, place->rect);
        }
        plumb_desk_widget(desk, PLUMB_WIDGET_FIGURE, (int)place->id, place->figure, false);
        plumb_desk_widget(desk, PLUMB_WIDGET_RULER, (int)place->id, place->rect, true);
    }
}

void plumb_compose_rulers(PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbRect column = desk->layout.rulers;
    PlumbSettingId id[PLUMB_SETTING_COUNT];
    const int count = plumb_desk_rulers(desk, id);
    const double least = ruler_height(desk, board);
    const double strip = 1.6 * plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    int fit = (int)floor((column.height_mm - strip) / least);
    fit = fit > count ? count : fit < 1 ? 1 : fit;
    const int last_first = count - fit;
    const int first = desk->first_ruler > last_first ? last_first : desk->first_ruler;
    const bool folded = fit < count;
    const double room = fmin((column.height_mm - (folded ? strip : 0.0)) / fit, 1.3 * least);
    /* On whole pixels, so that one ruler can be painted without its neighbours. */
    const double height = floor(room * PLUMB_WINDOW_PX_PER_MM) / PLUMB_WINDOW_PX_PER_MM;
    desk->first_ruler = first;
    desk->rulers_fit = fit;
    desk->place_count = 0;
    for (int i = first; i < first + fit; i++) {
        desk->place[desk->place_count++] =
            place_ruler(desk, board, id[i], column.y_mm + (i - first) * height, height);
    }
    draw_rulers(desk, board);
    const double end = column.y_mm + fit * height;
    plumb_slices_next(
        &desk->slices, board->scene,
        (PlumbRect){column.x_mm, end, column.width_mm, column.y_mm + column.height_mm - end});
    if (folded) {
        plumb_fold_draw(desk, board,
                        (PlumbRect){column.x_mm, column.y_mm + column.height_mm - strip,
                                    column.width_mm, strip},
                        PLUMB_WIDGET_FOLD, 0, first, count - first - fit);
    }
}
