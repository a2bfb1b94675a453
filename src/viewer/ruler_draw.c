/* SPDX-License-Identifier: MIT */
/* One ruler: name, figure, curves, hatching, graduated line, pointer. */
#include "compose.h"
#include "ruler.h"

#include <math.h>
#include <string.h>

static const double band_mm = 5.4;  /* height of the curves above the line */
static const double strip_mm = 1.3; /* of window and low-effort range */
static const double tick_mm = 1.1;
static const double major_mm = 2.0;
static const double hatch_mm = 1.8;
static const double no_arrow_mm = 0.4;
static const double flat_m = 1e-5;
static const double least_span_m = 0.02; /* a curve flatter than this is not blown up */

static const PlumbPen LINE = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
static const PlumbPen HEAVY = {PLUMB_ROLE_ink, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none};
static const PlumbPen FAINT = {PLUMB_ROLE_rule, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
static const PlumbPen TRAVEL = {PLUMB_ROLE_bar, 1.4 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_none};
static const PlumbPen ARM = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none};

static PlumbTag tag_of(const PlumbRulerPlace *place)
{
    return (PlumbTag){PLUMB_TAG_SETTING, (int)place->id};
}

static void text(const PlumbBoard *board, PlumbRole role, const PlumbRulerPlace *place, double x,
                 double y, double size_mm, PlumbAlign align, const char *words)
{
    plumb_board_text(board, role, tag_of(place), (PlumbVec2){x, y}, size_mm, align, words);
}

/* Graduation of a range in the reader's unit: the finest of 1, 2, 5 times a power of ten whose
 * numbers keep apart. */
typedef struct Graduation {
    double major;
    double minor;
    double factor;
    int decimals;
} Graduation;

static Graduation graduate(const PlumbDesk *desk, const PlumbRulerPlace *place, double number_mm)
{
    static const double ROUND[] = {1.0, 2.0, 5.0};
    const PlumbSetting *const setting = plumb_setting(place->id);
    Graduation g = {0};
    g.factor = plumb_quantity_factor(setting->quantity, desk->units);
    const double span = (setting->max_si - setting->min_si) * g.factor;
    const double per_mm = span / (place->x1_mm - place->x0_mm);
    for (int i = -9; i < 15 && g.major <= 0.0; i++) {
        const int power = (i + 9) / 3 - 3;
        const double step = ROUND[(i + 9) % 3] * pow(10.0, power);
        if (step >= per_mm * number_mm) {
            g.major = step;
            g.decimals = power < 0 ? -power : 0;
            const double fifth = (i + 9) % 3 == 1 ? 4.0 : 5.0;
            g.minor =
                step / fifth >= per_mm * 1.0 ? step / fifth : step / (fifth == 4.0 ? 2.0 : 1.0);
        }
    }
    return g;
}

/* All ticks of one kind as one line that runs along the ruler and steps down at each of them. */
static void draw_comb(const PlumbBoard *board, const PlumbRulerPlace *place, PlumbPen pen,
                      const Graduation *g, double step, double length_mm)
{
    PlumbVec2 point[360];
    int count = 0;
    const PlumbSetting *const setting = plumb_setting(place->id);
    const double first = ceil(setting->min_si * g->factor / step - 1e-9);
    const double last = floor(setting->max_si * g->factor / step + 1e-9);
    for (double i = first; i <= last && count + 3 <= 360; i += 1.0) {
        const double x = plumb_ruler_place_mm(place, i * step / g->factor);
        point[count++] = (PlumbVec2){x, place->y_mm};
        point[count++] = (PlumbVec2){x, place->y_mm + length_mm};
        point[count++] = (PlumbVec2){x, place->y_mm};
    }
    if (count > 0) {
        plumb_scene_path(board->scene, pen, tag_of(place), point, count, false);
    }
}

