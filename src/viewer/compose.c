/* SPDX-License-Identifier: MIT */
/* The whole window, zone by zone. */
#include "compose.h"

#include "command.h"
#include "form.h"
#include "page_trace.h"
#include "pages.h"
#include "reel.h"
#include "ruler.h"
#include "slip.h"
#include "working.h"

#include "scene/press.h"

#include <math.h>
#include <string.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const PlumbPen FRAME = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
static const double pad_mm = 2.5;
static const double views_shrink_most = 1.34;

PlumbDrawing plumb_desk_drawing(const PlumbDesk *desk)
{
    const bool pencilled = plumb_desk_pencil_shown(desk);
    PlumbDrawing drawing =
        plumb_drawing_default(&desk->now.lifter, NULL, plumb_font_width, desk->font);
    plumb_desk_family(desk)->draw(&drawing, plumb_desk_inked(desk),
                                  pencilled ? &desk->pencil : NULL, plumb_desk_wish(desk),
                                  plumb_desk_arm(desk));
    drawing.half_above = true;
    drawing.name = desk->now.record.name;
    drawing.setup_name = desk->now.setup_name[desk->now.lift];
    drawing.date = desk->options->date;
    drawing.units = desk->units;
    drawing.text_scale = desk->text_scale;
    if (pencilled) {
        drawing.pencil_lifter = &desk->now.pencil_lifter;
        drawing.pencil_name = desk->now.pencil_name;
    }
    if (desk->sure.kind != PLUMB_SURE_PATH && plumb_desk_inked(desk)->outcome != PLUMB_NO_POSE) {
        drawing.figure_sd = desk->sure.sd;
        drawing.measure_next = desk->sure.next_words;
    }
    return drawing;
}

void plumb_desk_widget(PlumbDesk *desk, PlumbWidgetKind kind, int id, PlumbRect rect, bool stop)
{
    if (desk->widget_count < PLUMB_WIDGETS_MAX) {
        desk->widget[desk->widget_count++] = (PlumbWidget){{kind, id}, rect, stop};
    }
}

void plumb_focus_ring(const PlumbBoard *board, PlumbRect rect)
{
    const PlumbPen pen = {PLUMB_ROLE_select, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    plumb_scene_rect(
        board->scene, pen, NONE,
        (PlumbRect){rect.x_mm + 0.25, rect.y_mm + 0.25, rect.width_mm - 0.5, rect.height_mm - 0.5});
}

static void draw_frames(const PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbLayout *const l = &desk->layout;
    PlumbScene *const scene = board->scene;
    const double top = l->top.height_mm;
    const double bottom = l->foot.y_mm;
    plumb_scene_line(scene, FRAME, NONE, (PlumbVec2){0.0, top}, (PlumbVec2){desk->width_mm, top});
    plumb_scene_line(scene, FRAME, NONE, (PlumbVec2){0.0, bottom},
                     (PlumbVec2){desk->width_mm, bottom});
    plumb_scene_line(scene, FRAME, NONE, (PlumbVec2){l->rulers.x_mm, top},
                     (PlumbVec2){l->rulers.x_mm, bottom});
    plumb_scene_line(scene, FRAME, NONE, (PlumbVec2){0.0, l->table.y_mm},
                     (PlumbVec2){l->rulers.x_mm, l->table.y_mm});
}

static PlumbRect inside(PlumbRect rect, double by_mm)
{
    return (PlumbRect){rect.x_mm + by_mm, rect.y_mm + by_mm, rect.width_mm - 2.0 * by_mm,
                       rect.height_mm - 2.0 * by_mm};
}

void plumb_fit_text(PlumbDesk *desk, PlumbDrawing drawing, PlumbRect rect, PlumbFitter fitter)
{
    static const double STEP[] = {2.0, 1.5, 1.25, 1.0};
    drawing.text_scale = 1.0;
    const double plain_n = fitter(desk, &drawing, rect).scale_n;
    for (size_t i = 0; i < sizeof STEP / sizeof STEP[0]; i++) {
        drawing.text_scale = fmin(STEP[i], desk->text_scale);
        desk->fit = fitter(desk, &drawing, rect);
        if (desk->fit.scale_n <= views_shrink_most * plain_n) {
            break;
        }
    }
    desk->views_text_scale = drawing.text_scale;
    desk->refit = false;
}

static PlumbFit fit_pose(PlumbDesk *desk, const PlumbDrawing *drawing, PlumbRect rect)
{
    (void)desk;
    return plumb_views_fit(drawing, rect);
}

static void compose_views(PlumbDesk *desk, const PlumbBoard *board, const PlumbDrawing *drawing)
{
    const PlumbRect rect = inside(desk->layout.views, 1.5);
    if (plumb_working_shown(desk) && desk->page != PLUMB_PAGE_DRAWING) {
        plumb_working_draw(desk, board, rect);
        return;
    }
    switch (desk->page) {
    case PLUMB_PAGE_PATH:
        plumb_path_views(desk, board, rect);
        return;
    case PLUMB_PAGE_COMPARE:
        plumb_compare_views(desk, board, rect);
        return;
    case PLUMB_PAGE_MAP:
        plumb_map_draw(desk, board, rect);
        return;
    case PLUMB_PAGE_TRACE:
        plumb_trace_views(desk, board, rect);
        return;
    case PLUMB_PAGE_DRAWING:
    case PLUMB_PAGE_COUNT:
        break;
    }
    if (desk->refit) {
        plumb_fit_text(desk, *drawing, rect, fit_pose);
    }
    if (plumb_working_shown(desk)) {
        plumb_working_draw(desk, board, rect);
        return;
    }
    PlumbDrawing views = *drawing;
    views.text_scale = desk->views_text_scale;
    plumb_compose_views(desk->scene, &views, &desk->fit);
}

/* A mark before the row of the selected arm. */
static void mark_row(PlumbDesk *desk, const PlumbBoard *board, int first_item)
{
    for (int i = first_item; i < board->scene->item_count; i++) {
        const PlumbItem item = board->scene->item[i];
        if (item.kind == PLUMB_ITEM_TEXT && item.tag.kind == PLUMB_TAG_ARM &&
            item.tag.id == plumb_desk_arm(desk)) {
            const double s = 0.3 * item.size_mm;
            const double x = item.at_mm.x - 0.4;
            const double y = item.at_mm.y - 0.36 * item.size_mm;
            const PlumbVec2 point[3] = {{x, y}, {x - 1.4 * s, y - s}, {x - 1.4 * s, y + s}};
            const PlumbPen solid = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_select};
            plumb_scene_path(board->scene, solid, item.tag, point, 3, true);
            return;
        }
    }
}

