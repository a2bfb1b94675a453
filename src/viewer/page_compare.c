/* SPDX-License-Identifier: MIT */
/* The Compare page: the inked set-up beside the pencilled one, and every figure of both. */
#include "pages.h"

#include <math.h>

static const PlumbTag NONE = {PLUMB_TAG_NONE, 0};

/* In the order of importance that every table has. */
static const PlumbOutput ROWS[] = {
    PLUMB_OUT_travel,
    PLUMB_OUT_hip_arm,
    PLUMB_OUT_back_arm,
    PLUMB_OUT_knee_arm,
    PLUMB_OUT_balance,
    PLUMB_OUT_back_angle,
    PLUMB_OUT_hip_height,
    PLUMB_OUT_hip_moment,
    PLUMB_OUT_back_moment,
    PLUMB_OUT_knee_moment,
    PLUMB_OUT_summed_effort,
    PLUMB_OUT_shin_angle,
    PLUMB_OUT_thigh_angle,
    PLUMB_OUT_ankle_moment,
    PLUMB_OUT_shoulder_ahead,
    PLUMB_OUT_hip_abduction,
    PLUMB_OUT_frontal_hip_moment,
    PLUMB_OUT_knee_flexion,
    PLUMB_OUT_hip_flexion,
    PLUMB_OUT_dorsiflexion,
};
enum { ROW_COUNT = sizeof ROWS / sizeof ROWS[0] };

void plumb_against_settle(PlumbDesk *desk)
{
    PlumbAgainst *const against = &desk->against;
    if (!plumb_desk_pencil_shown(desk) || !against->stale) {
        return;
    }
    against->stale = false;
    plumb_compare(&desk->pencil, plumb_desk_inked(desk), against->of);
}

static void heading(const PlumbBoard *board, PlumbRole role, PlumbRect rect, const char *word,
                    const char *name)
{
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    double y = rect.y_mm;
    char words[PLUMB_DESK_NAME_SIZE + 16];
    PlumbText text = plumb_text_begin(words, sizeof words);
    plumb_text_string(&text, word);
    if (name[0] != '\0') {
        plumb_text_string(&text, ": ");
        plumb_text_string(&text, name);
    }
    plumb_board_wrap(board, role, NONE, rect.x_mm, &y, rect.width_mm, size, 1, words);
}

static PlumbDrawing side_of(PlumbDesk *desk, const PlumbLifter *lifter, const PlumbAnswer *answer)
{
    PlumbDrawing drawing = plumb_drawing_default(lifter, answer, plumb_font_width, desk->font);
    drawing.units = desk->units;
    drawing.selected = desk->selected;
    drawing.sight = PLUMB_SEE_SIDE;
    drawing.text_scale = fmin(desk->text_scale, 1.25);
    return drawing;
}

/* One scale and one floor line for both. */
static void draw_sides(PlumbDesk *desk, const PlumbBoard *board, PlumbRect left, PlumbRect right)
{
    const PlumbSheet *const now = &desk->now;
    const PlumbDrawing inked = side_of(desk, &now->lifter, plumb_desk_inked(desk));
    const PlumbDrawing pencil = side_of(desk, &now->pencil_lifter, &desk->pencil);
    PlumbFit a = plumb_views_fit(&inked, left);
    PlumbFit b = plumb_views_fit(&pencil, right);
    const double shift = right.x_mm - left.x_mm;
    if (a.scale_n >= b.scale_n) {
        b.scale_n = a.scale_n;
        b.side_origin_mm = (PlumbVec2){a.side_origin_mm.x + shift, a.side_origin_mm.y};
    } else {
        a.scale_n = b.scale_n;
        a.side_origin_mm = (PlumbVec2){b.side_origin_mm.x - shift, b.side_origin_mm.y};
    }
    plumb_compose_views(board->scene, &inked, &a);
    plumb_compose_views(board->scene, &pencil, &b);
    desk->fit.scale_n = a.scale_n;
}

void plumb_compare_views(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    const PlumbSheet *const now = &desk->now;
    const double size = plumb_board_size(board, PLUMB_NORMAL_TEXT_MM);
    if (!plumb_desk_pencil_shown(desk)) {
        double y = rect.y_mm + 0.42 * rect.height_mm;
        plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, rect.x_mm + 4.0, &y, rect.width_mm - 8.0,
                         size, 3,
                         "Nothing is pencilled for this lift. P pencils this set-up; then change "
                         "a ruler, and this page holds the two against each other.");
        return;
    }
    const double half = 0.5 * rect.width_mm;
    const double head = 1.8 * size;
    const PlumbRect left = {rect.x_mm, rect.y_mm + head, half - 1.0, rect.height_mm - head};
    const PlumbRect right = {rect.x_mm + half + 1.0, left.y_mm, left.width_mm, left.height_mm};
    heading(board, PLUMB_ROLE_ink, (PlumbRect){left.x_mm + 1.0, rect.y_mm, half - 3.0, head},
            "Inked", now->setup_name[now->lift]);
    heading(board, PLUMB_ROLE_pencil_text,
            (PlumbRect){right.x_mm + 1.0, rect.y_mm, half - 3.0, head}, "Pencilled",
            now->pencil_name);
    plumb_scene_line(board->scene, PEN_RULE, NONE, (PlumbVec2){rect.x_mm + half, rect.y_mm},
                     (PlumbVec2){rect.x_mm + half, rect.y_mm + rect.height_mm});
    draw_sides(desk, board, left, right);
}

