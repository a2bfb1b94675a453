/* SPDX-License-Identifier: MIT */
/* The Trace page as a line of words, for scripts. */
#include "page_trace.h"

#include "reel.h"

static void number(PlumbText *text, const char *key, double value, int decimals)
{
    plumb_text_char(text, ' ');
    plumb_text_string(text, key);
    plumb_text_char(text, '=');
    plumb_text_fixed(text, value, decimals);
}

/* What a still tells first. */
static void number_read(PlumbText *text, PlumbLift lift, const PlumbTraced *traced)
{
    if (lift == PLUMB_BENCH) {
        number(text, "bar_read_m", traced->value[PLUMB_READ_bar_from_shoulder], 4);
        number(text, "bar_sd_m", traced->sd[PLUMB_READ_bar_from_shoulder], 4);
        number(text, "upper_arm_read_rad", traced->value[PLUMB_READ_upper_arm], 4);
        return;
    }
    number(text, "hip_read_m", traced->value[PLUMB_READ_hip_height], 4);
    number(text, "hip_sd_m", traced->sd[PLUMB_READ_hip_height], 4);
    number(text, "back_read_rad", traced->value[PLUMB_ANG_back], 4);
}

void plumb_trace_state(const PlumbDesk *desk, PlumbText *text)
{
    const PlumbMarked *const marked = &desk->now.marked;
    const PlumbTracing *const t = desk->tracing;
    const PlumbTraced *const traced = plumb_trace_read(desk);
    PlumbMarkRow row[PLUMB_MARK_ROWS_MAX];
    plumb_mark_rows(marked, desk->now.lift, row);
    plumb_text_string(text, " picture=\"");
    plumb_text_string(text, plumb_trace_picture(desk));
    plumb_text_char(text, '"');
    number(text, "pictures", marked->marks.still_count, 0);
    number(text, "still", marked->still, 0);
    number(text, "marks", marked->marks.count, 0);
    plumb_text_string(text, marked->unsaved ? " marks_unsaved=yes" : " marks_unsaved=no");
    plumb_text_string(text, !marked->front[plumb_marked_view(marked)] ? " view=side"
                            : desk->now.lift == PLUMB_BENCH           ? " view=end"
                                                                      : " view=front");
    plumb_text_string(text, marked->facing[plumb_marked_view(marked)] < 0 ? " faces=left"
                                                                          : " faces=right");
    plumb_text_string(text, plumb_marked_told(marked, PLUMB_TOLD_floor) < 0.0 ? " floor=no"
                                                                              : " floor=yes");
    number(text, "distance_m", plumb_marked_told(marked, PLUMB_TOLD_distance_m), 2);
    number(text, "scale_m", plumb_marked_told(marked, PLUMB_TOLD_scale_m), 2);
    plumb_reel_state(desk, text);
    plumb_text_string(text, " row=");
    plumb_mark_name_text(text, row[t->row].name);
    const int last = plumb_marked_last(marked, row[t->row].name);
    if (last >= 0) {
        number(text, "mark_x_px", marked->marks.mark[last].x_px, 2);
        number(text, "mark_y_px", marked->marks.mark[last].y_px, 2);
    }
    number(text, "mm_per_px", t->view.mm_per_px, 4);
    number(text, "view_x_mm", t->view.at_mm.x, 2);
    number(text, "view_y_mm", t->view.at_mm.y, 2);
    number(text, "figures_from", t->first_item[PLUMB_READ_FIGURES], 0);
    number(text, "notes_from", t->first_item[PLUMB_READ_NOTES], 0);
    plumb_text_string(text, t->magnified ? " magnifier=yes" : " magnifier=no");
    plumb_text_string(text, t->stale ? " fit=due" : traced == NULL ? " fit=none" : " fit=made");
    if (traced != NULL) {
        number(text, "misfit", traced->misfit, 2);
        number_read(text, desk->now.lift, traced);
        number(text, "findings", t->stills.finding_count[t->fitted[plumb_marked_view(marked)]], 0);
    }
}
