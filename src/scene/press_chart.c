/* SPDX-License-Identifier: MIT */
/* What the grip does, from the spacing of the shoulder joints to the rule's limit: bar travel,
 * moment arms and net moments of the same lifter, in the free corner of a press's sheet. */
#include "scene/press.h"

#include <math.h>
#include <string.h>

enum { GRIPS = PLUMB_GRIP_POINTS, CURVES = 3, PANELS = 2, TICKS_MAX = 12 };

/* The curves of one panel. */
typedef struct Panel {
    const char *title;
    PlumbQuantity quantity;
    const char *name[CURVES];
    double value_si[CURVES][GRIPS]; /* NaN: no pose */
    PlumbRect rect;                 /* of the curves */
    double low;                     /* in the reader's unit */
    double high;
    double step;
} Panel;

static const PlumbPen PENS[CURVES] = {
    {PLUMB_ROLE_ink, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none},
    {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_DASHED, PLUMB_ROLE_none},
    {PLUMB_ROLE_mass, PLUMB_MEDIUM_MM, PLUMB_SOLID, PLUMB_ROLE_none},
};

static double grip_at(double narrow, double wide, int i)
{
    return narrow + (wide - narrow) * i / (GRIPS - 1);
}

/* All that the curves depend on, as bytes: the grip is not among it, nor a touch that follows. */
static PlumbSetup key_of(const PlumbSetup *setup)
{
    PlumbSetup key = *setup;
    key.grip_m = 0.0;
    key.touch_m = key.lead == PLUMB_LEAD_AUTO ? 0.0 : key.touch_m;
    return key;
}

/* Three lengths, three moments. */
static void solve(const PlumbDrawing *drawing, double narrow, double wide, PlumbGripCurves *curves)
{
    curves->known = true;
    curves->lifter = *drawing->lifter;
    curves->setup = key_of(&drawing->press->setup);
    for (int i = 0; i < GRIPS; i++) {
        PlumbSetup setup = drawing->press->setup;
        PlumbPressAnswer answer;
        setup.grip_m = grip_at(narrow, wide, i);
        plumb_press_quick(drawing->lifter, &setup, &answer);
        const PlumbPressPosition *const at = &answer.touch;
        const double value[PLUMB_GRIP_CURVES] = {
            answer.travel_m,
            at->bar_arm_m[PLUMB_PRESS_ARM_shoulder_frontal],
            at->bar_arm_m[PLUMB_PRESS_ARM_elbow],
            at->moment_n_m[PLUMB_PRESS_JOINT_shoulder_adduction],
            at->moment_n_m[PLUMB_PRESS_JOINT_shoulder_flexion],
            at->moment_n_m[PLUMB_PRESS_JOINT_elbow_extension],
        };
        for (int k = 0; k < PLUMB_GRIP_CURVES; k++) {
            curves->value_si[k][i] = answer.outcome != PLUMB_NO_POSE ? value[k] : (double)NAN;
        }
    }
}

static bool holds(const PlumbGripCurves *curves, const PlumbDrawing *drawing)
{
    const PlumbSetup key = key_of(&drawing->press->setup);
    /* Padding that differs costs one more solution. NOLINTBEGIN(bugprone-suspicious-memory*) */
    return curves->known && memcmp(&curves->setup, &key, sizeof key) == 0 &&
           memcmp(&curves->lifter, drawing->lifter, sizeof curves->lifter) == 0;
    /* NOLINTEND(bugprone-suspicious-memory*) */
}

/* The least of 1, 2, 5, 10 ... that cuts span into at most count parts. */
static double tick_step(double span, int count)
{
    double step = 1.0;
    for (int i = 0; span / step > count; i++) {
        step *= i % 3 == 1 ? 2.5 : 2.0;
    }
    return step;
}

static void scale(Panel *panel, PlumbUnits units, double em_mm)
{
    const double factor = plumb_quantity_factor(panel->quantity, units);
    double low = 0.0;
    double high = 1.0;
    for (int k = 0; k < CURVES; k++) {
        for (int i = 0; i < GRIPS; i++) {
            if (isfinite(panel->value_si[k][i])) {
                low = fmin(low, panel->value_si[k][i] * factor);
                high = fmax(high, panel->value_si[k][i] * factor);
            }
        }
    }
    const int most = (int)fmin(TICKS_MAX, fmax(2.0, panel->rect.height_mm / (1.7 * em_mm)));
    panel->step = tick_step(high - low, most - 1);
    panel->low = floor(low / panel->step) * panel->step;
    panel->high = ceil(high / panel->step) * panel->step;
}

