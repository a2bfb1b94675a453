/* SPDX-License-Identifier: MIT */
/* The picture's zone: what to mark next, marks, the fit over the picture, the magnifier. */
#include "page_trace.h"

#include "reel.h"

#include <plumbar/card.h>

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};
static const double glass_mm = 36.0;
static const double glass_times = 4.0;
static const double glass_least_mm_per_px = 0.5;
static const double glass_off_mm = 9.0; /* from the pointer */

static PlumbVec2 mark_px(const PlumbMark *mark)
{
    return (PlumbVec2){mark->x_px, mark->y_px};
}

/* Size of the picture, or where there is none to see the room around its marks. */
static PlumbVec2 extent_px(const PlumbDesk *desk)
{
    const PlumbMarks *const marks = &desk->now.marked.marks;
    PlumbVec2 size = plumb_trace_size_px(desk);
    if (size.x > 0.0) {
        return size;
    }
    size = (PlumbVec2){640.0, 360.0};
    for (int i = 0; i < marks->count; i++) {
        if (marks->mark[i].still == desk->now.marked.still) {
            size.x = fmax(size.x, 1.1 * marks->mark[i].x_px);
            size.y = fmax(size.y, 1.1 * marks->mark[i].y_px);
        }
    }
    return size;
}

/* The whole picture in the room, until somebody zooms or pans. */
static void fit_view(PlumbDesk *desk)
{
    const PlumbMarked *const marked = &desk->now.marked;
    PlumbTracing *const t = desk->tracing;
    const PlumbVec2 size = extent_px(desk);
    if (t->view_still != plumb_marked_view(marked)) {
        t->view_still = plumb_marked_view(marked);
        t->whole = true;
    }
    if (t->whole) {
        const double scale = fmin(t->room.width_mm / size.x, t->room.height_mm / size.y);
        t->view.mm_per_px = scale;
        t->view.at_mm = (PlumbVec2){t->room.x_mm + 0.5 * (t->room.width_mm - scale * size.x),
                                    t->room.y_mm + 0.5 * (t->room.height_mm - scale * size.y)};
    }
    t->view.origin_px = (PlumbVec2){0.0, 0.0};
    t->view.top_mm = t->room.y_mm;
    t->view.mirror_px = marked->facing[plumb_marked_view(marked)] < 0 ? size.x : 0.0;
}

static void say_row(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbMarked *const marked = &desk->now.marked;
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    plumb_mark_rows(marked, desk->now.lift, row);
    const PlumbMarkRow *const now = &row[desk->tracing->row];
    const int count = plumb_marked_count(marked, now->name);
    plumb_text_string(text, count < now->most ? "Click: " : "Marked: ");
    plumb_marked_name(text, now->name);
    if (now->most > 1) {
        plumb_text_string(text, ", ");
        plumb_text_integer(text, count < now->most ? count + 1 : count);
        plumb_text_string(text, " of ");
        plumb_text_integer(text, now->most);
    }
    plumb_text_string(text, " — ");
    plumb_text_string(text, plumb_landmark_text(now->name.landmark));
    plumb_text_char(text, '.');
    if (desk->now.lift == PLUMB_BENCH && now->name.landmark == PLUMB_MARK_hip) {
        plumb_text_string(text, " Of a press it only says which way the feet lie; M does, too.");
    }
}

static PlumbRect inset(PlumbRect rect, double by_mm)
{
    return (PlumbRect){rect.x_mm + by_mm, rect.y_mm + by_mm, rect.width_mm - 2.0 * by_mm,
                       rect.height_mm - 2.0 * by_mm};
}