static void compose_table(PlumbDesk *desk, const PlumbBoard *board)
{
    const int first_item = board->scene->item_count;
    PlumbRect page = desk->layout.table;
    page.width_mm += desk->layout.joints.width_mm;
    if (desk->page == PLUMB_PAGE_PATH) {
        plumb_path_chart(desk, board, inside(page, pad_mm));
        return;
    }
    if (desk->page == PLUMB_PAGE_COMPARE) {
        plumb_compare_table(desk, board, inside(page, pad_mm));
        return;
    }
    if (desk->page == PLUMB_PAGE_TRACE) {
        plumb_trace_table(desk, board, inside(page, pad_mm));
        return;
    }
    if (desk->page == PLUMB_PAGE_MAP && desk->now.lift == PLUMB_BENCH) {
        plumb_press_chart(board->scene, board->drawing, inside(page, pad_mm));
        return;
    }
    PlumbRect whole = desk->layout.table;
    if (desk->layout.joints.width_mm > 0.0) {
        plumb_compose_figures(board->scene, board->drawing, inside(whole, pad_mm));
        plumb_compose_joints(board->scene, board->drawing, inside(desk->layout.joints, pad_mm));
        whole.width_mm += desk->layout.joints.width_mm;
    } else {
        plumb_compose_table(board->scene, board->drawing, inside(whole, pad_mm));
    }
    mark_row(desk, board, first_item);
    plumb_desk_widget(desk, PLUMB_WIDGET_TABLE, 0, whole, true);
    const bool focused = plumb_desk_has_focus(desk, PLUMB_WIDGET_TABLE, 0);
    if (focused || plumb_working_shown(desk)) {
        plumb_working_mark(desk, board, first_item);
    }
    if (focused) {
        plumb_focus_ring(board, whole);
    }
}

bool plumb_desk_scaled(const PlumbDesk *desk)
{
    switch (desk->page) {
    case PLUMB_PAGE_COMPARE:
        return plumb_desk_pencil_shown(desk) && !plumb_working_shown(desk);
    case PLUMB_PAGE_MAP:
        return false;
    case PLUMB_PAGE_TRACE:
        return plumb_trace_read(desk) != NULL && !plumb_reel_charts(desk);
    case PLUMB_PAGE_DRAWING:
    case PLUMB_PAGE_PATH:
    case PLUMB_PAGE_COUNT:
        break;
    }
    return !plumb_working_shown(desk) &&
           (desk->page != PLUMB_PAGE_PATH || plumb_path_here(desk) >= 0);
}