static double y_of(const Panel *panel, double figure)
{
    const double share = (figure - panel->low) / (panel->high - panel->low);
    return panel->rect.y_mm + panel->rect.height_mm * (1.0 - share);
}

static void number(char *words, size_t size, double value, const char *unit)
{
    PlumbText text = plumb_text_begin(words, size);
    plumb_text_fixed(&text, value, 0);
    plumb_text_string(&text, unit);
}

static void draw_frame(const PlumbBoard *board, const Panel *panel, double em_mm)
{
    const PlumbRect r = panel->rect;
    char words[96];
    PlumbText head = plumb_text_begin(words, sizeof words);
    plumb_text_string(&head, panel->title);
    plumb_text_string(&head, ", ");
    plumb_text_string(&head, plumb_quantity_unit(panel->quantity, board->drawing->units));
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE, (PlumbVec2){r.x_mm, r.y_mm - 0.6 * em_mm},
                     em_mm, PLUMB_START, words);
    const int count = (int)floor((panel->high - panel->low) / panel->step + 0.5);
    for (int i = 0; i <= count; i++) {
        const double figure = panel->low + i * panel->step;
        const double y = y_of(panel, figure);
        plumb_scene_line(board->scene, PEN_RULE, TAG_NONE, (PlumbVec2){r.x_mm, y},
                         (PlumbVec2){r.x_mm + r.width_mm, y});
        number(words, sizeof words, figure, "");
        plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE,
                         (PlumbVec2){r.x_mm - 0.5 * em_mm, y + 0.35 * em_mm}, em_mm, PLUMB_END,
                         words);
    }
}

static void draw_curve(const PlumbBoard *board, const Panel *panel, int k, double em_mm,
                       PlumbRect bounds)
{
    const double factor = plumb_quantity_factor(panel->quantity, board->drawing->units);
    const PlumbRect r = panel->rect;
    PlumbVec2 line[GRIPS];
    int count = 0;
    for (int i = 0; i < GRIPS && isfinite(panel->value_si[k][i]); i++) {
        line[count++] = (PlumbVec2){r.x_mm + r.width_mm * i / (GRIPS - 1),
                                    y_of(panel, panel->value_si[k][i] * factor)};
    }
    if (count < 2) {
        return;
    }
    plumb_scene_path(board->scene, PENS[k], TAG_NONE, line, count, false);
    PlumbLabel label = {.tag = TAG_NONE};
    plumb_label_line(&label, board, PLUMB_ROLE_ink, PLUMB_SMALL_TEXT_MM, panel->name[k]);
    PlumbSpot spot[7];
    for (int i = 0; i < 7; i++) {
        const double off = (i % 2 == 0 ? 0.5 : -0.5) * (i + 1) / 2 * 1.5 * em_mm;
        spot[i] = (PlumbSpot){
            {line[count - 1].x + 1.5, line[count - 1].y + (i == 0 ? 0.0 : off)}, PLUMB_START, 0.5};
    }
    plumb_label_place(board, &label, spot, 7, bounds, -1, 100.0);
}

/* Grips below the lower panel, and as shares of the spacing of the shoulder joints below them. */
static void draw_grips(const PlumbBoard *board, const Panel *panel, double narrow, double wide,
                       double em_mm, PlumbRect bounds)
{
    const PlumbUnits units = board->drawing->units;
    const double factor = plumb_quantity_factor(PLUMB_Q_LENGTH, units);
    const double breadth = plumb_press_shoulder_breadth_m(board->drawing->lifter);
    const PlumbRect r = panel->rect;
    const int most = (int)fmax(3.0, r.width_mm / (5.5 * em_mm));
    const double step = tick_step((wide - narrow) * factor, most);
    const double y = r.y_mm + r.height_mm;
    char words[48];
    char unit[16];
    PlumbText text = plumb_text_begin(unit, sizeof unit);
    plumb_text_char(&text, ' ');
    plumb_text_string(&text, plumb_quantity_unit(PLUMB_Q_LENGTH, units));
    for (double tick = ceil(narrow * factor / step) * step; tick <= wide * factor + 1e-9;
         tick += step) {
        const double x = r.x_mm + r.width_mm * (tick / factor - narrow) / (wide - narrow);
        plumb_scene_line(board->scene, PEN_FINE, TAG_NONE, (PlumbVec2){x, y},
                         (PlumbVec2){x, y + 1.2});
        number(words, sizeof words, tick, unit);
        plumb_board_text(board, PLUMB_ROLE_ink, TAG_NONE, (PlumbVec2){x, y + 1.2 + 1.1 * em_mm},
                         em_mm, PLUMB_MIDDLE, words);
        number(words, sizeof words, 100.0 * tick / factor / breadth, " %");
        plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE, (PlumbVec2){x, y + 1.2 + 2.4 * em_mm},
                         em_mm, PLUMB_MIDDLE, words);
    }
    const char *const whole = "grip, and its share of the spacing of the shoulder joints";
    const bool fits =
        r.x_mm + plumb_board_width(board, whole, em_mm) <= bounds.x_mm + bounds.width_mm;
    plumb_board_text(board, PLUMB_ROLE_quiet, TAG_NONE, (PlumbVec2){r.x_mm, y + 1.2 + 3.8 * em_mm},
                     em_mm, PLUMB_START, fits ? whole : "grip, share of shoulders");
}

