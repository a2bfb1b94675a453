/* SPDX-License-Identifier: MIT */
/* The shared page's module: the state that its rulers move, and the drawings made of it. All that
 * the script calls is exported by name; nothing is imported. */
#include "page.h"

#include "report/advance.h"
#include "report/solved_drawing.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#define EXPORT(name) __attribute__((export_name(name)))

/* One page is open at a time: this is a program, and its state is its own. */
PageState page;
static unsigned char input[PLUMB_SHARE_BYTES_MAX];
static char text_out[PAGE_TEXT_SIZE];
static PlumbScene scene;
static PlumbBytes svg;

static bool none_holds(void)
{
    return plumb_solved_outcome(&page.answer) == PLUMB_NO_POSE;
}

PlumbDrawing page_drawing(void)
{
    PlumbDrawing drawing = plumb_drawing_solved(&page.shared.lifter, &page.shown,
                                                page.shared.has_pencil ? &page.pencil : NULL,
                                                plumb_advance_width, NULL);
    drawing.name = page.shared.name;
    drawing.setup_name = page.shared.setup_name;
    drawing.pencil_name = page.shared.pencil_name;
    drawing.date = page.shared.date;
    drawing.units = page.units;
    if (none_holds() && plumb_solved_outcome(&page.shown) != PLUMB_NO_POSE) {
        drawing.wish = page.answer.lift == PLUMB_BENCH ? NULL : &page.answer.pose;
        drawing.press_wish = page.answer.lift == PLUMB_BENCH ? &page.answer.press : NULL;
    }
    return drawing;
}

static void solve(void)
{
    plumb_solved_solve(&page.shared.lifter, &page.setup, &page.answer);
    if (!none_holds()) {
        page.shown = page.answer;
    }
    if (!page.holding) {
        for (int i = 0; i < PLUMB_SIGHT_COUNT; i++) {
            page.fit[i].decided = false;
        }
    }
    page_rulers_follow();
}

/* Where the script puts bytes and text. */
EXPORT("page_input") unsigned char *page_input(void)
{
    return input;
}

EXPORT("page_open") int page_open(int length)
{
    if (length < 0 || (size_t)length > sizeof input ||
        !plumb_shared_read(input, (size_t)length, &page.shared)) {
        return 0;
    }
    page.open = true;
    page.setup = page.shared.setup;
    page.units = page.shared.units;
    plumb_solved_solve(&page.shared.lifter, &page.shared.setup, &page.shown);
    if (page.shared.has_pencil) {
        plumb_solved_solve(&page.shared.lifter, &page.shared.pencil, &page.pencil);
    }
    page_rulers_begin();
    solve();
    return 1;
}

EXPORT("page_units") void page_units(int pounds)
{
    page.units = pounds != 0 ? PLUMB_POUNDS_INCHES : PLUMB_METRIC;
    solve();
}

EXPORT("page_pounds") int page_pounds(void)
{
    return page.units == PLUMB_POUNDS_INCHES ? 1 : 0;
}

EXPORT("page_paper") void page_paper(int dark)
{
    page.paper = dark != 0 ? PLUMB_DARK_PAPER : PLUMB_LIGHT_PAPER;
}

/* While a ruler is dragged scale and foot stay put. */
EXPORT("page_hold") void page_hold(int holding)
{
    page.holding = holding != 0;
    solve();
}

EXPORT("page_lift") int page_lift(void)
{
    return (int)page.setup.lift;
}

EXPORT("page_seat") int page_seat(void)
{
    return (int)page.setup.seat;
}

EXPORT("page_sit") void page_sit(int seat)
{
    if (seat >= 0 && seat < PLUMB_SEAT_COUNT) {
        plumb_setup_seat(&page.setup, (PlumbSeat)seat);
        solve();
    }
}

static void reset_one(PlumbSettingId id)
{
    const PlumbSetup *const from = &page.shared.setup;
    if (plumb_setting(id)->leads[page.setup.lift]) {
        page.setup.lead = from->lead;
        page.setup.hip_height_relative = from->hip_height_relative;
        page.setup.hip_height_m = from->hip_height_m;
        page.setup.balance_frac = from->balance_frac;
        page.setup.touch_m = from->touch_m;
        return;
    }
    plumb_setup_set(&page.setup, id, plumb_setup_get(from, id));
    if (id == PLUMB_SET_elbows) {
        page.setup.elbows_given = from->elbows_given;
    }
}

/* ruler -1: all of them. */
EXPORT("page_reset") void page_reset(int ruler)
{
    const PlumbSetup *const from = &page.shared.setup;
    if (ruler < 0 || ruler >= page.ruler_count) {
        page.setup = *from;
    } else {
        reset_one(page.ruler[ruler].id);
    }
    solve();
}

EXPORT("page_set") void page_set(int ruler, double value_si)
{
    if (ruler >= 0 && ruler < page.ruler_count && isfinite(value_si)) {
        page.setup.hip_height_relative = false;
        plumb_setup_set(&page.setup, page.ruler[ruler].id, value_si);
        solve();
    }
}

/* A figure of the lift's own list, SI; NaN where there is none or no pose holds. */
EXPORT("page_figure") double page_figure(int output)
{
    if (output < 0 || output >= plumb_lift_output_count(page.answer.lift)) {
        return NAN;
    }
    return plumb_solved_value(&page.answer, output);
}

