/* SPDX-License-Identifier: MIT */
/* One ruler: name, figure, curves, hatching, graduated line, pointer. */
#include "ruler_draw.h"

#include "ruler.h"

#include <math.h>
#include <string.h>

static const double tick_mm = 1.1;

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
    /* Parts of a step into which it is divided, where the ticks then stand a millimetre apart. */
    static const struct {
        double step;
        double fine;
        double coarse;
    } ROUND[] = {{1.0, 5.0, 2.0}, {2.0, 4.0, 2.0}, {5.0, 5.0, 1.0}};
    const PlumbSetting *const setting = plumb_ruler_row(place->id);
    Graduation g = {.factor = plumb_quantity_factor(setting->quantity, desk->units)};
    const double span = (setting->max_si - setting->min_si) * g.factor;
    const double per_mm = span / (place->x1_mm - place->x0_mm);
    for (int power = -3; power < 6; power++) {
        for (int i = 0; i < 3; i++) {
            g.major = ROUND[i].step * pow(10.0, power);
            if (g.major >= per_mm * number_mm) {
                const double fine = g.major / ROUND[i].fine;
                g.minor = fine >= per_mm ? fine : g.major / ROUND[i].coarse;
                g.decimals = power < 0 ? -power : 0;
                return g;
            }
        }
    }
    g.minor = g.major;
    return g;
}

/* All ticks of one kind as one line that runs along the ruler and steps down at each of them. */
static void draw_comb(const PlumbBoard *board, const PlumbRulerPlace *place, PlumbPen pen,
                      const Graduation *g, double step, double length_mm)
{
    PlumbVec2 point[360];
    int count = 0;
    const PlumbSetting *const setting = plumb_ruler_row(place->id);
    const double first = ceil(setting->min_si * g->factor / step - 1e-9);
    const double last = floor(setting->max_si * g->factor / step + 1e-9);
    for (double i = first; i <= last && count + 3 <= 360; i += 1.0) {
        const double x = plumb_ruler_place_mm(place, i * step / g->factor);
        point[count++] = (PlumbVec2){x, place->y_mm};
        point[count++] = (PlumbVec2){x, place->y_mm + length_mm};
        point[count++] = (PlumbVec2){x, place->y_mm};
    }
    if (count > 0) {
        plumb_scene_path(board->scene, pen, plumb_ruler_tag(place), point, count, false);
    }
}

static void draw_line(const PlumbDesk *desk, const PlumbBoard *board, const PlumbRulerPlace *place)
{
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double number = plumb_board_width(board, "-0.00", size);
    const Graduation g = graduate(desk, place, number + 1.2);
    const bool leads = plumb_ruler_role(desk, place->id) == PLUMB_RULER_LEADS;
    draw_comb(board, place, PEN_RULE, &g, g.minor, tick_mm);
    draw_comb(board, place, PEN_FINE, &g, g.major, PLUMB_RULER_MAJOR_MM);
    plumb_scene_line(board->scene, leads ? PLUMB_PEN_HEAVY : PEN_FINE, plumb_ruler_tag(place),
                     (PlumbVec2){place->x0_mm, place->y_mm},
                     (PlumbVec2){place->x1_mm, place->y_mm});
    const PlumbSetting *const setting = plumb_ruler_row(place->id);
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
        plumb_ruler_text(board, PLUMB_ROLE_quiet, place, fmax(left, fmin(x, right)),
                         place->y_mm + PLUMB_RULER_MAJOR_MM + 0.86 * size, size, PLUMB_MIDDLE,
                         words);
    }
}

/* A value past the end of the ruler stands at its end. */
static double held_place(const PlumbRulerPlace *place, double value)
{
    return fmax(place->x0_mm, fmin(plumb_ruler_place_mm(place, value), place->x1_mm));
}