static void draw_line(const PlumbDesk *desk, const PlumbBoard *board, const PlumbRulerPlace *place)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double number = plumb_board_width(board, "-0.00", size);
    const Graduation g = graduate(desk, place, number + 1.2);
    const bool leads = plumb_ruler_role(desk, place->id) == PLUMB_RULER_LEADS;
    draw_comb(board, place, FAINT, &g, g.minor, tick_mm);
    draw_comb(board, place, LINE, &g, g.major, major_mm);
    plumb_scene_line(board->scene, leads ? HEAVY : LINE, tag_of(place),
                     (PlumbVec2){place->x0_mm, place->y_mm},
                     (PlumbVec2){place->x1_mm, place->y_mm});
    const PlumbSetting *const setting = plumb_setting(place->id);
    const double first = ceil(setting->min_si * g.factor / g.major - 1e-9);
    const double last = floor(setting->max_si * g.factor / g.major + 1e-9);
    for (double i = first; i <= last; i += 1.0) {
        char words[32];
        PlumbText line = plumb_text_begin(words, sizeof words);
        plumb_text_fixed(&line, i * g.major, g.decimals);
        const double half = 0.5 * plumb_board_width(board, words, size);
        const double left = place->rect.x_mm + 0.8 + half;
        const double right = place->rect.x_mm + place->rect.width_mm - 0.8 - half;
        const double x = plumb_ruler_place_mm(place, i * g.major / g.factor);
        text(board, PLUMB_ROLE_quiet, place, fmax(left, fmin(x, right)),
             place->y_mm + major_mm + 0.86 * size, size, PLUMB_MIDDLE, words);
    }
}

/* Slanted lines over x0 to x1, as one line that turns at the edges of the band. */
static void draw_hatch(const PlumbBoard *board, const PlumbRulerPlace *place, double x0, double x1)
{
    if (x1 - x0 < no_arrow_mm) {
        return;
    }
    const double low = place->y_mm;
    const double high = place->y_mm - band_mm;
    PlumbVec2 point[256];
    int count = 0;
    bool up = true;
    for (double x = x0; x < x1 + band_mm && count + 2 <= 256; x += hatch_mm) {
        const double bottom = fmin(x, x1);
        const double top = fmax(x - band_mm, x0);
        const PlumbVec2 b = {bottom, low - (x - bottom)};
        const PlumbVec2 t = {top, high + fmax(0.0, band_mm - (x - top))};
        point[count++] = up ? b : t;
        point[count++] = up ? t : b;
        up = !up;
    }
    plumb_scene_path(board->scene, FAINT, tag_of(place), point, count, false);
}

/* The part of a ruler that is hatched, and what ends the range there. */
typedef struct Barred {
    double x0;
    double x1;
    bool high; /* the upper end of the range */
    PlumbConstraintId failed;
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
                        const PlumbRulerPlace *place, Barred barred, bool curves)
{
    char words[96];
    PlumbText line = plumb_text_begin(words, sizeof words);
    plumb_ruler_reason(place->id, barred.failed, &line);
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double width = plumb_board_width(board, words, size);
    const bool fits = width + 1.6 <= barred.x1 - barred.x0;
    const double near = barred.high ? barred.x0 + 0.8 : barred.x1 - 0.8 - width;
    const double far = barred.high ? barred.x1 - 0.8 - width : barred.x0 + 0.8;
    const double beside = barred.high ? barred.x0 - 0.8 - width : barred.x1 + 0.8;
    double x = fits && clear_of(desk, place, near, width) ? near : fits ? far : beside;
    if ((!fits && curves) || !clear_of(desk, place, x, width)) {
        return;
    }
    const PlumbPen paper = {PLUMB_ROLE_none, 0.0, PLUMB_SOLID, PLUMB_ROLE_paper};
    const double top = place->y_mm - band_mm - 0.2;
    plumb_scene_rect(board->scene, paper, tag_of(place),
                     (PlumbRect){x - 1.0, top, width + 2.0, band_mm - 0.1});
    text(board, PLUMB_ROLE_quiet, place, x, place->y_mm - 0.5 * (band_mm + strip_mm) + 0.36 * size,
         size, PLUMB_START, words);
}

