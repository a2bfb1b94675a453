/* SPDX-License-Identifier: MIT */
/* The bar's path at one scale for both directions: over the foot, of a press over the shoulder. */
#include "scene/film_chart.h"

#include <math.h>

static const double REACH_MM = 8.0; /* of a click on the path */
static const double ROOM_M = 0.05;  /* around what the path panel shows */
static const double ASIDE_M = 0.10; /* of the shoulder that is shown at least */
static const double FOOT_MM = 8.0;  /* words below what is stood or lain on */
enum { PATH_POINTS = 1200, CELL_SIZE = 96 };

/* Model to paper. Of a press the origin is the shoulder. */
typedef struct Place {
    double mm_per_m;
    PlumbVec2 origin_mm;
    double bench_m; /* of a press: the bench below the shoulder */
} Place;

static bool is_press(const PlumbSeries *s)
{
    return s->lift == PLUMB_BENCH;
}

/* Where the bar is in a frame. */
static PlumbVec2 bar_of(const PlumbSeries *s, int frame)
{
    const PlumbSeriesFrame *const f = &s->frame[frame];
    return is_press(s) ? (PlumbVec2){f->value[PLUMB_READ_bar_from_shoulder],
                                     f->value[PLUMB_READ_bar_above_shoulder]}
                       : f->bar_m;
}

static PlumbVec2 on_paper(const Place *place, double x_m, double y_m)
{
    return (PlumbVec2){place->origin_mm.x + place->mm_per_m * x_m,
                       place->origin_mm.y - place->mm_per_m * y_m};
}

static Place place_of(const PlumbSeries *s, PlumbRect rect)
{
    const PlumbTraced *const still = &s->trace.still[0];
    const PlumbVec3 *const point = still->position.point;
    const bool press = is_press(s);
    const double bench = press ? point[PLUMB_PT_shoulder].y - still->setup.bench_height_m : 0.0;
    double low = press ? -ASIDE_M : point[PLUMB_PT_heel].x;
    double high = press ? ASIDE_M : point[PLUMB_PT_toe].x;
    double top = 0.0;
    for (int i = 0; i < s->frame_count; i++) {
        const PlumbVec2 bar = bar_of(s, i);
        low = fmin(low, bar.x);
        high = fmax(high, bar.x);
        top = fmax(top, bar.y);
    }
    low -= ROOM_M;
    high += ROOM_M;
    const double scale =
        fmin(rect.width_mm / (high - low), (rect.height_mm - FOOT_MM) / (top + bench + ROOM_M));
    return (Place){scale,
                   {rect.x_mm + 0.5 * rect.width_mm - scale * 0.5 * (low + high),
                    rect.y_mm + rect.height_mm - FOOT_MM - scale * bench},
                   bench};
}

/* The path of some frames; seen: without those that were filled in. */
static void path_part(const PlumbBoard *board, const PlumbSeries *s, const Place *place, int from,
                      int to, bool seen, PlumbPen pen)
{
    PlumbVec2 line[PATH_POINTS];
    const int stride = (to - from + PATH_POINTS) / PATH_POINTS;
    int count = 0;
    for (int i = from; i <= to; i += stride) {
        const PlumbVec2 bar = bar_of(s, i);
        if (!seen || s->frame[i].known) {
            line[count++] = on_paper(place, bar.x, bar.y);
        } else if (count > 0) {
            plumb_scene_path(board->scene, pen, TAG_NONE, line, count, false);
            count = 0;
        }
    }
    if (count > 0) {
        plumb_scene_path(board->scene, pen, TAG_NONE, line, count, false);
    }
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

/* Bench and shoulder, and the shoulder's plumb line. */
static void bench(const PlumbBoard *board, const Place *place, PlumbRect rect)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const PlumbPen heavy = {PLUMB_ROLE_quiet, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbPen chain = {PLUMB_ROLE_mass, PLUMB_FINE_MM, PLUMB_CHAIN_DOUBLE, PLUMB_ROLE_none};
    const PlumbPen dot = {PLUMB_ROLE_ink, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    const PlumbVec2 shoulder = on_paper(place, 0.0, 0.0);
    const PlumbVec2 below = on_paper(place, 0.0, -place->bench_m);
    const double right = rect.x_mm + rect.width_mm;
    plumb_scene_line(board->scene, heavy, TAG_NONE, (PlumbVec2){rect.x_mm, below.y},
                     (PlumbVec2){right, below.y});
    plumb_scene_line(board->scene, chain, TAG_NONE, below, (PlumbVec2){below.x, rect.y_mm});
    plumb_scene_circle(board->scene, dot, TAG_NONE, shoulder, 1.2);
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                     (PlumbVec2){shoulder.x - 2.5, shoulder.y + 0.36 * size}, size, PLUMB_END,
                     "shoulder");
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                     (PlumbVec2){rect.x_mm, below.y + 1.5 * size}, size, PLUMB_START, "bench");
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE, (PlumbVec2){right, below.y + 1.5 * size},
                     size, PLUMB_END, "toward the feet");
}