static void compose_foot(const PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbRect foot = desk->layout.foot;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    char scale[32] = "";
    if (plumb_desk_scaled(desk)) {
        PlumbText text = plumb_text_begin(scale, sizeof scale);
        plumb_text_string(&text, "1 : ");
        plumb_text_fixed(&text, desk->fit.scale_n, desk->fit.scale_n < 10.0 ? 1 : 0);
    }
    const double y = foot.y_mm + 0.5 * foot.height_mm + 0.36 * size;
    const double right = foot.width_mm - pad_mm;
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){right, y}, size, PLUMB_END, scale);
    const double room = right - plumb_board_width(board, scale, size) - 2.0 * pad_mm;
    double fitted = size;
    const double width = plumb_board_width(board, plumb_caution_line(), size);
    if (width > room) {
        fitted = size * room / width;
    }
    plumb_board_text(board, PLUMB_ROLE_quiet, NONE, (PlumbVec2){pad_mm, y}, fitted, PLUMB_START,
                     plumb_caution_line());
}

/* Why the wish does not hold, at the pointer that asks for it. */
static void compose_reason(const PlumbDesk *desk, const PlumbBoard *board)
{
    const PlumbPosed *const wish = plumb_desk_wish(desk);
    if (wish == NULL || !desk->drag.on) {
        return;
    }
    char words[120];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_ruler_reason(desk->drag.id, wish->reason, &text);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double width = plumb_board_width(board, words, size) + 2.4;
    const double height = 1.9 * size;
    double x = desk->drag.at_mm.x - 0.5 * width;
    x = fmax(1.0, fmin(x, desk->width_mm - width - 1.0));
    double y = desk->drag.at_mm.y - height - 4.0;
    y = y < desk->layout.top.height_mm ? desk->drag.at_mm.y + 6.0 : y;
    const PlumbPen frame = {PLUMB_ROLE_bar, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    plumb_scene_rect(board->scene, frame, NONE, (PlumbRect){x, y, width, height});
    plumb_board_text(board, PLUMB_ROLE_ink, NONE, (PlumbVec2){x + 1.2, y + 1.3 * size}, size,
                     PLUMB_START, words);
}

void plumb_compose_window(PlumbDesk *desk)
{
    desk->layout = plumb_layout(desk->width_mm, desk->height_mm, desk->text_scale);
    desk->widget_count = 0;
    plumb_scene_begin(desk->scene, desk->width_mm, desk->height_mm);
    plumb_slices_begin(&desk->slices);
    PlumbDrawing drawing = plumb_desk_drawing(desk);
    drawing.grips = &desk->grips;
    const PlumbBoard board = {desk->scene, &drawing};
    const PlumbLayout *const l = &desk->layout;
    if (desk->page == PLUMB_PAGE_TRACE) {
        plumb_trace_layout(desk, &board, pad_mm);
    }
    plumb_slices_next(&desk->slices, desk->scene, l->views);
    compose_views(desk, &board, &drawing);
    plumb_slices_next(&desk->slices, desk->scene, l->top);
    plumb_compose_top(desk, &board);
    PlumbRect table = l->table;
    table.width_mm += l->joints.width_mm;
    plumb_slices_next(&desk->slices, desk->scene, table);
    compose_table(desk, &board);
    plumb_slices_next(&desk->slices, desk->scene, l->notes);
    plumb_notes_draw(desk, &board, l->notes);
    if (desk->page == PLUMB_PAGE_TRACE) {
        plumb_trace_list(desk, &board);
    } else {
        plumb_compose_rulers(desk, &board);
    }
    plumb_slices_next(&desk->slices, desk->scene, l->foot);
    compose_foot(desk, &board);
    plumb_trace_glass(desk, &board);
    /* The last slice lies over all others: frames, and what stands in front for a while. */
    plumb_slices_next(&desk->slices, desk->scene,
                      (PlumbRect){0.0, 0.0, desk->width_mm, desk->height_mm});
    draw_frames(desk, &board);
    compose_reason(desk, &board);
    if (desk->keys_shown) {
        plumb_compose_keys(desk, &board);
    }
    if (desk->slip != PLUMB_SLIP_NONE) {
        plumb_slip_draw(desk, &board);
    }
    if (desk->card != PLUMB_CARD_NONE) {
        plumb_card_draw(desk, &board);
    }
    plumb_slices_end(&desk->slices, desk->scene);
}