static void draw_not_held(const PlumbDesk *desk, const PlumbBoard *board,
                          const PlumbRulerPlace *place, const PlumbCurvePass *pass, bool curves)
{
    Barred part[2];
    int count = 0;
    if (pass->first > pass->last) {
        part[count++] = (Barred){place->x0_mm, place->x1_mm, true, pass->low_failed};
    } else {
        if (pass->low_ends) {
            part[count++] = (Barred){place->x0_mm, plumb_ruler_place_mm(place, pass->low), false,
                                     pass->low_failed};
        }
        if (pass->high_ends) {
            part[count++] = (Barred){plumb_ruler_place_mm(place, pass->high), place->x1_mm, true,
                                     pass->high_failed};
        }
    }
    for (int i = 0; i < count; i++) {
        draw_hatch(board, place, part[i].x0, part[i].x1);
        draw_reason(desk, board, place, part[i], curves);
        const double end = part[i].high ? part[i].x0 : part[i].x1;
        if (pass->first <= pass->last) {
            plumb_scene_line(board->scene, FAINT, tag_of(place), (PlumbVec2){end, place->y_mm},
                             (PlumbVec2){end, place->y_mm - band_mm});
        }
    }
}

static double curve_value(const PlumbCurvePoint *point, int joint)
{
    return joint < 0 ? point->travel_m : point->arm_m[joint];
}

/* joint -1: bar travel. Each curve has its own scale over the band; not less than 2 cm. */
static void draw_curve(const PlumbBoard *board, const PlumbRulerPlace *place,
                       const PlumbCurvePass *pass, int joint, PlumbPen pen)
{
    double low = (double)INFINITY;
    double high = (double)-INFINITY;
    for (int i = pass->first; i <= pass->last; i++) {
        const double value = curve_value(&pass->point[i], joint);
        if (isfinite(value)) {
            low = fmin(low, value);
            high = fmax(high, value);
        }
    }
    const double span = fmax(high - low, least_span_m);
    const double room = band_mm - strip_mm - 1.0;
    const double foot = place->y_mm - strip_mm - 0.5;
    const double lift = 0.5 * (room - room * (high - low) / span);
    PlumbVec2 point[PLUMB_CURVE_POINTS];
    int count = 0;
    for (int i = pass->first; i <= pass->last; i++) {
        const double value = curve_value(&pass->point[i], joint);
        if (isfinite(value)) {
            point[count].x = plumb_ruler_place_mm(place, plumb_curve_at(place->id, i));
            point[count++].y = foot - lift - room * (value - low) / span;
        }
    }
    if (count > 1) {
        plumb_scene_path(board->scene, pen, tag_of(place), point, count, false);
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
        plumb_scene_rect(board->scene, filled ? solid : outline, tag_of(place),
                         (PlumbRect){x0, place->y_mm - strip_mm, x1 - x0, strip_mm});
    }
}

static void triangle(const PlumbBoard *board, const PlumbRulerPlace *place, double x, double size,
                     PlumbPen pen)
{
    const PlumbVec2 point[3] = {{x, place->y_mm},
                                {x - 0.42 * size, place->y_mm - size},
                                {x + 0.42 * size, place->y_mm - size}};
    plumb_scene_path(board->scene, pen, tag_of(place), point, 3, true);
}

static void draw_pointers(const PlumbDesk *desk, const PlumbBoard *board,
                          const PlumbRulerPlace *place)
{
    const PlumbPen pencil = {PLUMB_ROLE_pencil, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    const PlumbPen solid = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_ink};
    const PlumbPen hollow = {PLUMB_ROLE_ink, 1.4 * PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    const PlumbPen wish = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none};
    const double was = plumb_ruler_pencil_value(desk, place->id);
    if (isfinite(was)) {
        triangle(board, place, plumb_ruler_place_mm(place, was), 3.2, pencil);
    }
    const double value = plumb_ruler_value(desk, place->id);
    if (!isfinite(value)) {
        return;
    }
    const double x = plumb_ruler_place_mm(place, value);
    if (plumb_ruler_role(desk, place->id) == PLUMB_RULER_COULD_LEAD) {
        plumb_scene_line(board->scene, LINE, tag_of(place), (PlumbVec2){x, place->y_mm - band_mm},
                         (PlumbVec2){x, place->y_mm + major_mm});
        plumb_scene_circle(board->scene, hollow, tag_of(place), (PlumbVec2){x, place->y_mm}, 0.9);
        return;
    }
    plumb_scene_line(board->scene, plumb_desk_wish(desk) != NULL ? wish : LINE, tag_of(place),
                     (PlumbVec2){x, place->y_mm}, (PlumbVec2){x, place->y_mm - band_mm});
    triangle(board, place, x, 3.2, solid);
}

