/* SPDX-License-Identifier: MIT */
/* The page's rulers: which settings they move, their steps, words and typed figures. */
#include "page.h"

#include <plumbar/quantity.h>

#include <math.h>
#include <stddef.h>
#include <string.h>

#define EXPORT(name) __attribute__((export_name(name)))

static char words[PAGE_TEXT_SIZE];

/* The first of each lift; a squat's bar is chosen by words beside them. */
static const PlumbSettingId first_rulers[PLUMB_LIFT_COUNT][PAGE_RULERS_MAX] = {
    [PLUMB_DEADLIFT] = {PLUMB_SET_stance, PLUMB_SET_toes, PLUMB_SET_grip, PLUMB_SET_hip_height,
                        PLUMB_SET_load},
    [PLUMB_SQUAT] = {PLUMB_SET_stance, PLUMB_SET_toes, PLUMB_SET_depth, PLUMB_SET_heel_lift},
    [PLUMB_BENCH] = {PLUMB_SET_grip, PLUMB_SET_touch, PLUMB_SET_arch, PLUMB_SET_elbows,
                     PLUMB_SET_load},
};

void page_rulers_begin(void)
{
    page.ruler_count = page.setup.lift == PLUMB_SQUAT ? 4 : 5;
    for (int i = 0; i < page.ruler_count; i++) {
        const PlumbSetting *const row = plumb_setting(first_rulers[page.setup.lift][i]);
        page.ruler[i] = (PlumbRuler){
            .id = row->id,
            .value_si = NAN,
            .pencil_si = NAN,
            .least_si = row->min_si,
            .most_si = row->max_si,
        };
    }
}

/* What leads shows what the pose has, whether it leads or follows; elbows likewise. */
static double value_of(const PlumbSolved *solved, const PlumbSetup *setup, PlumbSettingId id)
{
    if (id == PLUMB_SET_elbows) {
        return solved->press.touch.angle_rad[PLUMB_PRESS_ANG_abduction];
    }
    if (id == PLUMB_SET_touch) {
        return solved->press.setup.touch_m;
    }
    if (id == PLUMB_SET_hip_height) {
        return solved->pose.start.point[PLUMB_PT_hip].y;
    }
    return plumb_setup_get(setup, id);
}

/* Whether the ruler's quantity could be asked for and is not. */
static bool follows(const PlumbSetup *setup, PlumbSettingId id)
{
    return (id == PLUMB_SET_elbows && !setup->elbows_given) ||
           (id == PLUMB_SET_touch && setup->lead != PLUMB_LEAD_TOUCH) ||
           (id == PLUMB_SET_hip_height && setup->lead != PLUMB_LEAD_HIP_HEIGHT);
}

void page_rulers_follow(void)
{
    const bool press = page.setup.lift == PLUMB_BENCH;
    for (int i = 0; i < page.ruler_count; i++) {
        PlumbRuler *const ruler = &page.ruler[i];
        ruler->value_si = value_of(&page.shown, &page.setup, ruler->id);
        ruler->pencil_si =
            page.shared.has_pencil ? value_of(&page.pencil, &page.shared.pencil, ruler->id) : NAN;
        ruler->follows = follows(&page.setup, ruler->id);
        ruler->window = (PlumbInterval){.exists = false};
        ruler->low_effort = (PlumbInterval){.exists = false};
        if (plumb_setting(ruler->id)->leads[page.setup.lift]) {
            ruler->window = press ? page.shown.press.window : page.shown.pose.window;
            ruler->low_effort = press ? page.shown.press.low_effort : page.shown.pose.low_effort;
        }
        if (!page.holding) {
            ruler->held_count = 0;
        }
    }
}

/* Bar travel there, and the arm about the hip or, of a press, the elbow; false where no pose holds.
 */
static bool look(const PlumbSetup *setup, double *travel_m, double *arm_m)
{
    bool held = false;
    if (setup->lift == PLUMB_BENCH) {
        PlumbPressAnswer answer;
        plumb_press_quick(&page.shared.lifter, setup, &answer);
        held = answer.outcome != PLUMB_NO_POSE;
        *travel_m = answer.travel_m;
        *arm_m = answer.touch.bar_arm_m[PLUMB_PRESS_ARM_elbow];
    } else {
        PlumbAnswer answer;
        plumb_answer_quick(&page.shared.lifter, setup, &answer);
        held = answer.outcome != PLUMB_NO_POSE;
        *travel_m = answer.travel_m;
        *arm_m = answer.start.bar_arm_m[PLUMB_JOINT_hip];
    }
    return held;
}