EXPORT("page_outcome") int page_outcome(void)
{
    return (int)plumb_solved_outcome(&page.answer);
}

static const char *finish(void)
{
    plumb_bytes_free(&svg);
    const char *bytes = "";
    if (plumb_draw_svg(&scene, page.paper, &svg, NULL) == PLUMB_OK) {
        bytes = (const char *)svg.data;
    }
    return bytes;
}

/* Bytes of the SVG made last. */
EXPORT("page_length") int page_length(void)
{
    return (int)svg.length;
}

/* The views as SVG; sight as PlumbSight, both of a press being its pair. */
EXPORT("page_views") const char *page_views(int sight, double width_mm, double height_mm)
{
    PlumbDrawing drawing = page_drawing();
    drawing.sight = (PlumbSight)(sight < 0 || sight >= PLUMB_SIGHT_COUNT ? 0 : sight);
    if (drawing.press != NULL && drawing.sight == PLUMB_SEE_BOTH) {
        drawing.sight = PLUMB_SEE_LEVEL;
    }
    plumb_compose_phone_views(&scene, &drawing, width_mm, height_mm, &page.fit[drawing.sight]);
    return finish();
}

EXPORT("page_table") const char *page_table(double width_mm)
{
    const PlumbDrawing drawing = page_drawing();
    plumb_compose_phone_table(&scene, &drawing, width_mm);
    return finish();
}

EXPORT("page_notes") const char *page_notes(double width_mm)
{
    const PlumbDrawing drawing = page_drawing();
    double scale_n = 10.0;
    for (int i = 0; i < PLUMB_SIGHT_COUNT; i++) {
        scale_n = page.fit[i].decided ? page.fit[i].scale_n : scale_n;
    }
    plumb_compose_phone_notes(&scene, &drawing, width_mm, scale_n);
    return finish();
}

EXPORT("page_ruler") const char *page_ruler(int ruler, double width_mm)
{
    const PlumbDrawing drawing = page_drawing();
    const int at = ruler < 0 || ruler >= page.ruler_count ? 0 : ruler;
    plumb_compose_ruler(&scene, &drawing, &page.ruler[at], width_mm);
    return finish();
}

static void failure_words(PlumbText *text)
{
    plumb_text_string(text, "No pose meets this: ");
    if (page.answer.lift == PLUMB_BENCH) {
        plumb_text_string(text, page.answer.press.at_lockout ? "the lockout" : "the touch");
        plumb_text_string(text, " is out of the arms' reach.");
    } else {
        plumb_text_string(text, plumb_constraint_text(page.answer.pose.failed));
        plumb_text_string(text, " cannot be met.");
    }
    plumb_text_string(text, " In ink: the last pose that holds.");
}

static void pose_words(PlumbText *text, const PlumbPosition *at)
{
    plumb_text_string(text, ", back ");
    plumb_text_quantity(text, at->angle_rad[PLUMB_ANG_back], PLUMB_Q_ANGLE, page.units);
    plumb_text_string(text, " above level, hips ");
    plumb_text_quantity(text, at->point[PLUMB_PT_hip].y, PLUMB_Q_LENGTH, page.units);
    plumb_text_string(text, " high, ");
    plumb_text_quantity(text, fabs(at->bar_arm_m[PLUMB_JOINT_hip]), PLUMB_Q_LENGTH, page.units);
    plumb_text_string(text, at->bar_arm_m[PLUMB_JOINT_hip] >= 0.0 ? " behind the bar."
                                                                  : " ahead of the bar.");
}

static void press_words(PlumbText *text, const PlumbPressPosition *touch)
{
    plumb_text_string(text, ", upper arm ");
    plumb_text_quantity(text, touch->angle_rad[PLUMB_PRESS_ANG_abduction], PLUMB_Q_ANGLE,
                        page.units);
    plumb_text_string(text, " from the trunk, hands ");
    const double out = touch->bar_arm_m[PLUMB_PRESS_ARM_shoulder_frontal];
    plumb_text_quantity(text, fabs(out), PLUMB_Q_LENGTH, page.units);
    plumb_text_string(text,
                      out >= 0.0 ? " outside the shoulders, bar " : " inside the shoulders, bar ");
    const double along = touch->bar_arm_m[PLUMB_PRESS_ARM_shoulder_sagittal];
    plumb_text_quantity(text, fabs(along), PLUMB_Q_LENGTH, page.units);
    plumb_text_string(text, along >= 0.0 ? " on the feet's side of them."
                                         : " on the head's side of them.");
}

/* What a screen reader is told after a change. */
EXPORT("page_status") const char *page_status(void)
{
    PlumbText text = plumb_text_begin(text_out, sizeof text_out);
    if (none_holds()) {
        failure_words(&text);
        return text_out;
    }
    plumb_text_string(&text, "Bar travel ");
    const bool press = page.answer.lift == PLUMB_BENCH;
    plumb_text_quantity(&text, press ? page.answer.press.travel_m : page.answer.pose.travel_m,
                        PLUMB_Q_LENGTH, page.units);
    if (press) {
        press_words(&text, &page.answer.press.touch);
    } else {
        pose_words(&text, &page.answer.pose.start);
    }
    return text_out;
}
