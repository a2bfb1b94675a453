/* SPDX-License-Identifier: MIT */
/* A lifter's own start in words and as JSON, wherever it came from. */
#include "own_start.h"

#include "text_out.h"

enum { LINE_SIZE = 640 };

void plumb_print_own_start(const PlumbOwnStart *own, PlumbUnits units, PlumbCliOutput *out)
{
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_print_heading(out, "Own start");
    plumb_text_string(&text, "  ");
    plumb_own_start_text(&text, own, units);
    plumb_print_wrapped(out, line, 2);
}

void plumb_json_own_start(PlumbJson json, const PlumbOwnStart *own)
{
    const PlumbJson object = plumb_json_object(json, "own_start");
    char line[LINE_SIZE];
    PlumbText text = plumb_text_begin(line, sizeof line);
    plumb_own_start_text(&text, own, PLUMB_METRIC);
    plumb_json_number(object, "hip_height_m", own->hip_height_m);
    plumb_json_string(object, "window", plumb_place_name(own->window));
    plumb_json_string(object, "low_effort_range", plumb_place_name(own->low_effort));
    plumb_json_number(object, "expected_hip_rise_m", own->hip_rise_m);
    plumb_json_string(object, "reason", plumb_end_name(own->hip_rise_end));
    plumb_json_string(object, "text", line);
}
