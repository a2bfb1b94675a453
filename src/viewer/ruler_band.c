/* SPDX-License-Identifier: MIT */
/* The band above a ruler's line: what cannot be held, curves, window and low-effort range. */
#include "ruler_draw.h"

#include "ruler.h"

#include <math.h>

static const double hatch_mm = 1.8;
static const double no_hatch_mm = 0.4;
static const double flat_m = 1e-5;
static const double least_span_m = 0.02; /* a curve flatter than this is not blown up */

/* Slanted lines over x0 to x1, as one line that turns at the edges of the band. */
static void draw_hatch(const PlumbBoard *board, const PlumbRulerPlace *place, double x0, double x1)
{
    if (x1 - x0 < no_hatch_mm) {
        return;
    }
    const double low = place->y_mm;
    const double high = place->y_mm - place->band_mm;
    PlumbVec2 point[256];
    int count = 0;
    bool up = true;
    for (double x = x0; x < x1 + place->band_mm && count + 2 <= 256; x += hatch_mm) {
        const double bottom = fmin(x, x1);
        const double top = fmax(x - place->band_mm, x0);
        const PlumbVec2 b = {bottom, low - (x - bottom)};
        const PlumbVec2 t = {top, high + fmax(0.0, place->band_mm - (x - top))};
        point[count++] = up ? b : t;
        point[count++] = up ? t : b;
        up = !up;
    }
    plumb_scene_path(board->scene, PEN_RULE, plumb_ruler_tag(place), point, count, false);
}

/* The part of a ruler that is hatched, and what ends the range there. */
typedef struct Barred {
    double x0;
    double x1;
    bool high; /* the upper end of the range */
    int reason;
} Barred;

/* Words stand clear of the pointer and within the line. */
static bool clear_of(const PlumbDesk *desk, const PlumbRulerPlace *place, double x, double width)
{
    const double value = plumb_ruler_value(desk, place->id);
    const double at = isfinite(value) ? plumb_ruler_place_mm(place, value) : place->x0_mm;
    return x >= place->x0_mm && x + width <= place->x1_mm && (at < x - 2.0 || at > x + width + 2.0);
}

/* The reason within the hatched part, at either of its ends; beside it where no curves stand. */
static void draw_reason(const PlumbDesk *desk, const PlumbBoard *board,
                        const PlumbRulerPlace *place, Barred barred, bool curves, double *taken_mm)
{
    char words[96];
    PlumbText line = plumb_text_begin(words, sizeof words);
    plumb_ruler_reason(place->id, barred.reason, &line);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double width = plumb_board_width(board, words, size);
    const bool fits = width + 1.6 <= barred.x1 - barred.x0;
    const double near = barred.high ? barred.x0 + 0.8 : barred.x1 - 0.8 - width;
    const double far = barred.high ? barred.x1 - 0.8 - width : barred.x0 + 0.8;
    const double beside = barred.high ? barred.x0 - 0.8 - width : barred.x1 + 0.8;
    double x = fits && clear_of(desk, place, near, width) ? near : fits ? far : beside;
    if ((!fits && curves) || !clear_of(desk, place, x, width) || x - 1.0 < *taken_mm) {
        return;
    }
    *taken_mm = x + width + 1.0;
    const PlumbPen paper = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_paper};
    const double top = place->y_mm - place->band_mm - 0.5;
    plumb_scene_rect(board->scene, paper, plumb_ruler_tag(place),
                     (PlumbRect){x - 1.0, top, width + 2.0, place->band_mm + 0.2});
    plumb_ruler_text(board, PLUMB_ROLE_quiet, place, x,
                     place->y_mm - 0.5 * (place->band_mm + PLUMB_RULER_STRIP_MM) + 0.36 * size,
                     size, PLUMB_START, words);
}

static void draw_not_held(const PlumbDesk *desk, const PlumbBoard *board,
                          const PlumbRulerPlace *place, const PlumbCurvePass *pass, bool curves)
{
    Barred part[2];
    int count = 0;
    double taken_mm = -(double)INFINITY; /* how far the first reason reaches */
    if (pass->first > pass->last) {
        part[count++] = (Barred){place->x0_mm, place->x1_mm, true, pass->low_reason};
    } else {
        if (pass->low_ends) {
            part[count++] = (Barred){place->x0_mm, plumb_ruler_place_mm(place, pass->low), false,
                                     pass->low_reason};
        }
        if (pass->high_ends) {
            part[count++] = (Barred){plumb_ruler_place_mm(place, pass->high), place->x1_mm, true,
                                     pass->high_reason};
        }
    }
    for (int i = 0; i < count; i++) {
        draw_hatch(board, place, part[i].x0, part[i].x1);
        draw_reason(desk, board, place, part[i], curves, &taken_mm);
        const double end = part[i].high ? part[i].x0 : part[i].x1;
        if (pass->first <= pass->last) {
            plumb_scene_line(board->scene, PEN_RULE, plumb_ruler_tag(place),
                             (PlumbVec2){end, place->y_mm},
                             (PlumbVec2){end, place->y_mm - place->band_mm});
        }
    }
}