/* One or two lines above the picture; returns their height. */
static double draw_hint(const PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    char words[800];
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (desk->now.marked.marks.still_count == 0) {
        plumb_text_string(&text, "A still or a film of ");
        plumb_text_string(&text, desk->now.lift == PLUMB_BENCH ? "a bench press"
                                                               : "a deadlift or a squat");
        plumb_text_string(&text,
                          ": drop a PNG or JPEG on the window, a video, a folder of frames or a "
                          "file of marks, or open it with Ctrl+O.");
    } else {
        const PlumbMarks *const marks = &desk->now.marked.marks;
        plumb_text_string(&text, plumb_trace_picture(desk));
        if (desk->now.marked.film) {
            plumb_text_string(&text, ", ");
            plumb_reel_say(desk, &text);
        } else if (marks->still_count > 1) {
            plumb_text_string(&text, ", ");
            plumb_text_integer(&text, desk->now.marked.still + 1);
            plumb_text_string(&text, " of ");
            plumb_text_integer(&text, marks->still_count);
        }
        plumb_text_string(&text, desk->now.marked.film ? "" : ". ");
        if (plumb_reel_charts(desk)) {
            const PlumbSeries *const series = &desk->tracing->reel->read->series;
            plumb_text_string(&text, series->front || series->end_view
                                         ? "A click on a curve goes to its frame; Q shows the "
                                           "picture."
                                         : "A click on a curve or on the bar's path goes to its "
                                           "frame; Q shows the picture.");
        } else {
            say_row(desk, &text);
        }
        const char *const why = desk->tracing->pyramid.why;
        if (why[0] != '\0') {
            plumb_text_string(&text, " The picture is not shown: ");
            plumb_text_string(&text, why[0] == '"' ? "" : "it "); /* its path stands first */
            plumb_text_string(&text, why);
            plumb_text_char(&text, '.');
        }
    }
    double y = rect.y_mm;
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm + 1.0, &y, rect.width_mm - 2.0, size, 5,
                     words);
    /* What a film has to say changes as it plays: the picture shall not jump. */
    const double least = desk->now.marked.film ? 2.0 * PLUMB_LINE_PITCH * size : 0.0;
    return fmax(y - rect.y_mm, least) + 0.4 * size;
}