static void triangle(const PlumbBoard *board, const PlumbRulerPlace *place, double x, PlumbPen pen)
{
    const double size = 0.6 * place->band_mm;
    const PlumbVec2 point[3] = {{x, place->y_mm},
                                {x - 0.42 * size, place->y_mm - size},
                                {x + 0.42 * size, place->y_mm - size}};
    plumb_scene_path(board->scene, pen, plumb_ruler_tag(place), point, 3, true);
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
        triangle(board, place, held_place(place, was), pencil);
    }
    const double value = plumb_ruler_value(desk, place->id);
    if (!isfinite(value)) {
        return;
    }
    const double x = held_place(place, value);
    const PlumbRulerRole role = plumb_ruler_role(desk, place->id);
    if (role == PLUMB_RULER_COULD_LEAD || role == PLUMB_RULER_FOLLOWS) {
        plumb_scene_line(board->scene, PEN_FINE, plumb_ruler_tag(place),
                         (PlumbVec2){x, place->y_mm - place->band_mm},
                         (PlumbVec2){x, place->y_mm + PLUMB_RULER_MAJOR_MM});
        plumb_scene_circle(board->scene, hollow, plumb_ruler_tag(place),
                           (PlumbVec2){x, place->y_mm}, 0.9);
        return;
    }
    plumb_scene_line(board->scene, plumb_desk_wish(desk) != NULL ? wish : PEN_FINE,
                     plumb_ruler_tag(place), (PlumbVec2){x, place->y_mm},
                     (PlumbVec2){x, place->y_mm - place->band_mm});
    triangle(board, place, x, solid);
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
    case PLUMB_RULER_FOLLOWS:
        return place->id == PLUMB_SET_elbows ? "under the bar; click to set"
                                             : "over the toes; click to set";
    case PLUMB_RULER_SETS:
        break;
    }
    const bool flat = curve->begun && curve->phase == PLUMB_CURVE_DONE &&
                      plumb_ruler_is_flat(&curve->pass, plumb_desk_family(desk)->arm_count);
    return flat ? "idle here: moves neither bar travel nor arms" : "";
}

/* Which line is which, for the ruler that has the focus; in fewer words where there is less room.
 */
static void draw_legend(const PlumbDesk *desk, const PlumbBoard *board,
                        const PlumbRulerPlace *place, double x, double most, double y)
{
    static const double line_mm = 5.4;
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    char arm[32];
    PlumbText name = plumb_text_begin(arm, sizeof arm);
    plumb_text_string(&name, plumb_desk_family(desk)->arm_name(plumb_desk_arm(desk)));
    plumb_text_string(&name, " arm");
    const char *words[2] = {"bar travel", arm};
    const double lines = 2.0 * (line_mm + 0.8) + 2.6;
    if (x + lines + plumb_board_width(board, words[0], size) +
            plumb_board_width(board, words[1], size) >
        most) {
        words[0] = "travel";
        words[1] = "arm";
    }
    const double first = plumb_board_width(board, words[0], size);
    if (x + lines + first + plumb_board_width(board, words[1], size) > most) {
        return;
    }
    const double at[2] = {x, x + line_mm + 0.8 + first + 2.6};
    const PlumbPen pen[2] = {PLUMB_PEN_TRAVEL, PLUMB_PEN_ARM};
    for (int i = 0; i < 2; i++) {
        plumb_scene_line(board->scene, pen[i], plumb_ruler_tag(place),
                         (PlumbVec2){at[i], y - 0.36 * size},
                         (PlumbVec2){at[i] + line_mm, y - 0.36 * size});
        plumb_ruler_text(board, PLUMB_ROLE_quiet, place, at[i] + line_mm + 0.8, y, size,
                         PLUMB_START, words[i]);
    }
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
        plumb_text_quantity(line, value, plumb_ruler_row(place->id)->quantity, desk->units);
    }
}

/* Figure and difference at the right end of the head; returns where they begin. */
static double draw_figure(const PlumbDesk *desk, const PlumbBoard *board,
                          const PlumbRulerPlace *place, double size, double small, double y)
{
    char words[64];
    PlumbText line = plumb_text_begin(words, sizeof words);
    figure_words(desk, place, &line);
    plumb_ruler_text(board, PLUMB_ROLE_ink, place, place->x1_mm, y, size, PLUMB_END, words);
    double left = place->x1_mm - plumb_board_width(board, words, size) - 1.6;
    const double was = plumb_ruler_pencil_value(desk, place->id);
    const double now = plumb_ruler_value(desk, place->id);
    const PlumbQuantity quantity = plumb_ruler_row(place->id)->quantity;
    const double shown = fabs(now - was) * plumb_quantity_factor(quantity, desk->units) *
                         pow(10.0, plumb_quantity_decimals(quantity, desk->units));
    if (shown >= 0.5) {
        PlumbText change = plumb_text_begin(words, sizeof words);
        plumb_text_difference(&change, now - was, quantity, desk->units);
        plumb_ruler_text(board, PLUMB_ROLE_pencil_text, place, left, y, small, PLUMB_END, words);
        left -= plumb_board_width(board, words, small) + 1.0;
    }
    return left;
}

