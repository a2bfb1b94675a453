/* SPDX-License-Identifier: MIT */
/* The bar's path over the foot, and the sheet of a film with its findings. */
#include "scene/film_chart.h"

#include <math.h>

static const double MARGIN_MM = 8.0;
static const double PAD_MM = 6.0;
static const double NOTE_MM = 16.0;   /* the caution */
static const double REMARK_MM = 10.0; /* each of what is remarked */
static const double REACH_MM = 8.0;   /* of a click on the path */
static const double ROOM_M = 0.05;    /* around what the path panel shows */
enum { PATH_POINTS = 1200, CELL_SIZE = 96, NOTE_SIZE = 1024 };

/* Model to paper, one scale for both directions. */
typedef struct Place {
    double mm_per_m;
    PlumbVec2 origin_mm;
} Place;

static PlumbVec2 on_paper(const Place *place, double x_m, double y_m)
{
    return (PlumbVec2){place->origin_mm.x + place->mm_per_m * x_m,
                       place->origin_mm.y - place->mm_per_m * y_m};
}

static Place place_of(const PlumbSeries *s, const PlumbPosition *position, PlumbRect rect)
{
    double low = position->point[PLUMB_PT_heel].x;
    double high = position->point[PLUMB_PT_toe].x;
    double top = 0.0;
    for (int i = 0; i < s->frame_count; i++) {
        low = fmin(low, s->frame[i].bar_m.x);
        high = fmax(high, s->frame[i].bar_m.x);
        top = fmax(top, s->frame[i].bar_m.y);
    }
    low -= ROOM_M;
    high += ROOM_M;
    const double foot_mm = 8.0;
    const double scale =
        fmin(rect.width_mm / (high - low), (rect.height_mm - foot_mm) / (top + ROOM_M));
    return (Place){scale,
                   {rect.x_mm + 0.5 * rect.width_mm - scale * 0.5 * (low + high),
                    rect.y_mm + rect.height_mm - foot_mm}};
}

/* The path of some frames. */
static void path_part(const PlumbBoard *board, const PlumbSeries *s, const Place *place, int from,
                      int to, PlumbPen pen)
{
    PlumbVec2 line[PATH_POINTS];
    const int stride = (to - from + PATH_POINTS) / PATH_POINTS;
    int count = 0;
    for (int i = from; i <= to; i += stride) {
        line[count++] = on_paper(place, s->frame[i].bar_m.x, s->frame[i].bar_m.y);
    }
    plumb_scene_path(board->scene, pen, TAG_NONE, line, count, false);
}

static void foot(const PlumbBoard *board, const Place *place, const PlumbPosition *position,
                 PlumbRect rect)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const PlumbPen heavy = {PLUMB_ROLE_ink, PLUMB_HEAVY_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbPen chain = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_CHAIN, PLUMB_ROLE_none};
    const PlumbVec2 heel = on_paper(place, position->point[PLUMB_PT_heel].x, 0.0);
    const PlumbVec2 toe = on_paper(place, position->point[PLUMB_PT_toe].x, 0.0);
    const PlumbVec2 middle = on_paper(place, 0.0, 0.0);
    plumb_scene_line(board->scene, PEN_RULE, TAG_NONE, (PlumbVec2){rect.x_mm, heel.y},
                     (PlumbVec2){rect.x_mm + rect.width_mm, heel.y});
    plumb_scene_line(board->scene, heavy, TAG_NONE, heel, toe);
    plumb_scene_line(board->scene, chain, TAG_NONE, middle, (PlumbVec2){middle.x, rect.y_mm});
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE, (PlumbVec2){heel.x, heel.y + 1.5 * size},
                     size, PLUMB_MIDDLE, "heel");
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE, (PlumbVec2){toe.x, heel.y + 1.5 * size},
                     size, PLUMB_MIDDLE, "toe");
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE, (PlumbVec2){middle.x, heel.y + 2.8 * size},
                     size, PLUMB_MIDDLE, "mid-foot");
}

static void path_event(const PlumbBoard *board, const PlumbSeries *s, const Place *place,
                       PlumbEvent event, PlumbRect rect)
{
    static const char *const words[PLUMB_EVENT_COUNT] = {[PLUMB_EVENT_lift_off] = "lift-off",
                                                         [PLUMB_EVENT_knee_pass] = "knee",
                                                         [PLUMB_EVENT_slowest] = "slowest",
                                                         [PLUMB_EVENT_lockout] = "lockout",
                                                         [PLUMB_EVENT_turn_round] = "turn-round"};
    if (s->event_frame[event] < 0 || words[event] == NULL) {
        return;
    }
    const bool standing = s->lift == PLUMB_SQUAT && event == PLUMB_EVENT_lockout;
    const char *const name = standing ? "standing" : words[event];
    const PlumbSeriesFrame *const frame = &s->frame[s->event_frame[event]];
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const PlumbPen dot = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    const PlumbVec2 at = on_paper(place, frame->bar_m.x, frame->bar_m.y);
    const double width = plumb_board_width(board, name, size);
    const bool left = at.x + 2.5 + width > rect.x_mm + rect.width_mm;
    plumb_scene_circle(board->scene, dot, TAG_NONE, at, 0.9);
    plumb_board_text(board, PLUMB_ROLE_ink, TAG_NONE,
                     (PlumbVec2){left ? at.x - 2.0 : at.x + 2.0, at.y + 0.36 * size}, size,
                     left ? PLUMB_END : PLUMB_START, name);
}

void plumb_film_path(const PlumbBoard *board, const PlumbFilmChart *chart, PlumbRect rect)
{
    const PlumbSeries *const s = chart->series;
    const PlumbPosition *const position = &s->trace.still[0].position;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const Place place = place_of(s, position, rect);
    const bool squat = s->lift == PLUMB_SQUAT;
    const int from = s->event_frame[squat ? PLUMB_EVENT_turn_round : PLUMB_EVENT_lift_off];
    const int to = s->event_frame[PLUMB_EVENT_lockout];
    const PlumbPen way = {PLUMB_ROLE_bar, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbPen other = {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_DOTTED, PLUMB_ROLE_none};
    plumb_board_text(board, PLUMB_ROLE_ink, TAG_NONE, (PlumbVec2){rect.x_mm, rect.y_mm - 1.2}, size,
                     PLUMB_START, "The bar's path over the foot");
    foot(board, &place, position, rect);
    path_part(board, s, &place, 0, s->frame_count - 1, other);
    if (from >= 0 && to > from) {
        path_part(board, s, &place, from, to, way);
    }
    for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
        path_event(board, s, &place, (PlumbEvent)i, rect);
    }
    if (chart->cursor >= 0 && chart->cursor < s->frame_count) {
        const PlumbPen dot = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_select};
        const PlumbVec2 bar = s->frame[chart->cursor].bar_m;
        plumb_scene_circle(board->scene, dot, TAG_NONE, on_paper(&place, bar.x, bar.y), 1.3);
    }
}

int plumb_film_path_frame(const PlumbFilmChart *chart, PlumbRect rect, PlumbVec2 at_mm)
{
    const PlumbSeries *const s = chart->series;
    const Place place = place_of(s, &s->trace.still[0].position, rect);
    double best = REACH_MM;
    int found = -1;
    for (int i = 0; i < s->frame_count; i++) {
        const PlumbVec2 bar = on_paper(&place, s->frame[i].bar_m.x, s->frame[i].bar_m.y);
        const double off = hypot(bar.x - at_mm.x, bar.y - at_mm.y);
        if (off < best) {
            best = off;
            found = i;
        }
    }
    return found;
}

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