static void draw_marks(const PlumbDesk *desk, const PlumbBoard *board, const PlumbPictureFit *fit)
{
    const PlumbMarked *const marked = &desk->now.marked;
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    plumb_mark_rows(marked, desk->now.lift, row);
    const PlumbMarkName chosen = row[desk->tracing->row].name;
    for (int i = 0; i < marked->marks.count; i++) {
        const PlumbMark *const mark = &marked->marks.mark[i];
        if (mark->still != marked->still) {
            continue;
        }
        const bool now = mark->name.landmark == chosen.landmark && mark->name.near == chosen.near;
        const PlumbPen pen = {now ? PLUMB_ROLE_select : PLUMB_ROLE_mass,
                              now ? PLUMB_MEDIUM_MM : PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
        const PlumbVec2 at = plumb_picture_paper(fit, mark_px(mark));
        plumb_compose_mark(board->scene, pen, at);
        if (now) {
            plumb_scene_circle(board->scene, pen, NONE, at, 2.0);
        }
    }
}

/* The ellipse through the rim points of a disc, before there is a fit. */
static void draw_ellipse(const PlumbDesk *desk, const PlumbBoard *board, PlumbNear near)
{
    enum { POINTS = 48 };
    const PlumbMarked *const marked = &desk->now.marked;
    PlumbVec2 rim[PLUMB_STILL_MARKS_MAX];
    PlumbEllipse ellipse;
    int count = 0;
    for (int i = 0; i < marked->marks.count && count < PLUMB_STILL_MARKS_MAX; i++) {
        const PlumbMark *const mark = &marked->marks.mark[i];
        if (mark->still == marked->still && mark->name.landmark == PLUMB_MARK_disc &&
            mark->name.near == near) {
            rim[count++] = mark_px(mark);
        }
    }
    if (!plumb_ellipse_fit(rim, count, &ellipse)) {
        return;
    }
    PlumbVec2 line[POINTS];
    for (int i = 0; i < POINTS; i++) {
        line[i] = plumb_picture_paper(
            &desk->tracing->view, plumb_ellipse_point(&ellipse, i * 6.283185307179586 / POINTS));
    }
    const PlumbPen pen = {PLUMB_ROLE_bar, PLUMB_MEDIUM_MM, PLUMB_DOTTED, PLUMB_ROLE_none};
    plumb_scene_path(board->scene, pen, NONE, line, POINTS, true);
}

/* Two marks that belong together: a known length, a post. */
static void draw_pair(const PlumbDesk *desk, const PlumbBoard *board, PlumbLandmark landmark)
{
    const PlumbMarked *const marked = &desk->now.marked;
    const PlumbMark *first = NULL;
    const PlumbPen pen = {PLUMB_ROLE_mass, PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none};
    for (int i = 0; i < marked->marks.count; i++) {
        const PlumbMark *const mark = &marked->marks.mark[i];
        if (mark->still != marked->still || mark->name.landmark != landmark) {
            continue;
        }
        if (first != NULL) {
            plumb_scene_line(board->scene, pen, NONE,
                             plumb_picture_paper(&desk->tracing->view, mark_px(first)),
                             plumb_picture_paper(&desk->tracing->view, mark_px(mark)));
        }
        first = mark;
    }
}

static PlumbRect whole_pixels(PlumbRect rect)
{
    const double unit = PLUMB_WINDOW_PX_PER_MM;
    const double x = ceil(rect.x_mm * unit) / unit;
    const double y = ceil(rect.y_mm * unit) / unit;
    return (PlumbRect){x, y, floor((rect.x_mm + rect.width_mm) * unit) / unit - x,
                       floor((rect.y_mm + rect.height_mm) * unit) / unit - y};
}

void plumb_trace_views(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    PlumbTracing *const t = desk->tracing;
    const PlumbRect zone = desk->layout.views;
    t->frame++;
    /* Words and picture are painted apart, so that nothing of the one lies over the other. */
    plumb_slices_next(&desk->slices, board->scene, zone);
    const bool chart = plumb_reel_charts(desk);
    /* Beside large text the chart needs all the room; it has events and cursor of its own. */
    const bool alone = chart && desk->text_scale > 1.2;
    const double hint = alone ? 0.0 : draw_hint(desk, board, rect);
    const PlumbReel *const reel = alone ? NULL : plumb_reel_of(desk);
    const double line = reel != NULL ? plumb_reel_timeline_mm(board, rect.height_mm) : 0.0;
    t->room = whole_pixels(
        (PlumbRect){rect.x_mm, rect.y_mm + hint, rect.width_mm, rect.height_mm - hint - line});
    desk->slices.slice[desk->slices.count - 1].rect.height_mm = t->room.y_mm - zone.y_mm;
    if (reel != NULL) {
        const double foot = t->room.y_mm + t->room.height_mm;
        plumb_slices_next(
            &desk->slices, board->scene,
            (PlumbRect){zone.x_mm, foot, zone.width_mm, zone.y_mm + zone.height_mm - foot});
        plumb_reel_timeline(
            desk, board,
            (PlumbRect){rect.x_mm, foot, rect.width_mm, rect.y_mm + rect.height_mm - foot});
    }
    if (chart) {
        plumb_slices_next(&desk->slices, board->scene, t->room);
        plumb_reel_chart(desk, board, t->room);
        plumb_desk_widget(desk, PLUMB_WIDGET_PICTURE, 0, t->room, true);
        return;
    }
    plumb_slices_next(&desk->slices, board->scene, t->room);
    fit_view(desk);
    plumb_scene_rect(board->scene, PEN_RULE, NONE, t->room);
    if (desk->now.marked.marks.still_count == 0) {
        plumb_compose_filming_card(board->scene, board->drawing, desk->now.lift,
                                   inset(t->room, 4.0));
    }
    int still;
    const PlumbStills *const seen = plumb_trace_figure(desk, &still);
    if (seen != NULL) {
        plumb_compose_still(board->scene, seen, still, &t->view, plumb_font_width, desk->font);
    }
    draw_ellipse(desk, board, PLUMB_NEAR);
    draw_ellipse(desk, board, PLUMB_FAR);
    draw_pair(desk, board, PLUMB_MARK_scale);
    draw_pair(desk, board, PLUMB_MARK_plumb);
    plumb_reel_places(desk, board, &t->view);
    draw_marks(desk, board, &t->view);
    plumb_desk_widget(desk, PLUMB_WIDGET_PICTURE, 0, t->room, true);
    if (plumb_desk_has_focus(desk, PLUMB_WIDGET_PICTURE, 0)) {
        plumb_focus_ring(board, t->room);
    }
    if (seen != NULL) {
        const PlumbCamera *const camera = &seen->trace.still[still].camera;
        const double px_per_m = camera->focal_px / camera->distance_m;
        desk->fit.scale_n = 1000.0 / (px_per_m * t->view.mm_per_px); /* at the lifter */
    }
    plumb_slices_pane(&desk->slices, PLUMB_PANE_PICTURE,
                      plumb_trace_stamp(desk, PLUMB_PANE_PICTURE));
}

/* Beside its point, on the side where there is room. */
static PlumbRect place_glass(const PlumbDesk *desk)
{
    const PlumbTracing *const t = desk->tracing;
    const PlumbVec2 at = plumb_picture_paper(&t->view, t->magnified_px);
    const double side = fmin(glass_mm, 0.45 * fmin(t->room.width_mm, t->room.height_mm));
    const double right = t->room.x_mm + t->room.width_mm;
    const bool left = at.x + glass_off_mm + side > right;
    const bool below = at.y - glass_off_mm - side < t->room.y_mm;
    PlumbRect rect = {left ? at.x - glass_off_mm - side : at.x + glass_off_mm,
                      below ? at.y + glass_off_mm : at.y - glass_off_mm - side, side, side};
    rect.x_mm = fmin(fmax(rect.x_mm, t->room.x_mm), right - side);
    rect.y_mm = fmin(fmax(rect.y_mm, t->room.y_mm), t->room.y_mm + t->room.height_mm - side);
    /* On whole pixels, so that it can be painted apart. */
    rect.x_mm = round(rect.x_mm * PLUMB_WINDOW_PX_PER_MM) / PLUMB_WINDOW_PX_PER_MM;
    rect.y_mm = round(rect.y_mm * PLUMB_WINDOW_PX_PER_MM) / PLUMB_WINDOW_PX_PER_MM;
    return rect;
}

void plumb_trace_glass(PlumbDesk *desk, const PlumbBoard *board)
{
    PlumbTracing *const t = desk->tracing;
    if (!t->magnified || desk->page != PLUMB_PAGE_TRACE || t->pyramid.level_count == 0) {
        return;
    }
    t->glass = place_glass(desk);
    t->glass_view = t->view;
    t->glass_view.mm_per_px = fmax(glass_times * t->view.mm_per_px, glass_least_mm_per_px);
    const PlumbVec2 middle = {t->glass.x_mm + 0.5 * t->glass.width_mm,
                              t->glass.y_mm + 0.5 * t->glass.height_mm};
    const PlumbVec2 at = plumb_picture_paper(&t->glass_view, t->magnified_px);
    t->glass_view.at_mm.x += middle.x - at.x;
    t->glass_view.at_mm.y += middle.y - at.y;
    plumb_slices_next(&desk->slices, board->scene, t->glass);
    const PlumbPen halo = {PLUMB_ROLE_paper, 0.8, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbPen line = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const double reach = 0.5 * t->glass.width_mm;
    for (int k = 0; k < 2; k++) {
        const PlumbPen pen = k == 0 ? halo : line;
        for (int side = -1; side <= 1; side += 2) {
            plumb_scene_line(board->scene, pen, NONE, (PlumbVec2){middle.x + side * 1.2, middle.y},
                             (PlumbVec2){middle.x + side * reach, middle.y});
            plumb_scene_line(board->scene, pen, NONE, (PlumbVec2){middle.x, middle.y + side * 1.2},
                             (PlumbVec2){middle.x, middle.y + side * reach});
        }
    }
    draw_marks(desk, board, &t->glass_view);
    plumb_focus_ring(board, t->glass);
    plumb_slices_pane(&desk->slices, PLUMB_PANE_GLASS, plumb_trace_stamp(desk, PLUMB_PANE_GLASS));
}
