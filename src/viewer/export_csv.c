/* SPDX-License-Identifier: MIT */
/* The figures of a page as CSV, SI throughout. */
#include "export_page.h"

#include "page_trace.h"
#include "pages.h"
#include "ruler.h"

#include <math.h>
#include <stdlib.h>

enum { CSV_BYTES = 1 << 18 };

/* Nothing stands where there is no figure. */
static void number(PlumbText *text, double value)
{
    plumb_text_char(text, ',');
    if (isfinite(value)) {
        plumb_text_fixed(text, value, 6);
    }
}

static void name(PlumbText *text, const PlumbDesk *desk, PlumbOutput output)
{
    plumb_text_string(text, plumb_output_name(output));
    plumb_text_string(text, plumb_output_unit(output, desk->now.lift));
}

static void drawing(const PlumbDesk *desk, PlumbText *text)
{
    plumb_text_string(text, "figure,value\n");
    for (int i = 0; i < PLUMB_OUTPUT_COUNT; i++) {
        if (plumb_output_applies((PlumbOutput)i, desk->now.lift)) {
            name(text, desk, (PlumbOutput)i);
            number(text, plumb_output_value(plumb_desk_inked(desk), (PlumbOutput)i));
            plumb_text_char(text, '\n');
        }
    }
}

static void path(const PlumbDesk *desk, PlumbText *text)
{
    plumb_text_string(text, "u,bar_x_m,bar_height_m,back_angle_rad");
    for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
        plumb_text_char(text, ',');
        plumb_text_string(text, plumb_joint_name((PlumbJoint)j));
        plumb_text_string(text, "_moment_n_m");
    }
    plumb_text_char(text, '\n');
    for (int i = 0; i < desk->way.count; i++) {
        const PlumbPathPoint *const point = &desk->way.point[i];
        plumb_text_fixed(text, point->u, 6);
        number(text, point->held ? point->position.point[PLUMB_PT_bar].x : (double)NAN);
        number(text, point->held ? point->position.point[PLUMB_PT_bar].y : (double)NAN);
        number(text, point->held ? point->position.angle_rad[PLUMB_ANG_back] : (double)NAN);
        for (int j = 0; j < PLUMB_JOINT_COUNT; j++) {
            number(text, point->held ? point->position.moment_both_n_m[j] : (double)NAN);
        }
        plumb_text_char(text, '\n');
    }
}

static void compare(const PlumbDesk *desk, PlumbText *text)
{
    plumb_text_string(text, "figure,inked,pencilled,change,change_sd\n");
    for (int i = 0; i < PLUMB_OUTPUT_COUNT && plumb_desk_pencil_shown(desk); i++) {
        const PlumbDifference *const of = &desk->against.of[i];
        if (plumb_output_applies((PlumbOutput)i, desk->now.lift)) {
            name(text, desk, (PlumbOutput)i);
            number(text, of->second);
            number(text, of->first);
            number(text, of->change);
            number(text, of->spread.sd);
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
    name(text, desk, plumb_map_output(desk));
    plumb_text_char(text, '\n');
    for (int row = 0; it->shown > 0 && row < PLUMB_MAP_ROWS; row += it->shown) {
        for (int column = 0; column < PLUMB_MAP_COLUMNS; column += it->shown) {
            plumb_text_fixed(
                text, x->min_si + (x->max_si - x->min_si) * column / (PLUMB_MAP_COLUMNS - 1), 6);
            number(text, y->min_si + (y->max_si - y->min_si) * row / (PLUMB_MAP_ROWS - 1));
            number(text, it->value[row][column]);
            plumb_text_char(text, '\n');
        }
    }
}

PlumbStatus plumb_export_csv(const PlumbDesk *desk, char **bytes, size_t *length, PlumbError *error)
{
    static void (*const WRITE[PLUMB_PAGE_COUNT])(const PlumbDesk *, PlumbText *) = {
        drawing, path, compare, map, plumb_trace_csv};
    char *const buffer = malloc(CSV_BYTES);
    if (buffer == NULL) {
        return plumb_error_set(error, PLUMB_OUT_OF_MEMORY, "export", "out of memory");
    }
    PlumbText text = plumb_text_begin(buffer, CSV_BYTES);
    WRITE[desk->page](desk, &text);
    *bytes = buffer;
    *length = text.length;
    return PLUMB_OK;
}
