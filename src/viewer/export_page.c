/* SPDX-License-Identifier: MIT */
/* Pages on paper, with a title block as every sheet has. */
#include "export_page.h"

#include "pages.h"

#include "scene/press.h"

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const double margin_mm = 8.0;
static const double column_mm = 72.0;
static const double pad_mm = 3.0;

static PlumbRect inside(double x, double y, double width, double height)
{
    return (PlumbRect){x + pad_mm, y + pad_mm, width - 2.0 * pad_mm, height - 2.0 * pad_mm};
}

static void draw_zones(PlumbDesk *desk, const PlumbBoard *board, PlumbRect frame)
{
    const double left = frame.width_mm - column_mm;
    const double split = 0.62 * frame.height_mm;
    const double x = frame.x_mm;
    const double y = frame.y_mm;
    const double title =
        fmin(plumb_title_height_mm(board->drawing, column_mm, 100.0), 0.5 * frame.height_mm);
    /* Below the map of a press stands what the grip does. */
    const bool split_page = desk->page != PLUMB_PAGE_MAP || desk->now.lift == PLUMB_BENCH;
    const PlumbRect views = inside(x, y, left, split);
    const PlumbRect below = inside(x, y + split, left, frame.height_mm - split);
    const PlumbRect notes = inside(x + left, y, column_mm, frame.height_mm - title);
    if (desk->page == PLUMB_PAGE_PATH) {
        plumb_path_views(desk, board, views);
        plumb_path_chart(desk, board, below);
        plumb_path_notes(desk, board, notes);
    } else if (desk->page == PLUMB_PAGE_COMPARE) {
        plumb_compare_views(desk, board, views);
        plumb_compare_table(desk, board, below);
        plumb_compose_notes(board->scene, board->drawing, notes);
    } else {
        plumb_map_draw(desk, board, split_page ? views : inside(x, y, left, frame.height_mm));
        if (split_page) {
            plumb_press_chart(board->scene, board->drawing, below);
        }
        plumb_compose_table(board->scene, board->drawing, notes);
    }
    if (split_page) {
        plumb_scene_line(board->scene, PEN_OUTLINE, NONE, (PlumbVec2){x, y + split},
                         (PlumbVec2){x + left, y + split});
    }
    plumb_scene_line(board->scene, PEN_OUTLINE, NONE, (PlumbVec2){x + left, y},
                     (PlumbVec2){x + left, y + frame.height_mm});
    plumb_compose_title(board->scene, board->drawing,
                        (PlumbRect){x + left, y + frame.height_mm - title, column_mm, title},
                        plumb_desk_scaled(desk) ? desk->fit.scale_n : (double)NAN);
}

void plumb_export_compose(PlumbDesk *desk, PlumbScene *scene)
{
    const double text_scale = desk->text_scale;
    desk->text_scale = 1.0;
    PlumbDrawing drawing = plumb_desk_drawing(desk);
    drawing.half_above = false; /* paper has the room */
    if (desk->page == PLUMB_PAGE_DRAWING) {
        plumb_compose_sheet(scene, &drawing, PLUMB_A4_LANDSCAPE);
        desk->text_scale = text_scale;
        return;
    }
    const PlumbBoard board = {scene, &drawing};
    double width = 0.0;
    double height = 0.0;
    plumb_format_size(PLUMB_A4_LANDSCAPE, &width, &height);
    const PlumbPen heavy = {PLUMB_ROLE_ink, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbRect frame = {margin_mm, margin_mm, width - 2.0 * margin_mm,
                             height - 2.0 * margin_mm};
    plumb_scene_begin(scene, width, height);
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, plumb_page_name(desk->page));
    plumb_text_string(&title, ", ");
    plumb_text_string(&title, plumb_lift_text(desk->now.lift));
    plumb_scene_rect(scene, heavy, NONE, frame);
    /* The zones say where the window can be pointed at; on paper nothing can. */
    const int widgets = desk->widget_count;
    const PlumbWidgetRef focus = desk->focus;
    desk->focus = (PlumbWidgetRef){PLUMB_WIDGET_NONE, 0};
    desk->refit = true;
    draw_zones(desk, &board, frame);
    desk->focus = focus;
    desk->widget_count = widgets;
    desk->text_scale = text_scale;
    desk->refit = true;
    desk->dirty = true;
}
