/* SPDX-License-Identifier: MIT */
/* The figures of a page as CSV, SI throughout. */
#include "export_page.h"

#include "page_trace.h"
#include "pages.h"
#include "reel.h"
#include "ruler.h"

#include <math.h>
#include <stdlib.h>

enum { CSV_BYTES = 1 << 18, FILM_ROW_BYTES = 512 };

/* Nothing stands where there is no figure. */
static void number(PlumbText *text, double value)
{
    plumb_text_char(text, ',');
    if (isfinite(value)) {
        plumb_text_fixed(text, value, 6);
    }
}

static void name(PlumbText *text, const PlumbDesk *desk, int figure)
{
    plumb_lift_output_key(text, desk->now.lift, figure);
}

/* Standard deviation and the bounds of 95 %, empty where they are not drawn yet. */
static void spread(const PlumbDesk *desk, PlumbText *text, int figure)
{
    const PlumbEstimate *const of = plumb_sure_of(desk, figure);
    number(text, of != NULL ? of->sd : (double)NAN);
    number(text, of != NULL ? of->low : (double)NAN);
    number(text, of != NULL ? of->high : (double)NAN);
}

static void drawing(const PlumbDesk *desk, PlumbText *text)
{
    const bool pencil = plumb_desk_pencil_shown(desk); /* then spreads are of the differences */
    plumb_text_string(text, pencil ? "figure,value\n" : "figure,value,sd,low,high\n");
    for (int i = 0; i < plumb_lift_output_count(desk->now.lift); i++) {
        if (plumb_lift_output_applies(desk->now.lift, i)) {
            name(text, desk, i);
            number(text, plumb_solved_value(&plumb_desk_inked(desk)->solved, i));
            if (!pencil) {
                spread(desk, text, i);
            }
            plumb_text_char(text, '\n');
        }
    }
}

static void path(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbFamily *const family = plumb_desk_family(desk);
    plumb_text_string(text, "u,bar_x_m,bar_height_m,");
    plumb_text_string(text, family->angle_name);
    for (int j = 0; j < family->arm_count; j++) {
        plumb_text_char(text, ',');
        plumb_text_string(text, family->arm_name(j));
        plumb_text_string(text, "_moment_n_m");
    }
    plumb_text_char(text, '\n');
    for (int i = 0; i < desk->way.count; i++) {
        const PlumbWayPoint *const step = &desk->way.step[i];
        plumb_text_fixed(text, step->u, 6);
        number(text, step->held ? step->bar_m.x : (double)NAN);
        number(text, step->held ? step->bar_m.y : (double)NAN);
        number(text, step->held ? step->angle_rad : (double)NAN);
        for (int j = 0; j < family->arm_count; j++) {
            number(text, step->held ? step->moment_n_m[j] : (double)NAN);
        }
        plumb_text_char(text, '\n');
    }
}

static void compare(const PlumbDesk *desk, PlumbText *text)
{
    const int count = plumb_desk_pencil_shown(desk) ? plumb_lift_output_count(desk->now.lift) : 0;
    plumb_text_string(text, "figure,inked,pencilled,change,change_sd,change_low,change_high\n");
    for (int i = 0; i < count; i++) {
        const PlumbDifference *const of = &desk->against.of[i];
        if (plumb_lift_output_applies(desk->now.lift, i)) {
            name(text, desk, i);
            number(text, of->second);
            number(text, of->first);
            number(text, of->change);
            spread(desk, text, i);
            plumb_text_char(text, '\n');
        }
    }
}

static void map(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbMap *const it = &desk->map;
    const PlumbSetting *const x = plumb_setting(it->x);
    const PlumbSetting *const y = plumb_setting(it->y);
    plumb_text_string(text, x->json_key);
    plumb_text_char(text, ',');
    plumb_text_string(text, y->json_key);
    plumb_text_char(text, ',');
    name(text, desk, plumb_map_figure(desk));
    plumb_text_char(text, '\n');
    for (int up = 0; it->shown > 0 && up < PLUMB_MAP_ROWS; up += it->shown) {
        for (int column = 0; column < PLUMB_MAP_COLUMNS; column += it->shown) {
            plumb_text_fixed(
                text, x->min_si + (x->max_si - x->min_si) * column / (PLUMB_MAP_COLUMNS - 1), 6);
            number(text, y->min_si + (y->max_si - y->min_si) * up / (PLUMB_MAP_ROWS - 1));
            number(text, it->value[up][column]);
            plumb_text_char(text, '\n');
        }
    }
}

PlumbStatus plumb_export_csv(const PlumbDesk *desk, char **bytes, size_t *length, PlumbError *error)
{
    static void (*const WRITE[PLUMB_PAGE_COUNT])(const PlumbDesk *, PlumbText *) = {
        drawing, path, compare, map, plumb_trace_csv};
    const PlumbReel *const reel = plumb_reel_of(desk);
    const size_t rows =
        desk->page == PLUMB_PAGE_TRACE && reel != NULL ? (size_t)reel->frame_count : 0;
    const size_t size = CSV_BYTES + rows * FILM_ROW_BYTES;
    char *const buffer = malloc(size);
    if (buffer == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "export", "out of memory");
    }
    PlumbText text = plumb_text_begin(buffer, size);
    WRITE[desk->page](desk, &text);
    *bytes = buffer;
    *length = text.length;
    return PLUMB_OK;
}