/* The event's name; of a press at its ends the bar from the shoulder too. NULL: it has no place on
 * the path. A press leaves the chest where it touches it. */
static const char *event_words(PlumbText *text, const PlumbFilmChart *chart, PlumbEvent event)
{
    static const char *const words[PLUMB_EVENT_COUNT] = {[PLUMB_EVENT_lift_off] = "lift-off",
                                                         [PLUMB_EVENT_knee_pass] = "knee",
                                                         [PLUMB_EVENT_slowest] = "slowest",
                                                         [PLUMB_EVENT_lockout] = "lockout",
                                                         [PLUMB_EVENT_turn_round] = "turn-round"};
    const PlumbSeries *const s = chart->series;
    const bool press = is_press(s);
    if (s->event_frame[event] < 0 || words[event] == NULL ||
        (press && event == PLUMB_EVENT_lift_off)) {
        return NULL;
    }
    const bool standing = s->lift == PLUMB_SQUAT && event == PLUMB_EVENT_lockout;
    const bool touch = press && event == PLUMB_EVENT_turn_round;
    plumb_text_string(text, standing ? "standing" : touch ? "touch" : words[event]);
    if (touch || (press && event == PLUMB_EVENT_lockout)) {
        plumb_text_string(text, " ");
        plumb_text_difference(text, bar_of(s, s->event_frame[event]).x, PLUMB_Q_LENGTH,
                              chart->units);
    }
    return text->data;
}

static void path_event(const PlumbBoard *board, const PlumbFilmChart *chart, const Place *place,
                       PlumbEvent event, PlumbRect rect)
{
    char cell[CELL_SIZE];
    PlumbText text = plumb_text_begin(cell, sizeof cell);
    const char *const name = event_words(&text, chart, event);
    if (name == NULL) {
        return;
    }
    const PlumbVec2 bar = bar_of(chart->series, chart->series->event_frame[event]);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const PlumbPen dot = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    const PlumbVec2 at = on_paper(place, bar.x, bar.y);
    const double width = plumb_board_width(board, name, size);
    const double right_mm = rect.x_mm + rect.width_mm;
    const bool left = at.x + 2.5 + width > right_mm;
    const bool neither = left && at.x - 2.0 - width < rect.x_mm;
    const PlumbVec2 beside = {left ? at.x - 2.0 : at.x + 2.0, at.y + 0.36 * size};
    const PlumbVec2 below = {fmin(at.x, right_mm - width), at.y + 1.6 * size};
    plumb_scene_circle(board->scene, dot, TAG_NONE, at, 0.9);
    plumb_board_text(board, PLUMB_ROLE_ink, TAG_NONE, neither ? below : beside, size,
                     left && !neither ? PLUMB_END : PLUMB_START, name);
}

void plumb_film_path(const PlumbBoard *board, const PlumbFilmChart *chart, PlumbRect rect)
{
    const PlumbSeries *const s = chart->series;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const Place place = place_of(s, rect);
    const bool squat = s->lift == PLUMB_SQUAT;
    const int from = s->event_frame[squat ? PLUMB_EVENT_turn_round : PLUMB_EVENT_lift_off];
    const int to = s->event_frame[PLUMB_EVENT_lockout];
    const PlumbPen way = {PLUMB_ROLE_bar, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbPen other = {PLUMB_ROLE_bar, PLUMB_FINE_MM, PLUMB_DOTTED, PLUMB_ROLE_none};
    plumb_board_text(
        board, PLUMB_ROLE_ink, TAG_NONE, (PlumbVec2){rect.x_mm, rect.y_mm - 1.2}, size, PLUMB_START,
        is_press(s) ? "The bar's path over the shoulder" : "The bar's path over the foot");
    if (is_press(s)) {
        bench(board, &place, rect);
    } else {
        foot(board, &place, &s->trace.still[0].position, rect);
    }
    path_part(board, s, &place, 0, s->frame_count - 1, false, other);
    if (from >= 0 && to > from) {
        path_part(board, s, &place, from, to, true, way);
    }
    for (int i = 0; i < PLUMB_EVENT_COUNT; i++) {
        path_event(board, chart, &place, (PlumbEvent)i, rect);
    }
    if (chart->cursor >= 0 && chart->cursor < s->frame_count) {
        const PlumbPen dot = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_select};
        const PlumbVec2 bar = bar_of(s, chart->cursor);
        plumb_scene_circle(board->scene, dot, TAG_NONE, on_paper(&place, bar.x, bar.y), 1.3);
    }
}

int plumb_film_path_frame(const PlumbFilmChart *chart, PlumbRect rect, PlumbVec2 at_mm)
{
    const PlumbSeries *const s = chart->series;
    const Place place = place_of(s, rect);
    double best = REACH_MM;
    int found = -1;
    for (int i = 0; i < s->frame_count; i++) {
        const PlumbVec2 at = bar_of(s, i);
        const PlumbVec2 bar = on_paper(&place, at.x, at.y);
        const double off = hypot(bar.x - at_mm.x, bar.y - at_mm.y);
        if (off < best) {
            best = off;
            found = i;
        }
    }
    return found;
}