/* Where the columns of a block end: words start at x, figures end at these. */
typedef struct Columns {
    double x;
    double width;
    double end[3];
    double size;
    bool narrow; /* no column of its own for the pencilled figure, and no spread */
} Columns;

/* Short enough for a row; the rest is said as everywhere. */
static const char *row_name(PlumbOutput output)
{
    return output == PLUMB_OUT_hip_arm    ? "hip arm"
           : output == PLUMB_OUT_back_arm ? "back arm"
           : output == PLUMB_OUT_knee_arm ? "knee arm"
                                          : plumb_output_text(output);
}

static void set_cell(const PlumbBoard *board, const Columns *c, int column, double y,
                     PlumbRole role, const char *words)
{
    plumb_board_text(board, role, NONE, (PlumbVec2){c->x + c->end[column], y}, c->size, PLUMB_END,
                     words);
}

static void set_row(const PlumbDesk *desk, const PlumbBoard *board, const Columns *c, double y,
                    PlumbOutput output)
{
    const PlumbDifference *const of = &desk->against.of[output];
    const PlumbQuantity quantity = plumb_output_quantity(output, desk->now.lift);
    const double room = c->end[0] - plumb_board_width(board, "1000 N m", c->size) - 1.0;
    double top = y - 0.98 * c->size;
    char words[64];
    plumb_board_wrap(board, PLUMB_ROLE_ink, NONE, c->x, &top, room, c->size, 1, row_name(output));
    const double value[2] = {of->second, of->first};
    const PlumbRole role[2] = {PLUMB_ROLE_ink, PLUMB_ROLE_pencil_text};
    for (int i = 0; i < (c->narrow ? 1 : 2); i++) {
        PlumbText text = plumb_text_begin(words, sizeof words);
        if (isfinite(value[i])) {
            plumb_text_quantity(&text, value[i], quantity, desk->units);
        } else {
            plumb_text_string(&text, "–");
        }
        set_cell(board, c, i, y, role[i], words);
    }
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (isfinite(of->change)) {
        plumb_text_difference(&text, of->change, quantity, desk->units);
        if (!c->narrow && isfinite(of->spread.sd) &&
            of->spread.sd * plumb_quantity_factor(quantity, desk->units) > 0.005) {
            plumb_text_string(&text, " ± ");
            plumb_text_fixed(&text, of->spread.sd * plumb_quantity_factor(quantity, desk->units),
                             plumb_quantity_decimals(quantity, desk->units));
        }
    }
    set_cell(board, c, 2, y, PLUMB_ROLE_ink, words);
}

void plumb_compare_table(PlumbDesk *desk, const PlumbBoard *board, PlumbRect rect)
{
    if (!plumb_desk_pencil_shown(desk)) {
        return;
    }
    const double size = plumb_board_size(board, PLUMB_SMALL_TEXT_MM);
    const double pitch = PLUMB_LINE_PITCH * size;
    const double block = 30.0 * size;
    const int blocks = rect.width_mm > 2.0 * block ? 2 : 1;
    const int rows = (int)floor(rect.height_mm / pitch) - 1;
    Columns c = {.size = size, .width = rect.width_mm / blocks - (blocks > 1 ? 4.0 : 0.0)};
    c.end[2] = c.width;
    c.end[1] = c.end[2] - plumb_board_width(board, "+1000 N m ± 00", size) - 1.5;
    c.end[0] = c.end[1] - plumb_board_width(board, "1000 N m", size) - 1.5;
    if (c.end[0] < 16.0 * size) {
        c.narrow = true;
        c.end[0] = c.end[2] - plumb_board_width(board, "+1000 N m", size) - 1.5;
    }
    int next = 0;
    for (int b = 0; b < blocks; b++) {
        c.x = rect.x_mm + b * (rect.width_mm / blocks + 2.0 * (blocks > 1));
        double y = rect.y_mm + size;
        set_cell(board, &c, 0, y, PLUMB_ROLE_quiet, "inked");
        if (!c.narrow) {
            set_cell(board, &c, 1, y, PLUMB_ROLE_quiet, "pencilled");
        }
        set_cell(board, &c, 2, y, PLUMB_ROLE_quiet, c.narrow ? "change" : "change ± sd");
        for (int i = 0; i < rows && next < ROW_COUNT; next++) {
            const PlumbOutput output = ROWS[next];
            const PlumbDifference *const of = &desk->against.of[output];
            if (plumb_output_applies(output, desk->now.lift) &&
                (isfinite(of->first) || isfinite(of->second))) {
                y += pitch;
                set_row(desk, board, &c, y, output);
                i++;
            }
        }
    }
}