/* "taped or set, 62 %": where the figure stands among adults of this sex. */
static void body_words(const PlumbDesk *desk, PlumbSettingId id, PlumbText *text)
{
    const PlumbBody *const body = &desk->now.lifter.body;
    const PlumbLength length = plumb_body_length(id);
    plumb_text_string(text, "more than ");
    plumb_text_fixed(text, fmin(fmax(100.0 * plumb_body_percentile(body, id), 1.0), 99.0), 0);
    plumb_text_string(text, body->sex == PLUMB_FEMALE ? " % of women" : " % of men");
    if (length != PLUMB_LENGTH_COUNT && body->length_basis[length] == PLUMB_BASIS_MEASURED) {
        plumb_text_string(text, "; measured");
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
    plumb_ruler_text(board, PLUMB_ROLE_ink, place, place->x0_mm, y, size, PLUMB_START, name);
    double x = place->x0_mm + plumb_board_width(board, name, size) + 2.2;
    double most = place->figure.x_mm - 1.0;
    if (desk->field.use == PLUMB_FIELD_RULER && desk->field.id == place->id) {
        plumb_field_draw(desk, board, place->figure, size, y);
    } else {
        most = draw_figure(desk, board, place, size, small, y);
    }
    char percentile[48];
    const char *state = state_word(desk, place);
    if (plumb_body_is(place->id)) {
        PlumbText text = plumb_text_begin(percentile, sizeof percentile);
        body_words(desk, place->id, &text);
        state = percentile;
    }
    double width = plumb_board_width(board, state, small);
    const PlumbRulerRole role = plumb_ruler_role(desk, place->id);
    if (x + width >= most && (role == PLUMB_RULER_COULD_LEAD || role == PLUMB_RULER_FOLLOWS)) {
        state = "follows";
        width = plumb_board_width(board, state, small);
    }
    if (state[0] != '\0' && x + width < most) {
        plumb_ruler_text(board, PLUMB_ROLE_quiet, place, x, y, small, PLUMB_START, state);
        x += width + 2.6;
    }
    const PlumbCurvePass *const pass = &desk->curve[place->id].pass;
    if (focus && plumb_ruler_choices(desk, place->id) == 0 && pass->first < pass->last) {
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
    plumb_scene_line(board->scene, PEN_FINE, plumb_ruler_tag(place),
                     (PlumbVec2){place->x0_mm, place->y_mm},
                     (PlumbVec2){place->x1_mm, place->y_mm});
    for (int i = 0; i < choices; i++) {
        const double x = place->x0_mm + (i + 0.5) * pitch;
        plumb_scene_line(board->scene, PEN_FINE, plumb_ruler_tag(place),
                         (PlumbVec2){x, place->y_mm},
                         (PlumbVec2){x, place->y_mm + PLUMB_RULER_MAJOR_MM});
        if (fits || i == chosen) {
            plumb_ruler_text(board, i == chosen ? PLUMB_ROLE_ink : PLUMB_ROLE_quiet, place, x,
                             place->y_mm + PLUMB_RULER_MAJOR_MM + 0.86 * size, size, PLUMB_MIDDLE,
                             plumb_ruler_choice(desk, place->id, i));
        }
    }
    if (chosen >= 0) {
        const PlumbPen solid = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_ink};
        triangle(board, place, place->x0_mm + (chosen + 0.5) * pitch, solid);
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
    plumb_ruler_draw_band(desk, board, place);
    draw_line(desk, board, place);
    draw_pointers(desk, board, place);
}