/* Finds out where along the ruler a pose holds; for the ruler at hand, since it takes time. */
EXPORT("page_scan") void page_scan(int at)
{
    if (at < 0 || at >= page.ruler_count) {
        return;
    }
    PlumbRuler *const ruler = &page.ruler[at];
    const double step = (ruler->most_si - ruler->least_si) / (PLUMB_RULER_SAMPLES - 1);
    for (int i = 0; i < PLUMB_RULER_SAMPLES; i++) {
        PlumbSetup setup = page.setup;
        setup.hip_height_relative = false;
        plumb_setup_set(&setup, ruler->id, ruler->least_si + step * i);
        ruler->held[i] = look(&setup, &ruler->travel_m[i], &ruler->arm_m[i]);
        ruler->travel_m[i] = ruler->held[i] ? ruler->travel_m[i] : (double)NAN;
        ruler->arm_m[i] = ruler->held[i] ? ruler->arm_m[i] : (double)NAN;
    }
    ruler->held_count = PLUMB_RULER_SAMPLES;
}

static const PlumbRuler *ruler_at(int at)
{
    return &page.ruler[at < 0 || at >= page.ruler_count ? 0 : at];
}

EXPORT("page_count") int page_count(void)
{
    return page.ruler_count;
}

EXPORT("page_value") double page_value(int at)
{
    return ruler_at(at)->value_si;
}

EXPORT("page_least") double page_least(int at)
{
    return ruler_at(at)->least_si;
}

EXPORT("page_most") double page_most(int at)
{
    return ruler_at(at)->most_si;
}

/* A round step in the reader's units, SI. */
EXPORT("page_step") double page_step(int at)
{
    const PlumbSetting *const row = plumb_setting(ruler_at(at)->id);
    if (page.units == PLUMB_METRIC || row->quantity == PLUMB_Q_ANGLE) {
        return row->step_si;
    }
    const double unit = row->quantity == PLUMB_Q_MASS    ? 5.0
                        : row->quantity == PLUMB_Q_SMALL ? 0.125
                                                         : 0.5;
    return unit / plumb_quantity_factor(row->quantity, page.units);
}

/* A value on the raster of steps. */
EXPORT("page_round") double page_round(int at, double value_si)
{
    const double step = page_step(at);
    return fmin(fmax(step * round(value_si / step), page_least(at)), page_most(at));
}

EXPORT("page_name") const char *page_name(int at)
{
    PlumbText text = plumb_text_begin(words, sizeof words);
    for (const char *c = plumb_setting(ruler_at(at)->id)->key; *c != '\0'; c++) {
        plumb_text_char(&text, *c == '_' ? ' ' : *c);
    }
    return words;
}

EXPORT("page_meaning") const char *page_meaning(int at)
{
    return plumb_setting(ruler_at(at)->id)->meaning;
}

EXPORT("page_words") const char *page_words(int at)
{
    PlumbText text = plumb_text_begin(words, sizeof words);
    const PlumbRuler *const ruler = ruler_at(at);
    plumb_text_quantity(&text, ruler->value_si, plumb_setting(ruler->id)->quantity, page.units);
    return words;
}

/* The pencilled value, "" where there is none or it is the same. */
EXPORT("page_pencil") const char *page_pencil(int at)
{
    PlumbText text = plumb_text_begin(words, sizeof words);
    const PlumbRuler *const ruler = ruler_at(at);
    if (isfinite(ruler->pencil_si) && fabs(ruler->pencil_si - ruler->value_si) > 1e-9) {
        plumb_text_quantity(&text, ruler->pencil_si, plumb_setting(ruler->id)->quantity,
                            page.units);
    }
    return words;
}

/* What the curves over a ruler are; "" where none are drawn. */
EXPORT("page_key") const char *page_key(int at)
{
    const PlumbRuler *const ruler = ruler_at(at);
    if (ruler->held_count == 0) {
        return "";
    }
    if (page.setup.lift == PLUMB_BENCH) {
        return plumb_ruler_is_idle(ruler) ? "moves neither bar travel nor elbow arm"
                                          : "bar travel solid, elbow arm dashed";
    }
    return plumb_ruler_is_idle(ruler) ? "moves neither bar travel nor hip arm"
                                      : "bar travel solid, hip arm dashed";
}

/* Takes a typed figure of length bytes in the input; a number alone is in the reader's unit.
 * Returns "" or what is wrong with it. */
EXPORT("page_type") const char *page_type(int at, int length)
{
    const PlumbSetting *const row = plumb_setting(ruler_at(at)->id);
    const char *const typed = (const char *)page_input();
    const size_t count = length < 0 ? 0 : (size_t)length;
    PlumbError error = {.message = ""};
    double value = 0.0;
    words[0] = '\0';
    PlumbText text = plumb_text_begin(words, sizeof words);
    if (plumb_number_read(typed, count, &value)) {
        value /= plumb_quantity_factor(row->quantity, page.units);
    } else if (plumb_quantity_read(typed, count, row->quantity, &value, &error) != PLUMB_OK) {
        plumb_text_string(&text, error.message);
        return words;
    }
    if (value < row->min_si - 1e-12 || value > row->max_si + 1e-12) {
        plumb_text_quantity(&text, row->min_si, row->quantity, page.units);
        plumb_text_string(&text, " to ");
        plumb_text_quantity(&text, row->max_si, row->quantity, page.units);
        plumb_text_string(&text, " is allowed");
        return words;
    }
    page_set(at, value);
    return words;
}