/* Two panels beside one another where the room is wide, below one another where it is high; one
 * alone where there is no room for both. Returns how many. */
static int place_panels(PlumbRect rect, double em, PlumbRect panel[PANELS])
{
    const double left = 4.0 * em;
    const double top = 2.2 * em;
    const double below = 7.0 * em; /* heading and grips */
    const double one = rect.height_mm - below;
    const double stacked = 0.5 * (one - 2.6 * em);
    const double wide = rect.width_mm - 12.0 * em;
    const double half = 0.5 * (rect.width_mm - 24.0 * em);
    const double least = 6.0 * em;
    if (stacked >= least && wide >= 16.0 * em) {
        for (int i = 0; i < PANELS; i++) {
            panel[i] = (PlumbRect){rect.x_mm + left, rect.y_mm + top + i * (stacked + 2.6 * em),
                                   wide, stacked};
        }
        return PANELS;
    }
    if (one < least || wide < 16.0 * em) {
        return 0;
    }
    const int count = half >= 11.0 * em ? PANELS : 1;
    for (int i = 0; i < count; i++) {
        panel[i] = (PlumbRect){rect.x_mm + left + i * (half + 12.0 * em), rect.y_mm + top,
                               count > 1 ? half : wide, one};
    }
    return count;
}

void plumb_press_chart(PlumbScene *scene, const PlumbDrawing *drawing, PlumbRect rect)
{
    const PlumbBoard board = {scene, drawing};
    const double em = plumb_board_size(&board, PLUMB_SMALL_TEXT_MM);
    const double narrow = plumb_press_shoulder_breadth_m(drawing->lifter);
    const double wide = plumb_press_grip_most_m();
    PlumbRect place[PANELS];
    const int count = place_panels(rect, em, place);
    if (count == 0 || !(narrow < wide)) {
        return;
    }
    Panel panel[PANELS] = {
        {.title = "what the grip does: length",
         .quantity = PLUMB_Q_LENGTH,
         .name = {"bar travel", "shoulder arm", "elbow arm"}},
        {.title = "net moment of an arm",
         .quantity = PLUMB_Q_MOMENT,
         .name = {"adduction", "flexion", "elbow"}},
    };
    PlumbGripCurves own = {.known = false};
    PlumbGripCurves *const curves = drawing->grips != NULL ? drawing->grips : &own;
    if (!holds(curves, drawing)) {
        solve(drawing, narrow, wide, curves);
    }
    for (int i = 0; i < PANELS; i++) {
        memcpy(panel[i].value_si, curves->value_si[i * CURVES], sizeof panel[i].value_si);
    }
    if (count == 1) {
        panel[0] = panel[1];
        panel[0].title = "what the grip does: net moment of an arm";
    }
    const double now =
        (drawing->press->setup.grip_m - narrow) / (wide - narrow); /* may lie outside */
    for (int i = 0; i < count; i++) {
        const double width = place[i].width_mm;
        panel[i].rect = place[i];
        scale(&panel[i], drawing->units, em);
        draw_frame(&board, &panel[i], em);
        if (now >= 0.0 && now <= 1.0) {
            const double x = place[i].x_mm + now * width;
            plumb_scene_line(scene, PEN_REFERENCE, (PlumbTag){PLUMB_TAG_SETTING, PLUMB_SET_grip},
                             (PlumbVec2){x, place[i].y_mm},
                             (PlumbVec2){x, place[i].y_mm + place[i].height_mm});
        }
    }
    /* Names of curves come last and keep clear of all figures. */
    const bool beside = count > 1 && place[0].y_mm >= place[1].y_mm;
    for (int i = beside ? 0 : count - 1; i < count; i++) {
        PlumbRect bounds = rect;
        if (beside && i == 0) {
            bounds.width_mm = place[1].x_mm - 4.0 * em - rect.x_mm;
        }
        draw_grips(&board, &panel[i], narrow, wide, em, bounds);
    }
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < CURVES; k++) {
            draw_curve(&board, &panel[i], k, em, rect);
        }
    }
}