static bool is_flat(const PlumbCurvePass *pass)
{
    for (int i = pass->first + 1; i <= pass->last; i++) {
        for (int j = -1; j < PLUMB_JOINT_COUNT; j++) {
            const double change =
                curve_value(&pass->point[i], j) - curve_value(&pass->point[pass->first], j);
            if (!(fabs(change) < flat_m)) {
                return false;
            }
        }
    }
    return pass->first < pass->last;
}

/* The word behind the name: what the ruler is for just now. */
static const char *state_word(const PlumbDesk *desk, const PlumbRulerPlace *place)
{
    const PlumbCurve *const curve = &desk->curve[place->id];
    switch (plumb_ruler_role(desk, place->id)) {
    case PLUMB_RULER_LEADS:
        return "leads";
    case PLUMB_RULER_COULD_LEAD:
        return "follows; click to lead";
    case PLUMB_RULER_SETS:
        break;
    }
    const bool flat = curve->begun && curve->phase == PLUMB_CURVE_DONE && is_flat(&curve->pass);
    return flat ? "idle here: moves neither bar travel nor arms" : "";
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

/* Which line is which, with the range of each, for the ruler that has the focus. */
static double draw_legend(const PlumbDesk *desk, const PlumbBoard *board,
                          const PlumbRulerPlace *place, double x, double most, double y)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const char *const words[2] = {"bar travel", plumb_joint_name(desk->selected)};
    const PlumbPen pen[2] = {TRAVEL, ARM};
    for (int i = 0; i < 2; i++) {
        char line[64];
        PlumbText name = plumb_text_begin(line, sizeof line);
        plumb_text_string(&name, words[i]);
        plumb_text_string(&name, i == 1 ? " arm" : "");
        const double width = plumb_board_width(board, line, size);
        if (x + 7.5 + width > most) {
            break;
        }
        plumb_scene_line(board->scene, pen[i], tag_of(place), (PlumbVec2){x, y - 0.36 * size},
                         (PlumbVec2){x + 5.4, y - 0.36 * size});
        text(board, PLUMB_ROLE_quiet, place, x + 6.2, y, size, PLUMB_START, line);
        x += 6.2 + width + 2.6;
    }
    return x;
}

static void figure_words(const PlumbDesk *desk, const PlumbRulerPlace *place, PlumbText *line)
{
    const int chosen = plumb_ruler_chosen(desk, place->id);
    if (plumb_ruler_choices(desk, place->id) > 0) {
        plumb_text_string(line, chosen < 0 ? "own" : plumb_ruler_choice(desk, place->id, chosen));
        return;
    }
    const double value = plumb_ruler_value(desk, place->id);
    if (isfinite(value)) {
        plumb_text_quantity(line, value, plumb_setting(place->id)->quantity, desk->units);
    }
}

