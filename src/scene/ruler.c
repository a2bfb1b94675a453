/* SPDX-License-Identifier: MIT */
/* A ruler: graduated line, pointer, pencilled value, and what cannot be held. */
#include <plumbar/phone.h>

#include "scene/board.h"

#include <math.h>

static const double LINE_MM = 7.2; /* from the top of the paper */
static const double TICK_MM = 1.0;
static const double MAJOR_MM = 1.9;
static const double POINTER_MM = 1.7;
static const double HATCH_MM = 1.6;
static const double CURVE_LOW_MM = 0.8;   /* the curves' lowest point above the line */
static const double FLAT_M = 5e-4;        /* less than this over the whole range is no curve */
static const double MINOR_LEAST_MM = 1.6; /* ticks are never nearer */

typedef struct Track {
    PlumbBoard board;
    const PlumbRuler *ruler;
    PlumbTag tag;
    double left_mm;
    double width_mm;
    double factor; /* SI to the reader's unit */
} Track;

static double place(const Track *track, double value_si)
{
    const PlumbRuler *ruler = track->ruler;
    const double share = (value_si - ruler->least_si) / (ruler->most_si - ruler->least_si);
    return track->left_mm + track->width_mm * fmin(1.0, fmax(0.0, share));
}

/* The smallest of 1, 2, 5, 10, 20.. reader's units that is at least so many mm long. */
static double round_step(const Track *track, double least_mm)
{
    static const double MANTISSA[3] = {1.0, 2.0, 5.0};
    const double range = (track->ruler->most_si - track->ruler->least_si) * track->factor;
    const double need = least_mm / track->width_mm * range;
    double decade = 1e-3;
    for (int i = 0; i < 24; i++) {
        const double step = decade * MANTISSA[i % 3];
        if (step >= need) {
            return step;
        }
        decade *= i % 3 == 2 ? 10.0 : 1.0;
    }
    return range;
}

static void tick(const Track *track, double x_mm, double length_mm)
{
    plumb_scene_line(track->board.scene, PEN_RULE, track->tag, (PlumbVec2){x_mm, LINE_MM},
                     (PlumbVec2){x_mm, LINE_MM + length_mm});
}

static void draw_ticks(const Track *track, double step, double length_mm)
{
    const double low = track->ruler->least_si * track->factor;
    const double high = track->ruler->most_si * track->factor;
    for (double n = ceil(low / step - 1e-9); n * step <= high + 1e-9 * step; n += 1.0) {
        tick(track, place(track, n * step / track->factor), length_mm);
    }
}

static int decimals_of(double step)
{
    return step < 0.0099 ? 3 : step < 0.099 ? 2 : step < 0.99 ? 1 : 0;
}

static void draw_numbers(const Track *track, double step)
{
    const double size = plumb_board_size(&track->board, PLUMB_SMALL_TEXT_MM);
    const double low = track->ruler->least_si * track->factor;
    const double high = track->ruler->most_si * track->factor;
    for (double n = ceil(low / step - 1e-9); n * step <= high + 1e-9 * step; n += 1.0) {
        char words[32];
        PlumbText text = plumb_text_begin(words, sizeof words);
        plumb_text_fixed(&text, n * step, decimals_of(step));
        const double half = 0.5 * plumb_board_width(&track->board, words, size);
        const double x = place(track, n * step / track->factor);
        const double paper = track->board.scene->width_mm;
        plumb_board_text(
            &track->board, PLUMB_ROLE_quiet, track->tag,
            (PlumbVec2){fmin(fmax(x, half), paper - half), LINE_MM + MAJOR_MM + 0.3 + 0.9 * size},
            size, PLUMB_MIDDLE, words);
    }
}

/* Numbers stand so far apart that none meets the next. */
static double number_room(const Track *track)
{
    const double size = plumb_board_size(&track->board, PLUMB_SMALL_TEXT_MM);
    return plumb_board_width(&track->board, "-88.8", size) + 0.8 * size;
}

/* Window as an outline, low-effort range heavy, both above the line. */
static void draw_range(const Track *track, const PlumbInterval *interval, double weight_mm)
{
    if (interval->exists) {
        const PlumbPen pen = {PLUMB_ROLE_hold, weight_mm, PLUMB_SOLID, PLUMB_ROLE_none};
        plumb_scene_line(track->board.scene, pen, track->tag,
                         (PlumbVec2){place(track, interval->low), LINE_MM},
                         (PlumbVec2){place(track, interval->high), LINE_MM});
    }
}

/* Short slanting strokes over what cannot be held. */
static void draw_hatch(const Track *track)
{
    const PlumbRuler *ruler = track->ruler;
    const double pitch = track->width_mm / fmax(1.0, ruler->held_count - 1);
    for (int i = 0; i < ruler->held_count; i++) {
        if (!ruler->held[i]) {
            const double x = track->left_mm + pitch * i;
            plumb_scene_line(track->board.scene, PEN_RULE, track->tag,
                             (PlumbVec2){x - 0.5 * HATCH_MM, LINE_MM},
                             (PlumbVec2){x + 0.5 * HATCH_MM, LINE_MM - HATCH_MM});
        }
    }
}