static double curve_value(const PlumbCurvePoint *point, int arm)
{
    return arm < 0 ? point->travel_m : point->arm_m[arm];
}

/* arm -1: bar travel. Each curve has its own scale over the band; not less than 2 cm. */
static void draw_curve(const PlumbBoard *board, const PlumbRulerPlace *place,
                       const PlumbCurvePass *pass, int arm, PlumbPen pen)
{
    double low = (double)INFINITY;
    double high = (double)-INFINITY;
    for (int i = pass->first; i <= pass->last; i++) {
        const double value = curve_value(&pass->point[i], arm);
        if (isfinite(value)) {
            low = fmin(low, value);
            high = fmax(high, value);
        }
    }
    const double span = fmax(high - low, least_span_m);
    const double room = place->band_mm - PLUMB_RULER_STRIP_MM - 1.0;
    const double foot = place->y_mm - PLUMB_RULER_STRIP_MM - 0.5;
    const double lift = 0.5 * (room - room * (high - low) / span);
    PlumbVec2 point[PLUMB_CURVE_POINTS];
    int count = 0;
    for (int i = pass->first; i <= pass->last; i++) {
        const double value = curve_value(&pass->point[i], arm);
        if (isfinite(value)) {
            point[count].x = plumb_ruler_place_mm(place, plumb_curve_at(place->id, i));
            point[count++].y = foot - lift - room * (value - low) / span;
        }
    }
    if (count > 1) {
        plumb_scene_path(board->scene, pen, plumb_ruler_tag(place), point, count, false);
    }
}

static void draw_interval(const PlumbBoard *board, const PlumbRulerPlace *place,
                          const PlumbInterval *interval, bool filled)
{
    if (!interval->exists) {
        return;
    }
    const double x0 = fmax(plumb_ruler_place_mm(place, interval->low), place->x0_mm);
    const double x1 = fmin(plumb_ruler_place_mm(place, interval->high), place->x1_mm);
    const PlumbPen outline = {PLUMB_ROLE_hold, 1.4 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
    const PlumbPen solid = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_hold};
    if (x1 > x0) {
        plumb_scene_rect(
            board->scene, filled ? solid : outline, plumb_ruler_tag(place),
            (PlumbRect){x0, place->y_mm - PLUMB_RULER_STRIP_MM, x1 - x0, PLUMB_RULER_STRIP_MM});
    }
}

bool plumb_ruler_is_flat(const PlumbCurvePass *pass, int arms)
{
    for (int i = pass->first + 1; i <= pass->last; i++) {
        for (int j = -1; j < arms; j++) {
            const double change =
                curve_value(&pass->point[i], j) - curve_value(&pass->point[pass->first], j);
            if (!(fabs(change) < flat_m)) {
                return false;
            }
        }
    }
    return pass->first < pass->last;
}

static bool curves_shown(const PlumbDesk *desk, const PlumbRulerPlace *place)
{
    for (int i = 0; i < desk->place_count; i++) {
        if (desk->place[i].id == place->id) {
            for (int j = i - 1; j <= i + 1; j++) {
                if (j >= 0 && j < desk->place_count &&
                    plumb_desk_has_focus(desk, PLUMB_WIDGET_RULER, (int)desk->place[j].id)) {
                    return true;
                }
            }
        }
    }
    return false;
}

void plumb_ruler_draw_band(const PlumbDesk *desk, const PlumbBoard *board,
                           const PlumbRulerPlace *place)
{
    const PlumbCurve *const curve = &desk->curve[place->id];
    const bool curves = curve->shown && curves_shown(desk, place);
    if (curve->shown) {
        draw_not_held(desk, board, place, &curve->pass, curves);
    }
    if (curves) {
        draw_curve(board, place, &curve->pass, -1, PLUMB_PEN_TRAVEL);
        draw_curve(board, place, &curve->pass, plumb_desk_arm(desk), PLUMB_PEN_ARM);
    }
    PlumbInterval window;
    PlumbInterval low_effort;
    if (plumb_ruler_intervals(desk, place->id, &window, &low_effort)) {
        draw_interval(board, place, &window, false);
        draw_interval(board, place, &low_effort, true);
    }
}