static void draw_head(const PlumbDesk *desk, const PlumbBoard *board, const PlumbRulerPlace *place)
{
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    const double small = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double y = place->figure.y_mm + 0.92 * size;
    const bool focus = plumb_desk_has_focus(desk, PLUMB_WIDGET_RULER, (int)place->id);
    char name[48];
    PlumbText named = plumb_text_begin(name, sizeof name);
    plumb_ruler_name(place->id, &named);
    text(board, PLUMB_ROLE_ink, place, place->x0_mm, y, size, PLUMB_START, name);
    double x = place->x0_mm + plumb_board_width(board, name, size) + 2.2;
    double most = place->figure.x_mm - 1.0;
    if (desk->field.use == PLUMB_FIELD_RULER && desk->field.id == place->id) {
        plumb_field_draw(desk, board, place->figure, size, y);
    } else {
        char words[64];
        PlumbText line = plumb_text_begin(words, sizeof words);
        figure_words(desk, place, &line);
        text(board, PLUMB_ROLE_ink, place, place->x1_mm, y, size, PLUMB_END, words);
        double left = place->x1_mm - plumb_board_width(board, words, size) - 1.6;
        const double was = plumb_ruler_pencil_value(desk, place->id);
        const double now = plumb_ruler_value(desk, place->id);
        const PlumbQuantity quantity = plumb_setting(place->id)->quantity;
        const double shown = fabs(now - was) * plumb_quantity_factor(quantity, desk->units) *
                             pow(10.0, plumb_quantity_decimals(quantity, desk->units));
        if (shown >= 0.5) {
            PlumbText change = plumb_text_begin(words, sizeof words);
            plumb_text_difference(&change, now - was, quantity, desk->units);
            text(board, PLUMB_ROLE_pencil_text, place, left, y, small, PLUMB_END, words);
            left -= plumb_board_width(board, words, small) + 1.0;
        }
        most = left;
    }
    const char *const state = state_word(desk, place);
    const double width = plumb_board_width(board, state, small);
    if (state[0] != '\0' && x + width < most) {
        text(board, PLUMB_ROLE_quiet, place, x, y, small, PLUMB_START, state);
        x += width + 2.6;
    }
    if (focus && plumb_ruler_choices(desk, place->id) == 0) {
        draw_legend(desk, board, place, x, most, y);
    }
}

static void draw_choice(const PlumbDesk *desk, const PlumbBoard *board,
                        const PlumbRulerPlace *place, int choices)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const int chosen = plumb_ruler_chosen(desk, place->id);
    const double pitch = (place->x1_mm - place->x0_mm) / choices;
    bool fits = true;
    for (int i = 0; i < choices; i++) {
        const char *const words = plumb_ruler_choice(desk, place->id, i);
        fits = fits && plumb_board_width(board, words, size) + 1.0 < pitch;
    }
    plumb_scene_line(board->scene, LINE, tag_of(place), (PlumbVec2){place->x0_mm, place->y_mm},
                     (PlumbVec2){place->x1_mm, place->y_mm});
    for (int i = 0; i < choices; i++) {
        const double x = place->x0_mm + (i + 0.5) * pitch;
        plumb_scene_line(board->scene, LINE, tag_of(place), (PlumbVec2){x, place->y_mm},
                         (PlumbVec2){x, place->y_mm + major_mm});
        if (fits || i == chosen) {
            text(board, i == chosen ? PLUMB_ROLE_ink : PLUMB_ROLE_quiet, place, x,
                 place->y_mm + major_mm + 0.86 * size, size, PLUMB_MIDDLE,
                 plumb_ruler_choice(desk, place->id, i));
        }
    }
    if (chosen >= 0) {
        const PlumbPen solid = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_ink};
        triangle(board, place, place->x0_mm + (chosen + 0.5) * pitch, 3.2, solid);
    }
}

void plumb_ruler_draw(const PlumbDesk *desk, const PlumbBoard *board, const PlumbRulerPlace *place)
{
    draw_head(desk, board, place);
    const int choices = plumb_ruler_choices(desk, place->id);
    if (choices > 0) {
        draw_choice(desk, board, place, choices);
        return;
    }
    const PlumbCurve *const curve = &desk->curve[place->id];
    const bool curves = curve->shown && curves_shown(desk, place);
    if (curve->shown) {
        draw_not_held(desk, board, place, &curve->pass, curves);
    }
    if (curves) {
        draw_curve(board, place, &curve->pass, -1, TRAVEL);
        draw_curve(board, place, &curve->pass, (int)desk->selected, ARM);
    }
    PlumbInterval window;
    PlumbInterval low_effort;
    if (plumb_ruler_intervals(desk, place->id, &window, &low_effort)) {
        draw_interval(board, place, &window, false);
        draw_interval(board, place, &low_effort, true);
    }
    draw_line(desk, board, place);
    draw_pointers(desk, board, place);
}