/* Least and greatest of the known values; false where there are none. */
static bool span_of(const PlumbRuler *ruler, const double *value, double *low, double *high)
{
    *low = HUGE_VAL;
    *high = -HUGE_VAL;
    for (int i = 0; i < ruler->held_count; i++) {
        if (isfinite(value[i])) {
            *low = fmin(*low, value[i]);
            *high = fmax(*high, value[i]);
        }
    }
    return *low <= *high;
}

static bool is_flat(const PlumbRuler *ruler, const double *value)
{
    double low = 0.0;
    double high = 0.0;
    return !span_of(ruler, value, &low, &high) || high - low < FLAT_M;
}

bool plumb_ruler_is_idle(const PlumbRuler *ruler)
{
    return ruler->held_count > 0 && is_flat(ruler, ruler->travel_m) && is_flat(ruler, ruler->arm_m);
}

/* A fine curve over the range, as high as the room above the line; broken where nothing holds. */
static void draw_curve(const Track *track, const double *value, PlumbDash dash)
{
    const PlumbRuler *ruler = track->ruler;
    const PlumbPen pen = {PLUMB_ROLE_ink, PLUMB_FINE_MM, dash, PLUMB_ROLE_none};
    double low = 0.0;
    double high = 0.0;
    if (is_flat(ruler, value) || !span_of(ruler, value, &low, &high)) {
        return;
    }
    PlumbVec2 point[PLUMB_RULER_SAMPLES];
    int count = 0;
    for (int i = 0; i <= ruler->held_count; i++) {
        const bool known = i < ruler->held_count && isfinite(value[i]);
        if (known) {
            const double share = (value[i] - low) / (high - low);
            point[count].x = track->left_mm + track->width_mm * i / (ruler->held_count - 1);
            point[count].y = LINE_MM - CURVE_LOW_MM - share * (LINE_MM - CURVE_LOW_MM - 0.4);
            count++;
        } else if (count > 1) {
            plumb_scene_path(track->board.scene, pen, track->tag, point, count, false);
        }
        count = known ? count : 0;
    }
}

static void draw_pointer(const Track *track, double value_si, PlumbPen pen)
{
    const double x = place(track, value_si);
    const PlumbVec2 tip[3] = {{x, LINE_MM},
                              {x - POINTER_MM, LINE_MM - 1.9 * POINTER_MM},
                              {x + POINTER_MM, LINE_MM - 1.9 * POINTER_MM}};
    plumb_scene_path(track->board.scene, pen, track->tag, tip, 3, true);
}

static void draw_pointers(const Track *track)
{
    const PlumbRuler *ruler = track->ruler;
    const PlumbPen hollow = {PLUMB_ROLE_pencil, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_paper};
    const PlumbPen solid = {PLUMB_ROLE_ink, PLUMB_FINE_MM, PLUMB_SOLID, PLUMB_ROLE_ink};
    if (isfinite(ruler->pencil_si)) {
        draw_pointer(track, ruler->pencil_si, hollow);
    }
    if (!isfinite(ruler->value_si)) {
        return;
    }
    if (ruler->follows) {
        const double x = place(track, ruler->value_si);
        plumb_scene_line(track->board.scene, PEN_OUTLINE, track->tag,
                         (PlumbVec2){x, LINE_MM - 1.9 * POINTER_MM}, (PlumbVec2){x, LINE_MM});
    } else {
        draw_pointer(track, ruler->value_si, solid);
    }
}

void plumb_compose_ruler(PlumbScene *scene, const PlumbDrawing *drawing, const PlumbRuler *ruler,
                         double width_mm)
{
    const PlumbSetting *setting = plumb_setting(ruler->id);
    plumb_scene_begin(scene, width_mm, PLUMB_RULER_MM);
    PlumbText title = plumb_text_begin(scene->title, sizeof scene->title);
    plumb_text_string(&title, setting->meaning);
    const Track track = {{scene, drawing},
                         ruler,
                         {PLUMB_TAG_SETTING, (int)ruler->id},
                         PLUMB_RULER_AIR_MM,
                         width_mm - 2.0 * PLUMB_RULER_AIR_MM,
                         plumb_quantity_factor(setting->quantity, drawing->units)};
    const double major = round_step(&track, number_room(&track));
    draw_range(&track, &ruler->window, PLUMB_MEDIUM_MM + PLUMB_FINE_MM);
    draw_range(&track, &ruler->low_effort, 1.8 * PLUMB_HEAVY_MM);
    plumb_scene_line(scene, PEN_FINE, track.tag, (PlumbVec2){track.left_mm, LINE_MM},
                     (PlumbVec2){track.left_mm + track.width_mm, LINE_MM});
    draw_ticks(&track, round_step(&track, MINOR_LEAST_MM), TICK_MM);
    draw_ticks(&track, major, MAJOR_MM);
    draw_numbers(&track, major);
    draw_hatch(&track);
    draw_curve(&track, ruler->travel_m, PLUMB_SOLID);
    draw_curve(&track, ruler->arm_m, PLUMB_DASHED);
    draw_pointers(&track);
}
